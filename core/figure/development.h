// A flat pattern at full size, among the lines of a picture. A line's part says its role and the pattern it belongs to:
//   cut:PATTERN          where the blade goes
//   line:PATTERN         the edge that is laid on a line of the work
//   centre:PATTERN       a line within it that is laid on a line of the work
//   seam:PATTERN         where the pattern meets itself round the girth
//   mark:PATTERN:LABEL   a reference with a label
// Patterns are as seen from outside the steel. Inside this room only.
#pragma once

#include "core/figure/figure.h"
#include "core/layout/joint.h"

namespace brimful::figure {

using Points = std::vector<std::pair<double, double>>;

// The wrap-round pattern of a pipe's end: x round the pipe from the first generator, y along it away from the part, 0 at the
// longest point; `ring` is where its straight edge lies. `dense` has many generators, `shown` the ordinates.
void addPipePattern(Result&, const layout::Joint& dense, const layout::Joint& shown, double wrapRadius, double ring);

// A hole in a shell, unrolled: x along the part, y round it. Its centre lines cross at (along, around).
void addHolePattern(Result&, std::string_view pattern, Points outline, double along, double around);

[[nodiscard]] double areaWithin(const Points& closed);

} // namespace brimful::figure
