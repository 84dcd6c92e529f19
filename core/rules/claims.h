// What must never be granted, written apart from the rules and in words of its own: a claim speaks of what was recorded, not of
// what a rule makes of it. rules/LANGUAGE.md says what the files look like.
#pragma once

#include "core/rules/pack.h"

namespace brimful::rules {

struct Claim {
    std::string id;
    std::vector<Index> hold_points;
    bool at_giving{}; // of the moment at which it is given
    bool at_every_look{}; // of every moment while it stands
    canon::Json only_if;
    Place place;
    std::string file;
};

// The pack's claims/*.json, in the order of the files. Errors as the loader's: file, line, what was expected, nearest name.
[[nodiscard]] tl::expected<std::vector<Claim>, std::vector<LoadError>> loadClaims(const PackSource&, const Pack&);

} // namespace brimful::rules
