#include "app/tablet/joint_page.h"

#include "app/print/plans.h"
#include "app/tablet/papers.h"

#include <array>
#include <cmath>
#include <utility>

namespace brimful::tablet {

using canon::Json;

namespace {

constexpr double kInch = 0.0254;
constexpr std::array kKinds{
    "pipe-to-cylinder", "pipe-to-head", "half-vessel-to-cylinder", "half-vessel-to-head", "sphere-to-sphere", "sphere-to-cylinder"};

QString kindWords(double value)
{
    switch (static_cast<int>(value)) {
    case 0:
        return JointPage::tr("pipe, shell");
    case 1:
        return JointPage::tr("pipe, end");
    case 2:
        //: half a vessel on another's shell
        return JointPage::tr("half, shell");
    case 3:
        return JointPage::tr("half, end");
    case 4:
        return JointPage::tr("two heads");
    default:
        return JointPage::tr("head, shell");
    }
}

QString wholeDegrees(double value) { return JointPage::tr("%1°").arg(value, 0, 'f', 0); }

// What is wrong with the geometry, by the input that says it.
QString reason(const figure::Error& error)
{
    if (error.path == "pipe_diameter") {
        return JointPage::tr("It is wider than what it meets.");
    }
    if (error.path == "offset") {
        return JointPage::tr("It stands off what it meets.");
    }
    if (error.path == "from_left_tangent") {
        return JointPage::tr("It runs over the end of the shell.");
    }
    if (error.path == "distance") {
        return JointPage::tr("So far apart, or so near, they do not meet.");
    }
    return error.path == "sphere_diameter" ? JointPage::tr("The head wraps half round the shell.") : JointPage::tr("They do not meet so.");
}

} // namespace

QString JointPage::tape(double metres) const { return print::tapeWords(metres, subject().reading.units); }

void JointPage::open()
{
    const report::ShellView& shell = subject().view->shell;
    const bool us = subject().reading.units == text::Units::Us;
    const double step = us ? kInch / 2 : 0.01;
    const double across = std::max(shell.outside_diameter_m, 4 * step);
    const double long_way = std::max(shell.shell_length_m, step);
    const auto length = [units = subject().reading.units](double value) {
        return (value < 0 ? QStringLiteral("\u2212") : QString()) + print::shortTapeWords(std::abs(value), units);
    };
    add({"kind", tr("Joint"), {0, 1, 2, 3, 4, 5}, kindWords});
    //: the piece that comes: its outside diameter
    add({"piece", tr("Piece"), stepped(us ? 2 * kInch : 0.04, std::floor(2 * across / step) * step, step), length})
        .setNearest(us ? 8 * kInch : 0.20);
    //: between the piece's axis and square to the shell; on an end from the vessel's axis
    add({"lean", tr("Lean"), stepped(-75, 75, 1), wholeDegrees}).setNearest(0);
    add({"offset", tr("Offset"), stepped(-std::floor(across / 2 / step) * step, across / 2, step), length}).setNearest(0);
    //: along the shell from the left tangent line
    add({"along", tr("From left"), stepped(0, long_way, step), length}).setNearest(shell.shell_length_m / 2);
    //: between two centres
    add({"apart", tr("Apart"), stepped(step, 2.5 * across, step), length}).setNearest(0.8 * across);
    add({"wall", tr("Wall"), {0, 0.002, 0.003, 0.004, 0.005, 0.00635, 0.008, 0.010, 0.0127}, [this](double value) {
             return value > 0 ? subject().reading.units == text::Units::Us
                     ? text::quantity(value, quantity::Dimension::Length, subject().reading)
                     : tr("%1 mm").arg(value * 1000)
                              : tr("not set");
         }});
    //: which surfaces touch
    add({"fit", tr("Fit"), {0, 1, 2}, [](double value) { return value > 1 ? tr("set in") : value > 0 ? tr("set on") : tr("as given"); }});
    add({"end", tr("End"), {0, 1}, [](double value) { return value > 0 ? tr("left") : tr("right"); }});
    setChosen("lean");
    handles("offset", across / step, "lean", 150);
    //: the edge of a piece laid out flat
    addView("edge", tr("Edge"));
    addView("hole", tr("Hole"));
    addView("side", tr("Side"));
}

Json JointPage::asked() const
{
    const Kind what = kind();
    const report::ShellView& shell = subject().view->shell;
    Json all = Json::object();
    all.set("kind", kKinds.at(static_cast<std::size_t>(what)));
    const std::string piece = measure(valueOf("piece"), "m");
    if (what == Kind::HeadOnHead) {
        all.set("left_diameter", measure(shell.outside_diameter_m, "m")).set("left_wall", measure(shell.wall_m, "m"));
        all.set("right_diameter", piece).set("right_wall", measure(valueOf("wall"), "m")).set("distance", measure(valueOf("apart"), "m"));
        return all;
    }
    if (what == Kind::HeadInSide) {
        all.set("sphere_diameter", piece).set("cylinder_diameter", measure(shell.outside_diameter_m, "m"));
        all.set("distance", measure(valueOf("apart"), "m"));
        return all;
    }
    all.set("vessel", vesselInput(shell)).set("pipe_diameter", piece).set("offset", measure(valueOf("offset"), "m"));
    if (what == Kind::PipeOnHead || what == Kind::HalfOnHead) {
        all.set("head", valueOf("end") > 0 ? "left" : "right").set("angle", measure(std::abs(valueOf("lean")), "deg"));
    } else {
        all.set("from_left_tangent", measure(valueOf("along"), "m")).set("angle", measure(90 - valueOf("lean"), "deg"));
    }
    if (valueOf("fit") > 0) {
        all.set("fit", valueOf("fit") > 1 ? "set-in" : "set-on").set("pipe_wall", measure(valueOf("wall"), "m"));
    }
    return all;
}

void JointPage::act()
{
    if (const auto result = figure::compute(*figure::byName("junction"), asked(), subject().reference)) {
        m_saved = savePapers("junction", subject().view->number, *result, subject().reading);
        refresh();
    }
}

void JointPage::compute()
{
    note(std::exchange(m_saved, {}));
    setAct({});
    const report::ShellView& shell = subject().view->shell;
    if (!(shell.outside_diameter_m > 0 && shell.wall_m > 0)) {
        judge(report::Signal::Caution, tr("not known"), tr("Measure it first."));
        return;
    }
    auto result = figure::compute(*figure::byName("junction"), asked(), subject().reference);
    if (!result) {
        judge(report::Signal::Caution, tr("no joint"), reason(result.error()));
        return;
    }
    //: patterns and marks as files to print
    setAct(tr("Save papers"));
    const Json& values = result->values;
    if (kind() == Kind::HeadOnHead && (valueOf("end") > 0 ? shell.left_head : shell.right_head) != "hemispherical") {
        judge(report::Signal::Caution, tr("no half ball"), tr("This vessel's end is not round: no circle joins it."));
        setAct({});
        return;
    }
    if (values.textOf("method") == "circle") {
        const double string = numberOf(values, kind() == Kind::HeadOnHead ? "left_string_m" : "string_m");
        //: a circle that is drawn with a string from a punch mark
        judge(report::Signal::Notice, tr("a circle"), tr("A string of %1 draws it on this vessel.").arg(tape(string)));
    } else {
        const auto marks = static_cast<int>(values.find("ordinates")->items.size());
        judge(report::Signal::Notice, tr("%1 marks").arg(marks),
            kind() == Kind::HeadInSide ? tr("The hole is drawn by its marks.") : tr("The edge is drawn by its marks."));
    }
    if (shell.sight != report::Sight::Proven) {
        judge(report::Signal::Caution, tr("not measured"), tr("This vessel's size is only believed."));
    }
    fillLines(values);
    if (kind() == Kind::HeadOnHead || kind() == Kind::HeadInSide) {
        note(tr("Both are taken as half balls; elliptical and dished heads are not."));
    } else if (values.find("hole") != nullptr && values.find("hole_area_m2") == nullptr && values.textOf("method") != "circle") {
        note(tr("A hole on a round end is marked by tape from its tip and by the angle."));
    }
    if (values.find("wrap_girth_m") != nullptr) {
        note(tr("Number 0 lies on the side to which the piece leans or stands off; numbers run to the right, seen from outside."));
    }
    noteWarnings(result->warnings);
    note(tr("A pattern says where a line goes, never that the vessel may be cut."));
    paint([result = std::move(*result), view = view(), units = subject().reading.units](const Canvas& canvas) {
        const auto show = [&](print::JointView what, const QRectF& box) {
            return !print::paintJoint(canvas.painter, result, what, {canvas.palette, box, canvas.u, units}).empty();
        };
        const QRectF whole(QPointF(0, 0), canvas.size);
        if ((view == QLatin1String("edge") && show(print::JointView::Pipe, whole))
            || (view == QLatin1String("hole") && show(print::JointView::Hole, whole))) {
            return;
        }
        show(print::JointView::Side, QRectF(0, 0, whole.width() * 0.56, whole.height()));
        show(print::JointView::End, QRectF(whole.width() * 0.58, 0, whole.width() * 0.42, whole.height()));
    });
}

void JointPage::fillLines(const Json& values)
{
    std::size_t shown = 0;
    constexpr std::size_t kRoom = 5; // over the black key
    const auto length = [&](const QString& title, std::string_view key) {
        if (const double value = numberOf(values, key); !std::isnan(value) && ++shown <= kRoom) {
            line(title, tape(value));
        }
    };
    length(tr("String"), "string_m");
    length(tr("Tape from tip"), "tape_m");
    length(tr("Girth"), "wrap_girth_m");
    //: from the longest to the shortest place of a cut
    length(tr("Cut is deep"), "depth_m");
    //: from the pattern's straight edge to the longest point
    length(tr("Ring at"), "ring_from_long_point_m");
    length(tr("Tape, this head"), "left_tape_arc_m");
    length(tr("String, this head"), "left_string_m");
    length(tr("Tape, the other"), "right_tape_arc_m");
    length(tr("String, the other"), "right_string_m");
    length(tr("Half width, tape"), "half_width_m");
    length(tr("Half length"), "half_length_m");
    if (shown < kRoom) {
        line(tr("Opening"), print::openingWords(numberOf(values, "throat_m2"), subject().reading.units));
    }
}

} // namespace brimful::tablet
