#include "app/tablet/engine.h"

#include "app/print/paint.h"
#include "app/tablet/glass_guard.h"
#include "app/tablet/look.h"
#include "app/tablet/scanner.h"
#include "app/tablet/tablet.h"

#include <QGuiApplication>
#include <QQmlComponent>
#include <QQuickStyle>
#include <QScreen>

#include <QtQml/QQmlExtensionPlugin>

Q_IMPORT_QML_PLUGIN(BrimfulPlugin)

namespace brimful::tablet {

namespace {

constexpr double kTenInch = 5.88; // 1280 x 800 on 10.1 in
constexpr double kLeast = 2.0;
constexpr double kMost = 12.0;
constexpr double kMmPerInch = 25.4;

} // namespace

double pixelsPerMillimetre()
{
    bool given = false;
    const double asked = qEnvironmentVariable("BRIMFUL_PX_PER_MM").toDouble(&given);
    if (given && asked >= kLeast && asked <= kMost) {
        return asked;
    }
    const QString platform = QGuiApplication::platformName();
    const QScreen* screen = QGuiApplication::primaryScreen();
    if (screen == nullptr || platform == QLatin1String("offscreen") || platform == QLatin1String("xcb")) {
        return kTenInch; // what those report is a guess of the server's
    }
    const double reported = screen->physicalDotsPerInch() / kMmPerInch / screen->devicePixelRatio();
    return reported >= kLeast && reported <= kMost ? reported : kTenInch;
}

void setupPlatform()
{
    const auto prefer = [](const char* name, const char* value) {
        if (!qEnvironmentVariableIsSet(name)) {
            qputenv(name, value);
        }
    };
    prefer("QT_MEDIA_BACKEND", "ffmpeg"); // the other one needs plug-ins for camera and sound that are not installed
    prefer("QT_QPA_UPDATE_IDLE_TIME", "1"); // ms before a frame that was asked for is drawn; Qt's own 5 are felt under a finger
}

void setupEngine(QQmlEngine& engine)
{
    print::loadFonts();
    QQuickStyle::setStyle(QStringLiteral("Basic"));
    engine.addImportPath(QStringLiteral("qrc:/qt/qml"));
    Look::setPixelsPerMillimetre(pixelsPerMillimetre());
}

void warm(QQmlEngine& engine)
{
    for (const char* screen : {"Main", "YardScreen"}) { // the engine keeps what its components have read
        new QQmlComponent(&engine, QUrl(QStringLiteral("qrc:/qt/qml/Brimful/screens/%1.qml").arg(QLatin1String(screen))), &engine);
    }
}

void show(QQmlApplicationEngine& engine, Tablet& tablet)
{
    engine.setInitialProperties({{QStringLiteral("tablet"), QVariant::fromValue(&tablet)}});
    engine.load(QUrl(QStringLiteral("qrc:/qt/qml/Brimful/screens/Main.qml")));
    for (QObject* window : engine.rootObjects()) {
        window->installEventFilter(&tablet);
        if (auto* glass = qobject_cast<QQuickWindow*>(window)) {
            const auto* guard = new GlassGuard(glass, pixelsPerMillimetre()); // the window's own
            QObject::connect(guard, &GlassGuard::wetChanged, &tablet, &Tablet::setWet);
            QObject::connect(guard, &GlassGuard::stopHeld, &tablet, &Tablet::stop);
        }
        QObject::connect(new Scanner(window), &Scanner::scanned, &tablet, &Tablet::scanned); // the window's own
    }
}

} // namespace brimful::tablet
