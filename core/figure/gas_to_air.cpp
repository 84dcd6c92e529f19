// From gas to air: what a blower leads through and when, with or without inert gas before it, and where it stands at a moment.
#include "core/figure/check.h"
#include "core/figure/figures.h"
#include "core/figure/gas_inputs.h"
#include "core/figure/gas_picture.h"

#include <array>

namespace brimful::figure {

namespace {

using canon::Json;

constexpr std::array<std::string_view, 2> kBefore{"nothing", "nitrogen"};
constexpr std::array<std::string_view, 3> kPictures{"rectangle", "triangle", "time"};
constexpr std::array kStart{
    Input{"fuel", InputKind::Quantity, Dimension::VolumeShare, true},
    Input{"oxygen", InputKind::Quantity, Dimension::VolumeShare, true},
};
constexpr std::array kInputs{
    Input{.key = "substance", .kind = InputKind::Text, .required = true}, Input{"volume", InputKind::Quantity, Dimension::Volume, true},
    Input{.key = "start", .kind = InputKind::Object, .required = true, .inside = kStart},
    Input{.key = "before", .kind = InputKind::Choice, .choices = kBefore}, // blown in before the air; absent: nothing
    Input{"flow", InputKind::Quantity, Dimension::VolumeFlow, true}, // of the air, and of the nitrogen before it
    Input{"mixing_efficiency", InputKind::Number},
    Input{"source", InputKind::Quantity, Dimension::VolumeFlow}, // vapour given off inside; absent: none
    Input{"target", InputKind::Quantity, Dimension::VolumeShare}, // absent: a hundredth of the lowest limit
    Input{"moment", InputKind::Quantity, Dimension::Duration}, // where it stands then; absent: at the start
    Input{.key = "picture", .kind = InputKind::Choice, .choices = kPictures}, // absent: rectangle
};
constexpr std::array kOutputs{
    Output{"crosses", Dimension::Number, OutputKind::Flag},
    Output{"enters", Dimension::VolumeShare, OutputKind::Object}, // fuel_percent, oxygen_percent
    Output{"leaves", Dimension::VolumeShare, OutputKind::Object}, Output{"burns_from_s", Dimension::Duration},
    Output{"burns_to_s", Dimension::Duration}, Output{"nitrogen_s", Dimension::Duration}, Output{"nitrogen_m3", Dimension::Volume},
    Output{"end_point_percent", Dimension::VolumeShare}, // of the nitrogen
    Output{"target_percent", Dimension::VolumeShare}, Output{"time_s", Dimension::Duration}, // to the target, from the start
    Output{"fuel_percent", Dimension::VolumeShare}, // at the moment
    Output{"oxygen_percent", Dimension::VolumeShare}, Output{"burns_now", Dimension::Number, OutputKind::Flag},
    Output{"span_s", Dimension::Duration}, // of the picture over time
};
constexpr std::string_view kPlanning = "planning-estimate-test-decides"; // always
constexpr std::string_view kUnreachable = "target-never-reached";
constexpr std::string_view kNeverInert = "end-point-never-reached";
constexpr std::string_view kStays = "stays-flammable";
constexpr std::string_view kUnknown = "unknown-substance";
constexpr std::array kWarnings{
    kPlanning, kPerfectMixing, kUnreachable, kNeverInert, kStays, kUnknown, kNoLimits, kNoOxygenLimit, kBurnsWithoutAir};

// What is asked, checked; and what is known of the gas.
struct Plan {
    const gas::Substance* substance{};
    std::optional<gas::Zone> zone;
    gas::Air air;
    gas::State start;
    double target{};
    double moment_s{};
    bool nitrogen_first{};
};

struct Way {
    std::vector<gas::Leg> legs; // one after the other
    std::vector<double> starts_s; // of each
    std::optional<gas::Crossing> crossing; // of all together
    std::vector<std::optional<gas::Burning>> burning; // of each leg, from its start
};

// Words for a gas of which too little is known to draw what burns.
void warnOfUnknown(Result& out, const Plan& plan)
{
    if (plan.zone) {
        return;
    }
    if (plan.substance == nullptr || !(plan.substance->molar_mass_kg_mol > 0.0)) {
        out.warnings.emplace_back(kUnknown);
    } else if (!plan.substance->flammable()) {
        out.warnings.emplace_back(kNoLimits);
    } else {
        out.warnings.emplace_back(plan.substance->burnsWithoutAir() ? kBurnsWithoutAir : kNoOxygenLimit);
    }
}

tl::expected<Plan, Error> planOf(const Json& inputs, const Reference& reference, Result& out)
{
    Plan plan;
    const auto substance = substanceOf(inputs, "substance", reference);
    if (!substance) {
        return tl::unexpected(substance.error());
    }
    const auto start = startOf(inputs);
    if (!start) {
        return tl::unexpected(start.error());
    }
    const auto air = airOf(inputs, out);
    if (!air) {
        return tl::unexpected(air.error());
    }
    plan.substance = *substance;
    plan.zone = plan.substance == nullptr ? std::nullopt : gas::zoneOf(*plan.substance, gas::Basis::Lowest);
    plan.air = *air;
    plan.start = *start;
    plan.moment_s = numberAt(inputs, "moment", 0.0);
    plan.nitrogen_first = inputs.textOf("before") == "nitrogen";
    constexpr double kHundredth = 0.01;
    const auto lowest = plan.substance == nullptr ? std::nullopt : plan.substance->lowestLimit();
    plan.target = numberAt(inputs, "target", kHundredth * lowest.value_or(0.0));
    if (numberAt(inputs, "target") && (!(plan.target > 0.0) || plan.target > 1.0)) {
        return fail(Code::OutOfRange, "target", "above 0, at most 100 %", canon::write(Json::real(plan.target * 100.0), false));
    }
    if (plan.moment_s < 0.0) {
        return fail(Code::OutOfRange, "moment", "0 s or later", canon::write(Json::real(plan.moment_s), false));
    }
    return plan;
}

void addLeg(Way& way, const Plan& plan, const gas::Leg& leg, double starts_s)
{
    way.legs.push_back(leg);
    way.starts_s.push_back(starts_s);
    // Without a zone, what is between the limits in air counts as burning while air is blown in, whatever the oxygen.
    const auto range = plan.substance == nullptr ? std::nullopt : plan.substance->widestRange();
    if (!plan.zone) {
        way.burning.push_back(range ? gas::flammableWhile(plan.air, leg.from.fuel, *range) : std::nullopt);
        return;
    }
    way.burning.push_back(gas::burningWhile(leg, *plan.zone));
    const gas::State end = leg.lasts ? gas::at(leg, *leg.lasts) : leg.towards;
    if (const auto met = gas::crossing(*plan.zone, leg.from, end)) {
        way.crossing = way.crossing ? gas::Crossing{way.crossing->enters, met->leaves} : *met;
    }
}

// Nothing before the air when no inert gas helps, or when it never gets there: then it never ends.
Way wayOf(const Plan& plan, Result& out)
{
    Way way;
    gas::State from = plan.start;
    double starts_s = 0.0;
    const auto end_point = plan.nitrogen_first && plan.zone ? gas::inertEndPoint(*plan.substance) : std::nullopt;
    if (end_point) {
        gas::Leg leg = gas::legOf(plan.air, from, gas::kInert);
        leg.lasts = gas::timeToFuel(leg, *end_point);
        out.values.set("end_point_percent", Json::real(*end_point * 100.0));
        addLeg(way, plan, leg, 0.0);
        if (!leg.lasts) {
            out.warnings.emplace_back(kNeverInert);
            return way;
        }
        starts_s = leg.lasts->value();
        from = gas::at(leg, *leg.lasts);
        out.values.set("nitrogen_s", Json::real(starts_s)).set("nitrogen_m3", Json::real(starts_s * plan.air.flow.value()));
    }
    addLeg(way, plan, gas::legOf(plan.air, from, gas::kAir), starts_s);
    return way;
}

// First and last of what burns in any leg; absent `until`: it stays.
std::optional<gas::Burning> burningOf(const Way& way)
{
    std::optional<gas::Burning> all;
    for (std::size_t i = 0; i < way.legs.size(); ++i) {
        if (!way.burning[i]) {
            continue;
        }
        const auto later = [&](const quantity::Duration& time) { return time + quantity::seconds(way.starts_s[i]); };
        all = gas::Burning{all ? all->from : later(way.burning[i]->from),
            way.burning[i]->until ? std::optional(later(*way.burning[i]->until)) : std::nullopt};
    }
    return all;
}

void setBurning(Result& out, const Plan& plan, const Way& way)
{
    const auto burning = burningOf(way);
    const bool inert = plan.substance != nullptr && plan.substance->molar_mass_kg_mol > 0.0 && !plan.substance->flammable();
    // Where nothing is known that would let it pass, it does not pass.
    const bool crosses = plan.zone ? way.crossing.has_value() : !inert && (plan.start.fuel > 0.0 || plan.air.source.value() > 0.0);
    out.values.set("crosses", Json::boolean(crosses));
    if (way.crossing) {
        out.values.set("enters", placeOf(way.crossing->enters)).set("leaves", placeOf(way.crossing->leaves));
    }
    if (!burning) {
        return;
    }
    out.values.set("burns_from_s", Json::real(burning->from.value()));
    if (burning->until) {
        out.values.set("burns_to_s", Json::real(burning->until->value()));
    } else {
        out.warnings.emplace_back(kStays);
    }
}

std::optional<double> timeToTarget(const Plan& plan, const Way& way)
{
    if (!(plan.target > 0.0) || (way.legs.size() == 1 && way.legs[0].towards.oxygen == 0.0)) {
        return std::nullopt;
    }
    const auto last = gas::timeToFuel(way.legs.back(), plan.target);
    return last ? std::optional(way.starts_s.back() + last->value()) : std::nullopt;
}

gas::State stateAt(const Way& way, double moment_s)
{
    std::size_t leg = way.legs.size() - 1;
    while (leg > 0 && moment_s < way.starts_s[leg]) {
        --leg;
    }
    return gas::at(way.legs[leg], quantity::seconds(moment_s - way.starts_s[leg]));
}

void drawTime(Result& out, const Plan& plan, const Way& way, double span_s)
{
    const TimeAxes axes{span_s};
    drawAxes(out, axes);
    if (const auto range = plan.substance == nullptr ? std::nullopt : plan.substance->widestRange()) {
        drawBand(out, axes, *range, way.legs.back().towards.oxygen > 0.0 ? way.starts_s.back() : span_s);
    }
    if (plan.target > 0.0) {
        drawTarget(out, axes, plan.target);
    }
    for (std::size_t i = 0; i < way.legs.size(); ++i) {
        drawCurve(out, axes, way.legs[i], way.starts_s[i], way.burning[i]);
    }
    const auto now = axes.place(plan.moment_s, stateAt(way, plan.moment_s).fuel);
    out.picture.push_back({"now", false, {now, now}});
}

void draw(Result& out, const Plan& plan, const Way& way, const Json& inputs, double span_s)
{
    if (inputs.textOf("picture") == "time") {
        drawTime(out, plan, way, span_s);
        return;
    }
    const Diagram shape = diagramOf(inputs.textOf("picture"));
    drawDiagram(out, plan.substance, plan.zone, shape);
    for (const gas::Leg& leg : way.legs) {
        const gas::State end = leg.lasts ? gas::at(leg, *leg.lasts) : leg.towards;
        drawPath(out, leg.from, end, plan.zone ? gas::crossing(*plan.zone, leg.from, end) : std::nullopt, shape);
    }
    drawNow(out, stateAt(way, plan.moment_s), shape);
}

tl::expected<Result, Error> computeGasToAir(const Json& inputs, const Reference& reference)
{
    Result out;
    out.warnings.emplace_back(kPlanning);
    const auto plan = planOf(inputs, reference, out);
    if (!plan) {
        return tl::unexpected(plan.error());
    }
    warnOfUnknown(out, *plan);
    const Way way = wayOf(*plan, out);
    setBurning(out, *plan, way);
    const auto time = timeToTarget(*plan, way);
    if (plan->target > 0.0) {
        out.values.set("target_percent", Json::real(plan->target * 100.0));
        if (!time) {
            out.warnings.emplace_back(kUnreachable);
        }
    }
    if (time) {
        out.values.set("time_s", Json::real(*time));
    }
    const gas::State now = stateAt(way, plan->moment_s);
    out.values.set("fuel_percent", Json::real(now.fuel * 100.0)).set("oxygen_percent", Json::real(now.oxygen * 100.0));
    if (plan->zone) {
        out.values.set("burns_now", Json::boolean(gas::holds(*plan->zone, now)));
    }
    // A quarter beyond what it takes; to a target that is never reached, while the rest falls to a thousandth.
    constexpr double kBeyond = 1.25;
    constexpr double kThousandth = 6.9077552790;
    const double span_s = time && *time > 0.0 ? kBeyond * *time : way.starts_s.back() + kThousandth / way.legs.back().per_second;
    out.values.set("span_s", Json::real(span_s));
    draw(out, *plan, way, inputs, span_s);
    return out;
}

} // namespace

constinit const Figure kGasToAir{"gas-to-air", 1, kInputs, kOutputs, kWarnings, computeGasToAir};

} // namespace brimful::figure
