// A joint as it stands, beside its patterns: "side:part", "side:pipe", "side:edge" as seen square to the part's axis, and
// "end:part", "end:pipe", "end:edge" along it; metres, up is up. Inside this room only.
#pragma once

#include "core/figure/development.h"

namespace brimful::figure {

// The pipe is drawn from its edge to the ring, `ring` out from the joint's least cut.
void addPipeViews(Result&, const vessel::Profile& part, double partRadius, const layout::PipeAxis&, double pipeRadius,
    const layout::Joint& dense, double ring);

// Two heads whose centres are `distance` apart, their edge in the plane at `plane` with radius `edge`.
void addHeadViews(Result&, double left, double right, double distance, double plane, double edge);

// A head of radius `head` over a shell of radius `shell`; the edge as a quarter of it: along, and round the shell in radians.
void addHeadOnShellViews(Result&, double head, double shell, double distance, const std::vector<std::pair<double, double>>& quarter);

// Patterns and views in a row, so that none lies on another.
void standInARow(Result&);

} // namespace brimful::figure
