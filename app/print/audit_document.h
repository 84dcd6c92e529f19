// The audit as one document, before it is text or paper: both are made from these blocks, so both say the same.
#pragma once

#include "app/text/words.h"
#include "core/report/audit.h"

#include <QString>

#include <vector>

namespace brimful::print {

struct Block {
    enum class Kind : std::uint8_t {
        Demo, // a band
        Question,
        Answer,
        Heading,
        Strong, // first line of an item
        Line, // of an item or by itself
        Small, // hashes and sources
        Drawing
    } kind{Kind::Line};
    QString text;
    int indent{}; // steps of about 5 mm, or two spaces
};

struct Document {
    std::vector<Block> blocks;
    QString running; // head of each page
    QString foot; // the record's head hash
    bool demo{};
    report::Signal signal{report::Signal::Danger};
};

[[nodiscard]] Document auditDocument(const report::Audit&, const rules::Pack&, const text::Reading&);
[[nodiscard]] QString demoWord();
[[nodiscard]] QString pageWord(int page, int pages);

} // namespace brimful::print
