// A yard in a temporary folder, with two people and a scripted clock; and the demo yard, played once and copied.
#pragma once

#include "core/yard/play.h"

#include <QTemporaryDir>

namespace brimful::test {

inline constexpr std::int64_t kStart = 1'781'424'000'000; // 2026-06-14T08:00Z

struct Crew {
    QTemporaryDir folder;
    yard::ScriptedClock clock{{kStart, 3'600'000, people::randomId<BootId>(), ledger::ClockState::Ok}};
    yard::Signing ada{"Ada", "480263", {}};
    yard::Signing tam{"Tam", "916472", {}};

    [[nodiscard]] std::filesystem::path yardFolder() const { return (folder.path() + QStringLiteral("/yard")).toStdString(); }
    // Ada: authoriser, supervisor, tester, watch. Tam: operator, hand.
    yard::Yard open();
    yard::Yard reopen(yard::Access access = yard::Access::ReadWrite);
};

// The scenario that the demo yard is made of.
canon::Json demoScenario();

// Plays the demo's scenario into `folder`, ended now by the machine's clock and confirmed in this boot.
void makeDemo(const std::filesystem::path& folder);

[[nodiscard]] canon::Json json(const char* text);

} // namespace brimful::test
