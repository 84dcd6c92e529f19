#include "core/water/level.h"

#include "core/water/slice.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace brimful::water {

namespace {

using quantity::cubicMetres;
using quantity::metres;
using quantity::squareMetres;
using vessel::Piece;

constexpr double kUpright = 1e-9; // cosine of the pitch below which the axis is taken as vertical

// The vessel stands on end: the level is a plane across the axis.
Sums sumUpright(const Shell& shell, double sine, double height)
{
    Sums out;
    const double level = sine > 0 ? height : -height; // along the axis
    for (const Piece& piece : shell.inside().pieces()) {
        const double low = sine > 0 ? piece.from : std::clamp(level, piece.from, piece.to);
        const double high = sine > 0 ? std::clamp(level, piece.from, piece.to) : piece.to;
        if (high > low) {
            out += {piece.volume(low, high), 0, piece.moment(low, high), 0, 0};
        }
    }
    const double radius = shell.inside().radius(level);
    out.surface = std::numbers::pi * radius * radius;
    return out;
}

Sums sums(const Shell& shell, double pitch, double height)
{
    const double sine = std::sin(pitch);
    const double cosine = std::cos(pitch);
    if (cosine < kUpright) {
        return sumUpright(shell, sine, height);
    }
    Sums out = sumBelow(shell.inside(), {height / cosine, pitch == 0 ? 0.0 : -sine / cosine});
    out.surface /= cosine;
    return out;
}

Below asBelow(const Sums& sums, double up)
{
    const double volume = sums.volume;
    return {cubicMetres(volume), squareMetres(sums.surface), metres(volume > 0 ? sums.moment / volume : 0),
        metres(volume > 0 ? up * sums.momentUp / volume : 0), cubicMetres(sums.doubt)};
}

double lowest(const Shell& shell, double pitch) { return -shell.inside().reach(-std::sin(pitch), std::cos(pitch)); }
double highest(const Shell& shell, double pitch) { return shell.inside().reach(std::sin(pitch), std::cos(pitch)); }

} // namespace

Below below(const Shell& shell, Angle pitch, Length height) { return asBelow(sums(shell, pitch.value(), height.value()), 1); }

// Turned upside down about the axis, what is above the level is what is below it.
Below above(const Shell& shell, Angle pitch, Length height) { return asBelow(sums(shell, -pitch.value(), -height.value()), -1); }

Length lowestPoint(const Shell& shell, Angle pitch) { return metres(lowest(shell, pitch.value())); }
Length highestPoint(const Shell& shell, Angle pitch) { return metres(highest(shell, pitch.value())); }

namespace {

// Newton's steps inside a bracket that only shrinks; dV/dheight is the area of the level.
class HeightSearch {
public:
    HeightSearch(const Shell& shell, double pitch, double wanted)
        : m_shell(shell)
        , m_pitch(pitch)
        , m_wanted(wanted)
        , m_bottom(lowest(shell, pitch))
        , m_top(highest(shell, pitch))
        , m_low(m_bottom)
        , m_high(m_top)
    {
    }

    double run();

private:
    [[nodiscard]] Rough rough(double height) const;
    [[nodiscard]] double room(double height) const { return std::min(height - m_bottom, m_top - height); }
    double start();
    double next(double height, double off, double surface);

    const Shell& m_shell;
    double m_pitch, m_wanted, m_bottom, m_top, m_low, m_high;
};

Rough HeightSearch::rough(double height) const
{
    const double cosine = std::cos(m_pitch);
    if (cosine < kUpright) {
        const Sums exact = sums(m_shell, m_pitch, height);
        return {exact.volume, exact.surface};
    }
    Rough out = roughBelow(m_shell.inside(), {height / cosine, m_pitch == 0 ? 0.0 : -std::sin(m_pitch) / cosine});
    out.surface /= cosine;
    return out;
}

double HeightSearch::next(double height, double off, double surface)
{
    (off > 0 ? m_high : m_low) = height;
    const double stepped = surface > 0 ? height - off / surface : m_low;
    return stepped > m_low && stepped < m_high ? stepped : (m_low + m_high) / 2;
}

// A height near the one that is sought: from the rough sums, whose bracket is thrown away with them.
double HeightSearch::start()
{
    double height = m_low + (m_high - m_low) * m_wanted / m_shell.capacity().value();
    for (int i = 0; i < 12; ++i) {
        const Rough here = rough(height);
        const double to = next(height, here.volume - m_wanted, here.surface);
        const double step = std::abs(to - height);
        height = to;
        // The step after this one would be its square.
        if (step <= 1e-4 * room(height)) {
            break;
        }
    }
    m_low = m_bottom;
    m_high = m_top;
    return height;
}

double HeightSearch::run()
{
    const double small = 1e-14 * (m_high - m_low);
    double height = start();
    for (int i = 0; i < 100 && m_high - m_low > small; ++i) {
        const Sums here = sums(m_shell, m_pitch, height);
        const double off = here.volume - m_wanted;
        const double newton = here.surface > 0 ? height - off / here.surface : m_low;
        // Newton squares its relative error: after a step this small the next one would be below the last digit.
        if (here.surface > 0 && std::abs(newton - height) <= 1e-8 * room(height)) {
            return std::clamp(newton, m_bottom, m_top);
        }
        height = next(height, off, here.surface);
    }
    return height;
}

} // namespace

Length heightFor(const Shell& shell, Angle pitch, Volume volume)
{
    const double wanted = volume.value();
    if (wanted <= 0) {
        return lowestPoint(shell, pitch);
    }
    if (wanted >= shell.capacity().value()) {
        return highestPoint(shell, pitch);
    }
    return metres(HeightSearch(shell, pitch.value(), wanted).run());
}

// A stick through the top line at x meets the bottom where the bottom lies plumb under it.
Length bottomUnder(const Shell& shell, Angle pitch, Length fromLeftTangent)
{
    const double sine = std::sin(pitch.value());
    const double cosine = std::cos(pitch.value());
    constexpr double kSteep = 0.5; // of the cosine: there is no line on top to speak of
    if (cosine < kSteep) {
        return lowestPoint(shell, pitch);
    }
    const double x = fromLeftTangent.value();
    const auto& inside = shell.inside();
    const double plumb = x * cosine - inside.radius(x) * sine;
    double low = inside.from();
    double high = inside.to();
    for (int i = 0; i < 60; ++i) {
        const double middle = (low + high) / 2;
        (middle * cosine + inside.radius(middle) * sine > plumb ? high : low) = middle;
    }
    const double at = (low + high) / 2;
    return metres(at * sine - inside.radius(at) * cosine);
}

} // namespace brimful::water
