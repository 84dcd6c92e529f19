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

// The same seen from the left end, cut square to the axis at `x`, to the right of what is drawn so far and at its own height:
// "across:shell", "across:metal", "across:water", "across:pocket", "across:opening:NAME" of the openings on the shell. Of a vessel
// that stands steeper than 60 degrees there is none.
void addCrossSection(std::vector<Line>& drawn, const vessel::Shell&, const vessel::Pose&, quantity::Length x,
    std::optional<quantity::Length> level, std::span<const water::Opening> openings);

// What it stands on: "support:1", "support:2" in the order given, and "ground".
void addSupports(std::vector<Line>& drawn, const vessel::Shell&, const vessel::Pose&, std::span<const quantity::Length> fromLeftTangent);

// A line on the wall seen from the side, in the same frame.
[[nodiscard]] Line wallLine(std::string part, const vessel::Pose&, std::span<const water::PathPoint>);

} // namespace brimful::figure
