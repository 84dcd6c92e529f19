// The SAT solver itself: clauses in, one answer out. CaDiCaL; the long campaigns put another in its place and expect the same
// answers. Private to the proofs.
#pragma once

#include <memory>
#include <span>

namespace brimful::rules {

// Literals are whole numbers from 1; negative is the opposite.
class Sat {
public:
    Sat();
    ~Sat();
    Sat(const Sat&) = delete;
    Sat& operator=(const Sat&) = delete;
    Sat(Sat&&) = delete;
    Sat& operator=(Sat&&) = delete;

    void clause(std::span<const int> literals);
    // Whether all clauses can be met together with these literals.
    [[nodiscard]] bool solve(std::span<const int> assumed);
    // In the situation of the newest solve() that said yes; of a variable in no clause, false.
    [[nodiscard]] bool isSet(int variable) const;

private:
    struct Engine;
    std::unique_ptr<Engine> m_engine;
};

} // namespace brimful::rules
