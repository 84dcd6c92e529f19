// Reads the bodies with its own eyes (body.h) and keeps its own account of people and devices (known.h): nothing here
// goes through the writer's encode(), through decode() or through YardState.
#include "core/ledger/verify.h"

#include "core/ledger/body.h"
#include "core/ledger/known.h"
#include "core/people/keys.h"

#include <algorithm>
#include <array>
#include <fstream>
#include <unordered_map>

namespace brimful::ledger {

using canon::Json;

namespace {

constexpr std::int64_t kSecondWithinMs = 10LL * 60 * 1000;
constexpr std::uint64_t kProgressEvery = 500;

// What only an authoriser may sign.
constexpr std::array<std::string_view, 9> kAuthoriserKinds{"device-enrolled", "pack-adopted", "person-enrolled", "role-granted",
    "role-ended", "key-suspected", "instrument-enrolled", "gap-accepted", "fork-joined"};
// What the verifier must know more of than the outermost members.
constexpr std::array<std::string_view, 7> kReadKinds{
    "yard-created", "person-enrolled", "device-enrolled", "role-granted", "role-ended", "time-confirmed", "confirmed"};

template <std::size_t Size> bool isOneOf(std::string_view kind, const std::array<std::string_view, Size>& kinds)
{
    return std::ranges::find(kinds, kind) != kinds.end();
}

// Of every row, what a confirmation or a child must find of it. Ids of hex that readBody has looked at.
struct Seen {
    PersonId person; // zero: nobody signed
    DeviceId device;
    BootId boot;
    VesselId vessel; // zero: of the yard
    std::int64_t boot_ms{};
};

template <class Id> Id idOf(std::string_view hex) { return canon::fromHex<Id>(hex).value_or(Id{}); }

class Verifier {
public:
    Verifier(const VerifyOptions& options, Verification& out)
        : m_options(options)
        , m_out(out)
    {
    }

    bool take(const Stored& stored, const Ledger::Columns& columns)
    {
        ++m_out.entries;
        m_row = stored.row;
        m_hash = stored.hash;
        m_vessel.reset();
        const auto body = readBody(stored.body);
        if (!body) {
            find(Flaw::Form);
            return goOn();
        }
        m_vessel = canon::fromHex<VesselId>(body->vessel);
        if (canon::leafHash(stored.body) != stored.hash) {
            find(Flaw::HashDiffers);
        }
        checkColumns(*body, columns);
        const Json payload = payloadOf(*body);
        if (body->kind == "yard-created" ? !m_known.create(*body, payload) : !m_known.isOfThisYard(*body)) {
            find(Flaw::Form); // a second founding, or another yard's entry
        }
        if (body->kind == "person-enrolled" && payload.integerOf("by_recovery") == 1 && !m_known.recover(payload)) {
            find(Flaw::PersonSignature);
        }
        checkDevice(stored, *body);
        checkPerson(stored, *body);
        checkFeed(*body);
        checkParents(*body);
        if (body->kind == "confirmed") {
            checkConfirmation(*body, payload);
        }
        checkAttachments(*body);
        checkTyped(payload);
        m_known.learn(*body, payload);
        m_seen.insert_or_assign(stored.hash,
            Seen{idOf<PersonId>(body->person), idOf<DeviceId>(body->device), idOf<BootId>(body->boot_id), vesselOf(*body), body->boot});
        return goOn();
    }

    void finish()
    {
        for (const auto& [at, parent] : m_unknown_parents) {
            const Flaw flaw = m_seen.contains(parent) ? Flaw::ParentLater : Flaw::ParentUnknown;
            m_out.findings.push_back({at.entry, at.row, flaw, at.vessel});
        }
        if (!m_cancelled && m_options.anchor && !m_seen.contains(*m_options.anchor)) {
            m_out.findings.push_back({*m_options.anchor, 0, Flaw::AnchorAhead, {}});
        }
        for (auto& [vessel, heads] : m_heads) {
            if (!vessel.isZero()) {
                std::ranges::sort(heads);
                m_out.heads[vessel] = std::move(heads);
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

    // A tree only where something in it is asked for.
    [[nodiscard]] Json payloadOf(const Body& body) const
    {
        const bool typed = m_options.typed_agrees && body.payload.find("\"typed\"") != std::string_view::npos;
        if (!typed && !isOneOf(body.kind, kReadKinds)) {
            return Json::object();
        }
        return canon::read(body.payload, canon::Dialect::Subset).value_or(Json::object());
    }

    // The vessel of an admitting entry is named by its own hash.
    [[nodiscard]] VesselId vesselOf(const Body& body) const
    {
        auto vessel = idOf<VesselId>(body.vessel);
        if (body.kind == "vessel-admitted") {
            std::copy_n(m_hash.value.begin(), vessel.value.size(), vessel.value.begin());
        }
        return vessel;
    }

    void checkColumns(const Body& body, const Ledger::Columns& columns)
    {
        const auto bytes = [](const auto& id) {
            return std::string_view(reinterpret_cast<const char*>(id.value.data()), id.value.size()); // NOLINT(*-reinterpret-cast)
        };
        const auto device = idOf<DeviceId>(body.device);
        const auto vessel = idOf<VesselId>(body.vessel);
        if (columns.device != bytes(device) || columns.vessel != (body.vessel.empty() ? std::string_view() : bytes(vessel))
            || columns.kind != body.kind || columns.seq != body.seq) {
            find(Flaw::ColumnDiffers);
        }
    }

    void checkDevice(const Stored& stored, const Body& body)
    {
        const PublicKey* key = m_known.device(body.device);
        if (key == nullptr) {
            find(Flaw::DeviceUnknown);
        } else if (m_options.signatures) {
            ++m_out.signatures;
            if (!people::verifies(*key, people::kDeviceDomain, stored.hash, stored.device_signature)) {
                find(Flaw::DeviceSignature);
            }
        }
    }

    void checkPerson(const Stored& stored, const Body& body)
    {
        if (body.person.empty()) {
            const auto kind = kindByWord(body.kind);
            if (!kind || !mayBeUnsigned(*kind)) {
                find(Flaw::PersonMissing);
            }
            if (stored.person_signature) {
                find(Flaw::PersonUnknown);
            }
            return;
        }
        if (!m_known.knowsPerson(body.person)) {
            find(Flaw::PersonUnknown);
            return;
        }
        if (!stored.person_signature) {
            find(Flaw::PersonSignature);
        } else if (m_options.signatures) {
            ++m_out.signatures;
            const auto keys = m_known.keys(body);
            const bool holds = std::ranges::any_of(keys.rbegin(), keys.rend(),
                [&](const PublicKey& key) { return people::verifies(key, people::kPersonDomain, stored.hash, *stored.person_signature); });
            if (!holds) {
                find(Flaw::PersonSignature);
            }
        }
        if (!m_known.heldRole(body) || (isOneOf(body.kind, kAuthoriserKinds) && body.role != "authoriser")) {
            find(Flaw::RoleNotHeld);
        }
    }

    void checkFeed(const Body& body)
    {
        Feed& feed = m_feeds[idOf<DeviceId>(body.device)];
        const auto prev = canon::fromHex<Hash>(body.prev);
        if (body.seq <= feed.seq) {
            find(Flaw::FeedFork);
        } else if (body.seq != feed.seq + 1 || prev != feed.head) {
            find(Flaw::FeedGap);
        }
        feed.seq = std::max(feed.seq, body.seq);
        feed.head = m_hash;
    }

    void checkParents(const Body& body)
    {
        std::vector<Hash>& heads = m_heads[idOf<VesselId>(body.vessel)];
        for (const std::string_view hex : body.parents) {
            const Hash parent = idOf<Hash>(hex);
            if (!m_seen.contains(parent) && body.kind != "gap-accepted") {
                m_unknown_parents.emplace_back(Finding{m_hash, m_row, Flaw::ParentUnknown, m_vessel}, parent);
            }
            std::erase(heads, parent);
        }
        m_heads[vesselOf(body)].push_back(m_hash);
    }

    // Of an entry that another person signed, of this vessel, here, not long ago, and nothing came between.
    void checkConfirmation(const Body& body, const Json& payload)
    {
        const std::string_view confirms = payload.textOf("confirms");
        const auto first = m_seen.find(idOf<Hash>(confirms));
        const bool known = first != m_seen.end() && std::ranges::find(body.parents, confirms) != body.parents.end();
        if (!known || first->second.person.isZero() || first->second.person == idOf<PersonId>(body.person)
            || first->second.vessel != idOf<VesselId>(body.vessel) || first->second.device != idOf<DeviceId>(body.device)
            || first->second.boot != idOf<BootId>(body.boot_id) || body.boot < first->second.boot_ms
            || body.boot - first->second.boot_ms > kSecondWithinMs) {
            find(Flaw::ConfirmsNothing);
        }
    }

    void checkAttachments(const Body& body)
    {
        if (m_options.evidence.empty()) {
            return;
        }
        for (const std::string_view hex : body.attachments) {
            std::filesystem::path file;
            std::error_code ignored;
            for (const auto& one : std::filesystem::directory_iterator(m_options.evidence / hex.substr(0, 2), ignored)) {
                file = one.path().stem() == hex ? one.path() : file;
            }
            if (file.empty()) {
                find(Flaw::AttachmentMissing);
                continue;
            }
            std::ifstream in(file, std::ios::binary);
            const std::string bytes{std::istreambuf_iterator<char>(in), {}};
            if (canon::sha256(bytes) != idOf<Hash>(hex)) {
                find(Flaw::AttachmentDiffers);
            }
        }
    }

    void checkTyped(const Json& value) // NOLINT(misc-no-recursion): as deep as the reader lets
    {
        if (!m_options.typed_agrees) {
            return;
        }
        if (value.is(canon::Type::Object) && value.find("count") != nullptr && value.find("typed") != nullptr) {
            if (!m_options.typed_agrees(std::string(value.textOf("typed")), std::string(value.textOf("unit")), value.integerOf("count"))) {
                find(Flaw::TypedDiffers);
            }
            return;
        }
        for (const Json& item : value.items) {
            checkTyped(item);
        }
        for (const canon::Member& member : value.members) {
            checkTyped(member.value);
        }
    }

    struct Feed {
        std::int64_t seq{};
        std::optional<Hash> head;
    };

    const VerifyOptions& m_options;
    Verification& m_out;
    Hash m_hash;
    std::uint64_t m_row{};
    std::optional<VesselId> m_vessel;
    bool m_cancelled{};
    Known m_known;
    std::vector<std::pair<Finding, Hash>> m_unknown_parents;
    std::unordered_map<DeviceId, Feed> m_feeds;
    std::unordered_map<Hash, Seen> m_seen;
    std::unordered_map<VesselId, std::vector<Hash>> m_heads; // zero: the yard's
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
    const auto read = ledger->streamAll([&](const Stored& row, const Ledger::Columns& columns) { return verifier.take(row, columns); });
    if (!read && read.error().fault != StoreFault::Damaged) {
        return tl::unexpected(read.error());
    }
    const auto isSound = [&] {
        const auto sound = ledger->isSound();
        return sound && *sound;
    };
    if (!read || (options.indexes && !isSound())) {
        out.findings.push_back({{}, 0, Flaw::Unreadable, {}});
    }
    verifier.finish();
    // In the order of the rows; what no row stands for comes last.
    std::ranges::stable_sort(out.findings, {}, [](const Finding& finding) { return finding.row - 1; });
    return out;
}

} // namespace brimful::ledger
