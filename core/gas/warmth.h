// What heat does: limits widen, and a closed vessel builds pressure.
#pragma once

#include "core/gas/substances.h"

namespace brimful::gas {

// Limits at another temperature than the 25 degC they are published for. The lower falls and the upper rises when it is warmer;
// when it is colder nothing is credited. Measured as nearly linear from 5 to 100 degC (Kondo et al., J. Haz. Mat. 187 (2011)
// 585); beyond that these are extrapolations.

// Zabetakis, US Bureau of Mines Bulletin 627: 0.0721 % of the limit a kelvin. Coefficient from memory.
[[nodiscard]] FlammableRange rangeAt(FlammableRange at_25_degC, quantity::Temperature);

// Burgess and Wheeler: 0.75 / heat of combustion (kcal/mol) percent a kelvin. Formula from memory; checks the one above.
[[nodiscard]] FlammableRange rangeAtByHeat(FlammableRange at_25_degC, double combustion_kcal_mol, quantity::Temperature);

// The step that Wyoming's oil and gas safety rules take: the lower limit as published up to 250 degF (120 degC as printed), 0.7 of
// it above.
[[nodiscard]] double lowerLimitInSteps(double at_25_degC, quantity::Temperature);

// p2 = p1 T2 / T1, a closed vessel of gas, ideal.
[[nodiscard]] quantity::AbsolutePressure sealedPressure(
    const quantity::AbsolutePressure& before, quantity::Temperature from, quantity::Temperature to);

} // namespace brimful::gas
