// Filling a vessel with water: where it spills, what stays trapped, what it weighs, how long it takes.
#include "core/water/fill.h"

#include "core/figure/check.h"
#include "core/figure/figures.h"
#include "core/figure/picture.h"
#include "core/figure/vessel_inputs.h"
#include "core/gas/substances.h"
#include "core/quantity/format.h"
#include "core/water/density.h"
#include "core/water/level.h"

#include <algorithm>
#include <numbers>

namespace brimful::figure {

namespace {

using canon::Json;
using quantity::UnitSystem;

constexpr std::string_view kNoLimit = "no-published-lower-limit";
constexpr std::string_view kBaffles = "baffles-not-modelled"; // each cell may keep a pocket of its own
constexpr std::string_view kDomes = "domes-not-modelled"; // a dome or a manway's neck stands above the shell
constexpr std::array kWarnings{kBoreAssumed, kProjectionAssumed, kStateAssumed, kBaffles, kDomes, kOutsideDensity, kNoLimit};

constexpr std::array kInputs{kVesselInput, kPoseInput, kOpeningsInput, Input{"flow", InputKind::Quantity, Dimension::VolumeFlow},
    Input{"water_temperature", InputKind::Quantity, Dimension::Temperature}, Input{.key = "substance", .kind = InputKind::Text},
    Input{"cools_to", InputKind::Quantity, Dimension::Temperature}, // the water, before the cut
    Input{.key = "baffles", .kind = InputKind::Flag}, Input{.key = "domes", .kind = InputKind::Flag}};

constexpr std::array kOutputs{
    Output{"spill_opening", Dimension::Number, OutputKind::Text},
    Output{"water_m3", Dimension::Volume},
    Output{"trapped_m3", Dimension::Volume},
    Output{"trapped_percent", Dimension::VolumeShare},
    Output{"trapped_per_mille", Dimension::Number},
    Output{"pocket", Dimension::Number, OutputKind::Text},
    Output{"depth_m", Dimension::Length},
    Output{"capacity_m3", Dimension::Volume},
    Output{"steel_mass_kg", Dimension::Mass},
    Output{"water_mass_kg", Dimension::Mass},
    Output{"total_mass_kg", Dimension::Mass},
    Output{"fill_time_s", Dimension::Duration},
    Output{"gas_to_limit_kg", Dimension::Mass},
    Output{"trapped_when_cool_m3", Dimension::Volume},
};

std::string_view word(water::Pocket pocket)
{
    switch (pocket) {
    case water::Pocket::None:
        return "none";
    case water::Pocket::Vented:
        return "vented";
    case water::Pocket::Sealed:
        return "sealed";
    }
    return {};
}

struct Asked {
    VesselRead vessel;
    vessel::Pose pose;
    std::optional<OpeningsRead> openings;
};

tl::expected<Asked, Error> read(const Json& inputs)
{
    auto vessel = readVessel(inputs);
    if (!vessel) {
        return tl::unexpected(vessel.error());
    }
    const auto pose = readPose(inputs);
    if (!pose) {
        return tl::unexpected(pose.error());
    }
    auto openings = readOpenings(inputs, vessel->shell);
    if (!openings) {
        return tl::unexpected(openings.error());
    }
    if (*openings && (*openings)->open.empty()) {
        return fail(Code::Impossible, "openings", "one open opening", "none");
    }
    if (const auto flow = numberAt(inputs, "flow"); flow && !(*flow > 0)) {
        return fail(Code::OutOfRange, "flow", "above 0", quantity::format(*flow, Dimension::VolumeFlow, UnitSystem::Si));
    }
    return Asked{std::move(*vessel), *pose, std::move(*openings)};
}

// One plane, one pocket holds for one body with convex walls; what breaks that is named, not guessed at.
void tellWhatIsNotModelled(const Json& inputs, Result& out)
{
    for (const auto& [key, warning] : {std::pair("baffles", kBaffles), std::pair("domes", kDomes)}) {
        if (flagAt(inputs, key)) {
            out.warnings.emplace_back(warning);
        }
    }
}

void setSteel(const Asked& asked, Result& out)
{
    if (asked.vessel.wallGiven) {
        out.values.set("steel_mass_kg", Json::real(asked.vessel.shell.steelMass().value()));
    }
}

void setMasses(const Json& inputs, const Asked& asked, double water, Result& out)
{
    setSteel(asked, out);
    const auto temperature = numberAt(inputs, "water_temperature");
    if (!temperature) {
        return;
    }
    const auto density = water::density(quantity::Temperature(*temperature));
    if (!density) {
        out.warnings.emplace_back(kOutsideDensity);
        return;
    }
    const double mass = water * density->value();
    out.values.set("water_mass_kg", Json::real(mass));
    if (asked.vessel.wallGiven) {
        out.values.set("total_mass_kg", Json::real(mass + asked.vessel.shell.steelMass().value()));
    }
}

// A brim does not last: cooling opens a pocket under it.
void setCooling(const Json& inputs, const water::Fill& filled, Result& out)
{
    const auto from = numberAt(inputs, "water_temperature");
    const auto to = numberAt(inputs, "cools_to");
    if (!from || !to) {
        return;
    }
    const auto lack = water::lackAfterCooling(filled.water, quantity::Temperature(*from), quantity::Temperature(*to));
    if (lack) {
        out.values.set("trapped_when_cool_m3", Json::real((filled.trapped + std::max(*lack, quantity::cubicMetres(0))).value()));
    } else if (std::ranges::find(out.warnings, kOutsideDensity) == out.warnings.end()) {
        out.warnings.emplace_back(kOutsideDensity);
    }
}

// The gas that would make the pocket burn: lowest published lower limit, at the water's temperature.
tl::expected<void, Error> setGas(const Json& inputs, const Reference& reference, quantity::Volume pocket, Result& out)
{
    const std::string_view id = inputs.textOf("substance");
    if (id.empty()) {
        return {};
    }
    const gas::Substance* const substance = reference.substances == nullptr ? nullptr : reference.substances->find(id);
    if (substance == nullptr) {
        return fail(Code::UnknownSubstance, "substance", "substance", std::string(id));
    }
    const auto limit = substance->lowestLimit();
    const auto temperature = numberAt(inputs, "water_temperature");
    if (!temperature) {
        return {};
    }
    if (!limit || !(substance->molar_mass_kg_mol > 0)) {
        out.warnings.emplace_back(kNoLimit);
        return {};
    }
    const auto mass =
        water::gasToLimit(pocket, quantity::VolumeShare(*limit), substance->molar_mass_kg_mol, quantity::Temperature(*temperature));
    out.values.set("gas_to_limit_kg", Json::real(mass.value()));
    return {};
}

tl::expected<Result, Error> computeFill(const Json& inputs, const Reference& reference)
{
    const auto asked = read(inputs);
    if (!asked) {
        return tl::unexpected(asked.error());
    }
    const vessel::Shell& shell = asked->vessel.shell;
    Result out;
    const auto set = [&](std::string_view key, double value) { out.values.set(std::string(key), Json::real(value)); };
    set("capacity_m3", shell.capacity().value());
    if (!asked->openings) {
        setSteel(*asked, out);
        out.picture = longSection(shell, asked->pose, std::nullopt, {});
        return out;
    }
    const OpeningsRead& openings = *asked->openings;
    const auto filled = water::fill(shell, asked->pose, openings.open);
    if (!filled) {
        return fail(Code::Impossible, "openings", "one open opening", "none");
    }
    out.warnings = openings.warnings;
    tellWhatIsNotModelled(inputs, out);
    out.values.set("spill_opening", openings.openings[openings.which[filled->spills]].name);
    set("water_m3", filled->water.value());
    set("trapped_m3", filled->trapped.value());
    set("trapped_percent", 100 * filled->trapped.value() / shell.capacity().value());
    set("trapped_per_mille", 1000 * filled->trapped.value() / shell.capacity().value());
    out.values.set("pocket", word(filled->pocket));
    set("depth_m", (filled->level - water::lowestPoint(shell, asked->pose.pitch)).value());
    setMasses(inputs, *asked, filled->water.value(), out);
    setCooling(inputs, *filled, out);
    if (const auto flow = numberAt(inputs, "flow"); flow) {
        set("fill_time_s", filled->water.value() / *flow);
    }
    if (const auto gas = setGas(inputs, reference, filled->trapped, out); !gas) {
        return tl::unexpected(gas.error());
    }
    out.picture = longSection(shell, asked->pose, filled->level, openings.openings);
    // Where the water leaves, or the nearest place on the shell.
    const quantity::Length spills = openings.open[filled->spills].ends().first.fromLeftTangent;
    addCrossSection(
        out.picture, shell, asked->pose, std::clamp(spills, quantity::metres(0), shell.length()), filled->level, openings.openings);
    return out;
}

constexpr double kDegree = std::numbers::pi / 180;

constexpr std::array kPoseSearchInputs{kVesselInput, kPoseInput, kOpeningsInput, Input{"flow", InputKind::Quantity, Dimension::VolumeFlow},
    Input{"water_temperature", InputKind::Quantity, Dimension::Temperature}, Input{.key = "substance", .kind = InputKind::Text},
    Input{.key = "baffles", .kind = InputKind::Flag}, Input{.key = "domes", .kind = InputKind::Flag},
    Input{"pitch_limit", InputKind::Quantity, Dimension::Angle}, Input{"tolerance", InputKind::Quantity, Dimension::Angle}};

constexpr std::array kPoseSearchOutputs{
    Output{"best_pitch_deg", Dimension::Angle},
    Output{"best_roll_deg", Dimension::Angle},
    Output{"best_trapped_m3", Dimension::Volume},
    Output{"at_best_m3", Dimension::Volume},
    Output{"spill_opening", Dimension::Number, OutputKind::Text},
};

constexpr std::array kPoseSearchWarnings{kBoreAssumed, kProjectionAssumed, kStateAssumed, kBaffles, kDomes};

tl::expected<double, Error> angleWithin(const Json& inputs, std::string_view key, double otherwise, double most)
{
    const double value = numberAt(inputs, key, otherwise);
    if (!(value >= 0 && value <= most)) {
        return fail(Code::OutOfRange, std::string(key), "0 deg to " + quantity::format(most, Dimension::Angle, UnitSystem::Si),
            quantity::format(value, Dimension::Angle, UnitSystem::Si));
    }
    return value;
}

tl::expected<Result, Error> computeBestPose(const Json& inputs, const Reference&)
{
    const auto asked = read(inputs);
    if (!asked) {
        return tl::unexpected(asked.error());
    }
    if (!asked->openings) {
        return fail(Code::Missing, "openings", "list");
    }
    // More than 3 degrees is not offered: a pose is laid, not hung. A larger limit is taken as 3.
    const auto limit = angleWithin(inputs, "pitch_limit", 3 * kDegree, 90 * kDegree);
    if (!limit) {
        return tl::unexpected(limit.error());
    }
    const auto tolerance = angleWithin(inputs, "tolerance", 1 * kDegree, 10 * kDegree);
    if (!tolerance) {
        return tl::unexpected(tolerance.error());
    }
    const OpeningsRead& openings = *asked->openings;
    const vessel::Shell& shell = asked->vessel.shell;
    const auto best = water::bestPose(shell, openings.open, {quantity::radians(*limit), quantity::radians(*tolerance)});
    const auto filled = best ? water::fill(shell, best->pose, openings.open) : tl::unexpected(best.error());
    if (!filled) {
        return fail(Code::Impossible, "openings", "one open opening", "none");
    }
    Result out;
    out.warnings = openings.warnings;
    tellWhatIsNotModelled(inputs, out);
    out.values.set("best_pitch_deg", Json::real(best->pose.pitch.value() / kDegree));
    out.values.set("best_roll_deg", Json::real(best->pose.roll.value() / kDegree));
    out.values.set("best_trapped_m3", Json::real(best->worst.value()));
    out.values.set("at_best_m3", Json::real(best->atBest.value()));
    out.values.set("spill_opening", openings.openings[openings.which[filled->spills]].name);
    out.picture = longSection(shell, best->pose, filled->level, openings.openings);
    return out;
}

} // namespace

constinit const Figure kWaterFill{"water-fill", 1, kInputs, kOutputs, kWarnings, computeFill};
constinit const Figure kBestPose{"best-pose", 1, kPoseSearchInputs, kPoseSearchOutputs, kPoseSearchWarnings, computeBestPose};

} // namespace brimful::figure
