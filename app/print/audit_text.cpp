// The audit for a terminal.
#include "app/print/audit_document.h"
#include "app/print/pages.h"

#include <QStringList>

namespace brimful::print {

QString auditText(const report::Audit& audit, const rules::Pack& pack, const text::Reading& reading)
{
    const Document document = auditDocument(audit, pack, reading);
    QStringList lines;
    for (const Block& block : document.blocks) {
        const QString indented = QString(2 * block.indent, QLatin1Char(' ')) + block.text;
        switch (block.kind) {
        case Block::Kind::Drawing:
            break;
        case Block::Kind::Heading:
            lines << QString() << block.text << QString(block.text.size(), QLatin1Char('-'));
            break;
        case Block::Kind::Strong:
            lines << QStringLiteral("* ") + block.text;
            break;
        case Block::Kind::Demo:
        case Block::Kind::Question:
        case Block::Kind::Answer:
        case Block::Kind::Line:
        case Block::Kind::Small:
            lines << indented;
            break;
        }
    }
    lines << QString() << document.foot;
    return lines.join(QLatin1Char('\n')) + QLatin1Char('\n');
}

} // namespace brimful::print
