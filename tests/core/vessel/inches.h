// Sizes in inches and gallons, as the published examples give them.
#pragma once

#include "core/vessel/shell.h"

namespace brimful::test {

constexpr double kInch = 0.0254;
constexpr double kGallon = 231 * kInch * kInch * kInch;

inline quantity::Length inches(double value) { return quantity::metres(value * kInch); }
inline double inInches(quantity::Length length) { return length.value() / kInch; }
inline double inGallons(quantity::Volume volume) { return volume.value() / kGallon; }
inline double inCubicInches(quantity::Volume volume) { return volume.value() / (kInch * kInch * kInch); }
inline quantity::Volume gallons(double value) { return quantity::cubicMetres(value * kGallon); }

inline vessel::HeadSize hemispherical() { return {vessel::HeadKind::Hemispherical, 1.0, 0.06, std::nullopt}; }
inline vessel::HeadSize twoToOne() { return {vessel::HeadKind::Ellipsoidal, 1.0, 0.06, std::nullopt}; }
inline vessel::HeadSize ellipsoidal(double depth) { return {vessel::HeadKind::Ellipsoidal, 1.0, 0.06, inches(depth)}; }
inline vessel::HeadSize torispherical(double crown, double knuckle)
{
    return {vessel::HeadKind::Torispherical, crown, knuckle, std::nullopt};
}
inline vessel::HeadSize flat() { return {vessel::HeadKind::Flat, 1.0, 0.06, std::nullopt}; }
inline vessel::HeadSize conical(double depth) { return {vessel::HeadKind::Conical, 1.0, 0.06, inches(depth)}; }
// A plain spherical dish of this depth on this diameter: a crown without a knuckle.
inline vessel::HeadSize dish(double diameter, double depth)
{
    const double radius = diameter / 2;
    return torispherical((radius * radius + depth * depth) / (2 * depth) / diameter, 0);
}

// Inside diameter and tangent-to-tangent length, no wall.
inline vessel::Size insideSize(double diameter, double length, const vessel::HeadSize& left, const vessel::HeadSize& right)
{
    return {vessel::InsideDiameter(inches(diameter)), inches(0), vessel::ShellLength(inches(length)), left, right};
}
inline vessel::Shell insideShell(double diameter, double length, const vessel::HeadSize& heads)
{
    return vessel::Shell::make(insideSize(diameter, length, heads, heads)).value();
}
// Outside diameter, overall length and wall.
inline vessel::Size outsideSize(double diameter, double overall, double wall, const vessel::HeadSize& heads)
{
    return {vessel::OutsideDiameter(inches(diameter)), inches(wall), vessel::OverallLength(inches(overall)), heads, heads};
}

} // namespace brimful::test
