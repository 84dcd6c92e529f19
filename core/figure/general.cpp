// Two figures that know nothing of vessels: one quantity over another, and whether two things are the same.
#include "core/figure/check.h"
#include "core/figure/figures.h"
#include "core/quantity/parse.h"

#include <array>

namespace brimful::figure {

namespace {

using canon::Json;

// Quantities of any one dimension, or bare numbers.
constexpr std::array kRatioInputs{
    Input{.key = "of", .kind = InputKind::Text, .required = true}, Input{.key = "to", .kind = InputKind::Text, .required = true}};
constexpr std::array kRatioOutputs{Output{"per_mille", Dimension::VolumeShare}};

tl::expected<quantity::Quantity, Error> measured(const Json& inputs, std::string_view key)
{
    const std::string text(inputs.textOf(key));
    const auto read = quantity::parse(text);
    if (!read) {
        return fail(Code::BadQuantity, std::string(key), read.error().expected, text);
    }
    return *read;
}

tl::expected<Result, Error> computeRatio(const Json& inputs, const Reference&)
{
    const auto of = measured(inputs, "of");
    if (!of) {
        return tl::unexpected(of.error());
    }
    const auto to = measured(inputs, "to");
    if (!to) {
        return tl::unexpected(to.error());
    }
    if (of->dimension != to->dimension) {
        return fail(Code::Conflicting, "to", std::string(quantity::dimensionName(of->dimension)),
            std::string(quantity::dimensionName(to->dimension)));
    }
    if (!(to->si > 0)) {
        return fail(Code::OutOfRange, "to", "above 0", std::string(inputs.textOf("to")));
    }
    Result out;
    out.values.set("per_mille", Json::real(1000 * of->si / to->si));
    return out;
}

constexpr std::array kSameInputs{
    Input{.key = "a", .kind = InputKind::Text, .required = true}, Input{.key = "b", .kind = InputKind::Text, .required = true}};
constexpr std::array kSameOutputs{Output{"same", Dimension::Number, OutputKind::Flag}};

// Letter for letter: a serial number that differs in one space has not been read twice.
tl::expected<Result, Error> computeSame(const Json& inputs, const Reference&)
{
    Result out;
    out.values.set("same", Json::boolean(inputs.textOf("a") == inputs.textOf("b")));
    return out;
}

} // namespace

constinit const Figure kRatio{"ratio", 1, kRatioInputs, kRatioOutputs, {}, computeRatio};
constinit const Figure kSame{"same", 1, kSameInputs, kSameOutputs, {}, computeSame};

} // namespace brimful::figure
