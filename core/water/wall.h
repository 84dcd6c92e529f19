// The wall of a vessel as a surface to be marked and cut: places on it, and the same wall rolled flat.
#pragma once

#include "core/vessel/shell.h"

#include <cstdint>
#include <span>
#include <variant>
#include <vector>

namespace brimful::water {

using quantity::Angle;
using quantity::Length;
using vessel::Pose;
using vessel::Shell;
using vessel::Side;

struct OnShell {
    Length fromLeftTangent; // 0..shell length
};

// On a head: either by the angle at the middle of its tangent circle, from the pole, or by the distance from the axis.
struct OnHead {
    Side side;
    std::variant<Angle, Length> from;
};

// A place on the inside wall. Clock 0 is the top at roll 0; clockwise seen from the left end.
struct Place {
    std::variant<OnShell, OnHead> on;
    Angle clock;
};

enum class PlaceFault : std::uint8_t {
    OffTheShell, // from_left_tangent below 0 or beyond the shell
    OffTheHead, // an angle beyond 90 degrees, a distance beyond the inside radius
    NoHeadThere // an angle on a flat head says nothing: give the distance from the axis
};

// A point of the wall in its own half plane, with its outward normal and the two curvatures there. Bare metres.
struct WallPoint {
    double x{};
    double radial{};
    double normalX{};
    double normalRadial{1};
    double curveMeridian{};
    double curveAround{};

    // Height above the axis at the left tangent line, as in level.h.
    [[nodiscard]] double height(const Pose&, double clock) const;
};

[[nodiscard]] tl::expected<WallPoint, PlaceFault> wallPoint(const Shell&, const Place&);

// A spot on the wall rolled flat: metres along the meridian from the left tangent line (below 0 on the left head, beyond
// the shell's length on the right one), and clock in radians, not wrapped: 370 degrees lies one turn after 10.
struct Spot {
    double along{};
    double clock{};
};

// Inside meridian, from the left pole to the right one. Dished heads are chords of 256 steps an arc: heights are within
// a hundred-thousandth of the radius.
class Meridian {
public:
    explicit Meridian(const Shell&);

    [[nodiscard]] double from() const { return m_nodes.front().along; }
    [[nodiscard]] double to() const { return m_nodes.back().along; }
    [[nodiscard]] double shellLength() const { return m_length; }
    [[nodiscard]] double radius() const { return m_radius; } // of the shell
    [[nodiscard]] WallPoint at(double along) const;
    [[nodiscard]] tl::expected<Spot, PlaceFault> spot(const Shell&, const Place&) const;

private:
    struct Node {
        double along;
        double x;
        double radial;
    };
    std::vector<Node> m_nodes;
    double m_length;
    double m_radius;
};

// A line on the wall, straight on the wall rolled flat from spot to spot, in steps of half a degree or less.
struct PathPoint {
    Spot spot;
    double x{};
    double radial{};
    double run{}; // metres from its start
};

[[nodiscard]] std::vector<PathPoint> pathThrough(const Meridian&, std::span<const Spot>);

} // namespace brimful::water
