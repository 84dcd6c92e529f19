// Entries into evidence, by six rules (each has its test):
//  1 the record of a step is the causally newest one; two newest are a conflict;
//  2 a failing record raises its step's stop, which stands until cleared by name, whatever is recorded later; whether it
//    failed is judged at its own moment, from what it knew;
//  3 a correction only withdraws what it names: a new record must follow (the one before does not come back), and no stop
//    is lifted; withdrawing a clearing or a confirmation takes away what that gave;
//  4 one photo in two records is a conflict on both, of another vessel too;
//  5 nothing belongs to "this fill" by magic: fill-started is an event and voids what lists it;
//  6 voided means: an event of its list that is not an ancestor of it.
// Pure: no I/O, no clock. Figures run here, memoised, never in the judge.
#pragma once

#include "core/figure/figure.h"
#include "core/ledger/yard_state.h"
#include "core/rules/standing.h"

#include <memory>
#include <set>
#include <span>

namespace brimful::evidence {

// What is known beside the entries: found by whoever looked.
struct Surroundings {
    std::set<Hash> missing_attachments; // named by an entry, not in evidence/ or changed
    std::set<Hash> carried_elsewhere; // files that records of other vessels carry too
    std::set<PersonId> busy; // who watches over live releases and over what was hot, on other vessels
    std::vector<Hash> lost; // entries that this machine remembers and the record does not have
    bool record_damaged{}; // the verifier found a flaw that reaches this vessel
    bool storage_fault{};
};

// Derived facts and at-giving verdicts are pure in what they are made from; kept across folds.
class Memo {
public:
    Memo();
    ~Memo();
    Memo(const Memo&) = delete;
    Memo& operator=(const Memo&) = delete;
    struct State;
    [[nodiscard]] State& state() { return *m_state; }

private:
    std::unique_ptr<State> m_state;
};

// The value of one fact as the newest record has it, for screens and reports.
struct FactShown {
    rules::Index fact{};
    std::string member; // of a register; empty otherwise
    canon::Json value; // as in the payload: Recorded object, text, option
    std::optional<std::int64_t> count; // derived facts too
    std::vector<std::string> warnings; // of a derived fact's figure
};

struct Folded {
    rules::Evidence evidence;
    std::vector<ledger::Line> lines; // entry n of the evidence is lines[n - 1]
    std::vector<PersonId> people; // person n of the evidence
    std::vector<FactShown> shown; // newest usable or not, all steps
    std::vector<Hash> heads; // of this vessel
    bool forked{}; // two tablets wrote of this vessel without knowing of each other, and no authoriser has joined that since
    std::vector<Hash> unknown_heads; // named by genuine tags or parents, not here
    std::optional<std::uint32_t> newest_tag; // newest tag-printed entry
    std::set<Hash> withdrawn; // entries that a later one takes back
};

// `lines`: the yard's entries and this vessel's, in insertion order.
[[nodiscard]] Folded fold(std::span<const ledger::Line> lines, const VesselId&, const ledger::YardState&, const rules::Pack&,
    const figure::Reference&, const ledger::Moment& now, const Surroundings&, Memo&);

// Whether a record of the vessel was ever outside its acceptance, put right since or not. Lines as for fold().
[[nodiscard]] bool everFailed(std::span<const ledger::Line> lines, const VesselId&, const ledger::YardState&, const rules::Pack&,
    const figure::Reference&, const ledger::Moment& now, Memo&);

// How long a passed check of an instrument carries its readings: the pack's bump-life, else a day.
[[nodiscard]] std::int64_t bumpLifeMs(const rules::Pack&);

} // namespace brimful::evidence
