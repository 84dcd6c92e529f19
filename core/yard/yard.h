// The only door to everything that has a yard: admit, record, release, tag, audit. Both programs go through here and
// nowhere else. Every act appends durable entries or changes nothing; every answer is recomputed from entries.
#pragma once

#include "core/evidence/own_answer.h"
#include "core/ledger/clock.h"
#include "core/people/device.h"
#include "core/report/audit.h"
#include "core/report/photograph.h"
#include "core/report/questions.h"
#include "core/report/refusal.h"
#include "core/tag/tag.h"

#include <filesystem>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace brimful::yard {

template <class T> using Outcome = tl::expected<T, report::Refusal>;

// Who signs, as which role ("" = the first of the step's roles that this person holds), with which PIN.
struct Signing {
    std::string person;
    std::string pin;
    std::string role;
};

struct CreateRequest {
    std::string name; // of the yard
    std::string authoriser; // its first person
    std::string pin;
    std::string device{"tablet"};
    bool play{}; // scripted clocks, DEMO on everything
    std::string law; // as in AdoptRequest
};
struct Created {
    std::string recovery_sheet; // text to print and lock away; kept nowhere
};

struct PersonRequest {
    std::string name;
    std::string pin;
    std::vector<std::string> roles;
    std::optional<std::int64_t> until_ms; // competence ends
};

// A further tablet of this yard, asked for on its own machine. PINs are those of that tablet: each has a key there.
struct DeviceRequest {
    std::string name;
    std::vector<Signing> people; // who are enrolled already and will sign on it too
};
struct DeviceShown {
    DeviceId id;
    std::string name;
    bool this_one{};
};

// A first signature that waits on this device for its second.
struct Waiting {
    Hash first;
    std::string person; // who signed, by name
    canon::Json facts; // as recorded
};

// Two people who signed on one device, one within a minute after the other.
struct SignedPair {
    DeviceId device;
    std::string first, second; // names
    Hash first_entry, second_entry;
    std::string vessel; // number of the second entry's vessel; "" the yard
    std::int64_t at_ms{}; // of the second entry, as its clock showed
    std::int64_t apart_ms{};
    bool confirms{}; // the second entry is the second signature of the first
};

// How far the record was read for the questions.
struct ReadToAsk {
    std::vector<report::Noted> entries;
    std::uint64_t row{}; // the last one that was read
    std::uint64_t of{}; // entries that there are
};

struct InstrumentRequest {
    std::string id;
    std::string type; // "gas-meter", "pressure-gauge"
    std::map<std::string, std::string> attributes;
    std::int64_t calibrated_until_ms{};
};

struct CheckRequest {
    std::string instrument;
    std::string shown; // typed quantities
    std::string expected;
    std::string note;
};

// How a photograph came.
struct Taken {
    bool by_camera{}; // by this program's own
    std::string chalk; // the four digits that were asked for beside the part; "" none were
};

// One record of a step. Values: text, integers, arrays of rows; quantities as typed.
struct RecordRequest {
    std::string vessel; // number; "" for a step of the yard
    std::string step;
    canon::Json facts{canon::Json::object()};
    std::string instrument;
    std::string cannot; // reason id: an honest "cannot"
    std::map<std::string, std::filesystem::path> files; // fact key -> photo or document
    canon::Json own_answer{}; // of the second person, where one signs with it: see Yard::confirm
    std::map<std::string, Taken> taken{}; // fact key -> how its photo came; absent: as a file
};

struct ReleaseRequest {
    std::string vessel;
    std::string hold_point;
    canon::Json answers{canon::Json::object()};
    std::string tag; // what was read from the tag: its text or the short code; "" none
    canon::Json own_answer{}; // of the second person, where one accepts with it: see Yard::confirm
};

struct Receipt {
    Hash entry; // the (first) entry written
    std::optional<Hash> confirmed; // the second person's
    bool counts{}; // false: a second signature is missing yet
    bool failing{}; // the record is outside its acceptance and holds the vessel
};

struct PrintedTag {
    std::int64_t serial{};
    tag::Facts facts;
    std::string text; // what the symbol says
    std::string code; // short code
};

struct TagAnswer {
    bool genuine{};
    std::string vessel; // number; "" when not genuine
    bool this_yard{};
    bool newest{};
    bool still_true{};
    bool head_known{};
    bool lost{}; // it was told that this tag is lost
    std::optional<tag::Facts> as_printed;
    std::optional<tag::TagFault> fault;
};

struct Exported {
    std::uint64_t entries{};
    std::uint64_t files{}; // photographs and documents
};
struct Imported {
    std::uint64_t entries{}; // new here
    std::uint64_t known{}; // that were here already
    std::uint64_t files{};
};
struct Backup {
    std::filesystem::path file;
    std::uint64_t entries{};
    std::uint64_t files{};
    std::uint64_t dropped{}; // older ones
};
// Of the names of one yard's backups, those that are neither the newest of one of the last seven days nor of the last four
// weeks in which there is one.
[[nodiscard]] std::vector<std::string> backupsToDrop(std::vector<std::string> names);

// Which packs shall rule. The pack itself is the one that this program carries unless another of its id is given.
struct AdoptRequest {
    std::string law; // a carried overlay's id; "" all of them together; "base" none, in a played yard only
    std::optional<rules::PackSource> pack;
    std::optional<rules::PackSource> shop; // an overlay of the shop's own; absent: the one that is in force stays
    bool without_shop{};
};

struct PersonShown {
    PersonId id;
    std::string name;
    std::vector<ledger::Role> roles;
    bool retired{};
    bool signs_here{}; // has a key on this device
    std::optional<std::int64_t> last_signed_ms;
};
struct InstrumentShown {
    ledger::Instrument instrument;
    bool in_calibration{};
    std::optional<std::int64_t> bumped_ms; // newest passed bump, wall
    bool believed{}; // what it shows now would count: in calibration, bumped lately, not failed since
};

// A photograph made small and bare, before it is hashed and kept, and what is seen in it; nothing when the bytes are no picture.
using Pictures = std::function<std::optional<report::Photograph>(const std::string& bytes)>;

// Two looks that differ in no more bits are alike. Mark: proposal. Measured on 40 drawn scenes: 560 copies (JPEG of quality 15 to 95,
// 20 to 75 % of the size, brighter, darker) differ in 8 at most, 780 pairs of two vessels in two places in 16 at least. But 5 of 160
// pairs of two vessels in one place are as near, and 218 of 240 photographs of one part taken again with the hand moved by 2 % of the
// picture: so it is told and recorded, never refused.
inline constexpr int kAlikeBits = 8;
// A photograph of the same step of the same vessel may look like one that is no older. Mark: proposal.
inline constexpr std::int64_t kSameRoundMs = 30LL * 60 * 1000;

// A photograph of the record that another one looks like; of a record that was not withdrawn.
struct Alike {
    Hash file;
    std::string vessel; // number; "" of the yard
    std::string step;
    std::int64_t at_ms{}; // wall
};

struct Draft;
struct Unlocked;

// Hears how far long work has come, of how much.
using Hears = std::function<void(std::uint64_t done, std::uint64_t of)>;

enum class Access : std::uint8_t { ReadOnly, ReadWrite, Tablet }; // Tablet also takes the tablet's lock

class Yard {
public:
    static Outcome<Created> create(const std::filesystem::path& folder, const CreateRequest&, const ledger::Clock&);
    // The clock must outlive the yard. A question about another time: `as_if` moment, refused with ReadWrite.
    static Outcome<Yard> open(const std::filesystem::path& folder, Access, const ledger::Clock&);
    Yard(Yard&&) noexcept;
    Yard& operator=(Yard&&) noexcept;
    ~Yard();

    // ---- questions
    [[nodiscard]] const ledger::YardState& state() const;
    // In force now, or then. It stays valid as long as the yard is open.
    [[nodiscard]] const rules::Pack& pack(std::optional<std::int64_t> as_if_ms = std::nullopt) const;
    [[nodiscard]] const ledger::AdoptedPack* adopted(std::optional<std::int64_t> as_if_ms = std::nullopt) const; // null: nothing yet
    [[nodiscard]] bool packInForce() const; // false: what was adopted is not at hand; everything is held
    [[nodiscard]] const figure::Reference& reference() const;
    [[nodiscard]] const std::filesystem::path& folder() const;
    [[nodiscard]] ledger::Moment now() const;
    [[nodiscard]] std::int64_t nowMs() const; // true time where this boot was confirmed, else the wall clock
    [[nodiscard]] bool clockConfirmed() const; // in this boot
    [[nodiscard]] std::vector<std::string> vessels() const; // numbers
    [[nodiscard]] Outcome<std::vector<report::BoardRow>> board(
        std::optional<std::int64_t> as_if_ms = std::nullopt, const Hears& progress = {}); // in vessels
    // The same, now, at once. A vessel that was looked at before is not read again while nothing that its row rests on can have
    // changed. Of the others the newest written are read, until vessels of that many entries together are known; the rest stand
    // as held and not read.
    [[nodiscard]] Outcome<std::vector<report::BoardRow>> glance(std::uint64_t entries);
    [[nodiscard]] Outcome<std::optional<report::BoardRow>> readNext(); // one that a glance left out; nothing when all are read
    // As it was last looked at, by recording a step for instance; nullptr when it has to be looked at anew: then ask for the vessel.
    // Damage to files is noticed by asking for the vessel only.
    [[nodiscard]] std::shared_ptr<const report::VesselView> seen(const std::string& number);
    [[nodiscard]] Outcome<report::VesselView> vessel(const std::string& number, std::optional<std::int64_t> as_if_ms = std::nullopt);
    [[nodiscard]] Outcome<evidence::Folded> folded(const std::string& number, std::optional<std::int64_t> as_if_ms = std::nullopt);
    [[nodiscard]] Outcome<report::Audit> audit(
        const std::string& number, const std::string& hold_point, std::optional<std::int64_t> as_if_ms = std::nullopt);
    [[nodiscard]] Outcome<std::vector<report::TrailLine>> trail(const std::string& number);
    [[nodiscard]] Outcome<ledger::Stored> stored(const Hash&) const;
    [[nodiscard]] Outcome<ledger::Verification> verify(const Hears& progress = {}) const; // in entries
    [[nodiscard]] std::vector<PersonShown> people() const;
    [[nodiscard]] std::vector<InstrumentShown> instruments() const;
    // People who may sign this step (or hold point's side) now, and those who may not, with why.
    struct MaySign {
        std::string person;
        std::string role;
        bool may{};
        report::Why why{};
    };
    [[nodiscard]] std::vector<MaySign> signersOf(rules::Index step, bool second) const;
    [[nodiscard]] std::vector<MaySign> signersOfHoldPoint(rules::Index hold_point, bool accepting) const;
    [[nodiscard]] std::vector<MaySign> signersOfStop(rules::Index stop, bool second) const;
    [[nodiscard]] std::vector<MaySign> signersOfRoles(const std::vector<std::string>& roles) const;
    // Which value the second person of this entry must give himself; nothing where nothing can be asked.
    [[nodiscard]] Outcome<std::optional<evidence::AskedOfSecond>> askedOfSecond(const Hash& first) const;
    // The newest record of a step, while confirm() would still take its second signature here; nothing: none waits, or it is a "cannot".
    [[nodiscard]] Outcome<std::optional<Waiting>> waiting(const std::string& vessel, const std::string& step);
    [[nodiscard]] Outcome<void> mayAnswer(const Hash& first, const canon::Json& own_answer); // as confirm() would refuse it
    [[nodiscard]] std::vector<DeviceShown> devices() const;
    [[nodiscard]] Outcome<std::vector<SignedPair>> signedTogether() const; // at most a minute apart, in the order of the record
    // What a supervisor may ask in person, of the whole record.
    [[nodiscard]] Outcome<report::Asked> toAsk(const Hears& progress = {}); // in entries
    // The same bit by bit: so many entries more; the answer when all are read.
    [[nodiscard]] Outcome<std::optional<report::Asked>> readToAsk(ReadToAsk&, std::uint64_t entries);
    [[nodiscard]] Outcome<TagAnswer> readTag(const std::string& text); // writes nothing
    [[nodiscard]] std::optional<report::Refusal> fault() const; // storage fault that latched
    [[nodiscard]] bool changedElsewhere(); // another program wrote; reloads

    // Whether this file would be kept with an entry: NoSuchFile, PictureTooLarge, NotAPicture, PictureUsed. Nothing is kept yet. Of a
    // photograph for a step ("" vessel: of the yard), what it looks like.
    [[nodiscard]] Outcome<std::optional<Alike>> mayKeep(
        const std::filesystem::path& file, bool photograph, const std::string& vessel, const std::string& step) const;

    // ---- acts that give: signed
    Outcome<Receipt> confirmClock(std::int64_t wall_ms, const Signing&);
    Outcome<Receipt> addPerson(const PersonRequest&, const Signing& by);
    Outcome<Receipt> grant(const std::string& person, const std::vector<std::string>& roles, const Signing& by);
    Outcome<Receipt> endRole(const std::string& person, const std::string& role, const Signing& by); // "" = retire
    // Nothing that this key signed counts any more that is not older than `since_ms` (wall; absent: than this entry).
    Outcome<Receipt> suspectKey(const std::string& person, const std::string& why, std::optional<std::int64_t> since_ms, const Signing& by);
    // A new key and PIN on this device for somebody who lost the PIN or whose key is suspected; two others see to it.
    Outcome<Receipt> renewKey(const Signing& person, const Signing& by, const Signing& with);
    // The recovery sheet's only power: an authoriser, new or enrolled before, with a key on this device.
    Outcome<Receipt> recover(const std::string& sheet, const Signing& person);
    // A badge only says on this tablet who is about to sign; it replaces no PIN and no entry is written. "" takes it away.
    Outcome<void> giveBadge(const std::string& person, const std::string& code);
    // A PIN as far as this person typed it: see people::Device::expectPin.
    void expectPin(const std::string& person, std::string_view pin);
    [[nodiscard]] std::string personOfBadge(const std::string& code) const; // a name; "" nobody's
    Outcome<Receipt> addInstrument(const InstrumentRequest&, const Signing& by);
    Outcome<Receipt> checkInstrument(const CheckRequest&, const Signing& by);
    Outcome<Receipt> admit(const canon::Json& request, const Signing& by); // {"number", "vessel": {...}, "note"}
    Outcome<Receipt> record(const RecordRequest&, const Signing& by, const std::optional<Signing>& with = std::nullopt);
    Outcome<Receipt> release(const ReleaseRequest&, const Signing& by, const std::optional<Signing>& with = std::nullopt);
    // The other person of a record, release or clearing, with the value that he gives himself (a value of a RecordRequest; null where
    // nothing is asked): NeedsAnswer, AnswerDiffers or its form before anything is written.
    Outcome<Receipt> confirm(const Hash& first, const Signing& second, const canon::Json& own_answer = {});
    Outcome<Receipt> correct(const Hash& entry, const std::string& why, const Signing& by);
    Outcome<Receipt> clear(const std::string& vessel, const std::string& stop, const std::string& found, const std::string& done,
        const Signing& by, const std::optional<Signing>& with = std::nullopt); // the oldest uncleared of that kind
    // "" accepts every gap that is known, once for the whole yard: all but papers begins again in every vessel.
    Outcome<Receipt> acceptGap(const std::string& vessel, const std::string& why, const Signing& by, const Signing& with);
    // An authoriser has looked at what two tablets wrote apart; "" joins the branches of a copied or set-back tablet's feed.
    Outcome<Receipt> joinFork(const std::string& vessel, const std::string& why, const Signing& by);
    // Proved before it is signed; refused, with an example, where it grants what the packs of the same ids did not.
    Outcome<Receipt> adoptPack(const AdoptRequest&, const Signing& by, const Signing& with);

    // ---- acts that only take away or note: nobody's PIN is needed; a signing may be given
    Outcome<Receipt> event(
        const std::string& vessel, const std::string& event, const std::string& note, const std::optional<Signing>& by = std::nullopt);
    Outcome<Receipt> withdraw(
        const std::string& vessel, const std::string& hold_point, const std::string& why, const std::optional<Signing>& by = std::nullopt);
    Outcome<Receipt> loseTag(
        const std::string& vessel, const std::string& note, const std::optional<Signing>& by = std::nullopt); // the newest
    // A tag was read on a vessel that is not its own: concerns on both.
    Outcome<Receipt> misplacedTag(
        const std::string& text, const std::string& found_on, const std::string& note, const std::optional<Signing>& by = std::nullopt);
    Outcome<PrintedTag> printTag(
        const std::string& vessel, const std::string& label, int offset_minutes, bool again); // again: same entry, same bytes
    Outcome<TagAnswer> recordTag(const std::string& text, const std::string& how, const std::optional<Signing>& by = std::nullopt);

    // ---- carried from machine to machine. "" exports every photograph and document, a number those of that vessel and the
    // yard; the entries go whole, else nobody could see that none was left out.
    [[nodiscard]] Outcome<Exported> exportEntries(const std::filesystem::path& file, const std::string& vessel) const;
    Outcome<Imported> importEntries(const std::filesystem::path& file); // the union, or nothing
    [[nodiscard]] Outcome<Backup> backup(const std::filesystem::path& folder) const; // verified before it gets its name
    static Outcome<Imported> restore(const std::filesystem::path& folder, const std::filesystem::path& file); // where no record is

    // ---- a further tablet: asked for where it will work, enrolled by an authoriser on a tablet that is enrolled; the code says
    // to both that they speak of the same file
    Outcome<std::string> askDevice(const DeviceRequest&, const std::filesystem::path& file); // gives the code
    Outcome<Receipt> addDevice(const std::filesystem::path& file, const std::string& code, const Signing& by);

    // ---- this machine
    void setPictures(Pictures pictures); // without it photographs are kept as they come
    [[nodiscard]] people::Device* device(); // null on a machine that is not enrolled here
    Outcome<void> checkpoint();
    Outcome<void> recoverStorage(); // after a storage fault: opened anew and verified; held as before when it does not fit

    struct State; // in state.h, for this room alone

private:
    explicit Yard(std::unique_ptr<State>);
    Outcome<void> wouldRelease(const VesselId&, rules::Index hold_point, const std::vector<ledger::Line>& imagined);
    TagAnswer answerTo(const tag::Facts&);
    Outcome<canon::Json> tagPayload(const std::string& text);
    [[nodiscard]] Outcome<ledger::Entry> entryOf(const Hash&) const; // that a person signed
    Outcome<Unlocked> somebodyElse(const PersonId& giver, const rules::HoldPoint&) const;
    Outcome<Receipt> writeMaybeSigned(Draft, const std::optional<Signing>&);
    std::unique_ptr<State> m_state;
};

} // namespace brimful::yard
