// Reactions against statics worked by hand, and what must hold of any load on any supports.
#include "core/water/support.h"

#include "core/water/density.h"
#include "core/water/level.h"
#include "tests/core/vessel/inches.h"
#include "tests/support/suite.h"

#include <QTest>
#include <rapidcheck.h>

#include <cmath>
#include <numbers>

using namespace brimful;
using namespace brimful::test;
using namespace brimful::water;

namespace {

constexpr double kGravity = 9.80665;

Angle degrees(double value) { return quantity::radians(value * std::numbers::pi / 180); }
Density density(double value) { return value * boost::units::si::kilogram / boost::units::si::cubic_metre; }
const Shell& tank()
{
    static const Shell shell = insideShell(30, 62, hemispherical());
    return shell;
}
Carried carried(const Shell& shell, double pitch, const Steel& steel, Length level, const std::vector<Length>& supports)
{
    return carry(shell, {degrees(pitch), degrees(0)}, steel, density(1000), level, supports).value();
}

} // namespace

class SupportTest : public QObject {
    Q_OBJECT
private slots:
    void reactions_data();
    void reactions();
    void heavyAndOffCentre();
    void waterRunsToTheLowEnd_data();
    void waterRunsToTheLowEnd();
    void partlyFullIsWorse();
    void threeSupports();
    void tips();
    void steelOfUnlikeHeads();
    void headAndSlingAndIce();
    void refusals();
    void forcesBalance();
    void mirrored();
};

// Weight 1000, supports at 10 and 52 in, centre at 31, outside radius 15 in: R2 = W (Xg - X1) / (X2 - X1), X = x cos - y sin. By hand.
void SupportTest::reactions_data()
{
    QTest::addColumn<double>("pitch");
    QTest::addColumn<double>("left");
    QTest::addColumn<double>("right");
    QTest::newRow("level") << 0.0 << 500.0 << 500.0;
    QTest::newRow("1 deg") << 1.0 << 506.23 << 493.77;
    QTest::newRow("2 deg") << 2.0 << 512.47 << 487.53;
    QTest::newRow("5 deg") << 5.0 << 531.246 << 468.754;
    QTest::newRow("10 deg") << 10.0 << 562.97 << 437.03;
    QTest::newRow("-5 deg") << -5.0 << 468.754 << 531.246;
}

void SupportTest::reactions()
{
    QFETCH(double, pitch);
    QFETCH(double, left);
    QFETCH(double, right);
    const Steel steel{quantity::kilograms(1000 / kGravity), inches(31)};
    const Carried got = carried(tank(), pitch, steel, lowestPoint(tank(), degrees(pitch)), {inches(10), inches(52)});
    QVERIFY2(std::abs(got.reactions[0].now.value() - left) <= 6e-3, qPrintable(QString::number(got.reactions[0].now.value(), 'g', 9)));
    QVERIFY(std::abs(got.reactions[1].now.value() - right) <= 6e-3);
    QVERIFY(std::abs(got.slidesBelowFriction - std::abs(std::tan(pitch * std::numbers::pi / 180))) <= 1e-12);
    // In the other order the same places carry the same.
    const Carried other = carried(tank(), pitch, steel, lowestPoint(tank(), degrees(pitch)), {inches(52), inches(10)});
    QVERIFY(std::abs((other.reactions[1].now - got.reactions[0].now).value()) <= 1e-9);
}

// Weight 2392, centre at 26 in, level: by hand.
void SupportTest::heavyAndOffCentre()
{
    const Steel steel{quantity::kilograms(2392 / kGravity), inches(26)};
    const Carried got = carried(tank(), 0, steel, inches(-15), {inches(10), inches(52)});
    QVERIFY(std::abs(got.reactions[0].now.value() - 1480.76) <= 6e-3);
    QVERIFY(std::abs(got.reactions[1].now.value() - 911.24) <= 6e-3);
}

// Half full and pitched, the water's centre along the axis; worked by slices in another program.
void SupportTest::waterRunsToTheLowEnd_data()
{
    QTest::addColumn<double>("pitch");
    QTest::addColumn<double>("centre");
    QTest::newRow("level") << 0.0 << 31.00;
    QTest::newRow("2 deg") << 2.0 << 29.08;
    QTest::newRow("5 deg") << 5.0 << 26.26;
}

void SupportTest::waterRunsToTheLowEnd()
{
    QFETCH(double, pitch);
    QFETCH(double, centre);
    const Length half = heightFor(tank(), degrees(pitch), tank().capacity() / 2.0);
    QVERIFY2(std::abs(inInches(below(tank(), degrees(pitch), half).centroid) - centre) <= 6e-3, "");
}

// At 5 degrees the lower support carries a greater share of the half-full vessel than of the full one, and the worst over the
// fill is never less than either end of it.
void SupportTest::partlyFullIsWorse()
{
    const Shell shell = vessel::Shell::make(outsideSize(30, 92, 0.25, hemispherical())).value();
    const Steel steel = plainSteel(shell);
    const std::vector<Length> supports{inches(10), inches(51)};
    const Length half = heightFor(shell, degrees(5), shell.capacity() / 2.0);
    const Carried some = carried(shell, 5, steel, half, supports);
    const Carried full = carried(shell, 5, steel, highestPoint(shell, degrees(5)), supports);
    QVERIFY(some.reactions[0].now / some.weight > full.reactions[0].now / full.weight);
    QVERIFY(full.reactions[0].most >= full.reactions[0].now);
    QVERIFY(full.reactions[0].most >= some.reactions[0].most);
    // The right support is relieved while the low end fills: at some level it carries less than empty or full.
    QVERIFY(full.reactions[1].least.value() < std::min(full.reactions[1].now.value(), steel.mass.value() * kGravity * 0.5));
}

// Three supports: the most that one may have to carry is the most over every way to share the load; counted on a grid of all
// loads of the middle one.
void SupportTest::threeSupports()
{
    const Steel steel{quantity::kilograms(1000 / kGravity), inches(28)};
    const std::vector<Length> supports{inches(5), inches(33), inches(55)};
    const Carried got = carried(tank(), 0, steel, inches(-15), supports);
    QVERIFY(!got.determinate);
    std::array<double, 3> most{};
    std::array<double, 3> least{1e9, 1e9, 1e9};
    for (int i = 0; i <= 10000; ++i) {
        const double middle = 1000.0 * i / 10000;
        const double right = (1000 * (28 - 5) - middle * (33 - 5)) / (55 - 5);
        const double left = 1000 - middle - right;
        if (left < 0 || right < 0) {
            continue;
        }
        const std::array all{left, middle, right};
        for (std::size_t j = 0; j < 3; ++j) {
            most.at(j) = std::max(most.at(j), all.at(j));
            least.at(j) = std::min(least.at(j), all.at(j));
        }
    }
    for (std::size_t j = 0; j < 3; ++j) {
        QVERIFY(std::abs(got.reactions[j].most.value() - most.at(j)) <= 0.2);
        QVERIFY(std::abs(got.reactions[j].least.value() - least.at(j)) <= 0.2);
    }
}

void SupportTest::tips()
{
    const Steel steel{quantity::kilograms(200), inches(31)};
    const Carried one_side = carried(tank(), 0, steel, inches(-15), {inches(2), inches(25)});
    QVERIFY(one_side.tips && !one_side.tipsAt);
    QVERIFY(one_side.reactions[0].least.value() < 0);
    QVERIFY(!carried(tank(), 0, steel, inches(15), {inches(10), inches(52)}).tips);
    // Empty it stands on supports that reach a little beyond its middle; pitched the first water goes to the low end: it tips later.
    const Carried later = carried(tank(), 3, steel, highestPoint(tank(), degrees(3)), {inches(29), inches(52)});
    QVERIFY(later.tips && later.tipsAt);
    QVERIFY(*later.tipsAt > lowestPoint(tank(), degrees(3)));
}

// A flat end on the left, a hemisphere on the right, wall 1/4 in: centre of the steel by hand from its three thin parts, whose
// middle surfaces are a disc, a cylinder and a half sphere (thin-wall: within 1 %).
void SupportTest::steelOfUnlikeHeads()
{
    vessel::Size size = insideSize(30, 62, flat(), hemispherical());
    size.wall = inches(0.25);
    const Shell shell = vessel::Shell::make(size).value();
    const double r = 15.125;
    const double disc = std::numbers::pi * r * r;
    const double cylinder = 2 * std::numbers::pi * r * 62;
    const double half = 2 * std::numbers::pi * r * r;
    const double centre = (disc * -0.125 + cylinder * 31 + half * (62 + r / 2)) / (disc + cylinder + half);
    QVERIFY2(std::abs(inInches(plainSteel(shell).centre) - centre) <= 0.3, qPrintable(QString::number(inInches(plainSteel(shell).centre))));
}

// 30 in of water at 15 degC: 7.47 kPa, rho g h. A sling at 60, 45, 30 degrees: 0.577, 0.707, 1.0 of the weight. Ice 9.05 % larger.
void SupportTest::headAndSlingAndIce()
{
    const Density water = water::density(quantity::Temperature(288.15)).value();
    QVERIFY(std::abs(headOver(inches(15), inches(-15), water).value() - 7470) <= 5);
    QCOMPARE(headOver(inches(-15), inches(15), water).value(), 0.0);
    for (const auto& [angle, share] : {std::pair(60.0, 0.577), {45.0, 0.707}, {30.0, 1.0}}) {
        const double leg = slingLeg(quantity::kilograms(100), degrees(angle)).value() / (100 * kGravity);
        QVERIFY(std::abs(leg - share) <= 5e-4);
    }
    QVERIFY(std::abs(100 * kIceGrowth - 9.05) <= 0.05);
}

void SupportTest::refusals()
{
    const Steel steel{quantity::kilograms(200), inches(31)};
    const auto fault = [&](double pitch, const std::vector<Length>& supports) {
        return carry(tank(), {degrees(pitch), degrees(0)}, steel, density(1000), inches(0), supports).error();
    };
    QCOMPARE(fault(0, {inches(10)}), SupportFault::FewerThanTwo);
    QCOMPARE(fault(0, {inches(1), inches(2), inches(3), inches(4)}), SupportFault::MoreThanThree);
    QCOMPARE(fault(0, {inches(10), inches(10.01)}), SupportFault::SamePlace);
    QCOMPARE(fault(0, {inches(-1), inches(10)}), SupportFault::OffTheShell);
    QCOMPARE(fault(0, {inches(10), inches(62.5)}), SupportFault::OffTheShell);
    QCOMPARE(fault(31, {inches(10), inches(52)}), SupportFault::TooSteep);
}

// Any vessel, level, pitch: the reactions make up the weight and their moments balance about the centre of gravity, which is
// added up here from a rain of points.
void SupportTest::forcesBalance()
{
    const bool held = rc::check([] {
        const auto number = [](int low, int high) { return static_cast<double>(*rc::gen::inRange(low, high)); };
        const Shell shell = insideShell(number(10, 60), number(30, 200), *rc::gen::arbitrary<bool>() ? hemispherical() : twoToOne());
        const double pitch = number(-100, 101) / 10;
        const double length = inInches(shell.length());
        const std::vector<Length> supports{inches(length * number(0, 45) / 100), inches(length * number(55, 101) / 100)};
        const Steel steel{quantity::kilograms(number(50, 2000)), shell.length() / 2.0};
        const Length low = lowestPoint(shell, degrees(pitch));
        const Length level = low + (number(10, 91) / 100) * (highestPoint(shell, degrees(pitch)) - low);
        const Carried got = carried(shell, pitch, steel, level, supports);
        const double sine = std::sin(degrees(pitch).value());
        const double cosine = std::cos(degrees(pitch).value());
        // Points on a lattice in the box around the vessel.
        const double r = shell.insideDiameter().get().value() / 2;
        constexpr int kAlong = 160;
        constexpr int kUp = 120;
        double volume = 0;
        double across = 0;
        const double from = shell.inside().from();
        const double step = (shell.inside().to() - from) / kAlong;
        for (int i = 0; i < kAlong; ++i) {
            const double x = from + step * (i + 0.5);
            const double radius = shell.inside().radius(x);
            for (int j = 0; j < kUp; ++j) {
                const double y = -r + 2 * r * (j + 0.5) / kUp;
                if (std::abs(y) < radius && x * sine + y * cosine < level.value()) {
                    const double part = 2 * std::sqrt(radius * radius - y * y) * step * 2 * r / kUp;
                    volume += part;
                    across += part * (x * cosine - y * sine);
                }
            }
        }
        const double outside = shell.outsideDiameter().get().value() / 2;
        const auto at = [&](std::size_t i) { return supports[i].value() * cosine + outside * sine; };
        const double moments = got.reactions[0].now.value() * at(0) + got.reactions[1].now.value() * at(1);
        const double loads = kGravity * (steel.mass.value() * steel.centre.value() * cosine + 1000 * across);
        const double weight = kGravity * (steel.mass.value() + 1000 * volume);
        RC_ASSERT(std::abs((got.reactions[0].now + got.reactions[1].now - got.weight).value()) <= 1e-9 * weight);
        RC_ASSERT(std::abs(got.weight.value() - weight) <= 0.01 * weight);
        RC_ASSERT(std::abs(moments - loads) <= 0.01 * weight * shell.overallLength().value());
        for (const Reaction& reaction : got.reactions) {
            RC_ASSERT(reaction.least.value() <= reaction.now.value() + 1e-9 * weight);
            RC_ASSERT(reaction.most.value() >= reaction.now.value() - 1e-9 * weight);
        }
    });
    QVERIFY(held);
}

// Pitched the other way the two supports change places.
void SupportTest::mirrored()
{
    const Steel steel{quantity::kilograms(210), inches(31)};
    const Carried up = carried(tank(), 4, steel, inches(6), {inches(12), inches(50)});
    const Length same = heightFor(tank(), degrees(-4), below(tank(), degrees(4), inches(6)).volume);
    const Carried down = carried(tank(), -4, steel, same, {inches(12), inches(50)});
    QVERIFY(std::abs((up.reactions[0].now - down.reactions[1].now).value()) <= 1e-6);
    QVERIFY(std::abs((up.reactions[0].most - down.reactions[1].most).value()) <= 1e-3);
    QVERIFY(std::abs((up.reactions[1].least - down.reactions[0].least).value()) <= 1e-3);
}

BRIMFUL_SUITE(SupportTest);
#include "support_test.moc"
