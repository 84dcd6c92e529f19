// The tablet over a yard of 1,000 vessels and 200,000 entries: until it can be used, while it is scrolled and searched, what a tap and
// a signed step take, and how much memory it all needs.
//   bench_glass            makes the yard in a folder that goes away, then looks at it
//   bench_glass DIR        looks at a yard that is there already; makes it when it is not
// QT_QPA_PLATFORM=offscreen (or xcb under Xvfb) and QT_QUICK_BACKEND=software.
#include "app/tablet/engine.h"
#include "app/tablet/tablet.h"
#include "tests/bench/large_yard.h"

#include <QElapsedTimer>
#include <QEventLoop>
#include <QGuiApplication>
#include <QMouseEvent>
#include <QProcess>
#include <QQmlApplicationEngine>
#include <QQuickItem>
#include <QQuickWindow>
#include <QTemporaryDir>
#include <QTimer>

#include <algorithm>
#include <cstdio>
#include <ctime>
#include <fstream>

using namespace brimful;

namespace {

constexpr std::size_t kVessels = 1000;
constexpr std::size_t kEntries = 200'000;

double at(std::vector<double> times, double share)
{
    std::ranges::sort(times);
    return times.empty() ? 0 : times[static_cast<std::size_t>(share * static_cast<double>(times.size() - 1))];
}

struct Took {
    std::vector<double> wall, own; // on the wall, and of this process
};

void say(const char* what, const Took& took)
{
    std::printf("%-44s %4zu  wall p50 %6.1f p95 %6.1f worst %6.1f ms  own p50 %6.1f p95 %6.1f ms\n", what, took.wall.size(),
        at(took.wall, 0.5), at(took.wall, 0.95), at(took.wall, 1), at(took.own, 0.5), at(took.own, 0.95));
}

QElapsedTimer started()
{
    QElapsedTimer clock;
    clock.start();
    return clock;
}

double processMs()
{
    timespec now{};
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
    return static_cast<double>(now.tv_sec) * 1e3 + static_cast<double>(now.tv_nsec) / 1e6;
}

double mebibytes(const char* key)
{
    std::ifstream status("/proc/self/status");
    for (std::string line; std::getline(status, line);) {
        if (line.starts_with(key)) {
            return std::stod(line.substr(line.find(':') + 1)) / 1024;
        }
    }
    return 0;
}

// Until the next frame is on the glass. A hand is on it: nothing is read beside.
void frame(QQuickWindow* window, const std::function<void()>& act, Took* took = nullptr)
{
    QMouseEvent moved(QEvent::MouseMove, QPointF(2, 2), window->mapToGlobal(QPointF(2, 2)), Qt::NoButton, Qt::NoButton, Qt::NoModifier);
    QCoreApplication::sendEvent(window, &moved);
    QEventLoop loop;
    const auto painted = QObject::connect(window, &QQuickWindow::frameSwapped, &loop, &QEventLoop::quit);
    QTimer::singleShot(5000, &loop, &QEventLoop::quit);
    QElapsedTimer clock;
    const double before = processMs();
    clock.start();
    act();
    window->update();
    loop.exec();
    QObject::disconnect(painted);
    if (took != nullptr) {
        took->wall.push_back(static_cast<double>(clock.nsecsElapsed()) / 1e6);
        took->own.push_back(processMs() - before);
    }
}

QQuickItem* listIn(QQuickItem* item)
{
    if (item->inherits("QQuickListView") && item->isVisible() && item->property("count").toInt() > 100) {
        return item;
    }
    for (QQuickItem* child : item->childItems()) {
        if (QQuickItem* found = listIn(child)) {
            return found;
        }
    }
    return nullptr;
}

// A row under a finger looks pressed. The finger then slides off: nothing opens.
Took pressed(QQuickWindow* window, QQuickItem* list)
{
    Took took;
    const auto touch = [&](QEvent::Type type, const QPointF& at) {
        QMouseEvent event(type, at, window->mapToGlobal(at), Qt::LeftButton, Qt::LeftButton, Qt::NoModifier);
        QCoreApplication::sendEvent(window, &event);
    };
    for (int i = 0; i < 20; ++i) {
        const QPointF row = list->mapToScene(QPointF(list->width() / 2, list->height() / 4));
        frame(
            window, [&] { touch(QEvent::MouseButtonPress, row); }, &took);
        frame(window, [&] {
            touch(QEvent::MouseMove, QPointF(4, 4));
            touch(QEvent::MouseButtonRelease, QPointF(4, 4));
        });
    }
    return took;
}

constexpr int kToSignMs = 300; // a hand goes from the pad to Sign, across the glass; meanwhile the PIN is stretched

// The last press of a signature, after all was answered. The yard plays: its PINs are stretched lightly, a working yard's take longer
// beside, while the hand moves.
Took signedSteps(QQuickWindow* window, tablet::Tablet& program)
{
    Took took;
    tablet::Sheet* sheet = program.sheet();
    using Kind = tablet::Sheet::Kind;
    for (int i = 0; i < 20; ++i) {
        program.openVessel(QStringLiteral("V-%1").arg(37 * i + 5));
        program.openStep(QString::number(program.session().pack().step("ownership")));
        for (int guard = 0; guard < 30 && sheet->hand() != Kind::People && sheet->hand() != Kind::Told; ++guard) {
            if (sheet->hand() == Kind::Choice) {
                sheet->choose(sheet->options()->rows().front().key);
            } else if (sheet->hand() == Kind::Write) {
                sheet->setWritten(QStringLiteral("on the wall"));
            }
            sheet->take();
        }
        if (sheet->hand() != Kind::People) {
            std::puts("the step asks for something else");
            return took;
        }
        sheet->pickPerson(QStringLiteral("Ada"));
        for (const QChar digit : QStringLiteral("480263")) {
            sheet->pinPress(digit);
        }
        for (QElapsedTimer hand = started(); hand.elapsed() < kToSignMs;) {
            QCoreApplication::processEvents(QEventLoop::AllEvents, 10);
        }
        frame(
            window, [&] { sheet->take(); }, &took);
        if (program.screen() == tablet::Tablet::View::Sheet) {
            std::printf("not signed: %s\n", qPrintable(sheet->message()));
            return took;
        }
    }
    return took;
}

void look(const std::filesystem::path& where)
{
    QElapsedTimer clock;
    clock.start();
    tablet::Tablet program(where);
    QQmlApplicationEngine engine;
    double warmed = 0;
    program.startBeside([&] {
        tablet::setupEngine(engine);
        tablet::warm(engine);
        warmed = static_cast<double>(clock.nsecsElapsed()) / 1e6;
    });
    const double opened = static_cast<double>(clock.nsecsElapsed()) / 1e6;
    tablet::show(engine, program);
    auto* window = qobject_cast<QQuickWindow*>(engine.rootObjects().constFirst());
    window->resize(1280, 800);
    frame(window, [] {});
    std::printf("screens read after %.0f ms, opened after %.0f ms, first frame after %.0f ms, %.0f MiB\n", warmed, opened,
        static_cast<double>(clock.nsecsElapsed()) / 1e6, mebibytes("VmRSS"));

    QQuickItem* list = listIn(window->contentItem());
    if (list == nullptr) {
        std::puts("no list of vessels");
        return;
    }
    Took scrolled;
    double y = list->property("contentY").toDouble();
    for (int i = 0; i < 300; ++i) {
        y += 60;
        frame(
            window, [&] { list->setProperty("contentY", y); }, &scrolled);
    }
    say("a frame while the yard is scrolled", scrolled);
    say("a row pressed, seen on the glass", pressed(window, list));
    Took searched;
    for (int i = 0; i < 20; ++i) {
        frame(
            window, [&] { program.scanned(QStringLiteral("V-%1").arg(37 * i + 5)); }, &searched);
        frame(window, [&] { program.back(); });
    }
    say("a number typed, its vessel shown (first look)", searched);
    Took again;
    Took back;
    for (int i = 0; i < 20; ++i) {
        frame(
            window, [&] { program.scanned(QStringLiteral("V-%1").arg(37 * i + 5)); }, &again);
        frame(
            window, [&] { program.back(); }, &back);
    }
    say("the same again", again);
    say("back to the yard", back);
    say("a step signed: durable, its vessel shown", signedSteps(window, program));
    program.back();
    Took asked;
    Took reading;
    program.setUp();
    clock.restart();
    frame(
        window, [&] { program.showQuestions(); }, &asked);
    while (program.questions()->reading()) {
        frame(
            window, [] {}, &reading);
    }
    say("questions to ask: opened", asked);
    say("a frame while the record is read for them", reading);
    std::printf("%d questions after %.0f ms\n", program.questions()->questions()->count(), static_cast<double>(clock.nsecsElapsed()) / 1e6);
    program.back();
    clock.restart();
    while (clock.elapsed() < 120'000 && program.yardPage()->unread() > 0) {
        QCoreApplication::processEvents(QEventLoop::WaitForMoreEvents, 50);
    }
    std::printf("all vessels read after another %.1f s\n", static_cast<double>(clock.elapsed()) / 1e3);
    std::printf("%.0f MiB now, %.0f MiB at most\n", mebibytes("VmRSS"), mebibytes("VmHWM"));
}

} // namespace

int main(int argc, char** argv)
{
    tablet::setupPlatform();
    const QGuiApplication application(argc, argv);
    std::setvbuf(stdout, nullptr, _IOLBF, 0);
    const QStringList given = QCoreApplication::arguments();
    if (given.size() == 3 && given[1] == QLatin1String("make")) {
        yard::ScriptedClock scripted({test::kLargeYardFrom, 3'600'000, people::randomId<BootId>(), ledger::ClockState::Ok});
        return test::makeLargeYard(given[2].toStdString(), kVessels, kEntries, scripted) ? 0 : 1;
    }
    const QTemporaryDir folder;
    const QString where = given.size() == 2 ? given[1] : folder.path() + QStringLiteral("/yard");
    if (!std::filesystem::exists(where.toStdString())) {
        (void)QProcess::execute(QCoreApplication::applicationFilePath(), {QStringLiteral("make"), where}); // its memory is not counted
    }
    look(where.toStdString());
    return 0;
}
