// How much water stands below a level in a vessel at any pitch, and which level a volume makes.
// V = integral over the axis of the circular segment below the surface: exact for every body of revolution. Pieces that
// are wholly under water are closed forms; the rest is a Gauss-Kronrod sum (10-21 points, bisected until it agrees) between
// the points where the surface meets the wall, in a variable that takes away the square roots there.
// Roll does not appear: a body of revolution holds the same below a level at any roll.
#pragma once

#include "core/vessel/shell.h"

namespace brimful::water {

using quantity::Angle;
using quantity::Area;
using quantity::Length;
using quantity::Volume;
using vessel::Shell;

// Heights are vertical metres above the axis at the left tangent line; the vessel is pitched about that point.
struct Below {
    Volume volume;
    Area surface; // of the level itself; also dV/dheight
    Length centroid; // of the water, along the axis from the left tangent line; 0 when there is none
    Length centroidUp; // of the water, square to the axis and up from it (below 0 for water); 0 when there is none
    Volume uncertainty; // of the integration, an upper estimate
};

// `pitch` within +-90 degrees, right end up when positive. Below the lowest point all is 0, above the highest it is full.
[[nodiscard]] Below below(const Shell&, Angle pitch, Length height);
// The same for what is above a level: gas, whose centroidUp is above 0. Not a difference of two large numbers.
[[nodiscard]] Below above(const Shell&, Angle pitch, Length height);

[[nodiscard]] Length lowestPoint(const Shell&, Angle pitch); // of the inside
[[nodiscard]] Length highestPoint(const Shell&, Angle pitch);
// Where a stick that hangs plumb through the top line meets the inside below: its foot, as a height. Of a vessel that stands
// steeper than 60 degrees the lowest point.
[[nodiscard]] Length bottomUnder(const Shell&, Angle pitch, Length fromLeftTangent);

// The height that leaves `volume` below it; `volume` is clamped to 0..capacity.
[[nodiscard]] Length heightFor(const Shell&, Angle pitch, Volume volume);

} // namespace brimful::water
