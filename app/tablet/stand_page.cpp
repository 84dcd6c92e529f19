#include "app/tablet/stand_page.h"

#include "app/tablet/section_drawing.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace brimful::tablet {

using canon::Json;
using quantity::Dimension;

namespace {

constexpr double kInch = 0.0254; // m
constexpr int kFillPoints = 8;
constexpr std::array kGrounds{"clay-or-silt", "sand", "gravel", "rock"};
constexpr int kSling = 60; // degrees from the horizontal: proposal

} // namespace

void StandPage::open()
{
    const report::VesselView& view = *subject().view;
    const double by = us() ? 2 * kInch : 0.05;
    std::vector<double> places;
    for (double at = 0; at <= view.shell.shell_length_m + 1e-9; at += by) {
        places.push_back(at);
    }
    const auto size = [this](double value) { return length(value); };
    //: the left one of two supports, from the left tangent line
    add({"left", tr("Left at"), places, size}).setNearest(0.2 * view.shell.shell_length_m);
    add({"right", tr("Right at"), places, size}).setNearest(0.8 * view.shell.shell_length_m);
    add({"water", tr("Water"), stepped(0, 100, 5), [](double value) { return tr("%1 %").arg(value); }}).setNearest(100);
    add({"pitch", tr("Tilt"), stepped(-15, 15, 0.1), degrees}).setNearest(view.pitch_deg.value_or(0));
    //: side of a square pad under each support
    add({"pad", tr("Pad"),
        us() ? std::vector<double>{6 * kInch, 8 * kInch, 12 * kInch, 18 * kInch, 24 * kInch, 36 * kInch}
             : std::vector<double>{0.15, 0.2, 0.3, 0.45, 0.6, 0.9},
        size, 2});
    const QStringList grounds{tr("clay"), tr("sand"), tr("gravel"), tr("rock")};
    add({"ground", tr("Ground"), stepped(0, 3, 1), [grounds](double value) { return grounds.value(static_cast<int>(value)); }});
    setChosen("right");
    handles("right", static_cast<double>(places.size()), "water", 20);
    addView("section", tr("Section"));
    //: how the loads grow while it fills
    addView("fill", tr("Filling"));
}

Json StandPage::asked(double share) const
{
    const report::VesselView& view = *subject().view;
    Json pose = Json::object();
    pose.set("pitch", measure(valueOf("pitch"), "deg")).set("roll", measure(view.roll_deg.value_or(0), "deg"));
    Json supports = Json::array();
    for (const char* key : {"left", "right"}) {
        Json support = Json::object();
        support.set("from_left_tangent", measure(valueOf(key), "m")).set("pad_area", measure(valueOf("pad") * valueOf("pad"), "m2"));
        supports.items.push_back(std::move(support));
    }
    Json all = Json::object();
    all.set("vessel", vesselInput(view.shell))
        .set("pose", pose)
        .set("openings", openingsInput(view.openings))
        .set("supports", std::move(supports))
        .set("ground", kGrounds.at(static_cast<std::size_t>(valueOf("ground"))));
    if (share <= 0) {
        all.set("full", 0).set("sling_angle", measure(kSling, "deg"));
        return all;
    }
    Json volume = Json::object();
    Json level_pose = Json::object();
    level_pose.set("pitch", measure(valueOf("pitch"), "deg"));
    volume.set("vessel", vesselInput(view.shell))
        .set("pose", std::move(level_pose))
        .set("volume", measure(std::min(share, 1 - 1e-9) * view.shell.capacity_m3, "m3"));
    if (const auto level = ask("level", volume); share < 1 && level) {
        all.set("contents_depth", measure(numberOf(level->values, "depth_m"), "m"));
    } else {
        all.set("full", 1);
    }
    return all;
}

void StandPage::compute()
{
    if (sayMeasureFirst()) {
        return;
    }
    auto result = ask("support", asked(valueOf("water") / 100));
    if (!result) {
        judge(report::Signal::Danger, tr("not known"), {});
        note(text::figureError(result.error()));
        return;
    }
    judgeIt(*result);
    tell(*result);
    draw(std::move(*result));
}

void StandPage::judgeIt(const figure::Result& result)
{
    const Json& values = result.values;
    if (warns(result.warnings, "tips")) {
        const double from = numberOf(values, "tips_from_depth_m");
        judge(report::Signal::Danger, tr("tips"),
            std::isnan(from) ? tr("It does not stand on these two.") : tr("It lifts off a support from a depth of %1.").arg(length(from)));
        return;
    }
    if (warns(result.warnings, "bears-more-than-the-ground-takes")) {
        judge(report::Signal::Warning, tr("sinks in"),
            //: a pressure of the ground
            tr("Such ground takes %1: larger pads.")
                .arg(text::quantity(numberOf(values, "ground_takes_Pa"), Dimension::Pressure, subject().reading)));
        return;
    }
    say(tr("Weighs"), text::quantity(numberOf(values, "total_mass_kg"), Dimension::Mass, subject().reading),
        tr("It does not tip while it fills, by this plan."));
}

void StandPage::tell(const figure::Result& result)
{
    const Json& values = result.values;
    lineOf(tr("On the left"), numberOf(values, "left_N"), Dimension::Force);
    lineOf(tr("On the right"), numberOf(values, "right_N"), Dimension::Force);
    lineOf(tr("Most on one"), std::max(numberOf(values, "worst_left_N"), numberOf(values, "worst_right_N")), Dimension::Force);
    double head = 0;
    if (const Json* const openings = values.find("openings"); openings != nullptr) {
        for (const Json& one : openings->items) {
            head = std::max(head, numberOf(one, "pressure_Pa"));
        }
    }
    //: the highest pressure of water on a plug
    line(tr("On lowest plug"), head < 100 ? tr("none") : text::quantity(head, Dimension::Pressure, subject().reading));
    //: a coefficient of friction
    line(tr("Slides below friction"), QString::number(numberOf(values, "slides_at_friction"), 'f', 2));
    if (valueOf("water") > 0) {
        note(tr("Filled it is not lifted, turned or moved: let the water out first."));
    } else if (values.find("sling_leg_N") != nullptr) {
        //: %1 a force, %2 degrees
        note(tr("Empty, on two sling legs at %2° each takes %1 (the angle is a proposal).")
                 .arg(text::quantity(numberOf(values, "sling_leg_N"), Dimension::Force, subject().reading))
                 .arg(kSling));
    }
    noteWarnings(result.warnings);
    note(tr("What the shell, a saddle or an old leg bears is not worked out here. Full of water it weighs about twice what its legs "
            "carried with gas in it (computed)."));
    note(tr("Ground: presumptive values of the International Building Code, table 1804.2, as quoted (found). Frozen, wet or filled "
            "ground takes less."));
}

void StandPage::draw(figure::Result result)
{
    const auto force = [this](double value) { return text::quantity(value, Dimension::Force, subject().reading); };
    if (view() == QLatin1String("section")) {
        std::vector<PartLabel> labels;
        for (const auto& [part, key] : {std::pair("support:1", "left_N"), std::pair("support:2", "right_N")}) {
            labels.push_back({part, force(numberOf(result.values, key))});
        }
        paint([result = std::move(result), labels](const Canvas& canvas) {
            paintSection(canvas, result, QRectF(0, 0, canvas.size.width(), canvas.size.height() - 36 * canvas.u), labels);
        });
        return;
    }
    Curve curve;
    //: the load of the left and of the right support
    Curve::Line left{{}, false, tr("left")};
    Curve::Line right{{}, true, tr("right")};
    double most = 0;
    for (int i = 0; i <= kFillPoints; ++i) {
        const double share = static_cast<double>(i) / kFillPoints;
        const auto there = ask("support", asked(share));
        if (there) {
            left.points.emplace_back(share, numberOf(there->values, "left_N"));
            right.points.emplace_back(share, numberOf(there->values, "right_N"));
            most = std::max({most, left.points.back().y(), right.points.back().y()});
        }
    }
    const double now = valueOf("water") / 100;
    curve.now = QPointF(now, std::max(numberOf(result.values, "left_N"), 0.0));
    curve.lines = {right, left};
    curve.most = QPointF(1, most);
    //: of the axis of filling: wholly
    curve.across = tr("full");
    curve.up = force(most);
    paint([curve = std::move(curve)](const Canvas& canvas) { paintCurve(canvas, curve); });
}

} // namespace brimful::tablet
