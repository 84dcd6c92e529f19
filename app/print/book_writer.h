// HTML that both a browser and Qt's text document lay out: headings with anchors, paragraphs, lists. Private to this room.
#pragma once

#include "app/print/book.h"

namespace brimful::print {

struct Heading {
    int level{};
    QString anchor;
    QString text;
};

class BookWriter {
public:
    explicit BookWriter(const Book& its_book)
        : book(its_book)
        , pack(*its_book.pack)
    {
    }

    const Book& book;
    const rules::Pack& pack;
    QString html;
    std::vector<Heading> headings;

    void heading(int level, const QString& anchor, const QString& text);
    void line(const QString& text, const char* style = "");
    // "Life: 30 min"; nothing when there is nothing to say.
    void item(const QString& name, const QString& value);
    void list(const QString& name, const QStringList& values);
    void phrase(const QString& name, const text::Phrase& phrase);
    void sources(const std::vector<rules::SourceRef>& sources);
    void open(const char* tag) { html += QLatin1Char('<') + QLatin1String(tag) + QLatin1Char('>'); }
    void close(const char* tag) { html += QLatin1String("</") + QLatin1String(tag) + QLatin1String(">\n"); }

    [[nodiscard]] QString of(const std::string& key) const { return text::ofPack(pack, key); }
    [[nodiscard]] bool known(const std::string& key) const { return pack.strings.contains(key); }
    [[nodiscard]] QString roles(const std::vector<rules::Index>& roles) const;
    [[nodiscard]] QStringList events(const std::vector<rules::Index>& events) const;
    [[nodiscard]] QString span(std::int64_t ms) const { return text::span(ms, book.reading); }

    // book_steps.cpp
    void journey();
    void step(rules::Index step);
    void holdPoint(rules::Index hold_point);
    // book_changes.cpp
    void changes(const Since& since);

private:
    void nested(const text::Phrase& phrase);
    void rule(const rules::Rule& rule);
    void rules_(const QString& name, const std::vector<rules::Rule>& rules);
};

} // namespace brimful::print
