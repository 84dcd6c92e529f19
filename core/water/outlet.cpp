#include "core/water/outlet.h"

#include <boost/math/quadrature/gauss.hpp>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace brimful::water {

namespace {

constexpr double kPi = std::numbers::pi;
constexpr double kGravity = 9.80665; // m/s2, standard
constexpr double kSurfaceTension = 0.0728; // N/m
constexpr double kWater = 1000; // kg/m3

// Mean of sqrt(head) along a line whose head falls evenly from one to the other, dry above the water.
double meanRoot(double from, double to)
{
    if (from <= 0 && to <= 0) {
        return 0;
    }
    const double high = std::max(from, to);
    const double low = std::min(from, to);
    const double span = high - low;
    if (span <= 1e-6 * high) {
        return std::sqrt((high + low) / 2);
    }
    const double under = std::max(0.0, low);
    return 2 * (high * std::sqrt(high) - under * std::sqrt(under)) / (3 * span);
}

// Sum over the wet part of a disc of sqrt(2 g head), the disc rising by `rise` at its rim above its middle.
double discSum(double radius, double rise, double head)
{
    const double root = std::sqrt(2 * kGravity);
    const double area = kPi * radius * radius;
    if (rise < 1e-9) {
        return head > 0 ? area * root * std::sqrt(head) : 0;
    }
    const double top = std::clamp(head / rise, -1.0, 1.0); // of the wet part, -1 at the lowest lip
    if (top <= -1) {
        return 0;
    }
    const double span = top + 1;
    // t = span sin^2 - 1 takes away the square roots at both ends.
    const auto strip = [&](double angle) {
        const double sine = std::sin(angle);
        const double t = span * sine * sine - 1;
        const double chord = 2 * std::sqrt(std::max(0.0, (1 - t) * (1 + t)));
        return chord * std::sqrt(std::max(0.0, head - rise * t)) * 2 * span * sine * std::cos(angle);
    };
    return radius * radius * root * boost::math::quadrature::gauss<double, 20>::integrate(strip, 0.0, kPi / 2);
}

} // namespace

Discharge Discharge::ofHole(double usual) { return {usual, 0.9 * usual, std::min(1.0, 1.1 * usual)}; }
Discharge Discharge::ofKerf(double usual) { return {usual, 0.9 * usual, std::min(1.0, std::max(0.8, 1.1 * usual))}; }

Discharge Discharge::ofHose(double length, double bore)
{
    const auto with = [&](double friction) { return 1 / std::sqrt(1.5 + friction * length / bore); };
    return {with(0.025), with(0.03), with(0.02)};
}

Outlet Outlet::siphon(double mouth, double outerEnd, double bore, double length)
{
    Outlet out;
    out.m_discharge = Discharge::ofHose(length, bore);
    out.m_lowest = std::max(mouth, outerEnd);
    out.m_highest = out.m_lowest;
    out.m_area = kPi * bore * bore / 4;
    out.m_outerEnd = outerEnd;
    return out;
}

Outlet Outlet::hole(const WallPoint& point, double clock, const Pose& pose, double diameter, const Discharge& discharge)
{
    Outlet out;
    out.m_discharge = discharge;
    const double middle = point.height(pose, clock);
    // How upright the wall stands there: the part of its normal that does not point up or down.
    const double normal = point.normalX * std::sin(pose.pitch.value())
        + point.normalRadial * std::cos(clock + pose.roll.value()) * std::cos(pose.pitch.value());
    const double rise = diameter / 2 * std::sqrt(std::max(0.0, (1 - normal) * (1 + normal)));
    out.m_radius = diameter / 2;
    out.m_lowest = middle - rise;
    out.m_highest = middle + rise;
    out.m_area = kPi * diameter * diameter / 4;
    out.m_heldBack = 4 * kSurfaceTension / (kWater * kGravity * diameter);
    return out;
}

Outlet Outlet::kerf(std::span<const PathPoint> path, const Pose& pose, double width, const Discharge& discharge)
{
    Outlet out;
    out.m_discharge = discharge;
    out.m_lowest = std::numeric_limits<double>::infinity();
    out.m_highest = -out.m_lowest;
    double before = 0;
    for (std::size_t i = 0; i < path.size(); ++i) {
        const WallPoint point{.x = path[i].x, .radial = path[i].radial};
        const double here = point.height(pose, path[i].spot.clock);
        out.m_lowest = std::min(out.m_lowest, here);
        out.m_highest = std::max(out.m_highest, here);
        if (i > 0) {
            const double area = width * (path[i].run - path[i - 1].run);
            out.m_steps.push_back({before, here, area});
            out.m_area += area;
        }
        before = here;
    }
    out.m_heldBack = 2 * kSurfaceTension / (kWater * kGravity * width);
    return out;
}

double Outlet::ideal(double level) const
{
    if (level <= m_lowest) {
        return 0;
    }
    if (m_outerEnd) {
        return m_area * std::sqrt(2 * kGravity * (level - *m_outerEnd));
    }
    if (m_radius > 0) {
        return discSum(m_radius, (m_highest - m_lowest) / 2, level - (m_highest + m_lowest) / 2);
    }
    double sum = 0;
    for (const Step& step : m_steps) {
        sum += step.area * meanRoot(level - step.from, level - step.to);
    }
    return std::sqrt(2 * kGravity) * sum;
}

} // namespace brimful::water
