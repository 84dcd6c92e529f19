#include "app/print/filling.h"

#include "app/print/strokes.h"

#include <QCoreApplication>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace brimful::print {

using report::OpeningState;
using report::Sight;
using report::WaterState;

namespace {

class Words {
    Q_DECLARE_TR_FUNCTIONS(Drawing)
public:
    static QString litres(double value)
    {
        //: in a small box on the drawing: gas that stays under the shell, in litres
        return tr("%1 L").arg(value, 0, 'f', value < 10 ? 1 : 0);
    }
};

constexpr double kLeastPocket_L = 0.05;

// Height of the level as a share of the diameter, for a share of the volume of a lying cylinder.
double heightShare(double fraction)
{
    double low = 0;
    double high = 2 * std::numbers::pi;
    for (int i = 0; i < 50; ++i) {
        const double mid = (low + high) / 2;
        ((mid - std::sin(mid)) / (2 * std::numbers::pi) < fraction ? low : high) = mid;
    }
    return (1 - std::cos(low / 2)) / 2;
}

// The lowest height at which water leaves: the highest mouth would be above it, so water rests at the vent's root.
std::optional<double> spillLevel(const std::vector<Nozzle>& all, const Section& s)
{
    std::optional<double> level;
    for (const Nozzle& n : all) {
        const bool vents = n.opening->state == OpeningState::Brim;
        const bool open = n.opening->state == OpeningState::Open && n.side == Nozzle::Side::Top;
        const double y = n.root.y() - n.out.y() * s.wall() / 2;
        if (vents) {
            return y;
        }
        if (open) {
            level = std::min(level.value_or(y), y);
        }
    }
    return level;
}

} // namespace

Filling fillingOf(const report::VesselView& view, const Section& s, const std::vector<Nozzle>& all)
{
    Filling out;
    out.gas_throughout = view.contents_sight != Sight::Proven;
    out.water_proven = view.water.sight == Sight::Proven;
    const QRectF inside = s.outline(-s.wall() / 2).boundingRect();
    switch (view.water.state) {
    case WaterState::Unknown:
    case WaterState::Empty:
        break;
    case WaterState::Part:
        out.level = inside.bottom() - heightShare(std::clamp(view.water.fraction, 0.02, 0.98)) * inside.height();
        out.surface = true;
        break;
    case WaterState::Brim:
        out.level = inside.top() - s.wall(); // above the shell's top: the nozzles are full too
        if (view.water.pocket_L.value_or(0.0) >= kLeastPocket_L) {
            out.pocket_l = view.water.pocket_L;
            const double least = inside.top() + 0.1 * std::min(inside.height(), 2 * s.radius);
            out.level = std::max(spillLevel(all, s).value_or(least), least);
            out.surface = true;
        }
        break;
    }
    return out;
}

void paintFilling(QPainter& p, const Filling& f, const Section& s, const Palette& palette)
{
    const QPainterPath inside = s.outline(0);
    const QRectF box = inside.boundingRect();
    p.save();
    p.setClipPath(inside, Qt::IntersectClip);
    p.fillRect(box, palette.panel);
    if (f.gas_throughout || f.pocket_l) {
        dotGas(p, f.level ? QRectF(box.topLeft(), QPointF(box.right(), *f.level)) : box, palette, s.u);
    }
    if (f.level) {
        const QRectF water(QPointF(box.left(), *f.level), box.bottomRight());
        hatchWater(p, water, palette, s.u, f.water_proven);
        if (f.surface) {
            p.setPen(f.water_proven ? solid(palette.water_ink, 4 * s.u) : broken(palette.water_ink, 4 * s.u, 12 * s.u, 8 * s.u));
            p.drawLine(water.topLeft(), water.topRight());
        }
    }
    p.restore();
}

void paintLevelMark(QPainter& p, const Filling& f, const Section& s, const Palette& palette)
{
    if (!f.level || !f.surface || !f.water_proven || f.pocket_l) {
        return;
    }
    const double u = s.u;
    const QRectF box = s.outline(0).boundingRect();
    const QPointF tip(box.left() + 0.22 * box.width(), *f.level - 2 * u);
    p.setPen(solid(palette.water_ink, 2.7 * u));
    p.setBrush(palette.paper);
    p.drawPolygon(QPolygonF({tip, tip + QPointF(-12.6 * u, -21.6 * u), tip + QPointF(12.6 * u, -21.6 * u)}));
    p.setBrush(Qt::NoBrush);
    p.drawLine(tip + QPointF(-9 * u, 8.3 * u), tip + QPointF(9 * u, 8.3 * u));
    p.drawLine(tip + QPointF(-4.5 * u, 13.7 * u), tip + QPointF(4.5 * u, 13.7 * u));
}

QRectF paintPocketBox(QPainter& p, const Filling& f, const Section& s, const Palette& palette)
{
    if (!f.pocket_l || !f.level) {
        return {};
    }
    const double u = s.u;
    const QFont font = letters(30 * u, true);
    const QString text = Words::litres(*f.pocket_l);
    const QRectF shell = s.outline(0).boundingRect();
    // Under the higher end, where the pocket is deepest.
    const double share = s.tilt_deg < -0.01 ? 0.24 : 0.76;
    const double width = widthOf(font, text) + 24 * u;
    const QRectF box(shell.left() + share * shell.width() - width / 2, *f.level + 12 * u, width, 42 * u);
    p.setPen(solid(palette.gas_ink, 2.5 * u));
    p.setBrush(palette.panel);
    p.drawRoundedRect(box, 6 * u, 6 * u);
    p.setBrush(Qt::NoBrush);
    write(p, font, palette.gas_ink, QPointF(box.center().x(), box.bottom() - 10 * u), text, Place::Centre);
    return box;
}

} // namespace brimful::print
