// What `purge` says of cylinders, and of the way from what is left to air, and what `inerted` makes of a reading then: by hand, on
// the lowest published limits.
#include "tests/core/figure/ask.h"
#include "tests/core/figure/substances.h"
#include "tests/support/suite.h"

#include <QTest>

#include <algorithm>
#include <cmath>

using namespace brimful;
using namespace brimful::test;

namespace {

bool near(double got, double wanted, double tolerance) { return std::abs(got - wanted) <= tolerance; }

bool says(const figure::Result& result, std::string_view word) { return std::ranges::find(result.warnings, word) != result.warnings.end(); }

figure::Result answer(const std::string& rest)
{
    const auto got = ask("purge", R"({"volume":"1 m3","mixing_efficiency":1,)" + rest + "}", shippedReference());
    if (!got) {
        throw std::invalid_argument(got.error().path);
    }
    return *got;
}

bool flag(const figure::Result& result, std::string_view key) { return result.values.find(key)->integer != 0; }

} // namespace

class PurgingTest : public QObject {
    Q_OBJECT
private slots:
    void countsCylinders();
    void thenAir_data();
    void thenAir();
    void whereItEntersAndLeaves();
    void theRestIsAir();
    void whereLittleIsKnownItCrosses();
    void refuses();
    void readInNitrogen_data();
    void readInNitrogen();
    void whatProvesNothingInNitrogen_data();
    void whatProvesNothingInNitrogen();
    void oneEndPointForPlanAndReading();
};

// 500 gal, 100 to 2 % at a mixing efficiency of 0.25: ln 50 / 0.25 = 15.648 volumes, 29.62 m3 (worked by hand).
void PurgingTest::countsCylinders()
{
    const auto cylinders = [](const std::string& one) {
        const std::string rest = R"({"method":"sweep","volume":"500 galUS","start":"100 %","target":"2 %","mixing_efficiency":0.25,)";
        return number(*ask("purge", rest + R"("cylinder":")" + one + "\"}"), "cylinders");
    };
    QCOMPARE(cylinders("10 m3"), 3.0);
    QCOMPARE(cylinders("5 m3"), 6.0);
    QCOMPARE(cylinders("29.7 m3"), 1.0);
    QCOMPARE(cylinders("29.5 m3"), 2.0);
}

void PurgingTest::thenAir_data()
{
    QTest::addColumn<QString>("json");
    QTest::addColumn<bool>("crosses");
    // Out of service on the lowest basis: 1.7 / (1 - 5 x 1.7 / 20.95) = 2.861 %.
    QTest::newRow("just below") << R"("method":"sweep","target":"2.8 %")" << false;
    QTest::newRow("just above") << R"("method":"sweep","target":"2.9 %")" << true;
    QTest::newRow("siphon with an unfilled head") << R"("method":"siphon","target":"5 %","unfilled":"5 %")" << true;
    QTest::newRow("siphon to the brim") << R"("method":"siphon","target":"1 %","unfilled":"1 %")" << false;
    QTest::newRow("a second siphon") << R"("method":"siphon","target":"1 %","unfilled":"5 %")" << false;
    QTest::newRow("pressure") << R"("method":"pressure","target":"5 %","high_pressure":"21 bar")" << true; // 1.01325 / 21 is 4.8 %;
}

void PurgingTest::thenAir()
{
    QFETCH(QString, json);
    QFETCH(bool, crosses);
    const figure::Result got = answer(R"("substance":"propane","start":"100 %","oxygen":"0 %",)" + json.toStdString());
    QVERIFY(!flag(got, "purging_crosses"));
    QCOMPARE(flag(got, "opening_crosses"), crosses);
    QCOMPARE(has(got, "enters"), crosses);
    QVERIFY(near(number(got, "end_point_percent"), 1.43, 2e-3)); // half of the formula with 21 %: 2.856
    const auto& lines = got.picture;
    QCOMPARE(std::ranges::count(lines, "crossing", &figure::Line::part), crosses ? 1 : 0);
    QCOMPARE(std::ranges::count(lines, "path", &figure::Line::part), 2);
}

// (5, 0) towards (0, 20.95) meets the edge from (1.7, 8.5) to (10.9, 18.667), and then fuel = 1.7 (worked by hand).
void PurgingTest::whereItEntersAndLeaves()
{
    const figure::Result got =
        answer(R"("substance":"propane","start":"100 %","oxygen":"0 %","method":"siphon","target":"5 %","unfilled":"5 %")");
    const canon::Json& enters = *got.values.find("enters");
    const canon::Json& leaves = *got.values.find("leaves");
    QVERIFY(near(enters.find("fuel_percent")->number, 2.7060, 1e-3));
    QVERIFY(near(enters.find("oxygen_percent")->number, 9.6117, 1e-3));
    QVERIFY(near(leaves.find("fuel_percent")->number, 1.7, 1e-9));
    QVERIFY(near(leaves.find("oxygen_percent")->number, 13.827, 1e-3));
}

// Nothing said of the oxygen: the rest is air. Half propane is far richer than what burns, 8 % is inside it.
void PurgingTest::theRestIsAir()
{
    QVERIFY(!flag(answer(R"("method":"sweep","start":"50 %","target":"1 %","substance":"propane")"), "purging_crosses"));
    QVERIFY(flag(answer(R"("method":"sweep","start":"8 %","target":"1 %","substance":"propane")"), "purging_crosses"));
    QVERIFY(!flag(answer(R"("method":"sweep","start":"8 %","target":"1 %","substance":"propane","oxygen":"0 %")"), "purging_crosses"));
    QVERIFY(!has(answer(R"("method":"sweep","start":"21 %","target":"1 %")"), "opening_crosses")); // no substance, no way
}

void PurgingTest::whereLittleIsKnownItCrosses()
{
    const auto told = [](const char* id) {
        return answer(R"("method":"sweep","start":"50 %","target":"1 %","substance":")" + std::string(id) + '"');
    };
    for (const char* id : {"unknown", "ammonia", "acetylene", "fuel-oil-2"}) {
        const figure::Result got = told(id);
        QVERIFY2(flag(got, "opening_crosses") && flag(got, "purging_crosses"), id);
        QVERIFY2(!got.warnings.empty() && !has(got, "end_point_percent"), id);
    }
    const figure::Result inert = told("carbon-dioxide");
    QVERIFY(!flag(inert, "opening_crosses") && says(inert, "no-flammable-limit"));
}

void PurgingTest::refuses()
{
    const auto path = [](const char* rest) {
        const auto got = ask("purge",
            R"({"method":"sweep","volume":"1 m3","start":"90 %","target":"1 %","mixing_efficiency":1,)" + std::string(rest) + "}",
            shippedReference());
        return got ? std::string() : got.error().path;
    };
    QCOMPARE(path(R"("substance":"propane","oxygen":"11 %")"), std::string("oxygen"));
    QCOMPARE(path(R"("substance":"propane","oxygen":"10 %")"), std::string());
    QCOMPARE(path(R"("substance":"no-such-gas")"), std::string("substance"));
    QCOMPARE(path(R"("cylinder":"0 m3")"), std::string("cylinder"));
}

// Out of service, L / (1 - z L / 21) with the lowest published L (Crowl and Louvar ch. 7, memory): propane 1.7 / (1 - 8.5 / 21) =
// 2.856, n-butane 1.4 / (1 - 9.1 / 21) = 2.471. The end point is half of it (proposal).
void PurgingTest::readInNitrogen_data()
{
    QTest::addColumn<QString>("substance");
    QTest::addColumn<double>("fuel");
    QTest::addColumn<double>("percent"); // of the end point
    QTest::newRow("propane, all out") << "propane" << 0.0 << 0.0;
    QTest::newRow("propane, there") << "propane" << 1.428 << 100.0;
    QTest::newRow("propane, twice as much") << "propane" << 2.856 << 200.0;
    QTest::newRow("propane, nothing done") << "propane" << 100.0 << 7002.8;
    QTest::newRow("n-butane, there") << "n-butane" << 1.2355 << 100.0;
    QTest::newRow("n-butane at propane's") << "n-butane" << 1.428 << 115.58;
}

void PurgingTest::readInNitrogen()
{
    QFETCH(QString, substance);
    QFETCH(double, fuel);
    QFETCH(double, percent);
    const auto got = ask("inerted",
        QStringLiteral(R"({"fuel":"%1 %","sensor":"infrared","calibrated_on":"%2","substance":"%2"})")
            .arg(fuel)
            .arg(substance)
            .toStdString(),
        shippedReference());
    QVERIFY(got && got->warnings.empty());
    QVERIFY(near(number(*got, "of_end_point_percent"), percent, std::max(percent * 1e-3, 1e-9)));
}

void PurgingTest::whatProvesNothingInNitrogen_data()
{
    QTest::addColumn<QString>("json");
    QTest::addColumn<QString>("warning");
    QTest::newRow("a sensor that burns its sample") << R"("sensor":"catalytic","calibrated_on":"propane","substance":"propane")"
                                                    << "sensor-starved";
    QTest::newRow("set on methane") << R"("sensor":"infrared","calibrated_on":"methane","substance":"propane")"
                                    << "calibrated-on-another-gas";
    QTest::newRow("set on nobody knows what") << R"("sensor":"infrared","substance":"propane")"
                                              << "calibrated-on-another-gas";
    QTest::newRow("unknown") << R"("sensor":"infrared","calibrated_on":"unknown","substance":"unknown")"
                             << "no-flammable-limit";
    QTest::newRow("burns without air") << R"("sensor":"infrared","calibrated_on":"acetylene","substance":"acetylene")"
                                       << "no-published-limiting-oxygen";
}

void PurgingTest::whatProvesNothingInNitrogen()
{
    QFETCH(QString, json);
    QFETCH(QString, warning);
    const auto got = ask("inerted", R"({"fuel":"0 %",)" + json.toStdString() + "}", shippedReference());
    QVERIFY(got && says(*got, warning.toStdString()));
    QVERIFY(!ask("inerted", R"({"fuel":"101 %",)" + json.toStdString() + "}", shippedReference()));
}

void PurgingTest::oneEndPointForPlanAndReading()
{
    for (const char* id : {"propane", "n-butane", "isobutane"}) {
        const std::string of(id);
        const auto plan = answer(R"("method":"sweep","start":"100 %","target":"1 %","oxygen":"0 %","substance":")" + of + '"');
        const auto read = ask("inerted", R"({"fuel":"1 %","sensor":"infrared","calibrated_on":")" + of + R"(","substance":")" + of + "\"}",
            shippedReference());
        QVERIFY(read);
        QCOMPARE(number(*read, "end_point_percent"), number(plan, "end_point_percent"));
    }
}

BRIMFUL_SUITE(PurgingTest);
#include "purging_test.moc"
