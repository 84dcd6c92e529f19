// The canonical form checked in one pass. It shares nothing with the reader, so that a mistake in one shows beside the other.
#include "core/canon/json.h"

#include <array>

namespace brimful::canon {

namespace {

constexpr std::size_t kDeepest = 64;
constexpr std::string_view kLargest = "9007199254740991"; // 2^53 - 1

// What a byte may be inside a text (nothing else needs a look), and inside a key.
constexpr unsigned char kPlain = 1;
constexpr unsigned char kKey = 2;
constexpr auto kBytes = [] {
    std::array<unsigned char, 256> bytes{};
    for (std::size_t c = 0x20; c < 0x7f; ++c) {
        bytes.at(c) = c == '"' || c == '\\' ? 0 : kPlain;
        const bool in_keys = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '_' || c == '.' || c == '-';
        bytes.at(c) = static_cast<unsigned char>(bytes.at(c) | (in_keys ? kKey : 0U));
    }
    return bytes;
}();

class Scan {
public:
    explicit Scan(std::string_view bytes, std::vector<Slice>* outermost = nullptr)
        : m_bytes(bytes)
        , m_outermost(outermost)
    {
    }

    bool all() { return value(0) && m_at == m_bytes.size(); }

private:
    [[nodiscard]] unsigned char peek(std::size_t ahead = 0) const
    {
        return m_at + ahead < m_bytes.size() ? static_cast<unsigned char>(m_bytes[m_at + ahead]) : 0;
    }
    void skip(unsigned char kind)
    {
        while (m_at < m_bytes.size() && (kBytes[static_cast<unsigned char>(m_bytes[m_at])] & kind) != 0) { // NOLINT(*-constant-array-index)
            ++m_at;
        }
    }
    bool take(char wanted)
    {
        if (m_at < m_bytes.size() && m_bytes[m_at] == wanted) {
            ++m_at;
            return true;
        }
        return false;
    }

    bool value(std::size_t depth) // NOLINT(misc-no-recursion): at most kDeepest
    {
        switch (peek()) {
        case '{':
            return depth < kDeepest && object(depth + 1);
        case '[':
            return depth < kDeepest && array(depth + 1);
        case '"':
            return text();
        default:
            return integer();
        }
    }
    bool array(std::size_t depth) // NOLINT(misc-no-recursion)
    {
        ++m_at;
        if (take(']')) {
            return true;
        }
        do {
            if (!value(depth)) {
                return false;
            }
        } while (take(','));
        return take(']');
    }
    bool object(std::size_t depth) // NOLINT(misc-no-recursion)
    {
        ++m_at;
        if (take('}')) {
            return true;
        }
        std::string_view last;
        do {
            const std::size_t from = m_at + 1;
            if (!key()) {
                return false;
            }
            const std::string_view name = m_bytes.substr(from, m_at - from - 1);
            const std::size_t start = m_at + 1;
            if (name <= last || !take(':') || !value(depth)) {
                return false;
            }
            if (depth == 1 && m_outermost != nullptr) {
                m_outermost->push_back({name, m_bytes.substr(start, m_at - start)});
            }
            last = name;
        } while (take(','));
        return take('}');
    }
    bool key()
    {
        if (!take('"')) {
            return false;
        }
        skip(kKey);
        return take('"');
    }
    bool integer()
    {
        const bool negative = take('-');
        const std::size_t from = m_at;
        while (peek() >= '0' && peek() <= '9') {
            ++m_at;
        }
        const std::string_view digits = m_bytes.substr(from, m_at - from);
        if (digits.empty() || (digits.front() == '0' && (digits.size() > 1 || negative))) {
            return false;
        }
        return digits.size() < kLargest.size() || (digits.size() == kLargest.size() && digits <= kLargest);
    }
    bool text()
    {
        ++m_at;
        while (true) {
            skip(kPlain);
            const unsigned char c = peek();
            if (c == '"') {
                ++m_at;
                return true;
            }
            if (c < 0x20 || c == 0x7f) { // the end of the bytes looks like 0
                return false;
            }
            if (c == '\\') {
                if (peek(1) != '"' && peek(1) != '\\') {
                    return false;
                }
                m_at += 2;
            } else if (!letter(c)) {
                return false;
            }
        }
    }
    // A letter of two to four bytes, by table 3-7 of the Unicode standard.
    bool letter(unsigned char first)
    {
        const std::size_t more = first >= 0xf0 ? 3 : first >= 0xe0 ? 2 : 1;
        if (first < 0xc2 || first > 0xf4) {
            return false;
        }
        const unsigned char low = first == 0xe0 ? 0xa0 : first == 0xf0 ? 0x90 : 0x80;
        const unsigned char high = first == 0xed ? 0x9f : first == 0xf4 ? 0x8f : 0xbf;
        if (peek(1) < low || peek(1) > high) {
            return false;
        }
        for (std::size_t i = 2; i <= more; ++i) {
            if ((peek(i) & 0xc0U) != 0x80U) {
                return false;
            }
        }
        m_at += more + 1;
        return true;
    }

    std::string_view m_bytes;
    std::vector<Slice>* m_outermost;
    std::size_t m_at{};
};

} // namespace

bool isCanonical(std::string_view bytes) { return Scan(bytes).all(); }

bool membersOf(std::string_view bytes, std::vector<Slice>& members)
{
    members.clear();
    return bytes.starts_with('{') && Scan(bytes, &members).all();
}

} // namespace brimful::canon
