// Doors turned by brute force: every place of the free edge is carried round the pin in small steps, and how far it goes past the
// shell's edge while it is still within the wall is what the gap must be.
#include "core/layout/swing.h"

#include "tests/core/vessel/inches.h"
#include "tests/support/suite.h"

#include <QTest>

#include <cmath>
#include <numbers>

using namespace brimful;
using namespace brimful::layout;

namespace {

constexpr double kPi = std::numbers::pi;

// In inches: across a section of the shell, the pin at the top.
double turnedAlong(double R, double r, double angle)
{
    double most = 0;
    for (int depth = 0; depth <= 40; ++depth) {
        const double radius = r + (R - r) * depth / 40;
        const double x = radius * std::sin(angle);
        const double z = radius * std::cos(angle) - R;
        for (int i = 0; i <= 20000; ++i) {
            const double t = kPi / 2 * i / 20000; // the free edge comes up
            const double there = x * std::cos(t) - z * std::sin(t);
            const double up = x * std::sin(t) + z * std::cos(t) + R;
            const double past = there * std::cos(angle) - up * std::sin(angle); // over the radial plane of the shell's edge
            const double out = there * std::sin(angle) + up * std::cos(angle); // along it
            if (out < R) {
                most = std::max(most, past);
            }
        }
    }
    return most;
}

// Along the shell, the pin square to it over the middle of the door's end.
double turnedAcross(double R, double r, double angle, double width)
{
    double most = 0;
    for (int place = 0; place <= 400; ++place) {
        const double off = angle / 2 * place / 400;
        const double under = R - r * std::cos(off);
        const double top = R - R * std::cos(off);
        for (int i = 0; i <= 20000; ++i) {
            const double t = kPi / 2 * i / 20000;
            const double there = width * std::cos(t) + under * std::sin(t);
            const double below = under * std::cos(t) - width * std::sin(t);
            if (below > top) {
                most = std::max(most, there - width);
            }
        }
    }
    return most;
}

Panel panel(double R, double wall, double along, double around, HingeSide hinge)
{
    const double k = test::kInch;
    return {R * k, wall * k, {.along = 10 * k, .alongTo = (10 + along) * k, .around = 20 * k, .aroundTo = (20 + around) * k}, hinge};
}

} // namespace

class SwingTest : public QObject {
    Q_OBJECT
private slots:
    void theFreeEdgePasses_data()
    {
        QTest::addColumn<double>("radius");
        QTest::addColumn<double>("wall");
        QTest::addColumn<double>("along");
        QTest::addColumn<double>("around");
        QTest::newRow("a door on a 30 in shell") << 15.0 << 0.25 << 36.0 << 20.0;
        QTest::newRow("a narrow hatch") << 15.0 << 0.25 << 12.0 << 2.0;
        QTest::newRow("narrow in a thick wall") << 12.0 << 1.0 << 6.0 << 3.0;
        QTest::newRow("wider than a quarter") << 15.0 << 0.25 << 40.0 << 27.8;
        QTest::newRow("short") << 15.0 << 0.5 << 4.0 << 30.0;
    }
    void theFreeEdgePasses()
    {
        QFETCH(double, radius);
        QFETCH(double, wall);
        QFETCH(double, along);
        QFETCH(double, around);
        for (const HingeSide side : {HingeSide::FirstLine, HingeSide::SecondLine}) {
            const double found = gapToTurn(panel(radius, wall, along, around, side)) / test::kInch;
            const double walked = turnedAlong(radius, radius - wall, around / radius);
            QVERIFY2(std::abs(found - walked) < 1e-4, qPrintable(QStringLiteral("%1 against %2").arg(found).arg(walked)));
        }
        for (const HingeSide side : {HingeSide::LeftEnd, HingeSide::RightEnd}) {
            const double found = gapToTurn(panel(radius, wall, along, around, side)) / test::kInch;
            const double walked = turnedAcross(radius, radius - wall, around / radius, along);
            QVERIFY2(std::abs(found - walked) < 2e-3, qPrintable(QStringLiteral("%1 against %2").arg(found).arg(walked)));
            QVERIFY(found > 0);
        }
    }

    void aWideDoorIsFreeAtOnce()
    {
        QCOMPARE(gapToTurn(panel(15, 0.25, 36, 20, HingeSide::FirstLine)), 0.0);
        QVERIFY(gapToTurn(panel(15, 0.25, 12, 1, HingeSide::FirstLine)) > 0);
    }

    // Its mirror image over the hinge line: as large, and the hinge line stays.
    void liesRightBack()
    {
        for (const HingeSide side : {HingeSide::FirstLine, HingeSide::SecondLine, HingeSide::LeftEnd, HingeSide::RightEnd}) {
            const Panel one = panel(15, 0.25, 30, 18, side);
            const Footprint back = turnedBack(one);
            QVERIFY(std::abs((back.alongTo - back.along) - 30 * test::kInch) < 1e-12);
            QVERIFY(std::abs((back.aroundTo - back.around) - 18 * test::kInch) < 1e-12);
            const double shared = side == HingeSide::FirstLine ? back.aroundTo - one.at.around
                : side == HingeSide::SecondLine                ? back.around - one.at.aroundTo
                : side == HingeSide::LeftEnd                   ? back.alongTo - one.at.along
                                                               : back.along - one.at.alongTo;
            QVERIFY(std::abs(shared) < 1e-12);
        }
    }
};
BRIMFUL_SUITE(SwingTest);
#include "swing_test.moc"
