#include "core/gas/inerting.h"

#include <algorithm>

namespace brimful::gas {

std::optional<FlammableRange> rangeOn(const Substance& substance, Basis basis)
{
    switch (basis) {
    case Basis::Lowest:
        return substance.widestRange();
    case Basis::Nfpa:
        return substance.nfpa;
    case Basis::Iec:
        return substance.iec;
    }
    return std::nullopt;
}

double adjustedLimitingOxygen(double published, double less) { return published >= 0.10 ? published - less : 0.85 * published; }

double adjustedWithCarbonDioxide(double published, double adjusted_with_nitrogen, double less)
{
    return std::max(adjustedLimitingOxygen(published, less), adjusted_with_nitrogen);
}

std::optional<double> limitingOxygen(const Substance& substance, double lower)
{
    std::optional<double> published = substance.limiting_oxygen_nitrogen;
    if (substance.limiting_oxygen_tested) {
        published = std::min(published.value_or(1.0), *substance.limiting_oxygen_tested);
    }
    if (!published || !substance.oxygen_moles || substance.burnsWithoutAir()) {
        return std::nullopt;
    }
    return std::min(*published, estimatedLimitingOxygen(*substance.oxygen_moles, lower));
}

// Where z * lower reaches the oxygen of air the line runs level: any fuel at all is then out of service, which is no limit.
double outOfServiceByLower(double lower, double oxygen_moles, double air)
{
    const double rest = 1.0 - oxygen_moles * lower / air;
    return rest > 0.0 ? std::min(lower / rest, 1.0) : 1.0;
}

double outOfServiceByOxygen(double limiting_oxygen, double oxygen_moles, double air)
{
    const double rest = 1.0 - limiting_oxygen / air;
    return rest > 0.0 ? std::min(limiting_oxygen / (oxygen_moles * rest), 1.0) : 1.0;
}

double inServiceByLower(double lower, double oxygen_moles) { return oxygen_moles * lower / (1.0 - lower); }

double inServiceByOxygen(double limiting_oxygen, double oxygen_moles)
{
    return oxygen_moles * limiting_oxygen / (oxygen_moles - limiting_oxygen);
}

ServiceLimits serviceLimits(double lower, double oxygen_moles, double published_limiting_oxygen)
{
    return {std::min(estimatedLimitingOxygen(oxygen_moles, lower), published_limiting_oxygen),
        std::min(outOfServiceByLower(lower, oxygen_moles), outOfServiceByOxygen(published_limiting_oxygen, oxygen_moles)),
        std::min(inServiceByLower(lower, oxygen_moles), inServiceByOxygen(published_limiting_oxygen, oxygen_moles))};
}

} // namespace brimful::gas
