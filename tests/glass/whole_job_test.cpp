// One vessel of each way from the first start of an empty tablet to its hand-over, by touches on the real window alone and by two
// people. What is answered comes from the written case of a whole life; what comes next is what the black button says. A picture of
// each sheet lies in screens/ of the build folder, and whole-job-WAY.txt beside them tells what was touched, its last line how many
// signatures, touches, keys and minutes the way took.
#include "app/tablet/plans.h"
#include "core/rules/pack.h"
#include "core/yard/clocks.h"
#include "tests/glass/hand.h"
#include "tests/support/suite.h"

#include <QFile>
#include <QTest>

#include <cmath>
#include <deque>

using namespace brimful;
using canon::Json;
using tablet::Ask;
using tablet::Sheet;
using tablet::Tablet;
using test::Hand;
using test::Shown;

namespace {

constexpr int kBetweenPlacesMs = 450; // a hand moves on; one that presses sooner has bounced

constexpr const char* kNumber = "T-1";
constexpr const char* kPin = "730285";

std::int64_t waitMs(std::string_view wait)
{
    const QString text = QString::fromUtf8(wait.data(), static_cast<qsizetype>(wait.size()));
    const std::int64_t unit = text.endsWith(QLatin1String("min")) ? 60'000 : 3'600'000;
    return text.section(u' ', 0, 0).toLongLong() * unit;
}

// "1 1/4 in" as a hand types it: "1.25 in".
QString typedOf(const std::string& said)
{
    double value = 0;
    QString unit;
    for (const QString& word : QString::fromStdString(said).split(u' ', Qt::SkipEmptyParts)) {
        bool whole = false;
        const double number = word.toDouble(&whole);
        if (whole) {
            value += number;
        } else if (word.contains(u'/') && word.front().isDigit()) {
            value += word.section(u'/', 0, 0).toDouble() / word.section(u'/', 1).toDouble();
        } else {
            unit = tablet::unitShown(word);
        }
    }
    if (unit == QLatin1String("m")) { // a yard that thinks in feet
        constexpr double kFeetInMetre = 1 / 0.3048;
        return QStringLiteral("%1 ft").arg(std::ceil(value * kFeetInMetre));
    }
    return QStringLiteral("%1 %2").arg(value).arg(unit).trimmed();
}

// What somebody in the yard knows when the sheet asks: the written case, deed by deed.
struct Deed {
    std::int64_t takes_ms{};
    Json facts;
    QString by, with, instrument;
};

class Story {
public:
    explicit Story(const QString& file)
    {
        const auto scenario = canon::read(rules::shippedFile("cases/base/" + file.toStdString() + ".json"), canon::Dialect::Subset);
        std::int64_t waited = 0;
        for (const Json& act : scenario->find("do")->items) {
            if (const std::string_view wait = act.textOf("wait"); !wait.empty()) {
                waited += waitMs(wait);
                continue;
            }
            const std::string_view kind = act.textOf("act");
            const std::string key = kind == "record" ? std::string(act.textOf("step")) : std::string(act.textOf("hold_point"));
            if (key.empty()) {
                continue;
            }
            Deed deed;
            deed.takes_ms = std::exchange(waited, 0);
            deed.facts = act.find("facts") == nullptr ? Json::object() : *act.find("facts");
            deed.by = QString::fromUtf8(act.textOf("by"));
            deed.with = QString::fromUtf8(act.textOf("with"));
            deed.instrument = QString::fromUtf8(act.textOf("instrument"));
            m_deeds[key].push_back(std::move(deed));
        }
    }
    [[nodiscard]] bool tells(const std::string& key) const { return m_deeds.contains(key); }
    // The next time that it is done; the last stays.
    Deed take(const std::string& key)
    {
        auto& deeds = m_deeds[key];
        if (deeds.empty()) {
            return {kUsualMs, Json::object(), QStringLiteral("Jon"), QStringLiteral("Ines"), {}};
        }
        Deed deed = deeds.front();
        if (deeds.size() > 1) {
            deeds.pop_front();
        }
        return deed;
    }

private:
    static constexpr std::int64_t kUsualMs = 5 * 60'000;
    std::map<std::string, std::deque<Deed>> m_deeds;
};

// Answers the sheet that is open, and signs it. Says what it could not do, "" when all was done.
class Crew {
public:
    Crew(Shown& shown, Hand& hand)
        : m_shown(shown)
        , m_hand(hand)
    {
    }

    [[nodiscard]] Tablet& program() const { return m_shown.program(); }
    [[nodiscard]] const rules::Pack& pack() const { return program().session().pack(); }
    int signatures{};

    // A sheet whose answers are written here: ask by ask.
    [[nodiscard]] QString fill(const std::vector<QString>& answers, const QString& by, const QString& with = {})
    {
        for (const QString& answer : answers) {
            if (const QString stuck = give(answer); !stuck.isEmpty()) {
                return stuck;
            }
        }
        return by.isEmpty() ? QString() : sign(by, with);
    }

    // A step or a hold point, as the pack asks it; the second person is asked something too.
    [[nodiscard]] QString answer(const std::vector<Ask>& asks, const Deed& deed, const Json& talk, const QString& tag)
    {
        for (const QString& who : {deed.by, deed.with}) {
            QString stuck = answerAll(asks, deed, talk, tag);
            if (stuck.isEmpty() && program().screen() == Tablet::View::Sheet) {
                stuck = signAs(who);
            }
            if (!stuck.isEmpty()) {
                return stuck;
            }
        }
        return {};
    }

private:
    [[nodiscard]] QString answerAll(const std::vector<Ask>& asks, const Deed& deed, const Json& talk, const QString& tag)
    {
        Sheet* sheet = program().sheet();
        std::size_t rows_named = 0;
        for (int guard = 0; guard < 120; ++guard) {
            if (program().screen() != Tablet::View::Sheet || sheet->hand() == Sheet::Kind::People || sheet->hand() == Sheet::Kind::Pin) {
                break;
            }
            if (sheet->hand() == Sheet::Kind::Told) {
                return QStringLiteral("told: ") + sheet->message();
            }
            const QString text = sheet->askText();
            const auto ask = std::ranges::find(asks, text, &Ask::ask);
            std::vector<Ask> of_rows;
            const Ask* asked = ask == asks.end() ? nullptr : &*ask;
            if (asked == nullptr) { // a row that was named on this sheet
                of_rows = rowsNamed(asks, deed);
                for (Ask& one : ofSecond(deed)) {
                    of_rows.push_back(std::move(one));
                }
                const auto row = std::ranges::find(of_rows, text, &Ask::ask);
                asked = row == of_rows.end() ? nullptr : &*row;
            }
            if (asked == nullptr) {
                return QStringLiteral("nobody knows an answer to: ") + text;
            }
            QString said;
            if (asked->tag) {
                said = QStringLiteral("write:") + tag;
            } else if (asked->names_row) {
                const Json* rows = deed.facts.find(asked->into);
                const std::size_t count = rows == nullptr ? 0 : rows->items.size();
                said = rows_named < count ? QStringLiteral("write:") + QString::fromUtf8(rows->items[rows_named].textOf("name"))
                                          : QStringLiteral("without");
                ++rows_named;
            } else {
                said = answerOf(*asked, deed, talk);
            }
            if (const QString stuck = give(said); !stuck.isEmpty()) {
                return QStringLiteral("%1 [%2]: %3").arg(text, said, stuck);
            }
            if (program().screen() == Tablet::View::Sheet && sheet->askText() == text && sheet->hand() != Sheet::Kind::People
                && !asked->names_row) {
                return QStringLiteral("%1 [%2] was not taken: %3").arg(text, said, sheet->message());
            }
        }
        return {};
    }

    // "write:", "number:", "choose:", "press:" of a round, "without"; "pin".
    [[nodiscard]] QString give(const QString& answer)
    {
        const QString how = answer.section(u':', 0, 0);
        const QString what = answer.section(u':', 1);
        bool done = true;
        if (how == QLatin1String("press")) {
            const QString ask = program().sheet()->askText();
            done = m_hand.touch(what);
            if (done && program().sheet()->askText() != ask) {
                QTest::qWait(kBetweenPlacesMs);
                return {};
            }
        } else if (how == QLatin1String("write")) {
            done = m_hand.write(what);
        } else if (how == QLatin1String("number")) {
            const QStringList fields = what.split(u'|');
            for (qsizetype i = 0; i < fields.size() && done; ++i) {
                done = m_hand.number(fields[i]) && (i + 1 == fields.size() || takes());
            }
        } else if (how == QLatin1String("choose")) {
            for (const QString& one : what.split(u'|')) {
                done = done && m_hand.touch(one);
            }
        } else if (how == QLatin1String("pin")) {
            done = m_hand.digits(QString::fromLatin1(kPin)) && takes() && m_hand.digits(QString::fromLatin1(kPin));
        } else if (how != QLatin1String("without")) {
            return QStringLiteral("no such way to answer: ") + answer;
        }
        return done && takes() ? QString() : QStringLiteral("cannot be seen: ") + m_hand.missing();
    }

    [[nodiscard]] bool takes() const { return m_hand.touch(program().sheet()->takeLabel()); }

    [[nodiscard]] QString sign(const QString& by, const QString& with)
    {
        const QString stuck = signAs(by);
        if (!stuck.isEmpty() || program().screen() != Tablet::View::Sheet || program().sheet()->hand() != Sheet::Kind::People) {
            return stuck;
        }
        return signAs(with);
    }

    [[nodiscard]] QString signAs(const QString& wanted)
    {
        Sheet* sheet = program().sheet();
        if (sheet->hand() == Sheet::Kind::Choice && !m_hand.touch(QStringLiteral("The date and time are right"))) {
            return QStringLiteral("the clock is not asked");
        }
        if (sheet->hand() == Sheet::Kind::Choice && !takes()) {
            return QStringLiteral("the clock cannot be confirmed");
        }
        if (sheet->hand() != Sheet::Kind::People) {
            return QStringLiteral("nobody is asked to sign: %1 %2").arg(sheet->askText(), sheet->message());
        }
        // Who the case names, if the glass offers him; else whoever is offered.
        QString who = m_hand.sees(wanted) ? wanted : QString();
        for (const tablet::Row& row : sheet->people()->rows()) {
            who = who.isEmpty() ? row.title : who;
        }
        if (who.isEmpty() || !m_hand.touch(who) || !m_hand.digits(QString::fromLatin1(kPin))) {
            return QStringLiteral("%1 cannot sign: %2").arg(wanted, m_hand.missing());
        }
        ++signatures;
        const bool done = sheet->holdToTake() ? m_hand.hold(sheet->takeLabel()) : takes();
        if (!done) {
            return QStringLiteral("cannot be signed: ") + m_hand.missing();
        }
        if (program().screen() == Tablet::View::Sheet && sheet->hand() == Sheet::Kind::Told) {
            return QStringLiteral("told: ") + sheet->message();
        }
        if (program().screen() == Tablet::View::Sheet && sheet->hand() == Sheet::Kind::Pin) {
            return QStringLiteral("not signed: ") + sheet->message();
        }
        return {};
    }

    [[nodiscard]] std::vector<Ask> rowsNamed(const std::vector<Ask>& asks, const Deed& deed) const
    {
        std::vector<Ask> out;
        for (const Ask& one : asks) {
            const Json* rows = one.names_row ? deed.facts.find(one.into) : nullptr;
            for (const Json& row : rows == nullptr ? std::vector<Json>{} : rows->items) {
                for (const rules::Register& table : pack().registers) {
                    if (table.key == one.into && text::ofPack(pack(), "fact." + table.id) == one.ask) {
                        for (Ask& ask : tablet::rowAsks(pack(), table, std::string(row.textOf("name")), program().session().yard().state(),
                                 program().session().reading)) {
                            out.push_back(std::move(ask));
                        }
                    }
                }
            }
        }
        return out;
    }

    // What the second person may be asked of a row, in words of its own.
    [[nodiscard]] std::vector<Ask> ofSecond(const Deed& deed) const
    {
        std::vector<Ask> out;
        for (rules::Index fact = 0; fact < pack().facts.size(); ++fact) {
            if (pack().facts[fact].reg == rules::kNone || pack().facts[fact].kind == rules::FactKind::Derived) {
                continue;
            }
            const rules::Register& table = pack().registers[pack().facts[fact].reg];
            std::vector<std::string> rows = table.members;
            const Json* named = deed.facts.find(table.key);
            for (const Json& row : named == nullptr ? std::vector<Json>{} : named->items) {
                rows.emplace_back(row.textOf("name"));
            }
            for (const std::string& row : rows) {
                out.push_back(tablet::askOfSecond(pack(), {fact, row}, program().session().yard().state()));
                out.back().into = table.key;
            }
        }
        return out;
    }

    [[nodiscard]] QString answerOf(const Ask& ask, const Deed& deed, const Json& talk) const
    {
        if (ask.instrument) {
            QString meter;
            for (const yard::InstrumentShown& one : program().session().yard().instruments()) { // the usual one, if it was bumped
                const QString id = QString::fromStdString(one.instrument.id);
                meter = one.believed && (meter.isEmpty() || id == deed.instrument) ? id : meter;
            }
            return QStringLiteral("choose:") + meter;
        }
        const Json* from = &deed.facts;
        if (!ask.member.empty()) {
            const Json* rows = deed.facts.find(ask.into);
            for (const Json& row : rows == nullptr ? std::vector<Json>{} : rows->items) {
                from = row.textOf("name") == ask.member
                    ? &*std::ranges::find(rows->items, row.textOf("name"), [](const Json& one) { return one.textOf("name"); })
                    : from;
            }
        }
        QStringList numbers;
        for (const tablet::Field& field : ask.fields) {
            const rules::Fact& fact = pack().facts[field.fact];
            const Json* said = from->find(field.key);
            for (const rules::HoldPoint& gate : pack().hold_points) {
                for (const rules::Question& question : gate.questions) {
                    said = question.fact == field.fact && talk.find(question.id) != nullptr ? talk.find(question.id) : said;
                }
            }
            if (said == nullptr && fact.optional) {
                return QStringLiteral("without");
            }
            const std::string value = said == nullptr ? fact.example
                : said->is(canon::Type::Integer)      ? std::to_string(said->integer)
                                                      : std::string(said->text);
            if (ask.hand == tablet::Hand::Choice) {
                const auto option = std::ranges::find(ask.options, value, &tablet::Option::word);
                return option == ask.options.end() ? QStringLiteral("no option ") + QString::fromStdString(value)
                                                   : QLatin1String(ask.round ? "press:" : "choose:") + option->title;
            }
            if (ask.hand != tablet::Hand::Number) {
                return QStringLiteral("write:") + QString::fromStdString(value);
            }
            numbers.append(typedOf(value));
        }
        return QStringLiteral("number:") + numbers.join(u'|');
    }

    Shown& m_shown;
    Hand& m_hand;
};

// What an honest talk says at a hold point: what stands in the record.
Json talkOf(Tablet& program, const rules::HoldPoint& gate)
{
    const rules::Pack& pack = program.session().pack();
    const auto folded = program.session().yard().folded(kNumber);
    Json answers = Json::object();
    for (const rules::Question& question : gate.questions) {
        rules::Index target = pack.facts[question.fact].echo_of;
        for (const rules::Fact& other : pack.facts) {
            target = other.compares == question.fact ? other.echo_of : target;
        }
        if (target == rules::kNone) {
            continue;
        }
        std::optional<std::int64_t> largest;
        for (const evidence::FactShown& shown : folded->shown) {
            if (shown.fact != target || (shown.count && largest && *shown.count <= *largest)) {
                continue;
            }
            largest = shown.count ? shown.count : largest;
            Json answer = shown.value.is(canon::Type::Object) ? Json(shown.value.textOf("typed")) : shown.value;
            const auto last = static_cast<std::size_t>(pack.facts[question.fact].echo_last);
            if (last > 0 && answer.text.size() > last) {
                answer.text = answer.text.substr(answer.text.size() - last);
            }
            answers.set(question.id, std::move(answer));
        }
    }
    return answers;
}

} // namespace

class WholeJobTest : public QObject {
    Q_OBJECT

private slots:
    void keysWriteWhatTheySay();
    void fromFirstStartToHandOver_data();
    void fromFirstStartToHandOver();

private:
    struct Way {
        QString button;
        rules::Index step{rules::kNone}, gate{rules::kNone};
        QString stage{}; // where it is chosen from the cards of a stretch; else the black button leads there
    };
    [[nodiscard]] static Way wayOf(Tablet& program);
    [[nodiscard]] static QString reasonsOf(Tablet& program);
    [[nodiscard]] QString follow(const Way& way, Shown& shown, Hand& hand, Crew& crew, yard::ScriptedClock& clock, Story& story);
    void log(const QString& line)
    {
        m_log.append(line);
        QFile file(QStringLiteral(BRIMFUL_BINARY_DIR "/screens/whole-job-%1.txt").arg(QLatin1String(QTest::currentDataTag())));
        if (file.open(QIODevice::WriteOnly)) {
            file.write(m_log.join(u'\n').toUtf8());
        }
    }
    QStringList m_log;
};

#define DONE(expression)                                                                                                                   \
    do {                                                                                                                                   \
        const QString stuck = expression;                                                                                                  \
        QVERIFY2(stuck.isEmpty(), qPrintable(stuck));                                                                                      \
    } while (false)

// Every key of the glass, and the marks that a short code may end in.
void WholeJobTest::keysWriteWhatTheySay()
{
    const QTemporaryDir dir;
    Shown shown(QSize(1280, 800), std::filesystem::path(dir.path().toStdString()) / "yard");
    Hand hand(shown);
    QVERIFY2(hand.touch("New yard"), qPrintable(hand.missing()));
    for (const char* text : {"QWERTYUIOP", "ASDFGHJKL-", "ZXCVBNM", "qwertyuiop asdfghjkl- zxcvbnm", "1234567890-/.,:;'()+%&?_=*#$~",
             "1E64-FN3C-$", "1E64-FN3C-*", "1E64-FN3C-~", "1E64-FN3C-=", "1E64-FN3C-U"}) {
        shown.program().sheet()->setWritten({});
        QVERIFY2(hand.write(QString::fromLatin1(text)), qPrintable(hand.missing()));
        QCOMPARE(shown.program().sheet()->written(), QString::fromLatin1(text));
    }
}

void WholeJobTest::fromFirstStartToHandOver_data()
{
    QTest::addColumn<QString>("file");
    QTest::newRow("closed") << "01-whole-life";
    QTest::newRow("nitrogen") << "27-whole-life-nitrogen";
    QTest::newRow("open") << "29-whole-life-came-open";
    QTest::newRow("air-receiver") << "30-whole-life-air-receiver";
}

void WholeJobTest::fromFirstStartToHandOver()
{
    QFETCH(QString, file);
    Story story(file);
    m_log.clear();
    QTemporaryDir dir;
    auto owned = std::make_unique<yard::ScriptedClock>(ledger::Moment{1'781'424'000'000, 1'000'000, {}});
    yard::ScriptedClock& clock = *owned;
    Shown shown(QSize(1280, 800), std::filesystem::path(dir.path().toStdString()) / "yard", std::move(owned));
    Tablet& program = shown.program();
    Hand hand(shown);
    Crew crew(shown, hand);
    const auto minutes = [&clock](int count) { clock.wait(count * 60'000LL); };

    // ---- a tablet out of its box
    QVERIFY2(hand.touch("New yard"), qPrintable(hand.missing()));
    DONE(crew.fill({"write:Two-person yard", "choose:The date and time are right", "choose:All of them together", "write:Ada", "pin"}, {}));
    QVERIFY2(hand.touch("It is written down"), qPrintable(hand.missing()));
    QCOMPARE(program.screen(), Tablet::View::SetUp);
    const auto roles = [&](std::initializer_list<const char*> words) {
        QStringList out;
        for (const char* word : words) {
            out.append(text::roleName(program.session().pack(), word));
        }
        return QStringLiteral("choose:") + out.join(u'|');
    };
    QVERIFY2(hand.touch("Add a person"), qPrintable(hand.missing()));
    DONE(crew.fill({"write:Jon", roles({"supervisor", "tester", "watch"}), "pin"}, "Ada"));
    QVERIFY2(hand.touch("Add a person"), qPrintable(hand.missing()));
    DONE(crew.fill({"write:Ines", roles({"operator", "hand"}), "pin"}, "Ada"));
    QVERIFY2(hand.touch("Add a meter"), qPrintable(hand.missing()));
    DONE(crew.fill({"write:M-1", "choose:Catalytic", "choose:Methane", "write:1.62", "number:2.1 %", "number:120"}, "Ada"));
    if (story.tells("inert-purge")) {
        QVERIFY2(hand.touch("Add a meter"), qPrintable(hand.missing()));
        DONE(crew.fill({"write:M-2", "choose:Infrared", "choose:Propane", "write:1", "number:2.1 %", "number:120"}, "Ada"));
    }
    QVERIFY2(hand.touch("Back to Yard"), qPrintable(hand.missing()));

    // ---- it comes in
    minutes(5);
    QVERIFY2(hand.touch("Add a vessel"), qPrintable(hand.missing()));
    DONE(crew.fill({"write:T-1", "number:30 in", "number:0.25 in", "number:92 in", "choose:Half balls", "choose:Smoker"}, "Ines"));
    log(QStringLiteral("vessel in: %1 touches, %2 keys, %3 signatures").arg(hand.acts()).arg(hand.keys()).arg(crew.signatures));
    if (program.screen() == Tablet::View::Yard) {
        QVERIFY2(hand.touch(program.yardPage()->index(0).data(tablet::YardPage::SpokenRole).toString()), qPrintable(hand.missing()));
    }

    // ---- and the black button leads on
    const std::int64_t arrived_ms = program.session().yard().nowMs();
    bool closed = false;
    QString before;
    for (int turn = 0; turn < 150 && !closed; ++turn) {
        Way way = wayOf(program);
        const rules::Pack& pack = program.session().pack();
        if (way.step == pack.step("fill-one") && story.tells("inert-purge")) { // the shop has nitrogen and says so
            const rules::Index purge = pack.step("inert-purge");
            way = {text::stepTitle(pack, purge), purge, rules::kNone,
                Tablet::tr("Stretch %1").arg(text::ofPack(pack, "stage." + pack.stages[pack.steps[purge].stage]))};
        }
        // One sweep after the other is asked for; any other thing once.
        const report::VesselView* view = program.vesselPage()->view();
        const bool sweeps = way.step == pack.step("sweep") && view->watch;
        const QString asked = sweeps ? way.button + QString::number(view->watch->sweeps.size()) : way.button;
        if (asked == before) {
            log(QStringLiteral("done, and yet asked again: ") + reasonsOf(program));
        }
        QVERIFY2(asked != before, "see whole-job-WAY.txt");
        before = asked;
        const QString stuck = follow(way, shown, hand, crew, clock, story);
        if (!stuck.isEmpty()) {
            log(QStringLiteral("stuck: ") + stuck);
        }
        QVERIFY2(stuck.isEmpty(), "see whole-job-WAY.txt");
        closed = program.session().yard().vessel(kNumber)->standing.state == rules::State::Closed;
    }
    QVERIFY2(closed, qPrintable(m_log.join(u'\n')));
    const std::int64_t minutes_in = (program.session().yard().nowMs() - arrived_ms) / 60'000;
    log(QStringLiteral("%1: %2 signatures, %3 touches, %4 keys, %5 minutes from arrival to hand-over")
            .arg(QLatin1String(QTest::currentDataTag()))
            .arg(crew.signatures)
            .arg(hand.acts())
            .arg(hand.keys())
            .arg(minutes_in));
    qInfo("%s", qPrintable(m_log.back()));
    QVERIFY2(shown.warnings().isEmpty(), qPrintable(shown.warnings().join(u'\n')));
}

QString WholeJobTest::reasonsOf(Tablet& program)
{
    const rules::Pack& pack = program.session().pack();
    const auto view = program.session().yard().vessel(kNumber);
    QStringList reasons;
    for (const rules::Blocker& blocker : view->standing.blockers) {
        const text::Held held = text::heldBy(pack, *view, blocker, program.session().reading);
        reasons.append(held.reason + u' ' + held.remedy);
    }
    return reasons.join(u'\n');
}

// Where the glass says to go: the black button of the vessel, or of its clock.
WholeJobTest::Way WholeJobTest::wayOf(Tablet& program)
{
    if (program.screen() == Tablet::View::Clock) { // gas is logged when that is due soon, sweeps are made in turn; else the work goes on
        const tablet::ClockPage& page = *program.clockPage();
        const report::VesselView& view = *program.vesselPage()->view();
        if (page.isWatch()) {
            const bool sweeps = view.watch->next_sweep_ms < view.watch->ends_ms;
            return sweeps ? Way{page.task(), page.taskStep(), rules::kNone} : Way{page.done(), page.doneStep(), rules::kNone};
        }
        constexpr std::int64_t kSoonMs = 8 * 60'000;
        const bool logs = page.doneStep() == rules::kNone || (view.clock && view.clock->at_ms - view.now_ms < kSoonMs);
        return logs ? Way{page.task(), page.taskStep(), rules::kNone} : Way{page.done(), page.doneStep(), rules::kNone};
    }
    const tablet::VesselPage::Target target = program.vesselPage()->target();
    using What = tablet::VesselPage::Target::What;
    return {program.vesselPage()->button(), target.what == What::Step ? target.index : rules::kNone,
        target.what == What::HoldPoint ? target.index : rules::kNone};
}

QString WholeJobTest::follow(const Way& way, Shown& shown, Hand& hand, Crew& crew, yard::ScriptedClock& clock, Story& story)
{
    Tablet& program = shown.program();
    const rules::Pack& pack = program.session().pack();
    const int acts = hand.acts();
    const int keys = hand.keys();
    const int signatures = crew.signatures;
    const bool step = way.step != rules::kNone;
    const std::string id = step ? pack.steps[way.step].id : way.gate != rules::kNone ? pack.hold_points[way.gate].id : std::string();
    const auto say = [&](const QString& what) {
        log(QStringLiteral("%1 | %2 [%3] | %4 touches, %5 keys, %6 signatures")
                .arg(what, way.button, QString::fromStdString(id))
                .arg(hand.acts() - acts)
                .arg(hand.keys() - keys)
                .arg(crew.signatures - signatures));
    };
    if (id.empty()) {
        say(QStringLiteral("no step"));
        return QStringLiteral("the black button leads to no step and no hold point: ") + way.button;
    }
    const Deed deed = story.take(id);
    const bool logs =
        program.screen() == Tablet::View::Clock && !program.clockPage()->isWatch() && way.step == program.clockPage()->taskStep();
    clock.wait(logs ? std::min<std::int64_t>(deed.takes_ms, 2 * 60'000) : deed.takes_ms);
    program.tick();
    shown.settle();
    const Way now = wayOf(program); // a release may have run out meanwhile: the way is the same, its button another
    const QString button = way.stage.isEmpty() && now.step == way.step && now.gate == way.gate ? now.button : way.button;
    const auto opens = [&] { return (way.stage.isEmpty() || hand.touch(way.stage)) && hand.touch(button); };
    QString code;
    if (!step && pack.hold_points[way.gate].tag_fact != rules::kNone) {
        if (!hand.touch(QStringLiteral("Tag")) || !hand.touch(QStringLiteral("Make the tag"))) {
            return QStringLiteral("no tag: ") + hand.missing();
        }
        code = program.tagPage()->code();
        if (!hand.touch(QStringLiteral("Back to Vessel"))) {
            return hand.missing();
        }
    }
    if (!opens()) {
        return QStringLiteral("the way there went away: ") + hand.missing();
    }
    if (program.sheet()->askText() == QLatin1String("Which meter?")
        && program.sheet()->kicker().startsWith(QLatin1String("Bump check first"))) {
        if (!hand.sees(QStringLiteral("Cannot"))) {
            return QStringLiteral("without a bumped meter nobody can say that it cannot be done");
        }
        const QString meter = QStringLiteral("choose:") + (deed.instrument.isEmpty() ? QStringLiteral("M-1") : deed.instrument);
        if (const QString stuck = crew.fill({meter, "number:50 %LEL", "number:49 %LEL"}, "Jon"); !stuck.isEmpty()) {
            return stuck;
        }
        say(QStringLiteral("bump check"));
        if (!opens()) {
            return hand.missing();
        }
    }
    shown.picture(QStringLiteral("job-%1-%2").arg(m_log.size(), 3, 10, QLatin1Char('0')).arg(QString::fromStdString(id)));
    std::vector<Ask> asks;
    Json talk = Json::object();
    if (step) {
        const bool of_yard = pack.steps[way.step].of_yard;
        const auto folded = program.session().yard().folded(kNumber);
        asks = tablet::asksOf(pack, way.step, of_yard ? nullptr : &*folded, program.session().yard().state(), program.session().reading);
    } else {
        const rules::HoldPoint& gate = pack.hold_points[way.gate];
        asks = tablet::asksOf(pack, gate.talk, nullptr, program.session().yard().state(), program.session().reading);
        if (!code.isEmpty()) {
            Ask tag;
            tag.ask = program.sheet()->askText();
            tag.tag = true;
            asks.push_back(std::move(tag));
        }
        talk = talkOf(program, gate);
    }
    const QString stuck = crew.answer(asks, deed, talk, code);
    shown.settle();
    // A step of one choice: open it, choose, take, pick the person, sign; and the digits of the PIN.
    constexpr int kActsOfAChoice = 5;
    constexpr int kDigits = 6;
    // A sweep: open it, press what was felt at each of five places, pick the person, sign.
    constexpr int kActsOfASweep = 8;
    if (id == "sweep" && (hand.acts() - acts > kActsOfASweep || hand.keys() - keys > kDigits)) {
        return QStringLiteral("a sweep took %1 touches and %2 keys").arg(hand.acts() - acts).arg(hand.keys() - keys);
    }
    if (id == "coat" && (hand.acts() - acts > kActsOfAChoice || hand.keys() - keys > kDigits)) {
        return QStringLiteral("a step of one choice took %1 touches and %2 keys").arg(hand.acts() - acts).arg(hand.keys() - keys);
    }
    say(stuck.isEmpty() ? text::plateWord(program.session().yard().vessel(kNumber)->word) : stuck);
    return stuck;
}

BRIMFUL_SUITE(WholeJobTest);
#include "whole_job_test.moc"
