// The meaning of one line of the ledger. Its bytes are FORMAT.md.
#pragma once

#include "core/canon/json.h"
#include "core/people/ids.h"

#include <tl/expected.hpp>

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace brimful::ledger {

// Closed. PERSISTED as the words of kindWord(): "yard-created", "device-enrolled", "pack-adopted", ...
enum class Kind : std::uint8_t {
    YardCreated,
    DeviceEnrolled,
    PackAdopted,
    PersonEnrolled,
    RoleGranted,
    RoleEnded,
    KeySuspected,
    TimeConfirmed,
    InstrumentEnrolled,
    InstrumentChecked,
    VesselAdmitted,
    Evidence,
    Confirmed,
    Event,
    Released,
    Withdrawn,
    Corrected,
    Cleared,
    TagPrinted,
    TagRead,
    GapAccepted,
    ForkJoined
};
[[nodiscard]] std::string_view kindWord(Kind);
[[nodiscard]] std::optional<Kind> kindByWord(std::string_view);
// A kind that may stand without a person: it can only take away or note (Event of a device-only kind, Withdrawn, TagPrinted, TagRead).
[[nodiscard]] bool mayBeUnsigned(Kind);

enum class ClockState : std::uint8_t { Ok, Suspect, Confirmed }; // PERSISTED as "ok", "suspect", "confirmed"

// One reading of the clocks. boot_ms counts since this boot, sleep included, and cannot be set by hand.
struct Moment {
    std::int64_t wall_ms{}; // since 1970-01-01T00:00Z
    std::int64_t boot_ms{};
    BootId boot;
    ClockState clock{ClockState::Ok};
    bool operator==(const Moment&) const = default;
};

struct Signer {
    PersonId person;
    std::string role;
    bool operator==(const Signer&) const = default;
};

struct Entry {
    YardId yard;
    DeviceId device;
    std::uint64_t seq{}; // 1, 2, 3 ... per device
    std::optional<Hash> prev; // this device's entry before; absent for its first
    std::optional<VesselId> vessel; // absent: a matter of the whole yard
    std::vector<Hash> parents; // sorted; all known heads of this vessel
    Kind kind{Kind::Event};
    canon::Json payload{canon::Json::object()};
    std::optional<Signer> signer; // absent: the device alone speaks
    Moment at;
    Hash pack; // of the packs in force; zero before the first adoption
    std::vector<Hash> attachments; // sorted SHA-256 of files in evidence/
    std::optional<std::int64_t> tag; // serial of the tag scanned, if any
};

// One stored row: the bytes are the truth, the rest can be derived from them.
struct Stored {
    std::uint64_t row{}; // order of insertion, given by the ledger when read
    Hash hash;
    std::string body;
    std::optional<Signature> person_signature;
    Signature device_signature;
    bool beside{}; // at or after a place that two entries of one device claim: its feed says nothing of what it knew
};

enum class EntryFault : std::uint8_t {
    Json,
    UnknownKey,
    MissingKey,
    WrongType,
    UnknownWord,
    BadId,
    Range,
    NotSorted,
    TooLarge,
    NotCanonical,
    UnsignedKind
};
struct EntryError {
    EntryFault fault;
    std::string path;
    std::string expected{}; // "": the fault says it
};

inline constexpr std::size_t kLargestBody = 64 * 1024; // PERSISTED

[[nodiscard]] std::string encode(const Entry&);
[[nodiscard]] tl::expected<Entry, EntryError> decode(std::string_view body); // refuses what does not re-encode to the same bytes

// What the recovery sheet signs (kRecoveryDomain) to enrol an authoriser: the leaf hash of the payload of that
// person-enrolled entry without `recovery_sig`.
[[nodiscard]] Hash recoveryStatement(const canon::Json& payload);

// An entry beside its hash, as every reader of history wants it.
struct Line {
    Hash hash;
    Entry entry;
    bool beside{}; // as Stored
};

} // namespace brimful::ledger
