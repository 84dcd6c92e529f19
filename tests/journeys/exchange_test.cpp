// Entries from machine to machine by the command line: export, import, backup, restore, and what two tablets wrote apart.
#include "tests/journeys/program.h"
#include "tests/support/suite.h"

#include <QDir>
#include <QFile>
#include <QJsonArray>
#include <QTest>

using namespace brimful::test;

class ExchangeJourney : public QObject {
    Q_OBJECT

private slots:
    void carriedAndTakenIn()
    {
        const Place place;
        QVERIFY(place.makeDemo());
        QVERIFY(QFile(place.path("yard/ledger.db-wal")).size() == 0); // all of the demo stands in the main file
        const int rows = place.sql("SELECT count(*) FROM entry").toInt();
        const Said carried = place.ask({"ledger", "export", place.path("all")});
        QVERIFY2(carried.code == kYes, told(carried));
        QCOMPARE(carried.json().value("entries").toInt(), rows);
        const Said one = place.ask({"ledger", "export", place.path("one"), "--vessel", "NQ-01"});
        QCOMPARE(one.json().value("entries").toInt(), rows);
        QCOMPARE(place.ask({"ledger", "export", place.path("x"), "--vessel", "NQ-99"}).code, kInput);
        QCOMPARE(place.ask({"ledger", "export", place.path("no/such/folder/x")}).code, kMachine);

        // Into an empty folder: the same record, readable without any key.
        const QString there = place.path("there");
        const Said restored = call({"--yard", there, "--json", "ledger", "restore", place.path("all")});
        QVERIFY2(restored.code == kYes, told(restored));
        const Said verify = call({"--yard", there, "--json", "ledger", "verify"});
        QVERIFY2(verify.code == kYes, told(verify));
        QCOMPARE(verify.json().value("entries").toInt(), rows);
        QCOMPARE(call({"--yard", there, "--json", "ledger", "restore", place.path("all")}).code, kInput);

        // What was recorded since goes over; a second time nothing is new; text for a person says the same.
        QCOMPARE(place.ask({"event", "NQ-01", "moved"}).code, kYes);
        QCOMPARE(place.ask({"ledger", "export", place.path("more")}).code, kYes);
        const Said imported = call({"--yard", there, "--json", "ledger", "import", place.path("more")});
        QVERIFY2(imported.code == kYes, told(imported));
        QCOMPARE(imported.json().value("entries").toInt(), 1);
        QCOMPARE(call({"--yard", there, "--json", "ledger", "import", place.path("more")}).json().value("entries").toInt(), 0);
        QCOMPARE(call({"--yard", there, "--json", "ledger", "import", place.path("all")}).json().value("entries").toInt(), 0);
        QVERIFY(call({"--yard", there, "ledger", "import", place.path("more")}).out.contains("entries: 0"));
        QCOMPARE(call({"--yard", there, "--json", "ledger", "verify"}).code, kYes);
        QCOMPARE(call({"--yard", there, "--json", "audit", "NQ-01", "--before", "first-cut"}).json().value("released").toBool(true), false);
        QCOMPARE(call({"--yard", there, "--json", "--at", "2026-06-14T08:00Z", "ledger", "import", place.path("more")}).code, kInput);
    }

    void hostileFiles()
    {
        const Place place;
        QVERIFY(place.makeDemo());
        QCOMPARE(place.ask({"ledger", "export", place.path("all")}).code, kYes);
        QFile file(place.path("all"));
        QVERIFY(file.open(QIODevice::ReadOnly));
        const QByteArray all = file.readAll();
        const QString before = place.sql("SELECT count(*), max(row) FROM entry");
        QByteArray forged = all;
        const auto at = forged.lastIndexOf("\nentry ") + 7 + 64 + 10; // within a signature
        forged[at] = forged[at] == '0' ? '1' : '0';
        // A new row whose signature does not fit: into a copy that lacks it.
        const QString there = place.path("there");
        for (const QByteArray& bytes : {QByteArray("x"), all.left(all.size() - 1), all + all, forged}) {
            const QString bad = place.write("bad", bytes);
            const Said restore = call({"--yard", there, "--json", "ledger", "restore", bad});
            QVERIFY2(restore.code == (bytes == forged ? kDamaged : kInput), told(restore));
            QVERIFY(!QFile::exists(there + "/ledger.db"));
            if (bytes != forged) {
                QCOMPARE(place.ask({"ledger", "import", bad}).code, kInput);
            }
        }
        QCOMPARE(place.ask({"ledger", "import", place.path("no such file")}).code, kInput);
        QCOMPARE(place.sql("SELECT count(*), max(row) FROM entry"), before);
        QCOMPARE(place.ask({"ledger", "verify"}).code, kYes);
    }

    void backups()
    {
        const Place place;
        QVERIFY(place.makeDemo());
        const Said done = place.ask({"ledger", "backup", place.path("copies")});
        QVERIFY2(done.code == kYes, told(done));
        const QString file = done.json().value("file").toString();
        QVERIFY(QFile::exists(file));
        QCOMPARE(QDir(place.path("copies")).entryList(QDir::Files).size(), 1);
        QCOMPARE(call({"--yard", place.path("again"), "--json", "ledger", "restore", file}).code, kYes);
        QCOMPARE(call({"--yard", place.path("again"), "--json", "ledger", "verify"}).code, kYes);
    }

    // The yard's folder copied, and both went on: every vessel is held until an authoriser joins what they wrote.
    void aCopiedTablet()
    {
        const Place place;
        QVERIFY(place.makeDemo());
        const QString copy = place.path("copy");
        QCOMPARE(run("/bin/cp", {"-a", place.yard(), copy}).code, 0);
        QCOMPARE(place.ask({"event", "NQ-01", "concern"}).code, kYes);
        QCOMPARE(call({"--yard", copy, "--json", "event", "NQ-02", "concern"}).code, kYes);
        QCOMPARE(call({"--yard", copy, "--json", "ledger", "export", place.path("theirs")}).code, kYes);
        const Said imported = place.ask({"ledger", "import", place.path("theirs")});
        QVERIFY2(imported.code == kYes, told(imported));
        QCOMPARE(imported.json().value("entries").toInt(), 1);
        QCOMPARE(place.ask({"ledger", "verify"}).code, kDamaged);
        QCOMPARE(place.ask({"audit", "NQ-03", "--before", "first-cut"}).code, kDamaged);
        QCOMPARE(place.act({"fork", "join", "--why", "the old tablet is locked away", "--by", "Bea"}, {"Bea"}).code, kNo);
        const Said joined = place.act({"fork", "join", "--why", "the old tablet is locked away", "--by", "Ada"}, {"Ada"});
        QVERIFY2(joined.code == kYes, told(joined));
        QCOMPARE(place.ask({"ledger", "verify"}).code, kYes);
    }
};
BRIMFUL_SUITE(ExchangeJourney);

#include "exchange_test.moc"
