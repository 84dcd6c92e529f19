// Sixty check values of the science of gas, each with its outside source and its mark. Published: the figure itself was seen in the
// source. Rule: the source's rule, worked by hand. Textbook: the figure is remembered from the textbook and worked again. Worked:
// by hand from the stated inputs, no document claimed. Proposal: this project's own choice.
#include "core/gas/diagram.h"
#include "core/gas/meter.h"
#include "core/gas/mixture.h"
#include "core/gas/pool.h"
#include "core/gas/purge.h"
#include "core/gas/residue.h"
#include "core/gas/sampling.h"
#include "core/gas/thresholds.h"
#include "core/gas/ventilation.h"
#include "core/gas/warmth.h"
#include "tests/core/figure/ask.h"
#include "tests/core/figure/substances.h"
#include "tests/support/suite.h"

#include <QTest>

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

using namespace brimful;
using namespace brimful::test;
using gas::Basis;
using gas::Part;
using gas::State;

namespace {

enum class Mark : std::uint8_t { Published, Rule, Textbook, Worked, Proposal };

constexpr double kAtmosphere = 101'325.0;
constexpr double kMmHg = 133.322;
constexpr double kGallon = 3.785411784e-3;
constexpr double kCubicFoot = 0.028316846592;
constexpr double kPound = 0.45359237;
constexpr double kYes = 1.0;
constexpr double kNo = 0.0;

const gas::Substance& the(const char* id) { return *shipped().find(id); }
quantity::AbsolutePressure absolute(double pascals) { return quantity::AbsolutePressure(quantity::pascals(pascals)); }
quantity::Temperature celsius(double degrees) { return quantity::Temperature(degrees + 273.15); }
quantity::VolumeFlow litresAMinute(double litres) { return quantity::cubicMetres(litres / 60e3) / quantity::seconds(1); }
gas::Air air(double volume, double litres, double efficiency, double source = 0)
{
    return {quantity::cubicMetres(volume), litresAMinute(litres), efficiency, litresAMinute(source)};
}
constexpr double kFiveHundred = 500 * kGallon;

double minutes(const std::optional<quantity::Duration>& time) { return time ? time->value() / 60 : -1; }

double poundsOfNitrogen(double volumes)
{
    constexpr double kKelvin = (75 + 459.67) / 1.8;
    return volumes * 133.68 * kCubicFoot * kAtmosphere / (8.314462618 * kKelvin) * 0.02801 / kPound;
}

gas::Zone nominal() { return *gas::zoneOf(the("propane"), Basis::Nfpa); }
gas::Crossing toAir(double fuel) { return gas::crossing(nominal(), State{fuel, 0.0}, gas::kAir).value(); }
double crosses(double fuel) { return gas::crossing(nominal(), State{fuel, 0.0}, gas::kAir) ? kYes : kNo; }

// What a display means after its factor: percent of the meter's limit, or parts per million of the gas.
double ofBasis(const char* there, const char* calibrated_on, double display, std::optional<double> factor, std::optional<double> basis,
    bool as_ppm = false)
{
    gas::Reading reading;
    reading.display = display;
    reading.substance = &the(there);
    reading.calibrated_on = &the(calibrated_on);
    reading.response_factor = factor;
    reading.limit_basis = basis;
    reading.oxygen = 0.209;
    const gas::Meaning meaning = gas::meaningOf(reading);
    return as_ppm ? *meaning.share * 1e6 : *meaning.of_basis * 100;
}

double bisectedOutOfService()
{
    double passes = 0.0;
    double fails = 0.1;
    for (int i = 0; i < 80; ++i) {
        const double middle = (passes + fails) / 2;
        (gas::crossing(nominal(), State{middle, 0.0}, gas::kAir) ? fails : passes) = middle;
    }
    return passes * 100;
}

// Litres free above the water at that depth below the top, by `level` and `capacity`.
double headSpace(double free_m)
{
    const QString vessel = R"({"inside_diameter":"0.940 m","shell_length":"2.10066 m","wall":"0 in","heads":"hemispherical"})";
    const auto capacity = ask("capacity", QString(R"({"vessel":%1})").arg(vessel).toStdString());
    const auto level = ask("level", QString(R"({"vessel":%1,"depth":"%2 m"})").arg(vessel).arg(0.940 - free_m, 0, 'f', 6).toStdString());
    return (number(*capacity, "capacity_m3") - number(*level, "volume_m3")) * 1000;
}

double millilitres(gas::Substance substance, double volume, double kelvin)
{
    return gas::residueToLimit(substance, quantity::cubicMetres(volume), quantity::Temperature(kelvin))->liquid.value() * 1e6;
}

gas::Substance onNfpa(const char* id)
{
    gas::Substance out = the(id);
    out.iec.reset();
    return out;
}

gas::Substance lightGasoline()
{
    gas::Substance out = the("gasoline");
    out.molar_mass_kg_mol = 0.070;
    out.liquid_density_kg_m3 = 660.0;
    return out;
}

double poolPoundsAMinute()
{
    const double radius = 2.5 * 0.3048;
    const gas::Pool pool{
        quantity::squareMetres(3.14159265358979 * radius * radius), 0.09214, absolute(0.0371 * kAtmosphere), quantity::Temperature(298.15)};
    return gas::evaporation_kg_s(pool) * 60 / kPound;
}

double band(double percent) { return static_cast<double>(gas::oxygenBand(percent / 100)); }
double verdict(const char* threshold, double of_limit) { return static_cast<double>(gas::compare(*gas::thresholdOf(threshold), of_limit)); }
constexpr double kWithin = static_cast<double>(gas::Verdict::Within);
constexpr double kOnlyMonitored = static_cast<double>(gas::Verdict::OnlyMonitored);
constexpr double kBeyond = static_cast<double>(gas::Verdict::Beyond);

double routing(const char* id) { return static_cast<double>(the(id).routing); }

void row(const char* name, Mark mark, const char* source, double got, double wanted, double tolerance)
{
    QTest::newRow(name) << QString::fromLatin1(source) << static_cast<int>(mark) << got << wanted << tolerance;
}

constexpr auto kLibrary = "Crowl and Louvar, Chemical Process Safety, 2nd ed., as an open chemistry library's documentation prints it";
constexpr auto kCrowl = "Crowl and Louvar, Chemical Process Safety";
constexpr auto kBranan = "Branan, Rules of Thumb for Chemical Engineers, as quoted";
constexpr auto kNfpa69 = "NFPA 69 (2014) 7.2.3.1.2 and its proposed amendment";
constexpr auto kGuide = "federal design guide for ventilation, p. 106, after NFPA 69";
constexpr auto kHand = "worked by hand from the stated inputs";

void mixtures()
{
    const std::array lower{Part{0.24, 0.012}, Part{0.61, 0.053}, Part{0.15, 0.031}};
    const std::array upper{Part{0.24, 0.075}, Part{0.61, 0.15}, Part{0.15, 0.32}};
    const std::array lpg{Part{0.6, the("propane").iec->lower}, Part{0.4, the("n-butane").iec->lower}};
    const std::array whole{Part{0.0024, 0.012}, Part{0.0061, 0.053}, Part{0.0015, 0.031}};
    row("01 Le Chatelier, lower", Mark::Published, kLibrary, *gas::limitOfMixture(lower) * 100, 2.7512, 1e-4);
    row("02 Le Chatelier, upper", Mark::Published, kLibrary, *gas::limitOfMixture(upper) * 100, 12.9276, 1e-4);
    row("03a Jones, hexane, lower", Mark::Published, kLibrary, gas::estimateByFormula(6, 14, 0).lower * 100, 1.18996, 1e-5);
    row("03b Jones, hexane, upper", Mark::Published, kLibrary, gas::estimateByFormula(6, 14, 0).upper * 100, 7.57248, 1e-5);
    row("04a Suzuki, pentane, lower", Mark::Published, kLibrary, gas::estimateByHeat(-3.5366).lower * 100, 1.42761, 1e-5);
    row("04b Suzuki, pentane, upper", Mark::Published, kLibrary, gas::estimateByHeat(-3.5366).upper * 100, 8.31119, 1e-5);
    row("05 60/40 on IEC 60079-20-1", Mark::Worked, kHand, *gas::limitOfMixture(lpg) * 100, 1.5658, 1e-4);
    row("06 index of an atmosphere", Mark::Worked, kHand, gas::flammabilityIndex(whole), 0.36348, 1e-4);
    const gas::FlammableRange propane = *the("propane").nfpa;
    row("07 Burgess-Wheeler, 100 degC", Mark::Worked, kHand, gas::rangeAtByHeat(propane, 488.31, celsius(100)).lower * 100, 1.9848, 1e-4);
    row("08 Zabetakis, 300 degC", Mark::Worked, kHand, gas::rangeAt(propane, celsius(300)).lower * 100, 1.6836, 1e-4);
    const char* wyoming = "Wyoming oil and gas safety rules: as published to 250 degF, 0.7 of it above";
    row("09a step at 130 degC", Mark::Published, wyoming, gas::lowerLimitInSteps(0.021, celsius(130)) * 100, 1.47, 1e-9);
    row("09b step at 120 degC", Mark::Published, wyoming, gas::lowerLimitInSteps(0.021, celsius(120)) * 100, 2.1, 1e-9);
}

void oxygen()
{
    row("10 limiting oxygen, butane", Mark::Textbook, kCrowl, gas::estimatedLimitingOxygen(6.5, the("n-butane").nfpa->lower) * 100, 12.4,
        0.05 + 1e-9);
    row("11 limiting oxygen, propane", Mark::Published, "ASTM E2079-19 5.4, 20 L vessel: 10.5",
        gas::estimatedLimitingOxygen(5, the("propane").nfpa->lower) * 100, *the("propane").limiting_oxygen_tested * 100, 1e-9);
    row("12a adjusted, 11.5 less 1.5", Mark::Rule, kNfpa69, gas::adjustedLimitingOxygen(0.115) * 100, 10.0, 1e-9);
    row("12b adjusted, 11.5 less 2", Mark::Rule, kNfpa69, gas::adjustedLimitingOxygen(0.115, 0.02) * 100, 9.5, 1e-9);
    row("12c adjusted, 5 below 10", Mark::Rule, kNfpa69, gas::adjustedLimitingOxygen(0.05) * 100, 4.25, 1e-9);
    row("13 carbon dioxide never below nitrogen", Mark::Rule, kNfpa69, gas::adjustedWithCarbonDioxide(0.10, 0.095), 0.095, 0.0);
    row("22a out of service, propane, lower", Mark::Worked, kHand, gas::outOfServiceByLower(0.021, 5) * 100, 4.200, 1e-3);
    row("22b out of service, propane, oxygen 11.5", Mark::Worked, kHand, gas::outOfServiceByOxygen(0.115, 5) * 100, 5.084, 1e-3);
    row("22c out of service, propane, IEC", Mark::Worked, kHand, gas::outOfServiceByLower(0.017, 5) * 100, 2.856, 1e-3);
    row("23a in service, propane, lower", Mark::Worked, kHand, gas::inServiceByLower(0.021, 5) * 100, 10.725, 1e-3);
    row("23b in service, propane, oxygen 11.5", Mark::Worked, kHand, gas::inServiceByOxygen(0.115, 5) * 100, 11.771, 1e-3);
    row("24a out of service, methane, oxygen 12", Mark::Worked, kHand, gas::outOfServiceByOxygen(0.12, 2) * 100, 14.000, 1e-3);
    row("24b out of service, methane, lower 5", Mark::Worked, kHand, gas::outOfServiceByLower(0.05, 2) * 100, 9.545, 1e-3);
    row("25 hydrogen, not 13.125", Mark::Worked, kHand, gas::serviceLimits(0.04, 0.5, 0.05).out_of_service * 100, 4.421, 1e-3);
    row("26 gasoline, not 8.40", Mark::Worked, kHand, gas::serviceLimits(0.014, 12.5, 0.12).out_of_service * 100, 2.240, 1e-3);
}

void purges()
{
    const gas::Shares one{0.21, 0.01};
    const auto pressed = *gas::pressureCycles(one, absolute(kAtmosphere), absolute(5 * kAtmosphere));
    const auto drawn = *gas::pressureCycles(one, absolute(0.5 * kAtmosphere), absolute(kAtmosphere));
    const auto deep = *gas::pressureCycles({0.21, 5e-6}, absolute(6 * kMmHg), absolute(kAtmosphere));
    const auto vacuum = *gas::pressureCycles({0.21, 1e-6}, absolute(20 * kMmHg), absolute(kAtmosphere));
    const auto pressure = *gas::pressureCycles({0.21, 1e-6}, absolute(kAtmosphere), absolute(kAtmosphere + 80 * 6894.757));
    row("14 sweep 21 to 1 (chart 3.1)", Mark::Published, kBranan, gas::sweep(one, 1.0)->volumes, 3.0445, 1e-4);
    row("15a pressure 5 atm, reached", Mark::Published, kBranan, pressed.reached * 100, 0.84, 1e-9);
    row("15b pressure 5 atm, volumes", Mark::Published, kBranan, pressed.volumes, 8.0, 1e-9);
    row("16a vacuum 0.5 atm, exact cycles", Mark::Published, kBranan, drawn.cycles, 4.392, 1e-3);
    row("16b vacuum 0.5 atm, cycles", Mark::Published, kBranan, drawn.whole_cycles, 5, 0.0);
    row("16c vacuum 0.5 atm, volumes", Mark::Published, kBranan, drawn.volumes, 2.5, 1e-9);
    row("17a vacuum 6 mmHg, exact cycles", Mark::Published, kBranan, deep.cycles, 2.199, 2e-3);
    row("17b vacuum 6 mmHg, volumes", Mark::Published, kBranan, deep.volumes, 2.976, 2e-3);
    row("18a 1,000 gal vacuum, cycles", Mark::Textbook, kCrowl, vacuum.cycles, 3.369, 2e-3);
    row("18b 1,000 gal vacuum, pounds", Mark::Textbook, kCrowl, poundsOfNitrogen(vacuum.volumes), 37.35, 0.1);
    row("19a 1,000 gal pressure, cycles", Mark::Textbook, kCrowl, pressure.cycles, 6.578, 2e-3);
    row("19b 1,000 gal pressure, pounds", Mark::Textbook, kCrowl, poundsOfNitrogen(pressure.volumes), 365.4, 0.5);
    row("20 1,000 ft3 sweep", Mark::Textbook, kCrowl, gas::sweep({0.21, 0.0125, 0.0001}, 1.0)->volumes * 1000, 2829, 2);
    row("21a siphon with 5 % unfilled leaves", Mark::Worked, kHand, gas::siphon({1.0, 0.05}, 0.05)->reached * 100, 5.0, 1e-9);
    const auto left = gas::crossing(*gas::zoneOf(the("propane"), Basis::Lowest), State{0.05, 0.0}, gas::kAir);
    row("21b and crosses on the lowest limits", Mark::Worked, kHand, left ? kYes : kNo, kYes, 0.0);
}

void paths()
{
    row("27a all propane, enters fuel", Mark::Worked, kHand, toAir(1.0).enters.fuel * 100, 9.5, 0.01);
    row("27b all propane, enters oxygen", Mark::Worked, kHand, toAir(1.0).enters.oxygen * 100, 18.96, 0.01);
    row("27c all propane, leaves fuel", Mark::Worked, kHand, toAir(1.0).leaves.fuel * 100, 2.1, 0.01);
    row("27d all propane, leaves oxygen", Mark::Worked, kHand, toAir(1.0).leaves.oxygen * 100, 20.51, 0.01);
    row("28a 20 %, enters fuel", Mark::Worked, kHand, toAir(0.20).enters.fuel * 100, 5.679, 0.005);
    row("28b 20 %, enters oxygen", Mark::Worked, kHand, toAir(0.20).enters.oxygen * 100, 15.001, 0.005);
    row("28c 20 %, leaves fuel", Mark::Worked, kHand, toAir(0.20).leaves.fuel * 100, 2.140, 0.005);
    row("28d 20 %, leaves oxygen", Mark::Worked, kHand, toAir(0.20).leaves.oxygen * 100, 18.708, 0.005);
    row("29a 5.2 % crosses", Mark::Worked, kHand, crosses(0.052), kYes, 0.0);
    row("29b 5.0 % does not", Mark::Worked, kHand, crosses(0.050), kNo, 0.0);
    row("30a bisected on the zone", Mark::Worked, kHand, bisectedOutOfService(), 5.0989, 1e-4);
    row("30b equals the formula at 20.95", Mark::Worked, kHand, bisectedOutOfService(),
        gas::outOfServiceByOxygen(0.115, 5, gas::kAirOxygen) * 100, 1e-6);
}

void blowers()
{
    const gas::Air fan = air(1.0, 2000, 0.2);
    const auto time = gas::timeToReach(fan, 0.20, 0.014);
    row("31a 20 to 1.4, changes", Mark::Published, kGuide, gas::airChanges(fan, *time), 13.3, 0.01);
    row("31b 20 to 1.4, minutes", Mark::Published, kGuide, minutes(time), 6.65, 0.01);
    const auto cubicFeet = [](double feet) { return quantity::cubicMetres(feet * kCubicFoot / 60) / quantity::seconds(1); };
    const gas::Air leak{quantity::cubicMetres(1000 * kCubicFoot), cubicFeet(85), 0.2, cubicFeet(15)};
    row("32 leak, its inputs", Mark::Worked, kGuide, *gas::changesToBuildUp(leak, 0.05), 1.666, 1e-3);
    const auto room = [](double changes, double after) {
        const auto perHour = [](double value) { return quantity::cubicMetres(value / 3600) / quantity::seconds(1); };
        const gas::Air one{quantity::cubicMetres(1), perHour(changes), 1.0, perHour(1)};
        return gas::shareAfter(one, 0.0, quantity::seconds(after * 60));
    };
    const char* table = "an engineering reference's table of room build-up";
    row("33 build-up, 2/h, 20 min", Mark::Published, table, room(2, 20), 0.2433, 5e-5);
    row("34 build-up, 0.5/h, 10 min", Mark::Published, table, room(0.5, 10), 0.1599, 5e-5);
    const gas::Air slow = air(kFiveHundred, 300, 0.25);
    row("35a 500 gal, K 0.25", Mark::Worked, kHand, minutes(gas::timeToReach(slow, 1.0, 0.0021)), 155.6, 0.1);
    row("35b 500 gal, m 4", Mark::Worked, kHand, minutes(gas::timeToReach(air(kFiveHundred, 300 / 4.0, 1), 1.0, 0.0021)), 155.6, 0.1);
    const auto burning = *gas::flammableWhile(slow, 1.0, *the("propane").nfpa);
    row("36a burns from", Mark::Worked, kHand, minutes(burning.from), 59.40, 0.05);
    row("36b burns to", Mark::Worked, kHand, minutes(burning.until), 97.49, 0.05);
    row("36c burns for", Mark::Worked, kHand, minutes(burning.until) - minutes(burning.from), 38.09, 0.05);
    const gas::Air beaten = air(kFiveHundred, 300, 0.25, 0.5);
    row("37a steady", Mark::Worked, kHand, gas::steadyShare(beaten) * 100, 0.6667, 1e-4);
    row("37b steady of the limit", Mark::Worked, kHand, gas::steadyShare(beaten) / 0.021 * 100, 31.75, 0.01);
    row("37c a tenth is unreachable", Mark::Worked, kHand, gas::timeToReach(beaten, 1.0, 0.0021) ? kYes : kNo, kNo, 0.0);
    const double after = gas::shareAfter(air(kFiveHundred, 1000, 0.3, 0.5), 0.05, quantity::seconds(600));
    row("38 decay with a source", Mark::Worked, kHand, after * 100, 1.1572, 1e-4);
    const auto rise = gas::sourceFromRise(quantity::cubicMetres(kFiveHundred), 0.00021, quantity::seconds(900));
    row("39 rebound in a closed hold", Mark::Worked, kHand, rise.value() * 60e6, 26.50, 0.05);
}

void liquids()
{
    const char* engine = "an engine maker's manual: 36.39 ft3 of vapour from a gallon; another source: 272 to 1";
    const double ratio = 36.39 * kCubicFoot / kGallon;
    row("40a propane to its limit, 20 degC", Mark::Worked, kHand, millilitres(onNfpa("propane"), kFiveHundred, 293.15), 144.6, 0.2);
    row("40b propane to its limit, 60 degF", Mark::Worked, kHand, millilitres(onNfpa("propane"), kFiveHundred, 288.706), 146.8, 0.2);
    row("41a published ratio", Mark::Published, engine, ratio, 272.2, 0.1);
    row("41b by that ratio, ours within 1 %", Mark::Published, engine,
        millilitres(onNfpa("propane"), kFiveHundred, 288.706) / (kFiveHundred * 0.021 / ratio * 1e6), 1.0, 0.01);
    row("42 light gasoline, 250 gal", Mark::Worked, kHand, millilitres(lightGasoline(), 250 * kGallon, 293.15), 58.4, 0.2);
    row("43a head space, 25 mm", Mark::Worked, kHand, headSpace(0.025), 11.55, 0.02);
    row("43b of all", Mark::Worked, kHand, headSpace(0.025) / headSpace(0.940) * 100, 0.610, 0.002);
    row("44a head space, 75 mm", Mark::Worked, kHand, headSpace(0.075), 62.29, 0.02);
    row("44b half", Mark::Worked, kHand, headSpace(0.470), 946.35, 0.02);
    row("44c all", Mark::Worked, kHand, headSpace(0.940), 1892.71, 0.02);
    row("45 toluene pool", Mark::Textbook, kCrowl, poolPoundsAMinute(), 0.1621, 1e-3);
    const double sealed = gas::sealedPressure(absolute(kAtmosphere), celsius(20), celsius(300)).get().value();
    row("46a sealed, times", Mark::Worked, kHand, sealed / kAtmosphere, 1.9551, 1e-3);
    row("46b sealed, bar above", Mark::Worked, kHand, (sealed - kAtmosphere) / 1e5, 0.968, 1e-3);
}

void meters()
{
    const char* niosh = "NIOSH IDLH documentation: a tenth of the lower limit";
    row("47a propane, ppm", Mark::Published, niosh, ofBasis("propane", "propane", 0.10, {}, {}, true), 2100, 1e-6);
    row("47b ammonia, ppm", Mark::Published, niosh, ofBasis("ammonia", "ammonia", 0.10, {}, {}, true), 15000, 1e-6);
    row("47c ethylene oxide, ppm", Mark::Published, niosh, ofBasis("ethylene-oxide", "ethylene-oxide", 0.10, {}, {}, true), 3000, 1e-6);
    row("48 5 %LEL on 4.4 %", Mark::Published, "published article on lower limits",
        ofBasis("methane", "methane", 0.05, {}, 0.044, true) / 1e4, 0.22, 1e-9);
    row("49 pentane on methane", Mark::Published, "an instrument maker's table: 2.02", ofBasis("pentane", "methane", 0.10, 2.02, {}), 20.2,
        1e-9);
    row("50 span 20, factor 2.6", Mark::Published, "a sensor maker's technical note", ofBasis("propane", "methane", 0.20, 2.6, {}), 52,
        1e-9);
    gas::Reading starved;
    starved.substance = starved.calibrated_on = &the("propane");
    starved.oxygen = 0.06;
    const auto doubts = gas::meaningOf(starved).doubts;
    row("51 oxygen 6 %: void", Mark::Rule, "three sensor makers: not below 10 % oxygen",
        std::ranges::find(doubts, gas::Doubt::SensorStarved) != doubts.end() ? kYes : kNo, kYes, 0.0);
    const char* bands = "sensor makers (10), 29 CFR 1910.146(b) below (19.5), Ontario Reg. 632/05 s. 1 above (23)";
    row("52a 9.9: void", Mark::Published, bands, band(9.9), static_cast<double>(gas::Oxygen::Starved), 0.0);
    row("52b 10.0: an alarm only", Mark::Published, bands, band(10.0), static_cast<double>(gas::Oxygen::AlarmOnly), 0.0);
    row("52c 19.4: an alarm only", Mark::Published, bands, band(19.4), static_cast<double>(gas::Oxygen::AlarmOnly), 0.0);
    row("52d 19.5", Mark::Published, bands, band(19.5), static_cast<double>(gas::Oxygen::Good), 0.0);
    row("52e 23.0", Mark::Published, bands, band(23.0), static_cast<double>(gas::Oxygen::Good), 0.0);
    row("52f 23.1: enriched", Mark::Published, bands, band(23.1), static_cast<double>(gas::Oxygen::Enriched), 0.0);
    row("53a oxygen 19.5 hides", Mark::Worked, kHand, gas::hiddenGas(0.195) * 100, 6.921, 0.01);
    row("53b times the limit", Mark::Worked, kHand, gas::hiddenGas(0.195) / 0.021, 3.30, 0.01);
    row("54 hose", Mark::Published, "a meter maker's note: 100 ft of 1/8 in, 29 s",
        gas::hoseDelay(quantity::metres(30.48), quantity::metres(3.175e-3), litresAMinute(0.4993)).value(), 29.0, 0.1);
}

void rulesAndRoutes()
{
    const char* ontario = "Ontario Reg. 632/05 s. 1, 19(4): below 5 % for hot work";
    const char* victoria = "Victoria OHS Regulations 2007 r. 3.4.11: 5 to below 10 % only with a continuous monitor";
    const char* alternate = "58 FR 4462, p. 4488: methane 0.25 %, half of what is hazardous";
    const char* booklet = "New Zealand Department of Labour, Hot work on drums and tanks (1988): under 2,500 L";
    row("55a Ontario 5.0", Mark::Published, ontario, verdict("ontario-hot-work", 0.050), kBeyond, 0.0);
    row("55b Ontario 4.9", Mark::Published, ontario, verdict("ontario-hot-work", 0.049), kWithin, 0.0);
    row("56a Victoria 7", Mark::Published, victoria, verdict("victoria-work", 0.07), kOnlyMonitored, 0.0);
    row("56b Victoria 4.9", Mark::Published, victoria, verdict("victoria-work", 0.049), kWithin, 0.0);
    row("56c Victoria 10", Mark::Published, victoria, verdict("victoria-work", 0.10), kBeyond, 0.0);
    row("57a methane 0.26 %", Mark::Published, alternate, verdict("osha-alternate-entry", 0.0026 / 0.05), kBeyond, 0.0);
    row("57b methane 0.25 %", Mark::Published, alternate, verdict("osha-alternate-entry", 0.0025 / 0.05), kWithin, 0.0);
    row("58a 1,000 gal is out", Mark::Published, booklet, gas::isSmallVessel(quantity::cubicMetres(1000 * kGallon)) ? kYes : kNo, kNo, 0.0);
    row("58b 500 gal is in", Mark::Published, booklet, gas::isSmallVessel(quantity::cubicMetres(kFiveHundred)) ? kYes : kNo, kYes, 0.0);
    row("58c 250 gal is in", Mark::Published, booklet, gas::isSmallVessel(quantity::cubicMetres(250 * kGallon)) ? kYes : kNo, kYes, 0.0);
    constexpr double kNever = static_cast<double>(gas::Routing::Never);
    for (const char* id : {"acetylene", "ethylene-oxide", "chlorine", "unknown"}) {
        row(qPrintable(QStringLiteral("59 never: %1").arg(QLatin1String(id))), Mark::Proposal, "argued from the hazards of each",
            routing(id), kNever, 0.0);
    }
    const char* niosh = "NIOSH Pocket Guide: n-butane boils at 31 degF";
    row("60a cold butane", Mark::Published, niosh, gas::liquidMayStand(the("n-butane"), celsius(-5)) ? kYes : kNo, kYes, 0.0);
    row("60b mild butane", Mark::Published, niosh, gas::liquidMayStand(the("n-butane"), celsius(5)) ? kYes : kNo, kNo, 0.0);
}

} // namespace

class GasValuesTest : public QObject {
    Q_OBJECT
private slots:
    void value_data();
    void value();
    void everyNumberIsThere();

private:
    std::set<int> m_seen;
};

void GasValuesTest::value_data()
{
    QTest::addColumn<QString>("source");
    QTest::addColumn<int>("mark");
    QTest::addColumn<double>("got");
    QTest::addColumn<double>("wanted");
    QTest::addColumn<double>("tolerance");
    mixtures();
    oxygen();
    purges();
    paths();
    blowers();
    liquids();
    meters();
    rulesAndRoutes();
}

void GasValuesTest::value()
{
    QFETCH(QString, source);
    QFETCH(double, got);
    QFETCH(double, wanted);
    QFETCH(double, tolerance);
    QVERIFY(!source.isEmpty());
    QVERIFY2(
        std::abs(got - wanted) <= tolerance, qPrintable(QStringLiteral("%1 for %2 (%3)").arg(got, 0, 'g', 12).arg(wanted).arg(source)));
    m_seen.insert(QString::fromLatin1(QTest::currentDataTag()).left(2).toInt());
}

void GasValuesTest::everyNumberIsThere() { QCOMPARE(m_seen.size(), std::size_t{60}); }

BRIMFUL_SUITE(GasValuesTest);
#include "gas_values_test.moc"
