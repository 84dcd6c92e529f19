#include "core/gas/diagram.h"

#include <algorithm>
#include <cmath>

namespace brimful::gas {

namespace {

// Of a share: far below any reading, far above rounding.
constexpr double kTouch = 1e-12;

double cross(State a, State b) { return a.fuel * b.oxygen - a.oxygen * b.fuel; }
State less(State a, State b) { return {a.fuel - b.fuel, a.oxygen - b.oxygen}; }
State along(State from, State step, double part) { return {from.fuel + part * step.fuel, from.oxygen + part * step.oxygen}; }

// Parts of the path (0..1) at which it meets an edge.
void meet(State from, State step, State a, State b, std::vector<double>& parts)
{
    const State edge = less(b, a);
    const State gap = less(a, from);
    const double turn = cross(step, edge);
    if (std::abs(turn) > kTouch * kTouch) {
        const double on_path = cross(gap, edge) / turn;
        const double on_edge = cross(gap, step) / turn;
        if (on_path >= -kTouch && on_path <= 1.0 + kTouch && on_edge >= -kTouch && on_edge <= 1.0 + kTouch) {
            parts.push_back(std::clamp(on_path, 0.0, 1.0));
        }
        return;
    }
    const double length = step.fuel * step.fuel + step.oxygen * step.oxygen;
    if (length <= 0.0 || std::abs(cross(gap, step)) > kTouch) {
        return;
    }
    for (const State end : {a, b}) { // the path runs along the edge
        const State there = less(end, from);
        const double part = (there.fuel * step.fuel + there.oxygen * step.oxygen) / length;
        if (part >= 0.0 && part <= 1.0) {
            parts.push_back(part);
        }
    }
}

std::optional<double> noseOxygen(const Substance& substance, Basis basis, double lower)
{
    if (!substance.oxygen_moles || substance.burnsWithoutAir()) {
        return std::nullopt;
    }
    return basis == Basis::Lowest ? limitingOxygen(substance, lower) : substance.limiting_oxygen_nitrogen;
}

} // namespace

std::optional<Zone> zoneOf(const Substance& substance, Basis basis)
{
    const auto range = rangeOn(substance, basis);
    const auto oxygen = range ? noseOxygen(substance, basis, range->lower) : std::nullopt;
    if (!oxygen) {
        return std::nullopt;
    }
    const auto onAirLine = [](double fuel) { return State{fuel, kAirOxygen * (1.0 - fuel)}; };
    const auto onOxygenAxis = [](double fuel) { return State{fuel, 1.0 - fuel}; };
    FlammableRange top = substance.in_oxygen.value_or(*range);
    if (basis == Basis::Lowest) {
        top = {std::min(top.lower, range->lower), std::max(top.upper, range->upper)};
    }
    return Zone{{onOxygenAxis(top.lower), onAirLine(range->lower), State{*oxygen / *substance.oxygen_moles, *oxygen},
                    onAirLine(range->upper), onOxygenAxis(top.upper)},
        substance.in_oxygen.has_value()};
}

bool holds(const Zone& zone, State state)
{
    bool inside = false;
    const std::size_t count = zone.corners.size();
    for (std::size_t i = 0; i < count; ++i) {
        const State a = zone.corners[i];
        const State b = zone.corners[(i + 1) % count];
        const State edge = less(b, a);
        const State gap = less(state, a);
        const double length = std::hypot(edge.fuel, edge.oxygen);
        const double ahead = edge.fuel * gap.fuel + edge.oxygen * gap.oxygen;
        if (std::abs(cross(edge, gap)) <= kTouch * length && ahead >= -kTouch && ahead <= length * length + kTouch) {
            return true;
        }
        const bool spans = (a.oxygen > state.oxygen) != (b.oxygen > state.oxygen);
        if (spans && state.fuel < a.fuel + edge.fuel * (state.oxygen - a.oxygen) / edge.oxygen) {
            inside = !inside;
        }
    }
    return inside;
}

std::optional<Crossing> crossing(const Zone& zone, State from, State towards)
{
    const State step = less(towards, from);
    std::vector<double> parts;
    const std::size_t count = zone.corners.size();
    for (std::size_t i = 0; i < count; ++i) {
        meet(from, step, zone.corners[i], zone.corners[(i + 1) % count], parts);
    }
    if (holds(zone, from)) {
        parts.push_back(0.0);
    }
    if (holds(zone, towards)) {
        parts.push_back(1.0);
    }
    if (parts.empty()) {
        return std::nullopt;
    }
    const auto [first, last] = std::ranges::minmax(parts);
    return Crossing{along(from, step, first), along(from, step, last)};
}

} // namespace brimful::gas
