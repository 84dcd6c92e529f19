#include "core/rules/loading.h"

#include "core/quantity/recorded.h"

#include <algorithm>
#include <numeric>

namespace brimful::rules {

using canon::Json;
using canon::Type;

Spot Spot::at(std::string_view key) const
{
    Spot out{nullptr, file, path.empty() ? std::string(key) : path + "." + std::string(key)};
    if (json != nullptr && json->is(Type::Object)) {
        out.json = json->find(key);
    }
    return out;
}

Spot Spot::at(std::size_t item) const
{
    return {json != nullptr && item < json->items.size() ? &json->items[item] : nullptr, file, path + "[" + std::to_string(item) + "]"};
}

std::string nearestName(std::string_view wanted, const std::vector<std::string>& known)
{
    std::string best;
    std::size_t best_distance = std::max<std::size_t>(2, wanted.size() / 3) + 1;
    for (const std::string& name : known) {
        std::vector<std::size_t> row(name.size() + 1);
        std::iota(row.begin(), row.end(), std::size_t{0});
        for (std::size_t i = 1; i <= wanted.size(); ++i) {
            std::size_t diagonal = row[0];
            row[0] = i;
            for (std::size_t j = 1; j <= name.size(); ++j) {
                const std::size_t changed = diagonal + (wanted[i - 1] == name[j - 1] ? 0 : 1);
                diagonal = row[j];
                row[j] = std::min({changed, row[j] + 1, row[j - 1] + 1});
            }
        }
        if (row.back() < best_distance) {
            best_distance = row.back();
            best = name;
        }
    }
    return best;
}

Loading::Loading(const PackSource& source)
    : source_files(&source.files)
    , m_id(source.id)
{
    for (const auto& [name, text] : source.files) {
        if (!name.ends_with(".json") || name.starts_with("cases/")) {
            continue;
        }
        auto json = canon::read(text, canon::Dialect::Subset);
        if (!json) {
            LoadError error{json.error().fault == canon::JsonFault::DuplicateKey ? LoadFault::DuplicateId : LoadFault::Json,
                m_id + "/" + name, json.error().line, json.error().column, {}, {}, json.error().found, {}};
            errors.push_back(std::move(error));
            continue;
        }
        m_json.emplace(name, std::move(*json));
    }
}

void Loading::fail(LoadFault fault, const Spot& spot, std::string expected, std::string found, std::string nearest)
{
    errors.push_back({fault, spot.file, spot.json != nullptr ? spot.json->line : 0, spot.json != nullptr ? spot.json->column : 0, spot.path,
        std::move(expected), std::move(found), std::move(nearest)});
}

Spot Loading::file(const std::string& name, bool required)
{
    const auto found = m_json.find(name);
    Spot spot{found == m_json.end() ? nullptr : &found->second, m_id + "/" + name, {}};
    if (!spot.exists() && required) {
        fail(LoadFault::MissingFile, spot, name);
    }
    return spot;
}

std::vector<std::string> Loading::filesUnder(const std::string& folder) const
{
    std::vector<std::string> names;
    for (const auto& [name, json] : m_json) {
        if (name.starts_with(folder + "/")) {
            names.push_back(name);
        }
    }
    return names;
}

bool Loading::keys(const Spot& spot, std::initializer_list<std::string_view> allowed)
{
    if (!spot.exists()) {
        return false;
    }
    if (!spot.json->is(Type::Object)) {
        fail(LoadFault::WrongType, spot, "object");
        return false;
    }
    const std::vector<std::string> known(allowed.begin(), allowed.end());
    bool good = true;
    for (const canon::Member& member : spot.json->members) {
        if (std::ranges::find(known, member.key) == known.end()) {
            Spot at = spot.at(member.key);
            fail(LoadFault::UnknownKey, at, {}, member.key, nearestName(member.key, known));
            good = false;
        }
    }
    return good;
}

std::string Loading::text(const Spot& spot, bool required)
{
    if (!spot.exists()) {
        if (required) {
            fail(LoadFault::MissingKey, spot);
        }
        return {};
    }
    if (!spot.json->is(Type::String)) {
        fail(LoadFault::WrongType, spot, "text");
        return {};
    }
    return spot.json->text;
}

std::string Loading::word(const Spot& spot, bool required)
{
    std::string value = text(spot, required);
    const bool empty = value.empty() && required && spot.exists() && spot.json->is(Type::String);
    const bool good =
        !empty && std::ranges::all_of(value, [](char c) { return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-'; });
    if (!good) {
        fail(LoadFault::WrongType, spot, "lower-case words with hyphens", value);
    }
    return value;
}

bool Loading::yes(const Spot& spot)
{
    const std::string value = text(spot, false);
    if (!value.empty() && value != "yes") {
        fail(LoadFault::WrongType, spot, "yes", value);
    }
    return value == "yes";
}

std::int64_t Loading::version(const Spot& spot)
{
    if (!spot.exists()) {
        fail(LoadFault::MissingKey, spot, "1, 2, 3 ...");
        return 0;
    }
    if (!spot.json->is(Type::Integer) || spot.json->integer < 1) {
        fail(LoadFault::BadVersion, spot, "1, 2, 3 ...");
        return 0;
    }
    return spot.json->integer;
}

std::vector<std::string> Loading::words(const Spot& spot, bool required)
{
    std::vector<std::string> out;
    if (!spot.exists()) {
        if (required) {
            fail(LoadFault::MissingKey, spot);
        }
        return out;
    }
    if (!spot.json->is(Type::Array)) {
        fail(LoadFault::WrongType, spot, "array");
        return out;
    }
    for (std::size_t i = 0; i < spot.json->items.size(); ++i) {
        std::string one = text(spot.at(i), true);
        if (std::ranges::find(out, one) != out.end()) {
            fail(LoadFault::DuplicateId, spot.at(i), {}, one);
        }
        out.push_back(std::move(one));
    }
    return out;
}

std::vector<Index> Loading::indices(const Spot& spot, const std::vector<std::string>& known, const char* what)
{
    std::vector<Index> out;
    const auto names = words(spot, false);
    for (std::size_t i = 0; i < names.size(); ++i) {
        const auto found = std::ranges::find(known, names[i]);
        if (found == known.end()) {
            fail(LoadFault::UnknownName, spot.at(i), what, names[i], nearestName(names[i], known));
        } else {
            out.push_back(static_cast<Index>(found - known.begin()));
        }
    }
    return out;
}

namespace {

// By what sources.json says of a document: it excludes containers of compressed gas.
bool isOutOfScope(const std::string& id)
{
    static const std::set<std::string> kExcluding = [] {
        std::set<std::string> out;
        const auto json = canon::read(shippedFile("reference/sources.json"), canon::Dialect::Subset);
        const canon::Json* const all = json ? json->find("sources") : nullptr;
        for (const canon::Member& one : all == nullptr ? std::vector<canon::Member>() : all->members) {
            if (one.value.textOf("excludes") == "compressed-gas-containers") {
                out.insert(one.key);
            }
        }
        return out;
    }();
    return kExcluding.contains(id);
}

} // namespace

std::vector<SourceRef> Loading::sources(const Spot& spot)
{
    constexpr std::array<std::pair<std::string_view, Mark>, 5> kMarks{{{"found", Mark::Found}, {"memory", Mark::Memory},
        {"computed", Mark::Computed}, {"proposal", Mark::Proposal}, {"common-practice", Mark::CommonPractice}}};
    std::vector<SourceRef> out;
    if (!spot.exists()) {
        fail(LoadFault::MissingKey, spot, "source");
        return out;
    }
    if (!spot.json->is(Type::Array) || spot.json->items.empty()) {
        fail(LoadFault::WrongType, spot, "array");
        return out;
    }
    for (std::size_t i = 0; i < spot.json->items.size(); ++i) {
        const Spot one = spot.at(i);
        keys(one, {"id", "place", "mark"});
        SourceRef source;
        source.id = word(one.at("id"), false);
        source.place = text(one.at("place"), false);
        if (isOutOfScope(source.id)) {
            fail(LoadFault::OutOfScope, one.at("id"), {}, source.id);
        }
        const std::string mark = text(one.at("mark"), true);
        const auto found = std::ranges::find(kMarks, mark, &std::pair<std::string_view, Mark>::first);
        if (found == kMarks.end()) {
            fail(LoadFault::UnknownName, one.at("mark"), "found, memory, computed, proposal, common-practice", mark);
        } else {
            source.mark = found->second;
        }
        const bool must_name = source.mark == Mark::Found;
        if (must_name && source.id.empty()) {
            fail(LoadFault::MissingKey, one.at("id"));
        }
        out.push_back(std::move(source));
    }
    return out;
}

std::optional<std::int64_t> Loading::count(const Spot& spot, quantity::Dimension dimension, const std::string& unit)
{
    if (!spot.exists()) {
        return std::nullopt;
    }
    if (spot.json->is(Type::Integer)) {
        if (dimension != quantity::Dimension::Number) {
            fail(LoadFault::BadUnit, spot, unit, std::to_string(spot.json->integer));
            return std::nullopt;
        }
        return spot.json->integer;
    }
    if (spot.json->is(Type::Object)) {
        keys(spot, {"parameter"});
        const std::string name = word(spot.at("parameter"), true);
        const Parameter* parameter = pack.parameter(name);
        if (parameter == nullptr) {
            std::vector<std::string> known;
            for (const Parameter& one : pack.parameters) {
                known.push_back(one.id);
            }
            fail(LoadFault::UnknownName, spot.at("parameter"), "parameter", name, nearestName(name, known));
            return std::nullopt;
        }
        if (parameter->dimension != dimension) {
            fail(LoadFault::BadUnit, spot, std::string(quantity::dimensionName(dimension)), parameter->typed);
            return std::nullopt;
        }
        return parameter->count;
    }
    const std::string typed = text(spot, true);
    const auto recorded = quantity::record(typed, dimension);
    if (!recorded) {
        fail(LoadFault::BadQuantity, spot, std::string(quantity::dimensionName(dimension)), typed);
        return std::nullopt;
    }
    return recorded->count;
}

std::int64_t Loading::duration(const Spot& spot)
{
    const auto seconds = count(spot, quantity::Dimension::Duration, "s");
    if (seconds && *seconds <= 0) { // nothing lasts for no time; and no life would mean for ever
        fail(LoadFault::BadQuantity, spot, "1 s or longer", spot.json->is(Type::String) ? spot.json->text : std::to_string(*seconds));
        return 0;
    }
    return seconds.value_or(0) * 1000;
}

Index Loading::place(const Spot& spot)
{
    pack.places.push_back({spot.file, spot.json != nullptr ? spot.json->line : 0, spot.json != nullptr ? spot.json->column : 0});
    return static_cast<Index>(pack.places.size() - 1);
}

} // namespace brimful::rules
