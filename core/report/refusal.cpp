#include "core/report/refusal.h"

#include <array>

namespace brimful::report {

namespace {

struct Row {
    Why why;
    Answer answer;
    std::string_view word;
};

constexpr std::array kRows{
    Row{Why::NoYard, Answer::Input, "no-yard"},
    Row{Why::YardExists, Answer::Input, "yard-exists"},
    Row{Why::FolderNotEmpty, Answer::Input, "folder-not-empty"},
    Row{Why::NotAYard, Answer::Input, "not-a-yard"},
    Row{Why::UnknownVessel, Answer::Input, "unknown-vessel"},
    Row{Why::NumberTaken, Answer::Input, "number-taken"},
    Row{Why::BadNumber, Answer::Input, "bad-number"},
    Row{Why::UnknownStep, Answer::Input, "unknown-step"},
    Row{Why::UnknownFact, Answer::Input, "unknown-fact"},
    Row{Why::MissingFact, Answer::Input, "missing-fact"},
    Row{Why::BadFact, Answer::Input, "bad-fact"},
    Row{Why::BadQuantity, Answer::Input, "bad-quantity"},
    Row{Why::UnknownChoice, Answer::Input, "unknown-choice"},
    Row{Why::UnknownEvent, Answer::Input, "unknown-event"},
    Row{Why::UnknownStop, Answer::Input, "unknown-stop"},
    Row{Why::UnknownHoldPoint, Answer::Input, "unknown-hold-point"},
    Row{Why::UnknownPerson, Answer::Input, "unknown-person"},
    Row{Why::UnknownRole, Answer::Input, "unknown-role"},
    Row{Why::UnknownInstrument, Answer::Input, "unknown-instrument"},
    Row{Why::UnknownReason, Answer::Input, "unknown-reason"},
    Row{Why::NameTaken, Answer::Input, "name-taken"},
    Row{Why::NameEmpty, Answer::Input, "name-empty"},
    Row{Why::InstrumentTaken, Answer::Input, "instrument-taken"},
    Row{Why::WeakPin, Answer::Input, "weak-pin"},
    Row{Why::BadJson, Answer::Input, "bad-json"},
    Row{Why::BadTime, Answer::Input, "bad-time"},
    Row{Why::NotAPicture, Answer::Input, "not-a-picture"},
    Row{Why::PictureTooLarge, Answer::Input, "picture-too-large"},
    Row{Why::PictureUsed, Answer::Input, "picture-used"},
    Row{Why::NoSuchFile, Answer::Input, "no-such-file"},
    Row{Why::UnknownEntry, Answer::Input, "unknown-entry"},
    Row{Why::NotThisVessel, Answer::Input, "not-this-vessel"},
    Row{Why::NothingToClear, Answer::Input, "nothing-to-clear"},
    Row{Why::NothingToWithdraw, Answer::Input, "nothing-to-withdraw"},
    Row{Why::BadTag, Answer::No, "bad-tag"},
    Row{Why::BadCode, Answer::Input, "bad-code"},
    Row{Why::WritesNeedNow, Answer::Input, "writes-need-now"},
    Row{Why::InstrumentMissing, Answer::Input, "instrument-missing"},
    Row{Why::UnknownPack, Answer::Input, "unknown-pack"},
    Row{Why::PackBroken, Answer::Input, "pack-broken"},
    Row{Why::PackUnproven, Answer::No, "pack-unproven"},
    Row{Why::GrantsMore, Answer::No, "grants-more"},
    Row{Why::PackTaken, Answer::Input, "pack-taken"},
    Row{Why::ScenarioBad, Answer::Input, "scenario-bad"},
    Row{Why::BadEntries, Answer::Input, "bad-entries"},
    Row{Why::OtherYard, Answer::Input, "other-yard"},
    Row{Why::BadAsk, Answer::Input, "bad-ask"},
    Row{Why::AskTaken, Answer::Input, "ask-taken"},
    Row{Why::NeedsPerson, Answer::Input, "needs-person"},
    Row{Why::NeedsPin, Answer::Input, "needs-pin"},
    Row{Why::NeedsTwo, Answer::No, "needs-two"},
    Row{Why::NeedsAnswer, Answer::Input, "needs-answer"},
    Row{Why::WrongPin, Answer::No, "wrong-pin"},
    Row{Why::PinWait, Answer::No, "pin-wait"},
    Row{Why::PinLocked, Answer::No, "pin-locked"},
    Row{Why::NoKeyHere, Answer::No, "no-key-here"},
    Row{Why::RoleNotHeld, Answer::No, "role-not-held"},
    Row{Why::SamePerson, Answer::No, "same-person"},
    Row{Why::KeySuspect, Answer::No, "key-suspect"},
    Row{Why::BadSheet, Answer::No, "bad-sheet"},
    Row{Why::Held, Answer::No, "held"},
    Row{Why::AnswerDiffers, Answer::No, "answer-differs"},
    Row{Why::TagNotNewest, Answer::No, "tag-not-newest"},
    Row{Why::HeadMoved, Answer::No, "head-moved"},
    Row{Why::TooLate, Answer::No, "too-late"},
    Row{Why::ClockUnconfirmed, Answer::No, "clock-unconfirmed"},
    Row{Why::ClockWentBack, Answer::No, "clock-went-back"},
    Row{Why::ScriptedClock, Answer::Input, "scripted-clock"},
    Row{Why::Damaged, Answer::Damaged, "damaged"},
    Row{Why::ForgedEntries, Answer::Damaged, "forged-entries"},
    Row{Why::DiskFull, Answer::Machine, "disk-full"},
    Row{Why::NoPermission, Answer::Machine, "no-permission"},
    Row{Why::ReadOnly, Answer::Machine, "read-only"},
    Row{Why::Busy, Answer::Machine, "busy"},
    Row{Why::NewerYard, Answer::Machine, "newer-yard"},
    Row{Why::StorageFault, Answer::Machine, "storage-fault"},
    Row{Why::OtherMachine, Answer::Machine, "other-machine"},
    Row{Why::DeviceNotEnrolled, Answer::Machine, "device-not-enrolled"},
    Row{Why::TabletRunning, Answer::Machine, "tablet-running"},
    Row{Why::InputOutput, Answer::Machine, "input-output"},
};

constexpr bool inOrder()
{
    for (std::size_t i = 0; i < kRows.size(); ++i) {
        if (static_cast<std::size_t>(kRows[i].why) != i) {
            return false;
        }
    }
    return static_cast<std::size_t>(Why::InputOutput) + 1 == kRows.size();
}
static_assert(inOrder(), "one row for each Why, in its order");

const Row& rowOf(Why why) { return kRows.at(static_cast<std::size_t>(why)); }

} // namespace

Answer answerOf(Why why) { return rowOf(why).answer; }
std::string_view whyWord(Why why) { return rowOf(why).word; }

} // namespace brimful::report
