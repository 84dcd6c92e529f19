// The drawing, looked at by machine: what must be on the page is on the page, and it stays in its box.
#include "app/print/paint.h"
#include "tests/app/print/sample_views.h"
#include "tests/support/suite.h"

#include <QDir>
#include <QImage>
#include <QPainter>
#include <QTest>

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

QDir pictures()
{
    QDir folder(QStringLiteral(BRIMFUL_BINARY_DIR "/pictures"));
    folder.mkpath(QStringLiteral("."));
    return folder;
}

void keep(const QImage& image, const QString& name) { QVERIFY(image.save(pictures().filePath(name + QStringLiteral(".png")))); }

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
