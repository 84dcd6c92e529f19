// brimful-tablet [--yard DIR] [--lang CODE] [--theme light|dark|sunlight]
#include "app/tablet/engine.h"
#include "app/tablet/live.h"
#include "app/tablet/loud.h"
#include "app/tablet/tablet.h"

#include <QCommandLineParser>
#include <QGuiApplication>
#include <QLocale>
#include <QTranslator>

int main(int argc, char** argv)
{
    brimful::tablet::setupPlatform();
    const QGuiApplication app(argc, argv);
    QGuiApplication::setApplicationName(QStringLiteral("brimful"));
    QGuiApplication::setApplicationDisplayName(QStringLiteral("Brimful"));

    QCommandLineParser parser;
    parser.setApplicationDescription(
        QCoreApplication::translate("main", "What was proven of a vessel before it is cut, by whom, how, until when."));
    parser.addHelpOption();
    const QCommandLineOption yard(
        QStringLiteral("yard"), QCoreApplication::translate("main", "folder that holds one yard"), QStringLiteral("DIR"));
    const QCommandLineOption lang(
        QStringLiteral("lang"), QCoreApplication::translate("main", "language of the screens"), QStringLiteral("CODE"));
    const QCommandLineOption theme(QStringLiteral("theme"), QCoreApplication::translate("main", "light, dark or sunlight"),
        QStringLiteral("NAME"), QStringLiteral("light"));
    parser.addOptions({yard, lang, theme});
    parser.process(app);

    QTranslator plurals;
    if (plurals.load(QStringLiteral(":/translations/brimful_en.qm"))) {
        QCoreApplication::installTranslator(&plurals);
    }
    QTranslator translator;
    if (parser.isSet(lang) && translator.load(QStringLiteral(":/translations/brimful_") + parser.value(lang))) {
        QCoreApplication::installTranslator(&translator);
        QGuiApplication::setLayoutDirection(QLocale(parser.value(lang)).textDirection());
    }
    const std::filesystem::path folder =
        parser.isSet(yard) ? std::filesystem::path(parser.value(yard).toStdString()) : brimful::tablet::defaultYard();
    brimful::tablet::Tablet tablet(folder);
    tablet.setPowerFolder(brimful::tablet::powerFolder());
    tablet.setSounder(std::make_unique<brimful::tablet::Loud>());
    tablet.sheet()->camera()->setLens(std::make_unique<brimful::tablet::Live>());
    tablet.setTheme(parser.value(theme));
    QQmlApplicationEngine engine;
    tablet.startBeside([&engine] {
        brimful::tablet::setupEngine(engine);
        brimful::tablet::warm(engine);
    });
    if (parser.isSet(theme)) {
        tablet.setTheme(parser.value(theme));
    }
    brimful::tablet::show(engine, tablet);
    return engine.rootObjects().isEmpty() ? 4 : QGuiApplication::exec();
}
