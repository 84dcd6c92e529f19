#include "core/gas/mixture.h"

#include <cmath>

namespace brimful::gas {

std::optional<double> limitOfMixture(std::span<const Part> parts)
{
    constexpr double kSumsToOne = 1e-3;
    double sum = 0.0;
    double weighed = 0.0;
    for (const Part& part : parts) {
        if (!(part.limit > 0.0) || !(part.share >= 0.0)) {
            return std::nullopt;
        }
        sum += part.share;
        weighed += part.share / part.limit;
    }
    return std::abs(sum - 1.0) <= kSumsToOne ? std::optional(sum / weighed) : std::nullopt;
}

double flammabilityIndex(std::span<const Part> parts)
{
    double index = 0.0;
    for (const Part& part : parts) {
        index += part.share / part.limit;
    }
    return index;
}

Estimate estimateByFormula(double carbon, double hydrogen, double oxygen)
{
    const double stoichiometric = 1.0 / (4.76 * carbon + 1.19 * hydrogen - 2.38 * oxygen + 1.0);
    return {0.55 * stoichiometric, 3.5 * stoichiometric};
}

Estimate estimateByHeat(double combustion_MJ_mol)
{
    const double heat = combustion_MJ_mol;
    const double lower = -3.42 / heat + 0.569 * heat + 0.0538 * heat * heat + 1.80;
    const double upper = 6.3 * heat + 0.567 * heat * heat + 23.5;
    return {lower / 100.0, upper / 100.0};
}

} // namespace brimful::gas
