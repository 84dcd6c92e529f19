#include "core/vessel/steel.h"

namespace brimful::vessel {

std::optional<quantity::Length> growth(quantity::Length length, quantity::Temperature from, quantity::Temperature to)
{
    const auto share = [](double t) { return 1.2e-5 * t + 0.4e-8 * t * t - 2.416e-4; };
    const double cold = from.get() - 273.15;
    const double hot = to.get() - 273.15;
    // A bound typed as 20 degC must not fall outside by its last bit.
    const auto known = [](double t) { return t >= 20 - 1e-9 && t <= 750 + 1e-9; };
    if (!known(cold) || !known(hot)) {
        return std::nullopt;
    }
    return length * (share(hot) - share(cold));
}

} // namespace brimful::vessel
