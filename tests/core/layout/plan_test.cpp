// Marks, distances over the unrolled shell, and the order of work with everything that it refuses.
#include "core/layout/plan.h"

#include "core/layout/marks.h"
#include "tests/core/vessel/inches.h"
#include "tests/support/suite.h"

#include <QTest>

#include <cmath>

using namespace brimful;
using namespace brimful::layout;
using test::inches;

namespace {

// A stack hole, a hinged door, a door without a hinge.
std::vector<Placed> threeCuts()
{
    return {{"stack", Kind::RoundCutOut, {.along = 0.2, .alongTo = 0.2, .around = 0.5, .aroundTo = 0.5, .radius = 0.1}, false},
        {"door", Kind::Door, {.along = 0.5, .alongTo = 1.2, .around = 0.4, .aroundTo = 0.9}, true},
        {"hatch", Kind::Door, {.along = 1.5, .alongTo = 1.8, .around = 0.4, .aroundTo = 0.9}, false}};
}

std::optional<WorkFault> refused(std::vector<Work> work)
{
    const auto fault = faultOf(work, threeCuts());
    return fault ? std::optional(fault->fault) : std::nullopt;
}

} // namespace

class PlanTest : public QObject {
    Q_OBJECT
private slots:
    void marksAreRoundedHalfUp()
    {
        QCOMPARE(markAt(inches(1 + 1.0 / 32)).sixteenths, 17); // half of a sixteenth goes up
        QCOMPARE(markAt(inches(1 + 0.99 / 32)).sixteenths, 16);
        QCOMPARE(markAt(quantity::metres(0.0125)).millimetres, 13);
        const Mark mark = markAt(inches(12.3));
        QCOMPARE(mark.sixteenths, 197); // 12 5/16
        QVERIFY(std::abs(mark.sixteenthResidual - (12.3 - 12.3125) * test::kInch) < 1e-12);
        QCOMPARE(mark.millimetres, 312);
        QVERIFY(std::abs(mark.millimetreResidual - 0.00042) < 1e-9);
    }

    void distancesGoRoundTheShell()
    {
        const double girth = 2.4;
        const Footprint seam{.along = 0, .alongTo = 2, .around = 2.35, .aroundTo = 2.35};
        const Footprint door{.along = 0.5, .alongTo = 1, .around = 0.1, .aroundTo = 0.6};
        QVERIFY(std::abs(gapBetween(door, seam, girth) - 0.15) < 1e-12); // the short way, over the datum line
        const Footprint nozzle{.along = 1.3, .alongTo = 1.3, .around = 1.0, .aroundTo = 1.0, .radius = 0.1};
        QVERIFY(std::abs(gapBetween(door, nozzle, girth) - 0.4) < 1e-12); // 3-4-5 triangle less the radius
        const Footprint inside{.along = 0.7, .alongTo = 0.7, .around = 0.3, .aroundTo = 0.3, .radius = 0.05};
        QCOMPARE(gapBetween(door, inside, girth), 0.0);
    }

    void onlyCutsClash()
    {
        const std::vector<Placed> all{{"door", Kind::Door, {.along = 0.5, .alongTo = 1, .around = 0.1, .aroundTo = 0.6}, true},
            {"weld", Kind::Seam, {.along = 0, .alongTo = 2, .around = 0.65, .aroundTo = 0.65}, false},
            {"pad", Kind::Pad, {.along = 0, .alongTo = 2, .around = 0.66, .aroundTo = 0.7}, false}};
        const auto found = clashes(all, {.seam = 0.0508, .pad = 0.02}, 2.4, 0);
        QCOMPARE(found.size(), std::size_t(1));
        QCOMPARE(found[0].second, std::size_t(1));
        QVERIFY(std::abs(found[0].gap - 0.05) < 1e-12);
        QCOMPARE(clashes(all, {.seam = 0.05, .pad = 0.02}, 2.4, 0).size(), std::size_t(0));
        QCOMPARE(clashes(all, {.seam = 0.05, .pad = 0.02}, 2.4, 0.001).size(), std::size_t(1)); // what the tape may be off
    }

    void theOrderIsItsOwnProof()
    {
        const auto all = threeCuts();
        const auto order = orderOfWork(all, true);
        QVERIFY(!faultOf(order, all));
        QCOMPARE(order.front().act, Act::CutOut);
        QCOMPARE(order.front().feature, std::optional<std::size_t>(0));
        QCOMPARE(order.back().act, Act::CutTabs);
        const auto release = std::ranges::find(order, Act::HotWorkRelease, &Work::act);
        for (auto one = order.begin(); one != order.end(); ++one) {
            QCOMPARE(isDry(one->act), one > release);
        }
    }

    void refusesWhatIsHotInTheWetStage()
    {
        const Work look{Act::CutOut, 0};
        const Work tabs{Act::CutToTabs, 1};
        const Work out{Act::LetOut, {}};
        const Work release{Act::HotWorkRelease, {}};
        const Work hinge{Act::FitHinge, 1};
        const Work strap{Act::FitStrap, 1};
        const Work last{Act::CutTabs, 1};
        QCOMPARE(refused({look, tabs, out, release, hinge, strap, last}), std::nullopt);
        QCOMPARE(refused({look, tabs, hinge}), std::optional(WorkFault::HotBeforeRelease));
        QCOMPARE(refused({look, tabs, out, strap}), std::optional(WorkFault::HotBeforeRelease));
        QCOMPARE(refused({look, tabs, out, last}), std::optional(WorkFault::HotBeforeRelease));
        QCOMPARE(refused({tabs}), std::optional(WorkFault::DoorBeforeFirstOpening));
        QCOMPARE(refused({look, {Act::CutOut, 1}}), std::optional(WorkFault::DoorCutRightOut));
        QCOMPARE(refused({look, tabs, release}), std::optional(WorkFault::ReleaseBeforeLetOut));
        QCOMPARE(refused({look, tabs, out, release, last}), std::optional(WorkFault::TabsBeforeHinge));
        QCOMPARE(refused({look, look}), std::optional(WorkFault::Twice));
        QCOMPARE(refused({look, tabs, out, release, {Act::FitHinge, 2}}), std::optional(WorkFault::NoHinge));
        QCOMPARE(refused({look, {Act::CutToTabs, 0}}), std::optional(WorkFault::NoDoor));
    }
};
BRIMFUL_SUITE(PlanTest);
#include "plan_test.moc"
