// Density of air-free water at 101.325 kPa.
// Source: M. Tanaka et al., "Recommended table for the density of water between 0 C and 40 C", Metrologia 38 (2001)
// 301-309, the formula recommended by the CIPM. Valid 0-40 C; outside there is no answer.
#pragma once

#include "core/quantity/quantity.h"

#include <optional>

namespace brimful::water {

[[nodiscard]] std::optional<quantity::Density> density(quantity::Temperature);

} // namespace brimful::water
