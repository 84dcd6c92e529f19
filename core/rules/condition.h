// Conditions: Kleene logic over evidence, flat and in preorder. One judge; nothing else decides.
#pragma once

#include <cstdint>
#include <limits>
#include <span>
#include <vector>

namespace brimful::rules {

// Unknown is a value of its own and blocks. all = min, any = max, not swaps False and True.
enum class Truth : std::uint8_t { False, Unknown, True };

enum class Op : std::uint8_t {
    All,
    Any,
    Not,
    KOf, // structure
    Passed,
    Failed, // a: step
    Is, // a: fact; low: bits of the allowed options
    AtMost,
    AtLeast,
    Between, // a: fact; low, high: counts in the fact's unit
    DifferentPeople, // a, b: signatures
    NotBy, // a: signature, b: Actor
    HasRole, // a: signature or Actor (b = 1), low: bits of the roles
    After, // a: step, b: the step that it must have known
    NotSince, // a: step, b: event
    Clear, // a: stop
    Given // a: hold point that was validly given and not taken back
};

enum class Actor : std::uint8_t { By, With }; // who gives the release, who accepts it

// A signature on a step's newest record: step * 2, + 1 for the second person's.
using SignatureRef = std::uint16_t;

struct Condition {
    Op op{Op::All};
    std::uint16_t size{1}; // nodes of this subtree, itself included
    std::uint16_t a{};
    std::uint16_t b{};
    std::int64_t low{}; // KOf: k
    std::int64_t high{};
    std::uint16_t barrier{};
    std::uint16_t source{}; // index into the pack's places (file, line, column)
};

inline constexpr std::int64_t kNever = std::numeric_limits<std::int64_t>::max();

struct Judged {
    Truth truth{Truth::Unknown};
    // True: the first moment at which age alone ends it. False: the first at which age alone makes it unknown. Unknown: kNever.
    std::int64_t until_ms{kNever};
    bool operator==(const Judged&) const = default;
};

} // namespace brimful::rules
