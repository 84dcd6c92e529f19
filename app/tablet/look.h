// What the theme must know of this machine: logical pixels a millimetre, the side from which its language is read, and the faces
// that travel inside the program.
#pragma once

#include "app/print/paint.h"

#include <QGuiApplication>
#include <QObject>
#include <QtQml/qqmlregistration.h>

namespace brimful::tablet {

class Look : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_SINGLETON
    Q_PROPERTY(double pixelsPerMillimetre READ pixelsPerMillimetre CONSTANT FINAL)
    Q_PROPERTY(bool mirrored READ mirrored NOTIFY mirroredChanged FINAL) // read from the right
    Q_PROPERTY(QString family READ family CONSTANT FINAL)
    Q_PROPERTY(QString mono READ mono CONSTANT FINAL)

public:
    explicit Look(QObject* parent = nullptr)
        : QObject(parent)
    {
        connect(qGuiApp, &QGuiApplication::layoutDirectionChanged, this, &Look::mirroredChanged);
    }
    static void setPixelsPerMillimetre(double px) { s_px = px; }
    [[nodiscard]] double pixelsPerMillimetre() const { return s_px; }
    [[nodiscard]] bool mirrored() const { return QGuiApplication::isRightToLeft(); }
    [[nodiscard]] QString family() const { return print::fontFamily(); }
    [[nodiscard]] QString mono() const { return print::monoFamily(); }

Q_SIGNALS:
    void mirroredChanged();

private:
    inline static double s_px{5.88};
};

} // namespace brimful::tablet
