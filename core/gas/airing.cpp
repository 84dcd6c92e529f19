#include "core/gas/airing.h"

#include <algorithm>
#include <cmath>

namespace brimful::gas {

namespace {

double partOf(const Leg& leg, State state) // of the way from `from` (0) to `towards` (1)
{
    const State step{leg.towards.fuel - leg.from.fuel, leg.towards.oxygen - leg.from.oxygen};
    const double length = step.fuel * step.fuel + step.oxygen * step.oxygen;
    const double along = (state.fuel - leg.from.fuel) * step.fuel + (state.oxygen - leg.from.oxygen) * step.oxygen;
    return length > 0.0 ? std::clamp(along / length, 0.0, 1.0) : 0.0;
}

// Nothing: at the end of the way, which is never reached.
std::optional<quantity::Duration> timeToPart(const Leg& leg, double part)
{
    constexpr double kEnd = 1.0 - 1e-12;
    return part < kEnd ? std::optional(quantity::seconds(-std::log1p(-part) / leg.per_second)) : std::nullopt;
}

} // namespace

Leg legOf(const Air& air, State from, State blown_in)
{
    const double fuel = std::min(steadyShare(air), 1.0);
    const State towards{blown_in.fuel + fuel * (1.0 - blown_in.fuel), blown_in.oxygen * (1.0 - fuel)};
    return {from, towards, air.efficiency * air.flow.value() / air.volume.value(), std::nullopt};
}

State at(const Leg& leg, const quantity::Duration& time)
{
    const double left = std::exp(-leg.per_second * time.value());
    return {
        leg.towards.fuel + left * (leg.from.fuel - leg.towards.fuel), leg.towards.oxygen + left * (leg.from.oxygen - leg.towards.oxygen)};
}

std::optional<quantity::Duration> timeToFuel(const Leg& leg, double share)
{
    if (leg.from.fuel <= share) {
        return leg.towards.fuel <= share ? std::optional(quantity::seconds(0.0)) : std::nullopt;
    }
    return leg.towards.fuel < share ? timeToPart(leg, (leg.from.fuel - share) / (leg.from.fuel - leg.towards.fuel)) : std::nullopt;
}

std::optional<Burning> burningWhile(const Leg& leg, const Zone& zone)
{
    const State end = leg.lasts ? at(leg, *leg.lasts) : leg.towards;
    const auto met = crossing(zone, leg.from, end);
    if (!met) {
        return std::nullopt;
    }
    const auto from = timeToPart(leg, partOf(leg, met->enters));
    if (!from) {
        return std::nullopt; // only what it never reaches touches the zone
    }
    return Burning{*from, timeToPart(leg, partOf(leg, met->leaves))};
}

std::optional<double> inertEndPoint(const Substance& substance)
{
    constexpr double kMost = 0.02;
    const auto range = substance.widestRange();
    const auto published = range ? limitingOxygen(substance, 1.0) : std::nullopt; // of the published ones alone
    if (!published) {
        return std::nullopt;
    }
    return std::min(kMost, 0.5 * serviceLimits(range->lower, *substance.oxygen_moles, *published).out_of_service);
}

} // namespace brimful::gas
