// Pictures at hand for a photograph or a paper that a sheet asks for: the newest of the folders that pictures come to, as a hand
// picks them. What may be kept of them the yard says.
#pragma once

#include "app/tablet/rows.h"
#include "app/text/words.h"
#include "core/report/refusal.h"

#include <QImage>

namespace brimful::tablet {

struct PictureFile {
    QString path;
    std::int64_t changed_ms{}; // wall, by the file's own date
};

// $BRIMFUL_PHOTOS (several are parted as in $PATH), else the platform's pictures and every stick or camera that is plugged in.
[[nodiscard]] QStringList pictureFolders();
// JPEG and PNG by what is in them, with `papers` PDF too; the newest first, at most kMostPictures. Two folders deep: what a camera makes.
inline constexpr std::size_t kMostPictures = 48;
[[nodiscard]] std::vector<PictureFile> newestPictures(const QStringList& folders, bool papers);

// As large as the record keeps it; null when none can be read.
[[nodiscard]] QImage pictureAt(const QString& path);

// Why a file is not taken, in plain words.
[[nodiscard]] QString whyNotTaken(const report::Refusal& refusal);

class Photographs : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the sheet")
    // key: the file; title: its name where it has no picture; line: how old; note: where its picture is loaded from
    Q_PROPERTY(brimful::tablet::RowList* rows READ rows CONSTANT FINAL)
    Q_PROPERTY(QString folder READ folder NOTIFY changed FINAL) // that pictures come to
    Q_PROPERTY(QString picked READ picked NOTIFY changed FINAL) // where the one that will be taken is loaded from; "" it has no picture
    Q_PROPERTY(QString pickedLine READ pickedLine NOTIFY changed FINAL)

public:
    using QObject::QObject;
    void look(bool papers, std::int64_t wall_ms, const text::Reading& reading);
    void pick(const QString& path, const QString& line = {}); // "" none; a line of its own where the file is not in the list

    [[nodiscard]] RowList* rows() { return &m_rows; }
    [[nodiscard]] QString folder() const { return pictureFolders().value(0); }
    [[nodiscard]] QString picked() const { return m_picked; }
    [[nodiscard]] QString pickedLine() const { return m_line; }

Q_SIGNALS:
    void changed();

private:
    RowList m_rows;
    QString m_picked, m_line;
};

} // namespace brimful::tablet
