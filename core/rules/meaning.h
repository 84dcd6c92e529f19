// What a pack makes of a situation: which records count, what passed, which stops stand. The fold's rules, for every situation
// at once. Private to the proofs.
#pragma once

#include "core/rules/encoding.h"
#include "core/rules/situation.h"

namespace brimful::rules {

// Names of the situation's literals; the claims and the written histories use the same.
namespace named {
[[nodiscard]] std::string recorded(const std::string& step);
[[nodiscard]] std::string clean(const std::string& step); // no conflict, files whole, keys good, role held
[[nodiscard]] std::string own(const std::string& step); // recorded for this vessel, not for the yard
[[nodiscard]] std::string role(const std::string& step, bool second);
[[nodiscard]] std::string confirmed(const std::string& step); // by a second, different person
[[nodiscard]] std::string who(const std::string& step, bool second);
[[nodiscard]] std::string age(const std::string& step); // ms, of its oldest reading
[[nodiscard]] std::string since(const std::string& step, const std::string& event);
[[nodiscard]] std::string knows(const std::string& step, const std::string& earlier);
[[nodiscard]] std::string instrument(const std::string& step, const std::string& kind); // in calibration, its newest check good
[[nodiscard]] std::string checkAge(const std::string& step); // ms between the check and the record
[[nodiscard]] std::string checkOff(const std::string& step); // ppm
[[nodiscard]] std::string has(const std::string& fact); // the record says it
[[nodiscard]] std::string idle(const std::string& fact); // whom it names watches over no other vessel
[[nodiscard]] std::string largest(const std::string& fact);
[[nodiscard]] std::string smallest(const std::string& fact);
[[nodiscard]] std::string words(const std::string& fact);
[[nodiscard]] std::string row(const std::string& table, const std::string& member);
[[nodiscard]] std::string rowsOf(const std::string& table, const std::string& from);
[[nodiscard]] std::string anyRow(const std::string& table);
[[nodiscard]] std::string noRow(const std::string& table); // it was looked for, there is none
[[nodiscard]] std::string spread(const std::string& table); // ms between its first and its last row
[[nodiscard]] std::string failed(const std::string& step); // some record of it failed
[[nodiscard]] std::string happened(const std::string& event);
[[nodiscard]] std::string cleared(const std::string& cause); // cause: failed() or happened()
[[nodiscard]] std::string clearedTwice(const std::string& cause); // and confirmed by another
[[nodiscard]] std::string clearer(const std::string& cause, bool second); // their roles
[[nodiscard]] std::string gave(const std::string& hold_point);
[[nodiscard]] std::string givenAge(const std::string& hold_point); // ms
[[nodiscard]] std::string givenSince(const std::string& hold_point, const std::string& event);
inline constexpr const char* kWhole = "whole";
inline constexpr const char* kClock = "clock";
} // namespace named

class Meaning : public Atoms {
public:
    Meaning(const Pack& its_pack, Situation& its_situation);

    void leaveRefusalsOut() { m_encoding.leaveRefusalsOut(); }
    // Signed by two different people, all asked for at giving.
    [[nodiscard]] Lit giving(Index hold_point, Without without = {});
    // Given, within its time, not ended, all asked for at every look.
    [[nodiscard]] Lit holding(Index hold_point, Without without = {});
    [[nodiscard]] Rails accepts(Index step, Without without = {}); // over facts that count
    [[nodiscard]] Lit says(Index fact); // the newest record says it, whether or not it counts
    [[nodiscard]] Lit echoes(Index fact, int last); // equal in its last characters; 0: in all
    [[nodiscard]] std::string keyOf(Index fact); // the fact's name in the situation: its id and what it is made from

    [[nodiscard]] Lit usableStep(Index step) override;
    [[nodiscard]] Rails passed(Index step) override;
    [[nodiscard]] Lit usableFact(Index fact) override;
    [[nodiscard]] Lit isOneOf(Index fact, std::int64_t options) override;
    [[nodiscard]] Lit largestAtLeast(Index fact, std::int64_t count) override;
    [[nodiscard]] Lit smallestAtLeast(Index fact, std::int64_t count) override;
    [[nodiscard]] Lit signatureKnown(SignatureRef) override;
    [[nodiscard]] Lit samePerson(SignatureRef a, SignatureRef b) override;
    [[nodiscard]] Lit roleKnown(SignatureRef) override;
    [[nodiscard]] Lit hasRole(SignatureRef, std::int64_t roles) override;
    [[nodiscard]] Lit actorThere(Actor) override { return kYes; }
    [[nodiscard]] Lit actorKnown(Actor) override { return kYes; }
    [[nodiscard]] Lit actorSigned(Actor, SignatureRef) override;
    [[nodiscard]] Lit actorHasRole(Actor, std::int64_t roles) override;
    [[nodiscard]] Lit knows(Index step, Index earlier) override;
    [[nodiscard]] Lit since(Index step, Index event) override;
    [[nodiscard]] Lit raised(Index stop) override;
    [[nodiscard]] Lit given(Index hold_point) override;
    [[nodiscard]] Lit whole() override { return m_situation.bit(named::kWhole); }
    [[nodiscard]] Lit clockTrusted() override { return m_situation.bit(named::kClock); }
    [[nodiscard]] Lit signersGood(Index step);

private:
    [[nodiscard]] Lit counting(Index step); // apart from what the record must say
    [[nodiscard]] Lit oneOfRoles(const std::string& choice, const std::vector<Index>& roles);
    [[nodiscard]] Lit hasFact(Index fact);
    [[nodiscard]] Lit rowsWhole(Index table);
    [[nodiscard]] Lit clearedFor(const StopKind&, const std::string& cause);
    [[nodiscard]] Lit instrumentGood(const Step&);
    [[nodiscard]] Lit equalIn(const std::string& echo, int last);

    const Pack& m_pack;
    Situation& m_situation;
    Solver& m_solver;
    Encoding m_encoding;
    bool m_raw{}; // what the record says, whether or not it counts
    Index m_giver{kNone}; // talk of the hold point in question
    std::map<Index, Lit> m_counting;
    std::map<Index, Lit> m_usable;
    std::map<Index, Rails> m_passed;
    std::map<Index, std::string> m_keys;
};

} // namespace brimful::rules
