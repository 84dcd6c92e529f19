// Keys that are suspect or renewed, the recovery sheet, tags that are lost or hang on the wrong vessel, and a gap accepted once
// for the whole yard.
#include "tests/core/yard/played_yard.h"
#include "tests/support/suite.h"

#include <QTest>
#include <SQLiteCpp/SQLiteCpp.h>

#include <fstream>

using namespace brimful;
using report::Why;

namespace {

void admit(test::Crew& crew, yard::Yard& yard, const char* number)
{
    canon::Json request =
        test::json(R"({"vessel": {"outside_diameter": "30 in", "wall": "1/4 in", "overall_length": "92 in", "heads": "hemispherical"}})");
    request.set("number", number);
    QVERIFY(yard.admit(request, crew.tam));
}

yard::RecordRequest signs()
{
    return {"NQ-01", "signs", test::json(R"({"brass": "plain", "smell": "nothing", "marks": "none"})"), {}, {}, {}};
}

rules::Lack lackOf(yard::Yard& yard, const char* step) { return yard.folded("NQ-01")->evidence.steps[yard.pack().step(step)].lack; }

} // namespace

class YardKeysTest : public QObject {
    Q_OBJECT

private slots:
    void aSuspectKeyProvesNothing()
    {
        test::Crew crew;
        auto yard = crew.open();
        admit(crew, yard, "NQ-01");
        QVERIFY(yard.record(signs(), crew.tam));
        QCOMPARE(lackOf(yard, "signs"), rules::Lack::None);
        QCOMPARE(yard.suspectKey("Tam", "", {}, crew.ada).error().why, Why::MissingFact);
        QCOMPARE(yard.suspectKey("Nobody", "seen over the shoulder", {}, crew.ada).error().why, Why::UnknownPerson);
        QCOMPARE(yard.suspectKey("Tam", "seen over the shoulder", {}, crew.tam).error().why, Why::RoleNotHeld);
        QVERIFY(yard.suspectKey("Tam", "seen over the shoulder", {}, crew.ada));
        QCOMPARE(lackOf(yard, "signs"), rules::Lack::None); // it was known before anybody suspected
        QCOMPARE(yard.record(signs(), crew.tam).error().why, Why::KeySuspect);
        QCOMPARE(yard.suspectKey("Tam", "again", {}, crew.ada).error().why, Why::NothingToClear);
        QVERIFY(yard.verify()->intact());
    }

    // Since yesterday: what the key signed from then on counts no more, though it was known.
    void suspectSince()
    {
        test::Crew crew;
        auto yard = crew.open();
        admit(crew, yard, "NQ-01");
        const yard::RecordRequest support{"NQ-01", "hollow-places",
            test::json(R"({"openings-count": 5, "count": 0, "hollows": [], "can-be-holed": "none-there", "outside": "bare-or-paint"})"), {},
            {}, {}};
        QVERIFY(yard.record(support, crew.tam));
        crew.clock.wait(3'600'000);
        const std::int64_t since = yard.nowMs();
        QVERIFY(yard.record(signs(), crew.tam));
        crew.clock.wait(60'000);
        QVERIFY(yard.suspectKey("Tam", "a card was found", since, crew.ada));
        QCOMPARE(lackOf(yard, "signs"), rules::Lack::WrongPerson);
        QCOMPARE(lackOf(yard, "hollow-places"), rules::Lack::None); // an hour before
    }

    void aNewKeyIsRenewedByTwo()
    {
        test::Crew crew;
        auto yard = crew.open();
        const yard::Signing una{"Una", "264801", {}};
        QVERIFY(yard.addPerson({"Una", una.pin, {"watch"}, std::nullopt}, crew.ada));
        admit(crew, yard, "NQ-01");
        QVERIFY(yard.suspectKey("Tam", "the PIN stood on the wall", {}, crew.ada));
        const yard::Signing fresh{"Tam", "803517", {}};
        QCOMPARE(yard.renewKey(fresh, crew.ada, crew.ada).error().why, Why::SamePerson);
        QCOMPARE(yard.renewKey(fresh, crew.ada, fresh).error().why, Why::SamePerson);
        QCOMPARE(yard.renewKey(fresh, una, crew.ada).error().why, Why::RoleNotHeld);
        QCOMPARE(yard.renewKey({"Tam", "111111", {}}, crew.ada, una).error().why, Why::WeakPin);
        QCOMPARE(yard.record(signs(), crew.tam).error().why, Why::KeySuspect);
        const auto old = yard.device()->unlock(yard.state().personNamed("Tam")->id, crew.tam.pin, crew.clock.now().wall_ms);
        QVERIFY(old);
        QVERIFY(yard.renewKey(fresh, crew.ada, una));
        QVERIFY(yard.record(signs(), fresh));
        QCOMPARE(lackOf(yard, "signs"), rules::Lack::None); // the new key is not the suspect one
        QVERIFY(yard.verify()->intact());
        QVERIFY(crew.reopen().verify()->intact());
        // Who kept the old key signs with it: the entry is found, and the vessel is held.
        {
            auto file = ledger::Ledger::open(crew.yardFolder() / "ledger.db", ledger::Mode::ReadWrite);
            const auto tip = file->tip(yard.device()->id());
            const auto newest = ledger::decode((*file->byHash(*tip->head))->body);
            ledger::Entry entry = *newest;
            entry.seq = tip->seq + 1;
            entry.prev = tip->head;
            entry.parents = {*tip->head};
            ledger::Stored row;
            row.body = ledger::encode(entry);
            row.hash = canon::leafHash(row.body);
            row.device_signature = yard.device()->sign(row.hash);
            row.person_signature = old->sign(people::kPersonDomain, row.hash);
            QVERIFY(file->append(std::span(&row, 1)));
        }
        auto again = crew.reopen();
        const auto verification = again.verify();
        QCOMPARE(verification->findings.size(), std::size_t(1));
        QCOMPARE(verification->findings.front().flaw, ledger::Flaw::PersonSignature);
        QVERIFY(!again.folded("NQ-01")->evidence.whole);
    }

    // The last authoriser is gone, or has lost the PIN: the sheet enrols one, and every audit says so.
    void theRecoverySheet_data()
    {
        QTest::addColumn<QString>("who");
        QTest::newRow("somebody new") << "Ben";
        QTest::newRow("the same, who lost the PIN") << "Ada";
    }
    void theRecoverySheet()
    {
        QFETCH(QString, who);
        const QTemporaryDir folder;
        const std::filesystem::path where = (folder.path() + QStringLiteral("/yard")).toStdString();
        yard::ScriptedClock clock({test::kStart, 3'600'000, people::randomId<BootId>(), ledger::ClockState::Ok});
        const auto created = yard::Yard::create(where, {"Test yard", "Ada", "480263", "tablet", true, {}}, clock);
        QVERIFY(created);
        auto yard = yard::Yard::open(where, yard::Access::ReadWrite, clock);
        const yard::Signing fresh{who.toStdString(), "803517", {}};
        QCOMPARE(yard->recover("nonsense", fresh).error().why, Why::BadSheet);
        std::string wrong = created->recovery_sheet;
        wrong[5] = wrong[5] == 'A' ? 'B' : 'A';
        QCOMPARE(yard->recover(wrong, fresh).error().why, Why::BadSheet);
        QCOMPARE(yard->recover(created->recovery_sheet, {fresh.person, "123456", {}}).error().why, Why::WeakPin);
        QVERIFY(!yard->state().recovery_used);
        std::string typed = created->recovery_sheet; // as a hand types it
        typed.insert(10, " ").insert(20, "-");
        QVERIFY(yard->recover(typed, fresh));
        QVERIFY(yard->state().recovery_used);
        QVERIFY(yard->addPerson({"Tam", "916472", {"operator"}, std::nullopt}, fresh));
        QVERIFY(yard->verify()->intact());
        auto again = yard::Yard::open(where, yard::Access::ReadWrite, clock);
        QVERIFY(again->verify()->intact());
        QVERIFY(again->admit(test::json(R"({"number": "NQ-01"})"), {"Tam", "916472", {}}));
        QVERIFY(again->audit("NQ-01", "accept")->recovery_used);
        QCOMPARE(again->grant("Tam", {"hand"}, {"Ada", "480263", {}}).has_value(), who == "Ben"); // a lost PIN stays lost
    }

    void aLostTag()
    {
        test::Crew crew;
        auto yard = crew.open();
        admit(crew, yard, "NQ-01");
        QCOMPARE(yard.loseTag("NQ-01", {}).error().why, Why::NothingToClear);
        const auto tag = yard.printTag("NQ-01", "100x150", 0, false);
        const auto again = yard.printTag("NQ-01", "100x150", 0, true);
        QCOMPARE(again->text, tag->text); // the same tag once more: same bytes, same serial, no entry
        QVERIFY(!yard.readTag(tag->text)->lost);
        QVERIFY(yard.loseTag("NQ-01", "blown away"));
        QVERIFY(yard.readTag(tag->text)->lost);
        const auto fresh = yard.printTag("NQ-01", "100x150", 0, false);
        QCOMPARE(fresh->serial, tag->serial + 1);
        QVERIFY(!yard.readTag(fresh->text)->lost);
        QVERIFY(yard.readTag(fresh->text)->newest);
        QVERIFY(yard.readTag(tag->text)->lost && !yard.readTag(tag->text)->newest);
    }

    // Found on the wrong vessel: neither is what its tag says, both are stopped.
    void aTagOnTheWrongVessel()
    {
        test::Crew crew;
        auto yard = crew.open();
        for (const char* number : {"NQ-01", "NQ-02", "NQ-03"}) {
            admit(crew, yard, number);
        }
        const auto tag = yard.printTag("NQ-02", "100x150", 0, false);
        QCOMPARE(yard.misplacedTag("HANG ON A TREE B1 0000", "NQ-01", {}).error().why, Why::BadTag);
        QCOMPARE(yard.misplacedTag(tag->text, "NQ-02", {}).error().why, Why::NothingToClear);
        QCOMPARE(yard.misplacedTag(tag->text, "NQ-99", {}).error().why, Why::UnknownVessel);
        QVERIFY(yard.misplacedTag(tag->code, "NQ-01", "hung there"));
        QCOMPARE(yard.vessel("NQ-01")->word, report::PlateWord::Stopped);
        QCOMPARE(yard.vessel("NQ-02")->word, report::PlateWord::Stopped);
        QCOMPARE(yard.vessel("NQ-03")->word, report::PlateWord::Held);
    }

    // Last night's backup is all there is: what was written since is lost for every vessel, and accepted once.
    void aGapAcceptedForTheYard()
    {
        test::Crew crew;
        std::string tag;
        {
            auto yard = crew.open();
            for (const char* number : {"NQ-01", "NQ-02", "NQ-03"}) {
                admit(crew, yard, number);
            }
            QVERIFY(yard.record(signs(), crew.tam));
            QCOMPARE(yard.acceptGap({}, "nothing is missing", crew.ada, crew.tam).error().why, Why::NothingToClear);
            tag = yard.printTag("NQ-02", "100x150", 0, false)->text;
            QVERIFY(yard.event("NQ-03", "moved", {}));
        }
        {
            SQLite::Database db((crew.yardFolder() / "ledger.db").string(), SQLite::OPEN_READWRITE);
            db.exec("DROP TRIGGER entry_is_kept; DELETE FROM entry WHERE row > (SELECT max(row) FROM entry) - 2");
        }
        auto yard = crew.reopen();
        QVERIFY(!yard.verify()->intact());
        QVERIFY(yard.recordTag(tag, "scan"));
        for (const char* number : {"NQ-01", "NQ-02", "NQ-03"}) {
            QCOMPARE(yard.vessel(number)->word, report::PlateWord::RecordDamaged);
        }
        QCOMPARE(yard.acceptGap({}, "", crew.ada, crew.tam).error().why, Why::MissingFact);
        QCOMPARE(yard.acceptGap({}, "backup", crew.ada, crew.ada).error().why, Why::SamePerson);
        QCOMPARE(yard.acceptGap({}, "backup", crew.tam, crew.ada).error().why, Why::RoleNotHeld);
        QVERIFY(yard.acceptGap({}, "last night's backup is all there is", crew.ada, crew.tam));
        for (const char* number : {"NQ-01", "NQ-02", "NQ-03"}) {
            QVERIFY(yard.vessel(number)->word != report::PlateWord::RecordDamaged);
            QVERIFY(yard.folded(number)->evidence.whole);
        }
        const auto audit = yard.audit("NQ-03", "accept"); // and it shows on every audit after
        QVERIFY(std::ranges::any_of(
            audit->trail, [](const report::TrailLine& line) { return line.kind == ledger::Kind::GapAccepted && line.counts; }));
        QCOMPARE(lackOf(yard, "signs"), rules::Lack::Voided); // looked at before the gap: looked at again
        QVERIFY(yard.verify()->intact());
        auto again = crew.reopen();
        QVERIFY(again.verify()->intact());
        QVERIFY(again.folded("NQ-02")->evidence.whole);
        QVERIFY(again.record(signs(), crew.tam));
        QCOMPARE(lackOf(again, "signs"), rules::Lack::None);
    }

    // One photograph proves one thing: not taken a second time, for this vessel or another, unless its record was withdrawn.
    void aPhotographIsUsedOnce()
    {
        test::Crew crew;
        auto yard = crew.open();
        admit(crew, yard, "NQ-01");
        admit(crew, yard, "NQ-02");
        const std::filesystem::path photo = crew.folder.filePath("photo.jpg").toStdString();
        std::ofstream(photo, std::ios::binary) << "\xff\xd8\xff the bytes of a photograph";
        yard::RecordRequest request = signs();
        request.files["sign-photo"] = photo;
        const auto first = yard.record(request, crew.tam);
        QVERIFY(first);
        QCOMPARE(yard.record(request, crew.tam).error().why, Why::PictureUsed);
        request.vessel = "NQ-02";
        QCOMPARE(yard.record(request, crew.tam).error().why, Why::PictureUsed);
        QVERIFY(yard.correct(first->entry, "photo of NQ-02", crew.tam));
        QVERIFY(yard.record(request, crew.tam));
    }

    // What the programs do to a photograph is done before it is hashed.
    void photographsAreMadeBareFirst()
    {
        test::Crew crew;
        auto yard = crew.open();
        admit(crew, yard, "NQ-01");
        const std::string small = "\xff\xd8\xff small and bare";
        yard.setPictures([&](const std::string& bytes) {
            return bytes.find("broken") == std::string::npos ? std::optional(report::Photograph{small, {}, {}, {}, {}}) : std::nullopt;
        });
        const std::filesystem::path photo = crew.folder.filePath("photo.jpg").toStdString();
        std::ofstream(photo, std::ios::binary) << "\xff\xd8\xff large, and where it was taken";
        yard::RecordRequest request = signs();
        request.files["sign-photo"] = photo;
        const auto done = yard.record(request, crew.tam);
        QVERIFY(done);
        const auto entry = ledger::decode(yard.stored(done->entry)->body);
        QCOMPARE(entry->attachments, std::vector<Hash>{canon::sha256(small)});
        std::ofstream(photo, std::ios::binary) << "\xff\xd8\xff broken";
        QCOMPARE(yard.record(request, crew.tam).error().why, Why::NotAPicture);
    }
};
BRIMFUL_SUITE(YardKeysTest);

#include "keys_test.moc"
