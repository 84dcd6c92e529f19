// Draining, supports and cuts as a script asks them: what they refuse, what they warn of, what they answer.
#include "core/figure/figure.h"

#include "tests/core/figure/ask.h"
#include "tests/support/suite.h"

#include <QTest>

#include <algorithm>
#include <cmath>
#include <set>

using namespace brimful;
using namespace brimful::test;
using figure::Code;

namespace {

// ' for ", and VESSEL, STANDS, TOP for what most questions share.
std::string question(std::string text)
{
    const auto put = [&](std::string_view word, std::string_view by) {
        for (std::size_t at = text.find(word); at != std::string::npos; at = text.find(word, at + by.size())) {
            text.replace(at, word.size(), by);
        }
    };
    put("VESSEL", "'vessel':{'outside_diameter':'30 in','wall':'0.25 in','overall_length':'92 in','heads':'hemispherical'}");
    put("STANDS", "'supports':[{'from_left_tangent':'10 in'},{'from_left_tangent':'50 in'}]");
    put("TOP", "'openings':[{'name':'A','from_left_tangent':'31 in','clock':'0 deg','bore':'0 in','projection':'0 in','state':'open'}]");
    put("PLACE", "'from_left_tangent':'31 in','clock':'90 deg'");
    std::ranges::replace(text, '\'', '"');
    return text;
}

figure::Result asked(const char* figure, const char* text)
{
    const auto got = ask(figure, question(text));
    if (!got) {
        throw std::invalid_argument(got.error().path + " " + got.error().expected);
    }
    return *got;
}

bool warns(const figure::Result& result, std::string_view word)
{
    return std::ranges::find(result.warnings, word) != result.warnings.end();
}

const canon::Json& row(const figure::Result& result, std::string_view list, std::size_t i) { return result.values.find(list)->items.at(i); }

} // namespace

class WetFiguresTest : public QObject {
    Q_OBJECT
private slots:
    void refuses_data();
    void refuses();
    void warns_data();
    void warns();
    void saysNothingBeyondItsDeclaration();
    void drainHasARange();
    void drainWithoutAVentHasNoTime();
    void holesTogetherAreFaster();
    void cutPlanOfADoor();
    void cutPlanStartsWhereTheWaterStands();
    void neverLiftsAFilledVessel();
    void bearing();
    void plugsHoldTheHead();
    void wallAndHeadFromScaleAndTape();
    void siphon();
    void coolingOpensAPocket_data();
    void coolingOpensAPocket();
};

void WetFiguresTest::refuses_data()
{
    QTest::addColumn<QString>("figure");
    QTest::addColumn<QString>("json");
    QTest::addColumn<int>("code");
    QTest::addColumn<QString>("path");
    const auto row = [](const char* name, const char* figure, const char* json, Code code, const char* path) {
        QTest::newRow(name) << figure << json << static_cast<int>(code) << path;
    };
    row("drain: no way out", "drain", "{VESSEL}", Code::Missing, "hole");
    row("drain: no size", "drain", "{VESSEL,'hole':{PLACE}}", Code::Missing, "hole.diameter");
    row("drain: hole and slot", "drain", "{VESSEL,'hole':{PLACE,'diameter':'1 in','slot_length':'1 in','slot_width':'1 mm'}}",
        Code::Conflicting, "hole.slot_length");
    row("drain: slot without width", "drain", "{VESSEL,'hole':{PLACE,'slot_length':'1 in'}}", Code::Missing, "hole.slot_width");
    row("drain: slot without length", "drain", "{VESSEL,'hole':{PLACE,'slot_width':'1 mm'}}", Code::Missing, "hole.slot_length");
    row("drain: slot beyond the vessel", "drain", "{VESSEL,'hole':{PLACE,'slot_length':'20 ft','slot_width':'1 mm'}}", Code::OutOfRange,
        "hole.slot_length");
    row("drain: slot more than round", "drain", "{VESSEL,'hole':{PLACE,'slot_length':'9 ft','slot_width':'1 mm','slot_runs':'around'}}",
        Code::Impossible, "hole.slot_length");
    row("drain: kerf of one place", "drain", "{VESSEL,'hole':{'places':[{PLACE}],'kerf':'2 mm'}}", Code::Missing, "hole.places");
    row("drain: kerf without places", "drain", "{VESSEL,'hole':{PLACE,'kerf':'2 mm'}}", Code::Missing, "hole.places");
    row("drain: places without a kerf", "drain", "{VESSEL,'hole':{'places':[{PLACE},{PLACE}]}}", Code::Missing, "hole.kerf");
    row("drain: hole and holes", "drain", "{VESSEL,'hole':{PLACE,'diameter':'1 in'},'holes':[]}", Code::Conflicting, "holes");
    row("drain: hole as wide as the vessel", "drain", "{VESSEL,'hole':{PLACE,'diameter':'30 in'}}", Code::Impossible, "hole.diameter");
    row("drain: a hole of nothing", "drain", "{VESSEL,'hole':{PLACE,'diameter':'0 in'}}", Code::OutOfRange, "hole.diameter");
    row("drain: off the shell", "drain", "{VESSEL,'hole':{'from_left_tangent':'70 in','clock':'0 deg','diameter':'1 in'}}",
        Code::OutOfRange, "hole.from_left_tangent");
    row("drain: discharge above 1", "drain", "{VESSEL,'hole':{PLACE,'diameter':'1 in','discharge':1.2}}", Code::OutOfRange,
        "hole.discharge");
    row("drain: second hole is wrong", "drain", "{VESSEL,'holes':[{PLACE,'diameter':'1 in'},{PLACE,'diameter':'-1 in'}]}", Code::OutOfRange,
        "holes[1].diameter");
    row("drain: siphon beyond the vessel", "drain",
        "{VESSEL,'siphon':{'bore':'1 in','length':'5 m','mouth_depth':'40 in','outlet_below':'0 m'}}", Code::OutOfRange,
        "siphon.mouth_depth");
    row("drain: siphon of nothing", "drain", "{VESSEL,'siphon':{'bore':'0 in','length':'5 m','mouth_depth':'0 in','outlet_below':'0 m'}}",
        Code::OutOfRange, "siphon.bore");
    row("drain: deeper than it is", "drain", "{VESSEL,'hole':{PLACE,'diameter':'1 in'},'from':'31 in'}", Code::Impossible, "from");
    row("drain: upwards without a hose", "drain", "{VESSEL,'hole':{PLACE,'diameter':'1 in'},'from':'5 in','to':'9 in'}", Code::Impossible,
        "to");
    row("drain: nothing over the hole", "drain", "{VESSEL,'hole':{PLACE,'diameter':'1 in'},'from':'5 in'}", Code::Impossible, "from");
    row("drain: a hose of nothing", "drain", "{VESSEL,'inflow':'0 L/min'}", Code::OutOfRange, "inflow");
    row("support: no supports", "support", "{VESSEL,'full':1}", Code::Missing, "supports");
    row("support: one", "support", "{VESSEL,'full':1,'supports':[{'from_left_tangent':'10 in'}]}", Code::Impossible, "supports");
    row("support: off the shell", "support", "{VESSEL,'full':1,'supports':[{'from_left_tangent':'10 in'},{'from_left_tangent':'80 in'}]}",
        Code::OutOfRange, "supports");
    row("support: how full is not said", "support", "{VESSEL,STANDS}", Code::Missing, "contents_depth");
    row("support: said twice", "support", "{VESSEL,STANDS,'full':1,'contents_depth':'3 in'}", Code::Conflicting, "full");
    row("support: no steel known", "support",
        "{'vessel':{'inside_diameter':'30 in','shell_length':'62 in','heads':'flat'},STANDS,'full':1}", Code::Missing, "empty_mass");
    row("support: too steep", "support", "{VESSEL,STANDS,'full':1,'pose':{'pitch':'40 deg'}}", Code::Impossible, "pose.pitch");
    row("support: pad of nothing", "support",
        "{VESSEL,'full':1,'supports':[{'from_left_tangent':'10 in'},{'from_left_tangent':'50 in','pad_area':'0 in2'}]}", Code::OutOfRange,
        "supports[1].pad_area");
    row("support: lifting a filled vessel", "support", "{VESSEL,STANDS,'full':1,'sling_angle':'60 deg'}", Code::Impossible, "sling_angle");
    row("support: a flat sling", "support", "{VESSEL,STANDS,'full':0,'sling_angle':'10 deg'}", Code::OutOfRange, "sling_angle");
    row("cut: no cuts", "cut-plan", "{VESSEL,TOP}", Code::Missing, "cuts");
    row("cut: no water told", "cut-plan", "{VESSEL,'cuts':[]}", Code::Missing, "openings");
    row("cut: one place", "cut-plan", "{VESSEL,TOP,'cuts':[{'places':[{PLACE}],'kerf':'2 mm'}]}", Code::Missing, "cuts[0].places");
    row("cut: no kerf", "cut-plan", "{VESSEL,TOP,'cuts':[{'places':[{PLACE},{PLACE}]}]}", Code::Missing, "cuts[0].kerf");
    row("cut: the long way round", "cut-plan",
        "{VESSEL,TOP,'cuts':[{'kerf':'2 mm','places':[{'from_left_tangent':'9 in','clock':'350 deg'},{'from_left_tangent':'9 "
        "in','clock':'10 deg'}]}]}",
        Code::Impossible, "cuts[0].places[1].clock");
    row("cut: off the vessel", "cut-plan",
        "{VESSEL,TOP,'cuts':[{'kerf':'2 mm','places':[{PLACE},{'from_left_tangent':'90 in','clock':'0 deg'}]}]}", Code::OutOfRange,
        "cuts[0].places[1].from_left_tangent");
    row("cut: one name twice", "cut-plan",
        "{VESSEL,TOP,'cuts':[{'name':'a','kerf':'2 mm','places':[{PLACE},{PLACE}]},{'name':'a','kerf':'2 mm','places':[{PLACE},{PLACE}]}]}",
        Code::Conflicting, "cuts[1].name");
    row("capacity: lighter than any", "capacity", "{VESSEL,'empty_mass':'90000 kg'}", Code::Impossible, "empty_mass");
    row("capacity: mass of nothing", "capacity", "{VESSEL,'empty_mass':'0 kg'}", Code::OutOfRange, "empty_mass");
}

void WetFiguresTest::refuses()
{
    QFETCH(QString, figure);
    QFETCH(QString, json);
    QFETCH(int, code);
    QFETCH(QString, path);
    const auto got = ask(figure.toStdString(), question(json.toStdString()));
    QVERIFY(!got.has_value());
    QCOMPARE(QString::fromStdString(got.error().path), path);
    QCOMPARE(static_cast<int>(got.error().code), code);
}

void WetFiguresTest::warns_data()
{
    QTest::addColumn<QString>("figure");
    QTest::addColumn<QString>("json");
    QTest::addColumn<QString>("given"); // words, by blanks
    const auto row = [](const char* name, const char* figure, const char* json, const char* given) {
        QTest::newRow(name) << figure << json << given;
    };
    row("all told", "drain", "{VESSEL,'vented':1,'hole':{PLACE,'diameter':'1 in','discharge':0.6},'to':'20 in'}", "");
    row("side hole", "drain", "{VESSEL,'vented':1,'hole':{PLACE,'diameter':'1 in','discharge':0.6}}", "the-last-of-it-takes-for-ever");
    row("below the hole", "drain", "{VESSEL,'vented':1,'hole':{PLACE,'diameter':'1 in','discharge':0.6},'to':'2 in'}",
        "water-stops-at-the-outlet edges-hold-water-back");
    row("nothing told", "drain", "{VESSEL,'hole':{PLACE,'diameter':'1 in'},'to':'20 in'}",
        "discharge-taken-from-the-handbook vent-taken-as-open");
    row("hose against hole", "drain", "{VESSEL,'vented':1,'hole':{PLACE,'diameter':'1 in','discharge':0.6},'inflow':'5 L/min'}",
        "level-settles");
    row("shut", "drain", "{VESSEL,'vented':0,'hole':{PLACE,'diameter':'1 in','discharge':0.6},'to':'20 in'}", "gulps-without-a-vent");
    row("filling needs no vent to be told", "drain", "{VESSEL,'inflow':'5 L/min'}", "");
    row("steady", "support", "{VESSEL,STANDS,'full':1,'empty_mass':'300 kg','water_temperature':'12 degC','friction':0.3}", "");
    row("guessed", "support", "{VESSEL,STANDS,'full':1}", "plain-shell-weighed-without-fittings water-density-taken-as-1000-kg-m3");
    row("three", "support",
        "{VESSEL,'full':1,'empty_mass':'300 kg','water_temperature':'12 degC','supports':[{'from_left_tangent':'5 "
        "in'},{'from_left_tangent':'30 in'},{'from_left_tangent':'55 in'}]}",
        "three-supports-share-by-settlement");
    row("over a support", "support",
        "{VESSEL,'full':1,'empty_mass':'300 kg','water_temperature':'12 degC','supports':[{'from_left_tangent':'5 "
        "in'},{'from_left_tangent':'20 in'}]}",
        "tips");
    row("slippery", "support",
        "{VESSEL,STANDS,'full':1,'empty_mass':'300 kg','water_temperature':'12 degC','friction':0.1,'pose':{'pitch':'5 deg'}}",
        "needs-stops-against-sliding");
    row("frost", "support", "{VESSEL,STANDS,'full':1,'empty_mass':'300 kg','water_temperature':'12 degC','coldest':'-2 degC'}",
        "frost-open-it-and-let-it-out");
    row("frost, empty", "support", "{VESSEL,STANDS,'full':0,'empty_mass':'300 kg','water_temperature':'12 degC','coldest':'-2 degC'}", "");
    row("hot water", "support", "{VESSEL,STANDS,'full':1,'empty_mass':'300 kg','water_temperature':'60 degC'}",
        "water-temperature-outside-0-to-40-degC water-density-taken-as-1000-kg-m3");
    row("beyond the steel's formula", "support",
        "{VESSEL,STANDS,'full':0,'empty_mass':'300 kg','water_temperature':'12 degC','hottest':'900 degC'}",
        "growth-known-from-20-to-750-degC");
    row("baffles and domes", "water-fill", "{VESSEL,TOP,'baffles':1,'domes':1}", "baffles-not-modelled domes-not-modelled");
    row("baffles, best pose", "best-pose", "{VESSEL,TOP,'baffles':1,'domes':0,'pitch_limit':'0 deg','tolerance':'0 deg'}",
        "baffles-not-modelled");
    row("another head", "capacity", "{VESSEL,'tape_over_tips':'113.33 in'}", "tape-says-another-head");
    row("no head", "capacity", "{VESSEL,'tape_over_tips':'118 in'}", "tape-fits-no-head");
    row("another wall", "capacity", "{VESSEL,'empty_mass':'400 kg'}", "wall-does-not-fit-the-mass");
}

void WetFiguresTest::warns()
{
    QFETCH(QString, figure);
    QFETCH(QString, json);
    QFETCH(QString, given);
    const figure::Result got = asked(figure.toUtf8().constData(), json.toUtf8().constData());
    QStringList words;
    for (const std::string& word : got.warnings) {
        words << QString::fromStdString(word);
        const auto& known = figure::byName(figure.toStdString())->warnings;
        QVERIFY2(std::ranges::find(known, word) != known.end(), word.c_str());
    }
    QCOMPARE(words.join(' '), given);
}

// Everything answered is declared, and everything declared is answered here once.
void WetFiguresTest::saysNothingBeyondItsDeclaration()
{
    const std::vector<std::pair<const char*, std::vector<const char*>>> questions{
        {"drain",
            {"{VESSEL,'hole':{PLACE,'diameter':'1 in'}}", "{VESSEL,'inflow':'5 L/min'}",
                "{VESSEL,'hole':{PLACE,'diameter':'1 in'},'inflow':'5 L/min'}"}},
        {"support",
            {"{VESSEL,STANDS,TOP,'contents_depth':'20 in','friction':0.3,'ground':'sand','hottest':'100 degC'}",
                "{VESSEL,STANDS,'full':0,'sling_angle':'45 deg'}",
                "{VESSEL,'pose':{'pitch':'3 deg'},'full':1,'supports':[{'from_left_tangent':'29.5 in'},{'from_left_tangent':'50 in'}]}"}},
        {"cut-plan", {"{VESSEL,TOP,'cuts':[{'kerf':'2 mm','places':[{PLACE},{'from_left_tangent':'40 in','clock':'90 deg'}]}]}"}},
    };
    for (const auto& [name, texts] : questions) {
        std::set<std::string> said;
        for (const char* const text : texts) {
            for (const canon::Member& member : asked(name, text).values.members) {
                said.insert(member.key);
            }
        }
        std::set<std::string> declared;
        for (const figure::Output& output : figure::byName(name)->outputs) {
            declared.insert(std::string(output.key));
        }
        for (const std::string& key : said) {
            QVERIFY2(declared.contains(key), key.c_str());
        }
        for (const std::string& key : declared) {
            QVERIFY2(said.contains(key), (std::string(name) + ": " + key).c_str());
        }
    }
}

void WetFiguresTest::drainHasARange()
{
    const auto got = asked("drain", "{VESSEL,'hole':{PLACE,'slot_length':'10 in','slot_width':'2 mm'},'to':'16 in'}");
    QVERIFY(number(got, "fast_s") < number(got, "time_s") && number(got, "time_s") < number(got, "slow_s"));
    // A kerf may run with 0.8 instead of 0.64.
    QVERIFY(std::abs(number(got, "fast_s") / number(got, "time_s") - 0.64 / 0.8) <= 1e-9);
    const auto& curve = got.values.find("curve")->items;
    QVERIFY(curve.size() > 10);
    QVERIFY(std::abs(curve.back().find("time_s")->number - number(got, "time_s")) <= 1e-9);
    QVERIFY(std::abs(curve.back().find("depth_m")->number - 16 * 0.0254) <= 1e-9);
}

void WetFiguresTest::drainWithoutAVentHasNoTime()
{
    const auto got = asked("drain", "{VESSEL,'vented':0,'hole':{PLACE,'diameter':'1 in'},'to':'20 in'}");
    QVERIFY(!has(got, "time_s") && !has(got, "fast_s") && !has(got, "curve"));
    QVERIFY(number(got, "drained_m3") > 0);
}

void WetFiguresTest::holesTogetherAreFaster()
{
    const auto one = asked("drain", "{VESSEL,'holes':[{PLACE,'diameter':'1 in'}],'to':'20 in'}");
    const auto two = asked("drain",
        "{VESSEL,'holes':[{PLACE,'diameter':'1 in'},{'from_left_tangent':'9 in','clock':'-90 deg','diameter':'1 in'}],'to':'20 in'}");
    QVERIFY(std::abs(number(one, "time_s") / number(two, "time_s") - 2) <= 1e-6); // both at the height of the axis
}

// A door between clock 30 and 100 with its vent on top.
void WetFiguresTest::cutPlanOfADoor()
{
    const auto got = asked("cut-plan",
        "{VESSEL,TOP,STANDS,'water_temperature':'15 degC','cuts':[{'name':'door','kerf':'2 mm','places':["
        "{'from_left_tangent':'12 in','clock':'30 deg'},{'from_left_tangent':'48 in','clock':'30 deg'},{'from_left_tangent':'48 "
        "in','clock':'100 deg'},"
        "{'from_left_tangent':'12 in','clock':'100 deg'},{'from_left_tangent':'12 in','clock':'30 deg'}]},"
        "{'name':'across','kerf':'2 mm','places':[{'from_left_tangent':'31 in','clock':'0 deg'},{'from_left_tangent':'31 in','clock':'180 "
        "deg'},"
        "{'from_left_tangent':'31 in','clock':'360 deg'}]}]}");
    const canon::Json& door = row(got, "cuts", 0);
    QCOMPARE(door.textOf("name"), std::string_view("door"));
    QCOMPARE(door.textOf("vent"), std::string_view("A"));
    QVERIFY(door.find("meets_water_at") != nullptr && door.find("time_s") != nullptr);
    // 14.75 in inside: 0.67975 and 0.17596 rho g R^2 L across and up, by hand.
    const double unit = 999.1026 * 9.80665 * std::pow(14.75 * 0.0254, 2) * 36 * 0.0254;
    QVERIFY(std::abs(door.find("panel_push_N")->number - unit * std::hypot(0.67975, 0.17596)) <= 1e-3 * unit);
    QCOMPARE(door.find("pieces")->items.size(), std::size_t(2));
    QVERIFY(door.find("pieces")->items[0].find("stable")->integer != 0);
    const canon::Json& across = row(got, "cuts", 1);
    QCOMPARE(across.find("pieces")->items.size(), std::size_t(3));
    QVERIFY(across.find("pieces")->items[0].find("stable")->integer == 0);
    for (const char* const word : {"piece-without-two-supports", "water-pushes-the-panel", "level-falls-below-the-cut"}) {
        QVERIFY2(::warns(got, word), word);
    }
    QVERIFY(std::abs(number(got, "runs_out_m3") - number(got, "gas_space_m3")) <= 1e-9);
    const auto drawn = [&](std::string_view part) {
        return std::ranges::any_of(got.picture, [&](const auto& line) { return line.part == part; });
    };
    QVERIFY(drawn("cut:door") && drawn("cut:across") && drawn("shell"));
}

// The water starts where the openings let it stand, or where it is said to, whichever is lower; the pocket counts as gas space.
void WetFiguresTest::cutPlanStartsWhereTheWaterStands()
{
    const char* const kCut = "'cuts':[{'kerf':'2 mm','places':[{PLACE},{'from_left_tangent':'40 in','clock':'90 deg'}]}]";
    const auto at = [&](const char* more) { return asked("cut-plan", (std::string("{VESSEL,") + more + "," + kCut + "}").c_str()); };
    const auto pitched = at("TOP,'pose':{'pitch':'2 deg'}");
    const auto filled = asked("water-fill", "{VESSEL,TOP,'pose':{'pitch':'2 deg'}}");
    QVERIFY(std::abs(number(pitched, "start_gas_m3") - number(filled, "trapped_m3")) <= 1e-12);
    QVERIFY(std::abs(number(pitched, "gas_space_m3") - number(pitched, "start_gas_m3") - number(pitched, "runs_out_m3")) <= 1e-9);
    QVERIFY(std::abs(number(at("TOP,'start_depth':'20 in'"), "start_depth_m") - 20 * 0.0254) <= 1e-12);
    const auto shut = at("'start_depth':'29 in'");
    QVERIFY(::warns(shut, "gulps-without-a-vent"));
    QVERIFY(row(shut, "cuts", 0).find("time_s") == nullptr);
    QVERIFY(row(shut, "cuts", 0).find("vented")->integer == 0);
    QVERIFY(::warns(at("TOP,'inflow':'40 L/min'"), "hose-holds-the-level"));
}

void WetFiguresTest::neverLiftsAFilledVessel()
{
    const auto got = asked("support", "{VESSEL,STANDS,'full':0,'empty_mass':'300 kg','sling_angle':'60 deg'}");
    QVERIFY(std::abs(number(got, "sling_leg_N") - 0.57735 * 300 * 9.80665) <= 0.1);
    QVERIFY(!ask("support", question("{VESSEL,STANDS,'contents_depth':'1 mm','sling_angle':'60 deg'}")).has_value());
}

// 1250 lb on 4 in x 36 in is 1250 lb/ft2 (by hand): two supports with twice that between them, on clay and silt that take 1500.
void WetFiguresTest::bearing()
{
    const auto got = asked("support",
        "{'vessel':{'inside_diameter':'30 in','shell_length':'60 in','wall':'0 in','heads':'flat'},'empty_mass':'2500 "
        "lb','full':0,'ground':'clay-or-silt',"
        "'supports':[{'from_left_tangent':'10 in','pad_area':'144 in2'},{'from_left_tangent':'50 in','pad_area':'100 in2'}]}");
    const double psf = 47.88025898;
    QVERIFY(std::abs(row(got, "supports", 0).find("bearing_Pa")->number / psf - 1250) <= 0.1);
    QVERIFY(std::abs(number(got, "ground_takes_Pa") / psf - 1500) <= 0.01);
    QVERIFY(::warns(got, "bears-more-than-the-ground-takes")); // the smaller pad: 1800 lb/ft2
}

void WetFiguresTest::plugsHoldTheHead()
{
    const auto got = asked("support",
        "{VESSEL,STANDS,'full':1,'water_temperature':'15 degC','openings':["
        "{'name':'drain','from_left_tangent':'5 in','clock':'180 deg','bore':'2 in','state':'plugged'},"
        "{'name':'side','from_left_tangent':'5 in','clock':'90 deg','bore':'1 in','projection':'0 in','state':'open'}]}");
    const double wanted = 999.1026 * 9.80665 * 29.5 * 0.0254;
    QVERIFY(std::abs(row(got, "openings", 0).find("pressure_Pa")->number - wanted) <= 1e-6 * wanted);
    QVERIFY(std::abs(row(got, "openings", 0).find("push_N")->number - wanted * 3.14159265 * 0.0254 * 0.0254) <= 1e-6 * wanted);
    QVERIFY(std::abs(row(got, "openings", 1).find("pressure_Pa")->number - wanted / 2) <= 1e-6 * wanted);
    QVERIFY(::warns(got, "open-below-the-level"));
}

// A 30 x 92 vessel of 3/16 in weighs 207.4 kg plain (worked by hand); the tape over hemispherical tips is 17.12 in longer.
void WetFiguresTest::wallAndHeadFromScaleAndTape()
{
    const auto got = asked("capacity", "{VESSEL,'empty_mass':'207.4 kg','tape_over_tips':'109.12 in'}");
    QVERIFY(std::abs(number(got, "wall_from_mass_m") / 0.0254 - 0.1875) <= 2e-4);
    QCOMPARE(got.values.textOf("head_by_tape"), std::string_view("hemispherical"));
    QVERIFY(std::abs(number(got, "head_by_tape_off_m")) <= 2e-4);
}

// A 25 mm hose of 5 m over a drop of 0.8 m runs about 0.7 L/s, 45 min for 491.8 gal (worked by hand: v^2 = 2 g H / (1.5 + f l / d)
// with f about 0.03). Level held by the same inflow, so that the drop is 0.8 m: what comes is what leaves.
void WetFiguresTest::siphon()
{
    const auto got = asked("drain",
        "{'vessel':{'inside_diameter':'37 in','shell_length':'81 in','heads':'hemispherical'},'vented':1,'inflow':'42 L/min',"
        "'siphon':{'bore':'25 mm','length':'5 m','mouth_depth':'1 in','outlet_below':'0.3 m'}}");
    const double drop = number(got, "settles_depth_m") + 0.3;
    const double friction = 2 * 9.80665 * drop / std::pow(0.0007 / (3.14159265358979 * 0.000625 / 4), 2) - 1.5;
    QVERIFY(std::abs(friction - 0.025 * 5 / 0.025) <= 1e-6);
    QVERIFY2(drop > 0.55 && drop < 0.8, qPrintable(QString::number(drop)));
    // By itself it stops at its mouth in the end, and a longer hose takes longer.
    const auto whole = asked("drain",
        "{'vessel':{'inside_diameter':'37 in','shell_length':'81 in','heads':'hemispherical'},'vented':1,"
        "'siphon':{'bore':'25 mm','length':'5 m','mouth_depth':'1 in','outlet_below':'0.3 m'}}");
    QVERIFY(std::abs(number(whole, "end_depth_m") - 0.0254) <= 1e-9);
    QVERIFY2(number(whole, "fast_s") < 45 * 60 && number(whole, "slow_s") > 40 * 60, qPrintable(QString::number(number(whole, "time_s"))));
}

// From 25 to 15 degC, the shell's own shrinking counted: 1.6, 3.2, 6.4 L in 250, 500, 1000 gal (worked in another program).
void WetFiguresTest::coolingOpensAPocket_data()
{
    QTest::addColumn<double>("gallons");
    QTest::addColumn<double>("litres");
    QTest::newRow("250") << 250.0 << 1.6;
    QTest::newRow("500") << 500.0 << 3.2;
    QTest::newRow("1000") << 1000.0 << 6.4;
}

void WetFiguresTest::coolingOpensAPocket()
{
    QFETCH(double, gallons);
    QFETCH(double, litres);
    // A flat-ended cylinder of 36 in that holds so much.
    const double length = gallons * 231 / (3.14159265358979 * 18 * 18);
    const std::string text = "{'vessel':{'inside_diameter':'36 in','shell_length':'" + std::to_string(length)
        + " in','heads':'flat'},'water_temperature':'25 degC','cools_to':'15 degC','openings':[{'name':'A','from_left_tangent':'1 "
          "in','clock':'0 deg'}]}";
    const auto got = asked("water-fill", text.c_str());
    QVERIFY2(std::abs(1000 * number(got, "trapped_when_cool_m3") - litres) <= 0.05 * litres / 1.6,
        qPrintable(QString::number(1000 * number(got, "trapped_when_cool_m3"))));
}

BRIMFUL_SUITE(WetFiguresTest);
#include "wet_figures_test.moc"
