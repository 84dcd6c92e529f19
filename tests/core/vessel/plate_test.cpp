// The plate against the tape: intervals, not points.
#include "core/vessel/plate.h"

#include "tests/core/vessel/inches.h"
#include "tests/support/suite.h"

#include <QTest>

#include <cmath>

using namespace brimful;
using namespace brimful::test;
using namespace brimful::vessel;

class PlateTest : public QObject {
    Q_OBJECT
private slots:
    void shortened();
    void verdicts_data();
    void verdicts();
    void slips_data();
    void slips();
    void widerTolerancesNeverAccuse();
};

// 30 x 72 in with a 1/4 in wall under a 250 gal plate: ratio 0.7298 (hemispherical) or 0.7880 (2:1), worked by hand.
void PlateTest::shortened()
{
    const auto hemi = checkPlate(outsideSize(30, 72, 0.25, hemispherical()), gallons(250));
    QVERIFY(std::abs(hemi->ratio - 0.7298) <= 1e-4);
    QCOMPARE(hemi->verdict, Verdict::Mismatch);
    const auto shallow = checkPlate(outsideSize(30, 72, 0.25, twoToOne()), gallons(250));
    QVERIFY(std::abs(shallow->ratio - 0.7880) <= 1e-4);
    QCOMPARE(shallow->verdict, Verdict::Mismatch);
}

// 30 x 92 x 1/4 hemispherical measures 241.64 gal; girth, length and wall at their worst together allow 3.64 gal more
// (0.61 + 0.74 + 2.29), which with 2 % reaches 250.2: the commonest plate of all agrees. A root of squares would accuse it.
void PlateTest::verdicts_data()
{
    QTest::addColumn<double>("stamped");
    QTest::addColumn<int>("verdict");
    QTest::newRow("250 agrees") << 250.0 << static_cast<int>(Verdict::Agrees);
    QTest::newRow("241.6 agrees") << 241.6 << static_cast<int>(Verdict::Agrees);
    QTest::newRow("251 is suspect") << 251.0 << static_cast<int>(Verdict::Suspect);
    QTest::newRow("264 is suspect") << 264.0 << static_cast<int>(Verdict::Suspect);
    QTest::newRow("266 does not fit") << 266.0 << static_cast<int>(Verdict::Mismatch);
    QTest::newRow("232 is suspect") << 232.0 << static_cast<int>(Verdict::Suspect);
    QTest::newRow("218 does not fit") << 218.0 << static_cast<int>(Verdict::Mismatch);
}

void PlateTest::verdicts()
{
    QFETCH(double, stamped);
    QFETCH(int, verdict);
    const auto check = checkPlate(outsideSize(30, 92, 0.25, hemispherical()), gallons(stamped));
    QVERIFY(check.has_value());
    QCOMPARE(static_cast<int>(check->verdict), verdict);
    QVERIFY(std::abs(inGallons(check->high) - (241.64 + 3.64)) <= 0.05);
}

void PlateTest::slips_data()
{
    QTest::addColumn<double>("stamped");
    QTest::addColumn<int>("slip");
    QTest::newRow("litres") << 914.7 << static_cast<int>(Slip::Litres); // 241.64 gal
    QTest::newRow("imperial gallons") << 201.2 << static_cast<int>(Slip::ImperialGallons);
    QTest::newRow("pounds of water") << 2013.0 << static_cast<int>(Slip::PoundsOfWater);
    QTest::newRow("what an 80 % fill is") << 193.3 << static_cast<int>(Slip::EightyPercentFill);
}

void PlateTest::slips()
{
    QFETCH(double, stamped);
    QFETCH(int, slip);
    const auto check = checkPlate(outsideSize(30, 92, 0.25, hemispherical()), gallons(stamped));
    QVERIFY(check.has_value());
    QCOMPARE(check->verdict, Verdict::Mismatch);
    const auto& found = check->slips;
    QVERIFY(std::find(found.begin(), found.end(), static_cast<Slip>(slip)) != found.end());
}

void PlateTest::widerTolerancesNeverAccuse()
{
    const Size size = outsideSize(30, 92, 0.25, hemispherical());
    for (double stamped = 200; stamped < 300; stamped += 0.5) {
        const auto narrow = checkPlate(size, gallons(stamped), {inches(0), inches(0), inches(0)});
        const auto wide = checkPlate(size, gallons(stamped));
        QVERIFY(static_cast<int>(wide->verdict) <= static_cast<int>(narrow->verdict));
    }
}

BRIMFUL_SUITE(PlateTest);
#include "plate_test.moc"
