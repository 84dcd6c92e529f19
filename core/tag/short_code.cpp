// The code that a hand writes on a card and types again at the vessel.
#include "core/tag/tag.h"

#include <algorithm>

namespace brimful::tag {

namespace {

constexpr std::size_t kSymbols = 8; // 40 bits of the hash
constexpr std::size_t kHashBytes = 5;

// As a tired hand writes: any case, hyphens or spaces anywhere, I and L for 1, O for 0.
char plain(char c)
{
    const char upper = c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
    if (upper == 'I' || upper == 'L') {
        return '1';
    }
    return upper == 'O' ? '0' : upper;
}

std::string symbolsOf(const Hash& head) { return canon::toBase32(std::span(head.value).first(kHashBytes)); }

} // namespace

std::string shortCode(const Hash& head)
{
    const std::string symbols = symbolsOf(head);
    return symbols.substr(0, 4) + "-" + symbols.substr(4) + "-" + canon::base32Check(symbols);
}

tl::expected<std::string, CodeFault> readShortCode(std::string_view typed)
{
    std::string symbols;
    for (const char c : typed) {
        if (c != '-' && c != ' ' && c != '\r' && c != '\n') {
            symbols.push_back(plain(c));
        }
    }
    if (symbols.size() != kSymbols + 1) {
        return tl::unexpected(CodeFault::Form);
    }
    const char check = symbols.back();
    symbols.pop_back();
    if (!canon::fromBase32(symbols)) {
        return tl::unexpected(CodeFault::Form);
    }
    if (check != canon::base32Check(symbols)) {
        return tl::unexpected(CodeFault::Check);
    }
    return symbols;
}

bool matches(std::string_view symbols, const Hash& head) { return symbols == symbolsOf(head); }

} // namespace brimful::tag
