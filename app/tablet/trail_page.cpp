#include "app/tablet/trail_page.h"

#include <algorithm>

namespace brimful::tablet {

namespace {

QString keyOf(const report::TrailLine& line) { return QString::fromStdString(canon::toHex(line.hash)); }

bool stops(const report::TrailLine& line)
{
    return !line.stop.empty() || line.failing || line.kind == ledger::Kind::Event || line.kind == ledger::Kind::Withdrawn;
}

// "Photograph: from a file, no tag in the picture."
QString photosOf(const report::TrailLine& line)
{
    QStringList said;
    for (const auto& [file, note] : line.photos) {
        said << TrailPage::tr("Photograph: %1.").arg(text::photograph(note, true));
    }
    return said.join(u' ');
}

// At a glance: of several photographs that of which least is known.
QString weakestOf(const report::TrailLine& line)
{
    const auto has = [&](bool by_camera, bool tag) {
        return std::ranges::any_of(line.photos,
            [&](const auto& one) { return one.second.by_camera == by_camera && (one.second.found && one.second.found->tag) == tag; });
    };
    if (std::ranges::any_of(line.photos, [](const auto& one) { return one.second.found && one.second.found->other_tag; })) {
        //: short, in a row: the tag of another vessel
        return TrailPage::tr("Photo: another's tag.");
    }
    return has(false, false) ? TrailPage::tr("Photo: file, no tag.")
        : has(true, false)   ? TrailPage::tr("Photo: no tag.")
        : has(false, true)   ? TrailPage::tr("Photo: file, tag in it.")
                             : TrailPage::tr("Photo: tag in it.");
}

} // namespace

void TrailPage::show(std::vector<report::TrailLine> lines, const rules::Pack& pack, const text::Reading& reading)
{
    std::ranges::reverse(lines);
    m_lines = std::move(lines);
    m_pack = &pack;
    m_reading = reading;
    m_stages = std::max(1, static_cast<int>(pack.stages.size()));
    m_first = 0;
    m_chosen = m_lines.empty() ? QString() : keyOf(m_lines.front());
    fill();
}

std::vector<const report::TrailLine*> TrailPage::passing() const
{
    std::vector<const report::TrailLine*> out;
    for (const report::TrailLine& line : m_lines) {
        const bool in = m_filter == Filter::All || (m_filter == Filter::Signed ? !line.person.empty() : stops(line));
        if (in) {
            out.push_back(&line);
        }
    }
    return out;
}

void TrailPage::fill()
{
    const auto all = passing();
    m_first = std::clamp(m_first, 0, std::max(0, static_cast<int>(all.size()) - 1));
    std::vector<Row> rows;
    m_reaches.clear();
    m_detail.clear();
    for (int i = m_first; i < std::min<int>(m_first + kPage, static_cast<int>(all.size())); ++i) {
        const report::TrailLine& line = *all[static_cast<std::size_t>(i)];
        Row row;
        row.key = keyOf(line);
        const std::int64_t at = line.true_ms.value_or(line.at.wall_ms);
        //: one entry: clock time and what it is
        row.title = tr("%1  %2").arg(text::clockTime(at, m_reading), text::trailTitle(*m_pack, line));
        row.line = line.failing    ? tr("Outside its limit: it holds.")
            : !line.counts         ? tr("Does not count.")
            : !line.photos.empty() ? weakestOf(line)
            : line.fell_back       ? tr("Falls back.")
                                   : QString();
        if (row.line.isEmpty()) {
            row.line = line.what.empty() ? text::ofPack(*m_pack, "stage." + m_pack->stages[std::min(line.reach, m_pack->stages.size() - 1)])
                                         : QString::fromStdString(line.what);
        }
        //: no person signed: the tablet alone wrote it down
        row.note = line.person.empty() ? tr("tablet") : QString::fromStdString(line.person);
        row.solid = line.counts;
        row.chosen = row.key == m_chosen;
        if (row.chosen) {
            //: one entry in full: date and time, who, role, first digits of its proof
            m_detail = tr("%1, %2, proof %3").arg(text::dateTime(at, m_reading), row.note, row.key.left(8));
            if (const QString photos = photosOf(line); !photos.isEmpty()) {
                m_detail += QStringLiteral(". ") + photos;
            }
            if (const QString answered = text::ownAnswer(*m_pack, line, m_reading); !answered.isEmpty()) {
                m_detail.prepend(answered + u'\n');
            }
        }
        m_reaches.append(static_cast<int>(line.reach));
        rows.push_back(std::move(row));
    }
    m_entries.set(std::move(rows));
    Q_EMIT changed();
}

void TrailPage::setLinks(const QString& links)
{
    m_links = links;
    Q_EMIT changed();
}

int TrailPage::earlier() const { return std::max(0, static_cast<int>(passing().size()) - m_first - kPage); }

void TrailPage::showEarlier()
{
    if (earlier() > 0) {
        m_first += kPage;
        fill();
    }
}

void TrailPage::showLater()
{
    m_first = std::max(0, m_first - kPage);
    fill();
}

void TrailPage::nextFilter()
{
    m_filter = m_filter == Filter::All ? Filter::Signed : m_filter == Filter::Signed ? Filter::Stops : Filter::All;
    m_first = 0;
    fill();
}

QString TrailPage::filter() const
{
    switch (m_filter) {
    case Filter::All:
        return tr("all kinds");
    case Filter::Signed:
        return tr("signed by a person");
    case Filter::Stops:
        return tr("what took away");
    }
    return {};
}

void TrailPage::choose(const QString& key)
{
    m_chosen = key;
    fill();
}

std::optional<Hash> TrailPage::chosen() const
{
    const auto line = std::ranges::find(m_lines, m_chosen, keyOf);
    return line == m_lines.end() ? std::nullopt : std::optional(line->hash);
}

bool TrailPage::canPutRight() const
{
    const auto line = std::ranges::find(m_lines, m_chosen, keyOf);
    return line != m_lines.end() && line->kind == ledger::Kind::Evidence && line->counts;
}

} // namespace brimful::tablet
