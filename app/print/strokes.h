// Pens, hatches and letters shared by the painters. Sizes are in units of a 1280 px screen, times `u`.
#pragma once

#include "app/print/paint.h"

#include <QFont>
#include <QPainterPath>
#include <QPen>

namespace brimful::print {

// Dash lengths are in painter units, not in pen widths.
[[nodiscard]] QPen solid(const QColor& colour, double width);
[[nodiscard]] QPen broken(const QColor& colour, double width, double dash, double gap);
[[nodiscard]] QPen chain(const QColor& colour, double width, double u);

// Water dashes in the axes of the page, whatever lies under them: never turned with the vessel.
void hatchWater(QPainter&, const QRectF& area, const Palette&, double u, bool proven);
void dotGas(QPainter&, const QRectF& area, const Palette&, double u);
void hatchSteel(QPainter&, const QPainterPath& shape, const Palette&, double u);

[[nodiscard]] QFont letters(double pixels, bool bold = false, bool mono = false);
enum class Place : std::uint8_t { Left, Centre, Right };
// One line on its base line; on hatch it brings its own paper. Gives its box.
QRectF write(QPainter&, const QFont&, const QColor&, QPointF base, const QString&, Place = Place::Left, const QColor& own_paper = {});
// The same, made narrower until it fits `width`.
QRectF writeWithin(QPainter&, QFont, const QColor&, QPointF base, double width, const QString&, Place = Place::Left);
[[nodiscard]] double widthOf(const QFont&, const QString&);

// A reading's mark: a diamond of half width `half`.
void paintDiamond(QPainter&, QPointF at, report::PlaceState, const Palette&, double half, double u);
// The gate's small sign, and the signal triangle.
void paintGateSign(QPainter&, QPointF at, double radius, bool released, const QColor& ink, const QColor& paper);
void paintTriangle(QPainter&, const QRectF& box, const QColor& ink, const QColor& mark);

} // namespace brimful::print
