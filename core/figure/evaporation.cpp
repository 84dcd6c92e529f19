// How much vapour an open pool of liquid gives, and what that is to a blower. No blower beats liquid that can be seen.
#include "core/figure/check.h"
#include "core/figure/figures.h"
#include "core/figure/gas_inputs.h"
#include "core/gas/pool.h"
#include "core/gas/ventilation.h"

#include <algorithm>
#include <array>

namespace brimful::figure {

namespace {

using canon::Json;

constexpr std::array kInputs{
    Input{.key = "substance", .kind = InputKind::Text, .required = true},
    Input{"area", InputKind::Quantity, Dimension::Area, true}, // of the liquid's surface
    Input{"vapour_pressure", InputKind::Quantity, Dimension::Pressure, true}, // of the liquid at its temperature
    Input{"temperature", InputKind::Quantity, Dimension::Temperature, true}, // of the liquid
    Input{"flow", InputKind::Quantity, Dimension::VolumeFlow}, // fresh air; absent: nothing is said of a blower
    Input{"mixing_efficiency", InputKind::Number},
    kBasisInput,
};
constexpr std::array kOutputs{
    Output{"gas_kg_s"}, Output{"gas_m3_s", Dimension::VolumeFlow},
    Output{"saturated_percent", Dimension::VolumeShare}, // what still air over it comes to
    Output{"lower_limit_percent", Dimension::VolumeShare},
    Output{"steady_percent", Dimension::VolumeShare}, // with the blower, at most what still air comes to
    Output{"blower_m3_s", Dimension::VolumeFlow}, // fresh air that keeps the mean at a tenth of the lower limit
};
constexpr std::string_view kRemove = "take-the-liquid-out"; // always
constexpr std::string_view kNotFlammableCold = "cold-test-passes-hot-metal-does-not";
constexpr std::string_view kBurns = "stays-flammable";
constexpr std::array kWarnings{kRemove, kPerfectMixing, kNotFlammableCold, kBurns, kNotStrictest, kNoLimits};

constexpr double kAtmosphere = 101'325.0;
constexpr double kTenth = 0.1; // of the lower limit

tl::expected<gas::Pool, Error> poolOf(const Json& inputs, const gas::Substance& substance)
{
    const auto area = positiveAt(inputs, "area", 0.0);
    const auto pressure = positiveAt(inputs, "vapour_pressure", 0.0);
    const auto kelvin = positiveAt(inputs, "temperature", 0.0);
    for (const auto* one : {&area, &pressure, &kelvin}) {
        if (!*one) {
            return tl::unexpected(one->error());
        }
    }
    if (*pressure >= kAtmosphere) {
        return fail(Code::Impossible, "vapour_pressure", "below one atmosphere: above it the liquid boils off, ask residue",
            canon::write(Json::real(*pressure), false) + " Pa");
    }
    return gas::Pool{quantity::squareMetres(*area), substance.molar_mass_kg_mol, quantity::AbsolutePressure(quantity::pascals(*pressure)),
        quantity::Temperature(*kelvin)};
}

tl::expected<void, Error> setBlower(
    Result& out, const Json& inputs, double source, double saturated, const std::optional<gas::FlammableRange>& range)
{
    if (!numberAt(inputs, "flow")) {
        return {};
    }
    const auto flow = positiveAt(inputs, "flow", 0.0);
    const auto efficiency = efficiencyAt(inputs, out);
    for (const auto* one : {&flow, &efficiency}) {
        if (!*one) {
            return tl::unexpected(one->error());
        }
    }
    const double steady = std::min(source / (*flow * *efficiency), saturated);
    out.values.set("steady_percent", Json::real(steady * 100.0));
    if (range) {
        out.values.set("blower_m3_s", Json::real(source / (*efficiency * kTenth * range->lower)));
        if (steady >= range->lower && steady <= range->upper) {
            out.warnings.emplace_back(kBurns);
        }
    }
    return {};
}

tl::expected<Result, Error> computeEvaporation(const Json& inputs, const Reference& reference)
{
    Result out;
    out.warnings.emplace_back(kRemove);
    const auto substance = substanceOf(inputs, "substance", reference);
    if (!substance) {
        return tl::unexpected(substance.error());
    }
    if (*substance == nullptr || !((*substance)->molar_mass_kg_mol > 0.0)) {
        return fail(Code::Impossible, "substance", "a substance with a molar mass", std::string(inputs.textOf("substance")));
    }
    const auto pool = poolOf(inputs, **substance);
    if (!pool) {
        return tl::unexpected(pool.error());
    }
    const auto range = gas::rangeOn(**substance, basisOf(inputs, out));
    const double saturated = pool->vapour_pressure.get().value() / kAtmosphere;
    const double source = gas::vapourFlow(*pool).value();
    out.values.set("gas_kg_s", Json::real(gas::evaporation_kg_s(*pool)));
    out.values.set("gas_m3_s", Json::real(source));
    out.values.set("saturated_percent", Json::real(saturated * 100.0));
    if (!range) {
        out.warnings.emplace_back(kNoLimits);
    } else {
        out.values.set("lower_limit_percent", Json::real(range->lower * 100.0));
        if (saturated < range->lower) {
            out.warnings.emplace_back(kNotFlammableCold);
        }
    }
    if (const auto blown = setBlower(out, inputs, source, saturated, range); !blown) {
        return tl::unexpected(blown.error());
    }
    return out;
}

} // namespace

constinit const Figure kEvaporation{"evaporation", 1, kInputs, kOutputs, kWarnings, computeEvaporation};

} // namespace brimful::figure
