// Where to sample, in which order, how long it takes. Hose: 30.48 m of 3.175 mm bore on 0.4993 L/min, 29 s (published); stations
// at most 4 ft apart (29 CFR 1910.146, appendix B).
#include "tests/core/figure/ask.h"
#include "tests/core/figure/substances.h"
#include "tests/support/suite.h"

#include <QTest>

#include <cmath>
#include <set>

using namespace brimful;
using canon::Json;
using test::number;

namespace {

constexpr const char* kVessel = R"("vessel":{"outside_diameter":"1.02 m","wall":"0.01 m","shell_length":"2 m","heads":"hemispherical"})";

tl::expected<figure::Result, figure::Error> asked(const std::string& rest)
{
    return test::ask("sampling", std::string("{") + kVessel + "," + rest + "}", test::shippedReference());
}

std::vector<std::string> namesOf(const figure::Result& result)
{
    std::vector<std::string> out;
    for (const Json& place : result.values.find("places")->items) {
        out.emplace_back(place.textOf("name"));
    }
    return out;
}

bool warns(const figure::Result& result, std::string_view word)
{
    return std::ranges::find(result.warnings, word) != result.warnings.end();
}

} // namespace

class SamplingTest : public QObject {
    Q_OBJECT
private slots:
    void theHoseIsThePublishedOne();
    void withoutABoreTheDelayIsTaken();
    void everyPlaceIsThere();
    void lighterThanAirComesHighFirst();
    void aLongHoseDoesNotFit();
    void notUnderTheWater();
    void longVesselsHaveMoreStations();
    void halfAHoseIsRefused();
};

void SamplingTest::theHoseIsThePublishedOne()
{
    const auto got = asked(R"("hose":{"length":"30.48 m","bore":"3.175 mm","pump":"0.4993 L/min"},"response":"30 s")");
    QVERIFY(got.has_value());
    QVERIFY(std::abs(number(*got, "hose_delay_s") - 29.0) <= 0.1);
    QVERIFY(std::abs(number(*got, "wait_s") - (2 * 29.0 + 30)) <= 0.2);
    QVERIFY(!warns(*got, "hose-delay-taken-as-2-s-per-m") && !warns(*got, "response-taken-as-60-s"));
}

// 6 m: 2 x 6 x 2 + 60 = 84 s.
void SamplingTest::withoutABoreTheDelayIsTaken()
{
    const auto got = asked(R"("hose":{"length":"6 m"})");
    QVERIFY(std::abs(number(*got, "wait_s") - 84) <= 1e-9);
    for (const char* word :
        {"hose-delay-taken-as-2-s-per-m", "response-taken-as-60-s", "hollow-places-not-listed", "order-for-a-gas-not-known"}) {
        QVERIFY2(warns(*got, word), word);
    }
}

// 2 m and half of both heads make 2.5 m: three spans of at most 1.22 m, four stations of three levels.
void SamplingTest::everyPlaceIsThere()
{
    const auto got = asked(R"("hose":{"length":"2 m"},"substance":"propane","hollows":[{"name":"leg 1"},{"name":"leg 2"}],"openings":[
        {"name":"N1","from_left_tangent":"0.5 m","clock":"0 deg","state":"open"},
        {"name":"N2","from_left_tangent":"1.5 m","clock":"0 deg","state":"plugged"}])");
    QVERIFY(got.has_value());
    const std::vector<std::string> names = namesOf(*got);
    QCOMPARE(names.size(), std::size_t(1 + 12 + 2 + 1));
    QCOMPARE(names.front(), std::string("N1"));
    QCOMPARE(names.back(), std::string("N1")); // read again
    for (const char* name : {"low, left", "mid, left", "high, left", "low, right", "high, right", "mid, station 2", "leg 1", "leg 2"}) {
        QVERIFY2(std::ranges::find(names, name) != names.end(), name);
    }
    QVERIFY(std::ranges::find(names, "low, left") < std::ranges::find(names, "high, left"));
    QVERIFY(warns(*got, "shut-openings-not-sampled"));
    QVERIFY(!warns(*got, "hollow-places-not-listed"));
    QCOMPARE(got->values.textOf("first"), std::string_view("low"));
    // Low and high stand 5 cm off the wall at the axis' height, none outside the vessel.
    for (const Json& place : got->values.find("places")->items) {
        if (place.find("height_m") != nullptr) {
            QVERIFY(place.find("height_m")->number >= 0.049 && place.find("height_m")->number <= 1.0 + 1e-9);
        }
    }
}

void SamplingTest::lighterThanAirComesHighFirst()
{
    const auto got = asked(R"("hose":{"length":"2 m"},"substance":"methane")");
    QVERIFY(got.has_value());
    QCOMPARE(got->values.textOf("first"), std::string_view("high"));
    QCOMPARE(namesOf(*got).front(), std::string("high, left"));
}

// Thirteen places at 84 s are 18.2 min, at 100 s (10 m) 21.7: then two meters, or 2 x 2 x L + 60 = 1200 / 13, 8.08 m.
void SamplingTest::aLongHoseDoesNotFit()
{
    const auto fits = asked(R"("hose":{"length":"6 m"})");
    QVERIFY(std::abs(number(*fits, "round_s") - 13 * 84) <= 1e-9);
    QVERIFY(fits->values.find("fits")->integer == 1);
    QVERIFY(!warns(*fits, "round-longer-than-the-set"));
    const auto longer = asked(R"("hose":{"length":"10 m"})");
    QVERIFY(longer->values.find("fits")->integer == 0);
    QVERIFY(warns(*longer, "round-longer-than-the-set"));
    QCOMPARE(number(*longer, "meters_needed"), 2.0);
    QVERIFY(std::abs(number(*longer, "hose_that_fits_m") - (1200.0 / 13 - 60) / 4) <= 1e-9);
    QVERIFY(asked(R"("hose":{"length":"10 m"},"within":"30 min")")->values.find("fits")->integer == 1);
}

void SamplingTest::notUnderTheWater()
{
    const auto got = asked(R"("hose":{"length":"2 m"},"contents_depth":"0.6 m")");
    for (const Json& place : got->values.find("places")->items) {
        QVERIFY2(place.find("height_m")->number >= 0.6, std::string(place.textOf("name")).c_str());
    }
}

void SamplingTest::longVesselsHaveMoreStations()
{
    const auto got = test::ask(
        "sampling", R"({"vessel":{"inside_diameter":"1 m","shell_length":"6 m","heads":"hemispherical"},"hose":{"length":"1 m"}})");
    std::set<double> stations;
    for (const Json& place : got->values.find("places")->items) {
        stations.insert(place.find("from_left_tangent_m")->number);
    }
    QCOMPARE(stations.size(), std::size_t(7)); // 6.5 m: six spans
    double before = -0.25;
    for (const double x : stations) {
        QVERIFY(x - before <= 1.2192 + 1e-9);
        before = x;
    }
}

void SamplingTest::halfAHoseIsRefused()
{
    QCOMPARE(asked(R"("hose":{"length":"2 m","bore":"3 mm"})").error().path, std::string("hose.pump"));
    QCOMPARE(asked(R"("hose":{"length":"0 m"})").error().path, std::string("hose.length"));
}

BRIMFUL_SUITE(SamplingTest);
#include "sampling_test.moc"
