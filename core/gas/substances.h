// What a vessel may have held: flammability, mass, boiling point and who may work on it. Values as data; this room reads
// no files. Shares are 0..1 by volume; absent means not published, and an absent value never releases anything.
#pragma once

#include "core/quantity/quantity.h"

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace brimful::gas {

// Two published sets of limits differ enough to change an answer, so both are carried.
struct FlammableRange {
    double lower{}; // share
    double upper{};
};

enum class Routing : std::uint8_t { Shop, Specialist, Never };

struct Substance {
    std::string id;
    std::string cas;
    double molar_mass_kg_mol{}; // 0: not one substance
    std::optional<FlammableRange> nfpa; // NFPA 497 (2008)
    std::optional<FlammableRange> iec; // IEC 60079-20-1:2010
    std::optional<double> oxygen_moles; // mol O2 for each mol burnt
    // Limiting oxygen as published, shares; a substance with none of them may never be called inert by its oxygen.
    std::optional<double> limiting_oxygen_nitrogen; // flammability tube, nitrogen
    std::optional<double> limiting_oxygen_carbon_dioxide; // flammability tube, carbon dioxide
    std::optional<double> limiting_oxygen_tested; // ASTM E2079, nitrogen, the lower of the 20 L and the 120 L vessel
    std::optional<FlammableRange> in_oxygen; // limits in pure oxygen, from memory: only for drawing the zone above the air line
    std::optional<double> boiling_point_K;
    std::optional<double> liquid_density_kg_m3;
    double methane_response{}; // common catalytic factor relative to methane, for a hint only; 0: unknown
    bool heavy_ends{}; // hardly seen cold by any meter: the look and the wipe decide
    bool poisons_catalytic{}; // dulls a catalytic sensor for good: what it shows afterwards proves nothing
    Routing routing{Routing::Never};

    [[nodiscard]] bool flammable() const { return nfpa.has_value() || iec.has_value(); }
    // The lowest published lower limit: what every limit that this program computes rests on.
    [[nodiscard]] std::optional<double> lowestLimit() const;
    // The highest published lower limit: what a display means at most when nobody said which limit the meter was set up with.
    [[nodiscard]] std::optional<double> highestLowerLimit() const;
    // Lowest lower and highest upper limit together.
    [[nodiscard]] std::optional<FlammableRange> widestRange() const;
    // An upper limit of 100 % (acetylene, ethylene oxide): it burns or falls apart with no air at all, so nothing inerts it.
    [[nodiscard]] bool burnsWithoutAir() const;
};

class SubstanceTable {
public:
    explicit SubstanceTable(std::vector<Substance> rows)
        : m_rows(std::move(rows))
    {
    }

    [[nodiscard]] const Substance* find(std::string_view id) const;
    [[nodiscard]] std::span<const Substance> all() const { return m_rows; }

private:
    std::vector<Substance> m_rows;
};

// Ideal gas, R = 8.314462618 J/(mol K) (CODATA 2018), at 101,325 Pa.
[[nodiscard]] double molarVolume(quantity::Temperature);

} // namespace brimful::gas
