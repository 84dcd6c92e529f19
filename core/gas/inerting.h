// How little oxygen, or how little fuel, a vessel must hold so that no way from gas to air or back crosses what burns. Shares 0..1.
#pragma once

#include "core/gas/substances.h"

namespace brimful::gas {

// Which published limits a calculation rests on. Lowest is what decisions rest on: the lowest lower and the highest upper limit
// and the lowest limiting oxygen. The other two are one document's numbers, for comparing and drawing.
enum class Basis : std::uint8_t { Lowest, Nfpa, Iec };
[[nodiscard]] std::optional<FlammableRange> rangeOn(const Substance&, Basis);

// Oxygen of air in these formulas, as the textbook writes it; the diagram (diagram.h) uses 20.95 %.
constexpr double kTextbookAir = 0.21;

// Limiting oxygen estimated from stoichiometry: z times the lower limit. Below a measured one for most gases, far above it for
// gasoline (17.5 % against 12 %): never used alone. Crowl and Louvar, ch. 6 (memory).
[[nodiscard]] inline double estimatedLimitingOxygen(double oxygen_moles, double lower) { return oxygen_moles * lower; }

// NFPA 69 (2014) 7.2.3.1.2 for a value that was not measured by ASTM E2079: `less` (1.5 %, or the 2 % of its proposed amendment)
// off one of 10 % or more, 0.85 of one below.
[[nodiscard]] double adjustedLimitingOxygen(double published, double less = 0.015);

// The same with carbon dioxide: never below the adjusted one with nitrogen (proposed amendment to NFPA 69).
[[nodiscard]] double adjustedWithCarbonDioxide(double published, double adjusted_with_nitrogen, double less = 0.015);

// The lowest of z times the lower limit and every published value. Nothing when none is published, or when the substance burns
// without air: then oxygen must not be used to call a vessel inert.
[[nodiscard]] std::optional<double> limitingOxygen(const Substance&, double lower);

// Out of service: the most fuel in a vessel without oxygen from which adding air never crosses. In service: the most oxygen in a
// vessel without fuel from which adding fuel never crosses. Each has two forms; either alone is unsafe for some gas (the form by
// limiting oxygen for hydrogen, the form by lower limit for gasoline). Crowl and Louvar ch. 7 (memory), geometry derived anew:
// the line from air (from pure fuel) through the nose of the zone meets oxygen 0 (fuel 0). `air` is the oxygen share of air.
[[nodiscard]] double outOfServiceByLower(double lower, double oxygen_moles, double air = kTextbookAir);
[[nodiscard]] double outOfServiceByOxygen(double limiting_oxygen, double oxygen_moles, double air = kTextbookAir);
[[nodiscard]] double inServiceByLower(double lower, double oxygen_moles);
[[nodiscard]] double inServiceByOxygen(double limiting_oxygen, double oxygen_moles);

struct ServiceLimits {
    double limiting_oxygen{};
    double out_of_service{}; // the lower of its two forms
    double in_service{}; // the lower of its two forms
};
// Of one substance or of a mixture: mean moles of oxygen, lower limit of the mixture, lowest published limiting oxygen among its
// parts.
[[nodiscard]] ServiceLimits serviceLimits(double lower, double oxygen_moles, double published_limiting_oxygen);

} // namespace brimful::gas
