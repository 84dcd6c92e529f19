#include "core/vessel/profile.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numbers>

namespace brimful::vessel {

namespace {

constexpr double kPi = std::numbers::pi;

double root(double value) { return std::sqrt(std::max(0.0, value)); }

} // namespace

double Piece::volume(double low, double high) const
{
    if (!arc) {
        const auto sum = [&](double x) { return x * (offset * offset + x * (offset * slope + x * slope * slope / 3)); };
        return kPi * (sum(high) - sum(low));
    }
    const double r = arcRadius;
    const auto sum = [&](double x) {
        const double w = std::clamp(x - centre, -r, r);
        double out = (offset * offset + stretch * stretch * r * r) * w - stretch * stretch * w * w * w / 3;
        if (offset != 0) {
            out += offset * stretch * (w * root(r * r - w * w) + r * r * std::asin(w / r));
        }
        return out;
    };
    return kPi * (sum(high) - sum(low));
}

double Piece::moment(double low, double high) const
{
    if (!arc) {
        const auto sum = [&](double x) { return x * x * (offset * offset / 2 + x * (2 * offset * slope / 3 + x * slope * slope / 4)); };
        return kPi * (sum(high) - sum(low));
    }
    const double r = arcRadius;
    const auto sum = [&](double x) {
        const double w = std::clamp(x - centre, -r, r);
        const double under = std::max(0.0, r * r - w * w);
        return w * w * (offset * offset / 2 + stretch * stretch * (r * r / 2 - w * w / 4))
            - 2 * offset * stretch * under * std::sqrt(under) / 3;
    };
    return kPi * (sum(high) - sum(low)) + centre * volume(low, high);
}

void Profile::add(const Piece& piece)
{
    assert(m_count < kMostPieces);
    if (piece.to > piece.from) {
        m_pieces[m_count++] = piece;
    }
}

double Profile::radius(double x) const
{
    for (const Piece& piece : pieces()) {
        if (x >= piece.from && x <= piece.to) {
            return piece.radius(x);
        }
    }
    return 0;
}

double Profile::volume() const
{
    double sum = 0;
    for (const Piece& piece : pieces()) {
        sum += piece.volume(piece.from, piece.to);
    }
    return sum;
}

double Profile::reach(double sine, double cosine) const
{
    double most = -HUGE_VAL;
    for (const Piece& piece : pieces()) {
        most = std::max({most, piece.from * sine + piece.radius(piece.from) * cosine, piece.to * sine + piece.radius(piece.to) * cosine});
        if (piece.arc) {
            // Where the normal of the arc points that way: (x - centre) / r^2 : (radius - offset) / (stretch r)^2 = sine : cosine.
            const double length = std::hypot(sine, piece.stretch * cosine);
            const double x = piece.centre + piece.arcRadius * sine / length;
            if (length > 0 && x > piece.from && x < piece.to) {
                most = std::max(most, x * sine + piece.radius(x) * cosine);
            }
        }
    }
    return most;
}

} // namespace brimful::vessel
