// A situation that the solver found, written as a scenario that plays: who recorded what, in which order, what happened.
// Private to the proofs.
#pragma once

#include "core/rules/meaning.h"

#include <optional>

namespace brimful::rules {

class Writing {
public:
    Writing(const Pack& its_pack, Meaning& its_meaning, Situation& its_situation, Index hold_point);

    // Moves the situation toward what is usual, as far as `assumed` allows: example values, two people, little that happened,
    // the order of the journey, few records. True: there is such a situation at all.
    bool settle(std::vector<Lit> assumed, bool fewest);
    [[nodiscard]] std::vector<std::string> steps(); // recorded, in order, the talk left out
    // `before`: acts that lead to the hold points that were given before. `state`: what is expected at the end.
    [[nodiscard]] canon::Json scenario(
        const std::vector<canon::Json>& before, const std::string& about, bool release, const std::string& state);
    [[nodiscard]] std::vector<canon::Json> acts(const std::vector<canon::Json>& before, bool release);

private:
    [[nodiscard]] std::vector<Lit> usual();
    void inOneLine(); // one line of history: what a single tablet writes
    [[nodiscard]] canon::Json record(Index step);
    [[nodiscard]] canon::Json rowsOf(const Register&, bool& like_example); // made false where they are not the example's
    [[nodiscard]] canon::Json valueOf(Index fact, bool& like_example);
    [[nodiscard]] std::optional<canon::Json> failing(Index step); // a record of it that is not accepted; nothing: no word makes it so
    // Of an event or a failing record before all others that raised the stop: the answer, where the situation has one.
    [[nodiscard]] std::optional<canon::Json> answered(Index stop, const std::string& cause);
    [[nodiscard]] std::vector<canon::Json> raisedBefore();
    [[nodiscard]] bool there(Index step);

    const Pack& m_pack;
    Meaning& m_meaning;
    Situation& m_situation;
    Solver& m_solver;
    Index m_hold_point;
    Lit m_line{kYes};
    std::map<std::pair<Index, Index>, Lit> m_before; // first < second
    std::map<unsigned, std::set<std::string>> m_roles; // by person
    std::set<std::string> m_instruments;
    std::vector<Index> m_order;
};

} // namespace brimful::rules
