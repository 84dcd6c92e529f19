// Looking: every answer folds entries anew. Nothing here writes.
#include "core/yard/state.h"

#include <algorithm>

namespace brimful::yard {

using report::Why;

const ledger::YardState& Yard::state() const { return m_state->yard; }
const rules::Pack& Yard::pack(std::optional<std::int64_t> as_if_ms) const { return *m_state->packAt(as_if_ms).pack; }
const figure::Reference& Yard::reference() const { return m_state->reference; }
const std::filesystem::path& Yard::folder() const { return m_state->folder; }
ledger::Moment Yard::now() const { return m_state->clock.now(); }
std::int64_t Yard::nowMs() const { return m_state->nowMs(); }
bool Yard::clockConfirmed() const { return m_state->yard.trueTime(m_state->clock.now()).has_value(); }
void Yard::setPictures(Pictures pictures) { m_state->pictures = std::move(pictures); }
people::Device* Yard::device() { return m_state->device ? &*m_state->device : nullptr; }
std::optional<report::Refusal> Yard::fault() const { return m_state->fault; }

std::vector<std::string> Yard::vessels() const
{
    std::vector<std::string> numbers;
    for (const VesselRecord& vessel : m_state->vessels) {
        numbers.push_back(vessel.number);
    }
    std::ranges::sort(numbers);
    return numbers;
}

Outcome<evidence::Folded> Yard::folded(const std::string& number, std::optional<std::int64_t> as_if_ms)
{
    const auto vessel = m_state->find(number);
    if (!vessel) {
        return tl::unexpected(vessel.error());
    }
    return m_state->fold(vessel->id, as_if_ms);
}

Outcome<std::vector<report::TrailLine>> Yard::trail(const std::string& number)
{
    const auto record = m_state->find(number);
    if (!record) {
        return tl::unexpected(record.error());
    }
    const auto folded = m_state->fold(record->id, std::nullopt);
    if (!folded) {
        return tl::unexpected(folded.error());
    }
    return report::trail(*m_state->pack, *folded, record->id, m_state->yard);
}

Outcome<report::Audit> Yard::audit(const std::string& number, const std::string& hold_point, std::optional<std::int64_t> as_if_ms)
{
    const auto record = m_state->find(number);
    if (!record) {
        return tl::unexpected(record.error());
    }
    const State::InForce then = m_state->packAt(as_if_ms);
    const rules::Index index = then.pack->holdPoint(hold_point);
    if (index == rules::kNone) {
        std::string known;
        for (const rules::HoldPoint& one : then.pack->hold_points) {
            known += (known.empty() ? "" : ", ") + one.id;
        }
        return refused(Why::UnknownHoldPoint, "before", known, hold_point);
    }
    auto verification = m_state->verify(record->id, true);
    if (!verification) {
        return tl::unexpected(verification.error());
    }
    m_state->findDamage(*verification);
    const auto folded = m_state->fold(record->id, as_if_ms);
    if (!folded) {
        return tl::unexpected(folded.error());
    }
    ledger::YardState scratch = m_state->yard;
    const ledger::Moment at = m_state->moment(as_if_ms, scratch);
    const auto around = m_state->surroundings(record->id, folded->lines, then.adopted);
    report::Audit audit = report::audit(*then.pack, *folded, record->id, scratch, at, around, index);
    audit.verified = std::move(*verification);
    if (as_if_ms) {
        audit.clock = "as-if";
    }
    return audit;
}

Outcome<ledger::Stored> Yard::stored(const Hash& hash) const
{
    const auto row = m_state->ledger.byHash(hash);
    if (!row) {
        return tl::unexpected(m_state->refuse(row.error()));
    }
    if (!*row) {
        return refused(Why::UnknownEntry, canon::toHex(hash));
    }
    return **row;
}

namespace {

std::vector<Yard::MaySign> signers(const Yard::State& state, const std::vector<std::string>& roles)
{
    std::vector<Yard::MaySign> all;
    for (const auto& [id, person] : state.yard.people) {
        if (person.retired) {
            continue;
        }
        Yard::MaySign one{person.name, {}, false, Why::RoleNotHeld};
        for (const std::string& role : roles) {
            if (state.yard.mayActAs(id, role, state.nowMs())) {
                one.role = role;
                one.may = state.device && state.device->hasKey(id);
                one.why = one.may ? one.why : Why::NoKeyHere;
                break;
            }
        }
        all.push_back(std::move(one));
    }
    std::ranges::sort(all, [](const Yard::MaySign& a, const Yard::MaySign& b) { return a.may != b.may ? a.may : a.person < b.person; });
    return all;
}

} // namespace

std::vector<Yard::MaySign> Yard::signersOf(rules::Index step, bool second) const
{
    const rules::Step& one = m_state->pack->steps[step];
    return signers(*m_state, namesOf(*m_state->pack, second ? one.with : one.by));
}

std::vector<Yard::MaySign> Yard::signersOfHoldPoint(rules::Index hold_point, bool accepting) const
{
    const rules::HoldPoint& one = m_state->pack->hold_points[hold_point];
    return signers(*m_state, namesOf(*m_state->pack, accepting ? one.with : one.by));
}

std::vector<Yard::MaySign> Yard::signersOfStop(rules::Index stop, bool second) const
{
    const rules::StopKind& one = m_state->pack->stops[stop];
    return signers(*m_state, namesOf(*m_state->pack, second ? one.cleared_with : one.cleared_by));
}

std::vector<Yard::MaySign> Yard::signersOfRoles(const std::vector<std::string>& roles) const { return signers(*m_state, roles); }

bool Yard::changedElsewhere()
{
    if (m_state->ledger.dataVersion() == m_state->data_version) {
        return false;
    }
    (void)m_state->refresh();
    return true;
}

Outcome<void> Yard::checkpoint()
{
    if (m_state->access == Access::ReadOnly) {
        return {};
    }
    if (auto done = m_state->ledger.checkpoint(); !done) {
        return tl::unexpected(m_state->refuse(done.error()));
    }
    return {};
}

} // namespace brimful::yard
