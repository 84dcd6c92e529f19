// Whole sentences: what holds a vessel, what to do next, what the trail says, what went wrong.
#include "app/text/words.h"

#include "app/text/tr.h"
#include "core/rules/pack.h"

#include <algorithm>
#include <span>

namespace brimful::text {

namespace {

QString rolesOf(const rules::Pack& pack, const std::vector<rules::Index>& roles)
{
    QStringList names;
    for (const rules::Index role : roles) {
        names.push_back(roleName(pack, pack.roles[role]));
    }
    //: between the roles that may do something: "Gas tester or Supervisor"
    return names.join(tr(" or "));
}

const rules::Rule* ruleOf(const rules::Pack& pack, const rules::Blocker& blocker)
{
    const rules::HoldPoint& hold_point = pack.hold_points[blocker.hold_point];
    const std::vector<rules::Rule>& rules = blocker.list == rules::List::AtGiving ? hold_point.at_giving
        : blocker.list == rules::List::Stop                                       ? hold_point.stop
                                                                                  : hold_point.require;
    return blocker.rule < rules.size() ? &rules[blocker.rule] : nullptr;
}

// Several steps would each do: what lifts the rule in general may then speak of another one than the reason does.
bool hasOtherWays(const rules::Pack& pack, const rules::Rule& rule)
{
    std::vector<rules::Index> steps;
    for (const rules::Condition& node : std::span(pack.conditions).subspan(rule.condition, pack.conditions[rule.condition].size)) {
        if (node.op == rules::Op::Passed && std::ranges::find(steps, node.a) == steps.end()) {
            steps.push_back(node.a);
        }
    }
    return steps.size() > 1;
}

QString lapsedWords(const rules::Pack& pack, const report::VesselView& view, rules::Index step, const Reading& reading)
{
    const rules::StepState& state = view.standing.steps[step];
    const std::int64_t life = pack.steps[step].life_ms;
    const std::int64_t age = view.now_ms - state.lapses_ms + life;
    //: %1 is a step's title, %2 an age, %3 how long it counts
    return tr("%1: %2 old. It counts for %3.").arg(stepTitle(pack, step), span(age, reading), span(life, reading));
}

} // namespace

Held heldBy(const rules::Pack& pack, const report::VesselView& view, const rules::Blocker& blocker, const Reading& reading)
{
    Held held;
    if (blocker.list == rules::List::Clock) {
        return {tr("The clock is not confirmed since the start."), tr("Look at a clock, confirm date and time."), tr("Anybody with a PIN."),
            tr("Confirm the clock")};
    }
    if (blocker.list == rules::List::History) {
        return {tr("The record is not whole: entries are missing or changed."),
            tr("Find them, or two people accept the gap and begin again."), tr("Authoriser, with another."), tr("Look at the trail")};
    }
    if (blocker.list == rules::List::Lasts || blocker.list == rules::List::Ended) {
        held.reason = blocker.list == rules::List::Lasts ? tr("The release ran out.") : tr("The release ended.");
        held.remedy = tr("Release %1 again.").arg(holdPointName(pack, blocker.hold_point));
        held.who = rolesOf(pack, pack.hold_points[blocker.hold_point].by);
        held.button = tr("Release again");
        return held;
    }
    const rules::Rule* rule = ruleOf(pack, blocker);
    if (blocker.stop != rules::kNone) {
        const rules::StopKind& stop = pack.stops[blocker.stop];
        held.reason = ofPack(pack, "stop." + stop.id);
        held.remedy =
            stop.refuses ? tr("Only papers and two people can change that.") : tr("Look. Then answer it: what was found, what was done.");
        held.who = rolesOf(pack, stop.cleared_by);
        held.button = stop.refuses ? tr("Look at why") : tr("Answer it");
        return held;
    }
    if (blocker.needs_hold_point != rules::kNone) {
        held.reason = tr("Not yet released: %1.").arg(holdPointName(pack, blocker.needs_hold_point));
        held.remedy = tr("Release that first.");
        held.who = rolesOf(pack, pack.hold_points[blocker.needs_hold_point].by);
        held.button = tr("Release");
        return held;
    }
    const rules::Index step = blocker.lifted_by;
    if (step == rules::kNone) {
        held.reason = rule != nullptr ? ofPack(pack, "rule." + rule->id) : QString();
        held.remedy = lack(blocker.status);
        return held;
    }
    held.who = rolesOf(pack, pack.steps[step].by);
    held.button = stepTitle(pack, step);
    const QString title = stepTitle(pack, step);
    switch (blocker.status) {
    case rules::Lack::Lapsed:
        held.reason = lapsedWords(pack, view, step, reading);
        break;
    case rules::Lack::Missing:
        held.reason = tr("Not done yet: %1.").arg(title);
        break;
    case rules::Lack::WrongValue:
        held.reason = tr("Outside the limit: %1.").arg(title);
        break;
    case rules::Lack::None:
    case rules::Lack::Voided:
    case rules::Lack::Conflict:
    case rules::Lack::WrongPerson:
    case rules::Lack::WrongOrder:
    case rules::Lack::UntrustedClock:
    case rules::Lack::HistoryGap:
    case rules::Lack::Instrument:
    case rules::Lack::Attachment:
    case rules::Lack::Error:
        //: %1 is a step, %2 why it does not count
        held.reason = tr("%1: %2.").arg(title, lack(blocker.status));
        break;
    }
    const std::string lift = rule != nullptr ? "rule." + rule->id + ".lift" : std::string();
    if (rule != nullptr && hasOtherWays(pack, *rule)) {
        //: %1 is a step's title
        held.remedy = tr("Do: %1.").arg(title);
    } else {
        held.remedy = pack.strings.contains(lift) ? ofPack(pack, lift) : stepWhy(pack, step);
    }
    return held;
}

QString nextThing(const rules::Pack& pack, const rules::Next& next)
{
    switch (next.what) {
    case rules::Next::What::Step:
        return stepTitle(pack, next.index);
    case rules::Next::What::Clear:
        return tr("Answer: %1").arg(ofPack(pack, "stop." + pack.stops[next.index].id));
    case rules::Next::What::Release:
        return tr("Release %1").arg(holdPointName(pack, next.index));
    case rules::Next::What::ConfirmClock:
        return tr("Confirm the clock");
    case rules::Next::What::AcceptGap:
        return tr("Find what is missing in the record");
    case rules::Next::What::JoinFork:
        return tr("Two tablets wrote apart: an authoriser joins what they wrote");
    }
    return {};
}

QString sourceLine(const rules::SourceRef& source)
{
    QString mark;
    switch (source.mark) {
    case rules::Mark::Found:
        mark = tr("found");
        break;
    case rules::Mark::Memory:
        mark = tr("from memory, to be confirmed");
        break;
    case rules::Mark::Computed:
        mark = tr("computed");
        break;
    case rules::Mark::Proposal:
        mark = tr("proposal, to be confirmed by a licensed specialist");
        break;
    case rules::Mark::CommonPractice:
        mark = tr("common practice, no source");
        break;
    }
    QString name = QString::fromStdString(source.id);
    if (!source.id.empty()) {
        const auto json = canon::read(rules::shippedFile("reference/sources.json"), canon::Dialect::Subset);
        const canon::Json* all = json ? json->find("sources") : nullptr;
        const canon::Json* one = all == nullptr ? nullptr : all->find(source.id);
        if (one != nullptr) {
            name = QString::fromStdString(std::string(one->textOf("title")));
        }
    }
    QStringList parts;
    if (!name.isEmpty()) {
        parts.push_back(name);
    }
    if (!source.place.empty()) {
        parts.push_back(QString::fromStdString(source.place));
    }
    return parts.isEmpty() ? mark : QStringLiteral("%1 (%2)").arg(parts.join(QStringLiteral(", ")), mark);
}

QString lawName(const std::string& law)
{
    if (law.empty()) {
        return tr("none chosen: all of them together, the strictest rules");
    }
    if (law == rules::kCarriedPack) {
        return tr("none: the base rules alone");
    }
    if (law == "us") {
        return tr("United States");
    }
    if (law == "uk") {
        return tr("United Kingdom");
    }
    if (law == "eu") {
        return tr("European Union");
    }
    if (law == "au") {
        return tr("Australia");
    }
    if (law == "ca") {
        return tr("Canada");
    }
    return QString::fromStdString(law);
}

Tightened tightened(const rules::Tightening& one, const rules::Pack& pack, const Reading& reading)
{
    using What = rules::Tightening::What;
    Tightened out;
    QStringList sources;
    for (const rules::SourceRef& source : one.sources) {
        sources.push_back(sourceLine(source));
    }
    out.source = sources.join(QStringLiteral("; "));
    switch (one.what) {
    case What::Parameter:
        out.what = ofPack(pack, "parameter." + one.id);
        out.asks = one.tighter
            //: a limit that the law moved; %1 the law's, %2 the base rules'
            ? tr("%1 instead of %2").arg(QString::fromStdString(one.to), QString::fromStdString(one.from))
            : tr("%1, as the base rules ask already").arg(QString::fromStdString(one.to));
        break;
    case What::Life:
        out.what = ofPack(pack, "step." + one.id);
        out.asks = one.from_ms > 0 ? tr("counts for %1 instead of %2").arg(span(one.to_ms, reading), span(one.from_ms, reading))
                                   : tr("counts for %1; the base rules have no end to it").arg(span(one.to_ms, reading));
        break;
    case What::AtGiving:
    case What::Require:
    case What::Stop:
        out.what = ofPack(pack, "hold-point." + one.hold_point);
        out.asks = ofPack(pack, "rule." + one.id);
        break;
    }
    return out;
}

QString trailTitle(const rules::Pack& pack, const report::TrailLine& line)
{
    const QString hold_point = holdPointName(pack, pack.holdPoint(line.hold_point));
    switch (line.kind) {
    case ledger::Kind::VesselAdmitted:
        return tr("Came in");
    case ledger::Kind::Evidence:
        return stepTitle(pack, pack.step(line.step));
    case ledger::Kind::Confirmed:
        return tr("Second person signed");
    case ledger::Kind::Event:
        return ofPack(pack, "event." + line.event + ".said");
    case ledger::Kind::Released:
        return tr("Release signed: %1").arg(hold_point);
    case ledger::Kind::Withdrawn:
        return tr("Taken back: %1").arg(hold_point);
    case ledger::Kind::Corrected:
        return tr("Put right");
    case ledger::Kind::Cleared:
        return tr("Answered: %1").arg(ofPack(pack, "stop." + line.stop));
    case ledger::Kind::TagPrinted:
        return tr("Tag printed");
    case ledger::Kind::TagRead:
        return tr("Tag read");
    case ledger::Kind::GapAccepted:
        return tr("Gap accepted");
    case ledger::Kind::ForkJoined:
        return tr("Records joined");
    case ledger::Kind::YardCreated:
        return tr("Yard made");
    case ledger::Kind::DeviceEnrolled:
        return tr("Tablet enrolled");
    case ledger::Kind::PackAdopted:
        return tr("Rules adopted");
    case ledger::Kind::PersonEnrolled:
        return tr("Person enrolled");
    case ledger::Kind::RoleGranted:
        return tr("Role given");
    case ledger::Kind::RoleEnded:
        return tr("Role ended");
    case ledger::Kind::KeySuspected:
        return tr("Key suspected");
    case ledger::Kind::TimeConfirmed:
        return tr("Time confirmed");
    case ledger::Kind::InstrumentEnrolled:
        return tr("Meter enrolled");
    case ledger::Kind::InstrumentChecked:
        return tr("Meter checked");
    }
    return {};
}

QString ownAnswer(const rules::Pack& pack, const report::TrailLine& line, const Reading& reading)
{
    if (line.answered.empty()) {
        return {};
    }
    const rules::Index fact = pack.fact(line.answered);
    const QString asked = fact == rules::kNone ? QString::fromStdString(line.answered) : factAsk(pack, fact);
    const QString value = recorded(line.answer, fact == rules::kNone ? rules::Fact{} : pack.facts[fact], pack, reading);
    if (line.answered_row.empty()) {
        //: beside a second signature; %1 what was asked, in the pack's words, %2 the value
        return tr("Own answer: %1 %2").arg(asked, value);
    }
    //: the same of a register; %1 the row's name: "N3"
    return tr("Own answer: %1: %2 %3").arg(QString::fromStdString(line.answered_row), asked, value);
}

QString flaw(const ledger::Finding& finding)
{
    switch (finding.flaw) {
    case ledger::Flaw::Form:
        return tr("The entry's bytes are not in their form.");
    case ledger::Flaw::HashDiffers:
        return tr("The entry was changed: its hash differs.");
    case ledger::Flaw::ColumnDiffers:
        return tr("A search column does not say what the entry says.");
    case ledger::Flaw::DeviceUnknown:
        return tr("A tablet that is not enrolled wrote it.");
    case ledger::Flaw::DeviceSignature:
        return tr("The tablet's signature does not fit.");
    case ledger::Flaw::PersonUnknown:
        return tr("A person who is not enrolled signed it.");
    case ledger::Flaw::PersonSignature:
        return tr("The person's signature does not fit.");
    case ledger::Flaw::PersonMissing:
        return tr("It needs a person's signature and has none.");
    case ledger::Flaw::RoleNotHeld:
        return tr("The signer did not hold that role then.");
    case ledger::Flaw::FeedGap:
        return tr("Entries before it are missing.");
    case ledger::Flaw::FeedFork:
        return tr("Its number was used twice: a copied or rolled-back tablet.");
    case ledger::Flaw::ParentUnknown:
        return tr("It rests on an entry that is not here.");
    case ledger::Flaw::ParentLater:
        return tr("It rests on an entry that came later.");
    case ledger::Flaw::ConfirmsNothing:
        return tr("It confirms nothing that two people could sign.");
    case ledger::Flaw::AttachmentMissing:
        return tr("A picture or paper of it is missing.");
    case ledger::Flaw::AttachmentDiffers:
        return tr("A picture or paper of it was changed.");
    case ledger::Flaw::AnchorAhead:
        return tr("This tablet knows a newer entry: the end of the record was cut off.");
    case ledger::Flaw::TypedDiffers:
        return tr("A number does not follow from what was typed.");
    case ledger::Flaw::Unreadable:
        return tr("The store itself says that it is damaged.");
    }
    return {};
}

QStringList cautions()
{
    return {
        tr("Brimful says what was proven, by whom, how, until when. It never says that a vessel may be trusted."),
        tr("It works only if the second person is real. A shared PIN is a hole."),
        tr("Local codes and licensed practice come first. Limits marked as proposals are to be confirmed by a licensed specialist."),
        tr("It cannot see a false reading honestly typed, two people who agree to lie, or somebody with full control of this tablet."),
        tr("It is for shells worked from outside and by reaching in. Nobody's whole body goes in under it."),
        tr("This tablet can light gas. Until the first brim it stays at the barrier, upwind."),
    };
}

} // namespace brimful::text
