// From a PIN to durable bytes: unlock, build the entry where its place in the feed is read, sign, append.
#include "core/yard/state.h"

#include "core/canon/hash.h"

#include <algorithm>
#include <cstdlib>
#include <fstream>
#include <unordered_set>

namespace brimful::yard {

using report::Why;

namespace {

Why whyOf(people::DeviceFault fault)
{
    switch (fault) {
    case people::DeviceFault::Missing:
        return Why::NoKeyHere;
    case people::DeviceFault::OtherMachine:
        return Why::OtherMachine;
    case people::DeviceFault::Damaged:
        return Why::Damaged;
    case people::DeviceFault::Unwritable:
        return Why::NoPermission;
    case people::DeviceFault::Locked:
        return Why::TabletRunning;
    case people::DeviceFault::WrongPin:
        return Why::WrongPin;
    case people::DeviceFault::Waiting:
        return Why::PinWait;
    case people::DeviceFault::NeedsAuthoriser:
        return Why::PinLocked;
    case people::DeviceFault::NoSuchKey:
        return Why::NoKeyHere;
    case people::DeviceFault::WeakPin:
        return Why::WeakPin;
    }
    return Why::InputOutput;
}

Why whyOf(ledger::StoreFault fault)
{
    switch (fault) {
    case ledger::StoreFault::Missing:
        return Why::NoYard;
    case ledger::StoreFault::NotALedger:
        return Why::NotAYard;
    case ledger::StoreFault::Newer:
        return Why::NewerYard;
    case ledger::StoreFault::Unwritable:
        return Why::NoPermission;
    case ledger::StoreFault::Full:
        return Why::DiskFull;
    case ledger::StoreFault::Busy:
        return Why::Busy;
    case ledger::StoreFault::Damaged:
        return Why::Damaged;
    case ledger::StoreFault::Input:
        return Why::InputOutput;
    case ledger::StoreFault::HeadMoved:
        return Why::HeadMoved;
    case ledger::StoreFault::Latched:
        return Why::StorageFault;
    }
    return Why::InputOutput;
}

} // namespace

report::Refusal refusalOf(const people::DeviceError& error)
{
    report::Refusal refusal;
    refusal.why = whyOf(error.fault);
    refusal.path = error.path;
    refusal.left = error.fault == people::DeviceFault::Waiting ? error.wait_s : error.left;
    return refusal;
}

std::string machineId()
{
    std::ifstream file("/etc/machine-id");
    std::string id;
    std::getline(file, id);
    return id.empty() ? "no-machine-id" : id;
}

std::filesystem::path deviceFolder(const std::filesystem::path& yard_folder)
{
    const char* elsewhere = std::getenv("BRIMFUL_DEVICE"); // NOLINT(concurrency-mt-unsafe): read once, before threads
    return elsewhere != nullptr && *elsewhere != '\0' ? std::filesystem::path(elsewhere) : yard_folder / "device";
}

std::vector<std::string> namesOf(const rules::Pack& pack, std::span<const rules::Index> roles)
{
    std::vector<std::string> names;
    names.reserve(roles.size());
    for (const rules::Index role : roles) {
        names.push_back(pack.roles[role]);
    }
    return names;
}

std::int64_t Yard::State::nowMs() const
{
    const ledger::Moment now = clock.now();
    return yard.trueTime(now).value_or(now.wall_ms);
}

report::Refusal refusalOf(const ledger::StoreError& error, const std::filesystem::path& folder)
{
    report::Refusal refusal;
    refusal.why = whyOf(error.fault);
    refusal.path = error.path.empty() ? folder.string() : error.path;
    refusal.found = error.detail;
    return refusal;
}

report::Refusal Yard::State::refuse(const ledger::StoreError& error)
{
    report::Refusal refusal = refusalOf(error, folder);
    if (ledger.latched() && !fault) {
        fault = refusal;
    }
    return refusal;
}

Outcome<void> Yard::State::writable() const
{
    if (access == Access::ReadOnly) {
        return refused(Why::ReadOnly, folder.string());
    }
    if (fault) {
        return refused(Why::StorageFault, folder.string());
    }
    if (!device) {
        return refused(no_device, deviceFolder(folder).string());
    }
    const auto enrolled = yard.devices.find(device->id());
    if (enrolled == yard.devices.end() || enrolled->second != device->publicKey()) {
        return refused(Why::DeviceNotEnrolled, deviceFolder(folder).string());
    }
    if (clock.scripted() && !yard.play) {
        return refused(Why::ScriptedClock);
    }
    return {};
}

Outcome<void> Yard::State::timeKnown() const
{
    if (!yard.trueTime(clock.now())) {
        return refused(Why::ClockUnconfirmed);
    }
    return {};
}

Outcome<Unlocked> Yard::State::unlock(const Signing& signing, std::span<const std::string> roles, std::vector<people::SigningKey>& keep_key)
{
    if (signing.person.empty()) {
        return refused(Why::NeedsPerson);
    }
    const ledger::Person* person = yard.personNamed(signing.person);
    if (person == nullptr || person->retired) {
        return refused(Why::UnknownPerson, "person", {}, signing.person);
    }
    std::string role;
    for (const std::string& one : roles) {
        if (yard.mayActAs(person->id, one, nowMs()) && (signing.role.empty() || signing.role == one)) {
            role = one;
            break;
        }
    }
    if (role.empty()) {
        std::string wanted;
        for (const std::string& one : roles) {
            wanted += (wanted.empty() ? "" : ", ") + one;
        }
        return refused(Why::RoleNotHeld, signing.person, wanted);
    }
    const auto tip = ledger.tip(device->id());
    const auto keys = yard.keysAt(person->id, device->id(), tip ? tip->seq + 1 : 1);
    if (keys.empty()) {
        return refused(Why::NoKeyHere, signing.person);
    }
    if (keys.back().suspected_by) {
        return refused(Why::KeySuspect, signing.person);
    }
    Unlocked unlocked{person->id, person->name, role, nullptr};
    if (yard.play && clock.scripted()) {
        if (const auto cached = played_keys.find(person->id); cached != played_keys.end()) {
            unlocked.key = &cached->second;
            return unlocked;
        }
    }
    if (signing.pin.empty()) {
        return refused(Why::NeedsPin, signing.person);
    }
    auto key = device->unlock(person->id, signing.pin, clock.now().wall_ms);
    if (!key) {
        report::Refusal refusal = refusalOf(key.error());
        refusal.path = signing.person;
        return tl::unexpected(std::move(refusal));
    }
    if (std::ranges::find(keys, key->publicKey(), &ledger::PersonKey::key) == keys.end()) {
        return refused(Why::NoKeyHere, signing.person); // sealed here, but its enrolment never came to the record
    }
    if (yard.play && clock.scripted()) {
        unlocked.key = &played_keys.emplace(person->id, std::move(*key)).first->second;
    } else {
        keep_key.push_back(std::move(*key));
        unlocked.key = &keep_key.back();
    }
    return unlocked;
}

namespace {

struct Place {
    std::uint64_t seq{};
    std::optional<Hash> prev;
    std::vector<Hash> parents;
};

ledger::Entry entryAt(
    const Draft& draft, const Place& place, const YardId& yard, const people::Device& device, const ledger::Moment& at, const Hash& pack)
{
    ledger::Entry entry;
    entry.yard = yard;
    entry.device = device.id();
    entry.seq = place.seq;
    entry.prev = place.prev;
    entry.vessel = draft.vessel;
    entry.parents = place.parents;
    entry.parents.insert(entry.parents.end(), draft.extra_parents.begin(), draft.extra_parents.end());
    std::ranges::sort(entry.parents);
    entry.parents.erase(std::unique(entry.parents.begin(), entry.parents.end()), entry.parents.end());
    entry.kind = draft.kind;
    entry.payload = draft.payload;
    if (draft.confirms_previous && place.prev) {
        entry.payload.set("confirms", canon::toHex(*place.prev));
    }
    if (draft.signer != nullptr) {
        entry.signer = ledger::Signer{draft.signer->person, draft.signer->role};
    }
    entry.at = at;
    entry.pack = pack;
    entry.attachments = draft.attachments;
    std::ranges::sort(entry.attachments);
    entry.attachments.erase(std::unique(entry.attachments.begin(), entry.attachments.end()), entry.attachments.end());
    entry.tag = draft.tag;
    return entry;
}

} // namespace

// Every entry of this history that no other names as a parent; decoded only where no look has done so.
std::vector<Hash> Yard::State::headsOf(const std::vector<ledger::Stored>& rows, const std::optional<VesselId>& vessel)
{
    static const std::unordered_map<Hash, ledger::Line> nothing;
    const auto& known = vessel ? decodedOf(*vessel) : nothing;
    std::vector<Hash> heads;
    std::unordered_set<Hash> named;
    for (const ledger::Stored& row : rows) {
        if (const auto line = known.find(row.hash); line != known.end()) {
            named.insert(line->second.entry.parents.begin(), line->second.entry.parents.end());
        } else if (const auto entry = ledger::decode(row.body)) {
            named.insert(entry->parents.begin(), entry->parents.end());
        } else {
            continue;
        }
        heads.push_back(row.hash);
    }
    std::erase_if(heads, [&](const Hash& hash) { return named.contains(hash); });
    std::ranges::sort(heads);
    return heads;
}

Outcome<std::vector<ledger::Line>> Yard::State::imagine(std::span<const Draft> drafts, const std::optional<VesselId>& vessel)
{
    const auto tip = ledger.tip(device->id());
    if (!tip) {
        return tl::unexpected(refuse(tip.error()));
    }
    const auto rows = vessel ? ledger.ofVessel(*vessel) : ledger.ofYard();
    if (!rows) {
        return tl::unexpected(refuse(rows.error()));
    }
    Place place{tip->seq + 1, tip->head, headsOf(*rows, vessel)};
    ledger::Moment at = clock.now();
    at.clock = yard.trueTime(at) ? ledger::ClockState::Confirmed : ledger::ClockState::Ok;
    std::vector<ledger::Line> lines;
    for (const Draft& draft : drafts) {
        ledger::Entry entry = entryAt(draft, place, yard.yard, *device, at, pack->together());
        const Hash hash = canon::leafHash(ledger::encode(entry));
        place = {place.seq + 1, hash, {hash}};
        lines.push_back({hash, std::move(entry)});
    }
    return lines;
}

// The anchor may lag, never lead; a failure to write it is met again at the next opening. While entries are lost it stays: it is
// all that still knows of them.
void Yard::State::remember()
{
    if (!device || !lost.empty()) {
        return;
    }
    if (const auto tip = ledger.tip(device->id()); tip && tip->head) {
        (void)device->writeAnchor({tip->seq, *tip->head});
    }
    std::string witness;
    for (const auto& [other, key] : yard.devices) {
        const auto tip = other == device->id() ? ledger::Ledger::Tip{} : ledger.tip(other).value_or(ledger::Ledger::Tip{});
        if (tip.head) {
            witness += (witness.empty() ? "" : " ") + canon::toHex(*tip.head);
        }
    }
    if (witness != device->setting(kWitness).value_or("")) {
        (void)device->putSetting(kWitness, witness);
    }
}

Outcome<std::vector<Hash>> Yard::State::append(std::span<const Draft> drafts, std::optional<Hash> only_on_head, Judged judged)
{
    std::vector<Hash> written;
    std::optional<report::Refusal> inner;
    const auto done = ledger.appendWith([&]() -> tl::expected<std::vector<ledger::Stored>, ledger::StoreError> {
        if (judged == Judged::Yes && ledger.dataVersion() != data_version) { // nobody else can write from here on
            return tl::unexpected(ledger::StoreError{ledger::StoreFault::HeadMoved, folder.string(), {}});
        }
        const auto lines = imagine(drafts, drafts.front().vessel);
        if (!lines) {
            inner = lines.error();
            return tl::unexpected(ledger::StoreError{ledger::StoreFault::Input, folder.string(), {}});
        }
        if (only_on_head && std::ranges::find(lines->front().entry.parents, *only_on_head) == lines->front().entry.parents.end()) {
            return tl::unexpected(ledger::StoreError{ledger::StoreFault::HeadMoved, folder.string(), {}});
        }
        std::vector<ledger::Stored> rows;
        for (std::size_t i = 0; i < lines->size(); ++i) {
            ledger::Stored row;
            row.hash = (*lines)[i].hash;
            row.body = ledger::encode((*lines)[i].entry);
            row.device_signature = device->sign(row.hash);
            if (drafts[i].signer != nullptr) {
                row.person_signature = drafts[i].signer->key->sign(people::kPersonDomain, row.hash);
            }
            written.push_back(row.hash);
            rows.push_back(std::move(row));
        }
        return rows;
    });
    if (!done) {
        return tl::unexpected(inner ? *inner : refuse(done.error()));
    }
    remember();
    rows_of[drafts.front().vessel.value_or(VesselId{})] += written.size();
    seen.erase(drafts.front().vessel.value_or(VesselId{}));
    for (const Hash& hash : written) {
        verified.insert(hash);
    }
    for (const Draft& draft : drafts) {
        if (draft.signer != nullptr) {
            last_signed[draft.signer->person] = clock.now().wall_ms;
        }
        for (const Hash& file : draft.kind == ledger::Kind::Evidence ? draft.attachments : std::vector<Hash>{}) {
            carried_by[file].insert(draft.vessel.value_or(VesselId{}));
        }
        if (draft.kind == ledger::Kind::Evidence) {
            const rules::Index step = pack->step(std::string(draft.payload.textOf("step")));
            if (draft.vessel && step != rules::kNone && namesExclusive(*pack, pack->steps[step])) {
                named_exclusive[*draft.vessel] = clock.now();
            }
            learnLooks(draft.payload, draft.vessel.value_or(VesselId{}), clock.now().wall_ms);
        }
    }
    if (ledger.dataVersion() != data_version) { // another program wrote meanwhile
        (void)refresh(); // what is written is written; a failure is met again at the next look
    } else if (!drafts.front().vessel) {
        if (auto loaded = load(); !loaded) {
            return tl::unexpected(loaded.error());
        }
    }
    return written;
}

} // namespace brimful::yard
