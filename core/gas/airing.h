// From gas to air over time: the inside, evenly mixed, moves on a straight line of the diagram towards what is blown in, ever
// slower. A planning estimate; the test decides. Shares 0..1.
#pragma once

#include "core/gas/diagram.h"
#include "core/gas/ventilation.h"

#include <optional>
#include <vector>

namespace brimful::gas {

// One gas blown in. With a source inside it moves towards the mixture that source and blower come to, at most all fuel.
struct Leg {
    State from;
    State towards; // never quite reached
    double per_second{}; // K Q / V
    std::optional<quantity::Duration> lasts; // absent: it goes on
};

[[nodiscard]] Leg legOf(const Air&, State from, State blown_in);
[[nodiscard]] State at(const Leg&, const quantity::Duration& from_its_start);
// Until the fuel has fallen to that share; 0 when it is there already and stays; nothing when it never is.
[[nodiscard]] std::optional<quantity::Duration> timeToFuel(const Leg&, double share);
// While the even mixture lies in the zone, no longer than the leg lasts; `until` absent: it stays there.
[[nodiscard]] std::optional<Burning> burningWhile(const Leg&, const Zone&);

// How far inert gas must bring the fuel down before air goes in: half of the out-of-service limit on the lowest basis, at most 2 %.
// A proposal (2 % is what ISGOTT lets stand in other tanks during hot work, found). Nothing when no oxygen limit is published.
[[nodiscard]] std::optional<double> inertEndPoint(const Substance&);

} // namespace brimful::gas
