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
        return {n.root + n.out * (kTall + 30) * u, Place::Centre};
    case Nozzle::Side::Near:
    case Nozzle::Side::Far:
        return {n.root + QPointF(24 * u, 10 * u), Place::Left};
    case Nozzle::Side::LeftEnd:
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

struct Label {
    const Nozzle* nozzle;
    QPointF base;
    double width;
};

// Names of the nozzles on top, each at least its own width from the next: the mean of pushing all to the right and all to
// the left keeps that distance and stays near the nozzles.
std::vector<Label> topLabels(const std::vector<Nozzle>& all, double u)
{
    const QFont font = letters(30 * u, true);
    std::vector<Label> labels;
    for (const Nozzle& n : all) {
        if (n.side == Nozzle::Side::Top) {
            labels.push_back({&n, whereNamed(n, u).base, widthOf(font, nameOf(n))});
        }
    }
    std::ranges::sort(labels, {}, [](const Label& label) { return label.base.x(); });
    const auto apart = [&](std::size_t i) { return (labels[i].width + labels[i + 1].width) / 2 + 12 * u; };
    std::vector<double> right;
    std::vector<double> left(labels.size());
    for (std::size_t i = 0; i < labels.size(); ++i) {
        right.push_back(i == 0 ? labels[i].base.x() : std::max(labels[i].base.x(), right[i - 1] + apart(i - 1)));
    }
    for (std::size_t i = labels.size(); i-- > 0;) {
        left[i] = i + 1 == labels.size() ? labels[i].base.x() : std::min(labels[i].base.x(), left[i + 1] - apart(i));
    }
    for (std::size_t i = 0; i < labels.size(); ++i) {
        labels[i].base.setX((left[i] + right[i]) / 2);
    }
    return labels;
}

bool displaced(const Label& label, double u) { return std::abs(label.base.x() - whereNamed(*label.nozzle, u).base.x()) > 3 * u; }

} // namespace

bool namesCrowd(const std::vector<Nozzle>& all, double u)
{
    return std::ranges::any_of(topLabels(all, u), [u](const Label& label) { return displaced(label, u); });
}

void nameNozzles(QPainter& p, const std::vector<Nozzle>& all, const Palette& palette, double u)
{
    const QFont font = letters(30 * u, true);
    for (const Nozzle& n : all) {
        if (n.side != Nozzle::Side::Top) {
            const bool on_face = n.side == Nozzle::Side::Near || n.side == Nozzle::Side::Far;
            const Named named = whereNamed(n, u);
            write(p, font, palette.ink, named.base, nameOf(n), named.place, on_face ? palette.paper : QColor());
        }
    }
    const std::vector<Label> labels = topLabels(all, u);
    double row = 0;
    for (const Label& label : labels) {
        row = &label == &labels.front() ? label.base.y() : std::min(row, label.base.y());
    }
    const bool crowd = namesCrowd(all, u);
    for (const Label& label : labels) {
        if (!crowd) {
            write(p, font, palette.ink, label.base, nameOf(*label.nozzle), Place::Centre);
            continue;
        }
        const QPointF base(label.base.x(), row - 14 * u);
        p.setPen(solid(palette.ink, 2 * u));
        p.drawLine(label.nozzle->root + label.nozzle->out * (kTall + 2) * u, base + QPointF(0, 5 * u));
        write(p, font, palette.ink, base, nameOf(*label.nozzle), Place::Centre);
    }
}

} // namespace brimful::print
