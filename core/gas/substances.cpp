#include "core/gas/substances.h"

#include <algorithm>

namespace brimful::gas {

std::optional<double> Substance::lowestLimit() const
{
    const auto range = widestRange();
    return range ? std::optional(range->lower) : std::nullopt;
}

std::optional<double> Substance::highestLowerLimit() const
{
    if (nfpa && iec) {
        return std::max(nfpa->lower, iec->lower);
    }
    return lowestLimit();
}

std::optional<FlammableRange> Substance::widestRange() const
{
    if (nfpa && iec) {
        return FlammableRange{std::min(nfpa->lower, iec->lower), std::max(nfpa->upper, iec->upper)};
    }
    return nfpa ? nfpa : iec;
}

bool Substance::burnsWithoutAir() const
{
    const auto range = widestRange();
    return range && range->upper >= 1.0;
}

const Substance* SubstanceTable::find(std::string_view id) const
{
    const auto found = std::ranges::find(m_rows, id, &Substance::id);
    return found == m_rows.end() ? nullptr : &*found;
}

double molarVolume(quantity::Temperature temperature)
{
    constexpr double kGasConstant = 8.314462618;
    constexpr double kAtmosphere = 101'325.0;
    return kGasConstant * temperature.get() / kAtmosphere;
}

} // namespace brimful::gas
