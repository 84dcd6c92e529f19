#include "core/gas/purge.h"

#include <cmath>

namespace brimful::gas {

namespace {

constexpr double kAtmosphere = 101'325.0;
// So that 2.0000000001 cycles, which is 2 with rounding, does not become 3.
constexpr double kRounding = 1e-9;

bool reachable(const Shares& shares) { return shares.target > shares.in_purge_gas && shares.in_purge_gas >= 0.0; }

double reduction(const Shares& shares) { return (shares.start - shares.in_purge_gas) / (shares.target - shares.in_purge_gas); }

// Cycles that each leave `part` of the excess.
Purged repeated(const Shares& shares, double part, double volumes_each)
{
    Purged out;
    out.cycles = part > 0.0 ? std::log(reduction(shares)) / -std::log(part) : 1.0;
    out.whole_cycles = static_cast<int>(std::ceil(out.cycles - kRounding));
    out.volumes = out.whole_cycles * volumes_each;
    out.reached = shares.in_purge_gas + (shares.start - shares.in_purge_gas) * std::pow(part, out.whole_cycles);
    return out;
}

} // namespace

std::optional<Purged> sweep(Shares shares, double efficiency)
{
    if (!reachable(shares) || !(efficiency > 0.0)) {
        return std::nullopt;
    }
    if (shares.start <= shares.target) {
        return Purged{.reached = shares.start};
    }
    return Purged{.volumes = std::log(reduction(shares)) / efficiency, .reached = shares.target};
}

std::optional<Purged> pressureCycles(Shares shares, const quantity::AbsolutePressure& low, const quantity::AbsolutePressure& high)
{
    if (!reachable(shares) || !(low.get().value() > 0.0) || !(high.get() > low.get())) {
        return std::nullopt;
    }
    if (shares.start <= shares.target) {
        return Purged{.reached = shares.start};
    }
    return repeated(shares, low.get().value() / high.get().value(), (high.get().value() - low.get().value()) / kAtmosphere);
}

std::optional<Purged> siphon(Shares shares, double unfilled)
{
    if (!reachable(shares) || !(unfilled >= 0.0) || !(unfilled < 1.0)) {
        return std::nullopt;
    }
    if (shares.start <= shares.target) {
        return Purged{.reached = shares.start};
    }
    return repeated(shares, unfilled, 1.0);
}

} // namespace brimful::gas
