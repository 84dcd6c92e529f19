// What a meter shows and what it means, on scales of gas, oxygen and waiting time.
#pragma once

#include "app/tablet/figure_picture.h"

namespace brimful::tablet {

struct MeterSketch {
    double shown{}; // percent of the limit, as displayed
    std::optional<double> means; // percent of the lowest limit; absent: nothing can be said
    bool counts{};
    bool infrared{}; // needs no oxygen to see gas
    std::optional<double> oxygen; // percent
    double hose_s{}, meter_s{}; // what is waited for: twice the hose's delay, the meter's own
    double held_s{};
};
void paintMeter(const Canvas& canvas, const MeterSketch& sketch);

} // namespace brimful::tablet
