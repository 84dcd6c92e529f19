#include "tests/core/rules/packs.h"

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <iterator>

namespace brimful::test {

[[noreturn]] void giveUp(const std::string& why)
{
    std::cerr << why << std::endl;
    std::_Exit(3);
}

rules::PackSource packFiles(const std::string& id)
{
    rules::PackSource source;
    source.id = id;
    const std::filesystem::path root = std::filesystem::path(BRIMFUL_SOURCE_DIR) / "tests/core/rules/packs" / id;
    for (const auto& entry : std::filesystem::recursive_directory_iterator(root)) {
        if (entry.is_regular_file()) {
            std::ifstream in(entry.path(), std::ios::binary);
            source.files.emplace(
                std::filesystem::relative(entry.path(), root).string(), std::string{std::istreambuf_iterator<char>(in), {}});
        }
    }
    return source;
}

const rules::PackSource& shipped(std::string_view id)
{
    for (const rules::PackSource& source : rules::shippedPacks()) {
        if (source.id == id) {
            return source;
        }
    }
    giveUp("no such pack");
}

rules::Pack loaded(const rules::PackSource& source, std::span<const rules::PackSource> overlays)
{
    auto pack = rules::load(source, overlays);
    if (!pack) {
        giveUp(told(pack.error()));
    }
    return std::move(*pack);
}

std::string told(const std::vector<rules::LoadError>& errors)
{
    std::string out;
    for (const rules::LoadError& error : errors) {
        out += error.file + ":" + std::to_string(error.line) + ":" + std::to_string(error.column) + " " + error.path + " fault "
            + std::to_string(static_cast<int>(error.fault)) + " expected " + error.expected + " found " + error.found + " nearest "
            + error.nearest + "\n";
    }
    return out;
}

} // namespace brimful::test
