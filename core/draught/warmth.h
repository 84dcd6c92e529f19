// How much longer steel gets.
#pragma once

#include <optional>

namespace brimful::draught {

// Relative elongation of carbon steel from 20 degC to `kelvin`: EN 1993-1-2:2005, 3.4.1.1 (1), equation 3.1a,
// 1.2e-5 t + 0.4e-8 t^2 - 2.416e-4 with t in degC, 20 to 750 degC. Nothing outside.
[[nodiscard]] std::optional<double> elongation(double kelvin);

} // namespace brimful::draught
