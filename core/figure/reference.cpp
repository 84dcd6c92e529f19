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

std::optional<gas::FlammableRange> rangeOf(const Json& row, std::string_view key)
{
    const Json* range = row.find(key);
    const auto lower = range == nullptr ? std::nullopt : share(range->textOf("lower"));
    const auto upper = range == nullptr ? std::nullopt : share(range->textOf("upper"));
    return lower && upper ? std::optional<gas::FlammableRange>({*lower, *upper}) : std::nullopt;
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

tl::expected<gas::Substance, Error> rowOf(const std::string& id, const Json& row)
{
    gas::Substance out;
    out.id = id;
    out.cas = row.textOf("cas");
    if (const std::string_view mass = row.textOf("molar_mass"); !mass.empty()) {
        const auto grams = numberBefore(mass, " g/mol");
        if (!grams) {
            return fail(Code::BadQuantity, id + ".molar_mass", "g/mol", std::string(mass));
        }
        out.molar_mass_kg_mol = *grams / 1000.0;
    }
    out.nfpa = rangeOf(row, "nfpa_497");
    out.iec = rangeOf(row, "iec_60079_20_1");
    if ((row.find("nfpa_497") != nullptr && !out.nfpa) || (row.find("iec_60079_20_1") != nullptr && !out.iec)) {
        return fail(Code::BadQuantity, id, "%");
    }
    out.oxygen_moles = numberBefore(row.textOf("oxygen_moles"), "");
    out.limiting_oxygen_nitrogen = share(row.textOf("limiting_oxygen_nitrogen"));
    if (const Json* boiling = row.find("boiling_point")) {
        const auto read = quantity::parse(boiling->textOf("value"), Dimension::Temperature);
        out.boiling_point_K = read ? std::optional<double>(read->si) : std::nullopt;
    }
    if (const Json* density = row.find("liquid_density")) {
        out.liquid_density_kg_m3 = numberBefore(density->textOf("value"), " kg/m3");
    }
    out.heavy_ends = row.textOf("heavy_ends") == "yes";
    const auto routing = routingOf(row.textOf("routing"));
    if (!routing) {
        return fail(Code::UnknownChoice, id + ".routing", "shop, specialist, never", std::string(row.textOf("routing")));
    }
    out.routing = *routing;
    return out;
}

} // namespace

tl::expected<gas::SubstanceTable, Error> shippedSubstances(std::string_view text)
{
    const auto json = canon::read(text, canon::Dialect::Subset);
    const Json* rows = json ? json->find("substances") : nullptr;
    if (rows == nullptr) {
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
