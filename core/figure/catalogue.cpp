#include "core/figure/check.h"
#include "core/figure/figures.h"

#include <algorithm>
#include <array>

namespace brimful::figure {

namespace {

// Every figure, sorted by name. To add one: declare it in figures.h and name it here.
const auto& all()
{
    static const std::array kAll{
        kBestPose,
        kCapacity,
        kCutPlan,
        kDilutionPath,
        kDipChart,
        kDrain,
        kDraught,
        kEvaporation,
        kGasToAir,
        kInerted,
        kJunction,
        kLevel,
        kMarkOut,
        kMeter,
        kMixture,
        kPublishedLimits,
        kPurge,
        kRatio,
        kResidue,
        kSame,
        kSampling,
        kSupport,
        kVentilation,
        kWaterFill,
    };
    return kAll;
}

} // namespace

std::span<const Figure> catalogue() { return all(); }

const Figure* byName(std::string_view name)
{
    const auto found = std::ranges::find(all(), name, &Figure::name);
    return found == all().end() ? nullptr : &*found;
}

tl::expected<Result, Error> compute(const Figure& figure, const canon::Json& inputs, const Reference& reference)
{
    const auto checked = check(figure.inputs, inputs);
    if (!checked) {
        return tl::unexpected(checked.error());
    }
    return figure.compute(*checked, reference);
}

} // namespace brimful::figure
