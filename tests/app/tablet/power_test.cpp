// What is read of a battery, and where the tablet says so. Files and words: Linux, Documentation/ABI/testing/sysfs-class-power, from
// memory.
#include "app/tablet/power.h"

#include "app/tablet/tablet.h"
#include "tests/app/tablet/demo_power.h"
#include "tests/app/tablet/demo_yard.h"
#include "tests/support/suite.h"

#include <QTest>

using namespace brimful;
using tablet::Battery;
using tablet::readBattery;
using tablet::Tablet;
using test::DemoPower;

namespace {

void tickFor(Tablet& program, int seconds)
{
    for (int i = 0; i < seconds; ++i) {
        program.tick();
    }
}

} // namespace

class PowerTest : public QObject {
    Q_OBJECT

private slots:
    void reads_data()
    {
        QTest::addColumn<QByteArray>("status");
        QTest::addColumn<bool>("said");
        QTest::addColumn<bool>("plugged");
        QTest::newRow("drains") << QByteArray("Discharging") << true << false;
        QTest::newRow("charges") << QByteArray("Charging") << true << true;
        QTest::newRow("full") << QByteArray("Full") << true << true;
        QTest::newRow("kept as it is") << QByteArray("Not charging") << true << true;
        QTest::newRow("the driver does not know") << QByteArray("Unknown") << false << false;
        QTest::newRow("a word of another day") << QByteArray("Resting") << false << false;
        QTest::newRow("nothing") << QByteArray() << false << false;
    }
    void reads()
    {
        QFETCH(QByteArray, status);
        QFETCH(bool, said);
        QFETCH(bool, plugged);
        const DemoPower power;
        power.write(QStringLiteral("AC"), QStringLiteral("type"), "Mains");
        power.write(QStringLiteral("AC"), QStringLiteral("online"), "1");
        power.battery(42, status);
        QCOMPARE(readBattery(power.folder()), said ? std::optional(Battery{42, plugged}) : std::nullopt);
    }

    void noBatteryIsNothing()
    {
        const DemoPower power;
        QVERIFY(!readBattery(power.folder()));
        QVERIFY(!readBattery(power.folder() / "not there"));
        power.write(QStringLiteral("AC"), QStringLiteral("type"), "Mains");
        QVERIFY(!readBattery(power.folder()));
    }

    void whatRunsNothingHereIsNone()
    {
        const DemoPower power;
        power.battery(3, "Discharging", QStringLiteral("mouse"));
        power.write(QStringLiteral("mouse"), QStringLiteral("scope"), "Device");
        power.battery(0, "Discharging", QStringLiteral("bay"));
        power.write(QStringLiteral("bay"), QStringLiteral("present"), "0");
        QVERIFY(!readBattery(power.folder()));
        power.battery(61, "Discharging");
        power.write(QStringLiteral("BAT0"), QStringLiteral("scope"), "System");
        QCOMPARE(readBattery(power.folder()), std::optional(Battery{61, false}));
    }

    void whatCantBeReadIsNothing_data()
    {
        QTest::addColumn<QByteArray>("capacity");
        for (const char* text : {"", "-1", "101", "12 %", "12.5", "x", "99999999999999999999"}) {
            QTest::newRow(text) << QByteArray(text);
        }
    }
    void whatCantBeReadIsNothing()
    {
        QFETCH(QByteArray, capacity);
        const DemoPower power;
        power.battery(50, "Discharging", QStringLiteral("BAT1"));
        power.battery(50, "Discharging");
        QVERIFY(readBattery(power.folder()));
        power.write(QStringLiteral("BAT0"), QStringLiteral("capacity"), capacity);
        QVERIFY(!readBattery(power.folder()));
    }

    // Two share the work: one drains, the other waits.
    void ofTwoTheMean()
    {
        const DemoPower power;
        power.battery(5, "Discharging");
        power.battery(80, "Unknown", QStringLiteral("BAT1"));
        QCOMPARE(readBattery(power.folder()), std::optional(Battery{42, false}));
    }

    void aHoldPointNamesItAsAReason()
    {
        const test::DemoYard demo;
        const DemoPower power;
        power.battery(20, "Discharging");
        Tablet program(demo.folder());
        program.setPowerFolder(power.folder());
        program.start();
        program.openVessel(QStringLiteral("NQ-02"));
        program.tick();
        program.openPart(QStringLiteral("gate:") + QString::number(program.session().pack().holdPoint("first-cut")));
        QCOMPARE(program.screen(), Tablet::View::Sheet);
        program.tick();
        QVERIFY(program.band().isEmpty()); // under 20, not at it
        power.battery(19, "Discharging");
        tickFor(program, 35);
        QCOMPARE(program.band(), QStringLiteral("Battery 19 %: a reason to wait. Plug in."));
        QVERIFY(program.bandGoLabel().isEmpty());
        program.sheet()->setWritten(QStringLiteral("0000"));
        QVERIFY(program.sheet()->canTake()); // no rule
        program.bandStay();
        program.tick();
        QVERIFY(program.band().isEmpty());
        power.battery(18, "Discharging");
        tickFor(program, 35);
        QCOMPARE(program.band(), QStringLiteral("Battery 18 %: a reason to wait. Plug in."));
        power.battery(18, "Charging");
        tickFor(program, 35);
        QVERIFY(program.band().isEmpty());
    }

    void aStepDoesNot()
    {
        const test::DemoYard demo;
        const DemoPower power;
        power.battery(4, "Discharging");
        Tablet program(demo.folder());
        program.setPowerFolder(power.folder());
        program.start();
        program.openVessel(QStringLiteral("NQ-07"));
        program.tick();
        QVERIFY(program.band().isEmpty());
        program.openStep(QString::number(program.session().pack().step("measure")));
        program.tick();
        QVERIFY(program.band().isEmpty());
    }

    // The demo's NQ-01 is released; its newest tag was printed before that and says no time.
    void aClockAsksForThePlug()
    {
        const test::DemoYard demo;
        const DemoPower power;
        power.battery(10, "Discharging");
        Tablet program(demo.folder());
        program.setPowerFolder(power.folder());
        program.start();
        program.openVessel(QStringLiteral("NQ-01"));
        QCOMPARE(program.screen(), Tablet::View::Clock);
        program.tick();
        QVERIFY(program.band().isEmpty()); // under 10, not at it
        power.battery(9, "Discharging");
        tickFor(program, 35);
        const auto hour = [&](std::int64_t at_ms) { return text::clockTime(at_ms, program.session().reading); };
        const std::int64_t ends = program.vesselPage()->view()->clock->at_ms;
        QCOMPARE(program.band(), QStringLiteral("Battery 9 %. Plug in. It runs until %1.").arg(hour(ends)));
        const auto tag = program.session().yard().printTag("NQ-01", "A6", 0, false);
        QVERIFY(tag && tag->facts.until_ms > 0);
        program.tick();
        QCOMPARE(program.band(), QStringLiteral("Battery 9 %. Plug in. The tag says until %1.").arg(hour(tag->facts.until_ms)));
        program.stop(); // and nothing runs any more
        program.sheet()->back();
        program.tick();
        QVERIFY2(program.band().isEmpty(), qPrintable(program.band()));
    }

    void withoutAFolderNothingIsSaid()
    {
        const test::DemoYard demo;
        Tablet program(demo.folder());
        program.start();
        program.openVessel(QStringLiteral("NQ-01"));
        tickFor(program, 35);
        QVERIFY(program.band().isEmpty());
    }

    // A scan is answered first.
    void aScanGoesBefore()
    {
        const test::DemoYard demo;
        const DemoPower power;
        power.battery(5, "Discharging");
        Tablet program(demo.folder());
        program.setPowerFolder(power.folder());
        program.start();
        program.openVessel(QStringLiteral("NQ-01"));
        program.scanned(QStringLiteral("NQ-03"));
        program.tick();
        QVERIFY(program.band().startsWith(QLatin1String("NQ-03")));
        program.bandStay();
        program.tick();
        QVERIFY(program.band().startsWith(QLatin1String("Battery 5 %")));
        program.scanned(QStringLiteral("NQ-03"));
        program.tick();
        QVERIFY(program.band().startsWith(QLatin1String("NQ-03")));
    }
};

BRIMFUL_SUITE(PowerTest);
#include "power_test.moc"
