#include "app/tablet/painted.h"

#include <QPainterPath>

#include <algorithm>
#include <cmath>

namespace brimful::tablet {

print::Palette paletteOf(const QString& theme)
{
    if (theme == QLatin1String("dark")) {
        return print::Palette::dark();
    }
    return theme == QLatin1String("sunlight") ? print::Palette::sunlight() : print::Palette::light();
}

Painted::Painted(QQuickItem* parent)
    : QQuickPaintedItem(parent)
{
    setAntialiasing(true);
}

void Painted::setTheme(const QString& theme)
{
    if (theme != m_theme) {
        m_theme = theme;
        Q_EMIT lookChanged();
        update();
    }
}

void Painted::setUnit(double unit)
{
    if (!qFuzzyCompare(unit, m_unit)) {
        m_unit = unit;
        Q_EMIT lookChanged();
        update();
    }
}

void VesselDrawing::paint(QPainter* painter)
{
    m_places.clear();
    if (!m_picture.view) {
        return;
    }
    print::DrawOptions options;
    options.box = QRectF(m_side, 0, width() - 2 * m_side, height());
    options.px_per_m = m_metres > 0 ? width() / m_metres : 0;
    options.line_scale = unit();
    options.labels = m_labels;
    options.ground = m_ground;
    options.sweep = m_sweep;
    m_places = print::paintVessel(*painter, *m_picture.view, palette(), options);
    leaders(painter);
}

// A thin line from a tab at the side to the part that it names.
void VesselDrawing::leaders(QPainter* painter) const
{
    if (m_tab_pitch <= 0) {
        return;
    }
    const QColor line = palette().line;
    painter->setPen(QPen(line, 2 * unit()));
    painter->setBrush(line);
    const auto draw = [&](const QStringList& ids, double x) {
        for (qsizetype i = 0; i < ids.size(); ++i) {
            for (const print::PartPlace& place : m_places) {
                if (place.id == ids[i]) {
                    painter->drawLine(QPointF(x, (static_cast<double>(i) + 0.42) * m_tab_pitch), place.anchor);
                    painter->drawEllipse(place.anchor, 5 * unit(), 5 * unit());
                }
            }
        }
    };
    draw(m_left, 0);
    draw(m_right, width());
}

QString VesselDrawing::partAt(double x, double y, double reach) const
{
    QString nearest;
    double least = reach;
    for (const print::PartPlace& place : m_places) {
        if (place.id == QLatin1String("shell")) {
            continue;
        }
        const double far = std::hypot(place.anchor.x() - x, place.anchor.y() - y);
        if (far <= least) {
            least = far;
            nearest = place.id;
        }
    }
    return nearest;
}

void VesselDrawing::changed()
{
    Q_EMIT pictureChanged();
    update();
}

void VesselDrawing::setPicture(const VesselPicture& picture)
{
    if (!(picture == m_picture)) {
        m_picture = picture;
        changed();
    }
}

void VesselDrawing::setMetres(double metres)
{
    m_metres = metres;
    changed();
}

void VesselDrawing::setLabels(bool labels)
{
    m_labels = labels;
    changed();
}

void VesselDrawing::setSweep(bool sweep)
{
    m_sweep = sweep;
    changed();
}

void VesselDrawing::setGround(bool ground)
{
    m_ground = ground;
    changed();
}

void VesselDrawing::setLeft(const QStringList& left)
{
    m_left = left;
    changed();
}

void VesselDrawing::setRight(const QStringList& right)
{
    m_right = right;
    changed();
}

void VesselDrawing::setTabPitch(double pitch)
{
    m_tab_pitch = pitch;
    changed();
}

void VesselDrawing::setSide(double side)
{
    m_side = side;
    changed();
}

void RunDrawing::paint(QPainter* painter)
{
    if (m_picture.view) {
        print::paintRun(*painter, *m_picture.view, palette(), QRectF(0, 0, width(), height()), {m_names.begin(), m_names.end()});
    }
}

QRectF RunDrawing::placeOf(const QString& id) const
{
    if (!m_picture.view || width() <= 0) {
        return {};
    }
    if (m_places_in != size()) {
        QImage nowhere(1, 1, QImage::Format_ARGB32_Premultiplied);
        QPainter painter(&nowhere); // the same painter says where it draws
        m_places = print::paintRun(painter, *m_picture.view, palette(), QRectF(0, 0, width(), height()), {m_names.begin(), m_names.end()});
        m_places_in = size();
    }
    const auto place = std::ranges::find(m_places, id, &print::PartPlace::id);
    return place == m_places.end() ? QRectF() : place->box;
}

void RunDrawing::setPicture(const VesselPicture& picture)
{
    if (!(picture == m_picture)) {
        m_picture = picture;
        m_places_in = {};
        Q_EMIT pictureChanged();
        update();
    }
}

void RunDrawing::setNames(const QStringList& names)
{
    m_names = names;
    m_places_in = {};
    Q_EMIT pictureChanged();
    update();
}

void BlindDrawing::paint(QPainter* painter)
{
    if (m_picture.view) {
        print::paintBlind(*painter, m_blind.state, *m_picture.view, palette(), QRectF(0, 0, width(), height()));
    }
}

void BlindDrawing::setPicture(const VesselPicture& picture)
{
    if (!(picture == m_picture)) {
        m_picture = picture;
        Q_EMIT pictureChanged();
        update();
    }
}

void BlindDrawing::setBlind(const BlindPicture& blind)
{
    if (!(blind == m_blind)) {
        m_blind = blind;
        Q_EMIT pictureChanged();
        update();
    }
}

void Glyph::setName(const QString& name)
{
    m_name = name;
    Q_EMIT nameChanged();
    update();
}

void Glyph::setInk(const QColor& ink)
{
    m_ink = ink;
    Q_EMIT nameChanged();
    update();
}

Box::Box(QQuickItem* parent)
    : Painted(parent)
{
    connect(this, &Box::boxChanged, this, [this] { update(); });
}

void Box::paint(QPainter* painter)
{
    QPen pen(m_line > 0 ? QPen(m_ink, m_line) : QPen(Qt::NoPen));
    pen.setJoinStyle(Qt::MiterJoin);
    if (m_broken && m_line > 0) {
        pen.setCapStyle(Qt::FlatCap);
        pen.setDashPattern({10 * unit() / m_line, 8 * unit() / m_line});
    }
    painter->setPen(pen);
    painter->setBrush(m_fill);
    const double half = m_line / 2;
    const QRectF box(half, half, width() - m_line, height() - m_line);
    if (!m_hangs) {
        painter->drawRoundedRect(box, m_corner, m_corner);
        return;
    }
    const double cut = 26 * unit();
    painter->drawPolygon(QPolygonF({QPointF(box.left() + cut, box.top()), box.topRight(), box.bottomRight(),
        QPointF(box.left() + cut, box.bottom()), QPointF(box.left(), box.bottom() - cut), QPointF(box.left(), box.top() + cut)}));
    painter->drawEllipse(QPointF(box.left() + 19 * unit(), box.center().y()), 7 * unit(), 7 * unit());
}

void WayDrawing::paint(QPainter* painter)
{
    const print::Palette colours = palette();
    const double u = unit();
    const double column = width() / std::max(1, m_stages);
    const auto at = [&](qsizetype row) { return QPointF((m_reaches[row] + 0.5) * column, (static_cast<double>(row) + 0.5) * m_pitch); };
    painter->setPen(QPen(colours.line, 2 * u, Qt::DotLine));
    for (int i = 0; i < m_stages; ++i) {
        painter->drawLine(QPointF((i + 0.5) * column, 0), QPointF((i + 0.5) * column, height()));
    }
    for (qsizetype i = 0; i < m_reaches.size(); ++i) {
        const bool has_older = i + 1 < m_reaches.size();
        const bool fell = has_older && m_reaches[i] < m_reaches[i + 1];
        if (has_older) {
            QPen way(colours.ink, (fell ? 4 : 8) * u);
            if (fell) {
                way.setDashPattern({3, 2});
            }
            painter->setPen(way);
            const double bend = at(i).y() + m_pitch / 2;
            painter->drawLine(at(i), QPointF(at(i).x(), bend));
            painter->drawLine(QPointF(at(i).x(), bend), QPointF(at(i + 1).x(), bend));
            painter->drawLine(QPointF(at(i + 1).x(), bend), at(i + 1));
        }
    }
    for (qsizetype i = 0; i < m_reaches.size(); ++i) {
        const bool fell = i + 1 < m_reaches.size() && m_reaches[i] < m_reaches[i + 1];
        QPen ring(colours.ink, (fell ? 4 : 8) * u);
        if (fell) {
            ring.setDashPattern({2, 1.5});
        }
        painter->setPen(ring);
        painter->setBrush(colours.paper);
        painter->drawEllipse(at(i), 16 * u, 16 * u);
    }
}

void WayDrawing::setReaches(const QList<int>& reaches)
{
    m_reaches = reaches;
    Q_EMIT wayChanged();
    update();
}

void WayDrawing::setStages(int stages)
{
    m_stages = stages;
    Q_EMIT wayChanged();
    update();
}

void WayDrawing::setPitch(double pitch)
{
    m_pitch = pitch;
    Q_EMIT wayChanged();
    update();
}

} // namespace brimful::tablet
