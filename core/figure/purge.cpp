// How much purge gas, how many cycles and how long.
#include "core/gas/purge.h"

#include "core/figure/check.h"
#include "core/figure/figures.h"
#include "core/figure/gas_inputs.h"

#include <array>

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
};
constexpr std::array kOutputs{
    Output{"cycles"},
    Output{"exact_cycles"},
    Output{"volumes"},
    Output{"gas_m3", Dimension::Volume},
    Output{"gas_mol"},
    Output{"reached_percent", Dimension::VolumeShare},
    Output{"time_s", Dimension::Duration},
};
constexpr std::string_view kNoRating = "retired-vessel-has-no-pressure-rating";
constexpr std::string_view kFilledWhole = "unfilled-taken-as-0";
constexpr std::array kWarnings{kPerfectMixing, kNoRating, kFilledWhole};
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
};

tl::expected<Amount, Error> amountOf(const Json& inputs)
{
    constexpr double kRoom = 293.15;
    const auto volume = positiveAt(inputs, "volume", 0.0);
    const auto kelvin = positiveAt(inputs, "temperature", kRoom);
    const auto flow = positiveAt(inputs, "flow", 1.0);
    for (const auto* one : {&volume, &kelvin, &flow}) {
        if (!*one) {
            return tl::unexpected(one->error());
        }
    }
    return Amount{*volume, *kelvin, numberAt(inputs, "flow")};
}

tl::expected<Result, Error> computePurge(const Json& inputs, const Reference&)
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
    return out;
}

} // namespace

constinit const Figure kPurge{"purge", 1, kInputs, kOutputs, kWarnings, computePurge};

} // namespace brimful::figure
