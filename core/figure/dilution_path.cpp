// Whether mixing air or inert gas into a vessel leads through what burns, and where it goes in and comes out.
#include "core/figure/check.h"
#include "core/figure/figures.h"
#include "core/figure/gas_inputs.h"
#include "core/figure/gas_picture.h"

#include <array>

namespace brimful::figure {

namespace {

using canon::Json;

constexpr std::array<std::string_view, 3> kAdded{"air", "nitrogen", "carbon-dioxide"};
constexpr std::array kStart{
    Input{"fuel", InputKind::Quantity, Dimension::VolumeShare, true},
    Input{"oxygen", InputKind::Quantity, Dimension::VolumeShare, true},
};
constexpr std::array kInputs{
    Input{.key = "substance", .kind = InputKind::Text, .required = true},
    Input{.key = "start", .kind = InputKind::Object, .required = true, .inside = kStart},
    Input{.key = "with", .kind = InputKind::Choice, .required = true, .choices = kAdded}, kBasisInput,
    Input{.key = "picture", .kind = InputKind::Choice, .choices = kDiagrams}, // absent: rectangle
};
constexpr std::array kOutputs{
    Output{"crosses", Dimension::Number, OutputKind::Flag},
    Output{"starts_inside", Dimension::Number, OutputKind::Flag},
    Output{"enters", Dimension::VolumeShare, OutputKind::Object}, // fuel_percent, oxygen_percent
    Output{"leaves", Dimension::VolumeShare, OutputKind::Object},
};
constexpr std::string_view kUnknown = "unknown-substance";
constexpr std::string_view kNoOxygenAxis = "limits-in-oxygen-not-known";
constexpr std::array kWarnings{kNotStrictest, kNoLimits, kNoOxygenLimit, kBurnsWithoutAir, kUnknown, kNoOxygenAxis};

// A gas without a zone: nothing is known that would let a path with fuel in it pass.
Result withoutZone(Result out, const gas::Substance* substance, gas::State from)
{
    const bool inert = substance != nullptr && substance->molar_mass_kg_mol > 0.0 && !substance->flammable();
    if (inert) {
        out.warnings.emplace_back(kNoLimits);
    } else if (substance == nullptr || !substance->flammable()) {
        out.warnings.emplace_back(kUnknown);
    } else {
        out.warnings.emplace_back(substance->burnsWithoutAir() ? kBurnsWithoutAir : kNoOxygenLimit);
    }
    out.values.set("crosses", Json::boolean(!inert && from.fuel > 0.0));
    return out;
}

tl::expected<Result, Error> computePath(const Json& inputs, const Reference& reference)
{
    Result out;
    const auto substance = substanceOf(inputs, "substance", reference);
    if (!substance) {
        return tl::unexpected(substance.error());
    }
    const auto from = startOf(inputs);
    if (!from) {
        return tl::unexpected(from.error());
    }
    const gas::Basis basis = basisOf(inputs, out);
    const auto zone = *substance == nullptr ? std::nullopt : gas::zoneOf(**substance, basis);
    if (!zone) {
        return withoutZone(std::move(out), *substance, *from);
    }
    constexpr double kRounding = 1e-6;
    if (!zone->reaches_oxygen && from->oxygen > gas::kAirOxygen * (1.0 - from->fuel) + kRounding) {
        out.warnings.emplace_back(kNoOxygenAxis);
    }
    const gas::State towards = inputs.textOf("with") == "air" ? gas::kAir : gas::kInert;
    const auto crossing = gas::crossing(*zone, *from, towards);
    out.values.set("crosses", Json::boolean(crossing.has_value()));
    out.values.set("starts_inside", Json::boolean(gas::holds(*zone, *from)));
    const Diagram shape = diagramOf(inputs.textOf("picture"));
    drawDiagram(out, *substance, zone, shape);
    drawPath(out, *from, towards, crossing, shape);
    if (crossing) {
        out.values.set("enters", placeOf(crossing->enters));
        out.values.set("leaves", placeOf(crossing->leaves));
    }
    return out;
}

} // namespace

constinit const Figure kDilutionPath{"dilution-path", 2, kInputs, kOutputs, kWarnings, computePath};

} // namespace brimful::figure
