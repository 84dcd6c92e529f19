// The second person's own answer: which value is asked, and whether it is what the first one gave. The first one's value is
// never told.
#include "core/yard/state.h"

#include "core/quantity/parse.h"

#include <set>

namespace brimful::yard {

using canon::Json;
using report::Why;

namespace {

std::string formOf(const rules::Pack& pack, const evidence::AskedOfSecond& asked)
{
    const rules::Fact& fact = pack.facts[asked.fact];
    std::string form = fact.kind == rules::FactKind::Quantity ? std::string(quantity::dimensionName(fact.dimension)) : "1, 2, 3";
    if (fact.kind == rules::FactKind::Choice) {
        form.clear();
        for (const std::string& option : fact.options) {
            form += (form.empty() ? "" : ", ") + option;
        }
    }
    return asked.row.empty() ? form : asked.row + ": " + form;
}

} // namespace

Outcome<Json> Yard::State::ownAnswer(const std::optional<evidence::AskedOfSecond>& asked, const Json& values, const Json& given)
{
    if (!asked) {
        return given.is(canon::Type::Null) ? Outcome<Json>(Json()) : refused(Why::UnknownFact, "answer");
    }
    const rules::Fact& fact = pack->facts[asked->fact];
    if (given.is(canon::Type::Null)) {
        return refused(Why::NeedsAnswer, fact.id, formOf(*pack, *asked));
    }
    auto value = valueOf(fact, given, "answer");
    if (!value) {
        return value;
    }
    const Json* given_first = evidence::valueAt(*pack, *asked, values);
    auto first = valueOf(fact, given_first == nullptr ? Json() : *given_first, "facts." + fact.key);
    if (!first) {
        return first;
    }
    if (!evidence::agree(*value, *first)) {
        return refused(Why::AnswerDiffers, fact.id);
    }
    return ledger::toJson(evidence::ownAnswer(*pack, *asked, std::move(*value)));
}

Outcome<ledger::Entry> Yard::entryOf(const Hash& hash) const
{
    const auto row = stored(hash);
    if (!row) {
        return tl::unexpected(row.error());
    }
    auto entry = ledger::decode(row->body);
    if (!entry || !entry->signer) {
        return refused(Why::UnknownEntry, canon::toHex(hash));
    }
    return std::move(*entry);
}

Outcome<std::optional<evidence::AskedOfSecond>> Yard::askedOfSecond(const Hash& first) const
{
    const auto entry = entryOf(first);
    if (!entry) {
        return tl::unexpected(entry.error());
    }
    return evidence::askedOfSecond(*m_state->pack, *entry);
}

bool Yard::State::waitsHere(const ledger::Entry& first) const
{
    const ledger::Moment now = clock.now();
    return device && first.device == device->id() && first.at.boot == now.boot && now.boot_ms - first.at.boot_ms <= kSecondWithinMs;
}

Outcome<std::optional<Waiting>> Yard::waiting(const std::string& vessel, const std::string& step)
{
    const auto all = folded(vessel);
    if (!all) {
        return tl::unexpected(all.error());
    }
    std::set<Hash> confirmed;
    for (auto line = all->lines.rbegin(); line != all->lines.rend(); ++line) {
        const ledger::Entry& entry = line->entry;
        if (entry.kind == ledger::Kind::Confirmed) {
            confirmed.insert(canon::fromHex<Hash>(entry.payload.textOf("confirms")).value_or(Hash{}));
        }
        if (entry.kind != ledger::Kind::Evidence || !entry.vessel || entry.payload.textOf("step") != step) {
            continue;
        }
        const bool open = m_state->waitsHere(entry) && !confirmed.contains(line->hash) && !all->withdrawn.contains(line->hash);
        const auto person = entry.signer ? m_state->yard.people.find(entry.signer->person) : m_state->yard.people.end();
        const Json* facts = entry.payload.textOf("outcome") == "cannot" ? nullptr : evidence::valuesOf(entry);
        if (!open || facts == nullptr || person == m_state->yard.people.end()) {
            return std::nullopt;
        }
        return Waiting{line->hash, person->second.name, *facts};
    }
    return std::nullopt;
}

Outcome<void> Yard::mayAnswer(const Hash& first, const Json& answer)
{
    const auto entry = entryOf(first);
    if (!entry) {
        return tl::unexpected(entry.error());
    }
    const Json* values = evidence::valuesOf(*entry);
    const auto fits =
        m_state->ownAnswer(evidence::askedOfSecond(*m_state->pack, *entry), values == nullptr ? Json::object() : *values, answer);
    return fits ? Outcome<void>{} : tl::unexpected(fits.error());
}

} // namespace brimful::yard
