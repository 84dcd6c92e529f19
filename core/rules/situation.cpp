#include "core/rules/situation.h"

namespace brimful::rules {

namespace {

constexpr unsigned kPersonBits = 7; // two signatures on each of 64 steps

} // namespace

Lit Situation::bit(const std::string& name)
{
    const auto [found, added] = m_bits.try_emplace(name, 0);
    if (added) {
        found->second = solver.fresh();
    }
    return found->second;
}

Lit Situation::atLeast(const std::string& number, std::int64_t threshold)
{
    auto& ladder = m_numbers[number];
    const auto [found, added] = ladder.try_emplace(threshold, 0);
    if (added) {
        found->second = solver.fresh();
        if (found != ladder.begin()) {
            solver.clause({-found->second, std::prev(found)->second});
        }
        if (const auto next = std::next(found); next != ladder.end()) {
            solver.clause({-next->second, found->second});
        }
    }
    return found->second;
}

Lit Situation::word(const std::string& choice, const std::string& word)
{
    auto& words = m_choices[choice];
    if (const auto found = words.find(word); found != words.end()) {
        return found->second;
    }
    const Lit fresh = solver.fresh();
    for (const auto& [other, literal] : words) {
        solver.clause({-fresh, -literal});
    }
    words.emplace(word, fresh);
    return fresh;
}

Lit Situation::wordOfSome(const std::string& choice, const std::string& word)
{
    const auto [found, added] = m_choices[choice].try_emplace(word, 0);
    if (added) {
        found->second = solver.fresh();
    }
    return found->second;
}

const std::vector<Lit>& Situation::who(const std::string& name)
{
    auto& bits = m_people[name];
    while (bits.size() < kPersonBits) {
        bits.push_back(solver.fresh());
    }
    return bits;
}

Lit Situation::samePerson(const std::string& a, const std::string& b)
{
    if (a == b) {
        return kYes;
    }
    const std::vector<Lit> one = who(a);
    const std::vector<Lit> other = who(b);
    Lit out = kYes;
    for (unsigned i = 0; i < kPersonBits; ++i) {
        out = solver.both(out, solver.same(one[i], other[i]));
    }
    return out;
}

Lit Situation::isPerson(const std::string& name, unsigned number)
{
    const std::vector<Lit>& bits = who(name);
    Lit out = kYes;
    for (unsigned i = 0; i < kPersonBits; ++i) {
        out = solver.both(out, ((number >> i) & 1U) != 0 ? bits[i] : -bits[i]);
    }
    return out;
}

bool Situation::isSet(const std::string& name)
{
    const auto found = m_bits.find(name);
    return found != m_bits.end() && solver.value(found->second);
}

Situation::Range Situation::range(const std::string& number)
{
    Range out;
    if (const auto ladder = m_numbers.find(number); ladder != m_numbers.end()) {
        for (const auto& [threshold, literal] : ladder->second) {
            if (!solver.value(literal)) {
                out.high = threshold;
                break;
            }
            out.low = threshold;
        }
    }
    return out;
}

std::set<std::string> Situation::words(const std::string& choice)
{
    std::set<std::string> out;
    if (const auto found = m_choices.find(choice); found != m_choices.end()) {
        for (const auto& [word, literal] : found->second) {
            if (solver.value(literal)) {
                out.insert(word);
            }
        }
    }
    return out;
}

unsigned Situation::person(const std::string& name)
{
    unsigned out = 0;
    if (const auto found = m_people.find(name); found != m_people.end()) {
        for (unsigned i = 0; i < kPersonBits; ++i) {
            out |= solver.value(found->second[i]) ? 1U << i : 0U;
        }
    }
    return out;
}

} // namespace brimful::rules
