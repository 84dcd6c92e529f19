// Ed25519 keys of people and devices (libsodium). A signature is over a domain word and a hash, never over text.
#pragma once

#include "core/people/ids.h"

#include <array>
#include <memory>
#include <string_view>

namespace brimful::people {

inline constexpr std::string_view kPersonDomain = "brimful/person/1"; // PERSISTED
inline constexpr std::string_view kDeviceDomain = "brimful/device/1"; // PERSISTED
inline constexpr std::string_view kTagDomain = "brimful/tag/1"; // PERSISTED
inline constexpr std::string_view kRecoveryDomain = "brimful/recovery/1"; // PERSISTED

// A private key in locked, wiped memory. Move-only.
class SigningKey {
public:
    static SigningKey generate();
    static SigningKey fromSeed(std::string_view seed32);
    SigningKey(SigningKey&&) noexcept;
    SigningKey& operator=(SigningKey&&) noexcept;
    ~SigningKey();

    [[nodiscard]] PublicKey publicKey() const;
    [[nodiscard]] Signature sign(std::string_view domain, const Hash& hash) const;
    [[nodiscard]] std::string_view seed() const; // 32 bytes, for sealing only

private:
    struct Locked;
    explicit SigningKey(std::unique_ptr<Locked>);
    std::unique_ptr<Locked> m_locked;
};

[[nodiscard]] bool verifies(const PublicKey&, std::string_view domain, const Hash&, const Signature&);

[[nodiscard]] std::string randomBytes(std::size_t count);
template <class Id> [[nodiscard]] Id randomId()
{
    Id id;
    const std::string bytes = randomBytes(id.value.size());
    for (std::size_t i = 0; i < bytes.size(); ++i) {
        id.value[i] = static_cast<std::uint8_t>(bytes[i]);
    }
    return id;
}

} // namespace brimful::people
