#include "tests/bench/large_yard.h"

namespace brimful::test {

bool makeLargeYard(const std::filesystem::path& where, std::size_t vessels, std::size_t entries, yard::ScriptedClock& clock)
{
    const yard::Signing ada{"Ada", "480263", {}};
    if (!yard::Yard::create(where, {"Large yard", ada.person, ada.pin, "tablet", true, {}}, clock)) {
        return false;
    }
    {
        auto yard = yard::Yard::open(where, yard::Access::ReadWrite, clock);
        (void)yard->grant("Ada", {"supervisor"}, ada);
        const auto key = yard->device()->unlock(yard->state().personNamed("Ada")->id, ada.pin, clock.now().wall_ms);
        auto ledger = ledger::Ledger::open(where / "ledger.db", ledger::Mode::ReadWrite);
        auto tip = *ledger->tip(yard->device()->id());
        std::vector<ledger::Stored> rows;
        std::vector<std::pair<VesselId, Hash>> heads;
        Hash yard_head = *tip.head; // admissions are entries of the yard
        while (rows.size() < entries) {
            clock.wait(1000);
            const bool admits = heads.size() < vessels;
            ledger::Entry entry;
            entry.yard = yard->state().yard;
            entry.device = yard->device()->id();
            entry.seq = ++tip.seq;
            entry.prev = tip.head;
            entry.at = clock.now();
            entry.pack = yard->pack().hash;
            auto& head = heads.empty() || admits ? heads.emplace_back() : heads[rows.size() % vessels];
            if (admits) {
                entry.kind = ledger::Kind::VesselAdmitted;
                entry.payload.set("number", "V-" + std::to_string(heads.size()));
                entry.parents = {yard_head};
            } else {
                entry.kind = ledger::Kind::Evidence;
                entry.vessel = head.first;
                entry.parents = {head.second};
                canon::Json wall = canon::Json::object();
                wall.set("count", 95'250).set("typed", "3/8 in").set("unit", "100nm");
                canon::Json facts = canon::Json::object();
                facts.set("seam", "found by eye and by magnet, one longitudinal, two round").set("thinnest", wall).set("thickest", wall);
                entry.payload.set("facts", facts).set("outcome", "done").set("step", "measure");
            }
            entry.signer = ledger::Signer{yard->state().personNamed("Ada")->id, "supervisor"};
            ledger::Stored row;
            row.body = ledger::encode(entry);
            row.hash = canon::leafHash(row.body);
            row.person_signature = key->sign(people::kPersonDomain, row.hash);
            row.device_signature = yard->device()->sign(row.hash);
            tip.head = row.hash;
            if (admits) {
                yard_head = row.hash;
                std::copy_n(row.hash.value.begin(), head.first.value.size(), head.first.value.begin());
            }
            head.second = row.hash;
            rows.push_back(std::move(row));
        }
        (void)ledger->append(rows);
        (void)ledger->checkpoint();
    }
    return true;
}

} // namespace brimful::test
