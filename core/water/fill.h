// Filling with water through open openings: where it spills, what stays under the shell, and the pose that leaves least.
// One body without baffles has one pocket: the level stops at the lowest open lip, or seals off when it covers the
// highest open mouth, whichever comes first. Domes, baffles and double walls are outside this.
#pragma once

#include "core/water/opening.h"

#include <optional>
#include <span>

namespace brimful::water {

using quantity::Mass;
using quantity::Volume;

enum class Pocket : std::uint8_t {
    None, // under 1 mL
    Vented, // the level is held down by a lower opening; an open mouth still stands in the gas
    Sealed // no open mouth reaches it: it can only be moved by water, or through a snorkel
};

struct Fill {
    std::size_t spills{}; // index of the opening where water leaves first, among those given
    Length level; // where the water stops, heights as in level.h
    Volume water;
    Volume trapped;
    Pocket pocket{Pocket::None};
};

enum class FillFault : std::uint8_t { NoOpenOpening };

// `open`: the mouths of the open openings only.
[[nodiscard]] tl::expected<Fill, FillFault> fill(const Shell&, const Pose&, std::span<const Mouth> open);

struct PoseLimits {
    Angle pitch; // most pitch either way; at most 3 degrees, larger is taken as 3
    Angle tolerance; // how far the levelling may be off in pitch
};

struct BestPose {
    Pose pose;
    Volume worst; // the most that stays trapped within the tolerance
    Volume atBest; // at the pose itself
};

// The pose of an empty vessel for which the worst pocket over the levelling tolerance is smallest; among equals the one
// nearest to level and to roll 0. Grid over roll and pitch, then a pattern search from the best of it.
[[nodiscard]] tl::expected<BestPose, FillFault> bestPose(const Shell&, std::span<const Mouth> open, const PoseLimits&);

// What a vessel that was full lacks when water and steel have cooled: the water keeps its mass (density.h), the steel shrinks
// by 3 x 1.2e-5 per kelvin (EN 1993-1-2, 3.4.1.1(2), simple; found). Below 0 when it warms: that much runs over. Nothing outside
// 0 to 40 degC.
[[nodiscard]] std::optional<Volume> lackAfterCooling(Volume water, quantity::Temperature from, quantity::Temperature to);

// The mass of gas that brings a pocket to its lower flammable limit, as an ideal gas at 101,325 Pa:
// share * p V / (R T) * molar mass (kg/mol); R = 8.314462618 J/(mol K), CODATA 2018.
[[nodiscard]] Mass gasToLimit(Volume pocket, quantity::VolumeShare lowerLimit, double molarMass, quantity::Temperature);

} // namespace brimful::water
