// The machine's clock, and one that follows a script.
#pragma once

#include "core/ledger/clock.h"

#include <memory>

namespace brimful::yard {

// CLOCK_REALTIME, CLOCK_BOOTTIME and the kernel's boot id.
[[nodiscard]] std::unique_ptr<ledger::Clock> systemClock();

// Moves only when told. Allowed only in yards whose first entry says "play".
class ScriptedClock final : public ledger::Clock {
public:
    explicit ScriptedClock(ledger::Moment start)
        : m_now(start)
    {
    }
    [[nodiscard]] ledger::Moment now() const override { return m_now; }
    [[nodiscard]] bool scripted() const override { return true; }
    void wait(std::int64_t ms); // both clocks run on
    void jumpWall(std::int64_t ms); // somebody sets the wall clock
    void reboot(std::int64_t off_ms); // a new boot id, boot clock from zero

private:
    ledger::Moment m_now;
};

} // namespace brimful::yard
