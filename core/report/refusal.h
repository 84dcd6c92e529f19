// Why a use case did not do what was asked: a closed code and its data. app/text words it.
#pragma once

#include "core/rules/standing.h"

#include <cstdint>
#include <string>
#include <vector>

namespace brimful::report {

// The exit code of the command line for each answer that is not yes.
enum class Answer : std::uint8_t { No = 1, Input = 2, Damaged = 3, Machine = 4 };

enum class Why : std::uint8_t {
    // the call or its input
    NoYard,
    YardExists,
    FolderNotEmpty,
    NotAYard,
    UnknownVessel,
    NumberTaken,
    BadNumber,
    UnknownStep,
    UnknownFact,
    MissingFact,
    BadFact,
    BadQuantity,
    UnknownChoice,
    UnknownEvent,
    UnknownStop,
    UnknownHoldPoint,
    UnknownPerson,
    UnknownRole,
    UnknownInstrument,
    UnknownReason,
    NameTaken,
    NameEmpty,
    InstrumentTaken,
    WeakPin,
    BadJson,
    BadTime,
    NotAPicture,
    PictureTooLarge,
    PictureUsed,
    NoSuchFile,
    UnknownEntry,
    NotThisVessel,
    NothingToClear,
    NothingToWithdraw,
    BadTag,
    BadCode,
    WritesNeedNow,
    InstrumentMissing,
    UnknownPack,
    PackBroken,
    PackUnproven,
    GrantsMore,
    PackTaken,
    ScenarioBad,
    BadEntries,
    OtherYard,
    BadAsk,
    AskTaken,
    // people
    NeedsPerson,
    NeedsPin,
    NeedsTwo,
    NeedsAnswer,
    WrongPin,
    PinWait,
    PinLocked,
    NoKeyHere,
    RoleNotHeld,
    SamePerson,
    KeySuspect,
    BadSheet,
    // the decision
    Held,
    AnswerDiffers,
    TagNotNewest,
    HeadMoved,
    TooLate,
    // time
    ClockUnconfirmed,
    ClockWentBack,
    ScriptedClock,
    // the record
    Damaged,
    ForgedEntries,
    // the machine
    DiskFull,
    NoPermission,
    ReadOnly,
    Busy,
    NewerYard,
    StorageFault,
    OtherMachine,
    DeviceNotEnrolled,
    TabletRunning,
    InputOutput
};
[[nodiscard]] Answer answerOf(Why);
[[nodiscard]] std::string_view whyWord(Why); // "unknown-vessel": the `code` of a JSON error

struct Refusal {
    Why why;
    std::string path; // "facts.gauge", a file, a person
    std::string expected;
    std::string found;
    std::vector<rules::Blocker> blockers; // of Held
    canon::Json example; // of GrantsMore: a history that would be granted and was not
    int left{}; // tries left, seconds to wait
};

} // namespace brimful::report
