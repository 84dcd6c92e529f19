// Random packs and evidence: the judge against the reference and against the solver's encoding, and the law that less, older or
// contradicted evidence never makes a release.
#include "tests/core/rules/evidence_atoms.h"
#include "tests/core/rules/evidence_of.h"
#include "tests/core/rules/packs.h"
#include "tests/core/rules/reference.h"
#include "tests/support/suite.h"

#include <QTest>
#include <rapidcheck.h>

#include <random>

using namespace brimful;
using namespace brimful::rules;
using namespace brimful::test;
using canon::Json;

namespace {

using Dice = std::mt19937_64;

constexpr int kPacks = 100; // what RapidCheck tries by itself
constexpr int kLooks = 120;

std::size_t upTo(Dice& dice, std::size_t count) { return static_cast<std::size_t>(dice() % count); }
bool oneIn(Dice& dice, std::size_t count) { return upTo(dice, count) == 0; }
template <class List> const auto& pick(Dice& dice, const List& list) { return list[upTo(dice, list.size())]; }

Json object(std::initializer_list<std::pair<const char*, Json>> all)
{
    Json out = Json::object();
    for (const auto& [key, value] : all) {
        out.set(key, value);
    }
    return out;
}

Json someOf(Dice& dice, const std::vector<std::string>& words)
{
    Json out = Json::array();
    for (const std::string& word : words) {
        if (oneIn(dice, 2)) {
            out.items.emplace_back(word);
        }
    }
    if (out.items.empty()) {
        out.items.emplace_back(pick(dice, words));
    }
    return out;
}

// Makes rules for the small pack's hold points. `cut` lies behind `first` and is left out of its lists.
struct Maker {
    Dice& dice;
    const Pack& pack;
    std::vector<std::string> steps{"papers", "look", "openings", "share", "day", "readings", "watcher"};
    std::vector<std::string> numbers{"look.depth", "share.part", "share.share", "readings.fresh", "readings.set.gas"};
    std::vector<std::string> choices{"papers.held", "openings.table.state", "day.wind"};
    std::vector<std::string> signatures{"papers", "look", "look:second", "share", "readings"};

    Json numberOf(const std::string& fact, std::int64_t low)
    {
        const quantity::Dimension dimension = pack.facts[pack.fact(fact)].dimension;
        if (dimension == quantity::Dimension::Number) {
            return Json(low);
        }
        return Json(std::to_string(low)
            + (dimension == quantity::Dimension::Length             ? " mm"
                    : dimension == quantity::Dimension::VolumeShare ? " %"
                                                                    : " %LEL"));
    }

    Json leaf(bool negated)
    {
        switch (upTo(dice, negated ? 9 : 13)) {
        case 0:
        case 1:
            return object({{"op", "passed"}, {"step", Json(pick(dice, steps))}});
        case 2:
            return object({{"op", "failed"}, {"step", Json(pick(dice, steps))}});
        case 3: {
            const std::string fact = pick(dice, choices);
            return object({{"op", "is"}, {"fact", Json(fact)}, {"one_of", someOf(dice, pack.facts[pack.fact(fact)].options)}});
        }
        case 4: {
            const std::string fact = pick(dice, numbers);
            const char* op = oneIn(dice, 2) ? "at_most" : "at_least";
            return object({{"op", op}, {"fact", Json(fact)}, {"value", numberOf(fact, static_cast<std::int64_t>(upTo(dice, 6)))}});
        }
        case 5: {
            const std::string fact = pick(dice, numbers);
            const auto low = static_cast<std::int64_t>(upTo(dice, 4));
            return object({{"op", "between"}, {"fact", Json(fact)}, {"low", numberOf(fact, low)}, {"high", numberOf(fact, low + 2)}});
        }
        case 6:
            return object({{"op", "different_people"}, {"a", Json(pick(dice, signatures))}, {"b", Json(pick(dice, signatures))}});
        case 7:
            return object({{"op", "after"}, {"step", Json(pick(dice, steps))}, {"knows", Json(pick(dice, steps))}});
        case 8:
            return object({{"op", "given"}, {"hold_point", oneIn(dice, 2) ? "first" : "leaves"}});
        case 9:
            return object({{"op", "not_by"}, {"signature", Json(pick(dice, signatures))}, {"actor", oneIn(dice, 2) ? "by" : "with"}});
        case 10:
            return oneIn(dice, 2)
                ? object({{"op", "role"}, {"signature", Json(pick(dice, signatures))}, {"one_of", someOf(dice, pack.roles)}})
                : object({{"op", "role"}, {"actor", oneIn(dice, 2) ? "by" : "with"}, {"one_of", someOf(dice, pack.roles)}});
        case 11:
            return object({{"op", "not_since"}, {"step", Json(pick(dice, steps))}, {"event", Json(pick(dice, pack.events).id)}});
        default:
            return object({{"op", "clear"}, {"stop", Json(pick(dice, pack.stops).id)}});
        }
    }

    Json tree(int depth, bool negated)
    {
        if (depth <= 1 || oneIn(dice, 3)) {
            return leaf(negated);
        }
        const std::size_t shape = upTo(dice, 4);
        if (shape == 3) {
            return object({{"op", "not"}, {"of", tree(depth - 1, true)}});
        }
        Json of = Json::array();
        const std::size_t width = 1 + upTo(dice, 4);
        for (std::size_t i = 0; i < width; ++i) {
            of.items.push_back(tree(depth - 1, negated));
        }
        Json out = object({{"op", shape == 0 ? "all" : shape == 1 ? "any" : "k_of"}, {"of", of}});
        if (shape == 2) {
            out.set("k", static_cast<std::int64_t>(1 + upTo(dice, width)));
        }
        return out;
    }

    Json rules(const std::string& prefix, std::size_t count, bool stop, Json& strings)
    {
        Json out = Json::array();
        for (std::size_t i = 0; i < count; ++i) {
            const std::string id = prefix + std::to_string(i);
            strings.set("rule." + id, id).set("rule." + id + ".lift", id);
            // A leaf that an event could break may stand only where it is asked to hold.
            Json when = stop ? object({{"op", "not"}, {"of", tree(4, false)}}) : tree(5, false);
            out.items.push_back(object({{"id", Json(id)}, {"barrier", "people"}, {"when", std::move(when)},
                {"source", Json::array({object({{"mark", "proposal"}})})}}));
        }
        return out;
    }
};

struct RandomPack {
    Pack pack;
    Json first; // its hold point, as written
};

RandomPack makePack(Dice& dice)
{
    static const PackSource small = packFiles("small");
    static const Pack known = loaded(small);
    PackSource source = small;
    Json strings = *canon::read(source.files.at("strings.en.json"), canon::Dialect::Subset);
    std::string& file = source.files.at("hold-points/10-first.json");
    Json first = *canon::read(file, canon::Dialect::Subset);
    Maker maker{dice, known};
    first.set("at_giving", maker.rules("g", 1 + upTo(dice, 3), false, strings));
    first.set("require", maker.rules("r", 1 + upTo(dice, 3), false, strings));
    first.set("stop", maker.rules("s", upTo(dice, 3), true, strings));
    file = canon::write(first, false);
    source.files.at("strings.en.json") = canon::write(strings, false);
    return {loaded(source), std::move(first)};
}

Lack someLack(Dice& dice, std::size_t one_in) { return oneIn(dice, one_in) ? static_cast<Lack>(1 + upTo(dice, 12)) : Lack::None; }

Evidence makeEvidence(Dice& dice, const Pack& pack)
{
    Evidence evidence = allProven(pack);
    evidence.now_ms = 1000;
    const std::size_t bad = pick(dice, std::vector<std::size_t>{2, 5, 20, 1'000'000}); // from mostly bad to all good
    const auto ends = [&] {
        return oneIn(dice, 3) ? kNever : static_cast<std::int64_t>(1000 + (oneIn(dice, 9) ? 0 : 1 + upTo(dice, 9)) * 100);
    };
    for (std::size_t i = 0; i < pack.facts.size(); ++i) {
        Held& one = evidence.facts[i];
        one.lack = someLack(dice, bad);
        one.lapses_ms = ends();
        const Fact& fact = pack.facts[i];
        if (!fact.options.empty()) {
            one.count = static_cast<std::int64_t>(1 + upTo(dice, (std::size_t{1} << fact.options.size()) - 1));
            one.least = one.count;
        } else {
            const std::int64_t unit = fact.unit == "100nm" ? 10'000 : fact.unit == "0.1%LEL" ? 10 : fact.unit == "ppm" ? 10'000 : 1;
            one.least = static_cast<std::int64_t>(upTo(dice, 6)) * unit;
            one.count = one.least + static_cast<std::int64_t>(upTo(dice, 3)) * unit;
        }
    }
    for (StepHeld& one : evidence.steps) {
        one.lack = someLack(dice, bad);
        one.passed = oneIn(dice, bad) ? static_cast<Truth>(upTo(dice, 2)) : Truth::True;
        one.person = oneIn(dice, 9) ? kNobody : static_cast<std::uint16_t>(upTo(dice, 4));
        one.second = oneIn(dice, 9) ? kNobody : static_cast<std::uint16_t>(upTo(dice, 4));
        one.role = static_cast<std::uint16_t>(oneIn(dice, 9) ? 0xffff : upTo(dice, pack.roles.size()));
        one.second_role = static_cast<std::uint16_t>(oneIn(dice, 9) ? 0xffff : upTo(dice, pack.roles.size()));
        one.knows = dice();
        one.lapses_ms = ends();
    }
    for (StopHeld& one : evidence.stops) {
        one.raised = oneIn(dice, bad) ? 3 : kNoEntry;
    }
    for (ReleaseHeld& one : evidence.releases) {
        one.confirmed = oneIn(dice, 2) ? 7 : kNoEntry;
        one.at_giving = static_cast<Truth>(upTo(dice, 3));
        one.withdrawn = oneIn(dice, 4);
    }
    for (std::uint64_t& bits : evidence.event_after) {
        bits = oneIn(dice, bad) ? dice() : 0;
    }
    evidence.whole = !oneIn(dice, bad);
    evidence.clock_trusted = !oneIn(dice, bad);
    return evidence;
}

Actors makeActors(Dice& dice)
{
    Actors actors;
    if (!oneIn(dice, 4)) {
        actors.by = ActorHeld{static_cast<std::uint16_t>(oneIn(dice, 9) ? kNobody : upTo(dice, 4)), dice() & 15U};
    }
    if (!oneIn(dice, 4)) {
        actors.with = ActorHeld{static_cast<std::uint16_t>(oneIn(dice, 9) ? kNobody : upTo(dice, 4)), dice() & 15U};
    }
    return actors;
}

Truth truthOf(int verdict) { return static_cast<Truth>(verdict + 1); }

// Whether `first` may be given, from its file alone; what every hold point asks is written out again.
int mayBeGivenByReference(const RandomPack& made, const Known& known, const WhoSigns& who, std::int64_t now)
{
    int least = known.refused ? -1 : known.whole && known.clock ? 1 : 0;
    const auto asked = [&](const Json& condition, bool stop) {
        const int one = verdict(condition, made.pack, known, who, now);
        least = std::min(least, stop ? -one : one);
    };
    for (const char* list : {"at_giving", "require", "stop"}) {
        for (const Json& rule : made.first.find(list)->items) {
            asked(*rule.find("when"), std::string(list) == "stop");
        }
    }
    for (const char* stop : {"alarm", "forbidden"}) { // the pack's `everywhere`
        asked(object({{"op", "not"}, {"of", object({{"op", "clear"}, {"stop", Json(stop)}})}}), true);
    }
    asked(object({{"op", "passed"}, {"step", "talk-first"}}), false);
    asked(object({{"op", "is"}, {"fact", "talk-first.tag"}, {"one_of", Json::array({Json("newest")})}}), false);
    return least;
}

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

// Three ways to one verdict: the judge, the reference, and the solver held to the same evidence. Of the solver both rails are
// asked: what is True can be met and its opposite cannot, and so with False. The same packs and looks each time; other ones, and
// more of them, by RANDOM_SEED and RANDOM_PACKS.
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
            const Truth judged = mayBeGiven(made.pack, evidence, first, actors);
            const Truth by_reference =
                truthOf(mayBeGivenByReference(made, byNames(made.pack, evidence), byNames(made.pack, actors), evidence.now_ms));
            Solver solver;
            EvidenceAtoms atoms(evidence, actors, solver);
            const Rails rails = Encoding(made.pack, atoms, solver).giving(first);
            const auto meets = [&](Lit literal) {
                std::vector<Lit> assumed = atoms.held;
                assumed.push_back(literal);
                return solver.solve(assumed);
            };
            const bool solved = meets(rails.t) == (judged == Truth::True) && meets(-rails.t) == (judged != Truth::True)
                && meets(rails.f) == (judged == Truth::False) && meets(-rails.f) == (judged != Truth::False);
            if (judged != by_reference || !solved) {
                QFAIL(qPrintable(QStringLiteral("pack %1, look %2, seed %3").arg(made_so_far).arg(look).arg(seed)));
            }
            ++seen.at(static_cast<std::size_t>(judged));
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
