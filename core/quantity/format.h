// Quantities as people read them: US customary with fractions to 1/16 in, or SI. No locale: decimal point, no grouping.
#pragma once

#include "core/quantity/quantity.h"

#include <string>

namespace brimful::quantity {

enum class UnitSystem : std::uint8_t { Us, Si };

// "7 ft 8 5/8 in" is never used: lengths are inches with a reduced fraction ("92 5/8 in"), or "2353 mm".
// Volumes "489.5 gal" / "1853 L", masses "1,000" style grouping is left to the edge. Never loses the unit.
[[nodiscard]] std::string format(double si, Dimension, UnitSystem);

// To the nearest 1/16 in, half up, reduced: 0.0413 m -> "1 5/8 in".
[[nodiscard]] std::string inchFraction(Length);

} // namespace brimful::quantity
