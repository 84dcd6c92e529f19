// A shop's first day by command line alone: a new yard, two people, one vessel, from the gate to its first release.
#include "tests/journeys/program.h"
#include "tests/support/suite.h"

#include <QCryptographicHash>
#include <QDirIterator>
#include <QJsonArray>
#include <QTest>

using namespace brimful::test;

namespace {

// One white pixel; a page of one line.
const QByteArray kPicture =
    QByteArray::fromBase64("iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==");
const QByteArray kPage = "%PDF-1.4\n1 0 obj<</Type/Catalog/Pages 2 0 R>>endobj\n2 0 obj<</Type/Pages/Kids[]/Count 0>>endobj\n"
                         "trailer<</Root 1 0 R>>\n%%EOF\n";

} // namespace

class FreshYardTest : public QObject {
    Q_OBJECT

    Place m_place;

    Said record(const QString& step, const QByteArray& facts, const QStringList& who, const QStringList& more = {}) const
    {
        QStringList call{"record", "A-1", step, "--in", m_place.write("facts.json", facts), "--by", who.first()};
        if (who.size() > 1) {
            call += {"--with", who.last()};
        }
        return m_place.act(call + more, who);
    }
    [[nodiscard]] QString standing() const { return m_place.ask({"vessel", "show", "A-1"}).json().value("standing").toString(); }
    [[nodiscard]] QStringList next() const
    {
        QStringList ids;
        for (const QJsonValue& one : m_place.ask({"vessel", "show", "A-1"}).json().value("next").toArray()) {
            ids.push_back(one.toString());
        }
        return ids;
    }
    [[nodiscard]] QStringList accept(const QByteArray& answers) const
    {
        return {"release", "A-1", "accept", "--by", "Ada", "--with", "Tam", "--answer", "0", "--answers",
            m_place.write("answers.json", answers)};
    }
    [[nodiscard]] QString rows() const { return m_place.sql("SELECT count(*) FROM entry"); }

private slots:
    void a_yardAndTwoPeople()
    {
        const Said weak = call({"--json", "--pin-stdin", "yard", "create", m_place.yard(), "--owner", "Ada"}, "123456\n");
        QVERIFY2(weak.code == kInput, told(weak));
        QCOMPARE(weak.error().value("code").toString(), QString("weak-pin"));
        const Said made =
            call({"--json", "--pin-stdin", "yard", "create", m_place.yard(), "--owner", "Ada", "--name", "Test yard"}, pins({"Ada"}));
        QVERIFY2(made.code == kYes, told(made));
        const QString sheet = made.json().value("recovery_sheet").toString();
        QVERIFY(sheet.size() >= 52); // 256 bits in base 32
        QCOMPARE(call({"--json", "--pin-stdin", "yard", "create", m_place.yard(), "--owner", "Tam"}, pins({"Tam"})).code, kInput);
        // The sheet is kept nowhere else, nor is a PIN.
        QDirIterator files(m_place.yard(), QDir::Files, QDirIterator::Subdirectories);
        while (files.hasNext()) {
            QFile file(files.next());
            QVERIFY(file.open(QIODevice::ReadOnly));
            const QByteArray bytes = file.readAll();
            QVERIFY2(!bytes.contains(sheet.toLatin1()) && !bytes.contains("480263"), qPrintable(file.fileName()));
        }

        const Said tam = m_place.act({"person", "add", "Tam", "--role", "hand", "--by", "Ada"}, {"Ada", "Tam"});
        QVERIFY2(tam.code == kYes, told(tam));
        const Said grant = m_place.act({"person", "grant", "Tam", "--role", "supervisor", "--role", "operator", "--by", "Ada"}, {"Ada"});
        QVERIFY2(grant.code == kYes, told(grant));
        QCOMPARE(m_place.act({"person", "add", "Tam", "--role", "hand", "--by", "Ada"}, {"Ada", "Tam"}).code, kInput);
        QCOMPARE(m_place.act({"person", "add", "Odd", "--role", "wizard", "--by", "Ada"}, {"Ada", "Odd"}).code, kInput);
        const QJsonArray people = m_place.ask({"person", "list"}).json().value("people").toArray();
        QCOMPARE(people.size(), 2);
        for (const QJsonValue& one : people) {
            if (one.toObject().value("name").toString() == "Tam") {
                QCOMPARE(one.toObject().value("roles").toArray(), (QJsonArray{"hand", "supervisor", "operator"}));
            }
        }
        // A hand cannot enrol people; without a PIN nobody can; a wrong one is counted.
        const Said not_his = m_place.act({"person", "add", "Odd", "--role", "hand", "--by", "Tam"}, {"Tam", "Odd"});
        QVERIFY2(not_his.code == kNo, told(not_his));
        const Said no_pin = m_place.act({"person", "add", "Odd", "--role", "hand", "--by", "Ada"}, {});
        QVERIFY2(no_pin.code == kInput, told(no_pin));
        const Said wrong = m_place.act({"person", "retire", "Tam", "--by", "Ada"}, {"Rosa"}); // Rosa's PIN in Ada's name
        QVERIFY2(wrong.code == kNo, told(wrong));
        QCOMPARE(wrong.error().value("code").toString(), QString("wrong-pin"));
    }

    void b_admitted()
    {
        const QString file = m_place.write("vessel.json",
            R"({"number": "A-1", "note": "from the quay", "vessel": {"outside_diameter": "30 in", "wall": "1/4 in",
                "overall_length": "92 in", "heads": "hemispherical", "stamped_capacity": "250 galUS"}})");
        const Said added = m_place.act({"vessel", "add", "--in", file, "--by", "Tam"}, {"Tam"});
        QVERIFY2(added.code == kYes, told(added));
        const Said twice = m_place.act({"vessel", "add", "--in", file, "--by", "Tam"}, {"Tam"});
        QVERIFY2(twice.code == kInput, told(twice));
        QCOMPARE(standing(), QString("held"));
        QCOMPARE(m_place.ask({"audit", "A-1", "--before", "accept"}).code, kNo);
    }

    void c_recordedByTwo()
    {
        QCOMPARE(record("ownership", R"({"owner": "bill-of-sale", "paper-names": "serial", "other-marks": "none"})", {"Ada"},
                     {"--photo", "paper=" + m_place.write("bill.pdf", kPage)})
                     .code,
            kYes);
        // A page where a photo belongs: refused, nothing written, nothing kept.
        const QByteArray facts = R"({"plate": "readable", "serial": "PX-4471", "serial-again": "4471", "number": "painted"})";
        const QString before = rows();
        const Said page = record("identity", facts, {"Tam"}, {"--photo", "plate-photo=" + m_place.write("plate.jpg", kPage)});
        QVERIFY2(page.code == kInput, told(page));
        QCOMPARE(page.error().value("code").toString(), QString("not-a-picture"));
        QVERIFY(page.error().value("path").toString().contains("plate-photo"));
        const Said none = record("identity", facts, {"Tam"}, {"--photo", "plate-photo=" + m_place.path("nothing.jpg")});
        QCOMPARE(none.code, kInput);
        QCOMPARE(none.error().value("code").toString(), QString("no-such-file"));
        const Said shapeless = record("identity", facts, {"Tam"}, {"--photo", m_place.path("bill.pdf")});
        QVERIFY2(shapeless.code == kInput, told(shapeless));
        QCOMPARE(shapeless.error().value("path").toString(), QString("--photo"));
        QCOMPARE(rows(), before);

        const Said identity = record("identity", facts, {"Tam"}, {"--photo", "plate-photo=" + m_place.write("plate.png", kPicture)});
        QVERIFY2(identity.code == kYes, told(identity));
        // The photo is kept, made bare, under the hash of its bytes, and the entry names it.
        const QString hash = m_place.sql(
            "SELECT json_extract(body, '$.attachments[0]') FROM entry WHERE hash = x'" + identity.json().value("entry").toString() + "'");
        QFile kept(m_place.yard() + "/evidence/" + hash.left(2) + "/" + hash + ".jpg");
        QVERIFY(kept.open(QIODevice::ReadOnly));
        const QByteArray bytes = kept.readAll();
        QCOMPARE(QCryptographicHash::hash(bytes, QCryptographicHash::Sha256).toHex(), hash.toLatin1());
        QVERIFY(bytes.startsWith("\xff\xd8\xff")); // JPEG, whatever was given
        // How it came is signed with it, and told.
        QCOMPARE(m_place.sql("SELECT json_extract(body, '$.payload.photos.\"" + hash + "\".how') FROM entry WHERE hash = x'"
                     + identity.json().value("entry").toString() + "'"),
            QString("file"));
        const QString shown = QString::fromUtf8(call({"--yard", m_place.yard(), "ledger", "show", "A-1"}).out);
        QVERIFY2(shown.contains("photograph: from a file, ") && shown.contains("no tag in the picture"), qPrintable(shown));

        const QByteArray was = R"({"kind": "stationary-lpg", "substance": "propane", "proof-one": "supplier-record",
                                   "proof-two": "plate-and-fittings", "against": "nothing", "arrived": "closed"})";
        const Said same = m_place.act(
            {"record", "A-1", "what-it-was", "--in", m_place.write("facts.json", was), "--by", "Ada", "--with", "Ada"}, {"Ada", "Ada"});
        QVERIFY2(same.code == kNo, told(same));
        QCOMPARE(same.error().value("code").toString(), QString("same-person"));
        // First one, then the other confirms.
        const Said first = record("what-it-was", was, {"Ada"});
        QVERIFY2(first.code == kYes, told(first));
        QCOMPARE(first.json().value("counts").toBool(true), false);
        QVERIFY(next().contains("what-it-was"));
        // He gives a value himself; without it, or with another, nothing is written, and what the first one gave is not told.
        const QStringList confirm{"confirm", first.json().value("entry").toString(), "--by", "Tam"};
        const QString waiting = rows();
        const Said unasked = m_place.act(confirm, {"Tam"});
        QVERIFY2(unasked.code == kInput, told(unasked));
        QCOMPARE(unasked.error().value("code").toString(), QString("needs-answer"));
        QCOMPARE(unasked.error().value("path").toString(), QString("what-it-was.substance"));
        QVERIFY2(unasked.error().value("expected").toString().startsWith("propane, n-butane, "), told(unasked)); // all the choices
        const Said in_words = call(QStringList{"--yard", m_place.yard(), "--pin-stdin"} + confirm, pins({"Tam"}));
        QVERIFY2(in_words.code == kInput && in_words.err.contains("What did it hold?"), told(in_words));
        const Said differs = m_place.act(confirm + QStringList{"--answer", "n-butane"}, {"Tam"});
        QVERIFY2(differs.code == kNo, told(differs));
        QCOMPARE(differs.error().value("code").toString(), QString("answer-differs"));
        QVERIFY2(!differs.err.contains("propane"), told(differs));
        const Said no_word = m_place.act(confirm + QStringList{"--answer", "petrol"}, {"Tam"});
        QVERIFY2(no_word.code == kInput, told(no_word));
        QCOMPARE(no_word.error().value("code").toString(), QString("unknown-choice"));
        QCOMPARE(rows(), waiting);
        const Said confirmed = m_place.act(confirm + QStringList{"--answer", "propane"}, {"Tam"});
        QVERIFY2(confirmed.code == kYes, told(confirmed));
        QCOMPARE(m_place.sql("SELECT json_extract(body, '$.payload.answer') FROM entry ORDER BY row DESC LIMIT 1"),
            QString(R"({"fact":"substance","value":"propane"})"));
        QVERIFY(!next().contains("what-it-was"));

        QCOMPARE(record("signs", R"({"brass": "plain", "smell": "nothing", "marks": "none"})", {"Tam"}).code, kYes);
        QCOMPARE(
            record("hollow-places",
                R"({"openings-count": 4, "count": 0, "hollows": [], "can-be-holed": "none-there", "outside": "bare-or-paint"})", {"Tam"})
                .code,
            kYes);
    }

    void d_badFactsAreRefused_data()
    {
        QTest::addColumn<QByteArray>("facts");
        QTest::addColumn<QString>("code");
        QTest::addColumn<QString>("path");
        const QByteArray rest = R"("wall": "1/4 in", "overall-length": "92 in", "heads": "hemispherical", "taken": "once"})";
        QTest::newRow("no unit") << QByteArray(R"({"outside-diameter": "30", )" + rest) << "bad-quantity"
                                 << "facts.outside-diameter";
        QTest::newRow("unknown unit") << QByteArray(R"({"outside-diameter": "30 cubits", )" + rest) << "bad-quantity"
                                      << "facts.outside-diameter";
        QTest::newRow("a mass for a length") << QByteArray(R"({"outside-diameter": "30 kg", )" + rest) << "bad-quantity"
                                             << "facts.outside-diameter";
        QTest::newRow("left out") << QByteArray("{" + rest) << "missing-fact"
                                  << "facts.outside-diameter";
        QTest::newRow("one too many") << QByteArray(R"({"outside-diameter": "30 in", "colour": "red", )" + rest) << "unknown-fact"
                                      << "facts.colour";
        QTest::newRow("no such head") << QByteArray(R"({"outside-diameter": "30 in", "wall": "1/4 in", "overall-length": "92 in",
                                                        "heads": "pointed", "taken": "once"})")
                                      << "unknown-choice"
                                      << "facts.heads";
        QTest::newRow("not JSON") << QByteArray("{outside: 30}") << "bad-json"
                                  << "";
    }
    void d_badFactsAreRefused()
    {
        QFETCH(const QByteArray, facts);
        QFETCH(const QString, code);
        QFETCH(const QString, path);
        const QString before = rows();
        const Said said = record("measure", facts, {"Tam"});
        QVERIFY2(said.code == kInput, told(said));
        QCOMPARE(said.error().value("code").toString(), code);
        if (!path.isEmpty()) {
            QCOMPARE(said.error().value("path").toString(), path);
        }
        QCOMPARE(rows(), before);
    }

    void e_released()
    {
        // Held, and says why, until the last step is there.
        const QByteArray answers = R"({"serial": "4471", "owner": "bill-of-sale", "substance": "propane", "arrived": "closed",
                                       "openings": 4, "hollows": 0, "unhappy": "nobody"})";
        const QString before = rows();
        const Said held = m_place.act(accept(answers), {"Ada", "Tam"});
        QVERIFY2(held.code == kNo, told(held));
        QCOMPARE(held.error().value("code").toString(), QString("held"));
        const QJsonArray why = held.error().value("blockers").toArray();
        QVERIFY2(!why.isEmpty(), told(held));
        QStringList rules;
        for (const QJsonValue& one : why) {
            rules.push_back(one.toObject().value("rule").toString());
        }
        QVERIFY(rules.contains("measured"));
        QCOMPARE(rows(), before);

        const Said measured = record("measure",
            R"({"outside-diameter": "30 in", "wall": "1/4 in", "overall-length": "92 in", "heads": "hemispherical",
                "stamped": "250 galUS", "taken": "once"})",
            {"Tam"});
        QVERIFY2(measured.code == kYes, told(measured));

        // Five openings said, four counted: the talk found a difference.
        QByteArray wrong = answers;
        wrong.replace("\"openings\": 4", "\"openings\": 5");
        const Said differs = m_place.act(accept(wrong), {"Ada", "Tam"});
        QVERIFY2(differs.code == kNo, told(differs));
        const Said alone =
            m_place.act({"release", "A-1", "accept", "--by", "Ada", "--with", "Ada", "--answers", m_place.write("answers.json", answers)},
                {"Ada", "Ada"});
        QCOMPARE(alone.code, kNo);
        QCOMPARE(alone.error().value("code").toString(), QString("same-person"));

        // Tam says one hollow place where Ada said none; then nothing at all.
        QStringList other = accept(answers);
        other[other.indexOf("--answer") + 1] = "1";
        const Said tam_differs = m_place.act(other, {"Ada", "Tam"});
        QVERIFY2(tam_differs.code == kNo, told(tam_differs));
        QCOMPARE(tam_differs.error().value("code").toString(), QString("answer-differs"));
        other.removeAt(other.indexOf("--answer") + 1);
        other.removeAt(other.indexOf("--answer"));
        const Said silent = m_place.act(other, {"Ada", "Tam"});
        QVERIFY2(silent.code == kInput, told(silent));
        QCOMPARE(silent.error().value("code").toString(), QString("needs-answer"));

        const Said given = m_place.act(accept(answers), {"Ada", "Tam"});
        QVERIFY2(given.code == kYes, told(given));
        const Said audit = m_place.ask({"audit", "A-1", "--before", "accept"});
        QVERIFY2(audit.code == kYes, told(audit));
        QCOMPARE(audit.json().value("given_by").toString(), QString("Ada"));
        QCOMPARE(audit.json().value("given_with").toString(), QString("Tam"));
        QCOMPARE(m_place.ask({"audit", "A-1", "--before", "open-fittings"}).code, kNo);
    }

    void f_pagesAndTrail()
    {
        const Said pdf = m_place.ask({"audit", "A-1", "--before", "accept", "--pdf", m_place.path("audit.pdf")});
        QCOMPARE(pdf.code, kYes);
        const Said text = run("pdftotext", {"-layout", m_place.path("audit.pdf"), "-"});
        QCOMPARE(text.code, 0);
        QVERIFY(text.out.contains("A-1") && text.out.contains("RELEASED") && text.out.contains("Tam"));
        QVERIFY(!text.out.contains("DEMO"));
        const QJsonArray trail = m_place.ask({"ledger", "show", "A-1"}).json().value("entries").toArray();
        QCOMPARE(trail.first().toObject().value("kind").toString(), QString("vessel-admitted"));
        QCOMPARE(trail.last().toObject().value("kind").toString(), QString("confirmed"));
        const QJsonObject own = trail.last().toObject().value("own_answer").toObject();
        QCOMPARE(own.value("fact").toString(), QString("talk-accept.hollows"));
        QCOMPARE(own.value("value").toInt(-1), 0);
        const Said audit = call({"--yard", m_place.yard(), "audit", "A-1", "--before", "accept"});
        QVERIFY2(audit.out.contains("Own answer: ") && text.out.simplified().contains("Own answer: "), told(audit));
        const Said verify = m_place.ask({"ledger", "verify"});
        QVERIFY2(verify.code == kYes, told(verify));
    }

    // What takes away needs nobody's PIN.
    void g_takenBack()
    {
        const Said concern = m_place.ask({"event", "A-1", "concern", "--note", "smells odd"});
        QVERIFY2(concern.code == kYes, told(concern));
        QCOMPARE(m_place.ask({"audit", "A-1", "--before", "accept"}).code, kNo);
        QVERIFY(standing() != "released");
        const Said unknown = m_place.ask({"event", "A-1", "eaten"});
        QCOMPARE(unknown.code, kInput);
        QCOMPARE(unknown.error().value("code").toString(), QString("unknown-event"));
        QCOMPARE(m_place.ask({"withdraw", "A-1", "hot-work"}).code, kInput);
        QCOMPARE(m_place.ask({"ledger", "verify"}).code, kYes);
    }
};

BRIMFUL_SUITE(FreshYardTest);
#include "fresh_yard_test.moc"
