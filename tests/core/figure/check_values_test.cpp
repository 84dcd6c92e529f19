// One row a check value of vessels and water, with its source in its name. Tables: the tank tables published with the open
// "fluids" library, after D. Jones, "Calculating Tank Volume". Worked: derived from the stated formulas by another program
// (20-point Gauss-Legendre sums, checked by closed forms or quasi-random counts).
#include "core/figure/figure.h"
#include "core/quantity/format.h"
#include "core/quantity/parse.h"
#include "core/water/density.h"
#include "core/water/fill.h"
#include "core/water/level.h"

#include "tests/core/figure/ask.h"
#include "tests/core/vessel/inches.h"
#include "tests/support/suite.h"

#include <QTest>

#include <cmath>
#include <functional>
#include <numbers>

using namespace brimful;
using namespace brimful::test;

namespace {

using Value = std::function<double()>;

constexpr double kGallonSi = 3.785411784e-3; // 231 in3
constexpr double kCubicInch = 0.0254 * 0.0254 * 0.0254;

quantity::Angle degrees(double value) { return quantity::radians(value * std::numbers::pi / 180); }

// Asked of a figure: the JSON with ' for ", and the answer's key.
double answer(std::string_view figure, std::string json, std::string_view key)
{
    std::ranges::replace(json, '\'', '"');
    const auto got = ask(figure, json);
    if (!got) {
        throw std::invalid_argument(got.error().path);
    }
    return number(*got, key);
}

std::string insideVessel(double diameter, double length, const std::string& heads)
{
    return "'vessel':{'inside_diameter':'" + std::to_string(diameter) + " in','shell_length':'" + std::to_string(length)
        + " in','wall':'0 in','heads':'" + heads + "'}";
}
std::string outsideVessel(double diameter, double overall, double wall, const std::string& heads)
{
    return "'vessel':{'outside_diameter':'" + std::to_string(diameter) + " in','overall_length':'" + std::to_string(overall)
        + " in','wall':'" + std::to_string(wall) + " in','heads':'" + heads + "'}";
}

double capacity(const std::string& vessel) { return answer("capacity", "{" + vessel + "}", "capacity_m3") / kGallonSi; }

// Gallons below a depth, level or on end; heads as inches.h names them.
double below(double diameter, double length, const vessel::HeadSize& head, double pitch, double depth)
{
    const vessel::Shell shell = insideShell(diameter, length, head);
    return inGallons(water::below(shell, degrees(pitch), water::lowestPoint(shell, degrees(pitch)) + inches(depth)).volume);
}
// Gallons below a height above the axis at the left tangent line.
double belowHeight(const vessel::Shell& shell, double pitch, double height)
{
    return inGallons(water::below(shell, degrees(pitch), inches(height)).volume);
}
const vessel::Shell& tank(const vessel::HeadSize& head)
{
    static std::vector<std::pair<vessel::HeadKind, vessel::Shell>> all;
    for (const auto& [kind, shell] : all) {
        if (kind == head.kind) {
            return shell;
        }
    }
    return all.emplace_back(head.kind, insideShell(30, 62, head)).second;
}

std::string opening(const std::string& name, const std::string& where, const std::string& more = "")
{
    return "{'name':'" + name + "'," + where + ",'bore':'0 in','state':'open'" + (more.empty() ? ",'projection':'0 in'" : more) + "}";
}
std::string onShell(double x, double clock)
{
    return "'from_left_tangent':'" + std::to_string(x) + " in','clock':'" + std::to_string(clock) + " deg'";
}
double trapped(double pitch, double roll, const std::string& openings)
{
    return answer("water-fill",
               "{" + insideVessel(30, 62, "hemispherical") + ",'pose':{'pitch':'" + std::to_string(pitch) + " deg','roll':'"
                   + std::to_string(roll) + " deg'},'openings':[" + openings + "]}",
               "trapped_m3")
        / kGallonSi;
}
std::string plugged(std::string opening) { return opening.replace(opening.find("open'"), 4, "plugged"); }

double drained(const std::string& rest, std::string_view key = "time_s") { return answer("drain", "{" + rest + "}", key); }
// Published with g = 9.81 m/s2; times go with 1 / sqrt g.
double atTextbookGravity(double seconds) { return seconds * std::sqrt(9.80665 / 9.81); }

double waterDensity(double celsius) { return water::density(quantity::Temperature(celsius + 273.15))->value(); }

double supported(const char* key)
{
    return answer("support",
               "{" + insideVessel(30, 62, "hemispherical")
                   + ",'pose':{'pitch':'5 deg'},'empty_mass':'1000 kg','full':0,'supports':[{'from_left_tangent':'10 "
                     "in'},{'from_left_tangent':'52 in'}]}",
               key)
        / 9.80665;
}

} // namespace

class CheckValuesTest : public QObject {
    Q_OBJECT
private slots:
    void values_data();
    void values();

private:
    static void unitsAndHeads();
    static void levels();
    static void capacities();
    static void tilted();
    static void pockets();
    static void running();
    static void loads();
};

Q_DECLARE_METATYPE(Value)

namespace {

void row(const char* name, double wanted, double within, const Value& value) { QTest::newRow(name) << value << wanted << within; }

} // namespace

void CheckValuesTest::values_data()
{
    QTest::addColumn<Value>("value");
    QTest::addColumn<double>("wanted");
    QTest::addColumn<double>("within"); // absolute
    unitsAndHeads();
    levels();
    capacities();
    tilted();
    pockets();
    running();
    loads();
}

void CheckValuesTest::unitsAndHeads()
{
    const auto si = [](const char* text) { return quantity::parse(text)->si; };
    row("1 gal in in3: 231 (NIST Handbook 44, appendix C)", 231, 1e-12, [si] { return si("1 galUS") / kCubicInch; });
    row("1 gal in L (NIST Handbook 44, appendix C)", 3.785411784, 1e-15, [si] { return 1000 * si("1 galUS"); });
    row("1 ft3 in L (exact from the inch)", 28.316846592, 1e-14, [si] { return 1000 * si("1 ft3"); });
    row("1 ft3 in gal (exact from the inch)", 7.48051948051948, 1e-13, [si] { return si("1 ft3") / si("1 galUS"); });
    const auto depth = [](double diameter, double crown, double knuckle) {
        return inInches(insideShell(diameter, 10, torispherical(crown, knuckle)).head(vessel::Side::Left).depth());
    };
    row("flanged and dished, D 108: depth (tables)", 18.288462280484797, 2e-8, [depth] { return depth(108, 1, 0.06); });
    row("torispherical, D 96, 0.9, 0.2: depth (tables)", 25.684268924767125, 2e-8, [depth] { return depth(96, 0.9, 0.2); });
    const auto area = [](double diameter, const vessel::HeadSize& head) {
        return insideShell(diameter, 10, head).head(vessel::Side::Left).area().value() / (kInch * kInch);
    };
    row("torispherical, D 2.54: area (tables)", 6.00394283477063, 6e-9,
        [area] { return area(2.54, torispherical(1.039370079, 0.062362205)); });
    row("ellipsoid, D 2, 0.999: area (tables)", 6.278996936093318, 6e-9, [area] { return area(2, ellipsoidal(0.999)); });
    row("flanged and dished: volume / D^3 (0.0809 in an engineers' forum; worked)", 0.080999, 2e-6, [] {
        const auto shell = insideShell(100, 10, torispherical(1, 0.06));
        return inCubicInches(shell.head(vessel::Side::Left).capacity()) / 1e6;
    });
    row("Kloepper, Da 1000, s 10: depth in mm (DIN 28011 line 188.95, memory)", 188.890, 0.1, [] {
        const double inside = 980;
        const vessel::HeadSize head{vessel::HeadKind::Torispherical, 1000 / inside, 100 / inside, std::nullopt};
        const auto shell = vessel::Shell::make(
            {vessel::InsideDiameter(quantity::metres(0.98)), quantity::metres(0.01), vessel::ShellLength(quantity::metres(1)), head, head});
        return 1000 * shell->head(vessel::Side::Left).depth().value();
    });
}

void CheckValuesTest::levels()
{
    const auto level = [](const char* name, const vessel::HeadSize& head, double depth, double gallons) {
        row(name, gallons, 1e-9 * gallons, [=] { return below(108, 156, head, 0, depth); });
    };
    level("D 108, L 156, ellipsoidal 42, at 36 (tables)", ellipsoidal(42), 36, 2380.9565415578);
    level("the same at 84 (tables)", ellipsoidal(42), 84, 7103.4452359214);
    level("conical 42, at 36 (tables)", conical(42), 36, 2041.1923581273);
    level("conical 42, at 84 (tables)", conical(42), 84, 6180.5407739058);
    level("spherical cap 42, at 36 (tables)", dish(108, 42), 36, 2303.9615116986);
    level("spherical cap 42, at 84 (tables)", dish(108, 42), 84, 6935.1633652755);
    level("torispherical 1.0/0.06, at 36 (tables)", torispherical(1, 0.06), 36, 2028.6266708421);
    level("torispherical 1.0/0.06, at 84 (tables)", torispherical(1, 0.06), 84, 5939.8979101579);
    level("torispherical 1.0/0.06, at 1 (tables)", torispherical(1, 0.06), 1, 9.5800138209);
    const auto upright = [](const char* name, const vessel::HeadSize& head, double depth, double gallons) {
        row(name, gallons, 1e-9 * gallons, [=] { return below(132, 200, head, 90, depth); });
    };
    upright("on end, D 132, torispherical, at 24 (tables)", torispherical(1, 0.06), 24, 904.0688283794);
    upright("on end, D 132, torispherical, at 60 (tables)", torispherical(1, 0.06), 60, 3036.7614412163);
    upright("on end, D 132, ellipsoidal 33, at 24 (tables)", ellipsoidal(33), 24, 783.3581681678);
    upright("on end, D 132, ellipsoidal 33, at 60 (tables)", ellipsoidal(33), 60, 2902.8316119170);
    const std::string flat = insideVessel(72, 240, "flat");
    const auto depthOf = [flat](
                             const char* volume) { return answer("level", "{" + flat + ",'volume':'" + volume + "'}", "depth_m") / kInch; };
    row("72 in x 240 in flat: full 4230 (Machinery's Handbook 31, p. 74)", 4230, 0.5, [flat] { return capacity(flat); });
    row("the same, half: 2115 (Machinery's Handbook 31, p. 74)", 2115, 0.5,
        [flat] { return answer("level", "{" + flat + ",'depth':'36 in'}", "volume_m3") / kGallonSi; });
    row("the same, 1000 gal at 20.61 in (Machinery's Handbook 31, p. 74)", 20.61, 0.005, [depthOf] { return depthOf("1000 galUS"); });
    row("the same, 3000 gal at 48.0593 in (the segment equation by hand)", 48.0593, 1e-4, [depthOf] { return depthOf("3000 galUS"); });
}

void CheckValuesTest::capacities()
{
    row("30 x 72 hemispherical, no wall (worked)", 189.7196, 1e-4, [] { return capacity(outsideVessel(30, 72, 0, "hemispherical")); });
    row("30 x 92 hemispherical, no wall (worked)", 250.9194, 1e-4, [] { return capacity(outsideVessel(30, 92, 0, "hemispherical")); });
    row("30 x 92 x 1/4 hemispherical (worked)", 241.6389, 1e-4, [] { return capacity(outsideVessel(30, 92, 0.25, "hemispherical")); });
    const auto ratio = [](const char* heads) {
        std::string vessel = outsideVessel(30, 72, 0.25, heads);
        vessel.insert(vessel.size() - 1, ",'stamped_capacity':'250 galUS'");
        return answer("capacity", "{" + vessel + "}", "ratio");
    };
    row("30 x 72 x 1/4 stamped 250: ratio, hemispherical (worked)", 0.7298, 1e-4, [ratio] { return ratio("hemispherical"); });
    row("30 x 72 x 1/4 stamped 250: ratio, 2:1 (worked)", 0.7880, 1e-4, [ratio] { return ratio("ellipsoidal-2-1"); });
    row("250 gal at 94.826 in over all, hemispherical (worked)", 250, 3e-3,
        [] { return capacity(outsideVessel(30, 94.826, 0.25, "hemispherical")); });
    row("250 gal at 89.909 in over all, 2:1 (worked)", 250, 3e-3,
        [] { return capacity(outsideVessel(30, 89.909, 0.25, "ellipsoidal-2-1")); });
    // The tape's excess over the straight length, D 30: the figure names the head and nothing is left over.
    const auto tape = [](const char* heads, double overall, double excess) {
        return [=] {
            const std::string question =
                "{" + outsideVessel(30, overall, 0, heads) + ",'tape_over_tips':'" + std::to_string(overall + excess) + " in'}";
            return answer("capacity", question, "head_by_tape_off_m") / kInch;
        };
    };
    row("tape over the tips less length, hemispherical: 17.1239 (worked)", 0, 1e-3, tape("hemispherical", 92, 17.1239));
    row("tape over the tips less length, 2:1: 21.3317 (worked)", 0, 1e-3, tape("ellipsoidal-2-1", 92, 21.3317));
    row("tape over the tips less length, flanged and dished: 22.9683 (worked)", 0, 1e-3, tape("torispherical", 92, 22.9683));
}

void CheckValuesTest::tilted()
{
    const auto at = [](const char* name, const vessel::HeadSize& head, double height, double pitch, double gallons) {
        row(name, gallons, 1e-6 * gallons, [=] { return belowHeight(tank(head), pitch, height); });
    };
    at("flat 30 x 62, 0 in at 5 deg (closed form)", flat(), 0, 5, 73.26290417);
    at("flat 30 x 62, 5 in at 2 deg (closed form)", flat(), 5, 2, 126.03586801);
    at("flat 30 x 62, 20 in at 20 deg (closed form)", flat(), 20, 20, 157.27352755);
    row("R 1, L 10, flat, 0 at 40 deg: 2 / (3 tan 40)", 0.7945023951, 1e-9,
        [] { return inCubicInches(water::below(insideShell(2, 10, flat()), degrees(40), inches(0)).volume); });
    at("hemispherical, 5 in at 4 deg (worked; quasi-random count)", hemispherical(), 5, 4, 156.434428);
    at("hemispherical, 10 in at 5 deg (worked; quasi-random count)", hemispherical(), 10, 5, 201.103579);
    at("hemispherical, -6 in at 12 deg (worked)", hemispherical(), -6, 12, 21.176240);
    at("2:1, 10 in at 5 deg (worked)", twoToOne(), 10, 5, 176.188047);
    at("flanged and dished, -5 in at 10 deg (worked)", torispherical(1, 0.06), -5, 10, 23.095006);
    for (const double pitch : {0.0, 3.0, 45.0, 90.0}) {
        const std::string name = "a plane through the centre halves it, at " + std::to_string(static_cast<int>(pitch)) + " deg (symmetry)";
        row(name.c_str(), 0.5, 1e-9, [=] {
            return belowHeight(tank(hemispherical()), pitch, 31 * std::sin(pitch * std::numbers::pi / 180))
                / inGallons(tank(hemispherical()).capacity());
        });
    }
    row("a sphere of 30 in, 7 in above its middle, at 23 deg: the cap's formula", 11657.403140, 1e-5,
        [] { return inCubicInches(water::below(insideShell(30, 0, hemispherical()), degrees(23), inches(7)).volume); });
    row("volume at any roll is one (symmetry)", 0, 0, [] {
        const auto rolled = [](const char* roll) {
            return answer("level",
                "{" + insideVessel(30, 62, "torispherical") + ",'pose':{'pitch':'7 deg','roll':'" + roll + "'},'depth':'11 in'}",
                "volume_m3");
        };
        return rolled("0 deg") - rolled("77 deg");
    });
    // Rising without a break, from nothing to all, and its slope is the level's area.
    row("volume rises with the level: smallest step above 0", 1, 0, [] {
        const vessel::Shell& shell = tank(torispherical(1, 0.06));
        const quantity::Length low = water::lowestPoint(shell, degrees(6));
        const quantity::Length high = water::highestPoint(shell, degrees(6));
        double before = 0;
        bool rises = water::below(shell, degrees(6), low).volume.value() == 0;
        for (int i = 1; i <= 400; ++i) {
            const double here = water::below(shell, degrees(6), low + (i / 400.0) * (high - low)).volume.value();
            rises = rises && here > before;
            before = here;
        }
        return rises && std::abs(before - shell.capacity().value()) <= 1e-12 ? 1.0 : 0.0;
    });
    row("area of the level over dV/dz by finite difference", 1, 1e-6, [] {
        const vessel::Shell& shell = tank(torispherical(1, 0.06));
        const auto under = [&](double height) { return water::below(shell, degrees(6), quantity::metres(height)); };
        const double step = 1e-4;
        return under(0.05).surface.value() / ((under(0.05 + step).volume - under(0.05 - step).volume).value() / (2 * step));
    });
}

void CheckValuesTest::pockets()
{
    const std::string middle = opening("A", onShell(31, 0));
    const auto at = [](const char* name, double gallons, double within, double pitch, double roll, const std::string& openings) {
        row(name, gallons, within, [=] { return trapped(pitch, roll, openings); });
    };
    at("middle, on top, 0.5 deg (worked)", 0.0631, 5e-4, 0.5, 0, middle);
    at("middle, on top, 1 deg (worked)", 0.1884, 5e-4, 1, 0, middle);
    at("middle, on top, 2 deg (worked)", 0.5744, 5e-4, 2, 0, middle);
    at("middle, on top, 5 deg (worked)", 2.6082, 5e-4, 5, 0, middle);
    at("middle, level, rolled 10 deg (worked)", 0.223, 1e-3, 0, 10, middle);
    at("middle, level, rolled 30 deg (worked)", 6.258, 1e-3, 0, 30, middle);
    at("middle, level, rolled 90 deg (worked)", 125.460, 1e-3, 0, 90, middle);
    at("at 56 in, -1 deg (worked)", 0.783, 1e-3, -1, 0, opening("A", onShell(56, 0)));
    at("at 56 in, +1 deg (worked)", 0.0040, 1e-3, 1, 0, opening("A", onShell(56, 0)));
    at("on the head 60 deg from its pole, 30 deg: none (worked)", 0, 1e-6, 30, 0,
        opening("A", "'head':'right','from_pole_deg':60,'clock':'0 deg'"));
    at("a dip tube at 80 % of the depth alone (worked)", 33.377, 2e-3, 0, 0, opening("A", onShell(31, 0), ",'projection':'6 in'"));
    const std::string a = opening("A", onShell(20, 0));
    const std::string b = opening("B", onShell(50, 30));
    at("two open, roll 0 (worked)", 6.2575, 1e-3, 0, 0, a + "," + b);
    at("two open, roll -30 (worked)", 6.2575, 1e-3, 0, -30, a + "," + b);
    at("two open, roll -15, the best (worked)", 0.7652, 1e-3, 0, -15, a + "," + b);
    at("the second plugged, roll 0 (worked)", 0, 1e-3, 0, 0, a + "," + plugged(b));
    at("the first plugged, roll -30 (worked)", 0, 1e-3, 0, -30, plugged(a) + "," + b);
}

void CheckValuesTest::running()
{
    row("cylinder over a cone, C 0.60: 100.2 s published (a hydraulics review)", 100.2, 0.15, [] {
        return drained(
            "'vessel':{'inside_diameter':'3.66 m','shell_length':'3.66 m','left_head':'conical','right_head':'flat','depth':'3.66 m'},"
            "'pose':{'pitch':'90 deg'},'hole':{'head':'left','from_axis':'0 m','diameter':'0.343922 m','discharge':0.6}");
    });
    row("cylinder on its side, half full, g 9.81 (closed form of hydraulics texts)", 583.977, 6e-4, [] {
        return atTextbookGravity(drained("'vessel':{'inside_diameter':'2 m','shell_length':'5 m','heads':'flat'},'from':'1 m',"
                                         "'hole':{'from_left_tangent':'2.5 m','clock':'180 deg','diameter':'100 mm','discharge':0.6}"));
    });
    row("sphere of 3 m from 2.75 m, g 9.81 (a text on numerical methods, P25.20)", 7487.67, 8e-3, [] {
        return atTextbookGravity(drained("'vessel':{'inside_diameter':'3 m','shell_length':'0 m','heads':'hemispherical'},'from':'2.75 m',"
                                         "'hole':{'from_left_tangent':'0 m','clock':'180 deg','diameter':'30 mm','discharge':0.55}"));
    });
    row("1.2 m wide, 3 m high, g 9.81 (a hydraulics text, example 6.17)", 750.78, 5e-3, [] {
        return atTextbookGravity(
            drained("'vessel':{'inside_diameter':'1.2 m','shell_length':'3 m','heads':'flat'},'pose':{'pitch':'90 deg'},"
                    "'hole':{'head':'left','from_axis':'0 m','diameter':'50 mm','discharge':0.6}"));
    });
    const std::string tank = insideVessel(30, 62, "hemispherical");
    row("30 x 62, 2 in in the bottom, C 0.61 (worked)", 332.63, 0.05,
        [tank] { return drained(tank + ",'hole':{" + onShell(31, 180) + ",'diameter':'2 in','discharge':0.61}"); });
    const std::string slot = tank + ",'hole':{" + onShell(31, 45) + ",'slot_length':'0.3 m','slot_width':'3 mm','discharge':0.62}";
    row("3 mm x 0.3 m at clock 45: time (worked)", 226.47, 0.05, [slot] { return drained(slot); });
    row("the same: litres (worked)", 78.692, 0.05, [slot] { return 1000 * drained(slot, "drained_m3"); });
    const std::string girth = tank + ",'hole':{'places':[{" + onShell(31, 30) + "},{" + onShell(31, 60)
        + "}],'kerf':'3 mm','discharge':0.62},'to':'" + std::to_string(22.5 * kInch + 0.01) + " m'";
    const std::string from30 = girth + ",'from':'" + std::to_string(15 * kInch * (1 + std::cos(std::numbers::pi / 6))) + " m'";
    row("girth kerf 30 to 60 deg, to 10 mm, from the level at 30 deg: time (worked)", 2791.3, 14, [from30] { return drained(from30); });
    row("the same: gallons (worked)", 36.787, 0.05, [from30] { return drained(from30, "drained_m3") / kGallonSi; });
    row("the same from the brim: time (worked)", 2843.6, 14, [girth] { return drained(girth); });
    row("the same from the brim: gallons (worked)", 43.045, 0.05, [girth] { return drained(girth, "drained_m3") / kGallonSi; });
    row("9 gal/min over 3 mm x 300 mm: head in mm (by hand)", 52.8, 0.1, [slot] {
        const std::string hose = slot + ",'inflow':'9 galUS/min'";
        return 1000 * (drained(hose, "settles_depth_m") - drained(hose, "lowest_outlet_m"));
    });
}

void CheckValuesTest::loads()
{
    const auto dense = [](const char* name, double celsius, double wanted, double within) {
        row(name, wanted, within, [=] { return waterDensity(celsius); });
    };
    dense("water at 0 degC (Tanaka 2001)", 0, 999.8428, 5e-5);
    dense("water at 10 degC (Tanaka 2001)", 10, 999.7027, 5e-5);
    dense("water at 15 degC (Tanaka 2001)", 15, 999.1026, 5e-5);
    dense("water at 20 degC (Tanaka 2001)", 20, 998.2067, 5e-5);
    dense("water at 30 degC (Tanaka 2001)", 30, 995.6488, 5e-5);
    // 997.936 is what a widely copied misprint of that formula gives.
    dense("water at 20 degC (Kell 1975, another formula: within 3 g/m3)", 20, 998.2041, 3e-3);
    row("supports at 10 and 52 in, 5 deg: left of 1000 (statics by hand)", 531.246, 1e-3, [] { return supported("left_N"); });
    row("supports at 10 and 52 in, 5 deg: right of 1000 (statics by hand)", 468.754, 1e-3, [] { return supported("right_N"); });
    row("steel of 30 x 92 x 1/4 hemispherical, kg (worked)", 275.8, 0.1,
        [] { return answer("capacity", "{" + outsideVessel(30, 92, 0.25, "hemispherical") + "}", "steel_mass_kg"); });
    row("and back: the wall of 275.8 kg, in", 0.25, 2e-4, [] {
        return answer("capacity", "{" + outsideVessel(30, 92, 0.1875, "hemispherical") + ",'empty_mass':'275.8 kg'}", "wall_from_mass_m")
            / kInch;
    });
    row("freezing: +9.05 % (densities of ice and water at 0 degC)", 9.05, 0.05, [] {
        const std::string full = "{" + insideVessel(30, 62, "hemispherical")
            + ",'empty_mass':'200 kg','full':1,'supports':[{'from_left_tangent':'10 in'},{'from_left_tangent':'52 in'}]}";
        return 100 * answer("support", full, "ice_growth_m3") / (250.91944 * kGallonSi);
    });
    // Marks are rounded from the whole, never stepped: 4 x 29 7/8 is 1/8 in too long.
    const auto rounded = [](double exact) { return quantity::parse(quantity::inchFraction(inches(exact)))->si / kInch; };
    row("38 in round, in quarters from one datum (by hand)", 119.375, 1e-12, [rounded] { return rounded(38 * std::numbers::pi); });
    row("38 in round, a rounded quarter stepped four times (by hand)", 119.5, 1e-12,
        [rounded] { return 4 * rounded(38 * std::numbers::pi / 4); });
    row("192 in of steel from 20 to 135 degC, in (EN 1993-1-2, 3.4.1.1)", 0.27865, 1e-4, [] {
        return answer("support",
                   "{" + outsideVessel(41, 192, 0.25, "hemispherical")
                       + ",'full':0,'hottest':'135 degC','supports':[{'from_left_tangent':'10 in'},{'from_left_tangent':'140 in'}]}",
                   "grows_m")
            / kInch;
    });
    row("gap of a 24 in pipe in 30 in of 1/4 wall (by hand)", 2.75, 1e-9, [] {
        return (answer("capacity", "{" + outsideVessel(30, 92, 0.25, "hemispherical") + "}", "inside_diameter_m") / kInch - 24) / 2;
    });
}

void CheckValuesTest::values()
{
    QFETCH(Value, value);
    QFETCH(double, wanted);
    QFETCH(double, within);
    const double got = value();
    QVERIFY2(std::abs(got - wanted) <= within, qPrintable(QStringLiteral("%1, wanted %2").arg(got, 0, 'g', 14).arg(wanted, 0, 'g', 14)));
}

BRIMFUL_SUITE(CheckValuesTest);
#include "check_values_test.moc"
