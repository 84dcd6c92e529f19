// What counts as a touch when water lies on the glass: fed contacts and times, nothing else.
#include "app/tablet/wet_glass.h"

#include "tests/support/suite.h"

#include <QTest>

using brimful::tablet::WetGlass;
using Ids = std::vector<int>;

namespace {

WetGlass::Contact finger(int id) { return {id, 9}; } // a finger's tip in a glove, from memory
WetGlass::Contact palm(int id) { return {id, 60}; }

// Three at once, lifted again: wet from then on.
WetGlass wetFrom(std::int64_t now_ms)
{
    WetGlass glass;
    glass.see({finger(1), finger(2), finger(3)}, now_ms);
    glass.see({}, now_ms + 20);
    return glass;
}

} // namespace

class WetGlassTest : public QObject {
    Q_OBJECT

private slots:
    void oneAndTwoFingersAreTouches()
    {
        WetGlass glass;
        QVERIFY(glass.see({finger(1)}, 0));
        QVERIFY(glass.see({finger(1), finger(2)}, 10));
        QVERIFY(glass.see({finger(2)}, 1000));
        QVERIFY(glass.see({}, 2000));
        QVERIFY(!glass.wet());
        QVERIFY(!glass.next());
    }

    void threeContactsAreWater()
    {
        WetGlass glass;
        QVERIFY(glass.see({finger(1), finger(2)}, 0));
        QVERIFY(!glass.see({finger(1), finger(2), finger(3)}, 10));
        QVERIFY(glass.wet());
    }

    void aLargeContactIsOneWhenItStays()
    {
        WetGlass glass;
        QVERIFY(glass.see({palm(1)}, 0));
        QCOMPARE(glass.next(), std::optional(std::int64_t{300}));
        QVERIFY(glass.see({palm(1)}, 299));
        QVERIFY(!glass.see({palm(1)}, 300)); // nothing moved: the caller asks again
        QVERIFY(glass.wet());
    }

    void aLargeContactThatGoesOrShrinksIsNone()
    {
        WetGlass glass;
        glass.see({palm(1)}, 0);
        QVERIFY(glass.see({}, 299));
        QVERIFY(glass.see({palm(2)}, 310));
        QVERIFY(glass.see({{2, 25}}, 500)); // 25 mm is not longer than 25 mm
        QVERIFY(glass.see({palm(2)}, 550));
        QVERIFY(glass.see({palm(2)}, 849));
        QVERIFY(!glass.see({palm(2)}, 850));
    }

    void touchesAreDroppedForThreeSeconds()
    {
        WetGlass glass = wetFrom(0);
        QVERIFY(glass.wet());
        QCOMPARE(glass.next(), std::optional(std::int64_t{3000}));
        QVERIFY(!glass.see({finger(4)}, 1000));
        QVERIFY(!glass.see({}, 1050));
        QVERIFY(!glass.see({}, 2999));
        QVERIFY(glass.see({}, 3000));
        QVERIFY(!glass.wet());
        QVERIFY(glass.see({finger(5)}, 3001));
    }

    // Three seconds after the last sign of water, not after the first.
    void whatLiesOnKeepsItWet()
    {
        WetGlass glass;
        glass.see({palm(1)}, 0);
        glass.see({palm(1)}, 300);
        QCOMPARE(glass.next(), std::optional(std::int64_t{3300}));
        glass.see({palm(1)}, 3300);
        QVERIFY(glass.wet());
        glass.see({}, 4000);
        QVERIFY(glass.wet());
        glass.see({}, 6299);
        QVERIFY(glass.wet());
        glass.see({}, 6300);
        QVERIFY(!glass.wet());
    }

    // A drop that came while it was wet is no touch later either, and as long as it lies the screen says why.
    void whatBeganWetStaysDropped()
    {
        WetGlass glass = wetFrom(0);
        glass.see({finger(4)}, 2900);
        QVERIFY(!glass.see({finger(4)}, 3500));
        QVERIFY(glass.wet());
        QVERIFY(!glass.see({}, 3600)); // its lifting is none
        QVERIFY(glass.see({finger(5)}, 3700));
    }

    void aCleanPressIsToldOnce()
    {
        WetGlass glass = wetFrom(0);
        glass.see({finger(4)}, 1000);
        QCOMPARE(glass.clean(), Ids{});
        QCOMPARE(glass.next(), std::optional(std::int64_t{1150}));
        glass.see({finger(4)}, 1149);
        QCOMPARE(glass.clean(), Ids{});
        glass.see({finger(4)}, 1150);
        QCOMPARE(glass.clean(), Ids{4});
        glass.see({finger(4)}, 1200);
        QCOMPARE(glass.clean(), Ids{});
    }

    void whatIsNoCleanPress()
    {
        WetGlass glass = wetFrom(0);
        glass.see({finger(4)}, 1000);
        glass.see({}, 1100); // too short
        glass.see({palm(5)}, 1200);
        glass.see({finger(5)}, 1250); // a hand that is being lifted
        glass.see({finger(5)}, 1600);
        QCOMPARE(glass.clean(), Ids{});
        glass.see({finger(6), finger(7), finger(8)}, 1700);
        glass.see({finger(6)}, 1750); // what is left of many
        glass.see({finger(6)}, 2000);
        QCOMPARE(glass.clean(), Ids{});
    }

    // What began before the water was given on as a touch: it does not act a second time.
    void aTouchOfBeforeIsNoCleanPress()
    {
        WetGlass glass;
        glass.see({finger(1)}, 0);
        glass.see({finger(1), finger(2), finger(3)}, 50);
        glass.see({finger(1)}, 100);
        glass.see({finger(1)}, 400);
        QCOMPARE(glass.clean(), Ids{});
        QVERIFY(glass.wet());
    }

    // A drop that rests does not keep a finger from stopping.
    void oneOtherThingIsAllowed()
    {
        WetGlass glass = wetFrom(0);
        glass.see({finger(4)}, 1000);
        glass.see({finger(4)}, 1150);
        glass.see({finger(4), finger(5)}, 1500);
        glass.see({finger(4), finger(5)}, 1650);
        QCOMPARE(glass.clean(), Ids{5});
    }

    void onDryGlassNothingIsAskedFor()
    {
        WetGlass glass;
        glass.see({finger(1)}, 0);
        glass.see({finger(1)}, 1000);
        QCOMPARE(glass.clean(), Ids{});
    }
};

BRIMFUL_SUITE(WetGlassTest);
#include "wet_glass_test.moc"
