#include "core/water/fill.h"

#include "core/water/density.h"
#include "core/water/level.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace brimful::water {

namespace {

constexpr double kNoPocket = 1e-6; // m3: 1 mL

struct Limits {
    std::size_t spills{};
    double spill{std::numeric_limits<double>::infinity()};
    double seal{-std::numeric_limits<double>::infinity()};
};

Limits limitsOf(const Pose& pose, std::span<const Mouth> open)
{
    Limits out;
    for (std::size_t i = 0; i < open.size(); ++i) {
        const auto heights = open[i].heights(pose);
        if (heights.spill.value() < out.spill) {
            out.spill = heights.spill.value();
            out.spills = i;
        }
        out.seal = std::max(out.seal, heights.seal.value());
    }
    return out;
}

} // namespace

tl::expected<Fill, FillFault> fill(const Shell& shell, const Pose& pose, std::span<const Mouth> open)
{
    if (open.empty()) {
        return tl::unexpected(FillFault::NoOpenOpening);
    }
    const Limits limits = limitsOf(pose, open);
    const double top = highestPoint(shell, pose.pitch).value();
    Fill out;
    out.spills = limits.spills;
    out.level = quantity::metres(std::min({limits.spill, limits.seal, top}));
    out.trapped = above(shell, pose.pitch, out.level).volume;
    out.water = shell.capacity() - out.trapped;
    if (out.trapped.value() >= kNoPocket) {
        out.pocket = limits.spill < limits.seal ? Pocket::Vented : Pocket::Sealed;
    }
    return out;
}

std::optional<Volume> lackAfterCooling(Volume water, quantity::Temperature from, quantity::Temperature to)
{
    constexpr double kSteel = 3 * 1.2e-5; // 1/K, of a volume
    const auto before = density(from);
    const auto after = density(to);
    if (!before || !after) {
        return std::nullopt;
    }
    return water * ((1 - before->value() / after->value()) - kSteel * (from.get() - to.get()));
}

Mass gasToLimit(Volume pocket, quantity::VolumeShare lowerLimit, double molarMass, quantity::Temperature temperature)
{
    constexpr double kGas = 8.314462618;
    constexpr double kAtmosphere = 101'325;
    return quantity::kilograms(lowerLimit.get() * kAtmosphere * pocket.value() / (kGas * temperature.get()) * molarMass);
}

} // namespace brimful::water
