// Sizes of the shell, measured where somebody measured, else as they were believed when it came in.
#pragma once

#include "core/report/view.h"

namespace brimful::report {

// `believed`: the admission's vessel object, texts with units; null when none was given.
[[nodiscard]] ShellView shellOf(const rules::Pack&, const evidence::Folded&, const canon::Json* believed);

} // namespace brimful::report
