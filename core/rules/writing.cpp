#include "core/rules/writing.h"

#include "core/quantity/recorded.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <iterator>

namespace brimful::rules {

using canon::Json;

namespace {

constexpr std::int64_t kMinuteMs = 60'000;
constexpr std::array<std::pair<const char*, const char*>, 6> kPeople{
    {{"Jon", "482916"}, {"Ines", "705318"}, {"Ada", "613947"}, {"Tom", "928374"}, {"Odd", "571829"}, {"Rosa", "846152"}}};

// Whose failing record it was, and who answered for it: others than those who sign the history itself, as far as there are as many.
constexpr unsigned kTeller = 2;
constexpr unsigned kOther = 3;
constexpr unsigned kClearer = 4;
constexpr unsigned kSecond = 5;

const char* nameOf(unsigned person) { return kPeople.at(person % kPeople.size()).first; }

// A count as somebody would type it.
std::string typed(std::int64_t count, const std::string& unit)
{
    struct Row {
        std::string_view unit;
        std::string_view shown;
        int decimals;
    };
    constexpr std::array kRows{Row{"100nm", "mm", 4}, Row{"mm2", "mm2", 0}, Row{"mL", "mL", 0}, Row{"g", "g", 0}, Row{"Pa", "Pa", 0},
        Row{"0.01K", "K", 2}, Row{"s", "s", 0}, Row{"mL/s", "mL/s", 0}, Row{"mm/s", "m/s", 3}, Row{"ppm", "%", 4},
        Row{"0.1%LEL", "%LEL", 1}, Row{"0.001deg", "deg", 3}, Row{"N", "N", 0}, Row{"W", "W", 0}, Row{"J", "J", 0}};
    const auto row = std::ranges::find(kRows, std::string_view(unit), &Row::unit);
    if (row == kRows.end()) {
        return std::to_string(count);
    }
    std::string digits = std::to_string(std::abs(count));
    if (row->decimals > 0) {
        const auto decimals = static_cast<std::size_t>(row->decimals);
        digits.insert(0, digits.size() <= decimals ? decimals + 1 - digits.size() : 0, '0');
        digits.insert(digits.size() - decimals, ".");
        digits.erase(digits.find_last_not_of('0') + 1);
        digits.erase(digits.back() == '.' ? digits.size() - 1 : digits.size());
    }
    return (count < 0 ? "-" : "") + digits + " " + std::string(row->shown);
}

std::optional<std::int64_t> exampleCount(const Fact& fact)
{
    if (fact.kind == FactKind::Quantity) {
        const auto recorded = quantity::record(fact.example, fact.dimension);
        return recorded ? std::optional(recorded->count) : std::nullopt;
    }
    std::int64_t count = 0;
    const auto end = std::from_chars(fact.example.data(), fact.example.data() + fact.example.size(), count);
    return fact.kind == FactKind::Count && end.ec == std::errc() ? std::optional(count) : std::nullopt;
}

// What the condition does not accept of this fact.
std::optional<Json> wrongFor(const Fact& fact, const Condition& node)
{
    if (fact.kind == FactKind::Choice) {
        for (std::size_t i = 0; i < fact.options.size(); ++i) {
            if (((node.low >> i) & 1) == 0) {
                return Json(fact.options[i]);
            }
        }
        return std::nullopt;
    }
    if (fact.kind != FactKind::Quantity && fact.kind != FactKind::Count) {
        return std::nullopt;
    }
    const std::int64_t wrong = node.op == Op::AtLeast ? node.low - 1 : node.high + 1;
    return fact.kind == FactKind::Count ? Json(wrong) : Json(typed(wrong, fact.unit));
}

void tablesRead(const Json& inputs, std::set<std::string>& out)
{
    if (const Json* rows = inputs.find("rows")) {
        out.insert(rows->text);
    }
    for (const canon::Member& member : inputs.members) {
        tablesRead(member.value, out);
    }
}

Json waiting(std::int64_t ms)
{
    Json out = Json::object();
    out.set("wait", std::to_string((ms + 999) / 1000) + " s");
    return out;
}

} // namespace

Writing::Writing(const Pack& its_pack, Meaning& its_meaning, Situation& its_situation, Index hold_point)
    : m_pack(its_pack)
    , m_meaning(its_meaning)
    , m_situation(its_situation)
    , m_solver(its_situation.solver)
    , m_hold_point(hold_point)
{
}

bool Writing::there(Index step) { return m_situation.isSet(named::recorded(m_pack.steps[step].id)); }

void Writing::inOneLine()
{
    m_line = m_solver.fresh();
    std::vector<Index> spoken;
    for (std::size_t i = 0; i < m_pack.steps.size(); ++i) {
        const Step& step = m_pack.steps[i];
        if (m_situation.has(named::recorded(step.id)) && (step.talk_of == kNone || step.talk_of == m_hold_point)) {
            spoken.push_back(static_cast<Index>(i));
        }
    }
    for (std::size_t a = 0; a < spoken.size(); ++a) {
        for (std::size_t b = a + 1; b < spoken.size(); ++b) {
            m_before[{spoken[a], spoken[b]}] = m_solver.fresh();
        }
    }
    const auto before = [&](Index a, Index b) { return a < b ? m_before.at({a, b}) : -m_before.at({b, a}); };
    for (const Index a : spoken) {
        const std::string& id = m_pack.steps[a].id;
        const auto& ages = m_situation.numbers();
        for (const Index b : spoken) {
            if (a == b) {
                continue;
            }
            const std::string& earlier = m_pack.steps[b].id;
            for (const Index c : spoken) {
                if (c != a && c != b) {
                    m_solver.clause({-m_line, -before(a, b), -before(b, c), before(a, c)});
                }
            }
            if (m_pack.steps[a].talk_of == m_hold_point) {
                m_solver.clause({-m_line, before(b, a)});
            }
            if (const std::string knows = named::knows(id, earlier); m_situation.has(knows)) {
                const Lit known = m_situation.bit(knows);
                m_solver.clause({-m_line, -known, before(b, a)});
                m_solver.clause({-m_line, -m_situation.bit(named::recorded(earlier)), -before(b, a), known});
            }
            for (const EventKind& event : m_pack.events) {
                if (m_situation.has(named::since(id, event.id)) && m_situation.has(named::since(earlier, event.id))) {
                    m_solver.clause({-m_line, -before(b, a), -m_situation.bit(named::since(id, event.id)),
                        m_situation.bit(named::since(earlier, event.id))});
                }
            }
            // The later one is not older.
            const auto own = ages.find(named::age(id));
            const auto its = ages.find(named::age(earlier));
            if (own != ages.end() && its != ages.end()) {
                for (const auto& [threshold, literal] : own->second) {
                    const auto next = its->second.upper_bound(threshold);
                    if (next != its->second.begin()) {
                        m_solver.clause({-m_line, -before(b, a), -literal, std::prev(next)->second});
                    }
                }
            }
        }
    }
}

// What one would expect, the most important first.
std::vector<Lit> Writing::usual()
{
    std::vector<Lit> out{m_situation.bit(named::kWhole), m_situation.bit(named::kClock), m_line};
    std::set<std::string> tables; // that a figure reads: it needs a row
    for (const Fact& fact : m_pack.facts) {
        if (fact.derived) {
            tablesRead(fact.derived->inputs, tables);
        }
    }
    for (const std::string& table : tables) {
        out.push_back(m_situation.bit(named::anyRow(table)));
        out.push_back(-m_situation.bit(named::noRow(table)));
    }
    const auto& choices = m_situation.choices();
    const auto talk = [&](const std::string& name) {
        return std::ranges::any_of(m_pack.steps,
            [&](const Step& step) { return step.talk_of != kNone && step.talk_of != m_hold_point && name == named::recorded(step.id); });
    };
    for (const auto& [name, literal] : m_situation.bits()) {
        const bool bad = name.starts_with("happened ") || name.starts_with("failed ") || name.starts_with("since ")
            || name.starts_with("given-since ") || talk(name);
        const bool good = name.starts_with("clean ") || name.starts_with("own ") || name.starts_with("instrument ")
            || name.starts_with("row ") || name.starts_with("rows-of ") || name.starts_with("idle ");
        if (bad || good) {
            out.push_back(bad ? -literal : literal);
        }
    }
    for (std::size_t i = 0; i < m_pack.steps.size(); ++i) { // nobody records what they may not sign
        const std::string recorded = named::recorded(m_pack.steps[i].id);
        if (m_situation.has(recorded)) {
            out.push_back(m_solver.either(-m_situation.bit(recorded), m_meaning.signersGood(static_cast<Index>(i))));
        }
    }
    for (const auto& [number, ladder] : m_situation.numbers()) {
        const bool time =
            number.starts_with("age ") || number.starts_with("check-") || number.starts_with("spread ") || number.starts_with("given-age ");
        for (const auto& [threshold, literal] : ladder) {
            if (time) {
                out.push_back(-literal);
            } else if (number.starts_with("echo ")) {
                out.push_back(literal);
            }
        }
    }
    for (std::size_t i = 0; i < m_pack.facts.size(); ++i) {
        const Fact& fact = m_pack.facts[i];
        const std::string key = m_meaning.keyOf(static_cast<Index>(i));
        if (const auto known = choices.find(named::words(key)); known != choices.end() && !fact.example.empty()) {
            for (const auto& [word, literal] : known->second) {
                out.push_back(word == fact.example ? literal : -literal);
            }
        }
        const auto count = exampleCount(fact);
        for (const std::string& name : {named::largest(key), named::smallest(key)}) {
            const auto ladder = m_situation.numbers().find(name);
            if (ladder == m_situation.numbers().end() || !count) {
                continue;
            }
            for (const auto& [threshold, literal] : ladder->second) {
                out.push_back(*count >= threshold ? literal : -literal);
            }
        }
    }
    for (const bool second : {false, true}) {
        for (const Step& step : m_pack.steps) {
            const std::string who = named::who(step.id, second);
            if (m_situation.people().contains(who)) {
                out.push_back(m_solver.either(m_situation.isPerson(who, 0), m_situation.isPerson(who, 1)));
            }
        }
    }
    for (const auto& [pair, literal] : m_before) {
        out.push_back(literal); // in the order of the journey
    }
    return out;
}

bool Writing::settle(std::vector<Lit> assumed, bool fewest)
{
    inOneLine();
    if (!m_solver.solve(assumed)) {
        return false;
    }
    std::vector<Lit> records;
    for (const Step& step : m_pack.steps) {
        const std::string name = named::recorded(step.id);
        if (m_situation.has(name) && step.talk_of == kNone) {
            records.push_back(m_situation.bit(name));
        }
    }
    if (fewest) {
        std::vector<Lit> more(records.size() + 1);
        for (std::size_t k = 0; k < records.size(); ++k) {
            more[k] = m_solver.atLeast(records, k + 1);
        }
        for (std::size_t k = 0; k < records.size(); ++k) {
            assumed.push_back(-more[k]);
            if (m_solver.solve(assumed)) {
                break;
            }
            assumed.pop_back();
        }
        (void)m_solver.solve(assumed);
    }
    std::vector<Lit> wishes = usual();
    if (!fewest) {
        for (const Lit record : records) {
            wishes.push_back(-record);
        }
    }
    for (const Lit wish : wishes) {
        assumed.push_back(wish);
        if (!m_solver.value(wish) && !m_solver.solve(assumed)) {
            assumed.pop_back();
        }
    }
    m_order.clear();
    for (std::size_t i = 0; i < m_pack.steps.size(); ++i) {
        if (m_pack.steps[i].talk_of == kNone && there(static_cast<Index>(i))) {
            m_order.push_back(static_cast<Index>(i));
        }
    }
    std::ranges::stable_sort(m_order, [&](Index a, Index b) {
        const auto known = m_before.find({std::min(a, b), std::max(a, b)});
        const bool first = known == m_before.end() || m_solver.value(known->second);
        return a != b && (a < b ? first : !first);
    });
    return true;
}

std::vector<std::string> Writing::steps()
{
    std::vector<std::string> out;
    for (const Index step : m_order) {
        out.push_back(m_pack.steps[step].id);
    }
    return out;
}

Json Writing::valueOf(Index index, bool& like_example)
{
    const Fact& fact = m_pack.facts[index];
    const std::string key = m_meaning.keyOf(index);
    if (fact.kind == FactKind::Choice) {
        const auto words = m_situation.words(named::words(key));
        like_example = words.empty() || words.contains(fact.example);
        return Json(like_example ? fact.example : *words.begin());
    }
    const auto count = exampleCount(fact);
    if (count) {
        const auto largest = m_situation.range(named::largest(key));
        const auto smallest = fact.reg == kNone ? largest : m_situation.range(named::smallest(key));
        like_example = *count >= largest.low && *count < largest.high && *count >= smallest.low && *count < smallest.high;
        if (!like_example) {
            const std::int64_t value = *count >= largest.high ? largest.high - 1 : std::max(largest.low, *count);
            return fact.kind == FactKind::Count ? Json(value) : Json(typed(value, fact.unit));
        }
        return fact.kind == FactKind::Count ? Json(*count) : Json(fact.example);
    }
    like_example = true;
    return Json(fact.example);
}

Json Writing::rowsOf(const Register& table, bool& like_example)
{
    const bool any = m_situation.isSet(named::anyRow(table.id)) && !m_situation.isSet(named::noRow(table.id));
    std::vector<std::string> members;
    for (const std::string& member : table.members) {
        const std::string row = named::row(table.id, member);
        if (!m_situation.has(row) || m_situation.isSet(row)) {
            members.push_back(member);
        } else {
            like_example = false;
        }
    }
    if (table.defines && any) {
        members.emplace_back("N1");
        like_example = false;
    }
    Json rows = Json::array();
    for (const std::string& member : members) {
        Json row = Json::object();
        row.set("name", member);
        bool another_way = false;
        for (const Index column : table.columns) {
            const Fact& fact = m_pack.facts[column];
            // Of two ways to tell a place the first: the other begins with a choice that may be left out.
            another_way = another_way || (fact.optional && fact.kind == FactKind::Choice);
            if (fact.kind == FactKind::Derived || (fact.optional && another_way)) {
                continue;
            }
            bool usual = true;
            Json value = valueOf(column, usual);
            // Several words stand in a column: one a row, the unusual ones first, so that none of them is lost where rows are few.
            auto words = fact.kind == FactKind::Choice ? m_situation.words(named::words(m_meaning.keyOf(column))) : std::set<std::string>{};
            if (words.erase(fact.example) > 0 && rows.items.size() < words.size()) {
                value = Json(*std::next(words.begin(), static_cast<std::ptrdiff_t>(rows.items.size())));
                usual = false;
            }
            row.set(fact.key, std::move(value));
            like_example = like_example && usual;
        }
        rows.items.push_back(std::move(row));
    }
    return rows;
}

Json Writing::record(Index index)
{
    const Step& step = m_pack.steps[index];
    Json out = Json::object();
    out.set("act", "record").set("vessel", step.of_yard ? "" : "T-1").set("step", step.id).set("like", "example");
    const unsigned first = m_situation.person(named::who(step.id, false));
    out.set("by", nameOf(first));
    if (!step.with.empty() && m_situation.isSet(named::confirmed(step.id))) {
        out.set("with", nameOf(m_situation.person(named::who(step.id, true))));
    }
    if (!step.instrument.empty()) {
        out.set("instrument", "M-1");
        m_instruments.insert(step.instrument);
    }
    Json facts = Json::object();
    for (const Index one : step.facts) {
        const Fact& fact = m_pack.facts[one];
        if (fact.reg != kNone || fact.kind == FactKind::Derived || fact.kind == FactKind::Tag || fact.compares != kNone) {
            continue;
        }
        if (fact.kind == FactKind::Echo) {
            const Fact& of = m_pack.facts[fact.echo_of];
            const auto last = static_cast<std::size_t>(fact.echo_last);
            const std::string whole = of.example;
            facts.set(fact.key, last > 0 && whole.size() > last ? whole.substr(whole.size() - last) : whole);
            continue;
        }
        if (fact.kind == FactKind::Person) {
            // Who watches may not be busy elsewhere, and may be the one who confirms.
            facts.set(fact.key, nameOf(step.with.empty() ? first : m_situation.person(named::who(step.id, true))));
            continue;
        }
        bool like_example = true;
        Json value = valueOf(one, like_example);
        // What may be left out is written where it was told, and where a figure may need it.
        const bool told = fact.optional && (m_situation.isSet(named::has(m_meaning.keyOf(one))) || fact.kind == FactKind::Quantity);
        if (!fact.example.empty() && (told || (!fact.optional && !like_example))) {
            facts.set(fact.key, std::move(value));
        }
    }
    for (const Index one : step.registers) {
        bool like_example = true;
        Json rows = rowsOf(m_pack.registers[one], like_example);
        if (!like_example) {
            facts.set(m_pack.registers[one].key, std::move(rows));
        }
    }
    if (!facts.members.empty()) {
        out.set("facts", std::move(facts));
    }
    return out;
}

std::optional<Json> Writing::failing(Index index)
{
    const Step& step = m_pack.steps[index];
    std::vector<Index> open{step.accept};
    while (!open.empty()) { // what must all be so
        const Index at = open.back();
        open.pop_back();
        const Condition& node = m_pack.conditions[at];
        if (node.op == Op::All) {
            const auto end = static_cast<Index>(at + node.size);
            for (auto child = static_cast<Index>(at + 1); child < end; child = static_cast<Index>(child + m_pack.conditions[child].size)) {
                open.push_back(child);
            }
        }
        const bool compares = node.op == Op::Is || node.op == Op::AtMost || node.op == Op::AtLeast || node.op == Op::Between;
        const Fact* fact = compares ? &m_pack.facts[node.a] : nullptr;
        const auto wrong = fact == nullptr ? std::nullopt : wrongFor(*fact, node);
        bool like_example = true;
        Json rows = fact == nullptr || fact->reg == kNone ? Json::array() : rowsOf(m_pack.registers[fact->reg], like_example);
        if (wrong && (fact->reg == kNone || !rows.items.empty())) {
            Json out = record(index);
            m_roles[kTeller].insert(m_pack.roles[step.by.front()]);
            out.set("by", nameOf(kTeller));
            if (!step.with.empty()) {
                m_roles[kOther].insert(m_pack.roles[step.with.front()]);
                out.set("with", nameOf(kOther));
            }
            Json facts = out.find("facts") == nullptr ? Json::object() : *out.find("facts");
            for (Json& row : rows.items) {
                row.set(fact->key, *wrong);
            }
            if (fact->reg == kNone) {
                facts.set(fact->key, *wrong);
            } else {
                facts.set(m_pack.registers[fact->reg].key, std::move(rows));
            }
            out.set("facts", std::move(facts));
            return out;
        }
    }
    return std::nullopt;
}

std::optional<Json> Writing::answered(Index stop, const std::string& cause)
{
    const auto roles = m_situation.words(named::clearer(cause, false));
    if (!m_situation.isSet(named::cleared(cause)) || roles.empty()) {
        return std::nullopt;
    }
    Json out = Json::object();
    out.set("act", "clear").set("vessel", "T-1").set("stop", m_pack.stops[stop].id).set("found", "-").set("done", "-");
    out.set("by", nameOf(kClearer));
    m_roles[kClearer].insert(roles.begin(), roles.end());
    const auto others = m_situation.words(named::clearer(cause, true));
    if (m_situation.isSet(named::clearedTwice(cause)) && !others.empty()) {
        out.set("with", nameOf(kSecond));
        m_roles[kSecond].insert(others.begin(), others.end());
    }
    return out;
}

std::vector<Json> Writing::raisedBefore()
{
    std::vector<Json> out;
    for (const EventKind& event : m_pack.events) {
        const std::string cause = named::happened(event.id);
        const bool later =
            std::ranges::any_of(m_order, [&](Index step) { return m_situation.isSet(named::since(m_pack.steps[step].id, event.id)); });
        if (event.raises == kNone || later || !m_situation.isSet(cause)) {
            continue;
        }
        Json one = Json::object();
        one.set("act", "event").set("vessel", "T-1").set("event", event.id);
        out.push_back(std::move(one));
        if (auto answer = answered(event.raises, cause)) {
            out.push_back(waiting(kMinuteMs));
            out.push_back(std::move(*answer));
        }
        out.push_back(waiting(kMinuteMs));
    }
    for (std::size_t i = 0; i < m_pack.steps.size(); ++i) {
        const Step& step = m_pack.steps[i];
        const std::string cause = named::failed(step.id);
        auto record = m_situation.isSet(cause) ? failing(static_cast<Index>(i)) : std::nullopt;
        if (!record) {
            continue;
        }
        out.push_back(std::move(*record));
        if (auto answer = step.on_fail == kNone ? std::nullopt : answered(step.on_fail, cause)) {
            out.push_back(waiting(kMinuteMs));
            out.push_back(std::move(*answer));
        }
        out.push_back(waiting(kMinuteMs));
    }
    return out;
}

std::vector<Json> Writing::acts(const std::vector<Json>& before, bool release)
{
    std::vector<Json> out = before;
    std::ranges::move(raisedBefore(), std::back_inserter(out));
    const auto sameRecord = [&](const Json& one) { return std::ranges::find(before, one) != before.end(); };
    const std::string& talk = m_pack.steps[m_pack.hold_points[m_hold_point].talk].id;
    // From the last act back: each at least a minute before the next, and as old as it is said to be.
    std::vector<std::int64_t> at(m_order.size(), 0);
    std::int64_t next = 0;
    for (std::size_t i = m_order.size(); i-- > 0;) {
        const auto age = m_situation.range(named::age(m_pack.steps[m_order[i]].id));
        next = std::max(next + kMinuteMs, age.low == std::numeric_limits<std::int64_t>::min() ? 0 : age.low);
        at[i] = next;
    }
    std::int64_t now = m_order.empty() ? 0 : at.front();
    std::set<std::string> happened;
    const auto events = [&](std::size_t done) { // those that come after the records so far, and before the next
        for (const EventKind& event : m_pack.events) {
            const auto after = [&](Index step) { return m_situation.isSet(named::since(m_pack.steps[step].id, event.id)); };
            const bool all = done > 0 && after(m_order[done - 1]) && (done == m_order.size() || !after(m_order[done]));
            if (all && happened.insert(event.id).second) {
                Json one = Json::object();
                one.set("act", "event").set("vessel", "T-1").set("event", event.id);
                out.push_back(std::move(one));
                if (auto answer = event.raises == kNone ? std::nullopt : answered(event.raises, named::happened(event.id))) {
                    out.push_back(std::move(*answer));
                }
            }
        }
    };
    for (std::size_t i = 0; i < m_order.size(); ++i) {
        const Step& step = m_pack.steps[m_order[i]];
        if (at[i] < now) {
            out.push_back(waiting(now - at[i]));
            now = at[i];
        }
        Json one = record(m_order[i]);
        for (const bool second : {false, true}) {
            for (const std::string& role : m_situation.words(named::role(step.id, second))) {
                m_roles[m_situation.person(named::who(step.id, second))].insert(role);
            }
        }
        if (step.life_ms == 0 && step.voided_by.empty() && sameRecord(one)) {
            continue; // it still stands
        }
        if (!step.instrument.empty()) {
            Json check = Json::object();
            check.set("act", "instrument-check").set("instrument", "M-1").set("shown", "50 %LEL").set("expected", "50 %LEL");
            check.set("by", one.textOf("by"));
            out.push_back(std::move(check));
        }
        out.push_back(std::move(one));
        events(i + 1);
    }
    if (!release) {
        return out;
    }
    if (now > 0) {
        out.push_back(waiting(now));
    }
    const HoldPoint& hold_point = m_pack.hold_points[m_hold_point];
    for (const bool second : {false, true}) {
        for (const std::string& role : m_situation.words(named::role(talk, second))) {
            m_roles[m_situation.person(named::who(talk, second))].insert(role);
        }
    }
    Json give = Json::object();
    give.set("act", "release").set("vessel", "T-1").set("hold_point", hold_point.id).set("like", "record");
    give.set("by", nameOf(m_situation.person(named::who(talk, false)))).set("with", nameOf(m_situation.person(named::who(talk, true))));
    if (hold_point.tag_fact != kNone) {
        Json print = Json::object();
        print.set("act", "print-tag").set("vessel", "T-1");
        out.push_back(std::move(print));
        give.set("tag", "newest");
    }
    out.push_back(std::move(give));
    return out;
}

Json Writing::scenario(const std::vector<Json>& before, const std::string& about, bool release, const std::string& state)
{
    Json acted = Json::array(acts(before, release));
    // Whoever signs before is there too.
    Json people = Json::array();
    std::map<std::string, std::set<std::string>> roles;
    for (const auto& [person, its] : m_roles) {
        roles[nameOf(person)].insert(its.begin(), its.end());
    }
    const auto add = [&](std::string_view name, const std::vector<Index>& allowed) {
        auto& its = roles[std::string(name)];
        const bool holds = std::ranges::any_of(allowed, [&](Index role) { return its.contains(m_pack.roles[role]); });
        if (!name.empty() && !holds && !allowed.empty()) {
            its.insert(m_pack.roles[allowed.front()]);
        }
    };
    for (const Json& act : before) {
        if (const Index step = m_pack.step(act.textOf("step")); step != kNone) {
            add(act.textOf("by"), m_pack.steps[step].by);
            add(act.textOf("with"), m_pack.steps[step].with);
        }
        if (const Index given = m_pack.holdPoint(act.textOf("hold_point")); given != kNone) {
            add(act.textOf("by"), m_pack.hold_points[given].by);
            add(act.textOf("with"), m_pack.hold_points[given].with);
        }
    }
    std::vector<std::string> names;
    for (const auto& person : kPeople) {
        if (const auto its = roles.find(person.first); its != roles.end() && !its->second.empty()) {
            names.emplace_back(person.first);
        }
    }
    std::stable_partition(names.begin(), names.end(), [&](const std::string& name) { return roles[name].contains("authoriser"); });
    for (const std::string& name : names) {
        Json held = Json::array();
        for (const std::string& role : roles[name]) {
            held.items.emplace_back(role);
        }
        const auto known = std::ranges::find_if(kPeople, [&](const auto& person) { return name == person.first; });
        Json one = Json::object();
        one.set("name", name).set("pin", known->second).set("roles", std::move(held));
        people.items.push_back(std::move(one));
    }
    Json attributes = Json::object();
    attributes.set("sensor", "catalytic").set("calibrated_on", "methane").set("response_factor", "1.62").set("limit_basis", "2.1 %");
    Json meter = Json::object();
    meter.set("id", "M-1").set("type", "gas-meter").set("attributes", std::move(attributes)).set("calibrated_until", "2026-12-01");
    Json yard = Json::object();
    yard.set("name", "Proof").set("people", std::move(people)).set("instruments", Json::array({std::move(meter)}));
    Json admit = Json::object();
    admit.set("act", "admit").set("number", "T-1").set("by", names.empty() ? nameOf(0) : names.front());
    acted.items.insert(acted.items.begin(), std::move(admit));
    Json expected = Json::object();
    expected.set("vessel", "T-1").set("hold_point", m_pack.hold_points[m_hold_point].id);
    if (state == "held" && release) {
        acted.items.back().set("refused", state); // by a pack that does what it should
    } else {
        expected.set("state", state);
    }
    Json out = Json::object();
    out.set("about", about).set("yard", std::move(yard)).set("clock", "2026-06-14T08:00Z").set("do", std::move(acted));
    out.set("expect", Json::array({std::move(expected)}));
    return out;
}

} // namespace brimful::rules
