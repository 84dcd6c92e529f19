// What published rules let stand of flammable gas, for which work. To compare and to show: a reading that every one of them lets
// pass is still held by a stricter limit of the yard's own.
#pragma once

#include "core/quantity/quantity.h"

#include <cstdint>
#include <optional>
#include <span>
#include <string_view>

namespace brimful::gas {

enum class Work : std::uint8_t { HotWork, Entry, ColdWork };
enum class Mark : std::uint8_t { Found, Memory };

struct Threshold {
    std::string_view id;
    Work work;
    double share{}; // 1 = the lower limit
    bool included{}; // whether the share itself still passes
    std::optional<double> monitored; // up to below this with a meter that runs all the time; absent: no such relief
    std::string_view document;
    Mark mark; // of the number in that document
};

// In order of strictness, the strictest first.
[[nodiscard]] std::span<const Threshold> publishedThresholds();
[[nodiscard]] const Threshold* thresholdOf(std::string_view id);

enum class Verdict : std::uint8_t { Within, OnlyMonitored, Beyond };
// `of_limit` is what a decision rests on: share of the lowest lower limit. Not a number is beyond.
[[nodiscard]] Verdict compare(const Threshold&, double of_limit);

// "Hot work on drums and tanks" (New Zealand Department of Labour, March 1988, ISBN 0-477-03420-9; found) is written for vessels
// under 2,500 L and tells people without training to leave larger ones alone.
constexpr double kSmallVessel_m3 = 2.5;
[[nodiscard]] bool isSmallVessel(const quantity::Volume&);

} // namespace brimful::gas
