#include "core/water/opening.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>

namespace brimful::water {

namespace {

using quantity::metres;
using vessel::Profile;

constexpr double kPi = std::numbers::pi;

OpeningFault asOpeningFault(PlaceFault fault)
{
    switch (fault) {
    case PlaceFault::OffTheShell:
        return OpeningFault::OffTheShell;
    case PlaceFault::OffTheHead:
        return OpeningFault::OffTheHead;
    case PlaceFault::NoHeadThere:
        return OpeningFault::NoHeadThere;
    }
    return OpeningFault::OffTheShell;
}

// Inside the wall, with a hair's breadth for rounding.
bool isInside(const Shell& shell, double x, double radial)
{
    const Profile& profile = shell.inside();
    return x >= profile.from() - 1e-9 && x <= profile.to() + 1e-9
        && std::abs(radial) <= profile.radius(std::clamp(x, profile.from(), profile.to())) + 1e-9;
}

constexpr std::size_t kRimSteps = 72;

const std::array<std::pair<double, double>, kRimSteps>& rimTable()
{
    static const auto kTable = [] {
        std::array<std::pair<double, double>, kRimSteps> out{};
        for (std::size_t i = 0; i < kRimSteps; ++i) {
            const double angle = 2 * kPi * static_cast<double>(i) / kRimSteps;
            out[i] = {std::cos(angle), std::sin(angle)};
        }
        return out;
    }();
    return kTable;
}

} // namespace

Mouth::Disc Mouth::moved(const Disc& disc, double outward, bool flat)
{
    Disc out = disc;
    out.x += outward * disc.normalX;
    out.radial += outward * disc.normalRadial;
    if (flat) {
        out.curveMeridian = 0;
        out.curveAround = 0;
    }
    return out;
}

tl::expected<Mouth, OpeningFault> Mouth::make(const Shell& shell, const Opening& opening)
{
    const auto point = wallPoint(shell, opening.place);
    if (!point) {
        return tl::unexpected(asOpeningFault(point.error()));
    }
    const double bore = opening.bore.value();
    const double projection = opening.projection.value();
    const double neck = opening.neck.value();
    if (!(bore >= 0)) {
        return tl::unexpected(OpeningFault::BoreNegative);
    }
    if (!(bore < shell.insideDiameter().get().value())) {
        return tl::unexpected(OpeningFault::BoreTooLarge);
    }
    if (!(projection >= 0)) {
        return tl::unexpected(OpeningFault::ProjectionNegative);
    }
    if (!(neck >= 0)) {
        return tl::unexpected(OpeningFault::NeckNegative);
    }
    Mouth out;
    out.m_wall = {.x = point->x,
        .radial = point->radial,
        .normalX = point->normalX,
        .normalRadial = point->normalRadial,
        .half = bore / 2,
        .curveMeridian = point->curveMeridian,
        .curveAround = point->curveAround,
        .clock = opening.place.clock.value()};
    out.m_inner = projection > 0 ? moved(out.m_wall, -projection, true) : out.m_wall;
    if (!isInside(shell, out.m_inner.x, out.m_inner.radial)) {
        return tl::unexpected(OpeningFault::ProjectionTooLong);
    }
    out.m_plain = projection == 0 && neck == 0 && !opening.snorkel;
    out.m_outer = neck > 0 ? moved(out.m_wall, shell.wall().value() + neck, true) : out.m_wall;
    if (opening.snorkel) {
        const auto mouth = wallPoint(shell, opening.snorkel->mouth);
        const double down = opening.snorkel->belowWall.value();
        if (!mouth || !(down >= 0)) {
            return tl::unexpected(OpeningFault::MouthOffTheVessel);
        }
        out.m_snorkel = moved({.x = mouth->x,
                                  .radial = mouth->radial,
                                  .normalX = mouth->normalX,
                                  .normalRadial = mouth->normalRadial,
                                  .clock = opening.snorkel->mouth.clock.value()},
            -down, true);
        if (!isInside(shell, out.m_snorkel->x, out.m_snorkel->radial)) {
            return tl::unexpected(OpeningFault::MouthOffTheVessel);
        }
        out.m_packed = opening.snorkel->packed;
    }
    return out;
}

std::pair<double, double> Mouth::extremes(const Disc& disc, double sine, double cosine, double roll)
{
    const double up = std::cos(disc.clock + roll) * cosine; // height gained per metre outward from the axis
    const double aside = -std::sin(disc.clock + roll) * cosine; // per metre around, clockwise
    const double centre = disc.x * sine + disc.radial * up;
    if (disc.half == 0) {
        return {centre, centre};
    }
    // Along the wall in the plane of the axis, around it, and along the normal.
    const double along = disc.normalRadial * sine - disc.normalX * up;
    const double normal = disc.normalX * sine + disc.normalRadial * up;
    const double sagAlong = disc.half * disc.half * disc.curveMeridian;
    const auto height = [&](double c, double s) {
        double sag = sagAlong * c * c / 2;
        if (const double around = disc.half * s * disc.curveAround; around != 0 && std::abs(around) < 1) {
            sag += (1 - std::sqrt(1 - around * around)) / disc.curveAround;
        }
        return centre + disc.half * (c * along + s * aside) - sag * normal;
    };
    const auto& rim = rimTable();
    std::array<double, kRimSteps> z{};
    for (std::size_t i = 0; i < kRimSteps; ++i) {
        z[i] = height(rim[i].first, rim[i].second);
    }
    // The parabola through a table's extreme and its neighbours is within a ten-millionth of the bore of the curve's own.
    const auto sharpened = [&](std::size_t at) {
        const double before = z[(at + kRimSteps - 1) % kRimSteps];
        const double after = z[(at + 1) % kRimSteps];
        const double bend = before - 2 * z[at] + after;
        const double shift = bend == 0 ? 0 : std::clamp((before - after) / (2 * bend), -0.5, 0.5);
        const double angle = 2 * kPi * (static_cast<double>(at) + shift) / kRimSteps;
        return height(std::cos(angle), std::sin(angle));
    };
    const auto [low, high] = std::minmax_element(z.begin(), z.end());
    return {std::min(*low, sharpened(static_cast<std::size_t>(low - z.begin()))),
        std::max(*high, sharpened(static_cast<std::size_t>(high - z.begin())))};
}

Mouth::Heights Mouth::heights(const Pose& pose) const
{
    const double sine = std::sin(pose.pitch.value());
    const double cosine = std::cos(pose.pitch.value());
    const double roll = pose.roll.value();
    const auto inner = extremes(m_inner, sine, cosine, roll);
    double spill = inner.first;
    double seal = inner.second;
    // Through a neck or a tube water must reach the mouth and rise over the lip.
    if (m_plain) {
        return {metres(spill), metres(seal)};
    }
    spill = std::max(spill, extremes(m_outer, sine, cosine, roll).first);
    if (m_snorkel) {
        const double mouth = extremes(*m_snorkel, sine, cosine, roll).first;
        seal = m_packed ? mouth : std::max(seal, mouth);
        if (m_packed) {
            spill = std::numeric_limits<double>::infinity();
        }
    }
    return {metres(spill), metres(seal)};
}

std::pair<Mouth::End, Mouth::End> Mouth::ends() const
{
    return {{metres(m_inner.x), metres(m_inner.radial)}, {metres(m_outer.x), metres(m_outer.radial)}};
}

} // namespace brimful::water
