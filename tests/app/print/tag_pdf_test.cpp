// The printed tag, read back as a stranger would: rendered at printer's dots, turned, and read by two readers that share
// no code with what drew it (ZXing-C++ and zbar).
#include "app/print/pages.h"
#include "app/print/symbol.h"
#include "core/people/device.h"
#include "core/tag/tag.h"
#include "tests/app/print/sample_audit.h"
#include "tests/app/print/sample_views.h"
#include "tests/support/suite.h"

#include <QFileInfo>
#include <QImage>
#include <QPainter>
#include <QProcess>
#include <QTemporaryDir>
#include <QTest>
#include <QTransform>

using namespace brimful;
using print::Label;

namespace {

QByteArray run(const QString& program, const QStringList& arguments)
{
    QProcess process;
    process.start(program, arguments);
    if (!process.waitForFinished(60'000) || process.exitStatus() != QProcess::NormalExit) {
        return "did not run";
    }
    return process.readAllStandardOutput();
}

QString kept(const QString& name) { return QStringLiteral(BRIMFUL_BINARY_DIR "/pictures/") + name; }

QImage rendered(const QString& pdf, int dpi)
{
    const QString stem = pdf.chopped(4) + QStringLiteral("-%1").arg(dpi);
    run("pdftoppm", {"-r", QString::number(dpi), "-png", "-singlefile", pdf, stem});
    return QImage(stem + ".png");
}

QImage turned(const QImage& image, double degrees)
{
    QImage page(QSize(image.width() + image.height(), image.width() + image.height()), QImage::Format_Grayscale8);
    page.fill(Qt::white);
    QPainter painter(&page);
    painter.setRenderHint(QPainter::SmoothPixmapTransform);
    painter.translate(page.rect().center());
    painter.rotate(degrees);
    painter.drawImage(-image.rect().center(), image);
    return page;
}

} // namespace

class TagPdfTest : public QObject {
    Q_OBJECT
    QTemporaryDir m_folder;

    void writeTo(const QString& pdf, const print::TagPage& page, Label label, int dpi)
    {
        const auto written = print::writeTagPdf(pdf.toStdString(), page, test::basePack(), test::eastCoast(), label, dpi);
        QVERIFY(written.has_value());
        QVERIFY(QFileInfo(pdf).size() > 1000);
    }

private slots:
    void initTestCase() { print::loadFonts(); }

    void isReadByTwoReaders_data()
    {
        QTest::addColumn<int>("label");
        QTest::addColumn<int>("printer");
        QTest::addColumn<int>("dpi");
        QTest::addColumn<double>("degrees");
        const std::vector<std::pair<const char*, Label>> labels{{"label", Label::Mm100x150}, {"A6", Label::A6}, {"A4 two", Label::A4Two}};
        for (const auto& [name, label] : labels) {
            for (const double degrees : {0.0, 7.0, 90.0}) {
                QTest::addRow("%s at 300 turned %g", name, degrees) << static_cast<int>(label) << 300 << 300 << degrees;
            }
        }
        QTest::newRow("label printer of 203 dots") << static_cast<int>(Label::Mm100x150) << 203 << 203 << 0.0;
        QTest::newRow("label printer of 203 dots, turned") << static_cast<int>(Label::Mm100x150) << 203 << 203 << 7.0;
        QTest::newRow("seen at half the dots") << static_cast<int>(Label::Mm100x150) << 300 << 150 << 0.0;
    }
    void isReadByTwoReaders()
    {
        QFETCH(int, label);
        QFETCH(int, printer);
        QFETCH(int, dpi);
        QFETCH(double, degrees);
        const print::TagPage page = test::tagPage();
        const QString pdf = kept(QStringLiteral("tag-%1-%2.pdf").arg(label).arg(printer));
        writeTo(pdf, page, static_cast<Label>(label), printer);
        const QImage image = rendered(pdf, dpi);
        QVERIFY(!image.isNull());
        const QString picture = m_folder.filePath("turned.png");
        QVERIFY((degrees == 0.0 ? image : turned(image, degrees)).save(picture));
        const auto read = print::readSymbol(picture.toStdString());
        QVERIFY(read.has_value());
        QCOMPARE(QString::fromStdString(*read), QString::fromStdString(page.symbol));
        const QByteArray zbar = run("zbarimg", {"--quiet", "--raw", "-Sdisable", "-Sqrcode.enable", picture});
        QCOMPARE(QString::fromUtf8(zbar.split('\n').first()), QString::fromStdString(page.symbol));
    }

    // From the record's facts to paper and back.
    void carriesTheSignedTag()
    {
        auto device = people::Device::create(
            m_folder.filePath("device").toStdString(), people::randomId<DeviceId>(), "this machine", people::Sealing::Light);
        QVERIFY(device.has_value());
        tag::Facts facts;
        facts.number = "NQ-01";
        facts.serial = 9;
        facts.head = canon::sha256("the entry of this tag");
        facts.issued_ms = test::kSunday;
        facts.offset_minutes = -240;
        facts.state = tag::TagState::Released;
        facts.until_ms = test::kSunday + 1;
        facts.device = device->id();
        print::TagPage page = test::tagPage();
        page.symbol = tag::write(facts, *device);
        page.code = tag::shortCode(facts.head);
        const QString pdf = m_folder.filePath("signed.pdf");
        writeTo(pdf, page, Label::Mm100x150, 300);
        rendered(pdf, 300);
        const auto read = print::readSymbol(m_folder.filePath("signed-300.png").toStdString());
        QVERIFY(read.has_value());
        const auto again = tag::read(*read, {{device->id(), device->publicKey()}});
        QVERIFY(again.has_value());
        QVERIFY(*again == facts);
    }

    void theSymbolIsOfWholeDots()
    {
        const auto symbol = print::encodeSymbol(test::tagPage().symbol);
        QVERIFY(symbol.has_value());
        QCOMPARE(symbol->version, 13); // ISO/IEC 18004: 13-Q holds 352 alphanumeric characters, 12-Q 296
        QCOMPARE(symbol->size, 17 + 4 * 13);
        const int dots = print::dotsFor(*symbol, 47.5 * 300 / 25.4);
        QVERIFY(dots >= print::kFewestDots);
        const QImage page = rendered(kept("tag-0-300.pdf"), 300).convertToFormat(QImage::Format_Grayscale8);
        const int whole = (symbol->size + 2 * print::kQuietZone) * dots;
        const int left = qRound(97 * 300 / 25.4 - whole);
        const int top = qRound(90 * 300 / 25.4);
        QVERIFY(left >= 0 && left + whole <= page.width() && top + whole <= page.height());
        const auto dark = [&](int x, int y) {
            const int mx = x / dots - print::kQuietZone;
            const int my = y / dots - print::kQuietZone;
            const bool inside = x >= 0 && y >= 0 && mx >= 0 && my >= 0 && mx < symbol->size && my < symbol->size;
            return inside && symbol->dark[static_cast<std::size_t>(my * symbol->size + mx)];
        };
        for (int y = 0; y < whole; ++y) {
            for (int x = 0; x < whole; ++x) {
                // This renderer touches the dot after a dark edge to the right or below; every other dot is all or nothing.
                const bool touched = dark(x - 1, y) || dark(x, y - 1) || dark(x - 1, y - 1);
                const int shade = page.constScanLine(top + y)[left + x];
                const bool good = dark(x, y) ? shade == 0 : touched ? shade > 128 : shade == 255;
                QVERIFY2(good, qPrintable(QStringLiteral("%1 %2: %3").arg(x).arg(y).arg(shade)));
            }
        }
    }

    void saysWhatIsForbiddenFirst()
    {
        const QString pdf = m_folder.filePath("words.pdf");
        writeTo(pdf, test::tagPage(), Label::A6, 300);
        const QString text = QString::fromUtf8(run("pdftotext", {"-layout", pdf, "-"})).simplified();
        for (const char* words : {"WARNING", "NQ-01", "DO NOT CUT", "HEAT FILL OR MOVE.", "Only the tablet releases.",
                 "When printed: RELEASED for first cut", "ends at the latest 16:30 Sun 14 Jun (UTC-4)",
                 "Tag 9, printed Sun 14 Jun 2026 12:30 (UTC-4)", "7K4P-9QXR-2", "proof 9C41..E0"}) {
            QVERIFY2(text.contains(QLatin1String(words)), qPrintable(QStringLiteral("%1 not in: %2").arg(QLatin1String(words), text)));
        }
        QVERIFY(!text.contains("DEMO"));
        QVERIFY(text.indexOf("DO NOT CUT") < text.indexOf("RELEASED"));
    }

    void aPlayedYardSaysSo()
    {
        print::TagPage page = test::tagPage();
        page.view.demo = true;
        page.view.word = report::PlateWord::Held;
        page.view.signal = report::Signal::Danger;
        const QString pdf = kept("tag-demo-held.pdf");
        writeTo(pdf, page, Label::Mm100x150, 300);
        rendered(pdf, 100);
        const QString text = QString::fromUtf8(run("pdftotext", {"-layout", pdf, "-"})).simplified();
        QCOMPARE(text.count("DEMO"), 2);
        QVERIFY(text.contains("When printed: HELD before first cut"));
        QVERIFY(text.contains("nothing is released"));
        QVERIFY(!text.contains("16:30"));
    }

    void aSymbolTooLargeIsRefused()
    {
        print::TagPage page = test::tagPage();
        page.symbol = std::string(3000, 'A'); // 40-Q holds 2,420
        const QString pdf = m_folder.filePath("large.pdf");
        const auto written = print::writeTagPdf(pdf.toStdString(), page, test::basePack(), test::eastCoast(), Label::A6, 300);
        QVERIFY(!written.has_value());
        QCOMPARE(written.error(), print::PageFault::SymbolTooLarge);
        QVERIFY(!QFileInfo::exists(pdf));
        page.symbol = std::string(1000, 'A'); // would need modules of fewer than four dots on a coarse printer
        QVERIFY(!print::writeTagPdf(pdf.toStdString(), page, test::basePack(), test::eastCoast(), Label::A6, 203).has_value());
    }

    void aFolderThatIsNotThereIsRefused()
    {
        const auto written =
            print::writeTagPdf("/nowhere/at/all/tag.pdf", test::tagPage(), test::basePack(), test::eastCoast(), Label::A6, 300);
        QVERIFY(!written.has_value());
        QCOMPARE(written.error(), print::PageFault::CannotWrite);
    }

    void nothingIsReadWhereNoSymbolIs()
    {
        QImage blank(400, 400, QImage::Format_RGB32);
        blank.fill(Qt::white);
        const QString picture = m_folder.filePath("blank.png");
        QVERIFY(blank.save(picture));
        QVERIFY(!print::readSymbol(picture.toStdString()).has_value());
        QVERIFY(!print::readSymbol(m_folder.filePath("no.png").toStdString()).has_value());
        QVERIFY(!print::readSymbol(BRIMFUL_SOURCE_DIR "/CMakeLists.txt").has_value());
    }
};
BRIMFUL_SUITE(TagPdfTest);
#include "tag_pdf_test.moc"
