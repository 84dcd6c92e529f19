// Cuts in their order into a vessel that holds water: what each does to the water, the panel and the pieces.
#include "core/water/cut.h"

#include "core/figure/check.h"
#include "core/figure/figures.h"
#include "core/figure/picture.h"
#include "core/figure/vessel_inputs.h"
#include "core/water/fill.h"
#include "core/water/level.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <set>

namespace brimful::figure {

namespace {

using canon::Json;
using quantity::metres;

constexpr std::string_view kGulps = "gulps-without-a-vent";
constexpr std::string_view kHeld = "hose-holds-the-level";
constexpr std::string_view kPanel = "water-pushes-the-panel";
constexpr std::string_view kPiece = "piece-without-two-supports";
constexpr std::string_view kFalls = "level-falls-below-the-cut";
constexpr std::string_view kDischarge = "discharge-taken-from-the-handbook";
constexpr std::array kWarnings{
    kGulps, kHeld, kPanel, kPiece, kFalls, kDischarge, kDensityAssumed, kOutsideDensity, kBoreAssumed, kProjectionAssumed, kStateAssumed};

constexpr std::array kCutInputs{
    Input{.key = "name", .kind = InputKind::Text},
    Input{.key = "places", .kind = InputKind::List, .required = true, .inside = kPlaceInputs},
    Input{"kerf", InputKind::Quantity, Dimension::Length, true},
    Input{"discharge", InputKind::Number},
};
constexpr std::array kSupportInputs{Input{"from_left_tangent", InputKind::Quantity, Dimension::Length, true}};

constexpr std::array kInputs{kVesselInput, kPoseInput, kOpeningsInput,
    Input{.key = "cuts", .kind = InputKind::List, .required = true, .inside = kCutInputs},
    Input{"start_depth", InputKind::Quantity, Dimension::Length}, // where the water stands; as filled when absent
    Input{"inflow", InputKind::Quantity, Dimension::VolumeFlow}, // a hose left running
    Input{.key = "supports", .kind = InputKind::List, .inside = kSupportInputs},
    Input{"water_temperature", InputKind::Quantity, Dimension::Temperature}};

// Every level and height is told as a depth: above the lowest point of the inside.
constexpr std::array kOutputs{
    Output{"start_depth_m", Dimension::Length},
    Output{"start_gas_m3", Dimension::Volume},
    Output{"cuts", Dimension::Number, OutputKind::List},
    Output{"level_after_m", Dimension::Length},
    Output{"runs_out_m3", Dimension::Volume},
    Output{"gas_space_m3", Dimension::Volume},
};

tl::expected<std::vector<water::Cut>, Error> readCuts(
    const Json& inputs, const vessel::Shell& shell, const water::Meridian& meridian, Result& out)
{
    std::vector<water::Cut> cuts;
    std::set<std::string> names;
    const Json& given = *inputs.find("cuts");
    for (std::size_t i = 0; i < given.items.size(); ++i) {
        const Json& item = given.items[i];
        const std::string path = "cuts[" + std::to_string(i) + "]";
        const auto kerf = positive(item, "kerf", Dimension::Length, path);
        const auto discharge = kerf ? readDischarge(item, path) : kerf;
        if (!discharge) {
            return tl::unexpected(discharge.error());
        }
        water::Cut cut;
        cut.name = item.find("name") == nullptr ? std::to_string(i + 1) : std::string(item.textOf("name"));
        if (!names.insert(cut.name).second) {
            return fail(Code::Conflicting, pathTo(path, "name"), "one name each", cut.name);
        }
        cut.kerf = metres(**kerf);
        cut.discharge = water::Discharge::ofKerf(discharge->value_or(0.64));
        if (!*discharge && std::ranges::find(out.warnings, kDischarge) == out.warnings.end()) {
            out.warnings.emplace_back(kDischarge);
        }
        const Json& places = *item.find("places");
        for (std::size_t j = 0; j < places.items.size(); ++j) {
            const std::string here = pathTo(path, "places[" + std::to_string(j) + "]");
            const auto place = readPlace(places.items[j], here);
            if (!place) {
                return tl::unexpected(place.error());
            }
            const auto spot = meridian.spot(shell, *place);
            if (!spot) {
                return tl::unexpected(placeError(spot.error(), places.items[j], here));
            }
            cut.path.push_back(*spot);
        }
        cuts.push_back(std::move(cut));
    }
    return cuts;
}

Error cutError(const water::CutError& error)
{
    const std::string path = "cuts[" + std::to_string(error.cut) + "].places";
    switch (error.fault) {
    case water::CutFault::TooFewPlaces:
        return {path, Code::Missing, "two places or more", {}};
    case water::CutFault::TurnTooFar:
        return {path + "[" + std::to_string(error.place) + "].clock", Code::Impossible, "at most 180 deg on; one more place between", {}};
    }
    return {path, Code::Impossible, {}, {}};
}

// Where the water stands before the first cut, and which mouths let air in.
tl::expected<quantity::Length, Error> readStart(const Json& inputs, const vessel::Shell& shell, const vessel::Pose& pose,
    const std::optional<OpeningsRead>& openings, std::vector<water::Vent>& vents)
{
    const auto given = readDepth(inputs, "start_depth", shell, pose.pitch);
    if (!given) {
        return tl::unexpected(given.error());
    }
    if (!openings && !*given) {
        return fail(Code::Missing, "openings", "openings or start_depth");
    }
    quantity::Length start = given->value_or(water::highestPoint(shell, pose.pitch));
    if (!openings) {
        return start;
    }
    for (std::size_t i = 0; i < openings->open.size(); ++i) {
        vents.push_back({openings->openings[openings->which[i]].name, openings->open[i].heights(pose).seal});
    }
    const auto filled = water::fill(shell, pose, openings->open);
    if (!filled && !*given) {
        return fail(Code::Impossible, "openings", "one open opening", "none");
    }
    return filled ? std::min(start, filled->level) : start;
}

Json placeOf(const water::PathPoint& point)
{
    Json out = Json::object();
    out.set("after_m", Json::real(point.run));
    out.set("from_left_tangent_m", Json::real(point.x));
    const double clock = std::fmod(point.spot.clock * 180 / std::numbers::pi, 360);
    out.set("clock_deg", Json::real(clock < 0 ? clock + 360 : clock));
    return out;
}

std::string_view word(water::Piece::Kind kind)
{
    switch (kind) {
    case water::Piece::Kind::Rest:
        return "rest";
    case water::Piece::Kind::Panel:
        return "panel";
    case water::Piece::Kind::Left:
        return "left";
    case water::Piece::Kind::Right:
        return "right";
    }
    return {};
}

Json piecesOf(const water::CutStep& step, bool wall, bool supports)
{
    Json out = Json::array();
    for (const water::Piece& piece : step.pieces) {
        Json row = Json::object();
        row.set("piece", word(piece.kind));
        if (!piece.cut.empty()) {
            row.set("freed_by", piece.cut);
        }
        if (wall) {
            row.set("mass_kg", Json::real(piece.mass.value()));
        }
        row.set("centre_from_left_tangent_m", Json::real(piece.centre.value()));
        if (supports && piece.kind != water::Piece::Kind::Panel) {
            row.set("on_supports", Json(static_cast<int>(piece.supports)));
            row.set("stable", Json::boolean(piece.stands));
        }
        out.items.push_back(std::move(row));
    }
    return out;
}

Json stepOf(const water::Cut& cut, const water::CutStep& step, quantity::Length lowest, bool wall, bool supports)
{
    Json out = Json::object();
    const auto set = [&](std::string_view key, double value) { out.set(std::string(key), Json::real(value)); };
    const auto depth = [&](quantity::Length height) { return (height - lowest).value(); };
    out.set("name", cut.name);
    set("length_m", step.length.value());
    set("highest_m", depth(step.highest));
    set("lowest_m", depth(step.lowest));
    set("level_before_m", depth(step.levelBefore));
    if (step.meetsWater) {
        out.set("meets_water_at", placeOf(*step.meetsWater));
        set("jet_m_s", step.jet);
    }
    set("level_after_m", depth(step.levelAfter));
    set("runs_out_m3", step.runsOut.value());
    set("gas_space_m3", step.gasSpace.value());
    if (step.meetsWater) {
        out.set("vented", Json::boolean(step.vent.has_value()));
        if (step.vent) {
            out.set("vent", *step.vent);
        }
        out.set("held_by_hose", Json::boolean(step.held));
    }
    for (const auto& [key, time] : {std::pair("time_s", step.time), {"slow_s", step.slow}, {"fast_s", step.fast}}) {
        if (time && step.meetsWater) {
            set(key, time->value());
        }
    }
    if (step.panelArea) {
        set("panel_area_m2", step.panelArea->value());
        set("panel_push_N", step.panelPush->value());
    }
    if (step.panelMass) {
        set("panel_mass_kg", step.panelMass->value());
    }
    out.set("pieces", piecesOf(step, wall, supports));
    return out;
}

void tell(const std::vector<water::CutStep>& steps, bool supports, Result& out)
{
    const auto any = [&](std::string_view warning, auto&& is) {
        if (std::ranges::any_of(steps, is)) {
            out.warnings.emplace_back(warning);
        }
    };
    using Step = water::CutStep;
    any(kGulps, [](const Step& step) { return step.meetsWater && !step.vent; });
    any(kHeld, [](const Step& step) { return step.held; });
    any(kFalls, [](const Step& step) { return step.meetsWater && step.levelAfter < step.highest; });
    any(kPanel, [](const Step& step) { return step.panelPush && step.panelPush->value() > 0; });
    any(kPiece, [&](const Step& step) {
        return supports && std::ranges::any_of(step.pieces, [](const water::Piece& piece) {
            return piece.kind != water::Piece::Kind::Panel && !piece.stands;
        });
    });
}

tl::expected<Result, Error> compute(const Json& inputs, const Reference&)
{
    const auto vessel = readVessel(inputs);
    if (!vessel) {
        return tl::unexpected(vessel.error());
    }
    const auto pose = readPose(inputs);
    if (!pose) {
        return tl::unexpected(pose.error());
    }
    const vessel::Shell& shell = vessel->shell;
    const auto openings = readOpenings(inputs, shell);
    if (!openings) {
        return tl::unexpected(openings.error());
    }
    Result out;
    water::CutPlan plan;
    const auto start = readStart(inputs, shell, *pose, *openings, plan.vents);
    if (!start) {
        return tl::unexpected(start.error());
    }
    const auto inflow = positive(inputs, "inflow", Dimension::VolumeFlow, {});
    if (!inflow) {
        return tl::unexpected(inflow.error());
    }
    const water::Meridian meridian(shell);
    const auto cuts = readCuts(inputs, shell, meridian, out);
    if (!cuts) {
        return tl::unexpected(cuts.error());
    }
    if (*openings) {
        out.warnings.insert(out.warnings.end(), (*openings)->warnings.begin(), (*openings)->warnings.end());
    }
    plan.level = *start;
    plan.inflow = inflow->value_or(0) * boost::units::si::cubic_metre / boost::units::si::second;
    plan.water = readDensity(inputs, out.warnings);
    if (const Json* const supports = inputs.find("supports"); supports != nullptr) {
        plan.supports.emplace();
        for (const Json& item : supports->items) {
            plan.supports->push_back(metres(numberAt(item, "from_left_tangent", 0)));
        }
    }
    const auto steps = water::planCuts(shell, *pose, *cuts, plan);
    if (!steps) {
        return tl::unexpected(cutError(steps.error()));
    }
    const quantity::Length lowest = water::lowestPoint(shell, pose->pitch);
    const double gas = water::above(shell, pose->pitch, *start).volume.value();
    tell(*steps, plan.supports.has_value(), out);
    Json rows = Json::array();
    double ran = 0;
    for (std::size_t i = 0; i < steps->size(); ++i) {
        rows.items.push_back(stepOf((*cuts)[i], (*steps)[i], lowest, vessel->wallGiven, plan.supports.has_value()));
        ran += (*steps)[i].runsOut.value();
    }
    const quantity::Length end = steps->empty() ? *start : steps->back().levelAfter;
    const auto set = [&](std::string_view key, double value) { out.values.set(std::string(key), Json::real(value)); };
    set("start_depth_m", (*start - lowest).value());
    set("start_gas_m3", gas);
    out.values.set("cuts", std::move(rows));
    set("level_after_m", (end - lowest).value());
    set("runs_out_m3", ran);
    set("gas_space_m3", water::above(shell, pose->pitch, end).volume.value());
    out.picture = longSection(shell, *pose, end, *openings ? (*openings)->openings : std::vector<water::Opening>());
    for (const water::Cut& cut : *cuts) {
        out.picture.push_back(wallLine("cut:" + cut.name, *pose, water::pathThrough(meridian, cut.path)));
    }
    return out;
}

} // namespace

constinit const Figure kCutPlan{"cut-plan", 1, kInputs, kOutputs, kWarnings, compute};

} // namespace brimful::figure
