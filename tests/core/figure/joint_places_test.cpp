// Joints on every kind of head by closed forms of their own: a plane for a flat head, an ellipse, the crown's sphere. Where a joint
// would leave its part it is refused by name, never drawn.
#include "tests/core/figure/ask.h"
#include "tests/support/suite.h"

#include <QTest>

#include <cmath>
#include <numbers>

using namespace brimful;
using figure::Code;
using test::ask;
using test::has;
using test::number;

namespace {

constexpr double kInch = 0.0254;
constexpr double kPi = std::numbers::pi;

std::string onHead(const std::string& heads, const std::string& rest)
{
    std::string out(R"({"kind": "pipe-to-head", "head": "right", "vessel": {"outside_diameter": "30 in", "wall": "0.25 in",
        "shell_length": "60 in", "heads": ")");
    return out.append(heads).append("\"}, ").append(rest).append("}");
}

double cut(const figure::Result& result, std::size_t i) { return result.values.find("ordinates")->items.at(i).find("cut_m")->number; }

// Every ordinate against a height over the tangent plane as a function of the distance from the vessel's axis.
template <class Height> void compare(const std::string& heads, double radius, double offset, const Height& height)
{
    const auto result = ask("junction",
        onHead(heads, "\"pipe_diameter\": \"" + std::to_string(2 * radius) + " in\", \"offset\": \"" + std::to_string(offset) + " in\""));
    QVERIFY2(result.has_value(), result ? "" : qPrintable(QString::fromStdString(result.error().path)));
    double least = HUGE_VAL;
    std::vector<double> wanted;
    for (int i = 0; i < 16; ++i) {
        const double around = kPi * i / 8;
        const double away = std::hypot(offset + radius * std::cos(around), radius * std::sin(around));
        wanted.push_back(height(away));
        least = std::min(least, wanted.back());
    }
    for (std::size_t i = 0; i < wanted.size(); ++i) {
        const double found = cut(*result, i) / kInch;
        QVERIFY2(std::abs(found - (wanted[i] - least)) < 1e-6, qPrintable(QStringLiteral("%1: %2").arg(i).arg(found)));
    }
}

} // namespace

class JointPlacesTest : public QObject {
    Q_OBJECT
private slots:
    // Outside of a 2:1 head: axes 15 and 29.5/4 + 1/4 in, as the vessel's outside is taken.
    void anEllipticalHead()
    {
        const double depth = 29.5 / 4 + 0.25;
        compare("ellipsoidal-2-1", 4, 0, [&](double away) { return depth * std::sqrt(1 - away * away / 225); });
        compare("ellipsoidal-2-1", 4, 6, [&](double away) { return depth * std::sqrt(1 - away * away / 225); });
        compare("ellipsoidal-2-1", 2, 11, [&](double away) { return depth * std::sqrt(1 - away * away / 225); });
    }

    // On the crown a torispherical head is a sphere: crown radius 29.5 in inside, 29.75 outside.
    void theCrownOfADishedHead()
    {
        compare("torispherical", 3, 5, [](double away) { return std::sqrt(29.75 * 29.75 - away * away); });
    }

    // A plane: the cut is r cos(phi) tan(lean), the hole an ellipse of r and r / cos(lean).
    void aFlatHead()
    {
        const auto leaning = ask("junction", onHead("flat", R"("pipe_diameter": "6 in", "offset": "4 in", "angle": "30 deg")"));
        QVERIFY2(leaning.has_value(), leaning ? "" : qPrintable(QString::fromStdString(leaning.error().path)));
        for (std::size_t i = 0; i < 16; ++i) {
            const double wanted =
                3 * std::tan(kPi / 6) * (std::cos(kPi * static_cast<double>(i) / 8) + 1); // longest on the side it leans to
            QVERIFY2(std::abs(cut(*leaning, i) / kInch - wanted) < 1e-9, qPrintable(QString::number(cut(*leaning, i) / kInch)));
        }
        QVERIFY(std::abs(number(*leaning, "depth_m") / kInch - 6 * std::tan(kPi / 6)) < 1e-6);
        QVERIFY(std::abs(number(*leaning, "hole_area_m2") / (kInch * kInch) / (kPi * 9 / std::cos(kPi / 6)) - 1) < 1e-4);
        // The axis goes through the outside of the end 4 in from the middle and 1/4 in of wall farther on.
        QVERIFY(std::abs(number(*leaning, "pierce_from_middle_m") / kInch - (4 + 0.25 * std::tan(kPi / 6))) < 1e-9);
        const auto square = ask("junction", onHead("flat", R"("pipe_diameter": "6 in", "offset": "4 in")"));
        QVERIFY(square.has_value());
        QCOMPARE(square->values.textOf("method"), std::string_view("circle"));
        QVERIFY(number(*square, "depth_m") < 1e-9);
        QVERIFY(std::abs(number(*square, "string_m") - 3 * kInch) < 1e-12);
        // The hole's marks by tape from the middle of the end: 4 in more and less 3.
        const auto& hole = square->values.find("hole")->items;
        QVERIFY(std::abs(hole[0].find("tape_m")->number / kInch - 7) < 1e-9);
        QVERIFY(std::abs(hole[8].find("tape_m")->number / kInch - 1) < 1e-9);
    }

    void refusesWhatLeavesItsPart_data()
    {
        QTest::addColumn<QString>("input");
        QTest::addColumn<QString>("path");
        const auto row = [](const char* name, const std::string& input, const char* path) {
            QTest::newRow(name) << QString::fromStdString(input) << QString(path);
        };
        row("off a flat end", onHead("flat", R"("pipe_diameter": "6 in", "offset": "13 in")"), "offset");
        row("leaning off a flat end", onHead("flat", R"("pipe_diameter": "6 in", "offset": "11 in", "angle": "60 deg")"), "offset");
        for (const char* head : {"hemispherical", "ellipsoidal-2-1", "torispherical", "flat"}) {
            const std::string vessel = R"("vessel": {"outside_diameter": "30 in", "wall": "0.25 in", "shell_length": "60 in", "heads": )";
            const std::string pipe = R"("kind": "pipe-to-cylinder", "pipe_diameter": "6 in", "from_left_tangent": "58 in", )";
            row(("over a tangent line of the shell: " + std::string(head)).c_str(), "{" + pipe + vessel + "\"" + head + "\"}}",
                "from_left_tangent");
        }
        row("half a vessel over the tangent line of a dished head",
            R"({"kind": "half-vessel-to-head", "head": "left", "pipe_diameter": "29 in", "offset": "0 in", "angle": "20 deg", "vessel":
            {"outside_diameter": "30 in", "wall": "0.25 in", "shell_length": "60 in", "heads": "ellipsoidal-2-1"}})",
            "offset");
    }
    void refusesWhatLeavesItsPart()
    {
        QFETCH(QString, input);
        QFETCH(QString, path);
        const auto result = ask("junction", input.toStdString());
        QVERIFY(!result.has_value());
        QCOMPARE(QString::fromStdString(result.error().path), path);
        QCOMPARE(result.error().code, Code::Impossible);
    }

    // The half of a vessel on another's side, and on its head, square to the axis of the head: equal pipes crease, a sphere cuts square.
    void halfAVessel()
    {
        const auto side = ask("junction", R"({"kind": "half-vessel-to-cylinder", "pipe_diameter": "24 in", "cylinder_diameter": "30 in"})");
        QVERIFY(side.has_value());
        QVERIFY(std::abs(number(*side, "depth_m") / kInch - (15 - std::sqrt(225.0 - 144))) < 1e-9);
        const auto head = ask("junction", R"({"kind": "half-vessel-to-head", "head": "left", "pipe_diameter": "24 in", "vessel":
            {"outside_diameter": "30 in", "wall": "0.25 in", "shell_length": "60 in", "heads": "hemispherical"}})");
        QVERIFY(head.has_value());
        QVERIFY(number(*head, "depth_m") < 1e-9);
        QVERIFY(std::abs(number(*head, "tape_m") / kInch - 15 * std::asin(12.0 / 15)) < 1e-6);
    }

    // Patterns and views lie side by side: no line of one in the box of another.
    void viewsStandApart()
    {
        for (const char* input :
            {R"({"kind": "pipe-to-cylinder", "pipe_diameter": "8 in", "cylinder_diameter": "30 in", "angle": "50 deg"})",
                R"({"kind": "pipe-to-sphere", "pipe_diameter": "8 in", "sphere_diameter": "30 in", "offset": "5 in"})",
                R"({"kind": "sphere-to-sphere", "left_diameter": "30 in", "right_diameter": "24 in", "distance": "22 in"})",
                R"({"kind": "sphere-to-cylinder", "sphere_diameter": "24 in", "cylinder_diameter": "30 in", "distance": "22 in"})"}) {
            const auto result = ask("junction", input);
            QVERIFY(result.has_value());
            double sideRight = -HUGE_VAL;
            double endLeft = HUGE_VAL;
            double flatRight = -HUGE_VAL;
            double sideLeft = HUGE_VAL;
            for (const figure::Line& line : result->picture) {
                for (const auto& [x, y] : line.metres) {
                    if (line.part.starts_with("side:")) {
                        sideRight = std::max(sideRight, x);
                        sideLeft = std::min(sideLeft, x);
                    } else if (line.part.starts_with("end:")) {
                        endLeft = std::min(endLeft, x);
                    } else {
                        flatRight = std::max(flatRight, x);
                    }
                }
            }
            QVERIFY(sideRight < endLeft && flatRight < sideLeft && sideLeft < sideRight);
        }
    }

    // The edge in the side view lies on the part: 30 in shell, height sqrt(15^2 - y^2) between 15 and the pipe's reach.
    void theEdgeIsDrawnOnThePart()
    {
        const auto result = ask("junction", R"({"kind": "pipe-to-cylinder", "pipe_diameter": "12 in", "cylinder_diameter": "30 in"})");
        for (const figure::Line& line : result->picture) {
            if (line.part == "side:edge") {
                for (const auto& [x, z] : line.metres) {
                    QVERIFY(z <= 15 * kInch + 1e-12 && z >= std::sqrt(225.0 - 36) * kInch - 1e-9);
                }
            }
        }
    }
};
BRIMFUL_SUITE(JointPlacesTest);
#include "joint_places_test.moc"
