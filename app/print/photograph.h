// Photographs as the record keeps them.
#pragma once

#include "core/report/photograph.h"

namespace brimful::print {

inline constexpr int kLongestSide = 1600; // pixels; common practice, no source: a plate of 100 mm across 1 m stays legible

// The picture alone, upright, at most kLongestSide along each side, as JPEG: place, camera and every other note inside the file are
// left behind; and what is seen in it. Nothing when the bytes are no picture that can be read.
[[nodiscard]] std::optional<report::Photograph> barePhotograph(const std::string& bytes);

} // namespace brimful::print
