#include "app/print/sketch.h"

#include "core/quantity/format.h"

#include <array>
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

QString shortTapeWords(double metres, text::Units units)
{
    if (units == text::Units::Si) {
        return tapeWords(metres, units);
    }
    constexpr std::array<const char16_t*, 8> kEighths{u"", u"\u215B", u"\u00BC", u"\u215C", u"\u00BD", u"\u215D", u"\u00BE", u"\u215E"};
    const auto eighths = static_cast<qint64>(std::floor(metres / (0.0254 / 8) + 0.5));
    const QString part = QString::fromUtf16(kEighths.at(static_cast<std::size_t>(eighths % 8)));
    return (eighths < 8 && eighths > 0 ? QString() : QString::number(eighths / 8)) + part + QStringLiteral(" in");
}

QString openingWords(double square_metres, text::Units units)
{
    return units == text::Units::Us ? QStringLiteral("%1 in\u00B2").arg(square_metres / (0.0254 * 0.0254), 0, 'f', 1)
                                    : QStringLiteral("%1 cm\u00B2").arg(square_metres * 1e4, 0, 'f', 0);
}

} // namespace brimful::print
