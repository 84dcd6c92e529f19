// The device folder: bound to its machine, told apart when damaged, holding what may be lost with it.
#include "core/people/device.h"
#include "tests/support/suite.h"

#include <QDir>
#include <QFile>
#include <QTemporaryDir>
#include <QTest>

#include <csignal>
#include <sys/mount.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

using namespace brimful;
using people::Device;
using people::DeviceFault;

namespace {

constexpr const char* kMachine = "0123456789abcdef0123456789abcdef";
constexpr std::string_view kPin = "482913";

struct Folder {
    QTemporaryDir root;
    std::filesystem::path path{std::filesystem::path(root.path().toStdString()) / "device"};

    tl::expected<Device, people::DeviceError> create(people::Sealing sealing = people::Sealing::Light) const
    {
        return Device::create(path, people::randomId<DeviceId>(), kMachine, sealing);
    }
    [[nodiscard]] QString file(const char* name) const { return QString::fromStdString((path / name).string()); }
};

QByteArray contentOf(const QString& name)
{
    QFile file(name);
    return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
}

void write(const QString& name, const QByteArray& bytes)
{
    QFile file(name);
    QVERIFY(file.open(QIODevice::WriteOnly));
    QCOMPARE(file.write(bytes), bytes.size());
}

} // namespace

class DeviceTest : public QObject {
    Q_OBJECT

private slots:
    void opensAgainAsTheSame()
    {
        Folder folder;
        auto made = folder.create();
        QVERIFY(made.has_value());
        const DeviceId id = made->id();
        const PublicKey key = made->publicKey();
        made = tl::unexpected(people::DeviceError{});
        auto again = Device::open(folder.path, kMachine);
        QVERIFY(again.has_value());
        QCOMPARE(again->id(), id);
        QCOMPARE(again->publicKey(), key);
        const auto hash = people::randomId<Hash>();
        QVERIFY(people::verifies(key, people::kDeviceDomain, hash, again->sign(hash)));
        QVERIFY(people::verifies(key, people::kTagDomain, hash, again->signTag(hash)));
    }

    void onlyItsOwnerReadsIt()
    {
        Folder folder;
        QVERIFY(folder.create().has_value());
        struct stat about { };
        QCOMPARE(::stat((folder.path / "device.key").c_str(), &about), 0);
        QCOMPARE(int(about.st_mode & 0777U), 0600);
        QCOMPARE(::stat(folder.path.c_str(), &about), 0);
        QCOMPARE(int(about.st_mode & 0777U), 0700);
    }

    void missingAndForeign()
    {
        Folder folder;
        QCOMPARE(int(Device::open(folder.path, kMachine).error().fault), int(DeviceFault::Missing));
        QVERIFY(folder.create().has_value());
        QCOMPARE(int(Device::open(folder.path, "another machine").error().fault), int(DeviceFault::OtherMachine));
        QCOMPARE(int(Device::open(folder.path, "").error().fault), int(DeviceFault::OtherMachine));
        QVERIFY(Device::open(folder.path, kMachine).has_value());
    }

    void everyDamagedByteOfTheKeyShows()
    {
        Folder folder;
        QVERIFY(folder.create().has_value());
        const QByteArray right = contentOf(folder.file("device.key"));
        for (qsizetype at = 0; at < right.size(); ++at) {
            QByteArray wrong = right;
            wrong[at] = static_cast<char>(wrong[at] ^ 0x20);
            write(folder.file("device.key"), wrong);
            const auto opened = Device::open(folder.path, kMachine);
            QVERIFY2(!opened.has_value(), qPrintable(QString::number(at)));
            QCOMPARE(int(opened.error().fault), int(DeviceFault::Damaged));
        }
        for (const QByteArray& wrong : {QByteArray(), right.left(right.size() - 1), right + "x"}) {
            write(folder.file("device.key"), wrong);
            QCOMPARE(int(Device::open(folder.path, kMachine).error().fault), int(DeviceFault::Damaged));
        }
        write(folder.file("device.key"), right);
        QVERIFY(Device::open(folder.path, kMachine).has_value());
    }

    void damagedDatabase()
    {
        Folder folder;
        QVERIFY(folder.create().has_value());
        write(folder.file("device.db"), QByteArray(8192, 'x'));
        QCOMPARE(int(Device::open(folder.path, kMachine).error().fault), int(DeviceFault::Damaged));
    }

    void cannotBeMadeWhereNothingCanBeWritten()
    {
        QTemporaryDir root;
        const QString file = root.filePath("file");
        write(file, "x");
        const auto made = Device::create(file.toStdString() + "/device", people::randomId<DeviceId>(), kMachine, people::Sealing::Light);
        QCOMPARE(int(made.error().fault), int(DeviceFault::Unwritable));
    }

    void aFullDiskIsSaid()
    {
        QTemporaryDir root;
        const std::string where = root.path().toStdString();
        if (::mount("none", where.c_str(), "tmpfs", 0, "size=256k") != 0) {
            QSKIP("needs the right to mount a small tmpfs");
        }
        {
            auto device = Device::create(where + "/device", people::randomId<DeviceId>(), kMachine, people::Sealing::Light);
            QVERIFY(device.has_value());
            int kept = 0;
            auto done = device->putDraft("0", std::string(20'000, 'x'));
            for (; done && kept < 100; ++kept) {
                done = device->putDraft(std::to_string(kept), std::string(20'000, 'x'));
            }
            QVERIFY2(!done.has_value(), "twenty times the disk went in");
            QCOMPARE(int(done.error().fault), int(DeviceFault::Unwritable));
            QVERIFY(kept > 0);
        }
        QCOMPARE(::umount(where.c_str()), 0);
    }

    void keysOpenWithTheirPinOnThisDeviceOnly()
    {
        Folder folder;
        auto device = folder.create();
        const auto person = people::randomId<PersonId>();
        QVERIFY(!device->hasKey(person));
        QCOMPARE(int(device->unlock(person, kPin, 0).error().fault), int(DeviceFault::NoSuchKey));
        QCOMPARE(int(device->addPerson(person, "123456").error().fault), int(DeviceFault::WeakPin));
        QVERIFY(!device->hasKey(person));
        const auto public_key = device->addPerson(person, kPin);
        QVERIFY(public_key.has_value());
        QVERIFY(device->hasKey(person));
        const auto key = device->unlock(person, kPin, 0);
        QVERIFY(key.has_value());
        QCOMPARE(key->publicKey(), *public_key);

        // Sealed keys carried to another device open nothing, PIN or not.
        Folder other;
        QVERIFY(other.create().has_value());
        device = tl::unexpected(people::DeviceError{}); // closing writes all into device.db
        QVERIFY(QFile::remove(other.file("device.db")));
        QVERIFY(QFile::copy(folder.file("device.db"), other.file("device.db")));
        auto elsewhere = Device::open(other.path, kMachine);
        QVERIFY(elsewhere.has_value() && elsewhere->hasKey(person));
        QCOMPARE(int(elsewhere->unlock(person, kPin, 0).error().fault), int(DeviceFault::WrongPin));
    }

    // The same device by name, with another secret: a copied database and the right PIN open nothing.
    void anotherSecretOpensNothing()
    {
        const auto id = people::randomId<DeviceId>();
        const auto person = people::randomId<PersonId>();
        Folder folder;
        Folder other;
        {
            auto device = Device::create(folder.path, id, kMachine, people::Sealing::Light);
            QVERIFY(device->addPerson(person, kPin).has_value());
            QVERIFY(Device::create(other.path, id, kMachine, people::Sealing::Light).has_value());
        }
        QVERIFY(QFile::remove(other.file("device.db")));
        QVERIFY(QFile::copy(folder.file("device.db"), other.file("device.db")));
        QVERIFY(Device::open(folder.path, kMachine)->unlock(person, kPin, 0).has_value());
        QCOMPARE(int(Device::open(other.path, kMachine)->unlock(person, kPin, 0).error().fault), int(DeviceFault::WrongPin));
    }

    void sealedUnderItsOwnPerson()
    {
        Folder folder;
        auto device = folder.create();
        const auto one = people::randomId<PersonId>();
        const auto two = people::randomId<PersonId>();
        const auto key_one = device->addPerson(one, kPin);
        const auto key_two = device->addPerson(two, "907164");
        QVERIFY(key_one && key_two && *key_one != *key_two);
        QCOMPARE(device->unlock(two, "907164", 0)->publicKey(), *key_two);
        QCOMPARE(int(device->unlock(two, kPin, 0).error().fault), int(DeviceFault::WrongPin));
    }

    void noSecretStandsInTheOpen()
    {
        Folder folder;
        auto device = folder.create();
        const auto person = people::randomId<PersonId>();
        QVERIFY(device->addPerson(person, kPin).has_value());
        const auto key = device->unlock(person, kPin, 0);
        const QByteArray seed(key->seed().data(), static_cast<qsizetype>(key->seed().size()));
        for (const QString& name : QDir(QString::fromStdString(folder.path.string())).entryList(QDir::Files)) {
            const QByteArray bytes = contentOf(folder.file(qPrintable(name)));
            QVERIFY2(!bytes.contains(seed) && !bytes.contains(kPin.data()), qPrintable(name));
        }
    }

    void anchor()
    {
        Folder folder;
        auto device = folder.create();
        QVERIFY(device->readAnchor().has_value() && !device->readAnchor()->has_value());
        const people::Anchor anchor{41, people::randomId<Hash>()};
        QVERIFY(device->writeAnchor(anchor).has_value());
        QCOMPARE(**device->readAnchor(), anchor);
        const people::Anchor next{42, people::randomId<Hash>()};
        QVERIFY(device->writeAnchor(next).has_value());
        QCOMPARE(**Device::open(folder.path, kMachine)->readAnchor(), next);

        const QByteArray right = contentOf(folder.file("anchor"));
        for (qsizetype at = 0; at < right.size(); ++at) {
            QByteArray wrong = right;
            wrong[at] = static_cast<char>(wrong[at] ^ 1);
            write(folder.file("anchor"), wrong);
            QVERIFY2(!device->readAnchor().has_value(), qPrintable(QString::number(at)));
            QCOMPARE(int(device->readAnchor().error().fault), int(DeviceFault::Damaged));
        }
        Folder other;
        auto stranger = other.create();
        QVERIFY(stranger->writeAnchor(anchor).has_value());
        write(folder.file("anchor"), contentOf(other.file("anchor")));
        QCOMPARE(int(device->readAnchor().error().fault), int(DeviceFault::Damaged));
    }

    void draftsAndSettingsStay()
    {
        Folder folder;
        auto device = folder.create();
        QVERIFY(device->putDraft("NQ-01/fill", "{\"a\":1}").has_value());
        QVERIFY(device->putDraft("NQ-01/fill", "ünï'); DROP TABLE draft;--").has_value());
        QVERIFY(device->putSetting("unit", "in").has_value());
        device = tl::unexpected(people::DeviceError{});
        device = Device::open(folder.path, kMachine);
        QCOMPARE(device->draft("NQ-01/fill"), std::optional<std::string>("ünï'); DROP TABLE draft;--"));
        QCOMPARE(device->setting("unit"), std::optional<std::string>("in"));
        QCOMPARE(device->draft("unit"), std::nullopt);
        QVERIFY(device->dropDraft("NQ-01/fill").has_value());
        QVERIFY(device->dropDraft("NQ-01/fill").has_value());
        QCOMPARE(device->draft("NQ-01/fill"), std::nullopt);
    }

    void oneTabletAtATime()
    {
        Folder folder;
        auto first = folder.create();
        auto second = Device::open(folder.path, kMachine); // commands may work beside the tablet
        QVERIFY(first->lockForTablet().has_value());
        QVERIFY(first->lockForTablet().has_value());
        QCOMPARE(int(second->lockForTablet().error().fault), int(DeviceFault::Locked));
        first = tl::unexpected(people::DeviceError{});
        QVERIFY(second->lockForTablet().has_value());
    }

    void aKilledTabletLetsGo()
    {
        Folder folder;
        auto device = folder.create();
        std::array<int, 2> pipe{};
        QCOMPARE(::pipe(pipe.data()), 0);
        const pid_t child = ::fork();
        if (child == 0) {
            auto its = Device::open(folder.path, kMachine);
            const char locked = its && its->lockForTablet() ? 'y' : 'n';
            (void)!::write(pipe[1], &locked, 1);
            ::pause();
            ::_exit(0);
        }
        char locked = 0;
        QCOMPARE(::read(pipe[0], &locked, 1), ssize_t(1));
        QCOMPARE(locked, 'y');
        QCOMPARE(int(device->lockForTablet().error().fault), int(DeviceFault::Locked));
        ::kill(child, SIGKILL);
        ::waitpid(child, nullptr, 0);
        QVERIFY(device->lockForTablet().has_value());
        ::close(pipe[0]);
        ::close(pipe[1]);
    }
};
BRIMFUL_SUITE(DeviceTest);

#include "device_test.moc"
