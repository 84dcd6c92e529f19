// Somebody with the file in hand: whatever is changed, the verifier names the entry.
#include "tests/core/ledger/history.h"
#include "tests/support/suite.h"

#include <QDir>
#include <QFile>
#include <QTest>
#include <SQLiteCpp/SQLiteCpp.h>

#include <array>
#include <random>

using namespace brimful;
using ledger::Kind;

namespace {

// Ten rows: five of the yard, a vessel, a record and its confirmation, an event, another event.
struct Written {
    test::History history;
    test::Shelf shelf;
    VesselId vessel{history.admit("NQ-01")};

    Written()
    {
        history.add(
            Kind::Evidence, test::payload({{"step", "look"}, {"facts", canon::Json::object()}}), &history.ben, "gas-tester", vessel);
        history.add(
            Kind::Confirmed, test::payload({{"confirms", canon::toHex(history.rows.back().hash)}}), &history.ada, "inspector", vessel);
        history.event(vessel, "moved");
        history.event(vessel, "stop");
        history.write(shelf.file());
    }
    [[nodiscard]] Hash head() const { return history.rows.back().hash; }
    [[nodiscard]] ledger::Verification verified() const
    {
        ledger::VerifyOptions options;
        options.anchors = {head()};
        return test::verified(shelf.file(), options);
    }
};

bool names(const ledger::Verification& verification, std::uint64_t row, const QByteArray& flaw)
{
    return std::ranges::any_of(verification.findings,
        [&](const ledger::Finding& finding) { return finding.row == row && QByteArray(test::flawWord(finding.flaw)) == flaw; });
}

} // namespace

class TamperTest : public QObject {
    Q_OBJECT

private slots:
    void untouchedIsIntact()
    {
        const Written written;
        const auto verification = written.verified();
        QCOMPARE(QByteArray::fromStdString(test::findingsText(verification)), QByteArray());
        QCOMPARE(verification.entries, std::uint64_t(10));
        QCOMPARE(verification.signatures, std::uint64_t(18));
        QCOMPARE(verification.heads.at(written.vessel), std::vector<Hash>{written.head()});
        QVERIFY(!verification.copied);
    }

    void changes_data()
    {
        QTest::addColumn<QStringList>("sql");
        QTest::addColumn<int>("row"); // 0: no entry can be named
        QTest::addColumn<QByteArray>("flaw");
        const auto row = [](const char* name, QStringList sql, int at, const char* flaw) {
            QTest::newRow(name) << std::move(sql) << at << QByteArray(flaw);
        };
        row("a word of a body", {"UPDATE entry SET body = replace(body, 'north door', 'south door') WHERE row = 9"}, 9, "hash differs");
        row("a body and its hash",
            {"UPDATE entry SET body = replace(body, 'north door', 'south door') WHERE row = 9",
                "UPDATE entry SET hash = zeroblob(32) WHERE row = 9"},
            9, "device signature");
        row("a space in a body", {"UPDATE entry SET body = replace(body, '\"v\":1', '\"v\": 1') WHERE row = 7"}, 7, "form");
        row("a body emptied", {"UPDATE entry SET body = '' WHERE row = 7"}, 7, "form");
        const auto swapped = [](const QString& column) {
            return QStringList{"CREATE TEMP TABLE kept AS SELECT row, person_sig, device_sig FROM entry",
                QString("UPDATE entry SET %1 = (SELECT kept.%1 FROM kept WHERE kept.row = 13 - entry.row) WHERE row IN (6, 7)")
                    .arg(column)};
        };
        row("device signatures swapped", swapped("device_sig"), 6, "device signature");
        row("device signatures swapped, the other", swapped("device_sig"), 7, "device signature");
        row("person signatures swapped", swapped("person_sig"), 6, "person signature");
        row("person signatures swapped, the other", swapped("person_sig"), 7, "person signature");
        row("a person's signature taken away", {"UPDATE entry SET person_sig = NULL WHERE row = 7"}, 7, "person signature");
        row("a person's signature added", {"UPDATE entry SET person_sig = (SELECT person_sig FROM entry WHERE row = 7) WHERE row = 9"}, 9,
            "person unknown");
        row("a signature cut", {"UPDATE entry SET device_sig = substr(device_sig, 1, 63) WHERE row = 9"}, 9, "device signature");
        row("a hash cut", {"UPDATE entry SET hash = substr(hash, 1, 31) WHERE row = 9"}, 9, "hash differs");
        row("column device", {"UPDATE entry SET device = zeroblob(16) WHERE row = 9"}, 9, "column differs");
        row("column seq", {"UPDATE entry SET seq = 99 WHERE row = 9"}, 9, "column differs");
        row("column vessel", {"UPDATE entry SET vessel = zeroblob(16) WHERE row = 9"}, 9, "column differs");
        row("column vessel taken away", {"UPDATE entry SET vessel = NULL WHERE row = 10"}, 10, "column differs");
        row("column vessel added", {"UPDATE entry SET vessel = zeroblob(16) WHERE row = 3"}, 3, "column differs");
        row("column kind", {"UPDATE entry SET kind = 'tag-read' WHERE row = 10"}, 10, "column differs");
        row("the newest row gone", {"DELETE FROM entry WHERE row = 10"}, 0, "anchor ahead");
        row("the tail cut", {"DELETE FROM entry WHERE row > 6"}, 0, "anchor ahead");
        row("everything gone", {"DELETE FROM entry"}, 0, "anchor ahead");
        row("the first row gone", {"DELETE FROM entry WHERE row = 1"}, 2, "device unknown");
        row("a row gone", {"DELETE FROM entry WHERE row = 7"}, 8, "feed gap");
        row("a parent gone", {"DELETE FROM entry WHERE row = 8"}, 9, "parent unknown");
        row("rows in another order", {"UPDATE entry SET row = -row WHERE row IN (9, 10)", "UPDATE entry SET row = 19 + row WHERE row < 0"},
            9, "parent later");
    }
    void changes()
    {
        QFETCH(QStringList, sql);
        QFETCH(int, row);
        QFETCH(QByteArray, flaw);
        const Written written;
        std::vector<std::string> statements;
        for (const QString& statement : sql) {
            statements.push_back(statement.toStdString());
        }
        test::meddle(written.shelf.file(), statements);
        const auto verification = written.verified();
        QVERIFY2(names(verification, static_cast<std::uint64_t>(row), flaw), test::findingsText(verification).c_str());
        QVERIFY(!verification.intact());
        const auto& found =
            *std::ranges::find_if(verification.findings, [&](const ledger::Finding& one) { return one.row == std::uint64_t(row); });
        QVERIFY(row != 0 || found.entry == written.head());
        // Findings stand in the order of the rows, what no row stands for at the end.
        std::uint64_t last = 0;
        for (const ledger::Finding& finding : verification.findings) {
            const std::uint64_t at = finding.row == 0 ? UINT64_MAX : finding.row;
            QVERIFY(at >= last);
            last = at;
        }
    }

    void anyRowDeleted()
    {
        for (int row = 1; row <= 10; ++row) {
            const Written written;
            test::meddle(written.shelf.file(), {"DELETE FROM entry WHERE row = " + std::to_string(row)});
            QVERIFY2(!written.verified().intact(), qPrintable(QString::number(row)));
        }
    }

    // Every column of every row: some bytes of each, changed one at a time.
    void bytesOfEveryColumn()
    {
        const Written written;
        std::mt19937 random(11);
        int changed = 0;
        for (int row = 1; row <= 10; ++row) {
            for (const std::string column : {"hash", "body", "person_sig", "device_sig", "device", "seq", "vessel", "kind"}) {
                for (int i = 0; i < 4; ++i) {
                    SQLite::Database db(written.shelf.file().string(), SQLite::OPEN_READWRITE);
                    db.exec("PRAGMA synchronous=OFF");
                    db.exec("DROP TRIGGER IF EXISTS entry_is_fixed");
                    SQLite::Statement query(db, "SELECT CAST(" + column + " AS BLOB), " + column + " FROM entry WHERE row = ?");
                    query.bind(1, row);
                    QVERIFY(query.executeStep());
                    if (query.getColumn(0).isNull()) {
                        continue;
                    }
                    std::string bytes = query.getColumn(0).getString();
                    const std::string right = bytes;
                    const bool blob = query.getColumn(1).isBlob();
                    const std::size_t at = std::uniform_int_distribution<std::size_t>(0, bytes.size() - 1)(random);
                    bytes[at] = static_cast<char>(bytes[at] ^ (blob ? 0x40 : 1));
                    bytes = column == "seq" ? right + "77" : bytes; // a seq of another row would be refused by the table
                    query.reset();
                    if (bytes == right) {
                        continue;
                    }
                    const auto put = [&](const std::string& value) {
                        SQLite::Statement write(db, "UPDATE OR IGNORE entry SET " + column + " = ? WHERE row = ?");
                        if (blob) {
                            write.bind(1, value.data(), int(value.size()));
                        } else {
                            write.bind(1, value);
                        }
                        write.bind(2, row);
                        return write.exec();
                    };
                    QCOMPARE(put(bytes), 1);
                    const auto verification = written.verified();
                    QVERIFY2(std::ranges::any_of(verification.findings, [&](const auto& one) { return one.row == std::uint64_t(row); }),
                        qPrintable(QString("%1 of row %2, byte %3").arg(QString::fromStdString(column)).arg(row).arg(at)));
                    QCOMPARE(put(right), 1);
                    ++changed;
                }
            }
        }
        QVERIFY(changed > 200);
        QVERIFY(written.verified().intact());
    }

    // Random histories: one byte of one column changed, or one row deleted (the newest as likely as any): always found.
    void randomLedgers()
    {
        const bool deep = qEnvironmentVariableIsSet("BRIMFUL_DEEP");
        const int ledgers = deep ? 200 : 8;
        const int edits_each = deep ? 32 : 6;
        std::mt19937 random(21);
        const auto upTo = [&](std::size_t limit) { return std::uniform_int_distribution<std::size_t>(0, limit)(random); };
        int edits = 0;
        int deletions = 0;
        for (int i = 0; i < ledgers; ++i) {
            test::History history;
            std::vector<VesselId> vessels{history.admit("NQ-01"), history.admit("NQ-02")};
            for (std::size_t n = 3 + upTo(9); n > 0; --n) {
                const VesselId vessel = vessels[upTo(1)];
                if (upTo(1) == 0) {
                    history.event(vessel, upTo(1) == 0 ? "moved" : "concern");
                } else {
                    history.add(Kind::Evidence, test::payload({{"step", "look"}, {"facts", canon::Json::object()}}), &history.ben,
                        "gas-tester", vessel);
                }
            }
            ledger::VerifyOptions options;
            options.anchors = {history.rows.back().hash};
            test::Shelf shelf;
            history.write(shelf.file());
            QVERIFY(test::verified(shelf.file(), options).intact());
            // Found; an entry that was edited is named by its row.
            const auto found = [&](const std::string& statement, std::uint64_t edited) {
                SQLite::Database db(shelf.file().string(), SQLite::OPEN_READWRITE);
                db.exec("PRAGMA synchronous=OFF; DROP TRIGGER IF EXISTS entry_is_fixed; DROP TRIGGER IF EXISTS entry_is_kept");
                db.exec("CREATE TEMP TABLE kept AS SELECT * FROM entry; " + statement);
                const auto verification = test::verified(shelf.file(), options);
                db.exec("DELETE FROM entry; INSERT INTO entry SELECT * FROM kept");
                return edited == 0 ? !verification.intact()
                                   : std::ranges::any_of(verification.findings, [&](const auto& one) { return one.row == edited; });
            };
            for (std::size_t row = 1; row <= history.rows.size(); ++row) { // every row, one at a time
                const std::string at = std::to_string(row);
                QVERIFY2(found("DELETE FROM entry WHERE row = " + at, 0), qPrintable(QString("ledger %1, row %2").arg(i).arg(row)));
                ++deletions;
            }
            for (int n = 0; n < edits_each; ++n) {
                const std::size_t row = 1 + upTo(history.rows.size() - 1);
                const std::string where = " WHERE row = " + std::to_string(row);
                const std::array<const char*, 4> blobs{"hash", "person_sig", "device_sig", "device"};
                const std::size_t which = upTo(5);
                const ledger::Stored& stored = history.rows[row - 1];
                std::string statement;
                if (which < blobs.size()) {
                    const std::string column = blobs.at(which);
                    if (column == "person_sig" && !stored.person_signature) {
                        continue;
                    }
                    const std::size_t at = upTo(15);
                    const std::string byte = "substr(hex(" + column + "), " + std::to_string(2 * at + 1) + ", 2)";
                    statement = "UPDATE entry SET " + column + " = CAST(substr(" + column + ", 1, " + std::to_string(at) + ") || CASE "
                        + byte + " WHEN 'A5' THEN x'5A' ELSE x'A5' END || substr(" + column + ", " + std::to_string(at + 2) + ") AS BLOB)"
                        + where;
                } else {
                    const std::size_t at = upTo(stored.body.size() - 1);
                    const std::string other = stored.body[at] == 'x' ? "y" : "x";
                    statement = "UPDATE entry SET body = substr(body, 1, " + std::to_string(at) + ") || '" + other + "' || substr(body, "
                        + std::to_string(at + 2) + ")" + where;
                }
                QVERIFY2(found(statement, row), statement.c_str());
                ++edits;
            }
            QVERIFY(test::verified(shelf.file(), options).intact());
        }
        qInfo("%d ledgers, %d deletions each found, %d byte edits each found and named", ledgers, deletions, edits);
        QVERIFY(edits >= (deep ? 5'000 : 30));
    }

    // One page overwritten: named as unreadable, or as what it did to the rows; never taken as intact.
    void corruptPages()
    {
        test::History history;
        const VesselId vessel = history.admit("NQ-01");
        for (int i = 0; i < 300; ++i) {
            history.event(vessel, "moved");
        }
        test::Shelf shelf;
        history.write(shelf.file());
        QVERIFY(ledger::Ledger::open(shelf.file(), ledger::Mode::ReadWrite)->checkpoint().has_value());
        QFile file(QString::fromStdString(shelf.file().string()));
        QVERIFY(file.open(QIODevice::ReadWrite));
        const QByteArray right = file.readAll();
        int unreadable = 0;
        for (qsizetype page = 0; page < right.size() / 4096; ++page) {
            QByteArray wrong = right;
            wrong.replace(page * 4096, 4096, QByteArray(4096, '\x5a'));
            QFile::remove(QString::fromStdString(shelf.file().string() + "-wal"));
            file.seek(0);
            file.write(wrong);
            file.flush();
            ledger::VerifyOptions options;
            options.anchors = {history.rows.back().hash};
            const auto verification = ledger::verify(shelf.file(), options);
            if (!verification) {
                QVERIFY2(page == 0 || verification.error().fault == ledger::StoreFault::Damaged, "a damaged page is no other fault");
                ++unreadable;
                continue;
            }
            QVERIFY2(!verification->intact(), qPrintable(QString("page %1 of %2").arg(page).arg(right.size() / 4096)));
            unreadable +=
                std::ranges::any_of(verification->findings, [](const auto& one) { return one.flaw == ledger::Flaw::Unreadable; }) ? 1 : 0;
        }
        QVERIFY(unreadable > 10);
    }

    void cancelledIsNoFinding()
    {
        test::History history;
        const VesselId vessel = history.admit("NQ-01");
        while (history.rows.size() < 1200) {
            history.event(vessel, "moved");
        }
        test::Shelf shelf;
        history.write(shelf.file());
        ledger::VerifyOptions options;
        options.anchors = {history.rows.back().hash};
        std::vector<std::uint64_t> told;
        options.progress = [&](std::uint64_t done) {
            told.push_back(done);
            return done < 1000;
        };
        const auto verification = test::verified(shelf.file(), options);
        QCOMPARE(verification.entries, std::uint64_t(1000));
        QVERIFY(verification.intact());
        QCOMPARE(told, (std::vector<std::uint64_t>{500, 1000}));
    }
};
BRIMFUL_SUITE(TamperTest);

#include "tamper_test.moc"
