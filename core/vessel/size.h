// What was measured of a vessel, as it was measured: three diameters and two lengths that never stand for one another.
#pragma once

#include "core/quantity/quantity.h"

#include <cstdint>
#include <optional>
#include <variant>

namespace brimful::vessel {

using quantity::Angle;
using quantity::Area;
using quantity::InsideDiameter;
using quantity::Length;
using quantity::Mass;
using quantity::OutsideDiameter;
using quantity::Volume;

using Girth = quantity::Named<Length, struct GirthTag>; // tape around the outside; outside diameter = girth / pi
using OverallLength = quantity::Named<Length, struct OverallTag>; // outside, tip to tip
using ShellLength = quantity::Named<Length, struct ShellTag>; // tangent line to tangent line, straight flanges included

enum class HeadKind : std::uint8_t { Hemispherical, Ellipsoidal, Torispherical, Flat, Conical };

// The two ends of a horizontal vessel, as one stands before it: x runs from the left tangent line to the right.
enum class Side : std::uint8_t { Left, Right };

struct HeadSize {
    HeadKind kind{HeadKind::Hemispherical};
    double crownRatio{1.0}; // of a torispherical head: crown radius / inside diameter, > 0.5
    double knuckleRatio{0.06}; // of a torispherical head: knuckle radius / inside diameter, 0..0.5 (0: a plain dish)
    std::optional<Length> depth; // inside; needed for a cone; of an ellipsoidal head absent means a quarter diameter, "2:1"
};

struct Size {
    std::variant<OutsideDiameter, InsideDiameter, Girth> around;
    Length wall; // of shell and heads; 0 means that outside and inside are one
    std::variant<OverallLength, ShellLength> along;
    HeadSize left;
    HeadSize right;
};

// How the vessel lies. Pitch raises the right end (-90..90 deg); roll turns clockwise seen from the left end.
struct Pose {
    Angle pitch;
    Angle roll;
};

enum class SizeFault : std::uint8_t {
    DiameterNotPositive,
    WallNegative,
    WallTooThick, // twice the wall takes the whole outside diameter
    LengthNegative, // a shell length below 0
    OverallShorterThanHeads,
    NothingInside, // flat or no heads and no shell
    CrownTooFlatOrSmall, // crown ratio not above 0.5, or not below 10
    KnuckleTooLarge, // knuckle ratio below 0, at or above 0.5, or above the crown ratio
    DepthNotPositive, // a cone without depth, or a depth that is none
    TooLarge // beyond 100 m in any direction: a slip of the unit
};

enum class SizePart : std::uint8_t { Around, Wall, Along, LeftHead, RightHead };

struct SizeError {
    SizeFault fault;
    SizePart part;
};

} // namespace brimful::vessel
