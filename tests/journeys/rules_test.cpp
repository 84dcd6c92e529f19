// The doors beside the yard: rule packs and scripted scenarios.
#include "tests/journeys/program.h"
#include "tests/support/suite.h"

#include <QDir>
#include <QDirIterator>
#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QTest>

using namespace brimful::test;

class RulesTest : public QObject {
    Q_OBJECT

    static QString rules(const QString& path) { return QStringLiteral(BRIMFUL_SOURCE_DIR "/rules/") + path; }
    static QString copyOfBase(const Place& place)
    {
        const QString to = place.path("base");
        QDirIterator files(rules("base"), QDir::Files, QDirIterator::Subdirectories);
        while (files.hasNext()) {
            const QString from = files.next();
            const QString file = to + from.mid(rules("base").size());
            QDir().mkpath(QFileInfo(file).path());
            QFile::copy(from, file);
            QFile(file).setPermissions(QFile::ReadOwner | QFile::WriteOwner);
        }
        return to;
    }

private slots:
    void checksTheShippedPack()
    {
        const Said said = call({"--json", "rules", "check", "base"});
        QVERIFY2(said.code == kYes, told(said));
        QCOMPARE(said.json().value("pack").toString(), QString("base"));
        QCOMPARE(said.json().value("hold_points").toInt(), 5);
        QCOMPARE(said.json().value("steps").toInt(), QDir(rules("base/steps")).entryList({"*.json"}).size());
        // What a folder holds is the same pack.
        QCOMPARE(call({"--json", "rules", "check", rules("base")}).json().value("hash"), said.json().value("hash"));
    }

    // Every rule that the files hold, by its hold point, list and name, and one as it must read.
    void writesEveryRuleInCel()
    {
        const Said said = call({"--json", "rules", "cel", "base"});
        QVERIFY2(said.code == kYes, told(said));
        QMap<QString, QString> written;
        for (const auto& one : said.json().value("rules").toArray()) {
            const auto rule = one.toObject();
            written.insert(rule.value("hold_point").toString() + '/' + rule.value("list").toString() + '/' + rule.value("rule").toString(),
                rule.value("cel").toString());
        }
        int asked = 0;
        QDirIterator files(rules("base/hold-points"), QDir::Files);
        while (files.hasNext()) {
            QFile file(files.next());
            QVERIFY(file.open(QIODevice::ReadOnly));
            const auto hold_point = QJsonDocument::fromJson(file.readAll()).object();
            for (const char* list : {"at_giving", "require", "stop"}) {
                for (const auto& rule : hold_point.value(QLatin1String(list)).toArray()) {
                    const QString name = hold_point.value("id").toString() + '/' + list + '/' + rule.toObject().value("id").toString();
                    QVERIFY2(!written.value(name).isEmpty(), qPrintable(name));
                    ++asked;
                }
            }
        }
        QVERIFY(asked >= 5); // at least one a hold point
        QCOMPARE(written.value("accept/require/hollows-known"), QString(R"(steps["hollow-places"].passed)"));
        QCOMPARE(call({"rules", "cel", "nowhere"}).code, kInput);
    }

    void provesTheShippedPackAndComparesAWeakerOne()
    {
        const Said said = call({"--json", "rules", "prove", "base"});
        QVERIFY2(said.code == kYes, told(said));
        QVERIFY(said.json().value("claims").toInt() >= 40);
        QVERIFY(call({"rules", "prove", "au"}).code == kYes);
        QCOMPARE(call({"rules", "prove", "nowhere"}).code, kInput);
        const Place place;
        const QString pack = copyOfBase(place);
        QVERIFY(call({"rules", "prove", pack}).code == kYes);
        QFile file(pack + "/pack.json");
        QVERIFY(file.open(QIODevice::ReadOnly));
        QByteArray text = file.readAll();
        file.close();
        const qsizetype at = text.indexOf("\"30 min\"", text.indexOf("\"reading-life\""));
        QVERIFY(at > 0);
        text.replace(at, 8, "\"31 min\"");
        QVERIFY(file.open(QIODevice::WriteOnly | QIODevice::Truncate));
        file.write(text);
        file.close();
        const Said weaker = call({"--json", "rules", "prove", pack});
        QCOMPARE(weaker.code, kNo);
        bool shown = false;
        bool claimed = false;
        for (const auto& one : weaker.json().value("findings").toArray()) {
            const auto finding = one.toObject();
            shown = shown || (finding.value("law") == "P7" && finding.value("hold_point") == "hot-work" && finding.contains("history"));
            claimed = claimed || (finding.value("law") == "P1" && finding.value("subject") == "dry-reading-is-fresh");
        }
        QVERIFY2(shown, told(weaker));
        QVERIFY2(claimed, told(weaker));
    }

    void namesFileAndPlaceOfAnError()
    {
        const Place place;
        const QString pack = copyOfBase(place);
        QVERIFY(call({"rules", "check", pack}).code == kYes);
        QFile file(pack + "/hold-points/hot-work.json");
        QVERIFY(file.open(QIODevice::ReadOnly));
        QByteArray text = file.readAll();
        file.close();
        QVERIFY(text.contains("\"washed-looked\""));
        text.replace("\"step\": \"wash-look\"", "\"step\": \"wash-lock\"");
        QVERIFY(file.open(QIODevice::WriteOnly | QIODevice::Truncate));
        file.write(text);
        file.close();
        const Said said = call({"rules", "check", pack});
        QVERIFY2(said.code == kInput, told(said));
        QVERIFY2(said.err.contains("hot-work.json") && said.err.contains("wash-lock"), told(said));
        const Said json = call({"--json", "rules", "check", pack});
        QCOMPARE(json.code, kInput);
        QVERIFY2(json.error().value("path").toString().contains("hot-work.json"), told(json));
    }

    void unknownPack()
    {
        const Said said = call({"--json", "rules", "check", "no-such-pack"});
        QCOMPARE(said.code, kInput);
        QCOMPARE(said.error().value("code").toString(), QString("unknown-pack"));
    }

    void casesOfTheBasePack()
    {
        const Said said = call({"--json", "rules", "cases", "base"});
        QVERIFY2(said.code == kYes, told(said));
        QCOMPARE(said.json().value("cases").toInt(), QDir(rules("cases/base")).entryList({"*.json"}).size());
        QCOMPARE(said.json().value("failed").toInt(-1), 0);
        QCOMPARE(call({"--json", "rules", "cases", "no-such-pack"}).code, kInput);
    }

    void playsAScenario()
    {
        const Said said = call({"play", rules("cases/base/01-whole-life.json")});
        QVERIFY2(said.code == kYes, told(said));
        QVERIFY(said.out.contains("hand-over"));
        const Said json = call({"--json", "play", rules("cases/base/01-whole-life.json")});
        QCOMPARE(json.code, kYes);
        const QJsonArray played = json.json().value("played").toArray();
        QVERIFY(played.size() > 20);
        for (const char* key : {"at", "act", "vessel", "what", "outcome"}) {
            QVERIFY2(played.first().toObject().contains(key), key);
        }
        QCOMPARE(json.json().value("unmet").toArray().size(), 0);
    }

    // An expectation that does not hold is a no, and is named.
    void anExpectationThatDoesNotHold()
    {
        const Place place;
        const QString file = place.write("wrong.json", R"({
 "about": "A vessel that nobody looked at is not released.",
 "yard": {"name": "Test yard", "people": [{"name": "Ada", "pin": "480263", "roles": ["authoriser", "hand"]}], "instruments": []},
 "clock": "2026-06-14T08:00Z",
 "do": [
  {"act": "admit", "number": "T-1", "by": "Ada"},
  {"expect": [{"vessel": "T-1", "state": "released"}]}
 ]
})");
        const Said said = call({"play", file});
        QVERIFY2(said.code == kNo, told(said));
        QVERIFY2(said.err.contains("T-1") && said.err.contains("released") && said.err.contains("held"), told(said));
        const Said json = call({"--json", "play", file});
        QCOMPARE(json.code, kNo);
        QCOMPARE(json.json().value("unmet").toArray().size(), 1);
    }

    void badScenarios_data()
    {
        QTest::addColumn<QByteArray>("text");
        QTest::newRow("empty") << QByteArray();
        QTest::newRow("not JSON") << QByteArray("do: admit");
        QTest::newRow("nobody") << QByteArray(R"({"yard": {"name": "x", "people": []}, "do": []})");
        QTest::newRow("an unknown act") << QByteArray(
            R"({"yard": {"name": "x", "people": [{"name": "Ada", "pin": "480263", "roles": ["authoriser"]}]}, "do": [{"act": "fly"}]})");
    }
    void badScenarios()
    {
        QFETCH(const QByteArray, text);
        const Place place;
        const Said said = call({"--json", "play", place.write("bad.json", text)});
        QVERIFY2(said.code == kInput, told(said));
        QVERIFY2(!said.error().value("code").toString().isEmpty(), told(said));
    }
};

BRIMFUL_SUITE(RulesTest);
#include "rules_test.moc"
