// The camera of a sheet, fed with frames instead of a lens: what it sees is said before the picture is taken, and refuses nothing.
#include "app/tablet/camera.h"

#include "app/tablet/plans.h"
#include "app/tablet/trail_page.h"
#include "tests/app/tablet/demo_lens.h"
#include "tests/app/tablet/demo_pictures.h"
#include "tests/app/tablet/demo_yard.h"
#include "tests/support/suite.h"

#include <QBuffer>
#include <QDir>
#include <QSet>
#include <QTest>

#include <cmath>

using namespace brimful;
using tablet::Session;
using tablet::Sheet;
using test::DemoLens;

class CameraTest : public QObject {
    Q_OBJECT

private slots:
    void theMeasureOfEdgesIsTheLaplacians();
    void whatIsSeenIsSaid_data();
    void whatIsSeenIsSaid();
    void withoutACameraAFileIsAskedAtOnce();
    void theShutterTakesTheNewestFrame();
    void aFrameInACamerasOwnColoursIsSeen();
    void aPictureTakenHereIsKeptWithTheEntry();
    void itRunsOnlyWhileItIsLookedThrough();
    void aFileIsLookedAtToo();
    void whatWasFoundIsRecorded_data();
    void whatWasFoundIsRecorded();
    void aNumberIsAskedWhereNoTagIs();
    void theNumberAndTheCameraOutliveADraft();
    void aCopyOfAnOlderPictureIsTold();
    void theTagOfAHoldPointIsRead();

private:
    struct Open {
        test::DemoYard demo;
        Session session{demo.folder()};
        Sheet sheet;
        DemoLens* lens{};
        std::string own, older, others; // tags
        explicit Open(const QImage& first = test::shellWith({}))
        {
            if (!session.open()) {
                return;
            }
            yard::Yard& yard = session.yard();
            older = yard.printTag("NQ-08", "A6", 0, false)->text;
            own = yard.printTag("NQ-08", "A6", 0, false)->text;
            others = yard.printTag("NQ-03", "A6", 0, false)->text;
            auto made = std::make_unique<DemoLens>(first);
            lens = made.get();
            sheet.camera()->setLens(std::move(made));
        }
        void toPhotograph()
        {
            tablet::VesselPicture picture;
            picture.view = std::make_shared<report::VesselView>(*session.yard().vessel("NQ-08"));
            tablet::Plan plan = tablet::stepPlan(session, "NQ-08", session.pack().step("signs"));
            sheet.open(std::move(plan), &session.yard(), picture, session.reading);
            for (int turn = 0; sheet.hand() == Sheet::Kind::Choice && turn < 9; ++turn) {
                const std::vector<tablet::Row> rows = sheet.options()->rows();
                const auto good = std::ranges::find_if(
                    rows, [](const tablet::Row& row) { return row.key == "plain" || row.key == "nothing" || row.key == "none"; });
                sheet.choose(good == rows.end() ? rows.front().key : good->key);
                sheet.take();
            }
        }
        // What was picked is taken and signed by Bea; what the entry tells of it.
        std::optional<ledger::PhotoNote> signedNote()
        {
            sheet.take();
            if (sheet.hand() == Sheet::Kind::Choice) {
                sheet.choose(QStringLiteral("right"));
                sheet.take();
            }
            sheet.pickPerson(QStringLiteral("Bea"));
            for (const QChar digit : test::DemoYard::pin(QStringLiteral("Bea"))) {
                sheet.pinPress(QString(digit));
            }
            sheet.take();
            const auto trail = session.yard().trail("NQ-08");
            return trail && trail->back().photos.size() == 1 ? std::optional(trail->back().photos.begin()->second) : std::nullopt;
        }
        [[nodiscard]] QStringList stills() const
        {
            return QDir(QString::fromStdString((demo.folder() / "device" / "stills").string())).entryList(QDir::Files);
        }
    };
};

// One bright point A on black: the Laplacian is -4A there and A at its four neighbours, so over N points its mean is 0 and its
// variance 20 A^2 / N. Worked by hand.
void CameraTest::theMeasureOfEdgesIsTheLaplacians()
{
    QImage point(66, 66, QImage::Format_Grayscale8);
    point.fill(0);
    point.scanLine(33)[33] = 100;
    QVERIFY(std::abs(print::edgesOf(point) - 20.0 * 100 * 100 / (64 * 64)) < 1e-9);
    QVERIFY(std::abs(print::lightOf(point) - 100.0 / (66 * 66)) < 1e-9);
    point.fill(128);
    QCOMPARE(print::edgesOf(point), 0.0);
    QCOMPARE(print::lightOf(point), 128.0);
    QCOMPARE(print::edgesOf(QImage(2, 2, QImage::Format_Grayscale8)), 0.0);
}

void CameraTest::whatIsSeenIsSaid_data()
{
    QTest::addColumn<QString>("scene");
    QTest::addColumn<QString>("said");
    QTest::addColumn<bool>("warns");
    QTest::newRow("its own tag") << "own"
                                 << "The tag of NQ-08, number %1, is in the picture." << false;
    QTest::newRow("its own tag, an older one") << "older"
                                               << "The tag of NQ-08, number %2, is in the picture. It is not the newest." << true;
    QTest::newRow("another vessel's tag") << "others"
                                          << "That is the tag of NQ-03, not of NQ-08." << true;
    QTest::newRow("a foreign symbol") << "foreign"
                                      << "A symbol is in the picture, and no tag of this yard." << true;
    QTest::newRow("no tag") << "none"
                            << "No tag of NQ-08 in the picture. Get it in if it can be." << true;
    QTest::newRow("too dark") << "dark"
                              << "Too dark. Bring a light." << true;
    QTest::newRow("blurred") << "blurred"
                             << "Blurred. Hold still, or wipe the glass." << true;
}

void CameraTest::whatIsSeenIsSaid()
{
    QFETCH(const QString, scene);
    QFETCH(const QString, said);
    QFETCH(const bool, warns);
    Open open;
    const std::map<QString, QImage> scenes{{"own", test::shellWith(open.own)}, {"older", test::shellWith(open.older)},
        {"others", test::shellWith(open.others)}, {"foreign", test::shellWith("HTTPS://EXAMPLE.ORG")}, {"none", test::shellWith({})},
        {"dark", test::darkened(test::shellWith(open.own))}, {"blurred", test::blurred(test::shellWith(open.own))}};
    open.lens->first = scenes.at(scene);
    const auto newest = open.session.yard().readTag(open.own)->as_printed->serial;
    open.toPhotograph();
    QCOMPARE(open.sheet.hand(), Sheet::Kind::File);
    QVERIFY(open.sheet.byCamera());
    const QString words = QString(said).replace("%1", QString::number(newest)).replace("%2", QString::number(newest - 1));
    QCOMPARE(open.sheet.check(), words);
    QCOMPARE(open.sheet.checkWarns(), warns);
    open.sheet.shoot();
    QVERIFY2(open.sheet.message().isEmpty(), qPrintable(open.sheet.message()));
    QCOMPARE(open.sheet.check(), words); // the still says the same
    QVERIFY(open.sheet.canTake()); // warned, not refused
    open.sheet.take();
    QVERIFY(open.sheet.hand() != Sheet::Kind::File);
    const auto answered = open.sheet.answered()->rows();
    QVERIFY(std::ranges::any_of(answered, [&](const tablet::Row& row) { return row.line == QStringLiteral("taken here. ") + words; }));
}

void CameraTest::withoutACameraAFileIsAskedAtOnce()
{
    const test::DemoPictures pictures(2);
    Open open;
    open.lens->works = false;
    open.toPhotograph();
    QCOMPARE(open.sheet.hand(), Sheet::Kind::File);
    QVERIFY(!open.sheet.hasCamera());
    QVERIFY(!open.sheet.byCamera());
    QCOMPARE(open.sheet.photographs()->rows()->count(), 2);
    open.sheet.useCamera(true);
    QVERIFY(!open.sheet.byCamera());
}

void CameraTest::theShutterTakesTheNewestFrame()
{
    Open open;
    open.toPhotograph();
    QVERIFY(open.lens->sink != nullptr);
    QImage second(800, 600, QImage::Format_RGB32);
    second.fill(QColor(10, 200, 30));
    QTest::qWait(80); // later than the frame before
    open.lens->sink->setVideoFrame(test::frameOf(second));
    open.sheet.shoot();
    const QImage still(open.sheet.written());
    QCOMPARE(still.size(), second.size());
    QVERIFY(std::abs(still.pixelColor(400, 300).green() - 200) < 8);
    open.sheet.pickFile({}); // another one
    QVERIFY(open.lens->sink != nullptr);
    QVERIFY(open.sheet.byCamera());
    Open blind{QImage()};
    blind.toPhotograph();
    blind.sheet.shoot(); // before the first frame there is nothing to take
    QVERIFY(blind.sheet.written().isEmpty());
}

// Most cameras give brightness and colour apart. Y 126 with neutral colour is mid grey in the studio range (ITU-R BT.601, from
// memory): (126 - 16) * 255 / 219 = 128.
void CameraTest::aFrameInACamerasOwnColoursIsSeen()
{
    Open open;
    open.toPhotograph();
    QVideoFrame frame(QVideoFrameFormat(QSize(64, 48), QVideoFrameFormat::Format_YUV420P));
    QVERIFY(frame.map(QVideoFrame::WriteOnly));
    std::memset(frame.bits(0), 126, static_cast<std::size_t>(frame.mappedBytes(0)));
    std::memset(frame.bits(1), 128, static_cast<std::size_t>(frame.mappedBytes(1)));
    std::memset(frame.bits(2), 128, static_cast<std::size_t>(frame.mappedBytes(2)));
    frame.unmap();
    QTest::qWait(80);
    open.lens->sink->setVideoFrame(frame);
    const QImage seen = open.sheet.camera()->newest();
    QCOMPARE(seen.size(), QSize(64, 48));
    QByteArray bytes; // and those that give each frame as a JPEG
    QBuffer to(&bytes);
    QVERIFY(test::shellWith({}).scaled(320, 240).save(&to, "jpg", 40));
    QVideoFrame small(QVideoFrameFormat(QSize(320, 240), QVideoFrameFormat::Format_Jpeg));
    QVERIFY(small.map(QVideoFrame::WriteOnly));
    QVERIFY2(small.mappedBytes(0) >= bytes.size(), qPrintable(QString::number(small.mappedBytes(0))));
    std::memcpy(small.bits(0), bytes.constData(), static_cast<std::size_t>(bytes.size()));
    small.unmap();
    QTest::qWait(80);
    open.lens->sink->setVideoFrame(small);
    QCOMPARE(open.sheet.camera()->newest().size(), QSize(320, 240));
    const QColor grey = seen.pixelColor(30, 20);
    QVERIFY2(
        std::abs(grey.red() - 128) < 4 && std::abs(grey.green() - 128) < 4 && std::abs(grey.blue() - 128) < 4, qPrintable(grey.name()));
}

void CameraTest::aPictureTakenHereIsKeptWithTheEntry()
{
    Open open;
    open.toPhotograph();
    open.sheet.shoot();
    QCOMPARE(open.stills().size(), 1);
    QVERIFY(open.signedNote());
    QVERIFY2(open.sheet.message().isEmpty(), qPrintable(open.sheet.message()));
    const auto trail = open.session.yard().trail("NQ-08");
    const auto entry = ledger::decode(open.session.yard().stored(trail->back().hash)->body);
    QCOMPARE(entry->attachments.size(), std::size_t{1});
    QCOMPARE(open.stills().size(), 0); // the record has its own
    QVERIFY(open.session.yard().verify()->intact());
}

void CameraTest::itRunsOnlyWhileItIsLookedThrough()
{
    const test::DemoPictures pictures(1);
    Open open;
    open.toPhotograph();
    QVERIFY(open.sheet.camera()->running());
    open.sheet.shoot();
    QVERIFY(!open.sheet.camera()->running());
    open.sheet.pickFile({});
    QVERIFY(open.sheet.camera()->running());
    open.sheet.useCamera(false);
    QVERIFY(!open.sheet.camera()->running());
    QCOMPARE(open.sheet.photographs()->rows()->count(), 1);
    open.sheet.useCamera(true);
    QVERIFY(open.sheet.camera()->running());
    open.sheet.back();
    QVERIFY(!open.sheet.camera()->running());
}

void CameraTest::aFileIsLookedAtToo()
{
    const test::DemoPictures pictures(1);
    Open open;
    QVERIFY(test::shellWith(open.own).save(pictures.file(0), "jpg", 90));
    open.toPhotograph();
    open.sheet.useCamera(false);
    open.sheet.pickFile(pictures.file(0));
    QVERIFY2(open.sheet.check().startsWith(QLatin1String("The tag of NQ-08")), qPrintable(open.sheet.check()));
}

void CameraTest::whatWasFoundIsRecorded_data()
{
    QTest::addColumn<QString>("scene");
    QTest::addColumn<bool>("camera");
    QTest::addColumn<QString>("said");
    QTest::addColumn<QString>("glance");
    const auto row = [](const char* name, const char* scene, bool camera, const char* said, const char* glance) {
        QTest::newRow(name) << QString(scene) << camera << QString(said) << QString(glance);
    };
    row("its tag", "own", true, "taken with the tablet, the tag is in the picture", "Photo: tag in it.");
    row("another's", "others", true, "taken with the tablet, another vessel's tag is in the picture, chalk", "Photo: another's tag.");
    row("dark", "dark", true, "taken with the tablet, dark, no tag in the picture, chalk", "Photo: no tag.");
    row("blurred", "blurred", true, "taken with the tablet, blurred, no tag in the picture, chalk", "Photo: no tag.");
    row("a file with the tag", "own", false, "from a file, the tag is in the picture", "Photo: file, tag in it.");
    row("a file without", "none", false, "from a file, no tag in the picture, chalk", "Photo: file, no tag.");
}

// In the signed entry, and on the trail: how it came and what is in it.
void CameraTest::whatWasFoundIsRecorded()
{
    QFETCH(const QString, scene);
    QFETCH(const bool, camera);
    QFETCH(const QString, said);
    QFETCH(const QString, glance);
    const test::DemoPictures pictures(1);
    Open open;
    const std::map<QString, QImage> scenes{{"own", test::shellWith(open.own)}, {"others", test::shellWith(open.others)},
        {"none", test::shellWith({})}, {"dark", test::darkened(test::shellWith({}))}, {"blurred", test::blurred(test::shellWith({}))}};
    open.lens->first = scenes.at(scene);
    QVERIFY(scenes.at(scene).save(pictures.file(0), "jpg", 90));
    open.toPhotograph();
    open.sheet.useCamera(camera);
    camera ? open.sheet.shoot() : open.sheet.pickFile(pictures.file(0));
    const QString chalk = open.sheet.chalk();
    const auto note = open.signedNote();
    QVERIFY(note);
    QCOMPARE(QString::fromStdString(note->chalk), chalk);
    const QString words = said.endsWith(QLatin1String("chalk")) ? said + " number " + chalk + " was asked for" : said;
    QCOMPARE(text::photograph(*note, true), words);

    tablet::TrailPage trail;
    trail.show(*open.session.yard().trail("NQ-08"), open.session.pack(), open.session.reading);
    QCOMPARE(trail.entries()->rows().front().line, glance);
    QVERIFY2(trail.detail().endsWith(words + u'.'), qPrintable(trail.detail()));
}

// Four digits, the same as long as the ask stands, others for the next; none where the tag is there.
void CameraTest::aNumberIsAskedWhereNoTagIs()
{
    Open open;
    QSet<QString> drawn;
    for (int i = 0; i < 12; ++i) {
        open.toPhotograph();
        const QString number = open.sheet.chalk();
        QCOMPARE(number.size(), 4);
        QVERIFY(std::ranges::all_of(number, [](QChar digit) { return digit >= u'0' && digit <= u'9'; }));
        drawn.insert(number);
        open.sheet.shoot();
        QCOMPARE(open.sheet.chalk(), number);
        open.sheet.pickFile({});
        QCOMPARE(open.sheet.chalk(), number);
        QVERIFY(open.session.yard().device()->dropDraft("step:NQ-08:signs"));
    }
    QVERIFY(drawn.size() > 6); // twelve of ten thousand by chance: this fails once in 10^20
    open.lens->first = test::shellWith(open.own);
    open.toPhotograph();
    QVERIFY(open.sheet.chalk().isEmpty());
}

// Somebody goes out with chalk, the sheet is left and comes back: the same number, and a picture that was taken here still says so.
void CameraTest::theNumberAndTheCameraOutliveADraft()
{
    Open open;
    open.toPhotograph();
    const QString number = open.sheet.chalk();
    open.sheet.shoot();
    open.sheet.close();
    open.toPhotograph();
    QCOMPARE(open.sheet.hand(), Sheet::Kind::File);
    QCOMPARE(open.sheet.chalk(), number);
    open.sheet.pickFile(QDir(QString::fromStdString((open.demo.folder() / "device" / "stills").string())).filePath(open.stills().front()));
    const auto note = open.signedNote();
    QVERIFY(note && note->by_camera);
    QCOMPARE(QString::fromStdString(note->chalk), number);
}

// The picture of another vessel, saved again smaller and coarser: said with its vessel and step, taken all the same, recorded.
void CameraTest::aCopyOfAnOlderPictureIsTold()
{
    const test::DemoPictures pictures(2);
    Open open;
    yard::RecordRequest request;
    request.vessel = "NQ-03";
    request.step = "signs";
    request.facts.set("brass", "plain").set("smell", "nothing").set("marks", "none");
    request.files["sign-photo"] = pictures.file(0).toStdString();
    QVERIFY(test::shellWith({}).save(pictures.file(0), "jpg", 92));
    const auto first = open.session.yard().record(request, {"Bea", test::DemoYard::pin(QStringLiteral("Bea")).toStdString(), {}});
    QVERIFY(first);
    QVERIFY(test::shellWith({}).scaled(500, 375, Qt::IgnoreAspectRatio, Qt::SmoothTransformation).save(pictures.file(1), "jpg", 40));
    open.toPhotograph();
    open.sheet.useCamera(false);
    open.sheet.pickFile(pictures.file(1));
    QVERIFY2(open.sheet.check().startsWith(QLatin1String("It looks like the picture of NQ-03, Look for refusal signs")),
        qPrintable(open.sheet.check()));
    QVERIFY(open.sheet.checkWarns());
    QVERIFY(open.sheet.canTake());
    const auto note = open.signedNote();
    QVERIFY(note);
    const auto entry = ledger::decode(open.session.yard().stored(first->entry)->body);
    QCOMPARE(note->alike, std::optional(entry->attachments.front()));
}

// The tag is asked first: the camera answers as a scanner does. A wrong one is refused once, not with every frame; nothing but the
// newest goes further.
void CameraTest::theTagOfAHoldPointIsRead()
{
    Open open(test::shellWith({}));
    yard::Yard& yard = open.session.yard();
    const std::string older = yard.printTag("NQ-02", "A6", 0, false)->text;
    const std::string newest = yard.printTag("NQ-02", "A6", 0, false)->text;
    const auto show = [&](const std::string& symbol) {
        QTest::qWait(750); // a frame is looked at now and then
        open.lens->sink->setVideoFrame(test::frameOf(test::shellWith(symbol)));
        QCoreApplication::processEvents();
    };
    open.sheet.open(
        tablet::holdPointPlan(open.session, "NQ-02", open.session.pack().holdPoint("first-cut")), &yard, {}, open.session.reading);
    QVERIFY(open.sheet.asksTag());
    QVERIFY(open.sheet.camera()->running());
    const QString tag_first = open.sheet.askText();
    show(older);
    QCOMPARE(open.sheet.askText(), tag_first);
    QVERIFY2(open.sheet.message().contains(QLatin1String("Not the newest tag")), qPrintable(open.sheet.message()));
    show(older);
    QVERIFY2(!open.sheet.message().contains(QLatin1String("Again")), qPrintable(open.sheet.message()));
    show(newest);
    QVERIFY(!open.sheet.asksTag());
    QVERIFY(!open.sheet.camera()->running());
    QVERIFY(open.sheet.message().isEmpty());
}

BRIMFUL_SUITE(CameraTest);
#include "camera_test.moc"
