// A yard of many vessels and entries, written row by row: as many records of one step as it takes.
#pragma once

#include "core/yard/clocks.h"
#include "core/yard/yard.h"

namespace brimful::test {

inline constexpr std::int64_t kLargeYardFrom = 1'781'424'000'000; // wall, ms

// Ada, PIN 480263, signs all. False: not made.
bool makeLargeYard(const std::filesystem::path& where, std::size_t vessels, std::size_t entries, yard::ScriptedClock& clock);

} // namespace brimful::test
