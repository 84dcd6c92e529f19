// What a meter's display means, and how little residue brings a vessel to its lower limit.
#include "core/figure/check.h"
#include "core/figure/figures.h"
#include "core/figure/gas_inputs.h"
#include "core/gas/meter.h"
#include "core/gas/residue.h"
#include "core/gas/sampling.h"

#include <algorithm>
#include <array>

namespace brimful::figure {

namespace {

using canon::Json;

constexpr std::array kMeterInputs{
    Input{"display", InputKind::Quantity, Dimension::LimitShare, true},
    Input{.key = "sensor", .kind = InputKind::Choice, .required = true, .choices = kSensors},
    Input{.key = "calibrated_on", .kind = InputKind::Text}, Input{"response_factor", InputKind::Number},
    Input{"limit_basis", InputKind::Quantity, Dimension::VolumeShare}, Input{.key = "substance", .kind = InputKind::Text, .required = true},
    Input{"oxygen", InputKind::Quantity, Dimension::VolumeShare}, Input{.key = "hose", .kind = InputKind::Object, .inside = kHoseInputs},
    Input{"response", InputKind::Quantity, Dimension::Duration}, // of the meter, t90
    Input{"held", InputKind::Quantity, Dimension::Duration}, // for how long, before it was read; absent: not asked
};

constexpr std::array kMeterOutputs{
    Output{"believable", Dimension::Number, OutputKind::Flag}, Output{"why", Dimension::Number, OutputKind::List},
    Output{"percent_of_limit", Dimension::LimitShare}, Output{"percent_of_lowest_limit", Dimension::LimitShare},
    Output{"gas_percent", Dimension::VolumeShare}, Output{"gas_ppm", Dimension::VolumeShare}, Output{"hose_delay_s", Dimension::Duration},
    Output{"wait_s", Dimension::Duration}, // where a hose, a response or a time held is given
    Output{"hidden_gas_percent", Dimension::VolumeShare}, // of other gas that this oxygen still allows
};

constexpr std::array<std::string_view, 12> kDoubts{"no-oxygen-reading", "sensor-starved", "oxygen-low", "oxygen-high", "infrared-blind",
    "heavy-ends", "no-response-factor", "unknown-substance", "over-range", "negative", "sensor-poison", "limit-basis-too-low"};
constexpr std::string_view kHeldShort = "held-too-short";
constexpr auto kMeterWarnings = [] {
    std::array<std::string_view, kDoubts.size() + 3> all{};
    std::ranges::copy(kDoubts, all.begin());
    std::ranges::copy(std::array{kHeldShort, kDelayAssumed, kResponseAssumed}, all.begin() + kDoubts.size());
    return all;
}();

// What a number was read for: before the sample has come through the hose and the sensor has answered, it is of another place.
tl::expected<bool, Error> heldLongEnough(const Json& inputs, Result& out)
{
    const bool asked =
        std::ranges::any_of(std::array{"hose", "response", "held"}, [&](std::string_view key) { return inputs.find(key) != nullptr; });
    if (!asked) {
        return true;
    }
    const auto wait = waitOf(inputs, out);
    if (!wait) {
        return tl::unexpected(wait.error());
    }
    out.values.set("hose_delay_s", Json::real(wait->delay_s)).set("wait_s", Json::real(wait->atEach()));
    const auto held = numberAt(inputs, "held");
    if (held && *held < 0.0) {
        return fail(Code::OutOfRange, "held", "0 s or more", canon::write(Json::real(*held), false));
    }
    return !held || *held >= wait->atEach();
}

tl::expected<Result, Error> computeMeter(const Json& inputs, const Reference& reference)
{
    const auto substance = substanceOf(inputs, "substance", reference);
    if (!substance) {
        return tl::unexpected(substance.error());
    }
    const auto calibrated_on = substanceOf(inputs, "calibrated_on", reference);
    if (!calibrated_on) {
        return tl::unexpected(calibrated_on.error());
    }
    gas::Reading reading;
    reading.display = numberAt(inputs, "display", 0.0);
    reading.sensor = inputs.textOf("sensor") == "infrared" ? gas::Sensor::Infrared : gas::Sensor::Catalytic;
    reading.calibrated_on = *calibrated_on;
    reading.response_factor = numberAt(inputs, "response_factor");
    reading.limit_basis = numberAt(inputs, "limit_basis");
    // What is not known is named "unknown" in the table; it has no limits and nothing can be said of it.
    reading.substance = *substance != nullptr && (*substance)->molar_mass_kg_mol > 0.0 ? *substance : nullptr;
    reading.oxygen = numberAt(inputs, "oxygen");
    if (reading.response_factor && !(*reading.response_factor > 0.0)) {
        return fail(Code::OutOfRange, "response_factor", "above 0", std::to_string(*reading.response_factor));
    }
    if (reading.limit_basis && !(*reading.limit_basis > 0.0)) {
        return fail(Code::OutOfRange, "limit_basis", "above 0 %", std::to_string(*reading.limit_basis * 100.0));
    }
    const gas::Meaning meaning = gas::meaningOf(reading);
    Result out;
    Json why = Json::array();
    for (const gas::Doubt doubt : meaning.doubts) {
        const std::string_view word = kDoubts.at(static_cast<std::size_t>(doubt));
        why.items.emplace_back(word);
        out.warnings.emplace_back(word);
    }
    const auto long_enough = heldLongEnough(inputs, out);
    if (!long_enough) {
        return tl::unexpected(long_enough.error());
    }
    if (!*long_enough) {
        why.items.emplace_back(kHeldShort);
        out.warnings.emplace_back(kHeldShort);
    }
    out.values.set("believable", Json::boolean(meaning.believable() && *long_enough));
    out.values.set("why", std::move(why));
    if (meaning.of_basis) {
        out.values.set("percent_of_limit", Json::real(*meaning.of_basis * 100.0));
        out.values.set("percent_of_lowest_limit", Json::real(*meaning.of_lowest * 100.0));
        out.values.set("gas_percent", Json::real(*meaning.share * 100.0));
        out.values.set("gas_ppm", Json::real(*meaning.share * 1e6));
    } else if (meaning.believable()) {
        // A gas that does not burn has no limit: what the meter shows of it is nothing.
        out.values.set("percent_of_limit", Json::real(reading.display * 100.0));
        out.values.set("percent_of_lowest_limit", Json::real(reading.display * 100.0));
    }
    if (reading.oxygen) {
        out.values.set("hidden_gas_percent", Json::real(std::max(gas::hiddenGas(*reading.oxygen), 0.0) * 100.0));
    }
    return out;
}

constexpr std::array kResidueInputs{
    Input{.key = "substance", .kind = InputKind::Text, .required = true},
    Input{"volume", InputKind::Quantity, Dimension::Volume, true},
    Input{"temperature", InputKind::Quantity, Dimension::Temperature, true},
};
constexpr std::array kResidueOutputs{Output{"gas_kg", Dimension::Mass}, Output{"liquid_mL", Dimension::Volume}};
constexpr std::string_view kEven = "evenly-mixed-is-the-best-case";
constexpr std::string_view kNoDensity = "liquid-density-not-known";
constexpr std::string_view kLiquid = "liquid-may-stand-at-zero-pressure";
constexpr std::array kResidueWarnings{kEven, kNoDensity, kNoLimits, kLiquid};

tl::expected<Result, Error> computeResidue(const Json& inputs, const Reference& reference)
{
    const auto substance = substanceOf(inputs, "substance", reference);
    if (!substance) {
        return tl::unexpected(substance.error());
    }
    if (*substance == nullptr) {
        return fail(Code::UnknownSubstance, "substance");
    }
    const double volume = numberAt(inputs, "volume", 0.0);
    if (!(volume > 0.0)) {
        return fail(Code::OutOfRange, "volume", "above 0 m3", std::to_string(volume));
    }
    Result out;
    const quantity::Temperature temperature(numberAt(inputs, "temperature", 0.0));
    if (!(temperature.get() > 0.0)) {
        return fail(Code::OutOfRange, "temperature", "above 0 K", std::to_string(temperature.get()));
    }
    if (gas::liquidMayStand(**substance, temperature)) {
        out.warnings.emplace_back(kLiquid);
    }
    const auto residue = gas::residueToLimit(**substance, quantity::cubicMetres(volume), temperature);
    if (!residue) {
        out.warnings.emplace_back(kNoLimits);
        return out;
    }
    out.values.set("gas_kg", Json::real(residue->vapour.value()));
    if (residue->liquid.value() > 0.0) {
        out.values.set("liquid_mL", Json::real(residue->liquid.value() * 1e6));
    } else {
        out.warnings.emplace_back(kNoDensity);
    }
    out.warnings.emplace_back(kEven);
    return out;
}

} // namespace

constinit const Figure kMeter{"meter", 1, kMeterInputs, kMeterOutputs, kMeterWarnings, computeMeter};
constinit const Figure kResidue{"residue", 1, kResidueInputs, kResidueOutputs, kResidueWarnings, computeResidue};

} // namespace brimful::figure
