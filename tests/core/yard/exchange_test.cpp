// Entries between machines through the yard: the union, forks held until they are joined, copies verified, restored by import;
// a look believes nothing that was not verified.
#include "tests/core/yard/played_yard.h"
#include "tests/support/suite.h"

#include <QDir>
#include <QTest>
#include <SQLiteCpp/SQLiteCpp.h>

#include <fstream>
#include <sys/mount.h>

using namespace brimful;
using report::Why;

namespace {

// A second tablet of this yard, enrolled by Ada; writes its events into a file to be imported.
class OtherTablet {
public:
    OtherTablet(test::Crew& crew, yard::Yard& yard)
        : m_clock(crew.clock)
    {
        const ledger::Person* ada = yard.state().personNamed("Ada");
        auto key = yard.device()->unlock(ada->id, crew.ada.pin, crew.clock.now().wall_ms);
        m_yard = yard.state().yard;
        canon::Json device = canon::Json::object();
        device.set("id", canon::toHex(m_id)).set("key", canon::toHex(m_key.publicKey())).set("name", "Tablet 2");
        ledger::Entry entry;
        entry.device = yard.device()->id();
        // The enrolment stands in the first tablet's feed: after its newest entry.
        std::uint64_t seq = 0;
        std::optional<Hash> head;
        std::vector<Hash> heads;
        const auto folder = yard.folder();
        {
            SQLite::Database db((folder / "ledger.db").string());
            seq = static_cast<std::uint64_t>(db.execAndGet("SELECT max(seq) FROM entry").getInt64());
            SQLite::Statement newest(db, "SELECT lower(hex(hash)) FROM entry ORDER BY row DESC LIMIT 1");
            newest.executeStep();
            head = canon::fromHex<Hash>(newest.getColumn(0).getString());
        }
        entry.seq = seq + 1;
        entry.prev = head;
        entry.parents = {*head};
        entry.kind = ledger::Kind::DeviceEnrolled;
        entry.payload.set("device", device);
        entry.signer = ledger::Signer{ada->id, "authoriser"};
        fill(entry);
        ledger::Stored row = stored(entry);
        row.device_signature = yard.device()->sign(row.hash);
        row.person_signature = key->sign(people::kPersonDomain, row.hash);
        m_rows.push_back(row);
        m_enrolled = row.hash;
    }

    Hash event(const VesselId& vessel, const std::vector<Hash>& parents, const std::string& what)
    {
        ledger::Entry entry;
        entry.device = m_id;
        entry.seq = ++m_seq;
        entry.prev = m_head;
        entry.vessel = vessel;
        entry.parents = parents;
        entry.kind = ledger::Kind::Event;
        entry.payload.set("event", what);
        fill(entry);
        ledger::Stored row = stored(entry);
        row.device_signature = m_key.sign(people::kDeviceDomain, row.hash);
        m_rows.push_back(row);
        m_head = row.hash;
        return row.hash;
    }

    void write(const std::filesystem::path& file) const
    {
        std::ofstream out(file, std::ios::binary);
        out << "brimful-entries 1\n";
        for (const ledger::Stored& row : m_rows) {
            out << "entry " << canon::toHex(row.hash) << ' ' << canon::toHex(row.device_signature) << ' '
                << (row.person_signature ? canon::toHex(*row.person_signature) : "-") << ' ' << row.body << '\n';
        }
        out << "end " << m_rows.size() << " 0\n";
    }

private:
    void fill(ledger::Entry& entry) const
    {
        entry.yard = m_yard;
        entry.at = m_clock.now();
    }
    static ledger::Stored stored(const ledger::Entry& entry)
    {
        ledger::Stored row;
        row.body = ledger::encode(entry);
        row.hash = canon::leafHash(row.body);
        return row;
    }

    yard::ScriptedClock& m_clock;
    YardId m_yard;
    DeviceId m_id{people::randomId<DeviceId>()};
    people::SigningKey m_key{people::SigningKey::generate()};
    std::uint64_t m_seq{};
    std::optional<Hash> m_head;
    Hash m_enrolled;
    std::vector<ledger::Stored> m_rows;
};

void admit(test::Crew& crew, yard::Yard& yard, const char* number)
{
    canon::Json request =
        test::json(R"({"vessel": {"outside_diameter": "30 in", "wall": "1/4 in", "overall_length": "92 in", "heads": "hemispherical"}})");
    request.set("number", number);
    QVERIFY(yard.admit(request, crew.tam));
}

std::uint64_t countOf(yard::Yard& yard) { return yard.verify()->entries; }

QByteArray whyOf(const report::Refusal& refusal)
{
    return QByteArray::fromStdString(std::string(report::whyWord(refusal.why)) + " " + refusal.path + " " + refusal.found);
}

} // namespace

class YardExchangeTest : public QObject {
    Q_OBJECT

    static std::filesystem::path at(const test::Crew& crew, const char* name) { return crew.folder.filePath(name).toStdString(); }

private slots:
    // Two tablets wrote of one vessel without knowing of each other: held, and only an authoriser who names both heads joins them.
    void aForkIsHeldUntilItIsJoined()
    {
        test::Crew crew;
        auto yard = crew.open();
        admit(crew, yard, "NQ-01");
        admit(crew, yard, "NQ-02");
        const auto id = yard.vessel("NQ-01")->id;
        OtherTablet other(crew, yard);
        const Hash theirs = other.event(id, yard.folded("NQ-01")->heads, "moved");
        other.write(at(crew, "other"));
        QVERIFY(yard.event("NQ-02", "concern", {}).has_value() == true);
        // The first tablet's feed went on: the file was made before. Its enrolment now claims a place that is taken.
        const auto late = yard.importEntries(at(crew, "other"));
        QVERIFY2(late, late ? "" : whyOf(late.error()).constData());
        QCOMPARE(late->entries, std::uint64_t(2));
        QCOMPARE(yard.vessel("NQ-02")->word, report::PlateWord::RecordDamaged); // a copied tablet holds every vessel
        QVERIFY(yard.joinFork({}, "looked at both", crew.ada));
        QVERIFY(yard.vessel("NQ-02")->word != report::PlateWord::RecordDamaged);
        (void)theirs;
    }

    void twoTabletsApart()
    {
        test::Crew crew;
        auto yard = crew.open();
        admit(crew, yard, "NQ-01");
        admit(crew, yard, "NQ-02");
        const auto before = yard.folded("NQ-01")->heads;
        const auto id = yard.vessel("NQ-01")->id;
        OtherTablet other(crew, yard);
        other.write(at(crew, "enrolled"));
        QVERIFY(yard.importEntries(at(crew, "enrolled")));
        crew.clock.wait(60'000);
        QVERIFY(yard.event("NQ-01", "moved", {}));
        (void)other.event(id, before, "concern");
        other.write(at(crew, "other"));
        const auto imported = yard.importEntries(at(crew, "other"));
        QVERIFY2(imported, imported ? "" : whyOf(imported.error()).constData());
        QCOMPARE(imported->entries, std::uint64_t(1));
        QCOMPARE(imported->known, std::uint64_t(1));
        const auto again = yard.importEntries(at(crew, "other"));
        QCOMPARE(again->entries, std::uint64_t(0));
        QVERIFY(yard.verify()->intact());

        QVERIFY(yard.folded("NQ-01")->forked);
        QCOMPARE(yard.vessel("NQ-01")->word, report::PlateWord::RecordDamaged);
        QVERIFY(std::ranges::any_of(
            yard.vessel("NQ-01")->standing.next, [](const rules::Next& next) { return next.what == rules::Next::What::JoinFork; }));
        QVERIFY(!yard.folded("NQ-02")->forked); // another vessel is not touched
        // An ordinary entry comes after both and joins nothing.
        QVERIFY(yard.event("NQ-01", "concern", {}));
        QCOMPARE(yard.folded("NQ-01")->heads.size(), std::size_t(1));
        QVERIFY(yard.folded("NQ-01")->forked);
        QCOMPARE(yard.joinFork("NQ-01", "both looked at", crew.tam).error().why, Why::RoleNotHeld);
        QCOMPARE(yard.joinFork("NQ-02", "both looked at", crew.ada).error().why, Why::NothingToClear);
        QVERIFY(yard.joinFork("NQ-01", "both looked at", crew.ada));
        QVERIFY(!yard.folded("NQ-01")->forked);
        QVERIFY(yard.folded("NQ-01")->evidence.whole);
        QCOMPARE(yard.vessel("NQ-01")->word, report::PlateWord::Stopped); // both concerns stand: stops are a union
        auto opened_again = crew.reopen();
        QVERIFY(!opened_again.folded("NQ-01")->forked);
    }

    // The newest entry of another tablet deleted: this machine remembers it.
    void anotherTabletsNewestEntryDeleted()
    {
        test::Crew crew;
        {
            auto yard = crew.open();
            admit(crew, yard, "NQ-01");
            const auto heads = yard.folded("NQ-01")->heads;
            OtherTablet other(crew, yard);
            (void)other.event(yard.vessel("NQ-01")->id, heads, "moved");
            other.write(at(crew, "other"));
            QVERIFY(yard.importEntries(at(crew, "other")));
            QVERIFY(yard.verify()->intact());
        }
        {
            SQLite::Database db((crew.yardFolder() / "ledger.db").string(), SQLite::OPEN_READWRITE);
            db.exec("DROP TRIGGER entry_is_kept; DELETE FROM entry WHERE row = (SELECT max(row) FROM entry)");
        }
        auto yard = crew.reopen();
        QVERIFY(!yard.verify()->intact());
        QCOMPARE(yard.vessel("NQ-01")->word, report::PlateWord::RecordDamaged);
        QVERIFY(yard.event("NQ-01", "concern", {})); // what is written since does not make it forget
        QVERIFY(!crew.reopen().verify()->intact());
        // Two people accept the loss.
        QVERIFY(yard.acceptGap("NQ-01", "somebody deleted it", crew.ada, crew.tam));
        QVERIFY(crew.reopen().verify()->intact());
        QVERIFY(crew.reopen().vessel("NQ-01")->word != report::PlateWord::RecordDamaged);
    }

    void aFileThatIsNotTrueChangesNothing()
    {
        test::Crew crew;
        auto yard = crew.open();
        admit(crew, yard, "NQ-01");
        const auto count = countOf(yard);
        QVERIFY(yard.exportEntries(at(crew, "good"), {}));
        std::ifstream in(at(crew, "good"), std::ios::binary);
        const std::string good{std::istreambuf_iterator<char>(in), {}};
        const auto importing = [&](const std::string& bytes) {
            std::ofstream(at(crew, "bad"), std::ios::binary) << bytes;
            const auto done = yard.importEntries(at(crew, "bad"));
            return done ? std::string("taken in") : std::string(report::whyWord(done.error().why));
        };
        QCOMPARE(importing("nonsense"), std::string("bad-entries"));
        QCOMPARE(importing(good.substr(0, good.size() / 2)), std::string("bad-entries"));
        QCOMPARE(importing(good), std::string("taken in"));
        test::Crew strangers;
        auto foreign = strangers.open();
        QVERIFY(foreign.exportEntries(at(crew, "foreign"), {}));
        QCOMPARE(yard.importEntries(at(crew, "foreign")).error().why, Why::OtherYard);
        // A tablet that nobody enrolled, with everything else right.
        OtherTablet other(crew, yard);
        (void)other.event(yard.vessel("NQ-01")->id, yard.folded("NQ-01")->heads, "concern");
        other.write(at(crew, "other"));
        std::ifstream other_in(at(crew, "other"), std::ios::binary);
        std::string forged{std::istreambuf_iterator<char>(other_in), {}};
        const std::size_t enrolment = forged.find("entry ");
        forged.erase(enrolment, forged.find('\n', enrolment) + 1 - enrolment);
        forged.replace(forged.rfind("end 2"), 5, "end 1");
        QCOMPARE(importing(forged), std::string("forged-entries"));
        QCOMPARE(yard.importEntries(at(crew, "no such file")).error().why, Why::NoSuchFile);
        QCOMPARE(countOf(yard), count);
        QVERIFY(yard.verify()->intact());
    }

    void aBackupIsRestoredByImport()
    {
        test::Crew crew;
        auto yard = crew.open();
        admit(crew, yard, "NQ-01");
        QVERIFY(yard.event("NQ-01", "concern", {}));
        const auto backup = yard.backup(at(crew, "backups"));
        QVERIFY2(backup, backup ? "" : whyOf(backup.error()).constData());
        QCOMPARE(backup->entries, countOf(yard));
        QVERIFY(std::filesystem::exists(backup->file));
        QCOMPARE(QDir(crew.folder.filePath("backups")).entryList(QDir::Files).size(), 1); // nothing unchecked is left
        const auto restored = yard::Yard::restore(at(crew, "restored"), backup->file);
        QVERIFY(restored);
        QCOMPARE(restored->entries, backup->entries);
        QVERIFY(!std::filesystem::exists(at(crew, "restored") / "device"));
        auto again = yard::Yard::open(at(crew, "restored"), yard::Access::ReadOnly, crew.clock);
        QVERIFY(again);
        QVERIFY(again->verify()->intact());
        QCOMPARE(again->vessel("NQ-01")->word, report::PlateWord::Stopped);
        QVERIFY(again->vessel("NQ-01")->head == yard.vessel("NQ-01")->head);
        // Never over entries that are there; a second time, and over the yard itself.
        QCOMPARE(yard::Yard::restore(at(crew, "restored"), backup->file).error().why, Why::YardExists);
        QCOMPARE(yard::Yard::restore(crew.yardFolder(), backup->file).error().why, Why::YardExists);
        std::ofstream(at(crew, "bad"), std::ios::binary) << "brimful-entries 1\nend 0 0\n";
        QCOMPARE(yard::Yard::restore(at(crew, "empty"), at(crew, "bad")).error().why, Why::BadEntries);
        QVERIFY(!std::filesystem::exists(at(crew, "empty") / "ledger.db"));
        // A record that is damaged makes no backup.
        {
            SQLite::Database db((crew.yardFolder() / "ledger.db").string(), SQLite::OPEN_READWRITE);
            db.exec("DROP TRIGGER entry_is_fixed; UPDATE entry SET device_sig = zeroblob(64) WHERE row = 9");
        }
        const auto damaged = crew.reopen(yard::Access::ReadOnly).backup(at(crew, "backups"));
        QVERIFY(!damaged);
        QCOMPARE(damaged.error().why, Why::Damaged);
        QCOMPARE(QDir(crew.folder.filePath("backups")).entryList(QDir::Files).size(), 1);
    }

    void sevenDaysAndFourWeeksAreKept()
    {
        std::vector<std::string> names{"notes.txt", "brimful-0011aabb-.entries"};
        const auto nameAt = [](int day, int hour) {
            return QString("brimful-0011aabb-202606%1T%2%3Z.entries")
                .arg(day, 2, 10, QChar('0'))
                .arg(hour, 2, 10, QChar('0'))
                .arg("0000")
                .toStdString();
        };
        for (int day = 1; day <= 30; ++day) {
            names.push_back(nameAt(day, 6));
            names.push_back(nameAt(day, 18));
        }
        const auto dropped = yard::backupsToDrop(names);
        std::vector<std::string> kept;
        for (const std::string& name : names) {
            if (std::ranges::find(dropped, name) == dropped.end()) {
                kept.push_back(name);
            }
        }
        // Two that are not ours; seven days, 24 to 30 June, the newest of their two weeks (which begin on Thursdays, as 1970 did)
        // among them; and the newest of the two weeks before, 17 and 10 June.
        QCOMPARE(kept.size(), std::size_t(2 + 7 + 2));
        QVERIFY(std::ranges::find(kept, nameAt(17, 18)) != kept.end());
        QVERIFY(std::ranges::find(kept, nameAt(10, 18)) != kept.end());
        for (int day = 24; day <= 30; ++day) {
            QVERIFY(std::ranges::find(kept, nameAt(day, 18)) != kept.end());
            QVERIFY(std::ranges::find(kept, nameAt(day, 6)) == kept.end());
        }
        QVERIFY(std::ranges::find(kept, "notes.txt") != kept.end());
    }

    // At the start only the chain was checked: what somebody forged into a vessel shows at the first look, before any standing.
    void aLookVerifiesTheVesselWhole()
    {
        test::Crew crew;
        {
            auto yard = crew.open();
            admit(crew, yard, "NQ-01");
            admit(crew, yard, "NQ-02");
            QVERIFY(yard.event("NQ-01", "concern", {}));
            QVERIFY(yard.clear("NQ-01", "concern", "hose", "tied", crew.ada, crew.tam));
        }
        {
            SQLite::Database db((crew.yardFolder() / "ledger.db").string(), SQLite::OPEN_READWRITE);
            db.exec("DROP TRIGGER entry_is_fixed; UPDATE entry SET person_sig = zeroblob(64) WHERE kind = 'cleared'");
        }
        auto yard = crew.reopen();
        QVERIFY(yard.vessel("NQ-01")->word == report::PlateWord::RecordDamaged);
        QVERIFY(!yard.folded("NQ-01")->evidence.whole);
        QVERIFY(yard.folded("NQ-02")->evidence.whole);
        QVERIFY(!yard.verify()->intact());
        QVERIFY(!yard.audit("NQ-01", "accept")->verified.intact());
    }

    // The admitting entry too, which stands among the yard's.
    void aLookVerifiesTheAdmittingEntry()
    {
        test::Crew crew;
        {
            auto yard = crew.open();
            admit(crew, yard, "NQ-01");
        }
        {
            SQLite::Database db((crew.yardFolder() / "ledger.db").string(), SQLite::OPEN_READWRITE);
            db.exec("DROP TRIGGER entry_is_fixed; UPDATE entry SET person_sig = zeroblob(64) WHERE kind = 'vessel-admitted'");
        }
        QVERIFY(!crew.reopen().folded("NQ-01")->evidence.whole);
    }

    // An index that hides a row: the table has it, the look must not be told otherwise.
    void anIndexThatLies()
    {
        test::Crew crew;
        {
            auto yard = crew.open();
            admit(crew, yard, "NQ-01");
            QVERIFY(yard.event("NQ-01", "moved", {}));
            QVERIFY(yard.event("NQ-01", "concern", {}));
        }
        {
            SQLite::Database db((crew.yardFolder() / "ledger.db").string(), SQLite::OPEN_READWRITE);
            // The index is emptied by taking its content for another: made on rows of no vessel, then given its old name.
            db.exec("PRAGMA writable_schema=ON");
            db.exec("DROP INDEX entry_vessel");
            db.exec("CREATE INDEX entry_vessel ON entry(vessel) WHERE kind <> 'event'");
            db.exec("UPDATE sqlite_schema SET sql = 'CREATE INDEX entry_vessel ON entry(vessel)' WHERE name = 'entry_vessel'");
            db.exec("PRAGMA writable_schema=RESET");
        }
        auto yard = crew.reopen();
        QCOMPARE(yard.vessel("NQ-01")->word, report::PlateWord::RecordDamaged);
    }

    void aPhotographOnAFullDisk()
    {
        test::Crew crew;
        auto yard = crew.open();
        admit(crew, yard, "NQ-01");
        const std::string shelf = (crew.yardFolder() / "evidence").string();
        if (::mount("none", shelf.c_str(), "tmpfs", 0, "size=64k") != 0) {
            QSKIP("needs the right to mount a small tmpfs");
        }
        std::string photo("\xff\xd8\xff", 3);
        photo.resize(200'000, 'x');
        std::ofstream(at(crew, "photo.jpg"), std::ios::binary) << photo;
        const auto done =
            yard.record({"NQ-01", "identity", canon::Json::object(), {}, {}, {{"plate-photo", at(crew, "photo.jpg")}}}, crew.ada);
        const bool nothing_left = std::ranges::none_of(
            std::filesystem::recursive_directory_iterator(shelf), [](const auto& one) { return one.is_regular_file(); });
        QCOMPARE(::umount(shelf.c_str()), 0);
        QVERIFY(!done);
        QVERIFY2(done.error().why == Why::DiskFull, whyOf(done.error()).constData());
        QVERIFY(nothing_left);
    }

    // After demo and after each command nothing waits in the log.
    void theDemoLeavesNothingInTheLog()
    {
        const QTemporaryDir root;
        const auto where = std::filesystem::path(root.path().toStdString()) / "demo";
        test::makeDemo(where);
        const auto log = where / "ledger.db-wal";
        QVERIFY(!std::filesystem::exists(log) || std::filesystem::file_size(log) == 0);
    }
};
BRIMFUL_SUITE(YardExchangeTest);

#include "exchange_test.moc"
