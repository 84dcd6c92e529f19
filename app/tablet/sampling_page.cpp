#include "app/tablet/sampling_page.h"

#include "app/tablet/section_drawing.h"

#include <algorithm>
#include <cmath>

namespace brimful::tablet {

using canon::Json;
using quantity::Dimension;

namespace {

constexpr double kFoot = 0.3048; // m
constexpr int kMostHollows = 8;

} // namespace

void SamplingPage::open()
{
    std::vector<double> hoses = us() ? stepped(2, 60, 2) : stepped(0.5, 20, 0.5);
    if (us()) {
        for (double& hose : hoses) {
            hose *= kFoot;
        }
    }
    add({"hose", tr("Hose"), hoses,
            [this](double value) { return us() ? tr("%1 ft").arg(std::lround(value / kFoot)) : tr("%1 m").arg(value); }})
        .setNearest(us() ? 10 * kFoot : 3);
    //: of the sampling hose
    add({"bore", tr("Bore"), {0, 0.003175, 0.00476, 0.00635},
        [](double value) { return value > 0 ? tr("%1 mm").arg(value * 1000, 0, 'f', 1) : tr("2 s/m"); }});
    add({"pump", tr("Pump"), stepped(0.25, 1.5, 0.25), [](double value) { return tr("%1 L/min").arg(value); }, 1});
    //: seconds until a meter shows nine tenths of what is there
    add({"response", tr("Meter"), stepped(15, 120, 15), [](double value) { return tr("%1 s").arg(value); }}).setNearest(60);
    //: number of hollow places: legs, pads, double heads
    add({"hollows", tr("Hollows"), stepped(0, kMostHollows, 1), [](double value) { return QString::number(value); }});
    //: number of the place in the round
    add({"place", tr("Place"), stepped(1, 30, 1), [](double value) { return QString::number(value); }});
    setChosen("place");
    handles("place", 30);
    addView("section", tr("Places"));
}

Json SamplingPage::asked() const
{
    const report::VesselView& view = *subject().view;
    Json pose = Json::object();
    pose.set("pitch", measure(view.pitch_deg.value_or(0), "deg")).set("roll", measure(view.roll_deg.value_or(0), "deg"));
    Json hose = Json::object();
    hose.set("length", measure(valueOf("hose"), "m"));
    if (valueOf("bore") > 0) {
        hose.set("bore", measure(valueOf("bore"), "m")).set("pump", measure(valueOf("pump"), "L/min"));
    }
    Json hollows = Json::array();
    for (int i = 1; i <= static_cast<int>(valueOf("hollows")); ++i) {
        Json hollow = Json::object();
        hollow.set("name", std::to_string(i));
        hollows.items.push_back(std::move(hollow));
    }
    Json all = Json::object();
    all.set("vessel", vesselInput(view.shell))
        .set("pose", std::move(pose))
        .set("openings", openingsInput(view.openings))
        .set("hose", std::move(hose))
        .set("response", measure(valueOf("response"), "s"));
    if (valueOf("hollows") > 0) {
        all.set("hollows", std::move(hollows));
    }
    if (subject().reference.substances != nullptr && !view.contents.empty()) {
        all.set("substance", view.contents);
    }
    return all;
}

void SamplingPage::compute()
{
    if (sayMeasureFirst()) {
        return;
    }
    Json question = asked();
    auto result = ask("sampling", question);
    if (!result && result.error().code == figure::Code::UnknownSubstance) {
        std::erase_if(question.members, [](const canon::Member& member) { return member.key == "substance"; });
        result = ask("sampling", question);
    }
    if (!result) {
        judge(report::Signal::Danger, tr("not known"), {});
        note(text::figureError(result.error()));
        return;
    }
    const auto& places = result->values.find("places")->items;
    FigureInput& place = change("place");
    place.at = std::min(place.at, places.size() - 1);
    place.values.resize(places.size());
    for (std::size_t i = 0; i < places.size(); ++i) {
        place.values[i] = static_cast<double>(i + 1);
    }
    judgeIt(result->values);
    lineOf(tr("Wait at each"), numberOf(result->values, "wait_s"), Dimension::Duration);
    lineOf(tr("Hose alone"), numberOf(result->values, "hose_delay_s"), Dimension::Duration);
    if (const double fits = numberOf(result->values, "hose_that_fits_m"); !std::isnan(fits)) {
        //: the longest hose with which one meter manages the round
        line(tr("Longest hose"), us() ? tr("%1 ft").arg(std::floor(fits / kFoot)) : tr("%1 m").arg(fits, 0, 'f', 1));
    }
    note(tr("Fresh air first. Oxygen before gas. Blower off. The first place again at the end."));
    noteWarnings(result->warnings);
    note(tr("Stations at most 4 ft apart: 29 CFR 1910.146, appendix B (found). 20 minutes for a set: proposal."));
    showPlace(*result);
}

void SamplingPage::judgeIt(const Json& values)
{
    const auto span = text::span(static_cast<std::int64_t>(numberOf(values, "round_s") * 1000), subject().reading);
    const auto count = static_cast<int>(numberOf(values, "count"));
    if (values.find("fits")->integer == 0) {
        const double meters = numberOf(values, "meters_needed");
        judge(report::Signal::Warning, span,
            std::isnan(meters) ? tr("Longer than a set may take.")
                               //: %1 places, %2 meters
                               : tr("%1 places: too long. Meters at once: %2.").arg(count).arg(static_cast<int>(meters)));
        return;
    }
    //: the time of a round of readings
    say(tr("Round"), span, tr("%1 places, within a set of 20 min.").arg(count));
}

// The figure's places inside are called "low, left", "mid, station 2": level, then where along.
QString SamplingPage::nameOf(const Json& place) const
{
    QString name = QString::fromStdString(std::string(place.textOf("name")));
    if (place.textOf("kind") == "hollow") {
        //: %1: its number
        return tr("hollow %1").arg(name);
    }
    const QStringList parts = name.split(QStringLiteral(", "));
    if (parts.size() != 2) {
        return name; // an opening
    }
    const QString level = parts[0] == QLatin1String("low") ? tr("low") : parts[0] == QLatin1String("mid") ? tr("mid") : tr("high");
    const QString where = parts[1] == QLatin1String("left") ? tr("left end")
        : parts[1] == QLatin1String("right")                ? tr("right end")
                                                            : length(numberOf(place, "from_left_tangent_m"));
    //: a place of a reading: how high, and where along
    return tr("%1, %2").arg(level, where);
}

void SamplingPage::showPlace(const figure::Result& result)
{
    const Json& here = result.values.find("places")->items.at(static_cast<std::size_t>(valueOf("place")) - 1);
    //: number of a place in the round; the same one, read a second time
    const QString title = here.textOf("kind") == "again" ? tr("Place %1, again") : tr("Place %1");
    line(title.arg(valueOf("place")), nameOf(here));
    lineOf(tr("From left tangent"), numberOf(here, "from_left_tangent_m"), Dimension::Length);
    std::vector<PartLabel> labels;
    const int number = static_cast<int>(valueOf("place"));
    labels.push_back({QStringLiteral("place:%1").arg(number), QString::number(number)});
    paint([result, labels](const Canvas& canvas) { paintSection(canvas, result, QRectF(QPointF(0, 0), canvas.size), labels); });
}

} // namespace brimful::tablet
