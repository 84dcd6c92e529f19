// How long a vessel takes to run out through holes and kerfs, with a hose running in or not, and to fill.
// The level obeys A(z) dz/dt = inflow - outflow(z); time is the integral of A / (outflow - inflow) over height, exact but for
// its sum. Where the level would come to rest on the way, or would take for ever, that is the answer instead of a time.
// Source: Encyclopaedia Britannica, 11th ed., "Hydraulics", section 53 (falling head; found).
#pragma once

#include "core/water/outlet.h"

#include <optional>
#include <span>
#include <vector>

namespace brimful::water {

using quantity::Duration;
using quantity::Volume;
using quantity::VolumeFlow;

// Outside air reaches the space above the water: with every opening shut it gulps and there is no rate.
struct Run {
    Length from; // heights as in level.h
    std::optional<Length> to; // absent: where it stops by itself
    VolumeFlow inflow;
};

struct Drained {
    // The moment counted from the start. Usual, slow (longest) and fast (shortest) by the discharge; all absent when the
    // level never gets there with the usual one, slow or fast alone absent when it never does with that.
    std::optional<Duration> time;
    std::optional<Duration> slow;
    std::optional<Duration> fast;
    Length end; // where it stops: the level asked for, or the lowest outlet, or where it settles
    Volume ranOut; // change of the volume inside, below 0 when it fills
    std::optional<Length> settles; // where in- and outflow balance, when that comes before the level asked for
    bool stoppedAtOutlet{}; // asked for a level below the lowest outlet
    bool atFiniteHead{}; // nothing asked for, and the last of it would take for ever: stopped at kRestHead or what the edges hold
    struct Moment {
        Duration time;
        Length level;
        Volume volume;
    };
    std::vector<Moment> curve; // with the usual discharge, from the start to the end
};

enum class DrainFault : std::uint8_t {
    NothingFlows, // no outlet below the level and no inflow
    NeverGetsThere // asked to rise without inflow, or to fall without an outlet
};

constexpr double kRestHead = 0.005; // m over the lowest lip of an outlet that never quite drains: proposal

[[nodiscard]] tl::expected<Drained, DrainFault> drain(const Shell&, Angle pitch, std::span<const Outlet>, const Run&);

} // namespace brimful::water
