#include "core/rules/standing.h"

#include "core/rules/blockers.h"

#include <algorithm>
#include <bitset>
#include <tuple>

namespace brimful::rules {

namespace {

Judged judgeRule(const Pack& pack, const Evidence& evidence, const Rule& rule, const Actors& actors)
{
    return judge(std::span(pack.conditions).subspan(rule.condition), evidence, actors);
}

std::uint64_t roleBit(std::uint16_t role) { return role < 63 ? std::uint64_t{1} << role : 0; }

Actors signersOf(const ReleaseHeld& release)
{
    Actors actors;
    if (release.by != kNobody) {
        actors.by = ActorHeld{release.by, roleBit(release.by_role)};
    }
    if (release.with != kNobody) {
        actors.with = ActorHeld{release.with, roleBit(release.with_role)};
    }
    return actors;
}

bool wasGiven(const ReleaseHeld& release)
{
    return release.confirmed != kNoEntry && release.at_giving == Truth::True && !release.withdrawn;
}

// Everything about one hold point, judged once.
struct Gate {
    const Pack& pack;
    const Evidence& evidence;
    Index index;
    const HoldPoint& hold_point;
    const ReleaseHeld& release;

    Gate(const Pack& its_pack, const Evidence& its_evidence, Index its_index)
        : pack(its_pack)
        , evidence(its_evidence)
        , index(its_index)
        , hold_point(its_pack.hold_points[its_index])
        , release(its_evidence.releases[its_index])
    {
    }

    [[nodiscard]] std::int64_t lastsUntil() const { return hold_point.lasts_ms == 0 ? kNever : release.given_ms + hold_point.lasts_ms; }
    [[nodiscard]] bool stillLasts() const { return wasGiven(release) && release.ended_by == kNoEntry && evidence.now_ms < lastsUntil(); }

    // Both lists that are judged at every look; until: the first moment at which one of them ends.
    [[nodiscard]] Judged lasting(const Actors& actors) const
    {
        Judged out{Truth::True, kNever};
        for (const Rule& rule : hold_point.require) {
            const Judged one = judgeRule(pack, evidence, rule, actors);
            out.truth = std::min(out.truth, one.truth);
            out.until_ms = std::min(out.until_ms, one.until_ms);
        }
        for (const Rule& rule : hold_point.stop) {
            const Judged one = judgeRule(pack, evidence, rule, actors);
            out.truth = std::min(out.truth,
                one.truth == Truth::False      ? Truth::True
                    : one.truth == Truth::True ? Truth::False
                                               : Truth::Unknown);
            out.until_ms = std::min(out.until_ms, one.until_ms);
        }
        if (!evidence.whole || !evidence.clock_trusted) {
            out.truth = std::min(out.truth, Truth::Unknown);
        }
        return out;
    }

    [[nodiscard]] Truth giving(const Actors& actors, bool talk) const
    {
        Truth out = Truth::True;
        for (const Rule& rule : hold_point.at_giving) {
            if (talk || !rule.at_talk) {
                out = std::min(out, judgeRule(pack, evidence, rule, actors).truth);
            }
        }
        return out;
    }

    [[nodiscard]] bool refused() const
    {
        for (std::size_t i = 0; i < pack.stops.size(); ++i) {
            if (pack.stops[i].refuses && evidence.stops[i].raised != kNoEntry) {
                return true;
            }
        }
        return false;
    }

    [[nodiscard]] ReleaseState state() const
    {
        ReleaseState out{State::Held, kNever, wasGiven(release) ? release.confirmed : kNoEntry};
        const Judged now = lasting(stillLasts() ? signersOf(release) : Actors{});
        if (refused()) {
            out.state = State::Refused;
        } else if (hold_point.closes && wasGiven(release) && now.truth == Truth::True) {
            out.state = State::Closed;
        } else if (stillLasts() && now.truth == Truth::True) {
            out.state = State::Released;
            out.until_ms = std::min(now.until_ms, lastsUntil());
        } else if (now.truth == Truth::True && giving({}, false) == Truth::True) {
            out.state = State::Ready;
        }
        return out;
    }

    void blockersOf(
        const std::vector<Rule>& rules, List list, Truth wanted, bool talk, const Actors& actors, std::vector<Blocker>& out) const
    {
        for (std::size_t i = 0; i < rules.size(); ++i) {
            if ((rules[i].at_talk && !talk) || judgeRule(pack, evidence, rules[i], actors).truth == wanted) {
                continue;
            }
            Blocker about;
            about.hold_point = index;
            about.list = list;
            about.rule = static_cast<Index>(i);
            about.barrier = rules[i].barrier;
            collectBlockers(pack, evidence, actors, rules[i].condition, wanted, about, out);
        }
    }

    [[nodiscard]] std::vector<Blocker> blockers(bool talk) const
    {
        std::vector<Blocker> out;
        const Actors actors = talk ? signersOf(release) : Actors{};
        const auto plain = [&](List list, Lack status, std::uint32_t entry) {
            Blocker one;
            one.hold_point = index;
            one.list = list;
            one.status = status;
            one.entry = entry;
            out.push_back(one);
        };
        if (!evidence.clock_trusted) {
            plain(List::Clock, Lack::UntrustedClock, kNoEntry);
        }
        if (!evidence.whole) {
            plain(List::History, Lack::HistoryGap, kNoEntry);
        }
        blockersOf(hold_point.stop, List::Stop, Truth::False, talk, actors, out);
        blockersOf(hold_point.require, List::Require, Truth::True, talk, actors, out);
        if (!stillLasts()) {
            blockersOf(hold_point.at_giving, List::AtGiving, Truth::True, talk, actors, out);
            if (wasGiven(release)) {
                plain(release.ended_by != kNoEntry ? List::Ended : List::Lasts, release.ended_by != kNoEntry ? Lack::Voided : Lack::Lapsed,
                    release.ended_by != kNoEntry ? release.ended_by : release.confirmed);
            }
        }
        return out;
    }
};

// One cause may touch several rules; whoever has to lift it wants to hear of it once. The audit tells all.
void keepOneOfACause(std::vector<Blocker>& blockers)
{
    const auto cause = [](const Blocker& one) { return std::tuple(one.lifted_by, one.stop, one.needs_hold_point, one.status); };
    std::vector<Blocker> kept;
    for (const Blocker& one : blockers) {
        const bool named = one.lifted_by != kNone || one.stop != kNone || one.needs_hold_point != kNone;
        const bool told = named && std::ranges::any_of(kept, [&](const Blocker& other) { return cause(other) == cause(one); });
        if (!told) {
            kept.push_back(one);
        }
    }
    blockers = std::move(kept);
}

bool happensBehind(const HoldPoint& hold_point, const Step& step)
{
    return step.talk_of == kNone && hold_point.act != Act::Paper && step.act == hold_point.act && step.stage == hold_point.stage;
}

// A release stands over work that is going on: not over papers, and not once what it opened is recorded as opened.
bool isAtWork(const Pack& pack, const Evidence& evidence, Index index)
{
    const HoldPoint& hold_point = pack.hold_points[index];
    if (hold_point.act != Act::Open) {
        return hold_point.act != Act::Paper;
    }
    for (std::size_t s = 0; s < pack.steps.size(); ++s) {
        if (happensBehind(hold_point, pack.steps[s]) && evidence.steps[s].entry == kNoEntry) {
            return true;
        }
    }
    return false;
}

// The first hold point that is still to be given: never given, or given and over before what lies behind it was done.
Index targetOf(const Pack& pack, const Evidence& evidence, const Standing& standing)
{
    for (std::size_t i = 0; i < pack.hold_points.size(); ++i) {
        if (!wasGiven(evidence.releases[i])) {
            return static_cast<Index>(i);
        }
        if (standing.hold_points[i].state == State::Released) {
            continue;
        }
        for (std::size_t s = 0; s < pack.steps.size(); ++s) {
            const bool open =
                happensBehind(pack.hold_points[i], pack.steps[s]) && standing.steps[s].asked && evidence.steps[s].entry == kNoEntry;
            if (open) {
                return static_cast<Index>(i);
            }
        }
    }
    return kNone;
}

std::vector<StepState> stepStates(const Pack& pack, const Evidence& evidence)
{
    std::vector<StepState> states;
    states.reserve(pack.steps.size());
    for (std::size_t i = 0; i < pack.steps.size(); ++i) {
        const StepHeld& held = evidence.steps[i];
        const bool asked =
            !pack.steps[i].when || judge(std::span(pack.conditions).subspan(*pack.steps[i].when), evidence, {}).truth != Truth::False;
        const Lack lack = held.lack == Lack::None && held.lapses_ms <= evidence.now_ms ? Lack::Lapsed : held.lack;
        states.push_back({lack == Lack::None ? held.passed : Truth::Unknown, lack, held.lapses_ms, asked, held.entry});
    }
    return states;
}

// Steps that the hold point's rules speak of, and all that these need to have known.
std::bitset<64> stepsSpokenOf(const Pack& pack, const HoldPoint& hold_point)
{
    std::bitset<64> steps;
    for (const auto* list : {&hold_point.at_giving, &hold_point.require}) {
        for (const Rule& rule : *list) {
            for (std::size_t i = 0; i < pack.conditions[rule.condition].size; ++i) {
                const Condition& node = pack.conditions[rule.condition + i];
                if (node.op == Op::Passed) {
                    steps.set(node.a);
                } else if (node.op == Op::Is || node.op == Op::AtMost || node.op == Op::AtLeast || node.op == Op::Between) {
                    steps.set(pack.facts[node.a].step);
                }
            }
        }
    }
    for (bool grew = true; grew;) {
        grew = false;
        for (std::size_t i = 0; i < pack.steps.size(); ++i) {
            for (const Index need : pack.steps[i].needs) {
                if (steps.test(i) && !steps.test(need)) {
                    steps.set(need);
                    grew = true;
                }
            }
        }
    }
    return steps;
}

// Which step must know which, by the steps themselves and by what the hold point asks.
std::vector<std::pair<Index, Index>> mustKnow(const Pack& pack, const HoldPoint& hold_point)
{
    std::vector<std::pair<Index, Index>> out;
    for (std::size_t i = 0; i < pack.steps.size(); ++i) {
        for (const Index need : pack.steps[i].needs) {
            out.emplace_back(static_cast<Index>(i), need);
        }
    }
    for (const auto* list : {&hold_point.at_giving, &hold_point.require}) {
        for (const Rule& rule : *list) {
            for (std::size_t i = 0; i < pack.conditions[rule.condition].size; ++i) {
                const Condition& node = pack.conditions[rule.condition + i];
                if (node.op == Op::After) {
                    out.emplace_back(node.a, node.b);
                }
            }
        }
    }
    return out;
}

// Steps that lift the blockers, with what they need to know first, in the pack's order; then the stops, then the release.
std::vector<Next> nextThings(const Pack& pack, const Evidence& evidence, const Standing& standing, Index target)
{
    std::vector<Next> out;
    if (!evidence.clock_trusted) {
        out.push_back({Next::What::ConfirmClock, 0});
    }
    if (!evidence.whole) {
        out.push_back({evidence.forked ? Next::What::JoinFork : Next::What::AcceptGap, 0});
    }
    std::bitset<64> steps;
    std::vector<Index> stops;
    for (const Blocker& blocker : standing.blockers) {
        if (blocker.lifted_by != kNone && pack.steps[blocker.lifted_by].talk_of == kNone) {
            steps.set(blocker.lifted_by);
        }
        if (blocker.stop != kNone && std::ranges::find(stops, blocker.stop) == stops.end()) {
            stops.push_back(blocker.stop);
        }
    }
    const std::bitset<64> spoken_of = stepsSpokenOf(pack, pack.hold_points[target]);
    const auto must_know = mustKnow(pack, pack.hold_points[target]);
    for (bool grew = true; grew;) {
        grew = false;
        for (const auto& [step, need] : must_know) {
            // What must be known first is done first; what knew it as it was has to be done again.
            const bool first =
                steps.test(step) && !steps.test(need) && standing.steps[need].lack != Lack::None && standing.steps[need].asked;
            const bool again = !steps.test(step) && steps.test(need) && spoken_of.test(step) && standing.steps[step].lack == Lack::None;
            if (first || again) {
                steps.set(first ? need : step);
                grew = true;
            }
        }
    }
    for (const Index stop : stops) { // what was raised twice is answered twice: each by name
        out.insert(out.end(), evidence.stops[stop].count, {Next::What::Clear, stop});
    }
    for (std::size_t i = 0; i < pack.steps.size(); ++i) {
        if (steps.test(i)) {
            out.push_back({Next::What::Step, static_cast<Index>(i)});
        }
    }
    return out;
}

} // namespace

Truth mayBeGiven(const Pack& pack, const Evidence& evidence, Index hold_point, const Actors& actors)
{
    const Gate gate(pack, evidence, hold_point);
    if (gate.refused()) {
        return Truth::False;
    }
    return std::min(gate.giving(actors, true), gate.lasting(actors).truth);
}

HoldPointJudged judgeHoldPoint(const Pack& pack, const Evidence& evidence, Index hold_point, const Actors& actors, bool giving)
{
    const Gate gate(pack, evidence, hold_point);
    const ReleaseState state = gate.state();
    HoldPointJudged out{state.state, state.until_ms, {}, {}};
    const Actors who = giving || gate.stillLasts() ? signersOf(gate.release) : actors;
    const auto add = [&](const std::vector<Rule>& rules, List list) {
        for (std::size_t i = 0; i < rules.size(); ++i) {
            if (rules[i].at_talk && !giving && !gate.stillLasts()) {
                continue;
            }
            // What was judged once, when it was given, stays judged so while the release lasts.
            const bool once = list == List::AtGiving && gate.stillLasts();
            out.rules.push_back(
                {list, static_cast<Index>(i), once ? Judged{Truth::True, kNever} : judgeRule(pack, evidence, rules[i], who)});
        }
    };
    add(gate.hold_point.at_giving, List::AtGiving);
    add(gate.hold_point.require, List::Require);
    add(gate.hold_point.stop, List::Stop);
    if (state.state != State::Released && state.state != State::Closed) {
        out.blockers = gate.blockers(giving);
    }
    return out;
}

Standing standing(const Pack& pack, const Evidence& evidence)
{
    Standing out;
    out.steps = stepStates(pack, evidence);
    Index live = kNone;
    bool refused = false;
    bool closed = false;
    for (std::size_t i = 0; i < pack.hold_points.size(); ++i) {
        const ReleaseState state = Gate(pack, evidence, static_cast<Index>(i)).state();
        out.hold_points.push_back(state);
        refused = refused || state.state == State::Refused;
        closed = closed || state.state == State::Closed;
        if (wasGiven(evidence.releases[i])) {
            live = state.state == State::Released && isAtWork(pack, evidence, static_cast<Index>(i)) ? static_cast<Index>(i) : kNone;
        }
    }
    const Index target = targetOf(pack, evidence, out);
    out.hold_point = live != kNone ? live : target;
    if (target != kNone && !closed) {
        out.blockers = Gate(pack, evidence, target).blockers(false);
        keepOneOfACause(out.blockers);
        out.next = nextThings(pack, evidence, out, target);
        if (!refused) {
            out.next.push_back({Next::What::Release, target});
        }
    }
    if (refused) {
        out.state = State::Refused;
    } else if (closed) {
        out.state = State::Closed;
    } else if (live != kNone) {
        out.state = State::Released;
        out.until_ms = out.hold_points[live].until_ms;
    } else if (target != kNone) {
        out.state = out.hold_points[target].state;
    }
    return out;
}

} // namespace brimful::rules
