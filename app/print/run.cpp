// The journey as a run of pipe: a solid disc in the line holds, a ring in the line is released.
#include "app/print/strokes.h"

#include <algorithm>

namespace brimful::print {

using report::GateView;

namespace {

struct Run {
    QPainter& p;
    const report::VesselView& view;
    const Palette& palette;
    QRectF box;
    const std::vector<QString>& names;
    double u{};
    double line{};
    std::vector<PartPlace> parts;

    [[nodiscard]] double gateX(std::size_t i) const
    {
        return box.left() + box.width() * static_cast<double>(i + 1) / static_cast<double>(view.gates.size() + 1);
    }
    [[nodiscard]] std::size_t current() const
    {
        const auto first = std::ranges::find_if(view.gates, [](const GateView& gate) { return !gate.passed; });
        return static_cast<std::size_t>(first - view.gates.begin());
    }

    void passedReach(double from, double to) const { p.fillRect(QRectF(from, line - 8 * u, to - from, 16 * u), palette.ink); }

    void laterReach(double from, double to) const
    {
        p.setPen(broken(palette.line, 3 * u, 14 * u, 10 * u));
        p.drawLine(QPointF(from, line), QPointF(to, line));
    }

    // One collar a step: solid proven, broken lapsed or missing.
    void presentReach(double from, double to) const
    {
        const QRectF tube(from, line - 8 * u, to - from, 16 * u);
        p.setPen(solid(palette.ink, 3 * u));
        p.setBrush(palette.panel);
        p.drawRect(tube);
        if (view.reach >= view.stages.size() || view.stages[view.reach].steps.empty()) {
            return;
        }
        const auto& steps = view.stages[view.reach].steps;
        const double pitch = tube.width() / static_cast<double>(steps.size());
        const double width = std::min(0.72 * pitch, 22 * u);
        for (std::size_t i = 0; i < steps.size(); ++i) {
            const double x = tube.left() + (static_cast<double>(i) + 0.5) * pitch - width / 2;
            const bool proven = steps[i] < view.standing.steps.size() && view.standing.steps[steps[i]].passed == rules::Truth::True;
            if (proven) {
                p.fillRect(QRectF(x, line - 8 * u, width, 16 * u), palette.ink);
            } else {
                p.setPen(broken(palette.ink, 3 * u, 5 * u, 4 * u));
                p.drawRect(QRectF(x, line - 15 * u, width, 30 * u));
            }
        }
    }

    void gate(std::size_t i)
    {
        const QPointF at(gateX(i), line);
        const QPointF swung = at - QPointF(0, 35.4 * u);
        const auto ring = [&](QPointF c, double r, const QPen& pen) {
            p.setPen(pen);
            p.setBrush(palette.paper);
            p.drawEllipse(c, r * u, r * u);
        };
        const auto disc = [&](QPointF c, double r) {
            p.setPen(Qt::NoPen);
            p.setBrush(palette.ink);
            p.drawEllipse(c, r * u, r * u);
        };
        const bool holds = i == current();
        if (i < current()) {
            ring(at, 18, solid(palette.ink, 5 * u));
            disc(swung, 14.4);
        } else if (holds) {
            disc(at, 20);
            ring(swung, 12.4, solid(palette.ink, 4 * u));
        } else {
            ring(at, 13.2, broken(palette.ink, 4 * u, 6 * u, 4 * u));
        }
        p.setBrush(Qt::NoBrush);
        const double room = box.width() / static_cast<double>(view.gates.size() + 1) - 8 * u;
        if (i < names.size()) {
            writeWithin(p, letters(30 * u, holds), palette.ink, at + QPointF(0, 48 * u), room, names[i], Place::Centre);
        }
        parts.push_back({QStringLiteral("gate:") + QString::number(view.gates[i].hold_point), at,
            QRectF(at - QPointF(42, 50) * u, QSizeF(84, 104) * u)});
    }

    void paint()
    {
        const std::size_t now = current();
        for (std::size_t i = 0; i <= view.gates.size(); ++i) {
            const double from = i == 0 ? box.left() : gateX(i - 1) + 26 * u;
            const double to = i == view.gates.size() ? box.right() : gateX(i) - 26 * u;
            if (i < now || (i == now && now == view.gates.size())) {
                passedReach(from, to);
            } else if (i == now) {
                presentReach(from, to);
            } else {
                laterReach(from, to);
            }
            parts.push_back({QStringLiteral("reach:") + QString::number(i), QPointF((from + to) / 2, line),
                QRectF(from, line - 42 * u, to - from, 84 * u)});
        }
        for (std::size_t i = 0; i < view.gates.size(); ++i) {
            gate(i);
        }
    }
};

} // namespace

std::vector<PartPlace> paintRun(
    QPainter& p, const report::VesselView& view, const Palette& palette, const QRectF& box, const std::vector<QString>& gate_names)
{
    if (view.gates.empty() || box.isEmpty()) {
        return {};
    }
    p.save();
    p.setRenderHint(QPainter::Antialiasing);
    // 1232 x 106 on a 1280 px screen, with the swung discs above the line and the names below.
    const double u = std::min(box.width() / 1232.0, box.height() / 106.0);
    Run run{p, view, palette, box, gate_names, u, box.top() + 50 * u, {}};
    run.paint();
    p.restore();
    return run.parts;
}

} // namespace brimful::print
