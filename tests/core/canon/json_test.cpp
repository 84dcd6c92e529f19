// What the reader takes and refuses, where it points, and the one form that the writer gives.
#include "core/canon/json.h"
#include "tests/support/suite.h"

#include <QElapsedTimer>
#include <QTest>

using namespace brimful::canon;

namespace {

const char* wordOf(JsonFault fault)
{
    switch (fault) {
    case JsonFault::Syntax:
        return "syntax";
    case JsonFault::DuplicateKey:
        return "duplicate key";
    case JsonFault::NotUtf8:
        return "not utf-8";
    case JsonFault::TooDeep:
        return "too deep";
    case JsonFault::TooLarge:
        return "too large";
    case JsonFault::NotSubset:
        return "not in the subset";
    case JsonFault::IntegerRange:
        return "integer range";
    case JsonFault::KeyForm:
        return "key form";
    case JsonFault::ControlCharacter:
        return "control character";
    case JsonFault::NotCanonical:
        return "not canonical";
    }
    return "";
}

// Single quotes stand for double ones, so that a table stays readable.
QByteArray quoted(QByteArray text) { return text.replace('\'', '"'); }

QByteArray nested(int depth) { return QByteArray(depth, '[') + QByteArray(depth, ']'); }

} // namespace

class JsonTest : public QObject {
    Q_OBJECT

private slots:
    void canonicalForm_data()
    {
        QTest::addColumn<QByteArray>("read_from");
        QTest::addColumn<QByteArray>("canonical_bytes");
        // RFC 8785, 3.2.1 to 3.2.3 within the subset: no white space, keys sorted, strings with the least escaping.
        QTest::newRow("sorted") << (quoted("{'b':1,'a':{'d':'x','c':[]}}")) << (quoted("{'a':{'c':[],'d':'x'},'b':1}"));
        QTest::newRow("white space") << QByteArray("{ \"a\" :\r\n[ 1 ,\t2 ] }") << (quoted("{'a':[1,2]}"));
        QTest::newRow("a prefix is first") << (quoted("{'10':2,'1':1,'111':3,'a':0}")) << (quoted("{'1':1,'10':2,'111':3,'a':0}"));
        QTest::newRow("punctuation by byte") << (quoted("{'a_b':4,'a.b':2,'a-b':1,'a0b':3,'ab':5}"))
                                             << (quoted("{'a-b':1,'a.b':2,'a0b':3,'a_b':4,'ab':5}"));
        QTest::newRow("escapes that are not needed")
            << (quoted("['\\u20ac','\\/','\\u0041','\\ud83d\\ude00']")) << QByteArray("[\"€\",\"/\",\"A\",\"😀\"]");
        QTest::newRow("escapes that are") << (quoted("['\\u0022','\\u005c']")) << (quoted("['\\'','\\\\']"));
        QTest::newRow("minus nought") << QByteArray("[-0]") << QByteArray("[0]");
        QTest::newRow("order of an array is kept") << (quoted("[3,'b',1,'a']")) << (quoted("[3,'b',1,'a']"));
        QTest::newRow("largest") << QByteArray("[9007199254740991,-9007199254740991]")
                                 << QByteArray("[9007199254740991,-9007199254740991]");
    }
    void canonicalForm()
    {
        QFETCH(QByteArray, read_from);
        QFETCH(QByteArray, canonical_bytes);
        const auto value = read(read_from.toStdString(), Dialect::Subset);
        QVERIFY(value.has_value());
        QCOMPARE(QByteArray::fromStdString(canonical(*value)), canonical_bytes);
        QVERIFY(readCanonical(canonical_bytes.toStdString()).has_value());
        QVERIFY(isCanonical(canonical_bytes.toStdString()));
        QCOMPARE(readCanonical(read_from.toStdString()).has_value(), read_from == canonical_bytes);
        QCOMPARE(isCanonical(read_from.toStdString()), read_from == canonical_bytes);
    }

    void stringsOfTheStandard()
    {
        // RFC 8785, 3.2.2: the member "string" of the sample, as parsed and as serialized.
        const Json value(std::string_view("€$\x0f\nA'B\"\\\\\"/"));
        QCOMPARE(canonical(value), std::string("\"€$\\u000f\\nA'B\\\"\\\\\\\\\\\"/\""));
        // RFC 8785, 3.2.2.2: short forms for \b \t \n \f \r, \u and lower-case hex for the rest below U+0020.
        QCOMPARE(
            QByteArray::fromStdString(canonical(Json(std::string_view("\b\t\n\f\r\x01\x1f")))), quoted("'\\b\\t\\n\\f\\r\\u0001\\u001f'"));
        QCOMPARE(QByteArray::fromStdString(canonical(Json(std::string_view("\0", 1)))), quoted("'\\u0000'"));
    }

    void refusals_data()
    {
        QTest::addColumn<QByteArray>("bytes");
        QTest::addColumn<bool>("subset");
        QTest::addColumn<QByteArray>("fault");
        QTest::addColumn<int>("line");
        QTest::addColumn<int>("column");
        const auto row = [](const char* name, QByteArray bytes, bool subset, const char* fault, int line, int column) {
            QTest::newRow(name) << std::move(bytes) << subset << QByteArray(fault) << line << column;
        };
        row("nothing", "", false, "syntax", 1, 1);
        row("cut off", "{\"a\":", false, "syntax", 1, 6);
        row("comma too many", "[1,\n 2,\n]", false, "syntax", 3, 1);
        row("two values", "{} {}", false, "syntax", 1, 4);
        row("bytes after a zero byte", QByteArray("{}\0{}", 5), false, "syntax", 1, 3);
        row("a zero byte inside", QByteArray("[1,\0002]", 6), false, "syntax", 1, 4);
        row("byte order mark", "\xEF\xBB\xBF{}", false, "syntax", 1, 1);
        row("comment", "{/*x*/}", false, "syntax", 1, 2);
        row("single quotes", "{'a':1}", false, "syntax", 1, 2);
        row("leading nought", "[01]", false, "syntax", 1, 3);
        row("plus", "[+1]", false, "syntax", 1, 2);
        row("not a number", "[NaN]", false, "syntax", 1, 2);
        row("number too large for a double", "[1e999]", false, "syntax", 1, 2);
        row("number too small for a double", "[1e-999]", false, "syntax", 1, 2);
        row("noughts without end, where none are taken", "[0." + QByteArray(500, '0') + "]", true, "not in the subset", 1, 2);
        row("sixty digits", "[" + QByteArray(60, '9') + "]", true, "integer range", 1, 2);
        row("duplicate", "{\n \"a\":1,\n  \"a\":2}", false, "duplicate key", 3, 3);
        row("duplicate by escape", quoted("{'a':1,'\\u0061':2}"), false, "duplicate key", 1, 8);
        row("stray continuation byte", "[\"\x80\"]", false, "not utf-8", 1, 3);
        row("overlong", "[\"\xC0\xAF\"]", false, "not utf-8", 1, 3);
        row("encoded surrogate", "[\"\xED\xA0\x80\"]", false, "not utf-8", 1, 3);
        row("beyond U+10FFFF", "[\"\xF4\x90\x80\x80\"]", false, "not utf-8", 1, 3);
        row("lone high surrogate", quoted("['\\ud83d']"), false, "syntax", 1, 3);
        row("lone low surrogate", quoted("['\\ude00']"), false, "not utf-8", 1, 2);
        row("raw line end in a string", "[\"a\nb\"]", false, "syntax", 1, 4);
        row("deep", nested(65), false, "too deep", 1, 65);
        row("null", "{\"a\":\n  null}", true, "not in the subset", 2, 3);
        row("true", "[true]", true, "not in the subset", 1, 2);
        row("fraction", "[1,\n2.5]", true, "not in the subset", 2, 1);
        row("exponent", "[1e3]", true, "not in the subset", 1, 2);
        row("fraction of nought", "[1.0]", true, "not in the subset", 1, 2);
        row("beyond 2^53 - 1", "[9007199254740992]", true, "integer range", 1, 2);
        row("below -(2^53 - 1)", "[-9007199254740992]", true, "integer range", 1, 2);
        row("beyond 64 bits", "[18446744073709551615]", true, "integer range", 1, 2);
        row("twenty digits and more", "[99999999999999999999999]", true, "integer range", 1, 2);
        row("negative twenty digits", "[-99999999999999999999999]", true, "integer range", 1, 2);
        row("capital in a key", "{\"a\":1,\n\"B\":2}", true, "key form", 2, 1);
        row("empty key", "{\"\":1}", true, "key form", 1, 2);
        row("accent in a key", "{\"é\":1}", true, "key form", 1, 2);
        row("column counts letters", "{\"a\":\"éé\",\"B\":2}", true, "key form", 1, 11);
        row("tab in a string", quoted("['a\\tb']"), true, "control character", 1, 2);
        row("delete character", "[\"\x7f\"]", true, "control character", 1, 2);
        row("zero character", quoted("['\\u0000']"), true, "control character", 1, 2);
        row("after a quote and a slash", quoted("{'a':'\\\\\\'','b':null}"), true, "not in the subset", 1, 17);
    }
    void refusals()
    {
        QFETCH(QByteArray, bytes);
        QFETCH(bool, subset);
        QFETCH(QByteArray, fault);
        QFETCH(int, line);
        QFETCH(int, column);
        const auto value = read(bytes.toStdString(), subset ? Dialect::Subset : Dialect::Any);
        QVERIFY2(!value.has_value(), "was read");
        QCOMPARE(QByteArray(wordOf(value.error().fault)), fault);
        QCOMPARE(int(value.error().line), line);
        QCOMPARE(int(value.error().column), column);
        QVERIFY(!read(bytes.toStdString(), Dialect::Subset).has_value());
        QVERIFY(!isCanonical(bytes.toStdString()));
    }

    void everyValueKnowsItsPlace()
    {
        const auto value =
            read("{\n  \"name\": \"K\\\"\\\\\",\n  \"list\": [1, -22,\n    {\"é\": 3.5}],\n\t\"t\" : true, \"n\":null}", Dialect::Any);
        QVERIFY(value.has_value());
        const auto at = [](const auto& place) { return QString("%1:%2").arg(place.line).arg(place.column); };
        QCOMPARE(at(*value), QString("1:1"));
        QCOMPARE(at(value->members[0]), QString("2:3"));
        QCOMPARE(at(value->members[0].value), QString("2:11"));
        QCOMPARE(at(value->members[1].value), QString("3:11"));
        QCOMPARE(at(value->members[1].value.items[0]), QString("3:12"));
        QCOMPARE(at(value->members[1].value.items[1]), QString("3:15"));
        QCOMPARE(at(value->members[1].value.items[2]), QString("4:5"));
        QCOMPARE(at(value->members[1].value.items[2].members[0]), QString("4:6"));
        QCOMPARE(at(value->members[1].value.items[2].members[0].value), QString("4:11"));
        QCOMPARE(at(value->members[2]), QString("5:2"));
        QCOMPARE(at(value->members[2].value), QString("5:8"));
        QCOMPARE(at(value->members[3].value), QString("5:18"));
        QCOMPARE(value->members[0].value.text, std::string("K\"\\"));
    }

    void depthOfSixtyFourIsRead() { QVERIFY(readCanonical(nested(64).toStdString()).has_value() && isCanonical(nested(64).toStdString())); }

    void tooLargeIsNotEvenRead()
    {
        const auto value = read(std::string(16 * 1024 * 1024 + 1, ' '), Dialect::Any);
        QVERIFY(!value.has_value());
        QCOMPARE(int(value.error().fault), int(JsonFault::TooLarge));
    }

    // A file made to be slow: as many keys as fit must not cost their square.
    void manyKeysStayCheap()
    {
        std::string text = "{";
        for (int i = 0; i < 200'000; ++i) {
            text += (i == 0 ? "\"k" : ",\"k") + std::to_string(i) + "\":0";
        }
        QElapsedTimer timer;
        timer.start();
        QVERIFY(read(text + "}", Dialect::Subset).has_value());
        const auto twice = read(text + ",\"k77\":1}", Dialect::Subset);
        QVERIFY(!twice.has_value());
        QCOMPARE(int(twice.error().fault), int(JsonFault::DuplicateKey));
        QVERIFY2(timer.elapsed() < 5'000 || !brimful::test::timed(), qPrintable(QString::number(timer.elapsed()) + " ms"));
    }

    void writingForPeople()
    {
        Json value = Json::object();
        value.set("z", Json::real(0.1)).set("a", Json::array({Json(1), Json::boolean(false), Json()})).set("e", Json::object());
        QCOMPARE(QByteArray::fromStdString(write(value, false)), quoted("{'z':0.1,'a':[1,false,null],'e':{}}"));
        QCOMPARE(write(value, true), std::string("{\n  \"z\": 0.1,\n  \"a\": [\n    1,\n    false,\n    null\n  ],\n  \"e\": {}\n}"));
        value.set("z", Json("again"));
        QCOMPARE(value.members.size(), std::size_t(3));
        QCOMPARE(value.textOf("z"), std::string_view("again"));
    }

    void equalityIsOfValues()
    {
        const auto one = read(quoted("{'a':1,'b':[1,2]}").toStdString(), Dialect::Any);
        const auto other = read("{\"b\": [1, 2],\n \"a\": 1}", Dialect::Any);
        QVERIFY(*one == *other);
        QVERIFY(!(*one == *read(quoted("{'a':1,'b':[2,1]}").toStdString(), Dialect::Any)));
        QVERIFY(!(*one == *read(quoted("{'a':1}").toStdString(), Dialect::Any)));
        QVERIFY(!(Json(1) == Json("1")));
    }
};
BRIMFUL_SUITE(JsonTest);

#include "json_test.moc"
