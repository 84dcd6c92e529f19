// Mark-out of a shell: one datum line, one running list round and one along, what clashes, and the order of work.
#include "core/figure/check.h"
#include "core/figure/development.h"
#include "core/figure/figures.h"
#include "core/figure/mark_out_inputs.h"
#include "core/figure/order_of_work.h"
#include "core/layout/marks.h"
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
constexpr std::string_view kKerfTaken = "kerf-taken-as-0";
constexpr std::string_view kGirthOff = "measured-girth-does-not-agree";
constexpr std::string_view kNoSeams = "no-weld-seam-was-given";
constexpr std::array kWarnings{kNoSeams, kNoFirst, kClash, kPractice, kTabRange, kStrapNarrow, kKerfTaken, kGirthOff};

constexpr std::array<std::string_view, 2> kMethods{"level", "girth-tape"};
constexpr std::array<std::string_view, 3> kKerfSides{"inside", "centre", "outside"};

constexpr std::array kDatumInputs{
    Input{"clock", InputKind::Quantity, Dimension::Angle}, // of the datum line; the top line when absent
    Input{.key = "by", .kind = InputKind::Choice, .choices = kMethods},
    Input{"measured_girth", InputKind::Quantity, Dimension::Length}, // what the tape said where the marks are made
};
constexpr std::array kClearanceInputs{
    Input{"seam", InputKind::Quantity, Dimension::Length},
    Input{"girth_seam", InputKind::Quantity, Dimension::Length},
    Input{"pad", InputKind::Quantity, Dimension::Length},
    Input{"nozzle", InputKind::Quantity, Dimension::Length},
    Input{"foot", InputKind::Quantity, Dimension::Length},
    Input{"cut", InputKind::Quantity, Dimension::Length},
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
    Output{"order", Dimension::Number, OutputKind::List}, // stage, do, feature
};

std::string shown(double length) { return quantity::format(length, Dimension::Length, UnitSystem::Si); }

struct Settings {
    double radius{}; // outside
    double wall{};
    double length{};
    double kerf{};
    double inward{}; // of the line on the panel's side, as a share of the kerf
    double strap{};
    double tab{};
    double tolerance{};
    layout::Clearances clearances;
    [[nodiscard]] double girth() const { return 2 * kPi * radius; }
    // From the line to the outer edge of what a cut needs: its kerf, or half its strap over the kerf's middle.
    [[nodiscard]] double reach(Kind kind) const
    {
        const double outward = kerf * (1 - inward);
        const double middle = outward - kerf / 2;
        return kind == Kind::Door ? std::max(outward, middle + strap / 2) : outward;
    }
};

tl::expected<Settings, Error> readSettings(const Json& inputs, const VesselRead& vessel, Result& out)
{
    Settings s;
    s.radius = vessel.shell.outsideDiameter().get().value() / 2;
    s.wall = vessel.shell.wall().value();
    s.length = vessel.shell.length().value();
    constexpr double kInch = 0.0254;
    // From memory, shop practice: 2 in from a weld, 1 in from the rest, tabs of 25 to 40 mm. 1/32 in: what rounding does.
    const Json none = Json::object();
    const Json* const given = inputs.find("clearances");
    const Json& clear = given == nullptr ? none : *given;
    s.clearances = {numberAt(clear, "seam", 2 * kInch), numberAt(clear, "girth_seam", 2 * kInch), numberAt(clear, "pad", kInch),
        numberAt(clear, "nozzle", kInch), numberAt(clear, "foot", kInch), numberAt(clear, "cut", 2 * kInch)};
    s.kerf = numberAt(inputs, "kerf", 0);
    s.strap = numberAt(inputs, "strap", 0);
    s.tab = numberAt(inputs, "tab", 0.032);
    s.tolerance = numberAt(inputs, "tolerance", kInch / 32);
    const std::string_view side = inputs.textOf("kerf_side");
    s.inward = side == "inside" ? 1 : side == "outside" ? 0 : 0.5;
    for (const std::string_view key : {"kerf", "strap", "tab", "tolerance"}) {
        if (const double value = numberAt(inputs, key, 0); !(value >= 0)) {
            return fail(Code::OutOfRange, std::string(key), "0 or more", shown(value));
        }
    }
    for (const Input& one : kClearanceInputs) {
        if (const double value = numberAt(clear, one.key, 0); !(value >= 0)) {
            return fail(Code::OutOfRange, pathTo("clearances", one.key), "0 or more", shown(value));
        }
    }
    if (inputs.find("kerf") == nullptr) {
        out.warnings.emplace_back(kKerfTaken);
    }
    if (s.strap > 0 && s.strap < s.kerf) {
        return fail(Code::Impossible, "strap", "wider than the kerf", shown(s.strap));
    }
    return s;
}

Json markJson(double exact)
{
    const layout::Mark mark = layout::markAt(metres(exact));
    Json out = Json::object();
    out.set("exact_m", Json::real(mark.exact));
    out.set("sixteenth", quantity::inchFraction(metres(exact))).set("sixteenth_residual_m", Json::real(mark.sixteenthResidual));
    out.set("millimetres", mark.millimetres).set("millimetre_residual_m", Json::real(mark.millimetreResidual));
    return out;
}

tl::expected<void, Error> setDatum(const Json& inputs, const Settings& s, Result& out)
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

void setLists(const std::vector<FeatureRead>& features, const Settings& s, Result& out)
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

// A straight pipe's hole in the shell, or a rectangle with round corners; unrolled, seen from outside, clockwise downward.
Points outlineOf(const FeatureRead& one, const Settings& s)
{
    Points out;
    if (one.round) {
        constexpr int kSteps = 360;
        for (int i = 0; i < kSteps; ++i) {
            const double t = 2 * kPi * i / kSteps;
            const double across = std::asin(std::min(1.0, one.lines.radius * std::abs(std::sin(t)) / s.radius)) * s.radius;
            out.emplace_back(one.lines.along + one.lines.radius * std::cos(t), -one.lines.around + std::copysign(across, std::sin(t)));
        }
        return out;
    }
    const double r = one.cornerRadius;
    const std::array<std::pair<double, double>, 4> corners{
        {{one.lines.alongTo - r, -one.lines.around - r}, {one.lines.along + r, -one.lines.around - r},
            {one.lines.along + r, -one.lines.aroundTo + r}, {one.lines.alongTo - r, -one.lines.aroundTo + r}}};
    for (std::size_t i = 0; i < corners.size(); ++i) {
        const int steps = r > 0 ? 30 : 0;
        for (int j = 0; j <= steps; ++j) {
            const double t = kPi / 2 * (static_cast<double>(i) + (steps > 0 ? static_cast<double>(j) / steps : 0));
            out.emplace_back(corners.at(i).first + r * std::cos(t), corners.at(i).second + r * std::sin(t));
        }
    }
    return out;
}

Json cutJson(const FeatureRead& one, const Settings& s)
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

// Tabs stand at the corners; each at least as long as the corner's own arc.
double tabOf(const FeatureRead& one, const Settings& s) { return std::max(s.tab, kPi / 2 * one.cornerRadius); }

// From the square corner to where the cut stops.
double stopOf(const FeatureRead& one, const Settings& s) { return one.cornerRadius + (tabOf(one, s) - kPi / 2 * one.cornerRadius) / 2; }

tl::expected<void, Error> setDoor(const FeatureRead& one, const Settings& s, const std::string& path, Json& cut, Result& out)
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

std::vector<layout::Placed> placed(const std::vector<FeatureRead>& features, const Settings& s)
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

tl::expected<void, Error> setCuts(const std::vector<FeatureRead>& features, const Settings& s, Result& out)
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

void setClashes(const std::vector<layout::Placed>& all, const Settings& s, Result& out)
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

// Ticks across the line where the cut stops and the tab begins.
void drawTabs(const FeatureRead& one, const Settings& s, Result& out)
{
    constexpr double kTick = 0.006;
    const double stop = stopOf(one, s);
    const auto tick = [&](double x, double y, double dx, double dy) {
        out.picture.push_back({"mark:" + one.name + ":", false, {{x - dx, y - dy}, {x + dx, y + dy}}});
    };
    for (const double y : {-one.lines.around, -one.lines.aroundTo}) {
        tick(one.lines.along + stop, y, 0, kTick);
        tick(one.lines.alongTo - stop, y, 0, kTick);
    }
    for (const double x : {one.lines.along, one.lines.alongTo}) {
        tick(x, -one.lines.around - stop, kTick, 0);
        tick(x, -one.lines.aroundTo + stop, kTick, 0);
    }
}

void draw(const std::vector<FeatureRead>& features, const Settings& s, Result& out)
{
    out.picture.push_back({"outline", true, {{0, 0}, {s.length, 0}, {s.length, -s.girth()}, {0, -s.girth()}}});
    out.picture.push_back({"datum", false, {{0, 0}, {s.length, 0}}});
    for (int i = 1; i < 4; ++i) {
        out.picture.push_back({"quarter:" + std::to_string(i), false, {{0, -s.girth() * i / 4}, {s.length, -s.girth() * i / 4}}});
    }
    for (const FeatureRead& one : features) {
        if (layout::isCut(one.kind)) {
            const double middle = (one.lines.along + one.lines.alongTo) / 2;
            addHolePattern(out, one.name, outlineOf(one, s), middle, -(one.lines.around + one.lines.aroundTo) / 2);
            if (one.kind == Kind::Door) {
                drawTabs(one, s, out);
            }
        } else if (one.kind == Kind::Seam || one.kind == Kind::GirthSeam) {
            out.picture.push_back(
                {"weld:" + one.name, false, {{one.lines.along, -one.lines.around}, {one.lines.alongTo, -one.lines.aroundTo}}});
        } else {
            out.picture.push_back({"thing:" + one.name, true, outlineOf(one, s)});
        }
    }
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
        if (const auto order = setOrder(inputs, all, settings->strap > 0, out); !order) {
            return tl::unexpected(order.error());
        }
        const bool doors = std::ranges::any_of(all, [](const layout::Placed& one) { return one.kind == Kind::Door; });
        if (doors && (settings->tab < 0.025 - 1e-9 || settings->tab > 0.040 + 1e-9)) {
            out.warnings.emplace_back(kTabRange);
        }
    }
    draw(*features, *settings, out);
    return out;
}

} // namespace

constinit const Figure kMarkOut{"mark-out", 1, kInputs, kOutputs, kWarnings, compute};

} // namespace brimful::figure
