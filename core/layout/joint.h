// Where the wall of a pipe meets a body of revolution: every generator of the pipe is followed to where it leaves the body.
// No closed form is used: the body is convex, so along a line the depth under its surface is a convex function with at
// most two zeros, and the outer one is the cut. The same code serves a plain cylinder, a sphere, any head, and a joint
// that runs from the shell on to the head.
#pragma once

#include "core/vessel/profile.h"
#include "core/vessel/size.h"

#include <tl/expected.hpp>

#include <cstddef>
#include <vector>

namespace brimful::layout {

using quantity::Angle;
using quantity::Area;
using quantity::Length;

// The pipe's axis in the body's frame: x along the body, z up in the plane in which the pipe leans, y to the left of one
// who looks along +x with z up. The axis runs through (x, y, z) and makes `lean` with +x (90 degrees: straight up; below:
// towards +x; 0: along x). Generators are counted counter-clockwise as seen from the pipe's far end towards the body, from
// the one that `first` names: 0 is the acute side (towards +x when straight up), pi the opposite one.
struct PipeAxis {
    double x{};
    double y{};
    double z{};
    double lean{}; // rad, 0..pi
    double first{}; // rad
};

// One generator: its angle round the pipe from the first, how far out along the axis it is cut (from the plane square to the
// axis through the axis point), and the point of the body where it ends.
struct Generator {
    double around{}; // rad, 0 .. 2 pi
    double cut{}; // m
    double x{};
    double y{};
    double z{};
};

enum class JointFault : std::uint8_t {
    NotPositive, // a radius or a count
    PipeWiderThanPart,
    OffsetOffThePart, // the pipe overhangs the part's side
    LeanOutOfRange, // the pipe runs along the part and never meets its side
    Misses, // a generator does not meet the body at all
    ThroughTheEnd // a generator leaves the body through a flat end
};

struct Joint {
    std::vector<Generator> generators; // evenly round the pipe, `count` of them, the first not repeated
    double least{}; // of cut, m
    double most{};
};

// Whether a pipe may end on the flat end of a body.
enum class FlatEnd : std::uint8_t { Refused, Met };

// radius: of the pipe's surface that touches. count: at least 4.
[[nodiscard]] tl::expected<Joint, JointFault> join(
    const vessel::Profile& part, const PipeAxis&, Length radius, std::size_t count, FlatEnd = FlatEnd::Refused);

// One line, followed from inside the body to where it leaves; nothing when it misses by more than a nanometre.
struct Exit {
    double along{};
    bool throughEnd{};
};
[[nodiscard]] std::optional<Exit> leaves(
    const vessel::Profile& part, double x, double y, double z, double directionX, double directionY, double directionZ);

// Plain bodies as profiles.
[[nodiscard]] vessel::Profile plainCylinder(Length radius); // without ends
[[nodiscard]] vessel::Profile plainSphere(Length radius); // centre at x = 0

// A pipe on a plain cylinder of `part` radius, refused by the measure that is wrong before any curve is drawn.
[[nodiscard]] std::optional<JointFault> faultOnCylinder(Length pipe, Length part, Length offset, Angle lean);
// The same on a sphere, with the pipe's axis passing the centre at `offset`.
[[nodiscard]] std::optional<JointFault> faultOnSphere(Length pipe, Length part, Length offset);

} // namespace brimful::layout
