#include "app/tablet/glass_guard.h"

#include <QCoreApplication>
#include <QKeyEvent>
#include <QMouseEvent>
#include <QTouchEvent>

#include <algorithm>

namespace brimful::tablet {

namespace {

// Of all under an item the one that lies there and acts when it is touched: such keys do not lie on each other.
QQuickItem* takesAwayUnder(QQuickItem* item, const QPointF& at)
{
    if (!item->isVisible() || !item->isEnabled()) {
        return nullptr;
    }
    if (item->property("takesAway").toBool() && item->contains(item->mapFromScene(at))) {
        return item;
    }
    for (QQuickItem* child : item->childItems()) {
        if (QQuickItem* found = takesAwayUnder(child, at)) {
            return found;
        }
    }
    return nullptr;
}

bool isTouch(QEvent::Type type)
{
    return type == QEvent::TouchBegin || type == QEvent::TouchUpdate || type == QEvent::TouchEnd || type == QEvent::TouchCancel;
}

bool isMouse(QEvent::Type type)
{
    return type == QEvent::MouseButtonPress || type == QEvent::MouseMove || type == QEvent::MouseButtonRelease
        || type == QEvent::MouseButtonDblClick;
}

} // namespace

GlassGuard::GlassGuard(QQuickWindow* window, double pixels_per_mm)
    : QObject(window)
    , m_window(window)
    , m_pixels_per_mm(pixels_per_mm)
    , m_size_of([](const QEventPoint& point) { return point.ellipseDiameters(); })
{
    m_clock.start();
    m_again.setSingleShot(true);
    m_again.setTimerType(Qt::PreciseTimer);
    connect(&m_again, &QTimer::timeout, this, &GlassGuard::look);
    m_volume.setSingleShot(true);
    m_volume.setInterval(kVolumeHeldMs);
    connect(&m_volume, &QTimer::timeout, this, &GlassGuard::stopHeld);
    window->installEventFilter(this);
}

bool GlassGuard::eventFilter(QObject* watched, QEvent* event)
{
    // NOLINTBEGIN(*-static-cast-downcast): the type says what it is
    if (watched == parent() && !m_calling_off) { // also while the window is taken down: then it is no longer all that m_window says
        if (event->type() == QEvent::KeyPress || event->type() == QEvent::KeyRelease) {
            const auto& key = *static_cast<QKeyEvent*>(event);
            if (key.isAutoRepeat()) {
                return true;
            }
            watchVolume(key);
        } else if (isTouch(event->type())) {
            return touched(*static_cast<QTouchEvent*>(event));
        } else if (isMouse(event->type()) && m_glass.wet()) {
            return static_cast<QMouseEvent*>(event)->pointingDevice()->type() == QInputDevice::DeviceType::TouchScreen;
        }
    }
    // NOLINTEND(*-static-cast-downcast)
    return QObject::eventFilter(watched, event);
}

bool GlassGuard::touched(QTouchEvent& event)
{
    const bool cancelled = event.type() == QEvent::TouchCancel;
    m_device = event.pointingDevice();
    m_contacts.clear();
    if (cancelled) {
        m_began_on.clear();
        m_places.clear();
    }
    for (const QEventPoint& point : event.points()) {
        if (cancelled || point.state() == QEventPoint::State::Released) {
            m_began_on.remove(point.id());
            m_places.remove(point.id());
            continue;
        }
        const QSizeF size = m_size_of(point);
        m_contacts.push_back({point.id(), std::max(size.width(), size.height()) / m_pixels_per_mm});
        m_places[point.id()] = point.scenePosition();
        if (point.state() == QEventPoint::State::Pressed) {
            m_began_on[point.id()] = takesAwayAt(point.scenePosition());
        }
    }
    if (look() || cancelled) {
        m_given = !m_contacts.empty();
        return false;
    }
    event.accept(); // else it would come again as a mouse
    return true;
}

bool GlassGuard::look()
{
    const bool wet_before = m_glass.wet();
    const bool counts = m_glass.see(m_contacts, m_clock.elapsed());
    if (m_glass.wet() != wet_before) {
        Q_EMIT wetChanged(m_glass.wet());
    }
    if (const auto next = m_glass.next()) {
        m_again.start(static_cast<int>(std::max<std::int64_t>(*next - m_clock.elapsed(), 1)));
    } else {
        m_again.stop();
    }
    if (!counts && m_given) {
        m_given = false;
        callOff();
    }
    const std::vector<int> clean = m_glass.clean();
    for (const int id : clean) {
        QQuickItem* key = m_began_on.value(id);
        if (key != nullptr && key == takesAwayAt(m_places.value(id))) {
            QMetaObject::invokeMethod(key, "act");
        }
    }
    return counts;
}

void GlassGuard::callOff()
{
    QTouchEvent cancel(QEvent::TouchCancel, m_device);
    m_calling_off = true;
    QCoreApplication::sendEvent(m_window, &cancel);
    m_calling_off = false;
}

void GlassGuard::watchVolume(const QKeyEvent& key)
{
    if (key.key() != Qt::Key_VolumeDown) {
        return;
    }
    if (key.type() == QEvent::KeyPress) {
        m_volume.start();
    } else {
        m_volume.stop();
    }
}

QQuickItem* GlassGuard::takesAwayAt(const QPointF& at) const { return takesAwayUnder(m_window->contentItem(), at); }

} // namespace brimful::tablet
