// The program by keyboard alone, and by a touch: what a key does on every screen.
#include "tests/qml/looking.h"
#include "tests/support/suite.h"

#include <QAccessible>
#include <QQuickItem>
#include <QTest>

using namespace brimful;
using tablet::Sheet;
using tablet::Tablet;
using test::Shown;

class KeyboardTest : public QObject {
    Q_OBJECT

private slots:
    void aNumberIsTypedAndOpens();
    void escapeGoesBackEnterGoesOn();
    void enterPressesTheKeyThatWasGoneTo();
    void aReaderIsToldWhatOpens();
    void digitsReachThePad();
    void f12StopsWithoutAPin();
    void f8SpeaksUp();
    void tabReachesEveryControl();
    void aTouchOnThePadCounts();
    void aNameIsWrittenByTouch();
    void everySignOfAShortCodeHasAKey();
    void enterTakesOnce();
    void pinDotsOnly();
    void releasingTooEarlyDoesNothing();

private:
    static void type(QQuickWindow* window, const QString& text)
    {
        for (const QChar letter : text) {
            QTest::keyClick(window, letter.toLatin1());
        }
        QTest::qWait(50); // until it is sure that no scanner typed
    }
    // What a reader says of what has the focus.
    static QString spokenAt(Shown& shown)
    {
        QAccessibleInterface* face = QAccessible::queryAccessibleInterface(shown.window()->activeFocusItem());
        return face == nullptr ? QString() : face->text(QAccessible::Name);
    }
    static QString held(Shown& shown)
    {
        const auto board = shown.program().session().yard().board();
        for (const report::BoardRow& row : *board) {
            if (row.view->standing.state == rules::State::Held) {
                return QString::fromStdString(row.view->number);
            }
        }
        return {};
    }
};

void KeyboardTest::aNumberIsTypedAndOpens()
{
    Shown shown;
    QTest::keyClick(shown.window(), Qt::Key_Slash);
    type(shown.window(), QStringLiteral("nq-08"));
    QTest::keyClick(shown.window(), Qt::Key_Return);
    shown.settle();
    QCOMPARE(shown.program().plate()->number(), QStringLiteral("NQ-08"));
}

void KeyboardTest::escapeGoesBackEnterGoesOn()
{
    Shown shown;
    shown.program().openVessel(held(shown));
    shown.settle();
    QCOMPARE(shown.program().screen(), Tablet::View::Vessel);
    QTest::keyClick(shown.window(), Qt::Key_Return);
    shown.settle();
    QCOMPARE(shown.program().screen(), Tablet::View::Sheet);
    QTest::keyClick(shown.window(), Qt::Key_Escape);
    shown.settle();
    QCOMPARE(shown.program().screen(), Tablet::View::Vessel);
    QTest::keyClick(shown.window(), Qt::Key_Escape);
    shown.settle();
    QCOMPARE(shown.program().screen(), Tablet::View::Yard);
}

// Who walks by Tab, as a reader's user does, is told a key's name: Enter is for that one. A touch hands Enter back.
void KeyboardTest::enterPressesTheKeyThatWasGoneTo()
{
    Shown shown;
    const auto spoken = [&] { return spokenAt(shown); };
    const auto goTo = [&](const QString& name) {
        for (int i = 0; i < 60 && !spoken().startsWith(name); ++i) {
            QTest::keyClick(shown.window(), Qt::Key_Tab);
        }
        return spoken().startsWith(name);
    };
    QVERIFY(goTo(QStringLiteral("NQ-07")));
    QTest::keyClick(shown.window(), Qt::Key_Return);
    shown.settle();
    QCOMPARE(shown.program().screen(), Tablet::View::Vessel);
    QCOMPARE(shown.program().plate()->number(), QStringLiteral("NQ-07"));
    QVERIFY(goTo(QStringLiteral("Trail")));
    QTest::keyClick(shown.window(), Qt::Key_Return);
    shown.settle();
    QCOMPARE(shown.program().screen(), Tablet::View::Trail);
}

void KeyboardTest::aReaderIsToldWhatOpens()
{
    Shown shown;
    QVERIFY(spokenAt(shown).contains(QLatin1String("Ness Quay Works")));
    shown.program().openVessel(held(shown));
    shown.settle();
    QVERIFY2(spokenAt(shown).contains(shown.program().vesselPage()->reason()), qPrintable(spokenAt(shown)));
    shown.program().openStep(QString::number(shown.program().session().pack().step("place")));
    shown.settle();
    Sheet* sheet = shown.program().sheet();
    const QString first = sheet->askText();
    QVERIFY2(spokenAt(shown).contains(first), qPrintable(spokenAt(shown)));
    QTest::keyClick(shown.window(), Qt::Key_Tab);
    sheet->choose(sheet->options()->rows().front().key);
    sheet->take();
    shown.settle();
    QVERIFY(sheet->askText() != first);
    QVERIFY2(spokenAt(shown).contains(sheet->askText()), qPrintable(spokenAt(shown)));
}

void KeyboardTest::digitsReachThePad()
{
    Shown shown;
    shown.program().openVessel(held(shown));
    shown.program().openStep(QString::number(shown.program().session().pack().step("measure")));
    shown.settle();
    QCOMPARE(shown.program().sheet()->hand(), Sheet::Kind::Number);
    type(shown.window(), QStringLiteral("92.5"));
    QTest::keyClick(shown.window(), Qt::Key_Backspace);
    QCOMPARE(shown.program().sheet()->pad()->shown(), QStringLiteral("92."));
    const QString ask = shown.program().sheet()->askText();
    QTest::keyClick(shown.window(), Qt::Key_Return);
    QVERIFY(shown.program().sheet()->askText() != ask);
}

void KeyboardTest::f12StopsWithoutAPin()
{
    Shown shown;
    const QString number = held(shown);
    shown.program().openVessel(number);
    shown.settle();
    QTest::keyClick(shown.window(), Qt::Key_F12);
    const auto view = shown.program().session().yard().vessel(number.toStdString());
    QVERIFY(view->word == report::PlateWord::Stopped || view->word == report::PlateWord::Refused);
}

void KeyboardTest::f8SpeaksUp()
{
    Shown shown;
    const QString number = held(shown);
    shown.program().openVessel(number);
    shown.settle();
    const auto before = shown.program().session().yard().trail(number.toStdString());
    QTest::keyClick(shown.window(), Qt::Key_F8);
    const auto after = shown.program().session().yard().trail(number.toStdString());
    QCOMPARE(after->size(), before->size() + 1);
    QCOMPARE(after->back().event, std::string("concern"));
    QVERIFY(after->back().person.empty());
}

void KeyboardTest::tabReachesEveryControl()
{
    Shown shown;
    shown.program().openVessel(held(shown));
    shown.settle();
    QSet<QQuickItem*> reached;
    for (int i = 0; i < 80; ++i) {
        QTest::keyClick(shown.window(), Qt::Key_Tab);
        if (shown.window()->activeFocusItem() != nullptr) {
            reached.insert(shown.window()->activeFocusItem());
        }
    }
    for (const char* name : {"Back to Yard", "Speak up"}) {
        QQuickItem* item = shown.named(QLatin1String(name));
        QVERIFY2(item != nullptr && reached.contains(item), name);
    }
    QVERIFY(reached.size() > 10);
}

void KeyboardTest::aTouchOnThePadCounts()
{
    Shown shown;
    shown.program().openVessel(held(shown));
    shown.program().openStep(QString::number(shown.program().session().pack().step("measure")));
    shown.settle();
    for (const char* key : {"3", "0"}) {
        QQuickItem* item = shown.named(QLatin1String(key));
        QVERIFY2(item != nullptr, key);
        const QPointF at = item->mapToScene(QPointF(item->width() / 2, item->height() / 2));
        QTest::mouseClick(shown.window(), Qt::LeftButton, {}, at.toPoint());
    }
    QCOMPARE(shown.program().sheet()->pad()->shown(), QStringLiteral("30"));
}

void KeyboardTest::aNameIsWrittenByTouch()
{
    Shown shown;
    shown.program().add();
    shown.settle();
    for (const char* key : {"Key T", "Digits and signs", "Key 7", "Key 8", "Erase a letter"}) {
        QQuickItem* item = shown.named(QLatin1String(key));
        QVERIFY2(item != nullptr, key);
        QTest::mouseClick(shown.window(), Qt::LeftButton, {}, item->mapToScene(QPointF(item->width() / 2, item->height() / 2)).toPoint());
        shown.settle();
    }
    QCOMPARE(shown.program().sheet()->written(), QStringLiteral("T7"));
}

// A tag's short code ends in a check sign: Crockford's base 32 has five beyond the letters and digits, "*~$=U".
void KeyboardTest::everySignOfAShortCodeHasAKey()
{
    Shown shown;
    shown.program().add();
    shown.settle();
    for (const QChar sign : QStringLiteral("ABCDEFGHJKMNPQRSTVWXYZU-")) {
        QVERIFY2(shown.named(QStringLiteral("Key %1").arg(sign)) != nullptr, qPrintable(QString(sign)));
    }
    QQuickItem* turn = shown.named(QStringLiteral("Digits and signs"));
    QVERIFY(turn != nullptr);
    QTest::mouseClick(shown.window(), Qt::LeftButton, {}, turn->mapToScene(QPointF(turn->width() / 2, turn->height() / 2)).toPoint());
    shown.settle();
    for (const QChar sign : QStringLiteral("0123456789*~$=")) {
        QVERIFY2(shown.named(QStringLiteral("Key %1").arg(sign)) != nullptr, qPrintable(QString(sign)));
    }
}

// A field that takes Enter must not hand it on: the next ask would be taken too.
void KeyboardTest::enterTakesOnce()
{
    Shown shown;
    shown.program().add();
    shown.settle();
    type(shown.window(), QStringLiteral("T-9"));
    QTest::keyClick(shown.window(), Qt::Key_Return);
    shown.settle();
    QCOMPARE(shown.program().sheet()->hand(), Sheet::Kind::Number);
    QCOMPARE(shown.program().sheet()->answered()->count(), 1);
    shown.program().back();
    shown.settle();
    QTest::keyClick(shown.window(), Qt::Key_Slash);
    type(shown.window(), QStringLiteral("nq-08"));
    QTest::keyClick(shown.window(), Qt::Key_Return);
    shown.settle();
    QVERIFY(shown.program().screen() == Tablet::View::Vessel || shown.program().screen() == Tablet::View::Clock);
}

void KeyboardTest::pinDotsOnly()
{
    Shown shown;
    shown.program().openVessel(held(shown));
    shown.program().openStep(QString::number(shown.program().session().pack().step("brim")));
    Sheet* sheet = shown.program().sheet();
    sheet->refuse();
    sheet->choose(QStringLiteral("leaks"));
    sheet->take();
    QCOMPARE(sheet->hand(), Sheet::Kind::People);
    sheet->pickPerson(QStringLiteral("Bea"));
    shown.settle();
    type(shown.window(), QStringLiteral("7391"));
    shown.settle();
    QCOMPARE(sheet->dots(), 4);
    const std::function<void(QQuickItem*)> look = [&](QQuickItem* item) {
        if (item->isVisible() && item->inherits("QQuickText")) {
            QVERIFY(!item->property("text").toString().contains(QLatin1String("7391")));
        }
        for (QQuickItem* child : item->childItems()) {
            look(child);
        }
    };
    look(shown.window()->contentItem());
}

// A press that gives is held 1.5 s; letting go early gives nothing.
void KeyboardTest::releasingTooEarlyDoesNothing()
{
    Shown shown;
    QQmlEngine* engine = qmlEngine(shown.window());
    QQmlComponent component(engine);
    component.setData(
        "import QtQuick\nimport Brimful\nHoldPress { property int times: 0; width: 400; height: 120; title: 'Hold'; onGiven: times += 1 }",
        QUrl());
    auto* item = qobject_cast<QQuickItem*>(component.create());
    QVERIFY2(item != nullptr, qPrintable(component.errorString()));
    item->setParentItem(shown.window()->contentItem());
    item->setZ(10);
    QTest::mousePress(shown.window(), Qt::LeftButton, {}, QPoint(100, 60));
    QTest::qWait(600);
    QTest::mouseRelease(shown.window(), Qt::LeftButton, {}, QPoint(100, 60));
    QCOMPARE(item->property("times").toInt(), 0);
    QTest::mousePress(shown.window(), Qt::LeftButton, {}, QPoint(100, 60));
    QTest::qWait(1800);
    QTest::mouseRelease(shown.window(), Qt::LeftButton, {}, QPoint(100, 60));
    QCOMPARE(item->property("times").toInt(), 1);
    delete item;
}

BRIMFUL_SUITE(KeyboardTest);
#include "keyboard_test.moc"
