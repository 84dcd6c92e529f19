#include "app/print/strokes.h"

#include <QFontMetricsF>
#include <QPaintEngine>

#include <algorithm>
#include <cmath>

namespace brimful::print {

QPen solid(const QColor& colour, double width)
{
    QPen pen(colour, width);
    pen.setCapStyle(Qt::FlatCap);
    pen.setJoinStyle(Qt::MiterJoin);
    return pen;
}

QPen broken(const QColor& colour, double width, double dash, double gap)
{
    QPen pen = solid(colour, width);
    pen.setDashPattern({dash / width, gap / width});
    return pen;
}

QPen chain(const QColor& colour, double width, double u)
{
    QPen pen = solid(colour, width);
    pen.setDashPattern({22 * u / width, 6 * u / width, 4 * u / width, 6 * u / width});
    return pen;
}

namespace {

// Tiles that touch `area`, laid from the page's own origin so that two areas side by side agree.
template <class Draw> void tile(const QRectF& area, double width, double height, const Draw& draw)
{
    for (double y = std::floor(area.top() / height) * height; y < area.bottom(); y += height) {
        for (double x = std::floor(area.left() / width) * width; x < area.right(); x += width) {
            draw(QPointF(x, y));
        }
    }
}

} // namespace

void hatchWater(QPainter& p, const QRectF& area, const Palette& palette, double u, bool proven)
{
    p.save();
    p.setClipRect(area, Qt::IntersectClip);
    p.fillRect(area, proven && palette.fills ? palette.water : palette.panel);
    const double s = std::max(u, 0.4);
    QVector<QLineF> lines;
    tile(area, 44 * s, 26 * s, [&](QPointF o) {
        const auto dash = [&](double x, double y, double length) {
            lines.push_back(QLineF(o + QPointF(x, y) * s, o + QPointF(x + length, y) * s));
        };
        if (proven) {
            dash(4, 6, 22);
            dash(28, 19, 14);
            dash(0, 19, 6);
        } else {
            dash(4, 6, 8);
            dash(18, 6, 4);
            dash(28, 19, 8);
        }
    });
    p.setPen(solid(palette.water_ink, 2 * s));
    p.drawLines(lines);
    p.restore();
}

void dotGas(QPainter& p, const QRectF& area, const Palette& palette, double u)
{
    p.save();
    p.setClipRect(area, Qt::IntersectClip);
    p.fillRect(area, palette.fills ? palette.gas : palette.panel);
    const double s = std::max(u, 0.4);
    const double radius = 2.4 * s;
    QImage dot; // pixel by pixel it is painted once and laid down; scaled, and on paper, each is a circle
    if (p.paintEngine()->type() == QPaintEngine::Raster && p.combinedTransform().type() <= QTransform::TxTranslate) {
        const int side = 2 * static_cast<int>(std::ceil(radius)) + 1;
        dot = QImage(side, side, QImage::Format_ARGB32_Premultiplied);
        dot.fill(Qt::transparent);
        QPainter once(&dot);
        once.setRenderHints(p.renderHints());
        once.setPen(Qt::NoPen);
        once.setBrush(palette.gas_ink);
        once.drawEllipse(QRectF(dot.rect()).center(), radius, radius);
    }
    p.setPen(Qt::NoPen);
    p.setBrush(palette.gas_ink);
    const auto put = [&](QPointF at) {
        if (dot.isNull()) {
            p.drawEllipse(at, radius, radius);
        } else {
            p.drawImage(at - QPointF(dot.width(), dot.height()) / 2, dot);
        }
    };
    tile(area, 16 * s, 16 * s, [&](QPointF o) {
        put(o + QPointF(4, 4) * s);
        put(o + QPointF(12, 12) * s);
    });
    p.restore();
}

void hatchSteel(QPainter& p, const QPainterPath& shape, const Palette& palette, double u)
{
    p.fillPath(shape, palette.steel);
    p.save();
    p.setClipPath(shape, Qt::IntersectClip);
    p.setPen(solid(palette.ink, 1.6 * u));
    const double s = 12 * std::max(u, 0.4);
    tile(shape.boundingRect(), s, s, [&](QPointF o) { p.drawLine(o + QPointF(0, s), o + QPointF(s, 0)); });
    p.restore();
    p.strokePath(shape, solid(palette.ink, 3 * u));
}

QFont letters(double pixels, bool bold, bool mono)
{
    QFont font(mono ? monoFamily() : fontFamily());
    font.setPixelSize(std::max(1, static_cast<int>(std::lround(pixels))));
    font.setBold(bold);
    font.setStyleStrategy(QFont::PreferAntialias);
    font.setHintingPreference(QFont::PreferNoHinting);
    return font;
}

double widthOf(const QFont& font, const QString& text) { return QFontMetricsF(font).horizontalAdvance(text); }

QRectF write(QPainter& p, const QFont& font, const QColor& colour, QPointF base, const QString& text, Place place, const QColor& own_paper)
{
    const double size = font.pixelSize();
    const double width = widthOf(font, text);
    const double x = place == Place::Left ? base.x() : place == Place::Centre ? base.x() - width / 2 : base.x() - width;
    const QRectF box(x - 0.1 * size, base.y() - 0.86 * size, width + 0.2 * size, 1.12 * size);
    if (own_paper.isValid()) {
        p.fillRect(box, own_paper);
    }
    p.setFont(font);
    p.setPen(colour);
    p.drawText(QPointF(x, base.y()), text);
    return box;
}

QRectF writeWithin(QPainter& p, QFont font, const QColor& colour, QPointF base, double width, const QString& text, Place place)
{
    const double wanted = widthOf(font, text);
    if (wanted > width && wanted > 0) {
        font.setPixelSize(std::max(1, static_cast<int>(std::floor(font.pixelSize() * width / wanted))));
    }
    return write(p, font, colour, base, text, place);
}

namespace {

QPolygonF diamond(QPointF c, double h) { return QPolygonF({c + QPointF(0, -h), c + QPointF(h, 0), c + QPointF(0, h), c + QPointF(-h, 0)}); }

void outline(QPainter& p, QPointF at, double half, const QPen& pen, const QColor& fill)
{
    p.setPen(pen);
    p.setBrush(fill.isValid() ? QBrush(fill) : QBrush(Qt::NoBrush));
    p.drawPolygon(diamond(at, half));
    p.setBrush(Qt::NoBrush);
}

} // namespace

void paintDiamond(QPainter& p, QPointF at, report::PlaceState state, const Palette& palette, double half, double u)
{
    using report::PlaceState;
    const double halo = half + 9 * u;
    p.setPen(Qt::NoPen);
    p.setBrush(palette.paper);
    p.drawPolygon(diamond(at, state == PlaceState::Conflict ? halo + half / 2 : halo));
    const QPen dashes = broken(palette.ink, 4 * u, 7 * u, 4 * u);
    const QPen line = solid(palette.ink, 4 * u);
    switch (state) {
    case PlaceState::Fresh:
    case PlaceState::Failing:
        outline(p, at, half, solid(palette.paper, 2 * u), palette.ink);
        break;
    case PlaceState::Missing:
        outline(p, at, half, dashes, palette.paper);
        break;
    case PlaceState::Lapsed: {
        outline(p, at, half, dashes, palette.paper);
        const QPointF reach(half * 0.95, -half * 0.95);
        p.setPen(solid(palette.paper, 9 * u));
        p.drawLine(at - reach, at + reach);
        p.setPen(line);
        p.drawLine(at - reach, at + reach);
        break;
    }
    case PlaceState::Unbelievable:
        outline(p, at, half, line, palette.paper);
        write(p, letters(half * 1.35, true), palette.ink, at + QPointF(0, half * 0.5), QStringLiteral("?"), Place::Centre);
        break;
    case PlaceState::Conflict:
        outline(p, at - QPointF(half / 4, 0), half, line, palette.paper);
        outline(p, at + QPointF(half / 4, 0), half, line, {});
        break;
    }
}

void paintGateSign(QPainter& p, QPointF at, double r, bool released, const QColor& ink, const QColor& paper)
{
    const QPointF swung = at - QPointF(0, 1.79 * r);
    p.setPen(solid(ink, r / 3));
    p.drawLine(at - QPointF(1.67 * r, 0), at + QPointF(1.67 * r, 0));
    const auto ring = [&](QPointF c, double radius) {
        p.setPen(solid(ink, r * 0.27));
        p.setBrush(paper);
        p.drawEllipse(c, radius, radius);
    };
    const auto disc = [&](QPointF c, double radius) {
        p.setPen(Qt::NoPen);
        p.setBrush(ink);
        p.drawEllipse(c, radius, radius);
    };
    if (released) {
        ring(at, 0.9 * r);
        disc(swung, 0.72 * r);
    } else {
        disc(at, r);
        ring(swung, 0.6 * r);
    }
    p.setBrush(Qt::NoBrush);
}

void paintTriangle(QPainter& p, const QRectF& box, const QColor& ink, const QColor& mark)
{
    QPolygonF shape({QPointF(box.center().x(), box.top()), box.bottomRight(), box.bottomLeft()});
    p.setPen(Qt::NoPen);
    p.setBrush(ink);
    p.drawPolygon(shape);
    p.setBrush(mark);
    const double w = box.width();
    const double x = box.center().x();
    const double y = box.top() + 0.34 * box.height();
    p.drawPolygon(QPolygonF({QPointF(x - 0.06 * w, y), QPointF(x + 0.06 * w, y), QPointF(x + 0.03 * w, y + 0.36 * box.height()),
        QPointF(x - 0.03 * w, y + 0.36 * box.height())}));
    p.drawEllipse(QPointF(x, box.bottom() - 0.15 * box.height()), 0.05 * w, 0.05 * w);
    p.setBrush(Qt::NoBrush);
}

} // namespace brimful::print
