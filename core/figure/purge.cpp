// How much purge gas, how many cycles and how long; and whether what is left of a gas may meet air.
#include "core/gas/purge.h"

#include "core/figure/check.h"
#include "core/figure/figures.h"
#include "core/figure/gas_inputs.h"
#include "core/figure/gas_picture.h"
#include "core/gas/airing.h"

#include <array>
#include <cmath>

namespace brimful::figure {

namespace {

using canon::Json;

constexpr std::array<std::string_view, 4> kMethods{"sweep", "pressure", "vacuum", "siphon"};
constexpr std::array kInputs{
    Input{.key = "method", .kind = InputKind::Choice, .required = true, .choices = kMethods},
    Input{"volume", InputKind::Quantity, Dimension::Volume, true}, Input{"start", InputKind::Quantity, Dimension::VolumeShare, true},
    Input{"target", InputKind::Quantity, Dimension::VolumeShare, true},
    Input{"purge_gas_content", InputKind::Quantity, Dimension::VolumeShare}, // of what is purged, in the purge gas; absent: 0
    Input{"low_pressure", InputKind::Quantity, Dimension::Pressure}, // absent: one atmosphere; vacuum needs it
    Input{"high_pressure", InputKind::Quantity, Dimension::Pressure}, // absent: one atmosphere; pressure needs it
    Input{"temperature", InputKind::Quantity, Dimension::Temperature}, // absent: 20 degC
    Input{"flow", InputKind::Quantity, Dimension::VolumeFlow}, // of purge gas; absent: no time
    Input{"mixing_efficiency", InputKind::Number}, // sweep
    Input{"unfilled", InputKind::Quantity, Dimension::VolumeShare}, // siphon: what the liquid does not reach; absent: 0
    Input{"cylinder", InputKind::Quantity, Dimension::Volume}, // gas that one gives at one atmosphere; absent: not counted
    Input{.key = "substance", .kind = InputKind::Text}, // of which start and target are shares; absent: no way is told
    Input{"oxygen", InputKind::Quantity, Dimension::VolumeShare}, // at the start; absent: all that is not that substance is air
    Input{.key = "picture", .kind = InputKind::Choice, .choices = kDiagrams}, // absent: rectangle
};
constexpr std::array kOutputs{
    Output{"cycles"},
    Output{"exact_cycles"},
    Output{"volumes"},
    Output{"gas_m3", Dimension::Volume},
    Output{"gas_mol"},
    Output{"reached_percent", Dimension::VolumeShare},
    Output{"time_s", Dimension::Duration},
    Output{"cylinders"},
    Output{"end_point_percent", Dimension::VolumeShare}, // how far inert gas should bring it before air goes in
    Output{"purging_crosses", Dimension::Number, OutputKind::Flag}, // what burns, on the way to what is left
    Output{"opening_crosses", Dimension::Number, OutputKind::Flag}, // ... and when air goes in after that
    Output{"enters", Dimension::VolumeShare, OutputKind::Object}, // fuel_percent, oxygen_percent; of the opening if that crosses
    Output{"leaves", Dimension::VolumeShare, OutputKind::Object},
};
constexpr std::string_view kNoRating = "retired-vessel-has-no-pressure-rating";
constexpr std::string_view kFilledWhole = "unfilled-taken-as-0";
constexpr std::string_view kUnknown = "unknown-substance";
constexpr std::array kWarnings{kPerfectMixing, kNoRating, kFilledWhole, kUnknown, kNoLimits, kNoOxygenLimit, kBurnsWithoutAir};
constexpr double kAtmosphere = 101'325.0;

tl::expected<gas::Purged, Error> cyclesOf(const Json& inputs, gas::Shares shares, bool vacuum, Result& out)
{
    const std::string_view needed = vacuum ? "low_pressure" : "high_pressure";
    if (!numberAt(inputs, needed)) {
        return fail(Code::Missing, std::string(needed), "pressure");
    }
    const double low = numberAt(inputs, "low_pressure", kAtmosphere);
    const double high = numberAt(inputs, "high_pressure", kAtmosphere);
    if (!(low > 0.0)) {
        return fail(Code::OutOfRange, "low_pressure", "above 0 Pa, absolute", canon::write(Json::real(low), false));
    }
    if (!(high > low)) {
        return fail(Code::Conflicting, "high_pressure", "above low_pressure, both absolute", canon::write(Json::real(high), false));
    }
    out.warnings.emplace_back(kNoRating);
    return *gas::pressureCycles(
        shares, quantity::AbsolutePressure(quantity::pascals(low)), quantity::AbsolutePressure(quantity::pascals(high)));
}

tl::expected<gas::Purged, Error> purgedBy(const Json& inputs, gas::Shares shares, Result& out)
{
    const std::string_view method = inputs.textOf("method");
    if (method == "sweep") {
        const auto efficiency = efficiencyAt(inputs, out);
        return efficiency ? tl::expected<gas::Purged, Error>(*gas::sweep(shares, *efficiency)) : tl::unexpected(efficiency.error());
    }
    if (method == "siphon") {
        const auto unfilled = numberAt(inputs, "unfilled");
        if (!unfilled) {
            out.warnings.emplace_back(kFilledWhole);
        } else if (*unfilled < 0.0 || *unfilled >= 1.0) {
            return fail(Code::OutOfRange, "unfilled", "0 to below 100 %", canon::write(Json::real(*unfilled * 100.0), false));
        }
        return *gas::siphon(shares, unfilled.value_or(0.0));
    }
    return cyclesOf(inputs, shares, method == "vacuum", out);
}

tl::expected<gas::Shares, Error> sharesOf(const Json& inputs)
{
    const gas::Shares shares{numberAt(inputs, "start", 0.0), numberAt(inputs, "target", 0.0), numberAt(inputs, "purge_gas_content", 0.0)};
    for (const std::string_view key : {"start", "target", "purge_gas_content"}) {
        if (const double share = numberAt(inputs, key, 0.0); share < 0.0 || share > 1.0) {
            return fail(Code::OutOfRange, std::string(key), "0 to 100 %", canon::write(Json::real(share * 100.0), false));
        }
    }
    if (!(shares.target > shares.in_purge_gas)) {
        return fail(Code::Impossible, "target", "above purge_gas_content", canon::write(Json::real(shares.target * 100.0), false) + " %");
    }
    return shares;
}

struct Amount {
    double volume{};
    double kelvin{};
    std::optional<double> flow;
    std::optional<double> cylinder;
};

tl::expected<Amount, Error> amountOf(const Json& inputs)
{
    constexpr double kRoom = 293.15;
    const auto volume = positiveAt(inputs, "volume", 0.0);
    const auto kelvin = positiveAt(inputs, "temperature", kRoom);
    const auto flow = positiveAt(inputs, "flow", 1.0);
    const auto cylinder = positiveAt(inputs, "cylinder", 1.0);
    for (const auto* one : {&volume, &kelvin, &flow, &cylinder}) {
        if (!*one) {
            return tl::unexpected(one->error());
        }
    }
    return Amount{*volume, *kelvin, numberAt(inputs, "flow"), numberAt(inputs, "cylinder")};
}

// From the start to what is left, and from there to air: both straight lines, whatever the method.
struct Way {
    gas::State start;
    gas::State left;
};

tl::expected<Way, Error> wayOf(const Json& inputs, gas::Shares shares, double reached)
{
    const double oxygen = numberAt(inputs, "oxygen", gas::kAirOxygen * (1.0 - shares.start));
    constexpr double kRounding = 1e-9;
    if (oxygen < 0.0 || shares.start + oxygen > 1.0 + kRounding) {
        return fail(Code::OutOfRange, "oxygen", "with start at most 100 %", canon::write(Json::real(oxygen * 100.0), false));
    }
    const double excess = shares.start - shares.in_purge_gas;
    const double kept = excess > 0.0 ? (reached - shares.in_purge_gas) / excess : 1.0;
    return Way{{shares.start, oxygen}, {reached, oxygen * std::min(kept, 1.0)}};
}

// A gas without a zone: nothing is known that would let it pass.
void setUnknown(const gas::Substance* substance, const Way& way, Result& out)
{
    const bool named = substance != nullptr && substance->molar_mass_kg_mol > 0.0;
    const bool inert = named && !substance->flammable();
    out.warnings.emplace_back(inert ? kNoLimits : !named ? kUnknown : substance->burnsWithoutAir() ? kBurnsWithoutAir : kNoOxygenLimit);
    out.values.set("purging_crosses", Json::boolean(!inert && way.start.fuel > 0.0 && way.start.oxygen > 0.0));
    out.values.set("opening_crosses", Json::boolean(!inert && way.left.fuel > 0.0));
}

tl::expected<void, Error> setWay(const Json& inputs, const Reference& reference, gas::Shares shares, double reached, Result& out)
{
    if (inputs.find("substance") == nullptr) {
        return {};
    }
    const auto substance = substanceOf(inputs, "substance", reference);
    if (!substance) {
        return tl::unexpected(substance.error());
    }
    const auto way = wayOf(inputs, shares, reached);
    if (!way) {
        return tl::unexpected(way.error());
    }
    const auto zone = *substance == nullptr ? std::nullopt : gas::zoneOf(**substance, gas::Basis::Lowest);
    const Diagram shape = diagramOf(inputs.textOf("picture"));
    drawDiagram(out, *substance, zone, shape);
    const auto purging = zone ? gas::crossing(*zone, way->start, way->left) : std::nullopt;
    const auto opening = zone ? gas::crossing(*zone, way->left, gas::kAir) : std::nullopt;
    drawPath(out, way->left, gas::kAir, opening, shape);
    drawPath(out, way->start, way->left, purging, shape);
    drawNow(out, way->left, shape);
    if (!zone) {
        setUnknown(*substance, *way, out);
        return {};
    }
    if (const auto end_point = gas::inertEndPoint(**substance)) {
        out.values.set("end_point_percent", Json::real(*end_point * 100.0));
    }
    out.values.set("purging_crosses", Json::boolean(purging.has_value())).set("opening_crosses", Json::boolean(opening.has_value()));
    if (const auto& met = opening ? opening : purging) {
        out.values.set("enters", placeOf(met->enters)).set("leaves", placeOf(met->leaves));
    }
    return {};
}

tl::expected<Result, Error> computePurge(const Json& inputs, const Reference& reference)
{
    Result out;
    const auto amount = amountOf(inputs);
    if (!amount) {
        return tl::unexpected(amount.error());
    }
    const auto shares = sharesOf(inputs);
    if (!shares) {
        return tl::unexpected(shares.error());
    }
    const auto purged = purgedBy(inputs, *shares, out);
    if (!purged) {
        return tl::unexpected(purged.error());
    }
    const double cubic_metres = purged->volumes * amount->volume;
    if (inputs.textOf("method") != "sweep") {
        out.values.set("cycles", Json(purged->whole_cycles));
        out.values.set("exact_cycles", Json::real(purged->cycles));
    }
    out.values.set("volumes", Json::real(purged->volumes));
    out.values.set("gas_m3", Json::real(cubic_metres));
    out.values.set("gas_mol", Json::real(cubic_metres / gas::molarVolume(quantity::Temperature(amount->kelvin))));
    out.values.set("reached_percent", Json::real(purged->reached * 100.0));
    if (amount->flow) {
        out.values.set("time_s", Json::real(cubic_metres / *amount->flow));
    }
    if (amount->cylinder) {
        constexpr double kRounding = 1e-9;
        out.values.set("cylinders", Json(static_cast<std::int64_t>(std::ceil(cubic_metres / *amount->cylinder - kRounding))));
    }
    if (const auto told = setWay(inputs, reference, *shares, purged->reached, out); !told) {
        return tl::unexpected(told.error());
    }
    return out;
}

} // namespace

constinit const Figure kPurge{"purge", 1, kInputs, kOutputs, kWarnings, computePurge};

} // namespace brimful::figure
