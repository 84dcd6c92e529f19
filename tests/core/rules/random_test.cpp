// Random packs and evidence: the judge against the reference and against the solver's encoding, and the law that less, older or
// contradicted evidence never makes a release.
#include "tests/core/rules/three_ways.h"
#include "tests/support/suite.h"

#include <QTest>
#include <rapidcheck.h>

using namespace brimful;
using namespace brimful::rules;
using namespace brimful::test;
using canon::Json;

namespace {

constexpr int kPacks = 100; // what RapidCheck tries by itself
constexpr int kLooks = 120;

void makeGood(Evidence& evidence)
{
    for (Held& one : evidence.facts) {
        one.lack = Lack::None;
        one.lapses_ms = kNever;
    }
    for (StepHeld& one : evidence.steps) {
        one.lack = Lack::None;
        one.passed = Truth::True;
        one.lapses_ms = kNever;
    }
    evidence.stops.assign(evidence.stops.size(), StopHeld{});
    evidence.event_after.assign(evidence.event_after.size(), 0);
    evidence.whole = true;
    evidence.clock_trusted = true;
}

// Takes something away from the evidence: lost, aged, contradicted, doubted.
void takeAway(Dice& dice, Evidence& evidence)
{
    switch (upTo(dice, 8)) {
    case 0:
        evidence.facts[upTo(dice, evidence.facts.size())].lack = static_cast<Lack>(1 + upTo(dice, 12));
        break;
    case 1:
        evidence.steps[upTo(dice, evidence.steps.size())].lack = static_cast<Lack>(1 + upTo(dice, 12));
        break;
    case 2:
        evidence.now_ms += static_cast<std::int64_t>(upTo(dice, 1000));
        break;
    case 3:
        evidence.stops[upTo(dice, evidence.stops.size())].raised = 9;
        break;
    case 4:
        evidence.releases[upTo(dice, evidence.releases.size())].withdrawn = true;
        break;
    case 5:
        evidence.whole = false;
        break;
    case 6:
        evidence.clock_trusted = false;
        break;
    default:
        evidence.event_after[upTo(dice, evidence.event_after.size())] |= std::uint64_t{1} << upTo(dice, evidence.steps.size());
        break;
    }
}

} // namespace

class RandomTest : public QObject {
    Q_OBJECT
private slots:
    void judgeEqualsReference();
    void solverAgrees();
    void lessNeverGrants();
    void blockersExplainWhatIsNotGranted();
};

void RandomTest::judgeEqualsReference()
{
    std::size_t compared = 0;
    std::array<std::size_t, 3> seen{};
    const bool good = rc::check("the judge and the reference agree", [&](std::uint64_t seed) {
        Dice dice(seed);
        const RandomPack made = makePack(dice);
        const HoldPoint& first = made.pack.hold_points[made.pack.holdPoint("first")];
        for (int look = 0; look < kLooks; ++look) {
            const Evidence evidence = makeEvidence(dice, made.pack);
            const Actors actors = makeActors(dice);
            const Known known = byNames(made.pack, evidence);
            const WhoSigns who = byNames(made.pack, actors);
            for (const auto& [name, list] :
                {std::pair{"at_giving", &first.at_giving}, {"require", &first.require}, {"stop", &first.stop}}) {
                const Json& written = *made.first.find(name);
                for (std::size_t i = 0; i < written.items.size(); ++i) {
                    const Json& condition = *written.items[i].find("when");
                    const Judged judged = judge(std::span(made.pack.conditions).subspan((*list)[i].condition), evidence, actors);
                    RC_ASSERT(judged.truth == truthOf(verdict(condition, made.pack, known, who, evidence.now_ms)));
                    if (judged.truth != Truth::Unknown) {
                        RC_ASSERT(judged.until_ms == endOf(condition, made.pack, known, who, evidence.now_ms));
                    } else {
                        RC_ASSERT(judged.until_ms == kNever);
                    }
                    ++seen.at(static_cast<std::size_t>(judged.truth));
                    ++compared;
                }
            }
            RC_ASSERT(mayBeGiven(made.pack, evidence, made.pack.holdPoint("first"), actors)
                == truthOf(mayBeGivenByReference(made, known, who, evidence.now_ms)));
            ++compared;
        }
    });
    QVERIFY(good);
    qInfo("%zu comparisons: %zu false, %zu unknown, %zu true", compared, seen[0], seen[1], seen[2]);
    QVERIFY(compared >= 50'000);
    for (const std::size_t one : seen) {
        QVERIFY(one > 2'000); // all three are really met
    }
}

// The same packs and looks each time; other ones, and more of them, by RANDOM_SEED and RANDOM_PACKS.
void RandomTest::solverAgrees()
{
    constexpr int kSolverPacks = 500;
    constexpr int kSolverLooks = 100;
    const int seed = qEnvironmentVariableIntValue("RANDOM_SEED");
    const int packs = std::max(kSolverPacks, qEnvironmentVariableIntValue("RANDOM_PACKS"));
    std::size_t compared = 0;
    std::array<std::size_t, 3> seen{};
    for (int made_so_far = 0; made_so_far < packs; ++made_so_far) {
        Dice dice(static_cast<std::uint64_t>(seed) * 1'000'003U + static_cast<std::uint64_t>(made_so_far));
        const RandomPack made = makePack(dice);
        const Index first = made.pack.holdPoint("first");
        for (int look = 0; look < kSolverLooks; ++look) {
            Evidence evidence = makeEvidence(dice, made.pack);
            const Actors actors = makeActors(dice);
            if (look % 2 == 0) {
                makeGood(evidence);
                evidence.facts[made.pack.hold_points[first].tag_fact].count = 1;
            }
            const auto judged = threeWays(made, evidence, actors);
            if (!judged) {
                QFAIL(qPrintable(QStringLiteral("pack %1, look %2, seed %3").arg(made_so_far).arg(look).arg(seed)));
            }
            ++seen.at(static_cast<std::size_t>(*judged));
            ++compared;
        }
    }
    qInfo("%zu comparisons: %zu false, %zu unknown, %zu true", compared, seen[0], seen[1], seen[2]);
    QVERIFY(compared >= 50'000);
    for (const std::size_t one : seen) {
        QVERIFY(one > 500); // all three are really met
    }
}

// All good but for what is taken away, so that there are grants to lose.
void RandomTest::lessNeverGrants()
{
    std::size_t grants = 0;
    std::size_t looks = 0;
    const bool good = rc::check("what is taken away never makes a release", [&](std::uint64_t seed) {
        Dice dice(seed);
        const RandomPack made = makePack(dice);
        const Index first = made.pack.holdPoint("first");
        for (int look = 0; look < kLooks; ++look) {
            Evidence evidence = makeEvidence(dice, made.pack);
            const Actors actors = makeActors(dice);
            if (look % 2 == 0) { // nothing lacks, so that the values alone decide
                makeGood(evidence);
            }
            evidence.steps[made.pack.hold_points[first].talk].passed = Truth::True;
            evidence.facts[made.pack.hold_points[first].tag_fact].count = 1;
            bool granted = mayBeGiven(made.pack, evidence, first, actors) == Truth::True;
            for (int less = 0; less < 4; ++less) {
                takeAway(dice, evidence);
                const bool still = mayBeGiven(made.pack, evidence, first, actors) == Truth::True;
                RC_ASSERT(granted || !still);
                grants += granted ? 1 : 0;
                granted = still;
                ++looks;
            }
        }
    });
    QVERIFY(good);
    qInfo("%zu times something was taken away, %zu times from a granted one", looks, grants);
    QVERIFY(grants > 200);
}

void RandomTest::blockersExplainWhatIsNotGranted()
{
    const bool good = rc::check("no blockers exactly when nothing blocks", [](std::uint64_t seed) {
        Dice dice(seed);
        const RandomPack made = makePack(dice);
        const Index first = made.pack.holdPoint("first");
        for (int look = 0; look < kLooks; ++look) {
            Evidence evidence = makeEvidence(dice, made.pack);
            evidence.releases[first] = ReleaseHeld{};
            const HoldPointJudged judged = judgeHoldPoint(made.pack, evidence, first, {}, false);
            const bool refused = evidence.stops[made.pack.stop("forbidden")].raised != kNoEntry;
            RC_ASSERT(judged.blockers.empty() == (judged.state == State::Ready));
            RC_ASSERT((judged.state == State::Refused) == refused);
            for (const Blocker& one : judged.blockers) {
                RC_ASSERT(one.status != Lack::None);
                RC_ASSERT(one.rule == kNone || one.leaf != kNone);
            }
        }
    });
    QVERIFY(good);
}

BRIMFUL_SUITE(RandomTest);
#include "random_test.moc"
