#include "app/tablet/water_page.h"

#include "app/tablet/section_drawing.h"

#include <cmath>

namespace brimful::tablet {

using canon::Json;
using quantity::Dimension;

namespace {

constexpr double kMostTilt = 15.0; // degrees

} // namespace

void WaterPage::open()
{
    const report::VesselView& view = *subject().view;
    m_as_if = view.openings;
    add({"pitch", tr("Tilt"), stepped(-kMostTilt, kMostTilt, 0.1), degrees}).setNearest(view.pitch_deg.value_or(0));
    add({"roll", tr("Roll"), stepped(-180, 180, 1), degrees}).setOwn(view.roll_deg.value_or(0));
    handles("roll", 90, "pitch", 150);
    addView("water", tr("Water"));
    setAct(tr("Set to best"));
}

Json WaterPage::asked() const
{
    Json pose = Json::object();
    pose.set("pitch", measure(valueOf("pitch"), "deg")).set("roll", measure(valueOf("roll"), "deg"));
    Json all = Json::object();
    all.set("vessel", vesselInput(subject().view->shell)).set("pose", std::move(pose)).set("openings", openingsInput(m_as_if));
    return all;
}

std::vector<Row> WaterPage::openingRows() const
{
    std::vector<Row> rows;
    for (const report::OpeningView& one : m_as_if) {
        Row row;
        row.key = QString::fromStdString(one.name);
        row.title = row.key;
        row.line = isShut(one.state) ? tr("plugged") : tr("open");
        row.glyph = isShut(one.state) ? QStringLiteral("plugged") : QStringLiteral("open");
        for (const report::OpeningView& real : subject().view->openings) {
            row.solid = row.solid && (real.name != one.name || isShut(real.state) == isShut(one.state));
        }
        rows.push_back(std::move(row));
    }
    return rows;
}

void WaterPage::compute()
{
    setSwitches(openingRows());
    auto shown = std::make_shared<report::VesselView>(*subject().view);
    shown->pitch_deg = valueOf("pitch");
    shown->roll_deg = valueOf("roll");
    shown->openings = m_as_if;
    shown->places.clear();
    Json question = asked();
    if (!subject().view->contents.empty()) {
        question.set("substance", subject().view->contents);
    }
    const figure::Figure& fill = *figure::byName("water-fill");
    auto result = figure::compute(fill, question, subject().reference);
    if (!result && result.error().code == figure::Code::UnknownSubstance) {
        result = figure::compute(fill, asked(), subject().reference);
    }
    auto across = std::make_shared<figure::Result>();
    if (sayMeasureFirst()) {
        return;
    }
    if (!result) {
        judgeAs("gas", tr("Pocket"), tr("unknown"), {});
        note(text::figureError(result.error()));
    } else {
        const Json& values = result->values;
        const double trapped = numberOf(values, "trapped_m3");
        const double burns = numberOf(values, "gas_to_limit_kg");
        const std::string_view kind = values.textOf("pocket");
        judgeAs("gas",
            kind == "sealed"       ? tr("Pocket, sealed")
                : kind == "vented" ? tr("Pocket, vented")
                                   : tr("Pocket"),
            kind == "none" ? tr("none") : tr("%1 L").arg(trapped * 1000.0, 0, 'f', trapped < 0.01 ? 2 : 1),
            //: %1: grams of gas
            std::isnan(burns) ? QString() : tr("It can burn from %1 g of gas.").arg(burns * 1000.0, 0, 'g', 2));
        shown->water.state = report::WaterState::Brim;
        shown->water.sight = report::Sight::Believed;
        shown->water.pocket_L = trapped * 1000.0;
        lineOf(tr("Water"), numberOf(values, "water_m3"), Dimension::Volume);
        lineOf(tr("Full it weighs"), numberOf(values, "total_mass_kg"), Dimension::Mass);
        lineOf(tr("Time to fill"), numberOf(values, "fill_time_s"), Dimension::Duration);
        if (!m_best.isEmpty()) {
            note(m_best);
        }
        noteWarnings(result->warnings);
        across->picture = std::move(result->picture);
    }
    paint([shown, across](const Canvas& canvas) {
        const double wide = std::min(0.26 * canvas.size.width(), canvas.size.height());
        const bool both = !across->picture.empty();
        print::DrawOptions options;
        options.box = QRectF(0, 0, canvas.size.width() - (both ? wide : 0), canvas.size.height());
        options.line_scale = canvas.u;
        print::paintVessel(canvas.painter, *shown, canvas.palette, options);
        if (both) {
            paintAcross(canvas, *across, QRectF(canvas.size.width() - wide, 0.16 * canvas.size.height(), wide, 0.6 * canvas.size.height()));
        }
    });
}

void WaterPage::flipped(const QString& key)
{
    for (report::OpeningView& one : m_as_if) {
        if (QString::fromStdString(one.name) == key) {
            one.state = isShut(one.state) ? report::OpeningState::Open : report::OpeningState::Plugged;
        }
    }
}

void WaterPage::act()
{
    const auto result = ask("best-pose", asked());
    if (result) {
        const Json& values = result->values;
        change("pitch").setNearest(numberOf(values, "best_pitch_deg"));
        change("roll").setNearest(numberOf(values, "best_roll_deg"));
        //: %1 and %2 are volumes; the best way to lay a vessel, exactly so and within one degree of it
        m_best = tr("Best within 3°: %1 as laid, up to %2 if it lies 1° off. Lay it so while it is empty; never turn it filled.")
                     .arg(text::quantity(numberOf(values, "at_best_m3"), Dimension::Volume, subject().reading),
                         text::quantity(numberOf(values, "best_trapped_m3"), Dimension::Volume, subject().reading));
    } else {
        m_best = text::figureError(result.error());
    }
    refresh();
    m_best.clear();
}

} // namespace brimful::tablet
