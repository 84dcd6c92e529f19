// The tag as text: what it says, that it says it truly, and that nothing altered is taken for it.
#include "core/tag/tag.h"
#include "tests/support/suite.h"

#include <QTemporaryDir>
#include <QTest>

#include <sodium.h>

#include <memory>

using namespace brimful;
using tag::TagFault;

namespace {

constexpr std::int64_t kSunday = 1781454600000; // 2026-06-14T16:30Z (date -u -d 2026-06-14T16:30Z +%s)
constexpr std::string_view kSet = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:"; // ISO/IEC 18004, alphanumeric mode

tag::Facts released(const DeviceId& device)
{
    tag::Facts facts;
    for (std::size_t i = 0; i < 16; ++i) {
        facts.yard.value[i] = static_cast<std::uint8_t>(i);
        facts.vessel.value[i] = static_cast<std::uint8_t>(0xf0 + i);
    }
    facts.number = "NQ-01";
    facts.serial = 9;
    facts.head = canon::sha256("the entry of this tag");
    facts.issued_ms = kSunday;
    facts.offset_minutes = -240;
    facts.state = tag::TagState::Released;
    facts.until_ms = kSunday + 4 * 3600000LL;
    facts.device = device;
    return facts;
}

// Crockford's alphabet, written out again here.
std::string decode(std::string_view text)
{
    constexpr std::string_view kAlphabet = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";
    std::string out;
    unsigned buffer = 0;
    unsigned bits = 0;
    for (const char c : text) {
        buffer = (buffer << 5U) | static_cast<unsigned>(kAlphabet.find(c));
        bits += 5;
        if (bits >= 8) {
            bits -= 8;
            out.push_back(static_cast<char>(static_cast<unsigned char>(buffer >> bits)));
            buffer &= (1U << bits) - 1U;
        }
    }
    return out;
}

std::string encode(std::string_view bytes)
{
    return canon::toBase32(std::span(reinterpret_cast<const std::uint8_t*>(bytes.data()), bytes.size()));
}

} // namespace

class TagTest : public QObject {
    Q_OBJECT
    QTemporaryDir m_folder;
    std::unique_ptr<people::Device> m_device;
    std::map<DeviceId, PublicKey> m_devices;

    [[nodiscard]] std::string written() const { return tag::write(released(m_device->id()), *m_device); }
    [[nodiscard]] tl::expected<tag::Facts, TagFault> read(const std::string& text) const { return tag::read(text, m_devices); }

private slots:
    void initTestCase()
    {
        auto device = people::Device::create(
            m_folder.filePath("device").toStdString(), people::randomId<DeviceId>(), "this machine", people::Sealing::Light);
        QVERIFY(device.has_value());
        m_device = std::make_unique<people::Device>(std::move(*device));
        m_devices.emplace(m_device->id(), m_device->publicKey());
        for (int i = 0; i < 5; ++i) {
            m_devices.emplace(people::randomId<DeviceId>(), people::SigningKey::generate().publicKey());
        }
    }

    void saysWhatIsForbidden_data()
    {
        QTest::addColumn<qint64>("issued");
        QTest::addColumn<int>("offset");
        QTest::addColumn<bool>("demo");
        QTest::addColumn<QString>("line");
        const QString forbids = " DO NOT CUT HEAT FILL OR MOVE. ONLY THE TABLET RELEASES. PRINTED ";
        QTest::newRow("west") << qint64(kSunday) << -240 << false << "NQ-01" + forbids + "SUN 14 JUN 12:30 UTC-4";
        QTest::newRow("Greenwich") << qint64(kSunday) << 0 << false << "NQ-01" + forbids + "SUN 14 JUN 16:30 UTC";
        QTest::newRow("half hours") << qint64(kSunday) << 330 << false << "NQ-01" + forbids + "SUN 14 JUN 22:00 UTC+5:30";
        QTest::newRow("already tomorrow") << qint64(kSunday) << 720 << false << "NQ-01" + forbids + "MON 15 JUN 04:30 UTC+12";
        QTest::newRow("demo") << qint64(kSunday) << -240 << true << "DEMO NQ-01" + forbids + "SUN 14 JUN 12:30 UTC-4";
        QTest::newRow("leap day") << qint64(1709164800000) << 0 << false
                                  << "NQ-01" + forbids + "THU 29 FEB 00:00 UTC"; // date -u -d @1709164800
        QTest::newRow("before midnight") << qint64(1704067199999) << 0 << false << "NQ-01" + forbids + "SUN 31 DEC 23:59 UTC";
    }
    void saysWhatIsForbidden()
    {
        QFETCH(qint64, issued);
        QFETCH(int, offset);
        QFETCH(bool, demo);
        QFETCH(QString, line);
        tag::Facts facts = released(m_device->id());
        facts.issued_ms = issued;
        facts.offset_minutes = offset;
        facts.demo = demo;
        QCOMPARE(QString::fromStdString(tag::readableLine(facts)), line);
    }

    void isWrittenInTheAlphanumericSet()
    {
        const std::string text = written();
        QVERIFY(std::ranges::all_of(text, [](char c) { return kSet.find(c) != std::string_view::npos; }));
        QVERIFY(text.find("  ") == std::string::npos);
        QCOMPARE(std::ranges::count(text, ' '), 19); // 18 words of the line, the mark, the payload
    }

    void readsWhatItWrote_data()
    {
        QTest::addColumn<QString>("number");
        QTest::addColumn<int>("state");
        QTest::addColumn<bool>("demo");
        QTest::addColumn<qint64>("until");
        QTest::addColumn<int>("offset");
        QTest::newRow("released") << "NQ-01" << 2 << false << qint64(kSunday + 5) << -240;
        QTest::newRow("held, no end") << "NQ-01" << 1 << false << qint64(0) << 0;
        QTest::newRow("demo") << "NQ-01" << 3 << true << qint64(0) << 765;
        QTest::newRow("one letter") << "A" << 4 << false << qint64(0) << -720;
        QTest::newRow("twelve letters") << "ABCDEF-12345" << 5 << true << qint64(0) << 0;
        QTest::newRow("a vessel called DEMO") << "DEMO" << 6 << false << qint64(0) << 0;
        QTest::newRow("a vessel called DEMO in a demo") << "DEMO" << 7 << true << qint64(0) << 0;
        QTest::newRow("a vessel called DO") << "DO" << 1 << true << qint64(0) << 0;
    }
    void readsWhatItWrote()
    {
        QFETCH(QString, number);
        QFETCH(int, state);
        QFETCH(bool, demo);
        QFETCH(qint64, until);
        QFETCH(int, offset);
        tag::Facts facts = released(m_device->id());
        facts.number = number.toStdString();
        facts.state = static_cast<tag::TagState>(state);
        facts.demo = demo;
        facts.until_ms = until;
        facts.offset_minutes = offset;
        const std::string text = tag::write(facts, *m_device);
        const auto again = read(text);
        QVERIFY(again.has_value());
        QVERIFY(*again == facts);
        QVERIFY(read(text + "\r\n").has_value());
        QCOMPARE(QString::fromStdString(tag::write(*again, *m_device)), QString::fromStdString(text)); // a reprint is the same
    }

    // The bytes as the header of tag.cpp orders them, checked with libsodium alone.
    void isSignedOverLineAndPayload()
    {
        const std::string text = written();
        const auto mark = text.rfind(" B1 ");
        const std::string bytes = decode(std::string_view(text).substr(mark + 4));
        QCOMPARE(bytes.size(), std::size_t(152));
        const std::string part = bytes.substr(0, 88);
        const std::string message = text.substr(0, mark) + " B1 " + part;
        std::string hash(32, '\0');
        crypto_hash_sha256(
            reinterpret_cast<unsigned char*>(hash.data()), reinterpret_cast<const unsigned char*>(message.data()), message.size());
        const std::string signed_text = "brimful/tag/1" + hash;
        QCOMPARE(crypto_sign_verify_detached(reinterpret_cast<const unsigned char*>(bytes.data() + 88),
                     reinterpret_cast<const unsigned char*>(signed_text.data()), signed_text.size(), m_device->publicKey().value.data()),
            0);
        QCOMPARE(static_cast<int>(bytes[0]), 1);
        QCOMPARE(static_cast<int>(bytes[1]), 2);
        QCOMPARE(canon::toHex(std::span(reinterpret_cast<const std::uint8_t*>(bytes.data() + 34), 4)), std::string("00000009"));
    }

    void refusesEverySingleBitOfThePayload()
    {
        const std::string text = written();
        const auto mark = text.rfind(" B1 ");
        const std::string head = text.substr(0, mark + 4);
        const std::string bytes = decode(std::string_view(text).substr(mark + 4));
        QVERIFY(read(head + encode(bytes)).has_value());
        int refused = 0;
        for (std::size_t bit = 0; bit < bytes.size() * 8; ++bit) {
            std::string bad = bytes;
            bad[bit / 8] = static_cast<char>(static_cast<unsigned char>(bad[bit / 8]) ^ (1U << (bit % 8)));
            refused += read(head + encode(bad)).has_value() ? 0 : 1;
        }
        QCOMPARE(refused, 152 * 8);
    }

    void refusesEverySingleBitOfTheText()
    {
        const std::string text = written();
        for (std::size_t bit = 0; bit < text.size() * 8; ++bit) {
            std::string bad = text;
            bad[bit / 8] = static_cast<char>(static_cast<unsigned char>(bad[bit / 8]) ^ (1U << (bit % 8)));
            QVERIFY2(!read(bad).has_value(), bad.c_str());
        }
    }

    void refusesEveryOtherSymbolOfThePayload()
    {
        const std::string text = written();
        const auto from = text.rfind(' ') + 1;
        for (std::size_t place = from; place < text.size(); ++place) {
            for (const char other : kSet) {
                std::string bad = text;
                bad[place] = other;
                QVERIFY2(other == text[place] || !read(bad).has_value(), bad.c_str());
            }
        }
    }

    void namesWhatIsWrong_data()
    {
        QTest::addColumn<QString>("text");
        QTest::addColumn<int>("fault");
        const auto row = [](const char* name, const QString& text, TagFault fault) {
            QTest::newRow(name) << text << static_cast<int>(fault);
        };
        const std::string text = written();
        const QString good = QString::fromStdString(text);
        const qsizetype payload = good.lastIndexOf(' ') + 1;
        row("nothing", "", TagFault::NotATag);
        row("a word", "HELLO", TagFault::NotATag);
        row("an address", "HTTPS://EXAMPLE.ORG/A B", TagFault::NotATag);
        row("no payload", good.left(payload), TagFault::Damaged);
        row("cut short", good.left(good.size() - 1), TagFault::Damaged);
        row("longer", good + "0", TagFault::Damaged);
        row("lower case", good.left(payload) + good.mid(payload).toLower(), TagFault::Damaged);
        row("another mark", QString(good).replace(" B1 ", " B2 "), TagFault::UnknownVersion);
        std::string bytes = decode(std::string_view(text).substr(static_cast<std::size_t>(payload)));
        bytes[0] = 2;
        row("another version", good.left(payload) + QString::fromStdString(encode(bytes)), TagFault::UnknownVersion);
        row("another time in the line", QString(good).replace("12:30", "12:31"), TagFault::LineDiffers);
        row("a permission in the line", QString(good).replace("DO NOT CUT", "DO CUT"), TagFault::LineDiffers);
        row("demo taken off or put on", "DEMO " + good, TagFault::BadSignature);
        row("another vessel", QString(good).replace("NQ-01", "NQ-02"), TagFault::BadSignature);
        row("a number that is none", QString(good).replace("NQ-01", "NQ 01"), TagFault::LineDiffers);
    }
    void namesWhatIsWrong()
    {
        QFETCH(QString, text);
        QFETCH(int, fault);
        const auto facts = read(text.toStdString());
        QVERIFY(!facts.has_value());
        QCOMPARE(static_cast<int>(facts.error()), fault);
    }

    void anotherYardsDeviceIsUnknown()
    {
        std::map<DeviceId, PublicKey> others = m_devices;
        others.erase(m_device->id());
        QCOMPARE(tag::read(written(), others).error(), TagFault::UnknownDevice);
        others[m_device->id()] = people::SigningKey::generate().publicKey();
        QCOMPARE(tag::read(written(), others).error(), TagFault::BadSignature);
    }

    // Two devices whose ids begin alike: the signature finds the right one.
    void tellsDevicesApartThatBeginAlike()
    {
        std::map<DeviceId, PublicKey> devices = m_devices;
        DeviceId twin = m_device->id();
        twin.value[15] = static_cast<std::uint8_t>(twin.value[15] ^ 1U);
        devices[twin] = people::SigningKey::generate().publicKey();
        twin.value[14] = static_cast<std::uint8_t>(twin.value[14] ^ 0x80U);
        devices[twin] = people::SigningKey::generate().publicKey();
        const auto facts = tag::read(written(), devices);
        QVERIFY(facts.has_value());
        QVERIFY(facts->device == m_device->id());
    }
};
BRIMFUL_SUITE(TagTest);
#include "tag_test.moc"
