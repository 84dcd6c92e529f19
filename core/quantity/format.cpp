#include "core/quantity/format.h"

#include <array>
#include <charconv>
#include <cmath>
#include <numbers>
#include <numeric>
#include <string_view>

namespace brimful::quantity {

namespace {

constexpr double kPound = 0.45359237;
constexpr double kGravity = 9.80665;
constexpr double kInch = 0.0254;
constexpr double kGallon = 231 * kInch * kInch * kInch;
constexpr double kCubicFoot = 0.028316846592;

// Four significant digits, but never fewer than the whole part has; no needless zeros; never the locale.
std::string digits(double value)
{
    const double size = std::abs(value);
    int decimals = 0;
    for (double edge = 999.95; decimals < 6 && size < edge; edge /= 10) {
        ++decimals;
    }
    std::array<char, 400> text{};
    const auto written = std::to_chars(text.data(), text.data() + text.size(), value, std::chars_format::fixed, decimals);
    std::string out(text.data(), written.ptr);
    if (decimals > 0) {
        out.erase(out.find_last_not_of('0') + 1);
        if (out.back() == '.') {
            out.pop_back();
        }
    }
    return out == "-0" ? "0" : out;
}

struct Shown {
    double perSi; // shown = si * perSi + shift
    std::string_view unit;
    double shift{};
};

Shown shownUs(Dimension dimension)
{
    switch (dimension) {
    case Dimension::Area:
        return {1 / (144 * kInch * kInch), "ft2"};
    case Dimension::Volume:
        return {1 / kGallon, "gal"};
    case Dimension::Mass:
        return {1 / kPound, "lb"};
    case Dimension::Force:
        return {1 / (kPound * kGravity), "lbf"};
    case Dimension::Pressure:
        return {kInch * kInch / (kPound * kGravity), "psi"};
    case Dimension::Temperature:
        return {1.8, "degF", -459.67};
    case Dimension::VolumeFlow:
        return {60 / kGallon, "gal/min"};
    case Dimension::Speed:
        return {60 / (12 * kInch), "ft/min"};
    case Dimension::Density:
        return {kCubicFoot / kPound, "lb/ft3"};
    case Dimension::Number:
    case Dimension::Length:
    case Dimension::Duration:
    case Dimension::VolumeShare:
    case Dimension::LimitShare:
    case Dimension::Angle:
    case Dimension::Power:
    case Dimension::Energy:
    case Dimension::HeatTransfer:
        break;
    }
    return {1, {}};
}

Shown shownSi(double si, Dimension dimension)
{
    switch (dimension) {
    case Dimension::Number:
        return {1, {}};
    case Dimension::Length:
        return {1000, "mm"};
    case Dimension::Area:
        return {1, "m2"};
    case Dimension::Volume:
        return std::abs(si) < 0.001 ? Shown{1e6, "mL"} : Shown{1000, "L"};
    case Dimension::Mass:
        return std::abs(si) < 1 ? Shown{1000, "g"} : Shown{1, "kg"};
    case Dimension::Force:
        return {1, "N"};
    case Dimension::Pressure:
        return {0.001, "kPa"};
    case Dimension::Temperature:
        return {1, "degC", -273.15};
    case Dimension::Duration:
        if (std::abs(si) < 120) {
            return {1, "s"};
        }
        return std::abs(si) < 7200 ? Shown{1.0 / 60, "min"} : Shown{1.0 / 3600, "h"};
    case Dimension::VolumeFlow:
        return {60'000, "L/min"};
    case Dimension::Speed:
        return {1, "m/s"};
    case Dimension::VolumeShare:
        return std::abs(si) < 0.001 ? Shown{1e6, "ppm"} : Shown{100, "%"};
    case Dimension::LimitShare:
        return {100, "%LEL"};
    case Dimension::Angle:
        return {180 / std::numbers::pi, "deg"};
    case Dimension::Power:
        return std::abs(si) < 1000 ? Shown{1, "W"} : Shown{0.001, "kW"};
    case Dimension::Energy:
        return std::abs(si) < 1000 ? Shown{1, "J"} : Shown{0.001, "kJ"};
    case Dimension::HeatTransfer:
        return {1, "W/m2K"};
    case Dimension::Density:
        return {1, "kg/m3"};
    }
    return {1, {}};
}

} // namespace

std::string inchFraction(Length length)
{
    const auto sixteenths = static_cast<std::int64_t>(std::floor(std::abs(length.value()) / kInch * 16 + 0.5 + 1e-9));
    const std::int64_t whole = sixteenths / 16;
    const std::int64_t rest = sixteenths % 16;
    std::string out = length.value() < 0 && sixteenths != 0 ? "-" : "";
    if (whole != 0 || rest == 0) {
        out += std::to_string(whole);
    }
    if (rest != 0) {
        const std::int64_t common = std::gcd(rest, std::int64_t{16});
        out += (whole != 0 ? " " : "") + std::to_string(rest / common) + "/" + std::to_string(16 / common);
    }
    return out + " in";
}

std::string format(double si, Dimension dimension, UnitSystem system)
{
    if (system == UnitSystem::Us && dimension == Dimension::Length) {
        return inchFraction(metres(si));
    }
    Shown shown = system == UnitSystem::Us ? shownUs(dimension) : shownSi(si, dimension);
    if (shown.unit.empty()) {
        shown = shownSi(si, dimension);
    }
    std::string out = digits(si * shown.perSi + shown.shift);
    if (!shown.unit.empty()) {
        out += ' ';
        out += shown.unit;
    }
    return out;
}

} // namespace brimful::quantity
