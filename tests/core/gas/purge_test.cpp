// Purging, ventilation, pools and sampling hoses, against published worked examples.
#include "core/gas/pool.h"
#include "core/gas/purge.h"
#include "core/gas/sampling.h"
#include "core/gas/ventilation.h"

#include "tests/core/gas/gases.h"
#include "tests/support/suite.h"

#include <QTest>

#include <random>

using namespace brimful;
using namespace brimful::test;

namespace {

constexpr double kAtmosphere = 101'325.0;
constexpr double kCubicFoot = 0.028316846592;
constexpr double kPound = 0.45359237;
constexpr double kNitrogen = 0.02801; // kg/mol

quantity::AbsolutePressure absolute(double pascals) { return quantity::AbsolutePressure(quantity::pascals(pascals)); }
quantity::VolumeFlow litresAMinute(double litres) { return quantity::cubicMetres(litres / 60e3) / quantity::seconds(1); }

double poundsOfNitrogen(double volumes, double cubic_feet, double kelvin)
{
    return volumes * cubic_feet * kCubicFoot * kAtmosphere / (8.314462618 * kelvin) * kNitrogen / kPound;
}

gas::Air air(double volume, double litres, double efficiency, double source = 0)
{
    return {quantity::cubicMetres(volume), litresAMinute(litres), efficiency, litresAMinute(source)};
}

double minutes(const std::optional<quantity::Duration>& time) { return time->value() / 60; }

} // namespace

class PurgeTest : public QObject {
    Q_OBJECT
private slots:
    void branan();
    void deepVacuum();
    void textbookThousandGallons();
    void textbookSweep();
    void siphonLeavesWhatWasNotFilled();
    void unreachable();
    void alreadyThere();
    void purgeProperties();
    void publishedDilution();
    void publishedLeak();
    void publishedBuildUp_data();
    void publishedBuildUp();
    void blowerOnAFullVessel();
    void mixingConventionsAreInverse();
    void sourceNoBlowerBeats();
    void decayWithSource();
    void closedHoldIsAMeasurement();
    void steadyInsideTheBand();
    void textbookPool();
    void poolBeatsTheBlower();
    void publishedHose();
    void oxygenHidesGas();
    void endToEnd();
};

// Branan, Rules of Thumb for Chemical Engineers, as quoted: air from 21 to 1 % oxygen. Dilution 3.1 volumes from his chart
// (ln 21 = 3.0445); pressure to 5 atm, 2 cycles, 0.84 %, 8 volumes; vacuum to 0.5 atm, 4.39 so 5 cycles, 2.5 volumes.
void PurgeTest::branan()
{
    const gas::Shares shares{0.21, 0.01};
    const auto swept = gas::sweep(shares, 1.0);
    QVERIFY(near(swept->volumes, 3.0445, 1e-4));
    QVERIFY(near(swept->volumes, 3.1, 0.06));
    const auto pressed = gas::pressureCycles(shares, absolute(kAtmosphere), absolute(5 * kAtmosphere));
    QCOMPARE(pressed->whole_cycles, 2);
    QVERIFY(near(pressed->reached * 100, 0.84, 1e-9));
    QVERIFY(near(pressed->volumes, 8.0, 1e-9));
    const auto drawn = gas::pressureCycles(shares, absolute(0.5 * kAtmosphere), absolute(kAtmosphere));
    QVERIFY(near(drawn->cycles, 4.392, 1e-3));
    QCOMPARE(drawn->whole_cycles, 5);
    QVERIFY(near(drawn->volumes, 2.5, 1e-9));
}

// The same book, quoted elsewhere: vacuum to 6 mmHg, 21 % to 5 ppm: 2.20, so 3 cycles, 2.976 volumes. Tolerance 2e-3.
void PurgeTest::deepVacuum()
{
    const auto got = gas::pressureCycles({0.21, 5e-6}, absolute(6 * 133.322), absolute(kAtmosphere));
    QVERIFY(near(got->cycles, 2.199, 2e-3));
    QCOMPARE(got->whole_cycles, 3);
    QVERIFY(near(got->volumes, 2.976, 2e-3));
}

// Textbook (memory): 1,000 gal = 133.68 ft3 at 75 degF to 1 ppm. Vacuum 20 mmHg: 3.37, 4 cycles, 37.35 lb. Pressure 80 psig:
// 6.58, 7 cycles, 365.4 lb.
void PurgeTest::textbookThousandGallons()
{
    constexpr double kKelvin = (75 + 459.67) / 1.8;
    const auto vacuum = gas::pressureCycles({0.21, 1e-6}, absolute(20 * 133.322), absolute(kAtmosphere));
    QVERIFY(near(vacuum->cycles, 3.369, 2e-3));
    QCOMPARE(vacuum->whole_cycles, 4);
    QVERIFY(near(poundsOfNitrogen(vacuum->volumes, 133.68, kKelvin), 37.35, 0.1));
    const auto pressure = gas::pressureCycles({0.21, 1e-6}, absolute(kAtmosphere), absolute(kAtmosphere + 80 * 6894.757));
    QVERIFY(near(pressure->cycles, 6.578, 2e-3));
    QCOMPARE(pressure->whole_cycles, 7);
    QVERIFY(near(poundsOfNitrogen(pressure->volumes, 133.68, kKelvin), 365.4, 0.5));
}

// Textbook (memory): 1,000 ft3 from 21 to 1.25 % with nitrogen that carries 0.01 %: 2,829 ft3 (printed 2,830).
void PurgeTest::textbookSweep() { QVERIFY(near(gas::sweep({0.21, 0.0125, 0.0001}, 1.0)->volumes * 1000, 2829, 2)); }

// One vessel volume of gas (CEP, Feb 2001); what the water never reached stays: 5 % of pure propane is 5 %.
void PurgeTest::siphonLeavesWhatWasNotFilled()
{
    const auto whole = gas::siphon({1.0, 0.02}, 0.0);
    QCOMPARE(whole->whole_cycles, 1);
    QVERIFY(near(whole->volumes, 1.0, 1e-12));
    QVERIFY(near(whole->reached, 0.0, 1e-12));
    const auto headed = gas::siphon({1.0, 0.05}, 0.05);
    QCOMPARE(headed->whole_cycles, 1);
    QVERIFY(near(headed->reached, 0.05, 1e-12));
    QCOMPARE(gas::siphon({1.0, 0.02}, 0.05)->whole_cycles, 2);
}

void PurgeTest::unreachable()
{
    QVERIFY(!gas::sweep({0.21, 0.0001, 0.0001}, 1.0));
    QVERIFY(!gas::sweep({0.21, 0.0}, 1.0));
    QVERIFY(!gas::sweep({0.21, 0.01}, 0.0));
    QVERIFY(!gas::pressureCycles({0.21, 0.01}, absolute(kAtmosphere), absolute(kAtmosphere)));
    QVERIFY(!gas::pressureCycles({0.21, 0.01}, absolute(0), absolute(kAtmosphere)));
    QVERIFY(!gas::siphon({1.0, 0.05}, 1.0));
}

void PurgeTest::alreadyThere()
{
    QCOMPARE(gas::sweep({0.01, 0.02}, 1.0)->volumes, 0.0);
    QCOMPARE(gas::pressureCycles({0.01, 0.02}, absolute(1e5), absolute(2e5))->whole_cycles, 0);
    QCOMPARE(gas::siphon({0.01, 0.02}, 0.1)->whole_cycles, 0);
}

// The cycles asked for are enough, one fewer is not; worse mixing, dirtier gas and a stricter target never take less.
void PurgeTest::purgeProperties()
{
    std::mt19937_64 random(5);
    std::uniform_real_distribution<double> unit(0.0, 1.0);
    for (int i = 0; i < 5'000; ++i) {
        const gas::Shares shares{0.1 + 0.9 * unit(random), 0.002 + 0.05 * unit(random), 0.001 * unit(random)};
        const double high = kAtmosphere * (1.2 + 5 * unit(random));
        const auto got = gas::pressureCycles(shares, absolute(kAtmosphere), absolute(high));
        QVERIFY(got->reached <= shares.target + 1e-9);
        const double before = shares.in_purge_gas + (got->reached - shares.in_purge_gas) * high / kAtmosphere; // one cycle fewer
        QVERIFY(before > shares.target);
        const double mixing = 0.1 + 0.9 * unit(random);
        const double volumes = gas::sweep(shares, mixing)->volumes;
        QVERIFY(gas::sweep(shares, mixing * 0.9)->volumes > volumes);
        QVERIFY(gas::sweep({shares.start, shares.target * 0.9, shares.in_purge_gas}, mixing)->volumes > volumes);
        QVERIFY(gas::sweep({shares.start, shares.target, shares.in_purge_gas + 1e-4}, mixing)->volumes > volumes);
    }
}

// A federal design guide, p. 106, after NFPA 69: 20 to 1.4 %, K 0.2, two changes a minute: 13.3 changes, 6.65 minutes.
void PurgeTest::publishedDilution()
{
    const gas::Air fan = air(1.0, 2000, 0.2);
    const auto time = gas::timeToReach(fan, 0.20, 0.014);
    QVERIFY(near(minutes(time), 6.65, 0.01));
    QVERIFY(near(gas::airChanges(fan, *time), 13.3, 0.01));
}

// The same page: 100 ft3/min that is 15 % gas leaks into 1,000 ft3, K 0.2, 5 % reached after 1.666 changes (its inputs; the
// number worked by hand), 16.66 minutes at a tenth of a change a minute.
void PurgeTest::publishedLeak()
{
    gas::Air room;
    room.volume = quantity::cubicMetres(1000 * kCubicFoot);
    room.flow = quantity::cubicMetres(85 * kCubicFoot / 60) / quantity::seconds(1);
    room.source = quantity::cubicMetres(15 * kCubicFoot / 60) / quantity::seconds(1);
    room.efficiency = 0.2;
    QVERIFY(near(*gas::changesToBuildUp(room, 0.05), 1.666, 1e-3));
    QVERIFY(!gas::changesToBuildUp(room, 0.18)); // steady at 15 / 85
}

// An engineering reference's table of room build-up, q = V = 1, nothing at first: n changes an hour, minutes, share.
void PurgeTest::publishedBuildUp_data()
{
    QTest::addColumn<double>("changes");
    QTest::addColumn<double>("after");
    QTest::addColumn<double>("share");
    QTest::newRow("0.5, 10") << 0.5 << 10.0 << 0.1599;
    QTest::newRow("1, 20") << 1.0 << 20.0 << 0.2835;
    QTest::newRow("2, 20") << 2.0 << 20.0 << 0.2433;
    QTest::newRow("4, 40") << 4.0 << 40.0 << 0.2326;
    QTest::newRow("0.5, 640") << 0.5 << 640.0 << 1.9903;
}

void PurgeTest::publishedBuildUp()
{
    QFETCH(double, changes);
    QFETCH(double, after);
    QFETCH(double, share);
    const auto perHour = [](double cubicMetres) { return quantity::cubicMetres(cubicMetres / 3600) / quantity::seconds(1); };
    const gas::Air room{quantity::cubicMetres(1), perHour(changes), 1.0, perHour(1)};
    QVERIFY(near(gas::shareAfter(room, 0.0, quantity::seconds(after * 60)), share, 5e-5));
}

// 500 gal of pure propane, 300 L/min, K 0.25 (worked by hand on NFPA 497): 155.6 min to a tenth of the limit; the mean burns from
// minute 59.40 to 97.49, for 38.09 min.
void PurgeTest::blowerOnAFullVessel()
{
    const gas::Air fan = air(kFiveHundred, 300, 0.25);
    QVERIFY(near(minutes(gas::timeToReach(fan, 1.0, 0.0021)), 155.6, 0.1));
    QVERIFY(near(minutes(gas::timeToReach(air(kFiveHundred, 300, 1.0), 1.0, 0.0021)), 38.9, 0.05));
    QVERIFY(near(minutes(gas::timeToReach(air(kFiveHundred, 300, 0.5), 1.0, 0.00021)), 106.9, 0.05));
    const auto burning = gas::flammableWhile(fan, 1.0, {0.021, 0.095});
    QVERIFY(near(minutes(burning->from), 59.40, 0.05));
    QVERIFY(near(minutes(burning->until), 97.49, 0.05));
    QVERIFY(near(minutes(burning->until) - minutes(burning->from), 38.09, 0.05));
    const auto wider = gas::flammableWhile(fan, 1.0, {0.017, 0.109});
    QVERIFY(wider->from<burning->from&& * wider->until> * burning->until);
}

// K = 0.25 multiplies; the mixing factor m = 4 of industrial ventilation manuals divides: the same vessel, the same minutes.
void PurgeTest::mixingConventionsAreInverse()
{
    const auto multiplied = gas::timeToReach(air(kFiveHundred, 300, 0.25), 1.0, 0.0021);
    const auto divided = gas::timeToReach(air(kFiveHundred, 300 / 4.0, 1.0), 1.0, 0.0021);
    QVERIFY(near(multiplied->value(), divided->value(), 1e-6));
    QVERIFY(near(minutes(divided), 155.6, 0.1));
}

// 0.5 L/min of vapour against 300 L/min at K 0.25: 0.6667 %, 31.75 % of propane's limit; a tenth is never reached.
void PurgeTest::sourceNoBlowerBeats()
{
    const gas::Air fan = air(kFiveHundred, 300, 0.25, 0.5);
    QVERIFY(near(gas::steadyShare(fan) * 100, 0.6667, 1e-4));
    QVERIFY(near(gas::steadyShare(fan) / 0.021 * 100, 31.75, 0.01));
    QVERIFY(!gas::timeToReach(fan, 1.0, 0.0021));
    QVERIFY(gas::timeToReach(air(kFiveHundred, 300, 0.25, 0.157), 1.0, 0.0021)); // 0.1575 L/min is the most
    QVERIFY(!gas::timeToReach(air(kFiveHundred, 300, 0.25, 0.158), 1.0, 0.0021));
    QVERIFY(!gas::timeToReach(fan, 0.0, 0.0021)); // clean now, but it will not stay so
    QCOMPARE(gas::timeToReach(air(kFiveHundred, 300, 0.25), 0.001, 0.0021)->value(), 0.0);
}

// 5 % at first, 0.5 L/min, 1,000 L/min at K 0.3, 500 gal, ten minutes: 1.1572 %.
void PurgeTest::decayWithSource()
{
    QVERIFY(near(gas::shareAfter(air(kFiveHundred, 1000, 0.3, 0.5), 0.05, quantity::seconds(600)) * 100, 1.1572, 1e-4));
}

// One hundredth of the limit in a quarter of an hour in 500 gal: 26.50 mL/min of vapour. 0.5 L/min brings a tenth in 7.95 min.
void PurgeTest::closedHoldIsAMeasurement()
{
    const auto source = gas::sourceFromRise(quantity::cubicMetres(kFiveHundred), 0.00021, quantity::seconds(900));
    QVERIFY(near(source.value() * 60e6, 26.50, 0.05));
    const double tenth = 0.0021 * kFiveHundred / litresAMinute(0.5).value() / 60;
    QVERIFY(near(tenth, 7.95, 0.005));
}

void PurgeTest::steadyInsideTheBand()
{
    const gas::FlammableRange range{0.021, 0.095};
    const auto stays = gas::flammableWhile(air(1.0, 100, 1.0, 5), 0.0, range); // steady at 5 %
    QVERIFY(stays && !stays->until);
    QVERIFY(near(stays->from.value(), 10.0 * 60 * std::log(0.05 / 0.029), 1e-6));
    QVERIFY(!gas::flammableWhile(air(1.0, 100, 1.0, 1), 0.0, range)); // steady at 1 %
    const auto rises = gas::flammableWhile(air(1.0, 100, 1.0, 20), 0.03, range); // through and above
    QVERIFY(rises->from.value() == 0.0 && rises->until);
    QVERIFY(!gas::flammableWhile(air(1.0, 100, 1.0), 0.01, range));
}

// Textbook (memory): toluene, an open tank 5 ft across at 77 degF, vapour pressure 0.0371 atm: 0.162 lb/min.
void PurgeTest::textbookPool()
{
    const double radius = 2.5 * 0.3048;
    const gas::Pool pool{
        quantity::squareMetres(3.14159265358979 * radius * radius), 0.09214, absolute(0.0371 * kAtmosphere), quantity::Temperature(298.15)};
    QVERIFY(near(gas::evaporation_kg_s(pool) * 60 / kPound, 0.1621, 1e-3));
}

// 0.05 m2 of gasoline at 20 degC (35 kPa, 100 g/mol): 20.2 g/min, 4.86 L/min, 46 times what 300 L/min at K 0.25 carries away at a
// tenth of its limit. Worked by hand.
void PurgeTest::poolBeatsTheBlower()
{
    const gas::Pool pool{quantity::squareMetres(0.05), 0.1, absolute(35e3), quantity::Temperature(293.15)};
    QVERIFY(near(gas::evaporation_kg_s(pool) * 60e3, 20.2, 0.05));
    const double litres = gas::vapourFlow(pool).value() * 60e3;
    QVERIFY(near(litres, 4.86, 0.01));
    QVERIFY(near(litres / (300 * 0.25 * 0.0014), 46, 0.5));
    QVERIFY(!gas::timeToReach(air(kFiveHundred, 300, 0.25, litres), 1.0, 0.0014));
}

// A meter maker's note: 100 ft of 1/8 in bore, 29 s; the pump is then 0.4993 L/min.
void PurgeTest::publishedHose()
{
    const auto delay = gas::hoseDelay(quantity::metres(30.48), quantity::metres(3.175e-3), litresAMinute(0.4993));
    QVERIFY(near(delay.value(), 29.0, 0.1));
}

// 19.5 % oxygen, everything else propane: 6.921 %, 3.30 times its limit (NFPA 497). A tenth of a percent on the display: 0.48 %.
void PurgeTest::oxygenHidesGas()
{
    QVERIFY(near(gas::hiddenGas(0.195) * 100, 6.921, 0.01));
    QVERIFY(near(gas::hiddenGas(0.195) / 0.021, 3.30, 0.01));
    QVERIFY(near(gas::hiddenGas(0.2085) * 100, 0.48, 0.005));
    QCOMPARE(gas::hiddenGas(0.21), 0.0);
}

// 500 gal of ex-propane, worked by hand: 1.43 % left after the siphon, then air to 19.5 % oxygen takes 2.671 volumes and leaves
// 0.099 % of propane; a hundredth of the limit takes 4.22 volumes.
void PurgeTest::endToEnd()
{
    constexpr double kLeft = 0.0143;
    const double oxygen = std::log(0.2095 / (0.2095 - 0.195));
    QVERIFY(near(oxygen, 2.671, 1e-3));
    const gas::Air fan = air(kFiveHundred, 300, 1.0);
    const auto then = quantity::seconds(oxygen * kFiveHundred / fan.flow.value());
    QVERIFY(near(gas::shareAfter(fan, kLeft, then) * 100, 0.099, 1e-3));
    QVERIFY(near(gas::airChanges(fan, *gas::timeToReach(fan, kLeft, 0.00021)), 4.22, 0.005));
}

BRIMFUL_SUITE(PurgeTest);
#include "purge_test.moc"
