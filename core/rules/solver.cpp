#include "core/rules/solver.h"

#include <algorithm>
#include <cstdlib>

namespace brimful::rules {

Solver::Solver() { clause({kYes}); }

Lit Solver::fresh() { return ++m_last; }

void Solver::clause(std::span<const Lit> literals) { m_sat.clause(literals); }

Lit Solver::both(Lit a, Lit b)
{
    if (a == kNo || b == kNo || a == -b) {
        return kNo;
    }
    if (a == kYes || a == b) {
        return b;
    }
    if (b == kYes) {
        return a;
    }
    const auto key = std::minmax(a, b);
    const auto [found, added] = m_gates.try_emplace({key.first, key.second}, 0);
    if (added) {
        const Lit out = fresh();
        found->second = out;
        m_inputs.emplace(out, key);
        clause({-out, a});
        clause({-out, b});
        clause({out, -a, -b});
    }
    return found->second;
}

Lit Solver::all(std::span<const Lit> literals)
{
    Lit out = kYes;
    for (const Lit literal : literals) {
        out = both(out, literal);
    }
    return out;
}

Lit Solver::any(std::span<const Lit> literals)
{
    Lit out = kNo;
    for (const Lit literal : literals) {
        out = either(out, literal);
    }
    return out;
}

// counted[j]: at least j + 1 of those seen so far.
Lit Solver::atLeast(std::span<const Lit> literals, std::size_t k)
{
    if (k == 0) {
        return kYes;
    }
    std::vector<Lit> counted(k, kNo);
    for (const Lit literal : literals) {
        for (std::size_t j = k; j-- > 0;) {
            counted[j] = either(counted[j], both(literal, j == 0 ? kYes : counted[j - 1]));
        }
    }
    return counted[k - 1];
}

bool Solver::solve(std::span<const Lit> assumed)
{
    ++m_questions;
    for (const Lit literal : assumed) {
        if (literal == kNo) {
            return false;
        }
    }
    if (!m_sat.solve(assumed)) {
        return false;
    }
    m_model.resize(static_cast<std::size_t>(m_last) + 1);
    for (Lit variable = 1; variable <= m_last; ++variable) {
        m_model[static_cast<std::size_t>(variable)] = m_sat.isSet(variable);
    }
    return true;
}

bool Solver::value(Lit literal) const
{
    const auto variable = static_cast<std::size_t>(std::abs(literal));
    bool set = false;
    if (variable < m_model.size()) {
        set = m_model[variable];
    } else if (const auto gate = m_inputs.find(std::abs(literal)); gate != m_inputs.end()) {
        set = value(gate->second.first) && value(gate->second.second);
    }
    return set == (literal > 0);
}

} // namespace brimful::rules
