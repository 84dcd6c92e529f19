#include "core/ledger/own_answer.h"

#include <algorithm>
#include <array>

namespace brimful::ledger {

using canon::Json;
using canon::Type;

namespace {

constexpr std::array<std::string_view, 4> kKeys{"column", "fact", "row", "value"};

tl::unexpected<EntryError> wrong(EntryFault fault, std::string_view key, std::string expected)
{
    std::string path = "answer";
    if (!key.empty()) {
        path.append(".").append(key);
    }
    return tl::unexpected(EntryError{fault, std::move(path), std::move(expected)});
}

bool isValue(const Json& value)
{
    if (!value.is(Type::Object)) {
        return value.is(Type::Integer) || (value.is(Type::String) && !value.text.empty());
    }
    const Json* count = value.find("count");
    return value.members.size() == 3 && count != nullptr && count->is(Type::Integer) && !value.textOf("typed").empty()
        && !value.textOf("unit").empty();
}

} // namespace

tl::expected<std::optional<OwnAnswer>, EntryError> ownAnswer(const Json& payload)
{
    const Json* answer = payload.find("answer");
    if (answer == nullptr) {
        return std::nullopt;
    }
    if (!answer->is(Type::Object)) {
        return wrong(EntryFault::WrongType, {}, "object");
    }
    for (const canon::Member& member : answer->members) {
        if (std::ranges::find(kKeys, member.key) == kKeys.end()) {
            return wrong(EntryFault::UnknownKey, member.key, "fact, value; row, column");
        }
        if (member.key != "value" && (!member.value.is(Type::String) || member.value.text.empty())) {
            return wrong(EntryFault::WrongType, member.key, "text");
        }
    }
    for (const std::string_view key : {"fact", "value"}) {
        if (answer->find(key) == nullptr) {
            return wrong(EntryFault::MissingKey, key, key == "fact" ? "text" : "text, integer or quantity");
        }
    }
    if ((answer->find("row") == nullptr) != (answer->find("column") == nullptr)) {
        return wrong(EntryFault::MissingKey, answer->find("row") == nullptr ? "row" : "column", "row and column together");
    }
    const Json& value = *answer->find("value");
    if (!isValue(value)) {
        return wrong(EntryFault::WrongType, "value", "text, integer or quantity");
    }
    return OwnAnswer{std::string(answer->textOf("fact")), std::string(answer->textOf("row")), std::string(answer->textOf("column")), value};
}

Json toJson(const OwnAnswer& answer)
{
    Json out = Json::object();
    out.set("fact", answer.fact).set("value", answer.value);
    if (!answer.column.empty()) {
        out.set("row", answer.row).set("column", answer.column);
    }
    return out;
}

} // namespace brimful::ledger
