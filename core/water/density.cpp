#include "core/water/density.h"

namespace brimful::water {

std::optional<quantity::Density> density(quantity::Temperature temperature)
{
    const double t = temperature.get() - 273.15;
    // A bound typed as 40 degC must not fall outside by its last bit.
    if (!(t >= -1e-9 && t <= 40 + 1e-9)) {
        return std::nullopt;
    }
    const double off = t - 3.983035;
    const double value = 999.974950 * (1 - off * off * (t + 301.797) / (522528.9 * (t + 69.34881)));
    return value * boost::units::si::kilogram / boost::units::si::cubic_metre;
}

} // namespace brimful::water
