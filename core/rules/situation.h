// Everything that may be the case at one vessel, by name, as literals: what was recorded, by whom, when, with what, and what
// happened since. It knows nothing of any rule, so that two packs and the claims can speak of one and the same situation.
#pragma once

#include "core/rules/solver.h"

#include <limits>
#include <map>
#include <set>
#include <string>

namespace brimful::rules {

class Situation {
public:
    explicit Situation(Solver& its_solver)
        : solver(its_solver)
    {
    }

    Solver& solver;

    // A plain yes or no.
    [[nodiscard]] Lit bit(const std::string& name);
    // A whole number by its thresholds: whether it is at least this. Exact for comparisons with constants.
    [[nodiscard]] Lit atLeast(const std::string& number, std::int64_t threshold);
    // One of several words, at most one at a time.
    [[nodiscard]] Lit word(const std::string& choice, const std::string& word);
    // One of several words, any number of them (every row of a table has one).
    [[nodiscard]] Lit wordOfSome(const std::string& choice, const std::string& word);
    // Who: equal or not. As many people as there are signatures.
    [[nodiscard]] Lit samePerson(const std::string& a, const std::string& b);
    [[nodiscard]] Lit isPerson(const std::string& who, unsigned number);

    // ---- after solve() said yes: the situation that was found
    struct Range {
        std::int64_t low{std::numeric_limits<std::int64_t>::min()}; // at least this
        std::int64_t high{std::numeric_limits<std::int64_t>::max()}; // below this
    };
    [[nodiscard]] bool has(const std::string& name) const { return m_bits.contains(name); }
    [[nodiscard]] bool isSet(const std::string& name); // false for what was never spoken of
    [[nodiscard]] Range range(const std::string& number);
    [[nodiscard]] std::set<std::string> words(const std::string& choice);
    [[nodiscard]] unsigned person(const std::string& who);
    [[nodiscard]] const std::map<std::string, Lit>& bits() const { return m_bits; }
    [[nodiscard]] const std::map<std::string, std::map<std::string, Lit>>& choices() const { return m_choices; }
    [[nodiscard]] const std::map<std::string, std::map<std::int64_t, Lit>>& numbers() const { return m_numbers; }
    [[nodiscard]] const std::map<std::string, std::vector<Lit>>& people() const { return m_people; }

private:
    [[nodiscard]] const std::vector<Lit>& who(const std::string& name);

    std::map<std::string, Lit> m_bits;
    std::map<std::string, std::map<std::int64_t, Lit>> m_numbers;
    std::map<std::string, std::map<std::string, Lit>> m_choices;
    std::map<std::string, std::vector<Lit>> m_people;
};

} // namespace brimful::rules
