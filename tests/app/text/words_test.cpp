// Words of the answers: the plate names the stop that holds, the remedy speaks of the step that the reason speaks of.
#include "app/text/words.h"
#include "core/figure/figure.h"
#include "core/rules/pack.h"
#include "tests/support/suite.h"

#include <QTest>
#include <algorithm>

using namespace brimful;

namespace {

const rules::Pack& basePack()
{
    static const rules::Pack pack = [] {
        const auto all = rules::shippedPacks();
        return rules::load(*std::ranges::find(all, std::string("base"), &rules::PackSource::id), {}).value();
    }();
    return pack;
}

report::VesselView stoppedBy(rules::Index stop)
{
    report::VesselView view;
    rules::Blocker blocker;
    blocker.list = rules::List::Stop;
    blocker.stop = stop;
    view.standing.blockers.push_back(blocker);
    view.word = basePack().stops[stop].refuses ? report::PlateWord::Refused : report::PlateWord::Stopped;
    return view;
}

} // namespace

class WordsTest : public QObject {
    Q_OBJECT
private slots:
    // Every word that a figure can warn with has a sentence, and every figure a name in words but the two that are only for packs.
    void figuresAreWorded()
    {
        for (const figure::Figure& one : figure::catalogue()) {
            for (const std::string_view warning : one.warnings) {
                const std::string word(warning);
                QVERIFY2(text::warning(word) != QString::fromStdString(word), word.c_str());
            }
            const std::string name(one.name);
            QVERIFY2(name == "ratio" || name == "same" || text::figureName(name) != QString::fromStdString(name), name.c_str());
        }
    }

    // Every word that the record has of a photograph is told; of what nobody looked at, and of what it cannot know, nothing.
    void photographsAreTold_data()
    {
        QTest::addColumn<bool>("camera");
        QTest::addColumn<QByteArray>("found");
        QTest::addColumn<QString>("said");
        QTest::newRow("a file") << false << QByteArray("-") << "from a file, no tag in the picture";
        QTest::newRow("dark") << true << QByteArray("d") << "taken with the tablet, dark, no tag in the picture";
        QTest::newRow("all") << false << QByteArray("dbto")
                             << "from a file, dark, blurred, the tag is in the picture, another vessel's tag is in the picture";
        QTest::newRow("other") << true << QByteArray("o") << "taken with the tablet, another vessel's tag is in the picture";
        QTest::newRow("not looked at") << false << QByteArray() << "from a file, nobody looked what is in it";
    }
    void photographsAreTold()
    {
        QFETCH(const bool, camera);
        QFETCH(const QByteArray, found);
        QFETCH(const QString, said);
        ledger::PhotoNote note;
        note.by_camera = camera;
        if (!found.isEmpty()) {
            note.found = ledger::PhotoFound{found.contains('b'), found.contains('d'), found.contains('o'), found.contains('t')};
        }
        QCOMPARE(text::photograph(note, true), said);
        QString of_yard = said;
        QCOMPARE(text::photograph(note, false), of_yard.remove(QStringLiteral(", no tag in the picture")));
        note.chalk = "0482";
        note.alike = Hash{};
        QCOMPARE(text::photograph(note, true), said + ", chalk number 0482 was asked for, looks like an earlier picture, 000000000000");
    }

    // What is asked in person ends in a question, names what it rests on, and says nothing of anybody's honesty.
    void questionsAreQuestions()
    {
        using What = report::Question::What;
        report::Question one;
        one.vessels = {"NQ-02"};
        one.persons = {"Ada", "Tam"};
        one.steps = {basePack().step("brim")};
        one.hold_point = basePack().holdPoint("first-cut");
        one.after_event = basePack().event("fill-started");
        one.took_ms = 180'000;
        one.takes_ms = 57 * 60'000;
        one.fact = basePack().fact("brim.soaked");
        one.value = "35 min";
        one.count = 4;
        for (const What what : {What::SoonerThanItTakes, What::SoonerThanItSays, What::SignedTogether, What::JustBeforeRelease,
                 What::SameValue, What::SamePair, What::NothingFound}) {
            one.what = what;
            const text::Asking words = text::toAsk(basePack(), one, {});
            QVERIFY2(words.ask.contains(u'?'), qPrintable(words.ask));
            QVERIFY2(!words.what.contains(u'%') && words.what.endsWith(u'.'), qPrintable(words.what));
            for (const char* never : {"fake", "forge", "lie", "safe", "wrong", "suspect"}) {
                QVERIFY2(!(words.what + words.ask).contains(QLatin1String(never), Qt::CaseInsensitive), qPrintable(words.what + words.ask));
            }
        }
        one.what = What::SoonerThanItTakes;
        QCOMPARE(text::toAsk(basePack(), one, {}).what,
            QStringLiteral(
                "NQ-02, \"Fill 2 to the brim\": signed 3 min after \"Water goes in\" was pressed. The work takes about 57 min."));
        QVERIFY(!text::nothingStoodOut().contains(QStringLiteral("well"), Qt::CaseInsensitive));
    }

    // What stands under STOPPED and REFUSED, each stop of the base pack: as the pack has it, and short enough to read from afar.
    void thePlateNamesTheStop()
    {
        for (rules::Index i = 0; i < basePack().stops.size(); ++i) {
            const std::string& brief = basePack().strings.at("stop." + basePack().stops[i].id + ".short");
            const QString line = text::plateLine(stoppedBy(i), basePack(), {});
            QCOMPARE(line, QString::fromStdString(brief));
            QVERIFY2(line.size() <= 24, qPrintable(line));
        }
    }

    // A file that just ends has no character to show: the sentence still says what is wrong.
    void jsonThatEndsTooEarlyIsSaid()
    {
        report::Refusal refusal;
        refusal.why = report::Why::BadJson;
        refusal.path = "joint.json:2:1";
        QCOMPARE(text::refusal(refusal, nullptr), QString("joint.json:2:1: the JSON ends too early, or a zero byte stands in it."));
        refusal.found = "}";
        QVERIFY(text::refusal(refusal, nullptr).endsWith(QLatin1Char('}')));
    }

    void aPressedStopIsNoSpokenWord()
    {
        const auto& stops = basePack().stops;
        const auto named = [&](const char* id) {
            return static_cast<rules::Index>(std::ranges::find(stops, std::string(id), &rules::StopKind::id) - stops.begin());
        };
        QCOMPARE(text::plateLine(stoppedBy(named("stopped")), basePack(), {}), QString("somebody pressed STOP"));
        QCOMPARE(text::plateLine(stoppedBy(named("concern")), basePack(), {}), QString("somebody spoke up"));
        QCOMPARE(text::plateLine(stoppedBy(named("refused-signs")), basePack(), {}), QString("go away, do not move it"));
    }

    // Every figure has a name, and every warning that it can give has a sentence.
    void everyFigureSpeaks()
    {
        for (const figure::Figure& one : figure::catalogue()) {
            const std::string name(one.name);
            if (name != "ratio" && name != "same") { // arithmetic of the packs, never shown by itself
                QVERIFY2(text::figureName(name) != QString::fromStdString(name), name.c_str());
            }
            for (const std::string_view warning : one.warnings) {
                const QString word = QString::fromStdString(std::string(warning));
                QVERIFY2(text::warning(std::string(warning)) != word, qPrintable(word));
            }
        }
    }

    // A rule that several steps would each lift: reason, remedy and button speak of the one step that decided.
    void theRemedyIsOfTheStepOfTheReason()
    {
        int checked = 0;
        for (rules::Index point = 0; point < basePack().hold_points.size(); ++point) {
            const auto& rules = basePack().hold_points[point].require;
            for (rules::Index i = 0; i < rules.size(); ++i) {
                std::vector<rules::Index> leaves;
                const rules::Index begin = rules[i].condition;
                for (rules::Index at = begin; at < begin + basePack().conditions[begin].size; ++at) {
                    if (basePack().conditions[at].op == rules::Op::Passed) {
                        leaves.push_back(at);
                    }
                }
                if (leaves.size() < 2) {
                    continue;
                }
                for (const rules::Index leaf : leaves) {
                    report::VesselView view;
                    view.standing.steps.resize(basePack().steps.size());
                    rules::Blocker blocker;
                    blocker.hold_point = point;
                    blocker.rule = i;
                    blocker.leaf = leaf;
                    blocker.lifted_by = basePack().conditions[leaf].a;
                    const text::Held held = text::heldBy(basePack(), view, blocker, {});
                    const QString title = text::stepTitle(basePack(), blocker.lifted_by);
                    QVERIFY2(held.reason.contains(title), qPrintable(held.reason));
                    QVERIFY2(held.remedy.contains(title), qPrintable(held.remedy));
                    ++checked;
                }
            }
        }
        QVERIFY(checked > 0);
    }
};

BRIMFUL_SUITE(WordsTest);
#include "words_test.moc"
