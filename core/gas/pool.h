// Vapour from an open pool of liquid: no blower beats liquid that can be seen.
#pragma once

#include "core/quantity/quantity.h"

namespace brimful::gas {

struct Pool {
    quantity::Area area;
    double molar_mass_kg_mol{};
    quantity::AbsolutePressure vapour_pressure;
    quantity::Temperature liquid;
};

// kg/s: M K A p / (R T) with K = 0.83 (18 / M)^(1/3) cm/s (Crowl and Louvar ch. 3, memory), still air, below its boiling point.
[[nodiscard]] double evaporation_kg_s(const Pool&);

// The same as vapour volume at the liquid's temperature and one atmosphere.
[[nodiscard]] quantity::VolumeFlow vapourFlow(const Pool&);

} // namespace brimful::gas
