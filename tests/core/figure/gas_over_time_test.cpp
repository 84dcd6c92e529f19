// `gas-to-air`, `evaporation`, `published-limits`, and the pictures of gas. Numbers worked by hand from the stated formulas; the
// formulas themselves are held against an independent solver in tests/core/gas.
#include "tests/core/figure/ask.h"
#include "tests/core/figure/substances.h"
#include "tests/support/suite.h"

#include <QTest>

#include <algorithm>
#include <cmath>
#include <set>

using namespace brimful;
using namespace brimful::test;

namespace {

bool near(double got, double wanted, double tolerance) { return std::abs(got - wanted) <= tolerance; }

bool says(const figure::Result& result, std::string_view word) { return std::ranges::find(result.warnings, word) != result.warnings.end(); }

bool flag(const figure::Result& result, std::string_view key) { return result.values.find(key)->integer != 0; }

double inside(const figure::Result& result, std::string_view object, std::string_view key)
{
    return result.values.find(object)->find(key)->number;
}

figure::Result answer(std::string_view figure, const QString& json)
{
    auto got = ask(figure, json.toStdString(), shippedReference());
    if (!got) {
        throw std::invalid_argument(got.error().path + " " + got.error().expected);
    }
    return *got;
}

// 500 US gallons, 300 L/min, efficiency 0.25: V / (K Q) is 25.236 minutes.
figure::Result airing(const char* rest, const char* substance = "propane", const char* fuel = "100 %", const char* oxygen = "0 %")
{
    return answer("gas-to-air",
        QString(
            R"({"substance":"%1","volume":"500 galUS","start":{"fuel":"%2","oxygen":"%3"},"flow":"300 L/min","mixing_efficiency":0.25%4})")
            .arg(substance, fuel, oxygen, rest));
}

double minutes(const figure::Result& result, std::string_view key) { return number(result, key) / 60; }

const figure::Line* part(const figure::Result& result, std::string_view name)
{
    const auto found = std::ranges::find(result.picture, name, &figure::Line::part);
    return found == result.picture.end() ? nullptr : &*found;
}

std::vector<std::string> parts(const figure::Result& result)
{
    std::vector<std::string> out;
    for (const figure::Line& line : result.picture) {
        out.push_back(line.part);
    }
    return out;
}

} // namespace

class GasOverTimeTest : public QObject {
    Q_OBJECT
private slots:
    void airAloneCrosses();
    void nitrogenFirstDoesNot();
    void whereItStands();
    void agreesWithTheSingleFigures();
    void sourceKeepsItBurning();
    void gasesWithoutAZone();
    void refuses_data();
    void refuses();
    void diagramPicture();
    void trianglePicture();
    void timePicture();
    void ventilationPicture();
    void toluenePool();
    void poolAndBlower();
    void poolBelowItsFlashPoint();
    void poolRefuses_data();
    void poolRefuses();
    void publishedLimits_data();
    void publishedLimits();
    void publishedScope();
    void onlyDeclaredWords();
};

// Lowest limits 1.7 and 10.9 %: ln(1 / 0.109) and ln(1 / 0.017) times 25.236 min; a hundredth of 1.7 % after ln(1 / 0.00017).
void GasOverTimeTest::airAloneCrosses()
{
    const figure::Result got = airing("");
    QVERIFY(flag(got, "crosses"));
    QVERIFY(near(minutes(got, "burns_from_s"), 55.93, 0.01));
    QVERIFY(near(minutes(got, "burns_to_s"), 102.83, 0.01));
    QVERIFY(near(minutes(got, "time_s"), 219.04, 0.02));
    QVERIFY(near(inside(got, "enters", "fuel_percent"), 10.9, 1e-6));
    QVERIFY(near(inside(got, "enters", "oxygen_percent"), 20.95 * 0.891, 1e-6));
    QVERIFY(near(inside(got, "leaves", "fuel_percent"), 1.7, 1e-6));
    QVERIFY(near(number(got, "target_percent"), 0.017, 1e-9));
    QVERIFY(!has(got, "nitrogen_s"));
    QVERIFY(says(got, "planning-estimate-test-decides"));
}

// Half of 2.856 % is 1.428 %: ln(1 / 0.01428) times 25.236 min of nitrogen, 32.17 m3 of it; then air, and nothing burns.
void GasOverTimeTest::nitrogenFirstDoesNot()
{
    const figure::Result got = airing(R"(,"before":"nitrogen")");
    QVERIFY(!flag(got, "crosses"));
    QVERIFY(!has(got, "burns_from_s") && !has(got, "enters"));
    QVERIFY(near(number(got, "end_point_percent"), 1.428, 1e-3));
    QVERIFY(near(minutes(got, "nitrogen_s"), 107.23, 0.02));
    QVERIFY(near(number(got, "nitrogen_m3"), 32.17, 0.01));
    QVERIFY(near(minutes(got, "time_s"), 219.04, 0.02)); // the same dilution takes the same time
    // A vessel of gas and air burns already: nitrogen leads out of it.
    const figure::Result mixed = airing(R"(,"before":"nitrogen")", "propane", "5 %", "19.9 %");
    QVERIFY(flag(mixed, "crosses"));
    QCOMPARE(number(mixed, "burns_from_s"), 0.0);
    QVERIFY(number(mixed, "burns_to_s") < number(mixed, "nitrogen_s"));
}

// After 60 minutes exp(-60 / 25.236) is 9.28 %: between the limits, with air of 20.95 % for the rest.
void GasOverTimeTest::whereItStands()
{
    const figure::Result start = airing("");
    QCOMPARE(number(start, "fuel_percent"), 100.0);
    QVERIFY(!flag(start, "burns_now"));
    const figure::Result later = airing(R"(,"moment":"60 min")");
    QVERIFY(near(number(later, "fuel_percent"), 9.28, 0.01));
    QVERIFY(near(number(later, "oxygen_percent"), 20.95 * (1 - 0.0928), 0.01));
    QVERIFY(flag(later, "burns_now"));
    const figure::Result nitrogen = airing(R"(,"before":"nitrogen","moment":"60 min")");
    QVERIFY(near(number(nitrogen, "fuel_percent"), 9.28, 0.01));
    QCOMPARE(number(nitrogen, "oxygen_percent"), 0.0);
    QVERIFY(!flag(nitrogen, "burns_now"));
    const figure::Result air = airing(R"(,"before":"nitrogen","moment":"200 min")");
    QVERIFY(number(air, "oxygen_percent") > 19.0 && number(air, "fuel_percent") < 0.1);
}

void GasOverTimeTest::agreesWithTheSingleFigures()
{
    const figure::Result got = airing("");
    const figure::Result blower = answer("ventilation",
        R"({"volume":"500 galUS","flow":"300 L/min","mixing_efficiency":0.25,"start":"100 %","target":"0.017 %","substance":"propane"})");
    const figure::Result path = answer("dilution-path", R"({"substance":"propane","start":{"fuel":"100 %","oxygen":"0 %"},"with":"air"})");
    QVERIFY(near(number(got, "time_s"), number(blower, "time_s"), 1e-6));
    QVERIFY(near(number(got, "burns_from_s"), number(blower, "flammable_from_s"), 1e-6));
    QVERIFY(near(number(got, "burns_to_s"), number(blower, "flammable_to_s"), 1e-6));
    for (const char* end : {"enters", "leaves"}) {
        for (const char* of : {"fuel_percent", "oxygen_percent"}) {
            QVERIFY(near(inside(got, end, of), inside(path, end, of), 1e-9));
        }
    }
    const figure::Result purge = answer("purge",
        R"({"method":"sweep","volume":"500 galUS","start":"100 %","target":"1.428 %","flow":"300 L/min","mixing_efficiency":0.25})");
    QVERIFY(near(minutes(airing(R"(,"before":"nitrogen")"), "nitrogen_s"), minutes(purge, "time_s"), 0.02));
}

// 0.5 L/min comes to 0.667 %, 1.5 L/min to 2 % and stays flammable; neither is ever at a hundredth of the limit.
void GasOverTimeTest::sourceKeepsItBurning()
{
    const figure::Result little = airing(R"(,"source":"0.5 L/min")");
    QVERIFY(says(little, "target-never-reached") && !says(little, "stays-flammable"));
    QVERIFY(!has(little, "time_s") && has(little, "burns_to_s"));
    const figure::Result much = airing(R"(,"source":"1.5 L/min")");
    QVERIFY(says(much, "target-never-reached") && says(much, "stays-flammable"));
    QVERIFY(has(much, "burns_from_s") && !has(much, "burns_to_s"));
    const figure::Result never = airing(R"(,"before":"nitrogen","source":"1.5 L/min")");
    QVERIFY(says(never, "end-point-never-reached") && says(never, "target-never-reached"));
    QVERIFY(!has(never, "time_s") && !has(never, "nitrogen_s"));
}

void GasOverTimeTest::gasesWithoutAZone()
{
    for (const auto& [id, word] : {std::pair("acetylene", "burns-without-air"), std::pair("ammonia", "no-published-limiting-oxygen"),
             std::pair("unknown", "unknown-substance")}) {
        for (const char* before : {"nothing", "nitrogen"}) {
            const figure::Result got = airing(QString(R"(,"before":"%1")").arg(before).toUtf8().constData(), id);
            QVERIFY2(flag(got, "crosses"), id); // nitrogen is not credited
            QVERIFY2(says(got, word), id);
            QVERIFY(!has(got, "burns_now") && !has(got, "end_point_percent"));
        }
    }
    QVERIFY(near(number(airing("", "acetylene"), "burns_from_s"), 0.0, 1e-9));
    const figure::Result inert = airing("", "carbon-dioxide");
    QVERIFY(!flag(inert, "crosses") && says(inert, "no-flammable-limit"));
}

void GasOverTimeTest::refuses_data()
{
    QTest::addColumn<QString>("json");
    QTest::addColumn<QString>("path");
    const auto row = [](const char* name, const char* volume, const char* start, const char* flow, const char* rest, const char* path) {
        QTest::newRow(name) << QString(R"({"substance":"propane","volume":"%1","start":{%2},"flow":"%3"%4})").arg(volume, start, flow, rest)
                            << QString(path);
    };
    const char* gas = R"("fuel":"100 %","oxygen":"0 %")";
    row("no volume", "0 L", gas, "1 L/min", "", "volume");
    row("no blower", "1 m3", gas, "0 L/min", "", "flow");
    row("more than all", "1 m3", R"("fuel":"90 %","oxygen":"20 %")", "1 L/min", "", "start");
    row("no oxygen", "1 m3", R"("fuel":"90 %")", "1 L/min", "", "start.oxygen");
    row("divides", "1 m3", gas, "1 L/min", R"(,"mixing_efficiency":4)", "mixing_efficiency");
    row("takes vapour away", "1 m3", gas, "1 L/min", R"(,"source":"-1 L/min")", "source");
    row("to nothing", "1 m3", gas, "1 L/min", R"(,"target":"0 %")", "target");
    row("before it began", "1 m3", gas, "1 L/min", R"(,"moment":"-1 s")", "moment");
    row("by steam", "1 m3", gas, "1 L/min", R"(,"before":"steam")", "before");
}

void GasOverTimeTest::refuses()
{
    QFETCH(QString, json);
    QFETCH(QString, path);
    const auto got = ask("gas-to-air", json.toStdString(), shippedReference());
    QVERIFY(!got.has_value());
    QCOMPARE(QString::fromStdString(got.error().path), path);
}

// Rectangle: fuel to the right, oxygen up, one metre the whole. Propane's stoichiometric line starts at 83.33 % oxygen (worked by hand).
void GasOverTimeTest::diagramPicture()
{
    const figure::Result got = airing(R"(,"moment":"60 min")");
    QCOMPARE(parts(got),
        (std::vector<std::string>{"frame", "zone", "air-line", "stoichiometric-line", "limiting-oxygen", "path", "crossing", "now"}));
    const auto& [fuel, oxygen] = part(got, "stoichiometric-line")->metres.front();
    QVERIFY(near(fuel, 1.0 / 6, 1e-12) && near(oxygen, 0.8333, 1e-4));
    for (const auto& [x, y] : part(got, "limiting-oxygen")->metres) {
        QVERIFY(near(y, 0.085, 1e-12)); // 5 x 1.7 %
        QVERIFY(x >= 0.0 && x <= 0.915 + 1e-12);
    }
    QVERIFY(near(part(got, "now")->metres.front().first, 0.0928, 1e-4));
    const figure::Result two = airing(R"(,"before":"nitrogen")");
    QCOMPARE(std::ranges::count(parts(two), "path"), 2);
    QCOMPARE(std::ranges::count(parts(two), "crossing"), 0);
}

// X = inert + fuel / 2, Y = sqrt(3) / 2 fuel: oxygen at the origin. Straight lines stay straight: the share of the way is kept.
void GasOverTimeTest::trianglePicture()
{
    const char* start = R"({"substance":"propane","start":{"fuel":"20 %","oxygen":"30 %"},"with":"nitrogen","picture":"%1"})";
    const figure::Result flat = answer("dilution-path", QString(start).arg("rectangle"));
    const figure::Result three = answer("dilution-path", QString(start).arg("triangle"));
    const auto& [x, y] = part(three, "path")->metres.front();
    QVERIFY(near(x, 0.6, 1e-12) && near(y, 0.173205, 1e-6));
    const auto& frame = part(three, "frame")->metres;
    QVERIFY(near(frame[0].first, 1.0, 1e-12) && near(frame[1].first, 0.5, 1e-12) && near(frame[1].second, 0.866025, 1e-6));
    QVERIFY(near(frame[2].first, 0.0, 1e-12) && near(frame[2].second, 0.0, 1e-12));
    const auto share = [](const figure::Result& result) {
        const auto& path = part(result, "path")->metres;
        const auto& crossing = part(result, "crossing")->metres;
        const auto far = [](const auto& a, const auto& b) { return std::hypot(a.first - b.first, a.second - b.second); };
        return far(path[0], crossing[1]) / far(path[0], path[1]);
    };
    QVERIFY(near(share(flat), share(three), 1e-9));
    QCOMPARE(parts(flat), parts(three));
}

// Four decades up, the span to the right; the part that burns lies inside the band.
void GasOverTimeTest::timePicture()
{
    const figure::Result got = airing(R"(,"picture":"time","moment":"60 min")");
    QCOMPARE(parts(got), (std::vector<std::string>{"axes", "band", "target", "curve", "burning", "now"}));
    const double span = number(got, "span_s");
    QVERIFY(near(span, 1.25 * number(got, "time_s"), 1e-6));
    const auto& band = part(got, "band")->metres;
    const double low = std::log10(0.017 / 1e-4) / 4;
    const double high = std::log10(0.109 / 1e-4) / 4;
    QVERIFY(near(band[0].second, low, 1e-9) && near(band[2].second, high, 1e-9));
    for (const auto& [x, y] : part(got, "burning")->metres) {
        QVERIFY(y >= low - 1e-9 && y <= high + 1e-9);
        QVERIFY(x >= 1.6 * number(got, "burns_from_s") / span - 1e-9 && x <= 1.6 * number(got, "burns_to_s") / span + 1e-9);
    }
    const auto& [x, y] = part(got, "now")->metres.front();
    QVERIFY(near(x, 1.6 * 3600 / span, 1e-9) && near(y, std::log10(0.0928 / 1e-4) / 4, 1e-4));
    const figure::Result two = airing(R"(,"before":"nitrogen","picture":"time")");
    QCOMPARE(std::ranges::count(parts(two), "curve"), 2);
    QVERIFY(part(two, "burning") == nullptr);
    QVERIFY(near(part(two, "band")->metres[0].first, 1.6 * number(two, "nitrogen_s") / number(two, "span_s"), 1e-9));
}

void GasOverTimeTest::ventilationPicture()
{
    const figure::Result got = answer("ventilation",
        R"({"volume":"500 galUS","flow":"300 L/min","mixing_efficiency":0.25,"start":"100 %","target":"0.21 %","substance":"propane"})");
    QCOMPARE(parts(got), (std::vector<std::string>{"axes", "band", "target", "curve", "burning"}));
    for (const figure::Line& line : got.picture) {
        for (const auto& [x, y] : line.metres) {
            QVERIFY(x >= 0 && x <= 1.6 + 1e-12 && y >= 0 && y <= 1 + 1e-12);
        }
    }
    const auto& curve = part(got, "curve")->metres; // falls, a straight line on this paper
    QVERIFY(std::ranges::is_sorted(curve, [](const auto& a, const auto& b) { return a.second > b.second; }));
    const double middle = (curve.front().second + curve.back().second) / 2;
    QVERIFY(near(curve[curve.size() / 2].second, middle, 1e-9));
}

// Crowl and Louvar, Chemical Process Safety (memory): toluene, an open tank 5 ft across, 77 degF, 0.0371 atm: 0.162 lb/min.
void GasOverTimeTest::toluenePool()
{
    // Not among the shipped gases: gasoline's mass is 100 g/mol, toluene's 92.14; the rate goes with the mass to two thirds.
    const figure::Result got =
        answer("evaporation", R"({"substance":"gasoline","area":"19.6350 ft2","vapour_pressure":"3759.2 Pa","temperature":"77 degF"})");
    const double pounds = number(got, "gas_kg_s") * 60 / 0.45359237;
    QVERIFY(near(pounds * std::pow(92.14 / 100.0, 2.0 / 3.0), 0.1621, 1e-3));
    QVERIFY(!has(got, "steady_percent") && says(got, "take-the-liquid-out"));
}

// 0.05 m2, 20 degC, 35 kPa, 100 g/mol: 20.2 g/min, 4.86 L/min (worked by hand).
void GasOverTimeTest::poolAndBlower()
{
    const char* pool = R"({"substance":"gasoline","area":"0.05 m2","vapour_pressure":"35 kPa","temperature":"20 degC"%1})";
    const figure::Result got = answer("evaporation", QString(pool).arg(R"(,"flow":"300 L/min","mixing_efficiency":0.25)"));
    QVERIFY(near(number(got, "gas_kg_s") * 60e3, 20.2, 0.05));
    QVERIFY(near(number(got, "gas_m3_s") * 60e3, 4.86, 0.01));
    QVERIFY(near(number(got, "saturated_percent"), 34.54, 0.01));
    QVERIFY(near(number(got, "steady_percent"), 4.86 / 75 * 100, 0.02));
    QVERIFY(says(got, "stays-flammable"));
    // A breath of air: never more than what still air over it comes to.
    const figure::Result breath = answer("evaporation", QString(pool).arg(R"(,"flow":"1 L/min","mixing_efficiency":0.25)"));
    QVERIFY(near(number(breath, "steady_percent"), number(breath, "saturated_percent"), 1e-9));
}

// Heating oil at 20 degC (about 0.05 kPa, memory) comes to 0.05 % against a limit of 0.6 %: the cold test passes.
void GasOverTimeTest::poolBelowItsFlashPoint()
{
    const figure::Result got =
        answer("evaporation", R"({"substance":"fuel-oil-2","area":"0.05 m2","vapour_pressure":"50 Pa","temperature":"20 degC"})");
    QVERIFY(says(got, "cold-test-passes-hot-metal-does-not"));
    QVERIFY(number(got, "saturated_percent") < number(got, "lower_limit_percent"));
}

void GasOverTimeTest::poolRefuses_data()
{
    QTest::addColumn<QString>("json");
    QTest::addColumn<QString>("path");
    const auto row = [](const char* name, const char* substance, const char* area, const char* pressure, const char* rest,
                         const char* path) {
        QTest::newRow(name) << QString(R"({"substance":"%1","area":"%2","vapour_pressure":"%3","temperature":"20 degC"%4})")
                                   .arg(substance, area, pressure, rest)
                            << QString(path);
    };
    row("boils", "propane", "1 m2", "8 bar", "", "vapour_pressure");
    row("no area", "gasoline", "0 m2", "35 kPa", "", "area");
    row("no pressure", "gasoline", "1 m2", "0 Pa", "", "vapour_pressure");
    row("unknown", "unknown", "1 m2", "35 kPa", "", "substance");
    row("nobody knows it", "petrol", "1 m2", "35 kPa", "", "substance");
    row("divides", "gasoline", "1 m2", "35 kPa", R"(,"flow":"1 L/min","mixing_efficiency":4)", "mixing_efficiency");
    row("no blower", "gasoline", "1 m2", "35 kPa", R"(,"flow":"0 L/min")", "flow");
}

void GasOverTimeTest::poolRefuses()
{
    QFETCH(QString, json);
    QFETCH(QString, path);
    const auto got = ask("evaporation", json.toStdString(), shippedReference());
    QVERIFY(!got.has_value());
    QCOMPARE(QString::fromStdString(got.error().path), path);
}

void GasOverTimeTest::publishedLimits_data()
{
    QTest::addColumn<QString>("of_limit");
    QTest::addColumn<QString>("id");
    QTest::addColumn<QString>("list");
    const auto row = [](const char* of_limit, const char* id, const char* list) {
        QTest::addRow("%s %s", id, of_limit) << QString(of_limit) << QString(id) << QString(list);
    };
    row("1 %LEL", "isgott-hot-work", "within"); // ISGOTT: at most 1 %
    row("1.1 %LEL", "isgott-hot-work", "beyond");
    row("4.9 %LEL", "ontario-hot-work", "within"); // Ontario Reg. 632/05: below 5 %
    row("5 %LEL", "ontario-hot-work", "beyond");
    row("7 %LEL", "victoria-work", "only_monitored"); // Victoria OHS Regulations 2007 r. 3.4.11
    row("10 %LEL", "victoria-work", "beyond");
    row("5 %LEL", "osha-alternate-entry", "within"); // 58 FR 4462, p. 4488
    row("10 %LEL", "osha-1910-146", "within"); // 29 CFR 1910.146(b): above 10 % is hazardous
    row("10.1 %LEL", "osha-1910-146", "beyond");
    row("10 %LEL", "osha-1915-13", "beyond"); // below 10 %
    row("14 %LEL", "army-od0017", "within"); // above 14 %: clean again
}

void GasOverTimeTest::publishedLimits()
{
    QFETCH(QString, of_limit);
    QFETCH(QString, id);
    QFETCH(QString, list);
    const figure::Result got = answer("published-limits", QString(R"({"of_limit":"%1"})").arg(of_limit));
    const auto& rows = got.values.find(list.toStdString())->items;
    QVERIFY(std::ranges::any_of(rows, [&](const canon::Json& one) { return one.textOf("id") == id.toStdString(); }));
    std::size_t all = 0;
    for (const char* each : {"within", "only_monitored", "beyond"}) {
        for (const canon::Json& one : got.values.find(each)->items) {
            ++all;
            QVERIFY(!one.textOf("document").empty() && !one.textOf("mark").empty());
        }
    }
    QCOMPARE(all, std::size_t{9});
    QVERIFY(says(got, "to-compare-never-to-decide"));
}

// 1,000 gal is out of the booklet's 2,500 L, 500 gal in.
void GasOverTimeTest::publishedScope()
{
    const auto scope = [](const char* capacity) {
        return answer("published-limits", QString(R"({"of_limit":"0 %LEL","capacity":"%1"})").arg(capacity));
    };
    QVERIFY(!flag(scope("1000 galUS"), "small_vessel") && says(scope("1000 galUS"), "larger-than-published-guidance-covers"));
    QVERIFY(flag(scope("500 galUS"), "small_vessel") && !says(scope("500 galUS"), "larger-than-published-guidance-covers"));
    QVERIFY(!has(answer("published-limits", R"({"of_limit":"0 %LEL"})"), "small_vessel"));
}

void GasOverTimeTest::onlyDeclaredWords()
{
    for (const figure::Result& got : {airing(""), airing(R"(,"before":"nitrogen","source":"1.5 L/min","picture":"time")"),
             airing(R"(,"picture":"triangle")", "ammonia"), airing("", "unknown")}) {
        const figure::Figure& figure = *figure::byName("gas-to-air");
        for (const canon::Member& member : got.values.members) {
            QVERIFY2(std::ranges::find(figure.outputs, std::string_view(member.key), &figure::Output::key) != figure.outputs.end(),
                member.key.c_str());
        }
        for (const std::string& word : got.warnings) {
            QVERIFY2(std::ranges::find(figure.warnings, word) != figure.warnings.end(), word.c_str());
        }
        for (const figure::Line& line : got.picture) {
            QVERIFY(line.metres.size() >= 2);
        }
    }
}

BRIMFUL_SUITE(GasOverTimeTest);
#include "gas_over_time_test.moc"
