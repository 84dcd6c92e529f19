// The camera of a sheet: frames as they come, painted by the program itself, and what can be seen in the newest of them.
#pragma once

#include "app/print/photo_check.h"

#include <QElapsedTimer>
#include <QObject>
#include <QQuickPaintedItem>
#include <QVideoSink>

#include <memory>

namespace brimful::tablet {

// What gives frames, if anything does.
class Lens {
public:
    Lens() = default;
    Lens(const Lens&) = delete;
    Lens& operator=(const Lens&) = delete;
    virtual ~Lens() = default;
    [[nodiscard]] virtual bool there() const = 0; // false: there is no camera here
    virtual void open(QVideoSink& sink) = 0;
    virtual void close() = 0;
};

class Camera : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the sheet")

public:
    explicit Camera(QObject* parent = nullptr);
    void setLens(std::unique_ptr<Lens> lens) { m_lens = std::move(lens); }
    [[nodiscard]] bool there() const { return m_lens != nullptr && m_lens->there(); }
    [[nodiscard]] bool running() const { return m_running; }
    void run(bool on);
    [[nodiscard]] QImage newest() const { return m_newest; } // null before the first frame
    [[nodiscard]] const print::Seen& seen() const { return m_seen; }

Q_SIGNALS:
    void frame();
    void looked(); // at a frame, a while after the one before

private:
    void take(const QVideoFrame& frame);

    std::unique_ptr<Lens> m_lens;
    QVideoSink m_sink;
    QImage m_newest;
    print::Seen m_seen;
    bool m_running{};
    QElapsedTimer m_shown, m_looked;
};

// The newest frame, as large as fits.
class CameraView : public QQuickPaintedItem {
    Q_OBJECT
    QML_ELEMENT
    Q_PROPERTY(brimful::tablet::Camera* camera READ camera WRITE setCamera NOTIFY cameraChanged FINAL)

public:
    using QQuickPaintedItem::QQuickPaintedItem;
    void paint(QPainter* painter) override;
    [[nodiscard]] Camera* camera() const { return m_camera; }
    void setCamera(Camera* camera);

Q_SIGNALS:
    void cameraChanged();

private:
    Camera* m_camera{};
};

} // namespace brimful::tablet
