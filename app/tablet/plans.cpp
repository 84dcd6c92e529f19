#include "app/tablet/plans.h"

#include "core/quantity/recorded.h"

#include <QCoreApplication>

#include <algorithm>

namespace brimful::tablet {

using canon::Json;
using yard::Outcome;
using yard::Receipt;
using yard::Signing;

namespace {

QString tr(const char* words) { return QCoreApplication::translate("brimful::tablet", words); }

std::vector<std::string> allRoles(const rules::Pack& pack) { return pack.roles; }

// Who may sign, as functions and as words.
std::vector<std::string> named(const rules::Pack& pack, const std::vector<rules::Index>& roles)
{
    std::vector<std::string> out;
    out.reserve(roles.size());
    for (const rules::Index role : roles) {
        out.push_back(pack.roles[role]);
    }
    return out;
}

void signedByRoles(Plan& plan, Session& session, std::vector<std::string> roles)
{
    plan.roles = std::move(roles);
    plan.signers = [&session, roles = plan.roles](bool) { return session.yard().signersOfRoles(roles); };
}

// The second person of an entry, as the yard has it.
void confirmedByAnother(Plan& plan, Session& session)
{
    plan.asks_second = [&session](const Hash& first) -> std::optional<Ask> {
        const auto asked = session.yard().askedOfSecond(first);
        return asked && *asked ? std::optional(askOfSecond(session.pack(), **asked, session.yard().state())) : std::nullopt;
    };
    plan.fits = [&session](const Hash& first, const Json& answer) { return session.yard().mayAnswer(first, answer); };
    plan.confirm = [&session](const Hash& first, const Signing& second, const Json& answer) {
        return session.yard().confirm(first, second, answer);
    };
}

std::string day(std::int64_t ms, const text::Reading& reading) { return text::dateTime(ms, reading).toStdString(); }

// What a record says, in words: a person by name, a picture or a paper by being there.
QString saidOf(Session& session, rules::Index fact, const Json& value)
{
    const rules::Fact& one = session.pack().facts[fact];
    switch (one.kind) {
    case rules::FactKind::Person: {
        const auto id = canon::fromHex<PersonId>(value.text);
        const auto& people = session.yard().state().people;
        const auto person = id ? people.find(*id) : people.end();
        return person == people.end() ? tr("nobody of this yard") : QString::fromStdString(person->second.name);
    }
    case rules::FactKind::Photo:
    case rules::FactKind::Document:
        //: of a picture or a paper that stands in the record
        return tr("in the record");
    default:
        return text::recorded(value, one, session.pack(), session.reading);
    }
}

// A record of this step whose second signature is missing yet, with all that it says.
std::optional<Waits> waitingOf(Session& session, const std::string& number, rules::Index step, const std::vector<Ask>& asks)
{
    const rules::Pack& pack = session.pack();
    const auto waiting = session.yard().waiting(number, pack.steps[step].id);
    if (!waiting || !*waiting) {
        return std::nullopt;
    }
    const Json& facts = (*waiting)->facts;
    Waits out{(*waiting)->first, QString::fromStdString((*waiting)->person), {}, {}};
    const auto say = [&](const Ask& ask) {
        QStringList words;
        for (const Field& field : ask.fields) {
            const Json* value = field.fact == rules::kNone ? nullptr : evidence::valueAt(pack, {field.fact, ask.member}, facts);
            if (value != nullptr) {
                words.append(saidOf(session, field.fact, *value));
            }
        }
        if (!words.isEmpty()) {
            out.asks.push_back(ask);
            out.said.append(words.join(QStringLiteral(", ")));
        }
    };
    for (const Ask& ask : asks) {
        if (!ask.names_row) {
            say(ask);
            continue;
        }
        for (const rules::Index table : pack.steps[step].registers) {
            const Json* rows = pack.registers[table].key == ask.into ? facts.find(ask.into) : nullptr;
            for (const Json& row : rows == nullptr ? std::vector<Json>{} : rows->items) {
                const std::string name(row.textOf("name"));
                std::ranges::for_each(rowAsks(pack, pack.registers[table], name, session.yard().state(), session.reading), say);
            }
        }
    }
    return out;
}

// What is known of a meter where one is chosen.
QString meterLine(Session& session, const std::string& id)
{
    for (const yard::InstrumentShown& one : session.yard().instruments()) {
        if (one.instrument.id == id) {
            return meterStanding(one, session.reading);
        }
    }
    return {};
}

} // namespace

QString meterStanding(const yard::InstrumentShown& one, const text::Reading& reading)
{
    return !one.in_calibration ? tr("out of calibration: does not count")
        : one.believed         ? tr("bumped %1").arg(text::clockTime(*one.bumped_ms, reading))
                               : tr("not bumped: does not count");
}

Plan stepPlan(Session& session, const std::string& number, rules::Index step)
{
    const rules::Pack& pack = session.pack();
    const rules::Step& one = pack.steps[step];
    Plan plan;
    plan.title = text::stepTitle(pack, step);
    plan.why = text::stepWhy(pack, step);
    plan.means = one.with.empty() ? tr("Your PIN says: I did this and saw it.") : tr("Your PIN says: I saw this with my own eyes.");
    for (const std::string& caution : one.cautions) {
        plan.cautions.append(text::ofPack(pack, "caution." + caution));
    }
    for (const rules::Cannot& reason : one.cannot) {
        const std::string key = "cannot." + one.id + "." + reason.id;
        plan.cannot.push_back({reason.id, text::ofPack(pack, key), text::ofPack(pack, key + ".then")});
    }
    const auto folded = one.of_yard ? tl::make_unexpected(report::Refusal{}) : session.yard().folded(number);
    plan.asks = asksOf(pack, step, folded ? &*folded : nullptr, session.yard().state(), session.reading);
    for (Ask& ask : plan.asks) {
        if (!ask.instrument) {
            continue;
        }
        for (Option& option : ask.options) {
            option.line = meterLine(session, option.word);
        }
    }
    for (const rules::Index index : one.registers) {
        if (pack.registers[index].members.empty() && pack.registers[index].members_from == rules::kNone) {
            plan.reg = index;
        }
    }
    plan.two = !one.with.empty();
    plan.draft = "step:" + number + ":" + one.id;
    plan.roles = named(pack, one.by);
    plan.second_roles = named(pack, one.with);
    plan.signers = [&session, step](bool second) { return session.yard().signersOf(step, second); };
    const std::string id = one.id;
    const std::string vessel = one.of_yard ? std::string() : number;
    plan.act = [&session, vessel, id](const Filled& filled, const std::optional<Signing>& by, const std::optional<Signing>&) {
        yard::RecordRequest request;
        request.vessel = vessel;
        request.step = id;
        request.cannot = filled.cannot;
        if (filled.cannot.empty()) {
            request.facts = filled.facts;
            request.files = filled.files;
            request.taken = filled.taken;
            request.instrument = filled.instrument;
        }
        return session.yard().record(request, *by);
    };
    confirmedByAnother(plan, session);
    if (plan.two && !one.of_yard) {
        plan.waits = waitingOf(session, number, step, plan.asks);
    }
    return plan;
}

Plan holdPointPlan(Session& session, const std::string& number, rules::Index hold_point)
{
    const rules::Pack& pack = session.pack();
    const rules::HoldPoint& gate = pack.hold_points[hold_point];
    Plan plan;
    plan.title = text::holdPointName(pack, hold_point);
    plan.why = text::ofPack(pack, "hold-point." + gate.id + ".behind");
    plan.means = tr("One reads out, another answers. Both sign.");
    plan.gate = true;
    plan.two = !gate.with.empty();
    if (gate.tag_fact != rules::kNone) {
        Ask ask;
        ask.ask = tr("Scan the newest tag, or type its short code.");
        const auto view = session.yard().vessel(number);
        ask.why = view && !view->newest_tag ? tr("None is made yet: go back, open Tag, make it and hang it on.")
                                            : tr("At the vessel: it shows that this is the right one.");
        ask.hand = Hand::Write;
        ask.tag = true;
        ask.fields.push_back({});
        plan.asks.push_back(std::move(ask));
    }
    for (Ask& ask : asksOf(pack, gate.talk, nullptr, session.yard().state(), session.reading)) {
        plan.asks.push_back(std::move(ask));
    }
    plan.roles = named(pack, gate.by);
    plan.second_roles = named(pack, gate.with);
    plan.signers = [&session, hold_point](bool second) { return session.yard().signersOfHoldPoint(hold_point, second); };
    const std::string id = gate.id;
    plan.agrees = [&session, number](const Ask& ask, const Json& answer) {
        if (ask.tag) {
            // A genuine tag whose head the record lacks goes on: it is a witness, and the release answers it with the gap.
            const auto read = session.yard().readTag(answer.text);
            return read && read->genuine && (!read->head_known || (read->vessel == number && read->newest));
        }
        const auto folded = session.yard().folded(number);
        return !folded || agrees(session.pack(), *folded, ask.fields.front().fact, answer);
    };
    plan.act = [&session, number, id](const Filled& filled, const std::optional<Signing>& by, const std::optional<Signing>&) {
        yard::ReleaseRequest request;
        request.vessel = number;
        request.hold_point = id;
        request.answers = filled.facts;
        request.tag = filled.tag;
        return session.yard().release(request, *by);
    };
    confirmedByAnother(plan, session);
    return plan;
}

namespace {

Ask writeAsk(const QString& ask, const std::string& into, const QString& why = {}, bool optional = false, const QStringList& phrases = {})
{
    Ask one;
    one.ask = ask;
    one.why = why;
    one.hand = Hand::Write;
    one.into = into;
    one.optional = optional;
    one.phrases = phrases;
    one.fields.push_back({into, {}, quantity::Dimension::Number, rules::kNone});
    return one;
}

Ask numberAsk(const QString& ask, const QString& caption, const std::string& into, quantity::Dimension dimension)
{
    Ask one;
    one.ask = ask;
    one.hand = Hand::Number;
    one.into = into;
    one.fields.push_back({into, caption, dimension, rules::kNone});
    return one;
}

Ask choiceAsk(const QString& ask, const std::string& into, std::vector<Option> options)
{
    Ask one;
    one.ask = ask;
    one.hand = Hand::Choice;
    one.into = into;
    one.options = std::move(options);
    one.fields.push_back({into, {}, quantity::Dimension::Number, rules::kNone});
    return one;
}

// Each law with how many limits it makes tighter.
Ask lawAsk()
{
    std::vector<Option> laws{{"all", tr("All of them together"), tr("the strictest always rules")}};
    for (const std::string& law : rules::carriedLaws()) {
        const auto pack = rules::load(*rules::carriedRuling(law));
        const std::vector<rules::Tightening> beyond = pack ? rules::tightenings(*pack) : std::vector<rules::Tightening>{};
        const auto tighter = static_cast<int>(std::ranges::count(beyond, true, &rules::Tightening::tighter));
        laws.push_back({law, text::lawName(law),
            tighter == 0 ? tr("the base rules ask as much")
                         : QCoreApplication::translate("Sheet", "tightens %n limit(s)", nullptr, tighter)});
    }
    return choiceAsk(tr("Which law rules this yard?"), "law", std::move(laws));
}

std::string lawOf(const Filled& filled)
{
    const std::string law(filled.facts.textOf("law"));
    return law == "all" ? std::string() : law;
}

Ask pinAsk()
{
    Ask one;
    one.ask = tr("Choose a PIN.");
    one.why = tr("Six digits or more. It is your signature: give it to nobody.");
    one.hand = Hand::Number;
    one.secret = true;
    one.fields.push_back({});
    return one;
}

} // namespace

Plan clearPlan(Session& session, const std::string& number, rules::Index stop)
{
    const rules::Pack& pack = session.pack();
    const std::string id = pack.stops[stop].id;
    Plan plan;
    //: what stopped the vessel is answered by name
    plan.title = tr("Answer: %1").arg(text::ofPack(pack, "stop." + id));
    plan.means = tr("Your PIN says: I looked, and this is what was done.");
    plan.asks.push_back(writeAsk(tr("What was found?"), "found", tr("Look before you write.")));
    plan.asks.push_back(writeAsk(tr("What was done?"), "done"));
    plan.two = !pack.stops[stop].cleared_with.empty();
    plan.draft = "stop:" + number + ":" + id;
    plan.roles = named(pack, pack.stops[stop].cleared_by);
    plan.second_roles = named(pack, pack.stops[stop].cleared_with);
    plan.signers = [&session, stop](bool second) { return session.yard().signersOfStop(stop, second); };
    plan.act = [&session, number, id](const Filled& filled, const std::optional<Signing>& by, const std::optional<Signing>&) {
        return session.yard().clear(number, id, std::string(filled.facts.textOf("found")), std::string(filled.facts.textOf("done")), *by);
    };
    confirmedByAnother(plan, session);
    return plan;
}

Plan putRightPlan(Session& session, const Hash& entry)
{
    Plan plan;
    plan.title = tr("Put right: writes a new line; the old one stays");
    plan.asks.push_back(
        writeAsk(tr("What was wrong with it?"), "why", {}, false, {tr("Wrong number"), tr("Wrong vessel"), tr("Wrong unit")}));
    signedByRoles(plan, session, allRoles(session.pack()));
    plan.act = [&session, entry](const Filled& filled, const std::optional<Signing>& by, const std::optional<Signing>&) {
        return session.yard().correct(entry, std::string(filled.facts.textOf("why")), *by);
    };
    return plan;
}

Plan admitPlan(Session& session)
{
    using quantity::Dimension;
    Plan plan;
    plan.title = tr("A vessel comes in");
    plan.why = tr("Its sizes are only believed until somebody measures.");
    plan.asks.push_back(writeAsk(tr("Paint a number on it. Which?"), "number", tr("Capitals, digits and hyphens.")));
    plan.asks.push_back(numberAsk(tr("How wide is it, outside?"), tr("Outside diameter"), "outside_diameter", Dimension::Length));
    plan.asks.push_back(numberAsk(tr("How thick is the wall?"), tr("Wall"), "wall", Dimension::Length));
    plan.asks.push_back(numberAsk(tr("How long is it, tip to tip?"), tr("Length over all"), "overall_length", Dimension::Length));
    plan.asks.push_back(choiceAsk(tr("What ends has it?"), "heads",
        {{"hemispherical", tr("Half balls"), {}}, {"ellipsoidal-2-1", tr("Ellipses, 2 to 1"), {}}, {"torispherical", tr("Dished"), {}},
            {"flat", tr("Flat"), {}}}));
    plan.asks.push_back(
        writeAsk(tr("What is to become of it?"), "note", {}, true, {tr("Smoker"), tr("Stove"), tr("Fire pit"), tr("Sauna stove")}));
    plan.draft = "admit";
    signedByRoles(plan, session, allRoles(session.pack()));
    plan.act = [&session](const Filled& filled, const std::optional<Signing>& by, const std::optional<Signing>&) {
        Json request = Json::object();
        Json vessel = Json::object();
        for (const canon::Member& member : filled.facts.members) {
            if (member.key == "number" || member.key == "note") {
                request.set(member.key, QString::fromStdString(member.value.text).toUpper().trimmed().toStdString());
                if (member.key == "note") {
                    request.set(member.key, member.value);
                }
            } else {
                vessel.set(member.key, member.value);
            }
        }
        if (request.textOf("note").empty()) {
            std::erase_if(request.members, [](const canon::Member& member) { return member.key == "note"; });
        }
        request.set("vessel", std::move(vessel));
        return session.yard().admit(request, *by);
    };
    return plan;
}

Plan personPlan(Session& session)
{
    Plan plan;
    plan.title = tr("A person joins");
    plan.asks.push_back(writeAsk(tr("What is the new person's name?"), "name"));
    Ask roles = choiceAsk(tr("What may this person do?"), "roles", {});
    roles.many = true;
    for (const std::string& role : session.pack().roles) {
        roles.options.push_back({role, text::roleName(session.pack(), role), {}});
    }
    plan.asks.push_back(std::move(roles));
    plan.asks.push_back(pinAsk());
    signedByRoles(plan, session, {"authoriser"});
    plan.act = [&session](const Filled& filled, const std::optional<Signing>& by, const std::optional<Signing>&) {
        yard::PersonRequest request;
        request.name = std::string(filled.facts.textOf("name"));
        request.pin = filled.secret;
        for (const QString& role : QString::fromStdString(std::string(filled.facts.textOf("roles"))).split(u'\n', Qt::SkipEmptyParts)) {
            request.roles.push_back(role.toStdString());
        }
        return session.yard().addPerson(request, *by);
    };
    return plan;
}

Plan instrumentPlan(Session& session)
{
    Plan plan;
    plan.title = tr("A meter joins");
    plan.asks.push_back(writeAsk(tr("What is written on it? Number or name."), "id"));
    plan.asks.push_back(choiceAsk(tr("Which kind of sensor for gas?"), "sensor",
        {{"catalytic", tr("Catalytic"), tr("needs air to burn")}, {"infrared", tr("Infrared"), tr("does not see hydrogen")}}));
    plan.asks.push_back(choiceAsk(tr("On which gas was it calibrated?"), "calibrated_on",
        {{"methane", tr("Methane"), {}}, {"propane", tr("Propane"), {}}, {"n-butane", tr("Butane"), {}}, {"pentane", tr("Pentane"), {}}}));
    plan.asks.push_back(writeAsk(tr("Factor for propane, from the maker's sheet?"), "response_factor", tr("A number such as 1.6")));
    plan.asks.push_back(
        numberAsk(tr("Which limit is its 100 %LEL for propane?"), tr("Lower limit"), "limit_basis", quantity::Dimension::VolumeShare));
    plan.asks.push_back(numberAsk(tr("For how many days is its calibration good?"), tr("Days"), "days", quantity::Dimension::Number));
    signedByRoles(plan, session, {"authoriser"});
    plan.act = [&session](const Filled& filled, const std::optional<Signing>& by, const std::optional<Signing>&) {
        yard::InstrumentRequest request;
        request.id = std::string(filled.facts.textOf("id"));
        request.type = "gas-meter";
        for (const char* key : {"sensor", "calibrated_on", "response_factor", "limit_basis"}) {
            request.attributes[key] = std::string(filled.facts.textOf(key));
        }
        constexpr std::int64_t kDayMs = 24LL * 3600 * 1000;
        request.calibrated_until_ms = session.yard().nowMs() + filled.facts.integerOf("days") * kDayMs;
        return session.yard().addInstrument(request, *by);
    };
    return plan;
}

Plan bumpPlan(Session& session)
{
    Plan plan;
    plan.title = tr("Bump check");
    plan.why = tr("Gas of the bottle on the sensor: does it show it?");
    std::vector<Option> meters;
    for (const yard::InstrumentShown& one : session.yard().instruments()) {
        if (one.instrument.type == "gas-meter" && !one.instrument.withdrawn) {
            meters.push_back({one.instrument.id, QString::fromStdString(one.instrument.id), {}});
        }
    }
    plan.asks.push_back(choiceAsk(tr("Which meter?"), "instrument", std::move(meters)));
    plan.asks.push_back(numberAsk(tr("What does the bottle's label say?"), tr("Bottle"), "expected", quantity::Dimension::LimitShare));
    plan.asks.push_back(numberAsk(tr("What does the meter show?"), tr("Shown"), "shown", quantity::Dimension::LimitShare));
    signedByRoles(plan, session, {"tester"});
    plan.act = [&session](const Filled& filled, const std::optional<Signing>& by, const std::optional<Signing>&) {
        yard::CheckRequest request;
        request.instrument = std::string(filled.facts.textOf("instrument"));
        request.shown = std::string(filled.facts.textOf("shown"));
        request.expected = std::string(filled.facts.textOf("expected"));
        return session.yard().checkInstrument(request, *by);
    };
    return plan;
}

std::optional<Plan> meterFirstPlan(Session& session, const std::string& number, rules::Index step)
{
    const std::string& type = session.pack().steps[step].instrument;
    if (type.empty()) {
        return std::nullopt;
    }
    bool any = false;
    for (const yard::InstrumentShown& one : session.yard().instruments()) {
        if (one.instrument.type == type && one.in_calibration) {
            if (one.believed) {
                return std::nullopt;
            }
            any = true;
        }
    }
    Plan plan = any ? bumpPlan(session) : instrumentPlan(session);
    plan.title = any ? tr("Bump check first") : tr("A meter first");
    plan.why = any ? tr("Without it, no reading counts today.") : tr("This yard has no meter in calibration.");
    Plan asked = stepPlan(session, number, step);
    plan.cannot = std::move(asked.cannot);
    plan.act = [first = std::move(plan.act), cannot = std::move(asked.act)](
                   const Filled& filled, const std::optional<Signing>& by, const std::optional<Signing>& with) {
        return filled.cannot.empty() ? first(filled, by, with) : cannot(filled, by, with);
    };
    return plan;
}

Plan adoptPlan(Session& session)
{
    Plan plan;
    plan.title = tr("Take on the rules");
    plan.why = tr("Until two people take them on, every vessel is held.");
    plan.asks.push_back(lawAsk());
    plan.two = true;
    plan.together = true;
    plan.roles = {"authoriser"};
    plan.second_roles = allRoles(session.pack());
    plan.signers = [&session](bool second) {
        return session.yard().signersOfRoles(second ? allRoles(session.pack()) : std::vector<std::string>{"authoriser"});
    };
    plan.act = [&session](const Filled& filled, const std::optional<Signing>& by, const std::optional<Signing>& with) {
        yard::AdoptRequest request;
        request.law = lawOf(filled);
        return session.yard().adoptPack(request, *by, *with);
    };
    return plan;
}

Plan clockPlan(Session& session)
{
    Plan plan;
    plan.title = tr("Confirm the clock");
    signedByRoles(plan, session, allRoles(session.pack()));
    plan.act = [&session](const Filled&, const std::optional<Signing>& by, const std::optional<Signing>&) -> Outcome<Receipt> {
        if (session.yard().clockConfirmed()) { // by the PIN that was just given
            return Receipt{};
        }
        return session.yard().confirmClock(session.yard().now().wall_ms, *by);
    };
    return plan;
}

Plan stoppedPlan(Session& session, const std::string& number)
{
    const rules::Pack& pack = session.pack();
    Plan plan;
    plan.title = tr("%1 is stopped").arg(QString::fromStdString(number));
    plan.why = tr("It is written. Say what it was, or go back.");
    std::vector<Option> what;
    for (const char* id : {"smoke", "water-lost", "leak", "moved", "person-left", "touched-by-mistake"}) {
        if (pack.event(id) != rules::kNone) {
            what.push_back({id, text::ofPack(pack, std::string("event.") + id), {}});
        }
    }
    plan.asks.push_back(choiceAsk(tr("What stopped it?"), "event", std::move(what)));
    plan.act = [&session, number](const Filled& filled, const std::optional<Signing>&, const std::optional<Signing>&) {
        return session.yard().event(number, std::string(filled.facts.textOf("event")), {});
    };
    return plan;
}

Plan spokenPlan(Session& session, const std::string& number)
{
    Plan plan;
    plan.title = tr("%1: somebody spoke up").arg(QString::fromStdString(number));
    plan.why = tr("Nobody asks for proof. You need not say more.");
    plan.asks.push_back(writeAsk(tr("What is wrong?"), "said", {}, true,
        {tr("I smell gas"), tr("Something is not as it was"), tr("We are in a hurry"), tr("I do not understand it")}));
    plan.asks.push_back(writeAsk(tr("Who says so?"), "who", tr("A name, or none."), true));
    plan.act = [&session, number](const Filled& filled, const std::optional<Signing>&, const std::optional<Signing>&) -> Outcome<Receipt> {
        std::string note(filled.facts.textOf("said"));
        if (const std::string_view who = filled.facts.textOf("who"); !who.empty()) {
            note.append(" (").append(who).append(")");
        }
        // The concern itself is already in the record; what was said about it pauses the work and stands beside it.
        return note.empty() ? Receipt{} : session.yard().event(number, "paused", note);
    };
    return plan;
}

Plan newYardPlan(Session& session, std::function<void(const QString&)> sheet)
{
    Plan plan;
    plan.title = tr("New yard");
    plan.asks.push_back(writeAsk(tr("What is the yard called?"), "name"));
    plan.asks.push_back(choiceAsk(tr("Is it now %1?").arg(QString::fromStdString(day(session.clock().now().wall_ms, session.reading))),
        "clock", {{"right", tr("The date and time are right"), {}}, {"wrong", tr("They are wrong"), tr("set the tablet's clock first")}}));
    plan.asks.push_back(lawAsk());
    plan.asks.push_back(writeAsk(tr("What is your name?"), "you", tr("You are the first who may add others.")));
    plan.asks.push_back(pinAsk());
    plan.act = [&session, sheet = std::move(sheet)](
                   const Filled& filled, const std::optional<Signing>&, const std::optional<Signing>&) -> Outcome<Receipt> {
        if (filled.facts.textOf("clock") != "right") {
            report::Refusal refusal;
            refusal.why = report::Why::ClockUnconfirmed;
            return tl::unexpected(std::move(refusal));
        }
        yard::CreateRequest request;
        request.name = std::string(filled.facts.textOf("name"));
        request.authoriser = std::string(filled.facts.textOf("you"));
        request.pin = filled.secret;
        request.law = lawOf(filled);
        request.play = session.clock().scripted();
        const auto created = session.create(request);
        if (!created) {
            return tl::unexpected(created.error());
        }
        sheet(QString::fromStdString(created->recovery_sheet));
        return session.yard().confirmClock(session.yard().now().wall_ms, {request.authoriser, request.pin, {}});
    };
    return plan;
}

} // namespace brimful::tablet
