// Hashes, 16-byte ids and their spellings.
#pragma once

#include <array>
#include <compare>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace brimful::canon {

// Fixed bytes with a meaning; two meanings never mix. Spelled in lower-case hex.
template <std::size_t Size, class Tag> struct Bytes {
    std::array<std::uint8_t, Size> value{};
    auto operator<=>(const Bytes&) const = default;
    [[nodiscard]] bool isZero() const { return value == std::array<std::uint8_t, Size>{}; }
};

using Hash = Bytes<32, struct HashTag>;

[[nodiscard]] Hash sha256(std::string_view bytes);
// SHA-256(0x00 || body): a leaf as in RFC 6962, so that a tree can be added without touching an entry.
[[nodiscard]] Hash leafHash(std::string_view body);

[[nodiscard]] std::string toHex(std::span<const std::uint8_t> bytes);
[[nodiscard]] bool fromHex(std::string_view hex, std::span<std::uint8_t> out); // lower case only, exact length

template <std::size_t Size, class Tag> [[nodiscard]] std::string toHex(const Bytes<Size, Tag>& bytes)
{
    return toHex(std::span<const std::uint8_t>(bytes.value));
}
template <class Wanted> [[nodiscard]] std::optional<Wanted> fromHex(std::string_view hex)
{
    Wanted out;
    if (!fromHex(hex, std::span<std::uint8_t>(out.value))) {
        return std::nullopt;
    }
    return out;
}

// Crockford Base32: 0-9 A-Z without I L O U. Reading takes lower case and I L O as 1 1 0.
[[nodiscard]] std::string toBase32(std::span<const std::uint8_t> bytes);
[[nodiscard]] std::optional<std::string> fromBase32(std::string_view text); // bytes
// Check character (value modulo 37 over 0-9 A-Z without I L O U, then * ~ $ = U), as the Crockford page defines it.
[[nodiscard]] char base32Check(std::string_view symbols);

} // namespace brimful::canon

template <std::size_t Size, class Tag> struct std::hash<brimful::canon::Bytes<Size, Tag>> {
    std::size_t operator()(const brimful::canon::Bytes<Size, Tag>& bytes) const noexcept
    {
        std::size_t out = 0;
        for (std::size_t i = 0; i < sizeof(std::size_t) && i < Size; ++i) {
            out = (out << 8U) | bytes.value[i];
        }
        return out;
    }
};
