// A figure's picture: its lines in metres, drawn as the parts they name.
#include "app/print/strokes.h"

#include <algorithm>

namespace brimful::print {

namespace {

QRectF boundsOf(const figure::Result& result)
{
    QPolygonF all;
    for (const figure::Line& line : result.picture) {
        for (const auto& [x, y] : line.metres) {
            all << QPointF(x, -y);
        }
    }
    return all.boundingRect();
}

// What a part is drawn as: water below, gas in dots, the shell's wall, everything else a line.
enum class Look : std::uint8_t { Water, Gas, Wall, Opening, Surface, Support, Cut, Tube, Other };

constexpr std::string_view kAcross = "across:"; // the same parts seen from the end

Look lookOf(std::string_view part)
{
    if (part.starts_with(kAcross)) {
        part.remove_prefix(kAcross.size());
    }
    const auto starts = [&](std::string_view word) { return part.starts_with(word); };
    if (part == "water") {
        return Look::Water;
    }
    if (starts("pocket")) {
        return Look::Gas;
    }
    if (part == "surface" || part == "level") {
        return Look::Surface;
    }
    if (starts("opening")) {
        return Look::Opening;
    }
    if (starts("support")) {
        return Look::Support;
    }
    if (starts("snorkel")) {
        return Look::Tube;
    }
    if (starts("cut:") || part == "stick" || part == "ground") {
        return Look::Cut;
    }
    return starts("shell") || starts("outline") || starts("head") ? Look::Wall : Look::Other;
}

struct Figure {
    QPainter& p;
    const Palette& palette;
    QTransform to_page;
    double u;

    [[nodiscard]] QPainterPath pathOf(const figure::Line& line) const
    {
        QPolygonF points;
        for (const auto& [x, y] : line.metres) {
            points << to_page.map(QPointF(x, -y));
        }
        QPainterPath path;
        path.addPolygon(points);
        if (line.closed) {
            path.closeSubpath();
        }
        return path;
    }

    void fill(const figure::Line& line) const
    {
        const QPainterPath path = pathOf(line);
        p.save();
        p.setClipPath(path, Qt::IntersectClip);
        if (lookOf(line.part) == Look::Water) {
            hatchWater(p, path.boundingRect(), palette, u, true);
        } else {
            dotGas(p, path.boundingRect(), palette, u);
        }
        p.restore();
    }

    void stroke(const figure::Line& line) const
    {
        const QPainterPath path = pathOf(line);
        switch (lookOf(line.part)) {
        case Look::Water:
            return;
        case Look::Gas:
            p.strokePath(path, broken(palette.gas_ink, 3 * u, 8 * u, 5 * u));
            return;
        case Look::Wall:
            p.strokePath(path, solid(palette.ink, 9 * u));
            return;
        case Look::Opening:
            p.strokePath(path, solid(palette.ink, 6 * u));
            return;
        case Look::Support:
            hatchSteel(p, path, palette, u);
            p.strokePath(path, solid(palette.ink, 3 * u));
            return;
        case Look::Cut:
            p.strokePath(path, solid(palette.ink, 5 * u));
            return;
        case Look::Tube: // two walls, with room between them
            p.strokePath(path, solid(palette.ink, 13 * u));
            p.strokePath(path, solid(palette.paper, 6 * u));
            return;
        case Look::Surface:
            p.strokePath(path, solid(palette.water_ink, 4 * u));
            return;
        case Look::Other:
            p.strokePath(path, solid(palette.ink2, 3 * u));
            return;
        }
    }
};

} // namespace

std::vector<PartPlace> paintFigure(QPainter& p, const figure::Result& result, const Palette& palette, const QRectF& box, double line_scale)
{
    const QRectF bounds = boundsOf(result);
    if (result.picture.empty() || (bounds.width() <= 0 && bounds.height() <= 0)) {
        return {};
    }
    p.save();
    p.setRenderHint(QPainter::Antialiasing);
    const double u = line_scale > 0 ? line_scale : std::min(box.width() / 820.0, box.height() / 400.0);
    const double name_size = line_scale > 0 ? 30 : 26;
    const bool names = std::ranges::any_of(result.picture, [](const figure::Line& line) { return lookOf(line.part) == Look::Opening; });
    const QRectF room = box.adjusted(14 * u, (names ? 60 : 14) * u, -14 * u, -14 * u);
    const double scale = std::min(room.width() / std::max(bounds.width(), 1e-9), room.height() / std::max(bounds.height(), 1e-9));
    Figure figure{p, palette, {}, u};
    figure.to_page.translate(room.center().x() - bounds.center().x() * scale, room.center().y() - bounds.center().y() * scale);
    figure.to_page.scale(scale, scale);
    std::vector<PartPlace> parts;
    for (const figure::Line& line : result.picture) {
        if (lookOf(line.part) == Look::Wall && line.closed) {
            p.fillPath(figure.pathOf(line), palette.panel);
        }
    }
    for (const figure::Line& line : result.picture) {
        const Look look = lookOf(line.part);
        if (line.closed && (look == Look::Water || look == Look::Gas)) {
            figure.fill(line);
        }
    }
    for (const figure::Line& line : result.picture) {
        figure.stroke(line);
        const QRectF at = figure.pathOf(line).boundingRect();
        parts.push_back({QString::fromStdString(line.part), at.center(), at});
    }
    for (const figure::Line& line : result.picture) {
        if (lookOf(line.part) == Look::Opening && !line.part.starts_with(kAcross)) {
            const QRectF at = figure.pathOf(line).boundingRect();
            const QString name = QString::fromStdString(line.part.substr(std::min(line.part.find(':') + 1, line.part.size())));
            write(p, letters(name_size * u, true), palette.ink, QPointF(at.center().x(), at.top() - 22 * u), name, Place::Centre,
                palette.paper);
        }
    }
    p.restore();
    return parts;
}

} // namespace brimful::print
