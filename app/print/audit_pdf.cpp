// The audit on A4: laid out once to know the pages, then painted.
#include "app/print/audit_document.h"
#include "app/print/pages.h"
#include "app/print/strokes.h"

#include <QPageLayout>
#include <QPageSize>
#include <QPdfWriter>
#include <QTextLayout>

#include <algorithm>

namespace brimful::print {

namespace {

constexpr int kDpi = 300;
constexpr double kMm = kDpi / 25.4;
constexpr double kWidth = 210 * kMm;
constexpr double kHeight = 297 * kMm;
constexpr double kSide = 18 * kMm;
constexpr double kTop = 26 * kMm;
constexpr double kBottom = 22 * kMm;
constexpr double kIndent = 6 * kMm;
constexpr double kDrawing = 66 * kMm;

struct Style {
    double size; // mm
    bool bold;
    double before; // mm
    double after;
};

Style styleOf(Block::Kind kind)
{
    switch (kind) {
    case Block::Kind::Demo:
        return {4.6, true, 0, 2};
    case Block::Kind::Question:
        return {5.6, true, 0, 2};
    case Block::Kind::Answer:
        return {8.2, true, 1, 3};
    case Block::Kind::Heading:
        return {4.8, true, 6, 1.5};
    case Block::Kind::Strong:
        return {3.7, true, 2.4, 0.4};
    case Block::Kind::Line:
        return {3.5, false, 0.3, 0.3};
    case Block::Kind::Small:
        return {2.9, false, 0.2, 0.4};
    case Block::Kind::Drawing:
        return {0, false, 4, 4};
    }
    return {3.5, false, 0, 0};
}

struct Colours {
    QColor panel, text;
};

Colours coloursOf(report::Signal signal, const Palette& palette)
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

// One block at its place.
struct Placed {
    const Block* block;
    int page;
    double y;
    double height;
};

class Paper {
public:
    Paper(const report::Audit& audit, Document document)
        : m_audit(audit)
        , m_document(std::move(document))
        , m_palette(Palette::light())
    {
        m_palette.paper = m_palette.panel;
        place();
    }

    bool paint(QPdfWriter& writer) const
    {
        QPainter p;
        if (!p.begin(&writer)) {
            return false;
        }
        int page = -1;
        for (const Placed& placed : m_placed) {
            while (page < placed.page) {
                if (++page > 0 && !writer.newPage()) {
                    return false;
                }
                frame(p, page);
            }
            block(p, placed);
        }
        return p.end();
    }

private:
    [[nodiscard]] static double left(const Block& block) { return kSide + block.indent * kIndent; }
    [[nodiscard]] static double room(const Block& block)
    {
        const double inside = block.kind == Block::Kind::Answer ? 8 * kMm : 0;
        return kWidth - kSide - left(block) - inside;
    }

    // Lines broken at words; a line longer than the page is broken anywhere.
    static double layLines(QTextLayout& layout, double width)
    {
        QTextOption option;
        option.setWrapMode(QTextOption::WrapAtWordBoundaryOrAnywhere);
        layout.setTextOption(option);
        double y = 0;
        layout.beginLayout();
        for (QTextLine line = layout.createLine(); line.isValid(); line = layout.createLine()) {
            line.setLineWidth(width);
            line.setPosition({0, y});
            y += line.height();
        }
        layout.endLayout();
        return y;
    }

    [[nodiscard]] static double heightOf(const Block& block)
    {
        if (block.kind == Block::Kind::Drawing) {
            return kDrawing;
        }
        const Style style = styleOf(block.kind);
        QTextLayout layout(block.text, letters(style.size * kMm, style.bold));
        return layLines(layout, room(block)) + (block.kind == Block::Kind::Answer ? 6 * kMm : 0);
    }

    // A heading or the first line of an item never stands last on a page.
    [[nodiscard]] static double keptWith(const Block& block)
    {
        return block.kind == Block::Kind::Heading ? 40 * kMm : block.kind == Block::Kind::Strong ? 11 * kMm : 0;
    }

    void place()
    {
        double y = kTop;
        int page = 0;
        for (const Block& block : m_document.blocks) {
            const Style style = styleOf(block.kind);
            const double height = heightOf(block);
            double before = y > kTop ? style.before * kMm : 0;
            if (y + before + height + keptWith(block) > kHeight - kBottom) {
                ++page;
                y = kTop;
                before = 0;
            }
            m_placed.push_back({&block, page, y + before, height});
            y += before + height + style.after * kMm;
        }
        m_pages = page + 1;
    }

    void frame(QPainter& p, int page) const
    {
        const QFont font = letters(3.2 * kMm);
        write(p, letters(3.2 * kMm, true), m_palette.ink, QPointF(kSide, 15 * kMm), m_document.running);
        write(p, font, m_palette.ink, QPointF(kWidth - kSide, 15 * kMm), pageWord(page + 1, m_pages), Place::Right);
        p.setPen(solid(m_palette.ink, 0.4 * kMm));
        p.drawLine(QPointF(kSide, 18 * kMm), QPointF(kWidth - kSide, 18 * kMm));
        p.drawLine(QPointF(kSide, kHeight - 17 * kMm), QPointF(kWidth - kSide, kHeight - 17 * kMm));
        writeWithin(
            p, letters(2.9 * kMm, false, true), m_palette.ink, QPointF(kSide, kHeight - 12 * kMm), kWidth - 2 * kSide, m_document.foot);
        if (m_document.demo) {
            const QRectF band(kWidth / 2 - 22 * kMm, 8 * kMm, 44 * kMm, 8.4 * kMm);
            p.fillRect(band, m_palette.ink);
            write(p, letters(6 * kMm, true), m_palette.panel, QPointF(band.center().x(), band.bottom() - 2.1 * kMm), demoWord(),
                Place::Centre);
        }
    }

    void block(QPainter& p, const Placed& placed) const
    {
        const Block& block = *placed.block;
        if (block.kind == Block::Kind::Drawing) {
            DrawOptions options;
            options.box = QRectF(kSide, placed.y, kWidth - 2 * kSide, kDrawing);
            options.line_scale = kMm * 0.115;
            paintVessel(p, m_audit.view, m_palette, options);
            return;
        }
        QColor ink = block.kind == Block::Kind::Small ? m_palette.ink2 : m_palette.ink;
        QPointF at(left(block), placed.y);
        if (block.kind == Block::Kind::Answer) {
            const Colours colours = coloursOf(m_document.signal, m_palette);
            const QRectF panel(kSide, placed.y, kWidth - 2 * kSide, placed.height);
            p.setPen(solid(m_palette.ink, 0.6 * kMm));
            p.setBrush(colours.panel);
            p.drawRect(panel);
            p.setBrush(Qt::NoBrush);
            ink = colours.text;
            at += QPointF(4 * kMm, 3 * kMm);
        }
        const Style style = styleOf(block.kind);
        QTextLayout layout(block.text, letters(style.size * kMm, style.bold));
        layLines(layout, room(block));
        p.setPen(ink);
        layout.draw(&p, at);
    }

    const report::Audit& m_audit;
    Document m_document;
    Palette m_palette;
    std::vector<Placed> m_placed;
    int m_pages{1};
};

} // namespace

tl::expected<void, PageFault> writeAuditPdf(
    const std::filesystem::path& file, const report::Audit& audit, const rules::Pack& pack, const text::Reading& reading)
{
    loadFonts();
    QPdfWriter writer(QString::fromStdString(file.string()));
    writer.setResolution(kDpi);
    writer.setPageSize(QPageSize(QPageSize::A4));
    writer.setPageMargins(QMarginsF(0, 0, 0, 0));
    Document document = auditDocument(audit, pack, reading);
    writer.setTitle(document.running);
    writer.setCreator(QStringLiteral("Brimful"));
    const Paper paper(audit, std::move(document));
    return paper.paint(writer) ? tl::expected<void, PageFault>() : tl::unexpected(PageFault::CannotWrite);
}

} // namespace brimful::print
