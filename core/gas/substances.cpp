#include "core/gas/substances.h"

#include <algorithm>

namespace brimful::gas {

std::optional<double> Substance::lowestLimit() const
{
    if (nfpa && iec) {
        return std::min(nfpa->lower, iec->lower);
    }
    return nfpa ? std::optional<double>(nfpa->lower) : iec ? std::optional<double>(iec->lower) : std::nullopt;
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
