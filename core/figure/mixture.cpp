// Limits of a mixture of gases that burn, and how little oxygen or fuel keeps it from ever burning.
#include "core/gas/mixture.h"
#include "core/figure/check.h"
#include "core/figure/figures.h"
#include "core/figure/gas_inputs.h"
#include "core/gas/warmth.h"

#include <algorithm>
#include <array>

namespace brimful::figure {

namespace {

using canon::Json;

constexpr std::array kGas{
    Input{.key = "substance", .kind = InputKind::Text, .required = true},
    Input{.key = "share", .kind = InputKind::Number, .dimension = Dimension::VolumeShare, .required = true}, // of what burns
};
constexpr std::array kInputs{
    Input{.key = "gases", .kind = InputKind::List, .required = true, .inside = kGas},
    Input{"temperature", InputKind::Quantity, Dimension::Temperature},
    kBasisInput,
};
constexpr std::array kOutputs{
    Output{"lower_limit_percent", Dimension::VolumeShare},
    Output{"upper_limit_percent", Dimension::VolumeShare},
    Output{"limiting_oxygen_percent", Dimension::VolumeShare},
    Output{"out_of_service_percent", Dimension::VolumeShare},
    Output{"in_service_percent", Dimension::VolumeShare},
};
constexpr std::string_view kRough = "mixing-rule-is-rough-for-this-gas";
constexpr std::string_view kHeat = "limits-widened-for-heat";
constexpr std::string_view kFarHeat = "temperature-beyond-what-was-measured";
constexpr std::array kWarnings{kNotStrictest, kNoOxygenLimit, kBurnsWithoutAir, kRough, kHeat, kFarHeat};

struct Whole {
    std::vector<gas::Part> lower;
    std::vector<gas::Part> upper;
    double oxygen_moles{};
    std::optional<double> limiting_oxygen{1.0}; // lowest published of all; none when one of them has none
    bool without_air{};
    bool rough{};
};

void addOxygen(Whole& whole, const gas::Substance& substance, double share)
{
    whole.without_air = whole.without_air || substance.burnsWithoutAir();
    whole.rough = whole.rough || substance.burnsWithoutAir() || substance.id == "hydrogen";
    whole.oxygen_moles += share * substance.oxygen_moles.value_or(0.0);
    const double tube = substance.limiting_oxygen_nitrogen.value_or(1.0);
    const double tested = substance.limiting_oxygen_tested.value_or(1.0);
    const bool none = !substance.oxygen_moles || std::min(tube, tested) >= 1.0 || substance.burnsWithoutAir();
    if (none || !whole.limiting_oxygen) {
        whole.limiting_oxygen.reset();
        return;
    }
    whole.limiting_oxygen = std::min({*whole.limiting_oxygen, tube, tested});
}

tl::expected<Whole, Error> readGases(const Json& inputs, const Reference& reference, gas::Basis basis)
{
    Whole whole;
    const std::vector<Json>& gases = inputs.find("gases")->items;
    for (std::size_t i = 0; i < gases.size(); ++i) {
        const std::string path = "gases[" + std::to_string(i) + "]";
        const auto substance = substanceOf(gases[i], "substance", reference, path);
        if (!substance) {
            return tl::unexpected(substance.error());
        }
        const auto range = *substance == nullptr ? std::nullopt : gas::rangeOn(**substance, basis);
        if (!range) {
            return fail(
                Code::Impossible, pathTo(path, "substance"), "a gas with published limits", std::string(gases[i].textOf("substance")));
        }
        const double share = numberAt(gases[i], "share", 0.0);
        if (!(share > 0.0) || share > 1.0) {
            return fail(Code::OutOfRange, pathTo(path, "share"), "above 0, at most 1", canon::write(Json::real(share), false));
        }
        whole.lower.push_back({share, range->lower});
        whole.upper.push_back({share, range->upper});
        addOxygen(whole, **substance, share);
    }
    whole.rough = whole.rough && gases.size() > 1;
    return whole;
}

tl::expected<gas::FlammableRange, Error> atTemperature(gas::FlammableRange range, const Json& inputs, Result& out)
{
    constexpr double kMeasuredTo = 373.15; // Kondo et al. (2011)
    const auto kelvin = numberAt(inputs, "temperature");
    if (!kelvin) {
        return range;
    }
    if (!(*kelvin > 0.0)) {
        return fail(Code::OutOfRange, "temperature", "above 0 K", canon::write(Json::real(*kelvin), false));
    }
    const gas::FlammableRange warm = gas::rangeAt(range, quantity::Temperature(*kelvin));
    if (warm.lower < range.lower) {
        out.warnings.emplace_back(kHeat);
    }
    if (*kelvin > kMeasuredTo) {
        out.warnings.emplace_back(kFarHeat);
    }
    return warm;
}

void setService(Result& out, const Whole& whole, double lower)
{
    if (whole.without_air) {
        out.warnings.emplace_back(kBurnsWithoutAir);
    } else if (!whole.limiting_oxygen) {
        out.warnings.emplace_back(kNoOxygenLimit);
    }
    if (!whole.limiting_oxygen) {
        return;
    }
    const gas::ServiceLimits limits = gas::serviceLimits(lower, whole.oxygen_moles, *whole.limiting_oxygen);
    out.values.set("limiting_oxygen_percent", Json::real(limits.limiting_oxygen * 100.0));
    out.values.set("out_of_service_percent", Json::real(limits.out_of_service * 100.0));
    out.values.set("in_service_percent", Json::real(limits.in_service * 100.0));
}

tl::expected<Result, Error> computeMixture(const Json& inputs, const Reference& reference)
{
    Result out;
    const gas::Basis basis = basisOf(inputs, out);
    const auto whole = readGases(inputs, reference, basis);
    if (!whole) {
        return tl::unexpected(whole.error());
    }
    const auto lower = gas::limitOfMixture(whole->lower);
    const auto upper = gas::limitOfMixture(whole->upper);
    if (!lower || !upper) {
        return fail(Code::Conflicting, "gases", "shares of what burns that make 1 together");
    }
    const auto range = atTemperature({*lower, *upper}, inputs, out);
    if (!range) {
        return tl::unexpected(range.error());
    }
    if (!(range->lower > 0.0)) {
        return fail(Code::OutOfRange, "temperature", "where a lower limit is left");
    }
    if (whole->rough) {
        out.warnings.emplace_back(kRough);
    }
    out.values.set("lower_limit_percent", Json::real(range->lower * 100.0));
    out.values.set("upper_limit_percent", Json::real(range->upper * 100.0));
    setService(out, *whole, range->lower);
    return out;
}

} // namespace

constinit const Figure kMixture{"mixture", 1, kInputs, kOutputs, kWarnings, computeMixture};

} // namespace brimful::figure
