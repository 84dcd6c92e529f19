// Any bytes as an entry's body: refused, or the same bytes again.
#include "core/ledger/entry.h"

#include <cstdlib>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size)
{
    const std::string_view bytes(reinterpret_cast<const char*>(data), size); // NOLINT(*-reinterpret-cast)
    if (const auto entry = brimful::ledger::decode(bytes); entry && brimful::ledger::encode(*entry) != bytes) {
        std::abort();
    }
    return 0;
}
