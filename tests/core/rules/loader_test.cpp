// A broken pack loads nothing and says where: one slip a row, in a pack that is good without it.
#include "tests/core/rules/loader_test.h"

#include "tests/core/rules/packs.h"
#include "tests/support/suite.h"

#include <QTest>

#include <algorithm>

using namespace brimful;
using namespace brimful::rules;
using brimful::test::loaded;
using brimful::test::packFiles;
using brimful::test::told;

namespace {

constexpr const char* kPapers = "steps/010-papers.json";
constexpr const char* kLook = "steps/020-look.json";
constexpr const char* kShare = "steps/040-share.json";
constexpr const char* kReadings = "steps/060-readings.json";
constexpr const char* kWatcher = "steps/070-watcher.json";
constexpr const char* kFirst = "hold-points/10-first.json";
constexpr const char* kLeaves = "hold-points/20-leaves.json";

// White space outside of strings plays no part in what is looked for.
std::string replaced(std::string text, const std::string& old, const std::string& fresh)
{
    const std::size_t at = text.find(old);
    if (at == std::string::npos || text.find(old, at + 1) != std::string::npos) {
        brimful::test::giveUp("not there, or more than once: " + old);
    }
    return text.replace(at, old.size(), fresh);
}

std::string flat(const std::string& text)
{
    std::string out;
    bool quoted = false;
    for (const char c : text) {
        quoted = c == '"' ? !quoted : quoted;
        if (quoted || (c != ' ' && c != '\n')) {
            out += c;
        }
    }
    return out;
}

} // namespace

void LoaderTest::theGoodOnesLoad()
{
    for (const PackSource& source : {packFiles("small"), brimful::test::shipped("base")}) {
        const auto pack = load(source, {});
        QVERIFY2(pack.has_value(), pack ? "" : told(pack.error()).c_str());
        QCOMPARE(pack->hash, manifestHash(source));
        QCOMPARE(pack->id, source.id);
        QVERIFY(pack->steps.size() <= 64);
    }
}

void LoaderTest::theWholePackIsThere()
{
    const Pack pack = loaded(packFiles("small"));
    QCOMPARE(pack.roles, (std::vector<std::string>{"hand", "tester", "authoriser", "operator"}));
    const Step& readings = pack.steps[pack.step("readings")];
    QCOMPARE(readings.act, Act::Look);
    QCOMPARE(readings.life_ms, std::int64_t{30 * 60 * 1000});
    QCOMPARE(readings.needs, std::vector<Index>{pack.step("look")});
    QCOMPARE(readings.voided_by, (std::vector<Index>{pack.event("moved"), pack.event("alarm")}));
    QCOMPARE(readings.on_fail, pack.stop("high"));
    QCOMPARE(readings.instrument, std::string("gas-meter"));
    QCOMPARE(readings.takes_ms, std::int64_t{5 * 60 * 1000});
    const Register& set = pack.registers[pack.registerOf("readings.set")];
    QCOMPARE(set.members, (std::vector<std::string>{"top", "bottom"}));
    QCOMPARE(set.members_from, pack.registerOf("openings.table"));
    QCOMPARE(set.within_ms, std::int64_t{20 * 60 * 1000});
    const Step& look = pack.steps[pack.step("look")];
    QCOMPARE(look.with, std::vector<Index>{pack.role("tester")});
    QCOMPARE(look.begun_by, std::vector<Index>{pack.event("refilled")});
    QVERIFY(readings.begun_by.empty());
    QCOMPARE(look.takes_for_mL.value_or(0), std::int64_t{100'000});
    QVERIFY(!readings.takes_for_mL);
    QVERIFY(pack.facts[pack.fact("look.depth")].varies);
    QVERIFY(!pack.facts[pack.fact("readings.fresh")].varies);
    // 10 mm in steps of 100 nm
    QCOMPARE(pack.conditions[look.accept].op, Op::AtLeast);
    QCOMPARE(pack.conditions[look.accept].low, std::int64_t{100'000});
    QVERIFY(pack.steps[pack.step("day")].of_yard);
    QVERIFY(pack.facts[pack.fact("watcher.who")].exclusive);
    QVERIFY(pack.facts[pack.fact("look.picture")].optional);
    QVERIFY(pack.events[pack.event("alarm")].device_alone);
    QCOMPARE(pack.events[pack.event("alarm")].raises, pack.stop("alarm"));
    QVERIFY(!pack.events[pack.event("refilled")].device_alone);
    QVERIFY(pack.stops[pack.stop("forbidden")].refuses);
    QCOMPARE(pack.holdPoint("first"), Index{0}); // in the order of the stages
    QCOMPARE(pack.holdPoint("leaves"), Index{1});
    const HoldPoint& first = pack.hold_points[0];
    QCOMPARE(first.lasts_ms, std::int64_t{4 * 3600 * 1000});
    QVERIFY(!first.closes);
    QVERIFY(pack.hold_points[1].closes);
    // the lists of every hold point carry what pack.json asks everywhere
    QCOMPARE(first.stop.size(), std::size_t{3});
    QCOMPARE(pack.hold_points[1].stop.size(), std::size_t{2});
}

void LoaderTest::slips_data()
{
    QTest::addColumn<QString>("file");
    QTest::addColumn<QString>("old");
    QTest::addColumn<QString>("fresh");
    QTest::addColumn<int>("fault");
    QTest::addColumn<QString>("path");
    QTest::addColumn<QString>("nearest");
    const auto row = [](const char* name, const char* file, const char* old, const char* fresh, LoadFault fault, const char* path,
                         const char* nearest = "") {
        QTest::newRow(name) << file << old << fresh << static_cast<int>(fault) << path << nearest;
    };
    // keys
    row("unknown key", kLook, R"("voided_by":)", R"("voidedby":)", LoadFault::UnknownKey, "voidedby", "voided_by");
    row("unknown key in a condition", kLook, R"("op":"at_least","fact")", R"("op":"at_least","k":1,"fact")", LoadFault::UnknownKey,
        "accept.k");
    row("unknown key in a fact", kLook, R"("low":"0 mm")", R"("lowest":"0 mm")", LoadFault::UnknownKey, "facts.depth.lowest");
    row("unknown key in a rule", kFirst, R"("id":"looked",)", R"("id":"looked","weight":1,)", LoadFault::UnknownKey, "require[1].weight");
    row("unknown key beside stops", "stops.json", R"({"stops":{)", R"({"stop":{},"stops":{)", LoadFault::UnknownKey, "stop", "stops");
    row("unknown key beside roles", "roles.json", R"({"roles":)", R"({"rolls":[],"roles":)", LoadFault::UnknownKey, "rolls", "roles");
    row("duplicate key", kLook, R"("stage":"intake")", R"("stage":"intake","stage":"work")", LoadFault::DuplicateId, "");
    row("no act", kLook, R"("act":"look",)", "", LoadFault::MissingKey, "act");
    row("no role", kLook, R"("by":["hand"],)", "", LoadFault::MissingKey, "by");
    row("no acceptance", kWatcher, R"("accept":{"op":"different_people","a":"watcher","b":"readings"},)", "", LoadFault::MissingKey,
        "accept");
    row("no source", kWatcher, R"(,"source":[{"mark":"proposal"}])", "", LoadFault::MissingKey, "source");
    // AWS F4.1 says that compressed gas containers are outside of it: whoever rests a rule for them on it has not read its scope.
    row("a document out of scope", kWatcher, R"("source":[{"mark":"proposal"}])", R"("source":[{"id":"aws-f4-1","mark":"found"}])",
        LoadFault::OutOfScope, "source[0].id");
    row("no barrier", kFirst, R"("id":"looked","barrier":"no-gas",)", R"("id":"looked",)", LoadFault::MissingKey, "require[1].barrier");
    row("no example", kLook, R"("example":"12 mm",)", "", LoadFault::NoExample, "facts.depth.example");
    row("no version", "pack.json", R"("version":1,"parameters")", R"("parameters")", LoadFault::MissingKey, "version");
    row("version 0", "pack.json", R"("version":1,"parameters")", R"("version":0,"parameters")", LoadFault::BadVersion, "version");
    // JSON that is not of the subset
    row("a fraction", kFirst, R"("last":4)", R"("last":4.5)", LoadFault::Json, "");
    row("null", kFirst, R"("last":4)", R"("last":null)", LoadFault::Json, "");
    row("true", kWatcher, R"("exclusive":"yes")", R"("exclusive":true)", LoadFault::Json, "");
    row("cut off", kWatcher, R"("exclusive":"yes"}})", R"("exclusive":"yes")", LoadFault::Json, "");
    // types and words
    row("yes means yes", kWatcher, R"("exclusive":"yes")", R"("exclusive":"no")", LoadFault::WrongType, "facts.who.exclusive");
    row("an id in capitals", kWatcher, R"("id":"watcher")", R"("id":"Watcher")", LoadFault::WrongType, "id");
    row("a text for a list", kLook, R"("voided_by":["moved"])", R"("voided_by":"moved")", LoadFault::WrongType, "voided_by");
    row("an unknown act", kLook, R"("act":"look")", R"("act":"glance")", LoadFault::UnknownName, "act");
    row("an unknown kind", kLook, R"("kind":"photo")", R"("kind":"picture")", LoadFault::UnknownName, "facts.picture.kind");
    row("an unknown mark", kWatcher, R"("mark":"proposal")", R"("mark":"hearsay")", LoadFault::UnknownName, "source[0].mark");
    row("found without a source", kWatcher, R"("mark":"proposal")", R"("mark":"found")", LoadFault::MissingKey, "source[0].id");
    // names
    row("unknown role", kLook, R"("with":["tester"])", R"("with":["testor"])", LoadFault::UnknownName, "with[0]", "tester");
    row("unknown stage", kLook, R"("stage":"intake")", R"("stage":"intak")", LoadFault::UnknownName, "stage", "intake");
    row("unknown event", kLook, R"("voided_by":["moved"])", R"("voided_by":["mooved"])", LoadFault::UnknownName, "voided_by[0]", "moved");
    row("unknown beginning", kLook, R"("begun_by":["refilled"])", R"("begun_by":["refiled"])", LoadFault::UnknownName, "begun_by[0]",
        "refilled");
    row("a size without a time", kLook, R"("takes":"10 min",)", "", LoadFault::WrongType, "takes_for");
    row("no size", kLook, R"("takes_for":"100 L")", R"("takes_for":"0 L")", LoadFault::WrongType, "takes_for");
    row("gas that has to vary", kLook, R"("unit":"100nm","example":"12 mm","low":"0 mm","high":"200 mm")",
        R"("unit":"0.1%LEL","example":"0 %LEL")", LoadFault::WrongType, "facts.depth.varies");
    row("oxygen that has to vary", kLook, R"("unit":"100nm","example":"12 mm","low":"0 mm","high":"200 mm")",
        R"("unit":"ppm","example":"20.9 %")", LoadFault::WrongType, "facts.depth.varies");
    row("a choice that varies", kPapers, R"("kind":"choice")", R"("kind":"choice","varies":"yes")", LoadFault::UnknownKey,
        "facts.held.varies");
    row("unknown stop", kLook, R"("on_fail":"bad-look")", R"("on_fail":"bad-luck")", LoadFault::UnknownName, "on_fail");
    row("unknown need", kReadings, R"("needs":["look"])", R"("needs":["book"])", LoadFault::UnknownName, "needs[0]", "look");
    row("unknown fact", kLook, R"("fact":"look.depth")", R"("fact":"look.dept")", LoadFault::UnknownName, "accept.fact", "look.depth");
    row("unknown option", kPapers, R"("one_of":["propane","air"])", R"("one_of":["propane","airs"])", LoadFault::UnknownName,
        "accept.one_of[1]", "air");
    row("unknown op", kLook, R"("op":"at_least")", R"("op":"at_lest")", LoadFault::UnknownName, "accept.op", "at_least");
    row("unknown step in a rule", kLeaves, R"({"op":"passed","step":"cut"})", R"({"op":"passed","step":"cat"})", LoadFault::UnknownName,
        "require[0].when.step", "cut");
    row("unknown hold point", kLeaves, R"("hold_point":"first")", R"("hold_point":"frist")", LoadFault::UnknownName,
        "require[1].when.hold_point");
    row("unknown barrier", kFirst, R"("id":"looked","barrier":"no-gas")", R"("id":"looked","barrier":"no-gass")", LoadFault::UnknownName,
        "require[1].barrier", "no-gas");
    row("unknown parameter", kLook, R"("parameter":"depth-min")", R"("parameter":"depth-mim")", LoadFault::UnknownName,
        "accept.value.parameter", "depth-min");
    row("unknown register", kReadings, R"("members_from":"openings.table")", R"("members_from":"openings.tables")", LoadFault::UnknownName,
        "facts.set.members_from");
    row("unknown figure", kShare, R"("figure":"ratio")", R"("figure":"rati")", LoadFault::UnknownFigure, "facts.share.figure", "ratio");
    row("a figure's other version", kShare, R"("version":1)", R"("version":2)", LoadFault::BadVersion, "facts.share.version");
    row("unknown input", kShare, R"({"of":{)", R"({"off":{)", LoadFault::UnknownKey, "facts.share.inputs.off");
    row("missing input", kShare, R"({"of":{"fact":"share.part"},)", R"({)", LoadFault::MissingKey, "facts.share.inputs.of");
    row("unknown output", kShare, R"("output":"per_mille")", R"("output":"per_cent")", LoadFault::UnknownName, "facts.share.output");
    row("output of another unit", kShare, R"("unit":"ppm")", R"("unit":"mL")", LoadFault::BadUnit, "facts.share.unit");
    row("no rounding", kShare, R"("round":"up",)", "", LoadFault::MissingKey, "facts.share.round");
    row("no word about warnings", kShare, R"(,"warnings":"unusable")", "", LoadFault::MissingKey, "facts.share.warnings");
    row("a column of another step's rows", kShare, R"({"fact":"look.depth"})", R"({"fact":"openings.table.bore"})", LoadFault::UnknownName,
        "facts.share.inputs.to.fact");
    row("made from itself", kShare, R"({"fact":"look.depth"})", R"({"fact":"share.share"})", LoadFault::Cycle,
        "facts.share.inputs.to.fact");
    row("made from what comes later", kShare, R"({"fact":"look.depth"})", R"({"fact":"readings.fresh"})", LoadFault::Cycle,
        "facts.share.inputs.to.fact");
    row("a second person who does not sign", kWatcher, R"("b":"readings")", R"("b":"readings:second")", LoadFault::UnknownName, "accept.b");
    // units
    row("a unit that is not recorded", kLook, R"("unit":"100nm")", R"("unit":"mm")", LoadFault::BadUnit, "facts.depth.unit");
    row("a value of another dimension", kShare, R"("op":"at_most","fact":"share.share","value":"50 %")",
        R"("op":"at_most","fact":"share.part","value":"5 kg")", LoadFault::BadQuantity, "accept.value");
    row("a bare number", kShare, R"("op":"at_most","fact":"share.share","value":"50 %")", R"("op":"at_most","fact":"share.part","value":5)",
        LoadFault::BadUnit, "accept.value");
    row("a parameter of another dimension", kLook, R"("parameter":"depth-min")", R"("parameter":"reading-life")", LoadFault::BadUnit,
        "accept.value");
    row("no value", kShare, R"("fact":"share.share","value":"50 %")", R"("fact":"share.share")", LoadFault::MissingKey, "accept.value");
    row("a number of a choice", kPapers, R"({"op":"is","fact":"papers.held","one_of":["propane","air"]})",
        R"({"op":"at_most","fact":"papers.held","value":3})", LoadFault::WrongType, "accept.fact");
    row("an option of a number", kLook, R"({"op":"at_least","fact":"look.depth","value":{"parameter":"depth-min"}})",
        R"({"op":"is","fact":"look.depth","one_of":["deep"]})", LoadFault::WrongType, "accept.fact");
    row("a life that is no time", kLook, R"("life":"2 h")", R"("life":"2 m")", LoadFault::BadQuantity, "life");
    row("a life of no time", kLook, R"("life":"2 h")", R"("life":"0 h")", LoadFault::BadQuantity, "life");
    row("a life that has passed", kLook, R"("life":"2 h")", R"("life":"-2 h")", LoadFault::BadQuantity, "life");
    row("a release for ever", kFirst, R"("lasts":"4 h",)", "", LoadFault::MissingKey, "lasts");
    row("an example that is no option", kPapers, R"("example":"air")", R"("example":"water")", LoadFault::NoExample, "facts.held.example");
    row("an example in another unit", kLook, R"("example":"12 mm")", R"("example":"12 kg")", LoadFault::NoExample, "facts.depth.example");
    row("an example that does not pass", kLook, R"("example":"12 mm")", R"("example":"9 mm")", LoadFault::NoExample, "accept");
    // structure
    row("an empty all", kLook, R"({"op":"at_least","fact":"look.depth","value":{"parameter":"depth-min"}})", R"({"op":"all","of":[]})",
        LoadFault::MissingKey, "accept.of");
    row("not of a list", kLook, R"({"op":"at_least","fact":"look.depth","value":{"parameter":"depth-min"}})", R"({"op":"not","of":[]})",
        LoadFault::WrongType, "accept.of");
    row("two of one", kFirst, R"({"op":"any","of":[{"op":"passed","step":"look"},)",
        R"({"op":"k_of","k":3,"of":[{"op":"passed","step":"look"},)", LoadFault::WrongType, "require[1].when.k");
    row("none of two", kFirst, R"({"op":"any","of":[{"op":"passed","step":"look"},)",
        R"({"op":"k_of","k":0,"of":[{"op":"passed","step":"look"},)", LoadFault::WrongType, "require[1].when.k");
    row("a rule twice", kFirst, R"("id":"day-good")", R"("id":"looked")", LoadFault::DuplicateId, "first");
    row("a step twice", kWatcher, R"("id":"watcher")", R"("id":"look")", LoadFault::DuplicateId, "id");
    row("a role twice", "roles.json", R"("hand",)", R"("hand","hand",)", LoadFault::DuplicateId, "roles[1]");
    row("an option twice", kPapers, R"("options":["propane",)", R"("options":["propane","propane",)", LoadFault::DuplicateId,
        "facts.held.options[1]");
    row("needs in a ring", kLook, R"("life":"2 h")", R"("life":"2 h","needs":["readings"])", LoadFault::Cycle, "needs");
    row("needs itself", kLook, R"("life":"2 h")", R"("life":"2 h","needs":["look"])", LoadFault::Cycle, "needs");
    row("acceptance by another step's fact", kPapers, R"({"op":"is","fact":"papers.held","one_of":["propane","air"]})",
        R"({"op":"at_least","fact":"look.depth","value":"1 mm"})", LoadFault::UnknownName, "accept.fact");
    row("acceptance by another step", kPapers, R"({"op":"is","fact":"papers.held","one_of":["propane","air"]})",
        R"({"op":"passed","step":"look"})", LoadFault::WrongType, "accept.op");
    row("a cut asked before the cut", kFirst, R"({"op":"passed","step":"day"})", R"({"op":"passed","step":"cut"})", LoadFault::BehindItself,
        "day-good");
    row("a cut's value asked before the cut", kFirst, R"({"op":"passed","step":"day"})",
        R"({"op":"is","fact":"cut.done","one_of":["yes"]})", LoadFault::BehindItself, "day-good");
    row("who cut asked before the cut", kFirst, R"({"op":"passed","step":"day"})", R"({"op":"different_people","a":"cut","b":"look"})",
        LoadFault::BehindItself, "day-good");
    row("all ways lead through the cut", kFirst, R"({"op":"passed","step":"day"})",
        R"({"op":"any","of":[{"op":"passed","step":"cut"},{"op":"failed","step":"cut"}]})", LoadFault::BehindItself, "day-good");
    row("a step that needs the cut", kWatcher, R"("act":"look")", R"("act":"look","needs":["cut"])", LoadFault::BehindItself, "day-good");
    row("a touch that grants", kFirst, R"({"op":"passed","step":"day"})",
        R"({"op":"not","of":{"op":"not_since","step":"look","event":"moved"}})", LoadFault::DeviceCanGrant, "day-good");
    row("a touch that ends a stop", kFirst, R"({"op":"not","of":{"op":"clear","stop":"high"}})",
        R"({"op":"not_since","step":"look","event":"moved"})", LoadFault::DeviceCanGrant, "reading-low");
    row("a stop that grants", kFirst, R"({"op":"passed","step":"day"})", R"({"op":"not","of":{"op":"clear","stop":"alarm"}})",
        LoadFault::DeviceCanGrant, "day-good");
    // questions
    row("a photo asked at a hold point", kFirst, R"("unhappy":{"kind":"text","example":"nobody"})", R"("unhappy":{"kind":"photo"})",
        LoadFault::WrongType, "questions.unhappy.kind");
    row("compared with nothing known", kFirst, R"("equals":"readings.set.gas")", R"("equals":"readings.set.gass")", LoadFault::UnknownName,
        "questions.highest.equals");
    row("compared with another kind", kFirst, R"("equals":"readings.set.gas")", R"("equals":"papers.held")", LoadFault::WrongType,
        "questions.highest.equals");
    row("compared with another unit", kFirst, R"("equals":"readings.set.gas")", R"("equals":"look.depth")", LoadFault::BadUnit,
        "questions.highest.equals");
    row("compared in a step", kLook, R"("low":"0 mm")", R"("equals":"share.part","low":"0 mm")", LoadFault::UnknownKey,
        "facts.depth.equals");
    row("an echo of a number", kFirst, R"("of":"papers.serial")", R"("of":"look.depth")", LoadFault::WrongType, "questions.serial.of");
    // strings
    row("no string of a step", "strings.en.json", R"("step.look":"look",)", "", LoadFault::MissingString, "step.look");
    row("no string of a fact", "strings.en.json", R"("fact.look.depth":"depth",)", "", LoadFault::MissingString, "fact.look.depth");
    row("no string of an option", "strings.en.json", R"("option.papers.held.air":"air",)", "", LoadFault::MissingString,
        "option.papers.held.air");
    row("no string of a rule", "strings.en.json", R"("rule.looked":"looked",)", "", LoadFault::MissingString, "rule.looked");
    row("no string of what to do", "strings.en.json", R"("rule.looked.lift":"do looked",)", "", LoadFault::MissingString,
        "rule.looked.lift");
    row("no string of a stop", "strings.en.json", R"("stop.high":"high")", R"("stop.hig":"high")", LoadFault::MissingString, "stop.high");
    row("no string of what happened", "strings.en.json", R"("event.moved.said":"moved",)", "", LoadFault::MissingString,
        "event.moved.said");
}

void LoaderTest::slips()
{
    QFETCH(QString, file);
    QFETCH(QString, old);
    QFETCH(QString, fresh);
    QFETCH(int, fault);
    QFETCH(QString, path);
    QFETCH(QString, nearest);
    PackSource source = packFiles("small");
    std::string& text = source.files.at(file.toStdString());
    text = flat(text);
    if (QByteArray(QTest::currentDataTag()) == "a step that needs the cut") { // a rule then asks for that step
        std::string& first = source.files.at(kFirst);
        first = replaced(flat(first), R"({"op":"passed","step":"day"})", R"({"op":"passed","step":"watcher"})");
    }
    text = replaced(text, old.toStdString(), fresh.toStdString());
    const auto pack = load(source, {});
    QVERIFY(!pack.has_value());
    const auto found = std::ranges::find_if(pack.error(), [&](const LoadError& error) {
        return static_cast<int>(error.fault) == fault && error.path == path.toStdString()
            && (nearest.isEmpty() || error.nearest == nearest.toStdString());
    });
    QVERIFY2(found != pack.error().end(), told(pack.error()).c_str());
    const bool of_strings = static_cast<LoadFault>(fault) == LoadFault::MissingString;
    QVERIFY2(of_strings || found->file == "small/" + file.toStdString() || path == "day-good", found->file.c_str());
}

void LoaderTest::saysTheLineAndColumn()
{
    PackSource source = packFiles("small");
    source.files["roles.json"] = "{\n  \"roles\": [\"hand\",\n    \"tester\", \"authoriser\", \"operator\", \"hand\"]\n}\n";
    const auto pack = load(source, {});
    QVERIFY(!pack.has_value());
    QCOMPARE(pack.error().front().fault, LoadFault::DuplicateId);
    QCOMPARE(pack.error().front().file, std::string("small/roles.json"));
    QCOMPARE(pack.error().front().line, 3U);
    QCOMPARE(pack.error().front().column, 41U); // 4 spaces, then 8, 2, 12, 2, 10, 2 characters

    source = packFiles("small");
    source.files["roles.json"] = "{\n  \"roles\": [\"hand\"],,\n}\n";
    const auto broken = load(source, {});
    QVERIFY(!broken.has_value());
    QCOMPARE(broken.error().front().fault, LoadFault::Json);
    QCOMPARE(broken.error().front().line, 2U);
    QCOMPARE(broken.error().front().column, 21U);
}

void LoaderTest::saysAllErrorsAtOnce()
{
    PackSource source = packFiles("small");
    source.files[kLook] = replaced(flat(source.files[kLook]), R"("act":"look")", R"("act":"glance","colour":"red")");
    source.files[kReadings] = replaced(flat(source.files[kReadings]), R"("on_fail":"high")", R"("on_fail":"hihg")");
    source.files[kFirst] = replaced(flat(source.files[kFirst]), R"("step":"day")", R"("step":"night")");
    const auto pack = load(source, {});
    QVERIFY(!pack.has_value());
    QCOMPARE(pack.error().size(), std::size_t{4});
}

void LoaderTest::missingFiles()
{
    for (const char* name : {"pack.json", "stages.json", "roles.json", "events.json", "stops.json", "barriers.json", "strings.en.json"}) {
        PackSource source = packFiles("small");
        source.files.erase(name);
        const auto pack = load(source, {});
        QVERIFY2(!pack.has_value(), name);
        QVERIFY2(std::ranges::any_of(pack.error(), [](const LoadError& error) { return error.fault == LoadFault::MissingFile; }), name);
    }
}

void LoaderTest::tooDeepTooManyTooLong()
{
    const auto withCondition = [](const std::string& condition) {
        PackSource source = packFiles("small");
        source.files[kFirst] = replaced(flat(source.files[kFirst]), R"({"op":"passed","step":"day"})", condition);
        return source;
    };
    const auto has = [](const PackSource& source, LoadFault fault) {
        const auto pack = load(source, {});
        return !pack && std::ranges::any_of(pack.error(), [&](const LoadError& error) { return error.fault == fault; });
    };
    const auto nested = [](int depth) {
        std::string out = R"({"op":"passed","step":"day"})";
        for (int i = 1; i < depth; ++i) {
            out = R"({"op":"all","of":[)" + out + "]}";
        }
        return out;
    };
    QVERIFY(load(withCondition(nested(8)), {}).has_value());
    QVERIFY(has(withCondition(nested(9)), LoadFault::Depth));
    const auto wide = [](int leaves) {
        std::string out = R"({"op":"any","of":[)";
        for (int i = 0; i < leaves; ++i) {
            out += std::string(i == 0 ? "" : ",") + R"({"op":"passed","step":"day"})";
        }
        return out + "]}";
    };
    QVERIFY(load(withCondition(wide(255)), {}).has_value());
    QVERIFY(has(withCondition(wide(256)), LoadFault::TooMany));

    PackSource many = packFiles("small"); // 8 steps and 2 talks are there
    std::string strings = many.files["strings.en.json"];
    for (int i = 0; i < 55; ++i) {
        const std::string id = "more-" + std::to_string(i);
        if (i == 54) {
            QVERIFY(load(many, {}).has_value()); // 64 are allowed
        }
        many.files["steps/9" + std::to_string(i) + ".json"] =
            replaced(replaced(replaced(flat(many.files[kWatcher]), R"("id":"watcher")", R"("id":")" + id + "\""), R"("a":"watcher")",
                         R"("a":"look")"),
                R"("b":"readings")", R"("b":"readings")");
        strings.insert(1, "\"step." + id + "\":\"x\",\"step." + id + ".why\":\"x\",\"fact." + id + ".who\":\"x\",");
        many.files["strings.en.json"] = strings;
    }
    QVERIFY(has(many, LoadFault::TooMany));

    PackSource questions = packFiles("small");
    std::string asked = R"("questions":{)";
    for (int i = 0; i < 5; ++i) {
        asked += "\"q" + std::to_string(i) + R"(":{"kind":"count","example":1},)";
    }
    questions.files[kFirst] = replaced(flat(questions.files[kFirst]), R"("questions":{)", asked);
    QVERIFY(has(questions, LoadFault::TooMany));
}

void LoaderTest::conditionsAreFlat()
{
    const Pack pack = loaded(brimful::test::shipped("base"));
    // every subtree ends inside its parent, and every tree is followed by the next
    const auto whole = [&](std::size_t at, const auto& again) -> std::size_t {
        const Condition& node = pack.conditions[at];
        const std::size_t end = at + node.size;
        std::size_t child = at + 1;
        while (child < end) {
            child = again(child, again);
        }
        return child == end ? end : pack.conditions.size() + 1;
    };
    std::size_t at = 0;
    std::size_t trees = 0;
    while (at < pack.conditions.size()) {
        at = whole(at, whole);
        ++trees;
    }
    QCOMPARE(at, pack.conditions.size());
    QVERIFY(trees > pack.steps.size());
}

void LoaderTest::talkAndTagAreMadeByTheLoader()
{
    const Pack pack = loaded(packFiles("small"));
    const HoldPoint& first = pack.hold_points[0];
    const Step& talk = pack.steps[first.talk];
    QCOMPARE(talk.id, std::string("talk-first"));
    QCOMPARE(talk.talk_of, Index{0});
    QCOMPARE(talk.by, first.by);
    QCOMPARE(talk.with, first.with);
    QCOMPARE(pack.facts[first.tag_fact].id, std::string("talk-first.tag"));
    QCOMPARE(pack.facts[first.tag_fact].options, (std::vector<std::string>{"newest", "older", "other", "none"}));
    const auto& given = first.at_giving;
    QCOMPARE(given.size(), std::size_t{4});
    QCOMPARE(given[2].id, std::string("talk"));
    QCOMPARE(given[3].id, std::string("right-vessel"));
    QVERIFY(given[2].at_talk && given[3].at_talk && !given[0].at_talk && !given[1].at_talk);
    QCOMPARE(pack.hold_points[1].tag_fact, kNone);
    // the echo, and the question compared with a recorded value, must both be equal
    const Condition& accept = pack.conditions[talk.accept];
    QCOMPARE(accept.op, Op::All);
    QCOMPARE(accept.size, std::uint16_t{3});
    QCOMPARE(pack.facts[pack.conditions[talk.accept + 1U].a].id, std::string("talk-first.serial"));
    QCOMPARE(pack.facts[pack.conditions[talk.accept + 2U].a].id, std::string("talk-first.highest-equals"));
}

void LoaderTest::manifestLeavesOutCasesAndStrings()
{
    PackSource source = packFiles("small");
    const auto before = manifestHash(source);
    source.files["cases/one.json"] = "{}";
    source.files["strings.de.json"] = "{}";
    source.files["strings.en.json"] += " ";
    QCOMPARE(manifestHash(source), before);
    source.files["claims/one.json"] = "{}";
    QVERIFY(manifestHash(source) != before);
    // by hand: path, NUL, SHA-256 in hex, LF; sorted by path (printf | sha256sum)
    PackSource two;
    two.files = {{"b.json", "b"}, {"a.json", "a"}};
    QCOMPARE(canon::toHex(manifestHash(two)),
        canon::toHex(canon::sha256(std::string("a.json") + '\0' + "ca978112ca1bbdcafac231b39a23dc4da786eff8147c4e72b9807785afee48bb\n"
            + "b.json" + '\0' + "3e23e8160039594a33894f6564e1b1348bbd7a0088d42c4acb73eeaed59c009d\n")));
}

void LoaderTest::loadsInTime()
{
    const PackSource& source = brimful::test::shipped("base");
    QElapsedTimer timer;
    timer.start();
    const Pack pack = loaded(source);
    const auto took = timer.elapsed();
    qInfo("base: %zu steps, %zu facts, %zu conditions, loaded in %lld ms", pack.steps.size(), pack.facts.size(), pack.conditions.size(),
        static_cast<long long>(took));
    QVERIFY(took < 200 || !test::timed()); // ten times what is asked of a quiet machine
}

BRIMFUL_SUITE(LoaderTest);
