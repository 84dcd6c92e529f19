#include "core/layout/swing.h"

#include <algorithm>
#include <cmath>

namespace brimful::layout {

double gapToTurn(const Panel& panel)
{
    const double R = panel.radius;
    const double inner = R - panel.wall;
    const double angle = (panel.at.aroundTo - panel.at.around) / R;
    if (panel.hinge == HingeSide::LeftEnd || panel.hinge == HingeSide::RightEnd) {
        // A place of the free end lies R - r cos t under the pin and is past the shell once it has come up to R - R cos t. That asks
        // most at the corners, or where cos t = R / (R + r).
        const double width = panel.at.alongTo - panel.at.along;
        const double cosine = std::max(std::cos(angle / 2), R / (R + inner));
        const double rise = (R - inner) * cosine * (2 * R - (R + inner) * cosine);
        return std::sqrt(width * width + rise) - width;
    }
    // The shell's edge is a radial plane, R sin A from the pin; the pin stands over it at the radius R cos A. A corner that
    // lies farther in must come up past that point.
    if (inner >= R * std::cos(angle)) {
        return 0;
    }
    return std::sqrt(R * R + inner * inner - 2 * R * inner * std::cos(angle)) - R * std::sin(angle);
}

Footprint turnedBack(const Panel& panel)
{
    Footprint out = panel.at;
    const double along = panel.at.alongTo - panel.at.along;
    const double around = panel.at.aroundTo - panel.at.around;
    switch (panel.hinge) {
    case HingeSide::FirstLine:
        out.around = panel.at.around - around;
        out.aroundTo = panel.at.around;
        break;
    case HingeSide::SecondLine:
        out.around = panel.at.aroundTo;
        out.aroundTo = panel.at.aroundTo + around;
        break;
    case HingeSide::LeftEnd:
        out.along = panel.at.along - along;
        out.alongTo = panel.at.along;
        break;
    case HingeSide::RightEnd:
        out.along = panel.at.alongTo;
        out.alongTo = panel.at.alongTo + along;
        break;
    }
    return out;
}

} // namespace brimful::layout
