// Any bytes: read or refused, and what is read in our subset re-encodes to something that reads the same.
#include "core/canon/json.h"

#include <cstdlib>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size)
{
    using namespace brimful::canon;
    const std::string_view bytes(reinterpret_cast<const char*>(data), size); // NOLINT(*-reinterpret-cast)
    (void)read(bytes, Dialect::Any);
    if (const auto value = read(bytes, Dialect::Subset)) {
        const std::string once = canonical(*value);
        const auto again = readCanonical(once);
        if (!again || canonical(*again) != once) {
            std::abort();
        }
    }
    return 0;
}
