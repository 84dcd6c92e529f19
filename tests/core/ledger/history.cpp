#include "tests/core/ledger/history.h"

#include <SQLiteCpp/SQLiteCpp.h>

#include <algorithm>
#include <stdexcept>

namespace brimful::test {

using canon::Json;
using ledger::Kind;

Json payload(std::initializer_list<std::pair<const char*, Json>> members)
{
    Json out = Json::object();
    for (const auto& [key, value] : members) {
        out.set(key, value);
    }
    return out;
}

History::History()
{
    const Json its_device = payload({{"id", canon::toHex(device)}, {"name", "Tablet 1"}, {"key", canon::toHex(device_key.publicKey())}});
    const Json founder = payload({{"person", canon::toHex(ada.id)}, {"name", "Ada Ash"}, {"key", canon::toHex(ada.key.publicKey())}});
    add(Kind::YardCreated,
        payload({{"name", "North yard"}, {"owner", "Example Fabricators"}, {"use", "work"}, {"device", its_device}, {"authoriser", founder},
            {"recovery", canon::toHex(recovery.publicKey())}}),
        &ada, "authoriser");
    const std::int64_t now = minutes + 1;
    add(Kind::TimeConfirmed, payload({{"wall", kStart + now * 60'000}, {"boot", now * 60'000}}), &ada, "authoriser");
    pack = canon::sha256("a pack");
    enrol(ben, "Ben Birch");
    grant(ben, "gas-tester", kStart);
    grant(ada, "inspector", kStart);
}

ledger::Entry History::draft(Kind kind, Json its_payload, const Actor* who, std::string role, std::optional<VesselId> vessel) const
{
    ledger::Entry entry;
    entry.yard = yard;
    entry.device = device;
    entry.seq = rows.size() + 1;
    if (!rows.empty()) {
        entry.prev = rows.back().hash;
    }
    entry.vessel = vessel;
    const auto known = heads.find(vessel ? canon::toHex(*vessel) : std::string());
    if (known != heads.end() && kind != Kind::VesselAdmitted) {
        entry.parents = known->second;
    }
    entry.kind = kind;
    entry.payload = std::move(its_payload);
    if (who != nullptr) {
        entry.signer = ledger::Signer{who->id, std::move(role)};
    }
    entry.at = {kStart + (minutes + 1) * 60'000, (minutes + 1) * 60'000, boot, ledger::ClockState::Ok};
    entry.pack = pack;
    return entry;
}

ledger::Stored History::sign(const ledger::Entry& entry, const Actor* who) const
{
    ledger::Stored row;
    row.body = ledger::encode(entry);
    row.hash = canon::leafHash(row.body);
    if (who != nullptr) {
        row.person_signature = who->key.sign(people::kPersonDomain, row.hash);
    }
    row.device_signature = device_key.sign(people::kDeviceDomain, row.hash);
    return row;
}

Hash History::keep(const ledger::Entry& entry, const Actor* who)
{
    ++minutes;
    ledger::Stored row = sign(entry, who);
    const std::string hex = canon::toHex(row.hash);
    const std::string of = entry.kind == Kind::VesselAdmitted ? hex.substr(0, 32) : entry.vessel ? canon::toHex(*entry.vessel) : "";
    heads[of] = {row.hash};
    return keep(std::move(row));
}

Hash History::keep(ledger::Stored row)
{
    row.row = rows.size() + 1;
    rows.push_back(std::move(row));
    return rows.back().hash;
}

Hash History::enrol(const Actor& person, const std::string& name)
{
    return add(Kind::PersonEnrolled,
        payload({{"person", canon::toHex(person.id)}, {"name", name}, {"device", canon::toHex(device)},
            {"key", canon::toHex(person.key.publicKey())}}),
        &ada, "authoriser");
}

Hash History::grant(const Actor& person, const std::string& role, std::int64_t from, std::optional<std::int64_t> until)
{
    Json granted = payload({{"person", canon::toHex(person.id)}, {"role", role}, {"from", from}});
    if (until) {
        granted.set("until", *until);
    }
    return add(Kind::RoleGranted, granted, &ada, "authoriser");
}

VesselId History::admit(const std::string& number)
{
    const Hash hash = add(Kind::VesselAdmitted, payload({{"number", number}, {"vessel", Json::object()}, {"note", ""}}), &ada, "inspector");
    return *canon::fromHex<VesselId>(canon::toHex(hash).substr(0, 32));
}

Hash History::event(const VesselId& vessel, const std::string& what)
{
    return add(Kind::Event, payload({{"event", what}, {"note", "north door"}}), nullptr, {}, vessel);
}

void History::write(const std::filesystem::path& file) const
{
    auto ledger = ledger::Ledger::create(file);
    if (!ledger || !ledger->append(rows)) {
        throw std::runtime_error("the test's ledger was not written");
    }
}

std::vector<ledger::Line> History::lines() const
{
    std::vector<ledger::Line> out;
    for (const ledger::Stored& row : rows) {
        out.push_back({row.hash, ledger::decode(row.body).value()});
    }
    return out;
}

const char* flawWord(ledger::Flaw flaw)
{
    using ledger::Flaw;
    switch (flaw) {
    case Flaw::Form:
        return "form";
    case Flaw::HashDiffers:
        return "hash differs";
    case Flaw::ColumnDiffers:
        return "column differs";
    case Flaw::DeviceUnknown:
        return "device unknown";
    case Flaw::DeviceSignature:
        return "device signature";
    case Flaw::PersonUnknown:
        return "person unknown";
    case Flaw::PersonSignature:
        return "person signature";
    case Flaw::PersonMissing:
        return "person missing";
    case Flaw::RoleNotHeld:
        return "role not held";
    case Flaw::FeedGap:
        return "feed gap";
    case Flaw::FeedFork:
        return "feed fork";
    case Flaw::ParentUnknown:
        return "parent unknown";
    case Flaw::ParentLater:
        return "parent later";
    case Flaw::ConfirmsNothing:
        return "confirms nothing";
    case Flaw::AttachmentMissing:
        return "attachment missing";
    case Flaw::AttachmentDiffers:
        return "attachment differs";
    case Flaw::AnchorAhead:
        return "anchor ahead";
    case Flaw::TypedDiffers:
        return "typed differs";
    case Flaw::Unreadable:
        return "unreadable";
    }
    return "";
}

std::string findingsText(const ledger::Verification& verification)
{
    std::string out;
    for (const ledger::Finding& finding : verification.findings) {
        out += (out.empty() ? "row " : ", row ") + std::to_string(finding.row) + ": " + flawWord(finding.flaw);
    }
    return out;
}

ledger::Verification verified(const std::filesystem::path& file, const ledger::VerifyOptions& options)
{
    auto out = ledger::verify(file, options);
    if (!out) {
        throw std::runtime_error("could not be verified at all: " + out.error().detail);
    }
    return *out;
}

void meddle(const std::filesystem::path& file, const std::vector<std::string>& sql)
{
    SQLite::Database db(file.string(), SQLite::OPEN_READWRITE);
    db.exec("PRAGMA synchronous=OFF");
    std::vector<std::string> triggers;
    SQLite::Statement named(db, "SELECT name, sql FROM sqlite_schema WHERE type = 'trigger'");
    std::vector<std::string> drop;
    while (named.executeStep()) {
        drop.push_back("DROP TRIGGER " + named.getColumn(0).getString());
        triggers.push_back(named.getColumn(1).getString());
    }
    named.reset();
    for (const auto& statements : {drop, sql, triggers}) {
        for (const std::string& statement : statements) {
            db.exec(statement);
        }
    }
}

} // namespace brimful::test
