// Stops that stand until cleared by name, releases judged at their own moment, and histories with holes.
#include "tests/core/evidence/story.h"
#include "tests/support/suite.h"

#include <QTest>

using namespace brimful;
using namespace brimful::test;
using rules::Lack;
using rules::State;
using rules::Truth;

class ReleasesTest : public QObject {
    Q_OBJECT
private slots:
    void aFailingRecordStands();
    void clearedByName();
    void clearedByTwo();
    void aFailureIsJudgedAtItsOwnMoment();
    void aFailureNeedsNoSecondSignature();
    void aClearingCanBeWithdrawn();
    void releasedByTwo();
    void whatWasTrueWhenItWasGiven();
    void theTalkMustAgree_data();
    void theTalkMustAgree();
    void theTagMustBeTheNewest();
    void whoReadTheGasDoesNotCut();
    void endsWithEventsTimeAndWithdrawal();
    void lateKnowledgeDoesNotGrant();
    void aClockSetBackEndsIt();
    void oneHoldPointAfterTheOther();
    void holesHold();
    void aGapIsAcceptedByTwo();
    void damageHolds();
};

void ReleasesTest::aFailingRecordStands()
{
    Story story;
    story.readyForFirst();
    QCOMPARE(story.standing().state, State::Ready);
    const Hash high = story.readings("3 %LEL");
    QCOMPARE(story.stop("high").raised, story.numberOf(high));
    story.readings("0 %LEL"); // whatever is recorded later
    QCOMPARE(story.step("readings").passed, Truth::True);
    QCOMPARE(story.stop("high").count, 1U);
    QCOMPARE(story.standing().state, State::Held);
    const Hash alarm = story.event("alarm");
    QCOMPARE(story.stop("alarm").raised, story.numberOf(alarm));
}

void ReleasesTest::clearedByName()
{
    Story story;
    story.openings();
    story.look();
    const Hash first = story.readings("3 %LEL");
    const Hash second = story.readings("4 %LEL");
    const Hash good = story.readings("0 %LEL");
    story.clear("high", good, Who::Authoriser); // names nothing that raised it
    story.clear("bad-look", first, Who::Authoriser); // another stop
    story.clear("high", first, Who::Operator); // not of the roles
    story.clear("high", first, Who::Tester); // who raised it
    QCOMPARE(story.stop("high").count, 2U);
    story.clear("high", first, Who::Authoriser);
    QCOMPARE(story.stop("high").count, 1U);
    QCOMPARE(story.stop("high").raised, story.numberOf(second));
    story.clear("high", second, Who::Second);
    QCOMPARE(story.stop("high").count, 0U);
    // one that says nothing about what was found
    const Hash third = story.readings("5 %LEL");
    How how;
    how.by = Who::Authoriser;
    story.add(ledger::Kind::Cleared,
        values({{"raised", Json(canon::toHex(third))}, {"stop", Json("high")}, {"found", Json("")}, {"done", Json("mended")}}), how);
    QCOMPARE(story.stop("high").count, 1U);
}

void ReleasesTest::clearedByTwo()
{
    Story story;
    const Hash alarm = story.event("alarm");
    const Hash clearing = story.clear("alarm", alarm, Who::Authoriser);
    QCOMPARE(story.stop("alarm").count, 1U); // one signature of two
    story.confirm(clearing, Who::Operator);
    QCOMPARE(story.stop("alarm").count, 1U); // not of the roles
    const Hash again = story.clear("alarm", alarm, Who::Authoriser);
    story.confirm(again, Who::Tester);
    QCOMPARE(story.stop("alarm").count, 0U);
}

void ReleasesTest::aFailureIsJudgedAtItsOwnMoment()
{
    Story story;
    story.look("12 mm");
    How how;
    how.by = Who::Hand;
    const Hash failing = story.record("share", values({{"part", length("7 mm")}}), how);
    QCOMPARE(story.stop("bad-look").raised, story.numberOf(failing));
    story.look("50 mm"); // by which the same record would pass
    QCOMPARE(story.stop("bad-look").count, 1U);
    story.record("share", values({{"part", length("7 mm")}}), how);
    QCOMPARE(story.step("share").passed, Truth::True);
    QCOMPARE(story.stop("bad-look").count, 1U);
    story.event("moved"); // and when what it was computed with no longer counts
    QCOMPARE(story.stop("bad-look").count, 1U);
    // the other way round: what passed in its time is no failure because of what came later
    Story other;
    other.look("50 mm");
    other.record("share", values({{"part", length("7 mm")}}), how);
    other.record("share", values({{"part", length("1 mm")}}), how);
    other.look("12 mm");
    QCOMPARE(other.stop("bad-look").count, 0U);
}

void ReleasesTest::aFailureNeedsNoSecondSignature()
{
    Story story;
    How how;
    how.by = Who::Hand;
    const Hash alone = story.record("look", values({{"depth", length("5 mm")}}), how);
    QCOMPARE(story.step("look").lack, Lack::Missing);
    QCOMPARE(story.stop("bad-look").raised, story.numberOf(alone));
}

void ReleasesTest::aClearingCanBeWithdrawn()
{
    Story story;
    const Hash look = story.look("5 mm");
    const Hash clearing = story.clear("bad-look", look, Who::Authoriser);
    QCOMPARE(story.stop("bad-look").count, 0U);
    story.correct(clearing, Who::Authoriser);
    QCOMPARE(story.stop("bad-look").count, 1U);
}

void ReleasesTest::releasedByTwo()
{
    Story story;
    story.readyForFirst();
    const Hash confirming = story.giveFirst();
    const rules::ReleaseHeld held = story.given();
    QCOMPARE(held.confirmed, story.numberOf(confirming));
    QCOMPARE(held.at_giving, Truth::True);
    QCOMPARE(held.given_ms, story.now().wall_ms);
    QVERIFY(held.by != held.with);
    const auto standing = story.standing();
    QCOMPARE(standing.state, State::Released);
    QCOMPARE(standing.until_ms, story.now().wall_ms - 2 * kMinute + 2 * kHour); // look is needed all the time and was first
    // one signature alone
    Story alone;
    alone.readyForFirst();
    const Hash tag = alone.printTag();
    How how;
    how.by = Who::Authoriser;
    alone.add(ledger::Kind::Released,
        values({{"hold_point", Json("first")},
            {"answers", values({{"serial", Json("1204")}, {"highest", shownGas("0 %LEL")}, {"unhappy", Json("nobody")}})},
            {"tag", values({{"head", Json(canon::toHex(tag))}})}}),
        how);
    QCOMPARE(alone.given().confirmed, rules::kNoEntry);
    QVERIFY(alone.given().offered != rules::kNoEntry);
    QCOMPARE(alone.standing().state, State::Ready);
}

void ReleasesTest::whatWasTrueWhenItWasGiven()
{
    Story story;
    story.readyForFirst();
    story.giveFirst();
    story.wait(40 * kMinute); // the readings live 30 minutes, the release goes on
    QCOMPARE(story.step("readings").lack, Lack::Lapsed);
    QCOMPARE(story.given().at_giving, Truth::True);
    QCOMPARE(story.standing().state, State::Released);
    // the same words with readings that had lapsed by then are no release
    Story late;
    late.readyForFirst();
    late.wait(31 * kMinute);
    late.giveFirst();
    QVERIFY(late.given().at_giving != Truth::True);
    QCOMPARE(late.standing().hold_points[0].state, State::Held);
}

void ReleasesTest::theTalkMustAgree_data()
{
    QTest::addColumn<QString>("serial");
    QTest::addColumn<QString>("highest");
    QTest::addColumn<bool>("good");
    QTest::newRow("as recorded") << "1204"
                                 << "0.5 %LEL" << true;
    QTest::newRow("another serial") << "1205"
                                    << "0.5 %LEL" << false;
    QTest::newRow("the whole serial") << "A 1204"
                                      << "0.5 %LEL" << false; // the last four are asked
    QTest::newRow("lower than was read") << "1204"
                                         << "0 %LEL" << false;
    QTest::newRow("higher than was read") << "1204"
                                          << "0.6 %LEL" << false;
}

void ReleasesTest::theTalkMustAgree()
{
    QFETCH(QString, serial);
    QFETCH(QString, highest);
    QFETCH(bool, good);
    Story story;
    story.day();
    story.papers();
    story.look();
    story.openings();
    story.readings("0.5 %LEL", "0.2 %LEL");
    const Hash tag = story.printTag();
    story.release("first",
        values({{"serial", Json(serial.toStdString())}, {"highest", shownGas(highest.toStdString())}, {"unhappy", Json("nobody")}}), tag);
    QCOMPARE(story.given().at_giving == Truth::True, good);
    QCOMPARE(story.standing().state, good ? State::Released : State::Ready);
}

void ReleasesTest::theTagMustBeTheNewest()
{
    const Json answers = values({{"serial", Json("1204")}, {"highest", shownGas("0 %LEL")}, {"unhappy", Json("nobody")}});
    Story story;
    story.readyForFirst();
    const Hash older = story.printTag();
    const Hash newest = story.printTag();
    story.release("first", answers, older);
    QVERIFY(story.given().at_giving != Truth::True);
    story.release("first", answers, std::nullopt);
    QVERIFY(story.given().at_giving != Truth::True);
    story.release("first", answers, story.lines.front().hash); // an entry, but no tag of this vessel
    QVERIFY(story.given().at_giving != Truth::True);
    story.release("first", answers, newest);
    QCOMPARE(story.given().at_giving, Truth::True);
}

void ReleasesTest::whoReadTheGasDoesNotCut()
{
    Story story;
    story.yard.people.at(Story::person(Who::Tester)).roles.push_back({"operator", 0, std::numeric_limits<std::int64_t>::max(), {}, false});
    story.readyForFirst();
    const Hash tag = story.printTag();
    How how;
    how.by = Who::Authoriser;
    const Hash offered = story.add(ledger::Kind::Released,
        values({{"hold_point", Json("first")},
            {"answers", values({{"serial", Json("1204")}, {"highest", shownGas("0 %LEL")}, {"unhappy", Json("nobody")}})},
            {"tag", values({{"head", Json(canon::toHex(tag))}})}}),
        how);
    story.confirm(offered, Who::Tester, "operator");
    QCOMPARE(story.given().at_giving, Truth::False);
}

void ReleasesTest::endsWithEventsTimeAndWithdrawal()
{
    Story story;
    story.readyForFirst();
    story.giveFirst();
    const Hash dusk = story.event("dusk");
    QCOMPARE(story.given().ended_by, story.numberOf(dusk));
    QVERIFY(!story.given().withdrawn);
    QVERIFY(story.standing().state != State::Released);
    story.giveFirst(); // given again, knowing it
    QCOMPARE(story.given().ended_by, rules::kNoEntry);
    QCOMPARE(story.standing().state, State::Released);
    const Hash taken = story.add(ledger::Kind::Withdrawn, values({{"hold_point", Json("first")}, {"why", Json("wind")}}), {});
    QVERIFY(story.given().withdrawn);
    QCOMPARE(story.given().ended_by, story.numberOf(taken));
    QVERIFY(story.standing().state != State::Released);
    // What came first ended it, not what the hold point names first.
    Story other;
    other.readyForFirst();
    other.giveFirst();
    const Hash first = other.event("dusk");
    other.event("moved");
    QCOMPARE(other.given().ended_by, other.numberOf(first));
}

// Found out afterwards: a verdict about the past rests on what was known then, and what ended the trust in it.
void ReleasesTest::lateKnowledgeDoesNotGrant()
{
    Story story;
    story.look();
    story.openings();
    story.readings();
    story.day();
    story.giveFirst(); // no papers
    QVERIFY(story.given().at_giving != Truth::True);
    story.papers();
    QVERIFY(story.given().at_giving != Truth::True);
    QVERIFY(story.standing().state != State::Released);
    // the key of who gave it is suspected later, by somebody who did not know the release
    Story other;
    other.readyForFirst();
    other.giveFirst();
    QCOMPARE(other.standing().state, State::Released);
    How suspecting;
    suspecting.by = Who::Second;
    suspecting.of_yard = true;
    suspecting.device = 2;
    suspecting.parents = std::vector<Hash>{other.lines.front().hash};
    const Hash suspicion = other.add(ledger::Kind::KeySuspected, values({{"why", Json("lost")}}), suspecting);
    other.yard.people.at(Story::person(Who::Authoriser)).keys.front().suspected_by = suspicion;
    QVERIFY(other.standing().state != State::Released);
}

void ReleasesTest::aClockSetBackEndsIt()
{
    Story story;
    story.readyForFirst();
    story.giveFirst();
    story.reboot(true);
    QCOMPARE(story.standing().state, State::Released);
    story.yard.boots[story.now().boot].wall_ms -= 24 * kHour;
    QVERIFY(story.standing().state != State::Released);
}

void ReleasesTest::oneHoldPointAfterTheOther()
{
    Story story;
    story.readyForFirst();
    story.giveFirst();
    QCOMPARE(story.standing().hold_points[1].state, State::Held);
    story.cut();
    QCOMPARE(story.step("cut").passed, Truth::True);
    QCOMPARE(story.standing().hold_points[1].state, State::Ready);
    story.release("leaves", Json::object(), std::nullopt);
    QCOMPARE(story.given("leaves").at_giving, Truth::True);
    QCOMPARE(story.standing().state, State::Closed);
    story.wait(1000 * kHour);
    QVERIFY(story.standing().state == State::Closed);
    story.event("alarm");
    QVERIFY(story.standing().state != State::Closed);
}

void ReleasesTest::holesHold()
{
    Story story;
    story.readyForFirst();
    story.giveFirst();
    // a genuine tag names an entry that is not here
    How how;
    const Hash unknown = canon::sha256("an entry lost with a disk");
    story.add(ledger::Kind::TagRead, values({{"genuine", Json(std::int64_t{0})}, {"head", Json(canon::toHex(unknown))}}), how);
    QCOMPARE(story.standing().state, State::Released); // not genuine: anybody can write that
    story.add(ledger::Kind::TagRead, values({{"genuine", Json(std::int64_t{1})}, {"head", Json(canon::toHex(unknown))}}), how);
    QVERIFY(!story.fold().evidence.whole);
    QCOMPARE(story.fold().unknown_heads, std::vector<Hash>{unknown});
    QCOMPARE(story.standing().hold_points[0].state, State::Held);
    // a parent that is not here
    Story other;
    other.readyForFirst();
    How orphan;
    orphan.by = Who::Hand;
    orphan.parents = std::vector<Hash>{unknown, other.lines.back().hash};
    std::ranges::sort(*orphan.parents);
    other.record("papers", values({{"serial", Json("A 1204")}, {"held", Json("air")}}), orphan);
    QVERIFY(!other.fold().evidence.whole);
    QCOMPARE(other.standing().state, State::Held);
    // an entry taken out of the middle
    Story cut_out;
    cut_out.readyForFirst();
    cut_out.event("alarm");
    cut_out.papers();
    cut_out.lines.erase(cut_out.lines.end() - 2);
    QVERIFY(!cut_out.fold().evidence.whole);
    QCOMPARE(cut_out.standing().state, State::Held);
}

void ReleasesTest::aGapIsAcceptedByTwo()
{
    Story story;
    story.readyForFirst();
    const Hash bad = story.look("5 mm");
    story.clear("bad-look", bad, Who::Authoriser);
    story.look();
    story.readings();
    story.giveFirst();
    QCOMPARE(story.standing().state, State::Released);
    const Hash unknown = canon::sha256("an entry lost with a disk");
    story.add(ledger::Kind::TagRead, values({{"genuine", Json(std::int64_t{1})}, {"head", Json(canon::toHex(unknown))}}), {});
    How how;
    how.by = Who::Authoriser;
    const Hash accepted = story.add(
        ledger::Kind::GapAccepted, values({{"heads", Json::array({Json(canon::toHex(unknown))})}, {"why", Json("a new disk")}}), how);
    QVERIFY(!story.fold().evidence.whole); // one signature
    story.confirm(accepted, Who::Second);
    QVERIFY(story.fold().evidence.whole);
    QCOMPARE(story.step("papers").lack, Lack::None); // papers still count
    QCOMPARE(story.step("look").lack, Lack::Voided);
    QCOMPARE(story.step("openings").lack, Lack::Voided);
    QCOMPARE(story.step("readings").lack, Lack::Voided);
    QCOMPARE(story.stop("bad-look").count, 1U); // raised again for a look
    QVERIFY(story.given().withdrawn);
    QCOMPARE(story.standing().state, State::Held);
    story.clear("bad-look", bad, Who::Authoriser);
    QCOMPARE(story.stop("bad-look").count, 0U);
    story.readyForFirst();
    story.giveFirst();
    QCOMPARE(story.standing().state, State::Released);
}

void ReleasesTest::damageHolds()
{
    Story story;
    story.readyForFirst();
    story.giveFirst();
    QCOMPARE(story.standing().state, State::Released);
    story.around.record_damaged = true;
    QCOMPARE(story.standing().state, State::Held);
    story.around.record_damaged = false;
    story.around.storage_fault = true;
    QCOMPARE(story.standing().state, State::Held);
}

BRIMFUL_SUITE(ReleasesTest);
#include "releases_test.moc"
