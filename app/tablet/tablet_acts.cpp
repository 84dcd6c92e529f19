// Sheets opened and closed, tags printed, stops that need nobody's PIN, the look of the screen.
#include "app/tablet/plans.h"
#include "app/tablet/tablet.h"

#include <QStandardPaths>

#include <algorithm>
#include <array>
#include <limits>
#include <set>

namespace brimful::tablet {

namespace {

constexpr std::array kTextSizes{100, 125, 150, 175, 200}; // per cent

} // namespace

void Tablet::openSheet(Plan plan, View then)
{
    plan.closed = [this, then](bool written) { sheetClosed(then, written); };
    yard::Yard* open = m_session.isOpen() ? &m_session.yard() : nullptr;
    m_sheet.open(std::move(plan), open, hasVessel() ? m_vessel_page.picture() : VesselPicture{}, m_session.reading);
    if (m_sheet.hand() != Sheet::Kind::Told || !m_sheet.message().isEmpty()) {
        go(View::Sheet);
    }
}

void Tablet::sheetClosed(View then, bool written)
{
    const QString outcome = m_sheet.message();
    m_clocks_changed = true;
    if (!m_recovery.isEmpty()) {
        go(View::Recovery);
        return;
    }
    if (!m_session.isOpen()) {
        go(View::FirstStart);
        return;
    }
    if (const auto broken = m_session.yard().fault()) {
        fault(*broken);
        return;
    }
    if (then == View::Vessel && hasVessel()) {
        const std::size_t before = m_vessel_page.view() == nullptr ? 0 : m_vessel_page.view()->standing.blockers.size();
        m_vessel_page.say({});
        if (auto seen = written ? m_session.yard().seen(m_number) : nullptr; seen != nullptr) {
            showVessel(std::move(seen));
        } else if (!refreshVessel()) {
            return;
        }
        goToVessel();
        if (written && m_vessel_page.view() != nullptr) {
            const std::size_t now = m_vessel_page.view()->standing.blockers.size();
            //: after an entry: how many reasons still hold the vessel
            const QString held = now >= before ? tr("Recorded.")
                : now > 0                      ? tr("Recorded. Now held by %1.").arg(now)
                                               : tr("Recorded. All is proven that this hold point asks.");
            m_vessel_page.say(outcome.isEmpty() ? held : outcome);
        }
        return;
    }
    showYard(true);
    if (then == View::SetUp || then == View::Law) {
        fillSetUp();
    }
    if (m_screen != View::Fault) {
        go(then);
    }
}

void Tablet::newYard()
{
    m_number.clear();
    openSheet(newYardPlan(m_session, [this](const QString& sheet) { m_recovery = sheet; }), View::FirstStart);
}

void Tablet::goOn()
{
    m_recovery.clear();
    opened({});
    setUp();
}

void Tablet::add() { openSheet(admitPlan(m_session), View::Yard); }
void Tablet::addPerson() { openSheet(personPlan(m_session), View::SetUp); }
void Tablet::addInstrument() { openSheet(instrumentPlan(m_session), View::SetUp); }
void Tablet::bumpCheck() { openSheet(bumpPlan(m_session), View::SetUp); }
void Tablet::adopt() { openSheet(adoptPlan(m_session), View::Law); }
void Tablet::showLaw() { go(View::Law); }
void Tablet::showQuestions()
{
    go(View::Questions);
    m_questions.open(m_session);
}
void Tablet::showAbout() { go(View::About); }

void Tablet::putRight()
{
    if (const auto entry = m_trail_page.chosen(); entry && m_trail_page.canPutRight()) {
        openSheet(putRightPlan(m_session, *entry), View::Vessel);
    }
}

void Tablet::setUp()
{
    m_number.clear();
    fillSetUp();
    go(View::SetUp);
}

QString Tablet::lawName()
{
    const ledger::AdoptedPack* adopted = m_session.isOpen() ? m_session.yard().adopted() : nullptr;
    return adopted == nullptr ? QString() : text::lawName(adopted->law);
}

bool Tablet::adopted() { return m_session.isOpen() && m_session.yard().state().pack.has_value(); }

void Tablet::fillSetUp()
{
    std::vector<Row> people;
    for (const yard::PersonShown& one : m_session.yard().people()) {
        Row row;
        row.key = QString::fromStdString(one.name);
        row.title = row.key;
        QStringList roles;
        for (const ledger::Role& role : one.roles) {
            roles.append(text::roleName(m_session.pack(), role.role));
        }
        row.line = one.retired ? tr("retired") : roles.join(QStringLiteral(", "));
        row.note = one.signs_here ? QString() : tr("no key on this tablet");
        row.solid = !one.retired && one.signs_here;
        people.push_back(std::move(row));
    }
    m_people.set(std::move(people));
    std::vector<Row> meters;
    for (const yard::InstrumentShown& one : m_session.yard().instruments()) {
        Row row;
        row.key = QString::fromStdString(one.instrument.id);
        row.title = row.key;
        row.line = one.in_calibration
            ? tr("calibrated till %1").arg(text::dateTime(one.instrument.calibrated_until_ms, m_session.reading).section(u' ', 0, 3))
            : tr("out of calibration");
        row.note = one.bumped_ms ? tr("bumped %1").arg(text::clockTime(*one.bumped_ms, m_session.reading)) : tr("not bumped");
        row.solid = one.believed;
        meters.push_back(std::move(row));
    }
    m_instruments.set(std::move(meters));
    std::vector<Row> law;
    for (const rules::Tightening& one : rules::tightenings(m_session.pack())) {
        const text::Tightened words = text::tightened(one, m_session.pack(), m_session.reading);
        Row row;
        row.key = QString::number(law.size());
        row.title = QStringLiteral("%1: %2").arg(words.what, words.asks);
        //: a limit of a law; %1 the law, %2 its source and mark
        row.line = tr("%1: %2").arg(text::lawName(one.by), words.source);
        row.solid = one.tighter;
        law.push_back(std::move(row));
    }
    m_law.set(std::move(law));
    std::vector<Row> about;
    for (const QString& caution : text::cautions()) {
        Row row;
        row.key = QString::number(about.size());
        row.title = caution;
        about.push_back(std::move(row));
    }
    m_about.set(std::move(about));
}

void Tablet::setTheme(const QString& theme)
{
    if (theme != QLatin1String("light") && theme != QLatin1String("dark") && theme != QLatin1String("sunlight")) {
        return;
    }
    m_theme = theme;
    Q_EMIT lookChanged();
}

void Tablet::setWet(bool wet)
{
    m_wet = wet;
    Q_EMIT wetChanged();
}

void Tablet::nextTheme()
{
    setTheme(m_theme == QLatin1String("light") ? QStringLiteral("dark")
            : m_theme == QLatin1String("dark") ? QStringLiteral("sunlight")
                                               : QStringLiteral("light"));
    m_session.putSetting("theme", m_theme.toStdString());
}

void Tablet::setTextSize(int percent)
{
    if (std::ranges::find(kTextSizes, percent) == kTextSizes.end()) {
        return;
    }
    m_text_size = percent;
    Q_EMIT lookChanged();
}

void Tablet::nextTextSize()
{
    const auto* larger = std::ranges::upper_bound(kTextSizes, m_text_size);
    setTextSize(larger == kTextSizes.end() ? kTextSizes.front() : *larger);
    m_session.putSetting("text", std::to_string(m_text_size));
}

QString Tablet::units() const { return m_session.reading.units == text::Units::Us ? tr("gal, in") : tr("L, mm"); }

void Tablet::nextUnits()
{
    m_session.setUnits(m_session.reading.units == text::Units::Us ? text::Units::Si : text::Units::Us);
    if (m_session.isOpen()) {
        fillSetUp();
        showYard(false);
    }
    Q_EMIT lookChanged();
}

void Tablet::printTag()
{
    const char* label = m_tag_page.label() == print::Label::Mm100x150 ? "100x150" : m_tag_page.label() == print::Label::A6 ? "A6" : "A4";
    const auto printed = m_session.yard().printTag(m_number, label, m_session.reading.offset_minutes, m_tag_page.isPrinted());
    if (!printed) {
        m_tag_page.setSaved(text::refusal(printed.error(), &m_session.pack()));
        return;
    }
    if (refreshVessel()) {
        const bool again = m_tag_page.isPrinted();
        if (!again) {
            m_tag_page.show(m_vessel_page.picture().view, m_session.pack(), m_session.reading);
        }
        m_tag_page.setPrinted(*printed);
    }
}

void Tablet::saveTag()
{
    if (m_tag_page.page() == nullptr) {
        return;
    }
    const QString documents = QStandardPaths::writableLocation(QStandardPaths::DocumentsLocation);
    const QString name = QStringLiteral("tag-%1-%2.pdf").arg(m_tag_page.number(), m_tag_page.serial());
    const std::filesystem::path file = std::filesystem::path(documents.toStdString()) / name.toStdString();
    std::error_code ignored; // the write says what is wrong
    std::filesystem::create_directories(file.parent_path(), ignored);
    constexpr int kDpi = 300;
    const auto written = print::writeTagPdf(file, *m_tag_page.page(), m_session.pack(), m_session.reading, m_tag_page.label(), kDpi);
    m_tag_page.setSaved(
        written ? tr("Saved as %1").arg(QString::fromStdString(file.string())) : tr("Could not be saved. Write the code on a card."));
}

void Tablet::stopVessel(const std::string& number, const char* event)
{
    m_clocks_changed = true;
    if (const auto done = m_session.yard().event(number, event, {}); !done) {
        say(text::refusal(done.error(), &m_session.pack()));
    }
}

void Tablet::stop()
{
    if (!m_session.isOpen()) {
        return;
    }
    if (hasVessel()) {
        stopVessel(m_number, "stop");
        if (refreshVessel()) {
            openSheet(stoppedPlan(m_session, m_number), View::Vessel);
        }
        return;
    }
    // In the yard nobody said which vessel: everything that is at work stops; what the list knows first, then what was not read yet.
    std::set<std::string> stopped;
    const auto stopWhatRuns = [&](const yard::Outcome<std::vector<report::BoardRow>>& board) {
        for (const report::BoardRow& row : board ? *board : std::vector<report::BoardRow>{}) {
            const report::PlateWord word = row.view->word;
            const bool runs =
                word == report::PlateWord::Released || word == report::PlateWord::FireWatch || word == report::PlateWord::Draining;
            if (row.read && runs && stopped.insert(row.view->number).second) {
                stopVessel(row.view->number, "stop");
            }
        }
    };
    stopWhatRuns(m_session.yard().glance(0));
    stopWhatRuns(m_session.yard().glance(std::numeric_limits<std::uint64_t>::max()));
    showYard(true);
    m_yard_page.say(tr("%n vessel(s) stopped", nullptr, static_cast<int>(stopped.size())));
}

void Tablet::speakUp()
{
    if (!m_session.isOpen()) {
        return;
    }
    if (hasVessel()) {
        stopVessel(m_number, "concern");
        if (refreshVessel()) {
            openSheet(spokenPlan(m_session, m_number), View::Vessel);
        }
        return;
    }
    Plan plan;
    plan.title = tr("Speak up");
    plan.why = tr("It is stopped as soon as you have said which.");
    Ask which;
    which.ask = tr("Which vessel?");
    which.hand = Hand::Choice;
    which.into = "vessel";
    for (const std::string& number : m_session.yard().vessels()) {
        which.options.push_back({number, QString::fromStdString(number), {}});
    }
    which.options.push_back({"*", tr("The place: all of them"), {}});
    which.fields.push_back({});
    plan.asks.push_back(std::move(which));
    plan.act = [this](const Filled& filled, const std::optional<yard::Signing>&,
                   const std::optional<yard::Signing>&) -> yard::Outcome<yard::Receipt> {
        const std::string chosen(filled.facts.textOf("vessel"));
        yard::Outcome<yard::Receipt> done = yard::Receipt{};
        for (const std::string& number : m_session.yard().vessels()) {
            if (chosen == "*" || chosen == number) {
                done = m_session.yard().event(number, "concern", {});
            }
        }
        return done;
    };
    openSheet(std::move(plan), View::Yard);
}

void Tablet::happened(const QString& id)
{
    if (!hasVessel()) {
        return;
    }
    stopVessel(m_number, id.toLatin1().constData());
    if (refreshVessel()) {
        go(m_vessel_page.view()->word == report::PlateWord::FireWatch ? View::Clock : View::Vessel);
        m_vessel_page.say(text::ofPack(m_session.pack(), "event." + id.toStdString() + ".said"));
    }
}

} // namespace brimful::tablet
