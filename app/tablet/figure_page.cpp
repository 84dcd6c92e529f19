#include "app/tablet/figure_page.h"

#include "app/tablet/plate.h"
#include "core/gas/substances.h"

#include <algorithm>
#include <cmath>

namespace brimful::tablet {

using canon::Json;

namespace {

constexpr QLatin1String kMore("more");
constexpr QLatin1String kNotes("notes");

int lettersOf(const FigureInput& input)
{
    qsizetype most = input.caption.size();
    for (const double value : input.values) {
        most = std::max(most, input.words(value).size());
    }
    constexpr int kFrame = 2; // the room round the letters, in letters
    return static_cast<int>(most) + kFrame;
}

} // namespace

void FigurePage::show(const FigureSubject& subject)
{
    m_subject = subject;
    m_inputs.clear();
    m_views.clear();
    m_switches.clear();
    m_across = {};
    m_up = {};
    m_first_input = 0;
    m_first_switch = 0;
    m_chosen.clear();
    m_act.clear();
    open();
    //: a key that shows sources, marks and warnings in full
    addView(kNotes, tr("Notes"));
    m_view = m_views.front().key;
    if (m_chosen.isEmpty() && !m_inputs.empty()) {
        m_chosen = m_inputs.front().key;
    }
    refresh();
}

void FigurePage::refresh()
{
    m_picture.paint.reset();
    judgeAs({}, {}, {}, {});
    m_lines.clear();
    m_notes.clear();
    compute();
    for (Row& row : m_views) {
        row.chosen = row.key == m_view;
    }
    m_view_rows.set(m_views);
    m_line_rows.set(m_lines);
    fillInputs();
    fillSwitches();
    Q_EMIT changed();
}

FigureInput& FigurePage::add(FigureInput input)
{
    if (input.letters == 0) {
        constexpr int kShort = 6;
        input.letters = std::max(kShort, lettersOf(input));
    }
    return m_inputs.emplace_back(std::move(input));
}

std::size_t FigurePage::indexOf(const QString& key) const
{
    return static_cast<std::size_t>(std::ranges::find(m_inputs, key, &FigureInput::key) - m_inputs.begin());
}

const FigureInput& FigurePage::input(const QString& key) const { return m_inputs.at(indexOf(key)); }

FigureInput& FigurePage::change(const QString& key) { return m_inputs.at(indexOf(key)); }

QString FigurePage::chosen() const
{
    const std::size_t at = indexOf(m_chosen);
    return at == m_inputs.size() ? QString() : m_inputs[at].caption;
}

void FigurePage::choose(const QString& key)
{
    if (key == kMore) {
        const auto all = askedInputs();
        m_first_input = m_first_input + kInputsShown - 1 < all.size() ? m_first_input + kInputsShown - 1 : 0;
        m_chosen = all.at(m_first_input)->key;
    } else if (indexOf(key) < m_inputs.size()) {
        m_chosen = key;
    }
    fillInputs();
    Q_EMIT changed();
}

void FigurePage::step(int by)
{
    const std::size_t chosen = indexOf(m_chosen);
    if (chosen == m_inputs.size()) {
        return;
    }
    FigureInput& input = m_inputs[chosen];
    const auto last = static_cast<std::ptrdiff_t>(input.values.size()) - 1;
    input.at = static_cast<std::size_t>(std::clamp<std::ptrdiff_t>(static_cast<std::ptrdiff_t>(input.at) + by, 0, last));
    refresh();
}

void FigurePage::look(const QString& view)
{
    if (std::ranges::find(m_views, view, &Row::key) != m_views.end()) {
        m_view = view;
        refresh();
    }
}

void FigurePage::flip(const QString& key)
{
    if (key == kMore) {
        m_first_switch = m_first_switch + kSwitchesShown - 1 < m_switches.size() ? m_first_switch + kSwitchesShown - 1 : 0;
        fillSwitches();
        Q_EMIT changed();
        return;
    }
    flipped(key);
    refresh();
}

void FigurePage::press()
{
    if (!m_act.isEmpty()) {
        act();
    }
}

void FigurePage::handles(const QString& across, double steps_across, const QString& up, double steps_up)
{
    m_across = {across, steps_across, 0};
    m_up = {up, steps_up, 0};
}

void FigurePage::grasp(double x, double y)
{
    m_grasped_x = x;
    m_grasped_y = y;
    for (Handle* handle : {&m_across, &m_up}) {
        if (!handle->key.isEmpty()) {
            handle->from = input(handle->key).at;
        }
    }
}

bool FigurePage::pull(const Handle& handle, double share)
{
    if (handle.key.isEmpty()) {
        return false;
    }
    FigureInput& pulled = change(handle.key);
    const double to = static_cast<double>(handle.from) + std::round(share * handle.steps);
    const auto at = static_cast<std::size_t>(std::clamp(to, 0.0, static_cast<double>(pulled.values.size()) - 1));
    const bool moves = at != pulled.at;
    pulled.at = at;
    return moves;
}

void FigurePage::drag(double x, double y)
{
    const bool across = pull(m_across, x - m_grasped_x);
    const bool up = pull(m_up, m_grasped_y - y);
    if (across || up) {
        refresh();
    }
}

std::vector<const FigureInput*> FigurePage::askedInputs() const
{
    std::vector<const FigureInput*> out;
    for (const FigureInput& one : m_inputs) {
        if (one.asked) {
            out.push_back(&one);
        }
    }
    return out;
}

void FigurePage::setAsked(const QString& key, bool asked)
{
    if (input(key).asked == asked) {
        return;
    }
    change(key).asked = asked;
    m_first_input = 0;
    if (!asked && m_chosen == key) {
        m_chosen = askedInputs().front()->key;
    }
}

void FigurePage::addView(const QString& key, const QString& title)
{
    Row row;
    row.key = key;
    row.title = title;
    m_views.push_back(std::move(row));
}

void FigurePage::setSwitches(std::vector<Row> rows) { m_switches = std::move(rows); }

void FigurePage::paint(FigurePicture::Paint paint) { m_picture.paint = std::make_shared<const FigurePicture::Paint>(std::move(paint)); }

void FigurePage::judge(report::Signal signal, const QString& verdict, const QString& because)
{
    judgeAs(signalName(signal), text::signalWord(signal), verdict, because);
}

void FigurePage::say(const QString& word, const QString& verdict, const QString& because)
{
    judgeAs(QStringLiteral("plain"), word, verdict, because);
}

bool FigurePage::sayMeasureFirst()
{
    const report::ShellView& shell = m_subject.view->shell;
    const bool measured = shell.outside_diameter_m > 0 && shell.shell_length_m > 0;
    if (!measured) {
        judge(report::Signal::Danger, tr("not known"), tr("Measure it first."));
    }
    return !measured;
}

std::string FigurePage::substance() const
{
    const std::string& contents = m_subject.view->contents;
    const gas::SubstanceTable* const table = m_subject.reference.substances;
    return table != nullptr && table->find(contents) != nullptr ? contents : "unknown";
}

QString FigurePage::gasName() const { return substance() == m_subject.view->contents ? m_subject.contents : tr("unknown gas"); }

void FigurePage::noteLimits()
{
    const gas::SubstanceTable* const table = m_subject.reference.substances;
    const gas::Substance* const held = table == nullptr ? nullptr : table->find(substance());
    if (const auto range = held == nullptr ? std::nullopt : held->widestRange()) {
        //: %1 and %2: the widest limits of the gas in air, in percent; two documents; found: the numbers were seen there
        note(tr("Limits %1 to %2 %: NFPA 497, IEC 60079-20-1 (found).")
                 .arg(percentDigits(range->lower * 100.0), percentDigits(range->upper * 100.0)));
    }
}

tl::expected<figure::Result, figure::Error> FigurePage::ask(const char* figure, const Json& inputs) const
{
    return figure::compute(*figure::byName(figure), inputs, m_subject.reference);
}

//: an angle in degrees
QString FigurePage::degrees(double value) { return tr("%1°").arg(value, 0, 'f', 1); }

void FigurePage::judgeAs(const QString& colour, const QString& word, const QString& verdict, const QString& because)
{
    m_colour = colour;
    m_word = word;
    m_verdict = verdict;
    m_because = because;
}

void FigurePage::line(const QString& title, const QString& value)
{
    Row row;
    row.key = title;
    row.title = title;
    row.line = value;
    m_lines.push_back(std::move(row));
}

void FigurePage::lineOf(const QString& title, double si, figure::Dimension dimension)
{
    if (!std::isnan(si)) {
        line(title, text::quantity(si, dimension, m_subject.reading));
    }
}

QString FigurePage::mixture(const Json& place)
{
    //: a share of gas, and of oxygen
    return tr("%1 %, oxygen %2 %").arg(percentDigits(numberOf(place, "fuel_percent")), percentDigits(numberOf(place, "oxygen_percent")));
}

void FigurePage::linesOfCrossing(const Json& values)
{
    if (const Json* enters = values.find("enters")) {
        //: where the mixture begins to burn if lit
        line(tr("Enters"), mixture(*enters));
    }
    if (const Json* leaves = values.find("leaves")) {
        //: where it ceases to
        line(tr("Leaves"), mixture(*leaves));
    }
}

void FigurePage::note(const QString& words)
{
    if (!words.isEmpty() && !m_notes.contains(words)) {
        m_notes << words;
    }
}

void FigurePage::noteWarnings(const std::vector<std::string>& warnings)
{
    for (const std::string& word : warnings) {
        note(text::warning(word));
    }
}

namespace {

// A page of rows that ends with the key to the next one where not all fit.
std::vector<Row> paged(const std::vector<Row>& all, std::size_t first, std::size_t room, const QString& more)
{
    if (all.size() <= room) {
        return all;
    }
    std::vector<Row> out;
    for (std::size_t i = first; i < std::min(first + room - 1, all.size()); ++i) {
        out.push_back(all[i]);
    }
    Row row;
    row.key = kMore;
    row.title = more;
    out.push_back(std::move(row));
    return out;
}

} // namespace

void FigurePage::fillInputs()
{
    std::vector<Row> all;
    QList<int> letters;
    for (const FigureInput* one : askedInputs()) {
        Row row;
        row.key = one->key;
        row.title = one->words(one->value());
        row.line = one->caption;
        row.chosen = one->key == m_chosen;
        all.push_back(std::move(row));
    }
    //: a key to what else can be changed
    std::vector<Row> rows = paged(all, m_first_input, kInputsShown, tr("More"));
    for (const Row& row : rows) {
        letters << (row.key == kMore ? static_cast<int>(row.title.size()) + 2 : input(row.key).letters);
    }
    m_letters = letters;
    m_input_rows.set(std::move(rows));
}

void FigurePage::fillSwitches() { m_switch_rows.set(paged(m_switches, m_first_switch, kSwitchesShown, tr("More"))); }

} // namespace brimful::tablet
