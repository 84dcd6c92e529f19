// Which record of a step counts, and why one does not: newest by knowledge, whole, signed, in time, in order.
#include "tests/core/evidence/story.h"
#include "tests/support/suite.h"

#include <QTest>

using namespace brimful;
using namespace brimful::test;
using rules::Lack;
using rules::Truth;

class RecordsTest : public QObject {
    Q_OBJECT
private slots:
    void theNewestCounts();
    void twoNewestAreAConflict();
    void aCorrectionOnlyWithdraws();
    void whatEverFailed();
    void aWithdrawnRecordDoesNotBringBackTheOneBefore();
    void onePhotoInTwoRecords();
    void filesMustBeThere();
    void eventsVoidWhatDidNotKnowThem();
    void twoPeople_data();
    void twoPeople();
    void aConfirmationCanBeWithdrawn();
    void rolesAreHeldAtTheMoment();
    void aSuspectedKey();
    void needsTheNewest();
    void cannotIsNoRecord();
    void instruments();
    void aLaterFailedCheckReachesBack();
    void livesRunOutToTheMillisecond();
    void theOldestRowCounts();
    void acrossBoots();
    void aClockSetBack();
    void scopes();
    void whatSeveralPeopleSigned();
};

void RecordsTest::theNewestCounts()
{
    Story story;
    story.look("5 mm"); // fails
    QCOMPARE(story.step("look").passed, Truth::False);
    const Hash second = story.look("12 mm");
    QCOMPARE(story.step("look").passed, Truth::True);
    QCOMPARE(story.step("look").lack, Lack::None);
    QCOMPARE(story.step("look").entry, story.numberOf(second));
    QCOMPARE(story.fact("look.depth").count, std::int64_t{120'000});
    QCOMPARE(story.step("papers").lack, Lack::Missing);
}

void RecordsTest::twoNewestAreAConflict()
{
    Story story;
    const Hash papers = story.papers();
    How elsewhere;
    elsewhere.by = Who::Hand;
    elsewhere.device = 2;
    elsewhere.parents = std::vector<Hash>{};
    story.record("papers", values({{"serial", Json("B 7")}, {"held", Json("air")}}), elsewhere);
    QCOMPARE(story.step("papers").lack, Lack::Conflict);
    QCOMPARE(story.fact("papers.held").lack, Lack::Conflict);
    QVERIFY(!story.fold().evidence.whole); // two heads
    // one that knows both settles which record counts; that two tablets wrote apart only an authoriser's entry joins
    story.papers();
    QCOMPARE(story.step("papers").lack, Lack::None);
    QVERIFY(story.fold().forked && !story.fold().evidence.whole);
    QVERIFY(papers != Hash{});
}

void RecordsTest::aCorrectionOnlyWithdraws()
{
    Story story;
    const Hash look = story.look("5 mm");
    story.correct(look);
    QCOMPARE(story.step("look").lack, Lack::Missing);
    QCOMPARE(story.stop("bad-look").count, 1U); // and no stop is lifted
    story.look("12 mm");
    QCOMPARE(story.step("look").passed, Truth::True);
    QCOMPARE(story.stop("bad-look").count, 1U);
}

void RecordsTest::whatEverFailed()
{
    Story story;
    const auto failed = [&] {
        return evidence::everFailed(story.lines, story.vessel, story.yard, Story::pack(), {}, story.now(), story.memo);
    };
    story.papers();
    story.look("12 mm");
    QVERIFY(!failed());
    const Hash look = story.look("5 mm");
    QVERIFY(failed());
    story.correct(look);
    story.look("12 mm");
    QVERIFY(failed()); // put right since: it was found all the same
    Story other;
    other.papers("chlorine"); // a step whose failing raises no stop, or does: found either way
    QVERIFY(evidence::everFailed(other.lines, other.vessel, other.yard, Story::pack(), {}, other.now(), other.memo));
    Story third;
    third.papers();
    third.look();
    How honest;
    honest.by = Who::Hand;
    honest.cannot = true;
    third.record("look", Json::object(), honest); // "cannot" is no failing record
    QVERIFY(!evidence::everFailed(third.lines, third.vessel, third.yard, Story::pack(), {}, third.now(), third.memo));
}

void RecordsTest::aWithdrawnRecordDoesNotBringBackTheOneBefore()
{
    Story story;
    story.look("12 mm");
    const Hash worse = story.look("11 mm");
    story.correct(worse);
    QCOMPARE(story.step("look").lack, Lack::Missing);
    story.look("12 mm");
    QCOMPARE(story.step("look").lack, Lack::None);
}

void RecordsTest::onePhotoInTwoRecords()
{
    Story story;
    const Hash photo = canon::sha256("a picture");
    How how;
    how.by = Who::Hand;
    how.files = {photo};
    const Hash first = story.record("look", values({{"depth", length("12 mm")}, {"picture", Json(canon::toHex(photo))}}), how);
    story.confirm(first, Who::Tester);
    QCOMPARE(story.step("look").lack, Lack::None);
    story.record("papers", values({{"serial", Json("A 1204")}, {"held", Json("air")}, {"paper", Json(canon::toHex(photo))}}), how);
    QCOMPARE(story.step("look").lack, Lack::Conflict);
    QCOMPARE(story.step("papers").lack, Lack::Conflict);
}

void RecordsTest::filesMustBeThere()
{
    Story story;
    const Hash photo = canon::sha256("a picture");
    How how;
    how.by = Who::Hand;
    how.files = {photo};
    story.record("papers", values({{"serial", Json("A 1204")}, {"held", Json("air")}, {"paper", Json(canon::toHex(photo))}}), how);
    QCOMPARE(story.step("papers").lack, Lack::None);
    story.around.missing_attachments.insert(photo);
    QCOMPARE(story.step("papers").lack, Lack::Attachment);
    // named as a value, but not among the entry's files
    story.around.missing_attachments.clear();
    how.files.clear();
    story.record("papers", values({{"serial", Json("A 1204")}, {"held", Json("air")}, {"paper", Json(canon::toHex(photo))}}), how);
    QCOMPARE(story.fact("papers.paper").lack, Lack::Attachment);
}

void RecordsTest::eventsVoidWhatDidNotKnowThem()
{
    Story story;
    story.event("moved");
    story.look();
    QCOMPARE(story.step("look").lack, Lack::None); // known before: the record was made after it
    story.event("dusk");
    QCOMPARE(story.step("look").lack, Lack::None); // not in its list
    story.event("moved");
    QCOMPARE(story.step("look").lack, Lack::Voided);
    QCOMPARE(story.fact("look.depth").lack, Lack::Voided);
    story.look();
    QCOMPARE(story.step("look").lack, Lack::None);
    // on another device, not knowing the record, though its clock shows an earlier time
    How elsewhere;
    elsewhere.device = 2;
    elsewhere.parents = std::vector<Hash>{};
    story.add(ledger::Kind::Event, values({{"event", Json("moved")}}), elsewhere);
    QCOMPARE(story.step("look").lack, Lack::Voided);
    const auto folded = story.fold();
    const auto moved = Story::pack().event("moved");
    QVERIFY(((folded.evidence.event_after[moved] >> Story::pack().step("look")) & 1U) != 0);
    QCOMPARE(folded.evidence.last_event[moved], static_cast<std::uint32_t>(story.lines.size()));
}

void RecordsTest::twoPeople_data()
{
    QTest::addColumn<int>("who");
    QTest::addColumn<qlonglong>("after");
    QTest::addColumn<int>("lack");
    const auto row = [](const char* name, Who who, std::int64_t after, Lack lack) {
        QTest::newRow(name) << static_cast<int>(who) << static_cast<qlonglong>(after) << static_cast<int>(lack);
    };
    row("at once", Who::Tester, 0, Lack::None);
    row("ten minutes", Who::Tester, 10 * kMinute, Lack::None);
    row("later", Who::Tester, 10 * kMinute + 1, Lack::Missing);
    row("alone", Who::Hand, 0, Lack::Missing);
    row("another role", Who::Operator, 0, Lack::WrongPerson);
}

void RecordsTest::twoPeople()
{
    QFETCH(int, who);
    QFETCH(qlonglong, after);
    QFETCH(int, lack);
    Story story;
    How how;
    how.by = Who::Hand;
    const Hash first = story.record("look", values({{"depth", length("12 mm")}}), how);
    QCOMPARE(story.step("look").lack, Lack::Missing);
    story.wait(after);
    story.confirm(first, static_cast<Who>(who));
    QCOMPARE(static_cast<int>(story.step("look").lack), lack);
    if (lack == static_cast<int>(Lack::None)) {
        QCOMPARE(story.step("look").confirmed, static_cast<std::uint32_t>(story.lines.size()));
        QVERIFY(story.step("look").person != story.step("look").second);
    }
}

void RecordsTest::aConfirmationCanBeWithdrawn()
{
    Story story;
    How how;
    how.by = Who::Hand;
    const Hash first = story.record("look", values({{"depth", length("12 mm")}}), how);
    const Hash second = story.confirm(first, Who::Tester);
    QCOMPARE(story.step("look").lack, Lack::None);
    story.correct(second, Who::Tester);
    QCOMPARE(story.step("look").lack, Lack::Missing);
}

void RecordsTest::rolesAreHeldAtTheMoment()
{
    Story story;
    story.papers();
    story.wait(kHour);
    ledger::Role& role = story.yard.people.at(Story::person(Who::Hand)).roles.front();
    role.until_ms = story.now().wall_ms; // ended since
    QCOMPARE(story.step("papers").lack, Lack::None);
    story.papers();
    QCOMPARE(story.step("papers").lack, Lack::WrongPerson);
    // a role of the step that this person never held; a role held that the step does not ask for
    How claimed;
    claimed.by = Who::Operator;
    claimed.role = "hand";
    story.record("papers", values({{"serial", Json("A 1204")}, {"held", Json("air")}}), claimed);
    QCOMPARE(story.step("papers").lack, Lack::WrongPerson);
    claimed.role = "operator";
    story.record("papers", values({{"serial", Json("A 1204")}, {"held", Json("air")}}), claimed);
    QCOMPARE(story.step("papers").lack, Lack::WrongPerson);
    // nobody signed
    story.record("papers", values({{"serial", Json("A 1204")}, {"held", Json("air")}}), {});
    QCOMPARE(story.step("papers").lack, Lack::WrongPerson);
}

void RecordsTest::aSuspectedKey()
{
    Story story;
    const Hash known_before = story.papers();
    How suspecting;
    suspecting.by = Who::Authoriser;
    suspecting.of_yard = true;
    suspecting.parents = std::vector<Hash>{known_before};
    const Hash suspicion = story.add(ledger::Kind::KeySuspected, values({{"why", Json("lost")}}), suspecting);
    story.yard.people.at(Story::person(Who::Hand)).keys.front().suspected_by = suspicion;
    QCOMPARE(story.step("papers").lack, Lack::None); // the suspicion knew it
    story.papers();
    QCOMPARE(story.step("papers").lack, Lack::WrongPerson);
}

void RecordsTest::needsTheNewest()
{
    Story story;
    story.openings();
    story.readings();
    QCOMPARE(story.step("readings").lack, Lack::WrongOrder); // no look
    story.look();
    QCOMPARE(story.step("readings").lack, Lack::WrongOrder);
    story.readings();
    QCOMPARE(story.step("readings").lack, Lack::None);
    story.look(); // again: what was read before knew another one
    QCOMPARE(story.step("readings").lack, Lack::WrongOrder);
    // signed, but not yet by the second person when the readings were taken
    How how;
    how.by = Who::Hand;
    const Hash first = story.record("look", values({{"depth", length("12 mm")}}), how);
    story.readings();
    story.confirm(first, Who::Tester);
    QCOMPARE(story.step("readings").lack, Lack::WrongOrder);
}

void RecordsTest::cannotIsNoRecord()
{
    Story story;
    story.look();
    How how;
    how.by = Who::Hand;
    how.cannot = true;
    story.record("look", Json::object(), how);
    QCOMPARE(story.step("look").lack, Lack::Missing);
    QCOMPARE(story.stop("bad-look").count, 0U);
}

void RecordsTest::instruments()
{
    const auto lackWith = [](const auto& change) {
        Story story;
        story.look();
        story.openings();
        change(story);
        story.readings();
        return story.step("readings").lack;
    };
    QCOMPARE(lackWith([](Story&) {}), Lack::None);
    QCOMPARE(lackWith([](Story& story) { story.yard.instruments.clear(); }), Lack::Instrument);
    QCOMPARE(lackWith([](Story& story) { story.yard.instruments.at("M-1").type = "pressure-gauge"; }), Lack::Instrument);
    QCOMPARE(lackWith([](Story& story) { story.yard.instruments.at("M-1").withdrawn = true; }), Lack::Instrument);
    QCOMPARE(lackWith([](Story& story) { story.yard.instruments.at("M-1").bumps.clear(); }), Lack::Instrument);
    QCOMPARE(lackWith([](Story& story) { story.yard.instruments.at("M-1").calibrated_until_ms = kStart; }), Lack::Instrument);
    QCOMPARE(lackWith([](Story& story) { story.yard.instruments.at("M-1").calibrated_until_ms = kStart + 1; }), Lack::None);
    QCOMPARE(lackWith([](Story& story) { story.bump(false); }), Lack::Instrument);
    QCOMPARE(lackWith([](Story& story) {
        story.bump(false);
        story.bump(true);
    }),
        Lack::None);
    // the pack's bump-life is 12 h
    QCOMPARE(lackWith([](Story& story) {
        story.wait(12 * kHour);
        story.look();
    }),
        Lack::None);
    QCOMPARE(lackWith([](Story& story) {
        story.wait(12 * kHour + 1);
        story.look();
    }),
        Lack::Instrument);
}

void RecordsTest::aLaterFailedCheckReachesBack()
{
    Story story;
    story.look();
    story.openings();
    story.readings();
    story.bump(true);
    QCOMPARE(story.step("readings").lack, Lack::None);
    story.bump(false);
    QCOMPARE(story.step("readings").lack, Lack::Instrument);
    story.bump(true);
    QCOMPARE(story.step("readings").lack, Lack::Instrument); // it was bad in between
}

void RecordsTest::livesRunOutToTheMillisecond()
{
    Story story;
    const std::int64_t at = story.now().wall_ms;
    story.look();
    QCOMPARE(story.step("look").lapses_ms, at + 2 * kHour);
    QCOMPARE(story.fact("look.depth").lapses_ms, at + 2 * kHour);
    story.wait(2 * kHour - 1);
    QCOMPARE(story.step("look").lack, Lack::None);
    story.wait(1);
    QCOMPARE(story.step("look").lack, Lack::Lapsed);
    QCOMPARE(story.fact("look.depth").lack, Lack::Lapsed);
    story.papers();
    QCOMPARE(story.step("papers").lapses_ms, rules::kNever);
}

void RecordsTest::theOldestRowCounts()
{
    Story story;
    story.look();
    story.openings();
    const std::int64_t at = story.now().wall_ms;
    story.readings("0 %LEL", "0 %LEL", 15 * 60);
    QCOMPARE(story.step("readings").lack, Lack::None);
    QCOMPARE(story.step("readings").lapses_ms, at + 15 * kMinute);
    // a set takes 20 minutes at most
    story.readings("0 %LEL", "0 %LEL", 20 * 60);
    QCOMPARE(story.step("readings").lack, Lack::None);
    story.readings("0 %LEL", "0 %LEL", 20 * 60 + 1);
    QCOMPARE(story.step("readings").lack, Lack::Lapsed);
    // nothing lives longer because it says that it was read in the future
    story.readings("0 %LEL", "0 %LEL", -600);
    QVERIFY(story.step("readings").lapses_ms <= story.now().wall_ms + 30 * kMinute);
}

void RecordsTest::acrossBoots()
{
    Story story;
    const std::int64_t at = story.now().wall_ms;
    story.look();
    story.papers();
    story.reboot(false);
    QVERIFY(!story.fold().evidence.clock_trusted);
    QCOMPARE(story.step("look").lack, Lack::UntrustedClock);
    QCOMPARE(story.step("papers").lack, Lack::None); // papers do not age
    story.yard.boots[story.now().boot] = {story.now().wall_ms, story.now().boot_ms};
    QVERIFY(story.fold().evidence.clock_trusted);
    QCOMPARE(story.step("look").lack, Lack::None);
    QCOMPARE(story.step("look").lapses_ms, at + 2 * kHour);
    // made in a boot that nobody ever confirmed
    story.reboot(false);
    story.look();
    story.reboot(true);
    QCOMPARE(story.step("look").lack, Lack::UntrustedClock);
}

void RecordsTest::aClockSetBack()
{
    Story story;
    story.look();
    story.reboot(true);
    story.yard.boots[story.now().boot].wall_ms -= 24 * kHour; // the date was confirmed a day too early
    QCOMPARE(story.step("look").lack, Lack::UntrustedClock);
}

void RecordsTest::scopes()
{
    Story story;
    story.day();
    QCOMPARE(story.step("day").passed, Truth::True);
    Story other;
    How how;
    how.by = Who::Authoriser;
    other.record("day", values({{"wind", Json("calm")}}), how); // a matter of the yard, recorded on a vessel
    QCOMPARE(other.step("day").lack, Lack::Missing);
    how.by = Who::Hand;
    how.of_yard = true;
    other.record("papers", values({{"serial", Json("A 1204")}, {"held", Json("air")}}), how);
    QCOMPARE(other.step("papers").lack, Lack::Missing);
    // another vessel's records are not this one's
    other.papers();
    other.lines.back().entry.vessel->value.fill(8);
    QCOMPARE(other.step("papers").lack, Lack::Missing);
}

void RecordsTest::whatSeveralPeopleSigned()
{
    Story story;
    story.look();
    story.openings();
    story.readings();
    How how;
    how.by = Who::Operator;
    story.record("watcher", values({{"who", Json(canon::toHex(Story::person(Who::Operator)))}}), how);
    QCOMPARE(story.step("watcher").passed, Truth::True); // not by whoever read the gas
    story.yard.people.at(Story::person(Who::Tester)).roles.push_back({"operator", 0, std::numeric_limits<std::int64_t>::max(), {}, false});
    how.by = Who::Tester;
    how.role = "operator";
    story.record("watcher", values({{"who", Json(canon::toHex(Story::person(Who::Operator)))}}), how);
    QCOMPARE(story.step("watcher").passed, Truth::False);
}

BRIMFUL_SUITE(RecordsTest);
#include "records_test.moc"
