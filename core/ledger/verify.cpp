// Reads the table with its own statements and the bodies with its own eyes: nothing here goes through the writer's
// encode() or through YardState. What it needs to know of people and devices it gathers as it reads.
#include "core/ledger/verify.h"

#include "core/people/keys.h"

#include <algorithm>
#include <fstream>
#include <limits>
#include <set>
#include <unordered_map>

namespace brimful::ledger {

using canon::Json;

namespace {

constexpr std::int64_t kSecondWithinMs = 10LL * 60 * 1000;
constexpr std::uint64_t kProgressEvery = 500;

struct Grant {
    std::string role;
    std::int64_t from{};
    std::int64_t until{};
    std::set<std::string> ended_on; // devices in whose feed it ended: no clock brings it back there
};
struct Signatory {
    std::vector<std::pair<std::string, PublicKey>> keys; // device hex, key
    std::vector<Grant> grants;
};
struct Seen {
    std::uint64_t row{};
    std::string kind;
    std::string person;
    std::string device;
    std::string boot;
    std::string vessel;
    std::int64_t boot_ms{};
};

const std::set<std::string, std::less<>> kAuthoriserKinds{"device-enrolled", "pack-adopted", "person-enrolled", "role-granted",
    "role-ended", "key-suspected", "instrument-enrolled", "gap-accepted", "fork-joined"};

class Verifier {
public:
    Verifier(const VerifyOptions& options, Verification& out)
        : m_options(options)
        , m_out(out)
    {
    }

    bool take(const Stored& stored)
    {
        ++m_out.entries;
        m_row = stored.row;
        m_hash = stored.hash;
        m_vessel.reset();
        const auto body = canon::readCanonical(stored.body);
        if (!body || !body->is(canon::Type::Object) || stored.body.size() > kLargestBody) {
            find(Flaw::Form);
            return goOn();
        }
        const std::string vessel(body->textOf("vessel"));
        m_vessel = canon::fromHex<VesselId>(vessel);
        if (canon::leafHash(stored.body) != stored.hash) {
            find(Flaw::HashDiffers);
        }
        if (!decode(stored.body)) {
            find(Flaw::Form);
        }
        const std::string kind(body->textOf("kind"));
        if (kind == "yard-created") {
            readCreated(*body);
        } else if (body->textOf("yard") != m_yard) {
            find(Flaw::Form); // another yard's entry
        }
        if (kind == "person-enrolled" && body->find("payload") != nullptr) {
            readRecovery(*body->find("payload"));
        }
        checkSignatures(stored, *body, kind);
        checkFeed(*body);
        checkParents(*body);
        checkConfirmation(*body, kind);
        checkAttachments(*body);
        checkTyped(body->find("payload"));
        learn(*body, kind);
        const std::string hash = canon::toHex(stored.hash);
        m_seen[hash] = {stored.row, kind, std::string(body->textOf("person")), std::string(body->textOf("device")),
            std::string(body->textOf("boot_id")), kind == "vessel-admitted" ? hash.substr(0, 32) : vessel, body->integerOf("boot")};
        return goOn();
    }

    void finish()
    {
        for (const auto& [at, parent] : m_unknown_parents) {
            const Flaw flaw = m_seen.contains(parent) ? Flaw::ParentLater : Flaw::ParentUnknown;
            m_out.findings.push_back({at.entry, at.row, flaw, at.vessel});
        }
        if (!m_cancelled && m_options.anchor && !m_seen.contains(canon::toHex(*m_options.anchor))) {
            m_hash = *m_options.anchor;
            m_row = 0;
            m_vessel.reset();
            find(Flaw::AnchorAhead);
        }
        for (const auto& [vessel, heads] : m_heads) {
            if (const auto id = canon::fromHex<VesselId>(vessel)) {
                for (const std::string& head : heads) {
                    m_out.heads[*id].push_back(*canon::fromHex<Hash>(head));
                }
            }
        }
    }

    void find(Flaw flaw) { m_out.findings.push_back({m_hash, m_row, flaw, m_vessel}); }

private:
    bool goOn()
    {
        const bool report = m_options.progress && m_out.entries % kProgressEvery == 0;
        m_cancelled = report && !m_options.progress(m_out.entries);
        return !m_cancelled;
    }

    void readCreated(const Json& body)
    {
        const Json* payload = body.find("payload");
        const Json* device = payload == nullptr ? nullptr : payload->find("device");
        const Json* first = payload == nullptr ? nullptr : payload->find("authoriser");
        if (device == nullptr || first == nullptr || !m_devices.empty()) {
            find(Flaw::Form);
            return;
        }
        m_yard = body.textOf("yard");
        m_recovery = canon::fromHex<PublicKey>(payload->textOf("recovery"));
        if (const auto key = canon::fromHex<PublicKey>(device->textOf("key"))) {
            m_devices[std::string(device->textOf("id"))] = *key;
        }
        if (const auto key = canon::fromHex<PublicKey>(first->textOf("key"))) {
            Signatory& person = m_people[std::string(first->textOf("person"))];
            person.keys.emplace_back(std::string(device->textOf("id")), *key);
            person.grants.push_back({"authoriser", std::numeric_limits<std::int64_t>::min(), std::numeric_limits<std::int64_t>::max(), {}});
        }
    }

    // The recovery sheet enrols an authoriser, who signs this entry with the key that it brings.
    void readRecovery(const Json& payload)
    {
        if (payload.integerOf("by_recovery") != 1) {
            return;
        }
        const auto signature = canon::fromHex<Signature>(payload.textOf("recovery_sig"));
        const auto key = canon::fromHex<PublicKey>(payload.textOf("key"));
        if (!m_recovery || !signature || !key
            || !people::verifies(*m_recovery, people::kRecoveryDomain, recoveryStatement(payload), *signature)) {
            find(Flaw::PersonSignature);
            return;
        }
        Signatory& person = m_people[std::string(payload.textOf("person"))];
        person.keys.emplace_back(std::string(payload.textOf("device")), *key);
        person.grants.push_back({"authoriser", std::numeric_limits<std::int64_t>::min(), std::numeric_limits<std::int64_t>::max(), {}});
    }

    [[nodiscard]] std::int64_t timeOf(const Json& body) const
    {
        const auto boot = m_boots.find(std::string(body.textOf("boot_id")));
        return boot == m_boots.end() ? body.integerOf("wall") : boot->second.first + body.integerOf("boot") - boot->second.second;
    }

    void checkSignatures(const Stored& stored, const Json& body, const std::string& kind)
    {
        const auto device = m_devices.find(std::string(body.textOf("device")));
        if (device == m_devices.end()) {
            find(Flaw::DeviceUnknown);
        } else {
            ++m_out.signatures;
            if (!people::verifies(device->second, people::kDeviceDomain, stored.hash, stored.device_signature)) {
                find(Flaw::DeviceSignature);
            }
        }
        const std::string person(body.textOf("person"));
        if (person.empty()) {
            const auto known = kindByWord(kind);
            if (!known || !mayBeUnsigned(*known)) {
                find(Flaw::PersonMissing);
            }
            if (stored.person_signature) {
                find(Flaw::PersonUnknown);
            }
            return;
        }
        const auto signatory = m_people.find(person);
        if (signatory == m_people.end()) {
            find(Flaw::PersonUnknown);
            return;
        }
        ++m_out.signatures;
        const bool signed_here = stored.person_signature && std::ranges::any_of(signatory->second.keys, [&](const auto& key) {
            return key.first == body.textOf("device")
                && people::verifies(key.second, people::kPersonDomain, stored.hash, *stored.person_signature);
        });
        if (!signed_here) {
            find(Flaw::PersonSignature);
        }
        const std::string_view role = body.textOf("role");
        const std::int64_t at = timeOf(body);
        const std::string here(body.textOf("device"));
        const bool held = std::ranges::any_of(signatory->second.grants, [&](const Grant& grant) {
            return grant.role == role && grant.from <= at && at < grant.until && !grant.ended_on.contains(here);
        });
        if (!held || (kAuthoriserKinds.contains(kind) && role != "authoriser")) {
            find(Flaw::RoleNotHeld);
        }
    }

    void checkFeed(const Json& body)
    {
        Feed& feed = m_feeds[std::string(body.textOf("device"))];
        const std::int64_t seq = body.integerOf("seq");
        const std::string_view prev = body.textOf("prev");
        if (seq <= feed.seq) {
            find(Flaw::FeedFork);
        } else if (seq != feed.seq + 1 || prev != feed.head) {
            find(Flaw::FeedGap);
        }
        feed.seq = std::max(feed.seq, seq);
        feed.head = canon::toHex(m_hash);
    }

    void checkParents(const Json& body)
    {
        std::string vessel(body.textOf("vessel"));
        const bool accepts_a_gap = body.textOf("kind") == "gap-accepted";
        if (const Json* parents = body.find("parents")) {
            for (const Json& parent : parents->items) {
                if (!m_seen.contains(parent.text) && !accepts_a_gap) {
                    m_unknown_parents.emplace_back(Finding{m_hash, m_row, Flaw::ParentUnknown, m_vessel}, parent.text);
                }
                m_heads[vessel].erase(parent.text);
            }
        }
        if (body.textOf("kind") == "vessel-admitted") {
            vessel = canon::toHex(m_hash).substr(0, 32);
        }
        m_heads[vessel].insert(canon::toHex(m_hash));
    }

    void checkConfirmation(const Json& body, const std::string& kind)
    {
        if (kind != "confirmed") {
            return;
        }
        const Json* payload = body.find("payload");
        const auto first = m_seen.find(payload == nullptr ? std::string() : std::string(payload->textOf("confirms")));
        const Json* parents = body.find("parents");
        const bool on_it = first != m_seen.end() && parents != nullptr
            && std::ranges::any_of(parents->items, [&](const Json& parent) { return parent.text == first->first; });
        const std::string_view vessel = body.textOf("vessel");
        const bool ok = on_it && !first->second.person.empty() && first->second.vessel == vessel
            && first->second.person != body.textOf("person") && first->second.device == body.textOf("device")
            && first->second.boot == body.textOf("boot_id") && body.integerOf("boot") >= first->second.boot_ms
            && body.integerOf("boot") - first->second.boot_ms <= kSecondWithinMs;
        if (!ok) {
            find(Flaw::ConfirmsNothing);
        }
    }

    void checkAttachments(const Json& body)
    {
        const Json* attachments = body.find("attachments");
        if (attachments == nullptr || m_options.evidence.empty()) {
            return;
        }
        for (const Json& attachment : attachments->items) {
            const auto shelf = m_options.evidence / attachment.text.substr(0, 2);
            std::filesystem::path file;
            std::error_code ignored;
            for (const auto& one : std::filesystem::directory_iterator(shelf, ignored)) {
                file = one.path().stem() == attachment.text ? one.path() : file;
            }
            if (file.empty()) {
                find(Flaw::AttachmentMissing);
                continue;
            }
            std::ifstream in(file, std::ios::binary);
            const std::string bytes{std::istreambuf_iterator<char>(in), {}};
            if (canon::toHex(canon::sha256(bytes)) != attachment.text) {
                find(Flaw::AttachmentDiffers);
            }
        }
    }

    void checkTyped(const Json* value)
    {
        if (value == nullptr || !m_options.typed_agrees) {
            return;
        }
        if (value->is(canon::Type::Object) && value->find("count") != nullptr && value->find("typed") != nullptr) {
            if (!m_options.typed_agrees(
                    std::string(value->textOf("typed")), std::string(value->textOf("unit")), value->integerOf("count"))) {
                find(Flaw::TypedDiffers);
            }
            return;
        }
        for (const Json& item : value->items) {
            checkTyped(&item);
        }
        for (const canon::Member& member : value->members) {
            checkTyped(&member.value);
        }
    }

    // People, devices and clocks as they stand after this entry.
    void learn(const Json& body, const std::string& kind)
    {
        const Json* payload = body.find("payload");
        if (payload == nullptr) {
            return;
        }
        const std::string person(payload->textOf("person"));
        if (kind == "person-enrolled" && payload->integerOf("by_recovery") != 1) {
            if (const auto key = canon::fromHex<PublicKey>(payload->textOf("key"))) {
                m_people[person].keys.emplace_back(std::string(payload->textOf("device")), *key);
            }
        } else if (kind == "device-enrolled" && payload->find("device") != nullptr) {
            const Json& device = *payload->find("device");
            if (const auto key = canon::fromHex<PublicKey>(device.textOf("key"))) {
                m_devices[std::string(device.textOf("id"))] = *key;
            }
        } else if (kind == "role-granted") {
            m_people[person].grants.push_back({std::string(payload->textOf("role")), payload->integerOf("from"),
                payload->integerOf("until", std::numeric_limits<std::int64_t>::max()), {}});
        } else if (kind == "role-ended") {
            for (Grant& grant : m_people[person].grants) {
                if (payload->textOf("role").empty() || payload->textOf("role") == grant.role) {
                    grant.until = std::min(grant.until, timeOf(body));
                    grant.ended_on.insert(std::string(body.textOf("device")));
                }
            }
        } else if (kind == "time-confirmed" && payload->find("wall") != nullptr && payload->find("boot") != nullptr) {
            m_boots[std::string(body.textOf("boot_id"))] = {payload->integerOf("wall"), payload->integerOf("boot")};
        }
    }

    struct Feed {
        std::int64_t seq{};
        std::string head;
    };

    const VerifyOptions& m_options;
    Verification& m_out;
    Hash m_hash;
    std::uint64_t m_row{};
    std::optional<VesselId> m_vessel;
    std::string m_yard;
    std::optional<PublicKey> m_recovery;
    bool m_cancelled{};
    std::vector<std::pair<Finding, std::string>> m_unknown_parents;
    std::unordered_map<std::string, PublicKey> m_devices;
    std::unordered_map<std::string, Signatory> m_people;
    std::unordered_map<std::string, Feed> m_feeds;
    std::unordered_map<std::string, std::pair<std::int64_t, std::int64_t>> m_boots;
    std::unordered_map<std::string, Seen> m_seen;
    std::unordered_map<std::string, std::set<std::string>> m_heads;
};

} // namespace

tl::expected<Verification, StoreError> verify(const std::filesystem::path& ledger_file, const VerifyOptions& options)
{
    auto ledger = Ledger::open(ledger_file, Mode::ReadOnly);
    if (!ledger) {
        return tl::unexpected(ledger.error());
    }
    Verification out;
    out.copied = ledger->copied();
    Verifier verifier(options, out);
    const auto unreadable = [&] { out.findings.push_back({{}, 0, Flaw::Unreadable, {}}); };
    const auto read = ledger->stream([&](const Stored& row) { return verifier.take(row); });
    if (!read) {
        if (read.error().fault != StoreFault::Damaged) {
            return tl::unexpected(read.error());
        }
        unreadable();
    } else if (const auto sound = ledger->isSound(); !sound || !*sound) {
        unreadable();
    }
    if (const auto columns = ledger->columnFlaws()) { // a damaged store is latched and gives none
        for (const Stored& row : *columns) {
            const auto entry = decode(row.body);
            out.findings.push_back({row.hash, row.row, Flaw::ColumnDiffers, entry ? entry->vessel : std::nullopt});
        }
    }
    verifier.finish();
    // In the order of the rows; what no row stands for comes last.
    std::ranges::stable_sort(out.findings, {}, [](const Finding& finding) { return finding.row - 1; });
    return out;
}

} // namespace brimful::ledger
