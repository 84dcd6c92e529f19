// Making a yard, opening one, and what is checked before anything is believed.
#include "core/yard/state.h"

#include "core/figure/reference.h"
#include "core/quantity/recorded.h"

#include <algorithm>
#include <functional>

namespace brimful::yard {

using canon::Json;
using report::Why;

namespace {

Json idText(const std::string& hex) { return Json(hex); }

constexpr std::size_t kWitnessDigits = 64;

// What an entry says of itself that makes it a record of one of these steps.
std::vector<std::string> marksOf(const rules::Pack& pack)
{
    std::vector<std::string> marks;
    for (const rules::Step& step : pack.steps) {
        if (namesExclusive(pack, step)) {
            marks.push_back(R"("step":")" + step.id + '"');
        }
    }
    return marks;
}

} // namespace

bool typedAgrees(const std::string& typed, const std::string& unit, std::int64_t count)
{
    const auto dimension = quantity::recordedDimension(unit);
    if (!dimension) {
        return false;
    }
    const auto recorded = quantity::record(typed, *dimension);
    return recorded && recorded->count == count;
}

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
    const auto ruling = request.law == rules::kCarriedPack && !request.play ? std::nullopt : rules::carriedRuling(request.law);
    if (!ruling) {
        return refused(Why::UnknownPack, "law", {}, request.law);
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
    const auto pack = rules::load(*ruling);
    if (!pack) {
        return refused(Why::PackBroken, ruling->pack.id);
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
    state.data_version = state.ledger.dataVersion();
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
    auto adopted = adoption(state, *ruling, *pack, request.law);
    if (!adopted) {
        return tl::unexpected(adopted.error());
    }
    drafts[2] = std::move(*adopted);
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
        return tl::unexpected(refusalOf(ledger.error(), folder));
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
    if (auto fresh = state->refresh(); !fresh) {
        return tl::unexpected(fresh.error());
    }
    return Yard(std::move(state));
}

Outcome<void> Yard::State::refresh()
{
    auto done = readAll();
    if (!done) {
        data_version = kUnread;
    }
    return done;
}

// Chain, form, hashes, roles and columns of all, signatures of what the yard says of itself. A vessel's own are checked when
// somebody looks at it, before anything is told of it.
Outcome<void> Yard::State::readAll()
{
    constexpr int kTries = 3; // another program may be writing
    for (int i = 0; i < kTries; ++i) {
        data_version = ledger.dataVersion(); // before all that is read: what is written meanwhile is noticed at the next look
        damaged.clear();
        all_damaged = false;
        watches_known = false;
        seen.clear();
        if (auto loaded = load(); !loaded) {
            return loaded;
        }
        named_exclusive.clear();
        ledger::VerifyOptions options = verifyOptions();
        options.look_at = VesselId{};
        options.indexes = false;
        const std::vector<std::string> marks = marksOf(*pack);
        std::vector<std::boyer_moore_horspool_searcher<std::string::const_iterator>> searchers;
        searchers.reserve(marks.size());
        for (const std::string& mark : marks) {
            searchers.emplace_back(mark.begin(), mark.end());
        }
        last_signed.clear();
        carried_by.clear();
        looks.clear();
        options.each = [&](const ledger::Body& body) {
            if (const auto person = canon::fromHex<PersonId>(body.person)) {
                last_signed[*person] = body.wall;
            }
            const auto finds = [&](const auto& searcher) {
                return std::search(body.payload.begin(), body.payload.end(), searcher) != body.payload.end();
            };
            if (body.kind != "evidence") {
                return;
            }
            for (const std::string_view file : body.attachments) {
                carried_by[canon::fromHex<Hash>(file).value_or(Hash{})].insert(canon::fromHex<VesselId>(body.vessel).value_or(VesselId{}));
            }
            if (body.payload.find("\"look\":") != std::string_view::npos) {
                learnLooks(canon::read(body.payload, canon::Dialect::Subset).value_or(Json::object()),
                    canon::fromHex<VesselId>(body.vessel).value_or(VesselId{}), body.wall);
            }
            if (!std::ranges::any_of(searchers, finds)) {
                return;
            }
            if (const auto vessel = canon::fromHex<VesselId>(body.vessel)) {
                named_exclusive[*vessel] = {body.wall, body.boot, canon::fromHex<BootId>(body.boot_id).value_or(BootId{}), {}};
            }
        };
        const auto verification = ledger::verify(folder / "ledger.db", options);
        if (!verification) {
            return tl::unexpected(refuse(verification.error()));
        }
        rows_of = verification->rows;
        newest_row = verification->newest;
        forks = verification->forks;
        findDamage(*verification);
        all_damaged = all_damaged || rows_of[VesselId{}] != yard_rows.size();
        if (ledger.dataVersion() == data_version) {
            break;
        }
    }
    return {};
}

void Yard::State::findDamage(const ledger::Verification& verification)
{
    lost.clear();
    seen.clear();
    for (const ledger::Finding& finding : verification.findings) {
        if (finding.flaw == ledger::Flaw::AnchorAhead) {
            lost.push_back(finding.entry); // holds every vessel, until two people accept it for that vessel
        } else if (finding.vessel) {
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
    seen.clear();
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
        yard_lines.push_back({row.hash, std::move(*entry), row.beside});
        yard_rows.push_back(row.row);
    }
    std::vector<ledger::Line> ordered = yard_lines;
    ledger::sortCausally(ordered);
    yard = ledger::readYard(ordered);
    const auto in_force = packOf(yard.pack ? &*yard.pack : nullptr);
    if (!in_force) {
        return tl::unexpected(in_force.error());
    }
    pack = in_force->pack;
    pack_in_force = in_force->adopted;
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

ledger::VerifyOptions Yard::State::verifyOptions() const
{
    ledger::VerifyOptions options;
    options.typed_agrees = typedAgrees;
    if (device) {
        if (const auto anchor = device->readAnchor(); anchor && *anchor) {
            options.anchors.push_back((*anchor)->head);
        }
        const std::string witness = device->setting(kWitness).value_or("");
        for (std::size_t at = 0; at < witness.size(); at += kWitnessDigits + 1) {
            if (const auto head = canon::fromHex<Hash>(std::string_view(witness).substr(at, kWitnessDigits))) {
                options.anchors.push_back(*head);
            }
        }
    }
    return options;
}

Outcome<ledger::Verification> Yard::State::verify(
    const std::optional<VesselId>& look_at, bool indexes, const std::function<bool(std::uint64_t)>& progress) const
{
    ledger::VerifyOptions options = verifyOptions();
    options.evidence = folder / "evidence";
    options.progress = progress;
    options.look_at = look_at;
    options.indexes = indexes;
    auto verification = ledger::verify(folder / "ledger.db", options);
    if (!verification) {
        return tl::unexpected(refusalOf(verification.error(), folder));
    }
    return std::move(*verification);
}

Outcome<ledger::Verification> Yard::verify(const Hears& progress) const
{
    const auto all = m_state->ledger.count();
    return m_state->verify(std::nullopt, true, [&](std::uint64_t done) {
        if (progress && all) {
            progress(done, *all);
        }
        return true;
    });
}

Yard::Yard(std::unique_ptr<State> state)
    : m_state(std::move(state))
{
}
Yard::Yard(Yard&&) noexcept = default;
Yard& Yard::operator=(Yard&&) noexcept = default;
Yard::~Yard() = default;

} // namespace brimful::yard
