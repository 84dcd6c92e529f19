#include "app/tablet/level_page.h"

#include "app/tablet/section_drawing.h"

#include <cmath>

namespace brimful::tablet {

using canon::Json;
using quantity::Dimension;

namespace {

constexpr double kInch = 0.0254; // m
constexpr double kGallon = 0.003785411784; // m3
constexpr int kChartPoints = 24;

} // namespace

void LevelPage::open()
{
    const report::VesselView& view = *subject().view;
    const double across = std::max(view.shell.outside_diameter_m - 2 * view.shell.wall_m, 0.1);
    const auto depths = us() ? stepped(0, std::floor(across / kInch * 2) / 2, 0.5) : stepped(0, std::floor(across * 100), 1);
    const double depth_unit = us() ? kInch : 0.01;
    m_height = across;
    Json plain = Json::object();
    plain.set("vessel", vesselInput(view.shell));
    const auto capacity = ask("capacity", plain);
    m_capacity = capacity ? numberOf(capacity->values, "capacity_m3") : 1;
    m_unit = us() ? kGallon : 0.001;
    const double least = m_capacity / m_unit / 100;
    const double by = least <= 1 ? 1 : least <= 2 ? 2 : least <= 5 ? 5 : least <= 10 ? 10 : least <= 20 ? 20 : 50;
    std::vector<double> in_metres;
    in_metres.reserve(depths.size());
    for (const double depth : depths) {
        in_metres.push_back(depth * depth_unit);
    }
    //: of water, above the lowest point inside
    add({"depth", tr("Depth"), in_metres, [this](double value) { return length(value); }, in_metres.size() / 2});
    add({"volume", tr("Volume"), stepped(0, std::floor(m_capacity / m_unit / by) * by, by),
        [this](double value) { return text::quantity(value * m_unit, Dimension::Volume, subject().reading); }});
    m_volume_at = input("volume").at;
    add({"pitch", tr("Tilt"), stepped(-15, 15, 0.1), degrees}).setNearest(view.pitch_deg.value_or(0));
    m_places = {0.5 * view.shell.shell_length_m};
    QStringList names{tr("middle")};
    for (const report::OpeningView& one : view.openings) {
        if (one.head.empty()) {
            m_places.push_back(one.from_left_tangent_m);
            names << QString::fromStdString(one.name);
        }
    }
    //: where a dip stick is put in
    add({"stick", tr("Stick at"), stepped(0, static_cast<double>(m_places.size()) - 1, 1),
        [names](double value) { return names.value(static_cast<int>(value)); }});
    handles("pitch", 60, "depth", static_cast<double>(in_metres.size()));
    addView("section", tr("Section"));
    addView("chart", tr("Chart"));
}

Json LevelPage::asked() const
{
    Json pose = Json::object();
    pose.set("pitch", measure(valueOf("pitch"), "deg"));
    Json all = Json::object();
    all.set("vessel", vesselInput(subject().view->shell))
        .set("pose", std::move(pose))
        .set("stick", measure(m_places.at(static_cast<std::size_t>(valueOf("stick"))), "m"));
    return all;
}

void LevelPage::compute()
{
    if (sayMeasureFirst()) {
        return;
    }
    // Whichever of the two was moved is the one that is asked by.
    const bool by_volume = input("volume").at != m_volume_at;
    Json question = asked();
    if (by_volume) {
        question.set("volume", measure(valueOf("volume") * m_unit, "m3"));
    } else {
        question.set("depth", measure(valueOf("depth"), "m"));
    }
    auto result = ask("level", question);
    if (!result) {
        note(text::figureError(result.error()));
        judge(report::Signal::Danger, tr("not known"), {});
        return;
    }
    const Json& values = result->values;
    const double volume = numberOf(values, "volume_m3");
    const double depth = numberOf(values, "depth_m");
    if (by_volume) {
        change("depth").setNearest(depth);
    } else {
        change("volume").setNearest(volume / m_unit);
    }
    m_volume_at = input("volume").at;
    //: what is in the vessel
    say(tr("Holds"), text::quantity(volume, Dimension::Volume, subject().reading),
        tr("%1 % of %2")
            .arg(100 * numberOf(values, "fraction"), 0, 'f', 1)
            .arg(text::quantity(m_capacity, Dimension::Volume, subject().reading)));
    lineOf(tr("Depth"), depth, Dimension::Length);
    lineOf(tr("Stick is wet"), numberOf(values, "stick_reads_m"), Dimension::Length);
    lineOf(tr("Free surface"), numberOf(values, "free_surface_m2"), Dimension::Area);
    note(tr("From the measured shape (computed). Domes, baffles and couplings inside are not in it."));
    if (depth - numberOf(values, "stick_reads_m") > 1e-4) {
        note(text::warning("stick-does-not-reach-the-lowest-point"));
    }
    if (view() == QLatin1String("chart")) {
        fillChart(*result);
        return;
    }
    const std::vector<PartLabel> labels{{"water", text::quantity(volume, Dimension::Volume, subject().reading)}};
    paint([result = std::move(*result), labels](
              const Canvas& canvas) { paintSection(canvas, result, QRectF(QPointF(0, 0), canvas.size), labels); });
}

// Volume over depth at this tilt.
void LevelPage::fillChart(const figure::Result& now)
{
    Curve curve;
    Json full = asked();
    full.set("volume", measure(m_capacity * (1 - 1e-9), "m3"));
    const auto brim = ask("level", full);
    const double most = brim ? numberOf(brim->values, "depth_m") : m_height;
    Curve::Line line;
    for (int i = 0; i <= kChartPoints; ++i) {
        Json at = asked();
        at.set("depth", measure(most * i / kChartPoints, "m"));
        if (const auto there = ask("level", at)) {
            line.points.emplace_back(numberOf(there->values, "depth_m"), numberOf(there->values, "volume_m3"));
        }
    }
    curve.lines.push_back(std::move(line));
    curve.now = QPointF(numberOf(now.values, "depth_m"), numberOf(now.values, "volume_m3"));
    curve.most = QPointF(most, m_capacity);
    curve.across = length(most);
    curve.up = text::quantity(m_capacity, Dimension::Volume, subject().reading);
    paint([curve = std::move(curve)](const Canvas& canvas) { paintCurve(canvas, curve); });
}

} // namespace brimful::tablet
