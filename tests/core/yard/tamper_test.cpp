// Somebody with the sqlite3 shell: whatever is changed, the entry is named and the vessel is held.
#include "tests/core/yard/played_yard.h"
#include "tests/support/suite.h"

#include <QTest>
#include <SQLiteCpp/SQLiteCpp.h>

#include <random>
#include <set>

using namespace brimful;

class TamperTest : public QObject {
    Q_OBJECT

    QTemporaryDir m_folder;
    std::filesystem::path m_demo;

    // A copy of the demo yard, bound to this machine still.
    std::filesystem::path copy(const QTemporaryDir& into)
    {
        const std::filesystem::path where = (into.path() + QStringLiteral("/yard")).toStdString();
        std::filesystem::copy(m_demo, where, std::filesystem::copy_options::recursive);
        return where;
    }
    static void edit(const std::filesystem::path& yard, const std::string& sql)
    {
        SQLite::Database db((yard / "ledger.db").string(), SQLite::OPEN_READWRITE);
        db.exec("DROP TRIGGER entry_is_kept");
        db.exec("DROP TRIGGER entry_is_fixed");
        db.exec(sql);
    }
    static std::string one(const std::filesystem::path& yard, const std::string& sql)
    {
        SQLite::Database db((yard / "ledger.db").string());
        return db.execAndGet(sql).getString();
    }

private slots:
    void initTestCase()
    {
        m_demo = (m_folder.path() + QStringLiteral("/demo")).toStdString();
        test::makeDemo(m_demo);
    }

    void intactAtFirst()
    {
        const auto clock = yard::systemClock();
        auto yard = yard::Yard::open(m_demo, yard::Access::ReadOnly, *clock);
        QVERIFY(yard);
        const auto verification = yard->verify();
        QVERIFY(verification);
        for (const ledger::Finding& finding : verification->findings) {
            qWarning("row %llu flaw %d", static_cast<unsigned long long>(finding.row), static_cast<int>(finding.flaw));
        }
        QVERIFY(verification->intact());
        QVERIFY(verification->entries > 200);
        QVERIFY(verification->signatures > verification->entries);
    }

    void holdsWhatWasChanged_data()
    {
        QTest::addColumn<QString>("pick"); // the row that is named: SQL that gives lower(hex(hash)), before the edit
        QTest::addColumn<QString>("sql");
        const char* newest_of_nq01 = "SELECT lower(hex(hash)) FROM entry WHERE vessel = (SELECT vessel FROM entry WHERE kind = 'released' "
                                     "ORDER BY row DESC LIMIT 1) ORDER BY row DESC LIMIT 1";
        QTest::newRow("one byte of a body") << newest_of_nq01
                                            << "UPDATE entry SET body = replace(body, '\"seq\":', '\"seq\": ') WHERE row = (SELECT "
                                               "max(row) FROM entry WHERE vessel = (SELECT "
                                               "vessel FROM entry WHERE kind = 'released' ORDER BY row DESC LIMIT 1))";
        QTest::newRow("a reading made nicer")
            << "SELECT lower(hex(hash)) FROM entry WHERE json_extract(body, '$.payload.step') = 'readings-wet' ORDER BY row DESC LIMIT 1"
            << "UPDATE entry SET body = replace(body, '20.9 %', '20.8 %') WHERE row = (SELECT max(row) FROM entry WHERE json_extract(body, "
               "'$.payload.step') = 'readings-wet')";
        QTest::newRow("two signatures swapped") << "SELECT lower(hex(hash)) FROM entry WHERE kind = 'released' ORDER BY row DESC LIMIT 1"
                                                << "UPDATE entry SET person_sig = (SELECT person_sig FROM entry WHERE kind = 'released' "
                                                   "ORDER BY row LIMIT 1) WHERE row = (SELECT max(row) FROM entry WHERE kind = "
                                                   "'released')";
        QTest::newRow("device signature") << newest_of_nq01
                                          << "UPDATE entry SET device_sig = zeroblob(64) WHERE row = (SELECT max(row) FROM entry WHERE "
                                             "vessel = (SELECT vessel FROM entry WHERE "
                                             "kind = 'released' ORDER BY row DESC LIMIT 1))";
        QTest::newRow("an index column") << newest_of_nq01
                                         << "UPDATE entry SET kind = 'event' WHERE row = (SELECT max(row) FROM entry WHERE vessel = "
                                            "(SELECT vessel FROM entry WHERE kind = "
                                            "'released' ORDER BY row DESC LIMIT 1))";
    }
    void holdsWhatWasChanged()
    {
        QFETCH(const QString, pick);
        QFETCH(const QString, sql);
        const QTemporaryDir into;
        const auto where = copy(into);
        const std::string hash = one(where, pick.toStdString());
        edit(where, sql.toStdString());
        const auto clock = yard::systemClock();
        auto yard = yard::Yard::open(where, yard::Access::ReadOnly, *clock);
        QVERIFY(yard);
        const auto verification = yard->verify();
        QVERIFY(verification);
        QVERIFY(!verification->intact());
        const bool named = std::ranges::any_of(
            verification->findings, [&](const ledger::Finding& finding) { return canon::toHex(finding.entry) == hash; });
        QVERIFY(named);
        const auto audit = yard->audit("NQ-01", "first-cut");
        QVERIFY(audit);
        QVERIFY(!audit->released);
        QVERIFY(!audit->verified.intact());
    }

    // Any row deleted, the newest too, never grants more.
    void holdsWhenARowIsDeleted_data()
    {
        QTest::addColumn<int>("from_end");
        for (const int n : {0, 1, 2, 5, 9}) {
            QTest::newRow(qPrintable(QString::number(n))) << n;
        }
    }
    void holdsWhenARowIsDeleted()
    {
        QFETCH(const int, from_end);
        const QTemporaryDir into;
        const auto where = copy(into);
        edit(where,
            "DELETE FROM entry WHERE row = (SELECT row FROM entry ORDER BY row DESC LIMIT 1 OFFSET " + std::to_string(from_end) + ")");
        const auto clock = yard::systemClock();
        auto yard = yard::Yard::open(where, yard::Access::ReadOnly, *clock);
        QVERIFY(yard);
        const auto verification = yard->verify();
        QVERIFY(verification && !verification->intact());
        const auto audit = yard->audit("NQ-01", "first-cut");
        QVERIFY(audit);
        QVERIFY(!audit->released);
    }

    // A stop deleted, with another vessel's entry right after it: nothing in its own vessel's history tells that it is gone.
    void aDeletedStopHoldsItsVessel()
    {
        const QTemporaryDir into;
        const auto where = copy(into);
        const auto clock = yard::systemClock();
        {
            auto yard = yard::Yard::open(where, yard::Access::ReadWrite, *clock);
            QCOMPARE(yard->vessel("NQ-01")->standing.state, rules::State::Released);
            QVERIFY(yard->event("NQ-01", "stop", {}));
            QVERIFY(yard->event("NQ-02", "moved", {}));
        }
        edit(where, "DELETE FROM entry WHERE row = (SELECT max(row) - 1 FROM entry)");
        auto yard = yard::Yard::open(where, yard::Access::ReadOnly, *clock);
        QVERIFY(yard->vessel("NQ-01")->standing.state != rules::State::Released);
        QCOMPARE(yard->vessel("NQ-01")->word, report::PlateWord::RecordDamaged);
    }

    // A stop made another vessel's, in its body and beside it: both vessels are held.
    void aStopMovedToAnotherVessel()
    {
        const QTemporaryDir into;
        const auto where = copy(into);
        const auto clock = yard::systemClock();
        std::string from;
        std::string to;
        {
            auto yard = yard::Yard::open(where, yard::Access::ReadWrite, *clock);
            from = canon::toHex(yard->vessel("NQ-01")->id);
            to = canon::toHex(yard->vessel("NQ-02")->id);
            QVERIFY(yard->event("NQ-01", "stop", {}));
            QVERIFY(yard->event("NQ-02", "moved", {}));
        }
        edit(where,
            "UPDATE entry SET vessel = x'" + to + "', body = replace(body, '\"vessel\":\"" + from + "\"', '\"vessel\":\"" + to
                + "\"') WHERE row = (SELECT max(row) - 1 FROM entry)");
        auto yard = yard::Yard::open(where, yard::Access::ReadOnly, *clock);
        QCOMPARE(yard->vessel("NQ-01")->word, report::PlateWord::RecordDamaged);
        QCOMPARE(yard->vessel("NQ-02")->word, report::PlateWord::RecordDamaged);
    }

    // Histories that end shortly after a release, one row deleted, the newest as likely as any: never more is granted than before.
    void anyRowDeletedNeverGrantsMore()
    {
        const bool deep = qEnvironmentVariableIsSet("BRIMFUL_DEEP");
        const int ledgers = deep ? 200 : 3;
        const int each = deep ? 5 : 3;
        const canon::Json whole = test::demoScenario();
        const canon::Json& acts = *whole.find("do");
        std::vector<std::size_t> releases;
        for (std::size_t i = 0; i < acts.items.size(); ++i) {
            if (acts.items[i].textOf("act") == "release" && acts.items[i].find("refused") == nullptr) {
                releases.push_back(i);
            }
        }
        std::mt19937 random(31);
        const auto upTo = [&](std::size_t limit) { return std::uniform_int_distribution<std::size_t>(0, limit)(random); };
        std::size_t granted_before = 0;
        std::size_t granted_after = 0;
        int deletions = 0;
        for (int i = 0; i < ledgers; ++i) {
            canon::Json scenario = whole;
            for (canon::Member& member : scenario.members) {
                if (member.key == "do") {
                    const std::size_t end = releases[deep ? upTo(releases.size() - 1) : releases.size() - 1 - static_cast<std::size_t>(i)];
                    member.value.items.resize(std::min(acts.items.size(), end + 1 + upTo(2)));
                }
            }
            const QTemporaryDir folder;
            const std::filesystem::path made = (folder.path() + QStringLiteral("/made")).toStdString();
            QVERIFY(yard::play(scenario, made, test::kStart));
            const auto newest = [&] {
                const auto ledger = ledger::Ledger::open(made / "ledger.db", ledger::Mode::ReadOnly);
                ledger::Moment at;
                (void)ledger->stream([&](const ledger::Stored& row) {
                    at = ledger::decode(row.body)->at;
                    return true;
                });
                return at;
            }();
            const yard::ScriptedClock clock({newest.wall_ms + 1000, newest.boot_ms + 1000, newest.boot, ledger::ClockState::Ok});
            const auto granted = [&](const std::filesystem::path& where) {
                std::set<std::pair<std::string, std::size_t>> all;
                auto yard = yard::Yard::open(where, yard::Access::ReadOnly, clock);
                for (const std::string& number : yard ? yard->vessels() : std::vector<std::string>()) {
                    const auto folded = yard->folded(number);
                    const auto standing = rules::standing(yard->pack(), folded->evidence);
                    for (std::size_t one = 0; one < standing.hold_points.size(); ++one) {
                        if (standing.hold_points[one].state == rules::State::Released) {
                            all.emplace(number, one);
                        }
                    }
                }
                return all;
            };
            const auto before = granted(made);
            granted_before += before.size();
            const int rows = std::stoi(one(made, "SELECT count(*) FROM entry"));
            for (int n = 0; n < each; ++n) {
                const std::size_t from_end = n == 0 ? 0 : upTo(static_cast<std::size_t>(rows) - 1);
                const std::filesystem::path where = (folder.path() + QStringLiteral("/cut%1").arg(n)).toStdString();
                std::filesystem::copy(made, where, std::filesystem::copy_options::recursive);
                edit(where,
                    "DELETE FROM entry WHERE row = (SELECT row FROM entry ORDER BY row DESC LIMIT 1 OFFSET " + std::to_string(from_end)
                        + ")");
                const auto after = granted(where);
                granted_after += after.size();
                QVERIFY2(std::ranges::includes(before, after), qPrintable(QString("ledger %1, %2 from the end").arg(i).arg(from_end)));
                ++deletions;
                std::filesystem::remove_all(where);
            }
        }
        qInfo(
            "%d ledgers with %zu releases in force, %d rows deleted, %zu releases left", ledgers, granted_before, deletions, granted_after);
        QVERIFY(granted_before > 0);
    }

    // Yesterday's file put back: the tag that was printed since knows better.
    void tagKnowsWhatARestoredFileForgot()
    {
        const QTemporaryDir into;
        const auto where = copy(into);
        const auto clock = yard::systemClock();
        std::string tag;
        {
            auto yard = yard::Yard::open(where, yard::Access::ReadWrite, *clock);
            QVERIFY(yard);
            const auto printed = yard->printTag("NQ-02", "100x150", 0, false);
            QVERIFY(printed);
            tag = printed->text;
        }
        const QTemporaryDir old;
        const auto restored = copy(old); // the demo as it was before that tag
        auto yard = yard::Yard::open(restored, yard::Access::ReadWrite, *clock);
        QVERIFY(yard);
        const auto answer = yard->recordTag(tag, "scan");
        QVERIFY(answer);
        QVERIFY(answer->genuine);
        QVERIFY(!answer->head_known);
        const auto view = yard->vessel("NQ-02");
        QVERIFY(view);
        QCOMPARE(view->word, report::PlateWord::RecordDamaged);
        // Two people accept the gap; the vessel is whole again and must be proven again.
        QVERIFY(yard->acceptGap("NQ-02", "backup restored", {"Ada", "480263", {}}, {"Rosa", "739158", {}}));
        const auto after = yard->vessel("NQ-02");
        QVERIFY(after);
        QCOMPARE(after->word, report::PlateWord::Held);
        QCOMPARE(after->standing.state, rules::State::Held);
    }
};

BRIMFUL_SUITE(TamperTest);
#include "tamper_test.moc"
