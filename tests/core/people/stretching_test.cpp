// A PIN is stretched beside while it is typed: what comes out is what stretching it would give, of the PIN that is asked for and
// no other, and nothing of it stays once it was taken or forgotten.
#include "core/people/device.h"
#include "core/people/stretching.h"
#include "tests/support/suite.h"

#include <QTemporaryDir>
#include <QTest>
#include <sodium.h>

#include <atomic>
#include <latch>

using namespace brimful;
using people::Stretch;
using people::Stretching;

namespace {

Stretch of(const std::string& pin) { return {pin, "0123456789abcdef", 1, 8ULL * 1024 * 1024}; }

// Counts, and says what it was given.
struct Counted {
    std::atomic<int> times{};
    std::string operator()(const Stretch& one)
    {
        ++times;
        return "of " + one.pin;
    }
};

} // namespace

class StretchingTest : public QObject {
    Q_OBJECT
private slots:
    // Against libsodium itself, called here.
    void isArgon2id();
    void isDoneOnce();
    void isOfThePinThatIsAskedFor();
    void anotherInItsWayIsNotWaitedFor();
    void forgetsWhatRuns();
    void costsNoTry();
};

void StretchingTest::isArgon2id()
{
    const Stretch one = of("482913");
    std::string there(32, '\0');
    QCOMPARE(crypto_pwhash(reinterpret_cast<unsigned char*>(there.data()), there.size(), one.pin.data(), one.pin.size(),
                 reinterpret_cast<const unsigned char*>(one.salt.data()), one.operations, one.memory, crypto_pwhash_ALG_ARGON2ID13),
        0);
    Stretching beside;
    QVERIFY(beside.take(one) == there);
    beside.begin(one);
    QVERIFY(beside.take(one) == there);
}

void StretchingTest::isDoneOnce()
{
    Counted counted;
    Stretching beside(std::ref(counted));
    beside.begin(of("482913"));
    QTRY_COMPARE(counted.times.load(), 1);
    beside.begin(of("482913"));
    QCOMPARE(beside.take(of("482913")), std::string("of 482913"));
    QCOMPARE(counted.times.load(), 1);
    // It was taken: a second asking is a second stretching.
    QCOMPARE(beside.take(of("482913")), std::string("of 482913"));
    QCOMPARE(counted.times.load(), 2);
}

void StretchingTest::isOfThePinThatIsAskedFor()
{
    Counted counted;
    Stretching beside(std::ref(counted));
    for (const char* typed : {"482913", "4829137", "48291371"}) {
        beside.begin(of(typed));
    }
    QCOMPARE(beside.take(of("4829137")), std::string("of 4829137"));
    QCOMPARE(beside.take(of("48291371")), std::string("of 48291371"));
    Stretch salted = of("48291371");
    beside.begin(salted);
    salted.salt.back() = 'x';
    const int before = counted.times;
    QCOMPARE(beside.take(salted), std::string("of 48291371"));
    QVERIFY(counted.times > before);
}

void StretchingTest::anotherInItsWayIsNotWaitedFor()
{
    std::latch go(1);
    std::atomic<int> begun{};
    Stretching beside([&](const Stretch& one) {
        ++begun;
        if (one.pin == "111222") {
            go.wait();
        }
        return "of " + one.pin;
    });
    beside.begin(of("111222"));
    QTRY_COMPARE(begun.load(), 1);
    beside.begin(of("482913"));
    QCOMPARE(beside.take(of("482913")), std::string("of 482913")); // while the other still runs
    go.count_down();
}

void StretchingTest::forgetsWhatRuns()
{
    std::latch go(1);
    std::atomic<int> begun{};
    Stretching beside([&](const Stretch& one) {
        if (++begun == 1) {
            go.wait();
        }
        return "of " + one.pin;
    });
    beside.begin(of("482913"));
    QTRY_COMPARE(begun.load(), 1);
    beside.forget();
    go.count_down();
    QCOMPARE(beside.take(of("482913")), std::string("of 482913"));
    QCOMPARE(begun.load(), 2);
}

void StretchingTest::costsNoTry()
{
    const QTemporaryDir root;
    auto device = people::Device::create(
        root.path().toStdString() + "/device", people::randomId<DeviceId>(), "0123456789abcdef0123456789abcdef", people::Sealing::Light);
    const auto person = people::randomId<PersonId>();
    const auto enrolled = device->addPerson(person, "482913");
    QVERIFY(enrolled.has_value());
    for (int i = 0; i < 20; ++i) { // far more than there are tries
        device->expectPin(person, "907164");
    }
    device->expectPin(people::randomId<PersonId>(), "907164");
    device->expectPin(person, "482913");
    auto key = device->unlock(person, "482913", 0);
    QVERIFY(key.has_value());
    QVERIFY(key->publicKey() == *enrolled);
    device->expectPin(person, "482913");
    const auto wrong = device->unlock(person, "907164", 0);
    QVERIFY(!wrong.has_value());
    QCOMPARE(int(wrong.error().fault), int(people::DeviceFault::WrongPin));
    QCOMPARE(wrong.error().left, 4);
    device->expectPin({}, {});
    QVERIFY(device->unlock(person, "482913", 0).has_value());
}

BRIMFUL_SUITE(StretchingTest);

#include "stretching_test.moc"
