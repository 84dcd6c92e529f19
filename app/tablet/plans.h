// What can be asked on a sheet, each bound to the yard's own use case. Nothing is decided here.
#pragma once

#include "app/tablet/session.h"
#include "app/tablet/sheet.h"

namespace brimful::tablet {

[[nodiscard]] Plan stepPlan(Session& session, const std::string& number, rules::Index step);
[[nodiscard]] Plan holdPointPlan(Session& session, const std::string& number, rules::Index hold_point);
[[nodiscard]] Plan clearPlan(Session& session, const std::string& number, rules::Index stop);
[[nodiscard]] Plan putRightPlan(Session& session, const Hash& entry);
[[nodiscard]] Plan admitPlan(Session& session);
[[nodiscard]] Plan personPlan(Session& session);
[[nodiscard]] Plan instrumentPlan(Session& session);
[[nodiscard]] Plan bumpPlan(Session& session);
// How a meter of the register stands: bumped when, or why what it shows does not count.
[[nodiscard]] QString meterStanding(const yard::InstrumentShown& one, const text::Reading& reading);
// What has to come before a step that is read with an instrument, because no reading would count now: a meter, or its check.
// Its "cannot" is the step's.
[[nodiscard]] std::optional<Plan> meterFirstPlan(Session& session, const std::string& number, rules::Index step);
[[nodiscard]] Plan adoptPlan(Session& session);
[[nodiscard]] Plan clockPlan(Session& session); // the clock is confirmed by the PIN alone
// After a stop or a concern, which are already written: what it was. Nothing has to be said.
[[nodiscard]] Plan stoppedPlan(Session& session, const std::string& number);
[[nodiscard]] Plan spokenPlan(Session& session, const std::string& number);
// A new yard: its name, is the clock right, which law, who, PIN twice. `sheet` receives what is printed and locked away.
[[nodiscard]] Plan newYardPlan(Session& session, std::function<void(const QString&)> sheet);

} // namespace brimful::tablet
