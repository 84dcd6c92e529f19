#include "core/gas/sampling.h"

#include "core/gas/diagram.h"

#include <algorithm>
#include <numbers>

namespace brimful::gas {

quantity::Duration hoseDelay(const quantity::Length& hose, const quantity::Length& bore, const quantity::VolumeFlow& pump)
{
    return std::numbers::pi / 4.0 * bore * bore * hose / pump;
}

double hiddenGas(double oxygen) { return std::max(1.0 - oxygen / kAirOxygen, 0.0); }

} // namespace brimful::gas
