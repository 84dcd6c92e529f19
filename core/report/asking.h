// The questions' workbench. Private to this room: the entries in their order, each vessel's way, what each hand signed.
#pragma once

#include "core/report/questions.h"

#include <map>
#include <set>
#include <tuple>

namespace brimful::report {

using rules::Index;

// One vessel as far as it was followed.
struct Way {
    std::string number;
    double capacity_m3{}; // 0: not known
    std::map<Index, std::size_t> events; // newest of each kind
    std::map<Index, std::size_t> first_card; // of each step, since that was voided
    std::map<Index, std::size_t> first_release; // of each hold point
    std::vector<std::size_t> cards; // that count, since the last release
    std::vector<std::size_t> releases;
    std::size_t last{};
    bool found{}; // something was
};

class Asking {
public:
    Asking(const rules::Pack& pack, const ledger::YardState& yard, std::vector<Noted> entries);
    Asked run(const std::function<bool(const VesselId&)>& failed);

private:
    [[nodiscard]] std::int64_t timeOf(std::size_t i) const { return m_yard.trueTime(m_entries[i].at).value_or(m_entries[i].at.wall_ms); }
    [[nodiscard]] const rules::Step& stepOf(std::size_t i) const { return m_pack.steps[m_entries[i].what]; }

    void sort();
    void findWhatCounts();
    [[nodiscard]] bool counts(std::size_t i) const;
    void gather(std::size_t i);

    // ---- along each vessel's way
    void follow(std::size_t i);
    void happened(Way& way, std::size_t i);
    [[nodiscard]] std::optional<std::int64_t> apart(std::size_t from, std::size_t to) const;
    void askPace(const Way& way, std::size_t i);
    [[nodiscard]] const Noted::Told* longestTime(std::size_t card) const;
    [[nodiscard]] std::int64_t takesMs(std::size_t card) const;
    [[nodiscard]] std::int64_t takes(const std::vector<std::size_t>& cards) const;
    void askBeforeRelease(const Way& way, std::size_t release);

    // ---- one hand
    void findTogether();
    void askTogether();
    [[nodiscard]] bool isAskedFor(Index fact, std::int64_t count) const;
    struct Value {
        std::size_t card{};
        std::int64_t count{};
        std::string typed;
    };
    void askSameValues();
    void askSameValue(const PersonId& person, Index fact, const std::vector<Value>& run);

    // ---- the yard
    [[nodiscard]] std::pair<PersonId, PersonId> pairOf(std::size_t release) const;
    void askSamePair();
    void askNothingFound(const std::function<bool(const VesselId&)>& failed);
    void add(Question question, const std::vector<std::size_t>& entries, const std::vector<PersonId>& persons);

    const rules::Pack& m_pack;
    const ledger::YardState& m_yard;
    std::vector<Noted> m_entries;
    std::set<Hash> m_withdrawn;
    std::map<Hash, std::size_t> m_confirmed; // of what: the entry that confirms it
    std::map<std::tuple<DeviceId, BootId, PersonId>, std::vector<std::size_t>> m_hands; // cards
    std::map<std::pair<PersonId, Index>, std::vector<Value>> m_values;
    std::vector<std::size_t> m_releases;
    std::vector<std::vector<std::size_t>> m_batches;
    std::set<std::size_t> m_together; // cards of batches
    std::map<VesselId, Way> m_ways;
    Asked m_out;
};

} // namespace brimful::report
