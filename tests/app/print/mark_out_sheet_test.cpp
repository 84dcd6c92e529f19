// The page of marks, read back from the paper by a reader of its own: every mark, the closing check, the order of work, cautions, in
// letters that are read at arm's length.
#include "app/print/plans.h"
#include "core/quantity/format.h"
#include "tests/support/suite.h"

#include <QFileInfo>
#include <QProcess>
#include <QRegularExpression>
#include <QTemporaryDir>
#include <QTest>
#include <QXmlStreamReader>

#include <cmath>

using namespace brimful;
using print::Paper;

namespace {

QByteArray run(const QString& program, const QStringList& arguments)
{
    QProcess process;
    process.start(program, arguments);
    return process.waitForFinished(60'000) ? process.readAllStandardOutput() : QByteArray("did not run");
}

figure::Result figureOf(const QByteArray& json)
{
    return figure::compute(*figure::byName("mark-out"), canon::read(json.toStdString(), canon::Dialect::Any).value(), {}).value();
}

QByteArray shell(const QByteArray& features, const QByteArray& rest = {})
{
    return R"({"vessel": {"outside_diameter": "30 in", "wall": "0.25 in", "overall_length": "92 in", "heads": "hemispherical"},
        "kerf": "3 mm", "strap": "1 in", "features": [)"
        + features + "]" + rest + "}";
}

const QByteArray kUsual = R"(
    {"name": "door", "kind": "door", "from_left_tangent": "8 in", "length": "36 in", "clock": "45 deg", "width": "24.3 in",
     "corner_radius": "1.5 in", "hinge_side": "second-line"},
    {"name": "stack", "kind": "round-cut-out", "from_left_tangent": "54.1 in", "clock": "10 deg", "diameter": "8 in"},
    {"name": "valve", "kind": "nozzle", "from_left_tangent": "25 in", "around": "9 in", "diameter": "3 in"},
    {"name": "seam", "kind": "seam", "around": "66 in"})";

} // namespace

class MarkOutSheetTest : public QObject {
    Q_OBJECT
    QTemporaryDir m_folder;

private slots:
    void initTestCase() { print::loadFonts(); }

    void saysEverything_data()
    {
        QTest::addColumn<int>("paper");
        QTest::addColumn<double>("wide");
        QTest::addColumn<double>("tall");
        QTest::newRow("A4") << static_cast<int>(Paper::A4) << 210.0 << 297.0;
        QTest::newRow("Letter") << static_cast<int>(Paper::Letter) << 215.9 << 279.4;
        QTest::newRow("A3") << static_cast<int>(Paper::A3) << 297.0 << 420.0;
    }
    void saysEverything()
    {
        QFETCH(int, paper);
        QFETCH(double, wide);
        QFETCH(double, tall);
        const QString pdf = m_folder.filePath(QStringLiteral("marks-%1.pdf").arg(paper));
        const figure::Result result = figureOf(shell(kUsual, R"(, "water_depth": "9 in")"));
        QVERIFY(print::writeMarkOutPdf(pdf.toStdString(), {QStringLiteral("NUMBER 7"), result}, static_cast<Paper>(paper)).has_value());
        run("pdftoppm", {"-r", "120", "-png", pdf, QStringLiteral(BRIMFUL_BINARY_DIR "/pictures/mark-out-sheet-%1").arg(paper)});
        const QString info = QString::fromUtf8(run("pdfinfo", {pdf}));
        QVERIFY(info.contains(QRegularExpression(QStringLiteral("Pages: +1\n"))));
        const auto size = QRegularExpression(QStringLiteral("Page size: +([0-9.]+) x ([0-9.]+)")).match(info);
        QVERIFY(std::abs(size.captured(1).toDouble() * 25.4 / 72 - wide) < 0.5
            && std::abs(size.captured(2).toDouble() * 25.4 / 72 - tall) < 0.5);
        const QString text = QString::fromUtf8(run("pdftotext", {"-layout", pdf, "-"}));
        // One row a mark: number, name, sixteenths, exact, residual, millimetres, residual; each worked again from the exact place.
        for (const char* key : {"around", "along"}) {
            int number = 0;
            for (const canon::Json& mark : result.values.find(key)->items) {
                const double inches = mark.find("exact_m")->number / 0.0254;
                const double sixteenth = std::floor(inches * 16 + 0.5) / 16;
                const double millimetres = std::floor(inches * 25.4 + 0.5);
                const QString fraction = QString::fromStdString(quantity::inchFraction(quantity::metres(sixteenth * 0.0254)));
                const auto residual = [](double value, int digits) {
                    return (value >= 0 ? QStringLiteral("\\+") : QStringLiteral("\u2212")) + QString::number(std::abs(value), 'f', digits);
                };
                const QString row =
                    QStringLiteral("\\b%1 +%2, [a-z ]+ %3 +%4 +%5 +%6 mm +%7")
                        .arg(++number)
                        .arg(QString::fromStdString(std::string(mark.textOf("feature"))), fraction, QString::number(inches, 'f', 3),
                            residual(inches - sixteenth, 3), QString::number(millimetres), residual(inches * 25.4 - millimetres, 1));
                QVERIFY2(text.contains(QRegularExpression(row)), qPrintable(row + QLatin1Char('\n') + text));
            }
            QVERIFY(number > 3);
        }
        const QString flowing = QString::fromUtf8(run("pdftotext", {pdf, "-"})).simplified();
        // 94 1/4 in of girth less the seam's 66.
        for (const char* words : {"Mark-out: NUMBER 7", "28 1/4 in (717 mm)", "94 1/4 in (2394 mm)", "none from another mark",
                 "ask the tablet", "from the left end", "shop practice from memory", "Panel of door weighs"}) {
            QVERIFY2(flowing.contains(QLatin1String(words)), qPrintable(QLatin1String(words) + QStringLiteral(" not in ") + flowing));
        }
        // In this order, and nothing hot before the release.
        qsizetype before = -1;
        for (const char* words : {"1. Wet: cut stack right out", "2. Wet: cut door cold, leave its corners", "3. Wet: let the water out",
                 "4. Nothing hot before the tablet has released hot work", "5. Dry: fit the hinge of door",
                 "6. Dry: fit the straps of door", "7. Dry: cut the tabs of door last"}) {
            const qsizetype at = flowing.indexOf(QLatin1String(words));
            QVERIFY2(at > before, words);
            before = at;
        }
    }

    // Read at 0.7 m: lines of 1/200 of it, 3.5 mm high at least; the tape numbers half as large again.
    void isReadAtArmsLength()
    {
        for (const Paper paper : {Paper::A4, Paper::Letter}) {
            const QString pdf = m_folder.filePath("length.pdf");
            QVERIFY(print::writeMarkOutPdf(pdf.toStdString(), {{}, figureOf(shell(kUsual))}, paper).has_value());
            QXmlStreamReader words(run("pdftotext", {"-bbox", pdf, "-"}));
            double least = 1e9;
            double tape = 0;
            int count = 0;
            while (!words.atEnd()) {
                if (words.readNext() == QXmlStreamReader::StartElement && words.name() == QLatin1String("word")) {
                    const auto a = words.attributes();
                    const double high = (a.value("yMax").toDouble() - a.value("yMin").toDouble()) * 25.4 / 72;
                    ++count;
                    least = std::min(least, high);
                    tape = words.readElementText() == QLatin1String("25") ? std::max(tape, high) : tape;
                }
            }
            qInfo("least letters %.2f mm, tape numbers %.2f mm", least, tape);
            QVERIFY(count > 100);
            QVERIFY2(least >= 3.5, qPrintable(QString::number(least)));
            QVERIFY2(tape >= 5.2, qPrintable(QString::number(tape)));
        }
    }

    void namesWhatIsTooNear()
    {
        const QString pdf = m_folder.filePath("near.pdf");
        QVERIFY(print::writeMarkOutPdf(pdf.toStdString(),
            {{}, figureOf(shell(R"({"name": "hatch", "kind": "cut-out", "from_left_tangent": "8 in", "length": "6 in", "around": "20 in",
            "width": "6 in"}, {"name": "weld", "kind": "seam", "around": "27 in"})"))},
            Paper::A4)
                    .has_value());
        const QString text = QString::fromUtf8(run("pdftotext", {pdf, "-"})).simplified();
        QVERIFY2(text.contains(QStringLiteral("hatch comes within 23.1 mm of weld; 50.8 mm is wanted.")),
            qPrintable(text)); // 1 in, half the kerf, 1/32
    }

    void aPageThatCannotHoldThem()
    {
        QStringList many;
        for (int i = 1; i <= 60; ++i) {
            many << QStringLiteral(
                "{'name': 'n%1', 'kind': 'nozzle', 'from_left_tangent': '%1 in', 'around': '%1 in', 'diameter': '1/2 in'}")
                        .arg(i)
                        .replace(QLatin1Char('\''), QLatin1Char('"'));
        }
        const QString pdf = m_folder.filePath("many.pdf");
        const auto written =
            print::writeMarkOutPdf(pdf.toStdString(), {{}, figureOf(shell(many.join(QLatin1Char(',')).toUtf8()))}, Paper::A4);
        QVERIFY(!written.has_value());
        QCOMPARE(written.error(), print::PageFault::TooMuchForOnePage);
        QVERIFY(!QFileInfo::exists(pdf));
        QCOMPARE(print::writeMarkOutPdf(m_folder.filePath("no/folder.pdf").toStdString(), {{}, figureOf(shell(kUsual))}, Paper::A4).error(),
            print::PageFault::CannotWrite);
        QCOMPARE(print::writeMarkOutPdf(pdf.toStdString(), {}, Paper::A4).error(), print::PageFault::NothingToDraw);
    }
};
BRIMFUL_SUITE(MarkOutSheetTest);
#include "mark_out_sheet_test.moc"
