// Conditions: JSON trees into the pack's one flat array.
#include "core/rules/loading.h"

#include <algorithm>
#include <array>

namespace brimful::rules {

using canon::Type;

namespace {

constexpr int kDeepest = 8;
constexpr std::size_t kMostNodes = 256;

constexpr std::array<std::string_view, 17> kOps{"all", "any", "not", "k_of", "passed", "failed", "is", "at_most", "at_least", "between",
    "different_people", "not_by", "role", "after", "not_since", "clear", "given"};

template <class List> std::vector<std::string> namesOf(const List& list)
{
    std::vector<std::string> names;
    names.reserve(list.size());
    for (const auto& one : list) {
        names.push_back(one.id);
    }
    return names;
}

} // namespace

template <class List> Index Loading::named(const List& known, const Spot& spot, const char* what)
{
    const std::string name = text(spot, true);
    for (std::size_t i = 0; i < known.size(); ++i) {
        if (known[i].id == name) {
            return static_cast<Index>(i);
        }
    }
    if (!name.empty()) {
        fail(LoadFault::UnknownName, spot, what, name, nearestName(name, namesOf(known)));
    }
    return kNone;
}

SignatureRef Loading::signature(const Spot& spot)
{
    std::string name = text(spot, true);
    constexpr std::string_view kSecond = ":second";
    const bool second = name.ends_with(kSecond);
    if (second) {
        name.resize(name.size() - kSecond.size());
    }
    const Index step = pack.step(name);
    if (step == kNone) {
        fail(LoadFault::UnknownName, spot, "step or step:second", name, nearestName(name, namesOf(pack.steps)));
        return 0;
    }
    if (second && pack.steps[step].with.empty()) {
        fail(LoadFault::UnknownName, spot, "a step with a second person", name);
    }
    return static_cast<SignatureRef>(step * 2 + (second ? 1 : 0));
}

bool Loading::leaf(const Spot& spot, Condition& node)
{
    const auto actor = [&](const Spot& at) {
        const std::string name = text(at, true);
        if (name != "by" && name != "with") {
            fail(LoadFault::UnknownName, at, "by, with", name);
        }
        return static_cast<std::uint16_t>(name == "with" ? Actor::With : Actor::By);
    };
    const auto of = [&](Index index) {
        node.a = index == kNone ? Index{0} : index;
        return index != kNone;
    };
    switch (node.op) {
    case Op::Passed:
    case Op::Failed:
        keys(spot, {"op", "step"});
        return of(named(pack.steps, spot.at("step"), "step"));
    case Op::Is: {
        keys(spot, {"op", "fact", "one_of"});
        if (!of(named(pack.facts, spot.at("fact"), "fact"))) {
            return false;
        }
        const Fact& fact = pack.facts[node.a];
        if (fact.options.empty()) {
            fail(LoadFault::WrongType, spot.at("fact"), "choice", fact.id);
            return false;
        }
        const auto options = indices(spot.at("one_of"), fact.options, "option");
        for (const Index option : options) {
            node.low |= std::int64_t{1} << option;
        }
        if (options.empty()) {
            fail(LoadFault::MissingKey, spot.at("one_of"));
        }
        return true;
    }
    case Op::AtMost:
    case Op::AtLeast:
    case Op::Between: {
        keys(spot,
            node.op == Op::Between ? std::initializer_list<std::string_view>{"op", "fact", "low", "high"}
                                   : std::initializer_list<std::string_view>{"op", "fact", "value"});
        if (!of(named(pack.facts, spot.at("fact"), "fact"))) {
            return false;
        }
        const Fact& fact = pack.facts[node.a];
        if (fact.unit.empty()) {
            fail(LoadFault::WrongType, spot.at("fact"), "quantity or count", fact.id);
            return false;
        }
        const auto read = [&](std::string_view key) {
            const Spot value = spot.at(key);
            if (!value.exists()) {
                fail(LoadFault::MissingKey, value);
            }
            return count(value, fact.dimension, fact.unit).value_or(0);
        };
        node.low = node.op == Op::AtMost ? 0 : read(node.op == Op::Between ? "low" : "value");
        node.high = node.op == Op::AtLeast ? 0 : read(node.op == Op::Between ? "high" : "value");
        return true;
    }
    case Op::DifferentPeople:
        keys(spot, {"op", "a", "b"});
        node.a = signature(spot.at("a"));
        node.b = signature(spot.at("b"));
        return true;
    case Op::NotBy:
        keys(spot, {"op", "signature", "actor"});
        node.a = signature(spot.at("signature"));
        node.b = actor(spot.at("actor"));
        return true;
    case Op::HasRole:
        keys(spot, {"op", "signature", "actor", "one_of"});
        if (spot.at("actor").exists()) {
            node.a = actor(spot.at("actor"));
            node.b = 1;
        } else {
            node.a = signature(spot.at("signature"));
        }
        for (const Index role : indices(spot.at("one_of"), pack.roles, "role")) {
            node.low |= std::int64_t{1} << role;
        }
        if (node.low == 0) {
            fail(LoadFault::MissingKey, spot.at("one_of"), "role");
        }
        return true;
    case Op::After:
        keys(spot, {"op", "step", "knows"});
        node.b = named(pack.steps, spot.at("knows"), "step");
        return of(named(pack.steps, spot.at("step"), "step")) && node.b != kNone;
    case Op::NotSince:
        keys(spot, {"op", "step", "event"});
        node.b = named(pack.events, spot.at("event"), "event");
        return of(named(pack.steps, spot.at("step"), "step")) && node.b != kNone;
    case Op::Clear:
        keys(spot, {"op", "stop"});
        return of(named(pack.stops, spot.at("stop"), "stop"));
    case Op::Given:
        keys(spot, {"op", "hold_point"});
        return of(named(pack.hold_points, spot.at("hold_point"), "hold point"));
    case Op::All:
    case Op::Any:
    case Op::Not:
    case Op::KOf:
        break;
    }
    return false;
}

// What is accepted in a step depends on that step's own values, and at most on who signed others.
void Loading::onlyOwn(const Spot& spot, Index own_step, const Condition& node)
{
    switch (node.op) {
    case Op::Is:
    case Op::AtMost:
    case Op::AtLeast:
    case Op::Between:
        if (pack.facts[node.a].step != own_step) {
            fail(LoadFault::UnknownName, spot.at("fact"), "fact of " + pack.steps[own_step].id, pack.facts[node.a].id);
        }
        return;
    case Op::All:
    case Op::Any:
    case Op::Not:
    case Op::KOf:
    case Op::DifferentPeople:
        return;
    case Op::Passed:
    case Op::Failed:
    case Op::NotBy:
    case Op::HasRole:
    case Op::After:
    case Op::NotSince:
    case Op::Clear:
    case Op::Given:
        fail(LoadFault::WrongType, spot.at("op"), "facts of its own step, different_people");
        return;
    }
}

bool Loading::node(const Spot& spot, Index own_step, int depth, std::size_t& nodes)
{
    if (!spot.exists() || !spot.json->is(Type::Object)) {
        fail(spot.exists() ? LoadFault::WrongType : LoadFault::MissingKey, spot, "condition");
        return false;
    }
    if (depth > kDeepest || ++nodes > kMostNodes) {
        fail(depth > kDeepest ? LoadFault::Depth : LoadFault::TooMany, spot, depth > kDeepest ? "8" : "256");
        return false;
    }
    const std::string op = text(spot.at("op"), true);
    const auto known = std::ranges::find(kOps, op);
    if (known == kOps.end()) {
        fail(LoadFault::UnknownName, spot.at("op"), "op", op, nearestName(op, std::vector<std::string>(kOps.begin(), kOps.end())));
        return false;
    }
    const std::size_t at = pack.conditions.size();
    pack.conditions.emplace_back();
    pack.conditions[at].op = static_cast<Op>(known - kOps.begin());
    pack.conditions[at].source = place(spot);
    bool good = true;
    switch (pack.conditions[at].op) {
    case Op::All:
    case Op::Any:
    case Op::KOf: {
        keys(spot,
            op == "k_of" ? std::initializer_list<std::string_view>{"op", "of", "k"} : std::initializer_list<std::string_view>{"op", "of"});
        const Spot of = spot.at("of");
        if (!of.exists() || !of.json->is(Type::Array) || of.json->items.empty()) {
            fail(LoadFault::MissingKey, of, "conditions");
            good = false;
            break;
        }
        for (std::size_t i = 0; i < of.json->items.size(); ++i) {
            good = node(of.at(i), own_step, depth + 1, nodes) && good;
        }
        if (pack.conditions[at].op == Op::KOf) {
            const std::int64_t k = spot.json->integerOf("k");
            if (k < 1 || k > static_cast<std::int64_t>(of.json->items.size())) {
                fail(LoadFault::WrongType, spot.at("k"), "1 to the number of conditions", std::to_string(k));
                good = false;
            }
            pack.conditions[at].low = k;
        }
        break;
    }
    case Op::Not:
        keys(spot, {"op", "of"});
        good = node(spot.at("of"), own_step, depth + 1, nodes);
        break;
    default: {
        Condition read = pack.conditions[at];
        good = leaf(spot, read);
        if (good && own_step != kNone) {
            onlyOwn(spot, own_step, read);
        }
        pack.conditions[at] = read;
        break;
    }
    }
    pack.conditions[at].size = static_cast<std::uint16_t>(pack.conditions.size() - at);
    return good;
}

Index Loading::condition(const Spot& spot, Index own_step)
{
    const auto start = static_cast<Index>(pack.conditions.size());
    std::size_t nodes = 0;
    if (!node(spot, own_step, 1, nodes) && pack.conditions.size() == start) {
        pack.conditions.emplace_back(); // an empty `all`; the errors stand
    }
    return start;
}

} // namespace brimful::rules
