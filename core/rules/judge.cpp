#include "core/rules/standing.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <functional>

namespace brimful::rules {

namespace {

struct Judge {
    std::span<const Condition> tree;
    const Evidence& evidence;
    const Actors& actors;

    [[nodiscard]] Judged at(std::size_t index) const
    {
        const Condition& node = tree[index];
        switch (node.op) {
        case Op::All:
            return all(index);
        case Op::Any:
            return any(index);
        case Op::Not:
            return negated(at(index + 1));
        case Op::KOf:
            return kOf(index);
        case Op::Passed:
            return step(node.a, Truth::True);
        case Op::Failed:
            return step(node.a, Truth::False);
        case Op::Is:
            return fact(node, [&](const Held& held) { return (held.count & ~node.low) == 0 && held.count != 0; });
        case Op::AtMost:
            return fact(node, [&](const Held& held) { return held.count <= node.high; });
        case Op::AtLeast:
            return fact(node, [&](const Held& held) { return held.least >= node.low; });
        case Op::Between:
            return fact(node, [&](const Held& held) { return held.least >= node.low && held.count <= node.high; });
        case Op::DifferentPeople:
            return differentPeople(node);
        case Op::NotBy:
            return notBy(node);
        case Op::HasRole:
            return hasRole(node);
        case Op::After:
            return after(node);
        case Op::NotSince:
            return notSince(node);
        case Op::Clear:
            return clear(node);
        case Op::Given:
            return given(node);
        }
        return {};
    }

    // True: the earliest end among all. False: what must all end before it stops being False is the latest of the False ones.
    [[nodiscard]] Judged all(std::size_t index) const
    {
        Judged out{Truth::True, kNever};
        std::int64_t latest_false = 0;
        const std::size_t end = index + tree[index].size;
        for (std::size_t child = index + 1; child < end; child += tree[child].size) {
            const Judged one = at(child);
            if (one.truth == Truth::False) {
                latest_false = std::max(latest_false, one.until_ms);
            }
            if (one.truth < out.truth) {
                out.truth = one.truth;
            }
            out.until_ms = std::min(out.until_ms, one.until_ms);
        }
        return finish(out.truth, out.until_ms, latest_false);
    }

    [[nodiscard]] Judged any(std::size_t index) const
    {
        Truth truth = Truth::False;
        std::int64_t latest_true = 0;
        std::int64_t earliest_false = kNever;
        const std::size_t end = index + tree[index].size;
        for (std::size_t child = index + 1; child < end; child += tree[child].size) {
            const Judged one = at(child);
            truth = std::max(truth, one.truth);
            if (one.truth == Truth::True) {
                latest_true = std::max(latest_true, one.until_ms);
            } else if (one.truth == Truth::False) {
                earliest_false = std::min(earliest_false, one.until_ms);
            }
        }
        return finish(truth, latest_true, earliest_false);
    }

    static Judged finish(Truth truth, std::int64_t true_until, std::int64_t false_until)
    {
        switch (truth) {
        case Truth::True:
            return {truth, true_until};
        case Truth::False:
            return {truth, false_until};
        case Truth::Unknown:
            break;
        }
        return {Truth::Unknown, kNever};
    }

    static Judged negated(Judged one)
    {
        switch (one.truth) {
        case Truth::True:
            return {Truth::False, one.until_ms};
        case Truth::False:
            return {Truth::True, one.until_ms};
        case Truth::Unknown:
            break;
        }
        return {Truth::Unknown, kNever};
    }

    // True when at least k are True; False when fewer than k can still be.
    [[nodiscard]] Judged kOf(std::size_t index) const
    {
        std::array<std::int64_t, 256> ends; // of the True ones from the front, of the False ones from the back; not zeroed: half the time
        auto trues = ends.begin();
        auto falses = ends.end();
        std::size_t n = 0;
        const std::size_t end = index + tree[index].size;
        for (std::size_t child = index + 1; child < end; child += tree[child].size, ++n) {
            assert(trues != falses);
            const Judged one = at(child);
            if (one.truth == Truth::True) {
                *trues++ = one.until_ms;
            } else if (one.truth == Truth::False) {
                *--falses = one.until_ms;
            }
        }
        const std::ptrdiff_t k = tree[index].low;
        if (trues - ends.begin() >= k) { // until the k-th longest of them ends
            std::nth_element(ends.begin(), ends.begin() + (k - 1), trues, std::greater<>());
            return {Truth::True, ends.at(static_cast<std::size_t>(k - 1))};
        }
        const auto can_be = static_cast<std::ptrdiff_t>(n) - (ends.end() - falses);
        if (can_be < k) { // until enough False ones may have become unknown: n - k of them are not enough to be False
            const auto needed = falses + (static_cast<std::ptrdiff_t>(n) - k);
            std::nth_element(falses, needed, ends.end(), std::greater<>());
            return {Truth::False, *needed};
        }
        return {Truth::Unknown, kNever};
    }

    // Usable, and still so now: evidence that was folded a while ago ages by `now` alone.
    template <class Any> [[nodiscard]] bool counts(const Any& held) const
    {
        return held.lack == Lack::None && held.lapses_ms > evidence.now_ms;
    }

    [[nodiscard]] Judged step(Index index, Truth wanted) const
    {
        const StepHeld& held = evidence.steps[index];
        if (!counts(held) || held.passed == Truth::Unknown) {
            return {};
        }
        return {held.passed == wanted ? Truth::True : Truth::False, held.lapses_ms};
    }

    template <class Test> [[nodiscard]] Judged fact(const Condition& node, const Test& test) const
    {
        const Held& held = evidence.facts[node.a];
        if (!counts(held)) {
            return {};
        }
        return {test(held) ? Truth::True : Truth::False, held.lapses_ms};
    }

    [[nodiscard]] std::uint16_t personOf(SignatureRef signature) const
    {
        const StepHeld& held = evidence.steps[signature / 2U];
        if (!counts(held)) {
            return kNobody;
        }
        return signature % 2U == 0 ? held.person : held.second;
    }
    [[nodiscard]] std::int64_t lapseOf(SignatureRef signature) const { return evidence.steps[signature / 2U].lapses_ms; }

    [[nodiscard]] Judged differentPeople(const Condition& node) const
    {
        const std::uint16_t a = personOf(node.a);
        const std::uint16_t b = personOf(node.b);
        if (a == kNobody || b == kNobody) {
            return {};
        }
        return {a != b ? Truth::True : Truth::False, std::min(lapseOf(node.a), lapseOf(node.b))};
    }

    [[nodiscard]] const std::optional<ActorHeld>& actor(std::uint16_t which) const
    {
        return which == static_cast<std::uint16_t>(Actor::By) ? actors.by : actors.with;
    }

    // With nobody about to sign the leaf holds nothing back: it is judged again, with names, when somebody signs.
    [[nodiscard]] Judged notBy(const Condition& node) const
    {
        const auto& who = actor(node.b);
        if (!who) {
            return {Truth::True, kNever};
        }
        const std::uint16_t person = personOf(node.a);
        if (person == kNobody || who->person == kNobody) {
            return {};
        }
        return {person != who->person ? Truth::True : Truth::False, lapseOf(node.a)};
    }

    [[nodiscard]] Judged hasRole(const Condition& node) const
    {
        if (node.b == 1) {
            const auto& who = actor(node.a);
            if (!who) {
                return {Truth::True, kNever};
            }
            return {(who->roles & static_cast<std::uint64_t>(node.low)) != 0 ? Truth::True : Truth::False, kNever};
        }
        const StepHeld& held = evidence.steps[node.a / 2U];
        const std::uint16_t role = node.a % 2U == 0 ? held.role : held.second_role;
        if (!counts(held) || role >= 63) {
            return {};
        }
        return {((node.low >> role) & 1) != 0 ? Truth::True : Truth::False, held.lapses_ms};
    }

    [[nodiscard]] Judged after(const Condition& node) const
    {
        const StepHeld& held = evidence.steps[node.a];
        const StepHeld& earlier = evidence.steps[node.b];
        if (!counts(held) || !counts(earlier)) {
            return {};
        }
        return {((held.knows >> node.b) & 1U) != 0 ? Truth::True : Truth::False, std::min(held.lapses_ms, earlier.lapses_ms)};
    }

    // Rests on an absence, so it is unknown unless the history is whole.
    [[nodiscard]] Judged notSince(const Condition& node) const
    {
        const StepHeld& held = evidence.steps[node.a];
        if (!evidence.whole || !counts(held)) {
            return {};
        }
        return {((evidence.event_after[node.b] >> node.a) & 1U) == 0 ? Truth::True : Truth::False, held.lapses_ms};
    }

    [[nodiscard]] Judged clear(const Condition& node) const
    {
        if (evidence.stops[node.a].raised != kNoEntry) {
            return {Truth::False, kNever};
        }
        return {evidence.whole ? Truth::True : Truth::Unknown, kNever};
    }

    [[nodiscard]] Judged given(const Condition& node) const
    {
        const ReleaseHeld& release = evidence.releases[node.a];
        const bool stands = release.confirmed != kNoEntry && release.at_giving == Truth::True && !release.withdrawn;
        return {stands && evidence.whole ? Truth::True : Truth::Unknown, kNever};
    }
};

} // namespace

Judged judge(std::span<const Condition> tree, const Evidence& evidence, const Actors& actors)
{
    return Judge{tree, evidence, actors}.at(0);
}

} // namespace brimful::rules
