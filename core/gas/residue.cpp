#include "core/gas/residue.h"

namespace brimful::gas {

std::optional<Residue> residueToLimit(const Substance& substance, const quantity::Volume& volume, quantity::Temperature temperature)
{
    const auto limit = substance.lowestLimit();
    if (!limit || substance.molar_mass_kg_mol <= 0.0) {
        return std::nullopt;
    }
    const double kilograms = *limit * volume.value() * substance.molar_mass_kg_mol / molarVolume(temperature);
    const double liquid = substance.liquid_density_kg_m3 ? kilograms / *substance.liquid_density_kg_m3 : 0.0;
    return Residue{quantity::kilograms(kilograms), quantity::cubicMetres(liquid)};
}

bool liquidMayStand(const Substance& substance, quantity::Temperature coldest)
{
    return substance.boiling_point_K ? coldest.get() <= *substance.boiling_point_K : substance.flammable();
}

} // namespace brimful::gas
