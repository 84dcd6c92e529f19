// The section drawing. Cues in this order: line, hatch, shape, word, then colour. Solid is proven, broken is believed or
// lapsed.
#include "app/print/filling.h"
#include "app/print/openings.h"
#include "app/print/section.h"
#include "app/print/strokes.h"

#include <QCoreApplication>

#include <algorithm>
#include <array>
#include <cmath>

namespace brimful::print {

using report::CutState;
using report::PlateWord;
using report::Sight;
using report::WaterState;

namespace {

class Words {
    Q_DECLARE_TR_FUNCTIONS(Drawing)
public:
    static QString tilt(double degrees, double times)
    {
        const QString number = QString::number(degrees, 'f', 1);
        if (times == 1.0) {
            //: beside the spirit level: the vessel's tilt, true to scale in the drawing
            return tr("tilt %1°").arg(number);
        }
        //: beside the spirit level: %1 degrees; the drawing exaggerates them %2 times
        return tr("tilt %1°, drawn %2 times as steep").arg(number).arg(times);
    }
    static QString notMeasured()
    {
        //: under the drawing: nobody has measured the shell; its size is believed or unknown
        return tr("not measured");
    }
};

bool refused(PlateWord word) { return word == PlateWord::Refused || word == PlateWord::NotOurs; }

struct Painter {
    QPainter& p;
    const report::VesselView& view;
    const Palette& palette;
    const DrawOptions& options;
    Section s;
    std::vector<Nozzle> all;
    Filling filling;
    std::vector<PartPlace> parts;

    [[nodiscard]] bool solidWall() const
    {
        return view.shell.sight == Sight::Proven && view.contents_sight == Sight::Proven && !refused(view.word);
    }

    void ground() const
    {
        if (!options.ground) {
            return;
        }
        const double u = s.u;
        const QRectF shell = s.outline(0).boundingRect();
        p.setPen(solid(palette.ink, 3 * u));
        const double reach = std::min(50 * u, 0.1 * shell.width());
        p.drawLine(QPointF(std::max(shell.left() - reach, options.box.left()), s.ground),
            QPointF(std::min(shell.right() + reach, options.box.right()), s.ground));
        for (const double share : {0.12, 0.88}) {
            support(share * s.length);
        }
    }

    // A stand with its top under the shell, whatever the tilt.
    void support(double x) const
    {
        const double half = std::min(34 * s.u, std::max(0.09 * s.length, 4.0));
        const double foot = half * 1.4;
        const QPointF a = s.at(x - half, -s.radius - s.wall() / 2);
        const QPointF b = s.at(x + half, -s.radius - s.wall() / 2);
        QPainterPath shape(a);
        shape.lineTo(b);
        shape.lineTo(QPointF((a.x() + b.x()) / 2 + foot, s.ground));
        shape.lineTo(QPointF((a.x() + b.x()) / 2 - foot, s.ground));
        shape.closeSubpath();
        if (s.u < 0.6) {
            p.fillPath(shape, palette.ink);
        } else {
            hatchSteel(p, shape, palette, s.u);
        }
    }

    void wall() const
    {
        const QPen pen = solidWall() ? solid(palette.ink, s.wall()) : broken(palette.ink, s.wall(), 26 * s.u, 14 * s.u);
        if (!solidWall()) {
            p.strokePath(s.outline(0), solid(palette.paper, s.wall()));
        }
        p.strokePath(s.outline(0), pen);
        if (options.labels) {
            p.setPen(broken(palette.line, 2 * s.u, 4 * s.u, 7 * s.u));
            for (const double x : {0.0, s.length}) {
                p.drawLine(s.at(x, s.radius - s.wall()), s.at(x, -s.radius + s.wall()));
            }
        }
    }

    void openings()
    {
        for (const Nozzle& n : all) {
            const bool watered = filling.level && n.root.y() - n.out.y() * s.wall() / 2 > *filling.level + s.u;
            const QRectF box = paintNozzle(p, n, s, palette, watered, filling.water_proven);
            parts.push_back({QStringLiteral("opening:") + QString::fromStdString(n.opening->name), n.root + n.out * 24 * s.u, box});
        }
        if (options.labels) {
            nameNozzles(p, all, palette, s.u);
        }
    }

    [[nodiscard]] bool cutShown() const
    {
        const auto part = std::ranges::find(view.parts, "cut", &report::PartView::id);
        const bool known = part != view.parts.end() && part->sight != Sight::Unknown;
        return !refused(view.word) && view.word != PlateWord::ClosedOut
            && (view.cut != CutState::Planned || view.water.state == WaterState::Brim || known);
    }

    [[nodiscard]] QPointF onCut(double across, double up) const // -1..1 over the door
    {
        return s.at(s.length / 2 + across * 0.17 * (s.length + s.radius), up * 0.32 * s.radius);
    }

    void numbered(QPointF at, std::size_t which, double radius, double size) const
    {
        p.setPen(solid(palette.ink, 3 * s.u));
        p.setBrush(palette.paper);
        p.drawEllipse(at, radius, radius);
        p.setBrush(Qt::NoBrush);
        write(p, letters(size, true), palette.ink, at + QPointF(0, 0.354 * size), QString::number(which), Place::Centre);
    }

    void cut()
    {
        if (!cutShown()) {
            return;
        }
        const double u = s.u;
        const QPolygonF door({onCut(-1, 1), onCut(1, 1), onCut(1, -1), onCut(-1, -1)});
        if (view.cut == CutState::Made) {
            p.setPen(solid(palette.ink, 12 * u));
            p.drawPolygon(door);
            p.setPen(solid(palette.paper, 6 * u));
            p.drawPolygon(door);
        } else {
            p.setPen(chain(palette.ink, 3 * u, u));
            p.drawPolygon(door);
        }
        if (options.labels) {
            numbered(onCut(-1, 1), 1, 17 * u, 24 * u);
        }
        parts.push_back({QStringLiteral("cut"), onCut(1, -0.6), door.boundingRect()});
    }

    [[nodiscard]] QPointF placeAt(const std::string& name, std::size_t number, std::size_t count) const
    {
        const double u = s.u;
        if (name == "vent") {
            using report::OpeningState;
            for (const OpeningState wanted : {OpeningState::Brim, OpeningState::Open}) {
                const auto vent = std::ranges::find_if(all, [&](const Nozzle& n) { return n.opening->state == wanted && n.out.y() < 0; });
                if (vent != all.end()) {
                    return vent->root - vent->out * 38 * u; // inside, under the vent
                }
            }
            return s.at(s.length / 2, s.radius) - QPointF(0, 30 * u);
        }
        if (name == "cut") {
            return onCut(0.45, 1);
        }
        if (name == "high") {
            return s.at(0.62 * s.length, 0.72 * s.radius);
        }
        if (name == "work") {
            return onCut(1, 0);
        }
        if (name == "ground") {
            return {s.outline(0).boundingRect().right() - 20 * u, s.ground - 18 * u};
        }
        if (name == "low-left") {
            return s.at(-0.3 * s.left_depth, -s.radiusAt(-0.3 * s.left_depth)) + QPointF(0, 6 * u);
        }
        if (name == "low-right") {
            return s.at(s.length + 0.3 * s.right_depth, -s.radiusAt(s.length + 0.3 * s.right_depth)) + QPointF(0, 6 * u);
        }
        const double share = count < 2 ? 0.5 : static_cast<double>(number) / static_cast<double>(count - 1);
        return s.at((0.12 + 0.76 * share) * s.length, -0.62 * s.radius);
    }

    void places()
    {
        if (view.places.empty()) {
            return;
        }
        constexpr std::array<std::string_view, 7> kNamed{"vent", "cut", "ground", "low-left", "low-right", "high", "work"};
        const auto own = [&](const report::PlaceView& place) { return std::ranges::find(kNamed, place.name) == kNamed.end(); };
        const auto others = static_cast<std::size_t>(std::ranges::count_if(view.places, own));
        std::size_t number = 0;
        QPointF last;
        for (const report::PlaceView& place : view.places) {
            last = placeAt(place.name, number, others);
            number += own(place) ? 1U : 0U;
            paintDiamond(p, last, place.state, palette, 17 * s.u, s.u);
            if (options.labels && place.state == report::PlaceState::Failing && place.gas) {
                const QString value = QString::number(static_cast<double>(*place.gas) / 10) + QStringLiteral(" %LEL");
                write(p, letters(28 * s.u, true), palette.ink, last + QPointF(28 * s.u, 10 * s.u), value, Place::Left, palette.paper);
            }
        }
        parts.push_back({QStringLiteral("places"), last, QRectF(last - QPointF(26, 26) * s.u, QSizeF(52, 52) * s.u)});
    }

    [[nodiscard]] QPointF sweptAt(std::size_t number, const std::string& name) const
    {
        if (name == "work-one") {
            return onCut(-1, 1);
        }
        if (name == "work-two") {
            return onCut(1, -1);
        }
        if (name == "far-side") {
            return s.at(s.length + 0.55 * s.right_depth, 0);
        }
        if (name == "legs") {
            return {s.at(0.88 * s.length, 0).x(), s.ground - 24 * s.u};
        }
        if (name == "ground-gaps") {
            return {s.outline(0).boundingRect().left() + 10 * s.u, s.ground - 24 * s.u};
        }
        return s.at(s.length * (0.2 + 0.1 * static_cast<double>(number)), 0.7 * s.radius);
    }

    void sweep()
    {
        for (std::size_t i = 0; i < view.watch->places.size(); ++i) {
            const QPointF at = sweptAt(i, view.watch->places[i]);
            numbered(at, i + 1, 24 * s.u, 32 * s.u);
            parts.push_back({QStringLiteral("sweep:") + QString::fromStdString(view.watch->places[i]), at,
                QRectF(at - QPointF(24, 24) * s.u, QSizeF(48, 48) * s.u)});
        }
    }

    void state() const
    {
        const double u = s.u;
        const QRectF shell = s.outline(s.wall() / 2).boundingRect();
        switch (view.word) {
        case PlateWord::Released:
            p.strokePath(s.outline(s.wall() / 2 + 11 * u), solid(palette.ink, 3 * u));
            return;
        case PlateWord::Stopped: {
            const double half = std::clamp(0.08 * shell.height(), 5 * u, 11 * u);
            const double y = shell.center().y();
            const double reach = 18 * u;
            p.fillRect(QRectF(shell.left() - reach, y - 1.9 * half, shell.width() + 2 * reach, 3.8 * half), palette.paper);
            p.fillRect(QRectF(shell.left() - reach, y - half, shell.width() + 2 * reach, 2 * half), palette.ink);
            return;
        }
        case PlateWord::Refused:
        case PlateWord::NotOurs: {
            const QRectF cross = shell.adjusted(0.08 * shell.width(), -12 * u, -0.08 * shell.width(), 12 * u);
            for (const bool up : {false, true}) {
                const QLineF line(up ? cross.bottomLeft() : cross.topLeft(), up ? cross.topRight() : cross.bottomRight());
                p.setPen(solid(palette.paper, 24 * u));
                p.drawLine(line);
                p.setPen(solid(palette.ink, 12 * u));
                p.drawLine(line);
            }
            return;
        }
        case PlateWord::ClosedOut:
            gapInWall();
            return;
        case PlateWord::Draining:
            arrowOut(shell);
            return;
        case PlateWord::Held:
        case PlateWord::FireWatch:
        case PlateWord::RecordDamaged:
        case PlateWord::ClockUnknown:
            return;
        }
    }

    void gapInWall() const
    {
        const double u = s.u;
        const double from = 0.3 * s.length;
        const double to = 0.66 * s.length;
        p.setPen(solid(palette.panel, s.wall() + 3 * u));
        p.drawLine(s.at(from, s.radius), s.at(to, s.radius));
        p.setPen(solid(palette.ink, s.wall()));
        for (const double x : {from, to}) {
            p.drawLine(s.at(x, s.radius + 11 * u), s.at(x, s.radius - 16 * u));
        }
    }

    void arrowOut(const QRectF& shell) const
    {
        const double u = s.u;
        const QPointF tip(shell.center().x(), (options.ground ? s.ground - 2 * u : shell.bottom() + 18 * u));
        p.setPen(solid(palette.water_ink, 5 * u));
        p.drawLine(QPointF(tip.x(), shell.bottom() - 4 * u), tip);
        p.drawPolyline(QPolygonF({tip + QPointF(-10 * u, -12 * u), tip, tip + QPointF(10 * u, -12 * u)}));
    }

    // A spirit level: the bubble goes to the higher end.
    void vial() const
    {
        const double u = s.u;
        const double pitch = view.pitch_deg.value_or(0.0);
        const QRectF glass(options.box.left() + 6 * u, s.ground + 11 * u, 112 * u, 30 * u);
        const QPen pen = view.tilt_sight == Sight::Proven ? solid(palette.ink, 3 * u) : broken(palette.ink, 3 * u, 8 * u, 5 * u);
        p.setPen(pen);
        p.setBrush(palette.panel);
        p.drawRoundedRect(glass, 15 * u, 15 * u);
        const double shift = std::clamp(pitch / 3.0, -1.0, 1.0) * 36 * u;
        p.setPen(solid(palette.ink, 2 * u));
        for (const double side : {-18.0, 18.0}) {
            p.drawLine(glass.center() + QPointF(side * u, -15 * u), glass.center() + QPointF(side * u, 15 * u));
        }
        p.drawRoundedRect(QRectF(glass.center() + QPointF(shift - 15 * u, -9 * u), QSizeF(30 * u, 18 * u)), 9 * u, 9 * u);
        p.setBrush(Qt::NoBrush);
        const QPointF base = glass.bottomRight() + QPointF(14 * u, -4 * u);
        writeWithin(p, letters(30 * u), palette.ink2, base, options.box.right() - base.x(), Words::tilt(pitch, s.times));
    }

    void words() const
    {
        if (!options.labels) {
            return;
        }
        if (view.pitch_deg && *view.pitch_deg != 0.0) {
            vial();
        } else if (view.shell.sight == Sight::Unknown || view.shell.sight == Sight::Believed) {
            write(p, letters(30 * s.u), palette.ink2, QPointF(options.box.left() + 6 * s.u, s.ground + 36 * s.u), Words::notMeasured());
        }
    }

    void otherParts()
    {
        const QRectF shell = s.outline(0).boundingRect();
        const auto part = [&](const char* id, QPointF at) {
            parts.push_back({QString::fromLatin1(id), at, QRectF(at - QPointF(20, 20) * s.u, QSizeF(40, 40) * s.u)});
        };
        part("was", s.at(0.1 * s.length, 0.55 * s.radius));
        part("tilt", s.at(-0.72 * s.left_depth, s.radiusAt(-0.72 * s.left_depth)));
        part("water", s.at(-0.2 * s.left_depth, -0.2 * s.radius));
        part("tag", s.at(0.93 * s.length, s.radius));
        parts.push_back({QStringLiteral("shell"), shell.center(), shell});
    }
};

Margins marginsFor(const report::VesselView& view, const DrawOptions& options, bool crowd)
{
    const double u = options.line_scale;
    Margins m;
    const auto has = [&](std::initializer_list<Nozzle::Side> sides) {
        return std::ranges::any_of(
            view.openings, [&](const report::OpeningView& opening) { return std::ranges::find(sides, sideOf(opening)) != sides.end(); });
    };
    const bool top = has({Nozzle::Side::Top});
    const bool bottom = has({Nozzle::Side::Bottom});
    const bool ends = has({Nozzle::Side::LeftEnd, Nozzle::Side::RightEnd});
    m.top = (top ? 32 : 18) * u + (top && options.labels ? 34 * u : 0) + (crowd ? 24 * u : 0);
    m.side = (ends ? 44 : 20) * u;
    m.stand = options.ground ? (bottom ? 70 : 32) * u : 20 * u;
    const bool tilted = view.pitch_deg && *view.pitch_deg != 0.0;
    const bool unmeasured = view.shell.sight == Sight::Unknown || view.shell.sight == Sight::Believed;
    m.words = options.labels && (tilted || unmeasured) ? 46 * u : 0.0;
    return m;
}

} // namespace

std::vector<PartPlace> paintVessel(QPainter& p, const report::VesselView& view, const Palette& palette, const DrawOptions& options)
{
    p.save();
    p.setRenderHint(QPainter::Antialiasing);
    Section s = layOut(view, options, marginsFor(view, options, false));
    std::vector<Nozzle> all = nozzles(view, s);
    if (options.labels && namesCrowd(all, s.u)) {
        s = layOut(view, options, marginsFor(view, options, true));
        all = nozzles(view, s);
    }
    Painter painter{p, view, palette, options, s, all, fillingOf(view, s, all), {}};
    painter.ground();
    paintFilling(p, painter.filling, s, palette);
    painter.wall();
    painter.openings();
    painter.cut();
    paintLevelMark(p, painter.filling, s, palette);
    if (options.labels) {
        paintPocketBox(p, painter.filling, s, palette);
    }
    if (options.sweep && view.word == PlateWord::FireWatch && view.watch) {
        painter.sweep();
    } else {
        painter.places();
    }
    painter.state();
    painter.words();
    painter.otherParts();
    p.restore();
    return painter.parts;
}

} // namespace brimful::print
