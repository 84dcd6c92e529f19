#include "core/rules/meaning.h"

#include <algorithm>
#include <utility>

namespace brimful::rules {

namespace named {

std::string recorded(const std::string& step) { return "recorded " + step; }
std::string clean(const std::string& step) { return "clean " + step; }
std::string own(const std::string& step) { return "own " + step; }
std::string role(const std::string& step, bool second) { return (second ? "role2 " : "role ") + step; }
std::string confirmed(const std::string& step) { return "confirmed " + step; }
std::string who(const std::string& step, bool second) { return (second ? "who2 " : "who ") + step; }
std::string age(const std::string& step) { return "age " + step; }
std::string since(const std::string& step, const std::string& event) { return "since " + step + " " + event; }
std::string knows(const std::string& step, const std::string& earlier) { return "knows " + step + " " + earlier; }
std::string instrument(const std::string& step, const std::string& kind) { return "instrument " + step + " " + kind; }
std::string checkAge(const std::string& step) { return "check-age " + step; }
std::string checkOff(const std::string& step) { return "check-off " + step; }
std::string has(const std::string& fact) { return "has " + fact; }
std::string idle(const std::string& fact) { return "idle " + fact; }
std::string largest(const std::string& fact) { return "largest " + fact; }
std::string smallest(const std::string& fact) { return "smallest " + fact; }
std::string words(const std::string& fact) { return "words " + fact; }
std::string row(const std::string& table, const std::string& member) { return "row " + table + " " + member; }
std::string rowsOf(const std::string& table, const std::string& from) { return "rows-of " + table + " " + from; }
std::string anyRow(const std::string& table) { return "any-row " + table; }
std::string noRow(const std::string& table) { return "no-row " + table; }
std::string spread(const std::string& table) { return "spread " + table; }
std::string failed(const std::string& step) { return "failed " + step; }
std::string happened(const std::string& event) { return "happened " + event; }
std::string cleared(const std::string& cause) { return "cleared " + cause; }
std::string clearedTwice(const std::string& cause) { return "cleared-twice " + cause; }
std::string clearer(const std::string& cause, bool second) { return (second ? "clearer2 " : "clearer ") + cause; }
std::string gave(const std::string& hold_point) { return "gave " + hold_point; }
std::string givenAge(const std::string& hold_point) { return "given-age " + hold_point; }
std::string givenSince(const std::string& hold_point, const std::string& event) { return "given-since " + hold_point + " " + event; }

} // namespace named

namespace {

constexpr std::int64_t kDayMs = 24LL * 60 * 60 * 1000;

bool isRecorded(const Fact& fact) { return fact.kind != FactKind::Derived && fact.kind != FactKind::Tag && fact.compares == kNone; }

// Every fact or table that a figure's inputs name.
template <class Visit> void eachSource(const canon::Json& node, const Visit& visit)
{
    for (const char* key : {"fact", "rows"}) {
        if (const canon::Json* name = node.find(key); name != nullptr && name->is(canon::Type::String)) {
            visit(name->text);
        }
    }
    for (const canon::Member& member : node.members) {
        eachSource(member.value, visit);
    }
    for (const canon::Json& item : node.items) {
        eachSource(item, visit);
    }
}

void parametersOf(const canon::Json& node, const Pack& pack, std::string& out)
{
    if (const canon::Json* name = node.find("parameter"); name != nullptr) {
        const Parameter* known = pack.parameter(name->text);
        out += " " + name->text + "=" + (known == nullptr ? std::string() : std::to_string(known->count));
    }
    for (const canon::Member& member : node.members) {
        parametersOf(member.value, pack, out);
    }
}

} // namespace

Meaning::Meaning(const Pack& its_pack, Situation& its_situation)
    : m_pack(its_pack)
    , m_situation(its_situation)
    , m_solver(its_situation.solver)
    , m_encoding(its_pack, *this, its_situation.solver)
{
}

std::string Meaning::keyOf(Index index)
{
    auto& key = m_keys[index];
    if (key.empty()) {
        const Fact& fact = m_pack.facts[index];
        key = fact.id;
        if (fact.derived) {
            std::string made = fact.derived->figure + std::to_string(fact.derived->version) + fact.derived->output + fact.unit
                + (fact.derived->round_up ? "up" : "down") + (fact.derived->warnings_unusable ? "unusable" : "noted")
                + canon::canonical(fact.derived->inputs);
            parametersOf(fact.derived->inputs, m_pack, made);
            key += " " + canon::toHex(canon::sha256(made)).substr(0, 12);
        } else if (fact.compares != kNone && fact.echo_of != kNone) {
            key += " " + m_pack.facts[fact.echo_of].id;
        } else if (!fact.unit.empty()) {
            key += " " + fact.unit;
        }
    }
    return key;
}

Lit Meaning::oneOfRoles(const std::string& choice, const std::vector<Index>& roles)
{
    Lit out = kNo;
    for (const Index role : roles) {
        out = m_solver.either(out, m_situation.word(choice, m_pack.roles[role]));
    }
    return out;
}

Lit Meaning::signersGood(Index index)
{
    const Step& step = m_pack.steps[index];
    Lit out = oneOfRoles(named::role(step.id, false), step.by);
    if (!step.with.empty()) {
        const Lit second = m_situation.bit(named::confirmed(step.id));
        m_solver.clause({-second, -m_situation.samePerson(named::who(step.id, false), named::who(step.id, true))});
        out = m_solver.both(out, m_solver.both(second, oneOfRoles(named::role(step.id, true), step.with)));
    }
    return out;
}

Lit Meaning::instrumentGood(const Step& step)
{
    if (step.instrument.empty()) {
        return kYes;
    }
    const Parameter* life = m_pack.parameter("bump-life");
    const Parameter* off = m_pack.parameter("bump-tolerance");
    const std::int64_t life_ms = life != nullptr ? life->count * 1000 : kDayMs;
    const std::int64_t off_ppm = off != nullptr ? off->count : 100'000;
    const Lit checked = m_solver.both(
        -m_situation.atLeast(named::checkAge(step.id), life_ms + 1), -m_situation.atLeast(named::checkOff(step.id), off_ppm + 1));
    return m_solver.both(m_situation.bit(named::instrument(step.id, step.instrument)), checked);
}

Lit Meaning::counting(Index index)
{
    if (const auto known = m_counting.find(index); known != m_counting.end()) {
        return known->second;
    }
    const Step& step = m_pack.steps[index];
    std::vector<Lit> all{
        m_situation.bit(named::recorded(step.id)), m_situation.bit(named::clean(step.id)), signersGood(index), instrumentGood(step)};
    if (!step.of_yard) {
        all.push_back(m_situation.bit(named::own(step.id)));
    }
    if (step.life_ms > 0) {
        all.push_back(-m_situation.atLeast(named::age(step.id), step.life_ms));
    }
    for (const Index event : step.voided_by) {
        all.push_back(-since(index, event));
    }
    for (const Index need : step.needs) {
        all.push_back(knows(index, need));
    }
    return m_counting[index] = m_solver.all(all);
}

Lit Meaning::hasFact(Index index)
{
    const Fact& fact = m_pack.facts[index];
    const std::string key = keyOf(index);
    std::vector<Lit> all{m_situation.bit(named::has(key))};
    if (!fact.options.empty() && fact.kind != FactKind::Echo) {
        Lit any = kNo;
        for (const std::string& option : fact.options) {
            any = m_solver.either(
                any, fact.reg == kNone ? m_situation.word(named::words(key), option) : m_situation.wordOfSome(named::words(key), option));
        }
        all.push_back(any);
    }
    if (fact.compares != kNone) {
        all.push_back(hasFact(fact.compares));
    }
    if (fact.exclusive) {
        all.push_back(m_situation.bit(named::idle(key)));
    }
    if (fact.reg != kNone) {
        all.push_back(rowsWhole(fact.reg));
    }
    if (fact.kind == FactKind::Echo && fact.echo_of != kNone && m_pack.facts[fact.echo_of].step != fact.step && !m_raw) {
        all.push_back(usableFact(fact.echo_of));
    }
    if (fact.derived) {
        eachSource(fact.derived->inputs, [&](const std::string& name) {
            const Index from = m_pack.fact(name);
            const Index table = m_pack.registerOf(name);
            const Index step = from != kNone ? m_pack.facts[from].step : table != kNone ? m_pack.registers[table].step : kNone;
            if (step != kNone && step != fact.step && !m_raw && (from == kNone || !m_pack.facts[from].optional)) {
                all.push_back(counting(step));
            }
        });
    }
    return m_solver.all(all);
}

Lit Meaning::rowsWhole(Index index)
{
    const Register& table = m_pack.registers[index];
    std::vector<Lit> all{m_situation.bit(named::anyRow(table.id)), -m_situation.bit(named::noRow(table.id))};
    if (table.within_ms > 0) {
        all.push_back(-m_situation.atLeast(named::spread(table.id), table.within_ms + 1));
    }
    if (!table.defines) {
        for (const std::string& member : table.members) {
            all.push_back(m_situation.bit(named::row(table.id, member)));
        }
    }
    if (table.members_from != kNone) {
        const Register& from = m_pack.registers[table.members_from];
        all.push_back(m_situation.bit(named::rowsOf(table.id, from.id)));
        if (!m_raw) {
            all.push_back(counting(from.step));
        }
    }
    return m_solver.all(all);
}

Lit Meaning::usableFact(Index index)
{
    const Lit has = hasFact(index);
    return m_raw ? has : m_solver.both(counting(m_pack.facts[index].step), has);
}

Lit Meaning::usableStep(Index index)
{
    if (const auto known = m_usable.find(index); known != m_usable.end()) {
        return known->second;
    }
    const bool before = std::exchange(m_raw, false);
    std::vector<Lit> all{counting(index)};
    for (const Index one : m_pack.steps[index].facts) {
        const Fact& fact = m_pack.facts[one];
        if (!isRecorded(fact) || fact.optional) {
            continue;
        }
        Lit there = hasFact(one);
        if (fact.reg != kNone && m_pack.registers[fact.reg].defines) {
            there = m_solver.either(there, m_situation.bit(named::noRow(m_pack.registers[fact.reg].id)));
        }
        all.push_back(there);
    }
    m_raw = before;
    return m_usable[index] = m_solver.all(all);
}

Rails Meaning::accepts(Index step, Without without) { return m_encoding.condition(m_pack.steps[step].accept, without); }

Rails Meaning::passed(Index step)
{
    if (const auto known = m_passed.find(step); known != m_passed.end()) {
        return known->second;
    }
    const Lit there = usableStep(step);
    const Rails accepted = accepts(step);
    return m_passed[step] = Rails{m_solver.both(there, accepted.t), m_solver.both(there, accepted.f)};
}

// The place of the first character that differs, counted from the end: beyond the last that is compared.
Lit Meaning::equalIn(const std::string& echo, int last)
{
    constexpr std::int64_t kWholeText = 1'000'000;
    return m_situation.atLeast(echo, last == 0 ? kWholeText : last + 1);
}

Lit Meaning::echoes(Index index, int last)
{
    const Fact& fact = m_pack.facts[index];
    return equalIn("echo " + keyOf(index) + " " + (fact.echo_of == kNone ? std::string() : m_pack.facts[fact.echo_of].id), last);
}

Lit Meaning::says(Index fact)
{
    const std::string& step = m_pack.steps[m_pack.facts[fact].step].id;
    const bool before = std::exchange(m_raw, true);
    const Lit has = hasFact(fact);
    m_raw = before;
    return m_solver.both(has, m_solver.both(m_situation.bit(named::recorded(step)), m_situation.bit(named::clean(step))));
}

Lit Meaning::isOneOf(Index index, std::int64_t options)
{
    const Fact& fact = m_pack.facts[index];
    const std::string key = keyOf(index);
    if (fact.kind == FactKind::Echo) {
        const Lit equal = echoes(index, fact.echo_last);
        return m_solver.either(
            m_solver.both((options & 1) != 0 ? kYes : kNo, equal), m_solver.both((options & 2) != 0 ? kYes : kNo, -equal));
    }
    std::vector<Lit> inside;
    std::vector<Lit> outside;
    for (std::size_t i = 0; i < fact.options.size(); ++i) {
        const Lit word = fact.reg == kNone ? m_situation.word(named::words(key), fact.options[i])
                                           : m_situation.wordOfSome(named::words(key), fact.options[i]);
        (((options >> i) & 1) != 0 ? inside : outside).push_back(word);
    }
    return m_solver.both(m_solver.any(inside), -m_solver.any(outside));
}

Lit Meaning::largestAtLeast(Index fact, std::int64_t count) { return m_situation.atLeast(named::largest(keyOf(fact)), count); }

Lit Meaning::smallestAtLeast(Index index, std::int64_t count)
{
    const std::string key = keyOf(index);
    const Lit largest = m_situation.atLeast(named::largest(key), count);
    if (m_pack.facts[index].reg == kNone) {
        return largest;
    }
    const Lit smallest = m_situation.atLeast(named::smallest(key), count);
    m_solver.clause({-smallest, largest});
    return smallest;
}

Lit Meaning::signatureKnown(SignatureRef signature)
{
    const auto step = static_cast<Index>(signature / 2U);
    const Lit usable = usableStep(step);
    return signature % 2U == 0 ? usable : m_solver.both(usable, m_situation.bit(named::confirmed(m_pack.steps[step].id)));
}

Lit Meaning::samePerson(SignatureRef a, SignatureRef b)
{
    return m_situation.samePerson(named::who(m_pack.steps[a / 2U].id, a % 2U == 1), named::who(m_pack.steps[b / 2U].id, b % 2U == 1));
}

Lit Meaning::roleKnown(SignatureRef signature) { return signatureKnown(signature); }

Lit Meaning::hasRole(SignatureRef signature, std::int64_t roles)
{
    std::vector<Index> wanted;
    for (std::size_t i = 0; i < m_pack.roles.size(); ++i) {
        if (((roles >> i) & 1) != 0) {
            wanted.push_back(static_cast<Index>(i));
        }
    }
    return oneOfRoles(named::role(m_pack.steps[signature / 2U].id, signature % 2U == 1), wanted);
}

Lit Meaning::actorSigned(Actor actor, SignatureRef signature)
{
    return m_situation.samePerson(
        named::who(m_pack.steps[m_giver].id, actor == Actor::With), named::who(m_pack.steps[signature / 2U].id, signature % 2U == 1));
}

Lit Meaning::actorHasRole(Actor actor, std::int64_t roles)
{
    return hasRole(static_cast<SignatureRef>(m_giver * 2 + (actor == Actor::With ? 1 : 0)), roles);
}

Lit Meaning::knows(Index step, Index earlier)
{
    const Lit knows = m_situation.bit(named::knows(m_pack.steps[step].id, m_pack.steps[earlier].id));
    m_solver.clause({-knows, m_situation.bit(named::recorded(m_pack.steps[earlier].id))});
    return knows;
}

Lit Meaning::since(Index step, Index event)
{
    const Lit since = m_situation.bit(named::since(m_pack.steps[step].id, m_pack.events[event].id));
    m_solver.clause({-since, m_situation.bit(named::happened(m_pack.events[event].id))});
    return since;
}

Lit Meaning::clearedFor(const StopKind& stop, const std::string& cause)
{
    Lit out = m_solver.both(m_situation.bit(named::cleared(cause)), oneOfRoles(named::clearer(cause, false), stop.cleared_by));
    if (!stop.cleared_with.empty()) {
        out = m_solver.both(
            out, m_solver.both(m_situation.bit(named::clearedTwice(cause)), oneOfRoles(named::clearer(cause, true), stop.cleared_with)));
    }
    return out;
}

Lit Meaning::raised(Index index)
{
    const StopKind& stop = m_pack.stops[index];
    Lit out = kNo;
    for (std::size_t s = 0; s < m_pack.steps.size(); ++s) {
        const Step& step = m_pack.steps[s];
        if (step.on_fail != index) {
            continue;
        }
        const bool before = std::exchange(m_raw, true);
        const Rails accepted = accepts(static_cast<Index>(s));
        m_raw = before;
        const Lit newest = m_solver.both(m_situation.bit(named::recorded(step.id)), accepted.f);
        const std::string cause = named::failed(step.id);
        const Lit failing = m_solver.either(newest, m_situation.bit(cause));
        out = m_solver.either(out, m_solver.both(failing, -clearedFor(stop, cause)));
    }
    for (const EventKind& event : m_pack.events) {
        if (event.raises == index) {
            const std::string cause = named::happened(event.id);
            out = m_solver.either(out, m_solver.both(m_situation.bit(cause), -clearedFor(stop, cause)));
        }
    }
    return out;
}

Lit Meaning::given(Index hold_point) { return m_situation.bit(named::gave(m_pack.hold_points[hold_point].id)); }

Lit Meaning::giving(Index index, Without without)
{
    m_giver = m_pack.hold_points[index].talk;
    const std::string& talk = m_pack.steps[m_giver].id;
    const Lit two = -m_situation.samePerson(named::who(talk, false), named::who(talk, true));
    return m_solver.both(two, m_encoding.giving(index, without).t);
}

Lit Meaning::holding(Index index, Without without)
{
    const HoldPoint& hold_point = m_pack.hold_points[index];
    m_giver = hold_point.talk;
    std::vector<Lit> all{
        given(index), -m_situation.atLeast(named::givenAge(hold_point.id), hold_point.lasts_ms), m_encoding.lasting(index, without).t};
    for (const Index event : hold_point.ended_by) {
        const Lit since = m_situation.bit(named::givenSince(hold_point.id, m_pack.events[event].id));
        m_solver.clause({-since, m_situation.bit(named::happened(m_pack.events[event].id))});
        all.push_back(-since);
    }
    return m_solver.all(all);
}

} // namespace brimful::rules
