#include "core/ledger/ledger.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <sqlite3.h>

#include <algorithm>
#include <fstream>
#include <unistd.h>

namespace brimful::ledger {

namespace {

constexpr int kApplicationId = 1112688973; // PERSISTED: "BRIM"
constexpr int kSchemaVersion = 1; // PERSISTED: user_version
constexpr int kBusyMs = 5000;
constexpr int kCopyTries = 5;

constexpr const char* kSchema = R"(
CREATE TABLE entry(
  row INTEGER PRIMARY KEY,
  hash BLOB NOT NULL UNIQUE, body TEXT NOT NULL, person_sig BLOB, device_sig BLOB NOT NULL,
  device BLOB NOT NULL, seq INTEGER NOT NULL, vessel BLOB, kind TEXT NOT NULL, UNIQUE(device, seq)) STRICT;
CREATE INDEX entry_vessel ON entry(vessel);
CREATE TRIGGER entry_is_kept BEFORE DELETE ON entry BEGIN SELECT RAISE(ABORT, 'entries are never deleted'); END;
CREATE TRIGGER entry_is_fixed BEFORE UPDATE ON entry BEGIN SELECT RAISE(ABORT, 'entries are never changed'); END;
)";

StoreFault faultOf(int code)
{
    if (code == SQLITE_CONSTRAINT_UNIQUE) {
        return StoreFault::HeadMoved; // this hash, or this place in a device's feed, is taken
    }
    switch (code & 0xff) {
    case SQLITE_FULL:
        return StoreFault::Full;
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
        return StoreFault::Busy;
    case SQLITE_CORRUPT:
        return StoreFault::Damaged;
    case SQLITE_NOTADB:
        return StoreFault::NotALedger;
    case SQLITE_READONLY:
    case SQLITE_PERM:
    case SQLITE_AUTH:
    case SQLITE_CANTOPEN:
        return StoreFault::Unwritable;
    default:
        return StoreFault::Input;
    }
}

template <class Id> std::string raw(const Id& id) { return {reinterpret_cast<const char*>(id.value.data()), id.value.size()}; } // NOLINT

void bindBlob(SQLite::Statement& statement, int index, const std::string& bytes)
{
    statement.bind(index, bytes.data(), static_cast<int>(bytes.size()));
}

template <class Id> bool readBlob(const SQLite::Column& column, Id& out)
{
    if (column.getBytes() != static_cast<int>(out.value.size())) {
        return false;
    }
    const auto* bytes = static_cast<const std::uint8_t*>(column.getBlob());
    std::copy_n(bytes, out.value.size(), out.value.begin());
    return true;
}

// A row whose blobs have wrong sizes still comes out, with what could be read: the verifier names it.
Stored rowOf(SQLite::Statement& query)
{
    Stored row;
    row.row = static_cast<std::uint64_t>(query.getColumn(0).getInt64());
    (void)readBlob(query.getColumn(1), row.hash);
    row.body = query.getColumn(2).getString();
    if (!query.getColumn(3).isNull()) {
        row.person_signature.emplace();
        (void)readBlob(query.getColumn(3), *row.person_signature);
    }
    (void)readBlob(query.getColumn(4), row.device_signature);
    return row;
}

constexpr const char* kColumns = "SELECT row, hash, body, person_sig, device_sig FROM entry ";

bool isWritableFolder(const std::filesystem::path& file)
{
    return ::access(file.parent_path().empty() ? "." : file.parent_path().c_str(), W_OK) == 0 && ::access(file.c_str(), W_OK) == 0;
}

// What a file looks like from outside; a file that is not there looks like nothing.
struct Look {
    std::uintmax_t size{};
    std::filesystem::file_time_type written;
    bool operator==(const Look&) const = default;
};
Look lookAt(const std::filesystem::path& file)
{
    std::error_code gone;
    Look look{std::filesystem::file_size(file, gone), std::filesystem::last_write_time(file, gone)};
    return gone ? Look{} : look;
}

// False when the copy failed or another program wrote meanwhile.
bool copyBoth(const std::filesystem::path& file, const std::filesystem::path& to)
{
    const std::filesystem::path log = file.string() + "-wal";
    const std::filesystem::path log_to = to.string() + "-wal";
    const auto before = std::pair(lookAt(file), lookAt(log));
    std::error_code error;
    constexpr auto kOver = std::filesystem::copy_options::overwrite_existing;
    constexpr auto kOwner = std::filesystem::perms::owner_read | std::filesystem::perms::owner_write;
    std::filesystem::remove(log_to, error);
    if (!std::filesystem::copy_file(file, to, kOver, error)) {
        return false;
    }
    std::filesystem::permissions(to, kOwner, error);
    if (before.second != Look{}) {
        if (!std::filesystem::copy_file(log, log_to, kOver, error)) {
            return false;
        }
        std::filesystem::permissions(log_to, kOwner, error);
    }
    return !error && before == std::pair(lookAt(file), lookAt(log));
}

// A ledger in a folder that cannot be written is read from a copy: SQLite would need to write beside it, and opening it as
// immutable silently leaves out what still stands in the log.
std::filesystem::path copyAside(const std::filesystem::path& file)
{
    std::string pattern = (std::filesystem::temp_directory_path() / "brimful-XXXXXX").string();
    if (::mkdtemp(pattern.data()) == nullptr) {
        return {};
    }
    const std::filesystem::path folder = pattern;
    for (int tries = 0; tries < kCopyTries; ++tries) {
        if (copyBoth(file, folder / "ledger.db")) {
            return folder / "ledger.db";
        }
    }
    std::error_code ignored;
    std::filesystem::remove_all(folder, ignored);
    return {};
}

} // namespace

struct Ledger::State {
    std::filesystem::path file;
    std::filesystem::path copy; // to be removed
    std::unique_ptr<SQLite::Database> db;
    bool reads_only{};
    std::optional<StoreError> latch;

    State() = default;
    State(const State&) = delete;
    State& operator=(const State&) = delete;
    ~State()
    {
        db.reset();
        if (!copy.empty()) {
            std::error_code ignored;
            std::filesystem::remove_all(copy.parent_path(), ignored);
        }
    }

    StoreError fail(const SQLite::Exception& exception)
    {
        StoreError error{faultOf(exception.getExtendedErrorCode()), file.string(), exception.what()};
        if (error.fault == StoreFault::Full || error.fault == StoreFault::Input || error.fault == StoreFault::Damaged) {
            latch = error;
        }
        return error;
    }
    [[nodiscard]] tl::expected<void, StoreError> free() const
    {
        if (latch) {
            return tl::unexpected(StoreError{StoreFault::Latched, file.string(), latch->detail});
        }
        return {};
    }

    [[nodiscard]] tl::expected<void, StoreError> writable() const
    {
        if (reads_only) {
            return tl::unexpected(StoreError{StoreFault::Unwritable, file.string(), {}});
        }
        return free();
    }

    void configure()
    {
        sqlite3* handle = db->getHandle();
        sqlite3_db_config(handle, SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, 1, nullptr);
        sqlite3_db_config(handle, SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
        sqlite3_db_config(handle, SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, nullptr);
        sqlite3_extended_result_codes(handle, 1);
        db->exec("PRAGMA synchronous=FULL");
        db->exec("PRAGMA wal_autocheckpoint=0");
        db->exec("PRAGMA cell_size_check=ON");
        db->exec("PRAGMA mmap_size=0");
    }

    template <class Use> tl::expected<void, StoreError> guarded(const Use& use)
    {
        if (auto ok = free(); !ok) {
            return ok;
        }
        try {
            use();
            return {};
        } catch (const SQLite::Exception& exception) {
            return tl::unexpected(fail(exception));
        }
    }

    void insert(const Stored& row)
    {
        const auto entry = decode(row.body);
        SQLite::Statement write(
            *db, "INSERT INTO entry(hash, body, person_sig, device_sig, device, seq, vessel, kind) VALUES(?,?,?,?,?,?,?,?)");
        bindBlob(write, 1, raw(row.hash));
        write.bind(2, row.body);
        if (row.person_signature) {
            bindBlob(write, 3, raw(*row.person_signature));
        }
        bindBlob(write, 4, raw(row.device_signature));
        bindBlob(write, 5, raw(entry->device));
        write.bind(6, static_cast<std::int64_t>(entry->seq));
        if (entry->vessel) {
            bindBlob(write, 7, raw(*entry->vessel));
        }
        write.bind(8, std::string(kindWord(entry->kind)));
        write.exec();
    }
};

Ledger::Ledger(std::unique_ptr<State> state)
    : m_state(std::move(state))
{
}
Ledger::Ledger(Ledger&&) noexcept = default;
Ledger& Ledger::operator=(Ledger&&) noexcept = default;
Ledger::~Ledger() = default;

tl::expected<Ledger, StoreError> Ledger::create(const std::filesystem::path& file)
{
    auto state = std::make_unique<State>();
    state->file = file;
    try {
        state->db = std::make_unique<SQLite::Database>(file.string(), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE, kBusyMs);
        state->db->exec("PRAGMA page_size=4096");
        state->db->exec("PRAGMA journal_mode=WAL");
        state->db->exec("PRAGMA application_id=" + std::to_string(kApplicationId));
        state->db->exec("PRAGMA user_version=" + std::to_string(kSchemaVersion));
        state->db->exec(kSchema);
        state->configure();
    } catch (const SQLite::Exception& exception) {
        return tl::unexpected(state->fail(exception));
    }
    return Ledger(std::move(state));
}

tl::expected<Ledger, StoreError> Ledger::open(const std::filesystem::path& file, Mode mode)
{
    std::error_code hidden;
    if (!std::filesystem::exists(file, hidden)) {
        return tl::unexpected(StoreError{hidden ? StoreFault::Unwritable : StoreFault::Missing, file.string(), hidden.message()});
    }
    auto state = std::make_unique<State>();
    state->file = file;
    state->reads_only = mode == Mode::ReadOnly;
    std::filesystem::path opened = file;
    if (!isWritableFolder(file)) {
        if (mode == Mode::ReadWrite) {
            return tl::unexpected(StoreError{StoreFault::Unwritable, file.string(), {}});
        }
        state->copy = copyAside(file);
        if (state->copy.empty()) {
            return tl::unexpected(StoreError{StoreFault::Input, file.string(), {}});
        }
        opened = state->copy;
    }
    try {
        state->db = std::make_unique<SQLite::Database>(opened.string(), SQLite::OPEN_READWRITE, kBusyMs);
        const int application = state->db->execAndGet("PRAGMA application_id").getInt();
        const int version = state->db->execAndGet("PRAGMA user_version").getInt();
        if (application != kApplicationId) {
            return tl::unexpected(StoreError{StoreFault::NotALedger, file.string(), {}});
        }
        if (version > kSchemaVersion) {
            return tl::unexpected(StoreError{StoreFault::Newer, file.string(), std::to_string(version)});
        }
        state->configure();
    } catch (const SQLite::Exception& exception) {
        return tl::unexpected(state->fail(exception));
    }
    return Ledger(std::move(state));
}

tl::expected<void, StoreError> Ledger::append(std::span<const Stored> rows)
{
    return appendWith([&]() -> tl::expected<std::vector<Stored>, StoreError> { return std::vector<Stored>(rows.begin(), rows.end()); });
}

tl::expected<void, StoreError> Ledger::appendWith(const std::function<tl::expected<std::vector<Stored>, StoreError>()>& make)
{
    if (auto ok = m_state->writable(); !ok) {
        return ok;
    }
    std::optional<StoreError> refused;
    auto done = m_state->guarded([&] {
        SQLite::Transaction transaction(*m_state->db, SQLite::TransactionBehavior::IMMEDIATE);
        const auto rows = make();
        if (!rows) {
            refused = rows.error(); // rolled back by leaving
            return;
        }
        for (const Stored& row : *rows) {
            if (const auto entry = decode(row.body); !entry) {
                refused = StoreError{StoreFault::Input, m_state->file.string(), "not an entry: " + entry.error().path};
                return;
            }
            m_state->insert(row);
        }
        transaction.commit();
    });
    if (done && refused) {
        return tl::unexpected(*refused);
    }
    return done;
}

tl::expected<void, StoreError> Ledger::stream(const std::function<bool(const Stored&)>& each) const
{
    return m_state->guarded([&] {
        SQLite::Statement query(*m_state->db, std::string(kColumns) + "ORDER BY row");
        while (query.executeStep()) {
            if (!each(rowOf(query))) {
                return;
            }
        }
    });
}

tl::expected<std::vector<Stored>, StoreError> Ledger::ofVessel(const VesselId& vessel) const
{
    std::vector<Stored> rows;
    const auto done = m_state->guarded([&] {
        SQLite::Statement query(*m_state->db, std::string(kColumns) + "WHERE vessel = ? ORDER BY row");
        bindBlob(query, 1, raw(vessel));
        while (query.executeStep()) {
            rows.push_back(rowOf(query));
        }
    });
    if (!done) {
        return tl::unexpected(done.error());
    }
    return rows;
}

tl::expected<std::vector<Stored>, StoreError> Ledger::ofYard() const
{
    std::vector<Stored> rows;
    const auto done = m_state->guarded([&] {
        SQLite::Statement query(*m_state->db, std::string(kColumns) + "WHERE vessel IS NULL ORDER BY row");
        while (query.executeStep()) {
            rows.push_back(rowOf(query));
        }
    });
    if (!done) {
        return tl::unexpected(done.error());
    }
    return rows;
}

tl::expected<std::optional<Stored>, StoreError> Ledger::byHash(const Hash& hash) const
{
    std::optional<Stored> row;
    const auto done = m_state->guarded([&] {
        SQLite::Statement query(*m_state->db, std::string(kColumns) + "WHERE hash = ?");
        bindBlob(query, 1, raw(hash));
        if (query.executeStep()) {
            row = rowOf(query);
        }
    });
    if (!done) {
        return tl::unexpected(done.error());
    }
    return row;
}

tl::expected<void, StoreError> Ledger::streamAll(const std::function<bool(const Stored&, const Columns&)>& each) const
{
    return m_state->guarded([&] {
        SQLite::Statement query(
            *m_state->db, "SELECT row, hash, body, person_sig, device_sig, device, vessel, kind, seq FROM entry ORDER BY row");
        const auto bytesOf = [&](int column) {
            const SQLite::Column value = query.getColumn(column);
            const auto* bytes = static_cast<const char*>(value.getBlob());
            return bytes == nullptr ? std::string_view() : std::string_view(bytes, static_cast<std::size_t>(value.getBytes()));
        };
        while (query.executeStep()) {
            const Columns columns{bytesOf(5), bytesOf(6), bytesOf(7), query.getColumn(8).getInt64()};
            if (!each(rowOf(query), columns)) {
                return;
            }
        }
    });
}

tl::expected<bool, StoreError> Ledger::isSound() const
{
    bool sound = false;
    const auto done = m_state->guarded([&] { sound = m_state->db->execAndGet("PRAGMA integrity_check(1)").getString() == "ok"; });
    if (!done) {
        return tl::unexpected(done.error());
    }
    return sound;
}

tl::expected<std::uint64_t, StoreError> Ledger::count() const
{
    std::uint64_t rows = 0;
    const auto done =
        m_state->guarded([&] { rows = static_cast<std::uint64_t>(m_state->db->execAndGet("SELECT count(*) FROM entry").getInt64()); });
    if (!done) {
        return tl::unexpected(done.error());
    }
    return rows;
}

tl::expected<Ledger::Tip, StoreError> Ledger::tip(const DeviceId& device) const
{
    Tip tip;
    const auto done = m_state->guarded([&] {
        SQLite::Statement query(*m_state->db, "SELECT seq, hash FROM entry WHERE device = ? ORDER BY seq DESC LIMIT 1");
        bindBlob(query, 1, raw(device));
        if (query.executeStep()) {
            tip.seq = static_cast<std::uint64_t>(query.getColumn(0).getInt64());
            Hash hash;
            if (readBlob(query.getColumn(1), hash)) {
                tip.head = hash;
            }
        }
    });
    if (!done) {
        return tl::unexpected(done.error());
    }
    return tip;
}

tl::expected<void, StoreError> Ledger::checkpoint()
{
    if (auto ok = m_state->writable(); !ok) {
        return ok;
    }
    const int code = sqlite3_wal_checkpoint_v2(m_state->db->getHandle(), nullptr, SQLITE_CHECKPOINT_TRUNCATE, nullptr, nullptr);
    if (code != SQLITE_OK && (code & 0xff) != SQLITE_BUSY) {
        m_state->latch = StoreError{faultOf(code), m_state->file.string(), sqlite3_errmsg(m_state->db->getHandle())};
        return tl::unexpected(*m_state->latch);
    }
    return {};
}

std::int64_t Ledger::dataVersion() const
{
    try {
        return m_state->db->execAndGet("PRAGMA data_version").getInt64();
    } catch (const SQLite::Exception&) {
        return -1;
    }
}

bool Ledger::latched() const { return m_state->latch.has_value(); }
bool Ledger::copied() const { return !m_state->copy.empty(); }

} // namespace brimful::ledger
