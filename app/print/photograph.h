// Photographs as the record keeps them.
#pragma once

#include <optional>
#include <string>

namespace brimful::print {

inline constexpr int kLongestSide = 1600; // pixels; common practice, no source: a plate of 100 mm across 1 m stays legible

// The picture alone, upright, at most kLongestSide along each side, as JPEG: place, camera and every other note inside the file are
// left behind. Nothing when the bytes are no picture that can be read.
[[nodiscard]] std::optional<std::string> barePhotograph(const std::string& bytes);

} // namespace brimful::print
