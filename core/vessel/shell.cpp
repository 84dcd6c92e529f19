#include "core/vessel/shell.h"

#include "core/vessel/steel.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>

namespace brimful::vessel {

namespace {

using quantity::metres;

constexpr double kPi = std::numbers::pi;
constexpr double kLargest = 100; // m

Profile profileOf(const Head& left, const Head& right, double radius, double length)
{
    Profile out;
    for (const Piece& piece : left.pieces(Side::Left, 0)) {
        out.add(piece);
    }
    out.add({.from = 0, .to = length, .offset = radius});
    for (const Piece& piece : right.pieces(Side::Right, length)) {
        out.add(piece);
    }
    return out;
}

struct Diameters {
    double outside;
    double inside;
};

Diameters diameters(const Size& size)
{
    const double wall = size.wall.value();
    if (const auto* const inside = std::get_if<InsideDiameter>(&size.around); inside != nullptr) {
        return {inside->get().value() + 2 * wall, inside->get().value()};
    }
    double outside = 0;
    if (const auto* const girth = std::get_if<Girth>(&size.around); girth != nullptr) {
        outside = girth->get().value() / kPi;
    } else {
        outside = std::get<OutsideDiameter>(size.around).get().value();
    }
    return {outside, outside - 2 * wall};
}

std::optional<SizeFault> faultOf(const HeadSize& head)
{
    switch (head.kind) {
    case HeadKind::Hemispherical:
    case HeadKind::Flat:
        return std::nullopt;
    case HeadKind::Ellipsoidal:
        return head.depth && !(head.depth->value() > 0) ? std::optional(SizeFault::DepthNotPositive) : std::nullopt;
    case HeadKind::Conical:
        return !head.depth || !(head.depth->value() > 0) ? std::optional(SizeFault::DepthNotPositive) : std::nullopt;
    case HeadKind::Torispherical:
        if (!(head.crownRatio > 0.5 && head.crownRatio < 10)) {
            return SizeFault::CrownTooFlatOrSmall;
        }
        return head.knuckleRatio >= 0 && head.knuckleRatio < 0.5 ? std::nullopt : std::optional(SizeFault::KnuckleTooLarge);
    }
    return std::nullopt;
}

std::optional<SizeError> faultOf(const Size& size)
{
    const auto [outside, inside] = diameters(size);
    if (!(std::max(outside, inside) > 0) || (std::holds_alternative<InsideDiameter>(size.around) && !(inside > 0))) {
        return SizeError{SizeFault::DiameterNotPositive, SizePart::Around};
    }
    if (!(outside < kLargest)) {
        return SizeError{SizeFault::TooLarge, SizePart::Around};
    }
    if (!(size.wall.value() >= 0)) {
        return SizeError{SizeFault::WallNegative, SizePart::Wall};
    }
    if (!(inside > 0)) {
        return SizeError{SizeFault::WallTooThick, SizePart::Wall};
    }
    if (const auto fault = faultOf(size.left)) {
        return SizeError{*fault, SizePart::LeftHead};
    }
    if (const auto fault = faultOf(size.right)) {
        return SizeError{*fault, SizePart::RightHead};
    }
    return std::nullopt;
}

} // namespace

Shell::Shell(const Size& size, OutsideDiameter outside, InsideDiameter inside, Length length)
    : m_leftSize(size.left)
    , m_rightSize(size.right)
    , m_outside(outside)
    , m_inside(inside)
    , m_wall(size.wall)
    , m_length(length)
    , m_left(size.left, inside, metres(0))
    , m_right(size.right, inside, metres(0))
    , m_profile(profileOf(m_left, m_right, inside.get().value() / 2, length.value()))
    , m_capacity(quantity::cubicMetres(m_profile.pieces().empty() ? 0 : m_profile.volume()))
{
}

tl::expected<Shell, SizeError> Shell::make(const Size& size)
{
    if (const auto error = faultOf(size)) {
        return tl::unexpected(*error);
    }
    const auto [outside, inside] = diameters(size);
    const InsideDiameter bore(metres(inside));
    double length = 0;
    if (const auto* const straight = std::get_if<ShellLength>(&size.along); straight != nullptr) {
        length = straight->get().value();
        if (!(length >= 0)) {
            return tl::unexpected(SizeError{SizeFault::LengthNegative, SizePart::Along});
        }
    } else {
        const Length heads = Head(size.left, bore, metres(0)).depth() + Head(size.right, bore, metres(0)).depth();
        length = std::get<OverallLength>(size.along).get().value() - 2 * size.wall.value() - heads.value();
        // A sphere's two halves may meet to the last bit of what was measured.
        if (std::abs(length) < 1e-12) {
            length = 0;
        }
        if (!(length >= 0)) {
            return tl::unexpected(SizeError{SizeFault::OverallShorterThanHeads, SizePart::Along});
        }
    }
    if (!(length < kLargest)) {
        return tl::unexpected(SizeError{SizeFault::TooLarge, SizePart::Along});
    }
    Shell shell(size, OutsideDiameter(metres(outside)), bore, metres(length));
    if (!(shell.capacity().value() > 0)) {
        return tl::unexpected(SizeError{SizeFault::NothingInside, SizePart::Along});
    }
    return shell;
}

Length Shell::overallLength() const { return m_length + m_left.depth() + m_right.depth() + 2.0 * m_wall; }

Volume Shell::shellCapacity() const
{
    const double radius = m_inside.get().value() / 2;
    return quantity::cubicMetres(kPi * radius * radius * m_length.value());
}

Area Shell::insideArea() const
{
    return quantity::squareMetres(kPi * m_inside.get().value() * m_length.value()) + m_left.area() + m_right.area();
}

Mass Shell::steelMass() const
{
    return m_wall.value() > 0 ? quantity::kilograms(kSteelDensity * (outside().volume() - m_capacity.value())) : quantity::kilograms(0);
}

Length Shell::radiusAt(Length fromLeftTangent) const { return metres(m_profile.radius(fromLeftTangent.value())); }

Profile Shell::outside() const
{
    return profileOf(
        Head(m_leftSize, m_inside, m_wall), Head(m_rightSize, m_inside, m_wall), m_outside.get().value() / 2, m_length.value());
}

} // namespace brimful::vessel
