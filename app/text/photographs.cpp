// What the record tells of a photograph.
#include "app/text/words.h"

#include "app/text/tr.h"

namespace brimful::text {

QString photograph(const ledger::PhotoNote& note, bool of_vessel)
{
    constexpr std::size_t kShown = 12; // of a file's name, as much as of an entry's
    QStringList said;
    //: how a photograph came: by this program's own camera, or as a file of which nobody knows more
    said << (note.by_camera ? tr("taken with the tablet") : tr("from a file"));
    if (!note.found) {
        said << tr("nobody looked what is in it");
    } else {
        if (note.found->dark) {
            said << tr("dark");
        }
        if (note.found->blurred) {
            said << tr("blurred");
        }
        if (note.found->tag) {
            said << tr("the tag is in the picture");
        }
        if (note.found->other_tag) {
            said << tr("another vessel's tag is in the picture");
        }
        if (of_vessel && !note.found->tag && !note.found->other_tag) {
            said << tr("no tag in the picture");
        }
    }
    if (!note.chalk.empty()) {
        //: %1 four digits, to be seen in the picture
        said << tr("chalk number %1 was asked for").arg(QString::fromStdString(note.chalk));
    }
    if (note.alike) {
        //: %1 the first letters of a file's name
        said << tr("looks like an earlier picture, %1").arg(QString::fromStdString(canon::toHex(*note.alike).substr(0, kShown)));
    }
    return said.join(QStringLiteral(", "));
}

} // namespace brimful::text
