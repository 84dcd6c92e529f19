// Drawing a sample: how long a hose delays it, and why oxygen is a bad meter for fuel.
#pragma once

#include "core/quantity/quantity.h"

namespace brimful::gas {

// Volume of the hose over the pump's flow. Published: 30.48 m of 3.175 mm bore, 29 s (a pump of 0.4993 L/min).
[[nodiscard]] quantity::Duration hoseDelay(const quantity::Length& hose, const quantity::Length& bore, const quantity::VolumeFlow& pump);

// The share of other gas that an oxygen reading still allows: 1 - oxygen / 20.95 %. At 19.5 % that is 6.92 %, three times
// propane's lower limit.
[[nodiscard]] double hiddenGas(double oxygen);

} // namespace brimful::gas
