#include "tests/core/rules/mutants.h"

#include <algorithm>
#include <charconv>

namespace brimful::test {

using canon::Json;
using canon::Type;

namespace {

Json* member(Json& object, std::string_view key)
{
    for (canon::Member& one : object.members) {
        if (one.key == key) {
            return &one.value;
        }
    }
    return nullptr;
}

void drop(Json& object, std::string_view key)
{
    std::erase_if(object.members, [&](const canon::Member& one) { return one.key == key; });
}

class Maker {
public:
    explicit Maker(const rules::PackSource& base)
        : m_base(base)
        , m_pack(*rules::load(base, {}))
    {
    }

    std::vector<Mutant> run()
    {
        for (const auto& [name, text] : m_base.files) {
            if (!name.ends_with(".json")) {
                continue;
            }
            m_name = name;
            m_file = *canon::read(text, canon::Dialect::Subset);
            if (name.starts_with("steps/")) {
                step();
            } else if (name.starts_with("hold-points/")) {
                holdPoint();
            } else if (name == "pack.json") {
                parameters();
                if (Json* everywhere = member(m_file, "everywhere")) {
                    rulesIn(*everywhere);
                }
            } else if (name == "events.json") {
                for (canon::Member& event : member(m_file, "events")->members) {
                    without("stop", event.value, "raises", event.key);
                }
            } else if (name == "stops.json") {
                stops();
            }
        }
        return std::move(m_out);
    }

private:
    void keep(const char* kind, const std::string& what)
    {
        Mutant out{kind, m_name + " " + what, m_base};
        out.source.files.at(m_name) = canon::write(m_file, false);
        m_out.push_back(std::move(out));
    }
    template <class Change> void changed(const char* kind, const std::string& what, Json& node, const Change& change)
    {
        const Json kept = node;
        change(node);
        keep(kind, what);
        node = kept;
    }
    void without(const char* kind, Json& object, const char* key, const std::string& what)
    {
        if (member(object, key) != nullptr) {
            changed(kind, what + " " + key + " left out", object, [&](Json& node) { drop(node, key); });
        }
    }
    void eachLess(const char* kind, Json& object, const char* key, const std::string& what)
    {
        Json* list = member(object, key);
        for (std::size_t i = 0; list != nullptr && i < list->items.size(); ++i) {
            changed(kind, what + " " + key + " without " + list->items[i].text, *list,
                [&](Json& node) { node.items.erase(node.items.begin() + static_cast<std::ptrdiff_t>(i)); });
        }
    }
    void eachRoleMore(Json& object, const char* key, const std::string& what)
    {
        Json* list = member(object, key);
        for (const std::string& role : m_pack.roles) {
            if (list != nullptr && std::ranges::none_of(list->items, [&](const Json& one) { return one.text == role; })) {
                changed("role", what + " " + key + " and " + role, *list, [&](Json& node) { node.items.emplace_back(role); });
            }
        }
    }

    static std::string looser(const std::string& typed, bool higher)
    {
        double value = 0;
        const auto end = std::from_chars(typed.data(), typed.data() + typed.size(), value);
        const double loose = higher ? (value > 0  ? value * 2
                                     : value == 0 ? 5
                                                  : value / 2)
                                    : (value > 0         ? value / 2
                                            : value == 0 ? -5
                                                         : value * 2);
        std::string out = std::to_string(loose);
        out.erase(out.find_last_not_of('0') + 1);
        out.erase(out.back() == '.' ? out.size() - 1 : out.size());
        return out + std::string(end.ptr, typed.data() + typed.size());
    }
    void loosen(Json& object, const char* key, bool higher, const char* kind, const std::string& what)
    {
        Json* value = member(object, key);
        if (value == nullptr || value->is(Type::Object)) {
            return; // a parameter, which is loosened itself
        }
        changed(kind, what + " " + key + " loosened", *value, [&](Json& node) {
            node = node.is(Type::Integer) ? Json(higher ? node.integer + 1 : node.integer - 1) : Json(looser(node.text, higher));
        });
    }

    // `met`: whether the tree is asked to be met; under a not, and in a stop's list, it is asked not to be.
    void condition(Json& node, bool met, const std::string& path)
    {
        const std::string op(node.textOf("op"));
        if (op == "not") {
            condition(*member(node, "of"), !met, path + ".of");
            return;
        }
        if (op == "all" || op == "any" || op == "k_of") {
            Json& of = *member(node, "of");
            for (std::size_t i = 0; i < of.items.size(); ++i) {
                const std::string at = path + ".of[" + std::to_string(i) + "]";
                condition(of.items[i], met, at);
                if (op == (met ? "all" : "any") && of.items.size() > 1) {
                    changed("condition", at + " left out", of,
                        [&](Json& list) { list.items.erase(list.items.begin() + static_cast<std::ptrdiff_t>(i)); });
                }
            }
            if (op == (met ? "all" : "any") && of.items.size() > 1) {
                changed("condition", path + " any for all", *member(node, "op"), [&](Json& word) { word = Json(met ? "any" : "all"); });
            }
            return;
        }
        if (op == "is") {
            const rules::Index fact = m_pack.fact(node.textOf("fact"));
            Json& words = *member(node, "one_of");
            for (const std::string& option : m_pack.facts[fact].options) {
                const bool there = std::ranges::any_of(words.items, [&](const Json& one) { return one.text == option; });
                if (met && !there) {
                    changed("condition", path + " or " + option, words, [&](Json& list) { list.items.emplace_back(option); });
                }
            }
        } else if (op == "at_most") {
            loosen(node, "value", met, "limit", path);
        } else if (op == "at_least") {
            loosen(node, "value", !met, "limit", path);
        } else if (op == "between") {
            loosen(node, "low", !met, "limit", path);
            loosen(node, "high", met, "limit", path);
        }
    }

    void rulesIn(Json& lists)
    {
        for (const char* key : {"at_giving", "require", "stop"}) {
            Json* list = member(lists, key);
            for (std::size_t i = 0; list != nullptr && i < list->items.size(); ++i) {
                const std::string id(list->items[i].textOf("id"));
                condition(*member(list->items[i], "when"), std::string(key) != "stop", id);
                const char* kind = list->items[i].find("when")->textOf("op") == "given" ? "order" : "condition";
                changed(kind, std::string(key) + " " + id + " left out", *list,
                    [&](Json& node) { node.items.erase(node.items.begin() + static_cast<std::ptrdiff_t>(i)); });
            }
        }
    }

    void facts(Json& all, const char* kind)
    {
        for (canon::Member& one : all.members) {
            Json& fact = one.value;
            const std::string_view sort = fact.textOf("kind");
            if (sort == "register") {
                eachLess(kind, fact, "members", one.key);
                without(kind, fact, "members_from", one.key);
                without(kind, fact, "within", one.key);
                facts(*member(fact, "columns"), kind);
                continue;
            }
            if (sort == "derived") {
                if (fact.textOf("warnings") == "unusable") {
                    changed(kind, one.key + " whatever it warns of", *member(fact, "warnings"), [](Json& node) { node = Json("noted"); });
                }
                if (Json* round = member(fact, "round")) {
                    changed(kind, one.key + " rounded the other way", *round,
                        [](Json& node) { node = Json(node.text == "up" ? "down" : "up"); });
                }
                continue;
            }
            if (fact.textOf("optional").empty()) {
                changed(kind, one.key + " may be left out", fact, [](Json& node) { node.set("optional", "yes"); });
            }
            if (Json* last = member(fact, "last")) {
                changed(kind, one.key + " by its last character", *last, [](Json& node) { node = Json(1); });
            }
            without(kind, fact, "equals", one.key);
            without(kind, fact, "exclusive", one.key);
        }
    }

    void step()
    {
        condition(*member(m_file, "accept"), true, "accept");
        without("life", m_file, "life", {});
        loosen(m_file, "life", true, "life", {});
        eachLess("event", m_file, "voided_by", {});
        eachLess("order", m_file, "needs", {});
        without("role", m_file, "with", {});
        eachRoleMore(m_file, "by", {});
        eachRoleMore(m_file, "with", {});
        without("record", m_file, "instrument", {});
        without("stop", m_file, "on_fail", {});
        if (m_file.textOf("scope").empty()) {
            changed("record", "of the yard", m_file, [](Json& node) { node.set("scope", "yard"); });
        }
        facts(*member(m_file, "facts"), "record");
    }

    void holdPoint()
    {
        rulesIn(m_file);
        loosen(m_file, "lasts", true, "life", {});
        eachLess("event", m_file, "ended_by", {});
        eachRoleMore(m_file, "by", {});
        eachRoleMore(m_file, "with", {});
        without("talk", m_file, "tag", {});
        if (Json* questions = member(m_file, "questions")) {
            facts(*questions, "talk");
            for (std::size_t i = 0; i < questions->members.size(); ++i) {
                changed("talk", questions->members[i].key + " not asked", *questions,
                    [&](Json& node) { node.members.erase(node.members.begin() + static_cast<std::ptrdiff_t>(i)); });
            }
        }
    }

    void parameters()
    {
        for (canon::Member& one : member(m_file, "parameters")->members) {
            loosen(one.value, "value", one.value.textOf("tighter") == "lower", "limit", one.key);
        }
    }

    void stops()
    {
        for (canon::Member& one : member(m_file, "stops")->members) {
            eachRoleMore(one.value, "cleared_by", one.key);
            eachRoleMore(one.value, "cleared_with", one.key);
            without("stop", one.value, "cleared_with", one.key);
            without("stop", one.value, "refuses", one.key);
        }
    }

    const rules::PackSource& m_base;
    rules::Pack m_pack;
    std::string m_name;
    Json m_file;
    std::vector<Mutant> m_out;
};

} // namespace

std::vector<Mutant> weakened(const rules::PackSource& base) { return Maker(base).run(); }

} // namespace brimful::test
