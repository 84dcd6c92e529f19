// What is to be laid out on the shell, as the mark-out figure takes it. Inside this room only.
#pragma once

#include "core/figure/vessel_inputs.h"
#include "core/layout/plan.h"

#include <array>

namespace brimful::figure {

inline constexpr std::array<std::string_view, 8> kFeatureKinds{
    "door", "cut-out", "round-cut-out", "nozzle", "pad", "foot", "seam", "girth-seam"}; // in the order of layout::Kind
inline constexpr std::array<std::string_view, 4> kHingeSides{"first-line", "second-line", "left-end", "right-end"};

inline constexpr std::array kFeatureInputs{
    Input{.key = "name", .kind = InputKind::Text, .required = true},
    Input{.key = "kind", .kind = InputKind::Choice, .required = true, .choices = kFeatureKinds},
    // Where it begins along the shell; of a round thing its middle. A long seam needs none.
    Input{"from_left_tangent", InputKind::Quantity, Dimension::Length}, Input{"length", InputKind::Quantity, Dimension::Length},
    // Where it begins round the shell, clockwise seen from the left end; of a round thing its middle. `around` is the tape
    // from the datum line instead.
    Input{"clock", InputKind::Quantity, Dimension::Angle}, Input{"around", InputKind::Quantity, Dimension::Length},
    // How far round: to a clock angle, as the tape lies, or straight across.
    Input{"clock_to", InputKind::Quantity, Dimension::Angle}, Input{"width", InputKind::Quantity, Dimension::Length},
    Input{"chord", InputKind::Quantity, Dimension::Length}, Input{"diameter", InputKind::Quantity, Dimension::Length}, // of a round thing
    Input{"corner_radius", InputKind::Quantity, Dimension::Length}, // of a door or cut-out
    Input{.key = "hinge_side", .kind = InputKind::Choice, .choices = kHingeSides}, // of a door
};

struct FeatureRead {
    std::string name;
    layout::Kind kind{};
    layout::Footprint lines; // the marked lines themselves, without kerf or strap
    double cornerRadius{};
    std::string_view hingeSide; // empty: none
    bool round{};
};

// `datum` in radians, clockwise from the top at roll 0. Cuts lie between the tangent lines and do not cross the datum line.
[[nodiscard]] tl::expected<std::vector<FeatureRead>, Error> readFeatures(const canon::Json& checked, const vessel::Shell&, double datum);

} // namespace brimful::figure
