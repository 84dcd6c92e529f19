// Does the plate fit the vessel? What was measured is an interval, and so is the answer.
#pragma once

#include "core/vessel/shell.h"

#include <cstdint>
#include <vector>

namespace brimful::vessel {

// How far each measurement may be off. Proposals, not from a standard.
struct Tolerance {
    Length girth{quantity::metres(0.003175)}; // 1/8 in on the tape, 1/8 in / pi on a diameter
    Length length{quantity::metres(0.00635)}; // 1/4 in
    Length wall{quantity::metres(0.0015875)}; // 1/16 in
};

enum class Verdict : std::uint8_t { Agrees, Suspect, Mismatch };

// A number on a plate that was read in the wrong unit or meaning, and would fit.
enum class Slip : std::uint8_t { Litres, ImperialGallons, PoundsOfWater, EightyPercentFill };

struct PlateCheck {
    Verdict verdict;
    double ratio; // measured capacity / stamped
    Volume low; // least and most that the measurements allow
    Volume high;
    std::vector<Slip> slips; // only when the verdict is not Agrees
};

// The tolerances are added, all at their worst together (not combined as a root of squares): low and high are the
// capacities of the smallest and the largest vessel that fit the measurements. Agrees: the stamp is within 2 % of that
// interval; Suspect: within 8 %; Mismatch: beyond. The two percentages are proposals. `stamped` must be above 0.
[[nodiscard]] tl::expected<PlateCheck, SizeError> checkPlate(const Size& size, Volume stamped, const Tolerance& tolerance = {});

} // namespace brimful::vessel
