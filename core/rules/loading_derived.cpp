// Derived facts and echoes: what they are made from, checked against the figures' own declarations.
#include "core/figure/figure.h"
#include "core/quantity/recorded.h"
#include "core/rules/loading.h"

#include <algorithm>

namespace brimful::rules {

using canon::Json;
using canon::Type;

namespace {

const figure::Input* inputNamed(std::span<const figure::Input> inputs, std::string_view key)
{
    const auto found = std::ranges::find(inputs, key, &figure::Input::key);
    return found == inputs.end() ? nullptr : &*found;
}

bool isLeaf(const Json& json)
{
    return json.is(Type::Object)
        && (json.find("fact") != nullptr || json.find("value") != nullptr || json.find("parameter") != nullptr
            || json.find("instrument") != nullptr || json.find("rows") != nullptr);
}

// Walks an input template beside the figure's declaration.
struct Template {
    Loading& loading;
    const Fact& of;
    Index own; // its index

    void object(const Spot& spot, std::span<const figure::Input> inputs) const
    {
        if (!spot.exists() || !spot.json->is(Type::Object)) {
            loading.fail(LoadFault::WrongType, spot, "object");
            return;
        }
        for (const canon::Member& member : spot.json->members) {
            const figure::Input* input = inputNamed(inputs, member.key);
            if (input == nullptr) {
                loading.fail(LoadFault::UnknownKey, spot.at(member.key), "input of the figure", member.key);
                continue;
            }
            value(spot.at(member.key), *input);
        }
        for (const figure::Input& input : inputs) {
            if (input.required && spot.json->find(input.key) == nullptr) {
                loading.fail(LoadFault::MissingKey, spot.at(input.key), std::string(input.key));
            }
        }
    }

    void value(const Spot& spot, const figure::Input& input) const
    {
        if (input.kind == figure::InputKind::Object && !isLeaf(*spot.json)) {
            object(spot, input.inside);
            return;
        }
        if (input.kind == figure::InputKind::List) {
            rows(spot, input);
            return;
        }
        if (!isLeaf(*spot.json)) {
            loading.fail(LoadFault::WrongType, spot, R"({"fact"}, {"value"}, {"parameter"} or {"instrument"})");
            return;
        }
        if (const Json* fact = spot.json->find("fact")) {
            const Index index = loading.pack.fact(fact->text);
            if (index == kNone) {
                loading.fail(LoadFault::UnknownName, spot.at("fact"), "fact", fact->text);
                return;
            }
            const Fact& named = loading.pack.facts[index];
            const bool same_row = named.reg == kNone || named.reg == of.reg;
            if (!same_row) {
                loading.fail(LoadFault::UnknownName, spot.at("fact"), "a fact, or a column of the same row", fact->text);
            }
            // Steps are valued in the pack's order, and a step's own facts in theirs: columns, then the rest.
            const bool derived_column = named.kind == FactKind::Derived && named.step == of.step && (named.reg != kNone || index >= own);
            if (named.step > of.step || derived_column) {
                loading.fail(LoadFault::Cycle, spot.at("fact"), "a fact recorded before it", fact->text);
            }
            const bool measured = named.kind == FactKind::Quantity || (named.kind == FactKind::Derived && !named.unit.empty());
            if (input.kind == figure::InputKind::Quantity && measured && named.dimension != input.dimension) {
                loading.fail(LoadFault::BadUnit, spot, std::string(quantity::dimensionName(input.dimension)), named.unit);
            }
        }
    }

    void rows(const Spot& spot, const figure::Input& input) const
    {
        loading.keys(spot, {"rows", "as"});
        const std::string name = loading.text(spot.at("rows"), true);
        const Index table = loading.pack.registerOf(name);
        if (table == kNone) {
            loading.fail(LoadFault::UnknownName, spot.at("rows"), "step.register", name);
            return;
        }
        if (loading.pack.registers[table].step > of.step) {
            loading.fail(LoadFault::Cycle, spot.at("rows"), "a register recorded before it", name);
        }
        const Spot as = spot.at("as");
        if (!as.exists() || !as.json->is(Type::Object)) {
            loading.fail(LoadFault::MissingKey, as);
            return;
        }
        for (const canon::Member& member : as.json->members) {
            const Spot one = as.at(member.key);
            if (inputNamed(input.inside, member.key) == nullptr) {
                loading.fail(LoadFault::UnknownKey, one, "input of the figure", member.key);
            }
            if (const Json* column = one.json->find("column"); column != nullptr && column->text != "name") {
                std::string id = loading.pack.registers[table].id;
                id.append(".").append(column->text);
                if (loading.pack.fact(id) == kNone) {
                    loading.fail(LoadFault::UnknownName, one.at("column"), "column", column->text);
                }
            }
        }
    }
};

} // namespace

// An echo repeats a text or a choice; a compared question is of the same kind and unit as what was recorded.
void Loading::comparable(const Spot& spot, const Fact& asked, const Fact& recorded, bool echo)
{
    const auto measured = [](const Fact& fact) { return !fact.unit.empty(); };
    const bool words = recorded.kind == FactKind::Text || recorded.kind == FactKind::Choice;
    const bool alike = asked.kind == FactKind::Choice ? !recorded.options.empty() : measured(asked) && measured(recorded);
    if (recorded.step > asked.step) {
        fail(LoadFault::Cycle, spot, "a fact recorded before it", recorded.id);
    } else if (echo ? !words || recorded.reg != kNone : !alike) {
        fail(LoadFault::WrongType, spot, echo ? "text or choice" : "a fact of the same kind", recorded.id);
    } else if (!echo && measured(asked) && asked.dimension != recorded.dimension) {
        fail(LoadFault::BadUnit, spot, asked.unit, recorded.unit);
    } else if (!echo && asked.kind == FactKind::Choice) {
        for (const std::string& option : asked.options) {
            if (std::ranges::find(recorded.options, option) == recorded.options.end()) {
                fail(LoadFault::UnknownName, spot, "option of " + recorded.id, option, nearestName(option, recorded.options));
            }
        }
    }
}

void Loading::derivations()
{
    const auto spots = derived_spots;
    for (const auto& [index, spot] : spots) {
        Fact& fact = pack.facts[index];
        if (fact.kind == FactKind::Echo || spot.at("equals").exists()) {
            const Spot of = fact.kind == FactKind::Echo && fact.compares == kNone ? spot.at("of") : spot.at("equals");
            const std::string name = text(of, true);
            const bool echo = fact.kind == FactKind::Echo && fact.compares == kNone;
            if (const Index target = pack.fact(name); target == kNone) {
                fail(LoadFault::UnknownName, of, "step.fact", name);
            } else if (echo || fact.compares != kNone) { // a compared question keeps its own kind
                fact.echo_of = target;
                comparable(of, echo ? fact : pack.facts[fact.compares], pack.facts[target], echo);
            }
            continue;
        }
        Derivation derivation;
        derivation.figure = text(spot.at("figure"), true);
        derivation.version = static_cast<std::uint16_t>(count(spot.at("version"), quantity::Dimension::Number, "1").value_or(0));
        derivation.output = text(spot.at("output"), true);
        const std::string round = text(spot.at("round"), false);
        derivation.round_up = round != "down";
        const std::string warnings = text(spot.at("warnings"), true);
        derivation.warnings_unusable = warnings != "noted";
        if (warnings != "unusable" && warnings != "noted") {
            fail(LoadFault::UnknownName, spot.at("warnings"), "unusable, noted", warnings);
        }
        if (fact.options.empty() && round != "up" && round != "down") {
            fail(LoadFault::MissingKey, spot.at("round"), "up, down");
        }
        const figure::Figure* figure = figure::byName(derivation.figure);
        if (figure == nullptr) {
            std::vector<std::string> known;
            for (const figure::Figure& one : figure::catalogue()) {
                known.emplace_back(one.name);
            }
            fail(LoadFault::UnknownFigure, spot.at("figure"), "figure", derivation.figure, nearestName(derivation.figure, known));
            continue;
        }
        if (figure->version != derivation.version) {
            fail(LoadFault::BadVersion, spot.at("version"), std::to_string(figure->version), std::to_string(derivation.version));
        }
        const auto output = std::ranges::find(figure->outputs, derivation.output, &figure::Output::key);
        if (output == figure->outputs.end()) {
            fail(LoadFault::UnknownName, spot.at("output"), "output of the figure", derivation.output);
        } else if (fact.options.empty() ? output->kind != figure::OutputKind::Number
                                        : output->kind != figure::OutputKind::Text && output->kind != figure::OutputKind::Flag) {
            fail(LoadFault::WrongType, spot.at("output"), fact.options.empty() ? "number" : "text or flag", derivation.output);
        } else if (fact.options.empty() && output->dimension != fact.dimension) {
            fail(LoadFault::BadUnit, spot.at("unit"), std::string(quantity::dimensionName(output->dimension)), fact.unit);
        }
        const Spot inputs = spot.at("inputs");
        Template{*this, fact, index}.object(inputs, figure->inputs);
        if (inputs.exists()) {
            derivation.inputs = *inputs.json;
        }
        fact.derived = std::move(derivation);
    }
}

} // namespace brimful::rules
