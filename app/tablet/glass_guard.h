// Between the glass and the screens: touches that water makes do not reach them, a key that repeats by itself counts once, and work is
// stopped by a key that is found in gloves and without looking. What is water is decided in WetGlass.
#pragma once

#include "app/tablet/wet_glass.h"

#include <QElapsedTimer>
#include <QHash>
#include <QPointer>
#include <QPointingDevice>
#include <QQuickItem>
#include <QQuickWindow>
#include <QTimer>

#include <functional>

namespace brimful::tablet {

class GlassGuard : public QObject {
    Q_OBJECT

public:
    static constexpr int kVolumeHeldMs = 1000; // volume down; from the design, proposal

    GlassGuard(QQuickWindow* window, double pixels_per_mm);
    // How large a contact is, in pixels; else as the glass says.
    void setSizeOf(std::function<QSizeF(const QEventPoint&)> size_of) { m_size_of = std::move(size_of); }

Q_SIGNALS:
    void wetChanged(bool wet);
    void stopHeld();

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    bool touched(QTouchEvent& event);
    bool look(); // true: what lies on the glass is a touch
    void callOff(); // what the screens were given so far
    void watchVolume(const QKeyEvent& key);
    [[nodiscard]] QQuickItem* takesAwayAt(const QPointF& at) const;

    QPointer<QQuickWindow> m_window;
    double m_pixels_per_mm;
    std::function<QSizeF(const QEventPoint&)> m_size_of;
    WetGlass m_glass;
    const QPointingDevice* m_device{}; // the last that touched
    QElapsedTimer m_clock;
    QTimer m_again, m_volume;
    std::vector<WetGlass::Contact> m_contacts;
    QHash<int, QPointF> m_places;
    QHash<int, QPointer<QQuickItem>> m_began_on; // a key that only takes away
    bool m_given{}; // the screens know of a contact
    bool m_calling_off{};
};

} // namespace brimful::tablet
