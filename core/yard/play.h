// Scripted histories through the real use cases: the demo, the packs' cases and the tests are all made of them.
// A scenario can only make a yard of its own, whose first entry says that it plays.
#pragma once

#include "core/yard/clocks.h"
#include "core/yard/yard.h"

namespace brimful::yard {

struct PlayedLine {
    std::int64_t at_ms{};
    std::string act; // "record", "release" ...
    std::string vessel;
    std::string what; // step, hold point, event
    std::string outcome; // "done", "waits-for-second", "failing", or the word of a refusal
};

struct Unmet {
    std::size_t act{}; // place in "do", from 0
    std::string vessel;
    std::string expected;
    std::string found;
};

struct Played {
    std::vector<PlayedLine> lines;
    std::vector<Unmet> unmet; // expectations that did not hold
};

// The scenario's file format is told in rules/LANGUAGE.md. `ends_at`: the wall time at which the last act happens; absent:
// the scenario's own clock is used. A scenario that cannot be read is ScenarioBad with the path.
[[nodiscard]] Outcome<Played> play(
    const canon::Json& scenario, const std::filesystem::path& folder, std::optional<std::int64_t> ends_at = std::nullopt);

// The demo yard: played up to this minute, then confirmed in this boot, so that its running clocks are live.
// `law`: another than the demo's own, as in AdoptRequest.
[[nodiscard]] Outcome<Played> makeDemo(const std::filesystem::path& folder, const std::optional<std::string>& law = std::nullopt);

} // namespace brimful::yard
