// Facts of a record: exact counts, worst rows, figures made from other facts, and what makes a value not count.
#include "tests/core/evidence/story.h"
#include "tests/support/suite.h"

#include <QTest>

using namespace brimful;
using namespace brimful::test;
using rules::Lack;
using rules::Truth;

namespace {

Hash share(Story& story, const std::string& part)
{
    How how;
    how.by = Who::Hand;
    return story.record("share", values({{"part", length(part)}}), how);
}

Hash readingsOf(Story& story, Json rows)
{
    How how;
    how.by = Who::Tester;
    how.instrument = "M-1";
    return story.record("readings", values({{"set", std::move(rows)}}), how);
}

Json rowOf(const char* name, const std::string& shown) { return values({{"name", Json(name)}, {"gas", shownGas(shown)}}); }

} // namespace

class ValuesTest : public QObject {
    Q_OBJECT
private slots:
    void countsFollowFromWhatWasTyped();
    void whatIsAskedMustBeThere();
    void theWorstRowDecides();
    void everyMemberHasARow();
    void membersOfAnotherRegister();
    void aFigureRoundsTowardRefusal();
    void aFigureCountsAsLongAsItsInputs();
    void figuresAreRemembered();
    void exclusivePeople();
    void shownForScreens();
};

void ValuesTest::countsFollowFromWhatWasTyped()
{
    Story story;
    How how;
    how.by = Who::Hand;
    const auto lackOf = [&](const Json& depth) {
        story.confirm(story.record("look", values({{"depth", depth}}), how), Who::Tester);
        return story.fact("look.depth").lack;
    };
    QCOMPARE(lackOf(length("12 mm")), Lack::None);
    Json other_count = length("12 mm");
    other_count.set("count", std::int64_t{500'000});
    QCOMPARE(lackOf(other_count), Lack::Error);
    Json other_unit = length("12 mm");
    other_unit.set("unit", "mm2");
    QCOMPARE(lackOf(other_unit), Lack::Error);
    QCOMPARE(lackOf(Json(std::int64_t{120'000})), Lack::Error);
    QCOMPARE(story.step("look").lack, Lack::Error);
    story.record("papers", values({{"serial", Json("A 1204")}, {"held", Json("helium")}}), how); // no option of the pack
    QCOMPARE(story.fact("papers.held").lack, Lack::Error);
}

void ValuesTest::whatIsAskedMustBeThere()
{
    Story story;
    How how;
    how.by = Who::Hand;
    story.record("papers", values({{"held", Json("air")}}), how); // acceptance speaks of `held` alone
    QCOMPARE(story.step("papers").lack, Lack::Missing);
    story.record("papers", values({{"serial", Json("")}, {"held", Json("air")}}), how);
    QVERIFY(story.step("papers").lack != Lack::None);
    story.papers();
    QCOMPARE(story.step("papers").lack, Lack::None);
}

void ValuesTest::theWorstRowDecides()
{
    Story story;
    story.look();
    story.openings();
    story.readings("1 %LEL", "0.5 %LEL");
    QCOMPARE(story.fact("readings.set.gas").count, std::int64_t{10});
    QCOMPARE(story.fact("readings.set.gas").least, std::int64_t{0});
    QCOMPARE(story.step("readings").passed, Truth::True);
    story.readings("0 %LEL", "1.1 %LEL");
    QCOMPARE(story.fact("readings.set.gas").count, std::int64_t{11});
    QCOMPARE(story.step("readings").passed, Truth::False);
    How how;
    how.by = Who::Hand;
    const auto opening = [](const char* name, const char* state) {
        return values({{"name", Json(name)}, {"bore", length("25 mm")}, {"state", Json(state)}});
    };
    story.record("openings", values({{"table", Json::array({opening("N1", "open"), opening("N2", "plugged")})}}), how);
    QCOMPARE(story.fact("openings.table.state").count, std::int64_t{3}); // both words occur
}

void ValuesTest::everyMemberHasARow()
{
    Story story;
    story.look();
    story.openings();
    readingsOf(story, Json::array({rowOf("top", "0 %LEL"), rowOf("N1", "0 %LEL")}));
    QCOMPARE(story.fact("readings.set.gas").lack, Lack::Missing);
    QCOMPARE(story.step("readings").lack, Lack::Missing);
    // a row without its value
    readingsOf(story, Json::array({rowOf("top", "0 %LEL"), values({{"name", Json("bottom")}}), rowOf("N1", "0 %LEL")}));
    QCOMPARE(story.fact("readings.set.gas").lack, Lack::Missing);
    // one row more than asked is one more that must be good
    readingsOf(story, Json::array({rowOf("top", "0 %LEL"), rowOf("bottom", "0 %LEL"), rowOf("N1", "0 %LEL"), rowOf("door", "9 %LEL")}));
    QCOMPARE(story.step("readings").passed, Truth::False);
    readingsOf(story, Json::array());
    QCOMPARE(story.fact("readings.set.gas").lack, Lack::Missing);
}

void ValuesTest::membersOfAnotherRegister()
{
    Story story;
    story.look();
    const Json two = Json::array({rowOf("top", "0 %LEL"), rowOf("bottom", "0 %LEL")});
    readingsOf(story, two);
    QCOMPARE(story.fact("readings.set.gas").lack, Lack::Missing); // nobody counted the openings
    story.openings();
    readingsOf(story, two);
    QCOMPARE(story.fact("readings.set.gas").lack, Lack::Missing); // N1 has no row
    story.readings();
    QCOMPARE(story.fact("readings.set.gas").lack, Lack::None);
    // a new opening was found since
    How how;
    how.by = Who::Hand;
    const auto opening = [](const char* name) {
        return values({{"name", Json(name)}, {"bore", length("25 mm")}, {"state", Json("open")}});
    };
    story.record("openings", values({{"table", Json::array({opening("N1"), opening("N2")})}}), how);
    QCOMPARE(story.fact("readings.set.gas").lack, Lack::Missing);
}

void ValuesTest::aFigureRoundsTowardRefusal()
{
    Story story;
    story.look("12 mm");
    share(story, "6 mm"); // half, in millionths
    QCOMPARE(story.fact("share.share").count, std::int64_t{500'000});
    QCOMPARE(story.step("share").passed, Truth::True);
    share(story, "7 mm"); // 583,333.33... up
    QCOMPARE(story.fact("share.share").count, std::int64_t{583'334});
    QCOMPARE(story.step("share").passed, Truth::False);
    share(story, "6.001 mm"); // 500,083.33... would pass if it were rounded to the nearest
    QCOMPARE(story.fact("share.share").count, std::int64_t{500'084});
    QCOMPARE(story.step("share").passed, Truth::False);
}

void ValuesTest::aFigureCountsAsLongAsItsInputs()
{
    Story story;
    share(story, "6 mm");
    QCOMPARE(story.fact("share.share").lack, Lack::Missing); // no look
    QCOMPARE(story.step("share").lack, Lack::Missing);
    const std::int64_t at = story.now().wall_ms;
    story.look("12 mm");
    QCOMPARE(story.fact("share.share").lack, Lack::None);
    QCOMPARE(story.fact("share.share").lapses_ms, at + 2 * kHour);
    QCOMPARE(story.step("share").lapses_ms, at + 2 * kHour);
    story.event("moved");
    QCOMPARE(story.fact("share.share").lack, Lack::Voided);
    QCOMPARE(story.step("share").lack, Lack::Voided);
    story.look("0 mm"); // nothing can be divided by it
    QCOMPARE(story.fact("share.share").lack, Lack::Error);
}

void ValuesTest::figuresAreRemembered()
{
    Story story;
    story.look("12 mm");
    share(story, "7 mm");
    const auto warm = story.fold().evidence.facts;
    evidence::Memo fresh;
    const auto cold =
        evidence::fold(story.lines, story.vessel, story.yard, Story::pack(), {}, story.now(), story.around, fresh).evidence.facts;
    QCOMPARE(warm.size(), cold.size());
    for (std::size_t i = 0; i < warm.size(); ++i) {
        QCOMPARE(warm[i].count, cold[i].count);
        QCOMPARE(warm[i].lack, cold[i].lack);
        QCOMPARE(warm[i].lapses_ms, cold[i].lapses_ms);
    }
}

void ValuesTest::exclusivePeople()
{
    Story story;
    story.look();
    story.openings();
    story.readings();
    How how;
    how.by = Who::Operator;
    story.record("watcher", values({{"who", Json(canon::toHex(Story::person(Who::Second)))}}), how);
    QCOMPARE(story.step("watcher").lack, Lack::None);
    story.around.busy.insert(Story::person(Who::Second)); // watches another live release
    QCOMPARE(story.fact("watcher.who").lack, Lack::WrongPerson);
    QCOMPARE(story.step("watcher").lack, Lack::WrongPerson);
    story.around.busy.clear();
    story.record("watcher", values({{"who", Json(std::string(32, 'a'))}}), how); // nobody of this yard
    QCOMPARE(story.fact("watcher.who").lack, Lack::Error);
}

void ValuesTest::shownForScreens()
{
    Story story;
    story.look("12 mm");
    share(story, "6 mm");
    const auto folded = story.fold();
    const auto shown = [&](const char* id) {
        for (const evidence::FactShown& one : folded.shown) {
            if (one.fact == Story::pack().fact(id)) {
                return one;
            }
        }
        return evidence::FactShown{};
    };
    QCOMPARE(shown("look.depth").value.textOf("typed"), std::string_view("12 mm"));
    QCOMPARE(shown("look.depth").count, std::optional<std::int64_t>(120'000));
    QCOMPARE(shown("share.share").count, std::optional<std::int64_t>(500'000));
}

BRIMFUL_SUITE(ValuesTest);
#include "values_test.moc"
