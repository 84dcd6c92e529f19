#include "core/rules/blockers.h"

#include <algorithm>
#include <utility>

namespace brimful::rules {

namespace {

struct Collector {
    const Pack& pack;
    const Evidence& evidence;
    const Actors& actors;
    const Blocker& about;

    [[nodiscard]] Truth truthAt(Index index) const { return judge(std::span(pack.conditions).subspan(index), evidence, actors).truth; }

    [[nodiscard]] std::vector<Index> children(Index index) const
    {
        std::vector<Index> out;
        const auto end = static_cast<Index>(index + pack.conditions[index].size);
        for (auto child = static_cast<Index>(index + 1); child < end; child = static_cast<Index>(child + pack.conditions[child].size)) {
            out.push_back(child);
        }
        return out;
    }

    void every(Index index, Truth wanted, std::vector<Blocker>& out) const
    {
        for (const Index child : children(index)) {
            if (truthAt(child) != wanted) {
                collect(child, wanted, out);
            }
        }
    }

    // Tried, and not good enough: whoever goes that way is told what is wrong with it, not to begin another.
    [[nodiscard]] bool tried(const Blocker& one) const
    {
        return pack.conditions[one.leaf].op == Op::Passed
            && (one.status == Lack::WrongValue || one.status == Lack::Error || one.status == Lack::Instrument);
    }

    // The `count` cheapest of the children that are not yet as wanted; of equal ones that which was tried.
    void cheapest(Index index, Truth wanted, std::size_t count, std::vector<Blocker>& out) const
    {
        std::vector<std::vector<Blocker>> branches;
        for (const Index child : children(index)) {
            if (truthAt(child) != wanted) {
                branches.emplace_back();
                collect(child, wanted, branches.back());
            }
        }
        std::ranges::stable_sort(branches, {}, [this](const std::vector<Blocker>& branch) {
            return std::pair(branch.size(), std::ranges::none_of(branch, [this](const Blocker& one) { return tried(one); }));
        });
        for (std::size_t i = 0; i < std::min(count, branches.size()); ++i) {
            out.insert(out.end(), branches[i].begin(), branches[i].end());
        }
    }

    void collect(Index index, Truth wanted, std::vector<Blocker>& out) const
    {
        const Condition& node = pack.conditions[index];
        switch (node.op) {
        case Op::All:
            wanted == Truth::True ? every(index, wanted, out) : cheapest(index, wanted, 1, out);
            return;
        case Op::Any:
            wanted == Truth::True ? cheapest(index, wanted, 1, out) : every(index, wanted, out);
            return;
        case Op::Not:
            collect(static_cast<Index>(index + 1), wanted == Truth::True ? Truth::False : Truth::True, out);
            return;
        case Op::KOf: {
            const auto all = children(index);
            const auto done = static_cast<std::size_t>(std::ranges::count_if(all, [&](Index child) { return truthAt(child) == wanted; }));
            const auto k = static_cast<std::size_t>(node.low);
            const std::size_t needed = wanted == Truth::True ? k : all.size() - k + 1;
            cheapest(index, wanted, needed > done ? needed - done : 0, out);
            return;
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
            out.push_back(leaf(index));
            return;
        }
    }

    [[nodiscard]] Blocker leaf(Index index) const
    {
        const Condition& node = pack.conditions[index];
        Blocker out = about;
        out.leaf = index;
        switch (node.op) {
        case Op::Passed:
        case Op::Failed:
            ofStep(out, node.a, Lack::WrongValue);
            break;
        case Op::Is:
        case Op::AtMost:
        case Op::AtLeast:
        case Op::Between:
            ofFact(out, node.a);
            break;
        case Op::DifferentPeople:
            ofStep(out, static_cast<Index>(node.a / 2), Lack::WrongPerson);
            if (lackNow(evidence.steps[node.a / 2]) == Lack::None && lackNow(evidence.steps[node.b / 2]) != Lack::None) {
                ofStep(out, static_cast<Index>(node.b / 2), Lack::WrongPerson);
            }
            break;
        case Op::NotBy:
            ofStep(out, static_cast<Index>(node.a / 2), Lack::WrongPerson);
            break;
        case Op::HasRole:
            if (node.b == 1) {
                out.status = Lack::WrongPerson;
            } else {
                ofStep(out, static_cast<Index>(node.a / 2), Lack::WrongPerson);
            }
            break;
        case Op::After:
            ofStep(out, node.a, Lack::WrongOrder);
            if (lackNow(evidence.steps[node.a]) == Lack::None && lackNow(evidence.steps[node.b]) != Lack::None) {
                ofStep(out, node.b, Lack::WrongOrder);
            }
            break;
        case Op::NotSince:
            ofStep(out, node.a, evidence.whole ? Lack::Voided : Lack::HistoryGap);
            break;
        case Op::Clear:
            out.stop = node.a;
            out.entry = evidence.stops[node.a].raised;
            out.status = out.entry != kNoEntry ? Lack::WrongValue : Lack::HistoryGap;
            break;
        case Op::Given:
            out.needs_hold_point = node.a;
            out.entry = evidence.releases[node.a].confirmed;
            out.status = evidence.whole ? Lack::Missing : Lack::HistoryGap;
            break;
        case Op::All:
        case Op::Any:
        case Op::Not:
        case Op::KOf:
            break;
        }
        return out;
    }

    template <class Any> [[nodiscard]] Lack lackNow(const Any& held) const
    {
        return held.lack == Lack::None && held.lapses_ms <= evidence.now_ms ? Lack::Lapsed : held.lack;
    }

    void ofStep(Blocker& out, Index step, Lack when_usable) const
    {
        const StepHeld& held = evidence.steps[step];
        const Lack lack = lackNow(held);
        out.status = lack != Lack::None ? lack : held.passed == Truth::Unknown ? Lack::Error : when_usable;
        out.entry = held.entry;
        out.lifted_by = step;
    }

    void ofFact(Blocker& out, Index fact) const
    {
        const Held& held = evidence.facts[fact];
        const Lack lack = lackNow(held);
        out.status = lack != Lack::None ? lack : Lack::WrongValue;
        out.entry = held.entry;
        out.lifted_by = pack.facts[fact].step;
    }
};

} // namespace

void collectBlockers(const Pack& pack, const Evidence& evidence, const Actors& actors, Index root, Truth wanted, const Blocker& about,
    std::vector<Blocker>& out)
{
    Collector{pack, evidence, actors, about}.collect(root, wanted, out);
}

} // namespace brimful::rules
