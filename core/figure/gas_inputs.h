// Inputs that the figures about gases share. Inside this room only.
#pragma once

#include "core/figure/figure.h"
#include "core/gas/diagram.h"
#include "core/gas/inerting.h"
#include "core/gas/ventilation.h"

#include <array>

namespace brimful::figure {

constexpr std::array<std::string_view, 2> kSensors{"catalytic", "infrared"}; // of a meter for gas

// Which published limits: lowest is what decisions rest on and what is taken when nothing is said.
constexpr std::array<std::string_view, 3> kBases{"lowest", "nfpa", "iec"};
constexpr Input kBasisInput{.key = "basis", .kind = InputKind::Choice, .choices = kBases};
constexpr std::string_view kNotStrictest = "not-the-strictest-basis"; // given with nfpa and iec
constexpr std::string_view kNoLimits = "no-flammable-limit";
constexpr std::string_view kNoOxygenLimit = "no-published-limiting-oxygen";
constexpr std::string_view kBurnsWithoutAir = "burns-without-air";
constexpr std::string_view kPerfectMixing = "perfect-mixing-assumed"; // no efficiency given

[[nodiscard]] gas::Basis basisOf(const canon::Json& inputs, Result& out); // adds the warning

// The row of that name; null when the key is absent or there is no table.
[[nodiscard]] tl::expected<const gas::Substance*, Error> substanceOf(
    const canon::Json& inputs, std::string_view key, const Reference&, const std::string& path = {});

// A quantity that must be above nothing; absent: `otherwise`.
[[nodiscard]] tl::expected<double, Error> positiveAt(const canon::Json& inputs, std::string_view key, double otherwise);

// Mixing efficiency, above 0 and at most 1: it multiplies the flow, and a mixing factor above 1 that divides would be read the
// wrong way round. Absent: 1, with the warning.
[[nodiscard]] tl::expected<double, Error> efficiencyAt(const canon::Json& inputs, Result& out);

// The mixture under "start": shares of fuel and oxygen, together at most 1.
[[nodiscard]] tl::expected<gas::State, Error> startOf(const canon::Json& inputs);

// Volume, flow, mixing efficiency and source of what is blown; m3 and m3/s.
[[nodiscard]] tl::expected<gas::Air, Error> airOf(const canon::Json& inputs, Result& out);

// The hose of a meter that draws its sample: with bore and pump its delay is computed, else it is 2 s a metre, with the warning.
inline constexpr std::array kHoseInputs{
    Input{"length", InputKind::Quantity, Dimension::Length, true},
    Input{"bore", InputKind::Quantity, Dimension::Length},
    Input{"pump", InputKind::Quantity, Dimension::VolumeFlow},
};
constexpr std::string_view kDelayAssumed = "hose-delay-taken-as-2-s-per-m";
constexpr std::string_view kResponseAssumed = "response-taken-as-60-s";
// Published hoses lie between 0.95 and 1.97 s a metre (found), a wide bore on a weak pump at 4.3 (computed); 2 s, taken twice, and
// the meter's own 60 s are proposals.
constexpr double kTwice = 2.0;
struct Wait {
    double delay_s{}; // of the hose alone
    double response_s{}; // of the meter until it shows nine tenths
    [[nodiscard]] double atEach() const { return kTwice * delay_s + response_s; } // place, before the number is read
};
// By "hose", where there is one, and "response"; absent: 60 s, with the warning.
[[nodiscard]] tl::expected<Wait, Error> waitOf(const canon::Json& inputs, Result& out);

[[nodiscard]] canon::Json placeOf(gas::State); // fuel_percent, oxygen_percent

} // namespace brimful::figure
