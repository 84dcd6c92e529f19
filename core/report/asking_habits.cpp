// What repeats: values, pairs, and nothing ever found.
#include "core/report/asking.h"

#include <algorithm>

namespace brimful::report {

// Waited, ran over ... exactly as long as the card asks.
bool Asking::isAskedFor(Index fact, std::int64_t count) const
{
    const auto first = m_pack.conditions.begin() + m_pack.steps[m_pack.facts[fact].step].accept;
    return std::any_of(first, first + first->size, [&](const rules::Condition& node) {
        const bool low = node.op == rules::Op::AtLeast || node.op == rules::Op::Between;
        const bool high = node.op == rules::Op::AtMost || node.op == rules::Op::Between;
        return node.a == fact && ((low && node.low == count) || (high && node.high == count));
    });
}

void Asking::askSameValues()
{
    for (const auto& [whose, values] : m_values) {
        for (auto from = values.begin(); from != values.end();) {
            const auto to = std::find_if(from, values.end(), [&](const Value& one) { return one.count != from->count; });
            if (from->count != 0 && !isAskedFor(whose.second, from->count)) {
                askSameValue(whose.first, whose.second, {from, to});
            }
            from = to;
        }
    }
}

void Asking::askSameValue(const PersonId& person, Index fact, const std::vector<Value>& run)
{
    std::set<VesselId> vessels;
    std::vector<std::size_t> cards;
    for (const Value& one : run) {
        if (m_entries[one.card].vessel && vessels.insert(*m_entries[one.card].vessel).second) {
            cards.push_back(one.card);
        }
    }
    if (cards.size() < kSameValues) {
        return;
    }
    Question question;
    question.what = Question::What::SameValue;
    question.fact = fact;
    question.value = run.back().typed;
    question.count = cards.size();
    question.steps = {m_pack.facts[fact].step};
    add(std::move(question), cards, {person});
}

std::pair<PersonId, PersonId> Asking::pairOf(std::size_t release) const
{
    const Noted& given = m_entries[release];
    return std::minmax(*given.person, *m_entries[m_confirmed.at(given.hash)].person);
}

void Asking::askSamePair()
{
    if (m_releases.size() < kReleasesByTwo) {
        return;
    }
    const std::vector<std::size_t> last(m_releases.end() - static_cast<std::ptrdiff_t>(kReleasesByTwo), m_releases.end());
    const auto pair = pairOf(last.front());
    const bool same = std::ranges::all_of(last, [&](std::size_t one) { return pairOf(one) == pair; });
    const auto couldHave = [&](const std::pair<const PersonId, ledger::Person>& known) {
        const auto held = [&](Index role) {
            return m_yard.holdsRole(known.first, m_pack.roles[role], timeOf(last.front()))
                && m_yard.holdsRole(known.first, m_pack.roles[role], timeOf(last.back()));
        };
        const bool other = known.first != pair.first && known.first != pair.second && !known.second.retired;
        return other && std::ranges::any_of(last, [&](std::size_t one) {
            const rules::HoldPoint& hold_point = m_pack.hold_points[m_entries[one].what];
            return std::ranges::any_of(hold_point.by, held) || std::ranges::any_of(hold_point.with, held);
        });
    };
    if (!same || std::ranges::none_of(m_yard.people, couldHave)) {
        return;
    }
    Question question;
    question.what = Question::What::SamePair;
    question.count = last.size();
    add(std::move(question), last, {pair.first, pair.second});
}

void Asking::askNothingFound(const std::function<bool(const VesselId&)>& failed)
{
    std::vector<std::pair<const VesselId*, const Way*>> jobs; // newest first
    for (const auto& [id, way] : m_ways) {
        if (way.found || !way.releases.empty()) {
            jobs.emplace_back(&id, &way);
        }
    }
    if (jobs.size() < kVesselsWithoutFinding) {
        return;
    }
    std::ranges::sort(jobs, std::ranges::greater(), [](const auto& job) { return job.second->last; });
    jobs.resize(kVesselsWithoutFinding);
    if (std::ranges::any_of(jobs, [](const auto& job) { return job.second->found; })
        || std::ranges::any_of(jobs, [&](const auto& job) { return failed(*job.first); })) {
        return;
    }
    Question question;
    question.what = Question::What::NothingFound;
    question.count = jobs.size();
    std::vector<std::size_t> releases;
    releases.reserve(jobs.size());
    for (const auto& [id, way] : jobs) {
        releases.push_back(way->releases.back());
    }
    std::ranges::sort(releases);
    add(std::move(question), releases, {});
}

} // namespace brimful::report
