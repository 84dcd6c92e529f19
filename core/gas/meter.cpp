#include "core/gas/meter.h"

#include <algorithm>

namespace brimful::gas {

namespace {

constexpr double kSensorNeeds = 0.10;
constexpr double kOxygenLow = 0.195;
constexpr double kOxygenHigh = 0.230;

// Shares are typed in tenths of a percent; half a step of slack keeps 19.5 from reading as 19.4999.
constexpr double kSlack = 1e-9;

void doubtOxygen(const Reading& reading, Meaning& meaning)
{
    if (!reading.oxygen) {
        meaning.doubts.push_back(Doubt::NoOxygenReading);
        return;
    }
    switch (oxygenBand(*reading.oxygen)) {
    case Oxygen::Starved:
        meaning.alarm_only = reading.sensor == Sensor::Infrared;
        meaning.doubts.push_back(meaning.alarm_only ? Doubt::OxygenLow : Doubt::SensorStarved);
        break;
    case Oxygen::AlarmOnly:
        meaning.alarm_only = true;
        meaning.doubts.push_back(Doubt::OxygenLow);
        break;
    case Oxygen::Enriched:
        meaning.doubts.push_back(Doubt::OxygenHigh);
        break;
    case Oxygen::Good:
        break;
    }
}

void doubtSubstance(const Reading& reading, Meaning& meaning)
{
    const Substance& substance = *reading.substance;
    if (substance.heavy_ends) {
        meaning.doubts.push_back(Doubt::HeavyEnds);
    }
    if (reading.sensor == Sensor::Infrared && (substance.id == "hydrogen" || substance.id == "acetylene")) {
        meaning.doubts.push_back(Doubt::InfraredBlind);
    }
    if (reading.sensor == Sensor::Catalytic && substance.poisons_catalytic) {
        meaning.doubts.push_back(Doubt::SensorPoison);
    }
}

// By name, so that a row copied out of another table is still the same gas.
bool onItsOwnGas(const Reading& reading) { return reading.calibrated_on != nullptr && reading.calibrated_on->id == reading.substance->id; }

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
    doubtOxygen(reading, meaning);
    if (reading.display > 1.0) {
        meaning.doubts.push_back(Doubt::OverRange);
    }
    if (reading.display < 0.0) {
        meaning.doubts.push_back(Doubt::Negative);
    }
    if (reading.substance == nullptr) {
        meaning.doubts.push_back(Doubt::UnknownSubstance);
        return meaning;
    }
    doubtSubstance(reading, meaning);
    const auto lowest = reading.substance->lowestLimit();
    if (!lowest) {
        return meaning;
    }
    if (reading.limit_basis && *reading.limit_basis < *lowest - kSlack) {
        meaning.doubts.push_back(Doubt::BasisTooLow);
    }
    const bool own_gas = onItsOwnGas(reading);
    if (!own_gas && !reading.response_factor) {
        meaning.doubts.push_back(Doubt::NoFactor);
        return meaning;
    }
    const double given = reading.response_factor.value_or(1.0);
    const double factor = own_gas ? std::max(given, 1.0) : given;
    meaning.of_basis = reading.display * factor;
    meaning.share = *meaning.of_basis * reading.limit_basis.value_or(*reading.substance->highestLowerLimit());
    meaning.of_lowest = std::max(*meaning.share / *lowest, *meaning.of_basis);
    return meaning;
}

} // namespace brimful::gas
