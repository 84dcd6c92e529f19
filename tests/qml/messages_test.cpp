// The alarm, wet glass and what was scanned, over every screen: each is read whole, covers nothing, and moves no key.
#include "tests/qml/long_text.h"
#include "tests/qml/scenes.h"
#include "tests/support/suite.h"

#include <QQmlComponent>
#include <QQuickItem>
#include <QTest>

using namespace brimful;
using tablet::Tablet;
using test::Shown;

namespace {

struct Way {
    QSize size;
    int text;
};
constexpr Way kWays[] = {{{1280, 800}, 200}, {{800, 1280}, 200}, {{800, 1280}, 100}, {{1280, 800}, 100}};
constexpr int kLastUpright = 2;
constexpr int kLastWide = 3;

QString nameOf(QQuickItem* key) { return key->property("name").toString(); }

// Of two looks at one screen: a key that stood in both stands where it stood.
QStringList moved(const QHash<QQuickItem*, QRectF>& told, const QHash<QQuickItem*, QRectF>& quiet)
{
    QStringList found;
    for (auto one = told.cbegin(); one != told.cend(); ++one) {
        const auto before = quiet.constFind(one.key());
        const bool list = before != quiet.cend() && before->topLeft() == one->topLeft(); // its last row ends sooner
        if (before != quiet.cend() && *before != *one && !list) {
            found.append(QStringLiteral("moved: ") + nameOf(one.key()));
        }
    }
    return found;
}

} // namespace

class MessagesTest : public QObject {
    Q_OBJECT

private slots:
    void coverNothing_data();
    void coverNothing();
    void aCoveredWordIsFound();
    void aHandOnItsWayHearsNothing();
    void whereNobodyCanAnswerNothingIsTold();

private:
    static QStringList look(Shown& shown, const QString& picture, int last, const std::function<void()>& quiet);
};

void MessagesTest::coverNothing_data()
{
    QTest::addColumn<QString>("scene");
    QTest::addColumn<bool>("long_text");
    for (const test::Scene& one : test::scenes()) {
        QTest::addRow("%s", one.name) << QString::fromLatin1(one.name) << false;
    }
    for (const char* scene : {"01-yard", "02-vessel", "16-add", "17-set-up", "17-law"}) {
        QTest::addRow("%s long", scene) << QString::fromLatin1(scene) << true;
    }
}

// Told, looked at, answered, looked at again. `last`: how the glass is held when it is answered.
QStringList MessagesTest::look(Shown& shown, const QString& picture, int last, const std::function<void()>& quiet)
{
    QStringList found;
    const int step = shown.program().screen() == Tablet::View::Figure ? 2 : 1; // half the scenes, one strip on top of all
    for (int i = step - 1; i < static_cast<int>(std::size(kWays)); i += step) {
        const Way& way = kWays[(last + 1 + i) % static_cast<int>(std::size(kWays))];
        shown.program().setTextSize(way.text);
        shown.resize(way.size);
        const QString name = QStringLiteral("%1x%2-%3: ").arg(way.size.width()).arg(way.size.height()).arg(way.text);
        for (const QString& flaw : shown.covered()) {
            found.append(name + flaw);
        }
        if (qEnvironmentVariableIsSet("BRIMFUL_PICTURES")) {
            shown.picture(QStringLiteral("messages/%1-%2x%3-%4").arg(picture).arg(way.size.width()).arg(way.size.height()).arg(way.text));
        }
    }
    const auto told = shown.keys();
    quiet();
    shown.settle();
    if (shown.covered() != QStringList{QStringLiteral("0 messages")}) {
        found.append(QStringLiteral("still told"));
    }
    return found + moved(told, shown.keys());
}

void MessagesTest::coverNothing()
{
    QFETCH(QString, scene);
    QFETCH(bool, long_text);
    const auto language = long_text ? std::make_unique<test::LongText>() : nullptr;
    const auto stage = test::Stage::of(test::sceneOf(scene), kWays[0].size, true);
    Shown& shown = stage->shown();
    Tablet& program = shown.program();
    const Tablet::View before = program.screen();
    const QString picture = scene + (long_text ? QStringLiteral("-long") : QString());
    program.hearAlarm();
    QStringList found;
    const auto wet = [&](const char* name, int last) {
        program.setWet(true);
        found += look(shown, picture + QLatin1String(name), last, [&] { program.setWet(false); });
    };
    if (!program.session().isOpen() || before == Tablet::View::Recovery || before == Tablet::View::Fault) {
        wet("-wet", kLastUpright); // no work, no tag
        QVERIFY2(found.isEmpty(), qPrintable(found.join(QStringLiteral("\n    "))));
        return;
    }
    if (before == Tablet::View::Yard) { // scanned on another screen, taken along
        program.setUp();
        program.scanned(QStringLiteral("5012345678900"));
        program.back();
    } else if (before != Tablet::View::Sheet || !program.sheet()->asksTag()) { // there a scan is the answer
        program.scanned(QStringLiteral("5012345678900"));
    }
    if (!program.band().isEmpty()) {
        found = look(shown, picture + QStringLiteral("-scan"), kLastUpright, [&] { program.bandStay(); });
    }
    QCOMPARE(program.screen(), before);
    if (!scene.startsWith(QLatin1String("06-alarm"))) { // there it rang already
        stage->runOut();
        QVERIFY(!program.alarm().isEmpty());
        if (long_text) { // in the same place as the others
            program.setWet(true);
            found += look(shown, picture + QStringLiteral("-alarm-wet"), kLastUpright, [&] {
                program.setWet(false);
                program.hearAlarm();
            });
            wet("-wet", kLastWide);
            QVERIFY2(found.isEmpty(), qPrintable(found.join(QStringLiteral("\n    "))));
            return;
        }
        found += look(shown, picture + QStringLiteral("-alarm"), kLastWide, [&] { program.hearAlarm(); });
    }
    QVERIFY2(found.isEmpty(), qPrintable(found.join(QStringLiteral("\n    "))));
    QVERIFY2(shown.warnings().isEmpty(), qPrintable(shown.warnings().join(QStringLiteral("\n    "))));
}

// The measuring itself: a word laid under a message, and a second message, are found.
void MessagesTest::aCoveredWordIsFound()
{
    Shown shown;
    shown.program().setUp();
    shown.program().scanned(QStringLiteral("5012345678900"));
    shown.settle();
    QVERIFY2(shown.covered().isEmpty(), qPrintable(shown.covered().join(u'\n')));
    QQuickItem* stay = shown.named(QStringLiteral("Stay"));
    QVERIFY(stay != nullptr);
    QQmlComponent word(qmlEngine(shown.window()));
    word.setData("import QtQuick\nText { text: 'beneath'; font.pixelSize: 40 }", QUrl());
    const std::unique_ptr<QQuickItem> beneath(qobject_cast<QQuickItem*>(word.create()));
    QVERIFY2(beneath != nullptr, qPrintable(word.errorString()));
    beneath->setParentItem(shown.window()->contentItem());
    beneath->setPosition(stay->mapToScene(QPointF(-200, 10)));
    QCOMPARE(shown.covered(), QStringList{QStringLiteral("covered: beneath")});
}

// Who presses what stood there a moment before does not quiet the alarm; who presses then does.
void MessagesTest::aHandOnItsWayHearsNothing()
{
    const auto stage = test::Stage::of(test::sceneOf(QStringLiteral("17-set-up")), kWays[0].size, true);
    Shown& shown = stage->shown();
    stage->runOut();
    shown.settle();
    QQuickItem* key = shown.named(QStringLiteral("I see it: the alarm goes, nothing else"));
    QVERIFY(key != nullptr);
    const QPoint at = key->mapToScene(QPointF(key->width() / 2, key->height() / 2)).toPoint();
    QTest::mouseClick(shown.window(), Qt::LeftButton, {}, at);
    shown.settle();
    QVERIFY(!shown.program().alarm().isEmpty());
    QTest::qWait(600);
    QTest::mouseClick(shown.window(), Qt::LeftButton, {}, at);
    shown.settle();
    QVERIFY(shown.program().alarm().isEmpty());
}

// Before there is a yard, while its recovery text is read, and at a fault nothing that is scanned is told.
void MessagesTest::whereNobodyCanAnswerNothingIsTold()
{
    for (const char* scene : {"13-first-start", "13-recovery", "14-fault"}) {
        const auto stage = test::Stage::of(test::sceneOf(QString::fromLatin1(scene)), kWays[0].size);
        Tablet& program = stage->shown().program();
        program.scanned(QStringLiteral("5012345678900"));
        program.tick();
        QVERIFY2(program.band().isEmpty() && program.alarm().isEmpty(), scene);
    }
}

BRIMFUL_SUITE(MessagesTest);
#include "messages_test.moc"
