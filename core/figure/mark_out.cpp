// Mark-out of a shell: one datum line, one running list round and one along, what clashes, and the order of work.
#include "core/figure/check.h"
#include "core/figure/development.h"
#include "core/figure/figures.h"
#include "core/figure/mark_out_inputs.h"
#include "core/figure/mark_out_picture.h"
#include "core/figure/mark_out_settings.h"
#include "core/figure/order_of_work.h"
#include "core/layout/marks.h"
#include "core/layout/swing.h"
#include "core/quantity/format.h"
#include "core/vessel/steel.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace brimful::figure {

namespace {

using canon::Json;
using layout::Kind;
using quantity::metres;
using quantity::UnitSystem;

constexpr double kPi = std::numbers::pi;

constexpr std::string_view kClash = "cut-too-near-to-a-seam-pad-or-nozzle";
constexpr std::string_view kPractice = "clearances-and-tabs-are-practice-from-memory";
constexpr std::string_view kTabRange = "tab-outside-25-to-40-mm";
constexpr std::string_view kStrapNarrow = "strap-laps-less-than-3-8-in-on-a-side";
constexpr std::string_view kGirthOff = "measured-girth-does-not-agree";
constexpr std::string_view kNoSeams = "no-weld-seam-was-given";
constexpr std::string_view kBinds = "door-needs-a-wider-gap-to-turn";
constexpr std::string_view kSwing = "something-stands-where-the-door-turns-back";
constexpr std::array kWarnings{kNoSeams, kNoFirst, kClash, kPractice, kTabRange, kStrapNarrow, kKerfTaken, kGirthOff, kBinds, kSwing};

constexpr std::array<std::string_view, 2> kMethods{"level", "girth-tape"};

constexpr std::array kDatumInputs{
    Input{"clock", InputKind::Quantity, Dimension::Angle}, // of the datum line; the top line when absent
    Input{.key = "by", .kind = InputKind::Choice, .choices = kMethods},
    Input{"measured_girth", InputKind::Quantity, Dimension::Length}, // what the tape said where the marks are made
};
constexpr std::array kInputs{
    kVesselInput, Input{.key = "datum", .kind = InputKind::Object, .inside = kDatumInputs},
    Input{.key = "features", .kind = InputKind::List, .inside = kFeatureInputs},
    Input{.key = "clearances", .kind = InputKind::Object, .inside = kClearanceInputs},
    Input{"kerf", InputKind::Quantity, Dimension::Length},
    Input{.key = "kerf_side", .kind = InputKind::Choice, .choices = kKerfSides}, // of the line, seen from the panel
    Input{"strap", InputKind::Quantity, Dimension::Length}, // width of the flat bar over the doors' kerf
    Input{"tab", InputKind::Quantity, Dimension::Length}, // left uncut at each corner of a door
    Input{"tolerance", InputKind::Quantity, Dimension::Length}, // how far a mark may be off; 1/32 in when absent
    Input{.key = "work", .kind = InputKind::List, .inside = kWorkInputs}, // an order of one's own, checked
    kPoseInput, // as it lies when it is cut
    Input{"water_depth", InputKind::Quantity, Dimension::Length}, // above the lowest point of the inside, as the cut plan tells it
};

constexpr std::array kOutputs{
    Output{"girth_m", Dimension::Length},
    Output{"centre_line_at_m", Dimension::Length}, // by level: a square with one leg level shows the centre line here
    Output{"quarters", Dimension::Length, OutputKind::List}, // quarter, and a mark
    Output{"around", Dimension::Length, OutputKind::List}, // feature, edge, and a mark: from the datum line, clockwise
    Output{"along", Dimension::Length, OutputKind::List}, // from the left tangent line
    Output{"closing_m", Dimension::Length}, // from the last mark on to the datum line
    Output{"closing_sixteenth", Dimension::Number, OutputKind::Text}, Output{"girth_sixteenth", Dimension::Number, OutputKind::Text},
    Output{"stepped_girth_m", Dimension::Length}, // where four steps of one rounded quarter would end
    Output{"girth_difference_m", Dimension::Length}, // measured less computed
    Output{"cuts", Dimension::Number, OutputKind::List},
    Output{"obstacles", Dimension::Number, OutputKind::List}, // name, kind, clearance_m, nearest_kerf_m from its middle
    Output{"clashes", Dimension::Number, OutputKind::List}, // cut, with, gap_m, needed_m
    Output{"in_the_swing", Dimension::Number, OutputKind::List}, // door, with: what it would lie on when turned right back
    Output{"order", Dimension::Number, OutputKind::List}, // stage, do, feature
    Output{"cuts_and_water", Dimension::Number, OutputKind::List}, // cut, place (over, across, under), and how far over the water
    // What views of the vessel are drawn by.
    Output{"outside_diameter_m", Dimension::Length}, Output{"shell_length_m", Dimension::Length}, Output{"datum_deg", Dimension::Angle},
    Output{"pitch_deg", Dimension::Angle}, Output{"roll_deg", Dimension::Angle},
    Output{"water_level_m", Dimension::Length}, // above the axis at the left tangent line
};

std::string shown(double length) { return quantity::format(length, Dimension::Length, UnitSystem::Si); }

Json markJson(double exact)
{
    const layout::Mark mark = layout::markAt(metres(exact));
    Json out = Json::object();
    out.set("exact_m", Json::real(mark.exact));
    out.set("sixteenth", quantity::inchFraction(metres(exact))).set("sixteenth_residual_m", Json::real(mark.sixteenthResidual));
    out.set("millimetres", mark.millimetres).set("millimetre_residual_m", Json::real(mark.millimetreResidual));
    return out;
}

tl::expected<void, Error> setDatum(const Json& inputs, const MarkOutSettings& s, Result& out)
{
    const auto set = [&](std::string_view key, double value) { out.values.set(std::string(key), Json::real(value)); };
    set("girth_m", s.girth());
    const Json* const datum = inputs.find("datum");
    if (datum == nullptr || datum->textOf("by") != "girth-tape") {
        set("centre_line_at_m", s.radius);
    }
    Json quarters = Json::array();
    for (int i = 0; i <= 4; ++i) {
        Json row = markJson(s.girth() * i / 4);
        row.set("quarter", i);
        quarters.items.push_back(std::move(row));
    }
    out.values.set("quarters", std::move(quarters)).set("girth_sixteenth", quantity::inchFraction(metres(s.girth())));
    set("stepped_girth_m", 4 * static_cast<double>(layout::markAt(metres(s.girth() / 4)).sixteenths) * 0.0254 / 16);
    const auto measured = datum == nullptr ? std::nullopt : numberAt(*datum, "measured_girth");
    if (measured) {
        if (!(*measured > 0)) {
            return fail(Code::OutOfRange, "datum.measured_girth", "above 0", shown(*measured));
        }
        set("girth_difference_m", *measured - s.girth());
        if (std::abs(*measured - s.girth()) > 0.003175) { // 1/8 in: as the plate check takes a girth
            out.warnings.emplace_back(kGirthOff);
        }
    }
    return {};
}

struct Edge {
    double at;
    std::string feature;
    std::string_view edge;
};

void setRunningList(std::string_view key, std::vector<Edge> edges, Result& out)
{
    std::ranges::stable_sort(edges, {}, &Edge::at);
    Json rows = Json::array();
    for (const Edge& one : edges) {
        Json row = markJson(one.at);
        row.set("feature", one.feature).set("edge", one.edge);
        rows.items.push_back(std::move(row));
    }
    out.values.set(std::string(key), std::move(rows));
}

void setLists(const std::vector<FeatureRead>& features, const MarkOutSettings& s, Result& out)
{
    std::vector<Edge> around;
    std::vector<Edge> along;
    for (const FeatureRead& one : features) {
        if (one.kind != Kind::GirthSeam) {
            around.push_back({one.lines.around, one.name, one.round ? "middle" : one.kind == Kind::Seam ? "line" : "first-line"});
        }
        if (!one.round && one.kind != Kind::Seam && one.kind != Kind::GirthSeam) {
            around.push_back({std::fmod(one.lines.aroundTo, s.girth() * (1 + 1e-12)), one.name, "second-line"});
        }
        if (layout::isCut(one.kind) && !one.round) { // a pattern is laid by its middle
            around.push_back({(one.lines.around + one.lines.aroundTo) / 2, one.name, "middle"});
            along.push_back({(one.lines.along + one.lines.alongTo) / 2, one.name, "middle"});
        }
        if (one.kind != Kind::Seam) {
            along.push_back({one.lines.along, one.name, one.round ? "middle" : one.kind == Kind::GirthSeam ? "line" : "left-end"});
        }
        if (!one.round && one.kind != Kind::Seam && one.kind != Kind::GirthSeam) {
            along.push_back({one.lines.alongTo, one.name, "right-end"});
        }
    }
    double last = 0;
    for (const Edge& one : around) {
        last = std::max(last, one.at);
    }
    // What the tape must still show from the last mark on to the datum line: from marks, as they stand on the steel.
    const auto sixteenths = [](double at) { return static_cast<double>(layout::markAt(metres(at)).sixteenths) * 0.0254 / 16; };
    out.values.set("closing_m", Json::real(s.girth() - last));
    out.values.set("closing_sixteenth", quantity::inchFraction(metres(sixteenths(s.girth()) - sixteenths(last))));
    setRunningList("around", std::move(around), out);
    setRunningList("along", std::move(along), out);
}

Json cutJson(const FeatureRead& one, const MarkOutSettings& s)
{
    Json out = Json::object();
    out.set("name", one.name).set("kind", kFeatureKinds.at(static_cast<std::size_t>(one.kind)));
    const auto set = [&](std::string_view key, double value) { out.set(std::string(key), Json::real(value)); };
    const double across = one.lines.aroundTo - one.lines.around;
    const double lost = 2 * s.kerf * s.inward;
    const double gained = 2 * s.kerf * (1 - s.inward);
    double area = 0;
    if (one.round) {
        set("diameter_m", 2 * one.lines.radius);
        area = areaWithin(outlineOf(one, s));
    } else {
        const layout::Arc arc = layout::arcOfAngle(metres(s.radius), across / s.radius);
        set("angle_deg", arc.angle * 180 / kPi);
        set("arc_m", arc.arc);
        set("chord_m", arc.chord);
        set("sagitta_m", arc.sagitta);
        set("inside_arc_m", arc.angle * (s.radius - s.wall));
        set("length_m", one.lines.alongTo - one.lines.along);
        set("panel_arc_m", arc.arc - lost);
        set("opening_arc_m", arc.arc + gained);
        set("panel_length_m", one.lines.alongTo - one.lines.along - lost);
        set("opening_length_m", one.lines.alongTo - one.lines.along + gained);
        const double corner = std::max(0.0, one.cornerRadius - lost / 2);
        area = std::max(0.0, arc.arc - lost) * std::max(0.0, one.lines.alongTo - one.lines.along - lost) - (4 - kPi) * corner * corner;
    }
    set("panel_mass_kg", area * (s.radius - s.wall / 2) / s.radius * s.wall * vessel::kSteelDensity); // the plate's middle carries its mass
    return out;
}

layout::Panel panelOf(const FeatureRead& one, const MarkOutSettings& s)
{
    const auto side = std::ranges::find(kHingeSides, one.hingeSide) - kHingeSides.begin();
    return {s.radius, s.wall, one.lines, static_cast<layout::HingeSide>(side)};
}

// The kerf is what the free edge has to pass in. A door that wraps half round its shell turns out of nothing.
tl::expected<void, Error> setSwing(const FeatureRead& one, const MarkOutSettings& s, const std::string& path, Json& cut, Result& out)
{
    if (!(one.lines.aroundTo - one.lines.around < kPi * s.radius)) {
        return fail(Code::Impossible, pathTo(path, "hinge_side"), "a door narrower than half the girth, " + shown(kPi * s.radius),
            shown(one.lines.aroundTo - one.lines.around));
    }
    const double needs = layout::gapToTurn(panelOf(one, s));
    cut.set("gap_to_turn_m", Json::real(needs));
    if (needs > s.kerf + 1e-9 && std::ranges::find(out.warnings, kBinds) == out.warnings.end()) {
        out.warnings.emplace_back(kBinds);
    }
    return {};
}

tl::expected<void, Error> setDoor(const FeatureRead& one, const MarkOutSettings& s, const std::string& path, Json& cut, Result& out)
{
    const double tab = tabOf(one, s);
    const double stop = stopOf(one, s);
    const double shorter = std::min(one.lines.alongTo - one.lines.along, one.lines.aroundTo - one.lines.around);
    if (!(2 * stop < shorter)) {
        return fail(Code::Impossible, path, "wider than two tabs, " + shown(2 * stop), shown(shorter));
    }
    cut.set("tab_m", Json::real(tab)).set("cut_stops_from_corner_m", Json::real(stop)).set("tabs", 4);
    if (!one.hingeSide.empty()) {
        const bool round = one.hingeSide == "first-line" || one.hingeSide == "second-line";
        const double at = one.hingeSide == "first-line" ? one.lines.around
            : one.hingeSide == "second-line"            ? one.lines.aroundTo
            : one.hingeSide == "left-end"               ? one.lines.along
                                                        : one.lines.alongTo;
        auto swung = setSwing(one, s, path, cut, out);
        if (!swung) {
            return swung;
        }
        cut.set("hinge_side", one.hingeSide).set(round ? "hinge_line_around_m" : "hinge_line_along_m", Json::real(at));
    }
    if (s.strap > 0) {
        const double lap = (s.strap - s.kerf) / 2;
        cut.set("strap_lap_m", Json::real(lap));
        if (lap < 0.009525 - 1e-9 && std::ranges::find(out.warnings, kStrapNarrow) == out.warnings.end()) {
            out.warnings.emplace_back(kStrapNarrow);
        }
    }
    return {};
}

std::vector<layout::Placed> placed(const std::vector<FeatureRead>& features, const MarkOutSettings& s)
{
    std::vector<layout::Placed> out;
    for (const FeatureRead& one : features) {
        layout::Footprint at = one.lines;
        if (layout::isCut(one.kind)) {
            const double reach = s.reach(one.kind);
            if (one.round) {
                at.radius += reach;
            } else {
                at = {at.along - reach, at.alongTo + reach, at.around - reach, at.aroundTo + reach, 0};
            }
        }
        out.push_back({one.name, one.kind, at, !one.hingeSide.empty()});
    }
    return out;
}

tl::expected<void, Error> setCuts(const std::vector<FeatureRead>& features, const MarkOutSettings& s, Result& out)
{
    Json cuts = Json::array();
    Json obstacles = Json::array();
    for (std::size_t i = 0; i < features.size(); ++i) {
        const FeatureRead& one = features[i];
        if (layout::isCut(one.kind)) {
            Json cut = cutJson(one, s);
            if (one.kind == Kind::Door) {
                if (auto door = setDoor(one, s, "features[" + std::to_string(i) + "]", cut, out); !door) {
                    return door;
                }
            }
            cuts.items.push_back(std::move(cut));
            continue;
        }
        const double needed = layout::clearanceOf(s.clearances, one.kind);
        const double half = one.round ? one.lines.radius : one.kind == Kind::GirthSeam ? 0 : (one.lines.aroundTo - one.lines.around) / 2;
        Json row = Json::object();
        row.set("name", one.name).set("kind", kFeatureKinds.at(static_cast<std::size_t>(one.kind)));
        row.set("clearance_m", Json::real(needed));
        // A door's kerf runs under the middle of its strap, and the strap must clear the thing.
        row.set("nearest_kerf_m", Json::real(half + needed + std::max(s.strap, s.kerf) / 2));
        obstacles.items.push_back(std::move(row));
    }
    out.values.set("cuts", std::move(cuts)).set("obstacles", std::move(obstacles));
    return {};
}

// What the panel covers when it is turned right back must not be stood in. How far a thing stands out is not known: any counts.
void setSwingClashes(const std::vector<FeatureRead>& features, const MarkOutSettings& s, Result& out)
{
    Json rows = Json::array();
    for (const FeatureRead& door : features) {
        if (door.hingeSide.empty()) {
            continue;
        }
        const layout::Footprint over = layout::turnedBack(panelOf(door, s));
        for (const FeatureRead& other : features) {
            const bool stands =
                other.kind == Kind::Nozzle || other.kind == Kind::Pad || other.kind == Kind::Foot || !other.hingeSide.empty();
            if (&other != &door && stands && layout::gapBetween(over, other.lines, s.girth()) <= s.tolerance) {
                Json row = Json::object();
                row.set("door", door.name).set("with", other.name);
                rows.items.push_back(std::move(row));
            }
        }
    }
    if (!rows.items.empty()) {
        out.warnings.emplace_back(kSwing);
    }
    out.values.set("in_the_swing", std::move(rows));
}

void setClashes(const std::vector<layout::Placed>& all, const MarkOutSettings& s, Result& out)
{
    Json rows = Json::array();
    for (const layout::Clash& one : layout::clashes(all, s.clearances, s.girth(), s.tolerance)) {
        Json row = Json::object();
        row.set("cut", all[one.first].name).set("with", all[one.second].name);
        row.set("gap_m", Json::real(one.gap)).set("needed_m", Json::real(one.needed));
        rows.items.push_back(std::move(row));
    }
    if (!rows.items.empty()) {
        out.warnings.emplace_back(kClash);
    }
    if (std::ranges::none_of(all, [](const layout::Placed& one) { return one.kind == Kind::Seam || one.kind == Kind::GirthSeam; })) {
        out.warnings.emplace_back(kNoSeams);
    }
    out.values.set("clashes", std::move(rows));
}

tl::expected<Result, Error> compute(const Json& inputs, const Reference&)
{
    const auto vessel = readVessel(inputs);
    if (!vessel) {
        return tl::unexpected(vessel.error());
    }
    if (!vessel->wallGiven) {
        return fail(Code::Missing, "vessel.wall", "length"); // marks stand on the outside
    }
    Result out;
    const auto settings = readSettings(inputs, *vessel, out);
    if (!settings) {
        return tl::unexpected(settings.error());
    }
    const Json* const datum = inputs.find("datum");
    const auto features = readFeatures(inputs, vessel->shell, datum == nullptr ? 0 : numberAt(*datum, "clock", 0));
    if (!features) {
        return tl::unexpected(features.error());
    }
    if (const auto done = setDatum(inputs, *settings, out); !done) {
        return tl::unexpected(done.error());
    }
    if (!features->empty()) {
        out.warnings.emplace_back(kPractice);
        setLists(*features, *settings, out);
        const std::vector<layout::Placed> all = placed(*features, *settings);
        if (const auto cuts = setCuts(*features, *settings, out); !cuts) {
            return tl::unexpected(cuts.error());
        }
        setClashes(all, *settings, out);
        setSwingClashes(*features, *settings, out);
        if (const auto order = setOrder(inputs, all, settings->strap > 0, out); !order) {
            return tl::unexpected(order.error());
        }
        const bool doors = std::ranges::any_of(all, [](const layout::Placed& one) { return one.kind == Kind::Door; });
        if (doors && (settings->tab < 0.025 - 1e-9 || settings->tab > 0.040 + 1e-9)) {
            out.warnings.emplace_back(kTabRange);
        }
    }
    const auto water = readWater(inputs, vessel->shell, *settings, *features, out);
    if (!water) {
        return tl::unexpected(water.error());
    }
    drawMarkOut(*features, *settings, vessel->shell, *water, out);
    return out;
}

} // namespace

constinit const Figure kMarkOut{"mark-out", 2, kInputs, kOutputs, kWarnings, compute};

} // namespace brimful::figure
