// Opening the yard for one command, and telling what was written.
#pragma once

#include "app/cli/options.h"

#include <functional>

namespace brimful::cli {

// Refused with --at: what writes is always now.
int withYard(Options&, yard::Access, const std::function<int(yard::Yard&)>& use);
// For the acts that open no yard: the exit code of the refusal when --at was given.
[[nodiscard]] std::optional<int> refusedAt(const Options&);
int failPage(const Options&, const std::string& path); // a page that cannot be written there
int receipt(const Options&, const yard::Yard&, const yard::Outcome<yard::Receipt>&);
// As receipt(); a refused release also lists every reason, as "blockers" of a JSON error.
int releaseReceipt(const Options&, yard::Yard&, const std::string& vessel, const yard::Outcome<yard::Receipt>&);

} // namespace brimful::cli
