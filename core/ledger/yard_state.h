// What the yard's own entries say: people and roles, devices, instruments, packs in force, boots whose time was
// confirmed. Pure: folded from entries, in their order.
#pragma once

#include "core/ledger/entry.h"

#include <map>
#include <span>

namespace brimful::ledger {

struct Role {
    std::string role;
    std::int64_t from_ms{}; // wall; competence counts days, not boots
    std::int64_t until_ms{}; // exclusive; INT64_MAX: none
    Hash granted_by;
    bool ended{}; // by an entry: whatever the clock shows now, it gives nothing new
};

struct PersonKey {
    DeviceId device;
    PublicKey key;
    Hash enrolled_by;
    std::optional<Hash> suspected_by; // evidence signed by this key and not an ancestor of that entry is unknown
    std::optional<std::uint64_t> suspected_since{}; // and from this place of its device's feed on even what is older
    DeviceId enrolled_on{}; // the device whose entry enrolled it, and where in its feed
    std::uint64_t enrolled_seq{};
};

struct Person {
    PersonId id;
    std::string name;
    std::vector<PersonKey> keys;
    std::vector<Role> roles;
    bool retired{};
};

struct InstrumentCheck {
    Hash entry;
    Moment at;
    bool passed{};
};

// A meter as enrolled, and its checks.
struct Instrument {
    std::string type; // "gas-meter"
    std::string id; // "M-1"
    canon::Json attributes; // sensor, calibrated_on, response_factor, limit_basis, hose_length ... as enrolled
    std::int64_t calibrated_until_ms{}; // wall
    std::vector<InstrumentCheck> bumps; // newest last
    bool withdrawn{};
};

struct AdoptedPart {
    std::string id;
    std::int64_t version{};
    Hash hash;
    std::optional<Hash> file; // attachment that holds it
};
struct AdoptedPack : AdoptedPart {
    std::vector<AdoptedPart> overlays; // none are named by entries that were written before yards had them
    std::string law; // "" = none chosen: all overlays rule
    Hash entry;
    Moment from; // when it came into force: its confirmation
};

// A boot's clock, tied to the world by a person. true time = wall_ms + (boot - boot_ms).
struct ConfirmedBoot {
    std::int64_t wall_ms{};
    std::int64_t boot_ms{};
};

struct YardState {
    YardId yard;
    std::string name;
    std::string owner;
    bool play{}; // scripted clocks are allowed only here; every page says DEMO
    PublicKey recovery_key;
    bool recovery_used{};
    std::map<DeviceId, PublicKey> devices;
    std::map<PersonId, Person> people;
    std::map<std::string, Instrument> instruments;
    std::optional<AdoptedPack> pack; // the newest of the adoptions
    std::vector<AdoptedPack> adoptions; // that came into force, oldest first
    std::map<BootId, ConfirmedBoot> boots; // the newest confirmation of each

    [[nodiscard]] const Person* personNamed(std::string_view name) const;
    // For an entry of that time. For one that is about to be signed ask mayActAs: a clock set back does not bring a role back.
    [[nodiscard]] bool holdsRole(const PersonId&, std::string_view role, std::int64_t wall_ms) const;
    [[nodiscard]] bool mayActAs(const PersonId&, std::string_view role, std::int64_t now_wall_ms) const;
    // With which keys an entry of this person may be signed at this place of this device's feed. A key that the device itself
    // renewed by then signs no more; one that another device enrolled may.
    [[nodiscard]] std::vector<PersonKey> keysAt(const PersonId&, const DeviceId&, std::uint64_t seq) const;
    // Wall time of a moment as far as people confirmed it; nothing when its boot was never confirmed.
    [[nodiscard]] std::optional<std::int64_t> trueTime(const Moment&) const;
};

// Into an order that the entries alone decide, whatever the order in which they came here: after what they name, then by wall
// clock and hash. Lines of one device keep theirs.
void sortCausally(std::vector<Line>& lines);

[[nodiscard]] YardState readYard(std::span<const Line> yard_entries);

// Age of `then` at `now`: boot clock within one boot, confirmed time across two; nothing otherwise or when negative.
[[nodiscard]] std::optional<std::int64_t> ageMs(const YardState&, const Moment& then, const Moment& now);

} // namespace brimful::ledger
