#include "core/rules/cel.h"

namespace brimful::rules {

namespace {

std::string quoted(const std::string& id) { return '"' + id + '"'; } // ids have no quotation mark in them

std::string in(const char* map, const std::string& id) { return std::string(map) + '[' + quoted(id) + ']'; }

std::string joined(const std::vector<std::string>& parts, const char* between)
{
    std::string out;
    for (const std::string& part : parts) {
        out += (out.empty() ? "" : between) + part;
    }
    return out;
}

struct Cel {
    const Pack& pack;

    [[nodiscard]] std::string at(Index index) const
    {
        const Condition& node = pack.conditions[index];
        switch (node.op) {
        case Op::All:
            return group(index, " && ", "true");
        case Op::Any:
            return group(index, " || ", "false");
        case Op::Not:
            return "!" + inBrackets(at(index + 1));
        case Op::KOf: {
            const std::vector<std::string> parts = children(index);
            return atLeast(parts, 0, static_cast<std::size_t>(node.low));
        }
        case Op::Passed:
            return step(node.a) + ".passed";
        case Op::Failed:
            return "!" + step(node.a) + ".passed";
        case Op::Is:
            return "size(" + fact(node) + ".words) > 0 && " + fact(node) + ".words.all(w, w in "
                + words(node.low, pack.facts[node.a].options) + ")";
        case Op::AtMost:
            return fact(node) + ".largest <= " + std::to_string(node.high);
        case Op::AtLeast:
            return fact(node) + ".smallest >= " + std::to_string(node.low);
        case Op::Between:
            return fact(node) + ".smallest >= " + std::to_string(node.low) + " && " + fact(node)
                + ".largest <= " + std::to_string(node.high);
        case Op::DifferentPeople:
            return signature("people", node.a) + " != " + signature("people", node.b);
        case Op::NotBy:
            return nobody(node.b) + " || " + signature("people", node.a) + " != " + actor(node.b) + ".person";
        case Op::HasRole:
            return node.b == 1 ? nobody(node.a) + " || " + actor(node.a) + ".roles.exists(r, r in " + words(node.low, pack.roles) + ")"
                               : signature("roles", node.a) + " in " + words(node.low, pack.roles);
        case Op::After:
            return step(node.b) + ".counts ? " + quoted(pack.steps[node.b].id) + " in " + step(node.a) + ".knew : false";
        case Op::NotSince:
            return "record.whole ? !(" + quoted(pack.events[node.b].id) + " in " + step(node.a) + ".since) : false";
        case Op::Clear:
            return "!(" + quoted(pack.stops[node.a].id) + " in raised) && record.whole";
        case Op::Given:
            return in("given", pack.hold_points[node.a].id) + " && record.whole";
        }
        return {};
    }

    static std::string inBrackets(const std::string& text) { return '(' + text + ')'; }
    [[nodiscard]] std::string step(Index index) const { return in("steps", pack.steps[index].id); }
    [[nodiscard]] std::string fact(const Condition& node) const { return in("facts", pack.facts[node.a].id); }
    [[nodiscard]] std::string signature(const char* map, SignatureRef which) const
    {
        return in(map, pack.steps[which / 2U].id + (which % 2U == 0 ? "" : ":second"));
    }
    static std::string actor(std::uint16_t which) { return which == static_cast<std::uint16_t>(Actor::By) ? "actors.by" : "actors.with"; }
    static std::string nobody(std::uint16_t which)
    {
        return which == static_cast<std::uint16_t>(Actor::By) ? "!(\"by\" in actors)" : "!(\"with\" in actors)";
    }

    // The words whose bits are set.
    static std::string words(std::int64_t bits, const std::vector<std::string>& all)
    {
        std::vector<std::string> out;
        for (std::size_t i = 0; i < all.size(); ++i) {
            if (((bits >> i) & 1) != 0) {
                out.push_back(quoted(all[i]));
            }
        }
        return '[' + joined(out, ", ") + ']';
    }

    [[nodiscard]] std::vector<std::string> children(Index index) const
    {
        std::vector<std::string> out;
        const std::size_t end = index + std::size_t{pack.conditions[index].size};
        for (std::size_t child = index + 1; child < end; child += pack.conditions[child].size) {
            out.push_back(inBrackets(at(static_cast<Index>(child))));
        }
        return out;
    }
    [[nodiscard]] std::string group(Index index, const char* between, const char* of_none) const
    {
        const std::vector<std::string> parts = children(index);
        return parts.empty() ? of_none : joined(parts, between);
    }

    // The first of them and k - 1 of the others, or k of the others.
    static std::string atLeast(const std::vector<std::string>& parts, std::size_t from, std::size_t k)
    {
        const std::vector<std::string> rest(parts.begin() + static_cast<std::ptrdiff_t>(from), parts.end());
        if (k == 0 || k > rest.size()) {
            return k == 0 ? "true" : "false";
        }
        if (k == 1 || k == rest.size()) {
            return joined(rest, k == rest.size() ? " && " : " || ");
        }
        return inBrackets(parts[from] + " && " + inBrackets(atLeast(parts, from + 1, k - 1))) + " || "
            + inBrackets(atLeast(parts, from + 1, k));
    }
};

} // namespace

std::string asCel(const Pack& pack, Index root) { return Cel{pack}.at(root); }

} // namespace brimful::rules
