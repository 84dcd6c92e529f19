#include "app/print/symbol.h"

#include "app/print/pages.h"

#include <QImage>
#include <QImageReader>
#include <QPainterPath>

#include <ZXing/DecodeHints.h>
#include <ZXing/ReadBarcode.h>
#include <ZXing/Result.h>
#include <qrcodegen/qrcodegen.hpp>

#include <algorithm>
#include <cmath>

namespace brimful::print {

namespace {

constexpr int kLargestPicture_MB = 512; // a telephone's 50 megapixels are 200

} // namespace

std::optional<Symbol> encodeSymbol(const std::string& text)
{
    using qrcodegen::QrCode;
    using qrcodegen::QrSegment;
    try {
        std::vector<QrSegment> segments;
        segments.push_back(QrSegment::isAlphanumeric(text.c_str()) ? QrSegment::makeAlphanumeric(text.c_str())
                                                                   : QrSegment::makeBytes({text.begin(), text.end()}));
        const QrCode code = QrCode::encodeSegments(segments, QrCode::Ecc::QUARTILE, QrCode::MIN_VERSION, QrCode::MAX_VERSION, -1, false);
        Symbol out{code.getSize(), code.getVersion(), {}};
        for (int y = 0; y < out.size; ++y) {
            for (int x = 0; x < out.size; ++x) {
                out.dark.push_back(code.getModule(x, y));
            }
        }
        return out;
    } catch (const qrcodegen::data_too_long&) {
        return std::nullopt;
    }
}

int dotsFor(const Symbol& symbol, double room) { return std::max(1, static_cast<int>(std::floor(room / (symbol.size + 2 * kQuietZone)))); }

void paintSymbol(QPainter& p, const Symbol& symbol, QPointF origin, int dots, const QColor& dark, const QColor& light)
{
    const int left = static_cast<int>(std::lround(origin.x()));
    const int top = static_cast<int>(std::lround(origin.y()));
    const int whole = (symbol.size + 2 * kQuietZone) * dots;
    QPainterPath path;
    path.setFillRule(Qt::WindingFill);
    for (int y = 0; y < symbol.size; ++y) {
        for (int x = 0; x < symbol.size;) {
            const auto isDark = [&](int at) {
                return symbol.dark[static_cast<std::size_t>(y) * static_cast<std::size_t>(symbol.size) + static_cast<std::size_t>(at)];
            };
            int end = x;
            while (end < symbol.size && isDark(end)) {
                ++end;
            }
            if (end > x) {
                path.addRect(left + (x + kQuietZone) * dots, top + (y + kQuietZone) * dots, (end - x) * dots, dots);
            }
            x = std::max(end, x + 1);
        }
    }
    p.save();
    p.setRenderHint(QPainter::Antialiasing, false);
    p.fillRect(QRect(left, top, whole, whole), light);
    p.fillPath(path, dark);
    p.restore();
}

std::optional<std::string> readSymbol(const std::filesystem::path& picture)
{
    QImageReader::setAllocationLimit(kLargestPicture_MB);
    return readSymbol(QImageReader(QString::fromStdString(picture.string())).read());
}

std::optional<std::string> readSymbol(const QImage& picture)
{
    const QImage image = picture.convertToFormat(QImage::Format_Grayscale8);
    if (image.isNull()) {
        return std::nullopt;
    }
    ZXing::DecodeHints hints;
    hints.setFormats(ZXing::BarcodeFormat::QRCode);
    hints.setTryHarder(true);
    hints.setTryRotate(true);
    const ZXing::ImageView view(
        image.constBits(), image.width(), image.height(), ZXing::ImageFormat::Lum, static_cast<int>(image.bytesPerLine()));
    const ZXing::Result result = ZXing::ReadBarcode(view, hints);
    if (!result.isValid()) {
        return std::nullopt;
    }
    return result.text();
}

} // namespace brimful::print
