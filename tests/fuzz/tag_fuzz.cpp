// Any text as a tag or a short code: nothing that was not signed is genuine.
#include "core/tag/tag.h"

#include <cstdlib>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size)
{
    using namespace brimful;
    const std::string_view text(reinterpret_cast<const char*>(data), size); // NOLINT(*-reinterpret-cast)
    static const std::map<DeviceId, PublicKey> devices{{DeviceId{}, people::SigningKey::fromSeed(std::string(32, 'x')).publicKey()}};
    if (tag::read(text, devices)) {
        std::abort();
    }
    (void)tag::readShortCode(text);
    return 0;
}
