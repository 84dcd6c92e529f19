// What was typed as an exact ratio in the base unit of units.h. Inside this room only.
#pragma once

#include "core/quantity/parse.h"

#include <boost/multiprecision/cpp_int.hpp>

namespace brimful::quantity {

using Rational = boost::multiprecision::cpp_rational;

struct Exact {
    Dimension dimension{Dimension::Number};
    Rational base;
    std::string unit; // as in Quantity
    std::size_t numberAt{}; // where the first number begins
};

[[nodiscard]] tl::expected<Exact, ParseError> parseExact(std::string_view text, std::optional<Dimension> wanted);

} // namespace brimful::quantity
