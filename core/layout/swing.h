// Whether a door turns out of its opening, and over what it lies when it is turned right back.
// Elementary geometry: the hinge's pin lies on the outside of the shell, on the line of the hinge side.
#pragma once

#include "core/layout/plan.h"

#include <optional>

namespace brimful::layout {

enum class HingeSide : std::uint8_t { FirstLine, SecondLine, LeftEnd, RightEnd };

struct Panel {
    double radius{}; // outside, m
    double wall{}; // m
    Footprint at; // its lines
    HingeSide hinge{};
};

// The gap that the free edge needs to pass the shell, m; 0 when it moves away from it at once. About a pin along the
// shell the inner corner of the free edge goes past the shell's edge when the door is narrow and the wall thick; about a
// straight pin across a curved end the free end, which lies under the pin by the panel's sagitta and wall, does.
// The door must be narrower than half round the shell.
[[nodiscard]] double gapToTurn(const Panel&);

// What the panel covers when it is turned right back on to the shell: its mirror image over the hinge line.
[[nodiscard]] Footprint turnedBack(const Panel&);

} // namespace brimful::layout
