// Vessels in the states that the drawing knows, put together by hand.
#pragma once

#include "core/report/view.h"

#include <string>
#include <utility>
#include <vector>

namespace brimful::test {

inline constexpr std::int64_t kSunday = 1781454600000; // 2026-06-14T16:30Z

report::VesselView intake(); // nothing known
report::VesselView believed(); // plate read, contents not proven
report::VesselView wet(); // brimful, all proven, held before first cut by lapsed readings
report::VesselView wetReleased();
report::VesselView tilted(); // 2 degrees, pocket, three openings plugged
report::VesselView draining();
report::VesselView stopped();
report::VesselView refused();
report::VesselView closedOut();
report::VesselView everyPlace(); // one reading of each kind
report::VesselView manyOpenings(); // heads, sides, bottom, stuck, unknown, close together

std::vector<std::pair<std::string, report::VesselView>> allViews();

} // namespace brimful::test
