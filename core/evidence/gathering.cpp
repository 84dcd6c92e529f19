#include "core/evidence/folding.h"

#include <algorithm>

namespace brimful::evidence {

using ledger::Kind;
using rules::kNone;

namespace {

std::optional<Hash> hashOf(const canon::Json& payload, std::string_view key) { return canon::fromHex<Hash>(payload.textOf(key)); }

constexpr std::int64_t kSecondWithinMs = 10LL * 60 * 1000;

// The entry that entry `n` confirms: another person's, on this device, in this boot, at most ten minutes before.
std::optional<Hash> confirmedBy(const History& history, EntryNumber n)
{
    const ledger::Entry& second = history.line(n).entry;
    if (second.kind != Kind::Confirmed || !second.signer) {
        return std::nullopt;
    }
    const auto hash = hashOf(second.payload, "confirms");
    const EntryNumber of = hash ? history.numberOf(*hash) : 0;
    if (!history.knew(n, of)) {
        return std::nullopt;
    }
    const ledger::Entry& first = history.line(of).entry;
    const bool here = first.device == second.device && first.at.boot == second.at.boot && first.vessel == second.vessel;
    const std::int64_t after_ms = second.at.boot_ms - first.at.boot_ms;
    const bool another = first.signer && first.signer->person != second.signer->person;
    return here && another && after_ms >= 0 && after_ms <= kSecondWithinMs ? hash : std::nullopt;
}

} // namespace

Folding::Folding(std::span<const ledger::Line> lines, const VesselId& vessel, const ledger::YardState& yard, const rules::Pack& pack,
    const figure::Reference& reference, const ledger::Moment& now, const Surroundings& around, Memo& memo)
    : m_history(lines)
    , m_vessel(vessel)
    , m_yard(yard)
    , m_pack(pack)
    , m_reference(reference)
    , m_now(now)
    , m_around(around)
    , m_memo(memo)
{
    m_out.lines.assign(lines.begin(), lines.end());
    m_records.resize(pack.steps.size());
    m_newest.resize(pack.steps.size());
    m_conflict.resize(pack.steps.size());
    m_events.resize(pack.events.size());
    m_releases.resize(pack.hold_points.size());
    m_withdrawals.resize(pack.hold_points.size());
    rules::Evidence& evidence = m_out.evidence;
    evidence.facts.resize(pack.facts.size());
    evidence.steps.resize(pack.steps.size());
    evidence.stops.resize(pack.stops.size());
    evidence.releases.resize(pack.hold_points.size());
    evidence.last_event.resize(pack.events.size(), rules::kNoEntry);
    evidence.event_after.resize(pack.events.size());
    m_basis = canon::toHex(pack.together());
    const auto newest_of_yard =
        std::ranges::find_if(lines.rbegin(), lines.rend(), [](const ledger::Line& line) { return !line.entry.vessel; });
    if (newest_of_yard != lines.rend()) {
        m_basis.append("/").append(canon::toHex(newest_of_yard->hash));
    }
    const auto now_true = yard.trueTime(now);
    evidence.clock_trusted = now_true.has_value();
    evidence.now_ms = now_true.value_or(now.wall_ms);
}

void Folding::gather()
{
    // Corrections and confirmations first: whether a record counts depends on entries after it.
    for (EntryNumber n = 1; n <= m_history.size(); ++n) {
        const ledger::Line& line = m_history.line(n);
        if (line.entry.kind == Kind::Corrected) {
            if (const auto what = hashOf(line.entry.payload, "withdraws")) {
                m_out.withdrawn.insert(*what);
            }
        }
    }
    for (EntryNumber n = 1; n <= m_history.size(); ++n) {
        if (const auto first = confirmedBy(m_history, n); first && !m_out.withdrawn.contains(m_history.line(n).hash)) {
            m_confirmations.emplace(*first, n);
        }
    }
    for (EntryNumber n = 1; n <= m_history.size(); ++n) {
        gatherEntry(n);
    }
    findHeads();
    findForks();
    m_out.evidence.forked = m_out.forked;
    findUnknownHeads();
    m_out.evidence.whole =
        m_out.unknown_heads.empty() && m_out.heads.size() <= 1 && !m_out.forked && !m_around.record_damaged && !m_around.storage_fault;
}

void Folding::gatherEntry(EntryNumber n)
{
    const ledger::Line& line = m_history.line(n);
    const ledger::Entry& entry = line.entry;
    const bool of_vessel = entry.vessel == m_vessel;
    if (entry.vessel && !of_vessel) {
        return;
    }
    const auto confirmation = m_confirmations.find(line.hash);
    const EntryNumber confirmed = confirmation == m_confirmations.end() ? 0 : confirmation->second;
    switch (entry.kind) {
    case Kind::Evidence: {
        const rules::Index step = m_pack.step(entry.payload.textOf("step"));
        if (step == kNone || m_pack.steps[step].of_yard == of_vessel || m_pack.steps[step].talk_of != kNone) {
            return;
        }
        Record record;
        record.entry = n;
        record.cannot = entry.payload.textOf("outcome") == "cannot";
        record.confirmed = m_pack.steps[step].with.empty() || record.cannot ? n : confirmed;
        record.values = entry.payload.find("facts");
        record.instrument = entry.payload.textOf("instrument");
        m_records[step].push_back(std::move(record));
        for (const Hash& file : entry.attachments) {
            if (!m_out.withdrawn.contains(line.hash)) {
                m_photos[file].push_back(n);
            }
        }
        return;
    }
    case Kind::Released: {
        const rules::Index hold_point = m_pack.holdPoint(entry.payload.textOf("hold_point"));
        if (hold_point == kNone) {
            return;
        }
        if (m_out.withdrawn.contains(line.hash)) {
            return;
        }
        m_releases[hold_point].push_back(n);
        m_records[m_pack.hold_points[hold_point].talk].push_back({n, confirmed, false, entry.payload.find("answers"), {}});
        return;
    }
    case Kind::Withdrawn:
        if (const rules::Index hold_point = m_pack.holdPoint(entry.payload.textOf("hold_point")); hold_point != kNone) {
            m_withdrawals[hold_point].push_back(n);
        }
        return;
    case Kind::Event:
        if (const rules::Index event = m_pack.event(entry.payload.textOf("event")); event != kNone) {
            m_events[event].push_back(n);
            m_out.evidence.last_event[event] = n;
        }
        return;
    case Kind::Cleared:
        if (!m_out.withdrawn.contains(line.hash)) {
            m_clearings.push_back(n);
        }
        return;
    case Kind::TagPrinted:
        m_out.newest_tag = n;
        return;
    case Kind::GapAccepted:
        if (confirmed != 0 && holdsItsRole(n) && holdsItsRole(confirmed)) {
            m_gap = confirmed;
            if (const canon::Json* heads = entry.payload.find("heads")) {
                for (const canon::Json& head : heads->items) {
                    if (const auto hash = canon::fromHex<Hash>(head.text)) {
                        m_gap_heads.insert(*hash);
                    }
                }
            }
        }
        return;
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
    case Kind::Confirmed:
    case Kind::Corrected:
    case Kind::TagRead:
    case Kind::ForkJoined:
        return;
    }
}

void Folding::findHeads()
{
    std::set<Hash> named;
    for (EntryNumber n = 1; n <= m_history.size(); ++n) {
        if (m_history.line(n).entry.vessel == m_vessel) {
            named.insert(m_history.line(n).entry.parents.begin(), m_history.line(n).entry.parents.end());
        }
    }
    for (EntryNumber n = 1; n <= m_history.size(); ++n) {
        const ledger::Line& line = m_history.line(n);
        if (line.entry.vessel == m_vessel && !named.contains(line.hash)) {
            m_out.heads.push_back(line.hash);
        }
    }
}

// Two entries of which neither knew the other, written on two tablets: until an authoriser joins them by an entry that
// knows both. Another entry that happens to come after both joins nothing.
void Folding::findForks()
{
    std::vector<EntryNumber> own;
    std::vector<EntryNumber> joins;
    for (EntryNumber n = 1; n <= m_history.size(); ++n) {
        const ledger::Line& line = m_history.line(n);
        if (line.entry.vessel == m_vessel) {
            own.push_back(n);
            if (line.entry.kind == Kind::ForkJoined && line.entry.signer && line.entry.signer->role == "authoriser" && holdsItsRole(n)) {
                joins.push_back(n);
            }
        }
    }
    const auto sameFeed = [&](EntryNumber n) {
        return !m_history.line(n).beside && m_history.line(n).entry.device == m_history.line(own.front()).entry.device;
    };
    if (std::ranges::all_of(own, sameFeed)) {
        return; // one tablet alone knows what it wrote
    }
    for (std::size_t later = 1; later < own.size() && !m_out.forked; ++later) {
        for (std::size_t earlier = 0; earlier < later && !m_out.forked; ++earlier) {
            const auto joined = [&](EntryNumber join) {
                const auto knows = [&](EntryNumber n) { return n == join || m_history.knew(join, n); };
                return knows(own[earlier]) && knows(own[later]);
            };
            m_out.forked = !m_history.knew(own[later], own[earlier]) && std::ranges::none_of(joins, joined);
        }
    }
}

// A parent, or the head of a genuine tag, that this record does not have: entries are missing here.
void Folding::findUnknownHeads()
{
    std::set<Hash> unknown;
    const auto look = [&](const Hash& hash) {
        if (m_history.numberOf(hash) == 0 && !m_gap_heads.contains(hash)) {
            unknown.insert(hash);
        }
    };
    for (EntryNumber n = 1; n <= m_history.size(); ++n) {
        const ledger::Entry& entry = m_history.line(n).entry;
        if (entry.vessel && entry.vessel != m_vessel) {
            continue; // what the yard says of people and instruments must be whole too
        }
        if (entry.kind != Kind::GapAccepted) {
            for (const Hash& parent : entry.parents) {
                look(parent);
            }
        }
        if (entry.kind == Kind::TagRead && entry.payload.integerOf("genuine") == 1) {
            if (const auto head = hashOf(entry.payload, "head")) {
                look(*head);
            }
        }
        if (const canon::Json* tag = entry.payload.find("tag"); entry.kind == Kind::Released && tag != nullptr) {
            if (const auto head = hashOf(*tag, "head")) {
                look(*head);
            }
        }
    }
    for (const Hash& hash : m_around.lost) {
        look(hash);
    }
    m_out.unknown_heads.assign(unknown.begin(), unknown.end());
}

} // namespace brimful::evidence
