// Quantities as people read them, and that they can be typed back.
#include "core/quantity/format.h"

#include "core/quantity/parse.h"
#include "tests/support/suite.h"

#include <QTest>
#include <rapidcheck.h>

#include <cmath>
#include <numbers>

using namespace brimful::quantity;

class FormatTest : public QObject {
    Q_OBJECT
private slots:
    void fractions_data();
    void fractions();
    void shows_data();
    void shows();
    void inchesComeBack();
    void siComesBack();
};

void FormatTest::fractions_data()
{
    QTest::addColumn<double>("inches");
    QTest::addColumn<QString>("text");
    QTest::newRow("reduced") << 1.625 << "1 5/8 in";
    QTest::newRow("whole") << 92.0 << "92 in";
    QTest::newRow("none") << 0.0 << "0 in";
    QTest::newRow("only a fraction") << 0.5 << "1/2 in";
    QTest::newRow("sixteenth") << 20.6113 << "20 5/8 in"; // Machinery's Handbook 31, p. 74: 20.61 in is marked at 20 5/8
    QTest::newRow("half up") << 1.0 / 32 << "1/16 in";
    QTest::newRow("carries") << 1.99 << "2 in";
    QTest::newRow("below zero") << -1.625 << "-1 5/8 in";
    QTest::newRow("just below zero") << -0.001 << "0 in";
}

void FormatTest::fractions()
{
    QFETCH(double, inches);
    QFETCH(QString, text);
    QCOMPARE(QString::fromStdString(inchFraction(metres(inches * 0.0254))), text);
}

void FormatTest::shows_data()
{
    QTest::addColumn<double>("si");
    QTest::addColumn<int>("dimension");
    QTest::addColumn<QString>("us");
    QTest::addColumn<QString>("metric");
    const auto row = [](double si, Dimension dimension, const char* us, const char* metric) {
        QTest::newRow(metric) << si << static_cast<int>(dimension) << us << metric;
    };
    row(2.3526750, Dimension::Length, "92 5/8 in", "2353 mm");
    row(489.5 * 3.785411784e-3, Dimension::Volume, "489.5 gal", "1853 L");
    row(0.0005, Dimension::Volume, "0.1321 gal", "500 mL");
    row(207.4, Dimension::Mass, "457.2 lb", "207.4 kg");
    row(293.15, Dimension::Temperature, "68 degF", "20 degC");
    row(12345, Dimension::Mass, "27216 lb", "12345 kg");
    row(2 * std::numbers::pi / 180, Dimension::Angle, "2 deg", "2 deg");
    row(0.01, Dimension::LimitShare, "1 %LEL", "1 %LEL");
    row(0.021, Dimension::VolumeShare, "2.1 %", "2.1 %");
    row(90, Dimension::Duration, "90 s", "90 s");
    row(998.2, Dimension::Density, "62.32 lb/ft3", "998.2 kg/m3");
    row(0.61, Dimension::Number, "0.61", "0.61");
}

void FormatTest::shows()
{
    QFETCH(double, si);
    QFETCH(int, dimension);
    QFETCH(QString, us);
    QFETCH(QString, metric);
    QCOMPARE(QString::fromStdString(format(si, static_cast<Dimension>(dimension), UnitSystem::Us)), us);
    QCOMPARE(QString::fromStdString(format(si, static_cast<Dimension>(dimension), UnitSystem::Si)), metric);
}

void FormatTest::inchesComeBack()
{
    QVERIFY(rc::check("inches to the sixteenth are within 1/32 in when typed back", [] {
        const double si = static_cast<double>(*rc::gen::inRange(-50'000'000, 50'000'000)) * 1e-7;
        const auto read = parse(inchFraction(metres(si)), Dimension::Length);
        RC_ASSERT(read.has_value());
        RC_ASSERT(std::abs(read->si - si) <= 0.0254 / 32 + 1e-9);
    }));
}

void FormatTest::siComesBack()
{
    QVERIFY(rc::check("SI text is within four digits when typed back", [] {
        const auto dimension = static_cast<Dimension>(*rc::gen::inRange(0, static_cast<int>(Dimension::Density)));
        const double si = 1 + static_cast<double>(*rc::gen::inRange(0, 1'000'000)) / 997;
        const std::string text = format(si, dimension, UnitSystem::Si);
        const auto read = parse(text, dimension);
        RC_ASSERT(read.has_value());
        const double off = dimension == Dimension::Temperature ? 0.05 : 0.00051 * si;
        RC_ASSERT(std::abs(read->si - si) <= off);
    }));
}

BRIMFUL_SUITE(FormatTest);
#include "format_test.moc"
