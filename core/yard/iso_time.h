// "2026-06-14", "2026-06-14T08:00Z", "2026-06-14T08:00:30Z": UTC in and out, nothing else.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace brimful::yard {

[[nodiscard]] std::optional<std::int64_t> parseTime(std::string_view text); // wall ms
[[nodiscard]] std::string formatTime(std::int64_t wall_ms); // "2026-06-14T08:00:30Z"

} // namespace brimful::yard
