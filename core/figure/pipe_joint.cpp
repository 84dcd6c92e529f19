#include "core/figure/pipe_joint.h"

#include "core/figure/check.h"
#include "core/figure/development.h"
#include "core/figure/joint_views.h"
#include "core/figure/vessel_inputs.h"
#include "core/layout/joint.h"
#include "core/layout/tape.h"
#include "core/quantity/format.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

namespace brimful::figure {

namespace {

using canon::Json;
using layout::JointFault;
using quantity::metres;
using quantity::UnitSystem;

constexpr double kPi = std::numbers::pi;
constexpr double kDegree = kPi / 180;

} // namespace

std::string shownLength(double length) { return quantity::format(length, Dimension::Length, UnitSystem::Si); }

tl::expected<double, Error> positiveLength(const Json& inputs, std::string_view key)
{
    const auto value = numberAt(inputs, key);
    if (!value) {
        return fail(Code::Missing, std::string(key), "length");
    }
    return *value > 0 ? tl::expected<double, Error>(*value) : fail(Code::OutOfRange, std::string(key), "above 0", shownLength(*value));
}

tl::expected<std::size_t, Error> readCount(const Json& inputs)
{
    const double count = numberAt(inputs, "count", 16);
    if (!(count >= 4 && count <= 360 && count == std::floor(count))) {
        return fail(Code::OutOfRange, "count", "a whole number from 4 to 360", canon::write(Json::real(count), false));
    }
    return static_cast<std::size_t>(count);
}

namespace {

// The part that stays: its outside and inside as bodies whose right head, if it is a head, is the one that is joined.
struct Part {
    vessel::Profile outside;
    vessel::Profile inside;
    double outsideRadius{};
    std::optional<double> wall;
    double tangent{}; // of the right head; a plain body has none
    bool ends{}; // it has tangent lines at 0 and `tangent`
    bool sphere{};
    bool head{};
    bool flat{}; // that head is
    std::string_view sizeKey;
};

// Which surfaces meet, and at which radius the pattern is wrapped.
struct Fit {
    std::string_view word; // empty: as given
    double touch{}; // radius of the pipe's surface that meets the part
    bool inside{}; // it meets the part's inside
    double hole{}; // radius of the hole's edge on the part's outside
};

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

struct Place {
    layout::PipeAxis axis;
    double offset{};
};

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

// The joint of one fit, refused with a name when the pipe is too wide, overhangs, or runs over a tangent line.
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

Json ordinates(const layout::Joint& joint, double wrap)
{
    Json out = Json::array();
    for (const layout::Generator& one : joint.generators) {
        Json row = Json::object();
        row.set("arc_m", Json::real(wrap * one.around)).set("cut_m", Json::real(one.cut - joint.least));
        out.items.push_back(std::move(row));
    }
    return out;
}

double roundPart(const layout::Generator& one) { return std::atan2(one.y, one.z); }

tl::expected<void, Error> seamClear(const Json& inputs, const layout::Joint& hole, double radius)
{
    const auto clock = numberAt(inputs, "clock");
    const auto seam = numberAt(inputs, "seam_clock");
    if (seam && !clock) {
        return fail(Code::Missing, "clock", "angle");
    }
    if (!seam) {
        return {};
    }
    double low = HUGE_VAL;
    double high = -HUGE_VAL;
    for (const layout::Generator& one : hole.generators) {
        low = std::min(low, roundPart(one));
        high = std::max(high, roundPart(one));
    }
    // Round the part to the left is against the clock as seen from the left end.
    const double at = std::remainder(*clock - *seam, 2 * kPi);
    if (at >= low - 1e-12 && at <= high + 1e-12) {
        return fail(Code::Impossible, "seam_clock", "a seam clear of the joint",
            "through the hole, " + shownLength(radius * (at - low)) + " in from its edge");
    }
    return {};
}

// The hole's edge carries the pattern's numbers, so that the pipe is set the right way round.
template <class Flat> void addNumbers(const layout::Joint& hole, double along, double around, const Flat& flat, Result& out)
{
    for (std::size_t i = 0; i < hole.generators.size(); ++i) {
        const auto [x, y] = flat(hole.generators[i]);
        constexpr double kTick = 0.006; // from the edge inward
        const double reach = std::max(kTick, std::hypot(x - along, y - around));
        const double share = 1 - kTick / reach;
        out.picture.push_back(
            {"mark:hole:" + std::to_string(i), false, {{along + share * (x - along), around + share * (y - around)}, {x, y}}});
    }
}

void setHoleOnShell(const Part& part, const Place& place, const layout::Joint& shownHole, const layout::Joint& dense, Result& out)
{
    Json rows = Json::array();
    for (const layout::Generator& one : shownHole.generators) {
        Json row = Json::object();
        row.set("along_m", Json::real(one.x - place.axis.x)).set("girth_m", Json::real(part.outsideRadius * roundPart(one)));
        rows.items.push_back(std::move(row));
    }
    Points outline;
    for (const layout::Generator& one : dense.generators) {
        outline.emplace_back(one.x - place.axis.x, part.outsideRadius * roundPart(one));
    }
    out.values.set("hole", std::move(rows)).set("hole_area_m2", Json::real(areaWithin(outline)));
    const double sine = std::sin(place.axis.lean);
    const double cosine = std::cos(place.axis.lean);
    const auto pierce = layout::leaves(part.outside, place.axis.x, place.axis.y, place.axis.z, cosine, 0, sine);
    const double along = pierce ? pierce->along * cosine : 0;
    const double around = pierce ? part.outsideRadius * std::atan2(place.axis.y, place.axis.z + pierce->along * sine) : 0;
    out.values.set("pierce_along_m", Json::real(along)).set("pierce_girth_m", Json::real(around));
    addHolePattern(out, "hole", std::move(outline), along, around);
    const auto unrolled = [&](const layout::Generator& one) {
        return std::pair(one.x - place.axis.x, part.outsideRadius * roundPart(one));
    };
    addNumbers(shownHole, along, around, unrolled, out);
}

// A flat head is its own pattern, as seen from outside with the offset upward.
void setHoleOnFlatHead(const Part& part, const Place& place, const layout::Joint& shownHole, const layout::Joint& dense, Result& out)
{
    Json rows = Json::array();
    for (const layout::Generator& one : shownHole.generators) {
        Json row = Json::object();
        row.set("tape_m", Json::real(std::hypot(one.y, one.z))).set("around_deg", Json::real(roundPart(one) / kDegree));
        rows.items.push_back(std::move(row));
    }
    Points outline;
    for (const layout::Generator& one : dense.generators) {
        outline.emplace_back(one.y, one.z);
    }
    const double middle = place.offset + (part.outside.to() - part.tangent) * std::tan(place.axis.lean);
    out.values.set("hole", std::move(rows)).set("hole_area_m2", Json::real(areaWithin(outline)));
    out.values.set("pierce_from_middle_m", Json::real(middle));
    addHolePattern(out, "hole", std::move(outline), 0, middle);
    addNumbers(
        shownHole, 0, middle, [](const layout::Generator& one) { return std::pair(one.y, one.z); }, out);
}

void setHoleOnHead(const Part& part, const layout::Joint& shownHole, Result& out)
{
    Json rows = Json::array();
    for (const layout::Generator& one : shownHole.generators) {
        Json row = Json::object();
        row.set("tape_m", Json::real(layout::tapeFromRightTip(part.outside, one.x)))
            .set("around_deg", Json::real(roundPart(one) / kDegree));
        rows.items.push_back(std::move(row));
    }
    out.values.set("hole", std::move(rows));
}

// Offset 0 on a body of revolution along the pipe: the hole is a circle about the tip, and the pipe is cut square.
void setCircle(const Part& part, const layout::Joint& hole, double radius, Result& out)
{
    const auto set = [&](std::string_view key, double value) { out.values.set(std::string(key), Json::real(value)); };
    set("circle_radius_m", radius);
    if (part.sphere) {
        const double polar = std::asin(radius / part.outsideRadius);
        set("tape_m", part.outsideRadius * polar);
        set("string_m", 2 * part.outsideRadius * std::sin(polar / 2));
        return;
    }
    if (part.flat) {
        set("tape_m", radius);
        set("string_m", radius);
        return;
    }
    const double x = hole.generators.front().x;
    set("tape_m", layout::tapeFromRightTip(part.outside, x));
    set("string_m", std::hypot(radius, part.outside.to() - x));
}

// How the hole is drawn: as the other piece's edge on this part's outside.
tl::expected<void, Error> setHole(const Json& inputs, const Part& part, const Place& place, const Fit& fit, std::size_t count, Result& out)
{
    const auto hole = joined(part, place, fit.hole, false, count);
    if (!hole) {
        return tl::unexpected(hole.error());
    }
    const bool circle = (part.sphere || (part.head && place.axis.lean == 0)) && (place.offset == 0 || part.flat);
    out.values.set("method", circle ? "circle" : "ordinates");
    if (part.flat) {
        const auto dense = joined(part, place, fit.hole, false, kDense);
        if (!dense) {
            return tl::unexpected(dense.error());
        }
        setHoleOnFlatHead(part, place, *hole, *dense, out);
    }
    if (circle) {
        setCircle(part, *hole, fit.hole, out);
    } else if (part.head && !part.flat) {
        setHoleOnHead(part, *hole, out);
    } else if (!part.sphere && !part.head) {
        if (auto clear = seamClear(inputs, *hole, part.outsideRadius); !clear) {
            return clear;
        }
        const auto dense = joined(part, place, fit.hole, false, kDense);
        if (!dense) {
            return tl::unexpected(dense.error());
        }
        setHoleOnShell(part, place, *hole, *dense, out);
    } else if (part.sphere) {
        // On a sphere the point under the axis is the pole, and the direction of the offset is the reference.
        Json rows = Json::array();
        const double rise = std::sqrt(part.outsideRadius * part.outsideRadius - place.offset * place.offset);
        for (const layout::Generator& one : hole->generators) {
            const double cosine = (one.x * place.offset + one.z * rise) / (part.outsideRadius * part.outsideRadius);
            const double away = (one.x * rise - one.z * place.offset) / part.outsideRadius; // in the direction of the offset
            Json row = Json::object();
            row.set("tape_m", Json::real(part.outsideRadius * std::acos(std::clamp(cosine, -1.0, 1.0))));
            row.set("around_deg", Json::real(std::atan2(one.y, away) / kDegree));
            rows.items.push_back(std::move(row));
        }
        out.values.set("hole", std::move(rows));
    }
    return {};
}

void setOtherFit(const Json& inputs, const Part& part, const Place& place, const Fit& fit, double pipe, std::size_t count, Result& out)
{
    if (fit.word.empty()) {
        return;
    }
    const std::string_view word = fit.word == "set-on" ? "set-in" : "set-on";
    const auto other = readFit(inputs, part, pipe, word);
    const auto joint = other ? joined(part, place, other->touch, other->inside, count) : tl::unexpected(other.error());
    if (joint) {
        out.values.set("other_fit", word).set("other_ordinates", ordinates(*joint, pipe));
    }
}

} // namespace

tl::expected<Result, Error> computePipeJoint(const Json& inputs, std::string_view kind)
{
    const bool head = kind.ends_with("head");
    const bool hasVessel = inputs.find("vessel") != nullptr;
    if (head && !hasVessel) {
        return fail(Code::Missing, "vessel", "object");
    }
    const auto part = hasVessel && kind != "pipe-to-sphere"
        ? vesselPart(inputs, head)
        : plainPart(inputs, kind == "pipe-to-sphere" ? "sphere_diameter" : "cylinder_diameter");
    if (!part) {
        return tl::unexpected(part.error());
    }
    const auto diameter = positiveLength(inputs, "pipe_diameter");
    const auto count = readCount(inputs);
    if (!diameter || !count) {
        return tl::unexpected(!diameter ? diameter.error() : count.error());
    }
    const double pipe = *diameter / 2;
    const auto fit = readFit(inputs, *part, pipe, inputs.textOf("fit"));
    if (!fit) {
        return tl::unexpected(fit.error());
    }
    const auto place = readPlace(inputs, *part);
    if (!place) {
        return tl::unexpected(place.error());
    }
    const auto joint = joined(*part, *place, fit->touch, fit->inside, *count);
    if (!joint) {
        return tl::unexpected(joint.error());
    }
    const auto dense = joined(*part, *place, fit->touch, fit->inside, kDense);
    if (!dense) {
        return tl::unexpected(dense.error());
    }
    const double allowance = numberAt(inputs, "allowance", 0.05);
    if (!(allowance > 0)) {
        return fail(Code::OutOfRange, "allowance", "above 0", shownLength(allowance));
    }
    Result out;
    const auto set = [&](std::string_view key, double value) { out.values.set(std::string(key), Json::real(value)); };
    out.values.set("ordinates", ordinates(*joint, pipe));
    const double met = part->outsideRadius - (fit->inside ? part->wall.value_or(0) : 0);
    if (fit->word.empty()) {
        out.warnings.emplace_back(kDiametersTouch);
    } else {
        out.values.set("fit", fit->word);
    }
    if (!part->sphere && !part->head && place->offset == 0 && std::abs(fit->touch - met) <= 1e-9 * met) {
        out.warnings.emplace_back(kCrease);
    }
    set("touching_pipe_radius_m", fit->touch);
    set("touching_part_radius_m", met);
    set("wrap_girth_m", 2 * kPi * pipe);
    const double least = std::min(dense->least, joint->least);
    const double depth = std::max(dense->most, joint->most) - least;
    set("depth_m", depth);
    set("long_point_beyond_m", joint->least - least);
    set("ring_from_long_point_m", depth + allowance);
    const double bore = pipe - numberAt(inputs, "pipe_wall", 0);
    set("throat_m2", kPi * bore * bore);
    addPipePattern(out, *dense, *joint, pipe, depth + allowance);
    if (const auto hole = setHole(inputs, *part, *place, *fit, *count, out); !hole) {
        return tl::unexpected(hole.error());
    }
    setOtherFit(inputs, *part, *place, *fit, pipe, *count, out);
    addPipeViews(
        out, fit->inside ? part->inside : part->outside, met, place->axis, fit->touch, *dense, depth + std::max(allowance, 2 * pipe));
    standInARow(out);
    return out;
}

} // namespace brimful::figure
