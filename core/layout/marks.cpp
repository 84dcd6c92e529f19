#include "core/layout/marks.h"

#include <algorithm>
#include <cmath>

namespace brimful::layout {

namespace {

constexpr double kSixteenth = 0.0254 / 16;
constexpr double kMillimetre = 0.001;

// Half up; the last bits of a length that was typed as a half do not turn it down.
std::int64_t rounded(double count) { return static_cast<std::int64_t>(std::floor(count + 0.5 + 1e-9)); }

} // namespace

Mark markAt(Length length)
{
    Mark out;
    out.exact = length.value();
    out.sixteenths = rounded(out.exact / kSixteenth);
    out.sixteenthResidual = out.exact - static_cast<double>(out.sixteenths) * kSixteenth;
    out.millimetres = rounded(out.exact / kMillimetre);
    out.millimetreResidual = out.exact - static_cast<double>(out.millimetres) * kMillimetre;
    return out;
}

Arc arcOfAngle(Length radius, double angle)
{
    const double R = radius.value();
    const double half = std::sin(angle / 4);
    return {angle, R * angle, 2 * R * std::sin(angle / 2), 2 * R * half * half};
}

double angleOfChord(Length radius, Length chord) { return 2 * std::asin(std::min(1.0, chord.value() / (2 * radius.value()))); }

} // namespace brimful::layout
