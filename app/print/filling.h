// What is inside the section: water below its level, gas in dots above it or throughout, and where the level lies.
#pragma once

#include "app/print/section.h"

#include <optional>

namespace brimful::print {

struct Filling {
    bool gas_throughout{}; // contents not proven: dots everywhere that no water is
    std::optional<double> level; // y on the page
    bool water_proven{};
    bool surface{}; // a surface to be seen: not brimful
    std::optional<double> pocket_l; // to be drawn and numbered
};

[[nodiscard]] Filling fillingOf(const report::VesselView&, const Section&, const std::vector<Nozzle>&);
void paintFilling(QPainter&, const Filling&, const Section&, const Palette&);
void paintLevelMark(QPainter&, const Filling&, const Section&, const Palette&);
QRectF paintPocketBox(QPainter&, const Filling&, const Section&, const Palette&);

} // namespace brimful::print
