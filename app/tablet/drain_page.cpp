#include "app/tablet/drain_page.h"

#include "app/tablet/section_drawing.h"

#include <algorithm>
#include <cmath>

namespace brimful::tablet {

using canon::Json;
using quantity::Dimension;

namespace {

constexpr double kInch = 0.0254; // m
constexpr double kBottom = 180; // degrees round
constexpr double kHair = 1e-6; // m: a full vessel's depth, rounded, is none of its depths

std::vector<double> scaled(std::vector<double> values, double by)
{
    for (double& value : values) {
        value *= by;
    }
    return values;
}

} // namespace

void DrainPage::open()
{
    const report::VesselView& view = *subject().view;
    const auto size = [this](double value) { return length(value); };
    const auto holes = us() ? scaled({0.25, 0.375, 0.5, 0.75, 1, 1.25, 1.5, 2, 2.5, 3, 4}, kInch)
                            : scaled({6, 8, 10, 15, 20, 25, 32, 40, 50, 80, 100}, 0.001);
    constexpr std::size_t kOneInch = 4;
    add({"hole", tr("Hole"), holes, size, kOneInch});
    const double by = us() ? kInch : 0.025;
    //: from the left tangent line
    add({"along", tr("From left"), scaled(stepped(0, std::floor(view.shell.shell_length_m / by), 1), by), size})
        .setNearest(view.shell.shell_length_m / 2);
    //: degrees round the shell from the top, clockwise seen from the left end
    add({"round", tr("Round"), stepped(0, 345, 15), [](double value) { return tr("%1°").arg(value); }}).setNearest(kBottom);
    add({"start", tr("Filled"), stepped(10, 100, 5), [](double value) { return tr("%1 %").arg(value); }}).setNearest(100);
    //: minutes after it was opened
    add({"minute", tr("Minute"), stepped(0, 40, 1), [](double value) { return QString::number(value); }});
    add({"pitch", tr("Tilt"), stepped(-15, 15, 0.1), degrees}).setNearest(view.pitch_deg.value_or(0));
    //: litres or gallons a minute that a hose brings
    add({"hose", tr("Hose in"), us() ? stepped(0, 20, 1) : stepped(0, 80, 5), [this](double value) {
             return value <= 0 ? tr("none") : us() ? tr("%1 gpm").arg(value) : tr("%1 L/min").arg(value);
         }});
    handles("minute", 40, "pitch", 100);
    addView("section", tr("Section"));
    addView("curve", tr("Curve"));
}

Json DrainPage::asked() const
{
    const report::VesselView& view = *subject().view;
    Json pose = Json::object();
    pose.set("pitch", measure(valueOf("pitch"), "deg"));
    Json hole = Json::object();
    hole.set("from_left_tangent", measure(valueOf("along"), "m"))
        .set("clock", measure(valueOf("round"), "deg"))
        .set("diameter", measure(valueOf("hole"), "m"));
    const bool vented = std::ranges::any_of(view.openings, [](const report::OpeningView& one) { return !isShut(one.state); });
    Json all = Json::object();
    all.set("vessel", vesselInput(view.shell)).set("pose", std::move(pose)).set("hole", std::move(hole)).set("vented", vented ? 1 : 0);
    if (valueOf("hose") > 0) {
        all.set("inflow", measure(valueOf("hose"), us() ? "galUS/min" : "L/min"));
    }
    if (valueOf("start") < 100) {
        Json volume = Json::object();
        Json level_pose = Json::object();
        level_pose.set("pitch", measure(valueOf("pitch"), "deg"));
        volume.set("vessel", vesselInput(view.shell))
            .set("pose", std::move(level_pose))
            .set("volume", measure(view.shell.capacity_m3 * valueOf("start") / 100, "m3"));
        if (const auto level = ask("level", volume)) {
            all.set("from", measure(numberOf(level->values, "depth_m"), "m"));
        }
    }
    return all;
}

void DrainPage::compute()
{
    if (sayMeasureFirst()) {
        return;
    }
    auto result = ask("drain", asked());
    if (!result) {
        judge(report::Signal::Warning, tr("does not run"), {});
        note(text::figureError(result.error()));
        return;
    }
    tell(*result);
    draw(*result);
}

void DrainPage::tell(const figure::Result& result)
{
    const Json& values = result.values;
    const auto minutes = [this](const char* key, const Json& from) {
        return text::span(static_cast<std::int64_t>(numberOf(from, key) * 1000), subject().reading);
    };
    const double time = numberOf(values, "time_s");
    const bool fills = values.find("filled_m3") != nullptr;
    if (std::isnan(time)) {
        judge(report::Signal::Warning, tr("no time"), tr("It gulps air: no time can be told."));
    } else {
        //: the hose brings more than runs out; else the time until it stands still
        say(fills ? tr("Rises for") : tr("Runs for"), minutes("time_s", values),
            values.find("slow_s") != nullptr
                //: how exactly the time is known
                ? tr("%1 to %2, by the hole's edge.").arg(minutes("fast_s", values), minutes("slow_s", values))
                : QString());
    }
    lineOf(fills ? tr("Comes in") : tr("Runs out"), numberOf(values, fills ? "filled_m3" : "drained_m3"), Dimension::Volume);
    lineOf(tr("Stands at the end"), numberOf(values, "end_depth_m"), Dimension::Length);
    lineOf(tr("Hole's lower edge"), numberOf(values, "lowest_outlet_m"), Dimension::Length);
    if (!std::isnan(time)) {
        lineOf(tr("At minute %1").arg(valueOf("minute")), depthAt(result, valueOf("minute") * 60), Dimension::Length);
    }
    noteWarnings(result.warnings);
    if (values.find("slow_s") != nullptr) {
        note(tr("Range: a sharp edge passes less, a rounded one more (handbook)."));
    }
    note(tr("What stays below the hole stays in: tilt it empty, or pump."));
}

double DrainPage::depthAt(const figure::Result& result, double seconds) const
{
    const Json* const curve = result.values.find("curve");
    if (curve == nullptr || curve->items.empty()) {
        return numberOf(result.values, "from_depth_m");
    }
    const Json* before = &curve->items.front();
    for (const Json& moment : curve->items) {
        const double time = numberOf(moment, "time_s");
        if (time >= seconds) {
            const double span = time - numberOf(*before, "time_s");
            const double share = span > 0 ? (seconds - numberOf(*before, "time_s")) / span : 1;
            return numberOf(*before, "depth_m") + share * (numberOf(moment, "depth_m") - numberOf(*before, "depth_m"));
        }
        before = &moment;
    }
    return numberOf(*before, "depth_m");
}

void DrainPage::draw(const figure::Result& result)
{
    const double now = depthAt(result, valueOf("minute") * 60);
    const Json* const moments = result.values.find("curve");
    if (view() == QLatin1String("curve") && moments != nullptr) {
        Curve curve;
        Curve::Line line;
        for (const Json& moment : moments->items) {
            line.points.emplace_back(numberOf(moment, "time_s"), numberOf(moment, "depth_m"));
        }
        // A slower and a faster hole run the same curve in another time.
        const double time = numberOf(result.values, "time_s");
        for (const auto& [key, name] : {std::pair("slow_s", tr("slow")), std::pair("fast_s", tr("fast"))}) {
            if (const double other = numberOf(result.values, key); !std::isnan(other) && time > 0) {
                Curve::Line scaled{line.points, true, name};
                for (QPointF& point : scaled.points) {
                    point.rx() *= other / time;
                }
                curve.lines.push_back(std::move(scaled));
            }
        }
        curve.lines.push_back(line);
        const double slow = numberOf(result.values, "slow_s");
        const double last = std::max(std::isnan(slow) ? 0 : slow, line.points.empty() ? 0 : line.points.back().x());
        double top = 0;
        for (const QPointF& point : line.points) {
            top = std::max(top, point.y());
        }
        curve.most = QPointF(last, top);
        curve.across = text::span(static_cast<std::int64_t>(last * 1000), subject().reading);
        curve.up = length(top);
        curve.now = QPointF(std::min(valueOf("minute") * 60, last), now);
        paint([curve = std::move(curve)](const Canvas& canvas) { paintCurve(canvas, curve); });
        return;
    }
    // The section at the moment, with the figure's hole.
    Json pose = Json::object();
    pose.set("pitch", measure(valueOf("pitch"), "deg"));
    Json question = Json::object();
    question.set("vessel", vesselInput(subject().view->shell))
        .set("pose", std::move(pose))
        .set("depth", measure(std::max(0.0, now - kHair), "m"));
    const auto section = ask("level", question);
    figure::Result picture;
    picture.picture = section ? section->picture : result.picture;
    for (const figure::Line& line : result.picture) {
        if (section && line.part.starts_with("opening:")) {
            picture.picture.push_back(line);
        }
    }
    const std::vector<PartLabel> labels{{"water", length(now)}};
    paint([picture = std::move(picture), labels](
              const Canvas& canvas) { paintSection(canvas, picture, QRectF(QPointF(0, 0), canvas.size), labels); });
}

} // namespace brimful::tablet
