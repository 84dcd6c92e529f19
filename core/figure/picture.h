// The long section through a vessel as it lies, in metres: x right, y up, the level horizontal. Inside this room only.
#pragma once

#include "core/figure/figure.h"
#include "core/vessel/shell.h"
#include "core/water/opening.h"

#include <optional>

namespace brimful::figure {

// "shell" (inside), "metal" (outside, when there is a wall), "water" and "pocket" (parted at the level, when there is one),
// and "opening:NAME" from its mouth to its lip, where it appears in the section.
[[nodiscard]] std::vector<Line> longSection(
    const vessel::Shell&, const vessel::Pose&, std::optional<quantity::Length> level, std::span<const water::Opening> openings);

// A line on the wall seen from the side, in the same frame.
[[nodiscard]] Line wallLine(std::string part, const vessel::Pose&, std::span<const water::PathPoint>);

} // namespace brimful::figure
