#include "core/figure/mark_out_picture.h"

#include "core/figure/picture.h"

#include <algorithm>
#include <cmath>

namespace brimful::figure {

using layout::Kind;

namespace {

constexpr double kPi = std::numbers::pi;

} // namespace

// A straight pipe's hole in the shell, or a rectangle with round corners; unrolled, seen from outside, clockwise downward.
Points outlineOf(const FeatureRead& one, const MarkOutSettings& s)
{
    Points out;
    if (one.round) {
        constexpr int kSteps = 360;
        for (int i = 0; i < kSteps; ++i) {
            const double t = 2 * kPi * i / kSteps;
            const double across = std::asin(std::min(1.0, one.lines.radius * std::abs(std::sin(t)) / s.radius)) * s.radius;
            out.emplace_back(one.lines.along + one.lines.radius * std::cos(t), -one.lines.around + std::copysign(across, std::sin(t)));
        }
        return out;
    }
    const double r = one.cornerRadius;
    const std::array<std::pair<double, double>, 4> corners{
        {{one.lines.alongTo - r, -one.lines.around - r}, {one.lines.along + r, -one.lines.around - r},
            {one.lines.along + r, -one.lines.aroundTo + r}, {one.lines.alongTo - r, -one.lines.aroundTo + r}}};
    for (std::size_t i = 0; i < corners.size(); ++i) {
        const int steps = r > 0 ? 30 : 0;
        for (int j = 0; j <= steps; ++j) {
            const double t = kPi / 2 * (static_cast<double>(i) + (steps > 0 ? static_cast<double>(j) / steps : 0));
            out.emplace_back(corners.at(i).first + r * std::cos(t), corners.at(i).second + r * std::sin(t));
        }
    }
    return out;
}

namespace {

// Ticks across the line where the cut stops and the tab begins.
void drawTabs(const FeatureRead& one, const MarkOutSettings& s, Result& out)
{
    constexpr double kTick = 0.006;
    const double stop = stopOf(one, s);
    const auto tick = [&](double x, double y, double dx, double dy) {
        out.picture.push_back({"mark:" + one.name + ":", false, {{x - dx, y - dy}, {x + dx, y + dy}}});
    };
    for (const double y : {-one.lines.around, -one.lines.aroundTo}) {
        tick(one.lines.along + stop, y, 0, kTick);
        tick(one.lines.alongTo - stop, y, 0, kTick);
    }
    for (const double x : {one.lines.along, one.lines.alongTo}) {
        tick(x, -one.lines.around - stop, kTick, 0);
        tick(x, -one.lines.aroundTo + stop, kTick, 0);
    }
}

// A rectangle or a circle grown outward on the flat, as distances over the shell are taken.
Line grown(std::string part, const layout::Footprint& at, double by)
{
    Line out{std::move(part), true, {}};
    constexpr int kQuarter = 12;
    const double r = at.radius + by;
    const std::array<std::pair<double, double>, 4> corners{
        {{at.alongTo, -at.around}, {at.along, -at.around}, {at.along, -at.aroundTo}, {at.alongTo, -at.aroundTo}}};
    for (std::size_t i = 0; i < corners.size(); ++i) {
        for (int j = 0; j <= kQuarter; ++j) {
            const double t = kPi / 2 * (static_cast<double>(i) + static_cast<double>(j) / kQuarter);
            out.metres.emplace_back(corners.at(i).first + r * std::cos(t), corners.at(i).second + r * std::sin(t));
        }
    }
    return out;
}

void drawDoor(const FeatureRead& one, const MarkOutSettings& s, Result& out)
{
    drawTabs(one, s, out);
    out.picture.push_back(grown("strap:" + one.name, one.lines, s.reach(one.kind)));
    const layout::Footprint& at = one.lines;
    if (one.hingeSide == "first-line" || one.hingeSide == "second-line") {
        const double y = -(one.hingeSide == "first-line" ? at.around : at.aroundTo);
        out.picture.push_back({"hinge:" + one.name, false, {{at.along + one.cornerRadius, y}, {at.alongTo - one.cornerRadius, y}}});
    } else if (!one.hingeSide.empty()) {
        const double x = one.hingeSide == "left-end" ? at.along : at.alongTo;
        out.picture.push_back({"hinge:" + one.name, false, {{x, -at.around - one.cornerRadius}, {x, -at.aroundTo + one.cornerRadius}}});
    }
}

// Where the wall has water behind it: at each place along, from where the level meets the near side round the bottom to where it
// meets the far side. The level stands square to the plumb line: along the axis it falls by the tangent of the pitch.
void drawWater(const MarkOutSettings& s, const WaterRead& water, Result& out)
{
    constexpr int kSteps = 64;
    const double inside = s.radius - s.wall;
    const double girth = s.girth();
    for (int turn = 0; turn < 3; ++turn) { // the shell laid out over again to either side, cut back to one girth
        Points low;
        Points high;
        for (int i = 0; i <= kSteps; ++i) {
            const double x = s.length * i / kSteps;
            const double level = (*water.level - x * std::sin(water.pitch)) / std::cos(water.pitch) / inside;
            const double half = std::acos(std::clamp(level, -1.0, 1.0)); // of the dry part, from the top
            const double shift = (turn - 1) * girth;
            const double top = -(water.roll + water.datum) * s.radius + shift;
            low.emplace_back(x, -std::clamp(top + half * s.radius, 0.0, girth));
            high.emplace_back(x, -std::clamp(top + girth - half * s.radius, 0.0, girth));
        }
        double widest = 0;
        for (std::size_t i = 0; i < low.size(); ++i) {
            widest = std::max(widest, low[i].second - high[i].second);
        }
        if (widest > 1e-6) {
            low.insert(low.end(), high.rbegin(), high.rend());
            out.picture.push_back({"wet:" + std::to_string(turn), true, std::move(low)});
        }
    }
}

} // namespace

void drawMarkOut(
    const std::vector<FeatureRead>& features, const MarkOutSettings& s, const vessel::Shell& shell, const WaterRead& water, Result& out)
{
    if (water.level) {
        drawWater(s, water, out);
    }
    out.picture.push_back({"outline", true, {{0, 0}, {s.length, 0}, {s.length, -s.girth()}, {0, -s.girth()}}});
    out.picture.push_back({"datum", false, {{0, 0}, {s.length, 0}}});
    for (int i = 1; i < 4; ++i) {
        out.picture.push_back({"quarter:" + std::to_string(i), false, {{0, -s.girth() * i / 4}, {s.length, -s.girth() * i / 4}}});
    }
    for (const FeatureRead& one : features) {
        if (layout::isCut(one.kind)) {
            const double middle = (one.lines.along + one.lines.alongTo) / 2;
            addHolePattern(out, one.name, outlineOf(one, s), middle, -(one.lines.around + one.lines.aroundTo) / 2);
            if (one.kind == Kind::Door) {
                drawDoor(one, s, out);
            }
            continue;
        }
        out.picture.push_back(grown("clear:" + one.name, one.lines, layout::clearanceOf(s.clearances, one.kind)));
        if (one.kind == Kind::Seam || one.kind == Kind::GirthSeam) {
            out.picture.push_back(
                {"weld:" + one.name, false, {{one.lines.along, -one.lines.around}, {one.lines.alongTo, -one.lines.aroundTo}}});
        } else {
            out.picture.push_back({"thing:" + one.name, true, outlineOf(one, s)});
        }
    }
    for (Line& line : longSection(shell, vessel::Pose{}, std::nullopt, {})) {
        if (line.part == "metal") {
            line.part = "profile";
            out.picture.push_back(std::move(line));
        }
    }
}

} // namespace brimful::figure
