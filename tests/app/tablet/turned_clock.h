// The machine's clock, put forward by a test; and an ear for the alarm's sound.
#pragma once

#include "app/tablet/alarm.h"
#include "core/yard/clocks.h"

#include <memory>

namespace brimful::test {

class TurnedClock : public ledger::Clock {
public:
    explicit TurnedClock(std::shared_ptr<std::int64_t> by_ms)
        : m_by_ms(std::move(by_ms))
    {
    }
    [[nodiscard]] ledger::Moment now() const override
    {
        ledger::Moment moment = m_real->now();
        moment.wall_ms += *m_by_ms;
        moment.boot_ms += *m_by_ms;
        return moment;
    }
    [[nodiscard]] bool scripted() const override { return true; }

private:
    std::shared_ptr<std::int64_t> m_by_ms;
    std::unique_ptr<ledger::Clock> m_real{yard::systemClock()};
};

struct Ear : tablet::Sounder {
    bool works{true};
    bool rings{};
    int tries{};
    [[nodiscard]] bool canSound() const override { return works; }
    void ring(bool on) override { rings = on; }
    void once() override { ++tries; }
};

} // namespace brimful::test
