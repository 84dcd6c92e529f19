// The order in which a marked-out shell is cut: generated, or one's own, checked. Part of the figure "mark-out". Inside this
// room only.
#pragma once

#include "core/figure/figure.h"
#include "core/layout/plan.h"

#include <array>

namespace brimful::figure {

inline constexpr std::array<std::string_view, 7> kActs{
    "cut-out", "cut-to-tabs", "let-out", "hot-work-release", "fit-hinge", "fit-strap", "cut-tabs"}; // in the order of layout::Act

inline constexpr std::array kWorkInputs{
    Input{.key = "do", .kind = InputKind::Choice, .required = true, .choices = kActs},
    Input{.key = "feature", .kind = InputKind::Text},
};

inline constexpr std::string_view kNoFirst = "no-opening-without-a-hinge-to-look-in-first";

// Sets "order" from the inputs' "work", or the usual one.
[[nodiscard]] tl::expected<void, Error> setOrder(
    const canon::Json& inputs, const std::vector<layout::Placed>& all, bool straps, Result& out);

} // namespace brimful::figure
