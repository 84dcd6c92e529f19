// device/: what belongs to this machine and is never exported or backed up. The device's key, the sealed keys of the
// people who sign on it, PIN attempts, drafts, settings and the anchor of the newest row (INVARIANT: the anchor may
// lag behind the ledger, never lead it).
#pragma once

#include "core/people/keys.h"

#include <tl/expected.hpp>

#include <cstdint>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

namespace brimful::people {

enum class DeviceFault : std::uint8_t {
    Missing, // no device folder here
    OtherMachine, // made on another machine: the yard opens to read and to enrol this machine, never to sign as the old one
    Damaged, // a file does not read back, or its MAC is wrong
    Unwritable, // no permission, read-only, disk full
    Locked, // another tablet program has this yard open
    WrongPin, // `left` tries before the next wait
    Waiting, // too many tries: `wait_s` more seconds
    NeedsAuthoriser, // ten wrong: an authoriser enrols a new key
    NoSuchKey, // this person has no key on this device
    WeakPin // fewer than six digits, a run, one digit, or a date
};

struct DeviceError {
    DeviceFault fault;
    std::string path;
    int left{};
    int wait_s{};
};

struct Anchor {
    std::uint64_t seq{};
    Hash head;
    bool operator==(const Anchor&) const = default;
};

// Strength of sealing: Argon2id (opslimit, memlimit). A yard that only plays may use the light one.
enum class Sealing : std::uint8_t { Strong, Light };

class Device {
public:
    static tl::expected<Device, DeviceError> create(
        const std::filesystem::path& folder, const DeviceId&, std::string_view machine_id, Sealing);
    static tl::expected<Device, DeviceError> open(const std::filesystem::path& folder, std::string_view machine_id);
    Device(Device&&) noexcept;
    Device& operator=(Device&&) noexcept;
    ~Device();

    [[nodiscard]] const DeviceId& id() const;
    [[nodiscard]] PublicKey publicKey() const;
    [[nodiscard]] Signature sign(const Hash&) const; // kDeviceDomain
    [[nodiscard]] Signature signTag(const Hash&) const; // kTagDomain

    // People's keys. The attempt is written durably before the PIN is tried, and cleared after it fits.
    [[nodiscard]] tl::expected<PublicKey, DeviceError> addPerson(const PersonId&, std::string_view pin);
    [[nodiscard]] tl::expected<SigningKey, DeviceError> unlock(const PersonId&, std::string_view pin, std::int64_t now_wall_ms);
    [[nodiscard]] bool hasKey(const PersonId&) const;
    // A PIN as far as it was typed: it is stretched beside, so that unlock() need not wait. Nothing is tried; "" forgets it.
    void expectPin(const PersonId&, std::string_view pin);

    [[nodiscard]] tl::expected<void, DeviceError> writeAnchor(const Anchor&); // not synced: it may lag
    [[nodiscard]] tl::expected<std::optional<Anchor>, DeviceError> readAnchor() const;

    // Drafts and settings: small texts by key; survive kill -9, are never evidence.
    [[nodiscard]] tl::expected<void, DeviceError> putDraft(std::string_view key, std::string_view text);
    [[nodiscard]] std::optional<std::string> draft(std::string_view key) const;
    [[nodiscard]] tl::expected<void, DeviceError> dropDraft(std::string_view key);
    [[nodiscard]] tl::expected<void, DeviceError> putSetting(std::string_view key, std::string_view text);
    [[nodiscard]] std::optional<std::string> setting(std::string_view key) const;

    // The tablet's own lock file, held while it lives; a second tablet program is refused with Locked.
    [[nodiscard]] tl::expected<void, DeviceError> lockForTablet();

private:
    struct State;
    explicit Device(std::unique_ptr<State>);
    std::unique_ptr<State> m_state;
};

inline constexpr std::size_t kShortestPin = 6;
// At least six digits, no run ("123456", "987654"), not one digit, no two-digit pattern, no date (ddmmyy, yymmdd, ddmmyyyy, yyyymmdd,
// mmddyy).
[[nodiscard]] bool isStrongPin(std::string_view pin);

} // namespace brimful::people
