// Counts that entries keep: exact, round the same way for everybody, and come back.
#include "core/quantity/recorded.h"

#include "tests/support/suite.h"

#include <QTest>
#include <rapidcheck.h>

#include <cmath>
#include <limits>

using namespace brimful::quantity;

class RecordedTest : public QObject {
    Q_OBJECT
private slots:
    void counts_data();
    void counts();
    void refuses();
    void everyDimensionComesBack();
    void sixteenthsAreWholeCounts();
    void countsSurviveSi();
    void decimalsAreExact();
    void namedRounding_data();
    void namedRounding();
    void roundingTowardRefusal();
    void oneInTheLastPlace_data();
    void oneInTheLastPlace();
};

// Expected counts are worked by hand from the exact definitions (1 in = 254,000 x 100 nm; 1 gal = 3,785.411784 mL).
void RecordedTest::counts_data()
{
    QTest::addColumn<QString>("typed");
    QTest::addColumn<int>("wanted");
    QTest::addColumn<qint64>("count");
    QTest::addColumn<QString>("unit");
    const auto row = [](const char* typed, Dimension wanted, qint64 count, const char* unit) {
        QTest::newRow(typed) << typed << static_cast<int>(wanted) << count << unit;
    };
    row("1/16 in", Dimension::Length, 15'875, "100nm");
    row("1 5/8 in", Dimension::Length, 412'750, "100nm");
    row("-1 5/8 in", Dimension::Length, -412'750, "100nm");
    row("7 ft 8 5/8 in", Dimension::Length, 23'526'750, "100nm");
    row("1/3 in", Dimension::Length, 84'667, "100nm");
    row("0.00000005 m", Dimension::Length, 1, "100nm"); // half a count goes away from zero
    row("-0.00000005 m", Dimension::Length, -1, "100nm");
    row("0.000000049 m", Dimension::Length, 0, "100nm");
    row("250 galUS", Dimension::Volume, 946'353, "mL"); // 946,352.946
    row("1 galUK", Dimension::Volume, 4'546, "mL");
    row("1 lb", Dimension::Mass, 454, "g");
    row("20 degC", Dimension::Temperature, 29'315, "0.01K");
    row("68 degF", Dimension::Temperature, 29'315, "0.01K");
    row("0.005 K", Dimension::Temperature, 1, "0.01K");
    row("1 %LEL", Dimension::LimitShare, 10, "0.1%LEL");
    row("20.9 %", Dimension::VolumeShare, 209'000, "ppm");
    row("2.5 deg", Dimension::Angle, 2'500, "0.001deg");
    row("9 galUS/min", Dimension::VolumeFlow, 568, "mL/s"); // 567.812
    row("14.695948775 psi", Dimension::Pressure, 101'325, "Pa");
    row("1 h 30 min", Dimension::Duration, 5'400, "s");
    row("12", Dimension::Number, 12, "1");
}

void RecordedTest::counts()
{
    QFETCH(QString, typed);
    QFETCH(int, wanted);
    QFETCH(qint64, count);
    QFETCH(QString, unit);
    const auto kept = record(typed.toStdString(), static_cast<Dimension>(wanted));
    QVERIFY(kept.has_value());
    QCOMPARE(static_cast<qint64>(kept->count), count);
    QCOMPARE(QString::fromStdString(kept->unit), unit);
    QCOMPARE(QString::fromStdString(kept->typed), typed);
}

void RecordedTest::refuses()
{
    const auto large = record("99999999999 m", Dimension::Length);
    QVERIFY(!large.has_value());
    QCOMPARE(large.error().fault, ParseFault::OutOfRange);
    QVERIFY(record("900719925.4740991 m", Dimension::Length).has_value()); // 2^53 - 1 counts
    QVERIFY(!record("900719925.4740992 m", Dimension::Length).has_value());
    const auto part = record("2.5", Dimension::Number);
    QVERIFY(!part.has_value());
    QCOMPARE(part.error().fault, ParseFault::BadNumber);
    QCOMPARE(record("3 kg", Dimension::Length).error().fault, ParseFault::WrongDimension);
}

void RecordedTest::everyDimensionComesBack()
{
    for (int i = 0; i <= static_cast<int>(Dimension::Density); ++i) {
        const auto dimension = static_cast<Dimension>(i);
        QCOMPARE(recordedDimension(recordedUnit(dimension)), std::optional(dimension));
    }
    QVERIFY(!recordedDimension("furlong").has_value());
}

void RecordedTest::sixteenthsAreWholeCounts()
{
    QVERIFY(rc::check("n/16 in is 15,875 n counts", [] {
        const auto n = *rc::gen::inRange<std::int64_t>(0, 1'000'000);
        const std::string typed = std::to_string(n / 16) + " " + std::to_string(n % 16) + "/16 in";
        const auto kept = record(typed, Dimension::Length);
        RC_ASSERT(kept.has_value());
        RC_ASSERT(kept->count == 15'875 * n);
    }));
}

void RecordedTest::countsSurviveSi()
{
    QVERIFY(rc::check("count -> SI -> count", [] {
        const auto dimension = static_cast<Dimension>(*rc::gen::inRange(0, static_cast<int>(Dimension::Density) + 1));
        const auto largest = (std::int64_t{1} << 50U);
        const auto count = *rc::gen::inRange<std::int64_t>(-largest, largest);
        const std::string_view unit = recordedUnit(dimension);
        RC_ASSERT(countOf(siOf(count, unit), unit, Rounding::Nearest) == count);
    }));
}

void RecordedTest::decimalsAreExact()
{
    QVERIFY(rc::check("typed decimals of metres are counted digit by digit", [] {
        const auto count = *rc::gen::inRange<std::int64_t>(0, 9'007'199'254'740'991);
        const std::string digits = std::to_string(count);
        const std::string padded = std::string(digits.size() < 8 ? 8 - digits.size() : 0, '0') + digits;
        const std::string typed = padded.substr(0, padded.size() - 7) + "." + padded.substr(padded.size() - 7) + " m";
        const auto kept = record(typed, Dimension::Length);
        RC_ASSERT(kept.has_value());
        RC_ASSERT(kept->count == count);
        const auto si = parse(typed, Dimension::Length);
        RC_ASSERT(si.has_value());
        RC_ASSERT(si->si == std::stod(typed)); // correctly rounded, as the C library reads the same digits
    }));
}

void RecordedTest::namedRounding_data()
{
    QTest::addColumn<double>("si");
    QTest::addColumn<int>("rounding");
    QTest::addColumn<qint64>("count");
    QTest::newRow("nearest half goes away from zero") << 0.0000025 << static_cast<int>(Rounding::Nearest) << qint64{3};
    QTest::newRow("nearest") << 0.0000024 << static_cast<int>(Rounding::Nearest) << qint64{2};
    QTest::newRow("up") << 0.0000021 << static_cast<int>(Rounding::Up) << qint64{3};
    QTest::newRow("down") << 0.0000029 << static_cast<int>(Rounding::Down) << qint64{2};
    QTest::newRow("up, below zero") << -0.0000029 << static_cast<int>(Rounding::Up) << qint64{-2};
    QTest::newRow("down, below zero") << -0.0000021 << static_cast<int>(Rounding::Down) << qint64{-3};
    QTest::newRow("a whole count stays, up") << 0.000254 << static_cast<int>(Rounding::Up) << qint64{254};
    QTest::newRow("a whole count stays, down") << 0.000029 << static_cast<int>(Rounding::Down) << qint64{29};
}

void RecordedTest::namedRounding()
{
    QFETCH(double, si);
    QFETCH(int, rounding);
    QFETCH(qint64, count);
    QCOMPARE(static_cast<qint64>(countOf(si, "mL", static_cast<Rounding>(rounding))), count);
}

void RecordedTest::roundingTowardRefusal()
{
    QVERIFY(rc::check("down <= nearest <= up, one apart at most", [] {
        const double si = static_cast<double>(*rc::gen::inRange(-1'000'000, 1'000'000)) / 7.0e6;
        const auto down = countOf(si, "mL", Rounding::Down);
        const auto near = countOf(si, "mL", Rounding::Nearest);
        const auto up = countOf(si, "mL", Rounding::Up);
        RC_ASSERT(down <= near);
        RC_ASSERT(near <= up);
        RC_ASSERT(up - down <= 1);
        RC_ASSERT(static_cast<double>(down) <= si * 1e6 + 1e-9);
        RC_ASSERT(static_cast<double>(up) >= si * 1e6 - 1e-9);
    }));
}

// By hand: an eighth of an inch is 31,750 x 100 nm, a degree Fahrenheit 100/1.8 = 55.6 hundredths of a kelvin, a tenth of a psi
// 689.476 Pa.
void RecordedTest::oneInTheLastPlace_data()
{
    QTest::addColumn<QString>("typed");
    QTest::addColumn<int>("wanted");
    QTest::addColumn<qint64>("count");
    const auto row = [](const char* typed, Dimension wanted, qint64 count) {
        QTest::newRow(typed) << typed << static_cast<int>(wanted) << count;
    };
    row("12 degC", Dimension::Temperature, 100);
    row("12.6 degC", Dimension::Temperature, 10);
    row("-3.25 degC", Dimension::Temperature, 1);
    row("54 degF", Dimension::Temperature, 56);
    row("1 5/8 in", Dimension::Length, 31'750);
    row("5/16 in", Dimension::Length, 15'875);
    row("7 ft 8 in", Dimension::Length, 254'000);
    row("7 ft", Dimension::Length, 3'048'000);
    row("200 mm", Dimension::Length, 10'000);
    row("1,5 m", Dimension::Length, 1'000'000);
    row("20.9 %", Dimension::VolumeShare, 1'000);
    row("4.9 psig", Dimension::Pressure, 689);
    row("480 galUS", Dimension::Volume, 3'785);
    row("8 W/m2K", Dimension::HeatTransfer, 1'000);
    row("3 m2", Dimension::Area, 1'000'000);
    row("7", Dimension::Number, 1);
}

void RecordedTest::oneInTheLastPlace()
{
    QFETCH(const QString, typed);
    QFETCH(const int, wanted);
    QFETCH(const qint64, count);
    const auto recorded = record(typed.toStdString(), static_cast<Dimension>(wanted));
    QVERIFY(recorded);
    QCOMPARE(lastPlace(*recorded), count);
    QCOMPARE(lastPlace({1, recorded->unit, "nothing typed"}), 0);
}

BRIMFUL_SUITE(RecordedTest);
#include "recorded_test.moc"
