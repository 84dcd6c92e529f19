#include "app/print/pictograms.h"

#include "app/print/strokes.h"

#include <cmath>
#include <numbers>

namespace brimful::print {

namespace {

// Each sign is drawn in a box of +-10.
QPainterPath saw()
{
    QPolygonF teeth;
    constexpr int kTeeth = 10;
    for (int i = 0; i < kTeeth; ++i) {
        const double a = 2 * std::numbers::pi * i / kTeeth;
        const double b = a + 2 * std::numbers::pi / kTeeth * 0.85;
        teeth << QPointF(6.2 * std::cos(a), 6.2 * std::sin(a)) << QPointF(8.6 * std::cos(b), 8.6 * std::sin(b));
    }
    QPainterPath path;
    path.addPolygon(teeth);
    path.closeSubpath();
    path.addEllipse(QPointF(0, 0), 1.8, 1.8);
    return path;
}

QPainterPath flame()
{
    QPainterPath path(QPointF(0.5, -9));
    path.cubicTo(QPointF(5, -4), QPointF(6.5, -1), QPointF(6.2, 3));
    path.cubicTo(QPointF(5.6, 7), QPointF(3, 8.6), QPointF(0, 8.6));
    path.cubicTo(QPointF(-4, 8.6), QPointF(-6.4, 6), QPointF(-6.2, 2.5));
    path.cubicTo(QPointF(-6, 0), QPointF(-4.6, -1.4), QPointF(-3.4, -2.6));
    path.cubicTo(QPointF(-3, -0.8), QPointF(-2.2, 0.2), QPointF(-1.2, 0.4));
    path.cubicTo(QPointF(-1.6, -3), QPointF(1, -5), QPointF(0.5, -9));
    return path;
}

QPainterPath drop()
{
    QPainterPath path(QPointF(0, -9));
    path.cubicTo(QPointF(2, -4.5), QPointF(6, -1), QPointF(6, 3));
    path.cubicTo(QPointF(6, 6.6), QPointF(3.4, 8.8), QPointF(0, 8.8));
    path.cubicTo(QPointF(-3.4, 8.8), QPointF(-6, 6.6), QPointF(-6, 3));
    path.cubicTo(QPointF(-6, -1), QPointF(-2, -4.5), QPointF(0, -9));
    return path;
}

QPainterPath arrows()
{
    QPainterPath path;
    path.addPolygon(QPolygonF({QPointF(-9, 0), QPointF(-4, -5), QPointF(-4, -1.6), QPointF(4, -1.6), QPointF(4, -5), QPointF(9, 0),
        QPointF(4, 5), QPointF(4, 1.6), QPointF(-4, 1.6), QPointF(-4, 5)}));
    path.closeSubpath();
    return path;
}

QPainterPath shapeOf(Forbidden what)
{
    switch (what) {
    case Forbidden::Cut:
        return saw();
    case Forbidden::Heat:
        return flame();
    case Forbidden::Fill:
        return drop();
    case Forbidden::Move:
        return arrows();
    }
    return {};
}

} // namespace

void paintForbidden(QPainter& p, Forbidden what, QPointF centre, double r, const QColor& ink, const QColor& ring, const QColor& paper)
{
    p.save();
    p.setRenderHint(QPainter::Antialiasing);
    p.translate(centre);
    p.scale(r / 15, r / 15);
    p.setPen(Qt::NoPen);
    p.setBrush(paper);
    p.drawEllipse(QPointF(0, 0), 15, 15);
    p.fillPath(shapeOf(what), ink);
    p.setBrush(Qt::NoBrush);
    const double edge = 13.6 * std::numbers::sqrt2 / 2;
    p.setPen(solid(paper, 3.8));
    p.drawLine(QPointF(-edge, -edge), QPointF(edge, edge));
    p.setPen(solid(ring, 2.6));
    p.drawEllipse(QPointF(0, 0), 13.6, 13.6);
    p.drawLine(QPointF(-edge, -edge), QPointF(edge, edge));
    p.restore();
}

} // namespace brimful::print
