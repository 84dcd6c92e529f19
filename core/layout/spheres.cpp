#include "core/layout/spheres.h"

#include <boost/math/quadrature/gauss.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace brimful::layout {

tl::expected<HeadToHead, HeadJointFault> headToHead(Length left, Length right, Length distance)
{
    const double a = left.value();
    const double b = right.value();
    const double d = distance.value();
    if (!(a > 0 && b > 0 && d > 0)) {
        return tl::unexpected(HeadJointFault::NotPositive);
    }
    if (!(d < a + b)) {
        return tl::unexpected(HeadJointFault::Apart);
    }
    if (!(d > std::abs(a - b))) {
        return tl::unexpected(HeadJointFault::OneInsideTheOther);
    }
    const double plane = (d * d + (a - b) * (a + b)) / (2 * d);
    if (plane < 0 || d - plane < 0) {
        return tl::unexpected(HeadJointFault::BeyondTangentLine);
    }
    return HeadToHead{
        std::sqrt((a - plane) * (a + plane)), plane, std::acos(std::min(1.0, plane / a)), std::acos(std::min(1.0, (d - plane) / b))};
}

tl::expected<HeadToSide, HeadJointFault> headToSide(Length head, Length shell, Length distance, std::size_t steps)
{
    const double R = shell.value();
    const double r = head.value();
    const double d = distance.value();
    if (!(R > 0 && r > 0 && d > 0) || steps < 2) {
        return tl::unexpected(HeadJointFault::NotPositive);
    }
    if (!(d < R + r)) {
        return tl::unexpected(HeadJointFault::Apart);
    }
    if (!(d + std::min(r, R) > std::max(r, R))) {
        return tl::unexpected(HeadJointFault::OneInsideTheOther);
    }
    if (d < R) {
        return tl::unexpected(HeadJointFault::BeyondTangentLine);
    }
    const double edge = (R * R + (d - r) * (d + r)) / (2 * d * R);
    if (!(edge >= 0 && edge < 1)) {
        return tl::unexpected(HeadJointFault::WiderThanTheShell);
    }
    HeadToSide out;
    out.halfAngle = std::acos(edge);
    const auto half = [&](double around) {
        const double square = 2 * d * R * (std::cos(around) - edge);
        return std::sqrt(std::max(0.0, square));
    };
    out.halfLength = half(0);
    for (std::size_t i = 0; i <= steps; ++i) {
        const double around = out.halfAngle * static_cast<double>(i) / static_cast<double>(steps);
        const double along = i == steps ? 0 : half(around);
        const double polar = std::acos(std::clamp((d - R * std::cos(around)) / r, -1.0, 1.0));
        out.points.push_back({around, along, polar, std::atan2(along, R * std::sin(around))});
    }
    // around = halfAngle sin(t) takes the square root out of the end.
    const auto slice = [&](double t) {
        const double around = out.halfAngle * std::sin(t);
        return 2 * half(around) * R * std::cos(around) * out.halfAngle * std::cos(t);
    };
    out.opening = 2 * boost::math::quadrature::gauss<double, 30>::integrate(slice, 0.0, std::numbers::pi / 2);
    return out;
}

} // namespace brimful::layout
