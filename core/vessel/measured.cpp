#include "core/vessel/measured.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace brimful::vessel {

namespace {

using quantity::metres;

// Mass of steel at a wall; nothing when such a vessel cannot be.
std::optional<double> massAt(const Size& size, double wall)
{
    Size changed = size;
    changed.wall = metres(wall);
    const auto shell = Shell::make(changed);
    return shell ? std::optional(shell->steelMass().value()) : std::nullopt;
}

} // namespace

std::optional<Length> wallFromMass(const Size& size, Mass empty)
{
    constexpr double kThickest = 0.1; // m
    double high = kThickest;
    while (high > 1e-4 && !massAt(size, high)) {
        high *= 0.9;
    }
    const auto most = massAt(size, high);
    if (!most || !(empty.value() > 0 && empty.value() <= *most)) {
        return std::nullopt;
    }
    double low = 0;
    for (int i = 0; i < 60; ++i) {
        const double middle = (low + high) / 2;
        (massAt(size, middle).value_or(0) < empty.value() ? low : high) = middle;
    }
    return metres((low + high) / 2);
}

std::vector<HeadGuess> headsByTape(OutsideDiameter outside, Length wall, Length tapeOverTips, OverallLength overall)
{
    constexpr std::array kKinds{HeadKind::Hemispherical, HeadKind::Ellipsoidal, HeadKind::Torispherical, HeadKind::Flat};
    const InsideDiameter inside(outside.get() - 2.0 * wall);
    const Length longer = tapeOverTips - overall.get();
    std::vector<HeadGuess> out;
    for (const HeadKind kind : kKinds) {
        const Head head(HeadSize{kind, 1.0, 0.06, std::nullopt}, inside, wall);
        // Over a flat end the tape turns at the edge: its arc is the outside radius, its depth none.
        const Length expected = kind == HeadKind::Flat ? outside.get() : 2.0 * (head.meridianArc() - head.depth());
        out.push_back({kind, longer - expected});
    }
    std::ranges::sort(out, {}, [](const HeadGuess& guess) { return std::abs(guess.off.value()); });
    return out;
}

} // namespace brimful::vessel
