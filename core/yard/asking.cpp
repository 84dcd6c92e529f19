// What a supervisor may ask in person: the whole record, read once, bit by bit where a hand waits.
#include "core/yard/state.h"

namespace brimful::yard {

Outcome<std::optional<report::Asked>> Yard::readToAsk(ReadToAsk& so_far, std::uint64_t entries)
{
    State& state = *m_state;
    const auto all = state.ledger.count();
    if (!all) {
        return tl::unexpected(refusalOf(all.error(), state.folder));
    }
    so_far.of = *all;
    so_far.entries.reserve(*all);
    std::uint64_t read = 0;
    const auto done = state.ledger.stream(
        [&](const ledger::Stored& row) {
            if (read == entries) {
                return false;
            }
            ++read;
            so_far.row = row.row;
            if (auto entry = ledger::decode(row.body)) {
                so_far.entries.push_back(report::noted(*state.pack, {row.hash, std::move(*entry), row.beside}));
            }
            return true;
        },
        so_far.row);
    if (!done) {
        return tl::unexpected(refusalOf(done.error(), state.folder));
    }
    if (read == entries) {
        return std::optional<report::Asked>(); // there may be more
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
    report::Asked asked = report::questions(*state.pack, state.yard, std::move(so_far.entries), failed);
    if (refusal) {
        return tl::unexpected(*refusal);
    }
    return std::optional(std::move(asked));
}

Outcome<report::Asked> Yard::toAsk(const Hears& progress)
{
    constexpr std::uint64_t kAtOnce = 2000;
    ReadToAsk so_far;
    for (;;) {
        auto asked = readToAsk(so_far, kAtOnce);
        if (!asked) {
            return tl::unexpected(asked.error());
        }
        if (*asked) {
            return std::move(**asked);
        }
        if (progress) {
            progress(so_far.entries.size(), so_far.of);
        }
    }
}

} // namespace brimful::yard
