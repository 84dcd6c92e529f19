// A mark-out on the vessel itself: the lines of the unrolled shell from the side and from the left end.
#include "app/print/marked_shell.h"

#include <QCoreApplication>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace brimful::print {

namespace {

constexpr double kPi = std::numbers::pi;

struct Tr {
    Q_DECLARE_TR_FUNCTIONS(MarkOut)
};

// Runs of one line that the eye sees, and runs that lie behind.
void visible(const QPolygonF& points, const std::vector<bool>& seen, const std::function<void(const QPolygonF&, bool)>& draw)
{
    QPolygonF run;
    for (qsizetype i = 0; i < points.size(); ++i) {
        const bool now = seen[static_cast<std::size_t>(i)];
        run << points[i];
        if (i + 1 == points.size() || seen[static_cast<std::size_t>(i) + 1] != now) {
            if (i + 1 < points.size()) {
                run << points[i + 1];
            }
            draw(run, now);
            run.clear();
        }
    }
}

// Points between, so that what is straight on the flat bends with the shell.
std::vector<std::pair<double, double>> finer(const figure::Line& line)
{
    std::vector<std::pair<double, double>> out;
    const std::size_t count = line.metres.size() + (line.closed ? 1 : 0);
    for (std::size_t i = 0; i + 1 < count; ++i) {
        const auto& [x, y] = line.metres[i];
        const auto& [nextX, nextY] = line.metres[(i + 1) % line.metres.size()];
        const int steps = std::max(1, static_cast<int>(std::abs(nextY - y) / 0.02));
        for (int j = 0; j < steps; ++j) {
            out.emplace_back(x + (nextX - x) * j / steps, y + (nextY - y) * j / steps);
        }
    }
    out.push_back(line.closed ? line.metres.front() : line.metres.back());
    return out;
}

void water(const Sketch& s, const QPainterPath& inside, double level)
{
    const QRectF box = inside.boundingRect();
    if (level >= box.bottom()) {
        return;
    }
    const QRectF area(box.left(), std::max(level, box.top()), box.width(), box.bottom() - std::max(level, box.top()));
    s.p.save();
    s.p.setClipPath(inside, Qt::IntersectClip);
    hatchWater(s.p, area, s.colours(), s.look.u, false);
    s.p.setPen(solid(s.colours().water_ink, 4 * s.look.u));
    s.p.drawLine(area.topLeft(), area.topRight());
    s.p.restore();
}

void name(const Sketch& s, QPointF base, const QString& word, Place place)
{
    write(s.p, s.font(true), s.colours().ink, base, word, place, s.colours().panel);
}

QPen penFor(const Sketch& s, const std::string& part, bool seen)
{
    const double u = s.look.u;
    if (!seen) {
        return broken(s.colours().line, 2 * u, 7 * u, 6 * u);
    }
    return part.starts_with("cut:")  ? chain(s.colours().ink, 6 * u, u)
        : part.starts_with("hinge:") ? solid(s.colours().ink, 11 * u)
                                     : solid(s.colours().ink, 4 * u);
}

std::vector<PartPlace> paintSide(Sketch s, const MarkedShell& shell)
{
    const double u = s.look.u;
    // As it lies: pitched about its left tangent line, the level level.
    QTransform lain;
    lain.rotateRadians(shell.pitch);
    QPolygonF profile;
    s.each("profile", [&](const figure::Line& line) {
        for (const auto& [x, y] : line.metres) {
            profile << lain.map(QPointF(x, y));
        }
    });
    s.fit(profile.boundingRect(), s.look.box.adjusted(12 * u, 46 * u, -12 * u, -46 * u));
    const auto page = [&](double x, double up) {
        const QPointF at = lain.map(QPointF(x, up));
        return s.at(at.x(), at.y());
    };
    QPainterPath outline;
    QPolygonF wall;
    for (const QPointF& one : profile) {
        wall << s.at(one.x(), one.y());
    }
    outline.addPolygon(wall);
    outline.closeSubpath();
    s.p.fillPath(outline, s.colours().panel);
    if (shell.level) {
        water(s, outline, s.at(0, *shell.level).y());
    }
    for (const double x : {0.0, shell.length}) {
        s.stroke(QPolygonF({page(x, shell.radius), page(x, -shell.radius)}), false, broken(s.colours().line, 2 * u, 4 * u, 6 * u));
    }
    s.p.strokePath(outline, solid(s.colours().ink, 9 * u));
    std::vector<PartPlace> places;
    std::vector<QRectF> named;
    for (const char* prefix : {"cut:", "weld:", "thing:", "hinge:"}) {
        s.each(prefix, [&](const figure::Line& line) {
            QPolygonF points;
            std::vector<bool> seen;
            QRectF box;
            for (const auto& [x, y] : finer(line)) {
                const double clock = shell.clock(y);
                points << page(x, shell.radius * std::cos(clock));
                seen.push_back(std::sin(clock) >= -1e-9);
            }
            visible(points, seen, [&](const QPolygonF& run, bool near) {
                s.stroke(run, false, penFor(s, line.part, near));
                box = near ? box.united(run.boundingRect().adjusted(0, 0, 0.01, 0.01)) : box;
            });
            if (!line.part.starts_with("hinge:")) {
                places.push_back({nameOf(line), points.boundingRect().center(), points.boundingRect()});
                const QString word = nameOf(line);
                const double wide = widthOf(s.font(true), word);
                const bool inside = box.width() > wide && box.height() > 34 * u;
                const QPointF middle = box.center() + QPointF(0, 11 * u);
                // In it where there is room, else under, over, or to the right of it: where nothing is named yet.
                const QPointF under(middle.x(), box.bottom() + 40 * u);
                for (const QPointF& base : inside ? std::vector{middle}
                                                  : std::vector{under, QPointF(middle.x(), box.top() - 14 * u),
                                                      QPointF(box.right() + 10 * u + wide / 2, middle.y())}) {
                    const QRectF room(base.x() - wide / 2, base.y() - 30 * u, wide, 38 * u);
                    if (!box.isEmpty() && std::ranges::none_of(named, [&](const QRectF& one) { return one.intersects(room); })) {
                        name(s, base, word, Place::Centre);
                        named.push_back(room);
                        break;
                    }
                }
            }
        });
    }
    const double foot = s.look.box.bottom() - 12 * u;
    s.words(QPointF(s.look.box.left() + 12 * u, foot), Tr::tr("left end"), Place::Left);
    s.words(QPointF(s.look.box.right() - 12 * u, foot), Tr::tr("right end"), Place::Right);
    return places;
}

std::vector<PartPlace> paintEnd(Sketch s, const MarkedShell& shell)
{
    const double u = s.look.u;
    const double R = shell.radius;
    s.fit(QRectF(-R, -R, 2 * R, 2 * R), s.look.box.adjusted(40 * u, 46 * u, -40 * u, -52 * u));
    const auto page = [&](double clock, double radius) { return s.at(radius * std::sin(clock), radius * std::cos(clock)); };
    QPainterPath circle;
    circle.addEllipse(QRectF(s.at(-R, R), s.at(R, -R)));
    s.p.fillPath(circle, s.colours().panel);
    if (shell.level) { // half way along
        water(s, circle, s.at(0, (*shell.level - shell.length / 2 * std::sin(shell.pitch)) / std::cos(shell.pitch)).y());
    }
    s.p.strokePath(circle, solid(s.colours().ink, 9 * u));
    std::vector<PartPlace> places;
    std::vector<QRectF> named;
    const double scale = s.to_page.m11();
    for (const char* prefix : {"thing:", "weld:", "cut:", "hinge:"}) {
        s.each(prefix, [&](const figure::Line& line) {
            double low = HUGE_VAL;
            double high = -HUGE_VAL;
            for (const auto& [x, y] : line.metres) {
                low = std::min(low, shell.clock(y));
                high = std::max(high, shell.clock(y));
            }
            if (high - low > 2 * kPi - 1e-6) { // a girth seam is the whole circle
                return;
            }
            const bool point = high - low < 1e-9;
            const bool cut = line.part.starts_with("cut:");
            QPolygonF arc;
            for (int i = 0; i <= 60; ++i) {
                arc << page(low + (high - low) * i / 60, R);
            }
            if (point) { // a weld, a hinge along the shell: a stroke across the wall
                const double reach = (line.part.starts_with("hinge:") ? 22 : 13) * u / scale;
                s.stroke(QPolygonF({page(low, R - reach), page(low, R + reach)}), false, solid(s.colours().ink, 5 * u));
            } else if (cut) {
                s.stroke(arc, false, solid(s.colours().paper, 12 * u));
                s.stroke(arc, false, chain(s.colours().ink, 7 * u, u));
            } else {
                s.stroke(arc, false, solid(s.colours().ink, 16 * u));
            }
            if (!line.part.starts_with("hinge:")) {
                places.push_back({nameOf(line), arc[30], arc.boundingRect()});
                const double middle = (low + high) / 2;
                const Place side = std::sin(middle) > 0.3 ? Place::Right : std::sin(middle) < -0.3 ? Place::Left : Place::Centre;
                const double wide = widthOf(s.font(true), nameOf(line));
                for (int step = 0; step < 4; ++step) { // inward until it lies on no other
                    const QPointF base = page(middle, R - (42 + 38 * step) * u / scale) + QPointF(0, 11 * u);
                    const double left = side == Place::Left ? 0 : side == Place::Right ? wide : wide / 2;
                    const QRectF box(base.x() - left, base.y() - 30 * u, wide, 36 * u);
                    if (std::ranges::none_of(named, [&](const QRectF& one) { return one.intersects(box); })) {
                        name(s, base, nameOf(line), side);
                        named.push_back(box);
                        break;
                    }
                }
            }
        });
    }
    s.p.setPen(solid(s.colours().ink, 5 * u)); // the datum line
    const double clock = shell.datum + shell.roll;
    s.p.drawLine(page(clock, R - 20 * u / scale), page(clock, R + 34 * u / scale));
    s.words(QPointF(s.look.box.center().x(), s.look.box.bottom() - 10 * u), Tr::tr("from the left end"), Place::Centre);
    return places;
}

} // namespace

std::vector<PartPlace> paintMarkOut(QPainter& p, const figure::Result& result, MarkOutView view, const PlanLook& look)
{
    const MarkedShell shell(result.values);
    if (!(shell.radius > 0)) {
        return {};
    }
    p.save();
    p.setRenderHint(QPainter::Antialiasing);
    const Sketch sketch{p, result, look, {}};
    std::vector<PartPlace> places;
    switch (view) {
    case MarkOutView::Unrolled:
        places = paintUnrolled(sketch, shell);
        break;
    case MarkOutView::Side:
        places = paintSide(sketch, shell);
        break;
    case MarkOutView::End:
        places = paintEnd(sketch, shell);
        break;
    }
    p.restore();
    return places;
}

} // namespace brimful::print
