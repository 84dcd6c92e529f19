#include "core/water/opening.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>

namespace brimful::water {

namespace {

using quantity::metres;
using vessel::Piece;
using vessel::Profile;

constexpr double kPi = std::numbers::pi;

// A point of the wall with its outward normal and the two curvatures there.
struct Point {
    double x{};
    double radial{};
    double normalX{};
    double normalRadial{1};
    double curveMeridian{};
    double curveAround{};
};

Point pointAt(const Piece& piece, double x)
{
    Point out{.x = x, .radial = piece.radius(x)};
    if (!piece.arc) {
        const double length = std::hypot(1.0, piece.slope);
        out.normalX = -piece.slope / length;
        out.normalRadial = 1 / length;
    } else {
        // Of (w/r)^2 + ((radius - offset)/(stretch r))^2 = 1, an ellipse with half axes r and stretch r.
        const double w = x - piece.centre;
        const double across = (out.radial - piece.offset) / (piece.stretch * piece.stretch);
        const double length = std::hypot(w, across);
        out.normalX = w / length;
        out.normalRadial = across / length;
        const double a = piece.arcRadius;
        const double b = piece.stretch * piece.arcRadius;
        const double p = std::hypot(b * out.normalRadial, a * out.normalX);
        out.curveMeridian = p * p * p / (a * a * b * b);
    }
    out.curveAround = out.radial > 1e-9 ? out.normalRadial / out.radial : out.curveMeridian;
    return out;
}

std::optional<Point> pointOnHead(const Shell& shell, const OnHead& on)
{
    const double tangent = on.side == Side::Left ? 0.0 : shell.length().value();
    const double outward = on.side == Side::Left ? -1.0 : 1.0;
    const double depth = shell.head(on.side).depth().value();
    if (depth == 0) {
        return Point{.x = tangent, .radial = std::get<Length>(on.from).value(), .normalX = outward, .normalRadial = 0};
    }
    // How far along the outward axis the wall is met: bisection on a function that falls along the head.
    const auto beyond = [&](double u) {
        const double radius = shell.inside().radius(tangent + outward * u);
        if (const auto* const angle = std::get_if<Angle>(&on.from); angle != nullptr) {
            return radius * std::cos(angle->value()) - u * std::sin(angle->value());
        }
        return radius - std::get<Length>(on.from).value();
    };
    double low = 0;
    double high = depth;
    for (int i = 0; i < 200 && high - low > 1e-15 * depth; ++i) {
        const double middle = (low + high) / 2;
        (beyond(middle) > 0 ? low : high) = middle;
    }
    const double x = tangent + outward * (low + high) / 2;
    for (const Piece& piece : shell.inside().pieces()) {
        const bool inHead = outward < 0 ? piece.to <= tangent : piece.from >= tangent;
        if (inHead && x >= piece.from && x <= piece.to) {
            return pointAt(piece, x);
        }
    }
    return std::nullopt;
}

tl::expected<Point, OpeningFault> pointOf(const Shell& shell, const Place& place)
{
    const double radius = shell.insideDiameter().get().value() / 2;
    if (const auto* const on = std::get_if<OnShell>(&place.on); on != nullptr) {
        const double x = on->fromLeftTangent.value();
        // A place measured to the tangent line itself may miss it by a rounding.
        if (!(x >= -1e-9 && x <= shell.length().value() + 1e-9)) {
            return tl::unexpected(OpeningFault::OffTheShell);
        }
        return Point{.x = x, .radial = radius, .curveAround = 1 / radius};
    }
    const auto& on = std::get<OnHead>(place.on);
    if (const auto* const angle = std::get_if<Angle>(&on.from); angle != nullptr) {
        if (shell.head(on.side).depth().value() == 0) {
            return tl::unexpected(OpeningFault::NoHeadThere);
        }
        if (!(angle->value() >= 0 && angle->value() <= kPi / 2 + 1e-12)) {
            return tl::unexpected(OpeningFault::OffTheHead);
        }
    } else if (const double off = std::get<Length>(on.from).value(); !(off >= 0 && off <= radius)) {
        return tl::unexpected(OpeningFault::OffTheHead);
    }
    const auto point = pointOnHead(shell, on);
    return point ? tl::expected<Point, OpeningFault>(*point) : tl::unexpected(OpeningFault::OffTheHead);
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
    const auto point = pointOf(shell, opening.place);
    if (!point) {
        return tl::unexpected(point.error());
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
        const auto mouth = pointOf(shell, opening.snorkel->mouth);
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
