// The book on A4: laid out twice, the second time with the page numbers of its contents.
#include "app/print/book.h"
#include "app/print/strokes.h"

#include "app/print/audit_document.h"

#include <QAbstractTextDocumentLayout>
#include <QCoreApplication>
#include <QPageSize>
#include <QPdfWriter>
#include <QTextBlock>
#include <QTextCursor>
#include <QTextDocument>

#include <cmath>

namespace brimful::print {

namespace {

constexpr int kDpi = 300;
constexpr double kMm = kDpi / 25.4;
constexpr double kWidth = 210 * kMm;
constexpr double kHeight = 297 * kMm;
constexpr double kSide = 18 * kMm;
constexpr double kTop = 24 * kMm;
constexpr double kBottom = 20 * kMm;
constexpr double kOver = 0.5 * kMm;
constexpr double kKeep = 26 * kMm; // room that a heading needs below it

struct Words {
    Q_DECLARE_TR_FUNCTIONS(Book)
};

double pageHeight() { return kHeight - kTop - kBottom; }

void lay(QTextDocument& document, QPdfWriter& writer, const QString& html)
{
    document.documentLayout()->setPaintDevice(&writer);
    QFont font(fontFamily());
    font.setPointSizeF(9.5);
    document.setDefaultFont(font);
    document.setDocumentMargin(0);
    document.setHtml(html);
    document.setPageSize(QSizeF(kWidth - 2 * kSide, pageHeight()));
    // A heading never stands last on a page.
    for (QTextBlock block = document.begin(); block.isValid(); block = block.next()) {
        if (block.blockFormat().headingLevel() == 0) {
            continue;
        }
        const QRectF box = document.documentLayout()->blockBoundingRect(block);
        const double in_page = std::fmod(box.bottom(), pageHeight());
        if (in_page > pageHeight() - kKeep) {
            QTextCursor cursor(block);
            QTextBlockFormat format = block.blockFormat();
            format.setPageBreakPolicy(QTextFormat::PageBreak_AlwaysBefore);
            cursor.setBlockFormat(format);
        }
    }
    // Laid out anew from the top: what was laid out while it changed leaves blocks out when it is drawn.
    const QSizeF page = document.pageSize();
    document.setPageSize(QSizeF());
    document.setPageSize(page);
}

std::map<QString, int> pagesOf(const QTextDocument& document)
{
    std::map<QString, int> out;
    for (QTextBlock block = document.begin(); block.isValid(); block = block.next()) {
        for (auto at = block.begin(); !at.atEnd(); ++at) {
            for (const QString& name : at.fragment().charFormat().anchorNames()) {
                const double top = document.documentLayout()->blockBoundingRect(block).top();
                out.emplace(name, static_cast<int>(top / pageHeight()) + 1);
            }
        }
    }
    return out;
}

void frame(QPainter& p, const Book& book, int page, int pages)
{
    const Palette palette = Palette::light();
    //: head of each page; %1 the rules' id, %2 their version
    const QString running = Words::tr("Rules %1, version %2").arg(QString::fromStdString(book.pack->id)).arg(book.pack->version);
    write(p, letters(3.2 * kMm, true), palette.ink, QPointF(kSide, 14 * kMm), running);
    write(p, letters(3.2 * kMm), palette.ink, QPointF(kWidth - kSide, 14 * kMm), pageWord(page + 1, pages), Place::Right);
    p.setPen(solid(palette.ink, 0.4 * kMm));
    p.drawLine(QPointF(kSide, 17 * kMm), QPointF(kWidth - kSide, 17 * kMm));
    p.drawLine(QPointF(kSide, kHeight - 15 * kMm), QPointF(kWidth - kSide, kHeight - 15 * kMm));
    writeWithin(p, letters(2.7 * kMm, false, true), palette.ink, QPointF(kSide, kHeight - 10.5 * kMm), kWidth - 2 * kSide,
        QString::fromStdString(canon::toHex(book.pack->together())));
}

} // namespace

tl::expected<void, PageFault> writeBookPdf(const std::filesystem::path& file, const Book& book)
{
    loadFonts();
    QPdfWriter writer(QString::fromStdString(file.string()));
    writer.setResolution(kDpi);
    writer.setPageSize(QPageSize(QPageSize::A4));
    writer.setPageMargins(QMarginsF(0, 0, 0, 0));
    writer.setTitle(Words::tr("Rules %1, version %2").arg(QString::fromStdString(book.pack->id)).arg(book.pack->version));
    writer.setCreator(QStringLiteral("Brimful"));
    QTextDocument document;
    lay(document, writer, bookHtml(book));
    // The numbers themselves take no line more.
    std::map<QString, int> pages = pagesOf(document);
    lay(document, writer, bookHtml(book, pages));
    if (const auto again = pagesOf(document); again != pages) {
        lay(document, writer, bookHtml(book, again));
    }
    QPainter p;
    if (!p.begin(&writer)) {
        return tl::unexpected(PageFault::CannotWrite);
    }
    const int count = document.pageCount();
    for (int page = 0; page < count; ++page) {
        if (page > 0 && !writer.newPage()) {
            return tl::unexpected(PageFault::CannotWrite);
        }
        frame(p, book, page, count);
        p.save();
        p.translate(kSide, kTop - page * pageHeight());
        QAbstractTextDocumentLayout::PaintContext context;
        // A letter of the first line of the next page reaches a little over its line.
        context.clip = QRectF(0, page * pageHeight() - kOver, kWidth - 2 * kSide, pageHeight());
        context.palette.setColor(QPalette::Text, Palette::light().ink);
        p.setClipRect(context.clip);
        document.documentLayout()->draw(&p, context);
        p.restore();
    }
    return p.end() ? tl::expected<void, PageFault>() : tl::unexpected(PageFault::CannotWrite);
}

} // namespace brimful::print
