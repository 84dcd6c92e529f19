// Limiting oxygen, in-service and out-of-service limits, and paths through the flammability diagram.
#include "core/gas/diagram.h"
#include "core/gas/inerting.h"

#include "tests/core/gas/gases.h"
#include "tests/support/suite.h"

#include <QTest>

#include <functional>
#include <random>

using namespace brimful;
using namespace brimful::test;
using gas::Basis;
using gas::State;

namespace {

gas::ServiceLimits designOf(const gas::Substance& substance)
{
    const double lower = substance.widestRange()->lower;
    return gas::serviceLimits(lower, *substance.oxygen_moles, *substance.limiting_oxygen_nitrogen);
}

gas::Zone nominal() { return *gas::zoneOf(propane(), Basis::Nfpa); }

// Between a value where `is` holds and one where it does not.
double bisect(double holds, double fails, const std::function<bool(double)>& is)
{
    for (int i = 0; i < 80; ++i) {
        const double middle = (holds + fails) / 2;
        (is(middle) ? holds : fails) = middle;
    }
    return holds;
}

} // namespace

class InertingTest : public QObject {
    Q_OBJECT
private slots:
    void limitingOxygenFromStoichiometry();
    void adjusted();
    void carbonDioxideNeverBelowNitrogen();
    void limitingOxygenIsTheLowest();
    void noLimitingOxygenWhereNothingInerts();
    void servicePropane();
    void serviceTable_data();
    void serviceTable();
    void eachFormAloneFailsSomewhere();
    void nominalZone();
    void publishedPaths_data();
    void publishedPaths();
    void startsInside();
    void bisectionMeetsTheFormulas();
    void lowestBasisHoldsTheOthers();
    void lowestBasisNeverGrantsMore();
    void acetyleneHasNoZone();
    void runningAlongAnEdge();
};

// Textbook example (memory): butane 6.5 x 1.9 = 12.35, printed 12.4 (tolerance 0.05). Propane 5 x 2.1 = 10.5, which is what
// ASTM E2079-19 measured in its 20 L vessel.
void InertingTest::limitingOxygenFromStoichiometry()
{
    QVERIFY(near(gas::estimatedLimitingOxygen(6.5, 0.019) * 100, 12.4, 0.05 + 1e-9));
    QVERIFY(near(gas::estimatedLimitingOxygen(5, 0.021), 0.105, 1e-12));
}

// NFPA 69 (2014) 7.2.3.1.2 and its proposed amendment: 11.5 to 10.0 or 9.5, 5 to 4.25.
void InertingTest::adjusted()
{
    QVERIFY(near(gas::adjustedLimitingOxygen(0.115), 0.100, 1e-12));
    QVERIFY(near(gas::adjustedLimitingOxygen(0.115, 0.02), 0.095, 1e-12));
    QVERIFY(near(gas::adjustedLimitingOxygen(0.05), 0.0425, 1e-12));
    QVERIFY(near(gas::adjustedLimitingOxygen(0.10, 0.02), 0.08, 1e-12)); // "10 or more" loses the 2 %, not 15 parts in 100
    QVERIFY(near(gas::adjustedWithCarbonDioxide(0.145, 0.10), 0.13, 1e-12));
}

void InertingTest::carbonDioxideNeverBelowNitrogen() { QCOMPARE(gas::adjustedWithCarbonDioxide(0.052, 0.0442 + 0.01), 0.0442 + 0.01); }

void InertingTest::limitingOxygenIsTheLowest()
{
    QVERIFY(near(*gas::limitingOxygen(propane(), 0.021), 0.105, 1e-12)); // E2079 and 5 x 2.1 alike
    QVERIFY(near(*gas::limitingOxygen(propane(), 0.017), 0.085, 1e-12));
    QVERIFY(near(*gas::limitingOxygen(gasoline(), 0.014), 0.12, 1e-12)); // the estimate would say 17.5 %
    QVERIFY(near(*gas::limitingOxygen(hydrogen(), 0.04), 0.02, 1e-12)); // tested 4.6: the estimate is the stricter
    QVERIFY(near(*gas::limitingOxygen(butane(), 0.019), 0.12, 1e-12));
}

void InertingTest::noLimitingOxygenWhereNothingInerts()
{
    gas::Substance acetylene = named("acetylene", 0.025, 1.0);
    acetylene.oxygen_moles = 2.5;
    acetylene.limiting_oxygen_nitrogen = 0.05;
    QVERIFY(!gas::limitingOxygen(acetylene, 0.025));
    gas::Substance ammonia = named("ammonia", 0.15, 0.28);
    ammonia.oxygen_moles = 0.75;
    QVERIFY(!gas::limitingOxygen(ammonia, 0.15));
}

// Textbook formulas with air of 21 % (memory; geometry derived again below), tolerance 1e-3 of a percent.
void InertingTest::servicePropane()
{
    QVERIFY(near(gas::outOfServiceByLower(0.021, 5) * 100, 4.200, 1e-3));
    QVERIFY(near(gas::outOfServiceByOxygen(0.115, 5) * 100, 5.084, 1e-3));
    QVERIFY(near(gas::outOfServiceByLower(0.017, 5) * 100, 2.856, 1e-3));
    QVERIFY(near(gas::inServiceByLower(0.021, 5) * 100, 10.725, 1e-3));
    QVERIFY(near(gas::inServiceByOxygen(0.115, 5) * 100, 11.771, 1e-3));
    QVERIFY(near(gas::outOfServiceByOxygen(0.107, 5) * 100, 4.363, 1e-3));
    QVERIFY(near(gas::outOfServiceByOxygen(0.095, 5) * 100, 3.470, 1e-3));
    QVERIFY(near(gas::inServiceByOxygen(0.107, 5) * 100, 10.934, 1e-3));
    QVERIFY(near(gas::inServiceByOxygen(0.095, 5) * 100, 9.684, 1e-3));
}

// Both forms for four gases, worked by hand in percent: lower limit, moles, limiting oxygen, in and out of service by either.
void InertingTest::serviceTable_data()
{
    for (const char* column : {"lower", "moles", "oxygen", "in_lower", "in_oxygen", "out_lower", "out_oxygen"}) {
        QTest::addColumn<double>(column);
    }
    QTest::newRow("methane") << 5.0 << 2.0 << 12.0 << 10.526 << 12.766 << 9.545 << 14.000;
    QTest::newRow("propane") << 2.1 << 5.0 << 11.5 << 10.725 << 11.771 << 4.200 << 5.084;
    QTest::newRow("n-butane") << 1.9 << 6.5 << 12.0 << 12.589 << 12.226 << 4.613 << 4.308;
    QTest::newRow("hydrogen") << 4.0 << 0.5 << 5.0 << 2.083 << 5.556 << 4.421 << 13.125;
    QTest::newRow("methane, IEC") << 4.4 << 2.0 << 12.0 << 9.205 << 12.766 << 7.574 << 14.000;
    QTest::newRow("n-butane, IEC") << 1.4 << 6.5 << 12.0 << 9.229 << 12.226 << 2.471 << 4.308;
}

void InertingTest::serviceTable()
{
    QFETCH(double, lower);
    QFETCH(double, moles);
    QFETCH(double, oxygen);
    QFETCH(double, in_lower);
    QFETCH(double, in_oxygen);
    QFETCH(double, out_lower);
    QFETCH(double, out_oxygen);
    QVERIFY(near(gas::inServiceByLower(lower / 100, moles) * 100, in_lower, 1e-3));
    QVERIFY(near(gas::inServiceByOxygen(oxygen / 100, moles) * 100, in_oxygen, 1e-3));
    QVERIFY(near(gas::outOfServiceByLower(lower / 100, moles) * 100, out_lower, 1e-3));
    QVERIFY(near(gas::outOfServiceByOxygen(oxygen / 100, moles) * 100, out_oxygen, 1e-3));
    const gas::ServiceLimits both = gas::serviceLimits(lower / 100, moles, oxygen / 100);
    QVERIFY(near(both.out_of_service * 100, std::min(out_lower, out_oxygen), 1e-3));
    QVERIFY(near(both.in_service * 100, std::min(in_lower, in_oxygen), 1e-3));
}

// Hydrogen 4.421 %, not the 13.125 of its limiting oxygen; gasoline 2.240 %, not the 8.40 of its lower limit.
void InertingTest::eachFormAloneFailsSomewhere()
{
    QVERIFY(near(designOf(hydrogen()).out_of_service * 100, 4.421, 1e-3));
    QVERIFY(near(gas::outOfServiceByOxygen(0.05, 0.5) * 100, 13.125, 1e-3));
    QVERIFY(near(designOf(gasoline()).out_of_service * 100, 2.240, 1e-3));
    QVERIFY(near(gas::outOfServiceByLower(0.014, 12.5) * 100, 8.40, 1e-2));
    QVERIFY(near(designOf(propane()).out_of_service * 100, 2.856, 1e-3));
}

// Propane on NFPA 497, the tube's limiting oxygen and limits in oxygen from memory: corners worked by hand, percent.
void InertingTest::nominalZone()
{
    const std::array wanted{State{2.3, 97.7}, State{2.1, 20.51005}, State{2.3, 11.5}, State{9.5, 18.95975}, State{55, 45}};
    const gas::Zone zone = nominal();
    QCOMPARE(zone.corners.size(), wanted.size());
    for (std::size_t i = 0; i < wanted.size(); ++i) {
        QVERIFY(near(zone.corners[i].fuel * 100, wanted[i].fuel, 1e-9));
        QVERIFY(near(zone.corners[i].oxygen * 100, wanted[i].oxygen, 1e-9));
    }
}

// On that zone, worked by hand (fuel, oxygen in percent; tolerance 0.005): where each path goes in and comes out; -1: it does not.
void InertingTest::publishedPaths_data()
{
    for (const char* column : {"fuel", "oxygen", "to_fuel", "to_oxygen", "in_fuel", "in_oxygen", "out_fuel", "out_oxygen"}) {
        QTest::addColumn<double>(column);
    }
    QTest::newRow("all propane into air") << 100.0 << 0.0 << 0.0 << 20.95 << 9.5 << 18.96 << 2.1 << 20.51;
    QTest::newRow("all propane into nitrogen") << 100.0 << 0.0 << 0.0 << 0.0 << -1.0 << 0.0 << 0.0 << 0.0;
    QTest::newRow("20 % into air") << 20.0 << 0.0 << 0.0 << 20.95 << 5.679 << 15.001 << 2.140 << 18.708;
    QTest::newRow("10 % into air") << 10.0 << 0.0 << 0.0 << 20.95 << 3.779 << 13.033 << 2.192 << 16.357;
    QTest::newRow("6 % into air") << 6.0 << 0.0 << 0.0 << 20.95 << 2.613 << 11.825 << 2.266 << 13.038;
    QTest::newRow("5.2 % into air") << 5.2 << 0.0 << 0.0 << 20.95 << 2.336 << 11.538 << 2.296 << 11.702;
    QTest::newRow("5.0 % into air") << 5.0 << 0.0 << 0.0 << 20.95 << -1.0 << 0.0 << 0.0 << 0.0;
    QTest::newRow("11 % oxygen into propane") << 0.0 << 11.0 << 100.0 << 0.0 << -1.0 << 0.0 << 0.0 << 0.0;
    QTest::newRow("12.5 % oxygen into propane") << 0.0 << 12.5 << 100.0 << 0.0 << 2.284 << 12.214 << 2.914 << 12.136;
}

void InertingTest::publishedPaths()
{
    QFETCH(double, fuel);
    QFETCH(double, oxygen);
    QFETCH(double, to_fuel);
    QFETCH(double, to_oxygen);
    QFETCH(double, in_fuel);
    QFETCH(double, in_oxygen);
    QFETCH(double, out_fuel);
    QFETCH(double, out_oxygen);
    const auto got = gas::crossing(nominal(), State{fuel / 100, oxygen / 100}, State{to_fuel / 100, to_oxygen / 100});
    QCOMPARE(got.has_value(), in_fuel >= 0);
    if (got) {
        QVERIFY(near(got->enters.fuel * 100, in_fuel, 0.005));
        QVERIFY(near(got->enters.oxygen * 100, in_oxygen, 0.005));
        QVERIFY(near(got->leaves.fuel * 100, out_fuel, 0.005));
        QVERIFY(near(got->leaves.oxygen * 100, out_oxygen, 0.005));
    }
}

// 5 % propane in air, nitrogen added: it is inside from the start and leaves at (3.096, 12.325).
void InertingTest::startsInside()
{
    const State start{0.05, 0.2095 * 0.95};
    QVERIFY(gas::holds(nominal(), start));
    const auto got = gas::crossing(nominal(), start, gas::kInert);
    QVERIFY(near(got->enters.fuel, start.fuel, 1e-12));
    QVERIFY(near(got->leaves.fuel * 100, 3.096, 0.005));
    QVERIFY(near(got->leaves.oxygen * 100, 12.325, 0.005));
    QVERIFY(!gas::holds(nominal(), State{0.01, 0.20}));
    QVERIFY(!gas::holds(nominal(), gas::kAir));
    QVERIFY(gas::holds(nominal(), State{0.023, 0.115})); // the nose itself
}

// The geometry and the closed formulas are two ways to one number: 5.0989 and 11.7707 % (air 20.95 %).
void InertingTest::bisectionMeetsTheFormulas()
{
    const gas::Zone zone = nominal();
    const double out = bisect(0.0, 0.10, [&](double fuel) { return !gas::crossing(zone, State{fuel, 0.0}, gas::kAir); });
    QVERIFY(near(out, gas::outOfServiceByOxygen(0.115, 5, gas::kAirOxygen), 1e-9));
    QVERIFY(near(out * 100, 5.0989, 1e-4));
    const double in = bisect(0.0, 0.20, [&](double oxygen) { return !gas::crossing(zone, State{0.0, oxygen}, State{1.0, 0.0}); });
    QVERIFY(near(in, gas::inServiceByOxygen(0.115, 5), 1e-9));
    QVERIFY(near(in * 100, 11.7707, 1e-4));
}

// What burns on one document's limits burns on the lowest of all, for air and thinner.
void InertingTest::lowestBasisHoldsTheOthers()
{
    std::mt19937_64 random(11);
    std::uniform_real_distribution<double> unit(0.0, 1.0);
    for (const gas::Substance& substance : {propane(), butane(), methane(), hydrogen(), gasoline()}) {
        const gas::Zone widest = *gas::zoneOf(substance, Basis::Lowest);
        for (const Basis basis : {Basis::Nfpa, Basis::Iec}) {
            const gas::Zone one = *gas::zoneOf(substance, basis);
            for (int i = 0; i < 4'000; ++i) {
                const double fuel = unit(random);
                const State state{fuel, unit(random) * gas::kAirOxygen * (1 - fuel)};
                QVERIFY(!gas::holds(one, state) || gas::holds(widest, state));
            }
        }
    }
}

void InertingTest::lowestBasisNeverGrantsMore()
{
    std::mt19937_64 random(13);
    std::uniform_real_distribution<double> unit(0.0, 1.0);
    for (const gas::Substance& substance : {propane(), butane(), methane(), hydrogen(), gasoline()}) {
        const gas::Zone widest = *gas::zoneOf(substance, Basis::Lowest);
        for (const Basis basis : {Basis::Nfpa, Basis::Iec}) {
            const gas::Zone one = *gas::zoneOf(substance, basis);
            for (int i = 0; i < 4'000; ++i) {
                const double fuel = unit(random);
                const State from{fuel, unit(random) * gas::kAirOxygen * (1 - fuel)};
                const State to = random() % 2 == 0 ? gas::kAir : gas::kInert;
                QVERIFY(!gas::crossing(one, from, to) || gas::crossing(widest, from, to));
            }
        }
    }
}

void InertingTest::acetyleneHasNoZone()
{
    gas::Substance acetylene = named("acetylene", 0.025, 1.0);
    acetylene.oxygen_moles = 2.5;
    acetylene.limiting_oxygen_nitrogen = 0.05;
    for (const Basis basis : {Basis::Lowest, Basis::Nfpa}) {
        QVERIFY(!gas::zoneOf(acetylene, basis));
    }
    QVERIFY(!gas::zoneOf(propane(), Basis::Iec)->corners.empty());
    gas::Substance nitrogen;
    QVERIFY(!gas::zoneOf(nitrogen, Basis::Lowest));
}

void InertingTest::runningAlongAnEdge()
{
    const gas::Zone square{{{0.2, 0.2}, {0.4, 0.2}, {0.4, 0.4}, {0.2, 0.4}}, true};
    const auto got = gas::crossing(square, State{0.0, 0.2}, State{1.0, 0.2});
    QVERIFY(got.has_value());
    QVERIFY(near(got->enters.fuel, 0.2, 1e-12) && near(got->leaves.fuel, 0.4, 1e-12));
    const auto corner = gas::crossing(square, State{0.0, 0.4}, State{0.4, 0.0});
    QVERIFY(corner && near(corner->enters.fuel, 0.2, 1e-12) && near(corner->leaves.fuel, 0.2, 1e-12));
    QVERIFY(!gas::crossing(square, State{0.0, 0.39}, State{0.39, 0.0}));
    QVERIFY(!gas::crossing(square, State{0.0, 0.3}, State{0.1, 0.3}));
}

BRIMFUL_SUITE(InertingTest);
#include "inerting_test.moc"
