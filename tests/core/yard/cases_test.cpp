// The demo and the pack's own cases, played through the real use cases.
#include "tests/core/yard/played_yard.h"
#include "tests/support/suite.h"

#include <QTest>

using namespace brimful;

namespace {

canon::Json act(const char* text) { return *canon::read(text, canon::Dialect::Subset); }

// The case of a whole life as far as the first sweep of what was hot; what comes then is the test's own.
class FirstSwept {
public:
    FirstSwept()
    {
        m_life = *canon::read(rules::shippedFile("cases/base/01-whole-life.json"), canon::Dialect::Subset);
        const std::vector<canon::Json> all = m_life.find("do")->items;
        const auto swept = std::ranges::find_if(
            all, [](const canon::Json& one) { return one.textOf("step") == "sweep" && one.textOf("vessel") == "T-1"; });
        if (swept == all.end()) {
            qFatal("nobody sweeps");
        }
        m_done.assign(all.begin(), swept + 1);
    }

    [[nodiscard]] const canon::Json& sweep() const { return m_done.back(); }

    void play(const std::vector<canon::Json>& more, const std::filesystem::path& where) const
    {
        canon::Json acts = canon::Json::array();
        acts.items = m_done;
        acts.items.insert(acts.items.end(), more.begin(), more.end());
        canon::Json scenario = m_life;
        scenario.set("do", acts);
        if (!yard::play(scenario, where, test::kStart)) {
            qFatal("not played");
        }
    }

private:
    canon::Json m_life;
    std::vector<canon::Json> m_done;
};

std::filesystem::path yardIn(const QTemporaryDir& folder) { return (folder.path() + QStringLiteral("/yard")).toStdString(); }

} // namespace

class CasesTest : public QObject {
    Q_OBJECT

private slots:
    void packLoads()
    {
        for (const rules::PackSource& source : rules::shippedPacks()) {
            if (source.files.at("pack.json").find("\"extends\"") != std::string::npos) {
                continue; // an overlay stands on another; the proofs load them
            }
            const auto pack = rules::load(source, {});
            QVERIFY2(pack,
                pack ? ""
                     : (pack.error().front().file + ":" + std::to_string(pack.error().front().line) + " " + pack.error().front().path)
                           .c_str());
        }
    }

    void standAsExpected_data()
    {
        QTest::addColumn<QString>("path");
        for (const std::string& path : rules::shippedFiles("cases/")) {
            QTest::newRow(path.c_str()) << QString::fromStdString(path);
        }
    }
    void standAsExpected()
    {
        QFETCH(const QString, path);
        const auto scenario = canon::read(rules::shippedFile(path.toStdString()), canon::Dialect::Subset);
        QVERIFY(scenario);
        const QTemporaryDir folder;
        const auto played = yard::play(*scenario, (folder.path() + QStringLiteral("/yard")).toStdString());
        QVERIFY2(played, played ? "" : (played.error().path + " " + played.error().found).c_str());
        for (const yard::Unmet& unmet : played->unmet) {
            qWarning("act %zu, %s: expected %s; found %s", unmet.act, unmet.vessel.c_str(), unmet.expected.c_str(), unmet.found.c_str());
        }
        QCOMPARE(played->unmet.size(), std::size_t{0});
    }

    // Expectations must be able to fail: the same scenario with one of them turned round does.
    void noticesAWrongExpectation()
    {
        canon::Json scenario = test::demoScenario();
        scenario.set("expect", test::json(R"([{"vessel": "NQ-05", "state": "released"}])"));
        const QTemporaryDir folder;
        const auto played = yard::play(scenario, (folder.path() + QStringLiteral("/yard")).toStdString(), test::kStart);
        QVERIFY(played);
        QCOMPARE(played->unmet.size(), std::size_t{1});
    }

    void demoShowsEachKindOfVessel()
    {
        const QTemporaryDir folder;
        const std::filesystem::path where = (folder.path() + QStringLiteral("/yard")).toStdString();
        test::makeDemo(where);
        const auto clock = yard::systemClock();
        auto yard = yard::Yard::open(where, yard::Access::ReadOnly, *clock);
        QVERIFY(yard);
        const auto board = yard->board();
        QVERIFY(board);
        QCOMPARE(board->size(), std::size_t{8});
        std::map<std::string, report::PlateWord> words;
        for (const report::BoardRow& row : *board) {
            words[row.view->number] = row.view->word;
        }
        QCOMPARE(words["NQ-01"], report::PlateWord::Released);
        QCOMPARE(words["NQ-02"], report::PlateWord::Held);
        QCOMPARE(words["NQ-03"], report::PlateWord::Draining);
        QCOMPARE(words["NQ-04"], report::PlateWord::Held);
        QCOMPARE(words["NQ-05"], report::PlateWord::Refused);
        QCOMPARE(words["NQ-06"], report::PlateWord::Refused);
        QCOMPARE(words["NQ-07"], report::PlateWord::Held);
        QCOMPARE(words["NQ-08"], report::PlateWord::ClosedOut);

        const auto released = yard->audit("NQ-01", "first-cut");
        QVERIFY(released && released->released && released->blockers.empty());
        const auto held = yard->audit("NQ-02", "first-cut");
        QVERIFY(held && !held->released);
        QVERIFY(!held->blockers.empty());
        for (const report::BlockerShown& blocker : held->blockers) { // held for one honest reason, whichever rules it touches
            QCOMPARE(blocker.status, std::string("lapsed"));
            QCOMPARE(blocker.needed, std::string("readings-wet"));
        }
        // As if it were tomorrow, the release is over and the audit says so.
        const auto tomorrow = yard->audit("NQ-01", "first-cut", clock->now().wall_ms + 86'400'000);
        QVERIFY(tomorrow && !tomorrow->released && !tomorrow->blockers.empty());
    }

    // From the end of a heat release until a watch is signed the plate says so, and the clock counts the hour that NFPA 51B (2019)
    // asks for.
    void heatIsWatched()
    {
        constexpr std::int64_t kHourMs = 3'600'000;
        constexpr std::int64_t kQuarterMs = 15 * 60'000;
        auto life = *canon::read(rules::shippedFile("cases/base/01-whole-life.json"), canon::Dialect::Subset);
        const std::vector<canon::Json> all = life.find("do")->items;
        const auto named = [](const char* key, const char* value) {
            return [=](const canon::Json& act) { return act.textOf(key) == value && act.textOf("vessel") == "T-1"; };
        };
        const auto ended = std::ranges::find_if(all, named("event", "watch-ended"));
        const auto swept = std::ranges::find_if(ended, all.end(), named("step", "sweep"));
        const auto signed_off = std::ranges::find_if(ended, all.end(), named("step", "fire-watch"));
        QVERIFY(ended != all.end() && swept != all.end() && signed_off != all.end());
        const auto seen = [&](std::vector<canon::Json>::const_iterator end, std::int64_t later_ms) {
            canon::Json acts = canon::Json::array();
            acts.items.assign(all.begin(), end);
            canon::Json scenario = life;
            scenario.set("do", acts);
            const QTemporaryDir folder;
            const std::filesystem::path where = (folder.path() + QStringLiteral("/yard")).toStdString();
            if (!yard::play(scenario, where, test::kStart)) {
                qFatal("not played");
            }
            const yard::ScriptedClock clock(yard::systemClock()->now());
            auto yard = yard::Yard::open(where, yard::Access::ReadOnly, clock);
            return *yard->vessel("T-1", test::kStart + later_ms);
        };
        QCOMPARE(seen(ended, 0).word, report::PlateWord::Released);
        const report::VesselView watched = seen(ended + 1, 0);
        QCOMPARE(watched.word, report::PlateWord::FireWatch);
        QVERIFY(watched.watch && watched.clock && !watched.clock->past);
        QCOMPARE(watched.watch->since_ms, test::kStart);
        QCOMPARE(watched.watch->ends_ms, test::kStart + kHourMs);
        QCOMPARE(watched.watch->next_sweep_ms, test::kStart); // at once, and told of when a quarter of an hour is gone
        QCOMPARE(watched.clock->what, std::string("sweep"));
        QCOMPARE(watched.clock->at_ms, test::kStart + kQuarterMs);
        const report::VesselView once = seen(swept + 1, 0);
        QVERIFY(once.watch && once.clock);
        QCOMPARE(once.watch->sweeps.size(), std::size_t{1});
        QCOMPARE(once.watch->sweeps.front().cool, std::size_t{5});
        QCOMPARE(once.watch->sweeps.front().places, std::size_t{5});
        QCOMPARE(once.clock->what, std::string("sweep"));
        QCOMPARE(once.clock->at_ms, test::kStart + kQuarterMs);
        const report::VesselView all_swept = seen(signed_off, 0); // three of them, and an hour has gone
        QVERIFY(all_swept.watch && all_swept.clock);
        QCOMPARE(all_swept.watch->sweeps.size(), std::size_t{3});
        QCOMPARE(all_swept.clock->what, std::string("watch"));
        const report::VesselView over = seen(signed_off, kHourMs);
        QCOMPARE(over.word, report::PlateWord::FireWatch); // until somebody signs that it was done
        QVERIFY(over.clock && over.clock->past);
        const report::VesselView done = seen(signed_off + 1, 0);
        QVERIFY(done.word != report::PlateWord::FireWatch && !done.watch);
    }

    // Who took the watch over is named on it, and watches over no other vessel until its hour is over.
    void aWatchIsHandedOn()
    {
        constexpr std::int64_t kHourMs = 3'600'000;
        const FirstSwept first;
        const canon::Json other = act(R"({"act": "admit", "number": "T-2", "by": "Ines"})");
        const canon::Json ready = act(
            R"({"act": "record", "vessel": "T-2", "step": "ready-to-cut", "like": "example", "by": "Ines", "with": "Jon", "facts": {"watcher": "Ines"}})");
        const canon::Json told = act(
            R"({"act": "record", "vessel": "T-1", "step": "hand-on-watch", "like": "example", "by": "Jon", "with": "Ines", "facts": {"watcher": "Ines", "shown": "told-only"}})");
        const canon::Json shown = act(
            R"({"act": "record", "vessel": "T-1", "step": "hand-on-watch", "like": "example", "by": "Jon", "with": "Ines", "facts": {"watcher": "Ines"}})");
        struct Seen {
            std::string watcher;
            bool busy{};
        };
        const auto seen = [&](std::vector<canon::Json> more, std::int64_t later_ms) {
            more.insert(more.begin(), {other, ready});
            const QTemporaryDir folder;
            const std::filesystem::path where = yardIn(folder);
            first.play(more, where);
            // The clock goes on from where people confirmed it.
            const auto system = yard::systemClock();
            const auto [boot, confirmed] = *yard::Yard::open(where, yard::Access::ReadOnly, *system)->state().boots.begin();
            const std::int64_t at_ms = test::kStart + later_ms;
            const yard::ScriptedClock clock({at_ms, confirmed.boot_ms + at_ms - confirmed.wall_ms, boot, ledger::ClockState::Confirmed});
            auto yard = yard::Yard::open(where, yard::Access::ReadOnly, clock);
            const report::VesselView view = *yard->vessel("T-1");
            const auto folded = yard->folded("T-2");
            const rules::Index named = yard->pack().fact("ready-to-cut.watcher");
            return Seen{
                view.watch ? view.watch->watcher : std::string("no watch"), folded->evidence.facts[named].lack == rules::Lack::WrongPerson};
        };
        const Seen before = seen({}, 0); // whom the record before the heat named
        QCOMPARE(QString::fromStdString(before.watcher), QStringLiteral("Jon"));
        QVERIFY(!before.busy);
        const Seen only_told = seen({told}, 0);
        QCOMPARE(QString::fromStdString(only_told.watcher), QStringLiteral("Jon"));
        QVERIFY(!only_told.busy);
        const Seen handed_on = seen({shown}, 0);
        QCOMPARE(QString::fromStdString(handed_on.watcher), QStringLiteral("Ines"));
        QVERIFY(handed_on.busy);
        QVERIFY(!seen({shown}, 2 * kHourMs).busy);
    }

    // Whoever watches and leaves ends the watch (that the clock starts again: proposal): it begins again with who takes it
    // over or sweeps, for a whole hour.
    void aWatchThatIsLeftBeginsAgain()
    {
        constexpr std::int64_t kMinute = 60'000;
        const FirstSwept first;
        const canon::Json wait = act(R"({"wait": "20 min"})");
        const canon::Json left = act(R"({"act": "event", "vessel": "T-1", "event": "person-left"})");
        const canon::Json ended = act(R"({"act": "event", "vessel": "T-1", "event": "watch-ended"})");
        const canon::Json over = act(
            R"({"act": "record", "vessel": "T-1", "step": "hand-on-watch", "like": "example", "by": "Jon", "with": "Ines", "facts": {"watcher": "Ines"}})");
        // Minutes from the last act to the end of the watch; nothing: nobody watches, so it does not come nearer.
        struct Seen {
            std::optional<std::int64_t> left_min;
            std::int64_t ends_min;
            std::size_t sweeps;
            QString watcher;
        };
        const auto seen = [&](const std::vector<canon::Json>& more) {
            const QTemporaryDir folder;
            const std::filesystem::path where = yardIn(folder);
            first.play(more, where);
            const auto system = yard::systemClock();
            auto yard = yard::Yard::open(where, yard::Access::ReadOnly, *system);
            const ledger::Moment last = yard->folded("T-1")->lines.back().entry.at;
            const yard::ScriptedClock clock(last);
            yard = yard::Yard::open(where, yard::Access::ReadOnly, clock);
            const report::VesselView view = *yard->vessel("T-1");
            if (!view.watch) {
                qFatal("no watch");
            }
            const auto ago = [&](std::int64_t at_ms) {
                return (at_ms - view.now_ms + (at_ms < view.now_ms ? -kMinute : kMinute) / 2) / kMinute;
            };
            return Seen{view.watch->left_ms ? std::optional(ago(*view.watch->left_ms)) : std::nullopt, ago(view.watch->ends_ms),
                view.watch->sweeps.size(), QString::fromStdString(view.watch->watcher)};
        };
        const Seen went_on = seen({ended, first.sweep(), wait, first.sweep()});
        QVERIFY(!went_on.left_min);
        QCOMPARE(went_on.ends_min, 40);
        QCOMPARE(went_on.sweeps, 2U);

        const Seen gone = seen({ended, first.sweep(), wait, left});
        QCOMPARE(gone.left_min, std::optional<std::int64_t>(0));
        QCOMPARE(gone.sweeps, 0U); // that of before counts no more
        QCOMPARE(gone.watcher, QString());

        const canon::Json whole_day = act(R"({"wait": "12 h"})"); // the release runs out, no event ends it
        const Seen after_it_ran_out = seen({whole_day, first.sweep(), wait, left});
        QCOMPARE(after_it_ran_out.left_min, std::optional<std::int64_t>(0));
        QCOMPARE(after_it_ran_out.sweeps, 0U);

        const Seen again = seen({ended, first.sweep(), wait, left, wait, over});
        QVERIFY(!again.left_min);
        QCOMPARE(again.ends_min, 60);
        QCOMPARE(again.watcher, QStringLiteral("Ines"));

        const Seen by_sweep = seen({ended, first.sweep(), wait, left, wait, first.sweep()});
        QVERIFY(!by_sweep.left_min);
        QCOMPARE(by_sweep.ends_min, 60);
        QCOMPARE(by_sweep.sweeps, 1U);
    }

    // A watch signed sooner after it was left, or begun again, than half of the hour that it says is asked about.
    void aWatchSignedTooSoonIsAskedAbout()
    {
        const FirstSwept first;
        const canon::Json ended = act(R"({"act": "event", "vessel": "T-1", "event": "watch-ended"})");
        const canon::Json left = act(R"({"act": "event", "vessel": "T-1", "event": "person-left"})");
        const canon::Json wait = act(R"({"wait": "20 min"})");
        const canon::Json watched = act(R"({"act": "record", "vessel": "T-1", "step": "fire-watch", "like": "example", "by": "Jon"})");
        const canon::Json sweep = first.sweep();
        // How long the watch took of which the yard asks, in minutes, and after which event; nothing: it does not ask.
        const auto asked = [&](const std::vector<canon::Json>& more) -> std::optional<std::pair<std::int64_t, std::string>> {
            const QTemporaryDir folder;
            first.play(more, yardIn(folder));
            const auto system = yard::systemClock();
            auto yard = yard::Yard::open(yardIn(folder), yard::Access::ReadOnly, *system);
            const auto questions = yard->toAsk();
            const rules::Index step = yard->pack().step("fire-watch");
            for (const report::Question& one : questions->questions) {
                if (one.what == report::Question::What::SoonerThanItSays && one.steps == std::vector<rules::Index>{step}) {
                    const bool event = one.after_event != rules::kNone;
                    return std::pair((one.took_ms + 30'000) / 60'000, event ? yard->pack().events[one.after_event].id : std::string());
                }
            }
            return std::nullopt;
        };
        QCOMPARE(asked({ended, sweep, wait, sweep, wait, sweep, wait, watched}), std::nullopt);
        using Asked = std::optional<std::pair<std::int64_t, std::string>>;
        QVERIFY((asked({ended, sweep, wait, sweep, wait, left, sweep, wait, watched}) == Asked({20, "person-left"})));
        QCOMPARE(asked({ended, sweep, wait, left, sweep, wait, sweep, wait, sweep, wait, watched}), std::nullopt);
    }
};

BRIMFUL_SUITE(CasesTest);
#include "cases_test.moc"
