#include "core/people/device.h"

#include "core/people/stretching.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <sodium.h>

#include <algorithm>
#include <fcntl.h>
#include <fstream>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

namespace brimful::people {

namespace {

// PERSISTED: device.key = "BRIMDEV1", device id (16), secret (32), MAC over these and the machine id (32), MAC over all
// before it (32): damage and another machine are told apart.
constexpr std::string_view kMagic = "BRIMDEV1";
constexpr std::size_t kSecretSize = 32;
constexpr std::size_t kMacSize = 32;
constexpr int kFreeTries = 5; // then a minute, doubling
constexpr int kAllTries = 10; // then an authoriser

const unsigned char* bytesOf(std::string_view text)
{
    return reinterpret_cast<const unsigned char*>(text.data()); // NOLINT(*-reinterpret-cast)
}
unsigned char* bytesOf(std::string& text)
{
    return reinterpret_cast<unsigned char*>(text.data()); // NOLINT(*-reinterpret-cast)
}

std::string keyed(std::string_view key, std::string_view text)
{
    std::string out(kMacSize, '\0');
    crypto_generichash(bytesOf(out), out.size(), bytesOf(text), text.size(), bytesOf(key), key.size());
    return out;
}

template <class Id> std::string raw(const Id& id) { return {reinterpret_cast<const char*>(id.value.data()), id.value.size()}; } // NOLINT

std::optional<std::string> slurp(const std::filesystem::path& file)
{
    std::ifstream in(file, std::ios::binary);
    if (!in) {
        return std::nullopt;
    }
    return std::string{std::istreambuf_iterator<char>(in), {}};
}

// A new name in a folder is durable only when the folder is.
bool syncFolder(const std::filesystem::path& folder)
{
    const int opened = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC); // NOLINT(*-vararg)
    if (opened < 0) {
        return false;
    }
    const bool synced = ::fsync(opened) == 0;
    ::close(opened);
    return synced;
}

// Written beside and renamed; synced when `durable`.
bool replaceFile(const std::filesystem::path& file, std::string_view bytes, bool durable)
{
    const std::string part = file.string() + ".part";
    const int out = ::open(part.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0600); // NOLINT(*-vararg)
    if (out < 0) {
        return false;
    }
    const bool written = ::write(out, bytes.data(), bytes.size()) == static_cast<ssize_t>(bytes.size());
    const bool synced = !durable || ::fsync(out) == 0;
    ::close(out);
    return written && synced && ::rename(part.c_str(), file.c_str()) == 0 && (!durable || syncFolder(file.parent_path()));
}

struct Strength {
    unsigned long long operations;
    std::size_t memory;
};
// Argon2id: 2 passes over 64 MiB for work; play yards seal hundreds of demo keys and protect nothing.
Strength strengthOf(Sealing sealing)
{
    return sealing == Sealing::Strong ? Strength{2, 64ULL * 1024 * 1024} : Strength{1, 8ULL * 1024 * 1024};
}

constexpr const char* kSchema = R"(
CREATE TABLE IF NOT EXISTS sealed(person BLOB PRIMARY KEY, public BLOB NOT NULL, salt BLOB NOT NULL, nonce BLOB NOT NULL,
  box BLOB NOT NULL, operations INTEGER NOT NULL, memory INTEGER NOT NULL) STRICT;
CREATE TABLE IF NOT EXISTS attempt(person BLOB PRIMARY KEY, wrong INTEGER NOT NULL, wait_until INTEGER NOT NULL) STRICT;
CREATE TABLE IF NOT EXISTS draft(key TEXT PRIMARY KEY, text TEXT NOT NULL) STRICT;
CREATE TABLE IF NOT EXISTS setting(key TEXT PRIMARY KEY, text TEXT NOT NULL) STRICT;
)";

// SQLite's own numbers, so that this file needs SQLiteCpp's header alone.
constexpr int kCorrupt = 11;
constexpr int kNotADatabase = 26;

DeviceFault faultOf(const SQLite::Exception& exception)
{
    const int code = exception.getErrorCode() & 0xff;
    return code == kCorrupt || code == kNotADatabase ? DeviceFault::Damaged : DeviceFault::Unwritable;
}

void prepare(SQLite::Database& db)
{
    db.exec("PRAGMA journal_mode=WAL");
    db.exec("PRAGMA synchronous=FULL");
    db.exec(kSchema);
}

} // namespace

struct Device::State {
    std::filesystem::path folder;
    DeviceId id;
    std::string secret;
    SigningKey key;
    Sealing sealing{Sealing::Strong};
    std::unique_ptr<SQLite::Database> db;
    int lock_file{-1};
    mutable Stretching stretching;

    State(std::filesystem::path where, DeviceId its_id, std::string its_secret)
        : folder(std::move(where))
        , id(its_id)
        , secret(std::move(its_secret))
        , key(SigningKey::fromSeed(keyed(secret, "device signing key")))
    {
    }
    State(const State&) = delete;
    State& operator=(const State&) = delete;
    ~State()
    {
        sodium_memzero(secret.data(), secret.size());
        if (lock_file >= 0) {
            ::close(lock_file);
        }
    }

    [[nodiscard]] DeviceError fault(DeviceFault what) const { return {what, folder.string()}; }
    [[nodiscard]] std::string wrappingKey(std::string_view pin, std::string_view salt, const Strength& strength) const
    {
        Stretch one{std::string(pin), std::string(salt), strength.operations, strength.memory};
        std::string stretched = stretching.take(one);
        sodium_memzero(one.pin.data(), one.pin.size());
        if (stretched.empty()) {
            return {};
        }
        std::string wrapping = keyed(secret, stretched);
        sodium_memzero(stretched.data(), stretched.size());
        return wrapping;
    }
};

Device::Device(std::unique_ptr<State> state)
    : m_state(std::move(state))
{
}
Device::Device(Device&&) noexcept = default;
Device& Device::operator=(Device&&) noexcept = default;
Device::~Device() = default;

tl::expected<Device, DeviceError> Device::create(
    const std::filesystem::path& folder, const DeviceId& id, std::string_view machine_id, Sealing sealing)
{
    std::error_code error;
    std::filesystem::create_directories(folder, error);
    if (error) {
        return tl::unexpected(DeviceError{DeviceFault::Unwritable, folder.string()});
    }
    std::filesystem::permissions(folder, std::filesystem::perms::owner_all, error);
    const std::string secret = randomBytes(kSecretSize);
    const std::string body = std::string(kMagic) + raw(id) + secret;
    const std::string bound = body + keyed(secret, body + std::string(machine_id));
    if (!replaceFile(folder / "device.key", bound + keyed(secret, bound), true)) {
        return tl::unexpected(DeviceError{DeviceFault::Unwritable, (folder / "device.key").string()});
    }
    auto device = open(folder, machine_id);
    if (device) {
        device->m_state->sealing = sealing;
        if (auto kept = device->putSetting("sealing", sealing == Sealing::Strong ? "strong" : "light"); !kept) {
            return tl::unexpected(kept.error());
        }
    }
    return device;
}

tl::expected<Device, DeviceError> Device::open(const std::filesystem::path& folder, std::string_view machine_id)
{
    const auto file = slurp(folder / "device.key");
    if (!file) {
        return tl::unexpected(DeviceError{DeviceFault::Missing, folder.string()});
    }
    DeviceId id;
    const std::size_t body_size = kMagic.size() + id.value.size() + kSecretSize;
    const DeviceError damaged{DeviceFault::Damaged, (folder / "device.key").string()};
    if (file->size() != body_size + 2 * kMacSize || !file->starts_with(kMagic)) {
        return tl::unexpected(damaged);
    }
    const std::string body = file->substr(0, body_size);
    const std::string secret = body.substr(body_size - kSecretSize);
    if (keyed(secret, file->substr(0, body_size + kMacSize)) != file->substr(body_size + kMacSize)) {
        return tl::unexpected(damaged);
    }
    std::copy_n(bytesOf(std::string_view(body)) + kMagic.size(), id.value.size(), id.value.begin());
    if (keyed(secret, body + std::string(machine_id)) != file->substr(body_size, kMacSize)) {
        return tl::unexpected(DeviceError{DeviceFault::OtherMachine, folder.string()});
    }
    auto state = std::make_unique<State>(folder, id, secret);
    try {
        state->db = std::make_unique<SQLite::Database>((folder / "device.db").string(), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE, 5000);
        prepare(*state->db);
    } catch (const SQLite::Exception& exception) {
        return tl::unexpected(DeviceError{faultOf(exception), (folder / "device.db").string()});
    }
    Device device(std::move(state));
    device.m_state->sealing = device.setting("sealing") == "light" ? Sealing::Light : Sealing::Strong;
    return device;
}

const DeviceId& Device::id() const { return m_state->id; }
PublicKey Device::publicKey() const { return m_state->key.publicKey(); }
Signature Device::sign(const Hash& hash) const { return m_state->key.sign(kDeviceDomain, hash); }
Signature Device::signTag(const Hash& hash) const { return m_state->key.sign(kTagDomain, hash); }

tl::expected<PublicKey, DeviceError> Device::addPerson(const PersonId& person, std::string_view pin)
{
    if (!isStrongPin(pin)) {
        return tl::unexpected(m_state->fault(DeviceFault::WeakPin));
    }
    const SigningKey key = SigningKey::generate();
    const std::string salt = randomBytes(crypto_pwhash_SALTBYTES);
    const std::string nonce = randomBytes(crypto_aead_xchacha20poly1305_ietf_NPUBBYTES);
    const Strength strength = strengthOf(m_state->sealing);
    std::string wrapping = m_state->wrappingKey(pin, salt, strength);
    if (wrapping.empty()) {
        return tl::unexpected(m_state->fault(DeviceFault::Unwritable));
    }
    const std::string about = raw(person) + raw(m_state->id);
    std::string box(key.seed().size() + crypto_aead_xchacha20poly1305_ietf_ABYTES, '\0');
    unsigned long long size = 0;
    crypto_aead_xchacha20poly1305_ietf_encrypt(bytesOf(box), &size, bytesOf(key.seed()), key.seed().size(),
        bytesOf(std::string_view(about)), about.size(), nullptr, bytesOf(std::string_view(nonce)), bytesOf(std::string_view(wrapping)));
    sodium_memzero(wrapping.data(), wrapping.size());
    const PublicKey public_key = key.publicKey();
    try {
        SQLite::Statement insert(*m_state->db, "INSERT OR REPLACE INTO sealed VALUES(?,?,?,?,?,?,?)");
        const std::string id = raw(person);
        const std::string its_public = raw(public_key);
        insert.bind(1, id.data(), static_cast<int>(id.size()));
        insert.bind(2, its_public.data(), static_cast<int>(its_public.size()));
        insert.bind(3, salt.data(), static_cast<int>(salt.size()));
        insert.bind(4, nonce.data(), static_cast<int>(nonce.size()));
        insert.bind(5, box.data(), static_cast<int>(box.size()));
        insert.bind(6, static_cast<std::int64_t>(strength.operations));
        insert.bind(7, static_cast<std::int64_t>(strength.memory));
        insert.exec();
        SQLite::Statement forget(*m_state->db, "DELETE FROM attempt WHERE person = ?");
        forget.bind(1, id.data(), static_cast<int>(id.size()));
        forget.exec();
    } catch (const SQLite::Exception& exception) {
        return tl::unexpected(m_state->fault(faultOf(exception)));
    }
    return public_key;
}

namespace {

struct Sealed {
    std::string salt, nonce, box;
    Strength strength{};
};

std::optional<Sealed> sealedOf(SQLite::Database& db, const std::string& person)
{
    SQLite::Statement query(db, "SELECT salt, nonce, box, operations, memory FROM sealed WHERE person = ?");
    query.bind(1, person.data(), static_cast<int>(person.size()));
    if (!query.executeStep()) {
        return std::nullopt;
    }
    const auto blob = [&](int column) { return query.getColumn(column).getString(); };
    return Sealed{blob(0), blob(1), blob(2),
        {static_cast<unsigned long long>(query.getColumn(3).getInt64()), static_cast<std::size_t>(query.getColumn(4).getInt64())}};
}

struct Attempts {
    int wrong{};
    std::int64_t wait_until{};
};

Attempts attemptsOf(SQLite::Database& db, const std::string& person)
{
    SQLite::Statement query(db, "SELECT wrong, wait_until FROM attempt WHERE person = ?");
    query.bind(1, person.data(), static_cast<int>(person.size()));
    return query.executeStep() ? Attempts{query.getColumn(0).getInt(), query.getColumn(1).getInt64()} : Attempts{};
}

void writeAttempts(SQLite::Database& db, const std::string& person, const Attempts& attempts)
{
    SQLite::Statement write(db, "INSERT OR REPLACE INTO attempt VALUES(?,?,?)");
    write.bind(1, person.data(), static_cast<int>(person.size()));
    write.bind(2, attempts.wrong);
    write.bind(3, attempts.wait_until);
    write.exec();
}

} // namespace

tl::expected<SigningKey, DeviceError> Device::unlock(const PersonId& person, std::string_view pin, std::int64_t now_wall_ms)
{
    const std::string id = raw(person);
    try {
        const auto sealed = sealedOf(*m_state->db, id);
        if (!sealed) {
            return tl::unexpected(m_state->fault(DeviceFault::NoSuchKey));
        }
        Attempts attempts = attemptsOf(*m_state->db, id);
        if (attempts.wrong >= kAllTries) {
            return tl::unexpected(m_state->fault(DeviceFault::NeedsAuthoriser));
        }
        if (attempts.wait_until > now_wall_ms) {
            DeviceError waiting = m_state->fault(DeviceFault::Waiting);
            waiting.wait_s = static_cast<int>((attempts.wait_until - now_wall_ms + 999) / 1000);
            return tl::unexpected(waiting);
        }
        // The attempt is durable before the PIN is tried: a kill between the two costs a try, never gives one.
        ++attempts.wrong;
        if (attempts.wrong >= kFreeTries) {
            attempts.wait_until = now_wall_ms + (60'000LL << (attempts.wrong - kFreeTries));
        }
        writeAttempts(*m_state->db, id, attempts);

        std::string wrapping = m_state->wrappingKey(pin, sealed->salt, sealed->strength);
        const std::string about = id + raw(m_state->id);
        std::string seed(crypto_sign_SEEDBYTES, '\0');
        unsigned long long size = 0;
        const bool opened = !wrapping.empty()
            && crypto_aead_xchacha20poly1305_ietf_decrypt(bytesOf(seed), &size, nullptr, bytesOf(std::string_view(sealed->box)),
                   sealed->box.size(), bytesOf(std::string_view(about)), about.size(), bytesOf(std::string_view(sealed->nonce)),
                   bytesOf(std::string_view(wrapping)))
                == 0;
        sodium_memzero(wrapping.data(), wrapping.size());
        if (!opened) {
            DeviceError wrong = m_state->fault(DeviceFault::WrongPin);
            wrong.left = attempts.wrong < kFreeTries ? kFreeTries - attempts.wrong : 0;
            return tl::unexpected(wrong);
        }
        writeAttempts(*m_state->db, id, {});
        SigningKey key = SigningKey::fromSeed(seed);
        sodium_memzero(seed.data(), seed.size());
        return key;
    } catch (const SQLite::Exception& exception) {
        return tl::unexpected(m_state->fault(faultOf(exception)));
    }
}

void Device::expectPin(const PersonId& person, std::string_view pin)
{
    if (pin.empty()) {
        m_state->stretching.forget();
        return;
    }
    try {
        if (const auto sealed = sealedOf(*m_state->db, raw(person))) {
            m_state->stretching.begin({std::string(pin), sealed->salt, sealed->strength.operations, sealed->strength.memory});
        }
    } catch (const SQLite::Exception&) { // it is only ahead of time: unlock() tells
    }
}

bool Device::hasKey(const PersonId& person) const
{
    try {
        return sealedOf(*m_state->db, raw(person)).has_value();
    } catch (const SQLite::Exception&) {
        return false;
    }
}

tl::expected<void, DeviceError> Device::writeAnchor(const Anchor& anchor)
{
    const std::string body = std::to_string(anchor.seq) + " " + canon::toHex(anchor.head) + "\n";
    const std::string mac = keyed(m_state->secret, "anchor " + body);
    const std::string line = body + canon::toHex(std::span(bytesOf(std::string_view(mac)), mac.size())) + "\n";
    if (!replaceFile(m_state->folder / "anchor", line, false)) {
        return tl::unexpected(m_state->fault(DeviceFault::Unwritable));
    }
    return {};
}

tl::expected<std::optional<Anchor>, DeviceError> Device::readAnchor() const
{
    const auto text = slurp(m_state->folder / "anchor");
    if (!text) {
        return std::nullopt;
    }
    const auto line_end = text->find('\n');
    const auto space = text->find(' ');
    const DeviceError damaged{DeviceFault::Damaged, (m_state->folder / "anchor").string()};
    if (line_end == std::string::npos || space == std::string::npos || space > line_end) {
        return tl::unexpected(damaged);
    }
    const std::string body = text->substr(0, line_end + 1);
    const std::string mac = keyed(m_state->secret, "anchor " + body);
    const auto head = canon::fromHex<Hash>(text->substr(space + 1, line_end - space - 1));
    if (!head || text->substr(line_end + 1) != canon::toHex(std::span(bytesOf(std::string_view(mac)), mac.size())) + "\n") {
        return tl::unexpected(damaged);
    }
    return Anchor{std::stoull(text->substr(0, space)), *head};
}

namespace {

tl::expected<void, DeviceFault> put(SQLite::Database& db, const char* sql, std::string_view key, std::string_view text)
{
    try {
        SQLite::Statement write(db, sql);
        write.bind(1, std::string(key));
        if (write.getBindParameterCount() > 1) {
            write.bind(2, std::string(text));
        }
        write.exec();
        return {};
    } catch (const SQLite::Exception& exception) {
        return tl::unexpected(faultOf(exception));
    }
}

std::optional<std::string> get(SQLite::Database& db, const char* sql, std::string_view key)
{
    try {
        SQLite::Statement query(db, sql);
        query.bind(1, std::string(key));
        return query.executeStep() ? std::optional<std::string>(query.getColumn(0).getString()) : std::nullopt;
    } catch (const SQLite::Exception&) {
        return std::nullopt;
    }
}

} // namespace

tl::expected<void, DeviceError> Device::putDraft(std::string_view key, std::string_view text)
{
    return put(*m_state->db, "INSERT OR REPLACE INTO draft VALUES(?,?)", key, text).map_error([&](DeviceFault what) {
        return m_state->fault(what);
    });
}
std::optional<std::string> Device::draft(std::string_view key) const
{
    return get(*m_state->db, "SELECT text FROM draft WHERE key = ?", key);
}
tl::expected<void, DeviceError> Device::dropDraft(std::string_view key)
{
    return put(*m_state->db, "DELETE FROM draft WHERE key = ?", key, {}).map_error([&](DeviceFault what) { return m_state->fault(what); });
}
tl::expected<void, DeviceError> Device::putSetting(std::string_view key, std::string_view text)
{
    return put(*m_state->db, "INSERT OR REPLACE INTO setting VALUES(?,?)", key, text).map_error([&](DeviceFault what) {
        return m_state->fault(what);
    });
}
std::optional<std::string> Device::setting(std::string_view key) const
{
    return get(*m_state->db, "SELECT text FROM setting WHERE key = ?", key);
}

tl::expected<void, DeviceError> Device::lockForTablet()
{
    if (m_state->lock_file >= 0) {
        return {};
    }
    const auto file = m_state->folder / "tablet.lock";
    m_state->lock_file = ::open(file.c_str(), O_RDWR | O_CREAT | O_CLOEXEC, 0600); // NOLINT(*-vararg)
    if (m_state->lock_file < 0) {
        return tl::unexpected(DeviceError{DeviceFault::Unwritable, file.string()});
    }
    if (::flock(m_state->lock_file, LOCK_EX | LOCK_NB) != 0) {
        ::close(m_state->lock_file);
        m_state->lock_file = -1;
        return tl::unexpected(DeviceError{DeviceFault::Locked, file.string()});
    }
    return {};
}

} // namespace brimful::people
