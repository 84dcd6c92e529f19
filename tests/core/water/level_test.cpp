// Level and upright vessels against published tables, and the density of water.
#include "core/water/density.h"
#include "core/water/level.h"

#include "tests/core/vessel/inches.h"
#include "tests/support/suite.h"

#include <QTest>

#include <cmath>
#include <numbers>

using namespace brimful;
using namespace brimful::test;
using namespace brimful::water;
using quantity::radians;

class LevelTest : public QObject {
    Q_OBJECT
private slots:
    void levelTables_data();
    void levelTables();
    void uprightTables_data();
    void uprightTables();
    void halfOfTheFlatTank();
    void marks_data();
    void marks();
    void waterDensity_data();
    void waterDensity();
    void densityOutsideItsRange();
};

// Tank volumes by depth, D 108 in, L 156 in, both heads 42 in deep, as published by D. Jones, "Calculating Tank Volume", and
// with the open "fluids" library's tests.
void LevelTest::levelTables_data()
{
    QTest::addColumn<int>("head");
    QTest::addColumn<double>("depth");
    QTest::addColumn<double>("gallons");
    const auto row = [](const char* name, int head, double depth, double gallons) { QTest::newRow(name) << head << depth << gallons; };
    row("ellipsoidal at 36", 0, 36, 2380.9565415578);
    row("ellipsoidal at 54", 0, 54, 4203.695769930);
    row("ellipsoidal at 84", 0, 84, 7103.4452359214);
    row("ellipsoidal full", 0, 108, 8407.391539861);
    row("conical at 36", 1, 36, 2041.1923581273);
    row("conical at 54", 1, 54, 3648.490668242);
    row("conical at 84", 1, 84, 6180.5407739058);
    row("dished at 36", 2, 36, 2303.9615116986);
    row("dished at 54", 2, 54, 4094.025626387);
    row("dished at 84", 2, 84, 6935.1633652755);
    row("torispherical at 36", 3, 36, 2028.6266708421);
    row("torispherical at 84", 3, 84, 5939.8979101579);
    row("torispherical at 1", 3, 1, 9.5800138209);
    row("torispherical full", 3, 108, 7069.994662925);
}

vessel::HeadSize tableHead(int head)
{
    switch (head) {
    case 0:
        return ellipsoidal(42);
    case 1:
        return conical(42);
    case 2:
        return dish(108, 42);
    default:
        return torispherical(1, 0.06);
    }
}

void LevelTest::levelTables()
{
    QFETCH(int, head);
    QFETCH(double, depth);
    QFETCH(double, gallons);
    const Shell shell = insideShell(108, 156, tableHead(head));
    const Below got = below(shell, radians(0), inches(depth - 54));
    QVERIFY2(std::abs(inGallons(got.volume) - gallons) <= 1e-9 * gallons, qPrintable(QString::number(inGallons(got.volume), 'g', 14)));
    QVERIFY(std::abs(inInches(got.centroid) - 78) <= 1e-9);
    if (depth < 108) {
        QVERIFY(std::abs(inInches(heightFor(shell, radians(0), got.volume)) - (depth - 54)) <= 1e-9);
    }
}

// Upright, D 132 in, the bottom head; same source.
void LevelTest::uprightTables_data()
{
    QTest::addColumn<int>("head");
    QTest::addColumn<double>("depth");
    QTest::addColumn<double>("gallons");
    const auto row = [](const char* name, int head, double depth, double gallons) { QTest::newRow(name) << head << depth << gallons; };
    row("torispherical at 24", 0, 24, 904.0688283794);
    row("torispherical at 60", 0, 60, 3036.7614412163);
    row("ellipsoidal at 24", 1, 24, 783.3581681678);
    row("ellipsoidal at 60", 1, 60, 2902.8316119170);
    row("conical at 24", 2, 24, 250.674613814);
    row("conical at 60", 2, 60, 2251.175535772);
    row("dished at 24", 3, 24, 583.601835285);
    row("dished at 60", 3, 60, 2658.460583363);
}

void LevelTest::uprightTables()
{
    QFETCH(int, head);
    QFETCH(double, depth);
    QFETCH(double, gallons);
    const std::array<vessel::HeadSize, 4> heads{torispherical(1, 0.06), ellipsoidal(33), conical(33), dish(132, 33)};
    const Shell shell = insideShell(132, 200, heads.at(static_cast<std::size_t>(head)));
    for (const double pitch : {90.0, -90.0}) {
        const auto angle = radians(pitch * std::numbers::pi / 180);
        const Length bottom = lowestPoint(shell, angle);
        const Below got = below(shell, angle, bottom + inches(depth));
        QVERIFY2(std::abs(inGallons(got.volume) - gallons) <= 1e-9 * gallons, qPrintable(QString::number(inGallons(got.volume), 'g', 14)));
        QVERIFY(std::abs(inInches(heightFor(shell, angle, got.volume) - bottom) - depth) <= 1e-9);
    }
}

void LevelTest::halfOfTheFlatTank()
{
    // Machinery's Handbook 31, p. 74: 2115 gal at half depth.
    const double got = inGallons(below(insideShell(72, 240, flat()), radians(0), inches(0)).volume);
    QVERIFY(std::abs(got - 2115) <= 0.5);
}

void LevelTest::marks_data()
{
    QTest::addColumn<double>("gallons");
    QTest::addColumn<double>("depth");
    QTest::addColumn<double>("within");
    QTest::newRow("1000 gal at 20.61 in, Machinery's Handbook 31, p. 74") << 1000.0 << 20.61 << 0.005;
    QTest::newRow("3000 gal, the segment equation solved by hand") << 3000.0 << 48.0593 << 1e-4;
}

void LevelTest::marks()
{
    QFETCH(double, gallons);
    QFETCH(double, depth);
    QFETCH(double, within);
    const double got = inInches(heightFor(insideShell(72, 240, flat()), radians(0), test::gallons(gallons))) + 36;
    QVERIFY2(std::abs(got - depth) <= within, qPrintable(QString::number(got, 'g', 9)));
}

// Tanaka et al. 2001, table. Kell 1975 at 20 C is 998.2041: another formula, 0.003 kg/m3 away.
void LevelTest::waterDensity_data()
{
    QTest::addColumn<double>("celsius");
    QTest::addColumn<double>("density");
    QTest::addColumn<double>("within");
    QTest::newRow("0") << 0.0 << 999.8428 << 5e-5;
    QTest::newRow("10") << 10.0 << 999.7027 << 5e-5;
    QTest::newRow("15") << 15.0 << 999.1026 << 5e-5;
    QTest::newRow("20") << 20.0 << 998.2067 << 5e-5;
    QTest::newRow("30") << 30.0 << 995.6488 << 5e-5;
    QTest::newRow("20, Kell") << 20.0 << 998.2041 << 5e-3;
    QTest::newRow("30, Kell") << 30.0 << 995.6473 << 5e-3;
}

void LevelTest::waterDensity()
{
    QFETCH(double, celsius);
    QFETCH(double, density);
    QFETCH(double, within);
    const auto got = water::density(quantity::Temperature(celsius + 273.15));
    QVERIFY(got.has_value());
    QVERIFY2(std::abs(got->value() - density) <= within, qPrintable(QString::number(got->value(), 'g', 10)));
}

void LevelTest::densityOutsideItsRange()
{
    QVERIFY(!water::density(quantity::Temperature(273.1)).has_value());
    QVERIFY(!water::density(quantity::Temperature(313.2)).has_value());
    QVERIFY(water::density(quantity::Temperature(313.15)).has_value());
}

BRIMFUL_SUITE(LevelTest);
#include "level_test.moc"
