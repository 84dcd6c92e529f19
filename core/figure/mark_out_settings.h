// The blade, the bar, the tabs and the clearances of a mark-out. Inside this room only.
#pragma once

#include "core/figure/mark_out_inputs.h"

#include <algorithm>
#include <numbers>

namespace brimful::figure {

inline constexpr std::string_view kKerfTaken = "kerf-taken-as-0";
inline constexpr std::array<std::string_view, 3> kKerfSides{"inside", "centre", "outside"};

inline constexpr std::array kClearanceInputs{
    Input{"seam", InputKind::Quantity, Dimension::Length},
    Input{"girth_seam", InputKind::Quantity, Dimension::Length},
    Input{"pad", InputKind::Quantity, Dimension::Length},
    Input{"nozzle", InputKind::Quantity, Dimension::Length},
    Input{"foot", InputKind::Quantity, Dimension::Length},
    Input{"cut", InputKind::Quantity, Dimension::Length},
};

struct MarkOutSettings {
    double radius{}; // outside
    double wall{};
    double length{};
    double kerf{};
    double inward{}; // of the line on the panel's side, as a share of the kerf
    double strap{};
    double tab{};
    double tolerance{};
    layout::Clearances clearances;
    [[nodiscard]] double girth() const { return 2 * std::numbers::pi * radius; }
    // From the line to the outer edge of what a cut needs: its kerf, or half its strap over the kerf's middle.
    [[nodiscard]] double reach(layout::Kind kind) const
    {
        const double outward = kerf * (1 - inward);
        const double middle = outward - kerf / 2;
        return kind == layout::Kind::Door ? std::max(outward, middle + strap / 2) : outward;
    }
};

[[nodiscard]] tl::expected<MarkOutSettings, Error> readSettings(const canon::Json& checked, const VesselRead&, Result& out);

// Tabs stand at the corners; each at least as long as the corner's own arc.
[[nodiscard]] double tabOf(const FeatureRead&, const MarkOutSettings&);
// From the square corner to where the cut stops.
[[nodiscard]] double stopOf(const FeatureRead&, const MarkOutSettings&);

} // namespace brimful::figure
