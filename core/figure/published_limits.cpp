// A reading beside what published rules let stand. To compare: the strictest of them and the yard's own limit decide.
#include "core/figure/check.h"
#include "core/figure/figures.h"
#include "core/gas/thresholds.h"

#include <array>

namespace brimful::figure {

namespace {

using canon::Json;

constexpr std::array kInputs{
    Input{"of_limit", InputKind::Quantity, Dimension::LimitShare, true}, // what the meter means on the lowest limit
    Input{"capacity", InputKind::Quantity, Dimension::Volume}, // of the vessel
};
constexpr std::array kOutputs{
    Output{"within", Dimension::Number, OutputKind::List},
    Output{"only_monitored", Dimension::Number, OutputKind::List}, // only with a meter that runs all the time
    Output{"beyond", Dimension::Number, OutputKind::List},
    Output{"small_vessel", Dimension::Number, OutputKind::Flag}, // under 2,500 L, the scope of a published booklet
};
constexpr std::string_view kCompare = "to-compare-never-to-decide"; // always
constexpr std::string_view kLarge = "larger-than-published-guidance-covers";
constexpr std::array kWarnings{kCompare, kLarge};

tl::expected<Result, Error> computePublished(const Json& inputs, const Reference&)
{
    Result out;
    out.warnings.emplace_back(kCompare);
    const double of_limit = numberAt(inputs, "of_limit", 0.0);
    std::array<Json, 3> lists{Json::array(), Json::array(), Json::array()};
    for (const gas::Threshold& one : gas::publishedThresholds()) {
        Json row = Json::object();
        row.set("id", one.id).set("document", one.document).set("mark", one.mark == gas::Mark::Found ? "found" : "memory");
        lists.at(static_cast<std::size_t>(gas::compare(one, of_limit))).items.push_back(std::move(row));
    }
    out.values.set("within", std::move(lists[0])).set("only_monitored", std::move(lists[1])).set("beyond", std::move(lists[2]));
    if (numberAt(inputs, "capacity")) {
        const double capacity = numberAt(inputs, "capacity", 0.0);
        if (!(capacity > 0.0)) {
            return fail(Code::OutOfRange, "capacity", "above 0", canon::write(Json::real(capacity), false));
        }
        const bool small = gas::isSmallVessel(quantity::cubicMetres(capacity));
        out.values.set("small_vessel", Json::boolean(small));
        if (!small) {
            out.warnings.emplace_back(kLarge);
        }
    }
    return out;
}

} // namespace

constinit const Figure kPublishedLimits{"published-limits", 1, kInputs, kOutputs, kWarnings, computePublished};

} // namespace brimful::figure
