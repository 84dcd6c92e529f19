// The hole in the part that stays. Inside this room only.
#pragma once

#include "core/figure/pipe_part.h"

namespace brimful::figure {

// As the other piece's edge on this part's outside: marks, and a pattern where it can be laid flat.
[[nodiscard]] tl::expected<void, Error> setHole(
    const canon::Json& checked, const Part&, const Place&, const Fit&, std::size_t count, Result& out);

} // namespace brimful::figure
