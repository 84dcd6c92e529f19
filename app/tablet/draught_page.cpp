#include "app/tablet/draught_page.h"

#include "app/print/plans.h"

#include <cmath>
#include <numbers>

namespace brimful::tablet {

using canon::Json;

namespace {

constexpr double kInch = 0.0254;
constexpr double kCold = 20; // degC

double square(double side) { return side * side; }

double warmFrom(double fahrenheit) { return (fahrenheit - 32) / 1.8; }

} // namespace

QString DraughtPage::tape(double metres) const { return print::tapeWords(metres, subject().reading.units); }

QString DraughtPage::flow(double kilograms_a_second) const
{
    //: what a stack draws an hour
    return us() ? tr("%1 lb/h").arg(std::lround(kilograms_a_second * 3600 / 0.45359237))
                : tr("%1 kg/h").arg(std::lround(kilograms_a_second * 3600));
}

void DraughtPage::open()
{
    const bool inches = us();
    const text::Units units = subject().reading.units;
    const auto length = [units](double value) { return print::shortTapeWords(value, units); };
    const auto orNone = [units](double value) { return value > 0 ? print::shortTapeWords(value, units) : tr("none"); };
    const auto warm = [inches](double celsius) {
        return inches ? tr("%1 °F").arg(std::lround(celsius * 1.8 + 32)) : tr("%1 °C").arg(std::lround(celsius));
    };
    const double inch = inches ? kInch : 0.025;
    add({"height", tr("Height"), stepped(inches ? 0.3048 : 0.25, inches ? 40 * 0.3048 : 12, inches ? 0.3048 : 0.25),
            [inches](double value) { return inches ? tr("%1 ft").arg(std::lround(value / 0.3048)) : tr("%1 m").arg(value, 0, 'f', 2); }})
        .setNearest(8 * 0.3048);
    add({"stack", tr("Stack"), stepped(3 * inch, 24 * inch, inch), length}).setNearest(8 * inch);
    //: another stack, to compare
    add({"other", tr("Beside it"), stepped(0, 24 * inch, inch), orNone}).setNearest(10 * inch);
    add({"gas", tr("Gas"), inches ? stepped(warmFrom(200), warmFrom(900), 25 / 1.8) : stepped(100, 500, 10), warm}).setNearest(149);
    add({"air", tr("Air"), inches ? stepped(warmFrom(-20), warmFrom(110), 5 / 1.8) : stepped(-30, 45, 5), warm}).setNearest(21);
    //: resistance of a stack in velocity heads, the way out included
    add({"loss", tr("Losses"), stepped(1, 10, 0.5), [](double value) { return QString::number(value, 'f', 1); }}).setNearest(4);
    //: how much heat the stack's wall lets through
    add({"cooling", tr("Cooling"), {0, 2, 5, 7.4, 10, 15, 25},
            [](double value) { return value > 0 ? tr("%1 W/m²K").arg(value) : tr("none"); }})
        .setNearest(7.4);
    //: what the fire gives an hour, where a damper holds the stack back
    add({"held", tr("Held to"), stepped(0, inches ? 600 * 0.45359237 / 3600 : 300.0 / 3600, inches ? 10 * 0.45359237 / 3600 : 5.0 / 3600),
        [this](double value) { return value > 0 ? flow(value) : tr("free"); }});
    //: the side of a square air inlet
    add({"inlet", tr("Inlet side"), stepped(0, 24 * inch, inch / 2), orNone}).setNearest(0);
    //: the side of a square opening between fire and chamber
    add({"throat", tr("Throat side"), stepped(0, 30 * inch, inch / 2), orNone}).setNearest(0);
    add({"liner", tr("Liner"), stepped(0, 60 * inch, inch), orNone}).setNearest(0);
    //: how hot the shell gets
    add({"hot", tr("Shell hot"), inches ? stepped(warmFrom(100), warmFrom(700), 25 / 1.8) : stepped(40, 400, 10), warm}).setNearest(135);
    handles("stack", 21, "height", 40);
    //: what a stack draws over its height
    addView("height", tr("Tall"));
    //: a stack's inside diameter
    addView("bore", tr("Bore"));
    //: a stack that a damper holds back
    addView("held", tr("Held"));
}

Json DraughtPage::asked() const
{
    const report::ShellView& shell = subject().view->shell;
    Json all = Json::object();
    all.set("height", measure(valueOf("height"), "m")).set("diameter", measure(valueOf("stack"), "m"));
    all.set("gas_temperature", measure(valueOf("gas"), "degC")).set("air_temperature", measure(valueOf("air"), "degC"));
    all.set("loss_factor", Json::real(valueOf("loss"))).set("heat_loss", measure(valueOf("cooling"), "W/m2K"));
    all.set("pressure", "101325 Pa");
    if (valueOf("other") > 0) {
        Json other = Json::object();
        other.set("diameter", measure(valueOf("other"), "m"));
        Json compare = Json::array();
        compare.items.push_back(std::move(other));
        all.set("compare", std::move(compare));
    }
    if (valueOf("held") > 0) {
        all.set("mass_flow", measure(valueOf("held"), "kg/s"));
    }
    Json path = Json::array();
    const auto place = [&](const QString& name, double area) {
        Json one = Json::object();
        one.set("name", name.toStdString()).set("area", measure(area, "m2"));
        path.items.push_back(std::move(one));
    };
    if (valueOf("inlet") > 0) {
        place(tr("inlet"), square(valueOf("inlet")));
    }
    if (valueOf("throat") > 0) {
        place(tr("throat"), square(valueOf("throat")));
    }
    place(tr("stack"), std::numbers::pi * square(valueOf("stack")) / 4);
    all.set("path", std::move(path));
    const double inside = shell.outside_diameter_m - 2 * shell.wall_m;
    if (valueOf("liner") > 0 && valueOf("liner") < inside) {
        Json liner = Json::object();
        liner.set("shell_inside_diameter", measure(inside, "m")).set("outside_diameter", measure(valueOf("liner"), "m"));
        all.set("liner", std::move(liner));
    }
    if (shell.shell_length_m > 0) {
        Json grows = Json::object();
        grows.set("length", measure(shell.shell_length_m, "m"))
            .set("cold", measure(kCold, "degC"))
            .set("hot", measure(valueOf("hot"), "degC"));
        all.set("expansion", std::move(grows));
    }
    return all;
}

void DraughtPage::compute()
{
    auto result = figure::compute(*figure::byName("draught"), asked(), subject().reference);
    if (!result) {
        judge(report::Signal::Caution, tr("no draught"),
            result.error().path == "gas_temperature" ? tr("The gas is no warmer than the air.") : tr("Nothing can be told of it."));
        return;
    }
    const Json& values = result->values;
    judgeFlow(values);
    fillLines(values);
    noteWarnings(result->warnings);
    if (valueOf("liner") > 0 && values.find("liner_gap_m") == nullptr) {
        note(tr("The liner does not go into this vessel."));
    }
    note(tr("Cooling of 7.4 W/m²K and losses of 4 are from memory: single-wall steel, a firebox, the way out."));
    note(tr("Steel grows by EN 1993-1-2, from 20 °C: leave one stand free to slide."));
    const auto how = view() == QLatin1String("bore")             ? print::DraughtView::Diameter
        : view() == QLatin1String("held") && valueOf("held") > 0 ? print::DraughtView::Held
                                                                 : print::DraughtView::Height;
    if (view() == QLatin1String("held") && !(valueOf("held") > 0)) {
        note(tr("Set what the fire gives under Held to; until then the stack draws freely."));
    }
    paint([result = std::move(*result), how, units = subject().reading.units](const Canvas& canvas) {
        print::paintDraught(canvas.painter, result, how, {canvas.palette, QRectF(QPointF(0, 0), canvas.size), canvas.u, units});
    });
}

void DraughtPage::judgeFlow(const Json& values)
{
    constexpr double kRange = 0.30; // of the estimate
    if (valueOf("held") > 0) {
        const double left = numberOf(values, "available_Pa");
        //: what is left of a draught after its losses; Pa
        judge(left > 0 ? report::Signal::Notice : report::Signal::Caution, tr("%1 Pa left").arg(left, 0, 'f', 1),
            left > 0 ? tr("Of the draught, at %1, without wind.").arg(flow(valueOf("held")))
                     : tr("The losses exceed the draught: so much does not flow."));
        return;
    }
    const double drawn = numberOf(values, "mass_flow_kg_s");
    //: the honest range of an estimate; two flows
    judge(report::Signal::Notice, flow(drawn), tr("%1 to %2, without wind.").arg(flow(drawn * (1 - kRange)), flow(drawn * (1 + kRange))));
}

void DraughtPage::fillLines(const Json& values)
{
    //: pressure of a stack; Pa
    line(tr("It pulls"), tr("%1 Pa").arg(numberOf(values, "draught_Pa"), 0, 'f', 1));
    const double celsius = numberOf(values, "exit_temperature_K") - 273.15;
    line(tr("Gas at the top"), us() ? tr("%1 °F").arg(std::lround(celsius * 1.8 + 32)) : tr("%1 °C").arg(std::lround(celsius)));
    //: %1: the narrowest place on the gas's way
    line(tr("Narrowest: %1").arg(QString::fromStdString(std::string(values.textOf("smallest")))),
        print::openingWords(numberOf(values, "smallest_m2"), subject().reading.units));
    if (const double gap = numberOf(values, "liner_gap_m"); !std::isnan(gap)) {
        //: between a liner and the shell, all round
        line(tr("Liner gap"), tape(gap));
    }
    if (const double grows = numberOf(values, "expansion_m"); !std::isnan(grows)) {
        line(tr("Shell grows"), us() ? tr("%1 in").arg(grows / kInch, 0, 'f', 3) : tr("%1 mm").arg(grows * 1000, 0, 'f', 1));
    }
}

} // namespace brimful::tablet
