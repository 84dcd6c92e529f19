#include "app/tablet/gas_drawing.h"

#include "app/print/strokes.h"

#include <QCoreApplication>

#include <algorithm>
#include <array>
#include <cmath>

namespace brimful::tablet {

namespace {

using print::Place;

constexpr double kTextSize = 30;

struct GasDrawing {
    Q_DECLARE_TR_FUNCTIONS(brimful::tablet::GasDrawing)
};

double numberOf(const canon::Json& values, std::string_view key, double otherwise)
{
    const canon::Json* found = values.find(key);
    return found == nullptr ? otherwise : found->number;
}

// What both pictures share: lines by their names, on a page of their own scale.
struct Sketch {
    QPainter& p;
    const figure::Result& result;
    const print::Palette& palette;
    double u;
    QTransform to_page;

    [[nodiscard]] QPointF at(const std::pair<double, double>& metres) const { return to_page.map(QPointF(metres.first, metres.second)); }

    [[nodiscard]] QPolygonF pointsOf(const figure::Line& line) const
    {
        QPolygonF out;
        for (const auto& metres : line.metres) {
            out << at(metres);
        }
        return out;
    }

    void each(std::string_view part, const std::function<void(const QPolygonF&)>& draw) const
    {
        for (const figure::Line& line : result.picture) {
            if (line.part == part) {
                draw(pointsOf(line));
            }
        }
    }

    void stroke(std::string_view part, const QPen& pen) const
    {
        each(part, [&](const QPolygonF& points) {
            p.setPen(pen);
            p.setBrush(Qt::NoBrush);
            p.drawPolyline(points);
        });
    }

    void fillGas(std::string_view part) const
    {
        each(part, [&](const QPolygonF& points) {
            QPainterPath path;
            path.addPolygon(points);
            path.closeSubpath();
            p.save();
            p.setClipPath(path, Qt::IntersectClip);
            print::dotGas(p, path.boundingRect(), palette, u);
            p.restore();
            p.setPen(print::solid(palette.gas_ink, 3 * u));
            p.setBrush(Qt::NoBrush);
            p.drawPath(path);
        });
    }

    // The part of a way that burns: danger in the middle of a broad line, so that it is seen on dots and without colour too.
    void strokeBurning(std::string_view part) const
    {
        stroke(part, print::solid(palette.ink, 17 * u));
        stroke(part, print::solid(palette.paper, 11 * u));
        stroke(part, print::broken(palette.danger, 11 * u, 14 * u, 7 * u));
    }

    void ring(QPointF centre, double radius, bool filled) const
    {
        p.setPen(print::solid(palette.paper, 9 * u));
        p.setBrush(Qt::NoBrush);
        p.drawEllipse(centre, radius, radius);
        p.setPen(print::solid(palette.ink, 5 * u));
        p.setBrush(filled ? palette.ink : palette.paper);
        p.drawEllipse(centre, radius, radius);
    }

    void now() const
    {
        each("now", [&](const QPolygonF& points) { ring(points.front(), 11 * u, true); });
    }

    void text(QPointF base, const QString& words, Place place, const QColor& colour, bool bold, bool boxed) const
    {
        print::write(p, print::letters(kTextSize * u, bold), colour, base, words, place, boxed ? palette.paper : QColor());
    }
};

void arrow(const Sketch& s, QPointF from, QPointF to)
{
    const double length = std::hypot(to.x() - from.x(), to.y() - from.y());
    if (length < 60 * s.u) {
        return;
    }
    const QPointF along = (to - from) / length;
    const QPointF across(-along.y(), along.x());
    const QPointF tip = from + along * std::min(0.45 * length, length - 20 * s.u);
    s.p.setPen(print::solid(s.palette.ink, 6 * s.u));
    s.p.drawPolyline(QPolygonF({tip - along * 20 * s.u + across * 13 * s.u, tip, tip - along * 20 * s.u - across * 13 * s.u}));
}

void lines(const Sketch& s)
{
    s.fillGas("zone");
    s.stroke("limiting-oxygen", print::broken(s.palette.gas_ink, 3 * s.u, 4 * s.u, 6 * s.u));
    s.stroke("stoichiometric-line", print::chain(s.palette.ink2, 2 * s.u, s.u));
    s.stroke("air-line", print::broken(s.palette.ink, 3 * s.u, 16 * s.u, 8 * s.u));
    s.each("frame", [&](const QPolygonF& points) {
        s.p.setPen(print::solid(s.palette.ink, 5 * s.u));
        s.p.setBrush(Qt::NoBrush);
        s.p.drawPolygon(points);
    });
    s.stroke("path", print::solid(s.palette.paper, 11 * s.u));
    s.stroke("path", print::solid(s.palette.ink, 6 * s.u));
    s.strokeBurning("crossing");
}

QString percent(const canon::Json& place) { return GasDrawing::tr("%1 %").arg(numberOf(place, "fuel_percent", 0.0), 0, 'g', 3); }

// Where the way meets what burns, larger; without a meeting the tip of the zone, so that it is seen by how much it passes.
void lens(const Sketch& s, QPointF centre, double radius)
{
    const figure::Line* crossing = nullptr;
    const figure::Line* zone = nullptr;
    for (const figure::Line& line : s.result.picture) {
        crossing = line.part == "crossing" && crossing == nullptr ? &line : crossing;
        zone = line.part == "zone" ? &line : zone;
    }
    if (zone == nullptr) {
        return;
    }
    constexpr std::size_t kNose = 2;
    QPointF middle = s.at(zone->metres.at(kNose));
    double zoom = 4.0;
    if (crossing != nullptr) {
        const QPointF enters = s.at(crossing->metres.front());
        const QPointF leaves = s.at(crossing->metres.back());
        zoom = std::clamp(1.1 * radius / std::max(std::hypot(enters.x() - leaves.x(), enters.y() - leaves.y()), 1.0), 2.0, 12.0);
        middle = (enters + leaves) / 2 + QPointF(0.42 * radius / zoom, 0.0); // room for what stands beside it
    }
    const double small = radius / zoom;
    const QPointF way = centre - middle;
    const double far = std::hypot(way.x(), way.y());
    s.p.setPen(print::solid(s.palette.ink, 2 * s.u));
    s.p.setBrush(Qt::NoBrush);
    s.p.drawEllipse(middle, small, small);
    s.p.drawLine(middle + way * (small / far), centre - way * (radius / far));
    QPainterPath circle;
    circle.addEllipse(centre, radius, radius);
    s.p.save();
    s.p.setClipPath(circle, Qt::IntersectClip);
    s.p.fillPath(circle, s.palette.paper);
    Sketch large{s.p, s.result, s.palette, s.u, s.to_page};
    large.to_page *= QTransform(zoom, 0, 0, zoom, centre.x() - zoom * middle.x(), centre.y() - zoom * middle.y());
    lines(large);
    large.now();
    const auto ends =
        crossing == nullptr ? std::vector<QPointF>() : std::vector{large.at(crossing->metres.front()), large.at(crossing->metres.back())};
    for (const QPointF& end : ends) {
        large.ring(end, 12 * s.u, false);
    }
    s.p.restore();
    s.p.setPen(print::solid(s.palette.ink, 5 * s.u));
    s.p.setBrush(Qt::NoBrush);
    s.p.drawEllipse(centre, radius, radius);
    constexpr std::array kEnds{"enters", "leaves"};
    for (std::size_t i = 0; i < ends.size(); ++i) {
        if (const canon::Json* place = s.result.values.find(kEnds.at(i))) {
            s.text(ends[i] + QPointF(24 * s.u, 10 * s.u), percent(*place), Place::Left, s.palette.ink, true, true);
        }
    }
}

// What the thin lines are.
void legend(const Sketch& s, QPointF at)
{
    const std::array rows{std::pair(print::broken(s.palette.gas_ink, 3 * s.u, 4 * s.u, 6 * s.u), GasDrawing::tr("limiting oxygen")),
        std::pair(print::chain(s.palette.ink2, 2 * s.u, s.u), GasDrawing::tr("stoichiometric")),
        std::pair(print::broken(s.palette.ink, 3 * s.u, 16 * s.u, 8 * s.u), GasDrawing::tr("air with gas"))};
    for (const auto& [pen, words] : rows) {
        s.p.setPen(pen);
        s.p.drawLine(at - QPointF(0.0, 11 * s.u), at + QPointF(42 * s.u, -11 * s.u));
        s.text(at + QPointF(52 * s.u, 0.0), words, Place::Left, s.palette.ink2, false, false);
        at.ry() += 38 * s.u;
    }
}

void paintTriangle(Sketch s, const QString& gas, QSizeF size)
{
    const double tall = size.height() - 98 * s.u;
    const double side = std::min(tall / 0.8660254, size.width() - 330 * s.u);
    const double left = 62 * s.u;
    const double foot = 52 * s.u + side * 0.8660254;
    s.to_page = QTransform(side, 0, 0, -side, left, foot);
    lines(s);
    s.each("path", [&](const QPolygonF& points) { arrow(s, points.front(), points.back()); });
    s.now();
    s.text(QPointF(left + side / 2, 28 * s.u), gas, Place::Centre, s.palette.ink, true, false);
    s.text(QPointF(left, foot + 38 * s.u), GasDrawing::tr("oxygen"), Place::Centre, s.palette.ink, true, false);
    s.text(QPointF(left + side - 24 * s.u, foot + 38 * s.u), GasDrawing::tr("nitrogen"), Place::Left, s.palette.ink, true, false);
    //: where air lies on the triangle of fuel, oxygen and nitrogen
    s.text(QPointF(left + 0.7905 * side - 6 * s.u, foot + 38 * s.u), GasDrawing::tr("air"), Place::Centre, s.palette.ink, true, false);
    const bool zone = std::ranges::any_of(s.result.picture, [](const figure::Line& line) { return line.part == "zone"; });
    if (zone) {
        s.text(
            QPointF(left + 0.36 * side, foot - 0.13 * side), GasDrawing::tr("burns if lit"), Place::Centre, s.palette.gas_ink, true, true);
    }
    const canon::Json* crosses = s.result.values.find("crosses");
    if (!zone && crosses != nullptr && crosses->integer != 0) { // an empty triangle would say that nothing burns
        s.text(QPointF(left + side + 34 * s.u, foot - 0.62 * side), GasDrawing::tr("What burns in it"), Place::Left, s.palette.gas_ink,
            true, true);
        s.text(QPointF(left + side + 34 * s.u, foot - 0.62 * side + 40 * s.u), GasDrawing::tr("is not known."), Place::Left,
            s.palette.gas_ink, true, true);
    }
    const double radius = std::min(112 * s.u, (size.height() - 144 * s.u) / 2);
    lens(s, QPointF(size.width() - radius - 44 * s.u, radius + 6 * s.u), radius);
    if (zone) {
        legend(s, QPointF(size.width() - 284 * s.u, 2 * radius + 46 * s.u));
    }
}

double niceStep(double minutes)
{
    for (const double step : {1.0, 2.0, 5.0, 10.0, 15.0, 30.0, 60.0, 120.0, 240.0, 480.0, 1440.0}) {
        if (minutes / step <= 5.0) {
            return step;
        }
    }
    return 2880.0 * std::ceil(minutes / 14400.0);
}

void paintTime(Sketch s, QSizeF size)
{
    constexpr double kWide = 1.6; // metres of the whole span
    const QRectF room(124 * s.u, 26 * s.u, size.width() - 124 * s.u - 60 * s.u, size.height() - 26 * s.u - 46 * s.u);
    s.to_page = QTransform(room.width() / kWide, 0, 0, -room.height(), room.left(), room.bottom());
    s.fillGas("band");
    for (int i = 0; i <= 4; ++i) {
        const double y = room.bottom() - room.height() * i / 4;
        s.p.setPen(print::broken(s.palette.line, 1.5 * s.u, 3 * s.u, 6 * s.u));
        s.p.drawLine(QPointF(room.left(), y), QPointF(room.right(), y));
        constexpr std::array kTens{"0.01 %", "0.1 %", "1 %", "10 %", "100 %"};
        s.text(QPointF(room.left() - 10 * s.u, y + 11 * s.u), QString::fromLatin1(kTens.at(static_cast<std::size_t>(i))), Place::Right,
            s.palette.ink, false, false);
    }
    const double minutes = numberOf(s.result.values, "span_s", 60.0) / 60.0;
    const double step = niceStep(minutes);
    for (double at = 0.0; at <= minutes; at += step) {
        const double x = room.left() + room.width() * at / minutes;
        s.p.setPen(print::solid(s.palette.ink, 3 * s.u));
        s.p.drawLine(QPointF(x, room.bottom()), QPointF(x, room.bottom() + 10 * s.u));
        const QString number = QString::number(at, 'f', 0);
        s.text(QPointF(x, room.bottom() + 42 * s.u), at + step > minutes ? GasDrawing::tr("%1 min").arg(number) : number, Place::Centre,
            s.palette.ink, false, false);
    }
    s.stroke("target", print::broken(s.palette.ink2, 3 * s.u, 12 * s.u, 8 * s.u));
    s.stroke("curve", print::solid(s.palette.paper, 12 * s.u));
    s.stroke("curve", print::solid(s.palette.ink, 7 * s.u));
    s.strokeBurning("burning");
    s.stroke("axes", print::solid(s.palette.ink, 5 * s.u));
    s.each("band", [&](const QPolygonF& points) {
        if (points[1].x() - points[0].x() > 220 * s.u) {
            s.text(QPointF(points[1].x() - 14 * s.u, (points[1].y() + points[2].y()) / 2 + 11 * s.u), GasDrawing::tr("burns in air"),
                Place::Right, s.palette.gas_ink, true, true);
        }
    });
    s.each("band", [&](const QPolygonF& points) {
        const double x = points.front().x();
        if (x > room.left() + 1.0) { // nitrogen before the air
            s.p.setPen(print::chain(s.palette.ink2, 3 * s.u, s.u));
            s.p.drawLine(QPointF(x, room.top()), QPointF(x, room.bottom()));
            s.text(QPointF(x - 14 * s.u, room.top() + 26 * s.u), GasDrawing::tr("nitrogen"), Place::Right, s.palette.ink, true, true);
            s.text(QPointF(x + 14 * s.u, room.top() + 26 * s.u), GasDrawing::tr("air"), Place::Left, s.palette.ink, true, true);
        }
    });
    s.each("target", [&](const QPolygonF& points) {
        s.text(QPointF(room.left() + 14 * s.u, points.front().y() - 10 * s.u), GasDrawing::tr("1 %LEL"), Place::Left, s.palette.ink2, true,
            true);
    });
    s.now();
}

} // namespace

void paintGasTriangle(const Canvas& canvas, const figure::Result& result, const QString& gas)
{
    paintTriangle({canvas.painter, result, canvas.palette, canvas.u, {}}, gas, canvas.size);
}

void paintGasOverTime(const Canvas& canvas, const figure::Result& result)
{
    paintTime({canvas.painter, result, canvas.palette, canvas.u, {}}, canvas.size);
}

} // namespace brimful::tablet
