#include "core/figure/check.h"

#include "core/quantity/parse.h"

#include <algorithm>
#include <numbers>

namespace brimful::figure {

namespace {

using canon::Json;
using canon::Type;

std::string_view kindName(InputKind kind)
{
    switch (kind) {
    case InputKind::Quantity:
        return "quantity";
    case InputKind::Number:
        return "number";
    case InputKind::Choice:
        return "choice";
    case InputKind::Text:
        return "text";
    case InputKind::Flag:
        return "flag";
    case InputKind::Object:
        return "object";
    case InputKind::List:
        return "list";
    }
    return {};
}

std::string shown(const Json& value) { return value.is(Type::String) ? value.text : canon::write(value, false); }

tl::unexpected<Error> wrongType(const Input& input, const Json& given, const std::string& path)
{
    return fail(Code::WrongType, path, std::string(kindName(input.kind)), shown(given));
}

tl::expected<Json, Error> checkQuantity(const Input& input, const Json& given, const std::string& path)
{
    if (given.is(Type::Integer) || given.is(Type::Number)) {
        if (input.dimension == Dimension::Angle && input.key.ends_with("_deg")) {
            return Json::real(given.number * std::numbers::pi / 180);
        }
        return fail(Code::BadQuantity, path, std::string(quantity::dimensionName(input.dimension)), shown(given));
    }
    if (!given.is(Type::String)) {
        return wrongType(input, given, path);
    }
    const auto read = quantity::parse(given.text, input.dimension);
    if (!read) {
        const auto& error = read.error();
        const bool range = error.fault == quantity::ParseFault::OutOfRange;
        return fail(range ? Code::OutOfRange : Code::BadQuantity, path,
            error.expected.empty() ? std::string(quantity::dimensionName(input.dimension)) : error.expected, given.text);
    }
    return Json::real(read->si);
}

tl::expected<Json, Error> checkNumber(const Input& input, const Json& given, const std::string& path)
{
    if (given.is(Type::Integer) || given.is(Type::Number)) {
        return Json::real(given.number);
    }
    if (!given.is(Type::String)) {
        return wrongType(input, given, path);
    }
    auto read = quantity::parse(given.text, Dimension::Number);
    if (!read && input.dimension == Dimension::VolumeShare) {
        read = quantity::parse(given.text, Dimension::VolumeShare);
    }
    if (!read) {
        return fail(Code::BadQuantity, path, "number", given.text);
    }
    return Json::real(read->si);
}

tl::expected<Json, Error> checkChoice(const Input& input, const Json& given, const std::string& path)
{
    if (!given.is(Type::String)) {
        return wrongType(input, given, path);
    }
    if (std::ranges::find(input.choices, given.text) != input.choices.end()) {
        return Json(given.text);
    }
    std::string all;
    for (const std::string_view choice : input.choices) {
        all.append(all.empty() ? "" : ", ").append(choice);
    }
    return fail(Code::UnknownChoice, path, all, given.text);
}

tl::expected<Json, Error> checkText(const Input& input, const Json& given, const std::string& path)
{
    if (given.is(Type::String)) {
        return Json(given.text);
    }
    return given.is(Type::Integer) ? tl::expected<Json, Error>(Json(std::to_string(given.integer))) : wrongType(input, given, path);
}

tl::expected<Json, Error> checkFlag(const Input& input, const Json& given, const std::string& path)
{
    const bool isFlag = given.is(Type::Bool) || (given.is(Type::Integer) && (given.integer == 0 || given.integer == 1));
    return isFlag ? tl::expected<Json, Error>(Json::boolean(given.integer != 0)) : wrongType(input, given, path);
}

tl::expected<Json, Error> checkList(const Input& input, const Json& given, const std::string& path)
{
    if (!given.is(Type::Array)) {
        return wrongType(input, given, path);
    }
    Json out = Json::array();
    for (std::size_t i = 0; i < given.items.size(); ++i) {
        auto item = check(input.inside, given.items[i], path + "[" + std::to_string(i) + "]");
        if (!item) {
            return tl::unexpected(item.error());
        }
        out.items.push_back(std::move(*item));
    }
    return out;
}

tl::expected<Json, Error> checkOne(const Input& input, const Json& given, const std::string& path)
{
    switch (input.kind) {
    case InputKind::Quantity:
        return checkQuantity(input, given, path);
    case InputKind::Number:
        return checkNumber(input, given, path);
    case InputKind::Choice:
        return checkChoice(input, given, path);
    case InputKind::Text:
        return checkText(input, given, path);
    case InputKind::Flag:
        return checkFlag(input, given, path);
    case InputKind::Object:
        return check(input.inside, given, path);
    case InputKind::List:
        return checkList(input, given, path);
    }
    return wrongType(input, given, path);
}

} // namespace

std::string pathTo(std::string_view parent, std::string_view key)
{
    std::string out(parent);
    return out.append(out.empty() ? "" : ".").append(key);
}

tl::expected<Json, Error> check(std::span<const Input> inputs, const Json& given, const std::string& path)
{
    if (!given.is(Type::Object)) {
        return fail(Code::WrongType, path, "object", shown(given));
    }
    Json out = Json::object();
    for (const canon::Member& member : given.members) {
        const auto input = std::ranges::find(inputs, std::string_view(member.key), &Input::key);
        const std::string here = pathTo(path, member.key);
        if (input == inputs.end()) {
            std::string known;
            for (const Input& one : inputs) {
                known.append(known.empty() ? "" : ", ").append(one.key);
            }
            return fail(Code::UnknownKey, here, known, member.key);
        }
        auto value = checkOne(*input, member.value, here);
        if (!value) {
            return value;
        }
        out.set(member.key, std::move(*value));
    }
    for (const Input& input : inputs) {
        if (input.required && out.find(input.key) == nullptr) {
            const bool measured = input.kind == InputKind::Quantity;
            return fail(Code::Missing, pathTo(path, input.key),
                std::string(measured ? quantity::dimensionName(input.dimension) : kindName(input.kind)));
        }
    }
    return out;
}

std::optional<double> numberAt(const Json& checked, std::string_view key)
{
    const Json* const value = checked.find(key);
    return value == nullptr ? std::nullopt : std::optional(value->number);
}

double numberAt(const Json& checked, std::string_view key, double otherwise) { return numberAt(checked, key).value_or(otherwise); }

bool flagAt(const Json& checked, std::string_view key)
{
    const Json* const value = checked.find(key);
    return value != nullptr && value->integer != 0;
}

} // namespace brimful::figure
