#include "core/quantity/exact.h"
#include "core/quantity/units.h"

#include <algorithm>
#include <array>
#include <utility>

namespace brimful::quantity {

namespace {

constexpr std::size_t kMostDigits = 18; // of one number: more is a slip, not a measurement

bool isSpace(char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r'; }
bool isDigit(char c) { return c >= '0' && c <= '9'; }
bool isMark(char c) { return c == '.' || c == ','; }

struct Number {
    Rational value;
    std::size_t at{};
};

class Reader {
public:
    Reader(std::string_view text, std::optional<Dimension> wanted)
        : m_text(text)
        , m_wanted(wanted)
    {
    }

    tl::expected<Exact, ParseError> read();

private:
    [[nodiscard]] bool atEnd() const { return m_at >= m_text.size(); }
    [[nodiscard]] char here() const { return atEnd() ? '\0' : m_text[m_at]; }
    [[nodiscard]] char ahead() const { return m_at + 1 < m_text.size() ? m_text[m_at + 1] : '\0'; }
    void skipSpace()
    {
        while (!atEnd() && isSpace(here())) {
            ++m_at;
        }
    }
    [[nodiscard]] std::string pieceAt(std::size_t at) const
    {
        std::size_t end = at;
        while (end < m_text.size() && !isSpace(m_text[end])) {
            ++end;
        }
        return std::string(m_text.substr(at, end - at));
    }
    [[nodiscard]] tl::unexpected<ParseError> fail(ParseFault fault, std::size_t at, std::string_view expected = {}) const
    {
        return tl::unexpected(ParseError{fault, at, std::string(expected), at < m_text.size() ? pieceAt(at) : std::string()});
    }
    std::string digits();
    tl::expected<Rational, ParseError> fractionAfter(const Rational& whole, std::size_t upperAt, std::string_view upper);
    tl::expected<Number, ParseError> number();
    tl::expected<Rational, ParseError> decimal(std::string_view whole, std::size_t at);
    tl::expected<const Unit*, ParseError> unit();
    tl::expected<void, ParseError> parts(Exact& sum);
    [[nodiscard]] tl::expected<void, ParseError> checkRange(const Exact& sum, bool negative) const;

    std::string_view m_text;
    std::optional<Dimension> m_wanted;
    std::size_t m_at{};
};

std::string Reader::digits()
{
    const std::size_t from = m_at;
    while (isDigit(here())) {
        ++m_at;
    }
    return std::string(m_text.substr(from, m_at - from));
}

constexpr std::size_t kInAWord = 18; // digits that surely fit 64 bits

std::uint64_t word(std::string_view digits)
{
    std::uint64_t value = 0;
    for (const char digit : digits) {
        value = value * 10 + static_cast<std::uint64_t>(digit - '0');
    }
    return value;
}

Rational whole(std::string_view digits)
{
    if (digits.size() <= kInAWord) {
        return Rational(word(digits));
    }
    boost::multiprecision::cpp_int value = 0;
    for (const char digit : digits) {
        value = value * 10 + (digit - '0');
    }
    return Rational(value);
}

tl::expected<Rational, ParseError> Reader::decimal(std::string_view before, std::size_t at)
{
    const char mark = here();
    ++m_at;
    const std::size_t tailAt = m_at;
    const std::string tail = digits();
    if (tail.empty()) {
        return fail(ParseFault::BadNumber, tailAt - 1);
    }
    // "1,000" is a thousand to one reader and one to another: nobody's gets taken.
    if (mark == ',' && tail.size() == 3 && !before.empty() && before.size() <= 3 && before.front() != '0') {
        return fail(ParseFault::BadNumber, tailAt - 1, "1.234");
    }
    if (isMark(here())) {
        return fail(ParseFault::BadNumber, m_at);
    }
    if (before.size() + tail.size() > kMostDigits) {
        return fail(ParseFault::OutOfRange, at);
    }
    if (before.size() + tail.size() < kInAWord) { // one ratio to shorten, not three
        std::uint64_t under = 1;
        for (std::size_t i = 0; i < tail.size(); ++i) {
            under *= 10;
        }
        return Rational(word(before) * under + word(tail), under);
    }
    boost::multiprecision::cpp_int under = 1;
    for (std::size_t i = 0; i < tail.size(); ++i) {
        under *= 10;
    }
    return whole(before) + whole(tail) / Rational(under);
}

// The slash is here; `upper` are the digits before it.
tl::expected<Rational, ParseError> Reader::fractionAfter(const Rational& before, std::size_t upperAt, std::string_view upper)
{
    ++m_at;
    const std::size_t underAt = m_at;
    const std::string under = digits();
    if (under.empty() || isMark(here()) || here() == '/') {
        return fail(ParseFault::BadFraction, under.empty() ? underAt : m_at);
    }
    if (upper.size() > kMostDigits || under.size() > kMostDigits) {
        return fail(ParseFault::OutOfRange, upperAt);
    }
    const Rational divisor = whole(under);
    if (divisor == 0) {
        return fail(ParseFault::BadFraction, underAt);
    }
    return before + whole(upper) / divisor;
}

tl::expected<Number, ParseError> Reader::number()
{
    const std::size_t at = m_at;
    const std::string first = digits();
    if (first.empty() && !(isMark(here()) && isDigit(ahead()))) {
        return fail(isMark(here()) ? ParseFault::BadNumber : ParseFault::NoNumber, at);
    }
    if (isMark(here())) {
        auto value = decimal(first, at);
        if (!value) {
            return tl::unexpected(value.error());
        }
        const std::size_t resume = m_at;
        skipSpace();
        if (here() == '/' || isDigit(here())) {
            const std::size_t next = m_at;
            static_cast<void>(digits());
            return fail(here() == '/' ? ParseFault::BadFraction : ParseFault::BadNumber, next);
        }
        m_at = resume;
        return Number{*value, at};
    }
    if (first.size() > kMostDigits) {
        return fail(ParseFault::OutOfRange, at);
    }
    Rational before = 0;
    std::string upper = first;
    std::size_t upperAt = at;
    const std::size_t resume = m_at;
    skipSpace();
    if (m_at != resume && isDigit(here())) {
        before = whole(first);
        upperAt = m_at;
        upper = digits();
        if (here() != '/') {
            return fail(ParseFault::BadNumber, upperAt);
        }
    }
    if (here() != '/') {
        m_at = resume;
        return Number{whole(first), at};
    }
    if (upperAt == at && m_at != resume) {
        return fail(ParseFault::BadFraction, m_at);
    }
    auto value = fractionAfter(before, upperAt, upper);
    if (!value) {
        return tl::unexpected(value.error());
    }
    return Number{*value, at};
}

tl::expected<const Unit*, ParseError> Reader::unit()
{
    const std::size_t at = m_at;
    const std::string typed = pieceAt(at);
    if (const Unit* const known = unitByName(typed); known != nullptr) {
        m_at += typed.size();
        return known;
    }
    const bool glued =
        (typed == "e" || typed == "E"
            || (typed.size() > 1 && (typed[0] == 'e' || typed[0] == 'E') && (isDigit(typed[1]) || typed[1] == '-' || typed[1] == '+')))
        && at > 0 && isDigit(m_text[at - 1]);
    if (glued) {
        return fail(ParseFault::BadNumber, at);
    }
    return fail(ParseFault::UnknownUnit, at, nearestUnit(typed, m_wanted));
}

// number unit { number unit }, the units of one dimension and falling.
tl::expected<void, ParseError> Reader::parts(Exact& sum)
{
    const Unit* last = nullptr;
    while (true) {
        const std::size_t partAt = m_at;
        auto count = number();
        if (!count) {
            return tl::unexpected(count.error());
        }
        skipSpace();
        if (atEnd()) {
            if (last == nullptr && (!m_wanted || *m_wanted == Dimension::Number)) {
                sum.base = count->value;
                return {};
            }
            return fail(ParseFault::NoUnit, m_text.size(), last != nullptr ? dimensionName(last->dimension) : dimensionName(*m_wanted));
        }
        const std::size_t unitAt = m_at;
        auto named = unit();
        if (!named) {
            return tl::unexpected(named.error());
        }
        const Unit& read = **named;
        if (last == nullptr && m_wanted && read.dimension != *m_wanted) {
            return fail(ParseFault::WrongDimension, unitAt, dimensionName(*m_wanted));
        }
        const Rational factor(read.factor.over, read.factor.under);
        if (last != nullptr) {
            const bool falling = factor < Rational(last->factor.over) / last->factor.under;
            if (read.dimension != last->dimension || !falling || read.offset.over != 0 || last->offset.over != 0) {
                return fail(ParseFault::MixedUnits, partAt, last->name);
            }
        }
        sum.dimension = read.dimension;
        sum.unit = read.name;
        if (last == nullptr) {
            sum.base = count->value * factor;
        } else {
            sum.base += count->value * factor;
        }
        last = &read;
        skipSpace();
        if (atEnd()) {
            return {};
        }
        if (!isDigit(here())) {
            return fail(ParseFault::Trailing, m_at);
        }
    }
}

bool mayBeNegative(Dimension dimension, std::string_view unit)
{
    switch (dimension) {
    case Dimension::Number:
    case Dimension::Length:
    case Dimension::Angle:
    case Dimension::Temperature:
        return true;
    case Dimension::Pressure:
        return unit == "barg" || unit == "psig";
    case Dimension::Area:
    case Dimension::Volume:
    case Dimension::Mass:
    case Dimension::Force:
    case Dimension::Duration:
    case Dimension::VolumeFlow:
    case Dimension::Speed:
    case Dimension::VolumeShare:
    case Dimension::LimitShare:
    case Dimension::Power:
    case Dimension::Energy:
    case Dimension::HeatTransfer:
    case Dimension::Density:
        return false;
    }
    return false;
}

tl::expected<void, ParseError> Reader::checkRange(const Exact& sum, bool negative) const
{
    const bool belowZero = (sum.dimension == Dimension::Temperature || sum.dimension == Dimension::Pressure) && sum.base < 0;
    if (belowZero || (negative && !mayBeNegative(sum.dimension, sum.unit))) {
        return fail(ParseFault::OutOfRange, sum.numberAt, dimensionName(sum.dimension));
    }
    return {};
}

tl::expected<Exact, ParseError> Reader::read()
{
    skipSpace();
    if (atEnd()) {
        return fail(ParseFault::Empty, m_text.size(), m_wanted ? dimensionName(*m_wanted) : std::string_view{});
    }
    Exact sum;
    sum.numberAt = m_at;
    const bool negative = here() == '-';
    if (negative) {
        ++m_at;
    }
    if (auto read = parts(sum); !read) {
        return tl::unexpected(read.error());
    }
    if (negative) {
        sum.base = -sum.base;
    }
    if (const Unit* const last = unitByName(sum.unit); last != nullptr && last->offset.over != 0) {
        sum.base += Rational(last->offset.over) / last->offset.under;
    }
    if (auto checked = checkRange(sum, negative); !checked) {
        return tl::unexpected(checked.error());
    }
    return sum;
}

// PERSISTED in packs: the word of each dimension.
constexpr std::array<std::pair<Dimension, std::string_view>, 18> kNames{{{Dimension::Number, "number"}, {Dimension::Length, "length"},
    {Dimension::Area, "area"}, {Dimension::Volume, "volume"}, {Dimension::Mass, "mass"}, {Dimension::Force, "force"},
    {Dimension::Pressure, "pressure"}, {Dimension::Temperature, "temperature"}, {Dimension::Duration, "duration"},
    {Dimension::VolumeFlow, "volume-flow"}, {Dimension::Speed, "speed"}, {Dimension::VolumeShare, "volume-share"},
    {Dimension::LimitShare, "limit-share"}, {Dimension::Angle, "angle"}, {Dimension::Power, "power"}, {Dimension::Energy, "energy"},
    {Dimension::HeatTransfer, "heat-transfer"}, {Dimension::Density, "density"}}};

} // namespace

tl::expected<Exact, ParseError> parseExact(std::string_view text, std::optional<Dimension> wanted) { return Reader(text, wanted).read(); }

tl::expected<Quantity, ParseError> parse(std::string_view text, std::optional<Dimension> wanted)
{
    auto exact = parseExact(text, wanted);
    if (!exact) {
        return tl::unexpected(exact.error());
    }
    return Quantity{exact->dimension, siOfBase(exact->base.convert_to<double>(), exact->dimension), std::move(exact->unit)};
}

std::string_view dimensionName(Dimension dimension)
{
    const auto* const found = std::find_if(kNames.begin(), kNames.end(), [&](const auto& row) { return row.first == dimension; });
    return found == kNames.end() ? std::string_view{} : found->second;
}

std::optional<Dimension> dimensionByName(std::string_view name)
{
    const auto* const found = std::find_if(kNames.begin(), kNames.end(), [&](const auto& row) { return row.second == name; });
    return found == kNames.end() ? std::nullopt : std::optional(found->first);
}

} // namespace brimful::quantity
