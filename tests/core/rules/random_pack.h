// Random rules for the small pack's first hold point, and random evidence and signers for any pack.
#pragma once

#include "core/canon/json.h"
#include "core/rules/standing.h"

#include <random>

namespace brimful::test {

using Dice = std::mt19937_64;

inline std::size_t upTo(Dice& dice, std::size_t count) { return static_cast<std::size_t>(dice() % count); }
inline bool oneIn(Dice& dice, std::size_t count) { return upTo(dice, count) == 0; }
template <class List> const auto& pick(Dice& dice, const List& list) { return list[upTo(dice, list.size())]; }

[[nodiscard]] canon::Json object(std::initializer_list<std::pair<const char*, canon::Json>> all);

struct RandomPack {
    rules::Pack pack;
    canon::Json first; // its hold point, as written
};
[[nodiscard]] RandomPack makePack(Dice& dice);

[[nodiscard]] rules::Lack someLack(Dice& dice, std::size_t one_in);
[[nodiscard]] rules::Evidence makeEvidence(Dice& dice, const rules::Pack& pack);
[[nodiscard]] rules::Actors makeActors(Dice& dice);

} // namespace brimful::test
