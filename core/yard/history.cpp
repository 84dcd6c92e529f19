// Reading a vessel's history: decode once, check signatures once a process, fold at every look.
#include "core/yard/state.h"

#include "core/canon/hash.h"
#include "core/report/watch.h"

#include <algorithm>
#include <fstream>
#include <limits>

namespace brimful::yard {

namespace {

// A boot that exists only for a question about another time: "as if the time were confirmed".
BootId imaginedBoot()
{
    BootId boot;
    boot.value.fill(0xff);
    return boot;
}

bool signaturesHold(const ledger::Stored& row, const ledger::Entry& entry, const ledger::YardState& yard)
{
    const auto device = yard.devices.find(entry.device);
    if (device == yard.devices.end() || !people::verifies(device->second, people::kDeviceDomain, row.hash, row.device_signature)) {
        return false;
    }
    if (!entry.signer) {
        return ledger::mayBeUnsigned(entry.kind);
    }
    const auto person = yard.people.find(entry.signer->person);
    if (person == yard.people.end() || !row.person_signature) {
        return false;
    }
    const auto keys = row.beside ? person->second.keys : yard.keysAt(entry.signer->person, entry.device, entry.seq);
    return std::ranges::any_of(keys, [&](const ledger::PersonKey& key) {
        return key.device == entry.device && people::verifies(key.key, people::kPersonDomain, row.hash, *row.person_signature);
    });
}

bool typedHolds(const canon::Json& value) // NOLINT(misc-no-recursion): as deep as the reader lets
{
    if (value.is(canon::Type::Object) && value.find("count") != nullptr && value.find("typed") != nullptr) {
        return typedAgrees(std::string(value.textOf("typed")), std::string(value.textOf("unit")), value.integerOf("count"));
    }
    return std::ranges::all_of(value.items, [](const canon::Json& item) { return typedHolds(item); })
        && std::ranges::all_of(value.members, [](const canon::Member& member) { return typedHolds(member.value); });
}

std::filesystem::path evidenceFile(const std::filesystem::path& folder, const std::string& hex)
{
    const auto shelf = folder / "evidence" / hex.substr(0, 2);
    std::error_code ignored;
    for (const auto& file : std::filesystem::directory_iterator(shelf, ignored)) {
        if (file.path().stem() == hex) {
            return file.path();
        }
    }
    return {};
}

} // namespace

bool namesExclusive(const rules::Pack& pack, const rules::Step& step)
{
    return std::ranges::any_of(step.facts, [&](rules::Index fact) { return pack.facts[fact].exclusive; });
}

Outcome<VesselRecord> Yard::State::find(const std::string& number) const
{
    const auto found = std::ranges::find(vessels, number, &VesselRecord::number);
    if (found == vessels.end()) {
        return refused(report::Why::UnknownVessel, "vessel", {}, number);
    }
    return *found;
}

// All that can be told of one row by itself; once a process.
bool Yard::State::verifyRow(const ledger::Stored& row, const ledger::Entry& entry)
{
    if (!verified.contains(row.hash)) {
        if (canon::leafHash(row.body) != row.hash || !signaturesHold(row, entry, yard) || !typedHolds(entry.payload)) {
            return false;
        }
        verified.insert(row.hash);
    }
    return true;
}

std::unordered_map<Hash, ledger::Line>& Yard::State::decodedOf(const VesselId& vessel)
{
    constexpr std::size_t kKept = 24; // about 2 MiB each at 200 entries
    const auto found = std::ranges::find(decoded, vessel, &Decoded::vessel);
    if (found != decoded.end()) {
        decoded.splice(decoded.begin(), decoded, found);
    } else {
        decoded.push_front({vessel, {}});
        decoded.resize(std::min(decoded.size(), kKept));
    }
    return decoded.front().lines;
}

void Yard::State::foundDamaged(const VesselId& vessel)
{
    if (damaged.insert(vessel).second) {
        seen.erase(vessel);
    }
}

Outcome<std::vector<ledger::Line>> Yard::State::history(const VesselId& vessel)
{
    if (ledger.dataVersion() != data_version) {
        if (auto fresh = refresh(); !fresh) {
            return tl::unexpected(fresh.error());
        }
    }
    auto rows = ledger.ofVessel(vessel);
    if (!rows) {
        return tl::unexpected(refuse(rows.error()));
    }
    const auto counted = rows_of.find(vessel);
    if (rows->size() != (counted == rows_of.end() ? 0 : counted->second)) {
        foundDamaged(vessel); // the index hides what the table has
    }
    const auto record = std::ranges::find(vessels, vessel, &VesselRecord::id);
    const auto admitted = ledger.byHash(record == vessels.end() ? Hash{} : record->admitted);
    const auto admission = admitted && *admitted ? ledger::decode((*admitted)->body) : tl::unexpected(ledger::EntryError{});
    if (!admission || !verifyRow(**admitted, *admission)) {
        foundDamaged(vessel);
    }
    std::vector<std::pair<std::uint64_t, const ledger::Line*>> own; // in `lines`, which keeps their place
    auto& lines = decodedOf(vessel);
    for (const ledger::Stored& row : *rows) {
        auto known = lines.find(row.hash);
        if (known == lines.end()) {
            auto entry = ledger::decode(row.body);
            if (!entry) {
                foundDamaged(vessel);
                continue;
            }
            known = lines.emplace(row.hash, ledger::Line{row.hash, std::move(*entry)}).first;
        }
        known->second.beside = row.beside;
        if (canon::leafHash(row.body) != row.hash || !verifyRow(row, known->second.entry)) {
            foundDamaged(vessel);
            continue;
        }
        own.emplace_back(row.row, &known->second);
    }
    std::vector<ledger::Line> all;
    all.reserve(yard_lines.size() + own.size());
    auto next = own.begin();
    for (std::size_t i = 0; i < yard_lines.size(); ++i) {
        for (; next != own.end() && next->first < yard_rows[i]; ++next) {
            all.push_back(*next->second);
        }
        all.push_back(yard_lines[i]);
    }
    for (; next != own.end(); ++next) {
        all.push_back(*next->second);
    }
    ledger::sortCausally(all);
    return all;
}

evidence::Surroundings Yard::State::surroundings(const VesselId& vessel, const std::vector<ledger::Line>& lines, bool in_force)
{
    evidence::Surroundings around;
    around.lost = lost;
    around.record_damaged = all_damaged || damaged.contains(vessel) || !in_force;
    around.storage_fault = fault.has_value();
    learnWatches();
    for (const auto& [other, watch] : watches) {
        if (other != vessel && watch.person && nowMs() < watch.until_ms) {
            around.busy.insert(*watch.person);
        }
    }
    for (const ledger::Line& line : lines) {
        if (line.entry.kind == ledger::Kind::PackAdopted) {
            continue; // its files were checked when the packs were loaded
        }
        for (const Hash& attachment : line.entry.attachments) {
            const auto file = evidenceFile(folder, canon::toHex(attachment));
            std::ifstream bytes(file, std::ios::binary);
            const std::string content{std::istreambuf_iterator<char>(bytes), {}};
            if (file.empty() || canon::sha256(content) != attachment) {
                around.missing_attachments.insert(attachment);
            }
            const auto carried = carried_by.find(attachment);
            if (carried == carried_by.end() || carried->second.size() < 2) {
                continue;
            }
            const auto naming = vesselsNaming(attachment);
            around.storage_fault = around.storage_fault || !naming;
            if (naming && std::ranges::any_of(*naming, [&](const auto& one) { return one && *one != vessel; })) {
                around.carried_elsewhere.insert(attachment);
            }
        }
    }
    return around;
}

// Who watches over a live release, or over what was hot, until its watch may end.
void Yard::State::keepWatch(const VesselId& vessel, const evidence::Folded& folded)
{
    const rules::Standing standing = rules::standing(*pack, folded.evidence);
    const bool released = standing.state == rules::State::Released;
    const auto over = released ? std::nullopt : report::watch(*pack, folded, vessel, yard, nowMs());
    const Watch watch{released ? standing.until_ms
            : over             ? over->ends_ms
                               : 0,
        released || (over && !over->left_ms) ? report::watcher(*pack, folded) : std::nullopt};
    const auto before = watches.find(vessel);
    if (before == watches.end() ? !watch.person : before->second == watch) {
        return;
    }
    for (const auto& [other, named] : named_exclusive) { // whom it keeps busy, or no longer
        seen.erase(other);
    }
    watches[vessel] = watch;
}

// One look at every vessel, once a process; afterwards each look keeps its own vessel's watch.
void Yard::State::learnWatches()
{
    if (watches_known) {
        return;
    }
    watches_known = true; // before the looks below, which come back here
    std::int64_t longest = 0; // how long a record that names such a person may count
    for (const rules::Step& step : pack->steps) {
        if (namesExclusive(*pack, step)) {
            longest = std::max(longest, step.life_ms == 0 ? std::numeric_limits<std::int64_t>::max() : step.life_ms);
        }
    }
    for (const auto& [vessel, newest] : std::map(named_exclusive)) { // a look may read all anew
        const auto age = ledger::ageMs(yard, newest, clock.now());
        if (!age || *age <= longest) {
            (void)fold(vessel, std::nullopt);
        }
    }
}

ledger::Moment Yard::State::moment(std::optional<std::int64_t> as_if_ms, ledger::YardState& scratch) const
{
    if (!as_if_ms) {
        return clock.now();
    }
    const BootId boot = imaginedBoot();
    scratch.boots[boot] = ledger::ConfirmedBoot{*as_if_ms, 0};
    return {*as_if_ms, 0, boot, ledger::ClockState::Confirmed};
}

Outcome<evidence::Folded> Yard::State::fold(
    const VesselId& vessel, std::optional<std::int64_t> as_if_ms, const std::vector<ledger::Line>& imagined)
{
    auto lines = history(vessel);
    if (!lines) {
        return tl::unexpected(lines.error());
    }
    const std::int64_t version = data_version;
    lines->insert(lines->end(), imagined.begin(), imagined.end());
    ledger::YardState scratch = yard;
    const ledger::Moment at = moment(as_if_ms, scratch);
    const InForce then = packAt(as_if_ms);
    const auto around = surroundings(vessel, *lines, then.adopted);
    if (data_version != version) { // another program wrote while the others were looked at
        return fold(vessel, as_if_ms, imagined);
    }
    auto folded = evidence::fold(*lines, vessel, scratch, *then.pack, reference, at, around, memo);
    if (!as_if_ms && imagined.empty()) {
        keepWatch(vessel, folded);
    }
    return folded;
}

} // namespace brimful::yard
