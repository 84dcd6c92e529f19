// A stick that tells how much is in a vessel: its marks, and the strip at full size.
#include "core/figure/check.h"
#include "core/figure/figures.h"
#include "core/figure/vessel_inputs.h"
#include "core/quantity/format.h"
#include "core/water/level.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace brimful::figure {

namespace {

using canon::Json;
using quantity::UnitSystem;

constexpr std::array<std::string_view, 2> kUnits{"L", "galUS"};
constexpr double kGallon = 231 * 0.0254 * 0.0254 * 0.0254; // m3
constexpr double kMostMarks = 400;

constexpr std::string_view kHeldBelow = "stick-does-not-reach-the-lowest-point"; // some water lies deeper than its foot

constexpr std::array kInputs{kVesselInput, kPoseInput,
    Input{"stick", InputKind::Quantity, Dimension::Length}, // where it hangs plumb through the top line; over the lowest point when absent
    Input{.key = "unit", .kind = InputKind::Choice, .choices = kUnits}, // of its marks; litres when absent
    Input{"every", InputKind::Quantity, Dimension::Volume}}; // between marks; a round volume that gives 20 to 50 when absent

constexpr std::array kOutputs{
    Output{"marks", Dimension::Number, OutputKind::List}, // reading_m above its foot, volume_m3
    Output{"every_m3", Dimension::Volume},
    Output{"length_m", Dimension::Length}, // from its foot to the highest point inside
    Output{"unread_m3", Dimension::Volume}, // in the vessel before the stick is wet
    Output{"capacity_m3", Dimension::Volume},
};
constexpr std::array kWarnings{kHeldBelow};

// 1, 2 or 5 times a power of ten, so that there are at most fifty.
double roundStep(double capacity, double unit)
{
    const double least = capacity / unit / 50;
    double step = std::pow(10, std::floor(std::log10(least)));
    for (const double times : {1.0, 2.0, 5.0, 10.0}) {
        if (times * step >= least) {
            step *= times;
            break;
        }
    }
    return step * unit;
}

tl::expected<double, Error> stepOf(const Json& inputs, double capacity, double unit)
{
    const auto every = positive(inputs, "every", Dimension::Volume, {});
    if (!every) {
        return tl::unexpected(every.error());
    }
    if (*every && capacity / **every > kMostMarks) {
        return fail(Code::OutOfRange, "every", "at least " + quantity::format(capacity / kMostMarks, Dimension::Volume, UnitSystem::Si),
            quantity::format(**every, Dimension::Volume, UnitSystem::Si));
    }
    return every->value_or(roundStep(capacity, unit));
}

std::string label(double volume, double unit)
{
    const double count = volume / unit;
    std::string out = std::to_string(std::lround(count));
    if (std::abs(count - std::round(count)) > 1e-6) {
        out = quantity::format(volume, Dimension::Volume, unit == kGallon ? UnitSystem::Us : UnitSystem::Si);
        out.resize(out.find(' '));
    }
    return out;
}

// The stick as it is cut, foot below; every fifth mark is longer and has its number.
void drawStrip(Result& out, const std::vector<std::pair<double, double>>& marks, double length, double step, double unit)
{
    constexpr double kWide = 0.04; // m
    constexpr double kShort = 0.008;
    constexpr double kLong = 0.013; // labels stand before ticks shorter than 15 mm
    out.picture.push_back({"cut:dip-stick", true, {{0, 0}, {kWide, 0}, {kWide, length}, {0, length}}});
    for (const auto& [reading, volume] : marks) {
        const bool fifth = std::lround(volume / step) % 5 == 0;
        const double tick = fifth ? kLong : kShort;
        out.picture.push_back({"mark:dip-stick:" + (fifth ? label(volume, unit) : std::string()), false, {{tick, reading}, {0, reading}}});
    }
}

tl::expected<Result, Error> compute(const Json& inputs, const Reference&)
{
    const auto read = readVessel(inputs);
    if (!read) {
        return tl::unexpected(read.error());
    }
    const auto pose = readPose(inputs);
    if (!pose) {
        return tl::unexpected(pose.error());
    }
    const vessel::Shell& shell = read->shell;
    const auto stick = numberAt(inputs, "stick");
    if (stick && !(*stick >= 0 && *stick <= shell.length().value())) {
        return fail(Code::OutOfRange, "stick", "0 to " + quantity::format(shell.length().value(), Dimension::Length, UnitSystem::Si),
            quantity::format(*stick, Dimension::Length, UnitSystem::Si));
    }
    const double unit = inputs.textOf("unit") == "galUS" ? kGallon : 0.001;
    const double capacity = shell.capacity().value();
    const auto step = stepOf(inputs, capacity, unit);
    if (!step) {
        return tl::unexpected(step.error());
    }
    const quantity::Length lowest = water::lowestPoint(shell, pose->pitch);
    const quantity::Length foot = stick ? water::bottomUnder(shell, pose->pitch, quantity::metres(*stick)) : lowest;
    const quantity::Length highest = water::highestPoint(shell, pose->pitch);
    const double length = (highest - foot).value();
    const double unread = water::below(shell, pose->pitch, foot).volume.value();
    std::vector<std::pair<double, double>> marks;
    Json rows = Json::array();
    for (int i = 1; i * *step < capacity * (1 - 1e-9); ++i) {
        const double volume = i * *step;
        const double reading = (water::heightFor(shell, pose->pitch, quantity::cubicMetres(volume)) - foot).value();
        if (reading > 0) {
            marks.emplace_back(reading, volume);
            Json row = Json::object();
            row.set("reading_m", Json::real(reading)).set("volume_m3", Json::real(volume));
            rows.items.push_back(std::move(row));
        }
    }
    Result out;
    const auto set = [&](std::string_view key, double value) { out.values.set(std::string(key), Json::real(value)); };
    out.values.set("marks", std::move(rows));
    set("every_m3", *step);
    set("length_m", length);
    set("unread_m3", unread);
    set("capacity_m3", capacity);
    if (unread > 1e-9 * capacity) {
        out.warnings.emplace_back(kHeldBelow);
    }
    drawStrip(out, marks, length, *step, unit);
    return out;
}

} // namespace

constinit const Figure kDipChart{"dip-chart", 1, kInputs, kOutputs, kWarnings, compute};

} // namespace brimful::figure
