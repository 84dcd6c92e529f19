// Numbers for a tape: one running list from one datum, each mark rounded from the exact value and never stepped.
#pragma once

#include "core/quantity/quantity.h"

#include <cstdint>

namespace brimful::layout {

using quantity::Length;

// Rounded half up. A residual is exact minus marked: positive when the true place lies beyond the mark.
struct Mark {
    double exact{}; // m
    std::int64_t sixteenths{}; // of an inch
    double sixteenthResidual{}; // m
    std::int64_t millimetres{};
    double millimetreResidual{}; // m
};
[[nodiscard]] Mark markAt(Length);

// A door on a shell of outside radius `radius`, seen across: elementary circle geometry.
struct Arc {
    double angle{}; // rad
    double arc{}; // m, as the tape lies
    double chord{}; // m, straight across
    double sagitta{}; // m, how far the arc stands over the chord
};
[[nodiscard]] Arc arcOfAngle(Length radius, double angle);
[[nodiscard]] double angleOfChord(Length radius, Length chord); // chord at most the diameter

} // namespace brimful::layout
