#include "app/tablet/camera.h"

#include <QPainter>
#include <QVideoFrame>

namespace brimful::tablet {

namespace {

constexpr qint64 kShownEveryMs = 66; // the software renderer paints each frame anew
constexpr qint64 kLookedEveryMs = 700;

// A frame that is a picture already is copied; the others Qt converts.
QImage imageOf(QVideoFrame frame)
{
    if (frame.pixelFormat() == QVideoFrameFormat::Format_Jpeg && frame.map(QVideoFrame::ReadOnly)) {
        QImage image = QImage::fromData(frame.bits(0), frame.mappedBytes(0), "JPG");
        frame.unmap();
        return image;
    }
    const QImage::Format format = QVideoFrameFormat::imageFormatFromPixelFormat(frame.pixelFormat());
    if (format == QImage::Format_Invalid) {
        return frame.toImage();
    }
    if (!frame.map(QVideoFrame::ReadOnly)) {
        return {};
    }
    const QImage image = QImage(frame.bits(0), frame.width(), frame.height(), frame.bytesPerLine(0), format).copy();
    frame.unmap();
    const QImage upright = image.transformed(QTransform().rotate(frame.rotationAngle()));
    return frame.mirrored() ? upright.mirrored(true, false) : upright;
}

} // namespace

Camera::Camera(QObject* parent)
    : QObject(parent)
{
    connect(&m_sink, &QVideoSink::videoFrameChanged, this, &Camera::take);
}

void Camera::run(bool on)
{
    if (on == m_running || (on && !there())) {
        return;
    }
    m_running = on;
    m_newest = {};
    m_seen = {};
    m_shown.invalidate();
    m_looked.invalidate();
    if (on) {
        m_lens->open(m_sink);
    } else {
        m_lens->close();
    }
}

void Camera::take(const QVideoFrame& frame)
{
    if (!m_running || (m_shown.isValid() && m_shown.elapsed() < kShownEveryMs)) {
        return;
    }
    QImage image = imageOf(frame);
    if (image.isNull()) {
        return;
    }
    m_shown.start();
    m_newest = std::move(image);
    Q_EMIT this->frame();
    if (!m_looked.isValid() || m_looked.elapsed() >= kLookedEveryMs) {
        m_seen = print::lookAt(m_newest);
        m_looked.start();
        Q_EMIT looked();
    }
}

void CameraView::setCamera(Camera* camera)
{
    if (camera == m_camera) {
        return;
    }
    m_camera = camera;
    if (m_camera != nullptr) {
        connect(m_camera, &Camera::frame, this, [this] { update(); });
    }
    Q_EMIT cameraChanged();
    update();
}

void CameraView::paint(QPainter* painter)
{
    const QImage image = m_camera == nullptr ? QImage() : m_camera->newest();
    if (image.isNull()) {
        return;
    }
    const QSizeF size = QSizeF(image.size()).scaled(width(), height(), Qt::KeepAspectRatio);
    painter->setRenderHint(QPainter::SmoothPixmapTransform);
    painter->drawImage(QRectF(QPointF((width() - size.width()) / 2, (height() - size.height()) / 2), size), image);
}

} // namespace brimful::tablet
