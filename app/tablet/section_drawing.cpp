#include "app/tablet/section_drawing.h"

#include "app/print/strokes.h"

namespace brimful::tablet {

namespace {

constexpr double kTextSize = 30;

bool isAcross(const figure::Line& line) { return line.part.starts_with("across:"); }

} // namespace

void paintSection(const Canvas& canvas, const figure::Result& result, const QRectF& box, const std::vector<PartLabel>& labels)
{
    figure::Result along;
    for (const figure::Line& line : result.picture) {
        if (!isAcross(line)) {
            along.picture.push_back(line);
        }
    }
    QPainter& p = canvas.painter;
    const double u = canvas.u;
    const auto parts = print::paintFigure(p, along, canvas.palette, box, u);
    for (const PartLabel& label : labels) {
        for (const print::PartPlace& part : parts) {
            if (part.id == label.part) {
                const QFont font = print::letters(kTextSize * u, true);
                const double half = print::widthOf(font, label.words) / 2 + 6 * u;
                const double x = std::clamp(part.anchor.x(), box.left() + half, box.right() - half);
                // What a support carries stands under it.
                const double y = label.part.startsWith(QLatin1String("support")) ? part.box.bottom() + 34 * u : part.anchor.y() + 10 * u;
                print::write(p, font, canvas.palette.ink, QPointF(x, y), label.words, print::Place::Centre, canvas.palette.paper);
            }
        }
    }
}

void paintAcross(const Canvas& canvas, const figure::Result& result, const QRectF& box)
{
    figure::Result across;
    for (const figure::Line& line : result.picture) {
        if (isAcross(line)) {
            across.picture.push_back(line);
        }
    }
    print::paintFigure(canvas.painter, across, canvas.palette, box, canvas.u);
}

void paintCurve(const Canvas& canvas, const Curve& curve)
{
    QPainter& p = canvas.painter;
    const double u = canvas.u;
    const QFont font = print::letters(kTextSize * u);
    const double left = std::max(print::widthOf(font, curve.up), 60 * u) + 16 * u;
    const QRectF room(left, 26 * u, canvas.size.width() - left - 40 * u, canvas.size.height() - 80 * u);
    const auto at = [&](const QPointF& value) {
        return QPointF(room.left() + room.width() * value.x() / std::max(curve.most.x(), 1e-12),
            room.bottom() - room.height() * value.y() / std::max(curve.most.y(), 1e-12));
    };
    for (int i = 1; i <= 4; ++i) {
        p.setPen(print::broken(canvas.palette.line, 1.5 * u, 3 * u, 6 * u));
        const double y = room.bottom() - room.height() * i / 4;
        const double x = room.left() + room.width() * i / 4;
        p.drawLine(QPointF(room.left(), y), QPointF(room.right(), y));
        p.drawLine(QPointF(x, room.top()), QPointF(x, room.bottom()));
    }
    p.setPen(print::solid(canvas.palette.ink, 5 * u));
    p.drawPolyline(QPolygonF({room.topLeft(), room.bottomLeft(), room.bottomRight()}));
    print::write(p, font, canvas.palette.ink, QPointF(room.left() - 10 * u, room.top() + 11 * u), curve.up, print::Place::Right);
    print::write(
        p, font, canvas.palette.ink, QPointF(room.left() - 10 * u, room.bottom() + 11 * u), QStringLiteral("0"), print::Place::Right);
    print::write(p, font, canvas.palette.ink, QPointF(room.right(), room.bottom() + 42 * u), curve.across, print::Place::Right);
    int named = 0;
    for (const Curve::Line& line : curve.lines) {
        QPolygonF points;
        for (const QPointF& value : line.points) {
            points << at(value);
        }
        p.setBrush(Qt::NoBrush);
        p.setPen(line.broken ? print::broken(canvas.palette.ink2, 4 * u, 12 * u, 8 * u) : print::solid(canvas.palette.ink, 7 * u));
        p.drawPolyline(points);
        if (!line.name.isEmpty() && !points.isEmpty()) {
            // The first name stands above its line, the second below, further on.
            const bool below = named++ % 2 == 1;
            const QPointF place = points.at(points.size() * (below ? 7 : 4) / 10);
            print::write(p, print::letters(kTextSize * u, true), canvas.palette.ink,
                place + (below ? QPointF(-14 * u, 36 * u) : QPointF(14 * u, -12 * u)), line.name,
                below ? print::Place::Right : print::Place::Left);
        }
    }
    if (curve.now) {
        p.setPen(print::solid(canvas.palette.paper, 9 * u));
        p.setBrush(canvas.palette.ink);
        p.drawEllipse(at(*curve.now), 13 * u, 13 * u);
    }
}

} // namespace brimful::tablet
