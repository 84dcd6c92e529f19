// Joints against closed forms and published examples, and every geometry that must be refused.
#include "core/layout/joint.h"

#include "core/layout/spheres.h"
#include "core/layout/tape.h"
#include "tests/core/vessel/inches.h"
#include "tests/support/suite.h"

#include <QTest>

#include <cmath>
#include <numbers>

using namespace brimful;
using namespace brimful::layout;
using test::inches;

namespace {

constexpr double kPi = std::numbers::pi;

Joint onCylinder(double pipe, double part, double lean, double offset, std::size_t count)
{
    return join(plainCylinder(inches(part)), {.y = offset * test::kInch, .lean = lean * kPi / 180}, inches(pipe), count).value();
}

bool near(double found, double wanted, double tolerance) { return std::abs(found - wanted) <= tolerance; }

} // namespace

class JointTest : public QObject {
    Q_OBJECT
private slots:
    // s = (sqrt(R^2 - (e + r sin phi)^2) + r cos phi cos be) / sin be: descriptive geometry of two cylinders.
    void agreesWithTheClosedFormOnACylinder()
    {
        for (const double lean : {20.0, 45.0, 90.0, 120.0}) {
            for (const double e : {-8.0, 0.0, 3.0, 11.0}) {
                const double R = 15;
                const double r = 3.3125;
                const Joint joint = onCylinder(r, R, lean, e, 48);
                for (const Generator& one : joint.generators) {
                    const double be = lean * kPi / 180;
                    const double y = e + r * std::sin(one.around);
                    const double s = (std::sqrt(R * R - y * y) + r * std::cos(one.around) * std::cos(be)) / std::sin(be);
                    QVERIFY(near(one.cut / test::kInch, s, 1e-9));
                }
            }
        }
    }

    // s = sqrt(R^2 - e^2 - r^2 - 2 e r cos phi).
    void agreesWithTheClosedFormOnASphere()
    {
        const auto joint = join(plainSphere(inches(15)), {.x = 6 * test::kInch, .lean = kPi / 2}, inches(3.3125), 24);
        QVERIFY(joint.has_value());
        for (const Generator& one : joint->generators) {
            const double s = std::sqrt(225 - 36 - 3.3125 * 3.3125 - 2 * 6 * 3.3125 * std::cos(one.around));
            QVERIFY(near(one.cut / test::kInch, s, 1e-9));
        }
    }

    // Equal pipes meet in a crease: the cut is r |cos phi| (two square cuts at 45 degrees).
    void equalPipesMeetInACrease()
    {
        const Joint joint = onCylinder(3, 3, 90, 0, 16);
        for (const Generator& one : joint.generators) {
            QVERIFY(near(one.cut / test::kInch, 3 * std::abs(std::cos(one.around)), 1e-6));
        }
    }

    void everyPointLiesOnBothSurfaces()
    {
        const auto shell = test::insideShell(30, 62, test::torispherical(1, 0.06));
        const PipeAxis axis{.x = 62 * test::kInch, .z = 9 * test::kInch, .lean = 0.2, .first = kPi};
        const auto joint = join(shell.inside(), axis, inches(3), 64);
        QVERIFY(joint.has_value());
        for (const Generator& one : joint->generators) {
            QVERIFY(near(std::hypot(one.y, one.z), shell.inside().radius(one.x), 1e-12));
            // Distance from the pipe's axis.
            const double dx = one.x - axis.x;
            const double dz = one.z - axis.z;
            const double off = -dx * std::sin(axis.lean) + dz * std::cos(axis.lean);
            QVERIFY(near(std::hypot(off, one.y), 3 * test::kInch, 1e-12));
        }
    }

    void refusesWhatCannotBe()
    {
        const auto fault = [](double pipe, double part, double offset, double lean) {
            return faultOnCylinder(inches(pipe), inches(part), inches(offset), quantity::radians(lean));
        };
        QCOMPARE(fault(3, 6, 0, 1), std::nullopt);
        QCOMPARE(fault(3, 6, 3, 1), std::nullopt);
        QCOMPARE(fault(6.01, 6, 0, 1), std::optional(JointFault::PipeWiderThanPart));
        QCOMPARE(fault(3, 6, -3.01, 1), std::optional(JointFault::OffsetOffThePart));
        QCOMPARE(fault(3, 6, std::nan(""), 1), std::optional(JointFault::OffsetOffThePart));
        QCOMPARE(fault(0, 6, 0, 1), std::optional(JointFault::NotPositive));
        QCOMPARE(fault(3, 6, 0, 0), std::optional(JointFault::LeanOutOfRange));
        QCOMPARE(fault(3, 6, 0, kPi), std::optional(JointFault::LeanOutOfRange));
        QCOMPARE(faultOnSphere(inches(6), inches(6), inches(0)), std::optional(JointFault::OffsetOffThePart));
        // Without the guard, the generators themselves find out.
        QCOMPARE(join(plainCylinder(inches(6)), {.y = 5 * test::kInch, .lean = kPi / 2}, inches(3), 16).error(), JointFault::Misses);
        const auto flat = test::insideShell(30, 60, test::flat());
        QCOMPARE(join(flat.inside(), {.x = 60 * test::kInch, .lean = 0}, inches(3), 16).error(), JointFault::ThroughTheEnd);
        QCOMPARE(join(plainCylinder(inches(6)), {.lean = kPi / 2}, inches(3), 3).error(), JointFault::NotPositive);
    }

    // Both heads' edges, each from its own centre by its own polar angle, are the same circle.
    void twoHeadsShareOneEdge()
    {
        for (const auto& [a, b, d] : {std::tuple(15.0, 15.0, 24.0), {15.0, 15.0, 27.0}, {18.75, 15.0, 26.0}, {15.0, 12.0, 20.0}}) {
            const auto joint = headToHead(inches(a), inches(b), inches(d));
            QVERIFY(joint.has_value());
            for (int i = 0; i < 36; ++i) {
                const double t = i * kPi / 18;
                const double leftX = a * std::cos(joint->leftPolar);
                const double leftR = a * std::sin(joint->leftPolar);
                const double rightX = d - b * std::cos(joint->rightPolar);
                const double rightR = b * std::sin(joint->rightPolar);
                const double apart = std::hypot(leftX - rightX, (leftR - rightR) * std::cos(t), (leftR - rightR) * std::sin(t));
                QVERIFY2(apart < 1e-9, qPrintable(QString::number(apart)));
            }
        }
    }

    void refusesHeadsThatDoNotMeet()
    {
        QCOMPARE(headToHead(inches(15), inches(15), inches(30)).error(), HeadJointFault::Apart);
        QCOMPARE(headToHead(inches(15), inches(5), inches(9)).error(), HeadJointFault::OneInsideTheOther);
        QCOMPARE(headToHead(inches(15), inches(8), inches(10)).error(), HeadJointFault::BeyondTangentLine);
        QCOMPARE(headToHead(inches(15), inches(0), inches(10)).error(), HeadJointFault::NotPositive);
        QCOMPARE(headToSide(inches(12), inches(15), inches(27), 8).error(), HeadJointFault::Apart);
        QCOMPARE(headToSide(inches(12), inches(15), inches(14), 8).error(), HeadJointFault::BeyondTangentLine);
        QCOMPARE(headToSide(inches(2), inches(15), inches(12), 8).error(), HeadJointFault::OneInsideTheOther);
        QCOMPARE(headToSide(inches(30), inches(15), inches(16), 8).error(), HeadJointFault::WiderThanTheShell);
    }

    // The tape over a head: whole meridian arcs as in tank tables; over a hemisphere R times the polar angle.
    void tapesOverHeads()
    {
        for (const vessel::HeadSize& head : {test::hemispherical(), test::twoToOne(), test::torispherical(1, 0.06)}) {
            const auto shell = test::insideShell(30, 62, head);
            const double whole = tapeFromRightTip(shell.inside(), 62 * test::kInch);
            QVERIFY(near(whole, shell.head(vessel::Side::Right).meridianArc().value(), 1e-9));
        }
        const auto round = test::insideShell(30, 62, test::hemispherical());
        const double polar = 0.7;
        QVERIFY(near(tapeFromRightTip(round.inside(), (62 + 15 * std::cos(polar)) * test::kInch), 15 * polar * test::kInch, 1e-12));
    }
};
BRIMFUL_SUITE(JointTest);
#include "joint_test.moc"
