// One load: read, build, check. All errors come out together; a broken pack loads nothing.
#include "core/rules/loading.h"

namespace brimful::rules {

tl::expected<Pack, std::vector<LoadError>> load(const PackSource& base, std::span<const PackSource> overlays)
{
    Loading loading(base);
    const Spot head = loading.file("pack.json", true);
    if (!head.exists()) {
        return tl::unexpected(std::move(loading.errors));
    }
    loading.keys(head, {"id", "version", "parameters", "everywhere"});
    loading.pack.id = loading.word(head.at("id"), true);
    loading.pack.version = loading.version(head.at("version"));
    loading.pack.hash = manifestHash(base);
    loading.parameters(head.at("parameters"));
    for (const PackSource& overlay : overlays) {
        loading.overlay(overlay, Loading::Pass::Parameters);
    }
    loading.lists();
    loading.steps();
    loading.stepBodies();
    loading.stringsOf(loading.file("strings.en.json", true), false);
    // Conditions name hold points before these are read in full.
    loading.holdPoints();
    const auto spots = loading.step_spots;
    for (const auto& [index, spot] : spots) {
        loading.pack.steps[index].accept = loading.condition(spot.at("accept"), index);
        if (spot.at("when").exists()) {
            loading.pack.steps[index].when = loading.condition(spot.at("when"), kNone);
        }
    }
    loading.derivations();
    for (const PackSource& overlay : overlays) {
        loading.overlay(overlay, Loading::Pass::Rules);
    }
    if (loading.errors.empty()) {
        loading.check();
    }
    if (!loading.errors.empty()) {
        return tl::unexpected(std::move(loading.errors));
    }
    return std::move(loading.pack);
}

} // namespace brimful::rules
