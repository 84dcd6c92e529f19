// Bad inputs: each is refused with a code and the path of its key; the schema says the same as the checker.
#include "core/figure/figure.h"

#include "tests/core/figure/ask.h"
#include "tests/support/suite.h"

#include <QTest>

#include <algorithm>
#include <cmath>

using namespace brimful;
using namespace brimful::test;
using figure::Code;

class InputsTest : public QObject {
    Q_OBJECT
private slots:
    void refuses_data();
    void refuses();
    void catalogueIsSorted();
    void describesItself();
    void keysCarryTheirUnit();
};

void InputsTest::refuses_data()
{
    QTest::addColumn<QString>("figure");
    QTest::addColumn<QString>("json");
    QTest::addColumn<int>("code");
    QTest::addColumn<QString>("path");
    const auto row = [](const char* name, const char* figure, const char* json, Code code, const char* path) {
        QString text = QString::fromUtf8(json);
        text.replace("VESSEL", R"({"inside_diameter":"30 in","shell_length":"62 in","wall":"0 in","heads":"hemispherical"})");
        text.replace("PLACE", R"("from_left_tangent":"31 in","clock":"0 deg")");
        QTest::newRow(name) << figure << text << static_cast<int>(code) << path;
    };
    row("nothing", "capacity", "{}", Code::Missing, "vessel");
    row("no object", "capacity", "[]", Code::WrongType, "");
    row("vessel a text", "capacity", R"({"vessel":"tank"})", Code::WrongType, "vessel");
    row("unknown key", "capacity", R"({"vessel":VESSEL,"colour":"red"})", Code::UnknownKey, "colour");
    row("unknown key inside", "capacity", R"({"vessel":{"outside_diametre":"30 in"}})", Code::UnknownKey, "vessel.outside_diametre");
    row("no diameter", "capacity", R"({"vessel":{"wall":"0 in","shell_length":"62 in","heads":"flat"}})", Code::Missing,
        "vessel.outside_diameter");
    row("two diameters", "capacity",
        R"({"vessel":{"outside_diameter":"30 in","inside_diameter":"29 in","wall":"0 in","shell_length":"62 in","heads":"flat"}})",
        Code::Conflicting, "vessel.inside_diameter");
    row("two lengths", "capacity",
        R"({"vessel":{"inside_diameter":"30 in","wall":"0 in","shell_length":"62 in","overall_length":"92 in","heads":"flat"}})",
        Code::Conflicting, "vessel.shell_length");
    row("no wall", "capacity", R"({"vessel":{"outside_diameter":"30 in","overall_length":"92 in","heads":"hemispherical"}})", Code::Missing,
        "vessel.wall");
    row("bare number", "capacity", R"({"vessel":{"outside_diameter":30}})", Code::BadQuantity, "vessel.outside_diameter");
    row("no unit", "capacity", R"({"vessel":{"outside_diameter":"30"}})", Code::BadQuantity, "vessel.outside_diameter");
    row("unknown unit", "capacity", R"({"vessel":{"outside_diameter":"30 inch"}})", Code::BadQuantity, "vessel.outside_diameter");
    row("wrong dimension", "capacity", R"({"vessel":{"outside_diameter":"30 kg"}})", Code::BadQuantity, "vessel.outside_diameter");
    row("zero diameter", "capacity", R"({"vessel":{"outside_diameter":"0 in","wall":"0 in","overall_length":"92 in","heads":"flat"}})",
        Code::OutOfRange, "vessel.outside_diameter");
    row("negative girth", "capacity", R"({"vessel":{"girth":"-94 in","wall":"0 in","overall_length":"92 in","heads":"flat"}})",
        Code::OutOfRange, "vessel.girth");
    row("negative wall", "capacity", R"({"vessel":{"outside_diameter":"30 in","wall":"-1 in","overall_length":"92 in","heads":"flat"}})",
        Code::OutOfRange, "vessel.wall");
    row("wall too thick", "capacity", R"({"vessel":{"outside_diameter":"30 in","wall":"15 in","overall_length":"92 in","heads":"flat"}})",
        Code::Impossible, "vessel.wall");
    row("shorter than its heads", "capacity",
        R"({"vessel":{"outside_diameter":"30 in","wall":"0.25 in","overall_length":"29 in","heads":"hemispherical"}})", Code::Impossible,
        "vessel.overall_length");
    row("negative shell", "capacity", R"({"vessel":{"inside_diameter":"30 in","shell_length":"-1 in","heads":"flat"}})", Code::OutOfRange,
        "vessel.shell_length");
    row("unknown head", "capacity", R"({"vessel":{"heads":"round"}})", Code::UnknownChoice, "vessel.heads");
    row("no heads", "capacity", R"({"vessel":{"inside_diameter":"30 in","shell_length":"62 in"}})", Code::Missing, "vessel.heads");
    row("one head", "capacity", R"({"vessel":{"inside_diameter":"30 in","shell_length":"62 in","left_head":"flat"}})", Code::Missing,
        "vessel.right_head");
    row("heads twice", "capacity", R"({"vessel":{"inside_diameter":"30 in","shell_length":"62 in","heads":"flat","left_head":"flat"}})",
        Code::Conflicting, "vessel.left_head");
    row("cone without depth", "capacity", R"({"vessel":{"inside_diameter":"30 in","shell_length":"62 in","heads":"conical"}})",
        Code::Missing, "vessel.depth");
    row("cone of no depth", "capacity", R"({"vessel":{"inside_diameter":"30 in","shell_length":"62 in","heads":"conical","depth":"0 in"}})",
        Code::OutOfRange, "vessel.depth");
    row("crown of half the diameter", "capacity",
        R"({"vessel":{"inside_diameter":"30 in","shell_length":"62 in","heads":"torispherical","crown_ratio":0.5}})", Code::OutOfRange,
        "vessel.crown_ratio");
    row("knuckle of half the diameter", "capacity",
        R"({"vessel":{"inside_diameter":"30 in","shell_length":"62 in","heads":"torispherical","knuckle_ratio":"0.5"}})", Code::OutOfRange,
        "vessel.knuckle_ratio");
    row("crown without a knuckle head", "capacity",
        R"({"vessel":{"inside_diameter":"30 in","shell_length":"62 in","heads":"flat","crown_ratio":1}})", Code::Conflicting,
        "vessel.crown_ratio");
    row("stamp of nothing", "capacity",
        R"({"vessel":{"inside_diameter":"30 in","shell_length":"62 in","heads":"flat","stamped_capacity":"0 L"}})", Code::OutOfRange,
        "vessel.stamped_capacity");
    row("a mile long", "capacity", R"({"vessel":{"inside_diameter":"30 in","shell_length":"1609 m","heads":"flat"}})", Code::OutOfRange,
        "vessel.shell_length");
    row("neither depth nor volume", "level", R"({"vessel":VESSEL})", Code::Missing, "depth");
    row("depth and volume", "level", R"({"vessel":VESSEL,"depth":"1 in","volume":"1 L"})", Code::Conflicting, "volume");
    row("depth below 0", "level", R"({"vessel":VESSEL,"depth":"-1 in"})", Code::OutOfRange, "depth");
    row("deeper than the vessel", "level", R"({"vessel":VESSEL,"depth":"31 in"})", Code::Impossible, "depth");
    row("more than it holds", "level", R"({"vessel":VESSEL,"volume":"251 galUS"})", Code::Impossible, "volume");
    row("volume below 0", "level", R"({"vessel":VESSEL,"volume":"-1 L"})", Code::OutOfRange, "volume");
    row("beyond upright", "level", R"({"vessel":VESSEL,"depth":"1 in","pose":{"pitch":"91 deg"}})", Code::OutOfRange, "pose.pitch");
    row("openings no list", "water-fill", R"({"vessel":VESSEL,"openings":{}})", Code::WrongType, "openings");
    row("no opening in the list", "water-fill", R"({"vessel":VESSEL,"openings":[]})", Code::Impossible, "openings");
    row("all plugged", "water-fill", R"({"vessel":VESSEL,"openings":[{"name":"A",PLACE,"state":"plugged"}]})", Code::Impossible,
        "openings");
    row("opening without a name", "water-fill", R"({"vessel":VESSEL,"openings":[{PLACE}]})", Code::Missing, "openings[0].name");
    row("one name twice", "water-fill", R"({"vessel":VESSEL,"openings":[{"name":"A",PLACE},{"name":"A",PLACE}]})", Code::Conflicting,
        "openings[1].name");
    row("opening nowhere", "water-fill", R"({"vessel":VESSEL,"openings":[{"name":"A","clock":"0 deg"}]})", Code::Missing,
        "openings[0].from_left_tangent");
    row("opening at no clock", "water-fill", R"({"vessel":VESSEL,"openings":[{"name":"A","from_left_tangent":"1 in"}]})", Code::Missing,
        "openings[0].clock");
    row("opening off the shell", "water-fill", R"({"vessel":VESSEL,"openings":[{"name":"A","from_left_tangent":"63 in","clock":"0 deg"}]})",
        Code::OutOfRange, "openings[0].from_left_tangent");
    row("on a head and on the shell", "water-fill", R"({"vessel":VESSEL,"openings":[{"name":"A",PLACE,"head":"left"}]})", Code::Conflicting,
        "openings[0].from_left_tangent");
    row("angle without a head", "water-fill", R"({"vessel":VESSEL,"openings":[{"name":"A","from_pole_deg":3,"clock":"0 deg"}]})",
        Code::Missing, "openings[0].head");
    row("behind the head", "water-fill", R"({"vessel":VESSEL,"openings":[{"name":"A","head":"left","from_pole_deg":95,"clock":"0 deg"}]})",
        Code::OutOfRange, "openings[0].from_pole_deg");
    row("a bore as wide as the vessel", "water-fill", R"({"vessel":VESSEL,"openings":[{"name":"A",PLACE,"bore":"30 in"}]})",
        Code::Impossible, "openings[0].bore");
    row("a tube through the floor", "water-fill", R"({"vessel":VESSEL,"openings":[{"name":"A",PLACE,"projection":"31 in"}]})",
        Code::Impossible, "openings[0].projection");
    row("half open", "water-fill", R"({"vessel":VESSEL,"openings":[{"name":"A",PLACE,"state":"ajar"}]})", Code::UnknownChoice,
        "openings[0].state");
    row("no flow", "water-fill", R"({"vessel":VESSEL,"openings":[{"name":"A",PLACE}],"flow":"0 L/min"})", Code::OutOfRange, "flow");
    row("colder than cold", "water-fill", R"({"vessel":VESSEL,"water_temperature":"-300 degC"})", Code::OutOfRange, "water_temperature");
    row("no openings to pose by", "best-pose", R"({"vessel":VESSEL})", Code::Missing, "openings");
    row("a limit below 0", "best-pose", R"({"vessel":VESSEL,"openings":[{"name":"A",PLACE}],"pitch_limit":"-1 deg"})", Code::OutOfRange,
        "pitch_limit");
    row("a tolerance of a landslide", "best-pose", R"({"vessel":VESSEL,"openings":[{"name":"A",PLACE}],"tolerance":"45 deg"})",
        Code::OutOfRange, "tolerance");
}

void InputsTest::refuses()
{
    QFETCH(QString, figure);
    QFETCH(QString, json);
    QFETCH(int, code);
    QFETCH(QString, path);
    const auto got = ask(figure.toStdString(), json.toStdString());
    QVERIFY(!got.has_value());
    QCOMPARE(QString::fromStdString(got.error().path), path);
    QCOMPARE(static_cast<int>(got.error().code), code);
}

void InputsTest::catalogueIsSorted()
{
    QVERIFY(std::ranges::is_sorted(figure::catalogue(), {}, &figure::Figure::name));
    for (const figure::Figure& one : figure::catalogue()) {
        QCOMPARE(figure::byName(one.name), &one);
        QVERIFY(one.compute != nullptr);
    }
    QVERIFY(figure::byName("phlogiston") == nullptr);
}

void InputsTest::describesItself()
{
    for (const figure::Figure& one : figure::catalogue()) {
        const canon::Json page = figure::describe(one);
        QCOMPARE(page.textOf("figure"), one.name);
        const canon::Json& inputs = *page.find("inputs");
        QCOMPARE(inputs.textOf("$schema"), std::string_view("https://json-schema.org/draft/2020-12/schema"));
        QVERIFY(inputs.find("additionalProperties")->integer == 0);
        for (const figure::Input& input : one.inputs) {
            QVERIFY(inputs.find("properties")->find(input.key) != nullptr);
        }
        for (const figure::Output& output : one.outputs) {
            QVERIFY(page.find("outputs")->find("properties")->find(output.key) != nullptr);
        }
        QVERIFY(canon::read(canon::write(page, true), canon::Dialect::Any).has_value());
    }
    const canon::Json page = figure::describe(*figure::byName("capacity"));
    QCOMPARE(page.find("outputs")->find("properties")->find("capacity_m3")->textOf("unit"), std::string_view("m3"));
    QCOMPARE(page.find("inputs")->find("required")->items.at(0).text, std::string("vessel"));
}

void InputsTest::keysCarryTheirUnit()
{
    const auto output = [](std::string_view key) { return figure::Output{key, quantity::Dimension::Number}; };
    QCOMPARE(figure::unitOf(output("trapped_m3")), std::string_view("m3"));
    QCOMPARE(figure::unitOf(output("flow_m3_s")), std::string_view("m3_s"));
    // Packs compare shares: a ratio of 990 per mille that stayed 990 would pass every least share.
    QCOMPARE(figure::siOf(output("per_mille"), 990.0), 0.99);
    QCOMPARE(figure::siOf(output("trapped_percent"), 5.0), 0.05);
    QCOMPARE(figure::unitOf(output("per_mille")), std::string_view("per_mille"));
    QVERIFY(figure::unitOf(output("fraction")).empty());
    QVERIFY(std::abs(figure::siOf(output("best_pitch_deg"), 180) - 3.14159265358979) <= 1e-12);
    QVERIFY(std::abs(figure::siOf(output("gas_percent"), 2.1) - 0.021) <= 1e-15);
    QCOMPARE(figure::siOf(output("volume_m3"), 2), 2.0);
}

BRIMFUL_SUITE(InputsTest);
#include "inputs_test.moc"
