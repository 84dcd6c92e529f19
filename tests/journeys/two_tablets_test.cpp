// A second tablet by the command line: restored, asked for, enrolled, at work; keys renewed, the recovery sheet, lost tags.
#include "tests/journeys/program.h"
#include "tests/support/suite.h"

#include <QJsonArray>
#include <QTest>

using namespace brimful::test;

class TwoTabletsJourney : public QObject {
    Q_OBJECT

    static Said there(const Place& place, const QStringList& arguments, const QByteArray& input = {})
    {
        return call(QStringList{"--yard", place.path("second"), "--json", "--pin-stdin"} + arguments, input);
    }
    // Entries from one folder into the other.
    static void carry(const Place& place, bool back)
    {
        const QString from = back ? place.path("second") : place.yard();
        const QString to = back ? place.yard() : place.path("second");
        QCOMPARE(call({"--yard", from, "--json", "ledger", "export", place.path("carried")}).code, kYes);
        const Said taken = call({"--yard", to, "--json", "ledger", "import", place.path("carried")});
        QVERIFY2(taken.code == kYes, told(taken));
    }

private slots:
    void enrolledAndAtWork()
    {
        const Place place;
        QVERIFY(place.makeDemo());
        QCOMPARE(place.ask({"ledger", "export", place.path("all")}).code, kYes);
        QCOMPARE(there(place, {"ledger", "restore", place.path("all")}).code, kYes);
        QCOMPARE(there(place, {"event", "NQ-01", "concern"}).code, kNo);
        const Said asked = there(
            place, {"device", "ask", place.path("ask"), "--name", "Tablet 2", "--person", "Ada", "--person", "Bea"}, "615204\n357046\n");
        QVERIFY2(asked.code == kYes, told(asked));
        const QString code = asked.json().value("code").toString();
        QCOMPARE(code.size(), 19); // four groups of four
        QCOMPARE(there(place, {"event", "NQ-01", "concern"}).error().value("code").toString(), QString("device-not-enrolled"));
        QCOMPARE(place.act({"device", "add", place.path("ask"), "--code", "0000", "--by", "Ada"}, {"Ada"}).code, kInput);
        const Said added = place.act({"device", "add", place.path("ask"), "--code", code.toLower(), "--by", "Ada"}, {"Ada"});
        QVERIFY2(added.code == kYes, told(added));
        QCOMPARE(place.ask({"device", "list"}).json().value("devices").toArray().size(), 2);
        carry(place, false);
        // Both write of one vessel while apart.
        QCOMPARE(there(place, {"event", "NQ-01", "concern"}).code, kYes);
        QCOMPARE(place.ask({"event", "NQ-01", "moved"}).code, kYes);
        carry(place, true);
        carry(place, false);
        const auto standing = [](const Said& said) { return said.json().value("standing").toString(); };
        QCOMPARE(standing(place.ask({"vessel", "show", "NQ-01"})), standing(there(place, {"vessel", "show", "NQ-01"})));
        QCOMPARE(place.ask({"ledger", "verify"}).code, kYes);
        QCOMPARE(there(place, {"ledger", "verify"}).code, kYes);
        const Said joined = there(place, {"fork", "join", "NQ-01", "--why", "both looked at", "--by", "Ada"}, "615204\n");
        QVERIFY2(joined.code == kYes, told(joined));
        carry(place, true);
        QCOMPARE(place.act({"fork", "join", "NQ-01", "--why", "again", "--by", "Ada"}, {"Ada"}).code, kInput); // nothing is left to join
        QVERIFY(there(place, {"key", "together"}).json().contains("pairs"));
    }

    void keys()
    {
        const Place place;
        const Said made = call({"--json", "--pin-stdin", "yard", "create", place.yard(), "--owner", "Ada"}, pins({"Ada"}));
        QVERIFY2(made.code == kYes, told(made));
        for (const char* name : {"Tam", "Bea"}) {
            QCOMPARE(place.act({"person", "add", name, "--role", "hand", "--by", "Ada"}, {"Ada", name}).code, kYes);
        }
        QCOMPARE(place.act({"key", "suspect", "Tam", "--why", "seen", "--since", "yesterday", "--by", "Ada"}, {"Ada"}).code, kInput);
        QCOMPARE(place.act({"key", "suspect", "Tam", "--why", "seen", "--by", "Ada"}, {"Ada"}).code, kYes);
        const QString in = place.write("vessel.json", R"({"number": "A-1"})");
        const Said refused = place.act({"vessel", "add", "--in", in, "--by", "Tam"}, {"Tam"});
        QCOMPARE(refused.error().value("code").toString(), QString("key-suspect"));
        const QByteArray three = pins({"Ada", "Bea"}) + "803517\n";
        const Said renewed =
            call({"--yard", place.yard(), "--json", "--pin-stdin", "key", "renew", "Tam", "--by", "Ada", "--with", "Bea"}, three);
        QVERIFY2(renewed.code == kYes, told(renewed));
        QCOMPARE(place.act({"vessel", "add", "--in", in, "--by", "Tam"}, {"Tam"}).code, kNo); // the old PIN
        QCOMPARE(
            call({"--yard", place.yard(), "--json", "--pin-stdin", "vessel", "add", "--in", in, "--by", "Tam"}, "803517\n").code, kYes);
        // The only authoriser is gone.
        const QByteArray sheet = made.json().value("recovery_sheet").toString().toLatin1();
        const QStringList recover{"--yard", place.yard(), "--json", "--pin-stdin", "key", "recover", "Una"};
        QCOMPARE(call(recover, "0" + sheet.mid(1) + "\n264801\n").code, kNo);
        const Said done = call(recover, sheet + "\n264801\n");
        QVERIFY2(done.code == kYes, told(done));
        QCOMPARE(call({"--yard", place.yard(), "--json", "--pin-stdin", "person", "grant", "Tam", "--role", "supervisor", "--by", "Una"},
                     "264801\n")
                     .code,
            kYes);
        QCOMPARE(place.ask({"ledger", "verify"}).code, kYes);
        QVERIFY(place.ask({"audit", "A-1", "--before", "accept"}).out.contains("recovery"));
    }

    void tags()
    {
        const Place place;
        QVERIFY(place.makeDemo());
        const Said printed = place.ask({"tag", "NQ-02", "--pdf", place.path("tag.pdf")});
        QVERIFY2(printed.code == kYes, told(printed));
        const QString text = printed.json().value("text").toString();
        QCOMPARE(place.ask({"tag", "lost", "NQ-02", "--note", "blown away"}).code, kYes);
        const Said lost = place.ask({"tag", "read", text});
        QVERIFY(lost.json().value("lost").toBool());
        QVERIFY(call({"--yard", place.yard(), "tag", "read", text}).out.contains("lost"));
        const QString fresh = place.ask({"tag", "NQ-02"}).json().value("text").toString();
        QVERIFY(!place.ask({"tag", "read", fresh}).json().value("lost").toBool(true));
        QCOMPARE(place.ask({"tag", "misplaced", fresh, "--on", "NQ-02"}).code, kInput);
        QCOMPARE(place.ask({"tag", "misplaced", fresh, "--on", "NQ-03"}).code, kYes);
        for (const char* number : {"NQ-02", "NQ-03"}) {
            QVERIFY(place.ask({"vessel", "show", number}).out.contains("concern"));
        }
        QCOMPARE(place.act({"gap", "accept", "--why", "none", "--by", "Ada", "--with", "Bea"}, {"Ada", "Bea"}).code, kInput);
    }
};
BRIMFUL_SUITE(TwoTabletsJourney);

#include "two_tablets_test.moc"
