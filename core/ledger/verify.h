// The verifier does not trust the writer: it recomputes everything from the stored bytes, by its own path.
#pragma once

#include "core/ledger/body.h"
#include "core/ledger/ledger.h"

#include <map>

namespace brimful::ledger {

enum class Flaw : std::uint8_t {
    Form, // not canonical, or not an entry
    HashDiffers,
    ColumnDiffers, // an index column is not what the body says
    DeviceUnknown,
    DeviceSignature,
    PersonUnknown,
    PersonSignature,
    PersonMissing, // a kind that needs a person stands without
    RoleNotHeld, // the role was not held at that moment
    FeedGap, // a device's entries do not follow each other
    FeedFork, // one seq twice: a copied or set-back tablet; until an authoriser joins the branches
    ParentUnknown,
    ParentLater, // an entry names a parent that did not exist yet
    ConfirmsNothing, // a confirmation whose entry is missing, of the same person, or too late
    AttachmentMissing,
    AttachmentDiffers,
    AnchorAhead, // device/ knows an entry that the ledger does not: the tail was cut
    TypedDiffers, // a recorded quantity whose text does not give its count
    Unreadable // the store itself says that it is damaged
};

struct Finding {
    Hash entry; // zero when no entry can be named
    std::uint64_t row{}; // 1-based position in the feed order as read; 0 when none
    Flaw flaw;
    std::optional<VesselId> vessel;
};

struct Verification {
    std::uint64_t entries{};
    std::uint64_t signatures{};
    std::vector<Finding> findings; // first bad first, then every consequence
    std::map<VesselId, std::vector<Hash>> heads;
    std::map<VesselId, std::uint64_t> rows; // of each vessel's column; zero: the yard's, admitting entries among them
    std::map<VesselId, std::uint64_t> newest; // the last of those rows
    std::map<DeviceId, std::vector<Hash>> forks; // of a feed that forks and that nobody joined: the newest entry of each branch
    bool copied{}; // a folder that could not be written was copied first
    [[nodiscard]] bool intact() const { return findings.empty(); }
};

struct VerifyOptions {
    std::filesystem::path evidence; // "" = attachments are not looked at
    std::vector<Hash> anchors; // entries that device/ remembers: its own newest, and the newest of each other device
    bool signatures{true}; // false: chain, form, hashes, roles only
    // The chain of all, but signatures, files and typed quantities of this vessel and the yard alone; zero: of the yard alone, as at
    // each start. A vessel's own are asked when somebody looks at it.
    std::optional<VesselId> look_at;
    std::function<void(const Body&)> each; // told of every body that reads
    bool indexes{true}; // SQLite's own check of every page and index
    std::function<bool(std::uint64_t)> progress; // called with entries done; false cancels
    // Recorded quantities: does `typed` give `count` of `unit`? Passed in, because this room knows no units.
    std::function<bool(const std::string& typed, const std::string& unit, std::int64_t count)> typed_agrees;
};

[[nodiscard]] tl::expected<Verification, StoreError> verify(const std::filesystem::path& ledger_file, const VerifyOptions&);
// The same of rows that stand in no ledger yet.
[[nodiscard]] Verification verifyRows(std::span<const Stored> rows, const VerifyOptions&);
// The same of a ledger that is open, as if these rows, which it does not have, followed its own. Signatures are looked at in
// them alone; findings of the ledger's own rows are left out. `added` counts from the ledger's newest row.
[[nodiscard]] tl::expected<Verification, StoreError> verifyWith(const Ledger&, std::span<const Stored> added, const VerifyOptions&);

} // namespace brimful::ledger
