// A camera without hardware: frames made from pictures. And what it may look at.
#pragma once

#include "app/print/symbol.h"
#include "app/tablet/camera.h"

#include <QPainter>
#include <QVideoFrame>

#include <cstring>

namespace brimful::test {

inline QVideoFrame frameOf(const QImage& picture)
{
    const QImage image = picture.convertToFormat(QImage::Format_ARGB32);
    QVideoFrame frame(QVideoFrameFormat(image.size(), QVideoFrameFormat::Format_BGRA8888)); // what ARGB32 is in memory here
    if (frame.map(QVideoFrame::WriteOnly)) {
        for (int y = 0; y < image.height(); ++y) {
            std::memcpy(
                frame.bits(0) + y * frame.bytesPerLine(0), image.constScanLine(y), static_cast<std::size_t>(image.width()) * sizeof(QRgb));
        }
        frame.unmap();
    }
    return frame;
}

// A grey shell with stripes of rust, and a symbol hung on it where there is a text.
inline QImage shellWith(const std::string& symbol)
{
    QImage picture(1280, 960, QImage::Format_RGB32);
    picture.fill(QColor(150, 160, 165));
    QPainter painter(&picture);
    for (int i = 0; i < 60; ++i) {
        painter.fillRect(20 * i + (i * i) % 13, 60 + (i * 37) % 300, 6, 500, QColor(90 + i, 70, 50));
    }
    if (const auto made = symbol.empty() ? std::nullopt : print::encodeSymbol(symbol)) {
        const int dots = print::dotsFor(*made, 560);
        print::paintSymbol(painter, *made, QPointF(360, 200), dots, Qt::black, Qt::white);
    }
    painter.end();
    return picture;
}

inline QImage darkened(const QImage& picture)
{
    QImage dark = picture;
    QPainter(&dark).fillRect(dark.rect(), QColor(0, 0, 0, 230));
    return dark;
}

inline QImage blurred(const QImage& picture)
{
    const QImage small = picture.scaled(picture.size() / 40, Qt::IgnoreAspectRatio, Qt::SmoothTransformation);
    return small.scaled(picture.size(), Qt::IgnoreAspectRatio, Qt::SmoothTransformation);
}

struct DemoLens : tablet::Lens {
    QImage first; // seen as soon as it opens
    QVideoSink* sink{};
    bool works{true};

    explicit DemoLens(QImage picture = {})
        : first(std::move(picture))
    {
    }
    [[nodiscard]] bool there() const override { return works; }
    void open(QVideoSink& to) override
    {
        sink = &to;
        if (!first.isNull()) {
            sink->setVideoFrame(frameOf(first));
        }
    }
    void close() override { sink = nullptr; }
};

} // namespace brimful::test
