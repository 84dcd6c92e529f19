#include "core/figure/pipe_hole.h"

#include "core/figure/check.h"
#include "core/figure/development.h"
#include "core/figure/pipe_joint.h"
#include "core/layout/tape.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace brimful::figure {

namespace {

using canon::Json;

constexpr double kPi = std::numbers::pi;
constexpr double kDegree = kPi / 180;

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

} // namespace

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

} // namespace brimful::figure
