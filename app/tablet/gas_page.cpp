#include "app/tablet/gas_page.h"

#include "app/tablet/gas_drawing.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace brimful::tablet {

using canon::Json;

namespace {

constexpr std::array kGas{0.5, 1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 7.5, 10.0, 15.0, 20.0, 30.0, 50.0, 75.0, 100.0}; // percent
constexpr std::array kLitres{50.0, 100.0, 200.0, 300.0, 500.0, 1000.0, 2000.0, 3000.0, 5000.0, 10000.0}; // a minute
constexpr std::array kCubicFeet{2.0, 4.0, 7.0, 10.0, 20.0, 35.0, 70.0, 100.0, 200.0, 350.0}; // a minute
constexpr std::array kMixing{0.1, 0.15, 0.25, 0.5, 1.0}; // share of the flow that mixes: 0.25 is a factor of 4 that divides
constexpr std::array kResidue{0.0, 1.0, 2.0, 5.0, 10.0, 20.0, 30.0, 60.0, 120.0, 300.0}; // litres of vapour an hour
constexpr double kAirOxygen = 20.95; // percent

template <class List> std::vector<double> allOf(const List& list) { return {list.begin(), list.end()}; }

QString minutes(double seconds) { return QString::number(std::lround(seconds / 60.0)); }

// About forty steps from the start to the end of the picture.
double stepFor(double span_s)
{
    for (const double step : {1.0, 2.0, 5.0, 10.0, 15.0, 30.0, 60.0, 120.0, 240.0}) {
        if (span_s / 60.0 / step <= 45.0) {
            return step;
        }
    }
    return 480.0;
}

} // namespace

void GasPage::open()
{
    m_nitrogen_first = false;
    const bool us = subject().reading.units == text::Units::Us;
    add({"gas", tr("Gas"), allOf(kGas), [](double value) { return tr("%1 %").arg(value); }, kGas.size() - 1});
    //: what is inside beside the gas: nitrogen or air
    add({"rest", tr("Rest"), {0, 1}, [](double value) { return value > 0 ? tr("air") : tr("nitrogen"); }});
    constexpr std::size_t kThreeHundred = 3; // of the blowers
    add({"blower", tr("Blower"), us ? allOf(kCubicFeet) : allOf(kLitres),
        [us](double value) { return us ? tr("%1 cfm").arg(value) : tr("%1 L/min").arg(value); }, kThreeHundred});
    constexpr std::size_t kQuarter = 2; // of the mixings
    add({"mixing", tr("Mixing"), allOf(kMixing), [](double value) { return QString::number(value); }, kQuarter});
    add({"residue", tr("Residue"), allOf(kResidue), [](double value) { return value > 0 ? tr("%1 L/h").arg(value) : tr("none"); }});
    constexpr int kLetters = 8; // room for a long time
    add({"minute", tr("Minute"), {0}, [](double value) { return QString::number(std::lround(value)); }, 0, kLetters});
    setChosen("minute");
    addView("path", tr("Path"));
    addView("time", tr("Time"));
}

void GasPage::flipped(const QString& key) { m_nitrogen_first = key == QLatin1String("nitrogen"); }

std::string GasPage::blown() const { return measure(valueOf("blower"), subject().reading.units == text::Units::Us ? "ft3/min" : "L/min"); }

Json GasPage::asked() const
{
    const double fuel = valueOf("gas");
    const double oxygen = valueOf("rest") > 0 ? kAirOxygen * (1.0 - fuel / 100.0) : 0.0;
    Json start = Json::object();
    start.set("fuel", measure(fuel, "%")).set("oxygen", measure(oxygen, "%"));
    Json all = Json::object();
    all.set("substance", substance())
        .set("volume", measure(subject().view->shell.capacity_m3, "m3"))
        .set("start", std::move(start))
        .set("before", m_nitrogen_first ? "nitrogen" : "nothing")
        .set("flow", blown())
        .set("mixing_efficiency", Json::real(valueOf("mixing")))
        .set("source", measure(valueOf("residue") / 60.0, "L/min"))
        .set("moment", measure(valueOf("minute"), "min"))
        .set("picture", view() == QLatin1String("time") ? "time" : "triangle");
    return all;
}

// Another span has other steps: the moment stays as near as it can.
void GasPage::setMinutes(double span_s)
{
    FigureInput& minute = change("minute");
    const double before = minute.value();
    const double by = stepFor(span_s);
    minute.values = stepped(0.0, std::floor(span_s / 60.0 / by) * by, by);
    minute.setNearest(before);
    handles("minute", static_cast<double>(minute.values.size()) - 1);
}

void GasPage::compute()
{
    Row air;
    air.key = QStringLiteral("air");
    air.title = tr("Air");
    //: air, and nothing before it
    air.line = tr("alone");
    air.chosen = !m_nitrogen_first;
    Row nitrogen;
    nitrogen.key = QStringLiteral("nitrogen");
    nitrogen.title = tr("Nitrogen");
    //: nitrogen first, after it air
    nitrogen.line = tr("then air");
    nitrogen.chosen = m_nitrogen_first;
    setSwitches({air, nitrogen});

    const bool measured = subject().view->shell.capacity_m3 > 0.0;
    const auto ask = [&] { return figure::compute(*figure::byName("gas-to-air"), asked(), subject().reference); };
    auto result = measured ? ask() : tl::unexpected(figure::Error{"volume", figure::Code::Missing, {}, {}});
    if (result) {
        const double before = valueOf("minute");
        setMinutes(numberOf(result->values, "span_s"));
        if (valueOf("minute") != before) {
            result = ask();
        }
    }
    if (!result) {
        judge(report::Signal::Danger, tr("not known"), measured ? QString() : tr("Measure it first."));
        note(text::figureError(result.error()));
        return;
    }
    judgeWay(result->values);
    tell(result->values, result->warnings);
    fillLines(result->values);
    paint([result = std::move(*result), over_time = view() == QLatin1String("time"), gas = gasName()](const Canvas& canvas) {
        if (over_time) {
            paintGasOverTime(canvas, result);
        } else {
            paintGasTriangle(canvas, result, gas);
        }
    });
}

void GasPage::judgeWay(const Json& values)
{
    const double from = numberOf(values, "burns_from_s");
    const double to = numberOf(values, "burns_to_s");
    if (flagOf(values, "crosses") && std::isnan(from)) {
        //: the way from gas to air leads through what burns
        judge(report::Signal::Danger, tr("crosses"), tr("Taken as crossing: too little is known of it."));
    } else if (flagOf(values, "crosses") && std::isnan(to)) {
        judge(report::Signal::Danger, tr("no end"), tr("Crosses: burns if lit from minute %1 on.").arg(minutes(from)));
    } else if (flagOf(values, "crosses")) {
        judge(report::Signal::Danger, tr("%1 min").arg(minutes(to - from)),
            tr("Crosses: burns if lit from minute %1 to %2.").arg(minutes(from), minutes(to)));
    } else if (m_nitrogen_first) {
        judge(report::Signal::Caution, tr("no crossing"), tr("Evenly mixed. Nothing to breathe inside."));
    } else {
        judge(report::Signal::Notice, tr("no crossing"), tr("On the lowest published limits, evenly mixed."));
    }
}

void GasPage::tell(const Json& values, const std::vector<std::string>& warnings)
{
    qsizetype said = 0;
    const auto say = [&](const QString& words) {
        note(words);
        ++said;
    };
    noteLimits();
    said += notes().size();
    if (!std::isnan(numberOf(values, "nitrogen_s"))) {
        say(tr("Nitrogen to %1 % is a proposal.").arg(percentDigits(numberOf(values, "end_point_percent"))));
    }
    const bool known = values.find("burns_now") != nullptr; // what burns is known as an area
    for (const std::string& word : warnings) { // the plan is said always, what stays flammable by the verdict, never by a line
        if (word != "planning-estimate-test-decides" && word != "stays-flammable"
            && !(word == "target-never-reached" && (!known || warns(warnings, "end-point-never-reached")))) {
            say(text::warning(word));
        }
    }
    if (said == 1 && flagOf(values, "crosses")) { // common practice, no source
        say(tr("Blow in; never suck gas through a motor."));
    }
}

void GasPage::fillLines(const Json& values)
{
    linesOfCrossing(values);
    //: at the minute that is stepped to
    line(tr("Then"), mixture(values));
    if (const double nitrogen = numberOf(values, "nitrogen_s"); !std::isnan(nitrogen)) {
        //: how far nitrogen must bring the gas down, and how long it takes
        line(tr("Nitrogen to %1 %").arg(percentDigits(numberOf(values, "end_point_percent"))), tr("%1 min").arg(minutes(nitrogen)));
    }
    if (const double target = numberOf(values, "target_percent"); !std::isnan(target)) {
        const double time = numberOf(values, "time_s");
        line(tr("To 1 %LEL"), std::isnan(time) ? tr("never") : tr("%1 min").arg(minutes(time)));
    }
}

} // namespace brimful::tablet
