// The water figure's page: what it shows is the figure's own answer for the same inputs, and nothing is recorded.
#include "app/tablet/tablet.h"
#include "app/tablet/water_page.h"
#include "tests/app/tablet/demo_yard.h"
#include "tests/support/suite.h"

#include <QTest>

#include <cmath>

using namespace brimful;
using tablet::FigurePage;
using tablet::Tablet;
using tablet::WaterPage;

namespace {

text::Reading metric()
{
    text::Reading out;
    out.units = text::Units::Si;
    return out;
}

// Hemispherical, 1 m inside across, 2 m between the tangents; two openings on top, one plugged.
report::VesselView vessel()
{
    report::VesselView out;
    out.shell = {report::Sight::Proven, 1.02, 0.01, 2.0, "hemispherical", "hemispherical", 0};
    out.openings = {{"N1", report::OpeningState::Open, report::Sight::Proven, 0.5, 0, ""},
        {"N2", report::OpeningState::Plugged, report::Sight::Proven, 1.5, 0, ""}};
    out.pitch_deg = 0.0;
    out.roll_deg = 0.0;
    return out;
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

} // namespace

class WaterPageTest : public QObject {
    Q_OBJECT
private slots:
    void init();
    void itShowsTheFiguresAnswer();
    void anOpeningIsTriedTheOtherWay();
    void theBestPoseIsSet();
    void aSnorkelLetsThePocketOut();
    void aSnorkelNeedsAnOpenOpeningAndAPackedGap();
    void withoutAnOpenOpeningNothingIsPromised();
    void nothingIsRecorded();

private:
    std::unique_ptr<WaterPage> m_page;
};

void WaterPageTest::init()
{
    m_page = std::make_unique<WaterPage>();
    m_page->show({std::make_shared<const report::VesselView>(vessel()), {}, {}, metric()});
}

// Level, with the vent on the top line, 20 cm of wall beyond it: nothing stays. V = pi/4 * 2 + pi/6 = 2.094 m3.
void WaterPageTest::itShowsTheFiguresAnswer()
{
    QCOMPARE(m_page->verdict(), QStringLiteral("none"));
    QCOMPARE(lineOf(*m_page, "Water"), text::quantity(2.0943951, figure::Dimension::Volume, metric()));
    m_page->choose("pitch");
    m_page->step(20); // 2 degrees: gas stays under the right end
    canon::Json asked = canon::read(R"({"vessel":{"outside_diameter":"1.02 m","wall":"0.01 m","shell_length":"2 m","heads":"hemispherical"},
        "pose":{"pitch":"2 deg"},"openings":[{"name":"N1","from_left_tangent":"0.5 m","clock":"0 deg","state":"open"}]})",
        canon::Dialect::Any)
                            .value();
    const auto answer = figure::compute(*figure::byName("water-fill"), asked, {});
    QVERIFY(answer.has_value());
    const double litres = answer->values.find("trapped_m3")->number * 1000;
    QVERIFY(litres > 1);
    QCOMPARE(m_page->verdict(), QStringLiteral("%1 L").arg(litres, 0, 'f', litres < 10 ? 2 : 1));
    QCOMPARE(m_page->colour(), QStringLiteral("gas"));
}

void WaterPageTest::anOpeningIsTriedTheOtherWay()
{
    m_page->choose("pitch");
    m_page->step(20);
    const QString before = m_page->verdict();
    QCOMPARE(m_page->word(), QStringLiteral("Pocket, sealed"));
    m_page->flip("N2"); // higher than the other: air, but no less gas
    QCOMPARE(m_page->word(), QStringLiteral("Pocket, vented"));
    QCOMPARE(m_page->verdict(), before);
    QVERIFY(!m_page->switches()->rows().at(1).solid); // drawn broken: it is not so
    m_page->flip("N2");
    QCOMPARE(m_page->word(), QStringLiteral("Pocket, sealed"));
    QVERIFY(m_page->switches()->rows().at(1).solid);
}

void WaterPageTest::theBestPoseIsSet()
{
    m_page->choose("pitch");
    m_page->step(20);
    m_page->press();
    QVERIFY(std::abs(m_page->input("pitch").value()) < 2.0);
}

// Tilted 5 degrees a pocket of litres stands under the high end; a packed tube to 10 mm under the crown there leaves less than a
// tenth of it, as the figure says of the same tube.
void WaterPageTest::aSnorkelLetsThePocketOut()
{
    m_page->choose("pitch");
    m_page->step(50);
    const double before = m_page->verdict().section(u' ', 0, 0).toDouble();
    QVERIFY(before > 10);
    QCOMPARE(m_page->inputs()->count(), 3); // what only a snorkel needs has no key yet
    m_page->choose("snorkel");
    m_page->step(1); // through N1
    QCOMPARE(m_page->inputs()->count(), 6);
    const auto answer = figure::compute(*figure::byName("water-fill"),
        canon::read(R"({"vessel":{"outside_diameter":"1.02 m","wall":"0.01 m","shell_length":"2 m","heads":"hemispherical"},
            "pose":{"pitch":"5 deg"},"openings":[{"name":"N1","from_left_tangent":"0.5 m","clock":"0 deg","state":"open",
            "snorkel":{"from_left_tangent":"2 m","clock":"0 deg","below_wall":"0.01 m","packed":true}}]})",
            canon::Dialect::Any)
            .value(),
        {});
    const double litres = answer->values.find("trapped_m3")->number * 1000;
    QCOMPARE(m_page->verdict(), QStringLiteral("%1 L").arg(litres, 0, 'f', litres < 10 ? 2 : 1));
    QVERIFY(litres < before / 10);
    const auto drawn = answer->picture;
    QCOMPARE(std::ranges::count(drawn, "snorkel:N1", &figure::Line::part), 1);
    m_page->choose("pitch");
    m_page->step(-100); // the other end up: the tube goes there
    QVERIFY(m_page->verdict().section(u' ', 0, 0).toDouble() < before / 10);
    m_page->choose("roll");
    m_page->step(30); // N1 is no longer on top; the tube's end is
    QVERIFY(m_page->verdict().section(u' ', 0, 0).toDouble() < before / 10);
}

void WaterPageTest::aSnorkelNeedsAnOpenOpeningAndAPackedGap()
{
    m_page->choose("pitch");
    m_page->step(50);
    const QString before = m_page->verdict();
    m_page->choose("snorkel");
    m_page->step(2); // through N2, which is plugged
    QCOMPARE(m_page->verdict(), before);
    QVERIFY(m_page->notes().join(u' ').contains("plugged"));
    m_page->step(-1);
    m_page->choose("gap");
    m_page->step(-1);
    QCOMPARE(m_page->word(), QStringLiteral("Pocket, vented"));
    QCOMPARE(m_page->verdict(), before);
    QVERIFY(m_page->notes().join(u' ').contains("Pack it"));
}

void WaterPageTest::withoutAnOpenOpeningNothingIsPromised()
{
    m_page->flip("N1");
    QCOMPARE(m_page->verdict(), QStringLiteral("unknown"));
    QVERIFY(!m_page->notes().isEmpty());
    QCOMPARE(m_page->lines()->count(), 0);
}

void WaterPageTest::nothingIsRecorded()
{
    const test::DemoYard demo;
    Tablet program(demo.folder());
    program.start();
    program.openVessel(QStringLiteral("NQ-02"));
    const auto before = program.session().yard().vessel("NQ-02")->entries;
    program.openPart(QStringLiteral("figure:water"));
    QCOMPARE(program.screen(), Tablet::View::Figure);
    program.figure()->step(7);
    program.figure()->press();
    QCOMPARE(program.session().yard().vessel("NQ-02")->entries, before);
}

BRIMFUL_SUITE(WaterPageTest);
#include "water_page_test.moc"
