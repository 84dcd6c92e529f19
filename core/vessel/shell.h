// A vessel whose size has been checked: what it holds, its surfaces, its steel.
#pragma once

#include "core/vessel/head.h"
#include "core/vessel/profile.h"
#include "core/vessel/size.h"

#include <tl/expected.hpp>

namespace brimful::vessel {

class Shell {
public:
    [[nodiscard]] static tl::expected<Shell, SizeError> make(const Size& size);

    [[nodiscard]] InsideDiameter insideDiameter() const { return m_inside; }
    [[nodiscard]] OutsideDiameter outsideDiameter() const { return m_outside; }
    [[nodiscard]] Length wall() const { return m_wall; }
    [[nodiscard]] Length length() const { return m_length; } // tangent to tangent
    [[nodiscard]] Length overallLength() const; // outside, tip to tip
    [[nodiscard]] const Head& head(Side side) const { return side == Side::Left ? m_left : m_right; }

    [[nodiscard]] Volume capacity() const { return m_capacity; }
    [[nodiscard]] Volume shellCapacity() const; // between the tangent lines
    [[nodiscard]] Area insideArea() const;
    // Plain shell and heads of one wall, without legs or fittings (steel.h). The outside of a dished
    // head is its inside moved out by the wall; of a cone, base and depth each grow by the wall.
    [[nodiscard]] Mass steelMass() const;

    // Radius of the inside at a distance from the left tangent line (heads below 0 and beyond length()); 0 outside.
    [[nodiscard]] Length radiusAt(Length fromLeftTangent) const;
    [[nodiscard]] const Profile& inside() const { return m_profile; }
    [[nodiscard]] Profile outside() const;

private:
    Shell(const Size& size, OutsideDiameter outside, InsideDiameter inside, Length length);

    HeadSize m_leftSize;
    HeadSize m_rightSize;
    OutsideDiameter m_outside;
    InsideDiameter m_inside;
    Length m_wall;
    Length m_length;
    Head m_left;
    Head m_right;
    Profile m_profile;
    Volume m_capacity;
};

} // namespace brimful::vessel
