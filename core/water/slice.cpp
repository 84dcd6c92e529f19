#include "core/water/slice.h"

#include <boost/math/quadrature/gauss_kronrod.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace brimful::water {

namespace {

using vessel::Piece;
using vessel::Profile;

constexpr double kPi = std::numbers::pi;
constexpr double kAgreement = 1e-9; // of the 10 and the 21 point sums; the latter is then far better than 1e-10
constexpr int kMostBisections = 14;

// x - sin x for 0 <= x <= 1 without cancellation.
double arcLessSine(double x)
{
    const double q = x * x;
    double term = x * q / 6;
    double sum = term;
    for (int n = 5; n < 19; n += 2) {
        term *= -q / static_cast<double>((n - 1) * n);
        sum += term;
    }
    return sum;
}

// Area below the chord at y, half of which is `half`.
double segment(double radius, double y, double half)
{
    if (y <= -radius) {
        return 0;
    }
    if (y >= radius) {
        return kPi * radius * radius;
    }
    if (y > -0.9 * radius) {
        return radius * radius * std::acos(-y / radius) + y * half;
    }
    return radius * radius / 2 * arcLessSine(2 * std::asin(half / radius));
}

// Nodes on [-1, 1] mapped by x = middle + half * sin(pi t / 2).
struct Node {
    double t;
    double weight21;
    double weight10;
};

std::array<Node, 21> makeNodes()
{
    using Rule = boost::math::quadrature::gauss_kronrod<double, 21>;
    using Inner = boost::math::quadrature::gauss<double, 10>;
    const auto& places = Rule::abscissa(); // 0 and the positive ones, rising; every second is one of the inner rule's
    const auto& outer = Rule::weights();
    const auto& inner = Inner::weights();
    std::array<Node, 21> out{};
    std::size_t next = 0;
    for (std::size_t i = 0; i < places.size(); ++i) {
        const double weight10 = i % 2 == 1 ? inner[i / 2] : 0;
        out[next++] = {places[i], outer[i], weight10};
        if (i > 0) {
            out[next++] = {-places[i], outer[i], weight10};
        }
    }
    return out;
}

// The nodes of one panel: where they lie (of half the piece, from its middle) and how much x moves there.
struct Placed {
    double sine;
    double stretch;
    double weight21;
    double weight10;
};
using Panel = std::array<Placed, 21>;

Panel makePanel(double from, double to)
{
    static const std::array<Node, 21> kNodes = makeNodes();
    Panel out{};
    const double center = (from + to) / 2;
    const double reach = (to - from) / 2;
    for (std::size_t i = 0; i < out.size(); ++i) {
        const double angle = kPi / 2 * (center + reach * kNodes[i].t);
        out[i] = {std::sin(angle), kPi / 2 * std::cos(angle) * reach, kNodes[i].weight21, kNodes[i].weight10};
    }
    return out;
}

Sums gauss(const Piece& piece, const Surface& surface, double middle, double half, const Panel& panel, Sums& coarse)
{
    Sums fine;
    coarse = {};
    for (const Placed& node : panel) {
        const double x = middle + half * node.sine;
        const double stretch = half * node.stretch;
        const double radius = piece.radius(x);
        const double y = surface.rise + surface.fall * x;
        const double under = std::max(0.0, (radius - y) * (radius + y));
        const double chord = std::sqrt(under); // half of it
        const double slice = segment(radius, y, chord) * stretch;
        const double half_chord = chord * stretch;
        // A segment's first moment about the centre of its circle is -(2/3) (r^2 - y^2)^(3/2).
        const double up = -2 * under * half_chord / 3;
        fine += {slice * node.weight21, 2 * half_chord * node.weight21, x * slice * node.weight21, up * node.weight21, 0};
        coarse += {slice * node.weight10, 2 * half_chord * node.weight10, 0, 0, 0};
    }
    return fine;
}

// Differences below these are rounding, not doubt: a sliver of water is made of little else.
struct Floor {
    double volume;
    double surface;
};

Sums bisect(const Piece& piece, const Surface& surface, const Floor& floor, double middle, double half, double from, double to, int left)
{
    // Most pieces agree at once or in halves: those nodes never change.
    static const Panel kWhole = makePanel(-1, 1);
    static const std::array<Panel, 2> kHalves{makePanel(-1, 0), makePanel(0, 1)};
    Sums coarse;
    Sums fine;
    if (left == kMostBisections) {
        fine = gauss(piece, surface, middle, half, kWhole, coarse);
    } else if (left == kMostBisections - 1) {
        fine = gauss(piece, surface, middle, half, kHalves.at(from < 0 ? 0 : 1), coarse);
    } else {
        fine = gauss(piece, surface, middle, half, makePanel(from, to), coarse);
    }
    const double apart = std::abs(fine.volume - coarse.volume);
    const double surfaceApart = std::abs(fine.surface - coarse.surface);
    const bool agrees = apart <= kAgreement * fine.volume + floor.volume && surfaceApart <= 1e3 * kAgreement * fine.surface + floor.surface;
    if (agrees || left == 0) {
        // Halving the step of a rule that has converged gains many digits; where it has not, all of the difference is doubt.
        fine.doubt = agrees ? 1e-2 * apart : apart;
        return fine;
    }
    const double center = (from + to) / 2;
    Sums sum = bisect(piece, surface, floor, middle, half, from, center, left - 1);
    sum += bisect(piece, surface, floor, middle, half, center, to, left - 1);
    return sum;
}

// Where the level can meet the wall inside a piece, rising; at most four, plus the ends.
struct Cuts {
    std::array<double, 6> at{};
    std::size_t count{};

    void add(double x, const Piece& piece)
    {
        if (!(x > piece.from && x < piece.to) || count + 1 >= at.size()) {
            return;
        }
        std::size_t place = count++;
        for (; place > 0 && at[place - 1] > x; --place) {
            at[place] = at[place - 1];
        }
        at[place] = x;
    }
};

void cutLine(const Piece& piece, const Surface& surface, Cuts& cuts)
{
    for (const double sign : {-1.0, 1.0}) {
        const double slope = surface.fall - sign * piece.slope;
        if (slope != 0) {
            cuts.add((sign * piece.offset - surface.rise) / slope, piece);
        }
    }
}

// rise + fall x = +-(offset + stretch sqrt(r^2 - w^2)), squared: a quadratic in w = x - centre.
void cutArc(const Piece& piece, const Surface& surface, Cuts& cuts)
{
    const double k2 = piece.stretch * piece.stretch;
    const double a = surface.fall * surface.fall + k2;
    for (const double sign : {-1.0, 1.0}) {
        const double level = surface.rise + surface.fall * piece.centre - sign * piece.offset;
        const double b = level * surface.fall; // half of the linear term
        const double c = (level - piece.stretch * piece.arcRadius) * (level + piece.stretch * piece.arcRadius);
        // b^2 - a c, written so that a nearly upright vessel does not lose it in two large numbers.
        const double span = piece.arcRadius * surface.fall;
        const double under = k2 * (k2 * piece.arcRadius * piece.arcRadius + (span - level) * (span + level));
        if (under > 0) {
            const double q = -(b + std::copysign(std::sqrt(under), b));
            cuts.add(piece.centre + q / a, piece);
            if (q != 0) {
                cuts.add(piece.centre + c / q, piece);
            }
        }
        if (piece.offset == 0) {
            return; // both signs are the same curve
        }
    }
}

Cuts cutsOf(const Piece& piece, const Surface& surface)
{
    Cuts cuts;
    cuts.at[cuts.count++] = piece.from;
    if (piece.arc) {
        cutArc(piece, surface, cuts);
    } else {
        cutLine(piece, surface, cuts);
    }
    cuts.at[cuts.count++] = piece.to;
    return cuts;
}

// The inner rule's nodes of a whole panel.
struct RoughNode {
    double sine;
    double stretch; // with the weight
};
std::array<RoughNode, 10> makeRough()
{
    std::array<RoughNode, 10> out{};
    std::size_t next = 0;
    for (const Placed& node : makePanel(-1, 1)) {
        if (node.weight10 > 0) {
            out.at(next++) = {node.sine, node.stretch * node.weight10};
        }
    }
    return out;
}

Rough roughPiece(const Piece& piece, const Surface& surface)
{
    static const std::array<RoughNode, 10> kNodes = makeRough();
    const Cuts cuts = cutsOf(piece, surface);
    Rough out;
    for (std::size_t i = 1; i < cuts.count; ++i) {
        const double low = cuts.at[i - 1];
        const double high = cuts.at[i];
        const double middle = (low + high) / 2;
        const double radius = piece.radius(middle);
        const double y = surface.rise + surface.fall * middle;
        if (high <= low || y <= -radius) {
            continue;
        }
        if (y >= radius) {
            out.volume += piece.volume(low, high);
            continue;
        }
        const double half = (high - low) / 2;
        for (const RoughNode& node : kNodes) {
            const double x = middle + half * node.sine;
            const double r = piece.radius(x);
            const double level = surface.rise + surface.fall * x;
            const double chord = std::sqrt(std::max(0.0, (r - level) * (r + level))); // half of it
            out.volume += segment(r, level, chord) * half * node.stretch;
            out.surface += 2 * chord * half * node.stretch;
        }
    }
    return out;
}

Sums sumPiece(const Piece& piece, const Surface& surface, const Floor& floor)
{
    const Cuts cuts = cutsOf(piece, surface);
    Sums out;
    for (std::size_t i = 1; i < cuts.count; ++i) {
        const double low = cuts.at[i - 1];
        const double high = cuts.at[i];
        const double middle = (low + high) / 2;
        const double radius = piece.radius(middle);
        const double y = surface.rise + surface.fall * middle;
        if (high <= low || y <= -radius) {
            continue;
        }
        if (y >= radius) {
            out += {piece.volume(low, high), 0, piece.moment(low, high), 0, 0};
        } else if (!piece.arc && piece.slope == 0 && surface.fall == 0) {
            const double slice = segmentArea(radius, y) * (high - low);
            const double under = (radius - y) * (radius + y);
            const double half_chord = std::sqrt(under) * (high - low);
            out += {slice, 2 * half_chord, slice * middle, -2 * under * half_chord / 3, 0};
        } else {
            out += bisect(piece, surface, floor, middle, (high - low) / 2, -1, 1, kMostBisections);
        }
    }
    return out;
}

} // namespace

double segmentArea(double radius, double y) { return segment(radius, y, std::sqrt(std::max(0.0, (radius - y) * (radius + y)))); }

Sums& Sums::operator+=(const Sums& other)
{
    volume += other.volume;
    surface += other.surface;
    moment += other.moment;
    momentUp += other.momentUp;
    doubt += other.doubt;
    return *this;
}

Sums sumBelow(const Profile& profile, const Surface& surface)
{
    const double capacity = profile.volume();
    const Floor floor{1e-15 * capacity, 1e-10 * std::cbrt(capacity * capacity)};
    Sums out;
    for (const Piece& piece : profile.pieces()) {
        out += sumPiece(piece, surface, floor);
    }
    return out;
}

Rough roughBelow(const Profile& profile, const Surface& surface)
{
    Rough out;
    for (const Piece& piece : profile.pieces()) {
        const Rough one = roughPiece(piece, surface);
        out.volume += one.volume;
        out.surface += one.surface;
    }
    return out;
}

} // namespace brimful::water
