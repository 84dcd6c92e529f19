#include "app/tablet/rows.h"

#include <algorithm>

namespace brimful::tablet {

int RowList::rowCount(const QModelIndex& parent) const { return parent.isValid() ? 0 : count(); }

QVariant RowList::data(const QModelIndex& index, int role) const
{
    if (!checkIndex(index, CheckIndexOption::IndexIsValid)) {
        return {};
    }
    const Row& row = m_rows[static_cast<std::size_t>(index.row())];
    switch (role) {
    case KeyRole:
        return row.key;
    case TitleRole:
    case Qt::DisplayRole:
        return row.title;
    case LineRole:
        return row.line;
    case NoteRole:
        return row.note;
    case GlyphRole:
        return row.glyph;
    case SolidRole:
        return row.solid;
    case ChosenRole:
        return row.chosen;
    case OpenRole:
        return row.open;
    default:
        return {};
    }
}

QHash<int, QByteArray> RowList::roleNames() const
{
    return {{KeyRole, "key"}, {TitleRole, "title"}, {LineRole, "line"}, {NoteRole, "note"}, {GlyphRole, "glyph"}, {SolidRole, "solid"},
        {ChosenRole, "chosen"}, {OpenRole, "open"}};
}

void RowList::set(std::vector<Row> rows)
{
    if (rows == m_rows) {
        return;
    }
    if (std::ranges::equal(rows, m_rows, {}, &Row::key, &Row::key)) {
        m_rows = std::move(rows);
        Q_EMIT dataChanged(index(0), index(count() - 1));
        return;
    }
    const bool other_count = rows.size() != m_rows.size();
    beginResetModel();
    m_rows = std::move(rows);
    endResetModel();
    if (other_count) {
        Q_EMIT countChanged();
    }
}

} // namespace brimful::tablet
