// What is laid out on the unrolled shell, which of it comes too near to what, and in which order it is cut.
#pragma once

#include "core/quantity/quantity.h"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace brimful::layout {

// On the outside of the shell, unrolled: `along` from the left tangent line, `around` from the datum line clockwise as seen
// from the left end. A round thing is a point with a radius.
struct Footprint {
    double along{};
    double alongTo{};
    double around{};
    double aroundTo{};
    double radius{};
};

// Shortest distance over the shell's outside between two footprints, 0 when they touch or overlap; `girth` closes the shell.
// Corner radii are not taken off: a rounded corner stands a little farther away than this says.
[[nodiscard]] double gapBetween(const Footprint&, const Footprint&, double girth);

enum class Kind : std::uint8_t { Door, CutOut, RoundCutOut, Nozzle, Pad, Foot, Seam, GirthSeam };
[[nodiscard]] constexpr bool isCut(Kind kind) { return kind == Kind::Door || kind == Kind::CutOut || kind == Kind::RoundCutOut; }

struct Placed {
    std::string name;
    Kind kind{};
    Footprint at; // of a cut: to the outer edge of the kerf and of its strap
    bool hinged{};
};

struct Clash {
    std::size_t first; // places in the list
    std::size_t second;
    double gap; // m
    double needed; // m
};
// Least distance of a cut from a thing of that kind, m.
struct Clearances {
    double seam{};
    double girthSeam{};
    double pad{};
    double nozzle{};
    double foot{};
    double cut{};
};
// Every pair of a cut and anything else that is nearer than its clearance, less what the tape may be off.
[[nodiscard]] std::vector<Clash> clashes(std::span<const Placed>, const Clearances&, double girth, double tolerance);
[[nodiscard]] double clearanceOf(const Clearances&, Kind);

// Nothing hot stands before the release for hot work. In the wet stage only cold cuts: first a hole that needs no hinge and is
// cut right out, then doors, which stay on their tabs. After letting out, airing and the release: hinges, straps, then tabs.
enum class Act : std::uint8_t { CutOut, CutToTabs, LetOut, HotWorkRelease, FitHinge, FitStrap, CutTabs };
[[nodiscard]] constexpr bool isDry(Act act) { return act == Act::FitHinge || act == Act::FitStrap || act == Act::CutTabs; }

struct Work {
    Act act{};
    std::optional<std::size_t> feature; // none for LetOut and HotWorkRelease
};
[[nodiscard]] std::vector<Work> orderOfWork(std::span<const Placed>, bool straps);

enum class WorkFault : std::uint8_t {
    HotBeforeRelease, // hinge, strap or last tabs before the release for hot work
    DoorCutRightOut, // a door leaves the wet stage on its tabs
    DoorBeforeFirstOpening, // an opening that needs no hinge comes first
    TabsBeforeHinge, // the hinge holds the panel when the last tab goes
    ReleaseBeforeLetOut, // the release is for the emptied, aired shell
    Twice,
    NoDoor, // tabs, hinge or strap on what is no door
    NoHinge // a hinge on a door that has no hinge side
};
struct WorkError {
    std::size_t at; // place in the list
    WorkFault fault;
};
[[nodiscard]] std::optional<WorkError> faultOf(std::span<const Work>, std::span<const Placed>);

} // namespace brimful::layout
