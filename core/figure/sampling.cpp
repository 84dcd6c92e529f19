// Where and in which order to hold the probe in this vessel, and how long to wait at each place.
#include "core/figure/check.h"
#include "core/figure/figures.h"
#include "core/figure/gas_inputs.h"
#include "core/figure/picture.h"
#include "core/figure/vessel_inputs.h"
#include "core/gas/substances.h"
#include "core/water/level.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace brimful::figure {

namespace {

using canon::Json;
using quantity::metres;

constexpr std::string_view kTooLong = "round-longer-than-the-set";
constexpr std::string_view kHollows = "hollow-places-not-listed";
constexpr std::string_view kShut = "shut-openings-not-sampled";
constexpr std::string_view kGasUnknown = "order-for-a-gas-not-known";
constexpr std::array kWarnings{
    kDelayAssumed, kResponseAssumed, kTooLong, kHollows, kShut, kGasUnknown, kBoreAssumed, kProjectionAssumed, kStateAssumed};

constexpr std::array kHollowInputs{Input{.key = "name", .kind = InputKind::Text, .required = true}};

constexpr std::array kInputs{kVesselInput, kPoseInput, kOpeningsInput,
    Input{.key = "hose", .kind = InputKind::Object, .required = true, .inside = kHoseInputs},
    Input{.key = "hollows", .kind = InputKind::List, .inside = kHollowInputs}, // legs, pads, double heads: each is sampled
    Input{"contents_depth", InputKind::Quantity, Dimension::Length}, // of water: what lies below it is held just above it
    Input{.key = "substance", .kind = InputKind::Text}, Input{"response", InputKind::Quantity, Dimension::Duration}, // of the meter, t90
    Input{"within", InputKind::Quantity, Dimension::Duration}}; // the whole set; 20 min when absent

constexpr std::array kOutputs{
    Output{"hose_delay_s", Dimension::Duration},
    Output{"wait_s", Dimension::Duration}, // at each place
    Output{"count", Dimension::Number}, // with the first place again
    Output{"round_s", Dimension::Duration},
    Output{"fits", Dimension::Number, OutputKind::Flag},
    Output{"meters_needed", Dimension::Number}, // at once, with this hose
    Output{"hose_that_fits_m", Dimension::Length}, // the longest one that one meter manages; absent: none does
    Output{"first", Dimension::Number, OutputKind::Text}, // "low" or "high"
    Output{"places", Dimension::Number, OutputKind::List},
};

constexpr double kWithin = 1200.0; // s: proposal
// 29 CFR 1910.146, appendix B: about 4 ft apart in the direction of travel and to each side (found).
constexpr double kApart = 1.2192;
constexpr double kOffTheWall = 0.05; // m: proposal
constexpr double kAirMolarMass = 0.0289647; // kg/mol

struct Place {
    std::string name;
    std::string_view kind;
    std::optional<std::pair<double, double>> at; // along the axis and up from it, in the vessel's frame
};

// Both ends, and between them as many stations as keep them 4 ft apart; at each low, mid and high, or the other way round.
void addInside(const vessel::Shell& shell, bool low_first, std::vector<Place>& out)
{
    const double left = -shell.head(vessel::Side::Left).depth().value() / 2;
    const double right = shell.length().value() + shell.head(vessel::Side::Right).depth().value() / 2;
    const int spans = std::max(1, static_cast<int>(std::ceil((right - left) / kApart - 1e-9)));
    std::array<std::string_view, 3> levels{"low", "mid", "high"};
    if (!low_first) {
        std::ranges::reverse(levels);
    }
    for (int i = 0; i <= spans; ++i) {
        const double x = left + (right - left) * i / spans;
        const double reach = std::max(0.0, shell.radiusAt(metres(x)).value() - kOffTheWall);
        for (const std::string_view level : levels) {
            const double up = level == "low" ? -reach : level == "high" ? reach : 0.0;
            const std::string station = i == 0 ? "left" : i == spans ? "right" : "station " + std::to_string(i + 1);
            out.push_back({std::string(level) + ", " + station, "inside", std::pair(x, up)});
        }
    }
}

// By the vapour of what was in it, heavier or lighter than air; a mixture that was mixed does not part again, so all are asked.
bool lowFirst(const gas::Substance* substance, Result& out)
{
    if (substance == nullptr || !(substance->molar_mass_kg_mol > 0)) {
        out.warnings.emplace_back(kGasUnknown);
        return true;
    }
    return substance->molar_mass_kg_mol >= kAirMolarMass;
}

// Where a place is drawn: never under the water.
std::pair<double, double> shown(const std::pair<double, double>& at, double pitch, double radius, std::optional<double> level)
{
    double x = at.first * std::cos(pitch) - at.second * std::sin(pitch);
    double y = at.first * std::sin(pitch) + at.second * std::cos(pitch);
    if (level && y < *level + kOffTheWall) {
        y = std::min(*level + kOffTheWall, at.first * std::sin(pitch) + radius);
        x = at.first * std::cos(pitch);
    }
    return {x, y};
}

void draw(Result& out, int number, const std::pair<double, double>& at, double size)
{
    const auto [x, y] = at;
    out.picture.push_back({"place:" + std::to_string(number), true, {{x - size, y}, {x, y + size}, {x + size, y}, {x, y - size}}});
}

struct Round {
    std::vector<Place> places;
    Wait wait;
    double within{};
    [[nodiscard]] double count() const { return static_cast<double>(places.size()); }
};

void setTimes(const Json& inputs, const Round& round, Result& out)
{
    const auto set = [&](std::string_view key, double value) { out.values.set(std::string(key), Json::real(value)); };
    const double all = round.count() * round.wait.atEach();
    set("hose_delay_s", round.wait.delay_s);
    set("wait_s", round.wait.atEach());
    out.values.set("count", static_cast<int>(round.places.size()));
    set("round_s", all);
    out.values.set("fits", Json::boolean(all <= round.within));
    if (all > round.within) {
        out.warnings.emplace_back(kTooLong);
    }
    const double each = std::floor(round.within / round.wait.atEach()); // places that one meter manages
    if (each >= 1) {
        out.values.set("meters_needed", static_cast<int>(std::ceil(round.count() / each)));
    }
    const double per_metre = round.wait.delay_s / numberAt(*inputs.find("hose"), "length", 1.0);
    const double longest = (round.within / round.count() - round.wait.response_s) / kTwice / per_metre;
    if (longest > 0) {
        set("hose_that_fits_m", longest);
    }
}

void setPlaces(const Round& round, const vessel::Shell& shell, const vessel::Pose& pose, std::optional<double> level, Result& out)
{
    Json rows = Json::array();
    const double pitch = pose.pitch.value();
    const double radius = shell.insideDiameter().get().value() / 2;
    const double lowest = water::lowestPoint(shell, pose.pitch).value();
    int number = 0;
    for (const Place& place : round.places) {
        Json row = Json::object();
        row.set("order", ++number).set("name", place.name).set("kind", place.kind);
        if (place.at) {
            const auto at = shown(*place.at, pitch, radius, level);
            row.set("from_left_tangent_m", Json::real(place.at->first)).set("height_m", Json::real(at.second - lowest));
            draw(out, number, at, 0.05 * radius);
        }
        rows.items.push_back(std::move(row));
    }
    out.values.set("places", std::move(rows));
}

tl::expected<Result, Error> compute(const Json& inputs, const Reference& reference)
{
    const auto vessel = readVessel(inputs);
    const auto pose = vessel ? readPose(inputs) : tl::unexpected(vessel.error());
    if (!pose) {
        return tl::unexpected(pose.error());
    }
    const vessel::Shell& shell = vessel->shell;
    const auto openings = readOpenings(inputs, shell);
    if (!openings) {
        return tl::unexpected(openings.error());
    }
    const auto substance = substanceOf(inputs, "substance", reference);
    if (!substance) {
        return tl::unexpected(substance.error());
    }
    const auto level = readDepth(inputs, "contents_depth", shell, pose->pitch);
    if (!level) {
        return tl::unexpected(level.error());
    }
    Result out;
    Round round;
    const auto wait = waitOf(inputs, out);
    const auto within = wait ? positiveAt(inputs, "within", kWithin) : tl::unexpected(wait.error());
    if (!within) {
        return tl::unexpected(within.error());
    }
    round.wait = *wait;
    round.within = *within;
    const bool low_first = lowFirst(*substance, out);
    out.values.set("first", low_first ? "low" : "high");
    if (*openings) {
        for (const water::Opening& one : (*openings)->openings) {
            const auto point = water::wallPoint(shell, one.place);
            if (one.open && point) {
                const double up = point->radial * std::cos(one.place.clock.value() + pose->roll.value());
                round.places.push_back({one.name, "opening", std::pair(point->x, up)});
            } else if (!one.open && std::ranges::find(out.warnings, kShut) == out.warnings.end()) {
                out.warnings.emplace_back(kShut);
            }
        }
    }
    addInside(shell, low_first, round.places);
    if (const Json* const hollows = inputs.find("hollows"); hollows != nullptr) {
        for (const Json& one : hollows->items) {
            round.places.push_back({std::string(one.textOf("name")), "hollow", std::nullopt});
        }
    } else {
        out.warnings.emplace_back(kHollows);
    }
    Place again = round.places.front();
    again.kind = "again";
    round.places.push_back(again);
    setTimes(inputs, round, out);
    out.picture = longSection(shell, *pose, *level, *openings ? (*openings)->openings : std::vector<water::Opening>());
    setPlaces(round, shell, *pose, *level ? std::optional((*level)->value()) : std::nullopt, out);
    return out;
}

} // namespace

constinit const Figure kSampling{"sampling", 1, kInputs, kOutputs, kWarnings, compute};

} // namespace brimful::figure
