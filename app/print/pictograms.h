// What is forbidden, as signs for people who do not read the words: cut, heat, fill, move, each in a struck ring.
#pragma once

#include <QColor>
#include <QPainter>

#include <cstdint>

namespace brimful::print {

enum class Forbidden : std::uint8_t { Cut, Heat, Fill, Move };
void paintForbidden(QPainter&, Forbidden, QPointF centre, double radius, const QColor& ink, const QColor& ring, const QColor& paper);

} // namespace brimful::print
