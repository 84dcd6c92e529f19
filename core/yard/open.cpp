// Making a yard, opening one, and what is checked before anything is believed.
#include "core/yard/state.h"

#include "core/figure/reference.h"
#include "core/quantity/recorded.h"

#include <algorithm>

namespace brimful::yard {

using canon::Json;
using report::Why;

namespace {

Json idText(const std::string& hex) { return Json(hex); }

Json adoption(const rules::Pack& pack, const std::string& law)
{
    Json payload = Json::object();
    Json base = Json::object();
    base.set("hash", canon::toHex(pack.hash)).set("id", pack.id).set("version", pack.version);
    Json overlays = Json::array();
    for (const std::string& overlay : pack.overlays) {
        overlays.items.emplace_back(overlay);
    }
    payload.set("law", law).set("overlays", overlays).set("pack", base);
    return payload;
}

tl::expected<rules::Pack, std::vector<rules::LoadError>> loadShipped()
{
    for (const rules::PackSource& source : rules::shippedPacks()) {
        if (source.id == "base") {
            return rules::load(source, {});
        }
    }
    return tl::unexpected(std::vector<rules::LoadError>{});
}

} // namespace

Outcome<Created> Yard::create(const std::filesystem::path& folder, const CreateRequest& request, const ledger::Clock& clock)
{
    std::error_code error;
    if (request.name.empty()) {
        return refused(Why::NameEmpty, "name");
    }
    if (request.authoriser.empty()) {
        return refused(Why::NameEmpty, "authoriser");
    }
    if (!people::isStrongPin(request.pin)) {
        return refused(Why::WeakPin, request.authoriser);
    }
    if (clock.scripted() && !request.play) {
        return refused(Why::ScriptedClock);
    }
    if (std::filesystem::exists(folder / "ledger.db")) {
        return refused(Why::YardExists, folder.string());
    }
    if (std::filesystem::exists(folder) && !std::filesystem::is_empty(folder, error)) {
        return refused(Why::FolderNotEmpty, folder.string());
    }
    std::filesystem::create_directories(folder / "evidence", error);
    if (error) {
        return refused(Why::NoPermission, folder.string());
    }
    const auto pack = loadShipped();
    if (!pack) {
        return refused(Why::PackBroken, "base");
    }

    const auto sealing = request.play ? people::Sealing::Light : people::Sealing::Strong;
    auto device = people::Device::create(deviceFolder(folder), people::randomId<DeviceId>(), machineId(), sealing);
    if (!device) {
        return tl::unexpected(refusalOf(device.error()));
    }
    const auto person = people::randomId<PersonId>();
    const auto person_key = device->addPerson(person, request.pin);
    if (!person_key) {
        return tl::unexpected(refusalOf(person_key.error()));
    }
    auto key = device->unlock(person, request.pin, clock.now().wall_ms);
    if (!key) {
        return tl::unexpected(refusalOf(key.error()));
    }
    const std::string recovery_seed = people::randomBytes(32);
    const auto recovery = people::SigningKey::fromSeed(recovery_seed);

    auto ledger = ledger::Ledger::create(folder / "ledger.db");
    if (!ledger) {
        State scratch(folder, clock, ledger::Ledger(std::move(*ledger)));
        return tl::unexpected(scratch.refuse(ledger.error()));
    }
    State state(folder, clock, std::move(*ledger));
    state.access = Access::ReadWrite;
    state.yard.yard = people::randomId<YardId>();
    state.yard.play = request.play;
    state.pack = std::make_shared<rules::Pack>(*pack);

    Json created = Json::object();
    Json its_device = Json::object();
    its_device.set("id", idText(canon::toHex(device->id()))).set("key", canon::toHex(device->publicKey())).set("name", request.device);
    Json first = Json::object();
    first.set("key", canon::toHex(*person_key)).set("name", request.authoriser).set("person", canon::toHex(person));
    created.set("authoriser", first).set("device", its_device).set("name", request.name).set("owner", request.authoriser);
    created.set("recovery", canon::toHex(recovery.publicKey())).set("use", request.play ? "play" : "work");

    state.device = std::move(*device);
    const Unlocked unlocked{person, request.authoriser, std::string(kAuthoriser), &*key};
    std::vector<Draft> drafts(3);
    drafts[0].kind = ledger::Kind::YardCreated;
    drafts[0].payload = created;
    drafts[1].kind = ledger::Kind::TimeConfirmed;
    drafts[1].payload.set("boot", clock.now().boot_ms).set("wall", clock.now().wall_ms);
    drafts[2].kind = ledger::Kind::PackAdopted;
    drafts[2].payload = adoption(*pack, {});
    for (Draft& draft : drafts) {
        draft.signer = &unlocked;
    }
    const auto written = state.append(drafts);
    if (!written) {
        return tl::unexpected(written.error());
    }
    return Created{canon::toBase32(std::span(reinterpret_cast<const std::uint8_t*>(recovery_seed.data()), recovery_seed.size()))}; // NOLINT
}

Outcome<Yard> Yard::open(const std::filesystem::path& folder, Access access, const ledger::Clock& clock)
{
    if (!std::filesystem::exists(folder / "ledger.db")) {
        return refused(Why::NoYard, folder.string());
    }
    const auto mode = access == Access::ReadOnly ? ledger::Mode::ReadOnly : ledger::Mode::ReadWrite;
    auto ledger = ledger::Ledger::open(folder / "ledger.db", mode);
    if (!ledger) {
        report::Refusal refusal;
        refusal.why = ledger.error().fault == ledger::StoreFault::Newer ? Why::NewerYard
            : ledger.error().fault == ledger::StoreFault::NotALedger    ? Why::NotAYard
            : ledger.error().fault == ledger::StoreFault::Unwritable    ? Why::NoPermission
            : ledger.error().fault == ledger::StoreFault::Damaged       ? Why::Damaged
            : ledger.error().fault == ledger::StoreFault::Busy          ? Why::Busy
                                                                        : Why::InputOutput;
        refusal.path = ledger.error().path.empty() ? folder.string() : ledger.error().path;
        refusal.found = ledger.error().detail;
        return tl::unexpected(std::move(refusal));
    }
    auto state = std::make_unique<State>(folder, clock, std::move(*ledger));
    state->access = access;
    auto device = people::Device::open(deviceFolder(folder), machineId());
    if (device) {
        state->device = std::move(*device);
        if (access == Access::Tablet) {
            if (auto locked = state->device->lockForTablet(); !locked) {
                return tl::unexpected(refusalOf(locked.error()));
            }
        }
    } else {
        state->no_device = refusalOf(device.error()).why;
    }
    if (auto loaded = state->load(); !loaded) {
        return tl::unexpected(loaded.error());
    }
    Yard yard(std::move(state));
    const auto verification = yard.verify();
    if (!verification) {
        return tl::unexpected(verification.error());
    }
    yard.m_state->findDamage(*verification);
    return yard;
}

void Yard::State::findDamage(const ledger::Verification& verification)
{
    for (const ledger::Finding& finding : verification.findings) {
        if (finding.vessel) {
            damaged.insert(*finding.vessel);
        } else {
            all_damaged = true;
        }
    }
}

Outcome<void> Yard::State::load()
{
    const auto rows = ledger.ofYard();
    if (!rows) {
        return tl::unexpected(refuse(rows.error()));
    }
    yard_lines.clear();
    yard_rows.clear();
    vessels.clear();
    watches_known = false;
    for (const ledger::Stored& row : *rows) {
        auto entry = ledger::decode(row.body);
        if (!entry || canon::leafHash(row.body) != row.hash) {
            all_damaged = true;
            continue;
        }
        if (entry->kind == ledger::Kind::VesselAdmitted) {
            VesselId id;
            std::copy_n(row.hash.value.begin(), id.value.size(), id.value.begin());
            vessels.push_back({id, std::string(entry->payload.textOf("number")), row.hash});
        }
        yard_lines.push_back({row.hash, std::move(*entry)});
        yard_rows.push_back(row.row);
    }
    yard = ledger::readYard(yard_lines);
    data_version = ledger.dataVersion();

    if (!pack) {
        auto loaded = loadShipped();
        if (!loaded) {
            return refused(Why::PackBroken, "base");
        }
        pack = std::make_shared<rules::Pack>(std::move(*loaded));
    }
    pack_in_force = yard.pack && yard.pack->hash == pack->hash;
    if (!substances) {
        auto table = figure::shippedSubstances(rules::shippedFile("reference/substances.json"));
        if (!table) {
            return refused(Why::PackBroken, "reference/substances.json");
        }
        substances = std::make_shared<gas::SubstanceTable>(std::move(*table));
        reference.substances = substances.get();
    }
    return {};
}

Outcome<ledger::Verification> Yard::verify(const std::function<bool(std::uint64_t)>& progress) const
{
    ledger::VerifyOptions options;
    options.evidence = m_state->folder / "evidence";
    options.progress = progress;
    options.typed_agrees = [](const std::string& typed, const std::string& unit, std::int64_t count) {
        const auto dimension = quantity::recordedDimension(unit);
        if (!dimension) {
            return false;
        }
        const auto recorded = quantity::record(typed, *dimension);
        return recorded && recorded->count == count;
    };
    if (m_state->device) {
        const auto anchor = m_state->device->readAnchor();
        if (anchor && *anchor) {
            options.anchor = (*anchor)->head;
        }
    }
    auto verification = ledger::verify(m_state->folder / "ledger.db", options);
    if (!verification) {
        return tl::unexpected(m_state->refuse(verification.error()));
    }
    return std::move(*verification);
}

Yard::Yard(std::unique_ptr<State> state)
    : m_state(std::move(state))
{
}
Yard::Yard(Yard&&) noexcept = default;
Yard& Yard::operator=(Yard&&) noexcept = default;
Yard::~Yard() = default;

} // namespace brimful::yard
