// One thing asked at a time: what a sheet asks, with which hand it is answered, and where the answer goes. Pure: made
// from the pack and the vessel's record.
#pragma once

#include "app/text/words.h"
#include "core/evidence/fold.h"
#include "core/evidence/own_answer.h"

#include <QString>
#include <QStringList>

#include <string>
#include <vector>

namespace brimful::tablet {

enum class Hand : std::uint8_t { Number, Choice, Write, File, People, Pin, Told };

struct Option {
    std::string word;
    QString title;
    QString line;
};

// A number to be typed. Two at once where a meter shows both.
struct Field {
    std::string key;
    QString caption;
    quantity::Dimension dimension{quantity::Dimension::Number};
    rules::Index fact{rules::kNone};
};

struct Ask {
    QString ask;
    QString why;
    Hand hand{Hand::Choice};
    std::string into; // key of the fact, or of the register
    std::string member; // row of a register, "" for a fact of its own
    std::vector<Field> fields; // of Number; of the others one, whose key and fact are meant
    std::vector<Option> options;
    QStringList phrases; // of Write: what is often said
    bool optional{};
    bool names_row{}; // of Write: opens a row of a register that its own rows define; "" ends it
    bool many{}; // of Choice: several may be picked
    bool round{}; // of Choice: all that its row asks, and another row may follow; the press takes it
    bool instrument{}; // of Choice: with which meter
    bool tag{}; // of Write: the tag read at the vessel
    bool secret{}; // of Number: a PIN; typed twice
};

// All that a step or a hold point's talk asks, in the pack's order.
[[nodiscard]] std::vector<Ask> asksOf(
    const rules::Pack&, rules::Index step, const evidence::Folded*, const ledger::YardState&, const text::Reading&);
// Columns of one row, for a register whose rows are named one by one.
[[nodiscard]] std::vector<Ask> rowAsks(
    const rules::Pack&, const rules::Register&, const std::string& member, const ledger::YardState&, const text::Reading&);

// What the second person gives himself.
[[nodiscard]] Ask askOfSecond(const rules::Pack&, const evidence::AskedOfSecond&, const ledger::YardState&);

// The acceptance limit of a fact in words, "" where the step has none: "Need 480 gal or more."
[[nodiscard]] QString needOf(const rules::Pack&, rules::Index fact, const text::Reading&);
// Whether a count lies outside that limit.
[[nodiscard]] bool isOutside(const rules::Pack&, rules::Index fact, std::int64_t count);

// At a hold point: does the answer say what the record says? True too where there is nothing to compare with.
[[nodiscard]] bool agrees(const rules::Pack&, const evidence::Folded&, rules::Index fact, const canon::Json& answer);

} // namespace brimful::tablet
