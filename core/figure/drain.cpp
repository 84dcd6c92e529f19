// How long a vessel runs out through holes and kerfs, with a hose running in or not; and how long it takes to fill.
#include "core/water/drain.h"

#include "core/figure/check.h"
#include "core/figure/figures.h"
#include "core/figure/picture.h"
#include "core/figure/vessel_inputs.h"
#include "core/quantity/format.h"
#include "core/water/level.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace brimful::figure {

namespace {

using canon::Json;
using quantity::UnitSystem;

constexpr std::string_view kAtTheOutlet = "water-stops-at-the-outlet";
constexpr std::string_view kFiniteHead = "the-last-of-it-takes-for-ever";
constexpr std::string_view kSettles = "level-settles";
constexpr std::string_view kEdges = "edges-hold-water-back";
constexpr std::string_view kGulps = "gulps-without-a-vent";
constexpr std::string_view kDischarge = "discharge-taken-from-the-handbook";
constexpr std::array kWarnings{kAtTheOutlet, kFiniteHead, kSettles, kEdges, kGulps, kDischarge, kVentAssumed};

constexpr std::array<std::string_view, 2> kRuns{"along", "around"};

constexpr std::array kHoleInputs{
    Input{"from_left_tangent", InputKind::Quantity, Dimension::Length},
    Input{.key = "head", .kind = InputKind::Choice, .choices = kSides},
    Input{"from_pole_deg", InputKind::Quantity, Dimension::Angle},
    Input{"from_axis", InputKind::Quantity, Dimension::Length},
    Input{"clock", InputKind::Quantity, Dimension::Angle},
    Input{"diameter", InputKind::Quantity, Dimension::Length}, // of a round hole, its middle at the place
    Input{"slot_length", InputKind::Quantity, Dimension::Length}, // of a slot, its middle at the place
    Input{"slot_width", InputKind::Quantity, Dimension::Length},
    Input{.key = "slot_runs", .kind = InputKind::Choice, .choices = kRuns}, // along the axis when absent
    Input{.key = "places", .kind = InputKind::List, .inside = kPlaceInputs}, // of a kerf, in order
    Input{"kerf", InputKind::Quantity, Dimension::Length},
    Input{"discharge", InputKind::Number},
};

// A hose over an opening, primed.
constexpr std::array kSiphonInputs{
    Input{"bore", InputKind::Quantity, Dimension::Length, true}, Input{"length", InputKind::Quantity, Dimension::Length, true},
    Input{"mouth_depth", InputKind::Quantity, Dimension::Length, true}, // of its end in the water, above the lowest point inside
    Input{"outlet_below", InputKind::Quantity, Dimension::Length, true}, // of its outer end, below the lowest point inside
};

constexpr std::array kInputs{kVesselInput, kPoseInput, Input{.key = "siphon", .kind = InputKind::Object, .inside = kSiphonInputs},
    Input{.key = "hole", .kind = InputKind::Object, .inside = kHoleInputs},
    Input{.key = "holes", .kind = InputKind::List, .inside = kHoleInputs}, // all open at once
    Input{"from", InputKind::Quantity, Dimension::Length}, // depth; to the brim when absent
    Input{"to", InputKind::Quantity, Dimension::Length}, // depth; where it stops by itself when absent
    Input{"inflow", InputKind::Quantity, Dimension::VolumeFlow}, Input{.key = "vented", .kind = InputKind::Flag}};

constexpr std::array kOutputs{
    Output{"time_s", Dimension::Duration},
    Output{"slow_s", Dimension::Duration},
    Output{"fast_s", Dimension::Duration},
    Output{"drained_m3", Dimension::Volume},
    Output{"filled_m3", Dimension::Volume},
    Output{"from_depth_m", Dimension::Length},
    Output{"end_depth_m", Dimension::Length},
    Output{"settles_depth_m", Dimension::Length},
    Output{"lowest_outlet_m", Dimension::Length},
    Output{"held_back_m", Dimension::Length},
    Output{"curve", Dimension::Number, OutputKind::List},
};

struct Asked {
    const vessel::Shell& shell;
    const vessel::Pose& pose;
    const water::Meridian& meridian;
};

struct Holes {
    std::vector<water::Outlet> outlets;
    std::vector<Line> lines;
    bool assumed{}; // a discharge coefficient
};

tl::expected<water::Spot, Error> spotOf(const Asked& asked, const Json& item, const std::string& path)
{
    const auto place = readPlace(item, path);
    if (!place) {
        return tl::unexpected(place.error());
    }
    const auto spot = asked.meridian.spot(asked.shell, *place);
    if (!spot) {
        return tl::unexpected(placeError(spot.error(), item, path));
    }
    return *spot;
}

// The places of a kerf, or the two ends of a slot about its middle.
tl::expected<std::vector<water::Spot>, Error> spotsOf(const Asked& asked, const Json& item, const std::string& path)
{
    std::vector<water::Spot> out;
    if (const Json* const places = item.find("places"); places != nullptr) {
        for (std::size_t i = 0; i < places->items.size(); ++i) {
            const auto spot = spotOf(asked, places->items[i], pathTo(path, "places[" + std::to_string(i) + "]"));
            if (!spot) {
                return tl::unexpected(spot.error());
            }
            out.push_back(*spot);
        }
        if (out.size() < 2) {
            return fail(Code::Missing, pathTo(path, "places"), "two places or more");
        }
        return out;
    }
    const auto middle = spotOf(asked, item, path);
    if (!middle) {
        return tl::unexpected(middle.error());
    }
    const double half = numberAt(item, "slot_length", 0) / 2;
    if (item.textOf("slot_runs") == "around") {
        const double turn = half / asked.meridian.at(middle->along).radial;
        if (!(turn <= std::numbers::pi)) {
            return fail(Code::Impossible, pathTo(path, "slot_length"), "once round at most", {});
        }
        return std::vector<water::Spot>{{middle->along, middle->clock - turn}, {middle->along, middle->clock + turn}};
    }
    if (!(middle->along - half >= asked.meridian.from() - 1e-9 && middle->along + half <= asked.meridian.to() + 1e-9)) {
        return fail(Code::OutOfRange, pathTo(path, "slot_length"), "on the vessel", {});
    }
    return std::vector<water::Spot>{{middle->along - half, middle->clock}, {middle->along + half, middle->clock}};
}

tl::expected<void, Error> addSlot(
    const Asked& asked, const Json& item, const std::string& path, std::string_view widthKey, std::optional<double> discharge, Holes& out)
{
    const auto width = positive(item, widthKey, Dimension::Length, path);
    const auto length = positive(item, "slot_length", Dimension::Length, path);
    if (!width || !length) {
        return tl::unexpected((width ? length : width).error());
    }
    if (!*width || (widthKey == "slot_width" && !*length)) {
        return fail(Code::Missing, pathTo(path, *width ? "slot_length" : widthKey), "length");
    }
    const auto spots = spotsOf(asked, item, path);
    if (!spots) {
        return tl::unexpected(spots.error());
    }
    const auto line = water::pathThrough(asked.meridian, *spots);
    out.outlets.push_back(water::Outlet::kerf(line, asked.pose, **width, water::Discharge::ofKerf(discharge.value_or(0.64))));
    out.lines.push_back(wallLine("opening:slot", asked.pose, line));
    return {};
}

tl::expected<void, Error> addHole(const Asked& asked, const Json& item, const std::string& path, Holes& out)
{
    const auto discharge = readDischarge(item, path);
    if (!discharge) {
        return tl::unexpected(discharge.error());
    }
    out.assumed = out.assumed || !*discharge;
    constexpr std::array<std::pair<std::string_view, std::string_view>, 3> kKinds{
        {{"diameter", "diameter"}, {"slot_length", "slot_width"}, {"places", "kerf"}}};
    const auto given = [&](const auto& kind) { return item.find(kind.first) != nullptr || item.find(kind.second) != nullptr; };
    const auto* const kind = std::ranges::find_if(kKinds, given);
    if (kind == kKinds.end()) {
        return fail(Code::Missing, pathTo(path, "diameter"), "diameter, or slot_length and slot_width, or places and kerf");
    }
    if (const auto* const other = std::find_if(kind + 1, kKinds.end(), given); other != kKinds.end()) {
        return fail(Code::Conflicting, pathTo(path, other->first), "diameter, or slot_length and slot_width, or places and kerf",
            std::string(kind->first));
    }
    if (kind->first == "places" && item.find("places") == nullptr) {
        return fail(Code::Missing, pathTo(path, "places"), "list");
    }
    if (kind->first != "diameter") {
        return addSlot(asked, item, path, kind->second, *discharge, out);
    }
    const auto diameter = positive(item, "diameter", Dimension::Length, path);
    if (!diameter) {
        return tl::unexpected(diameter.error());
    }
    if (!(**diameter < asked.shell.insideDiameter().get().value())) {
        return fail(Code::Impossible, pathTo(path, "diameter"), "below the inside diameter", {});
    }
    const auto place = readPlace(item, path);
    if (!place) {
        return tl::unexpected(place.error());
    }
    const auto point = water::wallPoint(asked.shell, *place);
    if (!point) {
        return tl::unexpected(placeError(point.error(), item, path));
    }
    const double clock = place->clock.value();
    out.outlets.push_back(water::Outlet::hole(*point, clock, asked.pose, **diameter, water::Discharge::ofHole(discharge->value_or(0.61))));
    const std::array dot{water::PathPoint{{point->x, clock}, point->x, point->radial, 0}};
    out.lines.push_back(wallLine("opening:hole", asked.pose, dot));
    return {};
}

tl::expected<void, Error> addSiphon(const Asked& asked, const Json& item, Holes& out)
{
    const auto bore = positive(item, "bore", Dimension::Length, "siphon");
    const auto length = bore ? positive(item, "length", Dimension::Length, "siphon") : bore;
    if (!length) {
        return tl::unexpected(length.error());
    }
    const double lowest = water::lowestPoint(asked.shell, asked.pose.pitch).value();
    const double highest = water::highestPoint(asked.shell, asked.pose.pitch).value();
    const double mouth = numberAt(item, "mouth_depth", 0);
    if (!(mouth >= 0 && mouth <= highest - lowest)) {
        return fail(Code::OutOfRange, "siphon.mouth_depth", "0 to " + quantity::format(highest - lowest, Dimension::Length, UnitSystem::Si),
            quantity::format(mouth, Dimension::Length, UnitSystem::Si));
    }
    out.outlets.push_back(water::Outlet::siphon(lowest + mouth, lowest - numberAt(item, "outlet_below", 0), **bore, **length));
    return {};
}

tl::expected<Holes, Error> readHoles(const Asked& asked, const Json& inputs)
{
    Holes out;
    const Json* const one = inputs.find("hole");
    const Json* const many = inputs.find("holes");
    if (one != nullptr && many != nullptr) {
        return fail(Code::Conflicting, "holes", "hole or holes", "hole");
    }
    if (one != nullptr) {
        if (const auto added = addHole(asked, *one, "hole", out); !added) {
            return tl::unexpected(added.error());
        }
    }
    for (std::size_t i = 0; many != nullptr && i < many->items.size(); ++i) {
        if (const auto added = addHole(asked, many->items[i], "holes[" + std::to_string(i) + "]", out); !added) {
            return tl::unexpected(added.error());
        }
    }
    if (const Json* const siphon = inputs.find("siphon"); siphon != nullptr) {
        if (const auto added = addSiphon(asked, *siphon, out); !added) {
            return tl::unexpected(added.error());
        }
    }
    return out;
}

Json curveOf(const water::Drained& drained, quantity::Length lowest)
{
    Json out = Json::array();
    for (const water::Drained::Moment& moment : drained.curve) {
        Json row = Json::object();
        row.set("time_s", Json::real(moment.time.value()));
        row.set("depth_m", Json::real((moment.level - lowest).value()));
        row.set("volume_m3", Json::real(moment.volume.value()));
        out.items.push_back(std::move(row));
    }
    return out;
}

void tell(const Json& inputs, const Holes& holes, const water::Drained& drained, Result& out)
{
    const auto warn = [&](bool given, std::string_view warning) {
        if (given) {
            out.warnings.emplace_back(warning);
        }
    };
    warn(holes.assumed, kDischarge);
    warn(drained.stoppedAtOutlet, kAtTheOutlet);
    warn(drained.atFiniteHead, kFiniteHead);
    warn(drained.settles.has_value(), kSettles);
    const bool emptying = drained.ranOut.value() > 0;
    const bool vented = flagAt(inputs, "vented");
    if (emptying) {
        warn(inputs.find("vented") == nullptr, kVentAssumed);
        warn(inputs.find("vented") != nullptr && !vented, kGulps);
    }
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
    const water::Meridian meridian(shell);
    const auto holes = readHoles({shell, *pose, meridian}, inputs);
    if (!holes) {
        return tl::unexpected(holes.error());
    }
    const auto from = readDepth(inputs, "from", shell, pose->pitch);
    const auto to = from ? readDepth(inputs, "to", shell, pose->pitch) : from;
    if (!to) {
        return tl::unexpected(to.error());
    }
    const auto inflow = positive(inputs, "inflow", Dimension::VolumeFlow, {});
    if (!inflow) {
        return tl::unexpected(inflow.error());
    }
    if (holes->outlets.empty() && !*inflow) {
        return fail(Code::Missing, "hole", "hole, holes, siphon or inflow");
    }
    const quantity::Length lowest = water::lowestPoint(shell, pose->pitch);
    const bool onlyFills = holes->outlets.empty();
    const quantity::Length start = from->value_or(onlyFills ? lowest : water::highestPoint(shell, pose->pitch));
    const auto drained = water::drain(
        shell, pose->pitch, holes->outlets, {start, *to, inflow->value_or(0) * boost::units::si::cubic_metre / boost::units::si::second});
    if (!drained) {
        const bool never = drained.error() == water::DrainFault::NeverGetsThere;
        return fail(Code::Impossible, never ? "to" : "from", never ? "a level it can reach" : "above the lowest outlet", {});
    }
    Result out;
    tell(inputs, *holes, *drained, out);
    const auto set = [&](std::string_view key, double value) { out.values.set(std::string(key), Json::real(value)); };
    const bool gulps = std::ranges::find(out.warnings, kGulps) != out.warnings.end();
    if (!gulps) {
        for (const auto& [key, time] : {std::pair("time_s", drained->time), {"slow_s", drained->slow}, {"fast_s", drained->fast}}) {
            if (time) {
                set(key, time->value());
            }
        }
        out.values.set("curve", curveOf(*drained, lowest));
    }
    const double gone = drained->ranOut.value();
    set(gone >= 0 ? "drained_m3" : "filled_m3", std::abs(gone));
    set("from_depth_m", (start - lowest).value());
    set("end_depth_m", (drained->end - lowest).value());
    if (drained->settles) {
        set("settles_depth_m", (*drained->settles - lowest).value());
    }
    if (!holes->outlets.empty()) {
        const water::Outlet& least = *std::ranges::min_element(holes->outlets, {}, &water::Outlet::lowest);
        const double lip = std::max(least.lowest(), lowest.value());
        set("lowest_outlet_m", lip - lowest.value());
        set("held_back_m", least.heldBack());
        if (gone > 0 && !drained->settles && drained->end.value() < lip + least.heldBack()) {
            out.warnings.emplace_back(kEdges);
        }
    }
    out.picture = longSection(shell, *pose, drained->end, {});
    out.picture.insert(out.picture.end(), holes->lines.begin(), holes->lines.end());
    return out;
}

} // namespace

constinit const Figure kDrain{"drain", 1, kInputs, kOutputs, kWarnings, compute};

} // namespace brimful::figure
