// A mark-out unrolled: what the tape says.
#include "app/print/marked_shell.h"

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

class Unrolled {
public:
    Unrolled(const Sketch& sketch, const MarkedShell& shell)
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
    MarkedShell m_shell;
    std::set<QString> m_clashing;
    QRectF m_area;
    std::vector<PartPlace> m_places;
    std::vector<QRectF> m_taken; // by words
};

} // namespace

std::vector<PartPlace> paintUnrolled(const Sketch& sketch, const MarkedShell& shell) { return Unrolled(sketch, shell).paint(); }

} // namespace brimful::print
