// A figure's lines by their names, on a page. Inside this room only.
#pragma once

#include "app/print/plans.h"
#include "app/print/strokes.h"

#include <QTransform>

#include <functional>

namespace brimful::print {

[[nodiscard]] double numberOf(const canon::Json& values, std::string_view key, double otherwise = 0);
[[nodiscard]] inline QString nameOf(const figure::Line& line) { return QString::fromStdString(line.part).section(QLatin1Char(':'), 1, 1); }

struct Sketch {
    QPainter& p;
    const figure::Result& result;
    const PlanLook& look;
    QTransform to_page; // from the figure's metres, y up

    [[nodiscard]] const Palette& colours() const { return look.palette; }
    [[nodiscard]] QPointF at(double x, double y) const { return to_page.map(QPointF(x, y)); }
    [[nodiscard]] QPolygonF pointsOf(const figure::Line& line) const
    {
        QPolygonF out;
        for (const auto& [x, y] : line.metres) {
            out << at(x, y);
        }
        return out;
    }
    // Every line whose part begins so.
    void each(std::string_view prefix, const std::function<void(const figure::Line&)>& draw) const
    {
        for (const figure::Line& line : result.picture) {
            if (line.part.starts_with(prefix)) {
                draw(line);
            }
        }
    }
    [[nodiscard]] QRectF boundsOf(std::string_view prefix) const; // in metres, y up
    // Uniform scale, `bounds` in the middle of `room`; y up.
    void fit(const QRectF& bounds, const QRectF& room);

    void stroke(const QPolygonF& points, bool closed, const QPen& pen, const QBrush& fill = Qt::NoBrush) const
    {
        p.setPen(pen);
        p.setBrush(fill);
        if (closed) {
            p.drawPolygon(points);
        } else {
            p.drawPolyline(points);
        }
        p.setBrush(Qt::NoBrush);
    }
    [[nodiscard]] QFont font(bool bold = false, double size = 30) const { return letters(size * look.u, bold); }
    QRectF words(QPointF base, const QString& text, Place place, bool bold = false, bool boxed = false) const
    {
        return write(p, font(bold), colours().ink, base, text, place, boxed ? colours().paper : QColor());
    }
};

// A weld: waves along the way.
[[nodiscard]] QPainterPath waves(QPointF from, QPointF to, double u);

} // namespace brimful::print
