// A list on the screen: choices, people, reasons, parts, entries. One kind of row for all of them, already in words.
#pragma once

#include <QAbstractListModel>
#include <QString>
#include <QtQml/qqmlregistration.h>

#include <vector>

namespace brimful::tablet {

struct Row {
    QString key; // what a press hands back
    QString title;
    QString line; // under the title
    QString note; // at the far end
    QString glyph; // name of a drawn sign, "" none
    bool solid{true}; // false: only believed, lapsed or missing: drawn broken
    bool chosen{};
    bool open{true}; // false: may not be pressed; its line says why
    bool operator==(const Row&) const = default;
};

class RowList : public QAbstractListModel {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the pages")
    Q_PROPERTY(int count READ count NOTIFY countChanged FINAL)

public:
    enum Role { KeyRole = Qt::UserRole + 1, TitleRole, LineRole, NoteRole, GlyphRole, SolidRole, ChosenRole, OpenRole };
    Q_ENUM(Role)

    using QAbstractListModel::QAbstractListModel;
    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
    [[nodiscard]] QHash<int, QByteArray> roleNames() const override;
    [[nodiscard]] int count() const { return static_cast<int>(m_rows.size()); }
    [[nodiscard]] const std::vector<Row>& rows() const { return m_rows; }
    // Rows that stay under the same keys keep their delegates: nothing moves or loses focus when only words change.
    void set(std::vector<Row> rows);

Q_SIGNALS:
    void countChanged();

private:
    std::vector<Row> m_rows;
};

} // namespace brimful::tablet
