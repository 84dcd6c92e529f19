#include "core/gas/ventilation.h"

#include <cmath>

namespace brimful::gas {

namespace {

double ratePerSecond(const Air& air) { return air.efficiency * air.flow.value() / air.volume.value(); }

// When the share passes this level on its way to the steady one, which it never quite reaches.
std::optional<quantity::Duration> passes(const Air& air, double start, double level)
{
    const double steady = steadyShare(air);
    const double ratio = (start - steady) / (level - steady);
    return std::isfinite(ratio) && ratio >= 1.0 ? std::optional(quantity::seconds(std::log(ratio) / ratePerSecond(air))) : std::nullopt;
}

} // namespace

double steadyShare(const Air& air) { return air.source.value() / (air.efficiency * air.flow.value()); }

double shareAfter(const Air& air, double start, const quantity::Duration& time)
{
    const double steady = steadyShare(air);
    return (start - steady) * std::exp(-ratePerSecond(air) * time.value()) + steady;
}

std::optional<quantity::Duration> timeToReach(const Air& air, double start, double share)
{
    if (start <= share) {
        return steadyShare(air) <= share ? std::optional(quantity::seconds(0.0)) : std::nullopt;
    }
    return passes(air, start, share);
}

double airChanges(const Air& air, const quantity::Duration& time) { return air.flow.value() * time.value() / air.volume.value(); }

std::optional<Burning> flammableWhile(const Air& air, double start, FlammableRange range)
{
    const bool inside = start >= range.lower && start <= range.upper;
    const bool falling = steadyShare(air) < start;
    const auto in = inside ? std::optional(quantity::seconds(0.0)) : passes(air, start, start > range.upper ? range.upper : range.lower);
    if (!in) {
        return std::nullopt;
    }
    return Burning{*in, passes(air, start, falling ? range.lower : range.upper)};
}

std::optional<double> changesToBuildUp(const Air& air, double share)
{
    const double left = 1.0 - share * air.flow.value() / air.source.value();
    return left > 0.0 && std::isfinite(left) ? std::optional(-std::log(left) / air.efficiency) : std::nullopt;
}

quantity::VolumeFlow sourceFromRise(const quantity::Volume& volume, double share, const quantity::Duration& time)
{
    return share * volume / time;
}

} // namespace brimful::gas
