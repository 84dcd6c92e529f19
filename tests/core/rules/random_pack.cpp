#include "tests/core/rules/random_pack.h"

#include "tests/core/rules/evidence_of.h"
#include "tests/core/rules/packs.h"

namespace brimful::test {

using canon::Json;
using namespace rules;

namespace {

Json someOf(Dice& dice, const std::vector<std::string>& words)
{
    Json out = Json::array();
    for (const std::string& word : words) {
        if (oneIn(dice, 2)) {
            out.items.emplace_back(word);
        }
    }
    if (out.items.empty()) {
        out.items.emplace_back(pick(dice, words));
    }
    return out;
}

// Makes rules for the small pack's hold points. `cut` lies behind `first` and is left out of its lists.
struct Maker {
    Dice& dice;
    const Pack& pack;
    std::vector<std::string> steps{"papers", "look", "openings", "share", "day", "readings", "watcher"};
    std::vector<std::string> numbers{"look.depth", "share.part", "share.share", "readings.fresh", "readings.set.gas"};
    std::vector<std::string> choices{"papers.held", "openings.table.state", "day.wind"};
    std::vector<std::string> signatures{"papers", "look", "look:second", "share", "readings"};

    Json numberOf(const std::string& fact, std::int64_t low)
    {
        const quantity::Dimension dimension = pack.facts[pack.fact(fact)].dimension;
        if (dimension == quantity::Dimension::Number) {
            return Json(low);
        }
        return Json(std::to_string(low)
            + (dimension == quantity::Dimension::Length             ? " mm"
                    : dimension == quantity::Dimension::VolumeShare ? " %"
                                                                    : " %LEL"));
    }

    Json leaf(bool negated)
    {
        switch (upTo(dice, negated ? 9 : 13)) {
        case 0:
        case 1:
            return object({{"op", "passed"}, {"step", Json(pick(dice, steps))}});
        case 2:
            return object({{"op", "failed"}, {"step", Json(pick(dice, steps))}});
        case 3: {
            const std::string fact = pick(dice, choices);
            return object({{"op", "is"}, {"fact", Json(fact)}, {"one_of", someOf(dice, pack.facts[pack.fact(fact)].options)}});
        }
        case 4: {
            const std::string fact = pick(dice, numbers);
            const char* op = oneIn(dice, 2) ? "at_most" : "at_least";
            return object({{"op", op}, {"fact", Json(fact)}, {"value", numberOf(fact, static_cast<std::int64_t>(upTo(dice, 6)))}});
        }
        case 5: {
            const std::string fact = pick(dice, numbers);
            const auto low = static_cast<std::int64_t>(upTo(dice, 4));
            return object({{"op", "between"}, {"fact", Json(fact)}, {"low", numberOf(fact, low)}, {"high", numberOf(fact, low + 2)}});
        }
        case 6:
            return object({{"op", "different_people"}, {"a", Json(pick(dice, signatures))}, {"b", Json(pick(dice, signatures))}});
        case 7:
            return object({{"op", "after"}, {"step", Json(pick(dice, steps))}, {"knows", Json(pick(dice, steps))}});
        case 8:
            return object({{"op", "given"}, {"hold_point", oneIn(dice, 2) ? "first" : "leaves"}});
        case 9:
            return object({{"op", "not_by"}, {"signature", Json(pick(dice, signatures))}, {"actor", oneIn(dice, 2) ? "by" : "with"}});
        case 10:
            return oneIn(dice, 2)
                ? object({{"op", "role"}, {"signature", Json(pick(dice, signatures))}, {"one_of", someOf(dice, pack.roles)}})
                : object({{"op", "role"}, {"actor", oneIn(dice, 2) ? "by" : "with"}, {"one_of", someOf(dice, pack.roles)}});
        case 11:
            return object({{"op", "not_since"}, {"step", Json(pick(dice, steps))}, {"event", Json(pick(dice, pack.events).id)}});
        default:
            return object({{"op", "clear"}, {"stop", Json(pick(dice, pack.stops).id)}});
        }
    }

    Json tree(int depth, bool negated)
    {
        if (depth <= 1 || oneIn(dice, 3)) {
            return leaf(negated);
        }
        const std::size_t shape = upTo(dice, 4);
        if (shape == 3) {
            return object({{"op", "not"}, {"of", tree(depth - 1, true)}});
        }
        Json of = Json::array();
        const std::size_t width = 1 + upTo(dice, 4);
        for (std::size_t i = 0; i < width; ++i) {
            of.items.push_back(tree(depth - 1, negated));
        }
        Json out = object({{"op", shape == 0 ? "all" : shape == 1 ? "any" : "k_of"}, {"of", of}});
        if (shape == 2) {
            out.set("k", static_cast<std::int64_t>(1 + upTo(dice, width)));
        }
        return out;
    }

    Json rules(const std::string& prefix, std::size_t count, bool stop, Json& strings)
    {
        Json out = Json::array();
        for (std::size_t i = 0; i < count; ++i) {
            const std::string id = prefix + std::to_string(i);
            strings.set("rule." + id, id).set("rule." + id + ".lift", id);
            // A leaf that an event could break may stand only where it is asked to hold.
            Json when = stop ? object({{"op", "not"}, {"of", tree(4, false)}}) : tree(5, false);
            out.items.push_back(object({{"id", Json(id)}, {"barrier", "people"}, {"when", std::move(when)},
                {"source", Json::array({object({{"mark", "proposal"}})})}}));
        }
        return out;
    }
};

} // namespace

Json object(std::initializer_list<std::pair<const char*, Json>> all)
{
    Json out = Json::object();
    for (const auto& [key, value] : all) {
        out.set(key, value);
    }
    return out;
}

RandomPack makePack(Dice& dice)
{
    static const PackSource small = packFiles("small");
    static const Pack known = loaded(small);
    PackSource source = small;
    Json strings = *canon::read(source.files.at("strings.en.json"), canon::Dialect::Subset);
    std::string& file = source.files.at("hold-points/10-first.json");
    Json first = *canon::read(file, canon::Dialect::Subset);
    Maker maker{dice, known};
    first.set("at_giving", maker.rules("g", 1 + upTo(dice, 3), false, strings));
    first.set("require", maker.rules("r", 1 + upTo(dice, 3), false, strings));
    first.set("stop", maker.rules("s", upTo(dice, 3), true, strings));
    file = canon::write(first, false);
    source.files.at("strings.en.json") = canon::write(strings, false);
    return {loaded(source), std::move(first)};
}

Lack someLack(Dice& dice, std::size_t one_in) { return oneIn(dice, one_in) ? static_cast<Lack>(1 + upTo(dice, 12)) : Lack::None; }

Evidence makeEvidence(Dice& dice, const Pack& pack)
{
    Evidence evidence = allProven(pack);
    evidence.now_ms = 1000;
    const std::size_t bad = pick(dice, std::vector<std::size_t>{2, 5, 20, 1'000'000}); // from mostly bad to all good
    const auto ends = [&] {
        return oneIn(dice, 3) ? kNever : static_cast<std::int64_t>(1000 + (oneIn(dice, 9) ? 0 : 1 + upTo(dice, 9)) * 100);
    };
    for (std::size_t i = 0; i < pack.facts.size(); ++i) {
        Held& one = evidence.facts[i];
        one.lack = someLack(dice, bad);
        one.lapses_ms = ends();
        const Fact& fact = pack.facts[i];
        if (!fact.options.empty()) {
            one.count = static_cast<std::int64_t>(1 + upTo(dice, (std::size_t{1} << fact.options.size()) - 1));
            one.least = one.count;
        } else {
            const std::int64_t unit = fact.unit == "100nm" ? 10'000 : fact.unit == "0.1%LEL" ? 10 : fact.unit == "ppm" ? 10'000 : 1;
            one.least = static_cast<std::int64_t>(upTo(dice, 6)) * unit;
            one.count = one.least + static_cast<std::int64_t>(upTo(dice, 3)) * unit;
        }
    }
    for (StepHeld& one : evidence.steps) {
        one.lack = someLack(dice, bad);
        one.passed = oneIn(dice, bad) ? static_cast<Truth>(upTo(dice, 2)) : Truth::True;
        one.person = oneIn(dice, 9) ? kNobody : static_cast<std::uint16_t>(upTo(dice, 4));
        one.second = oneIn(dice, 9) ? kNobody : static_cast<std::uint16_t>(upTo(dice, 4));
        one.role = static_cast<std::uint16_t>(oneIn(dice, 9) ? 0xffff : upTo(dice, pack.roles.size()));
        one.second_role = static_cast<std::uint16_t>(oneIn(dice, 9) ? 0xffff : upTo(dice, pack.roles.size()));
        one.knows = dice();
        one.lapses_ms = ends();
    }
    for (StopHeld& one : evidence.stops) {
        one.raised = oneIn(dice, bad) ? 3 : kNoEntry;
    }
    for (ReleaseHeld& one : evidence.releases) {
        one.confirmed = oneIn(dice, 2) ? 7 : kNoEntry;
        one.at_giving = static_cast<Truth>(upTo(dice, 3));
        one.withdrawn = oneIn(dice, 4);
    }
    for (std::uint64_t& bits : evidence.event_after) {
        bits = oneIn(dice, bad) ? dice() : 0;
    }
    evidence.whole = !oneIn(dice, bad);
    evidence.clock_trusted = !oneIn(dice, bad);
    return evidence;
}

Actors makeActors(Dice& dice)
{
    Actors actors;
    if (!oneIn(dice, 4)) {
        actors.by = ActorHeld{static_cast<std::uint16_t>(oneIn(dice, 9) ? kNobody : upTo(dice, 4)), dice() & 15U};
    }
    if (!oneIn(dice, 4)) {
        actors.with = ActorHeld{static_cast<std::uint16_t>(oneIn(dice, 9) ? kNobody : upTo(dice, 4)), dice() & 15U};
    }
    return actors;
}

} // namespace brimful::test
