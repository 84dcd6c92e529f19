// Signs in a box of 44 by 44: four-pixel lines or solid.
#include "app/tablet/painted.h"

#include <QPainterPath>

#include <map>

namespace brimful::tablet {

namespace {

using Draw = void (*)(QPainter&, const QColor&);

QPen line(const QColor& ink, double width = 4) { return {ink, width, Qt::SolidLine, Qt::FlatCap, Qt::MiterJoin}; }

// A spectacle blind: the disc in the line holds, the ring swings up; and the other way round.
void blind(QPainter& p, const QColor& ink, bool holds)
{
    p.setPen(line(ink));
    p.drawLine(QPointF(0, 28), QPointF(44, 28));
    p.setBrush(holds ? QBrush(ink) : QBrush(Qt::NoBrush));
    if (!holds) {
        p.setCompositionMode(QPainter::CompositionMode_Clear);
        p.setBrush(Qt::black);
        p.drawEllipse(QPointF(22, 28), 11, 11);
        p.setCompositionMode(QPainter::CompositionMode_SourceOver);
        p.setBrush(Qt::NoBrush);
    }
    p.drawEllipse(QPointF(22, 28), 11, 11);
    p.setBrush(holds ? QBrush(Qt::NoBrush) : QBrush(ink));
    p.drawEllipse(QPointF(22, 8), 6, 6);
}

void held(QPainter& p, const QColor& ink) { blind(p, ink, true); }
void released(QPainter& p, const QColor& ink) { blind(p, ink, false); }

void watch(QPainter& p, const QColor& ink)
{
    p.setPen(line(ink));
    QPainterPath eye(QPointF(2, 22));
    eye.quadTo(22, 2, 42, 22);
    eye.quadTo(22, 42, 2, 22);
    p.drawPath(eye);
    p.setBrush(ink);
    p.drawEllipse(QPointF(22, 22), 6, 6);
}

void draining(QPainter& p, const QColor& ink)
{
    p.setPen(line(ink));
    p.drawLine(QPointF(2, 8), QPointF(42, 8));
    p.drawLine(QPointF(10, 18), QPointF(34, 18));
    p.drawLine(QPointF(22, 22), QPointF(22, 40));
    p.drawPolyline(QPolygonF({{14, 32}, {22, 40}, {30, 32}}));
}

void stopped(QPainter& p, const QColor& ink)
{
    p.setPen(Qt::NoPen);
    QPainterPath square;
    square.addRect(2, 2, 40, 40);
    square.addRect(9, 17, 26, 10);
    p.setBrush(ink);
    p.drawPath(square);
}

void refused(QPainter& p, const QColor& ink)
{
    p.setPen(line(ink, 6));
    p.drawLine(QPointF(6, 6), QPointF(38, 38));
    p.drawLine(QPointF(38, 6), QPointF(6, 38));
}

void closed(QPainter& p, const QColor& ink)
{
    p.setPen(line(ink, 6));
    p.drawPolyline(QPolygonF({{14, 8}, {4, 8}, {4, 36}, {40, 36}, {40, 8}, {30, 8}}));
}

void open(QPainter& p, const QColor& ink)
{
    p.setPen(line(ink, 3.5));
    p.drawLine(QPointF(6, 24), QPointF(6, 42));
    p.drawLine(QPointF(38, 24), QPointF(38, 42));
    p.drawLine(QPointF(22, 8), QPointF(22, 40));
    p.drawPolyline(QPolygonF({{14, 16}, {22, 8}, {30, 16}}));
}

void plugged(QPainter& p, const QColor& ink)
{
    p.setPen(Qt::NoPen);
    p.setBrush(ink);
    p.drawRect(QRectF(4, 8, 36, 12));
    p.drawRect(QRectF(12, 20, 20, 20));
}

void stuck(QPainter& p, const QColor& ink)
{
    plugged(p, ink);
    p.setCompositionMode(QPainter::CompositionMode_Clear);
    p.setPen(QPen(Qt::black, 9));
    p.drawLine(QPointF(4, 42), QPointF(40, 4));
    p.setCompositionMode(QPainter::CompositionMode_SourceOver);
    p.setPen(line(ink));
    p.drawLine(QPointF(4, 42), QPointF(40, 4));
}

void unknown(QPainter& p, const QColor& ink)
{
    p.setPen(line(ink, 4.5));
    QPainterPath mark(QPointF(12, 14));
    mark.cubicTo(12, 0, 32, 0, 32, 13);
    mark.cubicTo(32, 21, 22, 20, 22, 30);
    p.drawPath(mark);
    p.setPen(Qt::NoPen);
    p.setBrush(ink);
    p.drawRect(QRectF(19, 35, 6, 6));
}

void back(QPainter& p, const QColor& ink)
{
    p.setPen(line(ink, 6));
    p.drawPolyline(QPolygonF({{30, 6}, {13, 22}, {30, 38}}));
}

void more(QPainter& p, const QColor& ink)
{
    p.setPen(line(ink, 6));
    p.drawPolyline(QPolygonF({{6, 14}, {22, 31}, {38, 14}}));
}

void first(QPainter& p, const QColor& ink)
{
    p.setPen(line(ink, 6));
    p.drawPolyline(QPolygonF({{6, 34}, {22, 17}, {38, 34}}));
    p.drawLine(QPointF(6, 8), QPointF(38, 8));
}

// Somebody with an arm up.
void voice(QPainter& p, const QColor& ink)
{
    p.setPen(Qt::NoPen);
    p.setBrush(ink);
    p.drawEllipse(QPointF(18, 16), 7, 7);
    QPainterPath body(QPointF(5, 42));
    body.quadTo(5, 27, 18, 27);
    body.quadTo(24, 27, 30, 24);
    body.lineTo(30, 42);
    body.closeSubpath();
    p.drawPath(body);
    p.setPen(line(ink, 6));
    p.drawLine(QPointF(33, 28), QPointF(33, 4));
}

void erase(QPainter& p, const QColor& ink)
{
    p.setPen(line(ink));
    p.drawPolygon(QPolygonF({{2, 22}, {14, 8}, {42, 8}, {42, 36}, {14, 36}}));
    p.drawLine(QPointF(20, 15), QPointF(34, 29));
    p.drawLine(QPointF(34, 15), QPointF(20, 29));
}

void scan(QPainter& p, const QColor& ink)
{
    p.setPen(line(ink));
    p.drawPolyline(QPolygonF({{6, 14}, {6, 4}, {16, 4}}));
    p.drawPolyline(QPolygonF({{28, 4}, {38, 4}, {38, 14}}));
    p.drawPolyline(QPolygonF({{38, 30}, {38, 40}, {28, 40}}));
    p.drawPolyline(QPolygonF({{16, 40}, {6, 40}, {6, 30}}));
    p.drawLine(QPointF(0, 22), QPointF(44, 22));
}

void danger(QPainter& p, const QColor& ink)
{
    p.setPen(line(ink, 4));
    p.drawPolygon(QPolygonF({{22, 4}, {42, 40}, {2, 40}}));
    p.setPen(Qt::NoPen);
    p.setBrush(ink);
    p.drawRect(QRectF(20, 15, 4, 13));
    p.drawEllipse(QPointF(22, 33.5), 2.6, 2.6);
}

void keyhole(QPainter& p, const QColor& ink)
{
    p.setPen(line(ink, 3));
    p.drawEllipse(QPointF(22, 22), 20, 20);
    p.setPen(Qt::NoPen);
    p.setBrush(ink);
    p.drawEllipse(QPointF(22, 17), 5, 5);
    p.drawPolygon(QPolygonF({{22, 16}, {28, 33}, {16, 33}}));
}

void struck(QPainter& p, const QColor& ink)
{
    p.setPen(Qt::NoPen);
    p.setBrush(ink);
    p.drawEllipse(QPointF(22, 22), 21, 21);
    p.setCompositionMode(QPainter::CompositionMode_Clear);
    p.setPen(QPen(Qt::black, 5));
    p.drawPolyline(QPolygonF({{12, 22}, {19, 30}, {32, 14}}));
    p.setCompositionMode(QPainter::CompositionMode_SourceOver);
}

void fresh(QPainter& p, const QColor& ink)
{
    p.setPen(Qt::NoPen);
    p.setBrush(ink);
    p.drawPolygon(QPolygonF({{22, 6}, {38, 22}, {22, 38}, {6, 22}}));
}

void missing(QPainter& p, const QColor& ink)
{
    QPen dashed = line(ink, 3);
    dashed.setDashPattern({2, 1.6});
    p.setPen(dashed);
    p.drawPolygon(QPolygonF({{22, 8}, {36, 22}, {22, 36}, {8, 22}}));
}

} // namespace

void Glyph::paint(QPainter* painter)
{
    static const std::map<QString, Draw> kSigns{{QStringLiteral("held"), held}, {QStringLiteral("released"), released},
        {QStringLiteral("watch"), watch}, {QStringLiteral("draining"), draining}, {QStringLiteral("stopped"), stopped},
        {QStringLiteral("refused"), refused}, {QStringLiteral("closed"), closed}, {QStringLiteral("open"), open},
        {QStringLiteral("plugged"), plugged}, {QStringLiteral("stuck"), stuck}, {QStringLiteral("unknown"), unknown},
        {QStringLiteral("back"), back}, {QStringLiteral("erase"), erase}, {QStringLiteral("more"), more}, {QStringLiteral("first"), first},
        {QStringLiteral("voice"), voice}, {QStringLiteral("scan"), scan}, {QStringLiteral("danger"), danger},
        {QStringLiteral("keyhole"), keyhole}, {QStringLiteral("signed"), struck}, {QStringLiteral("fresh"), fresh},
        {QStringLiteral("missing"), missing}};
    const auto sign = kSigns.find(m_name);
    if (sign != kSigns.end()) {
        painter->setRenderHint(QPainter::Antialiasing);
        painter->scale(width() / 44, height() / 44);
        painter->setBrush(Qt::NoBrush);
        sign->second(*painter, m_ink);
    }
}

} // namespace brimful::tablet
