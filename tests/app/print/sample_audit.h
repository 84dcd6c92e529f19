// Audits put together by hand over the shipped rules, one held and one released.
#pragma once

#include "app/print/pages.h"
#include "core/report/audit.h"

namespace brimful::test {

const rules::Pack& basePack();
const rules::Pack&
namedPack(); // the same with every string its own key in brackets: a golden text must not change with a word of the rules
report::Audit heldAudit();
report::Audit releasedAudit();
text::Reading eastCoast(); // UTC-4, US units
print::TagPage tagPage(); // NQ-01, released

} // namespace brimful::test
