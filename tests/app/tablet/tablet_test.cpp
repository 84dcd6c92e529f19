// The program without its screens: where each press leads, and that what only takes away needs nobody's PIN.
#include "app/tablet/tablet.h"
#include "tests/app/tablet/demo_yard.h"
#include "tests/core/ledger/fault_vfs.h"
#include "tests/support/suite.h"

#include <QAbstractItemModelTester>
#include <QTest>

using namespace brimful;
using tablet::Tablet;

class TabletTest : public QObject {
    Q_OBJECT

private slots:
    void withoutAYardItStartsHere();
    void opensTheYardInOrderOfNeed();
    void everyVesselOpens();
    void questionsToAsk();
    void stopNeedsNoPin();
    void speakingUpStopsTheVessel();
    void aSecondTabletIsTold();
    void aNumberOrATagOpensItsVessel();
    void aFaultHoldsUntilItIsTriedAgain_data();
    void aFaultHoldsUntilItIsTriedAgain();
};

void TabletTest::withoutAYardItStartsHere()
{
    QTemporaryDir dir;
    Tablet program(std::filesystem::path(dir.path().toStdString()) / "nothing");
    program.start();
    QCOMPARE(program.screen(), Tablet::View::FirstStart);
}

void TabletTest::opensTheYardInOrderOfNeed()
{
    const test::DemoYard demo;
    Tablet program(demo.folder());
    const QAbstractItemModelTester tester(program.yardPage(), QAbstractItemModelTester::FailureReportingMode::QtTest);
    program.start();
    QCOMPARE(program.screen(), Tablet::View::Yard);
    QVERIFY(program.demo());
    auto board = program.session().yard().board();
    QVERIFY(board.has_value());
    QCOMPARE(program.yardPage()->count(), static_cast<int>(board->size()));
    for (std::size_t i = 0; i < board->size(); ++i) {
        const QModelIndex index = program.yardPage()->index(static_cast<int>(i));
        QCOMPARE(index.data(tablet::YardPage::NumberRole).toString(), QString::fromStdString((*board)[i].view->number));
        QVERIFY(!index.data(tablet::YardPage::WordRole).toString().isEmpty());
    }
}

void TabletTest::everyVesselOpens()
{
    const test::DemoYard demo;
    Tablet program(demo.folder());
    program.start();
    for (const std::string& number : program.session().yard().vessels()) {
        program.openVessel(QString::fromStdString(number));
        QVERIFY(program.screen() == Tablet::View::Vessel || program.screen() == Tablet::View::Clock);
        QVERIFY(program.vesselPage()->view() != nullptr);
        QCOMPARE(program.plate()->number(), QString::fromStdString(number));
        QVERIFY(program.plate()->demo());
        QVERIFY(!program.vesselPage()->reason().isEmpty());
        program.back();
        if (program.screen() == Tablet::View::Vessel) {
            program.back();
        }
        QCOMPARE(program.screen(), Tablet::View::Yard);
    }
}

// Read on opening, and not before; what the command line says; left, it reads no further.
void TabletTest::questionsToAsk()
{
    const test::DemoYard demo;
    Tablet program(demo.folder());
    program.start();
    const QAbstractItemModelTester tester(program.questions()->questions(), QAbstractItemModelTester::FailureReportingMode::QtTest);
    QCOMPARE(program.questions()->questions()->count(), 0);
    program.setUp();
    program.showQuestions();
    QCOMPARE(program.screen(), Tablet::View::Questions);
    while (program.questions()->reading()) {
        program.questions()->readOn();
    }
    const auto asked = program.session().yard().toAsk();
    QVERIFY(!asked->questions.empty());
    QCOMPARE(program.questions()->questions()->rows().size(), asked->questions.size());
    for (std::size_t i = 0; i < asked->questions.size(); ++i) {
        const tablet::Row& row = program.questions()->questions()->rows()[i];
        const text::Asking words = text::toAsk(program.session().pack(), asked->questions[i], program.session().reading);
        QCOMPARE(row.title, words.what);
        QCOMPARE(row.line, words.ask);
        QVERIFY(row.note.contains(QString::fromStdString(asked->questions[i].persons.front())));
    }
    QCOMPARE(program.questions()->looked(), text::lookedAt(*asked, program.session().reading));
    QVERIFY(program.questions()->nothing().isEmpty());
    program.back();
    QCOMPARE(program.screen(), Tablet::View::SetUp);
    QVERIFY(!program.questions()->reading());
}

void TabletTest::stopNeedsNoPin()
{
    const test::DemoYard demo;
    Tablet program(demo.folder());
    program.start();
    const std::string number = program.session().yard().vessels().front();
    program.openVessel(QString::fromStdString(number));
    program.stop();
    const auto view = program.session().yard().vessel(number);
    QVERIFY(view.has_value());
    QVERIFY(view->word == report::PlateWord::Stopped || view->word == report::PlateWord::Refused);
    QVERIFY(view->standing.state == rules::State::Held || view->standing.state == rules::State::Refused);
}

void TabletTest::speakingUpStopsTheVessel()
{
    const test::DemoYard demo;
    Tablet program(demo.folder());
    program.start();
    const auto board = program.session().yard().board();
    std::string number;
    for (const report::BoardRow& row : *board) {
        if (row.view->standing.state == rules::State::Released) {
            number = row.view->number;
        }
    }
    QVERIFY2(!number.empty(), "the demo has a released vessel");
    program.openVessel(QString::fromStdString(number));
    QCOMPARE(program.screen(), Tablet::View::Clock);
    program.speakUp();
    const auto view = program.session().yard().vessel(number);
    QVERIFY(view->standing.state != rules::State::Released);
    QCOMPARE(view->word, report::PlateWord::Stopped);
}

void TabletTest::aSecondTabletIsTold()
{
    const test::DemoYard demo;
    Tablet first(demo.folder());
    first.start();
    QCOMPARE(first.screen(), Tablet::View::Yard);
    Tablet second(demo.folder());
    second.start();
    QCOMPARE(second.screen(), Tablet::View::Fault);
    QVERIFY(second.faultTitle().contains(QLatin1String("Another program")));
}

void TabletTest::aNumberOrATagOpensItsVessel()
{
    const test::DemoYard demo;
    Tablet program(demo.folder());
    program.start();
    program.scanned(QStringLiteral("nq-08"));
    QCOMPARE(program.plate()->number(), QStringLiteral("NQ-08"));
    program.openPart(QStringLiteral("tag"));
    QCOMPARE(program.screen(), Tablet::View::Tag);
    program.printTag();
    QVERIFY2(program.tagPage()->isPrinted(), qPrintable(program.tagPage()->saved()));
    const QString code = program.tagPage()->code();
    const QString symbol = QString::fromStdString(program.tagPage()->page()->symbol);
    program.back();
    program.back();
    QCOMPARE(program.screen(), Tablet::View::Yard);
    program.scanned(symbol);
    QCOMPARE(program.plate()->number(), QStringLiteral("NQ-08"));
    program.back();
    if (program.screen() == Tablet::View::Vessel) {
        program.back();
    }
    program.scanned(code);
    QCOMPARE(program.plate()->number(), QStringLiteral("NQ-08"));
    program.back();
    program.back();
    program.scanned(QStringLiteral("NO-SUCH-9"));
    QCOMPARE(program.screen(), Tablet::View::Yard);
    QVERIFY(!program.yardPage()->message().isEmpty());
}

void TabletTest::aFaultHoldsUntilItIsTriedAgain_data()
{
    QTest::addColumn<int>("fails");
    QTest::addColumn<QString>("todo");
    QTest::newRow("the disk is full") << int(test::FaultVfs::Fails::Full) << QStringLiteral("Make room");
    QTest::newRow("a sync fails") << int(test::FaultVfs::Fails::Sync) << QStringLiteral("Put the tablet right");
    QTest::newRow("nothing can be read or written") << int(test::FaultVfs::Fails::Any) << QStringLiteral("Put the tablet right");
}

// The disk fails under an open tablet: everything is held, in plain words; the way back is one press, and is no way back while the
// disk still fails.
void TabletTest::aFaultHoldsUntilItIsTriedAgain()
{
    QFETCH(const int, fails);
    QFETCH(const QString, todo);
    const test::DemoYard demo;
    test::FaultVfs disk;
    Tablet program(demo.folder());
    program.start();
    QCOMPARE(program.screen(), Tablet::View::Yard);
    const std::string number = program.session().yard().vessels().front();
    program.openVessel(QString::fromStdString(number));
    const auto entries = program.session().yard().verify()->entries;
    disk.fail(static_cast<test::FaultVfs::Fails>(fails), 1, true);
    program.happened(QStringLiteral("moved"));
    QCOMPARE(program.screen(), Tablet::View::Fault);
    QVERIFY(program.faultTitle().contains(QLatin1String("Stop all cutting")));
    QString told;
    for (int i = 0; i < program.faultLines()->rowCount(); ++i) {
        told += program.faultLines()->index(i).data(tablet::RowList::LineRole).toString() + '\n';
    }
    QVERIFY2(told.contains(todo), qPrintable(told));
    QVERIFY2(!told.contains(QLatin1String("SQL")) && !told.contains(QLatin1String("errno")), qPrintable(told));
    if (static_cast<test::FaultVfs::Fails>(fails) == test::FaultVfs::Fails::Any) {
        program.tryAgain();
        QCOMPARE(program.screen(), Tablet::View::Fault);
        QVERIFY2(program.message().contains(QLatin1String("still so")), qPrintable(program.message()));
        QVERIFY(program.session().yard().fault().has_value());
    }
    disk.fail(test::FaultVfs::Fails::Nothing, 0, false);
    program.tryAgain();
    const auto still = program.session().yard().fault();
    QVERIFY2(program.screen() == Tablet::View::Yard, still ? still->found.c_str() : qPrintable(program.message()));
    QVERIFY(program.message().isEmpty());
    QVERIFY(!program.session().yard().fault().has_value());
    const auto verification = program.session().yard().verify();
    QVERIFY(verification->intact());
    QVERIFY(verification->entries == entries || verification->entries == entries + 1); // what failed may have got there
    program.openVessel(QString::fromStdString(number));
    program.happened(QStringLiteral("moved"));
    QCOMPARE(program.screen(), Tablet::View::Vessel);
    QCOMPARE(program.session().yard().verify()->entries, verification->entries + 1);
}

BRIMFUL_SUITE(TabletTest);
#include "tablet_test.moc"
