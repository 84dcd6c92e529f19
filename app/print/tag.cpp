// The tag that hangs on the vessel: what is forbidden first; what was so when it was printed; a symbol and a code that
// bind it to the record.
#include "app/print/pages.h"
#include "app/print/pictograms.h"
#include "app/print/strokes.h"
#include "app/print/symbol.h"

#include <QCoreApplication>
#include <QDateTime>
#include <QPageLayout>
#include <QPageSize>
#include <QPdfWriter>

#include <algorithm>
#include <array>
#include <cmath>

namespace brimful::print {

namespace {

class Words {
    Q_DECLARE_TR_FUNCTIONS(Tag)
public:
    static QString headline()
    {
        //: headline of the paper tag on a vessel; capitals in English
        return tr("DO NOT CUT HEAT FILL OR MOVE.");
    }
    static QString onlyTheTablet()
    {
        //: under the headline of the tag: paper gives no permission
        return tr("Only the tablet releases.");
    }
    static QString whenPrinted(const QString& state)
    {
        //: on the tag; %1 is the state with what it is about: "HELD before first cut"
        return tr("When printed: %1").arg(state);
    }
    static QString released(const QString& word, const QString& gate)
    {
        //: %1 is RELEASED, %2 a hold point: "RELEASED for first cut"
        return gate.isEmpty() ? word : tr("%1 for %2").arg(word, gate);
    }
    static QString endsAtTheLatest(const QString& moment)
    {
        //: on the tag; %1 is a time with weekday, day and offset: "16:30 Sun 14 Jun (UTC-4)"
        return tr("ends at the latest %1").arg(moment);
    }
    static QString nothingIsReleased()
    {
        //: on the tag, where a released vessel has its end
        return tr("nothing is released");
    }
    static QString printed(qlonglong serial, const QString& moment)
    {
        //: on the tag; %1 its number among this vessel's tags, %2 when
        return tr("Tag %1, printed %2").arg(serial).arg(moment);
    }
    static QString proof(const QString& digits)
    {
        //: on the tag, small; first and last digits of a hash
        return tr("proof %1").arg(digits);
    }
    static QString demo()
    {
        //: on everything that a played yard prints
        return tr("DEMO");
    }
    static QString forbidden(Forbidden what)
    {
        switch (what) {
        //: under a struck saw blade, one or two short words
        case Forbidden::Cut:
            return tr("no cutting");
        //: under a struck flame, one or two short words
        case Forbidden::Heat:
            return tr("no heat");
        //: under a struck drop, one or two short words
        case Forbidden::Fill:
            return tr("no filling");
        //: under a struck arrow, one or two short words
        case Forbidden::Move:
            return tr("no moving");
        }
        return {};
    }
    static QString twoTags()
    {
        //: at the edge of a sheet with the same tag twice
        return tr("Cut out along the frame. One at each end of the vessel.");
    }
};

struct SignalColours {
    QColor panel, text;
};

SignalColours coloursOf(report::Signal signal, const Palette& palette)
{
    switch (signal) {
    case report::Signal::Danger:
        return {palette.danger, palette.danger_text};
    case report::Signal::Warning:
        return {palette.warning, palette.warning_text};
    case report::Signal::Caution:
        return {palette.caution, palette.caution_text};
    case report::Signal::Notice:
        return {palette.notice, palette.notice_text};
    }
    return {palette.danger, palette.danger_text};
}

// "16:30 Sun 14 Jun (UTC-4)"
QString shortMoment(std::int64_t wall_ms, const text::Reading& reading)
{
    const QString whole = text::dateTime(wall_ms, reading);
    const QString offset = whole.mid(whole.lastIndexOf(QLatin1Char('(')));
    const QDateTime local = QDateTime::fromMSecsSinceEpoch(wall_ms, Qt::OffsetFromUTC, reading.offset_minutes * 60);
    return QStringLiteral("%1 %2 %3")
        .arg(text::clockTime(wall_ms, reading), reading.locale.toString(local, QStringLiteral("ddd d MMM")), offset);
}

struct Sheet {
    QPainter& p;
    const TagPage& page;
    const rules::Pack& pack;
    const text::Reading& reading;
    const Palette& palette;
    QRectF box;
    double k; // painter units per mm

    [[nodiscard]] double mm(double value) const { return value * k; }
    [[nodiscard]] QPointF at(double x, double y) const { return box.topLeft() + QPointF(x, y) * k; }
    [[nodiscard]] double width() const { return box.width() / k; }
    [[nodiscard]] double height() const { return box.height() / k; }
    [[nodiscard]] QRectF area(double x, double y, double w, double h) const { return {at(x, y), QSizeF(w * k, h * k)}; }

    void line(double y) const
    {
        p.setPen(solid(palette.ink, mm(0.6)));
        p.drawLine(at(0, y), at(width(), y));
    }

    // Outline with cut corners and the hole for the wire.
    void outline() const
    {
        QPainterPath shape(at(8, 0.4));
        for (const QPointF& corner :
            {at(width() - 8, 0.4), at(width() - 0.4, 8), at(width() - 0.4, height() - 0.4), at(0.4, height() - 0.4), at(0.4, 8)}) {
            shape.lineTo(corner);
        }
        shape.closeSubpath();
        p.fillPath(shape, palette.panel);
        p.strokePath(shape, solid(palette.ink, mm(0.7)));
    }

    void hole(double strip) const
    {
        p.setPen(solid(palette.ink, mm(0.5)));
        p.setBrush(Qt::NoBrush);
        p.drawEllipse(at(width() / 2, strip / 2), mm(3), mm(3));
        if (!page.view.demo) {
            return;
        }
        for (const bool left : {true, false}) {
            const QRectF band = left ? area(9, strip - 9.4, width() / 2 - 14, 8) : area(width() / 2 + 5, strip - 9.4, width() / 2 - 14, 8);
            diagonals(band);
            const QRectF word = band.adjusted(mm(6), mm(0.8), -mm(6), -mm(0.8));
            p.fillRect(word, palette.panel);
            writeWithin(p, letters(mm(6.4), true), palette.ink, QPointF(word.center().x(), word.bottom() - mm(0.9)), word.width() - mm(1),
                Words::demo(), Place::Centre);
        }
    }

    void diagonals(const QRectF& band) const
    {
        p.save();
        p.setClipRect(band, Qt::IntersectClip);
        p.setPen(solid(palette.ink, mm(1.4)));
        for (double x = band.left() - band.height(); x < band.right(); x += mm(4)) {
            p.drawLine(QPointF(x, band.bottom()), QPointF(x + band.height(), band.top()));
        }
        p.restore();
        p.setPen(solid(palette.ink, mm(0.4)));
        p.drawRect(band);
    }

    void signal(double y, double h) const
    {
        const SignalColours colours = coloursOf(page.view.signal, palette);
        const QRectF panel = area(0.4, y, width() - 0.8, h);
        p.fillRect(panel, colours.panel);
        p.setPen(solid(palette.ink, mm(0.6)));
        p.drawRect(panel);
        double margin = 6;
        if (!palette.fills && page.view.signal == report::Signal::Warning) { // one colour: bars at both edges
            diagonals(area(0.4, y, 6, h));
            diagonals(area(width() - 6.4, y, 6, h));
            margin = 10;
        }
        if (!palette.fills && page.view.signal == report::Signal::Caution) {
            dotGas(p, panel, palette, mm(0.2));
        }
        const QString word = text::signalWord(page.view.signal);
        const bool sign = page.view.signal != report::Signal::Notice;
        const double room = width() - 2 * margin - (sign ? 20 : 0);
        if (sign) {
            paintTriangle(p, area(margin + 1, y + 1.8, 15, h - 3.6), colours.text, colours.panel);
        }
        writeWithin(p, letters(mm(12.6), true), colours.text, at(margin + (sign ? 20 : 0), y + h - 4), mm(room), word);
    }

    void number(double y, double h) const
    {
        writeWithin(p, letters(mm(13.6), true, true), palette.ink, at(5, y + h - 3.6), mm(56), QString::fromStdString(page.view.number));
        report::VesselView view = page.view;
        view.places.clear(); // a reading is old before the ink is dry
        DrawOptions small;
        small.box = area(63, y + 1, width() - 67, h - 2);
        small.line_scale = mm(0.095);
        small.labels = false;
        small.ground = false;
        paintVessel(p, view, palette, small);
    }

    void headline(double y, double h) const
    {
        const QStringList words = Words::headline().split(QLatin1Char(' '));
        QStringList lines{QString(), QString()};
        const qsizetype half = Words::headline().size() / 2;
        for (const QString& word : words) {
            QString& line = lines[0].size() + word.size() / 2 <= half && lines[1].isEmpty() ? lines[0] : lines[1];
            line += (line.isEmpty() ? QString() : QStringLiteral(" ")) + word;
        }
        writeWithin(p, letters(mm(9.4), true), palette.ink, at(5, y + 8.4), mm(width() - 10), lines[0]);
        writeWithin(p, letters(mm(9.4), true), palette.ink, at(5, y + 17.2), mm(width() - 10), lines[1]);
        writeWithin(p, letters(mm(5.6), true), palette.ink, at(5, y + h - 1.8), mm(width() - 10), Words::onlyTheTablet());
    }

    void state(double y) const
    {
        const report::VesselView& view = page.view;
        const bool released = view.word == report::PlateWord::Released;
        const QString about = released ? Words::released(text::plateWord(view.word), text::holdPointName(pack, view.standing.hold_point))
                                       : (text::plateWord(view.word) + QLatin1Char(' ') + text::plateLine(view, pack, reading)).trimmed();
        writeWithin(p, letters(mm(5.2), true), palette.ink, at(5, y + 5.8), mm(width() - 10), Words::whenPrinted(about));
        const bool ends = released && view.standing.until_ms != rules::kNever;
        const QString end = ends ? Words::endsAtTheLatest(shortMoment(view.standing.until_ms, reading)) : Words::nothingIsReleased();
        writeWithin(p, letters(mm(5.2), true), palette.ink, at(5, y + 12), mm(width() - 10), end);
        writeWithin(p, letters(mm(3.8)), palette.ink, at(5, y + 17), mm(width() - 10),
            Words::printed(page.serial, text::dateTime(page.issued_ms, reading)));
    }

    void forbidden(double y, double h) const
    {
        constexpr std::array<Forbidden, 4> kAll{Forbidden::Cut, Forbidden::Heat, Forbidden::Fill, Forbidden::Move};
        const QColor ring = palette.fills ? palette.danger : palette.ink;
        for (std::size_t i = 0; i < kAll.size(); ++i) {
            const double x = 5 + (i % 2 == 0 ? 10 : 31);
            const double top = y + (i < 2 ? 0 : h / 2);
            paintForbidden(p, kAll[i], at(x, top + 8.5), mm(8), palette.ink, ring, palette.panel);
            writeWithin(p, letters(mm(3.6), true), palette.ink, at(x, top + 20.5), mm(20), Words::forbidden(kAll[i]), Place::Centre);
        }
    }

    void paint() const
    {
        p.save();
        p.setRenderHint(QPainter::Antialiasing);
        const double strip = std::max(height() - 138, 8.0);
        outline();
        hole(strip);
        signal(strip, 16);
        number(strip + 16, 16);
        line(strip + 32);
        headline(strip + 32, 26);
        line(strip + 58);
        state(strip + 58);
        line(strip + 77);
        const double y = strip + 78;
        forbidden(y + 2, 45);
        if (const auto symbol = encodeSymbol(page.symbol)) {
            const int dots = dotsFor(*symbol, mm(47.5));
            const int size = (symbol->size + 2 * kQuietZone) * dots;
            paintSymbol(p, *symbol, at(width() - 3, y) - QPointF(size, 0), dots, palette.ink, palette.panel);
        }
        writeWithin(p, letters(mm(9.2), true, true), palette.ink, at(5, height() - 4), mm(64), QString::fromStdString(page.code));
        writeWithin(p, letters(mm(3.4)), palette.ink, at(width() - 5, height() - 4), mm(27),
            Words::proof(QString::fromStdString(page.proof)), Place::Right);
        p.restore();
    }
};

Palette paletteFor(Label label)
{
    if (label == Label::Mm100x150) { // label printers print one colour
        return Palette::paperOneColour();
    }
    Palette palette = Palette::light();
    palette.paper = palette.panel;
    palette.ink = palette.warning_text;
    return palette;
}

} // namespace

QSizeF millimetres(Label label)
{
    switch (label) {
    case Label::Mm100x150:
        return {100, 150};
    case Label::A6:
        return {105, 148};
    case Label::A4Two:
        return {297, 210};
    }
    return {100, 150};
}

void paintTag(QPainter& p, const TagPage& page, const rules::Pack& pack, const text::Reading& reading, const Palette& palette,
    const QRectF& box, double dots_per_mm)
{
    loadFonts();
    Sheet{p, page, pack, reading, palette, box, dots_per_mm}.paint();
}

tl::expected<void, PageFault> writeTagPdf(
    const std::filesystem::path& file, const TagPage& page, const rules::Pack& pack, const text::Reading& reading, Label label, int dpi)
{
    const auto symbol = encodeSymbol(page.symbol);
    const double per_mm = dpi / 25.4;
    if (!symbol || dotsFor(*symbol, 47.5 * per_mm) < kFewestDots) {
        return tl::unexpected(PageFault::SymbolTooLarge);
    }
    loadFonts();
    QPdfWriter writer(QString::fromStdString(file.string()));
    writer.setResolution(dpi);
    writer.setPageSize(QPageSize(millimetres(label), QPageSize::Millimeter, QString(), QPageSize::ExactMatch));
    writer.setPageMargins(QMarginsF(0, 0, 0, 0));
    writer.setTitle(QString::fromStdString(page.view.number));
    writer.setCreator(QStringLiteral("Brimful"));
    QPainter p;
    if (!p.begin(&writer)) {
        return tl::unexpected(PageFault::CannotWrite);
    }
    const Palette palette = paletteFor(label);
    if (label == Label::A4Two) {
        for (const double x : {24.25, 172.75}) {
            paintTag(p, page, pack, reading, palette, QRectF(QPointF(x, 30) * per_mm, QSizeF(100, 150) * per_mm), per_mm);
        }
        write(p, letters(4 * per_mm), palette.ink, QPointF(148.5, 196) * per_mm, Words::twoTags(), Place::Centre);
    } else {
        paintTag(p, page, pack, reading, palette, QRectF(QPointF(0, 0), millimetres(label) * per_mm), per_mm);
    }
    return p.end() ? tl::expected<void, PageFault>() : tl::unexpected(PageFault::CannotWrite);
}

} // namespace brimful::print
