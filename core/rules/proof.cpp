#include "core/rules/proof.h"

#include "core/rules/claiming.h"
#include "core/rules/writing.h"

#include <algorithm>
#include <array>
#include <bitset>
#include <tuple>

namespace brimful::rules {

using canon::Json;

namespace {

constexpr int kMostPeople = 6;
constexpr int kMostWays = 64; // other ways to a release that are tried before time is said to be short

struct Look {
    Solver solver;
    Situation situation{solver};
};

bool isLeaf(const Condition& node) { return node.op != Op::All && node.op != Op::Any && node.op != Op::Not && node.op != Op::KOf; }

// Which of the pack's rules hold the found situation back, and what else does.
std::vector<std::string> holdingBack(const Pack& pack, Meaning& meaning, Situation& situation, Index index, bool at_giving)
{
    const HoldPoint& hold_point = pack.hold_points[index];
    Encoding encoding(pack, meaning, situation.solver);
    std::vector<std::string> out;
    const auto look = [&](const std::vector<Rule>& rules, bool stop) {
        for (const Rule& rule : rules) {
            const Rails rails = encoding.condition(rule.condition);
            if (!situation.solver.value(stop ? rails.f : rails.t)) {
                out.push_back(rule.id);
            }
        }
    };
    if (at_giving) {
        look(hold_point.at_giving, false);
    }
    look(hold_point.require, false);
    look(hold_point.stop, true);
    if (!at_giving && situation.solver.value(situation.atLeast(named::givenAge(hold_point.id), hold_point.lasts_ms))) {
        out.emplace_back("lasts");
    }
    for (const Index event : hold_point.ended_by) {
        if (!at_giving && situation.isSet(named::givenSince(hold_point.id, pack.events[event].id))) {
            out.push_back("ended_by " + pack.events[event].id);
        }
    }
    return out;
}

class Prover {
public:
    Prover(const Pack& pack, std::span<const Claim> claims, const Against& installed, const Asked& asked)
        : m_pack(pack)
        , m_claims(claims)
        , m_installed(installed)
        , m_asked(asked)
    {
    }

    Proof run()
    {
        if (m_asked.structure) {
            reach();
            for (std::size_t i = 0; i < m_pack.hold_points.size(); ++i) {
                grants(static_cast<Index>(i));
            }
            ends();
            stops();
            matters();
            people();
        }
        if (m_asked.claims) {
            claims(m_claims, m_claims.size());
            claims(m_installed.claims, 0);
        }
        if (m_asked.diff && m_installed.pack != nullptr) {
            diff(*m_installed.pack);
        }
        return std::move(m_out);
    }

    void claims(std::span<const Claim> claims, std::size_t counted)
    {
        m_out.claims += counted;
        Look look;
        Meaning meaning(m_pack, look.situation);
        std::vector<std::array<Lit, 2>> granted_at;
        for (std::size_t i = 0; i < m_pack.hold_points.size() && !claims.empty(); ++i) {
            const auto hold_point = static_cast<Index>(i);
            const Lit giving = meaning.giving(hold_point);
            granted_at.push_back({giving, meaning.holding(hold_point)});
        }
        for (const Claim& claim : claims) {
            for (const Index hold_point : claim.hold_points) {
                for (const bool giving : {true, false}) {
                    if (!(giving ? claim.at_giving : claim.at_every_look)) {
                        continue;
                    }
                    const Lit granted = granted_at[hold_point].at(giving ? 0 : 1);
                    const std::vector<Lit> broken{granted, -claimed(claim, m_pack, hold_point, meaning, look.situation)};
                    if (look.solver.solve(broken)) {
                        Finding& found = add(Law::Claims, claim.id, hold_point, claim.place);
                        found.at_giving = giving;
                        write(found, hold_point, meaning, look.situation, broken, giving, "released");
                        break; // one example is enough
                    }
                }
            }
        }
        m_out.questions += look.solver.questions();
    }

    void diff(const Pack& other)
    {
        Look look;
        Meaning meaning(m_pack, look.situation);
        Meaning before(other, look.situation);
        for (std::size_t i = 0; i < m_pack.hold_points.size(); ++i) {
            const auto hold_point = static_cast<Index>(i);
            const Index old = other.holdPoint(m_pack.hold_points[i].id);
            for (const bool giving : {true, false}) {
                const Lit granted = giving ? meaning.giving(hold_point) : meaning.holding(hold_point);
                const Lit granted_before = old == kNone ? kNo : giving ? before.giving(old) : before.holding(old);
                const std::vector<Lit> more{granted, -granted_before};
                if (look.solver.solve(more)) {
                    Finding& found = add(Law::Diff, m_pack.hold_points[i].id, hold_point, {});
                    found.at_giving = giving;
                    write(found, hold_point, meaning, look.situation, more, giving, "held");
                    if (old != kNone && m_asked.histories) {
                        found.blame = holdingBack(other, before, look.situation, old, giving);
                    }
                }
            }
        }
        m_out.questions += look.solver.questions();
    }

    Proof m_out;

private:
    Finding& add(Law law, const std::string& subject, Index hold_point, const Place& place)
    {
        Finding found;
        found.law = law;
        found.subject = subject;
        found.hold_point = hold_point == kNone ? std::string() : m_pack.hold_points[hold_point].id;
        found.place = place;
        m_out.findings.push_back(std::move(found));
        return m_out.findings.back();
    }

    // The hold points that were given before this one in the found situation, with the acts that led to them.
    std::vector<Json> actsBefore(Situation& situation)
    {
        std::vector<Json> acts;
        for (const HoldPoint& point : m_pack.hold_points) {
            const std::string& id = point.id;
            if (situation.isSet(named::gave(id)) && m_acts.contains(id)) {
                acts = m_acts.at(id); // each carries those before it
            }
        }
        return acts;
    }

    void write(Finding& found, Index hold_point, Meaning& meaning, Situation& situation, const std::vector<Lit>& assumed, bool giving,
        const char* state)
    {
        if (!m_asked.histories) {
            return;
        }
        Writing writing(m_pack, meaning, situation, hold_point);
        if (writing.settle(assumed, false)) {
            found.history = writing.scenario(actsBefore(situation), found.subject, giving, state);
        }
    }

    // P4 and P10: the shortest way to a release; and that it can be walked before the first of it has lapsed.
    void grants(Index hold_point)
    {
        Look look;
        Meaning meaning(m_pack, look.situation);
        std::vector<Lit> assumed{meaning.giving(hold_point)};
        std::vector<std::string> short_of_time;
        const std::string& id = m_pack.hold_points[hold_point].id;
        for (int way = 0; way < kMostWays; ++way) {
            Writing writing(m_pack, meaning, look.situation, hold_point);
            if (!writing.settle(assumed, true)) {
                if (way == 0) {
                    add(Law::Grants, id, hold_point, {});
                }
                break;
            }
            const std::vector<std::string> steps = writing.steps();
            const std::vector<std::string> late = lapsed(steps);
            if (way == 0 || late.empty()) {
                const std::vector<Json> before = actsBefore(look.situation);
                Shortest shortest{id, steps, {}};
                shortest.history = writing.scenario(before, id, true, m_pack.hold_points[hold_point].closes ? "closed" : "released");
                m_acts[id] = writing.acts(before, true);
                if (way > 0) {
                    m_out.shortest.pop_back();
                }
                m_out.shortest.push_back(std::move(shortest));
            }
            if (late.empty()) {
                short_of_time.clear();
                break;
            }
            short_of_time = late;
            std::vector<Lit> other;
            other.reserve(steps.size());
            for (const std::string& step : steps) {
                other.push_back(-look.situation.bit(named::recorded(step)));
            }
            look.solver.clause(other);
        }
        if (!short_of_time.empty()) {
            Finding& found = add(Law::Time, short_of_time.front(), hold_point, {});
            found.blame = short_of_time;
        }
        m_out.questions += look.solver.questions();
    }

    // One pair of hands, one step after the other, the longest-lived first: if a step lapses so, it lapses in every order.
    std::vector<std::string> lapsed(const std::vector<std::string>& names) const
    {
        std::vector<Index> open;
        std::bitset<64> asked;
        for (const std::string& name : names) {
            open.push_back(m_pack.step(name));
            asked.set(open.back());
        }
        const auto due = [&](Index index) {
            const Step& step = m_pack.steps[index];
            return step.life_ms == 0 ? kNever : step.life_ms + (step.registers.empty() ? step.takes_ms : 0);
        };
        std::vector<std::pair<Index, std::int64_t>> began;
        std::bitset<64> done;
        std::int64_t now = 0;
        while (!open.empty()) {
            auto best = open.end();
            for (auto one = open.begin(); one != open.end(); ++one) {
                const bool ready =
                    std::ranges::all_of(m_pack.steps[*one].needs, [&](Index need) { return !asked.test(need) || done.test(need); });
                if (ready && (best == open.end() || due(*one) > due(*best))) {
                    best = one;
                }
            }
            if (best == open.end()) {
                break; // a circle; the loader names it
            }
            began.emplace_back(*best, now);
            now += m_pack.steps[*best].takes_ms;
            done.set(*best);
            open.erase(best);
        }
        std::vector<std::string> out;
        for (const auto& [step, start] : began) {
            if (due(step) != kNever && now - start >= due(step)) {
                out.push_back(m_pack.steps[step].id);
            }
        }
        for (const Index step : indicesOf(names)) { // a set that cannot be taken within its own time
            for (const Index table : m_pack.steps[step].registers) {
                const std::int64_t within = m_pack.registers[table].within_ms;
                if (within > 0 && m_pack.steps[step].takes_ms > within) {
                    out.push_back(m_pack.steps[step].id);
                }
            }
        }
        return out;
    }
    std::vector<Index> indicesOf(const std::vector<std::string>& names) const
    {
        std::vector<Index> out;
        out.reserve(names.size());
        for (const std::string& name : names) {
            out.push_back(m_pack.step(name));
        }
        return out;
    }

    // P5: what can be done with what was done before, until nothing more can. A step is done after the hold point before its act.
    void reach()
    {
        Look look;
        Meaning meaning(m_pack, look.situation);
        std::bitset<64> steps;
        std::vector<bool> given(m_pack.hold_points.size(), false);
        const auto gateOf = [&](const Step& step) {
            Index gate = kNone;
            for (std::size_t i = 0; i < m_pack.hold_points.size(); ++i) {
                const Act act = m_pack.hold_points[i].act;
                const bool before = act >= Act::Open && act <= step.act;
                gate = before && (gate == kNone || act >= m_pack.hold_points[gate].act) ? static_cast<Index>(i) : gate;
            }
            return gate;
        };
        for (bool grew = true; grew;) {
            grew = false;
            for (std::size_t s = 0; s < m_pack.steps.size(); ++s) {
                const Step& step = m_pack.steps[s];
                const Index gate = step.talk_of == kNone ? gateOf(step) : kNone;
                const bool can = (gate == kNone || given[gate])
                    && std::ranges::all_of(step.needs, [&](Index need) { return steps.test(need); }) && !step.by.empty()
                    && (steps.test(s) || look.solver.solve({meaning.passed(static_cast<Index>(s)).t}));
                if (can && !steps.test(s)) {
                    steps.set(s);
                    grew = true;
                }
            }
            for (std::size_t h = 0; h < m_pack.hold_points.size(); ++h) {
                const HoldPoint& hold_point = m_pack.hold_points[h];
                bool can = true;
                for (const auto* list : {&hold_point.at_giving, &hold_point.require}) {
                    can = can && std::ranges::all_of(*list, [&](const Rule& rule) { return reachable(rule.condition, steps, given); });
                }
                if (can && !given[h]) {
                    given[h] = true;
                    grew = true;
                }
            }
        }
        for (std::size_t h = 0; h < given.size(); ++h) {
            if (!given[h]) {
                Finding& found = add(Law::Reach, m_pack.hold_points[h].id, static_cast<Index>(h), {});
                for (const auto* list : {&m_pack.hold_points[h].at_giving, &m_pack.hold_points[h].require}) {
                    for (const Rule& rule : *list) {
                        if (!reachable(rule.condition, steps, given)) {
                            found.place = m_pack.places[rule.place];
                            found.blame.push_back(rule.id);
                        }
                    }
                }
            }
        }
        for (std::size_t s = 0; s < m_pack.steps.size(); ++s) {
            if (!steps.test(s) && m_pack.steps[s].talk_of == kNone) {
                Finding& found =
                    add(Law::Reach, m_pack.steps[s].id, kNone, m_pack.places[m_pack.conditions[m_pack.steps[s].accept].source]);
                for (const Index need : m_pack.steps[s].needs) {
                    if (!steps.test(need)) {
                        found.blame.push_back(m_pack.steps[need].id);
                    }
                }
            }
        }
        m_out.questions += look.solver.questions();
    }

    [[nodiscard]] bool reachable(Index at, const std::bitset<64>& steps, const std::vector<bool>& given) const
    {
        const Condition& node = m_pack.conditions[at];
        std::int64_t can = 0;
        std::int64_t all = 0;
        const std::size_t end = std::size_t{at} + node.size;
        for (std::size_t child = std::size_t{at} + 1; child < end; child += m_pack.conditions[child].size) {
            ++all;
            can += reachable(static_cast<Index>(child), steps, given) ? 1 : 0;
        }
        switch (node.op) {
        case Op::All:
            return can == all;
        case Op::Any:
            return can >= 1;
        case Op::KOf:
            return can >= node.low;
        case Op::Not:
            return true;
        case Op::Passed:
        case Op::Failed:
        case Op::NotSince:
            return steps.test(node.a);
        case Op::After:
            return steps.test(node.a) && steps.test(node.b);
        case Op::Is:
        case Op::AtMost:
        case Op::AtLeast:
        case Op::Between:
            return steps.test(m_pack.facts[node.a].step);
        case Op::DifferentPeople:
            return steps.test(node.a / 2U) && steps.test(node.b / 2U);
        case Op::NotBy:
            return steps.test(node.a / 2U);
        case Op::HasRole:
            return node.b == 1 || steps.test(node.a / 2U);
        case Op::Clear:
            return true;
        case Op::Given:
            return given[node.a];
        }
        return true;
    }

    // P2: with any stop raised, nothing is given and nothing stands.
    void stops()
    {
        Look look;
        Meaning meaning(m_pack, look.situation);
        for (std::size_t h = 0; h < m_pack.hold_points.size(); ++h) {
            const auto hold_point = static_cast<Index>(h);
            for (std::size_t s = 0; s < m_pack.stops.size(); ++s) {
                const Lit raised = meaning.raised(static_cast<Index>(s));
                for (const bool giving : {true, false}) {
                    const Lit granted = giving ? meaning.giving(hold_point) : meaning.holding(hold_point);
                    const std::vector<Lit> unheeded{granted, raised};
                    if (look.solver.solve(unheeded)) {
                        Finding& found = add(Law::Stops, m_pack.stops[s].id, hold_point, {});
                        found.at_giving = giving;
                        write(found, hold_point, meaning, look.situation, unheeded, giving, "held");
                        break;
                    }
                }
            }
        }
        m_out.questions += look.solver.questions();
    }

    // P6: taken for met, or for never met, a condition changes what is granted somewhere; else it is refused as redundant.
    void matters()
    {
        std::map<std::tuple<std::string, std::uint32_t, std::uint32_t>, std::pair<bool, std::string>> at; // place: matters, subject
        const auto note = [&](Index node, bool matters, const std::string& subject) {
            const Place& place = m_pack.places[m_pack.conditions[node].source];
            auto& row = at[{place.file, place.line, place.column}];
            row.first = row.first || matters;
            row.second = subject;
        };
        Look look;
        Meaning meaning(m_pack, look.situation);
        meaning.leaveRefusalsOut();
        std::set<Index> used;
        for (std::size_t h = 0; h < m_pack.hold_points.size(); ++h) {
            const auto hold_point = static_cast<Index>(h);
            const Lit giving = meaning.giving(hold_point);
            const Lit holding = meaning.holding(hold_point);
            const auto differs = [&](Lit now, Lit then) { return look.solver.solve({now, -then}) || look.solver.solve({-now, then}); };
            for (const auto* list : {&m_pack.hold_points[h].at_giving, &m_pack.hold_points[h].require, &m_pack.hold_points[h].stop}) {
                for (const Rule& rule : *list) {
                    for (std::size_t i = 0; i < m_pack.conditions[rule.condition].size; ++i) {
                        const auto node = static_cast<Index>(rule.condition + i);
                        speaksOf(m_pack.conditions[node], used);
                        if (!isLeaf(m_pack.conditions[node]) || rule.at_talk) {
                            continue;
                        }
                        const bool matters = std::ranges::all_of(std::array{true, false}, [&](bool value) {
                            const Without without{node, value};
                            return differs(giving, meaning.giving(hold_point, without))
                                || differs(holding, meaning.holding(hold_point, without));
                        });
                        note(node, matters, rule.id);
                    }
                }
            }
        }
        for (bool grew = true; grew;) { // what is needed by what is used is used
            const std::size_t before = used.size();
            for (const Index step : std::set<Index>(used)) {
                used.insert(m_pack.steps[step].needs.begin(), m_pack.steps[step].needs.end());
            }
            grew = used.size() != before;
        }
        for (std::size_t s = 0; s < m_pack.steps.size(); ++s) {
            const Step& step = m_pack.steps[s];
            if (step.talk_of != kNone) {
                continue;
            }
            const auto index = static_cast<Index>(s);
            if (!used.contains(index) && step.on_fail == kNone) {
                // One that names who watches keeps that person from every other vessel.
                if (std::ranges::none_of(step.facts, [&](Index fact) { return m_pack.facts[fact].exclusive; })) {
                    add(Law::Matters, step.id, kNone, m_pack.places[m_pack.conditions[step.accept].source]);
                }
                continue;
            }
            const Lit there = meaning.usableStep(index);
            const Rails accepted = meaning.accepts(index);
            for (std::size_t i = 0; i < m_pack.conditions[step.accept].size; ++i) {
                const auto node = static_cast<Index>(step.accept + i);
                if (!isLeaf(m_pack.conditions[node])) {
                    continue;
                }
                const bool matters = std::ranges::all_of(std::array{true, false}, [&](bool value) {
                    const Rails other = meaning.accepts(index, {node, value});
                    return look.solver.solve({there, accepted.t, -other.t}) || look.solver.solve({there, -accepted.t, other.t});
                });
                note(node, matters, step.id);
            }
        }
        for (const auto& [place, row] : at) {
            m_out.conditions += row.first ? 1 : 0;
            if (!row.first) {
                add(Law::Matters, row.second, kNone, {std::get<0>(place), std::get<1>(place), std::get<2>(place)});
            }
        }
        m_out.questions += look.solver.questions();
    }

    void speaksOf(const Condition& node, std::set<Index>& steps) const
    {
        switch (node.op) {
        case Op::Passed:
        case Op::Failed:
        case Op::NotSince:
            steps.insert(node.a);
            break;
        case Op::After:
            steps.insert({node.a, node.b});
            break;
        case Op::Is:
        case Op::AtMost:
        case Op::AtLeast:
        case Op::Between:
            steps.insert(m_pack.facts[node.a].step);
            break;
        case Op::DifferentPeople:
            steps.insert({static_cast<Index>(node.a / 2), static_cast<Index>(node.b / 2)});
            break;
        case Op::NotBy:
            steps.insert(static_cast<Index>(node.a / 2));
            break;
        case Op::HasRole:
            if (node.b == 0) {
                steps.insert(static_cast<Index>(node.a / 2));
            }
            break;
        case Op::All:
        case Op::Any:
        case Op::Not:
        case Op::KOf:
        case Op::Clear:
        case Op::Given:
            break;
        }
    }

    // P8
    void people()
    {
        for (std::size_t h = 0; h < m_pack.hold_points.size(); ++h) {
            Look look;
            Meaning meaning(m_pack, look.situation);
            const auto hold_point = static_cast<Index>(h);
            const Lit granted = meaning.giving(hold_point);
            const auto everybody = look.situation.people();
            int enough = 0;
            for (int count = 1; count <= kMostPeople && enough == 0; ++count) {
                std::vector<Lit> assumed{granted};
                for (const auto& [who, bits] : everybody) {
                    Lit one = kNo;
                    for (int person = 0; person < count; ++person) {
                        one = look.solver.either(one, look.situation.isPerson(who, static_cast<unsigned>(person)));
                    }
                    assumed.push_back(one);
                }
                enough = look.solver.solve(assumed) ? count : 0;
            }
            if (enough == 1) {
                add(Law::People, m_pack.hold_points[h].id, hold_point, {});
            }
            m_out.enough.push_back({m_pack.hold_points[h].id, enough});
            m_out.questions += look.solver.questions();
        }
    }

    // P9
    void ends()
    {
        for (std::size_t h = 0; h < m_pack.hold_points.size(); ++h) {
            if (m_pack.hold_points[h].lasts_ms <= 0) {
                add(Law::Ends, m_pack.hold_points[h].id, static_cast<Index>(h), {});
            }
        }
    }

    const Pack& m_pack;
    std::span<const Claim> m_claims;
    const Against& m_installed;
    const Asked& m_asked;
    std::map<std::string, std::vector<Json>> m_acts; // that lead to each hold point's release
};

} // namespace

Proof prove(const Pack& pack, std::span<const Claim> claims, const Against& installed, const Asked& asked)
{
    return Prover(pack, claims, installed, asked).run();
}

std::vector<Finding> newlyGranted(const Pack& pack, const Pack& other, bool histories)
{
    const Against installed{&other, {}};
    return prove(pack, {}, installed, {false, false, true, histories}).findings;
}

std::vector<Finding> againstClaims(const Pack& pack, std::span<const Claim> claims, bool histories)
{
    return prove(pack, claims, {}, {true, false, false, histories}).findings;
}

} // namespace brimful::rules
