#include "core/figure/pipe_part.h"

#include "core/figure/check.h"
#include "core/figure/pipe_joint.h"
#include "core/figure/vessel_inputs.h"
#include "core/quantity/format.h"

#include <algorithm>
#include <numbers>
#include <utility>

namespace brimful::figure {

using canon::Json;
using layout::JointFault;
using quantity::metres;
using quantity::UnitSystem;

namespace {

constexpr double kPi = std::numbers::pi;

Error jointError(JointFault fault, const Part& part, double pipe, const Place& place)
{
    const double room = part.outsideRadius - pipe;
    switch (fault) {
    case JointFault::NotPositive:
        return {"pipe_diameter", Code::OutOfRange, "above 0", shownLength(2 * pipe)};
    case JointFault::PipeWiderThanPart:
        return {"pipe_diameter", Code::Impossible, "at most " + shownLength(2 * part.outsideRadius) + ", the part it meets",
            shownLength(2 * pipe)};
    case JointFault::OffsetOffThePart:
        return {"offset", Code::Impossible,
            (part.sphere ? "less than " : "at most ") + shownLength(std::max(0.0, room)) + ", so that all of it meets the part",
            shownLength(place.offset)};
    case JointFault::LeanOutOfRange:
        return {
            "angle", Code::OutOfRange, "above 0 deg, below 180 deg", quantity::format(place.axis.lean, Dimension::Angle, UnitSystem::Si)};
    case JointFault::Misses:
        if (part.ends && !part.head) { // beside the shell nothing misses that has come so far
            return {"from_left_tangent", Code::Impossible, "all of the joint between the tangent lines", "past the end"};
        }
        return {"offset", Code::Impossible, "all of the pipe on the part", shownLength(place.offset)};
    case JointFault::ThroughTheEnd:
        return {part.head ? "head" : "from_left_tangent", Code::Impossible, "on the side of the part", "through its end"};
    }
    return {};
}

} // namespace

tl::expected<Part, Error> plainPart(const Json& inputs, std::string_view key)
{
    const auto diameter = positiveLength(inputs, key);
    if (!diameter) {
        return tl::unexpected(diameter.error());
    }
    Part out;
    out.sphere = key == "sphere_diameter";
    out.outsideRadius = *diameter / 2;
    out.wall = numberAt(inputs, "part_wall");
    out.sizeKey = key;
    if (out.wall && !(*out.wall >= 0 && *out.wall < out.outsideRadius)) {
        return fail(Code::OutOfRange, "part_wall", "0 to half the diameter", shownLength(*out.wall));
    }
    const auto body = [&](double radius) {
        return out.sphere ? layout::plainSphere(metres(radius)) : layout::plainCylinder(metres(radius));
    };
    out.outside = body(out.outsideRadius);
    out.inside = body(out.outsideRadius - out.wall.value_or(0));
    return out;
}

tl::expected<Part, Error> vesselPart(const Json& inputs, bool head)
{
    auto read = readVessel(inputs);
    if (!read) {
        return tl::unexpected(read.error());
    }
    if (!read->wallGiven) {
        return fail(Code::Missing, "vessel.wall", "length"); // joints are marked on the outside
    }
    Part out;
    if (head) {
        const std::string_view side = inputs.textOf("head");
        if (side.empty()) {
            return fail(Code::Missing, "head", "left, right");
        }
        if (side == "left") { // mirrored, so that the joined head is the right one
            std::swap(read->size.left, read->size.right);
            read->shell = vessel::Shell::make(read->size).value();
        }
        out.flat = read->shell.head(vessel::Side::Right).kind() == vessel::HeadKind::Flat;
        out.head = true;
    }
    out.outside = read->shell.outside();
    out.inside = read->shell.inside();
    out.outsideRadius = read->shell.outsideDiameter().get().value() / 2;
    out.wall = read->shell.wall().value();
    out.tangent = read->shell.length().value();
    out.ends = true;
    out.sizeKey = "vessel";
    return out;
}

tl::expected<Fit, Error> readFit(const Json& inputs, const Part& part, double pipe, std::string_view word)
{
    const auto wall = numberAt(inputs, "pipe_wall");
    if (wall && !(*wall >= 0 && *wall < pipe)) {
        return fail(Code::OutOfRange, "pipe_wall", "0 to half the diameter", shownLength(*wall));
    }
    if (word == "set-on") {
        if (!wall) {
            return fail(Code::Missing, "pipe_wall", "length");
        }
        return Fit{word, pipe - *wall, false, pipe - *wall};
    }
    if (word == "set-in") {
        if (!part.wall) {
            return fail(Code::Missing, part.ends ? "vessel.wall" : "part_wall", "length");
        }
        return Fit{word, pipe, true, pipe};
    }
    if (wall || (!part.ends && part.wall)) {
        return fail(Code::Missing, "fit", "set-on, set-in");
    }
    return Fit{{}, pipe, false, pipe};
}

tl::expected<Place, Error> readPlace(const Json& inputs, const Part& part)
{
    Place out;
    out.offset = numberAt(inputs, "offset", 0);
    const double angle = numberAt(inputs, "angle", part.head ? 0 : kPi / 2);
    if (part.sphere) {
        out.axis = {.x = out.offset, .lean = kPi / 2};
        return out;
    }
    if (part.head) {
        if (!(angle >= 0 && angle < kPi / 2)) {
            return fail(Code::OutOfRange, "angle", "0 deg to below 90 deg", quantity::format(angle, Dimension::Angle, UnitSystem::Si));
        }
        out.axis = {.x = part.tangent, .z = out.offset, .lean = angle, .first = kPi};
        return out;
    }
    if (!(angle > 1e-3 && angle < kPi - 1e-3)) {
        return fail(Code::OutOfRange, "angle", "above 0 deg, below 180 deg", quantity::format(angle, Dimension::Angle, UnitSystem::Si));
    }
    if (part.ends && inputs.find("from_left_tangent") == nullptr) {
        return fail(Code::Missing, "from_left_tangent", "length");
    }
    out.axis = {.x = numberAt(inputs, "from_left_tangent", 0), .y = out.offset, .lean = angle};
    return out;
}

tl::expected<layout::Joint, Error> joined(const Part& part, const Place& place, double radius, bool inside, std::size_t count)
{
    const double wall = inside ? part.wall.value_or(0) : 0;
    const double partRadius = part.outsideRadius - wall;
    std::optional<JointFault> fault;
    if (part.sphere) {
        fault = layout::faultOnSphere(metres(radius), metres(partRadius), metres(place.offset));
    } else {
        // On a head the pipe must fit the shell behind it too; where it leans, the generators themselves tell.
        const double offset = part.head && place.axis.lean != 0 ? 0 : place.offset;
        fault = layout::faultOnCylinder(
            metres(radius), metres(partRadius), metres(offset), quantity::radians(part.head ? kPi / 2 : place.axis.lean));
    }
    if (fault) {
        Part met = part;
        met.outsideRadius = partRadius;
        return tl::unexpected(jointError(*fault, met, radius, place));
    }
    const vessel::Profile& body = inside ? part.inside : part.outside;
    auto joint = layout::join(body, place.axis, metres(radius), count, part.flat ? layout::FlatEnd::Met : layout::FlatEnd::Refused);
    if (!joint) {
        return tl::unexpected(jointError(joint.error(), part, radius, place));
    }
    constexpr double kSlack = 1e-9;
    for (const layout::Generator& one : joint->generators) {
        if (part.head && one.x < (part.flat ? body.to() : part.tangent) - kSlack) {
            return fail(Code::Impossible, "offset", "all of the joint on the head, outside the tangent line", shownLength(place.offset));
        }
        if (part.ends && !part.head && (one.x < -kSlack || one.x > part.tangent + kSlack)) {
            return fail(
                Code::Impossible, "from_left_tangent", "all of the joint between the tangent lines", shownLength(one.x) + " at its edge");
        }
    }
    return *joint;
}

} // namespace brimful::figure
