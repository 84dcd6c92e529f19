#include "core/people/keys.h"

#include <sodium.h>

#include <cstring>
#include <new>

namespace brimful::people {

namespace {

void prepare()
{
    static const int ready = sodium_init();
    if (ready < 0) {
        throw std::bad_alloc(); // no randomness: nothing of this room may run
    }
}

std::string message(std::string_view domain, const Hash& hash)
{
    std::string text(domain);
    text.append(reinterpret_cast<const char*>(hash.value.data()), hash.value.size()); // NOLINT(*-reinterpret-cast)
    return text;
}

const unsigned char* bytesOf(std::string_view text)
{
    return reinterpret_cast<const unsigned char*>(text.data()); // NOLINT(*-reinterpret-cast)
}

} // namespace

// Secret key (seed and public half), in guarded memory that is wiped when freed.
struct SigningKey::Locked {
    unsigned char* secret{};

    Locked()
    {
        prepare();
        secret = static_cast<unsigned char*>(sodium_malloc(crypto_sign_SECRETKEYBYTES));
        if (secret == nullptr) {
            throw std::bad_alloc();
        }
    }
    Locked(const Locked&) = delete;
    Locked& operator=(const Locked&) = delete;
    ~Locked() { sodium_free(secret); }
};

SigningKey::SigningKey(std::unique_ptr<Locked> locked)
    : m_locked(std::move(locked))
{
}
SigningKey::SigningKey(SigningKey&&) noexcept = default;
SigningKey& SigningKey::operator=(SigningKey&&) noexcept = default;
SigningKey::~SigningKey() = default;

SigningKey SigningKey::generate() { return fromSeed(randomBytes(crypto_sign_SEEDBYTES)); }

SigningKey SigningKey::fromSeed(std::string_view seed32)
{
    auto locked = std::make_unique<Locked>();
    std::array<unsigned char, crypto_sign_PUBLICKEYBYTES> ignored{};
    crypto_sign_seed_keypair(ignored.data(), locked->secret, bytesOf(seed32));
    return SigningKey(std::move(locked));
}

PublicKey SigningKey::publicKey() const
{
    PublicKey key;
    crypto_sign_ed25519_sk_to_pk(key.value.data(), m_locked->secret);
    return key;
}

Signature SigningKey::sign(std::string_view domain, const Hash& hash) const
{
    const std::string text = message(domain, hash);
    Signature signature;
    crypto_sign_detached(signature.value.data(), nullptr, bytesOf(text), text.size(), m_locked->secret);
    return signature;
}

std::string_view SigningKey::seed() const
{
    return {reinterpret_cast<const char*>(m_locked->secret), crypto_sign_SEEDBYTES}; // NOLINT(*-reinterpret-cast)
}

bool verifies(const PublicKey& key, std::string_view domain, const Hash& hash, const Signature& signature)
{
    const std::string text = message(domain, hash);
    return crypto_sign_verify_detached(signature.value.data(), bytesOf(text), text.size(), key.value.data()) == 0;
}

std::string randomBytes(std::size_t count)
{
    prepare();
    std::string bytes(count, '\0');
    randombytes_buf(bytes.data(), bytes.size());
    return bytes;
}

} // namespace brimful::people
