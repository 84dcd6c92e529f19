// What a supervisor may ask in person, from the record of the whole yard. Nothing is held, blocked or marked by it, and none of it
// says that anybody did wrong: each is a question, with the entries and the numbers that it rests on.
//
// Asked only of records that count: signed, confirmed where two sign, not withdrawn, in an unforked feed. Times are taken by the boot
// clock, between entries of one boot of one tablet; between two tablets or two boots nothing is measured, so nothing is asked.
//
//  sooner-than-it-takes  A card was signed sooner after what must come before its work than a tenth of what the pack says that it takes
//                        (`takes`, with its source). What must come before: an event that begins it (`begun_by`), the first release
//                        of a hold point that its act lies behind, the first record of each step that it needs since that was voided.
//                        A smaller vessel takes less in proportion (`takes_for`); of one whose size is not known it is not asked.
//                        Two cards that one hand signs one after the other measure nothing: a fill runs by itself meanwhile.
//  sooner-than-it-says   The same against half of a time that the card itself tells ("soaked 35 min"): cards may be signed late.
//  signed-together       Four cards by one person on one tablet within two minutes. Honest when written down from paper.
//  just-before-release   All cards that lead to a release, four or more, in a tenth of what all but the first of them take together.
//  same-value            Of one person three times running, on three vessels, the same value of a quantity that nature varies
//                        (`varies`). Not asked: gas, oxygen (the loader refuses them), zero (levelled, nothing there), and the very
//                        value that the card asks for ("as long as it must").
//  same-pair             The last 20 releases were given by the same two people, though somebody else held one of the roles all along.
//  nothing-found         On the last 30 vessels no card was outside its acceptance, none said "cannot", no stop was raised, no release
//                        was taken back.
// The kinds of signal are a proposal, and so is every number here; all are to be confirmed by whoever supervises such work.
#pragma once

#include "core/evidence/fold.h"

#include <functional>

namespace brimful::report {

inline constexpr std::int64_t kTimesFaster = 10; // than the pack says
inline constexpr std::int64_t kTimesLessThanSaid = 2;
inline constexpr std::size_t kCardsTogether = 4;
inline constexpr std::int64_t kCardsTogetherMs = 2 * 60'000;
inline constexpr std::size_t kSameValues = 3;
inline constexpr std::size_t kReleasesByTwo = 20;
inline constexpr std::size_t kVesselsWithoutFinding = 30;

// What is needed of one entry; the rest of it is let go, so that a large record fits into memory.
struct Noted {
    Hash hash;
    ledger::Kind kind{};
    std::optional<VesselId> vessel; // of an admission its own
    std::string number; // of an admission
    double capacity_m3{}; // of an admission: as its vessel was believed to be; 0 not known
    std::optional<PersonId> person;
    DeviceId device;
    std::uint64_t seq{};
    ledger::Moment at;
    bool beside{};
    rules::Index what{rules::kNone}; // step, hold point or event, by kind
    bool cannot{};
    std::optional<Hash> names; // what it confirms or withdraws
    struct Told {
        rules::Index fact{};
        std::int64_t count{};
        std::string typed;
    };
    std::vector<Told> told; // its quantities that vary or are times; of no register
};
[[nodiscard]] Noted noted(const rules::Pack&, const ledger::Line&);

struct Question {
    // Closed; its word (questionWord) is what scripts rely on.
    enum class What : std::uint8_t {
        SoonerThanItTakes,
        SoonerThanItSays,
        SignedTogether,
        JustBeforeRelease,
        SameValue,
        SamePair,
        NothingFound
    };
    What what{};
    std::int64_t at_ms{}; // of the newest entry: true time where its boot was confirmed, else the wall's
    std::vector<std::string> vessels; // numbers
    std::vector<Hash> entries; // that it rests on, oldest first
    std::vector<std::string> persons; // names, of whom it may be asked
    std::vector<rules::Index> steps; // whose cards
    rules::Index hold_point{rules::kNone}; // of the release
    // What the work came after: one of these.
    rules::Index after_event{rules::kNone};
    rules::Index after_step{rules::kNone};
    rules::Index after_release{rules::kNone};
    std::int64_t took_ms{};
    std::int64_t takes_ms{}; // by the pack, or as the card says
    rules::Index fact{rules::kNone};
    std::string value; // of the fact, as it was typed
    std::size_t count{}; // cards, values, releases or vessels
};
[[nodiscard]] std::string_view questionWord(Question::What);

struct Asked {
    std::vector<Question> questions; // newest first
    std::size_t cards{}; // that were looked at: those that count
    std::size_t releases{};
    std::size_t vessels{};
};

// Pure. In whatever order the entries come the answer is the same. `failed`: whether a record of this vessel was ever outside its
// acceptance; asked only of vessels of which nothing else was found, when there are enough of them.
[[nodiscard]] Asked questions(
    const rules::Pack&, const ledger::YardState&, std::vector<Noted>, const std::function<bool(const VesselId&)>& failed);

} // namespace brimful::report
