// Figures by command line: what there is, what each takes and gives, published answers, and bad input with its place.
#include "tests/journeys/program.h"
#include "tests/support/suite.h"

#include <QJsonArray>
#include <QJsonDocument>
#include <QTest>

#include <cmath>

using namespace brimful::test;

class FiguresByCommandTest : public QObject {
    Q_OBJECT

    static Said figure(const QString& name, const QByteArray& input) { return call({"--json", "figure", name, "-"}, input); }
    static QStringList names()
    {
        QStringList all;
        for (const QJsonValue& one : call({"--json", "figure", "--list"}).json().value("figures").toArray()) {
            all.push_back(one.toObject().value("name").toString());
        }
        return all;
    }

private slots:
    void list()
    {
        const QStringList all = names();
        for (const QString& name : QStringList{"best-pose", "capacity", "level", "meter", "residue", "water-fill"}) {
            QVERIFY2(all.contains(name), qPrintable(name));
        }
        const Said text = call({"figure", "--list"});
        QCOMPARE(text.code, kYes);
        for (const QString& name : all) {
            QVERIFY2(text.out.contains(name.toLatin1()), qPrintable(name));
        }
    }

    void describesEveryOne()
    {
        const QStringList all = names();
        QVERIFY(!all.isEmpty());
        for (const QString& name : all) {
            const Said said = call({"figure", name, "--describe"});
            QVERIFY2(said.code == kYes, told(said));
            const QJsonObject described = said.json();
            QCOMPARE(described.value("figure").toString(), name);
            QVERIFY2(described.value("version").toInt() > 0, qPrintable(name));
            for (const char* side : {"inputs", "outputs"}) {
                const QJsonObject schema = described.value(side).toObject();
                QCOMPARE(schema.value("type").toString(), QString("object"));
                QVERIFY2(!schema.value("properties").toObject().isEmpty(), qPrintable(name));
            }
            // What is required is described; an input with nothing in it is refused with the first key that is missing.
            const QJsonObject inputs = described.value("inputs").toObject();
            const QJsonArray required = inputs.value("required").toArray();
            for (const QJsonValue& key : required) {
                QVERIFY2(inputs.value("properties").toObject().contains(key.toString()), qPrintable(name));
            }
            const Said unknown = figure(name, R"({"colour": "red"})");
            QVERIFY2(unknown.code == kInput, told(unknown));
            QVERIFY2(!unknown.error().value("path").toString().isEmpty(), told(unknown));
        }
    }

    void givesTheKeysThatScriptsRelyOn_data()
    {
        QTest::addColumn<QStringList>("keys");
        QTest::newRow("capacity") << QStringList{"capacity_m3", "shell_m3", "left_head_m3", "right_head_m3", "inside_area_m2",
            "steel_mass_kg", "stamped_m3", "ratio", "verdict"};
        QTest::newRow("level") << QStringList{"volume_m3", "depth_m", "fraction", "free_surface_m2", "centroid_from_left_tangent_m"};
        QTest::newRow("water-fill") << QStringList{
            "spill_opening", "water_m3", "trapped_m3", "pocket", "water_mass_kg", "total_mass_kg", "fill_time_s", "gas_to_limit_kg"};
        QTest::newRow("best-pose") << QStringList{"best_pitch_deg", "best_roll_deg", "best_trapped_m3", "at_best_m3"};
        QTest::newRow("residue") << QStringList{"gas_kg", "liquid_mL"};
        QTest::newRow("meter") << QStringList{"believable", "why", "percent_of_limit", "gas_percent", "gas_ppm"};
        QTest::newRow("mixture") << QStringList{
            "lower_limit_percent", "upper_limit_percent", "limiting_oxygen_percent", "out_of_service_percent", "in_service_percent"};
        QTest::newRow("purge") << QStringList{"cycles", "volumes", "gas_m3", "gas_mol", "time_s"};
        QTest::newRow("dilution-path") << QStringList{"crosses", "enters", "leaves"};
        QTest::newRow("gas-to-air") << QStringList{"crosses", "burns_from_s", "burns_to_s", "nitrogen_s", "time_s"};
        QTest::newRow("evaporation") << QStringList{"gas_kg_s", "gas_m3_s", "saturated_percent", "steady_percent"};
        QTest::newRow("published-limits") << QStringList{"within", "only_monitored", "beyond", "small_vessel"};
        QTest::newRow("ventilation") << QStringList{
            "time_s", "air_changes", "steady_percent", "reachable", "flammable_from_s", "flammable_to_s"};
    }
    void givesTheKeysThatScriptsRelyOn()
    {
        QFETCH(const QStringList, keys);
        const Said said = call({"figure", QTest::currentDataTag(), "--describe"});
        QVERIFY2(said.code == kYes, told(said));
        const QJsonObject outputs = said.json().value("outputs").toObject().value("properties").toObject();
        for (const QString& key : keys) {
            QVERIFY2(outputs.contains(key), qPrintable(key));
        }
    }

    void publishedAnswers_data()
    {
        QTest::addColumn<QString>("name");
        QTest::addColumn<QByteArray>("input");
        QTest::addColumn<QString>("key");
        QTest::addColumn<double>("expected");
        QTest::addColumn<double>("within");
        constexpr double kGallon = 0.003785411784; // 231 cubic inches exactly, NIST Handbook 44 appendix C
        constexpr double kInch = 0.0254;
        const auto level = [](const char* vessel, const char* depth) {
            return QByteArray(R"({"vessel": )") + vessel + ", \"depth\": \"" + depth + "\"}";
        };
        QTest::newRow("one gallon") << "level"
                                    << QByteArray(R"({"vessel": {"inside_diameter": "72 in", "wall": "0 in", "shell_length": "240 in",
                                                      "heads": "flat"}, "volume": "1 galUS"})")
                                    << "volume_m3" << kGallon << 1e-12;
        // Machinery's Handbook 31, p. 74: a cylindrical tank of 6 by 20 ft holds 4230 gallons, half of it 2115; 1000 stand 20.61 in
        // deep.
        const char* tank = R"({"inside_diameter": "6 ft", "wall": "0 in", "shell_length": "20 ft", "heads": "flat"})";
        QTest::newRow("handbook tank, full") << "capacity" << (QByteArray(R"({"vessel": )") + tank + "}") << "capacity_m3" << 4230 * kGallon
                                             << 0.5 * kGallon;
        QTest::newRow("handbook tank, half") << "level" << level(tank, "36 in") << "volume_m3" << 2115 * kGallon << 0.5 * kGallon;
        QTest::newRow("handbook tank, 1000 gallons") << "level" << (QByteArray(R"({"volume": "1000 galUS", "vessel": )") + tank + "}")
                                                     << "depth_m" << 20.61 * kInch << 0.005 * kInch;
        // D. Jones's two examples of dished tanks, 108 by 156 in, as the test suite of the open library "fluids" prints them.
        const char* cone = R"({"inside_diameter": "108 in", "wall": "0 in", "shell_length": "156 in", "heads": "conical",
                               "depth": "42 in"})";
        QTest::newRow("conical, 36 in") << "level" << level(cone, "36 in") << "volume_m3" << 2041.1923581273 * kGallon << 1e-6 * kGallon;
        QTest::newRow("conical, 84 in") << "level" << level(cone, "84 in") << "volume_m3" << 6180.5407739058 * kGallon << 1e-6 * kGallon;
        const char* dished = R"({"inside_diameter": "108 in", "wall": "0 in", "shell_length": "156 in", "heads": "torispherical",
                                 "crown_ratio": 1.0, "knuckle_ratio": 0.06})";
        QTest::newRow("torispherical, 36 in") << "level" << level(dished, "36 in") << "volume_m3" << 2028.6266708421 * kGallon
                                              << 1e-6 * kGallon;
        QTest::newRow("torispherical, 84 in") << "level" << level(dished, "84 in") << "volume_m3" << 5939.8979101579 * kGallon
                                              << 1e-6 * kGallon;
        QTest::newRow("torispherical, 1 in") << "level" << level(dished, "1 in") << "volume_m3" << 9.5800138209 * kGallon << 1e-6 * kGallon;
        // The same test suite, standing: 132 in across, filled to 24 and 60 in.
        const char* upright = R"({"inside_diameter": "132 in", "wall": "0 in", "shell_length": "100 in", "left_head": "torispherical",
                                  "right_head": "flat", "crown_ratio": 1.0, "knuckle_ratio": 0.06})";
        const auto standing = [&](const char* depth) {
            return QByteArray(R"({"pose": {"pitch": "90 deg"}, "vessel": )") + upright + ", \"depth\": \"" + depth + "\"}";
        };
        QTest::newRow("standing, 24 in") << "level" << standing("24 in") << "volume_m3" << 904.0688283794 * kGallon << 1e-6 * kGallon;
        QTest::newRow("standing, 60 in") << "level" << standing("60 in") << "volume_m3" << 3036.7614412163 * kGallon << 1e-6 * kGallon;
        // Half of it lies under a plane through its middle at any pitch: symmetry.
        QTest::newRow("half, pitched") << "level"
                                       << QByteArray(R"({"pose": {"pitch": "3 deg"}, "vessel": {"inside_diameter": "30 in", "wall": "0 in",
                                                         "shell_length": "62 in", "heads": "hemispherical"}, "volume": "125.4597 galUS"})")
                                       << "fraction" << 0.5 << 1e-6;
    }
    void publishedAnswers()
    {
        QFETCH(const QString, name);
        QFETCH(const QByteArray, input);
        QFETCH(const QString, key);
        QFETCH(const double, expected);
        QFETCH(const double, within);
        const Said said = figure(name, input);
        QVERIFY2(said.code == kYes, told(said));
        QVERIFY2(said.json().value(key).isDouble(), told(said));
        const double got = said.json().value(key).toDouble();
        QVERIFY2(std::abs(got - expected) <= within, qPrintable(QString::number(got, 'g', 15)));
    }

    // Water at 20 degC weighs 998.2067 kg/m3: Tanaka and others, Metrologia 38 (2001).
    void waterWeighsWhatItShould()
    {
        const QByteArray input = R"({"vessel": {"outside_diameter": "30 in", "wall": "1/4 in", "overall_length": "92 in",
            "heads": "hemispherical"}, "pose": {"pitch": "0 deg", "roll": "0 deg"}, "water_temperature": "20 degC",
            "openings": [{"name": "A", "from_left_tangent": "31 in", "clock": "0 deg", "bore": "0 in", "projection": "0 in",
            "state": "open"}]})";
        const Said said = figure("water-fill", input);
        QVERIFY2(said.code == kYes, told(said));
        const double density = said.json().value("water_mass_kg").toDouble() / said.json().value("water_m3").toDouble();
        QVERIFY2(std::abs(density - 998.2067) < 1e-4, qPrintable(QString::number(density, 'f', 5)));
        QCOMPARE(said.json().value("spill_opening").toString(), QString("A"));
        QCOMPARE(said.json().value("pocket").toString(), QString("none"));
    }

    // Crowl and Louvar, Chemical Process Safety, example of vacuum purging (from memory): a vessel of 1000 gallons of air at
    // 75 degF, 20 mmHg, oxygen to 1 ppm by pure nitrogen: 3.37, so 4 cycles, 1.33 pound-moles.
    void purgedAsInTheTextbook()
    {
        const Said said = figure("purge", R"({"method": "vacuum", "volume": "1000 galUS", "start": "21 %", "target": "1 ppm",
            "purge_gas_content": "0 %", "low_pressure": "20 mmHg", "high_pressure": "760 mmHg", "temperature": "75 degF"})");
        QVERIFY2(said.code == kYes, told(said));
        QCOMPARE(said.json().value("cycles").toInt(), 4);
        QVERIFY2(std::abs(said.json().value("gas_mol").toDouble() / 453.59237 - 1.33) < 0.005, told(said));
    }

    // A plate that cannot belong to what was measured: 30 by 72 in, 1/4 in wall, and it says 250 gallons.
    void tellsAPlateThatCannotBe()
    {
        const Said said = figure("capacity", R"({"vessel": {"outside_diameter": "30 in", "wall": "0.25 in", "overall_length": "72 in",
            "heads": "hemispherical", "stamped_capacity": "250 galUS"}})");
        QVERIFY2(said.code == kYes, told(said));
        QCOMPARE(said.json().value("verdict").toString(), QString("mismatch"));
        QVERIFY(said.json().value("ratio").toDouble() < 0.75);
    }

    void badInput_data()
    {
        QTest::addColumn<QString>("name");
        QTest::addColumn<QByteArray>("input");
        QTest::addColumn<QString>("code");
        QTest::addColumn<QString>("path");
        const auto vessel = [](const char* changed) {
            QJsonObject sizes{{"outside_diameter", "30 in"}, {"wall", "1/4 in"}, {"overall_length", "92 in"}, {"heads", "hemispherical"}};
            const QJsonObject with = Said{0, changed, {}}.json();
            for (auto one = with.begin(); one != with.end(); ++one) {
                sizes.insert(one.key(), one.value());
            }
            return QByteArray(QJsonDocument(QJsonObject{{"vessel", sizes}}).toJson());
        };
        QTest::newRow("no unit") << "capacity" << vessel(R"({"wall": "0.25"})") << "bad-quantity"
                                 << "vessel.wall";
        QTest::newRow("a bare number") << "capacity" << vessel(R"({"wall": 0.25})") << "bad-quantity"
                                       << "vessel.wall";
        QTest::newRow("unknown unit") << "capacity" << vessel(R"({"wall": "1 span"})") << "bad-quantity"
                                      << "vessel.wall";
        QTest::newRow("wrong dimension") << "capacity" << vessel(R"({"wall": "1 kg"})") << "bad-quantity"
                                         << "vessel.wall";
        QTest::newRow("a thousand or one") << "capacity" << vessel(R"({"overall_length": "1,000 mm"})") << "bad-quantity"
                                           << "vessel.overall_length";
        QTest::newRow("zero") << "capacity" << vessel(R"({"outside_diameter": "0 in"})") << ""
                              << "vessel.outside_diameter";
        QTest::newRow("negative") << "capacity" << vessel(R"({"overall_length": "-92 in"})") << ""
                                  << "vessel.overall_length";
        QTest::newRow("wall thicker than radius") << "capacity" << vessel(R"({"wall": "15 in"})") << ""
                                                  << "vessel.wall";
        QTest::newRow("shorter than its heads") << "capacity" << vessel(R"({"overall_length": "20 in"})") << "impossible"
                                                << "vessel.overall_length";
        QTest::newRow("no such head") << "capacity" << vessel(R"({"heads": "pointed"})") << "unknown-choice"
                                      << "vessel.heads";
        QTest::newRow("one key too many") << "capacity" << vessel(R"({"colour": "red"})") << "unknown-key"
                                          << "vessel.colour";
        QTest::newRow("nothing") << "capacity" << QByteArray("{}") << "missing"
                                 << "vessel";
        QTest::newRow("no substance like that")
            << "residue" << QByteArray(R"({"substance": "phlogiston", "volume": "1 m3", "temperature": "20 degC"})") << ""
            << "substance";
        QTest::newRow("in a list") << "water-fill"
                                   << QByteArray(R"({"vessel": {"outside_diameter": "30 in", "wall": "1/4 in", "overall_length": "92 in",
                                                     "heads": "hemispherical"}, "openings": [{"name": "A", "from_left_tangent": "31 in",
                                                     "clock": "0 deg", "bore": "0 in", "projection": "0 in", "state": "ajar"}]})")
                                   << "unknown-choice"
                                   << "openings[0].state";
        QTest::newRow("not JSON") << "capacity" << QByteArray("{\"vessel\": ") << "bad-json"
                                  << "-:1:";
        QTest::newRow("no input") << "capacity" << QByteArray() << "bad-json"
                                  << "-:1:";
        QTest::newRow("a list, not an object") << "capacity" << QByteArray("[]") << ""
                                               << "";
    }
    void badInput()
    {
        QFETCH(const QString, name);
        QFETCH(const QByteArray, input);
        QFETCH(const QString, code);
        QFETCH(const QString, path);
        const Said said = figure(name, input);
        QVERIFY2(said.code == kInput, told(said));
        QCOMPARE(said.out, QByteArray());
        QVERIFY2(said.error().contains("expected") && said.error().contains("found"), told(said));
        if (!code.isEmpty()) {
            QCOMPARE(said.error().value("code").toString(), code);
        }
        QVERIFY2(said.error().value("path").toString().startsWith(path), told(said));
        const Said text = call({"figure", name, "-"}, input);
        QCOMPARE(text.code, kInput);
        QVERIFY(!text.err.trimmed().isEmpty());
    }

    void badCalls()
    {
        QCOMPARE(call({"--json", "figure", "phlogiston", "-"}, "{}").error().value("code").toString(), QString("unknown-figure"));
        QCOMPARE(call({"figure", "phlogiston", "--describe"}).code, kInput);
        QCOMPARE(call({"figure"}).code, kInput);
        const Said file = call({"--json", "figure", "capacity", "/nowhere/at.json"});
        QCOMPARE(file.code, kInput);
        QCOMPARE(file.error().value("code").toString(), QString("no-such-file"));
    }
};

BRIMFUL_SUITE(FiguresByCommandTest);
#include "figures_test.moc"
