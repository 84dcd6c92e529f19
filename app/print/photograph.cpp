#include "app/print/photograph.h"

#include "app/print/photo_check.h"

#include <QBuffer>
#include <QImageReader>
#include <QImageWriter>
#include <QPainter>

namespace brimful::print {

std::optional<report::Photograph> barePhotograph(const std::string& bytes)
{
    constexpr int kQuality = 88;
    QByteArray given = QByteArray::fromStdString(bytes);
    QBuffer in(&given);
    in.open(QIODevice::ReadOnly);
    QImageReader reader(&in);
    reader.setAutoTransform(true);
    const QSize size = reader.size();
    if (size.width() > kLongestSide || size.height() > kLongestSide) {
        reader.setScaledSize(size.scaled(kLongestSide, kLongestSide, Qt::KeepAspectRatio));
    }
    const QImage picture = reader.read();
    if (picture.isNull()) {
        return std::nullopt;
    }
    // Onto new paper: what a file says beside its picture (texts, colour profile) stays behind.
    QImage bare(picture.size(), QImage::Format_RGB32);
    bare.fill(Qt::white);
    QPainter(&bare).drawImage(0, 0, picture);
    QByteArray out;
    QBuffer to(&out);
    to.open(QIODevice::WriteOnly);
    QImageWriter writer(&to, "jpg");
    writer.setQuality(kQuality);
    if (!writer.write(bare)) {
        return std::nullopt;
    }
    const Seen seen = lookAt(bare);
    return report::Photograph{out.toStdString(), seen.dark(), seen.blurred(), seen.symbol, seen.look};
}

} // namespace brimful::print
