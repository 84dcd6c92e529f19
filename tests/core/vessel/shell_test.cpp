// Whole vessels: capacity and steel of known tanks, and sizes that are none.
#include "core/vessel/shell.h"

#include "tests/core/vessel/inches.h"
#include "tests/support/suite.h"

#include <QTest>
#include <rapidcheck.h>

#include <cmath>
#include <numbers>

using namespace brimful;
using namespace brimful::test;
using namespace brimful::vessel;

class ShellTest : public QObject {
    Q_OBJECT
private slots:
    void flatEndedTank();
    void capacities_data();
    void capacities();
    void overallThatHolds250();
    void steel_data();
    void steel();
    void threeDiametersAreKeptApart();
    void refuses_data();
    void refuses();
    void overallComesBack();
};

// Machinery's Handbook 31, p. 74: a flat-ended tank 6 ft across and 20 ft long holds 4230 gal.
void ShellTest::flatEndedTank()
{
    const double got = inGallons(insideShell(72, 240, flat()).capacity());
    QVERIFY2(std::abs(got - 4230) <= 0.5, qPrintable(QString::number(got)));
    QVERIFY(std::abs(got - 4230.134) <= 1e-3);
}

// Elementary geometry, worked by hand and by a second hand: pi/4 D^2 L + pi/6 D^3 for hemispherical heads, and so on.
void ShellTest::capacities_data()
{
    QTest::addColumn<double>("overall");
    QTest::addColumn<double>("wall");
    QTest::addColumn<bool>("hemi");
    QTest::addColumn<double>("gallons");
    QTest::newRow("30 x 72, no wall") << 72.0 << 0.0 << true << 189.7196;
    QTest::newRow("30 x 92, no wall") << 92.0 << 0.0 << true << 250.9194;
    QTest::newRow("30 x 92 x 1/4") << 92.0 << 0.25 << true << 241.6389;
    QTest::newRow("30 x 92 x 1/4, 2:1") << 92.0 << 0.25 << false << 256.19;
}

void ShellTest::capacities()
{
    QFETCH(double, overall);
    QFETCH(double, wall);
    QFETCH(bool, hemi);
    QFETCH(double, gallons);
    const auto shell = Shell::make(outsideSize(30, overall, wall, hemi ? hemispherical() : twoToOne()));
    QVERIFY(shell.has_value());
    const double got = inGallons(shell->capacity());
    QVERIFY2(std::abs(got - gallons) <= (hemi ? 1e-4 : 5e-3), qPrintable(QString::number(got, 'g', 9)));
    const double parts = (shell->shellCapacity() + shell->head(Side::Left).capacity() + shell->head(Side::Right).capacity()).value();
    QVERIFY(std::abs(parts - shell->capacity().value()) <= 1e-14 * parts);
}

// 250 gal on 30 in outside and 1/4 in wall needs 94.826 in (hemispherical) or 89.909 in (2:1) over all.
void ShellTest::overallThatHolds250()
{
    const auto holds = [](double overall, const HeadSize& heads) {
        return inGallons(Shell::make(outsideSize(30, overall, 0.25, heads))->capacity());
    };
    QVERIFY(std::abs(holds(94.826, hemispherical()) - 250) <= 0.003);
    QVERIFY(std::abs(holds(89.909, twoToOne()) - 250) <= 0.003);
}

// Volume of metal times 7850 kg/m3, worked by hand and by a second hand.
void ShellTest::steel_data()
{
    QTest::addColumn<double>("outside");
    QTest::addColumn<double>("overall");
    QTest::addColumn<double>("wall");
    QTest::addColumn<double>("kilograms");
    QTest::newRow("30 x 92 x 1/4") << 30.0 << 92.0 << 0.25 << 275.8;
    QTest::newRow("37.5 x 118 x 3/16") << 37.5 << 118.0 << 0.1875 << 333.1;
    QTest::newRow("37.5 x 118 x 1/4") << 37.5 << 118.0 << 0.25 << 443.1;
    QTest::newRow("41 x 192 x 1/4") << 41.0 << 192.0 << 0.25 << 789.5;
    QTest::newRow("41 x 192 x 0.28") << 41.0 << 192.0 << 0.28 << 883.4;
}

void ShellTest::steel()
{
    QFETCH(double, outside);
    QFETCH(double, overall);
    QFETCH(double, wall);
    QFETCH(double, kilograms);
    const double got = Shell::make(outsideSize(outside, overall, wall, hemispherical()))->steelMass().value();
    QVERIFY2(std::abs(got - kilograms) <= 0.1, qPrintable(QString::number(got)));
}

void ShellTest::threeDiametersAreKeptApart()
{
    Size size = outsideSize(30, 92, 0.25, hemispherical());
    const double reference = Shell::make(size)->capacity().value();
    size.around = Girth(inches(30 * std::numbers::pi));
    QVERIFY(std::abs(Shell::make(size)->capacity().value() - reference) <= 1e-14);
    size.around = InsideDiameter(inches(29.5));
    QVERIFY(std::abs(Shell::make(size)->capacity().value() - reference) <= 1e-14);
    size.around = InsideDiameter(inches(30));
    QVERIFY(Shell::make(size)->capacity().value() > reference * 1.02);
}

void ShellTest::refuses_data()
{
    QTest::addColumn<int>("change");
    QTest::addColumn<int>("fault");
    QTest::addColumn<int>("part");
    const auto row = [](const char* name, int change, SizeFault fault, SizePart part) {
        QTest::newRow(name) << change << static_cast<int>(fault) << static_cast<int>(part);
    };
    row("no diameter", 0, SizeFault::DiameterNotPositive, SizePart::Around);
    row("diameter below 0", 1, SizeFault::DiameterNotPositive, SizePart::Around);
    row("inside diameter 0 with a wall", 2, SizeFault::DiameterNotPositive, SizePart::Around);
    row("diameter not a number", 3, SizeFault::DiameterNotPositive, SizePart::Around);
    row("wall below 0", 4, SizeFault::WallNegative, SizePart::Wall);
    row("wall takes it all", 5, SizeFault::WallTooThick, SizePart::Wall);
    row("shorter than its heads", 6, SizeFault::OverallShorterThanHeads, SizePart::Along);
    row("shell length below 0", 7, SizeFault::LengthNegative, SizePart::Along);
    row("flat heads and no shell", 8, SizeFault::NothingInside, SizePart::Along);
    row("crown of half the diameter", 9, SizeFault::CrownTooFlatOrSmall, SizePart::LeftHead);
    row("knuckle of half the diameter", 10, SizeFault::KnuckleTooLarge, SizePart::RightHead);
    row("cone without depth", 11, SizeFault::DepthNotPositive, SizePart::RightHead);
    row("a mile around", 12, SizeFault::TooLarge, SizePart::Around);
    row("a mile long", 13, SizeFault::TooLarge, SizePart::Along);
}

void ShellTest::refuses()
{
    QFETCH(int, change);
    QFETCH(int, fault);
    QFETCH(int, part);
    Size size = outsideSize(30, 92, 0.25, hemispherical());
    const std::array<std::function<void()>, 14> changes{
        [&] { size.around = OutsideDiameter(inches(0)); },
        [&] { size.around = Girth(inches(-94)); },
        [&] { size.around = InsideDiameter(inches(0)); },
        [&] { size.around = OutsideDiameter(inches(std::nan(""))); },
        [&] { size.wall = inches(-0.25); },
        [&] { size.wall = inches(15); },
        [&] { size.along = OverallLength(inches(29)); },
        [&] { size.along = ShellLength(inches(-1)); },
        [&] {
            size.left = size.right = flat();
            size.along = ShellLength(inches(0));
        },
        [&] { size.left = torispherical(0.5, 0.06); },
        [&] { size.right = torispherical(1, 0.5); },
        [&] {
            size.right = {HeadKind::Conical, 1, 0.06, std::nullopt};
        },
        [&] { size.around = Girth(inches(63360)); },
        [&] { size.along = ShellLength(inches(63360)); },
    };
    QVERIFY(Shell::make(size).has_value());
    changes.at(static_cast<std::size_t>(change))();
    const auto shell = Shell::make(size);
    QVERIFY(!shell.has_value());
    QCOMPARE(static_cast<int>(shell.error().fault), fault);
    QCOMPARE(static_cast<int>(shell.error().part), part);
}

void ShellTest::overallComesBack()
{
    QVERIFY(rc::check("overall length in, overall length out", [] {
        const double diameter = static_cast<double>(*rc::gen::inRange(100, 1000)) / 10;
        const double wall = static_cast<double>(*rc::gen::inRange(0, 100)) / 100;
        const double overall = diameter + 2 + static_cast<double>(*rc::gen::inRange(0, 3000)) / 10;
        const auto heads = *rc::gen::element(0, 1, 2);
        const HeadSize head = heads == 0 ? hemispherical() : heads == 1 ? twoToOne() : torispherical(1, 0.06);
        const auto shell = Shell::make(outsideSize(diameter, overall, wall, head));
        RC_ASSERT(shell.has_value());
        RC_ASSERT(std::abs(inInches(shell->overallLength()) - overall) <= 1e-12 * overall);
        RC_ASSERT(std::abs(inInches(shell->outsideDiameter().get()) - diameter) <= 1e-12 * diameter);
        RC_ASSERT(std::abs(inInches(shell->insideDiameter().get()) - (diameter - 2 * wall)) <= 1e-12 * diameter);
    }));
}

BRIMFUL_SUITE(ShellTest);
#include "shell_test.moc"
