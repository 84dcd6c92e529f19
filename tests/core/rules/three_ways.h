// Three ways to one verdict: the judge, the reference, and the solver held to the same evidence.
#pragma once

#include "tests/core/rules/random_pack.h"
#include "tests/core/rules/reference.h"

namespace brimful::test {

[[nodiscard]] inline rules::Truth truthOf(int verdict) { return static_cast<rules::Truth>(verdict + 1); }

// Whether `first` may be given, from its file alone; what every hold point asks is written out again.
[[nodiscard]] int mayBeGivenByReference(const RandomPack&, const Known&, const WhoSigns&, std::int64_t now);

// The verdict that all three give; nothing when they differ. Of the solver both rails are asked: what is True can be met and its
// opposite cannot, and so with False.
[[nodiscard]] std::optional<rules::Truth> threeWays(const RandomPack&, const rules::Evidence&, const rules::Actors&);

} // namespace brimful::test
