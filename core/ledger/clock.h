// Time is passed in. Nothing below core/yard reads a clock; a test greps for it.
#pragma once

#include "core/ledger/entry.h"

namespace brimful::ledger {

struct Clock {
    Clock() = default;
    Clock(const Clock&) = delete;
    Clock& operator=(const Clock&) = delete;
    virtual ~Clock() = default;
    [[nodiscard]] virtual Moment now() const = 0;
    [[nodiscard]] virtual bool scripted() const = 0;
};

} // namespace brimful::ledger
