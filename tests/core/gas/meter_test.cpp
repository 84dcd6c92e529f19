// What a display means and when it means nothing, against published conversions, factors and oxygen limits.
#include "core/gas/meter.h"

#include "tests/core/gas/gases.h"
#include "tests/support/suite.h"

#include <QTest>

#include <algorithm>
#include <random>

using namespace brimful;
using namespace brimful::test;
using gas::Doubt;
using gas::Oxygen;

namespace {

bool has(const gas::Meaning& meaning, Doubt doubt) { return std::ranges::find(meaning.doubts, doubt) != meaning.doubts.end(); }

gas::Reading inAir(const gas::Substance& substance, double display)
{
    gas::Reading out;
    out.display = display;
    out.calibrated_on = &substance;
    out.substance = &substance;
    out.oxygen = 0.209;
    return out;
}

} // namespace

class MeterTest : public QObject {
    Q_OBJECT
private slots:
    void publishedConversions_data();
    void publishedConversions();
    void publishedResponse();
    void displayOnItsOwnBasisIsMoreOnTheLowest();
    void oxygenBands_data();
    void oxygenBands();
    void starvedSensorIsVoid();
    void lowOxygenIsOnlyAnAlarm();
    void infraredNeedsNoOxygenButNeverReleases();
    void oxygenInBandSaysNothingAboutFuel();
    void blindSensors();
    void heavyEndsAreNotSeen();
    void poisonedSensor();
    void noFactorNoNumber();
    void ownGasIgnoresAFactorBelowOne();
    void impossibleDisplays();
    void unknownSubstance();
    void gasThatDoesNotBurn();
    void basisBelowEveryPublishedLimit();
    void decisionsNeverRestOnLessThanShown();
};

void MeterTest::publishedConversions_data()
{
    QTest::addColumn<double>("lower");
    QTest::addColumn<double>("basis");
    QTest::addColumn<double>("display");
    QTest::addColumn<double>("ppm");
    QTest::addColumn<double>("tolerance");
    // NIOSH IDLH pages: a tenth of the lower limit, in ppm; exact.
    QTest::newRow("propane, NIOSH IDLH") << 0.021 << 0.021 << 0.10 << 2100.0 << 1e-9;
    QTest::newRow("ammonia, NIOSH IDLH") << 0.15 << 0.15 << 0.10 << 15000.0 << 1e-9;
    QTest::newRow("ethylene oxide, NIOSH IDLH") << 0.030 << 0.030 << 0.10 << 3000.0 << 1e-9;
    // Published article on lower limits: 5 %LEL of methane on a 4.4 % basis is 0.22 % by volume.
    QTest::newRow("methane on 4.4 %") << 0.044 << 0.044 << 0.05 << 2200.0 << 1e-9;
    // A cylinder of 50 %LEL methane made on the 5.0 % basis holds 2.5 %.
    QTest::newRow("methane cylinder") << 0.044 << 0.050 << 0.50 << 25000.0 << 1e-9;
}

void MeterTest::publishedConversions()
{
    QFETCH(double, lower);
    QFETCH(double, basis);
    QFETCH(double, display);
    QFETCH(double, ppm);
    QFETCH(double, tolerance);
    const gas::Substance substance = named("gas", lower, 0.3);
    gas::Reading reading = inAir(substance, display);
    reading.limit_basis = basis;
    const gas::Meaning meaning = gas::meaningOf(reading);
    QVERIFY(meaning.believable());
    QVERIFY(near(*meaning.share * 1e6, ppm, tolerance));
}

// Relative response of catalytic sensors calibrated on methane, an instrument maker's table: pentane 2.02, propane 1.62.
// Display 10 with pentane there is 20.2 %LEL. Another maker's manual: a span of 20 with the factor 2.6 reads 52.
void MeterTest::publishedResponse()
{
    const gas::Substance cal = methane();
    const gas::Substance pentane = named("pentane", 0.015, 0.078);
    gas::Reading reading = inAir(pentane, 0.10);
    reading.calibrated_on = &cal;
    reading.response_factor = 2.02;
    QVERIFY(near(*gas::meaningOf(reading).of_basis, 0.202, 1e-12));
    const gas::Substance isopropanol = named("isopropanol", 0.02, 0.127);
    reading.substance = &isopropanol;
    reading.display = 0.20;
    reading.response_factor = 2.6;
    QVERIFY(near(*gas::meaningOf(reading).of_basis, 0.52, 1e-12));
    // The factors of two makers differ: a true 10 %LEL of propane shows 6.2 by one table and 5.7 by the other.
    const gas::Substance there = propane();
    for (const auto& [factor, shown] : {std::pair(1.62, 0.0617), std::pair(1.75, 0.0571)}) {
        gas::Reading low = inAir(there, shown);
        low.calibrated_on = &cal;
        low.response_factor = factor;
        QVERIFY(near(*gas::meaningOf(low).of_basis, 0.10, 1e-4));
    }
}

// 50 %LEL methane on the 5.0 % basis (NFPA 497) is 56.8 % of the 4.4 % limit (IEC 60079-20-1): 2.5 / 4.4.
void MeterTest::displayOnItsOwnBasisIsMoreOnTheLowest()
{
    const gas::Substance there = methane();
    gas::Reading reading = inAir(there, 0.50);
    reading.limit_basis = 0.05;
    const gas::Meaning said = gas::meaningOf(reading);
    QVERIFY(near(*said.of_lowest, 0.568, 5e-4));
    QVERIFY(near(*said.of_basis, 0.50, 1e-12));
    // Nobody said which limit the meter means: it is taken for the highest published one.
    reading.limit_basis.reset();
    const gas::Meaning unsaid = gas::meaningOf(reading);
    QVERIFY(near(*unsaid.share, 0.025, 1e-12));
    QVERIFY(near(*unsaid.of_lowest, *said.of_lowest, 1e-12));
}

// 29 CFR 1910.146(b) below (19.5), Ontario Reg. 632/05 above (23); makers' notes on catalytic sensors (10). Exact at the edges.
void MeterTest::oxygenBands_data()
{
    QTest::addColumn<double>("percent");
    QTest::addColumn<int>("band");
    QTest::newRow("0") << 0.0 << static_cast<int>(Oxygen::Starved);
    QTest::newRow("6") << 6.0 << static_cast<int>(Oxygen::Starved);
    QTest::newRow("9.9") << 9.9 << static_cast<int>(Oxygen::Starved);
    QTest::newRow("10.0") << 10.0 << static_cast<int>(Oxygen::AlarmOnly);
    QTest::newRow("19.4") << 19.4 << static_cast<int>(Oxygen::AlarmOnly);
    QTest::newRow("19.5") << 19.5 << static_cast<int>(Oxygen::Good);
    QTest::newRow("20.9") << 20.9 << static_cast<int>(Oxygen::Good);
    QTest::newRow("23.0") << 23.0 << static_cast<int>(Oxygen::Good);
    QTest::newRow("23.1") << 23.1 << static_cast<int>(Oxygen::Enriched);
    QTest::newRow("23.5") << 23.5 << static_cast<int>(Oxygen::Enriched);
}

void MeterTest::oxygenBands()
{
    QFETCH(double, percent);
    QFETCH(int, band);
    QCOMPARE(static_cast<int>(gas::oxygenBand(percent / 100)), band);
    const gas::Substance there = propane();
    gas::Reading reading = inAir(there, 0.0);
    reading.oxygen = percent / 100;
    const gas::Meaning meaning = gas::meaningOf(reading);
    QCOMPARE(meaning.believable(), band == static_cast<int>(Oxygen::Good));
    QCOMPARE(meaning.alarm_only, band == static_cast<int>(Oxygen::AlarmOnly));
    QCOMPARE(has(meaning, Doubt::SensorStarved), band == static_cast<int>(Oxygen::Starved));
    QCOMPARE(has(meaning, Doubt::OxygenHigh), band == static_cast<int>(Oxygen::Enriched));
}

// In a vessel full of nitrogen the display reads 0 whatever burns there.
void MeterTest::starvedSensorIsVoid()
{
    const gas::Substance there = propane();
    gas::Reading reading = inAir(there, 0.0);
    reading.oxygen = 0.06;
    QVERIFY(has(gas::meaningOf(reading), Doubt::SensorStarved));
    reading.oxygen.reset();
    const gas::Meaning unread = gas::meaningOf(reading);
    QVERIFY(!unread.believable());
    QVERIFY(has(unread, Doubt::NoOxygenReading));
}

void MeterTest::lowOxygenIsOnlyAnAlarm()
{
    const gas::Substance there = propane();
    gas::Reading reading = inAir(there, 0.04);
    reading.oxygen = 0.15;
    const gas::Meaning meaning = gas::meaningOf(reading);
    QVERIFY(meaning.alarm_only);
    QVERIFY(!meaning.believable());
    QVERIFY(near(*meaning.share, 0.04 * 0.021, 1e-12)); // still there to count against
}

void MeterTest::infraredNeedsNoOxygenButNeverReleases()
{
    const gas::Substance there = propane();
    gas::Reading reading = inAir(there, 0.0);
    reading.sensor = gas::Sensor::Infrared;
    reading.oxygen = 0.01;
    const gas::Meaning meaning = gas::meaningOf(reading);
    QVERIFY(!has(meaning, Doubt::SensorStarved));
    QVERIFY(meaning.alarm_only);
    QVERIFY(!meaning.believable());
}

// Oxygen of 20.9 beside a display over the alarm: the gas counts, whatever the oxygen.
void MeterTest::oxygenInBandSaysNothingAboutFuel()
{
    const gas::Substance there = propane();
    const gas::Meaning meaning = gas::meaningOf(inAir(there, 0.60));
    QVERIFY(meaning.believable());
    QVERIFY(*meaning.of_lowest > 0.60);
}

void MeterTest::blindSensors()
{
    const gas::Substance light = hydrogen();
    gas::Reading reading = inAir(light, 0.0);
    QVERIFY(gas::meaningOf(reading).believable());
    reading.sensor = gas::Sensor::Infrared;
    QVERIFY(has(gas::meaningOf(reading), Doubt::InfraredBlind));
    const gas::Substance triple = named("acetylene", 0.025, 1.0);
    gas::Reading other = inAir(triple, 0.0);
    other.sensor = gas::Sensor::Infrared;
    QVERIFY(has(gas::meaningOf(other), Doubt::InfraredBlind));
}

void MeterTest::heavyEndsAreNotSeen()
{
    gas::Substance oil = named("fuel-oil-2", 0.006, 0.065);
    oil.heavy_ends = true;
    for (const gas::Sensor sensor : {gas::Sensor::Catalytic, gas::Sensor::Infrared}) {
        gas::Reading reading = inAir(oil, 0.0);
        reading.sensor = sensor;
        QVERIFY(has(gas::meaningOf(reading), Doubt::HeavyEnds));
    }
}

void MeterTest::poisonedSensor()
{
    gas::Substance sour = named("hydrogen-sulfide", 0.04, 0.44);
    sour.poisons_catalytic = true;
    gas::Reading reading = inAir(sour, 0.0);
    QVERIFY(has(gas::meaningOf(reading), Doubt::SensorPoison));
    reading.sensor = gas::Sensor::Infrared;
    QVERIFY(!has(gas::meaningOf(reading), Doubt::SensorPoison));
}

void MeterTest::noFactorNoNumber()
{
    const gas::Substance cal = methane();
    const gas::Substance there = propane();
    gas::Reading reading = inAir(there, 0.02);
    reading.calibrated_on = &cal;
    const gas::Meaning meaning = gas::meaningOf(reading);
    QVERIFY(has(meaning, Doubt::NoFactor));
    QVERIFY(!meaning.share && !meaning.of_basis && !meaning.of_lowest);
    reading.calibrated_on = nullptr;
    QVERIFY(has(gas::meaningOf(reading), Doubt::NoFactor));
    // A copy of the row is the same gas.
    const gas::Substance copy = propane();
    reading.calibrated_on = &copy;
    QVERIFY(gas::meaningOf(reading).believable());
}

void MeterTest::ownGasIgnoresAFactorBelowOne()
{
    const gas::Substance there = propane();
    gas::Reading reading = inAir(there, 0.10);
    reading.response_factor = 0.5;
    QVERIFY(near(*gas::meaningOf(reading).of_basis, 0.10, 1e-12));
    reading.response_factor = 1.3;
    QVERIFY(near(*gas::meaningOf(reading).of_basis, 0.13, 1e-12));
}

void MeterTest::impossibleDisplays()
{
    const gas::Substance there = propane();
    QVERIFY(has(gas::meaningOf(inAir(there, 1.01)), Doubt::OverRange));
    QVERIFY(has(gas::meaningOf(inAir(there, -0.01)), Doubt::Negative));
    QVERIFY(gas::meaningOf(inAir(there, 0.0)).believable());
}

void MeterTest::unknownSubstance()
{
    gas::Reading reading;
    reading.oxygen = 0.209;
    const gas::Meaning meaning = gas::meaningOf(reading);
    QVERIFY(has(meaning, Doubt::UnknownSubstance));
    QVERIFY(!meaning.share);
}

// An air receiver: no limit to compare with, and no response factor to miss.
void MeterTest::gasThatDoesNotBurn()
{
    gas::Substance air;
    air.id = "air";
    air.molar_mass_kg_mol = 0.028965;
    const gas::Substance cal = methane();
    gas::Reading reading = inAir(air, 0.0);
    reading.calibrated_on = &cal;
    const gas::Meaning meaning = gas::meaningOf(reading);
    QVERIFY(meaning.believable());
    QVERIFY(!meaning.of_lowest);
}

void MeterTest::basisBelowEveryPublishedLimit()
{
    const gas::Substance there = propane();
    gas::Reading reading = inAir(there, 0.10);
    reading.limit_basis = 0.0021; // 0.21 % typed for 2.1 %
    const gas::Meaning meaning = gas::meaningOf(reading);
    QVERIFY(has(meaning, Doubt::BasisTooLow));
    QVERIFY(*meaning.of_lowest >= 0.10);
    reading.limit_basis = 0.017;
    QVERIFY(gas::meaningOf(reading).believable());
}

// Whatever is said of the meter: what decisions rest on is never below the display after its factor, a larger factor, display
// or basis never means less gas, and taking the oxygen reading away never makes a reading believable.
void MeterTest::decisionsNeverRestOnLessThanShown()
{
    std::mt19937_64 random(20260614);
    std::uniform_real_distribution<double> unit(0.0, 1.0);
    const std::vector<gas::Substance> table{propane(), butane(), methane(), hydrogen(), gasoline()};
    for (int i = 0; i < 20'000; ++i) {
        gas::Reading reading = inAir(table[random() % table.size()], unit(random));
        reading.calibrated_on = &table[random() % table.size()];
        reading.response_factor = 0.5 + 3 * unit(random);
        reading.limit_basis = 0.005 + 0.06 * unit(random);
        reading.oxygen = 0.30 * unit(random);
        reading.sensor = random() % 2 == 0 ? gas::Sensor::Catalytic : gas::Sensor::Infrared;
        const gas::Meaning meaning = gas::meaningOf(reading);
        QVERIFY(*meaning.of_lowest >= *meaning.of_basis);
        gas::Reading more = reading;
        more.display += 0.1;
        QVERIFY(*gas::meaningOf(more).of_lowest >= *meaning.of_lowest);
        more = reading;
        more.response_factor = *reading.response_factor * 1.2;
        QVERIFY(*gas::meaningOf(more).of_lowest >= *meaning.of_lowest);
        more = reading;
        more.limit_basis = *reading.limit_basis * 1.2;
        QVERIFY(*gas::meaningOf(more).of_lowest >= *meaning.of_lowest);
        gas::Reading less = reading;
        less.oxygen.reset();
        QVERIFY(!gas::meaningOf(less).believable());
        if (meaning.believable()) {
            QVERIFY(*reading.oxygen >= 0.195 - 1e-9 && *reading.oxygen <= 0.230 + 1e-9);
        }
    }
}

BRIMFUL_SUITE(MeterTest);
#include "meter_test.moc"
