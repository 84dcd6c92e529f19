// A joint: the pattern that goes round the pipe with its ordinates, the hole, and both pieces as they stand.
#include "app/print/sketch.h"

#include <QCoreApplication>

#include <algorithm>
#include <cmath>

namespace brimful::print {

namespace {

struct Tr {
    Q_DECLARE_TR_FUNCTIONS(Joint)
};

bool isOf(const figure::Line& line, JointView view)
{
    switch (view) {
    case JointView::Pipe:
        return line.part.ends_with(":pipe") ? !line.part.starts_with("side:") && !line.part.starts_with("end:")
                                            : line.part.find(":pipe:") != std::string::npos;
    case JointView::Hole:
        return line.part.find(":hole") != std::string::npos;
    case JointView::Side:
        return line.part.starts_with("side:");
    case JointView::End:
        return line.part.starts_with("end:");
    }
    return false;
}

QRectF boundsOf(const figure::Result& result, JointView view)
{
    QPolygonF all;
    for (const figure::Line& line : result.picture) {
        for (const auto& [x, y] : line.metres) {
            if (isOf(line, view)) {
                all << QPointF(x, y);
            }
        }
    }
    return all.boundingRect();
}

// Back from the longest point, as it is marked.
std::vector<double> ordinatesOf(const figure::Result& result)
{
    std::vector<double> out;
    const double beyond = numberOf(result.values, "long_point_beyond_m");
    if (const canon::Json* const rows = result.values.find("ordinates"); rows != nullptr) {
        for (const canon::Json& row : rows->items) {
            out.push_back(numberOf(row, "cut_m") + beyond);
        }
    }
    return out;
}

// Along each mark the ordinate, at its foot the number; every second or fourth when they would touch.
void ordinates(const Sketch& s, double pitch)
{
    const std::vector<double> values = ordinatesOf(s.result);
    const double u = s.look.u;
    std::size_t step = 1;
    while (static_cast<double>(step) * pitch < 34 * u && step < values.size()) {
        step *= 2;
    }
    s.each("mark:pipe:", [&](const figure::Line& line) {
        const auto number = QString::fromStdString(line.part).section(QLatin1Char(':'), 2).toULongLong();
        const QPolygonF points = s.pointsOf(line); // from the ring to the edge
        s.stroke(points, false, solid(s.colours().line, 2 * u));
        if (number % step != 0 || number >= values.size()) {
            return;
        }
        s.words(points.first() + QPointF(0, -12 * u), QString::number(number), Place::Centre);
        s.p.save();
        s.p.translate(points.last());
        s.p.rotate(90);
        write(s.p, s.font(true), s.colours().ink, QPointF(14 * u, 11 * u), tapeWords(values[number], s.look.units), Place::Left);
        s.p.restore();
    });
}

void paintPipe(Sketch s, const QRectF& bounds)
{
    const double u = s.look.u;
    // The ring above, the edge below it, room for the longest ordinate's words under the edge.
    const double room = widthOf(s.font(true), tapeWords(0.9999, s.look.units)) + 26 * u;
    s.fit(bounds, s.look.box.adjusted(16 * u, 54 * u, -16 * u, -room));
    const double pitch = numberOf(s.result.values, "wrap_girth_m") * s.to_page.m11()
        / static_cast<double>(std::max<std::size_t>(ordinatesOf(s.result).size(), 1));
    ordinates(s, pitch);
    s.each(
        "seam:pipe", [&](const figure::Line& line) { s.stroke(s.pointsOf(line), false, broken(s.colours().ink, 3 * u, 12 * u, 7 * u)); });
    s.each("line:pipe", [&](const figure::Line& line) { s.stroke(s.pointsOf(line), false, solid(s.colours().ink, 5 * u)); });
    s.each("cut:pipe", [&](const figure::Line& line) { s.stroke(s.pointsOf(line), false, solid(s.colours().ink, 8 * u)); });
}

void paintHole(Sketch s, const QRectF& bounds)
{
    const double u = s.look.u;
    s.fit(bounds, s.look.box.adjusted(30 * u, 30 * u, -30 * u, -30 * u));
    s.each("cut:hole", [&](const figure::Line& line) {
        QColor fill = s.colours().steel;
        fill.setAlphaF(s.colours().fills ? 0.75 : 0);
        s.stroke(s.pointsOf(line), true, solid(s.colours().ink, 8 * u), fill);
    });
    s.each("centre:hole", [&](const figure::Line& line) { s.stroke(s.pointsOf(line), false, chain(s.colours().ink, 2 * u, u)); });
    QPointF before(-1e9, -1e9);
    s.each("mark:hole:", [&](const figure::Line& line) {
        const QPolygonF points = s.pointsOf(line);
        const QString number = QString::fromStdString(line.part).section(QLatin1Char(':'), 2);
        if (number.isEmpty()) { // the other centre line
            s.stroke(points, false, chain(s.colours().ink, 2 * u, u));
            return;
        }
        s.stroke(points, false, solid(s.colours().ink, 3 * u));
        const QPointF inward = points.first() - points.last();
        const QPointF at = points.last() + inward / std::max(std::hypot(inward.x(), inward.y()), 1e-9) * 34 * u + QPointF(0, 11 * u);
        if (std::hypot(at.x() - before.x(), at.y() - before.y()) > 40 * u) {
            s.words(at, number, Place::Centre);
            before = at;
        }
    });
}

void paintStanding(Sketch s, const QRectF& bounds, const std::string& view)
{
    const double u = s.look.u;
    s.fit(bounds, s.look.box.adjusted(14 * u, 14 * u, -14 * u, -14 * u));
    const auto each = [&](const char* what, const QPen& pen, const QBrush& fill) {
        s.each(view + what, [&](const figure::Line& line) { s.stroke(s.pointsOf(line), line.closed, pen, fill); });
    };
    each("part", solid(s.colours().ink, 7 * u), Qt::NoBrush);
    each("pipe", solid(s.colours().ink, 5 * u), Qt::NoBrush);
    each("edge", solid(s.colours().paper, 12 * u), Qt::NoBrush);
    each("edge", chain(s.colours().ink, 6 * u, u), Qt::NoBrush);
}

} // namespace

bool hasJointView(const figure::Result& result, JointView view)
{
    return std::ranges::any_of(result.picture, [&](const figure::Line& line) { return isOf(line, view); });
}

std::vector<PartPlace> paintJoint(QPainter& p, const figure::Result& result, JointView view, const PlanLook& look)
{
    if (!hasJointView(result, view)) {
        return {};
    }
    const QRectF bounds = boundsOf(result, view);
    p.save();
    p.setRenderHint(QPainter::Antialiasing);
    const Sketch sketch{p, result, look, {}};
    switch (view) {
    case JointView::Pipe:
        paintPipe(sketch, bounds);
        break;
    case JointView::Hole:
        paintHole(sketch, bounds);
        break;
    case JointView::Side:
        paintStanding(sketch, bounds, "side:");
        break;
    case JointView::End:
        paintStanding(sketch, bounds, "end:");
        break;
    }
    p.restore();
    return {{QStringLiteral("joint"), look.box.center(), look.box}};
}

} // namespace brimful::print
