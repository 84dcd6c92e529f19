#include "core/layout/joint.h"

#include <boost/math/tools/minima.hpp>
#include <boost/math/tools/roots.hpp>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <optional>

namespace brimful::layout {

namespace {

constexpr double kPi = std::numbers::pi;
constexpr double kGrazing = 1e-9; // m: a line that comes this near touches
constexpr double kFar = 1e4; // m: half length of a cylinder without ends

struct Range {
    double low;
    double high;
};

// Where along a line with this start and direction a coordinate stays between two values.
Range within(double at, double direction, double from, double to)
{
    if (std::abs(direction) < 1e-15) {
        constexpr double kAll = std::numeric_limits<double>::max() / 4;
        return at >= from && at <= to ? Range{-kAll, kAll} : Range{1, -1};
    }
    const double a = (from - at) / direction;
    const double b = (to - at) / direction;
    return {std::min(a, b), std::max(a, b)};
}

double largestRadius(const vessel::Profile& part) { return part.reach(0, 1); }

} // namespace

std::optional<Exit> leaves(
    const vessel::Profile& part, double x, double y, double z, double directionX, double directionY, double directionZ)
{
    Range range = within(x, directionX, part.from(), part.to());
    const double across = std::hypot(directionY, directionZ);
    if (across > 1e-15) {
        // Nearest the body's axis at `middle`; beyond the largest radius nothing is left to leave.
        const double middle = -(y * directionY + z * directionZ) / (across * across);
        const double half = 1.01 * largestRadius(part) / across;
        range = {std::max(range.low, middle - half), std::min(range.high, middle + half)};
    }
    if (!(range.low < range.high)) {
        return std::nullopt;
    }
    const auto outside = [&](double s) {
        const double station = std::clamp(x + s * directionX, part.from(), part.to());
        return std::hypot(y + s * directionY, z + s * directionZ) - part.radius(station);
    };
    const auto [deepest, depth] =
        boost::math::tools::brent_find_minima(outside, range.low, range.high, std::numeric_limits<double>::digits / 2);
    if (depth > kGrazing) {
        return std::nullopt;
    }
    if (depth >= 0) {
        return Exit{deepest, false};
    }
    if (outside(range.high) <= 0) {
        return Exit{range.high, true};
    }
    std::uintmax_t rounds = 200;
    const auto [low, high] = boost::math::tools::toms748_solve(
        outside, deepest, range.high, boost::math::tools::eps_tolerance<double>(std::numeric_limits<double>::digits - 3), rounds);
    return Exit{(low + high) / 2, false};
}

tl::expected<Joint, JointFault> join(const vessel::Profile& part, const PipeAxis& axis, Length radius, std::size_t count, FlatEnd end)
{
    const double r = radius.value();
    if (!(r > 0) || count < 4) {
        return tl::unexpected(JointFault::NotPositive);
    }
    const double sine = std::sin(axis.lean);
    const double cosine = std::cos(axis.lean);
    Joint out;
    out.generators.reserve(count);
    out.least = HUGE_VAL;
    out.most = -HUGE_VAL;
    for (std::size_t i = 0; i < count; ++i) {
        const double around = 2 * kPi * static_cast<double>(i) / static_cast<double>(count);
        const double angle = around + axis.first;
        const double a = r * std::cos(angle);
        const double x = axis.x + a * sine;
        const double y = axis.y + r * std::sin(angle);
        const double z = axis.z - a * cosine;
        const auto exit = leaves(part, x, y, z, cosine, 0, sine);
        if (!exit) {
            return tl::unexpected(JointFault::Misses);
        }
        if (exit->throughEnd && end == FlatEnd::Refused) {
            return tl::unexpected(JointFault::ThroughTheEnd);
        }
        out.generators.push_back({around, exit->along, x + exit->along * cosine, y, z + exit->along * sine});
        out.least = std::min(out.least, exit->along);
        out.most = std::max(out.most, exit->along);
    }
    return out;
}

vessel::Profile plainCylinder(Length radius)
{
    vessel::Profile out;
    out.add({.from = -kFar, .to = kFar, .offset = radius.value()});
    return out;
}

vessel::Profile plainSphere(Length radius)
{
    vessel::Profile out;
    out.add({.from = -radius.value(), .to = radius.value(), .arc = true, .arcRadius = radius.value()});
    return out;
}

std::optional<JointFault> faultOnCylinder(Length pipe, Length part, Length offset, Angle lean)
{
    const double slack = 1e-12 * std::abs(part.value());
    if (!(pipe.value() > 0 && part.value() > 0)) {
        return JointFault::NotPositive;
    }
    if (pipe.value() > part.value() + slack) {
        return JointFault::PipeWiderThanPart;
    }
    if (!(std::abs(offset.value()) + pipe.value() <= part.value() + slack)) {
        return JointFault::OffsetOffThePart;
    }
    // Below a milliradian the cut would be a thousand diameters long.
    return lean.value() > 1e-3 && lean.value() < kPi - 1e-3 ? std::nullopt : std::optional(JointFault::LeanOutOfRange);
}

std::optional<JointFault> faultOnSphere(Length pipe, Length part, Length offset)
{
    const auto fault = faultOnCylinder(pipe, part, offset, quantity::radians(kPi / 2));
    // A pipe as wide as the sphere touches it along the equator and opens nothing.
    return !fault && !(std::abs(offset.value()) + pipe.value() < part.value()) ? std::optional(JointFault::OffsetOffThePart) : fault;
}

} // namespace brimful::layout
