#include "core/evidence/own_answer.h"

#include "core/quantity/recorded.h"

#include <algorithm>
#include <cstdlib>

namespace brimful::evidence {

using canon::Json;
using rules::FactKind;
using rules::Index;
using rules::kNone;

Index stepOf(const rules::Pack& pack, const ledger::Entry& entry)
{
    if (entry.kind == ledger::Kind::Evidence) {
        return pack.step(entry.payload.textOf("step"));
    }
    const Index hold_point = entry.kind == ledger::Kind::Released ? pack.holdPoint(entry.payload.textOf("hold_point")) : kNone;
    return hold_point == kNone ? kNone : pack.hold_points[hold_point].talk;
}

const Json* valuesOf(const ledger::Entry& entry) { return entry.payload.find(entry.kind == ledger::Kind::Released ? "answers" : "facts"); }

std::optional<AskedOfSecond> askedOfSecond(const rules::Pack& pack, const ledger::Entry& first)
{
    const Index step = stepOf(pack, first);
    const Json* values = valuesOf(first);
    if (step == kNone || values == nullptr || first.payload.textOf("outcome") == "cannot") {
        return std::nullopt;
    }
    return askedOfSecond(pack, step, *values);
}

std::optional<AskedOfSecond> askedOfSecond(const rules::Pack& pack, Index step, const Json& values)
{
    if (pack.steps[step].with.empty() && pack.steps[step].talk_of == kNone) {
        return std::nullopt;
    }
    std::optional<AskedOfSecond> number;
    std::optional<AskedOfSecond> choice;
    for (const Index index : pack.steps[step].facts) {
        const rules::Fact& fact = pack.facts[index];
        AskedOfSecond one{index, {}};
        if (fact.reg != kNone) {
            const Json* rows = values.find(pack.registers[fact.reg].key);
            one.row = rows == nullptr || rows->items.empty() ? std::string() : std::string(rows->items.back().textOf("name"));
        }
        if (valueAt(pack, one, values) == nullptr) {
            continue;
        }
        if (fact.kind == FactKind::Quantity || fact.kind == FactKind::Count) {
            number = one;
        } else if (fact.kind == FactKind::Choice && (!choice || fact.options.size() >= pack.facts[choice->fact].options.size())) {
            choice = one;
        }
    }
    return number ? number : choice;
}

const Json* valueAt(const rules::Pack& pack, const AskedOfSecond& asked, const Json& values)
{
    const rules::Fact& fact = pack.facts[asked.fact];
    if (fact.reg == kNone) {
        return values.find(fact.key);
    }
    const Json* rows = values.find(pack.registers[fact.reg].key);
    if (rows == nullptr || asked.row.empty()) {
        return nullptr;
    }
    const auto row =
        std::find_if(rows->items.rbegin(), rows->items.rend(), [&](const Json& each) { return each.textOf("name") == asked.row; });
    return row == rows->items.rend() ? nullptr : row->find(fact.key);
}

bool agree(const Json& one, const Json& other)
{
    if (!one.is(canon::Type::Object) || !other.is(canon::Type::Object)) {
        return one == other;
    }
    const auto recorded = [](const Json& value) {
        return quantity::Recorded{value.integerOf("count"), std::string(value.textOf("unit")), std::string(value.textOf("typed"))};
    };
    const quantity::Recorded a = recorded(one);
    const quantity::Recorded b = recorded(other);
    const auto dimension = quantity::recordedDimension(a.unit);
    const bool of_gas = dimension == quantity::Dimension::LimitShare || dimension == quantity::Dimension::VolumeShare;
    const std::int64_t apart = of_gas ? 0 : std::max(quantity::lastPlace(a), quantity::lastPlace(b));
    return a.unit == b.unit && std::abs(a.count - b.count) <= apart;
}

ledger::OwnAnswer ownAnswer(const rules::Pack& pack, const AskedOfSecond& asked, Json value)
{
    const rules::Fact& fact = pack.facts[asked.fact];
    if (fact.reg == kNone) {
        return {fact.key, {}, {}, std::move(value)};
    }
    return {pack.registers[fact.reg].key, asked.row, fact.key, std::move(value)};
}

std::optional<AskedOfSecond> askedBy(const rules::Pack& pack, Index step, const ledger::OwnAnswer& answer)
{
    if (step == kNone) {
        return std::nullopt;
    }
    for (const Index index : pack.steps[step].facts) {
        const rules::Fact& fact = pack.facts[index];
        const bool of_register = fact.reg != kNone && pack.registers[fact.reg].key == answer.fact && fact.key == answer.column;
        if (answer.column.empty() ? fact.reg == kNone && fact.key == answer.fact : of_register) {
            return AskedOfSecond{index, answer.row};
        }
    }
    return std::nullopt;
}

} // namespace brimful::evidence
