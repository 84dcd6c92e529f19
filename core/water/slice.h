// One circular slice under a level, and the sum of slices over part of a body of revolution. Bare metres.
#pragma once

#include "core/vessel/profile.h"

namespace brimful::water {

// Area of a circle of radius r below the chord at height y from its centre.
[[nodiscard]] double segmentArea(double radius, double y);

struct Sums {
    double volume{};
    double surface{}; // integral of the chord: the level's area times the cosine of the pitch
    double moment{}; // of the volume about x = 0
    double momentUp{}; // of the volume about the axis, up positive
    double doubt{}; // upper estimate of the error of `volume`

    Sums& operator+=(const Sums& other);
};

// The level in the body's own frame: y = rise + fall * x, y up from the axis.
struct Surface {
    double rise;
    double fall;
};

[[nodiscard]] Sums sumBelow(const vessel::Profile&, const Surface&);

// Volume and surface by the ten-point rule alone, good to about 1e-6: for a search that ends with sumBelow.
struct Rough {
    double volume{};
    double surface{};
};
[[nodiscard]] Rough roughBelow(const vessel::Profile&, const Surface&);

} // namespace brimful::water
