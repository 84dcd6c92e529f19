// A scanner that types, on any screen; and the band that speaks of what was scanned.
#include "app/tablet/plans.h"
#include "tests/qml/looking.h"
#include "tests/support/suite.h"

#include <QQuickItem>
#include <QTest>

using namespace brimful;
using tablet::Sheet;
using tablet::Tablet;
using test::Shown;

class ScannerTest : public QObject {
    Q_OBJECT

private slots:
    void opensAVesselFromTheYard();
    void asksBeforeItLeavesASheet();
    void doubtsATagOfItsOwnVesselOnly();
    void answersWhereTheTagIsAsked();
    void slowKeysAreNoScan();
    void saysWhatItDoesNotKnow();

private:
    static void scan(Shown& shown, const QString& text)
    {
        for (const QChar letter : text) {
            QTest::keyClick(shown.window(), letter.toLatin1());
        }
        QTest::keyClick(shown.window(), Qt::Key_Return);
        shown.settle();
    }
    static QString tagOf(Shown& shown, const char* number)
    {
        const auto tag = shown.program().session().yard().printTag(number, "A6", 0, true);
        return tag ? QString::fromStdString(tag->text) : QString();
    }
};

void ScannerTest::opensAVesselFromTheYard()
{
    Shown shown;
    const QString tag = tagOf(shown, "NQ-03");
    QVERIFY(tag.size() > 100);
    scan(shown, tag);
    QCOMPARE(shown.program().screen(), Tablet::View::Vessel); // its Enter did not press the black button too
    QCOMPARE(shown.program().plate()->number(), QStringLiteral("NQ-03"));
}

void ScannerTest::asksBeforeItLeavesASheet()
{
    Shown shown;
    shown.program().openVessel(QStringLiteral("NQ-07"));
    shown.program().openStep(QString::number(shown.program().session().pack().step("measure")));
    shown.settle();
    QCOMPARE(shown.program().screen(), Tablet::View::Sheet);
    QVERIFY(shown.program().sheet()->pad()->empty());
    scan(shown, tagOf(shown, "NQ-03"));
    QCOMPARE(shown.program().screen(), Tablet::View::Sheet);
    QVERIFY(shown.program().sheet()->pad()->empty()); // not one of its signs reached the pad
    QVERIFY(shown.program().band().contains(QLatin1String("NQ-03")));
    QVERIFY2(shown.flaws().isEmpty(), qPrintable(shown.flaws().join(u'\n')));
    shown.picture(QStringLiteral("band"));
    shown.program().bandStay();
    QVERIFY(shown.program().band().isEmpty());
    QCOMPARE(shown.program().plate()->number(), QStringLiteral("NQ-07"));
    scan(shown, tagOf(shown, "NQ-03"));
    QQuickItem* go = shown.named(QStringLiteral("Go to NQ-03"));
    QVERIFY(go != nullptr);
    QTest::mouseClick(shown.window(), Qt::LeftButton, {}, go->mapToScene(QPointF(go->width() / 2, go->height() / 2)).toPoint());
    shown.settle();
    QCOMPARE(shown.program().screen(), Tablet::View::Vessel);
    QCOMPARE(shown.program().plate()->number(), QStringLiteral("NQ-03"));
    QVERIFY(shown.warnings().isEmpty());
}

// An old tag of another vessel, read over a sheet: what is wrong with it is not said of the vessel that is open.
void ScannerTest::doubtsATagOfItsOwnVesselOnly()
{
    Shown shown;
    const QString older = tagOf(shown, "NQ-03");
    QVERIFY(shown.program().session().yard().printTag("NQ-03", "A6", 0, false).has_value());
    shown.program().openVessel(QStringLiteral("NQ-07"));
    shown.program().openStep(QString::number(shown.program().session().pack().step("measure")));
    shown.settle();
    scan(shown, older);
    QVERIFY(shown.program().band().contains(QLatin1String("NQ-03")));
    QVERIFY2(shown.program().band().contains(QLatin1String("not the newest")), qPrintable(shown.program().band()));
    QCOMPARE(shown.program().bandGoLabel(), QStringLiteral("Go to NQ-03"));
    QVERIFY(!shown.program().vesselPage()->message().contains(QLatin1String("not the newest")));
    shown.program().bandGoThere();
    shown.program().back();
    scan(shown, older);
    QCOMPARE(shown.program().plate()->number(), QStringLiteral("NQ-03"));
    QVERIFY(shown.program().vesselPage()->message().contains(QLatin1String("not the newest")));
}

void ScannerTest::answersWhereTheTagIsAsked()
{
    Shown shown;
    const rules::Pack& pack = shown.program().session().pack();
    const QString older = tagOf(shown, "NQ-02");
    QVERIFY(shown.program().session().yard().printTag("NQ-02", "A6", 0, false).has_value());
    const QString newest = tagOf(shown, "NQ-02");
    QVERIFY(older != newest);
    shown.program().openVessel(QStringLiteral("NQ-02"));
    Sheet* sheet = shown.program().sheet();
    sheet->open(tablet::holdPointPlan(shown.program().session(), "NQ-02", pack.holdPoint("first-cut")), &shown.program().session().yard(),
        {}, shown.program().session().reading);
    const QString tag_first = sheet->askText();
    QVERIFY(sheet->takeScan(older));
    QCOMPARE(sheet->askText(), tag_first);
    QVERIFY(sheet->message().contains(QLatin1String("Not the newest tag")));
    QVERIFY(sheet->takeScan(newest));
    QVERIFY(sheet->askText() != tag_first);
    QVERIFY(!sheet->takeScan(newest)); // a question of another kind is not answered by a tag
}

void ScannerTest::slowKeysAreNoScan()
{
    Shown shown;
    shown.program().openVessel(QStringLiteral("NQ-07"));
    shown.program().openStep(QString::number(shown.program().session().pack().step("measure")));
    shown.settle();
    for (int i = 0; i < 9; ++i) {
        QTest::keyClick(shown.window(), Qt::Key_1);
        QTest::qWait(60);
    }
    QVERIFY(!shown.program().sheet()->pad()->empty());
    QVERIFY(shown.program().band().isEmpty());
}

void ScannerTest::saysWhatItDoesNotKnow()
{
    Shown shown;
    shown.program().openVessel(QStringLiteral("NQ-07"));
    shown.settle();
    scan(shown, QStringLiteral("5012345678900"));
    QVERIFY(shown.program().band().contains(QLatin1String("5012345678900")));
    QVERIFY(shown.program().bandGoLabel().isEmpty());
    QCOMPARE(shown.program().screen(), Tablet::View::Vessel);
    QVERIFY2(shown.flaws().isEmpty(), qPrintable(shown.flaws().join(u'\n')));
}

BRIMFUL_SUITE(ScannerTest);
#include "scanner_test.moc"
