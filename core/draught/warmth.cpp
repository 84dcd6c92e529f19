#include "core/draught/warmth.h"

namespace brimful::draught {

std::optional<double> elongation(double kelvin)
{
    const double t = kelvin - 273.15;
    if (!(t >= 20 - 1e-9 && t <= 750 + 1e-9)) {
        return std::nullopt;
    }
    return 1.2e-5 * t + 0.4e-8 * t * t - 2.416e-4;
}

} // namespace brimful::draught
