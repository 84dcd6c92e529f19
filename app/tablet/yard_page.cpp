#include "app/tablet/yard_page.h"

#include "app/tablet/alarm.h"
#include "app/tablet/plate.h"

#include <QHash>

#include <algorithm>

namespace brimful::tablet {

namespace {

constexpr double kShortest = 1.0; // m: an unknown vessel is drawn as if so long

double lengthOf(const report::VesselView& view) { return std::max(kShortest, view.shell.shell_length_m + view.shell.outside_diameter_m); }

} // namespace

int YardPage::rowCount(const QModelIndex& parent) const { return parent.isValid() ? 0 : count(); }

QVariant YardPage::data(const QModelIndex& index, int role) const
{
    if (!checkIndex(index, CheckIndexOption::IndexIsValid)) {
        return {};
    }
    const Line& row = m_rows[static_cast<std::size_t>(index.row())];
    switch (role) {
    case NumberRole:
    case Qt::DisplayRole:
        return row.number;
    case NextRole:
        return row.next;
    case HazardRole:
        return row.hazard;
    case ColourRole:
        return row.colour;
    case WordRole:
        return row.word;
    case LineRole:
        return row.line;
    case GlyphRole:
        return row.glyph;
    case ClockRole:
        return row.clock ? countdown(row.clock->at_ms - m_now_ms) : QString();
    case CaptionRole:
        return row.clock ? clockCaption(*row.clock, m_now_ms) : QString();
    case PictureRole:
        return QVariant::fromValue(row.picture);
    case SpokenRole:
        //: read aloud: number, signal word, standing, second line, next thing
        return tr("%1, %2, %3 %4. %5").arg(row.number, row.hazard, row.word, row.line, row.next);
    default:
        return {};
    }
}

QHash<int, QByteArray> YardPage::roleNames() const
{
    return {{NumberRole, "number"}, {NextRole, "next"}, {HazardRole, "hazard"}, {ColourRole, "colour"}, {WordRole, "word"},
        {LineRole, "line"}, {GlyphRole, "glyph"}, {ClockRole, "clock"}, {CaptionRole, "caption"}, {PictureRole, "picture"},
        {SpokenRole, "spoken"}};
}

YardPage::Line YardPage::lineOf(const report::BoardRow& row, const rules::Pack& pack, const text::Reading& reading)
{
    const report::VesselView& view = *row.view;
    Line line;
    line.number = QString::fromStdString(view.number);
    line.picture.view = row.view;
    line.read = row.read;
    if (!row.read) {
        line.hazard = text::signalWord(view.signal);
        line.colour = signalName(view.signal);
        line.word = text::plateWord(report::PlateWord::Held);
        line.line = tr("not read yet");
        line.glyph = standingGlyph(report::PlateWord::Held);
        return line;
    }
    line.next = view.standing.next.empty() ? QString() : text::nextThing(pack, view.standing.next.front());
    line.hazard = text::signalWord(view.signal);
    line.colour = signalName(view.signal);
    line.word = text::plateWord(view.word);
    line.line = text::plateLine(view, pack, reading);
    line.glyph = standingGlyph(view.word);
    line.clock = view.clock;
    return line;
}

void YardPage::show(const std::vector<report::BoardRow>& board, const rules::Pack& pack, const text::Reading& reading, const QString& name,
    std::int64_t now_ms, bool reorder)
{
    m_now_ms = now_ms;
    m_name = name;
    m_longest = kShortest;
    std::vector<Line> rows;
    rows.reserve(board.size());
    QHash<QString, qsizetype> places;
    for (const Line& row : m_rows) {
        places.insert(row.number, places.size());
    }
    const bool same_words = m_words_of == std::pair(pack.hash, reading);
    m_words_of = {pack.hash, reading};
    for (const report::BoardRow& row : board) {
        m_longest = std::max(m_longest, lengthOf(*row.view));
        const auto place = places.constFind(QString::fromStdString(row.view->number));
        const Line* before = place == places.cend() ? nullptr : &m_rows[static_cast<std::size_t>(*place)];
        const bool unchanged =
            same_words && before != nullptr && before->read == row.read && (!row.read || before->picture.view == row.view);
        rows.push_back(unchanged ? *before : lineOf(row, pack, reading));
    }
    if (!reorder) {
        std::ranges::stable_sort(rows, {}, [&](const Line& row) { return places.value(row.number, places.size()); });
    }
    const bool same = std::ranges::equal(rows, m_rows, {}, &Line::number, &Line::number);
    if (same) {
        m_rows = std::move(rows);
        if (!m_rows.empty()) {
            Q_EMIT dataChanged(index(0), index(count() - 1));
        }
    } else {
        beginResetModel();
        m_rows = std::move(rows);
        endResetModel();
        Q_EMIT countChanged();
    }
    Q_EMIT changed();
}

void YardPage::renew(const report::BoardRow& row, const rules::Pack& pack, const text::Reading& reading)
{
    const auto found = std::ranges::find(m_rows, QString::fromStdString(row.view->number), &Line::number);
    if (found == m_rows.end()) {
        return;
    }
    *found = lineOf(row, pack, reading);
    const QModelIndex changed_row = index(static_cast<int>(found - m_rows.begin()));
    Q_EMIT dataChanged(changed_row, changed_row);
    m_longest = std::max(m_longest, lengthOf(*row.view));
    Q_EMIT changed();
}

void YardPage::tick(std::int64_t now_ms)
{
    m_now_ms = now_ms;
    if (!m_rows.empty()) {
        Q_EMIT dataChanged(index(0), index(count() - 1), {ClockRole, CaptionRole});
    }
}

void YardPage::say(const QString& message)
{
    m_message = message;
    Q_EMIT changed();
}

bool YardPage::has(const QString& number) const { return std::ranges::find(m_rows, number, &Line::number) != m_rows.end(); }

int YardPage::unread() const { return static_cast<int>(std::ranges::count(m_rows, false, &Line::read)); }

QString YardPage::line() const
{
    if (!m_message.isEmpty()) {
        return m_message;
    }
    const int left = unread();
    return left == 0 ? tr("%n vessel(s)", nullptr, count()) : tr("%n vessel(s), %1 not read yet", nullptr, count()).arg(left);
}

} // namespace brimful::tablet
