// Signatures: who may, together with whom, in which time; and what only takes away needs nobody.
#include "tests/core/yard/played_yard.h"
#include "tests/support/suite.h"

#include <QTest>

using namespace brimful;
using report::Why;

class TwoPeopleTest : public QObject {
    Q_OBJECT

    static yard::RecordRequest whatItWas()
    {
        return {"NQ-01", "what-it-was",
            test::json(
                R"({"kind": "stationary-lpg", "substance": "propane", "proof-one": "supplier-record", "proof-two": "plate-and-fittings", "against": "nothing",
                "arrived": "closed"})"),
            {}, {}, {}};
    }
    static void admit(test::Crew& crew, yard::Yard& yard)
    {
        QVERIFY(yard.admit(
            test::json(
                R"({"number": "NQ-01", "vessel": {"outside_diameter": "30 in", "wall": "1/4 in", "overall_length": "92 in", "heads": "hemispherical"}})"),
            crew.tam));
    }

private slots:
    void secondSignatureMakesItCount()
    {
        test::Crew crew;
        auto yard = crew.open();
        admit(crew, yard);
        const auto first = yard.record(whatItWas(), crew.ada);
        QVERIFY(first);
        QVERIFY(!first->counts);
        const rules::Index step = yard.pack().step("what-it-was");
        QCOMPARE(yard.folded("NQ-01")->evidence.steps[step].lack, rules::Lack::Missing);
        QVERIFY(!yard.confirm(first->entry, crew.ada));
        crew.clock.wait(60'000);
        QVERIFY(yard.confirm(first->entry, crew.tam));
        QCOMPARE(yard.folded("NQ-01")->evidence.steps[step].passed, rules::Truth::True);
    }

    void firstSignatureLapsesAfterTenMinutes()
    {
        test::Crew crew;
        auto yard = crew.open();
        admit(crew, yard);
        const auto first = yard.record(whatItWas(), crew.ada);
        QVERIFY(first);
        crew.clock.wait(11 * 60'000);
        const auto second = yard.confirm(first->entry, crew.tam);
        QVERIFY(!second);
        QCOMPARE(second.error().why, Why::TooLate);
    }

    void onePersonIsNotTwo()
    {
        test::Crew crew;
        auto yard = crew.open();
        admit(crew, yard);
        const auto done = yard.record(whatItWas(), crew.ada, crew.ada);
        QVERIFY(!done);
        QCOMPARE(done.error().why, Why::SamePerson);
        QCOMPARE(yard.trail("NQ-01")->size(), std::size_t{1}); // nothing half-written
    }

    void wrongRoleIsNamed()
    {
        test::Crew crew;
        auto yard = crew.open();
        admit(crew, yard);
        const auto done = yard.record(whatItWas(), crew.tam);
        QVERIFY(!done);
        QCOMPARE(done.error().why, Why::RoleNotHeld);
        QVERIFY(done.error().expected.find("supervisor") != std::string::npos);
    }

    void roleEndedYesterdayDoesNotSignToday()
    {
        test::Crew crew;
        auto yard = crew.open();
        admit(crew, yard);
        QVERIFY(yard.endRole("Tam", "hand", crew.ada));
        crew.clock.wait(86'400'000);
        const auto done = yard.record(
            {"NQ-01", "support",
                test::json(R"({"full-mass": "1200 kg", "stands": "cradles-chocked", "ground": "firm", "water-route": "containers"})"), {},
                {}, {}},
            {"Tam", "916472", "hand"});
        QVERIFY(!done);
        QCOMPARE(done.error().why, Why::RoleNotHeld);
    }

    void clockSetBackBringsNoEndedRoleBack()
    {
        test::Crew crew;
        auto yard = crew.open();
        const yard::Signing tam{"Tam", "916472", "authoriser"};
        QVERIFY(yard.grant("Tam", {"authoriser"}, crew.ada));
        crew.clock.wait(2 * 3'600'000);
        QVERIFY(yard.endRole("Tam", "authoriser", crew.ada));
        crew.clock.reboot(60'000);
        crew.clock.jumpWall(-3'600'000); // an hour in which Tam was still an authoriser
        const auto back = yard.confirmClock(crew.clock.now().wall_ms, crew.ada);
        QVERIFY(!back);
        QCOMPARE(back.error().why, Why::ClockWentBack);
        const auto done = yard.grant("Tam", {"supervisor"}, tam);
        QVERIFY(!done);
        QCOMPARE(done.error().why, Why::RoleNotHeld);
        QVERIFY(yard.grant("Tam", {"authoriser"}, crew.ada)); // only a new grant brings it back
        crew.clock.jumpWall(3'600'000);
        QVERIFY(yard.grant("Tam", {"supervisor"}, tam));
    }

    void stopNeedsNobodyAndHolds()
    {
        test::Crew crew;
        auto yard = crew.open();
        admit(crew, yard);
        QVERIFY(yard.event("NQ-01", "concern", {}));
        const auto view = yard.vessel("NQ-01");
        QVERIFY(view);
        QCOMPARE(view->word, report::PlateWord::Stopped);
        // A later good record lifts nothing; only an answer by name does.
        QVERIFY(yard.record(whatItWas(), crew.ada, crew.tam));
        QCOMPARE(yard.vessel("NQ-01")->word, report::PlateWord::Stopped);
        QVERIFY(yard.clear("NQ-01", "concern", "a hose had slipped", "hose tied", crew.ada, crew.tam));
        QCOMPARE(yard.vessel("NQ-01")->word, report::PlateWord::Held);
    }

    void correctionOnlyWithdraws()
    {
        test::Crew crew;
        auto yard = crew.open();
        admit(crew, yard);
        const auto bad = yard.record(
            {"NQ-01", "signs", test::json(R"({"brass": "bright-blue", "smell": "nothing", "marks": "none"})"), {}, {}, {}}, crew.tam);
        QVERIFY(bad);
        QVERIFY(bad->failing);
        QCOMPARE(yard.vessel("NQ-01")->word, report::PlateWord::Refused);
        QVERIFY(yard.correct(bad->entry, "looked at the wrong one", crew.tam));
        QVERIFY(yard.record(
            {"NQ-01", "signs", test::json(R"({"brass": "plain", "smell": "nothing", "marks": "none"})"), {}, {}, {}}, crew.tam));
        QCOMPARE(yard.vessel("NQ-01")->word, report::PlateWord::Refused); // the stop stands
    }

    void restartHoldsUntilTheClockIsConfirmed()
    {
        test::Crew crew;
        auto yard = crew.open();
        admit(crew, yard);
        crew.clock.reboot(60'000);
        QVERIFY(!yard.clockConfirmed());
        const auto done = yard.record(whatItWas(), crew.ada, crew.tam);
        QVERIFY(!done);
        QCOMPARE(done.error().why, Why::ClockUnconfirmed);
        QVERIFY(yard.event("NQ-01", "stop", {})); // taking away works all the same
        QVERIFY(yard.confirmClock(crew.clock.now().wall_ms, crew.ada));
        QVERIFY(yard.record(whatItWas(), crew.ada, crew.tam));
    }

    void clockAnHourBackIsNotTaken()
    {
        test::Crew crew;
        auto yard = crew.open();
        crew.clock.wait(7'200'000);
        QVERIFY(yard.confirmClock(crew.clock.now().wall_ms, crew.ada));
        crew.clock.reboot(60'000);
        crew.clock.jumpWall(-7'200'000);
        const auto done = yard.confirmClock(crew.clock.now().wall_ms, crew.ada);
        QVERIFY(!done);
        QCOMPARE(done.error().why, Why::ClockWentBack);
    }
};

BRIMFUL_SUITE(TwoPeopleTest);
#include "two_people_test.moc"
