// What may be asked in person: each question fires, does not fire just inside its boundary (core/report/questions.h states them), and
// never about what honest work looks like. The values are those of the base pack.
#include "core/report/questions.h"
#include "tests/core/rules/packs.h"
#include "tests/support/suite.h"

#include "core/quantity/recorded.h"

#include <QTest>

#include <algorithm>
#include <random>

using namespace brimful;
using canon::Json;
using ledger::Kind;
using report::Question;
using What = report::Question::What;

namespace {

constexpr std::int64_t kSecond = 1000;
constexpr std::int64_t kMinute = 60 * kSecond;

const rules::Pack& base()
{
    static const rules::Pack pack = test::loaded(test::shipped("base"));
    return pack;
}

Json typed(const std::string& text, quantity::Dimension dimension)
{
    const auto recorded = quantity::record(text, dimension);
    Json out = Json::object();
    out.set("count", recorded->count).set("typed", text).set("unit", quantity::recordedUnit(dimension));
    return out;
}
Json time(const std::string& text) { return typed(text, quantity::Dimension::Duration); }
Json tilt(const std::string& text) { return typed(text, quantity::Dimension::Angle); }

// The record of a yard, entry by entry, with two tablets and five people.
class Told {
public:
    enum Who : std::uint8_t { Ada = 1, Rosa, Tam, Bea, Odd };

    Told()
    {
        enrol(Ada, "Ada", {"authoriser", "supervisor"});
        enrol(Rosa, "Rosa", {"tester"});
        enrol(Tam, "Tam", {"operator", "hand"});
        enrol(Bea, "Bea", {"hand"});
        enrol(Odd, "Odd", {"watch"});
    }

    void wait(std::int64_t ms)
    {
        for (ledger::Moment& now : m_now) {
            now.boot_ms += ms;
            now.wall_ms += ms;
        }
    }
    void reboot() { ++m_now[tablet].boot.value[0], m_now[tablet].boot_ms = 0; }

    Hash add(Kind kind, const std::string& number, Json payload, std::optional<Who> by)
    {
        ledger::Line line;
        line.hash.value[0] = 1;
        line.hash.value[30] = static_cast<std::uint8_t>(lines.size() >> 8U);
        line.hash.value[31] = static_cast<std::uint8_t>(lines.size());
        line.entry.kind = kind;
        line.entry.payload = std::move(payload);
        line.entry.device.value[0] = static_cast<std::uint8_t>(tablet + 1);
        line.entry.seq = ++m_seq[tablet];
        line.entry.at = m_now[tablet];
        if (by) {
            line.entry.signer = ledger::Signer{{}, {}};
            line.entry.signer->person.value[0] = *by;
        }
        if (const auto known = m_vessels.find(number); known != m_vessels.end()) {
            line.entry.vessel = known->second;
        }
        lines.push_back(line);
        return line.hash;
    }
    // "500 galUS" holds about what the pack's times are for; the smaller one a tenth of it.
    void admit(const std::string& number, const char* diameter = "37.5 in", const char* length = "119 in")
    {
        Json vessel = Json::object();
        vessel.set("outside_diameter", diameter).set("overall_length", length).set("wall", "0 in").set("heads", "ellipsoidal-2-1");
        Json payload = Json::object();
        payload.set("number", number).set("vessel", vessel);
        const Hash hash = add(Kind::VesselAdmitted, {}, payload, Ada);
        VesselId id;
        std::copy_n(hash.value.begin(), id.value.size(), id.value.begin());
        id.value[0] = hash.value[31]; // the test's hashes differ at their end alone
        lines.back().hash.value[0] = hash.value[31];
        m_vessels[number] = id;
    }
    Hash card(
        const std::string& number, const std::string& step, Who by, Json facts = Json::object(), std::optional<Who> with = std::nullopt)
    {
        Json payload = Json::object();
        payload.set("step", step).set("outcome", "done").set("facts", std::move(facts));
        const Hash hash = add(Kind::Evidence, number, payload, by);
        if (with) {
            confirm(number, hash, *with);
        }
        return hash;
    }
    Hash confirm(const std::string& number, const Hash& what, Who by)
    {
        Json payload = Json::object();
        payload.set("confirms", canon::toHex(what));
        return add(Kind::Confirmed, number, payload, by);
    }
    void cannot(const std::string& number, const std::string& step)
    {
        Json payload = Json::object();
        payload.set("step", step).set("outcome", "cannot").set("reason", "frozen");
        add(Kind::Evidence, number, payload, Bea);
    }
    void correct(const std::string& number, const Hash& what)
    {
        Json payload = Json::object();
        payload.set("withdraws", canon::toHex(what)).set("why", "typed wrong");
        add(Kind::Corrected, number, payload, Bea);
    }
    void event(const std::string& number, const std::string& event)
    {
        Json payload = Json::object();
        payload.set("event", event);
        add(Kind::Event, number, payload, std::nullopt);
    }
    Hash release(const std::string& number, const std::string& hold_point, Who by = Ada, std::optional<Who> with = Tam)
    {
        Json payload = Json::object();
        payload.set("hold_point", hold_point);
        const Hash hash = add(Kind::Released, number, payload, by);
        if (with) {
            confirm(number, hash, *with);
        }
        return hash;
    }
    void enrol(Who who, const char* name, const std::vector<const char*>& roles, std::int64_t from_ms = 0)
    {
        ledger::Person person;
        person.id.value[0] = who;
        person.name = name;
        for (const char* role : roles) {
            person.roles.push_back({role, from_ms, INT64_MAX, {}, false});
        }
        yard.people[person.id] = person;
    }

    [[nodiscard]] std::int64_t now() const { return m_now[0].wall_ms; }
    [[nodiscard]] report::Asked ask(unsigned shuffled = 0) const
    {
        std::vector<report::Noted> entries;
        for (const ledger::Line& line : lines) {
            entries.push_back(report::noted(base(), line));
        }
        if (shuffled != 0) {
            std::shuffle(entries.begin(), entries.end(), std::mt19937(shuffled));
        }
        return report::questions(base(), yard, std::move(entries), [&](const VesselId& vessel) {
            ++asked_whether_failed;
            return failed == vessel;
        });
    }
    [[nodiscard]] std::vector<Question> of(What what) const
    {
        std::vector<Question> out = ask().questions;
        std::erase_if(out, [&](const Question& one) { return one.what != what; });
        return out;
    }
    [[nodiscard]] VesselId vessel(const std::string& number) const { return m_vessels.at(number); }

    std::vector<ledger::Line> lines;
    ledger::YardState yard;
    std::size_t tablet{};
    std::optional<VesselId> failed;
    mutable int asked_whether_failed{};

private:
    std::map<std::string, VesselId> m_vessels;
    std::array<std::uint64_t, 2> m_seq{};
    std::array<ledger::Moment, 2> m_now{
        {{1'780'000'000'000, 3'600'000, {{1}}, ledger::ClockState::Ok}, {1'780'000'000'000, 600'000, {{2}}, ledger::ClockState::Ok}}};
};

Json facts(std::initializer_list<std::pair<const char*, Json>> list)
{
    Json out = Json::object();
    for (const auto& [key, value] : list) {
        out.set(key, value);
    }
    return out;
}

} // namespace

class QuestionsTest : public QObject {
    Q_OBJECT

private slots:
    void aFillThatIsTooFast_data();
    void aFillThatIsTooFast();
    void ofASmallVessel();
    void aTimeThatTheCardTells_data();
    void aTimeThatTheCardTells();
    void afterWhatItNeeds();
    void whatDoesNotCountIsNotAsked();
    void afterTheFirstRelease();
    void twoTabletsAreNotMeasured();
    void aFillRunsByItself();
    void cardsTogether_data();
    void cardsTogether();
    void cardsOfSeveralAreNotTogether();
    void beforeARelease_data();
    void beforeARelease();
    void theSameValue();
    void oneValueOrHonest_data();
    void oneValueOrHonest();
    void noGasNoOxygen();
    void theSamePair();
    void notAlwaysTheSamePair();
    void nothingWasFound();
    void somethingWasFound();
    void theOrderInWhichTheyCameIsNothing();
};

// 57 min of a vessel of 500 US gal; a tenth of it is 342 s.
void QuestionsTest::aFillThatIsTooFast_data()
{
    QTest::addColumn<qint64>("after_ms");
    QTest::addColumn<bool>("asked");
    QTest::newRow("three minutes") << qint64(3 * kMinute) << true;
    QTest::newRow("a moment less than a tenth") << qint64(342 * kSecond - 1) << true;
    QTest::newRow("a tenth") << qint64(342 * kSecond) << false;
    QTest::newRow("all the time it takes") << qint64(57 * kMinute) << false;
}
void QuestionsTest::aFillThatIsTooFast()
{
    QFETCH(qint64, after_ms);
    QFETCH(bool, asked);
    Told told;
    told.admit("NQ-02");
    told.event("NQ-02", "fill-started");
    told.wait(after_ms);
    const Hash card = told.card("NQ-02", "fill-one", Told::Bea, facts({{"overflowed", time("2 min")}}));
    const auto questions = told.ask().questions;
    QCOMPARE(questions.size(), asked ? 1U : 0U);
    if (asked) {
        const Question& question = questions.front();
        QCOMPARE(question.what, What::SoonerThanItTakes);
        QCOMPARE(question.vessels, std::vector<std::string>{"NQ-02"});
        QCOMPARE(question.persons, std::vector<std::string>{"Bea"});
        QCOMPARE(question.entries.size(), std::size_t{2});
        QCOMPARE(question.entries.back(), card);
        QCOMPARE(question.took_ms, after_ms);
        QCOMPARE(question.takes_ms, std::int64_t{57 * kMinute});
        QCOMPARE(question.after_event, base().event("fill-started"));
        QCOMPARE(question.at_ms, told.now());
    }
}

// 12.2 in by 48 in holds about 20 US gal (a 100 lb cylinder: about 24 US gal of water): 2.3 min of the 57, a tenth of it 14 s.
void QuestionsTest::ofASmallVessel()
{
    Told told;
    told.admit("NQ-01", "12.2 in", "48 in");
    told.event("NQ-01", "fill-started");
    told.wait(kMinute);
    told.card("NQ-01", "fill-one", Told::Bea);
    QVERIFY(told.ask().questions.empty());
    told.admit("NQ-02", "12.2 in", "48 in");
    told.event("NQ-02", "fill-started");
    told.wait(5 * kSecond);
    told.card("NQ-02", "fill-one", Told::Bea);
    QCOMPARE(told.ask().questions.size(), std::size_t{1});
    told.admit("NQ-03", "unknown", "unknown"); // nobody knows how long that takes
    told.event("NQ-03", "fill-started");
    told.wait(kSecond);
    told.card("NQ-03", "fill-one", Told::Bea);
    QCOMPARE(told.ask().questions.size(), std::size_t{1});
}

void QuestionsTest::aTimeThatTheCardTells_data()
{
    QTest::addColumn<qint64>("after_ms");
    QTest::addColumn<bool>("asked");
    QTest::newRow("a moment less than half") << qint64(20 * kMinute - 1) << true;
    QTest::newRow("half: signed late, but it may be") << qint64(20 * kMinute) << false;
}
void QuestionsTest::aTimeThatTheCardTells()
{
    QFETCH(qint64, after_ms);
    QFETCH(bool, asked);
    Told told;
    told.admit("NQ-02");
    told.event("NQ-02", "fill-started");
    told.wait(after_ms);
    told.card("NQ-02", "brim", Told::Bea, facts({{"ran-over", time("6 min")}, {"soaked", time("40 min")}}), Told::Rosa);
    const auto questions = told.ask().questions;
    QCOMPARE(questions.size(), asked ? 1U : 0U);
    if (asked) {
        QCOMPARE(questions.front().what, What::SoonerThanItSays);
        QCOMPARE(questions.front().fact, base().fact("brim.soaked"));
        QCOMPARE(questions.front().value, std::string("40 min"));
        QCOMPARE(questions.front().takes_ms, std::int64_t{40 * kMinute});
    }
}

// Washing takes 30 min and needs that the water was let out. The same card again moves nothing; an event that voids it does.
void QuestionsTest::afterWhatItNeeds()
{
    Told told;
    told.admit("NQ-02");
    told.card("NQ-02", "letting-out", Told::Bea);
    told.wait(3 * kMinute - 1);
    told.card("NQ-02", "wash-look", Told::Bea, Json::object(), Told::Rosa);
    auto questions = told.ask().questions;
    QCOMPARE(questions.size(), std::size_t{1});
    QCOMPARE(questions.front().after_step, base().step("letting-out"));

    Told fair;
    fair.admit("NQ-02");
    fair.card("NQ-02", "letting-out", Told::Bea);
    fair.wait(3 * kMinute);
    fair.card("NQ-02", "letting-out", Told::Bea); // told once more
    fair.card("NQ-02", "wash-look", Told::Bea, Json::object(), Told::Rosa);
    QVERIFY(fair.ask().questions.empty());

    // air needs wash-look, which water voids
    Told again;
    again.admit("NQ-02");
    again.card("NQ-02", "wash-look", Told::Bea, Json::object(), Told::Rosa);
    again.wait(60 * kMinute);
    again.event("NQ-02", "fill-started");
    again.wait(60 * kMinute);
    again.card("NQ-02", "wash-look", Told::Bea, Json::object(), Told::Rosa);
    again.wait(3 * kMinute);
    again.card("NQ-02", "air", Told::Bea);
    questions = again.ask().questions;
    QCOMPARE(questions.size(), std::size_t{1});
    QCOMPARE(questions.front().after_step, base().step("wash-look"));
}

void QuestionsTest::whatDoesNotCountIsNotAsked()
{
    Told told;
    told.admit("NQ-02");
    const Hash needed = told.card("NQ-02", "letting-out", Told::Bea);
    told.wait(kMinute);
    told.card("NQ-02", "wash-look", Told::Bea); // nobody confirmed it
    QVERIFY(told.ask().questions.empty());
    const Hash second = told.card("NQ-02", "wash-look", Told::Bea, Json::object(), Told::Rosa);
    QCOMPARE(told.ask().questions.size(), std::size_t{1});
    Told put_right = told;
    put_right.correct("NQ-02", second);
    QVERIFY(put_right.ask().questions.empty());
    Told beside = told; // after a place that two entries of one device claim
    for (ledger::Line& line : beside.lines) {
        line.beside = true;
    }
    QVERIFY(beside.ask().questions.empty());
    told.correct("NQ-02", needed); // what it came after was withdrawn
    QVERIFY(told.ask().questions.empty());
}

// 15 min: nothing is taken out before the release for it. That it is released again later says nothing of when that was done.
void QuestionsTest::afterTheFirstRelease()
{
    Told told;
    told.admit("NQ-02");
    told.release("NQ-02", "open-fittings");
    told.wait(90 * kSecond - 1);
    told.card("NQ-02", "fittings-out", Told::Bea, Json::object(), Told::Rosa);
    const auto questions = told.ask().questions;
    QCOMPARE(questions.size(), std::size_t{1});
    QCOMPARE(questions.front().after_release, base().holdPoint("open-fittings"));

    Told fair;
    fair.admit("NQ-02");
    fair.release("NQ-02", "open-fittings");
    fair.wait(90 * kSecond);
    fair.release("NQ-02", "open-fittings");
    fair.card("NQ-02", "fittings-out", Told::Bea, Json::object(), Told::Rosa);
    QVERIFY(fair.ask().questions.empty());

    Told half;
    half.admit("NQ-02");
    half.release("NQ-02", "open-fittings", Told::Ada, std::nullopt); // nobody accepted it
    half.card("NQ-02", "fittings-out", Told::Bea, Json::object(), Told::Rosa);
    QVERIFY(half.ask().questions.empty());
}

void QuestionsTest::twoTabletsAreNotMeasured()
{
    Told told;
    told.admit("NQ-02");
    told.event("NQ-02", "fill-started");
    told.wait(kMinute);
    told.tablet = 1;
    told.card("NQ-02", "fill-one", Told::Bea);
    QVERIFY(told.ask().questions.empty());
    told.tablet = 0;
    told.admit("NQ-03");
    told.event("NQ-03", "fill-started");
    told.wait(kMinute);
    told.reboot();
    told.card("NQ-03", "fill-one", Told::Bea);
    QVERIFY(told.ask().questions.empty());
}

// While it fills the same hand signs other cards, of this vessel and of others; then the fill, right after one of them.
void QuestionsTest::aFillRunsByItself()
{
    Told told;
    told.admit("NQ-02");
    told.admit("NQ-03");
    told.event("NQ-02", "fill-started");
    for (const char* step : {"measure", "signs", "hollow-places", "support"}) {
        told.wait(14 * kMinute);
        told.card("NQ-03", step, Told::Bea);
    }
    told.card("NQ-02", "place", Told::Bea);
    told.wait(20 * kSecond);
    told.card("NQ-02", "fill-one", Told::Bea);
    QVERIFY(told.ask().questions.empty());
}

void QuestionsTest::cardsTogether_data()
{
    QTest::addColumn<int>("cards");
    QTest::addColumn<qint64>("within_ms");
    QTest::addColumn<bool>("asked");
    QTest::newRow("four in two minutes") << 4 << qint64(2 * kMinute) << true;
    QTest::newRow("four in a moment more") << 4 << qint64(2 * kMinute + 1) << false;
    QTest::newRow("three") << 3 << qint64(0) << false;
    QTest::newRow("five from paper") << 5 << qint64(kMinute) << true;
}
void QuestionsTest::cardsTogether()
{
    QFETCH(int, cards);
    QFETCH(qint64, within_ms);
    QFETCH(bool, asked);
    const std::vector<const char*> steps{"identity", "signs", "hollow-places", "measure", "place"};
    Told told;
    told.admit("NQ-02");
    for (int i = 0; i < cards; ++i) {
        if (i == cards - 1) {
            told.wait(within_ms);
        }
        told.card("NQ-02", steps[static_cast<std::size_t>(i)], Told::Bea);
    }
    const auto questions = told.ask().questions;
    QCOMPARE(questions.size(), asked ? 1U : 0U);
    if (asked) {
        QCOMPARE(questions.front().what, What::SignedTogether);
        QCOMPARE(questions.front().count, static_cast<std::size_t>(cards));
        QCOMPARE(questions.front().took_ms, within_ms);
        QCOMPARE(questions.front().steps.size(), static_cast<std::size_t>(cards));
        QCOMPARE(questions.front().takes_ms, (cards == 4 ? 15 : 18) * kMinute); // 3 + 3 + 4 + 5, and 3
    }
}

void QuestionsTest::cardsOfSeveralAreNotTogether()
{
    Told told;
    told.admit("NQ-02");
    told.card("NQ-02", "identity", Told::Bea);
    told.card("NQ-02", "signs", Told::Tam);
    told.card("NQ-02", "hollow-places", Told::Bea);
    told.card("NQ-02", "hollow-places", Told::Bea); // put right, twice
    told.card("NQ-02", "hollow-places", Told::Bea);
    told.tablet = 1;
    told.card("NQ-02", "measure", Told::Bea);
    told.card("NQ-02", "place", Told::Bea);
    QVERIFY(told.ask().questions.empty());
}

// Three, four, five and three minutes after the first card: 15 min, a tenth of it 90 s. By two people, so that no hand signed four.
void QuestionsTest::beforeARelease_data()
{
    QTest::addColumn<int>("cards");
    QTest::addColumn<qint64>("within_ms");
    QTest::addColumn<bool>("asked");
    QTest::newRow("a moment less than a tenth") << 5 << qint64(90 * kSecond - 1) << true;
    QTest::newRow("a tenth") << 5 << qint64(90 * kSecond) << false;
    QTest::newRow("three cards") << 3 << qint64(kSecond) << false;
}
void QuestionsTest::beforeARelease()
{
    QFETCH(int, cards);
    QFETCH(qint64, within_ms);
    QFETCH(bool, asked);
    const std::vector<const char*> steps{"identity", "signs", "hollow-places", "measure", "place"};
    Told told;
    told.admit("NQ-02");
    told.card("NQ-02", "ownership", Told::Ada);
    told.wait(60 * kMinute);
    told.release("NQ-02", "accept"); // what came before it is another matter
    for (int i = 0; i < cards; ++i) {
        told.card("NQ-02", steps[static_cast<std::size_t>(i)], i % 2 == 0 ? Told::Bea : Told::Tam);
    }
    told.wait(within_ms);
    told.release("NQ-02", "open-fittings");
    const auto questions = told.ask().questions;
    QCOMPARE(questions.size(), asked ? 1U : 0U);
    if (asked) {
        QCOMPARE(questions.front().what, What::JustBeforeRelease);
        QCOMPARE(questions.front().hold_point, base().holdPoint("open-fittings"));
        QCOMPARE(questions.front().count, std::size_t{5});
        QCOMPARE(questions.front().persons, (std::vector<std::string>{"Bea", "Tam"}));
        QCOMPARE(questions.front().takes_ms, 15 * kMinute);
        QCOMPARE(questions.front().entries.size(), std::size_t{6});
    }
}

void QuestionsTest::theSameValue()
{
    Told told;
    for (const char* number : {"NQ-01", "NQ-02", "NQ-03"}) {
        told.admit(number);
        told.wait(60 * kMinute);
        told.card(number, "pose", Told::Bea, facts({{"pitch", tilt("0.4 deg")}, {"roll", tilt(number[4] == '2' ? "1 deg" : "2 deg")}}),
            Told::Rosa);
    }
    auto questions = told.ask().questions;
    QCOMPARE(questions.size(), std::size_t{1});
    QCOMPARE(questions.front().what, What::SameValue);
    QCOMPARE(questions.front().fact, base().fact("pose.pitch"));
    QCOMPARE(questions.front().value, std::string("0.4 deg"));
    QCOMPARE(questions.front().vessels, (std::vector<std::string>{"NQ-01", "NQ-02", "NQ-03"}));
    QCOMPARE(questions.front().persons, std::vector<std::string>{"Bea"});
    // a fourth makes it one question of four
    told.admit("NQ-04");
    told.wait(60 * kMinute);
    const Hash fourth = told.card("NQ-04", "pose", Told::Bea, facts({{"pitch", tilt("0.4 deg")}}), Told::Rosa);
    QCOMPARE(told.ask().questions.size(), std::size_t{1});
    QCOMPARE(told.ask().questions.front().count, std::size_t{4});
    told.correct("NQ-04", fourth);
    QCOMPARE(told.ask().questions.front().count, std::size_t{3});
}

void QuestionsTest::oneValueOrHonest_data()
{
    QTest::addColumn<QString>("step");
    QTest::addColumn<QString>("fact");
    QTest::addColumn<QStringList>("values");
    QTest::addColumn<QStringList>("vessels");
    QTest::addColumn<bool>("one_hand");
    QTest::addColumn<bool>("asked");
    const QStringList three{"NQ-01", "NQ-02", "NQ-03"};
    const auto row = [&](const char* name, const char* step, const char* fact, const QStringList& values, bool asked = false) {
        QTest::newRow(name) << step << fact << values << three << true << asked;
    };
    row("three times", "pose", "pitch", {"0.4 deg", "0.4 deg", "0.4 deg"}, true);
    row("typed in another way", "brim", "soaked", {"35 min", "2100 s", "35 min"}, true);
    row("twice", "pose", "pitch", {"0.4 deg", "0.4 deg"});
    row("another between", "pose", "pitch", {"0.4 deg", "0.5 deg", "0.4 deg"});
    row("levelled", "pose", "pitch", {"0 deg", "0 deg", "0 deg"});
    row("as long as it must", "brim", "soaked", {"30 min", "30 min", "30 min"});
    row("of one make", "measure", "outside-diameter", {"37.5 in", "37.5 in", "37.5 in"});
    row("the same place", "place", "distance", {"20 m", "20 m", "20 m"});
    row("no pressure", "zero-pressure", "gauge", {"0 psi", "0 psi", "0 psi"});
    const QStringList same{"0.4 deg", "0.4 deg", "0.4 deg"};
    QTest::newRow("one vessel") << "pose"
                                << "pitch" << same << QStringList{"NQ-01", "NQ-01", "NQ-01"} << true << false;
    QTest::newRow("two hands") << "pose"
                               << "pitch" << same << three << false << false;
}
void QuestionsTest::oneValueOrHonest()
{
    QFETCH(QString, step);
    QFETCH(QString, fact);
    QFETCH(QStringList, values);
    QFETCH(QStringList, vessels);
    QFETCH(bool, one_hand);
    QFETCH(bool, asked);
    Told told;
    for (const QString& number : {QStringLiteral("NQ-01"), QStringLiteral("NQ-02"), QStringLiteral("NQ-03")}) {
        told.admit(number.toStdString());
    }
    const rules::Index index = base().fact((step + u'.' + fact).toStdString());
    for (int i = 0; i < values.size(); ++i) {
        told.wait(100 * kMinute);
        const Json value = typed(values[i].toStdString(), base().facts[index].dimension);
        told.card(vessels[i].toStdString(), step.toStdString(), one_hand || i != 1 ? Told::Bea : Told::Tam,
            facts({{fact.toLatin1().constData(), value}}), Told::Rosa);
    }
    QCOMPARE(told.of(What::SameValue).size(), asked ? 1U : 0U);
    QCOMPARE(told.ask().questions.size(), asked ? 1U : 0U);
}

// 0 %LEL and 20.9 % are right every time; however often they are read.
void QuestionsTest::noGasNoOxygen()
{
    Told told;
    for (int i = 0; i < 40; ++i) {
        const std::string number = "NQ-" + std::to_string(10 + i);
        told.admit(number);
        told.wait(60 * kMinute);
        const Json gas = typed("0 %LEL", quantity::Dimension::LimitShare);
        const Json oxygen = typed("20.9 %", quantity::Dimension::VolumeShare);
        Json row = facts({{"name", Json("vent")}, {"gas", gas}, {"oxygen", oxygen}, {"age", time("8 min")}});
        for (const char* step : {"readings-wet", "readings-dry"}) {
            told.card(number, step, Told::Rosa, facts({{"fresh-gas", gas}, {"fresh-oxygen", oxygen}, {"set", Json::array({row})}}));
            told.wait(60 * kMinute);
        }
    }
    QCOMPARE(told.ask().cards, std::size_t{80});
    QVERIFY(told.ask().questions.empty());
}

void QuestionsTest::theSamePair()
{
    Told told;
    told.admit("NQ-02");
    const auto give = [&](int releases, Told::Who by, Told::Who with) {
        for (int i = 0; i < releases; ++i) {
            told.wait(60 * kMinute);
            told.release("NQ-02", "accept", by, with);
        }
    };
    give(19, Told::Ada, Told::Tam);
    told.release("NQ-02", "accept", Told::Ada, std::nullopt); // not accepted: none
    QVERIFY(told.of(What::SamePair).empty());
    give(1, Told::Ada, Told::Tam);
    const auto questions = told.of(What::SamePair);
    QCOMPARE(questions.size(), std::size_t{1});
    QCOMPARE(questions.front().count, std::size_t{20});
    QCOMPARE(questions.front().persons, (std::vector<std::string>{"Ada", "Tam"}));
    QCOMPARE(questions.front().entries.size(), std::size_t{20});
    give(1, Told::Ada, Told::Bea);
    QVERIFY(told.of(What::SamePair).empty());
}

// Nobody else holds the roles, or not for as long; or one of the last was given by another.
void QuestionsTest::notAlwaysTheSamePair()
{
    const auto given = [](auto change) {
        Told told;
        told.admit("NQ-02");
        const std::int64_t start = told.now();
        for (int i = 0; i < 20; ++i) {
            told.wait(60 * kMinute);
            told.release("NQ-02", "accept");
        }
        change(told, start);
        return told.of(What::SamePair).size();
    };
    QCOMPARE(given([](Told&, std::int64_t) {}), std::size_t{1});
    QCOMPARE(given([](Told& told, std::int64_t) {
        told.enrol(Told::Bea, "Bea", {"watch"}); // accepts nothing
    }),
        std::size_t{0});
    QCOMPARE(given([](Told& told, std::int64_t start) {
        told.enrol(Told::Bea, "Bea", {"hand"}, start + 90 * kMinute); // since the first was given
    }),
        std::size_t{0});
    QCOMPARE(given([](Told& told, std::int64_t) {
        for (auto& [id, person] : told.yard.people) {
            person.retired = person.name == "Bea";
        }
    }),
        std::size_t{0});
}

void QuestionsTest::nothingWasFound()
{
    Told told;
    for (int i = 0; i < 30; ++i) {
        QVERIFY(told.of(What::NothingFound).empty());
        const std::string number = "NQ-" + std::to_string(10 + i);
        told.admit(number);
        told.wait(60 * kMinute);
        told.card(number, "signs", Told::Bea);
        told.release(number, "accept", Told::Ada, i % 2 == 0 ? Told::Tam : Told::Bea);
    }
    QVERIFY(told.asked_whether_failed == 0);
    const auto questions = told.of(What::NothingFound);
    QCOMPARE(questions.size(), std::size_t{1});
    QCOMPARE(questions.front().count, std::size_t{30});
    QCOMPARE(questions.front().vessels.size(), std::size_t{30});
    QCOMPARE(questions.front().entries.size(), std::size_t{30});
    QCOMPARE(told.asked_whether_failed, 30);
    // one that came in and was not released is no job yet
    told.admit("NQ-99");
    QCOMPARE(told.of(What::NothingFound).size(), std::size_t{1});
}

void QuestionsTest::somethingWasFound()
{
    const auto found = [](auto what) {
        Told told;
        for (int i = 0; i < 30; ++i) {
            const std::string number = "NQ-" + std::to_string(10 + i);
            told.admit(number);
            told.wait(60 * kMinute);
            if (i == 14) {
                what(told, number);
            }
            told.release(number, "accept", Told::Ada, i % 2 == 0 ? Told::Tam : Told::Bea);
        }
        return told.of(What::NothingFound).empty();
    };
    QVERIFY(!found([](Told&, const std::string&) {}));
    QVERIFY(!found([](Told& told, const std::string& number) { told.event(number, "moved"); })); // raises no stop
    QVERIFY(found([](Told& told, const std::string& number) { told.event(number, "concern"); }));
    QVERIFY(found([](Told& told, const std::string& number) { told.cannot(number, "brim"); }));
    QVERIFY(found([](Told& told, const std::string& number) { told.add(Kind::Cleared, number, Json::object(), Told::Ada); }));
    QVERIFY(found([](Told& told, const std::string& number) { told.add(Kind::Withdrawn, number, Json::object(), Told::Ada); }));
    QVERIFY(found([](Told& told, const std::string& number) { told.failed = told.vessel(number); }));
}

void QuestionsTest::theOrderInWhichTheyCameIsNothing()
{
    Told told;
    for (int i = 0; i < 12; ++i) {
        const std::string number = "NQ-" + std::to_string(10 + i);
        told.tablet = static_cast<std::size_t>(i % 2);
        told.admit(number);
        told.wait(60 * kMinute);
        told.card(number, "pose", Told::Bea, facts({{"pitch", tilt("0.4 deg")}}), Told::Rosa);
        told.event(number, "fill-started");
        told.wait(i * kMinute);
        told.card(number, "brim", Told::Bea, facts({{"soaked", time("35 min")}}), Told::Rosa);
        for (const char* step : {"identity", "signs", "hollow-places", "measure"}) {
            told.card(number, step, Told::Tam);
        }
        told.release(number, "accept");
    }
    const auto asked = told.ask();
    QVERIFY(asked.questions.size() > 20);
    QVERIFY(std::ranges::is_sorted(asked.questions, std::ranges::greater(), &Question::at_ms)); // newest first
    const auto words = [](const report::Asked& one) {
        std::vector<std::string> out;
        for (const Question& question : one.questions) {
            out.push_back(std::string(report::questionWord(question.what)) + canon::toHex(question.entries.back())
                + std::to_string(question.took_ms) + std::to_string(question.count));
        }
        std::ranges::sort(out);
        return out;
    };
    for (unsigned seed = 1; seed < 8; ++seed) {
        QCOMPARE(words(told.ask(seed)), words(asked));
    }
}

BRIMFUL_SUITE(QuestionsTest);
#include "questions_test.moc"
