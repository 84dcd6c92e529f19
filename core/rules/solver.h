// A SAT solver behind gates that fold constants and are made once. Private to the proofs.
#pragma once

#include "core/rules/sat.h"

#include <cstdint>
#include <map>
#include <tuple>
#include <vector>

namespace brimful::rules {

using Lit = int; // a variable or, negative, its opposite
inline constexpr Lit kYes = 1;
inline constexpr Lit kNo = -1;

class Solver {
public:
    Solver();
    ~Solver() = default;
    Solver(const Solver&) = delete;
    Solver& operator=(const Solver&) = delete;
    Solver(Solver&&) = delete;
    Solver& operator=(Solver&&) = delete;

    [[nodiscard]] Lit fresh();
    void clause(std::initializer_list<Lit> literals) { clause(std::span(literals.begin(), literals.size())); }
    void clause(std::span<const Lit> literals);

    [[nodiscard]] Lit both(Lit a, Lit b);
    [[nodiscard]] Lit either(Lit a, Lit b) { return -both(-a, -b); }
    [[nodiscard]] Lit same(Lit a, Lit b) { return both(either(-a, b), either(a, -b)); }
    [[nodiscard]] Lit all(std::span<const Lit> literals);
    [[nodiscard]] Lit any(std::span<const Lit> literals);
    // At least k of them.
    [[nodiscard]] Lit atLeast(std::span<const Lit> literals, std::size_t k);

    // Whether the clauses can be met together with these literals.
    [[nodiscard]] bool solve(std::span<const Lit> assumed);
    [[nodiscard]] bool solve(std::initializer_list<Lit> assumed) { return solve(std::span(assumed.begin(), assumed.size())); }
    // In the newest situation for which solve() said yes; of a gate made since, what it then comes to.
    [[nodiscard]] bool value(Lit literal) const;
    [[nodiscard]] std::size_t questions() const { return m_questions; }

private:
    Sat m_sat;
    Lit m_last{kYes};
    std::map<std::pair<Lit, Lit>, Lit> m_gates;
    std::map<Lit, std::pair<Lit, Lit>> m_inputs; // of each gate
    std::vector<bool> m_model;
    std::size_t m_questions{};
};

} // namespace brimful::rules
