// Ids and arguments into sentences of one language. The only room that words anything; core returns ids.
#pragma once

#include "core/report/audit.h"
#include "core/report/questions.h"
#include "core/report/refusal.h"
#include "core/rules/law.h"
#include "core/rules/proof.h"

#include <QLocale>
#include <QString>

namespace brimful::text {

enum class Units : std::uint8_t { Us, Si };

// How a person reads numbers and times.
struct Reading {
    Units units{Units::Us};
    QLocale locale{QLocale::c()};
    int offset_minutes{}; // local time = UTC + this
    bool operator==(const Reading&) const = default;
};

// ---- the pack's own words (strings.en.json, translated through the "Rules" context); an unknown key gives the key itself
[[nodiscard]] QString ofPack(const rules::Pack&, const std::string& key); // "step.brim"
[[nodiscard]] QString stepTitle(const rules::Pack&, rules::Index step);
[[nodiscard]] QString stepWhy(const rules::Pack&, rules::Index step);
[[nodiscard]] QString factAsk(const rules::Pack&, rules::Index fact);
[[nodiscard]] QString optionWord(const rules::Pack&, rules::Index fact, const std::string& option);
[[nodiscard]] QString holdPointName(const rules::Pack&, rules::Index hold_point);
[[nodiscard]] QString instrumentType(const std::string& type); // "gas meter"; an unknown type as it was written
[[nodiscard]] QString roleName(const rules::Pack&, const std::string& role);

// A condition in words, as nested as it is written: a leaf has no parts.
struct Phrase {
    QString text;
    std::vector<Phrase> of;
};
[[nodiscard]] Phrase conditionWords(const rules::Pack&, rules::Index start, const Reading&);

// ---- quantities and times
[[nodiscard]] QString quantity(double si, quantity::Dimension, const Reading&);
[[nodiscard]] QString recorded(const canon::Json& value, const rules::Fact&, const rules::Pack&, const Reading&); // a payload's value
[[nodiscard]] QString clockTime(std::int64_t wall_ms, const Reading&); // "16:30"
[[nodiscard]] QString dateTime(std::int64_t wall_ms, const Reading&); // "Sun 14 Jun 2026 16:30 (UTC-4)"
[[nodiscard]] QString span(std::int64_t ms, const Reading&); // "19 min", "2 h 10", "3 days"

// ---- answers
[[nodiscard]] QString signalWord(report::Signal); // "DANGER"
[[nodiscard]] QString plateWord(report::PlateWord); // "HELD"
[[nodiscard]] QString plateLine(const report::VesselView&, const rules::Pack&, const Reading&); // "before first cut"
[[nodiscard]] QString lack(rules::Lack); // "lapsed"
struct Held {
    QString reason; // "Readings are 19 min old."
    QString remedy; // "They count for 30 min. Test 5 places again."
    QString who; // "Gas tester."
    QString button; // the verb: "Test again"
};
[[nodiscard]] Held heldBy(const rules::Pack&, const report::VesselView&, const rules::Blocker&, const Reading&);
[[nodiscard]] QString nextThing(const rules::Pack&, const rules::Next&); // "Fill to the brim"
[[nodiscard]] QString refusal(const report::Refusal&, const rules::Pack* pack); // one sentence: what, where, what was expected
[[nodiscard]] QString warning(const std::string& word); // of a figure
[[nodiscard]] QString figureName(const std::string& name);
[[nodiscard]] QString figureError(const figure::Error&);
[[nodiscard]] QString trailTitle(const rules::Pack&, const report::TrailLine&);
[[nodiscard]] QString ownAnswer(const rules::Pack&, const report::TrailLine&, const Reading&); // of a second signature; "" none
// "from a file, dark, no tag in the picture"; "" where the entry tells nothing. Of a step of the whole yard no tag is expected.
[[nodiscard]] QString photograph(const ledger::PhotoNote&, bool of_vessel);
[[nodiscard]] QString sourceLine(const rules::SourceRef&); // "NFPA 51B-2019, 5.5 (found)"
// A carried law by its id: "Australia"; "" all of them together; an id that is not known as it is written.
[[nodiscard]] QString lawName(const std::string& law);
struct Tightened {
    QString what; // "Clear of what burns, for heat"
    QString asks; // "15 m instead of 11 m"
    QString source; // with its mark
};
[[nodiscard]] Tightened tightened(const rules::Tightening&, const rules::Pack&, const Reading&);
[[nodiscard]] QString flaw(const ledger::Finding&);
[[nodiscard]] QString loadError(const rules::LoadError&);
[[nodiscard]] std::string lawId(rules::Law); // "P1", as rules/LANGUAGE.md numbers them
[[nodiscard]] QString finding(const rules::Finding&, const rules::Pack&); // what a proof found

// A question for the supervisor to ask in person; never who was wrong.
struct Asking {
    QString what; // "NQ-02, "Fill 2": signed 3 min after ..."
    QString ask; // "How was it done, and when?"
};
[[nodiscard]] Asking toAsk(const rules::Pack&, const report::Question&, const Reading&);
[[nodiscard]] QString lookedAt(const report::Asked&, const Reading&); // how much was looked at
[[nodiscard]] QString nothingStoodOut(); // beside it, where there is no question

// What it does not do, and what to watch: for the first page of the tablet, reports and help.
[[nodiscard]] QStringList cautions();

} // namespace brimful::text
