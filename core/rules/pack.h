// A rule pack after loading: everything by index, every condition flat. rules/LANGUAGE.md says what the files look like.
#pragma once

#include "core/canon/hash.h"
#include "core/canon/json.h"
#include "core/quantity/quantity.h"
#include "core/rules/condition.h"

#include <tl/expected.hpp>

#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace brimful::rules {

using Index = std::uint16_t;
inline constexpr Index kNone = 0xffff;

enum class Mark : std::uint8_t { Found, Memory, Computed, Proposal, CommonPractice };

struct SourceRef {
    std::string id; // in rules/reference/sources.json
    std::string place; // section, table, page
    Mark mark{Mark::Proposal};
};

struct Parameter {
    std::string id;
    quantity::Dimension dimension{quantity::Dimension::Number};
    std::string unit; // recorded unit
    std::int64_t count{};
    std::string typed; // "30 min"
    bool tighter_is_lower{true};
    std::vector<SourceRef> sources;
    std::string set_by; // pack or overlay that set the value in force
    std::string of_pack; // as the pack itself has it, where an overlay speaks of it; "" elsewhere
    bool tightened{}; // the overlay asks for more than the pack
};

enum class FactKind : std::uint8_t { Choice, Quantity, Count, Text, Photo, Document, Echo, Person, Derived, Tag };

// Where a derived fact's inputs come from.
struct Derivation {
    std::string figure;
    std::uint16_t version{};
    canon::Json inputs; // template with {"fact"}, {"value"}, {"parameter"}, {"instrument"}, {"rows", "as"} leaves
    std::string output;
    bool round_up{true}; // toward refusal
    bool warnings_unusable{true};
};

struct Fact {
    std::string id; // "brim.pocket"; a register's column is "readings-wet.set.gas"
    std::string key; // "pocket"
    Index step{kNone};
    FactKind kind{FactKind::Choice};
    quantity::Dimension dimension{quantity::Dimension::Number};
    std::string unit; // recorded unit of a quantity
    std::vector<std::string>
        options; // of a choice, in file order; at most 62. Echo: "equal", "differs". Tag: "newest", "older", "other", "none"
    bool optional{};
    bool exclusive{}; // a person who may not be named so on two vessels at once
    Index reg{kNone}; // register it is a column of
    Index echo_of{kNone};
    Index compares{kNone}; // an echo that is not typed: whether this other fact equals echo_of
    int echo_last{}; // compare only the last n characters; 0: all
    std::optional<std::int64_t> plausible_low; // counts; outside is asked again, never refused
    std::optional<std::int64_t> plausible_high;
    bool varies{}; // nature makes this quantity another one each time: the same three times running is asked about
    std::optional<Derivation> derived;
    std::string example; // a value that passes, as typed
};

// A table with one row a member; one set is one entry.
struct Register {
    std::string id; // "readings-wet.set"
    std::string key;
    Index step{kNone};
    std::vector<std::string> members; // fixed members
    Index members_from{kNone}; // register whose rows' names are members too (openings, hollows)
    bool defines{}; // its own rows name the members
    std::int64_t within_ms{}; // the whole set must be taken within this; 0: no limit
    std::vector<Index> columns;
};

enum class Act : std::uint8_t { Paper, Look, Open, Fill, ColdCut, Heat };

struct Cannot {
    std::string id;
};

struct Step {
    std::string id;
    Index stage{};
    Act act{Act::Paper};
    bool of_yard{}; // one record a day for the whole yard
    std::vector<Index> by; // roles that may sign
    std::vector<Index> with; // roles of the second person; empty: one signature
    std::vector<Index> facts;
    std::vector<Index> registers;
    Index accept{}; // start of its condition in Pack::conditions
    std::int64_t life_ms{}; // 0: does not lapse
    std::int64_t life_of_pack_ms{}; // before an overlay shortened it
    std::string life_set_by; // the overlay that shortened it; "" none
    std::vector<Index> voided_by; // events
    std::vector<Index> needs; // steps it must have known
    Index on_fail{kNone}; // stop that a failing record raises
    std::string instrument; // kind of instrument it needs; "" none
    std::optional<Index> when; // condition: only asked of vessels for which this is not False
    std::vector<Cannot> cannot;
    std::vector<std::string> cautions;
    std::vector<std::string> clauses; // "S25"
    std::vector<SourceRef> sources;
    std::int64_t takes_ms{}; // how long it takes, for P10
    std::optional<std::int64_t> takes_for_mL; // how much a vessel holds that it takes that long for; a smaller one in proportion
    std::vector<Index> begun_by; // events with which its work begins
    Index talk_of{kNone}; // hidden step: the talk of this hold point
};

struct Rule {
    std::string id;
    Index barrier{};
    Index condition{}; // start in Pack::conditions
    std::vector<SourceRef> sources;
    bool at_talk{}; // judged only with a release in hand: the talk itself and the tag
    Index place{};
    std::string set_by; // the overlay that added it; "" the pack
};

struct Question {
    std::string id;
    Index fact{}; // fact of the hold point's talk
};

struct HoldPoint {
    std::string id;
    Index stage{};
    Act act{Act::Paper}; // what lies behind it
    std::vector<Index> by; // roles: who gives
    std::vector<Index> with; // roles: who accepts
    std::int64_t lasts_ms{};
    std::vector<Index> ended_by; // events
    std::vector<Rule> at_giving;
    std::vector<Rule> require;
    std::vector<Rule> stop; // must be definitely False
    std::vector<Question> questions;
    Index talk{kNone}; // its hidden step
    Index tag_fact{kNone}; // Tag fact in the talk; kNone: no tag is asked
    bool closes{}; // given and then the vessel is closed out
    std::vector<SourceRef> sources;
};

struct EventKind {
    std::string id;
    bool device_alone{}; // needs nobody's PIN; such a kind can only take away
    Index raises{kNone}; // stop
};

struct StopKind {
    std::string id;
    std::vector<Index> cleared_by; // roles
    std::vector<Index> cleared_with; // roles of a second person; empty: one
    bool refuses{}; // the vessel is refused while it stands
};

struct Place {
    std::string file;
    std::uint32_t line{};
    std::uint32_t column{};
};

struct PackPart {
    std::string id;
    std::int64_t version{};
    canon::Hash hash; // manifest: everything but cases and strings
};

struct Pack {
    std::string id;
    std::int64_t version{};
    canon::Hash hash; // of the pack alone
    std::vector<PackPart> overlays; // that stand on it
    std::vector<std::string> roles, stages, barriers;
    std::vector<EventKind> events;
    std::vector<StopKind> stops;
    std::vector<Parameter> parameters;
    std::vector<Fact> facts;
    std::vector<Register> registers;
    std::vector<Step> steps; // at most 64, talks included
    std::vector<HoldPoint> hold_points;
    std::vector<Condition> conditions; // every tree, one after the other
    std::vector<Place> places;
    std::map<std::string, std::string, std::less<>> strings; // English, by key

    [[nodiscard]] Index step(std::string_view id) const;
    [[nodiscard]] Index fact(std::string_view id) const;
    [[nodiscard]] Index registerOf(std::string_view id) const;
    [[nodiscard]] Index holdPoint(std::string_view id) const;
    [[nodiscard]] Index event(std::string_view id) const;
    [[nodiscard]] Index stop(std::string_view id) const;
    [[nodiscard]] Index role(std::string_view id) const;
    [[nodiscard]] const Parameter* parameter(std::string_view id) const;
    [[nodiscard]] canon::Hash together() const; // of pack and overlays; without overlays the pack's own
};

// Files of one pack, by path inside it. Shipped packs are embedded; a shop's own lies in its yard.
struct PackSource {
    std::string id;
    std::map<std::string, std::string, std::less<>> files;

    bool operator==(const PackSource&) const = default;
};

enum class LoadFault : std::uint8_t {
    MissingFile,
    Json,
    UnknownKey,
    MissingKey,
    WrongType,
    UnknownName,
    DuplicateId,
    BadUnit,
    BadQuantity,
    Depth,
    TooMany,
    NotTightening,
    BehindItself,
    DeviceCanGrant,
    Cycle,
    NoExample,
    UnknownFigure,
    MissingString,
    BadVersion,
    OutOfScope // a document that says of itself that it does not cover such vessels: to be read, nothing rests on it
};
struct LoadError {
    LoadFault fault;
    std::string file;
    std::uint32_t line{};
    std::uint32_t column{};
    std::string path;
    std::string expected;
    std::string found;
    std::string nearest; // nearest known name, when there is one
};

// All errors found, not only the first; a broken pack loads nothing.
[[nodiscard]] tl::expected<Pack, std::vector<LoadError>> load(const PackSource& base, std::span<const PackSource> overlays);

// Packs embedded at build, and shared reference files ("reference/substances.json").
[[nodiscard]] std::span<const PackSource> shippedPacks();
[[nodiscard]] std::string_view shippedFile(std::string_view path);
[[nodiscard]] std::vector<std::string> shippedFiles(std::string_view folder); // paths that begin with it
[[nodiscard]] canon::Hash manifestHash(const PackSource&);

} // namespace brimful::rules
