// What a screen, a tag and an audit draw and tell of one vessel: ids and numbers, no sentences.
// The drawing knows the facts it draws by their ids in the base pack (ids are forever); absent facts draw as unknown.
#pragma once

#include "core/evidence/fold.h"
#include "core/ledger/photos.h"

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace brimful::report {

// Solid is proven, broken is believed or lapsed.
enum class Sight : std::uint8_t { Unknown, Believed, Lapsed, Proven };

struct ShellView {
    Sight sight{Sight::Unknown};
    double outside_diameter_m{}; // 0: nothing known at all
    double wall_m{};
    double shell_length_m{}; // tangent to tangent
    std::string left_head{"hemispherical"}; // as in a figure's input
    std::string right_head{"hemispherical"};
    double capacity_m3{};
};

enum class OpeningState : std::uint8_t { Unknown, Open, Brim, Plugged, Stuck };
struct OpeningView {
    std::string name;
    OpeningState state{OpeningState::Unknown};
    Sight sight{Sight::Unknown};
    double from_left_tangent_m{};
    double clock_deg{};
    std::string head; // "left", "right", or "" on the shell
};

enum class WaterState : std::uint8_t { Unknown, Empty, Part, Brim };
struct WaterView {
    WaterState state{WaterState::Unknown};
    Sight sight{Sight::Unknown};
    double fraction{}; // of the capacity
    std::optional<double> pocket_L;
};

enum class PlaceState : std::uint8_t { Missing, Fresh, Lapsed, Failing, Unbelievable, Conflict };
struct PlaceView {
    std::string name; // member: "vent", "cut", "ground", "low-left", a hollow's name
    PlaceState state{PlaceState::Missing};
    std::optional<std::int64_t> gas; // 0.1 %LEL as shown
    std::optional<std::int64_t> oxygen; // ppm as shown
};

enum class CutState : std::uint8_t { Planned, Released, Made };

// What a hand may touch, and where it leads. Order is the order of the keyboard.
struct PartView {
    std::string id; // "was", "tilt", "water", "opening:N1", "places", "cut", "tag", "trail", "figures"
    rules::Index step{rules::kNone};
    Sight sight{Sight::Unknown};
};

struct StageView {
    std::string id;
    std::vector<rules::Index> steps; // asked of this vessel
};

struct GateView {
    rules::Index hold_point{};
    rules::State state{rules::State::Held};
    bool passed{}; // was validly given and not taken back
    std::int64_t until_ms{rules::kNever};
};

enum class Signal : std::uint8_t { Danger, Warning, Caution, Notice };
// What the plate says; with the second line's id below.
enum class PlateWord : std::uint8_t {
    Held,
    Released,
    FireWatch,
    Draining,
    Stopped,
    Refused,
    NotOurs,
    ClosedOut,
    RecordDamaged,
    ClockUnknown
};

// The watch after heat: nobody leaves until it is signed.
struct SweepView {
    std::int64_t at_ms{};
    std::size_t places{};
    std::size_t cool{}; // of these
};
struct WatchView {
    std::int64_t since_ms{}; // when the heat was over, or when somebody watched again
    std::int64_t ends_ms{}; // not sooner
    std::int64_t next_sweep_ms{rules::kNever}; // due then; the first one at once
    std::int64_t sweep_late_ms{rules::kNever}; // rings then; of the first one not at once
    std::vector<std::string> places; // that a sweep looks at, by name
    std::vector<SweepView> sweeps; // since then, oldest first
    std::string watcher{}; // by name; "" nobody whose naming counts
    std::optional<std::int64_t> left_ms{}; // nobody has watched since then; the watch stands still
};

struct ClockView {
    std::string what; // "release", "watch", "sweep", "unwatched", "step:brim": what runs out, or ran out
    std::int64_t at_ms{};
    bool past{};
};

struct VesselView {
    VesselId id;
    std::string number;
    std::string note;
    bool demo{};
    ShellView shell;
    std::string contents; // option word of what it held, "" unknown
    Sight contents_sight{Sight::Unknown};
    std::vector<OpeningView> openings;
    WaterView water;
    std::optional<double> pitch_deg, roll_deg;
    Sight tilt_sight{Sight::Unknown};
    std::vector<PlaceView> places;
    CutState cut{CutState::Planned};
    std::vector<PartView> parts;
    std::vector<StageView> stages;
    std::vector<GateView> gates;
    std::size_t reach{}; // index into stages: where the journey stands
    PlateWord word{PlateWord::Held};
    Signal signal{Signal::Danger};
    std::optional<ClockView> clock;
    std::optional<WatchView> watch;
    rules::Index log{rules::kNone}; // step that keeps the readings of the released work fresh; none where nothing is read
    rules::Standing standing;
    std::optional<std::int64_t> newest_tag; // serial
    std::int64_t newest_tag_ms{};
    std::size_t entries{};
    Hash head;
    std::int64_t now_ms{};
};

[[nodiscard]] VesselView view(const rules::Pack&, const evidence::Folded&, const VesselId&, const ledger::YardState&,
    const ledger::Moment& now, const evidence::Surroundings&);

struct BoardRow {
    std::shared_ptr<const VesselView> view; // never null
    int need{}; // class of need, 1 first
    bool read{true}; // false: nothing but its number is known yet, so it is held
};
// In order of need: stopped; clock overdue; running clock, shortest first; held and doable; waiting outside; refused; closed.
void sortByNeed(std::vector<BoardRow>&);

// One line of the trail.
struct TrailLine {
    Hash hash;
    ledger::Kind kind;
    ledger::Moment at;
    std::optional<std::int64_t> true_ms;
    std::string person; // name; "" the tablet alone
    std::string role;
    std::string step; // ids, by kind
    std::string hold_point;
    std::string event;
    std::string stop;
    std::string what; // free text of the payload: why, found, note
    // Of a second signature: what that person gave himself.
    std::string answered; // the fact's id, its key where the pack does not know it; "" nothing
    std::string answered_row; // of a register
    canon::Json answer; // as recorded
    ledger::PhotoNotes photos; // what the entry tells of those that it carries
    bool counts{true}; // false: withdrawn, or never confirmed
    bool failing{};
    std::size_t reach{}; // how far the vessel was after it: stage index
    bool fell_back{};
};
[[nodiscard]] std::vector<TrailLine> trail(const rules::Pack&, const evidence::Folded&, const VesselId&, const ledger::YardState&);

} // namespace brimful::report
