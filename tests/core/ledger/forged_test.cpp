// Somebody with keys: entries that are well signed and still must not stand.
#include "tests/core/ledger/history.h"
#include "tests/support/suite.h"

#include <QDir>
#include <QFile>
#include <QTest>

using namespace brimful;
using canon::Json;
using ledger::Kind;
using test::payload;

namespace {

constexpr std::int64_t kMinute = 60'000;

QByteArray findingsOf(const test::History& history, const ledger::VerifyOptions& options = {})
{
    test::Shelf shelf;
    history.write(shelf.file());
    return QByteArray::fromStdString(test::findingsText(test::verified(shelf.file(), options)));
}

Json confirms(const Hash& hash) { return payload({{"confirms", canon::toHex(hash)}}); }

} // namespace

class ForgedTest : public QObject {
    Q_OBJECT

private slots:
    void aStrangersDevice()
    {
        test::History history;
        ledger::Entry entry = history.draft(Kind::Event, payload({{"event", "moved"}, {"note", ""}}));
        entry.device = people::randomId<DeviceId>();
        entry.seq = 1;
        entry.prev.reset();
        history.keep(entry, nullptr);
        QCOMPARE(findingsOf(history), QByteArray("row 6: device unknown"));
    }

    void aStranger()
    {
        test::History history;
        const test::Actor stranger;
        history.add(Kind::Evidence, payload({{"step", "look"}}), &stranger, "gas-tester");
        QCOMPARE(findingsOf(history), QByteArray("row 6: person unknown"));
    }

    void anothersNameUnderMySignature()
    {
        test::History history;
        const ledger::Entry entry = history.draft(Kind::Evidence, payload({{"step", "look"}}), &history.ben, "gas-tester");
        history.keep(entry, &history.ada);
        QCOMPARE(findingsOf(history), QByteArray("row 6: person signature"));
    }

    void aKeyOfAnotherTablet()
    {
        test::History history;
        test::Actor ben_elsewhere{history.ben.id, people::SigningKey::generate()};
        const auto other = people::randomId<DeviceId>();
        history.add(Kind::PersonEnrolled,
            payload({{"person", canon::toHex(history.ben.id)}, {"name", "Ben Birch"}, {"device", canon::toHex(other)},
                {"key", canon::toHex(ben_elsewhere.key.publicKey())}}),
            &history.ada, "authoriser");
        history.add(Kind::Evidence, payload({{"step", "look"}}), &history.ben, "gas-tester"); // the old key still signs here
        history.add(Kind::Evidence, payload({{"step", "look"}}), &ben_elsewhere, "gas-tester");
        QCOMPARE(findingsOf(history), QByteArray("row 8: person signature"));
    }

    void aRoleNeverHeld()
    {
        test::History history;
        history.add(Kind::Evidence, payload({{"step", "look"}}), &history.ben, "inspector");
        QCOMPARE(findingsOf(history), QByteArray("row 6: role not held"));
    }

    void rolesHaveDates()
    {
        test::History history;
        const std::int64_t now = test::History::kStart + history.minutes * kMinute;
        history.grant(history.ben, "fire-watch", now + 2 * kMinute, now + 4 * kMinute); // row 6, minute + 1
        for (int i = 0; i < 4; ++i) { // minutes + 2, 3, 4, 5
            history.add(Kind::Evidence, payload({{"step", "look"}}), &history.ben, "fire-watch");
        }
        QCOMPARE(findingsOf(history), QByteArray("row 9: role not held, row 10: role not held"));
    }

    void aRoleEndedDoesNotComeBackWithTheClock()
    {
        test::History history;
        history.add(
            Kind::RoleEnded, payload({{"person", canon::toHex(history.ben.id)}, {"role", "gas-tester"}}), &history.ada, "authoriser");
        history.add(Kind::Evidence, payload({{"step", "look"}}), &history.ben, "gas-tester");
        ledger::Entry back = history.draft(Kind::Evidence, payload({{"step", "look"}}), &history.ben, "gas-tester");
        back.at.boot = people::randomId<BootId>(); // a boot whose clock nobody confirmed, set back by a day
        back.at.wall_ms -= 24 * 60 * kMinute;
        history.keep(back, &history.ben);
        history.grant(history.ben, "gas-tester", test::History::kStart);
        history.add(Kind::Evidence, payload({{"step", "look"}}), &history.ben, "gas-tester");
        QCOMPARE(findingsOf(history), QByteArray("row 7: role not held, row 8: role not held"));
    }

    void retiredMeansEveryRole()
    {
        test::History history;
        history.grant(history.ben, "fire-watch", test::History::kStart);
        history.add(Kind::RoleEnded, payload({{"person", canon::toHex(history.ben.id)}}), &history.ada, "authoriser");
        history.add(Kind::Evidence, payload({{"step", "look"}}), &history.ben, "gas-tester");
        history.add(Kind::Evidence, payload({{"step", "look"}}), &history.ben, "fire-watch");
        QCOMPARE(findingsOf(history), QByteArray("row 8: role not held, row 9: role not held"));
    }

    // A role's days are counted by the confirmed clock where there is one, not by what the tablet showed.
    void confirmedTimeDecidesOverTheWallClock()
    {
        test::History history;
        const std::int64_t now = test::History::kStart + history.minutes * kMinute;
        history.grant(history.ben, "fire-watch", now, now + 10 * kMinute);
        ledger::Entry wrong_clock = history.draft(Kind::Evidence, payload({{"step", "look"}}), &history.ben, "fire-watch");
        wrong_clock.at.wall_ms += 365 * 24 * 60 * kMinute; // the same boot: it is still two minutes later
        history.keep(wrong_clock, &history.ben);
        history.minutes += 30;
        ledger::Entry late = history.draft(Kind::Evidence, payload({{"step", "look"}}), &history.ben, "fire-watch");
        late.at.wall_ms = now;
        history.keep(late, &history.ben);
        QCOMPARE(findingsOf(history), QByteArray("row 8: role not held"));
    }

    void grantingNeedsAnAuthoriser_data()
    {
        QTest::addColumn<int>("kind");
        QTest::addColumn<bool>("needs");
        for (int i = 1; i < 22; ++i) {
            const auto kind = static_cast<Kind>(i);
            const std::vector<Kind> granting{Kind::DeviceEnrolled, Kind::PackAdopted, Kind::PersonEnrolled, Kind::RoleGranted,
                Kind::RoleEnded, Kind::KeySuspected, Kind::InstrumentEnrolled, Kind::GapAccepted, Kind::ForkJoined};
            QTest::newRow(std::string(ledger::kindWord(kind)).c_str()) << i << (std::ranges::find(granting, kind) != granting.end());
        }
    }
    void grantingNeedsAnAuthoriser()
    {
        QFETCH(int, kind);
        QFETCH(bool, needs);
        test::History history;
        history.add(static_cast<Kind>(kind), Json::object(), &history.ben, "gas-tester");
        QCOMPARE(findingsOf(history).contains("row 6: role not held"), needs);
    }

    void anEntryOfAnotherYard()
    {
        test::History history;
        ledger::Entry entry = history.draft(Kind::Event, payload({{"event", "moved"}, {"note", ""}}));
        entry.yard = people::randomId<YardId>();
        history.keep(entry, nullptr);
        QCOMPARE(findingsOf(history), QByteArray("row 6: form"));
    }

    void aSecondFounder()
    {
        test::History history;
        const test::Actor usurper;
        const Json device =
            payload({{"id", canon::toHex(history.device)}, {"name", "x"}, {"key", canon::toHex(history.device_key.publicKey())}});
        const Json founder = payload({{"person", canon::toHex(usurper.id)}, {"name", "x"}, {"key", canon::toHex(usurper.key.publicKey())}});
        history.add(Kind::YardCreated,
            payload({{"name", "x"}, {"owner", "x"}, {"use", "play"}, {"device", device}, {"authoriser", founder}, {"recovery", ""}}),
            &usurper, "authoriser");
        QCOMPARE(findingsOf(history), QByteArray("row 6: form, row 6: person unknown"));
    }

    void feeds()
    {
        test::History gap;
        ledger::Entry skipped = gap.draft(Kind::Event, payload({{"event", "moved"}}));
        skipped.seq += 1;
        gap.keep(skipped, nullptr);
        QCOMPARE(findingsOf(gap), QByteArray("row 6: feed gap"));

        test::History wrong_prev;
        ledger::Entry entry = wrong_prev.draft(Kind::Event, payload({{"event", "moved"}}));
        entry.prev = wrong_prev.rows[2].hash;
        wrong_prev.keep(entry, nullptr);
        QCOMPARE(findingsOf(wrong_prev), QByteArray("row 6: feed gap"));

        test::History first_again;
        ledger::Entry restart = first_again.draft(Kind::Event, payload({{"event", "moved"}}));
        restart.prev.reset();
        first_again.keep(restart, nullptr);
        QCOMPARE(findingsOf(first_again), QByteArray("row 6: feed gap"));
    }

    void parentsThatNobodyKnows()
    {
        test::History history;
        const VesselId vessel = history.admit("NQ-01");
        ledger::Entry entry = history.draft(Kind::Event, payload({{"event", "moved"}}), nullptr, {}, vessel);
        entry.parents.push_back(people::randomId<Hash>());
        std::ranges::sort(entry.parents);
        history.keep(entry, nullptr);
        QCOMPARE(findingsOf(history), QByteArray("row 7: parent unknown"));
        // Two people may accept a gap; that entry names what is missing.
        test::History accepting;
        ledger::Entry gap =
            accepting.draft(Kind::GapAccepted, payload({{"heads", Json::array()}, {"why", "lost"}}), &accepting.ada, "authoriser");
        gap.parents = {people::randomId<Hash>()};
        accepting.keep(gap, &accepting.ada);
        QCOMPARE(findingsOf(accepting), QByteArray());
    }

    void headsOfAForkedVessel()
    {
        test::History history;
        const VesselId vessel = history.admit("NQ-01");
        const Hash root = history.rows.back().hash;
        const Hash one = history.event(vessel, "moved");
        ledger::Entry beside = history.draft(Kind::Event, payload({{"event", "concern"}}), nullptr, {}, vessel);
        beside.parents = {root};
        const Hash two = history.keep(beside, nullptr);
        test::Shelf shelf;
        history.write(shelf.file());
        const auto verification = test::verified(shelf.file());
        QVERIFY(verification.intact());
        std::vector<Hash> wanted{one, two};
        std::ranges::sort(wanted);
        QCOMPARE(verification.heads.at(vessel), wanted);
    }

    void confirmations_data()
    {
        QTest::addColumn<QString>("how");
        QTest::addColumn<bool>("stands");
        QTest::newRow("another person within ten minutes") << "right" << true;
        QTest::newRow("ten minutes exactly") << "ten minutes" << true;
        QTest::newRow("the same person") << "same person" << false;
        QTest::newRow("too late") << "late" << false;
        QTest::newRow("too late, clock set back") << "late by the boot clock" << false;
        QTest::newRow("after a restart") << "other boot" << false;
        QTest::newRow("something came between") << "head moved" << false;
        QTest::newRow("nothing of that hash") << "nothing" << false;
        QTest::newRow("an entry that nobody signed") << "unsigned" << false;
        QTest::newRow("in another vessel's name") << "other vessel" << false;
    }
    void confirmations()
    {
        QFETCH(QString, how);
        QFETCH(bool, stands);
        test::History history;
        history.grant(history.ben, "inspector", test::History::kStart);
        const VesselId other = history.admit("NQ-02");
        const VesselId vessel = history.admit("NQ-01");
        Hash first = how == "unsigned" ? history.event(vessel, "moved")
                                       : history.add(Kind::Released, payload({{"hold_point", "fill"}}), &history.ada, "inspector", vessel);
        if (how == "head moved") {
            history.event(vessel, "concern");
        }
        const test::Actor& second = how == "same person" ? history.ada : history.ben;
        history.minutes += how.startsWith("late") ? 10 : how == "ten minutes" ? 9 : 0;
        ledger::Entry entry = history.draft(Kind::Confirmed, confirms(how == "nothing" ? people::randomId<Hash>() : first), &second,
            "inspector", how == "other vessel" ? other : vessel);
        if (how == "late by the boot clock") {
            entry.at.wall_ms -= 10 * kMinute;
        } else if (how == "other boot") {
            entry.at.boot = people::randomId<BootId>();
        } else if (how == "other vessel") {
            entry.parents.push_back(first);
            std::ranges::sort(entry.parents);
        }
        history.keep(entry, &second);
        QCOMPARE(findingsOf(history), stands ? QByteArray() : "row " + QByteArray::number(int(history.rows.size())) + ": confirms nothing");
    }

    // What the second person gave himself is in its form, or the verifier says so by its own reading; none at all is an older entry.
    void ownAnswers_data()
    {
        QTest::addColumn<QByteArray>("answer");
        QTest::addColumn<QByteArray>("findings");
        QTest::newRow("none") << QByteArray() << QByteArray();
        QTest::newRow("a choice") << QByteArray(R"({"fact":"substance","value":"propane"})") << QByteArray();
        QTest::newRow("without its value") << QByteArray(R"({"fact":"substance"})") << QByteArray("row 9: form");
        QTest::newRow("a list of values") << QByteArray(R"({"fact":"substance","value":["propane"]})") << QByteArray("row 9: form");
    }
    void ownAnswers()
    {
        QFETCH(const QByteArray, answer);
        QFETCH(const QByteArray, findings);
        test::History history;
        history.grant(history.ben, "inspector", test::History::kStart);
        const VesselId vessel = history.admit("NQ-01");
        const Hash first = history.add(Kind::Released, payload({{"hold_point", "fill"}}), &history.ada, "inspector", vessel);
        Json said = confirms(first);
        if (!answer.isEmpty()) {
            said.set("answer", *canon::read(answer.toStdString(), canon::Dialect::Subset));
        }
        history.keep(history.draft(Kind::Confirmed, said, &history.ben, "inspector", vessel), &history.ben);
        const ledger::Stored last = history.rows.back();
        history.rows.pop_back();
        test::Shelf shelf;
        history.write(shelf.file()); // and the last row by another hand: the program itself would not write it
        const auto hex = [](const auto& bytes) { return "x'" + canon::toHex(bytes) + "'"; };
        test::meddle(shelf.file(),
            {"INSERT INTO entry(hash, body, person_sig, device_sig, device, seq, vessel, kind) VALUES(" + hex(last.hash) + ", '" + last.body
                + "', " + hex(*last.person_signature) + ", " + hex(last.device_signature) + ", " + hex(history.device) + ", "
                + std::to_string(history.rows.size() + 1) + ", " + hex(vessel) + ", 'confirmed')"});
        QCOMPARE(QByteArray::fromStdString(test::findingsText(test::verified(shelf.file(), {}))), findings);
    }

    void theRecoverySheetEnrolsAnAuthoriser()
    {
        for (const bool genuine : {true, false}) {
            test::History history;
            const test::Actor cleo;
            Json enrolment = payload({{"person", canon::toHex(cleo.id)}, {"name", "Cleo Cane"}, {"device", canon::toHex(history.device)},
                {"key", canon::toHex(cleo.key.publicKey())}, {"by_recovery", 1}});
            const auto other = people::SigningKey::generate();
            const auto& sheet = genuine ? history.recovery : other;
            enrolment.set("recovery_sig", canon::toHex(sheet.sign(people::kRecoveryDomain, ledger::recoveryStatement(enrolment))));
            history.add(Kind::PersonEnrolled, enrolment, &cleo, "authoriser");
            history.add(Kind::RoleGranted,
                payload({{"person", canon::toHex(cleo.id)}, {"role", "inspector"}, {"from", test::History::kStart}}), &cleo, "authoriser");
            const QByteArray findings = findingsOf(history);
            const auto lines = history.lines();
            const auto state = ledger::readYard(lines);
            QCOMPARE(state.recovery_used, genuine);
            QCOMPARE(state.holdsRole(cleo.id, "authoriser", test::History::kStart), genuine);
            QCOMPARE(
                findings, genuine ? QByteArray() : QByteArray("row 6: person signature, row 6: person unknown, row 7: person unknown"));
        }
    }

    void attachments()
    {
        QTemporaryDir root;
        const std::string photo = "a photo's bytes";
        const Hash hash = canon::sha256(photo);
        test::History history;
        ledger::Entry entry = history.draft(Kind::Evidence, payload({{"step", "look"}}), &history.ben, "gas-tester");
        entry.attachments = {hash};
        history.keep(entry, &history.ben);
        ledger::VerifyOptions options;
        options.evidence = root.path().toStdString();
        QCOMPARE(findingsOf(history, options), QByteArray("row 6: attachment missing"));
        const QString shelf = root.filePath(QString::fromStdString(canon::toHex(hash).substr(0, 2)));
        QVERIFY(QDir().mkpath(shelf));
        QFile file(shelf + "/" + QString::fromStdString(canon::toHex(hash)) + ".jpg");
        QVERIFY(file.open(QIODevice::WriteOnly));
        file.write(photo.c_str());
        file.flush();
        QCOMPARE(findingsOf(history, options), QByteArray());
        file.write("x");
        file.flush();
        QCOMPARE(findingsOf(history, options), QByteArray("row 6: attachment differs"));
        QCOMPARE(findingsOf(history), QByteArray()); // not looked at
    }

    void typedQuantities()
    {
        test::History history;
        const Json wall = payload({{"count", 95'250}, {"typed", "3/8 in"}, {"unit", "100nm"}});
        const Json wrong = payload({{"count", 95'251}, {"typed", "3/8 in"}, {"unit", "100nm"}});
        history.add(Kind::Evidence, payload({{"facts", payload({{"wall", wall}})}}), &history.ben, "gas-tester");
        history.add(Kind::Evidence, payload({{"facts", payload({{"spots", Json::array({payload({{"wall", wrong}})})}})}}), &history.ben,
            "gas-tester");
        ledger::VerifyOptions options;
        options.typed_agrees = [](const std::string& typed, const std::string& unit, std::int64_t count) {
            return typed == "3/8 in" && unit == "100nm" && count == 95'250; // 3/8 of 25.4 mm = 9.525 mm
        };
        QCOMPARE(findingsOf(history, options), QByteArray("row 7: typed differs"));
    }
};
BRIMFUL_SUITE(ForgedTest);

#include "forged_test.moc"
