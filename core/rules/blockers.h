// Down to the leaves that decide: why a tree is not what it must be, and what would lift it.
#pragma once

#include "core/rules/standing.h"

namespace brimful::rules {

// What keeps the tree at `root` from being `wanted`. Where one branch of several would do, the one with least to lift.
void collectBlockers(
    const Pack&, const Evidence&, const Actors&, Index root, Truth wanted, const Blocker& about, std::vector<Blocker>& out);

} // namespace brimful::rules
