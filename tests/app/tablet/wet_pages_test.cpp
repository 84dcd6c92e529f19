// The plans of the wet side: what each shows is the figure's own answer for the same inputs, asked here by hand.
#include "app/tablet/cut_page.h"
#include "app/tablet/drain_page.h"
#include "app/tablet/figures.h"
#include "app/tablet/level_page.h"
#include "app/tablet/sampling_page.h"
#include "app/tablet/stand_page.h"
#include "tests/support/suite.h"

#include <QImage>
#include <QPainter>
#include <QTest>

#include <cmath>

using namespace brimful;
using canon::Json;
using quantity::Dimension;
using tablet::FigurePage;

namespace {

text::Reading metric()
{
    text::Reading out;
    out.units = text::Units::Si;
    return out;
}

// Hemispherical, 1 m inside across, 2 m between the tangents: 2.0944 m3. One opening on top is open.
report::VesselView vessel()
{
    report::VesselView out;
    out.shell = {report::Sight::Proven, 1.02, 0.01, 2.0, "hemispherical", "hemispherical", 2.0943951};
    out.openings = {{"N1", report::OpeningState::Open, report::Sight::Proven, 1.0, 0, ""}};
    out.pitch_deg = 0.0;
    out.roll_deg = 0.0;
    return out;
}

constexpr const char* kVessel = R"("vessel":{"outside_diameter":"1.02 m","wall":"0.01 m","shell_length":"2 m","heads":"hemispherical"})";

figure::Result answer(const char* name, const QString& rest)
{
    const std::string text = std::string("{") + kVessel + "," + rest.toStdString() + "}";
    return figure::compute(*figure::byName(name), canon::read(text, canon::Dialect::Any).value(), {}).value();
}

double number(const Json& values, const char* key) { return values.find(key)->number; }

template <class Page> std::unique_ptr<Page> opened(const report::VesselView& view = vessel())
{
    auto page = std::make_unique<Page>();
    page->show({std::make_shared<const report::VesselView>(view), {}, {}, metric()});
    return page;
}

void put(FigurePage& page, const char* input, double value)
{
    page.choose(QString::fromLatin1(input));
    page.step(-10000);
    for (int i = 0; i < 10000 && page.input(input).value() < value - 1e-9; ++i) {
        page.step(1);
    }
    QVERIFY2(std::abs(page.input(input).value() - value) < 1e-6, input);
}

QString lineOf(FigurePage& page, const char* title)
{
    for (const tablet::Row& row : page.lines()->rows()) {
        if (row.title == QLatin1String(title)) {
            return row.line;
        }
    }
    return {};
}

QString shown(double si, Dimension dimension) { return text::quantity(si, dimension, metric()); }

} // namespace

class WetPagesTest : public QObject {
    Q_OBJECT
private slots:
    void levelByDepthAndByVolume();
    void levelOfAStick();
    void drainTellsTimeAndRange();
    void drainAtAMinute();
    void drainGulps();
    void standTellsLoads();
    void standTips();
    void standIsNotLiftedFilled();
    void cutTellsWhatRunsOut();
    void cutOfADoorWeighsThePanel();
    void cutAboveTheWaterIsDry();
    void cutWithoutAVentGulps();
    void samplingTellsTheRound();
    void withoutMeasuresNothingIsTold_data();
    void withoutMeasuresNothingIsTold();
    void everyViewPaints_data();
    void everyViewPaints();
};

void WetPagesTest::levelByDepthAndByVolume()
{
    const auto page = opened<tablet::LevelPage>();
    put(*page, "depth", 0.3);
    const double volume = number(answer("level", R"("depth":"0.3 m")").values, "volume_m3");
    QCOMPARE(page->verdict(), shown(volume, Dimension::Volume));
    put(*page, "volume", 1200); // litres: now the depth follows
    const double depth = number(answer("level", R"("volume":"1200 L")").values, "depth_m");
    QCOMPARE(lineOf(*page, "Depth"), shown(depth, Dimension::Length));
    QCOMPARE(page->verdict(), shown(1.2, Dimension::Volume));
    QVERIFY(std::abs(page->input("depth").value() - depth) <= 0.005);
}

void WetPagesTest::levelOfAStick()
{
    const auto page = opened<tablet::LevelPage>();
    put(*page, "pitch", 4);
    put(*page, "stick", 1);
    put(*page, "depth", 0.4);
    const auto got = answer("level", R"("pose":{"pitch":"4 deg"},"stick":"1 m","depth":"0.4 m")");
    QCOMPARE(lineOf(*page, "Stick is wet"), shown(number(got.values, "stick_reads_m"), Dimension::Length));
    QVERIFY(page->message().contains(QLatin1String("deeper than the stick's foot")));
}

void WetPagesTest::drainTellsTimeAndRange()
{
    const auto page = opened<tablet::DrainPage>();
    put(*page, "hole", 0.05);
    put(*page, "along", 1.0);
    const auto got = answer("drain", R"("hole":{"from_left_tangent":"1 m","clock":"180 deg","diameter":"50 mm"},"vented":1)");
    QCOMPARE(page->verdict(), text::span(static_cast<std::int64_t>(number(got.values, "time_s") * 1000), metric()));
    for (const char* key : {"slow_s", "fast_s"}) {
        QVERIFY(page->because().contains(text::span(static_cast<std::int64_t>(number(got.values, key) * 1000), metric())));
    }
    QCOMPARE(lineOf(*page, "Runs out"), shown(number(got.values, "drained_m3"), Dimension::Volume));
}

// Between two moments of the figure's curve, at one of them: its own depth.
void WetPagesTest::drainAtAMinute()
{
    const auto page = opened<tablet::DrainPage>();
    put(*page, "along", 1.0);
    put(*page, "minute", 0);
    QCOMPARE(lineOf(*page, "At minute 0"), shown(1.0, Dimension::Length));
    put(*page, "minute", 5);
    const auto got = answer("drain", R"("hole":{"from_left_tangent":"1 m","clock":"180 deg","diameter":"25 mm"},"vented":1)");
    double above = 2;
    double below = 0;
    for (const Json& moment : got.values.find("curve")->items) {
        (number(moment, "time_s") < 300 ? above : below) = std::max(number(moment, "time_s") < 300 ? 0 : below, number(moment, "depth_m"));
    }
    const QString line = lineOf(*page, "At minute 5");
    const double told = line.section(QLatin1Char(' '), 0, 0).toDouble() / 1000;
    QVERIFY2(told <= above + 1e-3 && told >= below - 1e-3 && told < 1.0, qPrintable(line));
}

void WetPagesTest::drainGulps()
{
    report::VesselView shut = vessel();
    shut.openings.front().state = report::OpeningState::Plugged;
    const auto page = opened<tablet::DrainPage>(shut);
    QCOMPARE(page->colour(), QStringLiteral("warning"));
    QVERIFY(page->message().contains(QLatin1String("gulps")));
    QVERIFY(lineOf(*page, "At minute 0").isEmpty());
}

void WetPagesTest::standTellsLoads()
{
    const auto page = opened<tablet::StandPage>();
    put(*page, "left", 0.5);
    put(*page, "right", 1.25);
    put(*page, "water", 100);
    const auto got = answer("support", R"("full":1,"supports":[{"from_left_tangent":"0.5 m"},{"from_left_tangent":"1.25 m"}])");
    QCOMPARE(lineOf(*page, "On the left"), shown(number(got.values, "left_N"), Dimension::Force));
    QCOMPARE(lineOf(*page, "On the right"), shown(number(got.values, "right_N"), Dimension::Force));
    // The lever: left times 0.5 and right times 0.25 balance about the middle of the vessel.
    QVERIFY(std::abs(number(got.values, "left_N") * 0.5 - number(got.values, "right_N") * 0.25) < 1.0);
}

void WetPagesTest::standTips()
{
    const auto page = opened<tablet::StandPage>();
    put(*page, "left", 0.1);
    put(*page, "right", 0.7); // all of the weight lies right of both
    QCOMPARE(page->colour(), QStringLiteral("danger"));
    QCOMPARE(page->verdict(), QStringLiteral("tips"));
}

void WetPagesTest::standIsNotLiftedFilled()
{
    const auto page = opened<tablet::StandPage>();
    put(*page, "water", 5);
    QVERIFY(page->message().contains(QLatin1String("not lifted")));
    QVERIFY(!page->message().contains(QLatin1String("sling")));
    QVERIFY(page->message().contains(QLatin1String("saddle"))); // what is not worked out is said
    put(*page, "water", 0);
    QVERIFY(page->message().contains(QLatin1String("sling")));
}

void WetPagesTest::cutTellsWhatRunsOut()
{
    const auto page = opened<tablet::CutPage>();
    page->flip("along");
    put(*page, "from", 0.5);
    put(*page, "long", 0.5);
    put(*page, "round", 60);
    const auto got = answer("cut-plan",
        R"("openings":[{"name":"N1","from_left_tangent":"1 m","clock":"0 deg","state":"open"}],"cuts":[{"name":"along","kerf":"2.5 mm",
            "places":[{"from_left_tangent":"0.5 m","clock":"60 deg"},{"from_left_tangent":"1 m","clock":"60 deg"}]}])");
    QCOMPARE(page->colour(), QStringLiteral("caution"));
    QCOMPARE(page->verdict(), shown(number(got.values, "runs_out_m3"), Dimension::Volume));
    QCOMPARE(lineOf(*page, "Water falls to"), shown(number(got.values, "level_after_m"), Dimension::Length));
    page->look("each");
    QVERIFY(lineOf(*page, "along").startsWith(page->verdict()));
}

// 0.8 m by 60 degrees of the wall's middle, 1.01 m across, 10 mm of steel at 7850 kg/m3: 33.2 kg by hand.
void WetPagesTest::cutOfADoorWeighsThePanel()
{
    const auto page = opened<tablet::CutPage>();
    put(*page, "long", 0.8);
    put(*page, "span", 60);
    const double mass = lineOf(*page, "Panel weighs").section(QLatin1Char(' '), 0, 0).toDouble();
    QVERIFY2(std::abs(mass - 0.8 * 1.01 * 3.14159265 / 6 * 0.01 * 7850) < 0.2, qPrintable(lineOf(*page, "Panel weighs")));
    page->flip("along");
    QVERIFY(lineOf(*page, "Panel weighs").isEmpty());
}

void WetPagesTest::cutAboveTheWaterIsDry()
{
    const auto page = opened<tablet::CutPage>();
    put(*page, "start", 10);
    put(*page, "round", 15);
    put(*page, "span", 15);
    QCOMPARE(page->verdict(), QStringLiteral("nothing"));
    page->look("each");
    QCOMPARE(lineOf(*page, "upper"), QStringLiteral("dry"));
}

void WetPagesTest::cutWithoutAVentGulps()
{
    report::VesselView shut = vessel();
    shut.openings.front().state = report::OpeningState::Stuck;
    const auto page = opened<tablet::CutPage>(shut);
    QCOMPARE(page->colour(), QStringLiteral("warning"));
    QVERIFY(page->because().contains(QLatin1String("gulps")));
}

void WetPagesTest::samplingTellsTheRound()
{
    const auto page = opened<tablet::SamplingPage>();
    put(*page, "hose", 6);
    const auto got = answer(
        "sampling", R"("hose":{"length":"6 m"},"openings":[{"name":"N1","from_left_tangent":"1 m","clock":"0 deg","state":"open"}])");
    QCOMPARE(page->verdict(), text::span(static_cast<std::int64_t>(number(got.values, "round_s") * 1000), metric()));
    QCOMPARE(lineOf(*page, "Wait at each"), shown(number(got.values, "wait_s"), Dimension::Duration));
    QVERIFY(page->message().contains(QLatin1String("2 s a metre")));
    put(*page, "place", 2);
    QCOMPARE(lineOf(*page, "Place 2"), QStringLiteral("low, left end"));
    put(*page, "place", 14);
    QCOMPARE(lineOf(*page, "Place 14, again"), QStringLiteral("N1"));
    put(*page, "hose", 20);
    QCOMPARE(page->colour(), QStringLiteral("warning"));
    put(*page, "hollows", 3);
    QVERIFY(!page->message().contains(QLatin1String("not listed")));
}

void WetPagesTest::withoutMeasuresNothingIsTold_data()
{
    QTest::addColumn<QString>("id");
    for (const char* id : {"water", "level", "drain", "stand", "cut", "sampling", "gas"}) {
        QTest::newRow(id) << QString::fromLatin1(id);
    }
}

// Nothing known of it: every plan opens, says nothing that could be taken for good, and may be stepped.
void WetPagesTest::withoutMeasuresNothingIsTold()
{
    QFETCH(QString, id);
    const auto kind = std::ranges::find_if(tablet::figureKinds(), [&](const auto& one) { return id == QLatin1String(one.id); });
    const auto page = kind->make();
    page->show({std::make_shared<const report::VesselView>(), {}, {}, metric()});
    QCOMPARE(page->colour(), QStringLiteral("danger"));
    page->step(1);
    page->drag(0.5, 0.5);
    page->press();
    QCOMPARE(page->colour(), QStringLiteral("danger"));
    QCOMPARE(page->lines()->count(), 0);
}

void WetPagesTest::everyViewPaints_data() { withoutMeasuresNothingIsTold_data(); }

// With a finger drawn over it, in every view: something is painted each time.
void WetPagesTest::everyViewPaints()
{
    QFETCH(QString, id);
    const auto kind = std::ranges::find_if(tablet::figureKinds(), [&](const auto& one) { return id == QLatin1String(one.id); });
    const auto page = kind->make();
    page->show({std::make_shared<const report::VesselView>(vessel()), {}, {}, metric()});
    const print::Palette palette = print::Palette::light();
    for (const tablet::Row& view : std::vector<tablet::Row>(page->views()->rows())) {
        page->look(view.key);
        page->grasp(0.5, 0.5);
        for (const double to : {0.1, 0.4, 0.9}) {
            page->drag(to, to);
            if (!page->picture().paint) {
                continue; // without a substance there is no picture of gas
            }
            QImage image(744, 398, QImage::Format_ARGB32_Premultiplied);
            image.fill(palette.paper);
            QPainter painter(&image);
            (*page->picture().paint)({painter, palette, 1.0, QSizeF(image.size())});
            painter.end();
            QImage blank(image.size(), image.format());
            blank.fill(palette.paper);
            QVERIFY2(image != blank, qPrintable(view.key));
        }
    }
}

BRIMFUL_SUITE(WetPagesTest);
#include "wet_pages_test.moc"
