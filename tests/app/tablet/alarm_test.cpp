// When the alarm rings and when it is quiet, what it sounds like, and that hearing it changes nothing of the record.
#include "app/tablet/alarm.h"

#include "app/tablet/tablet.h"
#include "core/yard/play.h"
#include "tests/app/tablet/demo_yard.h"
#include "tests/app/tablet/turned_clock.h"
#include "tests/support/suite.h"

#include <QTest>
#include <QtEndian>

using namespace brimful;
using tablet::Alarm;
using tablet::Tablet;
using test::Ear;
using test::TurnedClock;
using Clocks = std::vector<Alarm::Clock>;

namespace {

constexpr std::int64_t kMinute = 60'000;

const Alarm::Clock kCut{"NQ-01", "release", 10 * kMinute};
const Alarm::Clock kWatch{"NQ-05", "watch", 12 * kMinute};

// The case of a whole life, up to the end of heat: from now on it is watched.
void watchedYard(const std::filesystem::path& folder)
{
    canon::Json life = *canon::read(rules::shippedFile("cases/base/01-whole-life.json"), canon::Dialect::Subset);
    const std::vector<canon::Json> all = life.find("do")->items;
    const auto ended = std::ranges::find_if(all, [](const canon::Json& act) { return act.textOf("event") == "watch-ended"; });
    canon::Json acts = canon::Json::array();
    acts.items.assign(all.begin(), ended == all.end() ? ended : ended + 1);
    life.set("do", acts);
    const auto clock = yard::systemClock();
    const auto played = yard::play(life, folder, clock->now().wall_ms);
    const canon::Json& first = life.find("yard")->find("people")->items.front();
    auto yard = yard::Yard::open(folder, yard::Access::ReadWrite, *clock);
    if (!played || !yard
        || !yard->confirmClock(clock->now().wall_ms, {std::string(first.textOf("name")), std::string(first.textOf("pin")), {}})) {
        qFatal("not played");
    }
}

} // namespace

class AlarmTest : public QObject {
    Q_OBJECT

private slots:
    void quietUntilTimeRunsOut()
    {
        Alarm alarm;
        alarm.see({kCut, kWatch}, 0);
        QVERIFY(!alarm.ringing());
        alarm.see({kCut, kWatch}, 10 * kMinute - 1);
        QVERIFY(!alarm.ringing());
        alarm.see({kCut, kWatch}, 10 * kMinute);
        QCOMPARE(alarm.ringing(), std::optional(kCut));
    }

    // A lapsed release is none any more and leaves the list; it rings all the same until somebody heard it.
    void whatRanOutRingsUntilItIsHeard()
    {
        Alarm alarm;
        alarm.see({kCut}, 10 * kMinute);
        alarm.see({}, 11 * kMinute);
        alarm.see({}, 100 * kMinute);
        QVERIFY(alarm.ringing());
        alarm.hear(100 * kMinute);
        QVERIFY(!alarm.ringing());
        alarm.see({}, 200 * kMinute);
        QVERIFY(!alarm.ringing());
    }

    void workThatEndedInGoodTimeIsQuiet()
    {
        Alarm alarm;
        alarm.see({kCut}, 9 * kMinute);
        alarm.see({}, 9 * kMinute + 1);
        alarm.see({}, 20 * kMinute);
        QVERIFY(!alarm.ringing());
    }

    void doingWhatIsLateQuietsIt()
    {
        Alarm alarm;
        alarm.see({kWatch}, 12 * kMinute);
        QVERIFY(alarm.ringing());
        alarm.see({{"NQ-05", "watch", 27 * kMinute}}, 13 * kMinute);
        QVERIFY(!alarm.ringing());
        alarm.see({{"NQ-05", "watch", 27 * kMinute}}, 27 * kMinute);
        QVERIFY(alarm.ringing()); // and late a second time
    }

    // The last sweep of a watch is made: what runs now is the watch itself.
    void aSweepThatWasMadeQuietsItsWatch()
    {
        Alarm alarm;
        alarm.see({{"NQ-05", "sweep", 12 * kMinute}}, 12 * kMinute);
        QVERIFY(alarm.ringing());
        alarm.see({{"NQ-05", "watch", 27 * kMinute}}, 13 * kMinute);
        QVERIFY(!alarm.ringing());
        alarm.see({{"NQ-05", "release", 14 * kMinute}}, 14 * kMinute);
        alarm.see({{"NQ-05", "sweep", 29 * kMinute}}, 15 * kMinute);
        QVERIFY(alarm.ringing()); // that heat is over is not heard by itself
    }

    // Each is heard for itself, the longest late first; another vessel's new clock does not quiet it.
    void oneHearingIsForOneClock()
    {
        Alarm alarm;
        alarm.see({kWatch, kCut}, 12 * kMinute);
        QCOMPARE(alarm.ringing(), std::optional(kCut));
        alarm.hear(12 * kMinute);
        QCOMPARE(alarm.ringing(), std::optional(kWatch));
        alarm.see({kWatch, {"NQ-02", "watch", 60 * kMinute}}, 13 * kMinute);
        QCOMPARE(alarm.ringing(), std::optional(kWatch));
        alarm.hear(13 * kMinute);
        QVERIFY(!alarm.ringing());
        alarm.hear(13 * kMinute);
        QVERIFY(!alarm.ringing());
    }

    void heardAndStillLateRingsAgain()
    {
        Alarm alarm;
        alarm.see({kWatch}, 12 * kMinute);
        alarm.hear(12 * kMinute);
        alarm.see({kWatch}, 12 * kMinute + Alarm::kAgainMs - 1);
        QVERIFY(!alarm.ringing());
        alarm.see({kWatch}, 12 * kMinute + Alarm::kAgainMs);
        QVERIFY(alarm.ringing());
    }

    // What rings is not told of twice; what was heard and is still late is, but not to the vessel's own screen.
    void whatWasHeardIsToldOfUntilItRingsAgain()
    {
        Alarm alarm;
        alarm.see({kWatch}, 12 * kMinute);
        QVERIFY(!alarm.heard({}));
        alarm.hear(12 * kMinute);
        QCOMPARE(alarm.heard({}), std::optional(kWatch));
        QVERIFY(!alarm.heard(kWatch.number));
        alarm.putAside("NQ-02");
        QVERIFY(alarm.heard({}));
        alarm.putAside(kWatch.number);
        QVERIFY(!alarm.heard({}));
        alarm.see({kWatch}, 12 * kMinute + Alarm::kAgainMs);
        QVERIFY(alarm.ringing() && !alarm.heard({}));
        alarm.hear(20 * kMinute);
        QVERIFY(alarm.heard({})); // late a second time is told of a second time
        alarm.see({}, 20 * kMinute);
        QVERIFY(!alarm.heard({}));
    }

    void whatLapsesWithoutWorkMakesNoNoise()
    {
        QVERIFY(Alarm::isOfWork({"release", 0, true}));
        QVERIFY(Alarm::isOfWork({"watch", 0, true}));
        QVERIFY(Alarm::isOfWork({"sweep", 0, true}));
        QVERIFY(!Alarm::isOfWork({"step:brim", 0, true}));
    }

    // Header: "Multimedia Programming Interface and Data Specifications 1.0" (1991), RIFF/WAVE PCM, from memory. The pitch is counted
    // by crossings of zero, the loudness by the largest sample.
    void theSoundIsTwoTonesAndAPause()
    {
        const QByteArray wave = tablet::alarmWave();
        QCOMPARE(wave.left(4), QByteArray("RIFF"));
        QCOMPARE(qFromLittleEndian<quint32>(wave.constData() + 4), static_cast<quint32>(wave.size()) - 8);
        QCOMPARE(wave.mid(8, 8), QByteArray("WAVEfmt "));
        QCOMPARE(qFromLittleEndian<quint16>(wave.constData() + 20), quint16{1});
        QCOMPARE(qFromLittleEndian<quint32>(wave.constData() + 24), quint32{44100});
        QCOMPARE(wave.mid(36, 4), QByteArray("data"));
        QCOMPARE(qFromLittleEndian<quint32>(wave.constData() + 40), static_cast<quint32>(wave.size()) - 44);
        const auto sample = [&](int i) { return qFromLittleEndian<qint16>(wave.constData() + 44 + 2 * i); };
        const auto hertz = [&](double from_s, double to_s) {
            int crossings = 0;
            for (int i = static_cast<int>(from_s * 44100) + 1; i < static_cast<int>(to_s * 44100); ++i) {
                crossings += (sample(i - 1) < 0) != (sample(i) < 0) ? 1 : 0;
            }
            return crossings / 2.0 / (to_s - from_s);
        };
        QVERIFY(std::abs(hertz(0.05, 0.30) - tablet::kAlarmHigh) < 5);
        QVERIFY(std::abs(hertz(0.40, 0.65) - tablet::kAlarmLow) < 5);
        QVERIFY(tablet::kAlarmLow >= 500 && tablet::kAlarmHigh <= 2500);
        int loudest = 0;
        for (int i = 0; i < 44100 * 7 / 10; ++i) {
            loudest = std::max(loudest, std::abs(int{sample(i)}));
        }
        QVERIFY(loudest > 28000 && loudest <= 32767);
        QCOMPARE(int{sample(44100 * 8 / 10)}, 0);
    }

    // The demo's NQ-01 is released: when its time is over the tablet rings on whatever screen, says which, and what was heard changes
    // neither the standing nor the record.
    void theTabletRingsAndHearingChangesNothing()
    {
        const auto by = std::make_shared<std::int64_t>(0);
        const test::DemoYard demo;
        Tablet program(demo.folder(), std::make_unique<TurnedClock>(by));
        auto made = std::make_unique<Ear>();
        Ear* ear = made.get();
        program.setSounder(std::move(made));
        program.start();
        program.openVessel(QStringLiteral("NQ-07"));
        program.tick();
        QVERIFY(!ear->rings);
        QVERIFY(program.alarm().isEmpty());
        *by = 12 * 3600'000LL;
        program.tick();
        QVERIFY(ear->rings);
        QCOMPARE(program.alarm(), QStringLiteral("NQ-01: its time is over. Stop the work."));
        program.tick();
        program.tick();
        QVERIFY(ear->rings); // also after the record was read again, where the release is none any more
        const auto entries = program.session().yard().verify()->entries;
        QVERIFY(program.session().yard().vessel("NQ-01")->standing.state != rules::State::Released);
        program.hearAlarm();
        QVERIFY(!ear->rings);
        QVERIFY(program.alarm().isEmpty());
        program.tick();
        QVERIFY(!ear->rings);
        QCOMPARE(program.session().yard().verify()->entries, entries);
        QVERIFY(program.session().yard().vessel("NQ-01")->standing.state != rules::State::Released);
    }

    // Where it is over it is shown at once: the yard says no longer that it is released, the clock stands at nothing.
    void thePictureSaysItToo()
    {
        const auto by = std::make_shared<std::int64_t>(0);
        const test::DemoYard demo;
        Tablet program(demo.folder(), std::make_unique<TurnedClock>(by));
        program.start();
        *by = 12 * 3600'000LL;
        program.tick();
        for (int i = 0; i < program.yardPage()->count(); ++i) {
            const QModelIndex row = program.yardPage()->index(i);
            QVERIFY(row.data(tablet::YardPage::WordRole).toString() != text::plateWord(report::PlateWord::Released));
        }
        *by = 0;
        program.openVessel(QStringLiteral("NQ-01"));
        QCOMPARE(program.screen(), Tablet::View::Clock);
        QVERIFY(program.clockPage()->remaining() != QLatin1String("0:00"));
        *by = 12 * 3600'000LL;
        program.tick();
        QCOMPARE(program.clockPage()->remaining(), QStringLiteral("0:00"));
        QCOMPARE(program.clockPage()->gone(), 1.0);
    }

    // A pack of before there were sweeps: what is due is the end of its watch, and not before its time.
    void aWatchWithoutSweepsIsDueAtItsEnd()
    {
        const test::DemoYard demo;
        Tablet program(demo.folder());
        program.start();
        program.openVessel(QStringLiteral("NQ-01"));
        auto view = std::make_shared<report::VesselView>(*program.vesselPage()->view());
        view->word = report::PlateWord::FireWatch;
        view->watch = report::WatchView{view->now_ms, view->now_ms + 60 * kMinute, rules::kNever, rules::kNever, {}, {}};
        tablet::VesselPicture picture = program.vesselPage()->picture();
        picture.view = view;
        tablet::ClockPage& page = *program.clockPage();
        page.show(picture, program.session().pack(), program.session().reading);
        QCOMPARE(page.task(), QStringLiteral("End watch"));
        QCOMPARE(page.done(), QString());
        QVERIFY2(page.taskLine().startsWith(QLatin1String("due in ")), qPrintable(page.taskLine()));
    }

    // Whoever leaves a watch is told at once that nobody watches; the hour stands still.
    void aWatchThatIsLeftStandsStill()
    {
        const QTemporaryDir dir;
        const std::filesystem::path folder = (dir.path() + QStringLiteral("/yard")).toStdString();
        watchedYard(folder);
        const auto by = std::make_shared<std::int64_t>(0);
        Tablet program(folder, std::make_unique<TurnedClock>(by));
        program.start();
        program.openVessel(QStringLiteral("T-1"));
        QCOMPARE(program.screen(), Tablet::View::Clock);
        *by = 10 * kMinute;
        program.tick();
        tablet::ClockPage& page = *program.clockPage();
        const double gone = page.gone();
        QVERIFY(gone > 0.1 && gone < 0.9);
        QVERIFY(program.alarm().isEmpty());
        program.happened(QStringLiteral("person-left"));
        program.tick();
        QCOMPARE(program.screen(), Tablet::View::Clock);
        QCOMPARE(program.alarm(), QStringLiteral("T-1: nobody watches."));
        QCOMPARE(page.handOnLine(), QStringLiteral("nobody watches"));
        QVERIFY2(program.plate()->line().startsWith(QLatin1String("nobody watches since ")), qPrintable(program.plate()->line()));
        QCOMPARE(page.remaining(), QStringLiteral("1 h 00")); // the hour of NFPA 51B (2019), whole
        QCOMPARE(page.gone(), 0.0);
        *by = 90 * kMinute;
        program.tick();
        QCOMPARE(page.remaining(), QStringLiteral("1 h 00"));
        QCOMPARE(page.gone(), 0.0);
        QVERIFY(!page.over());
    }

    // A watch that nobody signed, seen from elsewhere: first the alarm tells it, then the band, never both.
    void aLateClockIsToldOnce()
    {
        const QTemporaryDir dir;
        const std::filesystem::path folder = (dir.path() + QStringLiteral("/yard")).toStdString();
        watchedYard(folder);
        const auto by = std::make_shared<std::int64_t>(0);
        Tablet program(folder, std::make_unique<TurnedClock>(by));
        program.start();
        program.setUp();
        program.tick();
        QVERIFY(program.alarm().isEmpty() && program.band().isEmpty());
        *by = 16 * kMinute; // not swept for a quarter of an hour
        program.tick();
        QCOMPARE(program.alarm(), QStringLiteral("T-1: sweep now."));
        QVERIFY(program.band().isEmpty());
        program.hearAlarm();
        QVERIFY(program.alarm().isEmpty());
        QVERIFY2(program.band().startsWith(QLatin1String("T-1: past its limit by 1 min")), qPrintable(program.band()));
        QCOMPARE(program.bandGoLabel(), QStringLiteral("Go to T-1"));
        *by += Alarm::kAgainMs;
        program.tick();
        QVERIFY(!program.alarm().isEmpty() && program.band().isEmpty());
        program.hearAlarm();
        QVERIFY(program.alarm().isEmpty() && !program.band().isEmpty());
        program.bandStay();
        program.tick();
        QVERIFY(program.alarm().isEmpty() && program.band().isEmpty());
        *by += Alarm::kAgainMs;
        program.tick();
        program.hearAlarm();
        program.scanned(QStringLiteral("5012345678900"));
        program.tick();
        QVERIFY(program.band().contains(QLatin1String("5012345678900"))); // a scan waits for its answer
        program.bandStay();
        program.tick();
        program.bandGoThere();
        QCOMPARE(program.plate()->number(), QStringLiteral("T-1"));
        program.tick();
        QVERIFY(program.alarm().isEmpty() && program.band().isEmpty()); // its own plate says it
    }

    // A release that ran out is none any more: when it was heard nothing is left to tell.
    void aReleaseThatRanOutIsToldOnce()
    {
        const auto by = std::make_shared<std::int64_t>(0);
        const test::DemoYard demo;
        Tablet program(demo.folder(), std::make_unique<TurnedClock>(by));
        program.start();
        program.openVessel(QStringLiteral("NQ-07"));
        *by = 12 * 3600'000LL;
        for (int i = 0; i < 40; ++i) {
            program.tick();
            QVERIFY(!program.alarm().isEmpty() && program.band().isEmpty());
            *by += 1000;
        }
        program.hearAlarm();
        QVERIFY(program.alarm().isEmpty() && program.band().isEmpty());
    }

    void anotherYardsAlarmStaysThere()
    {
        const auto by = std::make_shared<std::int64_t>(0);
        const test::DemoYard demo;
        const test::DemoYard other;
        Tablet program(demo.folder(), std::make_unique<TurnedClock>(by));
        program.start();
        *by = 12 * 3600'000LL;
        program.tick();
        QVERIFY(!program.alarm().isEmpty());
        program.openFolder(QString::fromStdString(other.folder().string())); // its own release is over since long
        program.tick();
        QVERIFY2(program.alarm().isEmpty(), qPrintable(program.alarm()));
    }

    // Something was written in the second in which it ran out: when the record is read again the release is gone from it.
    void whatRanOutWhileTheRecordChangedRings()
    {
        const auto by = std::make_shared<std::int64_t>(0);
        const test::DemoYard demo;
        Tablet program(demo.folder(), std::make_unique<TurnedClock>(by));
        program.start();
        program.tick();
        program.openVessel(QStringLiteral("NQ-07"));
        program.stop();
        *by = 12 * 3600'000LL;
        program.tick();
        QCOMPARE(program.alarm(), QStringLiteral("NQ-01: its time is over. Stop the work."));
    }

    // Stopped in good time: nothing rings when the hour comes.
    void aStopEndsItsClock()
    {
        const auto by = std::make_shared<std::int64_t>(0);
        const test::DemoYard demo;
        Tablet program(demo.folder(), std::make_unique<TurnedClock>(by));
        program.start();
        program.openVessel(QStringLiteral("NQ-01"));
        program.stop();
        program.tick();
        *by = 12 * 3600'000LL;
        program.tick();
        QVERIFY(program.alarm().isEmpty());
    }

    void withoutASoundItSaysSo()
    {
        const test::DemoYard demo;
        Tablet program(demo.folder());
        QVERIFY(!program.canSound());
        auto made = std::make_unique<Ear>();
        Ear* ear = made.get();
        program.setSounder(std::move(made));
        QVERIFY(program.canSound());
        program.trySound();
        QCOMPARE(ear->tries, 1);
        ear->works = false;
        QVERIFY(!program.canSound());
        program.start();
        program.tick(); // asks the machine anew
        program.openVessel(QStringLiteral("NQ-01"));
        QCOMPARE(program.screen(), Tablet::View::Clock);
        const auto lines = program.clockPage()->lines()->rows();
        QVERIFY(std::ranges::any_of(lines, [](const tablet::Row& row) { return row.line.contains(QLatin1String("nothing here sounds")); }));
    }
};

BRIMFUL_SUITE(AlarmTest);
#include "alarm_test.moc"
