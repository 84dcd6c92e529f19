// Tilted volumes against an exact solid model (Open CASCADE): the profile revolved, cut by a half space, measured.
#include "core/water/level.h"

#include "tests/core/vessel/inches.h"
#include "tests/support/suite.h"

#include <BRepAlgoAPI_Common.hxx>
#include <BRepBuilderAPI_MakeEdge.hxx>
#include <BRepBuilderAPI_MakeFace.hxx>
#include <BRepBuilderAPI_MakeWire.hxx>
#include <BRepGProp.hxx>
#include <BRepPrimAPI_MakeBox.hxx>
#include <BRepPrimAPI_MakeRevol.hxx>
#include <GC_MakeArcOfCircle.hxx>
#include <GC_MakeArcOfEllipse.hxx>
#include <GProp_GProps.hxx>
#include <TopTools_ListOfShape.hxx>
#include <gp_Ax1.hxx>
#include <gp_Ax2.hxx>
#include <gp_Circ.hxx>
#include <gp_Elips.hxx>

#include <QTest>

#include <cmath>
#include <numbers>
#include <random>

using namespace brimful;
using namespace brimful::test;
using namespace brimful::water;

namespace {

// Sizes in inches; the solid is built from them alone, not from the program's own profile.
struct Body {
    double radius;
    double length;
    int head; // 0 hemispherical, 1 ellipsoidal 2:1, 2 torispherical 1.0/0.06
};

double headDepth(const Body& body)
{
    const double diameter = 2 * body.radius;
    if (body.head == 0) {
        return body.radius;
    }
    if (body.head == 1) {
        return diameter / 4;
    }
    const double crown = diameter;
    const double knuckle = 0.06 * diameter;
    return crown - std::sqrt((crown - knuckle) * (crown - knuckle) - (body.radius - knuckle) * (body.radius - knuckle));
}

// The right head's curve in the x-y plane, from the tangent circle to the pole.
void addHead(TopTools_ListOfShape& edges, const Body& body, double tangent, double direction)
{
    const gp_Pnt pole(tangent + direction * headDepth(body), 0, 0);
    const gp_Pnt edge(tangent, body.radius, 0);
    const auto add = [&](const Handle(Geom_TrimmedCurve) & curve) { edges.Append(BRepBuilderAPI_MakeEdge(curve).Edge()); };
    const double square = std::numbers::sqrt2 / 2;
    if (body.head == 0) {
        add(GC_MakeArcOfCircle(edge, gp_Pnt(tangent + direction * square * body.radius, square * body.radius, 0), pole).Value());
        return;
    }
    if (body.head == 1) {
        const gp_Elips ellipse(gp_Ax2(gp_Pnt(tangent, 0, 0), gp_Dir(0, 0, -direction), gp_Dir(0, 1, 0)), body.radius, body.radius / 2);
        // From the equator on the y axis, the way of the ellipse's own sense, to the pole.
        add(GC_MakeArcOfEllipse(ellipse, edge, pole, true).Value());
        return;
    }
    const double diameter = 2 * body.radius;
    const double knuckle = 0.06 * diameter;
    const double along = headDepth(body) - diameter; // of the crown's centre, from the tangent
    const double reach = std::hypot(along, body.radius - knuckle);
    // The junction lies on the line from the crown's centre through the knuckle's centre.
    const double ux = -along / reach;
    const double uy = (body.radius - knuckle) / reach;
    const gp_Pnt junction(tangent + direction * (along + diameter * ux), diameter * uy, 0);
    const double half = std::atan2(ux, uy) / 2; // middle of the knuckle's arc, from the radial direction
    const gp_Pnt middle(tangent + direction * knuckle * std::sin(half), body.radius - knuckle + knuckle * std::cos(half), 0);
    add(GC_MakeArcOfCircle(edge, middle, junction).Value());
    const double crownHalf = std::atan2(uy, ux) / 2;
    const gp_Pnt crownMiddle(tangent + direction * (along + diameter * std::cos(crownHalf)), diameter * std::sin(crownHalf), 0);
    add(GC_MakeArcOfCircle(junction, crownMiddle, pole).Value());
}

GProp_GProps measured(const TopoDS_Shape& shape)
{
    GProp_GProps properties;
    BRepGProp::VolumeProperties(shape, properties, 1e-9);
    return properties;
}

double volumeOf(const TopoDS_Shape& shape) { return measured(shape).Mass(); }

TopoDS_Shape solidOf(const Body& body)
{
    const double depth = headDepth(body);
    TopTools_ListOfShape edges;
    edges.Append(BRepBuilderAPI_MakeEdge(gp_Pnt(-depth, 0, 0), gp_Pnt(body.length + depth, 0, 0)).Edge());
    addHead(edges, body, body.length, 1);
    edges.Append(BRepBuilderAPI_MakeEdge(gp_Pnt(body.length, body.radius, 0), gp_Pnt(0, body.radius, 0)).Edge());
    addHead(edges, body, 0, -1);
    BRepBuilderAPI_MakeWire wire;
    wire.Add(edges);
    const BRepBuilderAPI_MakeFace face(wire.Wire());
    // The face may look either way; a solid that is inside out has a negative volume.
    const TopoDS_Shape solid = BRepPrimAPI_MakeRevol(face.Face(), gp_Ax1(gp_Pnt(0, 0, 0), gp_Dir(1, 0, 0))).Shape();
    return volumeOf(solid) < 0 ? solid.Reversed() : solid;
}

// What lies below a plane that rises against the vessel: y = (height - x sin) / cos in the body's frame.
GProp_GProps whatIsBelow(const TopoDS_Shape& solid, double pitch, double height)
{
    const gp_Dir up(std::sin(pitch), std::cos(pitch), 0);
    const gp_Dir across(0, 0, 1);
    constexpr double kHuge = 2000;
    // A box whose upper face is the level.
    const gp_Vec side = gp_Vec(up) ^ gp_Vec(across);
    const gp_Pnt corner =
        gp_Pnt(0, 0, 0).Translated(gp_Vec(up) * (height - kHuge)).Translated(side * (-kHuge / 2)).Translated(gp_Vec(across) * (kHuge / 2));
    const gp_Ax2 axes(corner, up, gp_Dir(side));
    const TopoDS_Shape below = BRepPrimAPI_MakeBox(axes, kHuge, kHuge, kHuge).Shape();
    BRepAlgoAPI_Common common(solid, below);
    return measured(common.Shape());
}

} // namespace

class SolidTest : public QObject {
    Q_OBJECT
private slots:
    void wholeVessels_data();
    void wholeVessels();
    void tilted();
};

void SolidTest::wholeVessels_data()
{
    QTest::addColumn<int>("head");
    QTest::newRow("hemispherical") << 0;
    QTest::newRow("ellipsoidal 2:1") << 1;
    QTest::newRow("torispherical") << 2;
}

void SolidTest::wholeVessels()
{
    QFETCH(int, head);
    const std::array<vessel::HeadSize, 3> heads{hemispherical(), twoToOne(), torispherical(1, 0.06)};
    const double ours = inCubicInches(insideShell(30, 62, heads.at(static_cast<std::size_t>(head))).capacity());
    const double theirs = volumeOf(solidOf({15, 62, head}));
    QVERIFY2(std::abs(ours - theirs) <= 1e-6 * ours, qPrintable(QStringLiteral("%1 %2").arg(ours, 0, 'g', 12).arg(theirs, 0, 'g', 12)));
}

// Dished vessels of random size, pitch and level: volume and centre (the modeller's centre is good to a ten-thousandth of the
// radius; where the two were furthest apart a sum of 1.2 million slices agreed with ours to 1e-9). BRIMFUL_CASES: how many (the campaign
// asks for more).
void SolidTest::tilted()
{
    std::mt19937 random(20260214);
    std::uniform_real_distribution<double> unit(0, 1);
    const std::array<vessel::HeadSize, 3> heads{hemispherical(), twoToOne(), torispherical(1, 0.06)};
    const int cases = std::max(20, qEnvironmentVariableIntValue("BRIMFUL_CASES"));
    double worst = 0;
    double worstCentre = 0;
    for (int i = 0; i < cases; ++i) {
        const Body body{8 + 20 * unit(random), 20 + 120 * unit(random), i % 3};
        const double pitch = (unit(random) * 2 - 1) * (i % 2 == 0 ? 5 : 60) * std::numbers::pi / 180;
        const Shell shell = insideShell(2 * body.radius, body.length, heads.at(static_cast<std::size_t>(body.head)));
        const Angle angle = quantity::radians(pitch);
        const Length low = lowestPoint(shell, angle);
        const Length height = low + (0.03 + 0.94 * unit(random)) * (highestPoint(shell, angle) - low);
        const Below got = below(shell, angle, height);
        const double ours = inCubicInches(got.volume);
        const GProp_GProps solid = whatIsBelow(solidOf(body), pitch, inInches(height));
        const double theirs = solid.Mass();
        const gp_Pnt centre = solid.CentreOfMass();
        const double apart = std::hypot(inInches(got.centroid) - centre.X(), inInches(got.centroidUp) - centre.Y());
        worstCentre = std::max(worstCentre, apart);
        QVERIFY2(apart <= 1e-4 * body.radius, qPrintable(QString::number(apart)));
        const double off = std::abs(ours - theirs) / inCubicInches(shell.capacity());
        worst = std::max(worst, off);
        QVERIFY2(off <= 1e-5,
            qPrintable(QStringLiteral("head %1 radius %2 length %3 pitch %4: %5 against %6")
                           .arg(body.head)
                           .arg(body.radius)
                           .arg(body.length)
                           .arg(pitch * 180 / std::numbers::pi)
                           .arg(ours, 0, 'g', 12)
                           .arg(theirs, 0, 'g', 12)));
    }
    qInfo("%d cases, largest difference, of the capacity: %.2e, of the centre: %.2e in", cases, worst, worstCentre);
}

BRIMFUL_SUITE(SolidTest);
#include "solid_test.moc"
