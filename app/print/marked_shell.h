// The shell of a mark-out's answer, and its unrolled picture. Inside this room only.
#pragma once

#include "app/print/sketch.h"

#include <numbers>
#include <optional>

namespace brimful::print {

struct MarkedShell {
    double radius, length, datum, roll, pitch; // m, rad
    std::optional<double> level;

    explicit MarkedShell(const canon::Json& values)
        : radius(numberOf(values, "outside_diameter_m") / 2)
        , length(numberOf(values, "shell_length_m"))
        , datum(numberOf(values, "datum_deg") * std::numbers::pi / 180)
        , roll(numberOf(values, "roll_deg") * std::numbers::pi / 180)
        , pitch(numberOf(values, "pitch_deg") * std::numbers::pi / 180)
    {
        if (const canon::Json* const water = values.find("water_level_m"); water != nullptr) {
            level = water->number;
        }
    }
    [[nodiscard]] double girth() const { return 2 * std::numbers::pi * radius; }
    [[nodiscard]] double clock(double y) const { return -y / radius + datum + roll; } // of a place of the unrolled picture
};

std::vector<PartPlace> paintUnrolled(const Sketch&, const MarkedShell&);

} // namespace brimful::print
