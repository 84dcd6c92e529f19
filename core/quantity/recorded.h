// From what was typed to the exact count that an entry keeps, and back.
#pragma once

#include "core/quantity/parse.h"

#include <string_view>

namespace brimful::quantity {

// PERSISTED. The unit in which each dimension is counted: Length "100nm" (1/16 in = 15,875), Area "mm2", Volume "mL",
// Mass "g", Pressure "Pa", Temperature "0.01K", Duration "s", VolumeFlow "mL/s", Speed "mm/s", VolumeShare "ppm",
// LimitShare "0.1%LEL", Angle "0.001deg", Force "N", Power "W", Energy "J", HeatTransfer "mW/m2K", Density "g/m3", Number "1".
[[nodiscard]] std::string_view recordedUnit(Dimension);
[[nodiscard]] std::optional<Dimension> recordedDimension(std::string_view unit);

// count = typed value in the recorded unit, rounded half away from zero, computed exactly (no floating point for
// fractions and decimals of exact units). Fails as parse() does, or with OutOfRange beyond +-(2^53 - 1), or with BadNumber
// where a Number is not whole: a count is never rounded.
[[nodiscard]] tl::expected<Recorded, ParseError> record(std::string_view typed, Dimension wanted);

// One in the last place that was typed, as a count, rounded to nearest: "20.9 %" 1,000 ppm, "1 5/8 in" an eighth of an inch, "12 degC"
// one kelvin. What a display shows is known no better (JCGM 100, F.2.2.1, from memory). 0: the text is no quantity.
[[nodiscard]] std::int64_t lastPlace(const Recorded&);

// SI value of a count; the unit must be one of the closed list (anything else ends the program).
[[nodiscard]] double siOf(const Recorded&);
[[nodiscard]] double siOf(std::int64_t count, std::string_view unit);

enum class Rounding : std::uint8_t { Nearest, Up, Down };
// A computed SI value (finite) as a count, rounded as named: toward refusal is the caller's choice. A value within the
// resolution of a double of a whole count is that count. Stops at +-(2^53 - 1).
[[nodiscard]] std::int64_t countOf(double si, std::string_view unit, Rounding);

} // namespace brimful::quantity
