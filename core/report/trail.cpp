// The vessel's entries as a line of time.
#include "core/report/view.h"

#include "core/evidence/own_answer.h"

#include <algorithm>
#include <set>

namespace brimful::report {

namespace {

std::string nameOf(const ledger::YardState& yard, const ledger::Entry& entry)
{
    if (!entry.signer) {
        return {};
    }
    const auto person = yard.people.find(entry.signer->person);
    return person == yard.people.end() ? std::string("?") : person->second.name;
}

std::string freeText(const canon::Json& payload)
{
    for (const std::string_view key : {"why", "note", "found", "reason", "number"}) {
        if (const std::string_view text = payload.textOf(key); !text.empty()) {
            return std::string(text);
        }
    }
    return {};
}

// Entries that a second person signed.
std::set<Hash> confirmedIn(const evidence::Folded& folded)
{
    std::set<Hash> out;
    for (const ledger::Line& line : folded.lines) {
        if (line.entry.kind == ledger::Kind::Confirmed) {
            if (const auto hash = canon::fromHex<Hash>(line.entry.payload.textOf("confirms"))) {
                out.insert(*hash);
            }
        }
    }
    return out;
}

bool needsSecond(const rules::Pack& pack, const ledger::Entry& entry)
{
    if (entry.kind == ledger::Kind::Released) {
        return true;
    }
    if (entry.kind != ledger::Kind::Evidence || entry.payload.textOf("outcome") == "cannot") {
        return false;
    }
    const rules::Index step = pack.step(entry.payload.textOf("step"));
    return step != rules::kNone && !pack.steps[step].with.empty();
}

// What the second person gave himself, told of the step that the first entry records.
void tellAnswer(TrailLine& out, const rules::Pack& pack, const evidence::Folded& folded, const ledger::Entry& second)
{
    const auto answer = ledger::ownAnswer(second.payload);
    if (!answer || !*answer) {
        return;
    }
    const auto confirms = canon::fromHex<Hash>(second.payload.textOf("confirms"));
    const auto first = std::ranges::find_if(folded.lines, [&](const ledger::Line& line) { return confirms && line.hash == *confirms; });
    const auto asked = first == folded.lines.end() ? std::nullopt : evidence::askedBy(pack, evidence::stepOf(pack, first->entry), **answer);
    out.answered = asked ? pack.facts[asked->fact].id : (*answer)->fact;
    out.answered_row = (*answer)->row;
    out.answer = (*answer)->value;
}

} // namespace

std::vector<TrailLine> trail(const rules::Pack& pack, const evidence::Folded& folded, const VesselId& vessel, const ledger::YardState& yard)
{
    const std::set<Hash> confirmed = confirmedIn(folded);
    std::vector<TrailLine> lines;
    std::size_t reach = 0;
    for (std::size_t i = 0; i < folded.lines.size(); ++i) {
        const ledger::Line& line = folded.lines[i];
        const ledger::Entry& entry = line.entry;
        const bool admits =
            entry.kind == ledger::Kind::VesselAdmitted && std::equal(vessel.value.begin(), vessel.value.end(), line.hash.value.begin());
        // What was accepted or joined for the whole yard shows in every vessel.
        const bool for_all = !entry.vessel && (entry.kind == ledger::Kind::GapAccepted || entry.kind == ledger::Kind::ForkJoined);
        if (entry.vessel != vessel && !admits && !for_all) {
            continue;
        }
        TrailLine out;
        out.hash = line.hash;
        out.kind = entry.kind;
        out.at = entry.at;
        out.true_ms = yard.trueTime(entry.at);
        out.person = nameOf(yard, entry);
        out.role = entry.signer ? entry.signer->role : std::string();
        out.step = entry.payload.textOf("step");
        out.hold_point = entry.payload.textOf("hold_point");
        out.event = entry.payload.textOf("event");
        out.stop = entry.payload.textOf("stop");
        out.what = freeText(entry.payload);
        out.photos = ledger::photosOf(entry.payload, entry.attachments).value_or(ledger::PhotoNotes{});
        if (entry.kind == ledger::Kind::Confirmed) {
            tellAnswer(out, pack, folded, entry);
        }
        out.counts = !folded.withdrawn.contains(line.hash) && (!needsSecond(pack, entry) || confirmed.contains(line.hash));
        const rules::Index step = pack.step(out.step);
        if (step != rules::kNone) {
            const rules::StepHeld& held = folded.evidence.steps[step];
            out.failing = held.entry == i + 1 && held.passed == rules::Truth::False;
            out.fell_back = pack.steps[step].stage < reach;
            reach = pack.steps[step].stage;
        } else if (const rules::Index hold_point = pack.holdPoint(out.hold_point); hold_point != rules::kNone) {
            reach = pack.hold_points[hold_point].stage;
        }
        const rules::Index event = pack.event(out.event);
        if (event != rules::kNone) {
            for (const rules::Step& voided : pack.steps) {
                if (std::ranges::find(voided.voided_by, event) != voided.voided_by.end() && voided.stage < reach) {
                    out.fell_back = true;
                    reach = voided.stage;
                }
            }
        }
        out.reach = reach;
        lines.push_back(std::move(out));
    }
    return lines;
}

} // namespace brimful::report
