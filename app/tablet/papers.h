// Papers of a plan, saved where this machine keeps documents: patterns at full size, and of a mark-out its page of marks.
#pragma once

#include "app/text/words.h"
#include "core/figure/figure.h"

namespace brimful::tablet {

// What became of it, in a sentence. US reading prints on Letter, SI on A4.
[[nodiscard]] QString savePapers(const std::string& figure, const std::string& vessel, const figure::Result&, const text::Reading&);

} // namespace brimful::tablet
