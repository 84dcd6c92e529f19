// Giving a release and taking it back. A release is first imagined: what would the record say if it were written?
// Only when that answer is "released" is anything written.
#include "core/yard/state.h"

#include "core/quantity/recorded.h"

namespace brimful::yard {

using canon::Json;
using report::Why;

Outcome<void> Yard::wouldRelease(const VesselId& vessel, rules::Index hold_point, const std::vector<ledger::Line>& imagined)
{
    State& state = *m_state;
    const auto folded = state.fold(vessel, std::nullopt, imagined);
    if (!folded) {
        return tl::unexpected(folded.error());
    }
    const auto judged = rules::judgeHoldPoint(*state.pack, folded->evidence, hold_point, {}, true);
    const bool closes = state.pack->hold_points[hold_point].closes;
    if (judged.state == rules::State::Released || (closes && judged.state == rules::State::Closed)) {
        return {};
    }
    report::Refusal refusal;
    refusal.why = Why::Held;
    refusal.path = state.pack->hold_points[hold_point].id;
    refusal.blockers = judged.blockers;
    return tl::unexpected(std::move(refusal));
}

// {serial, head, how} of what was read at the vessel; nothing readable is an error of the call, an old tag is not.
Outcome<Json> Yard::tagPayload(const std::string& text)
{
    const bool typed = text.size() < 16;
    const auto answer = readTag(text);
    if (!answer) {
        return tl::unexpected(answer.error());
    }
    if (!answer->genuine || !answer->as_printed) {
        return refused(Why::BadTag, "tag");
    }
    Json payload = Json::object();
    payload.set("head", canon::toHex(answer->as_printed->head))
        .set("how", typed ? "typed" : "scan")
        .set("serial", answer->as_printed->serial);
    return payload;
}

Outcome<Receipt> Yard::release(const ReleaseRequest& request, const Signing& by, const std::optional<Signing>& with)
{
    State& state = *m_state;
    if (auto writable = state.writable(); !writable) {
        return tl::unexpected(writable.error());
    }
    const auto vessel = state.find(request.vessel);
    if (!vessel) {
        return tl::unexpected(vessel.error());
    }
    const rules::Index index = state.pack->holdPoint(request.hold_point);
    if (index == rules::kNone) {
        return refused(Why::UnknownHoldPoint, "hold_point", {}, request.hold_point);
    }
    if (auto known = state.timeKnown(); !known) {
        return tl::unexpected(known.error());
    }
    const rules::HoldPoint& hold_point = state.pack->hold_points[index];
    Draft draft;
    draft.vessel = vessel->id;
    draft.kind = ledger::Kind::Released;
    draft.payload.set("hold_point", request.hold_point);
    if (hold_point.talk != rules::kNone) {
        auto answers = state.factsOf(state.pack->steps[hold_point.talk], request.answers, {}, "answers", true);
        if (!answers) {
            return tl::unexpected(answers.error());
        }
        draft.payload.set("answers", std::move(answers->payload));
    }
    if (!request.tag.empty()) {
        auto tag = tagPayload(request.tag);
        if (!tag) {
            return tl::unexpected(tag.error());
        }
        draft.tag = tag->integerOf("serial");
        draft.payload.set("tag", std::move(*tag));
    }

    if (with && with->person == by.person) {
        return refused(Why::SamePerson, by.person);
    }
    std::vector<people::SigningKey> keys;
    keys.reserve(2);
    const auto giver = state.unlock(by, namesOf(*state.pack, hold_point.by), keys);
    if (!giver) {
        return tl::unexpected(giver.error());
    }
    draft.signer = &*giver;
    std::vector<Draft> drafts{draft};
    Draft second;
    second.vessel = vessel->id;
    second.kind = ledger::Kind::Confirmed;
    second.confirms_previous = true;
    Outcome<Unlocked> taker = Unlocked{};
    if (with) {
        taker = state.unlock(*with, namesOf(*state.pack, hold_point.with), keys);
    } else {
        taker = somebodyElse(giver->person, hold_point); // only to imagine: who could accept it?
    }
    if (!taker) {
        return tl::unexpected(taker.error());
    }
    second.signer = &*taker;
    drafts.push_back(second);

    const auto imagined = state.imagine(drafts, vessel->id);
    if (!imagined) {
        return tl::unexpected(imagined.error());
    }
    if (auto given = wouldRelease(vessel->id, index, *imagined); !given) {
        return tl::unexpected(given.error());
    }
    const Json* answers = draft.payload.find("answers");
    const auto asked = with && answers != nullptr ? evidence::askedOfSecond(*state.pack, hold_point.talk, *answers) : std::nullopt;
    auto own_answer = state.ownAnswer(asked, answers == nullptr ? Json::object() : *answers, request.own_answer);
    if (!own_answer) {
        return tl::unexpected(own_answer.error());
    }
    if (!with) {
        drafts.pop_back();
    } else if (!own_answer->is(canon::Type::Null)) {
        drafts.back().payload.set("answer", std::move(*own_answer));
    }
    const auto written = state.append(drafts, std::nullopt, State::Judged::Yes);
    if (!written) {
        return tl::unexpected(written.error());
    }
    Receipt receipt;
    receipt.entry = written->front();
    receipt.counts = written->size() > 1;
    if (receipt.counts) {
        receipt.confirmed = written->back();
    }
    return receipt;
}

Outcome<Unlocked> Yard::somebodyElse(const PersonId& giver, const rules::HoldPoint& hold_point) const
{
    for (const auto& [id, person] : m_state->yard.people) {
        for (const std::string& role : namesOf(*m_state->pack, hold_point.with)) {
            if (id != giver && !person.retired && m_state->yard.mayActAs(id, role, m_state->nowMs())) {
                return Unlocked{id, person.name, role, nullptr};
            }
        }
    }
    return refused(Why::NeedsTwo, hold_point.id);
}

Outcome<Receipt> Yard::withdraw(
    const std::string& number, const std::string& hold_point, const std::string& why, const std::optional<Signing>& by)
{
    State& state = *m_state;
    if (auto writable = state.writable(); !writable) {
        return tl::unexpected(writable.error());
    }
    const auto vessel = state.find(number);
    if (!vessel) {
        return tl::unexpected(vessel.error());
    }
    const rules::Index index = state.pack->holdPoint(hold_point);
    if (index == rules::kNone) {
        return refused(Why::UnknownHoldPoint, "hold_point", {}, hold_point);
    }
    const auto folded = state.fold(vessel->id, std::nullopt);
    if (!folded) {
        return tl::unexpected(folded.error());
    }
    if (folded->evidence.releases[index].offered == rules::kNoEntry) {
        return refused(Why::NothingToWithdraw, "hold_point", {}, hold_point);
    }
    Draft draft;
    draft.vessel = vessel->id;
    draft.kind = ledger::Kind::Withdrawn;
    draft.payload.set("hold_point", hold_point);
    if (!why.empty()) {
        draft.payload.set("why", why);
    }
    return writeMaybeSigned(std::move(draft), by);
}

} // namespace brimful::yard
