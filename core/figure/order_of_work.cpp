#include "core/figure/order_of_work.h"

#include "core/figure/check.h"

#include <algorithm>

namespace brimful::figure {

namespace {

using canon::Json;
using layout::Kind;

std::string_view expected(layout::WorkFault fault)
{
    using layout::WorkFault;
    switch (fault) {
    case WorkFault::HotBeforeRelease:
        return "only in the dry stage, after hot-work-release";
    case WorkFault::DoorCutRightOut:
        return "cut-to-tabs: a door leaves the wet stage on its tabs";
    case WorkFault::DoorBeforeFirstOpening:
        return "first an opening that needs no hinge";
    case WorkFault::TabsBeforeHinge:
        return "after fit-hinge";
    case WorkFault::ReleaseBeforeLetOut:
        return "after let-out";
    case WorkFault::Twice:
        return "once";
    case WorkFault::NoDoor:
        return "a door";
    case WorkFault::NoHinge:
        return "a door with a hinge_side";
    }
    return {};
}

tl::expected<std::vector<layout::Work>, Error> readWork(const Json& given, const std::vector<layout::Placed>& all)
{
    std::vector<layout::Work> out;
    for (std::size_t i = 0; i < given.items.size(); ++i) {
        const Json& item = given.items[i];
        const std::string path = "work[" + std::to_string(i) + "]";
        layout::Work work;
        work.act = static_cast<layout::Act>(std::ranges::find(kActs, item.textOf("do")) - kActs.begin());
        const bool alone = work.act == layout::Act::LetOut || work.act == layout::Act::HotWorkRelease;
        const std::string_view name = item.textOf("feature");
        if (alone != name.empty()) {
            return fail(
                alone ? Code::Conflicting : Code::Missing, pathTo(path, "feature"), alone ? "no feature" : "text", std::string(name));
        }
        if (!alone) {
            const auto found = std::ranges::find(all, std::string(name), &layout::Placed::name);
            if (found == all.end() || !layout::isCut(found->kind)) {
                return fail(Code::Impossible, pathTo(path, "feature"), "the name of a cut", std::string(name));
            }
            work.feature = static_cast<std::size_t>(found - all.begin());
        }
        out.push_back(work);
    }
    return out;
}

} // namespace

tl::expected<void, Error> setOrder(const Json& inputs, const std::vector<layout::Placed>& all, bool straps, Result& out)
{
    std::vector<layout::Work> order = layout::orderOfWork(all, straps);
    if (const Json* const own = inputs.find("work"); own != nullptr) {
        auto read = readWork(*own, all);
        if (!read) {
            return tl::unexpected(read.error());
        }
        if (const auto fault = layout::faultOf(*read, all)) {
            return fail(Code::Conflicting, "work[" + std::to_string(fault->at) + "].do", std::string(expected(fault->fault)),
                std::string(own->items[fault->at].textOf("do")));
        }
        order = std::move(*read);
    }
    Json rows = Json::array();
    bool released = false;
    for (const layout::Work& one : order) {
        Json row = Json::object();
        row.set("stage", released || one.act == layout::Act::HotWorkRelease ? "dry" : "wet");
        released = released || one.act == layout::Act::HotWorkRelease;
        row.set("do", kActs.at(static_cast<std::size_t>(one.act)));
        if (one.feature) {
            row.set("feature", all[*one.feature].name);
        }
        rows.items.push_back(std::move(row));
    }
    const bool doors = std::ranges::any_of(all, [](const layout::Placed& one) { return one.kind == Kind::Door; });
    const bool first =
        std::ranges::any_of(all, [](const layout::Placed& one) { return layout::isCut(one.kind) && one.kind != Kind::Door; });
    if (doors && !first) {
        out.warnings.emplace_back(kNoFirst);
    }
    out.values.set("order", std::move(rows));
    return {};
}

} // namespace brimful::figure
