#include "tests/core/rules/three_ways.h"

#include "tests/core/rules/evidence_atoms.h"

namespace brimful::test {

using canon::Json;
using namespace rules;

int mayBeGivenByReference(const RandomPack& made, const Known& known, const WhoSigns& who, std::int64_t now)
{
    int least = known.refused ? -1 : known.whole && known.clock ? 1 : 0;
    const auto asked = [&](const Json& condition, bool stop) {
        const int one = verdict(condition, made.pack, known, who, now);
        least = std::min(least, stop ? -one : one);
    };
    for (const char* list : {"at_giving", "require", "stop"}) {
        for (const Json& rule : made.first.find(list)->items) {
            asked(*rule.find("when"), std::string(list) == "stop");
        }
    }
    for (const char* stop : {"alarm", "forbidden"}) { // the pack's `everywhere`
        asked(object({{"op", "not"}, {"of", object({{"op", "clear"}, {"stop", Json(stop)}})}}), true);
    }
    asked(object({{"op", "passed"}, {"step", "talk-first"}}), false);
    asked(object({{"op", "is"}, {"fact", "talk-first.tag"}, {"one_of", Json::array({Json("newest")})}}), false);
    return least;
}

std::optional<Truth> threeWays(const RandomPack& made, const Evidence& evidence, const Actors& actors)
{
    const Index first = made.pack.holdPoint("first");
    const Truth judged = mayBeGiven(made.pack, evidence, first, actors);
    const Truth by_reference =
        truthOf(mayBeGivenByReference(made, byNames(made.pack, evidence), byNames(made.pack, actors), evidence.now_ms));
    Solver solver;
    EvidenceAtoms atoms(evidence, actors, solver);
    const Rails rails = Encoding(made.pack, atoms, solver).giving(first);
    const auto meets = [&](Lit literal) {
        std::vector<Lit> assumed = atoms.held;
        assumed.push_back(literal);
        return solver.solve(assumed);
    };
    const bool solved = meets(rails.t) == (judged == Truth::True) && meets(-rails.t) == (judged != Truth::True)
        && meets(rails.f) == (judged == Truth::False) && meets(-rails.f) == (judged != Truth::False);
    return judged == by_reference && solved ? std::optional(judged) : std::nullopt;
}

} // namespace brimful::test
