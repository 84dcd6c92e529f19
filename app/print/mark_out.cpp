// A mark-out: what the tape says on the unrolled shell, and the same lines on the vessel from the side and from its left end.
#include "app/print/sketch.h"

#include <QCoreApplication>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <set>

namespace brimful::print {

namespace {

constexpr double kPi = std::numbers::pi;

struct Tr {
    Q_DECLARE_TR_FUNCTIONS(MarkOut)
};

QString quarterWord(double clock_deg)
{
    const double turn = std::remainder(clock_deg, 360);
    if (std::abs(turn) < 0.5) {
        //: of a lying shell
        return Tr::tr("top");
    }
    if (std::abs(std::abs(turn) - 180) < 0.5) {
        //: of a lying shell
        return Tr::tr("bottom");
    }
    //: of a lying shell: three o'clock is the near one as one stands before it with its left end to the left
    return std::abs(turn - 90) < 0.5 ? Tr::tr("near side") : std::abs(turn + 90) < 0.5 ? Tr::tr("far side") : QString();
}

struct Shell {
    double radius, length, datum, roll, pitch; // m, rad
    std::optional<double> level;

    explicit Shell(const canon::Json& values)
        : radius(numberOf(values, "outside_diameter_m") / 2)
        , length(numberOf(values, "shell_length_m"))
        , datum(numberOf(values, "datum_deg") * kPi / 180)
        , roll(numberOf(values, "roll_deg") * kPi / 180)
        , pitch(numberOf(values, "pitch_deg") * kPi / 180)
    {
        if (const canon::Json* const water = values.find("water_level_m"); water != nullptr) {
            level = water->number;
        }
    }
    [[nodiscard]] double girth() const { return 2 * kPi * radius; }
    [[nodiscard]] double clock(double y) const { return -y / radius + datum + roll; } // of a place of the unrolled picture
};

std::set<QString> clashing(const canon::Json& values)
{
    std::set<QString> out;
    if (const canon::Json* const rows = values.find("clashes"); rows != nullptr) {
        for (const canon::Json& row : rows->items) {
            out.insert(QString::fromStdString(std::string(row.textOf("with"))));
        }
    }
    return out;
}

// ---- unrolled

class Unrolled {
public:
    Unrolled(const Sketch& sketch, const Shell& shell)
        : s(sketch)
        , m_shell(shell)
        , m_clashing(clashing(s.result.values))
    {
        const double line = 40 * u();
        const double side = (s.look.numbered ? 50 : 34) * u(); // half a tape number stands out on either side
        const QRectF room = s.look.box.adjusted(side, 2.2 * line, -side, -8 * u());
        const double scale = std::min(room.width() / shell.girth(), room.height() / std::max(shell.length, 1e-9));
        const double left = room.center().x() - shell.girth() * scale / 2;
        const double bottom = room.top() + shell.length * scale;
        // Round the shell runs across, along it upward: seen from outside with the left end below.
        s.to_page = QTransform(0, -scale, -scale, 0, left, bottom);
        m_area = QRectF(left, bottom - shell.length * scale, shell.girth() * scale, shell.length * scale);
    }

    std::vector<PartPlace> paint()
    {
        s.p.fillRect(m_area, s.colours().panel);
        s.p.save();
        s.p.setClipRect(m_area);
        s.each("wet:", [&](const figure::Line& line) { wet(line); });
        s.each("quarter:",
            [&](const figure::Line& line) { s.stroke(s.pointsOf(line), false, broken(s.colours().line, 2 * u(), 14 * u(), 9 * u())); });
        s.each("clear:", [&](const figure::Line& line) { clearance(line); });
        s.each("strap:", [&](const figure::Line& line) {
            shifted(line, [&](const QPolygonF& points) { s.stroke(points, true, broken(s.colours().ink2, 1.5 * u(), 4 * u(), 4 * u())); });
        });
        s.each("thing:", [&](const figure::Line& line) { thing(line); });
        s.each("cut:", [&](const figure::Line& line) { cut(line); });
        s.each("mark:", [&](const figure::Line& line) { tick(line); });
        s.each("hinge:", [&](const figure::Line& line) { s.stroke(s.pointsOf(line), false, solid(s.colours().ink, 11 * u())); });
        s.each("weld:", [&](const figure::Line& line) { weld(line); });
        s.p.restore();
        frame();
        names();
        tape();
        return std::move(m_places);
    }

private:
    [[nodiscard]] double u() const { return s.look.u; }

    // The shell closes on itself: what runs over the datum line shows on both sides.
    void shifted(const figure::Line& line, const std::function<void(const QPolygonF&)>& draw) const
    {
        const QPolygonF points = s.pointsOf(line);
        for (const double turn : {-m_area.width(), 0.0, m_area.width()}) {
            const QPolygonF moved = points.translated(turn, 0);
            if (moved.boundingRect().adjusted(-1, -1, 1, 1).intersects(m_area)) {
                draw(moved);
            }
        }
    }

    void place(const figure::Line& line)
    {
        m_places.push_back({nameOf(line), s.pointsOf(line).boundingRect().center(), s.pointsOf(line).boundingRect()});
    }

    void wet(const figure::Line& line) const
    {
        QPainterPath path;
        path.addPolygon(s.pointsOf(line));
        path.closeSubpath();
        s.p.save();
        s.p.setClipPath(path, Qt::IntersectClip);
        hatchWater(s.p, path.boundingRect(), s.colours(), u(), false);
        s.p.restore();
        s.p.strokePath(path, solid(s.colours().water_ink, 4 * u()));
    }

    void clearance(const figure::Line& line) const
    {
        const bool clash = m_clashing.contains(nameOf(line));
        QColor fill = s.colours().caution;
        fill.setAlphaF(0.5);
        shifted(line, [&](const QPolygonF& points) {
            if (clash) {
                s.stroke(points, true, solid(s.colours().ink, 4 * u()), s.colours().fills ? QBrush(fill) : QBrush(Qt::NoBrush));
            } else {
                s.stroke(points, true, broken(s.colours().line, 2 * u(), 3 * u(), 5 * u()));
            }
        });
    }

    void thing(const figure::Line& line)
    {
        shifted(line, [&](const QPolygonF& points) { s.stroke(points, true, solid(s.colours().ink, 4 * u()), s.colours().panel); });
        place(line);
    }

    void cut(const figure::Line& line)
    {
        QColor fill = s.colours().steel;
        fill.setAlphaF(s.colours().fills ? 0.75 : 0);
        shifted(line, [&](const QPolygonF& points) { s.stroke(points, true, chain(s.colours().ink, 6 * u(), u()), fill); });
        place(line);
    }

    // Only where a cut stops: the centre line's marks are for the paper pattern.
    void tick(const figure::Line& line) const
    {
        const QPolygonF points = s.pointsOf(line);
        const QPointF middle = (points.first() + points.last()) / 2;
        const QPointF run = points.last() - points.first();
        const double length = std::hypot(run.x(), run.y());
        const double real =
            std::hypot(line.metres.front().first - line.metres.back().first, line.metres.front().second - line.metres.back().second);
        if (real > 0.0125) {
            return;
        }
        const QPointF half = run / std::max(length, 1e-9) * std::max(length / 2, 9 * u());
        s.p.setPen(solid(s.colours().ink, 4 * u()));
        s.p.drawLine(middle - half, middle + half);
    }

    void weld(const figure::Line& line)
    {
        const QPolygonF points = s.pointsOf(line);
        s.p.strokePath(waves(points.first(), points.last(), u()), solid(s.colours().paper, 10 * u()));
        s.p.strokePath(waves(points.first(), points.last(), u()), solid(s.colours().ink, 4 * u()));
        place(line);
    }

    // Waves at the ends, where the heads are welded on; one line, twice, where the tape closes.
    void frame()
    {
        for (const double y : {m_area.top(), m_area.bottom()}) {
            s.p.strokePath(waves(QPointF(m_area.left(), y), QPointF(m_area.right(), y), u()), solid(s.colours().ink, 4 * u()));
        }
        s.p.setPen(solid(s.colours().ink, 6 * u()));
        for (const double x : {m_area.left(), m_area.right()}) {
            s.p.drawLine(QPointF(x, m_area.top() - 16 * u()), QPointF(x, m_area.bottom()));
        }
        s.p.setPen(Qt::NoPen);
        s.p.setBrush(s.colours().ink);
        for (const double share : {0.2, 0.5, 0.8}) { // what fits together
            const double y = m_area.top() + share * m_area.height();
            s.p.drawPie(QRectF(m_area.left() - 12 * u(), y - 12 * u(), 24 * u(), 24 * u()), -90 * 16, 180 * 16);
            s.p.drawPie(QRectF(m_area.right() - 12 * u(), y - 12 * u(), 24 * u(), 24 * u()), 90 * 16, 180 * 16);
        }
        s.p.setBrush(Qt::NoBrush);
        const QFont small = s.font();
        const auto end = [&](QPointF base, const QString& words) {
            m_taken.push_back(write(s.p, small, s.colours().ink2, base, words, Place::Left, s.colours().panel));
        };
        end(m_area.bottomLeft() + QPointF(18, -14) * u(), Tr::tr("left end"));
        end(m_area.topLeft() + QPointF(18, 38) * u(), Tr::tr("right end"));
    }

    // A name stands in its outline when it fits, otherwise beside it where there is room.
    void names()
    {
        const auto free = [&](const QRectF& box) {
            return m_area.adjusted(2, 2, -2, -2).contains(box)
                && std::ranges::none_of(m_taken, [&](const QRectF& one) { return one.intersects(box); });
        };
        const QFont font = s.font(true);
        std::vector<PartPlace> parts = m_places; // what is large is named first
        std::ranges::stable_sort(parts, [](const PartPlace& a, const PartPlace& b) { return a.box.width() > b.box.width(); });
        for (const PartPlace& part : parts) {
            const double wide = widthOf(font, part.id) + 6 * u();
            const double high = 34 * u();
            const QPointF centre = part.box.center();
            const std::vector<QPointF> places{centre + QPointF(0, 11 * u()),
                QPointF(part.box.right() + wide / 2 + 8 * u(), centre.y() + 11 * u()),
                QPointF(part.box.left() - wide / 2 - 8 * u(), centre.y() + 11 * u()), QPointF(centre.x(), part.box.top() - 10 * u()),
                QPointF(centre.x(), part.box.bottom() + 34 * u()),
                QPointF(part.box.right() + wide / 2 + 8 * u(), part.box.bottom() - 60 * u())};
            for (std::size_t i = 0; i < places.size(); ++i) {
                const QRectF box(places[i].x() - wide / 2, places[i].y() - high, wide, 1.2 * high);
                const bool fits = i != 0 || (part.box.width() > wide && part.box.height() > high);
                if (fits && free(box)) {
                    write(s.p, font, s.colours().ink, places[i], part.id, Place::Centre, s.colours().panel);
                    m_taken.push_back(box);
                    break;
                }
            }
        }
    }

    void tape() const
    {
        const double base = m_area.top() - 22 * u();
        std::vector<QRectF> taken;
        for (const int i : {0, 4, 2, 1, 3}) { // too narrow for all: the ends and the middle stay
            const double x = m_area.left() + m_area.width() * i / 4;
            s.p.setPen(solid(s.colours().ink, 3 * u()));
            s.p.drawLine(QPointF(x, m_area.top() - 16 * u()), QPointF(x, m_area.top()));
            const QString whole = tapeWords(m_shell.girth() * i / 4, s.look.units);
            const QString number = i == 0 ? whole : whole.section(QLatin1Char(' '), 0, -2); // the first says the unit
            const QString word = quarterWord((m_shell.datum * 180 / kPi) + 90 * i);
            const double wide = std::max(widthOf(s.font(true), number), widthOf(s.font(), word)) + 12 * u();
            const QRectF box(x - wide / 2, base - 30 * u(), wide, 30 * u());
            if (std::ranges::none_of(taken, [&](const QRectF& one) { return one.intersects(box); })) {
                s.words(QPointF(x, base), number, Place::Centre, true);
                s.words(QPointF(x, base - 38 * u()), word, Place::Centre);
                taken.push_back(box);
            }
        }
        if (s.look.numbered) {
            numbers("around",
                [&](double at) { return QPointF(m_area.left() + m_area.width() * at / m_shell.girth(), m_area.bottom() + 26 * u()); });
            numbers("along", [&](double at) {
                return QPointF(
                    m_area.right() + 30 * u(), m_area.bottom() - m_area.height() * at / std::max(m_shell.length, 1e-9) + 10 * u());
            });
        }
    }

    // The running lists' own numbers, where the marks stand; one that would lie on another is left to the list.
    void numbers(std::string_view key, const std::function<QPointF(double)>& where) const
    {
        const canon::Json* const rows = s.result.values.find(key);
        QPointF last(-1e9, -1e9);
        for (std::size_t i = 0; rows != nullptr && i < rows->items.size(); ++i) {
            const QPointF at = where(numberOf(rows->items[i], "exact_m"));
            if (std::hypot(at.x() - last.x(), at.y() - last.y()) > 30 * u()) {
                s.words(at, QString::number(i + 1), Place::Centre);
                last = at;
            }
        }
    }

    Sketch s;
    Shell m_shell;
    std::set<QString> m_clashing;
    QRectF m_area;
    std::vector<PartPlace> m_places;
    std::vector<QRectF> m_taken; // by words
};

// ---- the vessel itself

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

std::vector<PartPlace> paintSide(Sketch s, const Shell& shell)
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

std::vector<PartPlace> paintEnd(Sketch s, const Shell& shell)
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
    const Shell shell(result.values);
    if (!(shell.radius > 0)) {
        return {};
    }
    p.save();
    p.setRenderHint(QPainter::Antialiasing);
    const Sketch sketch{p, result, look, {}};
    std::vector<PartPlace> places;
    switch (view) {
    case MarkOutView::Unrolled:
        places = Unrolled(sketch, shell).paint();
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
