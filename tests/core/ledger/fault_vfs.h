// A file system for SQLite that lies under the real one: it writes down every operation on files, fails the one it is told to
// fail, and can tell what a disk would hold if the power had gone at any moment.
#pragma once

#include <cstdint>
#include <filesystem>
#include <map>
#include <random>
#include <string>
#include <vector>

namespace brimful::test {

struct Operation {
    enum class What : std::uint8_t { Write, Truncate, Sync } what{What::Write};
    std::string file; // last part of its name
    std::int64_t offset{}; // of a truncation: the new size
    std::string bytes;
};

// The default VFS of this process while it lives; one at a time.
class FaultVfs {
public:
    FaultVfs();
    ~FaultVfs();
    FaultVfs(const FaultVfs&) = delete;
    FaultVfs& operator=(const FaultVfs&) = delete;

    enum class Fails : std::uint8_t { Nothing, Any, Sync, Full }; // any operation, syncs alone, or writes as on a full disk
    // The n-th operation from now (from 1) fails, once or with all after it.
    void fail(Fails what, int nth, bool for_ever);
    [[nodiscard]] bool failed() const; // it came to that
    void ignoreSyncs(bool ignored); // a disk that says yes and does nothing

    void record(); // from now
    [[nodiscard]] const std::vector<Operation>& log() const;

    struct State;
};

using Disk = std::map<std::string, std::string>; // file -> bytes
[[nodiscard]] Disk diskOf(const std::filesystem::path& folder);
void writeDisk(const Disk& disk, const std::filesystem::path& folder);
// What stands on the disk when the power goes after `done` operations: what was synced, and of the rest each sector of 512
// bytes, and each change of size, kept or lost at random (kept with this chance).
[[nodiscard]] Disk afterPowerLoss(
    const Disk& before, const std::vector<Operation>& log, std::size_t done, std::mt19937& random, double kept);

} // namespace brimful::test
