// What changed since an older version: in words, and by an example of what is granted now and was not, or the other way.
#include "app/print/book_writer.h"

#include <QCoreApplication>

#include <algorithm>

namespace brimful::print {

using canon::Json;
using rules::Index;
using rules::kNone;
using rules::Pack;

namespace {

struct Words {
    Q_DECLARE_TR_FUNCTIONS(Book)
};

QString plain(std::string_view text) { return QString::fromUtf8(text.data(), static_cast<qsizetype>(text.size())); }

QString flat(const text::Phrase& phrase) // NOLINT(misc-no-recursion): at most 8 deep
{
    if (phrase.of.empty()) {
        return phrase.text;
    }
    QStringList parts;
    for (const text::Phrase& one : phrase.of) {
        parts.push_back(flat(one));
    }
    return QStringLiteral("%1 (%2)").arg(phrase.text, parts.join(QStringLiteral("; ")));
}

// One thing that the rules say, by what it is said of, so that two versions can be laid side by side.
using Said = std::vector<std::pair<QString, QString>>;

struct Teller {
    const Pack& pack;
    const text::Reading& reading;

    [[nodiscard]] QString roles(const std::vector<Index>& roles) const
    {
        QStringList words;
        for (const Index role : roles) {
            words.push_back(text::roleName(pack, pack.roles[role]));
        }
        return words.isEmpty() ? Words::tr("nobody") : words.join(Words::tr(" or "));
    }
    [[nodiscard]] QString events(const std::vector<Index>& events) const
    {
        QStringList words;
        for (const Index event : events) {
            words.push_back(text::ofPack(pack, "event." + pack.events[event].id + ".said"));
        }
        return words.isEmpty() ? Words::tr("nothing") : words.join(QLatin1Char(' '));
    }
    [[nodiscard]] QString condition(Index start) const { return flat(text::conditionWords(pack, start, reading)); }

    void steps(Said& out) const
    {
        for (const rules::Step& one : pack.steps) {
            if (one.talk_of != kNone) {
                continue;
            }
            //: what is compared; %1 a step's title
            const auto say = [&](const QString& what, const QString& value) {
                out.emplace_back(Words::tr("Step \"%1\", %2").arg(text::ofPack(pack, "step." + one.id), what), value);
            };
            say(Words::tr("signed by"), roles(one.by));
            say(Words::tr("confirmed by"), roles(one.with));
            say(Words::tr("counts for"), one.life_ms > 0 ? text::span(one.life_ms, reading) : Words::tr("until something voids it"));
            say(Words::tr("voided when"), events(one.voided_by));
            QStringList needs;
            for (const Index need : one.needs) {
                needs.push_back(text::stepTitle(pack, need));
            }
            say(Words::tr("made knowing"), needs.isEmpty() ? Words::tr("nothing") : needs.join(QStringLiteral(", ")));
            say(Words::tr("accepted when"), condition(one.accept));
            say(Words::tr("when it fails"),
                one.on_fail == kNone ? Words::tr("it is done again") : text::ofPack(pack, "stop." + pack.stops[one.on_fail].id));
            say(Words::tr("begins with"), events(one.begun_by));
            say(Words::tr("takes about"), one.takes_ms > 0 ? text::span(one.takes_ms, reading) : Words::tr("not said"));
        }
    }
    void holdPoints(Said& out) const
    {
        for (std::size_t i = 0; i < pack.hold_points.size(); ++i) {
            const rules::HoldPoint& one = pack.hold_points[i];
            const QString name = text::holdPointName(pack, static_cast<Index>(i));
            //: what is compared; %1 a hold point
            const auto say = [&](const QString& what, const QString& value) {
                out.emplace_back(Words::tr("Hold point \"%1\", %2").arg(name, what), value);
            };
            say(Words::tr("given by"), roles(one.by));
            say(Words::tr("accepted by"), roles(one.with));
            say(Words::tr("lasts at most"), text::span(one.lasts_ms, reading));
            say(Words::tr("ended when"), events(one.ended_by));
            const auto list = [&](const std::vector<rules::Rule>& rules) {
                for (const rules::Rule& rule : rules) {
                    if (!rule.at_talk) {
                        say(text::ofPack(pack, "rule." + rule.id), condition(rule.condition));
                    }
                }
            };
            list(one.at_giving);
            list(one.require);
            list(one.stop);
        }
    }
    [[nodiscard]] Said all() const
    {
        Said out;
        for (const rules::Parameter& one : pack.parameters) {
            out.emplace_back(Words::tr("Limit \"%1\"").arg(text::ofPack(pack, "parameter." + one.id)), plain(one.typed));
        }
        steps(out);
        holdPoints(out);
        return out;
    }
};

QString factWords(const Pack& pack, const std::string& step, const canon::Member& fact)
{
    const Index index = pack.fact(step + "." + fact.key);
    const QString ask = index == kNone ? plain(fact.key) : text::factAsk(pack, index);
    if (fact.value.is(canon::Type::String) && index != kNone && !pack.facts[index].options.empty()) {
        return ask + QLatin1Char(' ') + text::optionWord(pack, index, fact.value.text);
    }
    return fact.value.is(canon::Type::String) ? ask + QLatin1Char(' ') + plain(fact.value.text)
                                              : ask + QLatin1Char(' ') + plain(canon::write(fact.value, false));
}

QString actWords(const Pack& pack, const Json& act)
{
    if (const std::string_view wait = act.textOf("wait"); !wait.empty()) {
        return Words::tr("%1 go by.").arg(plain(wait));
    }
    const std::string_view kind = act.textOf("act");
    const QString by = plain(act.textOf("by"));
    const QString with = plain(act.textOf("with"));
    //: two people
    const QString who = with.isEmpty() ? by : Words::tr("%1 and %2").arg(by, with);
    if (kind == "record") {
        const std::string step(act.textOf("step"));
        QStringList facts;
        if (const Json* given = act.find("facts")) {
            for (const canon::Member& fact : given->members) {
                facts.push_back(factWords(pack, step, fact));
            }
        }
        //: %1 who, %2 a step's title
        const QString says = Words::tr("%1: \"%2\".").arg(who, text::ofPack(pack, "step." + step));
        return facts.isEmpty() ? says : says + QLatin1Char(' ') + facts.join(QStringLiteral("; "));
    }
    if (kind == "release") {
        //: %1 who, %2 a hold point
        return Words::tr("%1 release \"%2\".").arg(who, text::ofPack(pack, "hold-point." + std::string(act.textOf("hold_point"))));
    }
    if (kind == "event") {
        return text::ofPack(pack, "event." + std::string(act.textOf("event")) + ".said");
    }
    if (kind == "clear") {
        return Words::tr("%1 answer: %2").arg(who, text::ofPack(pack, "stop." + std::string(act.textOf("stop"))));
    }
    if (kind == "reboot" || kind == "jump-clock") {
        return Words::tr("The tablet's clock is not confirmed.");
    }
    return {};
}

} // namespace

void BookWriter::changes(const Since& since)
{
    heading(2, QStringLiteral("changes"), Words::tr("What changed since %1").arg(since.name));
    const Said before = Teller{*since.pack, book.reading}.all();
    const Said now = Teller{pack, book.reading}.all();
    const auto in = [](const Said& said, const QString& what) {
        return std::ranges::find(said, what, &std::pair<QString, QString>::first);
    };
    bool any = false;
    for (const auto& [what, value] : now) {
        const auto old = in(before, what);
        if (old == before.end()) {
            item(what + QLatin1Char(':'), Words::tr("new: %1").arg(value));
        } else if (old->second != value) {
            item(what + QLatin1Char(':'), Words::tr("now %1; before %2").arg(value, old->second));
        }
        any = any || old == before.end() || old->second != value;
    }
    for (const auto& [what, value] : before) {
        if (in(now, what) == now.end()) {
            item(what + QLatin1Char(':'), Words::tr("gone; it was: %1").arg(value));
            any = true;
        }
    }
    if (!any) {
        line(Words::tr("Nothing in the steps, the hold points and the limits."));
    }
    const auto examples = [&](const std::vector<rules::Finding>& findings, const QString& title, const QString& none, const Pack& told_by) {
        html += QStringLiteral("<h3>%1</h3>\n").arg(title.toHtmlEscaped());
        if (findings.empty()) {
            line(none);
        }
        for (const rules::Finding& finding : findings) {
            //: an example; %1 a hold point
            const QString name = finding.at_giving ? Words::tr("\"%1\", when it is given:") : Words::tr("\"%1\", while it stands:");
            QStringList acts;
            if (const Json* done = finding.history.find("do")) {
                for (const Json& act : done->items) {
                    if (const QString words = actWords(told_by, act); !words.isEmpty()) {
                        acts.push_back(words);
                    }
                }
            }
            list(name.arg(text::ofPack(told_by, "hold-point." + finding.hold_point)), acts);
        }
    };
    examples(since.more, Words::tr("Granted now and not before"), Words::tr("Nothing: proven over all records that can be."), pack);
    examples(since.less, Words::tr("Granted before and not now"), Words::tr("Nothing: proven over all records that can be."), *since.pack);
}

} // namespace brimful::print
