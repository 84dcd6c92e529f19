// What an open yard keeps in memory. Private to this room: the ledger is the truth, all of this can be read again.
#pragma once

#include "core/ledger/verify.h"
#include "core/rules/law.h"
#include "core/yard/yard.h"

#include <list>
#include <set>
#include <unordered_map>

namespace brimful::yard {

inline constexpr std::string_view kWitness = "witness"; // setting: the newest entries of other devices, in hex, a space between
inline constexpr std::int64_t kSecondWithinMs = 10LL * 60 * 1000; // a first signature waits ten minutes for the second
inline constexpr std::string_view kAuthoriser = "authoriser"; // the role that admits people, packs and devices

// Everything that a signature needs, unlocked for one act.
struct Unlocked {
    PersonId person;
    std::string name;
    std::string role;
    people::SigningKey* key{};
};

// One entry to be written, before it has its place in the feed.
struct Draft {
    std::optional<VesselId> vessel;
    ledger::Kind kind{ledger::Kind::Event};
    canon::Json payload{canon::Json::object()};
    std::vector<Hash> attachments;
    std::optional<std::int64_t> tag;
    std::vector<Hash> extra_parents;
    const Unlocked* signer{};
    bool confirms_previous{}; // a `confirmed` entry for the draft before it
};

// A photograph of a record that is being made.
struct Shot {
    std::string fact; // as the files of a request are called
    std::optional<report::Photograph> seen; // absent: nobody looked
};

struct VesselRecord {
    VesselId id;
    std::string number;
    Hash admitted;
};

struct Yard::State {
    State(std::filesystem::path where, const ledger::Clock& its_clock, ledger::Ledger its_ledger)
        : folder(std::move(where))
        , clock(its_clock)
        , ledger(std::move(its_ledger))
    {
    }

    std::filesystem::path folder;
    const ledger::Clock& clock;
    ledger::Ledger ledger;
    Access access{Access::ReadOnly};
    std::optional<people::Device> device;
    report::Why no_device{report::Why::NoKeyHere};

    std::vector<ledger::Line> yard_lines;
    std::vector<std::uint64_t> yard_rows;
    ledger::YardState yard;
    std::vector<VesselRecord> vessels;
    std::shared_ptr<const rules::Pack> pack; // in force now
    bool pack_in_force{}; // false: what was adopted is not at hand, what this program carries stands in and holds everything
    std::map<Hash, std::shared_ptr<const rules::Pack>> packs; // by the adopting entry; kept as long as the yard is open
    std::shared_ptr<const gas::SubstanceTable> substances;
    figure::Reference reference;
    evidence::Memo memo;

    // Lines of the vessels that were looked at last, by hash.
    struct Decoded {
        VesselId vessel;
        std::unordered_map<Hash, ledger::Line> lines;
    };
    std::list<Decoded> decoded; // the last one first
    [[nodiscard]] std::unordered_map<Hash, ledger::Line>& decodedOf(const VesselId&);
    std::set<Hash> verified; // signatures checked in this process
    std::set<VesselId> damaged;
    bool all_damaged{};
    std::vector<Hash> lost; // entries that this machine remembers and the record does not have
    std::map<DeviceId, std::vector<Hash>> forks; // feeds that fork: the newest entry of each branch
    std::map<VesselId, std::uint64_t> rows_of; // as the whole file was read; zero: the yard's. An index that lies gives fewer
    std::map<PersonId, std::int64_t> last_signed; // wall time of each person's newest signature
    std::map<VesselId, std::uint64_t> newest_row; // row of each vessel's newest entry when the whole file was read
    std::map<VesselId, ledger::Moment> named_exclusive; // newest record of a step that names a person who may watch one vessel only
    std::map<Hash, std::set<VesselId>> carried_by; // vessels whose records carry a file, withdrawn ones too
    struct Looked {
        ledger::Look look;
        Hash file;
        VesselId vessel; // zero: of the yard
        std::string step;
        std::int64_t at_ms{}; // wall
    };
    std::vector<Looked> looks; // of the photographs of all records, withdrawn ones too
    std::optional<report::Refusal> fault;
    static constexpr std::int64_t kUnread = -2; // no version of any ledger, nor what one says that cannot be asked
    std::int64_t data_version{kUnread}; // of the ledger when it was last read
    Pictures pictures;
    std::unordered_map<PersonId, people::SigningKey> played_keys; // play yards unlock each person once

    // open.cpp
    Outcome<void> refresh(); // all anew; where that fails the next look tries again
    Outcome<void> readAll(); // load, and the chain of all
    Outcome<void> load();
    Outcome<ledger::Verification> verify(
        const std::optional<VesselId>& look_at, bool indexes, const std::function<bool(std::uint64_t)>& progress = {}) const;
    [[nodiscard]] ledger::VerifyOptions verifyOptions() const;
    void findDamage(const ledger::Verification&);
    void remember(); // in device/: the newest entries that are here

    // Who watches over a live release or over what was hot, by vessel; refreshed at every look.
    struct Watch {
        std::int64_t until_ms{};
        std::optional<PersonId> person;
        bool operator==(const Watch&) const = default;
    };
    std::map<VesselId, Watch> watches;
    bool watches_known{};

    // own_answer.cpp
    [[nodiscard]] bool waitsHere(const ledger::Entry& first) const; // this device may still write its second signature

    // board.cpp
    struct Seen {
        std::shared_ptr<const report::VesselView> view;
        std::int64_t until_ms{}; // until then time alone changes nothing of it
    };
    std::map<VesselId, Seen> seen; // as each was last looked at; forgotten when what it rests on changes
    std::tuple<ledger::ClockState, BootId, bool> seen_with; // the clock, and whether there was a fault
    [[nodiscard]] Outcome<std::shared_ptr<const report::VesselView>> look(const VesselRecord&, std::optional<std::int64_t> as_if_ms);
    std::shared_ptr<const report::VesselView> lookAt(const VesselRecord&, const evidence::Folded&, std::optional<std::int64_t> as_if_ms);
    [[nodiscard]] const Seen* fresh(const VesselRecord&) const;
    [[nodiscard]] std::vector<VesselRecord> unread() const; // not fresh; the newest written first
    void forgetIfUnsure();
    Outcome<void> forgetWhatChanged();

    // history.cpp
    [[nodiscard]] Outcome<std::vector<ledger::Line>> history(const VesselId&);
    [[nodiscard]] Outcome<VesselRecord> find(const std::string& number) const;
    [[nodiscard]] evidence::Surroundings surroundings(const VesselId&, const std::vector<ledger::Line>&, bool in_force);
    void foundDamaged(const VesselId&);
    void learnWatches();
    void keepWatch(const VesselId&, const evidence::Folded&);
    [[nodiscard]] ledger::Moment moment(std::optional<std::int64_t> as_if_ms, ledger::YardState& scratch) const;
    [[nodiscard]] Outcome<evidence::Folded> fold(
        const VesselId&, std::optional<std::int64_t> as_if_ms, const std::vector<ledger::Line>& imagined = {});

    // packs.cpp
    struct InForce {
        std::shared_ptr<const rules::Pack> pack;
        bool adopted{};
    };
    [[nodiscard]] std::optional<rules::PackSource> sourceOf(const ledger::AdoptedPart&) const;
    [[nodiscard]] std::optional<rules::Ruling> rulingOf(const ledger::AdoptedPack&) const;
    Outcome<InForce> packOf(const ledger::AdoptedPack*); // null: nothing was adopted
    [[nodiscard]] InForce packAt(std::optional<std::int64_t> as_if_ms);

    // signing.cpp
    [[nodiscard]] Outcome<void> writable() const;
    [[nodiscard]] Outcome<void> timeKnown() const;
    [[nodiscard]] Outcome<Unlocked> unlock(const Signing&, std::span<const std::string> roles, std::vector<people::SigningKey>& keep);
    [[nodiscard]] std::vector<Hash> headsOf(const std::vector<ledger::Stored>& rows, const std::optional<VesselId>&);
    [[nodiscard]] Outcome<std::vector<ledger::Line>> imagine(std::span<const Draft>, const std::optional<VesselId>&);
    [[nodiscard]] bool verifyRow(const ledger::Stored&, const ledger::Entry&);
    enum class Judged : std::uint8_t { No, Yes }; // Yes: it rests on a judgement of all that was read; refused if more was written
    Outcome<std::vector<Hash>> append(std::span<const Draft>, std::optional<Hash> only_on_head = std::nullopt, Judged = Judged::No);
    [[nodiscard]] report::Refusal refuse(const ledger::StoreError&);
    [[nodiscard]] std::int64_t nowMs() const; // true time as far as confirmed, else the wall

    // own_answer.cpp: as it is kept, null where nothing is asked
    [[nodiscard]] Outcome<canon::Json> ownAnswer(
        const std::optional<evidence::AskedOfSecond>&, const canon::Json& values, const canon::Json& given); // typed or recorded

    // facts.cpp
    struct Facts {
        canon::Json payload{canon::Json::object()};
        std::vector<Hash> attachments;
        std::map<Hash, Shot> shots; // the photographs among them
    };
    [[nodiscard]] Outcome<Facts> factsOf(const rules::Step&, const canon::Json& given,
        const std::map<std::string, std::filesystem::path>& files, const std::string& root, bool complete);
    [[nodiscard]] Outcome<canon::Json> valueOf(
        const rules::Fact&, const canon::Json& given, const std::string& path); // of a choice or number
    [[nodiscard]] Outcome<std::set<std::optional<VesselId>>> vesselsNaming(const Hash& file) const; // none: the yard's own entry
    struct Bytes {
        std::string bytes;
        std::string_view extension; // ".jpg", lasts
        std::optional<report::Photograph> seen; // its own bytes moved out
    };
    [[nodiscard]] Outcome<Bytes> bytesOf(const std::filesystem::path& file, bool picture, const std::string& path) const;
    [[nodiscard]] Outcome<Hash> keepBytes(std::string_view bytes, std::string_view extension) const;

    // photographs.cpp
    void learnLooks(const canon::Json& payload, const VesselId&, std::int64_t wall_ms); // of a record
    [[nodiscard]] std::optional<Alike> alikeTo(const ledger::Look&, const VesselId&, const std::string& step) const;
};

[[nodiscard]] inline tl::unexpected<report::Refusal> refused(
    report::Why why, std::string path = {}, std::string expected = {}, std::string found = {})
{
    report::Refusal refusal;
    refusal.why = why;
    refusal.path = std::move(path);
    refusal.expected = std::move(expected);
    refusal.found = std::move(found);
    return tl::unexpected(std::move(refusal));
}

// What the record says of these photographs of one step.
[[nodiscard]] ledger::PhotoNotes notesOf(Yard&, const Yard::State&, const RecordRequest&, const VesselId&, const std::map<Hash, Shot>&);
// The entry that adopts these packs, with their files kept as attachments.
[[nodiscard]] Outcome<Draft> adoption(const Yard::State&, const rules::Ruling&, const rules::Pack&, const std::string& law);
[[nodiscard]] report::Refusal refusalOf(const people::DeviceError&);
[[nodiscard]] report::Refusal refusalOf(const ledger::StoreError&, const std::filesystem::path& folder);
[[nodiscard]] report::Why whyOfErrno(int code);
[[nodiscard]] bool typedAgrees(const std::string& typed, const std::string& unit, std::int64_t count); // does the text give the count?
// Written, synced, renamed: 0, or errno.
[[nodiscard]] int writeDurably(const std::filesystem::path& file, std::string_view bytes);
[[nodiscard]] std::string machineId();
[[nodiscard]] std::filesystem::path deviceFolder(const std::filesystem::path& yard_folder); // BRIMFUL_DEVICE may put it elsewhere
[[nodiscard]] bool namesExclusive(const rules::Pack&, const rules::Step&); // somebody who may be named so on one vessel only
[[nodiscard]] std::vector<std::string> namesOf(const rules::Pack&, std::span<const rules::Index> roles);

} // namespace brimful::yard
