#include "core/water/wall.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <optional>

namespace brimful::water {

namespace {

using vessel::Piece;

constexpr double kPi = std::numbers::pi;
constexpr int kStepsPerArc = 256;
constexpr double kClockStep = kPi / 360;

WallPoint pointAt(const Piece& piece, double x)
{
    WallPoint out{.x = x, .radial = piece.radius(x)};
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

std::optional<WallPoint> pointOnHead(const Shell& shell, const OnHead& on)
{
    const double tangent = on.side == Side::Left ? 0.0 : shell.length().value();
    const double outward = on.side == Side::Left ? -1.0 : 1.0;
    const double depth = shell.head(on.side).depth().value();
    if (depth == 0) {
        return WallPoint{.x = tangent, .radial = std::get<Length>(on.from).value(), .normalX = outward, .normalRadial = 0};
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
            WallPoint out = pointAt(piece, x);
            if (out.radial < 1e-9) { // at a cone's tip the wall faces along the axis as a whole
                out.normalX = outward;
                out.normalRadial = 0;
            }
            return out;
        }
    }
    return std::nullopt;
}

} // namespace

double WallPoint::height(const Pose& pose, double clock) const
{
    return x * std::sin(pose.pitch.value()) + radial * std::cos(clock + pose.roll.value()) * std::cos(pose.pitch.value());
}

tl::expected<WallPoint, PlaceFault> wallPoint(const Shell& shell, const Place& place)
{
    const double radius = shell.insideDiameter().get().value() / 2;
    if (const auto* const on = std::get_if<OnShell>(&place.on); on != nullptr) {
        const double x = on->fromLeftTangent.value();
        // A place measured to the tangent line itself may miss it by a rounding.
        if (!(x >= -1e-9 && x <= shell.length().value() + 1e-9)) {
            return tl::unexpected(PlaceFault::OffTheShell);
        }
        return WallPoint{.x = x, .radial = radius, .curveAround = 1 / radius};
    }
    const auto& on = std::get<OnHead>(place.on);
    if (const auto* const angle = std::get_if<Angle>(&on.from); angle != nullptr) {
        if (shell.head(on.side).depth().value() == 0) {
            return tl::unexpected(PlaceFault::NoHeadThere);
        }
        if (!(angle->value() >= 0 && angle->value() <= kPi / 2 + 1e-12)) {
            return tl::unexpected(PlaceFault::OffTheHead);
        }
    } else if (const double off = std::get<Length>(on.from).value(); !(off >= 0 && off <= radius)) {
        return tl::unexpected(PlaceFault::OffTheHead);
    }
    const auto point = pointOnHead(shell, on);
    return point ? tl::expected<WallPoint, PlaceFault>(*point) : tl::unexpected(PlaceFault::OffTheHead);
}

Meridian::Meridian(const Shell& shell)
    : m_length(shell.length().value())
    , m_radius(shell.insideDiameter().get().value() / 2)
{
    const auto add = [&](double x, double radial) {
        if (!m_nodes.empty() && m_nodes.back().x == x && m_nodes.back().radial == radial) {
            return;
        }
        const double step = m_nodes.empty() ? 0 : std::hypot(x - m_nodes.back().x, radial - m_nodes.back().radial);
        m_nodes.push_back({m_nodes.empty() ? 0 : m_nodes.back().along + step, x, radial});
    };
    if (shell.head(Side::Left).depth().value() == 0) {
        add(0, 0);
    }
    for (const Piece& piece : shell.inside().pieces()) {
        const auto angle = [&](double x) { return std::asin(std::clamp((x - piece.centre) / piece.arcRadius, -1.0, 1.0)); };
        const int steps = piece.arc ? kStepsPerArc : 1;
        for (int i = 0; i <= steps; ++i) {
            const double share = static_cast<double>(i) / steps;
            double x = i == steps ? piece.to : piece.from + share * (piece.to - piece.from);
            if (piece.arc && i > 0 && i < steps) {
                x = piece.centre + piece.arcRadius * std::sin(angle(piece.from) + share * (angle(piece.to) - angle(piece.from)));
            }
            add(x, piece.radius(x));
        }
    }
    if (shell.head(Side::Right).depth().value() == 0) {
        add(m_length, 0);
    }
    // So far from the left pole; from now on from the left tangent line.
    double tangent = 0;
    for (const Node& node : m_nodes) {
        if (node.x <= 0) {
            tangent = node.along;
        }
    }
    for (Node& node : m_nodes) {
        node.along -= tangent;
    }
}

WallPoint Meridian::at(double along) const
{
    const auto after = std::find_if(m_nodes.begin() + 1, m_nodes.end() - 1, [&](const Node& node) { return node.along > along; });
    const Node& high = *after;
    const Node& low = *(after - 1);
    const double step = high.along - low.along;
    const double share = std::clamp((along - low.along) / step, 0.0, 1.0);
    WallPoint out{.x = low.x + share * (high.x - low.x), .radial = low.radial + share * (high.radial - low.radial)};
    out.normalX = -(high.radial - low.radial) / step;
    out.normalRadial = (high.x - low.x) / step;
    out.curveAround = out.radial > 1e-9 ? out.normalRadial / out.radial : 0;
    // How far the next chord turns away from this one, along one chord.
    if (after + 1 != m_nodes.end() && step < m_radius / 20) {
        const Node& next = *(after + 1);
        const double turn = std::remainder(
            std::atan2(high.radial - low.radial, high.x - low.x) - std::atan2(next.radial - high.radial, next.x - high.x), 2 * kPi);
        out.curveMeridian = turn / ((next.along - low.along) / 2);
    }
    return out;
}

tl::expected<Spot, PlaceFault> Meridian::spot(const Shell& shell, const Place& place) const
{
    const auto point = wallPoint(shell, place);
    if (!point) {
        return tl::unexpected(point.error());
    }
    if (std::holds_alternative<OnShell>(place.on)) {
        return Spot{std::clamp(point->x, 0.0, m_length), place.clock.value()};
    }
    const bool left = std::get<OnHead>(place.on).side == Side::Left;
    double best = std::numeric_limits<double>::infinity();
    Spot out{0, place.clock.value()};
    for (std::size_t i = 1; i < m_nodes.size(); ++i) {
        const Node& low = m_nodes[i - 1];
        const Node& high = m_nodes[i];
        if (left ? high.along > 1e-12 : low.along < m_length - 1e-12) {
            continue;
        }
        const double step = high.along - low.along;
        const double share = std::clamp(
            ((point->x - low.x) * (high.x - low.x) + (point->radial - low.radial) * (high.radial - low.radial)) / (step * step), 0.0, 1.0);
        const double off =
            std::hypot(low.x + share * (high.x - low.x) - point->x, low.radial + share * (high.radial - low.radial) - point->radial);
        if (off < best) {
            best = off;
            out.along = low.along + share * step;
        }
    }
    return out;
}

std::vector<PathPoint> pathThrough(const Meridian& meridian, std::span<const Spot> spots)
{
    std::vector<PathPoint> out;
    const auto add = [&](const Spot& spot) {
        const WallPoint point = meridian.at(spot.along);
        PathPoint next{spot, point.x, point.radial, 0};
        if (!out.empty()) {
            const PathPoint& last = out.back();
            next.run =
                last.run + std::hypot(spot.along - last.spot.along, (spot.clock - last.spot.clock) * (last.radial + point.radial) / 2);
        }
        out.push_back(next);
    };
    for (std::size_t i = 0; i < spots.size(); ++i) {
        if (i == 0) {
            add(spots[0]);
            continue;
        }
        const Spot& from = spots[i - 1];
        const Spot& to = spots[i];
        // Where the leg crosses a tangent line it gets a point there.
        std::vector<double> shares{1};
        for (const double tangent : {0.0, meridian.shellLength()}) {
            const double share = (tangent - from.along) / (to.along - from.along);
            if (share > 0 && share < 1) {
                shares.push_back(share);
            }
        }
        std::ranges::sort(shares);
        const bool dished = std::min(from.along, to.along) < 0 || std::max(from.along, to.along) > meridian.shellLength();
        double done = 0;
        for (const double share : shares) {
            const double turn = std::abs(to.clock - from.clock) * (share - done);
            const double along = std::abs(to.along - from.along) * (share - done);
            const int steps =
                1 + static_cast<int>(std::max(std::ceil(turn / kClockStep), dished ? std::ceil(along / (meridian.radius() / 100)) : 0.0));
            for (int j = 1; j <= steps; ++j) {
                const double at = done + (share - done) * j / steps;
                add({from.along + at * (to.along - from.along), from.clock + at * (to.clock - from.clock)});
            }
            done = share;
        }
    }
    return out;
}

} // namespace brimful::water
