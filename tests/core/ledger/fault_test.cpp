// Power, disk and memory that fail at every place: nothing that was acknowledged is lost, nothing is broken, and whatever
// error the store reports, it stays held until it was opened anew and verified.
// The kinds of fault are those with which SQLite tests itself (sqlite.org/testing.html, sections 3 and 4).
#include "tests/core/ledger/fault_vfs.h"
#include "tests/core/ledger/history.h"
#include "tests/support/suite.h"

#include <QTest>
#include <SQLiteCpp/SQLiteCpp.h>
#include <sqlite3.h>

using namespace brimful;
using ledger::Kind;
using ledger::Ledger;
using ledger::Mode;
using ledger::StoreFault;
using test::Disk;
using test::FaultVfs;

namespace {

bool isDeep() { return qEnvironmentVariableIsSet("BRIMFUL_DEEP"); }

// ---- memory: counts allocations and fails the n-th
struct Memory {
    sqlite3_mem_methods real{};
    int left{}; // 0: none fails
    bool for_ever{};
    bool failed{};

    bool fails()
    {
        if (left == 0 || (failed && !for_ever)) {
            return false;
        }
        failed = failed || --left == 0;
        left = failed ? 1 : left;
        return failed;
    }
};
Memory g_memory;

bool installMemory()
{
    sqlite3_config(SQLITE_CONFIG_GETMALLOC, &g_memory.real);
    sqlite3_mem_methods mine = g_memory.real;
    mine.xMalloc = [](int size) { return g_memory.fails() ? nullptr : g_memory.real.xMalloc(size); };
    mine.xRealloc = [](void* old, int size) { return g_memory.fails() ? nullptr : g_memory.real.xRealloc(old, size); };
    return sqlite3_config(SQLITE_CONFIG_MALLOC, &mine) == SQLITE_OK;
}
const bool g_memory_installed = installMemory(); // before SQLite is used at all

// ---- the work that is disturbed
constexpr std::size_t kAppends = 24;
constexpr std::size_t kCheckpointEvery = 5;

struct Work {
    test::History history; // what stands before, and then what is to be appended
    std::size_t before{};
    QTemporaryDir root;

    Work()
    {
        const VesselId vessel = history.admit("NQ-01");
        before = history.rows.size();
        history.write(folder() / "ledger.db");
        for (std::size_t i = 0; i < kAppends; ++i) {
            history.add(Kind::Event, test::payload({{"event", "moved"}, {"note", std::string(40 + 97 * i, 'x')}}), nullptr, {}, vessel);
        }
    }
    [[nodiscard]] std::filesystem::path folder() const
    {
        const auto folder = std::filesystem::path(root.path().toStdString()) / "yard";
        std::filesystem::create_directories(folder);
        return folder;
    }
    [[nodiscard]] std::filesystem::path image() const { return std::filesystem::path(root.path().toStdString()) / "image"; }
};

// "" or what is wrong with what stands in this folder: broken, or an acknowledged entry is gone, or one that nobody wrote is there.
std::string faultIn(const std::filesystem::path& folder, const test::History& history, std::size_t acknowledged)
{
    const auto ledger = Ledger::open(folder / "ledger.db", Mode::ReadWrite);
    if (!ledger) {
        return "corrupt: does not open";
    }
    const auto sound = ledger->isSound();
    if (!sound || !*sound) {
        return "corrupt: pages";
    }
    std::size_t rows = 0;
    bool same = true;
    const auto read = ledger->stream([&](const ledger::Stored& row) {
        same = same && rows < history.rows.size() && row.hash == history.rows[rows].hash && row.body == history.rows[rows].body;
        ++rows;
        return true;
    });
    if (!read || !same) {
        return "corrupt: rows";
    }
    if (rows < acknowledged) {
        return "lost";
    }
    ledger::VerifyOptions options;
    options.signatures = false;
    const auto verification = ledger::verify(folder / "ledger.db", options);
    return verification && verification->intact() ? "" : "corrupt: chain";
}

// Appends and checkpoints until something says no; how many rows were acknowledged after each operation on the disk.
struct Told {
    std::size_t rows{};
    std::vector<std::pair<std::size_t, std::size_t>> when; // operations done, rows acknowledged by then
    std::optional<ledger::StoreError> error;
    bool latched{};
    bool held{}; // what was tried after the error was refused as latched
};
Told append(Ledger& ledger, const Work& work, FaultVfs& disk)
{
    Told told;
    told.rows = work.before;
    for (std::size_t i = work.before; i < work.history.rows.size() && !told.error; ++i) {
        if (auto done = ledger.append(std::span(&work.history.rows[i], 1)); !done) {
            told.error = done.error();
            break;
        }
        told.rows = i + 1;
        told.when.emplace_back(disk.log().size(), told.rows);
        if (i % kCheckpointEvery == 0) {
            if (auto done = ledger.checkpoint(); !done) {
                told.error = done.error();
            }
        }
    }
    if (told.error) {
        told.latched = ledger.latched();
        const auto next = ledger.append(std::span(&work.history.rows.back(), 1));
        told.held = !next && next.error().fault == StoreFault::Latched && ledger.checkpoint().error().fault == StoreFault::Latched;
    }
    return told;
}

// The same work by bare SQLite with a weaker promise.
Told appendBare(const Work& work, FaultVfs& disk, const std::string& synchronous)
{
    Told told;
    told.rows = work.before;
    SQLite::Database db((work.folder() / "ledger.db").string(), SQLite::OPEN_READWRITE);
    sqlite3_db_config(db.getHandle(), SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, 1, nullptr);
    db.exec("PRAGMA synchronous=" + synchronous);
    db.exec("PRAGMA wal_autocheckpoint=0");
    for (std::size_t i = work.before; i < work.history.rows.size(); ++i) {
        const ledger::Stored& row = work.history.rows[i];
        const auto entry = ledger::decode(row.body);
        SQLite::Statement insert(
            db, "INSERT INTO entry(hash, body, device_sig, device, seq, vessel, kind) VALUES(?, ?, ?, ?, ?, ?, 'event')");
        insert.bind(1, row.hash.value.data(), 32);
        insert.bind(2, row.body);
        insert.bind(3, row.device_signature.value.data(), 64);
        insert.bind(4, entry->device.value.data(), 16);
        insert.bind(5, static_cast<std::int64_t>(entry->seq));
        insert.bind(6, entry->vessel->value.data(), 16);
        insert.exec();
        told.rows = i + 1;
        told.when.emplace_back(disk.log().size(), told.rows);
        if (i % kCheckpointEvery == 0) {
            db.exec("PRAGMA wal_checkpoint(TRUNCATE)");
        }
    }
    return told;
}

struct Tally {
    int images{};
    int corrupt{};
    int lost{};
    std::string first;
};

// The power goes after each operation, several times over.
Tally cutPower(const Work& work, const Disk& before, const std::vector<test::Operation>& log, const Told& told, int each, int wanted)
{
    Tally tally;
    std::mt19937 random(7);
    const std::size_t step =
        wanted > 0 ? std::max<std::size_t>(1, log.size() * static_cast<std::size_t>(each) / static_cast<std::size_t>(wanted)) : 1;
    for (std::size_t done = 0; done <= log.size(); done += step) {
        std::size_t acknowledged = work.before;
        for (const auto& [operations, rows] : told.when) {
            acknowledged = operations <= done ? rows : acknowledged;
        }
        for (int i = 0; i < each; ++i) {
            const double kept = i == 0 ? 0.0 : i == 1 ? 1.0 : 0.5;
            test::writeDisk(test::afterPowerLoss(before, log, done, random, kept), work.image());
            const std::string fault = faultIn(work.image(), work.history, acknowledged);
            ++tally.images;
            tally.corrupt += fault.starts_with("corrupt") ? 1 : 0;
            tally.lost += fault == "lost" ? 1 : 0;
            if (tally.first.empty() && !fault.empty()) {
                tally.first = fault + " after operation " + std::to_string(done);
            }
        }
    }
    return tally;
}

QByteArray shown(const char* what, const Tally& tally)
{
    return QByteArray(what) + ": " + QByteArray::number(tally.images) + " images, " + QByteArray::number(tally.corrupt) + " corrupt, "
        + QByteArray::number(tally.lost) + " lost acknowledged entries " + QByteArray::fromStdString(tally.first);
}

} // namespace

class FaultTest : public QObject {
    Q_OBJECT

private slots:
    void powerLoss()
    {
        const Work work;
        const Disk before = test::diskOf(work.folder());
        std::vector<test::Operation> log;
        Told told;
        {
            FaultVfs disk;
            auto ledger = Ledger::open(work.folder() / "ledger.db", Mode::ReadWrite);
            QVERIFY(ledger.has_value());
            disk.record();
            told = append(*ledger, work, disk);
            log = disk.log();
        }
        QVERIFY(!told.error);
        QCOMPARE(told.rows, work.history.rows.size());
        const Tally tally = isDeep() ? cutPower(work, before, log, told, 1 + 10'000 / static_cast<int>(log.size()), 0)
                                     : cutPower(work, before, log, told, 3, 450);
        qInfo("%s", shown("power loss", tally).constData());
        QVERIFY(tally.images >= (isDeep() ? 10'000 : 300));
        QVERIFY2(tally.corrupt == 0 && tally.lost == 0, shown("power loss", tally).constData());
    }

    // The campaign is worth something only if it sees what weaker promises lose.
    void theHarnessSeesWeakerSettings_data()
    {
        QTest::addColumn<QString>("synchronous");
        QTest::addColumn<bool>("corrupts");
        QTest::newRow("NORMAL loses what was acknowledged") << "NORMAL" << false;
        QTest::newRow("OFF breaks the file") << "OFF" << true;
    }
    void theHarnessSeesWeakerSettings()
    {
        QFETCH(QString, synchronous);
        QFETCH(bool, corrupts);
        const Work work;
        const Disk before = test::diskOf(work.folder());
        std::vector<test::Operation> log;
        Told told;
        {
            FaultVfs disk;
            disk.record();
            told = appendBare(work, disk, synchronous.toStdString());
            log = disk.log();
        }
        const Tally tally = cutPower(work, before, log, told, 3, isDeep() ? 3000 : 300);
        qInfo("%s", shown(synchronous.toLatin1().constData(), tally).constData());
        QVERIFY(tally.lost > 0);
        QCOMPARE(tally.corrupt > 0, corrupts);
    }

    // The ledger itself, on a disk that says yes to a sync and does nothing.
    void theHarnessSeesADiskThatLies()
    {
        const Work work;
        const Disk before = test::diskOf(work.folder());
        FaultVfs disk;
        auto ledger = Ledger::open(work.folder() / "ledger.db", Mode::ReadWrite);
        QVERIFY(ledger.has_value());
        disk.ignoreSyncs(true);
        disk.record();
        const Told told = append(*ledger, work, disk);
        const std::vector<test::Operation> log = disk.log();
        const Tally tally = cutPower(work, before, log, told, 3, 200);
        QVERIFY2(tally.lost > 0 && tally.corrupt > 0, shown("lying disk", tally).constData());
    }

    void errorsAtEveryPlace_data()
    {
        QTest::addColumn<int>("fails");
        QTest::addColumn<bool>("for_ever");
        for (const bool for_ever : {false, true}) {
            const char* how = for_ever ? ", for ever" : ", once";
            QTest::newRow((std::string("any operation") + how).c_str()) << int(FaultVfs::Fails::Any) << for_ever;
            QTest::newRow((std::string("syncs") + how).c_str()) << int(FaultVfs::Fails::Sync) << for_ever;
            QTest::newRow((std::string("disk full") + how).c_str()) << int(FaultVfs::Fails::Full) << for_ever;
        }
    }
    void errorsAtEveryPlace()
    {
        QFETCH(int, fails);
        QFETCH(bool, for_ever);
        const Work work;
        const Disk before = test::diskOf(work.folder());
        const int step = isDeep() || fails == int(FaultVfs::Fails::Sync) ? 1 : 7;
        int reported = 0;
        int way_back = 0;
        bool came = true;
        for (int n = 1; came && n < 5000; n += step) {
            test::writeDisk(before, work.folder());
            Told told;
            Disk synced;
            std::mt19937 random(1);
            {
                FaultVfs disk;
                disk.record();
                disk.fail(static_cast<FaultVfs::Fails>(fails), n, for_ever);
                auto ledger = Ledger::open(work.folder() / "ledger.db", Mode::ReadWrite);
                if (ledger) {
                    told = append(*ledger, work, disk);
                }
                came = disk.failed();
                if (fails == int(FaultVfs::Fails::Sync) && came) {
                    QVERIFY2(told.error.has_value(), qPrintable(QString("sync %1 failed and nobody was told").arg(n)));
                }
                if (told.error) {
                    ++reported;
                    QVERIFY2(
                        told.latched && told.held, qPrintable(QString("not held after error %1: %2").arg(n).arg(int(told.error->fault))));
                    if (fails == int(FaultVfs::Fails::Full)) {
                        QCOMPARE(int(told.error->fault), int(StoreFault::Full));
                    }
                }
                // What the disk holds if nothing that was not synced ever gets there, as after a failed sync it may.
                synced = test::afterPowerLoss(before, disk.log(), disk.log().size(), random, 0.0);
                // The way back: shut while the disk still fails, open once it does not.
                if (ledger && told.error) {
                    if (for_ever) {
                        QVERIFY(!ledger->reopen() || fails != int(FaultVfs::Fails::Any));
                    }
                    disk.fail(FaultVfs::Fails::Nothing, 0, false);
                    QVERIFY2(ledger->reopen().has_value(), qPrintable(QString("no way back after %1").arg(n)));
                    QVERIFY(!ledger->latched());
                    const std::size_t there = *ledger->count();
                    QVERIFY(there == told.rows || there == told.rows + 1); // the one that failed may have got there
                    const auto next = there < work.history.rows.size() ? ledger->append(std::span(&work.history.rows[there], 1))
                                                                       : tl::expected<void, ledger::StoreError>();
                    QVERIFY(next.has_value());
                    ++way_back;
                }
            }
            const std::string fault = faultIn(work.folder(), work.history, std::max(told.rows, work.before));
            QVERIFY2(fault.empty(), qPrintable(QString("%1 after error %2").arg(QString::fromStdString(fault)).arg(n)));
            test::writeDisk(synced, work.image());
            const std::string dropped = faultIn(work.image(), work.history, std::max(told.rows, work.before));
            QVERIFY2(dropped.empty(),
                qPrintable(QString("%1 when unsynced bytes are dropped, error %2").arg(QString::fromStdString(dropped)).arg(n)));
        }
        QVERIFY(!came); // every place was reached
        qInfo("%d errors reported, each latched; %d ways back", reported, way_back);
        QVERIFY(reported > 5 && way_back == reported);
    }

    void memoryRunsOut_data()
    {
        QTest::addColumn<bool>("for_ever");
        QTest::newRow("once") << false;
        QTest::newRow("for ever") << true;
    }
    void memoryRunsOut()
    {
        QFETCH(bool, for_ever);
        QVERIFY(g_memory_installed);
        const Work work;
        const Disk before = test::diskOf(work.folder());
        int reported = 0;
        bool came = true;
        for (int n = 1; came && n < 100'000; n += isDeep() ? 1 : 1 + n / 6) {
            test::writeDisk(before, work.folder());
            Told told;
            {
                FaultVfs disk;
                g_memory = {g_memory.real, n, for_ever, false};
                auto ledger = Ledger::open(work.folder() / "ledger.db", Mode::ReadWrite);
                if (ledger) {
                    told = append(*ledger, work, disk);
                }
                came = g_memory.failed;
                g_memory = {g_memory.real, 0, false, false};
                if (told.error) {
                    ++reported;
                    QVERIFY2(told.latched && told.held, qPrintable(QString("not held after allocation %1").arg(n)));
                    QVERIFY(ledger->reopen().has_value());
                }
            }
            const std::string fault = faultIn(work.folder(), work.history, std::max(told.rows, work.before));
            QVERIFY2(fault.empty(), qPrintable(QString("%1 after allocation %2").arg(QString::fromStdString(fault)).arg(n)));
        }
        QVERIFY(!came);
        qInfo("%d shortages reported, each latched", reported);
        QVERIFY(reported > 5);
    }
};
BRIMFUL_SUITE(FaultTest);

#include "fault_test.moc"
