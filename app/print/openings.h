// Nozzles of the section: lips, plug, strike or question mark, and their names.
#pragma once

#include "app/print/section.h"

namespace brimful::print {

// `watered`: water stands to the brim, so that an open nozzle is full.
QRectF paintNozzle(QPainter&, const Nozzle&, const Section&, const Palette&, bool watered, bool proven);
void nameNozzles(QPainter&, const std::vector<Nozzle>&, const Palette&, double u);
// Names of nozzles that stand close are spread out and tied to them by a thin line; that needs a little more height.
[[nodiscard]] bool namesCrowd(const std::vector<Nozzle>&, double u);

} // namespace brimful::print
