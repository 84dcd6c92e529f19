// Pictures of what is planned for the shop: a mark-out in three views of one object, a joint flat and as it stands, a stack's
// curves. The figures compute; these only lay out, on screen and on paper alike.
#pragma once

#include "app/print/pattern.h"

namespace brimful::print {

struct PlanLook {
    const Palette& palette;
    QRectF box; // where the picture goes
    double u{1}; // 1 = letters of 30 px on a 1280 px screen
    text::Units units{text::Units::Us};
    bool numbered{}; // marks carry the numbers of the figure's running lists
};

// `result` of mark-out. Unrolled: the girth across, from the datum line clockwise as seen from the left end, the left end below;
// one scale both ways. Side: the near side, clock 0 to 180 degrees, as one stands before it with the left end to the left; what
// lies behind is broken. End: from the left end.
enum class MarkOutView : std::uint8_t { Unrolled, Side, End };
std::vector<PartPlace> paintMarkOut(QPainter&, const figure::Result&, MarkOutView, const PlanLook&);

// `result` of junction. Pipe: its pattern with the ordinates; Hole: the hole's pattern; Side and End: the joint as it stands. Nothing
// where there is no such picture: a hole on a round head is marked with tape and string.
enum class JointView : std::uint8_t { Pipe, Hole, Side, End };
std::vector<PartPlace> paintJoint(QPainter&, const figure::Result&, JointView, const PlanLook&);
[[nodiscard]] bool hasJointView(const figure::Result&, JointView);

// `result` of draught with its curves: how much the stack draws over its height (each diameter a curve) or over its diameter, with
// the range that the estimate honestly has. Held: the draught over the height when a damper or the fire sets the flow, where more
// height soon gains nothing because the gas cools. Nothing without curves.
enum class DraughtView : std::uint8_t { Height, Diameter, Held };
std::vector<PartPlace> paintDraught(QPainter&, const figure::Result&, DraughtView, const PlanLook&);

// One page of a mark-out, to be read at arm's length: the unrolled shell and its end, every mark from one datum exact and as the
// tape shows it, the closing check, the order of work, cautions. On A4, A3 or Letter.
struct MarkOutPage {
    QString part; // what it is for, as the shop calls it
    figure::Result result; // of mark-out
};
[[nodiscard]] tl::expected<void, PageFault> writeMarkOutPdf(const std::filesystem::path&, const MarkOutPage&, Paper);

// Words of a mark-out's answers: an edge ("first-line"), a step of the order of work ("cut-to-tabs" of a door).
[[nodiscard]] QString edgeWords(std::string_view edge);
[[nodiscard]] QString workWords(std::string_view act, const QString& feature);

// "39 13/16 in" or "1011 mm": as a tape is read.
[[nodiscard]] QString tapeWords(double metres, text::Units);
// The same where room is short and eighths are enough: "39⅞ in".
[[nodiscard]] QString shortTapeWords(double metres, text::Units);
// "50.3 in²" or "324 cm²": as an opening is compared.
[[nodiscard]] QString openingWords(double square_metres, text::Units);

} // namespace brimful::print
