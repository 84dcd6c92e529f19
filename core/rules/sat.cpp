#include "core/rules/sat.h"

#include <cadical.hpp>

namespace brimful::rules {

struct Sat::Engine {
    CaDiCaL::Solver solver;
};

Sat::Sat()
    : m_engine(std::make_unique<Engine>())
{
}

Sat::~Sat() = default;

void Sat::clause(std::span<const int> literals)
{
    for (const int literal : literals) {
        m_engine->solver.add(literal);
    }
    m_engine->solver.add(0);
}

bool Sat::solve(std::span<const int> assumed)
{
    for (const int literal : assumed) {
        m_engine->solver.assume(literal);
    }
    constexpr int kSatisfiable = 10;
    return m_engine->solver.solve() == kSatisfiable;
}

bool Sat::isSet(int variable) const { return variable <= m_engine->solver.vars() && m_engine->solver.val(variable) > 0; }

} // namespace brimful::rules
