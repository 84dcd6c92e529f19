#include "tests/qml/scenes.h"

#include "tests/app/tablet/demo_lens.h"
#include "tests/app/tablet/demo_pictures.h"
#include "tests/app/tablet/demo_power.h"
#include "tests/app/tablet/demo_yard.h"
#include "tests/app/tablet/turned_clock.h"

#include <QDir>
#include <QFileInfo>
#include <QTest>

#include <algorithm>

namespace brimful::test {

using tablet::FigurePage;
using tablet::Sheet;
using tablet::Tablet;

namespace {

// A vessel of the demo by what its plate says.
QString vesselThat(Tablet& program, const std::function<bool(const report::VesselView&)>& fits)
{
    const auto board = program.session().yard().board();
    for (const report::BoardRow& row : board ? *board : std::vector<report::BoardRow>{}) {
        if (fits(*row.view)) {
            return QString::fromStdString(row.view->number);
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

// On to the photograph of the data plate, with so many pictures at hand; they stay until the next scene of a photograph.
Sheet* toPhotograph(Tablet& program, int count)
{
    static std::unique_ptr<DemoPictures> pictures;
    pictures.reset();
    pictures = std::make_unique<DemoPictures>(count);
    program.openVessel(anyHeld(program));
    openStep(program, "identity");
    Sheet* sheet = program.sheet();
    for (int turn = 0; sheet->hand() != Sheet::Kind::File && turn < 30; ++turn) {
        if (sheet->hand() == Sheet::Kind::Number) {
            press(sheet, QStringLiteral("1"));
        } else if (sheet->hand() == Sheet::Kind::Write) {
            sheet->setWritten(QStringLiteral("0"));
        }
        chooseFirst(sheet);
        sheet->take();
    }
    return sheet;
}

// A step that one has signed, before the other.
void toSecond(Tablet& program, const char* step, const char* by)
{
    program.openVessel(anyHeld(program));
    openStep(program, step);
    Sheet* sheet = program.sheet();
    for (int turn = 0; sheet->hand() != Sheet::Kind::People && turn < 60; ++turn) {
        if (sheet->hand() == Sheet::Kind::Number) {
            press(sheet, QStringLiteral("1"));
        } else if (sheet->hand() == Sheet::Kind::Write) {
            sheet->setWritten(QStringLiteral("N3"));
        } else {
            chooseFirst(sheet);
        }
        sheet->take();
    }
    sheet->pickPerson(QLatin1String(by));
    for (const QChar digit : DemoYard::pin(QLatin1String(by))) {
        sheet->pinPress(digit);
    }
    sheet->take();
}

// The same with a camera; where it is asked, the vessel's own tag hangs in the picture.
Sheet* toCamera(Tablet& program, bool tagged)
{
    const auto tag = program.session().yard().printTag(anyHeld(program).toStdString(), "A6", 0, true);
    const QImage seen = tagged && tag ? shellWith(tag->text) : darkened(shellWith({}));
    program.sheet()->camera()->setLens(std::make_unique<DemoLens>(seen));
    return toPhotograph(program, 3);
}

// This picture, from a file and without a tag, is in the record of a step of the vessel.
void recordPicture(Tablet& program, const QString& picture, const char* step, const char* fact, const char* facts)
{
    shellWith({}).save(picture, "jpg", 90);
    yard::RecordRequest request;
    request.vessel = anyHeld(program).toStdString();
    request.step = step;
    request.facts = canon::read(facts, canon::Dialect::Any).value();
    request.files[fact] = picture.toStdString();
    if (!program.session().yard().record(request, {"Bea", DemoYard::pin(QStringLiteral("Bea")).toStdString(), {}})) {
        qFatal("not recorded");
    }
}

// What is picked for the plate is a copy of the picture that shows the vessel's signs.
void pickCopy(Tablet& program)
{
    Sheet* sheet = toPhotograph(program, 3);
    const QFileInfo first(sheet->photographs()->rows()->rows().front().key); // it is being read for the list
    const QString picture = first.dir().filePath(QStringLiteral("copy.jpg"));
    recordPicture(program, first.dir().filePath(QStringLiteral("signs.jpg")), "signs", "sign-photo",
        R"({"brass": "plain", "smell": "nothing", "marks": "none"})");
    shellWith({}).scaled(640, 480, Qt::IgnoreAspectRatio, Qt::SmoothTransformation).save(picture, "jpg", 60);
    sheet->pickFile(picture);
}

// By how much a scene put the clock forward.
std::shared_ptr<std::int64_t> turned()
{
    static const auto ms = std::make_shared<std::int64_t>(0);
    return ms;
}

// The released vessel's time is over.
void runOut(Tablet& program)
{
    *turned() = 12 * 3600'000LL;
    program.tick();
}

constexpr std::int64_t kMinute = 60'000;

// The released vessel as if its heat were over: no vessel of the demo is watched.
void showWatch(Tablet& program, const report::WatchView& watch, const report::ClockView& clock)
{
    auto view = std::make_shared<report::VesselView>(*program.vesselPage()->view());
    view->word = report::PlateWord::FireWatch;
    view->standing.state = rules::State::Held;
    view->watch = watch;
    view->watch->places = {"work-one", "work-two", "far-side", "legs", "ground-gaps"};
    view->clock = clock;
    tablet::VesselPicture picture = program.vesselPage()->picture();
    picture.view = view;
    program.plate()->show(*view, program.session().pack(), program.session().reading, view->now_ms);
    program.clockPage()->show(picture, program.session().pack(), program.session().reading);
}

std::int64_t openReleased(Tablet& program)
{
    program.openVessel(vesselThat(program, [](const report::VesselView& view) { return view.word == report::PlateWord::Released; }));
    return program.vesselPage()->view()->now_ms;
}

void watched(Tablet& program)
{
    const std::int64_t since = openReleased(program) - 22 * kMinute - 40'000;
    report::WatchView watch{
        since, since + 60 * kMinute, since + 30 * kMinute, since + 30 * kMinute, {}, {{since + 1000, 5, 5}, {since + 15 * kMinute, 5, 5}}};
    showWatch(program, watch, {"sweep", since + 30 * kMinute, false});
}

// Whoever watched left.
void unwatched(Tablet& program)
{
    const std::int64_t left = openReleased(program) - 2 * kMinute;
    report::WatchView watch{left, left + 60 * kMinute, left, left, {}, {}};
    watch.left_ms = left;
    showWatch(program, watch, {"unwatched", left, true});
}

// Runs on its battery, of which so much is left.
void lowBattery(Tablet& program, int percent)
{
    static std::unique_ptr<DemoPower> power;
    power = std::make_unique<DemoPower>();
    power->battery(percent, "Discharging");
    program.setPowerFolder(power->folder());
}

// A large yard just after it was opened: of every other vessel nothing but the number is known.
void readHalf(Tablet& program)
{
    yard::Yard& yard = program.session().yard();
    auto rows = *yard.board();
    for (std::size_t i = 1; i < rows.size(); i += 2) {
        report::VesselView nothing;
        nothing.number = rows[i].view->number;
        rows[i] = {std::make_shared<const report::VesselView>(std::move(nothing)), 4, false};
    }
    program.yardPage()->show(rows, yard.pack(), program.session().reading, QString::fromStdString(yard.state().name), yard.nowMs(), true);
}

enum class Until : std::uint8_t { Name, Clock, Law, Pin, Recovery };

void pin(Sheet* sheet, const QString& digits)
{
    for (const QChar digit : digits) {
        sheet->pinPress(QString(digit));
    }
}

// Name, clock, law, you, PIN twice: then the recovery sheet.
void newYard(Tablet& t, Until until)
{
    t.newYard();
    Sheet* sheet = t.sheet();
    sheet->setWritten(QStringLiteral("Test Yard"));
    if (until == Until::Name) {
        return;
    }
    sheet->take();
    if (until == Until::Clock) {
        return;
    }
    sheet->choose(QStringLiteral("right"));
    sheet->take();
    if (until == Until::Law) {
        return;
    }
    sheet->choose(QStringLiteral("us"));
    sheet->take();
    sheet->setWritten(QStringLiteral("Ada"));
    sheet->take();
    pin(sheet, QStringLiteral("730285"));
    if (until == Until::Recovery) {
        sheet->take();
        pin(sheet, QStringLiteral("730285"));
        sheet->take();
    }
}

const Scene kScenes[] = {
    {"01-yard", [](Tablet&) {}},
    {"01-yard-not-read", readHalf},
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
    {"03-step-photo", [](Tablet& t) { toPhotograph(t, 7); }},
    {"03-step-photo-none", [](Tablet& t) { toPhotograph(t, 0); }},
    {"03-step-photo-picked",
        [](Tablet& t) {
            Sheet* sheet = toPhotograph(t, 3);
            sheet->pickFile(sheet->photographs()->rows()->rows().front().key);
        }},
    {"03-step-photo-alike", pickCopy},
    {"03-step-photo-refused", [](Tablet& t) { toPhotograph(t, 3)->pickFile(QStringLiteral("/no/picture")); }},
    {"03-step-photo-camera", [](Tablet& t) { toCamera(t, true); }},
    {"03-step-photo-camera-dark", [](Tablet& t) { toCamera(t, false); }},
    {"03-step-photo-camera-file", [](Tablet& t) { toCamera(t, true)->useCamera(false); }},
    {"03-step-photo-taken", [](Tablet& t) { toCamera(t, true)->shoot(); }},
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
    {"04-step-sweep", // two places were felt
        [](Tablet& t) {
            t.openVessel(anyHeld(t));
            openStep(t, "sweep");
            chooseFirst(t.sheet());
            QTest::qWait(450); // the hand goes on to the next
            chooseFirst(t.sheet());
        }},
    {"04-step-nitrogen",
        [](Tablet& t) {
            t.openVessel(anyHeld(t));
            openStep(t, "inert-purge");
            Sheet* sheet = t.sheet();
            for (int i = 0; i < 20 && sheet->fields()->count() == 0; ++i) {
                press(sheet, sheet->pad()->unitWord() == QLatin1String("%") ? QStringLiteral("20.9") : QStringLiteral("30"));
                chooseFirst(sheet);
                sheet->take();
            }
            press(sheet, QStringLiteral("1.2"));
            sheet->take();
            press(sheet, QStringLiteral("0.6"));
        }},
    {"05-hold",
        [](Tablet& t) {
            t.openVessel(anyHeld(t));
            t.openPart(QStringLiteral("gate:") + QString::number(t.session().pack().holdPoint("first-cut")));
            t.sheet()->setWritten(QStringLiteral("0000"));
            t.sheet()->take();
        }},
    {"05-hold-battery",
        [](Tablet& t) {
            lowBattery(t, 17);
            t.openVessel(anyHeld(t));
            t.openPart(QStringLiteral("gate:") + QString::number(t.session().pack().holdPoint("first-cut")));
            t.tick();
        }},
    {"05-hold-tag-camera",
        [](Tablet& t) {
            t.openVessel(anyHeld(t));
            t.sheet()->camera()->setLens(std::make_unique<DemoLens>(shellWith({})));
            t.openPart(QStringLiteral("gate:") + QString::number(t.session().pack().holdPoint("first-cut")));
        }},
    {"05-hold-tag-refused",
        [](Tablet& t) {
            t.openVessel(anyHeld(t));
            t.sheet()->camera()->setLens(std::make_unique<DemoLens>(shellWith({})));
            t.openPart(QStringLiteral("gate:") + QString::number(t.session().pack().holdPoint("first-cut")));
            t.sheet()->takeScan(QStringLiteral("0000"));
        }},
    {"06-clock",
        [](Tablet& t) {
            t.openVessel(vesselThat(t, [](const report::VesselView& view) { return view.standing.state == rules::State::Released; }));
        }},
    {"06-clock-battery",
        [](Tablet& t) {
            lowBattery(t, 9);
            t.openVessel(vesselThat(t, [](const report::VesselView& view) { return view.standing.state == rules::State::Released; }));
            t.tick();
        }},
    {"06-watch", watched},
    {"06-watch-left", unwatched},
    {"06-watch-hand-on",
        [](Tablet& t) {
            watched(t);
            t.openHandOn();
        }},
    {"06-alarm", // what is done elsewhere, when the time runs out
        [](Tablet& t) {
            t.setSounder(std::make_unique<Ear>());
            t.openVessel(QStringLiteral("NQ-07"));
            openStep(t, "measure");
            runOut(t);
        },
        On::Turned},
    {"06-alarm-clock",
        [](Tablet& t) {
            t.openVessel(QStringLiteral("NQ-01"));
            runOut(t);
        },
        On::Turned},
    {"06-alarm-yard", [](Tablet& t) { runOut(t); }, On::Turned},
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
    {"11-trail-second",
        [](Tablet& t) {
            t.openVessel(anyHeld(t));
            t.openPart(QStringLiteral("trail"));
            t.trailPage()->choose(t.trailPage()->entries()->rows().at(2).key); // what the second person answered
        }},
    {"11-trail-photograph",
        [](Tablet& t) {
            const DemoPictures pictures(1);
            recordPicture(t, pictures.file(0), "identity", "plate-photo",
                R"({"plate": "readable", "serial": "PX-204471", "serial-again": "4471", "number": "painted"})");
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
    {"15-second-number", [](Tablet& t) { toSecond(t, "pose", "Bea"); }},
    {"15-second-choice", [](Tablet& t) { toSecond(t, "what-it-was", "Ada"); }},
    {"15-second-place",
        [](Tablet& t) {
            toSecond(t, "inert-purge", "Rosa");
            press(t.sheet(), QStringLiteral("9"));
            t.sheet()->take(); // not what the record says
        }},
    {"15-second-waits", // the sheet was closed between the two signatures
        [](Tablet& t) {
            toSecond(t, "what-it-was", "Ada");
            t.back();
            openStep(t, "what-it-was");
        }},
    {"16-add", [](Tablet& t) { t.add(); }},
    {"17-set-up", [](Tablet& t) { t.setUp(); }},
    {"17-set-up-sound",
        [](Tablet& t) {
            t.setSounder(std::make_unique<Ear>());
            t.setUp();
        }},
    {"17-law",
        [](Tablet& t) {
            t.setUp();
            t.showLaw();
        }},
    {"17-questions",
        [](Tablet& t) {
            t.setUp();
            t.showQuestions();
        }},
    {"17-questions-none",
        [](Tablet& t) {
            t.setUp();
            t.showQuestions();
            t.questions()->show({{}, 114, 14, 8}); // the demo as if nothing stood out
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
    {"13-first-start", [](Tablet&) {}, On::Nothing},
    {"13-new-yard-name", [](Tablet& t) { newYard(t, Until::Name); }, On::Nothing},
    {"13-new-yard-clock", [](Tablet& t) { newYard(t, Until::Clock); }, On::Nothing},
    {"13-new-yard-law", [](Tablet& t) { newYard(t, Until::Law); }, On::Nothing},
    {"13-new-yard-pin", [](Tablet& t) { newYard(t, Until::Pin); }, On::Nothing},
    {"13-recovery", [](Tablet& t) { newYard(t, Until::Recovery); }, On::Nothing},
    {"14-fault", [](Tablet&) {}, On::Taken},
};

} // namespace

std::span<const Scene> scenes() { return kScenes; }

const Scene& sceneOf(const QString& name)
{
    const auto* found = std::ranges::find(kScenes, name, [](const Scene& one) { return QString::fromLatin1(one.name); });
    Q_ASSERT(found != std::end(kScenes));
    return *found;
}

std::unique_ptr<Stage> Stage::of(const Scene& scene, const QSize& size, bool turning)
{
    auto stage = std::make_unique<Stage>();
    std::filesystem::path folder;
    if (scene.on == On::Nothing) {
        folder = std::filesystem::path(stage->m_dir.path().toStdString()) / "none";
    } else if (scene.on == On::Taken) {
        stage->m_taken = std::make_unique<DemoYard>();
        folder = stage->m_taken->folder();
        stage->m_first = std::make_unique<Tablet>(folder);
        stage->m_first->start();
    }
    std::unique_ptr<ledger::Clock> clock;
    *turned() = 0;
    if (scene.on == On::Turned || (turning && scene.on == On::Demo)) {
        stage->m_taken = std::make_unique<DemoYard>();
        folder = stage->m_taken->folder();
        clock = std::make_unique<TurnedClock>(turned());
    }
    stage->m_shown = std::make_unique<Shown>(size, folder, std::move(clock));
    scene.go(stage->m_shown->program());
    stage->m_shown->settle();
    return stage;
}

void Stage::runOut() { test::runOut(m_shown->program()); }

} // namespace brimful::test
