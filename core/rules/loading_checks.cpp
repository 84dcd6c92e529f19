// What can only be checked once the whole pack is known: order of the journey, what an unsigned touch could grant,
// examples, and a string for every id.
#include "core/rules/loading.h"
#include "core/rules/standing.h"

#include "core/quantity/recorded.h"

#include <algorithm>
#include <charconv>

namespace brimful::rules {

namespace {

// Acts in the order in which they must be released: what a hold point lets happen may not be asked before it.
bool liesBehind(Act step, Act hold_point) { return hold_point >= Act::Open && step >= hold_point && step != Act::Paper; }

bool hasCycle(const Pack& pack, Index step, std::vector<int>& colour)
{
    colour[step] = 1;
    for (const Index need : pack.steps[step].needs) {
        if (colour[need] == 1 || (colour[need] == 0 && hasCycle(pack, need, colour))) {
            return true;
        }
    }
    colour[step] = 2;
    return false;
}

template <class Visit> void eachChild(const Pack& pack, Index at, const Visit& visit)
{
    const std::size_t end = std::size_t{at} + pack.conditions[at].size;
    for (std::size_t child = std::size_t{at} + 1; child < end; child += pack.conditions[child].size) {
        visit(static_cast<Index>(child));
    }
}

// Can a tree become True before what lies behind a hold point was done?
struct Reach {
    const Pack& pack;
    Act act;
    Index step{kNone}; // the first that stands in the way

    // The step's own act, and that of every step it must have known.
    [[nodiscard]] bool before(Index which)
    {
        const Step& one = pack.steps[which];
        const bool behind = one.talk_of == kNone && liesBehind(one.act, act);
        step = behind && step == kNone ? which : step;
        return !behind && std::ranges::all_of(one.needs, [&](Index need) { return before(need); });
    }

    [[nodiscard]] bool canBeTrue(Index at)
    {
        const Condition& node = pack.conditions[at];
        switch (node.op) {
        case Op::All:
        case Op::Any:
        case Op::KOf: {
            std::int64_t can = 0;
            std::int64_t all = 0;
            eachChild(pack, at, [&](Index child) {
                ++all;
                can += canBeTrue(child) ? 1 : 0;
            });
            return can >= (node.op == Op::All ? all : node.op == Op::Any ? 1 : node.low);
        }
        case Op::Passed:
        case Op::Failed:
        case Op::NotSince:
            return before(node.a);
        case Op::After: {
            const bool first = before(node.a);
            return before(node.b) && first;
        }
        case Op::Is:
        case Op::AtMost:
        case Op::AtLeast:
        case Op::Between:
            return before(pack.facts[node.a].step);
        case Op::DifferentPeople: {
            const bool first = before(static_cast<Index>(node.a / 2));
            return before(static_cast<Index>(node.b / 2)) && first;
        }
        case Op::NotBy:
            return before(static_cast<Index>(node.a / 2));
        case Op::HasRole:
            return node.b == 1 || before(static_cast<Index>(node.a / 2));
        case Op::Not: // False is reached through the same steps
        case Op::Clear:
        case Op::Given:
            return true;
        }
        return true;
    }
};

// The first leaf that an event could bring to what is wanted: an absence that is asked to be broken.
Index brokenBy(const Pack& pack, Index at, bool wanted)
{
    const Condition& node = pack.conditions[at];
    Index found = kNone;
    switch (node.op) {
    case Op::All:
    case Op::Any:
    case Op::KOf:
    case Op::Not:
        eachChild(
            pack, at, [&](Index child) { found = found != kNone ? found : brokenBy(pack, child, node.op == Op::Not ? !wanted : wanted); });
        return found;
    case Op::NotSince:
        return !wanted && pack.events[node.b].device_alone ? at : kNone;
    case Op::Clear: // whatever raises a stop only takes away
        return wanted ? kNone : at;
    case Op::Passed:
    case Op::Failed:
    case Op::Is:
    case Op::AtMost:
    case Op::AtLeast:
    case Op::Between:
    case Op::DifferentPeople:
    case Op::NotBy:
    case Op::HasRole:
    case Op::After:
    case Op::Given:
        return kNone;
    }
    return kNone;
}

// A fact held at its example; nothing for what has none.
std::optional<Held> exampleOf(const Fact& fact)
{
    Held held;
    held.lack = Lack::None;
    switch (fact.kind) {
    case FactKind::Choice: {
        const auto option = std::ranges::find(fact.options, fact.example);
        held.count = std::int64_t{1} << (option - fact.options.begin());
        break;
    }
    case FactKind::Quantity: {
        const auto recorded = quantity::record(fact.example, fact.dimension);
        held.count = recorded ? recorded->count : 0;
        break;
    }
    case FactKind::Count:
        std::from_chars(fact.example.data(), fact.example.data() + fact.example.size(), held.count);
        break;
    case FactKind::Text:
    case FactKind::Photo:
    case FactKind::Document:
    case FactKind::Echo:
    case FactKind::Person:
        held.count = 1;
        break;
    case FactKind::Derived:
    case FactKind::Tag:
        return std::nullopt;
    }
    held.least = held.count;
    return held;
}

} // namespace

void Loading::checkOrder()
{
    std::vector<int> colour(pack.steps.size(), 0);
    for (std::size_t i = 0; i < pack.steps.size(); ++i) {
        const auto index = static_cast<Index>(i);
        if (colour[i] == 0 && hasCycle(pack, index, colour)) {
            fail(LoadFault::Cycle, step_spots.at(index).at("needs"), {}, pack.steps[i].id);
            return; // what follows walks along the needs
        }
    }
    for (const HoldPoint& hold_point : pack.hold_points) {
        for (const auto* list : {&hold_point.at_giving, &hold_point.require}) {
            for (const Rule& rule : *list) {
                Reach reach{pack, hold_point.act};
                if (!reach.canBeTrue(rule.condition)) {
                    const Place& at = pack.places[rule.place];
                    errors.push_back(
                        {LoadFault::BehindItself, at.file, at.line, at.column, rule.id, hold_point.id, pack.steps[reach.step].id, {}});
                }
            }
        }
    }
}

void Loading::checkGrants()
{
    for (const HoldPoint& hold_point : pack.hold_points) {
        for (const auto* list : {&hold_point.at_giving, &hold_point.require, &hold_point.stop}) {
            for (const Rule& rule : *list) {
                const Index leaf = brokenBy(pack, rule.condition, list != &hold_point.stop);
                if (leaf != kNone) {
                    const Place& at = pack.places[pack.conditions[leaf].source];
                    errors.push_back({LoadFault::DeviceCanGrant, at.file, at.line, at.column, rule.id,
                        "an event that a touch alone records, or a stop, grants nothing", hold_point.id, {}});
                }
            }
        }
    }
}

void Loading::checkExamples()
{
    for (std::size_t i = 0; i < pack.steps.size(); ++i) {
        if (pack.steps[i].talk_of != kNone) {
            continue;
        }
        Evidence evidence;
        evidence.facts.resize(pack.facts.size());
        evidence.steps.resize(pack.steps.size());
        for (const Index fact : pack.steps[i].facts) {
            evidence.facts[fact] = exampleOf(pack.facts[fact]).value_or(Held{});
        }
        if (judge(std::span(pack.conditions).subspan(pack.steps[i].accept), evidence, {}).truth == Truth::False) {
            fail(LoadFault::NoExample, step_spots.at(static_cast<Index>(i)).at("accept"), "examples that are accepted", pack.steps[i].id);
        }
    }
}

void Loading::stringsOf(const Spot& spot, bool of_overlay)
{
    if (!spot.exists()) {
        return;
    }
    for (const canon::Member& member : spot.json->members) {
        std::string value = text(spot.at(member.key), true);
        const bool added = pack.strings.try_emplace(member.key, std::move(value)).second;
        if (!added && of_overlay) {
            fail(LoadFault::NotTightening, spot.at(member.key), "strings of its own rules only", member.key);
        }
    }
}

void Loading::checkStrings()
{
    const Spot whole = file("pack.json", true);
    const auto need = [&](const std::string& key) {
        if (!pack.strings.contains(key)) {
            fail(LoadFault::MissingString, Spot{nullptr, whole.file.substr(0, whole.file.find('/')) + "/strings.en.json", key}, key);
        }
    };
    for (const Step& step : pack.steps) {
        for (const Index index : step.facts) {
            const Fact& fact = pack.facts[index];
            if (step.talk_of == kNone) {
                need("fact." + fact.id);
            }
            for (std::size_t i = 0; fact.kind == FactKind::Choice && i < fact.options.size(); ++i) {
                need("option." + fact.id + "." + fact.options[i]);
            }
        }
        if (step.talk_of != kNone) {
            continue;
        }
        need("step." + step.id);
        need("step." + step.id + ".why");
        for (const Cannot& cannot : step.cannot) {
            need("cannot." + step.id + "." + cannot.id);
            need("cannot." + step.id + "." + cannot.id + ".then");
        }
        for (const std::string& caution : step.cautions) {
            need("caution." + caution);
        }
    }
    for (const HoldPoint& hold_point : pack.hold_points) {
        need("hold-point." + hold_point.id);
        need("hold-point." + hold_point.id + ".behind");
        for (const Question& question : hold_point.questions) {
            need("question." + hold_point.id + "." + question.id);
        }
        for (const auto* list : {&hold_point.at_giving, &hold_point.require, &hold_point.stop}) {
            for (const Rule& rule : *list) {
                need("rule." + rule.id);
                need("rule." + rule.id + ".lift");
            }
        }
    }
    for (const EventKind& event : pack.events) {
        need("event." + event.id);
        need("event." + event.id + ".said");
    }
    for (const StopKind& stop : pack.stops) {
        need("stop." + stop.id);
    }
    for (const Parameter& parameter : pack.parameters) {
        need("parameter." + parameter.id);
    }
    for (const auto& [prefix, list] :
        {std::pair{"role.", &pack.roles}, std::pair{"stage.", &pack.stages}, std::pair{"barrier.", &pack.barriers}}) {
        for (const std::string& id : *list) {
            need(prefix + id);
        }
    }
}

void Loading::check()
{
    const Spot whole = file("pack.json", true);
    if (pack.steps.size() > 64) {
        fail(LoadFault::TooMany, whole, "64 steps, talks included", std::to_string(pack.steps.size()));
        return;
    }
    if (pack.conditions.size() >= kNone || pack.places.size() >= kNone) {
        fail(LoadFault::TooMany, whole, "conditions");
        return;
    }
    for (const HoldPoint& hold_point : pack.hold_points) {
        std::set<std::string> ids;
        for (const auto* list : {&hold_point.at_giving, &hold_point.require, &hold_point.stop}) {
            for (const Rule& rule : *list) {
                if (!ids.insert(rule.id).second) {
                    const Place& at = pack.places[rule.place];
                    errors.push_back({LoadFault::DuplicateId, at.file, at.line, at.column, hold_point.id, {}, rule.id, {}});
                }
            }
        }
    }
    checkOrder();
    checkGrants();
    if (pack.overlays.empty()) { // an overlay may ask for more than an example shows
        checkExamples();
    }
    checkStrings();
}

} // namespace brimful::rules
