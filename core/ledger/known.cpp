#include "core/ledger/known.h"

#include "core/canon/json.h"
#include "core/ledger/entry.h"
#include "core/people/keys.h"

#include <algorithm>
#include <limits>

namespace brimful::ledger {

using canon::Json;

namespace {

constexpr std::int64_t kEver = std::numeric_limits<std::int64_t>::max();

std::string textOf(const Json& payload, std::string_view key) { return std::string(payload.textOf(key)); }

} // namespace

bool Known::create(const Body& body, const Json& payload)
{
    const Json* device = payload.find("device");
    const Json* first = payload.find("authoriser");
    if (device == nullptr || first == nullptr || !m_devices.empty()) {
        return false;
    }
    m_yard = body.yard;
    m_recovery = canon::fromHex<PublicKey>(payload.textOf("recovery"));
    const auto device_key = canon::fromHex<PublicKey>(device->textOf("key"));
    const auto key = canon::fromHex<PublicKey>(first->textOf("key"));
    if (!device_key || !key) {
        return false;
    }
    m_devices[textOf(*device, "id")] = *device_key;
    makeAuthoriser(body, textOf(*first, "person"), textOf(*device, "id"), *key);
    return true;
}

void Known::makeAuthoriser(const Body& body, const std::string& person, const std::string& device, const PublicKey& key)
{
    Signatory& signatory = m_people[person];
    signatory.keys.push_back({device, key, std::string(body.device), body.seq});
    signatory.grants.push_back({"authoriser", std::numeric_limits<std::int64_t>::min(), kEver, {}});
}

bool Known::recover(const Body& body, const Json& payload)
{
    const auto signature = canon::fromHex<Signature>(payload.textOf("recovery_sig"));
    const auto key = canon::fromHex<PublicKey>(payload.textOf("key"));
    if (!m_recovery || !signature || !key
        || !people::verifies(*m_recovery, people::kRecoveryDomain, recoveryStatement(payload), *signature)) {
        return false;
    }
    makeAuthoriser(body, textOf(payload, "person"), textOf(payload, "device"), *key);
    return true;
}

void Known::learn(const Body& body, const Json& payload)
{
    const std::string person = textOf(payload, "person");
    if (body.kind == "person-enrolled" && payload.integerOf("by_recovery") != 1) {
        if (const auto key = canon::fromHex<PublicKey>(payload.textOf("key"))) {
            m_people[person].keys.push_back({textOf(payload, "device"), *key, std::string(body.device), body.seq});
        }
    } else if (body.kind == "device-enrolled" && payload.find("device") != nullptr) {
        const Json& device = *payload.find("device");
        if (const auto key = canon::fromHex<PublicKey>(device.textOf("key"))) {
            m_devices[textOf(device, "id")] = *key;
        }
    } else if (body.kind == "role-granted") {
        m_people[person].grants.push_back({textOf(payload, "role"), payload.integerOf("from"), payload.integerOf("until", kEver), {}});
    } else if (body.kind == "role-ended") {
        for (Grant& grant : m_people[person].grants) {
            if (payload.textOf("role").empty() || payload.textOf("role") == grant.role) {
                grant.ended.emplace(body.device, body.seq);
            }
        }
    } else if (body.kind == "time-confirmed" && payload.find("wall") != nullptr && payload.find("boot") != nullptr) {
        m_boots[std::string(body.boot_id)] = {payload.integerOf("wall"), payload.integerOf("boot")};
    }
}

void Known::hear(std::string_view device, const std::string& of, std::int64_t seq)
{
    std::int64_t& heard = m_heard[{std::string(device), of}];
    heard = std::max(heard, seq);
}

const PublicKey* Known::device(std::string_view hex) const
{
    const auto found = m_devices.find(hex);
    return found == m_devices.end() ? nullptr : &found->second;
}

std::vector<PublicKey> Known::keys(const Body& body, bool forked) const
{
    std::vector<PublicKey> out;
    const auto found = m_people.find(body.person);
    if (found == m_people.end()) {
        return out;
    }
    for (const Key& key : found->second.keys) {
        if (key.device != body.device) {
            continue;
        }
        if (key.enrolled_on == body.device && !forked) {
            out.clear(); // rows are read in order: it was enrolled before
        }
        out.push_back(key.key);
    }
    return out;
}

// By the confirmed clock of its boot where there is one, else by what the wall clock showed.
std::int64_t Known::timeOf(const Body& body) const
{
    const auto boot = m_boots.find(body.boot_id);
    return boot == m_boots.end() ? body.wall : boot->second.wall_ms + body.boot - boot->second.boot_ms;
}

// A device that has not heard of the end of a role cannot be held to it here; whether such an entry counts is decided by
// time when the vessel is looked at, so that the order in which tablets met changes nothing.
bool Known::heldRole(const Body& body) const
{
    const auto found = m_people.find(body.person);
    if (found == m_people.end()) {
        return false;
    }
    const std::int64_t at = timeOf(body);
    const auto heardOf = [&](const std::pair<const std::string, std::int64_t>& end) {
        const auto heard = m_heard.find({std::string(body.device), end.first});
        return end.first == body.device || (heard != m_heard.end() && heard->second >= end.second);
    };
    return std::ranges::any_of(found->second.grants, [&](const Grant& grant) {
        return grant.role == body.role && grant.from <= at && at < grant.until && std::ranges::none_of(grant.ended, heardOf);
    });
}

} // namespace brimful::ledger
