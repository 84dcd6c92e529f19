// The audit of one hold point: every requirement with its evidence, who, when, how old; what holds; what was verified
// and what it cannot know.
#pragma once

#include "core/ledger/verify.h"
#include "core/report/view.h"

namespace brimful::report {

struct EvidenceShown {
    std::string step;
    std::string fact; // key, "" for the record itself
    std::string value; // as typed, or the option's word; a register's worst row as "0 %LEL at low-left"
    std::string person, second; // names
    std::string role, second_role;
    std::string instrument;
    std::int64_t at_ms{};
    std::int64_t age_ms{};
    std::int64_t lapses_ms{rules::kNever};
    rules::Lack lack{rules::Lack::None};
    std::optional<ledger::PhotoNote> photo; // of a photograph, where its entry tells of it
    bool of_vessel{}; // false: of the whole yard
    Hash entry;
};

struct RequirementShown {
    rules::List list;
    std::string rule;
    std::string barrier;
    rules::Truth truth;
    std::vector<EvidenceShown> evidence;
    std::vector<rules::SourceRef> sources;
};

struct BlockerShown {
    std::string rule;
    std::string leaf; // "passed brim", "at_most brim.pocket": op and what
    std::string status; // missing, lapsed, voided, conflict, wrong-value ...
    std::string needed; // step or stop that lifts it
    std::string barrier;
    std::optional<Hash> entry;
};

// Packs that ruled the yard from then on.
struct PacksRuled {
    std::int64_t from_ms{};
    std::string law;
    std::vector<rules::PackPart> parts;
};

struct Audit {
    VesselView view;
    std::string hold_point;
    bool released{};
    rules::State state{rules::State::Held};
    std::int64_t until_ms{rules::kNever};
    std::string given_by, given_with; // names
    std::optional<Hash> release_entry;
    std::int64_t given_ms{};
    std::vector<RequirementShown> requirements;
    std::vector<BlockerShown> blockers;
    std::string law; // "" none chosen: all of them
    Hash packs; // of all parts together
    std::vector<rules::PackPart> parts; // in force at the moment asked for: the pack, then its overlays
    std::vector<PacksRuled> ruled; // since the vessel came, oldest first
    bool recovery_used{};
    std::string clock; // "confirmed", "unconfirmed", "suspect", "as-if" (a question about another time)
    ledger::Verification verified;
    std::string yard, owner;
    std::int64_t asked_ms{};
    std::vector<TrailLine> trail;
};

// Everything but `verified`, which the caller adds.
[[nodiscard]] Audit audit(const rules::Pack&, const evidence::Folded&, const VesselId&, const ledger::YardState&, const ledger::Moment& now,
    const evidence::Surroundings&, rules::Index hold_point);

[[nodiscard]] std::string_view lackWord(rules::Lack);
[[nodiscard]] std::string_view stateWord(rules::State);
[[nodiscard]] std::string_view listWord(rules::List);
[[nodiscard]] std::string leafWord(const rules::Pack&, const rules::Condition&);
[[nodiscard]] BlockerShown shown(const rules::Pack&, const evidence::Folded&, const rules::Blocker&);
[[nodiscard]] std::vector<EvidenceShown> evidenceOf(
    const rules::Pack&, const evidence::Folded&, const ledger::YardState&, const rules::Rule&);

} // namespace brimful::report
