#include "core/report/watch.h"

#include "core/report/drawn.h"

#include <algorithm>

namespace brimful::report {

using rules::Index;
using rules::kNone;

namespace {

struct Heat {
    std::uint32_t from{}; // sweeps come after this entry
    std::int64_t from_ms{}; // and not before this moment
    std::int64_t over_ms{}; // known to be over since
    bool told{}; // an event ended it; else it may have gone on until somebody swept
};

std::optional<std::int64_t> msOf(const rules::Pack& pack, std::string_view parameter)
{
    const rules::Parameter* one = pack.parameter(std::string(parameter));
    return one == nullptr ? std::nullopt : std::optional(one->count * 1000);
}

std::int64_t timeOf(const ledger::YardState& yard, const evidence::Folded& folded, std::uint32_t entry)
{
    const ledger::Moment& at = folded.lines[entry - 1].entry.at;
    return yard.trueTime(at).value_or(at.wall_ms);
}

// When the heat of the newest release was over.
std::optional<Heat> heatOf(const rules::Pack& pack, const evidence::Folded& folded, const ledger::YardState& yard, std::int64_t now_ms)
{
    const Index gate = pack.holdPoint(drawn::kHotWork);
    const Index first_heat = pack.step(drawn::kFirstHeat);
    const Index watched = pack.step(drawn::kWatch);
    if (gate == kNone || first_heat == kNone || watched == kNone) {
        return std::nullopt;
    }
    const std::uint32_t heat = folded.evidence.steps[first_heat].entry;
    const rules::StepHeld& signed_off = folded.evidence.steps[watched];
    const rules::ReleaseHeld& release = folded.evidence.releases[gate];
    if (heat == rules::kNoEntry || release.confirmed == rules::kNoEntry) {
        return std::nullopt;
    }
    const bool done = signed_off.entry != rules::kNoEntry && signed_off.entry > heat && signed_off.lack != rules::Lack::Missing
        && signed_off.passed != rules::Truth::False;
    if (done) {
        return std::nullopt;
    }
    const std::int64_t ran_out_ms = release.given_ms + pack.hold_points[gate].lasts_ms;
    if (release.ended_by != rules::kNoEntry) {
        const std::int64_t over = timeOf(yard, folded, release.ended_by);
        if (over < ran_out_ms) { // later it ended nothing any more
            return Heat{release.ended_by, over, over, true};
        }
    }
    Heat out{std::max(heat, release.confirmed), release.given_ms, std::min(now_ms, ran_out_ms), false};
    if (const Index log = logOf(pack, gate); log != kNone && folded.evidence.steps[log].entry != rules::kNoEntry) {
        const rules::StepHeld& logged = folded.evidence.steps[log];
        out.from = std::max(out.from, logged.entry);
        out.from_ms = logged.lack == rules::Lack::Lapsed ? logged.lapses_ms : out.from_ms;
    }
    return out;
}

// Somebody left after the heat was over: the watch counts from after that.
std::optional<Heat> leftAfter(const Heat& heat, const rules::Pack& pack, const evidence::Folded& folded, const ledger::YardState& yard)
{
    std::uint32_t newest = heat.from;
    for (const std::string_view id : {drawn::kPersonLeft, drawn::kWatchEnded}) {
        const Index event = pack.event(id);
        newest = std::max(newest, event == kNone ? rules::kNoEntry : folded.evidence.last_event[event]);
    }
    if (newest == heat.from) {
        return std::nullopt;
    }
    const std::int64_t left_ms = timeOf(yard, folded, newest);
    return Heat{newest, left_ms, left_ms, true};
}

// When somebody watched again: took it over by a record that counts, or swept.
std::optional<std::int64_t> backAfter(const Heat& left, const std::vector<SweepView>& sweeps, const rules::Pack& pack,
    const evidence::Folded& folded, const ledger::YardState& yard)
{
    std::optional<std::int64_t> back;
    if (!sweeps.empty()) {
        back = sweeps.front().at_ms;
    }
    const Index hand_on = pack.step(drawn::kHandOn);
    const rules::StepHeld taken = hand_on == kNone ? rules::StepHeld{} : folded.evidence.steps[hand_on];
    if (taken.entry > left.from && taken.passed == rules::Truth::True) {
        const std::int64_t taken_ms = timeOf(yard, folded, taken.entry);
        back = std::min(back.value_or(taken_ms), taken_ms);
    }
    return back;
}

std::vector<SweepView> sweepsAfter(
    const Heat& heat, const rules::Pack& pack, const evidence::Folded& folded, const VesselId& vessel, const ledger::YardState& yard)
{
    const Index column = pack.fact(drawn::kSwept);
    std::vector<SweepView> sweeps;
    for (std::size_t i = heat.from; i < folded.lines.size(); ++i) {
        const ledger::Line& line = folded.lines[i];
        const canon::Json& payload = line.entry.payload;
        const bool is_sweep = line.entry.vessel == vessel && line.entry.kind == ledger::Kind::Evidence
            && payload.textOf("step") == drawn::kSweep && payload.textOf("outcome") == "done" && !folded.withdrawn.contains(line.hash);
        const std::int64_t at = yard.trueTime(line.entry.at).value_or(line.entry.at.wall_ms);
        const canon::Json* facts = is_sweep && at >= heat.from_ms ? payload.find("facts") : nullptr;
        const canon::Json* rows = facts == nullptr || column == kNone ? nullptr : facts->find(pack.registers[pack.facts[column].reg].key);
        if (rows == nullptr) {
            continue;
        }
        const auto cool =
            std::ranges::count_if(rows->items, [&](const canon::Json& row) { return row.textOf(pack.facts[column].key) == drawn::kCool; });
        sweeps.push_back({at, rows->items.size(), static_cast<std::size_t>(cool)});
    }
    std::ranges::sort(sweeps, {}, &SweepView::at_ms);
    return sweeps;
}

} // namespace

std::int64_t nextSweepMs(std::int64_t since_ms, std::optional<std::int64_t> last_ms, std::int64_t first_ms, std::int64_t most_ms)
{
    if (!last_ms) {
        return since_ms;
    }
    const std::int64_t gone = *last_ms - since_ms;
    return *last_ms + std::min(std::max(gone, first_ms), most_ms);
}

std::int64_t nextSweepMs(const rules::Pack& pack, std::int64_t since_ms, std::optional<std::int64_t> last_ms)
{
    const auto first_ms = msOf(pack, drawn::kSweepFirst);
    const auto most_ms = msOf(pack, drawn::kSweepMost);
    return first_ms && most_ms ? nextSweepMs(since_ms, last_ms, *first_ms, *most_ms) : rules::kNever;
}

std::optional<WatchView> watch(
    const rules::Pack& pack, const evidence::Folded& folded, const VesselId& vessel, const ledger::YardState& yard, std::int64_t now_ms)
{
    auto heat = heatOf(pack, folded, yard, now_ms);
    if (!heat) {
        return std::nullopt;
    }
    WatchView out;
    const auto left = leftAfter(*heat, pack, folded, yard);
    heat = left ? left : heat;
    out.sweeps = sweepsAfter(*heat, pack, folded, vessel, yard);
    if (left) {
        const auto back = backAfter(*left, out.sweeps, pack, folded, yard);
        out.since_ms = back.value_or(left->over_ms);
        out.left_ms = back ? std::nullopt : std::optional(left->over_ms);
    } else {
        out.since_ms = heat->told || out.sweeps.empty() ? heat->over_ms : std::min(heat->over_ms, out.sweeps.front().at_ms);
    }
    out.ends_ms = out.since_ms + msOf(pack, drawn::kWatchLasts).value_or(0);
    if (const auto named = watcher(pack, folded)) {
        const auto person = yard.people.find(*named);
        out.watcher = person == yard.people.end() ? std::string() : person->second.name;
    }
    if (const Index column = pack.fact(drawn::kSwept); column != kNone) {
        out.places = pack.registers[pack.facts[column].reg].members;
        const auto last = out.sweeps.empty() ? std::nullopt : std::optional(out.sweeps.back().at_ms);
        out.next_sweep_ms = nextSweepMs(pack, out.since_ms, last);
        const bool at_once = last || out.left_ms;
        out.sweep_late_ms = at_once ? out.next_sweep_ms : nextSweepMs(pack, out.since_ms, out.since_ms);
    }
    return out;
}

std::optional<PersonId> watcher(const rules::Pack& pack, const evidence::Folded& folded)
{
    std::optional<PersonId> out;
    std::uint32_t newest = 0;
    for (const evidence::FactShown& shown : folded.shown) {
        const rules::Fact& fact = pack.facts[shown.fact];
        const rules::StepHeld& held = folded.evidence.steps[fact.step];
        const bool counts = fact.exclusive && held.lack == rules::Lack::None && held.passed != rules::Truth::False;
        const auto person = counts ? canon::fromHex<PersonId>(shown.value.text) : std::nullopt;
        if (person && held.entry >= newest) {
            newest = held.entry;
            out = person;
        }
    }
    return out;
}

rules::Index logOf(const rules::Pack& pack, rules::Index hold_point)
{
    const auto leansOn = [&](const std::vector<rules::Rule>& rules, Index step) {
        return std::ranges::any_of(rules, [&](const rules::Rule& rule) {
            const auto begin = pack.conditions.begin() + rule.condition;
            return std::any_of(
                begin, begin + begin->size, [step](const rules::Condition& one) { return one.op == rules::Op::Passed && one.a == step; });
        });
    };
    const rules::HoldPoint& gate = pack.hold_points[hold_point];
    for (std::size_t i = 0; i < pack.steps.size(); ++i) {
        const auto step = static_cast<Index>(i);
        if (!pack.steps[i].instrument.empty() && leansOn(gate.require, step) && !leansOn(gate.at_giving, step)) {
            return step;
        }
    }
    return kNone;
}

} // namespace brimful::report
