// Signatures: who may, together with whom, in which time; and what only takes away needs nobody.
#include "tests/core/yard/played_yard.h"
#include "tests/support/suite.h"

#include <QTest>

using namespace brimful;
using report::Why;

class TwoPeopleTest : public QObject {
    Q_OBJECT

    // With what the second person gives himself where he signs at once: of these facts none is a number, and `substance` has the
    // most words to choose from.
    static yard::RecordRequest whatItWas(canon::Json own_answer = {})
    {
        return {"NQ-01", "what-it-was",
            test::json(
                R"({"kind": "stationary-lpg", "substance": "propane", "proof-one": "supplier-record", "proof-two": "plate-and-fittings", "against": "nothing",
                "arrived": "closed"})"),
            {}, {}, {}, std::move(own_answer)};
    }
    static yard::RecordRequest zeroPressure(canon::Json own_answer = {})
    {
        return {"NQ-01", "zero-pressure",
            test::json(
                R"({"gauge-range": "15 psi", "gauge": "0 psi", "shut-for": "35 min", "bottom-temperature": "12 degC", "sweat": "none",
                "second": "bleeder-film", "joined": "nothing"})"),
            {}, {}, {}, std::move(own_answer)};
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
        const auto waiting = yard.waiting("NQ-01", "what-it-was");
        QVERIFY(waiting && *waiting);
        QVERIFY((*waiting)->first == first->entry);
        QCOMPARE((*waiting)->person, std::string("Ada"));
        QCOMPARE((*waiting)->facts.textOf("substance"), std::string_view("propane"));
        QVERIFY(!yard.waiting("NQ-01", "zero-pressure")->has_value()); // another step
        QVERIFY(yard.confirm(first->entry, crew.tam, "propane"));
        QVERIFY(!yard.waiting("NQ-01", "what-it-was")->has_value());
        QCOMPARE(yard.folded("NQ-01")->evidence.steps[step].passed, rules::Truth::True);
    }

    // Each names the value that is asked, and what is given: what was typed does not matter, the value does.
    void theSecondPersonGivesAValue_data()
    {
        QTest::addColumn<QByteArray>("given"); // JSON
        QTest::addColumn<QByteArray>("refusal");
        QTest::addColumn<QByteArray>("path");
        QTest::addColumn<QByteArray>("expected");
        QTest::newRow("the same") << QByteArray(R"("12 degC")") << QByteArray() << QByteArray() << QByteArray();
        QTest::newRow("the same by another scale") << QByteArray(R"("53.6 degF")") << QByteArray() << QByteArray() << QByteArray();
        QTest::newRow("none") << QByteArray("null") << QByteArray("needs-answer") << QByteArray("zero-pressure.bottom-temperature")
                              << QByteArray("temperature");
        QTest::newRow("as well as a display tells it") << QByteArray(R"("12.9 degC")") << QByteArray() << QByteArray() << QByteArray();
        QTest::newRow("so by another scale") << QByteArray(R"("55 degF")") << QByteArray() << QByteArray() << QByteArray();
        QTest::newRow("another by another scale")
            << QByteArray(R"("57 degF")") << QByteArray("answer-differs") << QByteArray("zero-pressure.bottom-temperature") << QByteArray();
        QTest::newRow("another") << QByteArray(R"("13.1 degC")") << QByteArray("answer-differs")
                                 << QByteArray("zero-pressure.bottom-temperature") << QByteArray();
        QTest::newRow("no unit") << QByteArray(R"("12")") << QByteArray("bad-quantity") << QByteArray("answer")
                                 << QByteArray("temperature");
        QTest::newRow("a pressure") << QByteArray(R"("12 Pa")") << QByteArray("bad-quantity") << QByteArray("answer")
                                    << QByteArray("temperature");
    }
    void theSecondPersonGivesAValue()
    {
        QFETCH(const QByteArray, given);
        QFETCH(const QByteArray, refusal);
        QFETCH(const QByteArray, path);
        QFETCH(const QByteArray, expected);
        test::Crew crew;
        auto yard = crew.open();
        admit(crew, yard);
        const canon::Json answer = test::json(given.constData());
        const auto told = [&](const report::Refusal& why) {
            QCOMPARE(QByteArray::fromStdString(std::string(report::whyWord(why.why))), refusal);
            QCOMPARE(QByteArray::fromStdString(why.path), path);
            QVERIFY2(QByteArray::fromStdString(why.expected).contains(expected), why.expected.c_str());
            const std::string all = why.path + why.expected + why.found;
            QVERIFY(given.contains("12") || all.find("12") == std::string::npos); // never what the first one gave
        };
        const auto entries = [&] { return yard.trail("NQ-01")->size(); };

        const auto at_once = yard.record(zeroPressure(answer), crew.tam, crew.ada);
        QCOMPARE(at_once.has_value(), refusal.isEmpty());
        QCOMPARE(entries(), refusal.isEmpty() ? std::size_t{3} : std::size_t{1}); // both or neither
        if (!at_once) {
            told(at_once.error());
        }
        const auto first = yard.record(zeroPressure(), crew.tam);
        QVERIFY(first);
        const auto asked = yard.askedOfSecond(first->entry);
        QVERIFY(asked && *asked);
        QCOMPARE(yard.pack().facts[(*asked)->fact].id, std::string("zero-pressure.bottom-temperature"));
        const std::size_t before = entries();
        const auto may = yard.mayAnswer(first->entry, answer);
        const auto second = yard.confirm(first->entry, crew.ada, answer);
        QCOMPARE(may.has_value(), refusal.isEmpty());
        QCOMPARE(second.has_value(), refusal.isEmpty());
        QCOMPARE(entries(), before + (refusal.isEmpty() ? 1 : 0));
        if (!second) {
            told(second.error());
            told(may.error());
            QCOMPARE(yard.folded("NQ-01")->evidence.steps[yard.pack().step("zero-pressure")].lack, rules::Lack::Missing);
            return;
        }
        const report::TrailLine line = yard.trail("NQ-01")->back();
        QCOMPARE(line.answered, std::string("zero-pressure.bottom-temperature"));
        QCOMPARE(line.answer.textOf("unit"), std::string_view("0.01K"));
        QVERIFY(std::abs(line.answer.integerOf("count") - 28515) <= 100); // 12 degC = 285.15 K
        QCOMPARE('"' + QByteArray::fromStdString(std::string(line.answer.textOf("typed"))) + '"', given);
        QCOMPARE(yard.folded("NQ-01")->evidence.steps[yard.pack().step("zero-pressure")].lack, rules::Lack::None);
    }

    // Not asked: alone, of an honest cannot, of a clearing; then no answer is taken either.
    void whereNothingIsAsked()
    {
        test::Crew crew;
        auto yard = crew.open();
        admit(crew, yard);
        const auto alone = yard.record(whatItWas("propane"), crew.ada);
        QVERIFY(!alone);
        QCOMPARE(alone.error().why, Why::UnknownFact);
        QCOMPARE(alone.error().path, std::string("answer"));
        QVERIFY(yard.event("NQ-01", "concern", {}));
        const auto clearing = yard.clear("NQ-01", "concern", "a hose had slipped", "hose tied", crew.ada);
        QVERIFY(clearing);
        QVERIFY(!yard.askedOfSecond(clearing->entry)->has_value());
        QCOMPARE(yard.confirm(clearing->entry, crew.tam, "a hose had slipped").error().why, Why::UnknownFact);
        QVERIFY(yard.confirm(clearing->entry, crew.tam));
        QVERIFY(yard.trail("NQ-01")->back().answered.empty());
    }

    // Of a register the last row's last number; of words those with the most to choose from; "cannot" asks nothing.
    void whichValueIsAsked()
    {
        test::Crew crew;
        auto yard = crew.open();
        const rules::Pack& pack = yard.pack();
        const auto asked = [&](const char* step, const char* values) -> std::string {
            const auto one = evidence::askedOfSecond(pack, pack.step(step), test::json(values));
            return one ? pack.facts[one->fact].id + (one->row.empty() ? "" : " of " + one->row) : "nothing";
        };
        QCOMPARE(asked("what-it-was", R"({"substance": "air", "arrived": "open", "kind": "air-receiver"})"), "what-it-was.substance");
        QCOMPARE(asked("what-it-was", R"({"arrived": "open"})"), "what-it-was.arrived");
        QCOMPARE(
            asked("first-opening", R"({"pilot": "weeps", "cut": "both", "sheen": "clean", "tool-used": "cold"})"), "first-opening.cut");
        QCOMPARE(asked("fittings-out", R"({"how": "hand-tools", "stuck": 2})"), "fittings-out.stuck");
        QCOMPARE(
            asked("openings",
                R"({"register": [{"name": "N1", "state": "open", "bore": "2 in", "projection": "0 in"}, {"name": "N2", "state": "stuck",
                     "clock": "0 deg", "bore": "1 in"}]})"),
            "openings.register.bore of N2");
        QCOMPARE(asked("pose", R"({"vent": "N3"})"), "nothing"); // words of one's own agree with nobody's
        QCOMPARE(asked("signs", R"({"brass": "plain", "smell": "nothing", "marks": "none"})"), "nothing"); // one signs it
        for (const rules::HoldPoint& gate : pack.hold_points) { // each talk has a number in it
            canon::Json all = canon::Json::object();
            for (const rules::Question& question : gate.questions) {
                all.set(pack.facts[question.fact].key, "said");
            }
            const auto one = evidence::askedOfSecond(pack, gate.talk, all);
            QVERIFY2(one && pack.facts[one->fact].kind != rules::FactKind::Choice, gate.id.c_str());
        }
        ledger::Entry cannot;
        cannot.kind = ledger::Kind::Evidence;
        cannot.payload = test::json(R"({"step": "what-it-was", "outcome": "cannot", "facts": {"substance": "air"}})");
        QVERIFY(!evidence::askedOfSecond(pack, cannot));
        cannot.payload.set("outcome", "done");
        QVERIFY(evidence::askedOfSecond(pack, cannot));
    }

    void firstSignatureLapsesAfterTenMinutes()
    {
        test::Crew crew;
        auto yard = crew.open();
        admit(crew, yard);
        const auto first = yard.record(whatItWas(), crew.ada);
        QVERIFY(first);
        crew.clock.wait(9 * 60'000);
        QVERIFY(yard.waiting("NQ-01", "what-it-was")->has_value());
        crew.clock.wait(2 * 60'000);
        QVERIFY(!yard.waiting("NQ-01", "what-it-was")->has_value());
        const auto second = yard.confirm(first->entry, crew.tam, "propane");
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
        QVERIFY(yard.record(whatItWas("propane"), crew.ada, crew.tam));
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
        const auto done = yard.record(whatItWas("propane"), crew.ada, crew.tam);
        QVERIFY(!done);
        QCOMPARE(done.error().why, Why::ClockUnconfirmed);
        QVERIFY(yard.event("NQ-01", "stop", {})); // taking away works all the same
        QVERIFY(yard.confirmClock(crew.clock.now().wall_ms, crew.ada));
        QVERIFY(yard.record(whatItWas("propane"), crew.ada, crew.tam));
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
