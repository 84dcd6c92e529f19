// Packs for tests: read from tests/core/rules/packs, or the ones that ship.
#pragma once

#include "core/rules/pack.h"

namespace brimful::test {

[[nodiscard]] rules::PackSource packFiles(const std::string& id);
[[nodiscard]] const rules::PackSource& shipped(std::string_view id);
// Ends the program, with all errors, when it does not load.
[[nodiscard]] rules::Pack loaded(const rules::PackSource& source, std::span<const rules::PackSource> overlays = {});
// Not an exception: the test library would ask the debugger what happened.
[[noreturn]] void giveUp(const std::string& why);
[[nodiscard]] std::string told(const std::vector<rules::LoadError>& errors);

} // namespace brimful::test
