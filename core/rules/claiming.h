// Claims as literals of a situation. Private to the proofs.
#pragma once

#include "core/rules/claims.h"
#include "core/rules/meaning.h"

namespace brimful::rules {

// A claim in one situation, for one of its hold points. The claim was read with this pack.
[[nodiscard]] Lit claimed(const Claim&, const Pack&, Index hold_point, Meaning&, Situation&);

} // namespace brimful::rules
