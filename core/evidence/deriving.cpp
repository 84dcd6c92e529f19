// Facts that a figure makes from other facts. Usable only while all its inputs are; rounded toward refusal.
#include "core/evidence/folding.h"

#include "core/quantity/recorded.h"

#include <algorithm>
#include <array>
#include <bit>
#include <charconv>

namespace brimful::evidence {

using canon::Json;
using rules::FactKind;
using rules::Held;
using rules::kNone;
using rules::Lack;

namespace {

std::string_view siUnit(quantity::Dimension dimension)
{
    using quantity::Dimension;
    switch (dimension) {
    case Dimension::Number:
        return "";
    case Dimension::Length:
        return "m";
    case Dimension::Area:
        return "m2";
    case Dimension::Volume:
        return "m3";
    case Dimension::Mass:
        return "kg";
    case Dimension::Force:
        return "N";
    case Dimension::Pressure:
        return "Pa";
    case Dimension::Temperature:
        return "K";
    case Dimension::Duration:
        return "s";
    case Dimension::VolumeFlow:
        return "m3/s";
    case Dimension::Speed:
        return "m/s";
    case Dimension::VolumeShare:
        return "%";
    case Dimension::LimitShare:
        return "%LEL";
    case Dimension::Angle:
        return "deg";
    case Dimension::Power:
        return "W";
    case Dimension::Energy:
        return "J";
    case Dimension::HeatTransfer:
        return "W/m2K";
    case Dimension::Density:
        return "kg/m3";
    }
    return "";
}

constexpr double kDegree = 3.14159265358979323846 / 180.0;

// A count as text that the figure's own parser reads back.
std::string countText(std::int64_t count, const std::string& unit)
{
    const auto dimension = quantity::recordedDimension(unit).value_or(quantity::Dimension::Number);
    double value = quantity::siOf(count, unit);
    if (dimension == quantity::Dimension::VolumeShare || dimension == quantity::Dimension::LimitShare) {
        value *= 100.0;
    } else if (dimension == quantity::Dimension::Angle) {
        value /= kDegree;
    }
    std::array<char, 64> buffer{};
    const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value, std::chars_format::fixed);
    return std::string(buffer.data(), end.ptr) + " " + std::string(siUnit(dimension));
}

Held lacking(Lack lack)
{
    Held held;
    held.lack = lack;
    return held;
}

Json attributeValue(const std::string& text)
{
    double number = 0.0;
    const auto end = std::from_chars(text.data(), text.data() + text.size(), number);
    return end.ec == std::errc() && end.ptr == text.data() + text.size() ? Json::real(number) : Json(text);
}

} // namespace

// Fills an input template; the first thing that does not count decides.
struct Folding::Inputs {
    const Folding& folding;
    const rules::Fact& fact;
    const Record& record;
    const Json* row;
    const std::vector<Held>& facts;
    Lack lack{Lack::None};
    std::int64_t lapses{rules::kNever};

    std::optional<Json> fill(const Json& node)
    {
        if (const Json* value = node.find("value")) {
            return *value;
        }
        if (const Json* parameter = node.find("parameter")) {
            const rules::Parameter* known = folding.m_pack.parameter(parameter->text);
            return known == nullptr ? std::nullopt : std::optional<Json>(known->unit == "1" ? Json(known->count) : Json(known->typed));
        }
        if (const Json* attribute = node.find("instrument")) {
            return instrument(attribute->text);
        }
        if (const Json* named = node.find("fact")) {
            return ofFact(folding.m_pack.facts[folding.m_pack.fact(named->text)]);
        }
        if (node.find("rows") != nullptr) {
            return rows(node);
        }
        Json out = Json::object();
        for (const canon::Member& member : node.members) {
            if (auto filled = fill(member.value)) {
                out.set(member.key, std::move(*filled));
            }
        }
        return out;
    }

    std::optional<Json> instrument(const std::string& attribute)
    {
        const auto found = folding.m_yard.instruments.find(record.instrument);
        if (found == folding.m_yard.instruments.end()) {
            lacks(Lack::Instrument);
            return std::nullopt;
        }
        const std::string_view text = found->second.attributes.textOf(attribute);
        return text.empty() ? std::nullopt : std::optional<Json>(attributeValue(std::string(text)));
    }

    void lacks(Lack what) { lack = lack == Lack::None ? what : lack; }

    // From this row, this record, or the newest record of the step that the fact belongs to.
    std::optional<Json> ofFact(const rules::Fact& other)
    {
        const bool own_step = other.step == fact.step;
        const Json* values = record.values;
        if (!own_step) {
            const auto& newest = folding.m_newest[other.step];
            const rules::StepHeld& held = folding.m_out.evidence.steps[other.step];
            if (!newest || held.lack != Lack::None) {
                if (!other.optional || (newest && held.lack != Lack::Missing)) {
                    lacks(held.lack == Lack::None ? Lack::Missing : held.lack);
                }
                return std::nullopt;
            }
            values = newest->values;
            lapses = std::min(lapses, held.lapses_ms);
        }
        if (other.kind == FactKind::Derived) {
            const Held& held = facts[folding.m_pack.fact(other.id)];
            if (held.lack != Lack::None) {
                lacks(held.lack);
                return std::nullopt;
            }
            lapses = std::min(lapses, held.lapses_ms);
            if (!other.options.empty()) {
                return Json(other.options[static_cast<std::size_t>(std::countr_zero(static_cast<std::uint64_t>(held.count)))]);
            }
            return other.unit == "1" ? Json(held.count) : Json(countText(held.count, other.unit));
        }
        const Json* value = nullptr;
        if (other.reg != kNone) { // INVARIANT: the loader allows columns of the same row only
            value = row != nullptr && other.reg == fact.reg ? row->find(other.key) : nullptr;
        } else if (values != nullptr) {
            value = values->find(other.key);
        }
        if (value == nullptr) {
            if (!other.optional) {
                lacks(Lack::Missing);
            }
            return std::nullopt;
        }
        return plain(*value);
    }

    static Json plain(const Json& value) { return value.is(canon::Type::Object) ? Json(value.textOf("typed")) : value; }

    std::optional<Json> rows(const Json& node)
    {
        const rules::Register& table = folding.m_pack.registers[folding.m_pack.registerOf(node.textOf("rows"))];
        const auto& newest = folding.m_newest[table.step];
        const rules::StepHeld& held = folding.m_out.evidence.steps[table.step];
        const Json* values = table.step == fact.step ? record.values : newest ? newest->values : nullptr;
        if (table.step != fact.step && (!newest || held.lack != Lack::None)) {
            lacks(!newest ? Lack::Missing : held.lack);
            return std::nullopt;
        }
        lapses = table.step == fact.step ? lapses : std::min(lapses, held.lapses_ms);
        Json out = Json::array();
        const Json* all = values == nullptr ? nullptr : values->find(table.key);
        for (std::size_t i = 0; all != nullptr && i < all->items.size(); ++i) {
            Json one = Json::object();
            for (const canon::Member& member : node.find("as")->members) {
                if (auto filled = cell(member.value, all->items[i])) {
                    one.set(member.key, std::move(*filled));
                }
            }
            out.items.push_back(std::move(one));
        }
        return out;
    }

    static std::optional<Json> cell(const Json& node, const Json& its_row)
    {
        if (const Json* value = node.find("value")) {
            return *value;
        }
        const Json* column = node.find("column");
        const Json* value = its_row.find(column == nullptr ? std::string_view("name") : std::string_view(column->text));
        if (value == nullptr) {
            return std::nullopt;
        }
        const Json* words = node.find("words");
        const Json* other = words == nullptr ? nullptr : words->find(value->text);
        return other != nullptr ? *other : plain(*value);
    }
};

Held Folding::derive(
    const rules::Fact& fact, const Record& record, const Json* row, const std::vector<Held>& facts, std::vector<std::string>* warnings)
{
    const rules::Derivation& derivation = *fact.derived;
    Inputs inputs{*this, fact, record, row, facts};
    const auto filled = inputs.fill(derivation.inputs);
    if (inputs.lack != Lack::None || !filled) {
        return lacking(inputs.lack == Lack::None ? Lack::Missing : inputs.lack);
    }
    const std::string key = derivation.figure + "/" + std::to_string(derivation.version) + "/" + canon::write(*filled, false);
    auto known = m_memo.state().figures.find(key);
    if (known == m_memo.state().figures.end()) {
        known = m_memo.state().figures.emplace(key, figure::compute(*figure::byName(derivation.figure), *filled, m_reference)).first;
    }
    const auto& result = known->second;
    if (!result) {
        return lacking(Lack::Error);
    }
    if (warnings != nullptr) {
        *warnings = result->warnings;
    }
    const bool warned = derivation.warnings_unusable && !result->warnings.empty();
    const Json* value = result->values.find(derivation.output);
    if (warned || value == nullptr) {
        return lacking(m_pack.steps[fact.step].instrument.empty() ? Lack::Error : Lack::Instrument);
    }
    const auto outputs = figure::byName(derivation.figure)->outputs;
    const auto output = std::ranges::find(outputs, derivation.output, &figure::Output::key);
    if (output == outputs.end()) {
        return lacking(Lack::Error);
    }
    Held held;
    held.lack = Lack::None;
    held.lapses_ms = inputs.lapses;
    if (!fact.options.empty()) {
        const std::string word = value->is(canon::Type::Bool) ? (value->integer != 0 ? "yes" : "no") : value->text;
        const auto option = std::ranges::find(fact.options, word);
        if (option == fact.options.end()) {
            return lacking(Lack::Error);
        }
        held.count = std::int64_t{1} << (option - fact.options.begin());
    } else if (!value->is(canon::Type::Number) && !value->is(canon::Type::Integer)) {
        return lacking(Lack::Error); // a list or an object is no number, and must not read as 0
    } else {
        held.count = quantity::countOf(
            figure::siOf(*output, value->number), fact.unit, derivation.round_up ? quantity::Rounding::Up : quantity::Rounding::Down);
    }
    held.least = held.count;
    return held;
}

} // namespace brimful::evidence
