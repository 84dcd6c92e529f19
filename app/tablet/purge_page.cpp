#include "app/tablet/purge_page.h"

#include "app/tablet/gas_drawing.h"
#include "core/gas/airing.h"

#include <array>
#include <cmath>

namespace brimful::tablet {

using canon::Json;

namespace {

constexpr std::array kWays{"sweep", "siphon", "pressure", "vacuum"}; // as the figure calls them
constexpr std::array kFrom{1.0, 2.0, 3.0, 4.0, 5.0, 7.5, 10.0, 15.0, 20.0, 30.0, 50.0, 75.0, 100.0}; // percent
constexpr std::array kTo{0.25, 0.5, 1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 7.5, 10.0}; // percent
constexpr std::array kUnfilled{0.0, 0.1, 0.25, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0}; // percent
constexpr std::array kMixing{0.1, 0.15, 0.25, 0.5, 1.0}; // share of the flow that mixes
constexpr std::array kLitres{10.0, 20.0, 50.0, 100.0, 200.0, 300.0, 500.0}; // a minute
constexpr std::array kCubicFeet{0.5, 1.0, 2.0, 4.0, 7.0, 10.0, 20.0}; // a minute
constexpr std::array kCylinders_m3{1.0, 2.0, 5.0, 7.0, 10.0, 15.0}; // gas at one atmosphere
constexpr std::array kCylinders_ft3{20.0, 40.0, 80.0, 125.0, 200.0, 250.0, 300.0};
constexpr std::array kHigh{1.25, 1.5, 2.0, 3.0, 5.0, 8.0}; // bar, absolute
constexpr std::array kLow{0.05, 0.1, 0.2, 0.35, 0.5, 0.75}; // bar, absolute
constexpr double kCubicFoot = 0.028316846592; // m3
constexpr double kBar = 1e5; // Pa
constexpr double kPsi = 6894.757293168; // Pa
constexpr double kAirMolarMass = 0.0289647; // kg/mol

template <class List> std::vector<double> allOf(const List& list) { return {list.begin(), list.end()}; }

QString percent(double value) { return PurgePage::tr("%1 %").arg(percentDigits(value)); }

} // namespace

void PurgePage::open()
{
    const QStringList ways{tr("sweep"), tr("siphon"), tr("pressure"), tr("vacuum")};
    //: how nitrogen is put in: blown through, behind water that is let out, by pressure, by vacuum
    add({"way", tr("Way"), stepped(0, 3, 1), [ways](double value) { return ways.value(static_cast<int>(value)); }});
    const report::VesselView& view = *subject().view;
    constexpr int kLetters = 8;
    add({"from", tr("Gas"), allOf(kFrom), percent, kFrom.size() - 1, kLetters});
    //: how far down nitrogen shall bring the gas
    add({"to", tr("Down to"), allOf(kTo), percent}).setNearest(1.5);
    const gas::SubstanceTable* const table = subject().reference.substances;
    const gas::Substance* const held = table == nullptr ? nullptr : table->find(substance());
    if (const auto end_point = held == nullptr ? std::nullopt : gas::inertEndPoint(*held)) {
        change("to").setOwn(*end_point * 100);
    }
    add({"mixing", tr("Mixing"), allOf(kMixing), [](double value) { return QString::number(value); }, 2});
    //: the share of the vessel that the water does not reach
    add({"unfilled", tr("Not filled"), allOf(kUnfilled), percent}).setNearest(1);
    if (view.water.pocket_L && view.shell.capacity_m3 > 0) {
        // What is known of the pocket counts where it is more than what is taken without it: floats and tubes stay full too.
        const double pocket = std::round(*view.water.pocket_L / view.shell.capacity_m3 * 100) / 1000; // percent
        change("unfilled").setOwn(std::max(pocket, valueOf("unfilled")));
    }
    const auto pressure = [this](double bar) {
        //: absolute pressures
        return us() ? tr("%1 psia").arg(bar * kBar / kPsi, 0, 'f', bar < 1 ? 1 : 0) : tr("%1 bar abs").arg(bar);
    };
    //: the pressure up to which nitrogen is pumped in
    add({"high", tr("Pumped to"), allOf(kHigh), pressure, 2});
    //: the pressure down to which a vacuum is pulled
    add({"low", tr("Pulled to"), allOf(kLow), pressure, 4});
    add({"flow", tr("Flow"), us() ? allOf(kCubicFeet) : allOf(kLitres),
        [this](double value) { return us() ? tr("%1 cfm").arg(value) : tr("%1 L/min").arg(value); }, 3});
    add({"cylinder", tr("Cylinder"), us() ? allOf(kCylinders_ft3) : allOf(kCylinders_m3),
        [this](double value) { return us() ? tr("%1 ft3").arg(value) : tr("%1 m3").arg(value); }, us() ? 5U : 4U});
    setChosen("to");
    handles("to", static_cast<double>(change("to").values.size()), "from", kFrom.size());
    addView("path", tr("Path"));
}

// Each way asks for what it needs.
void PurgePage::askOfWay()
{
    setAsked("mixing", way() == Way::Sweep);
    setAsked("unfilled", way() == Way::Siphon);
    setAsked("high", way() == Way::Pressure);
    setAsked("low", way() == Way::Vacuum);
}

Json PurgePage::asked() const
{
    Json all = Json::object();
    all.set("method", kWays.at(static_cast<std::size_t>(valueOf("way"))))
        .set("volume", measure(subject().view->shell.capacity_m3, "m3"))
        .set("start", measure(valueOf("from"), "%"))
        .set("target", measure(valueOf("to"), "%"))
        .set("flow", measure(valueOf("flow"), us() ? "ft3/min" : "L/min"))
        .set("cylinder", measure(valueOf("cylinder") * (us() ? kCubicFoot : 1), "m3"))
        .set("substance", substance())
        .set("picture", "triangle");
    if (valueOf("from") >= 100) {
        all.set("oxygen", measure(0, "%")); // less gas than all of it: the rest is taken for air, the worse case
    }
    if (way() == Way::Sweep) {
        all.set("mixing_efficiency", Json::real(valueOf("mixing")));
    } else if (way() == Way::Siphon) {
        all.set("unfilled", measure(valueOf("unfilled"), "%"));
    } else if (way() == Way::Pressure) {
        all.set("high_pressure", measure(valueOf("high"), "bar"));
    } else {
        all.set("low_pressure", measure(valueOf("low"), "bar"));
    }
    return all;
}

void PurgePage::compute()
{
    askOfWay();
    if (!(subject().view->shell.capacity_m3 > 0)) {
        judge(report::Signal::Danger, tr("not known"), tr("Measure it first."));
        return;
    }
    auto result = ask("purge", asked());
    if (!result) {
        judge(report::Signal::Danger, tr("not known"), {});
        note(text::figureError(result.error()));
        return;
    }
    judgeIt(result->values);
    tell(*result);
    fillLines(result->values);
    paint([result = std::move(*result), gas = gasName()](const Canvas& canvas) { paintGasTriangle(canvas, result, gas); });
}

// What has no rating is worked out, to compare, and never comes out as something to do.
void PurgePage::judgeIt(const Json& values)
{
    if (way() == Way::Pressure || way() == Way::Vacuum) {
        //: a way of purging that this vessel has no proven rating for
        judge(report::Signal::Danger, tr("not on this one"), tr("No rating is proven. Only to compare."));
    } else if (flagOf(values, "opening_crosses") && values.find("enters") == nullptr) {
        judge(report::Signal::Danger, tr("crosses"), tr("Taken as crossing: too little is known of it."));
    } else if (flagOf(values, "opening_crosses")) {
        //: what nitrogen leaves burns, when air goes in
        judge(report::Signal::Danger, tr("crosses"), tr("Too much is left: opened to air, it burns if lit."));
    } else if (flagOf(values, "purging_crosses")) {
        judge(report::Signal::Danger, tr("crosses"), tr("It burns if lit while nitrogen goes in."));
    } else {
        judge(report::Signal::Caution, tr("no crossing"), tr("Evenly mixed. Nothing to breathe inside."));
    }
}

bool PurgePage::heavy() const
{
    const gas::SubstanceTable* const table = subject().reference.substances;
    const gas::Substance* const held = table == nullptr ? nullptr : table->find(substance());
    return held == nullptr || !(held->molar_mass_kg_mol > 0) || held->molar_mass_kg_mol >= kAirMolarMass;
}

void PurgePage::tell(const figure::Result& result)
{
    note(tr("Nitrogen smothers without a warning: no head at an opening, none in a pit beside it, and nobody alone."));
    if (way() == Way::Sweep) {
        note(heavy() ? tr("In on top at one end, out at the bottom of the other (memory). Through one hole nothing is swept.")
                     : tr("In at the bottom of one end, out on top of the other (memory). Through one hole nothing is swept."));
    } else if (way() == Way::Siphon) {
        note(tr("Nitrogen goes in as fast as the water goes out, or air does. 1 % not filled is a proposal."));
    }
    if (valueOf("from") < 100) {
        note(tr("What is not gas at the start is taken for air, the worse case."));
    }
    noteWarnings(result.warnings);
    if (const double end_point = numberOf(result.values, "end_point_percent"); !std::isnan(end_point)) {
        note(tr("Down to %1 % before air goes in is a proposal: half of what may meet air, at most 2 %.").arg(percentDigits(end_point)));
    }
    noteLimits();
    note(tr("While nitrogen stands in it a %LEL reading means nothing: the sensor has no oxygen."));
    note(tr("Never with oxygen (a gas supplier's guidance, found). Dead ends, dip tubes and floats are not swept."));
    note(tr("What a cylinder gives stands on its label. Mixing 0.1 to 0.5 is usual (memory). Ideal gas at 20 °C."));
}

QString PurgePage::gasVolume(double cubic_metres) const
{
    return us() ? tr("%1 ft3").arg(std::ceil(cubic_metres / kCubicFoot)) : tr("%1 m3").arg(cubic_metres, 0, 'f', 1);
}

void PurgePage::fillLines(const Json& values)
{
    line(tr("Nitrogen"), gasVolume(numberOf(values, "gas_m3")));
    //: how many cylinders of gas
    line(tr("Cylinders"), QString::number(numberOf(values, "cylinders"), 'f', 0));
    if (const double cycles = numberOf(values, "cycles"); !std::isnan(cycles)) {
        //: how often it is done
        line(tr("Times"), QString::number(cycles, 'f', 0));
    }
    line(tr("Time of flow"), text::span(static_cast<std::int64_t>(numberOf(values, "time_s") * 1000), subject().reading));
    //: the share of gas that is left
    line(tr("Left"), percent(numberOf(values, "reached_percent")));
    linesOfCrossing(values);
}

} // namespace brimful::tablet
