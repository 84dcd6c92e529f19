// Joints against an exact solid modeller (Open CASCADE): each point of a developed edge lies on the modeller's section of the
// two surfaces, and it is where the modeller's own line leaves the body last. Millimetres.
//   BRIMFUL_JOINT_CASES=100 test_core_layout SolidJointTest
#include "core/layout/joint.h"
#include "core/layout/spheres.h"

#include "tests/core/vessel/inches.h"
#include "tests/support/suite.h"

#include <BRepAlgoAPI_Section.hxx>
#include <BRepBuilderAPI_MakeEdge.hxx>
#include <BRepBuilderAPI_MakeFace.hxx>
#include <BRepBuilderAPI_MakeVertex.hxx>
#include <BRepBuilderAPI_MakeWire.hxx>
#include <BRepExtrema_DistShapeShape.hxx>
#include <BRepPrimAPI_MakeCylinder.hxx>
#include <BRepPrimAPI_MakeRevol.hxx>
#include <BRepPrimAPI_MakeSphere.hxx>
#include <BRep_Builder.hxx>
#include <GC_MakeArcOfCircle.hxx>
#include <GC_MakeArcOfEllipse.hxx>
#include <IntCurvesFace_ShapeIntersector.hxx>
#include <TopExp_Explorer.hxx>
#include <TopTools_ListOfShape.hxx>
#include <TopoDS_Compound.hxx>
#include <gp_Ax1.hxx>
#include <gp_Ax2.hxx>
#include <gp_Circ.hxx>
#include <gp_Elips.hxx>
#include <gp_Lin.hxx>

#include <QTest>

#include <cmath>
#include <numbers>
#include <random>

using namespace brimful;
using namespace brimful::layout;

namespace {

constexpr double kPi = std::numbers::pi;
constexpr double kWithin = 0.01; // mm

enum class Body { Cylinder, Sphere, Hemispherical, Ellipsoidal, Torispherical, OverTheTangent };

struct Case {
    Body body{};
    double radius{}; // of the part, mm
    double length{}; // of a vessel, mm
    double pipe{}; // radius, mm
    PipeAxis axis; // mm
};

// A vessel from x = 0 to x = length between its tangent lines, both heads alike; from its sizes alone.
TopoDS_Shape vesselSolid(const Case& one)
{
    const double R = one.radius;
    const double crown = 2 * R;
    const double knuckle = 0.06 * crown;
    const double flat = std::sqrt((crown - knuckle) * (crown - knuckle) - (R - knuckle) * (R - knuckle));
    const double depth = one.body == Body::Ellipsoidal ? R / 2 : one.body == Body::Torispherical ? crown - flat : R;
    TopTools_ListOfShape edges;
    const auto arc = [&](const gp_Pnt& a, const gp_Pnt& middle, const gp_Pnt& b) {
        edges.Append(BRepBuilderAPI_MakeEdge(GC_MakeArcOfCircle(a, middle, b).Value()).Edge());
    };
    for (const double direction : {1.0, -1.0}) {
        const double tangent = direction > 0 ? one.length : 0;
        const gp_Pnt rim(tangent, R, 0);
        const gp_Pnt tip(tangent + direction * depth, 0, 0);
        if (one.body == Body::Ellipsoidal) {
            const gp_Elips ellipse(gp_Ax2(gp_Pnt(tangent, 0, 0), gp_Dir(0, 0, -direction), gp_Dir(0, 1, 0)), R, R / 2);
            edges.Append(BRepBuilderAPI_MakeEdge(GC_MakeArcOfEllipse(ellipse, rim, tip, true).Value()).Edge());
        } else if (one.body == Body::Torispherical) {
            const double half = std::atan2(R - knuckle, flat); // of the crown
            const auto onCrown = [&](double t) {
                return gp_Pnt(tangent + direction * (crown * std::cos(t) - flat), crown * std::sin(t), 0);
            };
            const double turn = (kPi / 2 - half) / 2;
            const gp_Pnt middle(tangent + direction * knuckle * std::sin(turn), R - knuckle + knuckle * std::cos(turn), 0);
            arc(rim, middle, onCrown(half));
            arc(onCrown(half), onCrown(half / 2), tip);
        } else {
            const double s = std::numbers::sqrt2 / 2 * R;
            arc(rim, gp_Pnt(tangent + direction * s, s, 0), tip);
        }
    }
    edges.Append(BRepBuilderAPI_MakeEdge(gp_Pnt(0, R, 0), gp_Pnt(one.length, R, 0)).Edge());
    edges.Append(BRepBuilderAPI_MakeEdge(gp_Pnt(-depth, 0, 0), gp_Pnt(one.length + depth, 0, 0)).Edge());
    BRepBuilderAPI_MakeWire wire;
    wire.Add(edges);
    return BRepPrimAPI_MakeRevol(BRepBuilderAPI_MakeFace(wire.Wire()).Face(), gp_Ax1(gp_Pnt(0, 0, 0), gp_Dir(1, 0, 0))).Shape();
}

TopoDS_Shape solidOf(const Case& one)
{
    if (one.body == Body::Cylinder) {
        return BRepPrimAPI_MakeCylinder(gp_Ax2(gp_Pnt(-20000, 0, 0), gp_Dir(1, 0, 0)), one.radius, 40000).Shape();
    }
    return one.body == Body::Sphere ? BRepPrimAPI_MakeSphere(one.radius).Shape() : vesselSolid(one);
}

vessel::Profile profileOf(const Case& one)
{
    if (one.body == Body::Cylinder) {
        return plainCylinder(quantity::metres(one.radius / 1000));
    }
    if (one.body == Body::Sphere) {
        return plainSphere(quantity::metres(one.radius / 1000));
    }
    const vessel::HeadSize head = one.body == Body::Ellipsoidal ? test::twoToOne()
        : one.body == Body::Torispherical                       ? test::torispherical(1, 0.06)
                                                                : test::hemispherical();
    const vessel::Size size{vessel::InsideDiameter(quantity::metres(2 * one.radius / 1000)), quantity::metres(0),
        vessel::ShellLength(quantity::metres(one.length / 1000)), head, head};
    return vessel::Shell::make(size).value().inside();
}

Case randomCase(int i, std::mt19937& random)
{
    std::uniform_real_distribution<double> unit(0, 1);
    const auto between = [&](double low, double high) { return low + (high - low) * unit(random); };
    Case out;
    out.body = static_cast<Body>(i % 6);
    out.radius = between(150, 700);
    out.length = between(600, 3000);
    out.pipe = out.radius * between(0.08, 0.6);
    switch (out.body) {
    case Body::Cylinder:
        out.pipe = out.radius * between(0.08, 0.95);
        out.axis = {.x = between(-500, 500), .y = (out.radius - out.pipe) * between(-0.98, 0.98), .lean = between(25, 155) * kPi / 180};
        break;
    case Body::Sphere:
        out.axis = {.x = (out.radius - out.pipe) * between(-0.9, 0.9), .lean = kPi / 2};
        break;
    case Body::Hemispherical:
    case Body::Ellipsoidal:
    case Body::Torispherical:
        out.pipe = out.radius * between(0.08, 0.45);
        out.axis = {.x = out.length, .z = (out.radius - out.pipe) * between(-0.9, 0.9), .lean = between(0, 20) * kPi / 180, .first = kPi};
        break;
    case Body::OverTheTangent:
        out.axis = {.x = out.length + out.pipe * between(-0.7, 0.7),
            .y = (out.radius - out.pipe) * between(-0.6, 0.6),
            .lean = between(75, 105) * kPi / 180};
        break;
    }
    return out;
}

// Face by face: across faces that touch without an edge between them the modeller leaves pieces out.
TopoDS_Shape sectionOf(const TopoDS_Shape& pipe, const TopoDS_Shape& solid)
{
    TopoDS_Compound all;
    BRep_Builder builder;
    builder.MakeCompound(all);
    for (TopExp_Explorer mine(pipe, TopAbs_FACE); mine.More(); mine.Next()) {
        for (TopExp_Explorer other(solid, TopAbs_FACE); other.More(); other.Next()) {
            BRepAlgoAPI_Section section(mine.Current(), other.Current(), false);
            section.Approximation(true);
            section.Build();
            if (section.IsDone()) {
                builder.Add(all, section.Shape());
            }
        }
    }
    return all;
}

gp_Dir axisOf(const Case& one) { return {std::cos(one.axis.lean), 0, std::sin(one.axis.lean)}; }

} // namespace

class SolidJointTest : public QObject {
    Q_OBJECT
private slots:
    void developedEdges()
    {
        const int cases = qEnvironmentVariableIsSet("BRIMFUL_JOINT_CASES") ? qEnvironmentVariableIntValue("BRIMFUL_JOINT_CASES") : 20;
        std::mt19937 random(20261125);
        double worstSection = 0;
        double worstLine = 0;
        for (int i = 0; i < cases; ++i) {
            const Case one = randomCase(i, random);
            PipeAxis axis = one.axis;
            axis.x /= 1000;
            axis.y /= 1000;
            axis.z /= 1000;
            const auto joint = join(profileOf(one), axis, quantity::metres(one.pipe / 1000), 32);
            QVERIFY2(joint.has_value(), qPrintable(QStringLiteral("case %1").arg(i)));
            const TopoDS_Shape solid = solidOf(one);
            const gp_Dir out = axisOf(one);
            const gp_Pnt at(one.axis.x, one.axis.y, one.axis.z);
            const gp_Pnt start = at.Translated(gp_Vec(out) * (one.body == Body::Cylinder ? -6000 : 0));
            const TopoDS_Shape pipe = BRepPrimAPI_MakeCylinder(gp_Ax2(start, out), one.pipe, 12000).Shape();
            const TopoDS_Shape section = sectionOf(pipe, solid);
            IntCurvesFace_ShapeIntersector lines;
            lines.Load(solid, 1e-9);
            // The first generator on the acute side (or opposite), then counter-clockwise seen from the far end.
            const gp_Vec acute = gp_Vec(out.Z(), 0, -out.X()) * std::cos(one.axis.first);
            const gp_Vec side = gp_Vec(out) ^ acute;
            for (const Generator& generator : joint->generators) {
                const gp_Pnt foot = at.Translated((acute * std::cos(generator.around) + side * std::sin(generator.around)) * one.pipe);
                const gp_Pnt end = foot.Translated(gp_Vec(out) * (generator.cut * 1000));
                const BRepExtrema_DistShapeShape distance(BRepBuilderAPI_MakeVertex(end).Vertex(), section);
                QVERIFY(distance.IsDone());
                worstSection = std::max(worstSection, distance.Value());
                lines.Perform(gp_Lin(foot, out), -1e5, 1e5);
                QVERIFY(lines.NbPnt() > 0);
                double last = -HUGE_VAL;
                for (int k = 1; k <= lines.NbPnt(); ++k) {
                    last = std::max(last, lines.WParameter(k));
                }
                worstLine = std::max(worstLine, std::abs(last - generator.cut * 1000));
                const bool good = distance.Value() <= kWithin && std::abs(last - generator.cut * 1000) <= kWithin;
                QVERIFY2(good,
                    qPrintable(QStringLiteral("case %1 at %2 rad: %3 mm from the section, leaves at %4, ours %5")
                                   .arg(i)
                                   .arg(generator.around)
                                   .arg(distance.Value())
                                   .arg(last)
                                   .arg(generator.cut * 1000)));
            }
        }
        qInfo("%d joints of 32 generators: farthest from the section %.2e mm, from where the line leaves %.2e mm", cases, worstSection,
            worstLine);
    }

    // A head in the side of a shell: every point on the modeller's section of the two.
    void headsInShells()
    {
        std::mt19937 random(20261126);
        std::uniform_real_distribution<double> unit(0, 1);
        double worst = 0;
        for (int i = 0; i < 5; ++i) {
            const double R = 200 + 500 * unit(random);
            const double r = R * (0.5 + 0.5 * unit(random));
            const double d = R + r * (0.3 + 0.5 * unit(random));
            const auto joint = headToSide(quantity::metres(r / 1000), quantity::metres(R / 1000), quantity::metres(d / 1000), 12);
            QVERIFY(joint.has_value());
            const TopoDS_Shape shell = BRepPrimAPI_MakeCylinder(gp_Ax2(gp_Pnt(-5000, 0, 0), gp_Dir(1, 0, 0)), R, 10000).Shape();
            const TopoDS_Shape head = BRepPrimAPI_MakeSphere(gp_Pnt(0, 0, d), r).Shape();
            BRepAlgoAPI_Section section(head, shell, false);
            section.Approximation(true);
            section.Build();
            for (const HeadToSide::Point& one : joint->points) {
                const gp_Pnt onShell(one.along * 1000, R * std::sin(one.around), R * std::cos(one.around));
                // The same point from the head's own marks: polar angle from its pole (which looks down), azimuth from across.
                const gp_Pnt onHead(r * std::sin(one.polar) * std::sin(one.azimuth), r * std::sin(one.polar) * std::cos(one.azimuth),
                    d - r * std::cos(one.polar));
                worst = std::max(worst, onShell.Distance(onHead));
                const BRepExtrema_DistShapeShape distance(BRepBuilderAPI_MakeVertex(onShell).Vertex(), section.Shape());
                worst = std::max(worst, distance.Value());
                QVERIFY2(worst <= kWithin, qPrintable(QStringLiteral("case %1: %2 mm").arg(i).arg(worst)));
            }
        }
        qInfo("5 heads in shells: farthest %.2e mm", worst);
    }
};
BRIMFUL_SUITE(SolidJointTest);
#include "solid_joint_test.moc"
