// How far inert gas has brought what a vessel held, by a meter that needs no oxygen: the reading in shares of the volume against the
// end point that `purge` plans for.
#include "core/figure/check.h"
#include "core/figure/figures.h"
#include "core/figure/gas_inputs.h"
#include "core/gas/airing.h"

namespace brimful::figure {

namespace {

using canon::Json;

constexpr std::array kInputs{
    Input{"fuel", InputKind::Quantity, Dimension::VolumeShare, true}, // as the meter shows it
    Input{.key = "sensor", .kind = InputKind::Choice, .required = true, .choices = kSensors},
    Input{.key = "calibrated_on", .kind = InputKind::Text}, // absent: not known
    Input{.key = "substance", .kind = InputKind::Text, .required = true},
};
constexpr std::array kOutputs{
    Output{"end_point_percent", Dimension::VolumeShare}, Output{"of_end_point_percent", Dimension::VolumeShare}, // 100 % or less: purged
};
constexpr std::string_view kStarved = "sensor-starved"; // it burns what it measures, and here is little to burn it with
constexpr std::string_view kOtherGas = "calibrated-on-another-gas"; // shares of the volume have no published factors between gases
constexpr std::array kWarnings{kStarved, kOtherGas, kNoLimits, kNoOxygenLimit};

tl::expected<Result, Error> compute(const Json& inputs, const Reference& reference)
{
    const auto substance = substanceOf(inputs, "substance", reference);
    if (!substance) {
        return tl::unexpected(substance.error());
    }
    const double fuel = numberAt(inputs, "fuel", 0.0);
    if (fuel < 0.0 || fuel > 1.0) {
        return fail(Code::OutOfRange, "fuel", "0 to 100 %", std::to_string(fuel * 100.0));
    }
    Result out;
    if (inputs.textOf("sensor") == "catalytic") {
        out.warnings.emplace_back(kStarved);
    }
    if (inputs.textOf("calibrated_on") != inputs.textOf("substance")) {
        out.warnings.emplace_back(kOtherGas);
    }
    if (*substance == nullptr || !(*substance)->flammable()) {
        out.warnings.emplace_back(kNoLimits);
        return out;
    }
    const auto end_point = gas::inertEndPoint(**substance);
    if (!end_point) {
        out.warnings.emplace_back(kNoOxygenLimit);
        return out;
    }
    out.values.set("end_point_percent", Json::real(*end_point * 100.0));
    out.values.set("of_end_point_percent", Json::real(fuel / *end_point * 100.0));
    return out;
}

} // namespace

constinit const Figure kInerted{"inerted", 1, kInputs, kOutputs, kWarnings, compute};

} // namespace brimful::figure
