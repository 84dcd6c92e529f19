// The pad: digits in, a quantity in the one grammar out, never converted by a press of a unit.
#include "app/tablet/pad.h"
#include "core/quantity/parse.h"
#include "tests/support/suite.h"

#include <QTest>

using brimful::quantity::Dimension;
using brimful::tablet::Pad;

class PadTest : public QObject {
    Q_OBJECT

private slots:
    void saysWhatWasTyped_data();
    void saysWhatWasTyped();
    void anotherUnitRelabels();
    void echoesInTheOtherSystem();
    void lengthAgainstTheInch_data();
    void lengthAgainstTheInch();
    void takesNoGroupingAndOnePoint();
    void belowZeroWhereItIsAValue();
    void readsADraftBack_data();
    void readsADraftBack();
    void aCountIsWhole();

private:
    static void press(Pad& pad, const QString& keys)
    {
        for (const QString& key : keys.split(u' ', Qt::SkipEmptyParts)) {
            if (key == QLatin1String("erase")) {
                pad.erase();
            } else if (key.front().isLetter() || key.front() == u'%') {
                pad.pickUnit(key);
            } else {
                pad.press(key);
            }
        }
    }
};

void PadTest::saysWhatWasTyped_data()
{
    QTest::addColumn<int>("dimension");
    QTest::addColumn<QString>("keys");
    QTest::addColumn<QString>("typed");
    QTest::addColumn<QString>("said");
    QTest::newRow("gallons") << int(Dimension::Volume) << "4 8 3"
                             << "483 galUS"
                             << "483 gal";
    QTest::newRow("litres") << int(Dimension::Volume) << "9 5 0 L"
                            << "950 L"
                            << "950 L";
    QTest::newRow("point") << int(Dimension::VolumeShare) << "2 0 . 9"
                           << "20.9 %"
                           << "20.9 %";
    QTest::newRow("comma is a point") << int(Dimension::VolumeShare) << "2 0 , 9"
                                      << "20.9 %"
                                      << "20.9 %";
    QTest::newRow("point first") << int(Dimension::Length) << ". 2 5"
                                 << "0.25 in"
                                 << "0.25 in";
    QTest::newRow("erased") << int(Dimension::Volume) << "4 8 3 erase"
                            << "48 galUS"
                            << "48 gal";
    QTest::newRow("limit") << int(Dimension::LimitShare) << "0"
                           << "0 %LEL"
                           << "0 %LEL";
    QTest::newRow("inches") << int(Dimension::Length) << "9 2"
                            << "92 in"
                            << "92 in";
    QTest::newRow("feet") << int(Dimension::Length) << "7 ft"
                          << "7 ft"
                          << "7 ft";
    QTest::newRow("feet and inches") << int(Dimension::Length) << "7 ft 8"
                                     << "7 ft 8 in"
                                     << "7 ft 8 in";
    QTest::newRow("feet, inches, fraction") << int(Dimension::Length) << "7 ft 8 in 5 / 8"
                                            << "7 ft 8 5/8 in"
                                            << "7 ft 8 5/8 in";
    QTest::newRow("fraction alone") << int(Dimension::Length) << "1 / 4"
                                    << "1/4 in"
                                    << "1/4 in";
    QTest::newRow("inches, fraction") << int(Dimension::Length) << "3 0 in 1 / 2"
                                      << "30 1/2 in"
                                      << "30 1/2 in";
    QTest::newRow("millimetres") << int(Dimension::Length) << "7 6 2 mm"
                                 << "762 mm"
                                 << "762 mm";
}

void PadTest::saysWhatWasTyped()
{
    QFETCH(int, dimension);
    QFETCH(QString, keys);
    Pad pad;
    pad.ask(QStringLiteral("asked"), static_cast<Dimension>(dimension), {});
    press(pad, keys);
    QTEST(QString::fromStdString(pad.typed()), "typed");
    QTEST(pad.said(), "said");
    QVERIFY(pad.si().has_value());
}

void PadTest::anotherUnitRelabels()
{
    Pad pad;
    pad.ask({}, Dimension::Volume, {});
    press(pad, QStringLiteral("4 8 3 L"));
    QCOMPARE(pad.shown(), QStringLiteral("483"));
    QCOMPARE(pad.unitWord(), QStringLiteral("L"));
}

void PadTest::echoesInTheOtherSystem()
{
    Pad pad;
    pad.ask({}, Dimension::Volume, {});
    press(pad, QStringLiteral("4 8 3"));
    // 483 US gallons of 3.785411784 L (NIST SP 811, appendix B) are 1828.35 L.
    QVERIFY2(pad.echo().contains(QLatin1String("1828")) || pad.echo().contains(QLatin1String("1,828")), qPrintable(pad.echo()));
    QVERIFY(pad.echo().endsWith(u'L'));
}

void PadTest::lengthAgainstTheInch_data()
{
    QTest::addColumn<QString>("keys");
    QTest::addColumn<double>("metres"); // by the inch of 25.4 mm
    QTest::newRow("7 ft 8 5/8 in") << "7 ft 8 in 5 / 8" << 92.625 * 0.0254;
    QTest::newRow("10/16 in") << "1 0 / 1 6" << 0.625 * 0.0254;
    QTest::newRow("2353 mm") << "2 3 5 3 mm" << 2.353;
}

void PadTest::lengthAgainstTheInch()
{
    QFETCH(QString, keys);
    QFETCH(double, metres);
    Pad pad;
    pad.ask({}, Dimension::Length, {});
    press(pad, keys);
    QVERIFY(pad.si().has_value());
    QVERIFY(std::abs(*pad.si() - metres) < 1e-9);
}

void PadTest::takesNoGroupingAndOnePoint()
{
    Pad pad;
    pad.ask({}, Dimension::Volume, {});
    press(pad, QStringLiteral("1 . 5 . 0 ,"));
    QCOMPARE(pad.shown(), QStringLiteral("1.50"));
    pad.press(QStringLiteral("x"));
    pad.press(QStringLiteral("12"));
    QCOMPARE(pad.shown(), QStringLiteral("1.50"));
}

void PadTest::belowZeroWhereItIsAValue()
{
    Pad pad;
    pad.ask({}, Dimension::Angle, {});
    QCOMPARE(pad.freeKey(), QStringLiteral("±"));
    press(pad, QStringLiteral("1 . 5 ±"));
    QCOMPARE(QString::fromStdString(pad.typed()), QStringLiteral("-1.5 deg"));
    pad.ask({}, Dimension::Volume, {});
    QVERIFY(pad.freeKey().isEmpty());
}

void PadTest::readsADraftBack_data()
{
    QTest::addColumn<int>("dimension");
    QTest::addColumn<QString>("typed");
    QTest::newRow("gallons") << int(Dimension::Volume) << "483 galUS";
    QTest::newRow("feet") << int(Dimension::Length) << "7 ft 8 5/8 in";
    QTest::newRow("fraction") << int(Dimension::Length) << "30 1/2 in";
    QTest::newRow("millimetres") << int(Dimension::Length) << "762 mm";
    QTest::newRow("share") << int(Dimension::VolumeShare) << "20.9 %";
}

void PadTest::readsADraftBack()
{
    QFETCH(int, dimension);
    QFETCH(QString, typed);
    Pad pad;
    pad.ask({}, static_cast<Dimension>(dimension), {});
    pad.put(typed.toStdString());
    QCOMPARE(QString::fromStdString(pad.typed()), typed);
}

void PadTest::aCountIsWhole()
{
    Pad pad;
    pad.askCount(QStringLiteral("fills"));
    press(pad, QStringLiteral("1 . 2"));
    QCOMPARE(pad.whole(), std::optional<std::int64_t>(12));
    QVERIFY(!pad.hasPoint());
}

BRIMFUL_SUITE(PadTest);
#include "pad_test.moc"
