#include "app/tablet/water_page.h"

#include "app/tablet/section_drawing.h"

#include <cmath>

namespace brimful::tablet {

using canon::Json;
using quantity::Dimension;

namespace {

constexpr double kMostTilt = 15.0; // degrees
constexpr double kInch = 0.0254; // m
constexpr double kAtTheTop = -1; // a snorkel's mouth at the high end, wherever that is

} // namespace

void WaterPage::open()
{
    const report::VesselView& view = *subject().view;
    m_as_if = view.openings;
    add({"pitch", tr("Tilt"), stepped(-kMostTilt, kMostTilt, 0.1), degrees}).setNearest(view.pitch_deg.value_or(0));
    add({"roll", tr("Roll"), stepped(-180, 180, 1), degrees}).setOwn(view.roll_deg.value_or(0));
    QStringList names{tr("none")};
    for (const report::OpeningView& one : m_as_if) {
        names << QString::fromStdString(one.name);
    }
    //: a bent tube through an opening up to the pocket, so that the water pushes the gas out through it
    add({"snorkel", tr("Snorkel"), stepped(0, static_cast<double>(m_as_if.size()), 1),
        [names](double value) { return names.value(static_cast<int>(value)); }});
    std::vector<double> places{kAtTheTop};
    const double by = us() ? 2 * kInch : 0.05;
    for (double at = 0; at <= view.shell.shell_length_m + 1e-9; at += by) {
        places.push_back(at);
    }
    constexpr int kLetters = 12;
    //: where the tube ends inside, along the vessel
    add({"mouth", tr("Ends"), places, [this](double value) { return value < 0 ? tr("high end") : length(value); }, 0, kLetters});
    //: how far below the wall on top the tube ends
    add({"under", tr("Off top"),
        us() ? std::vector<double>{kInch / 8, kInch / 4, kInch / 2, kInch, 2 * kInch} : std::vector<double>{0.003, 0.006, 0.01, 0.02, 0.05},
        [this](double value) { return length(value); }, 2});
    //: the gap between the tube and its opening
    add({"gap", tr("Gap"), {0, 1}, [](double value) { return value > 0 ? tr("packed") : tr("open"); }, 1, kLetters - 2});
    handles("roll", 90, "pitch", 150);
    addView("water", tr("Water"));
    setAct(tr("Set to best"));
}

const report::OpeningView* WaterPage::snorkelled() const
{
    const auto at = static_cast<std::size_t>(valueOf("snorkel"));
    return at == 0 || isShut(m_as_if.at(at - 1).state) ? nullptr : &m_as_if.at(at - 1);
}

void WaterPage::askOfSnorkel()
{
    for (const char* key : {"mouth", "under", "gap"}) {
        setAsked(key, valueOf("snorkel") > 0);
    }
}

// Its mouth is turned to the top, whatever the roll.
Json WaterPage::snorkel() const
{
    constexpr double kTurn = 360;
    const double high_end = valueOf("pitch") < 0 ? 0 : subject().view->shell.shell_length_m;
    const double place = valueOf("mouth") < 0 ? high_end : valueOf("mouth");
    Json out = Json::object();
    out.set("from_left_tangent", measure(place, "m"))
        .set("clock", measure(std::fmod(kTurn - valueOf("roll"), kTurn), "deg"))
        .set("below_wall", measure(valueOf("under"), "m"))
        .set("packed", static_cast<int>(valueOf("gap")));
    return out;
}

void WaterPage::tellOfSnorkel()
{
    if (valueOf("snorkel") > 0 && snorkelled() == nullptr) {
        note(tr("That opening is plugged: no tube goes through it."));
    } else if (snorkelled() != nullptr && valueOf("gap") == 0) {
        note(tr("The gap round the tube is open: the water runs out there before the tube draws. Pack it."));
    } else if (snorkelled() != nullptr) {
        note(tr("The water pushes the gas out through the tube: it comes out at its end, which stands higher than the vessel and is "
                "the vent. Common practice, no source."));
    }
}

Json WaterPage::asked(bool with_snorkel) const
{
    Json pose = Json::object();
    pose.set("pitch", measure(valueOf("pitch"), "deg")).set("roll", measure(valueOf("roll"), "deg"));
    Json all = Json::object();
    Json openings = openingsInput(m_as_if);
    if (const report::OpeningView* const through = snorkelled(); with_snorkel && through != nullptr) {
        openings.items.at(static_cast<std::size_t>(through - m_as_if.data())).set("snorkel", snorkel());
    }
    all.set("vessel", vesselInput(subject().view->shell)).set("pose", std::move(pose)).set("openings", std::move(openings));
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
    askOfSnorkel();
    auto shown = std::make_shared<report::VesselView>(*subject().view);
    shown->pitch_deg = valueOf("pitch");
    shown->roll_deg = valueOf("roll");
    shown->openings = m_as_if;
    shown->places.clear();
    Json question = asked(true);
    if (!subject().view->contents.empty()) {
        question.set("substance", subject().view->contents);
    }
    const figure::Figure& fill = *figure::byName("water-fill");
    auto result = figure::compute(fill, question, subject().reference);
    if (!result && result.error().code == figure::Code::UnknownSubstance) {
        result = figure::compute(fill, asked(true), subject().reference);
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
        tellOfSnorkel();
        noteWarnings(result->warnings);
        across->picture = std::move(result->picture);
    }
    paint([shown, across, tube = snorkelled() != nullptr](const Canvas& canvas) {
        const double wide = std::min(0.26 * canvas.size.width(), canvas.size.height());
        const bool both = !across->picture.empty();
        const QRectF along(0, 0, canvas.size.width() - (both ? wide : 0), canvas.size.height());
        if (tube) { // at its true shape, so that the tube ends where it says
            paintSection(canvas, *across, along);
        } else {
            print::DrawOptions options;
            options.box = along;
            options.line_scale = canvas.u;
            print::paintVessel(canvas.painter, *shown, canvas.palette, options);
        }
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
    const auto result = ask("best-pose", asked(false));
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
