#include "core/report/audit.h"

#include "core/quantity/format.h"
#include "core/quantity/recorded.h"

#include <algorithm>
#include <set>

namespace brimful::report {

using rules::Condition;
using rules::Index;
using rules::kNone;
using rules::Lack;
using rules::Op;

std::string_view lackWord(Lack lack)
{
    switch (lack) {
    case Lack::None:
        return "none";
    case Lack::Missing:
        return "missing";
    case Lack::Lapsed:
        return "lapsed";
    case Lack::Voided:
        return "voided";
    case Lack::Conflict:
        return "conflict";
    case Lack::WrongValue:
        return "wrong-value";
    case Lack::WrongPerson:
        return "wrong-person";
    case Lack::WrongOrder:
        return "wrong-order";
    case Lack::UntrustedClock:
        return "untrusted-clock";
    case Lack::HistoryGap:
        return "history-gap";
    case Lack::Instrument:
        return "instrument";
    case Lack::Attachment:
        return "attachment";
    case Lack::Error:
        return "error";
    }
    return "error";
}

std::string_view stateWord(rules::State state)
{
    switch (state) {
    case rules::State::Refused:
        return "refused";
    case rules::State::Held:
        return "held";
    case rules::State::Ready:
        return "ready";
    case rules::State::Released:
        return "released";
    case rules::State::Closed:
        return "closed";
    }
    return "held";
}

std::string_view listWord(rules::List list)
{
    switch (list) {
    case rules::List::AtGiving:
        return "at_giving";
    case rules::List::Require:
        return "require";
    case rules::List::Stop:
        return "stop";
    case rules::List::Lasts:
        return "lasts";
    case rules::List::Ended:
        return "ended_by";
    case rules::List::History:
        return "history";
    case rules::List::Clock:
        return "clock";
    }
    return "require";
}

namespace {

std::string signatureWord(const rules::Pack& pack, rules::SignatureRef signature)
{
    return pack.steps[signature / 2].id + (signature % 2 == 1 ? ":second" : "");
}

} // namespace

std::string leafWord(const rules::Pack& pack, const Condition& leaf)
{
    switch (leaf.op) {
    case Op::All:
        return "all";
    case Op::Any:
        return "any";
    case Op::Not:
        return "not";
    case Op::KOf:
        return "k_of";
    case Op::Passed:
        return "passed " + pack.steps[leaf.a].id;
    case Op::Failed:
        return "failed " + pack.steps[leaf.a].id;
    case Op::Is:
        return "is " + pack.facts[leaf.a].id;
    case Op::AtMost:
        return "at_most " + pack.facts[leaf.a].id;
    case Op::AtLeast:
        return "at_least " + pack.facts[leaf.a].id;
    case Op::Between:
        return "between " + pack.facts[leaf.a].id;
    case Op::DifferentPeople:
        return "different_people " + signatureWord(pack, leaf.a) + " " + signatureWord(pack, leaf.b);
    case Op::NotBy:
        return "not_by " + signatureWord(pack, leaf.a);
    case Op::HasRole:
        return leaf.b == 1 ? "role actor" : "role " + signatureWord(pack, leaf.a);
    case Op::After:
        return "after " + pack.steps[leaf.a].id + " " + pack.steps[leaf.b].id;
    case Op::NotSince:
        return "not_since " + pack.steps[leaf.a].id + " " + pack.events[leaf.b].id;
    case Op::Clear:
        return "clear " + pack.stops[leaf.a].id;
    case Op::Given:
        return "given " + pack.hold_points[leaf.a].id;
    }
    return {};
}

BlockerShown shown(const rules::Pack& pack, const evidence::Folded& folded, const rules::Blocker& blocker)
{
    BlockerShown out;
    const rules::HoldPoint& hold_point = pack.hold_points[blocker.hold_point];
    const std::vector<rules::Rule>* rules = nullptr;
    switch (blocker.list) {
    case rules::List::AtGiving:
        rules = &hold_point.at_giving;
        break;
    case rules::List::Require:
        rules = &hold_point.require;
        break;
    case rules::List::Stop:
        rules = &hold_point.stop;
        break;
    case rules::List::Lasts:
    case rules::List::Ended:
    case rules::List::History:
    case rules::List::Clock:
        break;
    }
    out.rule = rules != nullptr && blocker.rule < rules->size() ? (*rules)[blocker.rule].id : std::string(listWord(blocker.list));
    if (blocker.leaf != kNone) {
        out.leaf = leafWord(pack, pack.conditions[blocker.leaf]);
    }
    out.status = lackWord(blocker.status);
    if (blocker.lifted_by != kNone) {
        out.needed = pack.steps[blocker.lifted_by].id;
    } else if (blocker.stop != kNone) {
        out.needed = pack.stops[blocker.stop].id;
    }
    out.barrier = blocker.barrier < pack.barriers.size() ? pack.barriers[blocker.barrier] : std::string();
    if (blocker.entry != rules::kNoEntry && blocker.entry <= folded.lines.size()) {
        out.entry = folded.lines[blocker.entry - 1].hash;
    }
    return out;
}

namespace {

std::string nameOf(const evidence::Folded& folded, const ledger::YardState& yard, std::uint16_t person)
{
    if (person == rules::kNobody || person >= folded.people.size()) {
        return {};
    }
    const auto found = yard.people.find(folded.people[person]);
    return found == yard.people.end() ? std::string("?") : found->second.name;
}

std::string roleOf(const rules::Pack& pack, std::uint16_t role) { return role < pack.roles.size() ? pack.roles[role] : std::string(); }

// "0 %LEL" or "propane" as it was typed; a derived fact as its count and unit.
std::string valueOf(const rules::Pack& pack, const evidence::FactShown& one, const ledger::YardState& yard)
{
    const rules::Fact& fact = pack.facts[one.fact];
    if (one.value.is(canon::Type::Object)) {
        return std::string(one.value.textOf("typed"));
    }
    if (fact.kind == rules::FactKind::Person) {
        const auto id = canon::fromHex<PersonId>(one.value.text);
        const auto found = id ? yard.people.find(*id) : yard.people.end();
        return found == yard.people.end() ? std::string() : found->second.name;
    }
    if (one.value.is(canon::Type::String)) {
        return one.value.text;
    }
    if (fact.kind == rules::FactKind::Derived && one.count && !fact.options.empty() && *one.count > 0) {
        std::size_t bit = 0;
        while (bit + 1 < fact.options.size() && ((*one.count >> bit) & 1) == 0) {
            ++bit;
        }
        return fact.options[bit];
    }
    if (!one.count) {
        return {};
    }
    return fact.unit.empty() || fact.unit == "1"
        ? std::to_string(*one.count)
        : quantity::format(quantity::siOf(*one.count, fact.unit), fact.dimension, quantity::UnitSystem::Si);
}

std::optional<ledger::PhotoNote> noteOf(const ledger::Entry& entry, const std::string& file)
{
    const auto notes = ledger::photosOf(entry.payload, entry.attachments).value_or(ledger::PhotoNotes{});
    const auto note = notes.find(canon::fromHex<Hash>(file).value_or(Hash{}));
    return note == notes.end() ? std::nullopt : std::optional(note->second);
}

EvidenceShown recordOf(const rules::Pack& pack, const evidence::Folded& folded, const ledger::YardState& yard, Index step)
{
    const rules::StepHeld& held = folded.evidence.steps[step];
    EvidenceShown out;
    out.step = pack.steps[step].id;
    out.of_vessel = !pack.steps[step].of_yard;
    out.lack = held.lack;
    out.lapses_ms = held.lapses_ms;
    if (held.entry == rules::kNoEntry) {
        return out;
    }
    const ledger::Line& line = folded.lines[held.entry - 1];
    out.entry = line.hash;
    out.instrument = line.entry.payload.textOf("instrument");
    out.person = nameOf(folded, yard, held.person);
    out.second = nameOf(folded, yard, held.second);
    out.role = roleOf(pack, held.role);
    out.second_role = roleOf(pack, held.second_role);
    out.at_ms = yard.trueTime(line.entry.at).value_or(line.entry.at.wall_ms);
    out.age_ms = folded.evidence.now_ms - out.at_ms;
    return out;
}

void addStep(
    std::vector<EvidenceShown>& out, const rules::Pack& pack, const evidence::Folded& folded, const ledger::YardState& yard, Index step)
{
    const EvidenceShown record = recordOf(pack, folded, yard, step);
    const rules::StepHeld& held = folded.evidence.steps[step];
    out.push_back(record);
    for (const evidence::FactShown& one : folded.shown) {
        const rules::Fact& fact = pack.facts[one.fact];
        if (fact.step != step) {
            continue;
        }
        EvidenceShown shown = record;
        shown.fact = one.member.empty() ? fact.key : one.member + "." + fact.key;
        shown.value = valueOf(pack, one, yard);
        if (fact.kind == rules::FactKind::Photo && held.entry != rules::kNoEntry) {
            shown.photo = noteOf(folded.lines[held.entry - 1].entry, one.value.text);
        }
        out.push_back(std::move(shown));
    }
}

} // namespace

std::vector<EvidenceShown> evidenceOf(
    const rules::Pack& pack, const evidence::Folded& folded, const ledger::YardState& yard, const rules::Rule& rule)
{
    std::vector<EvidenceShown> out;
    std::set<Index> done;
    const auto size = pack.conditions[rule.condition].size;
    for (Index i = rule.condition; i < rule.condition + size; ++i) {
        const Condition& leaf = pack.conditions[i];
        Index step = kNone;
        switch (leaf.op) {
        case Op::Passed:
        case Op::Failed:
        case Op::After:
        case Op::NotSince:
            step = leaf.a;
            break;
        case Op::Is:
        case Op::AtMost:
        case Op::AtLeast:
        case Op::Between:
            step = pack.facts[leaf.a].step;
            break;
        case Op::DifferentPeople:
        case Op::NotBy:
            step = static_cast<Index>(leaf.a / 2);
            break;
        case Op::All:
        case Op::Any:
        case Op::Not:
        case Op::KOf:
        case Op::HasRole:
        case Op::Clear:
        case Op::Given:
            break;
        }
        if (step != kNone && done.insert(step).second) {
            addStep(out, pack, folded, yard, step);
        }
    }
    return out;
}

namespace {

// What was adopted, from what ruled when the vessel came to the moment asked for.
std::vector<PacksRuled> ruled(const evidence::Folded& folded, const VesselId& vessel, const ledger::YardState& yard)
{
    const auto timeOf = [&](const ledger::Moment& at) { return yard.trueTime(at).value_or(at.wall_ms); };
    std::int64_t came_ms = 0;
    for (const ledger::Line& line : folded.lines) {
        if (std::equal(vessel.value.begin(), vessel.value.end(), line.hash.value.begin())) {
            came_ms = timeOf(line.entry.at);
        }
    }
    std::vector<PacksRuled> out;
    for (const ledger::AdoptedPack& adopted : yard.adoptions) {
        const std::int64_t from_ms = timeOf(adopted.from);
        if (!out.empty() && from_ms > folded.evidence.now_ms) {
            break;
        }
        if (from_ms <= came_ms) {
            out.clear();
        }
        PacksRuled one{from_ms, adopted.law, {{adopted.id, adopted.version, adopted.hash}}};
        for (const ledger::AdoptedPart& overlay : adopted.overlays) {
            one.parts.push_back({overlay.id, overlay.version, overlay.hash});
        }
        out.push_back(std::move(one));
    }
    return out;
}

} // namespace

Audit audit(const rules::Pack& pack, const evidence::Folded& folded, const VesselId& vessel, const ledger::YardState& yard,
    const ledger::Moment& now, const evidence::Surroundings& around, Index index)
{
    Audit out;
    out.view = view(pack, folded, vessel, yard, now, around);
    const rules::HoldPoint& hold_point = pack.hold_points[index];
    const rules::ReleaseHeld& release = folded.evidence.releases[index];
    const rules::HoldPointJudged judged = rules::judgeHoldPoint(pack, folded.evidence, index, {}, false);
    out.hold_point = hold_point.id;
    out.state = judged.state;
    out.released = judged.state == rules::State::Released;
    out.until_ms = judged.until_ms;
    if (release.confirmed != rules::kNoEntry) {
        out.given_by = nameOf(folded, yard, release.by);
        out.given_with = nameOf(folded, yard, release.with);
        out.release_entry = folded.lines[release.confirmed - 1].hash;
        out.given_ms = release.given_ms;
    }
    for (const rules::RuleJudged& one : judged.rules) {
        const std::vector<rules::Rule>& rules = one.list == rules::List::AtGiving ? hold_point.at_giving
            : one.list == rules::List::Require                                    ? hold_point.require
                                                                                  : hold_point.stop;
        if (one.rule >= rules.size()) {
            continue;
        }
        const rules::Rule& rule = rules[one.rule];
        out.requirements.push_back(
            {one.list, rule.id, pack.barriers[rule.barrier], one.judged.truth, evidenceOf(pack, folded, yard, rule), rule.sources});
    }
    for (const rules::Blocker& blocker : judged.blockers) {
        out.blockers.push_back(shown(pack, folded, blocker));
    }
    out.packs = pack.together();
    out.parts.push_back({pack.id, pack.version, pack.hash});
    out.parts.insert(out.parts.end(), pack.overlays.begin(), pack.overlays.end());
    out.ruled = ruled(folded, vessel, yard);
    out.law = out.ruled.empty() ? std::string() : out.ruled.back().law;
    out.recovery_used = yard.recovery_used;
    out.clock = folded.evidence.clock_trusted ? "confirmed" : "unconfirmed";
    out.yard = yard.name;
    out.owner = yard.owner;
    out.asked_ms = folded.evidence.now_ms;
    out.trail = trail(pack, folded, vessel, yard);
    return out;
}

} // namespace brimful::report
