// The gas screen's page: what it says of a vessel of the demo, and that it says nothing good where little is known. Numbers worked by
// hand: V / (K Q) times the logarithms of the limits (propane 1.7 to 10.9 %, the widest of NFPA 497 and IEC 60079-20-1).
#include "app/tablet/gas_page.h"
#include "app/tablet/tablet.h"
#include "core/figure/reference.h"
#include "tests/app/tablet/demo_yard.h"
#include "tests/support/suite.h"

#include <QSignalSpy>
#include <QTest>

#include <cmath>
#include <fstream>

using namespace brimful;
using tablet::FigurePage;
using tablet::GasPage;
using tablet::Tablet;

namespace {

const gas::SubstanceTable& shipped()
{
    static const gas::SubstanceTable table = [] {
        std::ifstream file(std::string(BRIMFUL_SOURCE_DIR) + "/rules/reference/substances.json");
        const std::string text{std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
        return *figure::shippedSubstances(text);
    }();
    return table;
}

report::VesselView vessel(const char* contents, double cubic_metres = 1.892705892)
{
    report::VesselView out;
    out.contents = contents;
    out.shell.capacity_m3 = cubic_metres;
    return out;
}

text::Reading metric()
{
    text::Reading out;
    out.units = text::Units::Si;
    return out;
}

void show(GasPage& page, const report::VesselView& view)
{
    page.show({std::make_shared<const report::VesselView>(view), QStringLiteral("propane"), {&shipped()}, metric()});
}

QString lineOf(GasPage& page, const char* title)
{
    for (const tablet::Row& row : page.lines()->rows()) {
        if (row.title == QLatin1String(title)) {
            return row.line;
        }
    }
    return {};
}

QString shownOf(GasPage& page, const char* input)
{
    for (const tablet::Row& row : page.inputs()->rows()) {
        if (row.key == QLatin1String(input)) {
            return row.title;
        }
    }
    return {};
}

void put(GasPage& page, const char* input, int steps)
{
    page.choose(QString::fromLatin1(input));
    page.step(steps);
}

constexpr auto kGas = "gas";
constexpr auto kRest = "rest";
constexpr auto kMixing = "mixing";
constexpr auto kResidue = "residue";
constexpr auto kMinute = "minute";

} // namespace

class GasPageTest : public QObject {
    Q_OBJECT
private slots:
    void airCrosses();
    void nitrogenFirstDoesNot();
    void steppingStops();
    void theMomentMoves();
    void betterMixingIsQuicker();
    void littleGas();
    void restOfAirBurnsAtOnce();
    void residueThatNeverEnds();
    void unknownIsTakenAsCrossing_data();
    void unknownIsTakenAsCrossing();
    void whatDoesNotBurn();
    void notMeasured();
    void opensFromTheFiguresAndRecordsNothing();
};

// 500 gal, 300 L/min, K 0.25: 25.236 min times ln(1/0.109) = 55.9 and ln(1/0.017) = 102.8; to 0.017 % 219.0.
void GasPageTest::airCrosses()
{
    GasPage page;
    show(page, vessel("propane"));
    QCOMPARE(page.colour(), QStringLiteral("danger"));
    QCOMPARE(page.word(), QStringLiteral("DANGER"));
    QCOMPARE(page.verdict(), QStringLiteral("47 min"));
    QCOMPARE(page.because(), QStringLiteral("Crosses: burns if lit from minute 56 to 103."));
    QCOMPARE(lineOf(page, "Enters"), QStringLiteral("10.9 %, oxygen 18.7 %"));
    QCOMPARE(lineOf(page, "Leaves"), QStringLiteral("1.7 %, oxygen 20.6 %"));
    QCOMPARE(lineOf(page, "To 1 %LEL"), QStringLiteral("219 min"));
    QVERIFY(page.notes().join(QLatin1Char(' ')).contains(QLatin1String("NFPA 497"))
        && page.notes().join(QLatin1Char(' ')).contains(QLatin1String("found")));
    QVERIFY(page.picture().paint != nullptr && page.view() == QLatin1String("path"));
}

void GasPageTest::nitrogenFirstDoesNot()
{
    GasPage page;
    show(page, vessel("propane"));
    page.flip(QStringLiteral("nitrogen"));
    QCOMPARE(page.colour(), QStringLiteral("caution")); // it takes the air that people breathe
    QCOMPARE(page.verdict(), QStringLiteral("no crossing"));
    QVERIFY(lineOf(page, "Enters").isEmpty());
    QCOMPARE(lineOf(page, "Nitrogen to 1.43 %"), QStringLiteral("107 min"));
    QVERIFY(page.notes().join(QLatin1Char(' ')).contains(QLatin1String("proposal")));
    page.flip(QStringLiteral("air"));
    QCOMPARE(page.colour(), QStringLiteral("danger"));
}

void GasPageTest::steppingStops()
{
    GasPage page;
    show(page, vessel("propane"));
    for (const char* input : {"gas", "rest", "blower", "mixing", "residue", "minute"}) {
        put(page, input, 1000);
        const QString most = shownOf(page, input);
        page.step(1);
        QCOMPARE(shownOf(page, input), most);
        page.step(-2000);
        page.step(-1);
        QVERIFY(page.picture().paint != nullptr);
    }
    page.choose(QStringLiteral("nonsense"));
    page.choose(QStringLiteral("99"));
    QVERIFY(!page.chosen().isEmpty());
}

// Minute 60: exp(-60 / 25.236) is 9.28 % of gas and 19.0 % of oxygen.
void GasPageTest::theMomentMoves()
{
    GasPage page;
    show(page, vessel("propane"));
    QCOMPARE(lineOf(page, "Then"), QStringLiteral("100 %, oxygen 0 %"));
    put(page, kMinute, 6);
    QCOMPARE(shownOf(page, kMinute), QStringLiteral("60")); // ten minutes a step
    QCOMPARE(lineOf(page, "Then"), QStringLiteral("9.28 %, oxygen 19 %"));
    page.look(QStringLiteral("time"));
    QCOMPARE(page.view(), QStringLiteral("time"));
    QCOMPARE(lineOf(page, "Then"), QStringLiteral("9.28 %, oxygen 19 %"));
}

void GasPageTest::betterMixingIsQuicker()
{
    GasPage page;
    show(page, vessel("propane"));
    double before = 1e9;
    for (int i = 0; i < 3; ++i) {
        const double took = lineOf(page, "To 1 %LEL").section(QLatin1Char(' '), 0, 0).toDouble();
        QVERIFY(took > 0 && took < before);
        before = took;
        put(page, kMixing, 1);
    }
}

// 2.5 % in nitrogen is below the out-of-service limit (2.86 %): air does not lead through what burns.
void GasPageTest::littleGas()
{
    GasPage page;
    show(page, vessel("propane"));
    put(page, kGas, -11);
    QCOMPARE(shownOf(page, kGas), QStringLiteral("2.5 %"));
    QCOMPARE(page.colour(), QStringLiteral("notice"));
    page.step(1); // 3 %
    QCOMPARE(page.colour(), QStringLiteral("danger"));
}

void GasPageTest::restOfAirBurnsAtOnce()
{
    GasPage page;
    show(page, vessel("propane"));
    put(page, kGas, -11);
    put(page, kRest, 1);
    QCOMPARE(page.colour(), QStringLiteral("danger"));
    QVERIFY(page.because().contains(QLatin1String("from minute 0 ")));
    page.flip(QStringLiteral("nitrogen")); // leads out of it, through it
    QCOMPARE(page.colour(), QStringLiteral("danger"));
}

// 120 L/h against 75 L/min that mix: 2.7 %, and never less.
void GasPageTest::residueThatNeverEnds()
{
    GasPage page;
    show(page, vessel("propane"));
    put(page, kResidue, 8);
    QCOMPARE(page.verdict(), QStringLiteral("no end"));
    QCOMPARE(lineOf(page, "To 1 %LEL"), QStringLiteral("never"));
    QVERIFY(page.notes().join(QLatin1Char(' ')).contains(QLatin1String("take the source out")));
}

void GasPageTest::unknownIsTakenAsCrossing_data()
{
    QTest::addColumn<QString>("contents");
    for (const char* contents : {"", "unknown", "no-such-gas", "ammonia", "acetylene", "ethylene-oxide", "fuel-oil-2"}) {
        QTest::newRow(*contents == '\0' ? "nothing recorded" : contents) << QString::fromLatin1(contents);
    }
}

void GasPageTest::unknownIsTakenAsCrossing()
{
    QFETCH(QString, contents);
    for (const bool nitrogen : {false, true}) {
        GasPage page;
        show(page, vessel(contents.toUtf8().constData()));
        page.flip(nitrogen ? QStringLiteral("nitrogen") : QStringLiteral("air"));
        QCOMPARE(page.colour(), QStringLiteral("danger"));
        QVERIFY(!page.notes().join(QLatin1Char(' ')).isEmpty());
    }
}

void GasPageTest::whatDoesNotBurn()
{
    GasPage page;
    show(page, vessel("nitrogen"));
    QCOMPARE(page.colour(), QStringLiteral("notice"));
    QVERIFY(page.notes().join(QLatin1Char(' ')).contains(QLatin1String("No flammable limit")));
}

void GasPageTest::notMeasured()
{
    GasPage page;
    show(page, vessel("propane", 0.0));
    QCOMPARE(page.colour(), QStringLiteral("danger"));
    QCOMPARE(page.verdict(), QStringLiteral("not known"));
    QVERIFY(page.picture().paint == nullptr);
    QCOMPARE(page.lines()->count(), 0);
}

void GasPageTest::opensFromTheFiguresAndRecordsNothing()
{
    const test::DemoYard demo;
    Tablet program(demo.folder());
    program.start();
    program.openVessel(QStringLiteral("NQ-02"));
    const auto before = program.session().yard().vessel("NQ-02")->entries;
    program.openPart(QStringLiteral("figures"));
    QCOMPARE(program.screen(), Tablet::View::Figures);
    program.openPart(QStringLiteral("figure:gas"));
    QCOMPARE(program.screen(), Tablet::View::Figure);
    QSignalSpy changed(program.figure(), &FigurePage::changed);
    program.figure()->flip(QStringLiteral("nitrogen"));
    program.figure()->step(3);
    QCOMPARE(changed.count(), 2);
    program.back();
    QCOMPARE(program.screen(), Tablet::View::Figures);
    program.openPart(QStringLiteral("figure:no-such"));
    QCOMPARE(program.screen(), Tablet::View::Figures);
    program.back();
    QCOMPARE(program.screen(), Tablet::View::Vessel);
    QCOMPARE(program.session().yard().vessel("NQ-02")->entries, before);
}

BRIMFUL_SUITE(GasPageTest);
#include "gas_page_test.moc"
