// The newest record of each step, and the first reason why it would not count.
#include "core/evidence/folding.h"

#include "core/quantity/recorded.h"

#include <algorithm>

namespace brimful::evidence {

using rules::Lack;

namespace {

} // namespace

std::uint16_t Folding::personNumber(const PersonId& person)
{
    const auto found = std::ranges::find(m_out.people, person);
    if (found != m_out.people.end()) {
        return static_cast<std::uint16_t>(found - m_out.people.begin());
    }
    m_out.people.push_back(person);
    return static_cast<std::uint16_t>(m_out.people.size() - 1);
}

bool Folding::isWithdrawn(const Record& record) const { return m_out.withdrawn.contains(m_history.line(record.entry).hash); }

// Rule 1: the causally newest record that counts as one; two that do not know each other are a conflict.
// Rule 3: one that was withdrawn keeps its place, so that the one before it does not come back.
void Folding::chooseRecords()
{
    for (std::size_t s = 0; s < m_records.size(); ++s) {
        std::vector<const Record*> counting;
        for (const Record& record : m_records[s]) {
            if (record.confirmed != 0) {
                counting.push_back(&record);
            }
        }
        std::vector<const Record*> newest;
        for (const Record* one : counting) {
            const bool known = std::ranges::any_of(counting, [&](const Record* other) { return m_history.knew(other->entry, one->entry); });
            if (!known) {
                newest.push_back(one);
            }
        }
        if (newest.size() == 1 && isWithdrawn(*newest.front())) {
            continue;
        }
        if (!newest.empty()) {
            m_newest[s] = *newest.back();
            m_conflict[s] = newest.size() > 1;
        }
    }
    for (std::size_t s = 0; s < m_records.size(); ++s) {
        if (!m_newest[s]) {
            continue;
        }
        rules::StepHeld& held = m_out.evidence.steps[s];
        held.entry = m_newest[s]->entry;
        held.confirmed = m_newest[s]->confirmed;
        for (std::size_t other = 0; other < m_records.size(); ++other) {
            if (m_newest[other] && m_history.knew(held.entry, m_newest[other]->confirmed)) {
                held.knows |= std::uint64_t{1} << other;
            }
        }
    }
    for (std::size_t s = 0; s < m_records.size(); ++s) {
        if (!m_newest[s]) {
            continue;
        }
        rules::StepHeld& held = m_out.evidence.steps[s];
        held.lack = lackOf(static_cast<Index>(s), *m_newest[s]);
    }
}

std::optional<std::int64_t> Folding::timeOf(const ledger::Moment& then) const
{
    if (const auto age = ledger::ageMs(m_yard, then, m_now)) {
        return m_out.evidence.now_ms - *age;
    }
    return std::nullopt;
}

std::int64_t Folding::oldestAge(Index step, const Record& record) const
{
    std::int64_t oldest = 0;
    for (const Index table : m_pack.steps[step].registers) {
        const canon::Json* rows = record.values == nullptr ? nullptr : record.values->find(m_pack.registers[table].key);
        if (rows == nullptr) {
            continue;
        }
        for (const canon::Json& row : rows->items) {
            if (const canon::Json* age = row.find("age")) {
                oldest = std::max(oldest, age->integerOf("count") * 1000);
            }
        }
    }
    return oldest;
}

// Signed by a key that somebody suspected, without having been known before that (or since when it was suspected).
bool Folding::keySuspected(EntryNumber number) const
{
    const ledger::Line& line = m_history.line(number);
    const ledger::Entry& entry = line.entry;
    const auto known = entry.signer ? m_yard.people.find(entry.signer->person) : m_yard.people.end();
    if (known == m_yard.people.end()) {
        return true;
    }
    const auto keys = line.beside ? known->second.keys : m_yard.keysAt(entry.signer->person, entry.device, entry.seq);
    return std::ranges::any_of(keys, [&](const ledger::PersonKey& key) {
        return key.device == entry.device && key.suspected_by
            && (!m_history.knew(m_history.numberOf(*key.suspected_by), number) || entry.seq >= key.suspected_since.value_or(UINT64_MAX));
    });
}

bool Folding::holdsItsRole(EntryNumber number) const
{
    const ledger::Entry& entry = m_history.line(number).entry;
    const std::int64_t at = m_yard.trueTime(entry.at).value_or(entry.at.wall_ms);
    return entry.signer && !keySuspected(number) && m_yard.holdsRole(entry.signer->person, entry.signer->role, at);
}

Lack Folding::signersLack(Index index, const Record& record)
{
    const rules::Step& step = m_pack.steps[index];
    rules::StepHeld& held = m_out.evidence.steps[index];
    const auto check = [&](EntryNumber number, const std::vector<Index>& roles, std::uint16_t& person, std::uint16_t& role) {
        const ledger::Line& line = m_history.line(number);
        if (!line.entry.signer) {
            return Lack::WrongPerson;
        }
        person = personNumber(line.entry.signer->person);
        const Index claimed = m_pack.role(line.entry.signer->role);
        role = claimed;
        return std::ranges::find(roles, claimed) != roles.end() && holdsItsRole(number) ? Lack::None : Lack::WrongPerson;
    };
    const Lack first = check(record.entry, step.by, held.person, held.role);
    if (first != Lack::None || record.confirmed == record.entry || record.confirmed == 0) {
        return first;
    }
    const Lack second = check(record.confirmed, step.with, held.second, held.second_role);
    return second != Lack::None ? second : held.person == held.second ? Lack::WrongPerson : Lack::None;
}

// In calibration, and passed its newest check at most a day before (or the pack's bump-life); no failed check since.
Lack Folding::instrumentLack(Index index, const Record& record) const
{
    const rules::Step& step = m_pack.steps[index];
    if (step.instrument.empty()) {
        return Lack::None;
    }
    const auto found = m_yard.instruments.find(record.instrument);
    if (found == m_yard.instruments.end() || found->second.type != step.instrument || found->second.withdrawn) {
        return Lack::Instrument;
    }
    const ledger::Moment& at = m_history.line(record.entry).entry.at;
    const std::int64_t wall = m_yard.trueTime(at).value_or(at.wall_ms);
    if (wall >= found->second.calibrated_until_ms) {
        return Lack::Instrument;
    }
    const std::int64_t life_ms = bumpLifeMs(m_pack);
    bool good = false;
    for (const ledger::InstrumentCheck& check : found->second.bumps) {
        const EntryNumber number = m_history.numberOf(check.entry);
        if (number == 0) {
            continue;
        }
        const bool before = m_history.knew(record.entry, number);
        if (!check.passed) {
            good = false; // what was read since the last good check is suspect
            if (!before) {
                return Lack::Instrument;
            }
        } else if (before) {
            const auto age = ledger::ageMs(m_yard, check.at, at);
            good = age && *age <= life_ms;
        }
    }
    return good ? Lack::None : Lack::Instrument;
}

bool Folding::voided(Index index, const Record& record) const
{
    const rules::Step& step = m_pack.steps[index];
    for (const Index event : step.voided_by) {
        for (const EntryNumber happened : m_events[event]) {
            if (!m_history.knew(record.entry, happened)) {
                return true;
            }
        }
    }
    // After an accepted gap only papers still count.
    return m_gap != 0 && step.act != rules::Act::Paper && !m_history.knew(record.entry, m_gap);
}

Lack Folding::lackOf(Index index, const Record& record)
{
    const rules::Step& step = m_pack.steps[index];
    rules::StepHeld& held = m_out.evidence.steps[index];
    const Lack signers = signersLack(index, record);
    if (record.cannot) {
        return Lack::Missing;
    }
    if (m_conflict[index]) {
        return Lack::Conflict;
    }
    for (const Hash& file : m_history.line(record.entry).entry.attachments) {
        if (m_around.missing_attachments.contains(file)) {
            return Lack::Attachment;
        }
        if (const auto used = m_photos.find(file); used != m_photos.end() && used->second.size() > 1) {
            return Lack::Conflict;
        }
        // A paper may speak of several vessels; a picture shows one.
        const bool picture = std::ranges::any_of(step.facts, [&](Index fact) {
            return m_pack.facts[fact].kind == rules::FactKind::Photo && record.values != nullptr
                && record.values->textOf(m_pack.facts[fact].key) == canon::toHex(file);
        });
        if (picture && m_around.carried_elsewhere.contains(file)) {
            return Lack::Conflict;
        }
    }
    if (signers != Lack::None) {
        return signers;
    }
    if (voided(index, record)) {
        return Lack::Voided;
    }
    for (const Index need : step.needs) {
        const bool asked = m_newest[need].has_value();
        if (!asked || ((held.knows >> need) & 1U) == 0) {
            return Lack::WrongOrder;
        }
    }
    if (const Lack instrument = instrumentLack(index, record); instrument != Lack::None) {
        return instrument;
    }
    if (step.life_ms > 0) {
        const auto at = timeOf(m_history.line(record.entry).entry.at);
        if (!at) {
            return Lack::UntrustedClock;
        }
        held.lapses_ms = *at - oldestAge(index, record) + step.life_ms;
        if (held.lapses_ms <= m_out.evidence.now_ms) {
            return Lack::Lapsed;
        }
    }
    return Lack::None;
}

std::int64_t bumpLifeMs(const rules::Pack& pack)
{
    constexpr std::int64_t kDayMs = 24LL * 60 * 60 * 1000;
    const rules::Parameter* life = pack.parameter("bump-life");
    return life == nullptr ? kDayMs : life->count * 1000;
}

} // namespace brimful::evidence
