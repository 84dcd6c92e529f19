// The record in its order: what counts of it, and each vessel on its way.
#include "core/report/asking.h"

#include <algorithm>

namespace brimful::report {

using ledger::Kind;
using rules::kNone;

Asking::Asking(const rules::Pack& pack, const ledger::YardState& yard, std::vector<Noted> entries)
    : m_pack(pack)
    , m_yard(yard)
    , m_entries(std::move(entries))
{
}

Asked Asking::run(const std::function<bool(const VesselId&)>& failed)
{
    sort();
    findWhatCounts();
    for (std::size_t i = 0; i < m_entries.size(); ++i) {
        gather(i);
    }
    findTogether();
    for (std::size_t i = 0; i < m_entries.size(); ++i) {
        follow(i);
    }
    askTogether();
    askSameValues();
    askSamePair();
    askNothingFound(failed);
    m_out.vessels = m_ways.size();
    std::ranges::stable_sort(m_out.questions, std::ranges::greater(), &Question::at_ms);
    return std::move(m_out);
}

// An order that the entries alone decide.
void Asking::sort()
{
    std::vector<std::tuple<std::int64_t, DeviceId, std::uint64_t, std::size_t>> order;
    order.reserve(m_entries.size());
    for (std::size_t i = 0; i < m_entries.size(); ++i) {
        order.emplace_back(timeOf(i), m_entries[i].device, m_entries[i].seq, i);
    }
    std::ranges::sort(order);
    std::vector<Noted> sorted;
    sorted.reserve(order.size());
    for (const auto& one : order) {
        sorted.push_back(std::move(m_entries[std::get<3>(one)]));
    }
    m_entries = std::move(sorted);
}

void Asking::findWhatCounts()
{
    for (const Noted& one : m_entries) {
        if (one.kind == Kind::Corrected && one.names) {
            m_withdrawn.insert(*one.names);
        }
    }
    for (std::size_t i = 0; i < m_entries.size(); ++i) {
        const Noted& one = m_entries[i];
        if (one.kind == Kind::Confirmed && one.names && one.person && !m_withdrawn.contains(one.hash)) {
            m_confirmed.emplace(*one.names, i);
        }
    }
}

bool Asking::counts(std::size_t i) const
{
    const Noted& one = m_entries[i];
    if (one.what == kNone || !one.person || one.beside || one.cannot || m_withdrawn.contains(one.hash)) {
        return false;
    }
    const bool two = one.kind == Kind::Released || !stepOf(i).with.empty();
    return !two || m_confirmed.contains(one.hash);
}

void Asking::gather(std::size_t i)
{
    const Noted& one = m_entries[i];
    if (one.kind == Kind::VesselAdmitted && one.vessel) {
        m_ways[*one.vessel].number = one.number;
        m_ways[*one.vessel].capacity_m3 = one.capacity_m3;
    } else if (one.kind == Kind::Evidence && counts(i)) {
        ++m_out.cards;
        m_hands[{one.device, one.at.boot, *one.person}].push_back(i);
        for (const Noted::Told& told : one.told) {
            if (m_pack.facts[told.fact].varies) {
                m_values[{*one.person, told.fact}].push_back({i, told.count, told.typed});
            }
        }
    } else if (one.kind == Kind::Released && counts(i)) {
        ++m_out.releases;
        m_releases.push_back(i);
    }
}

void Asking::follow(std::size_t i)
{
    const Noted& one = m_entries[i];
    if (!one.vessel) {
        return;
    }
    Way& way = m_ways[*one.vessel];
    way.last = i;
    switch (one.kind) {
    case Kind::Event:
        happened(way, i);
        return;
    case Kind::Cleared:
    case Kind::Withdrawn:
        way.found = true;
        return;
    case Kind::Evidence:
        way.found = way.found || one.cannot;
        if (counts(i)) {
            askPace(way, i);
            way.first_card.emplace(one.what, i);
            way.cards.push_back(i);
        }
        return;
    case Kind::Released:
        if (counts(i)) {
            askBeforeRelease(way, i);
            way.first_release.emplace(one.what, m_confirmed.at(one.hash));
            way.releases.push_back(i);
            way.cards.clear();
        }
        return;
    default:
        return;
    }
}

void Asking::happened(Way& way, std::size_t i)
{
    const Index event = m_entries[i].what;
    if (event == kNone) {
        return;
    }
    way.found = way.found || m_pack.events[event].raises != kNone;
    way.events.insert_or_assign(event, i);
    for (std::size_t s = 0; s < m_pack.steps.size(); ++s) {
        if (std::ranges::find(m_pack.steps[s].voided_by, event) != m_pack.steps[s].voided_by.end()) {
            way.first_card.erase(static_cast<Index>(s));
        }
    }
}

// Within one boot of one tablet; nothing else is measured.
std::optional<std::int64_t> Asking::apart(std::size_t from, std::size_t to) const
{
    const Noted& first = m_entries[from];
    const Noted& second = m_entries[to];
    const bool measured = first.device == second.device && first.at.boot == second.at.boot && first.at.boot_ms <= second.at.boot_ms;
    return measured ? std::optional(second.at.boot_ms - first.at.boot_ms) : std::nullopt;
}

// `entries` oldest first.
void Asking::add(Question question, const std::vector<std::size_t>& entries, const std::vector<PersonId>& persons)
{
    for (const std::size_t entry : entries) {
        question.entries.push_back(m_entries[entry].hash);
        const auto way = m_entries[entry].vessel ? m_ways.find(*m_entries[entry].vessel) : m_ways.end();
        if (way != m_ways.end() && std::ranges::find(question.vessels, way->second.number) == question.vessels.end()) {
            question.vessels.push_back(way->second.number);
        }
    }
    for (const PersonId& id : persons) {
        const auto known = m_yard.people.find(id);
        const std::string name = known == m_yard.people.end() ? canon::toHex(id) : known->second.name;
        if (std::ranges::find(question.persons, name) == question.persons.end()) {
            question.persons.push_back(name);
        }
    }
    question.at_ms = timeOf(entries.back());
    m_out.questions.push_back(std::move(question));
}

Asked questions(
    const rules::Pack& pack, const ledger::YardState& yard, std::vector<Noted> entries, const std::function<bool(const VesselId&)>& failed)
{
    return Asking(pack, yard, std::move(entries)).run(failed);
}

} // namespace brimful::report
