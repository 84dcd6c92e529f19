// Facts of one record as counts; a register collapsed to its worst rows.
#include "core/evidence/folding.h"

#include "core/quantity/recorded.h"

#include <algorithm>
#include <limits>

namespace brimful::evidence {

using canon::Json;
using rules::FactKind;
using rules::Held;
using rules::kNone;
using rules::Lack;

namespace {

std::int64_t optionBit(const rules::Fact& fact, std::string_view option)
{
    const auto found = std::ranges::find(fact.options, option);
    return found == fact.options.end() ? 0 : std::int64_t{1} << (found - fact.options.begin());
}

// The count follows from what was typed; an entry that says otherwise was not made by a person.
bool countFollows(const rules::Fact& fact, const Json& value)
{
    const Json* count = value.find("count");
    if (!value.is(canon::Type::Object) || value.textOf("unit") != fact.unit || count == nullptr || !count->is(canon::Type::Integer)) {
        return false;
    }
    const auto recorded = quantity::record(value.textOf("typed"), fact.dimension);
    return recorded && recorded->count == count->integer && recorded->unit == fact.unit;
}

Held of(std::int64_t count, Lack lack = Lack::None)
{
    Held held;
    held.count = count;
    held.least = count;
    held.lack = lack;
    return held;
}

} // namespace

Held Folding::valueOf(const rules::Fact& fact, const Json* value, const Record& record) const
{
    if (value == nullptr) {
        return of(0, Lack::Missing);
    }
    switch (fact.kind) {
    case FactKind::Choice: {
        const std::int64_t bit = optionBit(fact, value->text);
        return of(bit, bit == 0 ? Lack::Error : Lack::None);
    }
    case FactKind::Quantity:
        return of(value->integerOf("count"), countFollows(fact, *value) ? Lack::None : Lack::Error);
    case FactKind::Count:
        return value->is(canon::Type::Integer) ? of(value->integer) : of(0, Lack::Error);
    case FactKind::Person: {
        const auto person = canon::fromHex<PersonId>(value->text);
        const bool known = person && m_yard.people.contains(*person);
        const bool busy = known && fact.exclusive && m_around.busy.contains(*person);
        return of(1, !known ? Lack::Error : busy ? Lack::WrongPerson : Lack::None);
    }
    case FactKind::Text:
        return of(1, value->is(canon::Type::String) && !value->text.empty() ? Lack::None : Lack::Error);
    case FactKind::Photo:
    case FactKind::Document: {
        const auto file = canon::fromHex<Hash>(value->text);
        const auto& attached = m_history.line(record.entry).entry.attachments;
        const bool there = file && std::ranges::find(attached, *file) != attached.end();
        return of(1, there ? Lack::None : Lack::Attachment);
    }
    case FactKind::Echo:
    case FactKind::Derived:
    case FactKind::Tag:
        break;
    }
    return of(0, Lack::Error);
}

// Typed again must equal what the record says; or one fact must equal another.
Held Folding::echoOf(const rules::Fact& fact, const Record& record, const std::vector<Held>& facts) const
{
    const rules::Fact& target = m_pack.facts[fact.echo_of];
    const Held& said = facts[fact.echo_of];
    const Json* own =
        record.values == nullptr ? nullptr : record.values->find(fact.compares == kNone ? fact.key : m_pack.facts[fact.compares].key);
    if (own == nullptr) {
        return of(0, Lack::Missing);
    }
    if (target.step != fact.step && said.lack != Lack::None) {
        return of(0, said.lack);
    }
    if (fact.compares != kNone) {
        const Held again = valueOf(m_pack.facts[fact.compares], own, record);
        if (again.lack != Lack::None) {
            return of(0, again.lack);
        }
        const rules::Fact& asked = m_pack.facts[fact.compares];
        const bool equal = asked.kind == FactKind::Choice && !target.options.empty() ? optionBit(target, own->text) == said.count
                                                                                     : again.count == said.count;
        return of(equal ? 1 : 2);
    }
    const auto& target_record = m_newest[target.step];
    const Json* values = target.step == fact.step ? record.values : target_record ? target_record->values : nullptr;
    const Json* original = values == nullptr ? nullptr : values->find(target.key);
    if (original == nullptr) {
        return of(0, Lack::Missing);
    }
    std::string_view wanted = original->is(canon::Type::Object) ? original->textOf("typed") : std::string_view(original->text);
    const auto last = static_cast<std::size_t>(fact.echo_last);
    if (last > 0 && wanted.size() > last) {
        wanted.remove_prefix(wanted.size() - last);
    }
    return of(own->text == wanted ? 1 : 2);
}

// What was read at the vessel, against the newest tag that whoever gave the release could know.
Held Folding::tagOf(const Record& record) const
{
    const ledger::Entry& entry = m_history.line(record.entry).entry;
    const Json* tag = entry.payload.find("tag");
    if (tag == nullptr) {
        return of(8); // none
    }
    EntryNumber newest = 0;
    for (EntryNumber n = 1; n <= m_history.size(); ++n) {
        const ledger::Entry& printed = m_history.line(n).entry;
        if (printed.kind == ledger::Kind::TagPrinted && printed.vessel == m_vessel && m_history.knew(record.entry, n)) {
            newest = n;
        }
    }
    const auto head = canon::fromHex<Hash>(tag->textOf("head"));
    const EntryNumber read = head ? m_history.numberOf(*head) : 0;
    const bool of_vessel =
        read != 0 && m_history.line(read).entry.vessel == m_vessel && m_history.line(read).entry.kind == ledger::Kind::TagPrinted;
    return of(!of_vessel ? 4 : read == newest ? 1 : 2);
}

// Names of the rows that must be there; nothing when the register that names them does not count.
std::optional<std::vector<std::string>> Folding::membersOf(const rules::Register& table) const
{
    std::vector<std::string> members = table.members;
    if (table.members_from == kNone) {
        return members;
    }
    const rules::Register& from = m_pack.registers[table.members_from];
    const auto& record = m_newest[from.step];
    if (!record || m_out.evidence.steps[from.step].lack != Lack::None || record->values == nullptr) {
        return std::nullopt;
    }
    const Json* rows = record->values->find(from.key);
    if (rows == nullptr) {
        return std::nullopt;
    }
    for (const Json& row : rows->items) {
        members.emplace_back(row.textOf("name"));
    }
    return members;
}

void Folding::valueRegister(
    const rules::Register& table, const Record& record, Lack lack, std::int64_t lapses, std::vector<Held>& into, bool show)
{
    const Json* rows = record.values == nullptr ? nullptr : record.values->find(table.key);
    std::int64_t oldest = 0;
    std::int64_t newest = std::numeric_limits<std::int64_t>::max();
    std::vector<std::string> present;
    if (rows != nullptr) {
        for (const Json& row : rows->items) {
            present.emplace_back(row.textOf("name"));
            const Json* age = row.find("age");
            const std::int64_t age_ms = age == nullptr ? 0 : age->integerOf("count") * 1000;
            oldest = std::max(oldest, age_ms);
            newest = std::min(newest, age_ms);
        }
    }
    Lack whole = rows == nullptr || rows->items.empty() ? Lack::Missing : Lack::None;
    if (whole == Lack::None && table.within_ms > 0 && oldest - newest > table.within_ms) {
        whole = Lack::Lapsed;
    }
    const auto members = membersOf(table);
    if (!members) {
        whole = Lack::Missing;
    } else if (!table.defines) {
        for (const std::string& member : *members) {
            if (std::ranges::find(present, member) == present.end()) {
                whole = Lack::Missing;
            }
        }
    }
    for (const Index column : table.columns) {
        const rules::Fact& fact = m_pack.facts[column];
        Held held = of(0, lack != Lack::None ? lack : whole);
        held.entry = record.entry;
        held.lapses_ms = lapses;
        bool first = true;
        for (std::size_t i = 0; rows != nullptr && i < rows->items.size(); ++i) {
            const Json& row = rows->items[i];
            FactShown shown{column, std::string(row.textOf("name")), {}, std::nullopt, {}};
            Held one;
            if (fact.kind == FactKind::Derived) {
                one = derive(fact, record, &row, into, &shown.warnings);
            } else {
                const Json* value = row.find(fact.key);
                one = valueOf(fact, value, record);
                if (value == nullptr && fact.optional) {
                    continue;
                }
                shown.value = value == nullptr ? Json() : *value;
            }
            if (one.lack == Lack::None) {
                shown.count = one.count;
            }
            if (show) {
                m_out.shown.push_back(std::move(shown));
            }
            if (one.lack != Lack::None && held.lack == Lack::None) {
                held.lack = one.lack;
            }
            held.lapses_ms = std::min(held.lapses_ms, one.lack == Lack::None ? one.lapses_ms : rules::kNever);
            const bool choice = !fact.options.empty();
            held.count = first ? one.count : choice ? held.count | one.count : std::max(held.count, one.count);
            held.least = first ? one.least : choice ? held.count : std::min(held.least, one.least);
            first = false;
        }
        if (first && held.lack == Lack::None) {
            held.lack = Lack::Missing;
        }
        into[column] = held;
    }
}

void Folding::valueFacts(Index index, const Record& record, Lack lack, std::int64_t lapses, std::vector<Held>& into, bool show)
{
    const rules::Step& step = m_pack.steps[index];
    for (const Index one : step.facts) {
        into[one] = Held{}; // nothing of another record of this step shows through
    }
    for (const Index one : step.facts) {
        const rules::Fact& fact = m_pack.facts[one];
        if (fact.reg != kNone || fact.kind == FactKind::Derived) {
            continue;
        }
        const Json* value = record.values == nullptr ? nullptr : record.values->find(fact.key);
        Held held = fact.kind == FactKind::Tag ? tagOf(record)
            : fact.kind == FactKind::Echo      ? echoOf(fact, record, into)
                                               : valueOf(fact, value, record);
        if (show && value != nullptr) {
            m_out.shown.push_back({one, {}, *value, held.lack == Lack::None ? std::optional<std::int64_t>(held.count) : std::nullopt, {}});
        }
        if (lack != Lack::None) {
            held.lack = lack;
        }
        held.entry = record.entry;
        held.lapses_ms = lapses;
        into[one] = held;
    }
    for (const Index table : step.registers) {
        valueRegister(m_pack.registers[table], record, lack, lapses, into, show);
    }
    for (const Index one : step.facts) {
        const rules::Fact& fact = m_pack.facts[one];
        if (fact.reg != kNone || fact.kind != FactKind::Derived) {
            continue;
        }
        FactShown shown{one, {}, {}, std::nullopt, {}};
        Held held = derive(fact, record, nullptr, into, &shown.warnings);
        if (held.lack == Lack::None) {
            shown.count = held.count;
        }
        if (show) {
            m_out.shown.push_back(std::move(shown));
        }
        if (lack != Lack::None) {
            held.lack = lack;
        }
        held.entry = record.entry;
        held.lapses_ms = std::min(held.lapses_ms, lapses);
        into[one] = held;
    }
}

} // namespace brimful::evidence
