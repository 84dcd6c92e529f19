// The flammability diagram: what burns as an area over fuel and oxygen, and whether mixing leads through it. Shares 0..1; the
// rest is inert.
#pragma once

#include "core/gas/inerting.h"

#include <vector>

namespace brimful::gas {

constexpr double kAirOxygen = 0.2095; // dry air, by volume

struct State {
    double fuel{};
    double oxygen{};
};

constexpr State kAir{0.0, kAirOxygen};
constexpr State kInert{0.0, 0.0}; // nitrogen; carbon dioxide too, for which nitrogen's zone is the wider one

// Corners in order: lower limit in oxygen, lower limit in air, nose, upper limit in air, upper limit in oxygen.
struct Zone {
    std::vector<State> corners;
    bool reaches_oxygen{}; // false: limits in oxygen are not known, and above the air line the zone is cut straight up
};

// On one document's limits the nose stands at the tube's limiting oxygen; on the lowest basis at the lowest of everything
// (limitingOxygen). The nose is put on the stoichiometric line, an approximation: hydrogen's real one is leaner, for which the
// lowest basis makes up. Nothing when limits or limiting oxygen are not published, or the substance burns without air.
[[nodiscard]] std::optional<Zone> zoneOf(const Substance&, Basis);

[[nodiscard]] bool holds(const Zone&, State); // the edge belongs to it

struct Crossing {
    State enters;
    State leaves; // where the path ends when it ends inside
};
// Mixing moves a state on a straight line towards what is added. Touching counts as crossing.
[[nodiscard]] std::optional<Crossing> crossing(const Zone&, State from, State towards);

} // namespace brimful::gas
