// Joints, mark-out and draught against published examples and worked tables. The source stands in each row's name:
// "published" is a printed example, "worked" an independent calculation, "practice" common practice, no source.
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
constexpr double kInchOfWater = 249.08891; // Pa, conventional

// "ordinates[4].cut_m" of a result.
double at(const canon::Json& values, std::string_view path)
{
    const canon::Json* here = &values;
    while (!path.empty()) {
        const std::size_t end = path.find('.');
        std::string_view step = path.substr(0, end);
        path = end == std::string_view::npos ? std::string_view() : path.substr(end + 1);
        const std::size_t bracket = step.find('[');
        here = here->find(step.substr(0, bracket));
        if (here == nullptr) {
            throw std::out_of_range(std::string(step));
        }
        if (bracket != std::string_view::npos) {
            here = &here->items.at(static_cast<std::size_t>(std::stoi(std::string(step.substr(bracket + 1)))));
        }
    }
    return here->number;
}

constexpr const char* kShell =
    R"("vessel": {"outside_diameter": "30 in", "wall": "0.25 in", "overall_length": "92 in", "heads": "hemispherical"})";

std::string withShell(const std::string& rest)
{
    std::string out("{");
    return out.append(kShell).append(", ").append(rest).append("}");
}

} // namespace

class ShopFiguresTest : public QObject {
    Q_OBJECT
private slots:
    void checkValues_data()
    {
        QTest::addColumn<QString>("figure");
        QTest::addColumn<QString>("input");
        QTest::addColumn<QString>("key");
        QTest::addColumn<double>("unit"); // SI of one of the expected
        QTest::addColumn<double>("expected");
        QTest::addColumn<double>("tolerance");
        const auto row = [](const char* name, const char* figure, const std::string& input, const char* key, double unit, double expected,
                             double tolerance) {
            QTest::newRow(name) << QString(figure) << QString::fromStdString(input) << QString(key) << unit << expected << tolerance;
        };
        const std::string flat38 =
            R"({"vessel": {"outside_diameter": "38 in", "wall": "0.25 in", "shell_length": "80 in", "heads": "flat"}})";
        row("50 girth of 38 in in four stepped quarters of 29 7/8 (worked)", "mark-out", flat38, "stepped_girth_m", kInch, 119.5, 1e-9);
        row("50 girth of 38 in, true (worked)", "mark-out", flat38, "girth_m", kInch, 119.3805, 1e-4);
        row("50 the fourth quarter from one datum (worked), residual", "mark-out", flat38, "quarters[4].sixteenth_residual_m", kInch,
            119.380521 - 119.375, 1e-6);
        const std::string door =
            R"({"vessel": {"outside_diameter": "30 in", "wall": "0.25 in", "shell_length": "80 in", "heads": "flat"}, "kerf": "0 in", "features": [
            {"name": "door", "kind": "door", "from_left_tangent": "20 in", "length": "36 in", "clock": "30 deg", "chord": "24 in"}]})";
        row("51 door of 24 in chord on 15 in: angle (circle geometry)", "mark-out", door, "cuts[0].angle_deg", 1, 106.2602, 1e-4);
        row("51 arc", "mark-out", door, "cuts[0].arc_m", kInch, 27.8189, 1e-4);
        row("51 sagitta", "mark-out", door, "cuts[0].sagitta_m", kInch, 6.0, 1e-4);
        const auto pipe = [](const std::string& d, const std::string& D, const std::string& rest) {
            return "{\"kind\": \"pipe-to-cylinder\", \"pipe_diameter\": \"" + d + " in\", \"cylinder_diameter\": \"" + D + " in\"" + rest
                + "}";
        };
        row("52 saddle 2 on 6 at 90: depth 0.172 (published on a pipe-saddle page)", "junction", pipe("2", "6", ""), "depth_m", kInch,
            0.172, 0.001);
        row("52 its drop at the 1/8 mark, 0.085 (published)", "junction", pipe("2", "6", ""), "ordinates[2].cut_m", kInch, 0.1716 - 0.085,
            0.001);
        for (const auto& [i, cut] : {std::pair("ordinates[0].cut_m", 6.6250), std::pair("ordinates[4].cut_m", 2.7888),
                 std::pair("ordinates[8].cut_m", 0.0), std::pair("ordinates[3].cut_m", 4.1339), std::pair("ordinates[13].cut_m", 4.1339)}) {
            row((std::string("53 saddle 6.625 on 30 at 45 (worked) ") + i).c_str(), "junction",
                pipe("6.625", "30", R"(, "angle": "45 deg")"), i, kInch, cut, 1e-4);
        }
        for (const auto& [i, cut] :
            {std::pair("ordinates[0].cut_m", 2.5981), std::pair("ordinates[4].cut_m", 0.0), std::pair("ordinates[12].cut_m", 3.0),
                std::pair("ordinates[1].cut_m", 2.1676), std::pair("ordinates[15].cut_m", 2.8535)}) {
            row((std::string("54 offset flush with the back (worked) ") + i).c_str(), "junction", pipe("3", "6", R"(, "offset": "1.5 in")"),
                i, kInch, cut, 1e-4);
        }
        const std::string sphere =
            R"({"kind": "pipe-to-sphere", "pipe_diameter": "6.625 in", "sphere_diameter": "30 in", "offset": "6 in"})";
        row("55 pipe on a sphere, off centre: depth (worked)", "junction", sphere, "depth_m", kInch, 2.9981, 1e-4);
        row("55 its fourth ordinate (worked)", "junction", sphere, "ordinates[4].cut_m", kInch, 1.5836, 1e-4);
        const std::string heads =
            R"({"kind": "sphere-to-sphere", "left_diameter": "30 in", "right_diameter": "30 in", "distance": "24 in"})";
        row("56 two heads: radius of the edge (two spheres)", "junction", heads, "circle_radius_m", kInch, 9, 1e-4);
        row("56 tape from the pole", "junction", heads, "left_tape_arc_m", kInch, 9.6525, 1e-4);
        row("56 the other tape", "junction", heads, "right_tape_arc_m", kInch, 9.6525, 1e-4);
        row("56 girth of the edge", "junction", heads, "circle_girth_m", kInch, 56.549, 1e-3);
        const std::string side =
            R"({"kind": "sphere-to-cylinder", "sphere_diameter": "24 in", "cylinder_diameter": "30 in", "distance": "22 in"})";
        row("57 head in a side: half angle (sphere and cylinder)", "junction", side, "half_angle_deg", 1, 31.1229, 1e-4);
        row("57 half length", "junction", side, "ordinates[0].cut_m", kInch, 9.7468, 1e-4);
        row("57 half width, as the tape lies (worked)", "junction", side, "half_width_m", kInch, 8.1480, 1e-4);
        row("worked table: 15 on 15 at 24, the fourth of eight", "junction",
            R"({"kind": "sphere-to-cylinder", "sphere_diameter": "30 in", "cylinder_diameter": "30 in", "distance": "24 in", "count": 8})",
            "ordinates[4].cut_m", kInch, 10.3466, 1e-4);
        row("published set-in lateral, 168 mm in 255 mm at 45 deg, worked ordinate 4", "junction",
            R"({"kind": "pipe-to-cylinder", "pipe_diameter": "168 mm", "cylinder_diameter": "255 mm", "angle": "45 deg"})",
            "ordinates[4].cut_m", 0.001, 39.34, 0.01);
        row("set-on 6 in schedule 40 on 30 in: depth on the inside diameter (worked)", "junction",
            pipe("6.625", "30", R"(, "fit": "set-on", "pipe_wall": "0.28 in", "part_wall": "0.25 in")"), "depth_m", kInch, 0.3097, 1e-4);
        row("58 draught 29.92 inHg, 25 ft, 70 and 250 degF (published in a chimney manual after ASHRAE)", "draught",
            R"({"height": "25 ft", "diameter": "8 in", "gas_temperature": "250 degF", "air_temperature": "70 degF", "pressure": "759.968 mmHg"})",
            "draught_Pa", kInchOfWater, 0.091, 5e-4);
        row("59 draught 100 ft, 521 and 961 degR, 14.7 psi (published, Steam, Babcock & Wilcox)", "draught",
            R"({"height": "100 ft", "diameter": "36 in", "gas_temperature": "501.33 degF", "air_temperature": "61.33 degF", "pressure": "14.7 psi"})",
            "draught_Pa", kInchOfWater, 0.67, 0.005);
        // Table 53 there: 100 lb of gas an hour and horsepower. Its loss f W^2 C H / A^3 in inches of water (lb/s, ft) with
        // f = 0.0014 is a Darcy factor of 8 f g rho 5.193 at the gas's 0.0414 lb/ft3; the book's K = 0.67 an 100 ft.
        const double darcy = 8 * 0.0014 * 32.174 * 0.04136 * 5.193;
        row("60 36 in stack of 400 HP: what is left (published, same book, table 53)", "draught",
            R"({"height": "100 ft", "diameter": "36 in", "gas_temperature": "501.33 degF", "air_temperature": "61.33 degF", "pressure": "14.7 psi",
                "loss_factor": 0, "friction_factor": )"
                + std::to_string(darcy) + R"(, "mass_flow": "40000 lb/h"})",
            "available_Pa", kInchOfWater, 0.21, 0.005);
        // 0.32 L[ft] / D[in] velocity heads, so Darcy 0.32 / 12; 25 ft of 8 in: 1.0. Taken over a known velocity head.
        row(
            "61 friction of 25 ft of 8 in single wall is one velocity head (published in a chimney manual)", "draught",
            R"({"height": "25 ft", "diameter": "8 in", "gas_temperature": "250 degF", "air_temperature": "70 degF", "pressure": "101325 Pa",
                "loss_factor": 0, "friction_factor": 0.0266666667, "mass_flow": "100 kg/h"})",
            "losses_Pa",
            [] {
                const double area = std::numbers::pi * 0.2032 * 0.2032 / 4;
                const double rho = 101325 * 0.028965 / (8.314462618 * 394.2611111);
                const double v = 100.0 / 3600 / rho / area;
                return rho * v * v / 2;
            }(),
            1.0, 1e-6);
        row("62 draught of a cooling stack, 40 kg/h (worked, molar mass 28.965)", "draught",
            R"({"height": "8 ft", "diameter": "8 in", "gas_temperature": "422 K", "air_temperature": "294.26 K", "pressure": "101325 Pa",
                "heat_loss": "7.4 W/m2K", "mass_flow": "40 kg/h"})",
            "draught_Pa", 1, 6.1193, 1e-3);
        const std::string adiabatic = R"({"height": "6 ft", "diameter": "8 in", "gas_temperature": "300 degF", "air_temperature": "70 degF",
            "pressure": "101325 Pa", "loss_factor": 4, "friction_factor": 0.034})";
        row("free draught 8 in x 6 ft, 300 and 70 degF, no cooling: Pa (worked by hand)", "draught", adiabatic, "draught_Pa", 1, 6.514,
            1e-2);
        row("its speed (worked by hand)", "draught", adiabatic, "velocity_m_s", 1, 1.902, 2e-3);
        row("its flow, kg/h (worked by hand)", "draught", adiabatic, "mass_flow_kg_s", 1.0 / 3600, 185.7, 0.2);
        // The table does not say at which density it takes the losses: within 1 %.
        row("the same stack, cooling: kg/h (worked table)", "draught",
            adiabatic.substr(0, adiabatic.size() - 1) + ", \"heat_loss\": \"7.4 W/m2K\"}", "mass_flow_kg_s", 1.0 / 3600, 181.6, 1.8);
        row("its gas at the exit, 265 degF (worked table)", "draught",
            adiabatic.substr(0, adiabatic.size() - 1) + ", \"heat_loss\": \"7.4 W/m2K\"}", "exit_temperature_K", 5.0 / 9, 265 + 459.67,
            0.6);
        row("63 192 in from 20 to 135 degC (EN 1993-1-2, 3.4.1.1)", "draught",
            R"({"expansion": {"length": "192 in", "cold": "20 degC", "hot": "135 degC"}})", "expansion_m", kInch, 0.27865, 1e-4);
        row("64 a 24 in liner in 30 in outside, 1/4 wall", "draught",
            R"({"liner": {"shell_inside_diameter": "29.5 in", "outside_diameter": "24 in"}})", "liner_gap_m", kInch, 2.75, 1e-9);
        row("64 its annulus (worked)", "draught", R"({"liner": {"shell_inside_diameter": "29.5 in", "outside_diameter": "24 in"}})",
            "annulus_m2", kInch * kInch, 231.1, 0.05);
        row("common practice, no source: a 24 in liner in a 30 in inside diameter leaves 3 in", "draught",
            R"({"liner": {"shell_inside_diameter": "30 in", "outside_diameter": "24 in"}})", "liner_gap_m", kInch, 3, 1e-9);
        row("common practice, no source: a 10 in stack has 1.56 times the area of an 8 in one", "draught",
            R"({"height": "6 ft", "diameter": "8 in", "gas_temperature": "300 degF", "air_temperature": "70 degF", "loss_factor": 4,
                "compare": [{"diameter": "10 in"}]})",
            "curves[1].area_ratio", 1, 1.56, 0.005);
        row("common practice, no source: half of 3 1/4, 1/4 clear, half of a 1 in flat bar: kerf 2 3/8 in from the centre line", "mark-out",
            withShell(R"("strap": "1 in", "kerf": "1/8 in", "clearances": {"pad": "1/4 in"},
                "features": [{"name": "collar", "kind": "pad", "from_left_tangent": "31 in", "clock": "0 deg", "diameter": "3 1/4 in"}])"),
            "obstacles[0].nearest_kerf_m", kInch, 2.375, 1e-9);
        row("half of 3 1/4 in is 1 5/8 in: without clearance and bar", "mark-out",
            withShell(R"("kerf": "0 in", "clearances": {"pad": "0 in"},
                "features": [{"name": "collar", "kind": "pad", "from_left_tangent": "31 in", "clock": "0 deg", "diameter": "3 1/4 in"}])"),
            "obstacles[0].nearest_kerf_m", kInch, 1.625, 1e-9);
        // 10.210 lb/ft2 of 1/4 in plate: 20 x 36 in as they lie at the plate's middle.
        row("panel of 1/4 in plate, 10.210 lb/ft2 (handbook plate weights)", "mark-out",
            withShell(R"("kerf": "0 in", "features": [{"name": "door", "kind": "door", "from_left_tangent": "10 in", "length": "36 in",
                "clock": "30 deg", "width": "20 in"}])"),
            "cuts[0].panel_mass_kg", 0.45359237, 10.210 * 20 * 36 / 144 * 14.875 / 15, 0.01);
    }
    void checkValues()
    {
        QFETCH(QString, figure);
        QFETCH(QString, input);
        QFETCH(QString, key);
        QFETCH(double, unit);
        QFETCH(double, expected);
        QFETCH(double, tolerance);
        const auto result = ask(figure.toStdString(), input.toStdString());
        QVERIFY2(
            result.has_value(), result ? "" : qPrintable(QString::fromStdString(result.error().path + ": " + result.error().expected)));
        const double found = at(result->values, key.toStdString()) / unit;
        QVERIFY2(std::abs(found - expected) <= tolerance,
            qPrintable(QStringLiteral("%1 against %2").arg(found, 0, 'g', 10).arg(expected, 0, 'g', 10)));
    }

    void marksAreTextOnTheTape()
    {
        const auto result =
            ask("mark-out", R"({"vessel": {"outside_diameter": "38 in", "wall": "0.25 in", "shell_length": "80 in", "heads": "flat"}})");
        QCOMPARE(result->values.find("quarters")->items[4].textOf("sixteenth"), std::string_view("119 3/8 in"));
        QCOMPARE(result->values.textOf("girth_sixteenth"), std::string_view("119 3/8 in"));
        QCOMPARE(result->values.find("quarters")->items[1].integerOf("millimetres"), std::int64_t(758));
    }

    // Running lists, sorted, from one datum; the last mark and the closing length make the girth.
    void listsRunFromOneDatumAndClose()
    {
        const auto result =
            ask("mark-out", withShell(R"("datum": {"clock": "90 deg", "by": "girth-tape", "measured_girth": "94 3/8 in"}, "kerf": "3 mm",
            "features": [
              {"name": "stack", "kind": "round-cut-out", "from_left_tangent": "8 in", "clock": "0 deg", "diameter": "8 in"},
              {"name": "door", "kind": "door", "from_left_tangent": "20 in", "length": "30 in", "clock": "100 deg", "clock_to": "160 deg",
               "corner_radius": "1 1/2 in", "hinge_side": "first-line"},
              {"name": "long", "kind": "seam", "clock": "200 deg"}])"));
        QVERIFY(result.has_value());
        const auto& around = result->values.find("around")->items;
        QCOMPARE(around.size(), std::size_t(5));
        for (std::size_t i = 1; i < around.size(); ++i) {
            QVERIFY(around[i - 1].find("exact_m")->number <= around[i].find("exact_m")->number);
        }
        const double girth = std::numbers::pi * 30 * kInch;
        QVERIFY(std::abs(around[0].find("exact_m")->number - girth * 10 / 360) < 1e-12); // 100 less 90 degrees
        QVERIFY(std::abs(around[4].find("exact_m")->number - girth * 270 / 360) < 1e-12); // the top line, the long way round
        QVERIFY(std::abs(number(*result, "closing_m") + around[4].find("exact_m")->number - girth) < 1e-12);
        // 94 1/4 less 70 11/16, as the marks stand on the steel.
        QCOMPARE(result->values.textOf("closing_sixteenth"), std::string_view("23 9/16 in"));
        QVERIFY(std::abs(number(*result, "girth_difference_m") - (94.375 * kInch - girth)) < 1e-12);
        QVERIFY(!has(*result, "centre_line_at_m"));
        const canon::Json& door = result->values.find("cuts")->items[1];
        QVERIFY(std::abs(door.find("panel_arc_m")->number - (girth / 6 - 0.003)) < 1e-12); // half a kerf a side
        QVERIFY(std::abs(door.find("opening_arc_m")->number - (girth / 6 + 0.003)) < 1e-12);
        QVERIFY(std::abs(door.find("hinge_line_around_m")->number - girth / 36) < 1e-12);
        // A corner of 1 1/2 in is 59.8 mm long: longer than the tab, so the whole corner stays.
        QVERIFY(std::abs(door.find("tab_m")->number - std::numbers::pi / 2 * 1.5 * kInch) < 1e-12);
        QVERIFY(std::abs(door.find("cut_stops_from_corner_m")->number - 1.5 * kInch) < 1e-12);
    }

    void saysWhatIsTooNear()
    {
        const auto result =
            ask("mark-out", withShell(R"("kerf": "3 mm", "kerf_side": "inside", "strap": "1 in", "tolerance": "0 in", "features": [
            {"name": "hatch", "kind": "cut-out", "from_left_tangent": "1 in", "length": "6 in", "around": "10 in", "width": "6 in"},
            {"name": "girth", "kind": "girth-seam", "from_left_tangent": "0 in"},
            {"name": "door", "kind": "door", "from_left_tangent": "20 in", "length": "30 in", "around": "10 in", "width": "20 in"},
            {"name": "long", "kind": "seam", "around": "32 in"},
            {"name": "valve", "kind": "nozzle", "from_left_tangent": "35 in", "around": "7 in", "diameter": "2 in"}])"));
        QVERIFY(result.has_value());
        const auto& clashes = result->values.find("clashes")->items;
        QCOMPARE(clashes.size(), std::size_t(2));
        QCOMPARE(clashes[0].textOf("with"), std::string_view("girth"));
        QVERIFY(std::abs(clashes[0].find("gap_m")->number - kInch) < 1e-12); // the kerf lies inside the line
        QCOMPARE(clashes[1].textOf("with"), std::string_view("long"));
        // Half the strap stands over the kerf's middle, which lies 1.5 mm inside the line: 2 in less 12.7 less -1.5 mm.
        QVERIFY(std::abs(clashes[1].find("gap_m")->number - (2 * kInch - 0.0127 + 0.0015)) < 1e-12);
        QVERIFY(std::ranges::find(result->warnings, "cut-too-near-to-a-seam-pad-or-nozzle") != result->warnings.end());
    }

    void namesTheSmallestOnThePath()
    {
        const auto result =
            ask("draught", R"({"path": [{"name": "inlet", "width": "4 in", "height": "10 in"}, {"name": "throat", "area": "60 in2"},
            {"name": "flue", "diameter": "8 in"}]})");
        QVERIFY(result.has_value());
        QCOMPARE(result->values.textOf("smallest"), std::string_view("inlet"));
        QVERIFY(std::abs(number(*result, "smallest_m2") - 40 * kInch * kInch) < 1e-12);
        QVERIFY(
            std::abs(result->values.find("areas")->items[2].find("area_m2")->number / (kInch * kInch) - 50.3) < 0.05); // flue area tables
    }

    void rulesOfThumbAreMarked()
    {
        const auto result = ask("draught", R"({"firebox_volume": "80 galUS", "chamber_volume": "240 galUS"})");
        QVERIFY(result.has_value());
        const canon::Json& rule = result->values.find("rules_of_thumb")->items[0];
        QVERIFY(std::string(rule.textOf("mark")).starts_with("rule of thumb"));
        QVERIFY(std::abs(rule.find("share")->number - 1.0 / 3) < 1e-12);
        QVERIFY(std::ranges::find(result->warnings, "rule-of-thumb-is-no-design") != result->warnings.end());
    }

    void curvesCarryTheirRange()
    {
        const auto result =
            ask("draught", R"({"height": "8 ft", "diameter": "6 in", "gas_temperature": "300 degF", "air_temperature": "70 degF",
            "loss_factor": 4, "heat_loss": "7.4 W/m2K", "compare": [{"diameter": "8 in"}, {"diameter": "10 in"}]})");
        QVERIFY(result.has_value());
        QVERIFY(std::ranges::find(result->warnings, "estimate-within-30-percent-no-wind") != result->warnings.end());
        for (const canon::Json& curve : result->values.find("curves")->items) {
            for (const canon::Json& point : curve.find("points")->items) {
                const double flow = point.find("mass_flow_kg_s")->number;
                QVERIFY(flow > 0);
                QVERIFY(std::abs(point.find("low_kg_s")->number / flow - 0.7) < 1e-12);
                QVERIFY(std::abs(point.find("high_kg_s")->number / flow - 1.3) < 1e-12);
            }
        }
    }

    // A flow that is held back: its draught over the height (worked: 3.65, 6.12, 9.43 Pa at 4, 8, 20 ft of 8 in), and the stack's own.
    void aHeldFlowHasItsOwnCurve()
    {
        const auto result =
            ask("draught", R"({"height": "8 ft", "diameter": "8 in", "gas_temperature": "422 K", "air_temperature": "294.26 K",
            "loss_factor": 4, "heat_loss": "7.4 W/m2K", "mass_flow": "40 kg/h", "pressure": "101325 Pa"})");
        QVERIFY(result.has_value());
        const auto& points = result->values.find("curves")->items[0].find("points")->items;
        for (const auto& [place, pascals] : {std::pair(1, 3.65), std::pair(3, 6.12), std::pair(9, 9.43)}) {
            const canon::Json& one = points[static_cast<std::size_t>(place)];
            QVERIFY(std::abs(one.find("held_draught_Pa")->number - pascals) < 0.01);
        }
    }

    // A pipe on the middle of a round head: cut square, and a string does the hole.
    void aStringDoesACircle()
    {
        const auto result = ask("junction", withShell(R"("kind": "pipe-to-head", "head": "left", "pipe_diameter": "8 in")"));
        QVERIFY(result.has_value());
        QCOMPARE(result->values.textOf("method"), std::string_view("circle"));
        QVERIFY(number(*result, "depth_m") < 1e-9);
        const double polar = std::asin(4.0 / 15);
        QVERIFY(std::abs(number(*result, "tape_m") - 15 * kInch * polar) < 1e-9);
        QVERIFY(std::abs(number(*result, "string_m") - 30 * kInch * std::sin(polar / 2)) < 1e-9);
        QVERIFY(std::abs(number(*result, "throat_m2") - std::numbers::pi * 16 * kInch * kInch) < 1e-12);
    }

    // The same hole by pipe-to-head and by pipe-to-sphere, off the middle of a hemisphere.
    void aRoundHeadIsASphere()
    {
        const auto head =
            ask("junction", withShell(R"("kind": "half-vessel-to-head", "head": "right", "pipe_diameter": "8 in", "offset": "5 in")"));
        const auto sphere =
            ask("junction", R"({"kind": "pipe-to-sphere", "pipe_diameter": "8 in", "sphere_diameter": "30 in", "offset": "5 in"})");
        QVERIFY(head.has_value() && sphere.has_value());
        for (std::size_t i = 0; i < 16; ++i) {
            const std::string key = "ordinates[" + std::to_string(i) + "].cut_m";
            QVERIFY(std::abs(at(head->values, key) - at(sphere->values, key)) < 1e-9);
        }
    }

    void bothFitsAreShown()
    {
        const auto on =
            ask("junction", R"({"kind": "pipe-to-cylinder", "pipe_diameter": "6.625 in", "cylinder_diameter": "30 in", "fit": "set-on",
            "pipe_wall": "0.28 in", "part_wall": "0.25 in"})");
        QVERIFY(on.has_value());
        QCOMPARE(on->values.textOf("fit"), std::string_view("set-on"));
        QVERIFY(std::abs(number(*on, "touching_pipe_radius_m") - 3.0325 * kInch) < 1e-12); // inside edge ...
        QVERIFY(std::abs(number(*on, "touching_part_radius_m") - 15 * kInch) < 1e-12); // ... on the outside
        QCOMPARE(on->values.textOf("other_fit"), std::string_view("set-in"));
        const auto in =
            ask("junction", R"({"kind": "pipe-to-cylinder", "pipe_diameter": "6.625 in", "cylinder_diameter": "30 in", "fit": "set-in",
            "pipe_wall": "0.28 in", "part_wall": "0.25 in"})");
        QVERIFY(std::abs(number(*in, "touching_pipe_radius_m") - 3.3125 * kInch) < 1e-12); // outside edge ...
        QVERIFY(std::abs(number(*in, "touching_part_radius_m") - 14.75 * kInch) < 1e-12); // ... on the inside
        for (std::size_t i = 0; i < 16; ++i) {
            const std::string row = "[" + std::to_string(i) + "].cut_m";
            QVERIFY(std::abs(at(on->values, "other_ordinates" + row) - at(in->values, "ordinates" + row)) < 1e-12);
        }
    }

    void namesWhatCannotBe_data()
    {
        QTest::addColumn<QString>("figure");
        QTest::addColumn<QString>("input");
        QTest::addColumn<QString>("path");
        QTest::addColumn<int>("code");
        const auto row = [](const char* name, const char* figure, const std::string& input, const char* path, Code code) {
            QTest::newRow(name) << QString(figure) << QString::fromStdString(input) << QString(path) << static_cast<int>(code);
        };
        const auto joint = [](const std::string& kind, const std::string& rest) {
            std::string out("{\"kind\": \"");
            return out.append(kind).append("\", ").append(rest).append("}");
        };
        row("pipe wider than the shell", "junction", joint("pipe-to-cylinder", R"("pipe_diameter": "31 in", "cylinder_diameter": "30 in")"),
            "pipe_diameter", Code::Impossible);
        row("offset off the part", "junction",
            joint("pipe-to-cylinder", R"("pipe_diameter": "6 in", "cylinder_diameter": "30 in", "offset": "12.1 in")"), "offset",
            Code::Impossible);
        row("along the part", "junction",
            joint("pipe-to-cylinder", R"("pipe_diameter": "6 in", "cylinder_diameter": "30 in", "angle": "0 deg")"), "angle",
            Code::OutOfRange);
        row("off a sphere", "junction",
            joint("pipe-to-sphere", R"("pipe_diameter": "6 in", "sphere_diameter": "30 in", "offset": "12 in")"), "offset",
            Code::Impossible);
        row("over a tangent line, on the shell", "junction",
            withShell(R"("kind": "pipe-to-cylinder", "pipe_diameter": "6 in", "from_left_tangent": "2 in")"), "from_left_tangent",
            Code::Impossible);
        row("over a tangent line, on the head", "junction",
            withShell(R"("kind": "pipe-to-head", "head": "right", "pipe_diameter": "6 in", "offset": "10 in", "angle": "60 deg")"),
            "offset", Code::Impossible);
        row("half vessel wider than the head", "junction",
            withShell(R"("kind": "half-vessel-to-head", "head": "right", "pipe_diameter": "32 in")"), "pipe_diameter", Code::Impossible);
        row("a hole over the seam", "junction",
            joint(
                "pipe-to-cylinder", R"("pipe_diameter": "6 in", "cylinder_diameter": "30 in", "clock": "355 deg", "seam_clock": "2 deg")"),
            "seam_clock", Code::Impossible);
        row("a fit without its wall", "junction",
            joint("pipe-to-cylinder", R"("pipe_diameter": "6 in", "cylinder_diameter": "30 in", "fit": "set-on")"), "pipe_wall",
            Code::Missing);
        row("a wall without a fit", "junction",
            joint("pipe-to-cylinder", R"("pipe_diameter": "6 in", "cylinder_diameter": "30 in", "pipe_wall": "0.28 in")"), "fit",
            Code::Missing);
        row("a key that this kind does not use", "junction",
            joint(
                "sphere-to-cylinder", R"("sphere_diameter": "24 in", "cylinder_diameter": "30 in", "distance": "22 in", "fit": "set-on")"),
            "fit", Code::Conflicting);
        row("marks without a wall", "mark-out",
            R"({"vessel": {"inside_diameter": "30 in", "shell_length": "60 in", "heads": "hemispherical"}})", "vessel.wall", Code::Missing);
        row("no pipe", "junction", joint("pipe-to-cylinder", R"("cylinder_diameter": "30 in")"), "pipe_diameter", Code::Missing);
        row("half an ordinate", "junction",
            joint("pipe-to-cylinder", R"("pipe_diameter": "6 in", "cylinder_diameter": "30 in", "count": 16.5)"), "count",
            Code::OutOfRange);
        row("heads that do not meet", "junction",
            joint("sphere-to-sphere", R"("left_diameter": "30 in", "right_diameter": "30 in", "distance": "31 in")"), "distance",
            Code::Impossible);
        row("heads that meet behind a tangent line", "junction",
            joint("sphere-to-sphere", R"("left_diameter": "30 in", "right_diameter": "16 in", "distance": "10 in")"), "distance",
            Code::Impossible);
        row("a head too wide for a side", "junction",
            joint("sphere-to-cylinder", R"("sphere_diameter": "60 in", "cylinder_diameter": "30 in", "distance": "16 in")"),
            "sphere_diameter", Code::Impossible);
        const auto cut = [](const std::string& rest) {
            return withShell(
                R"("features": [{"name": "door", "kind": "door", "from_left_tangent": "20 in", "length": "30 in", )" + rest + "}]");
        };
        row("over the girth's seam", "mark-out", cut(R"("clock": "350 deg", "clock_to": "20 deg")"), "features[0].clock", Code::Impossible);
        row("over the tangent line", "mark-out",
            withShell(R"("features": [{"name": "a", "kind": "cut-out", "from_left_tangent": "50 in", "length": "30 in", "clock": "10 deg",
                "width": "5 in"}])"),
            "features[0].length", Code::OutOfRange);
        row("a chord wider than the shell", "mark-out", cut(R"("clock": "10 deg", "chord": "31 in")"), "features[0].chord",
            Code::Impossible);
        row("a corner wider than the door", "mark-out", cut(R"("clock": "10 deg", "width": "5 in", "corner_radius": "3 in")"),
            "features[0].corner_radius", Code::OutOfRange);
        row("two widths", "mark-out", cut(R"("clock": "10 deg", "width": "5 in", "chord": "5 in")"), "features[0].width",
            Code::Conflicting);
        row("a door of tabs alone", "mark-out", cut(R"("clock": "10 deg", "width": "1 in")"), "features[0]", Code::Impossible);
        const auto work = [](const std::string& rest) {
            return withShell(R"("features": [
                {"name": "stack", "kind": "round-cut-out", "from_left_tangent": "8 in", "clock": "0 deg", "diameter": "8 in"},
                {"name": "door", "kind": "door", "from_left_tangent": "20 in", "length": "30 in", "clock": "40 deg", "width": "20 in",
                 "hinge_side": "first-line"}], "work": [)"
                + rest + "]");
        };
        row("a hinge in the wet stage", "mark-out",
            work(
                R"({"do": "cut-out", "feature": "stack"}, {"do": "cut-to-tabs", "feature": "door"}, {"do": "fit-hinge", "feature": "door"})"),
            "work[2].do", Code::Conflicting);
        row("a strap in the wet stage", "mark-out",
            work(R"({"do": "cut-out", "feature": "stack"}, {"do": "cut-to-tabs", "feature": "door"}, {"do": "let-out"},
                {"do": "fit-strap", "feature": "door"})"),
            "work[3].do", Code::Conflicting);
        row("the last tabs in the wet stage", "mark-out",
            work(R"({"do": "cut-out", "feature": "stack"}, {"do": "cut-to-tabs", "feature": "door"}, {"do": "let-out"},
                {"do": "cut-tabs", "feature": "door"})"),
            "work[3].do", Code::Conflicting);
        row("a door first", "mark-out", work(R"({"do": "cut-to-tabs", "feature": "door"})"), "work[0].do", Code::Conflicting);
        row("a door that is not laid out", "mark-out", work(R"({"do": "cut-to-tabs", "feature": "gate"})"), "work[0].feature",
            Code::Impossible);
        row("a cold stack", "draught",
            R"({"height": "6 ft", "diameter": "8 in", "gas_temperature": "20 degC", "air_temperature": "20 degC"})", "gas_temperature",
            Code::Impossible);
        row("half a stack", "draught", R"({"height": "6 ft"})", "diameter", Code::Missing);
        row("a flow that is none", "draught",
            R"({"height": "6 ft", "diameter": "8 in", "gas_temperature": "200 degC", "air_temperature": "20 degC", "mass_flow": "40 kg"})",
            "mass_flow", Code::BadQuantity);
        row("a liner wider than the shell", "draught", R"({"liner": {"shell_inside_diameter": "24 in", "outside_diameter": "24 in"}})",
            "liner.outside_diameter", Code::Impossible);
        row("steel beyond what was measured", "draught", R"({"expansion": {"length": "192 in", "cold": "20 degC", "hot": "900 degC"}})",
            "expansion.hot", Code::OutOfRange);
        row("nothing asked", "draught", "{}", "height", Code::Missing);
    }
    void namesWhatCannotBe()
    {
        QFETCH(QString, figure);
        QFETCH(QString, input);
        QFETCH(QString, path);
        QFETCH(int, code);
        const auto result = ask(figure.toStdString(), input.toStdString());
        QVERIFY(!result.has_value());
        QCOMPARE(QString::fromStdString(result.error().path), path);
        QCOMPARE(static_cast<int>(result.error().code), code);
    }
};
BRIMFUL_SUITE(ShopFiguresTest);
#include "shop_figures_test.moc"
