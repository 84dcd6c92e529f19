// Opening the yard for one command, and telling what was written.
#pragma once

#include "app/cli/options.h"

#include <functional>

namespace brimful::cli {

int withYard(Options&, yard::Access, const std::function<int(yard::Yard&)>& use);
int receipt(const Options&, const yard::Yard&, const yard::Outcome<yard::Receipt>&);
// As receipt(); a refused release also lists every reason.
int releaseReceipt(const Options&, yard::Yard&, const std::string& vessel, const yard::Outcome<yard::Receipt>&);

} // namespace brimful::cli
