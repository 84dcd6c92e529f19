// What a full-size pattern's first sheet says of a figure's answer.
#include "app/print/plans.h"
#include "core/quantity/format.h"

#include <QCoreApplication>

namespace brimful::print {

namespace {

using canon::Json;

struct Tr {
    Q_DECLARE_TR_FUNCTIONS(TemplatePage)
};

// "123.4 mm (4 7/8 in)"
QString lengthWords(double metres)
{
    return QStringLiteral("%1 mm (%2)")
        .arg(metres * 1000, 0, 'f', 1)
        .arg(QString::fromStdString(quantity::inchFraction(quantity::metres(metres))));
}

// "37.9 L (10.0 gal)"
QString volumeWords(double cubic_metres)
{
    constexpr double kGallon = 0.003785411784; // m3
    return QStringLiteral("%1 L (%2 gal)").arg(cubic_metres * 1000, 0, 'f', 1).arg(cubic_metres / kGallon, 0, 'f', 1);
}

QStringList factsOf(const figure::Result& result)
{
    QStringList out;
    const auto length = [&](const char* key, const QString& words) {
        if (const Json* const value = result.values.find(key); value != nullptr) {
            out << words.arg(lengthWords(value->number));
        }
    };
    //: on a full-size pattern; %1 is a length
    length("ring_from_long_point_m", Tr::tr("Draw a ring square round the pipe, %1 from its square end."));
    //: on a full-size pattern; %1 is a length
    length("wrap_girth_m", Tr::tr("Girth of the pattern: %1. It must meet itself; if not, the pipe is another."));
    //: on a full-size pattern; %1 is a length
    length("depth_m", Tr::tr("Depth of the cut: %1"));
    const Json* const along = result.values.find("pierce_along_m");
    const Json* const around = result.values.find("pierce_girth_m");
    if (along != nullptr && around != nullptr) {
        //: on a full-size pattern; %1 and %2 are lengths
        out << Tr::tr("Hole: its cross lies %1 along from where the axes cross, %2 round from the line on top, to the left.")
                   .arg(lengthWords(along->number), lengthWords(around->number));
    }
    //: on a full-size pattern; %1 is a length
    length("pierce_from_middle_m", Tr::tr("Hole: its cross lies %1 from the middle of the end, on the side to which the pipe stands off."));
    //: on a full-size pattern; %1 is a length
    length("girth_m", Tr::tr("Girth of the shell: %1"));
    if (const Json* const unread = result.values.find("unread_m3"); unread != nullptr) {
        out << Tr::tr("Stick: the lower edge is its foot. It hangs plumb and touches the bottom; it reads for this tilt only.")
            //: on the strip of a dip stick; %1 and %2 are volumes
            << Tr::tr("Between marks: %1. Deeper than the foot lies %2.")
                   .arg(volumeWords(result.values.find("every_m3")->number), volumeWords(unread->number));
    }
    if (result.values.find("ordinates") != nullptr) {
        out << Tr::tr("Number 0 lies on the side to which the pipe leans or stands off; numbers run to the right, seen from outside.");
    }
    if (result.values.find("around") != nullptr) {
        out << Tr::tr("Hold a pattern so that its words stand upright: the vessel's left end is to the left.");
    }
    if (const Json* const order = result.values.find("order"); order != nullptr) {
        for (const Json& one : order->items) {
            out << workWords(one.textOf("do"), QString::fromStdString(std::string(one.textOf("feature"))));
        }
    }
    for (const std::string& warning : result.warnings) {
        out << text::warning(warning);
    }
    return out;
}

// Both running lists of a mark-out, the one round the shell first.
void addMarks(const figure::Result& result, std::vector<QStringList>& out)
{
    for (const auto& [key, head] :
        {std::pair("around", Tr::tr("Round from the datum line")), std::pair("along", Tr::tr("Along from the left tangent line"))}) {
        const Json* const marks = result.values.find(key);
        if (marks == nullptr) {
            continue;
        }
        out.push_back({QString(), head, QString()});
        for (const Json& mark : marks->items) {
            out.push_back({QString(),
                QString::fromStdString(std::string(mark.textOf("feature"))) + QStringLiteral(", ") + edgeWords(mark.textOf("edge")),
                lengthWords(mark.find("exact_m")->number)});
        }
    }
}

std::vector<QStringList> tableOf(const figure::Result& result)
{
    std::vector<QStringList> out;
    if (result.values.find("around") != nullptr) {
        out.push_back({QString(), Tr::tr("Mark"), Tr::tr("Tape")});
        addMarks(result, out);
        return out;
    }
    if (const Json* const marks = result.values.find("marks"); marks != nullptr && result.values.find("unread_m3") != nullptr) {
        //: heads of a dip stick's table: how far up it is wet, what the vessel then holds
        out.push_back({QString(), Tr::tr("Wet up to"), Tr::tr("Holds")});
        for (const Json& mark : marks->items) {
            out.push_back({QString(), lengthWords(mark.find("reading_m")->number), volumeWords(mark.find("volume_m3")->number)});
        }
        return out;
    }
    const Json* const ordinates = result.values.find("ordinates");
    if (ordinates == nullptr) {
        return out;
    }
    //: heads of a table of ordinates: number, along the girth, cut
    out.push_back({Tr::tr("No."), Tr::tr("Round the pipe"), Tr::tr("Back from the longest point")});
    const Json* const beyond = result.values.find("long_point_beyond_m");
    const double longest = beyond == nullptr ? 0 : beyond->number;
    for (std::size_t i = 0; i < ordinates->items.size(); ++i) {
        out.push_back({QString::number(i), lengthWords(ordinates->items[i].find("arc_m")->number),
            lengthWords(ordinates->items[i].find("cut_m")->number + longest)});
    }
    return out;
}

} // namespace

TemplatePage templatePage(const std::string& figure, const QString& part, const figure::Result& result)
{
    TemplatePage page;
    page.title = text::figureName(figure);
    page.part = part;
    page.facts = factsOf(result);
    page.table = tableOf(result);
    page.patterns = patternsOf(result);
    if (hasJointView(result, JointView::Side)) {
        page.joint = result;
    }
    return page;
}

} // namespace brimful::print
