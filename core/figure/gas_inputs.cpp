#include "core/figure/gas_inputs.h"

#include "core/figure/check.h"
#include "core/figure/vessel_inputs.h"
#include "core/gas/sampling.h"

namespace brimful::figure {

using canon::Json;

gas::Basis basisOf(const Json& inputs, Result& out)
{
    const std::string_view word = inputs.textOf("basis");
    if (word.empty() || word == "lowest") {
        return gas::Basis::Lowest;
    }
    out.warnings.emplace_back(kNotStrictest);
    return word == "iec" ? gas::Basis::Iec : gas::Basis::Nfpa;
}

tl::expected<const gas::Substance*, Error> substanceOf(
    const Json& inputs, std::string_view key, const Reference& reference, const std::string& path)
{
    const std::string id(inputs.textOf(key));
    if (id.empty() || reference.substances == nullptr) {
        return nullptr;
    }
    const gas::Substance* found = reference.substances->find(id);
    if (found == nullptr) {
        std::string known;
        for (const gas::Substance& one : reference.substances->all()) {
            known += (known.empty() ? "" : ", ") + one.id;
        }
        return fail(Code::UnknownSubstance, pathTo(path, key), known, id);
    }
    return found;
}

tl::expected<double, Error> positiveAt(const Json& inputs, std::string_view key, double otherwise)
{
    const double value = numberAt(inputs, key, otherwise);
    if (!(value > 0.0)) {
        return fail(Code::OutOfRange, std::string(key), "above 0", canon::write(Json::real(value), false));
    }
    return value;
}

tl::expected<double, Error> efficiencyAt(const Json& inputs, Result& out)
{
    const auto given = numberAt(inputs, "mixing_efficiency");
    if (!given) {
        out.warnings.emplace_back(kPerfectMixing);
        return 1.0;
    }
    if (!(*given > 0.0) || *given > 1.0) {
        return fail(
            Code::OutOfRange, "mixing_efficiency", "above 0, at most 1 (it multiplies the flow)", canon::write(Json::real(*given), false));
    }
    return *given;
}

tl::expected<gas::State, Error> startOf(const Json& inputs)
{
    const Json& start = *inputs.find("start");
    const gas::State state{numberAt(start, "fuel", 0.0), numberAt(start, "oxygen", 0.0)};
    constexpr double kWhole = 1.0 + 1e-9;
    if (state.fuel < 0.0 || state.oxygen < 0.0 || state.fuel + state.oxygen > kWhole) {
        return fail(Code::Impossible, "start", "fuel and oxygen of at most 100 % together",
            canon::write(Json::real((state.fuel + state.oxygen) * 100.0), false) + " %");
    }
    return state;
}

tl::expected<gas::Air, Error> airOf(const Json& inputs, Result& out)
{
    const auto volume = positiveAt(inputs, "volume", 0.0);
    const auto flow = positiveAt(inputs, "flow", 0.0);
    const auto efficiency = efficiencyAt(inputs, out);
    for (const auto* one : {&volume, &flow, &efficiency}) {
        if (!*one) {
            return tl::unexpected(one->error());
        }
    }
    const double source = numberAt(inputs, "source", 0.0);
    if (source < 0.0) {
        return fail(Code::OutOfRange, "source", "0 or above", canon::write(Json::real(source), false));
    }
    const auto perSecond = [](double value) { return quantity::cubicMetres(value) / quantity::seconds(1.0); };
    return gas::Air{quantity::cubicMetres(*volume), perSecond(*flow), *efficiency, perSecond(source)};
}

namespace {

tl::expected<double, Error> delayOf(const Json& hose, Result& out)
{
    const auto length = positive(hose, "length", Dimension::Length, "hose");
    const auto bore = length ? positive(hose, "bore", Dimension::Length, "hose") : length;
    const auto pump = bore ? positive(hose, "pump", Dimension::VolumeFlow, "hose") : bore;
    if (!pump) {
        return tl::unexpected(pump.error());
    }
    if (bore->has_value() != pump->has_value()) {
        return fail(Code::Missing, *bore ? "hose.pump" : "hose.bore", "both, or neither");
    }
    if (!*bore) {
        constexpr double kPerMetre = 2.0;
        out.warnings.emplace_back(kDelayAssumed);
        return kPerMetre * **length;
    }
    const auto flow = **pump * boost::units::si::cubic_metre / boost::units::si::second;
    return gas::hoseDelay(quantity::metres(**length), quantity::metres(**bore), flow).value();
}

} // namespace

tl::expected<Wait, Error> waitOf(const Json& inputs, Result& out)
{
    constexpr double kResponse = 60.0;
    const Json* const hose = inputs.find("hose");
    const auto delay = hose == nullptr ? tl::expected<double, Error>(0.0) : delayOf(*hose, out);
    const auto response = delay ? positiveAt(inputs, "response", kResponse) : delay;
    if (!response) {
        return tl::unexpected(response.error());
    }
    if (inputs.find("response") == nullptr) {
        out.warnings.emplace_back(kResponseAssumed);
    }
    return Wait{*delay, *response};
}

Json placeOf(gas::State state)
{
    return Json::object().set("fuel_percent", Json::real(state.fuel * 100.0)).set("oxygen_percent", Json::real(state.oxygen * 100.0));
}

} // namespace brimful::figure
