// How fast cards were signed: after what must come before, one after the other, before a release.
#include "core/report/asking.h"

#include <algorithm>

namespace brimful::report {

using rules::kNone;

void Asking::askPace(const Way& way, std::size_t i)
{
    const rules::Step& step = stepOf(i);
    std::optional<std::int64_t> since;
    std::size_t start = 0;
    Question question;
    const auto consider = [&](const std::map<Index, std::size_t>& known, Index which, Index Question::*after) {
        const auto found = known.find(which);
        const auto took = found == known.end() ? std::nullopt : apart(found->second, i);
        if (took && (!since || *took < *since)) {
            since = took;
            start = found->second;
            question.after_event = question.after_step = question.after_release = kNone;
            question.*after = which;
        }
    };
    for (const Index event : step.begun_by) {
        consider(way.events, event, &Question::after_event);
    }
    for (const Index need : step.needs) {
        consider(way.first_card, need, &Question::after_step);
    }
    for (std::size_t h = 0; h < m_pack.hold_points.size(); ++h) {
        const rules::Act act = m_pack.hold_points[h].act;
        if (act >= rules::Act::Open && step.act >= act) {
            consider(way.first_release, static_cast<Index>(h), &Question::after_release);
        }
    }
    if (!since) {
        return;
    }
    question.took_ms = *since;
    question.takes_ms = takesMs(i);
    question.what = Question::What::SoonerThanItTakes;
    const Noted::Told* longest = longestTime(i);
    if (longest != nullptr && *since * kTimesLessThanSaid < longest->count * 1000) {
        question.what = Question::What::SoonerThanItSays;
        question.takes_ms = longest->count * 1000;
        question.fact = longest->fact;
        question.value = longest->typed;
    } else if (*since * kTimesFaster >= question.takes_ms) {
        return;
    }
    question.steps = {m_entries[i].what};
    add(std::move(question), {start, i}, {*m_entries[i].person});
}

const Noted::Told* Asking::longestTime(std::size_t card) const
{
    const Noted::Told* longest = nullptr;
    for (const Noted::Told& told : m_entries[card].told) {
        const bool a_time = m_pack.facts[told.fact].dimension == quantity::Dimension::Duration;
        longest = a_time && (longest == nullptr || told.count > longest->count) ? &told : longest;
    }
    return longest;
}

// For a vessel of this size; 0: not known.
std::int64_t Asking::takesMs(std::size_t card) const
{
    const rules::Step& step = stepOf(card);
    if (!step.takes_for_mL) {
        return step.takes_ms;
    }
    const auto way = m_entries[card].vessel ? m_ways.find(*m_entries[card].vessel) : m_ways.end();
    const double capacity_mL = way == m_ways.end() ? 0.0 : way->second.capacity_m3 * 1e6;
    const double share = std::min(1.0, capacity_mL / static_cast<double>(*step.takes_for_mL));
    return static_cast<std::int64_t>(static_cast<double>(step.takes_ms) * share);
}

// What the cards take together; each of them once a vessel.
std::int64_t Asking::takes(const std::vector<std::size_t>& cards) const
{
    std::set<std::pair<VesselId, Index>> known;
    std::int64_t sum = 0;
    for (const std::size_t card : cards) {
        const bool again = !known.emplace(m_entries[card].vessel.value_or(VesselId{}), m_entries[card].what).second;
        sum += again ? 0 : takesMs(card);
    }
    return sum;
}

void Asking::askBeforeRelease(const Way& way, std::size_t release)
{
    if (way.cards.size() < kCardsTogether || std::ranges::all_of(way.cards, [&](std::size_t card) { return m_together.contains(card); })) {
        return;
    }
    const bool measured = std::ranges::all_of(way.cards, [&](std::size_t card) { return apart(card, release).has_value(); });
    const auto first = std::ranges::min_element(way.cards, {}, [&](std::size_t card) { return m_entries[card].at.boot_ms; });
    std::vector<std::size_t> others;
    std::ranges::copy_if(way.cards, std::back_inserter(others), [&](std::size_t card) { return card != *first; });
    const std::int64_t needed = takes(others); // the first one's work lies before
    if (!measured || *apart(*first, release) * kTimesFaster >= needed) {
        return;
    }
    Question question;
    question.what = Question::What::JustBeforeRelease;
    question.took_ms = *apart(*first, release);
    question.takes_ms = needed;
    question.hold_point = m_entries[release].what;
    question.count = way.cards.size();
    std::vector<std::size_t> all = way.cards;
    all.push_back(release);
    std::vector<PersonId> persons;
    for (const std::size_t card : way.cards) {
        question.steps.push_back(m_entries[card].what);
        persons.push_back(*m_entries[card].person);
    }
    add(std::move(question), all, persons);
}

void Asking::findTogether()
{
    for (auto& [hand, cards] : m_hands) {
        std::ranges::sort(cards, {}, [&](std::size_t card) { return m_entries[card].at.boot_ms; });
        for (std::size_t from = 0; from < cards.size();) {
            std::size_t to = from;
            std::set<std::pair<VesselId, Index>> different; // a card that is put right at once is no other one
            std::vector<std::size_t> run;
            for (; to < cards.size() && m_entries[cards[to]].at.boot_ms - m_entries[cards[from]].at.boot_ms <= kCardsTogetherMs; ++to) {
                if (different.emplace(m_entries[cards[to]].vessel.value_or(VesselId{}), m_entries[cards[to]].what).second) {
                    run.push_back(cards[to]);
                }
            }
            if (run.size() < kCardsTogether) {
                ++from;
                continue;
            }
            m_together.insert(run.begin(), run.end());
            m_batches.push_back(run);
            from = to;
        }
    }
}

void Asking::askTogether()
{
    for (const std::vector<std::size_t>& run : m_batches) {
        Question question;
        question.what = Question::What::SignedTogether;
        question.count = run.size();
        question.took_ms = *apart(run.front(), run.back());
        question.takes_ms = takes(run);
        for (const std::size_t card : run) {
            question.steps.push_back(m_entries[card].what);
        }
        add(std::move(question), run, {*m_entries[run.front()].person});
    }
}

} // namespace brimful::report
