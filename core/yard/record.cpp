// Admit a vessel, record a step, note an event, withdraw a record, answer a stop. Every act appends or changes nothing.
#include "core/yard/state.h"

#include "core/figure/figure.h"

#include <algorithm>

namespace brimful::yard {

using canon::Json;
using report::Why;

namespace {

bool isNumber(const std::string& number)
{
    return !number.empty() && number.size() <= 12
        && std::ranges::all_of(number, [](char c) { return (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-'; });
}

// Signer and, where the act has two, the second; different people.
struct Pair {
    std::vector<people::SigningKey> keys;
    Unlocked by;
    std::optional<Unlocked> with;
};

Outcome<std::unique_ptr<Pair>> unlockPair(Yard::State& state, const Signing& by, std::span<const std::string> by_roles,
    const std::optional<Signing>& with, std::span<const std::string> with_roles)
{
    if (with && with->person == by.person) {
        return refused(Why::SamePerson, by.person);
    }
    auto pair = std::make_unique<Pair>();
    pair->keys.reserve(2);
    auto first = state.unlock(by, by_roles, pair->keys);
    if (!first) {
        return tl::unexpected(first.error());
    }
    pair->by = *first;
    if (with) {
        auto second = state.unlock(*with, with_roles, pair->keys);
        if (!second) {
            return tl::unexpected(second.error());
        }
        pair->with = *second;
    }
    return pair;
}

// The first entry, and its confirmation when the second person is here, with what he gave himself.
std::vector<Draft> inTwo(Draft first, const Pair& pair, Json own_answer = {})
{
    first.signer = &pair.by;
    std::vector<Draft> drafts{std::move(first)};
    if (pair.with) {
        Draft second;
        second.vessel = drafts.front().vessel;
        second.kind = ledger::Kind::Confirmed;
        second.confirms_previous = true;
        if (!own_answer.is(canon::Type::Null)) {
            second.payload.set("answer", std::move(own_answer));
        }
        second.signer = &*pair.with;
        drafts.push_back(std::move(second));
    }
    return drafts;
}

Receipt receiptOf(const std::vector<Hash>& written, bool two_needed)
{
    Receipt receipt;
    receipt.entry = written.front();
    if (written.size() > 1) {
        receipt.confirmed = written.back();
    }
    receipt.counts = !two_needed || written.size() > 1;
    return receipt;
}

} // namespace

Outcome<Receipt> Yard::admit(const Json& request, const Signing& by)
{
    State& state = *m_state;
    if (auto writable = state.writable(); !writable) {
        return tl::unexpected(writable.error());
    }
    for (const canon::Member& member : request.members) {
        if (member.key != "number" && member.key != "vessel" && member.key != "note") {
            return refused(Why::UnknownFact, member.key, "number, vessel, note");
        }
    }
    const std::string number(request.textOf("number"));
    if (!isNumber(number)) {
        return refused(Why::BadNumber, "number", "A-Z 0-9 -", number);
    }
    if (std::ranges::find(state.vessels, number, &VesselRecord::number) != state.vessels.end()) {
        return refused(Why::NumberTaken, "number", {}, number);
    }
    Json payload = Json::object();
    if (const Json* vessel = request.find("vessel"); vessel != nullptr) {
        // The sizes must make a vessel; what they make is only believed until somebody measures.
        Json input = Json::object();
        input.set("vessel", *vessel);
        const auto result = figure::compute(*figure::byName("capacity"), input, state.reference);
        if (!result) {
            return refused(Why::BadFact, result.error().path, result.error().expected, result.error().found);
        }
        payload.set("vessel", *vessel);
    }
    payload.set("number", number);
    if (const std::string_view note = request.textOf("note"); !note.empty()) {
        payload.set("note", note);
    }
    const auto pair = unlockPair(state, by, state.pack->roles, std::nullopt, {});
    if (!pair) {
        return tl::unexpected(pair.error());
    }
    Draft draft;
    draft.kind = ledger::Kind::VesselAdmitted;
    draft.payload = std::move(payload);
    const auto written = state.append(inTwo(std::move(draft), **pair));
    if (!written) {
        return tl::unexpected(written.error());
    }
    return receiptOf(*written, false);
}

Outcome<Receipt> Yard::record(const RecordRequest& request, const Signing& by, const std::optional<Signing>& with)
{
    State& state = *m_state;
    if (auto writable = state.writable(); !writable) {
        return tl::unexpected(writable.error());
    }
    const rules::Index index = state.pack->step(request.step);
    if (index == rules::kNone || state.pack->steps[index].talk_of != rules::kNone) {
        return refused(Why::UnknownStep, "step", {}, request.step);
    }
    const rules::Step& step = state.pack->steps[index];
    std::optional<VesselRecord> of;
    if (step.of_yard != request.vessel.empty()) {
        return refused(step.of_yard ? Why::NotThisVessel : Why::UnknownVessel, "vessel", {}, request.vessel);
    }
    if (!step.of_yard) {
        const auto found = state.find(request.vessel);
        if (!found) {
            return tl::unexpected(found.error());
        }
        of = *found;
    }
    const auto vessel = of ? std::optional(of->id) : std::nullopt;
    if (auto known = state.timeKnown(); !known) {
        return tl::unexpected(known.error());
    }
    const bool cannot = !request.cannot.empty();
    if (cannot && std::ranges::find(step.cannot, request.cannot, &rules::Cannot::id) == step.cannot.end()) {
        return refused(Why::UnknownReason, "cannot", {}, request.cannot);
    }
    if (!cannot && !step.instrument.empty()) {
        const auto instrument = state.yard.instruments.find(request.instrument);
        if (request.instrument.empty()) {
            return refused(Why::InstrumentMissing, "instrument", step.instrument);
        }
        if (instrument == state.yard.instruments.end() || instrument->second.type != step.instrument) {
            return refused(Why::UnknownInstrument, "instrument", step.instrument, request.instrument);
        }
    }
    auto pair = unlockPair(state, by, namesOf(*state.pack, step.by), with, namesOf(*state.pack, step.with));
    if (!pair) {
        return tl::unexpected(pair.error());
    }
    const auto asked = with && !cannot ? evidence::askedOfSecond(*state.pack, index, request.facts) : std::nullopt;
    auto own_answer = state.ownAnswer(asked, request.facts, request.own_answer);
    if (!own_answer) {
        return tl::unexpected(own_answer.error());
    }
    auto facts = state.factsOf(step, request.facts, request.files, "facts", !cannot);
    if (!facts) {
        return tl::unexpected(facts.error());
    }
    Draft draft;
    draft.vessel = vessel;
    draft.kind = ledger::Kind::Evidence;
    draft.attachments = std::move(facts->attachments);
    if (const auto photos = notesOf(*this, state, request, vessel.value_or(VesselId{}), facts->shots); !photos.empty()) {
        draft.payload.set("photos", ledger::written(photos));
    }
    draft.payload.set("facts", std::move(facts->payload)).set("outcome", cannot ? "cannot" : "done").set("step", request.step);
    if (cannot) {
        draft.payload.set("reason", request.cannot);
    }
    if (!request.instrument.empty()) {
        draft.payload.set("instrument", request.instrument);
    }
    const auto written = state.append(inTwo(std::move(draft), **pair, std::move(*own_answer)));
    if (!written) {
        return tl::unexpected(written.error());
    }
    Receipt receipt = receiptOf(*written, !step.with.empty() && !cannot);
    if (of) {
        if (const auto folded = state.fold(of->id, std::nullopt)) {
            receipt.failing = folded->evidence.steps[index].passed == rules::Truth::False;
            state.lookAt(*of, *folded, std::nullopt); // for Yard::seen
        }
    }
    return receipt;
}

Outcome<Receipt> Yard::confirm(const Hash& first, const Signing& second, const Json& own_answer)
{
    State& state = *m_state;
    if (auto writable = state.writable(); !writable) {
        return tl::unexpected(writable.error());
    }
    const auto entry = entryOf(first);
    if (!entry) {
        return tl::unexpected(entry.error());
    }
    if (!state.waitsHere(*entry)) {
        return refused(Why::TooLate, canon::toHex(first));
    }
    std::vector<std::string> roles;
    std::optional<rules::Index> hold_point;
    switch (entry->kind) {
    case ledger::Kind::Evidence: {
        const rules::Index step = state.pack->step(entry->payload.textOf("step"));
        roles = step == rules::kNone ? roles : namesOf(*state.pack, state.pack->steps[step].with);
        break;
    }
    case ledger::Kind::Released: {
        hold_point = state.pack->holdPoint(entry->payload.textOf("hold_point"));
        roles = namesOf(*state.pack, state.pack->hold_points[*hold_point].with);
        break;
    }
    case ledger::Kind::Cleared: {
        const rules::Index stop = state.pack->stop(entry->payload.textOf("stop"));
        roles = stop == rules::kNone ? roles : namesOf(*state.pack, state.pack->stops[stop].cleared_with);
        break;
    }
    default:
        return refused(Why::UnknownEntry, canon::toHex(first));
    }
    std::vector<people::SigningKey> keys;
    keys.reserve(1);
    const auto signer = state.unlock(second, roles, keys);
    if (!signer) {
        return tl::unexpected(signer.error());
    }
    if (signer->person == entry->signer->person) {
        return refused(Why::SamePerson, second.person);
    }
    const Json* values = evidence::valuesOf(*entry);
    auto answer = state.ownAnswer(evidence::askedOfSecond(*state.pack, *entry), values == nullptr ? Json::object() : *values, own_answer);
    if (!answer) {
        return tl::unexpected(answer.error());
    }
    Draft draft;
    draft.vessel = entry->vessel;
    draft.kind = ledger::Kind::Confirmed;
    draft.payload.set("confirms", canon::toHex(first));
    if (!answer->is(canon::Type::Null)) {
        draft.payload.set("answer", std::move(*answer));
    }
    draft.signer = &*signer;
    if (hold_point) {
        const auto imagined = state.imagine(std::span(&draft, 1), entry->vessel);
        if (!imagined) {
            return tl::unexpected(imagined.error());
        }
        if (auto given = wouldRelease(*entry->vessel, *hold_point, *imagined); !given) {
            return tl::unexpected(given.error());
        }
    }
    const auto written = state.append(std::span(&draft, 1), first, hold_point ? State::Judged::Yes : State::Judged::No);
    if (!written) {
        return tl::unexpected(written.error());
    }
    return Receipt{first, written->front(), true, false};
}

Outcome<Receipt> Yard::correct(const Hash& entry, const std::string& why, const Signing& by)
{
    State& state = *m_state;
    if (auto writable = state.writable(); !writable) {
        return tl::unexpected(writable.error());
    }
    if (why.empty()) {
        return refused(Why::MissingFact, "why");
    }
    const auto row = stored(entry);
    if (!row) {
        return tl::unexpected(row.error());
    }
    const auto old = ledger::decode(row->body);
    if (!old || old->kind != ledger::Kind::Evidence) {
        return refused(Why::UnknownEntry, canon::toHex(entry));
    }
    const auto pair = unlockPair(state, by, state.pack->roles, std::nullopt, {});
    if (!pair) {
        return tl::unexpected(pair.error());
    }
    Draft draft;
    draft.vessel = old->vessel;
    draft.kind = ledger::Kind::Corrected;
    draft.payload.set("why", why).set("withdraws", canon::toHex(entry));
    const auto written = state.append(inTwo(std::move(draft), **pair));
    if (!written) {
        return tl::unexpected(written.error());
    }
    return receiptOf(*written, false);
}

Outcome<Receipt> Yard::clear(const std::string& number, const std::string& stop, const std::string& found, const std::string& done,
    const Signing& by, const std::optional<Signing>& with)
{
    State& state = *m_state;
    if (auto writable = state.writable(); !writable) {
        return tl::unexpected(writable.error());
    }
    const auto vessel = state.find(number);
    if (!vessel) {
        return tl::unexpected(vessel.error());
    }
    const rules::Index index = state.pack->stop(stop);
    if (index == rules::kNone) {
        return refused(Why::UnknownStop, "stop", {}, stop);
    }
    if (found.empty() || done.empty()) {
        return refused(Why::MissingFact, found.empty() ? "found" : "done");
    }
    const auto folded = state.fold(vessel->id, std::nullopt);
    if (!folded) {
        return tl::unexpected(folded.error());
    }
    const rules::StopHeld& held = folded->evidence.stops[index];
    if (held.raised == rules::kNoEntry) {
        return refused(Why::NothingToClear, "stop", {}, stop);
    }
    const rules::StopKind& kind = state.pack->stops[index];
    const auto pair = unlockPair(state, by, namesOf(*state.pack, kind.cleared_by), with, namesOf(*state.pack, kind.cleared_with));
    if (!pair) {
        return tl::unexpected(pair.error());
    }
    Draft draft;
    draft.vessel = vessel->id;
    draft.kind = ledger::Kind::Cleared;
    draft.payload.set("done", done).set("found", found).set("raised", canon::toHex(folded->lines[held.raised - 1].hash)).set("stop", stop);
    const auto written = state.append(inTwo(std::move(draft), **pair));
    if (!written) {
        return tl::unexpected(written.error());
    }
    return receiptOf(*written, !kind.cleared_with.empty());
}

Outcome<Receipt> Yard::acceptGap(const std::string& number, const std::string& why, const Signing& by, const Signing& with)
{
    State& state = *m_state;
    if (auto writable = state.writable(); !writable) {
        return tl::unexpected(writable.error());
    }
    if (why.empty()) {
        return refused(Why::MissingFact, "why");
    }
    std::vector<VesselRecord> asked = state.vessels;
    if (!number.empty()) {
        const auto vessel = state.find(number);
        if (!vessel) {
            return tl::unexpected(vessel.error());
        }
        asked = {*vessel};
    }
    std::set<Hash> unknown;
    if (number.empty()) {
        unknown.insert(state.lost.begin(), state.lost.end()); // a yard may have no vessel yet
    }
    for (const VesselRecord& vessel : asked) {
        const auto folded = state.fold(vessel.id, std::nullopt);
        if (!folded) {
            return tl::unexpected(folded.error());
        }
        unknown.insert(folded->unknown_heads.begin(), folded->unknown_heads.end());
    }
    if (unknown.empty()) {
        return refused(Why::NothingToClear, "gap");
    }
    const std::vector<std::string> authorisers{std::string(kAuthoriser)};
    const auto pair = unlockPair(state, by, authorisers, with, state.pack->roles);
    if (!pair) {
        return tl::unexpected(pair.error());
    }
    Json heads = Json::array();
    for (const Hash& head : unknown) {
        heads.items.emplace_back(canon::toHex(head));
    }
    Draft draft;
    if (!number.empty()) {
        draft.vessel = asked.front().id;
    }
    draft.kind = ledger::Kind::GapAccepted;
    draft.payload.set("heads", heads).set("why", why);
    const auto written = state.append(inTwo(std::move(draft), **pair));
    if (!written) {
        return tl::unexpected(written.error());
    }
    const auto accepted = [&](const VesselRecord& one) {
        const auto its = state.fold(one.id, std::nullopt);
        return its && std::ranges::none_of(state.lost, [&](const Hash& hash) {
            return std::ranges::find(its->unknown_heads, hash) != its->unknown_heads.end();
        });
    };
    if (!state.lost.empty() && std::ranges::all_of(state.vessels, accepted)) {
        state.lost.clear(); // every vessel begins again: this machine need not remember them any more
        state.remember();
    }
    return receiptOf(*written, false);
}

Outcome<Receipt> Yard::event(const std::string& number, const std::string& event, const std::string& note, const std::optional<Signing>& by)
{
    State& state = *m_state;
    if (auto writable = state.writable(); !writable) {
        return tl::unexpected(writable.error());
    }
    const auto vessel = state.find(number);
    if (!vessel) {
        return tl::unexpected(vessel.error());
    }
    const rules::Index index = state.pack->event(event);
    if (index == rules::kNone) {
        return refused(Why::UnknownEvent, "event", {}, event);
    }
    if (!state.pack->events[index].device_alone && !by) {
        return refused(Why::NeedsPerson, "event", {}, event);
    }
    Draft draft;
    draft.vessel = vessel->id;
    draft.kind = ledger::Kind::Event;
    draft.payload.set("event", event);
    if (!note.empty()) {
        draft.payload.set("note", note);
    }
    return writeMaybeSigned(std::move(draft), by);
}

Outcome<Receipt> Yard::writeMaybeSigned(Draft draft, const std::optional<Signing>& by)
{
    State& state = *m_state;
    std::vector<people::SigningKey> keys;
    keys.reserve(1);
    Unlocked signer;
    if (by) {
        auto unlocked = state.unlock(*by, state.pack->roles, keys);
        if (!unlocked) {
            return tl::unexpected(unlocked.error());
        }
        signer = *unlocked;
        draft.signer = &signer;
    }
    const auto written = state.append(std::span(&draft, 1));
    if (!written) {
        return tl::unexpected(written.error());
    }
    return receiptOf(*written, false);
}

} // namespace brimful::yard
