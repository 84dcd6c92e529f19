// One body as the verifier reads it: its own check of form and its own fields, without the writer's code and without a
// tree. Views into the bytes; they live as long as those.
#pragma once

#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

namespace brimful::ledger {

struct Body {
    // Hex and words as they stand between their quotes; "" when absent.
    std::string_view boot_id, clock, device, kind, pack, person, prev, role, vessel, yard;
    std::int64_t boot{};
    std::int64_t seq{};
    std::int64_t wall{};
    std::vector<std::string_view> attachments; // hex
    std::vector<std::string_view> parents; // hex
    std::string_view payload; // an object's bytes
};

// Nothing when these bytes are not a body of FORMAT.md. Whether its kind may stand without a person is not asked here.
[[nodiscard]] std::optional<Body> readBody(std::string_view bytes);

} // namespace brimful::ledger
