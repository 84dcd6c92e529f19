#include "app/tablet/wet_glass.h"

#include <algorithm>

namespace brimful::tablet {

void WetGlass::renew(const std::vector<Contact>& contacts, std::int64_t now_ms)
{
    std::vector<Lying> lying;
    for (const Contact& one : contacts) {
        const auto before = std::ranges::find(m_lying, one.id, &Lying::id);
        Lying here = before == m_lying.end() ? Lying{one.id, now_ms, std::nullopt, m_wet, !m_wet} : *before;
        if (one.across_mm <= kLargeMm) {
            here.large_since_ms.reset();
        } else {
            here.large_since_ms = here.large_since_ms.value_or(now_ms);
            here.told = true;
        }
        here.told = here.told || contacts.size() >= kMany;
        lying.push_back(here);
    }
    m_lying = std::move(lying);
}

bool WetGlass::see(const std::vector<Contact>& contacts, std::int64_t now_ms)
{
    m_seen_ms = now_ms;
    m_wet = m_until_ms && now_ms < *m_until_ms;
    const bool dropped_before = std::ranges::any_of(m_lying, &Lying::dropped);
    m_wet = m_wet || dropped_before;
    renew(contacts, now_ms);
    const auto stays_large = [now_ms](const Lying& one) { return one.large_since_ms && now_ms - *one.large_since_ms >= kLargeForMs; };
    if (contacts.size() >= kMany || std::ranges::any_of(m_lying, stays_large)) {
        m_until_ms = now_ms + kDropsMs;
    }
    const bool water = m_until_ms && now_ms < *m_until_ms;
    for (Lying& one : m_lying) {
        one.dropped = one.dropped || water;
    }
    m_wet = water || std::ranges::any_of(m_lying, &Lying::dropped);
    m_clean.clear();
    for (Lying& one : m_lying) {
        if (!one.told && now_ms - one.since_ms >= kCleanMs) {
            one.told = true;
            m_clean.push_back(one.id);
        }
    }
    return !m_wet && !dropped_before;
}

std::optional<std::int64_t> WetGlass::next() const
{
    std::optional<std::int64_t> soonest;
    const auto offer = [&](std::int64_t at_ms) {
        if (at_ms > m_seen_ms && (!soonest || at_ms < *soonest)) {
            soonest = at_ms;
        }
    };
    if (m_until_ms) {
        offer(*m_until_ms);
    }
    for (const Lying& one : m_lying) {
        if (one.large_since_ms) {
            offer(*one.large_since_ms + kLargeForMs);
        }
        if (!one.told) {
            offer(one.since_ms + kCleanMs);
        }
    }
    return soonest;
}

} // namespace brimful::tablet
