#include "core/yard/clocks.h"

#include "core/people/keys.h"

#include <ctime>
#include <fstream>

namespace brimful::yard {

namespace {

std::int64_t milliseconds(clockid_t which)
{
    timespec now{};
    clock_gettime(which, &now);
    return std::int64_t{now.tv_sec} * 1000 + now.tv_nsec / 1'000'000;
}

// The kernel's boot id, a UUID in text; its 16 bytes identify this boot.
BootId kernelBoot()
{
    std::ifstream file("/proc/sys/kernel/random/boot_id");
    std::string text;
    std::getline(file, text);
    std::erase(text, '-');
    return canon::fromHex<BootId>(text).value_or(BootId{});
}

class SystemClock final : public ledger::Clock {
public:
    SystemClock()
        : m_boot(kernelBoot())
    {
    }

    [[nodiscard]] ledger::Moment now() const override
    {
        return {milliseconds(CLOCK_REALTIME), milliseconds(CLOCK_BOOTTIME), m_boot, ledger::ClockState::Ok};
    }
    [[nodiscard]] bool scripted() const override { return false; }

private:
    BootId m_boot;
};

} // namespace

std::unique_ptr<ledger::Clock> systemClock() { return std::make_unique<SystemClock>(); }

void ScriptedClock::wait(std::int64_t ms)
{
    m_now.wall_ms += ms;
    m_now.boot_ms += ms;
}

void ScriptedClock::jumpWall(std::int64_t ms) { m_now.wall_ms += ms; }

void ScriptedClock::reboot(std::int64_t off_ms)
{
    m_now.wall_ms += off_ms;
    m_now.boot_ms = 0;
    m_now.boot = people::randomId<BootId>();
}

} // namespace brimful::yard
