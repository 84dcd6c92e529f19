#include "core/rules/solver.h"

#include <algorithm>
#include <cadical.hpp>

namespace brimful::rules {

Solver::Solver()
    : m_solver(std::make_unique<CaDiCaL::Solver>())
{
    clause({kYes});
}

Solver::~Solver() = default;

Lit Solver::fresh() { return ++m_last; }

void Solver::clause(std::span<const Lit> literals)
{
    for (const Lit literal : literals) {
        m_solver->add(literal);
    }
    m_solver->add(0);
}

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
    for (const Lit literal : assumed) {
        m_solver->assume(literal);
    }
    constexpr int kSatisfiable = 10;
    return m_solver->solve() == kSatisfiable;
}

bool Solver::value(Lit literal)
{
    const int variable = std::abs(literal);
    if (variable > m_solver->vars()) {
        return literal < 0;
    }
    return (m_solver->val(variable) > 0) == (literal > 0);
}

} // namespace brimful::rules
