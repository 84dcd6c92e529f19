#include "core/ledger/ledger.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <sqlite3.h>

#include <algorithm>
#include <array>
#include <fstream>
#include <unistd.h>

namespace brimful::ledger {

namespace {

constexpr int kApplicationId = 1112688973; // PERSISTED: "BRIM"
constexpr int kSchemaVersion = 2; // PERSISTED: user_version; 1 until a fork is kept
constexpr int kBusyMs = 5000;
constexpr int kCopyTries = 5;

struct Object {
    std::string_view name;
    const char* sql; // PERSISTED, as it stands in sqlite_schema
};
constexpr std::array kSchema{
    Object{"entry", R"(CREATE TABLE entry(
  row INTEGER PRIMARY KEY,
  hash BLOB NOT NULL UNIQUE, body TEXT NOT NULL, person_sig BLOB, device_sig BLOB NOT NULL,
  device BLOB NOT NULL, seq INTEGER NOT NULL, vessel BLOB, kind TEXT NOT NULL, UNIQUE(device, seq)) STRICT)"},
    Object{"entry_vessel", "CREATE INDEX entry_vessel ON entry(vessel)"},
    Object{
        "entry_is_kept", "CREATE TRIGGER entry_is_kept BEFORE DELETE ON entry BEGIN SELECT RAISE(ABORT, 'entries are never deleted'); END"},
    Object{"entry_is_fixed",
        "CREATE TRIGGER entry_is_fixed BEFORE UPDATE ON entry BEGIN SELECT RAISE(ABORT, 'entries are never changed'); END"},
};
// Made when the first fork is kept: entries whose place in their device's feed is taken, and what follows them.
constexpr std::array kForkSchema{
    Object{"fork", R"(CREATE TABLE fork(
  row INTEGER PRIMARY KEY,
  hash BLOB NOT NULL UNIQUE, body TEXT NOT NULL, person_sig BLOB, device_sig BLOB NOT NULL,
  device BLOB NOT NULL, seq INTEGER NOT NULL, vessel BLOB, kind TEXT NOT NULL) STRICT)"},
    Object{"fork_is_kept", "CREATE TRIGGER fork_is_kept BEFORE DELETE ON fork BEGIN SELECT RAISE(ABORT, 'entries are never deleted'); END"},
    Object{
        "fork_is_fixed", "CREATE TRIGGER fork_is_fixed BEFORE UPDATE ON fork BEGIN SELECT RAISE(ABORT, 'entries are never changed'); END"},
};

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

// Zero where the sizes differ.
template <class Id> void take(std::string_view bytes, Id& out)
{
    out = Id{};
    if (bytes.size() == out.value.size()) {
        std::copy_n(bytes.begin(), bytes.size(), out.value.begin());
    }
}

bool isOurs(std::string_view name, const SQLite::Column& sql)
{
    const auto same = [&](const Object& object) { return object.name == name && !sql.isNull() && sql.getString() == object.sql; };
    const bool made_by_unique = sql.isNull() && (name.starts_with("sqlite_autoindex_entry_") || name.starts_with("sqlite_autoindex_fork_"));
    return made_by_unique || std::ranges::any_of(kSchema, same) || std::ranges::any_of(kForkSchema, same);
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
    row.beside = query.getColumn(5).getInt() != 0;
    return row;
}

constexpr const char* kAllColumns = "row, hash, body, person_sig, device_sig, device, vessel, kind, seq";

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
    std::string pattern = (std::filesystem::temp_directory_path() / "brimful-").string() + std::string(6, 'X'); // what mkdtemp fills
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
    std::optional<Hash> acknowledged; // the newest entry that a caller was told is durable

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
        if (error.fault != StoreFault::Busy && error.fault != StoreFault::HeadMoved) { // whatever it was, what stands on the disk is unsure
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

    void connect(const std::filesystem::path& opened, int flags)
    {
        db = std::make_unique<SQLite::Database>(opened.string(), flags, kBusyMs);
        sqlite3* handle = db->getHandle();
        sqlite3_db_config(handle, SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, 1, nullptr);
        sqlite3_db_config(handle, SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
        sqlite3_db_config(handle, SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, nullptr);
        sqlite3_extended_result_codes(handle, 1);
    }

    void configure() const
    {
        db->exec("PRAGMA synchronous=FULL");
        db->exec("PRAGMA wal_autocheckpoint=0");
        db->exec("PRAGMA cell_size_check=ON");
        db->exec("PRAGMA mmap_size=0");
    }

    // Opens what is there, ours and nothing else: a view, trigger or table of another hand could show or do anything.
    [[nodiscard]] tl::expected<void, StoreError> openFile()
    {
        const std::filesystem::path opened = copy.empty() ? file : copy;
        const auto no = [&](StoreFault fault, std::string detail) {
            return tl::unexpected(StoreError{fault, file.string(), std::move(detail)});
        };
        try {
            connect(opened, SQLite::OPEN_READWRITE);
            const int application = db->execAndGet("PRAGMA application_id").getInt();
            const int version = db->execAndGet("PRAGMA user_version").getInt();
            if (application != kApplicationId || version < 1) {
                return no(StoreFault::NotALedger, {});
            }
            if (version > kSchemaVersion) {
                return no(StoreFault::Newer, std::to_string(version));
            }
            SQLite::Statement objects(*db, "SELECT name, sql FROM sqlite_schema");
            bool has_entries = false;
            while (objects.executeStep()) {
                const std::string name = objects.getColumn(0).getString();
                if (!isOurs(name, objects.getColumn(1))) {
                    return no(StoreFault::Damaged, "not of a ledger: " + name);
                }
                has_entries = has_entries || name == "entry";
            }
            if (!has_entries) {
                return no(StoreFault::Damaged, "no entries");
            }
            configure();
        } catch (const SQLite::Exception& exception) {
            return tl::unexpected(fail(exception));
        }
        return {};
    }

    [[nodiscard]] bool hasForks() const { return db->tableExists("fork"); }

    // Columns 0 to 4 of a row, and whether it stands beside its feed.
    [[nodiscard]] std::string select(const std::string& where, const std::string& more = {}) const
    {
        const std::string columns = "SELECT row, hash, body, person_sig, device_sig, ";
        const bool forks = hasForks();
        // From the place on where a feed forks, neither branch is the right one.
        std::string sql = columns
            + (forks ? "EXISTS(SELECT 1 FROM fork AS other WHERE other.device = entry.device AND other.seq <= entry.seq)" : "0") + more
            + " FROM entry " + where;
        if (forks) {
            sql += " UNION ALL " + columns + "1" + more + " FROM fork " + where;
        }
        return sql + " ORDER BY row";
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

    void insert(const Stored& row, const Entry& entry, bool forks, bool beside = false) const
    {
        const std::string next =
            forks ? "(SELECT 1 + max((SELECT coalesce(max(row), 0) FROM entry), (SELECT coalesce(max(row), 0) FROM fork)))" : "NULL";
        SQLite::Statement write(
            *db, std::string("INSERT INTO ") + (beside ? "fork" : "entry") + "(" + kAllColumns + ") VALUES(" + next + ",?,?,?,?,?,?,?,?)");
        bindBlob(write, 1, raw(row.hash));
        write.bind(2, row.body);
        if (row.person_signature) {
            bindBlob(write, 3, raw(*row.person_signature));
        }
        bindBlob(write, 4, raw(row.device_signature));
        bindBlob(write, 5, raw(entry.device));
        if (entry.vessel) {
            bindBlob(write, 6, raw(*entry.vessel));
        }
        write.bind(7, std::string(kindWord(entry.kind)));
        write.bind(8, static_cast<std::int64_t>(entry.seq));
        write.exec();
    }

    [[nodiscard]] bool finds(const std::string& sql, const std::string& hash) const
    {
        SQLite::Statement query(*db, sql);
        bindBlob(query, 1, hash);
        return query.executeStep();
    }

    // Is this place in its device's feed taken by another entry, or does it follow one that stands beside?
    [[nodiscard]] bool standsBeside(const Entry& entry, bool forks) const
    {
        SQLite::Statement taken(*db, "SELECT 1 FROM entry WHERE device = ? AND seq = ?");
        bindBlob(taken, 1, raw(entry.device));
        taken.bind(2, static_cast<std::int64_t>(entry.seq));
        return taken.executeStep() || (forks && entry.prev && finds("SELECT 1 FROM fork WHERE hash = ?", raw(*entry.prev)));
    }

    void makeForkTable() const
    {
        for (const Object& object : kForkSchema) {
            db->exec(object.sql);
        }
        db->exec("PRAGMA user_version=" + std::to_string(kSchemaVersion));
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
        state->connect(file, SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
        state->db->exec("PRAGMA page_size=4096");
        state->db->exec("PRAGMA journal_mode=WAL");
        state->configure();
        SQLite::Transaction transaction(*state->db);
        state->db->exec("PRAGMA application_id=" + std::to_string(kApplicationId));
        state->db->exec("PRAGMA user_version=1");
        for (const Object& object : kSchema) {
            state->db->exec(object.sql);
        }
        transaction.commit();
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
    if (!isWritableFolder(file)) {
        if (mode == Mode::ReadWrite) {
            return tl::unexpected(StoreError{StoreFault::Unwritable, file.string(), {}});
        }
        state->copy = copyAside(file);
        if (state->copy.empty()) {
            return tl::unexpected(StoreError{StoreFault::Input, file.string(), {}});
        }
    }
    if (auto opened = state->openFile(); !opened) {
        return tl::unexpected(opened.error());
    }
    return Ledger(std::move(state));
}

tl::expected<void, StoreError> Ledger::reopen()
{
    m_state->db.reset();
    m_state->latch.reset();
    auto back = m_state->openFile();
    if (back) {
        back = m_state->guarded([&] {
            const bool sound = m_state->db->execAndGet("PRAGMA integrity_check(1)").getString() == "ok";
            const auto& last = m_state->acknowledged;
            if (!sound || (last && !m_state->finds("SELECT 1 FROM entry WHERE hash = ?", raw(*last)))) {
                m_state->latch = StoreError{StoreFault::Damaged, m_state->file.string(), sound ? "an acknowledged entry is gone" : "pages"};
            }
        });
    }
    if (back && m_state->latch) {
        return tl::unexpected(*m_state->latch);
    }
    if (!back && !m_state->latch) {
        m_state->latch = back.error();
    }
    return back;
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
        const bool forks = m_state->hasForks();
        for (const Stored& row : *rows) {
            const auto entry = decode(row.body);
            if (!entry) {
                refused = StoreError{StoreFault::Input, m_state->file.string(), "not an entry: " + entry.error().path};
                return;
            }
            m_state->insert(row, *entry, forks);
        }
        transaction.commit();
        if (!rows->empty()) {
            m_state->acknowledged = rows->back().hash;
        }
    });
    if (done && refused) {
        return tl::unexpected(*refused);
    }
    return done;
}

tl::expected<std::size_t, StoreError> Ledger::unite(std::span<const Stored> rows)
{
    if (auto ok = m_state->writable(); !ok) {
        return tl::unexpected(ok.error());
    }
    std::size_t added = 0;
    std::optional<StoreError> refused;
    const auto done = m_state->guarded([&] {
        SQLite::Transaction transaction(*m_state->db, SQLite::TransactionBehavior::IMMEDIATE);
        bool forks = m_state->hasForks();
        for (const Stored& row : rows) {
            const auto entry = decode(row.body);
            if (!entry) {
                refused = StoreError{StoreFault::Input, m_state->file.string(), "not an entry: " + entry.error().path};
                return;
            }
            const std::string hash = raw(row.hash);
            if (m_state->finds("SELECT 1 FROM entry WHERE hash = ?", hash)
                || (forks && m_state->finds("SELECT 1 FROM fork WHERE hash = ?", hash))) {
                continue;
            }
            const bool beside = m_state->standsBeside(*entry, forks);
            if (beside && !forks) {
                m_state->makeForkTable();
                forks = true;
            }
            m_state->insert(row, *entry, forks, beside);
            ++added;
        }
        transaction.commit();
    });
    if (!done) {
        return tl::unexpected(done.error());
    }
    if (refused) {
        return tl::unexpected(*refused);
    }
    return added;
}

tl::expected<void, StoreError> Ledger::stream(const std::function<bool(const Stored&)>& each, std::uint64_t after_row) const
{
    return m_state->guarded([&] {
        SQLite::Statement query(*m_state->db, m_state->select("WHERE row > ?1"));
        query.bind(1, static_cast<std::int64_t>(after_row));
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
        SQLite::Statement query(*m_state->db, m_state->select("WHERE vessel = ?1"));
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
        SQLite::Statement query(*m_state->db, m_state->select("WHERE vessel IS NULL"));
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
        SQLite::Statement query(*m_state->db, m_state->select("WHERE hash = ?1"));
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

// Every row at every start: read by SQLite's own calls into one row that is used again.
tl::expected<void, StoreError> Ledger::streamAll(const std::function<bool(const Stored&, const Columns&)>& each) const
{
    return m_state->guarded([&] {
        sqlite3* const handle = m_state->db->getHandle();
        sqlite3_stmt* prepared = nullptr;
        const std::string sql = m_state->select("", ", device, vessel, kind, seq");
        if (const int code = sqlite3_prepare_v2(handle, sql.c_str(), -1, &prepared, nullptr); code != SQLITE_OK) {
            throw SQLite::Exception(handle, code);
        }
        const std::unique_ptr<sqlite3_stmt, decltype(&sqlite3_finalize)> query(prepared, &sqlite3_finalize);
        const auto bytesOf = [&](int column) {
            const auto* bytes = static_cast<const char*>(sqlite3_column_blob(prepared, column));
            const int size = sqlite3_column_bytes(prepared, column);
            return bytes == nullptr ? std::string_view() : std::string_view(bytes, static_cast<std::size_t>(size));
        };
        Stored row;
        int code = sqlite3_step(prepared);
        for (; code == SQLITE_ROW; code = sqlite3_step(prepared)) {
            row.row = static_cast<std::uint64_t>(sqlite3_column_int64(prepared, 0));
            take(bytesOf(1), row.hash);
            row.body.assign(bytesOf(2));
            row.person_signature.reset();
            if (sqlite3_column_type(prepared, 3) != SQLITE_NULL) {
                take(bytesOf(3), row.person_signature.emplace());
            }
            take(bytesOf(4), row.device_signature);
            row.beside = sqlite3_column_int(prepared, 5) != 0;
            const Columns columns{bytesOf(6), bytesOf(7), bytesOf(8), sqlite3_column_int64(prepared, 9)};
            if (!each(row, columns)) {
                return;
            }
        }
        if (code != SQLITE_DONE) {
            throw SQLite::Exception(handle, code);
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
    const auto done = m_state->guarded([&] {
        rows = static_cast<std::uint64_t>(m_state->db->execAndGet("SELECT count(*) FROM entry").getInt64()
            + (m_state->hasForks() ? m_state->db->execAndGet("SELECT count(*) FROM fork").getInt64() : 0));
    });
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
    std::int64_t version = -1;
    (void)m_state->guarded([&] { version = m_state->db->execAndGet("PRAGMA data_version").getInt64(); });
    return version;
}

bool Ledger::latched() const { return m_state->latch.has_value(); }
bool Ledger::copied() const { return !m_state->copy.empty(); }

} // namespace brimful::ledger
