// A second judge, of another design: it walks the JSON of the rules by names, recursively, over evidence kept in maps,
// and finds how long a verdict holds by trying every moment at which something lapses. Slow, plain, for comparing.
#pragma once

#include "core/rules/standing.h"

#include <map>
#include <set>
#include <string>

namespace brimful::test {

struct KnownFact {
    bool usable{};
    std::int64_t largest{};
    std::int64_t smallest{};
    std::set<std::string> words;
    std::int64_t ends{};
};

struct KnownStep {
    bool usable{};
    int passed{}; // -1 no, 0 not known, 1 yes
    std::string first;
    std::string second;
    std::string first_role;
    std::string second_role;
    std::set<std::string> knew;
    std::int64_t ends{};
};

struct Known {
    std::map<std::string, KnownFact> facts;
    std::map<std::string, KnownStep> steps;
    std::set<std::string> raised; // stops
    std::set<std::string> given; // hold points
    std::map<std::string, std::set<std::string>> happened_since; // step -> events
    bool whole{};
    bool clock{};
    bool refused{};
};

struct Signing {
    std::string person; // empty: nobody known
    std::set<std::string> roles;
};

struct WhoSigns {
    std::optional<Signing> by;
    std::optional<Signing> with;
};

// -1, 0, 1 at the moment `now`.
[[nodiscard]] int verdict(const canon::Json& condition, const rules::Pack& pack, const Known&, const WhoSigns&, std::int64_t now);
// The first moment after `now` at which the verdict is another; kNever when none.
[[nodiscard]] std::int64_t endOf(const canon::Json& condition, const rules::Pack& pack, const Known&, const WhoSigns&, std::int64_t now);

// The same evidence by names.
[[nodiscard]] Known byNames(const rules::Pack&, const rules::Evidence&);
[[nodiscard]] WhoSigns byNames(const rules::Pack&, const rules::Actors&);

} // namespace brimful::test
