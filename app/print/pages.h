// Paper: the status tag and the audit report as PDF, painted by the painters of paint.h. Works without a display.
#pragma once

#include "app/print/paint.h"
#include "core/report/audit.h"

#include <QImage>
#include <QString>

#include <filesystem>

namespace brimful::print {

enum class Label : std::uint8_t { Mm100x150, A6, A4Two };
[[nodiscard]] QSizeF millimetres(Label);

struct TagPage {
    report::VesselView view;
    std::string symbol; // what the QR symbol says
    std::string code; // short code for typing
    std::int64_t serial{};
    std::int64_t issued_ms{};
    std::string proof; // first and last digits of the head
};

// Paints one tag into `box` (its true size when the painter's unit is 1/`per_mm` mm). Modules are whole printer dots.
void paintTag(QPainter&, const TagPage&, const rules::Pack&, const text::Reading&, const Palette&, const QRectF& box, double dots_per_mm);

enum class PageFault : std::uint8_t { CannotWrite, SymbolTooLarge, NothingToDraw, TooMuchForOnePage };
[[nodiscard]] tl::expected<void, PageFault> writeTagPdf(
    const std::filesystem::path&, const TagPage&, const rules::Pack&, const text::Reading&, Label, int dpi);
[[nodiscard]] tl::expected<void, PageFault> writeAuditPdf(
    const std::filesystem::path&, const report::Audit&, const rules::Pack&, const text::Reading&);

// The audit as text for a terminal; the PDF says the same.
[[nodiscard]] QString auditText(const report::Audit&, const rules::Pack&, const text::Reading&);

// What is in a picture file: the text of the first QR symbol found (ZXing-C++), or nothing.
[[nodiscard]] std::optional<std::string> readSymbol(const std::filesystem::path& picture);
[[nodiscard]] std::optional<std::string> readSymbol(const QImage& picture);

} // namespace brimful::print
