// What the questions need of an entry.
#include "core/report/questions.h"
#include "core/report/shell.h"

#include <algorithm>

namespace brimful::report {

using ledger::Kind;
using rules::kNone;

namespace {

void noteFacts(const rules::Pack& pack, const canon::Json& payload, Noted& out)
{
    const canon::Json* facts = payload.find("facts");
    if (out.what == kNone || facts == nullptr) {
        return;
    }
    for (const rules::Index index : pack.steps[out.what].facts) {
        const rules::Fact& fact = pack.facts[index];
        const bool wanted =
            fact.kind == rules::FactKind::Quantity && fact.reg == kNone && (fact.varies || fact.dimension == quantity::Dimension::Duration);
        const canon::Json* value = wanted ? facts->find(fact.key) : nullptr;
        if (value != nullptr && value->is(canon::Type::Object)) {
            out.told.push_back({index, value->integerOf("count"), std::string(value->textOf("typed"))});
        }
    }
}

} // namespace

Noted noted(const rules::Pack& pack, const ledger::Line& line)
{
    const ledger::Entry& entry = line.entry;
    Noted out{
        line.hash, entry.kind, entry.vessel, {}, {}, std::nullopt, entry.device, entry.seq, entry.at, line.beside, kNone, false, {}, {}};
    if (entry.signer) {
        out.person = entry.signer->person;
    }
    switch (entry.kind) {
    case Kind::VesselAdmitted:
        out.number = entry.payload.textOf("number");
        out.capacity_m3 = shellOf(pack, {}, entry.payload.find("vessel")).capacity_m3;
        out.vessel.emplace();
        std::copy_n(line.hash.value.begin(), out.vessel->value.size(), out.vessel->value.begin());
        break;
    case Kind::Evidence:
        out.what = pack.step(entry.payload.textOf("step"));
        out.cannot = entry.payload.textOf("outcome") == "cannot";
        noteFacts(pack, entry.payload, out);
        break;
    case Kind::Event:
        out.what = pack.event(entry.payload.textOf("event"));
        break;
    case Kind::Released:
        out.what = pack.holdPoint(entry.payload.textOf("hold_point"));
        break;
    case Kind::Confirmed:
        out.names = canon::fromHex<Hash>(entry.payload.textOf("confirms"));
        break;
    case Kind::Corrected:
        out.names = canon::fromHex<Hash>(entry.payload.textOf("withdraws"));
        break;
    default:
        break;
    }
    return out;
}

std::string_view questionWord(Question::What what)
{
    switch (what) {
    case Question::What::SoonerThanItTakes:
        return "sooner-than-it-takes";
    case Question::What::SoonerThanItSays:
        return "sooner-than-it-says";
    case Question::What::SignedTogether:
        return "signed-together";
    case Question::What::JustBeforeRelease:
        return "just-before-release";
    case Question::What::SameValue:
        return "same-value";
    case Question::What::SamePair:
        return "same-pair";
    case Question::What::NothingFound:
        return "nothing-found";
    }
    return {};
}

} // namespace brimful::report
