// The answer, in indices; app/text words it. Pure: same pack, evidence, moment and actors, same answer.
#pragma once

#include "core/rules/evidence.h"
#include "core/rules/pack.h"

namespace brimful::rules {

struct ActorHeld {
    std::uint16_t person{kNobody};
    std::uint64_t roles{}; // bits
};
// Who is about to sign; nothing: only asking, and leaves about actors do not hold the answer back.
struct Actors {
    std::optional<ActorHeld> by;
    std::optional<ActorHeld> with;
};

[[nodiscard]] Judged judge(std::span<const Condition> tree, const Evidence&, const Actors&);

enum class State : std::uint8_t { Refused, Held, Ready, Released, Closed };

enum class List : std::uint8_t { AtGiving, Require, Stop, Lasts, Ended, History, Clock };

struct Blocker {
    Index hold_point{};
    List list{List::Require};
    Index rule{kNone}; // in that list
    Index leaf{kNone}; // index into Pack::conditions of the deciding leaf
    Lack status{Lack::Missing};
    std::uint32_t entry{kNoEntry};
    Index barrier{};
    Index lifted_by{kNone}; // step that would lift it
    Index stop{kNone}; // stop to be cleared, when that is what holds
    Index needs_hold_point{kNone}; // hold point that must be given first
};

struct StepState {
    Truth passed{Truth::Unknown};
    Lack lack{Lack::Missing};
    std::int64_t lapses_ms{kNever};
    bool asked{true}; // false: `when` says that this vessel does not need it
    std::uint32_t entry{kNoEntry};
};

struct ReleaseState {
    State state{State::Held};
    std::int64_t until_ms{kNever};
    std::uint32_t given_by{kNoEntry}; // the confirming entry
};

struct Next {
    enum class What : std::uint8_t { Step, Clear, Release, ConfirmClock, AcceptGap, JoinFork } what{What::Step};
    Index index{}; // step, stop or hold point
};

struct Standing {
    State state{State::Held};
    std::int64_t until_ms{kNever};
    Index hold_point{kNone}; // released one, or the next that holds
    std::vector<StepState> steps;
    std::vector<ReleaseState> hold_points;
    std::vector<Blocker> blockers; // of the next hold point; of every hold point when asked with all
    std::vector<Next> next; // toward the next release
};

// Asking only: leaves about who signs are judged at giving, with names.
[[nodiscard]] Standing standing(const Pack&, const Evidence&);

// All of at_giving (the talk and the tag too), require and stop at this evidence, with these actors: may it be given?
[[nodiscard]] Truth mayBeGiven(const Pack&, const Evidence&, Index hold_point, const Actors&);

// One hold point, whole: every rule of its lists with its truth; for the audit and at giving.
struct RuleJudged {
    List list;
    Index rule;
    Judged judged;
};
struct HoldPointJudged {
    State state{State::Held};
    std::int64_t until_ms{kNever};
    std::vector<RuleJudged> rules;
    std::vector<Blocker> blockers;
};
// `giving`: the talk and the tag are judged too, with those who signed the newest release.
[[nodiscard]] HoldPointJudged judgeHoldPoint(const Pack&, const Evidence&, Index hold_point, const Actors&, bool giving);

} // namespace brimful::rules
