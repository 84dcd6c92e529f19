#include "core/ledger/entry.h"

#include "core/ledger/own_answer.h"
#include "core/ledger/photos.h"

#include <algorithm>
#include <array>

namespace brimful::ledger {

using canon::Json;
using canon::Type;

namespace {

// PERSISTED, in the order of Kind.
constexpr std::array<std::string_view, 22> kKinds{"yard-created", "device-enrolled", "pack-adopted", "person-enrolled", "role-granted",
    "role-ended", "key-suspected", "time-confirmed", "instrument-enrolled", "instrument-checked", "vessel-admitted", "evidence",
    "confirmed", "event", "released", "withdrawn", "corrected", "cleared", "tag-printed", "tag-read", "gap-accepted", "fork-joined"};
static_assert(static_cast<std::size_t>(Kind::ForkJoined) + 1 == kKinds.size());

constexpr std::array<std::string_view, 3> kClocks{"ok", "suspect", "confirmed"};

constexpr std::array<std::string_view, 18> kKeys{"attachments", "boot", "boot_id", "clock", "device", "kind", "pack", "parents", "payload",
    "person", "prev", "role", "seq", "tag", "v", "vessel", "wall", "yard"};

constexpr std::int64_t kVersion = 1;

Json hashes(const std::vector<Hash>& values)
{
    Json out = Json::array();
    for (const Hash& hash : values) {
        out.items.emplace_back(canon::toHex(hash));
    }
    return out;
}

// Reads members one by one and remembers the first that is wrong.
class Fields {
public:
    explicit Fields(const Json& body)
        : m_body(body)
    {
    }

    [[nodiscard]] const std::optional<EntryError>& error() const { return m_error; }
    void fail(EntryFault fault, std::string_view key)
    {
        if (!m_error) {
            m_error = EntryError{fault, std::string(key)};
        }
    }
    const Json* get(std::string_view key, Type type, bool required)
    {
        const Json* value = m_body.find(key);
        if (value == nullptr) {
            if (required) {
                fail(EntryFault::MissingKey, key);
            }
            return nullptr;
        }
        if (!value->is(type)) {
            fail(EntryFault::WrongType, key);
            return nullptr;
        }
        return value;
    }
    std::int64_t integer(std::string_view key)
    {
        const Json* value = get(key, Type::Integer, true);
        return value == nullptr ? 0 : value->integer;
    }
    std::string text(std::string_view key)
    {
        const Json* value = get(key, Type::String, true);
        return value == nullptr ? std::string() : value->text;
    }
    template <class Id> std::optional<Id> id(std::string_view key, bool required)
    {
        const Json* value = get(key, Type::String, required);
        if (value == nullptr) {
            return std::nullopt;
        }
        const auto id = canon::fromHex<Id>(value->text);
        if (!id) {
            fail(EntryFault::BadId, key);
        }
        return id;
    }
    std::vector<Hash> sorted(std::string_view key)
    {
        std::vector<Hash> out;
        const Json* value = get(key, Type::Array, false);
        if (value == nullptr) {
            return out;
        }
        for (const Json& item : value->items) {
            const auto hash = canon::fromHex<Hash>(item.text);
            if (!item.is(Type::String) || !hash) {
                fail(EntryFault::BadId, key);
                return out;
            }
            out.push_back(*hash);
        }
        if (out.empty() || !std::ranges::is_sorted(out) || std::ranges::adjacent_find(out) != out.end()) {
            fail(EntryFault::NotSorted, key);
        }
        return out;
    }

private:
    const Json& m_body;
    std::optional<EntryError> m_error;
};

} // namespace

std::string_view kindWord(Kind kind) { return kKinds.at(static_cast<std::size_t>(kind)); }

std::optional<Kind> kindByWord(std::string_view word)
{
    const auto found = std::ranges::find(kKinds, word);
    return found == kKinds.end() ? std::nullopt : std::optional<Kind>(static_cast<Kind>(found - kKinds.begin()));
}

bool mayBeUnsigned(Kind kind)
{
    switch (kind) {
    case Kind::Event:
    case Kind::Withdrawn:
    case Kind::TagPrinted:
    case Kind::TagRead:
        return true;
    case Kind::YardCreated:
    case Kind::DeviceEnrolled:
    case Kind::PackAdopted:
    case Kind::PersonEnrolled:
    case Kind::RoleGranted:
    case Kind::RoleEnded:
    case Kind::KeySuspected:
    case Kind::TimeConfirmed:
    case Kind::InstrumentEnrolled:
    case Kind::InstrumentChecked:
    case Kind::VesselAdmitted:
    case Kind::Evidence:
    case Kind::Confirmed:
    case Kind::Released:
    case Kind::Corrected:
    case Kind::Cleared:
    case Kind::GapAccepted:
    case Kind::ForkJoined:
        return false;
    }
    return false;
}

Hash recoveryStatement(const Json& payload)
{
    Json statement = Json::object();
    for (const canon::Member& member : payload.members) {
        if (member.key != "recovery_sig") {
            statement.set(member.key, member.value);
        }
    }
    return canon::leafHash(canon::canonical(statement));
}

std::string encode(const Entry& entry)
{
    Json body = Json::object();
    if (!entry.attachments.empty()) {
        body.set("attachments", hashes(entry.attachments));
    }
    body.set("boot", entry.at.boot_ms);
    body.set("boot_id", canon::toHex(entry.at.boot));
    body.set("clock", kClocks.at(static_cast<std::size_t>(entry.at.clock)));
    body.set("device", canon::toHex(entry.device));
    body.set("kind", kindWord(entry.kind));
    if (!entry.pack.isZero()) {
        body.set("pack", canon::toHex(entry.pack));
    }
    if (!entry.parents.empty()) {
        body.set("parents", hashes(entry.parents));
    }
    body.set("payload", entry.payload);
    if (entry.signer) {
        body.set("person", canon::toHex(entry.signer->person));
        body.set("role", entry.signer->role);
    }
    if (entry.prev) {
        body.set("prev", canon::toHex(*entry.prev));
    }
    body.set("seq", static_cast<std::int64_t>(entry.seq));
    if (entry.tag) {
        body.set("tag", *entry.tag);
    }
    body.set("v", kVersion);
    if (entry.vessel) {
        body.set("vessel", canon::toHex(*entry.vessel));
    }
    body.set("wall", entry.at.wall_ms);
    body.set("yard", canon::toHex(entry.yard));
    return canon::canonical(body);
}

tl::expected<Entry, EntryError> decode(std::string_view body)
{
    if (body.size() > kLargestBody) {
        return tl::unexpected(EntryError{EntryFault::TooLarge, {}});
    }
    const auto json = canon::readCanonical(body);
    if (!json) {
        const bool form = json.error().fault == canon::JsonFault::NotCanonical;
        return tl::unexpected(EntryError{form ? EntryFault::NotCanonical : EntryFault::Json, json.error().found});
    }
    if (!json->is(Type::Object)) {
        return tl::unexpected(EntryError{EntryFault::WrongType, {}});
    }
    for (const canon::Member& member : json->members) {
        if (std::ranges::find(kKeys, member.key) == kKeys.end()) {
            return tl::unexpected(EntryError{EntryFault::UnknownKey, member.key});
        }
    }
    Fields fields(*json);
    Entry entry;
    entry.attachments = fields.sorted("attachments");
    entry.parents = fields.sorted("parents");
    entry.at.boot_ms = fields.integer("boot");
    entry.at.wall_ms = fields.integer("wall");
    entry.at.boot = fields.id<BootId>("boot_id", true).value_or(BootId{});
    const auto clock = std::ranges::find(kClocks, fields.text("clock"));
    if (clock == kClocks.end()) {
        fields.fail(EntryFault::UnknownWord, "clock");
    } else {
        entry.at.clock = static_cast<ClockState>(clock - kClocks.begin());
    }
    const auto kind = kindByWord(fields.text("kind"));
    if (!kind) {
        fields.fail(EntryFault::UnknownWord, "kind");
    }
    entry.kind = kind.value_or(Kind::Event);
    entry.yard = fields.id<YardId>("yard", true).value_or(YardId{});
    entry.device = fields.id<DeviceId>("device", true).value_or(DeviceId{});
    entry.pack = fields.id<Hash>("pack", false).value_or(Hash{});
    entry.prev = fields.id<Hash>("prev", false);
    entry.vessel = fields.id<VesselId>("vessel", false);
    if (const Json* payload = fields.get("payload", Type::Object, true)) {
        entry.payload = *payload;
    }
    const auto person = fields.id<PersonId>("person", false);
    const Json* role = fields.get("role", Type::String, person.has_value());
    if (person && role != nullptr) {
        entry.signer = Signer{*person, role->text};
    } else if (role != nullptr) {
        fields.fail(EntryFault::MissingKey, "person");
    }
    const std::int64_t seq = fields.integer("seq");
    if (seq < 1) {
        fields.fail(EntryFault::Range, "seq");
    }
    entry.seq = static_cast<std::uint64_t>(seq);
    if (const Json* tag = fields.get("tag", Type::Integer, false)) {
        entry.tag = tag->integer;
    }
    if (fields.integer("v") != kVersion) {
        fields.fail(EntryFault::Range, "v");
    }
    if (fields.error()) {
        return tl::unexpected(*fields.error());
    }
    if (!entry.signer && !mayBeUnsigned(entry.kind)) {
        return tl::unexpected(EntryError{EntryFault::UnsignedKind, std::string(kindWord(entry.kind))});
    }
    if (entry.kind == Kind::Confirmed) {
        if (auto answer = ownAnswer(entry.payload); !answer) {
            answer.error().path.insert(0, "payload.");
            return tl::unexpected(answer.error());
        }
    }
    if (entry.kind == Kind::Evidence) {
        if (const auto photos = photosOf(entry.payload, entry.attachments); !photos) {
            return tl::unexpected(photos.error());
        }
    }
    return entry;
}

} // namespace brimful::ledger
