// One grammar for a typed quantity: "1 5/8 in", "7 ft 8 in", "250 galUS", "20 degC", "5 psig", "1 %LEL".
// Decimal point or comma, no grouping, never the locale. A bare number is a quantity without dimension.
// "1,000" (one to three digits, a comma, three digits) is refused: a thousand to one reader, one to another.
// A minus sign may stand before lengths, angles, temperatures, gauge pressures and bare numbers.
#pragma once

#include "core/quantity/quantity.h"

#include <tl/expected.hpp>

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace brimful::quantity {

enum class ParseFault : std::uint8_t {
    Empty, // nothing typed
    NoNumber, // a unit or other text where a number was expected
    BadNumber, // digits that are no number: "1.2.3", "1e", grouping; a fraction of a count in record()
    BadFraction, // "1/0", "5/8/2", a fraction beside a decimal
    NoUnit, // a dimension was asked for and none was typed
    UnknownUnit, // `expected` names the nearest known unit
    MixedUnits, // "3 ft 2 kg", or parts not in falling order: "2 in 3 ft"
    WrongDimension, // "20 degC" where a length was asked for
    OutOfRange, // below absolute zero, beyond the recorded integer range
    Trailing // text after a complete quantity
};

struct ParseError {
    ParseFault fault;
    std::size_t at; // byte offset of the character that is wrong; text.size() when something is missing
    std::string expected; // a unit name, a dimension name or a nearest known unit; may be empty
    std::string found; // the offending piece as typed
};

struct Quantity {
    Dimension dimension{Dimension::Number};
    double si{}; // in the SI unit of the dimension; shares are 0..1, angles radians, temperatures kelvin
    std::string unit; // the unit as typed, the last one where several were; empty for a bare number
};

// `wanted`: the dimension asked for; a bare number is then refused unless that is Number.
// A gauge pressure ("barg", "psig") is converted to absolute with 101,325 Pa.
[[nodiscard]] tl::expected<Quantity, ParseError> parse(std::string_view text, std::optional<Dimension> wanted = std::nullopt);

// One word each: "length", "volume-flow", "limit-share", ...
[[nodiscard]] std::string_view dimensionName(Dimension);
[[nodiscard]] std::optional<Dimension> dimensionByName(std::string_view);

} // namespace brimful::quantity
