// The yard: every vessel in order of need. The order stands still while somebody touches the screen.
#pragma once

#include "app/tablet/picture.h"
#include "app/text/words.h"

#include <QAbstractListModel>

#include <vector>

namespace brimful::tablet {

class YardPage : public QAbstractListModel {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the tablet")
    Q_PROPERTY(int count READ count NOTIFY countChanged FINAL)
    Q_PROPERTY(QString name READ name NOTIFY changed FINAL)
    Q_PROPERTY(QString line READ line NOTIFY changed FINAL)
    Q_PROPERTY(QString message READ message NOTIFY changed FINAL)
    Q_PROPERTY(double metresLongest READ metresLongest NOTIFY changed FINAL) // one scale for all drawings

public:
    enum Role {
        NumberRole = Qt::UserRole + 1,
        NextRole,
        HazardRole,
        ColourRole,
        WordRole,
        LineRole,
        GlyphRole,
        ClockRole,
        CaptionRole,
        PictureRole,
        SpokenRole
    };
    Q_ENUM(Role)

    using QAbstractListModel::QAbstractListModel;
    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
    [[nodiscard]] QHash<int, QByteArray> roleNames() const override;
    [[nodiscard]] int count() const { return static_cast<int>(m_rows.size()); }
    [[nodiscard]] QString name() const { return m_name; }
    [[nodiscard]] QString line() const;
    [[nodiscard]] QString message() const { return m_message; }
    [[nodiscard]] double metresLongest() const { return m_longest; }

    // `reorder`: false keeps the rows where they are and only renews what they say.
    void show(const std::vector<report::BoardRow>& board, const rules::Pack& pack, const text::Reading& reading, const QString& name,
        std::int64_t now_ms, bool reorder);
    void renew(const report::BoardRow& row, const rules::Pack& pack, const text::Reading& reading); // where it stands
    void tick(std::int64_t now_ms); // clocks only
    void say(const QString& message);
    [[nodiscard]] bool has(const QString& number) const;
    [[nodiscard]] int unread() const; // rows that stand as held because there was no time to read them yet

Q_SIGNALS:
    void countChanged();
    void changed();

private:
    struct Line {
        QString number, next, hazard, colour, word, line, glyph;
        std::optional<report::ClockView> clock;
        VesselPicture picture;
        bool read{true};
    };
    [[nodiscard]] static Line lineOf(const report::BoardRow& row, const rules::Pack& pack, const text::Reading& reading);

    std::vector<Line> m_rows;
    std::pair<Hash, text::Reading> m_words_of; // the rules and the way of reading that the rows are written in
    QString m_name, m_message;
    double m_longest{1.0};
    std::int64_t m_now_ms{};
};

} // namespace brimful::tablet
