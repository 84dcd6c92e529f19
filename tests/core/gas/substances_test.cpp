// The table as a value: lookups, and which of two published limits decides.
#include "core/gas/substances.h"

#include "tests/core/gas/gases.h"
#include "tests/support/suite.h"

#include <QTest>

using namespace brimful;
using namespace brimful::test;

class SubstancesTest : public QObject {
    Q_OBJECT
private slots:
    void findsByName();
    void lowestDecides();
    void oneSetIsEnough();
    void burnsWithoutAir();
    void routesNowhereUnlessSaid();
};

void SubstancesTest::findsByName()
{
    const gas::SubstanceTable table({propane(), butane()});
    QCOMPARE(table.find("n-butane")->nfpa->lower, 0.019);
    QVERIFY(table.find("Propane") == nullptr);
    QVERIFY(table.find("") == nullptr);
    QCOMPARE(table.all().size(), std::size_t{2});
}

void SubstancesTest::lowestDecides()
{
    QCOMPARE(*propane().lowestLimit(), 0.017);
    QCOMPARE(*propane().highestLowerLimit(), 0.021);
    QCOMPARE(propane().widestRange()->upper, 0.109);
    QCOMPARE(propane().widestRange()->lower, 0.017);
}

void SubstancesTest::oneSetIsEnough()
{
    gas::Substance oil;
    QVERIFY(!oil.flammable() && !oil.lowestLimit() && !oil.highestLowerLimit() && !oil.widestRange());
    oil.iec = gas::FlammableRange{0.006, 0.065};
    QVERIFY(oil.flammable());
    QCOMPARE(*oil.lowestLimit(), 0.006);
    QCOMPARE(*oil.highestLowerLimit(), 0.006);
}

void SubstancesTest::burnsWithoutAir()
{
    QVERIFY(named("acetylene", 0.025, 1.0).burnsWithoutAir());
    QVERIFY(!propane().burnsWithoutAir());
    QVERIFY(!gas::Substance{}.burnsWithoutAir());
}

void SubstancesTest::routesNowhereUnlessSaid() { QVERIFY(gas::Substance{}.routing == gas::Routing::Never); }

BRIMFUL_SUITE(SubstancesTest);
#include "substances_test.moc"
