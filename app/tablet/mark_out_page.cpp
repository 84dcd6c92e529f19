#include "app/tablet/mark_out_page.h"

#include "app/print/plans.h"
#include "app/tablet/papers.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace brimful::tablet {

using canon::Json;

namespace {

constexpr double kInch = 0.0254;
constexpr std::array kHinges{"", "first-line", "second-line", "left-end", "right-end"};

QString hingeWords(double value)
{
    switch (static_cast<int>(value)) {
    case 1:
        //: a door's hinge side: its first line, clockwise from the datum line
        return MarkOutPage::tr("first");
    case 2:
        //: a door's hinge side: its second line, clockwise from the datum line
        return MarkOutPage::tr("second");
    case 3:
        //: a door's hinge side: its left end
        return MarkOutPage::tr("left");
    case 4:
        //: a door's hinge side: its right end
        return MarkOutPage::tr("right");
    default:
        //: a door without a hinge
        return MarkOutPage::tr("none");
    }
}

QString clockWords(double degrees)
{
    //: a place round the shell in degrees from the top, clockwise as seen from the left end
    return MarkOutPage::tr("%1°").arg(degrees, 0, 'f', 0);
}

QString nameOf(const Json& row, std::string_view key) { return QString::fromStdString(std::string(row.textOf(key))); }

} // namespace

QString MarkOutPage::tape(double metres) const { return print::tapeWords(metres, subject().reading.units); }

void MarkOutPage::open()
{
    const report::ShellView& shell = subject().view->shell;
    const bool us = subject().reading.units == text::Units::Us;
    const double step = us ? kInch / 2 : 0.01;
    const double girth = 3.14159265358979 * shell.outside_diameter_m;
    const auto to = [&](double metres) { return std::max(step, std::floor(metres / step) * step); };
    const text::Units units = subject().reading.units;
    const auto length = [units](double value) { return print::shortTapeWords(value, units); };
    const auto orNone = [units](double value) { return value > 0 ? print::shortTapeWords(value, units) : tr("none"); };
    //: how far from the left tangent line a door begins
    add({"along", tr("From left"), stepped(0, to(shell.shell_length_m), step), length}).setNearest(shell.shell_length_m * 0.2);
    add({"length", tr("Long"), stepped(step, to(shell.shell_length_m), step), length}).setNearest(shell.shell_length_m * 0.5);
    //: by the tape, round the shell from the datum line
    add({"around", tr("Round"), stepped(0, to(girth), step), length}).setNearest(girth * 0.13);
    //: as the tape lies on the shell
    add({"width", tr("Wide"), stepped(step, to(girth * 0.6), step), length}).setNearest(girth * 0.26);
    add({"hinge", tr("Hinge"), {0, 1, 2, 3, 4}, hingeWords, 2});
    //: a first hole, to look in by
    add({"hole", tr("Hole"), stepped(0, us ? 16 * kInch : 0.40, us ? kInch : 0.02), orNone}).setNearest(us ? 8 * kInch : 0.20);
    add({"hole-along", tr("Hole along"), stepped(0, to(shell.shell_length_m), step), length}).setNearest(shell.shell_length_m * 0.87);
    add({"hole-clock", tr("Hole at"), stepped(0, 355, 5), clockWords});
    //: the long weld seam: degrees round the shell, or not found
    add({"seam", tr("Seam"), stepped(-5, 355, 5), [](double value) { return value < 0 ? tr("not found") : clockWords(value); }});
    add({"nozzle", tr("Nozzles"), stepped(us ? kInch : 0.02, us ? 12 * kInch : 0.30, us ? kInch / 2 : 0.01), length})
        .setNearest(us ? 3 * kInch : 0.08);
    add({"corner", tr("Corner"), stepped(0, us ? 4 * kInch : 0.10, us ? kInch / 4 : 0.005), length}).setNearest(us ? 1.5 * kInch : 0.04);
    add({"kerf", tr("Kerf"), stepped(0, 0.005, 0.0005), [](double value) { return tr("%1 mm").arg(value * 1000, 0, 'f', 1); }})
        .setNearest(0.002);
    add({"strap", tr("Strap"), stepped(0, us ? 3 * kInch : 0.08, us ? kInch / 4 : 0.005), orNone}).setNearest(us ? kInch : 0.025);
    add({"water", tr("Water"), stepped(0, 100, 5), [](double value) { return value > 0 ? tr("%1 %").arg(value) : tr("none"); }})
        .setNearest(subject().view->water.state == report::WaterState::Brim ? 100 : 0);
    setChosen("around");
    handles("around", girth / step, "along", shell.shell_length_m / step);
    //: the shell laid out flat
    addView("flat", tr("Flat"));
    addView("side", tr("Side"));
    addView("end", tr("End"));
}

Json MarkOutPage::features() const
{
    Json out = Json::array();
    const auto put = [&](const QString& name, const char* kind) -> Json& {
        Json one = Json::object();
        one.set("name", name.toStdString()).set("kind", kind);
        out.items.push_back(std::move(one));
        return out.items.back();
    };
    Json& door = put(tr("door"), "door");
    door.set("from_left_tangent", measure(valueOf("along"), "m")).set("length", measure(valueOf("length"), "m"));
    door.set("around", measure(valueOf("around"), "m")).set("width", measure(valueOf("width"), "m"));
    door.set("corner_radius", measure(std::min({valueOf("corner"), valueOf("length") / 2.001, valueOf("width") / 2.001}), "m"));
    if (valueOf("hinge") > 0) {
        door.set("hinge_side", kHinges.at(static_cast<std::size_t>(valueOf("hinge"))));
    }
    if (valueOf("hole") > 0) {
        put(tr("hole"), "round-cut-out")
            .set("from_left_tangent", measure(valueOf("hole-along"), "m"))
            .set("clock", measure(valueOf("hole-clock"), "deg"))
            .set("diameter", measure(valueOf("hole"), "m"));
    }
    if (valueOf("seam") >= 0) {
        put(tr("seam"), "seam").set("clock", measure(valueOf("seam"), "deg"));
    }
    for (const report::OpeningView& one : subject().view->openings) {
        const double at = one.from_left_tangent_m;
        if (one.head.empty() && at >= 0 && at <= subject().view->shell.shell_length_m) {
            put(QString::fromStdString(one.name), "nozzle")
                .set("from_left_tangent", measure(at, "m"))
                .set("clock", measure(one.clock_deg, "deg"))
                .set("diameter", measure(valueOf("nozzle"), "m"));
        }
    }
    return out;
}

Json MarkOutPage::asked() const
{
    const report::VesselView& view = *subject().view;
    Json all = Json::object();
    all.set("vessel", vesselInput(view.shell)).set("features", features());
    all.set("kerf", measure(valueOf("kerf"), "m")).set("strap", measure(valueOf("strap"), "m"));
    Json pose = Json::object();
    pose.set("pitch", measure(view.pitch_deg.value_or(0), "deg")).set("roll", measure(view.roll_deg.value_or(0), "deg"));
    all.set("pose", std::move(pose));
    if (valueOf("water") > 0) {
        const double inside = view.shell.outside_diameter_m - 2 * view.shell.wall_m;
        all.set("water_depth", measure(inside * valueOf("water") / 100, "m"));
    }
    return all;
}

void MarkOutPage::act()
{
    if (const auto result = figure::compute(*figure::byName("mark-out"), asked(), subject().reference)) {
        m_saved = savePapers("mark-out", subject().view->number, *result, subject().reading);
        refresh();
    }
}

void MarkOutPage::compute()
{
    note(std::exchange(m_saved, {}));
    setAct({});
    const report::ShellView& shell = subject().view->shell;
    const bool measured = shell.outside_diameter_m > 0 && shell.shell_length_m > 0 && shell.wall_m > 0;
    auto result = measured ? figure::compute(*figure::byName("mark-out"), asked(), subject().reference)
                           : tl::unexpected(figure::Error{"vessel", figure::Code::Missing, {}, {}});
    if (!result) {
        const std::string& path = result.error().path;
        judge(report::Signal::Caution, tr("does not fit"),
            !measured                      ? tr("Measure it first.")
                : path.ends_with("around") ? tr("The door runs over the datum line, where the tape closes.")
                : path.ends_with("length") || path.ends_with("from_left_tangent") || path.ends_with("diameter")
                ? tr("It runs past the end of the shell.")
                : path.ends_with("hinge_side") ? tr("It wraps more than half round: no hinge turns it.")
                                               : tr("Too small for its tabs."));
        return;
    }
    //: patterns and marks as files to print
    setAct(tr("Save papers"));
    const Json& values = result->values;
    judgeClashes(values, result->warnings);
    if (view() == QLatin1String("side")) {
        fillMarks(values, "along", tr("Right tangent"), numberOf(values, "shell_length_m"));
    } else if (view() == QLatin1String("end")) {
        fillDoor(values);
    } else {
        fillMarks(values, "around", tr("Top line again"), numberOf(values, "girth_m"));
    }
    noteOrder(values);
    noteWarnings(result->warnings);
    note(tr("Nozzles: their places are the record's; how wide they are is set here."));
    const auto how = view() == QLatin1String("side") ? print::MarkOutView::Side
        : view() == QLatin1String("end")             ? print::MarkOutView::End
                                                     : print::MarkOutView::Unrolled;
    paint([result = std::move(*result), how, units = subject().reading.units](const Canvas& canvas) {
        print::paintMarkOut(canvas.painter, result, how, {canvas.palette, QRectF(QPointF(0, 0), canvas.size), canvas.u, units});
    });
}

void MarkOutPage::judgeClashes(const Json& values, const std::vector<std::string>& warnings)
{
    const Json* const clashes = values.find("clashes");
    if (clashes != nullptr && !clashes->items.empty()) {
        const Json& worst = *std::ranges::min_element(
            clashes->items, {}, [](const Json& one) { return numberOf(one, "gap_m") - numberOf(one, "needed_m"); });
        judge(report::Signal::Caution, tr("too near"),
            //: what lies too near to a cut; %2 how far, %3 how far it should
            tr("%1: %2 from the cut, want %3.")
                .arg(nameOf(worst, "with"), tape(numberOf(worst, "gap_m")), tape(numberOf(worst, "needed_m"))));
    } else if (warns(warnings, "something-stands-where-the-door-turns-back")) {
        judge(report::Signal::Caution, tr("in the swing"),
            //: what stands where a door would lie
            tr("%1 stands where the door turns back.").arg(nameOf(values.find("in_the_swing")->items.front(), "with")));
    } else if (warns(warnings, "door-needs-a-wider-gap-to-turn")) {
        judge(report::Signal::Caution, tr("it binds"), tr("The door's free edge does not pass its kerf."));
    } else if (warns(warnings, "no-weld-seam-was-given")) {
        judge(report::Signal::Caution, tr("seam unknown"), tr("Find the long seam first, then set it here."));
    } else if (subject().view->shell.sight != report::Sight::Proven) {
        judge(report::Signal::Caution, tr("not measured"), tr("Its size is only believed: tape the girth before you mark."));
    } else {
        //: nothing comes nearer to a cut than the clearances
        judge(report::Signal::Notice, tr("no clash"), tr("Clearances are shop practice from memory."));
    }
}

// A running list, as the tape shows it. What is on the vessel already needs no mark; a door is marked by its lines.
void MarkOutPage::fillMarks(const Json& values, std::string_view list, const QString& end, double at)
{
    for (const Json& mark : values.find(list)->items) {
        const QString feature = nameOf(mark, "feature");
        const bool ours = feature == tr("door") || feature == tr("hole") || feature == tr("seam");
        if (ours && (mark.textOf("edge") != "middle" || feature != tr("door"))) {
            line(feature + QStringLiteral(", ") + print::edgeWords(mark.textOf("edge")), tape(numberOf(mark, "exact_m")));
        }
    }
    line(end, tape(at));
}

void MarkOutPage::fillDoor(const Json& values)
{
    const Json& door = values.find("cuts")->items.front();
    //: of a door: as the tape lies, straight across, and how far the middle stands over that
    line(tr("Arc"), tape(numberOf(door, "arc_m")));
    line(tr("Chord"), tape(numberOf(door, "chord_m")));
    line(tr("Rise"), tape(numberOf(door, "sagitta_m")));
    line(tr("Panel, arc"), tape(numberOf(door, "panel_arc_m")));
    //: weight of a door
    lineOf(tr("It weighs"), numberOf(door, "panel_mass_kg"), quantity::Dimension::Mass);
}

void MarkOutPage::noteOrder(const Json& values)
{
    int number = 0;
    for (const Json& one : values.find("order")->items) {
        note(QStringLiteral("%1. ").arg(++number) + print::workWords(one.textOf("do"), nameOf(one, "feature")));
    }
    const Json* const water = values.find("cuts_and_water");
    for (const Json& row : water == nullptr ? std::vector<Json>() : water->items) {
        const std::string_view place = row.textOf("place");
        //: a cut and the water of the plan
        note(place == "over"       ? tr("%1 lies over the water.").arg(nameOf(row, "cut"))
                : place == "under" ? tr("%1 lies under the water.").arg(nameOf(row, "cut"))
                                   : tr("%1 goes down through the water.").arg(nameOf(row, "cut")));
    }
}

} // namespace brimful::tablet
