// Somebody with the sqlite3 shell: whatever is changed, the entry is named and the vessel is held.
#include "tests/core/yard/played_yard.h"
#include "tests/support/suite.h"

#include <QTest>
#include <SQLiteCpp/SQLiteCpp.h>

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
