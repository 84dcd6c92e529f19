// Running out, against closed forms, published problems and an independent solver of ordinary differential equations (GNU
// Scientific Library) that shares neither the areas nor the outflow with the program.
#include "core/water/drain.h"

#include "core/water/level.h"
#include "tests/core/vessel/inches.h"
#include "tests/support/suite.h"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_integration.h>
#include <gsl/gsl_odeiv2.h>

#include <QTest>
#include <rapidcheck.h>

#include <cmath>
#include <functional>
#include <memory>
#include <numbers>
#include <random>

using namespace brimful;
using namespace brimful::test;
using namespace brimful::water;

namespace {

constexpr double kPi = std::numbers::pi;
constexpr double kGravity = 9.80665;

Angle degrees(double value) { return quantity::radians(value * kPi / 180); }
Pose pose(double pitch, double roll = 0) { return {degrees(pitch), degrees(roll)}; }
VolumeFlow flow(double value) { return value * boost::units::si::cubic_metre / boost::units::si::second; }
constexpr Discharge fixed(double value) { return {value, value, value}; }

Outlet hole(const Shell& shell, const Pose& at, double x, double clock, double diameter, double discharge)
{
    const Place place{OnShell{quantity::metres(x)}, degrees(clock)};
    return Outlet::hole(wallPoint(shell, place).value(), place.clock.value(), at, diameter, fixed(discharge));
}
Outlet slot(const Shell& shell, const Pose& at, double x, double clock, double length, double width, double discharge)
{
    const std::vector<Spot> ends{{x - length / 2, clock * kPi / 180}, {x + length / 2, clock * kPi / 180}};
    return Outlet::kerf(pathThrough(Meridian(shell), ends), at, width, fixed(discharge));
}
Outlet girth(const Shell& shell, const Pose& at, double x, double from, double to, double width, double discharge)
{
    const std::vector<Spot> ends{{x, from * kPi / 180}, {x, to * kPi / 180}};
    return Outlet::kerf(pathThrough(Meridian(shell), ends), at, width, fixed(discharge));
}

double secondsOf(const Drained& drained) { return drained.time ? drained.time->value() : std::numeric_limits<double>::quiet_NaN(); }

// The same vessel and outlets, written once more: hemispherical or 2:1 heads by their own equations, areas by a quadrature of
// chords, outflow by a quadrature along the opening. Metres and radians.
struct Other {
    double radius;
    double length;
    double depth; // of both heads
    double pitch;
    double roll;
    struct Opening {
        double x;
        double from; // clock; of a round hole its middle
        double to;
        double length; // along the axis, of a slot
        double width; // of a slot or kerf; 0: a round hole
        double diameter;
        double discharge;
    };
    std::vector<Opening> openings;
    double inflow{};

    [[nodiscard]] double radiusAt(double x) const
    {
        const double off = x < 0 ? -x : x > length ? x - length : 0;
        return radius * std::sqrt(std::max(0.0, 1 - off * off / (depth * depth)));
    }
    [[nodiscard]] double area(double z) const;
    [[nodiscard]] double outflow(double z) const;
};

struct Workspace {
    std::unique_ptr<gsl_integration_workspace, decltype(&gsl_integration_workspace_free)> own{
        gsl_integration_workspace_alloc(500), gsl_integration_workspace_free};
};

double integral(double from, double to, const std::function<double(double)>& f)
{
    static Workspace workspace;
    gsl_function function{[](double x, void* data) { return (*static_cast<const std::function<double(double)>*>(data))(x); },
        const_cast<std::function<double(double)>*>(&f)}; // NOLINT(cppcoreguidelines-pro-type-const-cast): a C interface
    double result = 0;
    double error = 0;
    gsl_integration_qag(&function, from, to, 1e-13, 1e-9, 500, GSL_INTEG_GAUSS31, workspace.own.get(), &result, &error);
    return result;
}

double Other::area(double z) const
{
    const auto chord = [&](double x) {
        const double y = (z - x * std::sin(pitch)) / std::cos(pitch);
        const double r = radiusAt(x);
        return 2 * std::sqrt(std::max(0.0, r * r - y * y));
    };
    return (integral(-depth, 0, chord) + integral(0, length, chord) + integral(length, length + depth, chord)) / std::cos(pitch);
}

double Other::outflow(double z) const
{
    double sum = 0;
    for (const Opening& o : openings) {
        const auto speed = [&](double height) { return std::sqrt(2 * kGravity * std::max(0.0, z - height)); };
        if (o.width > 0 && o.length > 0) {
            const double up = radius * std::cos(o.from + roll) * std::cos(pitch);
            sum += o.discharge * o.width
                * integral(o.x - o.length / 2, o.x + o.length / 2, [&](double x) { return speed(x * std::sin(pitch) + up); });
        } else if (o.width > 0) {
            const double base = o.x * std::sin(pitch);
            sum += o.discharge * o.width * radius
                * integral(o.from, o.to, [&](double a) { return speed(base + radius * std::cos(a + roll) * std::cos(pitch)); });
        } else {
            // A disc in the tangent plane; t runs up its line of steepest rise.
            const double middle = o.x * std::sin(pitch) + radius * std::cos(o.from + roll) * std::cos(pitch);
            const double along = std::sin(pitch);
            const double around = std::sin(o.from + roll) * std::cos(pitch);
            const double steep = std::hypot(along, around);
            const double r = o.diameter / 2;
            sum += o.discharge
                * integral(-r, r, [&](double t) { return 2 * std::sqrt(std::max(0.0, r * r - t * t)) * speed(middle + steep * t); });
        }
    }
    return sum;
}

// Level after a time, by an explicit Runge-Kutta method of order 8 with its own steps.
double levelAfter(const Other& other, double level, double time)
{
    gsl_odeiv2_system system{[](double, const double z[], double rate[], void* data) {
                                 const Other& one = *static_cast<const Other*>(data);
                                 rate[0] = (one.inflow - one.outflow(z[0])) / one.area(z[0]);
                                 return static_cast<int>(GSL_SUCCESS);
                             },
        nullptr, 1, const_cast<Other*>(&other)}; // NOLINT(cppcoreguidelines-pro-type-const-cast): a C interface
    const std::unique_ptr<gsl_odeiv2_driver, decltype(&gsl_odeiv2_driver_free)> driver(
        gsl_odeiv2_driver_alloc_y_new(&system, gsl_odeiv2_step_rk8pd, time / 1e5, 1e-7, 0), gsl_odeiv2_driver_free);
    double t = 0;
    double z = level;
    return gsl_odeiv2_driver_apply(driver.get(), &t, time, &z) == GSL_SUCCESS ? z : std::numeric_limits<double>::quiet_NaN();
}

Shell metricShell(double diameter, double length, const vessel::HeadSize& heads)
{
    return vessel::Shell::make({vessel::InsideDiameter(quantity::metres(diameter)), quantity::metres(0),
                                   vessel::ShellLength(quantity::metres(length)), heads, heads})
        .value();
}

} // namespace

class DrainTest : public QObject {
    Q_OBJECT
private slots:
    void cylinderThroughTheBottom();
    void sphereThroughTheBottom();
    void uprightTank();
    void worked_data();
    void worked();
    void girthKerf();
    void hoseHoldsTheLevel();
    void fills();
    void fillsWhileItLeaks();
    void partlyWetHole();
    void refusals();
    void slowAndFast();
    void againstAnotherSolver();
    void curveRunsDown();
};

// Level cylinder with flat ends, hole along the bottom: t = 4 L / (3 C a sqrt(2g)) ((2R - h2)^1.5 - (2R - h1)^1.5), the closed
// form of hydraulics texts. L 5 m, D 2 m, half full, 100 mm, C 0.6, in the text with g 9.81: 583.977 s.
void DrainTest::cylinderThroughTheBottom()
{
    const Shell shell = metricShell(2, 5, flat());
    const Outlet out = hole(shell, pose(0), 2.5, 180, 0.1, 0.6);
    const double a = kPi * 0.01 / 4;
    for (const double from : {-0.9, -0.2, 0.0, 0.7, 1.0}) {
        for (const double to : {-1.0, -0.95}) {
            const auto got = drain(shell, degrees(0), std::array{out}, {quantity::metres(from), quantity::metres(to), flow(0)});
            const double h1 = from + 1;
            const double h2 = to + 1;
            const double wanted = 4 * 5 / (3 * 0.6 * a * std::sqrt(2 * kGravity)) * (std::pow(2 - h2, 1.5) - std::pow(2 - h1, 1.5));
            QVERIFY2(std::abs(secondsOf(*got) - wanted) <= 1e-7 * wanted, qPrintable(QString::number(secondsOf(*got), 'g', 12)));
        }
    }
    const auto half = drain(shell, degrees(0), std::array{out}, {quantity::metres(0), std::nullopt, flow(0)});
    QVERIFY(std::abs(secondsOf(*half) * std::sqrt(kGravity / 9.81) - 583.977) <= 1e-3);
    QVERIFY(!half->atFiniteHead);
}

// A sphere of 3 m, 2.75 m of water, a 30 mm hole at the bottom, C 0.55: t = pi / (C a sqrt(2g)) ((4R/3) h^1.5 - (2/5) h^2.5), worked
// with g 9.81 to 7487.67 s (the problem from a text on numerical methods, P25.20). At any pitch: a sphere has none.
void DrainTest::sphereThroughTheBottom()
{
    const Shell sphere = vessel::Shell::make({vessel::InsideDiameter(quantity::metres(3)), quantity::metres(0),
                                                 vessel::ShellLength(quantity::metres(0)), hemispherical(), hemispherical()})
                             .value();
    const auto got =
        drain(sphere, degrees(0), std::array{hole(sphere, pose(0), 0, 180, 0.03, 0.55)}, {quantity::metres(1.25), std::nullopt, flow(0)});
    QVERIFY2(
        std::abs(secondsOf(*got) * std::sqrt(kGravity / 9.81) - 7487.67) <= 0.01, qPrintable(QString::number(secondsOf(*got), 'g', 9)));
}

// An upright tank of one width: t = 2 A (sqrt h1 - sqrt h2) / (C a sqrt(2g)). 1.2 m wide, 3 m, 50 mm in the bottom, C 0.6: 750.78 s
// with g 9.81 (a hydraulics text, example 6.17). And a cone of 3.66 m under a cylinder of the same size, 0.0929 m2, C 0.60:
// published 67.6 + 32.6 s, exactly 67.54 + 32.61.
void DrainTest::uprightTank()
{
    const Shell tank = metricShell(1.2, 3, flat());
    const Place bottom{OnHead{Side::Left, quantity::metres(0)}, degrees(0)};
    const Pose upright = pose(90);
    const auto outlet = Outlet::hole(wallPoint(tank, bottom).value(), 0, upright, 0.05, fixed(0.6));
    const auto got = drain(tank, upright.pitch, std::array{outlet}, {quantity::metres(3), std::nullopt, flow(0)});
    QVERIFY2(std::abs(secondsOf(*got) * std::sqrt(kGravity / 9.81) - 750.78) <= 0.01, qPrintable(QString::number(secondsOf(*got), 'g', 9)));

    const vessel::HeadSize cone{vessel::HeadKind::Conical, 1.0, 0.06, quantity::metres(3.66)};
    const Shell hopper = vessel::Shell::make(
        {vessel::InsideDiameter(quantity::metres(3.66)), quantity::metres(0), vessel::ShellLength(quantity::metres(3.66)), cone, flat()})
                             .value();
    const double diameter = std::sqrt(4 * 0.0929 / kPi);
    const auto tip = Outlet::hole(wallPoint(hopper, bottom).value(), 0, upright, diameter, fixed(0.6));
    const auto first = drain(hopper, upright.pitch, std::array{tip}, {quantity::metres(3.66), quantity::metres(0), flow(0)});
    const auto second = drain(hopper, upright.pitch, std::array{tip}, {quantity::metres(0), std::nullopt, flow(0)});
    QVERIFY2(std::abs(secondsOf(*first) - 67.54) <= 0.05, qPrintable(QString::number(secondsOf(*first), 'g', 9)));
    QVERIFY2(std::abs(secondsOf(*second) - 32.61) <= 0.05, qPrintable(QString::number(secondsOf(*second), 'g', 9)));
}

// Inside diameter 30 in, 62 in, hemispherical, worked in another program.
void DrainTest::worked_data()
{
    QTest::addColumn<double>("diameter");
    QTest::addColumn<double>("seconds");
    QTest::newRow("1 in") << 1.0 << 1330.52;
    QTest::newRow("2 in") << 2.0 << 332.63;
    QTest::newRow("3 in") << 3.0 << 147.84;
}

void DrainTest::worked()
{
    QFETCH(double, diameter);
    QFETCH(double, seconds);
    const Shell shell = insideShell(30, 62, hemispherical());
    const auto got = drain(shell, degrees(0), std::array{hole(shell, pose(0), 31 * kInch, 180, diameter * kInch, 0.61)},
        {highestPoint(shell, degrees(0)), std::nullopt, flow(0)});
    QVERIFY2(std::abs(secondsOf(*got) - seconds) <= 0.05, qPrintable(QString::number(secondsOf(*got), 'g', 9)));
    QVERIFY(std::abs(inGallons(got->ranOut) - 250.9194) <= 1e-3);
}

// A 3 mm kerf round from 30 to 60 degrees never quite drains to its end. To within 10 mm, C 0.62, from the level at 30 degrees
// 2791.3 s and 36.787 gal, from the brim 2843.6 s and 43.045 gal (worked in another program).
void DrainTest::girthKerf()
{
    const Shell shell = insideShell(30, 62, hemispherical());
    const std::array outlets{girth(shell, pose(0), 31 * kInch, 30, 60, 0.003, 0.62)};
    const Length to = inches(7.5) + quantity::metres(0.01);
    const auto from30 = drain(shell, degrees(0), outlets, {inches(15 * std::cos(kPi / 6)), to, flow(0)});
    QVERIFY2(std::abs(secondsOf(*from30) - 2791.3) <= 0.3, qPrintable(QString::number(secondsOf(*from30), 'g', 9)));
    QVERIFY(std::abs(inGallons(from30->ranOut) - 36.787) <= 1e-3);
    const auto brim = drain(shell, degrees(0), outlets, {inches(15), to, flow(0)});
    QVERIFY2(std::abs(secondsOf(*brim) - 2843.6) <= 0.3, qPrintable(QString::number(secondsOf(*brim), 'g', 9)));
    QVERIFY(std::abs(inGallons(brim->ranOut) - 43.045) <= 1e-3);
    // Nothing asked for: it stops at a finite head, which is what the kerf holds back or 5 mm.
    const auto by_itself = drain(shell, degrees(0), outlets, {inches(15), std::nullopt, flow(0)});
    QVERIFY(by_itself->atFiniteHead);
    QVERIFY(std::abs((by_itself->end - inches(7.5)).value() - 0.005) <= 1e-6);
    QVERIFY(secondsOf(*by_itself) > secondsOf(*brim));
    // To within 5 mm 76 min from the level at 30 degrees.
    const auto close = drain(shell, degrees(0), outlets, {inches(15 * std::cos(kPi / 6)), inches(7.5) + quantity::metres(0.005), flow(0)});
    QVERIFY(std::abs(secondsOf(*close) / 60 - 76) <= 0.5);
}

// 9 US gal/min over 3 mm x 300 mm, C 0.62: h = (Q / (C w l))^2 / 2g = 52.8 mm, by hand.
void DrainTest::hoseHoldsTheLevel()
{
    const Shell shell = insideShell(30, 62, hemispherical());
    const std::array outlets{slot(shell, pose(0), 31 * kInch, 45, 0.3, 0.003, 0.62)};
    const double hose = 9 * kGallon / 60;
    const double head = std::pow(hose / (0.62 * 0.003 * 0.3), 2) / (2 * kGravity);
    QVERIFY(std::abs(head - 0.0528) <= 1e-4);
    for (const double from : {15.0, 11.0}) { // from above it falls there, from below it rises
        const auto got = drain(shell, degrees(0), outlets, {inches(from), std::nullopt, flow(hose)});
        QVERIFY(!got->time && got->settles);
        QVERIFY(std::abs(got->settles->value() - outlets[0].lowest() - head) <= 1e-9);
    }
}

void DrainTest::fills()
{
    const Shell shell = insideShell(30, 62, twoToOne());
    const Angle pitch = degrees(4);
    const auto got = drain(shell, pitch, {}, {lowestPoint(shell, pitch), std::nullopt, flow(0.0005)});
    QVERIFY(std::abs(secondsOf(*got) - shell.capacity().value() / 0.0005) <= 1e-6 * secondsOf(*got));
    QVERIFY(std::abs((got->ranOut + shell.capacity()).value()) <= 1e-9);
}

// A box of one width that fills while it leaks: dh/dt = (q - k sqrt h) / A has the solution
// t = (2A/k) ((sqrt h1 - sqrt h2) + (q/k) ln((q - k sqrt h1) / (q - k sqrt h2))).
void DrainTest::fillsWhileItLeaks()
{
    const Shell tank = metricShell(1.2, 3, flat());
    const Pose upright = pose(90);
    const Place bottom{OnHead{Side::Left, quantity::metres(0)}, degrees(0)};
    const auto outlet = Outlet::hole(wallPoint(tank, bottom).value(), 0, upright, 0.02, fixed(0.6));
    const double k = 0.6 * kPi * 0.0004 / 4 * std::sqrt(2 * kGravity);
    const double q = 0.002;
    const double A = kPi * 1.44 / 4;
    const auto got = drain(tank, upright.pitch, std::array{outlet}, {quantity::metres(0.5), quantity::metres(2), flow(q)});
    const double wanted =
        2 * A / k * (std::sqrt(0.5) - std::sqrt(2.0) + q / k * std::log((q - k * std::sqrt(0.5)) / (q - k * std::sqrt(2.0))));
    QVERIFY2(std::abs(secondsOf(*got) - wanted) <= 1e-6 * wanted, qPrintable(QString("%1 %2").arg(secondsOf(*got)).arg(wanted)));
}

// A hole in the side runs as far as it is wet: at the middle of an upright disc of radius r the sum over the lower half is
// 2 sqrt(2g) r^2.5 times the integral of sqrt(1 - t^2) sqrt(t) over 0..1, (1/2) B(3/4, 3/2) = 0.479256...
void DrainTest::partlyWetHole()
{
    const Shell shell = metricShell(1, 2, flat());
    const Outlet side = hole(shell, pose(0), 1, 90, 0.1, 1);
    const double half = std::tgamma(0.75) * std::tgamma(1.5) / std::tgamma(2.25) / 2;
    const double wanted = 2 * std::sqrt(2 * kGravity) * std::pow(0.05, 2.5) * half;
    QVERIFY(std::abs(side.ideal(0) - wanted) <= 1e-9 * wanted);
    QCOMPARE(side.ideal(-0.05), 0.0);
    // In a flat end, its lip just at the bottom: the last of it takes for ever, so it stops at a finite head.
    const Shell boxed = metricShell(1, 2, flat());
    const Place touching{OnHead{Side::Left, quantity::metres(0.45)}, degrees(180)};
    const std::array low{Outlet::hole(wallPoint(boxed, touching).value(), kPi, pose(0), 0.1, fixed(0.6))};
    const auto last = drain(boxed, degrees(0), low, {quantity::metres(0.5), std::nullopt, flow(0)});
    QVERIFY(last->atFiniteHead);
    QVERIFY(std::abs(last->end.value() + 0.495) <= 1e-9);
    // Far below the surface it is a sqrt(2 g h).
    const double deep = side.area() * std::sqrt(2 * kGravity * 50);
    QVERIFY(std::abs(side.ideal(50) - deep) <= 1e-6 * deep);
}

void DrainTest::refusals()
{
    const Shell shell = insideShell(30, 62, hemispherical());
    const std::array high{hole(shell, pose(0), 0.5, 45, 0.02, 0.6)};
    const auto fault = [&](std::span<const Outlet> outlets, double from, std::optional<Length> to) {
        return drain(shell, degrees(0), outlets, {inches(from), to, flow(0)}).error();
    };
    QCOMPARE(fault(high, 0, std::nullopt), DrainFault::NothingFlows);
    QCOMPARE(fault(high, 0, inches(-5)), DrainFault::NeverGetsThere);
    QCOMPARE(fault(high, 0, inches(5)), DrainFault::NeverGetsThere);
    QCOMPARE(fault({}, 0, inches(5)), DrainFault::NeverGetsThere);
    const auto below = drain(shell, degrees(0), high, {inches(15), inches(-15), flow(0)});
    QVERIFY(below->stoppedAtOutlet);
}

void DrainTest::slowAndFast()
{
    const Shell shell = insideShell(30, 62, hemispherical());
    const Place place{OnShell{inches(31)}, degrees(180)};
    const std::array outlets{Outlet::hole(wallPoint(shell, place).value(), kPi, pose(0), 0.05, Discharge::ofHole())};
    const auto got = drain(shell, degrees(0), outlets, {inches(15), std::nullopt, flow(0)});
    QVERIFY(std::abs(got->slow->value() * 0.9 - got->time->value()) <= 1e-6 * got->time->value());
    QVERIFY(std::abs(got->fast->value() * 1.1 - got->time->value()) <= 1e-6 * got->time->value());
    QVERIFY(Discharge::ofKerf().fast == 0.8);
}

// Random vessels, poses, holes, slots, kerfs and hoses; the solver's level after our time is the level that we say.
// BRIMFUL_CASES: how many (the campaign asks for more).
void DrainTest::againstAnotherSolver()
{
    gsl_set_error_handler_off();
    std::mt19937 random(20260611);
    const auto between = [&](double low, double high) { return std::uniform_real_distribution<double>(low, high)(random); };
    const int cases = std::max(12, qEnvironmentVariableIntValue("BRIMFUL_CASES"));
    double worst = 0;
    for (int i = 0; i < cases; ++i) {
        Other other{between(0.3, 0.6), between(0.8, 4), 0, between(-8, 8) * kPi / 180, between(-40, 40) * kPi / 180, {}, 0};
        other.depth = i % 2 == 0 ? other.radius : other.radius / 2;
        const Shell shell = metricShell(2 * other.radius, other.length, i % 2 == 0 ? hemispherical() : twoToOne());
        const Pose at{quantity::radians(other.pitch), quantity::radians(other.roll)};
        std::vector<Outlet> outlets;
        for (int j = 0; j <= i % 3; ++j) {
            const double x = other.length * between(0.3, 0.7);
            const double clock = between(60, 170) * (j % 2 == 0 ? 1 : -1);
            const double degree = kPi / 180;
            switch ((i + j) % 3) {
            case 0: {
                const double diameter = between(0.01, 0.06);
                outlets.push_back(hole(shell, at, x, clock, diameter, 0.61));
                other.openings.push_back({x, clock * degree, clock * degree, 0, 0, diameter, 0.61});
                break;
            }
            case 1: {
                const double length = other.length * between(0.1, 0.5);
                outlets.push_back(slot(shell, at, x, clock, length, 0.003, 0.64));
                other.openings.push_back({x, clock * degree, clock * degree, length, 0.003, 0, 0.64});
                break;
            }
            default: {
                const double to = clock + between(10, 60);
                outlets.push_back(girth(shell, at, x, clock, to, 0.002, 0.64));
                other.openings.push_back({x, clock * degree, to * degree, 0, 0.002, 0, 0.64});
            }
            }
        }
        const double bottom = lowestPoint(shell, at.pitch).value();
        const double top = highestPoint(shell, at.pitch).value();
        double lip = top;
        for (const Outlet& outlet : outlets) {
            lip = std::min(lip, std::max(outlet.lowest(), bottom));
        }
        const double from = lip + between(0.5, 0.98) * (top - lip);
        const double to = lip + between(0.05, 0.4) * (from - lip);
        other.inflow = i % 4 == 3 ? 0.5 * other.outflow(to) : 0;
        const auto got = drain(shell, at.pitch, outlets, {quantity::metres(from), quantity::metres(to), flow(other.inflow)});
        QVERIFY(got.has_value() && got->time);
        const double theirs = levelAfter(other, from, got->time->value());
        const double off = std::abs(theirs - to) / (from - to);
        worst = std::max(worst, off);
        QVERIFY2(off <= 2e-5,
            qPrintable(QStringLiteral("case %1: %2 s, level %3 against %4").arg(i).arg(got->time->value()).arg(to).arg(theirs)));
    }
    qInfo("%d cases, largest difference, of the fall: %.2e", cases, worst);
}

// Any vessel at any pitch through any hole: time only grows and the level only falls along the curve, to the end that is told;
// and a hole of twice the area takes half the time.
void DrainTest::curveRunsDown()
{
    const bool held = rc::check([] {
        const auto number = [](int low, int high) { return static_cast<double>(*rc::gen::inRange(low, high)); };
        const Shell shell =
            metricShell(number(30, 200) / 100, number(10, 500) / 100, *rc::gen::arbitrary<bool>() ? hemispherical() : flat());
        const Pose at = pose(number(-300, 301) / 10, number(-180, 181));
        const double x = shell.length().value() * number(1, 10) / 10;
        const double clock = number(0, 360);
        const std::array one{hole(shell, at, x, clock, 0.02, 0.6)};
        const std::array two{hole(shell, at, x, clock, 0.02 * std::numbers::sqrt2, 0.6)};
        const Length top = highestPoint(shell, at.pitch);
        RC_PRE(top.value() - one[0].highest() > 0.05);
        const Length to = quantity::metres((top.value() + one[0].highest() + 0.02) / 2);
        const auto got = drain(shell, at.pitch, one, {top, to, flow(0)});
        const auto twice = drain(shell, at.pitch, two, {top, to, flow(0)});
        RC_ASSERT(got.has_value());
        RC_ASSERT(got->curve.back().level == got->end);
        for (std::size_t i = 1; i < got->curve.size(); ++i) {
            RC_ASSERT(got->curve[i].time > got->curve[i - 1].time);
            RC_ASSERT(got->curve[i].level < got->curve[i - 1].level);
            RC_ASSERT(got->curve[i].volume <= got->curve[i - 1].volume);
        }
        // The wider hole is wet to its upper lip all the while; only its reach up and down differs.
        const double ratio = got->time->value() / twice->time->value();
        RC_ASSERT(std::abs(ratio - 2) < 0.02);
    });
    QVERIFY(held);
}

BRIMFUL_SUITE(DrainTest);
#include "drain_test.moc"
