#include "core/gas/pool.h"

#include "core/gas/substances.h"

#include <cmath>

namespace brimful::gas {

double evaporation_kg_s(const Pool& pool)
{
    constexpr double kGasConstant = 8.314462618;
    const double speed = 0.0083 * std::cbrt(0.018 / pool.molar_mass_kg_mol);
    return pool.molar_mass_kg_mol * speed * pool.area.value() * pool.vapour_pressure.get().value() / (kGasConstant * pool.liquid.get());
}

quantity::VolumeFlow vapourFlow(const Pool& pool)
{
    return quantity::cubicMetres(evaporation_kg_s(pool) / pool.molar_mass_kg_mol * molarVolume(pool.liquid)) / quantity::seconds(1.0);
}

} // namespace brimful::gas
