#include "core/gas/warmth.h"

#include <algorithm>

namespace brimful::gas {

namespace {

double warmer(quantity::Temperature temperature)
{
    constexpr double kPublishedAt = 298.15;
    return std::max(temperature.get() - kPublishedAt, 0.0);
}

} // namespace

FlammableRange rangeAt(FlammableRange at_25_degC, quantity::Temperature temperature)
{
    constexpr double kEachKelvin = 0.000721;
    const double change = kEachKelvin * warmer(temperature);
    return {std::max(at_25_degC.lower * (1.0 - change), 0.0), std::min(at_25_degC.upper * (1.0 + change), 1.0)};
}

FlammableRange rangeAtByHeat(FlammableRange at_25_degC, double combustion_kcal_mol, quantity::Temperature temperature)
{
    const double change = 0.75 / combustion_kcal_mol * warmer(temperature) / 100.0;
    return {std::max(at_25_degC.lower - change, 0.0), std::min(at_25_degC.upper + change, 1.0)};
}

double lowerLimitInSteps(double at_25_degC, quantity::Temperature temperature)
{
    constexpr double kStepAt = 393.15;
    return temperature.get() > kStepAt ? 0.7 * at_25_degC : at_25_degC;
}

quantity::AbsolutePressure sealedPressure(const quantity::AbsolutePressure& before, quantity::Temperature from, quantity::Temperature to)
{
    return quantity::AbsolutePressure(before.get() * (to.get() / from.get()));
}

} // namespace brimful::gas
