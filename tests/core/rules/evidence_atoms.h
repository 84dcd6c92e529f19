// One look's evidence as the solver's leaves: every leaf a variable of its own, held to what the evidence says.
#pragma once

#include "core/rules/encoding.h"
#include "core/rules/standing.h"

namespace brimful::test {

class EvidenceAtoms : public rules::Atoms {
    using Index = rules::Index;
    using Lit = rules::Lit;
    using SignatureRef = rules::SignatureRef;

public:
    EvidenceAtoms(const rules::Evidence& evidence, const rules::Actors& actors, rules::Solver& solver)
        : m_evidence(evidence)
        , m_actors(actors)
        , m_solver(solver)
    {
    }

    std::vector<Lit> held; // what the evidence says, to be assumed

    Lit usableStep(Index step) override { return told(counts(m_evidence.steps[step])); }
    rules::Rails passed(Index step) override
    {
        const rules::StepHeld& one = m_evidence.steps[step];
        const Lit yes = told(counts(one) && one.passed == rules::Truth::True);
        return {yes, told(counts(one) && one.passed == rules::Truth::False)};
    }
    Lit usableFact(Index fact) override { return told(counts(m_evidence.facts[fact])); }
    Lit isOneOf(Index fact, std::int64_t options) override
    {
        const std::int64_t words = m_evidence.facts[fact].count;
        return told(words != 0 && (words | options) == options);
    }
    Lit largestAtLeast(Index fact, std::int64_t count) override { return told(m_evidence.facts[fact].count >= count); }
    Lit smallestAtLeast(Index fact, std::int64_t count) override { return told(m_evidence.facts[fact].least >= count); }
    Lit signatureKnown(SignatureRef ref) override { return told(counts(m_evidence.steps[ref / 2U]) && person(ref) != rules::kNobody); }
    Lit samePerson(SignatureRef a, SignatureRef b) override { return told(person(a) == person(b)); }
    Lit roleKnown(SignatureRef ref) override { return told(counts(m_evidence.steps[ref / 2U]) && role(ref) < 63); }
    Lit hasRole(SignatureRef ref, std::int64_t roles) override { return told(role(ref) < 63 && ((roles >> role(ref)) & 1) != 0); }
    Lit actorThere(rules::Actor actor) override { return told(who(actor).has_value()); }
    Lit actorKnown(rules::Actor actor) override { return told(who(actor) && who(actor)->person != rules::kNobody); }
    Lit actorSigned(rules::Actor actor, SignatureRef ref) override { return told(who(actor) && who(actor)->person == person(ref)); }
    Lit actorHasRole(rules::Actor actor, std::int64_t roles) override
    {
        return told(who(actor) && (who(actor)->roles & static_cast<std::uint64_t>(roles)) != 0);
    }
    Lit knows(Index step, Index earlier) override { return told(((m_evidence.steps[step].knows >> earlier) & 1U) != 0); }
    Lit since(Index step, Index event) override { return told(((m_evidence.event_after[event] >> step) & 1U) != 0); }
    Lit raised(Index stop) override { return told(m_evidence.stops[stop].raised != rules::kNoEntry); }
    Lit given(Index hold_point) override
    {
        const rules::ReleaseHeld& one = m_evidence.releases[hold_point];
        return told(one.confirmed != rules::kNoEntry && one.at_giving == rules::Truth::True && !one.withdrawn);
    }
    Lit whole() override { return told(m_evidence.whole); }
    Lit clockTrusted() override { return told(m_evidence.clock_trusted); }

private:
    Lit told(bool is)
    {
        const Lit fresh = m_solver.fresh();
        held.push_back(is ? fresh : -fresh);
        return fresh;
    }
    template <class Any> [[nodiscard]] bool counts(const Any& one) const
    {
        return one.lack == rules::Lack::None && one.lapses_ms > m_evidence.now_ms;
    }
    [[nodiscard]] std::uint16_t person(SignatureRef ref) const
    {
        const rules::StepHeld& one = m_evidence.steps[ref / 2U];
        return ref % 2U == 0 ? one.person : one.second;
    }
    [[nodiscard]] std::uint16_t role(SignatureRef ref) const
    {
        const rules::StepHeld& one = m_evidence.steps[ref / 2U];
        return ref % 2U == 0 ? one.role : one.second_role;
    }
    [[nodiscard]] const std::optional<rules::ActorHeld>& who(rules::Actor actor) const
    {
        return actor == rules::Actor::By ? m_actors.by : m_actors.with;
    }

    const rules::Evidence& m_evidence;
    const rules::Actors& m_actors;
    rules::Solver& m_solver;
};

} // namespace brimful::test
