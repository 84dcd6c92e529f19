// The fire watch after heat: since when, until when, what was swept, and when the next sweep is due.
#pragma once

#include "core/report/view.h"

namespace brimful::report {

// ms; `first_ms`, `most_ms`: the pack's sweep-first and sweep-most, in ms. The first sweep is due as the heat ends; each further one when
// as much time again has gone as had gone at the one before it, but not sooner than `first_ms` and not later than `most_ms` after it: at
// 0, 15, 30, 60 min, then hourly. Mark: proposal.
[[nodiscard]] std::int64_t nextSweepMs(
    std::int64_t since_ms, std::optional<std::int64_t> last_ms, std::int64_t first_ms, std::int64_t most_ms);

// The same by the pack's parameters; kNever where it has none.
[[nodiscard]] std::int64_t nextSweepMs(const rules::Pack&, std::int64_t since_ms, std::optional<std::int64_t> last_ms);

// Nothing: there was no heat, it is still released, or the watch was signed after it. Whoever leaves ends it: it begins again with the next
// sweep, or with the record of who takes it over.
[[nodiscard]] std::optional<WatchView> watch(
    const rules::Pack&, const evidence::Folded&, const VesselId&, const ledger::YardState&, std::int64_t now_ms);

// Who watches: whom the newest record that counts names, of those that name somebody for this vessel alone. Nothing: none counts.
[[nodiscard]] std::optional<PersonId> watcher(const rules::Pack&, const evidence::Folded&);

// What a release leans on while it lasts, taken with an instrument, and was not yet needed when it was given: its log.
[[nodiscard]] rules::Index logOf(const rules::Pack&, rules::Index hold_point);

} // namespace brimful::report
