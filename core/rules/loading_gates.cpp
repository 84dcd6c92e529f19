// Hold points with their lists, talks and tags; overlays, which can only add and tighten.
#include "core/quantity/recorded.h"
#include "core/rules/loading.h"

#include <algorithm>
#include <array>

namespace brimful::rules {

using canon::Type;

namespace {

constexpr std::array<std::pair<std::string_view, Act>, 6> kActs{{{"paper", Act::Paper}, {"look", Act::Look}, {"open", Act::Open},
    {"fill", Act::Fill}, {"cold-cut", Act::ColdCut}, {"heat", Act::Heat}}};

constexpr std::size_t kMostQuestions = 7;

} // namespace

std::vector<Rule> Loading::rulesOf(const Spot& spot, Index /*hold_point_stage*/)
{
    std::vector<Rule> rules;
    if (!spot.exists()) {
        return rules;
    }
    if (!spot.json->is(Type::Array)) {
        fail(LoadFault::WrongType, spot, "array");
        return rules;
    }
    for (std::size_t i = 0; i < spot.json->items.size(); ++i) {
        const Spot one = spot.at(i);
        if (!keys(one, {"id", "barrier", "when", "source"})) {
            continue;
        }
        Rule rule;
        rule.id = word(one.at("id"), true);
        const std::string barrier = word(one.at("barrier"), true);
        const auto known = std::ranges::find(pack.barriers, barrier);
        if (known == pack.barriers.end()) {
            fail(LoadFault::UnknownName, one.at("barrier"), "barrier", barrier, nearestName(barrier, pack.barriers));
        } else {
            rule.barrier = static_cast<Index>(known - pack.barriers.begin());
        }
        rule.condition = condition(one.at("when"), kNone);
        rule.sources = sources(one.at("source"));
        rule.place = place(one);
        rules.push_back(std::move(rule));
    }
    return rules;
}

namespace {

// A condition made by the loader itself: fact `is` its first option, or all of several.
Index isFirst(Pack& pack, const std::vector<Index>& facts)
{
    const auto start = static_cast<Index>(pack.conditions.size());
    Condition all;
    all.op = Op::All;
    all.size = static_cast<std::uint16_t>(1 + facts.size());
    pack.conditions.push_back(all);
    for (const Index fact : facts) {
        Condition is;
        is.op = Op::Is;
        is.a = fact;
        is.low = 1;
        pack.conditions.push_back(is);
    }
    return start;
}

} // namespace

void Loading::holdPoints()
{
    std::vector<Spot> found;
    for (const std::string& name : filesUnder("hold-points")) {
        found.push_back(file(name, true));
    }
    std::vector<std::string> event_names;
    for (const EventKind& event : pack.events) {
        event_names.push_back(event.id);
    }
    // First the names, in the order of the journey: conditions name hold points.
    std::vector<Spot> ordered;
    for (std::size_t stage = 0; stage < pack.stages.size(); ++stage) {
        for (const Spot& spot : found) {
            if (spot.json->textOf("stage") == pack.stages[stage]) {
                HoldPoint hold_point;
                hold_point.id = word(spot.at("id"), true);
                if (pack.holdPoint(hold_point.id) != kNone) {
                    fail(LoadFault::DuplicateId, spot.at("id"), {}, hold_point.id);
                }
                hold_point.stage = static_cast<Index>(stage);
                pack.hold_points.push_back(std::move(hold_point));
                ordered.push_back(spot);
            }
        }
    }
    if (ordered.size() != found.size()) {
        for (const Spot& spot : found) {
            const std::string stage(spot.json->textOf("stage"));
            if (std::ranges::find(pack.stages, stage) == pack.stages.end()) {
                fail(LoadFault::UnknownName, spot.at("stage"), "stage", stage, nearestName(stage, pack.stages));
            }
        }
    }
    for (std::size_t i = 0; i < ordered.size(); ++i) {
        const Spot& spot = ordered[i];
        keys(spot,
            {"id", "stage", "act", "by", "with", "lasts", "ended_by", "at_giving", "require", "stop", "questions", "tag", "closes",
                "source"});
        HoldPoint hold_point = pack.hold_points[i];
        const std::string act = text(spot.at("act"), true);
        const auto known = std::ranges::find(kActs, act, &std::pair<std::string_view, Act>::first);
        if (known == kActs.end()) {
            fail(LoadFault::UnknownName, spot.at("act"), "act", act);
        } else {
            hold_point.act = known->second;
        }
        hold_point.by = indices(spot.at("by"), pack.roles, "role");
        hold_point.with = indices(spot.at("with"), pack.roles, "role");
        if (hold_point.by.empty() || hold_point.with.empty()) {
            fail(LoadFault::MissingKey, spot.at(hold_point.by.empty() ? "by" : "with"), "role");
        }
        hold_point.lasts_ms = duration(spot.at("lasts"));
        if (hold_point.lasts_ms <= 0) {
            fail(LoadFault::MissingKey, spot.at("lasts"), "duration");
        }
        hold_point.ended_by = indices(spot.at("ended_by"), event_names, "event");
        hold_point.closes = yes(spot.at("closes"));
        hold_point.sources = sources(spot.at("source"));
        const std::string tag = text(spot.at("tag"), false);
        if (!tag.empty() && tag != "newest") {
            fail(LoadFault::UnknownName, spot.at("tag"), "newest", tag);
        }

        Step talk;
        talk.id = "talk-" + hold_point.id;
        talk.stage = hold_point.stage;
        talk.act = Act::Look;
        talk.by = hold_point.by;
        talk.with = hold_point.with;
        talk.talk_of = static_cast<Index>(i);
        talk.sources = hold_point.sources;
        hold_point.talk = static_cast<Index>(pack.steps.size());
        pack.steps.push_back(talk);
        std::vector<Index> must;
        const Spot questions = spot.at("questions");
        if (questions.exists() && questions.json->is(Type::Object)) {
            if (questions.json->members.size() > kMostQuestions) {
                fail(LoadFault::TooMany, questions, "7");
            }
            for (const canon::Member& member : questions.json->members) {
                const Spot one = questions.at(member.key);
                std::string id = talk.id;
                id.append(".").append(member.key);
                const Index asked = fact(one, hold_point.talk, id, member.key, kNone, Asked::AtHoldPoint);
                pack.steps[hold_point.talk].facts.push_back(asked);
                hold_point.questions.push_back({member.key, asked});
                if (pack.facts[asked].kind == FactKind::Echo) {
                    must.push_back(asked);
                }
                if (one.at("equals").exists()) {
                    Fact compare;
                    compare.id = id + "-equals";
                    compare.key = member.key + "-equals";
                    compare.step = hold_point.talk;
                    compare.kind = FactKind::Echo;
                    compare.options = {"equal", "differs"};
                    compare.optional = true;
                    compare.compares = asked;
                    must.push_back(static_cast<Index>(pack.facts.size()));
                    pack.steps[hold_point.talk].facts.push_back(static_cast<Index>(pack.facts.size()));
                    derived_spots.emplace_back(static_cast<Index>(pack.facts.size()), one);
                    pack.facts.push_back(std::move(compare));
                }
            }
        }
        pack.steps[hold_point.talk].accept = isFirst(pack, must);

        pack.conditions[pack.steps[hold_point.talk].accept].source = place(spot);
        hold_point.at_giving = rulesOf(spot.at("at_giving"), hold_point.stage);
        hold_point.require = rulesOf(spot.at("require"), hold_point.stage);
        hold_point.stop = rulesOf(spot.at("stop"), hold_point.stage);
        const Spot everywhere = file("pack.json", true).at("everywhere");
        keys(everywhere, {"require", "stop"});
        for (Rule& rule : rulesOf(everywhere.at("require"), hold_point.stage)) {
            hold_point.require.push_back(std::move(rule));
        }
        for (Rule& rule : rulesOf(everywhere.at("stop"), hold_point.stage)) {
            hold_point.stop.push_back(std::move(rule));
        }

        Rule talked;
        talked.id = "talk";
        talked.at_talk = true;
        talked.sources = hold_point.sources;
        Condition passed;
        passed.op = Op::Passed;
        passed.a = hold_point.talk;
        talked.condition = static_cast<Index>(pack.conditions.size());
        pack.conditions.push_back(passed);
        hold_point.at_giving.push_back(talked);
        if (!tag.empty()) {
            Fact newest;
            newest.id = talk.id + ".tag";
            newest.key = "tag";
            newest.step = hold_point.talk;
            newest.kind = FactKind::Tag;
            newest.options = {"newest", "older", "other", "none"};
            newest.optional = true;
            hold_point.tag_fact = static_cast<Index>(pack.facts.size());
            pack.steps[hold_point.talk].facts.push_back(hold_point.tag_fact);
            pack.facts.push_back(std::move(newest));
            Rule vessel = talked;
            vessel.id = "right-vessel";
            vessel.condition = isFirst(pack, {hold_point.tag_fact});
            hold_point.at_giving.push_back(vessel);
        }
        pack.hold_points[i] = std::move(hold_point);
    }
}

void Loading::overlay(const PackSource& source, Pass pass)
{
    Loading reader(source);
    const Spot spot = reader.file("pack.json", true);
    if (pass == Pass::Parameters) {
        errors.insert(errors.end(), reader.errors.begin(), reader.errors.end());
    }
    if (!spot.exists()) {
        return;
    }
    const std::string id(spot.json->textOf("id"));
    if (pass == Pass::Parameters) {
        keys(spot, {"id", "version", "extends", "parameters", "require", "at_giving", "stop", "life", "source"});
        (void)word(spot.at("id"), true);
        version(spot.at("version"));
        if (text(spot.at("extends"), true) != pack.id) {
            fail(LoadFault::UnknownName, spot.at("extends"), pack.id, std::string(spot.json->textOf("extends")));
        }
        for (const auto& [name, content] : source.files) {
            const bool known =
                name == "pack.json" || name.starts_with("strings.") || name.starts_with("claims/") || name.starts_with("cases/");
            if (!known && name.ends_with(".json")) {
                fail(LoadFault::NotTightening, Spot{nullptr, source.id + "/" + name, {}}, "pack.json, strings, claims, cases", name);
            }
        }
    } else {
        stringsOf(reader.file("strings.en.json", false), true);
    }
    if (const Spot moved = spot.at("parameters"); moved.exists() && pass == Pass::Parameters) {
        for (const canon::Member& member : moved.json->members) {
            const Spot one = moved.at(member.key);
            keys(one, {"value", "source"});
            const auto found = std::ranges::find(pack.parameters, member.key, &Parameter::id);
            if (found == pack.parameters.end()) {
                fail(LoadFault::UnknownName, one, "parameter", member.key);
                continue;
            }
            const auto value = count(one.at("value"), found->dimension, found->unit);
            const std::string typed =
                value && one.at("value").json->is(Type::Integer) ? std::to_string(*value) : std::string(one.json->textOf("value"));
            const auto tighter = [&](std::int64_t than) { return value && (found->tighter_is_lower ? *value <= than : *value >= than); };
            const std::int64_t shipped = shipped_values.try_emplace(member.key, found->count).first->second;
            if (found->of_pack.empty()) {
                found->of_pack = found->typed;
            }
            auto its_sources = sources(one.at("source"));
            if (!tighter(shipped)) {
                fail(LoadFault::NotTightening, one.at("value"), (found->tighter_is_lower ? "at most " : "at least ") + found->typed, typed);
                continue;
            }
            // Of several overlays the tightest rules.
            if (tighter(found->count)) {
                found->count = *value;
                found->typed = typed;
                found->sources = std::move(its_sources);
                found->set_by = id;
                found->tightened = *value != shipped;
            }
        }
    }
    if (pass == Pass::Parameters) {
        return;
    }
    if (const Spot lives = spot.at("life"); lives.exists()) {
        for (const canon::Member& member : lives.json->members) {
            const Index step = pack.step(member.key);
            const std::int64_t life = duration(lives.at(member.key));
            if (step == kNone || pack.steps[step].talk_of != kNone) {
                fail(LoadFault::UnknownName, lives.at(member.key), "step", member.key);
                continue;
            }
            std::int64_t& in_force = pack.steps[step].life_ms;
            const std::int64_t shipped = shipped_values.try_emplace("life." + member.key, in_force).first->second;
            if (life <= 0 || (shipped > 0 && life > shipped)) {
                fail(LoadFault::NotTightening, lives.at(member.key), "shorter life");
            } else if (in_force == 0 || life < in_force) {
                pack.steps[step].life_of_pack_ms = shipped;
                pack.steps[step].life_set_by = id;
                in_force = life;
            }
        }
    }
    const auto add = [&](const char* list, std::vector<Rule> HoldPoint::*where) {
        const Spot rules = spot.at(list);
        if (!rules.exists()) {
            return;
        }
        for (const canon::Member& member : rules.json->members) {
            const Index hold_point = pack.holdPoint(member.key);
            if (hold_point == kNone) {
                fail(LoadFault::UnknownName, rules.at(member.key), "hold point", member.key);
                continue;
            }
            for (Rule& rule : rulesOf(rules.at(member.key), pack.hold_points[hold_point].stage)) {
                rule.set_by = id;
                (pack.hold_points[hold_point].*where).push_back(std::move(rule));
            }
        }
    };
    add("at_giving", &HoldPoint::at_giving);
    add("require", &HoldPoint::require);
    add("stop", &HoldPoint::stop);
    pack.overlays.push_back({id, spot.json->integerOf("version"), manifestHash(source)});
}

} // namespace brimful::rules
