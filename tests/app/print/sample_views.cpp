#include "tests/app/print/sample_views.h"

namespace brimful::test {

using namespace report;

namespace {

constexpr double kInch = 0.0254;

// A 500 gallon vessel: 41 in outside, 116 in over all, hemispherical heads.
VesselView fiveHundred()
{
    VesselView view;
    view.number = "NQ-02";
    view.head = canon::sha256("head of NQ-02");
    view.now_ms = kSunday;
    view.shell = {Sight::Proven, 41 * kInch, 0.25 * kInch, 78 * kInch, "hemispherical", "hemispherical", 1.853};
    view.contents = "propane";
    view.contents_sight = Sight::Proven;
    view.entries = 64;
    view.newest_tag = 9;
    for (rules::Index i = 0; i < 5; ++i) {
        view.gates.push_back({i, i < 2 ? rules::State::Released : rules::State::Held, i < 2, rules::kNever});
        view.stages.push_back({"stage", {}});
    }
    view.reach = 2;
    view.standing.steps.resize(12);
    for (rules::Index i = 0; i < 12; ++i) {
        view.stages[2].steps.push_back(i);
        view.standing.steps[i].passed = i < 10 ? rules::Truth::True : rules::Truth::Unknown;
    }
    view.signal = Signal::Warning;
    return view;
}

void openings(VesselView& view, const std::vector<std::pair<std::string, OpeningState>>& rows)
{
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const double x = view.shell.shell_length_m * (0.1 + 0.8 * static_cast<double>(i) / static_cast<double>(rows.size() - 1));
        view.openings.push_back({rows[i].first, rows[i].second, Sight::Proven, x, 0, ""});
    }
}

} // namespace

VesselView intake()
{
    VesselView view = fiveHundred();
    view.shell = {};
    view.contents = "";
    view.contents_sight = Sight::Unknown;
    view.signal = Signal::Danger;
    view.gates[0].passed = view.gates[1].passed = false;
    view.reach = 0;
    return view;
}

VesselView believed()
{
    VesselView view = fiveHundred();
    view.shell.sight = Sight::Believed;
    view.contents_sight = Sight::Believed;
    openings(view, {{"N1", OpeningState::Unknown}, {"N2", OpeningState::Plugged}});
    for (OpeningView& opening : view.openings) {
        opening.sight = Sight::Believed;
    }
    view.signal = Signal::Danger;
    return view;
}

VesselView wet()
{
    VesselView view = fiveHundred();
    openings(view,
        {{"N1", OpeningState::Plugged}, {"N2", OpeningState::Open}, {"N3", OpeningState::Brim}, {"N4", OpeningState::Stuck},
            {"N5", OpeningState::Open}});
    view.water = {WaterState::Brim, Sight::Proven, 1.0, 0.0};
    view.pitch_deg = 0.3;
    view.tilt_sight = Sight::Proven;
    for (const char* place : {"vent", "cut", "ground", "low-left", "low-right"}) {
        view.places.push_back({place, PlaceState::Lapsed, 0, 209000});
    }
    return view;
}

VesselView wetReleased()
{
    VesselView view = wet();
    view.number = "NQ-01";
    view.word = PlateWord::Released;
    view.cut = CutState::Released;
    view.standing.state = rules::State::Released;
    view.standing.hold_point = 2;
    view.standing.until_ms = kSunday + 4 * 3600000LL;
    for (PlaceView& place : view.places) {
        place.state = PlaceState::Fresh;
    }
    return view;
}

VesselView tilted()
{
    VesselView view = fiveHundred();
    openings(view,
        {{"N1", OpeningState::Plugged}, {"N2", OpeningState::Plugged}, {"N3", OpeningState::Open}, {"N4", OpeningState::Stuck},
            {"N5", OpeningState::Plugged}});
    view.water = {WaterState::Brim, Sight::Lapsed, 1.0, 4.6};
    view.pitch_deg = 2.0;
    view.tilt_sight = Sight::Proven;
    return view;
}

VesselView draining()
{
    VesselView view = wet();
    view.word = PlateWord::Draining;
    view.water = {WaterState::Part, Sight::Proven, 0.45, std::nullopt};
    view.cut = CutState::Made;
    view.pitch_deg = 0.0;
    view.places.clear();
    return view;
}

VesselView stopped()
{
    VesselView view = wetReleased();
    view.word = PlateWord::Stopped;
    view.signal = Signal::Danger;
    view.standing.state = rules::State::Held;
    return view;
}

VesselView refused()
{
    VesselView view = believed();
    view.word = PlateWord::Refused;
    view.signal = Signal::Danger;
    return view;
}

VesselView closedOut()
{
    VesselView view = fiveHundred();
    view.word = PlateWord::ClosedOut;
    view.signal = Signal::Notice;
    view.water = {WaterState::Empty, Sight::Proven, 0.0, std::nullopt};
    for (GateView& gate : view.gates) {
        gate.passed = true;
    }
    view.reach = 5;
    return view;
}

VesselView everyPlace()
{
    VesselView view = wet();
    view.pitch_deg = 0.0;
    view.places = {{"vent", PlaceState::Fresh, 0, 209000}, {"cut", PlaceState::Failing, 40, 209000},
        {"ground", PlaceState::Lapsed, 0, 209000}, {"low-left", PlaceState::Missing, std::nullopt, std::nullopt},
        {"low-right", PlaceState::Conflict, 0, 209000}, {"saddle left", PlaceState::Unbelievable, std::nullopt, std::nullopt},
        {"saddle right", PlaceState::Fresh, 0, 209000}};
    return view;
}

VesselView manyOpenings()
{
    VesselView view = fiveHundred();
    view.shell.left_head = view.shell.right_head = "ellipsoidal-2-1";
    const double length = view.shell.shell_length_m;
    const auto add = [&](const char* name, OpeningState state, Sight sight, double share, double clock, const char* head) {
        view.openings.push_back({name, state, sight, share * length, clock, head});
    };
    add("N1", OpeningState::Open, Sight::Proven, 0.3, 0, "");
    add("N2", OpeningState::Plugged, Sight::Proven, 0.36, 0, "");
    add("N3", OpeningState::Stuck, Sight::Lapsed, 0.42, 10, "");
    add("N4", OpeningState::Unknown, Sight::Unknown, 0.8, 0, "");
    add("D1", OpeningState::Plugged, Sight::Proven, 0.5, 180, "");
    add("S1", OpeningState::Plugged, Sight::Proven, 0.2, 90, "");
    add("S2", OpeningState::Open, Sight::Proven, 0.7, 270, "");
    add("L", OpeningState::Open, Sight::Proven, 0, 0, "left");
    add("R", OpeningState::Plugged, Sight::Proven, 1, 0, "right");
    view.water = {WaterState::Part, Sight::Lapsed, 0.3, std::nullopt};
    view.pitch_deg = -7.0;
    view.tilt_sight = Sight::Lapsed;
    return view;
}

std::vector<std::pair<std::string, VesselView>> allViews()
{
    return {{"intake", intake()}, {"believed", believed()}, {"wet", wet()}, {"released", wetReleased()}, {"tilted", tilted()},
        {"draining", draining()}, {"stopped", stopped()}, {"refused", refused()}, {"closed", closedOut()}, {"places", everyPlace()},
        {"openings", manyOpenings()}};
}

} // namespace brimful::test
