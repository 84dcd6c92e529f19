#pragma once

#include <string_view>
#include <vector>

namespace brimful::ledger {

// Whether the member `photos` of an evidence entry's payload, if it has one, is as FORMAT.md has it. Attachments in hex.
[[nodiscard]] bool photosHold(std::string_view payload, const std::vector<std::string_view>& attachments);

} // namespace brimful::ledger
