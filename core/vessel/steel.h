// Plain carbon steel of shells and heads.
#pragma once

#include "core/quantity/quantity.h"

#include <optional>

namespace brimful::vessel {

constexpr double kSteelDensity = 7850; // kg/m3, EN 1993-1-2, 3.2.2

// Elongation of a length between two temperatures, by EN 1993-1-2, 3.4.1.1 (20 to 750 degC):
// dl/l = 1.2e-5 T + 0.4e-8 T^2 - 2.416e-4, T in degC (found). Nothing outside 20 to 750 degC.
[[nodiscard]] std::optional<quantity::Length> growth(quantity::Length, quantity::Temperature from, quantity::Temperature to);

} // namespace brimful::vessel
