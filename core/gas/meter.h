// What a gas meter's display means for the gas that is really there, and whether it may be believed at all.
#pragma once

#include "core/gas/substances.h"

#include <optional>
#include <vector>

namespace brimful::gas {

enum class Sensor : std::uint8_t { Catalytic, Infrared };

struct Reading {
    double display{}; // as shown: 1 = 100 % of the limit that the meter was set up with
    Sensor sensor{Sensor::Catalytic};
    const Substance* calibrated_on{}; // the gas it was calibrated with; null: not said
    // Of this instrument, for this substance: true = shown x factor. On a meter calibrated with the substance itself a factor
    // below 1 does not count.
    std::optional<double> response_factor;
    // Lower limit of the substance that this meter's %LEL means; absent: the highest published one, which takes the display
    // for the most gas it can mean.
    std::optional<double> limit_basis;
    const Substance* substance{}; // what was in the vessel; null: unknown
    std::optional<double> oxygen; // share measured at the same place; absent: not measured
};

// Why a reading may not be believed, or only as an alarm. Closed; figures give them as words.
enum class Doubt : std::uint8_t {
    NoOxygenReading, // a catalytic sensor was read without oxygen beside it
    SensorStarved, // below 10 % oxygen a catalytic sensor shows too little, down to nothing
    OxygenLow, // 10 to 19.5 %: something displaces the air; an alarm, never a release
    OxygenHigh, // above 23.0 %: enriched
    InfraredBlind, // infrared sensors do not see hydrogen, and acetylene hardly
    HeavyEnds, // oil and kerosene hardly show cold: look, wipe and first heat decide
    NoFactor, // calibrated on another gas and no response factor known
    UnknownSubstance,
    OverRange, // above 100 %: the meter is out until it is checked
    Negative, // below zero: it was not zeroed in clean air
    SensorPoison, // the substance itself dulls a catalytic sensor (sulphur, chlorine, fluorine)
    BasisTooLow // the limit basis is below every published lower limit: no meter means that
};

struct Meaning {
    std::vector<Doubt> doubts; // empty: it may be believed
    bool alarm_only{}; // 10 <= O2 < 19.5 %: counts against, never for
    std::optional<double> of_basis; // display x factor: 1 = the limit that the meter means
    std::optional<double> share; // of the gas that is there, by volume
    std::optional<double> of_lowest; // 1 = the lowest published lower limit of that gas: what decisions rest on; never below of_basis
    [[nodiscard]] bool believable() const { return doubts.empty(); }
};

// of_basis = display x factor; share = of_basis x limit basis; of_lowest = share / lowest published limit.
// Sources: instrument makers' tables of response factors; oxygen need of catalytic sensors (10 %) as three makers state
// it; oxygen band 19.5 to 23.0 (29 CFR 1910.146(b) below, Ontario Reg. 632/05 above, the stricter of each).
[[nodiscard]] Meaning meaningOf(const Reading&);

enum class Oxygen : std::uint8_t { Starved, AlarmOnly, Good, Enriched };
[[nodiscard]] Oxygen oxygenBand(double share);

} // namespace brimful::gas
