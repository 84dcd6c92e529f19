#include "app/tablet/figure_page.h"

#include <cmath>

namespace brimful::tablet {

using canon::Json;
using quantity::Dimension;

namespace {

constexpr int kMostTilt = 150; // tenths of a degree

std::string metres(double value) { return QString::number(value, 'f', 4).toStdString() + " m"; }

bool isShut(report::OpeningState state)
{
    return state == report::OpeningState::Plugged || state == report::OpeningState::Stuck || state == report::OpeningState::Unknown;
}

double numberOf(const Json& values, std::string_view key)
{
    const Json* found = values.find(key);
    return found == nullptr ? std::nan("") : found->number;
}

} // namespace

void FigurePage::show(const VesselPicture& picture, const figure::Reference& reference, const text::Reading& reading)
{
    m_real = picture;
    m_reference = reference;
    m_reading = reading;
    m_as_if = picture.view->openings;
    m_pitch = static_cast<int>(std::lround(picture.view->pitch_deg.value_or(0) * 10));
    m_roll = static_cast<int>(std::lround(picture.view->roll_deg.value_or(0) * 10));
    compute();
}

Json FigurePage::inputs() const
{
    const report::ShellView& shell = m_real.view->shell;
    Json vessel = Json::object();
    vessel.set("outside_diameter", metres(shell.outside_diameter_m))
        .set("wall", metres(shell.wall_m))
        .set("shell_length", metres(shell.shell_length_m))
        .set("left_head", shell.left_head)
        .set("right_head", shell.right_head);
    Json pose = Json::object();
    pose.set("pitch", QString::number(m_pitch / 10.0, 'f', 1).toStdString() + " deg")
        .set("roll", QString::number(m_roll / 10.0, 'f', 1).toStdString() + " deg");
    Json openings = Json::array();
    for (const report::OpeningView& one : m_as_if) {
        Json opening = Json::object();
        opening.set("name", one.name)
            .set("from_left_tangent", metres(one.from_left_tangent_m))
            .set("clock", QString::number(one.clock_deg, 'f', 3).toStdString() + " deg")
            .set("state", isShut(one.state) ? "plugged" : "open");
        openings.items.push_back(std::move(opening));
    }
    Json all = Json::object();
    all.set("vessel", std::move(vessel)).set("pose", std::move(pose)).set("openings", std::move(openings));
    if (!m_real.view->contents.empty()) {
        all.set("substance", m_real.view->contents);
    }
    return all;
}

void FigurePage::compute()
{
    auto shown = std::make_shared<report::VesselView>(*m_real.view);
    shown->pitch_deg = m_pitch / 10.0;
    shown->roll_deg = m_roll / 10.0;
    shown->openings = m_as_if;
    shown->places.clear();
    m_pocket = tr("unknown");
    m_pocket_title = tr("Pocket");
    m_burns.clear();
    m_message.clear();
    std::vector<Row> lines;
    Json asked = inputs();
    auto result = figure::compute(*figure::byName("water-fill"), asked, m_reference);
    if (!result && result.error().code == figure::Code::UnknownSubstance) {
        std::erase_if(asked.members, [](const canon::Member& member) { return member.key == "substance"; });
        result = figure::compute(*figure::byName("water-fill"), asked, m_reference);
    }
    const auto add = [&](const QString& title, double si, Dimension dimension) {
        if (!std::isnan(si)) {
            Row row;
            row.key = title;
            row.title = title;
            row.line = text::quantity(si, dimension, m_reading);
            lines.push_back(std::move(row));
        }
    };
    if (!result) {
        m_message = text::figureError(result.error());
    } else {
        const Json& values = result->values;
        const double trapped = numberOf(values, "trapped_m3");
        const std::string_view kind = values.textOf("pocket");
        m_pocket_title = kind == "sealed" ? tr("Pocket, sealed") : kind == "vented" ? tr("Pocket, vented") : tr("Pocket");
        m_pocket = kind == "none" ? tr("none") : tr("%1 L").arg(trapped * 1000.0, 0, 'f', trapped < 0.01 ? 2 : 1);
        shown->water.state = report::WaterState::Brim;
        shown->water.sight = report::Sight::Believed;
        shown->water.pocket_L = trapped * 1000.0;
        add(tr("Water"), numberOf(values, "water_m3"), Dimension::Volume);
        add(tr("Full it weighs"), numberOf(values, "total_mass_kg"), Dimension::Mass);
        add(tr("Time to fill"), numberOf(values, "fill_time_s"), Dimension::Duration);
        const double burns = numberOf(values, "gas_to_limit_kg");
        if (!std::isnan(burns)) {
            m_burns = tr("%1 g").arg(burns * 1000.0, 0, 'g', 2);
        }
        for (const std::string& word : result->warnings) {
            m_message = text::warning(word);
        }
    }
    m_lines.set(std::move(lines));
    std::vector<Row> rows;
    for (const report::OpeningView& one : m_as_if) {
        Row row;
        row.key = QString::fromStdString(one.name);
        row.title = row.key;
        row.line = isShut(one.state) ? tr("plugged") : tr("open");
        row.glyph = isShut(one.state) ? QStringLiteral("plugged") : QStringLiteral("open");
        for (const report::OpeningView& real : m_real.view->openings) {
            row.solid = row.solid && (real.name != one.name || isShut(real.state) == isShut(one.state));
        }
        rows.push_back(std::move(row));
    }
    m_openings.set(std::move(rows));
    m_picture.view = std::move(shown);
    Q_EMIT changed();
}

void FigurePage::tilt(int steps)
{
    m_pitch = std::clamp(m_pitch + steps, -kMostTilt, kMostTilt);
    compute();
}

void FigurePage::turn(int steps)
{
    m_roll = std::clamp(m_roll + steps, -1800, 1800);
    compute();
}

void FigurePage::toggle(const QString& opening)
{
    for (report::OpeningView& one : m_as_if) {
        if (QString::fromStdString(one.name) == opening) {
            one.state = isShut(one.state) ? report::OpeningState::Open : report::OpeningState::Plugged;
        }
    }
    compute();
}

void FigurePage::setToBest()
{
    Json asked = inputs();
    std::erase_if(asked.members, [](const canon::Member& member) { return member.key == "substance"; });
    const auto result = figure::compute(*figure::byName("best-pose"), asked, m_reference);
    if (!result) {
        m_message = text::figureError(result.error());
        Q_EMIT changed();
        return;
    }
    const double pitch = numberOf(result->values, "best_pitch_deg");
    const double roll = numberOf(result->values, "best_roll_deg");
    m_pitch = std::isnan(pitch) ? m_pitch : static_cast<int>(std::lround(pitch * 10));
    m_roll = std::isnan(roll) ? m_roll : static_cast<int>(std::lround(roll * 10));
    compute();
}

//: a tilt in degrees
QString FigurePage::pitch() const { return tr("%1°").arg(m_pitch / 10.0, 0, 'f', 1); }
QString FigurePage::roll() const { return tr("%1°").arg(m_roll / 10.0, 0, 'f', 1); }

} // namespace brimful::tablet
