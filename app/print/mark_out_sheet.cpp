// One page of a mark-out: what is held beside the shell while it is marked. Letters as large as the page allows.
#include "app/print/sketch.h"
#include "core/quantity/format.h"

#include <QCoreApplication>
#include <QFile>
#include <QPageSize>
#include <QPdfWriter>

#include <algorithm>
#include <cmath>

namespace brimful::print {

namespace {

using canon::Json;

constexpr int kDpi = 1200;
constexpr double kMm = kDpi / 25.4;
constexpr double kMargin = 9; // mm
constexpr double kLeast = 0.62; // of the usual letters: below that nobody reads it at arm's length

struct Tr {
    Q_DECLARE_TR_FUNCTIONS(MarkOutSheet)
};

} // namespace

QString edgeWords(std::string_view edge)
{
    if (edge == "first-line") {
        //: of a door on a shell: the line that comes first, clockwise from the datum line
        return Tr::tr("first line");
    }
    if (edge == "second-line") {
        //: of a door on a shell: the line that comes second, clockwise from the datum line
        return Tr::tr("second line");
    }
    if (edge == "left-end") {
        return Tr::tr("left end");
    }
    if (edge == "right-end") {
        return Tr::tr("right end");
    }
    //: a weld: marked by its line; everything else by its middle
    return edge == "line" ? Tr::tr("line") : Tr::tr("middle");
}

QString workWords(std::string_view act, const QString& feature)
{
    if (act == "cut-out") {
        //: order of work; %1 is a cut
        return Tr::tr("Wet: cut %1 right out, cold.").arg(feature);
    }
    if (act == "cut-to-tabs") {
        //: order of work; %1 is a door
        return Tr::tr("Wet: cut %1 cold, leave its corners: the cut stops at the ticks.").arg(feature);
    }
    if (act == "let-out") {
        return Tr::tr("Wet: let the water out.");
    }
    if (act == "hot-work-release") {
        return Tr::tr("Nothing hot before the tablet has released hot work.");
    }
    if (act == "fit-hinge") {
        //: order of work; %1 is a door
        return Tr::tr("Dry: fit the hinge of %1.").arg(feature);
    }
    //: order of work; %1 is a door
    return act == "fit-strap" ? Tr::tr("Dry: fit the straps of %1.").arg(feature)
                              //: order of work; %1 is a door
                              : Tr::tr("Dry: cut the tabs of %1 last, with the panel held.").arg(feature);
}

namespace {

QSizeF millimetresOf(Paper paper)
{
    switch (paper) {
    case Paper::A3:
        return {297, 420};
    case Paper::Letter:
        return {215.9, 279.4};
    case Paper::A4:
    case Paper::Roll:
        break;
    }
    return {210, 297};
}

struct Line {
    enum class Kind : std::uint8_t { Head, Mark, Words, Bold, Gap } kind{};
    QStringList cells; // of a head or a mark
    QString words;
    enum class Column : std::uint8_t { Whole, Left, Right } column{};
};

QString signedNumber(double value, int digits)
{
    return (value >= 0 ? QStringLiteral("+") : QStringLiteral("\u2212")) + QString::number(std::abs(value), 'f', digits);
}

constexpr double kInch = 0.0254;

// No., mark, tape in sixteenths, exact inches, how far the true place lies beyond the sixteenth, millimetres, the same.
QStringList markCells(int number, const Json& mark)
{
    const double exact = numberOf(mark, "exact_m");
    return {QString::number(number),
        QString::fromStdString(std::string(mark.textOf("feature"))) + QStringLiteral(", ") + edgeWords(mark.textOf("edge")),
        QString::fromStdString(std::string(mark.textOf("sixteenth"))), QString::number(exact / kInch, 'f', 3),
        signedNumber(numberOf(mark, "sixteenth_residual_m") / kInch, 3),
        QString::number(mark.integerOf("millimetres")) + QStringLiteral(" mm"),
        signedNumber(numberOf(mark, "millimetre_residual_m") * 1000, 1)};
}

void addMarks(const Json& values, std::string_view key, const QString& title, std::vector<Line>& out)
{
    const Json* const marks = values.find(key);
    if (marks == nullptr || marks->items.empty()) {
        return;
    }
    //: heads of a list of marks: the true place in inches, and how far it lies beyond the mark
    out.push_back({Line::Kind::Head,
        {QString(), title, Tr::tr("tape"), Tr::tr("exact, in"), Tr::tr("beyond"), Tr::tr("tape"), Tr::tr("beyond")}, {}});
    int number = 0;
    for (const Json& mark : marks->items) {
        out.push_back({Line::Kind::Mark, markCells(++number, mark), {}});
    }
    out.push_back({Line::Kind::Gap, {}, {}});
}

QString both(double metres)
{
    //: a length in inches and in millimetres
    return Tr::tr("%1 (%2)").arg(tapeWords(metres, text::Units::Us), tapeWords(metres, text::Units::Si));
}

// Of a gap a sixteenth counts.
QString fine(double metres) { return QStringLiteral("%1 mm").arg(metres * 1000, 0, 'f', 1); }

std::vector<Line> linesOf(const figure::Result& result)
{
    const Json& values = result.values;
    std::vector<Line> out;
    Line::Column column{};
    const auto say = [&](const QString& words, bool bold = false) {
        out.push_back({bold ? Line::Kind::Bold : Line::Kind::Words, {}, words, column});
    };
    addMarks(values, "around", Tr::tr("Round, from the datum line"), out);
    addMarks(values, "along", Tr::tr("Along, from the left tangent line"), out);
    const QString girth = both(numberOf(values, "girth_m"));
    if (values.find("closing_m") != nullptr) {
        //: closing check; %1 and %2 are lengths
        say(Tr::tr("Closing check: from the last mark on to the datum line the tape shows %1; all round %2.")
                .arg(both(numberOf(values, "closing_m")), girth),
            true);
    } else {
        //: closing check; %1 is a length
        say(Tr::tr("Closing check: all round the tape shows %1.").arg(girth), true);
    }
    say(Tr::tr(
        "If it does not, measure the girth again before a mark is made. Every mark is from the datum line, none from another mark."));
    if (const Json* const water = values.find("cuts_and_water"); water != nullptr) {
        for (const Json& row : water->items) {
            const QString name = QString::fromStdString(std::string(row.textOf("cut")));
            const std::string_view place = row.textOf("place");
            //: where a cut lies to the water of the plan; %1 is the cut, %2 a length
            say(place == "over" ? Tr::tr("%1 lies over the water, %2 clear of it.").arg(name, both(numberOf(row, "lowest_over_water_m")))
                    : place == "under"
                    ? Tr::tr("%1 lies under the water: it runs out at the first hole.").arg(name)
                    : Tr::tr("%1 goes down through the water, %2 deep.").arg(name, both(-numberOf(row, "lowest_over_water_m"))));
        }
    }
    if (const Json* const cuts = values.find("cuts"); cuts != nullptr) {
        for (const Json& cut : cuts->items) {
            if (const Json* const mass = cut.find("panel_mass_kg"); mass != nullptr) {
                //: %1 is a cut, %2 and %3 its weight in two units
                say(Tr::tr("Panel of %1 weighs %2 lb (%3 kg).")
                        .arg(QString::fromStdString(std::string(cut.textOf("name"))), QString::number(mass->number / 0.45359237, 'f', 0),
                            QString::number(mass->number, 'f', 0)));
            }
        }
    }
    if (const Json* const order = values.find("order"); order != nullptr && !order->items.empty()) {
        column = Line::Column::Left;
        say(Tr::tr("Order of work"), true);
        int number = 0;
        for (const Json& one : order->items) {
            say(QStringLiteral("%1. ").arg(++number)
                + workWords(one.textOf("do"), QString::fromStdString(std::string(one.textOf("feature")))));
        }
    }
    column = Line::Column::Right;
    say(Tr::tr("Cautions"), true);
    say(Tr::tr("This page says where a line goes. It does not say that the vessel may be cut: ask the tablet."));
    if (const Json* const clashes = values.find("clashes"); clashes != nullptr) {
        for (const Json& row : clashes->items) {
            //: two names and two lengths
            say(Tr::tr("%1 comes within %3 of %2; %4 is wanted.")
                    .arg(QString::fromStdString(std::string(row.textOf("cut"))), QString::fromStdString(std::string(row.textOf("with"))),
                        fine(numberOf(row, "gap_m")), fine(numberOf(row, "needed_m"))));
        }
    }
    for (const std::string& warning : result.warnings) {
        say(text::warning(warning));
    }
    return out;
}

class SheetOfMarks {
public:
    SheetOfMarks(QPainter& painter, const MarkOutPage& page, const QSizeF& paper)
        : p(painter)
        , m_page(page)
        , m_paper(paper)
        , m_lines(linesOf(page.result))
        , m_picture(0.26 * paper.height())
    {
        // A shallow picture leaves its room to the letters.
        const double girth = numberOf(page.result.values, "girth_m");
        const double length = numberOf(page.result.values, "shell_length_m");
        const double wide = 0.64 * (paper.width() - 2 * kMargin) - 20;
        m_picture = std::min(m_picture, std::max(46.0, wide * length / std::max(girth, 1e-9) + 22));
    }

    // The largest letters with which everything is on the page.
    bool fit()
    {
        for (m_size = 1; m_size >= kLeast; m_size -= 0.02) {
            if (bottom() <= m_paper.height() - kMargin) {
                return true;
            }
        }
        return false;
    }

    void paint() { walk(true); }

private:
    [[nodiscard]] double width() const { return m_paper.width() - 2 * kMargin; }
    [[nodiscard]] static QFont font(double mm, bool bold) { return letters(mm * kMm, bold); }
    [[nodiscard]] double bottom() { return walk(false); }

    void put(double x, double y, double mm, bool bold, const QString& words, double room, Place place = Place::Left) const
    {
        const Palette palette = Palette::paperOneColour();
        writeWithin(p, font(mm, bold), palette.ink, QPointF(x, y) * kMm, room * kMm, words, place);
    }

    // Words in as many lines as they need; gives the new y.
    double wrapped(double x, double y, double room, const Line& one, bool draw) const
    {
        const bool bold = one.kind == Line::Kind::Bold;
        const double mm = 4.6 * m_size;
        const QFont face = font(mm, bold);
        QString row;
        const auto flush = [&] {
            y += mm * 1.24;
            if (draw) {
                put(x, y, mm, bold, row, room);
            }
            row.clear();
        };
        for (const QString& word : one.words.split(QLatin1Char(' '))) {
            const QString longer = row.isEmpty() ? word : row + QLatin1Char(' ') + word;
            if (!row.isEmpty() && widthOf(face, longer) > room * kMm) {
                flush();
                row = word;
            } else {
                row = longer;
            }
        }
        flush();
        return y + 0.15 * mm;
    }

    double marks(double y, const Line& one, bool draw) const
    {
        const bool head = one.kind == Line::Kind::Head;
        const double mm = (head ? 4.0 : 5.6) * m_size;
        y += mm * (head ? 1.5 : 1.3);
        if (!draw) {
            return y;
        }
        // Shares of the width: right edges of the columns, the mark's left aligned.
        constexpr double kEnds[] = {0.045, 0.40, 0.60, 0.715, 0.805, 0.925, 1.0};
        for (int i = 0; i < one.cells.size(); ++i) {
            const double from = i == 0 ? 0 : kEnds[i - 1];
            const double room = (kEnds[i] - from) * width() - 1.5;
            const bool tape = i == 2 || i == 5;
            const double size = tape || i < 2 || head ? mm : 4.2 * m_size;
            if (i < 2) {
                put(kMargin + from * width(), y, size, head || i == 0, one.cells[i], room);
            } else {
                put(kMargin + kEnds[i] * width(), y, size, tape || head, one.cells[i], room, Place::Right);
            }
        }
        const double rule = (y + mm * 0.28) * kMm;
        p.setPen(solid(Qt::black, (head ? 0.4 : 0.1) * kMm));
        p.drawLine(QPointF(kMargin * kMm, rule), QPointF((m_paper.width() - kMargin) * kMm, rule));
        return y;
    }

    double walk(bool draw)
    {
        const Json& values = m_page.result.values;
        double y = kMargin + 8;
        if (draw) {
            put(kMargin, y, 8, true, m_page.part.isEmpty() ? Tr::tr("Mark-out") : Tr::tr("Mark-out: %1").arg(m_page.part), width());
            //: %1 outside diameter, %2 from tangent line to tangent line, each in two units
            put(kMargin, y + 6.5, 4.4, false,
                Tr::tr("Outside diameter %1, tangent lines %2 apart.")
                    .arg(both(numberOf(values, "outside_diameter_m")), both(numberOf(values, "shell_length_m"))),
                width());
            const Palette palette = Palette::paperOneColour();
            const double top = y + 9;
            const double wide = 0.64 * width();
            const double u = 3.6 * kMm / 30;
            const PlanLook flat{palette, QRectF(kMargin * kMm, top * kMm, wide * kMm, m_picture * kMm), u, text::Units::Us, true};
            paintMarkOut(p, m_page.result, MarkOutView::Unrolled, flat);
            const PlanLook end{palette, QRectF((kMargin + wide) * kMm, top * kMm, (width() - wide) * kMm, m_picture * kMm), u};
            paintMarkOut(p, m_page.result, MarkOutView::End, end);
        }
        y += 9 + m_picture + 1;
        double left = 0; // where the two columns below have got to
        double right = 0;
        constexpr double kShare = 0.485;
        for (const Line& one : m_lines) {
            const bool below = one.column != Line::Column::Whole;
            if (below && left == 0) {
                left = right = y + 2 * m_size;
            }
            if (one.column == Line::Column::Left) {
                left = wrapped(kMargin, left, kShare * width(), one, draw);
            } else if (below) {
                right = wrapped(kMargin + (1 - kShare) * width(), right, kShare * width(), one, draw);
            } else if (one.kind == Line::Kind::Gap) {
                y += 1.5 * m_size;
            } else if (one.kind == Line::Kind::Head || one.kind == Line::Kind::Mark) {
                y = marks(y, one, draw);
            } else {
                y = wrapped(kMargin, y, width(), one, draw);
            }
        }
        return std::max({y, left, right});
    }

    QPainter& p;
    const MarkOutPage& m_page;
    QSizeF m_paper;
    std::vector<Line> m_lines;
    double m_picture; // mm
    double m_size{1};
};

} // namespace

tl::expected<void, PageFault> writeMarkOutPdf(const std::filesystem::path& file, const MarkOutPage& page, Paper paper)
{
    loadFonts();
    if (page.result.values.find("outside_diameter_m") == nullptr) {
        return tl::unexpected(PageFault::NothingToDraw);
    }
    const QSizeF size = millimetresOf(paper);
    QFile out(QString::fromStdString(file.string()));
    if (!out.open(QIODevice::WriteOnly)) {
        return tl::unexpected(PageFault::CannotWrite);
    }
    QPdfWriter writer(&out);
    writer.setResolution(kDpi);
    writer.setTitle(Tr::tr("Mark-out"));
    writer.setCreator(QStringLiteral("Brimful"));
    writer.setPageSize(QPageSize(size, QPageSize::Millimeter, QString(), QPageSize::ExactMatch));
    writer.setPageMargins(QMarginsF(0, 0, 0, 0));
    QPainter p;
    if (!p.begin(&writer)) {
        return tl::unexpected(PageFault::CannotWrite);
    }
    SheetOfMarks sheet(p, page, size);
    if (!sheet.fit()) {
        p.end();
        out.remove();
        return tl::unexpected(PageFault::TooMuchForOnePage);
    }
    sheet.paint();
    return p.end() && out.flush() ? tl::expected<void, PageFault>() : tl::unexpected(PageFault::CannotWrite);
}

} // namespace brimful::print
