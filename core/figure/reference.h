// The reference data that figures look up, from the JSON that travels with the program (rules/reference/).
#pragma once

#include "core/figure/figure.h"
#include "core/gas/substances.h"

namespace brimful::figure {

// From the text of substances.json. Quantities stand in it as texts with units; a broken file gives nothing, with the path.
[[nodiscard]] tl::expected<gas::SubstanceTable, Error> shippedSubstances(std::string_view json);

} // namespace brimful::figure
