#include "app/print/openings.h"

#include "app/print/strokes.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace brimful::print {

using report::OpeningState;
using report::Sight;

namespace {

constexpr double kTall = 24.5; // from the middle of the wall to the mouth

// Nozzle seen from the side, looking up; in units of `u`, origin in the middle of the wall.
struct Upright {
    QPainter& p;
    const Palette& palette;
    double u;
    bool proven;

    [[nodiscard]] QPen pen(double width, const QColor& colour) const
    {
        return proven ? solid(colour, width * u) : broken(colour, width * u, 8 * u, 6 * u);
    }
    void gap(bool watered, bool water_proven) const
    {
        const QRectF room(-12 * u, -kTall * u, 24 * u, (kTall + 6.5) * u);
        p.fillRect(QRectF(-12 * u, -6 * u, 24 * u, 12.5 * u), palette.panel);
        if (watered) {
            p.fillRect(room, water_proven && palette.fills ? palette.water : palette.panel);
            p.setPen(solid(palette.water_ink, 2 * u));
            for (const double y : {-16.0, -4.0}) {
                p.drawLine(QPointF(-8 * u, y * u), QPointF(8 * u, y * u));
            }
        }
    }
    void lips() const
    {
        p.setPen(pen(6, palette.ink));
        for (const double x : {-15.0, 15.0}) {
            p.drawLine(QPointF(x * u, 5.5 * u), QPointF(x * u, -kTall * u));
        }
    }
    void drip() const
    {
        p.setPen(solid(palette.water_ink, 3 * u));
        p.setBrush(Qt::NoBrush);
        QPainterPath drop(QPointF(8 * u, -kTall * u));
        drop.cubicTo(QPointF(20 * u, -(kTall + 8) * u), QPointF(28 * u, -(kTall - 2) * u), QPointF(26 * u, -8 * u));
        p.drawPath(drop);
    }
    void plug() const
    {
        QPolygonF block;
        for (const auto& [x, y] : {std::pair(-18.0, 4.5), {-18.0, -15.5}, {-24.0, -15.5}, {-24.0, -kTall}, {24.0, -kTall}, {24.0, -15.5},
                 {18.0, -15.5}, {18.0, 4.5}}) {
            block << QPointF(x * u, y * u);
        }
        p.setPen(proven ? QPen(Qt::NoPen) : broken(palette.ink, 4 * u, 8 * u, 5 * u));
        p.setBrush(proven ? palette.ink : palette.paper);
        p.drawPolygon(block);
        p.setBrush(Qt::NoBrush);
    }
    void strike() const
    {
        const QLineF line(-32 * u, 6 * u, 32 * u, -38 * u);
        p.setPen(solid(palette.paper, 10 * u));
        p.drawLine(line);
        p.setPen(solid(palette.ink, 4 * u));
        p.drawLine(line);
    }
};

void paintUpright(const Upright& draw, OpeningState state, bool watered, bool water_proven)
{
    switch (state) {
    case OpeningState::Open:
    case OpeningState::Brim:
        draw.gap(watered, water_proven);
        draw.lips();
        if (state == OpeningState::Brim && watered) {
            draw.drip();
        }
        return;
    case OpeningState::Plugged:
        draw.plug();
        return;
    case OpeningState::Stuck:
        draw.plug();
        draw.strike();
        return;
    case OpeningState::Unknown:
        draw.gap(false, false);
        draw.p.setPen(broken(draw.palette.ink, 6 * draw.u, 8 * draw.u, 6 * draw.u));
        for (const double x : {-15.0, 15.0}) {
            draw.p.drawLine(QPointF(x * draw.u, 5.5 * draw.u), QPointF(x * draw.u, -kTall * draw.u));
        }
        return;
    }
}

// A nozzle that looks at the reader, or away from him: a circle on the shell.
void paintOnFace(QPainter& p, const Nozzle& n, const Palette& palette, double u, bool proven)
{
    const double r = 15 * u;
    const bool shut = n.opening->state == OpeningState::Plugged || n.opening->state == OpeningState::Stuck;
    p.setPen(proven ? solid(palette.ink, (n.side == Nozzle::Side::Far ? 2.5 : 6) * u) : broken(palette.ink, 5 * u, 8 * u, 6 * u));
    p.setBrush(n.side == Nozzle::Side::Far ? QBrush(Qt::NoBrush) : QBrush(shut && proven ? palette.ink : palette.paper));
    p.drawEllipse(n.root, r, r);
    p.setBrush(Qt::NoBrush);
    if (n.opening->state == OpeningState::Stuck) {
        const QPointF reach(24 * u, -24 * u);
        p.setPen(solid(palette.paper, 10 * u));
        p.drawLine(n.root - reach, n.root + reach);
        p.setPen(solid(palette.ink, 4 * u));
        p.drawLine(n.root - reach, n.root + reach);
    }
}

QString nameOf(const Nozzle& n)
{
    const QString name = QString::fromStdString(n.opening->name);
    return n.opening->state == OpeningState::Unknown ? name + QStringLiteral(" ?") : name;
}

struct Named {
    QPointF base;
    Place place;
};

Named whereNamed(const Nozzle& n, double u)
{
    switch (n.side) {
    case Nozzle::Side::Top:
        return {n.root + n.out * (kTall + 9) * u, Place::Centre};
    case Nozzle::Side::Bottom:
        return {n.root + n.out * 16 * u + QPointF(34 * u, 16 * u), Place::Left};
    case Nozzle::Side::Near:
    case Nozzle::Side::Far:
        return {n.root + QPointF(24 * u, 10 * u), Place::Left};
    case Nozzle::Side::LeftEnd:
        return {n.root + n.out * (kTall + 4) * u + QPointF(0, -24 * u), Place::Centre};
    case Nozzle::Side::RightEnd:
        return {n.root + n.out * (kTall + 4) * u + QPointF(0, -24 * u), Place::Centre};
    }
    return {n.root, Place::Centre};
}

} // namespace

QRectF paintNozzle(QPainter& p, const Nozzle& n, const Section& s, const Palette& palette, bool watered, bool water_proven)
{
    const bool proven = n.opening->sight == Sight::Proven;
    const double u = s.u;
    if (n.side == Nozzle::Side::Near || n.side == Nozzle::Side::Far) {
        paintOnFace(p, n, palette, u, proven);
        return {n.root - QPointF(18, 18) * u, QSizeF(36, 36) * u};
    }
    p.save();
    p.translate(n.root);
    p.rotate(std::atan2(n.out.x(), -n.out.y()) * 180 / std::numbers::pi);
    const bool looks_up = n.side == Nozzle::Side::Top;
    paintUpright({p, palette, u, proven}, n.opening->state, watered && (looks_up || n.side == Nozzle::Side::Bottom), water_proven);
    const QRectF box = p.transform().mapRect(QRectF(-24 * u, -kTall * u, 48 * u, 30 * u));
    p.restore();
    return p.transform().inverted().mapRect(box);
}

namespace {

struct Row {
    const Nozzle* nozzle;
    QPointF base;
    Place place;
    int row;
};

std::vector<Row> rowsOf(const std::vector<Nozzle>& all, double u)
{
    const QFont font = letters(30 * u, true);
    std::vector<const Nozzle*> in_order;
    for (const Nozzle& n : all) {
        in_order.push_back(&n);
    }
    std::ranges::sort(in_order, {}, [](const Nozzle* n) { return n->root.x(); });
    std::vector<QRectF> taken;
    std::vector<Row> rows;
    for (const Nozzle* n : in_order) {
        Named named = whereNamed(*n, u);
        const double width = widthOf(font, nameOf(*n));
        const double left = named.place == Place::Left ? named.base.x() : named.base.x() - width / 2;
        QRectF box(left - 4 * u, named.base.y() - 26 * u, width + 8 * u, 30 * u);
        int row = 0;
        while (std::ranges::any_of(taken, [&](const QRectF& other) { return other.intersects(box); })) {
            box.translate(0, -32 * u);
            ++row;
        }
        taken.push_back(box);
        rows.push_back({n, named.base - QPointF(0, row * 32 * u), named.place, row});
    }
    return rows;
}

} // namespace

int rowsOfNames(const std::vector<Nozzle>& all, double u)
{
    int most = 0;
    for (const Row& row : rowsOf(all, u)) {
        most = std::max(most, row.row);
    }
    return most + 1;
}

void nameNozzles(QPainter& p, const std::vector<Nozzle>& all, const Palette& palette, double u)
{
    for (const Row& row : rowsOf(all, u)) {
        const bool on_face = row.nozzle->side == Nozzle::Side::Near || row.nozzle->side == Nozzle::Side::Far;
        write(p, letters(30 * u, true), palette.ink, row.base, nameOf(*row.nozzle), row.place, on_face ? palette.paper : QColor());
    }
}

} // namespace brimful::print
