// A key that is no longer trusted, a new one for somebody who lost the PIN, and the recovery sheet.
#include "core/yard/state.h"

#include <algorithm>

namespace brimful::yard {

using canon::Json;
using report::Why;

namespace {

const std::vector<std::string> kAuthorisers{std::string(kAuthoriser)};

Json enrolment(const Yard::State& state, const PersonId& person, const std::string& name, const PublicKey& key)
{
    Json payload = Json::object();
    payload.set("device", canon::toHex(state.device->id())).set("key", canon::toHex(key));
    payload.set("name", name).set("person", canon::toHex(person));
    return payload;
}

// The first place in this device's feed that is not older than that.
Outcome<std::optional<std::uint64_t>> firstSince(const Yard::State& state, const DeviceId& device, std::int64_t since_ms)
{
    std::optional<std::uint64_t> first;
    const auto read = state.ledger.stream([&](const ledger::Stored& row) {
        const auto entry = ledger::decode(row.body);
        const bool late = entry && entry->device == device && state.yard.trueTime(entry->at).value_or(entry->at.wall_ms) >= since_ms;
        if (late) {
            first = std::min(first.value_or(entry->seq), entry->seq);
        }
        return true;
    });
    if (!read) {
        return tl::unexpected(refusalOf(read.error(), state.folder));
    }
    return first;
}

} // namespace

Outcome<Receipt> Yard::suspectKey(const std::string& name, const std::string& why, std::optional<std::int64_t> since_ms, const Signing& by)
{
    State& state = *m_state;
    if (auto writable = state.writable(); !writable) {
        return tl::unexpected(writable.error());
    }
    const ledger::Person* person = state.yard.personNamed(name);
    if (person == nullptr) {
        return refused(Why::UnknownPerson, "person", {}, name);
    }
    if (why.empty()) {
        return refused(Why::MissingFact, "why");
    }
    std::set<DeviceId> devices;
    for (const ledger::PersonKey& key : person->keys) {
        if (!key.suspected_by) {
            devices.insert(key.device);
        }
    }
    if (devices.empty()) {
        return refused(Why::NothingToClear, "key", {}, name);
    }
    std::vector<Draft> drafts;
    for (const DeviceId& device : devices) {
        Draft draft;
        draft.kind = ledger::Kind::KeySuspected;
        draft.payload.set("device", canon::toHex(device)).set("person", canon::toHex(person->id)).set("why", why);
        if (since_ms) {
            const auto first = firstSince(state, device, *since_ms);
            if (!first) {
                return tl::unexpected(first.error());
            }
            if (*first) {
                draft.payload.set("since", static_cast<std::int64_t>(**first));
            }
        }
        drafts.push_back(std::move(draft));
    }
    std::vector<people::SigningKey> keys;
    keys.reserve(1);
    const auto signer = state.unlock(by, kAuthorisers, keys);
    if (!signer) {
        return tl::unexpected(signer.error());
    }
    for (Draft& draft : drafts) {
        draft.signer = &*signer;
    }
    const auto written = state.append(drafts);
    if (!written) {
        return tl::unexpected(written.error());
    }
    return Receipt{written->front(), std::nullopt, true, false};
}

Outcome<Receipt> Yard::renewKey(const Signing& whose, const Signing& by, const Signing& with)
{
    State& state = *m_state;
    if (auto writable = state.writable(); !writable) {
        return tl::unexpected(writable.error());
    }
    const ledger::Person* person = state.yard.personNamed(whose.person);
    if (person == nullptr || person->retired) {
        return refused(Why::UnknownPerson, "person", {}, whose.person);
    }
    if (by.person == with.person || by.person == whose.person || with.person == whose.person) {
        return refused(Why::SamePerson, by.person == with.person ? by.person : whose.person);
    }
    if (!people::isStrongPin(whose.pin)) {
        return refused(Why::WeakPin, whose.person);
    }
    std::vector<people::SigningKey> keys;
    keys.reserve(2);
    const auto first = state.unlock(by, kAuthorisers, keys);
    if (!first) {
        return tl::unexpected(first.error());
    }
    const auto second = state.unlock(with, state.pack->roles, keys);
    if (!second) {
        return tl::unexpected(second.error());
    }
    state.played_keys.erase(person->id);
    const auto key = state.device->addPerson(person->id, whose.pin); // the old key is gone from here with this
    if (!key) {
        return tl::unexpected(refusalOf(key.error()));
    }
    std::vector<Draft> drafts(2);
    drafts[0].kind = ledger::Kind::PersonEnrolled;
    drafts[0].payload = enrolment(state, person->id, person->name, *key);
    drafts[0].signer = &*first;
    drafts[1].kind = ledger::Kind::Confirmed;
    drafts[1].confirms_previous = true;
    drafts[1].signer = &*second;
    const auto written = state.append(drafts);
    if (!written) {
        return tl::unexpected(written.error());
    }
    return Receipt{written->front(), written->back(), true, false};
}

Outcome<Receipt> Yard::recover(const std::string& sheet, const Signing& whose)
{
    State& state = *m_state;
    if (auto writable = state.writable(); !writable) {
        return tl::unexpected(writable.error());
    }
    if (whose.person.empty()) {
        return refused(Why::NameEmpty, "name");
    }
    if (!people::isStrongPin(whose.pin)) {
        return refused(Why::WeakPin, whose.person);
    }
    std::string symbols = sheet;
    std::erase_if(symbols, [](char c) { return c == ' ' || c == '-' || c == '\r'; });
    const auto seed = canon::fromBase32(symbols);
    if (!seed || seed->size() != PublicKey().value.size()) {
        return refused(Why::BadSheet);
    }
    const auto recovery = people::SigningKey::fromSeed(*seed);
    if (recovery.publicKey() != state.yard.recovery_key) {
        return refused(Why::BadSheet);
    }
    const ledger::Person* known = state.yard.personNamed(whose.person);
    const PersonId person = known == nullptr ? people::randomId<PersonId>() : known->id;
    state.played_keys.erase(person);
    const auto key = state.device->addPerson(person, whose.pin);
    if (!key) {
        return tl::unexpected(refusalOf(key.error()));
    }
    auto opened = state.device->unlock(person, whose.pin, state.clock.now().wall_ms);
    if (!opened) {
        return tl::unexpected(refusalOf(opened.error()));
    }
    const Unlocked signer{person, whose.person, std::string(kAuthoriser), &*opened};
    Draft draft;
    draft.kind = ledger::Kind::PersonEnrolled;
    draft.payload = enrolment(state, person, whose.person, *key);
    draft.payload.set("by_recovery", 1);
    draft.payload.set("recovery_sig", canon::toHex(recovery.sign(people::kRecoveryDomain, ledger::recoveryStatement(draft.payload))));
    draft.signer = &signer;
    const auto written = state.append(std::span(&draft, 1));
    if (!written) {
        return tl::unexpected(written.error());
    }
    return Receipt{written->front(), std::nullopt, true, false};
}

} // namespace brimful::yard
