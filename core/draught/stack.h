// A stack that draws by its own warmth. Steady, no wind, dry gas: taken as within 30 % (an estimate, no source).
//   draught = integral over the height of g (density outside - density inside); uniform gas gives the handbook form
//   0.0342 p H (1/T outside - 1/T gas) (SI form of ASHRAE Handbook, chimney chapter; as quoted in chimney manuals).
//   cooling: T(x) = Ta + (T0 - Ta) exp(-x / lambda), lambda = m' cp / (U pi D); the integral is then exact.
//   losses:  (K + f H / D) rho v^2 / 2 at the mean temperature; K holds the exit.
#pragma once

#include "core/quantity/quantity.h"

#include <optional>

namespace brimful::draught {

constexpr double kMolarMass = 0.028965; // kg/mol, dry air; flue gas of wood differs by 1 to 2 %
constexpr double kHeatCapacity = 1050; // J/kgK, of the gas (memory)
constexpr double kHonestShare = 0.30; // of the mass flow

struct Stack {
    double height{}; // m
    double diameter{}; // m
    double gas{}; // K, at the base
    double air{}; // K
    double pressure{101325}; // Pa
    double heatLoss{}; // W/m2K, 0: none
    double lossFactor{}; // of a velocity head, exit included
    double friction{}; // Darcy
};

struct Drawn {
    double draught{}; // Pa
    double losses{}; // Pa
    double massFlow{}; // kg/s
    double velocity{}; // m/s, at the mean temperature
    double mean{}; // K
    double exit{}; // K
};

// Draught alone, without cooling.
[[nodiscard]] double uniformDraught(const Stack&);
// With the mass flow given; draught minus losses is what is left over. Nothing for a stack that is none (a size, a
// temperature or the flow not above 0, a loss below 0).
[[nodiscard]] std::optional<Drawn> drawnAt(const Stack&, double massFlow);
// The flow at which draught and losses are equal. Nothing where no gas rises (it is not warmer than the air) or nothing
// resists.
[[nodiscard]] std::optional<Drawn> drawnFreely(const Stack&);

} // namespace brimful::draught
