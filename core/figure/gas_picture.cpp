#include "core/figure/gas_picture.h"

#include <algorithm>
#include <cmath>

namespace brimful::figure {

namespace {

using Point = std::pair<double, double>;

Point pointOf(gas::State state, Diagram shape)
{
    if (shape == Diagram::Rectangle) {
        return {state.fuel, state.oxygen};
    }
    const double inert = 1.0 - state.fuel - state.oxygen;
    return {inert + 0.5 * state.fuel, std::sqrt(3.0) / 2.0 * state.fuel};
}

void drawLine(Result& out, std::string part, gas::State from, gas::State to, Diagram shape)
{
    out.picture.push_back({std::move(part), false, {pointOf(from, shape), pointOf(to, shape)}});
}

void drawArea(Result& out, std::string part, std::span<const gas::State> corners, Diagram shape)
{
    Line area{std::move(part), true, {}};
    for (const gas::State corner : corners) {
        area.metres.push_back(pointOf(corner, shape));
    }
    out.picture.push_back(std::move(area));
}

constexpr gas::State kFuel{1.0, 0.0};
constexpr gas::State kOxygen{0.0, 1.0};
constexpr double kWide = 1.6;
constexpr double kLeast = 1e-4; // share at the foot
constexpr double kDecades = 4.0;

Line curveOf(std::string part, const TimeAxes& axes, const gas::Leg& leg, double starts_s, double from_s, double to_s)
{
    constexpr int kSteps = 96;
    Line curve{std::move(part), false, {}};
    for (int i = 0; i <= kSteps; ++i) {
        const double seconds = from_s + (to_s - from_s) * i / kSteps;
        const double share = gas::at(leg, quantity::seconds(seconds)).fuel;
        curve.metres.push_back(axes.place(starts_s + seconds, share));
        if (share < kLeast && i > 0) { // below the foot there is nothing to draw
            break;
        }
    }
    return curve;
}

} // namespace

Diagram diagramOf(std::string_view word) { return word == "triangle" ? Diagram::Triangle : Diagram::Rectangle; }

void drawDiagram(Result& out, const gas::Substance* substance, const std::optional<gas::Zone>& zone, Diagram shape)
{
    drawArea(out, "frame", std::array{gas::kInert, kFuel, kOxygen}, shape);
    if (zone) {
        drawArea(out, "zone", zone->corners, shape);
    }
    drawLine(out, "air-line", gas::kAir, kFuel, shape);
    if (zone && substance != nullptr && substance->oxygen_moles) {
        constexpr std::size_t kNose = 2; // of a zone's corners
        const double moles = *substance->oxygen_moles;
        const double limiting = zone->corners[kNose].oxygen;
        drawLine(out, "stoichiometric-line", {1.0 / (1.0 + moles), moles / (1.0 + moles)}, gas::kInert, shape);
        drawLine(out, "limiting-oxygen", {0.0, limiting}, {1.0 - limiting, limiting}, shape);
    }
}

void drawPath(Result& out, gas::State from, gas::State towards, const std::optional<gas::Crossing>& crossing, Diagram shape)
{
    drawLine(out, "path", from, towards, shape);
    if (crossing) {
        drawLine(out, "crossing", crossing->enters, crossing->leaves, shape);
    }
}

void drawNow(Result& out, gas::State state, Diagram shape) { drawLine(out, "now", state, state, shape); }

std::pair<double, double> TimeAxes::place(double seconds, double share) const
{
    const double up = std::log10(std::max(share, kLeast) / kLeast) / kDecades;
    return {kWide * std::clamp(seconds / span_s, 0.0, 1.0), std::min(up, 1.0)};
}

void drawAxes(Result& out, const TimeAxes&) { out.picture.push_back({"axes", false, {{0.0, 1.0}, {0.0, 0.0}, {kWide, 0.0}}}); }

void drawBand(Result& out, const TimeAxes& axes, gas::FlammableRange range, double from_s)
{
    out.picture.push_back({"band", true,
        {axes.place(from_s, range.lower), axes.place(axes.span_s, range.lower), axes.place(axes.span_s, range.upper),
            axes.place(from_s, range.upper)}});
}

void drawTarget(Result& out, const TimeAxes& axes, double share)
{
    out.picture.push_back({"target", false, {axes.place(0.0, share), axes.place(axes.span_s, share)}});
}

void drawCurve(Result& out, const TimeAxes& axes, const gas::Leg& leg, double starts_s, const std::optional<gas::Burning>& burning)
{
    const double rest = std::max(axes.span_s - starts_s, 0.0);
    const double ends = leg.lasts ? std::min(leg.lasts->value(), rest) : rest;
    out.picture.push_back(curveOf("curve", axes, leg, starts_s, 0.0, ends));
    if (burning && burning->from.value() < ends) {
        const double until = burning->until ? std::min(burning->until->value(), ends) : ends;
        out.picture.push_back(curveOf("burning", axes, leg, starts_s, burning->from.value(), until));
    }
}

} // namespace brimful::figure
