// The shop's plans, looked at by machine: in their box, at one scale, the same object in every view.
#include "app/print/plans.h"
#include "tests/support/suite.h"

#include <QImage>
#include <QPainter>
#include <QTest>

#include <cmath>
#include <numbers>

using namespace brimful;
using print::DraughtView;
using print::JointView;
using print::MarkOutView;
using print::Palette;

namespace {

constexpr QRect kPage(0, 0, 760, 480);
constexpr double kInch = 0.0254;

figure::Result figureOf(const char* name, const char* json)
{
    auto result = figure::compute(*figure::byName(name), canon::read(json, canon::Dialect::Any).value(), {});
    if (!result) {
        throw std::invalid_argument(result.error().path + ": " + result.error().expected);
    }
    return *result;
}

constexpr const char* kMarkOut = R"({"vessel": {"outside_diameter": "30 in", "wall": "0.25 in", "overall_length": "92 in",
    "heads": "hemispherical"}, "kerf": "3 mm", "strap": "1 in", "water_depth": "9 in", "pose": {"pitch": "1 deg"}, "features": [
    {"name": "door", "kind": "door", "from_left_tangent": "8 in", "length": "46 in", "around": "12 in", "width": "27.8 in",
     "corner_radius": "2 in", "hinge_side": "second-line"},
    {"name": "stack", "kind": "round-cut-out", "from_left_tangent": "54 in", "clock": "0 deg", "diameter": "8 in"},
    {"name": "valve", "kind": "nozzle", "from_left_tangent": "35 in", "around": "8.5 in", "diameter": "3 in"},
    {"name": "seam", "kind": "seam", "around": "66 in"},
    {"name": "foot", "kind": "foot", "from_left_tangent": "6 in", "length": "4 in", "clock": "200 deg", "width": "6 in"}]})";
constexpr const char* kJoint = R"({"kind": "pipe-to-cylinder", "pipe_diameter": "10 in", "cylinder_diameter": "30 in", "angle": "55 deg",
    "offset": "3 in"})";
constexpr const char* kHeads = R"({"kind": "sphere-to-sphere", "left_diameter": "30 in", "right_diameter": "24 in", "distance": "22 in"})";
constexpr const char* kStack = R"({"height": "8 ft", "diameter": "8 in", "gas_temperature": "300 degF", "air_temperature": "70 degF",
    "loss_factor": 4, "heat_loss": "7.4 W/m2K", "friction_factor": 0.034, "mass_flow": "40 kg/h", "compare": [{"diameter": "6 in"}, {"diameter": "10 in"}]})";

struct Drawn {
    QImage image;
    std::vector<print::PartPlace> parts;
};

template <class Paint> Drawn draw(const Palette& palette, const Paint& paint, bool numbered = false, QSize size = kPage.size())
{
    Drawn out{QImage(size, QImage::Format_RGB32), {}};
    out.image.fill(palette.paper);
    QPainter painter(&out.image);
    out.parts = paint(painter, print::PlanLook{palette, QRectF(QPointF(10, 10), size - QSize(20, 20)), 1, text::Units::Us, numbered});
    return out;
}

void keep(const QImage& image, const QString& name)
{
    QVERIFY(image.save(QStringLiteral(BRIMFUL_BINARY_DIR "/pictures/plan-%1.png").arg(name)));
}

const print::PartPlace* named(const Drawn& drawn, const char* id)
{
    const auto found = std::ranges::find(drawn.parts, QLatin1String(id), &print::PartPlace::id);
    return found == drawn.parts.end() ? nullptr : &*found;
}

using Painter = std::function<std::vector<print::PartPlace>(QPainter&, const print::PlanLook&)>;

std::vector<std::pair<QString, Painter>> everything()
{
    static const figure::Result markOut = figureOf("mark-out", kMarkOut);
    static const figure::Result joint = figureOf("junction", kJoint);
    static const figure::Result heads = figureOf("junction", kHeads);
    static const figure::Result stack = figureOf("draught", kStack);
    std::vector<std::pair<QString, Painter>> out;
    for (const auto& [name, view] :
        {std::pair("mark-out-unrolled", MarkOutView::Unrolled), {"mark-out-side", MarkOutView::Side}, {"mark-out-end", MarkOutView::End}}) {
        out.emplace_back(
            name, [view = view](QPainter& p, const print::PlanLook& look) { return print::paintMarkOut(p, markOut, view, look); });
    }
    for (const auto& [name, view] : {std::pair("joint-pipe", JointView::Pipe), {"joint-hole", JointView::Hole},
             {"joint-side", JointView::Side}, {"joint-end", JointView::End}}) {
        out.emplace_back(name, [view = view](QPainter& p, const print::PlanLook& look) { return print::paintJoint(p, joint, view, look); });
    }
    out.emplace_back(
        "heads-side", [](QPainter& p, const print::PlanLook& look) { return print::paintJoint(p, heads, JointView::Side, look); });
    for (const auto& [name, view] : {std::pair("draught-height", DraughtView::Height), {"draught-diameter", DraughtView::Diameter},
             {"draught-held", DraughtView::Held}}) {
        out.emplace_back(
            name, [view = view](QPainter& p, const print::PlanLook& look) { return print::paintDraught(p, stack, view, look); });
    }
    return out;
}

} // namespace

class PlansTest : public QObject {
    Q_OBJECT
private slots:
    void initTestCase() { print::loadFonts(); }

    // Every plan in every theme is drawn, is kept to be looked at, and leaves the page round its box alone.
    void staysInItsBox()
    {
        const std::vector<std::pair<QString, Palette>> themes{
            {"light", Palette::light()}, {"dark", Palette::dark()}, {"sun", Palette::sunlight()}, {"paper", Palette::paperOneColour()}};
        for (const auto& [name, paint] : everything()) {
            for (const auto& [theme, palette] : themes) {
                const Drawn drawn = draw(palette, paint);
                QVERIFY2(!drawn.parts.empty(), qPrintable(name));
                keep(drawn.image, name + QLatin1Char('-') + theme);
                for (int y = 0; y < kPage.height(); ++y) {
                    for (int x = 0; x < kPage.width(); ++x) {
                        if (x < 8 || y < 8 || x >= kPage.width() - 8 || y >= kPage.height() - 8) {
                            QVERIFY2(
                                drawn.image.pixelColor(x, y) == palette.paper, qPrintable(name + QStringLiteral(" %1 %2").arg(x).arg(y)));
                        }
                    }
                }
            }
            keep(draw(Palette::light(), paint, true, QSize(780, 620)).image, name + "-numbered");
        }
    }

    // One scale both ways: the door's box is as wide as its arc and as high as its length, and lies where its marks say.
    void theUnrolledShellIsTrueToScale()
    {
        const Drawn drawn = draw(Palette::light(), everything().front().second);
        const print::PartPlace* const door = named(drawn, "door");
        const print::PartPlace* const seam = named(drawn, "seam");
        const print::PartPlace* const stack = named(drawn, "stack");
        QVERIFY(door != nullptr && seam != nullptr && stack != nullptr);
        const double scale = door->box.height() / 46; // px an inch
        QVERIFY(std::abs(door->box.width() / scale - 27.8) < 1e-6);
        QVERIFY(std::abs(seam->box.height() / scale - 62) < 1e-6);
        QVERIFY(std::abs((seam->box.center().x() - door->box.left()) / scale - (66 - 12)) < 1e-6);
        QVERIFY(std::abs((door->box.center().y() - stack->box.center().y()) / scale - (54 - 31)) < 1e-6); // the right end is above
    }

    // The same object from the side: the door runs from 8 to 54 in along, and its upper edge is as high as the shell is there.
    void theSideIsTheSameObject()
    {
        const figure::Result level = figureOf("mark-out", R"({"vessel": {"outside_diameter": "30 in", "wall": "0.25 in",
            "overall_length": "92 in", "heads": "hemispherical"}, "features": [{"name": "door", "kind": "door", "from_left_tangent": "8 in",
            "length": "46 in", "around": "12 in", "width": "27.8 in"}, {"name": "a", "kind": "nozzle", "from_left_tangent": "1 in",
            "clock": "90 deg", "diameter": "1 in"}, {"name": "b", "kind": "nozzle", "from_left_tangent": "61 in", "clock": "90 deg",
            "diameter": "1 in"}]})");
        const Drawn drawn = draw(Palette::light(),
            [&](QPainter& p, const print::PlanLook& look) { return print::paintMarkOut(p, level, MarkOutView::Side, look); });
        const print::PartPlace* const door = named(drawn, "door");
        const double scale = (named(drawn, "b")->box.center().x() - named(drawn, "a")->box.center().x()) / 60;
        const double axis = named(drawn, "a")->box.center().y();
        QVERIFY(std::abs(door->box.width() / scale - 46) < 1e-6);
        QVERIFY(std::abs((axis - door->box.top()) / scale - 15 * std::cos(12.0 / 15)) < 1e-6);
        QVERIFY(std::abs((axis - door->box.bottom()) / scale - 15 * std::cos(39.8 / 15)) < 1e-6);
        const Drawn end = draw(Palette::light(),
            [&](QPainter& p, const print::PlanLook& look) { return print::paintMarkOut(p, level, MarkOutView::End, look); });
        // Three o'clock is to the right as seen from the left end.
        QVERIFY(named(end, "a")->anchor.x() > kPage.center().x() + 50);
    }

    // A pattern's lowest generator and its longest point: the cut's box is the girth by the depth.
    void thePatternIsTrueToScale()
    {
        const figure::Result joint = figureOf("junction", kJoint);
        QVERIFY(print::hasJointView(joint, JointView::Pipe) && print::hasJointView(joint, JointView::Hole));
        const figure::Result heads = figureOf("junction", kHeads);
        QVERIFY(!print::hasJointView(heads, JointView::Pipe) && !print::hasJointView(heads, JointView::Hole));
        QVERIFY(print::hasJointView(heads, JointView::Side));
        QCOMPARE(print::tapeWords(39.8125 * kInch, text::Units::Us), QStringLiteral("39 13/16 in"));
        QCOMPARE(print::tapeWords(1.0115, text::Units::Si), QStringLiteral("1012 mm"));
    }

    void withoutAnAnswerThereIsNoPicture()
    {
        const figure::Result liner = figureOf("draught", R"({"liner": {"shell_inside_diameter": "30 in", "outside_diameter": "24 in"}})");
        QImage image(100, 100, QImage::Format_RGB32);
        QPainter painter(&image);
        const Palette palette = Palette::light();
        const print::PlanLook look{palette, QRectF(0, 0, 100, 100)};
        QVERIFY(print::paintDraught(painter, liner, DraughtView::Height, look).empty());
        const figure::Result free = figureOf("draught", R"({"height": "8 ft", "diameter": "8 in", "gas_temperature": "300 degF",
            "air_temperature": "70 degF", "loss_factor": 4})");
        QVERIFY(print::paintDraught(painter, free, DraughtView::Held, look).empty());
        QVERIFY(!print::paintDraught(painter, free, DraughtView::Diameter, look).empty());
        QVERIFY(print::paintMarkOut(painter, liner, MarkOutView::End, look).empty());
        QVERIFY(print::paintJoint(painter, liner, JointView::Side, look).empty());
    }
};
BRIMFUL_SUITE(PlansTest);
#include "plans_test.moc"
