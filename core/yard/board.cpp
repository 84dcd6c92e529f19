// The yard's list: every vessel as it was last looked at, looked at anew when that may have changed.
#include "core/yard/state.h"

#include <algorithm>

namespace brimful::yard {

namespace {

constexpr std::int64_t kMovingMs = 1000; // a clock on the glass shows no less; shorter, and the reading of the yard would never end
constexpr std::int64_t kSeenMs = 15 * 60 * 1000; // a file that went missing from the folder is found at the next look

// The first moment from which time alone may change what a vessel's row says.
std::int64_t nextLapse(const evidence::Folded& folded, const report::VesselView& view, std::int64_t now_ms)
{
    std::int64_t next = now_ms + kSeenMs;
    const auto lapses = [&](std::int64_t at_ms) {
        if (at_ms > now_ms) {
            next = std::min(next, at_ms);
        }
    };
    for (const rules::Held& one : folded.evidence.facts) {
        lapses(one.lapses_ms);
    }
    for (const rules::StepHeld& one : folded.evidence.steps) {
        lapses(one.lapses_ms);
    }
    lapses(view.standing.until_ms);
    for (const rules::ReleaseState& one : view.standing.hold_points) {
        lapses(one.until_ms);
    }
    lapses(view.clock ? view.clock->at_ms : now_ms);
    if (view.watch && view.watch->since_ms >= view.now_ms) { // nothing says when heat ended: each moment of this watch moves on
        lapses(now_ms + kMovingMs);
    }
    return next;
}

} // namespace

Outcome<std::shared_ptr<const report::VesselView>> Yard::State::look(const VesselRecord& record, std::optional<std::int64_t> as_if_ms)
{
    const auto folded = fold(record.id, as_if_ms);
    if (!folded) {
        return tl::unexpected(folded.error());
    }
    return lookAt(record, *folded, as_if_ms);
}

std::shared_ptr<const report::VesselView> Yard::State::lookAt(
    const VesselRecord& record, const evidence::Folded& folded, std::optional<std::int64_t> as_if_ms)
{
    ledger::YardState scratch = yard;
    const ledger::Moment at = moment(as_if_ms, scratch);
    const InForce then = packAt(as_if_ms);
    auto view = std::make_shared<const report::VesselView>(
        report::view(*then.pack, folded, record.id, scratch, at, surroundings(record.id, folded.lines, then.adopted)));
    if (!as_if_ms) {
        const std::int64_t now_ms = nowMs();
        std::int64_t until_ms = nextLapse(folded, *view, now_ms);
        for (const auto& [vessel, watch] : watches) { // who is busy elsewhere is free again
            until_ms = watch.until_ms > now_ms ? std::min(until_ms, watch.until_ms) : until_ms;
        }
        forgetIfUnsure();
        seen.insert_or_assign(record.id, Seen{view, until_ms});
    }
    return view;
}

const Yard::State::Seen* Yard::State::fresh(const VesselRecord& record) const
{
    const auto found = seen.find(record.id);
    return found != seen.end() && nowMs() < found->second.until_ms ? &found->second : nullptr;
}

std::vector<VesselRecord> Yard::State::unread() const
{
    std::vector<VesselRecord> left;
    std::ranges::copy_if(vessels, std::back_inserter(left), [this](const VesselRecord& record) { return fresh(record) == nullptr; });
    const auto row = [this](const VesselRecord& record) {
        const auto found = newest_row.find(record.id);
        return found == newest_row.end() ? std::uint64_t{} : found->second;
    };
    // What was on the list before, then what was written last.
    std::ranges::stable_sort(left, [&](const VesselRecord& a, const VesselRecord& b) {
        const bool a_seen = seen.contains(a.id);
        const bool b_seen = seen.contains(b.id);
        return a_seen != b_seen ? a_seen : row(a) > row(b);
    });
    return left;
}

// The clock lost its trust, the tablet started again, the store broke: all is looked at anew.
void Yard::State::forgetIfUnsure()
{
    const std::tuple with{clock.now().clock, clock.now().boot, fault.has_value()};
    if (with != seen_with) {
        seen.clear();
        seen_with = with;
    }
}

// For that, or because another program wrote.
Outcome<void> Yard::State::forgetWhatChanged()
{
    if (ledger.dataVersion() != data_version) {
        if (auto again = refresh(); !again) {
            return again;
        }
    }
    forgetIfUnsure();
    return {};
}

std::shared_ptr<const report::VesselView> Yard::seen(const std::string& number)
{
    const auto record = m_state->find(number);
    const auto* const found = record && m_state->forgetWhatChanged() ? m_state->fresh(*record) : nullptr;
    return found == nullptr ? nullptr : found->view;
}

Outcome<report::VesselView> Yard::vessel(const std::string& number, std::optional<std::int64_t> as_if_ms)
{
    const auto record = m_state->find(number);
    if (!record) {
        return tl::unexpected(record.error());
    }
    const auto view = m_state->look(*record, as_if_ms);
    if (!view) {
        return tl::unexpected(view.error());
    }
    return **view;
}

Outcome<std::vector<report::BoardRow>> Yard::board(std::optional<std::int64_t> as_if_ms, const Hears& progress)
{
    std::vector<report::BoardRow> rows;
    for (const VesselRecord& record : std::vector(m_state->vessels)) {
        auto view = m_state->look(record, as_if_ms);
        if (!view) {
            return tl::unexpected(view.error());
        }
        rows.push_back({std::move(*view), 0});
        if (progress) {
            progress(rows.size(), m_state->vessels.size());
        }
    }
    report::sortByNeed(rows);
    return rows;
}

Outcome<std::vector<report::BoardRow>> Yard::glance(std::uint64_t entries)
{
    State& state = *m_state;
    if (auto done = state.forgetWhatChanged(); !done) {
        return tl::unexpected(done.error());
    }
    const auto count = [&](const VesselRecord& record) {
        const auto found = state.rows_of.find(record.id);
        return found == state.rows_of.end() ? std::uint64_t{} : found->second;
    };
    // One look can make others old: whoever watches there is busy, or free again.
    std::vector<VesselRecord> left = state.unread();
    for (std::size_t looks = 0; !left.empty() && looks < 3 * state.vessels.size(); ++looks) {
        std::uint64_t known = 0;
        for (const VesselRecord& record : state.vessels) {
            known += state.fresh(record) != nullptr ? count(record) : 0;
        }
        if (known >= entries) {
            break;
        }
        if (auto view = state.look(left.front(), std::nullopt); !view) {
            return tl::unexpected(view.error());
        }
        left = state.unread();
    }
    std::vector<report::BoardRow> rows;
    rows.reserve(state.vessels.size());
    for (const VesselRecord& record : state.vessels) {
        report::BoardRow row;
        if (const State::Seen* known = state.fresh(record)) {
            row.view = known->view;
        } else {
            report::VesselView nothing;
            nothing.id = record.id;
            nothing.number = record.number;
            row.view = std::make_shared<const report::VesselView>(std::move(nothing));
            row.read = false;
        }
        rows.push_back(std::move(row));
    }
    report::sortByNeed(rows);
    return rows;
}

Outcome<std::optional<report::BoardRow>> Yard::readNext()
{
    State& state = *m_state;
    if (auto known = state.forgetWhatChanged(); !known) {
        return tl::unexpected(known.error());
    }
    const std::vector<VesselRecord> left = state.unread();
    if (left.empty()) {
        return std::nullopt;
    }
    auto view = state.look(left.front(), std::nullopt);
    if (!view) {
        return tl::unexpected(view.error());
    }
    return report::BoardRow{std::move(*view), 0};
}

} // namespace brimful::yard
