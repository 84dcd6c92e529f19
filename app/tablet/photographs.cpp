#include "app/tablet/photographs.h"

#include "app/print/photograph.h"

#include <QCoreApplication>
#include <QDateTime>
#include <QDir>
#include <QImageReader>
#include <QStandardPaths>
#include <QUrl>

#include <algorithm>

namespace brimful::tablet {

namespace {

constexpr int kDeep = 2; // below a folder: DCIM, and in it one named by three digits and five signs
constexpr int kLookedAt = 4000; // files: a full stick must not hold up a screen
const QStringList kPictures{QStringLiteral("*.jpg"), QStringLiteral("*.jpeg"), QStringLiteral("*.png")};
const QString kPapers = QStringLiteral("*.pdf");

QString tr(const char* words) { return QCoreApplication::translate("brimful::tablet", words); }

void gather(const QDir& folder, const QStringList& names, int deep, int& left, std::vector<PictureFile>& found)
{
    for (const QFileInfo& file : folder.entryInfoList(names, QDir::Files | QDir::Readable | QDir::NoSymLinks, QDir::Time)) {
        if (--left < 0) {
            return;
        }
        found.push_back({file.absoluteFilePath(), file.lastModified().toMSecsSinceEpoch()});
    }
    if (deep == 0) {
        return;
    }
    for (const QFileInfo& below : folder.entryInfoList(QDir::Dirs | QDir::NoDotAndDotDot | QDir::NoSymLinks, QDir::Time)) {
        if (--left < 0) {
            return;
        }
        gather(QDir(below.absoluteFilePath()), names, deep - 1, left, found);
    }
}

bool isPaper(const QString& path) { return path.endsWith(QLatin1String(".pdf"), Qt::CaseInsensitive); }

// What the record keeps: other kinds of picture are not offered, whatever they are called.
bool isKept(const QString& path)
{
    QImageReader reader(path);
    reader.setDecideFormatFromContent(true);
    const QByteArray format = reader.canRead() ? reader.format() : QByteArray();
    return format == "jpeg" || format == "jpg" || format == "png";
}

QString megabytes(const std::string& bytes)
{
    constexpr double kMegabyte = 1024.0 * 1024.0;
    return QString::number(QString::fromStdString(bytes).toDouble() / kMegabyte, 'f', 0);
}

} // namespace

QStringList pictureFolders()
{
    QStringList named = qEnvironmentVariable("BRIMFUL_PHOTOS").split(QDir::listSeparator(), Qt::SkipEmptyParts);
    if (!named.isEmpty()) {
        return named;
    }
    QStringList folders{QStandardPaths::writableLocation(QStandardPaths::PicturesLocation)};
    const QString who = QDir::home().dirName();
    for (const QString& place : {QStringLiteral("/media/") + who, QStringLiteral("/run/media/") + who}) {
        for (const QFileInfo& plugged : QDir(place).entryInfoList(QDir::Dirs | QDir::NoDotAndDotDot)) {
            folders.append(plugged.absoluteFilePath());
        }
    }
    return folders;
}

std::vector<PictureFile> newestPictures(const QStringList& folders, bool papers)
{
    std::vector<PictureFile> found;
    const QStringList names = papers ? kPictures + QStringList(kPapers) : kPictures;
    for (const QString& folder : folders) {
        int left = kLookedAt;
        if (QFileInfo(folder).isDir()) {
            gather(QDir(folder), names, kDeep, left, found);
        }
    }
    std::ranges::stable_sort(found, std::ranges::greater{}, &PictureFile::changed_ms);
    std::vector<PictureFile> newest;
    for (PictureFile& one : found) {
        if (newest.size() == kMostPictures) {
            break;
        }
        if (isPaper(one.path) || isKept(one.path)) {
            newest.push_back(std::move(one));
        }
    }
    return newest;
}

QString whyNotTaken(const report::Refusal& refusal)
{
    switch (refusal.why) {
    case report::Why::PictureTooLarge:
        //: %1 and %2 numbers: megabytes
        return tr("Not taken: too large, %1 MB, at most %2. Take it again with fewer pixels, or pick another.")
            .arg(megabytes(refusal.found), megabytes(refusal.expected));
    case report::Why::NotAPicture:
        return tr("Not taken: no picture can be read from that file. Pick another.");
    case report::Why::PictureUsed:
        return tr("Not taken: this picture is in the record already. One picture proves one thing: take a new one.");
    case report::Why::NoSuchFile:
        return tr("Not taken: that file is no longer there. Press Look again.");
    default:
        return text::refusal(refusal, nullptr);
    }
}

void Photographs::look(bool papers, std::int64_t wall_ms, const text::Reading& reading)
{
    std::vector<Row> rows;
    for (const PictureFile& one : newestPictures(pictureFolders(), papers)) {
        Row row;
        row.key = one.path;
        const bool paper = isPaper(one.path);
        row.title = paper ? one.path.section(u'/', -1) : QString();
        //: how old a picture is, by its file's date; %1 a time span: "3 min"
        row.line = tr("%1 ago").arg(text::span(std::max<std::int64_t>(0, wall_ms - one.changed_ms), reading));
        row.note = paper ? QString() : QUrl::fromLocalFile(one.path).toString(QUrl::FullyEncoded);
        rows.push_back(std::move(row));
    }
    m_rows.set(std::move(rows));
    pick({});
}

void Photographs::pick(const QString& path, const QString& line)
{
    const auto row = std::ranges::find(m_rows.rows(), path, &Row::key);
    m_picked = path.isEmpty() || isPaper(path) ? QString() : QUrl::fromLocalFile(path).toString(QUrl::FullyEncoded);
    m_line = line;
    if (row != m_rows.rows().end() && line.isEmpty()) {
        m_line = row->title.isEmpty() ? row->line : row->title + QStringLiteral(", ") + row->line;
    }
    Q_EMIT changed();
}

QImage pictureAt(const QString& path)
{
    QImageReader reader(path);
    reader.setDecideFormatFromContent(true);
    reader.setAutoTransform(true);
    const QSize size = reader.size();
    if (size.width() > print::kLongestSide || size.height() > print::kLongestSide) {
        reader.setScaledSize(size.scaled(print::kLongestSide, print::kLongestSide, Qt::KeepAspectRatio));
    }
    return reader.read();
}

} // namespace brimful::tablet
