// The QR symbol of a tag: level Q, one alphanumeric segment, modules of whole printer dots.
#pragma once

#include <QPainter>
#include <QRectF>

#include <optional>
#include <string>
#include <vector>

namespace brimful::print {

inline constexpr int kQuietZone = 4; // modules on every side (ISO/IEC 18004)
inline constexpr int kFewestDots = 4; // of a printed module

struct Symbol {
    int size{}; // modules, quiet zone not counted
    int version{};
    std::vector<bool> dark; // row by row
};

// Nothing when the text does not fit into any symbol.
[[nodiscard]] std::optional<Symbol> encodeSymbol(const std::string& text);
// Largest whole number of dots a module so that the symbol with its quiet zone is at most `room` wide; at least 1.
[[nodiscard]] int dotsFor(const Symbol&, double room);
// One path, so that no seam shows between modules. `origin`: of the quiet zone; rounded to whole dots.
void paintSymbol(QPainter&, const Symbol&, QPointF origin, int dots, const QColor& dark, const QColor& light);

} // namespace brimful::print
