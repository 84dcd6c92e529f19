// What any phone shows of a tag: whom it is about, what is forbidden, when it was printed in local time.
#include "core/tag/tag.h"

#include <array>
#include <chrono>
#include <cstdlib>

namespace brimful::tag {

namespace {

constexpr std::array<std::string_view, 7> kDays{"SUN", "MON", "TUE", "WED", "THU", "FRI", "SAT"};
constexpr std::array<std::string_view, 12> kMonths{"JAN", "FEB", "MAR", "APR", "MAY", "JUN", "JUL", "AUG", "SEP", "OCT", "NOV", "DEC"};

std::string twoDigits(long long value)
{
    const std::string digits = std::to_string(value);
    return digits.size() < 2 ? "0" + digits : digits;
}

// "UTC-4", "UTC+5:30", "UTC"
std::string offsetWord(std::int32_t minutes)
{
    if (minutes == 0) {
        return "UTC";
    }
    const int size = std::abs(minutes);
    std::string word = minutes < 0 ? "UTC-" : "UTC+";
    word += std::to_string(size / 60);
    return size % 60 == 0 ? word : word + ":" + twoDigits(size % 60);
}

} // namespace

std::string readableLine(const Facts& facts)
{
    using namespace std::chrono;
    const auto local = sys_time<milliseconds>(milliseconds(facts.issued_ms)) + minutes(facts.offset_minutes);
    const auto day = floor<days>(local);
    const year_month_day date(day);
    const hh_mm_ss time(floor<minutes>(local - day));
    std::string line = facts.demo ? "DEMO " : "";
    line += facts.number + " DO NOT CUT HEAT FILL OR MOVE. ONLY THE TABLET RELEASES. PRINTED ";
    line += kDays.at(weekday(day).c_encoding());
    line += " " + std::to_string(static_cast<unsigned>(date.day())) + " ";
    line += kMonths.at(static_cast<unsigned>(date.month()) - 1U);
    line += " " + twoDigits(time.hours().count()) + ":" + twoDigits(time.minutes().count()) + " " + offsetWord(facts.offset_minutes);
    return line;
}

} // namespace brimful::tag
