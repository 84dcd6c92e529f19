// What a scale and a second tape tell of a vessel of which nobody has a drawing.
#pragma once

#include "core/vessel/shell.h"

#include <optional>
#include <utility>
#include <vector>

namespace brimful::vessel {

// The wall at which plain shell and heads of one thickness weigh this much, the other sizes as measured. Legs and fittings
// on the scale make it thicker than it is: a bound from above. Nothing when no wall does.
[[nodiscard]] std::optional<Length> wallFromMass(const Size&, Mass empty);

// A tape laid over the top line from tip to tip is longer than the straight length by 2 (arc - depth) of both heads together,
// taken as alike; on the outside. Derived from the heads' own arcs: 0.571 D hemispherical, 0.711 D 2:1, 0.766 D torispherical
// 1.0/0.06, 1.0 D flat.
struct HeadGuess {
    HeadKind kind;
    Length off; // what the tape shows beyond what this head would, either sign
};

// Nearest first. A 2:1 head and one of crown 0.8, knuckle 0.154 cannot be told apart this way, and need not be.
[[nodiscard]] std::vector<HeadGuess> headsByTape(OutsideDiameter, Length wall, Length tapeOverTips, OverallLength);

} // namespace brimful::vessel
