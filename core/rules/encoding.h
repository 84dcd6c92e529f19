// Conditions and hold points as two rails of literals, t (True) and f (False); neither is Unknown. The same law as the judge,
// written a second time and for every situation at once. Private to the proofs; the tests bind it to the judge.
#pragma once

#include "core/rules/pack.h"
#include "core/rules/solver.h"

#include <optional>

namespace brimful::rules {

struct Rails {
    Lit t{kNo};
    Lit f{kNo};
};

// What a condition's leaves speak of, one look at one vessel.
class Atoms {
public:
    Atoms() = default;
    virtual ~Atoms() = default;
    Atoms(const Atoms&) = delete;
    Atoms& operator=(const Atoms&) = delete;
    Atoms(Atoms&&) = delete;
    Atoms& operator=(Atoms&&) = delete;

    [[nodiscard]] virtual Lit usableStep(Index step) = 0; // its newest record counts
    [[nodiscard]] virtual Rails passed(Index step) = 0;
    [[nodiscard]] virtual Lit usableFact(Index fact) = 0;
    [[nodiscard]] virtual Lit isOneOf(Index fact, std::int64_t options) = 0;
    [[nodiscard]] virtual Lit largestAtLeast(Index fact, std::int64_t count) = 0;
    [[nodiscard]] virtual Lit smallestAtLeast(Index fact, std::int64_t count) = 0;
    [[nodiscard]] virtual Lit signatureKnown(SignatureRef) = 0; // the record counts, and who signed it is known
    [[nodiscard]] virtual Lit samePerson(SignatureRef a, SignatureRef b) = 0;
    [[nodiscard]] virtual Lit roleKnown(SignatureRef) = 0;
    [[nodiscard]] virtual Lit hasRole(SignatureRef, std::int64_t roles) = 0;
    [[nodiscard]] virtual Lit actorThere(Actor) = 0; // somebody is about to sign, or has signed
    [[nodiscard]] virtual Lit actorKnown(Actor) = 0;
    [[nodiscard]] virtual Lit actorSigned(Actor, SignatureRef) = 0;
    [[nodiscard]] virtual Lit actorHasRole(Actor, std::int64_t roles) = 0;
    [[nodiscard]] virtual Lit knows(Index step, Index earlier) = 0;
    [[nodiscard]] virtual Lit since(Index step, Index event) = 0;
    [[nodiscard]] virtual Lit raised(Index stop) = 0;
    [[nodiscard]] virtual Lit given(Index hold_point) = 0;
    [[nodiscard]] virtual Lit whole() = 0;
    [[nodiscard]] virtual Lit clockTrusted() = 0;
};

// One node taken for a constant: what would be decided without it.
struct Without {
    Index node{kNone};
    bool value{};
};

class Encoding {
public:
    Encoding(const Pack& its_pack, Atoms& its_atoms, Solver& its_solver)
        : m_pack(its_pack)
        , m_atoms(its_atoms)
        , m_solver(its_solver)
    {
    }

    [[nodiscard]] Rails condition(Index root, Without without = {});
    // require and stop, a whole history, a trusted clock, nothing that refuses: what is asked at every look.
    [[nodiscard]] Rails lasting(Index hold_point, Without without = {});
    // What refuses a vessel is asked by name too, so that the reason is told; whether that matters is seen without the refusal.
    void leaveRefusalsOut() { m_refusals = false; }
    // With at_giving, the talk and the tag: may it be given?
    [[nodiscard]] Rails giving(Index hold_point, Without without = {});

private:
    [[nodiscard]] Rails leaf(const Condition&);
    [[nodiscard]] Rails usable(Lit there, Lit yes) { return {m_solver.both(there, yes), m_solver.both(there, -yes)}; }
    [[nodiscard]] Rails rules(const std::vector<Rule>&, bool stop, Without without);
    [[nodiscard]] Rails both(Rails a, Rails b) { return {m_solver.both(a.t, b.t), m_solver.either(a.f, b.f)}; }

    const Pack& m_pack;
    Atoms& m_atoms;
    Solver& m_solver;
    bool m_refusals{true};
};

} // namespace brimful::rules
