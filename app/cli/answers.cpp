// The JSON that scripts rely on.
#include "app/cli/commands.h"

#include "core/yard/iso_time.h"

namespace brimful::cli {

using canon::Json;

namespace {

Json timeOf(std::int64_t ms) { return ms == rules::kNever ? Json() : Json(yard::formatTime(ms)); }

std::string_view truthWord(rules::Truth truth)
{
    switch (truth) {
    case rules::Truth::True:
        return "true";
    case rules::Truth::Unknown:
        return "unknown";
    case rules::Truth::False:
        return "false";
    }
    return "unknown";
}

std::string nextId(const rules::Pack& pack, const rules::Next& next)
{
    switch (next.what) {
    case rules::Next::What::Step:
        return pack.steps[next.index].id;
    case rules::Next::What::Clear:
        return "clear " + pack.stops[next.index].id;
    case rules::Next::What::Release:
        return "release " + pack.hold_points[next.index].id;
    case rules::Next::What::ConfirmClock:
        return "confirm-clock";
    case rules::Next::What::AcceptGap:
        return "accept-gap";
    case rules::Next::What::JoinFork:
        return "join-fork";
    }
    return {};
}

} // namespace

Json blockerJson(const report::BlockerShown& blocker)
{
    Json out = Json::object();
    out.set("rule", blocker.rule).set("leaf", blocker.leaf).set("status", blocker.status);
    out.set("entry", blocker.entry ? Json(canon::toHex(*blocker.entry)) : Json())
        .set("needed", blocker.needed)
        .set("barrier", blocker.barrier);
    return out;
}

Json boardJson(const rules::Pack& pack, const std::vector<report::BoardRow>& board)
{
    Json vessels = Json::array();
    for (const report::BoardRow& row : board) {
        const rules::Standing& standing = row.view->standing;
        Json one = Json::object();
        one.set("id", row.view->number).set("standing", report::stateWord(standing.state));
        one.set("next", standing.next.empty() ? std::string() : nextId(pack, standing.next.front()));
        one.set("until", timeOf(standing.until_ms));
        vessels.items.push_back(one);
    }
    Json out = Json::object();
    out.set("vessels", vessels);
    return out;
}

Json standingJson(const rules::Pack& pack, const evidence::Folded& folded, const report::VesselView& view, const text::Reading& /*reading*/)
{
    const rules::Standing& standing = view.standing;
    Json steps = Json::array();
    for (std::size_t i = 0; i < pack.steps.size(); ++i) {
        if (pack.steps[i].talk_of != rules::kNone || !standing.steps[i].asked) {
            continue;
        }
        Json one = Json::object();
        one.set("id", pack.steps[i].id)
            .set("state", truthWord(standing.steps[i].passed))
            .set("lack", report::lackWord(standing.steps[i].lack));
        one.set("lapses_at", timeOf(standing.steps[i].lapses_ms));
        steps.items.push_back(one);
    }
    Json gates = Json::array();
    for (std::size_t i = 0; i < pack.hold_points.size(); ++i) {
        Json blockers = Json::array();
        for (const rules::Blocker& blocker :
            rules::judgeHoldPoint(pack, folded.evidence, static_cast<rules::Index>(i), {}, false).blockers) {
            blockers.items.push_back(blockerJson(report::shown(pack, folded, blocker)));
        }
        Json one = Json::object();
        one.set("id", pack.hold_points[i].id).set("state", report::stateWord(standing.hold_points[i].state));
        one.set("until", timeOf(standing.hold_points[i].until_ms)).set("blockers", blockers);
        gates.items.push_back(one);
    }
    Json next = Json::array();
    for (const rules::Next& one : standing.next) {
        next.items.emplace_back(nextId(pack, one));
    }
    Json out = Json::object();
    out.set("vessel", view.number).set("standing", report::stateWord(standing.state)).set("until", timeOf(standing.until_ms));
    out.set("steps", steps).set("hold_points", gates).set("next", next);
    out.set("pack", canon::toHex(pack.together()))
        .set("head", canon::toHex(view.head))
        .set("clock", folded.evidence.clock_trusted ? "confirmed" : "unconfirmed");
    return out;
}

Json partsJson(const std::vector<rules::PackPart>& parts)
{
    Json out = Json::array();
    for (const rules::PackPart& part : parts) {
        Json one = Json::object();
        one.set("id", part.id).set("version", part.version).set("hash", canon::toHex(part.hash));
        out.items.push_back(std::move(one));
    }
    return out;
}

Json auditJson(const report::Audit& audit)
{
    Json requirements = Json::array();
    for (const report::RequirementShown& requirement : audit.requirements) {
        Json evidence = Json::array();
        for (const report::EvidenceShown& shown : requirement.evidence) {
            Json one = Json::object();
            one.set("step", shown.step).set("fact", shown.fact).set("value", shown.value).set("status", report::lackWord(shown.lack));
            one.set("by", shown.person).set("with", shown.second).set("instrument", shown.instrument);
            one.set("at", shown.at_ms == 0 ? Json() : timeOf(shown.at_ms))
                .set("age_s", shown.age_ms / 1000)
                .set("lapses_at", timeOf(shown.lapses_ms));
            one.set("entry", shown.entry.isZero() ? Json() : Json(canon::toHex(shown.entry)));
            if (shown.photo) {
                one.set("photo", ledger::written({{Hash{}, *shown.photo}}).members.front().value);
            }
            evidence.items.push_back(one);
        }
        Json one = Json::object();
        one.set("rule", requirement.rule).set("list", report::listWord(requirement.list)).set("barrier", requirement.barrier);
        one.set("truth", truthWord(requirement.truth)).set("evidence", evidence);
        requirements.items.push_back(one);
    }
    Json blockers = Json::array();
    for (const report::BlockerShown& blocker : audit.blockers) {
        blockers.items.push_back(blockerJson(blocker));
    }
    Json verified = Json::object();
    verified.set("intact", Json::boolean(audit.verified.intact())).set("entries", static_cast<std::int64_t>(audit.verified.entries));
    verified.set("signatures", static_cast<std::int64_t>(audit.verified.signatures));
    Json out = Json::object();
    out.set("vessel", audit.view.number)
        .set("hold_point", audit.hold_point)
        .set("released", Json::boolean(audit.released))
        .set("state", report::stateWord(audit.state));
    out.set("until", timeOf(audit.until_ms)).set("given_by", audit.given_by).set("given_with", audit.given_with);
    out.set("requirements", requirements).set("blockers", blockers).set("head", canon::toHex(audit.view.head));
    Json ruled = Json::array();
    for (const report::PacksRuled& one : audit.ruled) {
        Json then = Json::object();
        then.set("from", timeOf(one.from_ms)).set("law", one.law).set("packs", partsJson(one.parts));
        ruled.items.push_back(std::move(then));
    }
    out.set("pack", canon::toHex(audit.packs))
        .set("law", audit.law)
        .set("packs", partsJson(audit.parts))
        .set("packs_ruled", std::move(ruled));
    out.set("clock", audit.clock).set("verified", verified);
    out.set("recovery_used", Json::boolean(audit.recovery_used));
    return out;
}

} // namespace brimful::cli
