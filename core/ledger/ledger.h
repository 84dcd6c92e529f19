// ledger.db: append-only, WAL, FULL; durable before append() returns. One sync an entry. No repair, ever.
#pragma once

#include "core/ledger/entry.h"

#include <filesystem>
#include <functional>
#include <memory>
#include <span>

namespace brimful::ledger {

enum class StoreFault : std::uint8_t {
    Missing, // no ledger here
    NotALedger, // a file, but not ours
    Newer, // written by a newer version: open it there
    Unwritable, // no permission or a read-only folder
    Full, // the disk takes no more
    Busy, // another program holds it for more than five seconds
    Damaged, // SQLite says corrupt, or a row does not decode
    Input, // an I/O error while reading or writing
    HeadMoved, // the head that the caller saw is no longer the head
    Latched // an earlier fault holds everything until reopened and verified
};
struct StoreError {
    StoreFault fault;
    std::string path;
    std::string detail; // SQLite's own words, for the log and the details page only
};

enum class Mode : std::uint8_t { ReadWrite, ReadOnly };

class Ledger {
public:
    static tl::expected<Ledger, StoreError> create(const std::filesystem::path& file);
    static tl::expected<Ledger, StoreError> open(const std::filesystem::path& file, Mode);
    Ledger(Ledger&&) noexcept;
    Ledger& operator=(Ledger&&) noexcept;
    ~Ledger(); // never checkpoints: a failed sync at closing would go unseen

    // All in one transaction, one sync. The caller has hashed and signed.
    [[nodiscard]] tl::expected<void, StoreError> append(std::span<const Stored> rows);
    // Runs `make` inside BEGIN IMMEDIATE, so that seq, prev and heads are read where they are used.
    [[nodiscard]] tl::expected<void, StoreError> appendWith(const std::function<tl::expected<std::vector<Stored>, StoreError>()>& make);

    // Entries of other machines, each once, in one transaction: what is here is skipped. One whose place in its device's
    // feed is taken by another (a copied or set-back tablet), or that follows such a one, is kept beside. Gives how many are new.
    [[nodiscard]] tl::expected<std::size_t, StoreError> unite(std::span<const Stored> rows);

    // Every row in order of insertion; stop by returning false.
    [[nodiscard]] tl::expected<void, StoreError> stream(const std::function<bool(const Stored&)>&, std::uint64_t after_row = 0) const;
    [[nodiscard]] tl::expected<std::vector<Stored>, StoreError> ofVessel(const VesselId&) const; // insertion order
    [[nodiscard]] tl::expected<std::vector<Stored>, StoreError> ofYard() const; // entries without vessel
    [[nodiscard]] tl::expected<std::optional<Stored>, StoreError> byHash(const Hash&) const;
    [[nodiscard]] tl::expected<std::uint64_t, StoreError> count() const;
    struct Tip {
        std::uint64_t seq{};
        std::optional<Hash> head;
    };
    [[nodiscard]] tl::expected<Tip, StoreError> tip(const DeviceId&) const;

    // The index columns beside a row, as stored; views that live during the call. A vessel that is NULL is "".
    struct Columns {
        std::string_view device;
        std::string_view vessel;
        std::string_view kind;
        std::int64_t seq{};
    };
    // Every row with its columns, for who compares them with the bodies.
    [[nodiscard]] tl::expected<void, StoreError> streamAll(const std::function<bool(const Stored&, const Columns&)>&) const;

    // SQLite's own check of pages, and of every index against its table: an index that lies would hide rows from ofVessel.
    [[nodiscard]] tl::expected<bool, StoreError> isSound() const;

    [[nodiscard]] tl::expected<void, StoreError> checkpoint(); // by hand; its result is read
    [[nodiscard]] std::int64_t dataVersion() const; // changes when another program wrote
    [[nodiscard]] bool latched() const;
    // The way back from a latched fault: the file is opened anew; it stays latched unless its pages are sound and the newest
    // entry that was acknowledged is there. Whether the chain holds is for verify().
    [[nodiscard]] tl::expected<void, StoreError> reopen();
    [[nodiscard]] bool copied() const; // read from a copy, because its folder cannot be written

private:
    struct State;
    explicit Ledger(std::unique_ptr<State>);
    std::unique_ptr<State> m_state;
};

} // namespace brimful::ledger
