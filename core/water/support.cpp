#include "core/water/support.h"

#include "core/water/level.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>

namespace brimful::water {

namespace {

using quantity::metres;

constexpr double kGravity = 9.80665;
constexpr double kSteepest = std::numbers::pi / 6 * (1 + 1e-12);
constexpr int kScan = 48; // levels of the fill that are looked at before the extremes are refined

Force newtons(double value) { return value * boost::units::si::newton; }

// Weight and the horizontal place of its line of action, in the world.
struct Weight {
    double newtons;
    double across;
    double along; // of the centre, along the axis
};

class Loads {
public:
    Loads(const Shell& shell, const Pose& pose, const Steel& steel, double density)
        : m_shell(shell)
        , m_pitch(pose.pitch)
        , m_steel(steel)
        , m_density(density)
    {
    }
    [[nodiscard]] Weight at(double level) const
    {
        const Below water = below(m_shell, m_pitch, metres(level));
        const double steel = m_steel.mass.value();
        const double mass = water.volume.value() * m_density;
        const double sum = steel + mass;
        const double along = (steel * m_steel.centre.value() + mass * water.centroid.value()) / sum;
        const double up = mass * water.centroidUp.value() / sum;
        return {sum * kGravity, along * std::cos(m_pitch.value()) - up * std::sin(m_pitch.value()), along};
    }

private:
    const Shell& m_shell;
    Angle m_pitch;
    const Steel& m_steel;
    double m_density;
};

struct Share {
    double least;
    double most;
};

// The ends of what equilibrium lets each support carry: with two there is one way; with three the ways lie between those
// in which one of them carries nothing (corners of { R >= 0, sum R = W, sum R X = W Xg }).
std::vector<Share> shares(std::span<const double> across, const Weight& weight)
{
    const auto pair = [&](std::size_t left, std::size_t right) {
        const double other = weight.newtons * (weight.across - across[left]) / (across[right] - across[left]);
        return std::array{weight.newtons - other, other};
    };
    if (across.size() == 2) {
        const auto both = pair(0, 1);
        return {{both[0], both[0]}, {both[1], both[1]}};
    }
    std::vector<Share> out(across.size(), {std::numeric_limits<double>::infinity(), -std::numeric_limits<double>::infinity()});
    const auto note = [&](std::size_t i, double value) { out[i] = {std::min(out[i].least, value), std::max(out[i].most, value)}; };
    bool any = false;
    for (const auto& [left, right] : {std::pair<std::size_t, std::size_t>{0, 1}, {0, 2}, {1, 2}}) {
        const auto both = pair(left, right);
        const double none = -1e-9 * weight.newtons;
        if (both[0] >= none && both[1] >= none) {
            any = true;
            note(left, both[0]);
            note(right, both[1]);
            note(3 - left - right, 0);
        }
    }
    if (!any) { // it tips: what the outer two would have to hold
        const auto both = pair(0, 2);
        return {{both[0], both[0]}, {0, 0}, {both[1], both[1]}};
    }
    return out;
}

// The weights over the whole fill; what is asked of all of it is asked of these first.
class Fill {
public:
    Fill(const Loads& loads, double empty, double full)
        : m_loads(loads)
        , m_empty(empty)
        , m_step((full - empty) / kScan)
    {
        for (int i = 0; i <= kScan; ++i) {
            m_scan.push_back(loads.at(level(i)));
        }
    }

    [[nodiscard]] double level(int i) const { return m_empty + m_step * i; }
    [[nodiscard]] const Weight& scanned(int i) const { return m_scan[static_cast<std::size_t>(i)]; }

    // Least of what `of` makes of a weight, from the best of the scan on by golden section.
    template <class Of> [[nodiscard]] double least(const Of& of) const
    {
        const auto best = std::ranges::min_element(m_scan, {}, of);
        const int at = static_cast<int>(best - m_scan.begin());
        const auto value = [&](double height) { return of(m_loads.at(height)); };
        double left = level(std::max(0, at - 1));
        double right = level(std::min(kScan, at + 1));
        double inner = right - kGolden * (right - left);
        double outer = left + kGolden * (right - left);
        double atInner = value(inner);
        double atOuter = value(outer);
        double out = std::min({of(*best), atInner, atOuter});
        for (int i = 0; i < kNarrowings; ++i) {
            if (atInner < atOuter) {
                right = outer;
                outer = inner;
                atOuter = atInner;
                inner = right - kGolden * (right - left);
                atInner = value(inner);
            } else {
                left = inner;
                inner = outer;
                atInner = atOuter;
                outer = left + kGolden * (right - left);
                atOuter = value(outer);
            }
            out = std::min({out, atInner, atOuter});
        }
        return out;
    }

private:
    static constexpr double kGolden = 0.6180339887498949;
    static constexpr int kNarrowings = 26; // to a 270,000th of two steps of the scan
    const Loads& m_loads;
    double m_empty, m_step;
    std::vector<Weight> m_scan;
};

std::optional<SupportFault> faultOf(const Shell& shell, Angle pitch, std::span<const Length> supports)
{
    if (!(std::abs(pitch.value()) <= kSteepest)) {
        return SupportFault::TooSteep;
    }
    if (supports.size() < 2) {
        return SupportFault::FewerThanTwo;
    }
    if (supports.size() > 3) {
        return SupportFault::MoreThanThree;
    }
    for (std::size_t i = 0; i < supports.size(); ++i) {
        if (!(supports[i].value() >= -1e-9 && supports[i].value() <= shell.length().value() + 1e-9)) {
            return SupportFault::OffTheShell;
        }
        for (std::size_t j = 0; j < i; ++j) {
            if (std::abs((supports[i] - supports[j]).value()) < 1e-3) {
                return SupportFault::SamePlace;
            }
        }
    }
    return std::nullopt;
}

} // namespace

Steel plainSteel(const Shell& shell)
{
    const auto sums = [](const vessel::Profile& profile) {
        std::array<double, 2> out{};
        for (const vessel::Piece& piece : profile.pieces()) {
            out[0] += piece.volume(piece.from, piece.to);
            out[1] += piece.moment(piece.from, piece.to);
        }
        return out;
    };
    const auto inside = sums(shell.inside());
    const auto outside = sums(shell.outside());
    const double volume = outside[0] - inside[0];
    const double middle = shell.length().value() / 2;
    return {shell.steelMass(), metres(volume > 0 ? (outside[1] - inside[1]) / volume : middle)};
}

tl::expected<Carried, SupportFault> carry(
    const Shell& shell, const Pose& pose, const Steel& steel, const Density& water, Length level, std::span<const Length> supports)
{
    if (const auto fault = faultOf(shell, pose.pitch, supports)) {
        return tl::unexpected(*fault);
    }
    const double pitch = pose.pitch.value();
    const double radius = shell.outsideDiameter().get().value() / 2;
    std::vector<std::size_t> order(supports.size());
    for (std::size_t i = 0; i < order.size(); ++i) {
        order[i] = i;
    }
    std::ranges::sort(order, {}, [&](std::size_t i) { return supports[i].value(); });
    std::vector<double> across;
    across.reserve(order.size());
    for (const std::size_t i : order) {
        across.push_back(supports[i].value() * std::cos(pitch) + radius * std::sin(pitch));
    }
    const Loads loads(shell, pose, steel, water.value());
    const double empty = lowestPoint(shell, pose.pitch).value();
    const double full = std::clamp(level.value(), empty, highestPoint(shell, pose.pitch).value());
    const Fill fill(loads, empty, full);

    Carried out;
    out.determinate = supports.size() == 2;
    out.reactions.resize(supports.size());
    const Weight now = loads.at(full);
    out.weight = newtons(now.newtons);
    out.centre = metres(now.along);
    const std::vector<Share> here = shares(across, now);
    for (std::size_t i = 0; i < order.size(); ++i) {
        const double low = fill.least([&](const Weight& weight) { return shares(across, weight)[i].least; });
        const double high = -fill.least([&](const Weight& weight) { return -shares(across, weight)[i].most; });
        out.reactions[order[i]] = {newtons(here[i].most), newtons(low), newtons(high)};
    }
    // The smaller overhang of the centre inside the outermost supports; below 0 it tips.
    const auto inside = [&](const Weight& weight) { return std::min(weight.across - across.front(), across.back() - weight.across); };
    out.tips = fill.least(inside) < 0;
    if (out.tips && inside(fill.scanned(0)) >= 0) {
        for (int i = 1; i <= kScan && !out.tipsAt; ++i) {
            if (inside(fill.scanned(i)) < 0) {
                out.tipsAt = metres(fill.level(i));
            }
        }
    }
    out.slidesBelowFriction = std::abs(std::tan(pitch));
    return out;
}

Pressure headOver(Length level, Length place, const Density& water)
{
    return quantity::pascals(std::max(0.0, (level - place).value()) * water.value() * kGravity);
}

Force slingLeg(Mass mass, Angle fromHorizontal) { return newtons(mass.value() * kGravity / (2 * std::sin(fromHorizontal.value()))); }

} // namespace brimful::water
