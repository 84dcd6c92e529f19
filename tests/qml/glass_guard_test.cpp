// Water on the glass of the real window, by touches: what the screens are given of it, and that STOP answers all the same.
#include "app/tablet/glass_guard.h"

#include "app/tablet/wet_glass.h"
#include "tests/qml/scenes.h"
#include "tests/support/suite.h"

#include <QPointingDevice>
#include <QQuickItem>
#include <QTest>

using namespace brimful;
using tablet::GlassGuard;
using tablet::Sheet;
using tablet::Tablet;
using tablet::WetGlass;
using test::Shown;

namespace {

constexpr int kCleanMs = 260; // longer than WetGlass asks, shorter than its three seconds

QPointingDevice* glass()
{
    static QPointingDevice* const device = QTest::createTouchDevice();
    return device;
}

QPoint middle(const QQuickItem* item) { return item->mapToScene(QPointF(item->width() / 2, item->height() / 2)).toPoint(); }

class Fingers {
public:
    explicit Fingers(Shown& shown)
        : m_shown(shown)
    {
    }
    ~Fingers() { lift(); }
    Fingers(const Fingers&) = delete;
    Fingers& operator=(const Fingers&) = delete;

    QPoint at(const QString& name) const
    {
        const QQuickItem* item = m_shown.named(name);
        if (item == nullptr) {
            QTest::qFail(qPrintable(QStringLiteral("not there: ") + name), __FILE__, __LINE__);
            return {};
        }
        return middle(item);
    }
    void press(int id, const QPoint& place)
    {
        auto sequence = all(id);
        sequence.press(id, place, m_shown.window());
        m_lying[id] = place;
    }
    void lift(int id)
    {
        {
            auto sequence = all(id);
            sequence.release(id, m_lying.value(id), m_shown.window());
        }
        m_lying.remove(id);
    }
    void lift()
    {
        while (!m_lying.isEmpty()) {
            lift(m_lying.firstKey());
        }
    }
    void tap(int id, const QPoint& place, int ms = 0)
    {
        press(id, place);
        if (ms > 0) {
            QTest::qWait(ms);
        }
        lift(id);
        QCoreApplication::processEvents();
    }
    // Three drops far from every key, lifted again.
    void splash()
    {
        for (int id = 11; id <= 13; ++id) {
            press(id, QPoint(300 + id, 205));
        }
        for (int id = 11; id <= 13; ++id) {
            lift(id);
        }
        m_shown.settle();
    }

private:
    // An event that says of the others that they lie where they lay.
    QTest::QTouchEventSequence all(int but)
    {
        auto sequence = QTest::touchEvent(m_shown.window(), glass());
        for (auto one = m_lying.keyBegin(); one != m_lying.keyEnd(); ++one) {
            if (*one != but) {
                sequence.stationary(*one);
            }
        }
        return sequence;
    }
    Shown& m_shown;
    QMap<int, QPoint> m_lying;
};

QString released(Tablet& program)
{
    const auto board = program.session().yard().board();
    for (const report::BoardRow& row : *board) {
        if (row.view->word == report::PlateWord::Released) {
            return QString::fromStdString(row.view->number);
        }
    }
    return {};
}

report::PlateWord wordOf(Tablet& program, const QString& number) { return program.session().yard().vessel(number.toStdString())->word; }

// Who signs is chosen, the PIN is asked.
Sheet* atThePin(Shown& shown)
{
    test::sceneOf(QStringLiteral("15-sign-pin")).go(shown.program());
    Sheet* sheet = shown.program().sheet();
    for (int i = 0; i < 4; ++i) {
        sheet->pinErase();
    }
    shown.settle();
    return sheet;
}

} // namespace

class GlassGuardTest : public QObject {
    Q_OBJECT

private slots:
    void aDigitOnDryGlassCounts();
    void aDigitOnWetGlassDoesNot();
    void afterThreeSecondsItDoesAgain();
    void norDoesItAsAMouse();
    void aHandThatLiesOnStopsAHold();
    void whatWasPressedWhenWaterCameIsCalledOff();
    void stopAnswersOnWetGlass();
    void stopIsNotATouchOfWater();
    void whatGivesDoesNotAnswer();
    void twoOfOneDigit();
    void aKeyThatRepeatsCountsOnce();
    void volumeDownHeldStops();
    void pauseAndF12Stop_data();
    void pauseAndF12Stop();
    void theScreenSaysWhy();
};

void GlassGuardTest::aDigitOnDryGlassCounts()
{
    Shown shown;
    const Sheet* sheet = atThePin(shown);
    const int before = sheet->dots();
    Fingers fingers(shown);
    fingers.tap(1, fingers.at(QStringLiteral("5")));
    QCOMPARE(sheet->dots(), before + 1);
}

void GlassGuardTest::aDigitOnWetGlassDoesNot()
{
    Shown shown;
    const Sheet* sheet = atThePin(shown);
    const int before = sheet->dots();
    Fingers fingers(shown);
    fingers.splash();
    QVERIFY(shown.program().wet());
    fingers.tap(1, fingers.at(QStringLiteral("5")));
    fingers.tap(2, fingers.at(QStringLiteral("5")), kCleanMs); // however well it is pressed
    QCOMPARE(sheet->dots(), before);
}

void GlassGuardTest::afterThreeSecondsItDoesAgain()
{
    Shown shown;
    const Sheet* sheet = atThePin(shown);
    const int before = sheet->dots();
    Fingers fingers(shown);
    fingers.splash();
    QTRY_VERIFY_WITH_TIMEOUT(!shown.program().wet(), static_cast<int>(WetGlass::kDropsMs) + 500);
    shown.settle();
    fingers.tap(1, fingers.at(QStringLiteral("5")));
    QCOMPARE(sheet->dots(), before + 1);
}

// Some systems send a touch as a mouse; a real mouse has no water on it.
void GlassGuardTest::norDoesItAsAMouse()
{
    Shown shown;
    const Sheet* sheet = atThePin(shown);
    const int before = sheet->dots();
    Fingers fingers(shown);
    const QPointF five = fingers.at(QStringLiteral("5"));
    const auto click = [&](const QPointingDevice* device) {
        for (const QEvent::Type type : {QEvent::MouseButtonPress, QEvent::MouseButtonRelease}) {
            const Qt::MouseButtons down = type == QEvent::MouseButtonPress ? Qt::LeftButton : Qt::NoButton;
            QMouseEvent event(type, five, five, shown.window()->mapToGlobal(five), Qt::LeftButton, down, Qt::NoModifier, device);
            QCoreApplication::sendEvent(shown.window(), &event);
        }
        QCoreApplication::processEvents();
    };
    fingers.splash();
    click(glass());
    QCOMPARE(sheet->dots(), before);
    click(QPointingDevice::primaryPointingDevice());
    QCOMPARE(sheet->dots(), before + 1);
}

// A forearm on the key that gives after 1.5 s: its size is a hand's, so what it holds is let go before.
void GlassGuardTest::aHandThatLiesOnStopsAHold()
{
    Shown shown;
    auto* guard = shown.window()->findChild<GlassGuard*>();
    QVERIFY(guard != nullptr);
    QSizeF size(50, 50); // px: 8.5 mm
    guard->setSizeOf([&](const QEventPoint&) { return size; });
    Tablet& program = shown.program();
    program.openVessel(released(program));
    shown.settle();
    QQuickItem* key = shown.named(program.clockPage()->task() + QStringLiteral(", ") + program.clockPage()->taskLine());
    QVERIFY(key != nullptr);
    Fingers fingers(shown);
    fingers.press(1, middle(key));
    QTest::qWait(350);
    QVERIFY(key->property("down").toBool());
    fingers.lift();
    shown.settle();
    program.back();
    program.openVessel(released(program));
    shown.settle();
    size = QSizeF(40, 160); // 27 mm long
    key = shown.named(program.clockPage()->task() + QStringLiteral(", ") + program.clockPage()->taskLine());
    QVERIFY(key != nullptr);
    const Tablet::View before = program.screen();
    fingers.press(2, middle(key));
    QVERIFY(key->property("down").toBool());
    QTest::qWait(350); // nothing moves meanwhile
    QVERIFY(program.wet());
    QVERIFY(!key->property("down").toBool());
    fingers.lift();
    shown.settle();
    QCOMPARE(program.screen(), before);
}

void GlassGuardTest::whatWasPressedWhenWaterCameIsCalledOff()
{
    Shown shown;
    const Sheet* sheet = atThePin(shown);
    const int before = sheet->dots();
    Fingers fingers(shown);
    fingers.press(1, fingers.at(QStringLiteral("5")));
    fingers.press(2, QPoint(300, 205));
    fingers.press(3, QPoint(340, 205));
    QVERIFY(shown.program().wet());
    fingers.lift();
    shown.settle();
    QCOMPARE(sheet->dots(), before);
}

void GlassGuardTest::stopAnswersOnWetGlass()
{
    Shown shown;
    Tablet& program = shown.program();
    const QString number = released(program);
    program.openVessel(number);
    shown.settle();
    QCOMPARE(program.screen(), Tablet::View::Clock);
    Fingers fingers(shown);
    fingers.splash();
    QVERIFY(program.wet());
    QCOMPARE(wordOf(program, number), report::PlateWord::Released);
    fingers.tap(1, fingers.at(QStringLiteral("STOP")), kCleanMs);
    shown.settle();
    QCOMPARE(wordOf(program, number), report::PlateWord::Stopped);
}

// A drop that falls and runs off, a finger that slides, a hand: the release stands.
void GlassGuardTest::stopIsNotATouchOfWater()
{
    Shown shown;
    Tablet& program = shown.program();
    const QString number = released(program);
    program.openVessel(number);
    shown.settle();
    Fingers fingers(shown);
    fingers.splash();
    const QPoint stop = fingers.at(QStringLiteral("STOP"));
    fingers.tap(1, stop, 40);
    QTest::qWait(200);
    QCOMPARE(wordOf(program, number), report::PlateWord::Released);
    fingers.press(2, stop);
    QTest::touchEvent(shown.window(), glass()).move(2, fingers.at(QStringLiteral("Moved")), shown.window());
    QTest::qWait(kCleanMs);
    fingers.lift();
    QCOMPARE(wordOf(program, number), report::PlateWord::Released);
    fingers.press(3, stop);
    fingers.press(4, stop + QPoint(40, 0));
    fingers.press(5, stop + QPoint(80, 0));
    QTest::qWait(kCleanMs);
    fingers.lift();
    QCOMPARE(wordOf(program, number), report::PlateWord::Released);
}

void GlassGuardTest::whatGivesDoesNotAnswer()
{
    Shown shown;
    Tablet& program = shown.program();
    program.openVessel(released(program));
    shown.settle();
    const auto entries = program.session().yard().verify()->entries;
    Fingers fingers(shown);
    fingers.splash();
    fingers.tap(1, fingers.at(program.clockPage()->task() + QStringLiteral(", ") + program.clockPage()->taskLine()), kCleanMs);
    shown.settle();
    QCOMPARE(program.screen(), Tablet::View::Clock);
    fingers.tap(2, fingers.at(QStringLiteral("Back to Vessel")), kCleanMs);
    shown.settle();
    QCOMPARE(program.screen(), Tablet::View::Clock);
    QCOMPARE(program.session().yard().verify()->entries, entries);
}

// Within 80 ms: a finger that lifted pressed twice; two contacts on one key, of which none lifted, are one press.
void GlassGuardTest::twoOfOneDigit()
{
    Shown shown;
    const Sheet* sheet = atThePin(shown);
    const int before = sheet->dots();
    Fingers fingers(shown);
    const QPoint five = fingers.at(QStringLiteral("5"));
    fingers.tap(1, five, 10);
    fingers.tap(2, five, 10);
    QCOMPARE(sheet->dots(), before + 2);
    fingers.press(3, five);
    fingers.press(4, five + QPoint(12, 4));
    fingers.lift();
    shown.settle();
    QCOMPARE(sheet->dots(), before + 3);
}

void GlassGuardTest::aKeyThatRepeatsCountsOnce()
{
    Shown shown;
    const Sheet* sheet = atThePin(shown);
    const int before = sheet->dots();
    const auto send = [&](QEvent::Type type, bool again) {
        QKeyEvent key(type, Qt::Key_5, Qt::NoModifier, QStringLiteral("5"), again);
        QCoreApplication::sendEvent(shown.window(), &key);
    };
    send(QEvent::KeyPress, false);
    for (int i = 0; i < 5; ++i) {
        send(QEvent::KeyRelease, true);
        send(QEvent::KeyPress, true);
    }
    send(QEvent::KeyRelease, false);
    QTest::qWait(60); // a scanner's burst is waited for
    QCOMPARE(sheet->dots(), before + 1);
}

void GlassGuardTest::volumeDownHeldStops()
{
    Shown shown;
    Tablet& program = shown.program();
    const QString number = released(program);
    program.openVessel(number);
    shown.settle();
    QTest::keyPress(shown.window(), Qt::Key_VolumeDown);
    QTest::qWait(700);
    QTest::keyRelease(shown.window(), Qt::Key_VolumeDown);
    QTest::qWait(500);
    QCOMPARE(wordOf(program, number), report::PlateWord::Released); // only quieter
    QTest::keyPress(shown.window(), Qt::Key_VolumeDown);
    QTest::qWait(GlassGuard::kVolumeHeldMs + 200);
    QCOMPARE(wordOf(program, number), report::PlateWord::Stopped);
    QTest::keyRelease(shown.window(), Qt::Key_VolumeDown);
}

void GlassGuardTest::pauseAndF12Stop_data()
{
    QTest::addColumn<int>("key");
    QTest::newRow("Pause") << static_cast<int>(Qt::Key_Pause);
    QTest::newRow("F12") << static_cast<int>(Qt::Key_F12);
}

// On every screen of a vessel, wet or dry, also while something is written.
void GlassGuardTest::pauseAndF12Stop()
{
    QFETCH(int, key);
    Shown shown;
    Tablet& program = shown.program();
    const QString number = released(program);
    program.openVessel(number);
    program.openStep(QString::number(program.session().pack().step("openings")));
    shown.settle();
    Fingers fingers(shown);
    fingers.splash();
    QTest::keyClick(shown.window(), static_cast<Qt::Key>(key));
    shown.settle();
    QCOMPARE(wordOf(program, number), report::PlateWord::Stopped);
}

void GlassGuardTest::theScreenSaysWhy()
{
    Shown shown;
    shown.program().openVessel(released(shown.program()));
    shown.settle();
    Fingers fingers(shown);
    fingers.splash();
    QVERIFY(shown.words().join(u'\n').contains(QLatin1String("Wet glass: wipe")));
    QVERIFY2(shown.covered().isEmpty(), qPrintable(shown.covered().join(u'\n')));
    shown.picture(QStringLiteral("wet-glass"));
    QVERIFY2(shown.warnings().isEmpty(), qPrintable(shown.warnings().join(u'\n')));
}

BRIMFUL_SUITE(GlassGuardTest);
#include "glass_guard_test.moc"
