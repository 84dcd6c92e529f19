#include "core/people/device.h"

#include <algorithm>
#include <charconv>

namespace brimful::people {

namespace {

int numberAt(std::string_view pin, std::size_t at, std::size_t length)
{
    int value = 0;
    std::from_chars(pin.data() + at, pin.data() + at + length, value);
    return value;
}

bool isDay(int day, int month) { return day >= 1 && day <= 31 && month >= 1 && month <= 12; }

bool isDate(std::string_view pin)
{
    if (pin.size() == 6) {
        const int a = numberAt(pin, 0, 2);
        const int b = numberAt(pin, 2, 2);
        const int c = numberAt(pin, 4, 2);
        return isDay(a, b) || isDay(b, a) || isDay(c, b);
    }
    if (pin.size() == 8) {
        const int head_year = numberAt(pin, 0, 4);
        const int tail_year = numberAt(pin, 4, 4);
        const auto isYear = [](int year) { return year >= 1900 && year <= 2099; };
        return (isYear(head_year) && isDay(numberAt(pin, 6, 2), numberAt(pin, 4, 2)))
            || (isYear(tail_year) && (isDay(numberAt(pin, 0, 2), numberAt(pin, 2, 2)) || isDay(numberAt(pin, 2, 2), numberAt(pin, 0, 2))));
    }
    return false;
}

} // namespace

bool isStrongPin(std::string_view pin)
{
    const auto isDigit = [](char c) { return c >= '0' && c <= '9'; };
    if (pin.size() < kShortestPin || pin.size() > 16 || !std::ranges::all_of(pin, isDigit)) {
        return false;
    }
    bool rises = true;
    bool falls = true;
    bool pattern = true;
    for (std::size_t i = 1; i < pin.size(); ++i) {
        rises = rises && (pin[i] - pin[i - 1] == 1 || (pin[i - 1] == '9' && pin[i] == '0'));
        falls = falls && (pin[i - 1] - pin[i] == 1 || (pin[i - 1] == '0' && pin[i] == '9'));
        pattern = pattern && (i < 2 || pin[i] == pin[i - 2]);
    }
    return !rises && !falls && !pattern && !isDate(pin);
}

} // namespace brimful::people
