// Inputs against their declaration. Inside this room only.
#pragma once

#include "core/figure/figure.h"

#include <optional>

namespace brimful::figure {

// The checked object that Figure::compute takes; errors carry the path under `path`.
[[nodiscard]] tl::expected<canon::Json, Error> check(std::span<const Input> inputs, const canon::Json& given, const std::string& path = {});

[[nodiscard]] std::string pathTo(std::string_view parent, std::string_view key);

// Numbers of a checked object.
[[nodiscard]] std::optional<double> numberAt(const canon::Json& checked, std::string_view key);
[[nodiscard]] double numberAt(const canon::Json& checked, std::string_view key, double otherwise);
[[nodiscard]] bool flagAt(const canon::Json& checked, std::string_view key);

[[nodiscard]] inline tl::unexpected<Error> fail(Code code, std::string path, std::string expected = {}, std::string found = {})
{
    return tl::unexpected(Error{std::move(path), code, std::move(expected), std::move(found)});
}

} // namespace brimful::figure
