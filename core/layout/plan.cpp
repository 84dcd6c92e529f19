#include "core/layout/plan.h"

#include <algorithm>
#include <cmath>

namespace brimful::layout {

namespace {

double apart(double from, double to, double otherFrom, double otherTo) { return std::max({0.0, otherFrom - to, from - otherTo}); }

} // namespace

double gapBetween(const Footprint& a, const Footprint& b, double girth)
{
    const double along = apart(a.along, a.alongTo, b.along, b.alongTo);
    double around = HUGE_VAL;
    for (const double turn : {-girth, 0.0, girth}) {
        around = std::min(around, apart(a.around, a.aroundTo, b.around + turn, b.aroundTo + turn));
    }
    return std::max(0.0, std::hypot(along, around) - a.radius - b.radius);
}

double clearanceOf(const Clearances& clearances, Kind kind)
{
    switch (kind) {
    case Kind::Seam:
        return clearances.seam;
    case Kind::GirthSeam:
        return clearances.girthSeam;
    case Kind::Pad:
        return clearances.pad;
    case Kind::Nozzle:
        return clearances.nozzle;
    case Kind::Foot:
        return clearances.foot;
    case Kind::Door:
    case Kind::CutOut:
    case Kind::RoundCutOut:
        return clearances.cut;
    }
    return 0;
}

std::vector<Clash> clashes(std::span<const Placed> all, const Clearances& clearances, double girth, double tolerance)
{
    std::vector<Clash> out;
    for (std::size_t i = 0; i < all.size(); ++i) {
        for (std::size_t j = 0; j < all.size(); ++j) {
            if (i == j || !isCut(all[i].kind) || (isCut(all[j].kind) && j < i)) {
                continue;
            }
            const double gap = gapBetween(all[i].at, all[j].at, girth) - tolerance;
            const double needed = clearanceOf(clearances, all[j].kind);
            if (gap < needed - 1e-9) {
                out.push_back({i, j, std::max(0.0, gap), needed});
            }
        }
    }
    return out;
}

std::vector<Work> orderOfWork(std::span<const Placed> all, bool straps)
{
    std::vector<Work> out;
    const auto each = [&](Act act, auto&& wanted) {
        for (std::size_t i = 0; i < all.size(); ++i) {
            if (wanted(all[i])) {
                out.push_back({act, i});
            }
        }
    };
    const auto door = [](const Placed& one) { return one.kind == Kind::Door; };
    each(Act::CutOut, [&](const Placed& one) { return isCut(one.kind) && !door(one); });
    each(Act::CutToTabs, door);
    if (out.empty()) {
        return out;
    }
    out.push_back({Act::LetOut, std::nullopt});
    if (std::ranges::any_of(all, door)) {
        out.push_back({Act::HotWorkRelease, std::nullopt});
        each(Act::FitHinge, [&](const Placed& one) { return door(one) && one.hinged; });
        if (straps) {
            each(Act::FitStrap, door);
        }
        each(Act::CutTabs, door);
    }
    return out;
}

namespace {

bool done(std::span<const Work> before, Act act, std::optional<std::size_t> feature)
{
    return std::ranges::any_of(before, [&](const Work& one) { return one.act == act && (!feature || one.feature == feature); });
}

std::optional<WorkFault> faultAt(std::span<const Work> before, const Work& work, std::span<const Placed> all)
{
    if (done(before, work.act, work.feature)) {
        return WorkFault::Twice;
    }
    if (work.act == Act::HotWorkRelease) {
        return done(before, Act::LetOut, {}) ? std::nullopt : std::optional(WorkFault::ReleaseBeforeLetOut);
    }
    if (work.act == Act::LetOut) {
        return std::nullopt;
    }
    const Placed& on = all[*work.feature];
    if (work.act == Act::CutOut) {
        return on.kind == Kind::Door ? std::optional(WorkFault::DoorCutRightOut) : std::nullopt;
    }
    if (on.kind != Kind::Door) {
        return WorkFault::NoDoor;
    }
    if (work.act == Act::CutToTabs) {
        const bool first = std::ranges::any_of(all, [](const Placed& one) { return isCut(one.kind) && one.kind != Kind::Door; });
        return first && !done(before, Act::CutOut, {}) ? std::optional(WorkFault::DoorBeforeFirstOpening) : std::nullopt;
    }
    if (!done(before, Act::HotWorkRelease, {})) {
        return WorkFault::HotBeforeRelease;
    }
    if (work.act == Act::FitHinge) {
        return on.hinged ? std::nullopt : std::optional(WorkFault::NoHinge);
    }
    return work.act == Act::CutTabs && on.hinged && !done(before, Act::FitHinge, work.feature) ? std::optional(WorkFault::TabsBeforeHinge)
                                                                                               : std::nullopt;
}

} // namespace

std::optional<WorkError> faultOf(std::span<const Work> works, std::span<const Placed> all)
{
    for (std::size_t i = 0; i < works.size(); ++i) {
        if (const auto fault = faultAt(works.first(i), works[i], all)) {
            return WorkError{i, *fault};
        }
    }
    return std::nullopt;
}

} // namespace brimful::layout
