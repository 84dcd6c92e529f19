// What the record says of its photographs beside their hashes: how they came, what was seen in them, which other they look like.
#include "core/yard/state.h"

#include <algorithm>
#include <bit>

namespace brimful::yard {

using canon::Json;

namespace {

int bitsApart(const ledger::Look& one, const ledger::Look& other)
{
    int bits = 0;
    for (std::size_t i = 0; i < one.value.size(); ++i) {
        bits += std::popcount(static_cast<unsigned>(one.value.at(i) ^ other.value.at(i)));
    }
    return bits;
}

} // namespace

Outcome<std::optional<Alike>> Yard::mayKeep(
    const std::filesystem::path& file, bool photograph, const std::string& vessel, const std::string& step) const
{
    const auto bytes = m_state->bytesOf(file, photograph, file.filename().string());
    if (!bytes) {
        return tl::unexpected(bytes.error());
    }
    const auto of = m_state->find(vessel);
    return bytes->seen && bytes->seen->look ? m_state->alikeTo(*bytes->seen->look, of ? of->id : VesselId{}, step) : std::nullopt;
}

void Yard::State::learnLooks(const Json& payload, const VesselId& vessel, std::int64_t wall_ms)
{
    const Json* photos = payload.find("photos");
    for (const canon::Member& photo : photos == nullptr ? std::vector<canon::Member>{} : photos->members) {
        const auto look = canon::fromHex<ledger::Look>(photo.value.textOf("look"));
        const auto file = canon::fromHex<Hash>(photo.key);
        if (look && file) {
            looks.push_back({*look, *file, vessel, std::string(payload.textOf("step")), wall_ms});
        }
    }
}

// The nearest of a record that stands. Of few only it is asked whether it does: that reads the whole record.
std::optional<Alike> Yard::State::alikeTo(const ledger::Look& look, const VesselId& vessel, const std::string& step) const
{
    constexpr std::size_t kAsked = 4;
    const std::int64_t now_ms = clock.now().wall_ms;
    std::vector<std::pair<int, const Looked*>> near;
    for (const Looked& one : looks) {
        const int bits = bitsApart(look, one.look);
        const bool same_round = one.vessel == vessel && one.step == step && now_ms - one.at_ms <= kSameRoundMs;
        if (bits <= kAlikeBits && !same_round) {
            near.emplace_back(bits, &one);
        }
    }
    std::ranges::stable_sort(near, {}, &std::pair<int, const Looked*>::first);
    near.resize(std::min(near.size(), kAsked));
    for (const auto& [bits, one] : near) {
        if (const auto naming = vesselsNaming(one->file); naming && !naming->empty()) {
            const auto record = std::ranges::find(vessels, one->vessel, &VesselRecord::id);
            return Alike{one->file, record == vessels.end() ? std::string() : record->number, one->step, one->at_ms};
        }
    }
    return std::nullopt;
}

ledger::PhotoNotes notesOf(
    Yard& yard, const Yard::State& state, const RecordRequest& request, const VesselId& vessel, const std::map<Hash, Shot>& shots)
{
    ledger::PhotoNotes notes;
    for (const auto& [file, shot] : shots) {
        ledger::PhotoNote& note = notes[file];
        if (const auto taken = request.taken.find(shot.fact); taken != request.taken.end()) {
            note.by_camera = taken->second.by_camera;
            note.chalk = taken->second.chalk;
        }
        if (!shot.seen) {
            continue;
        }
        note.found = ledger::PhotoFound{shot.seen->blurred, shot.seen->dark, false, false};
        const bool asked = !vessel.isZero() && shot.seen->symbol;
        const auto tag = asked ? yard.readTag(*shot.seen->symbol) : tl::make_unexpected(report::Refusal{});
        if (tag && tag->genuine && tag->this_yard && tag->as_printed) {
            note.found->tag = tag->as_printed->vessel == vessel;
            note.found->other_tag = !note.found->tag;
        }
        note.look = shot.seen->look;
        if (const auto alike = note.look ? state.alikeTo(*note.look, vessel, request.step) : std::nullopt) {
            note.alike = alike->file;
        }
    }
    return notes;
}

} // namespace brimful::yard
