#include "app/tablet/ask.h"

#include "core/canon/hash.h"
#include "core/quantity/recorded.h"

#include <QCoreApplication>

#include <algorithm>

namespace brimful::tablet {

using canon::Json;
using rules::Fact;
using rules::FactKind;
using rules::Index;

namespace {

QString tr(const char* words) { return QCoreApplication::translate("brimful::tablet", words); }

bool isMeterShare(quantity::Dimension dimension)
{
    return dimension == quantity::Dimension::LimitShare || dimension == quantity::Dimension::VolumeShare;
}

// Of two shares of the volume that a meter shows, the one that is breathed: packs name it so.
bool isOxygen(const Fact& fact) { return fact.dimension == quantity::Dimension::VolumeShare && fact.key.ends_with("oxygen"); }

QString captionOf(const Fact& fact, const rules::Pack& pack)
{
    if (fact.dimension == quantity::Dimension::LimitShare) {
        return tr("Gas");
    }
    if (fact.dimension == quantity::Dimension::VolumeShare) {
        //: what a meter shows of gas in percent of the volume, not of its lower limit
        return isOxygen(fact) ? tr("Oxygen") : tr("Gas, volume");
    }
    QString ask = text::factAsk(pack, fact.compares == rules::kNone ? pack.fact(fact.id) : fact.compares);
    while (ask.endsWith(u'.') || ask.endsWith(u'?')) {
        ask.chop(1);
    }
    return ask;
}

std::string placeKey(const std::string& member) { return "place." + member; }

QString memberWord(const rules::Pack& pack, const std::string& member)
{
    const auto found = pack.strings.find(placeKey(member));
    return found == pack.strings.end() ? QString::fromStdString(member) : text::ofPack(pack, placeKey(member));
}

// The first key is not always the good one; yet the same step looks the same each time. A long list stays as the pack has it.
void shuffle(std::vector<Option>& options, const std::string& id)
{
    constexpr std::size_t kKeys = 4;
    if (options.size() <= kKeys) {
        std::ranges::sort(options, {}, [&](const Option& one) { return canon::sha256(id + ' ' + one.word); });
    }
}

Ask askOf(const rules::Pack& pack, Index index, const ledger::YardState& yard)
{
    const Fact& fact = pack.facts[index];
    Ask ask;
    ask.ask = text::factAsk(pack, index);
    ask.optional = fact.optional;
    ask.into = fact.key;
    ask.fields.push_back({fact.key, captionOf(fact, pack), fact.dimension, index});
    switch (fact.kind) {
    case FactKind::Choice:
        ask.hand = Hand::Choice;
        for (const std::string& option : fact.options) {
            ask.options.push_back({option, text::optionWord(pack, index, option), {}});
        }
        shuffle(ask.options, fact.id);
        break;
    case FactKind::Quantity:
        ask.hand = Hand::Number;
        break;
    case FactKind::Count:
        ask.hand = Hand::Number;
        ask.fields.front().dimension = quantity::Dimension::Number;
        break;
    case FactKind::Photo:
    case FactKind::Document:
        ask.hand = Hand::File;
        break;
    case FactKind::Person:
        ask.hand = Hand::Choice;
        for (const auto& [id, person] : yard.people) {
            if (!person.retired) {
                ask.options.push_back({person.name, QString::fromStdString(person.name), {}});
            }
        }
        break;
    case FactKind::Text:
    case FactKind::Echo:
    case FactKind::Derived:
    case FactKind::Tag:
        ask.hand = Hand::Write;
        break;
    }
    return ask;
}

bool isAsked(const Fact& fact) { return fact.kind != FactKind::Derived && fact.kind != FactKind::Tag && fact.compares == rules::kNone; }

std::vector<std::string> membersOf(const rules::Pack& pack, const rules::Register& table, const evidence::Folded* folded)
{
    std::vector<std::string> members = table.members;
    if (table.members_from != rules::kNone && folded != nullptr) {
        for (const evidence::FactShown& shown : folded->shown) {
            const bool of_it = pack.facts[shown.fact].reg == table.members_from && !shown.member.empty();
            if (of_it && std::ranges::find(members, shown.member) == members.end()) {
                members.push_back(shown.member);
            }
        }
    }
    return members;
}

const rules::Condition* limitOf(const rules::Pack& pack, Index fact)
{
    const rules::Step& step = pack.steps[pack.facts[fact].step];
    if (step.accept >= pack.conditions.size()) {
        return nullptr;
    }
    const std::size_t end = std::min<std::size_t>(step.accept + pack.conditions[step.accept].size, pack.conditions.size());
    for (std::size_t i = step.accept; i < end; ++i) {
        const rules::Condition& one = pack.conditions[i];
        const bool limit = one.op == rules::Op::AtMost || one.op == rules::Op::AtLeast || one.op == rules::Op::Between;
        if (limit && one.a == fact) {
            return &one;
        }
    }
    return nullptr;
}

QString countWord(const Fact& fact, std::int64_t count, const text::Reading& reading)
{
    if (fact.kind == FactKind::Count) {
        return QString::number(count);
    }
    return text::quantity(quantity::siOf(count, fact.unit), fact.dimension, reading);
}

bool namesRows(const rules::Register& table) { return table.defines || (table.members.empty() && table.members_from == rules::kNone); }

bool sameText(const std::string& said, const std::string& recorded, int last)
{
    const auto tail = [last](const std::string& text) {
        const auto size = static_cast<std::size_t>(last);
        const std::string cut = last > 0 && text.size() > size ? text.substr(text.size() - size) : text;
        return QString::fromStdString(cut).trimmed().toCaseFolded();
    };
    return tail(said) == tail(recorded);
}

} // namespace

std::vector<Ask> rowAsks(
    const rules::Pack& pack, const rules::Register& table, const std::string& member, const ledger::YardState& yard, const text::Reading&)
{
    std::vector<Ask> asks;
    Ask both; // what a meter shows at one place: oxygen, then gas
    for (const Index column : table.columns) {
        const Fact& fact = pack.facts[column];
        if (!isAsked(fact)) {
            continue;
        }
        Ask ask = askOf(pack, column, yard);
        ask.into = table.key;
        ask.member = member;
        if (ask.hand == Hand::Number && isMeterShare(fact.dimension)) {
            both.fields.insert(isOxygen(fact) ? both.fields.begin() : both.fields.end(), ask.fields.front());
            continue;
        }
        //: a row's name, then what is asked of it: "N3: Bore."
        ask.ask = tr("%1: %2").arg(memberWord(pack, member), ask.ask);
        asks.push_back(std::move(ask));
    }
    if (!both.fields.empty()) {
        both.hand = Hand::Number;
        both.into = table.key;
        both.member = member;
        //: a reading place: "Along the cut."
        both.ask = tr("%1.").arg(memberWord(pack, member));
        asks.insert(asks.begin(), std::move(both));
    }
    if (asks.size() == 1 && !namesRows(table)) {
        asks.front().round = asks.front().hand == Hand::Choice && !asks.front().many;
    }
    return asks;
}

std::vector<Ask> asksOf(
    const rules::Pack& pack, Index step, const evidence::Folded* folded, const ledger::YardState& yard, const text::Reading& reading)
{
    std::vector<Ask> asks;
    const rules::Step& one = pack.steps[step];
    if (!one.instrument.empty()) {
        Ask ask;
        ask.ask = tr("Which meter?");
        ask.hand = Hand::Choice;
        ask.instrument = true;
        for (const auto& [id, instrument] : yard.instruments) {
            if (instrument.type == one.instrument && !instrument.withdrawn) {
                ask.options.push_back({id, QString::fromStdString(id), text::instrumentType(instrument.type)});
            }
        }
        ask.fields.push_back({});
        asks.push_back(std::move(ask));
    }
    // In the order of the pack; a register whose rows are named here comes last, because its end is the sheet's end.
    std::vector<Index> done;
    const auto rowsOf = [&](Index index) {
        done.push_back(index);
        const rules::Register& table = pack.registers[index];
        for (const std::string& member : membersOf(pack, table, folded)) {
            for (Ask& ask : rowAsks(pack, table, member, yard, reading)) {
                asks.push_back(std::move(ask));
            }
        }
    };
    for (const Index index : one.facts) {
        const Fact& fact = pack.facts[index];
        if (fact.reg == rules::kNone) {
            if (isAsked(fact)) {
                asks.push_back(askOf(pack, index, yard));
            }
        } else if (!namesRows(pack.registers[fact.reg]) && std::ranges::find(done, fact.reg) == done.end()) {
            rowsOf(fact.reg);
        }
    }
    for (const Index index : one.registers) {
        if (std::ranges::find(done, index) == done.end()) {
            rowsOf(index);
        }
        const rules::Register& table = pack.registers[index];
        if (namesRows(table)) {
            Ask ask;
            ask.ask = text::ofPack(pack, "fact." + table.id);
            ask.why = tr("Name the next one, or end the list.");
            ask.hand = Hand::Write;
            ask.into = table.key;
            ask.names_row = true;
            ask.fields.push_back({"name", tr("Name"), quantity::Dimension::Number, rules::kNone});
            asks.push_back(std::move(ask));
        }
    }
    return asks;
}

Ask askOfSecond(const rules::Pack& pack, const evidence::AskedOfSecond& asked, const ledger::YardState& yard)
{
    Ask ask = askOf(pack, asked.fact, yard);
    ask.optional = false;
    ask.member = asked.row;
    if (!asked.row.empty()) {
        //: a row's name, then what is asked of it: "N3: Bore."
        ask.ask = tr("%1: %2").arg(memberWord(pack, asked.row), ask.ask);
    }
    //: the second person answers one question before he signs
    ask.why = tr("Look yourself: what the first one gave is not shown.");
    return ask;
}

QString needOf(const rules::Pack& pack, Index fact, const text::Reading& reading)
{
    const rules::Condition* limit = fact == rules::kNone ? nullptr : limitOf(pack, fact);
    if (limit == nullptr) {
        return {};
    }
    const Fact& one = pack.facts[fact];
    const QString low = countWord(one, limit->low, reading);
    const QString high = countWord(one, limit->high, reading);
    if (limit->op == rules::Op::AtLeast) {
        //: the limit beside the number, with its side; %1 is a quantity
        return tr("Need %1 or more.").arg(low);
    }
    if (limit->op == rules::Op::AtMost) {
        //: the limit beside the number, with its side; %1 is a quantity
        return tr("Need %1 or less.").arg(high);
    }
    //: the limits beside the number; %1 and %2 are quantities
    return tr("Need %1 to %2.").arg(low, high);
}

bool isOutside(const rules::Pack& pack, Index fact, std::int64_t count)
{
    const rules::Condition* limit = fact == rules::kNone ? nullptr : limitOf(pack, fact);
    if (limit == nullptr) {
        return false;
    }
    switch (limit->op) {
    case rules::Op::AtLeast:
        return count < limit->low;
    case rules::Op::AtMost:
        return count > limit->high;
    case rules::Op::Between:
        return count < limit->low || count > limit->high;
    default:
        return false;
    }
}

bool agrees(const rules::Pack& pack, const evidence::Folded& folded, Index fact, const Json& answer)
{
    const Fact* asked = &pack.facts[fact];
    for (const Fact& one : pack.facts) {
        if (one.compares == fact) {
            asked = &one;
        }
    }
    if (asked->echo_of == rules::kNone) {
        return true;
    }
    const rules::Held& held = folded.evidence.facts[asked->echo_of];
    const Fact& recorded = pack.facts[asked->echo_of];
    if (recorded.kind == FactKind::Quantity || recorded.kind == FactKind::Count || recorded.kind == FactKind::Derived) {
        if (held.lack != rules::Lack::None) {
            return true; // nothing usable to compare with: the hold point is held for that, not for the answer
        }
        if (answer.is(canon::Type::Integer)) {
            return answer.integer == held.count;
        }
        const auto said = quantity::record(answer.text, recorded.dimension);
        return said && said->count == held.count;
    }
    const auto shown = std::ranges::find(folded.shown, asked->echo_of, &evidence::FactShown::fact);
    return shown == folded.shown.end() || sameText(answer.text, shown->value.text, asked->echo_last);
}

} // namespace brimful::tablet
