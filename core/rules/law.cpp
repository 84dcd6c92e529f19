#include "core/rules/law.h"

#include <algorithm>

namespace brimful::rules {

using canon::Json;

namespace {

bool extendsCarried(const PackSource& source)
{
    const auto json = canon::read(source.files.at("pack.json"), canon::Dialect::Subset);
    return json && json->textOf("extends") == kCarriedPack;
}

} // namespace

std::vector<std::string> carriedLaws()
{
    std::vector<std::string> out;
    for (const PackSource& source : shippedPacks()) {
        if (extendsCarried(source)) {
            out.push_back(source.id);
        }
    }
    std::ranges::sort(out);
    return out;
}

std::optional<Ruling> carriedRuling(std::string_view law)
{
    const auto named = [](std::string_view id) { return *std::ranges::find(shippedPacks(), id, &PackSource::id); };
    Ruling out{named(kCarriedPack), {}};
    for (const std::string& id : carriedLaws()) {
        if (law.empty() || law == id) {
            out.overlays.push_back(named(id));
        }
    }
    if (out.overlays.empty() && law != kCarriedPack) {
        return std::nullopt;
    }
    return out;
}

tl::expected<Pack, std::vector<LoadError>> load(const Ruling& ruling) { return load(ruling.pack, ruling.overlays); }

std::string packText(const PackSource& source)
{
    Json files = Json::object();
    for (const auto& [path, content] : source.files) {
        if (path.ends_with(".json") && !path.starts_with("cases/")) {
            files.members.push_back({path, Json(content)});
        }
    }
    Json out = Json::object();
    out.set("files", std::move(files)).set("id", source.id);
    return canon::write(out, true);
}

std::optional<PackSource> packOfText(std::string_view text)
{
    const auto json = canon::read(text, canon::Dialect::Any);
    const Json* files = json ? json->find("files") : nullptr;
    if (files == nullptr || !files->is(canon::Type::Object)) {
        return std::nullopt;
    }
    PackSource out;
    out.id = json->textOf("id");
    for (const canon::Member& file : files->members) {
        out.files.emplace(file.key, file.value.text);
    }
    return out;
}

std::vector<Tightening> tightenings(const Pack& pack)
{
    std::vector<Tightening> out;
    for (const Parameter& one : pack.parameters) {
        if (!one.of_pack.empty()) {
            Tightening moved;
            moved.id = one.id;
            moved.from = one.of_pack;
            moved.to = one.typed;
            moved.tighter = one.tightened;
            moved.by = one.set_by;
            moved.sources = one.sources;
            out.push_back(std::move(moved));
        }
    }
    for (const Step& one : pack.steps) {
        if (!one.life_set_by.empty()) {
            Tightening shorter;
            shorter.what = Tightening::What::Life;
            shorter.id = one.id;
            shorter.from_ms = one.life_of_pack_ms;
            shorter.to_ms = one.life_ms;
            shorter.by = one.life_set_by;
            out.push_back(std::move(shorter));
        }
    }
    for (const HoldPoint& hold_point : pack.hold_points) {
        const auto add = [&](const std::vector<Rule>& rules, Tightening::What what) {
            for (const Rule& rule : rules) {
                if (!rule.set_by.empty()) {
                    Tightening more;
                    more.what = what;
                    more.id = rule.id;
                    more.hold_point = hold_point.id;
                    more.by = rule.set_by;
                    more.sources = rule.sources;
                    out.push_back(std::move(more));
                }
            }
        };
        add(hold_point.at_giving, Tightening::What::AtGiving);
        add(hold_point.require, Tightening::What::Require);
        add(hold_point.stop, Tightening::What::Stop);
    }
    std::ranges::stable_sort(out, [](const Tightening& a, const Tightening& b) { return a.tighter && !b.tighter; });
    return out;
}

} // namespace brimful::rules
