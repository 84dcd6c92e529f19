// How long a live figure takes from a finger's move to its painted frame, on the real window: wall time and this process' own.
// Run it with QT_QPA_PLATFORM=offscreen (or xcb under Xvfb) and QT_QUICK_BACKEND=software. Offscreen, Qt waits 5 ms before it
// draws what was asked for; QT_QPA_UPDATE_IDLE_TIME=0 takes that out.
#include "app/tablet/figures.h"
#include "app/tablet/look.h"
#include "tests/qml/looking.h"

#include <QElapsedTimer>
#include <QEventLoop>
#include <QGuiApplication>
#include <QTimer>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <ctime>

using namespace brimful;

namespace {

double processMs()
{
    timespec now{};
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
    return static_cast<double>(now.tv_sec) * 1e3 + static_cast<double>(now.tv_nsec) / 1e6;
}

double at(std::vector<double> times, double share)
{
    std::ranges::sort(times);
    return times.empty() ? 0 : times[static_cast<std::size_t>(share * static_cast<double>(times.size() - 1))];
}

// A finger goes round in the picture; each move that changes something is waited for.
void measure(test::Shown& shown, const char* id, const QString& view)
{
    tablet::FigurePage& page = *shown.program().figure();
    std::vector<double> wall;
    std::vector<double> own;
    bool changed = false;
    const auto noticed = QObject::connect(&page, &tablet::FigurePage::changed, &page, [&] { changed = true; });
    page.grasp(0.5, 0.5);
    for (int i = 0; i < 160; ++i) {
        const double turn = 0.1 * i;
        changed = false;
        QEventLoop loop;
        const auto painted = QObject::connect(shown.window(), &QQuickWindow::frameSwapped, &loop, &QEventLoop::quit);
        QTimer::singleShot(2000, &loop, &QEventLoop::quit);
        QElapsedTimer clock;
        const double before = processMs();
        clock.start();
        page.drag(0.5 + 0.3 * std::sin(turn), 0.5 + 0.3 * std::cos(turn));
        if (changed) {
            loop.exec();
            wall.push_back(static_cast<double>(clock.nsecsElapsed()) / 1e6);
            own.push_back(processMs() - before);
        }
        QObject::disconnect(painted);
    }
    QObject::disconnect(noticed);
    std::printf("%-8s %-8s %4zu frames  wall p50 %6.1f p95 %6.1f ms  own p50 %6.1f p95 %6.1f ms\n", id, qPrintable(view), wall.size(),
        at(wall, 0.5), at(wall, 0.95), at(own, 0.5), at(own, 0.95));
    std::fflush(stdout);
}

} // namespace

int main(int argc, char** argv)
{
    const QGuiApplication application(argc, argv);
    print::loadFonts();
    test::Shown shown;
    shown.program().openVessel(QStringLiteral("NQ-02"));
    for (const tablet::FigureKind& kind : tablet::figureKinds()) {
        shown.program().openPart(QStringLiteral("figure:") + QLatin1String(kind.id));
        for (const tablet::Row& view : std::vector<tablet::Row>(shown.program().figure()->views()->rows())) {
            if (view.key != QLatin1String("notes")) {
                shown.program().figure()->look(view.key);
                shown.settle();
                measure(shown, kind.id, view.key);
            }
        }
    }
    return 0;
}
