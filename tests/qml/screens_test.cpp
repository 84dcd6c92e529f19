// Every screen, on the demo yard, in every theme and both ways up: loads without a warning, nothing cut off, nothing too
// small, every control has a name of its own. The pictures lie in screens/ of the build folder, to be looked at.
#include "app/tablet/painted.h"
#include "tests/qml/looking.h"
#include "tests/support/suite.h"

#include <QQmlComponent>
#include <QTest>

using namespace brimful;
using tablet::FigurePage;
using tablet::Sheet;
using tablet::Tablet;
using test::Shown;

namespace {

// A vessel of the demo by what its plate says.
QString vesselThat(Tablet& program, const std::function<bool(const report::VesselView&)>& fits)
{
    const auto board = program.session().yard().board();
    for (const report::BoardRow& row : board ? *board : std::vector<report::BoardRow>{}) {
        if (fits(row.view)) {
            return QString::fromStdString(row.view.number);
        }
    }
    return {};
}

QString held(Tablet& program)
{
    return vesselThat(program, [](const report::VesselView& view) {
        return view.standing.state == rules::State::Held && view.openings.size() > 2 && view.water.state == report::WaterState::Brim;
    });
}

QString anyHeld(Tablet& program)
{
    const QString best = held(program);
    return best.isEmpty() ? vesselThat(program, [](const report::VesselView& view) { return view.standing.state == rules::State::Held; })
                          : best;
}

void openStep(Tablet& program, const char* step) { program.openStep(QString::number(program.session().pack().step(step))); }

FigurePage* openFigure(Tablet& program, const char* id)
{
    program.openVessel(anyHeld(program));
    program.openPart(QStringLiteral("figure:") + QLatin1String(id));
    return program.figure();
}

void press(Sheet* sheet, const QString& keys)
{
    for (const QChar key : keys) {
        sheet->pad()->press(QString(key));
    }
}

void chooseFirst(Sheet* sheet)
{
    if (sheet->options()->count() > 0) {
        sheet->choose(sheet->options()->rows().front().key);
    }
}

// Each brings the program to one screen.
struct Scene {
    const char* name;
    void (*go)(Tablet&);
};

const Scene kScenes[] = {
    {"01-yard", [](Tablet&) {}},
    {"02-vessel",
        [](Tablet& t) {
            t.openVessel(anyHeld(t));
            if (t.screen() == Tablet::View::Clock) {
                t.back();
            }
        }},
    {"03-step-number",
        [](Tablet& t) {
            t.openVessel(anyHeld(t));
            openStep(t, "measure");
            press(t.sheet()->pad() != nullptr ? t.sheet() : nullptr, QStringLiteral("30"));
        }},
    {"03-step-choice",
        [](Tablet& t) {
            t.openVessel(anyHeld(t));
            openStep(t, "what-it-was");
        }},
    {"03-step-write",
        [](Tablet& t) {
            t.openVessel(anyHeld(t));
            openStep(t, "openings");
        }},
    {"03-step-cannot",
        [](Tablet& t) {
            t.openVessel(anyHeld(t));
            openStep(t, "brim");
            t.sheet()->refuse();
        }},
    {"04-step-readings",
        [](Tablet& t) {
            t.openVessel(anyHeld(t));
            openStep(t, "readings-wet");
            Sheet* sheet = t.sheet();
            chooseFirst(sheet);
            sheet->take();
            for (int i = 0; i < 12 && sheet->fields()->count() == 0; ++i) {
                press(sheet, sheet->pad()->unitWord() == QLatin1String("%") ? QStringLiteral("20.9") : QStringLiteral("0"));
                chooseFirst(sheet);
                sheet->take();
            }
            press(sheet, QStringLiteral("20.9"));
            sheet->take();
            press(sheet, QStringLiteral("0"));
            sheet->take();
            press(sheet, QStringLiteral("20.9"));
        }},
    {"05-hold",
        [](Tablet& t) {
            t.openVessel(anyHeld(t));
            t.openPart(QStringLiteral("gate:") + QString::number(t.session().pack().holdPoint("first-cut")));
            t.sheet()->setWritten(QStringLiteral("0000"));
            t.sheet()->take();
        }},
    {"06-clock",
        [](Tablet& t) {
            t.openVessel(vesselThat(t, [](const report::VesselView& view) { return view.standing.state == rules::State::Released; }));
        }},
    {"07-held-by",
        [](Tablet& t) {
            t.openVessel(anyHeld(t));
            t.openHeld();
        }},
    {"07-stage",
        [](Tablet& t) {
            t.openVessel(anyHeld(t));
            t.openPart(QStringLiteral("reach:0"));
        }},
    {"08-figures",
        [](Tablet& t) {
            t.openVessel(anyHeld(t));
            t.openPart(QStringLiteral("figures"));
        }},
    {"08-water", [](Tablet& t) { openFigure(t, "water")->step(20); }},
    {"08-water-snorkel",
        [](Tablet& t) {
            FigurePage* water = openFigure(t, "water");
            water->step(40);
            water->choose(QStringLiteral("snorkel"));
            water->step(3);
        }},
    {"08-water-snorkel-unpacked",
        [](Tablet& t) {
            FigurePage* water = openFigure(t, "water");
            water->step(-40);
            water->choose(QStringLiteral("snorkel"));
            water->step(3);
            water->choose(QStringLiteral("gap"));
            water->step(-1);
        }},
    {"08-water-notes", [](Tablet& t) { openFigure(t, "water")->look(QStringLiteral("notes")); }},
    {"08-water-best", [](Tablet& t) { openFigure(t, "water")->press(); }},
    {"08-level", [](Tablet& t) { openFigure(t, "level")->step(10); }},
    {"08-level-chart", [](Tablet& t) { openFigure(t, "level")->look(QStringLiteral("chart")); }},
    {"08-drain", [](Tablet& t) { openFigure(t, "drain")->step(1); }},
    {"08-drain-curve",
        [](Tablet& t) {
            FigurePage* drain = openFigure(t, "drain");
            drain->look(QStringLiteral("curve"));
            drain->choose(QStringLiteral("minute"));
            drain->step(12);
        }},
    {"08-stand", [](Tablet& t) { openFigure(t, "stand")->step(1); }},
    {"08-stand-filling", [](Tablet& t) { openFigure(t, "stand")->look(QStringLiteral("fill")); }},
    {"08-stand-tips", [](Tablet& t) { openFigure(t, "stand")->step(-12); }},
    {"08-cut", [](Tablet& t) { openFigure(t, "cut")->step(1); }},
    {"08-cut-each", [](Tablet& t) { openFigure(t, "cut")->look(QStringLiteral("each")); }},
    {"08-cut-notes", [](Tablet& t) { openFigure(t, "cut")->look(QStringLiteral("notes")); }},
    {"09-sampling", [](Tablet& t) { openFigure(t, "sampling")->step(4); }},
    {"09-sampling-long",
        [](Tablet& t) {
            FigurePage* sampling = openFigure(t, "sampling");
            sampling->choose(QStringLiteral("hose"));
            sampling->step(20);
        }},
    {"09-gas-path", [](Tablet& t) { openFigure(t, "gas")->step(16); }},
    {"09-gas-time",
        [](Tablet& t) {
            FigurePage* gas = openFigure(t, "gas");
            gas->look(QStringLiteral("time"));
            gas->step(16);
        }},
    {"09-gas-notes", [](Tablet& t) { openFigure(t, "gas")->look(QStringLiteral("notes")); }},
    {"09-gas-nitrogen-path",
        [](Tablet& t) {
            FigurePage* gas = openFigure(t, "gas");
            gas->flip(QStringLiteral("nitrogen"));
            gas->step(16);
        }},
    {"09-gas-nitrogen-time",
        [](Tablet& t) {
            FigurePage* gas = openFigure(t, "gas");
            gas->flip(QStringLiteral("nitrogen"));
            gas->look(QStringLiteral("time"));
            gas->step(30);
        }},
    {"09-gas-unknown",
        [](Tablet& t) {
            FigurePage* gas = openFigure(t, "gas");
            auto unknown = std::make_shared<report::VesselView>(*t.vesselPage()->view());
            unknown->contents = "ammonia"; // its limiting oxygen is not published
            gas->show({unknown, QStringLiteral("ammonia"), t.session().yard().reference(), t.session().reading});
        }},
    {"09-gas-nitrogen-never", // nitrogen gets there, air never
        [](Tablet& t) {
            FigurePage* gas = openFigure(t, "gas");
            gas->flip(QStringLiteral("nitrogen"));
            gas->choose(QStringLiteral("residue"));
            gas->step(3);
        }},
    {"09-gas-never", // a source that the blower never beats
        [](Tablet& t) {
            FigurePage* gas = openFigure(t, "gas");
            gas->look(QStringLiteral("time"));
            gas->choose(QStringLiteral("residue"));
            gas->step(7);
            gas->choose(QStringLiteral("mixing"));
            gas->step(2);
        }},
    {"09-purge", [](Tablet& t) { openFigure(t, "purge"); }},
    {"09-purge-siphon-crosses",
        [](Tablet& t) {
            FigurePage* purge = openFigure(t, "purge");
            purge->choose(QStringLiteral("way"));
            purge->step(1);
            purge->choose(QStringLiteral("to"));
            purge->step(6);
            purge->choose(QStringLiteral("unfilled"));
            purge->step(2);
        }},
    {"09-purge-vacuum",
        [](Tablet& t) {
            FigurePage* purge = openFigure(t, "purge");
            purge->choose(QStringLiteral("way"));
            purge->step(3);
        }},
    {"09-purge-notes", [](Tablet& t) { openFigure(t, "purge")->look(QStringLiteral("notes")); }},
    {"09-meter",
        [](Tablet& t) {
            FigurePage* meter = openFigure(t, "meter");
            meter->step(-7);
        }},
    {"09-meter-leave", [](Tablet& t) { openFigure(t, "meter")->step(10); }},
    {"09-meter-starved",
        [](Tablet& t) {
            FigurePage* meter = openFigure(t, "meter");
            meter->step(-10);
            meter->choose(QStringLiteral("oxygen"));
            meter->step(-150);
        }},
    {"09-meter-too-soon",
        [](Tablet& t) {
            FigurePage* meter = openFigure(t, "meter");
            meter->step(-9);
            meter->choose(QStringLiteral("held"));
            meter->step(-14);
        }},
    {"09-meter-more", [](Tablet& t) { openFigure(t, "meter")->choose(QStringLiteral("more")); }},
    {"09-meter-notes", [](Tablet& t) { openFigure(t, "meter")->look(QStringLiteral("notes")); }},
    {"10-mark-out-flat", [](Tablet& t) { openFigure(t, "mark-out")->step(2); }},
    {"10-mark-out-side", [](Tablet& t) { openFigure(t, "mark-out")->look(QStringLiteral("side")); }},
    {"10-mark-out-end", [](Tablet& t) { openFigure(t, "mark-out")->look(QStringLiteral("end")); }},
    {"10-mark-out-notes", [](Tablet& t) { openFigure(t, "mark-out")->look(QStringLiteral("notes")); }},
    {"10-mark-out-more", [](Tablet& t) { openFigure(t, "mark-out")->choose(QStringLiteral("more")); }},
    {"10-joint-edge", [](Tablet& t) { openFigure(t, "joint")->step(20); }},
    {"10-joint-hole",
        [](Tablet& t) {
            FigurePage* joint = openFigure(t, "joint");
            joint->look(QStringLiteral("hole"));
            joint->step(20);
        }},
    {"10-joint-side",
        [](Tablet& t) {
            FigurePage* joint = openFigure(t, "joint");
            joint->look(QStringLiteral("side"));
            joint->step(20);
        }},
    {"10-joint-heads",
        [](Tablet& t) {
            FigurePage* joint = openFigure(t, "joint");
            joint->choose(QStringLiteral("kind"));
            joint->step(4);
            joint->choose(QStringLiteral("piece"));
            joint->step(50);
        }},
    {"10-joint-none",
        [](Tablet& t) {
            FigurePage* joint = openFigure(t, "joint");
            joint->choose(QStringLiteral("piece"));
            joint->step(1000);
        }},
    {"10-draught-height", [](Tablet& t) { openFigure(t, "draught")->step(1); }},
    {"10-draught-bore", [](Tablet& t) { openFigure(t, "draught")->look(QStringLiteral("bore")); }},
    {"10-draught-held",
        [](Tablet& t) {
            FigurePage* stack = openFigure(t, "draught");
            stack->look(QStringLiteral("held"));
            stack->choose(QStringLiteral("held"));
            stack->step(9);
        }},
    {"10-draught-notes", [](Tablet& t) { openFigure(t, "draught")->look(QStringLiteral("notes")); }},
    {"11-trail",
        [](Tablet& t) {
            t.openVessel(anyHeld(t));
            t.openPart(QStringLiteral("trail"));
        }},
    {"12-tag",
        [](Tablet& t) {
            t.openVessel(anyHeld(t));
            t.openPart(QStringLiteral("tag"));
            t.printTag();
        }},
    {"12-tag-before",
        [](Tablet& t) {
            t.openVessel(anyHeld(t));
            t.openPart(QStringLiteral("tag"));
        }},
    {"15-sign-people",
        [](Tablet& t) {
            t.openVessel(anyHeld(t));
            openStep(t, "brim");
            t.sheet()->refuse();
            t.sheet()->choose(QStringLiteral("leaks"));
            t.sheet()->take();
        }},
    {"15-sign-pin",
        [](Tablet& t) {
            t.openVessel(anyHeld(t));
            openStep(t, "brim");
            t.sheet()->refuse();
            t.sheet()->choose(QStringLiteral("leaks"));
            t.sheet()->take();
            t.sheet()->pickPerson(QStringLiteral("Bea"));
            for (int i = 0; i < 4; ++i) {
                t.sheet()->pinPress(QStringLiteral("7"));
            }
        }},
    {"16-add", [](Tablet& t) { t.add(); }},
    {"17-set-up", [](Tablet& t) { t.setUp(); }},
    {"17-law",
        [](Tablet& t) {
            t.setUp();
            t.showLaw();
        }},
    {"17-about",
        [](Tablet& t) {
            t.setUp();
            t.showAbout();
        }},
    {"18-speak-up",
        [](Tablet& t) {
            t.openVessel(anyHeld(t));
            t.speakUp();
        }},
    {"18-stop",
        [](Tablet& t) {
            t.openVessel(anyHeld(t));
            t.stop();
        }},
};

} // namespace

class ScreensTest : public QObject {
    Q_OBJECT

private slots:
    void screen_data();
    void screen();
    void firstStart_data();
    void firstStart();
    void aSecondTabletSeesTheFault();
    void aBrokenScreenIsFound();
    void screenAndPaperHaveOnePalette_data();
    void screenAndPaperHaveOnePalette();
};

void ScreensTest::screen_data()
{
    QTest::addColumn<int>("scene");
    QTest::addColumn<QString>("theme");
    QTest::addColumn<QSize>("size");
    for (int i = 0; i < static_cast<int>(std::size(kScenes)); ++i) {
        for (const char* theme : {"light", "dark", "sunlight"}) {
            QTest::addRow("%s %s", kScenes[i].name, theme) << i << QString::fromLatin1(theme) << QSize(1280, 800);
        }
        QTest::addRow("%s portrait", kScenes[i].name) << i << QStringLiteral("light") << QSize(800, 1280);
    }
}

void ScreensTest::screen()
{
    QFETCH(int, scene);
    QFETCH(QString, theme);
    QFETCH(QSize, size);
    Shown shown(size);
    QVERIFY(shown.window() != nullptr);
    shown.program().setTheme(theme);
    kScenes[scene].go(shown.program());
    shown.settle();
    shown.picture(QStringLiteral("%1-%2%3").arg(
        QLatin1String(kScenes[scene].name), theme, size.width() < size.height() ? QStringLiteral("-portrait") : QString()));
    const QStringList flaws = shown.flaws();
    QVERIFY2(flaws.isEmpty(), qPrintable(flaws.join(QStringLiteral("\n    "))));
    QVERIFY2(shown.warnings().isEmpty(), qPrintable(shown.warnings().join(QStringLiteral("\n    "))));
}

void ScreensTest::firstStart_data()
{
    QTest::addColumn<QSize>("size");
    QTest::newRow("landscape") << QSize(1280, 800);
    QTest::newRow("portrait") << QSize(800, 1280);
}

void ScreensTest::firstStart()
{
    QFETCH(QSize, size);
    QTemporaryDir dir;
    Shown shown(size, std::filesystem::path(dir.path().toStdString()) / "none");
    QCOMPARE(shown.program().screen(), Tablet::View::FirstStart);
    const QString way = size.width() < size.height() ? QStringLiteral("-portrait") : QString();
    shown.picture(QStringLiteral("13-first-start") + way);
    QStringList flaws = shown.flaws();
    QVERIFY2(flaws.isEmpty(), qPrintable(flaws.join(QStringLiteral("\n    "))));

    // Name, clock, law, you, PIN twice: then the recovery sheet, and the yard stands.
    shown.program().newYard();
    Sheet* sheet = shown.program().sheet();
    sheet->setWritten(QStringLiteral("Test Yard"));
    shown.settle();
    shown.picture(QStringLiteral("13-new-yard-name") + way);
    sheet->take();
    shown.settle();
    shown.picture(QStringLiteral("13-new-yard-clock") + way);
    flaws = shown.flaws();
    QVERIFY2(flaws.isEmpty(), qPrintable(flaws.join(QStringLiteral("\n    "))));
    sheet->choose(QStringLiteral("right"));
    sheet->take();
    shown.settle();
    shown.picture(QStringLiteral("13-new-yard-law") + way);
    flaws = shown.flaws();
    QVERIFY2(flaws.isEmpty(), qPrintable(flaws.join(QStringLiteral("\n    "))));
    sheet->choose(QStringLiteral("us"));
    sheet->take();
    sheet->setWritten(QStringLiteral("Ada"));
    sheet->take();
    for (int twice = 0; twice < 2; ++twice) {
        for (const char* digit = "730285"; *digit != '\0'; ++digit) {
            sheet->pinPress(QString(QLatin1Char(*digit)));
        }
        if (twice == 0) {
            shown.settle();
            shown.picture(QStringLiteral("13-new-yard-pin") + way);
        }
        sheet->take();
    }
    QCOMPARE(shown.program().screen(), Tablet::View::Recovery);
    shown.settle();
    shown.picture(QStringLiteral("13-recovery") + way);
    flaws = shown.flaws();
    QVERIFY2(flaws.isEmpty(), qPrintable(flaws.join(QStringLiteral("\n    "))));
    shown.program().goOn();
    QCOMPARE(shown.program().screen(), Tablet::View::SetUp);
    QVERIFY(shown.program().session().yard().clockConfirmed());
    QVERIFY2(shown.warnings().isEmpty(), qPrintable(shown.warnings().join(QStringLiteral("\n    "))));
}

void ScreensTest::aSecondTabletSeesTheFault()
{
    const test::DemoYard demo;
    Tablet first(demo.folder());
    first.start();
    Shown shown(QSize(1280, 800), demo.folder());
    QCOMPARE(shown.program().screen(), Tablet::View::Fault);
    shown.picture(QStringLiteral("14-fault"));
    const QStringList flaws = shown.flaws();
    QVERIFY2(flaws.isEmpty(), qPrintable(flaws.join(QStringLiteral("\n    "))));
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
    shown.settle();
    const QString flaws = shown.flaws().join(u'\n');
    QVERIFY2(flaws.contains(QLatin1String("two of one name")), qPrintable(flaws));
    QVERIFY2(flaws.contains(QLatin1String("small target")), qPrintable(flaws));
    QVERIFY2(flaws.contains(QLatin1String("words under a button")), qPrintable(flaws));
    QVERIFY2(flaws.contains(QLatin1String("weak ink: pale")), qPrintable(flaws));
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
