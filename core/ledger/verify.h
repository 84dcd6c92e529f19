// The verifier does not trust the writer: it recomputes everything from the stored bytes, by its own path.
#pragma once

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
    FeedFork, // one seq twice
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
    bool copied{}; // a folder that could not be written was copied first
    [[nodiscard]] bool intact() const { return findings.empty(); }
};

struct VerifyOptions {
    std::filesystem::path evidence; // "" = attachments are not looked at
    std::optional<Hash> anchor; // head that device/ remembers
    bool signatures{true}; // false: chain, form, hashes, roles only, as at each start; signatures are asked at each decision
    bool indexes{true}; // SQLite's own check of every page and index
    std::function<bool(std::uint64_t)> progress; // called with entries done; false cancels
    // Recorded quantities: does `typed` give `count` of `unit`? Passed in, because this room knows no units.
    std::function<bool(const std::string& typed, const std::string& unit, std::int64_t count)> typed_agrees;
};

[[nodiscard]] tl::expected<Verification, StoreError> verify(const std::filesystem::path& ledger_file, const VerifyOptions&);

} // namespace brimful::ledger
