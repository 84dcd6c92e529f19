// A hold point grown large: bolts are answers, locks are signatures. While a bolt is in, the blind holds.
#include "app/print/strokes.h"

#include <QCoreApplication>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace brimful::print {

namespace {

class Words {
    Q_DECLARE_TR_FUNCTIONS(Drawing)
public:
    static QString of(int done, int all)
    {
        //: in the middle of the blind: answers given of answers asked
        return tr("%1 of %2").arg(done).arg(all);
    }
};

struct Blind {
    QPainter& p;
    const BlindState& state;
    const Palette& palette;
    QPointF centre;
    double u;

    [[nodiscard]] QPointF onCircle(double turns, double r) const
    {
        const double angle = 2 * std::numbers::pi * turns;
        return centre + QPointF(std::sin(angle), -std::cos(angle)) * r * u;
    }

    void disc() const
    {
        p.setPen(Qt::NoPen);
        p.setBrush(palette.ink);
        p.drawEllipse(centre, 184 * u, 184 * u);
        p.setBrush(palette.paper);
        p.drawEllipse(centre, 110 * u, 110 * u);
        p.setBrush(Qt::NoBrush);
    }

    void hex(QPointF at, double r) const
    {
        QPolygonF shape;
        for (int i = 0; i < 6; ++i) {
            const double angle = std::numbers::pi / 3 * i;
            shape << at + QPointF(std::sin(angle), -std::cos(angle)) * r * u;
        }
        p.drawPolygon(shape);
    }

    void bolt(int i) const
    {
        const QPointF at = onCircle(static_cast<double>(i) / state.questions, 147);
        if (i < state.answered || state.released) {
            p.setPen(Qt::NoPen);
            p.setBrush(palette.paper);
            p.drawEllipse(at, 22 * u, 22 * u);
            p.setBrush(Qt::NoBrush);
            p.setPen(broken(palette.ink, 3 * u, 5 * u, 5 * u));
            p.drawEllipse(at, 17 * u, 17 * u);
            return;
        }
        p.setPen(Qt::NoPen);
        p.setBrush(palette.paper);
        hex(at, i == state.asking ? 36 : 25);
        if (i == state.asking) {
            p.setPen(solid(palette.ink, 5 * u));
            hex(at, 29);
        }
        p.setBrush(Qt::NoBrush);
        write(p, letters(24 * u, true), palette.ink, at + QPointF(0, 9 * u), QString::number(i + 1), Place::Centre);
    }

    void lock(int i) const
    {
        const double size = state.questions > 0 ? 52 : 64;
        const QPointF at(centre.x() + 214 * u, centre.y() - 184 * u + 30 * u + i * size * u);
        const bool shut = i < state.locked || state.released;
        p.setPen(solid(palette.ink, 3.5 * u));
        p.setBrush(shut ? palette.ink : palette.paper);
        p.drawEllipse(at, 20 * u, 20 * u);
        p.setBrush(shut ? palette.paper : palette.ink);
        p.setPen(Qt::NoPen);
        p.drawEllipse(at - QPointF(0, 4 * u), 5 * u, 5 * u);
        p.drawPolygon(QPolygonF({at - QPointF(0, 3 * u), at + QPointF(5.5 * u, 11 * u), at + QPointF(-5.5 * u, 11 * u)}));
        p.setBrush(Qt::NoBrush);
    }
};

} // namespace

void paintBlind(QPainter& p, const BlindState& state, const report::VesselView& view, const Palette& palette, const QRectF& box)
{
    p.save();
    p.setRenderHint(QPainter::Antialiasing);
    const double u = std::min(box.width() / 480.0, box.height() / 372.0);
    const Blind blind{p, state, palette, box.center(), u};
    p.setPen(solid(palette.ink, 16 * u));
    p.drawLine(QPointF(box.left(), blind.centre.y()), blind.centre - QPointF(184 * u, 0));
    p.setPen(state.released ? solid(palette.ink, 16 * u) : broken(palette.line, 4 * u, 14 * u, 10 * u));
    p.drawLine(blind.centre + QPointF(184 * u, 0), QPointF(box.right(), blind.centre.y()));
    blind.disc();
    const double width = 190 * u;
    DrawOptions small;
    small.box = QRectF(blind.centre.x() - width / 2, blind.centre.y() - 84 * u, width, 108 * u);
    small.line_scale = 0.5 * u;
    small.labels = false;
    small.ground = false;
    paintVessel(p, view, palette, small);
    p.setRenderHint(QPainter::Antialiasing);
    write(p, letters(34 * u, true), palette.ink, blind.centre + QPointF(0, 58 * u), Words::of(state.answered, state.questions),
        Place::Centre);
    for (int i = 0; i < state.questions; ++i) {
        blind.bolt(i);
    }
    for (int i = 0; i < state.locks; ++i) {
        blind.lock(i);
    }
    p.restore();
}

} // namespace brimful::print
