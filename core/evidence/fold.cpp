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

bool Folding::everFailed()
{
    gather();
    chooseRecords();
    judgeSteps();
    for (std::size_t s = 0; s < m_pack.steps.size(); ++s) {
        if (m_pack.steps[s].talk_of != rules::kNone || m_pack.steps[s].of_yard) {
            continue;
        }
        const bool depends = dependsOnOthers(static_cast<Index>(s));
        for (const Record& record : m_records[s]) {
            if (!record.cannot && verdictOn(static_cast<Index>(s), record, depends) == rules::Truth::False) {
                return true;
            }
        }
    }
    return false;
}

bool everFailed(std::span<const ledger::Line> lines, const VesselId& vessel, const ledger::YardState& yard, const rules::Pack& pack,
    const figure::Reference& reference, const ledger::Moment& now, Memo& memo)
{
    const Surroundings around;
    return Folding(lines, vessel, yard, pack, reference, now, around, memo).everFailed();
}

} // namespace brimful::evidence
