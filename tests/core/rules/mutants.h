// Weakened packs: one condition, limit, life, role, order or event less each. What a proof that is worth anything names.
#pragma once

#include "core/rules/pack.h"

namespace brimful::test {

struct Mutant {
    std::string kind; // "condition", "limit", "life", "role", "order", "event", "record", "stop", "talk"
    std::string what; // "steps/150-brim.json accept.of[3] left out"
    rules::PackSource source;
};

[[nodiscard]] std::vector<Mutant> weakened(const rules::PackSource& base);

} // namespace brimful::test
