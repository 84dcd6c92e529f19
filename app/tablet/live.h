// The camera that this machine has.
#pragma once

#include "app/tablet/camera.h"

#include <QCamera>
#include <QMediaCaptureSession>

namespace brimful::tablet {

class Live : public Lens {
public:
    [[nodiscard]] bool there() const override; // asked anew each time: one is plugged in
    void open(QVideoSink& sink) override;
    void close() override;

private:
    std::unique_ptr<QMediaCaptureSession> m_session; // while it is open
    std::unique_ptr<QCamera> m_camera;
};

} // namespace brimful::tablet
