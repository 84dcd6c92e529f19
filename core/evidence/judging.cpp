// Acceptance of records, stops that stand, releases that were validly given.
#include "core/evidence/folding.h"

#include <algorithm>

namespace brimful::evidence {

using rules::kNoEntry;
using rules::kNone;
using rules::Lack;
using rules::Truth;

// Steps are valued in the pack's order; a derived fact sees the steps before it, and its own. INVARIANT: the pack puts a
// step before those that compute with it.
void Folding::judgeSteps()
{
    for (std::size_t s = 0; s < m_pack.steps.size(); ++s) {
        if (m_newest[s]) {
            const rules::StepHeld& held = m_out.evidence.steps[s];
            valueFacts(static_cast<Index>(s), *m_newest[s], held.lack, held.lapses_ms, m_out.evidence.facts, true);
        }
    }
    for (std::size_t s = 0; s < m_pack.steps.size(); ++s) {
        rules::StepHeld& held = m_out.evidence.steps[s];
        if (!m_newest[s] || m_newest[s]->cannot) {
            continue;
        }
        held.passed = accepts(static_cast<Index>(s), m_out.evidence.facts);
        if (held.lack == Lack::None) {
            held.lack = missingFact(static_cast<Index>(s), *m_newest[s]);
        }
        // What a step computed with may lapse before the step itself does; and a value that could not be had holds it.
        if (held.lack == Lack::None) {
            for (const Index fact : m_pack.steps[s].facts) {
                const rules::Held& one = m_out.evidence.facts[fact];
                held.lapses_ms = std::min(held.lapses_ms, one.lack == Lack::None ? one.lapses_ms : rules::kNever);
                // A derived fact that could not be had is why acceptance stayed unknown.
                const bool decides = held.passed == Truth::Unknown && !m_pack.facts[fact].optional && held.lack == Lack::None;
                if (one.lack != Lack::None && decides) {
                    held.lack = one.lack;
                }
            }
        }
    }
}

// What the step asks for and the record does not have, or has in a way that does not count.
Lack Folding::missingFact(Index step, const Record& record) const
{
    for (const Index index : m_pack.steps[step].facts) {
        const rules::Fact& fact = m_pack.facts[index];
        const Lack lack = m_out.evidence.facts[index].lack;
        const bool recorded = fact.kind != rules::FactKind::Derived && fact.kind != rules::FactKind::Tag && fact.compares == kNone;
        if (!recorded || fact.optional || lack == Lack::None) {
            continue;
        }
        if (fact.reg != kNone && m_pack.registers[fact.reg].defines) {
            const canon::Json* rows = record.values == nullptr ? nullptr : record.values->find(m_pack.registers[fact.reg].key);
            if (rows != nullptr && rows->items.empty()) {
                continue; // nothing of the kind was found, and that was recorded
            }
        }
        return lack;
    }
    return Lack::None;
}

Truth Folding::accepts(Index step, const std::vector<rules::Held>& facts)
{
    // Judged as if the step itself counted: acceptance is about its values.
    rules::Evidence view;
    view.now_ms = m_out.evidence.now_ms;
    view.facts = facts;
    view.steps = m_out.evidence.steps;
    view.stops = m_out.evidence.stops;
    view.releases = m_out.evidence.releases;
    view.event_after = m_out.evidence.event_after;
    view.whole = m_out.evidence.whole;
    view.clock_trusted = m_out.evidence.clock_trusted;
    return rules::judge(std::span(m_pack.conditions).subspan(m_pack.steps[step].accept), view, {}).truth;
}

bool Folding::clears(const rules::StopKind& stop, EntryNumber clearing, EntryNumber raising) const
{
    const ledger::Line& line = m_history.line(clearing);
    const ledger::Line& raised = m_history.line(raising);
    const ledger::Entry& entry = line.entry;
    const bool by_name = entry.payload.textOf("raised") == canon::toHex(raised.hash) && entry.payload.textOf("stop") == stop.id;
    const bool told = !entry.payload.textOf("found").empty() && !entry.payload.textOf("done").empty();
    if (!by_name || !told || !entry.signer || !m_history.knew(clearing, raising)) {
        return false;
    }
    if (m_gap != 0 && !m_history.knew(clearing, m_gap)) {
        return false; // after an accepted gap every stop is looked at again
    }
    const auto holds = [&](EntryNumber number, const std::vector<Index>& roles) {
        const Index role = m_pack.role(m_history.line(number).entry.signer->role);
        return std::ranges::find(roles, role) != roles.end() && holdsItsRole(number);
    };
    if (!holds(clearing, stop.cleared_by)) {
        return false;
    }
    if (stop.cleared_with.empty()) {
        // By another than whoever raised it, when that is known.
        return !raised.entry.signer || raised.entry.signer->person != entry.signer->person;
    }
    const auto confirmation = m_confirmations.find(line.hash);
    return confirmation != m_confirmations.end() && holds(confirmation->second, stop.cleared_with);
}

bool Folding::dependsOnOthers(Index step) const
{
    const auto names = [&](const canon::Json& node, const auto& again) -> bool {
        const canon::Json* fact = node.find("fact");
        const canon::Json* rows = node.find("rows");
        if (fact != nullptr && m_pack.facts[m_pack.fact(fact->text)].step != step) {
            return true;
        }
        if (rows != nullptr && m_pack.registers[m_pack.registerOf(rows->text)].step != step) {
            return true;
        }
        return std::ranges::any_of(node.members, [&](const canon::Member& member) { return again(member.value, again); });
    };
    const bool computed = std::ranges::any_of(m_pack.steps[step].facts, [&](Index index) {
        const rules::Fact& fact = m_pack.facts[index];
        const bool echoed = fact.echo_of != kNone && m_pack.facts[fact.echo_of].step != step;
        return echoed || (fact.derived && names(fact.derived->inputs, names));
    });
    const bool by_rows =
        std::ranges::any_of(m_pack.steps[step].registers, [&](Index index) { return m_pack.registers[index].members_from != kNone; });
    const rules::Condition* const accept = &m_pack.conditions[m_pack.steps[step].accept];
    return computed || by_rows
        || std::any_of(accept, accept + accept->size, [](const rules::Condition& node) { return node.op == rules::Op::DifferentPeople; });
}

Truth Folding::passedBy(Index step, const Record& record)
{
    std::vector<rules::Held> facts = m_out.evidence.facts;
    valueFacts(step, record, Lack::None, rules::kNever, facts, false);
    return accepts(step, facts);
}

// The same fold over the record and what it knew, at its own moment: later entries do not make a failing record pass.
Truth Folding::passedThen(Index step, const Record& record)
{
    const ledger::Line& line = m_history.line(record.entry);
    const std::string key = m_basis + canon::toHex(line.hash);
    auto& known = m_memo.state().passed;
    if (const auto found = known.find(key); found != known.end()) {
        return found->second;
    }
    const std::vector<ledger::Line> then = m_history.ancestorsAndSelf(record.entry);
    const Surroundings around;
    const ledger::Moment at = line.entry.at;
    Folding folding(then, m_vessel, m_yard, m_pack, m_reference, at, around, m_memo);
    folding.m_basis = m_basis;
    folding.gather();
    folding.chooseRecords();
    folding.judgeSteps();
    Truth truth = Truth::Unknown;
    for (const Record& own : folding.m_records[step]) {
        if (own.entry == folding.m_history.size()) {
            rules::StepHeld& held = folding.m_out.evidence.steps[step];
            held = rules::StepHeld{};
            (void)folding.signersLack(step, own);
            held.lack = Lack::None;
            truth = folding.passedBy(step, own);
        }
    }
    known.emplace(key, truth);
    return truth;
}

Truth Folding::verdictOn(Index step, const Record& record, bool depends)
{
    const bool newest = m_newest[step] && m_newest[step]->entry == record.entry;
    const Truth then = depends ? passedThen(step, record) : Truth::Unknown;
    return then == Truth::Unknown || (newest && then == Truth::True) ? passedBy(step, record) : then;
}

// Rule 2: a failing record raises its step's stop, confirmed or not, corrected or not; so do the events that raise one.
void Folding::findStops()
{
    std::vector<std::vector<EntryNumber>> raised(m_pack.stops.size());
    for (std::size_t s = 0; s < m_pack.steps.size(); ++s) {
        const Index stop = m_pack.steps[s].on_fail;
        if (stop == kNone || m_records[s].empty()) {
            continue;
        }
        const bool depends = dependsOnOthers(static_cast<Index>(s));
        for (const Record& record : m_records[s]) {
            if (!record.cannot && verdictOn(static_cast<Index>(s), record, depends) == Truth::False) {
                raised[stop].push_back(record.entry);
            }
        }
    }
    for (std::size_t e = 0; e < m_pack.events.size(); ++e) {
        if (m_pack.events[e].raises != kNone) {
            auto& list = raised[m_pack.events[e].raises];
            list.insert(list.end(), m_events[e].begin(), m_events[e].end());
        }
    }
    for (std::size_t s = 0; s < raised.size(); ++s) {
        std::ranges::sort(raised[s]);
        rules::StopHeld& held = m_out.evidence.stops[s];
        for (const EntryNumber raising : raised[s]) {
            const bool cleared =
                std::ranges::any_of(m_clearings, [&](EntryNumber clearing) { return clears(m_pack.stops[s], clearing, raising); });
            if (!cleared) {
                held.raised = held.raised == kNoEntry ? raising : held.raised;
                ++held.count;
            }
        }
    }
}

void Folding::findEvents()
{
    for (std::size_t e = 0; e < m_events.size(); ++e) {
        for (std::size_t s = 0; s < m_newest.size(); ++s) {
            const bool after = m_newest[s]
                && std::ranges::any_of(m_events[e], [&](EntryNumber happened) { return !m_history.knew(m_newest[s]->entry, happened); });
            if (after) {
                m_out.evidence.event_after[e] |= std::uint64_t{1} << s;
            }
        }
    }
}

// What was true when it was given: the same fold, over the confirming entry and what it knew, at its own moment.
Truth Folding::atGiving(Index hold_point, EntryNumber confirmed)
{
    const ledger::Line& line = m_history.line(confirmed);
    const std::string key = m_basis + canon::toHex(line.hash);
    const bool lasting = m_around.missing_attachments.empty(); // a missing file may turn up again
    auto& known = m_memo.state().given;
    if (const auto found = known.find(key); lasting && found != known.end()) {
        return found->second;
    }
    const std::vector<ledger::Line> then = m_history.ancestorsAndSelf(confirmed);
    const ledger::Moment at = line.entry.at;
    Surroundings around;
    around.missing_attachments = m_around.missing_attachments;
    Folding folding(then, m_vessel, m_yard, m_pack, m_reference, at, around, m_memo);
    folding.m_judging = line.hash;
    folding.m_basis = m_basis;
    const Folded folded = folding.run();
    const rules::ReleaseHeld& release = folded.evidence.releases[hold_point];
    rules::Actors actors;
    actors.by = rules::ActorHeld{release.by, release.by_role < 63 ? std::uint64_t{1} << release.by_role : 0};
    actors.with = rules::ActorHeld{release.with, release.with_role < 63 ? std::uint64_t{1} << release.with_role : 0};
    const bool signers = folded.evidence.steps[m_pack.hold_points[hold_point].talk].lack != Lack::WrongPerson && release.by != release.with;
    const Truth truth = signers ? rules::mayBeGiven(m_pack, folded.evidence, hold_point, actors) : Truth::False;
    if (lasting) {
        known.emplace(key, truth);
    }
    return truth;
}

void Folding::findReleases()
{
    for (std::size_t h = 0; h < m_releases.size(); ++h) {
        if (m_releases[h].empty()) {
            continue;
        }
        const rules::HoldPoint& hold_point = m_pack.hold_points[h];
        rules::ReleaseHeld& held = m_out.evidence.releases[h];
        held.offered = m_releases[h].back();
        EntryNumber given = 0;
        for (const EntryNumber one : m_releases[h]) {
            const auto confirmation = m_confirmations.find(m_history.line(one).hash);
            if (confirmation != m_confirmations.end()) {
                given = one;
                held.confirmed = confirmation->second;
            }
        }
        if (given == 0) {
            continue;
        }
        const ledger::Entry& first = m_history.line(given).entry;
        const ledger::Entry& second = m_history.line(held.confirmed).entry;
        held.by = personNumber(first.signer->person);
        held.with = personNumber(second.signer->person);
        held.by_role = m_pack.role(first.signer->role);
        held.with_role = m_pack.role(second.signer->role);
        // When it cannot be told how long ago that was, it is over.
        held.given_ms = timeOf(second.at).value_or(m_out.evidence.now_ms - hold_point.lasts_ms);
        const auto endedBy = [&held](EntryNumber entry) { // the first of them
            held.ended_by = held.ended_by == kNoEntry ? entry : std::min(held.ended_by, entry);
        };
        for (const Index event : hold_point.ended_by) {
            for (const EntryNumber happened : m_events[event]) {
                if (!m_history.knew(held.confirmed, happened)) {
                    endedBy(happened);
                }
            }
        }
        for (const EntryNumber taken : m_withdrawals[h]) {
            if (!m_history.knew(held.confirmed, taken)) {
                held.withdrawn = true;
                endedBy(taken);
            }
        }
        if (m_gap != 0 && !m_history.knew(held.confirmed, m_gap)) {
            held.withdrawn = true;
            held.ended_by = m_gap;
        }
        const bool being_judged = m_judging && *m_judging == m_history.line(held.confirmed).hash;
        held.at_giving = being_judged ? Truth::Unknown : atGiving(static_cast<Index>(h), held.confirmed);
    }
}

} // namespace brimful::evidence
