// A further tablet: what it asks, carried as a small file, and its enrolment by an authoriser. FORMAT.md, "Asking to be
// enrolled". And who signed on one device shortly after another.
#include "core/yard/state.h"

#include <algorithm>
#include <fstream>

namespace brimful::yard {

using canon::Json;
using report::Why;

namespace {

constexpr std::string_view kAskLine = "brimful-ask 1\n"; // PERSISTED
constexpr std::uintmax_t kLargestAsk = 64ULL * 1024;
constexpr std::size_t kCodeBytes = 10; // 80 bits of the hash: nobody finds another file with the same
constexpr std::size_t kGroup = 4;
constexpr std::int64_t kPairApartMs = 60'000; // at most, between the two signatures of a pair

std::string plainCode(std::string_view typed)
{
    std::string code;
    for (const char c : typed) {
        if (c != '-' && c != ' ') {
            code.push_back(c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c);
        }
    }
    return code;
}

std::string codeOf(const Hash& hash)
{
    const std::string symbols = canon::toBase32(std::span(hash.value).first(kCodeBytes));
    std::string code;
    for (std::size_t at = 0; at < symbols.size(); at += kGroup) {
        code += (at == 0 ? "" : "-") + symbols.substr(at, kGroup);
    }
    return code;
}

// What is asked, after its form and its device's signature were looked at.
struct Ask {
    Hash hash;
    Json device;
    std::vector<std::pair<PersonId, PublicKey>> people;
    YardId yard;
};

std::optional<Ask> readAsk(const std::filesystem::path& file)
{
    std::error_code error;
    if (std::filesystem::file_size(file, error) > kLargestAsk || error) {
        return std::nullopt;
    }
    std::ifstream in(file, std::ios::binary);
    const std::string bytes{std::istreambuf_iterator<char>(in), {}};
    const std::size_t end = bytes.find('\n', kAskLine.size());
    if (!bytes.starts_with(kAskLine) || end == std::string::npos || bytes.back() != '\n') {
        return std::nullopt;
    }
    const std::string body = bytes.substr(kAskLine.size(), end - kAskLine.size());
    const auto signature = canon::fromHex<Signature>(std::string_view(bytes).substr(end + 1, bytes.size() - end - 2));
    const auto asked = canon::readCanonical(body);
    const Json* device = asked ? asked->find("device") : nullptr;
    const Json* people = asked ? asked->find("people") : nullptr;
    if (device == nullptr || people == nullptr || !signature) {
        return std::nullopt;
    }
    const auto yard = canon::fromHex<YardId>(asked->textOf("yard"));
    const auto key = canon::fromHex<PublicKey>(device->textOf("key"));
    Ask ask{canon::leafHash(body), *device, {}, yard.value_or(YardId{})};
    if (!yard || !key || !canon::fromHex<DeviceId>(device->textOf("id")) || device->textOf("name").empty()
        || !people::verifies(*key, people::kDeviceDomain, ask.hash, *signature)) {
        return std::nullopt;
    }
    for (const Json& one : people->items) {
        const auto person = canon::fromHex<PersonId>(one.textOf("person"));
        const auto its_key = canon::fromHex<PublicKey>(one.textOf("key"));
        if (!person || !its_key) {
            return std::nullopt;
        }
        ask.people.emplace_back(*person, *its_key);
    }
    return ask;
}

// The device of another machine that came along with a copied folder is put aside: it signs nothing here.
bool putAside(const std::filesystem::path& folder)
{
    std::error_code error;
    for (int n = 1; std::filesystem::exists(folder, error) && !error; ++n) {
        const std::filesystem::path aside = folder.string() + "-put-aside-" + std::to_string(n);
        if (!std::filesystem::exists(aside, error)) {
            std::filesystem::rename(folder, aside, error);
        }
    }
    return !error;
}

} // namespace

Outcome<std::string> Yard::askDevice(const DeviceRequest& request, const std::filesystem::path& file)
{
    State& state = *m_state;
    if (state.access == Access::ReadOnly) {
        return refused(Why::ReadOnly, state.folder.string());
    }
    if (request.name.empty()) {
        return refused(Why::NameEmpty, "name");
    }
    if (request.people.empty()) {
        return refused(Why::NeedsPerson);
    }
    if (state.device && state.yard.devices.contains(state.device->id())) {
        return refused(Why::AskTaken, request.name, {}, canon::toHex(state.device->id()));
    }
    std::vector<const ledger::Person*> people;
    for (const Signing& one : request.people) {
        const ledger::Person* person = state.yard.personNamed(one.person);
        if (person == nullptr || person->retired) {
            return refused(Why::UnknownPerson, "person", {}, one.person);
        }
        if (!people::isStrongPin(one.pin)) {
            return refused(Why::WeakPin, one.person);
        }
        people.push_back(person);
    }
    const auto folder = deviceFolder(state.folder);
    state.device.reset();
    if (!putAside(folder)) {
        return refused(Why::NoPermission, folder.string());
    }
    const auto sealing = state.yard.play ? people::Sealing::Light : people::Sealing::Strong;
    auto device = people::Device::create(folder, people::randomId<DeviceId>(), machineId(), sealing);
    if (!device) {
        return tl::unexpected(refusalOf(device.error()));
    }
    Json its_device = Json::object();
    its_device.set("id", canon::toHex(device->id())).set("key", canon::toHex(device->publicKey())).set("name", request.name);
    Json keys = Json::array();
    for (std::size_t i = 0; i < people.size(); ++i) {
        const auto key = device->addPerson(people[i]->id, request.people[i].pin);
        if (!key) {
            return tl::unexpected(refusalOf(key.error()));
        }
        Json one = Json::object();
        one.set("key", canon::toHex(*key)).set("person", canon::toHex(people[i]->id));
        keys.items.push_back(std::move(one));
    }
    Json asked = Json::object();
    asked.set("device", its_device).set("people", keys).set("yard", canon::toHex(state.yard.yard));
    const std::string body = canon::canonical(asked);
    const Hash hash = canon::leafHash(body);
    const std::string bytes = std::string(kAskLine) + body + "\n" + canon::toHex(device->sign(hash)) + "\n";
    state.device = std::move(*device);
    if (const int code = writeDurably(file, bytes); code != 0) {
        return refused(whyOfErrno(code), file.string());
    }
    return codeOf(hash);
}

Outcome<Receipt> Yard::addDevice(const std::filesystem::path& file, const std::string& code, const Signing& by)
{
    State& state = *m_state;
    if (auto writable = state.writable(); !writable) {
        return tl::unexpected(writable.error());
    }
    std::error_code error;
    if (!std::filesystem::exists(file, error)) {
        return refused(Why::NoSuchFile, "file", {}, file.string());
    }
    const auto ask = readAsk(file);
    if (!ask || plainCode(codeOf(ask->hash)) != plainCode(code)) {
        return refused(Why::BadAsk, file.string());
    }
    if (ask->yard != state.yard.yard) {
        return refused(Why::OtherYard, file.string());
    }
    const std::string id(ask->device.textOf("id"));
    const std::string name(ask->device.textOf("name"));
    if (state.yard.devices.contains(*canon::fromHex<DeviceId>(id))) {
        return refused(Why::AskTaken, name, {}, id);
    }
    std::vector<people::SigningKey> keys;
    keys.reserve(1);
    const std::vector<std::string> authorisers{std::string(kAuthoriser)};
    const auto signer = state.unlock(by, authorisers, keys);
    if (!signer) {
        return tl::unexpected(signer.error());
    }
    std::vector<Draft> drafts(1);
    drafts[0].kind = ledger::Kind::DeviceEnrolled;
    drafts[0].payload.set("device", ask->device);
    for (const auto& [person, key] : ask->people) {
        const auto known = state.yard.people.find(person);
        if (known == state.yard.people.end() || known->second.retired) {
            return refused(Why::UnknownPerson, "person", {}, canon::toHex(person));
        }
        Draft enrolled;
        enrolled.kind = ledger::Kind::PersonEnrolled;
        enrolled.payload.set("device", id).set("key", canon::toHex(key)).set("name", known->second.name);
        enrolled.payload.set("person", canon::toHex(person));
        drafts.push_back(std::move(enrolled));
    }
    for (Draft& draft : drafts) {
        draft.signer = &*signer;
    }
    const auto written = state.append(drafts);
    if (!written) {
        return tl::unexpected(written.error());
    }
    return Receipt{written->front(), std::nullopt, true, false};
}

std::vector<DeviceShown> Yard::devices() const
{
    std::vector<DeviceShown> shown;
    for (const ledger::Line& line : m_state->yard_lines) {
        const bool enrols = line.entry.kind == ledger::Kind::YardCreated || line.entry.kind == ledger::Kind::DeviceEnrolled;
        const Json* device = enrols ? line.entry.payload.find("device") : nullptr;
        const auto id = device == nullptr ? std::nullopt : canon::fromHex<DeviceId>(device->textOf("id"));
        if (id) {
            shown.push_back({*id, std::string(device->textOf("name")), m_state->device && m_state->device->id() == *id});
        }
    }
    return shown;
}

Outcome<std::vector<SignedPair>> Yard::signedTogether() const
{
    const State& state = *m_state;
    struct Signed {
        Hash entry;
        PersonId person;
        BootId boot;
        std::int64_t boot_ms{};
    };
    const auto nameOf = [&](const PersonId& id) {
        const auto person = state.yard.people.find(id);
        return person == state.yard.people.end() ? canon::toHex(id) : person->second.name;
    };
    std::map<DeviceId, Signed> newest;
    std::vector<SignedPair> pairs;
    const auto read = state.ledger.stream([&](const ledger::Stored& row) {
        const auto entry = ledger::decode(row.body);
        if (!entry || !entry->signer) {
            return true;
        }
        const auto before = newest.find(entry->device);
        const std::int64_t apart = before == newest.end() ? 0 : entry->at.boot_ms - before->second.boot_ms;
        if (before != newest.end() && before->second.person != entry->signer->person && before->second.boot == entry->at.boot && apart >= 0
            && apart <= kPairApartMs) {
            SignedPair pair;
            pair.device = entry->device;
            pair.first = nameOf(before->second.person);
            pair.second = nameOf(entry->signer->person);
            pair.first_entry = before->second.entry;
            pair.second_entry = row.hash;
            const auto vessel = std::ranges::find_if(state.vessels, [&](const VesselRecord& one) { return one.id == entry->vessel; });
            pair.vessel = vessel == state.vessels.end() ? std::string() : vessel->number;
            pair.at_ms = entry->at.wall_ms;
            pair.apart_ms = apart;
            pair.confirms =
                entry->kind == ledger::Kind::Confirmed && entry->payload.textOf("confirms") == canon::toHex(before->second.entry);
            pairs.push_back(std::move(pair));
        }
        newest.insert_or_assign(entry->device, Signed{row.hash, entry->signer->person, entry->at.boot, entry->at.boot_ms});
        return true;
    });
    if (!read) {
        return tl::unexpected(refusalOf(read.error(), state.folder));
    }
    return pairs;
}

} // namespace brimful::yard
