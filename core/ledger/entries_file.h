// Entries and the photographs and documents that they name, as one file to carry: FORMAT.md, "Entries as a file".
// Reading believes nothing but the form; whether the entries are true is for verifyWith().
#pragma once

#include "core/ledger/verify.h"

#include <iosfwd>

namespace brimful::ledger {

inline constexpr std::uint64_t kLargestAttachment = 64ULL * 1024 * 1024;

struct ExportRequest {
    std::filesystem::path evidence; // folder of photographs and documents; "" = none go along
    std::optional<VesselId> vessel; // photographs and documents of this vessel and the yard alone; the entries go whole
};
struct Exported {
    std::uint64_t entries{};
    std::uint64_t files{};
};
// Into a new file that appears whole or not at all: written, synced, renamed.
[[nodiscard]] tl::expected<Exported, StoreError> writeEntries(const Ledger&, const std::filesystem::path& to, const ExportRequest&);

struct CarriedFile {
    Hash hash; // its bytes were read and have it
    std::string extension; // "jpg", "png", "pdf", "txt"
    std::uint64_t at{}; // place of its first byte
    std::uint64_t size{};
};
struct Carried {
    std::vector<Stored> rows; // in the order of the file; hashes fit, signatures were not looked at
    std::vector<CarriedFile> files;
};
struct FileError {
    std::uint64_t line{}; // counted from 1; a photograph's bytes count as none
    std::string expected;
};
[[nodiscard]] tl::expected<Carried, FileError> readEntries(std::istream& in);

} // namespace brimful::ledger
