// Who knew what: the causal order of entries, by device feeds and parents, never by clocks.
#pragma once

#include "core/ledger/entry.h"

#include <cstdint>
#include <map>
#include <span>
#include <unordered_map>
#include <vector>

namespace brimful::evidence {

// Entries are numbered from 1 in the order given; 0 is none.
using EntryNumber = std::uint32_t;

class History {
public:
    explicit History(std::span<const ledger::Line> lines);

    [[nodiscard]] const ledger::Line& line(EntryNumber number) const { return m_lines[number - 1]; }
    [[nodiscard]] EntryNumber size() const { return static_cast<EntryNumber>(m_lines.size()); }
    [[nodiscard]] EntryNumber numberOf(const Hash&) const; // 0: not here
    // Did whoever wrote `later` know `earlier`? An entry does not know itself.
    [[nodiscard]] bool knew(EntryNumber later, EntryNumber earlier) const;
    [[nodiscard]] std::vector<ledger::Line> ancestorsAndSelf(EntryNumber) const; // in order

private:
    std::span<const ledger::Line> m_lines;
    std::unordered_map<Hash, EntryNumber> m_numbers;
    std::vector<std::map<DeviceId, std::uint64_t>> m_clocks; // per entry: how far into each device's feed it knew, itself included
};

} // namespace brimful::evidence
