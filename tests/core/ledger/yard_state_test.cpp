// What the yard's entries say of people, roles, instruments, packs and clocks.
#include "core/ledger/yard_state.h"
#include "tests/core/ledger/history.h"
#include "tests/support/suite.h"

#include <QTest>

#include <limits>
#include <random>

using namespace brimful;
using canon::Json;
using ledger::Kind;
using test::payload;

namespace {

constexpr std::int64_t kMinute = 60'000;

ledger::YardState stateOf(const test::History& history)
{
    const auto lines = history.lines();
    return ledger::readYard(lines);
}

Json packOf(const Hash& hash, const std::string& law)
{
    return payload({{"pack", payload({{"id", "base"}, {"version", 2}, {"hash", canon::toHex(hash)}})},
        {"overlays",
            Json::array({payload({{"id", "north"}, {"version", 1}, {"hash", canon::toHex(canon::sha256("north"))},
                {"file", canon::toHex(canon::sha256("text"))}})})},
        {"law", law}});
}

} // namespace

class YardStateTest : public QObject {
    Q_OBJECT

private slots:
    void theFounding()
    {
        const test::History history;
        const auto state = stateOf(history);
        QCOMPARE(state.yard, history.yard);
        QCOMPARE(state.name, std::string("North yard"));
        QCOMPARE(state.owner, std::string("Example Fabricators"));
        QVERIFY(!state.play && !state.recovery_used);
        QCOMPARE(state.recovery_key, history.recovery.publicKey());
        QCOMPARE(state.devices.at(history.device), history.device_key.publicKey());
        QCOMPARE(state.people.size(), std::size_t(2));
        QCOMPARE(state.people.at(history.ada.id).keys.front().key, history.ada.key.publicKey());
        QCOMPARE(state.people.at(history.ben.id).keys.front().enrolled_by, history.rows[2].hash);
        QVERIFY(state.holdsRole(history.ada.id, "authoriser", std::numeric_limits<std::int64_t>::min()));
        QVERIFY(state.holdsRole(history.ben.id, "gas-tester", test::History::kStart));
        QVERIFY(!state.holdsRole(history.ben.id, "gas-tester", test::History::kStart - 1));
        QVERIFY(!state.holdsRole(history.ben.id, "authoriser", test::History::kStart));
        QVERIFY(!state.holdsRole(people::randomId<PersonId>(), "authoriser", test::History::kStart));
        QCOMPARE(state.personNamed("Ben Birch")->id, history.ben.id);
        QVERIFY(state.personNamed("Nobody") == nullptr);
    }

    void rolesWithAnEnd()
    {
        test::History history;
        const std::int64_t start = test::History::kStart;
        history.grant(history.ben, "fire-watch", start + 100, start + 200);
        auto state = stateOf(history);
        QVERIFY(!state.holdsRole(history.ben.id, "fire-watch", start + 99));
        QVERIFY(state.holdsRole(history.ben.id, "fire-watch", start + 100));
        QVERIFY(state.holdsRole(history.ben.id, "fire-watch", start + 199));
        QVERIFY(!state.holdsRole(history.ben.id, "fire-watch", start + 200));
    }

    void anEndedRole()
    {
        test::History history;
        history.grant(history.ben, "fire-watch", test::History::kStart);
        history.add(
            Kind::RoleEnded, payload({{"person", canon::toHex(history.ben.id)}, {"role", "gas-tester"}}), &history.ada, "authoriser");
        const std::int64_t ended = test::History::kStart + history.minutes * kMinute;
        auto state = stateOf(history);
        QVERIFY(state.holdsRole(history.ben.id, "gas-tester", ended - 1)); // what was signed then stays signed
        QVERIFY(!state.holdsRole(history.ben.id, "gas-tester", ended));
        QVERIFY(!state.mayActAs(history.ben.id, "gas-tester", ended - 1)); // a clock set back signs nothing
        QVERIFY(state.mayActAs(history.ben.id, "fire-watch", ended));
        QVERIFY(!state.people.at(history.ben.id).retired);
        history.add(Kind::RoleEnded, payload({{"person", canon::toHex(history.ben.id)}}), &history.ada, "authoriser");
        state = stateOf(history);
        QVERIFY(state.people.at(history.ben.id).retired);
        QVERIFY(!state.mayActAs(history.ben.id, "fire-watch", ended));
        history.grant(history.ben, "fire-watch", test::History::kStart);
        QVERIFY(stateOf(history).mayActAs(history.ben.id, "fire-watch", ended));
    }

    void aSuspectedKey()
    {
        test::History history;
        const Hash by = history.add(Kind::KeySuspected,
            payload({{"person", canon::toHex(history.ben.id)}, {"device", canon::toHex(history.device)}, {"why", "PIN seen"}}),
            &history.ada, "authoriser");
        const test::Actor renewed{history.ben.id, people::SigningKey::generate()};
        history.enrol(renewed, "Ben Birch");
        const auto state = stateOf(history);
        const auto& keys = state.people.at(history.ben.id).keys;
        QCOMPARE(keys.size(), std::size_t(2));
        QCOMPARE(keys[0].suspected_by, std::optional(by));
        QVERIFY(!keys[1].suspected_by.has_value());
        QVERIFY(!state.people.at(history.ada.id).keys[0].suspected_by.has_value());
    }

    void instrumentsAndTheirChecks()
    {
        test::History history;
        history.add(Kind::InstrumentEnrolled,
            payload({{"instrument", "M-1"}, {"type", "gas-meter"}, {"attributes", payload({{"sensor", "catalytic"}})},
                {"calibrated_until", 5}}),
            &history.ada, "authoriser");
        history.add(Kind::InstrumentChecked, payload({{"instrument", "M-1"}, {"outcome", "passed"}}), &history.ben, "gas-tester");
        history.add(Kind::InstrumentChecked, payload({{"instrument", "M-1"}, {"outcome", "failed"}}), &history.ben, "gas-tester");
        history.add(Kind::InstrumentChecked, payload({{"instrument", "M-2"}, {"outcome", "passed"}}), &history.ben, "gas-tester");
        const auto state = stateOf(history);
        QCOMPARE(state.instruments.size(), std::size_t(1));
        const auto& meter = state.instruments.at("M-1");
        QCOMPARE(meter.type, std::string("gas-meter"));
        QCOMPARE(meter.attributes.textOf("sensor"), std::string_view("catalytic"));
        QCOMPARE(meter.calibrated_until_ms, std::int64_t(5));
        QCOMPARE(meter.bumps.size(), std::size_t(2));
        QVERIFY(meter.bumps[0].passed && !meter.bumps[1].passed);
    }

    // The founder adopts alone, later packs count when another person has confirmed them.
    void packsInForce()
    {
        test::History history;
        const Hash first = canon::sha256("one");
        const Hash second = canon::sha256("two");
        history.add(Kind::PackAdopted, packOf(first, ""), &history.ada, "authoriser");
        QCOMPARE(stateOf(history).pack->hash, first);
        QCOMPARE(stateOf(history).pack->overlays.size(), std::size_t(1));
        QCOMPARE(stateOf(history).pack->overlays.front().id, std::string("north"));
        QCOMPARE(stateOf(history).pack->overlays.front().hash, canon::sha256("north"));
        QCOMPARE(*stateOf(history).pack->overlays.front().file, canon::sha256("text"));
        const Hash proposed = history.add(Kind::PackAdopted, packOf(second, "north"), &history.ada, "authoriser");
        QCOMPARE(stateOf(history).pack->hash, first);
        history.add(Kind::Confirmed, payload({{"confirms", canon::toHex(proposed)}}), &history.ada, "authoriser");
        QCOMPARE(stateOf(history).pack->hash, first);
        history.add(Kind::Confirmed, payload({{"confirms", canon::toHex(proposed)}}), &history.ben, "gas-tester");
        const auto state = stateOf(history);
        QCOMPARE(state.pack->hash, second);
        QCOMPARE(state.pack->law, std::string("north"));
        QCOMPARE(state.pack->entry, proposed);
        // each rules from its own moment: the second from its confirmation
        QCOMPARE(state.adoptions.size(), std::size_t(2));
        QCOMPARE(state.adoptions.front().hash, first);
        const auto lines = history.lines();
        QCOMPARE(state.adoptions.back().from.wall_ms, lines.back().entry.at.wall_ms);
    }

    void ages_data()
    {
        QTest::addColumn<bool>("same_boot");
        QTest::addColumn<bool>("then_confirmed");
        QTest::addColumn<bool>("now_confirmed");
        QTest::addColumn<qint64>("wall_step"); // how the wall clock moved between
        QTest::addColumn<qint64>("boot_step");
        QTest::addColumn<qint64>("age"); // -1: unknown
        QTest::newRow("one boot") << true << false << false << qint64(5000) << qint64(5000) << qint64(5000);
        QTest::newRow("one boot, wall clock forward a year")
            << true << false << false << qint64(31'536'000'000) << qint64(5000) << qint64(5000);
        QTest::newRow("one boot, wall clock back") << true << true << true << qint64(-9000) << qint64(5000) << qint64(5000);
        QTest::newRow("one boot, backwards") << true << false << false << qint64(5000) << qint64(-1) << qint64(-1);
        QTest::newRow("two boots, both confirmed") << false << true << true << qint64(3'600'000) << qint64(0) << qint64(3'600'000);
        QTest::newRow("two boots, the first not") << false << false << true << qint64(3'600'000) << qint64(0) << qint64(-1);
        QTest::newRow("two boots, the second not") << false << true << false << qint64(3'600'000) << qint64(0) << qint64(-1);
        QTest::newRow("two boots, neither") << false << false << false << qint64(3'600'000) << qint64(0) << qint64(-1);
        QTest::newRow("two boots, confirmed backwards") << false << true << true << qint64(-1) << qint64(0) << qint64(-1);
        QTest::newRow("the same moment") << true << true << true << qint64(0) << qint64(0) << qint64(0);
    }
    void ages()
    {
        QFETCH(bool, same_boot);
        QFETCH(bool, then_confirmed);
        QFETCH(bool, now_confirmed);
        QFETCH(qint64, wall_step);
        QFETCH(qint64, boot_step);
        QFETCH(qint64, age);
        const ledger::Moment then{1'000'000'000, 70'000, people::randomId<BootId>(), ledger::ClockState::Ok};
        ledger::Moment now{then.wall_ms + wall_step, then.boot_ms + boot_step, then.boot, ledger::ClockState::Ok};
        ledger::YardState state;
        if (then_confirmed) {
            state.boots[then.boot] = {then.wall_ms - 20'000, then.boot_ms - 20'000};
        }
        if (!same_boot) {
            now.boot = people::randomId<BootId>();
            now.boot_ms = 12'000;
            if (now_confirmed) {
                state.boots[now.boot] = {now.wall_ms - 2'000, 10'000};
            }
        }
        const auto found = ledger::ageMs(state, then, now);
        QCOMPARE(qint64(found.value_or(-1)), age);
    }

    // 40,000 random clock histories: an age is never less than the time that really passed.
    void neverFalselyFresh()
    {
        std::mt19937_64 random(9);
        const auto upTo = [&](std::int64_t limit) { return std::uniform_int_distribution<std::int64_t>(0, limit)(random); };
        int known = 0;
        for (int i = 0; i < 40'000; ++i) {
            ledger::YardState state;
            std::int64_t real = 1'700'000'000'000;
            std::int64_t wall_error = upTo(1'000'000'000) - 500'000'000;
            std::int64_t boot_at = real - upTo(1'000'000);
            BootId boot{};
            boot.value[0] = 1;
            std::vector<std::pair<std::int64_t, ledger::Moment>> moments;
            for (int step = 0; step < 6; ++step) {
                real += upTo(10'000'000);
                if (upTo(3) == 0) { // a restart
                    boot.value[0] = static_cast<std::uint8_t>(boot.value[0] + 1);
                    boot_at = real;
                }
                if (upTo(3) == 0) { // somebody sets the clock, either way
                    wall_error = upTo(1'000'000'000) - 500'000'000;
                }
                if (upTo(2) == 0) { // a person says the right time
                    state.boots[boot] = {real, real - boot_at};
                }
                moments.emplace_back(real, ledger::Moment{real + wall_error, real - boot_at, boot, ledger::ClockState::Ok});
            }
            for (const auto& [then_real, then] : moments) {
                const auto age = ledger::ageMs(state, then, moments.back().second);
                known += age ? 1 : 0;
                QVERIFY(!age || *age == real - then_real);
            }
        }
        QVERIFY(known > 60'000);
    }

    void nonsenseChangesNothing()
    {
        test::History history;
        const auto before = stateOf(history).people.size();
        const auto time = stateOf(history).trueTime({0, 600'000, history.boot, ledger::ClockState::Ok});
        QCOMPARE(time, std::optional(test::History::kStart + 600'000));
        for (const Kind kind : {Kind::PersonEnrolled, Kind::RoleGranted, Kind::RoleEnded, Kind::KeySuspected, Kind::DeviceEnrolled,
                 Kind::InstrumentChecked, Kind::PackAdopted, Kind::Confirmed, Kind::TimeConfirmed}) {
            history.add(kind, Json::object(), &history.ada, "authoriser");
        }
        const auto state = stateOf(history);
        QCOMPARE(state.people.size(), before);
        QCOMPARE(state.devices.size(), std::size_t(1));
        QVERIFY(!state.pack.has_value());
        QCOMPARE(state.trueTime({0, 600'000, history.boot, ledger::ClockState::Ok}), time);
        QVERIFY(state.holdsRole(history.ben.id, "gas-tester", test::History::kStart));
    }
};
BRIMFUL_SUITE(YardStateTest);

#include "yard_state_test.moc"
