// Z3 in the place of CaDiCaL: a program with these definitions asks it every question of the proofs.
#include "core/rules/sat.h"

#include <vector>
#include <z3++.h>

namespace brimful::rules {

struct Sat::Engine {
    z3::context context;
    z3::solver solver{context, "QF_FD"}; // plain clauses, asked many times
    std::vector<z3::expr> variables; // of 1, 2, ...
    std::vector<bool> set; // by variable, from the newest yes

    z3::expr literal(int number)
    {
        const auto variable = static_cast<std::size_t>(std::abs(number));
        while (variables.size() < variable) {
            variables.push_back(context.bool_const(("v" + std::to_string(variables.size() + 1)).c_str()));
        }
        return number > 0 ? variables[variable - 1] : !variables[variable - 1];
    }
    z3::expr_vector literals(std::span<const int> numbers)
    {
        z3::expr_vector out(context);
        for (const int number : numbers) {
            out.push_back(literal(number));
        }
        return out;
    }
};

Sat::Sat()
    : m_engine(std::make_unique<Engine>())
{
}

Sat::~Sat() = default;

void Sat::clause(std::span<const int> literals) { m_engine->solver.add(z3::mk_or(m_engine->literals(literals))); }

bool Sat::solve(std::span<const int> assumed)
{
    if (m_engine->solver.check(m_engine->literals(assumed)) != z3::sat) {
        return false;
    }
    const z3::model model = m_engine->solver.get_model();
    m_engine->set.assign(m_engine->variables.size(), false);
    for (unsigned i = 0; i < model.num_consts(); ++i) {
        const z3::func_decl variable = model.get_const_decl(i);
        m_engine->set.at(std::stoul(variable.name().str().substr(1)) - 1) = model.get_const_interp(variable).is_true();
    }
    return true;
}

bool Sat::isSet(int variable) const
{
    const auto place = static_cast<std::size_t>(variable) - 1;
    return place < m_engine->set.size() && m_engine->set[place];
}

} // namespace brimful::rules
