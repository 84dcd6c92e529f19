#include "core/quantity/recorded.h"

#include "core/quantity/exact.h"
#include "core/quantity/units.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <limits>

namespace brimful::quantity {

namespace {

constexpr std::int64_t kLargest = (std::int64_t{1} << 53U) - 1;

boost::multiprecision::cpp_int halfAwayFromZero(const Rational& value)
{
    using boost::multiprecision::cpp_int;
    const cpp_int over = boost::multiprecision::abs(numerator(value));
    const cpp_int under = denominator(value);
    const cpp_int rounded = (2 * over + under) / (2 * under);
    return value < 0 ? cpp_int(-rounded) : rounded;
}

} // namespace

std::string_view recordedUnit(Dimension dimension)
{
    const CountUnit* const unit = countUnit(dimension);
    return unit == nullptr ? std::string_view{} : unit->name;
}

std::optional<Dimension> recordedDimension(std::string_view unit)
{
    const CountUnit* const known = countUnit(unit);
    return known == nullptr ? std::nullopt : std::optional(known->dimension);
}

tl::expected<Recorded, ParseError> record(std::string_view typed, Dimension wanted)
{
    const auto exact = parseExact(typed, wanted);
    if (!exact) {
        return tl::unexpected(exact.error());
    }
    const CountUnit& unit = *countUnit(wanted);
    const auto outOfRange = [&](ParseFault fault) {
        return tl::unexpected(ParseError{fault, exact->numberAt, std::string(unit.name), std::string(typed.substr(exact->numberAt))});
    };
    if (wanted == Dimension::Number && denominator(exact->base) != 1) {
        return outOfRange(ParseFault::BadNumber);
    }
    const auto count = halfAwayFromZero(exact->base * unit.perBase);
    if (count > kLargest || count < -kLargest) {
        return outOfRange(ParseFault::OutOfRange);
    }
    return Recorded{count.convert_to<std::int64_t>(), std::string(unit.name), std::string(typed)};
}

std::int64_t lastPlace(const Recorded& recorded)
{
    const auto dimension = recordedDimension(recorded.unit);
    const auto exact = dimension ? parseExact(recorded.typed, *dimension) : tl::unexpected(ParseError{});
    if (!exact) {
        return 0;
    }
    const std::string_view typed = recorded.typed;
    const std::size_t unit_at = exact->unit.empty() ? typed.size() : typed.rfind(exact->unit);
    const std::size_t end = typed.find_last_of("0123456789", unit_at == 0 ? 0 : unit_at - 1) + 1;
    const std::size_t begin = typed.find_last_not_of("0123456789.,/", end - 1) + 1; // npos + 1 is 0
    const std::string_view number = typed.substr(begin, end - begin);
    std::string step = "1";
    if (const std::size_t slash = number.find('/'); slash != std::string_view::npos) {
        step.append(number.substr(slash));
    } else if (const std::size_t point = number.find_first_of(".,"); point != std::string_view::npos) {
        step = "0." + std::string(number.size() - point - 2, '0') + '1';
    }
    const auto one = parseExact(step + ' ' + exact->unit, *dimension);
    const auto none = parseExact("0 " + exact->unit, *dimension); // scales that do not begin at nothing
    if (!one || !none) {
        return 0;
    }
    const auto count = halfAwayFromZero((one->base - none->base) * countUnit(*dimension)->perBase);
    return count > kLargest ? kLargest : count.convert_to<std::int64_t>();
}

double siOf(std::int64_t count, std::string_view unit)
{
    const CountUnit* const known = countUnit(unit);
    if (known == nullptr) {
        std::abort();
    }
    return siOfBase(static_cast<double>(count) / static_cast<double>(known->perBase), known->dimension);
}

double siOf(const Recorded& recorded) { return siOf(recorded.count, recorded.unit); }

std::int64_t countOf(double si, std::string_view unit, Rounding rounding)
{
    const CountUnit* const known = countUnit(unit);
    if (known == nullptr || !std::isfinite(si)) {
        std::abort();
    }
    const double exact = baseOfSi(si, known->dimension) * static_cast<double>(known->perBase);
    // A whole count that merely passed through a double is that count, not the next one.
    const double whole = std::round(exact);
    const bool isWhole = std::abs(exact - whole) <= 4 * std::numeric_limits<double>::epsilon() * std::abs(exact);
    double rounded = whole;
    switch (rounding) {
    case Rounding::Nearest:
        break;
    case Rounding::Up:
        rounded = isWhole ? whole : std::ceil(exact);
        break;
    case Rounding::Down:
        rounded = isWhole ? whole : std::floor(exact);
        break;
    }
    const auto largest = static_cast<double>(kLargest);
    return static_cast<std::int64_t>(std::clamp(rounded, -largest, largest));
}

} // namespace brimful::quantity
