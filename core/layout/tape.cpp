#include "core/layout/tape.h"

#include <boost/math/quadrature/gauss.hpp>

#include <algorithm>
#include <cmath>

namespace brimful::layout {

namespace {

double along(const vessel::Piece& piece, double from, double to)
{
    if (!piece.arc) {
        return (to - from) * std::hypot(1.0, piece.slope);
    }
    const auto angle = [&](double x) { return std::asin(std::clamp((x - piece.centre) / piece.arcRadius, -1.0, 1.0)); };
    const auto step = [&](double t) { return piece.arcRadius * std::hypot(std::cos(t), piece.stretch * std::sin(t)); };
    return boost::math::quadrature::gauss<double, 30>::integrate(step, angle(from), angle(to));
}

} // namespace

double tapeFromRightTip(const vessel::Profile& profile, double x)
{
    double sum = profile.radius(profile.to()); // a flat end: from its middle to its rim
    for (const vessel::Piece& piece : profile.pieces()) {
        if (piece.to > x) {
            sum += along(piece, std::max(piece.from, x), piece.to);
        }
    }
    return sum;
}

} // namespace brimful::layout
