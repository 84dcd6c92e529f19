// Guessing a PIN: each try counts before it is answered, waits double, ten end it.
#include "core/people/device.h"
#include "tests/support/suite.h"

#include <QTemporaryDir>
#include <QTest>

#include <csignal>
#include <random>
#include <sys/wait.h>
#include <unistd.h>

using namespace brimful;
using people::Device;
using people::DeviceFault;

namespace {

constexpr const char* kMachine = "0123456789abcdef0123456789abcdef";
constexpr std::string_view kPin = "482913";
constexpr std::string_view kWrong = "907164";
constexpr std::int64_t kDay = 24LL * 3600 * 1000;

struct Desk {
    QTemporaryDir root;
    std::filesystem::path path{std::filesystem::path(root.path().toStdString()) / "device"};
    PersonId person{people::randomId<PersonId>()};
    std::optional<Device> device;

    Desk()
    {
        device = std::move(*Device::create(path, people::randomId<DeviceId>(), kMachine, people::Sealing::Light));
        (void)device->addPerson(person, kPin);
    }
    void reopen()
    {
        device.reset();
        device = std::move(*Device::open(path, kMachine));
    }
    // The fault of a try, or nothing when the key opened.
    std::optional<people::DeviceError> tryPin(std::string_view pin, std::int64_t now)
    {
        auto key = device->unlock(person, pin, now);
        return key ? std::nullopt : std::optional(key.error());
    }
};

} // namespace

class AttemptsTest : public QObject {
    Q_OBJECT

private slots:
    void fiveThenWaitsThatDoubleThenAnAuthoriser_data()
    {
        QTest::addColumn<bool>("reopens");
        QTest::newRow("in one run") << false;
        QTest::newRow("closed and opened between the tries") << true;
    }
    void fiveThenWaitsThatDoubleThenAnAuthoriser()
    {
        QFETCH(bool, reopens);
        Desk desk;
        std::int64_t now = 1'000'000;
        for (int left = 4; left >= 0; --left) {
            const auto wrong = desk.tryPin(kWrong, now);
            QVERIFY(wrong.has_value());
            QCOMPARE(int(wrong->fault), int(DeviceFault::WrongPin));
            QCOMPARE(wrong->left, left);
            if (reopens) {
                desk.reopen();
            }
        }
        for (int wait_s = 60; wait_s <= 60 * 16; wait_s *= 2) {
            // The right PIN waits too: an answer would tell that it is right.
            const auto waiting = desk.tryPin(kPin, now);
            QVERIFY(waiting.has_value());
            QCOMPARE(int(waiting->fault), int(DeviceFault::Waiting));
            QCOMPARE(waiting->wait_s, wait_s);
            QCOMPARE(int(desk.tryPin(kPin, now + wait_s * 1000LL - 1)->fault), int(DeviceFault::Waiting));
            now += wait_s * 1000LL;
            QCOMPARE(int(desk.tryPin(kWrong, now)->fault), int(DeviceFault::WrongPin));
            if (reopens) {
                desk.reopen();
            }
        }
        QCOMPARE(int(desk.tryPin(kPin, now + 1000 * kDay)->fault), int(DeviceFault::NeedsAuthoriser));
        desk.reopen();
        QCOMPARE(int(desk.tryPin(kPin, now + 1000 * kDay)->fault), int(DeviceFault::NeedsAuthoriser));
        // An authoriser lets the person set a new key; it is a new one, the old one stays closed.
        const auto fresh = desk.device->addPerson(desk.person, kWrong);
        QVERIFY(fresh.has_value());
        const auto key = desk.device->unlock(desk.person, kWrong, now);
        QVERIFY(key.has_value());
        QCOMPARE(key->publicKey(), *fresh);
        QCOMPARE(int(desk.tryPin(kPin, now)->fault), int(DeviceFault::WrongPin));
    }

    void theRightPinStartsTheCountAgain()
    {
        Desk desk;
        for (int round = 0; round < 3; ++round) {
            for (int i = 0; i < 4; ++i) {
                QCOMPARE(desk.tryPin(kWrong, 0)->left, 4 - i);
            }
            QVERIFY(!desk.tryPin(kPin, 0).has_value());
        }
    }

    void settingTheClockBackOpensNothing()
    {
        Desk desk;
        for (int i = 0; i < 5; ++i) {
            (void)desk.tryPin(kWrong, kDay);
        }
        QCOMPARE(int(desk.tryPin(kPin, 0)->fault), int(DeviceFault::Waiting));
        QCOMPARE(int(desk.tryPin(kPin, kDay + 59'999)->fault), int(DeviceFault::Waiting));
    }

    void oneGuessedPersonDoesNotStopAnother()
    {
        Desk desk;
        const auto other = people::randomId<PersonId>();
        QVERIFY(desk.device->addPerson(other, kWrong).has_value());
        for (int i = 0; i < 5; ++i) {
            (void)desk.tryPin(kWrong, 0);
        }
        QVERIFY(desk.device->unlock(other, kWrong, 0).has_value());
    }

    // Killing the program before it has answered must not buy tries: at most ten answers whatever is killed when.
    void killedWhileGuessing()
    {
        Desk desk;
        desk.device.reset();
        std::mt19937 random(7);
        int answers = 0;
        bool ended = false;
        std::int64_t now = 0;
        for (int i = 0; i < 200 && !ended; ++i) {
            now += kDay;
            std::array<int, 2> pipe{};
            QCOMPARE(::pipe(pipe.data()), 0);
            const pid_t child = ::fork();
            if (child == 0) {
                auto device = Device::open(desk.path, kMachine);
                auto key = device ? device->unlock(desk.person, kWrong, now) : tl::unexpected(device.error());
                const char answer = key ? 'k' : key.error().fault == DeviceFault::NeedsAuthoriser ? 'e' : 'w';
                (void)!::write(pipe[1], &answer, 1);
                ::_exit(0);
            }
            ::close(pipe[1]);
            ::usleep(std::uniform_int_distribution<useconds_t>(0, 30'000)(random));
            ::kill(child, SIGKILL);
            ::waitpid(child, nullptr, 0);
            char answer = 0;
            if (::read(pipe[0], &answer, 1) == 1) {
                QVERIFY(answer != 'k');
                ended = answer == 'e';
                answers += answer == 'w' ? 1 : 0;
            }
            ::close(pipe[0]);
        }
        QVERIFY2(ended, "two hundred tries and still open");
        QVERIFY2(answers <= 10, qPrintable(QString::number(answers)));
        desk.reopen();
        QCOMPARE(int(desk.tryPin(kPin, now + kDay)->fault), int(DeviceFault::NeedsAuthoriser));
    }

    void strongSealingOpensToo()
    {
        QTemporaryDir root;
        auto device =
            Device::create(root.path().toStdString() + "/device", people::randomId<DeviceId>(), kMachine, people::Sealing::Strong);
        const auto person = people::randomId<PersonId>();
        QVERIFY(device->addPerson(person, kPin).has_value());
        QVERIFY(device->unlock(person, kPin, 0).has_value());
    }
};
BRIMFUL_SUITE(AttemptsTest);

#include "attempts_test.moc"
