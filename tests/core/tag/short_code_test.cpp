// The code on a hand-written card: what a hand gets wrong is noticed, what it writes differently is not held against it.
#include "core/tag/tag.h"
#include "tests/support/suite.h"

#include <QTest>

using namespace brimful;

namespace {

constexpr std::string_view kSymbols = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";

Hash hashOf(std::uint64_t first_five)
{
    Hash hash = canon::sha256("a tag that was printed");
    for (std::size_t i = 0; i < 5; ++i) {
        hash.value[i] = static_cast<std::uint8_t>(first_five >> (8 * (4 - i)));
    }
    return hash;
}

} // namespace

class ShortCodeTest : public QObject {
    Q_OBJECT
private slots:
    // Computed by hand from the rules of the Crockford page: the first 40 bits, five at a time, and their number modulo 37.
    void saysFortyBits_data()
    {
        QTest::addColumn<quint64>("bits");
        QTest::addColumn<QString>("code");
        QTest::newRow("nothing") << quint64(0) << "0000-0000-0"; // 0 mod 37 = 0
        QTest::newRow("one") << quint64(1) << "0000-0001-1";
        QTest::newRow("1234 is 16J, check D") << quint64(1234) << "0000-016J-D"; // 1234 mod 37 = 13
        QTest::newRow("thirty-six checks U") << quint64(36) << "0000-0014-U";
        QTest::newRow("thirty-seven checks 0") << quint64(37) << "0000-0015-0";
        QTest::newRow("all ones") << quint64(0xffffffffffULL) << "ZZZZ-ZZZZ-F"; // 2^36 = 1 mod 37 (Fermat), so 2^40 - 1 = 16 - 1
    }
    void saysFortyBits()
    {
        QFETCH(quint64, bits);
        QFETCH(QString, code);
        QCOMPARE(QString::fromStdString(tag::shortCode(hashOf(bits))), code);
    }

    void readsWhatItWrote()
    {
        for (std::uint64_t i = 0; i < 2000; ++i) {
            const Hash head = canon::sha256(std::to_string(i));
            const auto symbols = tag::readShortCode(tag::shortCode(head));
            QVERIFY(symbols.has_value());
            QVERIFY(tag::matches(*symbols, head));
            QVERIFY(!tag::matches(*symbols, canon::sha256(std::to_string(i + 1))));
        }
    }

    void takesHandwriting_data()
    {
        QTest::addColumn<QString>("typed");
        QTest::newRow("as printed") << "0000-016J-D";
        QTest::newRow("lower case") << "0000-016j-d";
        QTest::newRow("no hyphens") << "0000016JD";
        QTest::newRow("spaces") << " 0000 016J D ";
        QTest::newRow("letters for digits") << "OOoO-oi6J-D";
        QTest::newRow("ell for one") << "0000-0l6J-D";
        QTest::newRow("closing key") << "0000-016J-D\r\n";
    }
    void takesHandwriting()
    {
        QFETCH(QString, typed);
        const auto symbols = tag::readShortCode(typed.toStdString());
        QVERIFY(symbols.has_value());
        QCOMPARE(QString::fromStdString(*symbols), "0000016J");
    }

    void refusesAWrongForm_data()
    {
        QTest::addColumn<QString>("typed");
        QTest::newRow("nothing") << "";
        QTest::newRow("too short") << "0000-016J";
        QTest::newRow("too long") << "0000-016J-DD";
        QTest::newRow("no such symbol") << "0000-01UJ-D";
        QTest::newRow("punctuation") << "0000-01.J-D";
    }
    void refusesAWrongForm()
    {
        QFETCH(QString, typed);
        const auto symbols = tag::readShortCode(typed.toStdString());
        QVERIFY(!symbols.has_value());
        QCOMPARE(symbols.error(), tag::CodeFault::Form);
    }

    void noticesEveryWrongSymbol()
    {
        const std::string good = "7K4P9QXR";
        const char check = canon::base32Check(good);
        for (std::size_t place = 0; place < good.size(); ++place) {
            for (const char other : kSymbols) {
                std::string bad = good;
                bad[place] = other;
                const auto read = tag::readShortCode(bad + check);
                QCOMPARE(read.has_value(), other == good[place]);
            }
        }
    }

    void noticesEverySwapOfNeighbours()
    {
        const std::string good = "7K4P9QXR";
        const char check = canon::base32Check(good);
        for (std::size_t place = 0; place + 1 < good.size(); ++place) {
            std::string bad = good;
            std::swap(bad[place], bad[place + 1]);
            const auto read = tag::readShortCode(bad + check);
            QVERIFY(!read.has_value());
            QCOMPARE(read.error(), tag::CodeFault::Check);
        }
    }
};
BRIMFUL_SUITE(ShortCodeTest);
#include "short_code_test.moc"
