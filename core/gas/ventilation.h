// Dilution with fresh air, with or without a source that keeps giving vapour. A planning estimate: 29 CFR 1910.146 accepts no
// calculation in place of a test. Shares 0..1.
#pragma once

#include "core/gas/substances.h"

#include <optional>

namespace brimful::gas {

struct Air {
    quantity::Volume volume;
    quantity::VolumeFlow flow; // fresh air
    double efficiency{1.0}; // multiplies the flow (NFPA 69: 0.2 to 0.9); a mixing factor of 4 that divides is 0.25
    quantity::VolumeFlow source{}; // vapour given off inside
};

// C(t) = (C1 - Css) exp(-K Q t / V) + Css with Css = G / (K Q).
[[nodiscard]] double steadyShare(const Air&);
[[nodiscard]] double shareAfter(const Air&, double start, const quantity::Duration&);
// Nothing when it is never reached; 0 when it already holds.
[[nodiscard]] std::optional<quantity::Duration> timeToReach(const Air&, double start, double share);
[[nodiscard]] double airChanges(const Air&, const quantity::Duration&); // Q t / V

// While the mean share lies between the limits. `until` absent: it stays there.
struct Burning {
    quantity::Duration from;
    std::optional<quantity::Duration> until;
};
[[nodiscard]] std::optional<Burning> flammableWhile(const Air&, double start, FlammableRange);

// Build-up as a published ventilation guide writes it after NFPA 69: the efficiency slows the build-up but does not raise the
// steady share, -K N = ln(1 - C Q / G). In air changes; nothing when the share is never reached. Less strict than steadyShare():
// for comparing with that guide only.
[[nodiscard]] std::optional<double> changesToBuildUp(const Air&, double share);

// What gives a rise of `share` in a closed volume in that time: a closed hold is a measurement of what is left inside.
[[nodiscard]] quantity::VolumeFlow sourceFromRise(const quantity::Volume&, double share, const quantity::Duration&);

} // namespace brimful::gas
