// What a supervisor may ask in person: what was seen, and the question. Never who was wrong.
#include "app/text/words.h"

#include "app/text/tr.h"

namespace brimful::text {

using report::Question;

namespace {

QString listOf(const std::vector<std::string>& names)
{
    QStringList out;
    for (const std::string& name : names) {
        out.push_back(QString::fromStdString(name));
    }
    return out.join(QStringLiteral(", "));
}

QString cardsOf(const rules::Pack& pack, const Question& question)
{
    QStringList out;
    for (const rules::Index step : question.steps) {
        out.push_back(stepTitle(pack, step));
    }
    out.removeDuplicates();
    return out.join(QStringLiteral("; "));
}

// What the work came after, for "signed 3 min after ...".
QString startOf(const rules::Pack& pack, const Question& question)
{
    if (question.after_event != rules::kNone) {
        //: what happened, as its button says: after "Water goes in"
        return tr("\"%1\" was pressed").arg(ofPack(pack, "event." + pack.events[question.after_event].id));
    }
    if (question.after_release != rules::kNone) {
        //: %1 a hold point
        return tr("the release \"%1\"").arg(holdPointName(pack, question.after_release));
    }
    //: %1 a step's title
    return tr("the card \"%1\"").arg(stepTitle(pack, question.after_step));
}

} // namespace

Asking toAsk(const rules::Pack& pack, const Question& question, const Reading& reading)
{
    const QString vessels = listOf(question.vessels);
    const QString took = span(question.took_ms, reading);
    const QString takes = span(question.takes_ms, reading);
    const int count = static_cast<int>(question.count);
    switch (question.what) {
    case Question::What::SoonerThanItTakes:
        //: %1 a vessel's number, %2 a step's title, %3 and %5 times, %4 what the work came after
        return {tr("%1, \"%2\": signed %3 after %4. The work takes about %5.")
                    .arg(vessels, cardsOf(pack, question), took, startOf(pack, question), takes),
            tr("How was it done, and when?")};
    case Question::What::SoonerThanItSays:
        //: %1 a vessel's number, %2 a step's title, %3 a time, %4 what the work came after, %5 what the card asks, %6 what was typed
        return {tr("%1, \"%2\": signed %3 after %4. The card says: %5 %6.")
                    .arg(vessels, cardsOf(pack, question), took, startOf(pack, question), factAsk(pack, question.fact),
                        QString::fromStdString(question.value)),
            tr("When did that time begin, and who watched the clock?")};
    case Question::What::SignedTogether:
        //: %1 vessels, %2 a time, %3 titles of steps, %4 a time
        return {tr("%1: %n cards signed within %2. Their work takes about %4 together: %3.", nullptr, count)
                    .arg(vessels, took, cardsOf(pack, question), takes),
            tr("Signed as the work went on, or written down afterwards? From what?")};
    case Question::What::JustBeforeRelease:
        //: %1 a vessel's number, %2 a hold point, %3 and %4 times
        return {tr("%1: all %n cards before the release \"%2\" were signed in the last %3. After the first their work takes about %4.",
                    nullptr, count)
                    .arg(vessels, holdPointName(pack, question.hold_point), took, takes),
            tr("When was the work done?")};
    case Question::What::SameValue:
        //: %1 what the card asks, %2 what was typed, %3 vessels
        return {tr("%1 %2, %n times running: %3.", nullptr, count)
                    .arg(factAsk(pack, question.fact), QString::fromStdString(question.value), vessels),
            tr("How is it measured, and with what?")};
    case Question::What::SamePair:
        //: %1 two names
        return {tr("The last %n releases were all given by the same two people: %1.", nullptr, count).arg(listOf(question.persons)),
            tr("Others may give or accept them too. Who takes a turn?")};
    case Question::What::NothingFound:
        return {tr("On the last %n vessels nothing was found: no card outside its limit, no \"cannot\", no stop, no release taken back.",
                    nullptr, count),
            tr("What did the checks look like when they were done?")};
    }
    return {};
}

QString lookedAt(const report::Asked& asked, const Reading& reading)
{
    const auto number = [&](std::size_t count) { return reading.locale.toString(static_cast<qulonglong>(count)); };
    //: the three are numbers
    return tr("Looked at: cards %1, releases %2, vessels %3.").arg(number(asked.cards), number(asked.releases), number(asked.vessels));
}

QString nothingStoodOut()
{
    return tr("Nothing stood out by the clock, by repeated values, or by who signed. That says nothing of how the work was done.");
}

} // namespace brimful::text
