#include "core/evidence/fold.h"

#include "core/evidence/folding.h"

namespace brimful::evidence {

Memo::Memo()
    : m_state(std::make_unique<State>())
{
}
Memo::~Memo() = default;

Folded Folding::run()
{
    gather();
    chooseRecords();
    findEvents();
    findReleases();
    judgeSteps();
    findStops();
    return std::move(m_out);
}

Folded fold(std::span<const ledger::Line> lines, const VesselId& vessel, const ledger::YardState& yard, const rules::Pack& pack,
    const figure::Reference& reference, const ledger::Moment& now, const Surroundings& around, Memo& memo)
{
    return Folding(lines, vessel, yard, pack, reference, now, around, memo).run();
}

} // namespace brimful::evidence
