#include "app/print/sketch.h"

#include "core/quantity/format.h"

#include <cmath>

namespace brimful::print {

double numberOf(const canon::Json& values, std::string_view key, double otherwise)
{
    const canon::Json* const found = values.find(key);
    return found == nullptr ? otherwise : found->number;
}

QRectF Sketch::boundsOf(std::string_view prefix) const
{
    QPolygonF all;
    each(prefix, [&](const figure::Line& line) {
        for (const auto& [x, y] : line.metres) {
            all << QPointF(x, y);
        }
    });
    return all.boundingRect();
}

void Sketch::fit(const QRectF& bounds, const QRectF& room)
{
    const double scale = std::min(room.width() / std::max(bounds.width(), 1e-9), room.height() / std::max(bounds.height(), 1e-9));
    to_page = QTransform();
    to_page.translate(room.center().x(), room.center().y());
    to_page.scale(scale, -scale);
    to_page.translate(-bounds.center().x(), -bounds.center().y());
}

QPainterPath waves(QPointF from, QPointF to, double u)
{
    const QPointF run = to - from;
    const double length = std::hypot(run.x(), run.y());
    const int count = std::max(2, static_cast<int>(std::lround(length / (11 * u))));
    const QPointF across(-run.y() / std::max(length, 1e-9) * 4 * u, run.x() / std::max(length, 1e-9) * 4 * u);
    QPainterPath out(from);
    for (int i = 0; i < count; ++i) {
        const QPointF middle = from + run * ((i + 0.5) / count);
        out.quadTo(middle + across * (i % 2 == 0 ? 2 : -2), from + run * ((i + 1.0) / count));
    }
    return out;
}

QString tapeWords(double metres, text::Units units)
{
    return units == text::Units::Us ? QString::fromStdString(quantity::inchFraction(quantity::metres(metres)))
                                    : QStringLiteral("%1 mm").arg(std::floor(metres * 1000 + 0.5), 0, 'f', 0);
}

} // namespace brimful::print
