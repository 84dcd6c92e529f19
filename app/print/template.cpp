// Patterns on paper at full size: sheets that overlap, each with crosses that lie on its neighbours' crosses and with two bars
// to measure before anything is cut.
#include "app/print/plans.h"
#include "app/print/strokes.h"

#include <QCoreApplication>
#include <QPageLayout>
#include <QPageSize>
#include <QPdfWriter>

#include <algorithm>
#include <cmath>

namespace brimful::print {

namespace {

constexpr int kDpi = 1200;
constexpr double kMm = kDpi / 25.4;
constexpr double kMargin = 8; // mm, more than printers leave white
constexpr double kFoot = 27; // mm, for the bars and the words
constexpr double kRim = 14; // mm, round the pattern, so that the corner crosses stand clear of it
constexpr double kLongest = 4500; // mm, of a page on a roll: a PDF page ends at 5,080

class Words {
    Q_DECLARE_TR_FUNCTIONS(Template)
public:
    static QString onTheLine()
    {
        //: along the straight edge of a paper pattern: it is laid on a line drawn on the steel; capitals in English
        return tr("THIS EDGE ON THE LINE");
    }
    static QString centreOnTheLine()
    {
        //: along a line within a paper pattern: it is laid on a line drawn on the steel; capitals in English
        return tr("THIS LINE ON THE LINE");
    }
    static QString measureFirst()
    {
        //: on every sheet of a full-size pattern
        return tr("Print at 100 %. Measure both bars before you cut; if one is off, do not use this sheet.");
    }
    static QString sheet(int number, int of, const QString& pattern)
    {
        //: %1 of %2 sheets; %3 is the pattern, as "pipe"
        return tr("Sheet %1 of %2: %3").arg(number).arg(of).arg(pattern);
    }
    static QString outside()
    {
        //: on every sheet of a full-size pattern
        return tr("Printed side out. Lay crosses of the same name on each other.");
    }
    static QString sheets(const QString& pattern, int count)
    {
        //: %1 is a pattern, %2 how many sheets it has, one or more
        return tr("%1: sheets: %2").arg(pattern).arg(count);
    }
    static QString proven()
    {
        //: on the first sheet of a full-size pattern
        return tr("A pattern says where a line goes. It does not say that the vessel may be cut: ask the tablet.");
    }
};

QSizeF portrait(Paper paper)
{
    switch (paper) {
    case Paper::A4:
        return {210, 297};
    case Paper::A3:
        return {297, 420};
    case Paper::Letter:
        return {215.9, 279.4};
    case Paper::Roll:
        break;
    }
    return {610, 1000};
}

int countFor(double length, double window)
{
    const double pitch = window - Tiling::kOverlap;
    return std::max(1, static_cast<int>(std::ceil((length - Tiling::kOverlap) / pitch - 1e-9)));
}

Tiling tiled(const QRectF& area, const QSizeF& page)
{
    Tiling out;
    out.page = page;
    out.window = QRectF(kMargin, kMargin, page.width() - 2 * kMargin, page.height() - 2 * kMargin - kFoot);
    out.origin = QPointF(area.left(), area.bottom());
    out.pitch = QSizeF(out.window.width() - Tiling::kOverlap, out.window.height() - Tiling::kOverlap);
    out.columns = countFor(area.width(), out.window.width());
    out.rows = countFor(area.height(), out.window.height());
    return out;
}

// What is longer than wide runs along the roll.
Pattern turned(const Pattern& pattern)
{
    Pattern out = pattern;
    for (Stroke& stroke : out.strokes) {
        for (QPointF& at : stroke.points) {
            at = QPointF(-at.y(), at.x());
        }
    }
    return out;
}

struct Sheet {
    QPainter& p;
    const Palette& palette;
    const Pattern& pattern;
    const Tiling& tiling;
    QString part;
    int column{};
    int row{};

    // Whether any of the pattern lies on this sheet.
    [[nodiscard]] bool used() const
    {
        const QRectF window(tiling.window);
        return std::ranges::any_of(pattern.strokes, [&](const Stroke& one) {
            if (one.role == Stroke::Role::Centre) { // its end alone is no reason for a sheet
                return false;
            }
            QPolygonF points;
            for (const QPointF& at : one.points) {
                points << tiling.onPage(at, column, row);
            }
            if (one.closed) {
                points << points.first();
            }
            for (qsizetype i = 0; i + 1 < points.size(); ++i) {
                if (QRectF(points[i], points[i + 1]).normalized().adjusted(-0.1, -0.1, 0.1, 0.1).intersects(window)) {
                    return true;
                }
            }
            return false;
        });
    }

    [[nodiscard]] static QPointF dots(QPointF mm) { return mm * kMm; }
    [[nodiscard]] QPointF at(QPointF inPattern) const { return dots(tiling.onPage(inPattern, column, row)); }
    [[nodiscard]] static QFont font(double mm, bool bold = false) { return letters(mm * kMm, bold); }

    [[nodiscard]] QPolygonF mapped(const Stroke& stroke) const
    {
        QPolygonF out;
        for (const QPointF& one : stroke.points) {
            out << at(one);
        }
        return out;
    }

    void stroke(const Stroke& one) const
    {
        const QPolygonF points = mapped(one);
        switch (one.role) {
        case Stroke::Role::Cut:
        case Stroke::Role::Line:
            p.setPen(solid(palette.ink, 0.3 * kMm));
            break;
        case Stroke::Role::Centre:
            p.setPen(chain(palette.ink, 0.15 * kMm, 0.25 * kMm));
            break;
        case Stroke::Role::Seam:
            p.setPen(broken(palette.ink, 0.25 * kMm, 3 * kMm, 1.5 * kMm));
            break;
        case Stroke::Role::Mark:
            p.setPen(solid(palette.ink, 0.12 * kMm));
            break;
        }
        p.setBrush(Qt::NoBrush);
        if (one.closed) {
            p.drawPolygon(points);
        } else {
            p.drawPolyline(points);
        }
        if (one.role == Stroke::Role::Line) {
            wordsAlong(points.first(), points.last(), Words::onTheLine(), 14);
        }
        if (one.role == Stroke::Role::Centre) {
            wordsAlong(points.first(), points.last(), Words::centreOnTheLine(), 5);
        }
        if (one.role == Stroke::Role::Mark && !one.label.isEmpty()) {
            const QPointF down = points.last() - points.first();
            const double length = std::max(1.0, std::hypot(down.x(), down.y()));
            if (length < 15 * kMm && std::abs(down.x()) > std::abs(down.y())) { // a tick that lies: its name stands beside it
                write(p, font(3.2), palette.ink, points.first() + QPointF(down.x() > 0 ? -1 : 1, 0) * kMm + QPointF(0, 1.2 * kMm),
                    one.label, down.x() > 0 ? Place::Right : Place::Left);
                return;
            }
            if (length < 15 * kMm) { // a tick: its name stands before it
                write(p, font(3.2), palette.ink, points.first() - down / length * (3 * kMm) + QPointF(0, 1.2 * kMm), one.label,
                    Place::Centre);
                return;
            }
            p.save();
            p.translate(points.first() + down / length * (7 * kMm));
            p.rotate(std::atan2(down.y(), down.x()) * 180 / M_PI - 90);
            write(p, font(3.6), palette.ink, QPointF(1 * kMm, 0), one.label);
            p.restore();
        }
    }

    // The words stand on the pattern's side of its straight edge, every 150 mm.
    void wordsAlong(QPointF from, QPointF to, const QString& words, double below) const
    {
        const QPointF run = to - from;
        const double length = std::hypot(run.x(), run.y());
        const double width = widthOf(font(4, true), words);
        if (length < width) {
            return;
        }
        p.save();
        p.translate(from);
        p.rotate(std::atan2(run.y(), run.x()) * 180 / M_PI);
        const int times = std::max(1, static_cast<int>(length / (150 * kMm)));
        for (int i = 0; i < times; ++i) {
            write(p, font(4, true), palette.ink, QPointF(length * (i + 0.5) / times, below * kMm), words, Place::Centre, palette.paper);
        }
        p.restore();
    }

    void crosses() const
    {
        constexpr double kArm = 4;
        for (int k = column; k <= column + 1; ++k) {
            for (int j = row; j <= row + 1; ++j) {
                const QPointF here = at(tiling.origin
                    + QPointF(k * tiling.pitch.width() + Tiling::kOverlap / 2, -(j * tiling.pitch.height() + Tiling::kOverlap / 2)));
                p.setPen(solid(palette.ink, 0.15 * kMm));
                p.drawLine(here - QPointF(kArm * kMm, 0), here + QPointF(kArm * kMm, 0));
                p.drawLine(here - QPointF(0, kArm * kMm), here + QPointF(0, kArm * kMm));
                p.drawEllipse(here, 2 * kMm, 2 * kMm);
                write(p, font(2.6), palette.ink, here + QPointF(2.4, -1) * kMm, QStringLiteral("%1%2").arg(QChar('A' + k % 26)).arg(j + 1));
            }
        }
    }

    // 100 mm and 4 in, each with its end strokes; lengths are between the strokes' middles.
    void bars() const
    {
        const double y = tiling.page.height() - kMargin - kFoot + 8;
        const auto bar = [&](double top, double length, const QString& name) {
            const QPointF left = dots({kMargin + 2, top});
            const QPointF right = dots({kMargin + 2 + length, top});
            p.setPen(solid(palette.ink, 0.2 * kMm));
            p.drawLine(left, right);
            for (const QPointF& end : {left, right}) {
                p.drawLine(end - QPointF(0, 2 * kMm), end + QPointF(0, 2 * kMm));
            }
            write(p, font(3), palette.ink, right + QPointF(2, 1) * kMm, name);
        };
        bar(y, 100, QStringLiteral("100 mm"));
        bar(y + 6, 101.6, QStringLiteral("4 in"));
    }

    void foot(int number, int of) const
    {
        bars();
        const double y = tiling.page.height() - kMargin - kFoot + 8;
        const double left = kMargin + 120;
        const double room = (tiling.page.width() - kMargin - left) * kMm;
        writeWithin(p, font(3.6, true), palette.ink, dots({left, y + 1}), room,
            Words::sheet(number, of, part.isEmpty() ? pattern.name : pattern.name + QStringLiteral(", ") + part));
        const double whole = (tiling.page.width() - 2 * kMargin) * kMm;
        writeWithin(p, font(3.2), palette.ink, dots({kMargin, y + 13}), whole, Words::measureFirst());
        writeWithin(p, font(3.2), palette.ink, dots({kMargin, y + 17.5}), whole, Words::outside());
    }

    void paint(int number, int of) const
    {
        p.save();
        p.setClipRect(QRectF(dots(tiling.window.topLeft()), tiling.window.size() * kMm));
        for (const Stroke::Role role :
            {Stroke::Role::Mark, Stroke::Role::Seam, Stroke::Role::Centre, Stroke::Role::Line, Stroke::Role::Cut}) {
            for (const Stroke& one : pattern.strokes) {
                if (one.role == role) {
                    stroke(one);
                }
            }
        }
        crosses();
        p.restore();
        p.setPen(solid(palette.ink, 0.08 * kMm));
        p.setBrush(Qt::NoBrush);
        p.drawRect(QRectF(dots(tiling.window.topLeft()), tiling.window.size() * kMm));
        foot(number, of);
    }
};

// Title, facts, how many sheets, and the ordinates, in as many columns as they need.
void paintFirst(QPainter& p, const TemplatePage& page, const std::vector<int>& counts, const QSizeF& paper, const Palette& palette)
{
    const double width = paper.width() - 2 * kMargin - 8;
    double y = kMargin + 10;
    const auto line = [&](double size, bool bold, const QString& words) {
        y += size * 1.5;
        writeWithin(p, letters(size * kMm, bold), palette.ink, QPointF(kMargin + 4, y) * kMm, width * kMm, words);
    };
    line(7, true, page.part.isEmpty() ? page.title : page.title + QStringLiteral(": ") + page.part);
    line(3.6, false, Words::proven());
    line(3.6, false, Words::measureFirst());
    y += 3;
    for (const QString& fact : page.facts) {
        line(3.6, false, fact);
    }
    for (std::size_t i = 0; i < page.patterns.size(); ++i) {
        line(3.6, true, Words::sheets(page.patterns[i].name, counts[i]));
    }
    y += 6;
    const double top = y;
    const double step = 4.6;
    const auto perColumn = static_cast<std::size_t>(std::max(4.0, (paper.height() - kMargin - top) / step - 2));
    if (page.table.empty()) {
        return;
    }
    const std::size_t columns = (page.table.size() - 1 + perColumn - 1) / perColumn;
    const double columnWidth = std::min(96.0, width / static_cast<double>(std::max<std::size_t>(columns, 1)));
    const auto row = [&](std::size_t column, std::size_t down, const QStringList& cells, bool head) {
        // The number is narrow, the others share what is left.
        const double left = kMargin + 4 + static_cast<double>(column) * columnWidth;
        const double share = columnWidth * 0.88 / static_cast<double>(std::max<qsizetype>(cells.size() - 1, 1));
        for (qsizetype c = 0; c < cells.size(); ++c) {
            const double x = left + (c == 0 ? 0 : columnWidth * 0.1 + share * static_cast<double>(c - 1));
            writeWithin(p, letters(3.2 * kMm, head), palette.ink, QPointF(x, top + static_cast<double>(down + 1) * step) * kMm,
                (c == 0 ? columnWidth * 0.1 : share) * 0.96 * kMm, cells[c]);
        }
    };
    const double beside = kMargin + 4 + static_cast<double>(columns) * columnWidth;
    if (const double room = paper.width() - kMargin - beside; page.joint && room > 50) {
        const PlanLook look{palette, QRectF(beside * kMm, top * kMm, room * kMm, 0.8 * room * kMm), kMm / 10};
        paintJoint(p, *page.joint, JointView::Side, look);
    }
    for (std::size_t i = 1; i < page.table.size(); ++i) {
        const std::size_t column = (i - 1) / perColumn;
        if ((i - 1) % perColumn == 0) {
            row(column, 0, page.table.front(), true);
        }
        row(column, (i - 1) % perColumn + 1, page.table[i], false);
    }
}

} // namespace

QPointF Tiling::onPage(QPointF pattern, int column, int row) const
{
    return {
        window.left() + pattern.x() - origin.x() - column * pitch.width(), window.top() + origin.y() - pattern.y() - row * pitch.height()};
}

Tiling tilingOf(const QRectF& bounds, Paper paper, double roll_width_mm)
{
    const QRectF area = bounds.adjusted(-kRim, -kRim, kRim, kRim);
    if (paper == Paper::Roll) {
        const double need = area.height() + 2 * kMargin + kFoot;
        return tiled(area, {roll_width_mm, std::clamp(need + 1, 200.0, kLongest)});
    }
    const QSizeF upright = portrait(paper);
    const Tiling a = tiled(area, upright);
    const Tiling b = tiled(area, upright.transposed());
    return b.columns * b.rows < a.columns * a.rows ? b : a;
}

tl::expected<int, PageFault> writeTemplatePdf(
    const std::filesystem::path& file, const TemplatePage& page, Paper paper, double roll_width_mm)
{
    loadFonts();
    std::vector<Pattern> patterns = page.patterns;
    std::vector<Tiling> tilings;
    for (Pattern& pattern : patterns) {
        const QRectF box = pattern.bounds();
        if (paper == Paper::Roll && box.width() > box.height()) {
            pattern = turned(pattern);
        }
        tilings.push_back(tilingOf(pattern.bounds(), paper, roll_width_mm));
    }
    if (patterns.empty()) {
        return tl::unexpected(PageFault::NothingToDraw);
    }
    QPdfWriter writer(QString::fromStdString(file.string()));
    writer.setResolution(kDpi);
    writer.setTitle(page.title);
    writer.setCreator(QStringLiteral("Brimful"));
    writer.setPageMargins(QMarginsF(0, 0, 0, 0));
    const auto setPage = [&](const QSizeF& size) {
        writer.setPageSize(QPageSize(size, QPageSize::Millimeter, QString(), QPageSize::ExactMatch));
        writer.setPageMargins(QMarginsF(0, 0, 0, 0));
    };
    const QSizeF first = paper == Paper::Roll ? tilings.front().page : portrait(paper);
    setPage(paper == Paper::Roll ? QSizeF(first.width(), 420) : first);
    QPainter p;
    if (!p.begin(&writer)) {
        return tl::unexpected(PageFault::CannotWrite);
    }
    const Palette palette = Palette::paperOneColour();
    std::vector<Sheet> sheets; // blank ones are not printed
    for (std::size_t i = 0; i < patterns.size(); ++i) {
        for (int row = 0; row < tilings[i].rows; ++row) {
            for (int column = 0; column < tilings[i].columns; ++column) {
                const Sheet sheet{p, palette, patterns[i], tilings[i], page.part, column, row};
                if (sheet.used()) {
                    sheets.push_back(sheet);
                }
            }
        }
    }
    std::vector<int> counts;
    counts.reserve(patterns.size());
    for (const Pattern& pattern : patterns) {
        counts.push_back(static_cast<int>(std::ranges::count_if(sheets, [&](const Sheet& one) { return &one.pattern == &pattern; })));
    }
    paintFirst(p, page, counts, paper == Paper::Roll ? QSizeF(first.width(), 420) : first, palette);
    const int count = static_cast<int>(sheets.size());
    int number = 0;
    for (const Sheet& sheet : sheets) {
        setPage(sheet.tiling.page);
        if (!writer.newPage()) {
            return tl::unexpected(PageFault::CannotWrite);
        }
        sheet.paint(++number, count);
    }
    return p.end() ? tl::expected<int, PageFault>(count + 1) : tl::unexpected(PageFault::CannotWrite);
}

} // namespace brimful::print
