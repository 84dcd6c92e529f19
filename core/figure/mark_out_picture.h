// The unrolled shell of a mark-out, seen from outside: x along the shell from the left tangent line, y against the tape round
// from the datum line, so that the clock runs downward. Inside this room only.
#pragma once

#include "core/figure/development.h"
#include "core/figure/mark_out_settings.h"

namespace brimful::figure {

// The line of a cut, or the edge of a thing.
[[nodiscard]] Points outlineOf(const FeatureRead&, const MarkOutSettings&);

// How the vessel lies when it is cut, and where the water stands: above the axis at the left tangent line, of the inside.
struct WaterRead {
    double datum{}; // rad, clock of the datum line
    double pitch{};
    double roll{};
    std::optional<double> level; // m
};

// How the vessel lies; sets what its views are drawn by and, with a "water_depth", "cuts_and_water".
[[nodiscard]] tl::expected<WaterRead, Error> readWater(
    const canon::Json& checked, const vessel::Shell&, const MarkOutSettings&, const std::vector<FeatureRead>&, Result& out);

// "outline", "datum", "quarter:N", each cut as a pattern (development.h) with "hinge:NAME" on its hinge side and "strap:NAME" as
// far as bar and kerf reach, "weld:NAME", "thing:NAME", round each thing and weld "clear:NAME" where no cut may come,
// "wet:N" where water stands behind the wall, and "profile", the outside's radius over the axis from tip to tip.
void drawMarkOut(const std::vector<FeatureRead>&, const MarkOutSettings&, const vessel::Shell&, const WaterRead&, Result& out);

} // namespace brimful::figure
