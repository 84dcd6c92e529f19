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
    Index step;

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
            loading.fail(LoadFault::WrongType, spot, "{\"fact\"}, {\"value\"}, {\"parameter\"} or {\"instrument\"}");
            return;
        }
        if (const Json* fact = spot.json->find("fact")) {
            const Index index = loading.pack.fact(fact->text);
            if (index == kNone) {
                loading.fail(LoadFault::UnknownName, spot.at("fact"), "fact", fact->text);
                return;
            }
            const Fact& named = loading.pack.facts[index];
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

void Loading::derivations()
{
    const auto spots = derived_spots;
    for (const auto& [index, spot] : spots) {
        Fact& fact = pack.facts[index];
        if (fact.kind == FactKind::Echo || spot.at("equals").exists()) {
            const Spot of = fact.kind == FactKind::Echo && fact.compares == kNone ? spot.at("of") : spot.at("equals");
            const std::string name = text(of, true);
            fact.echo_of = pack.fact(name);
            if (fact.echo_of == kNone) {
                fail(LoadFault::UnknownName, of, "step.fact", name);
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
        } else if (fact.options.empty() && output->dimension != fact.dimension) {
            fail(LoadFault::BadUnit, spot.at("unit"), std::string(quantity::dimensionName(output->dimension)), fact.unit);
        }
        const Spot inputs = spot.at("inputs");
        Template{*this, fact.step}.object(inputs, figure->inputs);
        if (inputs.exists()) {
            derivation.inputs = *inputs.json;
        }
        fact.derived = std::move(derivation);
    }
}

} // namespace brimful::rules
