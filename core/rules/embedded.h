// The data files that travel inside the program. Private to this room.
#pragma once

#include <span>
#include <string_view>

namespace brimful::rules {

struct Embedded {
    std::string_view path; // below rules/
    std::string_view content;
};
[[nodiscard]] std::span<const Embedded> embedded();

} // namespace brimful::rules
