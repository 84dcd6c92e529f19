// The water of the cut plan on the mark-out, and doors that do not turn. Heights worked by hand on a level and a tilted shell.
#include "tests/core/figure/ask.h"
#include "tests/support/suite.h"

#include <QTest>

#include <algorithm>
#include <cmath>
#include <numbers>

using namespace brimful;
using figure::Code;
using test::ask;
using test::has;
using test::number;

namespace {

constexpr double kInch = 0.0254;

std::string shell(const std::string& rest)
{
    std::string out(
        R"({"vessel": {"outside_diameter": "30 in", "wall": "0.25 in", "shell_length": "60 in", "heads": "flat"}, "kerf": "3 mm", )");
    return out.append(rest).append("}");
}

bool warned(const figure::Result& result, std::string_view word)
{
    return std::ranges::find(result.warnings, word) != result.warnings.end();
}

std::vector<figure::Line> linesOf(const figure::Result& result, std::string_view part)
{
    std::vector<figure::Line> out;
    for (const figure::Line& line : result.picture) {
        if (line.part.starts_with(part)) {
            out.push_back(line);
        }
    }
    return out;
}

constexpr const char* kThree = R"("features": [
    {"name": "top", "kind": "cut-out", "from_left_tangent": "10 in", "length": "10 in", "clock": "340 deg", "clock_to": "20 deg"},
    {"name": "near", "kind": "round-cut-out", "from_left_tangent": "30 in", "clock": "90 deg", "diameter": "6 in"},
    {"name": "low", "kind": "cut-out", "from_left_tangent": "40 in", "length": "10 in", "clock": "150 deg", "clock_to": "210 deg"}],
    "datum": {"clock": "270 deg"})";

} // namespace

class MarkOutWaterTest : public QObject {
    Q_OBJECT
private slots:
    // Half full and level: wet from 3 o'clock round the bottom to 9 o'clock, which is the datum line here.
    void halfFull()
    {
        const auto result = ask("mark-out", shell(std::string(kThree) + R"(, "water_depth": "14.75 in")"));
        QVERIFY2(result.has_value(), result ? "" : qPrintable(QString::fromStdString(result.error().path + result.error().expected)));
        const double girth = number(*result, "girth_m");
        const auto wet = linesOf(*result, "wet:");
        QCOMPARE(wet.size(), std::size_t(1));
        for (const auto& [x, y] : wet.front().metres) {
            const double around = -y / girth; // from 9 o'clock: 3 o'clock is half way, 9 o'clock the whole
            QVERIFY(std::abs(around - 0.5) < 1e-9 || std::abs(around - 1) < 1e-9);
            QVERIFY(x >= 0 && x <= 60 * kInch + 1e-9);
        }
        const auto& cuts = result->values.find("cuts_and_water")->items;
        QCOMPARE(cuts[0].textOf("place"), std::string_view("over"));
        QVERIFY(std::abs(cuts[0].find("highest_over_water_m")->number - 14.75 * kInch) < 1e-9); // the top of the inside
        QVERIFY(std::abs(cuts[0].find("lowest_over_water_m")->number - 14.75 * kInch * std::cos(std::numbers::pi / 9)) < 1e-9);
        QCOMPARE(cuts[1].textOf("place"), std::string_view("across"));
        QCOMPARE(cuts[2].textOf("place"), std::string_view("under"));
        QVERIFY(std::abs(cuts[2].find("lowest_over_water_m")->number + 14.75 * kInch) < 1e-9);
    }

    // Rolled a quarter on, what was at the top is at the near side, and the low cut-out at the far side.
    void rolled()
    {
        const auto result = ask("mark-out", shell(std::string(kThree) + R"(, "water_depth": "14.75 in", "pose": {"roll": "90 deg"})"));
        QVERIFY(result.has_value());
        const auto& cuts = result->values.find("cuts_and_water")->items;
        QCOMPARE(cuts[0].textOf("place"), std::string_view("across"));
        QCOMPARE(cuts[1].textOf("place"), std::string_view("under"));
        QCOMPARE(cuts[2].textOf("place"), std::string_view("across"));
    }

    // Five degrees up on the right: along the axis the level falls by tan 5 degrees an inch.
    void tilted()
    {
        const auto result = ask("mark-out", shell(std::string(kThree) + R"(, "water_depth": "14.75 in", "pose": {"pitch": "5 deg"})"));
        QVERIFY(result.has_value());
        const double level = number(*result, "water_level_m");
        const double pitch = 5 * std::numbers::pi / 180;
        // The near cut-out's middle: on the axis's height, 30 in along.
        const double middle = 30 * kInch * std::sin(pitch);
        const auto& near = result->values.find("cuts_and_water")->items[1];
        const double low = near.find("lowest_over_water_m")->number + level;
        const double high = near.find("highest_over_water_m")->number + level;
        QVERIFY(std::abs((low + high) / 2 - middle) < 1e-4);
        // A circle of 3 in that leans 5 degrees on a nearly upright wall still reaches 3 in up and down, less the shell's curve.
        QVERIFY((high - low) / kInch < 6 && (high - low) / kInch > 5.8);
    }

    void dryVesselsHaveNoWater()
    {
        const auto result = ask("mark-out", shell(kThree));
        QVERIFY(!has(*result, "cuts_and_water") && linesOf(*result, "wet:").empty());
        QCOMPARE(ask("mark-out", shell(std::string(kThree) + R"(, "water_depth": "40 in")")).error().path, std::string("water_depth"));
    }

    // A narrow door in a thick wall does not pass its kerf: R cos A is 11.52 in, the inside 11, so 0.083 in are needed.
    void narrowDoorsBind()
    {
        const auto door = [](const std::string& wall, const std::string& width) {
            return ask("mark-out",
                R"({"vessel": {"outside_diameter": "24 in", "wall": ")" + wall
                    + R"(", "shell_length": "60 in", "heads": "flat"}, "kerf": "1/32 in", "tab": "10 mm", "features": [{"name": "door", "kind": "door",
                "from_left_tangent": "20 in", "length": "20 in", "around": "10 in", "width": ")"
                    + width + R"(", "hinge_side": "first-line"}]})");
        };
        const auto narrow = door("1 in", "3 in");
        QVERIFY(narrow.has_value());
        const double angle = 3.0 / 12;
        const double needs = std::sqrt(144 + 121 - 2 * 12 * 11 * std::cos(angle)) - 12 * std::sin(angle);
        QVERIFY(std::abs(narrow->values.find("cuts")->items[0].find("gap_to_turn_m")->number / kInch - needs) < 1e-9);
        QVERIFY(warned(*narrow, "door-needs-a-wider-gap-to-turn"));
        QVERIFY(!warned(*door("1/4 in", "12 in"), "door-needs-a-wider-gap-to-turn"));
        QCOMPARE(door("1/4 in", "40 in").error().path, std::string("features[0].hinge_side"));
    }

    // A nozzle near the end stands over the tangent line; what is cut must still clear it.
    void nozzlesAtTheEndCount()
    {
        const auto at = [](const std::string& along) {
            return ask("mark-out",
                shell(R"("features": [{"name": "hatch", "kind": "cut-out", "from_left_tangent": "1 in", "length": "8 in",
                "around": "30 in", "width": "8 in"}, {"name": "N1", "kind": "nozzle", "from_left_tangent": ")"
                    + along + R"(", "around": "28 in", "diameter": "3 in"}])"));
        };
        const auto result = at("0.5 in");
        QVERIFY(result.has_value());
        QCOMPARE(result->values.find("clashes")->items.at(0).textOf("with"), std::string_view("N1"));
        QVERIFY(!at("-0.5 in").has_value()); // on the head
    }

    void whatStandsInTheSwing()
    {
        const auto at = [](const std::string& around) {
            return ask("mark-out",
                shell(R"("features": [{"name": "door", "kind": "door", "from_left_tangent": "20 in", "length": "20 in",
                "around": "30 in", "width": "16 in", "hinge_side": "first-line"},
                {"name": "valve", "kind": "nozzle", "from_left_tangent": "30 in", "around": ")"
                    + around + R"(", "diameter": "2 in"}])"));
        };
        const auto in = at("20 in"); // the door lies on 14 to 30 in when it is turned right back
        QVERIFY(warned(*in, "something-stands-where-the-door-turns-back"));
        QCOMPARE(in->values.find("in_the_swing")->items[0].textOf("with"), std::string_view("valve"));
        QVERIFY(!warned(*at("10 in"), "something-stands-where-the-door-turns-back"));
        QVERIFY(!warned(*at("60 in"), "something-stands-where-the-door-turns-back")); // on the free side
    }
};
BRIMFUL_SUITE(MarkOutWaterTest);
#include "mark_out_water_test.moc"
