// Hashes, hex and Base32 against published vectors.
#include "core/canon/hash.h"
#include "tests/support/suite.h"

#include <QTest>

using namespace brimful;

namespace {

std::span<const std::uint8_t> bytesOf(std::string_view text)
{
    return {reinterpret_cast<const std::uint8_t*>(text.data()), text.size()}; // NOLINT(*-reinterpret-cast)
}

// A symbol of RFC 4648's base32hex as the symbol of the same value in Crockford's alphabet.
std::string crockfordOf(std::string_view base32hex)
{
    constexpr std::string_view kHexAlphabet = "0123456789ABCDEFGHIJKLMNOPQRSTUV"; // RFC 4648, table 4
    constexpr std::string_view kCrockford = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"; // Crockford, "Base 32"
    std::string out;
    for (const char c : base32hex) {
        out += kCrockford[kHexAlphabet.find(c)];
    }
    return out;
}

} // namespace

class HashTest : public QObject {
    Q_OBJECT

private slots:
    void sha256AsPublished_data()
    {
        QTest::addColumn<QByteArray>("bytes");
        QTest::addColumn<QByteArray>("hash");
        // FIPS 180-2, B.1 and B.2; the empty message from the NIST example values.
        QTest::newRow("abc") << QByteArray("abc") << QByteArray("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
        QTest::newRow("two blocks") << QByteArray("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq")
                                    << QByteArray("248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
        QTest::newRow("empty") << QByteArray() << QByteArray("e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
    }
    void sha256AsPublished()
    {
        QFETCH(QByteArray, bytes);
        QFETCH(QByteArray, hash);
        QCOMPARE(canon::toHex(canon::sha256(bytes.toStdString())), hash.toStdString());
    }

    void leavesAsInCertificateTransparency_data()
    {
        QTest::addColumn<QByteArray>("body");
        QTest::addColumn<QByteArray>("hash");
        // RFC 6962, 2.1 with the test vectors of the certificate-transparency log: SHA-256 of one zero byte and the leaf.
        QTest::newRow("empty leaf") << QByteArray() << QByteArray("6e340b9cffb37a989ca544e6bb780a2c78901d3fb33738768511a30617afa01d");
        QTest::newRow("L123456") << QByteArray("L123456") << QByteArray("395aa064aa4c29f7010acfe3f25db9485bbd4b91897b6ad7ad547639252b4d56");
    }
    void leavesAsInCertificateTransparency()
    {
        QFETCH(QByteArray, body);
        QFETCH(QByteArray, hash);
        QCOMPARE(canon::toHex(canon::leafHash(body.toStdString())), hash.toStdString());
    }

    void hexIsLowerCaseAndExact_data()
    {
        QTest::addColumn<QString>("text");
        QTest::addColumn<bool>("read");
        const QString good(32, u'a');
        QTest::newRow("right") << good << true;
        QTest::newRow("upper case") << good.toUpper() << false;
        QTest::newRow("short") << good.left(31) << false;
        QTest::newRow("odd and long") << good + "a" << false;
        QTest::newRow("long") << good + "aa" << false;
        QTest::newRow("empty") << QString() << false;
        QTest::newRow("a space") << QString(" " + good.left(31)) << false;
        QTest::newRow("a letter beyond f") << QString("g" + good.left(31)) << false;
        QTest::newRow("two byte letter") << QString(QStringLiteral("é") + good.left(30)) << false;
    }
    void hexIsLowerCaseAndExact()
    {
        QFETCH(QString, text);
        QFETCH(bool, read);
        using Id = canon::Bytes<16, struct AnyTag>;
        const auto id = canon::fromHex<Id>(text.toStdString());
        QCOMPARE(id.has_value(), read);
        if (id) {
            QCOMPARE(canon::toHex(*id), text.toStdString());
        }
    }

    // RFC 4648, section 10: BASE32-HEX test vectors without padding, each symbol taken by its value.
    void base32AsPublished_data()
    {
        QTest::addColumn<QByteArray>("bytes");
        QTest::addColumn<QByteArray>("symbols");
        QTest::newRow("none") << QByteArray() << QByteArray();
        QTest::newRow("f") << QByteArray("f") << QByteArray("CO");
        QTest::newRow("fo") << QByteArray("fo") << QByteArray("CPNG");
        QTest::newRow("foo") << QByteArray("foo") << QByteArray("CPNMU");
        QTest::newRow("foob") << QByteArray("foob") << QByteArray("CPNMUOG");
        QTest::newRow("fooba") << QByteArray("fooba") << QByteArray("CPNMUOJ1");
        QTest::newRow("foobar") << QByteArray("foobar") << QByteArray("CPNMUOJ1E8");
    }
    void base32AsPublished()
    {
        QFETCH(QByteArray, bytes);
        QFETCH(QByteArray, symbols);
        const std::string wanted = crockfordOf(symbols.toStdString());
        QCOMPARE(canon::toBase32(bytesOf(bytes.toStdString())), wanted);
        QCOMPARE(canon::fromBase32(wanted), std::optional(bytes.toStdString()));
    }

    void base32TakesWhatPeopleType()
    {
        // Crockford: "when decoding, upper and lower case letters are accepted, and i and l will be treated as 1 and o as 0".
        const auto typed = canon::fromBase32("loILi0zz");
        QVERIFY(typed.has_value());
        QCOMPARE(typed, canon::fromBase32("101110ZZ"));
        QVERIFY(!canon::fromBase32("U0").has_value()); // U stands for nothing but a check character
        QVERIFY(!canon::fromBase32("A-B0").has_value());
        QVERIFY(!canon::fromBase32("C").has_value()); // one symbol is less than a byte
        QVERIFY(!canon::fromBase32("CS").has_value()); // "CR" is 'f'; the bits left over must be zero
    }

    void checkCharactersAsPublished_data()
    {
        QTest::addColumn<QString>("symbols");
        QTest::addColumn<QString>("check");
        // Crockford: number modulo 37, "*~$=U" for 32 to 36. 1234 = 33 * 37 + 13.
        QTest::newRow("1234") << "16J"
                              << "D";
        QTest::newRow("0") << "0"
                           << "0";
        QTest::newRow("31") << "Z"
                            << "Z";
        QTest::newRow("32") << "10"
                            << "*";
        QTest::newRow("33") << "11"
                            << "~";
        QTest::newRow("34") << "12"
                            << "$";
        QTest::newRow("35") << "13"
                            << "=";
        QTest::newRow("36") << "14"
                            << "U";
        QTest::newRow("37") << "15"
                            << "0";
    }
    void checkCharactersAsPublished()
    {
        QFETCH(QString, symbols);
        QFETCH(QString, check);
        QCOMPARE(QString(QChar(canon::base32Check(symbols.toStdString()))), check);
    }

    void oneWrongSymbolOrTwoSwappedShow()
    {
        const std::string code = "3ZK7M0QD";
        const char check = canon::base32Check(code);
        for (std::size_t i = 0; i < code.size(); ++i) {
            for (const char other : std::string_view("0123456789ABCDEFGHJKMNPQRSTVWXYZ")) {
                std::string wrong = code;
                wrong[i] = other;
                QCOMPARE(canon::base32Check(wrong) == check, other == code[i]);
            }
            if (i > 0) {
                std::string swapped = code;
                std::swap(swapped[i], swapped[i - 1]);
                QVERIFY(canon::base32Check(swapped) != check);
            }
        }
    }
};
BRIMFUL_SUITE(HashTest);

#include "hash_test.moc"
