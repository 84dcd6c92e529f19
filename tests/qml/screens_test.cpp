// Every screen, on the demo yard, in every theme and both ways up: loads without a warning, nothing cut off, nothing too
// small, every control has a name of its own. The pictures lie in screens/ of the build folder, to be looked at.
#include "app/tablet/painted.h"
#include "tests/qml/scenes.h"
#include "tests/support/suite.h"

#include <QQmlComponent>
#include <QTest>

using namespace brimful;
using tablet::Tablet;
using test::Shown;

class ScreensTest : public QObject {
    Q_OBJECT

private slots:
    void screen_data();
    void screen();
    void aNewYardStands();
    void aSecondTabletSeesTheFault();
    void aBrokenScreenIsFound();
    void screenAndPaperHaveOnePalette_data();
    void screenAndPaperHaveOnePalette();
};

void ScreensTest::screen_data()
{
    QTest::addColumn<QString>("scene");
    for (const test::Scene& one : test::scenes()) {
        QTest::addRow("%s", one.name) << QString::fromLatin1(one.name);
    }
}

void ScreensTest::screen()
{
    QFETCH(QString, scene);
    const auto stage = test::Stage::of(test::sceneOf(scene), QSize(1280, 800));
    Shown& shown = stage->shown();
    QVERIFY(shown.window() != nullptr);
    QStringList found;
    const auto look = [&](const QString& way) {
        shown.settle();
        shown.picture(scene + QLatin1Char('-') + way);
        for (const QString& flaw : shown.flaws()) {
            found.append(way + QStringLiteral(": ") + flaw);
        }
    };
    for (const char* theme : {"dark", "sunlight", "light"}) {
        shown.program().setTheme(QString::fromLatin1(theme));
        look(QString::fromLatin1(theme));
    }
    shown.resize(QSize(800, 1280));
    look(QStringLiteral("light-portrait"));
    QVERIFY2(found.isEmpty(), qPrintable(found.join(QStringLiteral("\n    "))));
    QVERIFY2(shown.warnings().isEmpty(), qPrintable(shown.warnings().join(QStringLiteral("\n    "))));
}

// Name, clock, law, you, PIN twice: then the recovery sheet, and the yard stands.
void ScreensTest::aNewYardStands()
{
    const auto stage = test::Stage::of(test::sceneOf(QStringLiteral("13-recovery")), QSize(1280, 800));
    Shown& shown = stage->shown();
    QCOMPARE(shown.program().screen(), Tablet::View::Recovery);
    shown.program().goOn();
    QCOMPARE(shown.program().screen(), Tablet::View::SetUp);
    QVERIFY(shown.program().session().yard().clockConfirmed());
    QVERIFY2(shown.warnings().isEmpty(), qPrintable(shown.warnings().join(QStringLiteral("\n    "))));
}

void ScreensTest::aSecondTabletSeesTheFault()
{
    const auto stage = test::Stage::of(test::sceneOf(QStringLiteral("14-fault")), QSize(1280, 800));
    QCOMPARE(stage->shown().program().screen(), Tablet::View::Fault);
}

// The looking itself is tried on a screen with one flaw of each kind.
void ScreensTest::aBrokenScreenIsFound()
{
    Shown shown;
    QQuickItem* button = shown.named(QStringLiteral("Add a vessel"));
    QVERIFY(button != nullptr);
    button->setProperty("name", QStringLiteral("Set up"));
    button->setHeight(40);
    button->setWidth(1000); // over the yard's name
    QQmlComponent pale(qmlEngine(shown.window()));
    pale.setData("import QtQuick\nRectangle { color: 'white'; width: 300; height: 100; x: 600; y: 500\nText { text: 'pale'; color: "
                 "'#808080'; font.pixelSize: 40 } }",
        QUrl());
    auto* words = qobject_cast<QQuickItem*>(pale.create());
    QVERIFY2(words != nullptr, qPrintable(pale.errorString()));
    words->setParentItem(shown.window()->contentItem());
    QQmlComponent crowded(qmlEngine(shown.window()));
    crowded.setData("import QtQuick\nItem { width: 300; height: 60; x: 600; y: 650\nText { text: 'below'; font.pixelSize: 40 }\n"
                    "Text { text: 'above'; x: 30; font.pixelSize: 40 }\nRectangle { x: 200; width: 40; height: 60; color: 'white'\n"
                    "Text { text: 'sticking out'; font.pixelSize: 40 } } }",
        QUrl());
    auto* crowd = qobject_cast<QQuickItem*>(crowded.create());
    QVERIFY2(crowd != nullptr, qPrintable(crowded.errorString()));
    crowd->setParentItem(shown.window()->contentItem());
    shown.settle();
    const QString flaws = shown.flaws().join(u'\n');
    QVERIFY2(flaws.contains(QLatin1String("two of one name")), qPrintable(flaws));
    QVERIFY2(flaws.contains(QLatin1String("small target")), qPrintable(flaws));
    QVERIFY2(flaws.contains(QLatin1String("words under a button")), qPrintable(flaws));
    QVERIFY2(flaws.contains(QLatin1String("weak ink: pale")), qPrintable(flaws));
    QVERIFY2(flaws.contains(QLatin1String("words on words: below / above")), qPrintable(flaws));
    QVERIFY2(flaws.contains(QLatin1String("over the edge: sticking out")), qPrintable(flaws));
    delete crowd;
    delete words;
}

void ScreensTest::screenAndPaperHaveOnePalette_data()
{
    QTest::addColumn<QString>("theme");
    for (const char* theme : {"light", "dark", "sunlight"}) {
        QTest::newRow(theme) << QString::fromLatin1(theme);
    }
}

// Screens and drawings have their colours in two places: they must not drift apart.
void ScreensTest::screenAndPaperHaveOnePalette()
{
    QFETCH(QString, theme);
    Shown shown;
    QQmlComponent component(qmlEngine(shown.window()));
    component.setData("import QtQuick\nimport Brimful\nQtObject { property QtObject colours: Theme.colours }", QUrl());
    const std::unique_ptr<QObject> holder(component.create());
    QVERIFY2(holder != nullptr, qPrintable(component.errorString()));
    shown.program().setTheme(theme);
    const auto* colours = holder->property("colours").value<QObject*>();
    QVERIFY(colours != nullptr);
    const print::Palette palette = tablet::paletteOf(theme);
    const std::pair<const char*, QColor> tokens[] = {{"paper", palette.paper}, {"panel", palette.panel}, {"ink", palette.ink},
        {"ink2", palette.ink2}, {"line", palette.line}, {"act", palette.act}, {"actText", palette.act_text}, {"danger", palette.danger},
        {"dangerText", palette.danger_text}, {"warning", palette.warning}, {"warningText", palette.warning_text},
        {"caution", palette.caution}, {"cautionText", palette.caution_text}, {"notice", palette.notice},
        {"noticeText", palette.notice_text}, {"steel", palette.steel}, {"water", palette.water}, {"waterInk", palette.water_ink},
        {"gas", palette.gas}, {"gasInk", palette.gas_ink}};
    for (const auto& [name, colour] : tokens) {
        const QString on_screen = colours->property(name).value<QColor>().name();
        QVERIFY2(
            on_screen == colour.name(), qPrintable(QStringLiteral("%1: %2, drawn %3").arg(QLatin1String(name), on_screen, colour.name())));
    }
}

BRIMFUL_SUITE(ScreensTest);
#include "screens_test.moc"
