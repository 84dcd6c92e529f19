// What the machine would not: a folder of somebody else's, a full disk. Exit 4, nothing half-written, nothing lost.
#include "tests/journeys/program.h"
#include "tests/support/suite.h"

#include <QDir>
#include <QFile>
#include <QProcess>
#include <QTest>

#include <grp.h>
#include <sys/mount.h>
#include <unistd.h>

using namespace brimful::test;

namespace {

void asNobody()
{
    constexpr unsigned kNobody = 65'534;
    if (::setgroups(0, nullptr) != 0 || ::setgid(kNobody) != 0 || ::setuid(kNobody) != 0) {
        ::_exit(99);
    }
}

// Somewhere small that can be filled to the last byte.
class SmallDisk {
public:
    explicit SmallDisk(const QString& folder, const char* size)
        : m_folder(QFile::encodeName(folder))
    {
        QDir().mkpath(folder);
        m_there = ::mount("tmpfs", m_folder.constData(), "tmpfs", 0, size) == 0;
    }
    ~SmallDisk()
    {
        if (m_there) {
            ::umount2(m_folder.constData(), MNT_DETACH);
        }
    }
    SmallDisk(const SmallDisk&) = delete;
    SmallDisk& operator=(const SmallDisk&) = delete;
    [[nodiscard]] bool there() const { return m_there; }

    // Fills what is left, but for `spare` bytes.
    [[nodiscard]] bool fill(qint64 spare) const
    {
        QFile filler(QFile::decodeName(m_folder) + "/filler");
        if (!filler.open(QIODevice::WriteOnly | QIODevice::Unbuffered)) {
            return false;
        }
        const QByteArray block(4096, 'x');
        while (filler.write(block) == block.size()) { }
        return filler.resize(filler.size() - qMin(spare, filler.size()));
    }
    [[nodiscard]] bool empty() const { return QFile::remove(QFile::decodeName(m_folder) + "/filler"); }

private:
    QByteArray m_folder;
    bool m_there{};
};

} // namespace

class MachineTest : public QObject {
    Q_OBJECT

    static QString rows(const Place& place) { return place.sql("SELECT count(*) || ' ' || max(hex(hash)) FROM entry"); }

private slots:
    // Another user of this machine may look; he can neither write nor sign.
    void readOnlyFolder()
    {
        if (::geteuid() != 0) {
            QSKIP("only root can become somebody else");
        }
        const Place place;
        QVERIFY(place.makeDemo());
        const QString before = rows(place);
        QVERIFY(QProcess::execute("chmod", {"755", QFileInfo(place.yard()).path()}) == 0);
        // The program where nobody can reach it too.
        const QString copy = place.path("brimful");
        QVERIFY(QFile::copy(program(), copy));
        QVERIFY(QProcess::execute("chmod", {"755", copy}) == 0);
        const auto ask = [&](const QStringList& arguments) {
            return run(copy, QStringList{"--yard", place.yard(), "--json", "--pin-stdin"} + arguments, pins({"Bea"}), asNobody);
        };
        const Said event = ask({"event", "NQ-01", "moved"});
        QVERIFY2(event.code == kMachine, told(event));
        QVERIFY2(event.error().value("code").toString() == "no-permission", told(event));
        QVERIFY(event.error().value("path").toString().startsWith(place.yard()));
        const Said record = ask({"record", "NQ-03", "letting-out", "--in", place.write("facts.json", "{}"), "--by", "Bea"});
        QVERIFY2(record.code == kMachine, told(record));
        const Said audit = ask({"audit", "NQ-01", "--before", "first-cut"});
        QVERIFY2(audit.code == kYes, told(audit));
        const Said verify = ask({"ledger", "verify"});
        QVERIFY2(verify.code == kYes, told(verify));
        const Said demo = run(copy, {"--json", "demo", place.path("new")}, {}, asNobody);
        QVERIFY2(demo.code == kMachine, told(demo));
        const Said pdf = ask({"audit", "NQ-01", "--before", "first-cut", "--pdf", place.path("audit.pdf")});
        QVERIFY2(pdf.code == kMachine, told(pdf));

        QCOMPARE(rows(place), before);
        QCOMPARE(place.ask({"ledger", "verify"}).code, kYes);
        QCOMPARE(place.ask({"event", "NQ-01", "moved"}).code, kYes); // its owner goes on
    }

    void fullDisk_data()
    {
        QTest::addColumn<int>("spare"); // bytes that are left when the disk is full
        for (const int spare : {0, 4'096, 8'192, 16'384, 32'768}) {
            QTest::newRow(qPrintable(QString::number(spare))) << spare;
        }
    }
    void fullDisk()
    {
        QFETCH(const int, spare);
        if (::geteuid() != 0) {
            QSKIP("only root can make a small disk");
        }
        const Place place;
        const SmallDisk disk(place.yard(), "size=24m");
        if (!disk.there()) {
            QSKIP("no file system may be mounted here");
        }
        QVERIFY(place.makeDemo());
        QCOMPARE(place.ask({"ledger", "verify"}).code, kYes);
        QVERIFY(disk.fill(spare));

        // Until it is really full every act is either whole or refused with 4; then none is taken.
        QStringList taken;
        Said last;
        for (int i = 0; i < 40; ++i) {
            last =
                place.act({"event", "NQ-03", "concern", "--note", QString("try %1 ").arg(i) + QString(900, 'n'), "--by", "Bea"}, {"Bea"});
            if (last.code != kYes) {
                break;
            }
            taken.push_back(last.json().value("entry").toString());
        }
        QVERIFY2(last.code == kMachine, told(last));
        QVERIFY(!last.error().value("code").toString().isEmpty());
        const Said photo = place.act({"record", "NQ-03", "letting-out", "--in", place.write("facts.json", "{}"), "--by", "Bea"}, {"Bea"});
        QVERIFY2(photo.code == kMachine || photo.code == kInput, told(photo));

        // It still answers, and says the truth.
        const Said verify = place.ask({"ledger", "verify"});
        QVERIFY2(verify.code == kYes, told(verify));
        QVERIFY(disk.empty());
        const Said after = place.ask({"ledger", "verify"});
        QVERIFY2(after.code == kYes, told(after));
        for (const QString& entry : taken) {
            QCOMPARE(place.sql("SELECT count(*) FROM entry WHERE hash = x'" + entry + "'"), QString("1"));
        }
        QCOMPARE(
            place.sql("SELECT count(*) FROM entry WHERE json_extract(body, '$.payload.note') LIKE 'try %'"), QString::number(taken.size()));
        const Said again = place.act({"event", "NQ-03", "concern", "--note", "room again", "--by", "Bea"}, {"Bea"});
        QVERIFY2(again.code == kYes, told(again));
    }

    void demoWithoutRoom()
    {
        if (::geteuid() != 0) {
            QSKIP("only root can make a small disk");
        }
        const Place place;
        const SmallDisk disk(place.path("small"), "size=300k");
        if (!disk.there()) {
            QSKIP("no file system may be mounted here");
        }
        const Said said = call({"--json", "demo", place.path("small/yard")});
        QVERIFY2(said.code == kMachine, told(said));
        QVERIFY(!said.error().value("code").toString().isEmpty());
    }
};

BRIMFUL_SUITE(MachineTest);
#include "machine_test.moc"
