// Gas on the screen: the flammability triangle with the way through it, and the share over time. The numbers are the figure's; this
// paints them and their labels.
#pragma once

#include "app/tablet/figure_picture.h"

namespace brimful::tablet {

// An answer of `gas-to-air` whose picture is a triangle, with the name of the gas; or the share over time.
void paintGasTriangle(const Canvas& canvas, const figure::Result& result, const QString& gas);
void paintGasOverTime(const Canvas& canvas, const figure::Result& result);

} // namespace brimful::tablet
