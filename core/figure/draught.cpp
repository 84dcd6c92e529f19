// What a stack draws, where the path is narrowest, what a liner leaves, how much longer it gets.
#include "core/draught/stack.h"
#include "core/figure/check.h"
#include "core/figure/figures.h"
#include "core/quantity/format.h"
#include "core/quantity/parse.h"
#include "core/vessel/steel.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace brimful::figure {

namespace {

using canon::Json;
using quantity::UnitSystem;

constexpr double kPi = std::numbers::pi;

constexpr std::string_view kEstimate = "estimate-within-30-percent-no-wind";
constexpr std::string_view kFrictionTaken = "friction-taken-as-0.027";
constexpr std::string_view kPressureTaken = "pressure-taken-as-101325-Pa";
constexpr std::string_view kNoCooling = "cooling-not-counted";
constexpr std::string_view kNoFlow = "loss-factor-not-given-no-flow";
constexpr std::string_view kThumb = "rule-of-thumb-is-no-design";
constexpr std::string_view kShort = "losses-exceed-the-draught";
constexpr std::array kWarnings{kEstimate, kFrictionTaken, kPressureTaken, kNoCooling, kNoFlow, kThumb, kShort};

constexpr std::array kPathInputs{
    Input{.key = "name", .kind = InputKind::Text, .required = true},
    Input{"area", InputKind::Quantity, Dimension::Area},
    Input{"diameter", InputKind::Quantity, Dimension::Length},
    Input{"width", InputKind::Quantity, Dimension::Length},
    Input{"height", InputKind::Quantity, Dimension::Length},
};
constexpr std::array kLinerInputs{
    Input{"shell_inside_diameter", InputKind::Quantity, Dimension::Length, true},
    Input{"outside_diameter", InputKind::Quantity, Dimension::Length, true},
};
constexpr std::array kExpansionInputs{
    Input{"length", InputKind::Quantity, Dimension::Length, true},
    Input{"cold", InputKind::Quantity, Dimension::Temperature, true},
    Input{"hot", InputKind::Quantity, Dimension::Temperature, true},
};
constexpr std::array kCompareInputs{Input{"diameter", InputKind::Quantity, Dimension::Length, true}};

constexpr std::array kInputs{
    Input{"height", InputKind::Quantity, Dimension::Length},
    Input{"diameter", InputKind::Quantity, Dimension::Length},
    Input{"gas_temperature", InputKind::Quantity, Dimension::Temperature},
    Input{"air_temperature", InputKind::Quantity, Dimension::Temperature},
    Input{"pressure", InputKind::Quantity, Dimension::Pressure},
    Input{"loss_factor", InputKind::Number}, // of a velocity head, exit included
    Input{"friction_factor", InputKind::Number}, // Darcy
    Input{"heat_loss", InputKind::Quantity, Dimension::HeatTransfer},
    Input{.key = "mass_flow", .kind = InputKind::Text}, // a mass over a time, "40 kg/h"; absent: as it draws by itself
    Input{.key = "compare", .kind = InputKind::List, .inside = kCompareInputs}, // other diameters
    Input{.key = "path", .kind = InputKind::List, .inside = kPathInputs}, // inlet, throat, flue, in the gas's order
    Input{.key = "liner", .kind = InputKind::Object, .inside = kLinerInputs},
    Input{.key = "expansion", .kind = InputKind::Object, .inside = kExpansionInputs},
    Input{"firebox_volume", InputKind::Quantity, Dimension::Volume},
    Input{"chamber_volume", InputKind::Quantity, Dimension::Volume},
    Input{"fire_opening", InputKind::Quantity, Dimension::Area},
};

constexpr std::array kOutputs{
    Output{"draught_Pa", Dimension::Pressure}, Output{"losses_Pa", Dimension::Pressure},
    Output{"available_Pa", Dimension::Pressure}, // with a mass flow given: draught less losses
    Output{"velocity_m_s", Dimension::Speed}, Output{"mass_flow_kg_s"}, Output{"mass_flow_low_kg_s"}, Output{"mass_flow_high_kg_s"},
    Output{"exit_temperature_K", Dimension::Temperature}, Output{"mean_temperature_K", Dimension::Temperature},
    Output{"stack_area_m2", Dimension::Area},
    Output{"curves", Dimension::Number, OutputKind::List}, // diameter_m, area_m2, area_ratio, points[{height_m, draught_Pa, mass_flow_kg_s,
                                                           // low, high}]; with a mass flow given held_draught_Pa: what that flow has
    Output{"over_diameter", Dimension::Number, OutputKind::List}, // of one height: a point as above, with its diameter_m
    Output{"areas", Dimension::Number, OutputKind::List}, // name, area_m2
    Output{"smallest", Dimension::Number, OutputKind::Text}, Output{"smallest_m2", Dimension::Area},
    Output{"liner_gap_m", Dimension::Length}, Output{"annulus_m2", Dimension::Area}, Output{"expansion_m", Dimension::Length},
    Output{"rules_of_thumb", Dimension::Number, OutputKind::List}, // rule, share, usual, mark
};

tl::expected<void, Error> above(const Json& given, std::string_view parent, std::string_view key, Dimension dimension, bool zero = false)
{
    const auto value = numberAt(given, key);
    if (value && !(zero ? *value >= 0 : *value > 0)) {
        return fail(
            Code::OutOfRange, pathTo(parent, key), zero ? "0 or more" : "above 0", quantity::format(*value, dimension, UnitSystem::Si));
    }
    return {};
}

tl::expected<std::optional<draught::Stack>, Error> readStack(const Json& inputs, Result& out)
{
    constexpr std::array<std::pair<std::string_view, Dimension>, 4> kNeeded{{{"height", Dimension::Length}, {"diameter", Dimension::Length},
        {"gas_temperature", Dimension::Temperature}, {"air_temperature", Dimension::Temperature}}};
    const bool any = std::ranges::any_of(kNeeded, [&](const auto& one) { return inputs.find(one.first) != nullptr; });
    if (!any) {
        return std::optional<draught::Stack>();
    }
    for (const auto& [key, dimension] : kNeeded) {
        if (inputs.find(key) == nullptr) {
            return fail(Code::Missing, std::string(key), std::string(quantity::dimensionName(dimension)));
        }
        if (const auto good = above(inputs, {}, key, dimension); !good) {
            return tl::unexpected(good.error());
        }
    }
    if (const auto good = above(inputs, {}, "pressure", Dimension::Pressure); !good) {
        return tl::unexpected(good.error());
    }
    for (const auto& [key, dimension] : {std::pair("loss_factor", Dimension::Number), std::pair("friction_factor", Dimension::Number),
             std::pair("heat_loss", Dimension::HeatTransfer)}) {
        if (const auto good = above(inputs, {}, key, dimension, true); !good) {
            return tl::unexpected(good.error());
        }
    }
    draught::Stack stack{numberAt(inputs, "height", 0), numberAt(inputs, "diameter", 0), numberAt(inputs, "gas_temperature", 0),
        numberAt(inputs, "air_temperature", 0), numberAt(inputs, "pressure", 101325), numberAt(inputs, "heat_loss", 0),
        numberAt(inputs, "loss_factor", 0), numberAt(inputs, "friction_factor", 0.027)}; // 0.32/12: single-wall steel
    if (!(stack.gas > stack.air)) {
        return fail(Code::Impossible, "gas_temperature", "warmer than the air",
            quantity::format(stack.gas, Dimension::Temperature, UnitSystem::Si));
    }
    const auto note = [&](std::string_view key, std::string_view warning) {
        if (inputs.find(key) == nullptr) {
            out.warnings.emplace_back(warning);
        }
    };
    out.warnings.emplace_back(kEstimate);
    note("pressure", kPressureTaken);
    note("heat_loss", kNoCooling);
    note("friction_factor", kFrictionTaken);
    return std::optional(stack);
}

// "40 kg/h": a mass, a stroke, a unit of time; kg/s. Nothing when absent.
tl::expected<std::optional<double>, Error> readMassFlow(const Json& inputs)
{
    const std::string text(inputs.textOf("mass_flow"));
    if (inputs.find("mass_flow") == nullptr) {
        return std::optional<double>();
    }
    const std::size_t stroke = text.find('/');
    const auto mass = quantity::parse(text.substr(0, stroke), Dimension::Mass);
    const auto time = stroke == std::string::npos ? quantity::parse({}, Dimension::Duration)
                                                  : quantity::parse("1 " + text.substr(stroke + 1), Dimension::Duration);
    if (!mass || !time) {
        return fail(Code::BadQuantity, "mass_flow", "mass over time, as \"40 kg/h\"", text);
    }
    if (!(mass->si > 0)) {
        return fail(Code::OutOfRange, "mass_flow", "above 0", text);
    }
    return std::optional(mass->si / time->si);
}

double circle(double diameter) { return kPi * diameter * diameter / 4; }

Json point(const draught::Stack& stack, std::optional<double> held = {})
{
    const draught::Drawn drawn = draught::drawnFreely(stack).value();
    Json out = Json::object();
    out.set("height_m", Json::real(stack.height)).set("draught_Pa", Json::real(drawn.draught));
    out.set("mass_flow_kg_s", Json::real(drawn.massFlow));
    out.set("low_kg_s", Json::real(drawn.massFlow * (1 - draught::kHonestShare)));
    out.set("high_kg_s", Json::real(drawn.massFlow * (1 + draught::kHonestShare)));
    out.set("exit_temperature_K", Json::real(drawn.exit));
    if (held) {
        out.set("held_draught_Pa", Json::real(draught::drawnAt(stack, *held).value().draught));
    }
    return out;
}

// Flow over height, the band of what it may be, on axes of a picture: a metre of height is a metre.
void drawCurve(const Json& curve, std::size_t place, double perFlow, Result& out)
{
    for (const auto& [key, part] :
        {std::pair("mass_flow_kg_s", "curve:"), std::pair("low_kg_s", "least:"), std::pair("high_kg_s", "most:")}) {
        Line line{part + std::to_string(place), false, {}};
        for (const Json& one : curve.find("points")->items) {
            line.metres.emplace_back(numberAt(one, "height_m", 0), numberAt(one, key, 0) * perFlow);
        }
        out.picture.push_back(std::move(line));
    }
}

// Half the diameter to twice, at the height given.
Json overDiameter(const draught::Stack& stack)
{
    constexpr int kSteps = 12;
    Json points = Json::array();
    for (int i = 0; i <= kSteps; ++i) {
        draught::Stack one = stack;
        one.diameter = stack.diameter * std::exp2(2.0 * i / kSteps - 1);
        Json row = point(one);
        row.set("diameter_m", Json::real(one.diameter));
        points.items.push_back(std::move(row));
    }
    return points;
}

tl::expected<void, Error> setCurves(const Json& inputs, const draught::Stack& stack, std::optional<double> held, Result& out)
{
    std::vector<double> diameters{stack.diameter};
    if (const Json* const others = inputs.find("compare"); others != nullptr) {
        for (std::size_t i = 0; i < others->items.size(); ++i) {
            if (auto good = above(others->items[i], "compare[" + std::to_string(i) + "]", "diameter", Dimension::Length); !good) {
                return good;
            }
            diameters.push_back(numberAt(others->items[i], "diameter", 0));
        }
    }
    constexpr int kSteps = 12; // a quarter of the height to three times the height
    Json curves = Json::array();
    double most = 0;
    for (const double diameter : diameters) {
        Json points = Json::array();
        for (int i = 1; i <= kSteps; ++i) {
            draught::Stack one = stack;
            one.diameter = diameter;
            one.height = stack.height * i / 4;
            points.items.push_back(point(one, held));
            most = std::max(most, numberAt(points.items.back(), "high_kg_s", 0));
        }
        Json curve = Json::object();
        curve.set("diameter_m", Json::real(diameter)).set("area_m2", Json::real(circle(diameter)));
        curve.set("area_ratio", Json::real(circle(diameter) / circle(stack.diameter))).set("points", std::move(points));
        curves.items.push_back(std::move(curve));
    }
    for (std::size_t i = 0; i < curves.items.size(); ++i) {
        drawCurve(curves.items[i], i, 1.5 * stack.height / most, out);
    }
    out.picture.push_back({"axis:height", false, {{0, 0}, {3 * stack.height, 0}}});
    out.picture.push_back({"axis:flow", false, {{0, 0}, {0, 1.5 * stack.height}}});
    out.values.set("curves", std::move(curves)).set("over_diameter", overDiameter(stack));
    return {};
}

tl::expected<void, Error> setStack(const Json& inputs, Result& out)
{
    const auto stack = readStack(inputs, out);
    if (!stack || !*stack) {
        return stack ? tl::expected<void, Error>() : tl::unexpected(stack.error());
    }
    const draught::Stack& one = **stack;
    const auto set = [&](std::string_view key, double value) { out.values.set(std::string(key), Json::real(value)); };
    set("stack_area_m2", circle(one.diameter));
    const bool resists = one.lossFactor + one.friction > 0;
    const auto flow = readMassFlow(inputs);
    if (!flow) {
        return tl::unexpected(flow.error());
    }
    if (*flow) {
        const draught::Drawn drawn = draught::drawnAt(one, **flow).value();
        set("draught_Pa", drawn.draught);
        set("losses_Pa", drawn.losses);
        set("available_Pa", drawn.draught - drawn.losses);
        set("velocity_m_s", drawn.velocity);
        set("mass_flow_kg_s", drawn.massFlow);
        set("exit_temperature_K", drawn.exit);
        set("mean_temperature_K", drawn.mean);
        if (drawn.losses > drawn.draught) {
            out.warnings.emplace_back(kShort);
        }
    } else if (inputs.find("loss_factor") == nullptr || !resists) {
        out.warnings.emplace_back(kNoFlow);
        set("draught_Pa", draught::uniformDraught(one));
        return {};
    } else {
        const draught::Drawn drawn = draught::drawnFreely(one).value();
        set("draught_Pa", drawn.draught);
        set("losses_Pa", drawn.losses);
        set("velocity_m_s", drawn.velocity);
        set("mass_flow_kg_s", drawn.massFlow);
        set("mass_flow_low_kg_s", drawn.massFlow * (1 - draught::kHonestShare));
        set("mass_flow_high_kg_s", drawn.massFlow * (1 + draught::kHonestShare));
        set("exit_temperature_K", drawn.exit);
        set("mean_temperature_K", drawn.mean);
    }
    return inputs.find("loss_factor") != nullptr && resists ? setCurves(inputs, one, *flow, out) : tl::expected<void, Error>();
}

tl::expected<double, Error> areaOf(const Json& given, const std::string& path)
{
    for (const auto& [key, dimension] : {std::pair("area", Dimension::Area), std::pair("diameter", Dimension::Length),
             std::pair("width", Dimension::Length), std::pair("height", Dimension::Length)}) {
        if (const auto good = above(given, path, key, dimension); !good) {
            return tl::unexpected(good.error());
        }
    }
    const auto area = numberAt(given, "area");
    const auto diameter = numberAt(given, "diameter");
    const auto width = numberAt(given, "width");
    const auto height = numberAt(given, "height");
    const int ways = (area ? 1 : 0) + (diameter ? 1 : 0) + (width || height ? 1 : 0);
    if (ways != 1) {
        return fail(ways == 0 ? Code::Missing : Code::Conflicting, pathTo(path, "area"), "area, diameter, or width and height");
    }
    if (width.has_value() != height.has_value()) {
        return fail(Code::Missing, pathTo(path, width ? "height" : "width"), "length");
    }
    return area ? *area : diameter ? circle(*diameter) : *width * *height;
}

tl::expected<void, Error> setPath(const Json& inputs, Result& out)
{
    const Json* const path = inputs.find("path");
    if (path == nullptr || path->items.empty()) {
        return {};
    }
    Json areas = Json::array();
    double smallest = HUGE_VAL;
    for (std::size_t i = 0; i < path->items.size(); ++i) {
        const auto area = areaOf(path->items[i], "path[" + std::to_string(i) + "]");
        if (!area) {
            return tl::unexpected(area.error());
        }
        Json row = Json::object();
        row.set("name", path->items[i].textOf("name")).set("area_m2", Json::real(*area));
        areas.items.push_back(std::move(row));
        if (*area < smallest) {
            smallest = *area;
            out.values.set("smallest", path->items[i].textOf("name"));
        }
    }
    out.values.set("areas", std::move(areas)).set("smallest_m2", Json::real(smallest));
    return {};
}

tl::expected<void, Error> setLiner(const Json& inputs, Result& out)
{
    const Json* const liner = inputs.find("liner");
    if (liner == nullptr) {
        return {};
    }
    const double inside = numberAt(*liner, "shell_inside_diameter", 0);
    const double outside = numberAt(*liner, "outside_diameter", 0);
    if (!(outside > 0 && inside > outside)) {
        return fail(Code::Impossible, "liner.outside_diameter", "above 0, below the inside diameter of the shell",
            quantity::format(outside, Dimension::Length, UnitSystem::Si));
    }
    out.values.set("liner_gap_m", Json::real((inside - outside) / 2)).set("annulus_m2", Json::real(circle(inside) - circle(outside)));
    return {};
}

tl::expected<void, Error> setExpansion(const Json& inputs, Result& out)
{
    const Json* const given = inputs.find("expansion");
    if (given == nullptr) {
        return {};
    }
    const auto at = [&](std::string_view key) { return quantity::Temperature(numberAt(*given, key, 0)); };
    const quantity::Length length = quantity::metres(numberAt(*given, "length", 0));
    for (const std::string_view key : {"cold", "hot"}) {
        if (!vessel::growth(length, at(key), at(key))) {
            return fail(Code::OutOfRange, pathTo("expansion", key), "20 degC to 750 degC",
                quantity::format(at(key).get(), Dimension::Temperature, UnitSystem::Si));
        }
    }
    out.values.set("expansion_m", Json::real(vessel::growth(length, at("cold"), at("hot"))->value()));
    return {};
}

// Shares that shops quote. They say what is usual, not what works.
void setRulesOfThumb(const Json& inputs, Result& out)
{
    Json rules = Json::array();
    const auto add = [&](std::string_view rule, double share, double usual, std::string_view mark) {
        Json row = Json::object();
        row.set("rule", rule).set("share", Json::real(share)).set("usual", Json::real(usual)).set("mark", mark);
        rules.items.push_back(std::move(row));
    };
    const auto firebox = numberAt(inputs, "firebox_volume");
    const auto chamber = numberAt(inputs, "chamber_volume");
    if (firebox && chamber && *chamber > 0) {
        add("firebox-a-third-of-the-chamber", *firebox / *chamber, 1.0 / 3, "rule of thumb, common practice, no source");
    }
    const auto opening = numberAt(inputs, "fire_opening");
    const auto diameter = numberAt(inputs, "diameter");
    if (opening && *opening > 0 && diameter && *diameter > 0) {
        add("flue-a-tenth-of-the-fire-opening", circle(*diameter) / *opening, 0.1,
            "rule of thumb for open fireplaces, USDA Farmers' Bulletin 1889 (found)");
    }
    if (!rules.items.empty()) {
        out.values.set("rules_of_thumb", std::move(rules));
        out.warnings.emplace_back(kThumb);
    }
}

tl::expected<Result, Error> compute(const Json& inputs, const Reference&)
{
    Result out;
    for (const auto set : {setStack, setPath, setLiner, setExpansion}) {
        if (const auto done = set(inputs, out); !done) {
            return tl::unexpected(done.error());
        }
    }
    setRulesOfThumb(inputs, out);
    if (out.values.members.empty()) {
        return fail(Code::Missing, "height", "height, path, liner or expansion");
    }
    return out;
}

} // namespace

constinit const Figure kDraught{"draught", 2, kInputs, kOutputs, kWarnings, compute};

} // namespace brimful::figure
