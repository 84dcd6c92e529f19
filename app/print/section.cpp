#include "app/print/section.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string_view>

namespace brimful::print {

namespace {

constexpr double kDegree = std::numbers::pi / 180.0;

// Depth of a head as a share of the radius, for the drawing only; the figures know it exactly.
double depthShare(std::string_view head)
{
    if (head == "flat") {
        return 0.0;
    }
    if (head.starts_with("ellipsoidal")) {
        return 0.5;
    }
    if (head == "torispherical") {
        return 0.34;
    }
    return head == "conical" ? 0.7 : 1.0;
}

struct Body {
    double radius_m, length_m, left_m, right_m;
    bool known;
};

Body bodyOf(const report::ShellView& shell)
{
    const bool known = shell.outside_diameter_m > 0.0;
    const double radius = known ? shell.outside_diameter_m / 2 : 0.5;
    const double length = known ? std::max(shell.shell_length_m, 0.0) : 2.1;
    return {radius, length, radius * depthShare(shell.left_head), radius * depthShare(shell.right_head), known};
}

QPainterPath bodyPath(double radius, double length, double left, double right)
{
    QPainterPath path;
    path.moveTo(0, -radius);
    path.lineTo(length, -radius);
    if (right > 0) {
        path.arcTo(QRectF(length - right, -radius, 2 * right, 2 * radius), 90, -180);
    } else {
        path.lineTo(length, radius);
    }
    path.lineTo(0, radius);
    if (left > 0) {
        path.arcTo(QRectF(-left, -radius, 2 * left, 2 * radius), 270, -180);
    }
    path.closeSubpath();
    return path;
}

} // namespace

QPainterPath Section::outline(double grow) const
{
    const double r = std::max(radius + grow, 1.0);
    const auto deep = [&](double depth) { return depth > 0 ? std::max(depth + grow, 0.0) : 0.0; };
    const double flat_left = left_depth > 0 ? 0 : grow;
    const double flat_right = right_depth > 0 ? 0 : grow;
    QPainterPath path = bodyPath(r, length + flat_left + flat_right, deep(left_depth), deep(right_depth));
    path.translate(-flat_left, 0);
    return to_page.map(path);
}

double Section::radiusAt(double x) const
{
    const double beyond = x < 0 ? -x : x - length;
    const double depth = x < 0 ? left_depth : right_depth;
    if (beyond <= 0) {
        return radius;
    }
    return depth > beyond ? radius * std::sqrt(1 - beyond * beyond / (depth * depth)) : 0.0;
}

QPointF Section::outward(double x, double y) const
{
    const QPointF v = to_page.map(QPointF(x, -y)) - to_page.map(QPointF(0, 0));
    const double size = std::hypot(v.x(), v.y());
    return size > 0 ? v / size : QPointF(0, -1);
}

Section layOut(const report::VesselView& view, const DrawOptions& options, const Margins& margins)
{
    const Body body = bodyOf(view.shell);
    Section s;
    s.u = options.line_scale;
    s.nothing_known = !body.known;
    const double pitch = view.pitch_deg.value_or(0.0);
    s.times = options.labels && std::abs(pitch) < 5.0 && pitch != 0.0 ? options.steeper : 1.0;
    s.tilt_deg = pitch * s.times;
    QTransform turn;
    turn.rotate(-s.tilt_deg);
    const QRectF bounds = turn.map(bodyPath(body.radius_m, body.length_m, body.left_m, body.right_m)).boundingRect();
    const QRectF room = options.box.adjusted(margins.side, margins.top, -margins.side, -margins.stand - margins.words);
    s.scale = options.px_per_m > 0 ? options.px_per_m : std::min(room.width() / bounds.width(), room.height() / bounds.height());
    s.scale = std::max(s.scale, 1e-3);
    s.radius = std::max(body.radius_m * s.scale - s.wall() / 2, 1.0);
    s.length = body.length_m * s.scale;
    const auto depth = [&](double metres) { return metres > 0 ? std::max(metres * s.scale - s.wall() / 2, 0.5) : 0.0; };
    s.left_depth = depth(body.left_m);
    s.right_depth = depth(body.right_m);
    const double x = room.center().x() - bounds.center().x() * s.scale;
    const double y = options.ground ? room.bottom() - bounds.bottom() * s.scale : room.center().y() - bounds.center().y() * s.scale;
    s.to_page.translate(x, y);
    s.to_page.rotate(-s.tilt_deg);
    s.ground = options.box.bottom() - margins.words - 2 * s.u;
    return s;
}

Nozzle::Side sideOf(const report::OpeningView& opening)
{
    if (opening.head == "left") {
        return Nozzle::Side::LeftEnd;
    }
    if (opening.head == "right") {
        return Nozzle::Side::RightEnd;
    }
    const double up = std::cos(opening.clock_deg * kDegree);
    if (up > 0.6) {
        return Nozzle::Side::Top;
    }
    if (up < -0.6) {
        return Nozzle::Side::Bottom;
    }
    return std::sin(opening.clock_deg * kDegree) > 0 ? Nozzle::Side::Near : Nozzle::Side::Far;
}

std::vector<Nozzle> nozzles(const report::VesselView& view, const Section& s)
{
    std::vector<Nozzle> all;
    for (const report::OpeningView& opening : view.openings) {
        Nozzle n;
        n.opening = &opening;
        n.side = sideOf(opening);
        const double x = std::clamp(opening.from_left_tangent_m * s.scale, -s.left_depth * 0.6, s.length + s.right_depth * 0.6);
        switch (n.side) {
        case Nozzle::Side::Top:
            n.root = s.at(x, s.radiusAt(x));
            n.out = s.outward(0, 1);
            break;
        case Nozzle::Side::Bottom:
            n.root = s.at(x, -s.radiusAt(x));
            n.out = s.outward(0, -1);
            break;
        case Nozzle::Side::Near:
        case Nozzle::Side::Far:
            n.root = s.at(x, s.radiusAt(x) * std::cos(opening.clock_deg * kDegree));
            n.out = QPointF(0, 0);
            break;
        case Nozzle::Side::LeftEnd:
            n.root = s.at(-s.left_depth, 0);
            n.out = s.outward(-1, 0);
            break;
        case Nozzle::Side::RightEnd:
            n.root = s.at(s.length + s.right_depth, 0);
            n.out = s.outward(1, 0);
            break;
        }
        all.push_back(n);
    }
    return all;
}

} // namespace brimful::print
