// Reads the bodies with its own eyes (body.h) and keeps its own account of people and devices (known.h): nothing here
// goes through the writer's encode(), through decode() or through YardState.
#include "core/ledger/verify.h"

#include "core/ledger/body.h"
#include "core/ledger/known.h"
#include "core/ledger/own_answer.h"
#include "core/people/keys.h"

#include <algorithm>
#include <array>
#include <fstream>
#include <memory_resource>
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
constexpr std::array<std::string_view, 8> kReadKinds{
    "yard-created", "person-enrolled", "device-enrolled", "role-granted", "role-ended", "time-confirmed", "confirmed", "fork-joined"};

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
    std::int64_t seq{};
};

template <class Id> Id idOf(std::string_view hex) { return canon::fromHex<Id>(hex).value_or(Id{}); }

class Verifier {
public:
    Verifier(const VerifyOptions& options, Verification& out)
        : m_options(options)
        , m_signatures(options.signatures)
        , m_out(out)
    {
    }

    void expect(std::uint64_t rows) { m_seen.reserve(rows); }
    void askSignatures(bool asked) { m_signatures = asked; }

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
        m_device = idOf<DeviceId>(body->device);
        m_closely = isLookedAt(*body);
        if (m_options.each) {
            m_options.each(*body);
        }
        if (canon::leafHash(stored.body) != stored.hash) {
            m_out.findings.push_back({m_hash, m_row, Flaw::HashDiffers, {}}); // nor does it tell truly of which vessel it is
        }
        checkColumns(*body, columns);
        const Json payload = payloadOf(*body);
        if (body->kind == "yard-created" ? !m_known.create(*body, payload) : !m_known.isOfThisYard(*body)) {
            find(Flaw::Form); // a second founding, or another yard's entry
        }
        if (body->kind == "person-enrolled" && payload.integerOf("by_recovery") == 1 && !m_known.recover(*body, payload)) {
            find(Flaw::PersonSignature);
        }
        hear(*body);
        checkDevice(stored, *body);
        const bool by_authoriser = checkPerson(stored, *body) && body->role == "authoriser";
        checkFeed(*body);
        checkParents(*body);
        if (body->kind == "fork-joined" && by_authoriser) {
            joinForks(*body, payload);
        }
        if (body->kind == "confirmed") {
            checkConfirmation(*body, payload);
        }
        checkAttachments(*body);
        checkTyped(payload);
        m_known.learn(*body, payload);
        m_seen.insert_or_assign(
            stored.hash, Seen{idOf<PersonId>(body->person), m_device, idOf<BootId>(body->boot_id), vesselOf(*body), body->boot, body->seq});
        return goOn();
    }

    void finish()
    {
        for (const auto& [at, parent] : m_unknown_parents) {
            const Flaw flaw = m_seen.contains(parent) ? Flaw::ParentLater : Flaw::ParentUnknown;
            m_out.findings.push_back({at.entry, at.row, flaw, at.vessel});
        }
        for (const Hash& anchor : m_options.anchors) {
            if (!m_cancelled && !m_seen.contains(anchor)) {
                m_out.findings.push_back({anchor, 0, Flaw::AnchorAhead, {}});
            }
        }
        for (auto& [device, feed] : m_feeds) {
            if (!feed.forks.empty()) {
                m_out.findings.insert(m_out.findings.end(), feed.forks.begin(), feed.forks.end());
                for (const Branch& branch : feed.branches) {
                    m_out.forks[device].push_back(branch.head);
                }
            }
        }
        for (auto& [vessel, heads] : m_heads) {
            m_out.rows[vessel] = heads.rows;
            m_out.newest[vessel] = heads.newest;
            if (!vessel.isZero()) {
                std::ranges::sort(heads.hashes);
                m_out.heads[vessel] = std::move(heads.hashes);
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

    [[nodiscard]] bool isLookedAt(const Body& body) const
    {
        const VesselId vessel = vesselOf(body);
        return !m_options.look_at || vessel.isZero() || vessel == *m_options.look_at;
    }

    // A tree only where something in it is asked for.
    [[nodiscard]] Json payloadOf(const Body& body) const
    {
        const bool typed = m_options.typed_agrees && m_closely && body.payload.find("\"typed\"") != std::string_view::npos;
        if (!typed && !isOneOf(body.kind, kReadKinds)) {
            return Json::object();
        }
        return canon::read(body.payload, canon::Dialect::Subset).value_or(Json::object());
    }

    // The vessel of an admitting entry is named by its own hash.
    [[nodiscard]] VesselId vesselOf(const Body& body) const
    {
        VesselId vessel = m_vessel.value_or(VesselId{});
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
        if (columns.device != bytes(m_device) || columns.vessel != (m_vessel ? bytes(*m_vessel) : std::string_view())
            || columns.kind != body.kind || columns.seq != body.seq) {
            find(Flaw::ColumnDiffers);
        }
    }

    void checkDevice(const Stored& stored, const Body& body)
    {
        const PublicKey* key = m_known.device(body.device);
        if (key == nullptr) {
            find(Flaw::DeviceUnknown);
        } else if (m_signatures && m_closely) {
            ++m_out.signatures;
            if (!people::verifies(*key, people::kDeviceDomain, stored.hash, stored.device_signature)) {
                find(Flaw::DeviceSignature);
            }
        }
    }

    // What this device has heard of the others, by what its entries name.
    void hear(const Body& body)
    {
        if (!m_known.hasSeveralDevices()) {
            return;
        }
        for (const std::string_view hex : body.parents) {
            const auto parent = m_seen.find(idOf<Hash>(hex));
            if (parent != m_seen.end() && parent->second.device != m_device) {
                m_known.hear(body.device, canon::toHex(parent->second.device), parent->second.seq);
            }
        }
    }

    // True when somebody signed and may.
    bool checkPerson(const Stored& stored, const Body& body)
    {
        const std::size_t found = m_out.findings.size();
        if (body.person.empty()) {
            const auto kind = kindByWord(body.kind);
            if (!kind || !mayBeUnsigned(*kind)) {
                find(Flaw::PersonMissing);
            }
            if (stored.person_signature) {
                find(Flaw::PersonUnknown);
            }
            return false;
        }
        if (!m_known.knowsPerson(body.person)) {
            find(Flaw::PersonUnknown);
            return false;
        }
        if (!stored.person_signature) {
            find(Flaw::PersonSignature);
        } else if (m_signatures && m_closely) {
            ++m_out.signatures;
            const Feed& feed = m_feeds[m_device];
            const auto keys = m_known.keys(body, !feed.forks.empty() || body.seq <= feed.seq);
            const bool holds = std::ranges::any_of(keys.rbegin(), keys.rend(),
                [&](const PublicKey& key) { return people::verifies(key, people::kPersonDomain, stored.hash, *stored.person_signature); });
            if (!holds) {
                find(Flaw::PersonSignature);
            }
        }
        if (!m_known.heldRole(body) || (isOneOf(body.kind, kAuthoriserKinds) && body.role != "authoriser")) {
            find(Flaw::RoleNotHeld);
        }
        return m_out.findings.size() == found;
    }

    void checkFeed(const Body& body)
    {
        Feed& feed = m_feeds[m_device];
        const auto prev = canon::fromHex<Hash>(body.prev);
        const auto before =
            std::ranges::find_if(feed.branches, [&](const Branch& branch) { return branch.seq + 1 == body.seq && prev == branch.head; });
        if (before != feed.branches.end()) {
            *before = {body.seq, m_hash};
        } else if (body.seq <= feed.seq) {
            feed.forks.push_back({m_hash, m_row, Flaw::FeedFork, {}}); // which of the two is true nobody knows: it reaches every vessel
            feed.branches.push_back({body.seq, m_hash});
        } else {
            if (body.seq != 1 || prev) {
                m_out.findings.push_back({m_hash, m_row, Flaw::FeedGap, {}}); // of which vessel the missing entry was nobody knows
            }
            feed.branches.assign(1, {body.seq, m_hash});
        }
        feed.seq = std::max(feed.seq, body.seq);
    }

    // An authoriser's entry that names the newest entry of every branch of a feed (its own it follows).
    void joinForks(const Body& body, const Json& payload)
    {
        std::vector<Hash> named{m_hash, idOf<Hash>(body.prev)};
        if (const Json* heads = payload.find("heads")) {
            for (const Json& head : heads->items) {
                named.push_back(idOf<Hash>(head.text));
            }
        }
        for (auto& [device, feed] : m_feeds) {
            const auto isNamed = [&](const Branch& branch) { return std::ranges::find(named, branch.head) != named.end(); };
            if (!feed.forks.empty() && std::ranges::all_of(feed.branches, isNamed)) {
                feed.forks.clear();
                const auto longest = std::ranges::max_element(feed.branches, {}, &Branch::seq);
                feed.branches.assign(1, Branch(*longest)); // who goes on writing on another branch forks it again
            }
        }
    }

    void checkParents(const Body& body)
    {
        Heads& before = m_heads[m_vessel.value_or(VesselId{})];
        ++before.rows;
        before.newest = m_row;
        std::vector<Hash>& heads = before.hashes;
        for (const std::string_view hex : body.parents) {
            const Hash parent = idOf<Hash>(hex);
            const bool was_head = std::erase(heads, parent) > 0; // then it was seen
            if (!was_head && !m_seen.contains(parent) && body.kind != "gap-accepted") {
                m_unknown_parents.emplace_back(Finding{m_hash, m_row, Flaw::ParentUnknown, m_vessel}, parent);
            }
        }
        (body.kind == "vessel-admitted" ? m_heads[vesselOf(body)].hashes : heads).push_back(m_hash);
    }

    // Of an entry that another person signed, of this vessel, here, not long ago, and nothing came between.
    void checkConfirmation(const Body& body, const Json& payload)
    {
        const std::string_view confirms = payload.textOf("confirms");
        const auto first = m_seen.find(idOf<Hash>(confirms));
        const bool known = first != m_seen.end() && std::ranges::find(body.parents, confirms) != body.parents.end();
        if (!known || first->second.person.isZero() || first->second.person == idOf<PersonId>(body.person)
            || first->second.vessel != idOf<VesselId>(body.vessel) || first->second.device != m_device
            || first->second.boot != idOf<BootId>(body.boot_id) || body.boot < first->second.boot_ms
            || body.boot - first->second.boot_ms > kSecondWithinMs) {
            find(Flaw::ConfirmsNothing);
        }
        if (!ownAnswer(payload)) {
            find(Flaw::Form);
        }
    }

    void checkAttachments(const Body& body)
    {
        if (m_options.evidence.empty() || !m_closely) {
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
        if (!m_options.typed_agrees || !m_closely) {
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

    struct Branch {
        std::int64_t seq{};
        Hash head;
    };
    struct Feed {
        std::int64_t seq{};
        std::vector<Branch> branches; // one, unless it forked
        std::vector<Finding> forks; // that nobody joined
    };

    const VerifyOptions& m_options;
    bool m_signatures;
    bool m_closely{true}; // the row at hand is of what is looked at
    Verification& m_out;
    Hash m_hash;
    std::uint64_t m_row{};
    std::optional<VesselId> m_vessel;
    DeviceId m_device;
    bool m_cancelled{};
    Known m_known;
    std::vector<std::pair<Finding, Hash>> m_unknown_parents;
    std::unordered_map<DeviceId, Feed> m_feeds;
    std::pmr::monotonic_buffer_resource m_memory; // of m_seen: it only grows
    std::pmr::unordered_map<Hash, Seen> m_seen{&m_memory};
    struct Heads {
        std::vector<Hash> hashes;
        std::uint64_t rows{};
        std::uint64_t newest{};
    };
    std::unordered_map<VesselId, Heads> m_heads; // zero: the yard's
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
    std::error_code hidden;
    const std::uintmax_t size = std::filesystem::file_size(ledger_file, hidden);
    verifier.expect(hidden ? 0 : size / 1024); // a row is seldom smaller
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

namespace {

// With the columns that they would get.
void takeAll(Verifier& verifier, std::span<const Stored> rows, std::uint64_t row)
{
    const auto bytes = [](const auto& id) { return std::string(id.value.begin(), id.value.end()); };
    for (const Stored& one : rows) {
        Stored next = one;
        next.row = ++row;
        Ledger::Columns columns;
        std::string device;
        std::string vessel;
        if (const auto entry = decode(one.body)) {
            device = bytes(entry->device);
            vessel = entry->vessel ? bytes(*entry->vessel) : std::string();
            columns = {device, vessel, kindWord(entry->kind), static_cast<std::int64_t>(entry->seq)};
        }
        if (!verifier.take(next, columns)) {
            return;
        }
    }
}

} // namespace

Verification verifyRows(std::span<const Stored> rows, const VerifyOptions& options)
{
    Verification out;
    Verifier verifier(options, out);
    takeAll(verifier, rows, 0);
    verifier.finish();
    return out;
}

tl::expected<Verification, StoreError> verifyWith(const Ledger& ledger, std::span<const Stored> added, const VerifyOptions& options)
{
    Verification out;
    Verifier verifier(options, out);
    verifier.askSignatures(false);
    std::uint64_t row = 0;
    const auto read = ledger.streamAll([&](const Stored& own, const Ledger::Columns& columns) {
        row = own.row;
        return verifier.take(own, columns);
    });
    if (!read) {
        return tl::unexpected(read.error());
    }
    const std::uint64_t newest = row;
    verifier.askSignatures(options.signatures);
    takeAll(verifier, added, newest);
    verifier.finish();
    std::erase_if(out.findings, [&](const Finding& finding) { return finding.row <= newest; });
    for (Finding& finding : out.findings) {
        finding.row -= newest;
    }
    std::ranges::stable_sort(out.findings, {}, &Finding::row);
    return out;
}

} // namespace brimful::ledger
