// Typed quantities: what is taken, what is refused, and where the message points.
#include "core/quantity/parse.h"

#include "tests/support/suite.h"

#include <QTest>

#include <cmath>
#include <numbers>

using namespace brimful::quantity;

class ParseTest : public QObject {
    Q_OBJECT
private slots:
    void takes_data();
    void takes();
    void exactUnits_data();
    void exactUnits();
    void refuses_data();
    void refuses();
    void everyDimensionHasOneWord();
    void bareNumberOnlyWithoutDimension();
};

void ParseTest::takes_data()
{
    QTest::addColumn<QString>("text");
    QTest::addColumn<int>("dimension");
    QTest::addColumn<double>("si");
    QTest::addColumn<QString>("unit");
    const auto row = [](const char* text, Dimension dimension, double si, const char* unit) {
        QTest::newRow(text) << text << static_cast<int>(dimension) << si << unit;
    };
    row("30 in", Dimension::Length, 0.762, "in");
    row("30in", Dimension::Length, 0.762, "in");
    row("  30 in ", Dimension::Length, 0.762, "in");
    row("1 5/8 in", Dimension::Length, 0.041275, "in");
    row("5/8 in", Dimension::Length, 0.015875, "in");
    row("7 ft 8 in", Dimension::Length, 2.3368, "in");
    row("7 ft 8 5/8 in", Dimension::Length, 2.352675, "in");
    row("-7 ft 8 in", Dimension::Length, -2.3368, "in");
    row("0 in", Dimension::Length, 0, "in");
    row(".5 in", Dimension::Length, 0.0127, "in");
    row("0,76 m", Dimension::Length, 0.76, "m");
    row("0,125 in", Dimension::Length, 0.003175, "in");
    row("1.625 in", Dimension::Length, 0.041275, "in");
    row("1 h 30 min", Dimension::Duration, 5400, "min");
    row("0 %LEL", Dimension::LimitShare, 0, "%LEL");
    row("1 %LEL", Dimension::LimitShare, 0.01, "%LEL");
    row("2.1 %", Dimension::VolumeShare, 0.021, "%");
    row("2.1%", Dimension::VolumeShare, 0.021, "%");
    row("500 ppm", Dimension::VolumeShare, 0.0005, "ppm");
    row("20 degC", Dimension::Temperature, 293.15, "degC");
    row("-40 degF", Dimension::Temperature, 233.15, "degF");
    row("-40 degC", Dimension::Temperature, 233.15, "degC");
    row("32 degF", Dimension::Temperature, 273.15, "degF");
    row("0 barg", Dimension::Pressure, 101325, "barg");
    row("-0.5 barg", Dimension::Pressure, 51325, "barg");
    row("5 deg", Dimension::Angle, std::numbers::pi / 36, "deg");
    row("-2 deg", Dimension::Angle, -std::numbers::pi / 90, "deg");
    row("7.4 W/m2K", Dimension::HeatTransfer, 7.4, "W/m2K");
    row("42", Dimension::Number, 42, "");
    row("-0.5", Dimension::Number, -0.5, "");
    row("1/3", Dimension::Number, 1.0 / 3.0, "");
}

void ParseTest::takes()
{
    QFETCH(QString, text);
    QFETCH(int, dimension);
    QFETCH(double, si);
    QFETCH(QString, unit);
    const auto read = parse(text.toStdString());
    QVERIFY(read.has_value());
    QCOMPARE(static_cast<int>(read->dimension), dimension);
    QVERIFY2(std::abs(read->si - si) <= 1e-15 * std::abs(si), qPrintable(QString::number(read->si, 'g', 17)));
    QCOMPARE(QString::fromStdString(read->unit), unit);
    QVERIFY(parse(text.toStdString(), static_cast<Dimension>(dimension)).has_value());
}

// NIST Handbook 44, Appendix C and SP 811, Appendix B.8: the exact values, and those printed to their last digit.
void ParseTest::exactUnits_data()
{
    QTest::addColumn<QString>("text");
    QTest::addColumn<double>("si");
    QTest::addColumn<double>("relative");
    const auto row = [](const char* text, double si, double relative = 1e-15) { QTest::newRow(text) << text << si << relative; };
    row("1 in", 0.0254);
    row("1 ft", 0.3048);
    row("1 galUS", 3.785411784e-3);
    row("231 in3", 3.785411784e-3);
    row("1 ft3", 28.316846592e-3);
    row("1728 in3", 28.316846592e-3);
    row("1 galUK", 4.54609e-3);
    row("1 lb", 0.45359237);
    row("1 lbf", 4.4482216152605);
    row("1 psi", 6894.757, 1e-7);
    row("0 psig", 101325);
    row("14.69594878 psi", 101325, 1e-9); // one atmosphere
    row("1 mmHg", 133.3224, 1e-7);
    row("760 mmHg", 101325, 2e-7);
    row("1 inH2O", 249.0889, 1e-7);
    row("9 galUS/min", 9 * 6.309020e-5, 1e-7);
    row("1 ft3/min", 4.719474e-4, 1e-7);
    row("1 mph", 0.44704);
    row("144 in2", 9.290304e-2);
    row("1 ft2", 9.290304e-2);
}

void ParseTest::exactUnits()
{
    QFETCH(QString, text);
    QFETCH(double, si);
    QFETCH(double, relative);
    const auto read = parse(text.toStdString());
    QVERIFY(read.has_value());
    QVERIFY2(std::abs(read->si - si) <= relative * si, qPrintable(QString::number(read->si, 'g', 17)));
}

void ParseTest::refuses_data()
{
    QTest::addColumn<QString>("text");
    QTest::addColumn<int>("wanted");
    QTest::addColumn<int>("fault");
    QTest::addColumn<int>("at");
    QTest::addColumn<QString>("expected");
    QTest::addColumn<QString>("found");
    const auto row = [](const char* text, Dimension wanted, ParseFault fault, int at, const char* expected, const char* found) {
        QTest::newRow(qPrintable(QStringLiteral("'%1'").arg(text)))
            << text << static_cast<int>(wanted) << static_cast<int>(fault) << at << expected << found;
    };
    row("", Dimension::Length, ParseFault::Empty, 0, "length", "");
    row("   ", Dimension::Length, ParseFault::Empty, 3, "length", "");
    row("in", Dimension::Length, ParseFault::NoNumber, 0, "", "in");
    row("-", Dimension::Length, ParseFault::NoNumber, 1, "", "");
    row("about 3 in", Dimension::Length, ParseFault::NoNumber, 0, "", "about");
    row("30", Dimension::Length, ParseFault::NoUnit, 2, "length", "");
    row("7 ft 8", Dimension::Length, ParseFault::NoUnit, 6, "length", "");
    row("30 inch", Dimension::Length, ParseFault::UnknownUnit, 3, "in", "inch");
    row("30\"", Dimension::Length, ParseFault::UnknownUnit, 2, "in", "\"");
    row("30 IN", Dimension::Length, ParseFault::UnknownUnit, 3, "in", "IN");
    row("250 gal", Dimension::Volume, ParseFault::UnknownUnit, 4, "galUS", "gal");
    row("250 galus", Dimension::Volume, ParseFault::UnknownUnit, 4, "galUS", "galus");
    row("3 l", Dimension::Volume, ParseFault::UnknownUnit, 2, "L", "l");
    row("20 C", Dimension::Temperature, ParseFault::UnknownUnit, 3, "K", "C");
    row("1.2.3 in", Dimension::Length, ParseFault::BadNumber, 3, "", ".3");
    row("1. in", Dimension::Length, ParseFault::BadNumber, 1, "", ".");
    row("1e3 mm", Dimension::Length, ParseFault::BadNumber, 1, "", "e3");
    row("1,000 mm", Dimension::Length, ParseFault::BadNumber, 1, "1.234", ",000");
    row("1 000 mm", Dimension::Length, ParseFault::BadNumber, 2, "", "000");
    row("1/0 in", Dimension::Length, ParseFault::BadFraction, 2, "", "0");
    row("5/8/2 in", Dimension::Length, ParseFault::BadFraction, 3, "", "/2");
    row("1.5 5/8 in", Dimension::Length, ParseFault::BadFraction, 4, "", "5/8");
    row("5/ in", Dimension::Length, ParseFault::BadFraction, 2, "", "");
    row("3 ft 2 kg", Dimension::Length, ParseFault::MixedUnits, 5, "ft", "2");
    row("2 in 3 ft", Dimension::Length, ParseFault::MixedUnits, 5, "in", "3");
    row("3 in 3 in", Dimension::Length, ParseFault::MixedUnits, 5, "in", "3");
    row("20 degC 3 K", Dimension::Temperature, ParseFault::MixedUnits, 8, "degC", "3");
    row("20 degC", Dimension::Length, ParseFault::WrongDimension, 3, "length", "degC");
    row("1 %LEL", Dimension::VolumeShare, ParseFault::WrongDimension, 2, "volume-share", "%LEL");
    row("1 %", Dimension::LimitShare, ParseFault::WrongDimension, 2, "limit-share", "%");
    row("1 in", Dimension::Number, ParseFault::WrongDimension, 2, "number", "in");
    row("-274 degC", Dimension::Temperature, ParseFault::OutOfRange, 0, "temperature", "-274");
    row("-1.1 barg", Dimension::Pressure, ParseFault::OutOfRange, 0, "pressure", "-1.1");
    row("-1 bar", Dimension::Pressure, ParseFault::OutOfRange, 0, "pressure", "-1");
    row("-3 L", Dimension::Volume, ParseFault::OutOfRange, 0, "volume", "-3");
    row("1234567890123456789 mm", Dimension::Length, ParseFault::OutOfRange, 0, "", "1234567890123456789");
    row("30 in OD", Dimension::Length, ParseFault::Trailing, 6, "", "OD");
    row("7 ft -8 in", Dimension::Length, ParseFault::Trailing, 5, "", "-8");
}

void ParseTest::refuses()
{
    QFETCH(QString, text);
    QFETCH(int, wanted);
    QFETCH(int, fault);
    QFETCH(int, at);
    QFETCH(QString, expected);
    QFETCH(QString, found);
    const auto read = parse(text.toStdString(), static_cast<Dimension>(wanted));
    QVERIFY(!read.has_value());
    QCOMPARE(static_cast<int>(read.error().fault), fault);
    QCOMPARE(static_cast<int>(read.error().at), at);
    QCOMPARE(QString::fromStdString(read.error().expected), expected);
    QCOMPARE(QString::fromStdString(read.error().found), found);
}

void ParseTest::everyDimensionHasOneWord()
{
    for (int i = 0; i <= static_cast<int>(Dimension::Density); ++i) {
        const auto dimension = static_cast<Dimension>(i);
        QVERIFY(!dimensionName(dimension).empty());
        QCOMPARE(dimensionByName(dimensionName(dimension)), std::optional(dimension));
    }
    QVERIFY(!dimensionByName("weight").has_value());
}

void ParseTest::bareNumberOnlyWithoutDimension()
{
    QVERIFY(parse("3", Dimension::Number).has_value());
    QVERIFY(parse("3").has_value());
    for (int i = 1; i <= static_cast<int>(Dimension::Density); ++i) {
        const auto read = parse("3", static_cast<Dimension>(i));
        QVERIFY(!read.has_value());
        QCOMPARE(read.error().fault, ParseFault::NoUnit);
    }
}

BRIMFUL_SUITE(ParseTest);
#include "parse_test.moc"
