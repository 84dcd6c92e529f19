// The fold's workbench. Private to this room: history, records, values, derived facts and stops of one look.
#pragma once

#include "core/evidence/fold.h"
#include "core/evidence/history.h"

#include <map>
#include <optional>
#include <string>
#include <unordered_map>

namespace brimful::evidence {

struct DerivedAnswer {
    std::optional<std::int64_t> count; // absent: no answer
    std::vector<std::string> warnings;
};

struct Memo::State {
    std::unordered_map<std::string, tl::expected<figure::Result, figure::Error>> figures; // figure, version, canonical inputs
    std::unordered_map<std::string, rules::Truth> given; // at-giving verdict, by basis and confirming entry
    std::unordered_map<std::string, rules::Truth> passed; // acceptance at its own moment, by basis and record
};

// One record of a step, as written; not yet judged.
struct Record {
    EntryNumber entry{};
    EntryNumber confirmed{}; // the entry from which it counts; 0: a second signature is missing
    bool cannot{};
    const canon::Json* values{}; // facts or answers
    std::string instrument;
};

class Folding {
public:
    Folding(std::span<const ledger::Line> lines, const VesselId&, const ledger::YardState&, const rules::Pack&, const figure::Reference&,
        const ledger::Moment& now, const Surroundings&, Memo&);

    Folded run();
    bool everFailed();

private:
    using Index = rules::Index;

    // gathering.cpp: what the entries say, before anything is judged
    void gather();
    void gatherEntry(EntryNumber);
    void findHeads();
    void findForks();
    void findUnknownHeads();

    // recording.cpp: the newest record of each step, and why it does or does not count
    void chooseRecords();
    [[nodiscard]] bool isWithdrawn(const Record&) const;
    [[nodiscard]] bool keySuspected(EntryNumber) const;
    [[nodiscard]] bool holdsItsRole(EntryNumber) const; // the signer, at that moment, by a key that nobody suspects
    [[nodiscard]] rules::Lack lackOf(Index step, const Record&);
    [[nodiscard]] rules::Lack signersLack(Index step, const Record&);
    [[nodiscard]] rules::Lack instrumentLack(Index step, const Record&) const;
    [[nodiscard]] bool voided(Index step, const Record&) const;
    [[nodiscard]] std::optional<std::int64_t> timeOf(const ledger::Moment&) const; // on the axis of now
    [[nodiscard]] std::int64_t oldestAge(Index step, const Record&) const;
    std::uint16_t personNumber(const PersonId&);

    // valuing.cpp: facts of one record
    void valueFacts(Index step, const Record&, rules::Lack, std::int64_t lapses, std::vector<rules::Held>& into, bool show);
    [[nodiscard]] rules::Held valueOf(const rules::Fact&, const canon::Json* value, const Record&) const;
    [[nodiscard]] rules::Held echoOf(const rules::Fact&, const Record&, const std::vector<rules::Held>& facts) const;
    [[nodiscard]] rules::Held tagOf(const Record&) const;
    void valueRegister(const rules::Register&, const Record&, rules::Lack, std::int64_t lapses, std::vector<rules::Held>& into, bool show);
    [[nodiscard]] std::optional<std::vector<std::string>> membersOf(const rules::Register&) const;

    // deriving.cpp: facts made by figures
    [[nodiscard]] rules::Held derive(const rules::Fact&, const Record&, const canon::Json* row, const std::vector<rules::Held>& facts,
        std::vector<std::string>* warnings);
    struct Inputs;

    // judging.cpp: acceptance, stops, releases
    void judgeSteps();
    [[nodiscard]] rules::Lack missingFact(Index step, const Record&) const;
    [[nodiscard]] rules::Truth accepts(Index step, const std::vector<rules::Held>& facts);
    void findStops();
    [[nodiscard]] bool dependsOnOthers(Index step) const;
    [[nodiscard]] rules::Truth verdictOn(Index step, const Record&, bool depends); // then; the newest by what is known now too
    [[nodiscard]] rules::Truth passedThen(Index step, const Record&);
    [[nodiscard]] rules::Truth passedBy(Index step, const Record&); // its values, with what is known now
    [[nodiscard]] bool clears(const rules::StopKind&, EntryNumber clearing, EntryNumber raising) const;
    void findReleases();
    [[nodiscard]] rules::Truth atGiving(Index hold_point, EntryNumber confirmed);
    void findEvents();

    const History m_history;
    const VesselId& m_vessel;
    const ledger::YardState& m_yard;
    const rules::Pack& m_pack;
    const figure::Reference& m_reference;
    const ledger::Moment& m_now;
    const Surroundings& m_around;
    Memo& m_memo;
    std::string m_basis; // what a remembered verdict rests on beside its own entries: the pack, and the yard's newest entry
    Folded m_out;

    std::vector<std::vector<Record>> m_records; // per step, in order
    std::vector<std::optional<Record>> m_newest; // per step
    std::vector<bool> m_conflict; // per step
    std::map<Hash, EntryNumber> m_confirmations; // of the entry with this hash
    std::map<Hash, std::vector<EntryNumber>> m_photos; // records that carry a file
    std::vector<EntryNumber> m_clearings;
    std::vector<std::vector<EntryNumber>> m_events; // per event kind
    std::vector<std::vector<EntryNumber>> m_releases; // per hold point
    std::vector<std::vector<EntryNumber>> m_withdrawals; // per hold point
    EntryNumber m_gap{}; // newest confirmed gap-accepted entry
    std::set<Hash> m_gap_heads;

    std::optional<Hash> m_judging; // the release whose giving is being judged
};

} // namespace brimful::evidence
