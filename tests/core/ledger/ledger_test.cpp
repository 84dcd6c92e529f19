// The store: durable or refused, never repaired, never in between.
#include "core/ledger/ledger.h"
#include "tests/core/ledger/history.h"
#include "tests/support/suite.h"

#include <QElapsedTimer>
#include <QFile>
#include <QTest>
#include <SQLiteCpp/SQLiteCpp.h>

#include <sys/mount.h>
#include <unistd.h>

using namespace brimful;
using ledger::Kind;
using ledger::Ledger;
using ledger::Mode;
using ledger::StoreFault;

namespace {

QString nameOf(const std::filesystem::path& file) { return QString::fromStdString(file.string()); }

void put(const std::filesystem::path& file, const QByteArray& bytes)
{
    QFile out(nameOf(file));
    QVERIFY(out.open(QIODevice::WriteOnly));
    out.write(bytes);
}

int faultOf(const tl::expected<Ledger, ledger::StoreError>& opened) { return opened ? -1 : int(opened.error().fault); }

// The bytes of a big yard entry, so that a small disk fills quickly.
ledger::Stored fat(test::History& history)
{
    history.add(Kind::Event, test::payload({{"event", "note"}, {"note", std::string(30'000, 'x')}}));
    return history.rows.back();
}

} // namespace

class LedgerTest : public QObject {
    Q_OBJECT

private slots:
    void writesAndReads()
    {
        test::History history;
        const VesselId one = history.admit("NQ-01");
        const VesselId two = history.admit("NQ-02");
        history.event(one, "moved");
        history.event(two, "stop");
        history.event(one, "concern");
        test::Shelf shelf;
        history.write(shelf.file());
        auto ledger = Ledger::open(shelf.file(), Mode::ReadOnly);
        QVERIFY(ledger.has_value());
        QCOMPARE(*ledger->count(), std::uint64_t(10));
        std::size_t at = 0;
        QVERIFY(ledger->stream([&](const ledger::Stored& row) {
            const ledger::Stored& wrote = history.rows[at++];
            return row.row == at && row.hash == wrote.hash && row.body == wrote.body && row.person_signature == wrote.person_signature
                && row.device_signature == wrote.device_signature;
        }));
        QCOMPARE(at, std::size_t(10));
        QCOMPARE(ledger->ofVessel(one)->size(), std::size_t(2)); // the admitting entry has no vessel yet
        QCOMPARE(ledger->ofVessel(two)->front().hash, history.rows[8].hash);
        QCOMPARE(ledger->ofYard()->size(), std::size_t(7));
        QCOMPARE((*ledger->byHash(history.rows[3].hash))->body, history.rows[3].body);
        QVERIFY(!ledger->byHash(people::randomId<Hash>())->has_value());
        QCOMPARE(ledger->tip(history.device)->seq, std::uint64_t(10));
        QCOMPARE(ledger->tip(history.device)->head, std::optional(history.rows.back().hash));
        QCOMPARE(ledger->tip(people::randomId<DeviceId>())->seq, std::uint64_t(0));
        int seen = 0;
        QVERIFY(ledger->stream([&](const ledger::Stored&) { return ++seen < 4; }));
        QCOMPARE(seen, 4);
    }

    void isTheFileOfThePage()
    {
        test::Shelf shelf;
        QVERIFY(Ledger::create(shelf.file()).has_value());
        SQLite::Database db(shelf.file().string(), SQLite::OPEN_READWRITE);
        // "BRIM" as a big-endian number.
        QCOMPARE(db.execAndGet("PRAGMA application_id").getInt(), ('B' << 24) | ('R' << 16) | ('I' << 8) | 'M');
        QCOMPARE(db.execAndGet("PRAGMA user_version").getInt(), 1);
        QCOMPARE(db.execAndGet("PRAGMA journal_mode").getString(), std::string("wal"));
        QCOMPARE(db.execAndGet("PRAGMA encoding").getString(), std::string("UTF-8"));
        QFile page(QStringLiteral(BRIMFUL_SOURCE_DIR "/core/ledger/FORMAT.md"));
        QVERIFY(page.open(QIODevice::ReadOnly));
        const std::string table = db.execAndGet("SELECT sql FROM sqlite_schema WHERE name = 'entry'").getString();
        QVERIFY(QString::fromUtf8(page.readAll()).contains(QString::fromStdString(table)));
    }

    void whatIsNoLedgerIsSaid()
    {
        test::Shelf shelf;
        QCOMPARE(faultOf(Ledger::open(shelf.file(), Mode::ReadWrite)), int(StoreFault::Missing));
        put(shelf.file(), "");
        QCOMPARE(faultOf(Ledger::open(shelf.file(), Mode::ReadWrite)), int(StoreFault::NotALedger));
        put(shelf.file(), QByteArray(8192, 'x'));
        QCOMPARE(faultOf(Ledger::open(shelf.file(), Mode::ReadWrite)), int(StoreFault::NotALedger));
        QFile::remove(nameOf(shelf.file()));
        SQLite::Database(shelf.file().string(), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE).exec("CREATE TABLE entry(row)");
        QCOMPARE(faultOf(Ledger::open(shelf.file(), Mode::ReadOnly)), int(StoreFault::NotALedger));
        QVERIFY(!ledger::verify(shelf.file(), {}).has_value());
    }

    void aNewerOneIsLeftAlone()
    {
        test::Shelf shelf;
        QVERIFY(Ledger::create(shelf.file()).has_value());
        test::meddle(shelf.file(), {"PRAGMA user_version=3"});
        QCOMPARE(faultOf(Ledger::open(shelf.file(), Mode::ReadWrite)), int(StoreFault::Newer));
        QCOMPARE(faultOf(Ledger::open(shelf.file(), Mode::ReadOnly)), int(StoreFault::Newer));
    }

    void creatingOverAnotherIsRefused()
    {
        test::History history;
        test::Shelf shelf;
        history.write(shelf.file());
        QVERIFY(!Ledger::create(shelf.file()).has_value());
        QVERIFY(test::verified(shelf.file()).intact());
        QCOMPARE(faultOf(Ledger::create("/nowhere/at/all/ledger.db")), int(StoreFault::Unwritable));
    }

    void rowsAreNeitherChangedNorDeleted()
    {
        test::History history;
        test::Shelf shelf;
        history.write(shelf.file());
        SQLite::Database db(shelf.file().string(), SQLite::OPEN_READWRITE);
        QVERIFY_EXCEPTION_THROWN(db.exec("UPDATE entry SET kind = 'event' WHERE row = 2"), SQLite::Exception);
        QVERIFY_EXCEPTION_THROWN(db.exec("DELETE FROM entry WHERE row = 2"), SQLite::Exception);
        QVERIFY(test::verified(shelf.file()).intact());
    }

    void allOrNothing()
    {
        test::History history;
        test::Shelf shelf;
        history.write(shelf.file());
        auto ledger = Ledger::open(shelf.file(), Mode::ReadWrite);
        std::vector<ledger::Stored> two{history.sign(history.draft(Kind::Event, test::payload({{"event", "moved"}})), nullptr)};
        two.push_back(two.front());
        two.back().body = "{}";
        const auto done = ledger->append(two);
        QVERIFY(!done.has_value());
        QCOMPARE(*ledger->count(), std::uint64_t(5));
        const auto refused = ledger->appendWith([]() -> tl::expected<std::vector<ledger::Stored>, ledger::StoreError> {
            return tl::unexpected(ledger::StoreError{StoreFault::HeadMoved, {}, {}});
        });
        QCOMPARE(int(refused.error().fault), int(StoreFault::HeadMoved));
        QVERIFY(!ledger->latched());
        two.pop_back();
        QVERIFY(ledger->append(two).has_value());
        QCOMPARE(*ledger->count(), std::uint64_t(6));
    }

    // The same place in a feed twice, or the same entry again: the caller was late; the store is well.
    void aTakenPlaceIsAMovedHead()
    {
        test::History history;
        test::Shelf shelf;
        history.write(shelf.file());
        auto ledger = Ledger::open(shelf.file(), Mode::ReadWrite);
        QCOMPARE(int(ledger->append(std::span(&history.rows[4], 1)).error().fault), int(StoreFault::HeadMoved));
        ledger::Entry late = history.draft(Kind::Event, test::payload({{"event", "moved"}}));
        late.seq = 5;
        const ledger::Stored row = history.sign(late, nullptr);
        QCOMPARE(int(ledger->append(std::span(&row, 1)).error().fault), int(StoreFault::HeadMoved));
        QVERIFY(!ledger->latched());
        QCOMPARE(*ledger->count(), std::uint64_t(5));
    }

    void anotherProgramsWriteIsSeen()
    {
        test::History history;
        test::Shelf shelf;
        history.write(shelf.file());
        auto tablet = Ledger::open(shelf.file(), Mode::ReadWrite);
        auto command = Ledger::open(shelf.file(), Mode::ReadWrite);
        const std::int64_t before = tablet->dataVersion();
        QCOMPARE(tablet->dataVersion(), before);
        const ledger::Stored row = history.sign(history.draft(Kind::Event, test::payload({{"event", "moved"}})), nullptr);
        QVERIFY(command->append(std::span(&row, 1)).has_value());
        QVERIFY(tablet->dataVersion() != before);
        QCOMPARE(tablet->tip(history.device)->seq, std::uint64_t(6));
    }

    void busyForFiveSeconds()
    {
        test::History history;
        test::Shelf shelf;
        history.write(shelf.file());
        auto ledger = Ledger::open(shelf.file(), Mode::ReadWrite);
        SQLite::Database other(shelf.file().string(), SQLite::OPEN_READWRITE);
        other.exec("BEGIN IMMEDIATE");
        const ledger::Stored row = history.sign(history.draft(Kind::Event, test::payload({{"event", "moved"}})), nullptr);
        QElapsedTimer timer;
        timer.start();
        QCOMPARE(int(ledger->append(std::span(&row, 1)).error().fault), int(StoreFault::Busy));
        QVERIFY2(timer.elapsed() >= 4'500 && timer.elapsed() < 15'000, qPrintable(QString::number(timer.elapsed())));
        other.exec("ROLLBACK");
        QVERIFY(!ledger->latched());
        QVERIFY(ledger->append(std::span(&row, 1)).has_value());
    }

    // Nothing is moved into the main file on closing: a failed sync there would go unseen.
    void closingDoesNotCheckpoint()
    {
        test::History history;
        test::Shelf shelf;
        history.write(shelf.file());
        const QString log = nameOf(shelf.file()) + "-wal";
        QVERIFY(QFile(log).size() > 0);
        const qint64 main = QFile(nameOf(shelf.file())).size();
        {
            auto ledger = Ledger::open(shelf.file(), Mode::ReadWrite);
            QCOMPARE(*ledger->count(), std::uint64_t(5));
        }
        QVERIFY(QFile(log).size() > 0);
        QCOMPARE(QFile(nameOf(shelf.file())).size(), main);
        QVERIFY(Ledger::open(shelf.file(), Mode::ReadWrite)->checkpoint().has_value());
        QCOMPARE(QFile(log).size(), qint64(0));
        QVERIFY(QFile(nameOf(shelf.file())).size() > main);
        QVERIFY(test::verified(shelf.file()).intact());
    }

    void readingNeverWrites()
    {
        test::History history;
        test::Shelf shelf;
        history.write(shelf.file());
        auto ledger = Ledger::open(shelf.file(), Mode::ReadOnly);
        const ledger::Stored row = history.sign(history.draft(Kind::Event, test::payload({{"event", "moved"}})), nullptr);
        QCOMPARE(int(ledger->append(std::span(&row, 1)).error().fault), int(StoreFault::Unwritable));
        QCOMPARE(int(ledger->checkpoint().error().fault), int(StoreFault::Unwritable));
        QCOMPARE(*ledger->count(), std::uint64_t(5));
    }

    // A stick that cannot be written, with rows that still stand in the log only.
    void aFolderThatCannotBeWritten()
    {
        test::History history;
        test::Shelf shelf;
        history.write(shelf.file());
        QVERIFY(QFile(nameOf(shelf.file()) + "-wal").size() > 0);
        const std::string where = shelf.root.path().toStdString();
        if (::mount(where.c_str(), where.c_str(), nullptr, MS_BIND, nullptr) != 0
            || ::mount(nullptr, where.c_str(), nullptr, MS_BIND | MS_REMOUNT | MS_RDONLY, nullptr) != 0) {
            QSKIP("needs the right to mount a folder for reading only");
        }
        const auto write = Ledger::open(shelf.file(), Mode::ReadWrite);
        const auto verification = ledger::verify(shelf.file(), {});
        QCOMPARE(::umount(where.c_str()), 0);
        QCOMPARE(faultOf(write), int(StoreFault::Unwritable));
        QVERIFY(verification.has_value());
        QCOMPARE(verification->entries, std::uint64_t(5));
        QVERIFY(verification->intact() && verification->copied);
    }

    void aFullDiskLatches()
    {
        QTemporaryDir root;
        const std::string where = root.path().toStdString();
        if (::mount("none", where.c_str(), "tmpfs", 0, "size=512k") != 0) {
            QSKIP("needs the right to mount a small tmpfs");
        }
        std::vector<Hash> acknowledged;
        int fault = -1;
        bool latched = false;
        int after = -1;
        test::History history;
        {
            auto ledger = Ledger::create(where + "/ledger.db");
            for (const auto& row : history.rows) {
                if (ledger->append(std::span(&row, 1))) {
                    acknowledged.push_back(row.hash);
                }
            }
            for (int i = 0; i < 60 && fault < 0; ++i) {
                const ledger::Stored row = fat(history);
                const auto done = ledger->append(std::span(&row, 1));
                if (done) {
                    acknowledged.push_back(row.hash);
                } else {
                    fault = int(done.error().fault);
                }
            }
            latched = ledger->latched();
            const auto next = ledger->append(std::span(&history.rows.back(), 1));
            after = next ? -1 : int(next.error().fault);
        }
        // Opened again, it holds what was acknowledged, and nothing else.
        std::vector<Hash> kept;
        bool intact = false;
        {
            auto again = Ledger::open(where + "/ledger.db", Mode::ReadOnly);
            if (again) {
                (void)again->stream([&](const ledger::Stored& row) {
                    kept.push_back(row.hash);
                    return true;
                });
            }
            const auto verification = ledger::verify(where + "/ledger.db", {});
            intact = verification && verification->intact();
        }
        QCOMPARE(::umount(where.c_str()), 0);
        QCOMPARE(fault, int(StoreFault::Full));
        QVERIFY(latched);
        QCOMPARE(after, int(StoreFault::Latched));
        QVERIFY(acknowledged.size() > 6);
        QCOMPARE(kept, acknowledged);
        QVERIFY(intact);
    }
};
BRIMFUL_SUITE(LedgerTest);

#include "ledger_test.moc"
