#include "core/vessel/head.h"

#include <boost/math/special_functions/ellint_2.hpp>

#include <cmath>
#include <numbers>
#include <utility>

namespace brimful::vessel {

namespace {

constexpr double kPi = std::numbers::pi;

// Area of half a spheroid with equator R and depth b.
double halfSpheroidArea(double R, double b)
{
    const double ratio = b / R;
    if (std::abs(ratio - 1) < 1e-9) {
        return 2 * kPi * R * R;
    }
    if (ratio < 1) {
        const double e = std::sqrt((1 - ratio) * (1 + ratio));
        return kPi * R * R * (1 + (1 - e * e) / e * std::atanh(e));
    }
    const double e = std::sqrt((1 - 1 / ratio) * (1 + 1 / ratio));
    return kPi * R * R * (1 + ratio / e * std::asin(e));
}

double quarterEllipse(double R, double b)
{
    const double longer = std::max(R, b);
    const double shorter = std::min(R, b);
    const double ratio = shorter / longer;
    return longer * boost::math::ellint_2(std::sqrt((1 - ratio) * (1 + ratio)));
}

} // namespace

Head::Head(const HeadSize& size, InsideDiameter inside, Length thickness)
    : m_kind(size.kind)
    , m_radius(inside.get().value() / 2)
    , m_depth(0)
{
    const double diameter = inside.get().value();
    const double outward = thickness.value();
    switch (m_kind) {
    case HeadKind::Hemispherical:
        m_depth = m_radius;
        break;
    case HeadKind::Ellipsoidal:
        m_depth = size.depth ? size.depth->value() : diameter / 4;
        break;
    case HeadKind::Torispherical: {
        m_crown = size.crownRatio * diameter;
        m_knuckle = size.knuckleRatio * diameter;
        m_crownHalfAngle = std::asin((m_radius - m_knuckle) / (m_crown - m_knuckle));
        m_depth = m_crown - (m_crown - m_knuckle) * std::cos(m_crownHalfAngle);
        m_crown += outward;
        m_knuckle += outward;
        break;
    }
    case HeadKind::Flat:
        break;
    case HeadKind::Conical:
        m_depth = size.depth ? size.depth->value() : 0;
        break;
    }
    m_radius += outward;
    m_depth += outward;
}

Length Head::depth() const { return quantity::metres(m_depth); }

Volume Head::capacity() const
{
    double sum = 0;
    for (const Piece& piece : pieces(Side::Right, 0)) {
        sum += piece.to > piece.from ? piece.volume(piece.from, piece.to) : 0;
    }
    return quantity::cubicMetres(sum);
}

Area Head::area() const
{
    const double R = m_radius;
    switch (m_kind) {
    case HeadKind::Hemispherical:
        return quantity::squareMetres(2 * kPi * R * R);
    case HeadKind::Ellipsoidal:
        return quantity::squareMetres(halfSpheroidArea(R, m_depth));
    case HeadKind::Torispherical: {
        const double r = m_knuckle;
        const double al = m_crownHalfAngle;
        const double crown = 2 * kPi * m_crown * m_crown * (1 - std::cos(al));
        return quantity::squareMetres(crown + 2 * kPi * r * ((R - r) * (kPi / 2 - al) + r * std::cos(al)));
    }
    case HeadKind::Flat:
        return quantity::squareMetres(kPi * R * R);
    case HeadKind::Conical:
        return quantity::squareMetres(kPi * R * std::hypot(R, m_depth));
    }
    return quantity::squareMetres(0);
}

Length Head::meridianArc() const
{
    const double R = m_radius;
    switch (m_kind) {
    case HeadKind::Hemispherical:
        return quantity::metres(kPi / 2 * R);
    case HeadKind::Ellipsoidal:
        return quantity::metres(quarterEllipse(R, m_depth));
    case HeadKind::Torispherical:
        return quantity::metres(m_crown * m_crownHalfAngle + m_knuckle * (kPi / 2 - m_crownHalfAngle));
    case HeadKind::Flat:
        return quantity::metres(R);
    case HeadKind::Conical:
        return quantity::metres(std::hypot(R, m_depth));
    }
    return quantity::metres(0);
}

std::array<Piece, 2> Head::pieces(Side side, double tangent) const
{
    const double R = m_radius;
    std::array<Piece, 2> out{}; // as a right head with its tangent line at 0: from the shell to the tip
    switch (m_kind) {
    case HeadKind::Hemispherical:
    case HeadKind::Ellipsoidal:
        out[0] = {.from = 0, .to = m_depth, .arc = true, .stretch = R / m_depth, .arcRadius = m_depth};
        break;
    case HeadKind::Torispherical: {
        const double knuckle = m_knuckle * std::cos(m_crownHalfAngle);
        out[0] = {.from = 0, .to = knuckle, .arc = true, .offset = R - m_knuckle, .arcRadius = m_knuckle};
        out[1] = {.from = knuckle, .to = m_depth, .arc = true, .arcRadius = m_crown, .centre = m_depth - m_crown};
        break;
    }
    case HeadKind::Flat:
        out[0] = {.from = 0, .to = m_depth, .offset = R};
        break;
    case HeadKind::Conical:
        out[0] = {.from = 0, .to = m_depth, .offset = R, .slope = -R / m_depth};
        break;
    }
    for (Piece& piece : out) {
        if (side == Side::Left) {
            piece = {.from = -piece.to,
                .to = -piece.from,
                .arc = piece.arc,
                .offset = piece.offset,
                .slope = -piece.slope,
                .stretch = piece.stretch,
                .arcRadius = piece.arcRadius,
                .centre = -piece.centre};
        }
        piece.from += tangent;
        piece.to += tangent;
        piece.centre += tangent;
        piece.offset -= piece.arc ? 0 : piece.slope * tangent;
    }
    if (side == Side::Left) {
        std::swap(out[0], out[1]);
    }
    return out;
}

} // namespace brimful::vessel
