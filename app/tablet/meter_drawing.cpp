#include "app/tablet/meter_drawing.h"

#include "app/print/strokes.h"

#include <QCoreApplication>

#include <algorithm>

namespace brimful::tablet {

namespace {

constexpr double kTextSize = 30;

struct MeterDrawing {
    Q_DECLARE_TR_FUNCTIONS(brimful::tablet::MeterDrawing)
};

// One scale: a title, a bar from 0 to `most`, numbers below it.
struct Scale {
    const Canvas& canvas;
    QRectF bar;
    double most;
    std::optional<double> marked{}; // where its mark will stand: words keep clear of it

    [[nodiscard]] double x(double value) const { return bar.left() + bar.width() * std::clamp(value / most, 0.0, 1.0); }
    [[nodiscard]] double u() const { return canvas.u; }

    void title(const QString& words, const QString& values) const
    {
        const double base = bar.top() - 9 * u();
        print::write(canvas.painter, print::letters(kTextSize * u(), true), canvas.palette.ink, QPointF(bar.left(), base), words);
        print::write(
            canvas.painter, print::letters(kTextSize * u()), canvas.palette.ink, QPointF(bar.right(), base), values, print::Place::Right);
    }

    void number(double value, const QString& words) const
    {
        QPainter& p = canvas.painter;
        p.setPen(print::solid(canvas.palette.ink, 3 * u()));
        p.drawLine(QPointF(x(value), bar.bottom()), QPointF(x(value), bar.bottom() + 9 * u()));
        const QFont font = print::letters(kTextSize * u());
        const double half = print::widthOf(font, words) / 2;
        print::write(p, font, canvas.palette.ink2,
            QPointF(std::clamp(x(value), bar.left() + half, bar.right() - half), bar.bottom() + 35 * u()), words, print::Place::Centre);
    }

    // A part of the bar with a word on it.
    void part(double from, double to, const QColor& fill, const QColor& ink, const QString& words) const
    {
        QPainter& p = canvas.painter;
        const QRectF area(x(from), bar.top(), x(to) - x(from), bar.height());
        p.setPen(print::solid(canvas.palette.ink, 3 * u()));
        p.setBrush(fill);
        p.drawRect(area);
        const double clear = 32 * u();
        QRectF room = area.adjusted(6 * u(), 0, -6 * u(), 0);
        if (marked && x(*marked) + clear > room.left() && x(*marked) - clear < room.right()) {
            const QRectF before(room.topLeft(), QPointF(x(*marked) - clear, room.bottom()));
            const QRectF after(QPointF(x(*marked) + clear, room.top()), room.bottomRight());
            room = before.width() > after.width() ? before : after;
        }
        constexpr double kLeast = 0.7; // of its own width: narrower can't be read, and the mark says it too
        const QFont font = print::letters(kTextSize * u(), true);
        if (room.width() > kLeast * print::widthOf(font, words)) {
            print::writeWithin(
                p, font, ink, QPointF(room.center().x(), bar.center().y() + 11 * u()), room.width(), words, print::Place::Centre);
        }
    }

    // Solid: it counts. With a question mark: it does not.
    void mark(double value, bool counts) const
    {
        print::paintDiamond(canvas.painter, QPointF(x(value), bar.center().y()),
            counts ? report::PlaceState::Fresh : report::PlaceState::Unbelievable, canvas.palette, 24 * u(), u());
    }

    void tick(double value) const // what is displayed, as it stands
    {
        QPainter& p = canvas.painter;
        p.setPen(print::solid(canvas.palette.paper, 13 * u()));
        p.drawLine(QPointF(x(value), bar.top() - 5 * u()), QPointF(x(value), bar.bottom() + 5 * u()));
        p.setPen(print::solid(canvas.palette.ink, 6 * u()));
        p.drawLine(QPointF(x(value), bar.top() - 5 * u()), QPointF(x(value), bar.bottom() + 5 * u()));
    }
};

void paintGas(const Scale& scale, const MeterSketch& sketch)
{
    const print::Palette& colours = scale.canvas.palette;
    const QString shown = MeterDrawing::tr("shown %1").arg(sketch.shown);
    scale.title(MeterDrawing::tr("Gas, %LEL"),
        //: a meter's number, and what it means
        sketch.means ? MeterDrawing::tr("%1, means %2").arg(shown).arg(*sketch.means, 0, 'g', 3)
                     : MeterDrawing::tr("%1, means nothing").arg(shown));
    constexpr double kLeave = 10;
    scale.part(0, kLeave, colours.panel, colours.ink, {});
    scale.part(kLeave, scale.most, colours.gas, colours.gas_ink, MeterDrawing::tr("everybody leaves"));
    for (const double value : {0.0, kLeave, 25.0, 50.0, 100.0}) {
        scale.number(value, QString::number(value));
    }
    scale.tick(sketch.shown);
    if (sketch.means) {
        scale.mark(*sketch.means, sketch.counts);
    }
}

void paintOxygen(const Scale& scale, const MeterSketch& sketch)
{
    const print::Palette& colours = scale.canvas.palette;
    scale.title(MeterDrawing::tr("Oxygen, %"),
        sketch.oxygen ? MeterDrawing::tr("read %1").arg(*sketch.oxygen, 0, 'f', 1) : MeterDrawing::tr("not read"));
    //: of a reading with so little oxygen: it may stop work and never release it
    const QString alarm = MeterDrawing::tr("alarm only");
    constexpr double kNeeds = 10;
    constexpr double kLow = 19.5;
    constexpr double kHigh = 23;
    if (sketch.infrared) {
        scale.part(0, kLow, colours.caution, colours.caution_text, alarm);
    } else {
        //: of a sensor without oxygen
        scale.part(0, kNeeds, colours.danger, colours.danger_text, MeterDrawing::tr("sensor sees nothing"));
        scale.part(kNeeds, kLow, colours.caution, colours.caution_text, alarm);
    }
    //: of a reading with oxygen as in air
    scale.part(kLow, kHigh, colours.panel, colours.ink, MeterDrawing::tr("counts"));
    //: more oxygen than air has
    scale.part(kHigh, scale.most, colours.warning, colours.warning_text, MeterDrawing::tr("rich"));
    for (const double value : {0.0, kNeeds, kLow, kHigh}) {
        scale.number(value, QString::number(value));
    }
    if (sketch.oxygen) {
        scale.mark(*sketch.oxygen, *sketch.oxygen >= kLow - 1e-9 && *sketch.oxygen <= kHigh + 1e-9);
    }
}

void paintWait(const Scale& scale, const MeterSketch& sketch)
{
    const print::Palette& colours = scale.canvas.palette;
    const double wait = sketch.hose_s + sketch.meter_s;
    //: %1 and %2 seconds
    scale.title(MeterDrawing::tr("Held, s"), MeterDrawing::tr("%1 of %2").arg(sketch.held_s).arg(wait, 0, 'f', 0));
    if (sketch.hose_s > 0) {
        //: what is waited for: the hose, then the meter itself
        scale.part(0, sketch.hose_s, colours.steel, colours.ink, MeterDrawing::tr("hose"));
    }
    scale.part(sketch.hose_s, wait, colours.steel, colours.ink, MeterDrawing::tr("meter"));
    scale.part(wait, scale.most, colours.panel, colours.ink, MeterDrawing::tr("counts"));
    scale.number(0, QStringLiteral("0"));
    scale.number(wait, QString::number(wait, 'f', 0));
    scale.mark(sketch.held_s, sketch.held_s >= wait);
}

} // namespace

void paintMeter(const Canvas& canvas, const MeterSketch& sketch)
{
    const double u = canvas.u;
    const double pitch = (canvas.size.height() - 8 * u) / 3;
    const double side = 30 * u;
    const double tall = std::clamp(pitch - 84 * u, 26 * u, 44 * u);
    const auto scale = [&](int row, double most, std::optional<double> marked) {
        return Scale{canvas, QRectF(side, row * pitch + 38 * u, canvas.size.width() - 2 * side, tall), most, marked};
    };
    paintGas(scale(0, 100, sketch.means), sketch);
    paintOxygen(scale(1, 25, sketch.oxygen), sketch);
    paintWait(scale(2, std::max(sketch.held_s, sketch.hose_s + sketch.meter_s) * 1.15, sketch.held_s), sketch);
}

} // namespace brimful::tablet
