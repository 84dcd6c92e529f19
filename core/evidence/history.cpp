#include "core/evidence/history.h"

#include <algorithm>

namespace brimful::evidence {

History::History(std::span<const ledger::Line> lines)
    : m_lines(lines)
{
    std::map<DeviceId, EntryNumber> newest;
    m_clocks.reserve(lines.size());
    for (const ledger::Line& line : lines) {
        const auto number = static_cast<EntryNumber>(m_clocks.size() + 1);
        std::map<DeviceId, std::uint64_t> clock;
        const auto learn = [&](EntryNumber from) {
            for (const auto& [device, seq] : m_clocks[from - 1]) {
                clock[device] = std::max(clock[device], seq);
            }
        };
        if (const auto before = newest.find(line.entry.device); before != newest.end()) {
            learn(before->second);
        }
        for (const Hash& parent : line.entry.parents) {
            if (const auto known = m_numbers.find(parent); known != m_numbers.end()) {
                learn(known->second);
            }
        }
        clock[line.entry.device] = std::max(clock[line.entry.device], line.entry.seq);
        m_clocks.push_back(std::move(clock));
        m_numbers.emplace(line.hash, number);
        newest[line.entry.device] = number;
    }
}

EntryNumber History::numberOf(const Hash& hash) const
{
    const auto found = m_numbers.find(hash);
    return found == m_numbers.end() ? 0 : found->second;
}

bool History::knew(EntryNumber later, EntryNumber earlier) const
{
    if (later == earlier || later == 0 || earlier == 0) {
        return false;
    }
    const ledger::Entry& entry = line(earlier).entry;
    const auto& clock = m_clocks[later - 1];
    const auto known = clock.find(entry.device);
    return known != clock.end() && known->second >= entry.seq;
}

std::vector<ledger::Line> History::ancestorsAndSelf(EntryNumber number) const
{
    std::vector<ledger::Line> out;
    for (EntryNumber n = 1; n <= size(); ++n) {
        if (n == number || knew(number, n)) {
            out.push_back(line(n));
        }
    }
    return out;
}

} // namespace brimful::evidence
