#include "core/rules/pack.h"

#include <algorithm>

namespace brimful::rules {

namespace {

template <class List> Index indexOf(const List& list, std::string_view id)
{
    for (std::size_t i = 0; i < list.size(); ++i) {
        if (list[i].id == id) {
            return static_cast<Index>(i);
        }
    }
    return kNone;
}

} // namespace

Index Pack::step(std::string_view wanted) const { return indexOf(steps, wanted); }
Index Pack::fact(std::string_view wanted) const { return indexOf(facts, wanted); }
Index Pack::registerOf(std::string_view wanted) const { return indexOf(registers, wanted); }
Index Pack::holdPoint(std::string_view wanted) const { return indexOf(hold_points, wanted); }
Index Pack::event(std::string_view wanted) const { return indexOf(events, wanted); }
Index Pack::stop(std::string_view wanted) const { return indexOf(stops, wanted); }

Index Pack::role(std::string_view wanted) const
{
    const auto found = std::ranges::find(roles, wanted);
    return found == roles.end() ? kNone : static_cast<Index>(found - roles.begin());
}

canon::Hash Pack::together() const
{
    if (overlays.empty()) {
        return hash;
    }
    std::string all = canon::toHex(hash);
    for (const PackPart& overlay : overlays) {
        all.append("+").append(overlay.id).append(" ").append(canon::toHex(overlay.hash));
    }
    return canon::sha256(all);
}

const Parameter* Pack::parameter(std::string_view wanted) const
{
    const auto found = std::ranges::find(parameters, wanted, &Parameter::id);
    return found == parameters.end() ? nullptr : &*found;
}

} // namespace brimful::rules
