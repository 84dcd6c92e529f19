// What a vessel weighs on its supports while it fills: reactions, tipping, sliding, bearing, pressure at its openings, ice.
// Statics of a rigid body on plain supports that touch the shell at its lowest line: vertical reactions whose sum is the
// weight and whose moments balance about the centre of gravity (any statics text). Saddle stresses are not looked at.
#pragma once

#include "core/vessel/shell.h"
#include "core/water/wall.h"

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

namespace brimful::water {

using quantity::Area;
using quantity::Density;
using quantity::Mass;
using quantity::Pressure;
using quantity::Volume;
using Force = quantity::Si<boost::units::si::force>; // N

// The steel as it stands empty, its centre on the axis.
struct Steel {
    Mass mass;
    Length centre; // from the left tangent line
};
// Plain shell and heads; of what is not plain (legs, fittings) only a scale knows.
[[nodiscard]] Steel plainSteel(const Shell&);

struct Reaction {
    Force now; // at the level asked for
    Force least; // over the whole fill from empty to the level asked for
    Force most;
};

struct Carried {
    // Two supports: statically determinate. Three: reactions depend on settlement, so `now` is the most that equilibrium
    // allows, `least` the least, over all ways of sharing the load.
    bool determinate{true};
    std::vector<Reaction> reactions; // in the order given
    Force weight; // at the level asked for
    Length centre; // of steel and water together, along the axis from the left tangent line
    bool tips{}; // at some moment of the fill the centre is outside the outermost supports
    std::optional<Length> tipsAt; // the lowest level at which it does; absent: empty already, or never
    double slidesBelowFriction{}; // tan of the pitch: with less friction than this it slides along its axis
};

enum class SupportFault : std::uint8_t {
    FewerThanTwo,
    MoreThanThree,
    SamePlace, // two supports closer than 1 mm
    OffTheShell, // beyond a tangent line: the heads have no line to stand on
    TooSteep // pitched beyond 30 degrees: nothing that rests on plain supports (proposal)
};

// `level` as in level.h. Supports by their distance from the left tangent line, in any order.
[[nodiscard]] tl::expected<Carried, SupportFault> carry(
    const Shell&, const Pose&, const Steel&, const Density& water, Length level, std::span<const Length> supports);

// Static pressure of the water over a place, and what it pushes on an area of the wall there; 0 above the level.
[[nodiscard]] Pressure headOver(Length level, Length place, const Density& water);

// Ice takes this much more room than the water at 0 degC that it came from: 999.8428 / 916.9 - 1 (densities found).
constexpr double kIceGrowth = 999.8428 / 916.9 - 1;

// Pull in each of two sling legs at an angle from the horizontal: W / (2 sin angle). Only ever for an empty vessel.
[[nodiscard]] Force slingLeg(Mass, Angle fromHorizontal);

} // namespace brimful::water
