// Which packs rule: adopted by two people, kept with the record, loaded as they were adopted, proved before they are signed.
#include "core/rules/proof.h"
#include "core/yard/state.h"

#include "core/canon/hash.h"

#include <algorithm>
#include <fstream>

namespace brimful::yard {

using canon::Json;
using report::Why;
using rules::PackSource;
using rules::Ruling;

namespace {

std::optional<PackSource> carried(const std::string& id)
{
    const auto all = rules::shippedPacks();
    const auto found = std::ranges::find(all, id, &PackSource::id);
    return found == all.end() ? std::nullopt : std::optional<PackSource>(*found);
}

Outcome<Json> partOf(const Yard::State& state, const PackSource& source, std::int64_t version, std::vector<Hash>& attachments)
{
    const auto file = state.keepBytes(rules::packText(source), ".txt");
    if (!file) {
        return tl::unexpected(file.error());
    }
    attachments.push_back(*file);
    Json out = Json::object();
    out.set("file", canon::toHex(*file))
        .set("hash", canon::toHex(rules::manifestHash(source)))
        .set("id", source.id)
        .set("version", version);
    return out;
}

const ledger::AdoptedPack* adoptedAt(const ledger::YardState& yard, std::optional<std::int64_t> as_if_ms)
{
    const ledger::AdoptedPack* then = nullptr;
    for (const ledger::AdoptedPack& adopted : yard.adoptions) {
        const std::int64_t from_ms = yard.trueTime(adopted.from).value_or(adopted.from.wall_ms);
        if (then == nullptr || !as_if_ms || from_ms <= *as_if_ms) {
            then = &adopted;
        }
    }
    return then;
}

// As it will be read again: by the id that it gives itself, without what is no part of a pack.
PackSource asKept(const PackSource& source)
{
    PackSource out = rules::packOfText(rules::packText(source)).value_or(source);
    const auto head = out.files.find("pack.json");
    const auto json = head == out.files.end() ? std::nullopt : std::optional(canon::read(head->second, canon::Dialect::Subset));
    if (json && *json && !(*json)->textOf("id").empty()) {
        out.id = (*json)->textOf("id");
    }
    return out;
}

const PackSource* partNamed(const Ruling& ruling, const std::string& id)
{
    if (ruling.pack.id == id) {
        return &ruling.pack;
    }
    const auto found = std::ranges::find(ruling.overlays, id, &PackSource::id);
    return found == ruling.overlays.end() ? nullptr : &*found;
}

std::string firstError(const std::vector<rules::LoadError>& errors)
{
    return errors.empty() ? std::string() : errors.front().file + ":" + std::to_string(errors.front().line) + " " + errors.front().path;
}

// What a proof of these packs finds first, by the pack's own claims; empty: proven.
std::string firstUnproven(const Ruling& ruling, const rules::Pack& pack)
{
    const auto claims = rules::loadClaims(ruling.pack, pack);
    if (!claims) {
        return firstError(claims.error());
    }
    const rules::Proof proof = rules::prove(pack, *claims, {}, {true, true, false, false});
    return proof.findings.empty() ? std::string() : proof.findings.front().subject;
}

// Each part stands against the one of the same id that ruled before, else that this program carries. Which law rules is the
// people's choice and is not compared.
Outcome<void> grantsNoMore(const Ruling& ruling, const rules::Pack& pack, const std::optional<Ruling>& before)
{
    Ruling held_to = ruling;
    std::string changed;
    const auto holdTo = [&](PackSource& part) {
        const PackSource* old = before ? partNamed(*before, part.id) : nullptr;
        const auto other = old != nullptr ? std::optional<PackSource>(*old) : carried(part.id);
        if (other && rules::manifestHash(*other) != rules::manifestHash(part)) {
            changed = part.id;
            part = *other;
        }
    };
    holdTo(held_to.pack);
    for (PackSource& overlay : held_to.overlays) {
        holdTo(overlay);
    }
    if (changed.empty()) {
        return {};
    }
    const auto other = rules::load(held_to);
    if (!other) {
        return refused(Why::PackBroken, changed, {}, firstError(other.error()));
    }
    const auto findings = rules::newlyGranted(pack, *other, true);
    if (findings.empty()) {
        return {};
    }
    report::Refusal refusal;
    refusal.why = Why::GrantsMore;
    refusal.path = changed;
    refusal.found = findings.front().hold_point;
    refusal.example = findings.front().history;
    return tl::unexpected(std::move(refusal));
}

} // namespace

Outcome<Draft> adoption(const Yard::State& state, const Ruling& ruling, const rules::Pack& pack, const std::string& law)
{
    Draft draft;
    draft.kind = ledger::Kind::PackAdopted;
    auto base = partOf(state, ruling.pack, pack.version, draft.attachments);
    if (!base) {
        return tl::unexpected(base.error());
    }
    Json overlays = Json::array();
    for (std::size_t i = 0; i < ruling.overlays.size(); ++i) {
        auto overlay = partOf(state, ruling.overlays[i], pack.overlays[i].version, draft.attachments);
        if (!overlay) {
            return tl::unexpected(overlay.error());
        }
        overlays.items.push_back(std::move(*overlay));
    }
    draft.payload.set("law", law).set("overlays", std::move(overlays)).set("pack", std::move(*base));
    return draft;
}

std::optional<PackSource> Yard::State::sourceOf(const ledger::AdoptedPart& part) const
{
    if (auto same = carried(part.id); same && (part.hash.isZero() || rules::manifestHash(*same) == part.hash)) {
        return same;
    }
    if (!part.file) {
        return std::nullopt;
    }
    const std::string name = canon::toHex(*part.file);
    std::ifstream in(folder / "evidence" / name.substr(0, 2) / (name + ".txt"), std::ios::binary);
    const std::string bytes{std::istreambuf_iterator<char>(in), {}};
    if (canon::sha256(bytes) != *part.file) {
        return std::nullopt;
    }
    auto source = rules::packOfText(bytes);
    return source && rules::manifestHash(*source) == part.hash ? source : std::nullopt;
}

std::optional<Ruling> Yard::State::rulingOf(const ledger::AdoptedPack& adopted) const
{
    auto pack_source = sourceOf(adopted);
    if (!pack_source) {
        return std::nullopt;
    }
    Ruling out{std::move(*pack_source), {}};
    if (adopted.overlays.empty() && !(adopted.law == rules::kCarriedPack && yard.play)) {
        auto all = rules::carriedRuling(adopted.law == rules::kCarriedPack ? std::string() : adopted.law);
        if (!all) {
            return std::nullopt;
        }
        out.overlays = std::move(all->overlays);
    }
    for (const ledger::AdoptedPart& part : adopted.overlays) {
        auto overlay = sourceOf(part);
        if (!overlay) {
            return std::nullopt;
        }
        out.overlays.push_back(std::move(*overlay));
    }
    return out;
}

Outcome<Yard::State::InForce> Yard::State::packOf(const ledger::AdoptedPack* adopted)
{
    const Hash entry = adopted == nullptr ? Hash{} : adopted->entry;
    if (const auto known = packs.find(entry); adopted != nullptr && known != packs.end()) {
        return InForce{known->second, true};
    }
    const auto ruling = adopted == nullptr ? std::nullopt : rulingOf(*adopted);
    if (ruling) {
        if (auto loaded = rules::load(*ruling)) {
            return InForce{packs.emplace(entry, std::make_shared<rules::Pack>(std::move(*loaded))).first->second, true};
        }
    }
    auto stands_in = packs.find(Hash{});
    if (stands_in == packs.end()) {
        auto loaded = rules::load(*rules::carriedRuling({}));
        if (!loaded) {
            return refused(Why::PackBroken, std::string(rules::kCarriedPack));
        }
        stands_in = packs.emplace(Hash{}, std::make_shared<rules::Pack>(std::move(*loaded))).first;
    }
    return InForce{stands_in->second, false};
}

Yard::State::InForce Yard::State::packAt(std::optional<std::int64_t> as_if_ms)
{
    const ledger::AdoptedPack* then = adoptedAt(yard, as_if_ms);
    if (as_if_ms && then != nullptr) {
        if (auto found = packOf(then)) {
            return *found;
        }
    }
    return {pack, pack_in_force};
}

const ledger::AdoptedPack* Yard::adopted(std::optional<std::int64_t> as_if_ms) const { return adoptedAt(m_state->yard, as_if_ms); }
bool Yard::packInForce() const { return m_state->pack_in_force; }

Outcome<Receipt> Yard::adoptPack(const AdoptRequest& request, const Signing& by, const Signing& with)
{
    State& state = *m_state;
    if (auto writable = state.writable(); !writable) {
        return tl::unexpected(writable.error());
    }
    auto ruling = request.law == rules::kCarriedPack && !state.yard.play ? std::nullopt : rules::carriedRuling(request.law);
    if (!ruling) {
        return refused(Why::UnknownPack, "law", {}, request.law);
    }
    if (by.person == with.person) {
        return refused(Why::SamePerson, by.person);
    }
    const auto before = state.yard.pack ? state.rulingOf(*state.yard.pack) : std::nullopt;
    if (request.pack) {
        if (const std::string id = asKept(*request.pack).id; id != ruling->pack.id) {
            return refused(Why::UnknownPack, "pack", ruling->pack.id, id);
        }
        ruling->pack = asKept(*request.pack);
    }
    const auto isShops = [](const PackSource& overlay) { return !carried(overlay.id); };
    if (request.shop) {
        ruling->overlays.push_back(asKept(*request.shop));
        if (!isShops(ruling->overlays.back())) {
            return refused(Why::PackTaken, "shop", {}, ruling->overlays.back().id);
        }
    } else if (before && !request.without_shop) {
        std::ranges::copy_if(before->overlays, std::back_inserter(ruling->overlays), isShops);
    }
    const auto pack = rules::load(*ruling);
    if (!pack) {
        return refused(Why::PackBroken, (request.shop ? *request.shop : ruling->pack).id, {}, firstError(pack.error()));
    }
    if (const std::string unproven = firstUnproven(*ruling, *pack); !unproven.empty()) {
        return refused(Why::PackUnproven, pack->id, {}, unproven);
    }
    if (auto no_more = grantsNoMore(*ruling, *pack, before); !no_more) {
        return tl::unexpected(no_more.error());
    }
    std::vector<people::SigningKey> keys;
    keys.reserve(2);
    const std::vector<std::string> authorisers{std::string(kAuthoriser)};
    const auto first = state.unlock(by, authorisers, keys);
    if (!first) {
        return tl::unexpected(first.error());
    }
    const auto second = state.unlock(with, state.pack->roles, keys);
    if (!second) {
        return tl::unexpected(second.error());
    }
    auto adopted = adoption(state, *ruling, *pack, request.law);
    if (!adopted) {
        return tl::unexpected(adopted.error());
    }
    std::vector<Draft> drafts(2);
    drafts[0] = std::move(*adopted);
    drafts[0].signer = &*first;
    drafts[1].kind = ledger::Kind::Confirmed;
    drafts[1].confirms_previous = true;
    drafts[1].signer = &*second;
    const auto written = state.append(drafts);
    if (!written) {
        return tl::unexpected(written.error());
    }
    return Receipt{written->front(), written->back(), true, false};
}

} // namespace brimful::yard
