// Keys and signatures against RFC 8032 and against OpenSSL.
#include "core/people/keys.h"
#include "tests/support/suite.h"

#include <QTest>
#include <openssl/evp.h>

#include <set>

using namespace brimful;

namespace {

std::string bytesOfHex(const QByteArray& hex) { return QByteArray::fromHex(hex).toStdString(); }

const unsigned char* bytesOf(const std::string& text)
{
    return reinterpret_cast<const unsigned char*>(text.data()); // NOLINT(*-reinterpret-cast)
}

bool opensslVerifies(const PublicKey& key, const std::string& message, const Signature& signature)
{
    EVP_PKEY* pkey = EVP_PKEY_new_raw_public_key(EVP_PKEY_ED25519, nullptr, key.value.data(), key.value.size());
    EVP_MD_CTX* context = EVP_MD_CTX_new();
    const bool ok = EVP_DigestVerifyInit(context, nullptr, nullptr, nullptr, pkey) == 1
        && EVP_DigestVerify(context, signature.value.data(), signature.value.size(), bytesOf(message), message.size()) == 1;
    EVP_MD_CTX_free(context);
    EVP_PKEY_free(pkey);
    return ok;
}

} // namespace

class KeysTest : public QObject {
    Q_OBJECT

private slots:
    void publicKeysAsPublished_data()
    {
        QTest::addColumn<QByteArray>("seed");
        QTest::addColumn<QByteArray>("key");
        // RFC 8032, 7.1
        QTest::newRow("TEST 1") << QByteArray("9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60")
                                << QByteArray("d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a");
        QTest::newRow("TEST 2") << QByteArray("4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb")
                                << QByteArray("3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c");
        QTest::newRow("TEST 3") << QByteArray("c5aa8df43f9f837bedb7442f31dcb7b166d38535076f094b85ce3a2e0b4458f7")
                                << QByteArray("fc51cd8e6218a1a38da47ed00230f0580816ed13ba3303ac5deb911548908025");
        QTest::newRow("TEST SHA(abc)") << QByteArray("833fe62409237b9d62ec77587520911e9a759cec1d19755b7da901b96dca3d42")
                                       << QByteArray("ec172b93ad5e563bf4932c70e1245034c35467ef2efd4d64ebf819683467e2bf");
    }
    void publicKeysAsPublished()
    {
        QFETCH(QByteArray, seed);
        QFETCH(QByteArray, key);
        const auto signing = people::SigningKey::fromSeed(bytesOfHex(seed));
        QCOMPARE(QByteArray::fromStdString(canon::toHex(signing.publicKey())), key);
        QCOMPARE(std::string(signing.seed()), bytesOfHex(seed));
    }

    // RFC 8032, 7.1, TEST SHA(abc): its message has 64 bytes, so its first half can be the domain and its second the hash.
    void signatureAsPublished()
    {
        const std::string message = bytesOfHex("ddaf35a193617abacc417349ae20413112e6fa4e89a97ea20a9eeee64b55d39a"
                                               "2192992a274fc1a836ba3c23a3feebbd454d4423643ce80e2a9ac94fa54ca49f");
        Hash second;
        std::copy_n(bytesOf(message) + 32, 32, second.value.begin());
        const auto key = people::SigningKey::fromSeed(bytesOfHex("833fe62409237b9d62ec77587520911e9a759cec1d19755b7da901b96dca3d42"));
        const Signature signature = key.sign(message.substr(0, 32), second);
        QCOMPARE(canon::toHex(signature),
            std::string("dc2a4459e7369633a52b1bf277839a00201009a3efbf3ecb69bea2186c26b589"
                        "09351fc9ac90b3ecfdfbc7c66431e0303dca179c138ac17ad9bef1177331a704"));
        QVERIFY(people::verifies(key.publicKey(), message.substr(0, 32), second, signature));
    }

    void opensslAgrees()
    {
        for (int i = 0; i < 50; ++i) {
            const auto key = people::SigningKey::generate();
            const auto hash = people::randomId<Hash>();
            const Signature signature = key.sign(people::kPersonDomain, hash);
            const std::string raw(hash.value.begin(), hash.value.end());
            QVERIFY(opensslVerifies(key.publicKey(), "brimful/person/1" + raw, signature));
            QVERIFY(!opensslVerifies(key.publicKey(), "brimful/device/1" + raw, signature));
        }
    }

    void everyFlippedBitShows()
    {
        const auto key = people::SigningKey::generate();
        const auto hash = people::randomId<Hash>();
        const Signature signature = key.sign(people::kDeviceDomain, hash);
        QVERIFY(people::verifies(key.publicKey(), people::kDeviceDomain, hash, signature));
        for (std::size_t bit = 0; bit < 64 * 8; ++bit) {
            Signature wrong = signature;
            wrong.value[bit / 8] ^= static_cast<std::uint8_t>(1U << (bit % 8));
            QVERIFY(!people::verifies(key.publicKey(), people::kDeviceDomain, hash, wrong));
        }
        for (std::size_t bit = 0; bit < 32 * 8; ++bit) {
            Hash wrong = hash;
            wrong.value[bit / 8] ^= static_cast<std::uint8_t>(1U << (bit % 8));
            QVERIFY(!people::verifies(key.publicKey(), people::kDeviceDomain, wrong, signature));
        }
    }

    void domainsDoNotMix()
    {
        const auto key = people::SigningKey::generate();
        const auto hash = people::randomId<Hash>();
        const std::vector<std::string_view> domains{people::kPersonDomain, people::kDeviceDomain, people::kTagDomain};
        for (const auto signed_for : domains) {
            for (const auto read_as : domains) {
                QCOMPARE(people::verifies(key.publicKey(), read_as, hash, key.sign(signed_for, hash)), signed_for == read_as);
            }
        }
    }

    // A key of small order would verify for many messages.
    void keysOfSmallOrderVerifyNothing()
    {
        PublicKey neutral; // the point (0, 1)
        neutral.value[0] = 1;
        Signature signature; // R = (0, 1), S = 0 fulfils the bare equation
        signature.value[0] = 1;
        QVERIFY(!people::verifies(neutral, people::kPersonDomain, people::randomId<Hash>(), signature));
        QVERIFY(!people::verifies(PublicKey{}, people::kPersonDomain, Hash{}, Signature{}));
    }

    void movedKeysSignOn()
    {
        auto key = people::SigningKey::generate();
        const PublicKey public_key = key.publicKey();
        auto moved = std::move(key);
        QCOMPARE(moved.publicKey(), public_key);
    }

    void idsAreNotTheSameTwice()
    {
        std::set<PersonId> ids;
        for (int i = 0; i < 1000; ++i) {
            ids.insert(people::randomId<PersonId>());
        }
        QCOMPARE(ids.size(), std::size_t(1000));
    }
};
BRIMFUL_SUITE(KeysTest);

#include "keys_test.moc"
