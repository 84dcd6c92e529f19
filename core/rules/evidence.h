// What the fold hands to the judge: dense, by the pack's own indices. Pure data.
#pragma once

#include "core/rules/condition.h"

#include <cstdint>
#include <vector>

namespace brimful::rules {

// Why something does not count. Ordered: the first that applies is named.
enum class Lack : std::uint8_t {
    None,
    Missing,
    Lapsed,
    Voided,
    Conflict,
    WrongValue,
    WrongPerson,
    WrongOrder,
    UntrustedClock,
    HistoryGap,
    Instrument,
    Attachment,
    Error
};

inline constexpr std::uint32_t kNoEntry = 0; // entries are numbered from 1 in the order of the fold
inline constexpr std::uint16_t kNobody = 0xffff; // people are numbered by the fold's list

// A fact's newest value. A register is collapsed to its worst rows: `count` the largest, `least` the smallest;
// a choice is a set of bits (every option that occurs).
struct Held {
    std::int64_t count{};
    std::int64_t least{};
    std::int64_t lapses_ms{kNever};
    std::uint32_t entry{kNoEntry};
    Lack lack{Lack::Missing};
};

struct StepHeld {
    Truth passed{Truth::Unknown}; // acceptance of the newest record, if it is usable
    Lack lack{Lack::Missing};
    std::uint32_t entry{kNoEntry};
    std::uint16_t person{kNobody};
    std::uint16_t second{kNobody};
    std::uint16_t role{kNobody}; // role claimed by the first, index into the pack's roles
    std::uint16_t second_role{kNobody};
    std::int64_t lapses_ms{kNever};
    std::uint64_t knows{}; // steps (bits) whose newest record this record had as an ancestor
    std::uint32_t confirmed{kNoEntry}; // the entry from which it counts (the second signature, or the record itself)
};

struct StopHeld {
    std::uint32_t raised{kNoEntry}; // the oldest uncleared entry; kNoEntry: clear
    std::uint32_t count{}; // how many uncleared
};

struct ReleaseHeld {
    std::uint32_t offered{kNoEntry}; // the newest `released` entry
    std::uint32_t confirmed{kNoEntry}; // its confirmation; kNoEntry: one signature is missing
    Truth at_giving{Truth::Unknown}; // judged from the confirming entry's ancestors at its own moment
    std::int64_t given_ms{};
    bool withdrawn{}; // taken back by name: it no longer counts as given
    std::uint32_t ended_by{kNoEntry}; // event or withdrawal that came after
    std::uint16_t by{kNobody};
    std::uint16_t with{kNobody};
    std::uint16_t by_role{kNobody};
    std::uint16_t with_role{kNobody};
};

struct Evidence {
    std::int64_t now_ms{}; // on the axis of every lapses_ms here
    std::vector<Held> facts;
    std::vector<StepHeld> steps;
    std::vector<StopHeld> stops;
    std::vector<ReleaseHeld> releases; // per hold point
    std::vector<std::uint32_t> last_event; // per event kind: its newest entry
    std::vector<std::uint64_t> event_after; // per event kind: steps (bits) whose newest record does not know it
    bool whole{}; // no missing parent, one head, every genuine tag's head known
    bool forked{}; // not whole because two tablets wrote without knowing of each other: to be joined, not to be given up
    bool clock_trusted{}; // this boot's time was confirmed
};

} // namespace brimful::rules
