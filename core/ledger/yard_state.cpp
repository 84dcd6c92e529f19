#include "core/ledger/yard_state.h"

#include "core/people/keys.h"

#include <algorithm>
#include <limits>
#include <numeric>
#include <set>
#include <tuple>
#include <unordered_map>

namespace brimful::ledger {

using canon::Json;

namespace {

template <class Id> std::optional<Id> idOf(const Json& payload, std::string_view key) { return canon::fromHex<Id>(payload.textOf(key)); }

// Applies one entry after the other; what does not make sense changes nothing (the verifier names it).
class Reader {
public:
    explicit Reader(YardState& state)
        : m_state(state)
    {
    }

    void read(const Line& line)
    {
        const Entry& entry = line.entry;
        const Json& payload = entry.payload;
        switch (entry.kind) {
        case Kind::YardCreated:
            created(line);
            break;
        case Kind::DeviceEnrolled:
            device(payload.find("device"));
            break;
        case Kind::PackAdopted:
            adopted(line);
            break;
        case Kind::Confirmed:
            confirmed(line);
            break;
        case Kind::PersonEnrolled:
            enrolled(line);
            break;
        case Kind::RoleGranted:
            granted(line);
            break;
        case Kind::RoleEnded:
            ended(line);
            break;
        case Kind::KeySuspected:
            suspected(line);
            break;
        case Kind::TimeConfirmed:
            timed(entry);
            break;
        case Kind::InstrumentEnrolled:
            instrument(payload);
            break;
        case Kind::InstrumentChecked:
            checked(line);
            break;
        case Kind::VesselAdmitted:
        case Kind::Evidence:
        case Kind::Event:
        case Kind::Released:
        case Kind::Withdrawn:
        case Kind::Corrected:
        case Kind::Cleared:
        case Kind::TagPrinted:
        case Kind::TagRead:
        case Kind::GapAccepted:
        case Kind::ForkJoined:
            break;
        }
    }

private:
    void created(const Line& line)
    {
        const Json& payload = line.entry.payload;
        m_state.yard = line.entry.yard;
        m_state.name = payload.textOf("name");
        m_state.owner = payload.textOf("owner");
        m_state.play = payload.textOf("use") == "play";
        m_state.recovery_key = idOf<PublicKey>(payload, "recovery").value_or(PublicKey{});
        device(payload.find("device"));
        const Json* first = payload.find("authoriser");
        if (first == nullptr) {
            return;
        }
        const auto id = idOf<PersonId>(*first, "person");
        const auto key = idOf<PublicKey>(*first, "key");
        if (id && key) {
            Person& person = m_state.people[*id];
            person.id = *id;
            person.name = first->textOf("name");
            person.keys.push_back({line.entry.device, *key, line.hash, {}, {}, line.entry.device, line.entry.seq});
            person.roles.push_back(authoriserFor(line.hash));
        }
    }
    void timed(const Entry& entry)
    {
        const Json* wall = entry.payload.find("wall");
        const Json* boot = entry.payload.find("boot");
        if (wall != nullptr && boot != nullptr && wall->is(canon::Type::Integer) && boot->is(canon::Type::Integer)) {
            m_state.boots[entry.at.boot] = {wall->integer, boot->integer};
        }
    }
    void device(const Json* payload)
    {
        if (payload == nullptr) {
            return;
        }
        const auto id = idOf<DeviceId>(*payload, "id");
        const auto key = idOf<PublicKey>(*payload, "key");
        if (id && key) {
            m_state.devices[*id] = *key;
        }
    }
    void adopted(const Line& line)
    {
        const Json* pack = line.entry.payload.find("pack");
        if (pack == nullptr) {
            return;
        }
        AdoptedPack adopted;
        static_cast<AdoptedPart&>(adopted) = part(*pack);
        adopted.law = line.entry.payload.textOf("law");
        adopted.entry = line.hash;
        adopted.from = line.entry.at;
        if (const Json* overlays = line.entry.payload.find("overlays")) {
            for (const Json& overlay : overlays->items) {
                adopted.overlays.push_back(part(overlay));
            }
        }
        if (!m_state.pack) { // the first is the founder's, who is still alone
            inForce(std::move(adopted));
        } else if (line.entry.signer) {
            m_proposed.insert_or_assign(line.hash, Proposed{line.entry.signer->person, std::move(adopted)});
        }
    }
    static AdoptedPart part(const Json& of)
    {
        return {std::string(of.textOf("id")), of.integerOf("version"), idOf<Hash>(of, "hash").value_or(Hash{}), idOf<Hash>(of, "file")};
    }
    void inForce(AdoptedPack adopted)
    {
        m_state.pack = adopted;
        m_state.adoptions.push_back(std::move(adopted));
    }
    // Another pack counts when another person confirmed it.
    void confirmed(const Line& line)
    {
        const auto proposed = m_proposed.find(idOf<Hash>(line.entry.payload, "confirms").value_or(Hash{}));
        if (proposed != m_proposed.end() && line.entry.signer && line.entry.signer->person != proposed->second.by) {
            proposed->second.pack.from = line.entry.at;
            inForce(std::move(proposed->second.pack));
            m_proposed.erase(proposed);
        }
    }
    void enrolled(const Line& line)
    {
        const Json& payload = line.entry.payload;
        const auto id = idOf<PersonId>(payload, "person");
        const auto key = idOf<PublicKey>(payload, "key");
        const auto device = idOf<DeviceId>(payload, "device");
        const bool by_recovery = payload.integerOf("by_recovery") == 1;
        if (!id || !key || !device || (by_recovery && !sheetSigned(payload))) {
            return;
        }
        Person& person = m_state.people[*id];
        person.id = *id;
        person.name = payload.textOf("name");
        person.retired = false;
        person.keys.push_back({*device, *key, line.hash, {}, {}, line.entry.device, line.entry.seq});
        if (by_recovery) {
            m_state.recovery_used = true;
            person.roles.push_back(authoriserFor(line.hash));
        }
    }
    [[nodiscard]] bool sheetSigned(const Json& payload) const
    {
        const auto signature = idOf<Signature>(payload, "recovery_sig");
        return signature && people::verifies(m_state.recovery_key, people::kRecoveryDomain, recoveryStatement(payload), *signature);
    }
    static Role authoriserFor(const Hash& entry)
    {
        return {"authoriser", std::numeric_limits<std::int64_t>::min(), std::numeric_limits<std::int64_t>::max(), entry, false};
    }
    Person* person(const Json& payload)
    {
        const auto id = idOf<PersonId>(payload, "person");
        const auto found = id ? m_state.people.find(*id) : m_state.people.end();
        return found == m_state.people.end() ? nullptr : &found->second;
    }
    void granted(const Line& line)
    {
        const Json& payload = line.entry.payload;
        if (Person* one = person(payload)) {
            one->roles.push_back({std::string(payload.textOf("role")), payload.integerOf("from"),
                payload.integerOf("until", std::numeric_limits<std::int64_t>::max()), line.hash, false});
        }
    }
    void ended(const Line& line)
    {
        const Json& payload = line.entry.payload;
        Person* one = person(payload);
        if (one == nullptr) {
            return;
        }
        const std::string_view role = payload.textOf("role");
        one->retired = one->retired || role.empty();
        const std::int64_t at = m_state.trueTime(line.entry.at).value_or(line.entry.at.wall_ms);
        for (Role& held : one->roles) {
            if (role.empty() || held.role == role) {
                held.until_ms = std::min(held.until_ms, at);
                held.ended = true;
            }
        }
    }
    void suspected(const Line& line)
    {
        const auto device = idOf<DeviceId>(line.entry.payload, "device");
        const auto since = static_cast<std::uint64_t>(line.entry.payload.integerOf("since"));
        if (Person* one = person(line.entry.payload)) {
            for (PersonKey& key : one->keys) {
                if (!device || key.device == *device) {
                    key.suspected_by = key.suspected_by.value_or(line.hash);
                    if (since > 0) {
                        key.suspected_since = std::min(key.suspected_since.value_or(since), since);
                    }
                }
            }
        }
    }
    void instrument(const Json& payload)
    {
        Instrument one;
        one.id = payload.textOf("instrument");
        one.type = payload.textOf("type");
        one.calibrated_until_ms = payload.integerOf("calibrated_until");
        if (const Json* attributes = payload.find("attributes")) {
            one.attributes = *attributes;
        }
        m_state.instruments[one.id] = std::move(one);
    }
    void checked(const Line& line)
    {
        const auto found = m_state.instruments.find(std::string(line.entry.payload.textOf("instrument")));
        if (found != m_state.instruments.end()) {
            found->second.bumps.push_back({line.hash, line.entry.at, line.entry.payload.textOf("outcome") == "passed"});
        }
    }

    struct Proposed {
        PersonId by;
        AdoptedPack pack;
    };

    YardState& m_state;
    std::map<Hash, Proposed> m_proposed;
};

} // namespace

const Person* YardState::personNamed(std::string_view wanted) const
{
    const Person* retired = nullptr;
    for (const auto& [id, person] : people) {
        if (person.name == wanted) {
            if (!person.retired) {
                return &person;
            }
            retired = &person;
        }
    }
    return retired;
}

bool YardState::holdsRole(const PersonId& person, std::string_view role, std::int64_t wall_ms) const
{
    const auto found = people.find(person);
    return found != people.end() && std::ranges::any_of(found->second.roles, [&](const Role& held) {
        return held.role == role && held.from_ms <= wall_ms && wall_ms < held.until_ms;
    });
}

bool YardState::mayActAs(const PersonId& person, std::string_view role, std::int64_t now_wall_ms) const
{
    const auto found = people.find(person);
    return found != people.end() && std::ranges::any_of(found->second.roles, [&](const Role& held) {
        return held.role == role && !held.ended && held.from_ms <= now_wall_ms && now_wall_ms < held.until_ms;
    });
}

std::vector<PersonKey> YardState::keysAt(const PersonId& person, const DeviceId& device, std::uint64_t seq) const
{
    std::vector<PersonKey> keys;
    const auto found = people.find(person);
    for (const PersonKey& key : found == people.end() ? std::vector<PersonKey>{} : found->second.keys) {
        const bool here = key.enrolled_on == device;
        if (key.device != device || (here && key.enrolled_seq > seq)) {
            continue;
        }
        if (here) {
            keys.clear();
        }
        keys.push_back(key);
    }
    return keys;
}

std::optional<std::int64_t> YardState::trueTime(const Moment& moment) const
{
    const auto boot = boots.find(moment.boot);
    if (boot == boots.end()) {
        return std::nullopt;
    }
    return boot->second.wall_ms + (moment.boot_ms - boot->second.boot_ms);
}

void sortCausally(std::vector<Line>& lines)
{
    const auto sameFeed = [&](const Line& line) { return !line.beside && line.entry.device == lines.front().entry.device; };
    if (std::ranges::all_of(lines, sameFeed)) {
        return;
    }
    std::unordered_map<Hash, std::size_t> places;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        places.emplace(lines[i].hash, i);
    }
    // Within a device's feed by seq; a line that stands at a fork goes by its parents alone.
    std::vector<std::size_t> by_seq(lines.size());
    std::iota(by_seq.begin(), by_seq.end(), std::size_t{0});
    std::ranges::sort(by_seq, [&](std::size_t a, std::size_t b) {
        return std::pair(lines[a].entry.device, lines[a].entry.seq) < std::pair(lines[b].entry.device, lines[b].entry.seq);
    });
    std::vector<std::vector<std::size_t>> after(lines.size());
    std::vector<std::size_t> waits(lines.size());
    const auto follows = [&](std::size_t first, std::size_t then) {
        after[first].push_back(then);
        ++waits[then];
    };
    std::map<DeviceId, std::size_t> newest;
    for (const std::size_t i : by_seq) {
        const Line& line = lines[i];
        for (const Hash& parent : line.entry.parents) {
            if (const auto found = places.find(parent); found != places.end() && found->second != i) {
                follows(found->second, i);
            }
        }
        const auto before = newest.find(line.entry.device);
        if (before != newest.end()) {
            follows(before->second, i);
        }
        if (!line.beside) {
            newest[line.entry.device] = i;
        }
    }
    using Key = std::tuple<std::int64_t, Hash, std::size_t>;
    std::set<Key> ready;
    const auto key = [&](std::size_t i) { return Key(lines[i].entry.at.wall_ms, lines[i].hash, i); };
    for (std::size_t i = 0; i < lines.size(); ++i) {
        if (waits[i] == 0) {
            ready.insert(key(i));
        }
    }
    std::vector<Line> ordered;
    ordered.reserve(lines.size());
    while (!ready.empty()) {
        const std::size_t i = std::get<2>(ready.extract(ready.begin()).value());
        for (const std::size_t then : after[i]) {
            if (--waits[then] == 0) {
                ready.insert(key(then));
            }
        }
        ordered.push_back(std::move(lines[i]));
    }
    // Hashes cannot run in a circle; what a forger made of seq and parents may: such lines stay last, in their order.
    for (std::size_t i = 0; i < lines.size() && ordered.size() < lines.size(); ++i) {
        if (waits[i] != 0) {
            ordered.push_back(std::move(lines[i]));
        }
    }
    lines = std::move(ordered);
}

YardState readYard(std::span<const Line> yard_entries)
{
    YardState state;
    Reader reader(state);
    for (const Line& line : yard_entries) {
        reader.read(line);
    }
    return state;
}

std::optional<std::int64_t> ageMs(const YardState& state, const Moment& then, const Moment& now)
{
    std::optional<std::int64_t> age;
    if (then.boot == now.boot) {
        age = now.boot_ms - then.boot_ms;
    } else {
        const auto from = state.trueTime(then);
        const auto to = state.trueTime(now);
        if (from && to) {
            age = *to - *from;
        }
    }
    return age && *age >= 0 ? age : std::nullopt;
}

} // namespace brimful::ledger
