// The plug is pulled: the program is killed at random moments while it records and releases. What it had acknowledged
// is there, once; what it had not is there whole or not at all; the next act is taken.
#include "tests/journeys/program.h"
#include "tests/support/suite.h"

#include <QElapsedTimer>
#include <QProcess>
#include <QRandomGenerator>
#include <QTest>
#include <QThread>

#include <algorithm>
#include <csignal>

using namespace brimful::test;

class KillTest : public QObject {
    Q_OBJECT

    static constexpr int kKills = 50;

    static Said identity(const Place& place, const QString& serial)
    {
        return place.act(
            {"record", "K-1", "identity", "--by", "Bea", "--in", place.write("identity.json", identityFacts(serial).toUtf8())}, {"Bea"});
    }
    static QString identityFacts(const QString& serial)
    {
        return QString(R"({"plate": "readable", "serial": "%1", "serial-again": "%2", "number": "painted"})").arg(serial, serial.right(4));
    }
    static QStringList release(const Place& place, const QString& word)
    {
        const QString answers = place.write("answers.json",
            QString(R"({"serial": "7777", "owner": "bill-of-sale", "substance": "propane", "arrived": "closed", "openings": 5,
                        "hollows": 0, "unhappy": "%1"})")
                .arg(word)
                .toUtf8());
        return {"release", "K-2", "accept", "--by", "Ada", "--with", "Bea", "--answer", "0", "--answers", answers};
    }

    // K-1 with nothing, K-2 ready for its first release.
    static void furnish(const Place& place)
    {
        const auto done = [](const Said& said) { QVERIFY2(said.code == kYes, told(said)); };
        for (const QString& number : QStringList{"K-1", "K-2"}) {
            done(place.act(
                {"vessel", "add", "--by", "Bea", "--in", place.write("vessel.json", QString(R"({"number": "%1"})").arg(number).toUtf8())},
                {"Bea"}));
        }
        const auto record = [&](const QString& step, const QByteArray& facts, const QStringList& who) {
            QStringList call{"record", "K-2", step, "--in", place.write("facts.json", facts), "--by", who.first()};
            done(place.act(who.size() > 1 ? call + QStringList{"--with", who.last(), "--answer", "propane"} : call, who));
        };
        record("ownership", R"({"owner": "bill-of-sale", "paper-names": "serial", "other-marks": "none"})", {"Ada"});
        record("identity", identityFacts("PX-7777").toUtf8(), {"Bea"});
        record("what-it-was",
            R"({"kind": "stationary-lpg", "substance": "propane", "proof-one": "supplier-record", "proof-two": "plate-and-fittings",
                "against": "nothing", "arrived": "closed"})",
            {"Ada", "Bea"});
        record("signs", R"({"brass": "plain", "smell": "nothing", "marks": "none"})", {"Bea"});
        record("hollow-places",
            R"({"openings-count": 5, "count": 0, "hollows": [], "can-be-holed": "none-there", "outside": "bare-or-paint"})", {"Bea"});
        record("measure",
            R"({"outside-diameter": "30 in", "wall": "1/4 in", "overall-length": "92 in", "heads": "hemispherical",
                "stamped": "250 galUS", "taken": "once"})",
            {"Bea"});
        done(place.act(release(place, "before"), {"Ada", "Bea"}));
    }

private slots:
    void atRandomMoments()
    {
        const bool given = qEnvironmentVariableIsSet("BRIMFUL_SEED");
        const quint32 seed =
            given ? static_cast<quint32>(qEnvironmentVariableIntValue("BRIMFUL_SEED")) : QRandomGenerator::global()->generate();
        qInfo("BRIMFUL_SEED=%d repeats these moments", static_cast<int>(seed));
        QRandomGenerator random(seed);
        const Place place;
        QVERIFY(place.makeDemo());
        furnish(place);
        if (QTest::currentTestFailed()) {
            return;
        }
        qint64 whole = 0; // ms that an act takes here today
        for (int i = 0; i < 3; ++i) {
            QElapsedTimer timer;
            timer.start();
            QCOMPARE(identity(place, QString("WARM-%1").arg(i, 4, 10, QChar('0'))).code, kYes);
            whole = std::max(whole, timer.elapsed());
        }

        int acknowledged = 0;
        int lost = 0;
        int written_unsaid = 0;
        for (int i = 0; i < kKills; ++i) {
            const bool releases = i % 2 == 1;
            const QString word = QString("KILL-%1").arg(i, 4, 10, QChar('0'));
            const QStringList call = releases ? release(place, word)
                                              : QStringList{"record", "K-1", "identity", "--by", "Bea", "--in",
                                                  place.write("identity.json", identityFacts(word).toUtf8())};
            // Half of the moments anywhere, half towards the end, where the writing is.
            const double part = i % 4 < 2 ? random.generateDouble() * 1.2 : 0.5 + random.generateDouble() * 0.7;
            QProcess process;
            process.start(program(), QStringList{"--yard", place.yard(), "--json", "--pin-stdin"} + call);
            QVERIFY(process.waitForStarted());
            process.write(pins(releases ? QStringList{"Ada", "Bea"} : QStringList{"Bea"}));
            process.closeWriteChannel();
            QVERIFY(process.waitForBytesWritten());
            QThread::usleep(static_cast<unsigned long>(part * static_cast<double>(whole) * 1000.0));
            ::kill(static_cast<pid_t>(process.processId()), SIGKILL);
            QVERIFY(process.waitForFinished());
            const Said said{process.exitStatus() == QProcess::NormalExit ? process.exitCode() : kCrashed, process.readAllStandardOutput(),
                process.readAllStandardError()};
            const QString entry = said.json().value("entry").toString();
            QVERIFY2(said.code == kCrashed || said.code == kYes, told(said));

            const Said verify = place.ask({"ledger", "verify"});
            QVERIFY2(verify.code == kYes, told(verify));
            const QString where = releases ? "kind = 'released' AND json_extract(body, '$.payload.answers.unhappy') = '" + word + "'"
                                           : "json_extract(body, '$.payload.facts.serial') = '" + word + "'";
            const int found = place.sql("SELECT count(*) FROM entry WHERE " + where).toInt();
            QVERIFY2(found <= 1, qPrintable(word + " stands twice"));
            if (!entry.isEmpty()) {
                ++acknowledged;
                QCOMPARE(place.sql("SELECT count(*) FROM entry WHERE hash = x'" + entry + "' AND " + where), QString("1"));
            } else {
                lost += 1 - found;
                written_unsaid += found;
            }
            if (releases && found == 1) { // both signatures or none
                QCOMPARE(place.sql("SELECT count(*) FROM entry WHERE kind = 'confirmed' AND json_extract(body, '$.payload.confirms') = "
                                   "(SELECT lower(hex(hash)) FROM entry WHERE "
                             + where + ")"),
                    QString("1"));
            }
            // Nobody is locked out and the feed goes on.
            const Said next = identity(place, QString("NEXT-%1").arg(i, 4, 10, QChar('0')));
            QVERIFY2(next.code == kYes, told(next));
            if (releases) { // a killed try of the other signer's PIN is wiped by one that fits
                const Said both = place.act(release(place, QString("next %1").arg(i)), {"Ada", "Bea"});
                QVERIFY2(both.code == kYes, told(both));
            }
        }
        qInfo("%d acknowledged, %d written but not said, %d not written; an act takes %lld ms", acknowledged, written_unsaid, lost, whole);
        QVERIFY(acknowledged + written_unsaid > 0); // else the moments were all too early to show anything
        QVERIFY(lost > 0);
        QCOMPARE(place.sql("SELECT count(*) FROM (SELECT body FROM entry GROUP BY device, seq HAVING count(*) > 1)"), QString("0"));
    }
};

BRIMFUL_SUITE(KillTest);
#include "kill_test.moc"
