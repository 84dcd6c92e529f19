// One load: read, build, check. All errors come out together; a broken pack loads nothing.
#include "core/rules/loading.h"
#include "core/rules/standing.h"

#include <algorithm>

namespace brimful::rules {

namespace {

// Acts in the order in which they must be released: what a hold point lets happen may not be asked before it.
bool liesBehind(Act step, Act hold_point) { return hold_point >= Act::Open && step >= hold_point && step != Act::Paper; }

void stepsIn(const Pack& pack, Index condition, std::set<Index>& out)
{
    const Index end = static_cast<Index>(condition + pack.conditions[condition].size);
    for (Index i = condition; i < end; ++i) {
        const Condition& node = pack.conditions[i];
        switch (node.op) {
        case Op::Passed:
            out.insert(node.a);
            break;
        case Op::Is:
        case Op::AtMost:
        case Op::AtLeast:
        case Op::Between:
            out.insert(pack.facts[node.a].step);
            break;
        case Op::All:
        case Op::Any:
        case Op::Not:
        case Op::KOf:
        case Op::Failed:
        case Op::DifferentPeople:
        case Op::NotBy:
        case Op::HasRole:
        case Op::After:
        case Op::NotSince:
        case Op::Clear:
        case Op::Given:
            break;
        }
    }
}

// Every step that must be true, alternatives left out: inside an `any` or `k_of` another branch may do.
void requiredIn(const Pack& pack, Index at, std::set<Index>& out)
{
    const Condition& node = pack.conditions[at];
    if (node.op == Op::All) {
        for (Index child = static_cast<Index>(at + 1); child < at + node.size;
             child = static_cast<Index>(child + pack.conditions[child].size)) {
            requiredIn(pack, child, out);
        }
    } else if (node.size == 1) {
        stepsIn(pack, at, out);
    }
}

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

} // namespace

void Loading::stringsOf(const Spot& spot)
{
    if (!spot.exists()) {
        return;
    }
    for (const canon::Member& member : spot.json->members) {
        pack.strings[member.key] = text(spot.at(member.key), true);
    }
}

void Loading::check()
{
    const Spot whole = file("pack.json", true);
    if (pack.steps.size() > 64) {
        fail(LoadFault::TooMany, whole, "64 steps, talks included", std::to_string(pack.steps.size()));
        return;
    }
    if (pack.conditions.size() >= kNone) {
        fail(LoadFault::TooMany, whole, "conditions");
        return;
    }
    std::vector<int> colour(pack.steps.size(), 0);
    for (std::size_t i = 0; i < pack.steps.size(); ++i) {
        if (colour[i] == 0 && hasCycle(pack, static_cast<Index>(i), colour)) {
            fail(LoadFault::Cycle, step_spots.contains(static_cast<Index>(i)) ? step_spots.at(static_cast<Index>(i)).at("needs") : whole,
                {}, pack.steps[i].id);
        }
    }
    for (const HoldPoint& hold_point : pack.hold_points) {
        for (const auto* list : {&hold_point.at_giving, &hold_point.require}) {
            for (const Rule& rule : *list) {
                std::set<Index> asked;
                requiredIn(pack, rule.condition, asked);
                for (const Index step : asked) {
                    if (pack.steps[step].talk_of == kNone && liesBehind(pack.steps[step].act, hold_point.act)) {
                        Spot at{nullptr, pack.places[rule.place].file, rule.id};
                        errors.push_back({LoadFault::BehindItself, at.file, pack.places[rule.place].line, pack.places[rule.place].column,
                            rule.id, hold_point.id, pack.steps[step].id, {}});
                    }
                }
            }
        }
    }
    const auto needString = [&](const std::string& key) {
        if (!pack.strings.contains(key)) {
            fail(LoadFault::MissingString, Spot{nullptr, whole.file.substr(0, whole.file.find('/')) + "/strings.en.json", key}, key);
        }
    };
    for (const Step& step : pack.steps) {
        if (step.talk_of != kNone) {
            continue;
        }
        needString("step." + step.id);
        for (const Index index : step.facts) {
            const Fact& fact = pack.facts[index];
            needString("fact." + fact.id);
            if (fact.kind == FactKind::Choice) {
                for (const std::string& option : fact.options) {
                    needString("option." + fact.id + "." + option);
                }
            }
        }
        for (const Cannot& cannot : step.cannot) {
            needString("cannot." + step.id + "." + cannot.id);
        }
        for (const std::string& caution : step.cautions) {
            needString("caution." + caution);
        }
    }
    for (const HoldPoint& hold_point : pack.hold_points) {
        needString("hold-point." + hold_point.id);
        needString("hold-point." + hold_point.id + ".behind");
        for (const Question& question : hold_point.questions) {
            needString("question." + hold_point.id + "." + question.id);
        }
        for (const auto* list : {&hold_point.at_giving, &hold_point.require, &hold_point.stop}) {
            for (const Rule& rule : *list) {
                needString("rule." + rule.id);
            }
        }
    }
    for (const EventKind& event : pack.events) {
        needString("event." + event.id);
    }
    for (const StopKind& stop : pack.stops) {
        needString("stop." + stop.id);
    }
    for (const auto& [prefix, list] :
        {std::pair{"role.", &pack.roles}, std::pair{"stage.", &pack.stages}, std::pair{"barrier.", &pack.barriers}}) {
        for (const std::string& id : *list) {
            needString(prefix + id);
        }
    }
}

tl::expected<Pack, std::vector<LoadError>> load(const PackSource& base, std::span<const PackSource> overlays)
{
    Loading loading(base);
    const Spot head = loading.file("pack.json", true);
    if (!head.exists()) {
        return tl::unexpected(std::move(loading.errors));
    }
    loading.keys(head, {"id", "version", "parameters", "everywhere"});
    loading.pack.id = loading.word(head.at("id"), true);
    loading.pack.version = head.json->integerOf("version");
    loading.pack.hash = manifestHash(base);
    loading.parameters(head.at("parameters"));
    for (const PackSource& overlay : overlays) {
        loading.overlay(overlay, Loading::Pass::Parameters);
    }
    loading.lists();
    loading.steps();
    loading.stepBodies();
    loading.stringsOf(loading.file("strings.en.json", true));
    // Conditions name hold points before these are read in full.
    loading.holdPoints();
    const auto spots = loading.step_spots;
    for (const auto& [index, spot] : spots) {
        loading.pack.steps[index].accept = loading.condition(spot.at("accept"), index);
        if (spot.at("when").exists()) {
            loading.pack.steps[index].when = loading.condition(spot.at("when"), kNone);
        }
    }
    loading.derivations();
    for (const PackSource& overlay : overlays) {
        loading.overlay(overlay, Loading::Pass::Rules);
    }
    if (loading.errors.empty()) {
        loading.check();
    }
    if (!loading.errors.empty()) {
        return tl::unexpected(std::move(loading.errors));
    }
    return std::move(loading.pack);
}

} // namespace brimful::rules
