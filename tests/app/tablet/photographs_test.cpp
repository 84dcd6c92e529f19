// The photograph of a sheet: found without typing, the newest first, and refused in words where it is picked.
#include "app/tablet/photographs.h"

#include "app/print/photograph.h"
#include "app/tablet/plans.h"
#include "tests/app/tablet/demo_pictures.h"
#include "tests/app/tablet/demo_yard.h"
#include "tests/support/suite.h"

#include <QDir>
#include <QTest>
#include <QUrl>

using namespace brimful;
using tablet::Session;
using tablet::Sheet;
using test::DemoPictures;

class PhotographsTest : public QObject {
    Q_OBJECT

private slots:
    void theNewestComesFirst();
    void onlyWhatIsKeptIsOffered();
    void aCardWithItsOwnFoldersIsRead();
    void anEmptyFolderIsNamed();
    void onePressPicksAndAnotherPutsItBack();
    void whatWouldNotBeKeptIsSaidAtOnce();
    void aPictureOfTheRecordIsNotTakenAgain();
    void onePictureForOneAskOfASheet();

private:
    struct Open {
        test::DemoYard demo;
        Session session{demo.folder()};
        Sheet sheet;
        Open()
        {
            if (session.open()) {
                toPhotograph();
            }
        }
        // The step at which the data plate is photographed: on to the ask itself.
        void toPhotograph()
        {
            sheet.open(tablet::stepPlan(session, "NQ-08", session.pack().step("identity")), &session.yard(), {}, session.reading);
            for (int turn = 0; sheet.hand() != Sheet::Kind::File && turn < 30; ++turn) {
                if (sheet.hand() == Sheet::Kind::Choice) {
                    sheet.choose(sheet.options()->rows().front().key);
                } else if (sheet.hand() == Sheet::Kind::Number) {
                    sheet.pad()->press(QStringLiteral("1"));
                } else {
                    sheet.setWritten(QStringLiteral("x"));
                }
                sheet.take();
            }
        }
    };
    static void write(const QString& path, const QByteArray& bytes)
    {
        QFile file(path);
        QVERIFY(file.open(QIODevice::WriteOnly));
        file.write(bytes);
    }
};

void PhotographsTest::theNewestComesFirst()
{
    const DemoPictures pictures(5);
    DemoPictures::setAge(pictures.file(3), 5);
    const auto found = tablet::newestPictures(tablet::pictureFolders(), false);
    QCOMPARE(found.size(), std::size_t{5});
    QCOMPARE(found[0].path, pictures.file(3));
    QCOMPARE(found[1].path, pictures.file(0));
    QCOMPARE(found[4].path, pictures.file(4));
}

// By what is in it, not by its name; a paper only where a paper is asked for.
void PhotographsTest::onlyWhatIsKeptIsOffered()
{
    const DemoPictures pictures(1);
    write(pictures.folder() + QStringLiteral("/notes.jpg"), "no picture at all");
    write(pictures.folder() + QStringLiteral("/moving.gif"), "GIF89a");
    write(pictures.folder() + QStringLiteral("/bill.pdf"), "%PDF-1.4 a bill of sale");
    QFile::copy(pictures.file(0), pictures.folder() + QStringLiteral("/loud.JPG"));
    QCOMPARE(tablet::newestPictures(tablet::pictureFolders(), false).size(), std::size_t{2});
    QCOMPARE(tablet::newestPictures(tablet::pictureFolders(), true).size(), std::size_t{3});
}

// DCIM, and in it a folder of three digits and five signs, as the JEITA rule for cameras' file systems (DCF) lays them down; from memory.
void PhotographsTest::aCardWithItsOwnFoldersIsRead()
{
    const DemoPictures pictures(1);
    QVERIFY(QDir(pictures.folder()).mkpath(QStringLiteral("DCIM/100ABCDE/deeper")));
    QVERIFY(QFile::copy(pictures.file(0), pictures.folder() + QStringLiteral("/DCIM/100ABCDE/one.jpg")));
    QVERIFY(QFile::copy(pictures.file(0), pictures.folder() + QStringLiteral("/DCIM/100ABCDE/deeper/two.jpg")));
    QCOMPARE(tablet::newestPictures(tablet::pictureFolders(), false).size(), std::size_t{2});
}

void PhotographsTest::anEmptyFolderIsNamed()
{
    const DemoPictures pictures(0);
    Open open;
    QCOMPARE(open.sheet.hand(), Sheet::Kind::File);
    QVERIFY(open.sheet.asksPhotograph());
    QCOMPARE(open.sheet.photographs()->rows()->count(), 0);
    QCOMPARE(open.sheet.photographs()->folder(), pictures.folder());
    const DemoPictures come(2);
    open.sheet.lookForPictures();
    QCOMPARE(open.sheet.photographs()->rows()->count(), 2);
}

void PhotographsTest::onePressPicksAndAnotherPutsItBack()
{
    const DemoPictures pictures(3);
    Open open;
    const auto rows = open.sheet.photographs()->rows()->rows();
    QCOMPARE(rows.size(), std::size_t{3});
    QCOMPARE(rows[1].line, QStringLiteral("61 min ago"));
    open.sheet.pickFile(rows[1].key);
    QVERIFY2(open.sheet.message().isEmpty(), qPrintable(open.sheet.message()));
    QCOMPARE(open.sheet.takeLabel(), QStringLiteral("Take this picture"));
    QCOMPARE(open.sheet.photographs()->picked(), QUrl::fromLocalFile(pictures.file(1)).toString());
    open.sheet.pickFile({});
    QVERIFY(open.sheet.photographs()->picked().isEmpty());
    open.sheet.pickFile(rows[0].key);
    open.sheet.take();
    const auto answered = open.sheet.answered()->rows();
    QVERIFY(std::ranges::any_of(answered, [](const tablet::Row& row) { return row.line == QLatin1String("0000.jpg, from a file"); }));
}

void PhotographsTest::whatWouldNotBeKeptIsSaidAtOnce()
{
    const DemoPictures pictures(1);
    Open open;
    const QString cut = pictures.folder() + QStringLiteral("/cut.jpg");
    write(cut,
        "\xff\xd8\xff\xe0"
        "and no more");
    open.sheet.pickFile(cut);
    QVERIFY2(open.sheet.message().contains(QLatin1String("no picture can be read")), qPrintable(open.sheet.message()));
    QVERIFY(open.sheet.written().isEmpty());
    open.sheet.pickFile(pictures.folder() + QStringLiteral("/gone.jpg"));
    QVERIFY(open.sheet.message().contains(QLatin1String("no longer there")));
    const QString large = pictures.folder() + QStringLiteral("/large.jpg");
    write(large, "\xff\xd8\xff");
    QVERIFY(QFile::resize(large, 65LL * 1024 * 1024)); // a hole, no bytes on the disk
    open.sheet.pickFile(large);
    QVERIFY2(open.sheet.message().contains(QLatin1String("65 MB, at most 64")), qPrintable(open.sheet.message()));
    open.sheet.pickFile(pictures.file(0));
    QVERIFY(open.sheet.message().isEmpty());
}

void PhotographsTest::aPictureOfTheRecordIsNotTakenAgain()
{
    const DemoPictures pictures(2);
    Open open;
    yard::Yard& yard = open.session.yard();
    yard::RecordRequest request;
    request.vessel = "NQ-08";
    request.step = "signs";
    request.facts.set("brass", "plain").set("smell", "nothing").set("marks", "none");
    request.files["sign-photo"] = pictures.file(0).toStdString();
    const auto recorded = yard.record(request, {"Bea", test::DemoYard::pin(QStringLiteral("Bea")).toStdString(), {}});
    QVERIFY2(recorded.has_value(), recorded ? "" : std::string(report::whyWord(recorded.error().why)).c_str());
    open.sheet.pickFile(pictures.file(0));
    QVERIFY2(open.sheet.message().contains(QLatin1String("in the record already")), qPrintable(open.sheet.message()));
    open.sheet.pickFile(pictures.file(1));
    QVERIFY(open.sheet.message().isEmpty());
}

void PhotographsTest::onePictureForOneAskOfASheet()
{
    const DemoPictures pictures(2);
    Open open;
    tablet::Plan plan = tablet::stepPlan(open.session, "NQ-08", open.session.pack().step("identity"));
    std::erase_if(plan.asks, [](const tablet::Ask& ask) { return ask.hand != tablet::Hand::File; });
    plan.asks.push_back(plan.asks.front());
    plan.draft.clear();
    open.sheet.open(std::move(plan), &open.session.yard(), {}, open.session.reading);
    open.sheet.pickFile(pictures.file(0));
    open.sheet.take();
    QCOMPARE(open.sheet.hand(), Sheet::Kind::File);
    open.sheet.pickFile(pictures.file(0));
    QVERIFY2(open.sheet.message().contains(QLatin1String("has that picture already")), qPrintable(open.sheet.message()));
    open.sheet.pickFile(pictures.file(1));
    QVERIFY(open.sheet.message().isEmpty());
}

BRIMFUL_SUITE(PhotographsTest);
#include "photographs_test.moc"
