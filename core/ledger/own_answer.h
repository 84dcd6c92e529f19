// What the second person of an act answered himself, as the payload of `confirmed` keeps it.
#pragma once

#include "core/ledger/entry.h"

namespace brimful::ledger {

// Where the value stands in the first entry's `facts` or `answers`, and the value as it was given again.
struct OwnAnswer {
    std::string fact; // key of the fact, or of the register
    std::string row, column; // of a register: the row's name, the column's key; else ""
    canon::Json value; // a choice as text, a count as an integer, a quantity as {count, typed, unit}
};

// Of a payload. Nothing: it was written before second people answered, or there was nothing to ask. An error's path begins
// with "answer".
[[nodiscard]] tl::expected<std::optional<OwnAnswer>, EntryError> ownAnswer(const canon::Json& payload);
[[nodiscard]] canon::Json toJson(const OwnAnswer&);

} // namespace brimful::ledger
