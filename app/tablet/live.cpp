#include "app/tablet/live.h"

#include <QCameraDevice>
#include <QMediaDevices>

#include <algorithm>

namespace brimful::tablet {

bool Live::there() const { return !QMediaDevices::videoInputs().isEmpty(); }

// The one on the back looks at the vessel; else whatever there is.
void Live::open(QVideoSink& sink)
{
    const QList<QCameraDevice> all = QMediaDevices::videoInputs();
    if (all.isEmpty()) {
        return; // pulled out just now
    }
    const auto back = std::ranges::find(all, QCameraDevice::BackFace, &QCameraDevice::position);
    m_camera = std::make_unique<QCamera>(back == all.end() ? QMediaDevices::defaultVideoInput() : *back);
    m_session = std::make_unique<QMediaCaptureSession>();
    m_session->setCamera(m_camera.get());
    m_session->setVideoSink(&sink);
    m_camera->start();
}

void Live::close()
{
    if (m_session) {
        m_camera->stop();
        m_session->setVideoSink(nullptr);
        m_session->setCamera(nullptr);
    }
    m_camera.reset();
    m_session.reset();
}

} // namespace brimful::tablet
