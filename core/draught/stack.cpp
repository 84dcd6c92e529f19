#include "core/draught/stack.h"

#include <boost/math/tools/roots.hpp>

#include <cmath>
#include <cstdint>
#include <limits>
#include <numbers>

namespace brimful::draught {

namespace {

constexpr double kGas = 8.314462618; // J/molK, SI Brochure 9
constexpr double kGravity = 9.80665; // m/s2

double area(const Stack& stack) { return std::numbers::pi * stack.diameter * stack.diameter / 4; }

double density(const Stack& stack, double temperature) { return stack.pressure * kMolarMass / (kGas * temperature); }

bool stands(const Stack& stack)
{
    return stack.height > 0 && stack.diameter > 0 && stack.gas > 0 && stack.air > 0 && stack.pressure > 0 && stack.heatLoss >= 0
        && stack.lossFactor >= 0 && stack.friction >= 0;
}

double factorOf(const Stack& stack) { return stack.lossFactor + stack.friction * stack.height / stack.diameter; }

} // namespace

double uniformDraught(const Stack& stack) { return kGravity * stack.height * (density(stack, stack.air) - density(stack, stack.gas)); }

std::optional<Drawn> drawnAt(const Stack& stack, double massFlow)
{
    if (!stands(stack) || !(massFlow > 0)) {
        return std::nullopt;
    }
    Drawn out;
    out.massFlow = massFlow;
    if (stack.heatLoss > 0) {
        const double lambda = massFlow * kHeatCapacity / (stack.heatLoss * std::numbers::pi * stack.diameter);
        const double excess = stack.gas - stack.air;
        const double share = -std::expm1(-stack.height / lambda); // what the height takes of the excess
        out.exit = stack.air + excess * (1 - share);
        out.mean = stack.air + excess * share * lambda / stack.height;
        // g p M / R times the integral of 1/Ta - 1/T(x), in closed form.
        out.draught = kGravity * density(stack, stack.air) * lambda * std::log(stack.gas / out.exit);
    } else {
        out.exit = stack.gas;
        out.mean = stack.gas;
        out.draught = uniformDraught(stack);
    }
    const double rho = density(stack, out.mean);
    out.velocity = massFlow / (rho * area(stack));
    out.losses = factorOf(stack) * rho * out.velocity * out.velocity / 2;
    return out;
}

std::optional<Drawn> drawnFreely(const Stack& stack)
{
    if (!stands(stack) || !(stack.gas > stack.air) || !(factorOf(stack) > 0)) {
        return std::nullopt;
    }
    Stack warm = stack;
    warm.heatLoss = 0;
    const double head = uniformDraught(stack);
    const double most = area(stack) * std::sqrt(2 * head * density(stack, stack.gas) / factorOf(stack));
    if (!(stack.heatLoss > 0)) {
        return drawnAt(warm, most);
    }
    const auto left = [&](double flow) {
        const Drawn drawn = drawnAt(stack, flow).value();
        return drawn.draught - drawn.losses;
    };
    // Cooled gas is denser: it may carry a little more mass at the top of the range, never twice as much.
    std::uintmax_t rounds = 200;
    const auto [low, high] = boost::math::tools::toms748_solve(
        left, most * 1e-9, most * 2, boost::math::tools::eps_tolerance<double>(std::numeric_limits<double>::digits - 4), rounds);
    return drawnAt(stack, (low + high) / 2);
}

} // namespace brimful::draught
