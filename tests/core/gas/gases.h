// Gases as the publications give them, typed again here so that a slip in the shipped file cannot hide behind itself.
// NFPA 497 (2008) and IEC 60079-20-1:2010; limiting oxygen: flammability tube and ASTM E2079-19.
#pragma once

#include "core/gas/substances.h"

#include <cmath>

namespace brimful::test {

inline gas::Substance propane()
{
    gas::Substance out;
    out.id = "propane";
    out.molar_mass_kg_mol = 0.04410;
    out.nfpa = gas::FlammableRange{0.021, 0.095};
    out.iec = gas::FlammableRange{0.017, 0.109};
    out.oxygen_moles = 5.0;
    out.limiting_oxygen_nitrogen = 0.115;
    out.limiting_oxygen_tested = 0.105;
    out.in_oxygen = gas::FlammableRange{0.023, 0.55};
    out.boiling_point_K = 230.95;
    out.liquid_density_kg_m3 = 504.0;
    out.routing = gas::Routing::Shop;
    return out;
}

inline gas::Substance butane()
{
    gas::Substance out;
    out.id = "n-butane";
    out.molar_mass_kg_mol = 0.05812;
    out.nfpa = gas::FlammableRange{0.019, 0.085};
    out.iec = gas::FlammableRange{0.014, 0.093};
    out.oxygen_moles = 6.5;
    out.limiting_oxygen_nitrogen = 0.12;
    out.in_oxygen = gas::FlammableRange{0.018, 0.49};
    out.boiling_point_K = 272.65;
    out.liquid_density_kg_m3 = 582.0;
    return out;
}

inline gas::Substance methane()
{
    gas::Substance out;
    out.id = "methane";
    out.molar_mass_kg_mol = 0.01604;
    out.nfpa = gas::FlammableRange{0.05, 0.15};
    out.iec = gas::FlammableRange{0.044, 0.17};
    out.oxygen_moles = 2.0;
    out.limiting_oxygen_nitrogen = 0.12;
    out.limiting_oxygen_tested = 0.107;
    out.in_oxygen = gas::FlammableRange{0.051, 0.61};
    return out;
}

inline gas::Substance hydrogen()
{
    gas::Substance out;
    out.id = "hydrogen";
    out.molar_mass_kg_mol = 0.002016;
    out.nfpa = gas::FlammableRange{0.04, 0.75};
    out.iec = gas::FlammableRange{0.04, 0.77};
    out.oxygen_moles = 0.5;
    out.limiting_oxygen_nitrogen = 0.05;
    out.limiting_oxygen_tested = 0.046;
    return out;
}

inline gas::Substance gasoline()
{
    gas::Substance out;
    out.id = "gasoline";
    out.molar_mass_kg_mol = 0.1;
    out.nfpa = gas::FlammableRange{0.014, 0.076};
    out.iec = gas::FlammableRange{0.014, 0.076};
    out.oxygen_moles = 12.5;
    out.limiting_oxygen_nitrogen = 0.12;
    out.liquid_density_kg_m3 = 740.0;
    return out;
}

// One with a name, limits and nothing else that matters here.
inline gas::Substance named(std::string id, double lower, double upper)
{
    gas::Substance out;
    out.id = std::move(id);
    out.molar_mass_kg_mol = 0.05;
    out.nfpa = gas::FlammableRange{lower, upper};
    return out;
}

// 500 US gallons.
constexpr double kFiveHundred = 1.892705892;

inline bool near(double got, double wanted, double tolerance) { return std::abs(got - wanted) <= tolerance; }

} // namespace brimful::test
