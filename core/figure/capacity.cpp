// What a vessel holds, what it weighs, and whether its plate fits.
#include "core/figure/check.h"
#include "core/figure/figures.h"
#include "core/figure/picture.h"
#include "core/figure/vessel_inputs.h"
#include "core/quantity/format.h"
#include "core/vessel/measured.h"
#include "core/vessel/plate.h"

#include <cmath>

namespace brimful::figure {

namespace {

using canon::Json;

constexpr std::array kInputs{kVesselInput, Input{"empty_mass", InputKind::Quantity, Dimension::Mass}, // on a scale
    Input{"tape_over_tips", InputKind::Quantity, Dimension::Length}}; // over the top line from tip to tip, on the outside

constexpr std::array kOutputs{
    Output{"capacity_m3", Dimension::Volume},
    Output{"shell_m3", Dimension::Volume},
    Output{"left_head_m3", Dimension::Volume},
    Output{"right_head_m3", Dimension::Volume},
    Output{"inside_area_m2", Dimension::Area},
    Output{"inside_diameter_m", Dimension::Length},
    Output{"outside_diameter_m", Dimension::Length},
    Output{"shell_length_m", Dimension::Length},
    Output{"overall_length_m", Dimension::Length},
    Output{"left_head_depth_m", Dimension::Length},
    Output{"right_head_depth_m", Dimension::Length},
    Output{"steel_mass_kg", Dimension::Mass},
    Output{"stamped_m3", Dimension::Volume},
    Output{"ratio", Dimension::Number},
    Output{"least_m3", Dimension::Volume},
    Output{"most_m3", Dimension::Volume},
    Output{"verdict", Dimension::Number, OutputKind::Text},
    Output{"wall_from_mass_m", Dimension::Length},
    Output{"head_by_tape", Dimension::Number, OutputKind::Text},
    Output{"head_by_tape_off_m", Dimension::Length},
};

constexpr std::string_view kLitres = "stamp-fits-as-litres";
constexpr std::string_view kImperial = "stamp-fits-as-imperial-gallons";
constexpr std::string_view kPounds = "stamp-fits-as-pounds-of-water";
constexpr std::string_view kEighty = "stamp-fits-as-an-80-percent-fill";
constexpr std::string_view kWallMass = "wall-does-not-fit-the-mass";
constexpr std::string_view kHeadTape = "tape-says-another-head";
constexpr std::string_view kNoHead = "tape-fits-no-head";
constexpr std::array kWarnings{kLitres, kImperial, kPounds, kEighty, kWallMass, kHeadTape, kNoHead};

constexpr double kWallApart = 0.0015875; // m, 1/16 in: proposal
constexpr double kTapeApart = 0.02; // of the diameter; 2:1 and torispherical lie 0.055 apart: proposal

std::string_view word(vessel::Verdict verdict)
{
    switch (verdict) {
    case vessel::Verdict::Agrees:
        return "agrees";
    case vessel::Verdict::Suspect:
        return "suspect";
    case vessel::Verdict::Mismatch:
        return "mismatch";
    }
    return {};
}

std::string_view word(vessel::Slip slip)
{
    switch (slip) {
    case vessel::Slip::Litres:
        return kLitres;
    case vessel::Slip::ImperialGallons:
        return kImperial;
    case vessel::Slip::PoundsOfWater:
        return kPounds;
    case vessel::Slip::EightyPercentFill:
        return kEighty;
    }
    return {};
}

// The wall that the scale speaks of; legs and fittings on it make that too thick.
tl::expected<void, Error> weigh(const Json& inputs, const VesselRead& read, Result& out)
{
    const auto mass = positive(inputs, "empty_mass", Dimension::Mass, {});
    if (!mass) {
        return tl::unexpected(mass.error());
    }
    if (!*mass) {
        return {};
    }
    const auto wall = vessel::wallFromMass(read.size, quantity::kilograms(**mass));
    if (!wall) {
        return fail(Code::Impossible, "empty_mass", "what such a vessel can weigh",
            quantity::format(**mass, Dimension::Mass, quantity::UnitSystem::Si));
    }
    out.values.set("wall_from_mass_m", Json::real(wall->value()));
    if (read.wallGiven && std::abs((*wall - read.size.wall).value()) > kWallApart) {
        out.warnings.emplace_back(kWallMass);
    }
    return {};
}

// Which head the tape over the tips speaks of.
tl::expected<void, Error> tape(const Json& inputs, const VesselRead& read, Result& out)
{
    const auto over = positive(inputs, "tape_over_tips", Dimension::Length, {});
    if (!over) {
        return tl::unexpected(over.error());
    }
    if (!*over) {
        return {};
    }
    if (!read.wallGiven) {
        return fail(Code::Missing, "vessel.wall", "length");
    }
    const vessel::Shell& shell = read.shell;
    const auto guesses =
        vessel::headsByTape(shell.outsideDiameter(), shell.wall(), quantity::metres(**over), vessel::OverallLength(shell.overallLength()));
    const vessel::HeadGuess& best = guesses.front();
    if (!(std::abs(best.off.value()) <= kTapeApart * shell.outsideDiameter().get().value())) {
        out.warnings.emplace_back(kNoHead);
        return {};
    }
    // In the order of kHeads.
    out.values.set("head_by_tape", kHeads.at(static_cast<std::size_t>(best.kind)));
    out.values.set("head_by_tape_off_m", Json::real(best.off.value()));
    if (best.kind != read.size.left.kind || best.kind != read.size.right.kind) {
        out.warnings.emplace_back(kHeadTape);
    }
    return {};
}

tl::expected<Result, Error> compute(const Json& inputs, const Reference&)
{
    const auto read = readVessel(inputs);
    if (!read) {
        return tl::unexpected(read.error());
    }
    const vessel::Shell& shell = read->shell;
    const vessel::Head& left = shell.head(vessel::Side::Left);
    const vessel::Head& right = shell.head(vessel::Side::Right);
    Result out;
    const auto set = [&](std::string_view key, double value) { out.values.set(std::string(key), Json::real(value)); };
    set("capacity_m3", shell.capacity().value());
    set("shell_m3", shell.shellCapacity().value());
    set("left_head_m3", left.capacity().value());
    set("right_head_m3", right.capacity().value());
    set("inside_area_m2", shell.insideArea().value());
    set("inside_diameter_m", shell.insideDiameter().get().value());
    set("shell_length_m", shell.length().value());
    set("left_head_depth_m", left.depth().value());
    set("right_head_depth_m", right.depth().value());
    if (read->wallGiven) {
        set("outside_diameter_m", shell.outsideDiameter().get().value());
        set("overall_length_m", shell.overallLength().value());
        set("steel_mass_kg", shell.steelMass().value());
    }
    if (read->stamped) {
        const auto plate = vessel::checkPlate(read->size, *read->stamped);
        if (!plate) {
            return tl::unexpected(sizeError(*inputs.find("vessel"), plate.error()));
        }
        set("stamped_m3", read->stamped->value());
        set("ratio", plate->ratio);
        set("least_m3", plate->low.value());
        set("most_m3", plate->high.value());
        out.values.set("verdict", word(plate->verdict));
        for (const vessel::Slip slip : plate->slips) {
            out.warnings.emplace_back(word(slip));
        }
    }
    if (const auto weighed = weigh(inputs, *read, out); !weighed) {
        return tl::unexpected(weighed.error());
    }
    if (const auto taped = tape(inputs, *read, out); !taped) {
        return tl::unexpected(taped.error());
    }
    out.picture = longSection(shell, {}, std::nullopt, {});
    return out;
}

} // namespace

constinit const Figure kCapacity{"capacity", 1, kInputs, kOutputs, kWarnings, compute};

} // namespace brimful::figure
