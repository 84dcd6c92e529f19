#include "core/water/fill.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>
#include <vector>

namespace brimful::water {

namespace {

constexpr double kDegree = std::numbers::pi / 180;
constexpr double kMostPitch = 3 * kDegree;
constexpr double kRollStep = 2 * kDegree;
constexpr double kPitchReach = 1.5 * kDegree;
constexpr int kRolls = 180;
constexpr std::array<double, 5> kOffs{-1, -0.5, 0, 0.5, 1}; // of the tolerance
constexpr double kIndifferent = 1e-9; // m3: poses that differ by less are equal

// Golden-section search for the least of a function with one valley, to a ten-thousandth of the interval.
template <class Function> void golden(double low, double high, const Function& function)
{
    const double ratio = std::numbers::phi - 1;
    double left = high - ratio * (high - low);
    double right = low + ratio * (high - low);
    double atLeft = function(left);
    double atRight = function(right);
    for (int i = 0; i < 18; ++i) {
        if (atLeft <= atRight) {
            high = right;
            right = left;
            atRight = atLeft;
            left = high - ratio * (high - low);
            atLeft = function(left);
        } else {
            low = left;
            left = right;
            atLeft = atRight;
            right = low + ratio * (high - low);
            atRight = function(right);
        }
    }
}

class Search {
public:
    Search(const Shell& shell, std::span<const Mouth> open, double pitchLimit, double tolerance)
        : m_shell(shell)
        , m_open(open)
        , m_pitchLimit(pitchLimit)
        , m_tolerance(tolerance)
    {
    }

    BestPose run();

private:
    struct Candidate {
        double roll{};
        double pitch{};
        double worst{std::numeric_limits<double>::infinity()};
        // One strict order, so that a search by it always ends: by the pocket in steps of kIndifferent, then by how far from
        // level and roll 0.
        [[nodiscard]] bool betterThan(const Candidate& other) const
        {
            const double steps = std::floor(worst / kIndifferent);
            const double others = std::floor(other.worst / kIndifferent);
            return steps != others ? steps < others : std::abs(pitch) + std::abs(roll) < std::abs(other.pitch) + std::abs(other.roll);
        }
    };

    [[nodiscard]] double trapped(double roll, double pitch) const
    {
        return fill(m_shell, {quantity::radians(pitch), quantity::radians(roll)}, m_open)->trapped.value();
    }
    [[nodiscard]] Candidate judge(double roll, double pitch) const;
    [[nodiscard]] std::vector<Candidate> grid() const;
    [[nodiscard]] Candidate alongRidge(const Candidate& from) const;
    [[nodiscard]] Candidate refine(const Candidate& start) const;

    const Shell& m_shell;
    std::span<const Mouth> m_open;
    double m_pitchLimit;
    double m_tolerance;
};

Search::Candidate Search::judge(double roll, double pitch) const
{
    Candidate out{roll, pitch, 0};
    for (const double off : kOffs) {
        if (off != 0 && m_tolerance == 0) {
            continue;
        }
        out.worst = std::max(out.worst, trapped(roll, pitch + off * m_tolerance));
    }
    return out;
}

// The tolerance is a whole number of grid steps where that is possible, so that each pose is worked out once.
std::vector<Search::Candidate> Search::grid() const
{
    const double wanted = 0.5 * kDegree;
    const bool shared = m_tolerance >= wanted / 2;
    const double step = shared ? m_tolerance / std::ceil(m_tolerance / wanted - 1e-9) : wanted;
    const int spread = shared ? static_cast<int>(std::lround(m_tolerance / step)) : 0;
    const int most = static_cast<int>(std::floor(m_pitchLimit / step + 1e-9));
    std::vector<Candidate> out;
    const int columns = 2 * (most + spread) + 1;
    const int level_roll = kRolls / 2;
    std::vector<double> column(static_cast<std::size_t>(columns));
    for (int i = 0; i < kRolls; ++i) {
        const double roll = (i - level_roll) * kRollStep;
        for (int j = -most - spread; j <= most + spread; ++j) {
            const int at = j + most + spread;
            column[static_cast<std::size_t>(at)] = trapped(roll, j * step);
        }
        for (int j = -most; j <= most; ++j) {
            const auto from = column.begin() + (j + most);
            out.push_back({roll, j * step, *std::max_element(from, from + 2 * spread + 1)});
        }
    }
    return out;
}

// Two openings that spill at the same height make a ridge that runs aslant through roll and pitch; a pattern of steps
// stalls on it, a search for the best pitch at each roll does not.
Search::Candidate Search::alongRidge(const Candidate& from) const
{
    const auto bestAt = [&](double roll) {
        Candidate best;
        golden(std::max(-m_pitchLimit, from.pitch - kPitchReach), std::min(m_pitchLimit, from.pitch + kPitchReach), [&](double pitch) {
            const Candidate here = judge(roll, pitch);
            best = here.betterThan(best) ? here : best;
            return here.worst;
        });
        return best;
    };
    Candidate best = judge(from.roll, from.pitch);
    golden(from.roll - kRollStep, from.roll + kRollStep, [&](double roll) {
        const Candidate here = bestAt(roll);
        best = here.betterThan(best) ? here : best;
        return here.worst;
    });
    return best;
}

Search::Candidate Search::refine(const Candidate& start) const
{
    Candidate best = alongRidge(start);
    double rollStep = kRollStep / 2;
    double pitchStep = 0.25 * kDegree;
    while (rollStep > 1e-3 * kDegree) {
        Candidate found = best;
        for (int i = -1; i <= 1; ++i) {
            for (int j = -1; j <= 1; ++j) {
                const double pitch = std::clamp(best.pitch + j * pitchStep, -m_pitchLimit, m_pitchLimit);
                if (i == 0 && j == 0) {
                    continue;
                }
                if (const Candidate next = judge(best.roll + i * rollStep, pitch); next.betterThan(found)) {
                    found = next;
                }
            }
        }
        if (found.betterThan(best)) {
            best = found;
        } else {
            rollStep /= 2;
            pitchStep /= 2;
        }
    }
    return best;
}

BestPose Search::run()
{
    std::vector<Candidate> all = grid();
    constexpr std::ptrdiff_t kStarts = 3;
    std::partial_sort(
        all.begin(), all.begin() + kStarts, all.end(), [](const Candidate& one, const Candidate& other) { return one.betterThan(other); });
    Candidate best = refine(all.front());
    for (std::ptrdiff_t i = 1; i < kStarts; ++i) {
        if (const Candidate next = refine(all[static_cast<std::size_t>(i)]); next.betterThan(best)) {
            best = next;
        }
    }
    const double turn = 2 * std::numbers::pi;
    const double roll = best.roll - turn * std::round(best.roll / turn);
    return {{quantity::radians(best.pitch), quantity::radians(roll)}, quantity::cubicMetres(best.worst),
        quantity::cubicMetres(trapped(best.roll, best.pitch))};
}

} // namespace

tl::expected<BestPose, FillFault> bestPose(const Shell& shell, std::span<const Mouth> open, const PoseLimits& limits)
{
    if (open.empty()) {
        return tl::unexpected(FillFault::NoOpenOpening);
    }
    const double pitch = std::clamp(limits.pitch.value(), 0.0, kMostPitch);
    return Search(shell, open, pitch, std::max(0.0, limits.tolerance.value())).run();
}

} // namespace brimful::water
