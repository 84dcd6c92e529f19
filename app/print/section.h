// Where the section of a vessel lies on the page: one transform from the vessel's metres to painter units, for pixels
// and for hands alike. x runs from the left tangent line to the right, y up from the axis.
#pragma once

#include "app/print/paint.h"

#include <QPainterPath>
#include <QTransform>

namespace brimful::print {

struct Section {
    QTransform to_page; // from painter units along and above the axis, unturned
    double scale{}; // painter units per metre
    double u{}; // DrawOptions::line_scale
    double radius{}; // painter units, of the middle of the wall
    double length{}; // painter units, tangent to tangent
    double left_depth{}, right_depth{}; // painter units
    double tilt_deg{}; // as drawn, right end up
    double times{1.0}; // how many times as steep as it is
    double ground{}; // y of the ground line
    bool nothing_known{}; // a shape without a size

    [[nodiscard]] double wall() const { return 9 * u; }
    [[nodiscard]] QPainterPath outline(double grow) const; // the middle of the wall, grown outward; on the page
    [[nodiscard]] QPointF at(double x, double y) const { return to_page.map(QPointF(x, -y)); }
    [[nodiscard]] double radiusAt(double x) const; // of the middle of the wall, over a head too
    [[nodiscard]] QPointF outward(double x, double y) const; // unit vector on the page for a direction in the vessel
};

struct Margins {
    double top{}, side{};
    double stand{}; // between the shell and the ground
    double words{}; // below the ground
};

[[nodiscard]] Section layOut(const report::VesselView&, const DrawOptions&, const Margins&);

// An opening's nozzle: where it leaves the wall and which way it looks.
struct Nozzle {
    const report::OpeningView* opening{};
    QPointF root; // middle of the wall
    QPointF out; // unit vector
    enum class Side : std::uint8_t { Top, Bottom, Near, Far, LeftEnd, RightEnd } side{Side::Top};
};
[[nodiscard]] Nozzle::Side sideOf(const report::OpeningView&);
[[nodiscard]] std::vector<Nozzle> nozzles(const report::VesselView&, const Section&);

} // namespace brimful::print
