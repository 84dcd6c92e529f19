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

// Newton's steps inside a bracket that only shrinks; dV/dheight is the area of the level.
Length heightFor(const Shell& shell, Angle pitch, Volume volume)
{
    const double capacity = shell.capacity().value();
    const double bottom = lowest(shell, pitch.value());
    const double top = highest(shell, pitch.value());
    double low = bottom;
    double high = top;
    const double wanted = volume.value();
    if (wanted <= 0) {
        return metres(low);
    }
    if (wanted >= capacity) {
        return metres(high);
    }
    const double small = 1e-14 * (high - low);
    double height = low + (high - low) * wanted / capacity;
    for (int i = 0; i < 100 && high - low > small; ++i) {
        const Sums here = sums(shell, pitch.value(), height);
        const double off = here.volume - wanted;
        (off > 0 ? high : low) = height;
        double next = here.surface > 0 ? height - off / here.surface : low;
        // Newton squares its relative error: after a step this small the next one would be below the last digit.
        if (here.surface > 0 && std::abs(next - height) <= 1e-8 * std::min(height - bottom, top - height)) {
            return metres(std::clamp(next, bottom, top));
        }
        if (!(next > low && next < high)) {
            next = (low + high) / 2;
        }
        height = next;
    }
    return metres(height);
}

} // namespace brimful::water
