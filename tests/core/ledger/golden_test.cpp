// The bytes in golden/ were made outside the program: it must read them, write the same, and find them intact.
#include "core/ledger/photos.h"
#include "tests/core/ledger/history.h"
#include "tests/support/suite.h"

#include <QDir>
#include <QFile>
#include <QTest>

using namespace brimful;
using canon::Json;
using ledger::Kind;

namespace {

const QString kGolden = QStringLiteral(BRIMFUL_SOURCE_DIR "/tests/core/ledger/golden/");

// RFC 8032, 7.1: TEST 1, 2, 3.
const QByteArray kDeviceSeed = "9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60";
const QByteArray kAdaSeed = "4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb";
const QByteArray kBenSeed = "c5aa8df43f9f837bedb7442f31dcb7b166d38535076f094b85ce3a2e0b4458f7";

std::string golden(const QString& name)
{
    QFile file(kGolden + name);
    return file.open(QIODevice::ReadOnly) ? file.readAll().toStdString() : std::string();
}

people::SigningKey keyOf(const QByteArray& seed) { return people::SigningKey::fromSeed(QByteArray::fromHex(seed).toStdString()); }

struct Signed {
    QString name;
    Hash hash;
    std::optional<Signature> person;
    Signature device;
};

std::vector<Signed> signedRows()
{
    std::vector<Signed> rows;
    for (const QByteArray& line : QByteArray::fromStdString(golden("signed.txt")).trimmed().split('\n')) {
        const auto parts = line.split(' ');
        rows.push_back({QString::fromLatin1(parts[0]), canon::fromHex<Hash>(parts[1].toStdString()).value(),
            canon::fromHex<Signature>(parts[2].toStdString()), canon::fromHex<Signature>(parts[3].toStdString()).value()});
    }
    return rows;
}

} // namespace

class GoldenTest : public QObject {
    Q_OBJECT

private slots:
    void rows_data()
    {
        QTest::addColumn<int>("index");
        const auto rows = signedRows();
        QCOMPARE(rows.size(), std::size_t(10));
        for (std::size_t i = 0; i < rows.size(); ++i) {
            QTest::newRow(qPrintable(rows[i].name)) << int(i);
        }
    }
    void rows()
    {
        QFETCH(int, index);
        const Signed row = signedRows().at(static_cast<std::size_t>(index));
        const std::string body = golden(row.name + ".json");
        QVERIFY(!body.empty());
        QCOMPARE(canon::leafHash(body), row.hash);
        const auto entry = ledger::decode(body);
        QVERIFY(entry.has_value());
        QCOMPARE(QByteArray::fromStdString(ledger::encode(*entry)), QByteArray::fromStdString(body));
        QCOMPARE(entry->seq, std::uint64_t(index + 1));
        // Ed25519 signs the same bytes always in the same way.
        QCOMPARE(keyOf(kDeviceSeed).sign(people::kDeviceDomain, row.hash), row.device);
        QCOMPARE(entry->signer.has_value(), row.person.has_value());
        if (row.person) {
            const bool by_ben = canon::toHex(entry->signer->person).front() == 'b';
            QCOMPARE(keyOf(by_ben ? kBenSeed : kAdaSeed).sign(people::kPersonDomain, row.hash), *row.person);
        }
    }

    // Every field of an entry built by hand gives the bytes of the golden file.
    void anEntryOfEveryField()
    {
        const auto rows = signedRows();
        const auto id = [](char digit) { return std::string(32, digit); };
        ledger::Entry entry;
        entry.yard = *canon::fromHex<YardId>(id('1'));
        entry.device = *canon::fromHex<DeviceId>(id('2'));
        entry.at = {1'781'424'000'000 + 480'000, 480'000, *canon::fromHex<BootId>(id('3')), ledger::ClockState::Ok};
        entry.seq = 8;
        entry.prev = rows[6].hash;
        entry.parents = {rows[6].hash};
        entry.vessel = canon::fromHex<VesselId>(canon::toHex(rows[5].hash).substr(0, 32));
        entry.kind = Kind::Confirmed;
        entry.payload = test::payload({{"confirms", canon::toHex(rows[6].hash)}});
        entry.signer = ledger::Signer{*canon::fromHex<PersonId>(id('a')), "inspector"};
        entry.pack = *canon::fromHex<Hash>(std::string(64, '4'));
        entry.tag = 7;
        QCOMPARE(QByteArray::fromStdString(ledger::encode(entry)), QByteArray::fromStdString(golden("08-confirmed.json")));

        const auto evidence = ledger::decode(golden("07-evidence.json"));
        QCOMPARE(evidence->attachments, std::vector<Hash>{*canon::fromHex<Hash>(std::string(64, '5'))});
        QCOMPARE(evidence->payload.find("facts")->find("wall")->integerOf("count"), std::int64_t(95'250)); // 3/8 in = 9.525 mm
        QCOMPARE(ledger::decode(golden("09-event.json"))->at.clock, ledger::ClockState::Suspect);
        QVERIFY(!ledger::decode(golden("09-event.json"))->signer.has_value());
        QVERIFY(ledger::decode(golden("01-yard-created.json"))->pack.isZero());
    }

    // What the record tells of photographs, and nothing of those that were written before it told anything.
    void photographs()
    {
        const auto hash = [](char digit) { return *canon::fromHex<Hash>(std::string(64, digit)); };
        const auto entry = ledger::decode(golden("10-evidence-photos.json"));
        QVERIFY(entry.has_value());
        const auto photos = ledger::photosOf(entry->payload, entry->attachments);
        QVERIFY(photos.has_value());
        QCOMPARE(photos->size(), std::size_t(2)); // the paper is none
        const ledger::PhotoNote& first = photos->at(hash('6'));
        QVERIFY(first.by_camera && first.found && first.found->dark && first.found->blurred);
        QVERIFY(!first.found->tag && !first.found->other_tag);
        QCOMPARE(first.chalk, std::string("0482"));
        QCOMPARE(canon::toHex(*first.look), std::string("00ff0123456789ab"));
        QCOMPARE(*first.alike, hash('5'));
        const ledger::PhotoNote second = photos->at(hash('7'));
        QVERIFY(!second.by_camera && !second.found && second.chalk.empty() && !second.look && !second.alike);
        QCOMPARE(ledger::written(*photos), *entry->payload.find("photos"));

        const auto older = ledger::decode(golden("07-evidence.json"));
        QVERIFY(ledger::photosOf(older->payload, older->attachments)->empty());
    }

    // Schema 1 as released: opened from a copy, read, verified, written to.
    void theReleasedSchemaOpens()
    {
        test::Shelf shelf;
        QVERIFY(QFile::copy(kGolden + "ledger.db", QString::fromStdString(shelf.file().string())));
        QFile::setPermissions(QString::fromStdString(shelf.file().string()), QFile::ReadOwner | QFile::WriteOwner);
        const auto rows = signedRows();
        ledger::VerifyOptions options;
        const Hash newest = rows[8].hash; // row 10 is not in it
        options.anchors = {newest};
        const auto verification = test::verified(shelf.file(), options);
        QCOMPARE(QByteArray::fromStdString(test::findingsText(verification)), QByteArray());
        QCOMPARE(verification.entries, std::uint64_t(9));
        QCOMPARE(verification.signatures, std::uint64_t(17)); // nine of the device, eight of people
        QCOMPARE(verification.heads.size(), std::size_t(1));
        QCOMPARE(verification.heads.begin()->second, std::vector<Hash>{newest});

        auto ledger = ledger::Ledger::open(shelf.file(), ledger::Mode::ReadWrite);
        QVERIFY(ledger.has_value());
        const auto tip = ledger->tip(*canon::fromHex<DeviceId>(std::string(32, '2')));
        QCOMPARE(tip->seq, std::uint64_t(9));
        ledger::Entry next = ledger::decode(golden("09-event.json")).value();
        next.seq = tip->seq + 1;
        next.prev = tip->head;
        next.parents = {*tip->head};
        ledger::Stored row;
        row.body = ledger::encode(next);
        row.hash = canon::leafHash(row.body);
        row.device_signature = keyOf(kDeviceSeed).sign(people::kDeviceDomain, row.hash);
        QVERIFY(ledger->append(std::span(&row, 1)).has_value());
        QVERIFY(test::verified(shelf.file()).intact());
    }

    void nobodyWroteIntoTheGoldenFolder() { QCOMPARE(QDir(kGolden).entryList(QDir::Files).size(), 10 + 3); }
};
BRIMFUL_SUITE(GoldenTest);

#include "golden_test.moc"
