#include "core/figure/figure.h"

#include "core/quantity/parse.h"

#include <array>
#include <numbers>

namespace brimful::figure {

namespace {

using canon::Json;

constexpr std::string_view kDraft = "https://json-schema.org/draft/2020-12/schema";
constexpr std::array<std::string_view, 17> kUnits{
    "m", "m2", "m3", "kg", "N", "Pa", "K", "s", "m3_s", "percent", "deg", "J", "kg_m3", "per_mille", "m_s", "mL", "ppm"};

Json anyOf(std::initializer_list<std::string_view> types)
{
    Json list = Json::array();
    for (const std::string_view type : types) {
        list.items.emplace_back(type);
    }
    return list;
}

Json objectSchema(std::span<const Input> inputs);

Json inputSchema(const Input& input)
{
    Json out = Json::object();
    switch (input.kind) {
    case InputKind::Quantity:
        out.set("type", input.key.ends_with("_deg") ? anyOf({"string", "number"}) : Json("string"));
        out.set("dimension", quantity::dimensionName(input.dimension));
        break;
    case InputKind::Number:
        out.set("type", anyOf({"number", "string"}));
        break;
    case InputKind::Choice: {
        out.set("type", "string");
        Json choices = Json::array();
        for (const std::string_view choice : input.choices) {
            choices.items.emplace_back(choice);
        }
        out.set("enum", std::move(choices));
        break;
    }
    case InputKind::Text:
        out.set("type", anyOf({"string", "integer"}));
        break;
    case InputKind::Flag:
        out.set("enum", Json::array({Json::boolean(false), Json::boolean(true), Json(0), Json(1)}));
        break;
    case InputKind::Object:
        return objectSchema(input.inside);
    case InputKind::List:
        out.set("type", "array");
        out.set("items", objectSchema(input.inside));
        break;
    }
    return out;
}

Json objectSchema(std::span<const Input> inputs)
{
    Json properties = Json::object();
    Json required = Json::array();
    for (const Input& input : inputs) {
        properties.set(std::string(input.key), inputSchema(input));
        if (input.required) {
            required.items.emplace_back(input.key);
        }
    }
    Json out = Json::object();
    out.set("type", "object").set("properties", std::move(properties));
    if (!required.items.empty()) {
        out.set("required", std::move(required));
    }
    return out.set("additionalProperties", Json::boolean(false));
}

Json outputSchema(const Output& output)
{
    Json out = Json::object();
    switch (output.kind) {
    case OutputKind::Number:
        out.set("type", "number");
        break;
    case OutputKind::Text:
        return out.set("type", "string");
    case OutputKind::Flag:
        return out.set("type", "boolean");
    case OutputKind::List:
        return out.set("type", "array");
    case OutputKind::Object:
        return out.set("type", "object");
    }
    out.set("dimension", quantity::dimensionName(output.dimension));
    if (const std::string_view unit = unitOf(output); !unit.empty()) {
        out.set("unit", unit);
    }
    return out;
}

} // namespace

std::string_view unitOf(const Output& output)
{
    if (output.key.starts_with("percent_of_") && output.kind == OutputKind::Number) {
        return "percent";
    }
    std::string_view best;
    for (const std::string_view unit : kUnits) {
        const bool whole = output.key == unit;
        const bool ends =
            output.key.size() > unit.size() && output.key.ends_with(unit) && output.key[output.key.size() - unit.size() - 1] == '_';
        if ((whole || ends) && unit.size() > best.size() && output.kind == OutputKind::Number) {
            best = unit;
        }
    }
    return best;
}

double siOf(const Output& output, double value)
{
    const std::string_view unit = unitOf(output);
    if (unit == "deg") {
        return value * std::numbers::pi / 180;
    }
    if (unit == "percent") {
        return value / 100;
    }
    if (unit == "per_mille") {
        return value / 1000;
    }
    return unit == "mL" || unit == "ppm" ? value * 1e-6 : value;
}

Json describe(const Figure& figure)
{
    Json inputs = Json::object();
    inputs.set("$schema", kDraft);
    for (canon::Member& member : objectSchema(figure.inputs).members) {
        inputs.set(member.key, std::move(member.value));
    }
    Json properties = Json::object();
    for (const Output& output : figure.outputs) {
        properties.set(std::string(output.key), outputSchema(output));
    }
    Json outputs = Json::object();
    outputs.set("$schema", kDraft).set("type", "object").set("properties", std::move(properties));
    Json warnings = Json::array();
    for (const std::string_view warning : figure.warnings) {
        warnings.items.emplace_back(warning);
    }
    Json out = Json::object();
    out.set("figure", figure.name).set("version", Json(static_cast<int>(figure.version)));
    return out.set("inputs", std::move(inputs)).set("outputs", std::move(outputs)).set("warnings", std::move(warnings));
}

} // namespace brimful::figure
