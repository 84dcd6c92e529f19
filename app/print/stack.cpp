// What a stack draws, over its height and over its diameter, with the range of the estimate.
#include "app/print/sketch.h"

#include <QCoreApplication>

#include <algorithm>
#include <cmath>

namespace brimful::print {

namespace {

struct Tr {
    Q_DECLARE_TR_FUNCTIONS(Stack)
};

struct Curve {
    QString name;
    std::vector<double> across; // m
    std::vector<double> flow, low, high; // kg/s; of a flow held back its draught, Pa
};

void addPoint(Curve& curve, const canon::Json& point, std::string_view across, DraughtView view)
{
    constexpr double kRange = 0.30; // of the estimate
    curve.across.push_back(numberOf(point, across));
    if (const canon::Json* const held = view == DraughtView::Held ? point.find("held_draught_Pa") : nullptr; held != nullptr) {
        curve.flow.push_back(held->number);
        curve.low.push_back(held->number * (1 - kRange));
        curve.high.push_back(held->number * (1 + kRange));
        return;
    }
    curve.flow.push_back(numberOf(point, "mass_flow_kg_s"));
    curve.low.push_back(numberOf(point, "low_kg_s"));
    curve.high.push_back(numberOf(point, "high_kg_s"));
}

std::vector<Curve> curvesOf(const figure::Result& result, DraughtView view, text::Units units)
{
    std::vector<Curve> out;
    if (view == DraughtView::Diameter) {
        const canon::Json* const points = result.values.find("over_diameter");
        if (points != nullptr) {
            out.emplace_back();
            for (const canon::Json& point : points->items) {
                addPoint(out.back(), point, "diameter_m", view);
            }
        }
        return out;
    }
    const canon::Json* const curves = result.values.find("curves");
    for (std::size_t i = 0; curves != nullptr && i < curves->items.size(); ++i) {
        out.emplace_back();
        out.back().name = tapeWords(numberOf(curves->items[i], "diameter_m"), units);
        for (const canon::Json& point : curves->items[i].find("points")->items) {
            addPoint(out.back(), point, "height_m", view);
        }
    }
    return out;
}

// 1, 2 or 5 times a power of ten, so that at most `most` steps are taken.
double niceStep(double span, int most)
{
    const double raw = span / most;
    const double power = std::pow(10, std::floor(std::log10(raw)));
    for (const double times : {1.0, 2.0, 5.0}) {
        if (times * power >= raw * (1 - 1e-9)) {
            return times * power;
        }
    }
    return 10 * power;
}

class Chart {
public:
    Chart(const Sketch& sketch, DraughtView view)
        : s(sketch)
        , m_view(view)
        , m_curves(curvesOf(s.result, view, s.look.units))
    {
        const bool us = s.look.units == text::Units::Us;
        m_across_unit = view != DraughtView::Diameter ? (us ? 0.3048 : 1.0) : (us ? 0.0254 : 0.001);
        m_flow_unit = view == DraughtView::Held ? 1.0 : (us ? 0.45359237 : 1.0) / 3600;
        for (const Curve& curve : m_curves) {
            m_least = std::min(m_least, curve.across.front());
            m_most = std::max(m_most, curve.across.back());
            m_top = std::max(m_top, *std::ranges::max_element(&curve == &m_curves.front() ? curve.high : curve.flow));
        }
        m_least = view == DraughtView::Diameter ? m_least : 0;
        m_room = s.look.box.adjusted(110 * u(), 62 * u(), -34 * u(), -52 * u());
    }

    [[nodiscard]] bool empty() const { return m_curves.empty(); }

    void paint() const
    {
        grid();
        band(m_curves.front());
        for (auto curve = m_curves.rbegin(); curve != m_curves.rend(); ++curve) {
            const bool first = &*curve == &m_curves.front();
            s.stroke(line(curve->across, curve->flow), false, solid(s.colours().paper, (first ? 13 : 9) * u()));
            s.stroke(line(curve->across, curve->flow), false,
                first ? solid(s.colours().ink, 7 * u()) : broken(s.colours().ink, 4 * u(), 16 * u(), 8 * u()));
        }
        chosen();
        labels();
    }

private:
    [[nodiscard]] double u() const { return s.look.u; }
    [[nodiscard]] QPointF at(double across, double flow) const
    {
        return {m_room.left() + m_room.width() * (across - m_least) / (m_most - m_least),
            m_room.bottom() - m_room.height() * flow / (1.05 * m_top)};
    }
    [[nodiscard]] QPolygonF line(const std::vector<double>& across, const std::vector<double>& flow) const
    {
        QPolygonF out;
        for (std::size_t i = 0; i < across.size(); ++i) {
            out << at(across[i], flow[i]);
        }
        return out;
    }

    void grid() const
    {
        const double flow_step = niceStep(1.05 * m_top / m_flow_unit, 5);
        for (double flow = 0; flow * m_flow_unit <= 1.05 * m_top; flow += flow_step) {
            const double y = at(m_least, flow * m_flow_unit).y();
            s.p.setPen(broken(s.colours().line, 1.5 * u(), 3 * u(), 6 * u()));
            s.p.drawLine(QPointF(m_room.left(), y), QPointF(m_room.right(), y));
            s.words(QPointF(m_room.left() - 12 * u(), y + 11 * u()), QString::number(flow), Place::Right);
        }
        const double step = niceStep((m_most - m_least) / m_across_unit, 6);
        for (double across = std::ceil(m_least / m_across_unit / step - 1e-9) * step; across * m_across_unit <= m_most * (1 + 1e-9);
             across += step) {
            const double x = at(across * m_across_unit, 0).x();
            s.p.setPen(solid(s.colours().ink, 3 * u()));
            s.p.drawLine(QPointF(x, m_room.bottom()), QPointF(x, m_room.bottom() + 9 * u()));
            s.words(QPointF(x, m_room.bottom() + 42 * u()), QString::number(across), Place::Centre);
        }
        s.stroke(QPolygonF({m_room.topLeft(), m_room.bottomLeft(), m_room.bottomRight()}), false, solid(s.colours().ink, 5 * u()));
    }

    // What it may be: the estimate's range, hatched so that it is seen without colour.
    void band(const Curve& curve) const
    {
        QPolygonF area = line(curve.across, curve.high);
        const QPolygonF low = line(curve.across, curve.low);
        for (auto point = low.rbegin(); point != low.rend(); ++point) {
            area << *point;
        }
        QPainterPath path;
        path.addPolygon(area);
        path.closeSubpath();
        s.p.fillPath(path, s.colours().steel);
        s.p.save();
        s.p.setClipPath(path, Qt::IntersectClip);
        s.p.setPen(solid(s.colours().line, 1.5 * u()));
        for (double x = path.boundingRect().left(); x < path.boundingRect().right(); x += 18 * u()) {
            s.p.drawLine(QPointF(x, path.boundingRect().top()), QPointF(x, path.boundingRect().bottom()));
        }
        s.p.restore();
        s.stroke(line(curve.across, curve.high), false, broken(s.colours().ink, 2 * u(), 8 * u(), 6 * u()));
        s.stroke(low, false, broken(s.colours().ink, 2 * u(), 8 * u(), 6 * u()));
    }

    // The stack that was asked for stands at the fourth of twelve heights and in the middle of the diameters.
    void chosen() const
    {
        const Curve& curve = m_curves.front();
        const std::size_t place = m_view == DraughtView::Diameter ? curve.across.size() / 2 : 3;
        if (place >= curve.across.size()) {
            return;
        }
        const QPointF here = at(curve.across[place], curve.flow[place]);
        s.p.setPen(broken(s.colours().ink, 3 * u(), 10 * u(), 7 * u()));
        s.p.drawLine(QPointF(here.x(), m_room.bottom()), here);
        s.p.setPen(solid(s.colours().ink, 5 * u()));
        s.p.setBrush(s.colours().paper);
        s.p.drawEllipse(here, 11 * u(), 11 * u());
        s.p.setBrush(Qt::NoBrush);
    }

    void labels() const
    {
        const bool us = s.look.units == text::Units::Us;
        //: over a chart: what a stack draws an hour
        const QString flow = m_view == DraughtView::Held ? Tr::tr("Draught, Pa")
            : us                                         ? Tr::tr("Gas, lb an hour")
                                                         : Tr::tr("Gas, kg an hour");
        const QString across = m_view != DraughtView::Diameter ? (us ? Tr::tr("height, ft") : Tr::tr("height, m"))
                                                               : (us ? Tr::tr("diameter, in") : Tr::tr("diameter, mm"));
        s.words(QPointF(s.look.box.left() + 8 * u(), m_room.top() - 26 * u()), flow, Place::Left, true);
        const QRectF right = s.words(QPointF(m_room.right(), m_room.bottom() - 14 * u()), across, Place::Right, true, true);
        double lowest = right.top(); // names stand at their curve's end, none on another
        std::vector<const Curve*> named;
        for (const Curve& curve : m_curves) {
            if (!curve.name.isEmpty()) {
                named.push_back(&curve);
            }
        }
        std::ranges::sort(named, [](const Curve* a, const Curve* b) { return a->flow.back() < b->flow.back(); });
        for (const Curve* curve : named) {
            const double y = std::min(lowest - 8 * u(), at(curve->across.back(), curve->flow.back()).y() + 50 * u());
            s.words(QPointF(m_room.right() - 8 * u(), y), curve->name, Place::Right, curve == &m_curves.front(), true);
            lowest = y - 30 * u();
        }
        //: the hatched range of an estimate
        s.words(QPointF(m_room.right(), m_room.top() - 26 * u()), Tr::tr("hatched: 30 % more or less"), Place::Right);
    }

    Sketch s;
    DraughtView m_view;
    std::vector<Curve> m_curves;
    QRectF m_room;
    double m_across_unit{1};
    double m_flow_unit{1};
    double m_least{HUGE_VAL};
    double m_most{};
    double m_top{};
};

} // namespace

std::vector<PartPlace> paintDraught(QPainter& p, const figure::Result& result, DraughtView view, const PlanLook& look)
{
    const canon::Json* const curves = result.values.find("curves");
    if (view == DraughtView::Held
        && (curves == nullptr || curves->items.front().find("points")->items.front().find("held_draught_Pa") == nullptr)) {
        return {};
    }
    const Chart chart({p, result, look, {}}, view);
    if (chart.empty()) {
        return {};
    }
    p.save();
    p.setRenderHint(QPainter::Antialiasing);
    chart.paint();
    p.restore();
    return {{QStringLiteral("curves"), look.box.center(), look.box}};
}

} // namespace brimful::print
