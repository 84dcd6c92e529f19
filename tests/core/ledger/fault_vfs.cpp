#include "tests/core/ledger/fault_vfs.h"

#include <sqlite3.h>

#include <algorithm>
#include <cstring>
#include <fstream>
#include <new>

namespace brimful::test {

struct FaultVfs::State {
    sqlite3_vfs vfs{};
    sqlite3_vfs* real{};
    std::vector<Operation> log;
    bool records{};
    bool ignores_syncs{};
    Fails fails{Fails::Nothing};
    int left{};
    bool for_ever{};
    bool failed{};

    // SQLITE_OK, or what this operation is to fail with.
    int next(Fails what, int code)
    {
        const bool meant = fails == Fails::Any || (fails == what && what != Fails::Nothing);
        if (!meant || (failed && !for_ever)) {
            return SQLITE_OK;
        }
        if (failed || --left == 0) {
            failed = true;
            return fails == Fails::Full ? SQLITE_FULL : code;
        }
        return SQLITE_OK;
    }
};

namespace {

FaultVfs::State g_state; // SQLite keeps pointers to it

struct File {
    sqlite3_file base;
    std::string* name;
    sqlite3_file* real; // behind this struct
};
File& of(sqlite3_file* file) { return *reinterpret_cast<File*>(file); } // NOLINT(*-reinterpret-cast)
using Fails = FaultVfs::Fails;

void note(Operation operation)
{
    if (g_state.records) {
        g_state.log.push_back(std::move(operation));
    }
}

int closeFile(sqlite3_file* file)
{
    File& mine = of(file);
    const int code = mine.real->pMethods == nullptr ? SQLITE_OK : mine.real->pMethods->xClose(mine.real);
    delete mine.name;
    mine.name = nullptr;
    return code;
}
int readFile(sqlite3_file* file, void* to, int size, sqlite3_int64 at)
{
    const int code = g_state.next(Fails::Any, SQLITE_IOERR_READ);
    return code != SQLITE_OK ? code : of(file).real->pMethods->xRead(of(file).real, to, size, at);
}
int writeFile(sqlite3_file* file, const void* from, int size, sqlite3_int64 at)
{
    if (const int code = g_state.next(Fails::Full, SQLITE_IOERR_WRITE); code != SQLITE_OK) {
        return code;
    }
    const int code = of(file).real->pMethods->xWrite(of(file).real, from, size, at);
    if (code == SQLITE_OK) {
        note({Operation::What::Write, *of(file).name, at, std::string(static_cast<const char*>(from), static_cast<std::size_t>(size))});
    }
    return code;
}
int truncateFile(sqlite3_file* file, sqlite3_int64 size)
{
    if (const int code = g_state.next(Fails::Any, SQLITE_IOERR_TRUNCATE); code != SQLITE_OK) {
        return code;
    }
    note({Operation::What::Truncate, *of(file).name, size, {}});
    return of(file).real->pMethods->xTruncate(of(file).real, size);
}
int syncFile(sqlite3_file* file, int flags)
{
    if (const int code = g_state.next(Fails::Sync, SQLITE_IOERR_FSYNC); code != SQLITE_OK) {
        return code;
    }
    if (!g_state.ignores_syncs) {
        note({Operation::What::Sync, *of(file).name, 0, {}});
    }
    (void)flags; // the real disk need not be troubled: what it would hold is worked out from the log
    return SQLITE_OK;
}
int sizeOf(sqlite3_file* file, sqlite3_int64* size)
{
    const int code = g_state.next(Fails::Any, SQLITE_IOERR_FSTAT);
    return code != SQLITE_OK ? code : of(file).real->pMethods->xFileSize(of(file).real, size);
}
int lockFile(sqlite3_file* file, int level)
{
    const int code = g_state.next(Fails::Any, SQLITE_IOERR_LOCK);
    return code != SQLITE_OK ? code : of(file).real->pMethods->xLock(of(file).real, level);
}
int unlockFile(sqlite3_file* file, int level) { return of(file).real->pMethods->xUnlock(of(file).real, level); }
int isReserved(sqlite3_file* file, int* out) { return of(file).real->pMethods->xCheckReservedLock(of(file).real, out); }
int control(sqlite3_file* file, int what, void* argument) { return of(file).real->pMethods->xFileControl(of(file).real, what, argument); }
int sectorSize(sqlite3_file* file) { return of(file).real->pMethods->xSectorSize(of(file).real); }
int characteristics(sqlite3_file* file) { return of(file).real->pMethods->xDeviceCharacteristics(of(file).real); }
int shmMap(sqlite3_file* file, int page, int size, int extend, void volatile** out)
{
    const int code = g_state.next(Fails::Any, SQLITE_IOERR_SHMMAP);
    return code != SQLITE_OK ? code : of(file).real->pMethods->xShmMap(of(file).real, page, size, extend, out);
}
int shmLock(sqlite3_file* file, int at, int n, int flags) { return of(file).real->pMethods->xShmLock(of(file).real, at, n, flags); }
void shmBarrier(sqlite3_file* file) { of(file).real->pMethods->xShmBarrier(of(file).real); }
int shmUnmap(sqlite3_file* file, int deleted) { return of(file).real->pMethods->xShmUnmap(of(file).real, deleted); }

const sqlite3_io_methods kMethods{2, closeFile, readFile, writeFile, truncateFile, syncFile, sizeOf, lockFile, unlockFile, isReserved,
    control, sectorSize, characteristics, shmMap, shmLock, shmBarrier, shmUnmap, nullptr, nullptr};

int openFile(sqlite3_vfs* /*vfs*/, const char* name, sqlite3_file* file, int flags, int* out_flags)
{
    File& mine = of(file);
    mine.base.pMethods = nullptr;
    if (const int code = g_state.next(Fails::Any, SQLITE_CANTOPEN); code != SQLITE_OK) {
        return code;
    }
    mine.real = reinterpret_cast<sqlite3_file*>(&mine + 1); // NOLINT(*-reinterpret-cast)
    mine.real->pMethods = nullptr;
    const int code = g_state.real->xOpen(g_state.real, name, mine.real, flags, out_flags);
    if (code == SQLITE_OK) {
        mine.name = new std::string(name == nullptr ? std::string() : std::filesystem::path(name).filename().string());
        mine.base.pMethods = &kMethods;
    }
    return code;
}

void put(std::string& bytes, std::size_t at, std::string_view part)
{
    bytes.resize(std::max(bytes.size(), at + part.size()), '\0');
    std::copy(part.begin(), part.end(), bytes.begin() + static_cast<std::ptrdiff_t>(at));
}

constexpr std::size_t kSector = 512;

} // namespace

FaultVfs::FaultVfs()
{
    g_state = State();
    g_state.real = sqlite3_vfs_find("unix");
    g_state.vfs = *g_state.real;
    g_state.vfs.zName = "faults";
    g_state.vfs.pNext = nullptr;
    g_state.vfs.szOsFile = static_cast<int>(sizeof(File)) + g_state.real->szOsFile;
    g_state.vfs.xOpen = openFile;
    sqlite3_vfs_register(&g_state.vfs, 1);
}

FaultVfs::~FaultVfs()
{
    sqlite3_vfs_unregister(&g_state.vfs);
    sqlite3_vfs_register(g_state.real, 1);
}

void FaultVfs::fail(Fails what, int nth, bool for_ever) // NOLINT(readability-convert-member-functions-to-static)
{
    g_state.fails = what;
    g_state.left = nth;
    g_state.for_ever = for_ever;
    g_state.failed = false;
}

bool FaultVfs::failed() const { return g_state.failed; } // NOLINT(readability-convert-member-functions-to-static)
void FaultVfs::ignoreSyncs(bool ignored) { g_state.ignores_syncs = ignored; } // NOLINT(readability-convert-member-functions-to-static)
void FaultVfs::record() // NOLINT(readability-convert-member-functions-to-static)
{
    g_state.log.clear();
    g_state.records = true;
}
const std::vector<Operation>& FaultVfs::log() const { return g_state.log; } // NOLINT(readability-convert-member-functions-to-static)

Disk diskOf(const std::filesystem::path& folder)
{
    Disk disk;
    for (const auto& one : std::filesystem::directory_iterator(folder)) {
        const std::string name = one.path().filename().string();
        if (!name.ends_with("-shm")) { // shared memory: gone with the power
            std::ifstream in(one.path(), std::ios::binary);
            disk[name] = std::string{std::istreambuf_iterator<char>(in), {}};
        }
    }
    return disk;
}

void writeDisk(const Disk& disk, const std::filesystem::path& folder)
{
    std::filesystem::remove_all(folder);
    std::filesystem::create_directories(folder);
    for (const auto& [name, bytes] : disk) {
        std::ofstream(folder / name, std::ios::binary) << bytes;
    }
}

Disk afterPowerLoss(const Disk& before, const std::vector<Operation>& log, std::size_t done, std::mt19937& random, double kept)
{
    std::map<std::string, std::size_t> synced; // operations of this file before this place are on the disk
    for (std::size_t i = 0; i < done; ++i) {
        if (log[i].what == Operation::What::Sync) {
            synced[log[i].file] = i;
        }
    }
    Disk disk = before;
    std::bernoulli_distribution keeps(kept);
    for (std::size_t i = 0; i < done; ++i) {
        const Operation& operation = log[i];
        const auto until = synced.find(operation.file);
        const bool durable = until != synced.end() && i < until->second;
        std::string& bytes = disk[operation.file];
        if (operation.what == Operation::What::Truncate) {
            if (durable || keeps(random)) {
                bytes.resize(static_cast<std::size_t>(operation.offset), '\0');
            }
        } else if (operation.what == Operation::What::Write) {
            const auto at = static_cast<std::size_t>(operation.offset);
            for (std::size_t part = 0; part < operation.bytes.size();) {
                const std::size_t length = std::min(kSector - (at + part) % kSector, operation.bytes.size() - part);
                if (durable || keeps(random)) {
                    put(bytes, at + part, std::string_view(operation.bytes).substr(part, length));
                }
                part += length;
            }
        }
    }
    return disk;
}

} // namespace brimful::test
