// A tag's life: printed, painted on the vessel, read again from a picture, old, forged.
#include "tests/journeys/program.h"
#include "tests/support/suite.h"

#include <QFile>
#include <QTest>

using namespace brimful::test;

class TagJourneyTest : public QObject {
    Q_OBJECT

    // The page as a printer of 300 dpi makes it.
    static QString picture(const Place& place, const QString& name)
    {
        const Said said = run("pdftoppm", {"-r", "300", "-png", "-singlefile", place.path(name + ".pdf"), place.path(name)});
        return said.code == 0 ? place.path(name + ".png") : QString();
    }

private slots:
    void fromPaperAndBack_data()
    {
        QTest::addColumn<QString>("label");
        for (const char* label : {"100x150", "a6", "a4"}) {
            QTest::newRow(label) << QString(label);
        }
    }
    void fromPaperAndBack()
    {
        QFETCH(const QString, label);
        const Place place;
        QVERIFY(place.makeDemo());
        const Said printed = place.ask({"tag", "NQ-01", "--pdf", place.path("first.pdf"), "--label", label});
        QVERIFY2(printed.code == kYes, told(printed));
        const int serial = printed.json().value("serial").toInt();
        const QString first = picture(place, "first");
        QVERIFY(!first.isEmpty());

        const QString rows = place.sql("SELECT count(*) FROM entry");
        const Said read = place.ask({"tag", "read", first});
        QVERIFY2(read.code == kYes, told(read));
        const QJsonObject answer = read.json();
        QCOMPARE(answer.value("vessel").toString(), QString("NQ-01"));
        for (const char* key : {"genuine", "newest", "still_true", "head_known"}) {
            QVERIFY2(answer.value(key).toBool(), key);
        }
        QCOMPARE(answer.value("as_printed").toObject().value("serial").toInt(), serial);
        const QString head = answer.value("as_printed").toObject().value("head").toString();
        QCOMPARE(place.sql("SELECT kind FROM entry WHERE hash = x'" + head + "'"), QString("tag-printed"));
        const Said text = call({"--yard", place.yard(), "tag", "read", first});
        QVERIFY2(text.out.startsWith("NQ-01"), told(text));
        QCOMPARE(place.sql("SELECT count(*) FROM entry"), rows); // looking writes nothing

        // A newer one is printed: the first is old, and says so whatever else it says.
        const Said newer = place.ask({"tag", "NQ-01", "--pdf", place.path("second.pdf"), "--label", label});
        QCOMPARE(newer.json().value("serial").toInt(), serial + 1);
        const Said old = place.ask({"tag", "read", first});
        QVERIFY2(old.code == kNo, told(old));
        QCOMPARE(old.json().value("genuine").toBool(), true);
        QCOMPARE(old.json().value("newest").toBool(true), false);
        QCOMPARE(old.json().value("still_true").toBool(true), false);
        QCOMPARE(place.ask({"tag", "read", picture(place, "second")}).code, kYes);

        // The vessel was moved: the newest tag is not true any more.
        QCOMPARE(place.ask({"event", "NQ-01", "moved"}).code, kYes);
        const Said untrue = place.ask({"tag", "read", picture(place, "second")});
        QCOMPARE(untrue.code, kNo);
        QCOMPARE(untrue.json().value("newest").toBool(), true);
        QCOMPARE(untrue.json().value("still_true").toBool(true), false);
    }

    void shortCodeTyped()
    {
        const Place place;
        QVERIFY(place.makeDemo());
        const Said first = place.ask({"tag", "NQ-02", "--text"});
        const QString code = place.ask({"tag", "NQ-02", "--pdf", place.path("tag.pdf")}).json().value("code").toString();
        QVERIFY(!code.isEmpty());
        for (const QString& typed : {code, code.toLower(), QString(code).remove('-')}) {
            const Said said = place.ask({"tag", "read", typed});
            QVERIFY2(said.code == kYes, told(said));
            QCOMPARE(said.json().value("vessel").toString(), QString("NQ-02"));
            QCOMPARE(said.json().value("newest").toBool(), true);
        }
        // One wrong symbol is noticed.
        QString wrong = code;
        wrong[0] = wrong[0] == 'A' ? 'B' : 'A';
        const Said said = place.ask({"tag", "read", wrong});
        QVERIFY2(said.code == kInput, told(said));
        QCOMPARE(said.error().value("code").toString(), QString("bad-code"));
        // The tag before it, by its code.
        const Said old = place.ask({"tag", "read", first.json().value("code").toString()});
        QVERIFY2(old.code == kNo, told(old));
    }

    void reprintHasTheSameBytes()
    {
        const Place place;
        QVERIFY(place.makeDemo());
        const QJsonObject first = place.ask({"tag", "NQ-02", "--pdf", place.path("a.pdf")}).json();
        const QJsonObject again = place.ask({"tag", "NQ-02", "--again", "--pdf", place.path("b.pdf")}).json();
        QCOMPARE(again, first);
    }

    // To show what the newest tag says is a question: it writes nothing and may be asked about another time.
    void textIsAQuestion()
    {
        const Place place;
        QVERIFY(place.makeDemo());
        const QJsonObject printed = place.ask({"tag", "NQ-01", "--pdf", place.path("a.pdf")}).json();
        const QString rows = place.sql("SELECT count(*) FROM entry");
        const Said shown = place.ask({"tag", "NQ-01", "--text"});
        QVERIFY2(shown.code == kYes, told(shown));
        QCOMPARE(shown.json(), printed);
        const Said then = place.ask({"--at", "2026-06-14T08:00Z", "tag", "NQ-01", "--text"});
        QVERIFY2(then.code == kYes, told(then));
        QCOMPARE(place.sql("SELECT count(*) FROM entry"), rows);
    }

    void anotherYardsTag()
    {
        const Place here;
        const Place there;
        QVERIFY(here.makeDemo());
        QVERIFY(there.makeDemo());
        const QJsonObject foreign = there.ask({"tag", "NQ-01", "--pdf", there.path("tag.pdf")}).json();
        for (const QString& tag : {foreign.value("text").toString(), picture(there, "tag")}) {
            const Said said = here.ask({"tag", "read", tag});
            QVERIFY2(said.code == kNo, told(said));
            QCOMPARE(said.json().value("genuine").toBool(true), false);
            QCOMPARE(said.json().value("still_true").toBool(true), false);
        }
        // A stranger's paper cannot hold a vessel of this yard.
        QCOMPARE(here.ask({"audit", "NQ-01", "--before", "first-cut"}).code, kYes);
        // A forger who copies the words, but not the signature.
        QString forged = here.ask({"tag", "NQ-02", "--pdf", here.path("own.pdf")}).json().value("text").toString();
        forged.replace("NQ-02", "NQ-01");
        const qsizetype place = forged.size() - 20;
        forged[place] = forged[place] == '0' ? '1' : '0';
        QCOMPARE(here.ask({"tag", "read", forged}).json().value("genuine").toBool(true), false);
    }

    void whatIsNoTag_data()
    {
        QTest::addColumn<QByteArray>("bytes");
        QTest::addColumn<QString>("name");
        QTest::newRow("a picture without a symbol") << QByteArray::fromBase64("iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk"
                                                                              "+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==")
                                                    << QString("white.png");
        QTest::newRow("no picture") << QByteArray("hello") << QString("hello.png");
        QTest::newRow("an empty file") << QByteArray() << QString("empty.png");
    }
    void whatIsNoTag()
    {
        QFETCH(const QByteArray, bytes);
        QFETCH(const QString, name);
        const Place place;
        QVERIFY(place.makeDemo());
        const Said said = place.ask({"tag", "read", place.write(name, bytes)});
        QVERIFY2(said.code == kInput, told(said));
        QVERIFY(said.error().value("path").toString().endsWith(name));
    }
};

BRIMFUL_SUITE(TagJourneyTest);
#include "tag_test.moc"
