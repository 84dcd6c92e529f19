// Carrying entries from one machine to another, keeping copies of them, and what to do when two tablets wrote apart.
#include "core/ledger/entries_file.h"
#include "core/yard/iso_time.h"
#include "core/yard/state.h"

#include <algorithm>
#include <cstring>
#include <fstream>

namespace brimful::yard {

using canon::Json;
using report::Why;

namespace {

constexpr std::string_view kBackupStart = "brimful-";
constexpr std::string_view kBackupEnd = ".entries";
constexpr std::int64_t kDayMs = 86'400'000;
constexpr std::size_t kDays = 7;
constexpr std::size_t kWeeks = 4;

// "brimful-1f2e3d4c-20261125T214000Z.entries": the yard, and when.
std::string backupStart(const YardId& yard) { return std::string(kBackupStart) + canon::toHex(yard).substr(0, 8) + "-"; }

std::string stampOf(std::int64_t wall_ms)
{
    std::string stamp = formatTime(wall_ms);
    std::erase_if(stamp, [](char c) { return c == '-' || c == ':'; });
    return stamp;
}

Outcome<ledger::Carried> readFile(const std::filesystem::path& file)
{
    std::ifstream in(file, std::ios::binary);
    if (!in) {
        return refused(Why::NoSuchFile, "file", {}, file.string());
    }
    auto carried = ledger::readEntries(in);
    if (!carried) {
        return refused(Why::BadEntries, file.string() + ":" + std::to_string(carried.error().line), carried.error().expected);
    }
    return std::move(*carried);
}

// The photographs and documents that these rows name and that are not here yet: before the entries that name them.
Outcome<std::uint64_t> keepFiles(const ledger::Carried& carried, std::span<const ledger::Stored> rows, const std::filesystem::path& from,
    const std::filesystem::path& evidence)
{
    std::set<Hash> named;
    for (const ledger::Stored& row : rows) {
        if (const auto entry = ledger::decode(row.body)) {
            named.insert(entry->attachments.begin(), entry->attachments.end());
        }
    }
    std::ifstream in(from, std::ios::binary);
    std::uint64_t kept = 0;
    for (const ledger::CarriedFile& file : carried.files) {
        const std::string hex = canon::toHex(file.hash);
        const auto shelf = evidence / hex.substr(0, 2);
        const auto to = shelf / (hex + "." + file.extension);
        std::error_code error;
        if (!named.contains(file.hash) || std::filesystem::exists(to, error)) {
            continue;
        }
        std::string bytes(file.size, '\0');
        in.seekg(static_cast<std::streamoff>(file.at));
        in.read(bytes.data(), static_cast<std::streamsize>(bytes.size()));
        if (!in || canon::sha256(bytes) != file.hash) {
            return refused(Why::InputOutput, from.string());
        }
        std::filesystem::create_directories(shelf, error);
        if (const int code = error ? error.value() : writeDurably(to, bytes); code != 0) {
            return refused(whyOfErrno(code), to.string(), {}, std::strerror(code)); // NOLINT(concurrency-mt-unsafe)
        }
        ++kept;
    }
    return kept;
}

// What in these entries is not true; a feed that forks is told, kept and held, not refused.
Outcome<void> believe(const ledger::Ledger& ledger, std::span<const ledger::Stored> rows, const std::filesystem::path& file)
{
    ledger::VerifyOptions options;
    options.typed_agrees = typedAgrees;
    const auto verification = ledger::verifyWith(ledger, rows, options);
    if (!verification) {
        return tl::unexpected(refusalOf(verification.error(), file));
    }
    for (const ledger::Finding& finding : verification->findings) {
        if (finding.flaw != ledger::Flaw::FeedFork) {
            return refused(Why::ForgedEntries, file.string(), {}, canon::toHex(finding.entry));
        }
    }
    return {};
}

} // namespace

Outcome<Exported> Yard::exportEntries(const std::filesystem::path& file, const std::string& number) const
{
    ledger::ExportRequest request{m_state->folder / "evidence", {}};
    if (!number.empty()) {
        const auto vessel = m_state->find(number);
        if (!vessel) {
            return tl::unexpected(vessel.error());
        }
        request.vessel = vessel->id;
    }
    const auto written = ledger::writeEntries(m_state->ledger, file, request);
    if (!written) {
        return tl::unexpected(m_state->refuse(written.error()));
    }
    return Exported{written->entries, written->files};
}

Outcome<Imported> Yard::importEntries(const std::filesystem::path& file)
{
    State& state = *m_state;
    if (state.access == Access::ReadOnly) {
        return refused(Why::ReadOnly, state.folder.string());
    }
    if (state.fault) {
        return refused(Why::StorageFault, state.folder.string());
    }
    const auto carried = readFile(file);
    if (!carried) {
        return tl::unexpected(carried.error());
    }
    Imported out;
    std::vector<ledger::Stored> added;
    std::set<Hash> seen;
    for (const ledger::Stored& row : carried->rows) {
        if (ledger::decode(row.body)->yard != state.yard.yard) {
            return refused(Why::OtherYard, file.string());
        }
        const auto known = state.ledger.byHash(row.hash);
        if (!known) {
            return tl::unexpected(state.refuse(known.error()));
        }
        if (!*known && seen.insert(row.hash).second) {
            added.push_back(row);
        }
    }
    out.known = carried->rows.size() - added.size();
    if (!added.empty()) {
        if (auto believed = believe(state.ledger, added, file); !believed) {
            return tl::unexpected(believed.error());
        }
    }
    const auto files = keepFiles(*carried, carried->rows, file, state.folder / "evidence");
    if (!files) {
        return tl::unexpected(files.error());
    }
    out.files = *files;
    if (!added.empty()) {
        const auto united = state.ledger.unite(added);
        if (!united) {
            return tl::unexpected(state.refuse(united.error()));
        }
        out.entries = *united;
        if (auto fresh = state.refresh(); !fresh) {
            return tl::unexpected(fresh.error());
        }
        state.remember();
    }
    return out;
}

Outcome<Backup> Yard::backup(const std::filesystem::path& folder) const
{
    std::error_code error;
    std::filesystem::create_directories(folder, error);
    if (error) {
        return refused(whyOfErrno(error.value()), folder.string(), {}, error.message());
    }
    const std::string start = backupStart(m_state->yard.yard);
    Backup out;
    out.file = folder / (start + stampOf(m_state->clock.now().wall_ms) + std::string(kBackupEnd));
    const auto unchecked = std::filesystem::path(out.file.string() + ".unchecked");
    const auto written = exportEntries(unchecked, {});
    if (!written) {
        return tl::unexpected(written.error());
    }
    out.entries = written->entries;
    out.files = written->files;
    // A copy that nobody has read is no copy: it gets its name when everything in it was found true.
    const auto checked = [&]() -> Outcome<void> {
        const auto carried = readFile(unchecked);
        if (!carried) {
            return tl::unexpected(carried.error());
        }
        ledger::VerifyOptions options;
        options.typed_agrees = typedAgrees;
        const auto verification = ledger::verifyRows(carried->rows, options);
        if (carried->rows.size() != written->entries || !verification.intact()) {
            return refused(Why::Damaged, unchecked.string());
        }
        return {};
    }();
    if (!checked) {
        std::filesystem::remove(unchecked, error);
        return tl::unexpected(checked.error());
    }
    std::filesystem::rename(unchecked, out.file, error);
    if (error) {
        return refused(whyOfErrno(error.value()), out.file.string(), {}, error.message());
    }
    std::vector<std::string> names;
    for (const auto& one : std::filesystem::directory_iterator(folder, error)) {
        const std::string name = one.path().filename().string();
        if (name.starts_with(start) && name.ends_with(kBackupEnd)) {
            names.push_back(name);
        }
    }
    for (const std::string& name : backupsToDrop(names)) {
        out.dropped += std::filesystem::remove(folder / name, error) ? 1U : 0U;
    }
    return out;
}

std::vector<std::string> backupsToDrop(std::vector<std::string> names)
{
    // The newest of each of the last days, and of each of the last weeks, in which there is one.
    std::ranges::sort(names, std::greater<>());
    std::set<std::int64_t> days;
    std::set<std::int64_t> weeks;
    std::vector<std::string> drop;
    for (const std::string& name : names) {
        const std::size_t at = name.size() - std::min(name.size(), kBackupEnd.size() + std::string_view("20261125T214000Z").size());
        const std::string s = name.substr(at, name.size() - at - std::min(name.size() - at, kBackupEnd.size()));
        const auto when = s.size() < 16 ? std::nullopt
                                        : parseTime(s.substr(0, 4) + "-" + s.substr(4, 2) + "-" + s.substr(6, 2) + "T" + s.substr(9, 2)
                                            + ":" + s.substr(11, 2) + ":" + s.substr(13, 2) + "Z");
        if (!when) {
            continue; // not one of ours: never dropped
        }
        const std::int64_t day = *when / kDayMs;
        const bool of_day = days.size() < kDays && days.insert(day).second;
        const bool of_week = weeks.size() < kWeeks && weeks.insert(day / 7).second;
        if (!of_day && !of_week) {
            drop.push_back(name);
        }
    }
    return drop;
}

Outcome<Imported> Yard::restore(const std::filesystem::path& folder, const std::filesystem::path& file)
{
    const auto carried = readFile(file);
    if (!carried) {
        return tl::unexpected(carried.error());
    }
    std::error_code error;
    std::filesystem::create_directories(folder / "evidence", error);
    if (error) {
        return refused(whyOfErrno(error.value()), folder.string(), {}, error.message());
    }
    const auto to = folder / "ledger.db";
    const bool exists = std::filesystem::exists(to, error);
    auto ledger = exists ? ledger::Ledger::open(to, ledger::Mode::ReadWrite) : ledger::Ledger::create(to);
    if (!ledger) {
        return tl::unexpected(refusalOf(ledger.error(), folder));
    }
    const auto there = ledger->count();
    if (!there) {
        return tl::unexpected(refusalOf(there.error(), folder));
    }
    const auto undo = [&] {
        if (!exists) {
            ledger = tl::unexpected(ledger::StoreError{});
            for (const char* end : {"", "-wal", "-shm"}) {
                std::filesystem::remove(to.string() + end, error);
            }
        }
    };
    if (*there != 0) {
        return refused(Why::YardExists, folder.string());
    }
    if (auto believed = carried->rows.empty() ? refused(Why::BadEntries, file.string(), "entries") : believe(*ledger, carried->rows, file);
        !believed) {
        undo();
        return tl::unexpected(believed.error());
    }
    const auto files = keepFiles(*carried, carried->rows, file, folder / "evidence");
    if (!files) {
        undo();
        return tl::unexpected(files.error());
    }
    const auto united = ledger->unite(carried->rows);
    if (!united) {
        return tl::unexpected(refusalOf(united.error(), folder));
    }
    if (auto kept = ledger->checkpoint(); !kept) {
        return tl::unexpected(refusalOf(kept.error(), folder));
    }
    return Imported{*united, 0, *files};
}

Outcome<Receipt> Yard::joinFork(const std::string& number, const std::string& why, const Signing& by)
{
    State& state = *m_state;
    if (auto writable = state.writable(); !writable) {
        return tl::unexpected(writable.error());
    }
    if (why.empty()) {
        return refused(Why::MissingFact, "why");
    }
    Draft draft;
    draft.kind = ledger::Kind::ForkJoined;
    std::vector<Hash> heads;
    if (number.empty()) {
        for (const auto& [device, branches] : state.forks) {
            heads.insert(heads.end(), branches.begin(), branches.end());
        }
    } else {
        const auto vessel = state.find(number);
        if (!vessel) {
            return tl::unexpected(vessel.error());
        }
        const auto folded = state.fold(vessel->id, std::nullopt);
        if (!folded) {
            return tl::unexpected(folded.error());
        }
        if (folded->forked) {
            heads = folded->heads;
        }
        draft.vessel = vessel->id;
    }
    if (heads.empty()) {
        return refused(Why::NothingToClear, "fork");
    }
    std::vector<people::SigningKey> keys;
    keys.reserve(1);
    const std::vector<std::string> authorisers{std::string(kAuthoriser)};
    const auto signer = state.unlock(by, authorisers, keys);
    if (!signer) {
        return tl::unexpected(signer.error());
    }
    Json named = Json::array();
    std::ranges::sort(heads);
    for (const Hash& head : heads) {
        named.items.emplace_back(canon::toHex(head));
    }
    draft.payload.set("heads", named).set("why", why);
    draft.signer = &*signer;
    const auto written = state.append(std::span(&draft, 1));
    if (!written) {
        return tl::unexpected(written.error());
    }
    if (auto fresh = state.refresh(); !fresh) {
        return tl::unexpected(fresh.error());
    }
    return Receipt{written->front(), {}, true, false};
}

Outcome<void> Yard::recoverStorage()
{
    State& state = *m_state;
    if (!state.fault) {
        return {};
    }
    if (auto back = state.ledger.reopen(); !back) {
        return tl::unexpected(state.refuse(back.error()));
    }
    if (auto fresh = state.refresh(); !fresh) {
        return tl::unexpected(fresh.error());
    }
    state.fault.reset();
    return {};
}

} // namespace brimful::yard
