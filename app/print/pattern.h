// Full-size patterns of a figure, in millimetres, and their ways out: paper, DXF, SVG.
#pragma once

#include "app/print/pages.h"
#include "core/figure/figure.h"

#include <QPolygonF>
#include <QString>
#include <QStringList>

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace brimful::print {

struct Stroke {
    enum class Role : std::uint8_t { Cut, Line, Centre, Seam, Mark } role{};
    QString label; // of a mark
    bool closed{};
    QPolygonF points; // mm, x right, y up, as seen from outside the steel
};

struct Pattern {
    QString name;
    std::vector<Stroke> strokes;
    [[nodiscard]] QRectF bounds() const; // mm
};

// Of the picture's lines those that belong to a pattern ("cut:NAME", "line:NAME", "centre:NAME", "seam:NAME", "mark:NAME:LABEL").
[[nodiscard]] std::vector<Pattern> patternsOf(const figure::Result&);

// ASCII DXF of release 12, millimetres, one layer for each role, the patterns side by side; y up.
[[nodiscard]] std::string patternDxf(const std::vector<Pattern>&);
// SVG 1.1 with its true size in millimetres.
[[nodiscard]] std::string patternSvg(const std::vector<Pattern>&);

enum class Paper : std::uint8_t { A4, A3, Letter, Roll };

// How a pattern is cut into sheets. Window (0, 0) has its upper left corner at `origin` of the pattern; the next one lies one
// pitch on, so that neighbours show the same `overlap` millimetres. All in mm.
struct Tiling {
    QSizeF page;
    QRectF window; // on the page, y down
    QPointF origin; // in the pattern, y up: upper left
    QSizeF pitch;
    int columns{1};
    int rows{1};
    static constexpr double kOverlap = 12;
    [[nodiscard]] QPointF onPage(QPointF pattern, int column, int row) const;
};
[[nodiscard]] Tiling tilingOf(const QRectF& bounds, Paper, double roll_width_mm);

struct TemplatePage {
    QString title; // of the figure
    QString part; // what it is for, as the shop calls it; on every sheet
    QStringList facts; // one line each, on the first sheet
    std::vector<QStringList> table; // ordinates, the first row is the head
    std::vector<Pattern> patterns;
    std::optional<figure::Result> joint; // drawn on the first sheet as it stands, where there is room beside the table
};
// Of a figure's answer: its facts, its table, its patterns.
[[nodiscard]] TemplatePage templatePage(const std::string& figure, const QString& part, const figure::Result&);
// Gives the number of pages.
[[nodiscard]] tl::expected<int, PageFault> writeTemplatePdf(
    const std::filesystem::path&, const TemplatePage&, Paper, double roll_width_mm = 610);

} // namespace brimful::print
