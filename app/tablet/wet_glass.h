// When water, a hand or a sleeve lies on the glass, and what still counts as a touch then. Pure: it is fed all contacts, and the time
// in milliseconds since some beginning.
// Its limits come from the design; nobody measured them with water, gloves and this glass. Mark: proposal.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

namespace brimful::tablet {

class WetGlass {
public:
    struct Contact {
        int id{};
        double across_mm{}; // the longer way; 0 where the glass does not say
    };
    static constexpr std::size_t kMany = 3; // so many at once are no finger
    static constexpr double kLargeMm = 25; // what is longer is none either, if it stays
    static constexpr std::int64_t kLargeForMs = 300;
    static constexpr std::int64_t kDropsMs = 3000; // so long after the last sign of water no touch counts
    static constexpr std::int64_t kCleanMs = 150; // what presses so long and is small is a finger all the same

    // All that lie on the glass now; none: all were lifted. To be asked again at `next()`. True: what happened is a touch.
    bool see(const std::vector<Contact>& contacts, std::int64_t now_ms);
    [[nodiscard]] bool wet() const { return m_wet; } // touches are dropped, and the screen says so; what began so is so until it lifts
    // Contacts that became clean presses at the last look. Beside one other thing too: they may only take away, and there a press too
    // many is the smaller error.
    [[nodiscard]] const std::vector<int>& clean() const { return m_clean; }
    [[nodiscard]] std::optional<std::int64_t> next() const; // something changes then though nothing moves

private:
    struct Lying {
        int id{};
        std::int64_t since_ms{};
        std::optional<std::int64_t> large_since_ms;
        bool dropped{}; // no touch, as long as it lies
        bool told{}; // as a clean press, or never to be
    };
    void renew(const std::vector<Contact>& contacts, std::int64_t now_ms);

    std::vector<Lying> m_lying;
    std::vector<int> m_clean;
    std::optional<std::int64_t> m_until_ms; // of the dropping
    std::int64_t m_seen_ms{};
    bool m_wet{};
};

} // namespace brimful::tablet
