// Pictures of gas: the flammability diagram, and the share over time. Inside this room only.
#pragma once

#include "core/figure/figure.h"
#include "core/gas/airing.h"

#include <array>

namespace brimful::figure {

// As which shape the diagram is drawn; both are one metre a whole.
constexpr std::array<std::string_view, 2> kDiagrams{"rectangle", "triangle"};
enum class Diagram : std::uint8_t {
    Rectangle, // fuel to the right, oxygen up
    Triangle // oxygen at the left corner, inert at the right, fuel on top
};
[[nodiscard]] Diagram diagramOf(std::string_view word); // "" is the rectangle

// "frame", "air-line", and where there is a zone "stoichiometric-line", "limiting-oxygen" and "zone".
void drawDiagram(Result&, const gas::Substance*, const std::optional<gas::Zone>&, Diagram);
// "path", and "crossing" where it leads through the zone.
void drawPath(Result&, gas::State from, gas::State towards, const std::optional<gas::Crossing>&, Diagram);
void drawNow(Result&, gas::State, Diagram); // "now"

// Time to the right, 1.6 m for all of it; the share up, a quarter metre for each ten times, from 0.01 % (0 m) to 100 % (1 m).
struct TimeAxes {
    double span_s{};
    [[nodiscard]] std::pair<double, double> place(double seconds, double share) const;
};
void drawAxes(Result&, const TimeAxes&); // "axes"
void drawBand(Result&, const TimeAxes&, gas::FlammableRange, double from_s); // "band"
void drawTarget(Result&, const TimeAxes&, double share); // "target"
// "curve", from `starts_s` on, and "burning" where it burns.
void drawCurve(Result&, const TimeAxes&, const gas::Leg&, double starts_s, const std::optional<gas::Burning>&);

} // namespace brimful::figure
