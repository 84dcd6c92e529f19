// Joints: the cut of the piece that comes, the hole in the piece that stays, and what a string can do.
#include "core/figure/check.h"
#include "core/figure/development.h"
#include "core/figure/figures.h"
#include "core/figure/joint_views.h"
#include "core/figure/pipe_joint.h"
#include "core/figure/vessel_inputs.h"
#include "core/layout/spheres.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <tuple>

namespace brimful::figure {

namespace {

using canon::Json;
using quantity::metres;

constexpr double kPi = std::numbers::pi;
constexpr double kDegree = kPi / 180;

constexpr std::string_view kMidWall = "heads-meet-at-mid-wall-bevel-both";
constexpr std::array kWarnings{kDiametersTouch, kCrease, kMidWall};

constexpr std::array<std::string_view, 7> kKinds{"pipe-to-cylinder", "pipe-to-sphere", "pipe-to-head", "half-vessel-to-cylinder",
    "half-vessel-to-head", "sphere-to-sphere", "sphere-to-cylinder"};
constexpr std::array<std::string_view, 2> kFits{"set-on", "set-in"};

constexpr std::array kInputs{
    Input{.key = "kind", .kind = InputKind::Choice, .required = true, .choices = kKinds},
    Input{"pipe_diameter", InputKind::Quantity, Dimension::Length}, // outside, when pipe_wall is given
    Input{"cylinder_diameter", InputKind::Quantity, Dimension::Length}, Input{"sphere_diameter", InputKind::Quantity, Dimension::Length},
    Input{"left_diameter", InputKind::Quantity, Dimension::Length}, Input{"right_diameter", InputKind::Quantity, Dimension::Length},
    Input{"distance", InputKind::Quantity, Dimension::Length}, // between the centres
    // On a shell: between the axes, 90 deg when absent, below it leans to the right end. On a head: from the vessel's axis
    // outward, 0 when absent.
    Input{"angle", InputKind::Quantity, Dimension::Angle},
    // On a shell: of the pipe's axis to the left of one who looks along the shell with the pipe on top. On a head or a
    // sphere: of the pipe's axis from the axis or the centre; on a head where it crosses the tangent plane.
    Input{"offset", InputKind::Quantity, Dimension::Length}, Input{"count", InputKind::Number},
    Input{.key = "fit", .kind = InputKind::Choice, .choices = kFits}, Input{"pipe_wall", InputKind::Quantity, Dimension::Length},
    Input{"part_wall", InputKind::Quantity, Dimension::Length}, Input{"left_wall", InputKind::Quantity, Dimension::Length},
    Input{"right_wall", InputKind::Quantity, Dimension::Length},
    Input{.key = "vessel", .kind = InputKind::Object, .inside = kVesselInputs}, // the part, instead of cylinder_diameter
    Input{.key = "head", .kind = InputKind::Choice, .choices = kSides},
    Input{"from_left_tangent", InputKind::Quantity, Dimension::Length}, // where the axes cross, on a vessel's shell
    Input{"clock", InputKind::Quantity, Dimension::Angle}, // of the pipe on the shell ...
    Input{"seam_clock", InputKind::Quantity, Dimension::Angle}, // ... and of the shell's long seam
    Input{"allowance", InputKind::Quantity, Dimension::Length}, // from the cut's highest point to the pattern's straight edge
};

constexpr std::array kOutputs{
    Output{"ordinates", Dimension::Length, OutputKind::List}, // arc_m, cut_m
    Output{"method", Dimension::Number, OutputKind::Text}, // "ordinates" or "circle"
    Output{"fit", Dimension::Number, OutputKind::Text}, Output{"touching_pipe_radius_m", Dimension::Length},
    Output{"touching_part_radius_m", Dimension::Length}, Output{"wrap_girth_m", Dimension::Length},
    Output{"depth_m", Dimension::Length}, // of the cut, from its longest to its shortest point
    Output{"long_point_beyond_m", Dimension::Length}, // the cut's longest point, beyond the ordinate that is 0
    Output{"ring_from_long_point_m", Dimension::Length}, Output{"other_fit", Dimension::Number, OutputKind::Text},
    Output{"other_ordinates", Dimension::Length, OutputKind::List},
    Output{"hole", Dimension::Length, OutputKind::List}, // along_m, girth_m; on a head tape_m, around_deg
    Output{"pierce_along_m", Dimension::Length}, // where the pipe's axis comes through the shell's outside, counted like "hole"
    Output{"pierce_girth_m", Dimension::Length}, Output{"pierce_from_middle_m", Dimension::Length}, // of a flat head
    Output{"hole_area_m2", Dimension::Area}, Output{"throat_m2", Dimension::Area}, Output{"circle_radius_m", Dimension::Length},
    Output{"tape_m", Dimension::Length}, // over the part from the middle of the circle
    Output{"string_m", Dimension::Length}, // straight, from a punch mark there
    Output{"left_tape_arc_m", Dimension::Length}, Output{"right_tape_arc_m", Dimension::Length}, Output{"left_string_m", Dimension::Length},
    Output{"right_string_m", Dimension::Length}, Output{"circle_girth_m", Dimension::Length}, Output{"half_angle_deg", Dimension::Angle},
    Output{"half_width_m", Dimension::Length}, // round the shell
    Output{"half_length_m", Dimension::Length}, // along it
    Output{"head_marks", Dimension::Length, OutputKind::List}, // tape_m from the pole, around_deg
};

Error headError(layout::HeadJointFault fault, std::string_view first, double a, double b, double distance)
{
    using layout::HeadJointFault;
    switch (fault) {
    case HeadJointFault::NotPositive:
        return {"distance", Code::OutOfRange, "above 0", shownLength(distance)};
    case HeadJointFault::Apart:
        return {"distance", Code::Impossible, "below " + shownLength(a + b) + ", so that they meet", shownLength(distance)};
    case HeadJointFault::OneInsideTheOther:
        return {"distance", Code::Impossible, "above " + shownLength(std::abs(a - b)) + ", so that neither lies in the other",
            shownLength(distance)};
    case HeadJointFault::BeyondTangentLine:
        return {"distance", Code::Impossible, "a joint on the heads, outside their tangent lines", shownLength(distance)};
    case HeadJointFault::WiderThanTheShell:
        return {std::string(first), Code::Impossible, "a head that wraps less than half way round the shell", shownLength(2 * a)};
    }
    return {};
}

tl::expected<Result, Error> computeHeads(const Json& inputs)
{
    const auto left = positiveLength(inputs, "left_diameter");
    const auto right = positiveLength(inputs, "right_diameter");
    const auto distance = positiveLength(inputs, "distance");
    for (const auto* const one : {&left, &right, &distance}) {
        if (!*one) {
            return tl::unexpected(one->error());
        }
    }
    const double leftWall = numberAt(inputs, "left_wall", 0);
    const double rightWall = numberAt(inputs, "right_wall", 0);
    for (const auto& [key, wall, diameter] : {std::tuple("left_wall", leftWall, *left), std::tuple("right_wall", rightWall, *right)}) {
        if (!(wall >= 0 && wall < diameter / 2)) {
            return fail(Code::OutOfRange, key, "0 to half the diameter", shownLength(wall));
        }
    }
    const double a = (*left - leftWall) / 2; // to mid-wall
    const double b = (*right - rightWall) / 2;
    const auto joint = layout::headToHead(metres(a), metres(b), metres(*distance));
    if (!joint) {
        return tl::unexpected(headError(joint.error(), "left_diameter", a, b, *distance));
    }
    Result out;
    if (leftWall > 0 || rightWall > 0) {
        out.warnings.emplace_back(kMidWall);
    }
    const auto set = [&](std::string_view key, double value) { out.values.set(std::string(key), Json::real(value)); };
    out.values.set("method", "circle");
    set("circle_radius_m", joint->circle);
    set("circle_girth_m", 2 * kPi * joint->circle);
    set("left_tape_arc_m", *left / 2 * joint->leftPolar);
    set("right_tape_arc_m", *right / 2 * joint->rightPolar);
    set("left_string_m", *left * std::sin(joint->leftPolar / 2));
    set("right_string_m", *right * std::sin(joint->rightPolar / 2));
    set("throat_m2", kPi * joint->circle * joint->circle);
    addHeadViews(out, a, b, *distance, joint->fromLeftCentre, joint->circle);
    standInARow(out);
    return out;
}

tl::expected<Result, Error> computeHeadOnShell(const Json& inputs)
{
    const auto head = positiveLength(inputs, "sphere_diameter");
    const auto shell = positiveLength(inputs, "cylinder_diameter");
    const auto distance = positiveLength(inputs, "distance");
    for (const auto* const one : {&head, &shell, &distance}) {
        if (!*one) {
            return tl::unexpected(one->error());
        }
    }
    const auto count = readCount(inputs);
    if (!count) {
        return tl::unexpected(count.error());
    }
    const double r = *head / 2;
    const double R = *shell / 2;
    const auto joint = layout::headToSide(metres(r), metres(R), metres(*distance), *count);
    if (!joint) {
        return tl::unexpected(headError(joint.error(), "sphere_diameter", r, R, *distance));
    }
    const auto dense = layout::headToSide(metres(r), metres(R), metres(*distance), kDense / 4);
    Result out;
    out.warnings.emplace_back(kDiametersTouch);
    Json rows = Json::array();
    Json marks = Json::array();
    for (const layout::HeadToSide::Point& one : joint->points) {
        Json row = Json::object();
        row.set("arc_m", Json::real(R * one.around)).set("cut_m", Json::real(one.along));
        rows.items.push_back(std::move(row));
        Json mark = Json::object();
        mark.set("tape_m", Json::real(r * one.polar)).set("around_deg", Json::real(one.azimuth / kDegree));
        marks.items.push_back(std::move(mark));
    }
    Points outline; // four mirrored quarters
    const auto quarter = [&](double signX, double signY, bool outward) {
        for (std::size_t i = 0; i + 1 < dense->points.size(); ++i) {
            const auto& one = dense->points[outward ? i : dense->points.size() - 1 - i];
            outline.emplace_back(signX * one.along, signY * R * one.around);
        }
    };
    quarter(1, 1, true);
    quarter(-1, 1, false);
    quarter(-1, -1, true);
    quarter(1, -1, false);
    const auto set = [&](std::string_view key, double value) { out.values.set(std::string(key), Json::real(value)); };
    out.values.set("method", "ordinates").set("ordinates", std::move(rows)).set("head_marks", std::move(marks));
    set("half_angle_deg", joint->halfAngle / kDegree);
    set("half_width_m", R * joint->halfAngle);
    set("half_length_m", joint->halfLength);
    set("throat_m2", joint->opening);
    set("hole_area_m2", areaWithin(outline));
    addHolePattern(out, "hole", std::move(outline), 0, 0);
    std::vector<std::pair<double, double>> edge;
    for (const layout::HeadToSide::Point& one : dense->points) {
        edge.emplace_back(one.along, one.around);
    }
    addHeadOnShellViews(out, r, R, *distance, edge);
    standInARow(out);
    return out;
}

// What a kind does not use is refused, so that nothing typed is passed over in silence.
tl::expected<void, Error> onlyWhatIsUsed(const Json& inputs, std::string_view kind)
{
    constexpr std::string_view kPipe = "kind pipe_diameter offset count fit pipe_wall allowance ";
    std::string used;
    if (kind == "sphere-to-sphere") {
        used = "kind left_diameter right_diameter distance left_wall right_wall";
    } else if (kind == "sphere-to-cylinder") {
        used = "kind sphere_diameter cylinder_diameter distance count";
    } else if (kind == "pipe-to-sphere") {
        used = std::string(kPipe) + "sphere_diameter part_wall";
    } else if (kind.ends_with("head")) {
        used = std::string(kPipe) + "angle vessel head";
    } else if (inputs.find("vessel") != nullptr) {
        used = std::string(kPipe) + "angle vessel from_left_tangent clock seam_clock";
    } else {
        used = std::string(kPipe) + "angle cylinder_diameter part_wall clock seam_clock";
    }
    const std::string padded = " " + used + " ";
    for (const canon::Member& member : inputs.members) {
        if (padded.find(" " + member.key + " ") == std::string::npos) {
            return fail(Code::Conflicting, member.key, "with this kind: " + used, member.key);
        }
    }
    return {};
}

tl::expected<Result, Error> compute(const Json& inputs, const Reference&)
{
    const std::string_view kind = inputs.textOf("kind");
    if (const auto used = onlyWhatIsUsed(inputs, kind); !used) {
        return tl::unexpected(used.error());
    }
    if (kind == "sphere-to-sphere") {
        return computeHeads(inputs);
    }
    return kind == "sphere-to-cylinder" ? computeHeadOnShell(inputs) : computePipeJoint(inputs, kind);
}

} // namespace

constinit const Figure kJunction{"junction", 2, kInputs, kOutputs, kWarnings, compute};

} // namespace brimful::figure
