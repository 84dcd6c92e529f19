// A small yard made entry by entry, with every key in hand: what an honest program writes, and what an insider could forge.
#pragma once

#include "core/ledger/ledger.h"
#include "core/ledger/verify.h"
#include "core/ledger/yard_state.h"
#include "core/people/keys.h"

#include <QTemporaryDir>

#include <map>

namespace brimful::test {

struct Actor {
    PersonId id{people::randomId<PersonId>()};
    people::SigningKey key{people::SigningKey::generate()};
};

class History {
public:
    static constexpr std::int64_t kStart = 1'781'424'000'000; // 2026-06-14T08:00Z

    History();

    // The next entry as an honest program makes it, a minute after the one before: change it, then sign.
    [[nodiscard]] ledger::Entry draft(ledger::Kind kind, canon::Json payload, const Actor* who = nullptr, std::string role = {},
        std::optional<VesselId> vessel = {}) const;
    [[nodiscard]] ledger::Stored sign(const ledger::Entry& entry, const Actor* who) const;
    Hash keep(const ledger::Entry& entry, const Actor* who); // signed, and last of all now
    Hash keep(ledger::Stored row);

    Hash add(ledger::Kind kind, canon::Json payload, const Actor* who = nullptr, std::string role = {}, std::optional<VesselId> vessel = {})
    {
        return keep(draft(kind, std::move(payload), who, std::move(role), vessel), who);
    }
    Hash enrol(const Actor& person, const std::string& name);
    Hash grant(const Actor& person, const std::string& role, std::int64_t from, std::optional<std::int64_t> until = {});
    VesselId admit(const std::string& number); // by ada, as inspector
    Hash event(const VesselId& vessel, const std::string& what);

    void write(const std::filesystem::path& file) const;
    [[nodiscard]] std::vector<ledger::Line> lines() const;

    Actor ada; // the founder: authoriser, inspector
    Actor ben; // gas-tester
    people::SigningKey device_key{people::SigningKey::generate()};
    people::SigningKey recovery{people::SigningKey::generate()};
    YardId yard{people::randomId<YardId>()};
    DeviceId device{people::randomId<DeviceId>()};
    BootId boot{people::randomId<BootId>()};
    Hash pack;
    std::vector<ledger::Stored> rows;
    std::int64_t minutes{};
    std::map<std::string, std::vector<Hash>> heads; // by vessel; "" the yard's
};

// A ledger file in a folder of its own, gone at the end.
struct Shelf {
    QTemporaryDir root;
    [[nodiscard]] std::filesystem::path file() const { return std::filesystem::path(root.path().toStdString()) / "ledger.db"; }
};

[[nodiscard]] canon::Json payload(std::initializer_list<std::pair<const char*, canon::Json>> members);
[[nodiscard]] const char* flawWord(ledger::Flaw flaw);
// "row 3: hash differs, row 4: ..."
[[nodiscard]] std::string findingsText(const ledger::Verification& verification);
[[nodiscard]] ledger::Verification verified(const std::filesystem::path& file, const ledger::VerifyOptions& options = {});
// Runs SQL on the file with the triggers taken away and put back: what somebody with the file in hand can do.
void meddle(const std::filesystem::path& file, const std::vector<std::string>& sql);

} // namespace brimful::test
