#include "tests/core/rules/reference.h"

#include "core/quantity/recorded.h"

#include <algorithm>

namespace brimful::test {

using canon::Json;

namespace {

struct Walk {
    const rules::Pack& pack;
    const Known& known;
    const WhoSigns& who;
    std::int64_t now;

    [[nodiscard]] static std::string text(const Json& node, const char* key) { return std::string(node.textOf(key)); }

    [[nodiscard]] const KnownStep* step(const std::string& id) const
    {
        const auto found = known.steps.find(id);
        return found != known.steps.end() && found->second.usable && now < found->second.ends ? &found->second : nullptr;
    }
    [[nodiscard]] const KnownFact* fact(const std::string& id) const
    {
        const auto found = known.facts.find(id);
        return found != known.facts.end() && found->second.usable && now < found->second.ends ? &found->second : nullptr;
    }
    [[nodiscard]] std::int64_t limit(const Json& value, const std::string& fact_id) const
    {
        if (value.is(canon::Type::Integer)) {
            return value.integer;
        }
        if (const Json* parameter = value.find("parameter")) {
            return pack.parameter(parameter->text)->count;
        }
        return quantity::record(value.text, pack.facts.at(pack.fact(fact_id)).dimension)->count;
    }
    // The person of "step" or "step:second"; empty when not known.
    [[nodiscard]] std::string signer(const std::string& signature) const
    {
        const auto colon = signature.find(':');
        const KnownStep* one = step(signature.substr(0, colon));
        return one == nullptr ? std::string() : colon == std::string::npos ? one->first : one->second;
    }
    static int yes(bool is) { return is ? 1 : -1; }

    [[nodiscard]] int at(const Json& node) const
    {
        const std::string op = text(node, "op");
        const Json* of = node.find("of");
        if (op == "not") {
            return -at(*of);
        }
        if (op == "all" || op == "any" || op == "k_of") {
            int surely = 0;
            int perhaps = 0;
            for (const Json& one : of->items) {
                const int value = at(one);
                surely += value == 1 ? 1 : 0;
                perhaps += value != -1 ? 1 : 0;
            }
            const int needed = op == "all" ? static_cast<int>(of->items.size()) : op == "any" ? 1 : static_cast<int>(node.integerOf("k"));
            return surely >= needed ? 1 : perhaps >= needed ? 0 : -1;
        }
        if (op == "passed" || op == "failed") {
            const KnownStep* one = step(text(node, "step"));
            return one == nullptr ? 0 : op == "passed" ? one->passed : -one->passed;
        }
        if (op == "is" || op == "at_most" || op == "at_least" || op == "between") {
            return number(op, node);
        }
        if (op == "different_people") {
            const std::string a = signer(text(node, "a"));
            const std::string b = signer(text(node, "b"));
            return a.empty() || b.empty() ? 0 : yes(a != b);
        }
        if (op == "not_by") {
            const auto& actor = text(node, "actor") == "by" ? who.by : who.with;
            if (!actor) {
                return 1;
            }
            const std::string signed_by = signer(text(node, "signature"));
            return signed_by.empty() || actor->person.empty() ? 0 : yes(signed_by != actor->person);
        }
        if (op == "role") {
            return role(node);
        }
        if (op == "after") {
            const KnownStep* one = step(text(node, "step"));
            return one == nullptr || step(text(node, "knows")) == nullptr ? 0 : yes(one->knew.contains(text(node, "knows")));
        }
        if (op == "not_since") {
            const std::string id = text(node, "step");
            return step(id) == nullptr || !known.whole ? 0 : yes(!known.happened_since.at(id).contains(text(node, "event")));
        }
        if (op == "clear") {
            return known.raised.contains(text(node, "stop")) ? -1 : known.whole ? 1 : 0;
        }
        return known.given.contains(text(node, "hold_point")) && known.whole ? 1 : 0;
    }

    [[nodiscard]] int number(const std::string& op, const Json& node) const
    {
        const std::string id = text(node, "fact");
        const KnownFact* one = fact(id);
        if (one == nullptr) {
            return 0;
        }
        if (op == "is") {
            std::set<std::string> allowed;
            for (const Json& word : node.find("one_of")->items) {
                allowed.insert(word.text);
            }
            return yes(!one->words.empty() && std::ranges::includes(allowed, one->words));
        }
        if (op == "at_most") {
            return yes(one->largest <= limit(*node.find("value"), id));
        }
        if (op == "at_least") {
            return yes(one->smallest >= limit(*node.find("value"), id));
        }
        return yes(one->smallest >= limit(*node.find("low"), id) && one->largest <= limit(*node.find("high"), id));
    }

    [[nodiscard]] int role(const Json& node) const
    {
        std::set<std::string> allowed;
        for (const Json& word : node.find("one_of")->items) {
            allowed.insert(word.text);
        }
        if (node.find("actor") != nullptr) {
            const auto& actor = text(node, "actor") == "by" ? who.by : who.with;
            return !actor ? 1 : yes(std::ranges::any_of(actor->roles, [&](const std::string& held) { return allowed.contains(held); }));
        }
        const std::string signature = text(node, "signature");
        const auto colon = signature.find(':');
        const KnownStep* one = step(signature.substr(0, colon));
        const std::string held = one == nullptr ? std::string() : colon == std::string::npos ? one->first_role : one->second_role;
        return held.empty() ? 0 : yes(allowed.contains(held));
    }
};

} // namespace

int verdict(const Json& condition, const rules::Pack& pack, const Known& known, const WhoSigns& who, std::int64_t now)
{
    return Walk{pack, known, who, now}.at(condition);
}

std::int64_t endOf(const Json& condition, const rules::Pack& pack, const Known& known, const WhoSigns& who, std::int64_t now)
{
    std::set<std::int64_t> moments;
    for (const auto& [id, one] : known.facts) {
        moments.insert(one.ends);
    }
    for (const auto& [id, one] : known.steps) {
        moments.insert(one.ends);
    }
    const int today = verdict(condition, pack, known, who, now);
    for (const std::int64_t moment : moments) {
        if (moment > now && moment != rules::kNever && verdict(condition, pack, known, who, moment) != today) {
            return moment;
        }
    }
    return rules::kNever;
}

Known byNames(const rules::Pack& pack, const rules::Evidence& evidence)
{
    Known out;
    out.whole = evidence.whole;
    out.clock = evidence.clock_trusted;
    for (std::size_t i = 0; i < pack.facts.size(); ++i) {
        const rules::Held& held = evidence.facts.at(i);
        KnownFact one{held.lack == rules::Lack::None, held.count, held.least, {}, held.lapses_ms};
        for (std::size_t option = 0; option < pack.facts[i].options.size(); ++option) {
            if (((held.count >> option) & 1) != 0) {
                one.words.insert(pack.facts[i].options[option]);
            }
        }
        out.facts.emplace(pack.facts[i].id, std::move(one));
    }
    const auto person = [](std::uint16_t number) { return number == rules::kNobody ? std::string() : "p" + std::to_string(number); };
    const auto role = [&](std::uint16_t number) { return number < pack.roles.size() ? pack.roles[number] : std::string(); };
    for (std::size_t i = 0; i < pack.steps.size(); ++i) {
        const rules::StepHeld& held = evidence.steps.at(i);
        KnownStep one{held.lack == rules::Lack::None, static_cast<int>(held.passed) - 1, person(held.person), person(held.second),
            role(held.role), role(held.second_role), {}, held.lapses_ms};
        for (std::size_t other = 0; other < pack.steps.size(); ++other) {
            if (((held.knows >> other) & 1U) != 0) {
                one.knew.insert(pack.steps[other].id);
            }
        }
        auto& since = out.happened_since[pack.steps[i].id];
        for (std::size_t e = 0; e < pack.events.size(); ++e) {
            if (((evidence.event_after.at(e) >> i) & 1U) != 0) {
                since.insert(pack.events[e].id);
            }
        }
        out.steps.emplace(pack.steps[i].id, std::move(one));
    }
    for (std::size_t i = 0; i < pack.stops.size(); ++i) {
        if (evidence.stops.at(i).raised != rules::kNoEntry) {
            out.raised.insert(pack.stops[i].id);
            out.refused = out.refused || pack.stops[i].refuses;
        }
    }
    for (std::size_t i = 0; i < pack.hold_points.size(); ++i) {
        const rules::ReleaseHeld& held = evidence.releases.at(i);
        if (held.confirmed != rules::kNoEntry && held.at_giving == rules::Truth::True && !held.withdrawn) {
            out.given.insert(pack.hold_points[i].id);
        }
    }
    return out;
}

WhoSigns byNames(const rules::Pack& pack, const rules::Actors& actors)
{
    const auto one = [&](const std::optional<rules::ActorHeld>& held) -> std::optional<Signing> {
        if (!held) {
            return std::nullopt;
        }
        Signing out{held->person == rules::kNobody ? std::string() : "p" + std::to_string(held->person), {}};
        for (std::size_t i = 0; i < pack.roles.size(); ++i) {
            if (((held->roles >> i) & 1U) != 0) {
                out.roles.insert(pack.roles[i]);
            }
        }
        return out;
    };
    return {one(actors.by), one(actors.with)};
}

} // namespace brimful::test
