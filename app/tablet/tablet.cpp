#include "app/tablet/tablet.h"

#include "app/tablet/figures.h"
#include "app/tablet/plans.h"
#include "core/report/drawn.h"

#include <QDateTime>

#include <future>

namespace brimful::tablet {

using report::Why;

namespace {

constexpr int kOrderStillS = 20; // rows do not move under a finger
constexpr std::chrono::milliseconds kReadEach{10};
constexpr std::chrono::milliseconds kHandAway{700}; // a finger that scrolls comes back sooner

bool saysNoYard(Why why) { return why == Why::NoYard || why == Why::NotAYard || why == Why::NoSuchFile; }

} // namespace

Tablet::Tablet(const std::filesystem::path& folder, std::unique_ptr<ledger::Clock> clock, QObject* parent)
    : QObject(parent)
    , m_session(folder, std::move(clock))
{
    m_second.setInterval(1000);
    connect(&m_second, &QTimer::timeout, this, &Tablet::tick);
    m_reader.setInterval(kReadEach);
    connect(&m_reader, &QTimer::timeout, this, &Tablet::readOn);
    connect(&m_questions, &QuestionsPage::refused, this, &Tablet::fault);
}

void Tablet::start()
{
    startBeside([] {});
}

void Tablet::startBeside(const std::function<void()>& act)
{
    auto opening = std::async(std::launch::async, [this] { return m_session.open(); });
    act();
    m_second.start();
    opened(opening.get());
}

void Tablet::go(View screen)
{
    if (screen != View::Questions) {
        m_questions.close();
    }
    m_screen = screen;
    m_untouched_s = 0;
    say({});
    Q_EMIT screenChanged();
}

void Tablet::say(const QString& message)
{
    m_message = message;
    Q_EMIT messageChanged();
}

void Tablet::opened(const yard::Outcome<void>& outcome)
{
    m_number.clear();
    if (!outcome) {
        m_demo = false;
        m_plate.setDemo(false);
        if (saysNoYard(outcome.error().why)) {
            forgetClocks();
            go(View::FirstStart);
        } else {
            fault(outcome.error());
        }
        return;
    }
    if (const std::string theme = m_session.setting("theme"); !theme.empty()) {
        setTheme(QString::fromStdString(theme));
    }
    if (const std::string size = m_session.setting("text"); !size.empty()) {
        setTextSize(QString::fromStdString(size).toInt());
    }
    m_demo = m_session.yard().state().play;
    m_plate.setDemo(m_demo);
    m_screen = View::Yard; // what was shown before may have been a fault
    showYard(true);
    if (m_screen != View::Fault) {
        go(View::Yard);
    }
}

void Tablet::fault(const report::Refusal& met)
{
    // What broke first, not what could not be done because of it.
    const auto latched = m_session.isOpen() ? m_session.yard().fault() : std::nullopt;
    const report::Refusal& refusal = latched ? *latched : met;
    const rules::Pack* pack = m_session.isOpen() ? &m_session.pack() : nullptr;
    const auto line = [](const QString& title, const QString& words) {
        Row row;
        row.key = title;
        row.title = title;
        row.line = words;
        return row;
    };
    QString todo = tr("Put the tablet right. Then press Try again.");
    m_fault_title = tr("Stop all cutting. The record cannot be written.");
    if (refusal.why == Why::TabletRunning) {
        m_fault_title = tr("Another program has this yard open.");
        todo = tr("Close it there. Then press Try again.");
    } else if (refusal.why == Why::NewerYard) {
        m_fault_title = tr("This yard was written by a newer program.");
        todo = tr("Install the newer program on this tablet.");
    } else if (refusal.why == Why::Damaged) {
        m_fault_title = tr("Stop all cutting. The record is damaged.");
        todo = tr("Bring the last backup in beside it. Change nothing here.");
    } else if (refusal.why == Why::DiskFull) {
        todo = tr("Make room on the disk. Then press Try again.");
    }
    m_fault_lines.set(
        {line(tr("What broke"), text::refusal(refusal, pack)), line(tr("What is kept"), tr("Every entry that a screen showed as signed.")),
            line(tr("What is not"), tr("What was being typed and not yet signed.")), line(tr("What to do"), todo)});
    showBand({}, {});
    go(View::Fault);
}

// An open yard remembers the newest entry that it told of: it must be found again. One that did not open is opened.
void Tablet::tryAgain()
{
    const bool latched = m_session.isOpen() && m_session.yard().fault().has_value();
    opened(latched ? m_session.yard().recoverStorage() : m_session.open());
    if (m_screen == View::Fault) {
        say(tr("Tried again at %1: it is still so.").arg(text::clockTime(m_session.clock().now().wall_ms, m_session.reading)));
    }
}

void Tablet::openFolder(const QString& path)
{
    const QString plain = path.startsWith(QLatin1String("file://")) ? path.mid(7) : path;
    const auto outcome = m_session.openAt(plain.toStdString());
    if (!outcome && saysNoYard(outcome.error().why)) {
        say(text::refusal(outcome.error(), nullptr));
        return;
    }
    forgetClocks(); // of another yard
    opened(outcome);
}

void Tablet::lookRoundDemo()
{
    const QString stamp = QDateTime::currentDateTime().toString(QStringLiteral("yyyyMMdd-HHmmss"));
    const auto folder = m_session.folder().parent_path() / ("demo-" + stamp.toStdString());
    std::error_code ignored; // makeDemo says what is wrong with the folder
    std::filesystem::create_directories(folder.parent_path(), ignored);
    const auto outcome = m_session.makeDemo(folder);
    if (!outcome) {
        say(text::refusal(outcome.error(), nullptr));
        return;
    }
    forgetClocks();
    opened(outcome);
}

void Tablet::showYard(bool reorder)
{
    yard::Yard& open = m_session.yard();
    const auto board = open.glance(kGlance);
    if (!board) {
        fault(board.error());
        return;
    }
    countClocks(*board);
    m_yard_page.show(*board, open.pack(), m_session.reading, QString::fromStdString(open.state().name), open.nowMs(), reorder);
    if (const auto broken = open.fault()) {
        fault(*broken);
        return;
    }
    m_reader.start();
}

void Tablet::readOn()
{
    if (!m_session.isOpen() || m_screen == View::Fault || (m_touched.isValid() && !m_touched.hasExpired(kHandAway.count()))) {
        return;
    }
    const auto row = m_session.yard().readNext();
    if (!row) {
        fault(row.error());
    } else if (*row) {
        m_yard_page.renew(**row, m_session.pack(), m_session.reading);
        m_clocks_changed = m_clocks_changed || (*row)->view->clock.has_value();
    } else {
        m_reader.stop();
    }
}

bool Tablet::eventFilter(QObject* window, QEvent* event)
{
    switch (event->type()) {
    case QEvent::KeyPress:
    case QEvent::MouseButtonPress:
    case QEvent::MouseMove:
    case QEvent::TouchBegin:
    case QEvent::TouchUpdate:
    case QEvent::Wheel:
        m_touched.start();
        m_untouched_s = 0;
        break;
    default:
        break;
    }
    return QObject::eventFilter(window, event);
}

bool Tablet::refreshVessel()
{
    auto view = m_session.yard().vessel(m_number);
    if (!view) {
        fault(view.error());
        return false;
    }
    showVessel(std::make_shared<const report::VesselView>(std::move(*view)));
    return true;
}

void Tablet::showVessel(std::shared_ptr<const report::VesselView> view)
{
    m_plate.show(*view, m_session.pack(), m_session.reading, m_session.yard().nowMs());
    m_vessel_page.show(std::move(view), m_session.pack(), m_session.reading);
    m_clock_page.show(m_vessel_page.picture(), m_session.pack(), m_session.reading);
    m_clock_page.tick(m_session.yard().nowMs());
}

void Tablet::openVessel(const QString& number)
{
    m_number = number.toStdString();
    m_vessel_page.say({});
    if (refreshVessel()) {
        goToVessel();
    }
}

void Tablet::goToVessel()
{
    const report::PlateWord word = m_vessel_page.view()->word;
    const bool runs = word == report::PlateWord::Released || word == report::PlateWord::FireWatch;
    go(runs && m_clock_page.running() ? View::Clock : View::Vessel);
}

void Tablet::openClock()
{
    m_clock_page.show(m_vessel_page.picture(), m_session.pack(), m_session.reading);
    go(View::Clock);
}

void Tablet::scanned(const QString& text)
{
    if (!m_session.isOpen() || m_screen == View::Fault || m_screen == View::Recovery || text.trimmed().isEmpty()) {
        return;
    }
    if (m_screen == View::Sheet && m_sheet.takeScan(text.trimmed())) {
        return;
    }
    const QString typed = text.trimmed().toUpper();
    m_yard_page.say({});
    if (m_yard_page.has(typed)) {
        scannedVessel(typed);
        return;
    }
    const auto answer = m_session.yard().readTag(text.trimmed().toStdString());
    if (answer && answer->genuine && !answer->vessel.empty()) {
        scannedVessel(QString::fromStdString(answer->vessel));
        const QString doubt = !answer->newest ? tr("That tag is not the newest. Take it off.")
            : !answer->still_true             ? tr("That tag says what is no longer so.")
                                              : QString();
        if (m_screen == View::Vessel && m_number == answer->vessel) {
            m_vessel_page.say(doubt);
        } else if (!doubt.isEmpty()) { // of a vessel that is not on the screen: never on another one's page
            showBand(QString::fromStdString(answer->vessel) + QStringLiteral(": ") + doubt, m_band_number);
        }
        return;
    }
    const bool typed_here = m_screen == View::Yard; // a letter may be wrong; what was scanned elsewhere is of something else
    const bool foreign = answer || answer.error().why == Why::BadTag || (answer.error().why == Why::BadCode && !typed_here);
    const QString why = foreign ? tr("No vessel of this yard") : text::refusal(answer.error(), &m_session.pack());
    if (typed_here) {
        m_yard_page.say(why);
    } else {
        //: %1 what was scanned; %2 a sentence
        showBand(tr("Scanned: %1. %2").arg(text.trimmed().left(24), why), {});
    }
}

// Where something is half done the tablet asks before it goes elsewhere.
void Tablet::scannedVessel(const QString& number)
{
    const bool at_work = m_screen == View::Sheet || m_screen == View::Clock;
    if (!at_work) {
        openVessel(number);
    } else if (number.toStdString() != m_number) {
        //: %1 another vessel's number
        showBand(tr("%1 was scanned.").arg(number), number);
    }
}

void Tablet::showBand(const QString& text, const QString& number, BandOf of)
{
    const bool other = text != m_band || number != m_band_number;
    m_band = text;
    m_band_number = number;
    m_band_of = of;
    if (other) {
        Q_EMIT bandChanged();
    }
}

QString Tablet::bandGoLabel() const
{
    //: %1 a vessel's number
    return m_band_number.isEmpty() ? QString() : tr("Go to %1").arg(m_band_number);
}

void Tablet::bandGoThere()
{
    const QString number = m_band_number;
    showBand({}, {});
    if (number.isEmpty()) {
        return;
    }
    if (m_screen == View::Sheet) {
        m_sheet.back(); // keeps the draft
    }
    openVessel(number);
}

void Tablet::bandStay()
{
    if (m_band_of == BandOf::Clock) {
        m_alarm.putAside(m_band_number.toStdString());
    } else if (m_band_of == BandOf::Battery) {
        m_battery_aside = m_band;
    }
    showBand({}, {});
}

void Tablet::back()
{
    switch (m_screen) {
    case View::FirstStart:
    case View::Yard:
    case View::Fault:
    case View::Recovery:
        return;
    case View::Sheet:
        m_sheet.back();
        return;
    case View::Vessel:
        m_number.clear();
        showYard(true);
        if (m_screen != View::Fault) {
            go(View::Yard);
        }
        return;
    case View::SetUp:
        showYard(true);
        go(View::Yard);
        return;
    case View::Law:
    case View::Questions:
    case View::About:
        go(View::SetUp);
        return;
    case View::Figure:
        openFigures();
        return;
    case View::Held:
    case View::Stage:
    case View::Clock:
    case View::Trail:
    case View::Tag:
    case View::Figures:
        if (refreshVessel()) {
            go(View::Vessel);
        }
        return;
    }
}

void Tablet::openPart(const QString& id)
{
    if (id.startsWith(QLatin1String("gate:"))) {
        openHoldPoint(static_cast<rules::Index>(id.mid(5).toUInt()));
        return;
    }
    if (id.startsWith(QLatin1String("reach:"))) {
        openStage(id.mid(6).toUInt());
        return;
    }
    if (id == QLatin1String("trail")) {
        const auto lines = m_session.yard().trail(m_number);
        if (!lines) {
            fault(lines.error());
            return;
        }
        const auto verified = m_session.yard().verify();
        m_trail_page.show(*lines, m_session.pack(), m_session.reading);
        //: links of the chain of entries that hold
        m_trail_page.setLinks(
            verified && verified->findings.empty() ? tr("all %1 links hold").arg(verified->entries) : tr("the chain is broken"));
        go(View::Trail);
        return;
    }
    if (id == QLatin1String("tag")) {
        m_tag_page.show(m_vessel_page.picture().view, m_session.pack(), m_session.reading);
        go(View::Tag);
        return;
    }
    if (id == QLatin1String("figures")) {
        openFigures();
        return;
    }
    if (id.startsWith(QLatin1String("figure:"))) {
        openFigure(id.mid(7));
        return;
    }
    for (const report::PartView& part : m_vessel_page.view()->parts) {
        if (QString::fromStdString(part.id) == id && part.step != rules::kNone) {
            openStepIndex(part.step);
            return;
        }
    }
}

void Tablet::openFigures()
{
    std::vector<Row> rows;
    for (const FigureKind& kind : figureKinds()) {
        Row row;
        row.key = QStringLiteral("figure:") + QLatin1String(kind.id);
        row.title = kind.title();
        row.line = kind.asks();
        rows.push_back(std::move(row));
    }
    m_figures.set(std::move(rows));
    go(View::Figures);
}

void Tablet::openFigure(const QString& id)
{
    const auto kind = std::ranges::find_if(figureKinds(), [&](const FigureKind& one) { return id == QLatin1String(one.id); });
    if (kind == figureKinds().end()) {
        return;
    }
    const auto shared = m_vessel_page.picture().view;
    const rules::Index substance = m_session.pack().fact(report::drawn::kSubstance);
    const QString contents = substance == rules::kNone ? QString::fromStdString(shared->contents)
                                                       : text::optionWord(m_session.pack(), substance, shared->contents);
    std::vector<FigureMeter> meters;
    for (const yard::InstrumentShown& one : m_session.yard().instruments()) {
        if (one.instrument.type == "gas-meter" && !one.instrument.withdrawn) {
            meters.push_back({QString::fromStdString(one.instrument.id), one.instrument.attributes, meterStanding(one, m_session.reading),
                one.believed});
        }
    }
    // The screen that shows the figure before is loaded until it is another's turn.
    const std::unique_ptr<FigurePage> before = std::exchange(m_figure, kind->make());
    m_figure_title = kind->title();
    m_figure->show({shared, contents.toLower(), m_session.yard().reference(), m_session.reading, std::move(meters)});
    go(View::Figure);
}

void Tablet::openHeld() { go(View::Held); }

void Tablet::openReason(const QString& key)
{
    const auto& blockers = m_vessel_page.view()->standing.blockers;
    if (const std::size_t at = key.toUInt(); at < blockers.size()) {
        openTarget(VesselPage::targetOf(*m_vessel_page.view(), blockers[at]));
    }
}

void Tablet::openStep(const QString& key) { openStepIndex(static_cast<rules::Index>(key.toUInt())); }

void Tablet::openStage(std::size_t stage)
{
    const auto folded = m_session.yard().folded(m_number);
    if (!folded) {
        fault(folded.error());
        return;
    }
    m_vessel_page.showStage(stage, *folded, m_session.pack(), m_session.reading);
    go(View::Stage);
}

void Tablet::nextThing() { openTarget(m_vessel_page.target()); }

void Tablet::openTask()
{
    if (m_clock_page.taskStep() != rules::kNone) {
        openStepIndex(m_clock_page.taskStep());
    }
}

void Tablet::openDone()
{
    if (m_clock_page.doneStep() != rules::kNone) {
        openStepIndex(m_clock_page.doneStep());
    }
}

void Tablet::openHandOn()
{
    if (m_clock_page.handOnStep() != rules::kNone) {
        openStepIndex(m_clock_page.handOnStep());
    }
}

void Tablet::openTarget(const VesselPage::Target& target)
{
    switch (target.what) {
    case VesselPage::Target::What::Nothing:
        return;
    case VesselPage::Target::What::Step:
        openStepIndex(target.index);
        return;
    case VesselPage::Target::What::Stop:
        openSheet(clearPlan(m_session, m_number, target.index), View::Vessel);
        return;
    case VesselPage::Target::What::HoldPoint:
        openHoldPoint(target.index);
        return;
    case VesselPage::Target::What::Clock:
        if (!m_session.yard().clockConfirmed()) {
            openSheet(clockPlan(m_session), View::Vessel);
        } else {
            openClock();
        }
        return;
    case VesselPage::Target::What::Trail:
        openPart(QStringLiteral("trail"));
        return;
    }
}

void Tablet::openStepIndex(rules::Index step)
{
    if (step < m_session.pack().steps.size() && m_session.pack().steps[step].talk_of == rules::kNone) {
        if (auto first = meterFirstPlan(m_session, m_number, step)) {
            openSheet(std::move(*first), View::Vessel);
            return;
        }
        openSheet(stepPlan(m_session, m_number, step), View::Vessel);
    }
}

void Tablet::openHoldPoint(rules::Index hold_point)
{
    if (hold_point < m_session.pack().hold_points.size()) {
        openSheet(holdPointPlan(m_session, m_number, hold_point), View::Vessel);
    }
}

void Tablet::tick()
{
    ++m_untouched_s;
    if (!m_session.isOpen() || m_screen == View::Fault) {
        return;
    }
    yard::Yard& open = m_session.yard();
    if (const auto broken = open.fault()) {
        fault(*broken);
        return;
    }
    const bool elsewhere = open.changedElsewhere();
    const std::int64_t now = open.nowMs();
    m_clocks_changed = m_clocks_changed || elsewhere;
    m_sheet.tick();
    watchClocks(now);
    if (m_screen == View::Yard) {
        if (elsewhere || m_untouched_s >= kOrderStillS) {
            m_untouched_s = 0;
            showYard(true);
        } else {
            m_yard_page.tick(now);
        }
    } else if (hasVessel() && m_screen != View::Sheet) {
        const bool vessel_screen = m_screen == View::Vessel || m_screen == View::Clock || m_screen == View::Held;
        if (vessel_screen && !refreshVessel()) {
            return;
        }
    } else if (hasVessel() && m_vessel_page.view() != nullptr) {
        m_plate.show(*m_vessel_page.view(), m_session.pack(), m_session.reading, now);
    }
}

QString Tablet::folder() const { return QString::fromStdString(m_session.folder().string()); }

} // namespace brimful::tablet
