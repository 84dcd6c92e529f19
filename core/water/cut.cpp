#include "core/water/cut.h"

#include "core/vessel/steel.h"
#include "core/water/level.h"

#include <boost/math/quadrature/gauss.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>

namespace brimful::water {

namespace {

using quantity::kilograms;
using quantity::metres;

constexpr double kPi = std::numbers::pi;
constexpr double kGravity = 9.80665;
constexpr double kTouching = 1e-3; // m: two ends of a path that meet
constexpr double kHair = 1e-9; // m

Force newtons(double value) { return value * boost::units::si::newton; }

// How often a closed path goes round the axis; nothing when it is open.
std::optional<int> turnsOf(const Meridian& meridian, std::span<const Spot> path)
{
    const Spot& first = path.front();
    const Spot& last = path.back();
    const double turns = std::round((last.clock - first.clock) / (2 * kPi));
    const double off = std::abs(last.clock - first.clock - 2 * kPi * turns) * meridian.radius();
    if (path.size() < 3 || std::hypot(last.along - first.along, off) > kTouching) {
        return std::nullopt;
    }
    return static_cast<int>(std::abs(turns));
}

// Where a line of constant clock is inside a closed path: pairs of `along`.
std::vector<double> crossings(std::span<const Spot> closed, double clock)
{
    std::vector<double> out;
    for (std::size_t i = 0; i < closed.size(); ++i) {
        const Spot& from = closed[i];
        const Spot& to = closed[(i + 1) % closed.size()];
        if ((from.clock <= clock) != (to.clock <= clock)) {
            out.push_back(from.along + (to.along - from.along) * (clock - from.clock) / (to.clock - from.clock));
        }
    }
    std::ranges::sort(out);
    return out;
}

struct Sums {
    std::array<double, 3> push{}; // along, up and aside at roll 0, Pa m2
    double area{};
    double metal{};
    double moment{}; // of the area, along the axis
};

// Along one line of constant clock, weighted with its share of clock.
class Strip {
public:
    Strip(const Shell& shell, const Meridian& meridian, const Pose& pose, double level, double gravity)
        : m_meridian(meridian)
        , m_pose(pose)
        , m_level(level)
        , m_gravity(gravity)
        , m_wall(shell.wall().value())
    {
    }
    void add(Sums& sums, double clock, double from, double to, double weight) const
    {
        std::vector<double> at{from, to};
        const auto split = [&](double x) {
            if (x > from && x < to) {
                at.push_back(x);
            }
        };
        const double length = m_meridian.shellLength();
        split(0);
        split(length);
        // Where the level meets the shell on this line.
        const double fall = std::sin(m_pose.pitch.value());
        if (fall != 0) {
            split((m_level - m_meridian.at(length / 2).height(m_pose, clock)) / fall + length / 2);
        }
        // Heads are curved: short pieces there.
        for (int i = 1; i < kHeadPieces; ++i) {
            split(m_meridian.from() * i / kHeadPieces);
            split(length + (m_meridian.to() - length) * i / kHeadPieces);
        }
        std::ranges::sort(at);
        for (std::size_t i = 1; i < at.size(); ++i) {
            gauss(sums, clock, at[i - 1], at[i], weight);
        }
    }

private:
    static constexpr int kHeadPieces = 12;

    void gauss(Sums& sums, double clock, double from, double to, double weight) const
    {
        using Rule = boost::math::quadrature::gauss<double, 6>;
        for (std::size_t i = 0; i < Rule::abscissa().size(); ++i) {
            for (const double sign : {-1.0, 1.0}) {
                const double along = (from + to) / 2 + sign * (to - from) / 2 * Rule::abscissa()[i];
                const WallPoint point = m_meridian.at(along);
                const double area = point.radial * weight * (to - from) / 2 * Rule::weights()[i];
                const double pressure = m_gravity * std::max(0.0, m_level - point.height(m_pose, clock));
                sums.push[0] += pressure * area * point.normalX;
                sums.push[1] += pressure * area * point.normalRadial * std::cos(clock);
                sums.push[2] += pressure * area * point.normalRadial * std::sin(clock);
                sums.area += area;
                sums.metal += area * (1 + m_wall / 2 * (point.curveMeridian + point.curveAround));
                sums.moment += area * point.x;
            }
        }
    }

    const Meridian& m_meridian;
    const Pose& m_pose;
    double m_level;
    double m_gravity;
    double m_wall;
};

// Pieces of the vessel while it is cut up.
class Pieces {
public:
    Pieces(const Shell& shell, const std::optional<std::vector<Length>>& supports)
        : m_shell(shell)
        , m_outside(shell.outside())
        , m_supports(supports)
    {
    }
    void freePanel(const std::string& cut, const Push& panel)
    {
        const double mass = vessel::kSteelDensity * panel.metalArea * m_shell.wall().value();
        m_panels.push_back({Piece::Kind::Panel, cut, kilograms(mass), panel.centre, 0, false});
    }
    void part(const std::string& cut, double x)
    {
        m_partings.push_back({x, cut});
        std::ranges::sort(m_partings, {}, &Parting::x);
    }
    [[nodiscard]] std::vector<Piece> all() const
    {
        std::vector<Piece> out;
        for (std::size_t i = 0; i <= m_partings.size(); ++i) {
            const double from = i == 0 ? -std::numeric_limits<double>::infinity() : m_partings[i - 1].x;
            const double to = i == m_partings.size() ? std::numeric_limits<double>::infinity() : m_partings[i].x;
            Piece piece = between(from, to);
            if (!m_partings.empty() && (i == 0 || i == m_partings.size())) {
                piece.kind = i == 0 ? Piece::Kind::Left : Piece::Kind::Right;
                piece.cut = m_partings[i == 0 ? 0 : i - 1].cut;
            }
            out.push_back(piece);
        }
        out.insert(out.end(), m_panels.begin(), m_panels.end());
        return out;
    }

private:
    struct Parting {
        double x;
        std::string cut;
    };

    static std::array<double, 2> sums(const vessel::Profile& profile, double from, double to)
    {
        std::array<double, 2> out{};
        for (const vessel::Piece& piece : profile.pieces()) {
            const double low = std::max(from, piece.from);
            const double high = std::min(to, piece.to);
            if (high > low) {
                out[0] += piece.volume(low, high);
                out[1] += piece.moment(low, high);
            }
        }
        return out;
    }
    [[nodiscard]] Piece between(double from, double to) const
    {
        const auto inside = sums(m_shell.inside(), from, to);
        const auto outside = sums(m_outside, from, to);
        double mass = vessel::kSteelDensity * (outside[0] - inside[0]);
        double moment = vessel::kSteelDensity * (outside[1] - inside[1]);
        for (const Piece& panel : m_panels) {
            const double at = panel.centre.value();
            if (at >= from && at < to) {
                mass -= panel.mass.value();
                moment -= panel.mass.value() * at;
            }
        }
        Piece out;
        out.mass = kilograms(std::max(0.0, mass));
        const double middle = (std::max(from, m_outside.from()) + std::min(to, m_outside.to())) / 2;
        out.centre = metres(mass > 0 ? moment / mass : middle);
        if (m_supports) {
            double first = std::numeric_limits<double>::infinity();
            double last = -first;
            for (const Length& support : *m_supports) {
                if (support.value() >= from && support.value() < to) {
                    ++out.supports;
                    first = std::min(first, support.value());
                    last = std::max(last, support.value());
                }
            }
            out.stands = out.supports >= 2 && out.centre.value() >= first && out.centre.value() <= last;
        }
        return out;
    }

    const Shell& m_shell;
    vessel::Profile m_outside;
    const std::optional<std::vector<Length>>& m_supports;
    std::vector<Parting> m_partings;
    std::vector<Piece> m_panels;
};

std::optional<PathPoint> firstBelow(std::span<const PathPoint> path, const Pose& pose, double level)
{
    const auto heightOf = [&](const PathPoint& point) {
        return WallPoint{.x = point.x, .radial = point.radial}.height(pose, point.spot.clock);
    };
    for (std::size_t i = 0; i < path.size(); ++i) {
        const double here = heightOf(path[i]);
        if (here >= level - kHair) {
            continue;
        }
        if (i == 0) {
            return path[0];
        }
        const PathPoint& before = path[i - 1];
        const double above = heightOf(before);
        const double share = std::clamp((above - level) / (above - here), 0.0, 1.0);
        const auto mix = [&](double from, double to) { return from + share * (to - from); };
        return PathPoint{{mix(before.spot.along, path[i].spot.along), mix(before.spot.clock, path[i].spot.clock)}, mix(before.x, path[i].x),
            mix(before.radial, path[i].radial), mix(before.run, path[i].run)};
    }
    return std::nullopt;
}

// One cut after another: what is open so far, and where the water stands.
class Planner {
public:
    Planner(const Shell& shell, const Pose& pose, const CutPlan& plan)
        : m_shell(shell)
        , m_pose(pose)
        , m_plan(plan)
        , m_meridian(shell)
        , m_pieces(shell, plan.supports)
        , m_level(plan.level)
    {
    }
    [[nodiscard]] CutStep next(const Cut& cut);

private:
    void run(const Cut& cut, CutStep& out);
    void free(const Cut& cut, CutStep& out);
    [[nodiscard]] std::optional<std::string> ventFor(const Cut& cut, const CutStep& step) const;

    const Shell& m_shell;
    const Pose& m_pose;
    const CutPlan& m_plan;
    Meridian m_meridian;
    Pieces m_pieces;
    Length m_level;
    std::vector<Outlet> m_kerfs;
    std::vector<Vent> m_opened; // earlier cuts, by their highest point
};

CutStep Planner::next(const Cut& cut)
{
    const std::vector<PathPoint> path = pathThrough(m_meridian, cut.path);
    m_kerfs.push_back(Outlet::kerf(path, m_pose, cut.kerf.value(), cut.discharge));
    CutStep out;
    out.lowest = metres(m_kerfs.back().lowest());
    out.highest = metres(m_kerfs.back().highest());
    out.length = metres(path.back().run);
    out.levelBefore = m_level;
    out.meetsWater = firstBelow(path, m_pose, m_level.value());
    out.jet = std::sqrt(2 * kGravity * std::max(0.0, (m_level - out.lowest).value()));
    free(cut, out);
    run(cut, out);
    m_opened.push_back({cut.name, out.highest});
    m_level = out.levelAfter;
    return out;
}

void Planner::free(const Cut& cut, CutStep& out)
{
    const auto turns = turnsOf(m_meridian, cut.path);
    if (turns == 0) {
        const Push push = pushOn(m_shell, m_meridian, m_pose, cut.path, m_level, m_plan.water);
        out.panelArea = push.area;
        out.panelPush = push.force;
        if (m_shell.wall().value() > 0) {
            out.panelMass = kilograms(vessel::kSteelDensity * push.metalArea * m_shell.wall().value());
        }
        m_pieces.freePanel(cut.name, push);
    } else if (turns) {
        double along = 0;
        for (const Spot& spot : std::span(cut.path).first(cut.path.size() - 1)) {
            along += spot.along / static_cast<double>(cut.path.size() - 1);
        }
        m_pieces.part(cut.name, m_meridian.at(along).x);
    }
    out.pieces = m_pieces.all();
}

std::optional<std::string> Planner::ventFor(const Cut& cut, const CutStep& step) const
{
    for (const std::vector<Vent>& vents : {m_plan.vents, m_opened}) {
        for (const Vent& vent : vents) {
            if (vent.height.value() > step.levelAfter.value() + kHair) {
                return vent.name;
            }
        }
    }
    return step.highest.value() > step.levelBefore.value() + kHair ? std::optional(cut.name) : std::nullopt;
}

void Planner::run(const Cut& cut, CutStep& out)
{
    const double bottom = lowestPoint(m_shell, m_pose.pitch).value();
    double lowest = m_level.value();
    for (const Outlet& kerf : m_kerfs) {
        lowest = std::min(lowest, kerf.lowest());
    }
    out.levelAfter = metres(std::max(lowest, bottom));
    const auto drained = drain(m_shell, m_pose.pitch, m_kerfs, {m_level, std::nullopt, m_plan.inflow});
    if (drained && drained->settles) {
        out.levelAfter = std::min(*drained->settles, m_level);
        out.held = out.levelAfter.value() > std::max(lowest, bottom) + kHair;
    }
    out.gasSpace = above(m_shell, m_pose.pitch, out.levelAfter).volume;
    out.runsOut = out.gasSpace - above(m_shell, m_pose.pitch, m_level).volume;
    if (!out.meetsWater && out.runsOut.value() <= 0) {
        return;
    }
    out.vent = ventFor(cut, out);
    if (drained && out.vent) {
        out.time = drained->time;
        out.slow = drained->slow;
        out.fast = drained->fast;
    }
}

std::optional<CutError> faultOf(std::span<const Cut> cuts)
{
    for (std::size_t i = 0; i < cuts.size(); ++i) {
        const std::vector<Spot>& path = cuts[i].path;
        if (path.size() < 2) {
            return CutError{CutFault::TooFewPlaces, i, 0};
        }
        for (std::size_t j = 1; j < path.size(); ++j) {
            if (std::abs(path[j].clock - path[j - 1].clock) > kPi + 1e-9) {
                return CutError{CutFault::TurnTooFar, i, j};
            }
        }
    }
    return std::nullopt;
}

} // namespace

Push pushOn(
    const Shell& shell, const Meridian& meridian, const Pose& pose, std::span<const Spot> closed, Length level, const Density& water)
{
    using Rule = boost::math::quadrature::gauss<double, 8>;
    constexpr double kWidest = kPi / 36;
    std::vector<double> clocks;
    for (const Spot& spot : closed) {
        clocks.push_back(spot.clock);
    }
    std::ranges::sort(clocks);
    const Strip strip(shell, meridian, pose, level.value(), water.value() * kGravity);
    Sums sums;
    for (std::size_t i = 1; i < clocks.size(); ++i) {
        const double span = clocks[i] - clocks[i - 1];
        const int parts = static_cast<int>(std::ceil(span / kWidest));
        for (int part = 0; part < parts; ++part) {
            const double half = span / parts / 2;
            const double middle = clocks[i - 1] + half * (2 * part + 1);
            for (std::size_t j = 0; j < Rule::abscissa().size(); ++j) {
                for (const double sign : {-1.0, 1.0}) {
                    const double clock = middle + sign * half * Rule::abscissa()[j];
                    const std::vector<double> edges = crossings(closed, clock);
                    for (std::size_t k = 1; k < edges.size(); k += 2) {
                        strip.add(sums, clock, edges[k - 1], edges[k], half * Rule::weights()[j]);
                    }
                }
            }
        }
    }
    const double push = std::hypot(sums.push[0], sums.push[1], sums.push[2]);
    return {newtons(push), quantity::squareMetres(sums.area), sums.metal, metres(sums.area > 0 ? sums.moment / sums.area : 0)};
}

tl::expected<std::vector<CutStep>, CutError> planCuts(const Shell& shell, const Pose& pose, std::span<const Cut> cuts, const CutPlan& plan)
{
    if (const auto fault = faultOf(cuts)) {
        return tl::unexpected(*fault);
    }
    Planner planner(shell, pose, plan);
    std::vector<CutStep> out;
    out.reserve(cuts.size());
    for (const Cut& cut : cuts) {
        out.push_back(planner.next(cut));
    }
    return out;
}

} // namespace brimful::water
