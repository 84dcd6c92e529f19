#include "core/evidence/history.h"

#include <algorithm>

namespace brimful::evidence {

namespace {

// Where a device's feed forked, its entries say nothing of each other but by the parents they name: each is a feed of its own.
DeviceId feedOf(const ledger::Line& line)
{
    DeviceId feed = line.entry.device;
    if (line.beside) {
        std::copy_n(line.hash.value.begin(), feed.value.size(), feed.value.begin());
    }
    return feed;
}

} // namespace

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
        if (const auto before = newest.find(line.entry.device); before != newest.end() && !line.beside) {
            learn(before->second);
        }
        for (const Hash& parent : line.entry.parents) {
            if (const auto known = m_numbers.find(parent); known != m_numbers.end()) {
                learn(known->second);
            }
        }
        std::uint64_t& own = clock[feedOf(line)];
        own = std::max(own, line.entry.seq);
        m_clocks.push_back(std::move(clock));
        m_numbers.emplace(line.hash, number);
        if (!line.beside) {
            newest[line.entry.device] = number;
        }
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
    const auto& clock = m_clocks[later - 1];
    const auto known = clock.find(feedOf(line(earlier)));
    return known != clock.end() && known->second >= line(earlier).entry.seq;
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
