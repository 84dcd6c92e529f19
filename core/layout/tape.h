// Lengths as a tape lies on a wall.
#pragma once

#include "core/vessel/profile.h"

namespace brimful::layout {

// Over the wall from the right tip of a profile to the circle at `x`, m.
[[nodiscard]] double tapeFromRightTip(const vessel::Profile&, double x);

} // namespace brimful::layout
