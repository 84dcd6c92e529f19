#include "core/figure/joint_views.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace brimful::figure {

namespace {

constexpr double kPi = std::numbers::pi;
constexpr int kSteps = 72;

Line circle(std::string part, double x, double y, double radius)
{
    Line out{std::move(part), true, {}};
    for (int i = 0; i < kSteps; ++i) {
        const double t = 2 * kPi * i / kSteps;
        out.metres.emplace_back(x + radius * std::cos(t), y + radius * std::sin(t));
    }
    return out;
}

// A body of revolution between two places along its axis, closed only at an end of its own; dense towards both ends, where heads bend.
void addOutline(Result& out, const vessel::Profile& part, double low, double high)
{
    Points upper;
    for (int i = 0; i <= kSteps; ++i) {
        const double share = (1 - std::cos(kPi * i / kSteps)) / 2;
        const double x = low + (high - low) * share;
        upper.emplace_back(x, part.radius(std::clamp(x, part.from(), part.to())));
    }
    const bool left = low <= part.from();
    const bool right = high >= part.to();
    if (left && !right) { // begin and end where it is broken off
        std::reverse(upper.begin(), upper.end());
    }
    Points lower = upper;
    for (auto& [x, y] : lower) {
        y = -y;
    }
    if (left || right) {
        upper.insert(upper.end(), lower.rbegin(), lower.rend());
    } else {
        out.picture.push_back({"side:part", false, std::move(lower)});
    }
    out.picture.push_back({"side:part", left && right, std::move(upper)});
}

struct Pipe {
    layout::PipeAxis axis;
    double radius;
    double end; // along the axis

    struct Point {
        double x, y, z;
    };
    [[nodiscard]] Point at(double around, double along) const
    {
        const double a = radius * std::cos(around + axis.first);
        const double sine = std::sin(axis.lean);
        const double cosine = std::cos(axis.lean);
        return {axis.x + a * sine + along * cosine, axis.y + radius * std::sin(around + axis.first), axis.z - a * cosine + along * sine};
    }
};

} // namespace

void addPipeViews(Result& out, const vessel::Profile& part, double partRadius, const layout::PipeAxis& axis, double pipeRadius,
    const layout::Joint& dense, double ring)
{
    const Pipe pipe{axis, pipeRadius, dense.least + ring};
    double low = HUGE_VAL;
    double high = -HUGE_VAL;
    Line side{"side:edge", true, {}};
    Line end{"end:edge", true, {}};
    for (const layout::Generator& one : dense.generators) {
        low = std::min(low, one.x);
        high = std::max(high, one.x);
        side.metres.emplace_back(one.x, one.z);
        end.metres.emplace_back(-one.y, one.z); // the left of one who looks along the part is left on the page
    }
    addOutline(out, part, std::max(part.from(), low - partRadius), std::min(part.to(), high + partRadius));
    out.picture.push_back(circle("end:part", 0, 0, partRadius));
    // The pipe's outlines: where its wall turns away from the eye.
    const auto edges = [&](const char* name, std::array<double, 2> places, auto&& page) {
        Line line{name, false, {}};
        const auto cutAt = [&](double around) {
            const auto count = static_cast<double>(dense.generators.size());
            return dense.generators[static_cast<std::size_t>(std::lround(around / (2 * kPi) * count)) % dense.generators.size()].cut;
        };
        line.metres = {page(pipe.at(places[0], cutAt(places[0]))), page(pipe.at(places[0], pipe.end)), page(pipe.at(places[1], pipe.end)),
            page(pipe.at(places[1], cutAt(places[1])))};
        out.picture.push_back(std::move(line));
    };
    edges("side:pipe", {0, kPi}, [](const Pipe::Point& p) { return std::pair(p.x, p.z); });
    edges("end:pipe", {kPi / 2, 3 * kPi / 2}, [](const Pipe::Point& p) { return std::pair(-p.y, p.z); });
    out.picture.push_back(std::move(side));
    out.picture.push_back(std::move(end));
}

void addHeadViews(Result& out, double left, double right, double distance, double plane, double edge)
{
    out.picture.push_back(circle("side:part", 0, 0, left));
    out.picture.push_back(circle("side:part", distance, 0, right));
    out.picture.push_back({"side:edge", false, {{plane, -edge}, {plane, edge}}});
    out.picture.push_back(circle("end:part", 0, 0, left));
    out.picture.push_back(circle("end:edge", 0, 0, edge));
}

void addHeadOnShellViews(Result& out, double head, double shell, double distance, const std::vector<std::pair<double, double>>& quarter)
{
    const double reach = 1.2 * (head + shell);
    for (const double up : {shell, -shell}) {
        out.picture.push_back({"side:part", false, {{-reach, up}, {reach, up}}});
    }
    out.picture.push_back(circle("side:pipe", 0, distance, head));
    out.picture.push_back(circle("end:part", 0, 0, shell));
    out.picture.push_back(circle("end:pipe", 0, distance, head));
    Line side{"side:edge", false, {}};
    Line end{"end:edge", false, {}};
    for (const auto& [along, around] : quarter) {
        side.metres.emplace_back(along, shell * std::cos(around));
        end.metres.emplace_back(shell * std::sin(around), shell * std::cos(around));
    }
    for (Line* const one : {&side, &end}) { // the other half is its mirror image
        Points mirrored;
        for (const auto& [x, y] : one->metres) {
            mirrored.emplace_back(-x, y);
        }
        std::reverse(mirrored.begin(), mirrored.end());
        one->metres.insert(one == &end ? one->metres.begin() : one->metres.end(), mirrored.begin(), mirrored.end());
        out.picture.push_back(std::move(*one));
    }
}

void standInARow(Result& out)
{
    constexpr double kBetween = 0.05;
    const auto groupOf = [](const Line& line) {
        return line.part.starts_with("side:")              ? 2
            : line.part.starts_with("end:")                ? 3
            : line.part.find(":hole") != std::string::npos ? 1
                                                           : 0;
    };
    std::array<double, 4> low{HUGE_VAL, HUGE_VAL, HUGE_VAL, HUGE_VAL};
    std::array<double, 4> high{-HUGE_VAL, -HUGE_VAL, -HUGE_VAL, -HUGE_VAL};
    for (const Line& line : out.picture) {
        const auto group = static_cast<std::size_t>(groupOf(line));
        for (const auto& [x, y] : line.metres) {
            low.at(group) = std::min(low.at(group), x);
            high.at(group) = std::max(high.at(group), x);
        }
    }
    std::array<double, 4> shift{};
    double next = 0;
    for (std::size_t i = 0; i < shift.size(); ++i) {
        if (low.at(i) <= high.at(i)) {
            shift.at(i) = i == 0 ? 0 : next - low.at(i);
            next = high.at(i) + shift.at(i) + kBetween;
        }
    }
    for (Line& line : out.picture) {
        for (auto& [x, y] : line.metres) {
            x += shift.at(static_cast<std::size_t>(groupOf(line)));
        }
    }
}

} // namespace brimful::figure
