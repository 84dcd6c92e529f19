#include "core/figure/picture.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

namespace brimful::figure {

namespace {

using Point = std::pair<double, double>;
using Points = std::vector<Point>;

constexpr int kStepsPerArc = 24;

// From left tip over the top to the right tip and back below, in the body's own frame.
Points outline(const vessel::Profile& profile)
{
    Points upper;
    upper.reserve(2 + vessel::Profile::kMostPieces * kStepsPerArc);
    for (const vessel::Piece& piece : profile.pieces()) {
        if (upper.empty()) {
            upper.emplace_back(piece.from, piece.radius(piece.from));
        }
        if (piece.arc) {
            // Evenly in the angle of an arc, so that a tip is as round as its shoulder; turned on by one step each time.
            const double low = std::asin(std::max(-1.0, (piece.from - piece.centre) / piece.arcRadius));
            const double high = std::asin(std::min(1.0, (piece.to - piece.centre) / piece.arcRadius));
            const double turn = (high - low) / kStepsPerArc;
            const Point by{std::sin(turn), std::cos(turn)};
            Point at{std::sin(low), std::cos(low)};
            for (int i = 1; i < kStepsPerArc; ++i) {
                at = {at.first * by.second + at.second * by.first, at.second * by.second - at.first * by.first};
                upper.emplace_back(piece.centre + piece.arcRadius * at.first, piece.offset + piece.stretch * piece.arcRadius * at.second);
            }
        }
        upper.emplace_back(piece.to, piece.radius(piece.to));
    }
    Points out;
    out.reserve(2 * upper.size());
    out = upper;
    for (auto point = upper.rbegin(); point != upper.rend(); ++point) {
        if (point->second > 0) {
            out.emplace_back(point->first, -point->second);
        }
    }
    return out;
}

Point lain(const Point& point, double pitch)
{
    return {point.first * std::cos(pitch) - point.second * std::sin(pitch), point.first * std::sin(pitch) + point.second * std::cos(pitch)};
}

Points lain(Points points, double pitch)
{
    const double sine = std::sin(pitch);
    const double cosine = std::cos(pitch);
    for (auto& [x, y] : points) {
        const double along = x;
        x = along * cosine - y * sine;
        y = along * sine + y * cosine;
    }
    return points;
}

// The part of a convex outline on one side of a level: sign +1 below, -1 above.
Points parted(const Points& whole, double level, double sign)
{
    Points out;
    out.reserve(whole.size() + 2);
    for (std::size_t i = 0; i < whole.size(); ++i) {
        const Point& here = whole[i];
        const Point& next = i + 1 < whole.size() ? whole[i + 1] : whole.front();
        const double from = sign * (level - here.second);
        const double to = sign * (level - next.second);
        if (from >= 0) {
            out.push_back(here);
        }
        if ((from > 0 && to < 0) || (from < 0 && to > 0)) {
            out.emplace_back(here.first + (next.first - here.first) * from / (from - to), level);
        }
    }
    return out;
}

// An opening seen from the side: from its inner mouth to its lip, along the wall's normal.
Line opening(const vessel::Shell& shell, const vessel::Pose& pose, const water::Opening& opening)
{
    Line out{"opening:" + opening.name, false, {}};
    const auto mouth = water::Mouth::make(shell, opening);
    if (!mouth) {
        return out;
    }
    const auto [inner, outer] = mouth->ends();
    const double side = std::cos(opening.place.clock.value() + pose.roll.value());
    for (const auto& [x, radial] : {inner, outer}) {
        out.metres.push_back(lain({x.value(), radial.value() * side}, pose.pitch.value()));
    }
    return out;
}

// A snorkel from the side, as it is bent: in through the opening, under the wall, up to its mouth.
Line tube(const vessel::Shell& shell, const vessel::Pose& pose, const water::Opening& opening)
{
    Line out{"snorkel:" + opening.name, false, {}};
    const auto through = water::Mouth::make(shell, opening);
    const auto mouth = water::wallPoint(shell, opening.snorkel->mouth);
    if (!through || !mouth) {
        return out;
    }
    const double radius = shell.insideDiameter().get().value() / 2;
    const double bend = 0.15 * radius;
    const double out_by = (opening.snorkel->packed ? 0.4 : 0.15) * radius;
    const auto [inner, outer] = through->ends();
    const double side = std::cos(opening.place.clock.value() + pose.roll.value());
    const double up = std::cos(opening.snorkel->mouth.clock.value() + pose.roll.value());
    const double down = opening.snorkel->belowWall.value();
    const Point end(mouth->x - mouth->normalX * down, (mouth->radial - mouth->normalRadial * down) * up);
    for (const Point& point : {Point(outer.fromLeftTangent.value(), (outer.fromAxis.value() + out_by) * side),
             Point(inner.fromLeftTangent.value(), (inner.fromAxis.value() - bend) * side), Point(end.first, end.second - bend), end}) {
        out.metres.push_back(lain(point, pose.pitch.value()));
    }
    return out;
}

} // namespace

Line wallLine(std::string part, const vessel::Pose& pose, std::span<const water::PathPoint> path)
{
    Line out{std::move(part), false, {}};
    for (const water::PathPoint& point : path) {
        const double up = point.radial * std::cos(point.spot.clock + pose.roll.value());
        out.metres.push_back(lain(Point(point.x, up), pose.pitch.value()));
    }
    return out;
}

std::vector<Line> longSection(
    const vessel::Shell& shell, const vessel::Pose& pose, std::optional<quantity::Length> level, std::span<const water::Opening> openings)
{
    const double pitch = pose.pitch.value();
    const Points inside = lain(outline(shell.inside()), pitch);
    std::vector<Line> out;
    if (shell.wall().value() > 0) {
        out.push_back({"metal", true, lain(outline(shell.outside()), pitch)});
    }
    out.push_back({"shell", true, inside});
    if (level) {
        for (const auto& [part, sign] : {std::pair("water", 1.0), std::pair("pocket", -1.0)}) {
            if (Points points = parted(inside, level->value(), sign); points.size() > 2) {
                out.push_back({part, true, std::move(points)});
            }
        }
    }
    for (const water::Opening& one : openings) {
        out.push_back(opening(shell, pose, one));
        if (one.snorkel) {
            out.push_back(tube(shell, pose, one));
        }
    }
    return out;
}

namespace {

constexpr int kStepsRound = 72;

double farRight(const std::vector<Line>& drawn)
{
    double out = -1e300;
    for (const Line& line : drawn) {
        for (const Point& point : line.metres) {
            out = std::max(out, point.first);
        }
    }
    return out;
}

} // namespace

void addCrossSection(std::vector<Line>& drawn, const vessel::Shell& shell, const vessel::Pose& pose, quantity::Length x,
    std::optional<quantity::Length> level, std::span<const water::Opening> openings)
{
    const double cosine = std::cos(pose.pitch.value());
    constexpr double kSteep = 0.5; // of the cosine
    if (cosine < kSteep || drawn.empty()) {
        return;
    }
    const double radius = shell.radiusAt(x).value();
    const double outside = radius + shell.wall().value();
    const Point centre{farRight(drawn) + 1.25 * outside, x.value() * std::sin(pose.pitch.value())};
    // Heights are true, so that the level runs on from the long section.
    const auto at = [&](double r, double clock) {
        return Point(centre.first + r * std::sin(clock), centre.second + r * std::cos(clock) * cosine);
    };
    const auto ring = [&](double r) {
        Points out;
        for (int i = 0; i < kStepsRound; ++i) {
            out.push_back(at(r, 2 * std::numbers::pi * i / kStepsRound));
        }
        return out;
    };
    const Points inside = ring(radius);
    if (shell.wall().value() > 0) {
        drawn.push_back({"across:metal", true, ring(outside)});
    }
    drawn.push_back({"across:shell", true, inside});
    if (level) {
        for (const auto& [part, sign] : {std::pair("across:water", 1.0), std::pair("across:pocket", -1.0)}) {
            if (Points points = parted(inside, level->value(), sign); points.size() > 2) {
                drawn.push_back({part, true, std::move(points)});
            }
        }
    }
    for (const water::Opening& one : openings) {
        const auto mouth = water::Mouth::make(shell, one);
        if (!mouth) {
            continue;
        }
        const auto [inner, outer] = mouth->ends();
        if (inner.fromLeftTangent.value() >= 0 && inner.fromLeftTangent <= shell.length()) {
            const double clock = one.place.clock.value() + pose.roll.value();
            drawn.push_back({"across:opening:" + one.name, false, {at(inner.fromAxis.value(), clock), at(outer.fromAxis.value(), clock)}});
        }
    }
}

void addSupports(
    std::vector<Line>& drawn, const vessel::Shell& shell, const vessel::Pose& pose, std::span<const quantity::Length> fromLeftTangent)
{
    const double pitch = pose.pitch.value();
    const double radius = shell.insideDiameter().get().value() / 2 + shell.wall().value();
    double ground = 1e300;
    double left = 1e300;
    double right = -1e300;
    for (const Line& line : drawn) {
        for (const Point& point : line.metres) {
            ground = std::min(ground, point.second);
            left = std::min(left, point.first);
            right = std::max(right, point.first);
        }
    }
    ground -= 0.3 * radius;
    int number = 0;
    for (const quantity::Length& place : fromLeftTangent) {
        const Point top = lain(Point(place.value(), -radius), pitch);
        const double head = 0.16 * radius;
        const double foot = 0.28 * radius;
        drawn.push_back({"support:" + std::to_string(++number), true,
            {{top.first - head, top.second}, {top.first + head, top.second}, {top.first + foot, ground}, {top.first - foot, ground}}});
    }
    drawn.push_back({"ground", false, {{left, ground}, {right, ground}}});
}

} // namespace brimful::figure
