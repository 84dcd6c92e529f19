#include "core/water/drain.h"

#include "core/water/level.h"

#include <boost/math/quadrature/gauss.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>

namespace brimful::water {

namespace {

using quantity::metres;
using quantity::seconds;

constexpr std::size_t kWays = 3; // usual, slow, fast
constexpr int kSteps = 12; // of the curve, in each stretch between two features
constexpr int kMostBisections = 12;
using Times = std::array<double, kWays>;

double coefficient(const Discharge& discharge, std::size_t way)
{
    return way == 0 ? discharge.usual : way == 1 ? discharge.slow : discharge.fast;
}

// All outlets and the hose together: what leaves less what comes.
class Balance {
public:
    Balance(std::span<const Outlet> outlets, double inflow)
        : m_outlets(outlets)
        , m_inflow(inflow)
    {
    }
    [[nodiscard]] Times at(double level) const
    {
        Times out{};
        out.fill(-m_inflow);
        for (const Outlet& outlet : m_outlets) {
            const double ideal = outlet.ideal(level);
            for (std::size_t way = 0; way < kWays; ++way) {
                out.at(way) += coefficient(outlet.discharge(), way) * ideal;
            }
        }
        return out;
    }
    [[nodiscard]] double inflow() const { return m_inflow; }
    // Outflow only grows with the level: the one height where it balances, between two where its sign differs.
    [[nodiscard]] double rest(double low, double high) const
    {
        for (int i = 0; i < 80 && high - low > 1e-13; ++i) {
            const double middle = (low + high) / 2;
            (at(middle)[0] > 0 ? high : low) = middle;
        }
        return (low + high) / 2;
    }

private:
    std::span<const Outlet> m_outlets;
    double m_inflow;
};

// Seconds from one height to another, each way for itself.
class Clock {
public:
    Clock(const Shell& shell, Angle pitch, const Balance& balance)
        : m_shell(shell)
        , m_pitch(pitch)
        , m_balance(balance)
    {
    }

    // Heights between `low` and `high` at an angle of 0 to pi/2: sin^2 takes away the square roots at both ends.
    [[nodiscard]] static double heightAt(double low, double high, double angle)
    {
        const double sine = std::sin(angle);
        return low + (high - low) * sine * sine;
    }
    // `before`: seconds summed so far; what is small beside them need not agree by itself.
    [[nodiscard]] Times between(double low, double high, double from, double to, double before) const
    {
        return bisect(low, high, from, to, before, kMostBisections);
    }

private:
    template <unsigned kPoints> [[nodiscard]] Times sum(double low, double high, double from, double to) const
    {
        using Rule = boost::math::quadrature::gauss<double, kPoints>;
        Times out{};
        for (std::size_t i = 0; i < Rule::abscissa().size(); ++i) {
            for (const double sign : {-1.0, 1.0}) {
                const double angle = (from + to) / 2 + sign * (to - from) / 2 * Rule::abscissa()[i];
                const double level = heightAt(low, high, angle);
                const double stretch = (high - low) * std::sin(2 * angle) * (to - from) / 2 * Rule::weights()[i];
                const double area = below(m_shell, m_pitch, metres(level)).surface.value();
                const Times net = m_balance.at(level);
                for (std::size_t way = 0; way < kWays; ++way) {
                    out.at(way) += area * stretch / std::abs(net.at(way));
                }
            }
        }
        return out;
    }
    [[nodiscard]] Times bisect(double low, double high, double from, double to, double before, int left) const
    {
        const Times coarse = sum<8>(low, high, from, to);
        Times fine = sum<14>(low, high, from, to);
        // The usual way decides; a slow one that never arrives may have no sum.
        if (left == 0 || std::abs(fine[0] - coarse[0]) <= 1e-8 * fine[0] + 1e-9 * before) {
            return fine;
        }
        const double middle = (from + to) / 2;
        fine = bisect(low, high, from, middle, before, left - 1);
        const Times rest = bisect(low, high, middle, to, before, left - 1);
        for (std::size_t way = 0; way < kWays; ++way) {
            fine.at(way) += rest.at(way);
        }
        return fine;
    }

    const Shell& m_shell;
    Angle m_pitch;
    const Balance& m_balance;
};

// Heights where outlets begin and end between two levels: the integral is smooth from one to the next.
std::vector<double> features(std::span<const Outlet> outlets, double low, double high)
{
    std::vector<double> out{low, high};
    for (const Outlet& outlet : outlets) {
        for (const double at : {outlet.lowest(), outlet.highest()}) {
            if (at > low + 1e-9 && at < high - 1e-9) {
                out.push_back(at);
            }
        }
    }
    std::ranges::sort(out);
    out.erase(std::unique(out.begin(), out.end(), [](double one, double other) { return other - one < 1e-9; }), out.end());
    return out;
}

const Outlet* lowestOf(std::span<const Outlet> outlets)
{
    const auto found = std::ranges::min_element(outlets, {}, &Outlet::lowest);
    return found == outlets.end() ? nullptr : &*found;
}

struct Goal {
    double end{};
    bool stoppedAtOutlet{};
    bool atFiniteHead{};
};

// Where the level is to go, when nothing but the outlets and the hose decide.
tl::expected<Goal, DrainFault> goalOf(std::span<const Outlet> outlets, const Run& run, double bottom, double top)
{
    const double from = run.from.value();
    const bool fed = run.inflow.value() > 0;
    const Outlet* const lowest = lowestOf(outlets);
    const bool runs = lowest != nullptr && lowest->lowest() < from;
    if (!runs && !fed) {
        return tl::unexpected(run.to && run.to->value() != from ? DrainFault::NeverGetsThere : DrainFault::NothingFlows);
    }
    if (!run.to) {
        if (!runs) {
            return Goal{top, false, false};
        }
        const double lip = std::max(lowest->lowest(), bottom);
        // An outlet that reaches below the bottom still runs there; one whose lip just touches it does not.
        if (lowest->level() || lowest->lowest() < bottom - 1e-6 || fed) {
            return Goal{lip, false, false};
        }
        return Goal{std::min(from, lip + std::max(kRestHead, lowest->heldBack())), false, true};
    }
    const double to = run.to->value();
    if (to > from) {
        return fed ? tl::expected<Goal, DrainFault>(Goal{to, false, false}) : tl::unexpected(DrainFault::NeverGetsThere);
    }
    if (!runs) {
        return tl::unexpected(DrainFault::NeverGetsThere);
    }
    const double lip = std::max(lowest->lowest(), bottom);
    return to < lip - 1e-9 ? Goal{lip, true, false} : Goal{std::max(to, lip), false, false};
}

std::optional<Duration> answer(double value) { return std::isfinite(value) ? std::optional(seconds(value)) : std::nullopt; }

} // namespace

tl::expected<Drained, DrainFault> drain(const Shell& shell, Angle pitch, std::span<const Outlet> outlets, const Run& run)
{
    const double bottom = lowestPoint(shell, pitch).value();
    const double top = highestPoint(shell, pitch).value();
    const double from = std::clamp(run.from.value(), bottom, top);
    const auto goal = goalOf(outlets, {metres(from), run.to, run.inflow}, bottom, top);
    if (!goal) {
        return tl::unexpected(goal.error());
    }
    const Balance balance(outlets, run.inflow.value());
    Drained out;
    out.stoppedAtOutlet = goal->stoppedAtOutlet;
    out.atFiniteHead = goal->atFiniteHead;
    double end = std::clamp(goal->end, bottom, top);

    // Signs of what leaves less what comes, at the start and at the end; 0 is rest.
    const double atStart = balance.at(from)[0];
    const double atEnd = balance.at(end)[0];
    const bool falls = end < from;
    const bool wrongWay = falls ? atStart <= 0 : atStart >= 0;
    if (wrongWay && end != from) {
        // It goes the other way, until it balances or the vessel is full or empty of what can run.
        const double limit = falls ? top : std::max(bottom, lowestOf(outlets) == nullptr ? bottom : lowestOf(outlets)->lowest());
        const double there = balance.at(limit)[0];
        end = falls ? (there > 0 ? balance.rest(from, top) : top) : (there < 0 ? balance.rest(limit, from) : limit);
        out.settles = metres(end);
    } else if (falls ? atEnd < 0 : atEnd > 0) {
        end = falls ? balance.rest(end, from) : balance.rest(from, end);
        out.settles = metres(end);
    } else if (falls && !run.to && run.inflow.value() > 0) {
        out.settles = metres(end);
    }
    out.end = metres(end);
    const Volume start = below(shell, pitch, metres(from)).volume;
    out.ranOut = start - below(shell, pitch, metres(end)).volume;
    out.curve.push_back({seconds(0), metres(from), start});
    if (end == from) {
        out.time = out.settles ? std::nullopt : std::optional(seconds(0));
        out.slow = out.time;
        out.fast = out.time;
        return out;
    }

    // Towards a rest the time has no end: the curve goes to within a hundredth of the way.
    const double last = out.settles ? end + 0.01 * (from - end) : end;
    const double low = std::min(from, last);
    const double high = std::max(from, last);
    const std::vector<double> at = features(outlets, low, high);
    const Clock clock(shell, pitch, balance);
    Times total{};
    const bool down = last < from;
    const std::size_t stretches = at.size() - 1;
    for (std::size_t i = 0; i < stretches; ++i) {
        const std::size_t here = down ? stretches - 1 - i : i;
        for (int j = 0; j < kSteps; ++j) {
            const int step = down ? kSteps - 1 - j : j;
            const double lower = std::numbers::pi / 2 * step / kSteps;
            const double upper = std::numbers::pi / 2 * (step + 1) / kSteps;
            const Times times = clock.between(at[here], at[here + 1], lower, upper, total[0]);
            for (std::size_t way = 0; way < kWays; ++way) {
                total.at(way) += times.at(way);
            }
            const double level = Clock::heightAt(at[here], at[here + 1], down ? lower : upper);
            out.curve.push_back({seconds(total[0]), metres(level), below(shell, pitch, metres(level)).volume});
        }
    }
    if (out.settles) {
        return out;
    }
    out.time = answer(total[0]);
    // A slower or faster stream may balance before the end.
    const Times net = balance.at(end);
    const bool slowArrives = down ? net[1] > 0 || run.inflow.value() == 0 : net[2] < 0;
    const bool fastArrives = down ? true : net[1] < 0;
    const double longest = down ? total[1] : total[2];
    const double shortest = down ? total[2] : total[1];
    out.slow = slowArrives ? answer(longest) : std::nullopt;
    out.fast = fastArrives ? answer(shortest) : std::nullopt;
    return out;
}

} // namespace brimful::water
