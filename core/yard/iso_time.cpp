#include "core/yard/iso_time.h"

#include <charconv>
#include <chrono>
#include <date/date.h>

namespace brimful::yard {

namespace {

// Digits at a place, all of them and nothing else.
std::optional<int> digits(std::string_view text, std::size_t at, std::size_t count)
{
    if (at + count > text.size()) {
        return std::nullopt;
    }
    int value = 0;
    const char* first = text.data() + at;
    const auto end = std::from_chars(first, first + count, value);
    return end.ec == std::errc() && end.ptr == first + count && *first != '-' ? std::optional<int>(value) : std::nullopt;
}

bool shaped(std::string_view text)
{
    constexpr std::string_view kLong = "dddd-dd-ddTdd:dd:ddZ";
    constexpr std::string_view kShort = "dddd-dd-ddTdd:ddZ";
    constexpr std::string_view kDay = "dddd-dd-dd";
    for (const std::string_view shape : {kLong, kShort, kDay}) {
        bool good = text.size() == shape.size();
        for (std::size_t i = 0; good && i < shape.size(); ++i) {
            good = shape[i] == 'd' ? text[i] >= '0' && text[i] <= '9' : text[i] == shape[i];
        }
        if (good) {
            return true;
        }
    }
    return false;
}

} // namespace

std::optional<std::int64_t> parseTime(std::string_view text)
{
    if (!shaped(text)) {
        return std::nullopt;
    }
    const date::year_month_day day{date::year{digits(text, 0, 4).value_or(0)},
        date::month{static_cast<unsigned>(digits(text, 5, 2).value_or(0))},
        date::day{static_cast<unsigned>(digits(text, 8, 2).value_or(0))}};
    const int hour = text.size() > 10 ? digits(text, 11, 2).value_or(-1) : 0;
    const int minute = text.size() > 10 ? digits(text, 14, 2).value_or(-1) : 0;
    const int second = text.size() > 17 ? digits(text, 17, 2).value_or(-1) : 0;
    if (!day.ok() || hour > 23 || minute > 59 || second > 59) {
        return std::nullopt;
    }
    const auto days = date::sys_days{day}.time_since_epoch().count();
    return ((std::int64_t{days} * 24 + hour) * 60 + minute) * 60'000 + std::int64_t{second} * 1000;
}

std::string formatTime(std::int64_t wall_ms)
{
    const date::sys_time<std::chrono::seconds> at{std::chrono::seconds(wall_ms / 1000)};
    return date::format("%FT%TZ", at);
}

} // namespace brimful::yard
