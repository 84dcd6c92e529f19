// One head: depth, capacity, area and arc of its inside, as a function of the inside diameter.
// Hemispherical, ellipsoidal, flat, conical: elementary. Torispherical: sphere of revolution plus torus segment; the
// closed forms are those of any solid-of-revolution text, checked against published tank tables in the tests.
#pragma once

#include "core/vessel/profile.h"
#include "core/vessel/size.h"

#include <array>

namespace brimful::vessel {

class Head {
public:
    // The size must have passed Shell::make(); `thickness` offsets the surface outward for the outside of the metal.
    Head(const HeadSize& size, InsideDiameter inside, Length thickness);

    [[nodiscard]] HeadKind kind() const { return m_kind; }
    [[nodiscard]] Length depth() const; // from the tangent line to the tip, straight flange excluded
    [[nodiscard]] Volume capacity() const;
    [[nodiscard]] Area area() const; // of the dished surface alone; of a flat head its disc
    [[nodiscard]] Length meridianArc() const; // over the surface from tangent line to tip, as a tape lies

    // The pieces in the vessel's x, from left to right; the tangent line is at `tangent`. An unused piece is empty.
    [[nodiscard]] std::array<Piece, 2> pieces(Side side, double tangent) const;

private:
    HeadKind m_kind;
    double m_radius; // of the tangent line, m
    double m_depth; // m
    double m_crown{}; // crown radius, m
    double m_knuckle{}; // knuckle radius, m
    double m_crownHalfAngle{}; // rad
};

} // namespace brimful::vessel
