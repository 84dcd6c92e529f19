// Purging: how much inert gas it takes to bring a share down. Ideal gas, one temperature, even mixing unless an efficiency says
// otherwise. Shares 0..1, pressures absolute.
#pragma once

#include "core/quantity/quantity.h"

#include <optional>

namespace brimful::gas {

struct Purged {
    double cycles{}; // as the formula gives them; sweep: 0
    int whole_cycles{}; // rounded up; sweep: 0
    double volumes{}; // vessel volumes of purge gas at one atmosphere
    double reached{}; // the share that is left after the whole cycles
};

struct Shares {
    double start{};
    double target{};
    double in_purge_gas{}; // what the purge gas itself carries of it
};

// Each gives nothing when the target cannot be reached (not above what the purge gas carries), and no cycles when the start is
// already at or below it.

// Sweep: ln((start - in) / (target - in)) / efficiency volumes. Efficiency 1 is perfect mixing, 0.1 to 0.5 usual (memory); it
// multiplies the flow. A mixing factor that divides (3 to 10) is its inverse.
[[nodiscard]] std::optional<Purged> sweep(Shares, double efficiency);

// Pressure and vacuum cycles: the excess falls by low / high each time; (high - low) of gas each time. A retired vessel has no
// pressure rating left and many were never made for vacuum.
[[nodiscard]] std::optional<Purged> pressureCycles(Shares, const quantity::AbsolutePressure& low, const quantity::AbsolutePressure& high);

// Filled with liquid and drained under gas: unfilled * start is left of it, one vessel volume of gas each time (CEP, Feb 2001).
[[nodiscard]] std::optional<Purged> siphon(Shares, double unfilled);

} // namespace brimful::gas
