// Heads against published depths, areas and volumes.
#include "core/vessel/head.h"

#include "tests/core/vessel/inches.h"
#include "tests/support/suite.h"

#include <QTest>
#include <boost/math/quadrature/gauss_kronrod.hpp>
#include <rapidcheck.h>

#include <cmath>
#include <numbers>

using namespace brimful;
using namespace brimful::test;
using vessel::Head;
using vessel::HeadSize;
using vessel::InsideDiameter;
using vessel::Side;

namespace {

Head headOf(const HeadSize& size, double diameterInches) { return Head(size, InsideDiameter(inches(diameterInches)), inches(0)); }

HeadSize anyHead(int kind, double diameter)
{
    switch (kind) {
    case 0:
        return hemispherical();
    case 1:
        return twoToOne();
    case 2:
        return torispherical(1.0, 0.06);
    case 3:
        return torispherical(0.8, 0.154);
    case 4:
        return conical(diameter * 0.4);
    default:
        return ellipsoidal(diameter * 0.7);
    }
}

} // namespace

class HeadsTest : public QObject {
    Q_OBJECT
private slots:
    void depths_data();
    void depths();
    void areas_data();
    void areas();
    void volumes_data();
    void volumes();
    void kloepperOnItsOutsideBasis();
    void tapeOverTheTip_data();
    void tapeOverTheTip();
    void volumeAndAreaAreThoseOfTheProfile();
};

// The tank-geometry test values published with the open "fluids" library (inches), after D. Jones, "Calculating Tank Volume".
void HeadsTest::depths_data()
{
    QTest::addColumn<double>("diameter");
    QTest::addColumn<double>("crown");
    QTest::addColumn<double>("knuckle");
    QTest::addColumn<double>("depth");
    QTest::newRow("D 108, crown 1, knuckle 0.06") << 108.0 << 1.0 << 0.06 << 18.288462280484797;
    QTest::newRow("D 96, crown 0.9, knuckle 0.2") << 96.0 << 0.9 << 0.2 << 25.684268924767125;
}

void HeadsTest::depths()
{
    QFETCH(double, diameter);
    QFETCH(double, crown);
    QFETCH(double, knuckle);
    QFETCH(double, depth);
    const double got = inInches(headOf(torispherical(crown, knuckle), diameter).depth());
    QVERIFY2(std::abs(got - depth) <= 1e-9 * depth, qPrintable(QString::number(got, 'g', 17)));
}

void HeadsTest::areas_data()
{
    QTest::addColumn<double>("diameter");
    QTest::addColumn<int>("kind");
    QTest::addColumn<double>("area");
    // Same source as the depths.
    QTest::newRow("torispherical, D 2.54, crown 1.039370079, knuckle 0.062362205") << 2.54 << 0 << 6.00394283477063;
    QTest::newRow("ellipsoidal, D 2, depth 0.999") << 2.0 << 1 << 6.278996936093318;
    // Elementary: a hemisphere is 2 pi R^2.
    QTest::newRow("hemispherical, D 2") << 2.0 << 2 << 2 * std::numbers::pi;
}

void HeadsTest::areas()
{
    QFETCH(double, diameter);
    QFETCH(int, kind);
    QFETCH(double, area);
    const std::array<HeadSize, 3> heads{torispherical(1.039370079, 0.062362205), ellipsoidal(0.999), hemispherical()};
    const double got = headOf(heads.at(static_cast<std::size_t>(kind)), diameter).area().value() / (kInch * kInch);
    QVERIFY2(std::abs(got - area) <= 1e-9 * area, qPrintable(QString::number(got, 'g', 17)));
}

// Volume / D^3. Hemisphere pi/12 and 2:1 ellipsoid pi/24 are elementary; flanged and dished is quoted in the trade as
// 0.0809 D^3 and comes to 0.080999 when integrated.
void HeadsTest::volumes_data()
{
    QTest::addColumn<int>("kind");
    QTest::addColumn<double>("ratio");
    QTest::addColumn<double>("absolute");
    QTest::newRow("hemispherical") << 0 << std::numbers::pi / 12 << 1e-12;
    QTest::newRow("ellipsoidal 2:1") << 1 << std::numbers::pi / 24 << 1e-12;
    QTest::newRow("flanged and dished") << 2 << 0.080999 << 2e-6;
}

void HeadsTest::volumes()
{
    QFETCH(int, kind);
    QFETCH(double, ratio);
    QFETCH(double, absolute);
    const double got = inCubicInches(headOf(anyHead(kind, 30), 30).capacity()) / (30.0 * 30 * 30);
    QVERIFY2(std::abs(got - ratio) <= absolute, qPrintable(QString::number(got, 'g', 12)));
}

// DIN 28011: radii are multiples of the outside diameter. Da 1000 mm, wall 10 mm: depth 188.890 mm by its geometry, and
// 188.95 mm by the handbook line 0.1935 Da - 0.455 s (that line from memory).
void HeadsTest::kloepperOnItsOutsideBasis()
{
    const double inside = 980;
    const HeadSize size = torispherical(1000 / inside, 100 / inside);
    const double depth = Head(size, InsideDiameter(quantity::metres(0.98)), quantity::metres(0)).depth().value() * 1000;
    QVERIFY2(std::abs(depth - 188.890) <= 0.001, qPrintable(QString::number(depth, 'g', 10)));
    QVERIFY(std::abs(depth - (0.1935 * 1000 - 0.455 * 10)) <= 0.1);
}

// A tape laid over both heads is longer than the vessel by 2 (arc - depth); D 30 in. Worked from the arcs of circle and
// ellipse, and recomputed by a second hand.
void HeadsTest::tapeOverTheTip_data()
{
    QTest::addColumn<int>("kind");
    QTest::addColumn<double>("longer");
    QTest::newRow("hemispherical") << 0 << 17.1239;
    QTest::newRow("ellipsoidal 2:1") << 1 << 21.3317;
    QTest::newRow("flanged and dished") << 2 << 22.9683;
}

void HeadsTest::tapeOverTheTip()
{
    QFETCH(int, kind);
    QFETCH(double, longer);
    const Head head = headOf(anyHead(kind, 30), 30);
    const double got = 2 * inInches(head.meridianArc() - head.depth());
    QVERIFY2(std::abs(got - longer) <= 1e-3, qPrintable(QString::number(got, 'g', 10)));
}

void HeadsTest::volumeAndAreaAreThoseOfTheProfile()
{
    QVERIFY(rc::check("closed forms agree with a quadrature over the profile", [] {
        const double diameter = static_cast<double>(*rc::gen::inRange(50, 2000)) / 10;
        const HeadSize size = anyHead(*rc::gen::inRange(0, 6), diameter);
        const auto side = *rc::gen::element(Side::Left, Side::Right);
        const double tangent = static_cast<double>(*rc::gen::inRange(-50, 50)) / 10;
        const Head head = headOf(size, diameter);
        double volume = 0;
        double area = 0;
        double depth = 0;
        for (const vessel::Piece& piece : head.pieces(side, tangent)) {
            if (!(piece.to > piece.from)) {
                continue;
            }
            depth += piece.to - piece.from;
            // x from a sine: takes the square roots at a tip away.
            const double middle = (piece.from + piece.to) / 2;
            const double half = (piece.to - piece.from) / 2;
            const auto x = [&](double t) { return middle + half * std::sin(t); };
            using Rule = boost::math::quadrature::gauss_kronrod<double, 61>;
            volume += Rule::integrate([&](double t) { return std::numbers::pi * std::pow(piece.radius(x(t)), 2) * half * std::cos(t); },
                -std::numbers::pi / 2, std::numbers::pi / 2, 10, 1e-12);
            area += Rule::integrate(
                [&](double t) {
                    const double step = 1e-6 * half * std::cos(t) + 1e-12;
                    const double at = std::clamp(x(t), piece.from + step, piece.to - step);
                    const double slope = (piece.radius(at + step) - piece.radius(at - step)) / (2 * step);
                    return 2 * std::numbers::pi * piece.radius(x(t)) * std::hypot(1.0, slope) * half * std::cos(t);
                },
                -std::numbers::pi / 2, std::numbers::pi / 2, 6, 1e-9);
        }
        RC_ASSERT(std::abs(depth - head.depth().value()) <= 1e-12 * diameter);
        RC_ASSERT(std::abs(volume - head.capacity().value()) <= 1e-10 * volume);
        RC_ASSERT(std::abs(area - head.area().value()) <= 1e-4 * area);
    }));
}

BRIMFUL_SUITE(HeadsTest);
#include "heads_test.moc"
