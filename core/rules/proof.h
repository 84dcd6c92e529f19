// Proofs over every situation at once, by a SAT solver: what a pack can never grant, and what it grants that another does not.
// Pure: no clock, no files. rules/LANGUAGE.md tells what each proof says.
#pragma once

#include "core/rules/claims.h"

namespace brimful::rules {

enum class Law : std::uint8_t {
    Claims, // P1 nothing is granted against a claim
    Stops, // P2 a stop that was raised is heeded by every hold point
    Grants, // P4 every release can be granted
    Reach, // P5 every step and hold point can be reached, in the order of the acts
    Matters, // P6 every condition matters
    Diff, // P7 nothing is granted that the other pack does not grant
    People, // P8 nobody alone can be granted a release
    Ends, // P9 every release ends
    Time // P10 what lies between a record and the release fits into its life
};

struct Finding {
    Law law{};
    std::string subject; // claim, stop, rule, step or hold point
    std::string hold_point;
    bool at_giving{true}; // false: while a release stands
    Place place;
    canon::Json history; // a scenario that shows it, ready as a case; null where there is none to show
    std::vector<std::string> blame; // P7, P10: steps and rules that decide
};

struct Shortest { // P4: the shortest way to a release
    std::string hold_point;
    std::vector<std::string> steps;
    canon::Json history;
};

struct Enough { // P8: how few people, whatever roles they hold
    std::string hold_point;
    int people{}; // 0: not found
};

struct Proof {
    std::vector<Finding> findings; // empty: proven
    std::vector<Shortest> shortest;
    std::size_t claims{};
    std::size_t conditions{}; // that were shown to matter
    std::size_t questions{}; // asked of the solver
    std::vector<Enough> enough; // in the order of the journey
};

struct Against { // the installed pack of the same id
    const Pack* pack{};
    std::vector<Claim> claims; // read with the pack that is proved
};

struct Asked {
    bool claims{true};
    bool structure{true}; // P2, P4-P6, P8-P10
    bool diff{true};
    bool histories{true}; // write what was found as scenarios
};

[[nodiscard]] Proof prove(const Pack&, std::span<const Claim>, const Against& installed, const Asked& = {});

// P7 alone, one finding a hold point and list: what `pack` grants and `other` does not.
[[nodiscard]] std::vector<Finding> newlyGranted(const Pack& pack, const Pack& other, bool histories);
// P1 alone.
[[nodiscard]] std::vector<Finding> againstClaims(const Pack&, std::span<const Claim>, bool histories);

} // namespace brimful::rules
