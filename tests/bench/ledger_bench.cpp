// How long the ledger takes: an append beside a bare insert, and reading, checking and verifying a long one.
//   bench_ledger [ENTRIES] [FOLDER]
#include "core/canon/json.h"
#include "core/ledger/verify.h"
#include "core/people/keys.h"

#include <SQLiteCpp/SQLiteCpp.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <filesystem>

using namespace brimful;

namespace {

using Time = std::chrono::steady_clock;

double secondsSince(Time::time_point start) { return std::chrono::duration<double>(Time::now() - start).count(); }

double median(std::vector<double> values)
{
    std::ranges::sort(values);
    return values.at(values.size() / 2);
}

// A yard of one person, and as many records of its vessels as wanted, each of about 800 bytes.
class Feed {
public:
    Feed()
    {
        canon::Json its_device = canon::Json::object();
        its_device.set("id", canon::toHex(m_device)).set("key", canon::toHex(m_device_key.publicKey())).set("name", "Tablet");
        canon::Json founder = canon::Json::object();
        founder.set("key", canon::toHex(m_key.publicKey())).set("name", "Ada Ash").set("person", canon::toHex(m_person));
        canon::Json created = canon::Json::object();
        created.set("authoriser", founder).set("device", its_device).set("name", "Yard").set("owner", "Example").set("use", "work");
        created.set("recovery", canon::toHex(m_key.publicKey()));
        m_first = next(ledger::Kind::YardCreated, created);
    }
    // Another vessel; records go round.
    ledger::Stored admit()
    {
        canon::Json payload = canon::Json::object();
        payload.set("number", "V-" + std::to_string(m_vessels.size() + 1));
        ledger::Stored row = next(ledger::Kind::VesselAdmitted, payload);
        VesselId vessel;
        std::copy_n(row.hash.value.begin(), vessel.value.size(), vessel.value.begin());
        m_vessels.emplace_back(vessel, row.hash);
        return row;
    }
    [[nodiscard]] const ledger::Stored& first() const { return m_first; }
    ledger::Stored next()
    {
        canon::Json payload = canon::Json::object();
        canon::Json wall = canon::Json::object();
        wall.set("count", 95'250).set("typed", "3/8 in").set("unit", "100nm");
        canon::Json facts = canon::Json::object();
        facts.set("seam", "found by eye and by magnet, one longitudinal, two round").set("thinnest", wall).set("thickest", wall);
        payload.set("facts", facts).set("outcome", "done").set("step", "wall-thickness");
        return next(ledger::Kind::Evidence, payload);
    }

private:
    ledger::Stored next(ledger::Kind kind, canon::Json payload)
    {
        ledger::Entry entry;
        entry.yard = m_yard;
        entry.device = m_device;
        entry.seq = ++m_seq;
        entry.prev = m_head;
        if (m_head && kind != ledger::Kind::VesselAdmitted) {
            entry.parents = {*m_head};
        }
        auto* of = kind == ledger::Kind::Evidence && !m_vessels.empty() ? &m_vessels[m_seq % m_vessels.size()] : nullptr;
        if (of != nullptr) {
            entry.vessel = of->first;
            entry.parents = {of->second};
        }
        entry.kind = kind;
        entry.payload = std::move(payload);
        entry.signer = ledger::Signer{m_person, "authoriser"};
        const auto at = static_cast<std::int64_t>(m_seq);
        entry.at = {1'781'424'000'000 + at, at, m_boot, ledger::ClockState::Ok};
        entry.pack = m_pack;
        ledger::Stored row;
        row.body = ledger::encode(entry);
        row.hash = canon::leafHash(row.body);
        row.person_signature = m_key.sign(people::kPersonDomain, row.hash);
        row.device_signature = m_device_key.sign(people::kDeviceDomain, row.hash);
        m_head = row.hash;
        if (of != nullptr) {
            of->second = row.hash;
        }
        return row;
    }

    YardId m_yard{people::randomId<YardId>()};
    DeviceId m_device{people::randomId<DeviceId>()};
    PersonId m_person{people::randomId<PersonId>()};
    BootId m_boot{people::randomId<BootId>()};
    people::SigningKey m_key{people::SigningKey::generate()};
    people::SigningKey m_device_key{people::SigningKey::generate()};
    Hash m_pack{canon::sha256("a pack")};
    std::uint64_t m_seq{};
    std::optional<Hash> m_head;
    std::vector<std::pair<VesselId, Hash>> m_vessels; // and the newest entry of each
    ledger::Stored m_first;
};

// One row a transaction, no checks, no signatures: what SQLite alone costs with the same durability.
class Bare {
public:
    explicit Bare(const std::filesystem::path& file)
        : m_db(file.string(), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE)
    {
        m_db.exec("PRAGMA journal_mode=WAL");
        m_db.exec("PRAGMA synchronous=FULL");
        m_db.exec("PRAGMA wal_autocheckpoint=0");
        m_db.exec("CREATE TABLE entry(row INTEGER PRIMARY KEY, hash BLOB NOT NULL UNIQUE, body TEXT NOT NULL)");
        m_insert = std::make_unique<SQLite::Statement>(m_db, "INSERT INTO entry(hash, body) VALUES(?,?)");
    }
    void insert(const ledger::Stored& row)
    {
        m_insert->bind(1, row.hash.value.data(), static_cast<int>(row.hash.value.size()));
        m_insert->bind(2, row.body);
        m_insert->exec();
        m_insert->reset();
    }

private:
    SQLite::Database m_db;
    std::unique_ptr<SQLite::Statement> m_insert;
};

template <class Row, class Do> double perSecond(const std::vector<Row>& rows, const Do& each)
{
    const auto start = Time::now();
    for (const Row& row : rows) {
        each(row);
    }
    return static_cast<double>(rows.size()) / secondsSince(start);
}

void appends(const std::filesystem::path& folder)
{
    Feed feed;
    auto ledger = ledger::Ledger::create(folder / "append.db");
    if (!ledger || !ledger->append(std::span(&feed.first(), 1))) {
        std::puts("cannot write here");
        std::exit(1);
    }
    Bare bare(folder / "bare.db");
    std::vector<double> ours;
    std::vector<double> theirs;
    for (int block = 0; block < 15; ++block) {
        std::vector<ledger::Stored> rows;
        for (int i = 0; i < 100; ++i) {
            rows.push_back(feed.next());
        }
        theirs.push_back(perSecond(rows, [&](const ledger::Stored& row) { bare.insert(row); }));
        ours.push_back(perSecond(rows, [&](const ledger::Stored& row) { (void)ledger->append(std::span(&row, 1)); }));
    }
    std::printf("append             %10.0f /s\n", median(ours));
    std::printf("bare insert        %10.0f /s   (append is %.0f %% of it)\n", median(theirs), 100 * median(ours) / median(theirs));
}

void reads(const std::filesystem::path& folder, std::size_t entries)
{
    Feed feed;
    std::vector<ledger::Stored> rows{feed.first()};
    for (std::size_t i = 0; i < std::min<std::size_t>(1000, entries / 200); ++i) {
        rows.push_back(feed.admit());
    }
    while (rows.size() < entries) {
        rows.push_back(feed.next());
    }
    std::printf("entries            %10zu of %zu bytes\n", rows.size(), rows.back().body.size());
    const auto file = folder / "long.db";
    {
        auto ledger = ledger::Ledger::create(file);
        if (!ledger || !ledger->append(rows)) {
            std::puts("cannot write here");
            std::exit(1);
        }
    }
    const auto count = static_cast<double>(rows.size());
    const double signatures = perSecond(std::vector<int>(20'000), [&](int) {
        static const auto key = people::SigningKey::generate();
        static const auto public_key = key.publicKey();
        static const auto signature = key.sign(people::kPersonDomain, rows[0].hash);
        (void)people::verifies(public_key, people::kPersonDomain, rows[0].hash, signature);
    });
    std::printf("signatures         %10.0f /s\n", signatures);
    rows.clear();
    const auto ledger = ledger::Ledger::open(file, ledger::Mode::ReadOnly);
    auto start = Time::now();
    (void)ledger->stream([](const ledger::Stored&) { return true; });
    std::printf("streamed           %10.0f /s\n", count / secondsSince(start));
    start = Time::now();
    std::size_t good = 0;
    (void)ledger->stream([&](const ledger::Stored& row) {
        good += canon::isCanonical(row.body) && canon::leafHash(row.body) == row.hash ? 1U : 0U;
        return true;
    });
    std::printf("form and hash      %10.0f /s   (%zu good)\n", count / secondsSince(start), good);
    start = Time::now();
    (void)ledger->stream([&](const ledger::Stored& row) { return canon::readCanonical(row.body).has_value(); });
    std::printf("read as JSON       %10.0f /s\n", count / secondsSince(start));
    start = Time::now();
    (void)ledger->isSound();
    std::printf("SQLite's own check %10.0f /s\n", count / secondsSince(start));
    ledger::VerifyOptions chain;
    chain.signatures = false;
    chain.indexes = false;
    start = Time::now();
    (void)ledger::verify(file, chain);
    std::printf("chain, form, hash  %10.0f /s   (with roles, feeds, parents, columns)\n", count / secondsSince(start));
    chain.signatures = true;
    chain.look_at = VesselId{};
    start = Time::now();
    (void)ledger::verify(file, chain);
    std::printf("as at each start   %10.2f s   (the chain of all, signatures of the yard's entries)\n", secondsSince(start));
    start = Time::now();
    const auto verification = ledger::verify(file, {});
    const double took = secondsSince(start);
    std::printf("verified whole     %10.0f /s   %.2f s, %llu signatures, %zu findings\n", count / took, took,
        static_cast<unsigned long long>(verification->signatures), verification->findings.size());
}

} // namespace

int main(int argc, char** argv)
{
    const std::size_t entries = argc > 1 ? std::strtoul(argv[1], nullptr, 10) : 200'000;
    const std::filesystem::path where = argc > 2 ? argv[2] : std::filesystem::temp_directory_path();
    std::string pattern = (where / "brimful-bench-").string() + std::string(6, 'X'); // what mkdtemp fills
    if (::mkdtemp(pattern.data()) == nullptr) {
        std::puts("cannot write here");
        return 1;
    }
    appends(pattern);
    reads(pattern, std::max<std::size_t>(entries, 2));
    std::filesystem::remove_all(pattern);
    return 0;
}
