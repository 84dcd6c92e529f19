// The yard's list that is kept between looks against one that is read whole: after whatever happened, both say the same.
#include "tests/core/yard/played_yard.h"
#include "tests/support/suite.h"

#include <QTest>

#include <algorithm>
#include <limits>
#include <random>

using namespace brimful;

namespace {

constexpr std::uint64_t kAll = std::numeric_limits<std::uint64_t>::max();
constexpr std::int64_t kMinute = 60'000;
constexpr std::uint64_t kSeed = 20'261'128;

constexpr const char* kReadings = R"({"fresh-gas": "0 %LEL", "fresh-oxygen": "20.9 %", "set": [
    {"name": "vent", "gas": "0 %LEL", "oxygen": "20.9 %"}, {"name": "cut", "gas": "0 %LEL", "oxygen": "20.9 %"},
    {"name": "ground", "gas": "0 %LEL", "oxygen": "20.9 %"}, {"name": "low-left", "gas": "0 %LEL", "oxygen": "20.9 %"},
    {"name": "low-right", "gas": "0 %LEL", "oxygen": "20.9 %"}]})";

// What a row shows, as one line.
std::string told(const report::BoardRow& row)
{
    const report::VesselView& view = *row.view;
    std::string out = view.number + " read " + std::to_string(int(row.read)) + " need " + std::to_string(row.need) + " word "
        + std::to_string(int(view.word)) + " signal " + std::to_string(int(view.signal)) + " state "
        + std::to_string(int(view.standing.state)) + " until " + std::to_string(view.standing.until_ms) + " entries "
        + std::to_string(view.entries);
    if (view.clock) {
        out += " clock " + view.clock->what + " " + std::to_string(view.clock->at_ms) + (view.clock->past ? " past" : "");
    }
    for (const rules::Next& next : view.standing.next) {
        out += " next " + std::to_string(int(next.what)) + "/" + std::to_string(next.index);
    }
    for (const rules::Blocker& one : view.standing.blockers) {
        out += " blocked " + std::to_string(one.rule) + "/" + std::to_string(int(one.status));
    }
    return out;
}

std::vector<std::string> told(const yard::Outcome<std::vector<report::BoardRow>>& rows)
{
    std::vector<std::string> out;
    for (const report::BoardRow& row : *rows) {
        out.push_back(told(row));
    }
    return out;
}

} // namespace

class BoardTest : public QObject {
    Q_OBJECT

    QTemporaryDir m_folder;
    std::filesystem::path m_where;
    std::optional<yard::ScriptedClock> m_clock;

    [[nodiscard]] yard::Yard open(yard::Access access = yard::Access::ReadWrite) const
    {
        auto opened = yard::Yard::open(m_where, access, *m_clock);
        if (!opened) {
            qFatal("the demo does not open");
        }
        return std::move(*opened);
    }

private slots:
    void init()
    {
        m_where = (m_folder.path() + QStringLiteral("/yard")).toStdString();
        std::filesystem::remove_all(m_where);
        test::makeDemo(m_where);
        m_clock.emplace(yard::systemClock()->now());
    }

    // What there was no time for is held, has its number and nothing else; read one by one it becomes the whole list.
    void notReadIsHeld()
    {
        auto yard = open();
        const auto nothing = yard.glance(0);
        QCOMPARE(nothing->size(), yard.vessels().size());
        for (const report::BoardRow& row : *nothing) {
            QVERIFY(!row.read);
            QCOMPARE(row.view->word, report::PlateWord::Held);
            QCOMPARE(row.view->signal, report::Signal::Danger);
            QVERIFY(row.view->standing.next.empty());
        }
        const auto some = yard.glance(1);
        QCOMPARE(std::ranges::count(*some, true, &report::BoardRow::read), 1);
        std::size_t read = 1;
        for (auto next = yard.readNext(); *next; next = yard.readNext()) {
            QVERIFY(++read <= yard.vessels().size());
        }
        QCOMPARE(read, yard.vessels().size());
        const auto all = yard.glance(0);
        QCOMPARE(told(all), told(yard.board()));
    }

    // A watch of which nothing says when its heat ended begins anew at each moment; reading the yard comes to its end all the same.
    void aWatchThatMovesOnIsReadOnce()
    {
        canon::Json life = *canon::read(rules::shippedFile("cases/base/01-whole-life.json"), canon::Dialect::Subset);
        const std::vector<canon::Json> all = life.find("do")->items;
        const auto heat =
            std::find_if(all.rbegin(), all.rend(), [](const canon::Json& act) { return act.textOf("hold_point") == "hot-work"; });
        canon::Json acts = canon::Json::array();
        acts.items.assign(all.begin(), heat.base());
        acts.items.push_back(test::json(R"({"wait": "2 h"})")); // its gas log lapses, no event ends it
        acts.items.push_back(test::json(R"({"act": "admit", "number": "T-2", "by": "Ines"})"));
        life.set("do", acts);
        const QTemporaryDir folder;
        const auto where = std::filesystem::path((folder.path() + QStringLiteral("/yard")).toStdString());
        QVERIFY(yard::play(life, where, test::kStart));
        const auto system = yard::systemClock();
        const ledger::Moment last = yard::Yard::open(where, yard::Access::ReadOnly, *system)->folded("T-2")->lines.back().entry.at;
        yard::ScriptedClock clock(last);
        auto yard = yard::Yard::open(where, yard::Access::ReadOnly, clock);
        const auto watched = yard->vessel("T-1");
        QVERIFY(watched->watch && watched->watch->since_ms == watched->now_ms);
        std::size_t read = 0;
        for (auto next = yard->readNext(); *next && read < 10; next = yard->readNext()) {
            ++read;
        }
        QVERIFY2(read <= yard->vessels().size(), qPrintable(QString::number(read)));
        QVERIFY(yard->seen("T-1") != nullptr);
        clock.wait(1000);
        QCOMPARE(yard->seen("T-1"), nullptr);
    }

    // Long work says how far it has come, and comes to its end.
    void tellsHowFarItIs()
    {
        auto yard = open();
        std::vector<std::uint64_t> told_of;
        const auto heard = [&](std::uint64_t done, std::uint64_t of) {
            told_of.push_back(done);
            QCOMPARE(of, std::uint64_t{yard.vessels().size()});
        };
        QVERIFY(yard.board(std::nullopt, heard));
        QCOMPARE(told_of.size(), yard.vessels().size());
        QVERIFY(std::ranges::is_sorted(told_of));
        QCOMPARE(told_of.back(), std::uint64_t{yard.vessels().size()});
    }

    // Nothing is read again that cannot have changed.
    void whatDidNotChangeIsKept()
    {
        auto yard = open();
        const auto before = yard.glance(kAll);
        const std::string number = before->front().view->number;
        QVERIFY(yard.event(number, "moved", {}));
        const auto after = yard.glance(kAll);
        for (const report::BoardRow& row : *after) {
            const bool same = std::ranges::any_of(*before, [&](const report::BoardRow& one) { return one.view == row.view; });
            QCOMPARE(same, row.view->number != number);
        }
    }

    // What recording has found is what a fresh look finds; whatever happens after it, nothing is kept that no longer holds.
    void whatWasRecordedIsSeen()
    {
        test::Crew crew;
        auto yard = crew.open();
        QVERIFY(yard.admit(test::json(R"({"number": "A-1"})"), crew.tam));
        QCOMPARE(yard.seen("A-2"), nullptr);
        QVERIFY(yard.checkInstrument({"M-1", "49 %LEL", "50 %LEL", {}}, crew.ada));
        const yard::RecordRequest readings{"A-1", "readings-wet", test::json(kReadings), "M-1", {}, {}};
        QVERIFY(yard.record(readings, crew.ada));
        const auto seen = yard.seen("A-1");
        QVERIFY(seen != nullptr);
        QCOMPARE(seen->entries, 2U);
        QCOMPARE(seen->now_ms, crew.clock.now().wall_ms);
        QCOMPARE(
            told(report::BoardRow{seen, 0}), told(report::BoardRow{std::make_shared<const report::VesselView>(*yard.vessel("A-1")), 0}));
        crew.clock.wait(14 * kMinute);
        QVERIFY(yard.seen("A-1") != nullptr);
        crew.clock.wait(kMinute);
        QCOMPARE(yard.seen("A-1"), nullptr); // a look is kept for a quarter of an hour
        QVERIFY(yard.record(readings, crew.ada));
        QVERIFY(yard.seen("A-1") != nullptr);
        QVERIFY(yard.event("A-1", "moved", {}));
        QCOMPARE(yard.seen("A-1"), nullptr);
        QVERIFY(yard.record(readings, crew.ada));
        auto other = crew.reopen();
        QVERIFY(other.event("A-1", "moved", {}));
        QCOMPARE(yard.seen("A-1"), nullptr); // another program wrote
        QVERIFY(yard.record(readings, crew.ada));
        crew.clock.reboot(60'000);
        QCOMPARE(yard.seen("A-1"), nullptr); // which clock this is has to be confirmed
    }

    // What another program wrote just before an own entry is not passed over: of the yard, of this vessel, of another.
    void anotherProgramsEntryBeforeAnOwnOneIsRead()
    {
        auto yard = open();
        const std::vector<std::string> numbers = yard.vessels();
        (void)yard.glance(kAll);
        const auto sameAsFresh = [&] {
            auto fresh = open(yard::Access::ReadOnly);
            return told(yard.glance(kAll)) == told(fresh.board());
        };
        auto other = open();
        QVERIFY(other.event(numbers[1], "smoke", {}));
        QVERIFY(yard.event(numbers[0], "moved", {}));
        QVERIFY(sameAsFresh());
        QVERIFY(other.event(numbers[0], "smoke", {}));
        QVERIFY(yard.event(numbers[0], "moved", {}));
        QVERIFY(sameAsFresh());
        const yard::Signing tam{"Tam", "916472", {}};
        QVERIFY(other.admit(test::json(R"({"number": "NQ-77"})"), tam));
        QVERIFY(yard.event(numbers[0], "moved", {}));
        QVERIFY(sameAsFresh());
        QCOMPARE(yard.vessels().size(), numbers.size() + 1);
    }

    // Time passes, things happen on this tablet and by another program, the clock loses its trust: after each the kept list says what
    // a yard says that was opened just now.
    void saysWhatAFreshLookSays()
    {
        std::mt19937_64 dice(kSeed + static_cast<std::uint64_t>(qEnvironmentVariableIntValue("RANDOM_SEED")));
        const auto upTo = [&](std::size_t count) { return static_cast<std::size_t>(dice() % count); };
        auto yard = open();
        const std::vector<std::string> numbers = yard.vessels();
        const auto& events = yard.pack().events;
        (void)yard.glance(kAll);
        std::size_t changed = 0;
        std::vector<std::string> last;
        for (int i = 0; i < 80; ++i) {
            switch (upTo(6)) {
            case 0:
                m_clock->wait(static_cast<std::int64_t>(1 + upTo(600)) * 1000);
                break;
            case 1:
                m_clock->wait(static_cast<std::int64_t>(1 + upTo(300)) * 60'000);
                break;
            case 2: { // another program on the same yard
                auto other = open();
                (void)other.event(numbers[upTo(numbers.size())], events[upTo(events.size())].id, {});
                break;
            }
            case 3:
                if (i % 10 == 9) {
                    m_clock->reboot(60'000);
                }
                break;
            default:
                (void)yard.event(numbers[upTo(numbers.size())], events[upTo(events.size())].id, {});
            }
            const auto kept = told(yard.glance(kAll));
            auto fresh = open(yard::Access::ReadOnly);
            const auto now = told(fresh.board());
            for (const std::string& row : now) {
                const auto same = std::ranges::find_if(kept, [&](const std::string& one) { return one.substr(0, 5) == row.substr(0, 5); });
                QVERIFY2(*same == row, qPrintable(QStringLiteral("step %1\nkept  %2\nfresh %3").arg(i).arg(same->c_str(), row.c_str())));
            }
            QCOMPARE(kept, now); // in the same order
            changed += kept != last ? 1U : 0U;
            last = kept;
        }
        QVERIFY(changed > 25); // there was something to miss
    }
};

BRIMFUL_SUITE(BoardTest);
#include "board_test.moc"
