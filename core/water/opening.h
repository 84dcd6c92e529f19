// Openings of a vessel: where water leaves, and until which level gas can.
#pragma once

#include "core/water/wall.h"

#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace brimful::water {

// A bent tube through the opening; the mouth stands `belowWall` inside the wall at a place of its own. `packed`: the gap
// between tube and opening is closed and the tube's outer end stands higher than the vessel, so that the opening no longer
// spills at its lip. Not packed, water still leaves at the lip.
struct Snorkel {
    Place mouth;
    Length belowWall;
    bool packed{};
};

struct Opening {
    std::string name;
    Place place;
    Length bore; // diameter, 0 for the bare point
    Length projection; // how far its mouth stands inside the wall: couplings, dip tubes
    Length neck; // how far its lip stands outside the wall; 0: a plain hole, lip and mouth are the edge of the inside
    bool open{true}; // false: plugged, no part in anything
    std::optional<Snorkel> snorkel;
};

enum class OpeningFault : std::uint8_t {
    OffTheShell, // from_left_tangent below 0 or beyond the shell
    OffTheHead, // an angle beyond 90 degrees, a distance beyond the inside radius
    NoHeadThere, // an angle on a flat head says nothing: give the distance from the axis
    BoreNegative,
    BoreTooLarge, // as wide as the vessel
    ProjectionNegative,
    ProjectionTooLong, // through the opposite wall
    NeckNegative,
    MouthOffTheVessel // the snorkel's place or depth
};

// An opening worked out on one shell, ready to be asked at any pose.
class Mouth {
public:
    [[nodiscard]] static tl::expected<Mouth, OpeningFault> make(const Shell&, const Opening&);

    // Heights as in level.h. Water leaves when the level reaches `spill`; gas leaves while the level is below `seal`.
    struct Heights {
        Length spill;
        Length seal;
    };
    [[nodiscard]] Heights heights(const Pose&) const;
    // Axial place and distance from the axis of its inner mouth and of its lip (of a plain hole twice the hole).
    struct End {
        Length fromLeftTangent;
        Length fromAxis;
    };
    [[nodiscard]] std::pair<End, End> ends() const;

private:
    // A disc in the vessel's frame: centre at axial x, `radial` from the axis; its normal has parts along x and outward.
    // Bent discs follow the wall: they sag by half the curvature times the squared half bore.
    struct Disc {
        double x{};
        double radial{};
        double normalX{};
        double normalRadial{1};
        double half{};
        double curveMeridian{}; // 1/m, both 0 for a flat disc
        double curveAround{};
        double clock{};
    };
    static Disc moved(const Disc& disc, double outward, bool flat);
    static std::pair<double, double> extremes(const Disc& disc, double sine, double cosine, double roll); // lowest, highest

    Disc m_wall;
    Disc m_inner;
    Disc m_outer;
    std::optional<Disc> m_snorkel;
    bool m_packed{};
    bool m_plain{true}; // mouth and lip are the edge of the wall
};

} // namespace brimful::water
