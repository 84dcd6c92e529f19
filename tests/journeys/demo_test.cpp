// The demo yard and the question it is made for: may we cut now?
#include "tests/journeys/program.h"
#include "tests/support/suite.h"

#include <QDateTime>
#include <QDir>
#include <QElapsedTimer>
#include <QJsonArray>
#include <QTest>

using namespace brimful::test;

class DemoTest : public QObject {
    Q_OBJECT

    Place m_place;

    static QStringList missing(const QJsonObject& object, const QStringList& keys)
    {
        QStringList absent;
        for (const QString& key : keys) {
            if (!object.contains(key)) {
                absent.push_back(key);
            }
        }
        return absent;
    }

private slots:
    void initTestCase() { QVERIFY(m_place.makeDemo()); }

    void isMadeWithinFiveSeconds()
    {
        const Place place;
        qint64 best = 60'000;
        for (int i = 0; i < 3 && best >= 5'000; ++i) { // a busy machine gets another try, a slow program does not pass three
            QElapsedTimer timer;
            timer.start();
            QCOMPARE(call({"demo", place.path(QString::number(i))}).code, kYes);
            best = qMin(best, timer.elapsed());
        }
        QVERIFY2(best < 5'000, qPrintable(QString::number(best)));
    }

    void refusesAFolderThatIsNotEmpty_data()
    {
        QTest::addColumn<bool>("yard");
        QTest::newRow("somebody's file") << false;
        QTest::newRow("a yard") << true;
    }
    void refusesAFolderThatIsNotEmpty()
    {
        QFETCH(const bool, yard);
        const Place place;
        QVERIFY(QDir().mkpath(place.yard()));
        const QString file = yard ? QString() : place.write("yard/letter.txt", "keep me");
        if (yard) {
            QVERIFY(QDir(place.yard()).removeRecursively());
            QVERIFY(place.makeDemo());
        }
        const QString rows = yard ? place.sql("SELECT count(*) FROM entry") : QString();
        const QStringList before = QDir(place.yard()).entryList(QDir::Files | QDir::Dirs | QDir::NoDotAndDotDot);
        const Said said = call({"--json", "demo", place.yard()});
        QCOMPARE(said.code, kInput);
        QCOMPARE(said.error().value("path").toString(), place.yard());
        QCOMPARE(QDir(place.yard()).entryList(QDir::Files | QDir::Dirs | QDir::NoDotAndDotDot), before);
        if (yard) {
            QCOMPARE(place.sql("SELECT count(*) FROM entry"), rows);
        }
    }

    void saysWhatItMadeToMachines()
    {
        const Place place;
        const Said said = call({"--json", "demo", place.yard()});
        QCOMPARE(said.code, kYes);
        QCOMPARE(said.json().value("folder").toString(), place.yard());
        QVERIFY(said.json().value("acts").toInt() > 100);
    }

    // NQ-01 deserves it.
    void yesToTheOneThatDeservesIt()
    {
        const Place place;
        QVERIFY(place.makeDemo());
        const Said said = place.ask({"audit", "NQ-01", "--before", "first-cut"});
        QVERIFY2(said.code == kYes, told(said));
        const QJsonObject audit = said.json();
        QCOMPARE(audit.value("released").toBool(), true);
        QCOMPARE(audit.value("blockers").toArray().size(), 0);
        const QDateTime until = QDateTime::fromString(audit.value("until").toString(), Qt::ISODate);
        QVERIFY(until.isValid());
        QVERIFY(until > QDateTime::currentDateTimeUtc());
        QVERIFY(until < QDateTime::currentDateTimeUtc().addSecs(3600)); // a cut is never released for an hour
        for (const QJsonValue& one : audit.value("requirements").toArray()) {
            const bool at_giving = one.toObject().value("list").toString() == "at_giving";
            QVERIFY2(at_giving || one.toObject().value("list").toString() == "stop" || one.toObject().value("truth").toString() == "true",
                qPrintable(one.toObject().value("rule").toString()));
        }
        const Said text = call({"--yard", place.yard(), "audit", "NQ-01", "--before", "first-cut"});
        QCOMPARE(text.code, kYes);
        QVERIFY(text.out.contains("RELEASED"));
        QVERIFY(text.out.startsWith("DEMO"));
    }

    // Every reason is named: whatever is not proven stands among the blockers, in JSON and in words.
    void noWithEveryReason()
    {
        const Said said = m_place.ask({"audit", "NQ-02", "--before", "hot-work"});
        QVERIFY2(said.code == kNo, told(said));
        const QJsonObject audit = said.json();
        QCOMPARE(audit.value("released").toBool(true), false);
        QCOMPARE(audit.value("until").isNull(), true);
        QStringList blocking;
        for (const QJsonValue& one : audit.value("blockers").toArray()) {
            blocking.push_back(one.toObject().value("rule").toString());
        }
        int unproven = 0;
        for (const QJsonValue& one : audit.value("requirements").toArray()) {
            const QJsonObject requirement = one.toObject();
            const QString truth = requirement.value("truth").toString();
            const bool holds = requirement.value("list").toString() == "stop" ? truth != "false" : truth != "true";
            unproven += holds ? 1 : 0;
            QVERIFY2(holds == blocking.contains(requirement.value("rule").toString()), qPrintable(requirement.value("rule").toString()));
        }
        QVERIFY(unproven > 5);
        // Not opened, not drained, not washed, coat not known, not aired, not read, nobody watching.
        for (const QString& rule : QStringList{"cut-open", "let-out", "washed-looked", "coat-known", "aired", "dry-set", "heat-ready"}) {
            QVERIFY2(blocking.contains(rule), qPrintable(rule));
        }
        const Said text = call({"--yard", m_place.yard(), "audit", "NQ-02", "--before", "hot-work"});
        QCOMPARE(text.code, kNo);
        QVERIFY(text.out.contains("What holds it: " + QByteArray::number(audit.value("blockers").toArray().size())));
    }

    void keysThatScriptsRelyOn()
    {
        const QJsonObject audit = m_place.ask({"audit", "NQ-02", "--before", "hot-work"}).json();
        QCOMPARE(
            missing(audit, {"vessel", "hold_point", "released", "until", "requirements", "blockers", "head", "pack", "clock", "verified"}),
            QStringList());
        for (const QJsonValue& one : audit.value("requirements").toArray()) {
            QCOMPARE(missing(one.toObject(), {"rule", "barrier", "truth", "evidence"}), QStringList());
        }
        for (const QJsonValue& one : audit.value("blockers").toArray()) {
            QCOMPARE(missing(one.toObject(), {"rule", "leaf", "status", "entry", "needed", "barrier"}), QStringList());
        }
        QCOMPARE(audit.value("vessel").toString(), QString("NQ-02"));
        QCOMPARE(audit.value("hold_point").toString(), QString("hot-work"));
        QCOMPARE(audit.value("verified").toObject().value("intact").toBool(), true);
        QCOMPARE(audit.value("head").toString().size(), 64);
        QCOMPARE(audit.value("pack").toString().size(), 64);

        const QJsonObject list = m_place.ask({"vessel", "list"}).json();
        const QJsonArray vessels = list.value("vessels").toArray();
        QCOMPARE(vessels.size(), 8);
        for (const QJsonValue& one : vessels) {
            QCOMPARE(missing(one.toObject(), {"id", "standing", "next", "until"}), QStringList());
        }
        const QJsonObject shown = m_place.ask({"vessel", "show", "NQ-02"}).json();
        QCOMPARE(missing(shown, {"vessel", "standing", "until", "steps", "hold_points", "next", "pack", "head", "clock"}), QStringList());

        const QJsonObject verified = m_place.ask({"ledger", "verify"}).json();
        QCOMPARE(missing(verified, {"intact", "entries", "first_bad", "consequences"}), QStringList());
        QCOMPARE(verified.value("entries").toInt(), m_place.sql("SELECT count(*) FROM entry").toInt());
    }

    // A machine's answer does not change with the language or the form of a time.
    void boardSaysIdsAndTimes()
    {
        const Place place;
        QVERIFY(place.makeDemo());
        bool released = false;
        for (const QJsonValue& one : place.ask({"vessel", "list"}).json().value("vessels").toArray()) {
            const QJsonObject row = one.toObject();
            const QJsonObject shown = place.ask({"vessel", "show", row.value("id").toString()}).json();
            QCOMPARE(row.value("standing"), shown.value("standing"));
            QCOMPARE(row.value("until"), shown.value("until"));
            const QJsonArray next = shown.value("next").toArray();
            QCOMPARE(row.value("next").toString(), next.isEmpty() ? QString() : next.first().toString());
            released = released || row.value("standing").toString() == "released";
        }
        QVERIFY(released);
    }

    void explainGoesDownToEntries()
    {
        int proven = 0;
        for (const QJsonValue& one : m_place.ask({"audit", "NQ-02", "--before", "first-cut"}).json().value("requirements").toArray()) {
            const QString rule = one.toObject().value("rule").toString();
            const Said said = m_place.ask({"explain", "NQ-02", rule});
            const QJsonArray requirements = said.json().value("requirements").toArray();
            QVERIFY2(requirements.size() == 1, told(said));
            QCOMPARE(requirements.first().toObject().value("rule").toString(), rule);
            const bool holds = one.toObject().value("list").toString() == "stop" ? one.toObject().value("truth").toString() != "false"
                                                                                 : one.toObject().value("truth").toString() != "true";
            QVERIFY2(said.code == (holds ? kNo : kYes), told(said));
            for (const QJsonValue& evidence : requirements.first().toObject().value("evidence").toArray()) {
                const QString entry = evidence.toObject().value("entry").toString();
                if (!entry.isEmpty()) {
                    QCOMPARE(m_place.sql("SELECT count(*) FROM entry WHERE hash = x'" + entry + "'"), QString("1"));
                    ++proven;
                }
            }
        }
        QVERIFY(proven > 5);
    }

    // The release of NQ-01 an hour ago was not given yet; in two hours it is over.
    void atAnotherTime()
    {
        const Place place;
        QVERIFY(place.makeDemo());
        const QDateTime now = QDateTime::currentDateTimeUtc();
        const QString before = now.addSecs(-3600).toString("yyyy-MM-ddTHH:mm:ssZ");
        const QString after = now.addSecs(7200).toString("yyyy-MM-ddTHH:mm:ssZ");
        QCOMPARE(place.ask({"audit", "NQ-01", "--before", "first-cut"}).code, kYes);
        QCOMPARE(place.ask({"--at", after, "audit", "NQ-01", "--before", "first-cut"}).code, kNo);
        QCOMPARE(place.ask({"--at", before, "audit", "NQ-01", "--before", "first-cut"}).code, kNo);
        QCOMPARE(place.ask({"--at", after, "vessel", "show", "NQ-01"}).json().value("standing").toString(), QString("held"));
        QCOMPARE(place.ask({"audit", "NQ-01", "--before", "first-cut"}).code, kYes); // nothing stuck to the record
    }

    void atIsRefusedForWhatWrites_data()
    {
        QTest::addColumn<QStringList>("command");
        const QString file = m_place.write("facts.json", "{}");
        QTest::newRow("demo") << QStringList{"demo", m_place.path("never")};
        QTest::newRow("yard create") << QStringList{"yard", "create", m_place.path("never"), "--owner", "Ada"};
        QTest::newRow("person add") << QStringList{"person", "add", "Kim", "--role", "hand", "--by", "Ada"};
        QTest::newRow("person grant") << QStringList{"person", "grant", "Bea", "--role", "tester", "--by", "Ada"};
        QTest::newRow("person retire") << QStringList{"person", "retire", "Bea", "--by", "Ada"};
        QTest::newRow("instrument add") << QStringList{
            "instrument", "add", "M-2", "--type", "gas-meter", "--calibrated-until", "2030-01-01", "--by", "Ada"};
        QTest::newRow("instrument check") << QStringList{
            "instrument", "check", "M-1", "--shown", "49 %LEL", "--expected", "50 %LEL", "--by", "Rosa"};
        QTest::newRow("vessel add") << QStringList{"vessel", "add", "--in", file, "--by", "Ada"};
        QTest::newRow("record") << QStringList{"record", "NQ-02", "coat", "--in", file, "--by", "Bea"};
        QTest::newRow("event") << QStringList{"event", "NQ-01", "moved"};
        QTest::newRow("withdraw") << QStringList{"withdraw", "NQ-01", "first-cut"};
        QTest::newRow("release") << QStringList{"release", "NQ-02", "first-cut", "--by", "Ada", "--with", "Tam"};
        QTest::newRow("clock confirm") << QStringList{"clock", "confirm", "--by", "Ada"};
        QTest::newRow("pack adopt") << QStringList{"pack", "adopt", "--by", "Ada", "--with", "Rosa"};
        QTest::newRow("correct") << QStringList{"correct", QString(64, 'a'), "--why", "x", "--by", "Ada"};
        QTest::newRow("confirm") << QStringList{"confirm", QString(64, 'a'), "--by", "Ada"};
        QTest::newRow("clear") << QStringList{"clear", "NQ-02", "alarm", "--found", "x", "--done", "y", "--by", "Ada"};
        QTest::newRow("gap accept") << QStringList{"gap", "accept", "NQ-02", "--why", "x", "--by", "Ada", "--with", "Rosa"};
        QTest::newRow("tag print") << QStringList{"tag", "NQ-02", "--pdf", m_place.path("never.pdf")};
        QTest::newRow("tag read recorded") << QStringList{"tag", "read", "P2QF-76KP-5", "--by", "Ada"};
    }
    void atIsRefusedForWhatWrites()
    {
        QFETCH(const QStringList, command);
        const QString rows = m_place.sql("SELECT count(*) FROM entry");
        const Said said = m_place.act(QStringList{"--at", "2026-06-14T08:00Z"} + command, {"Ada", "Rosa"});
        QVERIFY2(said.code == kInput, told(said));
        QCOMPARE(said.error().value("code").toString(), QString("writes-need-now"));
        QCOMPARE(said.error().value("path").toString(), QString("--at"));
        QCOMPARE(m_place.sql("SELECT count(*) FROM entry"), rows);
        QVERIFY(!QDir(m_place.path("never")).exists());
        QVERIFY(!QFile::exists(m_place.path("never.pdf")));
    }

    void badCalls_data()
    {
        QTest::addColumn<QStringList>("command");
        QTest::addColumn<QString>("code");
        QTest::newRow("a time that is none") << QStringList{"--at", "yesterday", "vessel", "list"} << "bad-time";
        QTest::newRow("no such vessel") << QStringList{"audit", "XX-1", "--before", "first-cut"} << "unknown-vessel";
        QTest::newRow("no such hold point") << QStringList{"audit", "NQ-01", "--before", "lunch"} << "unknown-hold-point";
        QTest::newRow("no such requirement") << QStringList{"explain", "NQ-01", "luck"} << "unknown-requirement";
        QTest::newRow("no such command") << QStringList{"bless", "NQ-01"} << "bad-call";
        QTest::newRow("an option is missing") << QStringList{"audit", "NQ-01"} << "bad-call";
        QTest::newRow("an option is not known") << QStringList{"vessel", "list", "--quickly"} << "bad-call";
        QTest::newRow("no such yard") << QStringList{"--yard", m_place.path("nowhere"), "vessel", "list"} << "no-yard";
    }
    void badCalls()
    {
        QFETCH(const QStringList, command);
        QFETCH(const QString, code);
        const QStringList yard = command.contains("--yard") ? QStringList() : QStringList{"--yard", m_place.yard()};
        const Said said = call(QStringList{"--json"} + yard + command);
        QVERIFY2(said.code == kInput, told(said));
        QCOMPARE(said.error().value("code").toString(), code);
        QCOMPARE(said.out, QByteArray());
    }
};

BRIMFUL_SUITE(DemoTest);
#include "demo_test.moc"
