// Steps and hold points of the book.
#include "app/print/book_writer.h"
#include "core/quantity/recorded.h"

#include <QCoreApplication>

namespace brimful::print {

using rules::FactKind;
using rules::Index;
using rules::kNone;

namespace {

struct Words {
    Q_DECLARE_TR_FUNCTIONS(Book)
};

QString plain(const std::string& text) { return QString::fromStdString(text); }

QString actWord(rules::Act act)
{
    switch (act) {
    case rules::Act::Paper:
        return Words::tr("on paper");
    case rules::Act::Look:
        return Words::tr("by looking and measuring");
    case rules::Act::Open:
        return Words::tr("opens the vessel");
    case rules::Act::Fill:
        return Words::tr("lets water or gas in");
    case rules::Act::ColdCut:
        return Words::tr("cuts cold");
    case rules::Act::Heat:
        return Words::tr("makes heat");
    }
    return {};
}

QString kindWord(const rules::Fact& fact)
{
    switch (fact.kind) {
    case FactKind::Choice:
    case FactKind::Tag:
        return {};
    case FactKind::Quantity:
        return Words::tr("a number with its unit");
    case FactKind::Count:
        return Words::tr("a number");
    case FactKind::Text:
        return Words::tr("in words");
    case FactKind::Photo:
        return Words::tr("a photograph");
    case FactKind::Document:
        return Words::tr("a document");
    case FactKind::Echo:
        return Words::tr("typed again");
    case FactKind::Person:
        return fact.exclusive ? Words::tr("a person, who watches over no other vessel") : Words::tr("a person");
    case FactKind::Derived:
        return Words::tr("computed");
    }
    return {};
}

// "Water at the vent? (Runs over, At the lip, Below the lip)"
QString factLine(const BookWriter& write, Index index)
{
    const rules::Fact& fact = write.pack.facts[index];
    QStringList more;
    for (const std::string& option : fact.options) {
        if (fact.kind == FactKind::Choice) {
            more.push_back(text::optionWord(write.pack, index, option));
        }
    }
    if (const QString kind = kindWord(fact); !kind.isEmpty()) {
        more.push_back(kind);
    }
    if (fact.varies) {
        more.push_back(Words::tr("the same three times running is asked about"));
    }
    if (fact.optional) {
        more.push_back(Words::tr("may be left out"));
    }
    const QString ask = text::factAsk(write.pack, index);
    return more.isEmpty() ? ask : QStringLiteral("%1 (%2)").arg(ask, more.join(QStringLiteral(", ")));
}

// Whose signature on this step keeps them from giving or accepting which hold point.
QStringList mustNotSign(const BookWriter& write, Index step)
{
    QStringList out;
    for (std::size_t h = 0; h < write.pack.hold_points.size(); ++h) {
        const rules::HoldPoint& hold_point = write.pack.hold_points[h];
        for (const auto* rules : {&hold_point.at_giving, &hold_point.require}) {
            for (const rules::Rule& rule : *rules) {
                for (Index i = rule.condition; i < rule.condition + write.pack.conditions[rule.condition].size; ++i) {
                    const rules::Condition& leaf = write.pack.conditions[i];
                    if (leaf.op == rules::Op::NotBy && leaf.a / 2 == step) {
                        //: %1 a hold point
                        out.push_back(static_cast<rules::Actor>(leaf.b) == rules::Actor::By
                                ? Words::tr("whoever gives the release \"%1\"").arg(text::holdPointName(write.pack, static_cast<Index>(h)))
                                : Words::tr("whoever accepts the release \"%1\"")
                                      .arg(text::holdPointName(write.pack, static_cast<Index>(h))));
                    }
                }
            }
        }
    }
    if (!write.pack.steps[step].with.empty()) {
        out.push_back(Words::tr("one person twice: the second signature is another person's"));
    }
    out.removeDuplicates();
    return out;
}

} // namespace

void BookWriter::journey()
{
    heading(2, QStringLiteral("journey"), Words::tr("The way through"));
    for (std::size_t stage = 0; stage < pack.stages.size(); ++stage) {
        QStringList steps;
        for (std::size_t i = 0; i < pack.steps.size(); ++i) {
            if (pack.steps[i].stage == stage && pack.steps[i].talk_of == kNone) {
                steps.push_back(text::stepTitle(pack, static_cast<Index>(i)));
            }
        }
        for (std::size_t i = 0; i < pack.hold_points.size(); ++i) {
            if (pack.hold_points[i].stage == stage) {
                //: a hold point in the list of steps
                steps.push_back(Words::tr("HOLD POINT: %1").arg(text::holdPointName(pack, static_cast<Index>(i))));
            }
        }
        list(of("stage." + pack.stages[stage]), steps);
    }
}

void BookWriter::step(Index index)
{
    const rules::Step& one = pack.steps[index];
    heading(3, plain("step-" + one.id), text::stepTitle(pack, index));
    line(text::stepWhy(pack, index));
    for (const std::string& caution : one.cautions) {
        item(Words::tr("Caution:"), of("caution." + caution));
    }
    item(Words::tr("Done:"), one.of_yard ? actWord(one.act) + Words::tr(", once for the whole yard") : actWord(one.act));
    item(Words::tr("Signed by:"), roles(one.by));
    item(Words::tr("Confirmed by:"), roles(one.with));
    item(Words::tr("Must not sign it:"), mustNotSign(*this, index).join(QStringLiteral("; ")));
    item(Words::tr("With:"), one.instrument.empty() ? QString() : text::instrumentType(one.instrument));
    if (one.when) {
        phrase(Words::tr("Asked of vessels for which:"), text::conditionWords(pack, *one.when, book.reading));
    }
    QStringList needs;
    for (const Index need : one.needs) {
        needs.push_back(text::stepTitle(pack, need));
    }
    item(Words::tr("Made knowing the newest:"), needs.join(QStringLiteral(", ")));
    QStringList asks;
    for (const Index fact : one.facts) {
        asks.push_back(factLine(*this, fact));
    }
    for (const Index table : one.registers) {
        asks.push_back(Words::tr("%1 For each:").arg(of("fact." + pack.registers[table].id)));
        for (const Index fact : pack.registers[table].columns) {
            asks.push_back(QStringLiteral("- ") + factLine(*this, fact));
        }
        if (pack.registers[table].within_ms > 0) {
            asks.push_back(Words::tr("- the whole set within %1").arg(span(pack.registers[table].within_ms)));
        }
    }
    list(Words::tr("Asks:"), asks);
    phrase(Words::tr("Accepted when:"), text::conditionWords(pack, one.accept, book.reading));
    item(Words::tr("Begins with:"), events(one.begun_by).join(QStringLiteral(", ")));
    QString takes = one.takes_ms > 0 ? span(one.takes_ms) : QString();
    if (one.takes_for_mL) {
        const double holds = quantity::siOf(*one.takes_for_mL, "mL");
        takes = Words::tr("%1, of a vessel that holds %2").arg(takes, text::quantity(holds, quantity::Dimension::Volume, book.reading));
    }
    item(Words::tr("Takes about:"), takes);
    item(Words::tr("Counts for:"), one.life_ms > 0 ? span(one.life_ms) : Words::tr("until something voids it"));
    list(Words::tr("Voided when:"), events(one.voided_by));
    item(Words::tr("When it fails:"),
        one.on_fail == kNone
            ? Words::tr("it does not count; it is done again")
            : Words::tr("it stops the vessel (%1) until that is answered by name").arg(of("stop." + pack.stops[one.on_fail].id)));
    QStringList cannot;
    for (const rules::Cannot& reason : one.cannot) {
        const std::string key = "cannot." + one.id + "." + reason.id;
        cannot.push_back(of(key) + QStringLiteral(": ") + of(key + ".then"));
    }
    list(Words::tr("When it cannot be done:"), cannot);
    sources(one.sources);
}

void BookWriter::rule(const rules::Rule& one)
{
    if (one.at_talk) {
        return;
    }
    html += QStringLiteral("<p class=\"rule\"><b>%1</b></p>\n").arg(of("rule." + one.id).toHtmlEscaped());
    item(Words::tr("Barrier:"), of("barrier." + pack.barriers[one.barrier]));
    phrase({}, text::conditionWords(pack, one.condition, book.reading));
    item(Words::tr("To do:"), known("rule." + one.id + ".lift") ? of("rule." + one.id + ".lift") : QString());
    item(Words::tr("Added by:"), one.set_by.empty() ? QString() : text::lawName(one.set_by));
    sources(one.sources);
}

void BookWriter::rules_(const QString& name, const std::vector<rules::Rule>& rules)
{
    html += QStringLiteral("<h4>%1</h4>\n").arg(name.toHtmlEscaped());
    for (const rules::Rule& one : rules) {
        rule(one);
    }
}

void BookWriter::holdPoint(Index index)
{
    const rules::HoldPoint& one = pack.hold_points[index];
    //: heading; %1 a hold point
    heading(3, plain("hold-point-" + one.id), Words::tr("Hold point: %1").arg(text::holdPointName(pack, index)));
    item(Words::tr("What lies behind it:"), of("hold-point." + one.id + ".behind"));
    item(Words::tr("Given by:"), roles(one.by));
    item(Words::tr("Accepted by:"), roles(one.with));
    item(Words::tr("Lasts at most:"), span(one.lasts_ms));
    list(Words::tr("Ended when:"), events(one.ended_by));
    QStringList questions;
    for (const rules::Question& question : one.questions) {
        questions.push_back(of("question." + one.id + "." + question.id));
    }
    if (one.tag_fact != kNone) {
        questions.push_back(Words::tr("The vessel's newest tag is read at the vessel."));
    }
    list(Words::tr("Asked aloud, answered with a value:"), questions);
    rules_(Words::tr("Proven once, when it is given"), one.at_giving);
    rules_(Words::tr("Proven when it is given and at every look"), one.require);
    rules_(Words::tr("Held while one of these stands"), one.stop);
    sources(one.sources);
}

} // namespace brimful::print
