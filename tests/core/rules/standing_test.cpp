// States, blockers down to the leaf, how long, and what to do next; on the small pack.
#include "tests/core/rules/evidence_of.h"
#include "tests/core/rules/packs.h"
#include "tests/support/suite.h"

#include <QTest>

#include <algorithm>

using namespace brimful;
using namespace brimful::rules;
using brimful::test::allProven;
using brimful::test::held;
using brimful::test::loaded;
using brimful::test::packFiles;
using brimful::test::stepHeld;

namespace {

const Pack& pack()
{
    static const Pack loaded_pack = loaded(packFiles("small"));
    return loaded_pack;
}

constexpr std::int64_t kNow = 1'000'000;

// All that `first` asks for, by person 1 with person 2; nothing behind it done yet.
Evidence provenForFirst()
{
    Evidence evidence = allProven(pack());
    evidence.now_ms = kNow;
    evidence.steps[pack().step("cut")] = StepHeld{};
    evidence.facts[pack().fact("cut.done")] = Held{};
    for (const HoldPoint& hold_point : pack().hold_points) { // nobody has talked yet
        evidence.steps[hold_point.talk] = StepHeld{};
        for (const Index fact : pack().steps[hold_point.talk].facts) {
            evidence.facts[fact] = Held{};
        }
    }
    return evidence;
}

void give(Evidence& evidence, Index hold_point, std::int64_t at_ms)
{
    ReleaseHeld& release = evidence.releases[hold_point];
    release = ReleaseHeld{};
    release.offered = 40;
    release.confirmed = 41;
    release.at_giving = Truth::True;
    release.given_ms = at_ms;
    release.by = 5;
    release.with = 6;
    release.by_role = static_cast<std::uint16_t>(pack().role("authoriser"));
    release.with_role = static_cast<std::uint16_t>(pack().role("operator"));
}

std::vector<std::string> nextOf(const Standing& standing)
{
    std::vector<std::string> out;
    for (const Next& next : standing.next) {
        switch (next.what) {
        case Next::What::Step:
            out.push_back(pack().steps[next.index].id);
            break;
        case Next::What::Clear:
            out.push_back("clear " + pack().stops[next.index].id);
            break;
        case Next::What::Release:
            out.push_back("release " + pack().hold_points[next.index].id);
            break;
        case Next::What::ConfirmClock:
            out.emplace_back("confirm clock");
            break;
        case Next::What::AcceptGap:
            out.emplace_back("accept gap");
            break;
        case Next::What::JoinFork:
            out.emplace_back("join fork");
            break;
        }
    }
    return out;
}

std::string ruleOf(const Blocker& blocker)
{
    const HoldPoint& hold_point = pack().hold_points[blocker.hold_point];
    switch (blocker.list) {
    case List::AtGiving:
        return hold_point.at_giving[blocker.rule].id;
    case List::Require:
        return hold_point.require[blocker.rule].id;
    case List::Stop:
        return hold_point.stop[blocker.rule].id;
    case List::Lasts:
        return "lasts";
    case List::Ended:
        return "ended";
    case List::History:
        return "history";
    case List::Clock:
        return "clock";
    }
    return {};
}

using Strings = std::vector<std::string>;

} // namespace

class StandingTest : public QObject {
    Q_OBJECT
private slots:
    void nothingKnownIsHeld();
    void everythingProvenIsReady();
    void aReleaseReleases();
    void untilIsTheEarliestEnd();
    void atGivingMayLapseLater();
    void requireMayNot();
    void endsByEventTimeAndWithdrawal();
    void stopsHold();
    void aRefusingStopRefuses();
    void clockAndHistory();
    void blockersNameTheLeaf();
    void ofAlternativesTheShortest();
    void nextFollowsNeeds();
    void nextRedoesWhatKnewTheOld();
    void closes();
    void mayBeGivenAsksForTheTalk();
    void whoSignsMatters();
    void stepsNotAsked();
    void lateLookSeesTheLapse();
};

void StandingTest::nothingKnownIsHeld()
{
    Evidence evidence = allProven(pack());
    evidence.facts.assign(pack().facts.size(), Held{});
    evidence.steps.assign(pack().steps.size(), StepHeld{});
    const Standing got = standing(pack(), evidence);
    QCOMPARE(got.state, State::Held);
    QCOMPARE(got.until_ms, kNever);
    QCOMPARE(got.hold_point, Index{0});
    QCOMPARE(nextOf(got), (Strings{"papers", "look", "day", "readings", "release first"}));
    for (const Blocker& blocker : got.blockers) {
        QCOMPARE(blocker.status, Lack::Missing);
    }
}

void StandingTest::everythingProvenIsReady()
{
    const Standing got = standing(pack(), provenForFirst());
    QCOMPARE(got.state, State::Ready);
    QCOMPARE(got.hold_points[0].state, State::Ready);
    QCOMPARE(got.hold_points[1].state, State::Held);
    QVERIFY(got.blockers.empty());
    QCOMPARE(nextOf(got), Strings{"release first"});
}

void StandingTest::aReleaseReleases()
{
    Evidence evidence = provenForFirst();
    give(evidence, 0, kNow);
    const Standing got = standing(pack(), evidence);
    QCOMPARE(got.state, State::Released);
    QCOMPARE(got.hold_point, Index{0});
    QCOMPARE(got.hold_points[0].given_by, 41U);
    QCOMPARE(got.until_ms, kNow + std::int64_t{4} * 3600 * 1000);
    // not confirmed, or not valid when it was given: nothing is released
    evidence.releases[0].confirmed = kNoEntry;
    QCOMPARE(standing(pack(), evidence).state, State::Ready);
    give(evidence, 0, kNow);
    for (const Truth then : {Truth::Unknown, Truth::False}) {
        evidence.releases[0].at_giving = then;
        QCOMPARE(standing(pack(), evidence).state, State::Ready);
    }
}

void StandingTest::untilIsTheEarliestEnd()
{
    Evidence evidence = provenForFirst();
    give(evidence, 0, kNow);
    evidence.steps[pack().step("day")].lapses_ms = kNow + 5000;
    QCOMPARE(standing(pack(), evidence).until_ms, kNow + 5000);
    // look or share: the longer of the two holds the rule
    evidence.steps[pack().step("look")].lapses_ms = kNow + 100;
    QCOMPARE(standing(pack(), evidence).until_ms, kNow + 5000);
    evidence.steps[pack().step("share")].lapses_ms = kNow + 200;
    QCOMPARE(standing(pack(), evidence).until_ms, kNow + 200);
}

void StandingTest::atGivingMayLapseLater()
{
    Evidence evidence = provenForFirst();
    give(evidence, 0, kNow - 1000);
    evidence.steps[pack().step("readings")].lack = Lack::Lapsed;
    QCOMPARE(standing(pack(), evidence).state, State::Released);
}

void StandingTest::requireMayNot()
{
    for (const Lack lack :
        {Lack::Missing, Lack::Lapsed, Lack::Voided, Lack::Conflict, Lack::WrongPerson, Lack::Instrument, Lack::Attachment}) {
        Evidence evidence = provenForFirst();
        give(evidence, 0, kNow - 1000);
        evidence.steps[pack().step("day")].lack = lack;
        QCOMPARE(standing(pack(), evidence).hold_points[0].state, State::Held);
    }
}

void StandingTest::endsByEventTimeAndWithdrawal()
{
    Evidence evidence = provenForFirst();
    give(evidence, 0, kNow - std::int64_t{4} * 3600 * 1000);
    QCOMPARE(standing(pack(), evidence).state, State::Ready); // over to the millisecond
    QCOMPARE(ruleOf(judgeHoldPoint(pack(), evidence, 0, {}, false).blockers.back()), std::string("lasts"));
    evidence.releases[0].given_ms += 1;
    QCOMPARE(standing(pack(), evidence).state, State::Released);
    evidence.releases[0].ended_by = 50;
    const HoldPointJudged ended = judgeHoldPoint(pack(), evidence, 0, {}, false);
    QCOMPARE(ended.state, State::Ready);
    QCOMPARE(ruleOf(ended.blockers.back()), std::string("ended"));
    QCOMPARE(ended.blockers.back().entry, 50U);
    give(evidence, 0, kNow);
    evidence.releases[0].withdrawn = true;
    QCOMPARE(standing(pack(), evidence).state, State::Ready);
}

void StandingTest::stopsHold()
{
    Evidence evidence = provenForFirst();
    give(evidence, 0, kNow);
    evidence.stops[pack().stop("high")] = {7, 1};
    const Standing got = standing(pack(), evidence);
    QCOMPARE(got.hold_points[0].state, State::Held);
    QCOMPARE(got.state, State::Held);
    // bad-look stands too, but no rule of this hold point asks about it
    evidence.stops[pack().stop("high")] = {};
    evidence.stops[pack().stop("bad-look")] = {7, 1};
    QCOMPARE(standing(pack(), evidence).state, State::Released);
}

void StandingTest::aRefusingStopRefuses()
{
    Evidence evidence = provenForFirst();
    give(evidence, 0, kNow);
    evidence.stops[pack().stop("forbidden")] = {7, 1};
    const Standing got = standing(pack(), evidence);
    QCOMPARE(got.state, State::Refused);
    for (const ReleaseState& one : got.hold_points) {
        QCOMPARE(one.state, State::Refused);
    }
    QVERIFY(std::ranges::none_of(got.next, [](const Next& next) { return next.what == Next::What::Release; }));
    QCOMPARE(mayBeGiven(pack(), evidence, 0, {}), Truth::False);
}

void StandingTest::clockAndHistory()
{
    Evidence evidence = provenForFirst();
    give(evidence, 0, kNow);
    evidence.clock_trusted = false;
    QCOMPARE(standing(pack(), evidence).state, State::Held);
    evidence.whole = false;
    evidence.releases[0] = {};
    const Standing got = standing(pack(), evidence);
    QCOMPARE(got.state, State::Held);
    QCOMPARE(ruleOf(got.blockers.at(0)), std::string("clock"));
    QCOMPARE(got.blockers.at(0).status, Lack::UntrustedClock);
    QCOMPARE(ruleOf(got.blockers.at(1)), std::string("history"));
    QCOMPARE(got.blockers.at(1).status, Lack::HistoryGap);
    const Strings next = nextOf(got);
    QCOMPARE(next.at(0), std::string("confirm clock"));
    QCOMPARE(next.at(1), std::string("accept gap"));
}

void StandingTest::blockersNameTheLeaf()
{
    Evidence evidence = provenForFirst();
    StepHeld& papers = evidence.steps[pack().step("papers")];
    papers.passed = Truth::False;
    papers.entry = 12;
    evidence.stops[pack().stop("high")] = {9, 2};
    const Standing got = standing(pack(), evidence);
    QCOMPARE(got.blockers.size(), std::size_t{2});
    const Blocker& stop = got.blockers[0];
    QCOMPARE(ruleOf(stop), std::string("reading-low"));
    QCOMPARE(stop.stop, pack().stop("high"));
    QCOMPARE(stop.entry, 9U);
    QCOMPARE(pack().conditions[stop.leaf].op, Op::Clear);
    const Blocker& value = got.blockers[1];
    QCOMPARE(ruleOf(value), std::string("papers-good"));
    QCOMPARE(value.status, Lack::WrongValue);
    QCOMPARE(value.entry, 12U);
    QCOMPARE(value.lifted_by, pack().step("papers"));
    QCOMPARE(pack().barriers[value.barrier], std::string("no-gas"));
    QCOMPARE(pack().conditions[value.leaf].op, Op::Passed);
    QCOMPARE(pack().conditions[value.leaf].a, pack().step("papers"));
    QCOMPARE(nextOf(got), (Strings{"clear high", "clear high", "papers", "release first"})); // raised twice
}

void StandingTest::ofAlternativesTheShortest()
{
    Evidence evidence = provenForFirst();
    evidence.steps[pack().step("look")].lack = Lack::Voided;
    QVERIFY(standing(pack(), evidence).blockers.empty()); // share will do
    evidence.steps[pack().step("share")].lack = Lack::Voided;
    const Standing got = standing(pack(), evidence);
    QCOMPARE(got.blockers.size(), std::size_t{1});
    QCOMPARE(got.blockers[0].status, Lack::Voided);
}

void StandingTest::nextFollowsNeeds()
{
    Evidence evidence = provenForFirst();
    evidence.steps[pack().step("look")].lack = Lack::Voided;
    evidence.steps[pack().step("readings")].lack = Lack::Voided;
    // the rule about looking is met by share; readings need look
    QCOMPARE(nextOf(standing(pack(), evidence)), (Strings{"look", "readings", "release first"}));
}

void StandingTest::nextRedoesWhatKnewTheOld()
{
    Evidence evidence = provenForFirst();
    evidence.steps[pack().step("look")].lack = Lack::Lapsed;
    evidence.steps[pack().step("share")].lack = Lack::Lapsed;
    // look is done again, so the readings that knew the old look are out of order then
    QCOMPARE(nextOf(standing(pack(), evidence)), (Strings{"look", "readings", "release first"}));
}

void StandingTest::closes()
{
    Evidence evidence = allProven(pack());
    evidence.now_ms = kNow;
    give(evidence, 0, kNow - 10);
    QCOMPARE(standing(pack(), evidence).hold_points[1].state, State::Ready);
    give(evidence, 1, kNow - 100LL * 24 * 3600 * 1000); // long over
    const Standing got = standing(pack(), evidence);
    QCOMPARE(got.state, State::Closed);
    QVERIFY(got.next.empty());
    evidence.stops[pack().stop("alarm")] = {5, 1};
    QVERIFY(standing(pack(), evidence).state != State::Closed);
}

void StandingTest::mayBeGivenAsksForTheTalk()
{
    Evidence evidence = provenForFirst();
    Actors actors;
    actors.by = ActorHeld{5, std::uint64_t{1} << pack().role("authoriser")};
    actors.with = ActorHeld{6, std::uint64_t{1} << pack().role("operator")};
    QCOMPARE(mayBeGiven(pack(), evidence, 0, actors), Truth::Unknown); // nobody has talked
    const HoldPoint& first = pack().hold_points[0];
    evidence.steps[first.talk] = stepHeld(Truth::True);
    QCOMPARE(mayBeGiven(pack(), evidence, 0, actors), Truth::Unknown); // no tag was read
    for (const std::int64_t tag : {2, 4, 8}) { // older, other, none
        evidence.facts[first.tag_fact] = held(tag);
        QCOMPARE(mayBeGiven(pack(), evidence, 0, actors), Truth::False);
    }
    evidence.facts[first.tag_fact] = held(1);
    QCOMPARE(mayBeGiven(pack(), evidence, 0, actors), Truth::True);
    evidence.steps[first.talk].passed = Truth::False;
    QCOMPARE(mayBeGiven(pack(), evidence, 0, actors), Truth::False);
}

void StandingTest::whoSignsMatters()
{
    Evidence evidence = provenForFirst();
    const HoldPoint& first = pack().hold_points[0];
    evidence.steps[first.talk] = stepHeld(Truth::True);
    evidence.facts[first.tag_fact] = held(1);
    Actors actors;
    actors.by = ActorHeld{5, 0};
    actors.with = ActorHeld{evidence.steps[pack().step("readings")].person, 0}; // who read the gas would cut
    QCOMPARE(mayBeGiven(pack(), evidence, 0, actors), Truth::False);
}

void StandingTest::stepsNotAsked()
{
    Pack with_when = pack();
    const auto condition = static_cast<Index>(with_when.conditions.size());
    Condition is;
    is.op = Op::Is;
    is.a = with_when.fact("papers.held");
    is.low = 1; // propane
    with_when.conditions.push_back(is);
    with_when.steps[with_when.step("openings")].when = condition;
    Evidence evidence = provenForFirst();
    const auto asked = [&] { return standing(with_when, evidence).steps[with_when.step("openings")].asked; };
    evidence.facts[with_when.fact("papers.held")] = held(1);
    QVERIFY(asked());
    evidence.facts[with_when.fact("papers.held")] = held(2);
    QVERIFY(!asked());
    evidence.facts[with_when.fact("papers.held")].lack = Lack::Missing;
    QVERIFY(asked()); // not known: asked
}

void StandingTest::lateLookSeesTheLapse()
{
    Evidence evidence = provenForFirst();
    evidence.steps[pack().step("day")].lapses_ms = kNow + 10;
    QCOMPARE(standing(pack(), evidence).state, State::Ready);
    evidence.now_ms = kNow + 10;
    const Standing got = standing(pack(), evidence);
    QCOMPARE(got.state, State::Held);
    QCOMPARE(got.blockers.at(0).status, Lack::Lapsed);
    QCOMPARE(got.steps[pack().step("day")].lack, Lack::Lapsed);
    QCOMPARE(got.steps[pack().step("day")].passed, Truth::Unknown);
}

BRIMFUL_SUITE(StandingTest);
#include "standing_test.moc"
