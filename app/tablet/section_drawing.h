// The vessel cut along and across, and curves: what the figures of the wet side are shown with. Numbers are the figures'.
#pragma once

#include "app/tablet/figure_picture.h"

namespace brimful::tablet {

// A label at a part of a figure's picture.
struct PartLabel {
    QString part;
    QString words;
};

// The long section at its true shape, with labels at its parts.
void paintSection(const Canvas& canvas, const figure::Result& result, const QRectF& box, const std::vector<PartLabel>& labels = {});
// What the picture holds of the section across, and nothing else.
void paintAcross(const Canvas& canvas, const figure::Result& result, const QRectF& box);

struct Curve {
    struct Line {
        std::vector<QPointF> points;
        bool broken{};
        QString name;
    };
    std::vector<Line> lines;
    std::optional<QPointF> now;
    QPointF most; // ends of both axes
    QString across, up; // what stands at the ends of the axes: "40 min", "29 in"
};
void paintCurve(const Canvas& canvas, const Curve& curve);

} // namespace brimful::tablet
