// Two looks at once: one with any evidence at all, and one with some of it lost, aged, contradicted, withdrawn or followed by more.
#pragma once

#include "core/rules/encoding.h"

#include <map>
#include <string>
#include <tuple>

namespace brimful::test {

// What both looks share: a variable a leaf, and for each that can be taken away whether it was.
struct AnyEvidence {
    explicit AnyEvidence(rules::Solver& its_solver)
        : solver(its_solver)
    {
    }
    rules::Solver& solver;
    std::map<std::tuple<std::string, std::int64_t, std::int64_t>, rules::Lit> known;

    rules::Lit of(const char* what, std::int64_t a = 0, std::int64_t b = 0)
    {
        auto& literal = known[{what, a, b}];
        literal = literal == 0 ? solver.fresh() : literal;
        return literal;
    }
};

class LessAtoms : public rules::Atoms {
    using Index = rules::Index;
    using Lit = rules::Lit;
    using SignatureRef = rules::SignatureRef;

public:
    LessAtoms(AnyEvidence& any, bool less)
        : m_any(any)
        , m_less(less)
    {
    }

    Lit usableStep(Index step) override { return kept("step", step); }
    rules::Rails passed(Index step) override
    {
        const Lit there = m_any.solver.both(kept("step", step), m_any.of("judged", step));
        const Lit yes = m_any.of("passed", step);
        return {m_any.solver.both(there, yes), m_any.solver.both(there, -yes)};
    }
    Lit usableFact(Index fact) override { return kept("fact", fact); }
    Lit isOneOf(Index fact, std::int64_t options) override { return m_any.of("is", fact, options); }
    Lit largestAtLeast(Index fact, std::int64_t count) override { return m_any.of("largest", fact, count); }
    Lit smallestAtLeast(Index fact, std::int64_t count) override { return m_any.of("smallest", fact, count); }
    Lit signatureKnown(SignatureRef ref) override { return m_any.solver.both(kept("step", ref / 2), m_any.of("signed", ref)); }
    Lit samePerson(SignatureRef a, SignatureRef b) override { return m_any.of("same", a, b); }
    Lit roleKnown(SignatureRef ref) override { return signatureKnown(ref); }
    Lit hasRole(SignatureRef ref, std::int64_t roles) override { return m_any.of("role", ref, roles); }
    Lit actorThere(rules::Actor) override { return rules::kYes; }
    Lit actorKnown(rules::Actor actor) override { return m_any.of("actor", static_cast<int>(actor)); }
    Lit actorSigned(rules::Actor actor, SignatureRef ref) override { return m_any.of("actor-signed", static_cast<int>(actor), ref); }
    Lit actorHasRole(rules::Actor actor, std::int64_t roles) override { return m_any.of("actor-role", static_cast<int>(actor), roles); }
    Lit knows(Index step, Index earlier) override { return m_any.of("knows", step, earlier); }
    Lit since(Index step, Index event) override { return more("since", step, event); }
    Lit raised(Index stop) override { return more("raised", stop, 0); }
    Lit given(Index hold_point) override { return kept("given", hold_point); }
    Lit whole() override { return kept("whole", 0); }
    Lit clockTrusted() override { return kept("clock", 0); }

private:
    Lit kept(const char* what, std::int64_t a)
    {
        const Lit had = m_any.of(what, a);
        return m_less ? m_any.solver.both(had, -m_any.of((std::string("lost ") + what).c_str(), a)) : had;
    }
    Lit more(const char* what, std::int64_t a, std::int64_t b)
    {
        const Lit had = m_any.of(what, a, b);
        return m_less ? m_any.solver.either(had, m_any.of((std::string("more ") + what).c_str(), a, b)) : had;
    }

    AnyEvidence& m_any;
    bool m_less;
};

} // namespace brimful::test
