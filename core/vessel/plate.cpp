#include "core/vessel/plate.h"

#include <algorithm>
#include <array>
#include <numbers>
#include <utility>

namespace brimful::vessel {

namespace {

using quantity::metres;

// One corner of the measurements: sign +1 makes the vessel as large as they allow, -1 as small.
Size corner(const Size& size, const Tolerance& tolerance, double sign)
{
    Size out = size;
    const Length girth = sign * tolerance.girth;
    const Length across = girth / std::numbers::pi;
    const Length along = sign * tolerance.length;
    out.wall = metres(std::max(0.0, (size.wall - sign * tolerance.wall).value()));
    if (const auto* const outside = std::get_if<OutsideDiameter>(&size.around); outside != nullptr) {
        out.around = OutsideDiameter(outside->get() + across);
    } else if (const auto* const inside = std::get_if<InsideDiameter>(&size.around); inside != nullptr) {
        out.around = InsideDiameter(inside->get() + across);
    } else {
        out.around = Girth(std::get<Girth>(size.around).get() + girth);
    }
    if (const auto* const overall = std::get_if<OverallLength>(&size.along); overall != nullptr) {
        out.along = OverallLength(overall->get() + along);
    } else {
        out.along = ShellLength(metres(std::max(0.0, (std::get<ShellLength>(size.along).get() + along).value())));
    }
    return out;
}

struct Reading {
    Slip slip;
    double factor; // what the number on the plate would mean, in the unit it was taken for
};

// 1 L in US gal, 1 imperial gal in US gal, 1 lb of water (8.3304 lb/US gal at 20 C) in US gal, the whole of an 80 % figure.
constexpr std::array kReadings{Reading{Slip::Litres, 1 / 3.785411784}, Reading{Slip::ImperialGallons, 4.54609 / 3.785411784},
    Reading{Slip::PoundsOfWater, 1 / 8.3304}, Reading{Slip::EightyPercentFill, 1 / 0.8}};

bool within(double value, double low, double high, double share) { return value >= low * (1 - share) && value <= high * (1 + share); }

} // namespace

tl::expected<PlateCheck, SizeError> checkPlate(const Size& size, Volume stamped, const Tolerance& tolerance)
{
    const auto shell = Shell::make(size);
    if (!shell) {
        return tl::unexpected(shell.error());
    }
    const double middle = shell->capacity().value();
    const auto small = Shell::make(corner(size, tolerance, -1));
    const auto large = Shell::make(corner(size, tolerance, 1));
    // A corner that is no vessel (shorter than its heads) leaves the measured one as the bound.
    const double low = small ? std::min(middle, small->capacity().value()) : middle;
    const double high = large ? std::max(middle, large->capacity().value()) : middle;
    PlateCheck out{Verdict::Mismatch, middle / stamped.value(), quantity::cubicMetres(low), quantity::cubicMetres(high), {}};
    if (within(stamped.value(), low, high, 0.02)) {
        out.verdict = Verdict::Agrees;
        return out;
    }
    if (within(stamped.value(), low, high, 0.08)) {
        out.verdict = Verdict::Suspect;
    }
    for (const Reading& reading : kReadings) {
        if (within(stamped.value() * reading.factor, low, high, 0.02)) {
            out.slips.push_back(reading.slip);
        }
    }
    return out;
}

} // namespace brimful::vessel
