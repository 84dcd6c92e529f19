// Steps and their facts. Conditions come after all steps are known, since they name each other.
#include "core/figure/figure.h"
#include "core/quantity/recorded.h"
#include "core/rules/loading.h"

#include <algorithm>
#include <array>

namespace brimful::rules {

using canon::Type;

namespace {

constexpr std::array<std::pair<std::string_view, FactKind>, 8> kKinds{
    {{"choice", FactKind::Choice}, {"quantity", FactKind::Quantity}, {"count", FactKind::Count}, {"text", FactKind::Text},
        {"photo", FactKind::Photo}, {"document", FactKind::Document}, {"echo", FactKind::Echo}, {"person", FactKind::Person}}};

constexpr std::array<std::pair<std::string_view, Act>, 6> kActs{{{"paper", Act::Paper}, {"look", Act::Look}, {"open", Act::Open},
    {"fill", Act::Fill}, {"cold-cut", Act::ColdCut}, {"heat", Act::Heat}}};

template <class List> std::string listed(const List& list)
{
    std::string out;
    for (const auto& one : list) {
        out += (out.empty() ? "" : ", ") + std::string(one.first);
    }
    return out;
}

} // namespace

Index Loading::fact(const Spot& spot, Index step, const std::string& id, const std::string& key, Index reg, Asked where)
{
    Fact out;
    out.id = id;
    out.key = key;
    out.step = step;
    out.reg = reg;
    const std::string kind = text(spot.at("kind"), true);
    out.optional = yes(spot.at("optional"));
    const Spot example = spot.at("example");
    if (example.exists()) {
        out.example = example.json->is(Type::Integer) ? std::to_string(example.json->integer) : text(example, true);
    }
    if (kind == "derived" && where == Asked::AtHoldPoint) {
        fail(LoadFault::WrongType, spot.at("kind"), "choice, quantity, count, text, echo, person", kind);
    }
    if (kind == "derived") {
        keys(spot, {"kind", "figure", "version", "inputs", "output", "unit", "options", "round", "warnings"});
        out.kind = FactKind::Derived;
        // Conditions speak of its unit or options; where it comes from is checked once all facts are known.
        if (spot.at("options").exists()) {
            out.options = words(spot.at("options"), true);
        } else {
            out.unit = text(spot.at("unit"), true);
            const auto dimension = quantity::recordedDimension(out.unit);
            if (!dimension) {
                fail(LoadFault::BadUnit, spot.at("unit"), "recorded unit", out.unit);
            }
            out.dimension = dimension.value_or(quantity::Dimension::Number);
        }
        derived_spots.emplace_back(static_cast<Index>(pack.facts.size()), spot);
        pack.facts.push_back(std::move(out));
        return static_cast<Index>(pack.facts.size() - 1);
    }
    const auto known = std::ranges::find(kKinds, kind, &std::pair<std::string_view, FactKind>::first);
    if (known == kKinds.end()) {
        fail(LoadFault::UnknownName, spot.at("kind"), listed(kKinds) + ", register, derived", kind);
        pack.facts.push_back(std::move(out));
        return static_cast<Index>(pack.facts.size() - 1);
    }
    out.kind = known->second;
    const bool equals = spot.at("equals").exists();
    const bool question = where == Asked::AtHoldPoint;
    if (equals && !question) {
        fail(LoadFault::UnknownKey, spot.at("equals"), "only in a question", "equals");
    }
    const bool file = out.kind == FactKind::Photo || out.kind == FactKind::Document;
    if (question && file) {
        fail(LoadFault::WrongType, spot.at("kind"), "choice, quantity, count, text, echo, person", kind);
    }
    switch (out.kind) {
    case FactKind::Choice:
        keys(spot, {"kind", "options", "optional", "example", "equals"});
        out.options = words(spot.at("options"), true);
        if (out.options.size() > 62) {
            fail(LoadFault::TooMany, spot.at("options"), "62");
        }
        if (!out.example.empty() && std::ranges::find(out.options, out.example) == out.options.end()) {
            fail(LoadFault::NoExample, example, "option", out.example, nearestName(out.example, out.options));
        }
        break;
    case FactKind::Quantity: {
        keys(spot, {"kind", "unit", "low", "high", "varies", "optional", "example", "equals"});
        out.unit = text(spot.at("unit"), true);
        const auto dimension = quantity::recordedDimension(out.unit);
        if (!dimension) {
            fail(LoadFault::BadUnit, spot.at("unit"), "100nm, mL, g, Pa, 0.01K, s, ppm, 0.1%LEL, 0.001deg, ...", out.unit);
            break;
        }
        out.dimension = *dimension;
        out.plausible_low = count(spot.at("low"), *dimension, out.unit);
        out.plausible_high = count(spot.at("high"), *dimension, out.unit);
        out.varies = yes(spot.at("varies"));
        // No gas and the oxygen of fresh air are the right answer every time.
        const bool gas = *dimension == quantity::Dimension::LimitShare || *dimension == quantity::Dimension::VolumeShare;
        if (out.varies && (gas || question || reg != kNone)) {
            fail(LoadFault::WrongType, spot.at("varies"), "a quantity of a step, no gas, no oxygen, no column", id);
        }
        if (!out.example.empty() && !quantity::record(out.example, *dimension)) {
            fail(LoadFault::NoExample, example, std::string(quantity::dimensionName(*dimension)), out.example);
        }
        break;
    }
    case FactKind::Count:
        keys(spot, {"kind", "low", "high", "optional", "example", "equals"});
        out.unit = "1";
        out.plausible_low = count(spot.at("low"), quantity::Dimension::Number, "1");
        out.plausible_high = count(spot.at("high"), quantity::Dimension::Number, "1");
        if (example.exists() && !example.json->is(Type::Integer)) {
            fail(LoadFault::NoExample, example, "integer", out.example);
        }
        break;
    case FactKind::Echo:
        keys(spot, {"kind", "of", "last", "optional", "example"});
        out.options = {"equal", "differs"};
        out.echo_last = static_cast<int>(count(spot.at("last"), quantity::Dimension::Number, "1").value_or(0));
        derived_spots.emplace_back(static_cast<Index>(pack.facts.size()), spot);
        break;
    case FactKind::Person:
        keys(spot, {"kind", "exclusive", "optional", "example"});
        out.exclusive = yes(spot.at("exclusive"));
        break;
    case FactKind::Text:
    case FactKind::Photo:
    case FactKind::Document:
    case FactKind::Derived:
    case FactKind::Tag:
        keys(spot, {"kind", "optional", "example"});
        break;
    }
    const bool wants_example =
        out.kind == FactKind::Choice || out.kind == FactKind::Quantity || out.kind == FactKind::Count || out.kind == FactKind::Text;
    if (wants_example && out.example.empty()) {
        fail(LoadFault::NoExample, spot.at("example"));
    }
    if (equals) {
        derived_spots.emplace_back(static_cast<Index>(pack.facts.size()), spot);
    }
    pack.facts.push_back(std::move(out));
    return static_cast<Index>(pack.facts.size() - 1);
}

void Loading::registerOf(const Spot& spot, Index step, const std::string& id, const std::string& key)
{
    keys(spot, {"kind", "members", "members_from", "defines", "columns", "within"});
    Register table;
    table.id = id;
    table.key = key;
    table.step = step;
    table.members = words(spot.at("members"), false);
    table.defines = yes(spot.at("defines"));
    table.within_ms = duration(spot.at("within"));
    const auto index = static_cast<Index>(pack.registers.size());
    pack.registers.push_back(table);
    const Spot columns = spot.at("columns");
    if (!columns.exists() || !columns.json->is(Type::Object)) {
        fail(LoadFault::MissingKey, columns);
        return;
    }
    for (const canon::Member& member : columns.json->members) {
        std::string column_id = id;
        column_id.append(".").append(member.key);
        const Index column = fact(columns.at(member.key), step, column_id, member.key, index);
        pack.registers[index].columns.push_back(column);
        pack.steps[step].facts.push_back(column);
    }
    if (!table.defines && table.members.empty() && !spot.at("members_from").exists()) {
        fail(LoadFault::MissingKey, spot.at("members"), "members, members_from or defines");
    }
}

void Loading::steps()
{
    // In the order of the journey, then of the file names: "10-identity.json" comes before "20-what-it-was.json".
    std::vector<Spot> found;
    for (const std::string& name : filesUnder("steps")) {
        found.push_back(file(name, true));
    }
    for (std::size_t stage = 0; stage < pack.stages.size(); ++stage) {
        for (const Spot& spot : found) {
            if (spot.json->textOf("stage") != pack.stages[stage]) {
                continue;
            }
            keys(spot,
                {"id", "stage", "act", "by", "with", "scope", "when", "needs", "life", "voided_by", "takes", "takes_for", "begun_by",
                    "instrument", "on_fail", "facts", "accept", "cannot", "cautions", "clauses", "source"});
            Step step;
            step.id = word(spot.at("id"), true);
            step.stage = static_cast<Index>(stage);
            if (pack.step(step.id) != kNone) {
                fail(LoadFault::DuplicateId, spot.at("id"), {}, step.id);
            }
            step_spots.emplace(static_cast<Index>(pack.steps.size()), spot);
            pack.steps.push_back(std::move(step));
        }
    }
    for (const Spot& spot : found) {
        const std::string stage(spot.json->textOf("stage"));
        if (std::ranges::find(pack.stages, stage) == pack.stages.end()) {
            fail(LoadFault::UnknownName, spot.at("stage"), "stage", stage, nearestName(stage, pack.stages));
        }
    }
}

void Loading::stepBodies()
{
    std::vector<std::string> step_names;
    for (const Step& step : pack.steps) {
        step_names.push_back(step.id);
    }
    std::vector<std::string> event_names;
    for (const EventKind& event : pack.events) {
        event_names.push_back(event.id);
    }
    const auto spots = step_spots;
    for (const auto& [index, spot] : spots) {
        const std::string act = text(spot.at("act"), true);
        const auto known = std::ranges::find(kActs, act, &std::pair<std::string_view, Act>::first);
        if (known == kActs.end()) {
            fail(LoadFault::UnknownName, spot.at("act"), listed(kActs), act);
        }
        Step step = pack.steps[index];
        step.act = known == kActs.end() ? Act::Paper : known->second;
        step.by = indices(spot.at("by"), pack.roles, "role");
        if (step.by.empty()) {
            fail(LoadFault::MissingKey, spot.at("by"), "role");
        }
        step.with = indices(spot.at("with"), pack.roles, "role");
        const std::string scope = text(spot.at("scope"), false);
        if (!scope.empty() && scope != "yard") {
            fail(LoadFault::UnknownName, spot.at("scope"), "yard", scope);
        }
        step.of_yard = scope == "yard";
        step.needs = indices(spot.at("needs"), step_names, "step");
        step.voided_by = indices(spot.at("voided_by"), event_names, "event");
        step.life_ms = duration(spot.at("life"));
        step.takes_ms = duration(spot.at("takes"));
        step.takes_for_mL = count(spot.at("takes_for"), quantity::Dimension::Volume, "mL");
        if (step.takes_for_mL && (step.takes_ms == 0 || *step.takes_for_mL <= 0)) {
            fail(LoadFault::WrongType, spot.at("takes_for"), "a volume, beside takes", {});
        }
        step.begun_by = indices(spot.at("begun_by"), event_names, "event");
        step.instrument = word(spot.at("instrument"), false);
        if (const Spot on_fail = spot.at("on_fail"); on_fail.exists()) {
            const std::string name = word(on_fail, true);
            step.on_fail = pack.stop(name);
            if (step.on_fail == kNone) {
                fail(LoadFault::UnknownName, on_fail, "stop", name);
            }
        }
        for (const std::string& reason : words(spot.at("cannot"), false)) {
            step.cannot.push_back({reason});
        }
        step.cautions = words(spot.at("cautions"), false);
        step.clauses = words(spot.at("clauses"), false);
        step.sources = sources(spot.at("source"));
        pack.steps[index] = step;
        const Spot facts = spot.at("facts");
        if (facts.exists() && facts.json->is(Type::Object)) {
            for (const canon::Member& member : facts.json->members) {
                const Spot one = facts.at(member.key);
                std::string id = step.id;
                id.append(".").append(member.key);
                if (one.json->textOf("kind") == "register") {
                    pack.steps[index].registers.push_back(static_cast<Index>(pack.registers.size()));
                    registerOf(one, index, id, member.key);
                } else {
                    const Index added = fact(one, index, id, member.key, kNone);
                    pack.steps[index].facts.push_back(added);
                }
            }
        } else {
            fail(LoadFault::MissingKey, facts, "object");
        }
    }
    for (const auto& [index, spot] : spots) {
        const Spot facts = spot.at("facts");
        for (const Index table : pack.steps[index].registers) {
            const Spot from = facts.at(pack.registers[table].key).at("members_from");
            if (from.exists()) {
                const std::string name = text(from, true);
                pack.registers[table].members_from = pack.registerOf(name);
                if (pack.registers[table].members_from == kNone) {
                    fail(LoadFault::UnknownName, from, "step.register", name);
                }
            }
        }
    }
}

} // namespace brimful::rules
