// How long a look, a decision and a tick take: medians, each against its peer in the same run where it has one.
#include "core/yard/play.h"
#include "tests/bench/large_yard.h"

#include <QTemporaryDir>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <ctime>
#include <fcntl.h>
#include <unistd.h>

using namespace brimful;

namespace {

template <class Use> double medianMicroseconds(int runs, const Use& use)
{
    std::vector<double> times;
    for (int i = 0; i < runs; ++i) {
        const auto start = std::chrono::steady_clock::now();
        use();
        times.push_back(std::chrono::duration<double, std::micro>(std::chrono::steady_clock::now() - start).count());
    }
    std::ranges::sort(times);
    return times[times.size() / 2];
}

// A thousand vessels, 200,000 entries: how long until the yard is open, and until the first look is answered.
void largeYard(const std::filesystem::path& where, std::size_t vessels, std::size_t entries)
{
    yard::ScriptedClock clock({test::kLargeYardFrom, 3'600'000, people::randomId<BootId>(), ledger::ClockState::Ok});
    if (!test::makeLargeYard(where, vessels, entries, clock)) {
        std::puts("no large yard");
        return;
    }
    constexpr int kOpens = 5;
    const std::clock_t cpu = std::clock();
    std::printf("open %zu vessels, %zu entries   %8.0f ms", vessels, entries,
        medianMicroseconds(kOpens, [&] { (void)yard::Yard::open(where, yard::Access::ReadOnly, clock); }) / 1000.0);
    std::printf("   (%.0f ms of a processor)\n", 1000.0 * static_cast<double>(std::clock() - cpu) / CLOCKS_PER_SEC / kOpens);
    auto yard = yard::Yard::open(where, yard::Access::ReadOnly, clock);
    std::printf("first look at one of them          %8.2f ms\n", medianMicroseconds(1, [&] { (void)yard->vessel("V-7"); }) / 1000.0);
    std::printf("look at the next                   %8.2f ms\n", medianMicroseconds(1, [&] { (void)yard->vessel("V-8"); }) / 1000.0);
    std::size_t questions = 0;
    std::printf("what may be asked in person        %8.0f ms",
        medianMicroseconds(3, [&] { questions = yard->toAsk()->questions.size(); }) / 1000.0);
    std::printf(", %zu questions\n", questions);
    const auto start = std::chrono::steady_clock::now();
    const auto verification = yard->verify();
    std::printf("verified whole                     %8.2f s, %zu findings\n",
        std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count(), verification->findings.size());
}

} // namespace

int main()
{
    std::setvbuf(stdout, nullptr, _IOLBF, 0);
    const QTemporaryDir folder;
    const std::filesystem::path where = (folder.path() + QStringLiteral("/yard")).toStdString();
    const auto demo_start = std::chrono::steady_clock::now();
    if (!yard::makeDemo(where)) {
        std::puts("no demo yard");
        return 1;
    }
    std::printf("demo yard                          %8.0f ms\n",
        std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - demo_start).count());
    const auto clock = yard::systemClock();

    // A vessel of 300 entries: alarms and other notes on top of its history.
    {
        auto yard = yard::Yard::open(where, yard::Access::ReadWrite, *clock);
        for (int i = static_cast<int>(yard->vessel("NQ-02")->entries); i < 300; ++i) {
            (void)yard->event("NQ-02", "paused", {});
        }
    }
    std::printf("open the yard, all verified        %8.2f ms\n",
        medianMicroseconds(9, [&] { (void)yard::Yard::open(where, yard::Access::ReadOnly, *clock); }) / 1000.0);
    double cold = 0.0;
    for (int i = 0; i < 5; ++i) {
        auto fresh = yard::Yard::open(where, yard::Access::ReadOnly, *clock);
        cold = std::max(cold, medianMicroseconds(1, [&] { (void)fresh->vessel("NQ-02"); }));
    }
    auto yard = yard::Yard::open(where, yard::Access::ReadWrite, *clock);
    std::printf("look at 300 entries, cold (worst)  %8.2f ms\n", cold / 1000.0);
    std::printf("look at 300 entries, warm          %8.2f ms\n", medianMicroseconds(50, [&] { (void)yard->vessel("NQ-02"); }) / 1000.0);

    const auto folded = yard->folded("NQ-02");
    std::printf("standing, base pack                %8.2f us\n",
        medianMicroseconds(2000, [&] { (void)rules::standing(yard->pack(), folded->evidence); }));
    // One tick: a device-signed event, durable, and the look after it; beside one 4 KiB write with fdatasync.
    std::printf("tick, durable and looked at again  %8.2f ms\n", medianMicroseconds(30, [&] {
        (void)yard->event("NQ-04", "touched-by-mistake", {});
        (void)yard->vessel("NQ-04");
    }) / 1000.0);
    const int file = ::open((where / "bare").c_str(), O_WRONLY | O_CREAT | O_CLOEXEC, 0600);
    const std::string page(4096, 'x');
    std::printf("bare write of 4 KiB and fdatasync  %8.2f ms\n", medianMicroseconds(30, [&] {
        (void)!::write(file, page.data(), page.size());
        (void)::fdatasync(file);
    }) / 1000.0);
    ::close(file);
    largeYard((folder.path() + QStringLiteral("/large")).toStdString(), 1000, 200'000);
    return 0;
}
