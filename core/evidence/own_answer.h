// What the second person of an act must give himself before he signs. One place decides it, for the glass, for the command
// line and for whoever reads the record. Pure: made from the pack and the first entry.
#pragma once

#include "core/ledger/own_answer.h"
#include "core/rules/pack.h"

namespace brimful::evidence {

// One value of the first entry.
struct AskedOfSecond {
    rules::Index fact{rules::kNone}; // a choice, a count or a quantity
    std::string row; // of a register; "" a fact of its own
    bool operator==(const AskedOfSecond&) const = default;
};

// The last number of the entry in the order of the pack, of a register that of its last row. Where it has no number: of its
// choices the one with the most words to choose from, of equals the last. Nothing: it has neither; it says "cannot"; it needs
// no second person; or it is neither record nor release. A clearing is not asked about: it holds words of the first person's
// own, which nobody else can give again.
[[nodiscard]] std::optional<AskedOfSecond> askedOfSecond(const rules::Pack&, const ledger::Entry& first);
// The same of what is still to be written: facts of a step, or answers of a hold point's talk; as typed or as recorded.
[[nodiscard]] std::optional<AskedOfSecond> askedOfSecond(const rules::Pack&, rules::Index step, const canon::Json& values);

// The step, or the hold point's talk, that an entry is a record of; kNone: of none in this pack.
[[nodiscard]] rules::Index stepOf(const rules::Pack&, const ledger::Entry&);
// The values of such an entry: its facts or answers; null where it has none.
[[nodiscard]] const canon::Json* valuesOf(const ledger::Entry&);
[[nodiscard]] const canon::Json* valueAt(const rules::Pack&, const AskedOfSecond&, const canon::Json& values); // null: not there

// Two values that were looked for apart: words and numbers are equal; quantities lie within one of the last place of the coarser one,
// which is as well as a display or a tape tells them. Of gas and oxygen the counts are equal: another reading is another reading.
[[nodiscard]] bool agree(const canon::Json&, const canon::Json&);

[[nodiscard]] ledger::OwnAnswer ownAnswer(const rules::Pack&, const AskedOfSecond&, canon::Json value);
// What an answer that was kept is about; nothing: this pack does not know it of that step.
[[nodiscard]] std::optional<AskedOfSecond> askedBy(const rules::Pack&, rules::Index step, const ledger::OwnAnswer&);

} // namespace brimful::evidence
