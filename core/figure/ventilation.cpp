// How long a blower takes, whether it ever gets there, and while it runs, when the inside burns.
#include "core/gas/ventilation.h"

#include "core/figure/check.h"
#include "core/figure/figures.h"
#include "core/figure/gas_inputs.h"
#include "core/figure/gas_picture.h"

#include <array>

namespace brimful::figure {

namespace {

using canon::Json;

constexpr std::array kInputs{
    Input{"volume", InputKind::Quantity, Dimension::Volume, true},
    Input{"flow", InputKind::Quantity, Dimension::VolumeFlow, true}, // fresh air
    Input{"mixing_efficiency", InputKind::Number},
    Input{"start", InputKind::Quantity, Dimension::VolumeShare, true},
    Input{"target", InputKind::Quantity, Dimension::VolumeShare, true},
    Input{"source", InputKind::Quantity, Dimension::VolumeFlow}, // vapour given off inside; absent: none
    Input{.key = "substance", .kind = InputKind::Text}, // for when it burns
    kBasisInput,
};
constexpr std::array kOutputs{
    Output{"time_s", Dimension::Duration}, Output{"air_changes"}, Output{"steady_percent", Dimension::VolumeShare},
    Output{"reachable", Dimension::Number, OutputKind::Flag}, Output{"flammable_from_s", Dimension::Duration},
    Output{"flammable_to_s", Dimension::Duration}, Output{"span_s", Dimension::Duration}, // of the picture
};
constexpr std::string_view kPlanning = "planning-estimate-test-decides"; // always
constexpr std::string_view kUnreachable = "target-never-reached";
constexpr std::string_view kStays = "stays-flammable";
constexpr std::string_view kUnknown = "unknown-substance";
constexpr std::array kWarnings{kPlanning, kPerfectMixing, kUnreachable, kStays, kNotStrictest, kNoLimits, kUnknown};

void setBurning(Result& out, const gas::Air& air, double start, const gas::Substance& substance, gas::Basis basis)
{
    const auto range = gas::rangeOn(substance, basis);
    if (!range) {
        const bool known = substance.flammable() || substance.molar_mass_kg_mol > 0.0;
        out.warnings.emplace_back(known ? kNoLimits : kUnknown);
        return;
    }
    const auto burning = gas::flammableWhile(air, start, *range);
    if (!burning) {
        return;
    }
    out.values.set("flammable_from_s", Json::real(burning->from.value()));
    if (burning->until) {
        out.values.set("flammable_to_s", Json::real(burning->until->value()));
    } else {
        out.warnings.emplace_back(kStays);
    }
}

struct Ends {
    double start{};
    double target{};
};

// A quarter beyond what it takes; to a target that is never reached, while the rest falls to a thousandth.
void draw(Result& out, const gas::Air& air, Ends ends, const std::optional<gas::FlammableRange>& range,
    const std::optional<quantity::Duration>& time)
{
    constexpr double kBeyond = 1.25;
    constexpr double kThousandth = 6.9077552790;
    const gas::Leg leg = gas::legOf(air, {ends.start, gas::kAirOxygen * (1.0 - ends.start)}, gas::kAir);
    const bool takes = time && time->value() > 0.0;
    const TimeAxes axes{takes ? kBeyond * time->value() : kThousandth / leg.per_second};
    out.values.set("span_s", Json::real(axes.span_s));
    drawAxes(out, axes);
    std::optional<gas::Burning> burning;
    if (range) {
        drawBand(out, axes, *range, 0.0);
        burning = gas::flammableWhile(air, ends.start, *range);
    }
    drawTarget(out, axes, ends.target);
    drawCurve(out, axes, leg, 0.0, burning);
}

tl::expected<Result, Error> computeVentilation(const Json& inputs, const Reference& reference)
{
    Result out;
    out.warnings.emplace_back(kPlanning);
    const auto air = airOf(inputs, out);
    if (!air) {
        return tl::unexpected(air.error());
    }
    const auto substance = substanceOf(inputs, "substance", reference);
    if (!substance) {
        return tl::unexpected(substance.error());
    }
    const double start = numberAt(inputs, "start", 0.0);
    const double target = numberAt(inputs, "target", 0.0);
    if (start < 0.0 || start > 1.0) {
        return fail(Code::OutOfRange, "start", "0 to 100 %", canon::write(Json::real(start * 100.0), false));
    }
    if (!(target > 0.0) || target > 1.0) {
        return fail(Code::OutOfRange, "target", "above 0, at most 100 %", canon::write(Json::real(target * 100.0), false));
    }
    const auto time = gas::timeToReach(*air, start, target);
    out.values.set("reachable", Json::boolean(time.has_value()));
    out.values.set("steady_percent", Json::real(gas::steadyShare(*air) * 100.0));
    if (time) {
        out.values.set("time_s", Json::real(time->value()));
        out.values.set("air_changes", Json::real(gas::airChanges(*air, *time)));
    } else {
        out.warnings.emplace_back(kUnreachable);
    }
    const gas::Basis basis = basisOf(inputs, out);
    if (*substance != nullptr) {
        setBurning(out, *air, start, **substance, basis);
    }
    draw(out, *air, {start, target}, *substance != nullptr ? gas::rangeOn(**substance, basis) : std::nullopt, time);
    return out;
}

} // namespace

constinit const Figure kVentilation{"ventilation", 2, kInputs, kOutputs, kWarnings, computeVentilation};

} // namespace brimful::figure
