#include "app/tablet/photo_check.h"

#include "app/print/pages.h"

namespace brimful::tablet {

double lightOf(const QImage& grey)
{
    double sum = 0;
    for (int y = 0; y < grey.height(); ++y) {
        const uchar* line = grey.constScanLine(y);
        for (int x = 0; x < grey.width(); ++x) {
            sum += line[x];
        }
    }
    const double count = static_cast<double>(grey.width()) * grey.height();
    return count > 0 ? sum / count : 0;
}

double edgesOf(const QImage& grey)
{
    double sum = 0;
    double squares = 0;
    for (int y = 1; y + 1 < grey.height(); ++y) {
        const uchar* above = grey.constScanLine(y - 1);
        const uchar* line = grey.constScanLine(y);
        const uchar* below = grey.constScanLine(y + 1);
        for (int x = 1; x + 1 < grey.width(); ++x) {
            const double laplacian = above[x] + below[x] + line[x - 1] + line[x + 1] - 4 * line[x];
            sum += laplacian;
            squares += laplacian * laplacian;
        }
    }
    const double count = static_cast<double>(grey.width() - 2) * (grey.height() - 2);
    return count > 0 ? squares / count - sum / count * (sum / count) : 0;
}

Seen lookAt(const QImage& picture)
{
    if (picture.isNull()) {
        return {};
    }
    const QImage small = picture.width() > kCheckedWidth ? picture.scaledToWidth(kCheckedWidth, Qt::SmoothTransformation) : picture;
    const QImage grey = small.convertToFormat(QImage::Format_Grayscale8);
    Seen seen{lightOf(grey), edgesOf(grey), {}};
    if (!seen.dark()) {
        seen.symbol = print::readSymbol(picture);
    }
    return seen;
}

} // namespace brimful::tablet
