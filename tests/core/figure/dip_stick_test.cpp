// A dip stick against what any handbook of mensuration gives: the segment of a circle, the cap of a sphere, the plumb line in a
// tilted cylinder. And the section across, whose level is the long section's.
#include "tests/core/figure/ask.h"
#include "tests/support/suite.h"

#include <QTest>

#include <cmath>
#include <numbers>

using namespace brimful;
using canon::Json;
using test::ask;
using test::number;

namespace {

constexpr double kRadius = 0.5; // m
constexpr double kLength = 2.0; // m

// Handbook: r^2 acos((r - h) / r) - (r - h) sqrt(2 r h - h^2), times the length; and pi h^2 (3 r - h) / 3 for both caps together.
double lyingVolume(double h)
{
    const double r = kRadius;
    const double segment = r * r * std::acos((r - h) / r) - (r - h) * std::sqrt(2 * r * h - h * h);
    return kLength * segment + std::numbers::pi * h * h * (3 * r - h) / 3;
}

std::string lying(const std::string& more)
{
    return R"({"vessel":{"inside_diameter":"1 m","shell_length":"2 m","heads":"hemispherical"})" + more + "}";
}
std::string tilted(const std::string& more)
{
    return R"({"vessel":{"inside_diameter":"1 m","shell_length":"2 m","heads":"flat"},"pose":{"pitch":"5 deg"})" + more + "}";
}

const figure::Line* partOf(const figure::Result& result, std::string_view part)
{
    const auto found = std::ranges::find(result.picture, part, &figure::Line::part);
    return found == result.picture.end() ? nullptr : &*found;
}

} // namespace

class DipStickTest : public QObject {
    Q_OBJECT
private slots:
    void marksAreTheHandbooks();
    void marksAreRoundByThemselves();
    void tiltedTheFootIsNotTheLowestPoint();
    void levelReadsTheStick();
    void whatCannotBe_data();
    void whatCannotBe();
    void theStripHasItsTrueLength();
    void acrossTheLevelRunsOn();
};

void DipStickTest::marksAreTheHandbooks()
{
    const auto got = ask("dip-chart", lying(R"(,"every":"25 L")"));
    QVERIFY(got.has_value());
    const auto& marks = got->values.find("marks")->items;
    QCOMPARE(marks.size(), std::size_t(83)); // 2.094 m3
    for (const Json& mark : marks) {
        const double held = lyingVolume(mark.find("reading_m")->number);
        QVERIFY2(std::abs(held - mark.find("volume_m3")->number) <= 1e-9, qPrintable(QString::number(held, 'g', 12)));
    }
    QVERIFY(got->warnings.empty());
    QVERIFY(number(*got, "unread_m3") == 0);
}

void DipStickTest::marksAreRoundByThemselves()
{
    QVERIFY(std::abs(number(*ask("dip-chart", lying("")), "every_m3") - 0.05) <= 1e-12); // 2,094 L: 42 marks
    const auto us = ask("dip-chart", lying(R"(,"unit":"galUS")"));
    QVERIFY(std::abs(number(*us, "every_m3") - 20 * 0.003785411784) <= 1e-12); // 553 gal: 28 marks
}

// The stick hangs at 1 m on the top line. Plumb under it the bottom line is reached at 1 m - 2 r tan 5, whose height above the
// lowest point (the left foot) is that times sin 5: all by the right triangle.
void DipStickTest::tiltedTheFootIsNotTheLowestPoint()
{
    const double pitch = 5 * std::numbers::pi / 180;
    const double foot = (1.0 - 2 * kRadius * std::tan(pitch)) * std::sin(pitch);
    const auto got = ask("dip-chart", tilted(R"(,"stick":"1 m","every":"100 L")"));
    QVERIFY(got.has_value());
    QVERIFY(std::abs(number(*got, "length_m") - (2 * kRadius * std::cos(pitch) + kLength * std::sin(pitch) - foot)) <= 1e-12);
    // Water that only reaches the foot is a cylinder cut aslant: the hoof of a handbook.
    const double level = number(*ask("level", tilted(R"(,"depth":")" + std::to_string(foot) + R"( m")")), "volume_m3");
    QVERIFY(std::abs(number(*got, "unread_m3") - level) <= 1e-6);
    QCOMPARE(got->warnings, std::vector<std::string>{"stick-does-not-reach-the-lowest-point"});
    for (const Json& mark : got->values.find("marks")->items) {
        const double depth = mark.find("reading_m")->number + foot;
        const auto there = ask("level", tilted(R"(,"depth":")" + std::to_string(depth) + R"( m")"));
        QVERIFY(std::abs(number(*there, "volume_m3") - mark.find("volume_m3")->number) <= 2e-6);
    }
}

void DipStickTest::levelReadsTheStick()
{
    const double pitch = 5 * std::numbers::pi / 180;
    const double foot = (1.0 - 2 * kRadius * std::tan(pitch)) * std::sin(pitch);
    const auto got = ask("level", tilted(R"(,"stick":"1 m","depth":"400 mm")"));
    QVERIFY(std::abs(number(*got, "stick_reads_m") - (0.4 - foot)) <= 1e-12);
    QCOMPARE(number(*ask("level", tilted(R"(,"stick":"1 m","depth":"20 mm")")), "stick_reads_m"), 0.0);
    QVERIFY(partOf(*got, "stick") != nullptr);
    QVERIFY(!test::has(*ask("level", tilted(R"(,"depth":"20 mm")")), "stick_reads_m"));
}

void DipStickTest::whatCannotBe_data()
{
    QTest::addColumn<QString>("more");
    QTest::addColumn<QString>("path");
    QTest::newRow("beyond the shell") << R"(,"stick":"2.1 m")"
                                      << "stick";
    QTest::newRow("on a head") << R"(,"stick":"-0.1 m")"
                               << "stick";
    QTest::newRow("a mark for every drop") << R"(,"every":"1 L")"
                                           << "every";
    QTest::newRow("no step") << R"(,"every":"0 L")"
                             << "every";
    QTest::newRow("another unit") << R"(,"unit":"barrel")"
                                  << "unit";
}

void DipStickTest::whatCannotBe()
{
    QFETCH(QString, more);
    QFETCH(QString, path);
    const auto got = ask("dip-chart", lying(more.toStdString()));
    QVERIFY(!got.has_value());
    QCOMPARE(got.error().path, path.toStdString());
}

void DipStickTest::theStripHasItsTrueLength()
{
    const auto got = ask("dip-chart", lying(R"(,"every":"100 L")"));
    const figure::Line* strip = partOf(*got, "cut:dip-stick");
    QVERIFY(strip != nullptr);
    QCOMPARE(strip->metres.at(2).second, 1.0);
    std::size_t labelled = 0;
    for (const figure::Line& line : got->picture) {
        labelled += line.part == "mark:dip-stick:500" || line.part == "mark:dip-stick:1000" ? 1U : 0U;
    }
    QCOMPARE(labelled, std::size_t(2));
}

// Heights are true in both: the water of the section across ends where that of the long section does.
void DipStickTest::acrossTheLevelRunsOn()
{
    const auto got = ask("water-fill",
        R"({"vessel":{"inside_diameter":"1 m","shell_length":"2 m","heads":"hemispherical"},"pose":{"pitch":"4 deg","roll":"30 deg"},
            "openings":[{"name":"N1","from_left_tangent":"1 m","clock":"0 deg"}]})");
    QVERIFY(got.has_value());
    const auto topOf = [&](std::string_view part) {
        double top = -1e9;
        for (const auto& [x, y] : partOf(*got, part)->metres) {
            top = std::max(top, y);
        }
        return top;
    };
    QVERIFY(partOf(*got, "across:water") != nullptr && partOf(*got, "across:pocket") != nullptr);
    QVERIFY(std::abs(topOf("across:water") - topOf("water")) <= 1e-9);
    // Rolled 30 degrees clockwise seen from the left end, the opening stands to the right of the middle.
    const figure::Line* shell = partOf(*got, "across:shell");
    double middle = 0;
    for (const auto& [x, y] : shell->metres) {
        middle += x / static_cast<double>(shell->metres.size());
    }
    const figure::Line* opening = partOf(*got, "across:opening:N1");
    QVERIFY(std::abs(opening->metres.front().first - middle - kRadius * std::sin(std::numbers::pi / 6)) <= 1e-9);
}

BRIMFUL_SUITE(DipStickTest);
#include "dip_stick_test.moc"
