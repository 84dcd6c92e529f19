#include "core/quantity/units.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <numbers>
#include <string>
#include <vector>

namespace brimful::quantity {

namespace {

// Exact by definition: 1 in = 25.4 mm, 1 lb = 0.45359237 kg, g = 9.80665 m/s2 (NIST Handbook 44, Appendix C; SI
// Brochure 9). 1 US gal = 231 in3, 1 imperial gal = 4.54609 L. inH2O and mmHg are the conventional columns:
// 1000 kg/m3 and 13,595.1 kg/m3 at standard gravity. 1 atm = 101,325 Pa for gauge pressures.
constexpr std::array kUnits{
    Unit{"m", Dimension::Length, {1}},
    Unit{"mm", Dimension::Length, {1, 1'000}},
    Unit{"cm", Dimension::Length, {1, 100}},
    Unit{"in", Dimension::Length, {254, 10'000}},
    Unit{"ft", Dimension::Length, {3'048, 10'000}},
    Unit{"m2", Dimension::Area, {1}},
    Unit{"ft2", Dimension::Area, {9'290'304, 100'000'000}},
    Unit{"in2", Dimension::Area, {64'516, 100'000'000}},
    Unit{"m3", Dimension::Volume, {1}},
    Unit{"L", Dimension::Volume, {1, 1'000}},
    Unit{"mL", Dimension::Volume, {1, 1'000'000}},
    Unit{"galUS", Dimension::Volume, {3'785'411'784, 1'000'000'000'000}},
    Unit{"galUK", Dimension::Volume, {454'609, 100'000'000}},
    Unit{"ft3", Dimension::Volume, {28'316'846'592, 1'000'000'000'000}},
    Unit{"in3", Dimension::Volume, {16'387'064, 1'000'000'000'000}},
    Unit{"kg", Dimension::Mass, {1}},
    Unit{"g", Dimension::Mass, {1, 1'000}},
    Unit{"lb", Dimension::Mass, {45'359'237, 100'000'000}},
    Unit{"N", Dimension::Force, {1}},
    Unit{"lbf", Dimension::Force, {44'482'216'152'605, 10'000'000'000'000}},
    Unit{"Pa", Dimension::Pressure, {1}},
    Unit{"kPa", Dimension::Pressure, {1'000}},
    Unit{"bar", Dimension::Pressure, {100'000}},
    Unit{"psi", Dimension::Pressure, {44'482'216'152'605, 6'451'600'000}},
    Unit{"inH2O", Dimension::Pressure, {24'908'891, 100'000}},
    Unit{"mmHg", Dimension::Pressure, {133'322'387'415, 1'000'000'000}},
    Unit{"barg", Dimension::Pressure, {100'000}, {101'325}},
    Unit{"psig", Dimension::Pressure, {44'482'216'152'605, 6'451'600'000}, {101'325}},
    Unit{"degC", Dimension::Temperature, {1}, {27'315, 100}},
    Unit{"degF", Dimension::Temperature, {5, 9}, {45'967, 180}},
    Unit{"K", Dimension::Temperature, {1}},
    Unit{"s", Dimension::Duration, {1}},
    Unit{"min", Dimension::Duration, {60}},
    Unit{"h", Dimension::Duration, {3'600}},
    Unit{"m3/s", Dimension::VolumeFlow, {1}},
    Unit{"m3/h", Dimension::VolumeFlow, {1, 3'600}},
    Unit{"L/min", Dimension::VolumeFlow, {1, 60'000}},
    Unit{"ft3/min", Dimension::VolumeFlow, {28'316'846'592, 60'000'000'000'000}},
    Unit{"galUS/min", Dimension::VolumeFlow, {3'785'411'784, 60'000'000'000'000}},
    Unit{"m/s", Dimension::Speed, {1}},
    Unit{"ft/min", Dimension::Speed, {3'048, 600'000}},
    Unit{"mph", Dimension::Speed, {44'704, 100'000}},
    Unit{"%", Dimension::VolumeShare, {1, 100}},
    Unit{"ppm", Dimension::VolumeShare, {1, 1'000'000}},
    Unit{"%LEL", Dimension::LimitShare, {1, 100}},
    Unit{"deg", Dimension::Angle, {1}},
    Unit{"W", Dimension::Power, {1}},
    Unit{"kW", Dimension::Power, {1'000}},
    Unit{"J", Dimension::Energy, {1}},
    Unit{"kJ", Dimension::Energy, {1'000}},
    Unit{"W/m2K", Dimension::HeatTransfer, {1}},
};

// PERSISTED: the names stand in entries.
constexpr std::array kCounts{
    CountUnit{Dimension::Length, "100nm", 10'000'000},
    CountUnit{Dimension::Area, "mm2", 1'000'000},
    CountUnit{Dimension::Volume, "mL", 1'000'000},
    CountUnit{Dimension::Mass, "g", 1'000},
    CountUnit{Dimension::Pressure, "Pa", 1},
    CountUnit{Dimension::Temperature, "0.01K", 100},
    CountUnit{Dimension::Duration, "s", 1},
    CountUnit{Dimension::VolumeFlow, "mL/s", 1'000'000},
    CountUnit{Dimension::Speed, "mm/s", 1'000},
    CountUnit{Dimension::VolumeShare, "ppm", 1'000'000},
    CountUnit{Dimension::LimitShare, "0.1%LEL", 1'000},
    CountUnit{Dimension::Angle, "0.001deg", 1'000},
    CountUnit{Dimension::Force, "N", 1},
    CountUnit{Dimension::Power, "W", 1},
    CountUnit{Dimension::Energy, "J", 1},
    CountUnit{Dimension::HeatTransfer, "mW/m2K", 1'000},
    CountUnit{Dimension::Density, "g/m3", 1'000},
    CountUnit{Dimension::Number, "1", 1},
};

constexpr double kDegree = std::numbers::pi / 180.0;

char lower(char letter) { return static_cast<char>(std::tolower(static_cast<unsigned char>(letter))); }

// Edits from one spelling to another; another case of the same letter costs less than another letter.
int distance(std::string_view from, std::string_view to)
{
    std::vector<int> row(to.size() + 1);
    for (std::size_t j = 0; j < row.size(); ++j) {
        row[j] = static_cast<int>(j) * 4;
    }
    for (std::size_t i = 0; i < from.size(); ++i) {
        int diagonal = row[0];
        row[0] = static_cast<int>(i + 1) * 4;
        for (std::size_t j = 0; j < to.size(); ++j) {
            int change = 4;
            if (from[i] == to[j]) {
                change = 0;
            } else if (lower(from[i]) == lower(to[j])) {
                change = 1;
            }
            const int best = std::min({row[j + 1] + 4, row[j] + 4, diagonal + change});
            diagonal = row[j + 1];
            row[j + 1] = best;
        }
    }
    return row.back();
}

} // namespace

std::span<const Unit> knownUnits() { return kUnits; }

const Unit* unitByName(std::string_view name)
{
    const auto* const found = std::find_if(kUnits.begin(), kUnits.end(), [&](const Unit& unit) { return unit.name == name; });
    return found == kUnits.end() ? nullptr : found;
}

std::string_view nearestUnit(std::string_view typed, std::optional<Dimension> wanted)
{
    static constexpr std::array<std::pair<std::string_view, std::string_view>, 12> kSpoken{
        {{"\"", "in"}, {"'", "ft"}, {"gal", "galUS"}, {"gallon", "galUS"}, {"gallons", "galUS"}, {"litres", "L"}, {"liters", "L"},
            {"inch", "in"}, {"inches", "in"}, {"feet", "ft"}, {"gpm", "galUS/min"}, {"cfm", "ft3/min"}}};
    for (const auto& [spoken, unit] : kSpoken) {
        if (typed == spoken) {
            return unit;
        }
    }
    std::string_view best;
    int least = 0;
    for (const Unit& unit : kUnits) {
        if (wanted && unit.dimension != *wanted) {
            continue;
        }
        const int far = distance(typed, unit.name);
        if (best.empty() || far < least) {
            best = unit.name;
            least = far;
        }
    }
    return best;
}

const CountUnit* countUnit(Dimension dimension)
{
    const auto* const found =
        std::find_if(kCounts.begin(), kCounts.end(), [&](const CountUnit& unit) { return unit.dimension == dimension; });
    return found == kCounts.end() ? nullptr : found;
}

const CountUnit* countUnit(std::string_view name)
{
    const auto* const found = std::find_if(kCounts.begin(), kCounts.end(), [&](const CountUnit& unit) { return unit.name == name; });
    return found == kCounts.end() ? nullptr : found;
}

double siOfBase(double base, Dimension dimension) { return dimension == Dimension::Angle ? base * kDegree : base; }
double baseOfSi(double si, Dimension dimension) { return dimension == Dimension::Angle ? si / kDegree : si; }

} // namespace brimful::quantity
