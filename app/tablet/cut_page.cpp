#include "app/tablet/cut_page.h"

#include "app/tablet/section_drawing.h"

#include <algorithm>
#include <cmath>

namespace brimful::tablet {

using canon::Json;
using quantity::Dimension;

namespace {

constexpr double kInch = 0.0254; // m
const auto kDoor = QStringLiteral("door");
const auto kAlong = QStringLiteral("along");
const auto kRound = QStringLiteral("round");

std::vector<double> every(double by, double to)
{
    std::vector<double> out;
    for (double at = 0; at <= to + 1e-9; at += by) {
        out.push_back(at);
    }
    return out;
}

Json placeOf(double from_left, double clock)
{
    Json out = Json::object();
    out.set("from_left_tangent", measure(from_left, "m")).set("clock", measure(clock, "deg"));
    return out;
}

} // namespace

void CutPage::open()
{
    const report::VesselView& view = *subject().view;
    const double shell = view.shell.shell_length_m;
    const auto size = [this](double value) { return length(value); };
    const double by = us() ? 2 * kInch : 0.05;
    m_kind = kDoor;
    //: from the left tangent line
    add({"from", tr("From left"), every(by, shell), size}).setNearest(0.3 * shell);
    add({"long", tr("Long"), every(by, shell), size}).setNearest(0.4 * shell);
    //: degrees round the shell from the top, clockwise seen from the left end
    add({"round", tr("Upper at"), stepped(0, 345, 15), [](double value) { return tr("%1°").arg(value); }}).setNearest(45);
    //: how far round a cut goes, in degrees
    add({"span", tr("Round by"), stepped(15, 165, 15), [](double value) { return tr("%1°").arg(value); }}).setNearest(60);
    add({"kerf", tr("Kerf"), {0.001, 0.0015, 0.002, 0.0025, 0.003, 0.004}, [](double value) { return tr("%1 mm").arg(value * 1000); }, 3});
    add({"start", tr("Filled"), stepped(10, 100, 5), [](double value) { return tr("%1 %").arg(value); }}).setNearest(100);
    add({"pitch", tr("Tilt"), stepped(-15, 15, 0.1), degrees}).setNearest(view.pitch_deg.value_or(0));
    setChosen("round");
    handles("from", static_cast<double>(input("from").values.size()), "round", -12);
    addView("section", tr("Section"));
    //: the cuts one by one
    addView("each", tr("Each cut"));
}

void CutPage::flipped(const QString& key) { m_kind = key; }

// A door: its upper edge first, then the sides downward, the lower edge last.
Json CutPage::cuts() const
{
    const double shell = subject().view->shell.shell_length_m;
    const double left = valueOf("from");
    const double right = std::min(left + valueOf("long"), shell);
    const double upper = valueOf("round");
    const double lower = upper + valueOf("span");
    const auto cut = [&](const QString& name, const Json& from, const Json& to) {
        Json places = Json::array();
        places.items = {from, to};
        Json out = Json::object();
        out.set("name", name.toStdString()).set("kerf", measure(valueOf("kerf"), "m")).set("places", std::move(places));
        return out;
    };
    Json all = Json::array();
    if (m_kind == kAlong) {
        all.items = {cut(tr("along"), placeOf(left, upper), placeOf(right, upper))};
    } else if (m_kind == kRound) {
        all.items = {cut(tr("round"), placeOf(left, upper), placeOf(left, lower))};
    } else {
        all.items = {cut(tr("upper"), placeOf(left, upper), placeOf(right, upper)),
            cut(tr("left"), placeOf(left, upper), placeOf(left, lower)), cut(tr("right"), placeOf(right, upper), placeOf(right, lower)),
            cut(tr("lower"), placeOf(left, lower), placeOf(right, lower))};
    }
    return all;
}

Json CutPage::asked() const
{
    const report::VesselView& view = *subject().view;
    Json pose = Json::object();
    pose.set("pitch", measure(valueOf("pitch"), "deg")).set("roll", measure(view.roll_deg.value_or(0), "deg"));
    Json all = Json::object();
    all.set("vessel", vesselInput(view.shell))
        .set("pose", std::move(pose))
        .set("cuts", cuts())
        .set("openings", openingsInput(view.openings));
    const bool open = std::ranges::any_of(view.openings, [](const report::OpeningView& one) { return !isShut(one.state); });
    if (valueOf("start") < 100 || !open) {
        Json level_pose = Json::object();
        level_pose.set("pitch", measure(valueOf("pitch"), "deg"));
        Json volume = Json::object();
        volume.set("vessel", vesselInput(view.shell))
            .set("pose", std::move(level_pose))
            .set("volume", measure(view.shell.capacity_m3 * std::min(valueOf("start") / 100, 1 - 1e-6), "m3"));
        if (const auto level = ask("level", volume)) {
            all.set("start_depth", measure(numberOf(level->values, "depth_m"), "m"));
        }
    }
    return all;
}

void CutPage::compute()
{
    std::vector<Row> rows;
    for (const auto& [key, title] : {std::pair(kDoor, tr("Door")), std::pair(kAlong, tr("Along")), std::pair(kRound, tr("Round"))}) {
        Row row;
        row.key = key;
        row.title = title;
        row.chosen = key == m_kind;
        rows.push_back(std::move(row));
    }
    setSwitches(std::move(rows));
    if (sayMeasureFirst()) {
        return;
    }
    auto result = ask("cut-plan", asked());
    if (!result) {
        judge(report::Signal::Warning, tr("not known"), {});
        note(text::figureError(result.error()));
        return;
    }
    judgeIt(*result);
    tell(*result);
    paint([result = std::move(*result)](const Canvas& canvas) { paintSection(canvas, result, QRectF(QPointF(0, 0), canvas.size)); });
}

void CutPage::judgeIt(const figure::Result& result)
{
    const Json& values = result.values;
    const QString out = text::quantity(numberOf(values, "runs_out_m3"), Dimension::Volume, subject().reading);
    if (warns(result.warnings, "gulps-without-a-vent")) {
        judge(report::Signal::Warning, out, tr("in gulps: no opening lets air in."));
        return;
    }
    for (const Json& cut : values.find("cuts")->items) {
        if (cut.find("meets_water_at") != nullptr) {
            judge(report::Signal::Caution, out,
                //: %1: name of a cut
                tr("First into the water: %1.").arg(QString::fromStdString(std::string(cut.textOf("name")))));
            note(tr("Feet and cords get wet there."));
            return;
        }
    }
    say(tr("Runs out"), tr("nothing"), tr("Every cut lies above the water."));
}

void CutPage::tell(const figure::Result& result)
{
    const Json& values = result.values;
    const auto volume = [&](double value) { return text::quantity(value, Dimension::Volume, subject().reading); };
    double seconds = 0;
    for (const Json& cut : values.find("cuts")->items) {
        if (const double time = numberOf(cut, "time_s"); !std::isnan(time)) {
            seconds += time;
        }
        if (view() == QLatin1String("each")) {
            const bool wet = cut.find("meets_water_at") != nullptr;
            //: what a cut lets out, and how long that takes
            line(QString::fromStdString(std::string(cut.textOf("name"))),
                !wet ? tr("dry")
                     : tr("%1 in %2")
                           .arg(volume(numberOf(cut, "runs_out_m3")),
                               cut.find("time_s") == nullptr
                                   ? tr("no time")
                                   : text::span(static_cast<std::int64_t>(numberOf(cut, "time_s") * 1000), subject().reading)));
        }
    }
    if (view() != QLatin1String("each")) {
        line(tr("In all"), text::span(static_cast<std::int64_t>(seconds * 1000), subject().reading));
        lineOf(tr("Gas space then"), numberOf(values, "gas_space_m3"), Dimension::Volume);
        lineOf(tr("Water falls to"), numberOf(values, "level_after_m"), Dimension::Length);
    }
    if (m_kind == kDoor) {
        tellPanel(numberOf(values, "level_after_m"));
    }
    noteWarnings(result.warnings);
    note(tr("Cold tools only while water stands in it."));
}

// What comes free, and how the water that is left then pushes it: the door as one closed cut.
void CutPage::tellPanel(double level_after)
{
    Json question = asked();
    const auto edges = cuts();
    const auto corner = [&](std::size_t cut, std::size_t end) { return edges.items.at(cut).find("places")->items.at(end); };
    Json places = Json::array();
    places.items = {corner(0, 0), corner(0, 1), corner(3, 1), corner(3, 0), corner(0, 0)};
    Json whole = Json::object();
    whole.set("kerf", measure(valueOf("kerf"), "m")).set("places", std::move(places));
    Json one = Json::array();
    one.items = {whole};
    constexpr double kHair = 1e-6; // m
    question.set("cuts", std::move(one)).set("start_depth", measure(std::max(0.0, level_after - kHair), "m"));
    const auto result = ask("cut-plan", question);
    if (!result || result->values.find("cuts")->items.empty()) {
        return;
    }
    const Json& cut = result->values.find("cuts")->items.front();
    const double mass = numberOf(cut, "panel_mass_kg");
    if (std::isnan(mass)) {
        return;
    }
    const double push = numberOf(cut, "panel_push_N");
    lineOf(tr("Panel weighs"), mass, Dimension::Mass);
    if (push > 1) {
        //: %1: a force
        note(tr("Water pushes the panel with %1 when it comes free: strap it.")
                 .arg(text::quantity(push, Dimension::Force, subject().reading)));
    }
}

} // namespace brimful::tablet
