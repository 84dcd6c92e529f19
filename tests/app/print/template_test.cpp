// Full-size patterns, rendered as a printer would and measured back; DXF read by a reader that shares no code with us.
#include "app/print/pattern.h"
#include "tests/support/suite.h"

#include <QFile>
#include <QImage>
#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QProcess>
#include <QTemporaryDir>
#include <QTest>
#include <QXmlStreamReader>

#include <cmath>
#include <numbers>

using namespace brimful;
using print::Paper;

namespace {

QByteArray run(const QString& program, const QStringList& arguments)
{
    QProcess process;
    process.start(program, arguments);
    if (!process.waitForFinished(120'000) || process.exitStatus() != QProcess::NormalExit) {
        return "did not run";
    }
    return process.readAllStandardOutput() + process.readAllStandardError();
}

figure::Result figureOf(const char* name, const char* json)
{
    return figure::compute(*figure::byName(name), canon::read(json, canon::Dialect::Any).value(), {}).value();
}

// A 30 in half vessel on a 30 in shell: its girth is 2,393.9 mm.
constexpr const char* kHalf = R"({"kind": "half-vessel-to-cylinder", "pipe_diameter": "30 in", "cylinder_diameter": "30 in"})";
constexpr const char* kLeaning = R"({"kind": "pipe-to-cylinder", "pipe_diameter": "10 in", "cylinder_diameter": "30 in", "angle": "60 deg",
    "offset": "3 in"})";
constexpr double kGirth = std::numbers::pi * 762;

print::TemplatePage pageOf(const char* name, const char* json)
{
    print::TemplatePage page;
    page.title = "Joints";
    page.part = "NUMBER 7";
    page.patterns = print::patternsOf(figureOf(name, json));
    return page;
}

// Part of a page in grey, and where that part lies: pixels of 25.4 / dpi mm.
QImage cropped(const QString& pdf, int page, int dpi, const QRect& pixels)
{
    const QString stem = pdf.chopped(4) + QStringLiteral("-%1-%2-%3").arg(page).arg(pixels.left()).arg(pixels.top());
    run("pdftoppm",
        {"-r", QString::number(dpi), "-gray", "-f", QString::number(page), "-l", QString::number(page), "-singlefile", "-x",
            QString::number(pixels.left()), "-y", QString::number(pixels.top()), "-W", QString::number(pixels.width()), "-H",
            QString::number(pixels.height()), pdf, stem});
    // By hand: the picture plugin takes no more than 32,767 rows. P5, width, height, 255, then the dots.
    QFile file(stem + ".pgm");
    if (!file.open(QIODevice::ReadOnly) || file.readLine().trimmed() != "P5") {
        return {};
    }
    const QList<QByteArray> size = file.readLine().trimmed().split(' ');
    file.readLine();
    QImage out(size.value(0).toInt(), size.value(1).toInt(), QImage::Format_Grayscale8);
    for (int y = 0; y < out.height(); ++y) {
        file.read(reinterpret_cast<char*>(out.scanLine(y)), out.width());
    }
    return out;
}

double ink(const QImage& image, int x, int y) { return 255 - image.constScanLine(y)[x]; }

// Middles of the lines that cross a strip, in pixels along the strip: runs of rows (or columns) with ink.
std::vector<double> linesAcross(const QImage& image, bool down)
{
    std::vector<double> out;
    double sum = 0;
    double moment = 0;
    const int length = down ? image.height() : image.width();
    const int width = down ? image.width() : image.height();
    for (int along = 0; along < length; ++along) {
        double here = 0;
        for (int across = 0; across < width; ++across) {
            here += down ? ink(image, across, along) : ink(image, along, across);
        }
        if (here > 0.05 * 255 * width) {
            sum += here;
            moment += here * (along + 0.5);
        } else if (sum > 0) {
            out.push_back(moment / sum);
            sum = moment = 0;
        }
    }
    return out;
}

// What an independent reader (ezdxf) makes of a DXF file.
QJsonObject readByAnother(const QString& file)
{
    const QString script = QStringLiteral(R"(
import sys, json, ezdxf
doc = ezdxf.readfile(sys.argv[1])
audit = doc.audit()
lines = []
for e in doc.modelspace().query("POLYLINE"):
    pts = [tuple(p)[:2] for p in e.points()]
    lines.append({"layer": e.dxf.layer, "closed": e.is_closed, "count": len(pts),
        "low": [min(p[0] for p in pts), min(p[1] for p in pts)], "high": [max(p[0] for p in pts), max(p[1] for p in pts)],
        "area": abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(pts, pts[1:] + pts[:1]))) / 2,
        "ys": [p[1] for p in pts] if e.dxf.layer == "CUT" and not e.is_closed else []})
print(json.dumps({"errors": len(audit.errors), "fixes": len(audit.fixes), "lines": lines,
    "texts": [t.dxf.text for t in doc.modelspace().query("TEXT")], "units": doc.header.get("$INSUNITS", 0)}))
)");
    const QByteArray said = run("/usr/bin/python3", {"-c", script, file});
    return QJsonDocument::fromJson(said).object();
}

} // namespace

class TemplateTest : public QObject {
    Q_OBJECT
    QTemporaryDir m_folder;

private slots:
    void initTestCase() { print::loadFonts(); }

    // On a roll: from the first generator's line round to the seam, 2,393.9 mm, found by their ink at 600 dots an inch.
    void twoMetresAreTwoMetres()
    {
        const QString pdf = m_folder.filePath("roll.pdf");
        print::TemplatePage page = pageOf("junction", kHalf);
        std::erase_if(page.patterns, [](const print::Pattern& one) { return one.name != "pipe"; });
        const auto pages = print::writeTemplatePdf(pdf.toStdString(), page, Paper::Roll, 610);
        QVERIFY(pages.has_value());
        QCOMPARE(*pages, 2);
        constexpr int kDpi = 600;
        constexpr double kPixel = 25.4 / kDpi;
        // A strip along the roll, 30 mm in from the pattern's straight edge, which stands 22 mm in from the paper's.
        const QImage strip = cropped(pdf, 2, kDpi, QRect(qRound(52 / kPixel), qRound(10 / kPixel), 70, qRound(2415 / kPixel)));
        QVERIFY(!strip.isNull());
        const std::vector<double> lines = linesAcross(strip, true);
        QCOMPARE(lines.size(), std::size_t(17)); // sixteen generators and the seam
        const double length = (lines.back() - lines.front()) * kPixel;
        qInfo("%.3f mm on paper, %.3f mm on steel", length, kGirth);
        QVERIFY2(std::abs(length - kGirth) <= 0.1, qPrintable(QString::number(length, 'f', 3)));
        for (std::size_t i = 1; i < lines.size(); ++i) {
            QVERIFY(std::abs((lines[i] - lines[i - 1]) * kPixel - kGirth / 16) <= 0.1);
        }
    }

    // A dip stick of a lying vessel, 1 m across with hemispherical heads: each mark by the handbook's segment and cap.
    void aDipStickIsTrue()
    {
        const QString pdf = m_folder.filePath("stick.pdf");
        print::TemplatePage page =
            pageOf("dip-chart", R"({"vessel":{"inside_diameter":"1 m","shell_length":"2 m","heads":"hemispherical"},"every":"100 L"})");
        QVERIFY(print::writeTemplatePdf(pdf.toStdString(), page, Paper::Roll, 610).has_value());
        constexpr int kDpi = 600;
        constexpr double kPixel = 25.4 / kDpi;
        // Down through the short marks, which reach 8 mm into the strip; its left edge stands 22 mm in from the paper's.
        const QImage strip = cropped(pdf, 2, kDpi, QRect(qRound(25 / kPixel), qRound(10 / kPixel), 70, qRound(1020 / kPixel)));
        QVERIFY(!strip.isNull());
        std::vector<double> lines = linesAcross(strip, true);
        QCOMPARE(lines.size(), std::size_t(22)); // both ends and 20 marks of 2.094 m3
        const double foot = lines.back();
        const double r = 0.5;
        for (std::size_t i = 1; i + 1 < lines.size(); ++i) {
            const double h = (foot - lines[lines.size() - 1 - i]) * kPixel / 1000;
            const double held =
                2 * (r * r * std::acos((r - h) / r) - (r - h) * std::sqrt(2 * r * h - h * h)) + std::numbers::pi * h * h * (3 * r - h) / 3;
            const double surface = 2 * 2 * std::sqrt(2 * r * h - h * h) + std::numbers::pi * (2 * r * h - h * h);
            const double off = (held - 0.1 * static_cast<double>(i)) / surface * 1000; // mm of the stick
            QVERIFY2(std::abs(off) <= 0.1, qPrintable(QStringLiteral("mark %1: %2 mm").arg(i).arg(off)));
        }
        QVERIFY(std::abs((foot - lines.front()) * kPixel - 1000) <= 0.1);
    }

    void bothBarsAreTrue_data()
    {
        QTest::addColumn<int>("paper");
        QTest::addColumn<double>("height"); // of the sheet, mm
        QTest::newRow("A4") << static_cast<int>(Paper::A4) << 297.0;
        QTest::newRow("A3") << static_cast<int>(Paper::A3) << 420.0;
        QTest::newRow("Letter") << static_cast<int>(Paper::Letter) << 279.4;
    }
    void bothBarsAreTrue()
    {
        QFETCH(int, paper);
        QFETCH(double, height);
        const QString pdf = m_folder.filePath(QStringLiteral("bars-%1.pdf").arg(paper));
        print::TemplatePage page = pageOf("junction", kLeaning);
        QVERIFY(print::writeTemplatePdf(pdf.toStdString(), page, static_cast<Paper>(paper)).has_value());
        constexpr int kDpi = 600;
        constexpr double kPixel = 25.4 / kDpi;
        // Sheets may lie on their side.
        const QByteArray size = run("pdfinfo", {"-f", "2", "-l", "2", pdf});
        const double tall = size.mid(size.indexOf("size:") + 5).split('x').at(1).trimmed().split(' ').first().toDouble() * 25.4 / 72;
        QVERIFY(std::abs(tall - height) < 0.5 || tall < height);
        for (const auto& [down, length] : {std::pair(27.0, 100.0), std::pair(21.0, 101.6)}) {
            // A low strip through the upper halves of both end strokes, above the bar itself.
            const QImage strip =
                cropped(pdf, 2, kDpi, QRect(qRound(9 / kPixel), qRound((tall - down - 1.4) / kPixel), qRound((length + 2.2) / kPixel), 18));
            const std::vector<double> ends = linesAcross(strip, false);
            QCOMPARE(ends.size(), std::size_t(2));
            const double found = (ends[1] - ends[0]) * kPixel;
            QVERIFY2(std::abs(found - length) <= 0.05, qPrintable(QString::number(found, 'f', 3)));
        }
    }

    // Neighbours show the same strip, dot for dot: at 254 dots an inch a millimetre is ten dots and nothing is between them.
    void neighboursOverlapExactly()
    {
        const QString pdf = m_folder.filePath("tiles.pdf");
        print::TemplatePage page = pageOf("junction", kLeaning);
        std::erase_if(page.patterns, [](const print::Pattern& one) { return one.name != "pipe"; });
        QVERIFY(print::writeTemplatePdf(pdf.toStdString(), page, Paper::A4).has_value());
        const print::Tiling tiling = print::tilingOf(page.patterns.front().bounds(), Paper::A4, 0);
        QVERIFY(tiling.columns > 2);
        QCOMPARE(tiling.rows, 1);
        const auto strip = [&](int column, double left) {
            return cropped(pdf, column + 2, 254,
                QRect(qRound((left + 1) * 10), qRound((tiling.window.top() + 1) * 10), 100, qRound((tiling.window.height() - 2) * 10)));
        };
        for (int column = 0; column + 1 < tiling.columns; ++column) {
            const QImage mine = strip(column, tiling.window.right() - print::Tiling::kOverlap);
            const QImage next = strip(column + 1, tiling.window.left());
            QCOMPARE(mine.size(), next.size());
            double dark = 0;
            int off = 0;
            for (int y = 0; y < mine.height(); ++y) {
                for (int x = 0; x < mine.width(); ++x) {
                    dark += ink(mine, x, y) / 255;
                    off += std::abs(ink(mine, x, y) - ink(next, x, y)) > 8 ? 1 : 0;
                }
            }
            QVERIFY(dark > 300); // two crosses with their names, and the pattern
            QCOMPARE(off, 0);
        }
    }

    void everySheetSaysWhatItIs()
    {
        const QString pdf = m_folder.filePath("words.pdf");
        const auto pages = print::writeTemplatePdf(pdf.toStdString(), pageOf("junction", kLeaning), Paper::Letter);
        QVERIFY(pages.has_value());
        for (int i = 2; i <= *pages; ++i) {
            const QString text = QString::fromUtf8(run("pdftotext", {"-f", QString::number(i), "-l", QString::number(i), pdf, "-"}));
            for (const QString& words : {QStringLiteral("Sheet %1 of %2").arg(i - 1).arg(*pages - 1), QStringLiteral("NUMBER 7"),
                     QStringLiteral("100 mm"), QStringLiteral("4 in"), QStringLiteral("Measure both bars")}) {
                QVERIFY2(text.contains(words), qPrintable(words + " not in: " + text));
            }
        }
        QVERIFY(run("pdftotext", {pdf, "-"}).contains("THIS EDGE ON THE LINE"));
    }

    // The DXF by ezdxf: no faults, millimetres, the edges where the figure has them.
    void anotherReaderReadsTheDxf()
    {
        const figure::Result result = figureOf("junction", kLeaning);
        const QString name = m_folder.filePath("joint.dxf");
        QFile file(name);
        QVERIFY(file.open(QIODevice::WriteOnly));
        file.write(QByteArray::fromStdString(print::patternDxf(print::patternsOf(result))));
        file.close();
        const QJsonObject read = readByAnother(name);
        QVERIFY2(!read.isEmpty(), "no reader");
        QCOMPARE(read.value("errors").toInt(-1), 0);
        QCOMPARE(read.value("units").toInt(), 4);
        int cuts = 0;
        for (const QJsonValue& one : read.value("lines").toArray()) {
            const QJsonObject line = one.toObject();
            if (line.value("layer").toString() != "CUT") {
                continue;
            }
            ++cuts;
            const double width = line.value("high").toArray().at(0).toDouble() - line.value("low").toArray().at(0).toDouble();
            const double height = line.value("high").toArray().at(1).toDouble() - line.value("low").toArray().at(1).toDouble();
            if (line.value("closed").toBool()) {
                QVERIFY(std::abs(line.value("area").toDouble() / 1e6 - result.values.find("hole_area_m2")->number) < 1e-8);
                continue;
            }
            QVERIFY(std::abs(width - std::numbers::pi * 254) < 1e-5);
            QVERIFY(std::abs(height / 1000 - result.values.find("depth_m")->number) < 1e-8);
            // Each ordinate stands in the polyline, 720 steps round, counted from the longest point.
            const double beyond = result.values.find("long_point_beyond_m")->number;
            QVERIFY(beyond >= 0 && beyond < 0.001);
            const QJsonArray ys = line.value("ys").toArray();
            QCOMPARE(ys.size(), 721);
            const auto& ordinates = result.values.find("ordinates")->items;
            for (std::size_t i = 0; i < ordinates.size(); ++i) {
                const double y = ys.at(static_cast<qsizetype>(i * 45)).toDouble() - line.value("low").toArray().at(1).toDouble();
                QVERIFY(std::abs(y / 1000 - beyond - ordinates[i].find("cut_m")->number) < 1e-8);
            }
        }
        QCOMPARE(cuts, 2);
        QVERIFY(read.value("texts").toArray().contains(QJsonValue("15")));
    }

    void theSvgHasItsTrueSize()
    {
        const auto patterns = print::patternsOf(figureOf("junction", kLeaning));
        QXmlStreamReader xml(QByteArray::fromStdString(print::patternSvg(patterns)));
        double width = 0;
        double box = 0;
        double most = 0;
        int cuts = 0;
        while (!xml.atEnd()) {
            if (xml.readNext() != QXmlStreamReader::StartElement) {
                continue;
            }
            const auto attributes = xml.attributes();
            if (xml.name() == QLatin1String("svg")) {
                QVERIFY(attributes.value("width").endsWith(QLatin1String("mm")));
                width = attributes.value("width").chopped(2).toDouble();
                box = attributes.value("viewBox").split(QLatin1Char(' ')).at(2).toDouble();
            }
            if (xml.name() == QLatin1String("polyline") && attributes.value("class") == QLatin1String("CUT")) {
                ++cuts;
                const auto points = attributes.value("points").split(QLatin1Char(' '), Qt::SkipEmptyParts);
                most = points.last().split(QLatin1Char(',')).first().toDouble() - points.first().split(QLatin1Char(',')).first().toDouble();
            }
        }
        QVERIFY(!xml.hasError());
        QCOMPARE(width, box);
        QCOMPARE(cuts, 1);
        QVERIFY(std::abs(most - std::numbers::pi * 254) < 1e-5);
    }

    void whatCannotBeLaidFlatIsNotDrawn()
    {
        const print::TemplatePage page =
            pageOf("junction", R"({"kind": "sphere-to-sphere", "left_diameter": "30 in", "right_diameter": "30 in", "distance": "24 in"})");
        QVERIFY(page.patterns.empty());
        const auto written = print::writeTemplatePdf(m_folder.filePath("none.pdf").toStdString(), page, Paper::A4);
        QVERIFY(!written.has_value());
        QCOMPARE(written.error(), print::PageFault::NothingToDraw);
    }
};
BRIMFUL_SUITE(TemplateTest);
#include "template_test.moc"
