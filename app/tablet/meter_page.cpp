#include "app/tablet/meter_page.h"

#include "app/tablet/meter_drawing.h"
#include "core/gas/meter.h"
#include "core/quantity/parse.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

namespace brimful::tablet {

using canon::Json;
using quantity::Dimension;

namespace {

constexpr double kFoot = 0.3048; // m
constexpr int kLong = 12; // letters
constexpr double kHose = 3; // m, where the register does not say
constexpr double kNotRead = -1; // oxygen, percent
constexpr std::array kOfTheMeter{"sensor", "calibrated", "factor", "limit"}; // inputs that the register knows

double typed(const std::string& text, Dimension dimension, double otherwise)
{
    const auto parsed = quantity::parse(text, dimension);
    return parsed ? parsed->si : otherwise;
}

// Why a reading does not count, in two short lines; the notes say it in full.
QString shortly(const std::string& doubt)
{
    const std::map<std::string, QString> kWords{
        {"sensor-starved", MeterPage::tr("Too little oxygen for its sensor.")},
        {"heavy-ends", MeterPage::tr("Oil hardly shows cold: look, wipe, first heat.")},
        {"no-response-factor", MeterPage::tr("Set on another gas, and no factor known.")},
        {"over-range", MeterPage::tr("Over range: have it checked.")},
        {"sensor-poison", MeterPage::tr("This gas dulls its sensor.")},
        {"limit-basis-too-low", MeterPage::tr("No published limit is that low.")},
        {"held-too-short", MeterPage::tr("Read too soon: hose and sensor need longer.")},
    };
    const auto found = kWords.find(doubt);
    return found == kWords.end() ? text::warning(doubt) : found->second;
}

std::string attribute(const FigureMeter& meter, std::string_view key) { return std::string(meter.attributes.textOf(key)); }

} // namespace

void MeterPage::open()
{
    constexpr int kMiddling = 10;
    add({"shown", tr("Shown"), stepped(0, 100, 1), [](double value) { return tr("%1 %LEL").arg(value); }, 0, kLong}).setNearest(10);
    add({"oxygen", tr("Oxygen"), {kNotRead},
        //: oxygen was not measured
        [](double value) { return value < 0 ? tr("not read") : tr("%1 %").arg(value, 0, 'f', 1); }});
    FigureInput& oxygen = change("oxygen");
    const std::vector<double> shares = stepped(0, 25, 0.1);
    oxygen.values.insert(oxygen.values.end(), shares.begin(), shares.end());
    oxygen.setNearest(20.9);
    constexpr int kSecondsLong = 9;
    //: for how long the probe has been held at the place
    add({"held", tr("Held for"), stepped(0, 300, 5), [](double value) { return tr("%1 s").arg(value); }, 0, kSecondsLong}).setNearest(120);
    //: a meter's response factor, from its maker's sheet
    add({"factor", tr("Factor"), {0}, [](double value) { return value > 0 ? QString::number(value, 'g', 3) : tr("none"); }});
    const std::vector<double> factors = stepped(0.5, 4, 0.05);
    change("factor").values.insert(change("factor").values.end(), factors.begin(), factors.end());
    addLimits();
    addGases();
    const std::vector<double> metres = us() ? stepped(0, 60, 2) : stepped(0, 20, 0.5);
    //: the sampling hose
    add({"hose", tr("Hose"), metres,
            [this](double value) { return us() ? tr("%1 ft").arg(value, 0, 'g', 3) : tr("%1 m").arg(value, 0, 'g', 3); }, 0, kMiddling})
        .setNearest(us() ? kHose / kFoot : kHose);
    //: seconds until a meter shows nine tenths of what is there
    add({"response", tr("Meter"), stepped(15, 120, 15), [](double value) { return tr("%1 s").arg(value); }}).setNearest(60);
    //: the kind of sensor for gas in a meter
    add({"sensor", tr("Sensor"), {0, 1}, [](double value) { return value > 0 ? tr("infrared") : tr("catalytic"); }});
    setChosen("shown");
    handles("shown", 100, "oxygen", 250);
    addView("scales", tr("Scales"));
    m_meter = 0;
    takeMeter(m_meter);
}

// What the meter's 100 %LEL is, of the gas that was in it: published limits among them.
void MeterPage::addLimits()
{
    add({"limit", tr("100 %LEL is"), {0},
        //: which limit a meter was set up with was not said
        [](double value) { return value > 0 ? tr("%1 %").arg(value, 0, 'g', 3) : tr("not said"); }});
    FigureInput& limit = change("limit");
    const std::vector<double> shares = stepped(0.5, 6, 0.1);
    limit.values.insert(limit.values.end(), shares.begin(), shares.end());
    const gas::SubstanceTable* const table = subject().reference.substances;
    if (const gas::Substance* const held = table == nullptr ? nullptr : table->find(substance()); held != nullptr) {
        for (const auto& range : {held->nfpa, held->iec}) {
            if (range) {
                limit.setOwn(range->lower * 100);
            }
        }
    }
    limit.at = 0;
}

void MeterPage::addGases()
{
    m_gases = {"", "methane", "propane", "n-butane", "pentane", "hydrogen"};
    QStringList names{tr("not said"), tr("methane"), tr("propane"), tr("butane"), tr("pentane"), tr("hydrogen")};
    for (const FigureMeter& meter : subject().meters) {
        const std::string gas = attribute(meter, "calibrated_on");
        if (std::ranges::find(m_gases, gas) == m_gases.end()) {
            m_gases.push_back(gas);
            names << QString::fromStdString(gas);
        }
    }
    //: the gas a meter was calibrated on
    add({"calibrated", tr("Set on"), stepped(0, static_cast<double>(m_gases.size()) - 1, 1),
        [names](double value) { return names.value(static_cast<int>(value)); }, 0, kLong});
}

std::vector<double> MeterPage::set() const
{
    std::vector<double> out;
    out.reserve(kOfTheMeter.size());
    for (const char* key : kOfTheMeter) {
        out.push_back(valueOf(key));
    }
    return out;
}

void MeterPage::takeMeter(std::size_t index)
{
    m_meter = index;
    if (index < subject().meters.size()) {
        const FigureMeter& meter = subject().meters[index];
        const auto gas = std::ranges::find(m_gases, attribute(meter, "calibrated_on"));
        change("sensor").setNearest(attribute(meter, "sensor") == "infrared" ? 1 : 0);
        change("calibrated").setNearest(static_cast<double>(gas - m_gases.begin()));
        change("factor").setOwn(typed(attribute(meter, "response_factor"), Dimension::Number, 0));
        change("limit").setOwn(typed(attribute(meter, "limit_basis"), Dimension::VolumeShare, 0) * 100);
        const double hose = typed(attribute(meter, "hose"), Dimension::Length, kHose);
        change("hose").setOwn(us() ? hose / kFoot : hose);
    }
    m_as_registered = set();
}

void MeterPage::flipped(const QString& key)
{
    for (std::size_t i = 0; i < subject().meters.size(); ++i) {
        if (subject().meters[i].name == key) {
            takeMeter(i);
        }
    }
}

// The one that is looked at is drawn broken when it is not as the register has it, or does not count.
std::vector<Row> MeterPage::meterRows() const
{
    std::vector<Row> rows;
    for (std::size_t i = 0; i < subject().meters.size(); ++i) {
        const FigureMeter& meter = subject().meters[i];
        const bool changed = i == m_meter && set() != m_as_registered;
        Row row;
        row.key = row.title = meter.name;
        //: of a meter: not as the yard's register has it
        row.line = changed ? tr("changed here") : meter.standing;
        row.solid = meter.counts && !changed;
        row.chosen = i == m_meter;
        rows.push_back(std::move(row));
    }
    return rows;
}

Json MeterPage::asked() const
{
    Json hose = Json::object();
    hose.set("length", measure(valueOf("hose"), us() ? "ft" : "m"));
    Json all = Json::object();
    all.set("display", measure(valueOf("shown"), "%LEL"))
        .set("sensor", valueOf("sensor") > 0 ? "infrared" : "catalytic")
        .set("substance", substance())
        .set("response", measure(valueOf("response"), "s"))
        .set("held", measure(valueOf("held"), "s"));
    if (valueOf("hose") > 0) {
        all.set("hose", std::move(hose));
    }
    if (valueOf("oxygen") >= 0) {
        all.set("oxygen", measure(valueOf("oxygen"), "%"));
    }
    if (valueOf("factor") > 0) {
        all.set("response_factor", Json::real(valueOf("factor")));
    }
    if (valueOf("limit") > 0) {
        all.set("limit_basis", measure(valueOf("limit"), "%"));
    }
    if (const std::string& gas = m_gases.at(static_cast<std::size_t>(valueOf("calibrated"))); !gas.empty()) {
        all.set("calibrated_on", gas);
    }
    return all;
}

void MeterPage::compute()
{
    setSwitches(meterRows());
    const auto result = ask("meter", asked());
    if (!result) {
        judge(report::Signal::Danger, tr("not known"), {});
        note(text::figureError(result.error()));
        return;
    }
    judgeIt(*result);
    tell(*result);
    fillLines(result->values);
    draw(result->values);
}

// What can't be believed never comes out as a number; the number stands among the lines.
void MeterPage::judgeIt(const figure::Result& result)
{
    const Json& values = result.values;
    constexpr double kLeave = 10; // %LEL: NIOSH calls that immediately dangerous for propane and butane (found)
    constexpr double kWarn = 5; // %LEL: proposal
    const double means = numberOf(values, "percent_of_lowest_limit");
    const QString number = tr("%1 %LEL").arg(percentDigits(means));
    if (!std::isnan(means) && means >= kLeave) { // believed or not, it takes away
        judge(report::Signal::Danger, number, tr("A tenth of what burns. Everybody leaves."));
    } else if (!flagOf(values, "believable")) {
        judge(report::Signal::Warning, tr("does not count"), shortly(std::string(values.find("why")->items.front().text)));
    } else if (means >= kWarn) {
        judge(report::Signal::Warning, number, tr("There is gas: find where it comes from."));
    } else {
        //: what a meter's number means
        say(tr("Means"), number, tr("One place, one moment. Every place is read."));
    }
}

void MeterPage::tell(const figure::Result& result)
{
    for (const Json& doubt : result.values.find("why")->items) {
        note(text::warning(std::string(doubt.text)));
    }
    if (!subject().meters.empty() && !subject().meters.at(m_meter).counts) {
        //: %1 a meter's name, %2 why it does not count
        note(tr("%1: %2.").arg(subject().meters.at(m_meter).name, subject().meters.at(m_meter).standing));
    }
    if (!subject().meters.empty() && substance() != "propane") {
        note(tr("The register holds a meter's factor and limit for propane: for this gas take its maker's sheet."));
    }
    if (const double hidden = numberOf(result.values, "hidden_gas_percent"); hidden > 0) {
        //: %1: a share of gas
        note(tr("Good oxygen proves nothing: this much of it leaves room for %1 % of other gas.").arg(percentDigits(hidden)));
    }
    note(tr("Richer than what burns, a catalytic meter swings up and falls back to zero (memory)."));
    note(tr("The factor is this meter's own: two makers' sheets give propane 1.62 and 1.75 on methane (found)."));
    note(tr("Silicone, sulphur, chlorine and acids dull a catalytic sensor: bump it before the day's use (makers' notes, found)."));
    note(tr("Oxygen from 19.5 %: 29 CFR 1910.146; to 23 %: Ontario Reg. 632/05 (found). Below 10 % no catalytic sensor (makers, found)."));
    note(tr("From 10 %LEL of propane or butane NIOSH calls it dangerous at once (found); 5 %LEL as a warning is a proposal."));
    noteLimits();
    noteWarnings(result.warnings);
    note(tr("The wait is twice the hose's delay and the meter's own time (proposal). Fresh air first."));
}

void MeterPage::fillLines(const Json& values)
{
    line(tr("Was in it"), gasName());
    if (const double own = numberOf(values, "percent_of_limit"); !std::isnan(own)) {
        //: a display times its response factor
        line(tr("With its factor"), tr("%1 %LEL").arg(percentDigits(own)));
        //: of the lowest published limit
        line(tr("Of the lowest limit"), tr("%1 %LEL").arg(percentDigits(numberOf(values, "percent_of_lowest_limit"))));
    }
    if (const double share = numberOf(values, "gas_percent"); !std::isnan(share)) {
        //: a share of gas by volume: percent, and parts per million
        line(tr("Gas"), tr("%1 %, %2 ppm").arg(percentDigits(share)).arg(std::lround(numberOf(values, "gas_ppm"))));
    }
    lineOf(tr("Wait at each"), numberOf(values, "wait_s"), Dimension::Duration);
}

void MeterPage::draw(const Json& values)
{
    MeterSketch sketch;
    sketch.shown = valueOf("shown");
    if (const double means = numberOf(values, "percent_of_lowest_limit"); !std::isnan(means)) {
        sketch.means = means;
    }
    sketch.counts = flagOf(values, "believable");
    sketch.infrared = valueOf("sensor") > 0;
    if (valueOf("oxygen") >= 0) {
        sketch.oxygen = valueOf("oxygen");
    }
    sketch.meter_s = valueOf("response");
    sketch.hose_s = numberOf(values, "wait_s") - sketch.meter_s;
    sketch.held_s = valueOf("held");
    paint([sketch](const Canvas& canvas) { paintMeter(canvas, sketch); });
}

} // namespace brimful::tablet
