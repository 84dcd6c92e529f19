// Flammable limits of mixtures, and estimates for gases nobody measured. Shares are 0..1.
#pragma once

#include <optional>
#include <span>

namespace brimful::gas {

struct Part {
    double share{}; // of the combustible alone; all parts together 1
    double limit{}; // its own limit in air
};

// Le Chatelier: 1 / sum(share / limit), for lower and upper limits alike. Good for the lower limit of alkanes, rougher for upper
// limits, poor for hydrogen, acetylene and ethylene oxide; gases that do not burn must not be among the parts. Nothing when a
// limit is not above 0, or the shares do not make 1 within a thousandth (they are then scaled to 1).
// Source: Crowl and Louvar, Chemical Process Safety, 2nd ed.
[[nodiscard]] std::optional<double> limitOfMixture(std::span<const Part>);

// sum(share / limit) with shares of the whole gas: 1 or more means at or above the lower limit.
[[nodiscard]] double flammabilityIndex(std::span<const Part>);

struct Estimate {
    double lower{};
    double upper{};
};

// Jones (1938) from the stoichiometric share of CmHxOy: 0.55 and 3.5 times 1 / (4.76 m + 1.19 x - 2.38 y + 1). The upper limit is
// far too high for light alkanes (propane 14.1 % against a measured 9.5 %). Never in place of a measured limit.
[[nodiscard]] Estimate estimateByFormula(double carbon, double hydrogen, double oxygen);

// Suzuki (1994) from the heat of combustion in MJ/mol, negative. Never in place of a measured limit.
[[nodiscard]] Estimate estimateByHeat(double combustion_MJ_mol);

} // namespace brimful::gas
