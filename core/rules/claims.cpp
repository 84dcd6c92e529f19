#include "core/rules/claiming.h"

#include "core/rules/loading.h"

#include <algorithm>

namespace brimful::rules {

using canon::Type;

namespace {

// Reads a claim's tree; what it finds wrong goes to the workbench, what it means comes back as a literal.
class Reader {
public:
    Reader(Loading& loading, const Pack& pack, Index hold_point, Meaning& meaning, Situation& situation)
        : m_loading(loading)
        , m_pack(pack)
        , m_hold_point(hold_point)
        , m_meaning(meaning)
        , m_situation(situation)
        , m_solver(situation.solver)
    {
    }

    Lit read(const Spot& spot)
    {
        if (!spot.exists() || !spot.json->is(Type::Object)) {
            m_loading.fail(spot.exists() ? LoadFault::WrongType : LoadFault::MissingKey, spot, "claim");
            return kNo;
        }
        const std::string op = m_loading.text(spot.at("op"), true);
        using Reading = Lit (Reader::*)(const Spot&);
        static const std::map<std::string, Reading> known{{"all", &Reader::every}, {"any", &Reader::every}, {"not", &Reader::opposite},
            {"is", &Reader::is}, {"at_most", &Reader::number}, {"at_least", &Reader::number}, {"between", &Reader::number},
            {"told", &Reader::told}, {"only_here", &Reader::onlyHere}, {"echoes", &Reader::echoes}, {"recorded", &Reader::recorded},
            {"younger", &Reader::younger}, {"none_since", &Reader::noneSince}, {"signed", &Reader::isSigned}, {"two", &Reader::two},
            {"knows", &Reader::knows}, {"instrument", &Reader::instrument}, {"rows", &Reader::rows}, {"cleared", &Reader::cleared},
            {"given", &Reader::given}, {"given_within", &Reader::givenWithin}, {"not_ended_by", &Reader::notEndedBy},
            {"computed", &Reader::computed}, {"history_whole", &Reader::history}};
        const auto found = known.find(op);
        if (found == known.end()) {
            std::vector<std::string> names;
            names.reserve(known.size());
            for (const auto& one : known) {
                names.push_back(one.first);
            }
            m_loading.fail(LoadFault::UnknownName, spot.at("op"), "op", op, nearestName(op, names));
            return kNo;
        }
        return (this->*found->second)(spot);
    }

private:
    template <class List> Index named(const List& list, const Spot& spot, const char* what)
    {
        const std::string name = m_loading.text(spot, true);
        std::vector<std::string> names;
        for (std::size_t i = 0; i < list.size(); ++i) {
            if (list[i].id == name) {
                return static_cast<Index>(i);
            }
            names.push_back(list[i].id);
        }
        m_loading.fail(LoadFault::UnknownName, spot, what, name, nearestName(name, names));
        return kNone;
    }
    Index step(const Spot& spot) { return named(m_pack.steps, spot, "step"); }
    Index fact(const Spot& spot) { return named(m_pack.facts, spot, "fact"); }
    std::vector<Index> listed(const Spot& spot, const auto& list, const char* what)
    {
        std::vector<Index> out;
        for (std::size_t i = 0; spot.exists() && i < spot.json->items.size(); ++i) {
            if (const Index one = named(list, spot.at(i), what); one != kNone) {
                out.push_back(one);
            }
        }
        if (spot.exists() && !spot.json->is(Type::Array)) {
            m_loading.fail(LoadFault::WrongType, spot, "array");
        }
        return out;
    }
    Lit roles(const Spot& spot, const std::string& choice)
    {
        Lit out = kNo;
        for (const Index role : m_loading.indices(spot, m_pack.roles, "role")) {
            out = m_solver.either(out, m_situation.word(choice, m_pack.roles[role]));
        }
        return out;
    }

    Lit every(const Spot& spot)
    {
        m_loading.keys(spot, {"op", "of"});
        const Spot of = spot.at("of");
        if (!of.exists() || !of.json->is(Type::Array) || of.json->items.empty()) {
            m_loading.fail(LoadFault::MissingKey, of, "claims");
            return kNo;
        }
        std::vector<Lit> all;
        for (std::size_t i = 0; i < of.json->items.size(); ++i) {
            all.push_back(read(of.at(i)));
        }
        return spot.json->textOf("op") == "all" ? m_solver.all(all) : m_solver.any(all);
    }
    Lit opposite(const Spot& spot)
    {
        m_loading.keys(spot, {"op", "of"});
        return -read(spot.at("of"));
    }
    Lit is(const Spot& spot)
    {
        m_loading.keys(spot, {"op", "fact", "one_of"});
        const Index index = fact(spot.at("fact"));
        if (index == kNone) {
            return kNo;
        }
        std::int64_t allowed = 0;
        for (const Index option : m_loading.indices(spot.at("one_of"), m_pack.facts[index].options, "option")) {
            allowed |= std::int64_t{1} << option;
        }
        if (allowed == 0) {
            m_loading.fail(LoadFault::MissingKey, spot.at("one_of"), "options");
        }
        return m_solver.both(m_meaning.says(index), m_meaning.isOneOf(index, allowed));
    }
    Lit number(const Spot& spot)
    {
        const bool between = spot.json->textOf("op") == "between";
        m_loading.keys(spot,
            between ? std::initializer_list<std::string_view>{"op", "fact", "low", "high"}
                    : std::initializer_list<std::string_view>{"op", "fact", "value"});
        const Index index = fact(spot.at("fact"));
        if (index == kNone) {
            return kNo;
        }
        const Fact& asked = m_pack.facts[index];
        const auto read = [&](const char* key) {
            const Spot value = spot.at(key);
            // A limit of its own, never the rules' parameter.
            if (!value.exists() || value.json->is(Type::Object)) {
                m_loading.fail(value.exists() ? LoadFault::WrongType : LoadFault::MissingKey, value, "a value");
                return std::int64_t{0};
            }
            return m_loading.count(value, asked.dimension, asked.unit).value_or(0);
        };
        Lit out = m_meaning.says(index);
        if (const bool low = between || spot.json->textOf("op") == "at_least"; low) {
            out = m_solver.both(out, m_meaning.smallestAtLeast(index, read(between ? "low" : "value")));
        }
        if (const bool high = between || spot.json->textOf("op") == "at_most"; high) {
            out = m_solver.both(out, -m_meaning.largestAtLeast(index, read(between ? "high" : "value") + 1));
        }
        return out;
    }
    Lit told(const Spot& spot)
    {
        m_loading.keys(spot, {"op", "facts"});
        Lit out = kYes;
        for (const Index index : listed(spot.at("facts"), m_pack.facts, "fact")) {
            out = m_solver.both(out, m_meaning.says(index));
        }
        return out;
    }
    Lit onlyHere(const Spot& spot)
    {
        m_loading.keys(spot, {"op", "fact"});
        const Index index = fact(spot.at("fact"));
        return index == kNone ? kNo : m_solver.both(m_meaning.says(index), m_situation.bit(named::idle(m_meaning.keyOf(index))));
    }
    Lit echoes(const Spot& spot)
    {
        m_loading.keys(spot, {"op", "fact", "last"});
        const Index index = fact(spot.at("fact"));
        const auto last = static_cast<int>(spot.json->integerOf("last"));
        return index == kNone ? kNo : m_solver.both(m_meaning.says(index), m_meaning.echoes(index, last));
    }
    Lit recorded(const Spot& spot)
    {
        m_loading.keys(spot, {"op", "step", "of_yard"});
        const Index index = step(spot.at("step"));
        if (index == kNone) {
            return kNo;
        }
        const std::string& id = m_pack.steps[index].id;
        const Lit there = m_solver.both(m_situation.bit(named::recorded(id)), m_situation.bit(named::clean(id)));
        return m_loading.yes(spot.at("of_yard")) ? there : m_solver.both(there, m_situation.bit(named::own(id)));
    }
    Lit younger(const Spot& spot)
    {
        m_loading.keys(spot, {"op", "step", "than"});
        const Index index = step(spot.at("step"));
        const std::int64_t than = m_loading.duration(spot.at("than"));
        return index == kNone ? kNo : -m_situation.atLeast(named::age(m_pack.steps[index].id), than);
    }
    Lit noneSince(const Spot& spot)
    {
        m_loading.keys(spot, {"op", "step", "events"});
        const Index index = step(spot.at("step"));
        Lit out = kYes;
        for (const Index event : listed(spot.at("events"), m_pack.events, "event")) {
            out = index == kNone ? kNo : m_solver.both(out, -m_meaning.since(index, event));
        }
        return out;
    }
    Lit isSigned(const Spot& spot)
    {
        m_loading.keys(spot, {"op", "step", "by", "with"});
        // Without a step: the release itself.
        const Index index = spot.at("step").exists() ? step(spot.at("step")) : m_pack.hold_points[m_hold_point].talk;
        if (index == kNone) {
            return kNo;
        }
        const std::string& id = m_pack.steps[index].id;
        Lit out = roles(spot.at("by"), named::role(id, false));
        if (spot.at("with").exists()) {
            out = m_solver.both(out, m_solver.both(m_situation.bit(named::confirmed(id)), roles(spot.at("with"), named::role(id, true))));
        }
        return out;
    }
    std::string person(const Spot& spot)
    {
        const std::string name = m_loading.text(spot, true);
        const std::string& talk = m_pack.steps[m_pack.hold_points[m_hold_point].talk].id;
        if (name == "by" || name == "with") {
            return named::who(talk, name == "with");
        }
        const bool second = name.ends_with(":second");
        const std::string id = second ? name.substr(0, name.size() - 7) : name;
        if (m_pack.step(id) == kNone) {
            m_loading.fail(LoadFault::UnknownName, spot, "by, with, step or step:second", name);
        }
        return named::who(id, second);
    }
    Lit two(const Spot& spot)
    {
        m_loading.keys(spot, {"op", "a", "b"});
        return -m_situation.samePerson(person(spot.at("a")), person(spot.at("b")));
    }
    Lit knows(const Spot& spot)
    {
        m_loading.keys(spot, {"op", "step", "of"});
        const Index index = step(spot.at("step"));
        Lit out = kYes;
        for (const Index earlier : listed(spot.at("of"), m_pack.steps, "step")) {
            out = index == kNone ? kNo : m_solver.both(out, m_meaning.knows(index, earlier));
        }
        return out;
    }
    Lit instrument(const Spot& spot)
    {
        m_loading.keys(spot, {"op", "step", "kind", "checked_within", "off_by"});
        const Index index = step(spot.at("step"));
        if (index == kNone) {
            return kNo;
        }
        const std::string& id = m_pack.steps[index].id;
        const std::int64_t within = m_loading.duration(spot.at("checked_within"));
        const auto off = m_loading.count(spot.at("off_by"), quantity::Dimension::VolumeShare, "ppm");
        Lit out = m_situation.bit(named::instrument(id, m_loading.word(spot.at("kind"), true)));
        out = within > 0 ? m_solver.both(out, -m_situation.atLeast(named::checkAge(id), within + 1)) : out;
        return off ? m_solver.both(out, -m_situation.atLeast(named::checkOff(id), *off + 1)) : out;
    }
    Lit rows(const Spot& spot)
    {
        m_loading.keys(spot, {"op", "table", "members", "of", "within"});
        const Index index = named(m_pack.registers, spot.at("table"), "step.register");
        if (index == kNone) {
            return kNo;
        }
        const std::string& id = m_pack.registers[index].id;
        Lit out = m_situation.bit(named::anyRow(id));
        for (const std::string& member : m_loading.words(spot.at("members"), false)) {
            out = m_solver.both(out, m_situation.bit(named::row(id, member)));
        }
        if (spot.at("of").exists()) {
            const Index from = named(m_pack.registers, spot.at("of"), "step.register");
            out = from == kNone ? kNo : m_solver.both(out, m_situation.bit(named::rowsOf(id, m_pack.registers[from].id)));
        }
        const std::int64_t within = m_loading.duration(spot.at("within"));
        return within > 0 ? m_solver.both(out, -m_situation.atLeast(named::spread(id), within + 1)) : out;
    }
    // Every failing record of these steps, and every event of these kinds, was answered by name by these two.
    Lit cleared(const Spot& spot)
    {
        m_loading.keys(spot, {"op", "steps", "events", "by", "with"});
        std::vector<std::string> causes;
        for (const Index one : listed(spot.at("steps"), m_pack.steps, "step")) {
            causes.push_back(named::failed(m_pack.steps[one].id));
        }
        for (const Index one : listed(spot.at("events"), m_pack.events, "event")) {
            causes.push_back(named::happened(m_pack.events[one].id));
        }
        Lit out = kYes;
        for (const std::string& cause : causes) {
            Lit done = m_solver.both(m_situation.bit(named::cleared(cause)), roles(spot.at("by"), named::clearer(cause, false)));
            if (spot.at("with").exists()) {
                done = m_solver.both(
                    done, m_solver.both(m_situation.bit(named::clearedTwice(cause)), roles(spot.at("with"), named::clearer(cause, true))));
            }
            out = m_solver.both(out, m_solver.either(-m_situation.bit(cause), done));
        }
        return out;
    }
    Lit given(const Spot& spot)
    {
        m_loading.keys(spot, {"op", "hold_point"});
        const Index index = named(m_pack.hold_points, spot.at("hold_point"), "hold point");
        return index == kNone ? kNo : m_meaning.given(index);
    }
    Lit givenWithin(const Spot& spot)
    {
        m_loading.keys(spot, {"op", "time"});
        return -m_situation.atLeast(named::givenAge(m_pack.hold_points[m_hold_point].id), m_loading.duration(spot.at("time")));
    }
    Lit notEndedBy(const Spot& spot)
    {
        m_loading.keys(spot, {"op", "events"});
        Lit out = kYes;
        for (const Index event : listed(spot.at("events"), m_pack.events, "event")) {
            out = m_solver.both(out, -m_situation.bit(named::givenSince(m_pack.hold_points[m_hold_point].id, m_pack.events[event].id)));
        }
        return out;
    }
    // How a value is made is a matter of the pack, not of a situation: yes or no.
    Lit computed(const Spot& spot)
    {
        m_loading.keys(spot, {"op", "fact", "figure", "output", "round", "warnings"});
        const Index index = fact(spot.at("fact"));
        if (index == kNone || !m_pack.facts[index].derived) {
            return kNo;
        }
        const Derivation& made = *m_pack.facts[index].derived;
        const auto asks = [&](const char* key, const std::string& is) { return !spot.at(key).exists() || spot.json->textOf(key) == is; };
        const bool good = asks("figure", made.figure) && asks("output", made.output) && asks("round", made.round_up ? "up" : "down")
            && asks("warnings", made.warnings_unusable ? "unusable" : "noted");
        return good ? kYes : kNo;
    }
    Lit history(const Spot& spot)
    {
        m_loading.keys(spot, {"op"});
        return m_solver.both(m_situation.bit(named::kWhole), m_situation.bit(named::kClock));
    }

    Loading& m_loading;
    const Pack& m_pack;
    Index m_hold_point;
    Meaning& m_meaning;
    Situation& m_situation;
    Solver& m_solver;
};

} // namespace

tl::expected<std::vector<Claim>, std::vector<LoadError>> loadClaims(const PackSource& source, const Pack& pack)
{
    Loading loading(source);
    loading.pack.parameters = pack.parameters;
    std::vector<Claim> claims;
    Solver solver;
    Situation situation(solver);
    Meaning meaning(pack, situation);
    std::set<std::string> ids;
    for (const std::string& name : loading.filesUnder("claims")) {
        const Spot whole = loading.file(name, true);
        loading.keys(whole, {"claims"});
        const Spot list = whole.at("claims");
        for (std::size_t i = 0; list.exists() && i < list.json->items.size(); ++i) {
            const Spot spot = list.at(i);
            if (!loading.keys(spot, {"id", "hold_points", "when", "only_if", "source"})) {
                continue;
            }
            Claim claim;
            claim.id = loading.word(spot.at("id"), true);
            if (!ids.insert(claim.id).second) {
                loading.fail(LoadFault::DuplicateId, spot.at("id"), {}, claim.id);
            }
            const Spot where = spot.at("hold_points");
            for (std::size_t j = 0; where.exists() && j < where.json->items.size(); ++j) {
                const std::string hold_point = loading.text(where.at(j), true);
                if (const Index index = pack.holdPoint(hold_point); index != kNone) {
                    claim.hold_points.push_back(index);
                } else {
                    loading.fail(LoadFault::UnknownName, where.at(j), "hold point", hold_point);
                }
            }
            if (claim.hold_points.empty()) {
                loading.fail(LoadFault::MissingKey, where, "hold points");
            }
            const std::string when = loading.text(spot.at("when"), true);
            if (when != "given" && when != "held" && when != "always") {
                loading.fail(LoadFault::UnknownName, spot.at("when"), "given, held, always", when);
            }
            claim.at_giving = when != "held";
            claim.at_every_look = when != "given";
            (void)loading.sources(spot.at("source"));
            claim.file = whole.file;
            if (spot.exists()) {
                claim.place = {whole.file, spot.json->line, spot.json->column};
            }
            if (const Spot only_if = spot.at("only_if"); only_if.exists()) {
                claim.only_if = *only_if.json;
                if (!claim.hold_points.empty()) {
                    (void)Reader(loading, pack, claim.hold_points.front(), meaning, situation).read(only_if);
                }
            } else {
                loading.fail(LoadFault::MissingKey, only_if, "claim");
            }
            if (!pack.strings.contains("claim." + claim.id)) {
                loading.fail(LoadFault::MissingString, spot.at("id"), "claim." + claim.id);
            }
            claims.push_back(std::move(claim));
        }
    }
    if (!loading.errors.empty()) {
        return tl::unexpected(std::move(loading.errors));
    }
    return claims;
}

Lit claimed(const Claim& claim, const Pack& pack, Index hold_point, Meaning& meaning, Situation& situation)
{
    static const PackSource none;
    Loading loading(none);
    loading.pack.parameters = pack.parameters;
    return Reader(loading, pack, hold_point, meaning, situation).read(Spot{&claim.only_if, claim.file, "only_if"});
}

} // namespace brimful::rules
