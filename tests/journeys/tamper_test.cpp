// Somebody with the sqlite3 shell and the program that the shop has: exit 3, the entry named, every release held.
#include "tests/journeys/program.h"
#include "tests/support/suite.h"

#include <QDir>
#include <QJsonArray>
#include <QTest>

using namespace brimful::test;

class ShellTamperTest : public QObject {
    Q_OBJECT

private slots:
    void isTold_data()
    {
        QTest::addColumn<QString>("touched"); // rows that are changed, by their hash: at least one of them is named
        QTest::addColumn<QString>("edit");
        // The release of NQ-01 is the last one given.
        const QString release = "(SELECT max(row) FROM entry WHERE kind = 'released')";
        const QString other =
            "(SELECT min(row) FROM entry WHERE kind = 'released' AND vessel = (SELECT vessel FROM entry WHERE row = " + release + "))";
        const QString hash = "SELECT lower(hex(hash)) FROM entry WHERE row = ";
        QTest::newRow("one byte of a body")
            << hash + release
            << "UPDATE entry SET body = replace(body, '\"hold_point\":\"first-cut\"', '\"hold_point\":\"first-cuT\"') WHERE row = "
                + release;
        QTest::newRow("two signatures swapped")
            << hash + release + " OR row = " + other
            << "CREATE TEMP TABLE two AS SELECT row, person_sig FROM entry WHERE row IN (" + release + ", " + other
                + "); UPDATE entry SET person_sig = (SELECT person_sig FROM two WHERE two.row <> entry.row) WHERE row IN (SELECT row FROM "
                  "two)";
        QTest::newRow("the newest row deleted") << "SELECT lower(hex(hash)) FROM entry ORDER BY row DESC LIMIT 1"
                                                << "DELETE FROM entry WHERE row = (SELECT max(row) FROM entry)";
        QTest::newRow("the newest ten rows deleted") << "SELECT lower(hex(hash)) FROM entry ORDER BY row DESC LIMIT 1"
                                                     << "DELETE FROM entry WHERE row > (SELECT max(row) - 10 FROM entry)";
        // What stood before it is missing: the one that follows it says so.
        QTest::newRow("a row in the middle deleted")
            << "SELECT lower(hex(hash)) FROM entry WHERE row = 1 + (SELECT row FROM entry WHERE json_extract(body, '$.payload.step') = "
               "'openings' ORDER BY row DESC LIMIT 1)"
            << "DELETE FROM entry WHERE row = (SELECT row FROM entry WHERE json_extract(body, '$.payload.step') = 'openings' ORDER BY row "
               "DESC LIMIT 1)";
    }
    void isTold()
    {
        QFETCH(const QString, touched);
        QFETCH(const QString, edit);
        const Place place;
        QVERIFY(place.makeDemo());
        QCOMPARE(place.ask({"ledger", "verify"}).code, kYes);
        QCOMPARE(place.ask({"audit", "NQ-01", "--before", "first-cut"}).code, kYes);
        const QStringList hashes = place.sql(touched).split('\n');
        const QString before = place.sql("SELECT group_concat(hex(hash) || body || coalesce(hex(person_sig), '')) FROM entry");
        QCOMPARE(place.sql("DROP TRIGGER entry_is_kept; DROP TRIGGER entry_is_fixed; " + edit), QString());
        QVERIFY(place.sql("SELECT group_concat(hex(hash) || body || coalesce(hex(person_sig), '')) FROM entry") != before);

        const Said verify = place.ask({"ledger", "verify"});
        QVERIFY2(verify.code == kDamaged, told(verify));
        QCOMPARE(verify.json().value("intact").toBool(true), false);
        const QJsonObject first = verify.json().value("first_bad").toObject();
        QVERIFY(!first.value("what").toString().isEmpty());
        QVERIFY2(hashes.contains(first.value("entry").toString()), told(verify));
        const Said text = call({"--yard", place.yard(), "ledger", "verify"});
        QCOMPARE(text.code, kDamaged);
        QVERIFY2(text.out.contains(first.value("entry").toString().toLatin1()), told(text));

        for (const QString& hold_point : QStringList{"accept", "open-fittings", "first-cut", "hot-work", "hand-over"}) {
            const Said audit = place.ask({"audit", "NQ-01", "--before", hold_point});
            QVERIFY2(audit.code == kDamaged, told(audit));
            QCOMPARE(audit.json().value("released").toBool(true), false);
            QCOMPARE(audit.json().value("verified").toObject().value("intact").toBool(true), false);
        }
        // And no new one is given over it.
        const Said release =
            place.act({"release", "NQ-01", "accept", "--by", "Ada", "--with", "Bea", "--answers",
                          place.write("answers.json",
                              R"({"serial": "4471", "owner": "bill-of-sale", "substance": "propane", "arrived": "closed", "openings": 5,
                                    "hollows": 0, "unhappy": "nobody"})")},
                {"Ada", "Bea"});
        QVERIFY2(release.code == kNo || release.code == kDamaged, told(release));
    }

    // The triggers are there so that a slip of the hand does not need this.
    void theShellIsStoppedFirst()
    {
        const Place place;
        QVERIFY(place.makeDemo());
        QVERIFY(place.sql("DELETE FROM entry WHERE row = 5").startsWith("sqlite3: "));
        QVERIFY(place.sql("UPDATE entry SET body = '{}' WHERE row = 5").startsWith("sqlite3: "));
        QCOMPARE(place.ask({"ledger", "verify"}).code, kYes);
    }
};

BRIMFUL_SUITE(ShellTamperTest);
#include "tamper_test.moc"
