#include "core/figure/development.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace brimful::figure {

void addPipePattern(Result& out, const layout::Joint& dense, const layout::Joint& shown, double wrapRadius, double ring)
{
    const double girth = 2 * std::numbers::pi * wrapRadius;
    const double base = std::min(dense.least, shown.least);
    Line cut{"cut:pipe", false, {}};
    for (const layout::Generator& one : dense.generators) {
        cut.metres.emplace_back(wrapRadius * one.around, one.cut - base);
    }
    cut.metres.emplace_back(girth, cut.metres.front().second);
    const double end = cut.metres.front().second;
    out.picture.push_back({"line:pipe", false, {{0, ring}, {girth, ring}}});
    out.picture.push_back({"seam:pipe", false, {{0, end}, {0, ring}}});
    out.picture.push_back({"seam:pipe", false, {{girth, end}, {girth, ring}}});
    out.picture.push_back(std::move(cut));
    for (std::size_t i = 0; i < shown.generators.size(); ++i) {
        const layout::Generator& one = shown.generators[i];
        const double x = wrapRadius * one.around;
        out.picture.push_back({"mark:pipe:" + std::to_string(i), false, {{x, ring}, {x, one.cut - base}}});
    }
}

void addHolePattern(Result& out, std::string_view pattern, Points outline, double along, double around)
{
    double reachX = 0;
    double reachY = 0;
    for (const auto& [x, y] : outline) {
        reachX = std::max(reachX, std::abs(x - along));
        reachY = std::max(reachY, std::abs(y - around));
    }
    const double margin = 0.02; // the centre lines stand out, so that they can be laid on the lines of the work
    const std::string name(pattern);
    out.picture.push_back({"centre:" + name, false, {{along - reachX - margin, around}, {along + reachX + margin, around}}});
    out.picture.push_back({"mark:" + name + ":", false, {{along, around - reachY - margin}, {along, around + reachY + margin}}});
    out.picture.push_back({"cut:" + name, true, std::move(outline)});
}

double areaWithin(const Points& closed)
{
    double twice = 0;
    for (std::size_t i = 0; i < closed.size(); ++i) {
        const auto& [x, y] = closed[i];
        const auto& [nextX, nextY] = closed[(i + 1) % closed.size()];
        twice += x * nextY - nextX * y;
    }
    return std::abs(twice) / 2;
}

} // namespace brimful::figure
