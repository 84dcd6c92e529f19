// Lengths, volumes, times: dimensions that the compiler checks, and names for what dimensions cannot see.
// Everything inside the program is SI. Units as people write them exist only in parse.h and format.h.
#pragma once

#include <boost/units/quantity.hpp>
#include <boost/units/systems/si.hpp>

#include <compare>
#include <cstdint>
#include <string>

namespace brimful::quantity {

// What a typed quantity can be. Persisted only as the words of dimensionName(). Stands before the types of the same
// names, so that none is shadowed.
enum class Dimension : std::uint8_t {
    Number,
    Length,
    Area,
    Volume,
    Mass,
    Force,
    Pressure,
    Temperature,
    Duration,
    VolumeFlow,
    Speed,
    VolumeShare,
    LimitShare,
    Angle,
    Power,
    Energy,
    HeatTransfer,
    Density
};

template <class Unit> using Si = boost::units::quantity<Unit, double>;

using Length = Si<boost::units::si::length>; // m
using Area = Si<boost::units::si::area>; // m2
using Volume = Si<boost::units::si::volume>; // m3
using Mass = Si<boost::units::si::mass>; // kg
using Duration = Si<boost::units::si::time>; // s
using Angle = Si<boost::units::si::plane_angle>; // rad
using Density = Si<boost::units::si::mass_density>; // kg/m3
using Pressure = Si<boost::units::si::pressure>; // Pa
using VolumeFlow = Si<boost::units::divide_typeof_helper<boost::units::si::volume, boost::units::si::time>::type>; // m3/s

inline Length metres(double value) { return value * boost::units::si::metre; }
inline Area squareMetres(double value) { return value * boost::units::si::square_metre; }
inline Volume cubicMetres(double value) { return value * boost::units::si::cubic_metre; }
inline Mass kilograms(double value) { return value * boost::units::si::kilogram; }
inline Duration seconds(double value) { return value * boost::units::si::second; }
inline Angle radians(double value) { return value * boost::units::si::radian; }
inline Pressure pascals(double value) { return value * boost::units::si::pascal; }

// One dimension, two meanings: never interchangeable.
template <class Base, class Tag> class Named {
public:
    explicit constexpr Named(Base value)
        : m_value(value)
    {
    }
    [[nodiscard]] constexpr Base get() const { return m_value; }
    constexpr auto operator<=>(const Named&) const = default;

private:
    Base m_value;
};

using OutsideDiameter = Named<Length, struct OutsideTag>;
using InsideDiameter = Named<Length, struct InsideTag>;
using VolumeShare = Named<double, struct VolumeShareTag>; // m3/m3, 0..1: parts by volume of the whole gas
using LimitShare = Named<double, struct LimitShareTag>; // 1 = the lower flammable limit: what meters call 100 %LEL
using Temperature = Named<double, struct KelvinTag>; // K
using AbsolutePressure = Named<Pressure, struct AbsoluteTag>; // never gauge

// A quantity as it is kept in an entry: an exact count of a small unit, and what was typed and echoed.
// PERSISTED. `unit` is one of recorded.h's closed list ("100nm", "mL", "0.01K", "ppm", "0.1%LEL", ...).
struct Recorded {
    std::int64_t count{};
    std::string unit;
    std::string typed;
    bool operator==(const Recorded&) const = default;
};

} // namespace brimful::quantity
