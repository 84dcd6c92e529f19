// The joint of a pipe, or of half a vessel, with a shell, a sphere or a head; part of the figure "junction". Inside this room only.
#pragma once

#include "core/figure/figure.h"

namespace brimful::figure {

inline constexpr std::string_view kDiametersTouch = "diameters-taken-as-those-that-touch";
inline constexpr std::string_view kCrease = "equal-diameters-meet-in-a-crease";
inline constexpr std::size_t kDense = 720; // points round a developed edge

// Of a figure's checked inputs: a length above 0; the number of ordinates, 4 to 360.
[[nodiscard]] tl::expected<double, Error> positiveLength(const canon::Json& inputs, std::string_view key);
[[nodiscard]] tl::expected<std::size_t, Error> readCount(const canon::Json& inputs);
[[nodiscard]] std::string shownLength(double metres);

[[nodiscard]] tl::expected<Result, Error> computePipeJoint(const canon::Json& inputs, std::string_view kind);

} // namespace brimful::figure
