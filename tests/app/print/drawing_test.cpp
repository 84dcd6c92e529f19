// The drawing, looked at by machine: what must be on the page is on the page, and it stays in its box.
#include "app/print/paint.h"
#include "app/print/strokes.h"
#include "tests/app/print/sample_views.h"
#include "tests/support/suite.h"

#include <QImage>
#include <QPainter>
#include <QTest>

#include <cmath>
#include <numbers>

using namespace brimful;
using print::Palette;

namespace {

constexpr QRect kPage(0, 0, 720, 400);

struct Drawn {
    QImage image;
    std::vector<print::PartPlace> parts;
};

Drawn draw(const report::VesselView& view, const Palette& palette, double line_scale = 1.0, bool labels = true)
{
    Drawn out{QImage(kPage.size(), QImage::Format_RGB32), {}};
    out.image.fill(palette.paper);
    QPainter painter(&out.image);
    print::DrawOptions options;
    options.box = QRectF(kPage).adjusted(15, 10, -15, -10);
    options.line_scale = line_scale;
    options.labels = labels;
    out.parts = print::paintVessel(painter, view, palette, options);
    return out;
}

void keep(const QImage& image, const QString& name)
{
    QVERIFY(image.save(QStringLiteral(BRIMFUL_BINARY_DIR "/pictures/%1.png").arg(name)));
}

} // namespace

class DrawingTest : public QObject {
    Q_OBJECT
private slots:
    void initTestCase() { print::loadFonts(); }

    void everyStateHasAPicture()
    {
        const std::vector<std::pair<QString, Palette>> themes{
            {"light", Palette::light()}, {"dark", Palette::dark()}, {"sun", Palette::sunlight()}, {"paper", Palette::paperOneColour()}};
        for (const auto& [name, view] : test::allViews()) {
            for (const auto& [theme, palette] : themes) {
                keep(draw(view, palette).image, QString::fromStdString(name) + '-' + theme);
            }
            keep(draw(view, Palette::light(), 0.5, false).image, QString::fromStdString(name) + "-small");
        }
    }

    // Gas is as dense laid down dot by dot, as a screen has it, as where every dot is a circle drawn: two of radius 2.4 in 16 by 16.
    void gasIsAsDenseOnEverything()
    {
        constexpr double kShare = 2 * std::numbers::pi * 2.4 * 2.4 / (16 * 16);
        Palette palette = Palette::light();
        palette.fills = false;
        palette.panel = Qt::white;
        palette.gas_ink = Qt::black;
        for (const double scale : {1.0, 2.0}) { // of the painter: other than 1, nothing is laid down
            for (const double unit : {0.5, 0.73, 1.0, 1.9}) {
                constexpr int kSide = 608;
                QImage image(kSide, kSide, QImage::Format_RGB32);
                image.fill(Qt::white);
                QPainter painter(&image);
                painter.setRenderHint(QPainter::Antialiasing);
                painter.scale(scale, scale);
                print::dotGas(painter, QRectF(0, 0, kSide / scale, kSide / scale), palette, unit);
                double ink = 0;
                for (int y = 0; y < kSide; ++y) {
                    for (int x = 0; x < kSide; ++x) {
                        ink += 1 - qGray(image.pixel(x, y)) / 255.0;
                    }
                }
                const double share = ink / (kSide * kSide);
                QVERIFY2(std::abs(share / kShare - 1) < 0.12, // circles of a pixel or two come out a little small
                    qPrintable(QStringLiteral("scale %1, unit %2: %3 instead of %4").arg(scale).arg(unit).arg(share).arg(kShare)));
            }
        }
    }

    // Nothing is drawn outside the box that was given.
    void staysInItsBox_data()
    {
        QTest::addColumn<int>("view");
        for (std::size_t i = 0; i < test::allViews().size(); ++i) {
            QTest::newRow(test::allViews()[i].first.c_str()) << static_cast<int>(i);
        }
    }
    void staysInItsBox()
    {
        QFETCH(int, view);
        const Palette palette = Palette::light();
        for (const bool labels : {true, false}) {
            const Drawn drawn = draw(test::allViews()[static_cast<std::size_t>(view)].second, palette, labels ? 1.0 : 0.5, labels);
            for (int y = 0; y < kPage.height(); ++y) {
                for (int x = 0; x < kPage.width(); ++x) {
                    if (x < 13 || y < 8 || x >= kPage.width() - 13 || y >= kPage.height() - 8) {
                        QVERIFY2(drawn.image.pixelColor(x, y) == palette.paper, qPrintable(QStringLiteral("%1 %2").arg(x).arg(y)));
                    }
                }
            }
        }
    }

    void everyPartHasAPlace()
    {
        for (const auto& [name, view] : test::allViews()) {
            const Drawn drawn = draw(view, Palette::light());
            QStringList ids;
            for (const print::PartPlace& part : drawn.parts) {
                ids << part.id;
                QVERIFY2(QRectF(kPage).contains(part.anchor), qPrintable(QString::fromStdString(name) + ' ' + part.id));
                QVERIFY(part.box.isValid());
            }
            for (const char* id : {"was", "tilt", "water", "tag", "shell"}) {
                QVERIFY(ids.contains(QLatin1String(id)));
            }
            for (const report::OpeningView& opening : view.openings) {
                QVERIFY(ids.contains("opening:" + QString::fromStdString(opening.name)));
            }
        }
    }

    // Level and dashes follow the world, not the vessel: whatever the tilt, a dash is a run in one row.
    void waterIsLevel()
    {
        report::VesselView view = test::draining();
        view.word = report::PlateWord::Held;
        view.cut = report::CutState::Planned;
        view.openings.clear();
        for (const double pitch : {0.0, 2.0, -12.0}) {
            view.pitch_deg = pitch;
            const QImage image = draw(view, Palette::light()).image;
            int rows = 0;
            for (int y = 0; y < image.height(); ++y) {
                int run = 0;
                int longest = 0;
                for (int x = 0; x < image.width(); ++x) {
                    run = image.pixelColor(x, y) == Palette::light().water_ink ? run + 1 : 0;
                    longest = std::max(longest, run);
                }
                rows += longest > 150 ? 1 : 0; // the surface, across the vessel
            }
            QVERIFY2(rows >= 2 && rows <= 6, qPrintable(QString::number(rows)));
        }
    }

    // Small tilts are steeper in the drawing, by what it says; without words, true to scale.
    void smallTiltsAreSteeper()
    {
        const auto slope = [](double pitch, bool labels) {
            report::VesselView view = test::wet();
            view.openings.clear();
            view.openings.push_back({"L", report::OpeningState::Plugged, report::Sight::Proven, 0, 0, ""});
            view.openings.push_back({"R", report::OpeningState::Plugged, report::Sight::Proven, view.shell.shell_length_m, 0, ""});
            view.pitch_deg = pitch;
            QPointF left;
            QPointF right;
            for (const print::PartPlace& part : draw(view, Palette::light(), 1.0, labels).parts) {
                left = part.id == "opening:L" ? part.anchor : left;
                right = part.id == "opening:R" ? part.anchor : right;
            }
            return std::atan2(left.y() - right.y(), right.x() - left.x()) * 180 / std::numbers::pi;
        };
        QVERIFY(std::abs(slope(2.0, true) - 6.0) < 0.01);
        QVERIFY(std::abs(slope(-1.0, true) + 3.0) < 0.01);
        QVERIFY(std::abs(slope(2.0, false) - 2.0) < 0.01);
        QVERIFY(std::abs(slope(7.0, true) - 7.0) < 0.01);
        QVERIFY(std::abs(slope(0.0, true)) < 0.01);
    }

    // What the state adds to the same vessel: each drawing differs from every other.
    void everyStateLooksDifferent()
    {
        using report::PlateWord;
        report::VesselView view = test::wet();
        std::vector<std::pair<PlateWord, QImage>> drawn;
        for (const PlateWord word :
            {PlateWord::Held, PlateWord::Released, PlateWord::Stopped, PlateWord::Refused, PlateWord::ClosedOut, PlateWord::Draining}) {
            view.word = word;
            drawn.emplace_back(word, draw(view, Palette::paperOneColour()).image);
        }
        for (std::size_t i = 0; i < drawn.size(); ++i) {
            for (std::size_t j = 0; j < i; ++j) {
                QVERIFY(drawn[i].second != drawn[j].second);
            }
        }
    }

    void aFigureKeepsItsParts()
    {
        figure::Result result;
        result.picture.push_back({"shell", true, {{0, -0.5}, {2, -0.5}, {2, 0.5}, {0, 0.5}}});
        result.picture.push_back({"water", true, {{0, -0.5}, {2, -0.5}, {2, 0.3}, {0, 0.3}}});
        result.picture.push_back({"pocket", true, {{0, 0.3}, {2, 0.3}, {2, 0.5}, {0, 0.5}}});
        result.picture.push_back({"opening:N1", false, {{0.5, 0.5}, {0.5, 0.6}}});
        QImage image(820, 400, QImage::Format_RGB32);
        image.fill(Palette::light().paper);
        QPainter painter(&image);
        const auto parts = print::paintFigure(painter, result, Palette::light(), QRectF(0, 0, 820, 400));
        painter.end();
        QCOMPARE(parts.size(), std::size_t(4));
        QCOMPARE(parts[3].id, QStringLiteral("opening:N1"));
        QVERIFY(parts[1].box.top() > parts[2].box.top()); // water lies below the pocket
        keep(image, "figure");
        QVERIFY(print::paintFigure(painter, figure::Result{}, Palette::light(), QRectF(0, 0, 820, 400)).empty());
    }

    void theRunAndTheBlind()
    {
        QImage image(1280, 620, QImage::Format_RGB32);
        image.fill(Palette::light().paper);
        QPainter painter(&image);
        const std::vector<QString> names{"accept", "fittings", "first cut", "hot work", "hand over"};
        const auto gates = print::paintRun(painter, test::wet(), Palette::light(), QRectF(24, 10, 1232, 106), names);
        QCOMPARE(gates.size(), std::size_t(11));
        print::paintRun(painter, test::closedOut(), Palette::light(), QRectF(24, 120, 1232, 106), names);
        print::paintBlind(painter, {7, 3, 3, 2, 0, false}, test::wet(), Palette::light(), QRectF(24, 236, 480, 372));
        print::paintBlind(painter, {7, 7, -1, 2, 2, true}, test::wetReleased(), Palette::light(), QRectF(600, 236, 480, 372));
        painter.end();
        keep(image, "run-and-blind");
    }
};
BRIMFUL_SUITE(DrawingTest);
#include "drawing_test.moc"
