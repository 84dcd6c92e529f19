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
    std::optional<double> limiting_oxygen_nitrogen; // share, tube value
    std::optional<double> boiling_point_K;
    std::optional<double> liquid_density_kg_m3;
    double methane_response{}; // common catalytic factor relative to methane, for a hint only; 0: unknown
    bool heavy_ends{}; // hardly seen cold by any meter: the look and the wipe decide
    Routing routing{Routing::Never};

    [[nodiscard]] bool flammable() const { return nfpa.has_value() || iec.has_value(); }
    // The lowest published lower limit: what every limit that this program computes rests on.
    [[nodiscard]] std::optional<double> lowestLimit() const;
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
