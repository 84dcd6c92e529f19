// What a supervisor may ask in person: the whole record, read once.
#include "core/yard/state.h"

namespace brimful::yard {

Outcome<report::Asked> Yard::toAsk(const std::function<void(std::uint64_t, std::uint64_t)>& progress)
{
    constexpr std::uint64_t kTellEvery = 1000;
    State& state = *m_state;
    const auto all = state.ledger.count();
    if (!all) {
        return tl::unexpected(refusalOf(all.error(), state.folder));
    }
    std::vector<report::Noted> entries;
    entries.reserve(*all);
    std::uint64_t read = 0;
    const auto done = state.ledger.stream([&](const ledger::Stored& row) {
        if (auto entry = ledger::decode(row.body)) {
            entries.push_back(report::noted(*state.pack, {row.hash, std::move(*entry), row.beside}));
        }
        if (progress && ++read % kTellEvery == 0) {
            progress(read, *all);
        }
        return true;
    });
    if (!done) {
        return tl::unexpected(refusalOf(done.error(), state.folder));
    }
    std::optional<report::Refusal> refusal;
    const auto failed = [&](const VesselId& vessel) {
        const auto lines = state.history(vessel);
        if (!lines) {
            refusal = lines.error();
            return true;
        }
        return evidence::everFailed(*lines, vessel, state.yard, *state.pack, state.reference, state.clock.now(), state.memo);
    };
    report::Asked asked = report::questions(*state.pack, state.yard, std::move(entries), failed);
    if (refusal) {
        return tl::unexpected(*refusal);
    }
    return asked;
}

} // namespace brimful::yard
