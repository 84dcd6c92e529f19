// Cuts and the water: still levels, pushes and pieces against what is worked by hand, and properties of any plan.
#include "core/water/cut.h"

#include "core/vessel/steel.h"
#include "core/water/level.h"
#include "tests/core/vessel/inches.h"
#include "tests/support/suite.h"

#include <QTest>
#include <rapidcheck.h>

#include <cmath>
#include <numbers>

using namespace brimful;
using namespace brimful::test;
using namespace brimful::water;

namespace {

constexpr double kPi = std::numbers::pi;
constexpr double kGravity = 9.80665;

Angle degrees(double value) { return quantity::radians(value * kPi / 180); }
Density density(double value) { return value * boost::units::si::kilogram / boost::units::si::cubic_metre; }
Spot spot(double x, double clock) { return {x * kInch, clock * kPi / 180}; }
Cut cut(const char* name, const std::vector<Spot>& path) { return {name, path, quantity::metres(0.003), Discharge::ofKerf()}; }
std::vector<Spot> rectangle(double x1, double x2, double from, double to)
{
    return {spot(x1, from), spot(x2, from), spot(x2, to), spot(x1, to), spot(x1, from)};
}
std::vector<Spot> allRound(double x) { return {spot(x, 0), spot(x, 120), spot(x, 240), spot(x, 360)}; }

const Shell& tank()
{
    static const Shell shell = insideShell(30, 62, hemispherical());
    return shell;
}
const Shell& steelTank()
{
    static const Shell shell = vessel::Shell::make(outsideSize(30, 92, 0.25, hemispherical())).value();
    return shell;
}
CutPlan brim(const Shell& shell)
{
    CutPlan out;
    out.level = highestPoint(shell, degrees(0));
    out.vents.push_back({"vent", out.level});
    out.water = density(998);
    return out;
}
std::vector<CutStep> planned(const Shell& shell, const std::vector<Cut>& cuts, const CutPlan& plan, const Pose& pose = {})
{
    return planCuts(shell, pose, cuts, plan).value();
}
std::vector<Piece> ofKind(const CutStep& step, Piece::Kind kind)
{
    std::vector<Piece> out;
    std::ranges::copy_if(step.pieces, std::back_inserter(out), [&](const Piece& piece) { return piece.kind == kind; });
    return out;
}

} // namespace

class CutTest : public QObject {
    Q_OBJECT
private slots:
    void stillLevels_data();
    void stillLevels();
    void meetsTheWater();
    void pushOnADoor_data();
    void pushOnADoor();
    void pushOnAWholeHead();
    void doorWeighs_data();
    void doorWeighs();
    void crossCutLeavesTwoPieces();
    void headComesOff();
    void vents();
    void hoseKeepsItUp();
    void oneAfterAnother();
    void refusals();
    void nothingIsLost();
};

// 30 in x 62 in hemispherical, level, to the brim, a cut along the axis at a clock angle: it runs out to R cos(angle). Volumes
// worked by the segment formulas in another program.
void CutTest::stillLevels_data()
{
    QTest::addColumn<double>("clock");
    QTest::addColumn<double>("height");
    QTest::addColumn<double>("gallons");
    QTest::newRow("30") << 30.0 << 12.990 << 6.258;
    QTest::newRow("45") << 45.0 << 10.607 << 20.788;
    QTest::newRow("60") << 60.0 << 7.500 << 46.653;
    QTest::newRow("90") << 90.0 << 0.0 << 125.460;
    QTest::newRow("120") << 120.0 << -7.5 << 204.267;
    QTest::newRow("150") << 150.0 << -12.990 << 244.662;
}

void CutTest::stillLevels()
{
    QFETCH(double, clock);
    QFETCH(double, height);
    QFETCH(double, gallons);
    const auto got = planned(tank(), {cut("a", {spot(20, clock), spot(40, clock)})}, brim(tank()));
    QVERIFY(std::abs(inInches(got[0].levelAfter) - height) <= 6e-4);
    QVERIFY2(std::abs(inGallons(got[0].runsOut) - gallons) <= 1e-3, qPrintable(QString::number(inGallons(got[0].runsOut), 'g', 9)));
    QVERIFY(std::abs((got[0].gasSpace - got[0].runsOut).value()) <= 1e-9);
    QVERIFY(got[0].time && got[0].fast && got[0].slow);
    QVERIFY(got[0].fast < got[0].time && got[0].time < got[0].slow);
    QVERIFY(std::abs(got[0].jet - std::sqrt(2 * kGravity * (15 - height) * kInch)) <= 1e-3);
}

// A cut from 30 to 90 degrees with the level at 60: it goes under half way; from below on, at its start; above, never.
void CutTest::meetsTheWater()
{
    CutPlan plan = brim(tank());
    plan.level = inches(7.5);
    const auto got = planned(tank(), {cut("down", {spot(31, 30), spot(31, 90)})}, plan);
    QVERIFY(got[0].meetsWater.has_value());
    QVERIFY(std::abs(got[0].meetsWater->spot.clock - kPi / 3) <= 1e-4);
    QVERIFY(std::abs(got[0].meetsWater->run - 15 * kInch * kPi / 6) <= 1e-4);
    QVERIFY(std::abs(got[0].length.value() - 15 * kInch * kPi / 3) <= 1e-6);
    const auto under = planned(tank(), {cut("under", {spot(10, 80), spot(50, 80)})}, plan);
    QCOMPARE(under[0].meetsWater->run, 0.0);
    const auto over = planned(tank(), {cut("over", {spot(10, 20), spot(50, 40)})}, plan);
    QVERIFY(!over[0].meetsWater && !over[0].time);
    QCOMPARE(over[0].runsOut.value(), 0.0);
    QCOMPARE(over[0].levelAfter, over[0].levelBefore);
}

// Push on a door between clock 30 and 100 with water to the brim: pressure rho g R (1 - cos a) over R da L, worked by hand:
// across rho g R^2 L [(1 - cos a)^2 / 2], up rho g R^2 L [sin a - a/2 - sin 2a / 4]. 93, 194, 232 kgf in another working, and with
// the level fallen to clock 60 still 30, 63, 75.
void CutTest::pushOnADoor_data()
{
    QTest::addColumn<double>("diameter");
    QTest::addColumn<double>("length");
    QTest::addColumn<double>("kilogramsForce");
    QTest::addColumn<double>("fallen");
    QTest::newRow("30 in, 36 in long") << 30.0 << 36.0 << 93.0 << 30.0;
    QTest::newRow("37.5 in, 48 in long") << 37.5 << 48.0 << 194.0 << 63.0;
    QTest::newRow("41 in, 48 in long") << 41.0 << 48.0 << 232.0 << 75.0;
}

void CutTest::pushOnADoor()
{
    QFETCH(double, diameter);
    QFETCH(double, length);
    QFETCH(double, kilogramsForce);
    QFETCH(double, fallen);
    const Shell shell = insideShell(diameter, 100, hemispherical());
    const double radius = diameter / 2 * kInch;
    const Push got = pushOn(shell, Meridian(shell), {}, rectangle(20, 20 + length, 30, 100), quantity::metres(radius), density(998));
    const auto across = [](double a) { return (1 - std::cos(a)) * (1 - std::cos(a)) / 2; };
    const auto up = [](double a) { return std::sin(a) - a / 2 - std::sin(2 * a) / 4; };
    const double from = kPi / 6;
    const double to = kPi * 100 / 180;
    const double unit = 998 * kGravity * radius * radius * length * kInch;
    const double wanted = unit * std::hypot(across(to) - across(from), up(to) - up(from));
    QVERIFY2(std::abs(got.force.value() - wanted) <= 1e-9 * wanted, qPrintable(QString::number(got.force.value(), 'g', 12)));
    QVERIFY2(std::abs(got.force.value() / kGravity - kilogramsForce) <= 1, qPrintable(QString::number(got.force.value() / kGravity)));
    const double area = radius * (to - from) * length * kInch;
    QVERIFY(std::abs(got.area.value() - area) <= 1e-9 * area);
    QVERIFY(std::abs(inInches(got.centre) - (20 + length / 2)) <= 1e-9);
    const Push half = pushOn(shell, Meridian(shell), {}, rectangle(20, 20 + length, 60, 100), quantity::metres(radius / 2), density(998));
    QVERIFY2(std::abs(half.force.value() / kGravity - fallen) <= 0.6, qPrintable(QString::number(half.force.value() / kGravity)));
    const Push whole = pushOn(shell, Meridian(shell), {}, rectangle(20, 20 + length, 30, 100), quantity::metres(radius / 2), density(998));
    QVERIFY(std::abs((half.force - whole.force).value()) <= 2e-3 * half.force.value());
}

// The water's push on a whole flat end is rho g R times its area; on a hemisphere that, and the weight of the water in it.
void CutTest::pushOnAWholeHead()
{
    const double R = 15 * kInch;
    const double end = 998 * kGravity * R * kPi * R * R;
    const Shell boxed = insideShell(30, 62, flat());
    const std::vector<Spot> disc{{boxed.length().value(), 0}, {boxed.length().value() + R, 0}, {boxed.length().value() + R, kPi},
        {boxed.length().value() + R, 2 * kPi}, {boxed.length().value(), 2 * kPi}, {boxed.length().value(), kPi}};
    const Push onFlat = pushOn(boxed, Meridian(boxed), {}, disc, quantity::metres(R), density(998));
    QVERIFY2(std::abs(onFlat.force.value() - end) <= 1e-6 * end, qPrintable(QString::number(onFlat.force.value() / end, 'g', 9)));
    QVERIFY(std::abs(onFlat.area.value() - kPi * R * R) <= 1e-6);

    const Meridian meridian(tank());
    const double pole = meridian.to();
    const double tangent = tank().length().value();
    const std::vector<Spot> head{{tangent, 0}, {pole, 0}, {pole, kPi}, {pole, 2 * kPi}, {tangent, 2 * kPi}, {tangent, kPi}};
    const Push onHead = pushOn(tank(), meridian, {}, head, quantity::metres(R), density(998));
    const double weight = 998 * kGravity * 2 * kPi * R * R * R / 3;
    const double wanted = std::hypot(end, weight);
    QVERIFY2(std::abs(onHead.force.value() - wanted) <= 1e-4 * wanted, qPrintable(QString::number(onHead.force.value() / wanted, 'g', 9)));
    QVERIFY(std::abs(onHead.area.value() - 2 * kPi * R * R) <= 1e-4);
}

// Plate: area times 49.85 kg/m2 of 1/4 in (7850 kg/m3); 21, 35, 39 kg in another working.
void CutTest::doorWeighs_data()
{
    QTest::addColumn<double>("diameter");
    QTest::addColumn<double>("length");
    QTest::addColumn<double>("kilograms");
    QTest::newRow("30 in, 36 in long") << 30.0 << 36.0 << 21.0;
    QTest::newRow("37.5 in, 48 in long") << 37.5 << 48.0 << 35.0;
    QTest::newRow("41 in, 48 in long") << 41.0 << 48.0 << 39.0;
}

void CutTest::doorWeighs()
{
    QFETCH(double, diameter);
    QFETCH(double, length);
    QFETCH(double, kilograms);
    const Shell shell = vessel::Shell::make(outsideSize(diameter, 160, 0.25, hemispherical())).value();
    const auto got = planned(shell, {cut("door", rectangle(20, 20 + length, 30, 100))}, brim(shell));
    QVERIFY2(std::abs(got[0].panelMass->value() - kilograms) <= 0.6, qPrintable(QString::number(got[0].panelMass->value())));
    const double middle = (diameter - 0.25) / 2 * kInch;
    const double exact = middle * kPi * 70 / 180 * length * kInch * 0.25 * kInch * vessel::kSteelDensity;
    QVERIFY(std::abs(got[0].panelMass->value() - exact) <= 1e-9 * exact);
    const auto rest = ofKind(got[0], Piece::Kind::Rest);
    QVERIFY(std::abs((rest[0].mass + *got[0].panelMass - shell.steelMass()).value()) <= 1e-9);
}

// Cut across between its two supports each half stands on one; by symmetry each weighs half.
void CutTest::crossCutLeavesTwoPieces()
{
    CutPlan plan = brim(steelTank());
    plan.supports = {inches(10), inches(52)};
    const double middle = inInches(steelTank().length()) / 2;
    const auto got = planned(steelTank(), {cut("door", rectangle(20, 25, 30, 60)), cut("across", allRound(middle))}, plan);
    QVERIFY(ofKind(got[0], Piece::Kind::Rest)[0].stands);
    QCOMPARE(ofKind(got[0], Piece::Kind::Rest)[0].supports, std::size_t(2));
    const auto left = ofKind(got[1], Piece::Kind::Left);
    const auto right = ofKind(got[1], Piece::Kind::Right);
    QCOMPARE(left.size(), std::size_t(1));
    QVERIFY(!left[0].stands && !right[0].stands);
    QCOMPARE(left[0].supports, std::size_t(1));
    QVERIFY(std::abs((right[0].mass - steelTank().steelMass() / 2.0).value()) <= 1e-6);
    QVERIFY(std::abs((left[0].mass + right[0].mass + *got[0].panelMass - steelTank().steelMass()).value()) <= 1e-6);
    QVERIFY(ofKind(got[1], Piece::Kind::Rest).empty());
}

// A hemispherical head of 30 in, 1/4 in plate, weighs 45 kg (in another working); cut off at the tangent line.
void CutTest::headComesOff()
{
    const auto got = planned(steelTank(), {cut("head", allRound(0))}, brim(steelTank()));
    const auto left = ofKind(got[0], Piece::Kind::Left);
    QVERIFY2(std::abs(left[0].mass.value() - 45) <= 0.6, qPrintable(QString::number(left[0].mass.value())));
    // Half shells have their centre at half their radius, thin-walled.
    QVERIFY(std::abs(inInches(left[0].centre) + 7.44) <= 0.05);
}

void CutTest::vents()
{
    CutPlan plan = brim(tank());
    const std::vector<Cut> low{cut("low", {spot(20, 80), spot(40, 80)})};
    QCOMPARE(planned(tank(), low, plan)[0].vent, std::optional<std::string>("vent"));
    plan.vents.clear();
    const auto shut = planned(tank(), low, plan);
    QVERIFY(!shut[0].vent && !shut[0].time);
    QVERIFY(shut[0].runsOut.value() > 0);
    // With the level down a cut that reaches above it vents itself; and any cut before it does.
    plan.level = inches(10);
    QCOMPARE(planned(tank(), {cut("self", {spot(31, 20), spot(31, 80)})}, plan)[0].vent, std::optional<std::string>("self"));
    const auto both = planned(tank(), {cut("first", {spot(20, 10), spot(40, 10)}), low[0]}, plan);
    QCOMPARE(both[1].vent, std::optional<std::string>("first"));
}

// A hose of 9 US gal/min over a 3 mm x 300 mm kerf with C 0.62 keeps 52.8 mm above it; h = (Q / (C w l))^2 / 2g.
void CutTest::hoseKeepsItUp()
{
    CutPlan plan = brim(tank());
    plan.inflow = 9 * kGallon / 60 * boost::units::si::cubic_metre / boost::units::si::second;
    Cut one = cut("a", {{31 * kInch - 0.15, kPi / 4}, {31 * kInch + 0.15, kPi / 4}});
    one.discharge = Discharge::ofKerf(0.62);
    const auto got = planned(tank(), {one}, plan);
    QVERIFY(got[0].held);
    QVERIFY(!got[0].time);
    QVERIFY(std::abs((got[0].levelAfter - got[0].lowest).value() - 0.0528) <= 1e-4);
    // A kerf too small for the hose leaves the level where it was.
    one.path = {{31 * kInch, 0.2}, {31 * kInch + 0.01, 0.2}};
    const auto small = planned(tank(), {one}, plan);
    QVERIFY(std::abs((small[0].levelAfter - small[0].levelBefore).value()) <= 1e-9);
    QVERIFY(small[0].held);
}

// What the second cut lets out comes on top of the first; one that lies above the water lets out nothing more.
void CutTest::oneAfterAnother()
{
    const std::vector<Cut> cuts{
        cut("a", {spot(20, 45), spot(40, 45)}), cut("b", {spot(20, 30), spot(40, 30)}), cut("c", {spot(20, 90), spot(40, 90)})};
    const auto got = planned(tank(), cuts, brim(tank()));
    QVERIFY(std::abs(inGallons(got[0].runsOut) - 20.788) <= 1e-3);
    QVERIFY(std::abs(got[1].runsOut.value()) <= 1e-9 && !got[1].meetsWater);
    QVERIFY(std::abs(inGallons(got[2].runsOut) - (125.460 - 20.788)) <= 2e-3);
    QCOMPARE(got[2].levelBefore, got[0].levelAfter);
}

void CutTest::refusals()
{
    const auto fault = [](const std::vector<Cut>& cuts) { return planCuts(tank(), {}, cuts, brim(tank())).error(); };
    const auto few = fault({cut("a", {spot(1, 1)})});
    QCOMPARE(few.fault, CutFault::TooFewPlaces);
    // 350 to 10 is the long way round; which was meant must be said.
    const auto far = fault({cut("a", {spot(1, 1), spot(2, 2)}), cut("b", {spot(20, 350), spot(20, 10)})});
    QCOMPARE(far.fault, CutFault::TurnTooFar);
    QCOMPARE(far.cut, std::size_t(1));
    QCOMPARE(far.place, std::size_t(1));
}

// Any cuts at any pose: levels only fall, what runs out is what is missing, masses add up.
void CutTest::nothingIsLost()
{
    const bool held = rc::check([] {
        const auto number = [](int low, int high) { return static_cast<double>(*rc::gen::inRange(low, high)); };
        const Pose pose{degrees(number(-60, 61) / 10), degrees(number(-180, 181))};
        CutPlan plan = brim(steelTank());
        plan.level = highestPoint(steelTank(), pose.pitch);
        std::vector<Cut> cuts;
        const int count = *rc::gen::inRange(1, 4);
        for (int i = 0; i < count; ++i) {
            const double x = number(2, 30);
            const double clock = number(0, 360);
            const double wide = number(1, 170);
            switch (*rc::gen::inRange(0, 3)) {
            case 0:
                cuts.push_back(cut("line", {spot(x, clock), spot(x + number(1, 30), clock + wide)}));
                break;
            case 1:
                cuts.push_back(cut("door", rectangle(x, x + number(1, 30), clock, clock + wide)));
                break;
            default:
                cuts.push_back(cut("round", allRound(x)));
            }
        }
        const auto got = planned(steelTank(), cuts, plan, pose);
        double ran = 0;
        for (const CutStep& step : got) {
            RC_ASSERT(step.levelAfter <= step.levelBefore);
            RC_ASSERT(step.lowest <= step.highest);
            ran += step.runsOut.value();
        }
        RC_ASSERT(std::abs(ran - above(steelTank(), pose.pitch, got.back().levelAfter).volume.value()) <= 1e-8);
        if (count == 1) {
            double mass = 0;
            for (const Piece& piece : got.back().pieces) {
                mass += piece.mass.value();
            }
            RC_ASSERT(std::abs(mass - steelTank().steelMass().value()) <= 1e-6);
        }
    });
    QVERIFY(held);
}

BRIMFUL_SUITE(CutTest);
#include "cut_test.moc"
