// Random packs over random histories: what a fold made of entries, the judge, the reference and the solver see alike.
#include "tests/core/evidence/story.h"
#include "tests/core/rules/three_ways.h"
#include "tests/support/suite.h"

#include <QTest>

using namespace brimful;
using namespace brimful::rules;
using namespace brimful::test;

namespace {

constexpr int kPacks = 200; // more by RANDOM_PACKS
constexpr int kHistories = 5;
constexpr int kLooks = 10;

// Tells a story as a shop may: mostly in order, at times late, twice, wrong, by the wrong person, on a second tablet that knew less.
class Teller {
public:
    explicit Teller(Dice& dice)
        : m_dice(dice)
        , m_careless(pick(dice, std::vector<std::size_t>{3, 10, 1'000'000})) // from mostly careless to all good
    {
        if (!slips()) {
            story.readyForFirst();
            share();
            watcher();
        }
    }

    void tell()
    {
        story.wait(static_cast<std::int64_t>(upTo(m_dice, slips() ? 600 : 8)) * kMinute);
        switch (upTo(m_dice, 12)) {
        case 0:
            m_told.push_back(story.papers(slips() ? pick(m_dice, std::vector<std::string>{"chlorine", "unknown", "propane"}) : "air"));
            break;
        case 1:
            m_told.push_back(story.look(std::to_string(slips() ? upTo(m_dice, 12) : 12 + upTo(m_dice, 4)) + " mm"));
            break;
        case 2:
            m_told.push_back(story.openings());
            break;
        case 3:
            share();
            break;
        case 4:
            watcher();
            break;
        case 5:
            story.day();
            break;
        case 6:
            story.bump(!slips());
            break;
        case 7:
            slip();
            break;
        case 8:
            story.giveFirst(slips() ? "4 %LEL" : "0 %LEL");
            break;
        case 9:
            story.cut();
            break;
        default:
            m_told.push_back(story.readings(slips() ? std::to_string(upTo(m_dice, 6)) + " %LEL" : "0 %LEL", "0 %LEL",
                slips() ? static_cast<std::int64_t>(upTo(m_dice, 2000)) : 0));
        }
    }

    // The release that is looked at: as the tablet imagines it before it is signed.
    void askForFirst()
    {
        const Hash tag = story.printTag();
        if (slips()) {
            story.printTag(); // a newer one: what is read is old
        }
        const Json answers =
            values({{"serial", Json(slips() ? "9" : "1204")}, {"highest", shownGas("0 %LEL")}, {"unhappy", Json("nobody")}});
        story.release(
            "first", answers, slips() ? std::nullopt : std::optional(tag), Who::Authoriser, slips() ? Who::Authoriser : Who::Operator);
    }

    Story story;

private:
    [[nodiscard]] bool slips() { return oneIn(m_dice, m_careless); }
    [[nodiscard]] How by(Who who)
    {
        How how;
        how.by = slips() ? static_cast<Who>(1 + upTo(m_dice, 5)) : who;
        if (slips()) { // another tablet, which had not heard of all of it
            how.device = 2;
            if (!m_told.empty()) {
                how.parents = std::vector<Hash>{pick(m_dice, m_told)};
            }
        }
        return how;
    }
    void share()
    {
        m_told.push_back(story.record("share", values({{"part", length(std::to_string(upTo(m_dice, 3)) + " mm")}}), by(Who::Hand)));
    }
    void watcher()
    {
        const Who who = slips() ? Who::Tester : Who::Operator;
        m_told.push_back(story.record("watcher", values({{"who", Json(canon::toHex(Story::person(who)))}}), by(who)));
    }
    void slip()
    {
        switch (upTo(m_dice, 5)) {
        case 0:
            if (!m_told.empty()) {
                story.correct(pick(m_dice, m_told), static_cast<Who>(1 + upTo(m_dice, 5)));
            }
            break;
        case 1: {
            const std::string event = pick(m_dice, Story::pack().events).id;
            const Hash raised = story.event(event, Who::Hand);
            if (event == "alarm" && !slips()) {
                story.clear("alarm", raised, Who::Authoriser, Who::Tester);
            }
            break;
        }
        case 2:
            if (slips()) {
                story.reboot(!slips());
            }
            break;
        case 3:
            if (slips()) {
                How how = by(Who::Hand);
                how.cannot = true;
                m_told.push_back(story.record("look", Json::object(), how));
            }
            break;
        default:
            if (!m_told.empty()) {
                story.confirm(pick(m_dice, m_told), static_cast<Who>(1 + upTo(m_dice, 5)));
            }
        }
    }

    Dice& m_dice;
    std::size_t m_careless;
    std::vector<Hash> m_told;
};

} // namespace

class HistoriesTest : public QObject {
    Q_OBJECT
private slots:
    void threeWaysOverHistories();
};

// The same packs and histories each time; other ones, and more of them, by RANDOM_SEED and RANDOM_PACKS.
void HistoriesTest::threeWaysOverHistories()
{
    const int seed = qEnvironmentVariableIntValue("RANDOM_SEED");
    const int packs = std::max(kPacks, qEnvironmentVariableIntValue("RANDOM_PACKS"));
    std::size_t compared = 0;
    std::size_t entries = 0;
    std::array<std::size_t, 3> seen{};
    for (int made_so_far = 0; made_so_far < packs; ++made_so_far) {
        Dice dice(static_cast<std::uint64_t>(seed) * 1'000'003U + static_cast<std::uint64_t>(made_so_far));
        const RandomPack made = makePack(dice);
        for (int history = 0; history < kHistories; ++history) {
            Teller teller(dice);
            for (int look = 0; look < kLooks; ++look) {
                teller.tell();
                if (oneIn(dice, 2)) {
                    teller.askForFirst();
                }
                const evidence::Folded folded = teller.story.foldBy(made.pack);
                const auto judged = threeWays(made, folded.evidence, makeActors(dice));
                if (!judged) {
                    QFAIL(qPrintable(
                        QStringLiteral("pack %1, history %2, look %3, seed %4").arg(made_so_far).arg(history).arg(look).arg(seed)));
                }
                ++seen.at(static_cast<std::size_t>(*judged));
                ++compared;
            }
            entries += teller.story.lines.size();
        }
    }
    qInfo("%zu comparisons over %zu entries: %zu false, %zu unknown, %zu true", compared, entries, seen[0], seen[1], seen[2]);
    QVERIFY(compared >= 10'000);
    for (const std::size_t one : seen) {
        QVERIFY(one > 100); // all three are really met
    }
}

BRIMFUL_SUITE(HistoriesTest);
#include "histories_test.moc"
