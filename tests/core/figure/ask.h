// A figure asked as a script asks it: JSON text in, values out.
#pragma once

#include "core/figure/figure.h"

#include <stdexcept>

namespace brimful::test {

inline tl::expected<figure::Result, figure::Error> ask(
    std::string_view name, std::string_view json, const figure::Reference& reference = {})
{
    const auto read = canon::read(json, canon::Dialect::Any);
    if (!read || figure::byName(name) == nullptr) {
        throw std::invalid_argument(std::string(json));
    }
    return figure::compute(*figure::byName(name), *read, reference);
}

inline double number(const figure::Result& result, std::string_view key)
{
    const canon::Json* const value = result.values.find(key);
    if (value == nullptr) {
        throw std::out_of_range(std::string(key));
    }
    return value->number;
}

inline bool has(const figure::Result& result, std::string_view key) { return result.values.find(key) != nullptr; }

} // namespace brimful::test
