// Any bytes as a file of entries: refused, or entries whose bodies have the hashes that stand beside them; and whatever the
// verifier says of them, it says it.
#include "core/ledger/entries_file.h"

#include <cstdlib>
#include <sstream>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size)
{
    std::istringstream in(std::string(reinterpret_cast<const char*>(data), size)); // NOLINT(*-reinterpret-cast)
    if (const auto carried = brimful::ledger::readEntries(in)) {
        for (const auto& row : carried->rows) {
            if (brimful::canon::leafHash(row.body) != row.hash) {
                std::abort();
            }
        }
        (void)brimful::ledger::verifyRows(carried->rows, {});
    }
    return 0;
}
