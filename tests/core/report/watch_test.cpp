// When a fire watch is swept, against the times that fire-watch practice gives: 0, 15, 30 and 60 min, then hourly for up to three hours
// more (the hour and the three more: NFPA 51B, 2019; the rest common practice, no source).
#include "core/report/watch.h"
#include "tests/core/rules/packs.h"
#include "tests/support/suite.h"

#include <QTest>

#include <vector>

using namespace brimful;

namespace {

constexpr std::int64_t kMinute = 60'000;

std::vector<std::int64_t> minutesWhenMadeInTime(std::int64_t until_min)
{
    std::vector<std::int64_t> out;
    std::optional<std::int64_t> last;
    for (std::int64_t at = 0; at <= until_min * kMinute; at = report::nextSweepMs(0, last, 15 * kMinute, 60 * kMinute)) {
        out.push_back(at / kMinute);
        last = at;
    }
    return out;
}

} // namespace

class WatchTest : public QObject {
    Q_OBJECT

private slots:
    void sweepsOfAWatchMadeInTime() { QCOMPARE(minutesWhenMadeInTime(240), (std::vector<std::int64_t>{0, 15, 30, 60, 120, 180, 240})); }

    void aLateSweepMovesTheNext()
    {
        const std::int64_t since = 7 * kMinute;
        QCOMPARE(report::nextSweepMs(since, std::nullopt, 15 * kMinute, 60 * kMinute), since);
        QCOMPARE(report::nextSweepMs(since, since + 2 * kMinute, 15 * kMinute, 60 * kMinute), since + 17 * kMinute);
        QCOMPARE(report::nextSweepMs(since, since + 40 * kMinute, 15 * kMinute, 60 * kMinute), since + 80 * kMinute);
        QCOMPARE(report::nextSweepMs(since, since + 500 * kMinute, 15 * kMinute, 60 * kMinute), since + 560 * kMinute);
    }

    void thePackBringsTheTimes()
    {
        const rules::Pack pack = test::loaded(test::shipped("base"));
        QCOMPARE(report::nextSweepMs(pack, 0, 0), 15 * kMinute);
        QCOMPARE(report::nextSweepMs(pack, 0, 100 * kMinute), 160 * kMinute);
    }

    void aPackWithoutThemHasNone() { QCOMPARE(report::nextSweepMs(rules::Pack{}, 0, 0), rules::kNever); }
};

BRIMFUL_SUITE(WatchTest);
#include "watch_test.moc"
