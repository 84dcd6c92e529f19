#include "core/rules/embedded.h"
#include "core/rules/pack.h"

#include <algorithm>

namespace brimful::rules {

std::string_view shippedFile(std::string_view path)
{
    const auto files = embedded();
    const auto found = std::ranges::find(files, path, &Embedded::path);
    return found == files.end() ? std::string_view() : found->content;
}

std::vector<std::string> shippedFiles(std::string_view folder)
{
    std::vector<std::string> out;
    for (const Embedded& file : embedded()) {
        if (file.path.starts_with(folder)) {
            out.emplace_back(file.path);
        }
    }
    return out;
}

std::span<const PackSource> shippedPacks()
{
    // A pack is a folder with a pack.json in it.
    static const std::vector<PackSource> packs = [] {
        std::vector<PackSource> out;
        for (const Embedded& file : embedded()) {
            constexpr std::string_view kHead = "/pack.json";
            if (!file.path.ends_with(kHead)) {
                continue;
            }
            PackSource pack;
            pack.id = file.path.substr(0, file.path.size() - kHead.size());
            for (const Embedded& one : embedded()) {
                if (one.path.starts_with(pack.id + "/")) {
                    pack.files.emplace(one.path.substr(pack.id.size() + 1), one.content);
                }
            }
            out.push_back(std::move(pack));
        }
        return out;
    }();
    return packs;
}

canon::Hash manifestHash(const PackSource& source)
{
    std::string manifest;
    for (const auto& [path, content] : source.files) {
        if (path.starts_with("cases/") || path.starts_with("strings.")) {
            continue;
        }
        manifest += path;
        manifest += '\0';
        manifest += canon::toHex(canon::sha256(content));
        manifest += '\n';
    }
    return canon::sha256(manifest);
}

} // namespace brimful::rules
