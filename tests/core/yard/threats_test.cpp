// What a person in a hurry, or one who means ill, may try with tags, clocks and rules: each is met by name.
#include "tests/core/yard/played_yard.h"
#include "tests/support/suite.h"

#include <QTest>
#include <SQLiteCpp/SQLiteCpp.h>

#include <fstream>

using namespace brimful;
using report::Why;

class ThreatsTest : public QObject {
    Q_OBJECT

    QTemporaryDir m_folder;
    std::filesystem::path m_demo;

    std::filesystem::path copy(const QTemporaryDir& into)
    {
        const std::filesystem::path where = (into.path() + QStringLiteral("/yard")).toStdString();
        std::filesystem::copy(m_demo, where, std::filesystem::copy_options::recursive);
        return where;
    }

private slots:
    void initTestCase()
    {
        m_demo = (m_folder.path() + QStringLiteral("/demo")).toStdString();
        test::makeDemo(m_demo);
    }

    // Every tag but the newest of fifty says that it is old, and was printed by this yard all the same.
    void olderTags()
    {
        const QTemporaryDir into;
        const auto clock = yard::systemClock();
        auto yard = yard::Yard::open(copy(into), yard::Access::ReadWrite, *clock);
        std::vector<std::string> tags;
        for (int i = 0; i < 50; ++i) {
            tags.push_back(yard->printTag("NQ-01", "100x150", 0, false)->text);
        }
        for (std::size_t i = 0; i < tags.size(); ++i) {
            const auto answer = yard->readTag(tags[i]);
            QVERIFY(answer && answer->genuine && answer->head_known);
            QCOMPARE(answer->newest, i + 1 == tags.size());
            QVERIFY(answer->newest || !answer->still_true);
        }
    }

    // The tag of one vessel hung on another: it names its own vessel, whatever it hangs on, and releases nothing there.
    void aTagOnAnotherVessel()
    {
        canon::Json scenario = test::demoScenario();
        canon::Json* acts = nullptr;
        for (canon::Member& member : scenario.members) {
            acts = member.key == "do" ? &member.value : acts;
        }
        QVERIFY(acts != nullptr);
        const auto release = std::ranges::find_if(acts->items, [](const canon::Json& act) {
            return act.textOf("act") == "release" && act.textOf("vessel") == "NQ-01" && act.textOf("hold_point") == "first-cut";
        });
        QVERIFY(release != acts->items.end());
        canon::Json swapped = *release; // the same people, the same answers, NQ-02's newest tag
        swapped.set("tag", "of NQ-02").set("refused", "held");
        acts->items.insert(release, swapped);
        const QTemporaryDir folder;
        const auto played = yard::play(scenario, (folder.path() + QStringLiteral("/yard")).toStdString(), test::kStart);
        QVERIFY(played);
        QVERIFY2(played->unmet.empty(), played->unmet.empty() ? "" : played->unmet.front().found.c_str());
        std::vector<std::string> outcomes;
        for (const yard::PlayedLine& line : played->lines) {
            if (line.act == "release" && line.vessel == "NQ-01" && line.what == "first-cut") {
                outcomes.push_back(line.outcome);
            }
        }
        QCOMPARE(outcomes, (std::vector<std::string>{"held", "done"})); // its own tag, a moment later, releases it

        const QTemporaryDir into;
        const auto clock = yard::systemClock();
        auto yard = yard::Yard::open(copy(into), yard::Access::ReadWrite, *clock);
        const auto other = yard->printTag("NQ-02", "100x150", 0, false);
        const auto own = yard->printTag("NQ-01", "100x150", 0, false);
        QVERIFY(other && own);
        QCOMPARE(yard->readTag(other->text)->vessel, std::string("NQ-02"));
        QCOMPARE(yard->readTag(own->text)->vessel, std::string("NQ-01"));
    }

    // One byte of a photograph changed after it was signed for: what it proved is no longer proven, and the file is named.
    void aPhotographWasChanged()
    {
        test::Crew crew;
        auto yard = crew.open();
        QVERIFY(yard.admit(test::json(R"({"number": "NQ-01"})"), crew.tam));
        const std::filesystem::path photo = crew.folder.filePath("photo.jpg").toStdString();
        std::ofstream(photo, std::ios::binary) << "\xff\xd8\xff the bytes of a photograph";
        const rules::Index step = yard.pack().step("signs");
        QVERIFY(yard.record(
            {"NQ-01", "signs", test::json(R"({"brass": "plain", "smell": "nothing", "marks": "none"})"), {}, {}, {{"sign-photo", photo}}},
            crew.tam));
        QCOMPARE(yard.folded("NQ-01")->evidence.steps[step].lack, rules::Lack::None);
        QVERIFY(yard.verify()->intact());
        for (const auto& one : std::filesystem::recursive_directory_iterator(crew.yardFolder() / "evidence")) {
            if (one.is_regular_file()) {
                std::ofstream(one.path(), std::ios::binary | std::ios::app) << 'x';
            }
        }
        QCOMPARE(yard.folded("NQ-01")->evidence.steps[step].lack, rules::Lack::Attachment);
        QCOMPARE(yard.verify()->findings.front().flaw, ledger::Flaw::AttachmentDiffers);
    }

    // The rules in the program are not those that two people adopted: nothing is released under them.
    void thePackWasEdited()
    {
        test::Crew crew;
        auto yard = crew.open();
        QVERIFY(yard.admit(
            test::json(
                R"({"number": "NQ-01", "vessel": {"outside_diameter": "30 in", "wall": "1/4 in", "overall_length": "92 in", "heads": "hemispherical"}})"),
            crew.tam));
        QVERIFY(yard.folded("NQ-01")->evidence.whole);
        // Two people adopt another pack, one that this program does not carry; as if this program's had been changed since.
        const auto rows_before = yard.verify()->entries;
        const ledger::Person* ada = yard.state().personNamed("Ada");
        const ledger::Person* tam = yard.state().personNamed("Tam");
        auto ada_key = yard.device()->unlock(ada->id, crew.ada.pin, crew.clock.now().wall_ms);
        auto tam_key = yard.device()->unlock(tam->id, crew.tam.pin, crew.clock.now().wall_ms);
        auto file = ledger::Ledger::open(crew.yardFolder() / "ledger.db", ledger::Mode::ReadWrite);
        const auto write = [&](ledger::Kind kind, canon::Json payload, const PersonId& person, const std::string& role,
                               const people::SigningKey& key) {
            const auto tip = file->tip(yard.device()->id());
            ledger::Entry entry;
            entry.yard = yard.state().yard;
            entry.device = yard.device()->id();
            entry.seq = tip->seq + 1;
            entry.prev = tip->head;
            entry.parents = {*tip->head};
            entry.kind = kind;
            entry.payload = std::move(payload);
            entry.signer = ledger::Signer{person, role};
            entry.at = crew.clock.now();
            ledger::Stored row;
            row.body = ledger::encode(entry);
            row.hash = canon::leafHash(row.body);
            row.device_signature = yard.device()->sign(row.hash);
            row.person_signature = key.sign(people::kPersonDomain, row.hash);
            QVERIFY(file->append(std::span(&row, 1)));
        };
        canon::Json base = canon::Json::object();
        base.set("hash", canon::toHex(canon::sha256("looser rules"))).set("id", "base").set("version", 1);
        canon::Json adopted = canon::Json::object();
        adopted.set("law", "").set("overlays", canon::Json::array()).set("pack", base);
        write(ledger::Kind::PackAdopted, adopted, ada->id, "authoriser", *ada_key);
        canon::Json confirmed = canon::Json::object();
        confirmed.set("confirms", canon::toHex(*file->tip(yard.device()->id())->head));
        write(ledger::Kind::Confirmed, confirmed, tam->id, "operator", *tam_key);
        QVERIFY(yard.changedElsewhere());
        QCOMPARE(yard.verify()->entries, rows_before + 2);
        QVERIFY(!yard.folded("NQ-01")->evidence.whole);
        QCOMPARE(yard.vessel("NQ-01")->word, report::PlateWord::RecordDamaged);
    }

    // Somebody raises a stop while two people stand before the release: what they saw is not what they sign.
    void aStopWhileTheReleaseScreenIsOpen()
    {
        test::Crew crew;
        auto screen = crew.open();
        QVERIFY(screen.admit(
            test::json(
                R"({"number": "NQ-01", "vessel": {"outside_diameter": "30 in", "wall": "1/4 in", "overall_length": "92 in", "heads": "hemispherical"}})"),
            crew.tam));
        const auto first = screen.record(
            {"NQ-01", "what-it-was",
                test::json(
                    R"({"kind": "stationary-lpg", "substance": "propane", "proof-one": "supplier-record", "proof-two": "plate-and-fittings", "against": "nothing",
                "arrived": "closed"})"),
                {}, {}, {}},
            crew.ada);
        QVERIFY(first);
        {
            auto beside = crew.reopen(); // another program
            QVERIFY(beside.event("NQ-01", "concern", {}));
        }
        const auto second = screen.confirm(first->entry, crew.tam, "propane");
        QVERIFY(!second);
        QCOMPARE(second.error().why, Why::HeadMoved);
        QCOMPARE(screen.vessel("NQ-01")->word, report::PlateWord::Stopped);
    }

    // A clock set back before a reading is recorded: its age counts by the boot clock, not by what the wall clock claims.
    void aBackDatedReading()
    {
        test::Crew crew;
        auto yard = crew.open();
        const ledger::Moment before = crew.clock.now();
        crew.clock.jumpWall(30LL * 24 * 3'600'000); // dated a month ahead, so that it looks fresh for a month
        const ledger::Moment ahead = crew.clock.now();
        crew.clock.jumpWall(-30LL * 24 * 3'600'000);
        crew.clock.wait(45 * 60'000);
        const ledger::Moment now = crew.clock.now();
        QCOMPARE(*ledger::ageMs(yard.state(), ahead, now), std::int64_t(45 * 60'000));
        QCOMPARE(*ledger::ageMs(yard.state(), before, now), std::int64_t(45 * 60'000));
        crew.clock.reboot(60'000); // and across a start that nobody confirmed: no age at all
        QVERIFY(!ledger::ageMs(yard.state(), ahead, crew.clock.now()));
    }
};
BRIMFUL_SUITE(ThreatsTest);

#include "threats_test.moc"
