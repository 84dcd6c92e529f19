// Joints of a round head: with another head, where the edge is one plane circle, and with a shell's side.
// Elementary geometry of two spheres and of a sphere and a cylinder.
#pragma once

#include "core/layout/joint.h"

namespace brimful::layout {

enum class HeadJointFault : std::uint8_t {
    NotPositive,
    Apart, // they do not touch
    OneInsideTheOther,
    BeyondTangentLine, // the edge would lie behind a head's tangent line
    WiderThanTheShell // the head would wrap more than half way round the shell
};

// Two heads, tangent lines outward, centres `distance` apart.
struct HeadToHead {
    double circle{}; // radius of the edge, m
    double fromLeftCentre{}; // of the edge's plane, m
    double leftPolar{}; // rad, from each head's pole to the edge, at the head's centre
    double rightPolar{};
};
[[nodiscard]] tl::expected<HeadToHead, HeadJointFault> headToHead(Length left, Length right, Length distance);

// A head into the side of a shell, its axis square to the shell's and through it, centres `distance` apart.
struct HeadToSide {
    double halfAngle{}; // rad, round the shell
    double halfLength{}; // m, along the shell
    struct Point {
        double around{}; // rad, round the shell from the middle of the joint
        double along{}; // m, half width of the joint along the shell there
        double polar{}; // rad, on the head, from its pole
        double azimuth{}; // rad, on the head, from the plane across the shell
    };
    std::vector<Point> points; // steps + 1 of them, from the middle to the end, evenly round the shell
    double opening{}; // m2, seen along the head's axis
};
[[nodiscard]] tl::expected<HeadToSide, HeadJointFault> headToSide(Length head, Length shell, Length distance, std::size_t steps);

} // namespace brimful::layout
