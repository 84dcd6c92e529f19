// Tags: printing is an entry first, its hash the head on the tag; reading one tells how far the record must have come.
#include "core/yard/state.h"

#include "core/report/view.h"

#include <algorithm>

namespace brimful::yard {

using report::Why;

namespace {

constexpr std::string_view kTagLost = "tag-lost"; // event of the pack
constexpr std::string_view kConcern = "concern";

constexpr std::string_view kStateWords[] = {"held", "released", "stopped", "refused", "closed", "fire-watch", "draining"};

tag::TagState stateOf(const report::VesselView& view)
{
    switch (view.word) {
    case report::PlateWord::Released:
        return tag::TagState::Released;
    case report::PlateWord::FireWatch:
        return tag::TagState::FireWatch;
    case report::PlateWord::Draining:
        return tag::TagState::Draining;
    case report::PlateWord::Stopped:
        return tag::TagState::Stopped;
    case report::PlateWord::Refused:
    case report::PlateWord::NotOurs:
        return tag::TagState::Refused;
    case report::PlateWord::ClosedOut:
        return tag::TagState::Closed;
    case report::PlateWord::Held:
    case report::PlateWord::RecordDamaged:
    case report::PlateWord::ClockUnknown:
        return tag::TagState::Held;
    }
    return tag::TagState::Held;
}

std::string_view wordOf(tag::TagState state) { return kStateWords[static_cast<std::size_t>(state) - 1]; }

tag::TagState stateByWord(std::string_view word)
{
    const auto found = std::ranges::find(kStateWords, word);
    return static_cast<tag::TagState>(found - std::begin(kStateWords) + 1);
}

// Everything on a tag follows from its entry, so that a reprint has the same bytes.
tag::Facts factsOf(const ledger::Line& line, const Yard::State& state, const VesselRecord& vessel)
{
    tag::Facts facts;
    facts.yard = state.yard.yard;
    facts.vessel = vessel.id;
    facts.number = vessel.number;
    facts.serial = line.entry.payload.integerOf("serial");
    facts.head = line.hash;
    facts.issued_ms = line.entry.at.wall_ms;
    facts.offset_minutes = static_cast<std::int32_t>(line.entry.payload.integerOf("offset"));
    facts.state = stateByWord(line.entry.payload.textOf("state"));
    facts.until_ms = line.entry.payload.integerOf("until");
    facts.device = line.entry.device;
    facts.demo = state.yard.play;
    return facts;
}

PrintedTag printedOf(const tag::Facts& facts, const people::Device& device)
{
    return {facts.serial, facts, tag::write(facts, device), tag::shortCode(facts.head)};
}

} // namespace

Outcome<PrintedTag> Yard::printTag(const std::string& number, const std::string& label, int offset_minutes, bool again)
{
    State& state = *m_state;
    if (auto writable = state.writable(); !writable) {
        return tl::unexpected(writable.error());
    }
    const auto vessel = state.find(number);
    if (!vessel) {
        return tl::unexpected(vessel.error());
    }
    const auto folded = state.fold(vessel->id, std::nullopt);
    if (!folded) {
        return tl::unexpected(folded.error());
    }
    if (again && folded->newest_tag) {
        return printedOf(factsOf(folded->lines[*folded->newest_tag - 1], state, *vessel), *state.device);
    }
    const auto view = this->vessel(number);
    if (!view) {
        return tl::unexpected(view.error());
    }
    Draft draft;
    draft.vessel = vessel->id;
    draft.kind = ledger::Kind::TagPrinted;
    draft.payload.set("label", label).set("offset", offset_minutes);
    draft.payload.set("serial", view->newest_tag.value_or(0) + 1).set("state", std::string(wordOf(stateOf(*view))));
    if (view->standing.state == rules::State::Released && view->standing.until_ms != rules::kNever) {
        draft.payload.set("hold_point", state.pack->hold_points[view->standing.hold_point].id);
        draft.payload.set("until", view->standing.until_ms);
    }
    const auto written = state.append(std::span(&draft, 1));
    if (!written) {
        return tl::unexpected(written.error());
    }
    const auto row = stored(written->front());
    const auto entry = row ? ledger::decode(row->body) : tl::unexpected(ledger::EntryError{});
    if (!row || !entry) {
        return refused(Why::Damaged, number);
    }
    return printedOf(factsOf({written->front(), *entry}, state, *vessel), *state.device);
}

// What a genuine tag means here: newest, still so, and does the record know its head?
TagAnswer Yard::answerTo(const tag::Facts& facts)
{
    State& state = *m_state;
    TagAnswer answer;
    answer.genuine = true;
    answer.as_printed = facts;
    answer.this_yard = std::equal(facts.yard.value.begin(), facts.yard.value.begin() + 4, state.yard.yard.value.begin());
    answer.vessel = facts.number;
    const auto known = state.ledger.byHash(facts.head);
    answer.head_known = known && known->has_value();
    const auto view = vessel(facts.number);
    if (view) {
        answer.newest = view->id == facts.vessel && view->newest_tag == facts.serial;
        const bool released = facts.state != tag::TagState::Released || view->standing.state == rules::State::Released;
        answer.still_true = answer.newest && answer.head_known && released && stateOf(*view) == facts.state;
    }
    const auto lines = view ? state.history(view->id) : tl::unexpected(report::Refusal{});
    answer.lost = lines && std::ranges::any_of(*lines, [&](const ledger::Line& line) {
        return line.entry.vessel == facts.vessel && line.entry.kind == ledger::Kind::Event && line.entry.tag == facts.serial
            && line.entry.payload.textOf("event") == kTagLost;
    });
    return answer;
}

Outcome<TagAnswer> Yard::readTag(const std::string& text)
{
    State& state = *m_state;
    if (text.size() >= 16) {
        const auto facts = tag::read(text, state.yard.devices);
        if (!facts) {
            TagAnswer answer;
            answer.fault = facts.error();
            return answer;
        }
        return answerTo(*facts);
    }
    // Typed from a card: the short code of a tag-printed entry.
    const auto symbols = tag::readShortCode(text);
    if (!symbols) {
        return refused(Why::BadCode, "tag", {}, text);
    }
    for (const VesselRecord& vessel : state.vessels) {
        const auto lines = state.history(vessel.id);
        if (!lines) {
            return tl::unexpected(lines.error());
        }
        for (const ledger::Line& line : *lines) {
            if (line.entry.vessel == vessel.id && line.entry.kind == ledger::Kind::TagPrinted && tag::matches(*symbols, line.hash)) {
                return answerTo(factsOf(line, state, vessel));
            }
        }
    }
    return TagAnswer{}; // a well-formed code that no entry here has
}

Outcome<Receipt> Yard::loseTag(const std::string& number, const std::string& note, const std::optional<Signing>& by)
{
    State& state = *m_state;
    if (auto writable = state.writable(); !writable) {
        return tl::unexpected(writable.error());
    }
    const auto view = vessel(number);
    if (!view) {
        return tl::unexpected(view.error());
    }
    if (!view->newest_tag) {
        return refused(Why::NothingToClear, "tag", {}, number);
    }
    Draft draft;
    draft.vessel = view->id;
    draft.kind = ledger::Kind::Event;
    draft.payload.set("event", std::string(kTagLost));
    if (!note.empty()) {
        draft.payload.set("note", note);
    }
    draft.tag = *view->newest_tag;
    return writeMaybeSigned(std::move(draft), by);
}

Outcome<Receipt> Yard::misplacedTag(
    const std::string& text, const std::string& found_on, const std::string& note, const std::optional<Signing>& by)
{
    State& state = *m_state;
    if (auto writable = state.writable(); !writable) {
        return tl::unexpected(writable.error());
    }
    const auto answer = readTag(text);
    if (!answer) {
        return tl::unexpected(answer.error());
    }
    if (!answer->genuine || !answer->this_yard) {
        return refused(Why::BadTag, "tag");
    }
    const auto hangs_on = state.find(found_on);
    if (!hangs_on) {
        return tl::unexpected(hangs_on.error());
    }
    if (answer->as_printed->vessel == hangs_on->id) {
        return refused(Why::NothingToClear, "tag", {}, found_on);
    }
    if (auto read = recordTag(text, "scan", by); !read) {
        return tl::unexpected(read.error());
    }
    Outcome<Receipt> done = refused(Why::UnknownVessel, "vessel", {}, answer->vessel);
    for (const std::string& number : {answer->vessel, found_on}) { // either may have been taken for the other
        done = event(number, std::string(kConcern), note, by);
        if (!done) {
            return done;
        }
    }
    return done;
}

Outcome<TagAnswer> Yard::recordTag(const std::string& text, const std::string& how, const std::optional<Signing>& by)
{
    State& state = *m_state;
    if (auto writable = state.writable(); !writable) {
        return tl::unexpected(writable.error());
    }
    auto answer = readTag(text);
    if (!answer || !answer->genuine || !answer->this_yard) {
        return answer;
    }
    const auto vessel = state.find(answer->vessel);
    if (!vessel) {
        return tl::unexpected(vessel.error());
    }
    Draft draft;
    draft.vessel = vessel->id;
    draft.kind = ledger::Kind::TagRead;
    draft.payload.set("genuine", 1).set("head", canon::toHex(answer->as_printed->head)).set("how", how);
    draft.payload.set("number", answer->vessel).set("serial", answer->as_printed->serial);
    draft.tag = answer->as_printed->serial;
    if (auto written = writeMaybeSigned(std::move(draft), by); !written) {
        return tl::unexpected(written.error());
    }
    return answer;
}

} // namespace brimful::yard
