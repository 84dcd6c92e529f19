// Evidence made by hand: everything proven, in the sizes of a pack, to be spoiled one piece at a time.
#pragma once

#include "core/rules/standing.h"

namespace brimful::test {

inline rules::Held held(std::int64_t count, std::int64_t lapses = rules::kNever)
{
    rules::Held out;
    out.count = count;
    out.least = count;
    out.lapses_ms = lapses;
    out.entry = 1;
    out.lack = rules::Lack::None;
    return out;
}

inline rules::StepHeld stepHeld(rules::Truth passed, std::int64_t lapses = rules::kNever)
{
    rules::StepHeld out;
    out.passed = passed;
    out.lack = rules::Lack::None;
    out.entry = 1;
    out.confirmed = 1;
    out.person = 1;
    out.second = 2;
    out.role = 0;
    out.second_role = 1;
    out.lapses_ms = lapses;
    out.knows = ~std::uint64_t{0};
    return out;
}

// Every step passed by person 1 with person 2, every fact at 1, no stop, nothing given, clock and history good.
inline rules::Evidence allProven(const rules::Pack& pack)
{
    rules::Evidence evidence;
    evidence.now_ms = 1000;
    evidence.facts.assign(pack.facts.size(), held(1));
    evidence.steps.assign(pack.steps.size(), stepHeld(rules::Truth::True));
    evidence.stops.resize(pack.stops.size());
    evidence.releases.resize(pack.hold_points.size());
    evidence.last_event.resize(pack.events.size());
    evidence.event_after.resize(pack.events.size());
    evidence.whole = true;
    evidence.clock_trusted = true;
    return evidence;
}

} // namespace brimful::test
