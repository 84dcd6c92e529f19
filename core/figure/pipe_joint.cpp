#include "core/figure/pipe_joint.h"

#include "core/figure/check.h"
#include "core/figure/development.h"
#include "core/figure/joint_views.h"
#include "core/figure/pipe_hole.h"
#include "core/quantity/format.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

namespace brimful::figure {

namespace {

using canon::Json;
using quantity::UnitSystem;

constexpr double kPi = std::numbers::pi;

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
