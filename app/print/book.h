// The rules as a document that a safety person reads and signs: HTML, and the same on A4 as PDF.
#pragma once

#include "app/print/pages.h"
#include "core/rules/claims.h"
#include "core/rules/law.h"
#include "core/rules/proof.h"

namespace brimful::print {

// What became of an older version.
struct Since {
    const rules::Pack* pack{};
    QString name; // "base 1" or a file
    std::vector<rules::Finding> more; // granted now and not then: an example for each hold point
    std::vector<rules::Finding> less; // granted then and not now
};

struct Book {
    const rules::Pack* pack{};
    std::span<const rules::Claim> claims;
    std::optional<Since> since;
    text::Reading reading;
};

// A whole HTML page. `pages`: the page of each anchor, for the contents on paper; empty: links alone.
[[nodiscard]] QString bookHtml(const Book&, const std::map<QString, int>& pages = {});
[[nodiscard]] tl::expected<void, PageFault> writeBookPdf(const std::filesystem::path&, const Book&);

} // namespace brimful::print
