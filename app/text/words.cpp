// The pack's words, quantities, times and the answers' short words.
#include "app/text/words.h"

#include "app/text/tr.h"
#include "core/quantity/format.h"
#include "core/quantity/recorded.h"

#include <QCoreApplication>
#include <QDateTime>
#include <QTimeZone>

namespace brimful::text {

QString ofPack(const rules::Pack& pack, const std::string& key)
{
    const auto found = pack.strings.find(key);
    if (found == pack.strings.end()) {
        return QString::fromStdString(key);
    }
    return QCoreApplication::translate("Rules", found->second.c_str());
}

QString stepTitle(const rules::Pack& pack, rules::Index step)
{
    if (step == rules::kNone || step >= pack.steps.size()) {
        return {};
    }
    const rules::Step& one = pack.steps[step];
    if (one.talk_of != rules::kNone) {
        return tr("Talk before %1").arg(holdPointName(pack, one.talk_of));
    }
    return ofPack(pack, "step." + one.id);
}

QString stepWhy(const rules::Pack& pack, rules::Index step)
{
    const std::string key = "step." + pack.steps[step].id + ".why";
    return pack.strings.contains(key) ? ofPack(pack, key) : QString();
}

QString factAsk(const rules::Pack& pack, rules::Index fact) { return ofPack(pack, "fact." + pack.facts[fact].id); }

QString optionWord(const rules::Pack& pack, rules::Index fact, const std::string& option)
{
    const std::string key = "option." + pack.facts[fact].id + "." + option;
    return pack.strings.contains(key) ? ofPack(pack, key) : QString::fromStdString(option);
}

QString holdPointName(const rules::Pack& pack, rules::Index hold_point)
{
    return hold_point < pack.hold_points.size() ? ofPack(pack, "hold-point." + pack.hold_points[hold_point].id) : QString();
}

QString instrumentType(const std::string& type)
{
    return type == "gas-meter" ? tr("gas meter") : type == "pressure-gauge" ? tr("pressure gauge") : QString::fromStdString(type);
}

QString roleName(const rules::Pack& pack, const std::string& role) { return ofPack(pack, "role." + role); }

QString quantity(double si, quantity::Dimension dimension, const Reading& reading)
{
    const auto system = reading.units == Units::Us ? quantity::UnitSystem::Us : quantity::UnitSystem::Si;
    QString text = QString::fromStdString(quantity::format(si, dimension, system));
    if (reading.locale.decimalPoint() == QStringLiteral(",")) {
        text.replace(QLatin1Char('.'), QLatin1Char(','));
    }
    return text;
}

QString recorded(const canon::Json& value, const rules::Fact& fact, const rules::Pack& pack, const Reading& reading)
{
    if (value.is(canon::Type::Object)) {
        return QString::fromUtf8(value.textOf("typed").data(), static_cast<int>(value.textOf("typed").size()));
    }
    if (value.is(canon::Type::Integer)) {
        return reading.locale.toString(static_cast<qlonglong>(value.integer));
    }
    if (!fact.options.empty()) {
        const rules::Index index = pack.fact(fact.id);
        return index == rules::kNone ? QString::fromStdString(value.text) : optionWord(pack, index, value.text);
    }
    return QString::fromStdString(value.text);
}

namespace {

QDateTime local(std::int64_t wall_ms, const Reading& reading)
{
    return QDateTime::fromMSecsSinceEpoch(wall_ms, Qt::OffsetFromUTC, reading.offset_minutes * 60);
}

} // namespace

QString clockTime(std::int64_t wall_ms, const Reading& reading)
{
    return wall_ms == rules::kNever ? QString() : local(wall_ms, reading).toString(QStringLiteral("HH:mm"));
}

QString dateTime(std::int64_t wall_ms, const Reading& reading)
{
    if (wall_ms == rules::kNever) {
        return tr("no end of its own");
    }
    const int minutes = reading.offset_minutes;
    QString offset = QStringLiteral("UTC");
    if (minutes != 0) {
        offset += minutes < 0 ? QLatin1Char('-') : QLatin1Char('+');
        offset += QString::number(std::abs(minutes) / 60);
        offset += minutes % 60 == 0 ? QString() : QStringLiteral(":%1").arg(std::abs(minutes) % 60, 2, 10, QLatin1Char('0'));
    }
    return QStringLiteral("%1 (%2)").arg(reading.locale.toString(local(wall_ms, reading), QStringLiteral("ddd d MMM yyyy HH:mm")), offset);
}

QString span(std::int64_t ms, const Reading& reading)
{
    const qlonglong minutes = std::max<std::int64_t>(ms, 0) / 60'000;
    if (minutes < 1) {
        //: %1 is a number of seconds
        return tr("%1 s").arg(reading.locale.toString(static_cast<qlonglong>(std::max<std::int64_t>(ms, 0) / 1000)));
    }
    if (minutes < 120) {
        //: %1 is a number of minutes
        return tr("%1 min").arg(reading.locale.toString(minutes));
    }
    if (minutes < 48 * 60) {
        //: %1 hours %2 minutes, as on a clock
        return tr("%1 h %2").arg(reading.locale.toString(minutes / 60)).arg(minutes % 60, 2, 10, QLatin1Char('0'));
    }
    //: %1 is a number of days, two or more
    return tr("%1 days").arg(reading.locale.toString(minutes / (24 * 60)));
}

QString signalWord(report::Signal signal)
{
    switch (signal) {
    //: signal word of product safety signs (ANSI Z535), the strongest
    case report::Signal::Danger:
        return tr("DANGER");
    //: signal word of product safety signs (ANSI Z535)
    case report::Signal::Warning:
        return tr("WARNING");
    //: signal word of product safety signs (ANSI Z535)
    case report::Signal::Caution:
        return tr("CAUTION");
    //: signal word of product safety signs (ANSI Z535), no injury
    case report::Signal::Notice:
        return tr("NOTICE");
    }
    return {};
}

QString plateWord(report::PlateWord word)
{
    switch (word) {
    case report::PlateWord::Held:
    case report::PlateWord::RecordDamaged:
    case report::PlateWord::ClockUnknown:
        return tr("HELD");
    case report::PlateWord::Released:
        return tr("RELEASED");
    case report::PlateWord::FireWatch:
        return tr("FIRE WATCH");
    case report::PlateWord::Draining:
        return tr("DRAINING");
    case report::PlateWord::Stopped:
        return tr("STOPPED");
    case report::PlateWord::Refused:
        return tr("REFUSED");
    case report::PlateWord::NotOurs:
        return tr("NOT OURS");
    case report::PlateWord::ClosedOut:
        return tr("CLOSED OUT");
    }
    return {};
}

namespace {

// The stop that holds the vessel, in the pack's few words for it.
QString standingStop(const report::VesselView& view, const rules::Pack& pack, bool refuses)
{
    for (const rules::Blocker& blocker : view.standing.blockers) {
        if (blocker.stop != rules::kNone && pack.stops[blocker.stop].refuses == refuses) {
            const std::string whole = "stop." + pack.stops[blocker.stop].id;
            const std::string brief = whole + ".short";
            return ofPack(pack, pack.strings.contains(brief) ? brief : whole);
        }
    }
    return {};
}

} // namespace

QString plateLine(const report::VesselView& view, const rules::Pack& pack, const Reading& reading)
{
    const QString gate = holdPointName(pack, view.standing.hold_point);
    switch (view.word) {
    case report::PlateWord::Held:
        //: %1 is a hold point: "before first cut"
        return gate.isEmpty() ? QString() : tr("before %1").arg(gate);
    case report::PlateWord::Released:
        //: %1 is what is released ("first cut"), %2 a clock time
        return tr("%1 until %2").arg(gate, clockTime(view.standing.until_ms, reading));
    case report::PlateWord::FireWatch:
        if (view.watch && view.watch->left_ms) {
            //: %1 a clock time
            return tr("nobody watches since %1").arg(clockTime(*view.watch->left_ms, reading));
        }
        //: %1 a clock time
        return view.watch ? tr("nobody leaves till %1").arg(clockTime(view.watch->ends_ms, reading)) : tr("nobody leaves");
    case report::PlateWord::Draining:
        return tr("no heat, no entry");
    case report::PlateWord::Stopped:
        return standingStop(view, pack, false);
    case report::PlateWord::Refused:
        return standingStop(view, pack, true);
    case report::PlateWord::NotOurs:
        return tr("back to its owner");
    case report::PlateWord::ClosedOut:
        return tr("not a pressure vessel");
    case report::PlateWord::RecordDamaged:
        return view.standing.state == rules::State::Held ? tr("record not whole") : QString();
    case report::PlateWord::ClockUnknown:
        return tr("clock not confirmed");
    }
    return {};
}

QString lack(rules::Lack what)
{
    switch (what) {
    case rules::Lack::None:
        return tr("counts");
    case rules::Lack::Missing:
        return tr("missing");
    case rules::Lack::Lapsed:
        return tr("lapsed");
    case rules::Lack::Voided:
        return tr("no longer counts");
    case rules::Lack::Conflict:
        return tr("two that disagree");
    case rules::Lack::WrongValue:
        return tr("outside");
    case rules::Lack::WrongPerson:
        return tr("wrong person");
    case rules::Lack::WrongOrder:
        return tr("wrong order");
    case rules::Lack::UntrustedClock:
        return tr("clock not confirmed");
    case rules::Lack::HistoryGap:
        return tr("record has a gap");
    case rules::Lack::Instrument:
        return tr("meter not to be believed");
    case rules::Lack::Attachment:
        return tr("picture or paper missing");
    case rules::Lack::Error:
        return tr("could not be worked out");
    }
    return {};
}

} // namespace brimful::text
