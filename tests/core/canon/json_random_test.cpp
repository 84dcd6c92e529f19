// Random values and damaged texts: reading never fails in any other way than by saying so, writing what was read gives
// what is read again, and a reader of other authors (Qt's) agrees.
#include "core/canon/json.h"
#include "tests/support/suite.h"

#include <QJsonArray>
#include <QJsonDocument>
#include <QTest>

#include <cmath>
#include <random>
#include <rapidcheck.h>

using namespace brimful::canon;

namespace {

using Random = std::mt19937_64;

std::size_t below(Random& random, std::size_t limit) { return std::uniform_int_distribution<std::size_t>(0, limit - 1)(random); }

std::string randomText(Random& random, bool any)
{
    static const std::vector<std::string> kPieces{"a", "Z", "0", " ", "\"", "\\", "/", "é", "€", "😀", "ß", "\u2028", "'", "{", "\u00a0"};
    std::string out;
    for (std::size_t i = below(random, 9); i > 0; --i) {
        out += any && below(random, 8) == 0 ? std::string(1, static_cast<char>(below(random, 32))) : kPieces[below(random, kPieces.size())];
    }
    return out;
}

Json randomValue(Random& random, int depth, bool any)
{
    constexpr std::int64_t kLargest = 9'007'199'254'740'991;
    switch (below(random, depth > 0 ? (any ? 7 : 4) : 2)) {
    case 0:
        return Json(std::uniform_int_distribution<std::int64_t>(-kLargest, kLargest)(random) >> below(random, 53));
    case 1:
        return Json(randomText(random, any));
    case 2: {
        Json out = Json::array();
        for (std::size_t i = below(random, 5); i > 0; --i) {
            out.items.push_back(randomValue(random, depth - 1, any));
        }
        return out;
    }
    case 3: {
        constexpr std::string_view kLetters = "abz019_.-";
        Json out = Json::object();
        for (std::size_t i = below(random, 6); i > 0; --i) {
            std::string key;
            for (std::size_t letters = 1 + below(random, 4); letters > 0; --letters) {
                key += kLetters[below(random, kLetters.size())];
            }
            out.set(key, randomValue(random, depth - 1, any));
        }
        return out;
    }
    case 4:
        return Json::boolean(below(random, 2) == 1);
    case 5:
        return Json();
    default:
        return Json::real(std::ldexp(static_cast<double>(random() >> 11U | 1U), -60 - static_cast<int>(below(random, 200))));
    }
}

std::string damaged(Random& random, std::string text)
{
    static const std::vector<std::string> kStrange{"\"", "\\", "\\u", "\\ud800", "\\udc00", "{", "}", "[", "]", ",", ":", "-", "0", "1e5",
        "1e400", "null", std::string(1, '\0'), "\xff", "\xed\xa0\x80", "\x7f", "\n", "//", "99999999999999999999", "\"a\":1,"};
    for (std::size_t i = 1 + below(random, 3); i > 0; --i) {
        const std::size_t at = below(random, text.size() + 1);
        switch (below(random, 4)) {
        case 0:
            text.insert(at, kStrange[below(random, kStrange.size())]);
            break;
        case 1:
            text.erase(at, 1 + below(random, 4));
            break;
        case 2:
            if (at < text.size()) {
                text[at] = static_cast<char>(random());
            }
            break;
        default:
            text.resize(at);
            break;
        }
    }
    return text;
}

bool qtReads(const std::string& text)
{
    QJsonParseError error;
    QJsonDocument::fromJson(QByteArray::fromStdString(text), &error);
    return error.error == QJsonParseError::NoError;
}

} // namespace

class JsonRandomTest : public QObject {
    Q_OBJECT

private slots:
    void canonicalFormReadsBackAndQtWritesTheSame()
    {
        QVERIFY(rc::check("what is written is read as it was", [](std::uint64_t seed) {
            Random random(seed);
            const Json value = Json::array({randomValue(random, 5, false)});
            const std::string bytes = canonical(value);
            const auto again = readCanonical(bytes);
            RC_ASSERT(again.has_value());
            RC_ASSERT(isCanonical(bytes));
            RC_ASSERT(*again == value);
            RC_ASSERT(canonical(*again) == bytes);
            // Qt's compact form sorts keys and escapes the least, so within the subset it is the canonical form.
            const QJsonDocument others = QJsonDocument::fromJson(QByteArray::fromStdString(bytes));
            RC_ASSERT(others.toJson(QJsonDocument::Compact).toStdString() == bytes);
        }));
    }

    void anyJsonReadsBack()
    {
        QVERIFY(rc::check("all of JSON, plain and indented", [](std::uint64_t seed) {
            Random random(seed);
            const Json value = randomValue(random, 5, true);
            for (const bool indented : {false, true}) {
                const auto again = read(write(value, indented), Dialect::Any);
                RC_ASSERT(again.has_value());
                RC_ASSERT(*again == value);
            }
        }));
    }

    // 20,000 damaged texts; those that are still read must be read by Qt too and must survive writing.
    void damagedTexts()
    {
        Random random(20'260'614);
        int taken = 0;
        int refused = 0;
        for (int i = 0; i < 20'000; ++i) {
            const std::string text = damaged(random, write(Json::array({randomValue(random, 4, i % 2 == 0)}), i % 3 == 0));
            const auto any = read(text, Dialect::Any);
            QVERIFY2(isCanonical(text) == readCanonical(text).has_value(), text.c_str());
            if (!any) {
                QVERIFY(any.error().line >= 1 && any.error().column >= 1);
                QVERIFY(!readCanonical(text).has_value());
                ++refused;
                continue;
            }
            ++taken;
            const bool tiny = text.find("e-") != std::string::npos; // Qt refuses what is too small for a double; here it is nought
            const bool container = any->is(Type::Array) || any->is(Type::Object); // Qt reads no others
            QVERIFY2(!container || tiny || qtReads(text), text.c_str());
            const auto written = read(write(*any, false), Dialect::Any);
            // 1.0 is written as 1: the same text again, no longer the same type.
            QVERIFY2(written.has_value() && write(*written, false) == write(*any, false), text.c_str());
            if (const auto subset = read(text, Dialect::Subset)) {
                const auto again = readCanonical(canonical(*subset));
                QVERIFY2(again.has_value() && *again == *subset, text.c_str());
            }
        }
        QVERIFY2(taken > 500 && refused > 5'000, "the damage is all of one kind");
    }

    // The one-pass check and the reader know nothing of each other and must agree.
    void damagedCanonicalTexts()
    {
        Random random(77);
        int taken = 0;
        for (int i = 0; i < 40'000; ++i) {
            const std::string text = damaged(random, canonical(Json::array({randomValue(random, 4, false)})));
            const bool reader = readCanonical(text).has_value();
            QVERIFY2(isCanonical(text) == reader, text.c_str());
            taken += reader ? 1 : 0;
        }
        QVERIFY(taken > 500);
    }

    void noise()
    {
        Random random(1);
        for (int i = 0; i < 20'000; ++i) {
            std::string text(below(random, 60), '\0');
            for (char& c : text) {
                c = i % 2 == 0 ? static_cast<char>(random()) : "{}[]\",:\\u0d8-e1.\n "[below(random, 18)];
            }
            const auto value = read(text, Dialect::Subset);
            QVERIFY2(isCanonical(text) == readCanonical(text).has_value(), text.c_str());
            if (value) {
                QVERIFY2(readCanonical(canonical(*value)).has_value(), text.c_str());
            }
        }
    }
};
BRIMFUL_SUITE(JsonRandomTest);

#include "json_random_test.moc"
