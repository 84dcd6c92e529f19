// People, instruments and the clock: matters of the whole yard, given by an authoriser.
#include "core/yard/state.h"

#include "core/quantity/recorded.h"

#include <algorithm>
#include <cstdlib>

namespace brimful::yard {

using canon::Json;
using report::Why;

namespace {

const std::vector<std::string> kAuthorisers{std::string(kAuthoriser)};

Receipt receiptOf(const std::vector<Hash>& written)
{
    return {written.front(), written.size() > 1 ? std::optional<Hash>(written.back()) : std::nullopt, true, false};
}

// One signed entry of the yard.
Outcome<Receipt> writeOne(Yard::State& state, ledger::Kind kind, Json payload, const Signing& by, std::span<const std::string> roles)
{
    std::vector<people::SigningKey> keys;
    keys.reserve(1);
    const auto signer = state.unlock(by, roles, keys);
    if (!signer) {
        return tl::unexpected(signer.error());
    }
    Draft draft;
    draft.kind = kind;
    draft.payload = std::move(payload);
    draft.signer = &*signer;
    const auto written = state.append(std::span(&draft, 1));
    if (!written) {
        return tl::unexpected(written.error());
    }
    return receiptOf(*written);
}

std::int64_t newestTime(const Yard::State& state)
{
    std::int64_t newest = 0;
    for (const ledger::Line& line : state.yard_lines) {
        newest = std::max(newest, state.yard.trueTime(line.entry.at).value_or(0));
    }
    return newest;
}

} // namespace

Outcome<Receipt> Yard::confirmClock(std::int64_t wall_ms, const Signing& by)
{
    State& state = *m_state;
    if (auto writable = state.writable(); !writable) {
        return tl::unexpected(writable.error());
    }
    if (const std::int64_t newest = newestTime(state); wall_ms < newest) {
        return refused(Why::ClockWentBack, "wall", std::to_string(newest), std::to_string(wall_ms));
    }
    Json payload = Json::object();
    payload.set("boot", state.clock.now().boot_ms).set("wall", wall_ms);
    return writeOne(state, ledger::Kind::TimeConfirmed, payload, by, state.pack->roles);
}

Outcome<Receipt> Yard::addPerson(const PersonRequest& request, const Signing& by)
{
    State& state = *m_state;
    if (auto writable = state.writable(); !writable) {
        return tl::unexpected(writable.error());
    }
    if (request.name.empty()) {
        return refused(Why::NameEmpty, "name");
    }
    const ledger::Person* known = state.yard.personNamed(request.name);
    if (known != nullptr && !known->retired) {
        return refused(Why::NameTaken, "name", {}, request.name);
    }
    for (const std::string& role : request.roles) {
        if (state.pack->role(role) == rules::kNone) {
            return refused(Why::UnknownRole, "roles", {}, role);
        }
    }
    if (!people::isStrongPin(request.pin)) {
        return refused(Why::WeakPin, request.name);
    }
    std::vector<people::SigningKey> keys;
    keys.reserve(1);
    const auto signer = state.unlock(by, kAuthorisers, keys);
    if (!signer) {
        return tl::unexpected(signer.error());
    }
    const auto person = people::randomId<PersonId>();
    const auto key = state.device->addPerson(person, request.pin);
    if (!key) {
        return tl::unexpected(refusalOf(key.error()));
    }
    std::vector<Draft> drafts(1);
    drafts[0].kind = ledger::Kind::PersonEnrolled;
    drafts[0].payload.set("device", canon::toHex(state.device->id())).set("key", canon::toHex(*key));
    drafts[0].payload.set("name", request.name).set("person", canon::toHex(person));
    for (const std::string& role : request.roles) {
        Draft grant;
        grant.kind = ledger::Kind::RoleGranted;
        grant.payload.set("from", state.nowMs()).set("person", canon::toHex(person)).set("role", role);
        if (request.until_ms) {
            grant.payload.set("until", *request.until_ms);
        }
        drafts.push_back(std::move(grant));
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

Outcome<Receipt> Yard::grant(const std::string& person, const std::vector<std::string>& roles, const Signing& by)
{
    State& state = *m_state;
    if (auto writable = state.writable(); !writable) {
        return tl::unexpected(writable.error());
    }
    const ledger::Person* known = state.yard.personNamed(person);
    if (known == nullptr || known->retired) {
        return refused(Why::UnknownPerson, "person", {}, person);
    }
    std::vector<people::SigningKey> keys;
    keys.reserve(1);
    const auto signer = state.unlock(by, kAuthorisers, keys);
    if (!signer) {
        return tl::unexpected(signer.error());
    }
    std::vector<Draft> drafts;
    for (const std::string& role : roles) {
        if (state.pack->role(role) == rules::kNone) {
            return refused(Why::UnknownRole, "roles", {}, role);
        }
        if (state.yard.mayActAs(known->id, role, state.nowMs())) {
            continue;
        }
        Draft grant;
        grant.kind = ledger::Kind::RoleGranted;
        grant.payload.set("from", state.nowMs()).set("person", canon::toHex(known->id)).set("role", role);
        grant.signer = &*signer;
        drafts.push_back(std::move(grant));
    }
    if (drafts.empty()) {
        return Receipt{known->roles.front().granted_by, std::nullopt, true, false};
    }
    const auto written = state.append(drafts);
    if (!written) {
        return tl::unexpected(written.error());
    }
    return receiptOf(*written);
}

Outcome<Receipt> Yard::endRole(const std::string& person, const std::string& role, const Signing& by)
{
    State& state = *m_state;
    if (auto writable = state.writable(); !writable) {
        return tl::unexpected(writable.error());
    }
    const ledger::Person* known = state.yard.personNamed(person);
    if (known == nullptr || known->retired) {
        return refused(Why::UnknownPerson, "person", {}, person);
    }
    Json payload = Json::object();
    payload.set("person", canon::toHex(known->id));
    if (!role.empty()) {
        const bool holds = std::ranges::any_of(known->roles, [&](const ledger::Role& one) { return one.role == role; });
        if (!holds) {
            return refused(Why::UnknownRole, "role", {}, role);
        }
        payload.set("role", role);
    }
    return writeOne(state, ledger::Kind::RoleEnded, payload, by, kAuthorisers);
}

Outcome<Receipt> Yard::addInstrument(const InstrumentRequest& request, const Signing& by)
{
    State& state = *m_state;
    if (auto writable = state.writable(); !writable) {
        return tl::unexpected(writable.error());
    }
    if (request.id.empty()) {
        return refused(Why::NameEmpty, "id");
    }
    if (state.yard.instruments.contains(request.id)) {
        return refused(Why::InstrumentTaken, "id", {}, request.id);
    }
    if (request.type.empty()) {
        return refused(Why::MissingFact, "type", "gas-meter, pressure-gauge");
    }
    if (request.calibrated_until_ms <= state.nowMs()) {
        return refused(Why::BadTime, "calibrated_until");
    }
    Json attributes = Json::object();
    for (const auto& [key, value] : request.attributes) {
        attributes.set(key, value);
    }
    Json payload = Json::object();
    payload.set("attributes", attributes).set("calibrated_until", request.calibrated_until_ms);
    payload.set("instrument", request.id).set("type", request.type);
    return writeOne(state, ledger::Kind::InstrumentEnrolled, payload, by, kAuthorisers);
}

Outcome<Receipt> Yard::checkInstrument(const CheckRequest& request, const Signing& by)
{
    State& state = *m_state;
    if (auto writable = state.writable(); !writable) {
        return tl::unexpected(writable.error());
    }
    if (auto known = state.timeKnown(); !known) {
        return tl::unexpected(known.error());
    }
    if (!state.yard.instruments.contains(request.instrument)) {
        return refused(Why::UnknownInstrument, "instrument", {}, request.instrument);
    }
    const auto shown = quantity::parse(request.shown);
    const auto expected = quantity::parse(request.expected);
    if (!shown) {
        return refused(Why::BadQuantity, "shown", shown.error().expected, request.shown);
    }
    if (!expected || expected->dimension != shown->dimension) {
        return refused(Why::BadQuantity, "expected", std::string(quantity::dimensionName(shown->dimension)), request.expected);
    }
    const auto shown_count = quantity::record(request.shown, shown->dimension);
    const auto expected_count = quantity::record(request.expected, shown->dimension);
    if (!shown_count || !expected_count || expected_count->count == 0) {
        return refused(Why::BadQuantity, "expected", {}, request.expected);
    }
    // Off by more than a tenth: the meter is out until it is calibrated. Source: maker's practice quoted in the pack's
    // parameter "bump-tolerance".
    const rules::Parameter* tolerance = state.pack->parameter("bump-tolerance");
    const std::int64_t ppm = tolerance != nullptr ? tolerance->count : 100'000;
    const std::int64_t off = std::abs(shown_count->count - expected_count->count);
    const bool passed = off * 1'000'000 <= std::abs(expected_count->count) * ppm;
    const auto quantityJson = [](const quantity::Recorded& recorded) {
        Json out = Json::object();
        out.set("count", recorded.count).set("typed", recorded.typed).set("unit", recorded.unit);
        return out;
    };
    Json payload = Json::object();
    payload.set("expected", quantityJson(*expected_count)).set("instrument", request.instrument);
    if (!request.note.empty()) {
        payload.set("note", request.note);
    }
    payload.set("outcome", passed ? "passed" : "failed").set("shown", quantityJson(*shown_count));
    auto receipt = writeOne(state, ledger::Kind::InstrumentChecked, payload, by, state.pack->roles);
    if (receipt) {
        receipt->failing = !passed;
    }
    return receipt;
}

namespace {

// A badge's code is kept as its hash, beside whom it names; a person has one at most.
std::string badgeOf(const PersonId& id) { return "badge." + canon::toHex(id); }
std::string ofCode(const std::string& code) { return canon::toHex(canon::sha256(code)); }

} // namespace

Outcome<void> Yard::giveBadge(const std::string& person, const std::string& code)
{
    State& state = *m_state;
    const ledger::Person* known = state.yard.personNamed(person);
    if (known == nullptr) {
        return refused(Why::UnknownPerson, person);
    }
    if (!state.device) {
        return refused(state.no_device);
    }
    const std::string owner = code.empty() ? std::string() : personOfBadge(code);
    if (!owner.empty() && owner != person) {
        return refused(Why::NameTaken, owner);
    }
    if (auto kept = state.device->putSetting(badgeOf(known->id), code.empty() ? std::string() : ofCode(code)); !kept) {
        return tl::unexpected(refusalOf(kept.error()));
    }
    return {};
}

void Yard::expectPin(const std::string& person, std::string_view pin)
{
    const ledger::Person* whose = m_state->yard.personNamed(person);
    if (m_state->device && (pin.empty() || whose != nullptr)) {
        m_state->device->expectPin(pin.empty() ? PersonId{} : whose->id, pin);
    }
}

std::string Yard::personOfBadge(const std::string& code) const
{
    if (code.empty()) {
        return {};
    }
    const std::string wanted = ofCode(code);
    for (const auto& [id, person] : m_state->yard.people) {
        if (m_state->device && m_state->device->setting(badgeOf(id)) == wanted) {
            return person.name;
        }
    }
    return {};
}

std::vector<PersonShown> Yard::people() const
{
    std::vector<PersonShown> shown;
    for (const auto& [id, person] : m_state->yard.people) {
        PersonShown one{id, person.name, person.roles, person.retired, false, std::nullopt};
        one.signs_here = m_state->device && m_state->device->hasKey(id);
        if (const auto seen = m_state->last_signed.find(id); seen != m_state->last_signed.end()) {
            one.last_signed_ms = seen->second;
        }
        shown.push_back(std::move(one));
    }
    std::ranges::sort(shown, {}, &PersonShown::name);
    return shown;
}

std::vector<InstrumentShown> Yard::instruments() const
{
    std::vector<InstrumentShown> shown;
    for (const auto& [id, instrument] : m_state->yard.instruments) {
        InstrumentShown one{instrument, instrument.calibrated_until_ms > m_state->nowMs() && !instrument.withdrawn, std::nullopt};
        for (const ledger::InstrumentCheck& check : instrument.bumps) {
            one.bumped_ms = check.passed ? std::optional<std::int64_t>(check.at.wall_ms) : std::nullopt;
            const auto age = ledger::ageMs(m_state->yard, check.at, m_state->clock.now());
            one.believed = one.in_calibration && check.passed && age && *age <= evidence::bumpLifeMs(*m_state->pack);
        }
        shown.push_back(std::move(one));
    }
    return shown;
}

} // namespace brimful::yard
