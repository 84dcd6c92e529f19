// Cuts into a vessel that holds water, one after another: where each meets the water, what runs out and how long, what gas
// space opens, whether it is vented, how hard water pushes a panel out, and what the cut pieces weigh and stand on.
#pragma once

#include "core/water/drain.h"
#include "core/water/support.h"
#include "core/water/wall.h"

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace brimful::water {

struct Cut {
    std::string name;
    std::vector<Spot> path; // at least two; the kerf's middle line
    Length kerf;
    Discharge discharge;
};

// One thing that hangs together after a cut.
struct Piece {
    enum class Kind : std::uint8_t { Rest, Panel, Left, Right };
    Kind kind{Kind::Rest};
    std::string cut; // that freed it; of the rest empty
    Mass mass; // of plain steel; 0 when no wall is known
    Length centre; // along the axis from the left tangent line
    std::size_t supports{}; // that stand under it
    bool stands{}; // its centre lies between two of them
};

struct CutStep {
    Length lowest; // of the kerf, heights as in level.h
    Length highest;
    Length length; // along the kerf
    Length levelBefore;
    std::optional<PathPoint> meetsWater; // where the cut first goes below the level, from its start on
    Length levelAfter; // where it comes to rest, with a hose running or not
    Volume runsOut;
    Volume gasSpace; // above the water when it has come to rest
    std::optional<std::string> vent; // an opening or a cut through which air gets in; absent: it gulps, and no time is given
    bool held{}; // a running hose holds the level above the lowest of the kerf
    std::optional<Duration> time; // to within kRestHead or what the kerf holds back; as in Drained
    std::optional<Duration> slow;
    std::optional<Duration> fast;
    double jet{}; // m/s, ideal speed of the water at the lowest of the kerf before it runs
    std::optional<Area> panelArea; // when the cut closes on itself around a panel
    std::optional<Mass> panelMass; // and a wall is known
    std::optional<Force> panelPush; // of the water before this cut, outward, on the panel
    std::vector<Piece> pieces; // after this cut, with those of the cuts before
};

// A mouth through which air can come in, by the height below which the level must be for that.
struct Vent {
    std::string name;
    Length height;
};

struct CutPlan {
    Length level; // before the first cut
    VolumeFlow inflow; // a hose left running
    std::vector<Vent> vents;
    std::optional<std::vector<Length>> supports; // from the left tangent line
    Density water;
};

enum class CutFault : std::uint8_t { TooFewPlaces, TurnTooFar }; // a leg of more than half a turn: which way round is not said

struct CutError {
    CutFault fault;
    std::size_t cut;
    std::size_t place;
};

// A closed path ends within 1 mm of where it began. Closed without going round the axis it frees a panel; going round once it
// parts the vessel there, at the middle of its path. Every kerf stays open for the cuts that follow.
[[nodiscard]] tl::expected<std::vector<CutStep>, CutError> planCuts(const Shell&, const Pose&, std::span<const Cut>, const CutPlan&);

// The resultant of the water's pressure on the part of the wall inside a closed path, and that part's area (inside).
struct Push {
    Force force;
    Area area;
    double metalArea; // m2 in the middle of the wall
    Length centre; // of the panel, along the axis
};
[[nodiscard]] Push pushOn(const Shell&, const Meridian&, const Pose&, std::span<const Spot> closed, Length level, const Density&);

} // namespace brimful::water
