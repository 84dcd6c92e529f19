#include "core/rules/encoding.h"

namespace brimful::rules {

Rails Encoding::condition(Index root, Without without)
{
    const Condition& node = m_pack.conditions[root];
    if (root == without.node) {
        return without.value ? Rails{kYes, kNo} : Rails{kNo, kYes};
    }
    std::vector<Lit> trues;
    std::vector<Lit> falses;
    const std::size_t end = std::size_t{root} + node.size;
    for (std::size_t child = std::size_t{root} + 1; child < end; child += m_pack.conditions[child].size) {
        const Rails one = condition(static_cast<Index>(child), without);
        trues.push_back(one.t);
        falses.push_back(one.f);
    }
    switch (node.op) {
    case Op::All:
        return {m_solver.all(trues), m_solver.any(falses)};
    case Op::Any:
        return {m_solver.any(trues), m_solver.all(falses)};
    case Op::Not:
        return {falses.front(), trues.front()};
    case Op::KOf: {
        const auto k = static_cast<std::size_t>(node.low);
        return {m_solver.atLeast(trues, k), m_solver.atLeast(falses, falses.size() - k + 1)};
    }
    case Op::Passed:
    case Op::Failed:
    case Op::Is:
    case Op::AtMost:
    case Op::AtLeast:
    case Op::Between:
    case Op::DifferentPeople:
    case Op::NotBy:
    case Op::HasRole:
    case Op::After:
    case Op::NotSince:
    case Op::Clear:
    case Op::Given:
        return leaf(node);
    }
    return {};
}

Rails Encoding::leaf(const Condition& node)
{
    switch (node.op) {
    case Op::Passed:
        return m_atoms.passed(node.a);
    case Op::Failed: {
        const Rails passed = m_atoms.passed(node.a);
        return {passed.f, passed.t};
    }
    case Op::Is:
        return usable(m_atoms.usableFact(node.a), m_atoms.isOneOf(node.a, node.low));
    case Op::AtMost:
        return usable(m_atoms.usableFact(node.a), -m_atoms.largestAtLeast(node.a, node.high + 1));
    case Op::AtLeast:
        return usable(m_atoms.usableFact(node.a), m_atoms.smallestAtLeast(node.a, node.low));
    case Op::Between:
        return usable(m_atoms.usableFact(node.a),
            m_solver.both(m_atoms.smallestAtLeast(node.a, node.low), -m_atoms.largestAtLeast(node.a, node.high + 1)));
    case Op::DifferentPeople:
        return usable(m_solver.both(m_atoms.signatureKnown(node.a), m_atoms.signatureKnown(node.b)), -m_atoms.samePerson(node.a, node.b));
    case Op::NotBy: {
        const auto actor = static_cast<Actor>(node.b);
        const Lit there = m_atoms.actorThere(actor);
        const Rails named =
            usable(m_solver.both(m_atoms.signatureKnown(node.a), m_atoms.actorKnown(actor)), -m_atoms.actorSigned(actor, node.a));
        return {m_solver.either(-there, named.t), m_solver.both(there, named.f)};
    }
    case Op::HasRole:
        if (node.b == 1) {
            const auto actor = static_cast<Actor>(node.a);
            const Lit there = m_atoms.actorThere(actor);
            const Lit holds = m_atoms.actorHasRole(actor, node.low);
            return {m_solver.either(-there, holds), m_solver.both(there, -holds)};
        }
        return usable(m_atoms.roleKnown(node.a), m_atoms.hasRole(node.a, node.low));
    case Op::After:
        return usable(m_solver.both(m_atoms.usableStep(node.a), m_atoms.usableStep(node.b)), m_atoms.knows(node.a, node.b));
    case Op::NotSince:
        return usable(m_solver.both(m_atoms.whole(), m_atoms.usableStep(node.a)), -m_atoms.since(node.a, node.b));
    case Op::Clear:
        return {m_solver.both(m_atoms.whole(), -m_atoms.raised(node.a)), m_atoms.raised(node.a)};
    case Op::Given:
        return {m_solver.both(m_atoms.whole(), m_atoms.given(node.a)), kNo};
    case Op::All:
    case Op::Any:
    case Op::Not:
    case Op::KOf:
        break;
    }
    return {};
}

Rails Encoding::rules(const std::vector<Rule>& list, bool stop, Without without)
{
    Rails out{kYes, kNo};
    for (const Rule& rule : list) {
        const Rails one = condition(rule.condition, without);
        out = both(out, stop ? Rails{one.f, one.t} : one);
    }
    return out;
}

Rails Encoding::lasting(Index index, Without without)
{
    const HoldPoint& hold_point = m_pack.hold_points[index];
    Rails out = both(rules(hold_point.require, false, without), rules(hold_point.stop, true, without));
    Lit refused = kNo;
    for (std::size_t i = 0; i < m_pack.stops.size(); ++i) {
        if (m_refusals && m_pack.stops[i].refuses) {
            refused = m_solver.either(refused, m_atoms.raised(static_cast<Index>(i)));
        }
    }
    const Lit known = m_solver.both(m_atoms.whole(), m_atoms.clockTrusted());
    return {m_solver.both(m_solver.both(out.t, known), -refused), m_solver.either(out.f, refused)};
}

Rails Encoding::giving(Index index, Without without)
{
    return both(lasting(index, without), rules(m_pack.hold_points[index].at_giving, false, without));
}

} // namespace brimful::rules
