#include "core/report/view.h"

#include "core/quantity/recorded.h"
#include "core/report/drawn.h"
#include "core/report/shell.h"
#include "core/report/watch.h"

#include <algorithm>
#include <limits>
#include <set>

namespace brimful::report {

using rules::Index;
using rules::kNone;
using rules::Lack;
using rules::Truth;

namespace {

struct Looker {
    const rules::Pack& pack;
    const evidence::Folded& folded;

    [[nodiscard]] const rules::StepHeld* step(std::string_view id) const
    {
        const Index index = pack.step(id);
        return index == kNone ? nullptr : &folded.evidence.steps[index];
    }
    [[nodiscard]] Sight sight(std::string_view step_id) const
    {
        const rules::StepHeld* held = step(step_id);
        if (held == nullptr || held->entry == rules::kNoEntry) {
            return Sight::Unknown;
        }
        if (held->lack == Lack::None) {
            return held->passed == Truth::True ? Sight::Proven : Sight::Believed;
        }
        return held->lack == Lack::Missing ? Sight::Believed : Sight::Lapsed;
    }
    [[nodiscard]] std::vector<const evidence::FactShown*> shown(std::string_view fact_id) const
    {
        const Index index = pack.fact(fact_id);
        std::vector<const evidence::FactShown*> found;
        for (const evidence::FactShown& one : folded.shown) {
            if (index != kNone && one.fact == index) {
                found.push_back(&one);
            }
        }
        return found;
    }
    [[nodiscard]] std::string text(std::string_view fact_id) const
    {
        const auto found = shown(fact_id);
        return found.empty() ? std::string() : found.front()->value.text;
    }
    [[nodiscard]] std::optional<double> si(std::string_view fact_id) const
    {
        const auto found = shown(fact_id);
        if (found.empty() || !found.front()->count) {
            return std::nullopt;
        }
        return quantity::siOf(*found.front()->count, pack.facts[found.front()->fact].unit);
    }
    [[nodiscard]] std::uint32_t lastEvent(std::string_view id) const
    {
        const Index index = pack.event(id);
        return index == kNone ? rules::kNoEntry : folded.evidence.last_event[index];
    }
    [[nodiscard]] std::uint32_t entryOf(std::string_view step_id) const
    {
        const rules::StepHeld* held = step(step_id);
        return held == nullptr ? rules::kNoEntry : held->entry;
    }
};

OpeningState openingState(const std::string& word)
{
    return word == "open"   ? OpeningState::Open
        : word == "plugged" ? OpeningState::Plugged
        : word == "stuck"   ? OpeningState::Stuck
                            : OpeningState::Unknown;
}

std::vector<OpeningView> openingsOf(const Looker& look, const WaterView& water)
{
    std::vector<OpeningView> openings;
    const std::string rows(drawn::kOpeningRows);
    const std::string vent = look.text(drawn::kVent);
    for (const evidence::FactShown* state : look.shown(rows + ".state")) {
        OpeningView opening;
        opening.name = state->member;
        opening.state = openingState(state->value.text);
        opening.sight = look.sight(drawn::kOpenings);
        for (const evidence::FactShown* place : look.shown(rows + ".from-left-tangent")) {
            if (place->member == opening.name && place->count) {
                opening.from_left_tangent_m = quantity::siOf(*place->count, "100nm");
            }
        }
        for (const evidence::FactShown* clock : look.shown(rows + ".clock")) {
            if (clock->member == opening.name && clock->count) {
                opening.clock_deg = static_cast<double>(*clock->count) / 1000.0;
            }
        }
        if (opening.state == OpeningState::Open && water.state == WaterState::Brim && opening.name == vent) {
            opening.state = OpeningState::Brim;
        }
        openings.push_back(std::move(opening));
    }
    return openings;
}

// Water, from what was recorded last: to the brim, being let out, or out.
WaterView waterOf(const Looker& look)
{
    WaterView water;
    const std::uint32_t brim = look.entryOf(drawn::kBrim);
    const std::uint32_t fill = look.entryOf(drawn::kFillOne);
    const std::uint32_t out = look.entryOf(drawn::kLettingOut);
    const std::uint32_t cut = look.entryOf(drawn::kFirstOpening);
    if (out > brim && out != rules::kNoEntry) {
        water.state = look.step(drawn::kLettingOut)->passed == Truth::True ? WaterState::Empty : WaterState::Part;
        water.sight = look.sight(drawn::kLettingOut);
        water.fraction = water.state == WaterState::Empty ? 0.0 : 0.45;
    } else if (brim != rules::kNoEntry) {
        water.state = cut > brim ? WaterState::Part : WaterState::Brim;
        water.sight = look.sight(drawn::kBrim);
        water.fraction = cut > brim ? 0.6 : 1.0;
        if (const auto pocket = look.si(drawn::kPocket)) {
            water.pocket_L = *pocket * 1000.0;
        }
    } else if (fill != rules::kNoEntry) {
        water.state = WaterState::Empty;
        water.sight = look.sight(drawn::kFillOne);
    }
    return water;
}

std::vector<PlaceView> placesOf(const Looker& look, std::string_view step_id, const std::string& gas_id, const std::string& oxygen_id)
{
    const rules::StepHeld* held = look.step(step_id);
    std::vector<PlaceView> places;
    if (held == nullptr || held->entry == rules::kNoEntry) {
        return places;
    }
    PlaceState state = PlaceState::Fresh;
    switch (held->lack) {
    case Lack::None:
        state = held->passed == Truth::False ? PlaceState::Failing
            : held->passed == Truth::Unknown ? PlaceState::Unbelievable
                                             : PlaceState::Fresh;
        break;
    case Lack::Conflict:
        state = PlaceState::Conflict;
        break;
    case Lack::Instrument:
        state = PlaceState::Unbelievable;
        break;
    case Lack::Missing:
        state = PlaceState::Missing;
        break;
    default:
        state = PlaceState::Lapsed;
        break;
    }
    for (const evidence::FactShown* gas : look.shown(gas_id)) {
        PlaceView place{gas->member, state, gas->count, std::nullopt};
        for (const evidence::FactShown* oxygen : look.shown(oxygen_id)) {
            if (oxygen->member == gas->member) {
                place.oxygen = oxygen->count;
            }
        }
        places.push_back(std::move(place));
    }
    return places;
}

std::vector<StageView> stagesOf(const rules::Pack& pack, const rules::Standing& standing)
{
    std::vector<StageView> stages;
    for (std::size_t s = 0; s < pack.stages.size(); ++s) {
        StageView stage{pack.stages[s], {}};
        for (std::size_t i = 0; i < pack.steps.size(); ++i) {
            if (pack.steps[i].stage == s && pack.steps[i].talk_of == kNone && standing.steps[i].asked) {
                stage.steps.push_back(static_cast<Index>(i));
            }
        }
        stages.push_back(std::move(stage));
    }
    return stages;
}

bool raisedByAnEvent(const rules::Pack& pack, const evidence::Folded& folded)
{
    for (const rules::EventKind& event : pack.events) {
        if (event.raises != kNone && folded.evidence.stops[event.raises].raised != rules::kNoEntry) {
            const std::uint32_t raised = folded.evidence.stops[event.raises].raised;
            if (folded.lines[raised - 1].entry.kind == ledger::Kind::Event) {
                return true;
            }
        }
    }
    return false;
}

void sayPlate(VesselView& view, const Looker& look, const evidence::Surroundings& around)
{
    const rules::Standing& standing = view.standing;
    const bool wet_cut_begun = look.entryOf(drawn::kFirstOpening) != rules::kNoEntry;
    const bool was_open = look.entryOf(drawn::kFillOne) != rules::kNoEntry || wet_cut_begun;
    view.signal = was_open ? Signal::Warning : Signal::Danger;
    view.word = PlateWord::Held;
    if (around.record_damaged || around.storage_fault || !look.folded.evidence.whole) {
        view.word = PlateWord::RecordDamaged;
        view.signal = Signal::Danger;
    } else if (standing.state == rules::State::Refused) {
        view.word = PlateWord::Refused;
        view.signal = Signal::Danger;
    } else if (raisedByAnEvent(look.pack, look.folded)) {
        view.word = PlateWord::Stopped;
        view.signal = Signal::Danger;
    } else if (standing.state == rules::State::Closed) {
        view.word = PlateWord::ClosedOut;
        view.signal = Signal::Notice;
    } else if (!look.folded.evidence.clock_trusted) {
        view.word = PlateWord::ClockUnknown;
        view.signal = Signal::Danger;
    } else if (standing.state == rules::State::Released) {
        view.word = PlateWord::Released;
        view.signal = Signal::Warning;
    } else if (view.watch) {
        view.word = PlateWord::FireWatch;
        view.signal = Signal::Warning;
    } else if (view.water.state == WaterState::Part && wet_cut_begun) {
        view.word = PlateWord::Draining;
        view.signal = Signal::Warning;
    }
}

void findClock(VesselView& view, const Looker& look)
{
    std::int64_t best = rules::kNever;
    const auto offer = [&](std::string what, std::int64_t at) {
        if (at != rules::kNever && at < best) {
            best = at;
            view.clock = ClockView{std::move(what), at, at <= view.now_ms};
        }
    };
    if (view.standing.state == rules::State::Released) {
        offer("release", view.standing.until_ms);
    }
    if (view.word == PlateWord::FireWatch && view.watch) {
        offer("unwatched", view.watch->left_ms.value_or(rules::kNever)); // late since then
        offer("watch", view.watch->ends_ms);
        offer("sweep", view.watch->sweep_late_ms);
        return;
    }
    for (const std::string_view id : {drawn::kReadingsWet, drawn::kReadingsDry, drawn::kBrim}) {
        const rules::StepHeld* held = look.step(id);
        const bool of_use = held != nullptr && held->entry != rules::kNoEntry && (held->lack == Lack::None || held->lack == Lack::Lapsed);
        const Index stage = of_use ? look.pack.steps[look.pack.step(id)].stage : kNone;
        if (of_use && view.reach == stage && view.standing.state != rules::State::Released) {
            offer("step:" + std::string(id), held->lapses_ms);
        }
    }
}

std::vector<PartView> partsOf(const VesselView& view, const Looker& look)
{
    const auto part = [&](std::string id, std::string_view step_id) {
        return PartView{std::move(id), look.pack.step(step_id), look.sight(step_id)};
    };
    std::vector<PartView> parts;
    for (const OpeningView& opening : view.openings) {
        parts.push_back(part("opening:" + opening.name, drawn::kOpenings));
    }
    const bool dry = view.reach < look.pack.stages.size() && look.entryOf(drawn::kLettingOut) != rules::kNoEntry;
    parts.push_back({"tag", kNone, view.newest_tag ? Sight::Proven : Sight::Unknown});
    parts.push_back(part("places", dry ? drawn::kReadingsDry : drawn::kReadingsWet));
    parts.push_back(part("cut", drawn::kFirstOpening));
    parts.push_back({"figures", kNone, Sight::Proven});
    parts.push_back(part("was", drawn::kContents));
    parts.push_back(part("tilt", drawn::kPose));
    parts.push_back(part("water", drawn::kBrim));
    parts.push_back({"trail", kNone, Sight::Proven});
    return parts;
}

std::size_t reachOf(const rules::Pack& pack, const VesselView& view)
{
    if (view.standing.state == rules::State::Closed) {
        return pack.stages.size();
    }
    const auto asked = [&](Index step) { // a way that nobody goes leaves its steps open
        return std::ranges::any_of(
            view.standing.next, [step](const rules::Next& next) { return next.what == rules::Next::What::Step && next.index == step; });
    };
    for (std::size_t s = 0; s < view.stages.size(); ++s) {
        for (const GateView& gate : view.gates) {
            if (pack.hold_points[gate.hold_point].stage == s && !gate.passed) {
                return s > 0 && std::ranges::any_of(view.stages[s - 1].steps, asked) ? s - 1 : s;
            }
        }
    }
    return pack.stages.empty() ? 0 : pack.stages.size() - 1;
}

} // namespace

VesselView view(const rules::Pack& pack, const evidence::Folded& folded, const VesselId& id, const ledger::YardState& yard,
    const ledger::Moment& now, const evidence::Surroundings& around)
{
    const Looker look{pack, folded};
    VesselView view;
    view.id = id;
    view.demo = yard.play;
    view.now_ms = yard.trueTime(now).value_or(now.wall_ms);
    view.standing = rules::standing(pack, folded.evidence);
    const ledger::Entry* admission = nullptr;
    for (const ledger::Line& line : folded.lines) {
        const bool admits =
            line.entry.kind == ledger::Kind::VesselAdmitted && std::equal(id.value.begin(), id.value.end(), line.hash.value.begin());
        if (admits) {
            admission = &line.entry;
            view.number = line.entry.payload.textOf("number");
            view.note = line.entry.payload.textOf("note");
        }
        view.entries += admits || line.entry.vessel == id ? std::size_t{1} : std::size_t{0};
        if (admits || line.entry.vessel == id) {
            view.head = line.hash;
        }
    }
    view.shell = shellOf(pack, folded, admission == nullptr ? nullptr : admission->payload.find("vessel"));
    if (view.shell.sight != Sight::Unknown && look.sight(drawn::kMeasure) != Sight::Unknown) {
        view.shell.sight = look.sight(drawn::kMeasure);
    }
    view.contents = look.text(drawn::kSubstance);
    view.contents_sight = look.sight(drawn::kContents);
    view.water = waterOf(look);
    view.openings = openingsOf(look, view.water);
    if (const auto pitch = look.si(drawn::kPitch)) {
        view.pitch_deg = *pitch * 180.0 / 3.14159265358979323846;
    }
    if (const auto roll = look.si(drawn::kRoll)) {
        view.roll_deg = *roll * 180.0 / 3.14159265358979323846;
    }
    view.tilt_sight = look.sight(drawn::kPose);
    const bool dry = look.entryOf(drawn::kReadingsDry) > look.entryOf(drawn::kReadingsWet);
    view.places = dry ? placesOf(look, drawn::kReadingsDry, std::string(drawn::kDryGas), std::string(drawn::kDryOxygen))
                      : placesOf(look, drawn::kReadingsWet, std::string(drawn::kWetGas), std::string(drawn::kWetOxygen));
    view.stages = stagesOf(pack, view.standing);
    for (std::size_t i = 0; i < pack.hold_points.size(); ++i) {
        const rules::ReleaseHeld& release = folded.evidence.releases[i];
        view.gates.push_back({static_cast<Index>(i), view.standing.hold_points[i].state, release.at_giving == Truth::True,
            view.standing.hold_points[i].until_ms});
    }
    view.reach = reachOf(pack, view);
    const Index first_cut = pack.holdPoint(drawn::kFirstCut);
    view.cut = look.entryOf(drawn::kFirstOpening) != rules::kNoEntry                                 ? CutState::Made
        : first_cut != kNone && view.standing.hold_points[first_cut].state == rules::State::Released ? CutState::Released
                                                                                                     : CutState::Planned;
    if (folded.newest_tag) {
        const ledger::Entry& tag = folded.lines[*folded.newest_tag - 1].entry;
        view.newest_tag = tag.payload.integerOf("serial");
        view.newest_tag_ms = yard.trueTime(tag.at).value_or(tag.at.wall_ms);
    }
    if (view.standing.state == rules::State::Released) {
        view.log = logOf(pack, view.standing.hold_point);
    } else {
        view.watch = watch(pack, folded, id, yard, view.now_ms);
    }
    sayPlate(view, look, around);
    findClock(view, look);
    view.parts = partsOf(view, look);
    return view;
}

namespace {

int needOf(const VesselView& view)
{
    switch (view.word) {
    case PlateWord::Stopped:
    case PlateWord::RecordDamaged:
    case PlateWord::ClockUnknown:
        return 1;
    case PlateWord::Released:
    case PlateWord::FireWatch:
    case PlateWord::Draining:
        return view.clock && view.clock->past ? 2 : 3;
    case PlateWord::Held:
        return view.clock && view.clock->past ? 2 : 4;
    case PlateWord::NotOurs:
    case PlateWord::Refused:
        return 6;
    case PlateWord::ClosedOut:
        return 7;
    }
    return 4;
}

} // namespace

void sortByNeed(std::vector<BoardRow>& rows)
{
    for (BoardRow& row : rows) {
        row.need = needOf(*row.view);
    }
    const auto key = [](const BoardRow& row) {
        const bool runs = row.need == 3 && row.view->clock;
        const std::int64_t soon = runs ? row.view->clock->at_ms : rules::kNever;
        const std::size_t todo = row.need == 4 ? row.read ? row.view->standing.next.size() : std::numeric_limits<std::size_t>::max() : 0;
        return std::tuple(row.need, soon, todo, row.view->number);
    };
    std::ranges::sort(rows, [&](const BoardRow& a, const BoardRow& b) { return key(a) < key(b); });
}

} // namespace brimful::report
