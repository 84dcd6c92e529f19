// What runs out through a hole or a kerf in the wall while water stands over it: the orifice equation, v = sqrt(2 g h),
// over each part of the opening by itself, so that one half under water runs as a half.
// Source: Encyclopaedia Britannica, 11th ed., "Hydraulics", sections 17-21 (orifices and notches; found).
#pragma once

#include "core/water/wall.h"

#include <optional>
#include <span>
#include <utility>
#include <vector>

namespace brimful::water {

// How much of the ideal stream really comes. Usual for a sharp round hole 0.61, for a narrow slot 0.64 (same source: 0.603
// to 0.620 and 0.63 to 0.664, found). Slow and fast bound it: 10 % either way (proposal); a kerf in plate is a short passage
// and may come to 0.8 (memory).
struct Discharge {
    double usual{};
    double slow{};
    double fast{};

    [[nodiscard]] static Discharge ofHole(double usual = 0.61);
    [[nodiscard]] static Discharge ofKerf(double usual = 0.64);
    // Of a hose run as a siphon: 1 / sqrt(1 + 0.5 + f l / d) of what its whole drop would give. 0.5 for a plain mouth; f 0.025,
    // from 0.02 to 0.03, for a smooth hose at these speeds (memory: Blasius gives 0.022 at a Reynolds number of 40,000).
    [[nodiscard]] static Discharge ofHose(double length, double bore);
};

// At one pose. Bare metres and m3/s: integrations run through here.
class Outlet {
public:
    // A round hole, taken as a flat disc in the tangent plane of the wall, its middle at the place.
    [[nodiscard]] static Outlet hole(const WallPoint&, double clock, const Pose&, double diameter, const Discharge&);
    // A kerf along a path, taken as a line of this width.
    [[nodiscard]] static Outlet kerf(std::span<const PathPoint>, const Pose&, double width, const Discharge&);

    // A hose that has been primed: from a mouth in the water over an opening down to an outer end. It stops when the level comes
    // to its mouth, or to the height of its outer end.
    [[nodiscard]] static Outlet siphon(double mouth, double outerEnd, double bore, double length);

    [[nodiscard]] double lowest() const { return m_lowest; } // heights as in level.h
    [[nodiscard]] double highest() const { return m_highest; }
    // All of it at one height: the level reaches it in finite time. Any other outlet never quite drains to its lowest point.
    [[nodiscard]] bool level() const { return m_highest - m_lowest <= 1e-9; }
    // Water that the opening's own edges hold back: 2 sigma / (rho g w) over a kerf, twice that over a round hole; sigma
    // 0.0728 N/m at 20 degC (memory).
    [[nodiscard]] double heldBack() const { return m_heldBack; }
    // m3/s with a discharge coefficient of 1, outside air on the other side and above the water.
    [[nodiscard]] double ideal(double level) const;
    [[nodiscard]] const Discharge& discharge() const { return m_discharge; }
    [[nodiscard]] double area() const { return m_area; }

private:
    struct Step {
        double from; // heights of its two ends
        double to;
        double area; // of the opening between them
    };
    Discharge m_discharge;
    double m_lowest{};
    double m_highest{};
    double m_heldBack{};
    double m_area{};
    double m_radius{}; // of a hole; 0 for a kerf
    std::optional<double> m_outerEnd; // of a siphon
    std::vector<Step> m_steps;
};

} // namespace brimful::water
