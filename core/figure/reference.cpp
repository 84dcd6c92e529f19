#include "core/figure/reference.h"

#include "core/figure/check.h"
#include "core/quantity/parse.h"

#include <array>
#include <charconv>

namespace brimful::figure {

namespace {

using canon::Json;

std::optional<double> numberBefore(std::string_view text, std::string_view unit)
{
    if (!text.ends_with(unit)) {
        return std::nullopt;
    }
    double value = 0.0;
    const auto end = std::from_chars(text.data(), text.data() + text.size(), value);
    return end.ec == std::errc() && end.ptr == text.data() + text.size() - unit.size() ? std::optional<double>(value) : std::nullopt;
}

std::optional<double> share(std::string_view text)
{
    const auto percent = numberBefore(text, " %");
    return percent ? std::optional<double>(*percent / 100.0) : std::nullopt;
}

std::optional<gas::FlammableRange> rangeOf(const Json& range)
{
    const auto lower = share(range.textOf("lower"));
    const auto upper = share(range.textOf("upper"));
    const bool ordered = lower && upper && *lower > 0.0 && *lower < *upper && *upper <= 1.0;
    return ordered ? std::optional<gas::FlammableRange>({*lower, *upper}) : std::nullopt;
}

std::optional<gas::Routing> routingOf(std::string_view word)
{
    if (word == "shop") {
        return gas::Routing::Shop;
    }
    if (word == "specialist") {
        return gas::Routing::Specialist;
    }
    return word == "never" ? std::optional<gas::Routing>(gas::Routing::Never) : std::nullopt;
}

std::optional<double> boilingPoint(std::string_view text)
{
    const auto read = quantity::parse(text, Dimension::Temperature);
    return read ? std::optional<double>(read->si) : std::nullopt;
}

std::optional<bool> yes(std::string_view word) { return word == "yes" ? std::optional(true) : std::nullopt; }

// One member of a row into its place; false: not readable, or a key that nobody reads.
template <class T> bool put(T& place, const std::optional<std::remove_cvref_t<T>>& read)
{
    if (read) {
        place = *read;
    }
    return read.has_value();
}

template <class T> bool put(std::optional<T>& place, const std::optional<T>& read)
{
    place = read;
    return read.has_value();
}

bool readMember(gas::Substance& out, std::string_view key, const Json& value)
{
    const std::string_view text = value.text;
    if (key == "cas") {
        out.cas = text;
        return !text.empty();
    }
    if (key == "molar_mass") {
        const auto grams = numberBefore(text, " g/mol");
        out.molar_mass_kg_mol = grams.value_or(0.0) / 1000.0;
        return grams && *grams > 0.0;
    }
    if (key == "nfpa_497" || key == "iec_60079_20_1" || key == "in_oxygen") {
        return put(key == "nfpa_497" ? out.nfpa : key == "in_oxygen" ? out.in_oxygen : out.iec, rangeOf(value));
    }
    if (key == "oxygen_moles") {
        return put(out.oxygen_moles, numberBefore(text, ""));
    }
    if (key == "limiting_oxygen_nitrogen") {
        return put(out.limiting_oxygen_nitrogen, share(text));
    }
    if (key == "limiting_oxygen_carbon_dioxide") {
        return put(out.limiting_oxygen_carbon_dioxide, share(text));
    }
    if (key == "limiting_oxygen_e2079") {
        return put(out.limiting_oxygen_tested, share(text));
    }
    if (key == "boiling_point") {
        return put(out.boiling_point_K, boilingPoint(value.textOf("value")));
    }
    if (key == "liquid_density") {
        return put(out.liquid_density_kg_m3, numberBefore(value.textOf("value"), " kg/m3"));
    }
    if (key == "heavy_ends") {
        return put(out.heavy_ends, yes(text));
    }
    if (key == "poisons_catalytic") {
        return put(out.poisons_catalytic, yes(text));
    }
    return key == "routing" && put(out.routing, routingOf(text));
}

tl::expected<gas::Substance, Error> rowOf(const std::string& id, const Json& row)
{
    gas::Substance out;
    out.id = id;
    if (row.find("routing") == nullptr) {
        return fail(Code::Missing, id + ".routing", "shop, specialist, never");
    }
    for (const canon::Member& member : row.members) {
        if (!readMember(out, member.key, member.value)) {
            return fail(Code::BadQuantity, id + "." + member.key, {}, member.value.text);
        }
    }
    if (out.in_oxygen && out.flammable() && out.widestRange()->upper >= out.in_oxygen->upper) {
        return fail(Code::Conflicting, id + ".in_oxygen", "an upper limit in oxygen above the one in air"); // taken for the other
    }
    return out;
}

} // namespace

tl::expected<gas::SubstanceTable, Error> shippedSubstances(std::string_view text)
{
    const auto json = canon::read(text, canon::Dialect::Subset);
    const Json* rows = json ? json->find("substances") : nullptr;
    if (rows == nullptr || !rows->is(canon::Type::Object)) {
        return fail(Code::WrongType, "substances", "object");
    }
    std::vector<gas::Substance> table;
    for (const canon::Member& member : rows->members) {
        auto row = rowOf(member.key, member.value);
        if (!row) {
            return tl::unexpected(row.error());
        }
        table.push_back(std::move(*row));
    }
    return gas::SubstanceTable(std::move(table));
}

} // namespace brimful::figure
