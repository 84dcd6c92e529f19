// What a vessel weighs on its supports while it fills, what the ground and the plugs take, and what cold does.
#include "core/water/support.h"

#include "core/figure/check.h"
#include "core/figure/figures.h"
#include "core/figure/picture.h"
#include "core/figure/vessel_inputs.h"
#include "core/quantity/format.h"
#include "core/vessel/steel.h"
#include "core/water/level.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace brimful::figure {

namespace {

using canon::Json;
using quantity::UnitSystem;

constexpr std::string_view kTips = "tips";
constexpr std::string_view kThree = "three-supports-share-by-settlement";
constexpr std::string_view kPlainSteel = "plain-shell-weighed-without-fittings";
constexpr std::string_view kStops = "needs-stops-against-sliding";
constexpr std::string_view kGround = "bears-more-than-the-ground-takes";
constexpr std::string_view kFrost = "frost-open-it-and-let-it-out";
constexpr std::string_view kOpenBelow = "open-below-the-level";
constexpr std::string_view kGrowth = "growth-known-from-20-to-750-degC";
constexpr std::array kWarnings{kTips, kThree, kPlainSteel, kStops, kGround, kFrost, kOpenBelow, kGrowth, kDensityAssumed, kOutsideDensity,
    kBoreAssumed, kProjectionAssumed, kStateAssumed};

constexpr std::array kSupportInputs{
    Input{"from_left_tangent", InputKind::Quantity, Dimension::Length, true},
    Input{"pad_area", InputKind::Quantity, Dimension::Area}, // that bears on the ground
};

// Presumptive bearing values of common building codes: clay and silt 1500 lbf/ft2, sand 2000, gravel 3000, rock 4000 at least.
// International Building Code, table 1804.2 as quoted in a code-change paper (found; edition not seen). Dry, level ground.
constexpr std::array<std::string_view, 4> kGrounds{"clay-or-silt", "sand", "gravel", "rock"};
constexpr std::array<double, 4> kPoundsPerSquareFoot{1500, 2000, 3000, 4000};
constexpr double kPoundPerSquareFoot = 4.4482216152605 / (0.3048 * 0.3048); // Pa

constexpr std::array kInputs{kVesselInput, kPoseInput, kOpeningsInput,
    Input{.key = "supports", .kind = InputKind::List, .required = true, .inside = kSupportInputs},
    Input{"contents_depth", InputKind::Quantity, Dimension::Length}, Input{.key = "full", .kind = InputKind::Flag},
    Input{"empty_mass", InputKind::Quantity, Dimension::Mass}, // on a scale; plain steel of this wall when absent
    Input{"water_temperature", InputKind::Quantity, Dimension::Temperature},
    Input{"friction", InputKind::Number}, // of the vessel on its supports
    Input{.key = "ground", .kind = InputKind::Choice, .choices = kGrounds},
    Input{"hottest", InputKind::Quantity, Dimension::Temperature}, // of the shell in use: one support must let it grow
    Input{"coldest", InputKind::Quantity, Dimension::Temperature}, // air forecast while water stands in it
    Input{"sling_angle", InputKind::Quantity, Dimension::Angle}}; // of two legs, from the horizontal: asks for a lift

constexpr std::array kOutputs{
    Output{"left_N", Dimension::Force},
    Output{"right_N", Dimension::Force},
    Output{"worst_left_N", Dimension::Force},
    Output{"worst_right_N", Dimension::Force},
    Output{"least_left_N", Dimension::Force},
    Output{"least_right_N", Dimension::Force},
    Output{"slides_at_friction", Dimension::Number},
    Output{"stops_needed", Dimension::Number, OutputKind::Flag},
    Output{"tips", Dimension::Number, OutputKind::Flag},
    Output{"tips_from_depth_m", Dimension::Length},
    Output{"steel_mass_kg", Dimension::Mass},
    Output{"water_mass_kg", Dimension::Mass},
    Output{"total_mass_kg", Dimension::Mass},
    Output{"centre_from_left_tangent_m", Dimension::Length},
    Output{"bottom_pressure_Pa", Dimension::Pressure},
    Output{"ground_takes_Pa", Dimension::Pressure},
    Output{"supports", Dimension::Number, OutputKind::List},
    Output{"openings", Dimension::Number, OutputKind::List},
    Output{"ice_growth_m3", Dimension::Volume},
    Output{"grows_m", Dimension::Length},
    Output{"sling_leg_N", Dimension::Force},
};

constexpr double kFrostWarning = 273.15 + 4; // K: proposal
constexpr double kMargin = 1.5; // against sliding: proposal

struct Asked {
    VesselRead vessel;
    vessel::Pose pose;
    quantity::Length level;
    water::Steel steel;
    quantity::Density water;
    std::vector<quantity::Length> supports;
};

tl::expected<quantity::Length, Error> readLevel(const Json& inputs, const vessel::Shell& shell, quantity::Angle pitch)
{
    const auto depth = readDepth(inputs, "contents_depth", shell, pitch);
    if (!depth) {
        return tl::unexpected(depth.error());
    }
    const bool full = flagAt(inputs, "full");
    if (*depth && full) {
        return fail(Code::Conflicting, "full", "contents_depth or full", "contents_depth");
    }
    if (*depth) {
        return **depth;
    }
    if (inputs.find("full") == nullptr) {
        return fail(Code::Missing, "contents_depth", "contents_depth or full");
    }
    return full ? water::highestPoint(shell, pitch) : water::lowestPoint(shell, pitch);
}

tl::expected<Asked, Error> read(const Json& inputs, Result& out)
{
    auto vessel = readVessel(inputs);
    if (!vessel) {
        return tl::unexpected(vessel.error());
    }
    const auto pose = readPose(inputs);
    if (!pose) {
        return tl::unexpected(pose.error());
    }
    const auto level = readLevel(inputs, vessel->shell, pose->pitch);
    if (!level) {
        return tl::unexpected(level.error());
    }
    const auto weighed = positive(inputs, "empty_mass", Dimension::Mass, {});
    if (!weighed) {
        return tl::unexpected(weighed.error());
    }
    if (!*weighed && !vessel->wallGiven) {
        return fail(Code::Missing, "empty_mass", "empty_mass, or vessel.wall");
    }
    water::Steel steel = water::plainSteel(vessel->shell);
    if (*weighed) {
        steel.mass = quantity::kilograms(**weighed);
    } else {
        out.warnings.emplace_back(kPlainSteel);
    }
    const auto density = readDensity(inputs, out.warnings);
    std::vector<quantity::Length> supports;
    for (const Json& item : inputs.find("supports")->items) {
        supports.push_back(quantity::metres(numberAt(item, "from_left_tangent", 0)));
    }
    return Asked{std::move(*vessel), *pose, *level, steel, density, std::move(supports)};
}

Error supportError(water::SupportFault fault)
{
    switch (fault) {
    case water::SupportFault::FewerThanTwo:
        return {"supports", Code::Impossible, "two or three", "fewer"};
    case water::SupportFault::MoreThanThree:
        return {"supports", Code::Impossible, "two or three", "more"};
    case water::SupportFault::SamePlace:
        return {"supports", Code::Impossible, "places apart from each other", {}};
    case water::SupportFault::OffTheShell:
        return {"supports", Code::OutOfRange, "0 to the shell length", {}};
    case water::SupportFault::TooSteep:
        return {"pose.pitch", Code::Impossible, "-30 deg to 30 deg", {}};
    }
    return {"supports", Code::Impossible, {}, {}};
}

// Each support with what it carries, and what its pad puts on the ground.
tl::expected<void, Error> setSupports(const Json& inputs, const Asked& asked, const water::Carried& carried, Result& out)
{
    const std::string_view ground = inputs.textOf("ground");
    std::optional<double> takes;
    if (const auto* const known = std::ranges::find(kGrounds, ground); known != kGrounds.end()) {
        takes = kPoundsPerSquareFoot.at(static_cast<std::size_t>(known - kGrounds.begin())) * kPoundPerSquareFoot;
        out.values.set("ground_takes_Pa", Json::real(*takes));
    }
    Json rows = Json::array();
    for (std::size_t i = 0; i < asked.supports.size(); ++i) {
        const Json& given = inputs.find("supports")->items[i];
        const auto pad = positive(given, "pad_area", Dimension::Area, "supports[" + std::to_string(i) + "]");
        if (!pad) {
            return tl::unexpected(pad.error());
        }
        const water::Reaction& reaction = carried.reactions[i];
        Json row = Json::object();
        row.set("from_left_tangent_m", Json::real(asked.supports[i].value()));
        if (carried.determinate) {
            row.set("carries_N", Json::real(reaction.now.value()));
        }
        row.set("least_N", Json::real(reaction.least.value()));
        row.set("most_N", Json::real(reaction.most.value()));
        if (*pad) {
            const double bearing = reaction.most.value() / **pad;
            row.set("bearing_Pa", Json::real(bearing));
            if (takes && bearing > *takes && std::ranges::find(out.warnings, kGround) == out.warnings.end()) {
                out.warnings.emplace_back(kGround);
            }
        }
        rows.items.push_back(std::move(row));
    }
    out.values.set("supports", std::move(rows));
    return {};
}

// The head of water at each opening: what a plug or a clamp has to hold.
void setOpenings(const Asked& asked, const OpeningsRead& openings, Result& out)
{
    out.warnings.insert(out.warnings.end(), openings.warnings.begin(), openings.warnings.end());
    Json rows = Json::array();
    for (const water::Opening& opening : openings.openings) {
        const auto point = water::wallPoint(asked.vessel.shell, opening.place);
        if (!point) {
            continue; // readOpenings has refused it
        }
        const auto height = quantity::metres(point->height(asked.pose, opening.place.clock.value()));
        const double pressure = water::headOver(asked.level, height, asked.water).value();
        const double bore = opening.bore.value();
        Json row = Json::object();
        row.set("name", opening.name);
        row.set("pressure_Pa", Json::real(pressure));
        row.set("push_N", Json::real(pressure * std::numbers::pi * bore * bore / 4));
        rows.items.push_back(std::move(row));
        if (opening.open && pressure > 1 && std::ranges::find(out.warnings, kOpenBelow) == out.warnings.end()) {
            out.warnings.emplace_back(kOpenBelow);
        }
    }
    out.values.set("openings", std::move(rows));
}

// With two supports each side has a name; with three the ends have.
void setSides(const Asked& asked, const water::Carried& carried, Result& out)
{
    const auto place = [&](std::size_t i) { return asked.supports[i].value(); };
    std::size_t left = 0;
    std::size_t right = 0;
    for (std::size_t i = 1; i < asked.supports.size(); ++i) {
        left = place(i) < place(left) ? i : left;
        right = place(i) > place(right) ? i : right;
    }
    const auto set = [&](std::string_view key, const water::Force& force) { out.values.set(std::string(key), Json::real(force.value())); };
    if (carried.determinate) {
        set("left_N", carried.reactions[left].now);
        set("right_N", carried.reactions[right].now);
    }
    set("worst_left_N", carried.reactions[left].most);
    set("worst_right_N", carried.reactions[right].most);
    set("least_left_N", carried.reactions[left].least);
    set("least_right_N", carried.reactions[right].least);
}

// A filled vessel is not lifted, whatever the sling holds.
tl::expected<void, Error> setSling(const Json& inputs, const Asked& asked, double water, Result& out)
{
    const auto angle = numberAt(inputs, "sling_angle");
    if (!angle) {
        return {};
    }
    if (water > 0) {
        return fail(Code::Impossible, "sling_angle", "an empty vessel", quantity::format(water, Dimension::Mass, UnitSystem::Si));
    }
    if (!(*angle >= std::numbers::pi / 6 * (1 - 1e-12) && *angle <= std::numbers::pi / 2 * (1 + 1e-12))) {
        return fail(Code::OutOfRange, "sling_angle", "30 deg to 90 deg", quantity::format(*angle, Dimension::Angle, UnitSystem::Si));
    }
    out.values.set("sling_leg_N", Json::real(water::slingLeg(asked.steel.mass, quantity::radians(*angle)).value()));
    return {};
}

tl::expected<void, Error> setFriction(const Json& inputs, const water::Carried& carried, Result& out)
{
    out.values.set("slides_at_friction", Json::real(carried.slidesBelowFriction));
    const auto friction = positive(inputs, "friction", Dimension::Number, {});
    if (!friction) {
        return tl::unexpected(friction.error());
    }
    if (*friction) {
        const bool stops = carried.slidesBelowFriction > **friction / kMargin;
        out.values.set("stops_needed", Json::boolean(stops));
        if (stops) {
            out.warnings.emplace_back(kStops);
        }
    }
    return {};
}

tl::expected<Result, Error> compute(const Json& inputs, const Reference&)
{
    Result out;
    const auto asked = read(inputs, out);
    if (!asked) {
        return tl::unexpected(asked.error());
    }
    const auto openings = readOpenings(inputs, asked->vessel.shell);
    if (!openings) {
        return tl::unexpected(openings.error());
    }
    const vessel::Shell& shell = asked->vessel.shell;
    const auto carried = water::carry(shell, asked->pose, asked->steel, asked->water, asked->level, asked->supports);
    if (!carried) {
        return tl::unexpected(supportError(carried.error()));
    }
    const quantity::Length lowest = water::lowestPoint(shell, asked->pose.pitch);
    const double volume = water::below(shell, asked->pose.pitch, asked->level).volume.value();
    const double water = volume * asked->water.value();
    if (const auto lifted = setSling(inputs, *asked, water, out); !lifted) {
        return tl::unexpected(lifted.error());
    }
    const auto set = [&](std::string_view key, double value) { out.values.set(std::string(key), Json::real(value)); };
    setSides(*asked, *carried, out);
    if (const auto supports = setSupports(inputs, *asked, *carried, out); !supports) {
        return tl::unexpected(supports.error());
    }
    if (const auto friction = setFriction(inputs, *carried, out); !friction) {
        return tl::unexpected(friction.error());
    }
    out.values.set("tips", Json::boolean(carried->tips));
    if (carried->tips) {
        out.warnings.emplace_back(kTips);
    }
    if (carried->tipsAt) {
        set("tips_from_depth_m", (*carried->tipsAt - lowest).value());
    }
    if (!carried->determinate) {
        out.warnings.emplace_back(kThree);
    }
    set("steel_mass_kg", asked->steel.mass.value());
    set("water_mass_kg", water);
    set("total_mass_kg", asked->steel.mass.value() + water);
    set("centre_from_left_tangent_m", carried->centre.value());
    set("bottom_pressure_Pa", water::headOver(asked->level, lowest, asked->water).value());
    if (*openings) {
        setOpenings(*asked, **openings, out);
    }
    set("ice_growth_m3", volume * water::kIceGrowth);
    if (const auto coldest = numberAt(inputs, "coldest"); coldest && *coldest < kFrostWarning && volume > 0) {
        out.warnings.emplace_back(kFrost);
    }
    if (const auto hottest = numberAt(inputs, "hottest")) {
        const auto grows = vessel::growth(shell.overallLength(), quantity::Temperature(293.15), quantity::Temperature(*hottest));
        if (grows) {
            set("grows_m", grows->value());
        } else {
            out.warnings.emplace_back(kGrowth);
        }
    }
    out.picture = longSection(shell, asked->pose, asked->level, *openings ? (*openings)->openings : std::vector<water::Opening>());
    addSupports(out.picture, shell, asked->pose, asked->supports);
    return out;
}

} // namespace

constinit const Figure kSupport{"support", 1, kInputs, kOutputs, kWarnings, compute};

} // namespace brimful::figure
