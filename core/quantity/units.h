// The closed list of units that may be typed, and the counts in which quantities are kept, each as an exact ratio.
// Inside this room only.
#pragma once

#include "core/quantity/quantity.h"

#include <cstdint>
#include <optional>
#include <span>
#include <string_view>

namespace brimful::quantity {

// An exact number: numerator / denominator.
struct Ratio {
    std::int64_t over;
    std::int64_t under{1};
};

// value in the base unit = typed * factor + offset. Base units are SI, but degrees for Angle and 1 for shares.
struct Unit {
    std::string_view name;
    Dimension dimension;
    Ratio factor;
    Ratio offset{0};
};

[[nodiscard]] std::span<const Unit> knownUnits();
[[nodiscard]] const Unit* unitByName(std::string_view name);
// The known unit that a misspelling most likely meant; of `wanted` when that is given.
[[nodiscard]] std::string_view nearestUnit(std::string_view typed, std::optional<Dimension> wanted);

// One count of the recorded unit = 1 / perBase of the base unit: "100nm" -> 10,000,000 in a metre.
struct CountUnit {
    Dimension dimension;
    std::string_view name;
    std::int64_t perBase;
};
[[nodiscard]] const CountUnit* countUnit(Dimension);
[[nodiscard]] const CountUnit* countUnit(std::string_view name);

[[nodiscard]] double siOfBase(double base, Dimension);
[[nodiscard]] double baseOfSi(double si, Dimension);

} // namespace brimful::quantity
