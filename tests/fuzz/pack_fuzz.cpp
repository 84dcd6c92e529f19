// A pack with one file replaced by any bytes: loaded or refused with errors, never anything else.
#include "core/rules/pack.h"

#include <algorithm>
#include <cstdlib>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size)
{
    using namespace brimful::rules;
    if (size < 1) {
        return 0;
    }
    static const PackSource base = *std::ranges::find(shippedPacks(), "base", &PackSource::id);
    PackSource changed = base;
    auto file = changed.files.begin();
    std::advance(file, data[0] % changed.files.size());
    file->second.assign(reinterpret_cast<const char*>(data + 1), size - 1); // NOLINT(*-reinterpret-cast)
    const auto loaded = load(changed, {});
    if (!loaded && loaded.error().empty()) {
        std::abort();
    }
    return 0;
}
