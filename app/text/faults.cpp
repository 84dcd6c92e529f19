// One sentence for each way in which a call can fail: what, where, what was expected.
#include "app/text/words.h"

#include "app/text/tr.h"

namespace brimful::text {

using report::Why;

namespace {

QString q(const std::string& text) { return QString::fromStdString(text); }

QString needsAnswer(const report::Refusal& what, const rules::Pack* pack)
{
    const rules::Index fact = pack == nullptr ? rules::kNone : pack->fact(what.path);
    const bool quantity = fact != rules::kNone && pack->facts[fact].kind == rules::FactKind::Quantity;
    //: the form of a value; %1 its kind: "pressure", "length"
    const QString form = quantity ? tr("%1 with its unit").arg(q(what.expected)) : q(what.expected);
    //: %1 what the step asks, in the pack's words, %2 its name for a script, %3 the form of the value
    return tr("The second person gives one value himself: %1 (%2). Expected: %3.")
        .arg(fact == rules::kNone ? q(what.path) : factAsk(*pack, fact), q(what.path), form);
}

} // namespace

QString refusal(const report::Refusal& what, const rules::Pack* pack)
{
    const QString path = q(what.path);
    const QString expected = q(what.expected);
    const QString found = q(what.found);
    switch (what.why) {
    case Why::NoYard:
        return tr("No yard in %1.").arg(path);
    case Why::YardExists:
        return tr("There is a yard in %1 already.").arg(path);
    case Why::FolderNotEmpty:
        return tr("%1 is not empty.").arg(path);
    case Why::NotAYard:
        return tr("%1 is not a yard of this program.").arg(path);
    case Why::UnknownVessel:
        return tr("No vessel has the number \"%1\".").arg(found);
    case Why::NumberTaken:
        return tr("The number %1 is taken.").arg(found);
    case Why::BadNumber:
        return tr("\"%1\" is not a vessel's number: 1 to 12 of A-Z, 0-9 and -.").arg(found);
    case Why::UnknownStep:
        return tr("No step is called \"%1\".").arg(found);
    case Why::UnknownFact:
        return expected.isEmpty() ? tr("%1 is not asked here.").arg(path) : tr("%1 is not asked here. Known: %2.").arg(path, expected);
    case Why::MissingFact:
        return tr("%1 is missing.").arg(path);
    case Why::BadFact:
        return tr("%1: expected %2, got \"%3\".").arg(path, expected, found);
    case Why::BadQuantity:
        return tr("%1: \"%3\" is not a quantity of this kind; expected %2 with its unit.").arg(path, expected, found);
    case Why::UnknownChoice:
        return tr("%1: \"%3\" is not among %2.").arg(path, expected, found);
    case Why::UnknownEvent:
        return tr("No event is called \"%1\".").arg(found);
    case Why::UnknownStop:
        return tr("No stop is called \"%1\".").arg(found);
    case Why::UnknownHoldPoint:
        return expected.isEmpty() ? tr("No hold point is called \"%1\".").arg(found)
                                  : tr("No hold point is called \"%1\". Known: %2.").arg(found, expected);
    case Why::UnknownPerson:
        return tr("Nobody here is called \"%1\".").arg(found);
    case Why::UnknownRole:
        return tr("No role is called \"%1\".").arg(found);
    case Why::UnknownInstrument:
        return tr("No %1 here is called \"%2\".").arg(expected.isEmpty() ? tr("instrument") : expected, found);
    case Why::UnknownReason:
        return tr("\"%1\" is not a reason of this step.").arg(found);
    case Why::NameTaken:
        return tr("Somebody is called %1 already.").arg(found);
    case Why::NameEmpty:
        return tr("%1 is empty.").arg(path);
    case Why::InstrumentTaken:
        return tr("An instrument is called %1 already.").arg(found);
    case Why::WeakPin:
        return tr("%1: a PIN has at least six digits, no run, no date, not one digit.").arg(path);
    case Why::BadJson:
        return found.trimmed().isEmpty() ? tr("%1: the JSON ends too early, or a zero byte stands in it.").arg(path)
                                         : tr("%1 cannot be read: %2").arg(path, found);
    case Why::BadTime:
        return tr("%1: \"%2\" is not a time like 2026-06-14T08:00Z, or lies behind.").arg(path, found);
    case Why::NotAPicture:
        return tr("%1: %3 is not a picture; expected %2.").arg(path, expected, found);
    case Why::PictureTooLarge:
        return tr("%1: the file is too large (%3 bytes; at most %2).").arg(path, expected, found);
    case Why::PictureUsed:
        return tr("%1: this picture was used before. Take a new one.").arg(path);
    case Why::NoSuchFile:
        return tr("%1: no file %2.").arg(path, found);
    case Why::UnknownEntry:
        return tr("No entry %1 that this could be about.").arg(path);
    case Why::NotThisVessel:
        return tr("This step is the whole yard's, not a vessel's.");
    case Why::NothingToClear:
        return tr("Nothing to answer: no \"%1\" stands.").arg(found.isEmpty() ? path : found);
    case Why::NothingToWithdraw:
        return tr("Nothing to take back: %1 was not released.").arg(found);
    case Why::BadTag:
        return tr("That is not a genuine tag of this yard.");
    case Why::BadCode:
        return tr("\"%1\" is mistyped: the check character does not fit.").arg(found);
    case Why::WritesNeedNow:
        return tr("A question may be about another time; what writes is always now.");
    case Why::InstrumentMissing:
        return tr("This step needs its %1.").arg(expected);
    case Why::UnknownPack:
        return tr("No rules are called \"%1\".").arg(found);
    case Why::PackBroken:
        return tr("The rules \"%1\" do not load.").arg(path);
    case Why::PackUnproven:
        return tr("The rules \"%1\" are not proven: %2. See brimful rules prove.").arg(path, found);
    case Why::GrantsMore:
        //: %1 the rules' id, %2 a hold point
        return tr("The rules %1 would grant %2, which the rules of that name in force do not. They are not taken on.").arg(path, found);
    case Why::PackTaken:
        return tr("The program has rules called \"%1\" of its own. A shop's rules need another name.").arg(found);
    case Why::ScenarioBad:
        return tr("The scenario cannot be played: %1 %2 %3").arg(path, expected, found);
    case Why::BadEntries:
        return tr("%1 is not a file of entries: expected %2. Nothing was taken in.").arg(path, expected);
    case Why::OtherYard:
        return tr("%1 holds entries of another yard. Nothing was taken in.").arg(path);
    case Why::BadAsk:
        return tr("%1 is not what another tablet asks, or not what it asked: the code does not fit.").arg(path);
    case Why::AskTaken:
        return tr("%1 is in this yard already: %2.").arg(path, found);
    case Why::BadSheet:
        return tr("That is not the recovery sheet of this yard.");
    case Why::ForgedEntries:
        return tr("%1 holds an entry that is not true: %2. Nothing was taken in.").arg(path, found);
    case Why::NeedsPerson:
        return tr("Somebody must sign this.");
    case Why::NeedsPin:
        return tr("%1's PIN is needed.").arg(path);
    case Why::NeedsTwo:
        return tr("Two people must sign. Nobody else here may.");
    case Why::NeedsAnswer:
        return needsAnswer(what, pack);
    case Why::WrongPin:
        return what.left > 0 ? tr("Not %1's PIN. %n tries left.", nullptr, what.left).arg(path) : tr("Not %1's PIN.").arg(path);
    case Why::PinWait:
        return tr("%1 must wait %2 s before trying again.").arg(path).arg(what.left);
    case Why::PinLocked:
        return tr("%1's PIN is locked: an authoriser enrols a new key.").arg(path);
    case Why::NoKeyHere:
        return tr("No key here for %1: this tablet is not enrolled for it.").arg(path);
    case Why::RoleNotHeld:
        return tr("%1 may not sign this. It needs: %2.").arg(path, expected);
    case Why::SamePerson:
        return tr("Two people must sign. %1 is one.").arg(path);
    case Why::KeySuspect:
        return tr("%1's key is suspect.").arg(path);
    case Why::Held: {
        const QString name =
            pack != nullptr && pack->holdPoint(what.path) != rules::kNone ? holdPointName(*pack, pack->holdPoint(what.path)) : path;
        return tr("Held before %1: %n reasons.", nullptr, static_cast<int>(what.blockers.size())).arg(name);
    }
    case Why::AnswerDiffers:
        return tr("Not what the record says. Go and look.");
    case Why::TagNotNewest:
        return tr("That is not the newest tag. Take it off.");
    case Why::HeadMoved:
        return tr("Something was recorded in between. Look again.");
    case Why::TooLate:
        return tr("The first signature is more than ten minutes old or from before a restart. Begin again.");
    case Why::ClockUnconfirmed:
        return tr("The clock is not confirmed since the start. Confirm date and time first.");
    case Why::ClockWentBack:
        return tr("That time lies before the newest entry.");
    case Why::ScriptedClock:
        return tr("A scripted clock is only for yards that play.");
    case Why::Damaged:
        return tr("The record in %1 is damaged.").arg(path);
    case Why::DiskFull:
        return tr("The disk takes no more bytes: %1. Make room. Nothing was half-written.").arg(path);
    case Why::NoPermission:
        return tr("No permission to write in %1.").arg(path);
    case Why::ReadOnly:
        return tr("%1 was opened to read only.").arg(path);
    case Why::Busy:
        return tr("Another program holds %1 for too long.").arg(path);
    case Why::NewerYard:
        return tr("%1 was written by a newer version. Open it there.").arg(path);
    case Why::StorageFault:
        return tr("The record could not be written before. Everything is held until it is opened and checked again.");
    case Why::OtherMachine:
        return tr("%1 belongs to another machine. Enrol this one first.").arg(path);
    case Why::DeviceNotEnrolled:
        return tr("This tablet is not enrolled in the yard yet: it reads and checks, and writes nothing. An authoriser enrols it.");
    case Why::TabletRunning:
        return tr("Another tablet program has this yard open. Close it there.");
    case Why::InputOutput:
        return tr("Reading or writing %1 failed: %2").arg(path, found);
    }
    return {};
}

QString warning(const std::string& word)
{
    struct Row {
        const char* word;
        const char* text;
    };
    static constexpr Row kRows[] = {
        {"no-oxygen-reading", QT_TRANSLATE_NOOP("brimful::text", "No oxygen reading beside it.")},
        {"sensor-starved", QT_TRANSLATE_NOOP("brimful::text", "Below 10 % oxygen the sensor shows nothing and means nothing.")},
        {"oxygen-low", QT_TRANSLATE_NOOP("brimful::text", "Oxygen is low: counts against, never for.")},
        {"oxygen-high", QT_TRANSLATE_NOOP("brimful::text", "Oxygen is above 23 %: enriched.")},
        {"infrared-blind", QT_TRANSLATE_NOOP("brimful::text", "An infrared sensor does not see this gas.")},
        {"heavy-ends", QT_TRANSLATE_NOOP("brimful::text", "Oil and heavy ends hardly show cold: look, wipe and first heat decide.")},
        {"no-response-factor", QT_TRANSLATE_NOOP("brimful::text", "Calibrated on another gas and no factor known.")},
        {"calibrated-on-another-gas",
            QT_TRANSLATE_NOOP("brimful::text", "In nitrogen only a meter set on the gas that it held can be read.")},
        {"unknown-substance", QT_TRANSLATE_NOOP("brimful::text", "Not known what gas it is.")},
        {"over-range", QT_TRANSLATE_NOOP("brimful::text", "Over range: the meter is out until it is checked.")},
        {"negative", QT_TRANSLATE_NOOP("brimful::text", "Below zero: zero it in clean air.")},
        {"held-too-short", QT_TRANSLATE_NOOP("brimful::text", "Read too soon: the hose and the sensor need longer.")},
        {"evenly-mixed-is-the-best-case",
            QT_TRANSLATE_NOOP("brimful::text", "Evenly mixed is the best case: near the liquid less is enough.")},
        {"liquid-density-not-known", QT_TRANSLATE_NOOP("brimful::text", "The liquid's density is not known.")},
        {"no-flammable-limit", QT_TRANSLATE_NOOP("brimful::text", "No flammable limit is published for it.")},
        {"sensor-poison", QT_TRANSLATE_NOOP("brimful::text", "This gas dulls a catalytic sensor: what it shows proves nothing.")},
        {"limit-basis-too-low",
            QT_TRANSLATE_NOOP("brimful::text", "No published limit is that low: check what the meter was set up with.")},
        {"liquid-may-stand-at-zero-pressure",
            QT_TRANSLATE_NOOP("brimful::text", "This cold, liquid can stand in it without any pressure.")},
        {"not-the-strictest-basis",
            QT_TRANSLATE_NOOP("brimful::text", "One document's limits, not the lowest: to compare, never to decide.")},
        {"no-published-limiting-oxygen",
            QT_TRANSLATE_NOOP("brimful::text", "No limiting oxygen is published for it: oxygen cannot show that it is inert.")},
        {"burns-without-air", QT_TRANSLATE_NOOP("brimful::text", "It burns without air: nothing makes it inert.")},
        {"perfect-mixing-assumed",
            QT_TRANSLATE_NOOP("brimful::text", "Perfect mixing was assumed; real mixing takes 2 to 10 times as much.")},
        {"mixing-rule-is-rough-for-this-gas", QT_TRANSLATE_NOOP("brimful::text", "The mixing rule is rough for this gas.")},
        {"limits-widened-for-heat", QT_TRANSLATE_NOOP("brimful::text", "The limits were widened for the heat.")},
        {"temperature-beyond-what-was-measured",
            QT_TRANSLATE_NOOP("brimful::text", "Above 100 degC nothing was measured: carried on in a straight line.")},
        {"limits-in-oxygen-not-known", QT_TRANSLATE_NOOP("brimful::text", "Its limits above the oxygen of air are not known.")},
        {"retired-vessel-has-no-pressure-rating",
            QT_TRANSLATE_NOOP("brimful::text", "A retired vessel has no pressure rating and none for vacuum.")},
        {"unfilled-taken-as-0", QT_TRANSLATE_NOOP("brimful::text", "What the water did not reach was not given and taken as 0.")},
        {"planning-estimate-test-decides", QT_TRANSLATE_NOOP("brimful::text", "A planning estimate. The test decides.")},
        {"target-never-reached", QT_TRANSLATE_NOOP("brimful::text", "This blower never gets there: take the source out.")},
        {"end-point-never-reached", QT_TRANSLATE_NOOP("brimful::text", "Nitrogen never brings it that far down: take the source out.")},
        {"stays-flammable", QT_TRANSLATE_NOOP("brimful::text", "It stays flammable inside.")},
        {"take-the-liquid-out", QT_TRANSLATE_NOOP("brimful::text", "No blower beats liquid that can be seen: take it out.")},
        {"cold-test-passes-hot-metal-does-not",
            QT_TRANSLATE_NOOP("brimful::text", "This cold it gives too little to burn: a cold test passes, hot metal does not.")},
        {"to-compare-never-to-decide",
            QT_TRANSLATE_NOOP("brimful::text", "What published rules say, to compare: the strictest and the yard's own limit decide.")},
        {"larger-than-published-guidance-covers",
            QT_TRANSLATE_NOOP("brimful::text", "2,500 L or more: guidance for small vessels does not cover it.")},
        {"bore-taken-as-0", QT_TRANSLATE_NOOP("brimful::text", "An opening's bore was not given and taken as 0.")},
        {"projection-taken-as-0", QT_TRANSLATE_NOOP("brimful::text", "How far an opening stands in was not given and taken as 0.")},
        {"state-taken-as-open", QT_TRANSLATE_NOOP("brimful::text", "An opening's state was not given and taken as open.")},
        {"no-published-lower-limit", QT_TRANSLATE_NOOP("brimful::text", "No lower limit is published for it.")},
        {"stamp-fits-as-litres", QT_TRANSLATE_NOOP("brimful::text", "The number on the plate would fit as litres.")},
        {"stamp-fits-as-imperial-gallons", QT_TRANSLATE_NOOP("brimful::text", "The number on the plate would fit as imperial gallons.")},
        {"stamp-fits-as-pounds-of-water", QT_TRANSLATE_NOOP("brimful::text", "The number on the plate would fit as pounds of water.")},
        {"stamp-fits-as-an-80-percent-fill", QT_TRANSLATE_NOOP("brimful::text", "The number on the plate would fit as an 80 % fill.")},
        {"estimate-within-30-percent-no-wind", QT_TRANSLATE_NOOP("brimful::text", "An estimate within 30 %, without wind.")},
        {"friction-taken-as-0.027",
            QT_TRANSLATE_NOOP("brimful::text", "The friction factor was not given and taken as 0.027, single-wall steel.")},
        {"pressure-taken-as-101325-Pa",
            QT_TRANSLATE_NOOP("brimful::text", "The air's pressure was not given and taken as that at sea level.")},
        {"cooling-not-counted", QT_TRANSLATE_NOOP("brimful::text", "The gas was taken to keep its heat: a real stack draws less.")},
        {"loss-factor-not-given-no-flow", QT_TRANSLATE_NOOP("brimful::text", "Without a loss factor no flow can be told.")},
        {"rule-of-thumb-is-no-design", QT_TRANSLATE_NOOP("brimful::text", "A rule of thumb says what is usual, not what works.")},
        {"losses-exceed-the-draught", QT_TRANSLATE_NOOP("brimful::text", "The losses exceed the draught: this much does not flow.")},
        {"diameters-taken-as-those-that-touch",
            QT_TRANSLATE_NOOP(
                "brimful::text", "No walls and no fit were given: the diameters were taken as those of the surfaces that touch.")},
        {"equal-diameters-meet-in-a-crease",
            QT_TRANSLATE_NOOP("brimful::text", "Equal diameters meet in a crease: both sides end in a point.")},
        {"heads-meet-at-mid-wall-bevel-both", QT_TRANSLATE_NOOP("brimful::text", "The heads meet at mid-wall: bevel both edges.")},
        {"no-weld-seam-was-given",
            QT_TRANSLATE_NOOP("brimful::text", "No weld seam was given: a cut may run into one. Find the seams first.")},
        {"no-opening-without-a-hinge-to-look-in-first",
            QT_TRANSLATE_NOOP("brimful::text",
                "No opening without a hinge to look in first: add one, or tie the panel and cut its tabs by hand once it is empty, aired "
                "and released.")},
        {"cut-too-near-to-a-seam-pad-or-nozzle",
            QT_TRANSLATE_NOOP("brimful::text", "A cut comes too near to a seam, a pad, a nozzle or another cut.")},
        {"clearances-and-tabs-are-practice-from-memory",
            QT_TRANSLATE_NOOP("brimful::text", "Clearances and tabs are shop practice from memory, no source: set your own.")},
        {"tab-outside-25-to-40-mm", QT_TRANSLATE_NOOP("brimful::text", "Tabs of 25 to 40 mm are usual (memory).")},
        {"strap-laps-less-than-3-8-in-on-a-side",
            QT_TRANSLATE_NOOP("brimful::text", "The strap laps less than 3/8 in on a side (practice).")},
        {"kerf-taken-as-0", QT_TRANSLATE_NOOP("brimful::text", "The kerf was not given and taken as 0.")},
        {"door-needs-a-wider-gap-to-turn",
            QT_TRANSLATE_NOOP("brimful::text", "A door's free edge does not pass its kerf when it turns: it needs a wider gap.")},
        {"something-stands-where-the-door-turns-back",
            QT_TRANSLATE_NOOP("brimful::text", "Something stands where a door lies when it is turned right back.")},
        {"measured-girth-does-not-agree",
            QT_TRANSLATE_NOOP("brimful::text", "The measured girth is off by more than 1/8 in: measure again before marking.")},
        {"baffles-not-modelled", QT_TRANSLATE_NOOP("brimful::text", "Baffles are not in this: each cell may keep a pocket of its own.")},
        {"domes-not-modelled", QT_TRANSLATE_NOOP("brimful::text", "Domes and necks are not in this: gas may stand in them.")},
        {"wall-does-not-fit-the-mass", QT_TRANSLATE_NOOP("brimful::text", "The wall given and what it weighs do not fit.")},
        {"tape-says-another-head", QT_TRANSLATE_NOOP("brimful::text", "The tape over the tips speaks of another head than the one given.")},
        {"tape-fits-no-head", QT_TRANSLATE_NOOP("brimful::text", "The tape over the tips fits no usual head: measure again.")},
        {"vent-taken-as-open", QT_TRANSLATE_NOOP("brimful::text", "An open vent above the water was taken for granted.")},
        {"hose-delay-taken-as-2-s-per-m",
            QT_TRANSLATE_NOOP("brimful::text", "The hose's delay was taken as 2 s a metre (proposal): measure yours.")},
        {"response-taken-as-60-s", QT_TRANSLATE_NOOP("brimful::text", "The meter's own response was taken as 60 s (proposal).")},
        {"round-longer-than-the-set",
            QT_TRANSLATE_NOOP("brimful::text", "The round takes longer than a set may: a shorter hose, or more meters.")},
        {"hollow-places-not-listed", QT_TRANSLATE_NOOP("brimful::text", "Hollow places were not listed: each one is sampled too.")},
        {"shut-openings-not-sampled", QT_TRANSLATE_NOOP("brimful::text", "A shut opening is not sampled: what is behind it is not known.")},
        {"order-for-a-gas-not-known", QT_TRANSLATE_NOOP("brimful::text", "What gas it is, is not known: low first, and all of them.")},
        {"stick-does-not-reach-the-lowest-point",
            QT_TRANSLATE_NOOP("brimful::text", "Some water lies deeper than the stick's foot: dry is not empty.")},
        {"gulps-without-a-vent", QT_TRANSLATE_NOOP("brimful::text", "No vent above the water: it gulps, and no time can be told.")},
        {"water-stops-at-the-outlet", QT_TRANSLATE_NOOP("brimful::text", "It stops at the lowest outlet, above what was asked for.")},
        {"the-last-of-it-takes-for-ever", QT_TRANSLATE_NOOP("brimful::text", "The last of it takes for ever: told to a few mm of head.")},
        {"level-settles", QT_TRANSLATE_NOOP("brimful::text", "The level settles where as much runs in as out.")},
        {"edges-hold-water-back", QT_TRANSLATE_NOOP("brimful::text", "The edges hold the last mm of water back.")},
        {"discharge-taken-from-the-handbook",
            QT_TRANSLATE_NOOP("brimful::text", "How freely it runs was not given: a handbook's value was taken, hence the range.")},
        {"water-density-taken-as-1000-kg-m3",
            QT_TRANSLATE_NOOP("brimful::text", "The water was taken as 1,000 kg/m3, a little too heavy.")},
        {"tips", QT_TRANSLATE_NOOP("brimful::text", "It tips over a support.")},
        {"three-supports-share-by-settlement",
            QT_TRANSLATE_NOOP("brimful::text", "Three supports share as they settle: each must take the most.")},
        {"plain-shell-weighed-without-fittings",
            QT_TRANSLATE_NOOP("brimful::text", "The steel is that of a plain shell, without legs and fittings.")},
        {"needs-stops-against-sliding", QT_TRANSLATE_NOOP("brimful::text", "It can slide along its axis: stops are needed.")},
        {"bears-more-than-the-ground-takes", QT_TRANSLATE_NOOP("brimful::text", "The ground takes less than this, dry; wet, less still.")},
        {"frost-open-it-and-let-it-out", QT_TRANSLATE_NOOP("brimful::text", "Frost is forecast: open it and let the water out.")},
        {"open-below-the-level", QT_TRANSLATE_NOOP("brimful::text", "An opening below the level is open: the water cannot stand there.")},
        {"growth-known-from-20-to-750-degC", QT_TRANSLATE_NOOP("brimful::text", "How steel grows is known from 20 to 750 degC only.")},
        {"hose-holds-the-level", QT_TRANSLATE_NOOP("brimful::text", "Only the running hose holds the level there.")},
        {"water-pushes-the-panel", QT_TRANSLATE_NOOP("brimful::text", "Water pushes the panel out: strap it before the last of the cut.")},
        {"piece-without-two-supports",
            QT_TRANSLATE_NOOP("brimful::text", "A piece has no two supports about its middle: support and chock it first.")},
        {"level-falls-below-the-cut",
            QT_TRANSLATE_NOOP("brimful::text", "The water falls below the cut: from then on it is a dry vessel.")},
        {"water-temperature-outside-0-to-40-degC",
            QT_TRANSLATE_NOOP("brimful::text", "The water's density is known from 0 to 40 degC only.")},
    };
    for (const Row& row : kRows) {
        if (word == row.word) {
            return tr(row.text);
        }
    }
    return q(word);
}

QString figureName(const std::string& name)
{
    if (name == "capacity") {
        return tr("What it holds");
    }
    if (name == "level") {
        return tr("Level and volume");
    }
    if (name == "water-fill") {
        return tr("Water and pocket");
    }
    if (name == "best-pose") {
        return tr("Best pose, empty");
    }
    if (name == "drain") {
        return tr("Running out");
    }
    if (name == "support") {
        return tr("On its supports");
    }
    if (name == "cut-plan") {
        return tr("Cuts and water");
    }
    if (name == "residue") {
        return tr("How little is enough");
    }
    if (name == "mixture") {
        return tr("Limits of a mixture");
    }
    if (name == "dilution-path") {
        return tr("From gas to air");
    }
    if (name == "purge") {
        return tr("Purging");
    }
    if (name == "evaporation") {
        return tr("What a pool gives off");
    }
    if (name == "published-limits") {
        return tr("What published rules let stand");
    }
    if (name == "inerted") {
        return tr("How far nitrogen has brought it");
    }
    if (name == "gas-to-air") {
        return tr("From gas to air, over time");
    }
    if (name == "dip-chart") {
        return tr("Dip stick");
    }
    if (name == "sampling") {
        return tr("Where to sample");
    }
    if (name == "draught") {
        return tr("Stack and draught");
    }
    if (name == "junction") {
        return tr("Joints");
    }
    if (name == "mark-out") {
        return tr("Mark-out");
    }
    if (name == "ventilation") {
        return tr("Blowing air in");
    }
    return name == "meter" ? tr("What the meter means") : q(name);
}

QString figureError(const figure::Error& error)
{
    const QString path = q(error.path);
    const QString expected = q(error.expected);
    const QString found = q(error.found);
    switch (error.code) {
    case figure::Code::Missing:
        return tr("%1 is missing.").arg(path);
    case figure::Code::UnknownKey:
        return tr("%1 is not an input; did you mean %2?").arg(path, expected);
    case figure::Code::WrongType:
        return tr("%1: expected %2, got %3.").arg(path, expected, found);
    case figure::Code::BadQuantity:
        return tr("%1: \"%3\" is not a quantity of this kind; expected %2.").arg(path, expected, found);
    case figure::Code::OutOfRange:
        return tr("%1: %3 is out of range; expected %2.").arg(path, expected, found);
    case figure::Code::UnknownChoice:
        return tr("%1: \"%3\" is not among %2.").arg(path, expected, found);
    case figure::Code::UnknownSubstance:
        return tr("%1: no substance is called \"%2\". Known: %3.").arg(path, found, expected);
    case figure::Code::Impossible:
        return tr("%1: impossible; expected %2, got %3.").arg(path, expected, found);
    case figure::Code::NotConverged:
        return tr("%1: no answer was found.").arg(path);
    case figure::Code::Conflicting:
        return tr("%1: does not go together; expected %2, got %3.").arg(path, expected, found);
    }
    return {};
}

QString loadError(const rules::LoadError& error)
{
    QString what;
    switch (error.fault) {
    case rules::LoadFault::MissingFile:
        what = tr("the file is missing");
        break;
    case rules::LoadFault::Json:
        what = tr("not readable as JSON of our subset");
        break;
    case rules::LoadFault::UnknownKey:
        what = tr("unknown key");
        break;
    case rules::LoadFault::MissingKey:
        what = tr("missing");
        break;
    case rules::LoadFault::WrongType:
        what = tr("wrong type");
        break;
    case rules::LoadFault::UnknownName:
        what = tr("unknown name");
        break;
    case rules::LoadFault::DuplicateId:
        what = tr("stands twice");
        break;
    case rules::LoadFault::BadUnit:
        what = tr("wrong unit");
        break;
    case rules::LoadFault::BadQuantity:
        what = tr("not a quantity");
        break;
    case rules::LoadFault::Depth:
        what = tr("too deep");
        break;
    case rules::LoadFault::TooMany:
        what = tr("too many");
        break;
    case rules::LoadFault::NotTightening:
        what = tr("an overlay may only tighten");
        break;
    case rules::LoadFault::BehindItself:
        what = tr("asks for what lies behind the same hold point");
        break;
    case rules::LoadFault::DeviceCanGrant:
        what = tr("an event without a person could grant");
        break;
    case rules::LoadFault::Cycle:
        what = tr("needs itself");
        break;
    case rules::LoadFault::NoExample:
        what = tr("has no example");
        break;
    case rules::LoadFault::UnknownFigure:
        what = tr("unknown figure");
        break;
    case rules::LoadFault::MissingString:
        what = tr("has no words");
        break;
    case rules::LoadFault::BadVersion:
        what = tr("another version of the figure");
        break;
    case rules::LoadFault::OutOfScope:
        what = tr("rests on a document that does not cover such vessels");
        break;
    }
    QString line = QStringLiteral("%1:%2:%3: %4: %5").arg(q(error.file)).arg(error.line).arg(error.column).arg(q(error.path), what);
    if (!error.found.empty()) {
        line += tr("; found \"%1\"").arg(q(error.found));
    }
    if (!error.expected.empty()) {
        line += tr("; expected %1").arg(q(error.expected));
    }
    if (!error.nearest.empty()) {
        line += tr("; did you mean \"%1\"?").arg(q(error.nearest));
    }
    return line;
}

std::string lawId(rules::Law law)
{
    switch (law) {
    case rules::Law::Claims:
        return "P1";
    case rules::Law::Stops:
        return "P2";
    case rules::Law::Grants:
        return "P4";
    case rules::Law::Reach:
        return "P5";
    case rules::Law::Matters:
        return "P6";
    case rules::Law::Diff:
        return "P7";
    case rules::Law::People:
        return "P8";
    case rules::Law::Ends:
        return "P9";
    case rules::Law::Time:
        return "P10";
    }
    return {};
}

QString finding(const rules::Finding& finding, const rules::Pack& pack)
{
    const QString at = q(finding.hold_point);
    const QString subject = q(finding.subject);
    const QString when = finding.at_giving ? tr("can be given") : tr("can stand");
    QString what;
    switch (finding.law) {
    case rules::Law::Claims:
        what = tr("%1 %2 against the claim %3: %4").arg(at, when, subject, ofPack(pack, "claim." + finding.subject));
        break;
    case rules::Law::Stops:
        what = tr("%1 %2 while the stop %3 is raised").arg(at, when, subject);
        break;
    case rules::Law::Grants:
        what = tr("%1 can never be given").arg(subject);
        break;
    case rules::Law::Reach:
        what = tr("%1 can never be reached").arg(subject);
        break;
    case rules::Law::Matters:
        what = tr("%1: this condition changes nothing that is granted").arg(subject);
        break;
    case rules::Law::Diff:
        what = tr("%1 %2 where the installed pack does not grant it").arg(at, when);
        break;
    case rules::Law::People:
        what = tr("%1 can be given by one person alone").arg(subject);
        break;
    case rules::Law::Ends:
        what = tr("%1 has no end").arg(subject);
        break;
    case rules::Law::Time:
        what = tr("%1: %2 lapses before it can be used").arg(at, subject);
        break;
    }
    QString line = q(lawId(finding.law)) + QStringLiteral(": ");
    if (!finding.place.file.empty()) {
        line += QStringLiteral("%1:%2:%3: ").arg(q(finding.place.file)).arg(finding.place.line).arg(finding.place.column);
    }
    line += what;
    if (!finding.blame.empty()) {
        QStringList all;
        for (const std::string& one : finding.blame) {
            all += q(one);
        }
        line += tr(" (%1)").arg(all.join(QStringLiteral(", ")));
    }
    return line;
}

} // namespace brimful::text
