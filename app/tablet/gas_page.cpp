#include "app/tablet/gas_page.h"

#include "core/gas/substances.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace brimful::tablet {

using canon::Json;

namespace {

constexpr std::array kGas{100.0, 75.0, 50.0, 30.0, 20.0, 15.0, 10.0, 7.5, 5.0, 4.0, 3.0, 2.5, 2.0, 1.5, 1.0, 0.5}; // percent
constexpr std::array kLitres{50.0, 100.0, 200.0, 300.0, 500.0, 1000.0, 2000.0, 3000.0, 5000.0, 10000.0}; // a minute
constexpr std::array kCubicFeet{2.0, 4.0, 7.0, 10.0, 20.0, 35.0, 70.0, 100.0, 200.0, 350.0}; // a minute
constexpr std::array kMixing{0.1, 0.15, 0.25, 0.5, 1.0}; // share of the flow that mixes: 0.25 is a factor of 4 that divides
constexpr std::array kResidue{0.0, 1.0, 2.0, 5.0, 10.0, 20.0, 30.0, 60.0, 120.0, 300.0}; // litres of vapour an hour
constexpr double kAirOxygen = 20.95; // percent

template <class List> double pick(const List& list, int step) { return list.at(static_cast<std::size_t>(step)); }

double numberOf(const Json& values, std::string_view key)
{
    const Json* found = values.find(key);
    return found == nullptr ? std::nan("") : found->number;
}

bool flagOf(const Json& values, std::string_view key)
{
    const Json* found = values.find(key);
    return found != nullptr && found->integer != 0;
}

bool has(const std::vector<std::string>& warnings, std::string_view word) { return std::ranges::find(warnings, word) != warnings.end(); }

QString minutes(double seconds) { return QString::number(std::lround(seconds / 60.0)); }

// Three digits that count, two below 1 %, and no more than a hundredth of a percent.
QString shown(double percent)
{
    constexpr double kLeast = 0.01;
    return percent > 0.0 && percent < kLeast ? QStringLiteral("<0.01") : QString::number(percent, 'g', percent < 1.0 ? 2 : 3);
}

std::string quantityText(double value, const char* unit) { return QString::number(value, 'f', 6).toStdString() + " " + unit; }

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

void GasPage::show(const report::VesselView& vessel, const QString& gas, const figure::Reference& reference, const text::Reading& reading)
{
    m_reference = reference;
    m_reading = reading;
    m_capacity_m3 = vessel.shell.capacity_m3;
    const bool known = reference.substances != nullptr && reference.substances->find(vessel.contents) != nullptr;
    m_substance = known ? vessel.contents : "unknown";
    m_picture.gas = known ? gas : tr("unknown gas");
    m_over_time = false;
    m_nitrogen_first = false;
    m_chosen = Input::Minute;
    constexpr int kThreeHundred = 3; // of the blowers
    constexpr int kQuarter = 2; // of the mixings
    m_steps = {0, 0, kThreeHundred, kQuarter, 0, 0};
    compute();
}

QString GasPage::nameOf(Input input)
{
    switch (input) {
    case Input::Gas:
        return tr("Gas");
    case Input::Rest:
        //: what is inside beside the gas: nitrogen or air
        return tr("Rest");
    case Input::Blower:
        return tr("Blower");
    case Input::Mixing:
        return tr("Mixing");
    case Input::Residue:
        return tr("Residue");
    case Input::Minute:
        return tr("Minute");
    }
    return {};
}

std::string GasPage::blown() const
{
    const int at = stepOf(Input::Blower);
    return m_reading.units == text::Units::Us ? quantityText(pick(kCubicFeet, at), "ft3/min") : quantityText(pick(kLitres, at), "L/min");
}

QString GasPage::valueOf(Input input) const
{
    const int at = stepOf(input);
    switch (input) {
    case Input::Gas:
        return tr("%1 %").arg(pick(kGas, at));
    case Input::Rest:
        return at == 0 ? tr("nitrogen") : tr("air");
    case Input::Blower:
        return m_reading.units == text::Units::Us ? tr("%1 cfm").arg(pick(kCubicFeet, at)) : tr("%1 L/min").arg(pick(kLitres, at));
    case Input::Mixing:
        return QString::number(pick(kMixing, at));
    case Input::Residue:
        return at == 0 ? tr("none") : tr("%1 L/h").arg(pick(kResidue, at));
    case Input::Minute:
        return QString::number(std::lround(minute()));
    }
    return {};
}

int GasPage::most(Input input) const
{
    switch (input) {
    case Input::Gas:
        return static_cast<int>(kGas.size()) - 1;
    case Input::Rest:
        return 1;
    case Input::Blower:
        return static_cast<int>(kLitres.size()) - 1;
    case Input::Mixing:
        return static_cast<int>(kMixing.size()) - 1;
    case Input::Residue:
        return static_cast<int>(kResidue.size()) - 1;
    case Input::Minute:
        break;
    }
    const double span_s = m_picture.result ? numberOf(m_picture.result->values, "span_s") : 0.0;
    return std::isnan(span_s) ? 0 : static_cast<int>(span_s / 60.0 / m_minutes_a_step);
}

QString GasPage::chosen() const { return nameOf(m_chosen); }

void GasPage::choose(const QString& input)
{
    m_chosen = static_cast<Input>(std::clamp(input.toInt(), 0, static_cast<int>(kInputs) - 1));
    fillInputs();
    Q_EMIT changed();
}

void GasPage::step(int by)
{
    // The list of gas falls: more is a step back.
    const int up = m_chosen == Input::Gas ? -by : by;
    stepOf(m_chosen) = std::clamp(stepOf(m_chosen) + up, 0, most(m_chosen));
    compute();
}

void GasPage::setOverTime(bool over_time)
{
    m_over_time = over_time;
    compute();
}

void GasPage::setNitrogenFirst(bool nitrogen_first)
{
    m_nitrogen_first = nitrogen_first;
    compute();
}

Json GasPage::asked() const
{
    const double fuel = pick(kGas, stepOf(Input::Gas));
    const double oxygen = stepOf(Input::Rest) == 0 ? 0.0 : kAirOxygen * (1.0 - fuel / 100.0);
    Json start = Json::object();
    start.set("fuel", quantityText(fuel, "%")).set("oxygen", quantityText(oxygen, "%"));
    Json all = Json::object();
    all.set("substance", m_substance)
        .set("volume", quantityText(m_capacity_m3, "m3"))
        .set("start", std::move(start))
        .set("before", m_nitrogen_first ? "nitrogen" : "nothing")
        .set("flow", blown())
        .set("mixing_efficiency", Json::real(pick(kMixing, stepOf(Input::Mixing))))
        .set("source", quantityText(pick(kResidue, stepOf(Input::Residue)) / 60.0, "L/min"))
        .set("moment", quantityText(minute(), "min"))
        .set("picture", m_over_time ? "time" : "triangle");
    return all;
}

void GasPage::compute()
{
    const auto ask = [&] { return figure::compute(*figure::byName("gas-to-air"), asked(), m_reference); };
    m_picture.result.reset();
    m_picture.over_time = m_over_time;
    m_message.clear();
    auto result = m_capacity_m3 > 0.0 ? ask() : tl::unexpected(figure::Error{"volume", figure::Code::Missing, {}, {}});
    if (result) { // another span has other steps: the moment stays as near as it can
        const double before = minute();
        m_minutes_a_step = stepFor(numberOf(result->values, "span_s"));
        const int last = static_cast<int>(numberOf(result->values, "span_s") / 60.0 / m_minutes_a_step);
        stepOf(Input::Minute) = std::clamp(static_cast<int>(std::lround(before / m_minutes_a_step)), 0, last);
        result = ask();
    }
    if (!result) {
        signal(report::Signal::Danger, tr("not known"), m_capacity_m3 > 0.0 ? text::figureError(result.error()) : tr("Measure it first."));
        m_lines.set({});
    } else {
        m_picture.result = std::make_shared<const figure::Result>(std::move(*result));
        judge(m_picture.result->values, m_picture.result->warnings);
        fillLines(m_picture.result->values);
    }
    fillInputs();
    Q_EMIT changed();
}

void GasPage::signal(report::Signal signal, const QString& verdict, const QString& because)
{
    switch (signal) {
    case report::Signal::Danger:
        m_colour = QStringLiteral("danger");
        break;
    case report::Signal::Warning:
        m_colour = QStringLiteral("warning");
        break;
    case report::Signal::Caution:
        m_colour = QStringLiteral("caution");
        break;
    case report::Signal::Notice:
        m_colour = QStringLiteral("notice");
        break;
    }
    m_word = text::signalWord(signal);
    m_verdict = verdict;
    m_because = because;
}

void GasPage::judge(const Json& values, const std::vector<std::string>& warnings)
{
    const double from = numberOf(values, "burns_from_s");
    const double to = numberOf(values, "burns_to_s");
    if (flagOf(values, "crosses") && std::isnan(from)) {
        //: the way from gas to air leads through what burns
        signal(report::Signal::Danger, tr("crosses"), tr("Taken as crossing: too little is known of it."));
    } else if (flagOf(values, "crosses") && std::isnan(to)) {
        signal(report::Signal::Danger, tr("no end"), tr("Crosses: burns if lit from minute %1 on.").arg(minutes(from)));
    } else if (flagOf(values, "crosses")) {
        signal(report::Signal::Danger, tr("%1 min").arg(minutes(to - from)),
            tr("Crosses: burns if lit from minute %1 to %2.").arg(minutes(from), minutes(to)));
    } else if (m_nitrogen_first) {
        signal(report::Signal::Caution, tr("no crossing"), tr("Evenly mixed. Nothing to breathe inside."));
    } else {
        signal(report::Signal::Notice, tr("no crossing"), tr("On the lowest published limits, evenly mixed."));
    }
    QStringList said;
    const gas::Substance* substance = m_reference.substances->find(m_substance);
    if (const auto range = substance == nullptr ? std::nullopt : substance->widestRange()) {
        //: %1 and %2: the widest limits of the gas in air, in percent; two documents; found: the numbers were seen there
        said << tr("Limits %1 to %2 %: NFPA 497, IEC 60079-20-1 (found).").arg(shown(range->lower * 100.0), shown(range->upper * 100.0));
    }
    if (!std::isnan(numberOf(values, "nitrogen_s"))) {
        said << tr("Nitrogen to %1 % is a proposal.").arg(shown(numberOf(values, "end_point_percent")));
    }
    const bool known = values.find("burns_now") != nullptr; // what burns is known as an area
    for (const std::string& word : warnings) { // the plan is said always, what stays flammable by the verdict, never by a line
        if (word != "planning-estimate-test-decides" && word != "stays-flammable"
            && !(word == "target-never-reached" && (!known || has(warnings, "end-point-never-reached")))) {
            said << text::warning(word);
        }
    }
    if (said.size() == 1 && flagOf(values, "crosses")) { // common practice, no source
        said << tr("Blow in; never suck gas through a motor.");
    }
    m_message = said.join(QLatin1Char(' '));
}

void GasPage::fillLines(const Json& values)
{
    std::vector<Row> rows;
    const auto add = [&](const QString& title, const QString& line) {
        Row row;
        row.key = title;
        row.title = title;
        row.line = line;
        rows.push_back(std::move(row));
    };
    //: a share of gas, and of oxygen
    const auto mixture = [](const Json& place) {
        return tr("%1 %, oxygen %2 %").arg(shown(numberOf(place, "fuel_percent")), shown(numberOf(place, "oxygen_percent")));
    };
    if (const Json* enters = values.find("enters")) {
        //: where the mixture begins to burn if lit
        add(tr("Enters"), mixture(*enters));
    }
    if (const Json* leaves = values.find("leaves")) {
        //: where it ceases to
        add(tr("Leaves"), mixture(*leaves));
    }
    //: at the minute that is stepped to
    add(tr("Then"), mixture(values));
    if (const double nitrogen = numberOf(values, "nitrogen_s"); !std::isnan(nitrogen)) {
        //: how far nitrogen must bring the gas down, and how long it takes
        add(tr("Nitrogen to %1 %").arg(shown(numberOf(values, "end_point_percent"))), tr("%1 min").arg(minutes(nitrogen)));
    }
    if (const double target = numberOf(values, "target_percent"); !std::isnan(target)) {
        const double time = numberOf(values, "time_s");
        add(tr("To 1 %LEL"), std::isnan(time) ? tr("never") : tr("%1 min").arg(minutes(time)));
    }
    m_lines.set(std::move(rows));
}

void GasPage::fillInputs()
{
    std::vector<Row> rows;
    for (std::size_t i = 0; i < kInputs; ++i) {
        const auto input = static_cast<Input>(i);
        Row row;
        row.key = QString::number(i);
        row.title = valueOf(input);
        row.line = nameOf(input);
        row.chosen = input == m_chosen;
        rows.push_back(std::move(row));
    }
    m_inputs.set(std::move(rows));
}

} // namespace brimful::tablet
