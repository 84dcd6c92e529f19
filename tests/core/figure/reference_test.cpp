// The shipped reference data: every limit against the publication's number typed again, and what no row may say.
#include "tests/core/figure/substances.h"
#include "tests/support/suite.h"

#include "core/canon/json.h"

#include <QTest>

#include <algorithm>
#include <cmath>
#include <set>

using namespace brimful;
using namespace brimful::test;

namespace {

bool same(const std::optional<gas::FlammableRange>& got, double lower, double upper)
{
    if (lower <= 0) {
        return !got.has_value();
    }
    return got && std::abs(got->lower * 100 - lower) < 1e-9 && std::abs(got->upper * 100 - upper) < 1e-9;
}

} // namespace

class ReferenceTest : public QObject {
    Q_OBJECT
private slots:
    void limits_data();
    void limits();
    void masses_data();
    void masses();
    void limitingOxygen_data();
    void limitingOxygen();
    void routing_data();
    void routing();
    void oxygenLimitsAreNotTakenForAir();
    void stoichiometry_data();
    void stoichiometry();
    void rowsAreWhole();
    void unknownIsEmpty();
    void subsetOnly_data();
    void subsetOnly();
    void brokenFilesGiveNothing_data();
    void brokenFilesGiveNothing();
    void sourcesHaveNames();
};

// Volume percent in air; NFPA 497 (2008), then IEC 60079-20-1:2010; 0: not in that document.
void ReferenceTest::limits_data()
{
    QTest::addColumn<QString>("id");
    QTest::addColumn<double>("lower_nfpa");
    QTest::addColumn<double>("upper_nfpa");
    QTest::addColumn<double>("lower_iec");
    QTest::addColumn<double>("upper_iec");
    const auto row = [](const char* id, double a, double b, double c, double d) { QTest::newRow(id) << QString(id) << a << b << c << d; };
    row("propane", 2.1, 9.5, 1.7, 10.9);
    row("n-butane", 1.9, 8.5, 1.4, 9.3);
    row("isobutane", 1.8, 8.4, 1.3, 9.8);
    row("methane", 5.0, 15, 4.4, 17);
    row("gasoline", 1.4, 7.6, 1.4, 7.6);
    row("fuel-oil-1", 0.7, 5.0, 0.7, 5.0);
    row("fuel-oil-2", 0, 0, 0.6, 6.5);
    row("ammonia", 15, 28, 15, 33.6);
    row("acetylene", 2.5, 100, 2.3, 100);
    row("hydrogen", 4, 75, 4, 77);
    row("ethylene-oxide", 3.0, 100, 2.6, 100);
    row("ethyl-mercaptan", 2.8, 18, 2.8, 18);
    row("hydrogen-sulfide", 4, 44, 4, 45.5);
    for (const char* inert : {"oxygen", "air", "nitrogen", "carbon-dioxide", "chlorine", "r-22", "r-134a", "unknown"}) {
        row(inert, 0, 0, 0, 0);
    }
}

void ReferenceTest::limits()
{
    QFETCH(QString, id);
    QFETCH(double, lower_nfpa);
    QFETCH(double, upper_nfpa);
    QFETCH(double, lower_iec);
    QFETCH(double, upper_iec);
    const gas::Substance* row = shipped().find(id.toStdString());
    QVERIFY(row != nullptr);
    QVERIFY(same(row->nfpa, lower_nfpa, upper_nfpa));
    QVERIFY(same(row->iec, lower_iec, upper_iec));
}

// Molar masses from IUPAC 2021 standard atomic weights (C 12.011, H 1.008, O 15.999, N 14.007, S 32.06, Cl 35.45, F 18.998),
// summed here; tolerance 0.02 g/mol.
void ReferenceTest::masses_data()
{
    QTest::addColumn<QString>("id");
    QTest::addColumn<double>("grams");
    constexpr double c = 12.011;
    constexpr double h = 1.008;
    constexpr double o = 15.999;
    constexpr double n = 14.007;
    constexpr double s = 32.06;
    constexpr double cl = 35.45;
    constexpr double f = 18.998;
    const auto row = [](const char* id, double grams) { QTest::newRow(id) << QString(id) << grams; };
    row("propane", 3 * c + 8 * h);
    row("n-butane", 4 * c + 10 * h);
    row("isobutane", 4 * c + 10 * h);
    row("methane", c + 4 * h);
    row("pentane", 5 * c + 12 * h);
    row("ammonia", n + 3 * h);
    row("acetylene", 2 * c + 2 * h);
    row("hydrogen", 2 * h);
    row("ethylene-oxide", 2 * c + 4 * h + o);
    row("ethyl-mercaptan", 2 * c + 6 * h + s);
    row("hydrogen-sulfide", 2 * h + s);
    row("oxygen", 2 * o);
    row("nitrogen", 2 * n);
    row("carbon-dioxide", c + 2 * o);
    row("chlorine", 2 * cl);
    row("r-22", c + h + cl + 2 * f);
    row("r-134a", 2 * c + 2 * h + 4 * f);
}

void ReferenceTest::masses()
{
    QFETCH(QString, id);
    QFETCH(double, grams);
    QVERIFY(std::abs(shipped().find(id.toStdString())->molar_mass_kg_mol * 1000 - grams) <= 0.02);
}

// Flammability tube with nitrogen and with carbon dioxide (a chemical engineers' handbook, 8th ed., ch. 23), and ASTM
// E2079-19 5.4, the lower of its two vessels. Gasoline, kerosene and hydrogen sulfide: memory of NFPA 69. 0: none.
void ReferenceTest::limitingOxygen_data()
{
    QTest::addColumn<QString>("id");
    QTest::addColumn<double>("nitrogen");
    QTest::addColumn<double>("carbon_dioxide");
    QTest::addColumn<double>("tested");
    const auto row = [](const char* id, double a, double b, double c) { QTest::newRow(id) << QString(id) << a << b << c; };
    row("hydrogen", 5, 5.2, 4.6);
    row("methane", 12, 14.5, 10.7);
    row("propane", 11.5, 14.5, 10.5);
    row("n-butane", 12, 14.5, 0);
    row("isobutane", 12, 15, 0);
    row("gasoline", 12, 15, 0);
    row("fuel-oil-1", 10, 13, 0);
    row("hydrogen-sulfide", 7.5, 11.5, 0);
    for (const char* none : {"fuel-oil-2", "ammonia", "acetylene", "ethylene-oxide", "ethyl-mercaptan"}) {
        row(none, 0, 0, 0);
    }
}

void ReferenceTest::limitingOxygen()
{
    QFETCH(QString, id);
    QFETCH(double, nitrogen);
    QFETCH(double, carbon_dioxide);
    QFETCH(double, tested);
    const gas::Substance& row = *shipped().find(id.toStdString());
    const auto percent = [](const std::optional<double>& share) { return share.value_or(0.0) * 100; };
    QVERIFY(std::abs(percent(row.limiting_oxygen_nitrogen) - nitrogen) < 1e-9);
    QVERIFY(std::abs(percent(row.limiting_oxygen_carbon_dioxide) - carbon_dioxide) < 1e-9);
    QVERIFY(std::abs(percent(row.limiting_oxygen_tested) - tested) < 1e-9);
}

// Never in a shop: what burns without air, what sets steel alight, and what nobody knows.
void ReferenceTest::routing_data()
{
    QTest::addColumn<QString>("id");
    QTest::addColumn<int>("routing");
    for (const char* never : {"acetylene", "ethylene-oxide", "chlorine", "unknown"}) {
        QTest::newRow(never) << QString(never) << static_cast<int>(gas::Routing::Never);
    }
    for (const char* specialist : {"ammonia", "hydrogen", "hydrogen-sulfide", "r-22", "r-134a", "oxygen"}) {
        QTest::newRow(specialist) << QString(specialist) << static_cast<int>(gas::Routing::Specialist);
    }
    for (const char* shop : {"propane", "n-butane", "isobutane", "air", "nitrogen"}) {
        QTest::newRow(shop) << QString(shop) << static_cast<int>(gas::Routing::Shop);
    }
}

void ReferenceTest::routing()
{
    QFETCH(QString, id);
    QFETCH(int, routing);
    QCOMPARE(static_cast<int>(shipped().find(id.toStdString())->routing), routing);
}

// A gas company's glossary prints upper limits in oxygen (methane 61, butane 49) as if they were in air.
void ReferenceTest::oxygenLimitsAreNotTakenForAir()
{
    for (const char* id : {"propane", "n-butane", "isobutane", "pentane", "gasoline"}) {
        QVERIFY(shipped().find(id)->widestRange()->upper <= 0.15);
    }
    QVERIFY(shipped().find("methane")->widestRange()->upper <= 0.20);
    for (const gas::Substance& row : shipped().all()) {
        QVERIFY(!row.in_oxygen || row.in_oxygen->upper > row.widestRange()->upper);
    }
}

// CmHxOy burns with m + x/4 - y/2 of oxygen.
void ReferenceTest::stoichiometry_data()
{
    QTest::addColumn<QString>("id");
    QTest::addColumn<double>("moles");
    QTest::newRow("propane") << QString("propane") << 3 + 8 / 4.0;
    QTest::newRow("n-butane") << QString("n-butane") << 4 + 10 / 4.0;
    QTest::newRow("methane") << QString("methane") << 1 + 4 / 4.0;
    QTest::newRow("pentane") << QString("pentane") << 5 + 12 / 4.0;
    QTest::newRow("acetylene") << QString("acetylene") << 2 + 2 / 4.0;
    QTest::newRow("hydrogen") << QString("hydrogen") << 2 / 4.0;
    QTest::newRow("ethylene-oxide") << QString("ethylene-oxide") << 2 + 4 / 4.0 - 1 / 2.0;
    QTest::newRow("ammonia to nitrogen") << QString("ammonia") << 3 / 4.0;
}

void ReferenceTest::stoichiometry()
{
    QFETCH(QString, id);
    QFETCH(double, moles);
    QCOMPARE(*shipped().find(id.toStdString())->oxygen_moles, moles);
}

void ReferenceTest::rowsAreWhole()
{
    std::set<std::string> ids;
    for (const gas::Substance& row : shipped().all()) {
        QVERIFY(ids.insert(row.id).second);
        for (const auto& range : {row.nfpa, row.iec, row.in_oxygen}) {
            QVERIFY(!range || (range->lower > 0 && range->lower < range->upper && range->upper <= 1));
        }
        if (row.flammable()) {
            QVERIFY(row.molar_mass_kg_mol > 0 && row.oxygen_moles.has_value());
        }
        // What oxygen cannot inert must not carry a number that says it could.
        if (row.burnsWithoutAir()) {
            QVERIFY(!row.limiting_oxygen_nitrogen && !row.limiting_oxygen_tested && row.routing == gas::Routing::Never);
        }
        QVERIFY(!row.limiting_oxygen_carbon_dioxide || *row.limiting_oxygen_carbon_dioxide >= *row.limiting_oxygen_nitrogen);
        QVERIFY(!row.limiting_oxygen_tested || *row.limiting_oxygen_tested <= *row.limiting_oxygen_nitrogen);
    }
    QVERIFY(shipped().find("fuel-oil-2")->heavy_ends && shipped().find("fuel-oil-1")->heavy_ends);
    QVERIFY(shipped().find("hydrogen-sulfide")->poisons_catalytic && !shipped().find("propane")->poisons_catalytic);
}

void ReferenceTest::unknownIsEmpty()
{
    const gas::Substance& unknown = *shipped().find("unknown");
    QVERIFY(!unknown.flammable() && unknown.molar_mass_kg_mol == 0.0 && !unknown.boiling_point_K && !unknown.liquid_density_kg_m3);
}

void ReferenceTest::subsetOnly_data()
{
    QTest::addColumn<QString>("name");
    QTest::newRow("substances") << QString("substances.json");
    QTest::newRow("sources") << QString("sources.json");
}

// Objects, arrays, strings and whole numbers only, so that their hashes are the same everywhere.
void ReferenceTest::subsetOnly()
{
    QFETCH(QString, name);
    const std::string text = shippedText(name.toStdString());
    QVERIFY(!text.empty());
    QVERIFY(canon::read(text, canon::Dialect::Subset).has_value());
}

void ReferenceTest::brokenFilesGiveNothing_data()
{
    QTest::addColumn<QString>("text");
    QTest::addColumn<QString>("path");
    const auto row = [](const char* name, const char* body, const char* path) {
        QTest::newRow(name) << QString(R"({"substances":{"gas":{%1}}})").arg(body) << QString(path);
    };
    QTest::newRow("empty") << QString() << QString("substances");
    QTest::newRow("no rows") << QString("{}") << QString("substances");
    QTest::newRow("rows as a list") << QString(R"({"substances":[]})") << QString("substances");
    row("no routing", R"("cas":"1")", "gas.routing");
    row("routing nobody knows", R"("routing":"maybe")", "gas.routing");
    row("mass without a unit", R"("molar_mass":"44.10","routing":"shop")", "gas.molar_mass");
    row("limit without a unit", R"("nfpa_497":{"lower":"2.1","upper":"9.5 %"},"routing":"shop")", "gas.nfpa_497");
    row("limits upside down", R"("iec_60079_20_1":{"lower":"9.5 %","upper":"2.1 %"},"routing":"shop")", "gas.iec_60079_20_1");
    row("limit above all", R"("iec_60079_20_1":{"lower":"2 %","upper":"101 %"},"routing":"shop")", "gas.iec_60079_20_1");
    row("lower limit of nothing", R"("iec_60079_20_1":{"lower":"0 %","upper":"9 %"},"routing":"shop")", "gas.iec_60079_20_1");
    row("limiting oxygen without a unit", R"("limiting_oxygen_nitrogen":"11.5","routing":"shop")", "gas.limiting_oxygen_nitrogen");
    row("boiling point in words", R"("boiling_point":{"value":"cold"},"routing":"shop")", "gas.boiling_point");
    row("density in another unit", R"("liquid_density":{"value":"0.5 kg/L"},"routing":"shop")", "gas.liquid_density");
    row("moles in words", R"("oxygen_moles":"five","routing":"shop")", "gas.oxygen_moles");
    row("a key nobody reads", R"("molar_masss":"44.10 g/mol","routing":"shop")", "gas.molar_masss");
    row("heavy as a number", R"("heavy_ends":1,"routing":"shop")", "gas.heavy_ends");
}

void ReferenceTest::brokenFilesGiveNothing()
{
    QFETCH(QString, text);
    QFETCH(QString, path);
    const auto got = figure::shippedSubstances(text.toStdString());
    QVERIFY(!got.has_value());
    QCOMPARE(QString::fromStdString(got.error().path), path);
}

void ReferenceTest::sourcesHaveNames()
{
    const auto read = canon::read(shippedText("sources.json"), canon::Dialect::Subset);
    const canon::Json* const sources = read->find("sources");
    QVERIFY(sources->members.size() > 50);
    std::set<std::string> titles;
    for (const canon::Member& one : sources->members) {
        QVERIFY(one.value.textOf("title").size() > 10);
        QVERIFY(titles.insert(std::string(one.value.textOf("title"))).second);
    }
    for (const char* id :
        {"nfpa-497", "iec-60079-20-1", "osha-1910-252", "osha-1910-146", "osha-1926-352", "nfpa-51b", "nfpa-326", "nfpa-69", "astm-e2079",
            "as-1674-1", "ontario-632-05", "tm-9-237", "tm-9-2330", "hse-indg314", "iso-3864", "ansi-z535", "rfc-8785"}) {
        QVERIFY(sources->find(id) != nullptr);
    }
}

BRIMFUL_SUITE(ReferenceTest);
#include "reference_test.moc"
