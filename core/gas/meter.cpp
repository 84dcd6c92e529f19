#include "core/gas/meter.h"

namespace brimful::gas {

namespace {

constexpr double kSensorNeeds = 0.10;
constexpr double kOxygenLow = 0.195;
constexpr double kOxygenHigh = 0.230;

// Shares are typed in tenths of a percent; half a step of slack keeps 19.5 from reading as 19.4999.
constexpr double kSlack = 1e-9;

} // namespace

Oxygen oxygenBand(double share)
{
    if (share < kSensorNeeds - kSlack) {
        return Oxygen::Starved;
    }
    if (share < kOxygenLow - kSlack) {
        return Oxygen::AlarmOnly;
    }
    return share > kOxygenHigh + kSlack ? Oxygen::Enriched : Oxygen::Good;
}

Meaning meaningOf(const Reading& reading)
{
    Meaning meaning;
    const auto doubt = [&](Doubt one) { meaning.doubts.push_back(one); };
    if (!reading.oxygen) {
        doubt(Doubt::NoOxygenReading);
    } else {
        switch (oxygenBand(*reading.oxygen)) {
        case Oxygen::Starved:
            if (reading.sensor == Sensor::Catalytic) {
                doubt(Doubt::SensorStarved);
            } else {
                meaning.alarm_only = true;
                doubt(Doubt::OxygenLow);
            }
            break;
        case Oxygen::AlarmOnly:
            meaning.alarm_only = true;
            doubt(Doubt::OxygenLow);
            break;
        case Oxygen::Enriched:
            doubt(Doubt::OxygenHigh);
            break;
        case Oxygen::Good:
            break;
        }
    }
    if (reading.display > 1.0) {
        doubt(Doubt::OverRange);
    }
    if (reading.display < 0.0) {
        doubt(Doubt::Negative);
    }
    if (reading.substance == nullptr) {
        doubt(Doubt::UnknownSubstance);
        return meaning;
    }
    if (reading.substance->heavy_ends) {
        doubt(Doubt::HeavyEnds);
    }
    if (reading.sensor == Sensor::Infrared && reading.substance->id == "hydrogen") {
        doubt(Doubt::InfraredBlind);
    }
    const bool own_gas = reading.calibrated_on == reading.substance;
    if (!own_gas && !reading.response_factor) {
        doubt(Doubt::NoFactor);
    }
    const auto lowest = reading.substance->lowestLimit();
    if (!lowest || (!own_gas && !reading.response_factor)) {
        return meaning;
    }
    const double basis = reading.limit_basis.value_or(reading.substance->nfpa ? reading.substance->nfpa->lower : *lowest);
    meaning.of_basis = reading.display * reading.response_factor.value_or(1.0);
    meaning.share = *meaning.of_basis * basis;
    meaning.of_lowest = *meaning.share / *lowest;
    return meaning;
}

} // namespace brimful::gas
