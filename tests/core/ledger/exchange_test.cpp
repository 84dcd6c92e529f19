// Entries carried as a file: a union of sets, whatever comes in which order and how often; hostile files harmless; two
// entries in one place of a feed told, kept and held until an authoriser joins them.
#include "core/ledger/entries_file.h"
#include "tests/core/ledger/history.h"
#include "tests/support/suite.h"

#include <QTest>
#include <SQLiteCpp/SQLiteCpp.h>

#include <fstream>
#include <random>
#include <set>
#include <sstream>

using namespace brimful;
using ledger::Kind;
using ledger::Ledger;
using ledger::Mode;
using ledger::Stored;
using test::payload;

namespace {

// Another tablet of the yard: enrolled by ada, writes events in a feed of its own.
class Tablet {
public:
    explicit Tablet(test::History& history)
        : m_history(history)
    {
        const auto device = payload({{"id", canon::toHex(m_id)}, {"name", "Tablet 2"}, {"key", canon::toHex(m_key.publicKey())}});
        history.add(Kind::DeviceEnrolled, payload({{"device", device}}), &history.ada, "authoriser");
    }
    Stored event(const VesselId& vessel, const std::vector<Hash>& parents, const std::string& what)
    {
        ledger::Entry entry = m_history.draft(Kind::Event, payload({{"event", what}, {"note", "far end"}}), nullptr, {}, vessel);
        entry.device = m_id;
        entry.seq = ++m_seq;
        entry.prev = m_head;
        entry.parents = parents;
        Stored row;
        row.body = ledger::encode(entry);
        row.hash = canon::leafHash(row.body);
        row.device_signature = m_key.sign(people::kDeviceDomain, row.hash);
        m_head = row.hash;
        return row;
    }

private:
    test::History& m_history;
    DeviceId m_id{people::randomId<DeviceId>()};
    people::SigningKey m_key{people::SigningKey::generate()};
    std::uint64_t m_seq{};
    std::optional<Hash> m_head;
};

// Where a tablet's folder stood, to go back to: a copy of it knows no more.
class Moment {
public:
    explicit Moment(const test::History& history)
        : m_rows(history.rows)
        , m_heads(history.heads)
        , m_minutes(history.minutes)
    {
    }
    void back(test::History& history) const
    {
        history.rows = m_rows;
        history.heads = m_heads;
        history.minutes = m_minutes;
    }
    [[nodiscard]] std::size_t size() const { return m_rows.size(); }

private:
    std::vector<Stored> m_rows;
    std::map<std::string, std::vector<Hash>> m_heads;
    std::int64_t m_minutes;
};

std::string fileOf(const Ledger& ledger)
{
    QTemporaryDir root;
    const auto to = std::filesystem::path(root.path().toStdString()) / "entries";
    if (!ledger::writeEntries(ledger, to, {})) {
        return {};
    }
    std::ifstream in(to, std::ios::binary);
    return std::string{std::istreambuf_iterator<char>(in), {}};
}

tl::expected<ledger::Carried, ledger::FileError> read(const std::string& bytes)
{
    std::istringstream in(bytes);
    return ledger::readEntries(in);
}

std::set<Hash> hashesOf(const Ledger& ledger)
{
    std::set<Hash> hashes;
    (void)ledger.stream([&](const Stored& row) { return hashes.insert(row.hash).second; });
    return hashes;
}

std::vector<Hash> orderOf(const Ledger& ledger)
{
    std::vector<ledger::Line> lines;
    (void)ledger.stream([&](const Stored& row) {
        lines.push_back({row.hash, *ledger::decode(row.body), row.beside});
        return true;
    });
    ledger::sortCausally(lines);
    std::vector<Hash> order;
    for (const ledger::Line& line : lines) {
        order.push_back(line.hash);
    }
    return order;
}

Ledger made(const test::Shelf& shelf, std::span<const Stored> rows)
{
    auto ledger = Ledger::create(shelf.file());
    if (!ledger || !ledger->unite(rows)) {
        throw std::runtime_error("no ledger");
    }
    return std::move(*ledger);
}

} // namespace

class ExchangeTest : public QObject {
    Q_OBJECT

private slots:
    void thereAndBack()
    {
        test::History history;
        const std::string photo("\xff\xd8\xff bytes\nof a photograph", 25);
        ledger::Entry entry = history.draft(Kind::Evidence, payload({{"step", "look"}}), &history.ben, "gas-tester");
        entry.attachments = {canon::sha256(photo)};
        history.keep(entry, &history.ben);
        test::Shelf shelf;
        history.write(shelf.file());
        const auto evidence = shelf.file().parent_path() / "evidence";
        const std::string hex = canon::toHex(canon::sha256(photo));
        std::filesystem::create_directories(evidence / hex.substr(0, 2));
        std::ofstream(evidence / hex.substr(0, 2) / (hex + ".jpg"), std::ios::binary) << photo;
        const auto ledger = Ledger::open(shelf.file(), Mode::ReadOnly);
        const auto to = shelf.file().parent_path() / "entries";
        const auto written = ledger::writeEntries(*ledger, to, {evidence, {}});
        QVERIFY(written.has_value());
        QCOMPARE(written->entries, std::uint64_t(6));
        QCOMPARE(written->files, std::uint64_t(1));
        QVERIFY(!std::filesystem::exists(to.string() + ".part"));
        std::ifstream in(to, std::ios::binary);
        const auto carried = ledger::readEntries(in);
        QVERIFY(carried.has_value());
        QCOMPARE(carried->rows.size(), history.rows.size());
        for (std::size_t i = 0; i < carried->rows.size(); ++i) {
            QCOMPARE(carried->rows[i].hash, history.rows[i].hash);
            QCOMPARE(carried->rows[i].body, history.rows[i].body);
            QCOMPARE(carried->rows[i].person_signature, history.rows[i].person_signature);
            QCOMPARE(carried->rows[i].device_signature, history.rows[i].device_signature);
        }
        QCOMPARE(carried->files.size(), std::size_t(1));
        in.clear();
        in.seekg(static_cast<std::streamoff>(carried->files[0].at));
        std::string bytes(carried->files[0].size, '\0');
        in.read(bytes.data(), static_cast<std::streamsize>(bytes.size()));
        QCOMPARE(bytes, photo);
        QVERIFY(ledger::verifyRows(carried->rows, {}).intact());
    }

    // 1 + 2 = 2 + 1 = 1 + 1 + 2 + 1, and the same answer to "in which order".
    void aUnionOfSets()
    {
        test::History history;
        const VesselId vessel = history.admit("NQ-01");
        Tablet other(history);
        const Hash root = history.heads.at(canon::toHex(vessel)).front();
        const std::vector<Stored> common = history.rows;
        std::vector<Stored> here = common;
        std::vector<Stored> there = common;
        for (int i = 0; i < 6; ++i) {
            history.event(vessel, "moved");
            here.push_back(history.rows.back());
        }
        std::vector<Hash> parents{root};
        for (int i = 0; i < 5; ++i) {
            there.push_back(other.event(vessel, parents, "concern"));
            parents = {there.back().hash};
        }
        test::Shelf a;
        test::Shelf b;
        auto ours = made(a, here);
        auto theirs = made(b, there);
        const std::string from_ours = fileOf(ours);
        const std::string from_theirs = fileOf(theirs);
        for (int again = 0; again < 3; ++again) {
            QCOMPARE(*ours.unite(read(from_theirs)->rows), std::size_t(again == 0 ? 5 : 0));
            QCOMPARE(*theirs.unite(read(from_ours)->rows), std::size_t(again == 0 ? 6 : 0));
        }
        QVERIFY(hashesOf(ours) == hashesOf(theirs));
        QCOMPARE(hashesOf(ours).size(), common.size() + 11);
        QVERIFY(orderOf(ours) == orderOf(theirs));
        const auto first = test::verified(a.file());
        const auto second = test::verified(b.file());
        QVERIFY2(first.intact(), test::findingsText(first).c_str());
        QVERIFY(second.intact());
        QCOMPARE(first.heads.at(vessel).size(), std::size_t(2)); // two tablets wrote apart: both heads are told
        QVERIFY(first.heads == second.heads);
    }

    // Any subset that is closed under "what comes before", in any order of files, ends in the same record.
    void randomUnions()
    {
        std::mt19937 random(11);
        for (int round = 0; round < (qEnvironmentVariableIsSet("BRIMFUL_DEEP") ? 2000 : 40); ++round) {
            test::History history;
            const VesselId vessel = history.admit("NQ-01");
            Tablet other(history);
            const std::vector<Stored> common = history.rows;
            std::vector<Hash> heads = history.heads.at(canon::toHex(vessel));
            std::vector<Stored> all = common;
            std::vector<std::vector<Stored>> files;
            for (int i = 0; i < 12; ++i) {
                const bool ours = random() % 2 == 0;
                const std::vector<Hash> knows =
                    random() % 3 == 0 ? heads : std::vector<Hash>{heads[static_cast<std::size_t>(random() % heads.size())]};
                std::vector<Hash> parents = knows;
                std::ranges::sort(parents);
                Hash hash;
                if (ours) {
                    ledger::Entry entry = history.draft(Kind::Event, payload({{"event", "moved"}, {"note", ""}}), nullptr, {}, vessel);
                    entry.parents = parents;
                    hash = history.keep(entry, nullptr);
                    all.push_back(history.rows.back());
                } else {
                    all.push_back(other.event(vessel, parents, "concern"));
                    hash = all.back().hash;
                }
                std::erase_if(heads, [&](const Hash& head) { return std::ranges::find(knows, head) != knows.end(); });
                heads.push_back(hash);
                files.push_back(all);
            }
            test::Shelf a;
            test::Shelf b;
            auto one = made(a, common);
            auto two = made(b, common);
            std::ranges::shuffle(files, random);
            for (const auto& file : files) {
                QVERIFY(one.unite(file).has_value());
            }
            QVERIFY(two.unite(all).has_value());
            QVERIFY(hashesOf(one) == hashesOf(two));
            QVERIFY(orderOf(one) == orderOf(two));
            QVERIFY(test::verified(a.file()).intact());
        }
    }

    void cutAnywhereItIsRefused()
    {
        const test::History history;
        test::Shelf shelf;
        history.write(shelf.file());
        const std::string whole = fileOf(*Ledger::open(shelf.file(), Mode::ReadOnly));
        QVERIFY(read(whole).has_value());
        for (std::size_t size = 0; size < whole.size(); ++size) {
            QVERIFY2(!read(whole.substr(0, size)), qPrintable(QString::number(size)));
        }
        QVERIFY(!read(whole + "\n"));
        QVERIFY(!read(whole + whole));
    }

    // Every byte changed in turn: refused by its form, or by what it says.
    void everyByteMatters()
    {
        const test::History history;
        test::Shelf shelf;
        history.write(shelf.file());
        const std::string whole = fileOf(*Ledger::open(shelf.file(), Mode::ReadOnly));
        std::mt19937 random(3);
        int by_form = 0;
        int by_signature = 0;
        for (std::size_t at = 0; at < whole.size(); at += qEnvironmentVariableIsSet("BRIMFUL_DEEP") ? 1U : 5U) {
            std::string bytes = whole;
            bytes[at] = static_cast<char>(bytes[at] ^ (1 << static_cast<int>(random() % 8)));
            const auto carried = read(bytes);
            by_form += carried ? 0 : 1;
            if (carried) {
                const auto verification = ledger::verifyRows(carried->rows, {});
                QVERIFY2(!verification.intact(), qPrintable(QString("byte %1").arg(at)));
                ++by_signature;
            }
        }
        QVERIFY(by_form > 100 && by_signature > 20);
    }

    void whatIsNoFileOfEntries_data()
    {
        QTest::addColumn<QByteArray>("bytes");
        QTest::newRow("nothing") << QByteArray();
        QTest::newRow("a database") << QByteArray("SQLite format 3\0", 16) + QByteArray(4096, '\0');
        QTest::newRow("another version") << QByteArray("brimful-entries 2\nend 0 0\n");
        QTest::newRow("a line without end") << QByteArray("brimful-entries 1\nentry ") + QByteArray(1 << 20, 'a');
        QTest::newRow("a file that claims to be huge")
            << QByteArray("brimful-entries 1\nfile ") + QByteArray(64, '0') + " jpg 18446744073709551615\n";
        QTest::newRow("a file larger than what is there")
            << QByteArray("brimful-entries 1\nfile ") + QByteArray(64, '0') + " jpg 60000000\nx";
        QTest::newRow("a way out of the folder")
            << QByteArray("brimful-entries 1\nfile ") + QByteArray(64, '0') + " ../../x 0\n\nend 0 1\n";
        QTest::newRow("wrong count") << QByteArray("brimful-entries 1\nend 1 0\n");
        QTest::newRow("count with a sign") << QByteArray("brimful-entries 1\nend +0 0\n");
        QTest::newRow("an entry of nothing") << QByteArray("brimful-entries 1\nentry ") + QByteArray(64, '0') + " " + QByteArray(128, '0')
                + " - {}\nend 1 0\n";
    }
    void whatIsNoFileOfEntries()
    {
        QFETCH(QByteArray, bytes);
        QVERIFY(!read(bytes.toStdString()));
    }

    // A file made by an enemy: entries in another order, one left out, one by a key that nobody enrolled.
    void whatIsNotTrueIsTold()
    {
        test::History history;
        const VesselId vessel = history.admit("NQ-01");
        history.event(vessel, "moved");
        history.event(vessel, "stop");
        const auto intact = [](const std::vector<Stored>& rows) { return ledger::verifyRows(rows, {}).intact(); };
        QVERIFY(intact(history.rows));
        for (std::size_t i = 0; i + 1 < history.rows.size(); ++i) {
            std::vector<Stored> without = history.rows;
            without.erase(without.begin() + static_cast<std::ptrdiff_t>(i));
            QVERIFY2(!intact(without), qPrintable(QString("row %1 left out").arg(i + 1)));
            std::vector<Stored> swapped = history.rows;
            std::swap(swapped[i], swapped[i + 1]);
            QVERIFY2(!intact(swapped), qPrintable(QString("rows %1 and the next swapped").arg(i + 1)));
        }
        test::History stranger;
        std::vector<Stored> mixed = history.rows;
        mixed.push_back(stranger.rows.front());
        QVERIFY(!intact(mixed));
        mixed.back() = history.rows.back();
        mixed.back().device_signature = stranger.rows.front().device_signature;
        QVERIFY(!intact(mixed));
    }

    // A tablet's folder was copied, and both went on writing.
    void aCopiedTablet()
    {
        test::History history;
        const VesselId vessel = history.admit("NQ-01");
        const Moment start(history);
        history.event(vessel, "stop");
        history.event(vessel, "concern");
        history.event(vessel, "concern");
        const std::vector<Stored> copy = history.rows;
        start.back(history);
        history.event(vessel, "moved");
        history.event(vessel, "moved");
        const Moment here(history);
        test::Shelf a;
        test::Shelf b;
        auto ours = made(a, history.rows);
        auto theirs = made(b, copy);
        QCOMPARE(*ours.unite(copy), std::size_t(3));
        QCOMPARE(*theirs.unite(history.rows), std::size_t(2));
        QCOMPARE(*ours.unite(copy), std::size_t(0));
        QVERIFY(hashesOf(ours) == hashesOf(theirs));
        for (const test::Shelf* shelf : {&a, &b}) {
            const auto verification = test::verified(shelf->file());
            QCOMPARE(verification.findings.size(), std::size_t(1));
            QCOMPARE(int(verification.findings.front().flaw), int(ledger::Flaw::FeedFork));
            QVERIFY(!verification.findings.front().vessel); // reaches every vessel
            QCOMPARE(verification.forks.at(history.device).size(), std::size_t(2));
        }
        // Neither branch is the right one: on both machines the same entries stand at or after the fork.
        const auto beside = [](const Ledger& ledger) {
            std::set<Hash> out;
            (void)ledger.stream([&](const Stored& row) {
                if (row.beside) {
                    out.insert(row.hash);
                }
                return true;
            });
            return out;
        };
        QCOMPARE(beside(ours).size(), std::size_t(5));
        QVERIFY(beside(ours) == beside(theirs));
        QVERIFY(orderOf(ours) == orderOf(theirs));

        // Joined by an authoriser who names every head; naming one joins nothing.
        const Hash own = history.rows.back().hash;
        const Hash other = copy.back().hash;
        for (const bool all : {false, true}) {
            here.back(history);
            canon::Json heads = canon::Json::array({canon::Json(canon::toHex(all ? other : own))});
            history.add(Kind::ForkJoined, payload({{"heads", heads}, {"why", "looked at both"}}), &history.ada, "authoriser");
            test::Shelf joined;
            std::vector<Stored> rows = copy;
            rows.insert(rows.end(), history.rows.begin(), history.rows.end());
            (void)made(joined, rows);
            const auto verification = test::verified(joined.file());
            QVERIFY2(verification.intact() == all, test::findingsText(verification).c_str());
        }
        // Somebody else than an authoriser joins nothing either.
        here.back(history);
        history.add(Kind::ForkJoined, payload({{"heads", canon::Json::array({canon::Json(canon::toHex(other))})}, {"why", "x"}}),
            &history.ben, "gas-tester");
        std::vector<Stored> rows = history.rows;
        rows.insert(
            rows.begin() + static_cast<std::ptrdiff_t>(start.size()), copy.begin() + static_cast<std::ptrdiff_t>(start.size()), copy.end());
        test::Shelf not_joined;
        (void)made(not_joined, rows);
        QVERIFY(!test::verified(not_joined.file()).forks.empty());
    }

    void objectsOfAnotherHand_data()
    {
        QTest::addColumn<QString>("sql");
        QTest::newRow("a trigger") << "CREATE TRIGGER t AFTER INSERT ON entry BEGIN SELECT 1; END";
        QTest::newRow("a view") << "CREATE VIEW v AS SELECT * FROM entry";
        QTest::newRow("a table") << "CREATE TABLE t(x)";
        QTest::newRow("an index") << "CREATE INDEX i ON entry(kind)";
        QTest::newRow("our trigger, made harmless")
            << "DROP TRIGGER entry_is_kept; CREATE TRIGGER entry_is_kept BEFORE DELETE ON entry BEGIN SELECT 1; END";
        QTest::newRow("no table") << "DROP TABLE entry";
    }
    void objectsOfAnotherHand()
    {
        QFETCH(QString, sql);
        const test::History history;
        test::Shelf shelf;
        history.write(shelf.file());
        {
            SQLite::Database db(shelf.file().string(), SQLite::OPEN_READWRITE);
            db.exec(sql.toStdString());
        }
        for (const Mode mode : {Mode::ReadOnly, Mode::ReadWrite}) {
            const auto opened = Ledger::open(shelf.file(), mode);
            QVERIFY(!opened);
            QCOMPARE(int(opened.error().fault), int(ledger::StoreFault::Damaged));
        }
        QVERIFY(!ledger::verify(shelf.file(), {}));
    }
};
BRIMFUL_SUITE(ExchangeTest);

#include "exchange_test.moc"
