// An overlay only tightens: it adds conditions, shortens lives, moves parameters their declared way, and nothing else.
#include "tests/core/rules/overlay_test.h"

#include "tests/core/rules/packs.h"
#include "tests/support/suite.h"

#include <QTest>

#include <algorithm>
#include <array>

using namespace brimful;
using namespace brimful::rules;
using brimful::test::loaded;
using brimful::test::packFiles;
using brimful::test::told;

namespace {

PackSource overlay(const std::string& id, const std::string& body, const std::string& strings = {})
{
    PackSource source;
    source.id = id;
    source.files["pack.json"] = R"({"id":")" + id + R"(","version":1,"extends":"small")" + body + "}";
    if (!strings.empty()) {
        source.files["strings.en.json"] = strings;
    }
    return source;
}

std::string moved(const std::string& parameter, const std::string& value)
{
    return R"(,"parameters":{")" + parameter + R"(":{"value":)" + value + R"(,"source":[{"mark":"proposal"}]}})";
}

bool refusedWith(LoadFault fault, const PackSource& source)
{
    const auto pack = load(packFiles("small"), std::array{source});
    return !pack && std::ranges::any_of(pack.error(), [&](const LoadError& error) { return error.fault == fault; });
}

constexpr const char* kRule =
    R"([{"id":"fresh-low","barrier":"no-gas","when":{"op":"at_most","fact":"readings.fresh","value":"0 %LEL"},"source":[{"mark":"proposal"}]}])";
std::string joined(std::initializer_list<std::string_view> parts)
{
    std::string out;
    for (const std::string_view part : parts) {
        out.append(part);
    }
    return out;
}

constexpr const char* kRuleStrings = R"({"rule.fresh-low":"Fresh air read nothing","rule.fresh-low.lift":"Read again"})";

} // namespace

void OverlayTest::movesTheDeclaredWay()
{
    const Pack pack = loaded(packFiles("small"), std::array{overlay("strict", moved("depth-min", "\"15 mm\""))});
    QCOMPARE(pack.parameter("depth-min")->count, std::int64_t{150'000});
    QCOMPARE(pack.parameter("depth-min")->set_by, std::string("strict"));
    QCOMPARE(pack.parameter("gas-max")->set_by, std::string("small"));
    QCOMPARE(pack.conditions[pack.steps[pack.step("look")].accept].low, std::int64_t{150'000}); // before anything reads it
    QCOMPARE(pack.overlays.size(), std::size_t{1});
    QCOMPARE(pack.overlays.front().id, std::string("strict"));
    QVERIFY(pack.together() != pack.hash);
    const Pack shorter = loaded(packFiles("small"), std::array{overlay("strict", moved("reading-life", "\"10 min\""))});
    QCOMPARE(shorter.steps[shorter.step("readings")].life_ms, std::int64_t{600'000});
}

void OverlayTest::neverTheOtherWay()
{
    QVERIFY(refusedWith(LoadFault::NotTightening, overlay("loose", moved("depth-min", "\"9 mm\""))));
    QVERIFY(refusedWith(LoadFault::NotTightening, overlay("loose", moved("gas-max", "\"1.1 %LEL\""))));
    QVERIFY(refusedWith(LoadFault::NotTightening, overlay("loose", moved("reading-life", "\"31 min\""))));
    QVERIFY(refusedWith(LoadFault::BadQuantity, overlay("loose", moved("gas-max", "\"0 kg\""))));
    QVERIFY(refusedWith(LoadFault::UnknownName, overlay("loose", moved("gas-min", "\"0 %LEL\""))));
}

void OverlayTest::theTightestOfSeveralRules()
{
    const std::array both{overlay("one", moved("reading-life", "\"10 min\"")), overlay("two", moved("reading-life", "\"20 min\""))};
    const std::array other{both[1], both[0]};
    for (const auto& order : {both, other}) {
        const auto pack = load(packFiles("small"), order);
        QVERIFY2(pack.has_value(), pack ? "" : told(pack.error()).c_str());
        QCOMPARE(pack->steps[pack->step("readings")].life_ms, std::int64_t{600'000});
        QCOMPARE(pack->parameter("reading-life")->set_by, std::string("one"));
    }
    const std::array lives{overlay("one", R"(,"life":{"look":"30 min"})"), overlay("two", R"(,"life":{"look":"1 h"})")};
    QCOMPARE(loaded(packFiles("small"), lives).steps[loaded(packFiles("small")).step("look")].life_ms, std::int64_t{1'800'000});
}

void OverlayTest::shortensLives()
{
    const Pack pack = loaded(packFiles("small"), std::array{overlay("strict", R"(,"life":{"look":"1 h","papers":"24 h"})")});
    QCOMPARE(pack.steps[pack.step("look")].life_ms, std::int64_t{3'600'000});
    QCOMPARE(pack.steps[pack.step("papers")].life_ms, std::int64_t{86'400'000}); // had none: for ever
    QVERIFY(refusedWith(LoadFault::NotTightening, overlay("loose", R"(,"life":{"look":"3 h"})")));
    QVERIFY(refusedWith(LoadFault::BadQuantity, overlay("loose", R"(,"life":{"look":"0 h"})")));
    QVERIFY(refusedWith(LoadFault::UnknownName, overlay("loose", R"(,"life":{"lok":"1 h"})")));
}

void OverlayTest::addsRulesWithTheirStrings()
{
    for (const char* list : {"require", "at_giving"}) {
        const std::string body = joined({",\"", list, R"(":{"first":)", kRule, "}"});
        const Pack pack = loaded(packFiles("small"), std::array{overlay("strict", body, kRuleStrings)});
        const Pack plain = loaded(packFiles("small"));
        const auto rules = [&](const Pack& of) {
            return std::string(list) == "require" ? of.hold_points[0].require : of.hold_points[0].at_giving;
        };
        QCOMPARE(rules(pack).size(), rules(plain).size() + 1);
        QCOMPARE(rules(pack).back().id, std::string("fresh-low"));
        QCOMPARE(pack.strings.at("rule.fresh-low"), std::string("Fresh air read nothing"));
        QVERIFY(refusedWith(LoadFault::MissingString, overlay("strict", body)));
    }
    QVERIFY(refusedWith(LoadFault::UnknownName, overlay("strict", joined({R"(,"require":{"frist":)", kRule, "}"}), kRuleStrings)));
    QVERIFY(refusedWith(LoadFault::DuplicateId,
        overlay("strict", joined({R"(,"require":{"first":)", kRule, R"(},"stop":{"first":)", kRule, "}"}), kRuleStrings)));
}

void OverlayTest::nothingElse_data()
{
    QTest::addColumn<QString>("body");
    QTest::addColumn<int>("fault");
    QTest::newRow("steps") << R"(,"steps":[])" << static_cast<int>(LoadFault::UnknownKey);
    QTest::newRow("roles") << R"(,"roles":["anybody"])" << static_cast<int>(LoadFault::UnknownKey);
    QTest::newRow("lasts") << R"(,"lasts":{"first":"9 h"})" << static_cast<int>(LoadFault::UnknownKey);
    QTest::newRow("direction") << R"(,"parameters":{"gas-max":{"value":"5 %LEL","tighter":"higher","source":[{"mark":"proposal"}]}})"
                               << static_cast<int>(LoadFault::UnknownKey);
    QTest::newRow("everywhere") << R"(,"everywhere":{"stop":[]})" << static_cast<int>(LoadFault::UnknownKey);
}

void OverlayTest::nothingElse()
{
    QFETCH(QString, body);
    QFETCH(int, fault);
    QVERIFY(refusedWith(static_cast<LoadFault>(fault), overlay("sly", body.toStdString())));
    // another pack's overlay; files that an overlay has no business with; another wording of the pack's own strings
    PackSource other = overlay("sly", "");
    other.files["pack.json"] = R"({"id":"sly","version":1,"extends":"smaller"})";
    QVERIFY(refusedWith(LoadFault::UnknownName, other));
    PackSource steps = overlay("sly", "");
    steps.files["steps/020-look.json"] = "{}";
    QVERIFY(refusedWith(LoadFault::NotTightening, steps));
    QVERIFY(refusedWith(LoadFault::NotTightening, overlay("sly", "", R"({"rule.looked":"No need to look"})")));
}

BRIMFUL_SUITE(OverlayTest);
