// The piece that stays, which surfaces of two pieces meet, and where. Inside this room only.
#pragma once

#include "core/figure/figure.h"
#include "core/layout/joint.h"

#include <optional>

namespace brimful::figure {

// The part that stays: its outside and inside as bodies whose right head, if it is a head, is the one that is joined.
struct Part {
    vessel::Profile outside;
    vessel::Profile inside;
    double outsideRadius{};
    std::optional<double> wall;
    double tangent{}; // of the right head; a plain body has none
    bool ends{}; // it has tangent lines at 0 and `tangent`
    bool sphere{};
    bool head{};
    bool flat{}; // that head is
    std::string_view sizeKey;
};

// Which surfaces meet, and at which radius the pattern is wrapped.
struct Fit {
    std::string_view word; // empty: as given
    double touch{}; // radius of the pipe's surface that meets the part
    bool inside{}; // it meets the part's inside
    double hole{}; // radius of the hole's edge on the part's outside
};

struct Place {
    layout::PipeAxis axis;
    double offset{};
};

// A plain cylinder or sphere by its diameter; a vessel's shell, or one of its heads as the right one.
[[nodiscard]] tl::expected<Part, Error> plainPart(const canon::Json& checked, std::string_view key);
[[nodiscard]] tl::expected<Part, Error> vesselPart(const canon::Json& checked, bool head);
[[nodiscard]] tl::expected<Fit, Error> readFit(const canon::Json& checked, const Part&, double pipe, std::string_view word);
[[nodiscard]] tl::expected<Place, Error> readPlace(const canon::Json& checked, const Part&);

// The joint of one fit, refused with a name when the pipe is too wide, overhangs, or runs over a tangent line.
[[nodiscard]] tl::expected<layout::Joint, Error> joined(const Part&, const Place&, double radius, bool inside, std::size_t count);

} // namespace brimful::figure
