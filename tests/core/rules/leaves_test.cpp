// Each leaf: when it is true, when false, and that nothing but usable evidence makes it either.
#include "core/rules/standing.h"

#include "tests/core/rules/evidence_of.h"
#include "tests/support/suite.h"

#include <QTest>

#include <array>

using namespace brimful;
using namespace brimful::rules;
using brimful::test::held;
using brimful::test::stepHeld;

namespace {

constexpr Truth F = Truth::False;
constexpr Truth U = Truth::Unknown;
constexpr Truth T = Truth::True;

Evidence evidenceOf(std::size_t steps)
{
    Evidence evidence;
    evidence.steps.assign(steps, stepHeld(T));
    evidence.facts.assign(2, held(0));
    evidence.stops.resize(2);
    evidence.releases.resize(2);
    evidence.last_event.resize(2);
    evidence.event_after.resize(2);
    evidence.whole = true;
    evidence.clock_trusted = true;
    return evidence;
}

Condition leaf(Op op, std::uint16_t a, std::uint16_t b = 0, std::int64_t low = 0, std::int64_t high = 0)
{
    Condition out;
    out.op = op;
    out.a = a;
    out.b = b;
    out.low = low;
    out.high = high;
    return out;
}

Truth truthOf(const Condition& one, const Evidence& evidence, const Actors& actors = {})
{
    return judge(std::array{one}, evidence, actors).truth;
}

constexpr std::array kLacks{Lack::Missing, Lack::Lapsed, Lack::Voided, Lack::Conflict, Lack::WrongValue, Lack::WrongPerson,
    Lack::WrongOrder, Lack::UntrustedClock, Lack::HistoryGap, Lack::Instrument, Lack::Attachment, Lack::Error};

} // namespace

class LeavesTest : public QObject {
    Q_OBJECT
private slots:
    void passedAndFailed();
    void numbers_data();
    void numbers();
    void worstRowsDecide();
    void everyRowMustBeOneOf();
    void differentPeople();
    void notByWhoSigns();
    void roles();
    void after();
    void notSinceNeedsAWholeHistory();
    void clearNeedsAWholeHistory();
    void given();
    void nothingUnusableCounts();
};

void LeavesTest::passedAndFailed()
{
    Evidence evidence = evidenceOf(1);
    QCOMPARE(truthOf(leaf(Op::Passed, 0), evidence), T);
    QCOMPARE(truthOf(leaf(Op::Failed, 0), evidence), F);
    evidence.steps[0].passed = F;
    QCOMPARE(truthOf(leaf(Op::Passed, 0), evidence), F);
    QCOMPARE(truthOf(leaf(Op::Failed, 0), evidence), T);
    evidence.steps[0].passed = U;
    QCOMPARE(truthOf(leaf(Op::Passed, 0), evidence), U);
    QCOMPARE(truthOf(leaf(Op::Failed, 0), evidence), U);
}

void LeavesTest::numbers_data()
{
    QTest::addColumn<int>("op");
    QTest::addColumn<int>("low");
    QTest::addColumn<int>("high");
    QTest::addColumn<int>("count");
    QTest::addColumn<bool>("good");
    const auto row = [](const char* name, Op op, int low, int high, int count, bool good) {
        QTest::newRow(name) << static_cast<int>(op) << low << high << count << good;
    };
    row("at most: below", Op::AtMost, 0, 10, 9, true);
    row("at most: equal", Op::AtMost, 0, 10, 10, true);
    row("at most: above", Op::AtMost, 0, 10, 11, false);
    row("at most: negative", Op::AtMost, 0, 10, -1, true);
    row("at least: below", Op::AtLeast, 10, 0, 9, false);
    row("at least: equal", Op::AtLeast, 10, 0, 10, true);
    row("at least: above", Op::AtLeast, 10, 0, 11, true);
    row("between: low end", Op::Between, 5, 10, 5, true);
    row("between: high end", Op::Between, 5, 10, 10, true);
    row("between: below", Op::Between, 5, 10, 4, false);
    row("between: above", Op::Between, 5, 10, 11, false);
}

void LeavesTest::numbers()
{
    QFETCH(int, op);
    QFETCH(int, low);
    QFETCH(int, high);
    QFETCH(int, count);
    QFETCH(bool, good);
    Evidence evidence = evidenceOf(0);
    evidence.facts[1] = held(count);
    QCOMPARE(truthOf(leaf(static_cast<Op>(op), 1, 0, low, high), evidence), good ? T : F);
}

void LeavesTest::worstRowsDecide()
{
    Evidence evidence = evidenceOf(0);
    evidence.facts[0] = held(30);
    evidence.facts[0].least = 5;
    QCOMPARE(truthOf(leaf(Op::AtMost, 0, 0, 0, 29), evidence), F);
    QCOMPARE(truthOf(leaf(Op::AtLeast, 0, 0, 6), evidence), F);
    QCOMPARE(truthOf(leaf(Op::Between, 0, 0, 5, 30), evidence), T);
    QCOMPARE(truthOf(leaf(Op::Between, 0, 0, 6, 30), evidence), F);
    QCOMPARE(truthOf(leaf(Op::Between, 0, 0, 5, 29), evidence), F);
}

void LeavesTest::everyRowMustBeOneOf()
{
    Evidence evidence = evidenceOf(0);
    evidence.facts[0] = held(0b011);
    QCOMPARE(truthOf(leaf(Op::Is, 0, 0, 0b111), evidence), T);
    QCOMPARE(truthOf(leaf(Op::Is, 0, 0, 0b011), evidence), T);
    QCOMPARE(truthOf(leaf(Op::Is, 0, 0, 0b001), evidence), F);
    evidence.facts[0] = held(0); // no option at all
    QCOMPARE(truthOf(leaf(Op::Is, 0, 0, 0b111), evidence), F);
}

void LeavesTest::differentPeople()
{
    Evidence evidence = evidenceOf(2);
    evidence.steps[0].person = 7;
    evidence.steps[1].person = 8;
    evidence.steps[1].second = 7;
    QCOMPARE(truthOf(leaf(Op::DifferentPeople, 0, 2), evidence), T); // step 0, step 1
    QCOMPARE(truthOf(leaf(Op::DifferentPeople, 0, 3), evidence), F); // step 0, step 1's second
    evidence.steps[1].second = kNobody;
    QCOMPARE(truthOf(leaf(Op::DifferentPeople, 0, 3), evidence), U);
}

void LeavesTest::notByWhoSigns()
{
    Evidence evidence = evidenceOf(1);
    evidence.steps[0].person = 7;
    Actors actors;
    actors.by = ActorHeld{8, 0};
    actors.with = ActorHeld{7, 0};
    QCOMPARE(truthOf(leaf(Op::NotBy, 0, 0), evidence, actors), T);
    QCOMPARE(truthOf(leaf(Op::NotBy, 0, 1), evidence, actors), F);
    actors.by = ActorHeld{kNobody, 0};
    QCOMPARE(truthOf(leaf(Op::NotBy, 0, 0), evidence, actors), U);
    // only asking: it is judged again when somebody signs
    QCOMPARE(truthOf(leaf(Op::NotBy, 0, 1), evidence), T);
}

void LeavesTest::roles()
{
    Evidence evidence = evidenceOf(1);
    evidence.steps[0].role = 2;
    evidence.steps[0].second_role = 3;
    QCOMPARE(truthOf(leaf(Op::HasRole, 0, 0, 0b0100), evidence), T);
    QCOMPARE(truthOf(leaf(Op::HasRole, 0, 0, 0b1000), evidence), F);
    QCOMPARE(truthOf(leaf(Op::HasRole, 1, 0, 0b1000), evidence), T);
    evidence.steps[0].role = 0xffff;
    QCOMPARE(truthOf(leaf(Op::HasRole, 0, 0, 0b0100), evidence), U);
    Actors actors;
    actors.by = ActorHeld{1, 0b0010};
    QCOMPARE(truthOf(leaf(Op::HasRole, 0, 1, 0b0010), evidence, actors), T);
    QCOMPARE(truthOf(leaf(Op::HasRole, 0, 1, 0b0100), evidence, actors), F);
    QCOMPARE(truthOf(leaf(Op::HasRole, 1, 1, 0b0100), evidence, actors), T); // nobody accepts yet
}

void LeavesTest::after()
{
    Evidence evidence = evidenceOf(2);
    evidence.steps[0].knows = 0b10;
    QCOMPARE(truthOf(leaf(Op::After, 0, 1), evidence), T);
    evidence.steps[0].knows = 0b01;
    QCOMPARE(truthOf(leaf(Op::After, 0, 1), evidence), F);
    evidence.steps[1].lack = Lack::Voided;
    QCOMPARE(truthOf(leaf(Op::After, 0, 1), evidence), U);
}

void LeavesTest::notSinceNeedsAWholeHistory()
{
    Evidence evidence = evidenceOf(1);
    QCOMPARE(truthOf(leaf(Op::NotSince, 0, 1), evidence), T);
    evidence.event_after[1] = 1;
    QCOMPARE(truthOf(leaf(Op::NotSince, 0, 1), evidence), F);
    QCOMPARE(truthOf(leaf(Op::NotSince, 0, 0), evidence), T);
    evidence.whole = false;
    QCOMPARE(truthOf(leaf(Op::NotSince, 0, 0), evidence), U);
}

void LeavesTest::clearNeedsAWholeHistory()
{
    Evidence evidence = evidenceOf(1);
    QCOMPARE(truthOf(leaf(Op::Clear, 1), evidence), T);
    evidence.whole = false;
    QCOMPARE(truthOf(leaf(Op::Clear, 1), evidence), U);
    evidence.stops[1].raised = 4;
    QCOMPARE(truthOf(leaf(Op::Clear, 1), evidence), F);
}

void LeavesTest::given()
{
    Evidence evidence = evidenceOf(1);
    QCOMPARE(truthOf(leaf(Op::Given, 1), evidence), U);
    evidence.releases[1].offered = 3;
    evidence.releases[1].confirmed = 4;
    evidence.releases[1].at_giving = T;
    QCOMPARE(truthOf(leaf(Op::Given, 1), evidence), T);
    evidence.releases[1].ended_by = 5; // over, but it was given
    QCOMPARE(truthOf(leaf(Op::Given, 1), evidence), T);
    evidence.releases[1].withdrawn = true;
    QCOMPARE(truthOf(leaf(Op::Given, 1), evidence), U);
    evidence.releases[1].withdrawn = false;
    evidence.releases[1].at_giving = U;
    QCOMPARE(truthOf(leaf(Op::Given, 1), evidence), U);
    evidence.releases[1].at_giving = T;
    evidence.whole = false;
    QCOMPARE(truthOf(leaf(Op::Given, 1), evidence), U);
}

// Whatever is written in it: a record that does not count decides nothing, for the judge or against it.
void LeavesTest::nothingUnusableCounts()
{
    const Actors actors{ActorHeld{1, 1}, ActorHeld{2, 2}};
    const std::array leaves{leaf(Op::Passed, 0), leaf(Op::Failed, 0), leaf(Op::Is, 0, 0, 1), leaf(Op::AtMost, 0, 0, 0, 5),
        leaf(Op::AtLeast, 0, 0, 5), leaf(Op::Between, 0, 0, 0, 5), leaf(Op::DifferentPeople, 0, 2), leaf(Op::NotBy, 0, 0),
        leaf(Op::HasRole, 0, 0, 1), leaf(Op::After, 0, 1), leaf(Op::NotSince, 0, 0)};
    for (const Lack lack : kLacks) {
        for (const Truth passed : {T, F, U}) {
            for (const std::int64_t count : {std::int64_t{0}, std::int64_t{1}, std::int64_t{100}}) {
                Evidence evidence = evidenceOf(2);
                evidence.steps[0].passed = passed;
                evidence.steps[0].lack = lack;
                evidence.facts[0] = held(count);
                evidence.facts[0].lack = lack;
                for (const Condition& one : leaves) {
                    QCOMPARE(judge(std::array{one}, evidence, actors), Judged{});
                }
            }
        }
    }
}

BRIMFUL_SUITE(LeavesTest);
#include "leaves_test.moc"
