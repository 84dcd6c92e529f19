// A vessel's history told entry by entry, with a scripted clock: one device unless said otherwise, four people, one meter.
#pragma once

#include "core/evidence/fold.h"

#include <optional>
#include <string>
#include <vector>

namespace brimful::test {

using canon::Json;

inline constexpr std::int64_t kMinute = 60 * 1000;
inline constexpr std::int64_t kHour = 60 * kMinute;
inline constexpr std::int64_t kStart = 1'780'000'000'000; // wall, ms

// A quantity as an entry keeps it.
[[nodiscard]] Json measured(const std::string& typed, quantity::Dimension);
[[nodiscard]] Json length(const std::string& typed);
[[nodiscard]] Json shownGas(const std::string& typed);
[[nodiscard]] Json seconds(std::int64_t count);
[[nodiscard]] Json values(std::initializer_list<std::pair<const char*, Json>>);

enum class Who : std::uint8_t { Hand = 1, Tester, Authoriser, Operator, Second };

struct How {
    std::optional<Who> by;
    std::string role; // empty: the one named like the person
    std::vector<Hash> files;
    std::string instrument;
    bool cannot{};
    std::uint8_t device{1};
    std::optional<std::vector<Hash>> parents; // absent: every head
    bool of_yard{};
};

class Story {
public:
    Story();

    void wait(std::int64_t ms) { m_now.boot_ms += ms, m_now.wall_ms += ms; }
    void reboot(bool confirm);
    [[nodiscard]] ledger::Moment now() const { return m_now; }

    Hash add(ledger::Kind, Json payload, const How&);
    Hash record(const std::string& step, Json facts, How);
    Hash confirm(const Hash&, Who, std::string role = {});
    Hash event(const std::string& event, std::optional<Who> by = std::nullopt);
    Hash correct(const Hash&, Who by = Who::Hand);
    Hash clear(const std::string& stop, const Hash& raised, Who by, std::optional<Who> with = std::nullopt);
    Hash bump(bool passed);
    Hash printTag();
    // Returns the confirming entry.
    Hash release(
        const std::string& hold_point, Json answers, const std::optional<Hash>& tag, Who by = Who::Authoriser, Who with = Who::Operator);

    // The usual records, all good.
    Hash papers(const std::string& held = "air");
    Hash look(const std::string& depth = "12 mm");
    Hash openings();
    Hash day();
    Hash readings(const std::string& top = "0 %LEL", const std::string& bottom = "0 %LEL", std::int64_t oldest_s = 0);
    Hash cut();
    void readyForFirst(); // everything that `first` asks for
    Hash giveFirst(const std::string& highest = "0 %LEL"); // tag, talk, two people; returns the confirming entry

    [[nodiscard]] evidence::Folded fold();
    [[nodiscard]] evidence::Folded foldBy(const rules::Pack&) const; // another pack of the same steps
    [[nodiscard]] rules::Standing standing();
    [[nodiscard]] rules::StepHeld step(const std::string& id);
    [[nodiscard]] rules::Held fact(const std::string& id);
    [[nodiscard]] rules::StopHeld stop(const std::string& id);
    [[nodiscard]] rules::ReleaseHeld given(const std::string& hold_point = "first");
    [[nodiscard]] std::uint32_t numberOf(const Hash&) const;

    static const rules::Pack& pack();
    static PersonId person(Who);

    ledger::YardState yard;
    VesselId vessel;
    std::vector<ledger::Line> lines;
    evidence::Surroundings around;
    evidence::Memo memo;

private:
    [[nodiscard]] std::vector<Hash> heads(bool of_yard) const;
    ledger::Moment m_now;
    std::map<DeviceId, std::pair<std::uint64_t, Hash>> m_feeds;
};

} // namespace brimful::test
