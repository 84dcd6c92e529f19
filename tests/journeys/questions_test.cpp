// What a supervisor may ask in person, by the command line: in an empty yard, after a fill that went too fast, in the demo.
#include "tests/journeys/program.h"
#include "tests/support/suite.h"

#include <QJsonArray>
#include <QTest>

using namespace brimful::test;

class QuestionsJourney : public QObject {
    Q_OBJECT

private slots:
    void aFillThatTookNoTime()
    {
        const Place place;
        QCOMPARE(call({"--json", "--pin-stdin", "yard", "create", place.yard(), "--owner", "Ada"}, pins({"Ada"})).code, kYes);
        QCOMPARE(place.act({"person", "add", "Tam", "--role", "hand", "--by", "Ada"}, {"Ada", "Tam"}).code, kYes);
        const QString in = place.write("vessel.json",
            R"({"number": "A-1", "vessel": {"outside_diameter": "37.5 in", "wall": "0 in", "overall_length": "119 in", "heads": "ellipsoidal-2-1"}})");
        QCOMPARE(place.act({"vessel", "add", "--in", in, "--by", "Tam"}, {"Tam"}).code, kYes);
        const Said nothing = place.ask({"yard", "questions"});
        QCOMPARE(nothing.code, kYes);
        QVERIFY(nothing.json().value("questions").toArray().isEmpty());
        QCOMPARE(nothing.json().value("cards").toInt(-1), 0);
        QCOMPARE(nothing.json().value("releases").toInt(-1), 0);
        QCOMPARE(nothing.json().value("vessels").toInt(-1), 1);
        const Said plain = call({"--yard", place.yard(), "yard", "questions"});
        QVERIFY(plain.out.contains("Looked at: cards 0, releases 0, vessels 1."));
        QVERIFY(plain.out.contains("Nothing stood out"));
        QVERIFY(plain.err.isEmpty()); // no progress into a pipe

        QCOMPARE(place.ask({"event", "A-1", "fill-started"}).code, kYes);
        const QString card = place.write("fill.json",
            R"({"hose": "loose-to-bottom", "backflow": "air-gap", "overflowed": "2 min", "let-out": "by-the-route", "probe-kept-off": "nothing-near"})");
        const Said recorded = place.act({"record", "A-1", "fill-one", "--in", card, "--by", "Tam"}, {"Tam"});
        QVERIFY2(recorded.code == kYes, told(recorded));
        const Said asked = place.ask({"yard", "questions"});
        QCOMPARE(asked.code, kYes); // a question is no refusal
        const QJsonArray questions = asked.json().value("questions").toArray();
        QCOMPARE(questions.size(), 1);
        const QJsonObject one = questions.first().toObject();
        QCOMPARE(one.value("what").toString(), QString("sooner-than-it-says")); // half of 2 min, and the machine is faster
        QCOMPARE(one.value("vessels").toArray(), QJsonArray{"A-1"});
        QCOMPARE(one.value("persons").toArray(), QJsonArray{"Tam"});
        QCOMPARE(one.value("steps").toArray(), QJsonArray{"fill-one"});
        QCOMPARE(one.value("entries").toArray().last().toString(), recorded.json().value("entry").toString());
        QCOMPARE(one.value("takes_s").toInt(), 120);
        QVERIFY(one.value("took_s").toInt() < 60);
        QVERIFY(one.value("ask").toString().endsWith('?'));
        const Said words = call({"--yard", place.yard(), "yard", "questions"});
        QVERIFY2(words.out.contains("\"Water goes in\" was pressed"), words.out.constData());
        QVERIFY(words.out.contains("Tam"));
        QVERIFY(!words.out.contains("Nothing stood out"));
        QCOMPARE(call({"--yard", place.path("nowhere"), "--json", "yard", "questions"}).code, kInput);
    }

    // Each question says who may be asked and what it rests on; what it rests on is in the record.
    void ofTheDemo()
    {
        const Place place;
        QVERIFY(place.makeDemo());
        const QJsonObject said = place.ask({"yard", "questions"}).json();
        const QJsonArray questions = said.value("questions").toArray();
        QVERIFY(!questions.isEmpty());
        QVERIFY(said.value("cards").toInt() > 100);
        QString newer = QStringLiteral("9999");
        for (const QJsonValue& one : questions) {
            QVERIFY(one["at"].toString() <= newer);
            newer = one["at"].toString();
            QVERIFY(!one["persons"].toArray().isEmpty());
            QVERIFY(!one["entries"].toArray().isEmpty());
            for (const QJsonValue& entry : one["entries"].toArray()) {
                const QString row =
                    place.sql(QStringLiteral("SELECT count(*) FROM entry WHERE lower(hex(hash)) = '%1'").arg(entry.toString()));
                QCOMPARE(row.trimmed(), QString("1"));
            }
        }
    }
};

BRIMFUL_SUITE(QuestionsJourney);
#include "questions_test.moc"
