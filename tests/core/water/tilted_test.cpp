// Tilted vessels: closed forms where there are any, values from other methods, and what must hold of every body.
#include "core/water/level.h"

#include "tests/core/vessel/inches.h"
#include "tests/support/suite.h"

#include <QTest>
#include <boost/math/quadrature/tanh_sinh.hpp>
#include <rapidcheck.h>

#include <algorithm>
#include <cmath>
#include <numbers>

using namespace brimful;
using namespace brimful::test;
using namespace brimful::water;
using quantity::radians;

namespace {

Angle degrees(double value) { return radians(value * std::numbers::pi / 180); }

// A tilted cylinder with flat ends has a closed form; written here on its own, in inches.
double tiltedFlat(double radius, double length, double height, double pitchDegrees)
{
    const double pitch = pitchDegrees * std::numbers::pi / 180;
    const auto form = [](double u) { return u * std::acos(u) - std::sqrt(1 - u * u) * (u * u + 2) / 3; };
    const double start = -(height / std::cos(pitch)) / radius;
    const double end = start + length * std::tan(pitch) / radius;
    const double a = std::clamp(start, -1.0, 1.0);
    const double b = std::clamp(end, -1.0, 1.0);
    const double full = std::min(length, std::max(0.0, (-1 - start) * radius / std::tan(pitch)));
    return radius * radius * radius / std::tan(pitch) * (form(b) - form(a)) + std::numbers::pi * radius * radius * full;
}

// Another way to the same volume: horizontal slabs of the plane of symmetry are avoided; each slice is a numerical chord sum.
double bySlices(const Shell& shell, double pitch, double height)
{
    boost::math::quadrature::tanh_sinh<double> outer(12);
    const double sine = std::sin(pitch);
    const double cosine = std::cos(pitch);
    double sum = 0;
    for (const vessel::Piece& piece : shell.inside().pieces()) {
        constexpr int kParts = 60;
        for (int i = 0; i < kParts; ++i) {
            const double low = piece.from + (piece.to - piece.from) * i / kParts;
            const double high = piece.from + (piece.to - piece.from) * (i + 1) / kParts;
            sum += outer.integrate(
                [&](double x) {
                    const double r = piece.radius(x);
                    const double y = std::clamp((height - x * sine) / cosine, -r, r);
                    const double angle = r > 0 ? std::acos(std::clamp(-y / r, -1.0, 1.0)) : 0;
                    return r * r * (angle - std::sin(angle) * std::cos(angle));
                },
                low, high, 1e-9);
        }
    }
    return sum;
}

Shell anyShell()
{
    const double diameter = static_cast<double>(*rc::gen::inRange(100, 1000)) / 10;
    const double length = static_cast<double>(*rc::gen::inRange(0, 2500)) / 10 + 0.1;
    const auto head = [&]() -> vessel::HeadSize {
        switch (*rc::gen::inRange(0, 6)) {
        case 0:
            return hemispherical();
        case 1:
            return twoToOne();
        case 2:
            return torispherical(1, 0.06);
        case 3:
            return torispherical(0.8, 0.154);
        case 4:
            return conical(diameter * 0.3);
        default:
            return flat();
        }
    };
    const auto left = head();
    return Shell::make(insideSize(diameter, length, left, head())).value();
}

double anyPitch() { return static_cast<double>(*rc::gen::inRange(-8990, 8991)) / 100; }

double anyHeight(const Shell& shell, Angle pitch)
{
    const double share = static_cast<double>(*rc::gen::inRange(1, 1000)) / 1000;
    const double low = lowestPoint(shell, pitch).value();
    return low + share * (highestPoint(shell, pitch).value() - low);
}

} // namespace

class TiltedTest : public QObject {
    Q_OBJECT
private slots:
    void values_data();
    void values();
    void sphereKnowsNoPitch();
    void closedFormOfTheFlatCylinder();
    void planeThroughTheMiddleHalves();
    void otherQuadrature();
    void whatIsBelowAndAboveIsAll();
    void monotone();
    void areaIsTheDerivative();
    void mirrored();
    void depthComesBack();
    void emptyAndFull();
};

// Tilted vessels in inches and gallons. Flat ends: the closed form (third row 2/(3 tan 40), in cubic units of the radius).
// Dished heads: worked by the same integral in another program, by Simpson slices in a third, and the first two of them
// within 0.012 % of a quasi-random count of 600,000 points.
void TiltedTest::values_data()
{
    QTest::addColumn<int>("head");
    QTest::addColumn<double>("height");
    QTest::addColumn<double>("pitch");
    QTest::addColumn<double>("gallons");
    QTest::newRow("flat, 0 in at 5 deg") << 0 << 0.0 << 5.0 << 73.26290417;
    QTest::newRow("flat, 5 in at 2 deg") << 0 << 5.0 << 2.0 << 126.03586801;
    QTest::newRow("flat, 20 in at 20 deg") << 0 << 20.0 << 20.0 << 157.27352755;
    QTest::newRow("hemispherical, 5 in at 4 deg") << 1 << 5.0 << 4.0 << 156.434428;
    QTest::newRow("hemispherical, 10 in at 5 deg") << 1 << 10.0 << 5.0 << 201.103579;
    QTest::newRow("hemispherical, -6 in at 12 deg") << 1 << -6.0 << 12.0 << 21.176240;
    QTest::newRow("2:1, 10 in at 5 deg") << 2 << 10.0 << 5.0 << 176.188047;
    QTest::newRow("flanged and dished, -5 in at 10 deg") << 3 << -5.0 << 10.0 << 23.095006;
}

void TiltedTest::values()
{
    QFETCH(int, head);
    QFETCH(double, height);
    QFETCH(double, pitch);
    QFETCH(double, gallons);
    const std::array<vessel::HeadSize, 4> heads{flat(), hemispherical(), twoToOne(), torispherical(1, 0.06)};
    const Shell shell = insideShell(30, 62, heads.at(static_cast<std::size_t>(head)));
    const double got = inGallons(below(shell, degrees(pitch), inches(height)).volume);
    QVERIFY2(std::abs(got - gallons) <= (head == 0 ? 1e-9 : 1e-6) * gallons, qPrintable(QString::number(got, 'g', 12)));
}

// Radius 15 in, level 7 in above the centre: the cap formula gives 11657.403140 in3 at any pitch.
void TiltedTest::sphereKnowsNoPitch()
{
    const Shell shell = insideShell(30, 0, hemispherical());
    for (const double pitch : {-90.0, -60.0, -12.5, -0.001, 0.0, 1.0, 45.0, 89.0, 89.95, 89.9999, 89.9999999, 90.0}) {
        const double got = inCubicInches(below(shell, degrees(pitch), inches(7)).volume);
        QVERIFY2(std::abs(got - 11657.403140) <= 1e-9 * got, qPrintable(QStringLiteral("%1 at %2").arg(got, 0, 'g', 12).arg(pitch)));
    }
}

void TiltedTest::closedFormOfTheFlatCylinder()
{
    const Shell unit = insideShell(2, 10, flat());
    const double wedge = inCubicInches(below(unit, degrees(40), inches(0)).volume);
    QVERIFY(std::abs(wedge - 2 / (3 * std::tan(40 * std::numbers::pi / 180))) <= 1e-9 * wedge);
    QVERIFY(std::abs(wedge - 0.7945023951) <= 1e-9 * wedge);
    QVERIFY(rc::check("any level, any pitch", [] {
        const double radius = static_cast<double>(*rc::gen::inRange(100, 3000)) / 100;
        const double length = static_cast<double>(*rc::gen::inRange(100, 20000)) / 100;
        const double pitch = static_cast<double>(*rc::gen::inRange(50, 8900)) / 100;
        const Shell shell = insideShell(2 * radius, length, flat());
        const double height = anyHeight(shell, degrees(pitch));
        const double got = inCubicInches(below(shell, degrees(pitch), quantity::metres(height)).volume);
        const double closed = tiltedFlat(radius, length, height / kInch, pitch);
        // The closed form is a difference of two numbers of the size of radius^3 / tan(pitch).
        const double lost = 1e-14 * std::pow(radius, 3) / std::tan(pitch * std::numbers::pi / 180);
        RC_ASSERT(std::abs(got - closed) <= 1e-10 * closed + lost);
    }));
}

void TiltedTest::planeThroughTheMiddleHalves()
{
    const Shell shell = insideShell(30, 62, hemispherical());
    for (const double pitch : {-90.0, -45.0, -3.0, 0.0, 3.0, 45.0, 90.0}) {
        const double height = 31 * std::sin(pitch * std::numbers::pi / 180);
        const double got = inGallons(below(shell, degrees(pitch), inches(height)).volume);
        QVERIFY2(std::abs(got - inGallons(shell.capacity()) / 2) <= 1e-9 * got, qPrintable(QString::number(pitch)));
    }
}

void TiltedTest::otherQuadrature()
{
    QVERIFY(rc::check("double-exponential slices in sixty parts give the same volume", [] {
        const Shell shell = anyShell();
        const double pitch = anyPitch() * std::numbers::pi / 180;
        const double height = anyHeight(shell, radians(pitch));
        const Below got = below(shell, radians(pitch), quantity::metres(height));
        const double other = bySlices(shell, pitch, height);
        RC_ASSERT(std::abs(got.volume.value() - other) <= 2e-7 * shell.capacity().value());
        RC_ASSERT(got.uncertainty.value() <= 1e-10 * shell.capacity().value());
    }));
}

void TiltedTest::whatIsBelowAndAboveIsAll()
{
    QVERIFY(rc::check("below + above = capacity", [] {
        const Shell shell = anyShell();
        const Angle pitch = degrees(anyPitch());
        const Length height = quantity::metres(anyHeight(shell, pitch));
        const Below under = below(shell, pitch, height);
        const Below over = above(shell, pitch, height);
        RC_ASSERT(std::abs((under.volume + over.volume - shell.capacity()).value()) <= 1e-10 * shell.capacity().value());
        RC_ASSERT(std::abs((under.surface - over.surface).value()) <= 1e-7 * (under.surface.value() + 1e-6));
    }));
}

void TiltedTest::monotone()
{
    QVERIFY(rc::check("more height never holds less", [] {
        const Shell shell = anyShell();
        const Angle pitch = degrees(anyPitch());
        const double one = anyHeight(shell, pitch);
        const double two = anyHeight(shell, pitch);
        const Volume low = below(shell, pitch, quantity::metres(std::min(one, two))).volume;
        const Volume high = below(shell, pitch, quantity::metres(std::max(one, two))).volume;
        RC_ASSERT(low.value() <= high.value() + 1e-12 * shell.capacity().value());
    }));
}

void TiltedTest::areaIsTheDerivative()
{
    QVERIFY(rc::check("surface = dV / dheight by central differences", [] {
        const Shell shell = anyShell();
        const Angle pitch = degrees(anyPitch());
        const double low = lowestPoint(shell, pitch).value();
        const double high = highestPoint(shell, pitch).value();
        const double height = anyHeight(shell, pitch);
        const double step = 2e-5 * (high - low);
        RC_PRE(height - low > 50 * step && high - height > 50 * step);
        const double up = below(shell, pitch, quantity::metres(height + step)).volume.value();
        const double down = below(shell, pitch, quantity::metres(height - step)).volume.value();
        const double surface = below(shell, pitch, quantity::metres(height)).surface.value();
        RC_ASSERT(std::abs((up - down) / (2 * step) - surface) <= 2e-3 * surface + 1e-9);
    }));
    // In the middle of a smooth body, far tighter.
    const Shell shell = insideShell(30, 62, hemispherical());
    const double step = 1e-5;
    const double up = below(shell, degrees(5), quantity::metres(0.1 + step)).volume.value();
    const double down = below(shell, degrees(5), quantity::metres(0.1 - step)).volume.value();
    const double surface = below(shell, degrees(5), quantity::metres(0.1)).surface.value();
    QVERIFY(std::abs((up - down) / (2 * step) - surface) <= 1e-6 * surface);
}

void TiltedTest::mirrored()
{
    QVERIFY(rc::check("the vessel turned end for end, pitched the other way, holds the same", [] {
        const double diameter = static_cast<double>(*rc::gen::inRange(100, 1000)) / 10;
        const double length = static_cast<double>(*rc::gen::inRange(0, 2500)) / 10 + 0.1;
        const auto shell = Shell::make(insideSize(diameter, length, hemispherical(), torispherical(1, 0.06)));
        const auto turned = Shell::make(insideSize(diameter, length, torispherical(1, 0.06), hemispherical()));
        const double pitch = anyPitch();
        const double height = anyHeight(*shell, degrees(pitch));
        const double moved = height - shell->length().value() * std::sin(pitch * std::numbers::pi / 180);
        const Below one = below(*shell, degrees(pitch), quantity::metres(height));
        const Below other = below(*turned, degrees(-pitch), quantity::metres(moved));
        RC_ASSERT(std::abs((one.volume - other.volume).value()) <= 1e-10 * shell->capacity().value());
        RC_ASSERT(std::abs((one.centroid + other.centroid - shell->length()).value()) <= 1e-6);
    }));
}

void TiltedTest::depthComesBack()
{
    QVERIFY(rc::check("level -> volume -> level", [] {
        const Shell shell = anyShell();
        const Angle pitch = degrees(anyPitch());
        const double height = anyHeight(shell, pitch);
        const Below here = below(shell, pitch, quantity::metres(height));
        const Length back = heightFor(shell, pitch, here.volume);
        RC_ASSERT(std::abs((below(shell, pitch, back).volume - here.volume).value()) <= 1e-10 * shell.capacity().value());
    }));
}

void TiltedTest::emptyAndFull()
{
    QVERIFY(rc::check("nothing at the lowest point, all at the highest, and no more beyond", [] {
        const Shell shell = anyShell();
        const Angle pitch = degrees(anyPitch());
        const double capacity = shell.capacity().value();
        RC_ASSERT(below(shell, pitch, lowestPoint(shell, pitch)).volume.value() <= 1e-12 * capacity);
        RC_ASSERT(std::abs(below(shell, pitch, highestPoint(shell, pitch)).volume.value() - capacity) <= 1e-12 * capacity);
        RC_ASSERT(below(shell, pitch, quantity::metres(-1000)).volume.value() == 0);
        RC_ASSERT(std::abs(below(shell, pitch, quantity::metres(1000)).volume.value() - capacity) <= 1e-12 * capacity);
    }));
}

BRIMFUL_SUITE(TiltedTest);
#include "tilted_test.moc"
