#include "core/canon/hash.h"

#include <openssl/evp.h>

#include <algorithm>
#include <memory>

namespace brimful::canon {

namespace {

constexpr std::string_view kHexDigits = "0123456789abcdef";
constexpr std::string_view kCrockford = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";
constexpr std::string_view kCheckSymbols = "0123456789ABCDEFGHJKMNPQRSTVWXYZ*~$=U";

// Looking the algorithm up and making a context cost as much as hashing an entry: once a program, once a thread.
Hash digest(std::string_view first, std::string_view second)
{
    static const EVP_MD* const algorithm = EVP_MD_fetch(nullptr, "SHA256", nullptr);
    thread_local const std::unique_ptr<EVP_MD_CTX, decltype(&EVP_MD_CTX_free)> context(EVP_MD_CTX_new(), &EVP_MD_CTX_free);
    Hash out;
    unsigned length = 0;
    EVP_DigestInit_ex(context.get(), algorithm, nullptr);
    EVP_DigestUpdate(context.get(), first.data(), first.size());
    EVP_DigestUpdate(context.get(), second.data(), second.size());
    EVP_DigestFinal_ex(context.get(), out.value.data(), &length);
    return out;
}

int crockfordValue(char c)
{
    const char upper = c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
    if (upper == 'I' || upper == 'L') {
        return 1;
    }
    if (upper == 'O') {
        return 0;
    }
    const auto at = kCrockford.find(upper);
    return at == std::string_view::npos ? -1 : static_cast<int>(at);
}

} // namespace

Hash sha256(std::string_view bytes) { return digest(bytes, {}); }

Hash leafHash(std::string_view body) { return digest(std::string_view("\0", 1), body); }

std::string toHex(std::span<const std::uint8_t> bytes)
{
    std::string out;
    out.reserve(bytes.size() * 2);
    for (const std::uint8_t byte : bytes) {
        out += kHexDigits[byte >> 4U];
        out += kHexDigits[byte & 0xFU];
    }
    return out;
}

namespace {

constexpr std::uint8_t kNoDigit = 0xff;
constexpr auto kHexValues = [] {
    std::array<std::uint8_t, 256> values{};
    values.fill(kNoDigit);
    for (std::size_t i = 0; i < kHexDigits.size(); ++i) {
        values.at(static_cast<std::uint8_t>(kHexDigits[i])) = static_cast<std::uint8_t>(i);
    }
    return values;
}();

std::uint8_t hexValue(char c) { return kHexValues[static_cast<std::uint8_t>(c)]; }

} // namespace

bool fromHex(std::string_view hex, std::span<std::uint8_t> out)
{
    if (hex.size() != out.size() * 2) {
        return false;
    }
    for (std::size_t i = 0; i < out.size(); ++i) {
        const unsigned high = hexValue(hex[2 * i]);
        const unsigned low = hexValue(hex[2 * i + 1]);
        if (high == kNoDigit || low == kNoDigit) {
            return false;
        }
        out[i] = static_cast<std::uint8_t>(high << 4U | low);
    }
    return true;
}

std::string toBase32(std::span<const std::uint8_t> bytes)
{
    std::string out;
    std::uint32_t buffer = 0;
    unsigned bits = 0;
    for (const std::uint8_t byte : bytes) {
        buffer = (buffer << 8U | byte) & 0xFFFFU;
        bits += 8;
        while (bits >= 5) {
            bits -= 5;
            out += kCrockford[(buffer >> bits) & 31U];
        }
    }
    if (bits > 0) {
        out += kCrockford[(buffer << (5 - bits)) & 31U];
    }
    return out;
}

std::optional<std::string> fromBase32(std::string_view text)
{
    std::string out;
    std::uint32_t buffer = 0;
    unsigned bits = 0;
    for (const char c : text) {
        const int value = crockfordValue(c);
        if (value < 0) {
            return std::nullopt;
        }
        buffer = (buffer << 5U | static_cast<std::uint32_t>(value)) & 0xFFFFU;
        bits += 5;
        if (bits >= 8) {
            bits -= 8;
            out += static_cast<char>((buffer >> bits) & 0xFFU);
        }
    }
    // What is left over must be padding of zeros, less than a whole symbol.
    if (bits >= 5 || (buffer & ((1U << bits) - 1U)) != 0) {
        return std::nullopt;
    }
    return out;
}

char base32Check(std::string_view symbols)
{
    unsigned remainder = 0;
    for (const char c : symbols) {
        const int value = crockfordValue(c);
        remainder = (remainder * 32 + static_cast<unsigned>(std::max(value, 0))) % 37;
    }
    return kCheckSymbols[remainder];
}

} // namespace brimful::canon
